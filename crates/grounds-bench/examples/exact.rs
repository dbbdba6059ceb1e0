//! How far the exact search comes alone: `exact FOLDER ENDING SUFFIX SECONDS WORKERS`.
//!
//! Workers are named with commas between, one a thread: `a` closes in from above, `b` from below,
//! `w1` makes windows anew with seed 1. The seconds are those of each thread on a processor.

use std::path::Path;
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

use grounds_bench::{folder, progen_max, psplib};
use grounds_schedule::exact::{Exact, Windows};
use grounds_schedule::plain::{Core, Known, Worker};
use grounds_schedule::{Plan, verify};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let [place, ending, only, seconds, kinds, rest @ ..] = words.as_slice() else {
        return Err("FOLDER ENDING SUFFIX SECONDS WORKERS [STEP [FIRST]]".into());
    };
    let seconds = Duration::from_secs_f64(seconds.parse()?);
    let step: usize = rest.first().map_or(Ok(1), |n| n.parse())?;
    let first: usize = rest.get(1).map_or(Ok(0), |n| n.parse())?;
    let best_known = folder::best_known(Path::new(place));
    let (mut proved, mut feasible, mut infeasible, mut nothing) = (0, 0, 0, 0);
    let (mut gap, mut counted, mut sum) = (0.0, 0, 0);
    let mut spent = 0.0;
    let files = folder::instances(Path::new(place), ending, only)?;
    for file in files.iter().skip(first).step_by(step) {
        let text = folder::text(file)?;
        let instance = if ending == "sm" {
            psplib::read(&text)?
        } else {
            progen_max::read(&text)?
        };
        let began = Instant::now();
        let core = Core::of(&instance.problem).ok_or("not plain")?;
        let shared = Mutex::new((
            Known {
                best: None,
                bound: 0,
            },
            false,
            String::new(),
        ));
        std::thread::scope(|scope| {
            for kind in kinds.split(',') {
                let (shared, core) = (&shared, &core);
                scope.spawn(move || run(kind, core, shared, seconds));
            }
        });
        let (known, impossible, log) = shared.into_inner()?;
        let time = began.elapsed().as_secs_f64();
        spent += time;
        let name = file.file_name().unwrap_or_default().to_string_lossy();
        let makespan = known.best.as_ref().map(|(_, finish)| *finish);
        if let Some((starts, _)) = &known.best {
            let plan = Plan {
                starts: starts.to_vec(),
                finishes: starts
                    .iter()
                    .zip(&core.durations)
                    .map(|(s, d)| s + d)
                    .collect(),
            };
            assert!(verify(&instance.problem, &plan).is_empty(), "{name}");
        }
        let status = match makespan {
            _ if impossible => "INFEASIBLE",
            Some(_) if known.settled() => "OPTIMAL",
            Some(_) => "FEASIBLE",
            None => "UNKNOWN",
        };
        match status {
            "INFEASIBLE" => infeasible += 1,
            "OPTIMAL" => proved += 1,
            "FEASIBLE" => feasible += 1,
            _ => nothing += 1,
        }
        let best = best_known.get(name.as_ref()).copied();
        if let (Some(makespan), Some(best)) = (makespan, best) {
            gap += 100.0 * f64::from(makespan - best) / f64::from(best);
            counted += 1;
            sum += makespan;
        }
        println!(
            "{name},{},{},{},{status},{time:.3},{log}",
            makespan.unwrap_or(-1),
            known.bound,
            best.unwrap_or(-1)
        );
    }
    println!(
        "proved {proved} feasible {feasible} infeasible {infeasible} nothing {nothing}; gap {:.3} % over {counted}, sum {sum}, {spent:.1} s",
        gap / f64::from(counted.max(1))
    );
    Ok(())
}

fn run(kind: &str, core: &Core, shared: &Mutex<(Known, bool, String)>, seconds: Duration) {
    let began = used();
    let mut worker: Box<dyn Worker> = match (kind, kind.strip_prefix('w')) {
        (_, Some(seed)) => Box::new(Windows::new(core, seed.parse().unwrap_or(1))),
        ("b", _) => Box::new(Exact::from_below(core)),
        _ => Box::new(Exact::from_above(core)),
    };
    let ready = used() - began;
    let mut longest = Duration::ZERO;
    let mut slices = 0;
    loop {
        let known = match shared.lock() {
            Ok(guard) if !guard.1 && !guard.0.settled() => guard.0.clone(),
            _ => break,
        };
        let now = used();
        if now - began >= seconds {
            break;
        }
        let found = worker.slice(100_000, &known);
        longest = longest.max(used() - now);
        slices += 1;
        let Ok(mut guard) = shared.lock() else { break };
        guard.1 |= found.impossible;
        if let Some(bound) = found.bound {
            guard.0.bound = guard.0.bound.max(bound);
        }
        if let Some(starts) = found.starts {
            let finish = core.finish(&starts);
            if guard.0.best.as_ref().is_none_or(|(_, best)| finish < *best) {
                guard.0.best = Some((Arc::from(starts), finish));
                guard.2 += &format!(" {finish}{}", kind.chars().next().unwrap_or('?'));
            }
        }
        if found.done {
            break;
        }
    }
    let spent = (used() - began).as_secs_f64();
    if let Ok(mut guard) = shared.lock() {
        guard.2 += &format!(
            " {kind}: ready {:.1} ms, {slices} slices of {:.0} ns/unit, longest {:.1} ms;",
            ready.as_secs_f64() * 1e3,
            spent * 1e4 / f64::from(slices.max(1)),
            longest.as_secs_f64() * 1e3
        );
    }
}

/// Time that this thread had a processor: other work on the machine does not count.
fn used() -> Duration {
    let text = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap_or_default();
    let first = text.split_whitespace().next();
    Duration::from_nanos(first.and_then(|word| word.parse().ok()).unwrap_or(0))
}
