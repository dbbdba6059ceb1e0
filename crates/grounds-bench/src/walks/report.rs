//! Scores in words and columns.

use std::io::{self, Write};

use grounds_walk::{Walk, transcript::Cue};

use super::score::{Score, Scored, share};

/// Prints the score of one walk or of several.
///
/// # Errors
///
/// When the writer fails.
pub fn print(out: &mut impl Write, name: &str, score: &Score) -> io::Result<()> {
    writeln!(out, "{name}")?;
    writeln!(
        out,
        "  rows {:3}  hits {:3}  false alarms {:3}  precision {:.3}  recall {:.3}  F1 {:.3}",
        score.rows,
        score.hits,
        score.false_alarms,
        score.precision(),
        score.recall(),
        score.f1(),
    )?;
    line(out, "values right", score.values_right, score.values)?;
    line(out, "dates right", score.dates_right, score.dates)?;
    line(out, "causes right", score.causes_right, score.causes)?;
    line(out, "certainty right", score.certain, score.hits)?;
    line(out, "firm proposals right", score.firm_right, score.firm)?;
    line(
        out,
        "firm and surely read, right",
        score.sure_right,
        score.sure,
    )?;
    line(out, "row cues shown", score.row_cues_shown, score.row_cues)?;
    line(
        out,
        "cues without update quiet",
        score.idle_cues_quiet,
        score.idle_cues,
    )?;
    writeln!(out, "  questions {}", score.questions)
}

fn line(out: &mut impl Write, what: &str, right: usize, all: usize) -> io::Result<()> {
    writeln!(
        out,
        "  {what:28} {right:3} of {all:3}  {:.3}",
        share(right, all)
    )
}

/// Prints what was missed, what was a false alarm, and what else is off.
///
/// # Errors
///
/// When the writer fails.
pub fn list(out: &mut impl Write, scored: &Scored) -> io::Result<()> {
    for row in &scored.missed {
        let clock = format!("{}:{:02}", row.at_ms / 60_000, row.at_ms / 1000 % 60);
        writeln!(
            out,
            "  MISS {} {clock} | {} | {} | {} | {}",
            row.number, row.place, row.thing, row.kind, row.stated
        )?;
    }
    for alarm in &scored.alarms {
        writeln!(
            out,
            "  FALSE cue {} | {:?} | {} | {} | {} {} | {}",
            alarm.cue,
            alarm.place,
            alarm.thing,
            alarm.kind.words(),
            alarm.certainty.word(),
            alarm.confidence,
            alarm.sentence
        )?;
    }
    for off in &scored.off {
        writeln!(out, "  OFF {off}")?;
    }
    Ok(())
}

/// Prints every cue with what it became.
pub(super) fn everything(out: &mut impl Write, cues: &[Cue], walk: &Walk) -> io::Result<()> {
    for (at, cue) in cues.iter().enumerate() {
        writeln!(out, "  [{at}] {}", cue.text)?;
        for p in walk.proposals.iter().filter(|p| p.cue == at) {
            let readings: Vec<String> = p
                .readings
                .iter()
                .map(|r| {
                    format!(
                        "{} {} ({:?} {})",
                        r.amount.number, r.amount.unit, r.role, r.at
                    )
                })
                .collect();
            writeln!(
                out,
                "      {:?} {} | {} | {:?} {} | {} | {:?} | {:?} {:?}",
                p.place,
                p.thing,
                p.kind.words(),
                p.certainty,
                p.confidence,
                readings.join(", "),
                p.when.map(|w| (w.day, w.time)),
                p.cause,
                p.who,
            )?;
        }
        for _ in walk.questions.iter().filter(|q| q.cue == at) {
            writeln!(out, "      QUESTION")?;
        }
    }
    Ok(())
}

/// Prints the signs of each proposal, and whether it is right.
pub(super) fn signs(
    out: &mut impl Write,
    name: &str,
    walk: &Walk,
    scored: &Scored,
) -> io::Result<()> {
    let flag = u8::from;
    for (proposal, right) in walk.proposals.iter().zip(&scored.right) {
        let s = proposal.signs;
        writeln!(
            out,
            "SIGN,{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{}",
            name.split('.').next().unwrap_or_default(),
            flag(*right),
            proposal.kind.words(),
            proposal.certainty.word(),
            proposal.confidence,
            s.rule,
            s.left_over,
            s.length,
            s.sentence,
            flag(s.named),
            flag(s.pronoun),
            s.words,
            s.strange,
            s.unknown,
            flag(s.known),
            flag(s.person),
            flag(s.loose),
            flag(s.bare),
            s.facts,
            flag(s.placed),
            flag(s.plain),
            s.unread,
        )?;
    }
    Ok(())
}
