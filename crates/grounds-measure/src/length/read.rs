//! Reading lengths as they are written on drawings and on walls.

use super::Length;
use crate::error::{Fault, MeasureError};
use crate::reading::{Exact, Scanner, Unit, Written, read_whole, written_as_string};
use crate::units::Units;

const MM: &Unit = &Unit::new(
    &[
        "mm",
        "millimetre",
        "millimetres",
        "millimeter",
        "millimeters",
    ],
    Length::UNITS_PER_MM,
);
const INCH: &Unit = &Unit::new(
    &[
        "in", "inch", "inches", "in.", "\"", "″", "”", "''", "′′", "’’",
    ],
    Length::INCH,
);
static UNITS: &[Unit] = &[
    Unit::new(MM.spellings, MM.each),
    Unit::new(INCH.spellings, INCH.each),
    Unit::new(&["ft", "foot", "feet", "ft.", "'", "′", "’"], Length::FOOT),
    Unit::new(
        &[
            "cm",
            "centimetre",
            "centimetres",
            "centimeter",
            "centimeters",
        ],
        10 * Length::UNITS_PER_MM,
    ),
    Unit::large(
        &["m", "metre", "metres", "meter", "meters"],
        1000 * Length::UNITS_PER_MM,
    ),
    Unit::new(
        &["um", "µm", "μm", "micron", "microns"],
        Length::UNITS_PER_MM / 1000,
    ),
    Unit::new(&["mil", "mils", "thou"], Length::INCH / 1000),
    Unit::new(&["yd", "yard", "yards"], 3 * Length::FOOT),
];

/// Single characters that are fractions: the character, over, under.
const VULGAR: &[(char, i128, i128)] = &[
    ('½', 1, 2),
    ('¼', 1, 4),
    ('¾', 3, 4),
    ('⅛', 1, 8),
    ('⅜', 3, 8),
    ('⅝', 5, 8),
    ('⅞', 7, 8),
    ('⅕', 1, 5),
    ('⅖', 2, 5),
    ('⅗', 3, 5),
    ('⅘', 4, 5),
    ('⅒', 1, 10),
];

/// Dashes that join a whole number to its fraction, or feet to inches.
const DASHES: &[char] = &['-', '‐', '‑', '–'];
const SLASHES: &[char] = &['/', '⁄', '∕'];

const TOO_FINE: &str =
    "a fraction of an inch in 64ths or coarser, or decimals to 0.001 in or 0.0001 mm";
const A_UNIT: &str = "a unit (mm, cm, m, in, ft, ' or \")";

impl Written for Length {
    const WHAT: &'static str = "length";
    const EXAMPLE: &'static str = "a length like 3' 4 5/8\" or 1032 mm";

    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        match read_side(scan)? {
            Side::Whole { length, .. } => Ok(length),
            Side::Bare(_) => Err(no_unit(scan)),
        }
    }
}

written_as_string!(Length, "Length", "length");

impl Length {
    /// Reads a length in which a bare number is in the job's own unit: inches or millimetres.
    ///
    /// # Errors
    /// When the text is not a length; also for a bare fraction in a metric job, where inches may
    /// have been meant.
    ///
    /// ```
    /// use grounds_measure::{Length, Units};
    /// assert_eq!(Length::parse_in("40-5/8", Units::Imperial)?, "3' 4 5/8\"".parse()?);
    /// assert_eq!(Length::parse_in("1032", Units::Metric)?, Length::from_mm(1032));
    /// assert!(Length::parse_in("40-5/8", Units::Metric).is_err());
    /// # Ok::<(), grounds_measure::MeasureError>(())
    /// ```
    pub fn parse_in(text: &str, units: Units) -> Result<Self, MeasureError> {
        read_whole(text, |scan| match (read_side(scan)?, units) {
            (Side::Whole { length, .. }, _) => Ok(length),
            (Side::Bare(number), Units::Imperial) => number.of(scan, INCH),
            (Side::Bare(number), Units::Metric) if number.fraction => Err(no_unit(scan)),
            (Side::Bare(number), Units::Metric) => number.of(scan, MM),
        })
    }
}

