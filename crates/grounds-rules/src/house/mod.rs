//! Rules over a house: what of it each rule speaks of, with the figures that job and site know.
//!
//! A rule applies to a thing because of what the thing is: a stair with its flight, a pane of glass, a
//! timber floor, a hood. What the document already says goes in by itself (a riser, a thickness, a
//! weight, the air); what it does not say is looked up in the `figures` of the thing, then of its
//! face, its place and the whole house. A reading noted on site under the name of a figure beats what
//! was drawn. Rules of single tasks (a ladder, a nail plate) apply where one of their figures is
//! written down.

mod air;
mod by_figure;
mod climate;
mod coats;
mod cover;
mod electric;
mod glass;
mod heating;
mod names;
mod readings;
mod stairs;
mod terraces;
mod tile_and_stone;
mod timber;
mod told;
mod wet_rooms;

use grounds_measure::Units;
use grounds_model::{
    Face, Figures, Id, Job, Layer, LayerKey, Material, Piece, Place, Target, Work,
};
use grounds_site::{Site, Subject};

use crate::{answer::Answer, code::Code, given::Given, quantity, rule::Rule};
use readings::Readings;

pub use told::{Figured, Told};

/// A rule applied to a thing of the house.
#[derive(Clone, Debug)]
pub struct Applied {
    /// The rule.
    pub rule: &'static Rule,
    /// What it is applied to: a place, a face, a layer, a piece, an opening or a hold.
    pub about: Target,
    /// The place it is in; nothing for the whole house.
    pub place: Option<Id>,
    /// What it is applied to, as people call it: `the stair glass`.
    pub called: String,
    /// What it comes to.
    pub answer: Answer,
    /// What should not go on, if it fails: the piece that is not set yet, the layer that would cover
    /// it. Nothing where all of it is done.
    pub holds: Vec<Work>,
}

/// Every rule that speaks of something in the house, by place and family. `told` is what its plan and
/// its fits say; nothing of it is needed.
#[must_use]
pub fn check(job: &Job, site: &Site, told: &Told) -> Vec<Applied> {
    let mut house = House::new(job, site, told);
    air::apply(&mut house);
    stairs::apply(&mut house);
    glass::apply(&mut house);
    timber::apply(&mut house);
    tile_and_stone::apply(&mut house);
    wet_rooms::apply(&mut house);
    heating::apply(&mut house);
    terraces::apply(&mut house);
    electric::apply(&mut house);
    cover::apply(&mut house);
    coats::apply(&mut house);
    by_figure::apply(&mut house);
    let mut applied = house.applied;
    applied.sort_by(|a, b| {
        (&a.place, a.rule.family, &a.about).cmp(&(&b.place, b.rule.family, &b.about))
    });
    applied
}

/// The code that a job goes by, with what is changed in it for the job.
#[must_use]
pub fn code_of(job: &Job) -> Code {
    let named = job.rules.as_ref().and_then(|rules| rules.code.as_ref());
    let code = named
        .and_then(|name| Code::named(name.as_str()))
        .unwrap_or_else(|| Code::usual(job.job.units));
    let changes = job.rules.iter().flat_map(|rules| &rules.changed);
    changes.fold(code.clone(), |code, (key, change)| {
        code.changed(key.as_str(), change.is.as_str(), change.why.clone())
    })
}

/// A house whose rules are being evaluated.
struct House<'a> {
    job: &'a Job,
    site: &'a Site,
    code: Code,
    units: Units,
    readings: Readings<'a>,
    told: &'a Told,
    applied: Vec<Applied>,
}

/// Where figures are looked up for a thing, the nearest first, each with what it is called.
type Scopes<'a> = Vec<(&'a Figures, String)>;

impl<'a> House<'a> {
    fn new(job: &'a Job, site: &'a Site, told: &'a Told) -> Self {
        Self {
            job,
            site,
            code: code_of(job),
            units: job.job.units,
            readings: Readings::of(site),
            told,
            applied: Vec::new(),
        }
    }

    /// Applies a rule to a piece, with what is known of it.
    fn piece(&mut self, rule: &'static Rule, key: &'a Id, piece: &'a Piece, given: Given) {
        let target = Target::Piece(key.clone());
        let holds = self.unless_done(Work::Piece(key.clone()));
        self.apply(rule, target, Some(&piece.place), given, holds);
    }

    /// Applies a rule to a face, holding a layer that would cover what is wrong.
    fn face(
        &mut self,
        rule: &'static Rule,
        place: &'a Id,
        face: &'a Id,
        given: Given,
        holds: Option<LayerKey>,
    ) {
        let target = Target::Face {
            place: place.clone(),
            face: face.clone(),
        };
        let holds = holds
            .map(Work::Layer)
            .map_or(Vec::new(), |work| self.unless_done(work));
        self.apply(rule, target, Some(place), given, holds);
    }

    /// Applies a rule to a place.
    fn place(&mut self, rule: &'static Rule, place: &'a Id, given: Given) {
        self.apply(
            rule,
            Target::Place(place.clone()),
            Some(place),
            given,
            Vec::new(),
        );
    }

    fn apply(
        &mut self,
        rule: &'static Rule,
        about: Target,
        place: Option<&Id>,
        mut given: Given,
        holds: Vec<Work>,
    ) {
        self.fill(rule, &about, &mut given);
        let answer = rule.check(&given, &self.code, self.units);
        self.applied.push(Applied {
            rule,
            called: names::called(self.job, &about),
            about,
            place: place.cloned(),
            answer,
            holds,
        });
    }

