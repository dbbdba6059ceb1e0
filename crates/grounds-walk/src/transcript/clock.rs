//! Times of day of a walk: `1:05`, `00:01:05.500`, `0:01:05,500`.

/// Where the fraction of a second begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Fraction {
    /// Three digits after a point must stand there: WebVTT.
    Vtt,
    /// After a comma or a point, or absent: all others.
    Loose,
}

/// Reads a time at the start of the text; its milliseconds and what follows it.
///
/// Minutes and seconds have two digits each (one for leading minutes in the loose form) and are
/// less than 60 where a larger unit stands before them.
pub(super) fn read(text: &str, fraction: Fraction) -> Option<(u64, &str)> {
    let (first, digits, rest) = number(text)?;
    let rest = rest.strip_prefix(':')?;
    let (second, two, rest) = number(rest)?;
    if two != 2 || second > 59 {
        return None;
    }
    let (hours, minutes, seconds, rest) = match rest.strip_prefix(':').and_then(number) {
        Some((third, 2, after)) if third <= 59 => (first, second, third, after),
        Some(_) => return None,
        None => (0, first, second, rest),
    };
    if fraction == Fraction::Vtt && hours == 0 && rest_had_no_hours(text) && digits != 2 {
        return None;
    }
    if fraction == Fraction::Vtt && minutes > 59 {
        return None;
    }
    let whole = hours
        .checked_mul(3600)?
        .checked_add(minutes.checked_mul(60)?)?
        .checked_add(seconds)?;
    let whole = whole.checked_mul(1000)?;
    match (fraction, rest.strip_prefix(['.', ',']).and_then(number)) {
        (Fraction::Vtt, Some((ms, 3, after))) if rest.starts_with('.') => Some((whole + ms, after)),
        (Fraction::Vtt, _) => None,
        (Fraction::Loose, Some((part, places, after))) if places <= 3 => {
            let ms = part * [1, 100, 10, 1].get(places).copied().unwrap_or(1);
            Some((whole + ms, after))
        }
        (Fraction::Loose, _) => Some((whole, rest)),
    }
}

/// Whether the time has minutes and seconds only.
fn rest_had_no_hours(text: &str) -> bool {
    let end = text
        .find(|c: char| !c.is_ascii_digit() && c != ':')
        .unwrap_or(text.len());
    text.get(..end)
        .is_some_and(|time| time.matches(':').count() == 1)
}

/// A run of digits at the start: its number, how many digits, what follows.
fn number(text: &str) -> Option<(u64, usize, &str)> {
    let end = text
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(text.len());
    if end == 0 || end > 9 {
        return None;
    }
    let (digits, rest) = text.split_at_checked(end)?;
    Some((digits.parse().ok()?, end, rest))
}
