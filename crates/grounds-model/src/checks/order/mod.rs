//! What comes before what, and whether it goes round in a circle.
//!
//! Each piece of work is two moments, its start and its finish. Layers of a stack follow one
//! another; pieces, holds, decisions, milestones and waits add arrows between moments. A circle of
//! arrows means that something would have to begin before itself.

mod words;

use std::collections::BTreeMap;

use super::{Notes, loops::Graph, pieces};
use crate::{
    faults::Severity,
    id::{Id, LayerKey, Ref},
    job::Job,
    promise::WorkEnd,
    view::{Target, Work},
};

/// The most arrows that are followed; a job with more is beyond what can be planned.
const MOST_ARROWS: usize = 2_000_000;

/// Something that begins and ends.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Event {
    /// A piece of work.
    Work(Work),
    /// Measuring a piece for order.
    Measure(Id),
    /// Everything that a target stands for, as some reader of it means it.
    All(Target, Reader),
}

/// Who reads a target: a piece means the layers of a place, a hold also its pieces, and a
/// milestone also the holds of a job.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Reader {
    Piece,
    Hold,
    Other,
}

/// Why one moment comes before another.
enum Reason {
    /// Somebody wrote it: the path of the key.
    Written(Vec<String>),
    /// A layer lies under the next.
    Stack,
    /// The start of work is before its finish, or a part belongs to a whole.
    Itself,
}

pub(super) fn check(job: &Job, notes: &mut Notes<'_, '_>) {
    let mut order = Order::new(job);
    order.gather();
    if order.graph.size() >= MOST_ARROWS {
        let what = format!("this job has more than {MOST_ARROWS} relations of before and after");
        notes.error_at_key(
            &["places"],
            what,
            "name single layers instead of whole places where one waits for another",
        );
        return;
    }
    let circles = order.graph.circles();
    for circle in &circles {
        order.report(Severity::Error, circle, notes);
    }
    if circles.is_empty() {
        // The order that a build-up's `after` asks for is only usual: a plan leaves it out where it
        // cannot be kept.
        order.usual();
        for circle in order.graph.circles() {
            order.report(Severity::Advice, &circle, notes);
        }
    }
}

struct Order<'j> {
    job: &'j Job,
    /// For each face, by place: the first of those that are worked on in one go with it.
    first_of: BTreeMap<(&'j Id, &'j Id), &'j Id>,
    graph: Graph,
    /// Start and finish of each event.
    nodes: BTreeMap<Event, (usize, usize)>,
    events: Vec<Event>,
    reasons: Vec<Reason>,
    /// The reasons that nobody wrote come last, so that circles are told from what was written.
    unwritten: Vec<(usize, usize, Reason)>,
}

impl<'j> Order<'j> {
    fn new(job: &'j Job) -> Self {
        Self {
            job,
            first_of: first_of_those_together(job),
            graph: Graph::default(),
            nodes: BTreeMap::new(),
            events: Vec::new(),
            reasons: Vec::new(),
            unwritten: Vec::new(),
        }
    }

    fn gather(&mut self) {
        self.pieces();
        self.holds();
        self.promises();
        self.waits();
        self.layers();
        for (from, to, reason) in std::mem::take(&mut self.unwritten) {
            self.reasons.push(reason);
            self.graph.arrow(from, to, self.reasons.len() - 1);
        }
    }

    /// The start and finish of an event.
    fn moments(&mut self, event: Event) -> (usize, usize) {
        if let Some(found) = self.nodes.get(&event) {
            return *found;
        }
        let moments = (self.graph.node(), self.graph.node());
        self.events.extend([event.clone(), event.clone()]);
        self.nodes.insert(event.clone(), moments);
        self.unwritten.push((moments.0, moments.1, Reason::Itself));
        if let Event::All(target, reader) = event {
            // A whole begins before each part begins and ends after each part ends.
            for work in self.parts(&target, reader) {
                let part = self.moments(Event::Work(work));
                self.unwritten.push((moments.0, part.0, Reason::Itself));
                self.unwritten.push((part.1, moments.1, Reason::Itself));
            }
        }
        moments
    }

