//! Rules and their physics as they are computed, for the comparison with psychrolib, fluids, ht,
//! CoolProp and scipy. All figures are in the base units of the SI.

use std::{collections::BTreeMap, error::Error};

use grounds_measure::Units;
use grounds_rules::{
    Code, Given, InputKind, Line, Rule,
    physics::{
        air, drying, duct,
        snow::{Snowfall, load},
    },
    quantity::{Flow, Length, Quantity, Ratio, Speed, of_celsius},
    rule_named,
};
use serde::Serialize;

use super::nets::drawn::Dice;

const CASES: usize = 400;
const SEED: u64 = 20_270_610;

/// What is compared.
#[derive(Serialize)]
pub(crate) struct Rules {
    /// °C, humidity as a share; saturation in Pa, dew point in °C, water over dry air, kg/m³.
    air: Vec<[f64; 6]>,
    /// °C, humidity as a share; how much longer drying takes than at 70 °F and 50 %.
    drying: Vec<[f64; 3]>,
    /// Reynolds number, roughness over diameter; friction factor.
    friction: Vec<[f64; 3]>,
    /// m³/s, diameter, length, roughness in m; Pa lost.
    losses: Vec<[f64; 5]>,
    /// Snow as water in m/s, air and dew point in °C, wind in m/s, length in m, free share; W/m²
    /// for warming, melting, surface, drying, all.
    snow: Vec<[f64; 11]>,
    /// Rules on drawn figures.
    cases: Vec<Case>,
}

/// A rule with what went in and what each step of it came to.
#[derive(Serialize)]
struct Case {
    rule: &'static str,
    given: BTreeMap<&'static str, f64>,
    words: BTreeMap<&'static str, &'static str>,
    steps: BTreeMap<String, f64>,
}

/// Rules whose steps are computed anew by the check.
const COMPARED: [&str; 10] = [
    "duct-pressure",
    "floor-warmth",
    "glass-weight",
    "guard-load",
    "led-voltage-drop",
    "make-up-air-heat",
    "make-up-air-opening",
    "riser-and-going",
    "timber-movement",
    "tread-light",
];

pub(crate) fn rules() -> Result<Rules, Box<dyn Error>> {
    let mut dice = Dice::new(SEED);
    let mut cases = Vec::new();
    for name in COMPARED {
        let rule = rule_named(name).ok_or("a compared rule is gone")?;
        for _ in 0..CASES / 4 {
            cases.push(case(rule, &mut dice)?);
        }
    }
    Ok(Rules {
        air: drawn(&mut dice, air_at),
        drying: drawn(&mut dice, drying_at),
        friction: drawn(&mut dice, friction_at),
        losses: drawn(&mut dice, loss_at),
        snow: drawn(&mut dice, snow_at),
        cases,
    })
}

fn drawn<T>(dice: &mut Dice, one: fn(&mut Dice) -> T) -> Vec<T> {
    (0..CASES).map(|_| one(dice)).collect()
}

fn air_at(dice: &mut Dice) -> [f64; 6] {
    let (celsius, humidity) = (dice.between(-20.0, 45.0), dice.between(0.05, 1.0));
    let (warm, damp) = (of_celsius(celsius), Ratio::of_base(humidity));
    [
        celsius,
        humidity,
        air::saturation(warm).base(),
        air::dew_point(warm, damp).base() - 273.15,
        air::humidity_ratio(warm, damp).base(),
        air::density(warm).base(),
    ]
}

fn drying_at(dice: &mut Dice) -> [f64; 3] {
    let (celsius, humidity) = (dice.between(1.0, 38.0), dice.between(0.05, 0.95));
    let longer = drying::longer(of_celsius(celsius), Ratio::of_base(humidity));
    [celsius, humidity, longer]
}

fn friction_at(dice: &mut Dice) -> [f64; 3] {
    let reynolds = 10.0_f64.powf(dice.between(3.6, 7.5));
    let rough = 10.0_f64.powf(dice.between(-6.0, -1.7));
    [
        reynolds,
        rough,
        duct::friction_factor(reynolds, Ratio::of_base(rough)),
    ]
}

fn loss_at(dice: &mut Dice) -> [f64; 5] {
    let (flow, diameter) = (dice.between(0.02, 0.6), dice.between(0.1, 0.5));
    let (length, rough) = (dice.between(1.0, 40.0), dice.between(0.000_01, 0.002));
    let lengths = [diameter, length, rough].map(Length::of_base);
    let loss = duct::friction_loss(Flow::of_base(flow), lengths[0], lengths[1], lengths[2]);
    [flow, diameter, length, rough, loss.base()]
}

fn snow_at(dice: &mut Dice) -> [f64; 11] {
    let rate = dice.between(0.2, 6.0) / 1000.0 / 3600.0;
    let celsius = dice.between(-20.0, 0.0);
    let dew_point = celsius - dice.between(0.5, 6.0);
    let (wind, length, free) = (
        dice.between(1.0, 12.0),
        dice.between(1.0, 10.0),
        dice.share(),
    );
    let load = load(Snowfall {
        rate: Speed::of_base(rate),
        air: of_celsius(celsius),
        dew_point: of_celsius(dew_point),
        wind: Speed::of_base(wind),
        length: Length::of_base(length),
        free: Ratio::of_base(free),
    });
    let parts = [
        load.warming,
        load.melting,
        load.surface,
        load.drying,
        load.all,
    ];
    let [warming, melting, surface, drying, all] = parts.map(Quantity::base);
    [
        rate, celsius, dew_point, wind, length, free, warming, melting, surface, drying, all,
    ]
}

/// A rule on figures drawn from the ranges of its inputs.
fn case(rule: &'static Rule, dice: &mut Dice) -> Result<Case, Box<dyn Error>> {
    let mut given = Given::new();
    let (mut went_in, mut words) = (BTreeMap::new(), BTreeMap::new());
    for spec in rule.inputs {
        match spec.kind {
            InputKind::Quantity(kind) => {
                let (Ok(low), Ok(high)) = (kind.read(spec.least), kind.read(spec.most)) else {
                    continue;
                };
                // As it is written: to four figures, as a person would.
                let text = kind
                    .show(dice.between(low, high), Units::Metric)
                    .replace('−', "-");
                given
                    .put(rule, spec.name, &text, "drawn")
                    .map_err(|fault| fault.to_string())?;
                went_in.insert(
                    spec.name,
                    kind.read(&text).map_err(|misread| misread.to_string())?,
                );
            }
            InputKind::Word(choices) => {
                let word = choices
                    .get(dice.below(choices.len()))
                    .copied()
                    .unwrap_or_default();
                given
                    .put(rule, spec.name, word, "drawn")
                    .map_err(|fault| fault.to_string())?;
                words.insert(spec.name, word);
            }
            InputKind::YesNo => {
                given
                    .put(rule, spec.name, "no", "drawn")
                    .map_err(|fault| fault.to_string())?;
            }
        }
    }
    let answer = rule.check(&given, Code::usual(Units::Metric), Units::Metric);
    let steps = answer.lines.into_iter().filter_map(|line| match line {
        Line::Step { what, base, .. } => Some((what, base)),
        _ => None,
    });
    Ok(Case {
        rule: rule.name,
        given: went_in,
        words,
        steps: steps.collect(),
    })
}
