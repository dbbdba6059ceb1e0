//! Will it fit: everything that pages say and draw of it, reckoned once when the job changes.

mod drawn;
mod opening;
pub(crate) mod set_out;

use std::collections::{BTreeMap, BTreeSet};

use grounds_draw::{Bands, PlaneLayout, Section, StairLayout};
use grounds_fit::adjust::adjust;
use grounds_lines::{
    advice::advice,
    answers::{Answer, Answers, ToMeasure, Verdict},
    holdups::{Holdup, holdups},
    lines::{Lines, NeedKind},
    take::{Take, take, takes},
};
use grounds_model::{Id, Job, Ref, Target};
use grounds_site::{Kind, Note, Site, Value};
use uuid::Uuid;

pub(crate) use opening::{Found, Ordered, Sheet, TapeKind, Weighed};

/// Everything that is known of how the house fits.
#[derive(Debug, Default)]
pub(crate) struct Fit {
    /// The answers, what fails first.
    pub(crate) answers: Vec<Answer>,
    /// What stands beside each answer, by its key.
    pub(crate) facts: BTreeMap<String, Facts>,
    /// What is to be measured, the most telling first.
    pub(crate) measure: Vec<ToRead>,
    /// Readings that disagree.
    pub(crate) doubts: Vec<Doubtful>,
    /// What to set by: what it is about, and the sentence.
    pub(crate) set_outs: Vec<(Ref, String)>,
    /// Needs that cannot all be met: their keys, and the sentence.
    pub(crate) clashes: Vec<(Vec<String>, String)>,
    /// Readings that could not be used, with the reason.
    pub(crate) unused: Vec<(Uuid, String)>,
    /// The openings.
    pub(crate) openings: BTreeMap<Id, Sheet>,
    /// The flights.
    pub(crate) stairs: BTreeMap<Id, StairLayout>,
    /// Control lines that several pieces stand by.
    pub(crate) planes: BTreeMap<Id, PlaneLayout>,
    /// Why nothing can be said, where a figure cannot be reckoned with.
    pub(crate) faults: Vec<String>,
}

/// What stands beside an answer.
#[derive(Debug, Default)]
pub(crate) struct Facts {
    /// What to do, as a sentence.
    pub(crate) advice: Option<String>,
    /// What it holds up.
    pub(crate) holdup: Option<Holdup>,
    /// What can be read to know it better.
    pub(crate) takes: Vec<Take>,
    /// The place that it is in.
    pub(crate) place: Option<Id>,
    /// Where it lands, for lists.
    pub(crate) bands: Option<Bands>,
    /// Where it lands and how often that will do, for a list that names it already.
    pub(crate) short: Option<String>,
    /// What is wanted, for the middle of a sentence.
    pub(crate) wanted: String,
    /// Its sections to scale.
    pub(crate) sections: Vec<Section>,
    /// A sheet that shows it better than a section.
    pub(crate) sheet: Option<Onto>,
    /// Where its parts come from: set by, one after another.
    pub(crate) set_by: Vec<String>,
}

/// A sheet of its own.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Onto {
    /// Of an opening.
    Opening(Id),
    /// Of a flight.
    Stair(Id),
    /// Of a plane.
    Plane(Id),
}

/// Something to measure, with the note that would say it.
#[derive(Debug)]
pub(crate) struct ToRead {
    /// What, and why.
    pub(crate) measure: ToMeasure,
    /// How it is taken; nothing where no note can say it.
    pub(crate) take: Option<Take>,
}

/// A reading that disagrees with the others.
#[derive(Debug)]
pub(crate) struct Doubtful {
    /// What to do.
    pub(crate) said: String,
    /// The same reading once more.
    pub(crate) take: Option<Take>,
}

impl Fit {
    /// Reckons how a house fits as it stands.
    pub(crate) fn of(job: &Job, site: &Site) -> Self {
        let lines = Lines::of(job, site);
        let unused = lines.unused.clone();
        let (answers, adjusted) = match (Answers::of(&lines), adjust(&lines.net)) {
            (Ok(answers), Ok(adjusted)) => (answers, adjusted),
            (Err(faults), _) => {
                return Self {
                    faults,
                    unused,
                    ..Self::default()
                };
            }
            (_, Err(unsound)) => {
                return Self {
                    faults: vec![unsound.to_string()],
                    unused,
                    ..Self::default()
                };
            }
        };
        let drawing = drawn::Drawing {
            lines: &lines,
            adjusted: &adjusted,
        };
        let held = holdups(&lines, &answers);
        let facts: BTreeMap<String, Facts> = answers
            .answers
            .iter()
            .map(|answer| {
                let held = held.iter().find(|held| held.need == answer.key).cloned();
                (answer.key.clone(), facts(&drawing, &answers, answer, held))
            })
            .collect();
        let measure = to_read(&answers, &facts);
        let doubts = answers.doubts.iter();
        Self {
            measure,
            doubts: doubts
                .map(|doubt| Doubtful {
                    said: doubt.said.clone(),
                    take: doubt.note.and_then(|note| again(&lines, site, note)),
                })
                .collect(),
            set_outs: answers
                .set_outs
                .iter()
                .map(|out| (out.about.clone(), out.said.clone()))
                .collect(),
            clashes: answers
                .clashes
                .iter()
                .map(|clash| (clash.needs.clone(), clash.said.clone()))
                .collect(),
            unused,
            openings: opening::sheets(&drawing),
            stairs: drawn::stairs(&drawing, &answers),
            planes: drawn::planes(&drawing, &answers),
            faults: Vec::new(),
            facts,
            answers: answers.answers,
        }
    }

