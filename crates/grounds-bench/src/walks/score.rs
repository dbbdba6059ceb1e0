//! What was read of a walk against what is right.

use grounds_walk::{Certainty, Kind, Proposal, Role, Walk, same_thing, transcript::Cue};

use super::{
    figures,
    pairs::most_pairs,
    read::{Row, Scripted},
};

/// Counts of one walk or of several.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Score {
    /// Rows that are not optional.
    pub rows: usize,
    /// Rows with a proposal of the same place, thing and kind.
    pub hits: usize,
    /// Proposals that match no row and no optional one.
    pub false_alarms: usize,
    /// Proposals that the speaker was sure of.
    pub firm: usize,
    /// Those of them that match a row or an optional one.
    pub firm_right: usize,
    /// Firm proposals that were also read surely.
    pub sure: usize,
    /// Those of them that match.
    pub sure_right: usize,
    /// Hits that state a number.
    pub values: usize,
    /// Those with the right numbers and units.
    pub values_right: usize,
    /// Hits that state a date.
    pub dates: usize,
    /// Those with the right date.
    pub dates_right: usize,
    /// Hits that state what blocks.
    pub causes: usize,
    /// Those whose cause shares a word with the right one.
    pub causes_right: usize,
    /// Hits with the right certainty.
    pub certain: usize,
    /// Row cues (each counted once).
    pub row_cues: usize,
    /// Those with a proposal or a question.
    pub row_cues_shown: usize,
    /// Cues that carry no update.
    pub idle_cues: usize,
    /// Those with neither proposal nor question.
    pub idle_cues_quiet: usize,
    /// Questions.
    pub questions: usize,
}

impl Score {
    /// How many of the proposals that are no mere repeats match a row.
    #[must_use]
    pub fn precision(&self) -> f64 {
        share(self.hits, self.hits + self.false_alarms)
    }

    /// How many of the rows have a proposal.
    #[must_use]
    pub fn recall(&self) -> f64 {
        share(self.hits, self.rows)
    }

    /// The harmonic mean of both.
    #[must_use]
    pub fn f1(&self) -> f64 {
        let (precision, recall) = (self.precision(), self.recall());
        if precision + recall == 0.0 {
            0.0
        } else {
            2.0 * precision * recall / (precision + recall)
        }
    }

    /// Both counts together.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self {
            rows: self.rows + other.rows,
            hits: self.hits + other.hits,
            false_alarms: self.false_alarms + other.false_alarms,
            firm: self.firm + other.firm,
            firm_right: self.firm_right + other.firm_right,
            sure: self.sure + other.sure,
            sure_right: self.sure_right + other.sure_right,
            values: self.values + other.values,
            values_right: self.values_right + other.values_right,
            dates: self.dates + other.dates,
            dates_right: self.dates_right + other.dates_right,
            causes: self.causes + other.causes,
            causes_right: self.causes_right + other.causes_right,
            certain: self.certain + other.certain,
            row_cues: self.row_cues + other.row_cues,
            row_cues_shown: self.row_cues_shown + other.row_cues_shown,
            idle_cues: self.idle_cues + other.idle_cues,
            idle_cues_quiet: self.idle_cues_quiet + other.idle_cues_quiet,
            questions: self.questions + other.questions,
        }
    }
}

/// A part of a whole; one where there is nothing.
#[expect(clippy::cast_precision_loss, reason = "counts of a few hundred")]
pub(super) fn share(part: usize, whole: usize) -> f64 {
    if whole == 0 {
        1.0
    } else {
        part as f64 / whole as f64
    }
}

/// A walk's score, with the rows that were missed and the proposals that match none.
#[derive(Clone, Debug, Default)]
pub struct Scored {
    /// The counts.
    pub score: Score,
    /// Rows without a proposal.
    pub missed: Vec<Row>,
    /// Proposals without a row.
    pub alarms: Vec<Proposal>,
    /// What else is off, in words.
    pub off: Vec<String>,
    /// For each proposal, in order, whether it matches a row.
    pub right: Vec<bool>,
}

/// Scores what was read of a walk.
#[must_use]
pub fn score(script: &Scripted, cues: &[Cue], walk: &Walk) -> Scored {
    let cue_of = |at_ms: u64| {
        cues.iter()
            .rposition(|cue| cue.at_ms.is_some_and(|at| at <= at_ms + 60))
            .unwrap_or(0)
    };
    let fits = |row: &Row, proposal: &Proposal| {
        let place = proposal
            .place
            .and_then(|place| script.vocabulary.places.get(place))
            .map_or("-", |place| place.name.as_str());
        let settled = std::iter::once(&proposal.cue).chain(&proposal.also);
        let near = settled
            .into_iter()
            .any(|cue| cue_of(row.at_ms).abs_diff(*cue) <= 1);
        near && (row.place == place || row.place == "-" || row.place.is_empty())
            && kind_fits(&row.kind, proposal.kind)
            && same_thing(&row.thing, &proposal.thing)
    };
    let (optional, rows): (Vec<&Row>, Vec<&Row>) = script.rows.iter().partition(|row| row.optional);
    let options: Vec<Vec<usize>> = rows
        .iter()
        .map(|row| {
            let mut near: Vec<usize> = (0..walk.proposals.len())
                .filter(|i| walk.proposals.get(*i).is_some_and(|p| fits(row, p)))
                .collect();
            near.sort_by_key(|i| {
                walk.proposals
                    .get(*i)
                    .map_or(0, |p| cue_of(row.at_ms).abs_diff(p.cue))
            });
            near
        })
        .collect();
    let paired = most_pairs(&options, walk.proposals.len());
    let mut scored = Scored::default();
    scored.score.rows = rows.len();
    for (at, row) in rows.iter().enumerate() {
        let pair = paired.get(at).copied().flatten();
        match pair.and_then(|i| walk.proposals.get(i)) {
            Some(hit) => {
                let said: Vec<&Proposal> = walk
                    .proposals
                    .iter()
                    .filter(|p| std::ptr::eq(*p, hit) || p.kind == hit.kind && fits(row, p))
                    .collect();
                hit_row(row, hit, &said, &mut scored);
            }
            None => scored.missed.push((*row).clone()),
        }
    }
    for (i, proposal) in walk.proposals.iter().enumerate() {
        let right = paired.contains(&Some(i))
            || rows.iter().chain(&optional).any(|row| fits(row, proposal));
        scored.right.push(right);
        let firm = proposal.certainty == Certainty::Firm;
        scored.score.firm += usize::from(firm);
        scored.score.firm_right += usize::from(firm && right);
        scored.score.sure += usize::from(proposal.is_sure());
        scored.score.sure_right += usize::from(proposal.is_sure() && right);
        if !right {
            scored.score.false_alarms += 1;
            scored.alarms.push(proposal.clone());
        }
    }
    coverage(script, walk, &cue_of, &mut scored);
    scored
}

