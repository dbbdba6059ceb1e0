//! The one error of this crate: a text that does not say a measure.

use std::fmt::Write as _;

/// The longest text, in characters, that any measure is read from.
pub(crate) const LONGEST: usize = 80;

/// How many characters of a faulty text are shown back.
const SHOWN: usize = 80;

/// Why a text is not the measure it should be: where the fault is, what stood there, and how to
/// mend it.
///
/// ```
/// use grounds_measure::Length;
/// let error = "3' 4 5/0\"".parse::<Length>().unwrap_err();
/// assert_eq!(error.at(), 7);
/// assert_eq!(
///     error.to_string(),
///     "cannot read the length `3' 4 5/0\"`: at byte 7 found `0\"`, expected a number above zero under the \
///      fraction; write a length like 3' 4 5/8\" or 1032 mm"
/// );
/// ```
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error(
    "cannot read the {what} `{text}`: at byte {at} found {found}, expected {expected}; write {example}"
)]
pub struct MeasureError {
    what: &'static str,
    text: String,
    at: usize,
    found: String,
    expected: String,
    example: &'static str,
}

impl MeasureError {
    /// What was being read: `length`, `span`, `temperature range` …
    #[must_use]
    pub fn what(&self) -> &'static str {
        self.what
    }

    /// The text as it was given, shortened and with control and invisible characters escaped.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The byte of the text as given at which the fault begins; always on a character's edge and
    /// at most the text's length.
    #[must_use]
    pub fn at(&self) -> usize {
        self.at
    }

    /// What stood at the fault: quoted and escaped text, or `the end`.
    #[must_use]
    pub fn found(&self) -> &str {
        &self.found
    }

    /// What was expected there, in plain words.
    #[must_use]
    pub fn expected(&self) -> &str {
        &self.expected
    }

    /// A well-formed example, as the end of "write …".
    #[must_use]
    pub fn example(&self) -> &'static str {
        self.example
    }

    /// Joins a fault to the text and the kind of measure in which it was met.
    pub(crate) fn new(what: &'static str, example: &'static str, text: &str, fault: Fault) -> Self {
        Self {
            what,
            text: shown(text, SHOWN),
            at: fault.at,
            found: fault.found,
            expected: fault.expected,
            example,
        }
    }
}

/// A fault at one spot, before it is known which measure was being read.
#[derive(Debug)]
pub(crate) struct Fault {
    pub(crate) at: usize,
    pub(crate) found: String,
    pub(crate) expected: String,
}

/// At most `most` characters of `text`, with everything that is not plainly visible written as an
/// escape.
pub(crate) fn shown(text: &str, most: usize) -> String {
    let mut out = String::new();
    for (count, c) in text.chars().enumerate() {
        if count == most {
            out.push('…');
            break;
        }
        match c {
            '"' | '\'' => out.push(c),
            // Writing to a String cannot fail.
            _ => _ = write!(out, "{}", c.escape_debug()),
        }
    }
    out
}
