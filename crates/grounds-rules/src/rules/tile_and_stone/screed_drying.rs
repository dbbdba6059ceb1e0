//! How long a slab or screed takes to dry, by its thickness.

use crate::rules::prelude::*;

pub(crate) const KIND: Input<Word> = word(
    "screed-kind",
    "what was laid",
    &["cement", "calcium-sulphate", "concrete"],
    Who::Drawings,
);
pub(crate) const THICKNESS: Input<Length> =
    asked("screed-thickness", "its thickness", Who::Drawings).between("5 mm", "400 mm");
pub(crate) const AGE: Input<Time> = asked(
    "screed-age",
    "how long it has dried in warm, dry air",
    Who::Site,
)
.between("0 h", "104 weeks");

pub(crate) static RULE: Rule = Rule {
    name: "screed-drying",
    title: "Drying of a screed",
    family: Family::TileAndStone,
    question: "Has the screed had the time that its thickness takes to dry?",
    inputs: &[KIND.spec, THICKNESS.spec, AGE.spec],
    formula: &[
        "screed: 1 day per mm to 50 mm (40 mm of calcium sulphate), 2 days for each mm more",
        "concrete: 28 days per inch",
    ],
    sources: &[
        published("BS 8203 and BS 8204: 1 mm a day to 50 mm"),
        memory("The same: half that beyond 50 mm"),
        published("Makers of liquid calcium sulphate screed: 1 mm a day to 40 mm, half beyond"),
        published(
            "American meter makers' literature: 28 to 30 days per inch of concrete, drying to one side",
        ),
    ],
    caution: cautions::MOISTURE,
    way_out: "Wait, dehumidify, or ask the maker of the finish for a barrier; then read.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let kind = w.word(&KIND)?;
    let thickness = w.take(&THICKNESS)?;
    let mm = thickness.base() * 1000.0;
    let days = match kind {
        "concrete" => 28.0 * mm / 25.4,
        "calcium-sulphate" => slow_beyond(mm, 40.0),
        _ => slow_beyond(mm, 50.0),
    };
    let wanted = w.step(
        "Drying time",
        &[&"for", &thickness, &"of", &kind.replace('-', " ")],
        Time::of_base(days * 86_400.0),
    );
    let age = w.take(&AGE)?;
    w.at_least("the time it has dried", age, wanted);
    w.say("Then take a reading: that releases it, not the calendar.");
    Ok(())
}

/// A day for each mm up to a thickness, two for each beyond.
fn slow_beyond(mm: f64, up_to: f64) -> f64 {
    mm.min(up_to) + 2.0 * (mm - up_to).max(0.0)
}
