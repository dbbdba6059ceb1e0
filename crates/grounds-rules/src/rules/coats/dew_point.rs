//! A surface too near the dew point.

use crate::{
    physics::air,
    rules::{
        prelude::*,
        timber::heating_before_timber::{HUMIDITY, TEMPERATURE},
    },
};

pub(crate) const SURFACE: Input<Temperature> = asked(
    "surface-temperature",
    "the surface that is coated",
    Who::Site,
)
.between("-20 C", "80 C");
const OVER: Input<Difference> = limit(
    "over-dew-point-least",
    "how much warmer than the dew point a surface must be",
)
.or("3 K", "5 °F, paints and floor finishes", Practice);

pub(crate) static RULE: Rule = Rule {
    name: "dew-point",
    title: "Surface and dew point",
    family: Family::Coats,
    question: "Is the surface warm enough that no water settles on it?",
    inputs: &[TEMPERATURE.spec, HUMIDITY.spec, SURFACE.spec, OVER.spec],
    formula: &[
        "p_sat(dew point) = RH × p_sat(air)",
        "surface ≥ dew point + 3 K",
    ],
    sources: &[
        published("ASHRAE Handbook of Fundamentals (2017) chapter 1, saturation"),
        practice("3 K (5 °F) over the dew point"),
    ],
    caution: cautions::COATS,
    way_out: "Warm the surface, or dry the air; not hot damp air from an open burner.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (temperature, humidity) = (w.take(&TEMPERATURE)?, w.take(&HUMIDITY)?);
    let dew = air::dew_point(temperature, humidity);
    let dew = w.step(
        "Dew point",
        &[&"air of", &temperature, &"and", &humidity],
        dew,
    );
    let over = w.take(&OVER)?;
    let least = w.step("Least surface", &[&dew, &"+", &over], dew + over);
    let surface = w.take(&SURFACE)?;
    w.at_least("the surface", surface, least);
    Ok(())
}
