//! How warm a heated floor gets for the heat it must give.

use crate::rules::prelude::*;

pub(crate) const GIVES: Input<HeatFlux> = asked(
    "floor-output",
    "the heat that the floor must give",
    Who::Services,
)
.between("1 W/m2", "400 W/m2");
pub(crate) const ROOM: Input<Temperature> = asked(
    "room-temperature",
    "the usual temperature of the room",
    Who::Designer,
)
.between("5 C", "35 C")
.guessed("20 C", "18 C", "22 C", "Living rooms");
pub(crate) const FINISH: Input<Word> = word(
    "floor-finish",
    "what the floor is finished with",
    &["tile", "stone", "timber", "carpet", "sheet"],
    Who::Drawings,
);
const MOST: Input<Temperature> = limit(
    "floor-surface-most",
    "the warmest that a floor may get where people stay",
)
.or("29 C", "EN 1264-2", Published);
const TIMBER: Input<Temperature> = limit("timber-surface-most", "the warmest that timber may get")
    .or("27 C", "Makers of timber floors", Practice);

pub(crate) static RULE: Rule = Rule {
    name: "floor-warmth",
    title: "Warmth of a heated floor",
    family: Family::Heating,
    question: "Can the floor give its heat without getting too warm for feet or for its finish?",
    inputs: &[GIVES.spec, ROOM.spec, FINISH.spec, MOST.spec, TIMBER.spec],
    formula: &["q = 8.92 (t_floor − t_room)^1.1 W/m²"],
    sources: &[
        published("EN 1264-2, basic characteristic curve; 29 °C where people stay"),
        practice("27 °C for timber"),
    ],
    caution: cautions::HEATING,
    way_out: "Less heat from the floor and some from elsewhere, better insulation, another finish.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (gives, room) = (w.take(&GIVES)?, w.take(&ROOM)?);
    let over = Difference::of_base((gives.base() / 8.92).powf(1.0 / 1.1));
    let over = w.step(
        "Warmer than the room by",
        &[&"(", &gives, &"/ 8.92)^(1/1.1)"],
        over,
    );
    let surface = w.step("Surface", &[&room, &"+", &over], room + over);
    let most = match w.word(&FINISH)? {
        "timber" => w.take(&TIMBER)?,
        _ => w.take(&MOST)?,
    };
    w.at_most("the surface", surface, most);
    Ok(())
}
