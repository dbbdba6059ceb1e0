//! Why a photo is not taken, in a sentence with the mend.

use crate::look::{LONGEST_BYTES, LONGEST_EDGE, MOST_PIXELS};

/// Why a photo is not taken.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum Refused {
    /// Not a byte came.
    #[error("The photo is empty; send the picture itself.")]
    Empty,
    /// More bytes than are taken.
    #[error(
        "The photo is longer than the {} MB that are taken; make it smaller on the phone.",
        LONGEST_BYTES / (1024 * 1024)
    )]
    TooLong,
    /// A kind of file that is not drawn here.
    #[error("That is {what}; send a JPEG, PNG or WebP picture{mend}.")]
    OtherKind {
        /// What it seems to be: `a GIF picture`.
        what: &'static str,
        /// What helps, as the end of the sentence.
        mend: &'static str,
    },
    /// Many pictures in one.
    #[error("The picture moves; send one still picture of it.")]
    Moves,
    /// It ends too soon.
    #[error("The picture ends in the middle; send the whole of it.")]
    CutShort,
    /// It claims to be larger than its data can be.
    #[error(
        "The picture says it is {width} by {height} pixels, but holds far too little for that; take it again."
    )]
    Lies {
        /// Claimed width.
        width: u32,
        /// Claimed height.
        height: u32,
    },
    /// More pixels than are drawn.
    #[error(
        "The picture is {width} by {height} pixels; at most {} million are taken, and {LONGEST_EDGE} on a side. \
         Make it smaller on the phone.",
        MOST_PIXELS / 1_000_000
    )]
    TooLarge {
        /// Its width.
        width: u32,
        /// Its height.
        height: u32,
    },
    /// It needs more memory than is given to one picture.
    #[error("The picture needs too much memory to be drawn; save it as a JPEG and send that.")]
    TooDeep,
    /// It cannot be drawn.
    #[error("The picture cannot be drawn: {why}. Take it again, or save it as a JPEG.")]
    Broken {
        /// What the decoder says, short and plain.
        why: String,
    },
}

impl Refused {
    /// What a decoder says, as far as it is fit to print.
    pub(crate) fn broken(error: &image::ImageError) -> Self {
        use image::{ImageError, error::LimitErrorKind};
        match error {
            ImageError::Limits(limit) if limit.kind() == LimitErrorKind::InsufficientMemory => {
                Self::TooDeep
            }
            ImageError::IoError(error) if error.kind() == std::io::ErrorKind::UnexpectedEof => {
                Self::CutShort
            }
            other => {
                let plain = |c: char| if c.is_control() { ' ' } else { c };
                let why: String = other.to_string().chars().map(plain).take(160).collect();
                Self::Broken {
                    why: why.trim().trim_end_matches('.').to_owned(),
                }
            }
        }
    }
}
