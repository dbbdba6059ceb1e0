//! Snow melting with warm water: how much must be pumped.

use crate::rules::{
    heating::{snow_melt_electric::AREA, snow_melt_load::GIVES},
    prelude::*,
};

pub(crate) const DROP: Input<Difference> = asked(
    "water-drop",
    "how much the water cools on its way",
    Who::Services,
)
.between("1 K", "40 K")
.guessed("14 K", "11 K", "17 K", "20 to 30 °F");
const GLYCOL: Input<Ratio> = asked("glycol", "the share of glycol in the water", Who::Services)
    .between("0 %", "60 %")
    .guessed("40 %", "30 %", "50 %", "30 to 50 %");
pub(crate) const PUMPED: Input<Flow> = asked(
    "pump-flow",
    "what the pump moves through the loops",
    Who::Maker,
)
.between("0.1 L/min", "2000 L/min");
pub(crate) const LOOP: Input<Length> = asked("loop-length", "the longest loop", Who::Drawings)
    .between("1 m", "400 m")
    .wanted();
const LOOP_MOST: Input<Length> = limit("loop-most", "the longest loop that is usual").or(
    "90 m",
    "250 to 300 ft of 3/4 in pipe",
    Practice,
);

pub(crate) static RULE: Rule = Rule {
    name: "snow-melt-water",
    title: "Supply of snow melting with water",
    family: Family::Heating,
    question: "Does the pump bring the heat to the slab, and are the loops short enough?",
    inputs: &[
        GIVES.spec,
        AREA.spec,
        DROP.spec,
        GLYCOL.spec,
        PUMPED.spec,
        LOOP.spec,
        LOOP_MOST.spec,
    ],
    formula: &[
        "Q = P / (ρ c ΔT)",
        "ρ c = 4180 kJ/(m³ K) × (1 − 0.3 × share of glycol)",
    ],
    sources: &[
        published("Heat carried by water, 4180 kJ/(m³ K), about 500 Btu/h per gpm and °F"),
        practice("Propylene glycol takes about 3 % off for each tenth; loops to 300 ft"),
    ],
    caution: cautions::SNOW,
    way_out: "A larger pump, more and shorter loops, or a larger drop.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (density, area) = (w.take(&GIVES)?, w.take(&AREA)?);
    let power = w.step("Power", &[&density, &"×", &area], density * area);
    let (drop, glycol) = (w.take(&DROP)?, w.take(&GLYCOL)?);
    let carried = 4.18e6 * (1.0 - 0.3 * glycol.base());
    let flow = Flow::of_base(power.base() / (carried * drop.base()));
    let flow = w.step(
        "Flow wanted",
        &[
            &power,
            &"/ (4180 kJ/(m³ K) × (1 − 0.3 ×",
            &glycol,
            &") ×",
            &drop,
            &")",
        ],
        flow,
    );
    let pumped = w.take(&PUMPED)?;
    w.at_least("what the pump moves", pumped, flow);
    if let Some(run) = w.known(&LOOP) {
        let most = w.take(&LOOP_MOST)?;
        w.at_most("the longest loop", run, most);
    }
    Ok(())
}
