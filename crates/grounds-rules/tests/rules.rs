//! What must be true of every rule, whatever it checks.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at the first surprise"
)]

use std::collections::BTreeMap;

use grounds_measure::Units;
use grounds_rules::{
    Code, Given, InputKind, Origin, Spec, Verdict, all, figures, rule_named, rule_near,
};

fn inputs() -> impl Iterator<Item = (&'static str, &'static Spec)> {
    all()
        .iter()
        .flat_map(|rule| rule.inputs.iter().map(|spec| (rule.name, spec)))
}

#[test]
fn no_rule_lacks_its_source_its_units_its_caution_or_a_way_out() {
    assert!(all().len() >= 35, "{}", all().len());
    for rule in all() {
        let name = rule.name;
        assert!(rule.question.ends_with('?'), "{name}");
        assert!(!rule.title.is_empty() && !rule.formula.is_empty(), "{name}");
        assert!(!rule.inputs.is_empty(), "{name}");
        assert!(!rule.sources.is_empty(), "{name}");
        assert!(
            rule.sources.iter().all(|source| source.text.len() > 10),
            "{name}"
        );
        assert!(rule.caution.len() > 40, "{name}");
        assert!(rule.way_out.len() > 4, "{name}");
        for spec in rule.inputs {
            assert!(!spec.what.is_empty(), "{name} {}", spec.name);
            if let InputKind::Quantity(kind) = spec.kind {
                assert!(kind.unit_names().next().is_some(), "{name} {}", spec.name);
            }
        }
    }
}

#[test]
fn what_can_hurt_someone_defers_to_the_authority_an_engineer_or_the_law() {
    for rule in all() {
        let caution = rule.caution.to_lowercase();
        let defers = [
            "authority",
            "licensed",
            "engineer",
            "law",
            "maker",
            "standard",
            "say before",
            "table",
        ];
        assert!(
            defers.iter().any(|word| caution.contains(word)),
            "{}",
            rule.name
        );
    }
    for rule in all()
        .iter()
        .filter(|rule| rule.name.starts_with("guard") || rule.name.starts_with("handrail"))
    {
        assert!(
            rule.caution
                .contains("licensed engineer must design guards"),
            "{}",
            rule.name
        );
    }
}

#[test]
fn names_are_keys_and_no_two_rules_share_one() {
    let mut seen = BTreeMap::new();
    for rule in all() {
        assert!(grounds_model::Id::check(rule.name).is_ok(), "{}", rule.name);
        assert!(seen.insert(rule.name, ()).is_none(), "{}", rule.name);
        assert_eq!(rule_named(rule.name).unwrap().name, rule.name);
    }
    assert_eq!(rule_near("make-up-aire").unwrap().name, "make-up-air");
    assert!(rule_near(&"x".repeat(100_000)).is_none());
}

#[test]
fn the_same_key_means_the_same_thing_in_every_rule() {
    let mut known: BTreeMap<&str, (&str, &Spec)> = BTreeMap::new();
    for (rule, spec) in inputs() {
        assert!(
            grounds_model::Id::check(spec.name).is_ok(),
            "{rule} {}",
            spec.name
        );
        let (first, other) = *known.entry(spec.name).or_insert((rule, spec));
        let same = format!("{:?}", other.kind) == format!("{:?}", spec.kind)
            && (other.what, other.least, other.most) == (spec.what, spec.least, spec.most)
            && other.origin == spec.origin;
        assert!(same, "{} in {first} and in {rule}", spec.name);
    }
}

#[test]
fn every_range_guess_and_allowance_reads_as_its_kind() {
    for (rule, spec) in inputs() {
        let InputKind::Quantity(kind) = spec.kind else {
            continue;
        };
        let read = |text: &str| {
            kind.read(text)
                .unwrap_or_else(|fault| panic!("{rule} {}: {fault}", spec.name))
        };
        if matches!(spec.origin, Origin::Asked | Origin::Wanted) {
            assert!(read(spec.least) < read(spec.most), "{rule} {}", spec.name);
        }
        match spec.origin {
            Origin::Guessed(guess) => {
                assert!(
                    read(guess.low) <= read(guess.likely),
                    "{rule} {}",
                    spec.name
                );
                assert!(
                    read(guess.likely) <= read(guess.high),
                    "{rule} {}",
                    spec.name
                );
                assert!(read(guess.low) < read(guess.high), "{rule} {}", spec.name);
            }
            Origin::Limit(Some(allowance)) => assert!(read(allowance.is).is_finite()),
            _ => {}
        }
    }
}

