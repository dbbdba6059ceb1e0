//! The air that a coat may be laid and dry in.

use crate::rules::{
    prelude::*,
    timber::heating_before_timber::{HUMIDITY, TEMPERATURE},
};

pub(crate) const COLD: Input<Temperature> = limit(
    "coat-temperature-least",
    "the least temperature for the coat",
)
.or("10 C", "Paints, 50 to 90 °F", Practice);
pub(crate) const HOT: Input<Temperature> = limit(
    "coat-temperature-most",
    "the greatest temperature for the coat",
)
.or("32 C", "Paints, 50 to 90 °F", Practice);
pub(crate) const DRY: Input<Ratio> =
    limit("coat-humidity-least", "the least humidity for the coat");
pub(crate) const DAMP: Input<Ratio> =
    limit("coat-humidity-most", "the greatest humidity for the coat")
        .or("85 %", "Paints", Practice);

pub(crate) static RULE: Rule = Rule {
    name: "coat-air",
    title: "Air for a coat",
    family: Family::Coats,
    question: "Is the air now within what the coat asks for?",
    inputs: &[
        TEMPERATURE.spec,
        COLD.spec,
        HOT.spec,
        HUMIDITY.spec,
        DRY.spec,
        DAMP.spec,
    ],
    formula: &["least ≤ temperature ≤ most", "humidity ≤ most"],
    sources: &[
        published(
            "ASTM C840 and GA-216: joint treatment from 50 °F, held 48 h before and until dry",
        ),
        published("UFGS 09 21 5N: veneer plaster 50 to 80 °F, from a week before to a week after"),
        practice("Paint 50 to 90 °F, below 85 % humidity"),
    ],
    caution: cautions::COATS,
    way_out: "Heat that makes no water, moving air, or another day.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let temperature = w.take(&TEMPERATURE)?;
    let (cold, hot) = (w.take(&COLD)?, w.take(&HOT)?);
    w.at_least("the air", temperature, cold);
    w.at_most("the air", temperature, hot);
    let humidity = w.take(&HUMIDITY)?;
    if let Some(dry) = w.known(&DRY) {
        w.at_least("the humidity", humidity, dry);
    }
    let damp = w.take(&DAMP)?;
    w.at_most("the humidity", humidity, damp);
    Ok(())
}
