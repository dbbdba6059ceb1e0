//! What it takes to melt snow as it falls, and whether the heating gives it.

use crate::{
    physics::snow::{Snowfall, load},
    rules::prelude::*,
};

pub(crate) const RATE: Input<Speed> = asked(
    "snowfall",
    "the snow that falls in an hour, as water",
    Who::Weather,
)
.between("0.1 mm/h", "30 mm/h");
pub(crate) const AIR: Input<Temperature> =
    asked("snow-air", "the air while it snows", Who::Weather).between("-40 C", "2 C");
const DEW: Input<Temperature> =
    asked("snow-dew-point", "its dew point", Who::Weather).between("-50 C", "2 C");
const WIND: Input<Speed> =
    asked("snow-wind", "the wind while it snows", Who::Weather).between("0 m/s", "30 m/s");
const LENGTH: Input<Length> = asked(
    "slab-length",
    "the length of the slab along the wind",
    Who::Drawings,
)
.between("300 mm", "60 m")
.guessed("6.1 m", "2 m", "10 m", "ASHRAE's tables use 20 ft");
const FREE: Input<Ratio> = asked(
    "snow-free",
    "the share of the slab that must stay free of snow",
    Who::Designer,
)
.between("0 %", "100 %")
.guessed(
    "50 %",
    "0 %",
    "100 %",
    "Homes 0, shops 50, emergency ways 100 %",
);
const LOST: Input<Ratio> = asked(
    "back-loss",
    "what goes into the ground and out at the edges",
    Who::Services,
)
.between("0 %", "60 %")
.guessed(
    "10 %",
    "5 %",
    "30 %",
    "5 to 10 % on insulation, 20 to 30 % without",
);
pub(crate) const GIVES: Input<HeatFlux> =
    asked("melt-power", "the heat put into the slab", Who::Services)
        .between("10 W/m2", "2000 W/m2");

pub(crate) static RULE: Rule = Rule {
    name: "snow-melt-load",
    title: "Load of snow melting",
    family: Family::Heating,
    question: "Is enough heat put into the slab to melt this snow as it falls?",
    inputs: &[
        RATE.spec,
        AIR.spec,
        DEW.spec,
        WIND.spec,
        LENGTH.spec,
        FREE.spec,
        LOST.spec,
        GIVES.spec,
    ],
    formula: &[
        "q = q_s + q_m + A_r (q_e + q_h)",
        "heat put in × (1 − loss) ≥ q",
    ],
    sources: &[
        published("ASHRAE Handbook, HVAC Applications, snow melting: the sum and A_r"),
        memory("The same: its terms and constants"),
    ],
    caution: cautions::SNOW,
    way_out: "Closer cable or pipe, insulation under the slab, or putting up with slush.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let snowfall = Snowfall {
        rate: w.take(&RATE)?,
        air: w.take(&AIR)?,
        dew_point: w.take(&DEW)?,
        wind: w.take(&WIND)?,
        length: w.take(&LENGTH)?,
        free: w.take(&FREE)?,
    };
    let load = load(snowfall);
    w.step(
        "Warming the snow",
        &[&"q_s for", &snowfall.rate, &"at", &snowfall.air],
        load.warming,
    );
    w.step("Melting it", &[&"q_m for", &snowfall.rate], load.melting);
    w.step(
        "Lost to wind and sky",
        &[&"q_h in", &snowfall.wind],
        load.surface,
    );
    w.step(
        "Lost with the water that dries off",
        &[&"q_e at a dew point of", &snowfall.dew_point],
        load.drying,
    );
    let all = w.step(
        "Heat at the surface",
        &[
            &load.warming,
            &"+",
            &load.melting,
            &"+",
            &snowfall.free,
            &"× (",
            &load.drying,
            &"+",
            &load.surface,
            &")",
        ],
        load.all,
    );
    let lost = w.take(&LOST)?;
    let gives = w.take(&GIVES)?;
    let kept = Ratio::of_base(1.0 - lost.base());
    let reaches = w.step(
        "What reaches the surface",
        &[&gives, &"×", &kept],
        gives * kept,
    );
    w.at_least("the heat at the surface", reaches, all);
    w.say("Melt water needs a way off that does not freeze.");
    Ok(())
}
