//! Fields as they are typed, and what is wrong with them.

use grounds_measure::{Length, MeasureError, Rounding, Step, Units};

use super::Typed;
use crate::said;

/// The longest text of a field, in bytes.
pub const LONGEST_TEXT: usize = 20_000;

/// The most lines of a field.
pub const MOST_LINES: usize = 500;

/// The longest length that is asked about: a kilometre.
const LONGEST: Length = Length::from_mm(1_000_000);

/// Something to type.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Field {
    /// Its key in addresses and commands.
    pub key: &'static str,
    /// Its label.
    pub label: &'static str,
    /// What to type, with an example: in a metric job, in feet and inches.
    pub hint: [&'static str; 2],
    /// What counts where nothing is typed, in the same two; empty where nothing does.
    pub usual: [&'static str; 2],
    /// What is typed.
    pub kind: Kind,
    /// Whether it can be left out.
    pub is_needed: bool,
}

/// What is typed into a field.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A length above zero.
    Above,
    /// A length of zero or more.
    NotBelow,
    /// Lengths above zero, a line each.
    Lengths,
    /// Lines of more than a length.
    Lines,
    /// A whole number from 1.
    Count,
    /// A figure from 0 to 100.
    Percent,
    /// A temperature in the units of the job.
    Degrees,
    /// One of a few: word and label.
    Choice(&'static [(&'static str, &'static str)]),
}

impl Field {
    /// The hint in the units of a job.
    #[must_use]
    pub fn hint(&self, units: Units) -> &'static str {
        self.hint[at(units)]
    }

    /// What counts where nothing is typed.
    #[must_use]
    pub fn usual(&self, units: Units) -> &'static str {
        self.usual[at(units)]
    }
}

fn at(units: Units) -> usize {
    match units {
        Units::Metric => 0,
        Units::Imperial => 1,
    }
}

/// What is wrong with what was typed: where, what, and how to mend it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wrong {
    /// The key of the field.
    pub field: &'static str,
    /// A sentence.
    pub said: String,
}

/// The fields of a question as typed.
pub(super) struct Form<'a> {
    fields: &'static [Field],
    typed: &'a Typed,
    pub(super) units: Units,
    pub(super) wrong: Vec<Wrong>,
}

impl<'a> Form<'a> {
    /// A form; what is too long, or has no field, is wrong from the beginning.
    pub(super) fn new(fields: &'static [Field], typed: &'a Typed, units: Units) -> Self {
        Self {
            fields,
            typed,
            units,
            wrong: Vec::new(),
        }
    }