    /// Takes over what was reckoned of the openings before, where nothing about them has changed.
    pub(crate) fn keep(&mut self, before: &Self) {
        for (id, sheet) in &mut self.openings {
            if let Some(before) = before.openings.get(id) {
                sheet.keep(before);
            }
        }
    }

    /// Reckons of the openings what no page should wait for.
    pub(crate) fn reckon_ahead(&self) {
        for sheet in self.openings.values() {
            sheet.found();
        }
    }

    /// The answer of that key, with what stands beside it.
    pub(crate) fn need(&self, key: &str) -> Option<(&Answer, &Facts)> {
        let answer = self.answers.iter().find(|answer| answer.key == key)?;
        Some((answer, self.facts.get(key)?))
    }

    /// What stands beside an answer.
    pub(crate) fn facts(&self, answer: &Answer) -> Option<&Facts> {
        self.facts.get(&answer.key)
    }

    /// The answers that fail or are tight.
    pub(crate) fn in_trouble(&self) -> impl Iterator<Item = &Answer> {
        let trouble = |verdict| matches!(verdict, Verdict::Fails | Verdict::Tight);
        self.answers
            .iter()
            .filter(move |answer| trouble(answer.verdict))
    }

    /// The answers that are about any of these, or are made of them.
    pub(crate) fn about<'a>(&'a self, refs: &'a BTreeSet<Ref>) -> impl Iterator<Item = &'a Answer> {
        self.answers.iter().filter(move |answer| {
            let made_of = answer.parts.iter().any(|part| refs.contains(&part.about));
            refs.contains(&answer.about) || made_of
        })
    }
}

fn facts(
    drawing: &drawn::Drawing<'_>,
    answers: &Answers,
    answer: &Answer,
    holdup: Option<Holdup>,
) -> Facts {
    let lines = drawing.lines;
    let links = || answer.parts.iter().map(|part| part.link);
    let set_by = answers.set_outs.iter();
    let wanted = lines.wanted(&answer.key);
    Facts {
        advice: advice(lines, answers, answer),
        holdup,
        takes: takes(lines, answer),
        place: place(lines, &answer.about),
        bands: drawn::bands(lines, answer),
        short: grounds_lines::answers::in_short(lines, answer),
        wanted: wanted.map_or_else(String::new, |wanted| {
            grounds_lines::answers::wanted_words(lines, wanted)
        }),
        sections: wanted.map_or_else(Vec::new, |wanted| drawing.sections(wanted, answer)),
        sheet: onto(lines, answer),
        set_by: set_by
            .filter(|out| links().any(|link| link == out.link))
            .map(|out| out.said.clone())
            .collect(),
    }
}

/// The place that something is in.
fn place(lines: &Lines<'_>, about: &Ref) -> Option<Id> {
    let job = lines.job;
    match job.resolve(about)? {
        Target::Layer(key) => Some(key.place),
        Target::Face { place, .. } | Target::Place(place) => Some(place),
        Target::Piece(id) => job.pieces.get(&id).map(|piece| piece.place.clone()),
        Target::Opening(id) => job.openings.get(&id).map(|opening| opening.place.clone()),
        Target::Passage(id) => job
            .passages
            .get(&id)
            .and_then(|passage| passage.between.first().cloned()),
        _ => None,
    }
}

fn onto(lines: &Lines<'_>, answer: &Answer) -> Option<Onto> {
    match (answer.kind, lines.job.resolve(&answer.about)?) {
        (NeedKind::Width | NeedKind::Height, Target::Piece(id)) => {
            let mut all = lines.job.openings.iter();
            let (opening, _) = all.find(|(_, opening)| opening.piece.as_ref() == Some(&id))?;
            Some(Onto::Opening(opening.clone()))
        }
        (NeedKind::Rise, Target::Place(id)) => Some(Onto::Stair(id)),
        (NeedKind::InPlane, Target::Piece(id)) => {
            drawn::control_of(lines.job, &id).map(Onto::Plane)
        }
        _ => None,
    }
}

/// What is to be measured, each with the note that would say it.
fn to_read(answers: &Answers, facts: &BTreeMap<String, Facts>) -> Vec<ToRead> {
    let measure = answers.measure.iter();
    measure
        .map(|measure| {
            let needs = measure.needs.iter().filter_map(|key| facts.get(key));
            let mut takes = needs.flat_map(|facts| &facts.takes);
            let same = |take: &&Take| {
                let across = |word: &str| {
                    take.what.starts_with(word) == measure.what.starts_with(&format!("the {word}"))
                };
                take.asked == measure.what
                    || take.about == measure.about && across("width") && across("height")
            };
            ToRead {
                take: takes.find(same).cloned(),
                measure: measure.clone(),
            }
        })
        .collect()
}

/// The reading of a note, to be taken once more.
fn again(lines: &Lines<'_>, site: &Site, note: Uuid) -> Option<Take> {
    let note: &Note = site.notes.get(&note)?;
    if note.kind != Kind::Measured {
        return None;
    }
    let what = match note.value.as_ref()? {
        Value::Reading { what, .. } => what.to_lowercase(),
        _ => String::new(),
    };
    take(lines, &note.about, &what)
}

/// The reading that an address or a form names.
pub(crate) fn reading(job: &Job, site: &Site, about: &str, what: &str) -> Option<Take> {
    take(&Lines::of(job, site), &Ref::from(about), what)
}
