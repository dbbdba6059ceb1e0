//! Reading a quantity: a number and a unit, or what the trade writes beside that.

use super::{Kind, Unit};

/// The longest text that is read, in characters.
const LONGEST: usize = 80;

/// Why a text is not the quantity it should be.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{what}; write {example}")]
pub struct Misread {
    /// What is wrong.
    pub what: String,
    /// Well-formed examples.
    pub example: String,
}

/// A text as it may be shown back: short, and nothing invisible in it.
pub(crate) fn shown(text: &str) -> String {
    let mut out = String::new();
    for (count, c) in text.chars().enumerate() {
        if count == LONGEST {
            out.push('…');
            break;
        }
        match c {
            '"' | '\'' => out.push(c),
            _ => out.extend(c.escape_debug()),
        }
    }
    out
}

pub(super) fn read(kind: &Kind, text: &str) -> Result<f64, Misread> {
    let wrong = |what: String| Misread {
        what,
        example: kind.example.to_owned(),
    };
    let trimmed = text.trim();
    if trimmed.chars().count() > LONGEST {
        return Err(wrong(format!("`{}` is too long", shown(trimmed))));
    }
    if let Some(base) = kind.reader.and_then(|reader| reader(trimmed)) {
        return Ok(base);
    }
    if kind.name == "share"
        && let Some(slope) = slope(trimmed)
    {
        return Ok(slope);
    }
    let (number, unit) = number_and_unit(trimmed);
    let Some(number) = figures_of(number) else {
        return Err(wrong(format!(
            "`{}` does not begin with a plain number",
            shown(trimmed)
        )));
    };
    let unit = match (unit_named(kind, unit), unit) {
        (Some(unit), _) => unit,
        (None, "") => {
            return Err(wrong(format!("`{}` has no unit", shown(trimmed))));
        }
        (None, unit) => {
            let known: Vec<&str> = kind.unit_names().collect();
            return Err(wrong(format!(
                "`{}` is no unit of a {}, known are {}",
                shown(unit),
                kind.name,
                known.join(", ")
            )));
        }
    };
    let base = (number + unit.before) * unit.each;
    if base.is_finite() && base.abs() < 1e15 {
        Ok(base)
    } else {
        Err(wrong(format!("`{}` is out of all bounds", shown(trimmed))))
    }
}

/// The number at the start of a text, and what follows it.
fn number_and_unit(text: &str) -> (&str, &str) {
    let end = text
        .char_indices()
        .find(|(at, c)| !(c.is_ascii_digit() || *c == '.' || (*at == 0 && "+-−".contains(*c))))
        .map_or(text.len(), |(at, _)| at);
    let (number, unit) = text.split_at(end);
    (number, unit.trim())
}

/// A plain decimal number. Nothing for `inf`, `nan`, exponents and commas.
fn figures_of(text: &str) -> Option<f64> {
    let text = text.trim().replace('−', "-");
    let plain = text
        .chars()
        .all(|c| c.is_ascii_digit() || ".+-".contains(c));
    let number = text.parse::<f64>().ok().filter(|_| plain)?;
    number.is_finite().then_some(number)
}

fn unit_named<'k>(kind: &'k Kind, name: &str) -> Option<&'k Unit> {
    let name = name
        .replace('²', "2")
        .replace('³', "3")
        .replace('°', "")
        .replace('·', ".")
        .replace('µ', "u");
    let name = name.trim();
    let exact = |unit: &&Unit| unit.spellings.contains(&name);
    let near = |unit: &&Unit| {
        unit.spellings
            .iter()
            .any(|spelling| spelling.eq_ignore_ascii_case(name))
    };
    kind.units
        .iter()
        .find(exact)
        .or_else(|| kind.units.iter().find(near))
}

/// A slope as the trade writes it: `1:50`, `1/4 in/ft`, `1/4 in per ft`; or a bare number below 1.
fn slope(text: &str) -> Option<f64> {
    if let Some((rise, run)) = text.split_once(':') {
        let (rise, run) = (figures_of(rise)?, figures_of(run)?);
        return (run > 0.0).then_some(rise / run);
    }
    let text = text.replace(" per ", "/");
    if let Some(inches) = text.strip_suffix("in/ft") {
        let inches = inches.trim();
        let inches = match inches.split_once('/') {
            Some((over, under)) => {
                let (over, under) = (figures_of(over)?, figures_of(under)?);
                (under > 0.0).then_some(over / under)?
            }
            None => figures_of(inches)?,
        };
        return Some(inches / 12.0);
    }
    figures_of(&text).filter(|share| (0.0..=1.0).contains(share))
}
