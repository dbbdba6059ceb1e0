//! The command line of the benchmark: see the library's front page.

use std::fs::File;
use std::io::{self, Write};
use std::num::NonZeroU8;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::Duration;

use clap::{Args, Parser, Subcommand};
use grounds_bench::instance::Instance;
use grounds_bench::race::{Limits, Outcome, race};
use grounds_bench::report::{HEADS, Summary, line};
use grounds_bench::{ReadError, folder, progen_max, psplib};

/// How good the search is on published project-scheduling instances.
#[derive(Debug, Parser)]
#[command(name = "grounds-bench", version, max_term_width = 80)]
struct Arguments {
    #[command(subcommand)]
    set: Set,
}

/// The kinds of instances.
#[derive(Debug, Subcommand)]
enum Set {
    /// Precedence and renewable resources: the .sm files of a folder.
    Rcpsp(Run),
    /// The same with least and longest waits: the .sch files of a folder.
    RcpspMax(Run),
}

#[derive(Debug, Args)]
struct Run {
    /// The folder with the instances, and best_known.csv if there is one.
    folder: PathBuf,
    /// Wall time for each instance.
    #[arg(long, value_name = "N", default_value_t = 2.0, value_parser = seconds)]
    seconds: f64,
    /// Threads that search an instance.
    #[arg(long, value_name = "N", default_value = "2")]
    threads: NonZeroU8,
    /// Also write the lines of the instances to this file.
    #[arg(long, value_name = "FILE")]
    csv: Option<PathBuf>,
    /// Only files whose names end so, as in _1 or _1.sm.
    #[arg(long, value_name = "SUFFIX", default_value = "")]
    only: String,
}

fn seconds(text: &str) -> Result<f64, String> {
    let number = text.parse::<f64>().ok();
    number
        .filter(|n| *n > 0.0 && *n <= 86_400.0)
        .ok_or_else(|| "seconds must be above 0 and at most 86400, as in 2 or 0.5".to_owned())
}

type Reader = fn(&str) -> Result<Instance, ReadError>;

fn main() -> ExitCode {
    let ran = match Arguments::parse().set {
        Set::Rcpsp(run) => bench(&run, "sm", psplib::read),
        Set::RcpspMax(run) => bench(&run, "sch", progen_max::read),
    };
    match ran {
        Ok(0) => ExitCode::SUCCESS,
        Ok(_) => ExitCode::from(1),
        Err(error) => {
            eprintln!("error: {error}");
            ExitCode::from(3)
        }
    }
}

/// Runs every instance; how many could not be read.
fn bench(run: &Run, ending: &str, read: Reader) -> io::Result<usize> {
    let files =
        folder::instances(&run.folder, ending, &run.only).map_err(|e| at(&run.folder, &e))?;
    if files.is_empty() {
        let what = format!("there is no .{ending} file that ends so");
        return Err(at(
            &run.folder,
            &io::Error::new(io::ErrorKind::NotFound, what),
        ));
    }
    let best_known = folder::best_known(&run.folder);
    let limits = Limits {
        time: Duration::from_secs_f64(run.seconds),
        threads: run.threads,
    };
    let mut lines = Lines::to(run.csv.as_deref())?;
    let mut summary = Summary::default();
    let mut unread = 0;
    lines.put(HEADS)?;
    for file in &files {
        let name = file.file_name().unwrap_or_default().to_string_lossy();
        match attempt(file, limits, read) {
            Ok(outcome) => {
                summary.add(&outcome, best_known.get(name.as_ref()).copied());
                lines.put(&line(&name, &outcome))?;
            }
            Err(error) => {
                unread += 1;
                eprintln!("error: {}: {error}", file.display());
            }
        }
    }
    writeln!(io::stdout(), "{summary}")?;
    Ok(unread)
}

fn attempt(file: &Path, limits: Limits, read: Reader) -> Result<Outcome, String> {
    let text = folder::text(file).map_err(|e| e.to_string())?;
    let instance = read(&text).map_err(|e| e.to_string())?;
    race(&instance, limits).map_err(|e| e.to_string())
}

/// Where the lines of the instances go.
struct Lines {
    file: Option<File>,
}

impl Lines {
    fn to(path: Option<&Path>) -> io::Result<Self> {
        let file = path.map(|path| File::create(path).map_err(|e| at(path, &e)));
        Ok(Self {
            file: file.transpose()?,
        })
    }

    fn put(&mut self, line: &str) -> io::Result<()> {
        writeln!(io::stdout(), "{line}")?;
        match &mut self.file {
            Some(file) => writeln!(file, "{line}"),
            None => Ok(()),
        }
    }
}

fn at(path: &Path, error: &io::Error) -> io::Error {
    io::Error::new(error.kind(), format!("{}: {error}", path.display()))
}
