//! Dates and times of day as they are said, and what they come to from the walk's day.

use jiff::{
    ToSpan,
    civil::{Date, Time, Weekday},
};

use crate::{
    lexicon::Class,
    numbers::{Number, Unit},
    tokens::{Token, What},
};

/// A date or a time of day, as it was said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct When {
    /// The day, if one was said.
    pub(crate) day: Option<Day>,
    /// The time of day, if one was said.
    pub(crate) time: Option<Time>,
}

/// A day, as it was said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Day {
    /// So many days from the walk's day: `tomorrow`, `in two weeks`.
    Ahead(i32),
    /// `Friday`: the next one, or the last one where the talk is of the past.
    Weekday(Weekday),
    /// `next Friday`: the one of next week.
    Next(Weekday),
    /// `last Friday`.
    Last(Weekday),
    /// So many days before the last such weekday: `three weeks last Friday`.
    Before(Weekday, i32),
    /// `Friday week`: a week after the next one.
    Week(Weekday),
    /// `the fifteenth`.
    OfMonth(i8),
    /// `the fifteenth of October`.
    OfYear(i8, i8),
    /// `end of the week`, so many weeks on: its Friday.
    WeekEnd(i32),
    /// `next week`: its Monday.
    WeekStart(i32),
}

/// Whether the talk is of what was or of what will be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Tense {
    Past,
    Coming,
}

impl When {
    /// Whether it can only lie ahead.
    pub(crate) fn is_ahead(self) -> bool {
        matches!(
            self.day,
            Some(
                Day::Ahead(1..) | Day::Next(_) | Day::Week(_) | Day::WeekStart(_) | Day::WeekEnd(_)
            )
        )
    }
}

impl Day {
    /// The date that it comes to from the walk's day.
    pub(crate) fn date(self, today: Date, tense: Tense) -> Option<Date> {
        match self {
            Self::Ahead(days) => today.checked_add(days.days()).ok(),
            Self::Weekday(day) => nth(today, day, tense),
            Self::Next(day) => {
                let monday = monday(today)?.checked_add(7.days()).ok()?;
                within(monday, day)
            }
            Self::Before(day, days) => nth(today, day, Tense::Past)?.checked_sub(days.days()).ok(),
            Self::Last(day) => nth(today, day, Tense::Past),
            Self::Week(day) => nth(today, day, Tense::Coming)?.checked_add(7.days()).ok(),
            Self::OfMonth(day) => of_month(today, day, tense),
            Self::OfYear(month, day) => of_year(today, month, day, tense),
            Self::WeekEnd(weeks) => monday(today)?.checked_add((weeks * 7 + 4).days()).ok(),
            Self::WeekStart(weeks) => monday(today)?.checked_add((weeks * 7).days()).ok(),
        }
    }

    /// Whether it can only lie behind.
    pub(crate) fn is_past(self) -> bool {
        matches!(self, Self::Last(_) | Self::Before(..))
            || matches!(self, Self::Ahead(days) if days < 0)
    }
}

fn nth(today: Date, day: Weekday, tense: Tense) -> Option<Date> {
    let n = match tense {
        Tense::Past => -1,
        Tense::Coming => 1,
    };
    today.nth_weekday(n, day).ok()
}

fn monday(today: Date) -> Option<Date> {
    let back = i32::from(today.weekday().to_monday_zero_offset());
    today.checked_sub(back.days()).ok()
}

fn within(monday: Date, day: Weekday) -> Option<Date> {
    let on = i32::from(day.to_monday_zero_offset());
    monday.checked_add(on.days()).ok()
}

fn of_month(today: Date, day: i8, tense: Tense) -> Option<Date> {
    let mut month = today.first_of_month();
    for _ in 0..3 {
        if let Ok(date) = Date::new(month.year(), month.month(), day) {
            let fits = match tense {
                Tense::Past => date <= today,
                Tense::Coming => date >= today,
            };
            if fits {
                return Some(date);
            }
        }
        month = match tense {
            Tense::Past => month.checked_sub(1.months()).ok()?,
            Tense::Coming => month.checked_add(1.months()).ok()?,
        };
    }
    None
}

