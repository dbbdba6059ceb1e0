//! `grounds rule`: one rule by itself, with figures that are given.

mod file;
mod one;

use grounds_measure::Units;
use grounds_rules::{Code, Given, Rule, Verdict, all, rule_named, rule_near};

use super::{show, show_json};
use crate::{
    arguments,
    asked::quoted,
    ending::{Ending, Trouble},
    page::{HEAD, Page, QUIET},
};

pub(super) fn run(asked: &arguments::Rule) -> Result<Ending, Trouble> {
    let code = code(&asked.code)?;
    let Some(name) = &asked.name else {
        return list(asked.json);
    };
    let rule = rule_named(name).ok_or_else(|| unknown(name))?;
    if asked.figures.is_empty() {
        if asked.json {
            show_json(&file::Asks::of(rule))?;
        } else {
            show(one::asks(rule, code))?;
        }
        return Ok(Ending::Fine);
    }
    let given = read(rule, &asked.figures)?;
    let answer = rule.check(&given, code, units(code));
    if asked.json {
        show_json(&file::Answered::of(rule, code, &answer))?;
    } else {
        show(one::answered(rule, code, &answer))?;
    }
    Ok(match answer.verdict {
        Verdict::Fails => Ending::CannotBeMet,
        Verdict::CannotTell | Verdict::Passes => Ending::Fine,
    })
}

fn code(name: &str) -> Result<&'static Code, Trouble> {
    Code::named(name).ok_or_else(|| {
        let known: Vec<&str> = Code::all().iter().map(|code| code.name.as_str()).collect();
        Trouble::Input(format!(
            "there is no code {} here: write one of {}",
            quoted(name),
            known.join(", ")
        ))
    })
}

/// The units that go with a code: metric with the one that metric jobs usually go by.
fn units(code: &Code) -> Units {
    if code.name == Code::usual(Units::Metric).name {
        Units::Metric
    } else {
        Units::Imperial
    }
}

fn unknown(name: &str) -> Trouble {
    let near = rule_near(name);
    let mean = near.map_or_else(String::new, |rule| format!("; did you mean {}?", rule.name));
    Trouble::Input(format!(
        "no rule is called {}{mean}\n`grounds rule` lists every rule.",
        quoted(name)
    ))
}

/// Reads `key=value` figures.
fn read(rule: &Rule, figures: &[String]) -> Result<Given, Trouble> {
    let example = rule.asked().next().map_or_else(
        || "riser=\"8 in\"".to_owned(),
        |spec| format!("{}=\"{}\"", spec.name, one::first_example(spec)),
    );
    let pair = |text| {
        str::split_once(text, '=').ok_or_else(|| {
            Trouble::Input(format!(
                "{} is no figure: write a key, = and a value, like {example}",
                quoted(text)
            ))
        })
    };
    let pairs: Vec<(&str, &str)> = figures
        .iter()
        .map(|text| pair(text.as_str()))
        .collect::<Result<_, _>>()?;
    Given::read(rule, pairs).map_err(|faults| {
        let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
        Trouble::Input(lines.join("\n"))
    })
}

/// Every rule, a line each.
fn list(json: bool) -> Result<Ending, Trouble> {
    if json {
        let asks: Vec<file::Asks> = all().iter().map(|rule| file::Asks::of(rule)).collect();
        show_json(&asks)?;
        return Ok(Ending::Fine);
    }
    let width = all().iter().map(|rule| rule.name.len()).max().unwrap_or(0);
    let mut page = Page::default();
    let mut family = None;
    for rule in all() {
        if family != Some(rule.family) {
            page.heading(HEAD, rule.family.title());
            family = Some(rule.family);
        }
        page.row(2, &[(rule.name, width)], rule.title);
    }
    page.heading(
        QUIET,
        "grounds rule NAME tells what a rule asks for; grounds rule NAME KEY=VALUE… answers it.",
    );
    show(page)?;
    Ok(Ending::Fine)
}
