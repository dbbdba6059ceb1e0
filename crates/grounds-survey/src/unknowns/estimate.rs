//! What it costs to look, and what it costs if it is not there.

use grounds_measure::Span;
use grounds_model::{Id, Job, LayerKey};
use grounds_schedule::Tick;
use grounds_sequence::{LookPart, Outlook, look_for_piece, look_parts, words::lower_first};
use grounds_site::{Look, Site, Subject};

/// Work of a day, in minutes.
const DAY: u32 = 8 * 60;

/// The share of the time that a layer took to put on, that it takes to get it off again, in percent.
/// Common practice: taking off is half the work of putting on.
const OFF: u32 = 50;

/// What something would cost: an estimate with its working.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Estimate {
    /// Work of crews, in minutes.
    pub minutes: u32,
    /// Days by the clock from beginning to end: work at eight hours a day, and drying, one after another.
    pub days: u32,
    /// Crews' wages, in cents; nothing where a rate is not known. Material comes on top.
    pub cents: Option<i64>,
    /// The working, a line for each part.
    pub working: Vec<String>,
}

/// An estimate in the making.
struct Sum<'a> {
    job: &'a Job,
    minutes: u32,
    drying: u32,
    cents: Option<i64>,
    working: Vec<String>,
}

impl<'a> Sum<'a> {
    fn new(job: &'a Job) -> Self {
        Self {
            job,
            minutes: 0,
            drying: 0,
            cents: Some(0),
            working: Vec::new(),
        }
    }

    fn work(&mut self, what: &str, trade: Option<&Id>, people: Option<u32>, minutes: u32) {
        self.minutes = self.minutes.saturating_add(minutes);
        let Some(trade) = trade else {
            self.working.push(format!("{what}: {}", hours(minutes)));
            return;
        };
        let design = self.job.trades.get(trade);
        let people = people.or(design.map(|trade| trade.people)).unwrap_or(1);
        let rate = design.and_then(|trade| trade.rate).map(|rate| rate.cents());
        let cents = rate.map(|rate| rate * i64::from(people) * i64::from(minutes) / 60);
        self.cents = self.cents.zip(cents).map(|(sum, part)| sum + part);
        let name = design.map_or(trade.as_str(), |trade| trade.name.as_str());
        let crew = if people == 1 {
            "one".to_owned()
        } else {
            people.to_string()
        };
        self.working
            .push(format!("{what}: {}, {name}, {crew}", hours(minutes)));
    }

    fn dries(&mut self, what: &str, span: Span) {
        let minutes = match span {
            Span::WorkingDays(days) => days.saturating_mul(24 * 60),
            other => other.minutes().unwrap_or(0),
        };
        if minutes > 0 {
            self.drying = self.drying.saturating_add(minutes);
            self.working.push(format!("{what} dries {span}"));
        }
    }

    fn total(self) -> Estimate {
        let work = self.minutes.div_ceil(DAY);
        Estimate {
            minutes: self.minutes,
            days: work + self.drying.div_ceil(24 * 60),
            cents: self.cents,
            working: self.working,
        }
    }
}

/// `2 h`, `45 min`, `1 h 15 min`.
fn hours(minutes: u32) -> String {
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes} min"),
    }
}

fn of_parts(job: &Job, parts: &[LookPart]) -> Estimate {
    let mut sum = Sum::new(job);
    for part in parts {
        sum.work(&part.what, part.trade.as_ref(), None, part.minutes);
    }
    sum.total()
}

/// What a look at a layer costs. A spot is small: what is made good dries while other work goes on, so
/// drying is not counted.
pub(super) fn of_look(job: &Job, site: &Site, key: &LayerKey, how: Look) -> Estimate {
    of_parts(job, &look_parts(job, site, key, how))
}

/// What a look for a piece costs.
pub(super) fn of_piece_look(job: &Job, site: &Site, piece: &Id, how: Look) -> Estimate {
    of_parts(job, &look_for_piece(job, site, piece, how))
}

/// What it costs if a layer is not there: everything over it comes off, it goes in, and what was over
/// it goes on again, on all the faces that are worked on with it.
pub(super) fn of_doing_again(
    job: &Job,
    site: &Site,
    outlook: &Outlook,
    key: &LayerKey,
) -> Estimate {
    let keys = job.layers_of(&key.place, &key.face);
    let at = keys.iter().position(|other| other == key).unwrap_or(0);
    let is_on = |key: &&LayerKey| {
        let state = site.state(&Subject::Layer((*key).clone()));
        state.done.or(state.presumed).is_some()
    };
    let over: Vec<&LayerKey> = keys.iter().skip(at + 1).filter(is_on).collect();
    let mut sum = Sum::new(job);
    for key in over.iter().rev() {
        let Some(layer) = job.layer(key) else {
            continue;
        };
        let off = (minutes_of(outlook, key) * OFF / 100).max(15);
        let what = format!("take off the {}", lower_first(&layer.name));
        sum.work(&what, Some(&layer.trade), layer.people, off);
    }
    for key in std::iter::once(key).chain(over) {
        let Some(layer) = job.layer(key) else {
            continue;
        };
        let what = format!("put on the {}", lower_first(&layer.name));
        sum.work(
            &what,
            Some(&layer.trade),
            layer.people,
            minutes_of(outlook, key),
        );
        if let Some(wait) = layer.cover.or(layer.recoat) {
            sum.dries(&format!("the {}", lower_first(&layer.name)), wait);
        }
    }
    sum.total()
}

/// The work of a layer on all the faces that are worked on together, in minutes.
fn minutes_of(outlook: &Outlook, key: &LayerKey) -> u32 {
    let network = &outlook.network;
    let has_it = |task: &grounds_sequence::Task| match &task.work {
        grounds_sequence::Work::Layer(keys) => keys.contains(key),
        _ => false,
    };
    let at = network.tasks.iter().position(has_it);
    let ticks: Tick = at.map_or(0, |at| network.problem.activities[at].work);
    u32::try_from(ticks).unwrap_or(0).saturating_mul(15)
}
