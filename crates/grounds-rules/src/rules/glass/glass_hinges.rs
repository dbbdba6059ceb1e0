//! Hinges of a glass door.

use crate::rules::{glass::glass_weight::WIDTH, prelude::*};

pub(crate) const DOOR: Input<Mass> =
    asked("door-weight", "the weight of the door", Who::Maker).between("1 kg", "500 kg");
pub(crate) const HINGES: Input<Number> =
    asked("hinges", "how many hinges it hangs on", Who::Drawings).between("1", "8");
pub(crate) const RATED: Input<Mass> = asked(
    "hinge-rating",
    "what the maker lets two of the hinges carry",
    Who::Maker,
)
.between("1 kg", "500 kg")
.wanted();

pub(crate) static RULE: Rule = Rule {
    name: "glass-hinges",
    title: "Hinges of a glass door",
    family: Family::Glass,
    question: "Are there enough hinges for the weight and the width of the glass door?",
    inputs: &[DOOR.spec, WIDTH.spec, HINGES.spec, RATED.spec],
    formula: &[
        "two hinges to 36 kg (80 lb) and 36 in, three beyond",
        "weight ≤ rating of the pair × hinges / 2",
    ],
    sources: &[practice(
        "Makers of shower hinges: two to about 80 lb, three above or over 36 in wide",
    )],
    caution: cautions::GLASS,
    way_out: "A third hinge, on blocking over the full height; a narrower door beside a fixed pane.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (weight, width) = (w.take(&DOOR)?, w.take(&WIDTH)?);
    let heavy = weight > fixed("36.3 kg") || width > fixed("36 in");
    let wanted = w.step(
        "Hinges wanted",
        &[&"for", &weight, &"and", &width],
        Number(if heavy { 3.0 } else { 2.0 }),
    );
    let hinges = w.take(&HINGES)?;
    w.at_least("the number of hinges", hinges, wanted);
    if let Some(pair) = w.known(&RATED) {
        let rated = w.step(
            "What they carry",
            &[&pair, &"×", &hinges, &"/ 2"],
            pair * (hinges.0 / 2.0),
        );
        w.at_most("the weight of the door", weight, rated);
    }
    Ok(())
}
