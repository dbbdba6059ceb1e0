//! Numbers in words: `twelve hundred`, `eleven ninety eight`, `five eighths`, `seven and a quarter`.

use super::number::Number;

/// How a number was put together, where that matters to what it means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Manner {
    /// In full, or in figures.
    Full,
    /// Two parts side by side: `six fifty`.
    Joined,
    /// Digit by digit: `two oh four`.
    Digits,
    /// A fraction alone: `five eighths`.
    Fraction,
}

const SMALL: [(&str, i64); 24] = [
    ("oh", 0),
    ("o", 0),
    ("zero", 0),
    ("nought", 0),
    ("naught", 0),
    ("one", 1),
    ("two", 2),
    ("three", 3),
    ("four", 4),
    ("five", 5),
    ("six", 6),
    ("seven", 7),
    ("eight", 8),
    ("nine", 9),
    ("ten", 10),
    ("eleven", 11),
    ("twelve", 12),
    ("thirteen", 13),
    ("fourteen", 14),
    ("fifteen", 15),
    ("sixteen", 16),
    ("seventeen", 17),
    ("eighteen", 18),
    ("nineteen", 19),
];

const TENS: [(&str, i64); 9] = [
    ("twenty", 20),
    ("thirty", 30),
    ("forty", 40),
    ("fourty", 40),
    ("fifty", 50),
    ("sixty", 60),
    ("seventy", 70),
    ("eighty", 80),
    ("ninety", 90),
];

/// Parts of a whole: the word, its number, and whether the word alone stands for a part after `a`.
const PARTS: [(&str, i64); 18] = [
    ("half", 2),
    ("halves", 2),
    ("third", 3),
    ("thirds", 3),
    ("quarter", 4),
    ("quarters", 4),
    ("fifth", 5),
    ("fifths", 5),
    ("sixth", 6),
    ("sixths", 6),
    ("eighth", 8),
    ("eighths", 8),
    ("tenth", 10),
    ("tenths", 10),
    ("twelfths", 12),
    ("sixteenth", 16),
    ("sixteenths", 16),
    ("sixteens", 16),
];

fn of(list: &[(&str, i64)], word: Option<&str>) -> Option<i64> {
    let word = word?;
    list.iter().find(|(w, _)| *w == word).map(|(_, n)| *n)
}

/// Reads a number that the words begin with; the number, its manner, how many words it took.
pub(crate) fn read<'w>(
    word: &impl Fn(usize) -> Option<&'w str>,
) -> Option<(Number, Manner, usize)> {
    if let Some(found) = part_alone(word) {
        return Some(found);
    }
    let (whole, manner, used) = whole(word)?;
    if let Some((bottom, more)) = parts(word, used, whole) {
        let number = Number::fraction(whole, bottom)?;
        return Some((number, Manner::Fraction, used + more));
    }
    let number = Number::whole(whole);
    if word(used) == Some("point") {
        let (digits, more) = digits(word, used + 1);
        if more > 0 {
            let scale = 10_i64.checked_pow(u32::try_from(more).ok()?)?;
            let number = number.plus(Number::fraction(digits, scale)?)?;
            return Some((number, Manner::Full, used + 1 + more));
        }
    }
    match and_part(word, used) {
        Some((part, more)) => Some((number.plus(part)?, Manner::Full, used + more)),
        None => Some((number, manner, used)),
    }
}

/// `and a half`, `and five eighths`, `and an eighth`, after a whole number.
pub(crate) fn and_part<'w>(
    word: &impl Fn(usize) -> Option<&'w str>,
    at: usize,
) -> Option<(Number, usize)> {
    if word(at) != Some("and") {
        return None;
    }
    let after = |i: usize| word(at + 1 + i);
    if let Some((part, _, used)) = part_alone(&after) {
        return Some((part, used + 1));
    }
    let (top, used) = below_hundred(&after, 0)?;
    let (bottom, more) = parts(&after, used, top)?;
    Some((Number::fraction(top, bottom)?, 1 + used + more))
}

/// `half`, `a quarter`, `an eighth`, `a thirty second`.
fn part_alone<'w>(word: &impl Fn(usize) -> Option<&'w str>) -> Option<(Number, Manner, usize)> {
    let article = matches!(word(0), Some("a" | "an"));
    let at = usize::from(article);
    if word(at) == Some("half") {
        // "half done" and "half the wall" are shares, not numbers.
        return Some((Number::fraction(1, 2)?, Manner::Fraction, at + 1));
    }
    if !article && !matches!(word(at), Some("quarter" | "eighth" | "sixteenth")) {
        return None;
    }
    let (bottom, used) = parts(word, at, 1)?;
    if bottom == 3 && word(at + used) != Some("of") {
        return None;
    }
    Some((Number::fraction(1, bottom)?, Manner::Fraction, at + used))
}

