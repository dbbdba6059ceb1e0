//! `grounds fit --json`: every length in millimetres.

use grounds_fit::net::Interval;
use grounds_lines::{
    answers::{Answer, Part, ToMeasure, Verdict},
    holdups::Holdup,
    lines::Source,
};
use grounds_model::Id;
use serde::Serialize;

use super::Fits;
use crate::commands::now::written;

/// The fits of a house, or one of them with what belongs to it.
#[derive(Debug, Serialize)]
pub(super) struct FitFile<'a> {
    job: &'a str,
    at: String,
    /// What fails first, then what is tight, what cannot be told, what holds.
    fits: Vec<One<'a>>,
    /// What to measure, the most telling first.
    measure: Vec<Measure<'a>>,
    set_outs: Vec<Set<'a>>,
    /// Fits that cannot all be met, whatever is set.
    clashes: Vec<Clash<'a>>,
    /// Readings that disagree with the others, and readings that could not be used.
    does_not_add_up: Vec<&'a str>,
}

/// One fit.
#[derive(Debug, Serialize)]
struct One<'a> {
    key: &'a str,
    name: &'a str,
    about: &'a str,
    /// `fails`, `tight`, `cannot-tell` or `holds`.
    verdict: &'static str,
    said: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    least: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    most: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    figures: Option<Figures>,
    parts: Vec<OnePart<'a>>,
    working: &'a [String],
    missing: Vec<Missing<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    holds: Option<Holds<'a>>,
}

/// What a fit comes to.
#[derive(Debug, Serialize)]
struct Figures {
    nominal: f64,
    mean: f64,
    /// Its standard deviation.
    spread: f64,
    /// Nineteen cases of twenty lie between these.
    likely: [f64; 2],
    #[serde(skip_serializing_if = "Option::is_none")]
    worst: Option<[f64; 2]>,
    /// 0 to 1.
    chance: f64,
}

/// One part of the distance.
#[derive(Debug, Serialize)]
struct OnePart<'a> {
    name: &'a str,
    about: &'a str,
    figure: f64,
    /// How far it may fall short and exceed.
    tolerance: [f64; 2],
    /// What a millimetre more of it adds to the distance.
    counts: f64,
    /// Its share of what is not sure, 0 to 1.
    share: f64,
    /// Who read it; nobody where it is as designed.
    #[serde(skip_serializing_if = "Option::is_none")]
    read_by: Option<&'a str>,
    /// What was designed where a reading has taken its place.
    #[serde(skip_serializing_if = "Option::is_none")]
    designed: Option<f64>,
}

/// A figure that nobody has given yet.
#[derive(Debug, Serialize)]
struct Missing<'a> {
    what: &'a str,
    who: &'a str,
    about: &'a str,
}

/// What a fit holds up.
#[derive(Debug, Serialize)]
struct Holds<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    order: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    cover: Option<&'a str>,
    /// Somebody decided that it goes on as it is: then nothing is held.
    goes_on: bool,
}

/// Something to measure.
#[derive(Debug, Serialize)]
struct Measure<'a> {
    about: &'a str,
    what: &'a str,
    said: &'a str,
    /// The fits that hang on it.
    fits: &'a [String],
    #[serde(skip_serializing_if = "Option::is_none")]
    before: Option<&'a str>,
    /// When the plan covers it.
    #[serde(skip_serializing_if = "Option::is_none")]
    covered: Option<String>,
}

/// Something to set by.
#[derive(Debug, Serialize)]
struct Set<'a> {
    about: &'a str,
    value: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    drawn: Option<f64>,
    said: &'a str,
}

/// Fits that cannot all be met.
#[derive(Debug, Serialize)]
struct Clash<'a> {
    fits: &'a [String],
    said: &'a str,
}

