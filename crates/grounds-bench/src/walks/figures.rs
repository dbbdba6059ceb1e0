//! Numbers and dates in what a row states, read without the crate that is scored.

use grounds_walk::{Amount, Unit};
use jiff::civil::Date;

use super::read::date;

/// A number that a row states, in a comparable unit.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Stated {
    number: f64,
    unit: String,
}

impl Stated {
    /// Whether an amount is this number; a unit that neither side says does not part them.
    pub(super) fn is(&self, amount: &Amount) -> bool {
        let (scale, unit) = scale_of(amount.unit.sign());
        let number = amount.number.as_f64() * scale;
        let close = (number - self.number).abs() <= 1e-6 * self.number.abs().max(1.0);
        let free = unit.is_empty() || self.unit.is_empty() || amount.unit == Unit::None;
        let bare = (amount.number.as_f64() - self.number).abs() < 1e-9;
        (close && (unit == self.unit || free)) || free && bare
    }
}

/// The factor to the comparable unit, and that unit: lengths are compared in millimetres.
fn scale_of(unit: &str) -> (f64, String) {
    let lower = unit.to_lowercase();
    let scale = match lower.as_str() {
        "mm" | "mil" => 1.0,
        "cm" => 10.0,
        "m" => 1000.0,
        "in" | "inch" | "inches" | "\"" => 25.4,
        "ft" | "foot" | "feet" => 304.8,
        _ => {
            let same = match lower.as_str() {
                "°c" | "c" | "degrees" => "c",
                "°f" | "f" => "f",
                "percent" | "%" => "%",
                "hours" | "h" | "hour" => "h",
                "minutes" | "min" => "min",
                "l" | "litres" | "litre" => "l",
                other => other,
            };
            return (1.0, same.to_owned());
        }
    };
    (scale, "length".to_owned())
}

const UNITS: [&str; 38] = [
    "mm", "cm", "m", "in", "ft", "%", "C", "F", "°C", "°F", "kg", "lb", "sq", "psi", "bar", "Pa",
    "Btu/h", "Btu", "cfm", "l/s", "W", "kW", "V", "A", "lux", "h", "min", "days", "weeks", "inch",
    "inches", "feet", "foot", "percent", "degrees", "l", "mil", "megohm",
];

/// The numbers that a text states before its first bracket, semicolon or colon.
pub(super) fn required(text: &str) -> Vec<Stated> {
    let end = text.find([';', ':']).unwrap_or(text.len());
    let head = text.get(..end).unwrap_or(text);
    all(&without_asides(head))
}

/// The text without brackets, except brackets that hold nothing but a unit: `71 (% RH)`.
fn without_asides(text: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('(') {
        out.push_str(before);
        let (aside, after) = after.split_once(')').unwrap_or((after, ""));
        let unit = aside.split([' ', ',']).next().unwrap_or_default();
        if UNITS.contains(&unit) && !aside.contains(|c: char| c.is_ascii_digit()) {
            out.push_str(unit);
            out.push(' ');
        }
        rest = after;
    }
    out.push_str(rest);
    out
}

/// Every number of a text with its unit; a unit at the end of a list is the unit of all before it.
pub(super) fn all(text: &str) -> Vec<Stated> {
    let text = without_dates(text);
    let words: Vec<&str> = text.split_whitespace().collect();
    let mut raw: Vec<(f64, Option<String>)> = Vec::new();
    for (i, word) in words.iter().enumerate() {
        let bare = word.trim_matches(|c: char| matches!(c, ',' | '.' | ')' | '(' | '~'));
        let end = bare
            .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '/' | '-')))
            .unwrap_or(bare.len());
        let (digits, stuck) = bare.split_at(end);
        let Some(number) = number(digits) else {
            continue;
        };
        let next = words
            .get(i + 1)
            .map(|next| next.trim_matches([',', '.', ')', '(', ';']));
        let after = if stuck.is_empty() {
            next.unwrap_or_default()
        } else {
            stuck
        };
        let mut unit = UNITS
            .iter()
            .find(|unit| **unit == after)
            .map(|unit| (*unit).to_owned());
        if unit.as_deref() == Some("sq") {
            let which = words
                .get(i + 2)
                .map(|w| w.trim_matches([',', '.']))
                .unwrap_or_default();
            unit = Some(format!("sq {which}"));
        }
        raw.push((number, unit));
    }
    let mut later: Option<String> = None;
    for (_, unit) in raw.iter_mut().rev() {
        match unit {
            Some(unit) => later = Some(unit.clone()),
            None => unit.clone_from(&later),
        }
    }
    raw.into_iter()
        .map(|(number, unit)| {
            let (scale, unit) = scale_of(&unit.unwrap_or_default());
            Stated {
                number: number * scale,
                unit,
            }
        })
        .collect()
}

/// A number as tables write it: `9.5`, `19,800`, `30-1/16`, `5/8`.
fn number(digits: &str) -> Option<f64> {
    let digits = digits.trim_end_matches(['-', '.', ',', '/']);
    if !digits.starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    let part = |text: &str| -> Option<f64> {
        let (top, bottom) = text.split_once('/')?;
        Some(top.parse::<f64>().ok()? / bottom.parse::<f64>().ok()?)
    };
    if let Some((whole, rest)) = digits.split_once('-') {
        return Some(whole.parse::<f64>().ok()? + part(rest)?);
    }
    part(digits).or_else(|| digits.replace(',', "").parse().ok())
}

/// The text with its dates and times of day taken out.
fn without_dates(text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    let mut out = Vec::new();
    let mut at = 0;
    while let Some(word) = words.get(at) {
        let three = |i: usize| {
            words
                .get(at + i)
                .map(|w| w.trim_matches([',', '.', ';', '(', ')']))
        };
        let dated = three(0)
            .zip(three(1))
            .is_some_and(|(day, month)| date(day, month, "2027").is_some());
        if dated {
            at += 2 + usize::from(three(2).is_some_and(|y| y.len() == 4 && y.starts_with("20")));
        } else {
            if !word.contains(':') {
                out.push(*word);
            }
            at += 1;
        }
    }
    out.join(" ")
}

/// The dates that a text states with their year.
pub(super) fn dates(text: &str) -> Vec<Date> {
    let words: Vec<&str> = text
        .split(|c: char| !(c.is_alphanumeric() || c == ':'))
        .filter(|word| !word.is_empty())
        .collect();
    words
        .windows(3)
        .filter_map(|three| match three {
            [day, month, year] => date(day, month, year),
            _ => None,
        })
        .collect()
}
