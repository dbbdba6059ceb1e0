//! Numbers with their units, as tokens.

use grounds_measure::{Length, Units};
use serde::Serialize;

use super::{
    number::Number,
    spoken::{self, Manner},
    unit::Unit,
};
use crate::tokens::{Token, What};

/// What a figure is in what was said.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// What was found.
    Found,
    /// What it should be, or at most or at least may be.
    Wanted,
    /// How much it is out by.
    Out,
    /// A count, a share or an amount to do with the work.
    Told,
}

/// A number with its unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Amount {
    /// The number.
    pub number: Number,
    /// The unit, as said or as understood.
    pub unit: Unit,
    /// Whether the unit was said.
    pub said: bool,
    /// How the number was put together.
    #[serde(skip)]
    pub(crate) manner: Manner,
}

impl Amount {
    /// The length that it is, exactly, if it is one.
    #[must_use]
    pub fn length(&self) -> Option<Length> {
        let (top, bottom) = self.number.parts();
        let units = match self.unit {
            Unit::Millimetre => Length::UNITS_PER_MM,
            Unit::Centimetre => Length::UNITS_PER_MM * 10,
            Unit::Metre => Length::UNITS_PER_MM * 1000,
            Unit::Inch => Length::UNITS_PER_64TH * 64,
            Unit::Foot => Length::UNITS_PER_64TH * 768,
            _ => return None,
        };
        let product = units.checked_mul(top)?;
        (product % bottom == 0).then(|| Length::from_units(product / bottom))
    }
}

/// The unit of a bare length in the job's units.
pub(crate) fn default_unit(units: Units) -> Unit {
    match units {
        Units::Metric => Unit::Millimetre,
        Units::Imperial => Unit::Inch,
    }
}

/// Replaces the words of numbers by numbers.
pub(crate) fn mark(tokens: Vec<Token>, units: Units) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        let listed = out
            .last()
            .and_then(Token::amount)
            .is_some_and(|last| !last.said);
        match amount_at(
            &tokens,
            at,
            units,
            thousands_before(&out, token.cue),
            listed,
        ) {
            Some((amount, used)) => {
                let words = tokens.get(at..at + used).unwrap_or_default();
                let text: Vec<&str> = words.iter().map(|word| word.text.as_str()).collect();
                out.push(Token {
                    text: text.join(" "),
                    what: What::Amount(amount),
                    classes: token.classes,
                    cue: words.last().map_or(token.cue, |word| word.cue),
                });
                at += used;
            }
            None => {
                out.push(token.clone());
                at += 1;
            }
        }
    }
    out
}

/// Whether a number in the ten thousands was said just before, in the same cue.
fn thousands_before(out: &[Token], cue: usize) -> bool {
    let last = out.iter().rev().take(6).find_map(|token| {
        let amount = token.amount().filter(|_| token.cue == cue)?;
        Some(amount.number)
    });
    last.is_some_and(|number| number >= Number::whole(10_000) && number < Number::whole(100_000))
}

fn amount_at(
    tokens: &[Token],
    at: usize,
    units: Units,
    thousands: bool,
    listed: bool,
) -> Option<(Amount, usize)> {
    let word = |i: usize| {
        tokens
            .get(at + i)
            .filter(|token| token.what == What::Word)
            .map(|token| token.text.as_str())
    };
    let first = word(0)?;
    let (mut number, mut manner, mut used) = match figures(&word) {
        Some((number, used)) => (number, Manner::Full, used),
        None => match article_unit(&word) {
            Some(found) => found,
            None => spoken_number(&word, listed)?,
        },
    };
    if thousands
        && manner == Manner::Full
        && let Some(last) = number
            .as_whole()
            .filter(|n| (10..20).contains(n))
            .and_then(|_| word(used))
            .and_then(|w| spoken::read(&|i| (i == 0).then_some(w)))
            .and_then(|(n, _, _)| n.as_whole())
            .filter(|n| (1..10).contains(n))
    {
        // "twenty thousand... nineteen eight" is nineteen thousand eight hundred.
        number = number.times(1000, 1)?.plus(Number::whole(last * 100))?;
        manner = Manner::Joined;
        used += 1;
    }
    let after = |i: usize| word(used + i);
    let mut unit = unit_at(&after);
    let comma = tokens
        .get(at + used)
        .is_some_and(|token| token.mark() == Some(','));
    if unit.is_none() && comma {
        // "one eighty, kilos,": the unit comes late, alone between marks.
        let late = Unit::said(|i| word(used + 1 + i)).filter(|(unit, more)| {
            !unit.is_time()
                && *unit != Unit::Coat
                && tokens
                    .get(at + used + 1 + more)
                    .is_none_or(|t| t.mark().is_some())
        });
        unit = late.map(|(unit, more)| (unit, more + 1));
    }
    let of_number = word(1) == Some("of") && spoken::read(&|i| word(2 + i)).is_some();
    if first == "one" && used == 1 && unit.is_none() && !of_number && word(1) != Some("by") {
        return None;
    }
    let named_half = Number::fraction(1, 2) == Some(number)
        && tokens
            .get(at + used)
            .is_some_and(|next| next.what == What::Word && crate::noun::is_content(next));
    if manner == Manner::Fraction
        && unit.is_none()
        && (matches!(word(used), Some("the" | "done")) || named_half)
    {
        return None;
    }
    let mut amount = Amount {
        number,
        unit: Unit::None,
        said: false,
        manner,
    };
    if let Some((unit, more)) = unit {
        amount.unit = unit;
        amount.said = true;
        used += more;
        if let Some((whole, more)) = lesser(&amount, &|i| word(used + i)) {
            amount = whole;
            used += more;
        } else if let Some((part, more)) = spoken::and_part(&|i| word(used + i), 0)
            && number.as_whole().is_some()
            && let Some(sum) = number.plus(part)
        {
            // "an inch and a half", "two weeks and a half"
            amount.number = sum;
            used += more;
        }
    } else if let Some(whole) = spoken_metres(&amount, units) {
        amount = whole;
    }
    Some((amount, used))
}

