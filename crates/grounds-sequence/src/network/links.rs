//! What waits for what, as pieces, holds, decisions and waits say it.

use grounds_measure::Span;
use grounds_model::{Id, LayerKey, Ref, Target, WorkEnd};
use grounds_schedule::{ActivityId, Clock as On, End, Lag, Tick};

use super::builder::Builder;
use crate::{
    air::Waiting,
    task::{LagWhy, Work},
};

impl Builder<'_> {
    pub(super) fn link_pieces(&mut self) {
        let job = self.job;
        for (id, piece) in &job.pieces {
            let set = self.set[id];
            for reference in &piece.after {
                self.wait_for(reference, set, LagWhy::SitsOn);
            }
            if let Some(measure) = self.measure.get(id).copied() {
                for reference in &piece.measured_after {
                    self.wait_for(reference, measure, LagWhy::MeasureAfter);
                }
            }
            let wait = self.set_wait(id);
            for reference in &piece.before {
                for to in self.first_of(reference) {
                    self.after(set, to, wait, LagWhy::Covers);
                }
            }
        }
    }

    pub(super) fn link_holds(&mut self) {
        let job = self.job;
        for (id, hold) in &job.holds {
            let (first, pass) = (self.hold_first[id], self.hold_pass[id]);
            for reference in &hold.after {
                self.wait_for(reference, first, LagWhy::HoldAfter);
            }
            let then = hold
                .then
                .map_or((0, On::Elapsed), |span| self.wait(span, None));
            for reference in &hold.before {
                for to in self.first_of(reference) {
                    self.after(pass, to, then, LagWhy::Hold);
                }
            }
        }
    }

    pub(super) fn link_decisions(&mut self) {
        let job = self.job;
        for (id, decision) in &job.decisions {
            let decide = self.decide[id];
            for reference in &decision.before {
                for to in self.first_of(reference) {
                    self.after(decide, to, (0, On::Elapsed), LagWhy::Decision);
                }
            }
        }
    }

    pub(super) fn link_waits(&mut self) {
        let job = self.job;
        for (index, wait) in job.waits.iter().enumerate() {
            for from in self.tasks_of(&wait.from) {
                let least = wait.least.map(|span| self.wait_after(from, span));
                let most = wait.most.map(|span| self.wait_after(from, span));
                for to in self.tasks_of(&wait.to) {
                    let ends = (work_end(wait.from_end), work_end(wait.to_end));
                    self.user_wait(from, to, ends, least, LagWhy::Wait(index), Bound::Least);
                    self.user_wait(from, to, ends, most, LagWhy::Wait(index), Bound::Most);
                }
            }
        }
    }

    /// A waiting time after some work. Counted hours are those within the limits of the layer that
    /// is waited for.
    fn wait_after(&mut self, from: ActivityId, span: Span) -> (Tick, On) {
        let key = match (&self.tasks[from.index()].work, span) {
            (Work::Layer(keys), Span::Counted(_)) => keys.first().cloned(),
            _ => None,
        };
        let waiting = key
            .as_ref()
            .and_then(|key| self.job.layer(key))
            .map(Waiting::of);
        let air = key.as_ref().map(|key| &key.place).zip(waiting);
        self.wait(span, air)
    }

    fn user_wait(
        &mut self,
        from: ActivityId,
        to: ActivityId,
        (from_end, to_end): (End, End),
        length: Option<(Tick, On)>,
        why: LagWhy,
        bound: Bound,
    ) {
        let Some((length, clock)) = length else {
            return;
        };
        let (min, max) = match bound {
            Bound::Least => (Some(length), None),
            Bound::Most => (None, Some(length)),
        };
        self.lag(
            Lag {
                from,
                from_end,
                to,
                to_end,
                min,
                max,
                clock,
            },
            why,
        );
    }

    /// `to` waits until everything a reference points at is finished and fit to be built on.
    fn wait_for(&mut self, reference: &Ref, to: ActivityId, why: LagWhy) {
        for from in self.last_of(reference) {
            let wait = self.ready_wait(from);
            self.after(from, to, wait, why.clone());
        }
    }

    /// The wait after a piece of work before something else relies on it.
    pub(super) fn ready_wait(&mut self, from: ActivityId) -> (Tick, On) {
        match self.tasks[from.index()].work.clone() {
            Work::Layer(keys) => keys
                .first()
                .map_or((0, On::Elapsed), |key| self.cover_wait(key)),
            Work::Set(piece) => self.set_wait(&piece),
            Work::Pass(hold) => {
                let then = self.job.holds.get(&hold).and_then(|hold| hold.then);
                then.map_or((0, On::Elapsed), |span| self.wait(span, None))
            }
            _ => (0, On::Elapsed),
        }
    }

    /// The wait after a piece is set.
    pub(super) fn set_wait(&mut self, piece: &Id) -> (Tick, On) {
        let cover = self.job.pieces.get(piece).and_then(|piece| piece.cover);
        cover.map_or((0, On::Elapsed), |span| self.wait(span, None))
    }

    /// The work that ends what a reference points at.
    pub(super) fn last_of(&self, reference: &Ref) -> Vec<ActivityId> {
        match self.job.resolve(reference) {
            Some(Target::Face { place, face }) => self
                .layers_of(&place, &face)
                .last()
                .copied()
                .into_iter()
                .collect(),
            Some(Target::Hold(id)) => self.hold_pass.get(&id).copied().into_iter().collect(),
            _ => self.tasks_of(reference),
        }
    }

    /// The work that begins what a reference points at.
    pub(super) fn first_of(&self, reference: &Ref) -> Vec<ActivityId> {
        match self.job.resolve(reference) {
            Some(Target::Face { place, face }) => self
                .layers_of(&place, &face)
                .first()
                .copied()
                .into_iter()
                .collect(),
            Some(Target::Hold(id)) => self.hold_first.get(&id).copied().into_iter().collect(),
            _ => self.tasks_of(reference),
        }
    }

    /// All the work that a reference points at.
    pub(super) fn tasks_of(&self, reference: &Ref) -> Vec<ActivityId> {
        let one = |task: Option<&ActivityId>| task.copied().into_iter().collect();
        match self.job.resolve(reference) {
            Some(Target::Layer(key)) => one(self.layer_task.get(&key)),
            Some(Target::Face { place, face }) => self.layers_of(&place, &face),
            Some(Target::Place(place)) => self.work_in(&place),
            Some(Target::Piece(id)) => one(self.set.get(&id)),
            Some(Target::Hold(id)) => one(self.hold_pass.get(&id)),
            Some(Target::Decision(id)) => one(self.decide.get(&id)),
            Some(Target::Milestone(id)) => one(self.reach.get(&id)),
            Some(Target::Opening(id)) => {
                let piece = self
                    .job
                    .openings
                    .get(&id)
                    .and_then(|opening| opening.piece.as_ref());
                one(piece.and_then(|piece| self.set.get(piece)))
            }
            Some(Target::Trade(trade)) => {
                self.where_task(|task| task.trade.as_ref() == Some(&trade))
            }
            Some(Target::Passage(_) | Target::Control(_) | Target::Line(_) | Target::Job)
            | None => Vec::new(),
        }
    }

    fn layers_of(&self, place: &Id, face: &Id) -> Vec<ActivityId> {
        let design = self
            .job
            .places
            .get(place)
            .and_then(|place| place.faces.get(face));
        let Some(build_up) = design.and_then(|face| self.job.build_up(face)) else {
            return Vec::new();
        };
        build_up
            .layers
            .iter()
            .filter_map(|layer| {
                let key = LayerKey {
                    place: place.clone(),
                    face: face.clone(),
                    layer: layer.id.clone(),
                };
                self.layer_task.get(&key).copied()
            })
            .collect()
    }

    fn work_in(&self, place: &Id) -> Vec<ActivityId> {
        self.where_task(|task| {
            task.place.as_ref() == Some(place) && matches!(task.work, Work::Layer(_) | Work::Set(_))
        })
    }

    fn where_task(&self, wanted: impl Fn(&crate::task::Task) -> bool) -> Vec<ActivityId> {
        (0..self.tasks.len())
            .filter(|&index| wanted(&self.tasks[index]))
            .map(ActivityId::from)
            .collect()
    }
}

/// Which bound of a wait is meant.
#[derive(Clone, Copy)]
enum Bound {
    Least,
    Most,
}

fn work_end(end: WorkEnd) -> End {
    match end {
        WorkEnd::Start => End::Start,
        WorkEnd::Finish => End::Finish,
    }
}
