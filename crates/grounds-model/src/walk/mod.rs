//! Checks a document's tree against the schema, and notes every fault with its place.
//!
//! A faulty value is taken out of the tree, or replaced by a harmless one where the schema
//! requires it, so that the rest of the document can still be read and checked.

mod words;

use std::{borrow::Cow, ops::Range};

use serde_json::{Map, Value};
use toml::{
    Spanned,
    de::{DeString, DeTable, DeValue},
};

use crate::{
    document::written,
    faults::{Gathering, Severity},
    format::{Format, format_named},
    nearest::{listed, nearest},
};
use words::{choices, example, found_name, inside, kind, mend_kind, quoted, wanted_name};

type Node<'t> = Spanned<DeValue<'t>>;

/// Walks a tree and its schema together.
pub(crate) struct Walk<'w, 't> {
    schema: &'w Value,
    faults: &'w mut Gathering<'t>,
    path: Vec<String>,
    /// The paths at which something was taken out or replaced.
    pub(crate) mended: Vec<Vec<String>>,
}

impl<'w, 't> Walk<'w, 't> {
    pub(crate) fn new(schema: &'w Value, faults: &'w mut Gathering<'t>) -> Self {
        Self {
            schema,
            faults,
            path: Vec::new(),
            mended: Vec::new(),
        }
    }

    /// Checks the whole tree and mends it until it can be deserialized.
    pub(crate) fn document(&mut self, root: &mut Spanned<DeTable<'_>>) {
        let schema = self.schema;
        let span = root.span().start..root.span().start;
        self.table(schema, root.get_mut(), span);
    }

