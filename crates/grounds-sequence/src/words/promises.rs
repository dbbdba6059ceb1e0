//! Starts that people were told and that the plan has on another day, in words.

use grounds_schedule::{ActivityId, moved_promises};

use super::Words;

impl Words<'_> {
    /// The promised starts that the plan has on another day, by planned start, each with a sentence
    /// that says so and why.
    #[must_use]
    pub fn moved_promises(&self) -> Vec<(ActivityId, String)> {
        let network = &self.outlook.network;
        // A network that was planned has no fault that could be in the way here.
        let moved = moved_promises(&network.problem, &self.outlook.plan).unwrap_or_default();
        let day = |tick| network.clock.day(tick);
        moved
            .into_iter()
            .filter(|moved| day(moved.promised) != day(moved.planned))
            .map(|moved| {
                let id = moved.activity;
                let why = self.reasons(id).into_iter().next().unwrap_or_default();
                let stands = match moved.must {
                    true => "That cannot be kept",
                    false => "The plan gives that up",
                };
                let said = format!(
                    "{} was promised for {} and is planned for {}. {stands}. {why}",
                    self.task(id),
                    self.when(moved.promised),
                    self.when(moved.planned),
                );
                (id, said.trim_end().to_owned())
            })
            .collect()
    }
}
