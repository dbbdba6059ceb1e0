//! What a change does, in words: to milestones, to the money, to the next ten working days.

use grounds_model::Id;

use super::{Words, count, upper_first};
use crate::effect::{Effect, Moved, Reached};

/// At most so many moves are told one by one.
const TOLD: usize = 8;

impl Words<'_> {
    /// What is reached, in the middle of a sentence: `kitchen in use`, `the last finish`.
    pub(super) fn reached_name(&self, milestone: Option<&Id>) -> String {
        match milestone {
            None => "the last finish".to_owned(),
            Some(id) => {
                let known = self.job.milestones.get(id);
                let name = known.map_or_else(|| id.to_string(), |known| known.name.clone());
                format!("“{name}”")
            }
        }
    }

    /// `“Kitchen in use” comes four days sooner, Mon 13 September instead of Fri 17 September.`
    /// Nothing where the day stays.
    #[must_use]
    pub fn reached(&self, reached: &Reached) -> Option<String> {
        let days = reached.days;
        if days == 0 {
            return None;
        }
        Some(format!(
            "{} comes {} {}, {} instead of {}.",
            upper_first(&self.reached_name(reached.milestone.as_ref())),
            days_words(days.unsigned_abs()),
            if days > 0 { "sooner" } else { "later" },
            self.day(reached.after),
            self.day(reached.before),
        ))
    }

    /// What else a change does to the dates, beside that of one milestone: one sentence for each
    /// that moves.
    #[must_use]
    pub fn others_reached(&self, effect: &Effect, beside: Option<&Id>) -> Vec<String> {
        effect
            .reached
            .iter()
            .filter(|reached| reached.milestone.as_ref() != beside)
            .filter_map(|reached| self.reached(reached))
            .collect()
    }

    /// What moves in the next ten working days, the first few one by one.
    #[must_use]
    pub fn moves(&self, effect: &Effect) -> Vec<String> {
        let mut told: Vec<String> = effect
            .moves
            .iter()
            .take(TOLD)
            .map(|moved| self.moved(moved))
            .collect();
        let more = effect.moves.len().saturating_sub(TOLD);
        if more > 0 {
            told.push(format!("And {} more.", count(more)));
        }
        told
    }

    /// `Wall tile, guest shower walls: Mon 14 June instead of Thu 10 June.`
    #[must_use]
    pub fn moved(&self, moved: &Moved) -> String {
        let name = match self.outlook.network.find(&moved.key) {
            Some(id) => self.task(id),
            None => moved.key.clone(),
        };
        match (moved.before, moved.after) {
            (Some(was), Some(is)) => {
                format!("{name}: {} instead of {}.", self.day(is), self.day(was))
            }
            (None, Some(is)) => format!("{name}: new, {}.", self.day(is)),
            (Some(was), None) => format!("{name}: no longer needed, was {}.", self.day(was)),
            (None, None) => format!("{name}."),
        }
    }

    /// `It costs £640 more in all.`, by what the plan and whatever is added to it cost.
    pub(super) fn balance(&self, cents: i64) -> String {
        match cents {
            0 => "It costs nothing more.".to_owned(),
            more if more > 0 => format!("Costs {} more in all.", self.money(more)),
            less => format!("Saves {} in all.", self.money(less)),
        }
    }
}

/// `one day`, `four days`.
pub(super) fn days_words(days: u32) -> String {
    match days {
        1 => "one day".to_owned(),
        n => format!("{} days", count(n as usize)),
    }
}
