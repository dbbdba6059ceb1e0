//! How far ahead the weeks go.

use grounds_draw::Zoom;

/// How far ahead the weeks go.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Range {
    /// Two weeks.
    Two,
    /// Six weeks.
    Six,
    /// To the end of the plan.
    All,
}

/// The most days that are drawn.
const MOST_DAYS: i32 = 800;

impl Range {
    /// Every stretch, the shortest first.
    pub(crate) const ALL: [Self; 3] = [Self::Two, Self::Six, Self::All];

    /// The stretch that an address names; six weeks where it names none.
    pub(crate) fn named(value: Option<&str>) -> Self {
        Self::ALL
            .into_iter()
            .find(|range| Some(range.value()) == value)
            .unwrap_or(Self::Six)
    }

    /// How an address names it.
    pub(crate) fn value(self) -> &'static str {
        match self {
            Self::Two => "2",
            Self::Six => "6",
            Self::All => "all",
        }
    }

    /// What it is called.
    pub(crate) fn word(self) -> &'static str {
        match self {
            Self::Two => "2 weeks",
            Self::Six => "6 weeks",
            Self::All => "All",
        }
    }

    /// How wide a day is drawn.
    pub(crate) fn zoom(self) -> Zoom {
        match self {
            Self::Two => Zoom::TwoWeeks,
            Self::Six => Zoom::SixWeeks,
            Self::All => Zoom::AllWeeks,
        }
    }

    /// How many days are drawn, where the plan ends so many days after the first.
    pub(crate) fn days(self, end: i32) -> i32 {
        match self {
            Self::Two => 14,
            Self::Six => 42,
            Self::All => (end / 7 + 1).saturating_mul(7).clamp(14, MOST_DAYS),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_weeks_reach_past_the_end_of_the_plan() {
        assert_eq!(Range::All.days(0), 14);
        assert_eq!(Range::All.days(100), 105);
        assert_eq!(Range::All.days(105), 112);
        assert_eq!(Range::All.days(i32::MAX), MOST_DAYS);
        assert_eq!(Range::named(Some("soon")), Range::Six);
    }
}
