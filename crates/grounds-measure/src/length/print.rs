//! Printing lengths: exactly for documents, and in the job's units for people.

use super::{Length, Rounding, Step};
use crate::print::{exact_decimal, exact_in, rounded_decimal};
use crate::units::Units;
use std::fmt;

/// Marks a printed length that had to be rounded, so that nobody cuts to it believing it exact.
const ROUNDED: &str = "~";

impl fmt::Display for Length {
    /// Prints text that reads back to exactly this length.
    ///
    /// Lengths exact in 64ths of an inch are printed so, unless they are a multiple of 5 mm: very
    /// few inch sizes are, and almost every metric one is. All others are printed in millimetres.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let in_64ths = self.units() % Self::UNITS_PER_64TH == 0;
        let metric_size = self.units() % (5 * Self::UNITS_PER_MM) == 0;
        if in_64ths && !metric_size {
            return f.pad(&feet_and_inches(*self));
        }
        // 1/40 000 mm is 0.000025 mm: six decimals print any length exactly.
        let mm = exact_decimal(self.units(), Self::UNITS_PER_MM, 6).unwrap_or_default();
        f.pad(&format!("{mm} mm"))
    }
}

impl Length {
    /// Prints the length for people in the job's units: feet, inches and 64ths, or millimetres to a
    /// tenth. A length that had to be rounded for it begins with `~`.
    ///
    /// ```
    /// use grounds_measure::{Length, Units};
    /// let ceiling = Length::from_mm(2600);
    /// assert_eq!(ceiling.display(Units::Metric).to_string(), "2600 mm");
    /// assert_eq!(ceiling.display(Units::Imperial).to_string(), "~8' 6 23/64\"");
    /// ```
    #[must_use]
    pub fn display(self, units: Units) -> impl fmt::Display {
        match units {
            Units::Metric => marked(self, Step::TENTH_MM, |rounded| {
                format!(
                    "{} mm",
                    rounded_decimal(rounded.units(), Self::UNITS_PER_MM, 1)
                )
            }),
            Units::Imperial => marked(self, Step::SIXTY_FOURTH_INCH, feet_and_inches),
        }
    }

    /// Prints inches without feet, as joiners and glaziers do: `40 5/8"`. Rounded to 64ths and
    /// marked `~` when it is not whole in them.
    #[must_use]
    pub fn display_inches(self) -> impl fmt::Display {
        marked(self, Step::SIXTY_FOURTH_INCH, |rounded| {
            format!("{}{}", sign(rounded), inches(rounded.abs()))
        })
    }

    /// Prints metres to a millimetre: `4.2 m`. Rounded and marked `~` when it is not whole in
    /// millimetres.
    #[must_use]
    pub fn display_metres(self) -> impl fmt::Display {
        marked(self, Step::MM, |rounded| {
            format!(
                "{} m",
                rounded_decimal(rounded.units(), 1000 * Self::UNITS_PER_MM, 3)
            )
        })
    }
}

impl Length {
    /// Prints the length exactly as a run of work: `12 m`, `60 ft`, else as `Display` does.
    pub(crate) fn fmt_run(self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let metre = 1000 * Self::UNITS_PER_MM;
        // Tenths of a metre before whole feet before hundredths: 50 ft is also 15.24 m.
        let choices = [("m", metre, 1), ("ft", Self::FOOT, 0), ("m", metre, 2)];
        match exact_in(self.units(), &choices) {
            Some(text) => f.pad(&text),
            None => fmt::Display::fmt(&self, f),
        }
    }
}

/// Rounds to `step`, prints, and marks the text if rounding changed the length.
fn marked(length: Length, step: Step, print: impl FnOnce(Length) -> String) -> String {
    let rounded = length.round_to(step, Rounding::Nearest);
    let mark = if rounded == length { "" } else { ROUNDED };
    format!("{mark}{}", print(rounded))
}

/// A length that is whole in 64ths, as feet, inches and a reduced fraction: `3' 4 5/8"`.
fn feet_and_inches(length: Length) -> String {
    let sign = sign(length);
    let length = length.abs();
    let feet = length.units() / Length::FOOT;
    let rest = inches(Length::from_units(length.units() % Length::FOOT));
    if feet == 0 {
        format!("{sign}{rest}")
    } else {
        format!("{sign}{feet}' {rest}")
    }
}

/// A length of no sign that is whole in 64ths, as inches and a reduced fraction: `40 5/8"`.
fn inches(length: Length) -> String {
    let whole = length.units() / Length::INCH;
    let sixty_fourths = length.units() % Length::INCH / Length::UNITS_PER_64TH;
    if sixty_fourths == 0 {
        return format!("{whole}\"");
    }
    let twos = sixty_fourths.trailing_zeros();
    let (over, under) = (sixty_fourths >> twos, 64 >> twos);
    if whole == 0 {
        format!("{over}/{under}\"")
    } else {
        format!("{whole} {over}/{under}\"")
    }
}

fn sign(length: Length) -> &'static str {
    if length.is_negative() { "-" } else { "" }
}
