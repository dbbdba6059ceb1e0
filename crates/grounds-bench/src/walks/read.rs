//! Reads a file of walks with their tables.

use grounds_measure::Units;
use grounds_walk::{Person, Place, Vocabulary};
use jiff::civil::Date;

/// A walk with its right extraction.
#[derive(Clone, Debug)]
pub struct Scripted {
    /// Its heading.
    pub name: String,
    /// What is known before.
    pub vocabulary: Vocabulary,
    /// The talk, as it stands in the file.
    pub talk: String,
    /// The right extraction.
    pub rows: Vec<Row>,
    /// Times of cues that carry no update, in milliseconds.
    pub no_update: Vec<u64>,
}

/// One row of the right extraction.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// Its number in the table.
    pub number: String,
    /// The start of the cue that settles it, in milliseconds.
    pub at_ms: u64,
    /// The place, or `-`.
    pub place: String,
    /// The thing, in free words.
    pub thing: String,
    /// The kind, as the file writes it; empty if any will do.
    pub kind: String,
    /// What is stated.
    pub stated: String,
    /// `f`, `h` or `s`.
    pub certainty: char,
    /// Neither a hit nor a false alarm.
    pub optional: bool,
}

/// The walks of a file.
///
/// # Errors
///
/// When a walk lacks its day, its places, its talk or its table; the message says which.
pub fn read(file: &str) -> Result<Vec<Scripted>, String> {
    let mut walks = Vec::new();
    for part in file.split("\n## Walk ").skip(1) {
        let name = part.lines().next().unwrap_or_default().trim().to_owned();
        let walk = one(part, &name).map_err(|what| format!("walk {name}: {what}"))?;
        walks.push(walk);
    }
    if walks.is_empty() {
        return Err("there is no walk; a walk begins with a line: ## Walk 1. A house".to_owned());
    }
    Ok(walks)
}

fn one(part: &str, name: &str) -> Result<Scripted, String> {
    let known = paragraph(part, "**Known before.**").ok_or("no line **Known before.**")?;
    let day = day(&known).ok_or("no day such as Monday 4 October 2027")?;
    let imperial = [
        "US units",
        "Imperial",
        "imperial",
        "feet and inches",
        "Feet and inches",
    ];
    let units = if imperial.iter().any(|word| known.contains(word)) {
        Units::Imperial
    } else {
        Units::Metric
    };
    let mut fences = part.split("\n```");
    let talk = fences.nth(1).ok_or("no talk between ``` and ```")?;
    let talk = talk
        .split_once('\n')
        .map_or("", |(_, talk)| talk)
        .to_owned();
    let places = list(&known, "Places:");
    if places.is_empty() {
        return Err("no list such as Places: Hall, Kitchen.".to_owned());
    }
    let people = list(&known, "People:")
        .into_iter()
        .chain(list(&known, "Speakers:"))
        .chain(list(&known, "Speakers "));
    let no_update = paragraph(part, "**No update from:**").unwrap_or_default();
    Ok(Scripted {
        name: name.to_owned(),
        vocabulary: Vocabulary {
            day,
            units,
            places: places.into_iter().map(place).collect(),
            people: people.filter_map(person).collect(),
            things: Vec::new(),
        },
        talk,
        rows: part.lines().filter_map(row).collect(),
        no_update: times(&outside_brackets(&no_update)),
    })
}

/// The paragraph that begins with a mark, on one line.
fn paragraph(part: &str, mark: &str) -> Option<String> {
    let from = part.split_once(mark)?.1;
    let end = from
        .find("\n\n")
        .into_iter()
        .chain(from.find("\n**"))
        .chain(from.find("\n```"))
        .min()
        .unwrap_or(from.len());
    Some(from.get(..end)?.replace('\n', " ").trim().to_owned())
}

const MONTHS: [&str; 12] = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
];

/// The first day in a text: `4 October 2027`.
fn day(text: &str) -> Option<Date> {
    let words: Vec<&str> = text
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .collect();
    words.windows(3).find_map(|three| {
        let [day, month, year] = three else {
            return None;
        };
        date(day, month, year).or_else(|| date(month, day, year))
    })
}

/// A date from its words; the month may be cut to three letters.
pub(super) fn date(day: &str, month: &str, year: &str) -> Option<Date> {
    let month = month.to_lowercase();
    let at = MONTHS
        .iter()
        .position(|name| *name == month || month.len() >= 3 && name.starts_with(&month))?;
    let month = i8::try_from(at + 1).ok()?;
    Date::new(
        year.parse().ok().filter(|y| *y > 1900)?,
        month,
        day.parse().ok()?,
    )
    .ok()
}

