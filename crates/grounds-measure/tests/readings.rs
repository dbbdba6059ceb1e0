//! Areas, volumes, weights, temperatures, humidity and shares.

use grounds_measure::{
    Area, Humidity, HumidityRange, Length, Money, Percent, Temperature, TemperatureRange, Units,
    Volume, Weight,
};
use proptest::prelude::*;

type Checked = Result<(), Box<dyn std::error::Error>>;

#[test]
fn conversions_are_exact_by_their_definitions() -> Checked {
    // (304.8 mm)² and (25.4 mm)²; international yard and pound agreement, 1959 (published).
    assert_eq!("1 ft2".parse::<Area>()?, "92903.04 mm2".parse()?);
    assert_eq!("144 in2".parse::<Area>()?, "1 sq ft".parse()?);
    // 231 in³; NIST Handbook 44, appendix C (published).
    assert_eq!("1 gal".parse::<Volume>()?, "3.785411784 L".parse()?);
    assert_eq!("4 qt".parse::<Volume>()?, "1 gallon".parse()?);
    // 304.8³ mm³ (derived).
    assert_eq!("1 ft3".parse::<Volume>()?, "28.316846592 L".parse()?);
    assert_eq!("1 m3".parse::<Volume>()?, "1000 litres".parse()?);
    // International yard and pound agreement, 1959 (published).
    assert_eq!("1 lb".parse::<Weight>()?, "453.59237 g".parse()?);
    assert_eq!("16 oz".parse::<Weight>()?, "1 pound".parse()?);
    // Fixed points of both scales; NIST Special Publication 811, appendix B (published).
    assert_eq!("212 F".parse::<Temperature>()?, "100 C".parse()?);
    assert_eq!("32 °F".parse::<Temperature>()?, "0 °C".parse()?);
    assert_eq!("-40 F".parse::<Temperature>()?, "-40 deg C".parse()?);
    assert_eq!(
        "-459.67 F".parse::<Temperature>()?,
        Temperature::ABSOLUTE_ZERO
    );
    Ok(())
}

#[test]
fn a_face_is_its_sides_multiplied_less_its_openings() -> Checked {
    let wall = Area::of("4.2 m".parse()?, "2.6 m".parse()?);
    assert_eq!(wall, "10.92 m2".parse()?);
    assert_eq!(wall.less("2 m2".parse()?), Some("8.92 m2".parse()?));
    assert_eq!(wall.less("11 m2".parse()?), None);
    assert_eq!(
        Area::of(Length::from_mm(-1), Length::from_mm(10)),
        Area::ZERO
    );
    assert_eq!(
        Area::of("10' 0\"".parse()?, "8'".parse()?).to_string(),
        "80 ft2"
    );
    assert_eq!(wall.display(Units::Imperial).to_string(), "117.5 ft2");
    Ok(())
}

#[test]
fn values_print_in_the_system_they_were_most_likely_typed_in() -> Checked {
    for text in ["12.5 m2", "134 ft2", "0.18 m2"] {
        assert_eq!(text.parse::<Area>()?.to_string(), text);
    }
    for text in ["5 L", "0.75 L", "1 gal", "3 ft3"] {
        assert_eq!(text.parse::<Volume>()?.to_string(), text);
    }
    for text in ["42 kg", "95 lb", "6 oz", "0.35 kg"] {
        assert_eq!(text.parse::<Weight>()?.to_string(), text);
    }
    for text in ["21.5 C", "71 F", "-5 C"] {
        assert_eq!(text.parse::<Temperature>()?.to_string(), text);
    }
    assert_eq!(
        "21.5 C"
            .parse::<Temperature>()?
            .display(Units::Imperial)
            .to_string(),
        "70.7 °F"
    );
    assert_eq!(
        "95 lb"
            .parse::<Weight>()?
            .display(Units::Metric)
            .to_string(),
        "43.1 kg"
    );
    assert_eq!(
        "5 L"
            .parse::<Volume>()?
            .display(Units::Imperial)
            .to_string(),
        "1.32 gal"
    );
    Ok(())
}

