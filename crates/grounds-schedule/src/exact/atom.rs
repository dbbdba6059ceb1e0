//! What can be said of a number: that it is at least, or at most, so much.
//!
//! Every unknown number `x` has two views: `2x` is the number itself, `2x + 1` its negative. "At most 7"
//! is "the negative is at least −7", so that all reasoning is about least values alone.

use crate::problem::Tick;

/// "This view is at least so much."
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Atom {
    pub(super) view: u32,
    pub(super) least: Tick,
}

impl Atom {
    /// What holds when this does not.
    pub(super) fn not(self) -> Self {
        Self {
            view: self.view ^ 1,
            least: 1 - self.least,
        }
    }

    /// The number that it is about.
    pub(super) fn number(self) -> usize {
        self.view as usize / 2
    }

    /// Whether it says "at least" of its number, and not "at most".
    pub(super) fn is_low(self) -> bool {
        self.view & 1 == 0
    }

    /// "The number is at least so much."
    pub(super) fn at_least(number: usize, least: Tick) -> Self {
        Self {
            view: low(number),
            least,
        }
    }

    /// "The number is at most so much."
    pub(super) fn at_most(number: usize, most: Tick) -> Self {
        Self {
            view: high(number),
            least: -most,
        }
    }
}

/// The view of a number itself.
pub(super) fn low(number: usize) -> u32 {
    2 * number as u32
}

/// The view of the negative of a number.
pub(super) fn high(number: usize) -> u32 {
    2 * number as u32 + 1
}
