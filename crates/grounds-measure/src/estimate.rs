//! Low, likely and high values of something uncertain.

use crate::error::Fault;
use crate::reading::{Number, Scanner, Written, written_as_string};
use crate::span::{PrintUnit, Span, TimeUnit};
use std::fmt;

/// A low, a likely and a high value, in that order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Range3<T> {
    low: T,
    likely: T,
    high: T,
}

/// An uncertain span: `2 / 3 / 5 weeks`, `2 days / 4 days / 2 weeks`, or `3 weeks` when it is
/// certain. All three are of one kind of time.
///
/// ```
/// use grounds_measure::Estimate;
/// let glass: Estimate = "4 / 6 / 9 weeks".parse()?;
/// assert_eq!(glass.likely(), "6 weeks".parse()?);
/// assert_eq!(glass.to_string(), "4 / 6 / 9 weeks");
/// # Ok::<(), grounds_measure::MeasureError>(())
/// ```
pub type Estimate = Range3<Span>;

impl<T: Copy + PartialOrd> Range3<T> {
    /// Low, likely and high; `None` unless each is at least the one before.
    #[must_use]
    pub fn new(low: T, likely: T, high: T) -> Option<Self> {
        (low <= likely && likely <= high).then_some(Self { low, likely, high })
    }

    /// A value without doubt: all three the same.
    #[must_use]
    pub fn certain(value: T) -> Self {
        Self {
            low: value,
            likely: value,
            high: value,
        }
    }

    /// The least it may reasonably be.
    #[must_use]
    pub fn low(&self) -> T {
        self.low
    }

    /// What it will most likely be.
    #[must_use]
    pub fn likely(&self) -> T {
        self.likely
    }

    /// The most it may reasonably be.
    #[must_use]
    pub fn high(&self) -> T {
        self.high
    }

    /// Whether all three are the same.
    #[must_use]
    pub fn is_certain(&self) -> bool {
        self.low == self.high
    }
}

impl Written for Estimate {
    const WHAT: &'static str = "estimate of time";
    const EXAMPLE: &'static str =
        "low / likely / high like 2 / 3 / 5 weeks, or one span like 3 weeks";

    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        let at = scan.at();
        let low = Part::read(scan)?;
        scan.skip_space();
        if scan.at_end() {
            return Ok(Self::certain(low.settle(scan, None)?));
        }
        let likely = next_part(scan, "`/` and the likely value")?;
        let high = next_part(scan, "`/` and the high value")?;
        let unit = high.unit;
        let spans = [
            low.settle(scan, unit)?,
            likely.settle(scan, unit)?,
            high.settle(scan, unit)?,
        ];
        let [low, likely, high] = spans;
        Self::new(low, likely, high).ok_or_else(|| {
            scan.fault_at(at, "low, likely and high in rising order and of one kind")
        })
    }
}

written_as_string!(Estimate, "Estimate", "estimate");

/// One of three values, whose unit may stand after a later one.
struct Part {
    number: Number,
    unit: Option<TimeUnit>,
    span: Option<Span>,
}

impl Part {
    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        let mut ahead = scan.clone();
        let number = ahead.number()?;
        let unit = TimeUnit::eat(&mut ahead);
        if unit.is_none() {
            *scan = ahead;
            return Ok(Self {
                number,
                unit,
                span: None,
            });
        }
        Ok(Self {
            number,
            unit,
            span: Some(Span::read(scan)?),
        })
    }

    fn settle(&self, scan: &Scanner<'_>, unit: Option<TimeUnit>) -> Result<Span, Fault> {
        match (self.span, unit) {
            (Some(span), _) => Ok(span),
            (None, Some(unit)) => unit.span(scan, self.number),
            (None, None) => Err(TimeUnit::missing(scan)),
        }
    }
}

/// The next value after a slash.
fn next_part(scan: &mut Scanner<'_>, expected: &str) -> Result<Part, Fault> {
    scan.skip_space();
    if !scan.eat_any(&['/']) {
        return Err(scan.fault(expected));
    }
    scan.skip_space();
    Part::read(scan)
}

impl fmt::Display for Estimate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.is_certain() {
            return self.low.fmt(f);
        }
        let unit = PrintUnit::for_all(&[self.low, self.likely, self.high]);
        let [low, likely, high] = [self.low, self.likely, self.high].map(|span| unit.number(span));
        f.pad(&format!(
            "{low} / {likely} / {high} {}",
            unit.name(self.high)
        ))
    }
}