/// Names after a word, up to the full stop that ends the list, each with what its brackets say.
fn list(text: &str, after: &str) -> Vec<(String, String)> {
    let Some((_, rest)) = text.split_once(after) else {
        return Vec::new();
    };
    let mut names = Vec::new();
    let (mut name, mut aside, mut depth, mut quoted) = (String::new(), String::new(), 0, false);
    for c in rest.chars() {
        match c {
            '(' => depth += 1,
            ')' => depth -= 1,
            '"' | '“' | '”' => {
                quoted = !quoted;
                aside.push('"');
            }
            ',' | '.' | ';' if depth == 0 && !quoted => {
                let found = (name.trim().to_owned(), aside.trim().to_owned());
                if !found.0.is_empty() {
                    names.push(found);
                }
                (name, aside) = (String::new(), String::new());
                if c == '.' {
                    return names;
                }
            }
            _ if depth > 0 || quoted => aside.push(c),
            _ => name.push(c),
        }
    }
    names
}

fn place((name, aside): (String, String)) -> Place {
    let quoted: Vec<String> = aside
        .split('"')
        .skip(1)
        .step_by(2)
        .map(str::to_owned)
        .collect();
    let plain = aside
        .split(',')
        .map(|part| part.trim().to_owned())
        .filter(|part| !part.is_empty());
    Place {
        id: name.to_lowercase().replace(' ', "-"),
        also: if aside.contains('"') {
            quoted
        } else {
            plain.collect()
        },
        name,
    }
}

/// A person by first name and role; initials of speakers are no names.
fn person((name, aside): (String, String)) -> Option<Person> {
    let roles: Vec<String> = aside
        .split(',')
        .map(|part| part.trim().trim_matches('"').to_owned())
        .filter(|part| !part.is_empty() && part != "site lead")
        .collect();
    if name.chars().count() <= 2 {
        let mut roles = roles.into_iter();
        let first = roles.next().filter(|r| r.starts_with(char::is_uppercase))?;
        return Some(Person {
            id: first.to_lowercase(),
            name: first,
            also: roles.collect(),
        });
    }
    Some(Person {
        id: name.to_lowercase(),
        name,
        also: roles,
    })
}

/// A row of the table; nothing for other lines.
fn row(line: &str) -> Option<Row> {
    let cells: Vec<&str> = line
        .trim()
        .strip_prefix('|')?
        .strip_suffix('|')?
        .split('|')
        .map(str::trim)
        .collect();
    let [number, time, place, thing, kind, stated, certainty] = cells.as_slice() else {
        return None;
    };
    let at_ms = *times(time).first()?;
    let optional = [number, place, thing, kind, stated, certainty]
        .iter()
        .any(|cell| cell.contains("*opt*"));
    Some(Row {
        number: (*number).to_owned(),
        at_ms,
        place: place.replace("*opt*", "").trim().to_owned(),
        thing: thing.replace("*opt*", "").trim().to_owned(),
        kind: kind
            .replace("*opt*", "")
            .replace('`', "")
            .trim()
            .to_lowercase(),
        stated: stated.replace("*opt*", "").trim().to_owned(),
        certainty: certainty
            .replace("*opt*", "")
            .trim()
            .chars()
            .next()
            .unwrap_or('f'),
        optional,
    })
}

fn outside_brackets(text: &str) -> String {
    let mut depth = 0_i32;
    text.chars()
        .filter(|c| {
            match c {
                '(' => depth += 1,
                ')' => depth -= 1,
                _ => return depth == 0,
            }
            false
        })
        .collect()
}

/// Times in a text: `0:02`, `1:41.9`, `1:02:03.5`.
fn times(text: &str) -> Vec<u64> {
    text.split(|c: char| !(c.is_ascii_digit() || matches!(c, ':' | '.')))
        .filter(|word| word.contains(':'))
        .filter_map(|word| {
            let word = word.trim_end_matches('.');
            let (clock, part) = word.split_once('.').unwrap_or((word, "0"));
            let seconds = clock.split(':').try_fold(0_u64, |sum, digits| {
                Some(sum * 60 + digits.parse::<u64>().ok()?)
            })?;
            let ms: u64 = format!("{part:0<3}").get(..3)?.parse().ok()?;
            Some(seconds * 1000 + ms)
        })
        .collect()
}