impl Length {
    /// Reads a length, or a unit of length alone as one of it; `None`, and nothing passed over, if
    /// neither stands here.
    pub(crate) fn read_or_one(scan: &mut Scanner<'_>) -> Result<Option<Self>, Fault> {
        let mut ahead = scan.clone();
        if !ahead.at_number() {
            return Ok(eat_unit(scan).map(|unit| Self::from_units(unit.each)));
        }
        // A number before a slash that is no fraction, as in `4 /m2`, is for the caller.
        let Ok(Side::Whole { length, .. }) = read_side(&mut ahead) else {
            return Ok(None);
        };
        *scan = ahead;
        Ok(Some(length))
    }
}

/// A length, or a number that still wants a unit, as in the first side of `600 x 300 mm`.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Side {
    /// A length, and its unit if it has just one.
    Whole {
        length: Length,
        unit: Option<&'static Unit>,
    },
    /// A number alone.
    Bare(Mixed),
}

/// A number as the trade writes it: `40`, `1.03`, `5/8`, `40-5/8`, `40 5/8`, `40⅝`.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Mixed {
    at: usize,
    value: Exact,
    decimal: bool,
    fraction: bool,
    one_comma: bool,
}

impl Mixed {
    /// So many of a unit.
    pub(crate) fn of(self, scan: &Scanner<'_>, unit: &Unit) -> Result<Length, Fault> {
        if self.one_comma {
            unit.refuse_lone_comma(scan, self.at)?;
        }
        let units = self
            .value
            .whole(unit.each)
            .ok_or_else(|| scan.fault_at(self.at, TOO_FINE))?;
        i64::try_from(units)
            .ok()
            .filter(|units| units.unsigned_abs() <= Length::LONGEST.units().unsigned_abs())
            .map(Length::from_units)
            .ok_or_else(|| scan.fault_at(self.at, "a length within 100 km"))
    }

    /// Whether it has neither decimals nor a fraction.
    fn is_whole(self) -> bool {
        !self.decimal && !self.fraction
    }
}

/// Reads a length whose unit may be missing.
pub(crate) fn read_side(scan: &mut Scanner<'_>) -> Result<Side, Fault> {
    let at = scan.at();
    let negative = scan.negative();
    scan.skip_space();
    let mut number = read_mixed(scan)?;
    if negative {
        number = Mixed {
            at,
            value: number.value.negated(),
            ..number
        };
    }
    let Some(unit) = eat_unit(scan) else {
        return Ok(Side::Bare(number));
    };
    let length = number.of(scan, unit)?;
    let feet = unit.each == Length::FOOT && number.is_whole();
    match if feet {
        read_inches_after_feet(scan)?
    } else {
        None
    } {
        None => Ok(Side::Whole {
            length,
            unit: Some(unit),
        }),
        Some(inches) if negative => Ok(Side::Whole {
            length: length - inches,
            unit: None,
        }),
        Some(inches) => Ok(Side::Whole {
            length: length + inches,
            unit: None,
        }),
    }
}

/// The fault that a unit was expected at the cursor or after blanks there.
pub(crate) fn no_unit(scan: &Scanner<'_>) -> Fault {
    let mut scan = scan.clone();
    scan.skip_space();
    scan.fault(A_UNIT)
}

/// The inches that may follow whole feet, with or without their mark.
fn read_inches_after_feet(scan: &mut Scanner<'_>) -> Result<Option<Length>, Fault> {
    let mut ahead = scan.clone();
    ahead.skip_space();
    let joined = ahead.eat_any(DASHES);
    ahead.skip_space();
    if !ahead.at_digit() && vulgar(&ahead).is_none() {
        return if joined {
            Err(ahead.fault("inches after the dash"))
        } else {
            Ok(None)
        };
    }
    *scan = ahead;
    let number = read_mixed(scan)?;
    let unit = eat_unit(scan);
    if unit.is_some_and(|unit| unit.each != Length::INCH) {
        return Err(scan.fault_at(number.at, "inches after feet"));
    }
    let inches = number.of(scan, INCH)?;
    if inches.units() >= Length::FOOT {
        return Err(scan.fault_at(number.at, "fewer than 12 inches after feet"));
    }
    Ok(Some(inches))
}

