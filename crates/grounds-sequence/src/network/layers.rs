//! Layers: one activity for each layer on the faces of a place that share a build-up.

use std::collections::BTreeMap;

use grounds_measure::{Percent, Quantity, QuantityKind};
use grounds_model::{BuildUp, FaceKind, Id, Job, Layer, LayerKey, Place};
use grounds_schedule::{
    Activity, ActivityId, Clock as On, Closure, End, Fact, GroupId, Lag, Moment, NodeId, Still,
    Tick, Tread,
};
use grounds_site::{Seen, State, Subject};

use super::builder::Builder;
use crate::{
    air::{Limits, Waiting},
    task::{LagWhy, Task, TaskState, Work},
    words::lower_first,
};

/// Cents that one crossing of easily spoiled work is reckoned at.
pub(super) const FRAGILE_CENTS: i64 = 1_500;

/// Faces of one place that are worked on together.
struct Stack<'a> {
    place_id: &'a Id,
    place: &'a Place,
    faces: Vec<&'a Id>,
    build_up: &'a BuildUp,
    group: GroupId,
}

impl Builder<'_> {
    pub(super) fn add_layers(&mut self) {
        let job = self.job;
        for (place_id, place) in &job.places {
            for (build_up, faces) in stacks(place) {
                let Some(design) = place
                    .faces
                    .get(faces[0])
                    .and_then(|face| job.build_up(face))
                else {
                    continue;
                };
                debug_assert!(place.faces[faces[0]].build_up == *build_up);
                let group = self.new_group();
                for face in &faces {
                    self.stack_group
                        .insert((place_id.clone(), (*face).clone()), group);
                }
                let stack = Stack {
                    place_id,
                    place,
                    faces,
                    build_up: design,
                    group,
                };
                self.add_stack(&stack);
            }
        }
    }

    fn add_stack(&mut self, stack: &Stack<'_>) {
        let states = self.states_of(stack);
        for (index, layer) in stack.build_up.layers.iter().enumerate() {
            let keys: Vec<LayerKey> = stack
                .faces
                .iter()
                .map(|face| key(stack.place_id, face, &layer.id))
                .collect();
            let id = self.add_layer(stack, layer, &keys, &states[index]);
            for key in keys {
                self.layer_task.insert(key, id);
            }
        }
    }

    /// The state of each layer on each face; a layer under one that is begun was done by then.
    fn states_of(&self, stack: &Stack<'_>) -> Vec<Vec<State>> {
        let mut states: Vec<Vec<State>> = stack
            .build_up
            .layers
            .iter()
            .map(|layer| {
                let of_face = |face: &&Id| {
                    self.site
                        .state(&Subject::Layer(key(stack.place_id, face, &layer.id)))
                };
                stack.faces.iter().map(of_face).collect()
            })
            .collect();
        for face in 0..stack.faces.len() {
            let mut over: Option<Seen> = None;
            for layer in states.iter_mut().rev() {
                let state = &mut layer[face];
                // What somebody found missing is missing, whatever is over it.
                if state.done.is_none() && state.undone.is_none() {
                    state.done = over;
                }
                over = earliest(state.started, state.done).or(over);
            }
        }
        states
    }

    fn add_layer(
        &mut self,
        stack: &Stack<'_>,
        layer: &Layer,
        keys: &[LayerKey],
        states: &[State],
    ) -> ActivityId {
        let limits = Limits::of(layer);
        let counted = self.counted_hours(stack.place_id, limits);
        let plain = self.calendar_of(Some(&layer.trade));
        let calendar = counted.map_or(plain, |hours| self.cut_to_air(plain, hours));
        let work = self.layer_work(stack, layer);
        let fact = self.layer_fact(states, work, plain);
        let node = self.ways.node(stack.place_id);
        let zone = self.zone_of(stack.place_id);
        let activity = Activity {
            work,
            calendar: Some(calendar),
            unbroken: layer.unbroken,
            uses: [self.crew(Some(&layer.trade)), self.room(stack.place_id)]
                .into_iter()
                .flatten()
                .collect(),
            at: node,
            tread: Tread::Boots,
            group: Some(stack.group),
            closes: node.map_or_else(Vec::new, |node| self.closures(stack, layer, node)),
            dusty: zone.filter(|_| layer.dusty),
            still: self.still_air(stack, layer),
            fact,
            fragile_cents: if layer.fragile { FRAGILE_CENTS } else { 0 },
        };
        let task = Task {
            key: keys[0].to_string(),
            work: Work::Layer(keys.to_vec()),
            place: Some(stack.place_id.clone()),
            face: stack.faces.first().map(|face| (*face).clone()),
            trade: Some(layer.trade.clone()),
            name: layer.name.clone(),
            where_: where_words(stack),
            material: Some(layer.material),
            state: TaskState::ToCome,
            share: share_done(states),
            limited_by_air: counted.is_some(),
            said: None,
        };
        self.add(activity, task, Some(plain))
    }

    fn layer_work(&self, stack: &Stack<'_>, layer: &Layer) -> Tick {
        if let Some(takes) = layer.takes {
            return self.work_ticks(takes, Some(&layer.trade)).max(1);
        }
        let set_up = layer
            .set_up
            .map_or(0, |span| self.work_ticks(span, Some(&layer.trade)));
        let minutes: u32 = layer.rate.map_or(0, |rate| {
            stack
                .faces
                .iter()
                .filter_map(|face| self.quantity(stack.place_id, face, rate.kind()))
                .filter_map(|quantity| rate.minutes_for(quantity))
                .fold(0, u32::saturating_add)
        });
        set_up
            .saturating_add(Tick::try_from(minutes.div_ceil(15)).unwrap_or(Tick::MAX / 8))
            .max(1)
    }

    fn quantity(&self, place: &Id, face: &Id, kind: QuantityKind) -> Option<Quantity> {
        match kind {
            QuantityKind::Area => self
                .job
                .face_area(place.as_str(), face.as_str())
                .map(Quantity::Area),
            QuantityKind::Length => self
                .job
                .face_length(place.as_str(), face.as_str())
                .map(Quantity::Length),
            QuantityKind::Count => Some(Quantity::Count(grounds_measure::Count::of(1))),
        }
    }

    fn layer_fact(
        &self,
        states: &[State],
        work: Tick,
        calendar: grounds_schedule::CalendarId,
    ) -> Fact {
        let done: Vec<Seen> = states.iter().filter_map(|state| state.done).collect();
        if done.len() == states.len() {
            let latest = states
                .iter()
                .filter_map(|state| state.done.map(|done| (done.at, state, done)))
                .max_by_key(|(at, _, _)| *at);
            return latest.map_or(Fact::Open, |(_, state, done)| {
                self.done_fact(state, done, work)
            });
        }
        let begun = states.iter().filter_map(|state| {
            let progress = state.progress.filter(|(share, _)| share.hundredths() > 0);
            earliest(state.started, state.done).or(progress.map(|(_, seen)| seen))
        });
        let Some(first) = begun.min_by_key(|seen| seen.at) else {
            return Fact::Open;
        };
        let told = states
            .iter()
            .flat_map(|state| [state.done, state.progress.map(|(_, seen)| seen)])
            .flatten()
            .max_by_key(|seen| seen.at)
            .unwrap_or(first);
        let share = f64::from(share_done(states)) / 100.0;
        self.begun_fact(self.seen(first), share, self.seen(told), work, calendar)
    }

    fn closures(&mut self, stack: &Stack<'_>, layer: &Layer, node: NodeId) -> Vec<Closure> {
        let Some(traffic) = layer.traffic else {
            return Vec::new();
        };
        let end = if traffic.open_while_working {
            End::Finish
        } else {
            End::Start
        };
        let from = Moment {
            end,
            after: 0,
            clock: On::Elapsed,
        };
        let waits = [
            (Tread::Light, traffic.socks),
            (Tread::Boots, traffic.boots),
            (Tread::Heavy, traffic.heavy),
        ];
        let mut closures: Vec<Closure> = Vec::new();
        for (bars, wait) in waits {
            let Some(wait) = wait else { continue };
            let (after, clock) = self.wait(wait, Some((stack.place_id, Waiting::of(layer))));
            let until = Moment {
                end: End::Finish,
                after,
                clock,
            };
            closures.push(Closure {
                node,
                from,
                until,
                bars,
            });
        }
        closures
    }

    fn still_air(&mut self, stack: &Stack<'_>, layer: &Layer) -> Vec<Still> {
        let (Some(still), Some(zone)) = (layer.still, self.zone_of(stack.place_id)) else {
            return Vec::new();
        };
        let (after, clock) = self.wait(still, Some((stack.place_id, Waiting::of(layer))));
        let from = Moment {
            end: End::Start,
            after: 0,
            clock: On::Elapsed,
        };
        vec![Still {
            zone,
            from,
            until: Moment {
                end: End::Finish,
                after,
                clock,
            },
        }]
    }

    /// Each layer waits for the one under it to dry, and follows within its recoat window.
    pub(super) fn link_stacks(&mut self) {
        let job = self.job;
        for (place_id, place) in &job.places {
            for (_, faces) in stacks(place) {
                let Some(design) = place
                    .faces
                    .get(faces[0])
                    .and_then(|face| job.build_up(face))
                else {
                    continue;
                };
                for pair in design.layers.windows(2) {
                    self.link_layers(place_id, faces[0], &pair[0], &pair[1]);
                }
            }
        }
    }

    fn link_layers(&mut self, place: &Id, face: &Id, under: &Layer, over: &Layer) {
        let (Some(&from), Some(&to)) = (
            self.layer_task.get(&key(place, face, &under.id)),
            self.layer_task.get(&key(place, face, &over.id)),
        ) else {
            return;
        };
        let wait = if under.material == over.material {
            under.recoat.or(under.cover)
        } else {
            under.cover.or(under.recoat)
        };
        let wait = wait.map_or((0, On::Elapsed), |span| {
            self.wait(span, Some((place, Waiting::of(under))))
        });
        self.after(from, to, wait, LagWhy::Under);
        if let Some(window) = under.latest_recoat {
            let air = Waiting::window_of(under).map(|waiting| (place, waiting));
            let (max, clock) = self.wait(window, air);
            let lag = Lag {
                from,
                from_end: End::Finish,
                to,
                to_end: End::Start,
                min: None,
                max: Some(max),
                clock,
            };
            self.lag(lag, LagWhy::Window);
        }
    }

    /// The wait after a layer before anything sits on it or relies on it.
    pub(super) fn cover_wait(&mut self, key: &LayerKey) -> (Tick, On) {
        let Some(layer) = self.job.layer(key) else {
            return (0, On::Elapsed);
        };
        let span = layer.cover.or(layer.recoat);
        span.map_or((0, On::Elapsed), |span| {
            self.wait(span, Some((&key.place, Waiting::of(layer))))
        })
    }

    /// The wait after a layer until it is fit for use.
    pub(super) fn cure_wait(&mut self, key: &LayerKey) -> (Tick, On) {
        let Some(layer) = self.job.layer(key) else {
            return (0, On::Elapsed);
        };
        match layer.cure {
            Some(span) => self.wait(span, Some((&key.place, Waiting::of(layer)))),
            None => self.cover_wait(key),
        }
    }
}

