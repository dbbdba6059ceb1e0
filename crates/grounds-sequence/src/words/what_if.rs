//! What if, in words: what is supposed, what it does, how it would be entered.

use grounds_model::{Id, Moment};
use grounds_site::{Note, Value};
use jiff::civil::Date;

use super::{Words, count, lower_first};
use crate::what_if::{Supposed, WhatIf};

/// Something supposed, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WhatIfWords {
    /// `With stair glass, middle flight on site Fri 24 September`.
    pub title: String,
    /// What it does to the last finish and the milestones, one sentence each.
    pub reached: Vec<String>,
    /// What it costs, or saves.
    pub cost: String,
    /// What of the next ten working days begins on another day.
    pub moves: Vec<String>,
    /// What could then not be met.
    pub breaches: Vec<String>,
    /// The note that says so, or the lines of the job.
    pub enter: Vec<String>,
}

impl Words<'_> {
    /// Something supposed, in words. These are the words of the plan as it stands.
    #[must_use]
    pub fn what_if(&self, supposed: &Supposed) -> WhatIfWords {
        let then = Words::new(&supposed.outlook, self.job);
        let known = self.breaches();
        let mut reached = self.others_reached(&supposed.effect, Some(&nobody()));
        if reached.is_empty() {
            reached.push("No date of a milestone moves.".to_owned());
        }
        WhatIfWords {
            title: self.supposed(&supposed.what),
            reached,
            cost: self.balance(supposed.effect.cents()),
            moves: then.moves(&supposed.effect),
            breaches: then
                .breaches()
                .into_iter()
                .filter(|breach| !known.contains(breach))
                .collect(),
            enter: self.entered(supposed),
        }
    }

    /// How it would be entered.
    fn entered(&self, supposed: &Supposed) -> Vec<String> {
        let notes = supposed.notes.iter().map(note_words);
        let lines = supposed.lines.iter();
        let mut said: Vec<String> = notes
            .chain(lines.map(|line| format!("In the job: {line}")))
            .collect();
        if said.is_empty() {
            said.push("Nothing to enter now: note it when it is tried.".to_owned());
        }
        said.extend(self.ordered_anew(supposed));
        said
    }

    /// When a damaged piece would come again: by its usual time to make, whatever was promised.
    fn ordered_anew(&self, supposed: &Supposed) -> Option<String> {
        let WhatIf::Damaged { about } = &supposed.what else {
            return None;
        };
        let outlook = &supposed.outlook;
        let comes = outlook.network.find(&format!("{about}:arrive"))?;
        Some(format!(
            "Ordered anew now, it is taken to come {} by its usual time to make. Ask its maker: an \
             old promise no longer counts.",
            self.day(outlook.plan.starts[comes.index()])
        ))
    }

    fn supposed(&self, what: &WhatIf) -> String {
        match what {
            WhatIf::Arrives { piece, on } => {
                format!("With {} on site {}", self.named(piece), self.date(on.date))
            }
            WhatIf::Decided { decision, on } => format!(
                "With {} decided {}",
                self.named(decision),
                self.date(on.date)
            ),
            WhatIf::Later { about, days } => {
                let days = match days {
                    1 => "one day".to_owned(),
                    n => format!("{} days", count(*n as usize)),
                };
                format!("With {} {days} later", self.named(about))
            }
            WhatIf::Away { trade, from, to } if from == to => format!(
                "Without {} on {}",
                lower_first(&self.trade(trade)),
                self.date(*from)
            ),
            WhatIf::Away { trade, from, to } => format!(
                "Without {} from {} to {}",
                lower_first(&self.trade(trade)),
                self.date(*from),
                self.date(*to)
            ),
            WhatIf::Fails { hold } => format!("With {} failed", self.named(hold)),
            WhatIf::Damaged { about } => {
                let layer = self.outlook.network.find(about.as_str());
                let name = layer.map_or_else(|| about.to_string(), |id| self.mid(id));
                format!("With {name} damaged now")
            }
        }
    }

    fn named(&self, id: &Id) -> String {
        let job = self.job;
        let name = job
            .pieces
            .get(id)
            .map(|piece| &piece.name)
            .or_else(|| job.holds.get(id).map(|hold| &hold.name))
            .or_else(|| job.decisions.get(id).map(|decision| &decision.name));
        name.map_or_else(|| id.to_string(), |name| lower_first(name))
    }

    fn date(&self, day: Date) -> String {
        self.day(self.outlook.network.clock.midnight(day))
    }
}

/// No milestone has this key, so that none is left out.
fn nobody() -> Id {
    Id(String::new())
}

/// A note as it would be entered: `A note: stair-glass promised 2027-09-24`.
fn note_words(note: &Note) -> String {
    let when = match &note.value {
        Some(Value::When(Moment { date, .. })) => format!(" {date}"),
        _ => String::new(),
    };
    let words = note
        .words
        .as_ref()
        .map_or_else(String::new, |words| format!(" ({words})"));
    format!("A note: {} {}{when}{words}", note.about, note.kind.word())
}
