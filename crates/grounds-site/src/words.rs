//! Dates and names as a site lead says them.

use jiff::{Timestamp, tz::TimeZone};

/// The longest name or text that is repeated in a sentence, in characters.
const LONGEST: usize = 80;

/// Text that somebody else wrote, fit to stand in a sentence: one line, not too long.
#[must_use]
pub fn plain(text: &str) -> String {
    let mut out = String::new();
    let mut count = 0;
    for word in text.split(|c: char| c.is_whitespace() || c.is_control()) {
        if word.is_empty() {
            continue;
        }
        if !out.is_empty() {
            out.push(' ');
            count += 1;
        }
        for c in word.chars() {
            if count == LONGEST {
                out.push('…');
                return out;
            }
            out.push(c);
            count += 1;
        }
    }
    out
}

/// `Stair hall` as `the stair hall`. A name that looks like somebody's own (`Ana's room`, `North
/// Tower`, `PVC pipe`) keeps its capitals.
#[must_use]
pub fn with_article(name: &str) -> String {
    let name = plain(name);
    let name = if is_common(&name) {
        lower_first(&name)
    } else {
        name
    };
    if name.starts_with("the ") || name.starts_with("The ") {
        return lower_first(&name);
    }
    if is_somebodys(&name) {
        name
    } else {
        format!("the {name}")
    }
}

/// Whether a name begins with whose it is: `Ana's room`.
fn is_somebodys(name: &str) -> bool {
    let first = name.split(' ').next().unwrap_or_default();
    first.ends_with("'s") || first.ends_with("’s")
}

/// Whether only the first letter of a name is a capital, and that because a name begins there.
fn is_common(name: &str) -> bool {
    let mut words = name.split(' ');
    let first = words.next().unwrap_or_default();
    !first.contains(['\'', '’'])
        && first
            .chars()
            .skip(1)
            .all(|c| !c.is_uppercase() && !c.is_ascii_digit())
        && first.chars().count() > 1
        && words.all(|word| !word.starts_with(char::is_uppercase))
}

fn lower_first(text: &str) -> String {
    let mut chars = text.chars();
    chars
        .next()
        .map_or_else(String::new, |c| c.to_lowercase().chain(chars).collect())
}

/// A sentence's first letter as a capital.
#[must_use]
pub fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars
        .next()
        .map_or_else(String::new, |c| c.to_uppercase().chain(chars).collect())
}

/// `a`, `a and b`, `a, b and c`, `a, b, c and 4 more`.
#[must_use]
pub fn list(names: &[String]) -> String {
    const SHOWN: usize = 3;
    let (shown, rest) = names.split_at(names.len().min(SHOWN));
    let mut parts = shown.to_vec();
    if !rest.is_empty() {
        parts.push(format!("{} more", rest.len()));
    }
    match parts.split_last() {
        None => String::new(),
        Some((last, [])) => last.clone(),
        Some((last, before)) => format!("{} and {last}", before.join(", ")),
    }
}

/// `“a”`, `“a” or “b”`, `“a”, “b” or “c”`.
pub(crate) fn either(names: &[String]) -> String {
    let quoted: Vec<String> = names
        .iter()
        .map(|name| format!("“{}”", plain(name)))
        .collect();
    match quoted.split_last() {
        None => String::new(),
        Some((last, [])) => last.clone(),
        Some((last, before)) => format!("{} or {last}", before.join(", ")),
    }
}

/// Writes moments in the job's time zone.
#[derive(Clone, Debug)]
pub(crate) struct Clock {
    zone: TimeZone,
    year: i16,
}

impl Clock {
    /// A clock for a zone (UTC where there is none), on which dates of the moment's own year
    /// go without it.
    pub(crate) fn new(zone: Option<TimeZone>, at: Timestamp) -> Self {
        let zone = zone.unwrap_or(TimeZone::UTC);
        let year = at.to_zoned_datetime(zone.clone()).year();
        Self { zone, year }
    }

    /// The day of a moment.
    pub(crate) fn date(&self, at: Timestamp) -> jiff::civil::Date {
        at.to_zoned_datetime(self.zone.clone()).date()
    }

    /// `Tue 8 June`, `Tue 8 June 2026`.
    pub(crate) fn day(&self, at: Timestamp) -> String {
        self.civil(self.date(at))
    }

    /// A day of the calendar, likewise.
    pub(crate) fn civil(&self, date: jiff::civil::Date) -> String {
        let form = if date.year() == self.year {
            "%a %-d %B"
        } else {
            "%a %-d %B %Y"
        };
        date.strftime(form).to_string()
    }

    /// Two moments, with the time of day where they fall on one day.
    pub(crate) fn two(&self, a: Timestamp, b: Timestamp) -> (String, String) {
        if self.date(a) != self.date(b) {
            return (self.day(a), self.day(b));
        }
        let time = |at: Timestamp| {
            let time = at
                .to_zoned_datetime(self.zone.clone())
                .strftime("%H:%M")
                .to_string();
            format!("{} at {time}", self.day(at))
        };
        (time(a), time(b))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_takes_its_article_and_loses_the_capital_of_a_heading() {
        assert_eq!(with_article("Stair hall"), "the stair hall");
        assert_eq!(with_article("The long room"), "the long room");
        assert_eq!(with_article("Ana's room"), "Ana's room");
        assert_eq!(with_article("North Tower"), "the North Tower");
        assert_eq!(with_article("PVC pipe"), "the PVC pipe");
    }

    #[test]
    fn a_hostile_name_stays_on_one_line_and_short() {
        let name = format!("Hall\u{0}\n\u{1b}[31m{}", "x".repeat(500));
        let said = plain(&name);
        assert!(said.chars().all(|c| !c.is_control()));
        assert_eq!(said.chars().count(), LONGEST + 1);
    }

    #[test]
    fn a_long_list_is_cut() {
        let names: Vec<String> = ["a", "b", "c", "d", "e"].map(String::from).to_vec();
        assert_eq!(list(&names), "a, b, c and 2 more");
        assert_eq!(list(&names[..2]), "a and b");
        assert_eq!(list(&names[..1]), "a");
    }

    #[test]
    fn a_day_of_another_year_says_so() {
        let at = "2027-06-08T12:00:00Z".parse().unwrap();
        let clock = Clock::new(None, at);
        assert_eq!(clock.day(at), "Tue 8 June");
        assert_eq!(
            clock.day("2026-12-31T12:00:00Z".parse().unwrap()),
            "Thu 31 December 2026"
        );
    }
}