/// The date of this year that is nearest to the walk's day in the direction of the talk.
fn of_year(today: Date, month: i8, day: i8, tense: Tense) -> Option<Date> {
    let this = Date::new(today.year(), month, day).ok()?;
    match tense {
        Tense::Coming if this < today => Date::new(today.year() + 1, month, day).ok(),
        Tense::Past if this > today => Date::new(today.year() - 1, month, day).ok(),
        _ => Some(this),
    }
}

const WEEKDAYS: [(&str, Weekday); 14] = [
    ("monday", Weekday::Monday),
    ("tuesday", Weekday::Tuesday),
    ("wednesday", Weekday::Wednesday),
    ("thursday", Weekday::Thursday),
    ("friday", Weekday::Friday),
    ("saturday", Weekday::Saturday),
    ("sunday", Weekday::Sunday),
    ("mon", Weekday::Monday),
    ("tues", Weekday::Tuesday),
    ("weds", Weekday::Wednesday),
    ("thurs", Weekday::Thursday),
    ("fri", Weekday::Friday),
    ("mondays", Weekday::Monday),
    ("fridays", Weekday::Friday),
];

const MONTHS: [(&str, i8); 22] = [
    ("january", 1),
    ("february", 2),
    ("march", 3),
    ("april", 4),
    ("may", 5),
    ("june", 6),
    ("july", 7),
    ("august", 8),
    ("september", 9),
    ("october", 10),
    ("november", 11),
    ("december", 12),
    ("jan", 1),
    ("feb", 2),
    ("mar", 3),
    ("apr", 4),
    ("aug", 8),
    ("sept", 9),
    ("sep", 9),
    ("oct", 10),
    ("nov", 11),
    ("dec", 12),
];

const ORDINALS: [&str; 31] = [
    "first",
    "second",
    "third",
    "fourth",
    "fifth",
    "sixth",
    "seventh",
    "eighth",
    "ninth",
    "tenth",
    "eleventh",
    "twelfth",
    "thirteenth",
    "fourteenth",
    "fifteenth",
    "sixteenth",
    "seventeenth",
    "eighteenth",
    "nineteenth",
    "twentieth",
    "twenty first",
    "twenty second",
    "twenty third",
    "twenty fourth",
    "twenty fifth",
    "twenty sixth",
    "twenty seventh",
    "twenty eighth",
    "twenty ninth",
    "thirtieth",
    "thirty first",
];

/// Words of a list at a place in the tokens.
struct Words<'t>(&'t [Token]);

impl Words<'_> {
    fn text(&self, at: usize) -> Option<&str> {
        let token = self.0.get(at)?;
        match token.what {
            What::Word | What::Amount(_) => Some(token.text.as_str()),
            _ => None,
        }
    }

    fn is(&self, at: usize, any: &[&str]) -> bool {
        self.text(at).is_some_and(|text| any.contains(&text))
    }

    fn weekday(&self, at: usize) -> Option<Weekday> {
        let text = self.text(at)?;
        WEEKDAYS
            .iter()
            .find(|(name, _)| *name == text)
            .map(|(_, day)| *day)
    }

    fn month(&self, at: usize) -> Option<i8> {
        let text = self.text(at)?;
        MONTHS
            .iter()
            .find(|(name, _)| *name == text)
            .map(|(_, month)| *month)
    }

    /// The day of a month and how many tokens it takes: `fifteenth`, `twenty ninth`, `15th`.
    fn ordinal(&self, at: usize) -> Option<(i8, usize)> {
        let text = self.text(at)?;
        let two = self.text(at + 1).map(|next| format!("{text} {next}"));
        let place = |name: &str| {
            let found = ORDINALS.iter().position(|known| *known == name)?;
            i8::try_from(found + 1).ok()
        };
        if let Some(day) = two.as_deref().and_then(place) {
            return Some((day, 2));
        }
        let digits = ["st", "nd", "rd", "th"]
            .iter()
            .find_map(|end| text.strip_suffix(end))
            .and_then(|digits| digits.parse::<i8>().ok())
            .filter(|day| (1..=31).contains(day));
        digits.or_else(|| place(text)).map(|day| (day, 1))
    }

    /// A whole number without a unit.
    fn count(&self, at: usize) -> Option<i64> {
        let amount = self.0.get(at)?.amount()?;
        (amount.unit == Unit::None)
            .then_some(amount.number)?
            .as_whole()
    }
}