    /// Puts in what figures and readings say of a thing. Its own figures beat what the document says
    /// elsewhere, those of face, place and house only fill what is open; readings beat all.
    fn fill(&self, rule: &'static Rule, about: &Target, given: &mut Given) {
        let scopes = self.scopes(about);
        for spec in rule.inputs {
            for (nearness, (figures, called)) in scopes.iter().enumerate() {
                if nearness > 0 && given.has(spec.name) {
                    break;
                }
                if let Some(figure) = figures.get(spec.name)
                    && given
                        .put(rule, spec.name, figure.as_str(), called.clone())
                        .is_ok()
                {
                    break;
                }
            }
            if let Some(told) = self.told.figure(about, spec)
                && !given.has(spec.name)
            {
                given.set_base(spec, told.base, told.from.clone());
            }
            if let Some(reading) = self.readings.latest(about, spec.name) {
                // A reading in words that mean nothing to the rule is a remark, not a figure.
                let _ = given.put(rule, spec.name, &reading.figure, reading.from.clone());
            }
        }
    }

    fn scopes(&self, about: &Target) -> Scopes<'a> {
        let mut scopes = Vec::new();
        let (place, face) = match about {
            Target::Piece(key) => {
                let piece = self.job.pieces.get(key);
                if let Some(piece) = piece {
                    scopes.push((&piece.figures, "figures of the piece".to_owned()));
                }
                (
                    piece.map(|piece| &piece.place),
                    piece.and_then(|piece| piece.face.as_ref()),
                )
            }
            Target::Face { place, face } => (Some(place), Some(face)),
            Target::Layer(layer) => (Some(&layer.place), Some(&layer.face)),
            Target::Opening(key) => {
                let opening = self.job.openings.get(key);
                let piece = opening.and_then(|opening| opening.piece.as_ref());
                if let Some(piece) = piece.and_then(|piece| self.job.pieces.get(piece)) {
                    scopes.push((&piece.figures, "figures of the piece".to_owned()));
                }
                (
                    opening.map(|opening| &opening.place),
                    opening.and_then(|opening| opening.face.as_ref()),
                )
            }
            Target::Hold(key) => (self.job.holds.get(key).map(|hold| &hold.place), None),
            Target::Place(place) => (Some(place), None),
            _ => (None, None),
        };
        if let Some(place) = place.and_then(|place| self.job.places.get(place)) {
            if let Some(face) = face.and_then(|face| place.faces.get(face)) {
                scopes.push((&face.figures, "figures of the face".to_owned()));
            }
            scopes.push((
                &place.figures,
                format!("figures of {}", names::with_article(&place.name)),
            ));
        }
        if let Some(rules) = &self.job.rules {
            scopes.push((&rules.figures, "figures of the whole house".to_owned()));
        }
        scopes
    }

    /// A piece of work in a list, unless it is done.
    fn unless_done(&self, work: Work) -> Vec<Work> {
        if self.done(&work) {
            Vec::new()
        } else {
            vec![work]
        }
    }

    /// Whether a piece of work is done.
    fn done(&self, work: &Work) -> bool {
        let subject = match work {
            Work::Layer(key) => Subject::Layer(key.clone()),
            Work::Piece(id) => Subject::Piece(id.clone()),
            Work::Hold(id) => Subject::Hold(id.clone()),
            Work::Decision(id) => Subject::Decision(id.clone()),
            Work::Milestone(id) => Subject::Milestone(id.clone()),
        };
        self.site
            .states
            .get(&subject)
            .is_some_and(|state| state.done.is_some())
    }

    /// Every face of the house with its place and its layers, structure side first.
    fn faces(&self) -> Vec<Stack<'a>> {
        let places = self.job.places.iter();
        places
            .flat_map(|(place_key, place)| {
                place.faces.iter().filter_map(move |(face_key, face)| {
                    let layers = &self.job.build_up(face)?.layers;
                    Some(Stack {
                        place_key,
                        place,
                        face_key,
                        face,
                        layers,
                    })
                })
            })
            .collect()
    }
}

/// A face with its layers.
#[derive(Clone, Copy)]
struct Stack<'a> {
    place_key: &'a Id,
    place: &'a Place,
    face_key: &'a Id,
    face: &'a Face,
    layers: &'a [Layer],
}

impl<'a> Stack<'a> {
    /// The first layer of a material that has a thickness.
    fn thick(&self, material: Material) -> Option<&'a Layer> {
        self.layers
            .iter()
            .find(|layer| layer.material == material && layer.thickness.is_some())
    }

    /// Whether it has a layer of a material.
    fn has(&self, material: Material) -> bool {
        self.layers.iter().any(|layer| layer.material == material)
    }

    /// The key of one of its layers.
    fn key(&self, layer: &Layer) -> LayerKey {
        LayerKey {
            place: self.place_key.clone(),
            face: self.face_key.clone(),
            layer: layer.id.clone(),
        }
    }

    /// The layer after one of its layers.
    fn after(&self, layer: &Layer) -> Option<&'a Layer> {
        let at = self.layers.iter().position(|other| other.id == layer.id)?;
        self.layers.get(at + 1)
    }
}

/// A length of the document as a quantity.
fn length(length: grounds_measure::Length) -> quantity::Length {
    quantity::Quantity::of_base(length.metres())
}

/// A weight of the document as a quantity.
fn mass(weight: grounds_measure::Weight) -> quantity::Mass {
    quantity::Quantity::of_base(weight.kg())
}

/// A number of the document as a quantity.
fn count(count: u32) -> quantity::Number {
    quantity::Number(f64::from(count))
}