    /// Follows a `$ref`; a description beside it changes nothing.
    fn settled(&self, schema: &'w Value) -> &'w Value {
        let mut schema = schema;
        // A chain of references is one or two long; the bound keeps a mistake from looping.
        for _ in 0..8 {
            let Some(name) = schema
                .get("$ref")
                .and_then(Value::as_str)
                .and_then(|name| name.strip_prefix("#/$defs/"))
            else {
                break;
            };
            match self.schema.get("$defs").and_then(|defs| defs.get(name)) {
                Some(next) => schema = next,
                None => break,
            }
        }
        schema
    }

    fn error(&mut self, span: Range<usize>, what: impl Into<String>, mend: impl Into<String>) {
        let steps: Vec<&str> = self.path.iter().map(String::as_str).collect();
        self.faults
            .add(Severity::Error, span, written(&steps), what, mend);
        self.mended.push(self.path.clone());
    }

    /// Whether the value fits, after its own parts have been mended.
    fn value(&mut self, schema: &'w Value, node: &mut Node<'_>, key: &Range<usize>) -> bool {
        let schema = self.settled(schema);
        if let Some(choices) = choices(schema) {
            return self.choice(&choices, node);
        }
        let span = node.span();
        match (kind(schema), node.get_mut()) {
            ("object", DeValue::Table(table)) => {
                self.table(schema, table, key.clone());
                true
            }
            ("array", DeValue::Array(_)) => self.list(schema, node, key),
            ("string", DeValue::String(_) | DeValue::Datetime(_)) => self.text(schema, node),
            ("integer", DeValue::Integer(_)) => self.integer(schema, node),
            ("boolean", DeValue::Boolean(_)) => true,
            (wanted, found) => {
                let what = format!(
                    "this should be {}, not {}",
                    wanted_name(wanted),
                    found_name(found)
                );
                let mend = mend_kind(schema, wanted, found);
                self.error(span, what, mend);
                false
            }
        }
    }

    fn choice(&mut self, choices: &[&str], node: &Node<'_>) -> bool {
        let DeValue::String(text) = node.get_ref() else {
            let what = format!(
                "this should be one word in quotes, not {}",
                found_name(node.get_ref())
            );
            self.error(
                node.span(),
                what,
                format!("write one of {}", quoted(choices)),
            );
            return false;
        };
        if choices.contains(&text.as_ref()) {
            return true;
        }
        let mend = match nearest(text, choices.iter().copied()) {
            Some(near) => format!("did you mean \"{near}\"? It is one of {}", quoted(choices)),
            None => format!("write one of {}", quoted(choices)),
        };
        let what = format!("`{}` is not a choice here", crate::text::shown(text));
        self.error(node.span(), what, mend);
        false
    }

    fn text(&mut self, schema: &'w Value, node: &mut Node<'_>) -> bool {
        let format = schema
            .get("format")
            .and_then(Value::as_str)
            .and_then(format_named);
        let span = node.span();
        // A date may be written without quotes, as TOML has it.
        if let DeValue::Datetime(date) = node.get_ref() {
            let Some(format) = format.filter(|format| ["date", "moment"].contains(&format.name))
            else {
                self.error(span, "this should be text, not a date", "put it in quotes");
                return false;
            };
            let text = date.to_string();
            if let Err(misread) = (format.read)(&text) {
                self.error(span, misread.what, misread.mend);
                return false;
            }
            *node.get_mut() = DeValue::String(Cow::Owned(text));
            return true;
        }
        let DeValue::String(text) = node.get_ref() else {
            return false;
        };
        match format {
            Some(format) => self.formatted(format, &text.clone(), span),
            None => self.plain(schema, &text.clone(), span),
        }
    }

    fn formatted(&mut self, format: &Format, text: &str, span: Range<usize>) -> bool {
        let Err(misread) = (format.read)(text) else {
            return true;
        };
        self.error(inside(span, text, misread.at), misread.what, misread.mend);
        false
    }

    fn plain(&mut self, schema: &Value, text: &str, span: Range<usize>) -> bool {
        let limit = |name| schema.get(name).and_then(Value::as_u64).unwrap_or(0);
        let longest = limit("maxLength");
        if longest > 0 && text.chars().count() as u64 > longest {
            let what = format!("this text has {} characters", text.chars().count());
            self.error(
                span,
                what,
                format!("at most {longest} characters are kept; shorten it"),
            );
            return false;
        }
        if limit("minLength") > 0 && text.trim().is_empty() {
            self.error(
                span,
                "this text is empty",
                "write what everyone on site would say",
            );
            return false;
        }
        if let Some((at, hidden)) = text
            .char_indices()
            .find(|(_, c)| crate::text::is_hidden(*c))
        {
            let what = format!(
                "this text has the invisible character {}",
                hidden.escape_unicode()
            );
            self.error(
                inside(span, text, at),
                what,
                "take it out; text is one line of plain letters",
            );
            return false;
        }
        true
    }

    fn integer(&mut self, schema: &Value, node: &Node<'_>) -> bool {
        let DeValue::Integer(number) = node.get_ref() else {
            return false;
        };
        let least = schema
            .get("minimum")
            .and_then(Value::as_i64)
            .unwrap_or(i64::MIN);
        let digits = number.as_str().replace('_', "");
        let value = i64::from_str_radix(&digits, number.radix()).ok();
        if value.is_some_and(|value| value >= least && value <= i64::from(u32::MAX)) {
            return true;
        }
        let what = format!(
            "the number {} is out of range",
            crate::text::shown(number.as_str())
        );
        self.error(
            node.span(),
            what,
            format!("write a whole number from {least} to {}", u32::MAX),
        );
        false
    }

    fn list(&mut self, schema: &'w Value, node: &mut Node<'_>, key: &Range<usize>) -> bool {
        let span = node.span();
        let DeValue::Array(items) = node.get_mut() else {
            return false;
        };
        let bound = |name| schema.get(name).and_then(Value::as_u64);
        let count = items.len() as u64;
        if bound("minItems").is_some_and(|least| count < least)
            || bound("maxItems").is_some_and(|most| count > most)
        {
            let wanted = bound("maxItems").or(bound("minItems")).unwrap_or(0);
            let what = format!("this list has {count} items, not {wanted}");
            self.error(span, what, format!("write {wanted} items in [brackets]"));
            return false;
        }
        let Some(item_schema) = schema.get("items") else {
            return true;
        };
        let fixed = bound("minItems").is_some();
        let mut good = Vec::with_capacity(items.len());
        for (index, item) in items.iter_mut().enumerate() {
            self.path.push(index.to_string());
            let span = if matches!(item.get_ref(), DeValue::Table(_)) {
                item.span()
            } else {
                key.clone()
            };
            let fits = self.value(item_schema, item, &span);
            self.path.pop();
            // Items keep their places, so that later checks still find them.
            if !fits {
                *item.get_mut() = self.stand_in(item_schema);
            }
            good.push(fits);
        }
        !fixed || good.into_iter().all(|fits| fits)
    }

    fn table(&mut self, schema: &'w Value, table: &mut DeTable<'_>, key: Range<usize>) {
        let properties = schema.get("properties").and_then(Value::as_object);
        let names: Vec<&'w str> = properties
            .into_iter()
            .flat_map(Map::keys)
            .map(String::as_str)
            .collect();
        let others = schema
            .get("additionalProperties")
            .filter(|others| others.is_object());
        let required: Vec<&'w str> = schema
            .get("required")
            .and_then(Value::as_array)
            .map(|names| names.iter().filter_map(Value::as_str).collect())
            .unwrap_or_default();

        let mut unfit: Vec<String> = Vec::new();
        let mut meant: Vec<String> = Vec::new();
        for (name, node) in table.iter_mut() {
            let property =
                properties.and_then(|properties| properties.get(name.get_ref().as_ref()));
            self.path.push(name.get_ref().to_string());
            match property.or(others) {
                Some(property) => {
                    if others.is_some() {
                        self.table_key(name);
                    }
                    if !self.value(property, node, &name.span()) {
                        if others.is_some() || required.contains(&name.get_ref().as_ref()) {
                            *node.get_mut() = self.stand_in(property);
                        } else {
                            unfit.push(name.get_ref().to_string());
                        }
                    }
                }
                None => {
                    meant.extend(self.unknown_key(name, &names));
                    unfit.push(name.get_ref().to_string());
                }
            }
            self.path.pop();
        }
        for name in &unfit {
            table.remove(name.as_str());
        }
        for name in required {
            if !table.contains_key(name) {
                let known_slip = meant.iter().any(|meant| meant == name);
                self.missing(
                    name,
                    properties.and_then(|all| all.get(name)),
                    table,
                    &key,
                    known_slip,
                );
            }
        }
    }

    fn table_key(&mut self, name: &Spanned<DeString<'_>>) {
        if let Some(Err(misread)) = format_named("id").map(|format| (format.read)(name.get_ref())) {
            self.error(name.span(), misread.what, misread.mend);
        }
    }

    /// Notes a key that the schema does not have; gives the one that was probably meant.
    fn unknown_key(&mut self, name: &Spanned<DeString<'_>>, names: &[&str]) -> Option<String> {
        let near = nearest(name.get_ref(), names.iter().copied()).map(str::to_owned);
        let known = listed(names.iter().copied());
        let mend = match &near {
            Some(near) => format!("did you mean `{near}`? Known here: {known}"),
            None => format!("take it out; known here: {known}"),
        };
        let what = format!(
            "there is no key `{}` here",
            crate::text::shown(name.get_ref())
        );
        self.error(name.span(), what, mend);
        near
    }

    /// Notes a key that must be there, and puts something harmless in its place.
    fn missing(
        &mut self,
        name: &str,
        property: Option<&'w Value>,
        table: &mut DeTable<'_>,
        key: &Range<usize>,
        known_slip: bool,
    ) {
        let Some(property) = property else { return };
        self.path.push(name.to_owned());
        if known_slip {
            self.mended.push(self.path.clone());
        } else {
            let about = property
                .get("description")
                .and_then(Value::as_str)
                .unwrap_or_default();
            let about = about.lines().next().unwrap_or_default();
            let example = example(self.settled(property));
            let what = format!("the key `{name}` is missing");
            self.error(
                key.clone(),
                what,
                format!("add {name} = {example} ({about})"),
            );
        }
        self.path.pop();
        let stand_in = self.stand_in(property);
        table.insert(
            Spanned::new(key.clone(), Cow::Owned(name.to_owned())),
            Spanned::new(key.clone(), stand_in),
        );
    }

    /// A harmless value that fits a schema.
    fn stand_in(&self, schema: &'w Value) -> DeValue<'static> {
        let schema = self.settled(schema);
        if let Some(first) = choices(schema).and_then(|choices| choices.first().copied()) {
            return DeValue::String(Cow::Owned(first.to_owned()));
        }
        match kind(schema) {
            "object" => {
                let mut table = DeTable::new();
                let names = schema.get("required").and_then(Value::as_array);
                for name in names.into_iter().flatten().filter_map(Value::as_str) {
                    if let Some(property) = schema.get("properties").and_then(|all| all.get(name)) {
                        table.insert(
                            Spanned::new(0..0, Cow::Owned(name.to_owned())),
                            Spanned::new(0..0, self.stand_in(property)),
                        );
                    }
                }
                DeValue::Table(table)
            }
            "array" => {
                let count = schema.get("minItems").and_then(Value::as_u64).unwrap_or(0);
                let items = schema.get("items");
                DeValue::Array(
                    (0..count.min(8))
                        .filter_map(|_| items.map(|items| Spanned::new(0..0, self.stand_in(items))))
                        .collect(),
                )
            }
            "integer" => DeValue::Integer(toml::de::DeInteger::default()),
            "boolean" => DeValue::Boolean(false),
            _ => {
                let format = schema
                    .get("format")
                    .and_then(Value::as_str)
                    .and_then(format_named);
                DeValue::String(Cow::Borrowed(
                    format.map_or("unnamed", |format| format.good),
                ))
            }
        }
    }
}
