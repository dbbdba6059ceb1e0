//! Make-up air for a kitchen hood: from which flow on, how much, and tied to the fan.

use crate::rules::prelude::*;

pub(crate) const AIRFLOW: Input<Flow> = asked(
    "airflow",
    "the air moved at the highest speed of the fan",
    Who::Maker,
)
.between("5 cfm", "4000 cfm");
const ABOVE: Input<Flow> = limit(
    "make-up-air-above",
    "the flow that a hood may draw without make-up air",
)
.or("400 cfm", "As the American code has it", Practice);
const SHARE: Input<Ratio> = limit(
    "make-up-air-share",
    "the share of the hood's air that comes in again",
)
.or(
    "90 %",
    "“About equal” to what is drawn, read as nine tenths",
    Practice,
);
pub(crate) const SUPPLY: Input<Flow> = asked(
    "supply-air",
    "the air brought in while the hood runs",
    Who::Services,
)
.between("0 cfm", "4000 cfm");
pub(crate) const TIED: Input<bool> = yes_no(
    "opens-with-fan",
    "whether the supply opens by itself with the fan",
    Who::Services,
);
pub(crate) const OPEN_FLUE: Input<bool> = yes_no(
    "open-flue",
    "whether a fire or boiler draws its air from the same rooms",
    Who::Site,
)
.wanted();

pub(crate) static RULE: Rule = Rule {
    name: "make-up-air",
    title: "Make-up air for a hood",
    family: Family::Air,
    question: "Does the hood need make-up air, is enough brought in, and does it open with the fan?",
    inputs: &[
        AIRFLOW.spec,
        ABOVE.spec,
        SUPPLY.spec,
        SHARE.spec,
        TIED.spec,
        OPEN_FLUE.spec,
    ],
    formula: &[
        "needed if airflow > threshold, or with an open flue",
        "supply ≥ share × airflow",
    ],
    sources: &[
        published("IRC 2018 and 2021 M1503.6 (M1503.4 in 2009 to 2015): above 400 cfm"),
        memory(
            "From 2015 only where an appliance without direct vent is in the house; local codes often drop that",
        ),
    ],
    caution: cautions::AIR,
    way_out: "A damper that opens with the fan, a smaller hood, or a fan whose highest speed is locked.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let airflow = w.take(&AIRFLOW)?;
    let above = w.take(&ABOVE)?;
    let open_flue = w.known_yes(&OPEN_FLUE).unwrap_or(false);
    if airflow <= above && !open_flue {
        let (airflow, above) = (w.text(&airflow), w.text(&above));
        w.settle(format!(
            "The hood draws {airflow}, no more than {above}: no make-up air is asked for."
        ));
        return Ok(());
    }
    if open_flue {
        w.say("A fire or boiler draws its air from the same rooms: any hood needs its air brought in.");
    }
    let share = w.take(&SHARE)?;
    let needed = w.step(
        "Air to bring in",
        &[&share, &"×", &airflow],
        airflow * share,
    );
    let supply = w.take(&SUPPLY)?;
    w.at_least("the air brought in", supply, needed);
    let tied = w.yes(&TIED)?;
    w.must(
        "the supply opens by itself with the fan",
        tied,
        "the supply does not open by itself with the fan",
    );
    Ok(())
}
