//! Fine stone dust over a shift.

use crate::rules::prelude::*;

pub(crate) const TASK: Input<Density> = asked(
    "dust-in-task",
    "the respirable silica in the air while cutting",
    Who::Maker,
)
.between("0.001 mg/m3", "1000 mg/m3");
pub(crate) const LASTS: Input<Time> = asked(
    "dust-lasts",
    "how long the cutting lasts in a shift",
    Who::Site,
)
.between("1 min", "12 h");
const REST: Input<Density> = asked(
    "dust-else",
    "the silica in the air for the rest of the shift",
    Who::Site,
)
.between("0 mg/m3", "10 mg/m3")
.guessed(
    "0 mg/m3",
    "0 mg/m3",
    "0.02 mg/m3",
    "Cutting outside and clean rooms",
);
pub(crate) const MASK: Input<Number> = asked(
    "mask-factor",
    "the protection factor of a fitted mask; 1 without",
    Who::Maker,
)
.between("1", "1000")
.guessed("1", "1", "10", "Without a mask");
const MOST: Input<Density> = limit("silica-most", "the most silica over a shift of 8 h").or(
    "0.1 mg/m3",
    "Directive (EU) 2017/2398",
    Published,
);

pub(crate) static RULE: Rule = Rule {
    name: "stone-dust",
    title: "Stone dust over a shift",
    family: Family::Safety,
    question: "Is the stone dust of the shift below what the law allows?",
    inputs: &[TASK.spec, LASTS.spec, REST.spec, MASK.spec, MOST.spec],
    formula: &["mean over 8 h = (C t + C_rest (8 h − t)) / 8 h / mask"],
    sources: &[
        published(
            "29 CFR 1926.1153 (USA): 50 µg/m³ over 8 h, and the table of methods that satisfy it",
        ),
        published("Directive (EU) 2017/2398: 0.1 mg/m³ over 8 h"),
    ],
    caution: cautions::DUST,
    way_out: "Cut wet, extract at the blade, cut outside, cut less; the mask comes last.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (task, lasts, rest) = (w.take(&TASK)?, w.take(&LASTS)?, w.take(&REST)?);
    let shift: Time = fixed("8 h");
    let left = larger(shift - lasts, Time::of_base(0.0));
    let mean = (task * lasts + rest * left) / shift;
    let mean = w.step(
        "Mean over the shift",
        &[
            &"(", &task, &"×", &lasts, &"+", &rest, &"×", &left, &") /", &shift,
        ],
        mean,
    );
    let mask = w.take(&MASK)?;
    let breathed = w.step("Breathed in", &[&mean, &"/", &mask], mean / mask.0);
    let most = w.take(&MOST)?;
    w.at_most("what is breathed in", breathed, most);
    Ok(())
}
