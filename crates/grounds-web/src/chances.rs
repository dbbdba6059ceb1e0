//! Chances of dates in words.

use grounds_schedule::ActivityId;
use grounds_sequence::{Prospect, Words};

pub(crate) trait Chances {
    fn chances(&self, prospect: &Prospect) -> String;
    fn prospect_title(&self, prospect: &Prospect) -> String;
    fn against_plan(&self, prospect: &Prospect) -> String;
    fn driver(&self, id: ActivityId, share: f64) -> String;
    fn forecast_caution(&self) -> String;
}

impl Chances for Words<'_> {
    fn chances(&self, prospect: &Prospect) -> String {
        format!(
            "Even chance by {}; four in five by {}.",
            self.day(prospect.even),
            self.day(prospect.four_in_five)
        )
    }

    fn prospect_title(&self, prospect: &Prospect) -> String {
        prospect
            .milestone
            .map_or_else(|| "Finish".to_owned(), |id| self.task(id))
    }

    fn against_plan(&self, prospect: &Prospect) -> String {
        format!(
            "The planned {} is kept in {:.0} runs of 100.",
            self.day(prospect.planned),
            100.0 * prospect.on_plan
        )
    }

    fn driver(&self, id: ActivityId, share: f64) -> String {
        format!("{}: in {:.0} runs of 100.", self.task(id), 100.0 * share)
    }

    fn forecast_caution(&self) -> String {
        "A judgement from the spreads that the job gives.".to_owned()
    }
}
