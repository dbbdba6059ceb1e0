//! What each need comes to: verdict, figures, working and words.

mod measure;
mod outliers;
mod set_outs;
mod short;
mod words;
mod working;

use std::collections::BTreeMap;

use grounds_fit::{
    adjust::{Adjustment, adjust},
    check::Unsound,
    net::{Interval, LinkId, LinkKind, NeedId},
    prior::{Prior, prior},
};
use grounds_model::Ref;

use crate::{
    lines::{Lines, Missing, NeedKind, Source, Wanted},
    said,
};

pub use measure::{ToMeasure, measure_first};
pub(crate) use measure::{cover_is_open, cover_of};
pub use outliers::{Doubt, doubts};
pub use set_outs::{Clash, SetOut, set_out};
pub use short::in_short;

/// Nineteen cases of twenty: what counts as holding.
pub const HOLDS: f64 = 0.95;

/// Standard deviations between which nineteen cases of twenty lie.
const NINETEEN_IN_TWENTY: f64 = 1.96;

/// How a need stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// It lands outside in most cases.
    Fails,
    /// It lands inside in most cases, but not in nineteen of twenty.
    Tight,
    /// A figure is missing.
    CannotTell,
    /// It holds in nineteen cases of twenty, or more.
    Holds,
}

/// What a need comes to, in millimetres of its distance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figures {
    /// Everything at its nominal, read or set figure.
    pub nominal: f64,
    /// Where it most likely lands.
    pub mean: f64,
    /// Its standard deviation.
    pub spread: f64,
    /// Nineteen cases of twenty lie between these.
    pub likely: Interval,
    /// The worst cases: every part at its limit. Where readings stand beside what was built, three
    /// standard deviations; none where figures contradict each other.
    pub worst: Option<Interval>,
    /// The chance that it is met, 0 to 1.
    pub chance: f64,
}

/// One part of a distance.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// The link of the net.
    pub link: LinkId,
    /// What it is.
    pub name: String,
    /// What in the house it belongs to.
    pub about: Ref,
    /// Where its figure comes from.
    pub source: Source,
    /// What a millimetre more of it adds to the distance.
    pub coefficient: f64,
    /// Its figure, in millimetres.
    pub figure: f64,
    /// How far it may fall short and exceed, in millimetres.
    pub tolerance: (f64, f64),
    /// Its share of the variance, 0 to 1.
    pub share: f64,
    /// What was designed where a reading has taken its place.
    pub designed: Option<f64>,
    /// Whether it can still be changed.
    pub open: bool,
}

/// The answer to one need.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The key of the need.
    pub key: String,
    /// What is wanted, for a list.
    pub name: String,
    /// The piece, passage, opening, place or line that it is about.
    pub about: Ref,
    /// What kind of need.
    pub kind: NeedKind,
    /// How it stands.
    pub verdict: Verdict,
    /// How it stands, as a sentence or two.
    pub said: String,
    /// Where it lands, as those sentences begin: `The grille sits 3 mm shy of the plaster`; none while a
    /// figure is missing.
    pub lands: Option<String>,
    /// The least and the most that will do, in millimetres.
    pub limits: (Option<f64>, Option<f64>),
    /// The figures; none while one is missing.
    pub figures: Option<Figures>,
    /// The parts it is made of, in order.
    pub parts: Vec<Part>,
    /// The working, line by line.
    pub working: Vec<String>,
    /// What is missing, and who has it.
    pub missing: Vec<Missing>,
}

/// The answers to all needs of a house.
#[derive(Clone, Debug)]
pub struct Answers {
    /// One for each need: what fails first, then what is tight, what cannot be told, what holds;
    /// of one kind the least likely first.
    pub answers: Vec<Answer>,
    /// Readings that disagree with the others.
    pub doubts: Vec<Doubt>,
    /// What to measure first, the most telling first.
    pub measure: Vec<ToMeasure>,
    /// What to set by.
    pub set_outs: Vec<SetOut>,
    /// Needs that cannot all be met, whatever is set.
    pub clashes: Vec<Clash>,
}

