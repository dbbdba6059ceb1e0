//! Every kind of quantity, with its units.
//!
//! Conversions are exact by definition (NIST Special Publication 811, appendix B, published) except
//! the inch of water, 249.089 Pa at 4 °C (same), and the British thermal unit, 1055.056 J (the
//! International Table one, same).

use std::str::FromStr;

use grounds_measure as measure;

use super::{Kind, Unit};

const FT: f64 = 0.3048;
const LB: f64 = 0.453_592_37;
const LBF: f64 = LB * 9.806_65;
const BTU_H: f64 = 0.293_071;
const IN_WG: f64 = 249.089;
const GAL: f64 = 0.003_785_411_784;

const fn unit(spellings: &'static [&'static str], each: f64) -> Unit {
    Unit {
        spellings,
        each,
        before: 0.0,
    }
}

const fn kind(
    name: &'static str,
    example: &'static str,
    units: &'static [Unit],
    metric: &'static [(&'static str, f64)],
    imperial: &'static [(&'static str, f64)],
) -> Kind {
    Kind {
        name,
        example,
        units,
        metric,
        imperial,
        reader: None,
    }
}

const fn read_by(kind: Kind, reader: fn(&str) -> Option<f64>) -> Kind {
    Kind {
        reader: Some(reader),
        ..kind
    }
}

fn parsed<T: FromStr>(text: &str, base: fn(T) -> f64) -> Option<f64> {
    text.parse::<T>().ok().map(base)
}

pub(super) static LENGTH: Kind = read_by(
    kind(
        "length",
        "a length like 1032 mm, 2.4 m or 3' 4 5/8\"",
        &[
            unit(&["mm"], 0.001),
            unit(&["cm"], 0.01),
            unit(&["m"], 1.0),
            unit(&["in", "\""], FT / 12.0),
            unit(&["ft", "'"], FT),
            unit(&["mil", "mils"], FT / 12_000.0),
        ],
        &[("m", 10.0), ("mm", 0.0)],
        &[("ft", 10.0 * FT), ("in", 0.0)],
    ),
    |text| parsed(text, measure::Length::metres),
);

pub(super) static AREA: Kind = read_by(
    kind(
        "area",
        "an area like 0.06 m2, 600 cm2 or 2.5 ft2",
        &[
            unit(&["m2", "sq m"], 1.0),
            unit(&["cm2"], 1e-4),
            unit(&["mm2"], 1e-6),
            unit(&["ft2", "sq ft"], FT * FT),
            unit(&["in2", "sq in"], FT * FT / 144.0),
        ],
        &[("m2", 0.1), ("cm2", 1e-4), ("mm2", 0.0)],
        &[("ft2", 6.0 * FT * FT), ("in2", 0.0)],
    ),
    |text| parsed(text, measure::Area::m2),
);

pub(super) static VOLUME: Kind = read_by(
    kind(
        "volume",
        "a volume like 180 L, 0.3 m3 or 22.5 in3",
        &[
            unit(&["m3"], 1.0),
            unit(&["L", "l", "litres", "liters"], 0.001),
            unit(&["mL", "ml", "cm3"], 1e-6),
            unit(&["ft3", "cu ft"], FT * FT * FT),
            unit(&["in3", "cu in"], FT * FT * FT / 1728.0),
            unit(&["gal"], GAL),
        ],
        &[("m3", 1.0), ("L", 0.001), ("mL", 0.0)],
        &[("ft3", 0.1), ("gal", 0.5 * GAL), ("in3", 0.0)],
    ),
    |text| parsed(text, |volume: measure::Volume| volume.litres() / 1000.0),
);

pub(super) static MASS: Kind = read_by(
    kind(
        "weight",
        "a weight like 42 kg or 95 lb",
        &[
            unit(&["kg"], 1.0),
            unit(&["g"], 0.001),
            unit(&["t"], 1000.0),
            unit(&["lb", "lbs"], LB),
        ],
        &[("kg", 0.0)],
        &[("lb", 0.0)],
    ),
    |text| parsed(text, measure::Weight::kg),
);

pub(super) static AREAL_MASS: Kind = kind(
    "weight over an area",
    "a weight over an area like 25 kg/m2 or 5 lb/ft2",
    &[
        unit(&["kg/m2"], 1.0),
        unit(&["lb/ft2", "psf"], LB / (FT * FT)),
    ],
    &[("kg/m2", 0.0)],
    &[("lb/ft2", 0.0)],
);

