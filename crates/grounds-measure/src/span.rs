//! Durations: of drying, of work, and of waiting for the right air.

use crate::error::Fault;
use crate::reading::{Number, Scanner, Written, written_as_string};
use serde::{Deserialize, Serialize};
use std::cmp::Ordering;
use std::fmt;

/// A stretch of time in whole minutes, and what kind of time it is.
///
/// - elapsed, day and night: `90 min`, `24 h`, `1.5 h`, `1 h 30 min`, `3 days` (of 24 h), `2 weeks`
///   (of 168 h);
/// - working hours of whoever's calendar it is: `5 working hours`;
/// - whole working days of that calendar, however long each is: `2 working days`;
/// - counted hours, in which the place was within the layer's limits: `168 counted h`, `7 counted
///   days`.
///
/// ```
/// use grounds_measure::Span;
/// assert_eq!("1.5 h".parse::<Span>()?, Span::Elapsed(90));
/// assert_eq!("2 working days".parse::<Span>()?, Span::WorkingDays(2));
/// assert_eq!("168 counted h".parse::<Span>()?.to_string(), "7 counted days");
/// # Ok::<(), grounds_measure::MeasureError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Span {
    /// Minutes by the clock.
    Elapsed(u32),
    /// Minutes of a working calendar.
    Working(u32),
    /// Minutes in which the air was within limits.
    Counted(u32),
    /// Whole days of a working calendar.
    WorkingDays(u32),
}

/// What kind of time a span is measured in.
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
pub enum SpanKind {
    /// By the clock.
    Elapsed,
    /// By a working calendar, in minutes or in days.
    Working,
    /// Only while the air is within limits.
    Counted,
}

impl SpanKind {
    /// So many minutes of this kind of time.
    #[must_use]
    pub fn of_minutes(self, minutes: u32) -> Span {
        match self {
            Self::Elapsed => Span::Elapsed(minutes),
            Self::Working => Span::Working(minutes),
            Self::Counted => Span::Counted(minutes),
        }
    }
}

/// The units of time: spellings and minutes.
static UNITS: &[(&[&str], i64)] = &[
    (&["min", "mins", "minute", "minutes"], 1),
    (&["h", "hr", "hrs", "hour", "hours"], HOUR),
    (&["d", "day", "days"], DAY),
    (&["wk", "wks", "week", "weeks"], WEEK),
];
const HOUR: i64 = 60;
const DAY: i64 = 24 * HOUR;
const WEEK: i64 = 7 * DAY;
/// The longest span that is read, in minutes: about ten years.
const LONGEST: i64 = 3660 * DAY;

impl Span {
    /// No time at all, by the clock.
    pub const ZERO: Self = Self::Elapsed(0);

    /// What kind of time it is.
    #[must_use]
    pub fn kind(self) -> SpanKind {
        match self {
            Self::Elapsed(_) => SpanKind::Elapsed,
            Self::Working(_) | Self::WorkingDays(_) => SpanKind::Working,
            Self::Counted(_) => SpanKind::Counted,
        }
    }

    /// Minutes; `None` for working days, whose length only the calendar knows.
    #[must_use]
    pub fn minutes(self) -> Option<u32> {
        match self {
            Self::Elapsed(minutes) | Self::Working(minutes) | Self::Counted(minutes) => {
                Some(minutes)
            }
            Self::WorkingDays(_) => None,
        }
    }

    /// Quarter-hours, rounded up; `None` for working days, whose length only the calendar knows.
    #[must_use]
    pub fn quarter_hours_up(self) -> Option<u32> {
        self.minutes().map(|minutes| minutes.div_ceil(15))
    }

    /// Whether it is no time at all.
    #[must_use]
    pub fn is_zero(self) -> bool {
        self.amount() == 0
    }

    /// The number that spans of the same variant are compared by.
    fn amount(self) -> u32 {
        match self {
            Self::WorkingDays(days) => days,
            Self::Elapsed(minutes) | Self::Working(minutes) | Self::Counted(minutes) => minutes,
        }
    }
}

impl Default for Span {
    fn default() -> Self {
        Self::ZERO
    }
}

impl PartialOrd for Span {
    /// Spans of different kinds have no order: whether two working days are longer than 60 hours
    /// depends on the calendar.
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        let same = std::mem::discriminant(self) == std::mem::discriminant(other);
        same.then(|| self.amount().cmp(&other.amount()))
    }
}

impl Written for Span {
    const WHAT: &'static str = "span of time";
    const EXAMPLE: &'static str =
        "a span like 24 h, 3 days, 90 min, 2 working days, 5 working hours or 168 counted h";

    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        let at = scan.at();
        let number = scan.number()?;
        let unit = TimeUnit::expect(scan)?;
        let span = unit.span(scan, number)?;
        match span {
            Self::WorkingDays(_) => Ok(span),
            _ => read_smaller_parts(scan, at, unit, span),
        }
    }
}

written_as_string!(Span, "Span", "span");

/// A unit of time with its kind, as in `working days`.
#[derive(Debug, Clone, Copy)]
pub(crate) struct TimeUnit {
    kind: SpanKind,
    minutes: i64,
}