impl Answers {
    /// The answers of a house.
    ///
    /// # Errors
    /// Where a figure cannot be reckoned with (longer than a kilometre), a sentence that names it.
    pub fn of(lines: &Lines<'_>) -> Result<Self, Vec<String>> {
        let (mut answers, adjusted) = reckoned(lines)?;
        for answer in &mut answers {
            answer.working = working::lines(lines, answer);
        }
        let measure = measure_first(lines, &adjusted, &answers);
        let (set_outs, clashes) = set_out(lines);
        Ok(Self {
            doubts: doubts(lines, &adjusted),
            measure,
            set_outs,
            clashes,
            answers,
        })
    }

    /// How every need stands, without its working and without what follows from it (doubts, what to
    /// measure, what to set by): enough to tell what is held up, in a third of the time.
    ///
    /// # Errors
    /// As [`Answers::of`].
    pub fn standing(lines: &Lines<'_>) -> Result<Self, Vec<String>> {
        let (answers, _) = reckoned(lines)?;
        Ok(Self {
            doubts: Vec::new(),
            measure: Vec::new(),
            set_outs: Vec::new(),
            clashes: Vec::new(),
            answers,
        })
    }

    /// The answer to the need of that key.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&Answer> {
        self.answers.iter().find(|answer| answer.key == key)
    }

    /// How many needs stand how.
    #[must_use]
    pub fn count(&self) -> BTreeMap<Verdict, usize> {
        let mut count = BTreeMap::new();
        for answer in &self.answers {
            *count.entry(answer.verdict).or_default() += 1;
        }
        count
    }
}

/// The answer to each need, what fails first, and the figures they come from.
fn reckoned(lines: &Lines<'_>) -> Result<(Vec<Answer>, Adjustment), Vec<String>> {
    let prior = prior(&lines.net).map_err(|unsound| faults(lines, &unsound))?;
    let adjusted = adjust(&lines.net).map_err(|unsound| faults(lines, &unsound))?;
    let wanted = lines.wanted.iter();
    let mut answers: Vec<Answer> = wanted
        .map(|wanted| answer(lines, wanted, &prior, &adjusted))
        .collect();
    answers.sort_by(|a, b| {
        let chance = |answer: &Answer| answer.figures.map_or(1.0, |figures| figures.chance);
        (a.verdict, chance(a))
            .partial_cmp(&(b.verdict, chance(b)))
            .unwrap_or(std::cmp::Ordering::Equal)
            .then_with(|| a.key.cmp(&b.key))
    });
    Ok((answers, adjusted))
}

fn answer(lines: &Lines<'_>, wanted: &Wanted, prior: &Prior, adjusted: &Adjustment) -> Answer {
    let figures = wanted.id.and_then(|id| figures(id, prior, adjusted));
    let parts = wanted
        .id
        .map_or_else(Vec::new, |id| parts(lines, id, adjusted));
    let verdict = figures.map_or(Verdict::CannotTell, |figures| verdict(wanted, &figures));
    let mut answer = Answer {
        key: wanted.key.clone(),
        name: wanted.name.clone(),
        about: wanted.about.clone(),
        kind: wanted.kind,
        verdict,
        said: String::new(),
        lands: figures.map(|figures| words::lands(lines.units(), wanted, &figures)),
        limits: (wanted.need.least, wanted.need.most),
        figures,
        parts,
        working: Vec::new(),
        missing: wanted.missing.clone(),
    };
    answer.said = words::sentence(lines, wanted, &answer);
    answer
}

fn verdict(wanted: &Wanted, figures: &Figures) -> Verdict {
    if figures.chance >= HOLDS {
        Verdict::Holds
    } else if figures.chance >= 0.5 && wanted.need.margin(figures.mean) >= 0.0 {
        Verdict::Tight
    } else {
        Verdict::Fails
    }
}

