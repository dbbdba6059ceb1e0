//! What the drawing of the weeks is drawn from.

use std::collections::BTreeMap;

use grounds_draw::{Bar, Closure, Day, Hatch, Level, Link, Mark, MarkKind, Place, Weeks};
use grounds_model::{Calendar, Id, Weekday};
use grounds_schedule::{ActivityId, NodeId, Tick, Tread};
use grounds_sequence::{Task, TaskState, Work, words::upper_first};
use jiff::civil::Date;

use super::Choice;
use crate::{marks, pages::row::moment, say, visit::Visit};

/// The key of the row for what has no place.
const WHOLE_HOUSE: &str = "whole-house";

/// Ticks and days on one sheet.
struct Scale<'a> {
    visit: &'a Visit,
    first: Date,
    days: i32,
}

/// The chart of a choice.
pub(super) fn chart(visit: &Visit, choice: &Choice<'_>) -> Weeks {
    let scale = Scale::new(visit, choice);
    let clock = &visit.picture.outlook.network.clock;
    Weeks {
        title: title(visit, choice),
        days: (0..scale.days).filter_map(|day| scale.day(day)).collect(),
        levels: levels(&scale, choice),
        closures: closures(&scale),
        today: scale.at_zoned(&visit.now.to_zoned_datetime(clock.zone().clone())),
        zoom: choice.range.zoom(),
    }
}

fn title(visit: &Visit, choice: &Choice<'_>) -> String {
    let words = visit.words();
    let trade = choice
        .trade
        .map_or_else(|| "every trade".to_owned(), |id| words.trade(id));
    let place = choice
        .place
        .map_or_else(|| "every place".to_owned(), |id| words.place(id));
    format!("{}, {trade}, {place}", choice.range.word())
}

impl<'a> Scale<'a> {
    /// A sheet that begins with the Monday of this week.
    fn new(visit: &'a Visit, choice: &Choice<'_>) -> Self {
        let outlook = &visit.picture.outlook;
        let clock = &outlook.network.clock;
        let today = visit.now.to_zoned_datetime(clock.zone().clone()).date();
        let back = i64::from(today.weekday().to_monday_zero_offset());
        let first = today
            .checked_sub(jiff::SignedDuration::from_hours(24 * back))
            .unwrap_or(today);
        let end = whole_days(first, clock.day(outlook.finish()));
        Self {
            visit,
            first,
            days: choice.range.days(end),
        }
    }

    /// A tick as days from the beginning of the sheet.
    fn at(&self, tick: Tick) -> f64 {
        self.at_zoned(&self.visit.picture.outlook.network.clock.zoned(tick))
    }

    fn at_zoned(&self, at: &jiff::ZonedDateTime) -> f64 {
        let minutes = i32::from(at.hour()) * 60 + i32::from(at.minute());
        f64::from(whole_days(self.first, at.date())) + f64::from(minutes) / 1440.0
    }

    fn holds(&self, from: f64, to: f64) -> bool {
        to >= 0.0 && from <= f64::from(self.days)
    }

    fn day(&self, index: i32) -> Option<Day> {
        let date = self
            .first
            .checked_add(jiff::SignedDuration::from_hours(24 * i64::from(index)))
            .ok()?;
        let job = &self.visit.picture.job;
        let calendar = job.calendars.get(&job.job.calendar);
        Some(Day {
            weekday: date.strftime("%a").to_string(),
            date: date.strftime("%-d %b").to_string(),
            rest: calendar.is_some_and(|calendar| is_rest(calendar, date)),
            begins_week: index % 7 == 0,
        })
    }
}

fn whole_days(from: Date, to: Date) -> i32 {
    let hours = to.duration_since(from).as_hours();
    i32::try_from(hours / 24).unwrap_or(i32::MAX)
}

fn is_rest(calendar: &Calendar, date: Date) -> bool {
    const DAYS: [Weekday; 7] = [
        Weekday::Mon,
        Weekday::Tue,
        Weekday::Wed,
        Weekday::Thu,
        Weekday::Fri,
        Weekday::Sat,
        Weekday::Sun,
    ];
    if calendar.extra.iter().any(|extra| extra.on == date) {
        return false;
    }
    let index = usize::from(date.weekday().to_monday_zero_offset().unsigned_abs());
    let works = DAYS
        .get(index)
        .is_some_and(|day| calendar.days.contains(day));
    let closed = calendar
        .closed
        .iter()
        .any(|closed| (closed.from..=closed.to.unwrap_or(closed.from)).contains(&date));
    !works || closed
}

fn levels(scale: &Scale<'_>, choice: &Choice<'_>) -> Vec<Level> {
    let job = &scale.visit.picture.job;
    let mut rows = rows(scale, choice);
    let mut designs: Vec<_> = job.levels.iter().collect();
    designs.sort_by_key(|(id, level)| (std::cmp::Reverse(level.height), *id));
    let mut levels: Vec<Level> = designs
        .into_iter()
        .map(|(id, design)| {
            let here = job.places.iter().filter(|(_, place)| place.level == *id);
            let places = here.filter_map(|(key, place)| {
                let row = rows.remove(key.as_str()).unwrap_or_default();
                place_row(key, &place.name, row, choice)
            });
            let height = say::height(design.height, job.job.units);
            Level {
                name: design.name.clone(),
                height,
                places: places.collect(),
            }
        })
        .filter(|level| !level.places.is_empty())
        .collect();
    let whole = rows.remove(WHOLE_HOUSE).unwrap_or_default();
    if !whole.is_empty() {
        let key = Id::from(WHOLE_HOUSE);
        let places = place_row(&key, "Dates", whole, choice)
            .into_iter()
            .collect();
        levels.insert(
            0,
            Level {
                name: "The job".to_owned(),
                height: String::new(),
                places,
            },
        );
    }
    levels
}

