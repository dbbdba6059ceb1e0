//! When the next coat may go on in the air there is, and when it is too late.

use crate::{
    physics::drying,
    rules::{
        prelude::*,
        timber::heating_before_timber::{HUMIDITY, TEMPERATURE},
    },
};

pub(crate) const SHEET: Input<Time> = asked(
    "recoat-after",
    "the wait before the next coat, at 21 °C and 50 %",
    Who::Maker,
)
.between("1 min", "60 days");
pub(crate) const WAITED: Input<Time> =
    asked("waited", "how long it has dried, or will have", Who::Site).between("0 h", "104 weeks");
pub(crate) const DRIED: Input<Time> = asked(
    "dried",
    "how much of the wait it has had by then, reckoned over air that changed",
    Who::Site,
)
.between("0 h", "104 weeks")
.wanted();
pub(crate) const LATEST: Input<Time> = asked(
    "recoat-before",
    "the latest that the next coat may follow without abrading",
    Who::Maker,
)
.between("1 min", "104 weeks")
.wanted();

pub(crate) static RULE: Rule = Rule {
    name: "recoat",
    title: "Window for the next coat",
    family: Family::Coats,
    question: "Has the coat dried long enough in this air, and is the next one still in time?",
    inputs: &[
        TEMPERATURE.spec,
        HUMIDITY.spec,
        SHEET.spec,
        WAITED.spec,
        DRIED.spec,
        LATEST.spec,
    ],
    formula: &[
        "longer by k = p_sat(21 °C) (1 − 0.50) / [p_sat(T) (1 − RH)], never shorter than the sheet",
        "waited ≥ k × sheet, and ≤ latest",
        "over air that changes: the sum of each hour / k of that hour ≥ sheet",
    ],
    sources: &[
        published(
            "Dalton's law of evaporation; saturation by ASHRAE Fundamentals (2017) chapter 1",
        ),
        practice(
            "Sheet times hold at 21 °C (70 °F) and 50 %; coats that cure by reaction go by temperature alone",
        ),
    ],
    caution: cautions::COATS,
    way_out: "Wait, warm and move the air; after the latest time abrade first.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    if let Some(dried) = w.known(&DRIED) {
        let sheet = w.take(&SHEET)?;
        w.at_least("the drying", dried, sheet);
        let waited = w.take(&WAITED)?;
        return in_time(w, waited);
    }
    let (temperature, humidity) = (w.take(&TEMPERATURE)?, w.take(&HUMIDITY)?);
    let longer = drying::longer(temperature, humidity);
    let longer = w.step(
        "Drying takes longer by",
        &[&"in air of", &temperature, &"and", &humidity],
        Number(longer),
    );
    let sheet = w.take(&SHEET)?;
    let factor = Number(longer.0.max(1.0));
    let least = w.step(
        "Wait in this air",
        &[&sheet, &"×", &factor],
        sheet * factor.0,
    );
    let waited = w.take(&WAITED)?;
    w.at_least("the wait", waited, least);
    in_time(w, waited)
}

/// Whether the next coat is still in time.
fn in_time(w: &mut Working<'_>, waited: Time) -> Worked {
    if let Some(latest) = w.known(&LATEST) {
        w.at_most("the wait", waited, latest);
    }
    Ok(())
}
