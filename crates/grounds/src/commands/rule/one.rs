//! One rule as a page: what it asks for, or its answer with the working.

use grounds_rules::{Answer, Code, Origin, Rule, Spec, Verdict, grade_words};
use grounds_sequence::words::upper_first;

use crate::{
    commands::rules::verdict_word,
    page::{ALARM, HEAD, PLAIN, Page, QUIET},
};

/// What a rule asks for.
pub(super) fn asks(rule: &Rule, code: &Code) -> Page {
    let mut page = Page::default();
    page.heading(HEAD, rule.title);
    page.paragraph(PLAIN, 2, rule.question);
    page.heading(HEAD, "It asks for");
    for spec in rule.inputs {
        page.item(2, &format!("{}: {}", spec.name, spec.what));
        page.paragraph(QUIET, 4, &origin(spec, code));
    }
    page.heading(HEAD, "What is computed");
    for line in rule.formula {
        page.paragraph(PLAIN, 2, line);
    }
    stands_on(&mut page, rule, code);
    let figures: Vec<String> = rule
        .asked()
        .map(|spec| format!("{}=\"{}\"", spec.name, first_example(spec)))
        .collect();
    page.heading(HEAD, "Try it");
    page.paragraph(
        QUIET,
        2,
        &format!("grounds rule {} {}", rule.name, figures.join(" ")),
    );
    page
}

/// The first value that an input may have: `600 cfm`.
pub(super) fn first_example(spec: &Spec) -> String {
    let example = spec.kind.example();
    let (_, values) = example.split_once(" like ").unwrap_or(("", &example));
    let values = values.strip_prefix("one of ").unwrap_or(values);
    let first = values.split(", ").next().unwrap_or(values);
    first.split(" or ").next().unwrap_or(first).to_owned()
}

/// Where an input comes from, and what to write for it.
fn origin(spec: &Spec, code: &Code) -> String {
    let range = if spec.least.is_empty() {
        String::new()
    } else {
        format!(", from {} to {}", spec.least, spec.most)
    };
    let write = format!("write {}{range}", spec.kind.example());
    let who = spec.who.words();
    match spec.origin {
        Origin::Asked => format!("{write}; from {who}"),
        Origin::Wanted => format!("{write}; from {who}; it goes without"),
        Origin::Guessed(guess) => format!(
            "{write}; from {who}; else taken as {}, {} to {} ({}, {})",
            guess.likely,
            guess.low,
            guess.high,
            guess.source,
            grade_words(guess.grade)
        ),
        Origin::Limit(allowance) => match (code.limits.get(spec.name), allowance) {
            (Some(limit), _) => format!(
                "{} by the code: {} ({})",
                limit.is,
                limit.source,
                grade_words(limit.grade)
            ),
            (None, Some(allowance)) => format!(
                "{} where the code says nothing: {} ({})",
                allowance.is,
                allowance.source,
                grade_words(allowance.grade)
            ),
            (None, None) => "the code says nothing; this part does not apply".to_owned(),
        },
    }
}

/// The answer of a rule, with its working.
pub(super) fn answered(rule: &Rule, code: &Code, answer: &Answer) -> Page {
    let mut page = Page::default();
    let style = match answer.verdict {
        Verdict::Fails => ALARM,
        Verdict::CannotTell | Verdict::Passes => HEAD,
    };
    let standing = verdict_word(answer.verdict);
    page.heading(style, &format!("{}: {standing}", rule.title));
    page.paragraph(PLAIN, 2, &answer.said);
    if !answer.missing.is_empty() {
        page.heading(HEAD, "What is missing");
        for missing in &answer.missing {
            page.item(
                2,
                &format!(
                    "{}, from {}: {}=\"{}\"",
                    upper_first(missing.what),
                    missing.who,
                    missing.key,
                    missing.example
                ),
            );
        }
    }
    if !answer.lines.is_empty() {
        page.heading(HEAD, "Working");
        for line in answer.working() {
            page.item(2, &line);
        }
    }
    if !answer.doubts.is_empty() {
        page.heading(HEAD, "What hangs on a guess");
        for doubt in &answer.doubts {
            page.item(2, &doubt.said);
        }
    }
    if answer.verdict == Verdict::Fails {
        page.heading(HEAD, "Ways out");
        page.paragraph(PLAIN, 2, rule.way_out);
    }
    stands_on(&mut page, rule, code);
    page
}

/// Sources, the code with its edition, and the caution.
fn stands_on(page: &mut Page, rule: &Rule, code: &Code) {
    page.heading(HEAD, "It stands on");
    for source in rule.sources {
        page.item(
            2,
            &format!("{} ({})", source.text, grade_words(source.grade)),
        );
    }
    page.paragraph(
        QUIET,
        2,
        &format!("Limits by {}, {}.", code.title, code.edition),
    );
    page.heading(HEAD, "Take care");
    page.paragraph(PLAIN, 2, rule.caution);
}
