//! Some published instances, where a folder of them lies beside the checkout.
//!
//! Grade: published. Instances: Kolisch and Sprecher 1997 (precedence) and Schwindt 1998 (time lags);
//! the values of `best_known.csv` are published critical paths, bounds and makespans.

#![allow(clippy::unwrap_used, reason = "a test may fail loudly")]

use std::collections::BTreeMap;
use std::fs;
use std::num::NonZeroUsize;
use std::path::{Path, PathBuf};

use grounds_bench::instance::Instance;
use grounds_bench::race::{Limits, Outcome, Status, Stop, race};
use grounds_bench::report::Line;
use grounds_bench::{folder, progen_max, psplib};
use grounds_schedule::{Effort, Tick, construct, earliest_starts, solve, verify};

/// The folder of a set, if it is there.
fn set(name: &str) -> Option<PathBuf> {
    let beside = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../shared/bench");
    let folder = beside.join(name);
    if folder.is_dir() {
        return Some(folder);
    }
    println!("skipped: there is no folder of published instances beside the checkout for {name}");
    None
}

/// For each instance, the cells of its line by the heads of the columns.
fn published(folder: &Path) -> BTreeMap<String, BTreeMap<String, String>> {
    let text = fs::read_to_string(folder.join("best_known.csv")).unwrap();
    let mut lines = text.lines();
    let heads: Vec<&str> = lines.next().unwrap().split(',').collect();
    let owned = |(head, cell): (&&str, &str)| ((*head).to_owned(), cell.to_owned());
    lines
        .map(|line| heads.iter().zip(line.split(',')).map(owned).collect())
        .map(|cells: BTreeMap<_, _>| (cells["instance"].clone(), cells))
        .collect()
}

fn makespan_of_list(instance: &Instance) -> Option<Tick> {
    let plan = construct(&instance.problem, &[]).unwrap();
    let holds = verify(&instance.problem, &plan).is_empty();
    holds.then(|| plan.starts[instance.end.index()])
}

#[test]
fn the_plan_of_a_plain_list_lies_between_the_published_bound_and_one_after_the_other() {
    for name in ["rcpsp/j30", "rcpsp/j120"] {
        let Some(folder) = set(name) else { continue };
        let published = published(&folder);
        for file in folder::instances(&folder, "sm", "_1")
            .unwrap()
            .iter()
            .take(5)
        {
            let instance = psplib::read(&folder::text(file).unwrap()).unwrap();
            let values = &published[file.file_name().unwrap().to_str().unwrap()];
            let path = earliest_starts(&instance.problem).unwrap()[instance.end.index()];
            assert_eq!(
                path.to_string(),
                values["critical_path"],
                "{}",
                file.display()
            );
            let makespan = makespan_of_list(&instance).unwrap();
            let bound: Tick = values["lower_bound"].parse().unwrap();
            let sum: Tick = instance.problem.activities.iter().map(|a| a.work).sum();
            assert!(
                (bound..=sum).contains(&makespan),
                "{}: {makespan}",
                file.display()
            );
        }
    }
}

#[test]
fn no_plan_beats_what_is_published_of_time_lags() {
    for name in ["rcpsp_max/j30", "rcpsp_max/ubo100"] {
        let Some(folder) = set(name) else { continue };
        let published = published(&folder);
        for file in folder::instances(&folder, "sch", "")
            .unwrap()
            .iter()
            .take(5)
        {
            let instance = progen_max::read(&folder::text(file).unwrap()).unwrap();
            let values = &published[file.file_name().unwrap().to_str().unwrap()];
            let effort = Effort {
                schedules: 4,
                ..Effort::default()
            };
            let solved = solve(&instance.problem, &effort).unwrap();
            assert_eq!(solved.breaches, verify(&instance.problem, &solved.plan));
            if !solved.breaches.is_empty() {
                continue;
            }
            assert_ne!(values["status"], "infeasible", "{}", file.display());
            let bound: Tick = values["lower_bound"].parse().unwrap();
            let makespan = solved.plan.starts[instance.end.index()];
            assert!(makespan >= bound, "{}: {makespan}", file.display());
            assert_eq!(solved.cost.total(), i64::from(makespan));
        }
    }
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

#[test]
fn published_optima_of_thirty_jobs_are_found_and_proved() {
    let Some(folder) = set("rcpsp/j30") else {
        return;
    };
    let published = folder::best_known(&folder);
    let files = folder::instances(&folder, "sm", "").unwrap();
    for file in files.iter().step_by(40) {
        let name = file.file_name().unwrap().to_string_lossy();
        let instance = psplib::read(&folder::text(file).unwrap()).unwrap();
        let outcome = searched(&instance, 5_000_000);
        let proved = (outcome.makespan, outcome.bound);
        let optimum = published[name.as_ref()];
        assert_eq!(proved, (Some(optimum), optimum), "{name}");
    }
}

#[test]
fn plans_of_more_jobs_come_near_what_is_published_and_never_contradict_it() {
    for (name, percent) in [("rcpsp/j60", 102), ("rcpsp/j120", 106)] {
        let Some(folder) = set(name) else { continue };
        let published = folder::published(&folder);
        let files = folder::instances(&folder, "sm", "_1").unwrap();
        for file in files.iter().step_by(9) {
            let name = file.file_name().unwrap().to_string_lossy();
            let instance = psplib::read(&folder::text(file).unwrap()).unwrap();
            let outcome = searched(&instance, 4_000_000);
            let published = published[name.as_ref()];
            let line = Line::of(&name, &outcome);
            assert!(published.agrees(&line), "{line} against {published:?}");
            let near = published.makespan.unwrap() * percent / 100;
            assert!(
                outcome.makespan.unwrap() <= near,
                "{line} against {published:?}"
            );
        }
    }
}

#[test]
fn what_is_published_of_time_lags_is_not_contradicted() {
    for name in ["rcpsp_max/j30", "rcpsp_max/ubo100"] {
        let Some(folder) = set(name) else { continue };
        let published = folder::published(&folder);
        let files = folder::instances(&folder, "sch", "").unwrap();
        for file in files.iter().step_by(12) {
            let name = file.file_name().unwrap().to_string_lossy();
            let instance = progen_max::read(&folder::text(file).unwrap()).unwrap();
            let outcome = searched(&instance, 2_000_000);
            let published = published[name.as_ref()];
            let line = Line::of(&name, &outcome);
            assert!(published.agrees(&line), "{line} against {published:?}");
            let infeasible = outcome.status == Status::Infeasible;
            assert_eq!(infeasible, published.infeasible, "{line}");
        }
    }
}
