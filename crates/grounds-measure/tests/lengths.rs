//! Lengths as they are written on drawings, read and printed.

use grounds_measure::{Length, Rounding, Step, Units};
use proptest::prelude::*;

type Checked = Result<(), Box<dyn std::error::Error>>;

/// A text and the same length in 64ths of an inch.
const IMPERIAL: &[(&str, i64)] = &[
    ("3' 4 5/8\"", 40 * 64 + 40),
    ("3'-4 5/8\"", 40 * 64 + 40),
    ("3' - 4 5/8\"", 40 * 64 + 40),
    ("3'-4-5/8\"", 40 * 64 + 40),
    ("3'4⅝\"", 40 * 64 + 40),
    ("3′ 4 5⁄8″", 40 * 64 + 40),
    ("3’ 4 ⅝”", 40 * 64 + 40),
    ("3 ft 4 5/8 in", 40 * 64 + 40),
    ("3ft 4in", 40 * 64),
    ("3' 4", 40 * 64),
    ("3'", 36 * 64),
    ("6 feet", 72 * 64),
    ("40-5/8\"", 40 * 64 + 40),
    ("40 5/8\"", 40 * 64 + 40),
    ("40 5/8''", 40 * 64 + 40),
    ("40.625 in", 40 * 64 + 40),
    ("5/8 in", 40),
    ("7/64\"", 7),
    ("½\"", 32),
    ("1/2 inch", 32),
    ("9/8 in", 72),
    ("-1/2\"", -32),
    ("−1/2\"", -32),
    ("-3' 4\"", -40 * 64),
    ("1,200 in", 1200 * 64),
    ("2 yd", 72 * 64),
    (".5 in", 32),
    ("  5/8 in  ", 40),
];

/// A text and the same length in tenths of a millimetre.
const METRIC: &[(&str, i64)] = &[
    ("1032 mm", 10_320),
    ("1032mm", 10_320),
    ("1,032 mm", 10_320),
    ("1,032.5 mm", 10_325),
    ("1\u{202f}032 mm", 10_320),
    ("1.03 m", 10_300),
    ("1,032.5 m", 10_325_000),
    ("10 cm", 1000),
    ("0.4 mm", 4),
    ("-2 mm", -20),
    ("+2 mm", 20),
    ("2 MM", 20),
    ("3 metres", 30_000),
    ("300 microns", 3),
    ("½ mm", 5),
];

#[test]
fn feet_inches_and_fractions_are_read_in_every_trade_form() -> Checked {
    for (text, sixty_fourths) in IMPERIAL {
        assert_eq!(
            text.parse::<Length>()?,
            Length::from_64ths(*sixty_fourths),
            "{text}"
        );
    }
    Ok(())
}

#[test]
fn metric_lengths_are_read_in_every_trade_form() -> Checked {
    for (text, tenths) in METRIC {
        assert_eq!(
            text.parse::<Length>()?,
            Length::from_tenths_mm(*tenths),
            "{text}"
        );
    }
    Ok(())
}

#[test]
fn an_inch_is_25_4_mm_and_a_mil_a_thousandth_of_it() -> Checked {
    // International yard and pound agreement, 1959 (published): 1 yd = 0.9144 m exactly.
    assert_eq!("1 yd".parse::<Length>()?, "0.9144 m".parse()?);
    assert_eq!("1 ft".parse::<Length>()?, "304.8 mm".parse()?);
    assert_eq!("1 in".parse::<Length>()?, "25.4 mm".parse()?);
    assert_eq!("1/64 in".parse::<Length>()?, "0.396875 mm".parse()?);
    assert_eq!("5 mil".parse::<Length>()?, "127 microns".parse()?);
    Ok(())
}

#[test]
fn a_bare_number_is_inches_or_millimetres_by_the_job() -> Checked {
    let forty = Length::from_64ths(40 * 64 + 40);
    assert_eq!(Length::parse_in("40-5/8", Units::Imperial)?, forty);
    assert_eq!(Length::parse_in("40 5/8", Units::Imperial)?, forty);
    assert_eq!(
        Length::parse_in("5/8", Units::Imperial)?,
        Length::from_64ths(40)
    );
    assert_eq!(
        Length::parse_in("1032", Units::Metric)?,
        Length::from_mm(1032)
    );
    assert_eq!(Length::parse_in("40-5/8\"", Units::Metric)?, forty);
    assert!(Length::parse_in("5/8", Units::Metric).is_err());
    assert!("1032".parse::<Length>().is_err());
    assert!("40-5/8".parse::<Length>().is_err());
    Ok(())
}

