//! Which kind of note says it of a thing, and which things it can be said of.

use grounds_model::Target;
use grounds_site::{Kind as NoteKind, Subject, Value};

use super::Desk;
use crate::{
    kinds::Kind,
    lexicon::stem,
    numbers::{Role, Unit},
    proposals::Proposal,
    tokens::split_words,
};

/// How well a kind goes with a target, added to the score of its name; nothing where such a note
/// would say nothing that the fold understands.
pub(super) fn liking(proposal: &Proposal, target: &Target) -> Option<isize> {
    use Target::{Decision, Face, Hold, Layer, Milestone, Opening, Piece};
    let unit = proposal.readings.first().map(|reading| reading.amount.unit);
    Some(match (proposal.kind, target) {
        (Kind::Done, Layer(_) | Piece(_)) => 0,
        (Kind::Done, Decision(_)) => -10,
        (Kind::Started, Layer(_) | Piece(_)) => 0,
        (Kind::Started, Hold(_)) => -5,
        (Kind::NotDone, Layer(_) | Piece(_)) => 0,
        (Kind::NotDone, Hold(_) | Decision(_)) => -5,
        (Kind::Passed | Kind::Failed, Hold(_)) => 5,
        (Kind::Delivered | Kind::NotDelivered, Piece(_)) => 5,
        (Kind::Wrong, Piece(_)) => 3,
        (Kind::Wrong, Layer(_) | Hold(_) | Opening(_)) => 0,
        (Kind::Blocked, Layer(_) | Piece(_) | Hold(_)) => 0,
        (Kind::Measured, Layer(_)) if unit == Some(Unit::Percent) => 5,
        (Kind::Measured, Opening(_)) if unit.is_some_and(Unit::is_length) => 5,
        (Kind::Measured, Layer(_) | Piece(_) | Opening(_)) => 0,
        (Kind::Measured, Hold(_)) => -10,
        (Kind::Decision, Decision(_)) => 5,
        (Kind::Decision, Layer(_) | Piece(_)) => -5,
        (Kind::Next, Piece(_)) if comes(&proposal.sentence) => 5,
        (Kind::Next, Hold(_) | Decision(_) | Piece(_) | Layer(_) | Milestone(_)) => 0,
        (_, Face { .. }) => -10,
        _ => return None,
    })
}

/// Whether a kind of note can be said of a target, so that the fold understands it.
#[must_use]
pub fn can_be_said(kind: NoteKind, target: &Target) -> bool {
    use NoteKind::{
        Arrived, Cleared, Decided, Done, Failed, Measured, Ordered, Passed, Problem, Progress,
        Promised, Remark, Started, Undone,
    };
    if matches!(kind, Remark | Problem | Cleared) {
        return true;
    }
    match target {
        Target::Layer(_) | Target::Piece(_) => !matches!(kind, Passed | Failed),
        Target::Face { .. } => matches!(kind, Started | Done | Measured | Decided),
        Target::Hold(_) => matches!(
            kind,
            Ordered | Promised | Started | Progress | Passed | Failed | Undone | Measured
        ),
        Target::Decision(_) => matches!(kind, Decided | Done | Undone | Promised),
        Target::Milestone(_) => matches!(kind, Done | Undone | Promised),
        Target::Trade(_) => matches!(kind, Ordered | Promised | Arrived),
        Target::Opening(_) | Target::Passage(_) | Target::Control(_) | Target::Line(_) => {
            matches!(kind, Measured | Decided | Undone)
        }
        Target::Place(_) | Target::Job => kind == Measured,
    }
}

/// Words of goods and people on their way.
const COMING: [&str; 16] = [
    "arrive",
    "arriving",
    "come",
    "comes",
    "coming",
    "delivered",
    "delivery",
    "deliver",
    "here",
    "ship",
    "ships",
    "shipping",
    "land",
    "lands",
    "back",
    "site",
];

/// Whether a sentence speaks of goods or people on their way.
pub(super) fn comes(sentence: &str) -> bool {
    has_any(sentence, &COMING)
}

/// Words of what is done with goods once they are here, or before they are made.
const WORK: [&str; 12] = [
    "go",
    "goes",
    "going",
    "fit",
    "fitting",
    "set",
    "setting",
    "install",
    "hang",
    "measure",
    "measuring",
    "template",
];

fn is_work(sentence: &str) -> bool {
    has_any(sentence, &WORK)
}

