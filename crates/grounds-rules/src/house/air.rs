//! Hoods, fans, dryers, grilles and doors.

use grounds_model::PieceKind;

use super::{House, length};
use crate::{
    given::Given,
    rules::air::{
        bath_exhaust, door_undercut, dryer_duct, duct_pressure, duct_speed, grille, hood_capacity,
        make_up_air, make_up_air_heat, make_up_air_opening,
    },
};

pub(super) fn apply(house: &mut House<'_>) {
    for (key, piece) in &house.job.pieces {
        let mut given = Given::new();
        match piece.kind {
            Some(PieceKind::Hood) => {
                if let Some(size) = piece.size {
                    given.set(
                        &hood_capacity::WIDTH,
                        length(size.first()),
                        "the size of the hood",
                    );
                }
                let duct_use = &duct_speed::USE;
                given.set_word(duct_use, "hood", "a hood");
                for rule in [
                    &hood_capacity::RULE,
                    &make_up_air::RULE,
                    &duct_speed::RULE,
                    &duct_pressure::RULE,
                ] {
                    house.piece(rule, key, piece, given.clone());
                }
                let brought_in = piece.figures.contains_key(make_up_air::SUPPLY.spec.name);
                if brought_in {
                    house.piece(&make_up_air_opening::RULE, key, piece, given.clone());
                    house.piece(&make_up_air_heat::RULE, key, piece, given);
                }
            }
            Some(PieceKind::Fan) => {
                for rule in [&bath_exhaust::RULE, &duct_pressure::RULE] {
                    house.piece(rule, key, piece, given.clone());
                }
            }
            Some(PieceKind::Dryer) => house.piece(&dryer_duct::RULE, key, piece, given),
            Some(PieceKind::Grille) => house.piece(&grille::RULE, key, piece, given),
            Some(PieceKind::Door) => {
                if let Some(size) = piece.size {
                    given.set(
                        &door_undercut::WIDTH,
                        length(size.first()),
                        "the size of the door",
                    );
                }
                // Few doors are drawn with their gap; those that are, or carry air, are checked.
                let drawn = [&door_undercut::UNDERCUT, &door_undercut::WIDTH]
                    .iter()
                    .any(|input| piece.figures.contains_key(input.spec.name));
                if drawn || piece.figures.contains_key(door_undercut::RETURN.spec.name) {
                    house.piece(&door_undercut::RULE, key, piece, given);
                }
            }
            _ => {}
        }
    }
}
