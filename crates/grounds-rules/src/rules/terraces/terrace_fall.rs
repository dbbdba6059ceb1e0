//! The fall of a roof terrace's membrane to its outlets.

use crate::rules::{
    prelude::*,
    wet_rooms::shower_fall::{FALL, RUN},
};

const LEAST: Input<Ratio> = limit("terrace-fall-least", "the least fall of the membrane").or(
    "1:80",
    "BS 6229, finished fall",
    Published,
);

pub(crate) static RULE: Rule = Rule {
    name: "terrace-fall",
    title: "Fall of a terrace",
    family: Family::Terraces,
    question: "Does the membrane fall enough to its outlets?",
    inputs: &[RUN.spec, FALL.spec, LEAST.spec],
    formula: &["slope = fall / run"],
    sources: &[
        published("BS 6229 (2018): 1:80 finished, designed at 1:40"),
        published("IBC 2021 1507: 1/4 in per ft for most membranes"),
    ],
    caution: cautions::TERRACE,
    way_out: "Tapered insulation, or an outlet nearer.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (run, fall) = (w.take(&RUN)?, w.take(&FALL)?);
    let slope = w.step("Slope", &[&fall, &"/", &run], fall / run);
    let least = w.take(&LEAST)?;
    let wanted = w.step(
        "Least fall over that way",
        &[&run, &"×", &least],
        run * least,
    );
    if !w.at_least("the slope", slope, least) {
        let short = w.text(&(wanted - fall));
        w.say(format!("It falls {short} too little."));
    }
    Ok(())
}
