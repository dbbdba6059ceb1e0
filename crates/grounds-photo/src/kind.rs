//! What a file is, by its content: names and headers are only claims.

use crate::refused::Refused;

/// A kind of picture that is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// JPEG.
    Jpeg,
    /// PNG.
    Png,
    /// WebP.
    WebP,
}

/// How files begin that people send by mistake, and what they are.
const OTHERS: [(&[u8], &str); 6] = [
    (b"GIF8", "a GIF picture"),
    (b"BM", "a BMP picture"),
    (b"II*\0", "a TIFF picture"),
    (b"MM\0*", "a TIFF picture"),
    (b"%PDF", "a PDF document"),
    (b"<", "a text"),
];

impl Kind {
    /// What the bytes are, by how they begin.
    pub(crate) fn of(bytes: &[u8]) -> Result<Self, Refused> {
        match bytes {
            [] => Err(Refused::Empty),
            [0xff, 0xd8, 0xff, ..] => Ok(Self::Jpeg),
            [0x89, b'P', b'N', b'G', b'\r', b'\n', 0x1a, b'\n', ..] => Ok(Self::Png),
            [
                b'R',
                b'I',
                b'F',
                b'F',
                _,
                _,
                _,
                _,
                b'W',
                b'E',
                b'B',
                b'P',
                ..,
            ] => Ok(Self::WebP),
            [_, _, _, _, b'f', b't', b'y', b'p', brand @ ..] => Err(boxed(brand)),
            other => Err(Refused::OtherKind {
                what: OTHERS
                    .iter()
                    .find(|(begins, _)| other.starts_with(begins))
                    .map_or("no picture that is known here", |(_, what)| *what),
                mend: "",
            }),
        }
    }
}

/// A file of boxes (ISO/IEC 14496-12): a still picture in it, or a film.
fn boxed(brand: &[u8]) -> Refused {
    match brand.get(..4) {
        Some(b"heic" | b"heix" | b"mif1" | b"msf1" | b"heim" | b"heis") => Refused::OtherKind {
            what: "a HEIF picture",
            mend: "; a phone can be set to keep its photos as JPEG",
        },
        Some(b"avif" | b"avis") => Refused::OtherKind {
            what: "an AVIF picture",
            mend: "",
        },
        _ => Refused::OtherKind {
            what: "a film",
            mend: "",
        },
    }
}