/// The part that a count is of: `eighths`, `thirty seconds`.
fn parts<'w>(
    word: &impl Fn(usize) -> Option<&'w str>,
    at: usize,
    count: i64,
) -> Option<(i64, usize)> {
    let second = |i: usize| matches!(word(i), Some("second" | "seconds"));
    let fourth = |i: usize| matches!(word(i), Some("fourth" | "fourths"));
    match word(at)? {
        "thirty" if second(at + 1) => return Some((32, 2)),
        "sixty" if fourth(at + 1) => return Some((64, 2)),
        _ => {}
    }
    // "three eight" for three eighths: an odd count before eight that no other number follows.
    let eighths = word(at) == Some("eight")
        && matches!(count, 3 | 5 | 7)
        && of(&SMALL, word(at + 1)).is_none();
    if eighths {
        return Some((8, 1));
    }
    let bottom = of(&PARTS, word(at))?;
    let plural = word(at).is_some_and(|w| w.ends_with('s') || w == "halves");
    // "twenty fifth" is a day; "five eighth" is a recogniser's "five eighths".
    let fits = plural
        || count == 1
        || (count < bottom && matches!(bottom, 4 | 8 | 16))
        || count == 2 && bottom == 3;
    fits.then_some((bottom, 1))
}

/// A whole number in words.
fn whole<'w>(word: &impl Fn(usize) -> Option<&'w str>) -> Option<(i64, Manner, usize)> {
    if word(0) == Some("a") && matches!(word(1), Some("hundred" | "thousand")) {
        return scaled(word, 1, 1);
    }
    let (run, length) = digits(word, 0);
    if length >= 3 && run >= 100 {
        return Some((run, Manner::Digits, length));
    }
    let (first, used) = below_hundred(word, 0)?;
    if matches!(word(used), Some("hundred" | "thousand")) {
        return scaled(word, used, first);
    }
    // "one oh five", "nineteen oh eight"
    if matches!(word(used), Some("oh" | "o"))
        && let Some(last) = of(&SMALL, word(used + 1)).filter(|n| (1..10).contains(n))
        && (1..100).contains(&first)
    {
        let manner = if first < 10 {
            Manner::Digits
        } else {
            Manner::Joined
        };
        return Some((first * 100 + last, manner, used + 2));
    }
    // "six fifty", "eleven ninety eight"; but "fourteen fourteen sixteen" is a list.
    if let Some((second, more)) = below_hundred(word, used).filter(|(n, _)| *n >= 10)
        && (1..=20).contains(&first)
        && parts(word, used, first).is_none()
        && second != first
        && below_hundred(word, used + more).is_none()
    {
        return Some((first * 100 + second, Manner::Joined, used + more));
    }
    Some((first, Manner::Full, used))
}

/// `hundred` or `thousand` after a count, and what follows.
fn scaled<'w>(
    word: &impl Fn(usize) -> Option<&'w str>,
    at: usize,
    count: i64,
) -> Option<(i64, Manner, usize)> {
    let thousand = word(at) == Some("thousand");
    let mut sum = count * if thousand { 1000 } else { 100 };
    let mut used = at + 1;
    if !thousand && word(used) == Some("thousand") {
        sum *= 1000;
        used += 1;
    }
    let and = usize::from(word(used) == Some("and"));
    if let Some((rest, more)) = below_hundred(word, used + and)
        && parts(word, used + and + more, rest).is_none()
    {
        if thousand && word(used + and + more) == Some("hundred") {
            sum += rest * 100;
            used += and + more + 1;
        } else if rest > 0 {
            sum += rest;
            used += and + more;
        }
    }
    Some((sum, Manner::Full, used))
}

/// A number below a hundred: `seven`, `fourteen`, `thirty six`.
fn below_hundred<'w>(word: &impl Fn(usize) -> Option<&'w str>, at: usize) -> Option<(i64, usize)> {
    if let Some(tens) = of(&TENS, word(at)) {
        return match of(&SMALL, word(at + 1)).filter(|n| (1..10).contains(n)) {
            Some(ones) if parts(word, at + 2, ones).is_none() || ones == 1 => {
                Some((tens + ones, 2))
            }
            _ => Some((tens, 1)),
        };
    }
    let small = of(&SMALL, word(at))?;
    // "oh" and "o" are numbers only inside one.
    (!matches!(word(at), Some("oh" | "o"))).then_some((small, 1))
}

/// A run of single digits: `one nine eight`, `oh four`.
pub(crate) fn digits<'w>(word: &impl Fn(usize) -> Option<&'w str>, at: usize) -> (i64, usize) {
    let mut run = 0;
    let mut used = 0;
    while used < 6
        && let Some(digit) = of(&SMALL, word(at + used)).filter(|n| *n < 10)
    {
        run = run * 10 + digit;
        used += 1;
    }
    (run, used)
}