/// A number in words. In a list, `fourteen fourteen sixteen`, two numbers side by side are two.
fn spoken_number<'w>(
    word: &impl Fn(usize) -> Option<&'w str>,
    listed: bool,
) -> Option<(Number, Manner, usize)> {
    let whole = spoken::read(word)?;
    if !listed || whole.1 != Manner::Joined {
        return Some(whole);
    }
    (1..whole.2)
        .rev()
        .filter_map(|most| spoken::read(&|i| (i < most).then(|| word(i)).flatten()))
        .find(|(_, manner, _)| *manner == Manner::Full)
        .or(Some(whole))
}

/// `an inch`, `a metre`, `a foot`, `a mil`.
fn article_unit<'w>(word: &impl Fn(usize) -> Option<&'w str>) -> Option<(Number, Manner, usize)> {
    let article = matches!(word(0)?, "a" | "an");
    let unit = matches!(
        word(1)?,
        "inch" | "foot" | "metre" | "mil" | "mill" | "millimetre" | "week" | "month" | "kilo"
    );
    let weekday = word(2).is_some_and(|next| next.ends_with("day") && next != "day");
    (article && unit && !weekday).then(|| (Number::whole(1), Manner::Full, 1))
}

/// A number in figures: `9.5`, `30 1/16`, `5/8`.
fn figures<'w>(word: &impl Fn(usize) -> Option<&'w str>) -> Option<(Number, usize)> {
    let first = word(0)?;
    if !first.starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    let number = Number::read(first)?;
    if !first.contains(['/', '.'])
        && let Some(part) = word(1).filter(|w| w.contains('/')).and_then(Number::read)
    {
        return Some((number.plus(part)?, 2));
    }
    if let Some((part, used)) = spoken::and_part(word, 1) {
        return Some((number.plus(part)?, 1 + used));
    }
    Some((number, 1))
}

/// The unit after a number: `inch`, `of an inch`, `a foot` is none.
fn unit_at<'w>(word: &impl Fn(usize) -> Option<&'w str>) -> Option<(Unit, usize)> {
    let skipped = match (word(0), word(1)) {
        (Some("of"), Some("an" | "a")) => 2,
        (Some("an"), Some("inch")) => 1,
        _ => 0,
    };
    let (unit, used) = Unit::said(|i| word(skipped + i))?;
    // "in" and "m" alone are words before they are units: only after figures.
    let is_word = used == 1 && matches!(word(skipped), Some("in" | "m" | "bar" | "day"));
    (!is_word).then_some((unit, skipped + used))
}

/// The smaller part after a larger unit: `two metres oh four`, `five foot two`.
fn lesser<'w>(
    amount: &Amount,
    word: &impl Fn(usize) -> Option<&'w str>,
) -> Option<(Amount, usize)> {
    match amount.unit {
        Unit::Metre => {
            let (run, count) = spoken::digits(word, 0);
            let (part, used) = if matches!(word(0), Some("oh" | "o" | "nought")) && count == 2 {
                (Number::fraction(run, 100)?, 2)
            } else {
                let (number, _, used) = figures(word)
                    .map(|(n, u)| (n, Manner::Full, u))
                    .or_else(|| spoken::read(word))?;
                let cm = number.as_whole().filter(|n| (1..1000).contains(n))?;
                let scale = if cm < 10 {
                    10
                } else if cm < 100 {
                    100
                } else {
                    1000
                };
                (Number::fraction(cm, scale)?, used)
            };
            if Unit::said(|i| word(used + i)).is_some_and(|(unit, _)| unit != Unit::Metre) {
                return None;
            }
            let number = amount.number.plus(part)?;
            Some((Amount { number, ..*amount }, used))
        }
        Unit::Foot => {
            let (number, manner, used) = figures(word)
                .map(|(n, u)| (n, Manner::Full, u))
                .or_else(|| spoken::read(word))?;
            let inches = amount.number.times(12, 1)?.plus(number)?;
            let unit = unit_at(&|i| word(used + i));
            let said = match unit {
                Some((Unit::Inch, more)) => more,
                Some(_) => return None,
                None if number < Number::whole(12) => 0,
                None => return None,
            };
            let whole = Amount {
                number: inches,
                unit: Unit::Inch,
                said: true,
                manner,
            };
            Some((whole, used + said))
        }
        _ => None,
    }
}

