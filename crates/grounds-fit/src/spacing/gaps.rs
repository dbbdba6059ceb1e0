//! Balusters, slats and battens: equal clear gaps, none so wide that too large a ball passes.

use grounds_measure::{Length, Rounding, Step};
use thiserror::Error;

/// The most pieces that a row is made of.
const MOST: i64 = 10_000;

/// A row that cannot be spaced.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum SpacingFault {
    /// The clear length or the pieces are not above zero, or the gap is below zero.
    #[error("a row needs a clear length and pieces above zero and a gap of zero or more")]
    NotAbove,
    /// The pieces fill the whole row before the gaps are small enough.
    #[error("the pieces fill the row before its gaps are small enough: take thinner pieces")]
    Full,
    /// More than ten thousand pieces would be needed.
    #[error("more than 10,000 pieces would be needed: give the piece and the gap in their units")]
    TooMany,
}

/// Pieces in a row with equal gaps, the first and last gap beside the ends of the row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spaced {
    /// Where each piece begins, from the beginning of the row, rounded to the step.
    pub begins: Vec<Length>,
    /// The gaps as marked, one more than the pieces; with the pieces they sum to the row exactly.
    pub gaps: Vec<Length>,
}

impl Spaced {
    /// How many pieces there are.
    #[must_use]
    pub fn pieces(&self) -> usize {
        self.begins.len()
    }

    /// The widest gap as marked.
    #[must_use]
    pub fn widest(&self) -> Length {
        self.gaps.iter().copied().max().unwrap_or_default()
    }
}

/// The fewest pieces of one width in a clear length so that every gap, as marked, is narrower than
/// a `ball` that must not pass. Guards: 4 in, and 4 3/8 in beside a stair (IRC R312.1.3
/// \[published\]; local codes differ, ask). A ball as wide as the gap would just pass, hence
/// narrower.
///
/// # Errors
/// When a length is not above zero, the pieces fill the row, or there would be too many.
///
/// ```
/// use grounds_fit::spacing::space;
/// use grounds_measure::{Length, Step};
/// let row = space(Length::from_inches(72), "1 1/2\"".parse()?, Length::from_inches(4), Step::SIXTEENTH_INCH)?;
/// assert_eq!(row.pieces(), 13);
/// assert!(row.widest() < Length::from_inches(4));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn space(
    clear: Length,
    piece: Length,
    ball: Length,
    step: Step,
) -> Result<Spaced, SpacingFault> {
    if !clear.is_positive() || !piece.is_positive() || !ball.is_positive() {
        return Err(SpacingFault::NotAbove);
    }
    let (fewest, _) = (clear - ball)
        .divide_by(piece + ball)
        .ok_or(SpacingFault::NotAbove)?;
    let fewest = fewest.max(0);
    if fewest > MOST {
        return Err(SpacingFault::TooMany);
    }
    // Rounding of the marks may widen a gap by a step: then one piece more is taken.
    for count in fewest.. {
        if count > MOST {
            break;
        }
        if piece * count > clear {
            return Err(SpacingFault::Full);
        }
        let spaced = marked(clear, piece, count, step);
        if spaced.widest() < ball {
            return Ok(spaced);
        }
    }
    Err(SpacingFault::TooMany)
}

/// So many pieces of one width in a clear length, with equal gaps beside and between them.
///
/// # Errors
/// When a length is not above zero, the pieces are longer than the row, or there are more than ten
/// thousand.
///
/// ```
/// use grounds_fit::spacing::spaced;
/// use grounds_measure::{Length, Step};
/// // Twelve slats of 2 1/2 in with half-inch gaps fill 36 1/2 in.
/// let row = spaced("36 1/2 in".parse()?, "2 1/2 in".parse()?, 12, Step::SIXTEENTH_INCH)?;
/// assert!(row.gaps.iter().all(|gap| *gap == Length::from_64ths(32)));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn spaced(
    clear: Length,
    piece: Length,
    count: usize,
    step: Step,
) -> Result<Spaced, SpacingFault> {
    if !clear.is_positive() || !piece.is_positive() {
        return Err(SpacingFault::NotAbove);
    }
    let count = i64::try_from(count)
        .ok()
        .filter(|count| *count <= MOST)
        .ok_or(SpacingFault::TooMany)?;
    if piece * count > clear {
        return Err(SpacingFault::Full);
    }
    Ok(marked(clear, piece, count, step))
}

/// So many pieces, their marks rounded each on its own.
fn marked(clear: Length, piece: Length, count: i64, step: Step) -> Spaced {
    let free = clear - piece * count;
    let mut gaps = Vec::new();
    let mut begins = Vec::new();
    let mut past = Length::ZERO;
    for index in 0..count {
        let exact = share(free, index + 1, count + 1) + piece * index;
        // Where the step is coarser than the gap, pieces would overlap.
        let begin = exact.round_to(step, Rounding::Nearest).max(past);
        gaps.push(begin - past);
        begins.push(begin);
        past = begin + piece;
    }
    gaps.push(clear - past);
    Spaced { begins, gaps }
}

/// `part` of `parts` equal shares of a length, to the nearest unit below.
pub(super) fn share(whole: Length, part: i64, parts: i64) -> Length {
    let units = i128::from(whole.units()) * i128::from(part) / i128::from(parts.max(1));
    Length::from_units(i64::try_from(units).unwrap_or_default())
}
