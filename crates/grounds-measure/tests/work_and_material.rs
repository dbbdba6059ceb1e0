//! Thicknesses, sizes, rates, coverages, amounts and prices.

use grounds_measure::{
    Amount, Area, Count, Coverage, Length, Money, Pack, Per, Percent, Price, Quantity,
    QuantityKind, Rate, Size, Thickness, Units, Volume, Weight,
};
use proptest::prelude::*;

type Checked = Result<(), Box<dyn std::error::Error>>;

#[test]
fn a_thickness_carries_how_far_the_work_may_depart_from_it() -> Checked {
    // The text, then the nominal thickness and the tolerances above and below.
    let cases = [
        ("12 mm", "12 mm", "0 mm", "0 mm"),
        ("12 mm ±1.5", "12 mm", "1.5 mm", "1.5 mm"),
        ("12 mm ± 1.5 mm", "12 mm", "1.5 mm", "1.5 mm"),
        ("12 mm +-1.5", "12 mm", "1.5 mm", "1.5 mm"),
        ("12 mm +/-1.5", "12 mm", "1.5 mm", "1.5 mm"),
        ("12 mm +2/-1", "12 mm", "2 mm", "1 mm"),
        ("12 mm +2 -1", "12 mm", "2 mm", "1 mm"),
        ("12 mm +2 mm / -1 mm", "12 mm", "2 mm", "1 mm"),
        ("12 mm +0/-1", "12 mm", "0 mm", "1 mm"),
        ("1/2\" ±1/32\"", "1/2\"", "1/32\"", "1/32\""),
        ("1/2\" ±1/32", "1/2\"", "1/32\"", "1/32\""),
        ("1/2\" +1/16/-1/32", "1/2\"", "1/16\"", "1/32\""),
        ("½\" ±1 mm", "1/2\"", "1 mm", "1 mm"),
    ];
    for (text, nominal, plus, minus) in cases {
        let expected = Thickness::new(nominal.parse()?, plus.parse()?, minus.parse()?);
        assert_eq!(Some(text.parse()?), expected, "{text}");
    }
    assert_eq!(
        "12 mm +2/-1".parse::<Thickness>()?.to_string(),
        "12 mm +2 mm/-1 mm"
    );
    Ok(())
}

#[test]
fn a_bad_thickness_is_answered_with_the_spot() {
    let cases = [
        ("12", 2, "a unit"),
        ("-12 mm", 0, "not below zero"),
        ("12 mm ±13", 0, "thinnest"),
        ("12 mm ±", 8, "tolerance"),
        ("12 mm ±-1", 8, "sign"),
        ("12 mm +2", 8, "below"),
        ("12 mm 2", 6, "tolerance"),
        ("3' 4\" ±1", 9, "a unit"),
    ];
    for (text, at, expected) in cases {
        let error = text.parse::<Thickness>().expect_err(text);
        assert_eq!(error.at(), at, "{error}");
        assert!(error.expected().contains(expected), "{error}");
    }
}

#[test]
fn a_size_may_state_its_unit_once() -> Checked {
    let cases = [
        ("600 x 300 mm", "600 x 300 mm"),
        ("600x300mm", "600 x 300 mm"),
        ("600 mm × 30 cm", "600 x 300 mm"),
        ("4.2 m x 3.1 m x 2.6 m", "4200 x 3100 x 2600 mm"),
        ("4.2 x 3.1 x 2.6 m", "4200 x 3100 x 2600 mm"),
        ("34 in x 80 in", "2' 10\" x 6' 8\""),
        ("34 by 80 in", "2' 10\" x 6' 8\""),
        ("2' 10\" x 6' 8\"", "2' 10\" x 6' 8\""),
        ("3' 4\" x 2' 4\"", "3' 4\" x 2' 4\""),
        ("11 1/2 x 23 1/2 in", "11 1/2\" x 1' 11 1/2\""),
    ];
    for (text, printed) in cases {
        assert_eq!(text.parse::<Size>()?.to_string(), printed, "{text}");
    }
    let door: Size = "34 in x 80 in".parse()?;
    assert_eq!(
        door.display(Units::Imperial).to_string(),
        "2' 10\" × 6' 8\""
    );
    assert_eq!(door.display(Units::Metric).to_string(), "863.6 × 2032 mm");
    Ok(())
}