fn figures(id: NeedId, prior: &Prior, adjusted: &Adjustment) -> Option<Figures> {
    let before = prior.needs.get(id.index()).copied().flatten();
    let after = adjusted.needs.get(id.index()).copied().flatten()?;
    let unmoved = |before: grounds_fit::prior::NeedPrior| {
        (before.mean - after.mean).abs() < 1e-9 && (before.spread - after.spread).abs() < 1e-9
    };
    let worst = match before {
        Some(before) if unmoved(before) => before.worst,
        _ => Some(Interval::about(after.mean, 3.0 * after.spread)),
    };
    let nominal = before.filter(|before| unmoved(*before));
    Some(Figures {
        nominal: nominal.map_or(after.mean, |before| before.nominal),
        mean: after.mean,
        spread: after.spread,
        likely: Interval::about(after.mean, NINETEEN_IN_TWENTY * after.spread),
        worst,
        chance: after.chance,
    })
}

fn parts(lines: &Lines<'_>, id: NeedId, adjusted: &Adjustment) -> Vec<Part> {
    let terms = adjusted.working(id).into_iter();
    terms
        .filter(|term| term.coefficient.abs() > 1e-6)
        .filter_map(|term| {
            let tie = lines.tie(term.link)?;
            let link = lines.net.links.get(term.link.index())?;
            Some(Part {
                link: term.link,
                name: tie.name.clone(),
                about: tie.about.clone(),
                source: tie.source.clone(),
                coefficient: term.coefficient,
                figure: link.kind.nominal(),
                tolerance: match link.kind {
                    LinkKind::Measured { sigma, .. } => (2.0 * sigma, 2.0 * sigma),
                    kind => kind.tolerance(),
                },
                share: term.share,
                designed: tie.designed,
                open: tie.open,
            })
        })
        .collect()
}

/// What cannot be reckoned with, in sentences that name it.
fn faults(lines: &Lines<'_>, unsound: &Unsound) -> Vec<String> {
    let faults = unsound.0.iter();
    faults
        .map(|fault| {
            let name = match fault.place {
                grounds_fit::check::Place::Link(id) => lines.tie(id).map(|tie| tie.name.clone()),
                grounds_fit::check::Place::Need(id) => {
                    let found = lines.wanted.iter().find(|wanted| wanted.id == Some(id));
                    found.map(|wanted| wanted.name.clone())
                }
            };
            let name = name.unwrap_or_else(|| "a figure".to_owned());
            format!("{}: {}.", grounds_site::words::capital(&name), fault.what)
        })
        .collect()
}

/// What is wanted, for the middle of a sentence: `within 1 mm`, `at least 8 mm`.
#[must_use]
pub fn wanted_words(lines: &Lines<'_>, wanted: &Wanted) -> String {
    let units = lines.units();
    let say = |mm: f64| said::exact(mm, units);
    match (wanted.need.least, wanted.need.most) {
        (Some(least), Some(most)) if (least + most).abs() < 1e-9 => {
            format!("within {}", say(most))
        }
        (Some(least), Some(most)) if is_plane(wanted.kind) && most <= 0.0 => {
            format!("{} to {} shy", say(most), say(least))
        }
        (Some(least), Some(most)) if is_plane(wanted.kind) && least >= 0.0 => {
            format!("{} to {} proud", say(least), say(most))
        }
        (Some(least), Some(most)) => format!(
            "{} to {}",
            said::signed(least, units),
            said::signed(most, units)
        ),
        (Some(least), None) => format!("at least {}", said::signed(least, units)),
        (None, Some(most)) => format!("at most {}", said::signed(most, units)),
        (None, None) => "nothing in particular".to_owned(),
    }
}

fn is_plane(kind: NeedKind) -> bool {
    matches!(kind, NeedKind::Flush | NeedKind::InPlane | NeedKind::Reveal)
}
