//! The lines of an instance, and what can be wrong with one.

use grounds_schedule::Tick;
use thiserror::Error;

/// The largest number that an instance may hold.
const MOST_NUMBER: i64 = 1_000_000;

/// How much of a faulty line is shown.
const MOST_SHOWN: usize = 40;

/// What is wrong with the text of an instance, and where.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("line {line}: {what}")]
pub struct ReadError {
    /// The line, counted from 1.
    pub line: usize,
    /// What was expected there and what was found.
    pub what: String,
}

/// A line with its number.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Row<'t> {
    /// Counted from 1.
    pub(crate) line: usize,
    /// Without the blanks around it.
    pub(crate) text: &'t str,
}

impl<'t> Row<'t> {
    /// An error on this line.
    pub(crate) fn error(&self, what: impl Into<String>) -> ReadError {
        ReadError {
            line: self.line,
            what: what.into(),
        }
    }

    /// The numbers of the line.
    pub(crate) fn numbers(&self) -> Result<Vec<i64>, ReadError> {
        self.numbers_in(self.text)
    }

    /// The numbers of a part of the line.
    pub(crate) fn numbers_in(&self, part: &str) -> Result<Vec<i64>, ReadError> {
        part.split_whitespace()
            .map(|word| self.number(word))
            .collect()
    }

    fn number(&self, word: &str) -> Result<i64, ReadError> {
        let number = word.parse::<i64>();
        number
            .ok()
            .filter(|n| n.abs() <= MOST_NUMBER)
            .ok_or_else(|| {
                self.error(format!(
                    "a whole number up to {MOST_NUMBER} was expected, not {}",
                    shown(word)
                ))
            })
    }

    /// Checks a number that the format fixes.
    pub(crate) fn same(&self, what: &str, found: i64, wanted: usize) -> Result<(), ReadError> {
        if usize::try_from(found) == Ok(wanted) {
            return Ok(());
        }
        Err(self.error(format!("{what} {wanted} was expected, not {found}")))
    }

    /// Checks that as many things follow on the line as it says.
    pub(crate) fn counted(&self, what: &str, said: i64, found: usize) -> Result<(), ReadError> {
        if usize::try_from(said) == Ok(found) {
            return Ok(());
        }
        Err(self.error(format!("{said} {what} are announced, but {found} follow")))
    }

    /// A length of time that is not negative.
    pub(crate) fn duration(&self, number: i64) -> Result<Tick, ReadError> {
        let duration = Tick::try_from(number).ok().filter(|&ticks| ticks >= 0);
        duration.ok_or_else(|| self.error(format!("a duration cannot be {number}")))
    }

    /// An amount of each of `count` resources.
    pub(crate) fn amounts(&self, numbers: &[i64], count: usize) -> Result<Vec<u32>, ReadError> {
        if numbers.len() != count {
            let found = numbers.len();
            return Err(self.error(format!(
                "{count} amounts were expected, one for each resource, not {found}"
            )));
        }
        let amount = |&number: &i64| {
            u32::try_from(number)
                .map_err(|_| self.error(format!("an amount of a resource cannot be {number}")))
        };
        numbers.iter().map(amount).collect()
    }
}

/// The lines of a text in order, without blank ones and those that only rule off.
pub(crate) struct Rows<'t> {
    lines: std::iter::Enumerate<std::str::Lines<'t>>,
    last: usize,
}

impl<'t> Rows<'t> {
    pub(crate) fn new(text: &'t str) -> Self {
        Self {
            lines: text.lines().enumerate(),
            last: 1,
        }
    }

    /// The next line, if any.
    pub(crate) fn next_if_any(&mut self) -> Option<Row<'t>> {
        for (i, text) in self.lines.by_ref() {
            self.last = i + 1;
            let text = text.trim();
            if !text.chars().all(|c| c == '*' || c == '-') {
                let line = i + 1;
                return Some(Row { line, text });
            }
        }
        None
    }

    /// The next line; an error that says what is missing when there is none.
    pub(crate) fn next(&mut self, wanted: &str) -> Result<Row<'t>, ReadError> {
        self.next_if_any().ok_or_else(|| ReadError {
            line: self.last,
            what: format!("the text ends before {wanted}"),
        })
    }

    /// Skips to the next line that begins with `start`.
    pub(crate) fn find(&mut self, start: &str) -> Result<Row<'t>, ReadError> {
        loop {
            let row = self.next(&format!("a line that begins with {start:?}"))?;
            if row.text.starts_with(start) {
                return Ok(row);
            }
        }
    }

    /// The next line, which must begin with `start`.
    pub(crate) fn heading(&mut self, start: &str) -> Result<Row<'t>, ReadError> {
        let row = self.next(&format!("the heading {start:?}"))?;
        if row.text.starts_with(start) {
            return Ok(row);
        }
        Err(row.error(format!(
            "the heading {start:?} was expected, not {}",
            shown(row.text)
        )))
    }
}

/// A piece of foreign text, short and without control characters.
fn shown(text: &str) -> String {
    let short: String = text.chars().take(MOST_SHOWN).collect();
    let more = if short.len() < text.len() { "…" } else { "" };
    format!("\"{}{more}\"", short.escape_debug())
}