    fn parts(&self, target: &Target, reader: Reader) -> Vec<Work> {
        let works = self.job.works(target);
        let keep = |work: &Work| match (reader, work) {
            (_, Work::Layer(_)) | (Reader::Other, _) => true,
            (Reader::Hold, work) => matches!(work, Work::Piece(_)),
            (Reader::Piece, _) => false,
        };
        let works = works.into_iter().filter(keep);
        works
            .map(|work| match work {
                Work::Layer(key) => Work::Layer(self.in_one_go(key)),
                other => other,
            })
            .collect()
    }

    /// The layer that stands for all that are put on in one go with it.
    fn in_one_go(&self, key: LayerKey) -> LayerKey {
        match self.first_of.get(&(&key.place, &key.face)) {
            Some(first) => LayerKey {
                face: (*first).clone(),
                ..key
            },
            None => key,
        }
    }

    /// The moments of what a reference points at: `None` if there is nothing.
    fn pointed_at(&mut self, reference: &Ref, reader: Reader) -> Option<(usize, usize)> {
        let target = self.job.resolve(reference)?;
        let event = match target {
            Target::Face { .. } | Target::Place(_) | Target::Opening(_) => Event::All(
                target, // A face has layers only, so every reader means the same.
                reader,
            ),
            Target::Job => Event::All(Target::Job, reader),
            Target::Layer(key) => Event::Work(Work::Layer(self.in_one_go(key))),
            Target::Piece(id) => Event::Work(Work::Piece(id)),
            Target::Hold(id) => Event::Work(Work::Hold(id)),
            Target::Decision(id) => Event::Work(Work::Decision(id)),
            Target::Milestone(id) => Event::Work(Work::Milestone(id)),
            Target::Passage(_) | Target::Trade(_) | Target::Control(_) | Target::Line(_) => {
                return None;
            }
        };
        // An opening is its piece, whoever reads it.
        let event = match event {
            Event::All(target @ Target::Opening(_), _) => Event::All(target, Reader::Other),
            other => other,
        };
        Some(self.moments(event))
    }

    fn written(&mut self, from: usize, to: usize, path: &[&str]) {
        if self.graph.size() < MOST_ARROWS {
            self.reasons.push(Reason::Written(
                path.iter().map(|step| (*step).to_owned()).collect(),
            ));
            self.graph.arrow(from, to, self.reasons.len() - 1);
        }
    }

    /// Everything in a list of references comes before a moment.
    fn after(&mut self, refs: &[Ref], moment: usize, reader: Reader, path: &[&str]) {
        for (at, reference) in refs.iter().enumerate() {
            if let Some((_, finish)) = self.pointed_at(reference, reader) {
                self.written(finish, moment, &super::step(path, &[&at.to_string()]));
            }
        }
    }

    /// Everything in a list of references comes after a moment.
    fn before(&mut self, refs: &[Ref], moment: usize, reader: Reader, path: &[&str]) {
        for (at, reference) in refs.iter().enumerate() {
            if let Some((start, _)) = self.pointed_at(reference, reader) {
                self.written(moment, start, &super::step(path, &[&at.to_string()]));
            }
        }
    }

    fn pieces(&mut self) {
        let job = self.job;
        for (key, piece) in &job.pieces {
            let path = ["pieces", key.as_str()];
            let set = self.moments(Event::Work(Work::Piece(key.clone())));
            self.after(
                &piece.after,
                set.0,
                Reader::Piece,
                &super::step(&path, &["after"]),
            );
            for (at, before) in piece.before.iter().enumerate() {
                // A layer under the piece's own is reported by itself.
                let reported = match job.resolve(before) {
                    Some(Target::Layer(layer)) => pieces::under(job, piece, &layer).is_some(),
                    _ => false,
                };
                if let Some((start, _)) =
                    self.pointed_at(before, Reader::Piece).filter(|_| !reported)
                {
                    self.written(
                        set.1,
                        start,
                        &super::step(&path, &["before", &at.to_string()]),
                    );
                }
            }
            if !piece.measured_after.is_empty() {
                let measure = self.moments(Event::Measure(key.clone()));
                self.after(
                    &piece.measured_after,
                    measure.0,
                    Reader::Piece,
                    &super::step(&path, &["measured_after"]),
                );
                self.unwritten.push((measure.1, set.0, Reason::Itself));
            }
            if let Some(decision) = piece
                .decision
                .as_ref()
                .filter(|it| job.decisions.contains_key(*it))
            {
                let decided = self.moments(Event::Work(Work::Decision(decision.clone())));
                self.written(decided.1, set.0, &super::step(&path, &["decision"]));
            }
        }
    }

