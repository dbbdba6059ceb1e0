//! Spans of time and estimates of them.

use grounds_measure::{Estimate, Span, SpanKind};
use proptest::prelude::*;

type Checked = Result<(), Box<dyn std::error::Error>>;

#[test]
fn spans_are_read_in_the_words_of_the_trade() -> Checked {
    let cases = [
        ("90 min", Span::Elapsed(90)),
        ("24 h", Span::Elapsed(1440)),
        ("24h", Span::Elapsed(1440)),
        ("1.5 h", Span::Elapsed(90)),
        ("1 h 30 min", Span::Elapsed(90)),
        ("1h 30min", Span::Elapsed(90)),
        ("2 days 4 h", Span::Elapsed(52 * 60)),
        ("3 days", Span::Elapsed(3 * 1440)),
        ("1 day", Span::Elapsed(1440)),
        ("0.5 days", Span::Elapsed(720)),
        ("2 weeks", Span::Elapsed(14 * 1440)),
        ("2 working days", Span::WorkingDays(2)),
        ("1 working day", Span::WorkingDays(1)),
        ("5 working hours", Span::Working(300)),
        ("4.5 working h", Span::Working(270)),
        ("45 working minutes", Span::Working(45)),
        ("168 counted h", Span::Counted(168 * 60)),
        ("7 counted days", Span::Counted(168 * 60)),
        ("0 h", Span::ZERO),
        ("24 Hours", Span::Elapsed(1440)),
    ];
    for (text, span) in cases {
        assert_eq!(text.parse::<Span>()?, span, "{text}");
    }
    Ok(())
}

#[test]
fn spans_print_in_the_words_of_the_trade() {
    let cases = [
        (Span::Elapsed(90), "90 min"),
        (Span::Elapsed(1440), "24 h"),
        (Span::Elapsed(2 * 1440), "48 h"),
        (Span::Elapsed(3 * 1440), "3 days"),
        (Span::Elapsed(28 * 1440), "28 days"),
        (Span::Elapsed(70 * 1440), "10 weeks"),
        (Span::Counted(168 * 60), "7 counted days"),
        (Span::Counted(30), "30 counted min"),
        (Span::Working(300), "5 working h"),
        (Span::WorkingDays(1), "1 working day"),
        (Span::WorkingDays(60), "60 working days"),
        (Span::ZERO, "0 min"),
    ];
    for (span, text) in cases {
        assert_eq!(span.to_string(), text);
    }
}

#[test]
fn bad_spans_are_answered_with_the_spot() {
    let cases = [
        ("", 0, "number"),
        ("24", 2, "min, h"),
        ("-3 days", 0, "number"),
        ("2 months", 2, "min, h"),
        ("2 working weeks", 2, "min, h"),
        ("2.5 working days", 0, "working hours"),
        ("0.001 h", 0, "whole minutes"),
        ("30 min 1 h", 7, "smaller unit"),
        ("1 h 2 working h", 4, "smaller unit"),
        ("1 day 4", 7, "min, h"),
        ("600 weeks", 0, "ten years"),
        ("99999 working days", 0, "ten years"),
        ("3 days or so", 7, "nothing more"),
    ];
    for (text, at, expected) in cases {
        let error = text.parse::<Span>().expect_err(text);
        assert_eq!(error.at(), at, "{error}");
        assert!(error.expected().contains(expected), "{error}");
    }
}

#[test]
fn quarter_hours_are_rounded_up_and_working_days_left_to_the_calendar() {
    assert_eq!(Span::Elapsed(90).quarter_hours_up(), Some(6));
    assert_eq!(Span::Working(91).quarter_hours_up(), Some(7));
    assert_eq!(Span::Counted(0).quarter_hours_up(), Some(0));
    assert_eq!(Span::WorkingDays(2).quarter_hours_up(), None);
    assert_eq!(Span::WorkingDays(2).kind(), SpanKind::Working);
}

#[test]
fn spans_of_different_kinds_have_no_order() {
    assert!(Span::Elapsed(60) < Span::Elapsed(61));
    assert_eq!(Span::Elapsed(60).partial_cmp(&Span::Working(60)), None);
    assert_eq!(Span::Working(480).partial_cmp(&Span::WorkingDays(1)), None);
}

#[test]
fn an_estimate_is_low_likely_and_high_with_its_unit_said_once_or_thrice() -> Checked {
    let weeks = |n: u32| Span::Elapsed(n * 7 * 1440);
    let glass = Estimate::new(weeks(2), weeks(3), weeks(5));
    for text in [
        "2 / 3 / 5 weeks",
        "2/3/5 weeks",
        "2 weeks / 3 weeks / 5 weeks",
        "14 days / 3 / 5 weeks",
    ] {
        assert_eq!(Some(text.parse()?), glass, "{text}");
    }
    assert_eq!("3 weeks".parse::<Estimate>()?, Estimate::certain(weeks(3)));
    let printed = [
        ("2 / 3 / 5 weeks", "2 / 3 / 5 weeks"),
        ("1 / 2 / 3 working days", "1 / 2 / 3 working days"),
        ("1 h / 90 min / 2 h", "60 / 90 / 120 min"),
        ("1 h 30 min / 2 h 30 min / 3 h 30 min", "90 / 150 / 210 min"),
        ("4 / 6 / 8 working h", "4 / 6 / 8 working h"),
        ("3 days", "3 days"),
    ];
    for (text, expected) in printed {
        assert_eq!(text.parse::<Estimate>()?.to_string(), expected, "{text}");
    }
    Ok(())
}

#[test]
fn a_bad_estimate_is_answered_with_the_spot() {
    let cases = [
        ("5 / 3 / 2 weeks", 0, "rising order"),
        ("2 / 3 weeks", 11, "high value"),
        ("2 weeks 3 weeks", 8, "smaller unit"),
        ("2 / 3 / 5", 9, "min, h"),
        ("1 day / 2 working days / 3 working days", 0, "one kind"),
        ("2 / 3 / 5 / 6 weeks", 10, "min, h"),
    ];
    for (text, at, expected) in cases {
        let error = text.parse::<Estimate>().expect_err(text);
        assert_eq!(error.at(), at, "{error}");
        assert!(error.expected().contains(expected), "{error}");
    }
}

fn spans() -> impl Strategy<Value = fn(u32) -> Span> {
    prop_oneof![
        Just(Span::Elapsed as fn(u32) -> Span),
        Just(Span::Working as fn(u32) -> Span),
        Just(Span::Counted as fn(u32) -> Span),
        Just(Span::WorkingDays as fn(u32) -> Span),
    ]
}

proptest! {
    #[test]
    fn any_span_reads_back(kind in spans(), number in 0_u32..3000, each in prop_oneof![Just(1_u32), Just(60), Just(1440)]) {
        let span = match kind(1) {
            Span::WorkingDays(_) => kind(number),
            _ => kind(number * each),
        };
        prop_assert_eq!(span.to_string().parse::<Span>(), Ok(span));
    }

    #[test]
    fn any_estimate_reads_back(kind in spans(), numbers in [0_u32..1000, 0..1000, 0..1000], each in prop_oneof![Just(1_u32), Just(3), Just(60), Just(1440)]) {
        let mut numbers = numbers.map(|number| number * each);
        numbers.sort_unstable();
        let [low, likely, high] = numbers.map(|number| match kind(1) {
            Span::WorkingDays(_) => kind(number / each),
            _ => kind(number),
        });
        let estimate = Estimate::new(low, likely, high);
        prop_assert!(estimate.is_some());
        prop_assert_eq!(estimate.map(|estimate| estimate.to_string().parse()), estimate.map(Ok));
    }
}
