//! A rule worked out with figures that are typed, apart from the job.

use std::{borrow::Cow, collections::BTreeMap};

use grounds_rules::{
    Answer, Code, Given, GivenFault, InputKind, Origin, Rule, Spec, Verdict, grade_words,
    rule_named,
};
use grounds_sequence::words::{count, upper_first};
use maud::{Markup, html};

use super::{in_two, shown};
use crate::{say, visit::Visit};

/// The most characters of a figure.
const LONGEST: usize = 60;

/// What the form asks the code under.
const BY_CODE: &str = "by-code";

/// The page of a rule, and whether all that was typed could be read; nothing where there is no such
/// rule.
pub(crate) fn work_out(visit: &Visit, name: &str) -> Option<(Markup, bool)> {
    let rule = rule_named(name)?;
    let typed = Typed::of(visit, rule);
    let answer = typed.answer(visit, rule);
    let page = html! {
        header class="opening" {
            p class="place-line" {
                a href=(visit.to("rules/work-out")) { "Work one out" } " · " (rule.title)
            }
            (said(rule, &typed, answer.as_ref()))
        }
        div class="columns" {
            div {
                @if let Some(answer) = &answer {
                    @if answer.verdict == Verdict::Fails {
                        section class="part" aria-labelledby="ways-out" {
                            h2 id="ways-out" { "Ways out" }
                            p { (rule.way_out) }
                        }
                    }
                    (shown::missing(answer))
                    (shown::working(answer))
                    (shown::doubts(answer))
                }
                (form(visit, rule, &typed))
            }
            div { (shown::stands_on(rule, &typed.code)) }
        }
    };
    Some((page, typed.faults.is_empty()))
}

/// What was typed, as far as it is anything.
struct Typed<'a> {
    code: Cow<'a, Code>,
    texts: BTreeMap<&'static str, String>,
    given: Given,
    faults: BTreeMap<&'static str, GivenFault>,
}

impl<'a> Typed<'a> {
    fn of(visit: &'a Visit, rule: &Rule) -> Self {
        let own = &visit.picture.rules.code;
        let named = visit.asked(BY_CODE).and_then(Code::named);
        let code = named.map_or(Cow::Borrowed(own), Cow::Borrowed);
        let mut typed = Self {
            code,
            texts: BTreeMap::new(),
            given: Given::new(),
            faults: BTreeMap::new(),
        };
        for spec in rule.inputs {
            let Some(text) = visit.asked(spec.name).map(str::trim) else {
                continue;
            };
            if text.is_empty() {
                continue;
            }
            typed.texts.insert(spec.name, say::cut(text, LONGEST));
            if let Err(fault) = typed.given.put(rule, spec.name, text, "as typed") {
                typed.faults.insert(spec.name, fault);
            }
        }
        typed
    }

    /// The answer, once something was typed and all of it can be read.
    fn answer(&self, visit: &Visit, rule: &Rule) -> Option<Answer> {
        let units = visit.picture.job.job.units;
        let ready = !self.texts.is_empty() && self.faults.is_empty();
        ready.then(|| rule.check(&self.given, &self.code, units))
    }

    fn text(&self, spec: &Spec) -> &str {
        self.texts.get(spec.name).map_or("", String::as_str)
    }
}

fn said(rule: &Rule, typed: &Typed<'_>, answer: Option<&Answer>) -> Markup {
    let faults = typed.faults.len();
    html! {
        @if let Some(answer) = answer {
            @let (first, rest) = in_two(&answer.said);
            h1 { (first) }
            @if !rest.is_empty() { p class="lead" { (rest) } }
            p class="soft" { (rule.question) }
        } @else if faults > 0 {
            h1 { (upper_first(&count(faults))) (if faults == 1 { " figure" } else { " figures" }) " cannot be read." }
            p class="lead" { "What was typed is still there; each says how to mend it." }
        } @else {
            h1 { (rule.question) }
        }
    }
}

fn form(visit: &Visit, rule: &Rule, typed: &Typed<'_>) -> Markup {
    let (limits, figures): (Vec<&Spec>, Vec<&Spec>) = rule
        .inputs
        .iter()
        .partition(|spec| matches!(spec.origin, Origin::Limit(_)));
    let first_fault = rule
        .inputs
        .iter()
        .find(|spec| typed.faults.contains_key(spec.name));
    let focus = |spec: &Spec| first_fault.is_some_and(|first| first.name == spec.name);
    let changed = limits
        .iter()
        .any(|spec| typed.texts.contains_key(spec.name));
    html! {
        section class="part" aria-labelledby="figures" {
            h2 id="figures" { "Figures" }
            form class="form" method="get" action=(visit.to(&format!("rules/work-out/{}", rule.name))) {
                @for spec in figures { (field(spec, typed, focus(spec))) }
                (code_field(visit, typed))
                @if !limits.is_empty() {
                    details class="fold" open[changed] {
                        summary { "Other limits than the code has" }
                        @for spec in &limits { (field(spec, typed, focus(spec))) }
                    }
                }
                p class="form-do" { button class="do" { "Work it out" } }
            }
        }
    }
}

