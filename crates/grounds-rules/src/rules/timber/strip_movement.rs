//! How much a long strip grows between a cold and a hot day.

use crate::rules::prelude::*;

pub(crate) const MADE_OF: Input<Word> = word(
    "strip-material",
    "what the strip is made of",
    &[
        "aluminium",
        "brass",
        "copper",
        "glass",
        "steel",
        "stainless",
        "stone",
        "pvc",
    ],
    Who::Maker,
);
pub(crate) const LENGTH: Input<Length> = asked(
    "strip-length",
    "the length between two joints",
    Who::Drawings,
)
.between("100 mm", "60 m");
pub(crate) const SWING: Input<Difference> = asked(
    "temperature-swing",
    "the swing of its temperature over the year",
    Who::Weather,
)
.between("0 K", "100 K");
pub(crate) const JOINT: Input<Length> =
    asked("joint-width", "the width of the joint", Who::Drawings).between("0 mm", "100 mm");
const TAKES: Input<Ratio> = asked(
    "joint-takes",
    "what the joint takes up, as a share of its width",
    Who::Maker,
)
.between("5 %", "100 %")
.guessed("25 %", "12.5 %", "50 %", "Sealant of class 25");

pub(crate) static RULE: Rule = Rule {
    name: "strip-movement",
    title: "Heat movement of a strip",
    family: Family::Timber,
    question: "Does the joint take up what the strip grows and shrinks by?",
    inputs: &[
        MADE_OF.spec,
        LENGTH.spec,
        SWING.spec,
        JOINT.spec,
        TAKES.spec,
    ],
    formula: &["ΔL = α L ΔT", "joint × share ≥ ΔL"],
    sources: &[memory(
        "Handbook values of α in 10⁻⁶/K: glass 9, steel 12, stainless 17, copper 17, brass 19, aluminium 23, stone 8, PVC 70",
    )],
    caution: "Dark strips in the sun get far hotter than the air. The maker's sheet of the strip and the sealant go \
              before this.",
    way_out: "A wider joint, more joints, or a joint that slides.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let alpha = match w.word(&MADE_OF)? {
        "glass" => 9e-6,
        "steel" => 12e-6,
        "stainless" | "copper" => 17e-6,
        "brass" => 19e-6,
        "stone" => 8e-6,
        "pvc" => 70e-6,
        _ => 23e-6,
    };
    let (length, swing) = (w.take(&LENGTH)?, w.take(&SWING)?);
    let moves = length * Ratio::of_base(alpha * swing.base());
    let share = Ratio::of_base(alpha);
    let moves = w.step(
        "Movement",
        &[&share, &"per K ×", &length, &"×", &swing],
        moves,
    );
    let (joint, takes) = (w.take(&JOINT)?, w.take(&TAKES)?);
    let takes_up = w.step(
        "What the joint takes up",
        &[&joint, &"×", &takes],
        joint * takes,
    );
    w.at_least("what the joint takes up", takes_up, moves);
    Ok(())
}