/// A bad text, the byte of the fault, and a word of what was expected there.
const BAD: &[(&str, usize, &str)] = &[
    ("", 0, "number"),
    ("   ", 3, "number"),
    ("mm", 0, "number"),
    ("1032", 4, "a unit"),
    ("40-5/8", 6, "a unit"),
    ("12 parsecs", 3, "a unit"),
    ("12 mmm", 3, "a unit"),
    ("5/0 in", 2, "above zero"),
    ("5/ in", 1, "a unit"),
    ("4 9/8 in", 2, "below one"),
    ("1/3 in", 0, "64ths"),
    ("1/128 in", 0, "64ths"),
    ("0.00001 mm", 0, "0.0001 mm"),
    ("3' 14\"", 3, "fewer than 12"),
    ("3' 4 mm", 3, "inches after feet"),
    ("3' -", 4, "inches after the dash"),
    ("1,03 m", 1, "a point"),
    ("1,032 m", 0, "lone comma"),
    ("1,0322 mm", 1, "a point"),
    ("12 mm 5", 6, "nothing more"),
    ("12 mm; rm", 5, "nothing more"),
    ("--3 mm", 1, "number"),
    ("~12.7 mm", 0, "number"),
    ("200 km", 4, "a unit"),
    ("200000 m", 0, "100 km"),
    ("99999999999999999999 mm", 0, "12 digits"),
    ("1.0000000000001 mm", 0, "9 after"),
    ("NaN mm", 0, "number"),
];

#[test]
fn a_bad_length_is_answered_with_the_spot_and_a_good_example() {
    for (text, at, expected) in BAD {
        let error = text.parse::<Length>().expect_err(text);
        assert_eq!(error.at(), *at, "{error}");
        assert!(error.expected().contains(expected), "{text}: {error}");
        assert!(
            error
                .to_string()
                .ends_with("write a length like 3' 4 5/8\" or 1032 mm"),
            "{error}"
        );
    }
}

#[test]
fn a_hostile_text_is_cut_short_and_shown_escaped() {
    let long = "9".repeat(5000);
    let error = long.parse::<Length>().expect_err("too long");
    assert_eq!(error.at(), 80);
    assert!(error.to_string().len() < 400, "{error}");
    let error = "12 \u{202e}mm\u{0}\u{1b}[31m\n"
        .parse::<Length>()
        .expect_err("hostile");
    assert!(
        error
            .to_string()
            .chars()
            .all(|c| !c.is_control() && c != '\u{202e}'),
        "{error}"
    );
    assert!(error.text().contains("\\u{202e}"), "{error}");
}

#[test]
fn lengths_print_in_the_system_in_which_they_are_exact() {
    let cases = [
        (Length::from_mm(1032), "1032 mm"),
        (Length::from_mm(635), "635 mm"),
        (Length::from_64ths(40 * 64 + 40), "3' 4 5/8\""),
        (Length::from_64ths(7), "7/64\""),
        (Length::from_inches(120), "10' 0\""),
        (Length::from_64ths(-32), "-1/2\""),
        (Length::from_tenths_mm(4), "0.4 mm"),
        (Length::from_units(-1), "-0.000025 mm"),
        (Length::ZERO, "0 mm"),
    ];
    for (length, text) in cases {
        assert_eq!(length.to_string(), text);
    }
}

#[test]
fn a_length_printed_for_people_is_marked_when_it_had_to_be_rounded() {
    let door = Length::from_64ths(40 * 64 + 40);
    assert_eq!(door.display(Units::Imperial).to_string(), "3' 4 5/8\"");
    assert_eq!(door.display(Units::Metric).to_string(), "~1031.9 mm");
    assert_eq!(door.display_inches().to_string(), "40 5/8\"");
    assert_eq!(Length::from_mm(4200).display_metres().to_string(), "4.2 m");
    assert_eq!(
        Length::from_tenths_mm(-12_344).display_metres().to_string(),
        "~-1.234 m"
    );
    assert_eq!(
        Length::from_inches(12).display(Units::Metric).to_string(),
        "304.8 mm"
    );
    assert_eq!(Length::ZERO.display(Units::Imperial).to_string(), "0\"");
    assert_eq!(
        Length::from_tenths_mm(1)
            .display(Units::Imperial)
            .to_string(),
        "~0\""
    );
}

#[test]
fn ten_thousand_joints_add_up_without_drift() {
    let sixty_fourth = Length::from_64ths(1);
    let tenth = Length::from_tenths_mm(1);
    let sum: Length = std::iter::repeat_n(sixty_fourth, 10_000).sum();
    assert_eq!(sum.display_inches().to_string(), "156 1/4\"");
    let sum: Length = std::iter::repeat_n(tenth, 10_000).sum();
    assert_eq!(sum.to_string(), "1000 mm");
    let mixed: Length = (0..10_000)
        .map(|_| sixty_fourth + tenth - sixty_fourth)
        .sum();
    assert_eq!(mixed, Length::from_mm(1000));
}