/// Replaces the words of dates and times by dates and times.
pub(crate) fn mark(tokens: Vec<Token>) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut at = 0;
    while at < tokens.len() {
        let words = Words(&tokens);
        let found = day_at(&words, at, out.last()).or_else(|| time_at(&words, at, out.last()));
        match (found, tokens.get(at)) {
            (Some((when, used)), Some(first)) => {
                let said = tokens.get(at..at + used).unwrap_or_default();
                let text: Vec<&str> = said.iter().map(|token| token.text.as_str()).collect();
                add(
                    &mut out,
                    Token {
                        text: text.join(" "),
                        what: What::When(when),
                        classes: first.classes,
                        cue: said.last().map_or(first.cue, |token| token.cue),
                    },
                );
                at += used.max(1);
            }
            (None, Some(token)) => {
                out.push(token.clone());
                at += 1;
            }
            (_, None) => break,
        }
    }
    out
}

/// Adds a date, joining day and time that stand side by side or with a small word between.
fn add(out: &mut Vec<Token>, token: Token) {
    let What::When(new) = token.what else {
        out.push(token);
        return;
    };
    let small = out.last().is_some_and(|last| {
        matches!(
            last.text.as_str(),
            "at" | "about" | "around" | "by" | "before"
        )
    });
    let at = out.len().checked_sub(if small { 2 } else { 1 });
    let joined = at
        .and_then(|at| out.get(at))
        .and_then(Token::when)
        .and_then(|old| {
            match (old.day, old.time, new.day, new.time) {
                (Some(day), None, None, Some(time)) | (None, Some(time), Some(day), None) => {
                    Some(When {
                        day: Some(day),
                        time: Some(time),
                    })
                }
                // "Monday the fourth": the date counts.
                (
                    Some(Day::Weekday(_)),
                    None,
                    Some(day @ (Day::OfMonth(_) | Day::OfYear(..))),
                    None,
                )
                | (
                    Some(day @ (Day::OfMonth(_) | Day::OfYear(..))),
                    None,
                    Some(Day::Weekday(_)),
                    None,
                ) => Some(When {
                    day: Some(day),
                    time: None,
                }),
                _ => None,
            }
        });
    match (joined, at.and_then(|at| out.get_mut(at))) {
        (Some(when), Some(old)) => {
            old.what = What::When(when);
            old.text = format!("{} {}", old.text, token.text);
        }
        _ => out.push(token),
    }
}

fn only(day: Day) -> When {
    When {
        day: Some(day),
        time: None,
    }
}