#[test]
fn readings_from_instruments_are_taken_to_the_nearest_unit_and_refused_out_of_range() {
    assert_eq!(
        Temperature::from_celsius_f64(21.0625).map(Temperature::celsius),
        Some(21.0625)
    );
    assert_eq!(Temperature::from_celsius_f64(-300.0), None);
    assert_eq!(Temperature::from_celsius_f64(f64::NAN), None);
    assert_eq!(
        Humidity::from_percent_f64(47.46).map(Humidity::tenths),
        Some(475)
    );
    assert_eq!(Humidity::from_percent_f64(100.1), None);
    assert_eq!(Area::from_m2_f64(-1.0), None);
    assert_eq!(
        Area::from_m2_f64(2.5).map(|area| area.to_string()),
        Some("2.5 m2".to_owned())
    );
    assert_eq!(Volume::from_litres_f64(f64::INFINITY), None);
    assert_eq!(
        Weight::from_kg_f64(1.5).map(|weight| weight.to_string()),
        Some("1.5 kg".to_owned())
    );
}

#[test]
fn limits_include_the_values_they_name() -> Checked {
    let paint: TemperatureRange = "10..27 C".parse()?;
    for (reading, allowed) in [
        ("10 C", true),
        ("27 C", true),
        ("50 F", true),
        ("9.9 C", false),
        ("27.1 C", false),
    ] {
        assert_eq!(paint.contains(reading.parse()?), allowed, "{reading}");
    }
    let floor: HumidityRange = "<= 65 %".parse()?;
    assert!(floor.contains("65 %".parse()?) && floor.contains("0 %".parse()?));
    assert!(!floor.contains("65.1 %".parse()?));
    Ok(())
}

#[test]
fn limits_are_read_and_printed_in_the_trades_forms() -> Checked {
    let temperatures = [
        ("10..27 C", "10..27 C"),
        ("10 .. 27 °C", "10..27 C"),
        ("10 C..27 C", "10..27 C"),
        ("-5..10 C", "-5..10 C"),
        ("51..91 F", "51..91 F"),
        ("50 to 90 F", "10 C..90 F"),
        ("10 C .. 90 F", "10 C..90 F"),
        (">= 10 C", ">= 10 C"),
        ("≤27 C", "<= 27 C"),
        ("10..10 C", "10..10 C"),
    ];
    for (text, printed) in temperatures {
        assert_eq!(
            text.parse::<TemperatureRange>()?.to_string(),
            printed,
            "{text}"
        );
    }
    for (text, printed) in [
        ("<= 65 %", "<= 65 %"),
        ("30..50%", "30..50 %"),
        ("30 % to 50 % RH", "30..50 %"),
    ] {
        assert_eq!(
            text.parse::<HumidityRange>()?.to_string(),
            printed,
            "{text}"
        );
    }
    Ok(())
}

/// A bad text, the byte of the fault, and a word of what was expected there.
const BAD_LIMITS: &[(&str, usize, &str)] = &[
    ("27..10 C", 0, "lower limit first"),
    ("10 C", 4, "`..`"),
    ("10-27 C", 2, "`..`"),
    ("10..27", 6, "a unit (C, F)"),
    (">= ", 3, "number"),
    ("..27 C", 0, "number"),
    ("10..27 K", 7, "a unit"),
    ("-300..20 C", 0, "-273.15"),
];

#[test]
fn bad_limits_are_answered_with_the_spot() {
    for (text, at, expected) in BAD_LIMITS {
        let error = text.parse::<TemperatureRange>().expect_err(text);
        assert_eq!(error.at(), *at, "{error}");
        assert!(error.expected().contains(expected), "{error}");
    }
}

#[test]
fn impossible_values_are_refused() {
    assert!("-1 m2".parse::<Area>().is_err());
    assert!("1,032 m2".parse::<Area>().is_err());
    assert!("5".parse::<Volume>().is_err());
    assert!("5 gallonsx".parse::<Volume>().is_err());
    assert!("5 stone".parse::<Weight>().is_err());
    assert!("-274 C".parse::<Temperature>().is_err());
    assert!("0.0001 C".parse::<Temperature>().is_err());
    assert!("101 %".parse::<Humidity>().is_err());
    assert!("50.55 %".parse::<Humidity>().is_err());
    assert!("1001 %".parse::<Percent>().is_err());
    assert!("-5 %".parse::<Percent>().is_err());
    assert!("10".parse::<Percent>().is_err());
}

