//! What was read on site, as figures between planes.
//!
//! A note `measured` gives a figure, and what it is about says between which two planes:
//!
//! | about | value | from where to where |
//! |---|---|---|
//! | a layer | a length, or `thickness` | through the layer: how thick it came out |
//! | a layer | `from structure` | from the structure to the outside of the layer |
//! | a face or a layer | `from KEY`, a control line or a level | from its mark to the face as it stands that day |
//! | a face | `structure` | from what its structure is placed by to the structure |
//! | a piece | a length | the clear width of the opening it goes into |
//! | a piece | `thickness`, `width`, `height` | the piece itself, as it arrived |
//! | a piece | `depth` | from the layer it sits on to its own face |
//! | a piece | `proud` | from the face it is flush with, as it stands that day, to its own face; shy is below zero |
//! | a piece | `from KEY` | from the mark of a control line to its own face |
//! | a piece | `above floor` | from the floor as it stands that day to its bottom |
//! | a piece | `off centre` | from the centre it is set to, to its own |
//! | an opening | a length, or `width …`, `height …` | across the opening as it is lined that day; the narrowest counts |
//! | a passage | a length, or `step` | from the first floor of the passage up to the second, as they stand that day |
//! | a line by hand | the key of one of its links | between the ends of that link |
//!
//! What was read to stand somewhere takes the place of what was to be set or built there.
//!
//! A figure may carry its uncertainty, `12.5 mm ±0.5`: nineteen readings in twenty fall within it.
//! Without one it is that of a rule up to 300 mm, ±0.5 mm, and beyond of a tape, ±1/16 in for each
//! 10 ft and no less (common practice).

use std::collections::{BTreeMap, BTreeSet};

use grounds_measure::{Length, Units};
use grounds_model::{Id, Job, Ref, Target};
use grounds_site::{Kind, Note, Site, Subject, Value, words};
use jiff::Timestamp;
use uuid::Uuid;

use grounds_fit::net::PointId;

/// Up to here a rule is held against the work.
const RULE: Length = Length::from_mm(300);
/// Standard uncertainty of a rule, in millimetres.
const RULE_SIGMA: f64 = 0.25;
/// Standard uncertainty of a tape in 10 ft, in millimetres: half of 1/16 in.
const TAPE_SIGMA: f64 = 0.79375;
/// Ten feet, in millimetres.
const TEN_FEET: f64 = 3048.0;

/// The words that a reading for fit begins with.
const WORDS: [&str; 14] = [
    "thickness",
    "from ",
    "structure",
    "width",
    "height",
    "depth",
    "proud",
    "above floor",
    "off centre",
    "step",
    "diagonal",
    "plumb",
    "level ",
    "rise",
];

/// One reading.
#[derive(Clone, Debug, PartialEq)]
pub struct Read {
    /// What was read, in small letters; empty where only a length was given.
    pub what: String,
    /// The figure.
    pub figure: Length,
    /// Its standard uncertainty, in millimetres.
    pub sigma: f64,
    /// The note.
    pub note: Uuid,
    /// Who read it.
    pub by: String,
    /// When.
    pub at: Timestamp,
}

/// All readings of a job that count.
#[derive(Clone, Debug, Default)]
pub struct Readings {
    about: BTreeMap<Ref, Vec<Read>>,
    elsewhere: BTreeMap<Ref, Vec<(Id, Read)>>,
}

impl Readings {
    /// The readings of a site, and those that cannot be used with the reason.
    pub(crate) fn of(job: &Job, site: &Site) -> (Self, Vec<(Uuid, String)>) {
        let counting: BTreeSet<Uuid> = site
            .states
            .values()
            .flat_map(|state| state.notes.iter().copied())
            .collect();
        let mut readings = Self::default();
        let mut unused = Vec::new();
        for id in &counting {
            let Some(note) = site.notes.get(id) else {
                continue;
            };
            if note.kind != Kind::Measured || taken_off_since(job, site, note) {
                continue;
            }
            match read_of(job, note) {
                Some(Ok(read)) => readings.keep(job, note, read),
                Some(Err(why)) => unused.push((*id, why)),
                None => {}
            }
        }
        for reads in readings.about.values_mut() {
            reads.sort_by_key(|read| (read.at, read.note));
        }
        (readings, unused)
    }

    fn keep(&mut self, job: &Job, note: &Note, read: Read) {
        let from = read
            .what
            .strip_prefix("from ")
            .filter(|from| *from != "structure");
        match from.and_then(|from| placed_by(job, from)) {
            Some(key) => {
                let list = self.elsewhere.entry(note.about.clone()).or_default();
                list.push((key, read));
            }
            None => self.about.entry(note.about.clone()).or_default().push(read),
        }
    }

    /// Readings that gave a length and no more.
    pub(crate) fn plain(&self, about: &Ref) -> Vec<Read> {
        self.of_named(about, "")
    }

    /// Readings of exactly that name.
    pub(crate) fn of_named(&self, about: &Ref, what: &str) -> Vec<Read> {
        let all = self.about.get(about).into_iter().flatten();
        all.filter(|read| read.what == what).cloned().collect()
    }

