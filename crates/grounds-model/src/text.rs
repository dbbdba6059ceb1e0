//! The fault of a small text (a key, a moment, hours) that does not say what it should.

use std::fmt;

/// The longest part of a faulty text that is shown back, in characters.
const SHOWN: usize = 60;

/// Why a text is not what it should be: where the fault is, what was expected, and a good example.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TextError {
    what: &'static str,
    text: String,
    at: usize,
    expected: String,
    example: &'static str,
}

impl TextError {
    /// A fault in `text` from byte `at` on.
    pub(crate) fn new(
        what: &'static str,
        text: &str,
        at: usize,
        expected: impl Into<String>,
        example: &'static str,
    ) -> Self {
        Self {
            what,
            text: shown(text),
            at: at.min(text.len()),
            expected: expected.into(),
            example,
        }
    }

    /// What was being read: `hours`, `moment`, `key` …
    #[must_use]
    pub fn what(&self) -> &'static str {
        self.what
    }

    /// The text as it was given, shortened and with invisible characters escaped.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The byte of the text at which the fault begins; at most the text's length.
    #[must_use]
    pub fn at(&self) -> usize {
        self.at
    }

    /// What was expected there, in plain words.
    #[must_use]
    pub fn expected(&self) -> &str {
        &self.expected
    }

    /// A well-formed example.
    #[must_use]
    pub fn example(&self) -> &'static str {
        self.example
    }
}

impl fmt::Display for TextError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "cannot read the {} `{}`: expected {}; write {}",
            self.what, self.text, self.expected, self.example
        )
    }
}

impl std::error::Error for TextError {}

/// At most 60 characters of a text, with everything that is not plainly visible escaped.
pub(crate) fn shown(text: &str) -> String {
    let mut out = String::new();
    for (count, c) in text.chars().enumerate() {
        if count == SHOWN {
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

/// Characters that print nothing or turn the line around: they hide what a text says.
pub(crate) fn is_hidden(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}')
}