fn has_any(sentence: &str, words: &[&str]) -> bool {
    let stems: Vec<String> = words.iter().map(|word| stem(word)).collect();
    split_words(&sentence.to_lowercase())
        .iter()
        .any(|word| stems.contains(&stem(word)))
}

/// Words of goods that are not whole any more.
const BROKEN: [&str; 12] = [
    "cracked",
    "crack",
    "chipped",
    "chip",
    "broken",
    "broke",
    "smashed",
    "shattered",
    "damaged",
    "dented",
    "scratched",
    "snapped",
];

fn is_broken(sentence: &str) -> bool {
    has_any(sentence, &BROKEN)
}

impl Desk<'_> {
    /// The kind of note that says it of a target, and the value that goes with it.
    ///
    /// [`Kind::note`] says which; where the target tells more, so does this: goods that are chipped
    /// are damaged, goods that are not here and are given a day are promised, a share of the work is
    /// progress, a choice that is made is decided.
    pub(super) fn kind_and_value(
        &self,
        proposal: &Proposal,
        target: Option<&Target>,
    ) -> (NoteKind, Option<Value>) {
        let coming = self.to_come(proposal.when);
        let when = coming.map(Value::When);
        let piece = matches!(target, Some(Target::Piece(_)));
        match proposal.kind {
            Kind::Started => match share(proposal) {
                Some(share) => (NoteKind::Progress, Some(Value::Share(share))),
                None => (NoteKind::Started, None),
            },
            Kind::Done if matches!(target, Some(Target::Decision(_))) => (NoteKind::Decided, None),
            Kind::Delivered | Kind::NotDelivered
                if piece && when.is_some() && !self.is_today(proposal) =>
            {
                (NoteKind::Promised, when)
            }
            Kind::Blocked if piece && when.is_some() && comes(&proposal.sentence) => {
                (NoteKind::Promised, when)
            }
            Kind::Wrong if piece && is_broken(&proposal.sentence) => (NoteKind::Damaged, None),
            Kind::Blocked | Kind::Wrong => (NoteKind::Problem, when),
            Kind::Measured => (NoteKind::Measured, self.read(proposal, target)),
            Kind::Next if when.is_some() && self.is_promise(proposal, target) => {
                (NoteKind::Promised, when)
            }
            Kind::Next => (NoteKind::Remark, None),
            kind => (kind.note(false), None),
        }
    }

    fn is_today(&self, proposal: &Proposal) -> bool {
        let day = proposal.when.and_then(|when| when.day);
        day == Some(self.vocabulary.day)
    }

    /// Whether a day that was said is a promise that the plan can use: goods and people that come,
    /// an inspection that is booked, an answer that is expected.
    fn is_promise(&self, proposal: &Proposal, target: Option<&Target>) -> bool {
        match target {
            Some(Target::Piece(id)) => {
                let state = self.site.state(&Subject::Piece(id.clone()));
                let to_come = state.arrived.is_none() && state.done.is_none();
                comes(&proposal.sentence) || to_come && !is_work(&proposal.sentence)
            }
            Some(
                Target::Trade(_) | Target::Hold(_) | Target::Decision(_) | Target::Milestone(_),
            ) => true,
            _ => false,
        }
    }
}

/// How far work has got, of the whole: `60 %`, `four of seven`, `half`.
fn share(proposal: &Proposal) -> Option<grounds_measure::Percent> {
    let told = || {
        proposal
            .readings
            .iter()
            .filter(|reading| reading.role == Role::Told)
    };
    let parts = |unit| {
        let here = told().filter(move |reading| reading.amount.unit == unit);
        here.map(|reading| reading.amount.number.parts())
    };
    let of = |(top, bottom): (i64, i64), whole: (i64, i64)| {
        let (part, all) = (top.checked_mul(whole.1)?, bottom.checked_mul(whole.0)?);
        (all > 0 && part > 0 && part < all).then_some(())?;
        let hundredths = part.checked_mul(10_000)?.checked_add(all / 2)? / all;
        // Nobody on site means a share of a share of a percent.
        let hundredths = u32::try_from((hundredths + 50) / 100 * 100).ok()?;
        grounds_measure::Percent::from_hundredths(hundredths)
    };
    if let Some(percent) = parts(Unit::Percent).next() {
        return of(percent, (100, 1));
    }
    let plain: Vec<(i64, i64)> = parts(Unit::None).collect();
    match plain.as_slice() {
        [one] => of(*one, (1, 1)),
        [part, whole] => of(*part, *whole),
        _ => None,
    }
}
