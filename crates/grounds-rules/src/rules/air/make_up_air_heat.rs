//! The heat that make-up air takes on a cold day.

use crate::rules::{air::make_up_air::SUPPLY, prelude::*};

/// The heat that a cubic metre of air takes per kelvin: 1.204 kg/m³ × 1006 J/(kg K).
const AIR_HEAT: f64 = 1.204 * 1006.0;

pub(crate) const INDOORS: Input<Temperature> = asked(
    "supply-temperature",
    "the air let into the room",
    Who::Designer,
)
.between("0 C", "30 C")
.guessed("16 C", "13 C", "20 C", "Cool but bearable at a worktop");
pub(crate) const OUTDOORS: Input<Temperature> = asked(
    "design-temperature",
    "the coldest air outside that is reckoned with",
    Who::Weather,
)
.between("-50 C", "30 C");
pub(crate) const HEATER: Input<Power> =
    asked("heater-power", "the heater in the supply", Who::Services).between("0 W", "100 kW");

pub(crate) static RULE: Rule = Rule {
    name: "make-up-air-heat",
    title: "Tempering make-up air",
    family: Family::Air,
    question: "Does the heater in the supply temper the make-up air on the coldest day?",
    inputs: &[SUPPLY.spec, OUTDOORS.spec, INDOORS.spec, HEATER.spec],
    formula: &["q = ρ c Q (t_in − t_out), 1.08 Btu/h per cfm and °F"],
    sources: &[published(
        "Sensible heat of air, ASHRAE Fundamentals (2017) chapter 18: 1.08 to 1.10 Btu/h per cfm and °F at sea level",
    )],
    caution: cautions::AIR,
    way_out: "A larger heater, less air, or air let in near the hood where nobody stands.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let flow = w.take(&SUPPLY)?;
    let outside = w.take(&OUTDOORS)?;
    let inside = w.take(&INDOORS)?;
    let rise = difference(inside, outside);
    if rise.base() <= 0.0 {
        w.settle("The air outside is never colder than it may come in: nothing to heat.");
        return Ok(());
    }
    let rise = w.step("Rise of temperature", &[&inside, &"−", &outside], rise);
    let load = Power::of_base(AIR_HEAT * flow.base() * rise.base());
    let load = w.step(
        "Heat needed",
        &[&"1211 J/(m³ K) ×", &flow, &"×", &rise],
        load,
    );
    let heater = w.take(&HEATER)?;
    w.at_least("the heater", heater, load);
    Ok(())
}