#[test]
fn a_bad_size_is_answered_with_the_spot() {
    let cases = [
        ("600 mm", 6, "another length"),
        ("600 x 300", 9, "a unit"),
        ("600 x", 5, "number"),
        ("3 x 6' 8\"", 0, "its unit"),
        ("600 x 0 mm", 6, "above zero"),
        ("-600 x 300 mm", 0, "above zero"),
        ("1 x 2 x 3 x 4 m", 10, "a unit"),
        ("1 x 2 x 3 m x 4 m", 12, "nothing more"),
    ];
    for (text, at, expected) in cases {
        let error = text.parse::<Size>().expect_err(text);
        assert_eq!(error.at(), at, "{error}");
        assert!(error.expected().contains(expected), "{error}");
    }
}

#[test]
fn a_crew_takes_the_quantity_over_its_rate_rounded_up_to_a_minute() -> Checked {
    let cases = [
        ("6 m2/h", Quantity::Area("10 m2".parse()?), 100),
        ("6 m2/h", Quantity::Area("10.01 m2".parse()?), 101),
        ("40 ft2/h", Quantity::Area("100 ft2".parse()?), 150),
        ("12 m/h", Quantity::Length("30 m".parse()?), 150),
        ("3 /h", Quantity::Count(Count::of(7)), 140),
        ("0.5 pieces/h", Quantity::Count(Count::of(3)), 360),
        ("6 m2 per hour", Quantity::Area(Area::ZERO), 0),
    ];
    for (rate, work, minutes) in cases {
        assert_eq!(
            rate.parse::<Rate>()?.minutes_for(work),
            Some(minutes),
            "{rate}"
        );
    }
    let rate: Rate = "6 m2/h".parse()?;
    assert_eq!(rate.kind(), QuantityKind::Area);
    assert_eq!(rate.minutes_for(Quantity::Count(Count::of(1))), None);
    Ok(())
}

#[test]
fn rates_coverages_and_prices_print_as_they_are_written() -> Checked {
    for text in ["6 m2/h", "40 ft2/h", "12 m/h", "60 ft/h", "3 /h", "0.5 /h"] {
        assert_eq!(text.parse::<Rate>()?.to_string(), text);
    }
    for text in [
        "10 m2/L",
        "350 ft2/gal",
        "2.1 kg/m2",
        "60 ft2/bag",
        "12 m/cartridge",
        "0.2 L/m",
        "1.44 m2/box",
        "50 ft/roll",
        "3 kg/ft2",
    ] {
        assert_eq!(text.parse::<Coverage>()?.to_string(), text);
    }
    assert_eq!("4 /m2".parse::<Coverage>()?.to_string(), "4 pieces/m2");
    for text in [
        "12.50",
        "55.00 /h",
        "480.00 /day",
        "18.40 /m2",
        "6.00 /ft",
        "31.00 /bag",
        "89.00 /15 L",
    ] {
        assert_eq!(text.parse::<Price>()?.to_string(), text);
    }
    Ok(())
}

#[test]
fn bad_rates_coverages_and_prices_are_answered_with_the_spot() {
    let rates = [
        ("6 m2", 4, "`/h`"),
        ("6 m2/day", 5, "per crew-hour"),
        ("0 m2/h", 0, "above zero"),
        ("6", 1, "m2"),
        ("6 L/h", 2, "m2"),
        ("-6 m2/h", 0, "number"),
        ("6 m2/h/h", 6, "nothing more"),
    ];
    for (text, at, expected) in rates {
        let error = text.parse::<Rate>().expect_err(text);
        assert_eq!(error.at(), at, "{error}");
        assert!(error.expected().contains(expected), "{error}");
    }
    let coverages = [
        ("10 m2", 5, "`/`"),
        ("10 m2/m2", 6, "material"),
        ("10 L/kg", 5, "work"),
        ("0 m2/L", 0, "above zero"),
        ("10 m2/0 L", 0, "above zero"),
        ("10 m2/barrel", 6, "unit of work"),
        ("L/m2", 0, "number"),
    ];
    for (text, at, expected) in coverages {
        let error = text.parse::<Coverage>().expect_err(text);
        assert_eq!(error.at(), at, "{error}");
        assert!(error.expected().contains(expected), "{error}");
    }
    for (text, at) in [
        ("12.50 m2", 6),
        ("12.50 /", 7),
        ("12.50 /0 L", 7),
        ("$4", 0),
        ("4 /barrel", 3),
    ] {
        let error = text.parse::<Price>().expect_err(text);
        assert_eq!(error.at(), at, "{error}");
    }
}

