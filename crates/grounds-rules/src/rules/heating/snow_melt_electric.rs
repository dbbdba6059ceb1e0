//! Electric snow melting: its density, its current, its circuit.

use crate::rules::{heating::snow_melt_load::GIVES, prelude::*};

pub(crate) const AREA: Input<Area> =
    asked("melt-area", "the area that is kept free", Who::Drawings).between("0.1 m2", "2000 m2");
pub(crate) const VOLTS: Input<Voltage> = asked(
    "supply-voltage",
    "the voltage of the supply",
    Who::Electrician,
)
.between("12 V", "600 V");
pub(crate) const CIRCUIT: Input<Current> = asked(
    "circuit-rating",
    "the rating of the circuits for it together",
    Who::Electrician,
)
.between("1 A", "1000 A");
pub(crate) const PROTECTED: Input<bool> = yes_no(
    "ground-fault-protection",
    "whether it has ground-fault protection of equipment (30 mA)",
    Who::Electrician,
);
const DENSEST: Input<HeatFlux> = limit("melt-power-most", "the most heat of embedded cable").or(
    "120 W/ft2",
    "NEC 426.20(A)",
    Published,
);
const SPARE: Input<Ratio> = limit(
    "continuous-share",
    "what a circuit must have over a load that runs for hours",
)
.or("125 %", "NEC 426.4 and 210.20", Published);

pub(crate) static RULE: Rule = Rule {
    name: "snow-melt-electric",
    title: "Supply of electric snow melting",
    family: Family::Heating,
    question: "Is the cable not too dense, is its circuit large enough and protected?",
    inputs: &[
        GIVES.spec,
        DENSEST.spec,
        AREA.spec,
        VOLTS.spec,
        CIRCUIT.spec,
        SPARE.spec,
        PROTECTED.spec,
    ],
    formula: &["P = density × area", "I = P / V", "circuit ≥ 1.25 I"],
    sources: &[
        published(
            "NEC (NFPA 70) 426.20(A): 120 W/ft²; 426.28: ground-fault protection of equipment",
        ),
        published("NEC 426.4: a continuous load; 210.20: 125 % of it"),
    ],
    caution: cautions::SNOW,
    way_out: "Two circuits in turn, a smaller area, or wheel tracks instead of the whole drive.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let density = w.take(&GIVES)?;
    let densest = w.take(&DENSEST)?;
    w.at_most("the heat put into the slab", density, densest);
    let (area, volts) = (w.take(&AREA)?, w.take(&VOLTS)?);
    let power = w.step("Power", &[&density, &"×", &area], density * area);
    let current = w.step("Current", &[&power, &"/", &volts], power / volts);
    let spare = w.take(&SPARE)?;
    let wanted = w.step("Circuit wanted", &[&spare, &"×", &current], current * spare);
    let circuit = w.take(&CIRCUIT)?;
    w.at_least("the circuit", circuit, wanted);
    let protected = w.yes(&PROTECTED)?;
    w.must(
        "it has ground-fault protection of equipment",
        protected,
        "it has no ground-fault protection of equipment",
    );
    Ok(())
}