fn field(spec: &Spec, typed: &Typed<'_>, focus: bool) -> Markup {
    let fault = typed.faults.get(spec.name);
    let text = typed.text(spec);
    let (id, hint_id) = (format!("f-{}", spec.name), format!("h-{}", spec.name));
    let fault_id = format!("x-{}", spec.name);
    let described = match fault {
        Some(_) => format!("{fault_id} {hint_id}"),
        None => hint_id.clone(),
    };
    let choices: &[&str] = match spec.kind {
        InputKind::Quantity(_) => &[],
        InputKind::Word(words) => words,
        InputKind::YesNo => &["yes", "no"],
    };
    let chosen = text.to_lowercase().replace([' ', '_'], "-");
    html! {
        div class="field" {
            label for=(id) { (upper_first(spec.what)) }
            @if choices.is_empty() {
                input id=(id) name=(spec.name) value=(text) maxlength=(LONGEST) autocomplete="off"
                    aria-invalid=[fault.map(|_| "true")] aria-describedby=(described) autofocus[focus];
            } @else {
                select id=(id) name=(spec.name) autocomplete="off"
                    aria-invalid=[fault.map(|_| "true")] aria-describedby=(described) autofocus[focus] {
                    option value="" { "not known" }
                    @for choice in choices {
                        option value=(choice) selected[chosen == *choice] { (choice.replace('-', " ")) }
                    }
                }
            }
            @if let Some(fault) = fault {
                p class="fault" id=(fault_id) { (upper_first(&fault.what)) ": " (fault.mend) "." }
            }
            p class="hint" id=(hint_id) { (hint(spec, &typed.code)) }
        }
    }
}

/// What to write for a figure, who has it, and what is taken if nobody does.
fn hint(spec: &Spec, code: &Code) -> String {
    let mut parts = Vec::new();
    if let InputKind::Quantity(kind) = spec.kind {
        let range = if spec.least.is_empty() || spec.most.is_empty() {
            String::new()
        } else {
            format!(", from {} to {}", spec.least, spec.most)
        };
        let (_, values) = kind
            .example
            .split_once(" like ")
            .unwrap_or(("", kind.example));
        parts.push(format!("Like {values}{range}."));
    }
    match spec.origin {
        Origin::Asked => parts.push(format!("From {}.", spec.who.words())),
        Origin::Wanted => parts.push(format!("From {}; it goes without.", spec.who.words())),
        Origin::Guessed(guess) => parts.push(format!(
            "From {}; left out, taken as {}, {} to {}.",
            spec.who.words(),
            guess.likely,
            guess.low,
            guess.high
        )),
        Origin::Limit(allowance) => parts.push(limit_hint(spec, code, allowance.map(|it| it.is))),
    }
    parts.join(" ")
}

fn limit_hint(spec: &Spec, code: &Code, allowance: Option<&str>) -> String {
    let limit = code.limits.get(spec.name);
    match (code.changes.get(spec.name), limit, allowance) {
        (Some(change), ..) => format!("Left out, {}: {}", change.is, change.why),
        (None, Some(limit), _) => format!(
            "Left out, {}: {} ({}).",
            limit.is,
            limit.source,
            grade_words(limit.grade)
        ),
        (None, None, Some(allowance)) => format!("Left out, {allowance}; the code says nothing."),
        (None, None, None) => "Left out, it is not looked at; the code says nothing.".to_owned(),
    }
}

fn code_field(visit: &Visit, typed: &Typed<'_>) -> Markup {
    let own = &visit.picture.rules.code;
    html! {
        div class="field" {
            label for="by-code" { "Building code" }
            select id="by-code" name=(BY_CODE) autocomplete="off" {
                option value="" selected[typed.code.as_ref() == own] { "As this job has it: " (own.title) }
                @for code in Code::all() {
                    option value=(code.name) selected[typed.code.as_ref() == code && code != own] { (code.title) }
                }
            }
        }
    }
}
