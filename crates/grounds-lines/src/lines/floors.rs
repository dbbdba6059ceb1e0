//! Floors on both sides of a passage.

use grounds_fit::net::Need;
use grounds_measure::Length;
use grounds_model::{Id, OUTSIDE, Passage};

use super::{Lines, NeedKind, Wanted, key_ref};
use crate::said;

impl Lines<'_> {
    /// The needs of every passage whose floors must meet.
    pub(super) fn add_thresholds(&mut self) {
        let job = self.job;
        for (id, passage) in &job.passages {
            self.add_threshold(id, passage);
        }
    }

    fn add_threshold(&mut self, id: &Id, passage: &Passage) {
        let [first, second] = &passage.between;
        if [first, second]
            .iter()
            .any(|place| place.as_str() == OUTSIDE)
        {
            return;
        }
        let (Some(from), Some(to)) = (
            self.floor_of(first).cloned(),
            self.floor_of(second).cloned(),
        ) else {
            return;
        };
        let about = key_ref(id);
        let mut reads = self.readings.plain(&about);
        reads.extend(self.readings.of_named(&about, "step"));
        for read in &reads {
            let name = self.passage_said(id, passage);
            self.add_reading(
                (from.as_of(read.at), to.as_of(read.at)),
                read,
                &name,
                &about,
            );
        }
        let Some(threshold) = &passage.threshold else {
            return;
        };
        let step = threshold.step.unwrap_or_default();
        let need = Need {
            from: from.finish(),
            to: to.finish(),
            least: Some((step - threshold.within).mm()),
            most: Some((step + threshold.within).mm()),
        };
        let subject = self.floor_said(second);
        let against = self.floor_said(first);
        let how = if step == Length::ZERO {
            "flush with"
        } else {
            "a step from"
        };
        self.want(Wanted {
            key: format!("{id}.threshold"),
            name: format!("{} {how} {against}", super::pieces::headed(&subject)),
            about,
            kind: NeedKind::Threshold,
            need,
            subject,
            against,
            orders: Vec::new(),
            id: None,
            missing: Vec::new(),
        });
    }

    /// The finished floor of a place, in words.
    pub(super) fn floor_said(&self, place: &Id) -> String {
        match self.floor_key(place) {
            Some(key) => self.finish_said(place, &key),
            None => format!("the floor in {}", said::place(self.job, place)),
        }
    }

    fn passage_said(&self, id: &Id, passage: &Passage) -> String {
        match &passage.name {
            Some(name) => format!("the threshold, {}", said::plain_lower(name)),
            None => format!(
                "the threshold between {} and {}",
                said::place(self.job, passage.between.first().unwrap_or(id)),
                said::place(self.job, passage.between.last().unwrap_or(id))
            ),
        }
    }
}