    fn field(&self, key: &str) -> Option<&'static Field> {
        self.fields.iter().find(|field| field.key == key)
    }

    /// What was typed, or what counts without it; nothing, and wrong, where it is needed.
    fn text(&mut self, key: &str) -> Option<&'a str> {
        let field = self.field(key)?;
        let typed = self.typed.get(key).map_or("", |text| text.trim());
        let text = if typed.is_empty() {
            field.usual(self.units)
        } else {
            typed
        };
        if text.len() > LONGEST_TEXT {
            self.refuse(
                key,
                &format!("more than {LONGEST_TEXT} characters. Give a part of it at a time."),
            );
            return None;
        }
        if text.is_empty() {
            if field.is_needed {
                let hint = field.hint(self.units);
                self.refuse(key, &format!("nothing is given. {hint}"));
            }
            return None;
        }
        Some(text)
    }

    /// That a field is wrong: `Clear length: nothing is given. Like 1830.`
    pub(super) fn refuse(&mut self, key: &str, why: &str) {
        if let Some(field) = self.field(key) {
            self.wrong.push(Wrong {
                field: field.key,
                said: format!("{}: {why}", field.label),
            });
        }
    }

    /// A length.
    pub(super) fn length(&mut self, key: &str) -> Option<Length> {
        let field = self.field(key)?;
        let text = self.text(key)?;
        let hint = field.hint(self.units);
        match read(text, self.units) {
            Err(why) => self.refuse(key, &format!("{why} {hint}")),
            Ok(length) if length.is_negative() => {
                self.refuse(key, &format!("{} is below zero. {hint}", quoted(text)));
            }
            Ok(length) if field.kind == Kind::Above && !length.is_positive() => {
                self.refuse(key, &format!("{} is not above zero. {hint}", quoted(text)));
            }
            Ok(length) => return Some(length),
        }
        None
    }

    /// A rounding step.
    pub(super) fn step(&mut self, key: &str) -> Option<Step> {
        Step::new(self.length(key)?)
    }

    /// The lines of a field, empty ones left out; a semicolon ends a line too.
    pub(super) fn lines(&mut self, key: &str) -> Vec<&'a str> {
        let Some(text) = self.text(key) else {
            return Vec::new();
        };
        let all = text.split(['\n', ';']).map(str::trim);
        let lines: Vec<&str> = all.filter(|line| !line.is_empty()).collect();
        if lines.len() > MOST_LINES {
            let why = format!(
                "{} lines, and no more than {MOST_LINES} are read. Give a part of them at a time.",
                lines.len()
            );
            self.refuse(key, &why);
            return Vec::new();
        }
        lines
    }

    /// Lengths above zero: a line each, or bare figures with spaces between.
    pub(super) fn lengths(&mut self, key: &str) -> Vec<Length> {
        let mut found = Vec::new();
        let hint = self.field(key).map_or("", |field| field.hint(self.units));
        for line in self.lines(key) {
            match read_each(line, self.units) {
                Ok(lengths) => found.extend(lengths),
                Err(why) => {
                    self.refuse(key, &format!("{why} {hint}"));
                    return Vec::new();
                }
            }
        }
        if found.len() > MOST_LINES {
            self.refuse(
                key,
                &format!("no more than {MOST_LINES} lengths are read. Give a part of them."),
            );
            return Vec::new();
        }
        if found.iter().any(|length| !length.is_positive()) {
            self.refuse(key, &format!("one of them is not above zero. {hint}"));
            return Vec::new();
        }
        found
    }

    /// A whole number from 1 to `most`.
    pub(super) fn count(&mut self, key: &str, most: usize) -> Option<usize> {
        let text = self.text(key)?;
        match text.parse() {
            Ok(count) if (1..=most).contains(&count) => Some(count),
            _ => {
                let why = format!(
                    "{} is no whole number from 1 to {most}. Write one like 12.",
                    quoted(text)
                );
                self.refuse(key, &why);
                None
            }
        }
    }

    /// A figure between two, such as 30 or 30 %.
    pub(super) fn figure(&mut self, key: &str, (least, most): (f64, f64)) -> Option<f64> {
        let text = self.text(key)?;
        let bare = text.trim_end_matches(['%', '°', 'C', 'F', ' ']);
        match bare.parse::<f64>() {
            Ok(figure) if (least..=most).contains(&figure) => Some(figure),
            _ => {
                let hint = self.field(key).map_or("", |field| field.hint(self.units));
                let why = format!(
                    "{} is no figure from {least} to {most}. {hint}",
                    quoted(text)
                );
                self.refuse(key, &why);
                None
            }
        }
    }

    /// One of the choices of a field.
    pub(super) fn choice(&mut self, key: &str) -> Option<&'static str> {
        let field = self.field(key)?;
        let text = self.text(key)?;
        let Kind::Choice(choices) = field.kind else {
            return None;
        };
        let found = choices
            .iter()
            .find(|(word, _)| word.eq_ignore_ascii_case(text));
        if found.is_none() {
            let words: Vec<&str> = choices.iter().map(|(word, _)| *word).collect();
            let why = format!(
                "{} is none of the choices. Write one of: {}.",
                quoted(text),
                words.join("; ")
            );
            self.refuse(key, &why);
        }
        found.map(|(word, _)| *word)
    }

    /// A length as given, in words.
    pub(super) fn exact(&self, length: Length) -> String {
        said::signed_exact(length, self.units)
    }

    /// A length that was reckoned, in words: to a tenth of a millimetre, or as the tape reads.
    pub(super) fn say(&self, length: Length) -> String {
        match self.units {
            Units::Metric => said::signed_exact(
                length.round_to(Step::TENTH_MM, Rounding::Nearest),
                self.units,
            ),
            Units::Imperial => said::signed(length.mm(), self.units),
        }
    }

    /// A distance in millimetres that was reckoned, in words.
    pub(super) fn say_mm(&self, mm: f64) -> String {
        match Length::from_mm_f64(mm) {
            Some(length) => self.say(length),
            None => said::signed(mm, self.units),
        }
    }

    /// A distance in millimetres that was given, in words.
    pub(super) fn exact_mm(&self, mm: f64) -> String {
        match Length::from_mm_f64(mm) {
            Some(length) => self.exact(length),
            None => said::signed(mm, self.units),
        }
    }
}

/// A length as typed, or what is wrong with it.
pub(super) fn read(text: &str, units: Units) -> Result<Length, String> {
    let text = text.trim();
    match Length::parse_in(text, units) {
        Ok(length) if length.abs() <= LONGEST => Ok(length),
        Ok(_) => Err(format!(
            "{} is more than a kilometre. Check its unit.",
            quoted(text)
        )),
        Err(error) => Err(why(text, &error)),
    }
}

fn why(text: &str, error: &MeasureError) -> String {
    let found = error.found().trim_matches('`');
    let place = match found {
        "the end" => "at its end, ".to_owned(),
        found if found == text => String::new(),
        found => format!("at {}, ", quoted(found)),
    };
    format!(
        "{} is no length: {place}{} is wanted.",
        quoted(text),
        error.expected()
    )
}

/// The lengths of a line: one, or bare figures with spaces between. Fractions and feet stand on
/// lines of their own, since a space is a part of them.
fn read_each(line: &str, units: Units) -> Result<Vec<Length>, String> {
    let whole = read(line, units);
    let parts: Vec<&str> = line.split_whitespace().collect();
    let bare = |part: &&str| part.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    match whole {
        Ok(length) => Ok(vec![length]),
        Err(_) if parts.len() > 1 && parts.iter().all(bare) => {
            parts.into_iter().map(|part| read(part, units)).collect()
        }
        Err(why) => Err(why),
    }
}

/// What was typed, in quotes, on one line and cut to a sane length.
pub(super) fn quoted(text: &str) -> String {
    const SHOWN: usize = 60;
    let plain = |c: char| if c.is_control() { ' ' } else { c };
    let mut shown: String = text.chars().map(plain).take(SHOWN).collect();
    if text.chars().count() > SHOWN {
        shown.push('…');
    }
    format!("“{shown}”")
}
