//! Whether boards have come to the moisture of the room they will live in.

use grounds_fit::wood::moisture_in_celsius;

use crate::rules::{prelude::*, timber::timber_moisture::BOARD};

const LIVING_TEMPERATURE: Input<Temperature> = asked(
    "room-temperature",
    "the usual temperature of the room",
    Who::Designer,
)
.between("5 C", "35 C")
.guessed("20 C", "18 C", "22 C", "Living rooms");
const LIVING: Input<Ratio> = asked(
    "living-humidity",
    "the humidity that the house will live at",
    Who::Designer,
)
.between("10 %", "90 %")
.guessed("45 %", "35 %", "55 %", "NWFA: 30 to 50 %, makers to 55 %");
const APART: Input<Ratio> = limit(
    "acclimated-within",
    "how near boards must come to the moisture of the room",
)
.or("2 %", "As plank and subfloor are held", Practice);

pub(crate) static RULE: Rule = Rule {
    name: "timber-acclimation",
    title: "Acclimation of boards",
    family: Family::Timber,
    question: "Have the boards come to the moisture that the lived-in room will bring them to?",
    inputs: &[BOARD.spec, LIVING_TEMPERATURE.spec, LIVING.spec, APART.spec],
    formula: &[
        "M = moisture in equilibrium with the room (Hailwood–Horrobin)",
        "|boards − M| ≤ 2 %",
    ],
    sources: &[
        published("USDA Wood Handbook (2010) equation 4-5"),
        published("NWFA installation guidelines: acclimated by moisture, not by a count of days"),
    ],
    caution: cautions::TIMBER,
    way_out: "Leave the boards in the heated room, stacked with air between, and read them again.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (warm, damp) = (w.take(&LIVING_TEMPERATURE)?, w.take(&LIVING)?);
    let comes_to = Ratio::of_base(moisture_in_celsius(celsius(warm), damp.base() * 100.0) / 100.0);
    let comes_to = w.step(
        "Moisture that the room brings wood to",
        &[&"in air of", &warm, &"and", &damp],
        comes_to,
    );
    let board = w.take(&BOARD)?;
    let apart = Ratio::of_base((board - comes_to).base().abs());
    let apart = w.step("Still to go", &[&board, &"and", &comes_to], apart);
    let most = w.take(&APART)?;
    w.at_most("what the boards have still to go", apart, most);
    Ok(())
}
