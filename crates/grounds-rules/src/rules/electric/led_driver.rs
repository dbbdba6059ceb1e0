//! The load of a run of LED strip, and the driver for it.

use crate::rules::prelude::*;

pub(crate) const PER_LENGTH: Input<LinearPower> =
    asked("strip-power", "the power of the strip", Who::Maker).between("0.5 W/m", "60 W/m");
pub(crate) const STRIP: Input<Length> = asked(
    "strip-run",
    "the length of strip on one driver",
    Who::Drawings,
)
.between("50 mm", "100 m");
pub(crate) const DRIVER: Input<Power> =
    asked("driver-power", "the rating of the driver", Who::Maker).between("1 W", "1 kW");
const LOADED: Input<Ratio> = limit("driver-loaded-most", "how far a driver is loaded").or(
    "80 %",
    "80 to 90 % of its rating, so that it stays cool",
    Practice,
);

pub(crate) static RULE: Rule = Rule {
    name: "led-driver",
    title: "Driver of LED strip",
    family: Family::Electric,
    question: "Is the driver large enough for its strip, with something to spare?",
    inputs: &[PER_LENGTH.spec, STRIP.spec, DRIVER.spec, LOADED.spec],
    formula: &["P = power per length × length", "driver × 80 % ≥ P"],
    sources: &[
        practice("80 % of the rating"),
        memory("NEC chapter 9 table 11(B): a class 2 output at 24 V gives 96 W at most"),
    ],
    caution: cautions::ELECTRIC,
    way_out: "A larger driver where it can be reached and stays cool, or two.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (each, run) = (w.take(&PER_LENGTH)?, w.take(&STRIP)?);
    let load = w.step("Load", &[&each, &"×", &run], each * run);
    let loaded = w.take(&LOADED)?;
    let wanted = w.step("Driver wanted", &[&load, &"/", &loaded], load / loaded);
    let driver = w.take(&DRIVER)?;
    w.at_least("the driver", driver, wanted);
    if load > fixed("96 W") {
        w.say("Over 96 W at 24 V it is more than one class 2 output (America): split it.");
    }
    Ok(())
}
