//! Prints what we compute for the checks against reference libraries, as JSON: working days of a
//! thousand drawn cases, the starts of published networks, forecasts of small ones, and drawn
//! nets, openings, planes, cut lists and rules.
//!
//! `cargo xtask test` hands this to the scripts under `checks/`, which compute the same anew.

#[path = "outside/forecasts.rs"]
mod forecasts;
#[path = "outside/nets.rs"]
mod nets;
#[path = "outside/rules.rs"]
mod rules;
#[path = "outside/shapes.rs"]
mod shapes;

use std::{collections::BTreeMap, error::Error, iter};

use grounds_model::Job;
use grounds_schedule::{
    Activity, ActivityId, Clock, DAY, Effort, End, HOUR, Lag, Problem, Tick, chance::Chance,
    earliest_starts, latest_starts, solve,
};
use grounds_sequence::Network;
use jiff::{ToSpan, civil::Date, tz::TimeZone};
use serde::{Deserialize, Serialize};

/// The published networks, with their sources.
const NETWORKS: &str = include_str!("../../../checks/networks.json");

/// Calendars that are drawn, and cases on each.
const CALENDARS: usize = 40;
const CASES: usize = 25;

/// Hours of a usual day of the drawn calendars, 8:00 to 16:00.
const USUAL_DAY: Tick = 8 * HOUR;

const WEEKDAYS: [&str; 7] = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];

fn main() -> Result<(), Box<dyn Error>> {
    let mut chance = Chance::new(20_270_610);
    let mut calendars = Vec::new();
    for _ in 0..CALENDARS {
        calendars.push(calendar(&mut chance)?);
    }
    let networks: Vec<Published> = serde_json::from_str(NETWORKS)?;
    let networks = networks
        .iter()
        .map(computed)
        .collect::<Result<Vec<_>, _>>()?;
    println!(
        "{}",
        serde_json::to_string(&Outside {
            calendars,
            networks,
            forecast: forecasts::forecasts()?,
            nets: nets::nets()?,
            rules: rules::rules()?,
            shapes: shapes::shapes()?,
        })?
    );
    Ok(())
}

/// Everything that is compared.
#[derive(Serialize)]
struct Outside {
    calendars: Vec<CalendarCases>,
    networks: Vec<Computed>,
    forecast: forecasts::Forecasts,
    nets: Vec<nets::Case>,
    rules: rules::Rules,
    shapes: shapes::Shapes,
}

/// A calendar with what we make of it.
#[derive(Serialize)]
struct CalendarCases {
    /// Seven characters from Monday on, `1` for a day that is worked.
    week: String,
    closed: Vec<Date>,
    cases: Vec<DayCase>,
    /// The day that notice is given on, its working days, and the first day it allows.
    notice: (Date, u32, Date),
}

/// Work of whole days from one day on, and working days between two.
#[derive(Serialize)]
struct DayCase {
    from: Date,
    days: Tick,
    /// The day on which that much work ends.
    ends: Date,
    until: Date,
    /// Working days in `[from, until)`, in ticks of work over the ticks of a day.
    between: Tick,
}

/// Draws a calendar, makes a job of it and reads its working days out of the job's network.
fn calendar(chance: &mut Chance) -> Result<CalendarCases, Box<dyn Error>> {
    let mut week: Vec<bool> = (0..7)
        .map(|day| chance.happens(if day < 5 { 90 } else { 20 }))
        .collect();
    week[chance.below(5)] = true;
    let begins = jiff::civil::date(2027, 1, 1).checked_add(chance.between(0, 700).days())?;
    let closed: Vec<Date> = (0..chance.below(25))
        .map(|_| begins.checked_add(chance.between(-30, 400).days()))
        .collect::<Result<_, _>>()?;
    let told = begins.checked_add(chance.between(0, 40).days())?;
    let notice = u32::try_from(chance.between(1, 15))?;

    let job = Job::from_toml(&document(&week, &closed, begins, notice))?;
    let at = told.to_datetime(jiff::civil::time(7, 0, 0, 0));
    let at = TimeZone::get(&job.job.zone)?
        .to_ambiguous_timestamp(at)
        .compatible()?;
    let network = Network::build(&job, &grounds_site::fold(&job, &[], at), &[])?;
    let shelf = network
        .find("shelf")
        .ok_or("the shelf is not in the network")?;
    let look = network
        .find("look")
        .ok_or("the look is not in the network")?;
    let hours = network.problem.activities[shelf.index()]
        .calendar
        .ok_or("no calendar")?;
    let hours = &network.problem.calendars[hours.index()];

    let mut cases = Vec::new();
    for _ in 0..CASES {
        let from = told.checked_add(chance.between(0, 150).days())?;
        let until = from.checked_add(chance.between(0, 120).days())?;
        let days = chance.between(1, 60);
        let start = network.clock.midnight(from);
        let ends = hours
            .add(start, days * USUAL_DAY)
            .ok_or("the calendar ends too soon")?;
        let worked = hours.between(start, network.clock.midnight(until));
        if worked % USUAL_DAY != 0 {
            return Err("a part of a day was counted".into());
        }
        let ends = network.clock.day(ends - 1);
        cases.push(DayCase {
            from,
            days,
            ends,
            until,
            between: worked / USUAL_DAY,
        });
    }
    let first = network
        .problem
        .dates
        .iter()
        .find(|date| date.activity == look);
    let first = network.clock.day(first.ok_or("the look has no date")?.at);
    let week = week
        .iter()
        .map(|worked| if *worked { '1' } else { '0' })
        .collect();
    Ok(CalendarCases {
        week,
        closed,
        cases,
        notice: (told, notice, first),
    })
}

