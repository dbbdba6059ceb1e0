//! Risers of a flight, with the finishes that come later at its foot, on its treads and at its
//! head.

use grounds_measure::{Length, Rounding, Step};

use super::gaps::share;

/// The most risers that a flight is asked for.
const MOST: i64 = 1_000;

/// What the building rules allow a flight. They differ by place and edition: ask there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limits {
    /// The highest riser.
    pub highest: Length,
    /// The most that the highest may differ from the lowest.
    pub spread: Length,
}

impl Limits {
    /// 7 3/4 in and 3/8 in: IRC R311.7.5.1 for dwellings \[published\].
    pub const IRC: Self = Self {
        highest: Length::from_64ths(7 * 64 + 48),
        spread: Length::from_64ths(24),
    };
}

/// The risers of a flight, from the lowest up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Flight {
    /// Each riser.
    pub risers: Vec<Length>,
}

impl Flight {
    /// From foot to head.
    #[must_use]
    pub fn rise(&self) -> Length {
        self.risers.iter().sum()
    }

    /// The highest riser; zero without risers.
    #[must_use]
    pub fn highest(&self) -> Length {
        self.risers.iter().copied().max().unwrap_or_default()
    }

    /// The highest less the lowest.
    #[must_use]
    pub fn spread(&self) -> Length {
        self.highest() - self.risers.iter().copied().min().unwrap_or_default()
    }

    /// Whether the flight keeps the limits, which themselves are allowed.
    #[must_use]
    pub fn keeps(&self, limits: Limits) -> bool {
        self.highest() <= limits.highest && self.spread() <= limits.spread
    }
}

/// The fewest risers of a rise, none higher than `highest`; `None` unless both are above zero and
/// there are no more than a thousand.
///
/// ```
/// use grounds_fit::spacing::riser_count;
/// // 110.5 in in risers of at most 7 3/4 in.
/// assert_eq!(riser_count("110.5 in".parse()?, "7 3/4 in".parse()?), Some(15));
/// # Ok::<(), grounds_measure::MeasureError>(())
/// ```
#[must_use]
pub fn riser_count(rise: Length, highest: Length) -> Option<usize> {
    let (whole, rest) = rise.divide_by(highest)?;
    let count = whole + i64::from(rest.is_positive());
    (1..=MOST)
        .contains(&count)
        .then(|| usize::try_from(count).ok())
        .flatten()
}

/// The risers once the finishes are on: of the floor at the foot, of each tread (one fewer than
/// risers; the last is used for all treads beyond those given), and of the floor at the head.
///
/// ```
/// use grounds_fit::spacing::{Flight, Limits, finished};
/// use grounds_measure::Length;
/// // Fourteen risers of 7 1/2 in, and 3/4 in boards at the foot alone.
/// let rough = Flight { risers: vec!["7 1/2 in".parse()?; 14] };
/// let flight = finished(&rough, "3/4 in".parse()?, &[], Length::ZERO);
/// assert_eq!(flight.spread(), "3/4 in".parse()?);
/// assert!(!flight.keeps(Limits::IRC));
/// # Ok::<(), grounds_measure::MeasureError>(())
/// ```
#[must_use]
pub fn finished(rough: &Flight, foot: Length, treads: &[Length], head: Length) -> Flight {
    let last = rough.risers.len().saturating_sub(1);
    let on = |level: usize| match level {
        0 => foot,
        _ if level > last => head,
        _ => treads
            .get(level - 1)
            .or(treads.last())
            .copied()
            .unwrap_or_default(),
    };
    Flight {
        risers: rough
            .risers
            .iter()
            .enumerate()
            .map(|(level, riser)| *riser + on(level + 1) - on(level))
            .collect(),
    }
}

/// The rough flight that ends up with equal risers: `count` risers over a rough rise, floors and
/// treads to be finished as thick as given. Heights of the treads are rounded to the step one by
/// one from the foot, so that finished risers differ by no more than one step. `None` without
/// risers or with more than a thousand.
#[must_use]
pub fn rough_for(
    rise: Length,
    count: usize,
    foot: Length,
    tread: Length,
    head: Length,
    step: Step,
) -> Option<Flight> {
    let parts = i64::try_from(count)
        .ok()
        .filter(|parts| (1..=MOST).contains(parts))?;
    let total = rise + head - foot;
    let height = |level: i64| match level {
        0 => Length::ZERO,
        _ if level == parts => rise,
        _ => share(total, level, parts).round_to(step, Rounding::Nearest) + foot - tread,
    };
    Some(Flight {
        risers: (1..=parts)
            .map(|level| height(level) - height(level - 1))
            .collect(),
    })
}

/// Pads on the lowest treads, falling evenly to nothing, that share a short first riser out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pads {
    /// The thickness of each pad, from the lowest tread up.
    pub pads: Vec<Length>,
    /// The flight with the pads on.
    pub flight: Flight,
}

/// `count` pads that make up for a first riser that is `short` of the others: the lowest tread gets
/// all of it, each one above an even step less. A first riser that is not short needs none.
///
/// Pads are rounded to the step. They lift the nosings towards the rail: check its height after.
///
/// ```
/// use grounds_fit::spacing::{Flight, pads};
/// use grounds_measure::{Length, Step};
/// let mut risers = vec!["7 1/2 in".parse()?; 14];
/// risers[0] = "6 3/4 in".parse()?;
/// let padded = pads(&Flight { risers }, 6, Step::SIXTEENTH_INCH);
/// assert_eq!(padded.pads[1], "5/8 in".parse()?);
/// assert_eq!(padded.flight.spread(), "1/8 in".parse()?);
/// # Ok::<(), grounds_measure::MeasureError>(())
/// ```
#[must_use]
pub fn pads(flight: &Flight, count: usize, step: Step) -> Pads {
    let short = flight
        .risers
        .get(1)
        .zip(flight.risers.first())
        .map_or(Length::ZERO, |(second, first)| *second - *first);
    let count = count.min(flight.risers.len().saturating_sub(1));
    let parts = i64::try_from(count).unwrap_or(i64::MAX);
    let pads: Vec<Length> = (0..parts)
        .filter(|_| short.is_positive())
        .map(|above| share(short, parts - above, parts).round_to(step, Rounding::Nearest))
        .collect();
    let mut treads = pads.clone();
    treads.push(Length::ZERO);
    Pads {
        flight: finished(flight, Length::ZERO, &treads, Length::ZERO),
        pads,
    }
}

impl Pads {
    /// The fewest pads with which a flight whose first riser is short keeps the limits; `None` if no
    /// number of pads does.
    #[must_use]
    pub fn fewest(flight: &Flight, limits: Limits, step: Step) -> Option<Self> {
        (0..flight.risers.len().min(100))
            .map(|count| pads(flight, count, step))
            .find(|padded| padded.flight.keeps(limits))
    }
}
