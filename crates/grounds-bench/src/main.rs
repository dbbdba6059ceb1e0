//! The command line of the benchmark: see the library's front page.

use std::io;
use std::num::NonZeroU8;
use std::path::PathBuf;
use std::process::ExitCode;
use std::time::Duration;

use clap::{Args, Parser, Subcommand};
use grounds_bench::houses::Houses;
use grounds_bench::race::{Limits, Stop};
use grounds_bench::sweep::{Format, Sweep, Wrong};
use grounds_bench::{folder, job_shop, patterson, progen_max, psplib};

/// How good the search is on published scheduling instances.
#[derive(Debug, Parser)]
#[command(name = "grounds-bench", version, max_term_width = 80)]
struct Arguments {
    #[command(subcommand)]
    set: Set,
}

/// The kinds of instances.
#[derive(Debug, Subcommand)]
enum Set {
    /// Precedence and renewable resources: .sm and .rcp files.
    Rcpsp(Run),
    /// The same with least and longest waits: .sch files.
    RcpspMax(Run),
    /// Jobs that visit machines in an order of their own: .txt files.
    JobShop(Run),
    /// Random houses in their finish phase: what a second of search saves.
    Houses(HousesRun),
    /// Spoken walks with the right extraction beside each: how well they are read.
    Walks(WalksRun),
}

#[derive(Debug, Args)]
struct HousesRun {
    /// How many houses.
    #[arg(long, value_name = "N", default_value_t = 10)]
    count: u64,
    /// The number of the first house.
    #[arg(long, value_name = "N", default_value_t = 0)]
    from: u64,
    /// When somebody looks at the plan.
    #[arg(long, value_name = "N", default_value_t = 1.0, value_parser = seconds)]
    seconds: f64,
    /// How long to look for the best plan.
    #[arg(long, value_name = "N", default_value_t = 60.0, value_parser = seconds)]
    long: f64,
    /// Threads that search a house.
    #[arg(long, value_name = "N", default_value = "2")]
    threads: NonZeroU8,
}

#[derive(Debug, Args)]
struct WalksRun {
    /// The file with the walks and their tables.
    #[arg(required = true, value_name = "FILE")]
    file: PathBuf,
    /// Also list what was missed and what was a false alarm.
    #[arg(long)]
    list: bool,
    /// Also list every proposal and question.
    #[arg(long)]
    all: bool,
    /// Also list the signs of every proposal and whether it is right, as columns.
    #[arg(long)]
    signs: bool,
}

#[derive(Debug, Args)]
struct Run {
    /// Files with instances, and folders of them; a best_known.csv beside them is compared with.
    #[arg(required = true, value_name = "FOLDER|FILE")]
    named: Vec<PathBuf>,
    /// Wall time for each instance.
    #[arg(long, value_name = "N", default_value_t = 2.0, value_parser = seconds)]
    seconds: f64,
    /// Units of work for each thread and instance instead of time: the same result every time.
    #[arg(long, value_name = "N", conflicts_with = "seconds")]
    units: Option<u64>,
    /// Threads that search an instance.
    #[arg(long, value_name = "N", default_value = "2")]
    threads: NonZeroU8,
    /// Where chance begins.
    #[arg(long, value_name = "N", default_value_t = 1)]
    seed: u64,
    /// Also write the lines of the instances to this file.
    #[arg(long, value_name = "FILE")]
    csv: Option<PathBuf>,
    /// In folders, only files whose names end so, as in _1 or _1.sm.
    #[arg(long, value_name = "SUFFIX", default_value = "")]
    only: String,
    /// Lines of another search, in the same columns, to compare with.
    #[arg(long, value_name = "FILE")]
    against: Option<PathBuf>,
}

fn seconds(text: &str) -> Result<f64, String> {
    let number = text.parse::<f64>().ok();
    number
        .filter(|n| *n > 0.0 && *n <= 86_400.0)
        .ok_or_else(|| "seconds must be above 0 and at most 86400, as in 2 or 0.5".to_owned())
}

const PROJECTS: [Format; 2] = [
    Format {
        ending: "sm",
        read: psplib::read,
    },
    Format {
        ending: "rcp",
        read: patterson::read,
    },
];

const TIME_LAGS: [Format; 1] = [Format {
    ending: "sch",
    read: progen_max::read,
}];

const JOB_SHOPS: [Format; 1] = [Format {
    ending: "txt",
    read: job_shop::read,
}];

fn main() -> ExitCode {
    let ran = match Arguments::parse().set {
        Set::Rcpsp(run) => bench(run, &PROJECTS),
        Set::RcpspMax(run) => bench(run, &TIME_LAGS),
        Set::JobShop(run) => bench(run, &JOB_SHOPS),
        Set::Houses(run) => houses(&run).map(|()| Wrong::default()),
        Set::Walks(run) => walks(&run).map(|()| Wrong::default()),
    };
    match ran {
        Ok(wrong) if wrong == Wrong::default() => ExitCode::SUCCESS,
        Ok(_) => ExitCode::from(1),
        Err(error) => {
            eprintln!("error: {error}");
            ExitCode::from(3)
        }
    }
}

fn houses(run: &HousesRun) -> io::Result<()> {
    let houses = Houses {
        count: run.count,
        from: run.from,
        seconds: Duration::from_secs_f64(run.seconds),
        long: Duration::from_secs_f64(run.long),
        threads: run.threads,
    };
    grounds_bench::houses::run(&houses, &mut io::stdout().lock())
}

/// Scores the walks of a file.
fn walks(run: &WalksRun) -> io::Result<()> {
    let file = std::fs::read_to_string(&run.file)?;
    let scripts = grounds_bench::walks::read(&file).map_err(io::Error::other)?;
    let shown = grounds_bench::walks::Shown {
        listed: run.list,
        all: run.all,
        signs: run.signs,
    };
    grounds_bench::walks::run(&scripts, shown, &mut io::stdout().lock())
}

/// Runs every instance; how many went wrong.
fn bench(run: Run, formats: &[Format]) -> io::Result<Wrong> {
    let files = files(&run, formats)?;
    let time = Duration::from_secs_f64(run.seconds);
    let limits = Limits {
        stop: run.units.map_or(Stop::After(time), Stop::Counted),
        lanes: run.threads.into(),
        seed: run.seed,
    };
    let sweep = Sweep {
        files,
        limits,
        csv: run.csv,
        against: run.against,
    };
    sweep.run()
}

/// The files that are meant, each with its format; a file of another ending has the first.
fn files(run: &Run, formats: &[Format]) -> io::Result<Vec<(PathBuf, Format)>> {
    let mut files = Vec::new();
    for path in &run.named {
        for (i, &format) in formats.iter().enumerate() {
            if path.is_dir() {
                let found = folder::instances(path, format.ending, &run.only)?;
                files.extend(found.into_iter().map(|file| (file, format)));
            } else if folder::ends(path, format.ending)
                || (i == 0 && !formats.iter().any(|f| folder::ends(path, f.ending)))
            {
                files.push((path.clone(), format));
            }
        }
    }
    if files.is_empty() {
        let endings: Vec<String> = formats.iter().map(|f| format!(".{}", f.ending)).collect();
        let what = format!("there is no {} file that ends so", endings.join(" or "));
        return Err(io::Error::new(io::ErrorKind::NotFound, what));
    }
    Ok(files)
}
