//! When it is too late for a fit: the plan says when what covers it begins.

use grounds_lines::answers::{Answer, Verdict};
use grounds_model::{Id, Ref, Target};
use grounds_schedule::{ActivityId, DAY, Tick};

use crate::visit::Visit;

/// Work that covers something, and when the plan begins it.
#[derive(Clone, Debug)]
pub(super) struct Cover {
    /// The work.
    pub(super) id: ActivityId,
    /// When it begins.
    pub(super) start: Tick,
}

impl Cover {
    /// `By Thu 17 June: then comes skim, wheel room walls.`
    pub(super) fn before(&self, visit: &Visit) -> String {
        let words = visit.words();
        format!(
            "By {}: then comes {}.",
            words.when(self.start),
            words.mid(self.id)
        )
    }
}

/// The work that a reference stands for, if it is still to come.
pub(super) fn cover(visit: &Visit, reference: &Ref) -> Option<Cover> {
    let picture = &visit.picture;
    let id = match picture.job.resolve(reference)? {
        Target::Layer(key) => picture.layer_tasks.get(&key).copied()?,
        Target::Piece(id) => picture.outlook.network.find(id.as_str())?,
        _ => return None,
    };
    let start = *picture.outlook.plan.starts.get(id.index())?;
    Some(Cover { id, start })
}

/// When a need that fails bites: its piece is ordered or it is covered.
pub(super) fn bites(visit: &Visit, answer: &Answer) -> Option<Cover> {
    let facts = visit.picture.fit.facts(answer)?;
    let holdup = facts.holdup.as_ref()?;
    let covered = holdup.cover.as_ref().and_then(|by| cover(visit, by));
    let ordered = holdup
        .order
        .as_ref()
        .and_then(|piece| arrives(visit, piece));
    match (covered, ordered) {
        (Some(a), Some(b)) => Some(if b.start < a.start { b } else { a }),
        (a, b) => a.or(b),
    }
}

/// The arrival of a piece, and when the plan has it.
pub(super) fn arrives(visit: &Visit, piece: &Id) -> Option<Cover> {
    let network = &visit.picture.outlook.network;
    let id = network.find(&format!("{piece}:arrive"))?;
    let start = *visit.picture.outlook.plan.starts.get(id.index())?;
    Some(Cover { id, start })
}

/// The tick so many days from now.
pub(super) fn in_days(visit: &Visit, days: i32) -> Tick {
    let now = visit.picture.outlook.network.now_tick();
    now.saturating_add(days.saturating_mul(DAY))
}

/// What fails, then what is tight: of each what bites soonest first, and last what somebody decided
/// to let go on.
pub(super) fn soonest_first(visit: &Visit) -> Vec<&Answer> {
    let fit = &visit.picture.fit;
    let mut all: Vec<&Answer> = fit.in_trouble().collect();
    let decided = |answer: &Answer| {
        let holdup = fit.facts(answer).and_then(|facts| facts.holdup.as_ref());
        holdup.is_some_and(|holdup| holdup.overruled.is_some())
    };
    all.sort_by_cached_key(|answer| {
        let bites = bites(visit, answer).map_or(Tick::MAX, |cover| cover.start);
        (answer.verdict != Verdict::Fails, decided(answer), bites)
    });
    all
}