/// A job with one shelf, one look at it, and a calendar.
fn document(week: &[bool], closed: &[Date], begins: Date, notice: u32) -> String {
    let days: Vec<String> = WEEKDAYS
        .iter()
        .zip(week)
        .filter(|(_, worked)| **worked)
        .map(|(day, _)| format!("\"{day}\""))
        .collect();
    let closed: Vec<String> = closed
        .iter()
        .map(|day| format!("{{ from = \"{day}\" }}"))
        .collect();
    format!(
        r#"format = 1
job = {{ name = "A shelf", units = "metric", zone = "Europe/London", begins = "{begins}", calendar = "week" }}
[calendars.week]
days = [{}]
hours = ["08:00-16:00"]
closed = [{}]
[trades.joinery]
name = "Joinery"
[levels.ground]
name = "Ground floor"
height = "0 m"
[places.room]
name = "Room"
level = "ground"
entrance = true
size = "4 x 3 x 2.4 m"
[pieces.shelf]
name = "Shelf"
trade = "joinery"
place = "room"
takes = "8 h"
[holds.look]
name = "Look at the shelf"
kind = "authority"
place = "room"
after = ["shelf"]
before = []
notice = "{notice} working days"
"#,
        days.join(", "),
        closed.join(", ")
    )
}

/// A network of the data file.
#[derive(Deserialize)]
struct Published {
    name: String,
    work: BTreeMap<String, Tick>,
    links: Vec<Link>,
}

/// A link between two activities: least and most time from one end to another.
#[derive(Deserialize)]
struct Link {
    from: String,
    to: String,
    kind: String,
    min: Option<Tick>,
    max: Option<Tick>,
}

/// What we make of a network, in its own units of time.
#[derive(Serialize)]
struct Computed {
    name: String,
    earliest: BTreeMap<String, Tick>,
    latest: BTreeMap<String, Tick>,
    planned: BTreeMap<String, Tick>,
    finish: Tick,
    breaches: usize,
}

fn computed(network: &Published) -> Result<Computed, Box<dyn Error>> {
    let problem = problem(network)?;
    let solved = solve(&problem, &Effort::default())?;
    let finish = solved.plan.finishes.iter().copied().max().unwrap_or(0);
    let named = |ticks: &[Tick]| -> BTreeMap<String, Tick> {
        iter::zip(
            network.work.keys().cloned(),
            ticks.iter().map(|tick| tick / DAY),
        )
        .collect()
    };
    Ok(Computed {
        name: network.name.clone(),
        earliest: named(&earliest_starts(&problem)?),
        latest: named(&latest_starts(&problem, finish)?),
        planned: named(&solved.plan.starts),
        finish: finish / DAY,
        breaches: solved.breaches.len(),
    })
}

/// The network as a problem: a unit of its time is a day around the clock, and nothing is limited.
fn problem(network: &Published) -> Result<Problem, Box<dyn Error>> {
    let position = |name: &str| -> Result<ActivityId, String> {
        let index = network.work.keys().position(|key| key == name);
        index
            .map(ActivityId::from)
            .ok_or_else(|| format!("no activity {name}"))
    };
    let activity = |work: &Tick| Activity {
        work: work * DAY,
        ..Activity::default()
    };
    let lag = |link: &Link| -> Result<Lag, Box<dyn Error>> {
        let (from_end, to_end) = match link.kind.as_str() {
            "FS" => (End::Finish, End::Start),
            "SS" => (End::Start, End::Start),
            "FF" => (End::Finish, End::Finish),
            "SF" => (End::Start, End::Finish),
            other => return Err(format!("no kind of link {other}").into()),
        };
        Ok(Lag {
            from: position(&link.from)?,
            from_end,
            to: position(&link.to)?,
            to_end,
            min: link.min.map(|min| min * DAY),
            max: link.max.map(|max| max * DAY),
            clock: Clock::Elapsed,
        })
    };
    Ok(Problem {
        horizon: 1000 * DAY,
        activities: network.work.values().map(activity).collect(),
        lags: network.links.iter().map(lag).collect::<Result<_, _>>()?,
        day_cents: 100,
        ..Problem::default()
    })
}
