//! What a hood should draw, by its width and by the gas under it.

use crate::rules::{air::make_up_air::AIRFLOW, prelude::*};

pub(crate) const WIDTH: Input<Length> =
    asked("hood-width", "the width of the hood", Who::Drawings).between("300 mm", "3 m");
pub(crate) const STANDS: Input<Word> = word(
    "hood-stands",
    "where the hood hangs",
    &["wall", "island"],
    Who::Drawings,
);
const GAS: Input<Power> = asked("gas-power", "the gas burners together", Who::Maker)
    .between("0 W", "100 kW")
    .wanted();

pub(crate) static RULE: Rule = Rule {
    name: "hood-capacity",
    title: "What a hood should draw",
    family: Family::Air,
    question: "Does the hood draw enough for its width, and for the gas under it?",
    inputs: &[AIRFLOW.spec, WIDTH.spec, STANDS.spec, GAS.spec],
    formula: &[
        "100 cfm per ft of width at a wall, 150 over an island",
        "1 cfm per 100 Btu/h of gas",
    ],
    sources: &[
        published("Home Ventilating Institute, range hood guidance: 100 and 150 cfm per foot"),
        practice("Gas: Btu/h over 100"),
    ],
    caution: cautions::AIR,
    way_out: "A stronger fan, and then make-up air; or a hood that overhangs the hob more.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let width = w.take(&WIDTH)?;
    let stands = w.word(&STANDS)?;
    let per_foot: Flow = fixed(if stands == "island" {
        "150 cfm"
    } else {
        "100 cfm"
    });
    let by_width = per_foot * (width / fixed::<Length>("1 ft"));
    let mut wanted = w.step(
        "By width",
        &[&width, &"×", &per_foot, &"per foot"],
        by_width,
    );
    if let Some(gas) = w.known(&GAS) {
        let by_gas = fixed::<Flow>("1 cfm") * (gas / fixed::<Power>("100 Btu/h"));
        let by_gas = w.step("By gas", &[&gas, &"/ 100 Btu/h per cfm"], by_gas);
        wanted = larger(wanted, by_gas);
    }
    let airflow = w.take(&AIRFLOW)?;
    w.at_least("the air drawn", airflow, wanted);
    Ok(())
}
