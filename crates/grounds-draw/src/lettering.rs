//! How wide a line of lettering comes out, and how to shorten it to a width.
//!
//! The drawing is made where no font is at hand, so widths are estimated from the advance widths of Barlow Semi
//! Condensed, in classes, a little to the wide side. Source: the font's own `hmtx` table, medium weight, rounded up.

/// Size of all lettering, in pixels.
pub(crate) const SIZE: f64 = 15.0;

/// Width of a line in pixels.
pub(crate) fn width(words: &str) -> f64 {
    words.chars().map(advance).sum::<f64>() * SIZE
}

/// The words if they fit in `room` pixels, else as much of them as fits with an ellipsis, else nothing.
pub(crate) fn fitted(words: &str, room: f64) -> Option<String> {
    if words.is_empty() || !room.is_finite() {
        return None;
    }
    if width(words) <= room {
        return Some(words.to_owned());
    }
    let mut left = room - width("…");
    let kept: String = words
        .chars()
        .take_while(|c| {
            left -= SIZE * advance(*c);
            left >= 0.0
        })
        .collect();
    let kept = kept.trim_end();
    (kept.chars().count() >= 3).then(|| format!("{kept}…"))
}

/// As many of the first words as fit in `room` pixels, without an ellipsis: what is seen on a link must be part of what
/// is heard (WCAG 2.2, criterion 2.5.3), and "Second paint" is, "Second pa…" is not.
pub(crate) fn whole_words(words: &str, room: f64) -> Option<&str> {
    let ends = words
        .char_indices()
        .filter(|(_, c)| c.is_whitespace())
        .map(|(at, _)| at)
        .chain([words.len()]);
    ends.filter_map(|end| words.get(..end))
        .take_while(|part| width(part) <= room)
        .filter(|part| !part.trim().is_empty())
        .last()
}

/// Advance of one character in ems.
fn advance(c: char) -> f64 {
    match c {
        'i' | 'j' | 'l' | '.' | ',' | ':' | ';' | '\'' | '|' | '·' | '’' | ' ' => 0.26,
        'f' | 't' | 'r' | 'I' | '(' | ')' | '-' | '"' | '!' => 0.36,
        'm' | 'w' | 'M' | 'W' | '…' | '%' | '@' | '—' => 0.8,
        'A'..='Z' => 0.59,
        c if c.is_ascii() => 0.52,
        c if u32::from(c) < 0x2100 => 0.6,
        _ => 1.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_short_name_stays_whole() {
        assert_eq!(fitted("Kitchen", 200.0).as_deref(), Some("Kitchen"));
    }

    #[test]
    fn a_long_name_is_cut_to_the_room_there_is() {
        let cut = fitted("Second finish coat, wheel room walls", 90.0).unwrap();
        assert!(cut.ends_with('…') && cut.starts_with("Second"));
        assert!(width(&cut) <= 90.0);
    }

    #[test]
    fn a_bar_keeps_whole_words_or_none() {
        assert_eq!(whole_words("Second paint coat", 90.0), Some("Second paint"));
        assert_eq!(
            whole_words("Second paint coat", 400.0),
            Some("Second paint coat")
        );
        assert_eq!(whole_words("Membrane", 30.0), None);
        assert_eq!(whole_words("", 30.0), None);
    }

    #[test]
    fn two_letters_and_dots_are_no_name() {
        assert_eq!(fitted("Kitchen", 24.0), None);
    }
}
