//! Drawing a photo anew: upright, smaller, bare.

use image::{
    DynamicImage, GenericImageView, Rgb, RgbImage, codecs::jpeg::JpegEncoder, imageops::FilterType,
};

use crate::{
    kind::Kind,
    look::{decoder, look},
    refused::Refused,
};

/// The longest side of a photo as it is kept, in pixels.
pub const LONGEST_WHOLE: u32 = 2_048;

/// The longest side of a photo in a row of others, in pixels.
pub const LONGEST_SMALL: u32 = 320;

/// How good the JPEG of a whole photo is, of 100: a hairline in a tile still shows.
const GOOD_WHOLE: u8 = 85;

/// How good that of a small one is.
const GOOD_SMALL: u8 = 75;

/// A photo, ready to be kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ready {
    /// The photo as a JPEG, at most [`LONGEST_WHOLE`] on a side.
    pub whole: Vec<u8>,
    /// The same, at most [`LONGEST_SMALL`] on a side.
    pub small: Vec<u8>,
    /// The width of the whole in pixels.
    pub width: u32,
    /// The height of the whole in pixels.
    pub height: u32,
}

/// Draws a photo anew from what was handed in. Takes up to a second and a quarter of a gigabyte;
/// [`crate::Looked::is_large`] tells which ones take most.
///
/// # Errors
///
/// As [`look`], and [`Refused::Broken`] if it cannot be drawn.
pub fn ready(bytes: &[u8]) -> Result<Ready, Refused> {
    let looked = look(bytes)?;
    let (whole, small) = sizes(looked.kind, bytes)?;
    Ok(Ready {
        width: whole.width(),
        height: whole.height(),
        whole: jpeg(&whole, GOOD_WHOLE)?,
        small: jpeg(&small, GOOD_SMALL)?,
    })
}

/// A photo that comes back from a folder: one that was made here stays as it is, byte for byte;
/// any other is drawn anew.
///
/// # Errors
///
/// As [`ready`].
pub fn kept(bytes: &[u8]) -> Result<Ready, Refused> {
    let looked = look(bytes)?;
    let is_ours = looked.kind == Kind::Jpeg
        && !looked.has_tags
        && looked.width.max(looked.height) <= LONGEST_WHOLE;
    if !is_ours {
        return ready(bytes);
    }
    let (_, small) = sizes(looked.kind, bytes)?;
    Ok(Ready {
        width: looked.width,
        height: looked.height,
        whole: bytes.to_vec(),
        small: jpeg(&small, GOOD_SMALL)?,
    })
}

/// A photo drawn in its two sizes, upright.
fn sizes(kind: Kind, bytes: &[u8]) -> Result<(RgbImage, RgbImage), Refused> {
    let broken = |error| Refused::broken(&error);
    let mut decoder = decoder(kind, bytes)?;
    let up = decoder.orientation().map_err(broken)?;
    let drawn = DynamicImage::from_decoder(decoder).map_err(broken)?;
    let mut whole = DynamicImage::from(on_white(&shrunk(drawn, LONGEST_WHOLE)));
    whole.apply_orientation(up);
    let whole = whole.into_rgb8();
    let small = shrunk(whole.clone().into(), LONGEST_SMALL).into_rgb8();
    Ok((whole, small))
}

/// No larger than that. A very large one is first made smaller in a rough way: the fine way would
/// take several times its memory.
fn shrunk(drawn: DynamicImage, longest: u32) -> DynamicImage {
    let rough = longest * 2;
    let drawn = if drawn.width().max(drawn.height()) > rough {
        drawn.thumbnail(rough, rough)
    } else {
        drawn
    };
    if drawn.width().max(drawn.height()) > longest {
        drawn.resize(longest, longest, FilterType::CatmullRom)
    } else {
        drawn
    }
}

/// What can be seen through is laid on white.
fn on_white(drawn: &DynamicImage) -> RgbImage {
    if !drawn.color().has_alpha() {
        return drawn.to_rgb8();
    }
    let (width, height) = drawn.dimensions();
    let drawn = drawn.to_rgba8();
    RgbImage::from_fn(width, height, |x, y| {
        let [red, green, blue, there] = drawn.get_pixel(x, y).0;
        let laid = |part: u8| {
            let sum = u32::from(part) * u32::from(there) + 255 * (255 - u32::from(there));
            u8::try_from(sum.div_ceil(255)).unwrap_or(u8::MAX)
        };
        Rgb([laid(red), laid(green), laid(blue)])
    })
}

fn jpeg(drawn: &RgbImage, good: u8) -> Result<Vec<u8>, Refused> {
    let mut out = Vec::new();
    JpegEncoder::new_with_quality(&mut out, good)
        .encode_image(drawn)
        .map_err(|error| Refused::broken(&error))?;
    Ok(out)
}
