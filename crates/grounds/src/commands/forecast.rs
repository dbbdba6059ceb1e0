//! `grounds forecast`: how sure the dates are.

use std::{num::NonZeroUsize, thread::available_parallelism};

use grounds_schedule::ActivityId;
use grounds_sequence::{Forecast as Reckoned, ForecastEffort, Prospect, Words};
use serde::Serialize;

use super::{now::written, show, show_json};
use crate::{
    arguments::Forecast,
    ending::{Ending, Trouble},
    opened::Planned,
    page::{HEAD, PLAIN, Page, QUIET},
};

/// Runs and seed where nothing else is said: those of the pages, so that all say the same dates.
pub(super) const RUNS: u32 = 10_000;
pub(super) const SEED: u64 = 1;

/// Work that drives a date, as much as is worth reading.
const DRIVERS: usize = 5;

pub(super) fn run(asked: &Forecast) -> Result<Ending, Trouble> {
    let planned = Planned::of(&asked.job)?;
    let reckoned = reckon(&planned, asked.runs, asked.seed)?;
    if asked.json {
        show_json(&ForecastFile::of(&planned, &reckoned))?;
    } else {
        show(page(&planned, &reckoned))?;
    }
    Ok(planned.ending())
}

/// Runs the plan's policy.
pub(super) fn reckon(planned: &Planned, runs: u32, seed: u64) -> Result<Reckoned, Trouble> {
    let effort = ForecastEffort {
        runs,
        seed,
        threads: available_parallelism().unwrap_or(NonZeroUsize::MIN),
        ..ForecastEffort::default()
    };
    Reckoned::of(&planned.outlook, &planned.job, &effort)
        .map_err(|why| Trouble::Failure(format!("there is no forecast: {why}")))
}

fn page(planned: &Planned, reckoned: &Reckoned) -> Page {
    let words = Words::new(&planned.outlook, &planned.job);
    let mut page = Page::default();
    page.heading(HEAD, &planned.title());
    page.paragraph(PLAIN, 0, &words.forecast());
    if let Some(why) = words.why_no_sooner() {
        page.paragraph(QUIET, 0, &why);
    }
    prospect(&mut page, &words, &reckoned.finish);
    for each in &reckoned.milestones {
        prospect(&mut page, &words, each);
    }
    let windows = words.closing_windows(reckoned);
    if !windows.is_empty() {
        page.heading(HEAD, "To be timed with care");
        for window in &windows {
            page.item(2, window);
        }
    }
    page.heading(HEAD, "How it is reckoned");
    page.paragraph(PLAIN, 2, &words.forecast_caution(reckoned));
    page
}

fn prospect(page: &mut Page, words: &Words<'_>, prospect: &Prospect) {
    page.heading(HEAD, &words.prospect_title(prospect));
    page.paragraph(PLAIN, 2, &words.chances(prospect));
    page.paragraph(PLAIN, 2, &words.against_plan(prospect));
    if !prospect.causes.is_empty() {
        page.paragraph(QUIET, 2, "Where the spread comes from:");
        for cause in &prospect.causes {
            page.item(4, &words.cause_of_spread(cause));
        }
    }
    if !prospect.drivers.is_empty() {
        page.paragraph(QUIET, 2, "What drives it:");
        for &(id, share) in prospect.drivers.iter().take(DRIVERS) {
            page.item(4, &words.driver(id, share));
        }
    }
}

/// `grounds forecast --json`
#[derive(Debug, Serialize)]
struct ForecastFile<'a> {
    job: &'a str,
    runs: u32,
    finish: Date<'a>,
    milestones: Vec<Date<'a>>,
}

/// One date with its chances.
#[derive(Debug, Serialize)]
struct Date<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    id: Option<&'a str>,
    name: String,
    planned: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    due: Option<String>,
    one_in_ten: String,
    even: String,
    four_in_five: String,
    nine_in_ten: String,
    chance_of_plan: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    chance_of_due: Option<f64>,
    drivers: Vec<Driver<'a>>,
}

/// Work that drives a date, and in which share of the runs.
#[derive(Debug, Serialize)]
struct Driver<'a> {
    id: &'a str,
    share: f64,
}

impl<'a> ForecastFile<'a> {
    fn of(planned: &'a Planned, reckoned: &Reckoned) -> Self {
        let milestones = reckoned.milestones.iter();
        Self {
            job: &planned.job.job.name,
            runs: reckoned.runs,
            finish: Date::of(planned, &reckoned.finish),
            milestones: milestones.map(|each| Date::of(planned, each)).collect(),
        }
    }
}

impl<'a> Date<'a> {
    fn of(planned: &'a Planned, prospect: &Prospect) -> Self {
        let network = &planned.outlook.network;
        let words = Words::new(&planned.outlook, &planned.job);
        let at = |tick| written(&network.clock.zoned(tick));
        let key = |id: ActivityId| network.task(id).map(|task| task.key.as_str());
        let driver = |&(id, share): &(ActivityId, f64)| {
            Some(Driver {
                id: key(id)?,
                share,
            })
        };
        Self {
            id: prospect.milestone.and_then(key),
            name: words.prospect_title(prospect),
            planned: at(prospect.planned),
            due: prospect.due.map(at),
            one_in_ten: at(prospect.one_in_ten),
            even: at(prospect.even),
            four_in_five: at(prospect.four_in_five),
            nine_in_ten: at(prospect.nine_in_ten),
            chance_of_plan: prospect.on_plan,
            chance_of_due: prospect.by_due,
            drivers: prospect.drivers.iter().filter_map(driver).collect(),
        }
    }
}