/// The faces of a place by build-up, in order; a face that is split stands alone.
pub(super) fn stacks(place: &Place) -> Vec<(&Id, Vec<&Id>)> {
    let mut together: BTreeMap<(&Id, Option<&Id>), Vec<&Id>> = BTreeMap::new();
    for (id, face) in &place.faces {
        together
            .entry((&face.build_up, face.split.then_some(id)))
            .or_default()
            .push(id);
    }
    together
        .into_iter()
        .map(|((build_up, _), faces)| (build_up, faces))
        .collect()
}

pub(super) fn key(place: &Id, face: &Id, layer: &Id) -> LayerKey {
    LayerKey {
        place: place.clone(),
        face: face.clone(),
        layer: layer.clone(),
    }
}

fn earliest(a: Option<Seen>, b: Option<Seen>) -> Option<Seen> {
    match (a, b) {
        (Some(a), Some(b)) => Some(if b.at < a.at { b } else { a }),
        (a, b) => a.or(b),
    }
}

/// Share of the faces' work that is done, in percent, each face counting the same.
#[allow(clippy::cast_possible_truncation)]
fn share_done(states: &[State]) -> u8 {
    let sum: u32 = states
        .iter()
        .map(|state| match state {
            State { done: Some(_), .. } => 10_000,
            State {
                progress: Some((share, _)),
                ..
            } => Percent::hundredths(*share).min(10_000),
            _ => 0,
        })
        .sum();
    (f64::from(sum) / 100.0 / states.len().max(1) as f64).min(100.0) as u8
}

fn where_words(stack: &Stack<'_>) -> String {
    words_of(stack.place, &stack.faces)
}

/// What faces of a place are called together: `Shower room floor and walls`.
pub(super) fn where_words_of(job: &Job, place: &Id, faces: &[&Id]) -> String {
    job.places
        .get(place)
        .map_or_else(String::new, |place| words_of(place, faces))
}

fn words_of(place: &Place, faces: &[&Id]) -> String {
    let mut words: Vec<String> = Vec::new();
    for face in faces.iter().filter_map(|id| place.faces.get(*id)) {
        let word = face
            .name
            .as_deref()
            .map_or_else(|| face_word(face.kind).to_owned(), lower_first);
        if !words.contains(&word) {
            words.push(word);
        }
    }
    format!("{} {}", place.name, words.join(" and "))
}

/// What a face of a kind is called.
pub(crate) fn face_word(kind: FaceKind) -> &'static str {
    match kind {
        FaceKind::Floor => "floor",
        FaceKind::Wall => "walls",
        FaceKind::Ceiling => "ceiling",
        FaceKind::Soffit => "soffit",
    }
}
