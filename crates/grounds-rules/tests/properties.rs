//! What can never be: more is never enough where less was, whatever the figures.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at the first surprise"
)]

use grounds_measure::Units;
use grounds_rules::{
    Answer, Code, Given, InputKind, Verdict, all,
    physics::{air, drying, duct},
    quantity::{Length, Quantity, Ratio, Speed, of_celsius},
    rule_named,
};
use proptest::prelude::*;

fn answer(rule: &str, pairs: &[(&str, String)]) -> Answer {
    let rule = rule_named(rule).unwrap();
    let code = Code::named("metric-europe").unwrap();
    let pairs = pairs.iter().map(|(key, text)| (*key, text.as_str()));
    let given =
        Given::read(rule, pairs).unwrap_or_else(|faults| panic!("{}: {faults:?}", rule.name));
    rule.check(&given, code, Units::Metric)
}

fn figure(answer: &Answer, step: &str) -> f64 {
    answer
        .figure(step)
        .unwrap_or_else(|| panic!("no step {step}: {}", answer.said))
        .0
}

/// Changing one figure so that more is asked never turns a fail into a pass.
#[track_caller]
fn never_needs_less(before: &Answer, after: &Answer) {
    assert!(
        !(before.verdict == Verdict::Fails && after.verdict == Verdict::Passes),
        "{}\nand then\n{}",
        before.said,
        after.said
    );
}

/// A rule, the figure that asks for more the larger it is, its range, its unit, and the rest.
type Harder = (
    &'static str,
    &'static str,
    (f64, f64),
    &'static str,
    &'static [(&'static str, &'static str)],
);

/// Each rule with figures that it can be evaluated on.
const HARDER: [Harder; 20] = [
    (
        "make-up-air",
        "airflow",
        (20.0, 1500.0),
        "L/s",
        &[("supply-air", "200 L/s"), ("opens-with-fan", "yes")],
    ),
    (
        "make-up-air-opening",
        "supply-air",
        (20.0, 1500.0),
        "L/s",
        &[("opening-area", "0.2 m2")],
    ),
    (
        "make-up-air-heat",
        "supply-air",
        (20.0, 1500.0),
        "L/s",
        &[("design-temperature", "-5 C"), ("heater-power", "5 kW")],
    ),
    (
        "duct-speed",
        "airflow",
        (10.0, 1000.0),
        "L/s",
        &[("duct-diameter", "200 mm"), ("duct-use", "hood")],
    ),
    (
        "duct-pressure",
        "duct-length",
        (0.2, 50.0),
        "m",
        &[
            ("airflow", "250 L/s"),
            ("duct-diameter", "200 mm"),
            ("duct-bends", "1"),
            ("fan-pressure", "120 Pa"),
        ],
    ),
    (
        "dryer-duct",
        "duct-bends",
        (0.0, 10.0),
        "",
        &[("duct-length", "3 m")],
    ),
    (
        "riser-and-going",
        "riser",
        // Below 155 mm the two risers and the going together come too short: there higher is easier.
        (156.0, 300.0),
        "mm",
        &[("going", "240 mm")],
    ),
    ("flight", "risers", (2.0, 55.0), "", &[("riser", "180 mm")]),
    (
        "guard-gaps",
        "guard-gap",
        (0.0, 200.0),
        "mm",
        &[("guard-stands", "floor")],
    ),
    (
        "guard-load",
        "post-spacing",
        (0.1, 5.0),
        "m",
        &[("guard-height", "1100 mm"), ("fixing-moment", "700 Nm")],
    ),
    (
        "glass-weight",
        "pane-width",
        (0.1, 5.0),
        "m",
        &[
            ("pane-height", "2 m"),
            ("pane-thickness", "10 mm"),
            ("lifters", "2"),
        ],
    ),
    (
        "glass-clearance",
        "pane-thickness",
        (3.0, 40.0),
        "mm",
        &[("edge-clearance", "9 mm")],
    ),
    (
        "screed-drying",
        "screed-thickness",
        (10.0, 300.0),
        "mm",
        &[("screed-kind", "cement"), ("screed-age", "60 days")],
    ),
    (
        "strip-movement",
        "strip-length",
        (0.5, 50.0),
        "m",
        &[
            ("strip-material", "aluminium"),
            ("temperature-swing", "30 K"),
            ("joint-width", "10 mm"),
        ],
    ),
    (
        "timber-movement",
        "field-width",
        (0.5, 20.0),
        "m",
        &[
            ("wood", "white-oak"),
            ("sawn", "flat"),
            ("board-make", "solid"),
            ("board-width", "120 mm"),
            ("board-moisture", "8 %"),
            ("edge-gap", "12 mm"),
        ],
    ),
    (
        "snow-melt-electric",
        "melt-area",
        (0.5, 200.0),
        "m2",
        &[
            ("melt-power", "300 W/m2"),
            ("supply-voltage", "230 V"),
            ("circuit-rating", "40 A"),
            ("ground-fault-protection", "yes"),
        ],
    ),
    (
        "floor-warmth",
        "floor-output",
        (5.0, 300.0),
        "W/m2",
        &[("floor-finish", "stone")],
    ),
    (
        "led-driver",
        "strip-run",
        (0.2, 50.0),
        "m",
        &[("strip-power", "9.6 W/m"), ("driver-power", "75 W")],
    ),
    (
        "led-voltage-drop",
        "wire-run",
        (0.0, 100.0),
        "m",
        &[
            ("strip-voltage", "24 V"),
            ("strip-power", "9.6 W/m"),
            ("strip-run", "5 m"),
            ("wire", "1.5-mm2"),
        ],
    ),
    (
        "box-fill",
        "box-wires",
        (0.0, 60.0),
        "",
        &[
            ("box-volume", "20 in3"),
            ("box-wire-size", "awg-12"),
            ("box-devices", "1"),
        ],
    ),
];

