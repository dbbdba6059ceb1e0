//! How far a flight may rise before it rests, and how many risers make it.

use crate::rules::{prelude::*, stairs::riser_and_going::RISER};

pub(crate) const RISERS: Input<Number> =
    asked("risers", "how many risers the flight has", Who::Drawings).between("1", "60");
const RISE_MOST: Input<Length> = limit("flight-rise-most", "the most that one flight may rise");
const RISERS_MOST: Input<Number> = limit("flight-risers-most", "the most risers in one flight");

pub(crate) static RULE: Rule = Rule {
    name: "flight",
    title: "Rise of a flight",
    family: Family::Stairs,
    question: "Is the flight short enough before it comes to a landing?",
    inputs: &[RISERS.spec, RISER.spec, RISE_MOST.spec, RISERS_MOST.spec],
    formula: &["rise = risers × riser"],
    sources: &[
        memory("IRC 2021 R311.7.3: 151 in; IBC 2021 1011.8: 12 ft"),
        memory(
            "Approved Document K (England, 2013) 1.17: no more than 36 risers in line without a turn",
        ),
    ],
    caution: cautions::STAIRS,
    way_out: "A landing between.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (risers, riser) = (w.take(&RISERS)?, w.take(&RISER)?);
    let rise = w.step(
        "Rise of the flight",
        &[&risers, &"×", &riser],
        riser * risers.0,
    );
    if let Some(most) = w.known(&RISE_MOST) {
        w.at_most("the rise of the flight", rise, most);
    }
    if let Some(most) = w.known(&RISERS_MOST) {
        w.at_most("the number of risers", risers, most);
    }
    Ok(())
}
