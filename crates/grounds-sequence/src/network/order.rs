//! The usual order of work: within a place, through a place, and around what is kept there.

use grounds_model::{Id, LayerKey};
use grounds_schedule::{ActivityId, Clock as On, NodeId};
use grounds_site::Subject;

use super::builder::Builder;
use crate::task::{LagWhy, Work};

impl Builder<'_> {
    /// Each layer waits for the layers in its place that its build-up names.
    pub(super) fn order_within_places(&mut self) {
        let tasks: Vec<(LayerKey, ActivityId)> = self.open_layers();
        for (key, to) in tasks {
            let Some(layer) = self.job.layer(&key) else {
                continue;
            };
            for selector in &layer.after {
                for before in self.job.selected(&key.place, selector) {
                    self.order_pair(&before, to);
                }
            }
        }
    }

    fn order_pair(&mut self, before: &LayerKey, to: ActivityId) {
        let Some(&from) = self.layer_task.get(before) else {
            return;
        };
        let group = |id: ActivityId| self.problem.activities[id.index()].group;
        if group(from) == group(to) {
            return;
        }
        let wait = self.cover_wait(before);
        self.usually_after(from, to, wait, LagWhy::OrderHere);
    }

    /// Floors are not worked on under pieces that are kept on them.
    pub(super) fn clear_kept_pieces(&mut self) {
        let job = self.job;
        for (id, piece) in &job.pieces {
            let Some(kept_in) = &piece.kept_in else {
                continue;
            };
            let state = self.site.state(&Subject::Piece(id.clone()));
            if state.arrived.is_none() || state.done.is_some() {
                continue;
            }
            let set = self.set[id];
            for floor in self.open_floor_work(kept_in) {
                self.usually_after(set, floor, (0, On::Elapsed), LagWhy::KeptHere);
            }
        }
    }

    fn open_floor_work(&self, place: &Id) -> Vec<ActivityId> {
        (0..self.tasks.len())
            .map(ActivityId::from)
            .filter(|&id| {
                self.tasks[id.index()].place.as_ref() == Some(place)
                    && !self.problem.activities[id.index()].closes.is_empty()
                    && matches!(self.tasks[id.index()].work, Work::Layer(_))
                    && self.is_open(id)
            })
            .collect()
    }

    /// What is done last waits for everybody who must cross its place: those who work there, and
    /// those whose only ways lead through it. Inner places come before outer ones.
    pub(super) fn cross_before_last(&mut self) {
        let depths = self.ways.depths();
        let last: Vec<(ActivityId, NodeId)> = self
            .open_layers()
            .into_iter()
            .filter(|(key, _)| self.job.layer(key).is_some_and(|layer| layer.last))
            .filter(|(key, _)| !self.window_runs(key))
            .filter_map(|(key, id)| Some((id, self.ways.node(&key.place)?)))
            .collect();
        for &(id, node) in &last {
            let cut_off = self.ways.cut_off_by(node);
            for from in self.open_work_at(&cut_off) {
                let other = last.iter().find(|(other, _)| *other == from);
                let deeper = other.is_none_or(|&(_, at)| depths[at.index()] > depths[node.index()]);
                let same_stack = self.problem.activities[from.index()].group
                    == self.problem.activities[id.index()].group;
                if deeper && !same_stack {
                    self.usually_after(from, id, (0, On::Elapsed), LagWhy::CrossFirst);
                }
            }
        }
    }

    /// Whether the layer under this one is begun or done and this one must follow it in time. Such
    /// a coat does not wait for those who cross: they wait for it.
    fn window_runs(&self, over: &LayerKey) -> bool {
        let stack = self.job.layers_of(&over.place, &over.face);
        let under = stack.iter().take_while(|key| *key != over).last();
        under.is_some_and(|key| {
            let window = self.job.layer(key).and_then(|layer| layer.latest_recoat);
            let begun = self
                .layer_task
                .get(key)
                .is_some_and(|id| !self.is_open(*id));
            window.is_some() && begun
        })
    }

    fn open_work_at(&self, nodes: &[NodeId]) -> Vec<ActivityId> {
        (0..self.tasks.len())
            .map(ActivityId::from)
            .filter(|&id| {
                let at = self.problem.activities[id.index()].at;
                at.is_some_and(|at| nodes.contains(&at)) && !self.is_done(id)
            })
            .collect()
    }

    fn open_layers(&self) -> Vec<(LayerKey, ActivityId)> {
        let mut seen = Vec::new();
        for (index, task) in self.tasks.iter().enumerate() {
            let id = ActivityId::from(index);
            if let (Work::Layer(keys), true) = (&task.work, self.is_open(id)) {
                seen.extend(keys.first().map(|key| (key.clone(), id)));
            }
        }
        seen
    }
}
