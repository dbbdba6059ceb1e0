//! Random houses against the clock: what the first plan costs, what a second of search saves, and how
//! far that is from what a long search finds.

use std::io::{self, Write};
use std::num::NonZeroU8;
use std::time::{Duration, Instant};

use grounds_schedule::{
    DAY, Fact, Faulty, Problem, Search, Solved, Start, Tick, bound, random, search_together, spare,
};

/// Activities of the houses, one after the other.
const SIZES: [usize; 6] = [500, 800, 1_200, 1_600, 2_200, 3_000];

/// What to measure.
#[derive(Clone, Copy, Debug)]
pub struct Houses {
    /// How many houses.
    pub count: u64,
    /// The first house.
    pub from: u64,
    /// When a site lead looks.
    pub seconds: Duration,
    /// When the best is taken as found.
    pub long: Duration,
    /// Threads that search a house.
    pub threads: NonZeroU8,
}

/// What is known of a plan.
#[derive(Clone, Copy, Debug)]
struct Worth {
    breaches: usize,
    cents: i64,
    finish: Tick,
}

impl Worth {
    fn of(problem: &Problem, solved: &Solved) -> Self {
        let ends = solved.plan.finishes.iter().zip(&problem.activities);
        let open = ends.filter(|(_, a)| !matches!(a.fact, Fact::Done { .. }));
        Self {
            breaches: solved.breaches.len(),
            cents: solved.cost.total(),
            finish: open.map(|(&f, _)| f).max().unwrap_or(problem.now),
        }
    }

    /// By how many hundredths of a percent this one is dearer.
    fn gap(&self, best: &Self) -> f64 {
        (self.cents - best.cents) as f64 * 100.0 / (best.cents.max(1)) as f64
    }
}

/// One house measured.
#[derive(Clone, Copy, Debug)]
struct Line {
    careful: Worth,
    first: Worth,
    soon: Worth,
    best: Worth,
    /// What is shown after the first look: with what has time put later where that saves money.
    shown: Worth,
    /// The best, likewise.
    spared: Worth,
    tried: u64,
}

/// Measures the houses, and writes a line for each and the means.
///
/// # Errors
///
/// When a line cannot be written, or a house makes no sense.
pub fn run(houses: &Houses, out: &mut impl Write) -> io::Result<()> {
    let soon = houses.seconds.as_secs_f64();
    let long = houses.long.as_secs_f64();
    writeln!(
        out,
        "house,activities,open,careful,first,after {soon} s,after {long} s,shown after {soon} s,shown after {long} s,gap %,gap as shown %,careful days,first days,days {soon} s,bound days,breaches first,breaches {soon} s,tried"
    )?;
    let mut lines = Vec::new();
    for number in houses.from..houses.from + houses.count {
        let size = SIZES[(number % SIZES.len() as u64) as usize];
        let problem = random::finish_phase(number, size);
        let line = measure(houses, &problem).map_err(io::Error::other)?;
        write_line(out, number, &problem, &line)?;
        out.flush()?;
        lines.push(line);
    }
    summary(out, &lines)
}

fn write_line(out: &mut impl Write, number: u64, problem: &Problem, line: &Line) -> io::Result<()> {
    let open = problem.activities.iter().filter(|a| a.fact == Fact::Open);
    let days = |finish: Tick| f64::from(finish - problem.now) / f64::from(DAY);
    let bound = bound(problem).map_err(io::Error::other)?;
    writeln!(
        out,
        "{number},{},{},{},{},{},{},{},{},{:.2},{:.2},{:.1},{:.1},{:.1},{:.1},{},{},{}",
        problem.activities.len(),
        open.count(),
        line.careful.cents / 100,
        line.first.cents / 100,
        line.soon.cents / 100,
        line.best.cents / 100,
        line.shown.cents / 100,
        line.spared.cents / 100,
        line.soon.gap(&line.best),
        line.shown.gap(&line.spared),
        days(line.careful.finish),
        days(line.first.finish),
        days(line.soon.finish),
        days(bound),
        line.first.breaches,
        line.soon.breaches,
        line.tried,
    )
}

fn summary(out: &mut impl Write, lines: &[Line]) -> io::Result<()> {
    let mean =
        |of: &dyn Fn(&Line) -> f64| lines.iter().map(of).sum::<f64>() / lines.len().max(1) as f64;
    let days = |won: Tick| f64::from(won) / f64::from(DAY);
    writeln!(
        out,
        "mean gap to the best found: first plan {:.2} %, soon {:.2} %, soon as shown {:.2} %",
        mean(&|l| l.first.gap(&l.best)),
        mean(&|l| l.soon.gap(&l.best)),
        mean(&|l| l.shown.gap(&l.spared)),
    )?;
    writeln!(
        out,
        "against a careful list: first plan {:.2} % cheaper and {:.1} days sooner, soon {:.2} % and {:.1} days",
        mean(&|l| -l.first.gap(&l.careful)),
        mean(&|l| days(l.careful.finish - l.first.finish)),
        mean(&|l| -l.soon.gap(&l.careful)),
        mean(&|l| days(l.careful.finish - l.soon.finish)),
    )?;
    writeln!(
        out,
        "what has time put later: {:.2} % cheaper than the best found",
        mean(&|l| -l.spared.gap(&l.best)),
    )
}

fn measure(houses: &Houses, problem: &Problem) -> Result<Line, Faulty> {
    let careful = Search::new(
        problem,
        &Start {
            seed: 1,
            first_order: Some(grounds_schedule::careful_list(problem)?),
        },
    )?;
    let careful = Worth::of(problem, careful.best());
    let first = Search::new(problem, &Start::default())?;
    let first = Worth::of(problem, first.best());
    let soon = seek(problem, Start::default(), houses.threads, houses.seconds)?;
    let known = Start {
        seed: Start::default().seed + u64::from(houses.threads.get()),
        first_order: Some(soon.0.order.clone()),
    };
    let left = houses.long.saturating_sub(houses.seconds);
    let best = seek(problem, known, houses.threads, left)?;
    let shown = |solved: &Solved| Ok(Worth::of(problem, &spare(problem, solved)?.solved));
    Ok(Line {
        careful,
        first,
        soon: Worth::of(problem, &soon.0),
        best: Worth::of(problem, &best.0),
        shown: shown(&soon.0)?,
        spared: shown(&best.0)?,
        tried: soon.1 + best.1,
    })
}

/// The best plan that is found within a time, and the plans that the first lane tried.
fn seek(
    problem: &Problem,
    start: Start,
    threads: NonZeroU8,
    time: Duration,
) -> Result<(Solved, u64), Faulty> {
    let begin = Instant::now();
    let go_on = || begin.elapsed() < time;
    let search = search_together(problem, &start, threads.into(), &go_on)?;
    Ok((search.best().clone(), search.tried()))
}
