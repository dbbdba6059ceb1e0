//! How fast the air runs in a duct.

use crate::{
    physics::duct,
    rules::{air::make_up_air::AIRFLOW, prelude::*},
};

pub(crate) const DIAMETER: Input<Length> =
    asked("duct-diameter", "the diameter of the duct", Who::Drawings)
        .between("50 mm", "1 m")
        .wanted();
pub(crate) const WIDTH: Input<Length> = asked("duct-width", "the width of the duct", Who::Drawings)
    .between("30 mm", "2 m")
    .wanted();
pub(crate) const HEIGHT: Input<Length> =
    asked("duct-height", "the height of the duct", Who::Drawings)
        .between("30 mm", "2 m")
        .wanted();
pub(crate) const USE: Input<Word> = word(
    "duct-use",
    "what the duct serves",
    &["hood", "trunk", "branch", "return"],
    Who::Drawings,
);

pub(crate) static RULE: Rule = Rule {
    name: "duct-speed",
    title: "Air speed in a duct",
    family: Family::Air,
    question: "Is the duct wide enough for its air to run quietly?",
    inputs: &[
        AIRFLOW.spec,
        DIAMETER.spec,
        WIDTH.spec,
        HEIGHT.spec,
        USE.spec,
    ],
    formula: &["V = Q / A"],
    sources: &[
        memory("ACCA Manual D: trunks 700 to 900 fpm, branches 500 to 700, returns 500 to 700"),
        practice("Hood ducts 1000 to 1600 fpm"),
    ],
    caution: cautions::AIR,
    way_out: "A wider duct, or two.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let flow = w.take(&AIRFLOW)?;
    let area = if let Some((width, height)) = w.known(&WIDTH).zip(w.known(&HEIGHT)) {
        w.step("Area", &[&width, &"×", &height], width * height)
    } else {
        let diameter = w.take(&DIAMETER)?;
        w.step(
            "Area",
            &[&"π ×", &diameter, &"² / 4"],
            duct::round_area(diameter),
        )
    };
    let speed = w.step("Air speed", &[&flow, &"/", &area], flow / area);
    let most = match w.word(&USE)? {
        "hood" => "1600 fpm",
        "trunk" => "900 fpm",
        _ => "700 fpm",
    };
    w.at_most("the air speed", speed, fixed(most));
    Ok(())
}
