//! A rule applied to a thing of the house: what it comes to, and why.

use grounds_rules::{InputKind, Line, Origin, Verdict, house::Applied};
use grounds_sequence::words::upper_first;
use maud::{Markup, html};

use super::{drawn, goes_on, holds_up, in_two, place_name, shown};
use crate::visit::{Visit, encode};

/// The page; nothing where no rule of that key speaks of the house.
pub(crate) fn one(visit: &Visit, key: &str) -> Option<Markup> {
    let applied = visit.picture.rules.get(key)?;
    let rule = applied.rule;
    let (first, rest) = in_two(&applied.answer.said);
    let fails = applied.answer.verdict == Verdict::Fails;
    Some(html! {
        header class="opening" {
            p class="place-line" {
                a href=(visit.to("rules")) { "Rules" } " · " (place_name(visit, applied.place.as_ref()))
            }
            h1 { (upper_first(&applied.called)) ": " (grounds_sequence::words::lower_first(first)) }
            @if !rest.is_empty() { p class="lead" { (rest) } }
            p class="soft" { (rule.question) }
        }
        @if let Some(decided) = goes_on(visit, applied) { p class="notice good" { (decided) } }
        div class="columns" {
            div {
                @if fails {
                    section class="part" aria-labelledby="ways-out" {
                        h2 id="ways-out" { "Ways out" }
                        p { (rule.way_out) }
                    }
                }
                (shown::missing(&applied.answer))
                (holds_up::part(visit, applied))
                (shown::working(&applied.answer))
                p class="go" { a class="can" href=(with_its_figures(visit, applied)) { "Try other figures" } }
            }
            div {
                (drawn::drawn(visit, applied))
                (shown::doubts(&applied.answer))
                (shown::stands_on(rule, &visit.picture.rules.code))
            }
        }
    })
}

/// The address of the form of the rule, filled in as it stands.
fn with_its_figures(visit: &Visit, applied: &Applied) -> String {
    let rule = applied.rule;
    let mut to = visit.to(&format!("rules/work-out/{}", rule.name));
    let mut before = '?';
    for line in &applied.answer.lines {
        let Line::Given { key, value, .. } = line else {
            continue;
        };
        let spec = rule.input(key);
        if spec.is_none_or(|spec| matches!(spec.origin, Origin::Limit(_))) {
            continue;
        }
        let value = match spec.map(|spec| spec.kind) {
            Some(InputKind::Word(_)) => value.replace(' ', "-"),
            _ => value.clone(),
        };
        to.push_str(&format!("{before}{key}={}", encode(&value, ".")));
        before = '&';
    }
    to
}