#[test]
fn arithmetic_past_the_range_stops_at_its_end() {
    let most = Length::from_units(i64::MAX);
    assert_eq!(most + most, most);
    assert_eq!(most * 3, most);
    assert_eq!(most.checked_add(most), None);
    assert_eq!(most.checked_mul(2), None);
    assert_eq!(-Length::from_units(i64::MIN), most);
    assert_eq!(Length::from_mm_f64(f64::NAN), None);
    assert_eq!(Length::from_mm_f64(1e30), None);
    assert_eq!(Length::from_mm_f64(12.7), Some(Length::from_64ths(32)));
}

#[test]
fn rounding_goes_up_down_or_to_the_nearest_step() -> Checked {
    let sixteenth: Step = "1/16\"".parse()?;
    assert_eq!(sixteenth, Step::SIXTEENTH_INCH);
    let cases = [
        ("5/64\"", Rounding::Down, "1/16\""),
        ("5/64\"", Rounding::Up, "1/8\""),
        ("5/64\"", Rounding::Nearest, "1/16\""),
        ("3/32\"", Rounding::Nearest, "1/8\""),
        ("-3/32\"", Rounding::Nearest, "-1/8\""),
        ("-5/64\"", Rounding::Up, "-1/16\""),
        ("-5/64\"", Rounding::Down, "-1/8\""),
        ("1/8\"", Rounding::Up, "1/8\""),
        ("1/8\"", Rounding::Down, "1/8\""),
    ];
    for (length, rounding, expected) in cases {
        let rounded = length.parse::<Length>()?.round_to(sixteenth, rounding);
        assert_eq!(rounded, expected.parse()?, "{length} {rounding:?}");
    }
    assert!("0 mm".parse::<Step>().is_err());
    assert_eq!(Step::new(Length::from_mm(-1)), None);
    Ok(())
}

#[test]
fn boards_divide_a_wall_into_wholes_and_a_rest() {
    let board = Length::from_mm(120);
    assert_eq!(
        Length::from_mm(1000).divide_by(board),
        Some((8, Length::from_mm(40)))
    );
    assert_eq!(
        Length::from_mm(-10).divide_by(board),
        Some((-1, Length::from_mm(110)))
    );
    assert_eq!(Length::from_mm(1000).divide_by(Length::ZERO), None);
}

proptest! {
    #[test]
    fn any_length_prints_to_text_that_reads_back_to_it(units in -4_000_000_000_000_i64..=4_000_000_000_000) {
        let length = Length::from_units(units);
        prop_assert_eq!(length.to_string().parse::<Length>(), Ok(length));
    }

    #[test]
    fn any_tape_reading_prints_to_text_that_reads_back_to_it(sixty_fourths in -1_000_000_i64..1_000_000) {
        let length = Length::from_64ths(sixty_fourths);
        prop_assert_eq!(length.to_string().parse::<Length>(), Ok(length));
        prop_assert_eq!(length.display(Units::Imperial).to_string().parse::<Length>(), Ok(length));
        prop_assert_eq!(length.display_inches().to_string().parse::<Length>(), Ok(length));
    }

    #[test]
    fn any_tenth_of_a_millimetre_prints_to_text_that_reads_back_to_it(tenths in -1_000_000_i64..1_000_000) {
        let length = Length::from_tenths_mm(tenths);
        prop_assert_eq!(length.to_string().parse::<Length>(), Ok(length));
        prop_assert_eq!(length.display(Units::Metric).to_string().parse::<Length>(), Ok(length));
    }

    #[test]
    fn rounding_stays_within_one_step_on_its_side(units in -1_000_000_000_i64..1_000_000_000, step in 1_i64..5_000_000) {
        let length = Length::from_units(units);
        let step = Step::new(Length::from_units(step)).unwrap_or(Step::MM);
        let up = length.round_to(step, Rounding::Up);
        let down = length.round_to(step, Rounding::Down);
        let nearest = length.round_to(step, Rounding::Nearest);
        prop_assert!(down <= length && length <= up);
        prop_assert!(up - down == Length::ZERO || up - down == step.length());
        prop_assert!(nearest == up || nearest == down);
        prop_assert!((nearest - length).abs() * 2 <= step.length());
        prop_assert_eq!(up.units() % step.length().units(), 0);
        prop_assert_eq!((-length).round_to(step, Rounding::Nearest), -nearest);
    }
}
