//! Air drawn from a bathroom.

use crate::rules::{air::make_up_air::AIRFLOW, prelude::*};

pub(crate) const RUNS: Input<Word> = word(
    "fan-runs",
    "how the fan runs",
    &["as-needed", "always"],
    Who::Services,
);
const AS_NEEDED: Input<Flow> = limit(
    "bath-exhaust-as-needed",
    "the least that a fan must draw that runs as needed",
)
.or("24 L/s", "50 cfm, ASHRAE 62.2", Published);
const ALWAYS: Input<Flow> = limit(
    "bath-exhaust-always",
    "the least that a fan must draw that runs always",
)
.or("9.4 L/s", "20 cfm, ASHRAE 62.2", Published);

pub(crate) static RULE: Rule = Rule {
    name: "bath-exhaust",
    title: "Air drawn from a bathroom",
    family: Family::Air,
    question: "Does the bathroom fan draw enough?",
    inputs: &[AIRFLOW.spec, RUNS.spec, AS_NEEDED.spec, ALWAYS.spec],
    formula: &["airflow ≥ what the code asks, as it runs"],
    sources: &[
        published("ASHRAE 62.2 and IRC 2021 M1505: 50 cfm as needed or 20 cfm always"),
        published(
            "Approved Document F (England, 2021) tables 1.1 and 1.2: 15 L/s as needed, 8 L/s always",
        ),
    ],
    caution: "Measured at the grille with everything connected, not read off the fan. Duct it to the open air, \
              never into a roof. Check with the authority having jurisdiction.",
    way_out: "A stronger fan, or a shorter, wider and straighter duct.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let airflow = w.take(&AIRFLOW)?;
    let least = match w.word(&RUNS)? {
        "always" => w.take(&ALWAYS)?,
        _ => w.take(&AS_NEEDED)?,
    };
    w.at_least("the air drawn", airflow, least);
    Ok(())
}
