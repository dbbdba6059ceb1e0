//! What nobody knows that matters, ranked.

mod estimate;

use grounds_model::{Hold, HoldKind, Id, Job, Layer, LayerKey, Material, Piece, Ref, Target};
use grounds_schedule::{ActivityId, Tick};
use grounds_sequence::{Outlook, TaskState, Work, words::lower_first};
use grounds_site::{Look, Seen, Site, State, Subject, Unproven, unproven, words::capital};

pub use estimate::Estimate;

/// How much it matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Weight {
    /// A test or an inspection is unproven, or water, power or gas could be behind it.
    Heavy,
    /// Work hangs on it, or something that is worth finding is behind it.
    Some,
    /// Little: it stays what it is, seen or not.
    Little,
}

/// What somebody decided about an unknown.
#[derive(Clone, Debug, PartialEq)]
pub enum Decided {
    /// To look: how, and the work in the plan with its start.
    Look {
        /// How.
        how: Look,
        /// The work, where the plan has it.
        work: Option<ActivityId>,
        /// The note.
        seen: Seen,
    },
    /// To let it go: the note that says who and why.
    LetGo(Seen),
}

/// Something that nobody knows.
#[derive(Clone, Debug, PartialEq)]
pub struct Unknown {
    /// Its key, steady from day to day: the first thing that it is about.
    pub key: String,
    /// What notes about it are about.
    pub about: Vec<Ref>,
    /// Where.
    pub place: Id,
    /// What is asked, as a question: `Behind the wall tile in the bathroom: is the membrane in?`
    pub asks: String,
    /// What could be behind it and what hangs on it, a sentence each.
    pub because: Vec<String>,
    /// How much it matters.
    pub weight: Weight,
    /// The tests and checks of ours that would prove it and that nobody saw pass.
    pub tests: Vec<Id>,
    /// Ways to look that make sense, each with what it costs; the first opens it.
    pub ways: Vec<(Look, Estimate)>,
    /// What it costs if it is not there; nothing where that cannot be told.
    pub missing: Option<Estimate>,
    /// What will go over it next, and when that is planned: look before then.
    pub buried_by: Option<(ActivityId, Tick)>,
    /// What somebody decided about it.
    pub decided: Option<Decided>,
}

/// What nobody knows of a house, ranked: what weighs most first, of that what is buried soonest, of
/// that what would cost most days, then by key. What was decided on stands with the rest.
#[must_use]
pub fn unknowns(job: &Job, site: &Site, outlook: &Outlook) -> Vec<Unknown> {
    let asked = Asked {
        job,
        site,
        outlook,
        unproven: unproven(job, site),
    };
    let mut all = asked.layers();
    all.extend(asked.pieces());
    all.extend(asked.holds(&all));
    all.sort_by(|a, b| {
        let soon = |it: &Unknown| it.buried_by.map_or(Tick::MAX, |(_, at)| at);
        let days = |it: &Unknown| it.missing.as_ref().map_or(0, |missing| missing.days);
        (a.weight, soon(a), days(b), &a.key).cmp(&(b.weight, soon(b), days(a), &b.key))
    });
    all
}

struct Asked<'a> {
    job: &'a Job,
    site: &'a Site,
    outlook: &'a Outlook,
    unproven: Vec<Unproven>,
}