impl TimeUnit {
    /// The unit at the cursor, if any.
    pub(crate) fn eat(scan: &mut Scanner<'_>) -> Option<Self> {
        let mut ahead = scan.clone();
        ahead.skip_space();
        let kind = match (ahead.eat_word("working"), ahead.eat_word("counted")) {
            (true, _) => SpanKind::Working,
            (_, true) => SpanKind::Counted,
            _ => SpanKind::Elapsed,
        };
        ahead.skip_space();
        let (_, minutes) = ahead.eat_spelling(UNITS, |(spellings, _)| spellings)?;
        if kind == SpanKind::Working && *minutes == WEEK {
            return None;
        }
        *scan = ahead;
        Some(Self {
            kind,
            minutes: *minutes,
        })
    }

    pub(crate) fn expect(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        Self::eat(scan).ok_or_else(|| Self::missing(scan))
    }

    /// The fault that a unit of time was expected at the cursor.
    pub(crate) fn missing(scan: &Scanner<'_>) -> Fault {
        let mut scan = scan.clone();
        scan.skip_space();
        scan.fault("min, h, days or weeks, or `working` or `counted` and one of them")
    }

    /// So many of the unit.
    pub(crate) fn span(self, scan: &Scanner<'_>, number: Number) -> Result<Span, Fault> {
        let days = self.kind == SpanKind::Working && self.minutes == DAY;
        let (each, finest) = if days {
            (1, "whole working days; for part of one write working hours")
        } else {
            (self.minutes, "whole minutes")
        };
        let amount = number
            .value
            .whole(each)
            .ok_or_else(|| scan.fault_at(number.at, finest))?;
        let most = if days { LONGEST / DAY } else { LONGEST };
        let amount = u32::try_from(amount)
            .ok()
            .filter(|amount| i64::from(*amount) <= most)
            .ok_or_else(|| scan.fault_at(number.at, "at most ten years"))?;
        Ok(if days {
            Span::WorkingDays(amount)
        } else {
            self.kind.of_minutes(amount)
        })
    }
}

/// The smaller units that may follow the first: `1 h 30 min`.
fn read_smaller_parts(
    scan: &mut Scanner<'_>,
    at: usize,
    mut unit: TimeUnit,
    first: Span,
) -> Result<Span, Fault> {
    let mut total = first.amount();
    loop {
        let mut ahead = scan.clone();
        ahead.skip_space();
        if !ahead.at_digit() {
            break;
        }
        let number = ahead.number()?;
        let next = TimeUnit::expect(&mut ahead)?;
        if next.kind != SpanKind::Elapsed || next.minutes >= unit.minutes {
            return Err(scan.fault_at(number.at, "a smaller unit after a larger, like 1 h 30 min"));
        }
        total = total.saturating_add(next.span(&ahead, number)?.amount());
        unit = next;
        *scan = ahead;
    }
    if i64::from(total) > LONGEST {
        return Err(scan.fault_at(at, "at most ten years"));
    }
    Ok(first.kind().of_minutes(total))
}

impl fmt::Display for Span {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let unit = PrintUnit::for_all(&[*self]);
        f.pad(&format!("{} {}", unit.number(*self), unit.name(*self)))
    }
}

/// The unit a span, or several together, are printed in: the largest in which all are whole.
pub(crate) struct PrintUnit {
    minutes: u32,
}

impl PrintUnit {
    /// Hours up to three days, then days up to four weeks, then weeks, as the trade says them.
    pub(crate) fn for_all(spans: &[Span]) -> Self {
        let longest = spans.iter().map(|span| span.amount()).max().unwrap_or(0);
        let weeks_said = spans.iter().all(|span| span.kind() != SpanKind::Working);
        let candidates = [
            (7 * 1440, 5 * 7 * 1440, weeks_said),
            (1440, 3 * 1440, weeks_said),
            (60, 60, true),
        ];
        let whole = |each: u32| spans.iter().all(|span| span.amount() % each == 0);
        let chosen = candidates
            .into_iter()
            .find(|(each, from, said)| *said && longest >= *from && whole(*each));
        Self {
            minutes: chosen.map_or(1, |(each, ..)| each),
        }
    }

    pub(crate) fn number(&self, span: Span) -> String {
        match span {
            Span::WorkingDays(days) => days.to_string(),
            _ => (span.amount() / self.minutes).to_string(),
        }
    }

    /// The word after the number, plural unless the number is one.
    pub(crate) fn name(&self, span: Span) -> String {
        let kind = match span.kind() {
            SpanKind::Elapsed => "",
            SpanKind::Working => "working ",
            SpanKind::Counted => "counted ",
        };
        let days = matches!(span, Span::WorkingDays(_));
        let (unit, number) = match self.minutes {
            _ if days => ("day", span.amount()),
            10_080 => ("week", span.amount() / self.minutes),
            1440 => ("day", span.amount() / self.minutes),
            60 => return format!("{kind}h"),
            _ => return format!("{kind}min"),
        };
        let plural = if number == 1 { "" } else { "s" };
        format!("{kind}{unit}{plural}")
    }
}
