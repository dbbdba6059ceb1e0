//! What the voltage drops by on the way to LED strip and along it.

use crate::rules::{
    electric::led_driver::{PER_LENGTH, STRIP},
    prelude::*,
};

pub(crate) const VOLTS: Input<Voltage> =
    asked("strip-voltage", "the voltage of the strip", Who::Maker).between("5 V", "60 V");
pub(crate) const WIRE: Input<Word> = word(
    "wire",
    "the wire to the strip",
    &[
        "awg-18", "awg-16", "awg-14", "awg-12", "awg-10", "0.75-mm2", "1-mm2", "1.5-mm2",
        "2.5-mm2", "4-mm2",
    ],
    Who::Electrician,
);
pub(crate) const WAY: Input<Length> = asked(
    "wire-run",
    "the way from the driver to the strip",
    Who::Drawings,
)
.between("0 mm", "200 m");
const PER_METRE: Input<Resistance> = asked(
    "strip-resistance",
    "the resistance of a metre of strip, there and back",
    Who::Maker,
)
.between("0.001 ohm", "5 ohm")
.wanted();
const FED: Input<Word> = word(
    "strip-fed",
    "how the strip is fed",
    &["one-end", "both-ends"],
    Who::Drawings,
);
const FIRST: Input<Ratio> = limit(
    "drop-to-strip-most",
    "the drop to the strip that is put up with",
)
.or("3 %", "NEC 210.19, informational", Memory);
const WHOLE: Input<Ratio> = limit("drop-whole-most", "the drop to the end that is put up with").or(
    "10 %",
    "Beyond that the far end is seen to be dimmer",
    Practice,
);

/// Ohms in a kilometre of copper at 75 °C: American sizes, solid, NEC chapter 9 table 8; metric
/// sizes by IEC 60228 at 20 °C, times 1.216 for 75 °C.
const WIRES: [(&str, f64); 10] = [
    ("awg-18", 25.49),
    ("awg-16", 16.04),
    ("awg-14", 10.07),
    ("awg-12", 6.332),
    ("awg-10", 3.970),
    ("0.75-mm2", 24.5 * 1.216),
    ("1-mm2", 18.1 * 1.216),
    ("1.5-mm2", 12.1 * 1.216),
    ("2.5-mm2", 7.41 * 1.216),
    ("4-mm2", 4.61 * 1.216),
];

pub(crate) static RULE: Rule = Rule {
    name: "led-voltage-drop",
    title: "Voltage drop of LED strip",
    family: Family::Electric,
    question: "Does the strip get its voltage, and how long may the wire to it be?",
    inputs: &[
        VOLTS.spec,
        PER_LENGTH.spec,
        STRIP.spec,
        WIRE.spec,
        WAY.spec,
        FIRST.spec,
        PER_METRE.spec,
        FED.spec,
        WHOLE.spec,
    ],
    formula: &[
        "I = P / V",
        "ΔV = 2 L I R'",
        "along the strip: I R / 2 fed at one end, I R / 8 at both",
    ],
    sources: &[
        published("NEC (NFPA 70) chapter 9 table 8, copper at 75 °C"),
        memory(
            "IEC 60228 conductor resistances; NEC 210.19: 3 % to the load, 5 % in all, informational",
        ),
    ],
    caution: cautions::ELECTRIC,
    way_out: "Thicker wire, a driver nearer, feeding the strip at both ends, or 24 V for 12 V.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let volts = w.take(&VOLTS)?;
    let (each, run) = (w.take(&PER_LENGTH)?, w.take(&STRIP)?);
    let power = w.step("Load", &[&each, &"×", &run], each * run);
    let current = w.step("Current", &[&power, &"/", &volts], power / volts);
    let wire = w.word(&WIRE)?;
    let per_km = WIRES
        .iter()
        .find(|(name, _)| *name == wire)
        .map_or(30.0, |(_, ohms)| *ohms);
    let per_km = w.step(
        "Resistance of a kilometre of it at 75 °C",
        &[&"by the table"],
        Resistance::of_base(per_km),
    );
    let per_length = per_km / fixed::<Length>("1000 m");
    let way = w.take(&WAY)?;
    let drop = way * per_length * current * 2.0;
    let drop = w.step(
        "Drop to the strip",
        &[&"2 ×", &way, &"×", &current, &"×", &per_km, &"/ km"],
        drop,
    );
    let share = w.step("As a share", &[&drop, &"/", &volts], drop / volts);
    let first = w.take(&FIRST)?;
    let longest = volts * first / (per_length * current * 2.0);
    w.step(
        "Longest way",
        &[
            &first, &"×", &volts, &"/ (2 ×", &current, &"×", &per_km, &"/ km)",
        ],
        longest,
    );
    w.at_most("the drop to the strip, as a share", share, first);
    let Some(per_metre) = w.known(&PER_METRE) else {
        return Ok(());
    };
    let part = if w.word(&FED)? == "both-ends" {
        8.0
    } else {
        2.0
    };
    let strip = per_metre * (run / fixed::<Length>("1 m"));
    let along = w.step(
        "Drop along the strip",
        &[&current, &"×", &strip, &"/", &Number(part)],
        current * strip / part,
    );
    let all = w.step(
        "In all, as a share",
        &[&"(", &drop, &"+", &along, &") /", &volts],
        (drop + along) / volts,
    );
    let whole = w.take(&WHOLE)?;
    w.at_most("the drop to the end, as a share", all, whole);
    Ok(())
}