fn day_at(words: &Words, at: usize, before: Option<&Token>) -> Option<(When, usize)> {
    let is = |i: usize, any: &[&str]| words.is(at + i, any);
    let part = |used: usize| {
        let more = usize::from(words.is(
            at + used,
            &[
                "morning",
                "afternoon",
                "evening",
                "night",
                "lunchtime",
                "first thing",
                "dinner time",
            ],
        ));
        used + more
    };
    if is(0, &["today", "tonight"]) {
        return Some((only(Day::Ahead(0)), 1));
    }
    if is(0, &["this aft", "this arvo", "this avo", "tonight"]) {
        return Some((only(Day::Ahead(0)), 1));
    }
    if is(0, &["this"]) && is(1, &["morning", "afternoon", "evening"]) {
        return Some((only(Day::Ahead(0)), 2));
    }
    if is(0, &["tomorrow"]) {
        return Some((only(Day::Ahead(1)), part(1)));
    }
    if is(0, &["yesterday"]) {
        return Some((only(Day::Ahead(-1)), part(1)));
    }
    if is(0, &["last"]) && is(1, &["night"]) {
        return Some((only(Day::Ahead(-1)), 2));
    }
    if is(0, &["the"]) && is(1, &["day"]) && is(2, &["after"]) && is(3, &["tomorrow"]) {
        return Some((only(Day::Ahead(2)), 4));
    }
    if is(0, &["end", "the end"]) && is(1, &["of"]) {
        let the = usize::from(is(2, &["the", "this"]));
        let next = usize::from(is(2 + the, &["next"]));
        if is(2 + the + next, &["week"]) {
            let weeks = i32::from(next == 1);
            return Some((only(Day::WeekEnd(weeks)), 3 + the + next));
        }
    }
    if is(0, &["next", "last", "this"]) && is(1, &["week"]) {
        let weeks = if is(0, &["next"]) {
            1
        } else if is(0, &["last"]) {
            -1
        } else {
            0
        };
        if weeks != 0 {
            return Some((only(Day::WeekStart(weeks)), 2));
        }
    }
    if is(0, &["next", "last", "this"])
        && let Some(day) = words.weekday(at + 1)
    {
        let day = if is(0, &["next"]) {
            Day::Next(day)
        } else if is(0, &["last"]) {
            Day::Last(day)
        } else {
            Day::Weekday(day)
        };
        return Some((only(day), part(2)));
    }
    if is(0, &["a"])
        && is(1, &["week"])
        && let Some(day) = words.weekday(at + 2)
    {
        return Some((only(Day::Week(day)), 3));
    }
    let week = words
        .0
        .get(at)
        .and_then(Token::amount)
        .and_then(|a| days_of(a.number, a.unit));
    if let Some(days) = week {
        if is(1, &["ago", "back"]) {
            return Some((only(Day::Ahead(-days)), 2));
        }
        // "three weeks last Friday" counts back from it; "a week on Monday" counts on from it.
        if is(1, &["last"])
            && let Some(day) = words.weekday(at + 2)
        {
            return Some((only(Day::Before(day, days)), 3));
        }
        if days == 7
            && is(1, &["on"])
            && let Some(day) = words.weekday(at + 2)
        {
            return Some((only(Day::Week(day)), 3));
        }
    }
    if let Some(days) = week
        && is(1, &["from"])
    {
        if is(2, &["tomorrow"]) {
            return Some((only(Day::Ahead(days + 1)), 3));
        }
        if is(2, &["today", "now"]) {
            return Some((only(Day::Ahead(days)), 3));
        }
    }
    if let Some(day) = words.weekday(at) {
        if is(1, &["week"]) {
            return Some((only(Day::Week(day)), 2));
        }
        return Some((only(Day::Weekday(day)), part(1)));
    }
    if let Some(month) = words.month(at)
        && !(is(0, &["may", "march", "mar"]) && words.ordinal(at + 1).is_none())
    {
        let the = usize::from(is(1, &["the"]));
        if let Some((day, used)) = words.ordinal(at + 1 + the) {
            return Some((only(Day::OfYear(month, day)), 1 + the + used));
        }
        if let Some(day) = words.count(at + 1).and_then(|n| i8::try_from(n).ok())
            && (1..=31).contains(&day)
        {
            return Some((only(Day::OfYear(month, day)), 2));
        }
    }
    let the = usize::from(is(0, &["the"]));
    let (day, used) = words.ordinal(at + the)?;
    let of = usize::from(is(the + used, &["of"]));
    if let Some(month) = words.month(at + the + used + of) {
        return Some((only(Day::OfYear(month, day)), the + used + of + 1));
    }
    // "the fifteenth" alone is a date where a date can stand, and no noun follows.
    let ends = words.text(at + the + used).is_none_or(|next| {
        matches!(
            next,
            "and"
                | "but"
                | "so"
                | "or"
                | "at"
                | "if"
                | "for"
                | "they"
                | "he"
                | "she"
                | "no"
                | "sorry"
                | "not"
                | "it"
                | "we"
                | "i"
                | "which"
                | "then"
                | "because"
        )
    });
    let after_date_word = before.is_some_and(|last| {
        last.when().is_some()
            || last.is(Class::Hearsay)
            || matches!(
                last.text.as_str(),
                "on" | "by"
                    | "is"
                    | "'s"
                    | "till"
                    | "until"
                    | "was"
                    | "for"
                    | "before"
                    | "of"
                    | "not before"
                    | "sorry"
                    | "no"
                    | "come"
                    | "comes"
                    | "coming"
                    | "arrives"
                    | "due"
                    | "from"
                    | "since"
                    | "are"
            )
    });
    let dated = ends && after_date_word && (the == 1 || last_is_day(before));
    dated.then(|| (only(Day::OfMonth(day)), the + used))
}

