//! What a reading means for a test that the job asks for.

use grounds_measure::Humidity;
use grounds_model::{Hold, Id, Job, Ref, Target};
use grounds_site::{Kind as NoteKind, Subject, Value};

use super::Desk;

/// A test that a reading would pass.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Means {
    /// The hold.
    pub hold: Id,
    /// What it is called.
    pub name: String,
    /// What it asks for, in its own words: `Hygrometer reading, 75 % or less`.
    pub asks: String,
}

impl Desk<'_> {
    /// The test that a reading of a layer would pass: one that waits for that layer, can be made now,
    /// and asks for a share that the reading keeps to. A reading that does not keep to it fails
    /// nothing: it is one of several on the way there.
    pub(super) fn means(
        &self,
        kind: NoteKind,
        value: Option<&Value>,
        about: &Ref,
    ) -> Option<Means> {
        let (NoteKind::Measured, Some(Value::Humidity(read))) = (kind, value) else {
            return None;
        };
        let Some(Target::Layer(layer)) = self.job.resolve(about) else {
            return None;
        };
        let here = |hold: &Hold| {
            hold.place == layer.place
                && hold.after.iter().chain(&hold.before).any(|other| {
                    matches!(self.job.resolve(other), Some(Target::Layer(key)) if key.face == layer.face && key.place == layer.place)
                })
        };
        let (id, hold, asks) = self.job.holds.iter().find_map(|(id, hold)| {
            let asks = hold.evidence.iter().find(|asks| keeps_to(*read, asks))?;
            let open = self.site.state(&Subject::Hold(id.clone())).done.is_none();
            (open && here(hold) && self.can_be_tried(self.job, hold)).then_some((id, hold, asks))
        })?;
        Some(Means {
            hold: id.clone(),
            name: hold.name.clone(),
            asks: asks.clone(),
        })
    }

    /// Whether everything that a hold waits for is done.
    fn can_be_tried(&self, job: &Job, hold: &Hold) -> bool {
        hold.after.iter().all(|after| {
            let subject = job.resolve(after).and_then(Subject::of);
            subject.is_some_and(|subject| self.site.state(&subject).done.is_some())
        })
    }
}

/// Whether a reading keeps to a limit that is written as `75 % or less` or `75 % at most`.
fn keeps_to(read: Humidity, asks: &str) -> bool {
    let Some((before, after)) = asks.split_once('%') else {
        return false;
    };
    let after = after.trim_start().to_lowercase();
    let at_most =
        after.starts_with("or less") || after.starts_with("at most") || before.contains("at most");
    let figure = before
        .trim_end()
        .rsplit(|c: char| !(c.is_ascii_digit() || c == '.'))
        .next();
    let limit = figure.and_then(|figure| format!("{figure} %").parse::<Humidity>().ok());
    at_most && limit.is_some_and(|limit| read <= limit)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_limit_is_read_from_what_a_hold_asks() {
        let read = |text: &str| text.parse::<Humidity>().unwrap();
        assert!(keeps_to(read("74 %"), "Hygrometer reading, 75 % or less"));
        assert!(keeps_to(read("75 %"), "75 % at most"));
        assert!(!keeps_to(read("76 %"), "Hygrometer reading, 75 % or less"));
        assert!(!keeps_to(read("1 %"), "Photo of every penetration"));
        assert!(!keeps_to(read("1 %"), "at least 20 % of the joints seen"));
    }
}
