//! A first look at what was handed in: what it is and how large, without drawing it.

use std::io::Cursor;

use image::{
    ImageDecoder, Limits,
    codecs::{jpeg::JpegDecoder, png::PngDecoder, webp::WebPDecoder},
};

use crate::{jpeg::Skeleton, kind::Kind, refused::Refused};

/// The most bytes that are taken.
pub const LONGEST_BYTES: usize = 12 * 1024 * 1024;

/// The most pixels that are drawn.
pub const MOST_PIXELS: u64 = 60_000_000;

/// The longest side that is drawn, in pixels.
pub(crate) const LONGEST_EDGE: u32 = 20_000;

/// The most memory that one picture is drawn in, in bytes.
const MOST_MEMORY: u64 = 256 * 1024 * 1024;

/// From so many pixels on, a picture is drawn alone.
const LARGE: u64 = 16_000_000;

/// A picture that can be drawn, as far as its header tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Looked {
    /// What it is.
    pub kind: Kind,
    /// Its width in pixels, as it lies in the file.
    pub width: u32,
    /// Its height in pixels, as it lies in the file.
    pub height: u32,
    /// Whether it carries anything beside the picture; always so unless it is a bare JPEG.
    pub has_tags: bool,
}

impl Looked {
    /// Whether drawing it takes so much memory that no other should be drawn meanwhile.
    #[must_use]
    pub fn is_large(&self) -> bool {
        u64::from(self.width) * u64::from(self.height) > LARGE
    }
}

/// Looks at what was handed in. Quick, whatever it is.
///
/// # Errors
///
/// [`Refused`] for what is empty, too long, no JPEG, PNG or WebP by its content, too large, cut
/// short, moving, or says that it is larger than it can be.
pub fn look(bytes: &[u8]) -> Result<Looked, Refused> {
    if bytes.len() > LONGEST_BYTES {
        return Err(Refused::TooLong);
    }
    let kind = Kind::of(bytes)?;
    let decoder = decoder(kind, bytes)?;
    let (width, height) = decoder.dimensions();
    let has_tags = match kind {
        Kind::Jpeg => Skeleton::of(bytes)?.has_tags,
        Kind::Png | Kind::WebP => true,
    };
    Ok(Looked {
        kind,
        width,
        height,
        has_tags,
    })
}

/// What draws a picture, once its header was found good.
pub(crate) fn decoder(kind: Kind, bytes: &[u8]) -> Result<Box<dyn ImageDecoder + '_>, Refused> {
    let broken = |error| Refused::broken(&error);
    let from = Cursor::new(bytes);
    let mut decoder: Box<dyn ImageDecoder> = match kind {
        Kind::Jpeg => Box::new(JpegDecoder::new(from).map_err(broken)?),
        Kind::Png => {
            let decoder = PngDecoder::with_limits(from, limits()).map_err(broken)?;
            if decoder.is_apng().map_err(broken)? {
                return Err(Refused::Moves);
            }
            Box::new(decoder)
        }
        Kind::WebP => {
            let decoder = WebPDecoder::new(from).map_err(broken)?;
            if decoder.has_animation() {
                return Err(Refused::Moves);
            }
            Box::new(decoder)
        }
    };
    let (width, height) = decoder.dimensions();
    let pixels = u64::from(width) * u64::from(height);
    if pixels > MOST_PIXELS || width.max(height) > LONGEST_EDGE {
        return Err(Refused::TooLarge { width, height });
    }
    if decoder.total_bytes() > MOST_MEMORY {
        return Err(Refused::TooDeep);
    }
    decoder.set_limits(limits()).map_err(broken)?;
    Ok(decoder)
}

fn limits() -> Limits {
    let mut limits = Limits::default();
    limits.max_alloc = Some(MOST_MEMORY);
    limits
}