    /// Readings of a width or a height, in groups of one place each: those without a place first.
    pub(crate) fn across(&self, about: &Ref, word: &str) -> Vec<Vec<Read>> {
        let mut groups: BTreeMap<String, Vec<Read>> = BTreeMap::new();
        for read in self.about.get(about).into_iter().flatten() {
            let plain = word == "width" && read.what.is_empty();
            if plain || read.what == word || read.what.starts_with(&format!("{word} ")) {
                groups
                    .entry(read.what.clone())
                    .or_default()
                    .push(read.clone());
            }
        }
        groups.into_values().collect()
    }

    /// Every reading about something.
    pub fn all_of(&self, about: &Ref) -> &[Read] {
        self.about.get(about).map_or(&[], Vec::as_slice)
    }

    /// Readings taken from a control line or a level, to a point.
    pub(crate) fn taken_from_elsewhere(
        &self,
        about: &Ref,
        to: impl Fn(Timestamp) -> PointId,
    ) -> Vec<(Id, Read, PointId)> {
        let found = self.elsewhere.get(about).into_iter().flatten();
        found
            .map(|(key, read)| (key.clone(), read.clone(), to(read.at)))
            .collect()
    }
}

/// The control line or level that a reading is taken from, by key or by name.
fn placed_by(job: &Job, from: &str) -> Option<Id> {
    let from = from.strip_prefix("the ").unwrap_or(from);
    let controls = job.controls.iter().map(|(key, it)| (key, &it.name));
    let levels = job.levels.iter().map(|(key, it)| (key, &it.name));
    controls
        .chain(levels)
        .find(|(key, name)| key.as_str() == from || name.to_lowercase() == from)
        .map(|(key, _)| key.clone())
}

/// Whether what was read was taken off, or spoiled, after the reading.
fn taken_off_since(job: &Job, site: &Site, note: &Note) -> bool {
    let subject = match job.resolve(&note.about) {
        Some(Target::Layer(key)) => Subject::Layer(key),
        Some(Target::Piece(id)) => Subject::Piece(id),
        Some(Target::Opening(id)) => Subject::Opening(id),
        _ => return false,
    };
    let state = site.state(&subject);
    let later = state.notes.iter().filter_map(|id| site.notes.get(id));
    later
        .filter(|other| (other.at, other.id) > (note.at, note.id))
        .any(|other| matches!(other.kind, Kind::Undone | Kind::Damaged))
}

/// The reading of a note; none if it is no reading for fit, or the reason why it cannot be used.
fn read_of(job: &Job, note: &Note) -> Option<Result<Read, String>> {
    let units = job.job.units;
    let (what, figure, uncertain) = match note.value.as_ref()? {
        Value::Length(length) => (String::new(), *length, None),
        Value::Reading { what, figure } => {
            let what = words::plain(what).to_lowercase();
            let by_hand = matches!(job.resolve(&note.about), Some(Target::Line(_)));
            if !by_hand && !WORDS.iter().any(|word| what.starts_with(word.trim_end())) {
                return None;
            }
            match figure_of(figure, units) {
                Some((figure, uncertain)) => (what, figure, uncertain),
                None => {
                    let why = format!(
                        "The reading “{}” is no length. How much was it, like {}?",
                        words::plain(figure),
                        match units {
                            Units::Metric => "12.5 mm ±0.5",
                            Units::Imperial => "1/2\" ±1/32\"",
                        }
                    );
                    return Some(Err(why));
                }
            }
        }
        _ => return None,
    };
    Some(Ok(Read {
        what,
        figure,
        sigma: uncertain.map_or_else(|| sigma_of(figure), |within| within.mm() / 2.0),
        note: note.id,
        by: words::plain(&note.by),
        at: note.at,
    }))
}

/// A figure with its uncertainty, if one is given. Both in the job's units where they have none.
fn figure_of(text: &str, units: Units) -> Option<(Length, Option<Length>)> {
    let mut parts = text.split(['±']).flat_map(|part| part.split("+-"));
    let figure = Length::parse_in(parts.next()?.trim(), units).ok()?;
    let Some(within) = parts.next() else {
        return Some((figure, None));
    };
    let within = Length::parse_in(within.trim(), units).ok()?;
    (within.is_positive() && parts.next().is_none()).then_some((figure, Some(within)))
}

/// The standard uncertainty of a rule or a tape over a distance, in millimetres.
fn sigma_of(figure: Length) -> f64 {
    if figure.abs() <= RULE {
        RULE_SIGMA
    } else {
        TAPE_SIGMA * (figure.abs().mm() / TEN_FEET).max(1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_figure_may_carry_its_uncertainty() {
        let half: Length = "1/2\"".parse().unwrap();
        let fine: Length = "1/32\"".parse().unwrap();
        assert_eq!(
            figure_of("1/2 ±1/32", Units::Imperial),
            Some((half, Some(fine)))
        );
        assert_eq!(
            figure_of("-2", Units::Metric),
            Some((Length::from_mm(-2), None))
        );
        assert_eq!(figure_of("11.4 %", Units::Metric), None);
    }

    #[test]
    fn a_tape_is_less_sure_over_a_longer_distance() {
        assert!((sigma_of(Length::from_mm(12)) - 0.25).abs() < 1e-12);
        assert!((sigma_of(Length::from_mm(2000)) - 0.793_75).abs() < 1e-12);
        assert!((sigma_of(Length::from_mm(6096)) - 1.5875).abs() < 1e-9);
    }
}
