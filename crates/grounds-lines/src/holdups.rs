//! What a fit that fails or is risky holds up: the order of its piece, and the layer that would cover
//! what has to be put right.

use grounds_model::{Id, Job, Ref, Target};
use grounds_site::{Kind, Seen, Site, Subject};

use crate::{
    answers::{Answer, Answers, Verdict, cover_of},
    lines::Lines,
};

/// Below this chance a fit is risky enough to hold work up: four cases of five.
pub const RISKY: f64 = 0.8;

/// One thing that is held up.
#[derive(Clone, Debug, PartialEq)]
pub struct Holdup {
    /// The need, by key.
    pub need: String,
    /// What the need is about.
    pub about: Ref,
    /// How it stands.
    pub verdict: Verdict,
    /// The piece that must not be ordered, if its order is still to come.
    pub order: Option<Id>,
    /// The layer or piece that must not go on, if it is still to come.
    pub cover: Option<Ref>,
    /// The reason, as a sentence.
    pub said: String,
    /// The note that says to go on all the same; then nothing is held up.
    pub overruled: Option<Seen>,
}

/// What is held up, by need.
///
/// A note `decided` about the piece, opening, passage, layer or line that a need is about overrules
/// it, until something is measured there after the decision: the decision was about the old figures.
#[must_use]
pub fn holdups(lines: &Lines<'_>, answers: &Answers) -> Vec<Holdup> {
    let mut found: Vec<Holdup> = answers
        .answers
        .iter()
        .filter(|answer| is_risky(answer))
        .map(|answer| holdup(lines, answer))
        .filter(|holdup| holdup.order.is_some() || holdup.cover.is_some())
        .collect();
    found.sort_by(|a, b| a.need.cmp(&b.need));
    found
}

fn is_risky(answer: &Answer) -> bool {
    let chance = answer.figures.map_or(1.0, |figures| figures.chance);
    chance < RISKY && matches!(answer.verdict, Verdict::Fails | Verdict::Tight)
}

fn holdup(lines: &Lines<'_>, answer: &Answer) -> Holdup {
    let orders = lines
        .wanted(&answer.key)
        .map_or(&[][..], |wanted| &wanted.orders);
    let order = orders
        .iter()
        .find(|piece| to_be_ordered(lines, piece))
        .cloned();
    let parts = answer.parts.iter().map(|part| &part.about);
    let cover = cover_of(lines, &answer.about)
        .or_else(|| parts.into_iter().find_map(|about| cover_of(lines, about)))
        .filter(|cover| !is_begun(lines, cover));
    Holdup {
        need: answer.key.clone(),
        about: answer.about.clone(),
        verdict: answer.verdict,
        order,
        cover,
        said: answer.said.clone(),
        overruled: goes_on(lines, &answer.about),
    }
}

/// Whether a layer or the setting of a piece has begun: then it is too late to hold it.
fn is_begun(lines: &Lines<'_>, cover: &Ref) -> bool {
    let subject = match lines.job.resolve(cover) {
        Some(Target::Layer(key)) => Subject::Layer(key),
        Some(Target::Piece(id)) => Subject::Piece(id),
        _ => return false,
    };
    let state = lines.site.state(&subject);
    state.started.is_some() || state.done.is_some()
}

/// Whether the order of a piece is still to come.
fn to_be_ordered(lines: &Lines<'_>, id: &Id) -> bool {
    let state = lines.site.state(&Subject::Piece(id.clone()));
    let lead = lines
        .job
        .pieces
        .get(id)
        .is_some_and(|piece| piece.lead.is_some());
    // An order placed before the piece was damaged does not count any more.
    let damaged = state.damaged.map(|seen| seen.at);
    let counts = |seen: &Seen| damaged.is_none_or(|damaged| seen.at >= damaged);
    let known = [state.ordered, state.shipped, state.arrived, state.done];
    lead && !known.iter().flatten().any(counts)
}

/// What a decision about a need is noted about: none where nobody decides about such a thing.
#[must_use]
pub fn decided_about(job: &Job, about: &Ref) -> Option<Subject> {
    let subject = Subject::of(job.resolve(about)?)?;
    let is_built = matches!(
        subject,
        Subject::Layer(_)
            | Subject::Place(_)
            | Subject::Passage(_)
            | Subject::Piece(_)
            | Subject::Opening(_)
            | Subject::Line(_)
    );
    is_built.then_some(subject)
}

/// Who decided that what a need is about goes on as it is; none if nobody did, or if something was
/// measured there since.
#[must_use]
pub fn goes_on(lines: &Lines<'_>, about: &Ref) -> Option<Seen> {
    let_go(lines.site, &decided_about(lines.job, about)?)
}

/// Who decided that something goes on as it is; none if nobody did, or if something was measured
/// there since.
#[must_use]
pub fn let_go(site: &Site, subject: &Subject) -> Option<Seen> {
    let decided = site.state(subject).accepted?;
    (!measured_since(site, subject, decided)).then_some(decided)
}

fn measured_since(site: &Site, subject: &Subject, decided: Seen) -> bool {
    let state = site.state(subject);
    let mut notes = state.notes.iter().filter_map(|id| site.notes.get(id));
    notes.any(|note| note.kind == Kind::Measured && (note.at, note.id) > (decided.at, decided.note))
}
