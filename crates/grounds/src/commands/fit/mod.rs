//! `grounds fit`: what will be flush, in line and the right size.

mod file;
mod one;
mod whole;

use grounds_lines::{
    answers::{Answer, Answers, ToMeasure, Verdict},
    holdups::{Holdup, goes_on, holdups},
    lines::Lines,
};
use grounds_schedule::Tick;
use grounds_sequence::{
    Words,
    words::{lower_first, upper_first},
};

use super::{show, show_json};
use crate::{
    arguments::Fit,
    asked,
    ending::{Ending, Trouble},
    opened::Planned,
    page::Page,
};

/// Names that are offered where what was typed fits several, or none.
const OFFERED: usize = 12;
const NEAR: usize = 3;

pub(super) fn run(asked: &Fit) -> Result<Ending, Trouble> {
    let planned = Planned::of(&asked.job)?;
    let lines = Lines::of(&planned.job, &planned.site);
    let answers = Answers::of(&lines).map_err(|faults| Trouble::Input(faults.join("\n")))?;
    let fits = Fits {
        planned: &planned,
        lines: &lines,
        answers: &answers,
        holdups: holdups(&lines, &answers),
    };
    let one = asked.need.as_deref().map(|need| fits.find(need));
    let one = one.transpose()?;
    if asked.json {
        show_json(&file::FitFile::of(&fits, one))?;
    } else if let Some(one) = one {
        show(one::page(&fits, one))?;
    } else {
        show(whole::page(&fits, asked.all))?;
    }
    let mut asked_for: Vec<&Answer> = match one {
        Some(one) => vec![one],
        None => fits.with(Verdict::Fails).collect(),
    };
    asked_for.retain(|answer| fits.fails(answer));
    Ok(if asked_for.is_empty() {
        Ending::Fine
    } else {
        Ending::CannotBeMet
    })
}

/// The fits of a house beside its plan.
struct Fits<'a> {
    planned: &'a Planned,
    lines: &'a Lines<'a>,
    answers: &'a Answers,
    holdups: Vec<Holdup>,
}

