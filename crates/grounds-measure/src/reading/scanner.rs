//! A cursor over a short text.

use super::Exact;
use crate::error::{Fault, shown};

/// Most digits before the decimal point: far above anything built, far below overflow.
const MOST_WHOLE_DIGITS: usize = 12;
/// Most digits after the decimal point.
const MOST_DECIMALS: usize = 9;
/// How much of the text at a fault is quoted.
const FOUND_SHOWN: usize = 16;

/// Reads a text from front to back, remembering where it is so that faults can name the byte.
#[derive(Debug, Clone)]
pub(crate) struct Scanner<'a> {
    text: &'a str,
    at: usize,
}

/// A number without sign as it was written.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Number {
    /// Where it began.
    pub(crate) at: usize,
    /// Its value.
    pub(crate) value: Exact,
    /// Written with a decimal point.
    pub(crate) decimal: bool,
    /// Written with a single comma and no point, as in `1,032`, which some read as a decimal comma.
    pub(crate) one_comma: bool,
}

impl<'a> Scanner<'a> {
    pub(crate) fn new(text: &'a str) -> Self {
        Self { text, at: 0 }
    }

    /// The byte the cursor stands on.
    pub(crate) fn at(&self) -> usize {
        self.at
    }

    /// What is still to be read.
    pub(crate) fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or_default()
    }

    pub(crate) fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    pub(crate) fn at_digit(&self) -> bool {
        self.peek().is_some_and(|c| c.is_ascii_digit())
    }

    /// Whether a number without sign begins here, be it a single-character fraction.
    pub(crate) fn at_number(&self) -> bool {
        self.peek().is_some_and(|c| c == '.' || c.is_numeric())
    }

    pub(crate) fn at_end(&self) -> bool {
        self.rest().is_empty()
    }

    /// Passes over any blanks and tells whether there were some.
    pub(crate) fn skip_space(&mut self) -> bool {
        let before = self.at;
        while let Some(c) = self.peek().filter(|c| is_blank(*c)) {
            self.at += c.len_utf8();
        }
        self.at > before
    }

    /// Whether one of `any` stands here.
    pub(crate) fn at_any(&self, any: &[char]) -> bool {
        self.peek().is_some_and(|c| any.contains(&c))
    }

    /// Passes over one of `any` if it stands here.
    pub(crate) fn eat_any(&mut self, any: &[char]) -> bool {
        let Some(c) = self.peek().filter(|c| any.contains(c)) else {
            return false;
        };
        self.at += c.len_utf8();
        true
    }

    /// Passes over the longest of the spellings that stands here, letters in any case, and gives
    /// its entry. A spelling that ends in a letter or digit must not run on into another.
    pub(crate) fn eat_spelling<T>(
        &mut self,
        table: &'static [T],
        spellings: fn(&'static T) -> &'static [&'static str],
    ) -> Option<&'static T> {
        let (entry, length) = table
            .iter()
            .flat_map(|entry| {
                spellings(entry)
                    .iter()
                    .map(move |spelling| (entry, *spelling))
            })
            .filter_map(|(entry, spelling)| self.length_of(spelling).map(|length| (entry, length)))
            .max_by_key(|(_, length)| *length)?;
        self.at += length;
        Some(entry)
    }

    /// Passes over this word if it stands here.
    pub(crate) fn eat_word(&mut self, word: &str) -> bool {
        let length = self.length_of(word);
        self.at += length.unwrap_or(0);
        length.is_some()
    }

    /// How many bytes of the rest spell this word, if they do.
    fn length_of(&self, spelling: &str) -> Option<usize> {
        let mut rest = self.rest().chars();
        let mut length = 0;
        for wanted in spelling.chars() {
            let c = rest.next().filter(|c| c.eq_ignore_ascii_case(&wanted))?;
            length += c.len_utf8();
        }
        let runs_on = spelling.chars().last().is_some_and(char::is_alphanumeric)
            && rest.next().is_some_and(|c| c.is_alphanumeric() || c == '^');
        (!runs_on).then_some(length)
    }

    /// A minus, in any of its shapes, as −1; otherwise +1, passing over a plus.
    pub(crate) fn negative(&mut self) -> bool {
        let negative = self.eat_any(&['-', '−']);
        if !negative {
            self.eat_any(&['+']);
        }
        negative
    }

    /// A whole or decimal number without sign, with thousands in groups of three if they are parted
    /// at all.
    pub(crate) fn number(&mut self) -> Result<Number, Fault> {
        let at = self.at;
        let mut digits = String::from(self.digits());
        let mut commas = 0;
        if !digits.is_empty() && digits.len() <= 3 {
            while let Some(group) = self.thousands_group() {
                commas += usize::from(group.comma);
                digits.push_str(group.digits);
            }
        }
        if self.peek() == Some(',') && self.after_one().starts_with(|c: char| c.is_ascii_digit()) {
            return Err(self.fault(
                "a point before decimals, as in 1.5, or commas between groups of three digits",
            ));
        }
        let mut decimals = "";
        let decimal =
            self.peek() == Some('.') && self.after_one().starts_with(|c: char| c.is_ascii_digit());
        if decimal {
            self.at += 1;
            decimals = self.digits();
        }
        if digits.is_empty() && decimals.is_empty() {
            return Err(self.fault("a number"));
        }
        if digits.trim_start_matches('0').len() > MOST_WHOLE_DIGITS
            || decimals.len() > MOST_DECIMALS
        {
            return Err(self.fault_at(
                at,
                "a number with at most 12 digits before the point and 9 after it",
            ));
        }
        let under = 10_i128.pow(u32::try_from(decimals.len()).unwrap_or(0));
        digits.push_str(decimals);
        let value = digits.parse().ok().and_then(|over| Exact::new(over, under));
        let value = value.ok_or_else(|| self.fault_at(at, "a number"))?;
        Ok(Number {
            at,
            value,
            decimal,
            one_comma: commas == 1 && !decimal,
        })
    }

    /// A whole number without sign, separators or decimals.
    pub(crate) fn whole_number(&mut self) -> Result<i128, Fault> {
        let at = self.at;
        let digits = self.digits();
        if digits.is_empty() {
            return Err(self.fault("a whole number"));
        }
        if digits.len() > MOST_WHOLE_DIGITS {
            return Err(self.fault_at(at, "a whole number of at most 12 digits"));
        }
        digits
            .parse()
            .map_err(|_| self.fault_at(at, "a whole number"))
    }

    /// The fault that something else was expected where the cursor stands.
    pub(crate) fn fault(&self, expected: impl Into<String>) -> Fault {
        self.fault_at(self.at, expected)
    }

    /// The fault that something else was expected at byte `at`.
    pub(crate) fn fault_at(&self, at: usize, expected: impl Into<String>) -> Fault {
        let rest = self.text.get(at..).unwrap_or_default();
        let word_end = rest
            .char_indices()
            .skip(1)
            .find(|(_, c)| is_blank(*c))
            .map_or(rest.len(), |(end, _)| end);
        let word = rest.get(..word_end).unwrap_or(rest);
        let found = if word.is_empty() {
            "the end".to_owned()
        } else {
            format!("`{}`", shown(word, FOUND_SHOWN))
        };
        Fault {
            at,
            found,
            expected: expected.into(),
        }
    }

    fn digits(&mut self) -> &'a str {
        let rest = self.rest();
        let length = rest.bytes().take_while(u8::is_ascii_digit).count();
        self.at += length;
        rest.get(..length).unwrap_or_default()
    }

    /// The rest after one single-byte character.
    fn after_one(&self) -> &'a str {
        self.rest().get(1..).unwrap_or_default()
    }

    /// A comma or thin blank and exactly three digits, if they stand here.
    fn thousands_group(&mut self) -> Option<Group<'a>> {
        let separator = self
            .peek()
            .filter(|c| matches!(c, ',' | '\u{a0}' | '\u{2009}' | '\u{202f}'))?;
        let after = self.rest().get(separator.len_utf8()..)?;
        if after.bytes().take_while(u8::is_ascii_digit).count() != 3 {
            return None;
        }
        self.at += separator.len_utf8() + 3;
        Some(Group {
            comma: separator == ',',
            digits: after.get(..3)?,
        })
    }
}

/// Three digits after a separator of thousands.
struct Group<'a> {
    comma: bool,
    digits: &'a str,
}

/// Blanks that people type or paste between a number and its unit.
fn is_blank(c: char) -> bool {
    matches!(c, ' ' | '\t' | '\u{a0}' | '\u{2009}' | '\u{202f}')
}
