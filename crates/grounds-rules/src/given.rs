//! The figures that a rule is evaluated with.

use std::{collections::BTreeMap, fmt};

use serde::Serialize;

use crate::{
    code::Code,
    input::{Input, InputKind, Spec, Word},
    quantity::{Misread, Quantity},
    rule::Rule,
};

/// What a guess marked `~` may be off, either way.
const ABOUT: f64 = 0.25;

/// A value of an input.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Value {
    /// A quantity in its base unit.
    Base(f64),
    /// One of the words of the input.
    Word(Word),
    /// Yes or no.
    YesNo(bool),
}

/// A value, how sure it is, and who says so.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Entry {
    pub(crate) value: Value,
    /// The least and the most it may be, if it is a guess.
    pub(crate) guess: Option<(f64, f64)>,
    /// Who says so: `the drawings`, `read by Ana on 3 June`.
    pub(crate) from: String,
}

/// The figures that a rule is evaluated with, by key.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Given {
    entries: BTreeMap<&'static str, Entry>,
}

/// Why a figure that was given cannot be used.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct GivenFault {
    /// The key as it was given.
    pub key: String,
    /// What is wrong.
    pub what: String,
    /// How to mend it, with a good example.
    pub mend: String,
}

impl fmt::Display for GivenFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}; {}", self.key, self.what, self.mend)
    }
}

impl std::error::Error for GivenFault {}

impl Given {
    /// Nothing yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Reads figures for a rule from pairs of key and text. `500..700 cfm` and `~600 cfm` are
    /// guesses: how the answer hangs on them is told as well.
    ///
    /// # Errors
    /// Every key that the rule does not have and every text that is no value of its input, with how
    /// to mend it.
    pub fn read<'t>(
        rule: &Rule,
        pairs: impl IntoIterator<Item = (&'t str, &'t str)>,
    ) -> Result<Self, Vec<GivenFault>> {
        let mut given = Self::new();
        let mut faults = Vec::new();
        for (key, text) in pairs {
            if let Err(fault) = given.put(rule, key, text, "as given") {
                faults.push(fault);
            }
        }
        if faults.is_empty() {
            Ok(given)
        } else {
            Err(faults)
        }
    }

    /// Puts one figure from a text, with who says so. A later one replaces an earlier one.
    ///
    /// # Errors
    /// If the rule has no such key, or the text is no value of its input.
    pub fn put(
        &mut self,
        rule: &Rule,
        key: &str,
        text: &str,
        from: impl Into<String>,
    ) -> Result<(), GivenFault> {
        let Some(spec) = rule.input(key) else {
            return Err(unknown(rule, key));
        };
        let (value, guess) = read_value(spec, text).map_err(|misread| GivenFault {
            key: spec.name.to_owned(),
            what: misread.what,
            mend: format!("write {}", misread.example),
        })?;
        let from = from.into();
        self.entries.insert(spec.name, Entry { value, guess, from });
        Ok(())
    }

    /// Puts a quantity, with who says so.
    pub fn set<Q: Quantity>(&mut self, input: &Input<Q>, value: Q, from: impl Into<String>) {
        self.insert(input.spec.name, Value::Base(value.base()), from);
    }

    /// Puts a quantity in the base unit of its kind, with who says so; nothing where the input is no
    /// quantity.
    pub(crate) fn set_base(&mut self, spec: &'static Spec, base: f64, from: impl Into<String>) {
        if matches!(spec.kind, InputKind::Quantity(_)) && base.is_finite() {
            self.insert(spec.name, Value::Base(base), from);
        }
    }

    /// Puts a word; nothing where it is none of the input's.
    pub fn set_word(&mut self, input: &Input<Word>, word: &str, from: impl Into<String>) {
        if let InputKind::Word(words) = input.spec.kind
            && let Some(word) = words.iter().find(|known| **known == word)
        {
            self.insert(input.spec.name, Value::Word(word), from);
        }
    }

    /// Puts yes or no.
    pub fn set_yes_no(&mut self, input: &Input<bool>, yes: bool, from: impl Into<String>) {
        self.insert(input.spec.name, Value::YesNo(yes), from);
    }

    fn insert(&mut self, name: &'static str, value: Value, from: impl Into<String>) {
        let entry = Entry {
            value,
            guess: None,
            from: from.into(),
        };
        self.entries.insert(name, entry);
    }

    /// Whether a figure is there.
    #[must_use]
    pub fn has(&self, key: &str) -> bool {
        self.entries.contains_key(key)
    }

    pub(crate) fn entry(&self, key: &str) -> Option<&Entry> {
        self.entries.get(key)
    }

    /// The same figures with one quantity replaced, no longer a guess.
    pub(crate) fn with(&self, name: &'static str, base: f64) -> Self {
        let mut other = self.clone();
        other.insert(name, Value::Base(base), "tried");
        other
    }
}