/// Counts what goes with a hit: its numbers, date, cause and certainty.
fn hit_row(row: &Row, hit: &Proposal, said: &[&Proposal], scored: &mut Scored) {
    let score = &mut scored.score;
    score.hits += 1;
    let certainty = match row.certainty {
        'h' => Certainty::Hedged,
        's' => Certainty::Hearsay,
        _ => Certainty::Firm,
    };
    if hit.certainty == certainty {
        score.certain += 1;
    } else {
        scored.off.push(format!(
            "row {}: {} and not {}",
            row.number,
            hit.certainty.word(),
            row.certainty
        ));
    }
    if row.kind == "measured" {
        let required = figures::required(&row.stated);
        let stated = figures::all(&row.stated);
        if !required.is_empty() {
            score.values += 1;
            let readings: Vec<_> = said.iter().flat_map(|p| &p.readings).collect();
            let all_said = required
                .iter()
                .all(|want| readings.iter().any(|r| want.is(&r.amount)));
            let none_else = hit
                .readings
                .iter()
                .filter(|r| r.role == Role::Found)
                .all(|r| stated.iter().any(|want| want.is(&r.amount)));
            if all_said && none_else {
                score.values_right += 1;
            } else {
                let read: Vec<String> = readings
                    .iter()
                    .map(|r| format!("{} {}", r.amount.number, r.amount.unit))
                    .collect();
                scored.off.push(format!(
                    "row {}: read {} for {}",
                    row.number,
                    read.join(", "),
                    row.stated
                ));
            }
        }
    } else if let Some(day) = figures::dates(&row.stated).first() {
        score.dates += 1;
        let days: Vec<_> = said.iter().filter_map(|p| p.when?.day).collect();
        if days.contains(day) {
            score.dates_right += 1;
        } else {
            scored.off.push(format!(
                "row {}: dated {days:?} for {}",
                row.number, row.stated
            ));
        }
    }
    if row.kind == "blocked" && row.stated.contains("by ") {
        score.causes += 1;
        let wanted = grounds_walk::content_stems(&row.stated);
        let cause = hit.cause.clone().unwrap_or_default();
        let have = grounds_walk::content_stems(&cause);
        if wanted.iter().any(|word| have.contains(word)) {
            score.causes_right += 1;
        } else {
            scored.off.push(format!(
                "row {}: blocked by [{cause}] for {}",
                row.number, row.stated
            ));
        }
    }
}

/// Counts which cues are shown, and which stay quiet.
fn coverage(script: &Scripted, walk: &Walk, cue_of: &impl Fn(u64) -> usize, scored: &mut Scored) {
    let shown = |cue: usize| {
        walk.proposals
            .iter()
            .any(|p| p.cue == cue || p.also.contains(&cue))
            || walk.questions.iter().any(|q| q.cue == cue)
    };
    let mut row_cues: Vec<usize> = script
        .rows
        .iter()
        .filter(|row| !row.optional)
        .map(|row| cue_of(row.at_ms))
        .collect();
    row_cues.sort_unstable();
    row_cues.dedup();
    let mut idle: Vec<usize> = script.no_update.iter().map(|at| cue_of(*at)).collect();
    idle.sort_unstable();
    idle.dedup();
    scored.score.row_cues = row_cues.len();
    scored.score.idle_cues = idle.len();
    scored.score.questions = walk.questions.len();
    for cue in row_cues {
        if shown(cue) {
            scored.score.row_cues_shown += 1;
        } else {
            scored
                .off
                .push(format!("cue {cue} has a row and shows nothing"));
        }
    }
    for cue in idle {
        if shown(cue) {
            scored
                .off
                .push(format!("cue {cue} has no update and shows something"));
        } else {
            scored.score.idle_cues_quiet += 1;
        }
    }
}

/// Whether a kind of the file is the kind that was read. *Not delivered* may be told as *not
/// done*; a passed test is done; a failed one is wrong or not done.
fn kind_fits(row: &str, read: Kind) -> bool {
    match read {
        Kind::Passed => matches!(row, "done" | ""),
        Kind::Failed => matches!(row, "wrong" | "not done" | ""),
        Kind::NotDone | Kind::NotDelivered => matches!(row, "not done" | "not delivered" | ""),
        other => row.is_empty() || row == other.words(),
    }
}