#[test]
fn every_limit_of_every_code_is_known_to_a_rule_and_reads() {
    assert_eq!(Code::all().len(), 3);
    for code in Code::all() {
        assert_eq!(figures::of_code(code), [], "{}", code.name);
        assert!(
            code.about.contains("authority having jurisdiction"),
            "{}",
            code.name
        );
        assert!(
            !code.edition.is_empty() && code.limits.len() > 25,
            "{}",
            code.name
        );
        for (key, limit) in &code.limits {
            assert!(limit.source.len() > 4, "{} {key}", code.name);
        }
    }
}

#[test]
fn every_rule_without_figures_says_what_is_missing_and_who_has_it() {
    for code in Code::all() {
        for rule in all() {
            let answer = rule.check(&Given::new(), code, Units::Metric);
            assert_eq!(answer.verdict, Verdict::CannotTell, "{}", rule.name);
            assert!(
                answer.said.starts_with("Cannot tell without"),
                "{}: {}",
                rule.name,
                answer.said
            );
            let missing = answer.missing.first().unwrap();
            assert!(
                rule.input(missing.key).is_some(),
                "{} {}",
                rule.name,
                missing.key
            );
            assert!(!missing.who.is_empty() && !missing.example.is_empty());
        }
    }
}

#[test]
fn hostile_figures_are_answered_and_never_feared() {
    let long = "9".repeat(5000);
    for rule in all() {
        for spec in rule.inputs {
            for text in [
                "",
                "\u{202e}5 mm",
                "<script>",
                "1e308 m",
                "-",
                "..",
                "~",
                "~~1 m",
                "1..",
                "NaN m",
                "0/0 in",
                long.as_str(),
            ] {
                let _ = Given::read(rule, [(spec.name, text)]);
            }
        }
        let fault = Given::read(rule, [("no-such-figure", "1 m")]).unwrap_err();
        assert!(fault[0].mend.contains(rule.inputs[0].name), "{}", fault[0]);
    }
}

#[test]
fn a_guess_says_where_the_answer_turns() {
    let rule = rule_named("make-up-air").unwrap();
    let code = Code::named("irc-2021").unwrap();
    let given = Given::read(
        rule,
        [
            ("airflow", "300..500 cfm"),
            ("supply-air", "0 cfm"),
            ("opens-with-fan", "yes"),
        ],
    )
    .unwrap();
    let answer = rule.check(&given, code, Units::Imperial);
    let doubt = &answer.doubts[0];
    assert_eq!((doubt.low, doubt.high), (Verdict::Passes, Verdict::Fails));
    let turns = doubt.turns_at.as_deref().unwrap();
    assert!(
        turns.starts_with("400") || turns.starts_with("399.9"),
        "{turns}"
    );
    assert!(doubt.said.contains("passes up to about"), "{}", doubt.said);
}

#[test]
fn a_limit_that_is_changed_for_the_job_is_gone_by_and_named() {
    let rule = rule_named("riser-and-going").unwrap();
    let code = Code::named("irc-2021").unwrap().clone();
    let code = code.changed(
        "riser-most",
        "8 in",
        "Agreed with the building official for the old stair",
    );
    let given = Given::read(rule, [("riser", "7-7/8\""), ("going", "10 in")]).unwrap();
    let answer = rule.check(&given, &code, Units::Imperial);
    assert_eq!(answer.verdict, Verdict::Passes, "{}", answer.said);
    assert!(
        answer
            .working()
            .join("\n")
            .contains("Agreed with the building official")
    );
}

#[test]
fn a_code_by_hand_is_read_and_its_faults_are_told() {
    let text = "name = \"ours\"\ntitle = \"Ours\"\nedition = \"1\"\nabout = \"x\"\n[limits.riser-mots]\nis = \"7 in\"\nsource = \"x\"\ngrade = \"memory\"\n[limits.going-least]\nis = \"7 kg\"\nsource = \"x\"\ngrade = \"memory\"\n";
    let code = Code::read(text).unwrap();
    let faults = figures::of_code(&code);
    assert_eq!(faults.len(), 2);
    assert!(
        faults.iter().any(|fault| fault.mend.contains("riser-most")),
        "{faults:?}"
    );
    assert!(Code::read("limits = 3").is_err());
    assert!(Code::read(&"#".repeat(1_000_000)).is_err());
}
