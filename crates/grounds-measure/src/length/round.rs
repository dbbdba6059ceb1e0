//! Rounding lengths to what a tape, a saw or a supplier works in.

use super::Length;
use crate::error::Fault;
use crate::reading::{Scanner, Written, written_as_string};
use serde::{Deserialize, Serialize};
use std::fmt;

/// Which way to round.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    schemars::JsonSchema,
)]
#[serde(rename_all = "lowercase")]
pub enum Rounding {
    /// To the next step above, never smaller: stock to buy.
    Up,
    /// To the next step below, never larger: glass that must go in.
    Down,
    /// To the nearest step, halves away from zero: readings.
    Nearest,
}

/// The step to round to, always above zero: `1/16"`, `1 mm`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Step(Length);

impl Step {
    /// 1/64 inch.
    pub const SIXTY_FOURTH_INCH: Self = Self(Length::from_64ths(1));
    /// 1/32 inch.
    pub const THIRTY_SECOND_INCH: Self = Self(Length::from_64ths(2));
    /// 1/16 inch.
    pub const SIXTEENTH_INCH: Self = Self(Length::from_64ths(4));
    /// 1/8 inch.
    pub const EIGHTH_INCH: Self = Self(Length::from_64ths(8));
    /// One inch.
    pub const INCH: Self = Self(Length::from_inches(1));
    /// 0.1 mm.
    pub const TENTH_MM: Self = Self(Length::from_tenths_mm(1));
    /// 1 mm.
    pub const MM: Self = Self(Length::from_mm(1));

    /// A step of this length; `None` unless it is above zero.
    #[must_use]
    pub fn new(length: Length) -> Option<Self> {
        length.is_positive().then_some(Self(length))
    }

    /// The length of the step.
    #[must_use]
    pub fn length(self) -> Length {
        self.0
    }
}

impl fmt::Display for Step {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl Written for Step {
    const WHAT: &'static str = "rounding step";
    const EXAMPLE: &'static str = "a length above zero like 1/16\" or 1 mm";

    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        let at = scan.at();
        Self::new(Length::read(scan)?).ok_or_else(|| scan.fault_at(at, "a length above zero"))
    }
}

written_as_string!(Step, "Step", "step");

impl Length {
    /// The length rounded to whole steps.
    ///
    /// ```
    /// use grounds_measure::{Length, Rounding, Step};
    /// let opening: Length = "40 5/8\"".parse()?;
    /// let glass = opening.round_to(Step::INCH, Rounding::Down);
    /// assert_eq!(glass.display_inches().to_string(), "40\"");
    /// # Ok::<(), grounds_measure::MeasureError>(())
    /// ```
    #[must_use]
    pub fn round_to(self, step: Step, rounding: Rounding) -> Self {
        let step = step.0.units();
        let past = self.units().rem_euclid(step);
        let below = self - Self::from_units(past);
        let above = if past == 0 {
            self
        } else {
            below + Self::from_units(step)
        };
        match rounding {
            Rounding::Down => below,
            Rounding::Up => above,
            Rounding::Nearest => {
                let to_above = step - past;
                let half_goes_up = !self.is_negative();
                let up = past > to_above || (past == to_above && half_goes_up);
                if up && past != 0 { above } else { below }
            }
        }
    }
}