impl<'a> Fits<'a> {
    fn words(&self) -> Words<'a> {
        Words::new(&self.planned.outlook, &self.planned.job)
    }

    /// The fits that stand so, the least likely first.
    fn with(&self, verdict: Verdict) -> impl Iterator<Item = &'a Answer> {
        let all = self.answers.answers.iter();
        all.filter(move |answer| answer.verdict == verdict)
    }

    /// Whether a fit fails and nobody has decided that it goes on as it is.
    fn fails(&self, answer: &Answer) -> bool {
        answer.verdict == Verdict::Fails && goes_on(self.lines, &answer.about).is_none()
    }

    fn holdup(&self, key: &str) -> Option<&Holdup> {
        self.holdups.iter().find(|holdup| holdup.need == key)
    }

    /// When the plan covers what is to be measured; none where nothing in it does.
    fn covered(&self, it: &ToMeasure) -> Option<Tick> {
        let outlook = &self.planned.outlook;
        let id = grounds_settle::covered(&outlook.network, it)?;
        outlook.plan.starts.get(id.index()).copied()
    }

    /// `The plan covers it Mon 14 June 8:00.`
    fn covered_words(&self, it: &ToMeasure) -> Option<String> {
        let at = self.covered(it)?;
        let now = self.planned.outlook.network.now_tick();
        Some(if at < now {
            "It is being covered now.".to_owned()
        } else {
            format!("The plan covers it {}.", self.words().when(at))
        })
    }

    /// What a fit holds up, or who let it go on: `It holds the order of the dining glass.`
    fn holds_words(&self, answer: &Answer) -> Option<String> {
        let in_trouble = matches!(answer.verdict, Verdict::Fails | Verdict::Tight);
        let decided = in_trouble.then(|| goes_on(self.lines, &answer.about));
        if let Some(decided) = decided.flatten() {
            let network = &self.planned.outlook.network;
            let note = self.planned.site.notes.get(&decided.note);
            let by = note.map_or_else(String::new, |note| format!(" by {}", note.by));
            let on = self.words().day(network.clock.floor(decided.at));
            return Some(format!("It goes on as it is, decided{by}, {on}."));
        }
        let holdup = self.holdup(&answer.key)?;
        let pieces = &self.planned.job.pieces;
        let order = holdup.order.as_ref().map(|id| {
            let piece = pieces.get(id);
            let name = piece.map_or_else(|| id.to_string(), |piece| lower_first(&piece.name));
            format!("the order of {name}")
        });
        let cover = holdup.cover.as_ref().map(|cover| {
            let network = &self.planned.outlook.network;
            let work = grounds_settle::work_of(network, cover);
            work.map_or_else(|| cover.to_string(), |id| self.words().mid(id))
        });
        let held: Vec<String> = order.into_iter().chain(cover).collect();
        Some(format!(
            "It holds {}, until it is settled or a note lets it go on as it is: {} decided.",
            held.join("; and "),
            holdup.about
        ))
    }

    /// The fit that is meant by a key, or by a part of a key or name.
    fn find(&self, need: &str) -> Result<&'a Answer, Trouble> {
        if let Some(answer) = self.answers.get(need) {
            return Ok(answer);
        }
        let all = self.answers.answers.iter();
        let fits: Vec<&Answer> = all
            .filter(|answer| asked::is_meant(need, &format!("{} {}", answer.key, answer.name)))
            .collect();
        match fits.as_slice() {
            [] => Err(Trouble::Input(self.unknown(need))),
            [only] => Ok(*only),
            many => Err(Trouble::Input(several(need, many))),
        }
    }

    fn unknown(&self, need: &str) -> String {
        if self.answers.answers.is_empty() {
            return NOTHING_ASKED.to_owned();
        }
        let keys = self.answers.answers.iter().map(|answer| &answer.key);
        let near = asked::nearest(need, keys.map(String::as_str), NEAR);
        let mean = match near.split_last() {
            None => String::new(),
            Some((only, [])) => format!("; did you mean {only}?"),
            Some((last, others)) => format!("; did you mean {} or {last}?", others.join(", ")),
        };
        format!(
            "no fit is called {}{mean}\n`grounds fit JOB --all` lists every fit of the job.",
            asked::quoted(need)
        )
    }
}

/// What a job says that asks for no fit at all.
const NOTHING_ASKED: &str = "nothing in this job has to fit yet: give a piece what it must align \
                             with, as in align = [{ how = \"flush\", with = \"hall.walls\", within \
                             = \"1 mm\" }], or the size of the opening it goes in";

fn several(need: &str, fits: &[&Answer]) -> String {
    let mut lines = vec![format!(
        "{} fits are meant by {}; name one by its key:",
        fits.len(),
        asked::quoted(need)
    )];
    for answer in fits.iter().take(OFFERED) {
        lines.push(format!("  {}  ({})", answer.key, answer.name));
    }
    if fits.len() > OFFERED {
        lines.push(format!("  and {} more", fits.len() - OFFERED));
    }
    lines.join("\n")
}

/// A list with a mark before each.
fn list(page: &mut Page, items: impl Iterator<Item = String>) {
    for item in items {
        page.item(2, &item);
    }
}

/// How a fit stands, in a word or two.
fn verdict_word(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Fails => "fails",
        Verdict::Tight => "is tight",
        Verdict::CannotTell => "cannot be told yet",
        Verdict::Holds => "holds",
    }
}

/// `Two fail, one is tight and nine hold.`
fn counts(answers: &Answers) -> String {
    let count = answers.count();
    let parts: Vec<String> = count
        .iter()
        .map(|(verdict, &n)| {
            let one = verdict_word(*verdict);
            let several = match verdict {
                Verdict::Fails => "fail",
                Verdict::Tight => "are tight",
                Verdict::CannotTell => one,
                Verdict::Holds => "hold",
            };
            let word = if n == 1 { one } else { several };
            format!("{} {word}", grounds_sequence::words::count(n))
        })
        .collect();
    upper_first(&format!("{}.", grounds_sequence::words::join(&parts)))
}
