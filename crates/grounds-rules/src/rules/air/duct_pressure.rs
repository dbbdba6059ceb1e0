//! The pressure that a duct takes from its fan.

use crate::{
    physics::duct,
    rules::{
        air::{
            duct_speed::{DIAMETER, HEIGHT, WIDTH},
            make_up_air::AIRFLOW,
        },
        prelude::*,
    },
};

pub(crate) const LENGTH: Input<Length> =
    asked("duct-length", "the run of the duct", Who::Drawings).between("100 mm", "60 m");
pub(crate) const BENDS: Input<Number> = asked(
    "duct-bends",
    "how many quarter bends there are",
    Who::Drawings,
)
.between("0", "20");
const BEND: Input<Length> = asked(
    "bend-length",
    "the run that a bend stands for",
    Who::Services,
)
.between("0 m", "20 m")
.guessed(
    "4 m",
    "3 m",
    "9 m",
    "Smooth bend 10 to 15 ft, hard elbow 25 to 30 ft",
);
const CAP: Input<Length> = asked(
    "cap-length",
    "the run that the cap outside stands for",
    Who::Services,
)
.between("0 m", "40 m")
.guessed("10 m", "9 m", "12 m", "Wall cap 30 ft, roof cap 40 ft");
const ROUGH: Input<Length> = asked("duct-roughness", "the roughness of the duct", Who::Maker)
    .between("0 mm", "6 mm")
    .guessed(
        "0.09 mm",
        "0.03 mm",
        "0.9 mm",
        "Galvanised steel; flexible duct is ten times as rough",
    );
pub(crate) const FAN: Input<Pressure> = asked(
    "fan-pressure",
    "the pressure that the fan has left at this flow",
    Who::Maker,
)
.between("5 Pa", "2 kPa");

pub(crate) static RULE: Rule = Rule {
    name: "duct-pressure",
    title: "Pressure lost in a duct",
    family: Family::Air,
    question: "Does the fan still move its air through this duct?",
    inputs: &[
        AIRFLOW.spec,
        DIAMETER.spec,
        WIDTH.spec,
        HEIGHT.spec,
        LENGTH.spec,
        BENDS.spec,
        BEND.spec,
        CAP.spec,
        ROUGH.spec,
        FAN.spec,
    ],
    formula: &[
        "D = 1.30 (a b)^0.625 / (a + b)^0.25 where it is rectangular",
        "1/√f = −2 log [ε/(3.7 D) + 2.51/(Re √f)]",
        "Δp = f (L/D) ρ V²/2, L with what bends and cap stand for",
    ],
    sources: &[
        published("Darcy–Weisbach and Colebrook, ASHRAE Fundamentals, duct design"),
        practice("Bends and caps as equivalent runs"),
    ],
    caution: cautions::AIR,
    way_out: "A wider, straighter or shorter duct; smooth metal for flexible.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let flow = w.take(&AIRFLOW)?;
    let diameter = if let Some((width, height)) = w.known(&WIDTH).zip(w.known(&HEIGHT)) {
        let equal = duct::equivalent_diameter(width, height);
        w.step(
            "Diameter that loses as much",
            &[&width, &"by", &height],
            equal,
        )
    } else {
        w.take(&DIAMETER)?
    };
    let speed = flow / duct::round_area(diameter);
    let speed = w.step(
        "Air speed",
        &[&flow, &"/ (π ×", &diameter, &"² / 4)"],
        speed,
    );
    let reynolds = duct::reynolds(speed, diameter);
    w.step("Reynolds number", &[&"ρ V D / μ"], Number(reynolds));
    let rough = w.take(&ROUGH)?;
    let factor = duct::friction_factor(reynolds, rough / diameter);
    let factor = w.step(
        "Friction factor",
        &[&"Colebrook, ε/D", &(rough / diameter)],
        Number(factor),
    );
    let run = w.take(&LENGTH)?;
    let bends = w.take(&BENDS)?;
    let (bend, cap) = (w.take(&BEND)?, w.take(&CAP)?);
    let length = run + bend * bends.0 + cap;
    let length = w.step(
        "Run with bends and cap",
        &[&run, &"+", &bends, &"×", &bend, &"+", &cap],
        length,
    );
    let dynamic = w.step(
        "Pressure of the speed",
        &[&"1.204 kg/m³ ×", &speed, &"² / 2"],
        duct::speed_pressure(speed),
    );
    let ratio = length / diameter;
    let loss = w.step(
        "Pressure lost",
        &[&factor, &"×", &length, &"/", &diameter, &"×", &dynamic],
        dynamic * (ratio * factor.0),
    );
    let fan = w.take(&FAN)?;
    w.at_most("the pressure lost", loss, fan);
    Ok(())
}