fn unknown(rule: &Rule, key: &str) -> GivenFault {
    let shown = crate::quantity::shown(key);
    let names = || rule.inputs.iter().map(|spec| spec.name);
    let near = crate::nearest(key, names());
    let known: Vec<&str> = names().collect();
    GivenFault {
        what: format!("the rule `{}` asks for no such figure", rule.name),
        mend: match near {
            Some(near) => format!("did you mean `{near}`? Known are {}", known.join(", ")),
            None => format!("known are {}", known.join(", ")),
        },
        key: shown,
    }
}

type Read = (Value, Option<(f64, f64)>);

/// Reads the text of an input.
pub(crate) fn read_value(spec: &Spec, text: &str) -> Result<Read, Misread> {
    let text = text.trim();
    match spec.kind {
        InputKind::Quantity(kind) => {
            let (base, guess) = read_quantity(kind, text)?;
            let (low, high) = guess.unwrap_or((base, base));
            for (limit, beyond) in [(spec.least, low), (spec.most, high)] {
                let Ok(limit_base) = kind.read(limit) else {
                    continue;
                };
                let out = if limit == spec.least {
                    beyond < limit_base - 1e-9
                } else {
                    beyond > limit_base + 1e-9
                };
                if out {
                    return Err(Misread {
                        what: format!(
                            "`{}` is not likely to be {}",
                            crate::quantity::shown(text),
                            spec.what
                        ),
                        example: format!("something from {} to {}", spec.least, spec.most),
                    });
                }
            }
            Ok((Value::Base(base), guess))
        }
        InputKind::Word(words) => {
            let plain = text.to_lowercase().replace([' ', '_'], "-");
            let found = words.iter().find(|word| **word == plain);
            found
                .map(|word| (Value::Word(word), None))
                .ok_or_else(|| Misread {
                    what: format!("`{}` is no choice here", crate::quantity::shown(text)),
                    example: spec.kind.example(),
                })
        }
        InputKind::YesNo => {
            let yes = match text.to_lowercase().as_str() {
                "yes" | "true" => true,
                "no" | "false" => false,
                _ => {
                    return Err(Misread {
                        what: format!("`{}` is neither yes nor no", crate::quantity::shown(text)),
                        example: spec.kind.example(),
                    });
                }
            };
            Ok((Value::YesNo(yes), None))
        }
    }
}

/// Reads a quantity, or a guess at one: `500..700 cfm`, `~600 cfm`.
fn read_quantity(
    kind: &crate::quantity::Kind,
    text: &str,
) -> Result<(f64, Option<(f64, f64)>), Misread> {
    if let Some(about) = text.strip_prefix('~') {
        let base = kind.read(about)?;
        let off = base.abs() * ABOUT;
        return Ok((base, Some((base - off, base + off))));
    }
    let Some((low, high)) = text.split_once("..") else {
        return kind.read(text).map(|base| (base, None));
    };
    let most = kind.read(high)?;
    let unit = high
        .trim_start_matches(|c: char| c.is_ascii_digit() || " .+-−/".contains(c))
        .to_owned();
    let least = kind
        .read(low)
        .or_else(|_| kind.read(&format!("{low} {unit}")))?;
    if least > most {
        return Err(Misread {
            what: format!("`{}` runs backwards", crate::quantity::shown(text)),
            example: "the smaller figure first, like 5..7 mm".to_owned(),
        });
    }
    Ok(((least + most) / 2.0, Some((least, most))))
}

/// What stands for a limit or a guess that nobody gave, read from its text.
pub(crate) fn read_own(spec: &Spec, text: &str) -> Option<f64> {
    match spec.kind {
        InputKind::Quantity(kind) => kind.read(text).ok(),
        _ => None,
    }
}

/// A limit as the code has it: its base and where it stands.
pub(crate) fn code_limit(spec: &Spec, code: &Code) -> Option<(f64, String)> {
    let (text, from) = code.limit_said(spec.name)?;
    read_own(spec, text).map(|base| (base, from))
}
