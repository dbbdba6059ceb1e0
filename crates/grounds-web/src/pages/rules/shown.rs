//! The working of an answer, what hangs on guesses, and what a rule stands on.

use grounds_rules::{Answer, Code, Line, Relation, Rule, grade_words};
use grounds_sequence::words::upper_first;
use maud::{Markup, html};

/// The working, line by line.
pub(super) fn working(answer: &Answer) -> Markup {
    html! {
        @if !answer.lines.is_empty() {
            section class="part" aria-labelledby="working" {
                h2 id="working" { "Working" }
                ol class="rule-working" { @for line in &answer.lines { (self::line(line)) } }
            }
        }
    }
}

fn line(line: &Line) -> Markup {
    html! {
        @match line {
            Line::Given { what, value, from, guessed, .. } => li {
                span { (upper_first(what)) }
                b { (value) }
                small { (upper_first(from)) @if *guessed { ", a guess" } }
            },
            Line::Step { what, how, value, .. } => li {
                span { (upper_first(what)) }
                b { (value) }
                @if !how.is_empty() { small { "= " (how) } }
            },
            Line::Compared { what, value, relation, limit, holds } => li class=(class(*holds)) {
                span { (upper_first(what)) }
                b { (value) }
                small {
                    (match relation { Relation::AtMost => "At most ", Relation::AtLeast => "At least " })
                    (limit) ": " (end(*holds))
                }
            },
            Line::Must { what, holds } => li class=(class(*holds)) {
                span { (upper_first(what)) }
                b { (if *holds { "yes" } else { "no" }) }
                small { (upper_first(end(*holds))) }
            },
            Line::Said(text) => li { span class="whole" { (text) } },
        }
    }
}

fn class(holds: bool) -> &'static str {
    if holds { "kept" } else { "broken" }
}

fn end(holds: bool) -> &'static str {
    if holds { "as asked" } else { "not as asked" }
}

/// What is missing, gathered by who has it.
pub(super) fn by_whom(answer: &Answer) -> Vec<(&'static str, Vec<&'static str>)> {
    let mut all: Vec<(&'static str, Vec<&'static str>)> = Vec::new();
    for missing in &answer.missing {
        match all.iter_mut().find(|(who, _)| *who == missing.who) {
            Some((_, what)) => what.push(missing.what),
            None => all.push((missing.who, vec![missing.what])),
        }
    }
    all
}

/// What is missing, and who has it.
pub(super) fn missing(answer: &Answer) -> Markup {
    html! {
        @if !answer.missing.is_empty() {
            section class="part" aria-labelledby="missing" {
                h2 id="missing" { "What is missing" }
                ul class="checks" {
                    @for missing in &answer.missing {
                        li {
                            (upper_first(missing.what)) ": from " b { (missing.who) } ". "
                            span class="soft" { "Write " (missing.example) "." }
                        }
                    }
                }
            }
        }
    }
}

/// How the answer hangs on what is guessed.
pub(super) fn doubts(answer: &Answer) -> Markup {
    html! {
        @if !answer.doubts.is_empty() {
            section class="part" aria-labelledby="doubts" {
                h2 id="doubts" { "What hangs on a guess" }
                ul class="reasons" { @for doubt in &answer.doubts { li { (doubt.said) } } }
            }
        }
    }
}

/// Formula, sources with their grade, the code with its edition, and the caution.
pub(super) fn stands_on(rule: &Rule, code: &Code) -> Markup {
    html! {
        section class="part" aria-labelledby="care" {
            h2 id="care" { "Take care" }
            p { (rule.caution) }
        }
        section class="part" aria-labelledby="stands-on" {
            h2 id="stands-on" { "It stands on" }
            ul class="reasons" {
                @for source in rule.sources {
                    li { (source.text) " " span class="soft" { "(" (grade_words(source.grade)) ")" } }
                }
            }
            p class="soft" { "Limits: " (code.title) ", " (code.edition) "." }
            @for line in rule.formula { p class="formula" { (line) } }
        }
    }
}
