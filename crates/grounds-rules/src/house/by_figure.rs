//! Rules of single tasks: they apply to whatever has one of their figures of its own.

use grounds_model::{Figures, Target, Work};

use super::House;
use crate::{
    given::Given,
    rule::Rule,
    rules::{
        coats::{dew_point, joint_compound},
        cover::nail_plate,
        safety::{ladder, scaffold, stone_dust},
        tile_and_stone::{lippage, tile_joint, wall_flatness},
        timber::strip_movement,
    },
};

/// Each rule with the figure that calls for it.
static CALLED_FOR: [(&Rule, &str); 9] = [
    (&strip_movement::RULE, strip_movement::LENGTH.spec.name),
    (&wall_flatness::RULE, wall_flatness::GRADE.spec.name),
    (&tile_joint::RULE, tile_joint::VARIES.spec.name),
    (&lippage::RULE, lippage::LIPPAGE.spec.name),
    (&nail_plate::RULE, nail_plate::BEHIND.spec.name),
    (&dew_point::RULE, dew_point::SURFACE.spec.name),
    (&scaffold::RULE, scaffold::PLATFORM.spec.name),
    (&ladder::RULE, ladder::UP.spec.name),
    (&stone_dust::RULE, stone_dust::TASK.spec.name),
];

pub(super) fn apply(house: &mut House<'_>) {
    let job = house.job;
    for (rule, figure) in &CALLED_FOR {
        let has = |figures: &Figures| figures.contains_key(*figure);
        for (key, place) in &job.places {
            if has(&place.figures) {
                let mut given = Given::new();
                super::climate::put_air(house, key, &mut given);
                house.place(rule, key, given);
            }
            for (face_key, face) in &place.faces {
                if has(&face.figures) {
                    house.face(rule, key, face_key, Given::new(), None);
                }
            }
        }
        for (key, piece) in &job.pieces {
            if has(&piece.figures) {
                house.piece(rule, key, piece, Given::new());
            }
        }
        if job.rules.as_ref().is_some_and(|rules| has(&rules.figures)) {
            house.apply(rule, Target::Job, None, Given::new(), Vec::new());
        }
    }
    compound(house);
}

/// Joint compound that dries, where the air is known.
fn compound(house: &mut House<'_>) {
    for stack in house.faces() {
        let coats = stack
            .layers
            .iter()
            .filter(|layer| layer.id.as_str() == "tape");
        for layer in coats {
            let key = stack.key(layer);
            let next = stack.after(layer).map(|next| stack.key(next));
            let open = next
                .clone()
                .is_some_and(|next| !house.done(&Work::Layer(next)));
            if !(house.done(&Work::Layer(key.clone())) && open && layer.recoat.is_some()) {
                continue;
            }
            let mut given = Given::new();
            super::climate::put_air(house, stack.place_key, &mut given);
            if given.has("air-temperature") && given.has("air-humidity") {
                let state = house.site.state(&grounds_site::Subject::Layer(key));
                if let Some(done) = state.done {
                    let waited = house.site.at.duration_since(done.at).as_secs_f64();
                    let waited = crate::quantity::Quantity::of_base(waited);
                    given.set(
                        &crate::rules::coats::recoat::WAITED,
                        waited,
                        "since it was taped",
                    );
                }
                house.face(
                    &joint_compound::RULE,
                    stack.place_key,
                    stack.face_key,
                    given,
                    next,
                );
            }
        }
    }
}
