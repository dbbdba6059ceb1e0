//! Running up a heated screed before its finish.

use crate::rules::{prelude::*, tile_and_stone::screed_drying::KIND};

pub(crate) const AGE: Input<Time> = asked(
    "age-at-heating",
    "the age of the screed when the heating is first turned on",
    Who::Site,
)
.between("0 h", "104 weeks");
pub(crate) const STEP: Input<Difference> = asked(
    "rise-per-day",
    "how much warmer the water is made each day",
    Who::Services,
)
.between("0.1 K", "60 K");
pub(crate) const DONE: Input<bool> = yes_no(
    "heated-through",
    "whether it was run up, held and cooled down again, with a record",
    Who::Services,
);
const CEMENT: Input<Time> = limit("heating-after-cement", "the least age of a cement screed").or(
    "21 days",
    "EN 1264-4",
    Published,
);
const SULPHATE: Input<Time> = limit(
    "heating-after-sulphate",
    "the least age of a calcium sulphate screed",
)
.or("7 days", "EN 1264-4", Published);
const RISE: Input<Difference> = limit(
    "heating-rise-most",
    "the most that the water is made warmer in a day",
)
.or("5 K", "Cement screeds, stone and tile", Practice);

pub(crate) static RULE: Rule = Rule {
    name: "heated-screed",
    title: "Running up a heated screed",
    family: Family::Heating,
    question: "Was the heated screed old enough, warmed gently, and heated through before its finish?",
    inputs: &[
        KIND.spec,
        AGE.spec,
        CEMENT.spec,
        SULPHATE.spec,
        STEP.spec,
        RISE.spec,
        DONE.spec,
    ],
    formula: &[
        "age ≥ 21 days (cement), 7 days (calcium sulphate)",
        "3 days at 25 °C, up by 5 K a day, 4 days at the top, down again",
    ],
    sources: &[
        published(
            "EN 1264-4: 21 and 7 days; 20 to 25 °C for 3 days, then the design temperature for 4",
        ),
        practice("5 K (9 °F) a day up and down"),
    ],
    caution: cautions::HEATING,
    way_out: "Wait, run it up by the record sheet, let it cool, read its moisture; then lay.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let least = match w.word(&KIND)? {
        "calcium-sulphate" => w.take(&SULPHATE)?,
        _ => w.take(&CEMENT)?,
    };
    let age = w.take(&AGE)?;
    w.at_least("the age when the heating is first turned on", age, least);
    if let Some(step) = w.known(&STEP) {
        let most = w.take(&RISE)?;
        w.at_most("the rise in a day", step, most);
    }
    let done = w.yes(&DONE)?;
    w.must(
        "the screed was heated through and cooled before its finish",
        done,
        "the screed has not been heated through and cooled before its finish",
    );
    Ok(())
}
