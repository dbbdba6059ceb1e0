//! `grounds weeks`: the work of the next weeks, by trade or by place.

use std::{
    cmp::Reverse,
    collections::{BTreeMap, BTreeSet},
};

use grounds_model::Id;
use grounds_schedule::{ActivityId, Tick, forecast::Latest};
use grounds_sequence::{PlanFile, TaskState, Words};

use super::{now::cannot_be_met, show, show_json};
use crate::{
    arguments::{By, Weeks},
    ending::{Ending, Trouble},
    opened::Planned,
    page::{HEAD, PLAIN, Page, QUIET},
};

/// What the words behind the work mean.
const LEGEND: &str = "“Drives a date”: any later, and the finish or a milestone moves. “Can wait”: so \
                      long before one does, each by itself, in this order of work.";

pub(super) fn run(asked: &Weeks) -> Result<Ending, Trouble> {
    let planned = Planned::of(&asked.job)?;
    if asked.json {
        show_json(&PlanFile::of(&planned.outlook, &planned.job))?;
    } else {
        show(page(&planned, asked.by, asked.weeks))?;
    }
    Ok(planned.ending())
}

fn page(planned: &Planned, by: By, weeks: u16) -> Page {
    let words = Words::new(&planned.outlook, &planned.job);
    let network = &planned.outlook.network;
    let today = network.clock.day(network.now_tick());
    let last = today
        .checked_add(jiff::Span::new().weeks(weeks))
        .unwrap_or(jiff::civil::Date::MAX);
    let until = network.clock.midnight(last);
    let work: Vec<ActivityId> = in_weeks(planned, until);

    let mut page = Page::default();
    page.heading(HEAD, &planned.title());
    let span = if weeks == 1 {
        "One week".to_owned()
    } else {
        format!("{weeks} weeks")
    };
    page.paragraph(PLAIN, 0, &format!("{span} of work. {}", words.forecast()));
    let spare = Spare::of(planned, &work);
    for (title, ids) in gathered(planned, &words, by, &work) {
        page.heading(HEAD, &title);
        for id in ids {
            row(&mut page, &words, id, by, &spare);
        }
    }
    page.heading(QUIET, LEGEND);
    let later = network.open().count() - work.len();
    if later > 0 {
        page.heading(
            PLAIN,
            &format!("{later} more to come after that; --weeks N shows them."),
        );
    }
    cannot_be_met(&mut page, &words);
    page
}

/// What time there is to spare.
struct Spare {
    latest: BTreeMap<ActivityId, Latest>,
    drives: BTreeSet<ActivityId>,
}

impl Spare {
    fn of(planned: &Planned, work: &[ActivityId]) -> Self {
        let outlook = &planned.outlook;
        let latest = work.iter().copied().zip(outlook.latest(work));
        Self {
            latest: latest
                .filter_map(|(id, latest)| Some((id, latest?)))
                .collect(),
            drives: outlook.driving(),
        }
    }

    /// ` (can wait 3 days)`, ` (drives a date)`, or nothing.
    fn word(&self, words: &Words<'_>, id: ActivityId) -> String {
        let latest = self.latest.get(&id).copied();
        match words.spare(id, latest) {
            Some(span) => format!(" (can wait {span})"),
            None if self.drives.contains(&id) => " (drives a date)".to_owned(),
            None => String::new(),
        }
    }
}

/// Open work that is in hand or starts before `until`, by start.
fn in_weeks(planned: &Planned, until: Tick) -> Vec<ActivityId> {
    let starts = &planned.outlook.plan.starts;
    let start = |id: &ActivityId| starts.get(id.index()).copied().unwrap_or(Tick::MAX);
    let mut ids: Vec<ActivityId> = planned
        .outlook
        .network
        .open()
        .filter(|id| start(id) < until)
        .collect();
    ids.sort_by_key(|id| (start(id), *id));
    ids
}

/// Groups with their titles: trades by first start, places from the top of the house down.
fn gathered(
    planned: &Planned,
    words: &Words<'_>,
    by: By,
    work: &[ActivityId],
) -> Vec<(String, Vec<ActivityId>)> {
    let network = &planned.outlook.network;
    let group = |id: ActivityId| -> Option<&Id> {
        let task = network.task(id)?;
        match by {
            By::Trade => task.trade.as_ref(),
            By::Place => task.place.as_ref(),
        }
    };
    let mut groups: Vec<(Option<&Id>, Vec<ActivityId>)> = Vec::new();
    for &id in work {
        match groups.iter_mut().find(|(other, _)| *other == group(id)) {
            Some((_, ids)) => ids.push(id),
            None => groups.push((group(id), vec![id])),
        }
    }
    if by == By::Place {
        let height = |place: Option<&Id>| {
            let place = planned.job.places.get(place?)?;
            planned
                .job
                .levels
                .get(&place.level)
                .map(|level| level.height)
        };
        groups.sort_by_key(|(place, _)| (place.is_none(), Reverse(height(*place))));
    }
    let title = |id: Option<&Id>| match (id, by) {
        (Some(id), By::Trade) => words.trade(id),
        (Some(id), By::Place) => place_title(planned, words, id),
        (None, By::Trade) => "Deliveries, decisions and dates".to_owned(),
        (None, By::Place) => "The whole house".to_owned(),
    };
    groups
        .into_iter()
        .map(|(id, ids)| (title(id), ids))
        .collect()
}

fn place_title(planned: &Planned, words: &Words<'_>, id: &Id) -> String {
    let place = planned.job.places.get(id);
    let level = place.and_then(|place| planned.job.levels.get(&place.level));
    match level {
        Some(level) => format!("{} ({})", words.place(id), level.name),
        None => words.place(id),
    }
}

fn row(page: &mut Page, words: &Words<'_>, id: ActivityId, by: By, spare: &Spare) {
    let outlook = words.outlook;
    let (Some(task), Some(&from), Some(&until)) = (
        outlook.network.task(id),
        outlook.plan.starts.get(id.index()),
        outlook.plan.finishes.get(id.index()),
    ) else {
        return;
    };
    let who = match (by, &task.trade) {
        (By::Place, Some(trade)) => format!(" ({})", words.trade(trade)),
        _ => String::new(),
    };
    let state = match task.state {
        TaskState::InHand => " (in hand)".to_owned(),
        _ => spare.word(words, id),
    };
    let from_text = moment(words, from);
    let until_text = if from == until {
        String::new()
    } else {
        moment(words, until)
    };
    let same_day = outlook.network.clock.day(from) == outlook.network.clock.day(until);
    let until_text = match until_text.rsplit_once(' ') {
        Some((_, hour)) if same_day => format!("{hour:>16}"),
        _ => until_text,
    };
    page.row(
        2,
        &[(&from_text, 16), (&until_text, 16)],
        &format!("{}{who}{state}", words.task(id)),
    );
}

/// `Thu 10 Jun  8:00`
fn moment(words: &Words<'_>, tick: Tick) -> String {
    words
        .outlook
        .network
        .clock
        .zoned(tick)
        .strftime("%a %e %b %k:%M")
        .to_string()
}
