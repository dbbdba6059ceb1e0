//! Blocking behind rails and heavy pieces: that it is in, and the pull on the top fixings.

use crate::rules::prelude::*;

pub(crate) const BLOCKED: Input<bool> = yes_no(
    "blocking",
    "whether blocking or solid wall is behind every fixing",
    Who::Site,
);
pub(crate) const WEIGHT: Input<Mass> =
    asked("hung-weight", "what hangs there, loaded", Who::Drawings)
        .between("0.5 kg", "5 t")
        .wanted();
pub(crate) const ARM: Input<Length> = asked(
    "hung-arm",
    "how far its middle stands out from the wall",
    Who::Drawings,
)
.between("10 mm", "2 m")
.wanted();
pub(crate) const APART: Input<Length> = asked(
    "hung-apart",
    "the height between its upper and lower fixings",
    Who::Drawings,
)
.between("20 mm", "3 m")
.wanted();
pub(crate) const FIXINGS: Input<Number> = asked(
    "hung-fixings",
    "how many fixings hold its top",
    Who::Drawings,
)
.between("1", "100")
.wanted();
pub(crate) const PULLS: Input<Force> = asked(
    "fixing-pull",
    "what one fixing may be pulled by",
    Who::Maker,
)
.between("1 N", "100 kN")
.wanted();

pub(crate) static RULE: Rule = Rule {
    name: "blocking",
    title: "Blocking behind what hangs",
    family: Family::Cover,
    question: "Is there something solid behind every fixing, and do the top fixings hold the pull?",
    inputs: &[
        BLOCKED.spec,
        WEIGHT.spec,
        ARM.spec,
        APART.spec,
        FIXINGS.spec,
        PULLS.spec,
    ],
    formula: &["pull on each top fixing = m g × arm / height between / fixings"],
    sources: &[
        published("Levers: the moment of the weight is taken by the top fixings"),
        published("ADA 609.8: grab bars hold 250 lb; handrails 200 lb (IRC table R301.5)"),
        practice("Blocking at rails, basins, cabinets, glass hinges, curtains, televisions"),
    ],
    caution: cautions::COVER,
    way_out: "Open the wall while it is open: a board between the studs costs an hour now.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let blocked = w.yes(&BLOCKED)?;
    w.must(
        "blocking or solid wall is behind every fixing",
        blocked,
        "there is no blocking behind the fixings",
    );
    let (Some(weight), Some(arm), Some(apart)) = (w.known(&WEIGHT), w.known(&ARM), w.known(&APART))
    else {
        return Ok(());
    };
    let fixings = w.take(&FIXINGS)?;
    let force = Force::of_base(weight.base() * 9.806_65);
    let force = w.step("Weight as a force", &[&weight, &"× 9.81 m/s²"], force);
    let pull = force * (arm / apart) / fixings.0;
    let pull = w.step(
        "Pull on each top fixing",
        &[&force, &"×", &arm, &"/", &apart, &"/", &fixings],
        pull,
    );
    let holds = w.take(&PULLS)?;
    w.at_most("the pull on each top fixing", pull, holds);
    Ok(())
}
