//! Printing whole numbers of small units as decimals, exactly or rounded.

use std::fmt;

/// A value of `small` units printed as a decimal number of units of `each`, if that takes at most
/// `most` decimals.
pub(crate) fn exact_decimal(small: i64, each: i64, most: u32) -> Option<String> {
    (0..=most).find_map(|decimals| {
        let scaled = i128::from(small) * 10_i128.pow(decimals);
        (scaled % i128::from(each) == 0).then(|| decimal(scaled / i128::from(each), decimals))
    })
}

/// The same, rounded to at most `decimals` places, halves away from zero, without trailing zeros.
pub(crate) fn rounded_decimal(small: i64, each: i64, decimals: u32) -> String {
    let scaled = i128::from(small) * 10_i128.pow(decimals);
    let each = i128::from(each);
    let half = if scaled < 0 { -(each / 2) } else { each / 2 };
    let text = decimal((scaled + half) / each, decimals);
    match text.contains('.') {
        true => text.trim_end_matches('0').trim_end_matches('.').to_owned(),
        false => text,
    }
}

/// A whole number of tenths, hundredths … as digits with a point.
fn decimal(value: i128, decimals: u32) -> String {
    let power = 10_i128.pow(decimals);
    let sign = if value < 0 { "-" } else { "" };
    let value = value.abs();
    match decimals {
        0 => format!("{sign}{value}"),
        _ => format!(
            "{sign}{}.{:0width$}",
            value / power,
            value % power,
            width = decimals as usize
        ),
    }
}

/// A unit to try when printing: its name, its size in small units, and how many decimals it is
/// worth.
pub(crate) type Choice = (&'static str, i64, u32);

/// `small` in the first choice that is exact within its decimals.
pub(crate) fn exact_in(small: i64, choices: &[Choice]) -> Option<String> {
    choices.iter().find_map(|(name, each, most)| {
        exact_decimal(small, *each, *most).map(|number| format!("{number} {name}"))
    })
}

/// Prints `small` in the first choice that is exact; the last choice must always be.
pub(crate) fn print_exact(
    f: &mut fmt::Formatter<'_>,
    small: i64,
    choices: &[Choice],
) -> fmt::Result {
    f.pad(&exact_in(small, choices).unwrap_or_default())
}

/// Joins printed values; when all end in the same unit word it is printed once, at the end.
pub(crate) fn join_sharing_unit(values: &[String], separator: &str) -> String {
    let unit = values.first().and_then(|first| unit_word(first));
    let shared = unit.filter(|unit| values.iter().all(|value| unit_word(value) == Some(unit)));
    let Some(unit) = shared else {
        return values.join(separator);
    };
    let numbers: Vec<&str> = values
        .iter()
        .filter_map(|value| value.split_once(' ').map(|(number, _)| number))
        .collect();
    format!("{} {unit}", numbers.join(separator))
}

/// The unit after the only blank of a printed value, if it is a word and not the inches after feet.
fn unit_word(value: &str) -> Option<&str> {
    let (_, unit) = value.split_once(' ')?;
    unit.starts_with(|c: char| c.is_alphabetic() || c == '%')
        .then_some(unit)
        .filter(|unit| !unit.contains(' '))
}

/// A printed value without its number if that is one: `L` for `1 L`, as it stands after a slash.
pub(crate) fn without_one(value: &str) -> &str {
    value
        .strip_prefix("1 ")
        .filter(|unit| unit.starts_with(char::is_alphabetic))
        .unwrap_or(value)
}
