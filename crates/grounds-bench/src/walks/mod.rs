//! How well spoken walks are read: files of walks with the right extraction beside each.
//!
//! A file holds walks under headings `## Walk ...`, each with what is known before
//! (`**Known before.** Monday 4 October 2027. Metric. Places: Hall, Kitchen ("galley").`), the talk
//! in a fence, a table `| # | t | place | thing | kind | what is stated | cert. |`, and the cues
//! that carry no update (`**No update from:** 0:02, 1:01.`). Kinds: `started`, `done`, `not done`,
//! `blocked`, `delivered`, `not delivered`, `wrong`, `measured`, `decision`, `next`; `*opt*` before
//! or instead of a kind marks a row that is neither hit nor false alarm. Certainty: f, h or s.

mod figures;
mod pairs;
mod read;
mod report;
mod score;

pub use read::{Row, Scripted, read};
pub use report::{list, print};
pub use score::{Score, Scored, score};

use std::{
    io::{self, Write},
    time::{Duration, Instant},
};

/// What is printed beside the scores.
#[derive(Clone, Copy, Debug, Default)]
pub struct Shown {
    /// What was missed and what was a false alarm.
    pub listed: bool,
    /// Every proposal and question.
    pub all: bool,
    /// The signs of every proposal, as columns: what a confidence is fitted to.
    pub signs: bool,
}

/// Reads and scores walks, and prints each and all.
///
/// # Errors
///
/// When a transcript cannot be read or the writer fails.
pub fn run(
    scripts: &[Scripted],
    Shown { listed, all, signs }: Shown,
    out: &mut impl Write,
) -> io::Result<()> {
    let mut sum = Score::default();
    let mut took = Duration::ZERO;
    for script in scripts {
        let talk = grounds_walk::transcript::read(&script.talk).map_err(io::Error::other)?;
        let began = Instant::now();
        let walk = grounds_walk::read(&talk, &script.vocabulary);
        took += began.elapsed();
        let scored = score(script, &talk.cues, &walk);
        print(out, &script.name, &scored.score)?;
        if listed {
            list(out, &scored)?;
        }
        if all {
            report::everything(out, &talk.cues, &walk)?;
        }
        if signs {
            report::signs(out, &script.name, &walk, &scored)?;
        }
        sum = sum.plus(scored.score);
    }
    print(out, "All walks", &sum)?;
    writeln!(out, "  read in {:.1} ms", took.as_secs_f64() * 1000.0)
}