    fn holds(&mut self) {
        let job = self.job;
        for (key, hold) in &job.holds {
            let path = ["holds", key.as_str()];
            let passed = self.moments(Event::Work(Work::Hold(key.clone())));
            self.after(
                &hold.after,
                passed.0,
                Reader::Hold,
                &super::step(&path, &["after"]),
            );
            self.before(
                &hold.before,
                passed.1,
                Reader::Hold,
                &super::step(&path, &["before"]),
            );
        }
    }

    fn promises(&mut self) {
        let job = self.job;
        for (key, decision) in &job.decisions {
            let decided = self.moments(Event::Work(Work::Decision(key.clone())));
            let path = ["decisions", key.as_str(), "before"];
            self.before(&decision.before, decided.1, Reader::Other, &path);
        }
        for (key, milestone) in &job.milestones {
            let reached = self.moments(Event::Work(Work::Milestone(key.clone())));
            let path = ["milestones", key.as_str(), "after"];
            self.after(&milestone.after, reached.0, Reader::Other, &path);
        }
    }

    fn waits(&mut self) {
        let job = self.job;
        for (at, wait) in job.waits.iter().enumerate() {
            if wait.least.is_none_or(|least| least.is_zero()) {
                continue;
            }
            let (Some(from), Some(to)) = (
                self.pointed_at(&wait.from, Reader::Other),
                self.pointed_at(&wait.to, Reader::Other),
            ) else {
                continue;
            };
            let end = |moments: (usize, usize), end| match end {
                WorkEnd::Start => moments.0,
                WorkEnd::Finish => moments.1,
            };
            let at = at.to_string();
            self.written(
                end(from, wait.from_end),
                end(to, wait.to_end),
                &["waits", &at, "to"],
            );
        }
    }

    fn layers(&mut self) {
        let job = self.job;
        for (place, here) in &job.places {
            for key in here.faces.keys() {
                let mut under: Option<usize> = None;
                for layer in job.layers_of(place, key) {
                    let layer = self.in_one_go(layer);
                    let moments = self.moments(Event::Work(Work::Layer(layer)));
                    if let Some(under) = under.replace(moments.1) {
                        self.unwritten.push((under, moments.0, Reason::Stack));
                    }
                }
            }
        }
    }

    /// What the job's own build-ups choose with `after`. The library's are not the user's to mend.
    fn usual(&mut self) {
        let job = self.job;
        for (place, here) in &job.places {
            for (key, face) in &here.faces {
                let Some(own) = job.build_ups.get(&face.build_up) else {
                    continue;
                };
                for (at, layer) in own.layers.iter().enumerate() {
                    let layer = LayerKey {
                        place: place.clone(),
                        face: key.clone(),
                        layer: layer.id.clone(),
                    };
                    let awaited = job.awaited(&layer);
                    let layer = self.in_one_go(layer);
                    let (start, _) = self.moments(Event::Work(Work::Layer(layer)));
                    let (build_up, at) = (face.build_up.as_str(), at.to_string());
                    for other in awaited {
                        let other = self.in_one_go(other);
                        let (_, finish) = self.moments(Event::Work(Work::Layer(other)));
                        let path = ["build_ups", build_up, "layers", &at, "after"];
                        self.written(finish, start, &path);
                    }
                }
            }
        }
    }
}

fn first_of_those_together(job: &Job) -> BTreeMap<(&Id, &Id), &Id> {
    let mut first_of = BTreeMap::new();
    for (place, here) in &job.places {
        let mut firsts: BTreeMap<&Id, &Id> = BTreeMap::new();
        for (key, face) in &here.faces {
            let first = if face.split {
                key
            } else {
                *firsts.entry(&face.build_up).or_insert(key)
            };
            first_of.insert((place, key), first);
        }
    }
    first_of
}