/// What happens in one place.
#[derive(Default)]
struct Row {
    bars: Vec<Bar>,
    marks: Vec<Mark>,
}

impl Row {
    fn is_empty(&self) -> bool {
        self.bars.is_empty() && self.marks.is_empty()
    }
}

/// A row of the chart; with a choice, only where something is to be shown.
fn place_row(key: &Id, name: &str, row: Row, choice: &Choice<'_>) -> Option<Place> {
    let chosen = choice.place.is_some_and(|place| place == key);
    let narrowed = choice.place.is_some() || choice.trade.is_some();
    (!narrowed || chosen || !row.is_empty()).then(|| Place {
        key: key.to_string(),
        name: name.to_owned(),
        bars: row.bars,
        marks: row.marks,
    })
}

fn rows(scale: &Scale<'_>, choice: &Choice<'_>) -> BTreeMap<String, Row> {
    let outlook = &scale.visit.picture.outlook;
    let mut rows: BTreeMap<String, Row> = BTreeMap::new();
    for (index, task) in outlook.network.tasks.iter().enumerate() {
        let id = ActivityId::from(index);
        let (from, to) = (
            scale.at(outlook.plan.starts[index]),
            scale.at(outlook.plan.finishes[index]),
        );
        if !scale.holds(from, to) || !is_chosen(task, choice) {
            continue;
        }
        let place = task.place.as_ref().map_or(WHOLE_HOUSE, Id::as_str);
        let row = rows.entry(place.to_owned()).or_default();
        match kind(task) {
            Some(kind) => row.marks.extend(mark(scale, id, task, kind)),
            None if matches!(task.work, Work::Shut(_)) => {}
            None => row.bars.push(bar(scale, id, task, (from, to))),
        }
    }
    rows
}

fn is_chosen(task: &Task, choice: &Choice<'_>) -> bool {
    choice
        .trade
        .is_none_or(|trade| task.trade.as_ref() == Some(trade))
        && choice
            .place
            .is_none_or(|place| task.place.as_ref() == Some(place))
}

/// The kind of moment that a task is, if it is one.
fn kind(task: &Task) -> Option<MarkKind> {
    match task.work {
        Work::Arrive(_) => Some(MarkKind::Delivery),
        Work::Pass(_) => Some(MarkKind::Inspection),
        Work::Reach(_) => Some(MarkKind::Milestone),
        Work::Decide(_) => Some(MarkKind::Decision),
        _ => None,
    }
}

fn mark(scale: &Scale<'_>, id: ActivityId, task: &Task, kind: MarkKind) -> Option<Mark> {
    // What is over has no need of a mark; the notes tell of it.
    if task.state == TaskState::Done {
        return None;
    }
    let visit = scale.visit;
    let start = visit.picture.outlook.plan.starts[id.index()];
    Some(Mark {
        at: scale.at(start),
        kind,
        trouble: marks::trouble(&visit.picture, id),
        said: format!("{}, {}", visit.words().task(id), visit.words().when(start)),
        href: Link::new(&visit.to_work(&task.key)),
    })
}

fn bar(scale: &Scale<'_>, id: ActivityId, task: &Task, (from, to): (f64, f64)) -> Bar {
    let visit = scale.visit;
    let picture = &visit.picture;
    let words = visit.words();
    let plan = &picture.outlook.plan;
    let (start, finish) = (plan.starts[id.index()], plan.finishes[id.index()]);
    let latest = visit.latest(id);
    let can_wait = words.can_wait(id, latest);
    let spare = can_wait
        .as_ref()
        .map_or_else(String::new, |said| format!(". {said}"));
    Bar {
        from,
        to,
        latest: can_wait
            .is_some()
            .then(|| latest.map(|latest| scale.at(latest.finish)))
            .flatten(),
        hatch: task.material.map_or(Hatch::Void, marks::hatch),
        state: marks::state(picture, id),
        drives: task.state != TaskState::Done && visit.drives(id),
        trouble: marks::trouble(picture, id),
        label: task.name.clone(),
        said: format!(
            "{}, {} to {}{}",
            words.task(id),
            words.when(start),
            words.when(finish),
            spare.trim_end_matches('.')
        ),
        href: Link::new(&visit.to_work(&task.key)),
    }
}

/// Every time in which somebody with boots on cannot cross, over every place that it cuts off.
fn closures(scale: &Scale<'_>) -> Vec<Closure> {
    let visit = scale.visit;
    let network = &visit.picture.outlook.network;
    let mut cut_off: BTreeMap<NodeId, Vec<String>> = BTreeMap::new();
    let mut closures = Vec::new();
    for (index, activity) in network.problem.activities.iter().enumerate() {
        let id = ActivityId::from(index);
        for closure in activity
            .closes
            .iter()
            .filter(|closure| closure.bars <= Tread::Boots)
        {
            let from = scale.at(moment(visit, closure.from, id));
            let to = scale.at(moment(visit, closure.until, id));
            if !scale.holds(from, to) || to <= from {
                continue;
            }
            let places = cut_off.entry(closure.node).or_insert_with(|| {
                network
                    .cut_off_by(closure.node)
                    .into_iter()
                    .map(ToString::to_string)
                    .collect()
            });
            closures.push(Closure {
                from,
                to,
                reason: upper_first(&visit.words().task(id)),
                places: places.clone(),
            });
        }
    }
    closures
}
