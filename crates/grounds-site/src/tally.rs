//! One subject's state while its notes are gone through in order of time.

use grounds_measure::Percent;
use grounds_model::Moment;

use crate::{
    look::Look,
    note::{Note, Value},
    state::{Problem, Seen, State},
};

/// A state in the making, with what is needed to take the next note.
#[derive(Clone, Debug, Default)]
pub(crate) struct Tally {
    /// The state so far.
    pub(crate) state: State,
    /// What is not there now was there once.
    pub(crate) was_there: bool,
    /// Arrival and finish that damage took away, for the case that it turns out to be well.
    taken: Option<(Option<Seen>, Option<Seen>)>,
}

impl Tally {
    /// Work began; a second start does not move the first.
    pub(crate) fn start(&mut self, seen: Seen) {
        self.state.started.get_or_insert(seen);
        self.state.unseen = None;
    }

    /// Work has got so far, and so it has begun.
    pub(crate) fn progress(&mut self, share: Percent, seen: Seen) {
        self.state.progress = Some((share.min(Percent::WHOLE), seen));
        self.start(seen);
    }

    /// Work is finished.
    pub(crate) fn done(&mut self, seen: Seen) {
        self.state.done = Some(seen);
        self.state.damaged = None;
        self.state.undone = None;
        self.taken = None;
        self.known();
    }

    /// It is taken to be done, though nobody saw it. Says nothing where somebody did.
    pub(crate) fn presume(&mut self, seen: Seen) {
        if self.state.done.is_some() {
            return;
        }
        self.done(seen);
        self.state.presumed = Some(seen);
    }

    /// Somebody was there and could not tell. Takes nothing away that was told before.
    pub(crate) fn not_seen(&mut self, seen: Seen) {
        if !self.state.is_told() {
            self.state.unseen = Some(seen);
        }
    }

    /// What somebody decided about not having seen it: to look, or to let it go.
    pub(crate) fn decide_unseen(&mut self, look: Option<Look>, seen: Seen) {
        self.state.look = look.map(|look| (look, seen));
        self.state.let_go = look.is_none().then_some(seen);
    }

    /// Somebody has seen it now.
    fn known(&mut self) {
        self.state.presumed = None;
        self.state.unseen = None;
        self.state.look = None;
        self.state.let_go = None;
    }

    /// Work has to be done again.
    pub(crate) fn undo(&mut self, seen: Seen) {
        let is_known_missing = self.state.undone.is_some();
        self.was_there = self.state.done.is_some() || is_known_missing && self.was_there;
        self.state.undone = Some(seen);
        self.state.started = None;
        self.state.progress = None;
        self.state.done = None;
        self.state.accepted = None;
        self.taken = None;
        self.known();
    }

    /// On site, whole.
    pub(crate) fn arrive(&mut self, seen: Seen) {
        self.state.arrived = Some(seen);
        self.state.damaged = None;
        self.taken = None;
    }

    /// Damaged: neither on site nor done until somebody says what now.
    pub(crate) fn damage(&mut self, seen: Seen) {
        let taken = (self.state.arrived.take(), self.state.done.take());
        // Damage on damage takes nothing more away.
        if self.state.damaged.is_none() {
            self.taken = Some(taken);
        }
        self.state.damaged = Some(seen);
        self.known();
    }

    /// A hold failed. A booking for that day or an earlier one is used up.
    pub(crate) fn fail(&mut self, seen: Seen, today: jiff::civil::Date) {
        self.state.failed = Some(seen);
        self.state.mended = None;
        self.state.done = None;
        self.state.started = None;
        self.state.progress = None;
        if self
            .state
            .promised
            .is_none_or(|(when, _)| when.date <= today)
        {
            self.state.ordered = None;
            self.state.promised = None;
        }
    }

    /// A hold passed.
    pub(crate) fn pass(&mut self, seen: Seen) {
        self.done(seen);
        self.state.failed = None;
        self.state.mended = None;
    }

    /// Something stands in the way.
    pub(crate) fn trouble(&mut self, note: &Note, seen: Seen) {
        let words = note.words.clone().unwrap_or_default();
        self.state.problems.push(Problem {
            seen,
            until: when(note),
            words,
        });
    }

    /// What stood in the way is gone; damage turned out to be nothing, or was mended in place.
    pub(crate) fn clear(&mut self, seen: Seen) {
        self.state.problems.clear();
        if self.state.failed.is_some() {
            self.state.mended = Some(seen);
        }
        if self.state.damaged.take().is_some()
            && let Some((arrived, done)) = self.taken.take()
        {
            self.state.arrived = arrived;
            self.state.done = done;
        }
    }

    /// A date was given.
    pub(crate) fn promise(&mut self, when: Moment, seen: Seen) {
        self.state.promised = Some((when, seen));
    }
}

/// The date that goes with a note.
pub(crate) fn when(note: &Note) -> Option<Moment> {
    match note.value {
        Some(Value::When(moment)) => Some(moment),
        _ => None,
    }
}

/// The moment of a note.
pub(crate) fn seen(note: &Note) -> Seen {
    Seen {
        at: note.at,
        note: note.id,
    }
}