#[test]
fn material_is_reckoned_up_with_waste_and_bought_in_whole_packs() -> Checked {
    // 2.1 kg/m² × 30 m² × 1.10 = 69.3 kg; three bags of 25 kg (derived).
    let plaster: Coverage = "2.1 kg/m2".parse()?;
    let wall = Quantity::Area("30 m2".parse()?);
    let needed = plaster.material_with_waste(wall, "10 %".parse()?);
    assert_eq!(needed, Some("69.3 kg".parse()?));
    let bag: Amount = "25 kg".parse()?;
    assert_eq!(needed.and_then(|needed| needed.packs_of(bag)), Some(3));
    assert_eq!("75 kg".parse::<Amount>()?.packs_of(bag), Some(3));
    assert_eq!("75 L".parse::<Amount>()?.packs_of(bag), None);
    assert_eq!("75 kg".parse::<Amount>()?.packs_of("0 kg".parse()?), None);

    // 700 ft² at 350 ft²/gal is two gallons (derived); a metric wall reckons through the same coverage.
    let paint: Coverage = "350 ft2/gal".parse()?;
    assert_eq!(
        paint.material_for(Quantity::Area("700 ft2".parse()?)),
        Some("2 gal".parse()?)
    );
    assert_eq!(paint.material_for(Quantity::Length("7 ft".parse()?)), None);

    let clips: Coverage = "4 /m2".parse()?;
    let floor = Quantity::Area("2.6 m2".parse()?);
    let expected = Amount::Packs(Pack::Piece, Count::from_thousandths(10_400));
    assert_eq!(clips.material_for(floor), Some(expected));
    assert_eq!(expected.packs_of("1 piece".parse()?), Some(11));
    Ok(())
}

#[test]
fn costs_are_rounded_up_to_a_cent_and_only_for_their_own_kind() -> Checked {
    let tile: Price = "18.40 /m2".parse()?;
    let floor = Quantity::Area("3.33 m2".parse()?);
    // 18.40 × 3.33 = 61.272 (derived).
    assert_eq!(tile.cost_of_work(floor), Some(Money::from_cents(6128)));
    assert_eq!(tile.cost_of_minutes(60), None);
    let hour: Price = "55 /h".parse()?;
    assert_eq!(hour.cost_of_minutes(90), Some(Money::from_cents(8250)));
    assert_eq!(hour.cost_of_work(floor), None);
    let bag: Price = "31 /bag".parse()?;
    assert_eq!(
        bag.cost_of_material("3 bags".parse()?),
        Some(Money::from_cents(9300))
    );
    assert_eq!(bag.cost_of_material("3 boxes".parse()?), None);
    assert_eq!("12.50".parse::<Price>()?.per(), Per::Each);
    Ok(())
}

fn areas() -> impl Strategy<Value = Area> {
    (10_i64..10_000_000, 10_i64..10_000_000)
        .prop_map(|(a, b)| Area::of(Length::from_units(a * 1000), Length::from_units(b * 1000)))
}

fn lengths() -> impl Strategy<Value = Length> {
    prop_oneof![
        (1_i64..4_000_000_000_000).prop_map(Length::from_units),
        (1_i64..100_000).prop_map(Length::from_64ths),
        (1_i64..100_000).prop_map(Length::from_tenths_mm),
        (1_i64..1000).prop_map(|feet| Length::from_inches(12 * feet)),
        (1_i64..1000).prop_map(|metres| Length::from_mm(1000 * metres)),
    ]
}

