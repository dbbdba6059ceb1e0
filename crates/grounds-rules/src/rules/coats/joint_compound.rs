//! Drying of joint compound under tape.

use crate::{
    physics::drying,
    rules::{
        coats::recoat::WAITED,
        prelude::*,
        timber::heating_before_timber::{HUMIDITY, TEMPERATURE},
    },
};

/// Hours of a coat of 1/16 in at 70 °F and 50 %.
const KNOWN: &str = "17 h";

pub(crate) static RULE: Rule = Rule {
    name: "joint-compound",
    title: "Drying of joint compound",
    family: Family::Coats,
    question: "Has the joint compound dried long enough for the next coat?",
    inputs: &[TEMPERATURE.spec, HUMIDITY.spec, WAITED.spec],
    formula: &["17 h × p_sat(70 °F) (1 − 0.50) / [p_sat(T) (1 − RH)], for 1/16 in"],
    sources: &[
        memory(
            "GA-236 and ASTM C840, drying time of joint compound under tape: 17 h at 70 °F and 50 %",
        ),
        published(
            "A trade council's chart for 1/16 in: bands of 2, 6, 10, 17 to 19 h, 48 h, 3 to 5 days",
        ),
    ],
    caution: "By the table, not by eye. It is for one coat of 1/16 in that dries; setting compound goes by its bag. \
              Sand wet or with extraction, and wear a mask.",
    way_out: "Above 70 °F and below 40 % it dries best: heat without water, and moving air.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (temperature, humidity) = (w.take(&TEMPERATURE)?, w.take(&HUMIDITY)?);
    let longer = Number(drying::longer(temperature, humidity));
    let known: Time = fixed(KNOWN);
    let wanted = w.step("Drying time", &[&known, &"×", &longer], known * longer.0);
    let waited = w.take(&WAITED)?;
    w.at_least("the wait", waited, wanted);
    Ok(())
}
