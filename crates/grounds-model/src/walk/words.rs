//! What a walk says of a value: what it is, what it should be, and how it would be typed.

use std::ops::Range;

use serde_json::Value;
use toml::de::DeValue;

use crate::format::format_named;

pub(super) fn kind(schema: &Value) -> &str {
    schema
        .get("type")
        .and_then(Value::as_str)
        .unwrap_or("object")
}

/// The words of an enumeration, if the schema is one.
pub(super) fn choices(schema: &Value) -> Option<Vec<&str>> {
    let constant = |choice: &'_ Value| choice.get("const").and_then(Value::as_str).is_some();
    if let Some(words) = schema.get("enum").and_then(Value::as_array) {
        return Some(words.iter().filter_map(Value::as_str).collect());
    }
    let one_of = schema.get("oneOf").and_then(Value::as_array)?;
    let mut words = Vec::with_capacity(one_of.len());
    for choice in one_of {
        match choice.get("enum").and_then(Value::as_array) {
            Some(several) => words.extend(several.iter().filter_map(Value::as_str)),
            None if constant(choice) => words.extend(choice.get("const").and_then(Value::as_str)),
            None => {}
        }
    }
    Some(words)
}

pub(super) fn quoted(words: &[&str]) -> String {
    words
        .iter()
        .map(|word| format!("\"{word}\""))
        .collect::<Vec<_>>()
        .join(", ")
}

pub(super) fn wanted_name(kind: &str) -> &'static str {
    match kind {
        "object" => "a table",
        "array" => "a list",
        "integer" => "a whole number",
        "boolean" => "true or false",
        _ => "text in quotes",
    }
}

pub(super) fn found_name(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "text",
        DeValue::Integer(_) => "a whole number",
        DeValue::Float(_) => "a number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}

pub(super) fn mend_kind(schema: &Value, wanted: &str, found: &DeValue<'_>) -> String {
    match (wanted, found) {
        ("array", _) => "put it in [brackets]".to_owned(),
        ("boolean", _) => "write true or false, without quotes".to_owned(),
        ("integer", DeValue::String(_)) => "write the number without quotes, like 2".to_owned(),
        ("integer", _) => "write a whole number, like 2".to_owned(),
        ("object", _) => "write its keys under a [heading] or in {braces}".to_owned(),
        _ => format!("write {}", example(schema)),
    }
}

/// A good value as it would be typed.
pub(super) fn example(schema: &Value) -> String {
    if let Some(choices) = choices(schema) {
        return quoted(&choices).replace(", ", " or ");
    }
    let format = schema.get("format").and_then(Value::as_str);
    match (kind(schema), format) {
        ("integer", _) => "1".to_owned(),
        ("boolean", _) => "true".to_owned(),
        ("array", _) => "[ … ]".to_owned(),
        ("object", _) => "{ … }".to_owned(),
        (_, Some("id")) => "\"some-key\"".to_owned(),
        (_, Some("ref")) => "\"some-key\"".to_owned(),
        (_, Some(name)) => format_named(name).map_or("\"…\"".to_owned(), |format| {
            format!("\"{}\"", format.good)
        }),
        _ => "\"…\"".to_owned(),
    }
}

/// The part of a quoted text from a byte of its content on, where the text is written plainly;
/// the whole of it where escapes or long quotes make the bytes differ.
pub(super) fn inside(span: Range<usize>, text: &str, at: usize) -> Range<usize> {
    let plain = span.len() == text.len() + 2;
    if !plain {
        return span;
    }
    let start = span.start + 1 + at;
    let end = (span.end - 1).max(start + 1).min(span.end);
    start..end
}