proptest! {
    #[test]
    fn more_never_needs_less(which in 0..HARDER.len(), one in 0.0..1.0_f64, other in 0.0..1.0_f64) {
        let (rule, key, (low, high), unit, rest) = HARDER[which];
        let at = |share: f64| {
            let value = low + (high - low) * share;
            let mut pairs: Vec<(&str, String)> = rest.iter().map(|(key, text)| (*key, (*text).to_owned())).collect();
            pairs.push((key, format!("{value:.6} {unit}")));
            answer(rule, &pairs)
        };
        never_needs_less(&at(one.min(other)), &at(one.max(other)));
    }

    #[test]
    fn a_longer_duct_or_a_narrower_one_never_loses_less(
        flow in 10.0..600.0_f64, diameter in 100.0..500.0_f64, length in 1.0..40.0_f64, more in 0.0..20.0_f64,
    ) {
        let flow = grounds_rules::quantity::Flow::of_base(flow / 1000.0);
        let loss = |diameter: f64, length: f64| {
            let rough = Length::of_base(0.000_09);
            duct::friction_loss(flow, Length::of_base(diameter / 1000.0), Length::of_base(length), rough).base()
        };
        prop_assert!(loss(diameter, length + more) >= loss(diameter, length));
        prop_assert!(loss(diameter + more, length) <= loss(diameter, length) * 1.2);
        prop_assert!(loss(diameter * 1.5, length) <= loss(diameter, length));
    }

    #[test]
    fn a_wider_span_of_the_guard_never_needs_a_weaker_fixing(
        spacing in 0.2..5.0_f64, more in 0.0..0.9_f64, height in 0.5..1.4_f64,
    ) {
        let moment = |spacing: f64, height: f64| {
            let pairs = [
                ("guard-height", format!("{height:.4} m")),
                ("post-spacing", format!("{spacing:.4} m")),
                ("fixing-moment", "500 Nm".to_owned()),
            ];
            figure(&answer("guard-load", &pairs), "Moment of the load along the top")
        };
        prop_assert!(moment(spacing + more, height) >= moment(spacing, height));
        prop_assert!(moment(spacing, height + more) >= moment(spacing, height));
    }

    #[test]
    fn colder_or_damper_air_never_dries_faster(
        celsius in 1.0..35.0_f64, humidity in 0.05..0.95_f64, colder in 0.0..10.0_f64, damper in 0.0..0.04_f64,
    ) {
        let longer = |celsius: f64, humidity: f64| drying::longer(of_celsius(celsius), Ratio::of_base(humidity));
        prop_assert!(longer(celsius - colder, humidity) >= longer(celsius, humidity) * 0.999_999);
        prop_assert!(longer(celsius, humidity + damper) >= longer(celsius, humidity));
        prop_assert!((longer(21.111_111, 0.5) - 1.0).abs() < 1e-3);
    }

    #[test]
    fn the_dew_point_is_never_over_the_air_and_rises_with_its_humidity(
        celsius in -20.0..45.0_f64, humidity in 0.05..1.0_f64, more in 0.0..0.3_f64,
    ) {
        let dew = |humidity: f64| air::dew_point(of_celsius(celsius), Ratio::of_base(humidity.min(1.0))).base();
        prop_assert!(dew(humidity) <= celsius + 273.15 + 1e-6);
        prop_assert!(dew(humidity + more) >= dew(humidity) - 1e-6);
    }

    #[test]
    fn friction_falls_with_the_flow_and_rises_with_roughness(reynolds in 4000.0..1e7_f64, rough in 1e-6..0.02_f64) {
        let factor = |reynolds: f64, rough: f64| duct::friction_factor(reynolds, Ratio::of_base(rough));
        prop_assert!(factor(reynolds * 1.5, rough) <= factor(reynolds, rough) + 1e-12);
        prop_assert!(factor(reynolds, rough * 1.5) >= factor(reynolds, rough) - 1e-12);
        prop_assert!(duct::speed_pressure(Speed::of_base(2.0)) > duct::speed_pressure(Speed::of_base(1.0)));
    }

    #[test]
    fn any_figures_at_all_give_an_answer_without_fear(which in 0..1000_usize, seeds in prop::collection::vec(0.0..1.0_f64, 24)) {
        let rule = all()[which % all().len()];
        let mut given = Given::new();
        for (spec, seed) in rule.inputs.iter().zip(seeds) {
            let text = match spec.kind {
                InputKind::YesNo => if seed < 0.5 { "yes" } else { "no" }.to_owned(),
                InputKind::Word(words) => words[(seed * words.len() as f64) as usize % words.len()].to_owned(),
                InputKind::Quantity(kind) => {
                    let (Ok(low), Ok(high)) = (kind.read(spec.least), kind.read(spec.most)) else { continue };
                    // The ends of the range are where formulas break.
                    let base = if seed < 0.2 { low } else if seed > 0.8 { high } else { low + (high - low) * seed };
                    kind.show(base, Units::Metric).replace('−', "-")
                }
            };
            let _ = given.put(rule, spec.name, &text, "drawn");
        }
        for units in [Units::Metric, Units::Imperial] {
            let answer = rule.check(&given, &Code::all()[which % 3], units);
            prop_assert!(!answer.said.is_empty());
            for line in answer.working() {
                prop_assert!(!line.contains("NaN") && !line.contains("inf "), "{}: {line}", rule.name);
            }
        }
    }
}