fn last_is_day(before: Option<&Token>) -> bool {
    before.is_some_and(|last| last.when().is_some())
}

fn time_at(words: &Words, at: usize, before: Option<&Token>) -> Option<(When, usize)> {
    let at_time = |time: Time, used: usize| {
        (
            When {
                day: None,
                time: Some(time),
            },
            used,
        )
    };
    if words.is(at, &["noon", "midday", "lunchtime"]) {
        return Some(at_time(Time::constant(12, 0, 0, 0), 1));
    }
    if words.is(at, &["half"]) && words.is(at + 1, &["past"]) {
        let hour = words.count(at + 2)?;
        return Some(at_time(clock(hour, 30, None)?, 3));
    }
    if let Some((hour, minute)) = words.text(at).and_then(|text| text.split_once(':')) {
        let (hour, minute) = (hour.parse().ok()?, minute.parse().ok()?);
        return Some(at_time(clock(hour, minute, None)?, 1));
    }
    let hour = words.count(at)?;
    if words.is(at + 1, &["o'clock", "oclock"]) {
        return Some(at_time(clock(hour, 0, None)?, 2));
    }
    for (half, late) in [("am", false), ("pm", true)] {
        if words.is(at + 1, &[half]) {
            return Some(at_time(clock(hour, 0, Some(late))?, 2));
        }
    }
    let day_part = words.is(at + 1, &["this"])
        && words.is(at + 2, &["morning", "afternoon", "evening"])
        || words.is(at + 1, &["in"])
            && words.is(at + 2, &["the"])
            && words.is(at + 3, &["morning", "afternoon", "evening"]);
    if day_part && before.is_some_and(|last| last.text == "at") {
        return Some(at_time(clock(hour, 0, None)?, 1));
    }
    let thing_at = before.is_some_and(|last| last.text == "at")
        && words.text(at + 1).is_none()
        && at
            .checked_sub(2)
            .and_then(|two| words.0.get(two))
            .is_some_and(|token| {
                token.is(Class::Thing) && !token.any(&[Class::AbleNoun, Class::Read])
            })
        && at <= 3;
    if thing_at {
        return Some(at_time(clock(hour, 0, None)?, 1));
    }
    // A bare number is an hour only beside a day, or after a word that wants one.
    let beside = before.is_some_and(|last| {
        last.when()
            .is_some_and(|when| when.time.is_none() && when.day.is_some())
    });
    let about = before.is_some_and(|last| {
        matches!(
            last.text.as_str(),
            "about" | "around" | "at" | "by" | "before" | "till" | "until"
        )
    });
    let day_follows = words.is(at + 1, &["tomorrow", "today", "tonight"])
        || words.weekday(at + 1).is_some()
        || (words.is(at + 1, &["on"]) && words.weekday(at + 2).is_some());
    let day_precedes = at.checked_sub(2).is_some_and(|two| {
        let back = words.0.get(two);
        back.is_some_and(|token| {
            matches!(
                token.text.as_str(),
                "today" | "tomorrow" | "yesterday" | "night" | "tonight"
            ) || WEEKDAYS.iter().any(|(name, _)| *name == token.text)
        })
    });
    let hourly = (beside && words.text(at + 1).is_none_or(|next| next != "of"))
        || (about && (day_follows || day_precedes));
    if !hourly || words.text(at + 1).is_some_and(|next| next == "by") {
        return None;
    }
    Some(at_time(clock(hour, 0, None)?, 1))
}

