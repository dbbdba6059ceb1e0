//! Looking at what nobody saw, where somebody decided to: work before the next thing goes over it.

use std::collections::BTreeMap;

use grounds_measure::Span;
use grounds_model::{Id, Job, Layer, LayerKey, Piece, Ref, Target};
use grounds_schedule::{Activity, ActivityId, Clock as On, Fact, GroupId, Tick};
use grounds_site::{Look, Site, State, Subject};
use uuid::Uuid;

use super::{
    builder::Builder,
    layers::{key, stacks, where_words_of},
};
use crate::{
    task::{LagWhy, Sought, Task, TaskState, Work},
    words::lower_first,
};

/// Minutes to make good one layer of an opened spot, where the layer names no time to set up.
/// Common practice.
const PATCH: u32 = 30;

/// One part of the work of looking.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LookPart {
    /// What is done, in words: `take off and make good the tile`.
    pub what: String,
    /// By whom; nobody in particular where the site lead does it.
    pub trade: Option<Id>,
    /// How long it takes, in minutes of work.
    pub minutes: u32,
}

/// The parts of looking at a layer: the look itself, and what is on top of it, made good.
///
/// An opening is made good layer by layer, a hole for a camera in the outermost only; a test or a
/// meter opens nothing. Common practice for one spot; drying comes on top.
#[must_use]
pub fn look_parts(job: &Job, site: &Site, key: &LayerKey, how: Look) -> Vec<LookPart> {
    let over = over(job, site, key);
    let opened = match how {
        Look::Opening => &over[..],
        Look::Camera => &over[over.len().saturating_sub(1)..],
        Look::Test | Look::Meter => &[],
    };
    let looker = match how {
        Look::Opening => opened.last().map(|layer| layer.trade.clone()),
        _ => None,
    };
    let look = LookPart {
        what: match how {
            Look::Opening => "open one spot and look".to_owned(),
            Look::Camera => "look with a camera".to_owned(),
            Look::Test => "set up the test and read it".to_owned(),
            Look::Meter => "read the meter".to_owned(),
        },
        trade: looker,
        minutes: minutes(how.takes()),
    };
    let made_good = opened.iter().map(|layer| LookPart {
        what: format!("make good the {}", lower_first(&layer.name)),
        trade: Some(layer.trade.clone()),
        minutes: layer.set_up.map_or(PATCH, minutes).max(15),
    });
    std::iter::once(look).chain(made_good).collect()
}

/// The layers over one that are on, structure side first.
fn over<'a>(job: &'a Job, site: &Site, key: &LayerKey) -> Vec<&'a Layer> {
    let Some((at, _)) = job.layer_at(key) else {
        return Vec::new();
    };
    let keys = job.layers_of(&key.place, &key.face);
    let is_on = |key: &&LayerKey| {
        let state = site.state(&Subject::Layer((*key).clone()));
        state.done.or(state.started).or(state.presumed).is_some()
    };
    let on = keys.iter().skip(at + 1).filter(is_on);
    on.filter_map(|key| job.layer(key)).collect()
}

fn minutes(span: Span) -> u32 {
    let quarters = span.quarter_hours_up().unwrap_or(0);
    quarters.saturating_mul(15)
}

/// A look that somebody decided on.
struct Wanted {
    sought: Sought,
    how: Look,
}

