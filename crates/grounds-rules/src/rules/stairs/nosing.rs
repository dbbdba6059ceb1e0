//! How far a tread stands out over the one below.

use crate::rules::{prelude::*, stairs::riser_and_going::GOING};

pub(crate) const NOSING: Input<Length> = asked(
    "nosing",
    "how far the tread stands out over the riser",
    Who::Drawings,
)
.between("0 mm", "100 mm");
const LEAST: Input<Length> = limit("nosing-least", "the least nosing");
const MOST: Input<Length> = limit("nosing-most", "the greatest nosing").or(
    "32 mm",
    "1-1/4 in, as the American code has it",
    Practice,
);
const NONE_FROM: Input<Length> = limit(
    "nosing-not-needed-from",
    "the going from which no nosing is asked",
);

pub(crate) static RULE: Rule = Rule {
    name: "nosing",
    title: "Nosing of a tread",
    family: Family::Stairs,
    question: "Does the tread stand out enough, and not so far that a toe catches?",
    inputs: &[
        NOSING.spec,
        GOING.spec,
        LEAST.spec,
        MOST.spec,
        NONE_FROM.spec,
    ],
    formula: &["least ≤ nosing ≤ most, unless the going is long enough without"],
    sources: &[
        published("IRC 2021 R311.7.5.3: 3/4 to 1-1/4 in, none asked from a tread of 11 in"),
        published(
            "Approved Document K (England, 2013) 1.8: 16 mm overlap on open risers, at most 25 mm",
        ),
    ],
    caution: cautions::STAIRS,
    way_out: "A wider tread board, or a deeper going.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let nosing = w.take(&NOSING)?;
    let most = w.take(&MOST)?;
    w.at_most("the nosing", nosing, most);
    let going = w.take(&GOING)?;
    if let Some(from) = w.known(&NONE_FROM)
        && going >= from
    {
        w.say("The going is long enough without a nosing.");
        return Ok(());
    }
    if let Some(least) = w.known(&LEAST) {
        w.at_least("the nosing", nosing, least);
    }
    Ok(())
}