/// An hour as it is said on site: one to six is after noon unless said otherwise.
fn clock(hour: i64, minute: i8, late: Option<bool>) -> Option<Time> {
    let hour = i8::try_from(hour).ok()?;
    let hour = match late {
        Some(true) if hour < 12 => hour + 12,
        Some(false) if hour == 12 => 0,
        None if (1..=6).contains(&hour) => hour + 12,
        _ => hour,
    };
    Time::new(hour, minute, 0, 0).ok()
}

/// A stretch of time as days: `two weeks`.
pub(crate) fn days_of(number: Number, unit: Unit) -> Option<i32> {
    let days = match unit {
        Unit::Day => 1,
        Unit::Week => 7,
        Unit::Month => 30,
        _ => return None,
    };
    let days = number.times(days, 1)?.as_whole()?;
    i32::try_from(days).ok().filter(|days| *days <= 3_660)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tokens::{classify, tokenise};
    use jiff::civil::date;

    /// The date that a text comes to on Thursday 10 February 2028.
    fn on_thursday(text: &str, tense: Tense) -> Option<Date> {
        let words = classify(tokenise(text, 0));
        let tokens = mark(crate::numbers::mark(words, grounds_measure::Units::Metric));
        let when = tokens.iter().find_map(Token::when)?;
        when.day?.date(date(2028, 2, 10), tense)
    }

    #[test]
    fn days_are_counted_from_the_day_of_the_walk() {
        // 10 February 2028 is a Thursday and 2028 has a 29 February: arithmetic of the calendar.
        for (said, day) in [
            ("today", date(2028, 2, 10)),
            ("tonight", date(2028, 2, 10)),
            ("tomorrow", date(2028, 2, 11)),
            ("the day after tomorrow", date(2028, 2, 12)),
            ("on Friday", date(2028, 2, 11)),
            ("on Thursday", date(2028, 2, 17)),
            ("next Monday", date(2028, 2, 14)),
            ("Monday week", date(2028, 2, 21)),
            ("a week Tuesday", date(2028, 2, 22)),
            ("a week from tomorrow", date(2028, 2, 18)),
            ("by the eighteenth", date(2028, 2, 18)),
            ("by the ninth", date(2028, 3, 9)),
            ("Monday the twenty first", date(2028, 2, 21)),
            ("the twenty ninth of February", date(2028, 2, 29)),
            ("March 3rd", date(2028, 3, 3)),
            ("oct seven", date(2028, 10, 7)),
            ("end of the week", date(2028, 2, 11)),
            ("end of next week", date(2028, 2, 18)),
            ("next week", date(2028, 2, 14)),
        ] {
            assert_eq!(on_thursday(said, Tense::Coming), Some(day), "{said}");
        }
    }

    #[test]
    fn what_was_lies_behind() {
        for (said, day) in [
            ("yesterday", date(2028, 2, 9)),
            ("last night", date(2028, 2, 9)),
            ("on Friday", date(2028, 2, 4)),
            ("last Monday", date(2028, 2, 7)),
            ("three weeks last Friday", date(2028, 1, 14)),
            ("two weeks ago", date(2028, 1, 27)),
            ("by the twentieth", date(2028, 1, 20)),
        ] {
            assert_eq!(on_thursday(said, Tense::Past), Some(day), "{said}");
        }
    }

    #[test]
    fn a_fourth_wall_is_no_date() {
        assert_eq!(on_thursday("the fourth wall", Tense::Coming), None);
        assert_eq!(on_thursday("a second coat", Tense::Coming), None);
    }
}