#[test]
fn a_share_of_money_is_rounded_up_to_a_cent() -> Checked {
    let waste: Percent = "12.5 %".parse()?;
    assert_eq!(
        waste.of_money(Money::from_cents(1001)),
        Money::from_cents(126)
    );
    assert_eq!(Percent::WHOLE.of_up(7), 7);
    assert_eq!(Percent::ZERO.of_up(7), 0);
    assert_eq!(waste.of_up(-4), 0);
    assert!((waste.share() - 0.125).abs() < 1e-12);
    Ok(())
}

#[test]
fn money_is_whole_cents_without_a_currency() -> Checked {
    for (text, cents) in [
        ("12.50", 1250),
        ("12.5", 1250),
        ("12", 1200),
        ("1,250", 125_000),
        ("-3.20", -320),
    ] {
        assert_eq!(text.parse::<Money>()?, Money::from_cents(cents), "{text}");
    }
    for text in ["$12.50", "12.505", "12,50", "12.50 EUR", "", "1e9"] {
        assert!(text.parse::<Money>().is_err(), "{text}");
    }
    let total: Money = std::iter::repeat_n(Money::from_cents(10), 10_000).sum();
    assert_eq!(total.display().to_string(), "1,000.00");
    assert_eq!(
        Money::from_cents(-123_456_789).display().to_string(),
        "-1,234,567.89"
    );
    assert_eq!(Money::from_cents(-5).display().to_string(), "-0.05");
    Ok(())
}

proptest! {
    #[test]
    fn any_area_reads_back(width in 0_i64..10_000_000_000, height in 0_i64..10_000_000_000) {
        let area = Area::of(Length::from_units(width), Length::from_units(height));
        prop_assert_eq!(area.to_string().parse::<Area>(), Ok(area));
    }

    #[test]
    fn any_volume_reads_back(units in 0_i64..=Volume::LARGEST.units()) {
        let volume = Volume::from_units(units).unwrap_or_default();
        prop_assert_eq!(volume.to_string().parse::<Volume>(), Ok(volume));
    }

    #[test]
    fn any_weight_reads_back(units in 0_i64..=Weight::LARGEST.units()) {
        let weight = Weight::from_units(units).unwrap_or_default();
        prop_assert_eq!(weight.to_string().parse::<Weight>(), Ok(weight));
    }

    #[test]
    fn any_temperature_and_its_limits_read_back(low in -270.0_f64..900.0, more in 0.0_f64..1000.0) {
        let low = Temperature::from_celsius_f64(low);
        let high = low.and_then(|low| Temperature::from_celsius_f64(low.celsius() + more));
        for value in low.into_iter().chain(high) {
            prop_assert_eq!(value.to_string().parse::<Temperature>(), Ok(value));
        }
        for ends in [(low, high), (low, None), (None, high)] {
            let Some(limits) = TemperatureRange::new(ends.0, ends.1) else { continue };
            prop_assert_eq!(limits.to_string().parse::<TemperatureRange>(), Ok(limits));
        }
    }

    #[test]
    fn any_humidity_and_its_limits_read_back(a in 0_u16..=1000, b in 0_u16..=1000) {
        let (low, high) = (Humidity::from_tenths(a.min(b)), Humidity::from_tenths(a.max(b)));
        for ends in [(low, high), (low, None), (None, high)] {
            let limits = HumidityRange::new(ends.0, ends.1);
            prop_assert_eq!(limits.map(|l| l.to_string()).and_then(|l| l.parse().ok()), limits);
        }
    }

    #[test]
    fn any_share_reads_back(hundredths in 0_u32..=100_000) {
        let share = Percent::from_hundredths(hundredths).unwrap_or_default();
        prop_assert_eq!(share.to_string().parse::<Percent>(), Ok(share));
    }

    #[test]
    fn any_sum_of_money_reads_back(cents in -10_000_000_000_000_i64..=10_000_000_000_000) {
        let money = Money::from_cents(cents);
        prop_assert_eq!(money.to_string().parse::<Money>(), Ok(money));
        prop_assert_eq!(money.display().to_string().parse::<Money>(), Ok(money));
    }
}
