//! The rules of a house, and one rule by itself.

use crate::running::{example, grounds};
use serde_json::Value;

const MORNING: [&str; 2] = ["--at", "2027-06-10T07:10"];

fn mill(more: &[&str]) -> crate::running::Ended {
    let path = example("alder-sluice");
    let arguments: Vec<&str> = ["rules", path.as_str()]
        .into_iter()
        .chain(MORNING)
        .chain(more.iter().copied())
        .collect();
    grounds(&arguments)
}

#[test]
fn what_is_against_a_rule_comes_first_by_place_with_a_way_out() {
    let rules = mill(&[]);
    assert_eq!(rules.code, Some(1), "{}{}", rules.out, rules.err);
    let at = |part: &str| {
        rules
            .out
            .find(part)
            .unwrap_or_else(|| panic!("{part}:\n{}", rules.out))
    };
    assert!(at("Fails") < at("  Kitchen"));
    assert!(at("  Kitchen") < at("make-up-air/kitchen-hood"));
    assert!(at("make-up-air/kitchen-hood") < at("Cannot be told yet"));
    assert!(at("Cannot be told yet") < at("All rules"));
    let sentences = rules.sentences();
    for part in [
        "The air brought in is 150 L/s; at least 252 L/s is asked.",
        "A damper that opens with the fan",
        "from the structural engineer",
        "rail-clearance-least is 45 mm in this job",
    ] {
        assert!(sentences.contains(part), "{part}:\n{}", rules.out);
    }
    assert!(!rules.out.contains("\nPasses"), "{}", rules.out);
    assert!(mill(&["--all"]).out.contains("\nPasses"));
    for line in rules.out.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
}

#[test]
fn rules_in_json_carry_their_working_their_source_and_their_caution() {
    let file: Value = serde_json::from_str(&mill(&["--json"]).out).unwrap();
    let rules = file["rules"].as_array().unwrap();
    assert_eq!(rules[0]["verdict"], "fails");
    let hood = rules
        .iter()
        .find(|one| one["key"] == "make-up-air/kitchen-hood")
        .unwrap();
    assert_eq!(hood["about"], "kitchen-hood");
    assert_eq!(hood["goes_on"], false);
    assert!(hood["lines"].as_array().unwrap().len() > 4);
    for one in rules {
        assert!(!one["caution"].as_str().unwrap().is_empty(), "{one}");
        assert!(!one["sources"].as_array().unwrap().is_empty(), "{one}");
    }
}

#[test]
fn a_stair_too_steep_is_told_line_by_line() {
    // IRC 2021 R311.7.5.1: the riser is at most 7-3/4 in (published).
    let stair = grounds(&["rule", "riser-and-going", "riser=8 in", "going=10 in"]);
    assert_eq!(stair.code, Some(1), "{}{}", stair.out, stair.err);
    let sentences = stair.sentences();
    for part in [
        "Riser and going: fails",
        "The riser is 8 in; at most 7.75 in is asked.",
        "The riser: 8 in, at most 7.75 in: not as asked",
        "(published)",
        "Limits by International Residential Code, 2021",
        "check with the authority having jurisdiction",
    ] {
        assert!(sentences.contains(part), "{part}:\n{}", stair.out);
    }
    // Approved Document K (England, 2013), private stair: 150 to 220 mm rise, 220 to 300 mm going.
    let metric = grounds(&[
        "rule",
        "riser-and-going",
        "riser=200mm",
        "going=250mm",
        "--code",
        "metric-europe",
        "--json",
    ]);
    assert_eq!(metric.code, Some(0), "{}{}", metric.out, metric.err);
    let answer: Value = serde_json::from_str(&metric.out).unwrap();
    assert_eq!(answer["verdict"], "passes");
    assert_eq!(answer["code"], "metric-europe");
}

#[test]
fn every_rule_is_listed_and_says_what_it_asks_for() {
    let list = grounds(&["rule"]);
    assert_eq!(list.code, Some(0), "{}", list.err);
    for rule in grounds_rules::all() {
        assert!(list.out.contains(rule.name), "{}", rule.name);
        let asks = grounds(&["rule", rule.name]);
        assert_eq!(asks.code, Some(0), "{}: {}", rule.name, asks.err);
        for spec in rule.inputs {
            assert!(asks.out.contains(spec.name), "{}:\n{}", rule.name, asks.out);
        }
    }
}

#[test]
fn a_slip_is_told_with_how_to_mend_it() {
    for (arguments, part) in [
        (
            &["rule", "riser-and-goin"][..],
            "did you mean riser-and-going?",
        ),
        (
            &["rule", "riser-and-going", "riser=soon"],
            "write a length like",
        ),
        (
            &["rule", "riser-and-going", "goin=9 in"],
            "did you mean `going`?",
        ),
        (
            &["rule", "riser-and-going", "riser"],
            "is no figure: write a key, = and a value",
        ),
        (
            &["rule", "riser-and-going", "riser=9 m"],
            "something from 50 mm to 400 mm",
        ),
        (
            &["rule", "--code", "ircc"],
            "write one of ibc-2021, irc-2021, metric-europe",
        ),
    ] {
        let slip = grounds(arguments);
        assert_eq!(slip.code, Some(2), "{arguments:?}: {}", slip.out);
        assert!(
            slip.sentences().contains(part),
            "{arguments:?}: {}",
            slip.err
        );
    }
}

#[test]
fn a_figure_that_is_missing_says_who_has_it_and_a_guess_says_what_hangs_on_it() {
    let open = grounds(&["rule", "make-up-air", "airflow=600 cfm"]);
    assert_eq!(open.code, Some(0), "{}", open.err);
    assert!(
        open.sentences()
            .contains("from the heating, water and air trade"),
        "{}",
        open.out
    );
    let guess = grounds(&[
        "rule",
        "make-up-air",
        "airflow=600 cfm",
        "supply-air=500..700 cfm",
        "opens-with-fan=yes",
    ]);
    assert!(guess.out.contains("What hangs on a guess"), "{}", guess.out);
}
