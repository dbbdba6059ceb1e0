//! Time to spare in words.

use grounds_schedule::{ActivityId, forecast::Latest};

use super::{Words, chain::span_words};

impl Words<'_> {
    /// How long a start may wait: `Can wait until Thu 24 June 8:00 before the finish or a milestone
    /// moves.` Nothing for a wait of less than an hour.
    #[must_use]
    pub fn can_wait(&self, id: ActivityId, latest: Option<Latest>) -> Option<String> {
        let spare = self.spare(id, latest)?;
        let until = self.when(latest?.start);
        Some(format!(
            "Can wait until {until} ({spare}) before the finish or a milestone moves."
        ))
    }

    /// How long a start may wait: `3 days 2 h`. Nothing for less than an hour.
    #[must_use]
    pub fn spare(&self, id: ActivityId, latest: Option<Latest>) -> Option<String> {
        let start = *self.outlook.plan.starts.get(id.index())?;
        let spare = latest?.start.saturating_sub(start);
        (spare >= grounds_schedule::HOUR).then(|| span_words(spare))
    }
}