impl<'a> FitFile<'a> {
    pub(super) fn of(fits: &'a Fits<'a>, one: Option<&'a Answer>) -> Self {
        let network = &fits.planned.outlook.network;
        let now = network.now.to_zoned_datetime(network.clock.zone().clone());
        let all = fits.answers;
        let meant = |key: &String| one.is_none_or(|one| one.key == *key);
        let own = |link| one.is_none_or(|one| one.parts.iter().any(|part| part.link == link));
        let doubts = all.doubts.iter().filter(|doubt| own(doubt.link));
        let unused = fits.lines.unused.iter().filter(|_| one.is_none());
        Self {
            job: &fits.planned.job.job.name,
            at: written(&now),
            fits: all
                .answers
                .iter()
                .filter(|answer| meant(&answer.key))
                .map(|answer| One::of(answer, fits.holdup(&answer.key)))
                .collect(),
            measure: all
                .measure
                .iter()
                .filter(|it| it.needs.iter().any(meant))
                .map(|it| Measure::of(fits, it))
                .collect(),
            set_outs: all
                .set_outs
                .iter()
                .filter(|it| own(it.link))
                .map(|it| Set {
                    about: it.about.as_str(),
                    value: it.value,
                    drawn: it.drawn,
                    said: &it.said,
                })
                .collect(),
            clashes: all
                .clashes
                .iter()
                .filter(|clash| clash.needs.iter().any(meant))
                .map(|clash| Clash {
                    fits: &clash.needs,
                    said: &clash.said,
                })
                .collect(),
            does_not_add_up: doubts
                .map(|doubt| doubt.said.as_str())
                .chain(unused.map(|(_, why)| why.as_str()))
                .collect(),
        }
    }
}

impl<'a> One<'a> {
    fn of(answer: &'a Answer, holdup: Option<&'a Holdup>) -> Self {
        let (least, most) = answer.limits;
        let ends = |interval: Interval| [interval.low, interval.high];
        Self {
            key: &answer.key,
            name: &answer.name,
            about: answer.about.as_str(),
            verdict: match answer.verdict {
                Verdict::Fails => "fails",
                Verdict::Tight => "tight",
                Verdict::CannotTell => "cannot-tell",
                Verdict::Holds => "holds",
            },
            said: &answer.said,
            least,
            most,
            figures: answer.figures.map(|figures| Figures {
                nominal: figures.nominal,
                mean: figures.mean,
                spread: figures.spread,
                likely: ends(figures.likely),
                worst: figures.worst.map(ends),
                chance: figures.chance,
            }),
            parts: answer.parts.iter().map(OnePart::of).collect(),
            working: &answer.working,
            missing: answer
                .missing
                .iter()
                .map(|missing| Missing {
                    what: &missing.what,
                    who: &missing.who,
                    about: missing.about.as_str(),
                })
                .collect(),
            holds: holdup.map(|holdup| Holds {
                order: holdup.order.as_ref().map(Id::as_str),
                cover: holdup.cover.as_ref().map(|cover| cover.as_str()),
                goes_on: holdup.overruled.is_some(),
            }),
        }
    }
}

impl<'a> OnePart<'a> {
    fn of(part: &'a Part) -> Self {
        Self {
            name: &part.name,
            about: part.about.as_str(),
            figure: part.figure,
            tolerance: [part.tolerance.0, part.tolerance.1],
            counts: part.coefficient,
            share: part.share,
            read_by: match &part.source {
                Source::Reading { by, .. } => Some(by),
                Source::Design => None,
            },
            designed: part.designed,
        }
    }
}

impl<'a> Measure<'a> {
    fn of(fits: &Fits<'_>, it: &'a ToMeasure) -> Self {
        let clock = &fits.planned.outlook.network.clock;
        Self {
            about: it.about.as_str(),
            what: &it.what,
            said: &it.said,
            fits: &it.needs,
            before: it.before.as_ref().map(|before| before.as_str()),
            covered: fits.covered(it).map(|at| written(&clock.zoned(at))),
        }
    }
}