pub(super) static DENSITY: Kind = kind(
    "weight in a volume",
    "a density like 2500 kg/m3, 156 lb/ft3, or 0.05 mg/m3 for dust in air",
    &[
        unit(&["kg/m3"], 1.0),
        unit(&["g/m3"], 1e-3),
        unit(&["mg/m3"], 1e-6),
        unit(&["ug/m3"], 1e-9),
        unit(&["lb/ft3"], LB / (FT * FT * FT)),
    ],
    &[("kg/m3", 0.1), ("mg/m3", 0.0)],
    &[("lb/ft3", 0.1), ("mg/m3", 0.0)],
);

pub(super) static TIME: Kind = read_by(
    kind(
        "time",
        "a time like 4 h, 90 min or 14 days",
        &[
            unit(&["s", "sec"], 1.0),
            unit(&["min"], 60.0),
            unit(&["h", "hr", "hours"], 3600.0),
            unit(&["days", "d", "day"], 86_400.0),
            unit(&["weeks", "week", "wk"], 604_800.0),
        ],
        &[
            ("days", 4.0 * 86_400.0),
            ("h", 5400.0),
            ("min", 60.0),
            ("s", 0.0),
        ],
        &[
            ("days", 4.0 * 86_400.0),
            ("h", 5400.0),
            ("min", 60.0),
            ("s", 0.0),
        ],
    ),
    |text| match text.parse() {
        Ok(measure::Span::Elapsed(minutes)) => Some(f64::from(minutes) * 60.0),
        _ => None,
    },
);

pub(super) static TEMPERATURE: Kind = read_by(
    kind(
        "temperature",
        "a temperature like 21.5 C or 70 F",
        &[
            Unit {
                spellings: &["C"],
                each: 1.0,
                before: 273.15,
            },
            Unit {
                spellings: &["F"],
                each: 5.0 / 9.0,
                before: 459.67,
            },
        ],
        &[("C", 0.0)],
        &[("F", 0.0)],
    ),
    |text| {
        parsed(text, |temperature: measure::Temperature| {
            temperature.celsius() + 273.15
        })
    },
);

pub(super) static DIFFERENCE: Kind = kind(
    "difference of temperatures",
    "a difference like 5 K or 9 F",
    &[unit(&["K", "C"], 1.0), unit(&["F"], 5.0 / 9.0)],
    &[("K", 0.0)],
    &[("F", 0.0)],
);

pub(super) static RATIO: Kind = kind(
    "share",
    "a share or a slope like 2 %, 1:50, 20 mm/m or 1/4 in/ft",
    &[
        unit(&["%"], 0.01),
        unit(&["mm/m"], 0.001),
        unit(&["in/ft"], 1.0 / 12.0),
    ],
    &[("%", 0.0)],
    &[("%", 0.0)],
);

pub(super) static NUMBER: Kind = kind(
    "number",
    "a plain number like 3 or 0.8",
    &[unit(&[""], 1.0)],
    &[("", 0.0)],
    &[("", 0.0)],
);

pub(super) static FLOW: Kind = kind(
    "flow",
    "a flow like 600 cfm, 280 L/s or 1000 m3/h",
    &[
        unit(&["L/s", "l/s"], 0.001),
        unit(&["m3/h"], 1.0 / 3600.0),
        unit(&["m3/s"], 1.0),
        unit(&["cfm"], FT * FT * FT / 60.0),
        unit(&["L/min", "l/min"], 0.001 / 60.0),
        unit(&["gpm"], GAL / 60.0),
    ],
    &[("L/s", 0.0)],
    &[("cfm", 0.001), ("gpm", 0.0)],
);

pub(super) static SPEED: Kind = kind(
    "speed",
    "a speed like 2.5 m/s, 500 fpm or 2 mm/h",
    &[
        unit(&["m/s"], 1.0),
        unit(&["km/h"], 1.0 / 3.6),
        unit(&["mm/h"], 0.001 / 3600.0),
        unit(&["fpm", "ft/min"], FT / 60.0),
        unit(&["mph"], 0.447_04),
        unit(&["in/h"], FT / 12.0 / 3600.0),
    ],
    &[("m/s", 0.001), ("mm/h", 0.0)],
    &[("fpm", 0.001), ("in/h", 0.0)],
);

