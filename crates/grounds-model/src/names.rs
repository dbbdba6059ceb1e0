//! What things are called on site.

use crate::{id::LayerKey, job::Job, view::Target};

/// A thing with the names that people call it by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Named<'j> {
    /// The thing.
    pub target: Target,
    /// What everyone calls it.
    pub name: &'j str,
    /// Other names it goes by on site.
    pub aliases: &'j [String],
}

impl Job {
    /// Everything that has a name, by kind and key: places, passages, faces and layers, pieces,
    /// openings, holds, decisions, milestones, trades, control lines and lines by hand.
    #[must_use]
    pub fn names(&self) -> Vec<Named<'_>> {
        const NONE: &[String] = &[];
        let mut names = Vec::new();
        for (id, place) in &self.places {
            names.push(named(
                Target::Place(id.clone()),
                &place.name,
                &place.aliases,
            ));
            for (key, face) in &place.faces {
                let target = Target::Face {
                    place: id.clone(),
                    face: key.clone(),
                };
                let name = face.name.as_deref().unwrap_or(key.as_str());
                names.push(named(target, name, NONE));
                let layers = self
                    .build_up(face)
                    .map_or(&[][..], |build_up| build_up.layers.as_slice());
                for layer in layers {
                    let key = LayerKey {
                        place: id.clone(),
                        face: key.clone(),
                        layer: layer.id.clone(),
                    };
                    names.push(named(Target::Layer(key), &layer.name, NONE));
                }
            }
        }
        for (id, passage) in &self.passages {
            let name = passage.name.as_deref().unwrap_or(id.as_str());
            names.push(named(Target::Passage(id.clone()), name, NONE));
        }
        let pieces = self.pieces.iter();
        names
            .extend(pieces.map(|(id, it)| named(Target::Piece(id.clone()), &it.name, &it.aliases)));
        let openings = self.openings.iter();
        names.extend(openings.map(|(id, it)| named(Target::Opening(id.clone()), &it.name, NONE)));
        let holds = self.holds.iter();
        names.extend(holds.map(|(id, it)| named(Target::Hold(id.clone()), &it.name, NONE)));
        let decisions = self.decisions.iter();
        names.extend(decisions.map(|(id, it)| named(Target::Decision(id.clone()), &it.name, NONE)));
        let milestones = self.milestones.iter();
        names.extend(
            milestones.map(|(id, it)| named(Target::Milestone(id.clone()), &it.name, NONE)),
        );
        let trades = self.trades.iter();
        names
            .extend(trades.map(|(id, it)| named(Target::Trade(id.clone()), &it.name, &it.aliases)));
        let controls = self.controls.iter();
        names.extend(controls.map(|(id, it)| named(Target::Control(id.clone()), &it.name, NONE)));
        let lines = self.lines.iter();
        names.extend(lines.map(|(id, it)| named(Target::Line(id.clone()), &it.name, NONE)));
        names
    }
}

fn named<'j>(target: Target, name: &'j str, aliases: &'j [String]) -> Named<'j> {
    Named {
        target,
        name,
        aliases,
    }
}
