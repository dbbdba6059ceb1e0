//! The JSON Schema of the documents, made from the types.
//!
//! The same description serves editors, the reader of [`crate::read()`] and tests, so that a key is
//! described once: in its type.

use std::{collections::BTreeMap, sync::OnceLock};

use schemars::{JsonSchema, generate::SchemaSettings};
use serde_json::{Map, Value, json};

use crate::{build_up::BuildUp, id::Id, job::Job};

/// The longest name of a thing, in characters.
pub(crate) const LONGEST_NAME: u64 = 200;
/// The longest remark, in characters.
pub(crate) const LONGEST_TEXT: u64 = 2000;

/// The JSON Schema (draft 2020-12) of a job document.
///
/// Beside the formats that JSON Schema names, texts carry formats of our own (`length`, `span`,
/// `ref` …), which a general validator passes over and [`crate::read()`] checks.
#[must_use]
pub fn schema() -> Value {
    job_schema().clone()
}

/// The schema of a job document, made once.
pub(crate) fn job_schema() -> &'static Value {
    static SCHEMA: OnceLock<Value> = OnceLock::new();
    SCHEMA.get_or_init(|| {
        let mut schema = schema_of::<Job>();
        if let Some(top) = schema.as_object_mut() {
            top.insert("title".to_owned(), json!("Grounds job document"));
        }
        schema
    })
}

/// The schema of a file of the library: build-ups by key.
pub(crate) fn library_schema() -> &'static Value {
    static SCHEMA: OnceLock<Value> = OnceLock::new();
    SCHEMA.get_or_init(schema_of::<BTreeMap<Id, BuildUp>>)
}

fn schema_of<T: JsonSchema>() -> Value {
    let schema = SchemaSettings::draft2020_12()
        .into_generator()
        .into_root_schema_for::<T>();
    let mut schema = schema.to_value();
    tighten(&mut schema);
    schema
}

/// Fits a generated schema to documents in TOML: there is no null, keys of tables are ids, and
/// plain texts have a greatest length.
fn tighten(schema: &mut Value) {
    match schema {
        Value::Object(object) => {
            drop_null(object);
            limit_texts(object);
            if object
                .get("additionalProperties")
                .is_some_and(Value::is_object)
            {
                object.insert("propertyNames".to_owned(), json!({"format": "id"}));
            }
            object.values_mut().for_each(tighten);
        }
        Value::Array(items) => items.iter_mut().for_each(tighten),
        _ => {}
    }
}

/// What is optional is left out of a document, never null.
fn drop_null(object: &mut Map<String, Value>) {
    if let Some(Value::Array(types)) = object.get_mut("type") {
        types.retain(|name| name != "null");
        if let [only] = types.as_slice() {
            let only = only.clone();
            object.insert("type".to_owned(), only);
        }
    }
    let Some(Value::Array(choices)) = object.get_mut("anyOf") else {
        return;
    };
    choices.retain(|choice| choice.get("type") != Some(&json!("null")));
    if let [Value::Object(only)] = choices.as_slice() {
        let only = only.clone();
        object.remove("anyOf");
        object.extend(only);
    }
}

/// Names are short, remarks are longer, and neither is without end.
fn limit_texts(object: &mut Map<String, Value>) {
    let Some(Value::Object(properties)) = object.get_mut("properties") else {
        return;
    };
    for (key, property) in properties {
        let longest = match key.as_str() {
            "about" | "why" | "rule" | "text" => LONGEST_TEXT,
            _ => LONGEST_NAME,
        };
        limit_text(property, longest, key == "name");
        if let Some(items) = property.get_mut("items") {
            limit_text(items, longest, true);
        }
    }
}

fn limit_text(property: &mut Value, longest: u64, wanted: bool) {
    let Some(property) = property.as_object_mut() else {
        return;
    };
    let text = match property.get("type") {
        Some(Value::String(name)) => name == "string",
        Some(Value::Array(names)) => names.iter().any(|name| name == "string"),
        _ => false,
    };
    if !text || property.contains_key("format") || property.contains_key("enum") {
        return;
    }
    property.insert("maxLength".to_owned(), json!(longest));
    if wanted {
        property.insert("minLength".to_owned(), json!(1));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn each_object(schema: &Value, look: &mut dyn FnMut(&Map<String, Value>)) {
        match schema {
            Value::Object(object) => {
                look(object);
                object.values().for_each(|value| each_object(value, look));
            }
            Value::Array(items) => items.iter().for_each(|value| each_object(value, look)),
            _ => {}
        }
    }

    #[test]
    fn every_format_of_the_schema_has_a_reader() {
        let mut seen = 0;
        each_object(job_schema(), &mut |object| {
            if let Some(Value::String(format)) = object.get("format") {
                seen += 1;
                assert!(
                    format == "uint32" || crate::format::format_named(format).is_some(),
                    "nobody reads the format {format}"
                );
            }
        });
        assert!(seen > 20);
    }

    #[test]
    fn the_schema_has_no_null_and_closed_tables_only() {
        each_object(job_schema(), &mut |object| {
            assert_ne!(object.get("type"), Some(&json!("null")));
            if object.get("type") == Some(&json!("object")) {
                assert!(object.contains_key("additionalProperties"), "{object:?}");
            }
        });
    }

    #[test]
    fn every_key_of_the_schema_is_described() {
        each_object(job_schema(), &mut |object| {
            let Some(Value::Object(properties)) = object.get("properties") else {
                return;
            };
            for (key, property) in properties {
                let weekday = key.len() == 3 && property.get("description").is_none();
                assert!(weekday || property.get("description").is_some(), "{key}");
            }
        });
    }
}
