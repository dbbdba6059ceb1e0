//! A parsed TOML document that still knows where each key and value stands.

use std::ops::Range;

use toml::{
    Spanned,
    de::{DeTable, DeValue},
};

use crate::faults::{Gathering, Severity};

/// The largest document that is read, in bytes.
pub(crate) const LARGEST: usize = 8 * 1024 * 1024;

/// The most faults of the notation itself that are shown; one slip often causes several.
const SYNTAX_FAULTS: usize = 8;

/// The path of a key, from the top of the document; items of lists are numbers from 0.
pub(crate) type Path<'p> = [&'p str];

/// Reads the notation; what cannot be read is noted, and then there is no tree.
pub(crate) fn parse<'t>(text: &'t str, faults: &mut Gathering<'_>) -> Option<Spanned<DeTable<'t>>> {
    if text.len() > LARGEST {
        faults.add(
            Severity::Error,
            0..0,
            String::new(),
            format!(
                "the file has {} bytes; at most {LARGEST} are read",
                text.len()
            ),
            "split the job, or remove what does not belong into it",
        );
        return None;
    }
    let (root, errors) = DeTable::parse_recoverable(text);
    for error in errors.iter().take(SYNTAX_FAULTS) {
        faults.add(
            Severity::Error,
            error.span().unwrap_or(0..0),
            String::new(),
            format!("this is not well-formed TOML: {}", error.message()),
            syntax_mend(error.message()),
        );
    }
    errors.is_empty().then_some(root)
}

fn syntax_mend(message: &str) -> &'static str {
    if message.contains("duplicate key") {
        "keep one of the two, or give one another key"
    } else {
        "text goes in \"quotes\", lists in [brackets], and each key stands on a line of its own as key = value"
    }
}

/// Which part of an entry a fault points at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Aim {
    /// The key.
    Key,
    /// The value; the key where the value is a table of its own.
    Value,
}

/// Where a path stands in the document; the nearest part of it that is written, if it is not.
pub(crate) fn place_of(root: &Spanned<DeTable<'_>>, path: &Path<'_>, aim: Aim) -> Range<usize> {
    let mut found = 0..0;
    let mut steps = path.iter();
    let Some((key, mut value)) = steps
        .next()
        .and_then(|first| root.get_ref().get_key_value(*first))
    else {
        return found;
    };
    found = aimed(key.span(), value, aim);
    for step in steps {
        let next = match value.get_ref() {
            DeValue::Table(table) => table
                .get_key_value(*step)
                .map(|(key, value)| (aimed(key.span(), value, aim), value)),
            DeValue::Array(items) => step
                .parse::<usize>()
                .ok()
                .and_then(|index| items.get(index))
                .map(|item| (item.span(), item)),
            _ => None,
        };
        let Some((span, next)) = next else {
            return found;
        };
        found = span;
        value = next;
    }
    found
}

fn aimed(key: Range<usize>, value: &Spanned<DeValue<'_>>, aim: Aim) -> Range<usize> {
    match (aim, value.get_ref()) {
        (Aim::Key, _) | (_, DeValue::Table(_)) => key,
        _ => value.span(),
    }
}

/// The path as people read it: `places.hall.level`, `waits[2].from`.
pub(crate) fn written(path: &Path<'_>) -> String {
    let mut out = String::new();
    for step in path {
        match step.parse::<usize>() {
            Ok(index) if !out.is_empty() => {
                out.push_str(&format!("[{}]", index.saturating_add(1)));
            }
            _ => {
                if !out.is_empty() {
                    out.push('.');
                }
                out.push_str(&crate::text::shown(step));
            }
        }
    }
    out
}