impl Asked<'_> {
    fn state(&self, key: &LayerKey) -> State {
        self.site.state(&Subject::Layer(key.clone()))
    }

    /// Layers that are presumed, and faces that nobody could look at; the same layer on faces that are
    /// worked on together is one.
    fn layers(&self) -> Vec<Unknown> {
        let mut found = Vec::new();
        for (place, design) in &self.job.places {
            let mut met: Vec<Id> = Vec::new();
            for face in design.faces.keys() {
                if met.contains(face) {
                    continue;
                }
                let together = self.job.worked_together(place, face);
                met.extend(together.iter().cloned());
                found.extend(self.unseen_faces(place, &together));
                let mut over: Option<(Material, bool)> = None;
                for layer in self.job.layers_of(place, face).iter().rev() {
                    let (unknown, next) = self.layer(&together, layer, over);
                    found.extend(unknown);
                    over = next;
                }
            }
        }
        found
    }

    /// The layer of that key on faces that are worked on together, if nobody saw it on any. Of coats of
    /// one material only the outermost is asked about: whoever sees it knows of the others.
    fn layer(
        &self,
        faces: &[Id],
        like: &LayerKey,
        over: Option<(Material, bool)>,
    ) -> (Option<Unknown>, Option<(Material, bool)>) {
        let Some(layer) = self.job.layer(like) else {
            return (None, over);
        };
        let keys: Vec<LayerKey> = faces
            .iter()
            .map(|face| LayerKey {
                face: face.clone(),
                ..like.clone()
            })
            .filter(|key| self.state(key).presumed.is_some())
            .collect();
        let is_on = self.state(like).done.is_some() || !keys.is_empty();
        let next = Some((layer.material, is_on));
        // Pipes under cables are no coats of one thing.
        let is_coat_under =
            layer.material != Material::Service && over == Some((layer.material, true));
        let Some(first) = keys.first().filter(|_| !is_coat_under) else {
            return (None, next);
        };
        (Some(self.presumed(layer, first, &keys)), next)
    }

    fn presumed(&self, layer: &Layer, first: &LayerKey, keys: &[LayerKey]) -> Unknown {
        let tests = self.tests_of(keys);
        let passed = self.passed_for(first);
        let (mut weight, mut because) = what_is_behind(layer);
        for hold in &tests {
            weight = Weight::Heavy;
            because.push(self.unproven_words(hold));
        }
        if let Some(hold) = passed {
            weight = Weight::Little;
            because.push(format!("{} has passed, which proves it.", hold.name));
        }
        let ways = Look::ALL.into_iter().filter(|how| match how {
            Look::Test => tests.iter().any(|id| self.is_test(id)),
            Look::Meter => matches!(
                layer.material,
                Material::Service | Material::Membrane | Material::Screed | Material::Metal
            ),
            Look::Opening | Look::Camera => true,
        });
        let ways = ways
            .map(|how| (how, estimate::of_look(self.job, self.site, first, how)))
            .collect();
        let again = estimate::of_doing_again(self.job, self.site, self.outlook, first);
        Unknown {
            key: first.to_string(),
            about: keys.iter().map(|key| Ref(key.to_string())).collect(),
            place: first.place.clone(),
            asks: self.layer_question(layer, first),
            because,
            weight,
            decided: self.decided(&Subject::Layer(first.clone()), &tests),
            tests,
            ways,
            missing: Some(again),
            buried_by: self.buried(first),
        }
    }

    fn layer_question(&self, layer: &Layer, key: &LayerKey) -> String {
        let place = grounds_site::name(self.job, &Subject::Place(key.place.clone()));
        let keys = self.job.layers_of(&key.place, &key.face);
        let outermost = keys
            .iter()
            .rev()
            .find(|key| self.state(key).done.is_some() && self.state(key).presumed.is_none());
        let over = outermost.and_then(|key| self.job.layer(key));
        match over {
            Some(over) => format!(
                "Behind the {} in {place}: is there “{}”?",
                lower_first(&over.name),
                lower_first(&layer.name)
            ),
            None => format!("In {place}: is there “{}”?", lower_first(&layer.name)),
        }
    }

    /// Faces worked on together that nobody could look at.
    fn unseen_faces(&self, place: &Id, faces: &[Id]) -> Option<Unknown> {
        let unseen: Vec<&Id> = faces
            .iter()
            .filter(|face| {
                let keys = self.job.layers_of(place, face);
                let first = keys.first().map(|key| self.state(key));
                first.is_some_and(|state| state.unseen.is_some())
            })
            .collect();
        let face = *unseen.first()?;
        let keys = self.job.layers_of(place, face);
        let first = keys.first()?.clone();
        let layers: Vec<&Layer> = keys.iter().filter_map(|key| self.job.layer(key)).collect();
        let heavy = layers
            .iter()
            .find(|layer| what_is_behind(layer).0 == Weight::Heavy);
        let mut because = vec![
            "Nobody could tell how far it has got; the plan takes it that nothing is there, and has all its work to come."
                .to_owned(),
        ];
        because.extend(
            heavy.map(|layer| format!("It should have “{}” in it.", lower_first(&layer.name))),
        );
        let ways = [Look::Camera, Look::Opening]
            .map(|how| (how, estimate::of_look(self.job, self.site, &first, how)));
        let name = crate::mark::face_words(self.job, place, face);
        Some(Unknown {
            key: format!("{place}.{face}"),
            about: unseen
                .iter()
                .map(|face| Ref(format!("{place}.{face}")))
                .collect(),
            place: place.clone(),
            asks: format!("How far have the {name} got?")
                .replace("have the ceiling", "has the ceiling")
                .replace("have the floor", "has the floor"),
            because,
            weight: if heavy.is_some() {
                Weight::Heavy
            } else {
                Weight::Some
            },
            tests: Vec::new(),
            ways: ways.into(),
            missing: None,
            buried_by: self.buried(&first).or_else(|| self.start_of(&first)),
            decided: self.decided(&Subject::Layer(first), &[]),
        })
    }

    /// Pieces that are taken to be in behind what covers them.
    fn pieces(&self) -> Vec<Unknown> {
        let presumed = self.job.pieces.iter().filter(|(id, _)| {
            let state = self.site.state(&Subject::Piece((*id).clone()));
            state.presumed.is_some()
        });
        presumed.map(|(id, piece)| self.piece(id, piece)).collect()
    }

    fn piece(&self, id: &Id, piece: &Piece) -> Unknown {
        let place = grounds_site::name(self.job, &Subject::Place(piece.place.clone()));
        let mut because = vec![format!(
            "It is covered, and nobody saw it go in: whether it is there, where, and at what depth."
        )];
        if piece.serviced {
            because.push("It must be reached for service one day.".to_owned());
        }
        let weight = match piece.material {
            _ if piece.serviced => Weight::Heavy,
            Some(Material::Service | Material::Membrane) => Weight::Heavy,
            _ => Weight::Some,
        };
        let cover = piece
            .before
            .iter()
            .find_map(|about| match self.job.resolve(about)? {
                Target::Layer(key) => Some(key),
                _ => None,
            });
        let ways = [Look::Opening, Look::Camera, Look::Meter]
            .map(|how| (how, estimate::of_piece_look(self.job, self.site, id, how)));
        Unknown {
            key: id.to_string(),
            about: vec![Ref::from(id.as_str())],
            place: piece.place.clone(),
            asks: format!("Is the {} in, in {place}?", lower_first(&piece.name)),
            because,
            weight,
            tests: Vec::new(),
            ways: ways.into(),
            missing: cover
                .as_ref()
                .map(|key| estimate::of_doing_again(self.job, self.site, self.outlook, key)),
            buried_by: cover.and_then(|key| self.buried(&key)),
            decided: self.decided(&Subject::Piece(id.clone()), &[]),
        }
    }

    /// Holds without a pass that no layer or piece is asked about for.
    fn holds(&self, others: &[Unknown]) -> Vec<Unknown> {
        let is_with = |id: &Id| others.iter().any(|other| other.tests.contains(id));
        let left = self.unproven.iter().filter(|it| !is_with(&it.hold));
        left.filter_map(|it| self.hold(it)).collect()
    }

    fn hold(&self, it: &Unproven) -> Option<Unknown> {
        let hold = self.job.holds.get(&it.hold)?;
        let covered = it.covered_by.first().or(it.guards.first());
        let mut because = vec![self.unproven_words(&it.hold)];
        if hold.kind == HoldKind::Authority {
            because.push(
                "An authority asks for it: only the inspector can say what will do now. Ask who was there last; the office may have the record."
                    .to_owned(),
            );
        }
        let test = (Look::Test, Estimate::default());
        Some(Unknown {
            key: it.hold.to_string(),
            about: vec![Ref::from(it.hold.as_str())],
            place: hold.place.clone(),
            asks: format!(
                "{}, in {}: did it ever pass?",
                hold.name,
                grounds_site::name(self.job, &Subject::Place(hold.place.clone()))
            ),
            because,
            weight: match hold.kind {
                HoldKind::Authority | HoldKind::Test => Weight::Heavy,
                HoldKind::OwnCheck => Weight::Some,
            },
            tests: vec![it.hold.clone()],
            ways: vec![test],
            missing: None,
            buried_by: match covered {
                Some(Subject::Layer(key)) => self.buried(key),
                _ => None,
            },
            decided: self.decided(&Subject::Hold(it.hold.clone()), &[]),
        })
    }

    /// The holds that look at a layer and that nobody saw pass.
    fn tests_of(&self, keys: &[LayerKey]) -> Vec<Id> {
        let guards = |it: &&Unproven| {
            let is_one = |subject: &Subject| match subject {
                Subject::Layer(key) => keys.contains(key),
                _ => false,
            };
            it.guards.iter().any(is_one)
        };
        let holds = self.unproven.iter().filter(guards);
        holds.map(|it| it.hold.clone()).collect()
    }

    /// A hold that looks at a layer and has passed.
    fn passed_for(&self, key: &LayerKey) -> Option<&Hold> {
        let looks = |(id, hold): &(&Id, &Hold)| {
            let at = hold
                .after
                .iter()
                .any(|about| match self.job.resolve(about) {
                    Some(Target::Layer(other)) => other == *key,
                    Some(Target::Face { place, face }) => place == key.place && face == key.face,
                    _ => false,
                });
            let passed = self.site.state(&Subject::Hold((*id).clone())).done;
            at && passed.is_some()
        };
        self.job.holds.iter().find(looks).map(|(_, hold)| hold)
    }

    fn is_test(&self, id: &Id) -> bool {
        let hold = self.job.holds.get(id);
        hold.is_some_and(|hold| hold.kind == HoldKind::Test)
    }

    fn unproven_words(&self, id: &Id) -> String {
        let Some(hold) = self.job.holds.get(id) else {
            return String::new();
        };
        let rule = hold.rule.as_ref().map_or_else(String::new, |rule| {
            format!(" ({})", grounds_site::words::plain(rule))
        });
        format!(
            "{}{rule}: nobody saw it pass, so it is unproven.",
            capital(&hold.name)
        )
    }

    /// What will go over a layer next, and when.
    fn buried(&self, key: &LayerKey) -> Option<(ActivityId, Tick)> {
        let keys = self.job.layers_of(&key.place, &key.face);
        let at = keys.iter().position(|other| other == key)?;
        keys.iter().skip(at + 1).find_map(|key| self.start_of(key))
    }

    /// The work of a layer and its start, if it is still to come.
    fn start_of(&self, key: &LayerKey) -> Option<(ActivityId, Tick)> {
        let network = &self.outlook.network;
        let has_it = |work: &Work| matches!(work, Work::Layer(keys) if keys.contains(key));
        let at = network.tasks.iter().position(|task| has_it(&task.work))?;
        let is_to_come = network.tasks[at].state == TaskState::ToCome;
        is_to_come.then(|| (ActivityId::from(at), self.outlook.plan.starts[at]))
    }

    fn decided(&self, subject: &Subject, tests: &[Id]) -> Option<Decided> {
        let holds = tests.iter().cloned().map(Subject::Hold);
        let mut subjects = std::iter::once(subject.clone()).chain(holds);
        subjects.find_map(|subject| {
            let state = self.site.state(&subject);
            let work = || {
                let network = &self.outlook.network;
                let key = match &subject {
                    Subject::Hold(id) => id.to_string(),
                    other => format!("{other}:look"),
                };
                network.find(&key)
            };
            let look = state.look.map(|(how, seen)| Decided::Look {
                how,
                work: work(),
                seen,
            });
            look.or(state.let_go.map(Decided::LetGo))
        })
    }
}

/// How much it matters that nobody saw a layer, by what it is, and why. Common practice.
fn what_is_behind(layer: &Layer) -> (Weight, Vec<String>) {
    let said = |weight, words: &str| (weight, vec![words.to_owned()]);
    match layer.material {
        Material::Membrane => said(
            Weight::Heavy,
            "If it is missing, water gets behind the finish; its maker's warranty rests on it.",
        ),
        Material::Service => said(
            Weight::Heavy,
            "Pipes, cables or ducts run in it: where they run, and whether they were tested, nobody saw.",
        ),
        Material::Insulation => said(
            Weight::Some,
            "If it is missing, nobody finds out before the first winter.",
        ),
        Material::Metal => said(Weight::Some, "What is fixed over it may hang on it."),
        _ => (Weight::Little, Vec::new()),
    }
}