/// The unit of length at the cursor, if any, after blanks.
fn eat_unit(scan: &mut Scanner<'_>) -> Option<&'static Unit> {
    let mut ahead = scan.clone();
    ahead.skip_space();
    let unit = ahead.eat_spelling(UNITS, |unit| unit.spellings)?;
    *scan = ahead;
    Some(unit)
}

/// Reads a number that may have, or be, a fraction.
fn read_mixed(scan: &mut Scanner<'_>) -> Result<Mixed, Fault> {
    let at = scan.at();
    if let Some(value) = eat_vulgar(scan) {
        return Ok(Mixed {
            at,
            value,
            decimal: false,
            fraction: true,
            one_comma: false,
        });
    }
    if let Some(value) = eat_fraction(scan)? {
        return Ok(Mixed {
            at,
            value,
            decimal: false,
            fraction: true,
            one_comma: false,
        });
    }
    let number = scan.number()?;
    let whole = Mixed {
        at,
        value: number.value,
        decimal: number.decimal,
        fraction: false,
        one_comma: number.one_comma,
    };
    if number.decimal {
        return Ok(whole);
    }
    let Some((part_at, part)) = eat_fraction_after_whole(scan)? else {
        return Ok(whole);
    };
    if !part.is_below_one() {
        return Err(scan.fault_at(part_at, "a fraction below one after a whole number"));
    }
    let value = whole
        .value
        .plus(part)
        .ok_or_else(|| scan.fault_at(at, "a smaller number"))?;
    Ok(Mixed {
        value,
        fraction: true,
        one_comma: false,
        ..whole
    })
}

/// The fraction that may follow a whole number: `-5/8`, ` 5/8`, `⅝`, ` ⅝`; and where it begins.
fn eat_fraction_after_whole(scan: &mut Scanner<'_>) -> Result<Option<(usize, Exact)>, Fault> {
    let mut ahead = scan.clone();
    if !ahead.skip_space() {
        ahead.eat_any(DASHES);
    }
    let at = ahead.at();
    let part = match eat_vulgar(&mut ahead) {
        Some(part) => Some(part),
        None => eat_fraction(&mut ahead)?,
    };
    if part.is_some() {
        *scan = ahead;
    }
    Ok(part.map(|part| (at, part)))
}

/// A fraction of two whole numbers with a slash, if one stands here.
fn eat_fraction(scan: &mut Scanner<'_>) -> Result<Option<Exact>, Fault> {
    let mut ahead = scan.clone();
    let Ok(over) = ahead.whole_number() else {
        return Ok(None);
    };
    // A slash before anything else parts two values, as in `+2/-1`.
    if !ahead.eat_any(SLASHES) || !ahead.at_digit() {
        return Ok(None);
    }
    let under_at = ahead.at();
    let under = ahead.whole_number()?;
    let value = Exact::new(over, under);
    *scan = ahead;
    value
        .map(Some)
        .ok_or_else(|| scan.fault_at(under_at, "a number above zero under the fraction"))
}

/// The single-character fraction at the cursor.
fn vulgar(scan: &Scanner<'_>) -> Option<(char, Exact)> {
    let c = scan.peek()?;
    let (_, over, under) = VULGAR.iter().find(|(known, ..)| *known == c)?;
    Exact::new(*over, *under).map(|value| (c, value))
}

/// Passes over a single-character fraction if one stands here.
fn eat_vulgar(scan: &mut Scanner<'_>) -> Option<Exact> {
    let (c, value) = vulgar(scan)?;
    scan.eat_any(&[c]);
    Some(value)
}
