//! Measures the list search alone on published instances.
#![allow(missing_docs, clippy::unwrap_used, clippy::expect_used)]
use std::path::Path;
use std::sync::{Arc, Mutex};
use std::time::Instant;

use grounds_bench::{folder, psplib};
use grounds_schedule::plain::precedence::{Precedence, longest_path};
use grounds_schedule::plain::{Core, Known, Worker, population::Population};
use grounds_schedule::{Plan, verify};

fn main() {
    let args: Vec<String> = std::env::args().collect();
    let get = |name: &str, default: &str| {
        args.iter()
            .position(|a| a == name)
            .map_or(default.to_owned(), |k| args[k + 1].clone())
    };
    let path = args[1].clone();
    let only = get("--only", "");
    let seconds: f64 = get("--seconds", "1e9").parse().unwrap();
    let units: u64 = get("--units", "100000000000").parse().unwrap();
    let threads: u64 = get("--threads", "1").parse().unwrap();
    let every: usize = get("--every", "1").parse().unwrap();
    let seed: u64 = get("--seed", "1").parse().unwrap();
    let hard = get("--hard", "0") == "1";
    let verbose = get("--verbose", "0") == "1";
    let best_known = folder::best_known(Path::new(&path));
    let files = folder::instances(Path::new(&path), "sm", &only).unwrap();
    let (mut dev, mut gap, mut at_best, mut n) = (0.0, 0.0, 0, 0);
    let (mut schedules, mut time) = (0u64, 0.0);
    for file in files.iter().step_by(every) {
        let name = file.file_name().unwrap().to_string_lossy().into_owned();
        let text = folder::text(file).unwrap();
        let instance = psplib::read(&text).unwrap();
        let core = Core::of(&instance.problem).unwrap();
        let precedence = Precedence::of(core.count(), &core.waits).unwrap();
        let cp = longest_path(&core, &precedence);
        let best = best_known.get(&name).copied().unwrap_or(cp);
        if hard && best == cp {
            continue;
        }
        let began = Instant::now();
        let shared = Mutex::new(Known {
            best: None,
            bound: cp,
        });
        let built = Mutex::new(0u64);
        std::thread::scope(|scope| {
            for t in 0..threads {
                let (shared, built, core) = (&shared, &built, &core);
                scope.spawn(move || {
                    let mut population = Population::new(core, seed * 1000 + t);
                    let mut spent = 0;
                    let slice = 100_000u64;
                    while began.elapsed().as_secs_f64() < seconds && spent < units {
                        let known = shared.lock().unwrap().clone();
                        if known.settled() {
                            break;
                        }
                        let found = population.slice(slice, &known);
                        spent += slice;
                        if let Some(starts) = found.starts {
                            let finish = core.finish(&starts);
                            let mut known = shared.lock().unwrap();
                            if known.best.as_ref().is_none_or(|b| finish < b.1) {
                                known.best = Some((Arc::from(starts), finish));
                            }
                        }
                    }
                    *built.lock().unwrap() += population.schedules();
                });
            }
        });
        let took = began.elapsed().as_secs_f64();
        let known = shared.into_inner().unwrap();
        let (starts, finish) = known.best.unwrap();
        let finishes = starts
            .iter()
            .zip(&core.durations)
            .map(|(s, d)| s + d)
            .collect();
        let plan = Plan {
            starts: starts.to_vec(),
            finishes,
        };
        assert!(verify(&instance.problem, &plan).is_empty());
        n += 1;
        let g = f64::from(finish) / f64::from(best) - 1.0;
        dev += f64::from(finish) / f64::from(cp) - 1.0;
        gap += g;
        at_best += i32::from(finish <= best);
        schedules += built.into_inner().unwrap();
        time += took;
        if verbose {
            println!("{name},{cp},{best},{finish},{took:.2}");
        }
    }
    println!(
        "n {n} dev {:.3} gap {:.3} at_best {at_best} time {time:.1} rate {:.0}",
        dev / f64::from(n) * 100.0,
        gap / f64::from(n) * 100.0,
        schedules as f64 / time / threads as f64
    );
}