impl Builder<'_> {
    pub(super) fn add_looks(&mut self) {
        let job = self.job;
        for (place, design) in &job.places {
            for (_, faces) in stacks(design) {
                for wanted in self.wanted_on(place, &faces) {
                    self.add_look_at_layers(&wanted);
                }
            }
        }
        for (id, piece) in &job.pieces {
            let state = self.site.state(&Subject::Piece(id.clone()));
            if let Some((how, _)) = state.look {
                self.add_look_for_piece(id, piece, how);
            }
        }
    }

    /// The looks at a stack: one for each layer, and one for all of a face of which nothing is known.
    fn wanted_on(&self, place: &Id, faces: &[&Id]) -> Vec<Wanted> {
        let mut wanted: BTreeMap<(usize, bool), (Vec<LayerKey>, Look)> = BTreeMap::new();
        for face in faces {
            let mut met: Vec<Uuid> = Vec::new();
            for (index, key) in self.job.layers_of(place, face).into_iter().enumerate() {
                let state = self.site.state(&Subject::Layer(key.clone()));
                let Some((how, seen)) = state.look else {
                    continue;
                };
                // A note about a whole face stands on each of its layers; it is one look.
                if met.contains(&seen.note) {
                    continue;
                }
                met.push(seen.note);
                let (keys, sure) = wanted
                    .entry((index, state.unseen.is_some()))
                    .or_insert_with(|| (Vec::new(), how));
                keys.push(key);
                *sure = how.min(*sure);
            }
        }
        let wanted = wanted.into_iter();
        wanted
            .map(|((_, is_unknown), (keys, how))| Wanted {
                sought: match is_unknown {
                    true => Sought::Face(keys),
                    false => Sought::Layer(keys),
                },
                how,
            })
            .collect()
    }

    fn add_look_at_layers(&mut self, wanted: &Wanted) {
        let Some(first) = wanted.sought.layers().first().cloned() else {
            return;
        };
        let group = self.stack_of(&first);
        let name = self.look_name(&wanted.sought, &first);
        let faces: Vec<&Id> = wanted.sought.layers().iter().map(|key| &key.face).collect();
        let where_ = where_words_of(self.job, &first.place, &faces);
        let task = self.look_task(wanted.sought.clone(), &first.to_string(), name, where_);
        let parts = look_parts(self.job, self.site, &first, wanted.how);
        let look = self.add_look(&parts, &first.place, group, wanted.how, task);
        let from = match wanted.sought {
            Sought::Face(_) => 0,
            _ => self.job.layer_at(&first).map_or(0, |(at, _)| at + 1),
        };
        self.looks.push((look, first, from));
    }

    fn look_name(&self, sought: &Sought, first: &LayerKey) -> String {
        let layer = self.job.layer(first);
        let over = over(self.job, self.site, first);
        match (sought, layer, over.last()) {
            (Sought::Face(_), ..) | (_, None, _) => "Look how far it has got".to_owned(),
            (_, Some(layer), Some(over)) => format!(
                "Look behind the {} for the {}",
                lower_first(&over.name),
                lower_first(&layer.name)
            ),
            (_, Some(layer), None) => format!("Look at the {}", lower_first(&layer.name)),
        }
    }

    fn add_look_for_piece(&mut self, id: &Id, piece: &Piece, how: Look) {
        let parts = look_for_piece(self.job, self.site, id, how);
        let group = piece
            .face
            .as_ref()
            .and_then(|face| self.stack_group.get(&(piece.place.clone(), face.clone())))
            .copied();
        let name = format!("Look for the {}", lower_first(&piece.name));
        let where_ = self.place_name(&piece.place);
        let task = self.look_task(Sought::Piece(id.clone()), id.as_str(), name, where_);
        let task = Task {
            place: Some(piece.place.clone()),
            face: piece.face.clone(),
            ..task
        };
        let look = self.add_look(&parts, &piece.place, group, how, task);
        self.piece_looks.push((look, id.clone()));
    }

    fn place_name(&self, place: &Id) -> String {
        let place = self.job.places.get(place);
        place.map_or_else(String::new, |place| place.name.clone())
    }

    fn look_task(&self, sought: Sought, key: &str, name: String, where_: String) -> Task {
        let first = sought.layers().first();
        Task {
            key: format!("{key}:look"),
            place: first.map(|key| key.place.clone()),
            face: first.map(|key| key.face.clone()),
            work: Work::Look(sought),
            trade: None,
            name,
            where_,
            material: None,
            state: TaskState::ToCome,
            share: 0,
            limited_by_air: false,
            said: None,
        }
    }

    fn add_look(
        &mut self,
        parts: &[LookPart],
        place: &Id,
        group: Option<GroupId>,
        how: Look,
        task: Task,
    ) -> ActivityId {
        let minutes: u32 = parts.iter().map(|part| part.minutes).sum();
        let trade = parts.first().and_then(|part| part.trade.clone());
        let calendar = self.calendar_of(trade.as_ref());
        let zone = self.zone_of(place);
        let activity = Activity {
            work: Tick::try_from(minutes.div_ceil(15)).unwrap_or(1).max(1),
            calendar: Some(calendar),
            uses: [self.crew(trade.as_ref()), self.room(place)]
                .into_iter()
                .flatten()
                .collect(),
            at: self.ways.node(place),
            group,
            dusty: zone.filter(|_| how == Look::Opening),
            fact: Fact::Open,
            ..Activity::default()
        };
        self.add(activity, Task { trade, ..task }, Some(calendar))
    }

    fn stack_of(&self, key: &LayerKey) -> Option<GroupId> {
        let stack = (key.place.clone(), key.face.clone());
        self.stack_group.get(&stack).copied()
    }

    /// What goes over next waits for the look: the next layer of the face, and pieces set on it.
    pub(super) fn link_looks(&mut self) {
        for (look, first, from) in self.looks.clone() {
            self.look_before_layers(look, &first, from);
            let job = self.job;
            for (id, piece) in &job.pieces {
                let same = piece.place == first.place && piece.face.as_ref() == Some(&first.face);
                if same && self.is_open(self.set[id]) {
                    let set = self.set[id];
                    self.usually_after(look, set, (0, On::Elapsed), LagWhy::Look);
                }
            }
        }
        self.link_tests();
        for (look, id) in self.piece_looks.clone() {
            let Some(piece) = self.job.pieces.get(&id) else {
                continue;
            };
            let covers: Vec<ActivityId> = piece
                .before
                .iter()
                .flat_map(|reference| self.tasks_of(reference))
                .collect();
            for to in covers {
                self.usually_after(look, to, (0, On::Elapsed), LagWhy::Look);
            }
            if let Some(key) = sits_on(self.job, piece) {
                let from = self.job.layer_at(&key).map_or(0, |(at, _)| at + 1);
                self.look_before_layers(look, &key, from);
            }
        }
    }

    /// A hold that somebody wants passed after all, though work has gone over what it guards: what
    /// goes over next waits for it.
    fn link_tests(&mut self) {
        let job = self.job;
        for (id, hold) in &job.holds {
            let state = self.site.state(&Subject::Hold(id.clone()));
            let Some(&pass) = self.hold_pass.get(id) else {
                continue;
            };
            if state.look.is_none() || self.is_done(pass) {
                continue;
            }
            let then = hold
                .then
                .map_or((0, On::Elapsed), |span| self.wait(span, None));
            for reference in hold.after.iter().chain(&hold.before) {
                if let Some(Target::Layer(key)) = job.resolve(reference)
                    && let Some(next) = self.next_open(&key, 0)
                {
                    self.usually_after(pass, next, then, LagWhy::Hold);
                }
            }
        }
    }

    /// The first layer of the face, from a position on, that is still to come waits for the look.
    fn look_before_layers(&mut self, look: ActivityId, key: &LayerKey, from: usize) {
        if let Some(next) = self.next_open(key, from) {
            self.usually_after(look, next, (0, On::Elapsed), LagWhy::Look);
        }
    }

    /// The first layer of a face, from a position on, that is still to come.
    fn next_open(&self, key: &LayerKey, from: usize) -> Option<ActivityId> {
        let keys = self.job.layers_of(&key.place, &key.face);
        let mut works = keys
            .iter()
            .skip(from)
            .filter_map(|key| self.layer_task.get(key).copied());
        works.find(|&id| self.is_open(id))
    }

    /// Whether a hold is let go: somebody decided to go on without it. What an authority asks for
    /// is not ours to let go.
    pub(super) fn let_go_of(&self, id: &Id, state: &State) -> Option<grounds_site::Seen> {
        let hold = self.job.holds.get(id)?;
        state
            .let_go
            .filter(|_| hold.kind != grounds_model::HoldKind::Authority)
    }
}

/// The parts of looking for a piece: through what covers it.
#[must_use]
pub fn look_for_piece(job: &Job, site: &Site, id: &Id, how: Look) -> Vec<LookPart> {
    let layer = job.pieces.get(id).and_then(|piece| sits_on(job, piece));
    match layer {
        Some(key) => look_parts(job, site, &key, how),
        None => vec![LookPart {
            what: "look".to_owned(),
            trade: None,
            minutes: minutes(how.takes()),
        }],
    }
}

/// The layer that a piece sits on.
fn sits_on(job: &Job, piece: &Piece) -> Option<LayerKey> {
    let face = piece.face.as_ref()?;
    let on_face = |reference: &Ref| match job.resolve(reference)? {
        Target::Layer(key) if key.place == piece.place && key.face == *face => Some(key),
        _ => None,
    };
    let on = piece.after.iter().find_map(on_face);
    on.or_else(|| {
        let layers = job.layers_of(&piece.place, face);
        layers
            .first()
            .map(|first| key(&piece.place, face, &first.layer))
    })
}