fn amounts() -> impl Strategy<Value = Amount> {
    const PACKS: [Pack; 4] = [Pack::Bag, Pack::Box, Pack::Piece, Pack::Tube];
    prop_oneof![
        (1_i64..=Volume::LARGEST.units() / 100)
            .prop_map(|units| Amount::Volume(Volume::from_units(units).unwrap_or_default())),
        (1_i64..=Weight::LARGEST.units() / 100)
            .prop_map(|units| Amount::Weight(Weight::from_units(units).unwrap_or_default())),
        (0_usize..4, 1_u32..1_000_000)
            .prop_map(|(pack, count)| Amount::Packs(PACKS[pack], Count::from_thousandths(count))),
    ]
}

fn work() -> impl Strategy<Value = Quantity> {
    prop_oneof![
        areas().prop_map(Quantity::Area),
        lengths().prop_map(Quantity::Length)
    ]
}

fn pieces() -> impl Strategy<Value = Quantity> {
    (1_u32..=u32::MAX).prop_map(|thousandths| Quantity::Count(Count::from_thousandths(thousandths)))
}

proptest! {
    #[test]
    fn any_thickness_reads_back(nominal in lengths(), plus in lengths(), part in 0_i64..=100) {
        let minus = Length::from_units(nominal.units() / 100 * part);
        for minus in [minus, Length::ZERO, plus.min(nominal)] {
            let thickness = Thickness::new(nominal, plus, minus);
            let read = thickness.map(|thickness| thickness.to_string().parse());
            prop_assert_eq!(read, thickness.map(Ok));
        }
    }

    #[test]
    fn any_size_reads_back(first in lengths(), second in lengths(), third in proptest::option::of(lengths())) {
        let size = Size::new(first, second, third);
        prop_assert_eq!(size.map(|size| size.to_string().parse()), size.map(Ok));
    }

    #[test]
    fn any_rate_reads_back(quantity in prop_oneof![work(), pieces()]) {
        let rate = Rate::per_hour(quantity);
        prop_assert!(rate.is_some());
        prop_assert_eq!(rate.map(|rate| rate.to_string().parse()), rate.map(Ok));
    }

    #[test]
    fn an_hour_of_work_takes_an_hour(quantity in prop_oneof![work(), pieces()]) {
        let minutes = Rate::per_hour(quantity).and_then(|rate| rate.minutes_for(quantity));
        prop_assert_eq!(minutes, Some(60));
    }

    #[test]
    fn any_amount_reads_back(amount in amounts()) {
        prop_assert_eq!(amount.to_string().parse::<Amount>(), Ok(amount));
    }

    #[test]
    fn any_coverage_reads_back_and_covers_its_own_work(work in work(), material in amounts()) {
        for coverage in [Coverage::work_per_material(work, material), Coverage::material_per_work(material, work)] {
            prop_assert_eq!(coverage.map(|coverage| coverage.to_string().parse()), coverage.map(Ok));
            prop_assert_eq!(coverage.and_then(|coverage| coverage.material_for(work)), Some(material));
        }
    }

    #[test]
    fn more_waste_never_needs_less_material(work in work(), material in amounts(), waste in 0_u32..=100_000) {
        let coverage = Coverage::material_per_work(material, work);
        let waste = Percent::from_hundredths(waste).unwrap_or_default();
        let with = coverage.and_then(|coverage| coverage.material_with_waste(work, waste));
        let packs = with.and_then(|with| with.packs_of(material));
        prop_assert_eq!(packs, Some(1 + waste.hundredths().div_ceil(10_000)));
    }

    #[test]
    fn any_price_reads_back(cents in -1_000_000_i64..1_000_000, work in work(), material in amounts()) {
        for per in [Per::Each, Per::Hour, Per::Day, Per::Work(work), Per::Material(material)] {
            let price = Price::new(Money::from_cents(cents), per);
            prop_assert_eq!(price.map(|price| price.to_string().parse()), price.map(Ok));
        }
    }
}