pub(super) static PRESSURE: Kind = kind(
    "pressure",
    "a pressure like 5 Pa, 0.25 in wg, 2 kPa or 40 psf",
    &[
        unit(&["Pa"], 1.0),
        unit(&["kPa", "kN/m2"], 1000.0),
        unit(&["bar"], 1e5),
        unit(&["in wg", "inwg"], IN_WG),
        unit(&["psf"], LBF / (FT * FT)),
        unit(&["psi"], LBF / (FT * FT) * 144.0),
        unit(&["inHg"], 3386.39),
    ],
    &[("kPa", 1000.0), ("Pa", 0.0)],
    &[("psf", 1000.0), ("in wg", 0.0)],
);

pub(super) static POWER: Kind = kind(
    "power",
    "a power like 60 W, 3 kW or 20000 Btu/h",
    &[
        unit(&["W"], 1.0),
        unit(&["kW"], 1000.0),
        unit(&["Btu/h"], BTU_H),
        unit(&["VA"], 1.0),
    ],
    &[("kW", 10_000.0), ("W", 0.0)],
    &[("W", 0.0)],
);

pub(super) static HEAT_FLUX: Kind = kind(
    "power over an area",
    "a power over an area like 300 W/m2, 50 W/ft2 or 150 Btu/h.ft2",
    &[
        unit(&["W/m2"], 1.0),
        unit(&["W/ft2"], 1.0 / (FT * FT)),
        unit(&["Btu/h.ft2", "Btu/hft2"], BTU_H / (FT * FT)),
    ],
    &[("W/m2", 0.0)],
    &[("Btu/h.ft2", 0.0)],
);

pub(super) static LINEAR_POWER: Kind = kind(
    "power along a length",
    "a power along a length like 14.4 W/m or 4.4 W/ft",
    &[unit(&["W/m"], 1.0), unit(&["W/ft"], 1.0 / FT)],
    &[("W/m", 0.0)],
    &[("W/ft", 0.0)],
);

pub(super) static CURRENT: Kind = kind(
    "current",
    "a current like 2.5 A or 30 mA",
    &[unit(&["A"], 1.0), unit(&["mA"], 0.001)],
    &[("A", 0.1), ("mA", 0.0)],
    &[("A", 0.1), ("mA", 0.0)],
);

pub(super) static VOLTAGE: Kind = kind(
    "voltage",
    "a voltage like 24 V",
    &[unit(&["V"], 1.0), unit(&["mV"], 0.001)],
    &[("V", 0.0)],
    &[("V", 0.0)],
);

pub(super) static RESISTANCE: Kind = kind(
    "resistance",
    "a resistance like 0.18 ohm",
    &[unit(&["ohm", "Ω"], 1.0)],
    &[("ohm", 0.0)],
    &[("ohm", 0.0)],
);

pub(super) static FORCE: Kind = kind(
    "force",
    "a force like 890 N, 1.1 kN or 200 lbf",
    &[
        unit(&["N"], 1.0),
        unit(&["kN"], 1000.0),
        unit(&["lbf", "lb"], LBF),
    ],
    &[("kN", 1000.0), ("N", 0.0)],
    &[("lbf", 0.0)],
);

pub(super) static LINE_LOAD: Kind = kind(
    "load along a length",
    "a load along a length like 0.74 kN/m or 50 plf",
    &[
        unit(&["N/m"], 1.0),
        unit(&["kN/m"], 1000.0),
        unit(&["plf", "lbf/ft"], LBF / FT),
    ],
    &[("kN/m", 0.0)],
    &[("plf", 0.0)],
);

pub(super) static MOMENT: Kind = kind(
    "moment",
    "a moment like 0.8 kNm or 700 lbf.ft",
    &[
        unit(&["Nm", "N.m"], 1.0),
        unit(&["kNm", "kN.m"], 1000.0),
        unit(&["lbf.ft", "lbfft"], LBF * FT),
    ],
    &[("kNm", 1000.0), ("Nm", 0.0)],
    &[("lbf.ft", 0.0)],
);

pub(super) static INTENSITY: Kind = kind(
    "light in one direction",
    "an intensity like 30 cd",
    &[unit(&["cd"], 1.0)],
    &[("cd", 0.0)],
    &[("cd", 0.0)],
);

pub(super) static ILLUMINANCE: Kind = kind(
    "light on a surface",
    "a light like 100 lx or 10 fc",
    &[unit(&["lx", "lux"], 1.0), unit(&["fc"], 1.0 / (FT * FT))],
    &[("lx", 0.0)],
    &[("fc", 0.0)],
);
