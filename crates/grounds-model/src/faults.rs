//! What is wrong with a document: where, what, and how to mend it.

use std::{fmt, ops::Range};

use serde::Serialize;

/// The most faults that are kept from one document; the rest are only counted.
const MOST: usize = 1000;

/// How much a fault matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// The document cannot be used until it is mended.
    Error,
    /// It can be used, but it probably does not say what was meant.
    Advice,
}

impl fmt::Display for Severity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Error => "error",
            Self::Advice => "advice",
        })
    }
}

/// One thing that is wrong with a document.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Fault {
    /// The document's name, as it was given to the reader.
    pub file: String,
    /// The bytes of the document that are at fault; always on characters' edges.
    #[serde(skip)]
    pub span: Range<usize>,
    /// Its line, from 1.
    pub line: usize,
    /// Its column, from 1, in characters.
    pub column: usize,
    /// The path of the key: `places.hall.level`, `waits[2].from` (items count from 1).
    pub key: String,
    /// What is wrong.
    pub what: String,
    /// How to mend it.
    pub mend: String,
    /// How much it matters.
    pub severity: Severity,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{}:{}:{}: {}: ",
            self.file, self.line, self.column, self.severity
        )?;
        if !self.key.is_empty() {
            write!(f, "{}: ", self.key)?;
        }
        write!(f, "{}", self.what)?;
        if !self.mend.is_empty() {
            write!(f, "\n  mend: {}", self.mend)?;
        }
        Ok(())
    }
}

/// Something that is wrong with a document and was found by somebody who knows more about it than
/// its notation: the path of the key, what is wrong, how to mend it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Found {
    /// The path of the key, step by step; items of lists are numbers from 0.
    pub path: Vec<String>,
    /// The fault lies in the key and not in its value.
    pub in_key: bool,
    /// What is wrong.
    pub what: String,
    /// How to mend it.
    pub mend: String,
    /// How much it matters.
    pub severity: Severity,
}

/// Everything that is wrong with a document, in the order of the document.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Faults {
    /// The faults, by place in the document.
    pub list: Vec<Fault>,
    /// How many more there are than are listed.
    pub more: usize,
}

impl Faults {
    /// Whether nothing at all is wrong.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    /// The faults that must be mended before the document can be used.
    pub fn errors(&self) -> impl Iterator<Item = &Fault> {
        self.list
            .iter()
            .filter(|fault| fault.severity == Severity::Error)
    }

    /// Whether the document cannot be used.
    #[must_use]
    pub fn has_errors(&self) -> bool {
        self.errors().next().is_some()
    }
}

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (count, fault) in self.list.iter().enumerate() {
            if count > 0 {
                f.write_str("\n")?;
            }
            write!(f, "{fault}")?;
        }
        if self.more > 0 {
            write!(f, "\nand {} more", self.more)?;
        }
        Ok(())
    }
}

impl std::error::Error for Faults {}

/// Gathers the faults of one document.
pub(crate) struct Gathering<'t> {
    file: &'t str,
    text: &'t str,
    line_starts: Vec<usize>,
    faults: Faults,
}

impl<'t> Gathering<'t> {
    pub(crate) fn new(file: &'t str, text: &'t str) -> Self {
        let line_starts = std::iter::once(0)
            .chain(
                text.bytes()
                    .enumerate()
                    .filter(|(_, byte)| *byte == b'\n')
                    .map(|(at, _)| at + 1),
            )
            .collect();
        Self {
            file,
            text,
            line_starts,
            faults: Faults::default(),
        }
    }

    /// Notes a fault. Past the first thousand they are only counted.
    pub(crate) fn add(
        &mut self,
        severity: Severity,
        span: Range<usize>,
        key: String,
        what: impl Into<String>,
        mend: impl Into<String>,
    ) {
        if self.faults.list.len() >= MOST {
            self.faults.more += 1;
            return;
        }
        let start = self.char_edge(span.start);
        let span = start..self.char_edge(span.end).max(start);
        let (line, column) = self.line_and_column(span.start);
        self.faults.list.push(Fault {
            file: self.file.to_owned(),
            span,
            line,
            column,
            key,
            what: what.into(),
            mend: mend.into(),
            severity,
        });
    }

    /// Whether further faults are only counted.
    pub(crate) fn full(&self) -> bool {
        self.faults.list.len() >= MOST
    }

    /// The faults by place in the document, each once.
    pub(crate) fn finish(mut self) -> Faults {
        self.faults.list.sort_by(|a, b| {
            (a.span.start, a.severity, &a.key, &a.what).cmp(&(
                b.span.start,
                b.severity,
                &b.key,
                &b.what,
            ))
        });
        self.faults.list.dedup();
        self.faults
    }

    fn char_edge(&self, at: usize) -> usize {
        let mut at = at.min(self.text.len());
        while !self.text.is_char_boundary(at) {
            at -= 1;
        }
        at
    }

    fn line_and_column(&self, at: usize) -> (usize, usize) {
        let line = self.line_starts.partition_point(|start| *start <= at);
        let start = self
            .line_starts
            .get(line.saturating_sub(1))
            .copied()
            .unwrap_or(0);
        let column = self
            .text
            .get(start..at)
            .map_or(0, |before| before.chars().count());
        (line, column + 1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fault_names_line_and_column_in_characters() {
        let text = "a = 1\n# größe\nb = \"é!\"";
        let mut gathering = Gathering::new("job.toml", text);
        let at = text.find('!').unwrap();
        gathering.add(
            Severity::Error,
            at..at + 1,
            "b".to_owned(),
            "odd",
            "mend it",
        );
        let faults = gathering.finish();
        assert_eq!((faults.list[0].line, faults.list[0].column), (3, 7));
        assert_eq!(
            faults.to_string(),
            "job.toml:3:7: error: b: odd\n  mend: mend it"
        );
    }

    #[test]
    fn a_span_past_the_end_or_inside_a_character_does_no_harm() {
        let mut gathering = Gathering::new("job.toml", "é");
        gathering.add(Severity::Advice, 1..99, String::new(), "odd", "");
        assert_eq!(gathering.finish().list[0].span, 0..2);
    }
}
