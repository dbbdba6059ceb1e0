//! Every rule against its check values: prints, worked examples, arithmetic by hand. Each file of
//! `tests/values` names the source of each value beside it, with its grade, and whether it comes from
//! outside the project.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at the first surprise"
)]

use std::{collections::BTreeMap, fs, path::PathBuf};

use grounds_measure::Units;
use grounds_model::Grade;
use grounds_rules::{Answer, Code, Given, Verdict, all, quantity::kind_named, rule_named};
use serde::Deserialize;

/// How near a step must come to its check value, unless the case says otherwise.
const WITHIN: f64 = 0.001;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    case: Vec<Case>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    rule: String,
    house: String,
    #[serde(default = "american")]
    code: String,
    given: BTreeMap<String, String>,
    verdict: String,
    #[serde(default)]
    steps: BTreeMap<String, String>,
    within: Option<f64>,
    source: String,
    grade: Grade,
    outside: bool,
}

fn american() -> String {
    "irc-2021".to_owned()
}

fn cases() -> Vec<Case> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/values");
    let mut paths: Vec<PathBuf> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    paths.sort();
    let read = |path: &PathBuf| -> File {
        toml::from_str(&fs::read_to_string(path).unwrap())
            .unwrap_or_else(|fault| panic!("{path:?}: {fault}"))
    };
    paths.iter().flat_map(|path| read(path).case).collect()
}

fn answered(case: &Case) -> Answer {
    let rule = rule_named(&case.rule).unwrap_or_else(|| panic!("there is no rule {}", case.rule));
    let code = Code::named(&case.code).unwrap_or_else(|| panic!("there is no code {}", case.code));
    let pairs = case
        .given
        .iter()
        .map(|(key, text)| (key.as_str(), text.as_str()));
    let given =
        Given::read(rule, pairs).unwrap_or_else(|faults| panic!("{}: {faults:?}", case.house));
    rule.check(&given, code, Units::Metric)
}

#[test]
fn every_rule_says_what_its_check_values_say() {
    let mut wrong = Vec::new();
    for case in cases() {
        let answer = answered(&case);
        let verdict = match answer.verdict {
            Verdict::Passes => "passes",
            Verdict::Fails => "fails",
            Verdict::CannotTell => "cannot-tell",
        };
        if verdict != case.verdict {
            wrong.push(format!(
                "{}: {}: {verdict}, not {}: {}",
                case.rule, case.house, case.verdict, answer.said
            ));
        }
        for (step, text) in &case.steps {
            let Some((is, kind)) = answer.figure(step) else {
                wrong.push(format!(
                    "{}: {}: no step `{step}` in {:#?}",
                    case.rule,
                    case.house,
                    answer.working()
                ));
                continue;
            };
            let should = kind_named(kind)
                .unwrap()
                .read(text)
                .unwrap_or_else(|misread| panic!("{step}: {misread}"));
            let within = case.within.unwrap_or(WITHIN) * should.abs();
            if (is - should).abs() > within {
                wrong.push(format!(
                    "{}: {}: {step} is {is}, not {should} ({text})",
                    case.rule, case.house
                ));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_rule_has_two_check_values_and_one_from_outside() {
    let mut counts: BTreeMap<String, (usize, usize)> = BTreeMap::new();
    for case in cases() {
        assert!(!case.source.trim().is_empty(), "{}", case.house);
        // What stands in print or is recalled from it is from outside; so is what a trade holds to.
        let _ = case.grade;
        let count = counts.entry(case.rule).or_default();
        count.0 += 1;
        count.1 += usize::from(case.outside);
    }
    assert!(all().len() >= 35);
    for rule in all() {
        let (values, outside) = counts.get(rule.name).copied().unwrap_or_default();
        assert!(
            values >= 2 && outside >= 1,
            "{}: {values} values, {outside} from outside",
            rule.name
        );
    }
}

#[test]
fn every_rule_is_seen_to_pass_and_to_fail() {
    let cases = cases();
    for rule in all() {
        for verdict in ["passes", "fails"] {
            let seen = cases
                .iter()
                .any(|case| case.rule == rule.name && case.verdict == verdict);
            assert!(seen, "{} never {verdict}", rule.name);
        }
    }
}