/// Three digits one by one are metres and hundredths where lengths are metric: `two oh four`.
fn spoken_metres(amount: &Amount, units: Units) -> Option<Amount> {
    let run = amount.number.as_whole()?;
    let tall = units == Units::Metric && amount.manner == Manner::Digits;
    (tall && (100..1000).contains(&run)).then_some(Amount {
        number: Number::fraction(run, 100)?,
        unit: Unit::Metre,
        said: false,
        manner: Manner::Digits,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tokens::{classify, tokenise};

    /// Every number of a text, printed with its unit.
    fn read(text: &str, units: Units) -> Vec<String> {
        mark(classify(tokenise(text, 0)), units)
            .iter()
            .filter_map(Token::amount)
            .map(|amount| {
                format!("{} {}", amount.number, amount.unit)
                    .trim()
                    .to_owned()
            })
            .collect()
    }

    #[test]
    fn numbers_in_words_are_what_site_talk_means() {
        // How numbers are said on site: common practice.
        for (said, means) in [
            ("seventy one", "71"),
            ("twelve hundred", "1200"),
            ("eleven ninety eight", "1198"),
            ("six fifty", "650"),
            ("one eighty", "180"),
            ("nine hundred and five", "905"),
            ("two thousand four hundred", "2400"),
            ("three point eight", "3.8"),
            ("nine and a half", "9.5"),
            ("five eighths", "5/8"),
            ("thirteen sixteenths", "13/16"),
            ("nine thirty seconds", "9/32"),
            ("thirty and a sixteenth", "30-1/16"),
            ("six and a quarter", "6-1/4"),
            ("half an inch", "0.5 in"),
            ("a quarter inch", "1/4 in"),
            ("eighth of an inch", "1/8 in"),
            ("two metres oh four", "2.04 m"),
            ("two metres thirty five", "2.35 m"),
            ("one nine eight", "1.98 m"),
            ("five foot two", "62 in"),
            ("six foot four and a half inches", "76.5 in"),
            ("four square metres", "4 sq m"),
            ("sixty percent", "60 %"),
            ("one eighty, kilos", "180 kg"),
            ("two hundred and ten cubic metres", "210 m3/h"),
        ] {
            assert_eq!(read(said, Units::Metric), [means], "{said}");
        }
    }

    #[test]
    fn numbers_in_figures_are_read_too() {
        for (said, means) in [
            ("9.5", "9.5"),
            ("1,200mm", "1200 mm"),
            ("30 1/16", "30-1/16"),
            ("6'-2\"", "74 in"),
            ("60%", "60 %"),
        ] {
            assert_eq!(read(said, Units::Imperial), [means], "{said}");
        }
    }

    #[test]
    fn a_list_stays_a_list() {
        assert_eq!(read("ten, ten, eleven", Units::Metric), ["10", "10", "11"]);
        assert_eq!(
            read("fourteen fourteen sixteen", Units::Metric),
            ["14", "14", "16"]
        );
        assert_eq!(
            read("forty two and a quarter and forty two", Units::Imperial),
            ["42-1/4", "42"]
        );
    }

    #[test]
    fn words_that_only_look_like_numbers_are_none() {
        for said in [
            "the other one",
            "the fourth wall",
            "half the wall",
            "no one",
            "second coat",
        ] {
            assert_eq!(read(said, Units::Metric), [] as [&str; 0], "{said}");
        }
    }

    #[test]
    fn lengths_are_exact() {
        // 1 in = 25.4 mm exactly (international yard and pound agreement, 1959): published.
        let amount = |number, unit| Amount {
            number,
            unit,
            said: true,
            manner: Manner::Full,
        };
        let eighths = Number::fraction(5, 8).expect("a fraction");
        assert_eq!(
            amount(eighths, Unit::Inch).length(),
            Some(Length::from_64ths(40))
        );
        assert_eq!(
            amount(Number::whole(1), Unit::Foot).length(),
            Some(Length::from_inches(12))
        );
        let third = Number::fraction(1, 3).expect("a fraction");
        assert_eq!(amount(third, Unit::Millimetre).length(), None);
    }
}
