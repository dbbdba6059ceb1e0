//! The opening that lets make-up air in by itself, from what the house may be drawn down to.

use crate::{
    physics::duct,
    rules::{air::make_up_air::SUPPLY, prelude::*},
};

const DRAWN_DOWN: Input<Pressure> = limit(
    "draw-down-most",
    "the pressure that the house may be drawn down by",
)
.or("5 Pa", "So that a natural flue does not spill", Practice);
const FREE_SHARE: Input<Ratio> = asked(
    "louvre-free-share",
    "the free share of louvre and screen",
    Who::Maker,
)
.between("10 %", "100 %")
.guessed("45 %", "35 %", "55 %", "Weather louvre with insect screen");
pub(crate) const OPENING: Input<Area> = asked(
    "opening-area",
    "the whole area of the opening, louvre and all",
    Who::Services,
)
.between("10 cm2", "5 m2");

pub(crate) static RULE: Rule = Rule {
    name: "make-up-air-opening",
    title: "Opening for make-up air",
    family: Family::Air,
    question: "Is the opening large enough to let the make-up air in without drawing the house down?",
    inputs: &[SUPPLY.spec, DRAWN_DOWN.spec, FREE_SHARE.spec, OPENING.spec],
    formula: &[
        "v = 0.6 √(2 Δp / ρ)",
        "free area = Q / v",
        "whole area = free area / free share",
    ],
    sources: &[
        published(
            "Flow through a sharp-edged opening, ASHRAE Fundamentals (2017) chapter 16: coefficient about 0.6",
        ),
        practice("5 Pa for houses with natural flues"),
    ],
    caution: cautions::AIR,
    way_out: "A larger louvre, one with more free area, or a fan that blows the air in.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let flow = w.take(&SUPPLY)?;
    let pressure = w.take(&DRAWN_DOWN)?;
    let speed = duct::opening_speed(pressure);
    let speed = w.step(
        "Air speed through the free area",
        &[&"0.6 √(2 ×", &pressure, &"/ 1.204 kg/m³)"],
        speed,
    );
    let free = w.step("Free area", &[&flow, &"/", &speed], flow / speed);
    let share = w.take(&FREE_SHARE)?;
    let whole = w.step("Whole area", &[&free, &"/", &share], free / share);
    let side = Length::of_base((whole.base() * 4.0 / std::f64::consts::PI).sqrt());
    w.step("As a round opening", &[&"2 √(A / π)"], side);
    let opening = w.take(&OPENING)?;
    w.at_least("the opening", opening, whole);
    Ok(())
}
