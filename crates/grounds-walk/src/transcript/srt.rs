//! SubRip: a number, a line with two times and an arrow, the text, a blank line.

use super::{
    Cue, Sink,
    clock::{self, Fraction},
    markup,
};

/// Whether a line is nothing but two times with an arrow between them.
pub(super) fn is_timing(line: &str) -> bool {
    matches!(timing(line), Some((_, _, rest)) if rest.is_empty() || rest.starts_with("X1:"))
}

/// The two times of a line with an arrow, and what follows them.
pub(super) fn timing(line: &str) -> Option<(u64, u64, &str)> {
    let (from, rest) = clock::read(line.trim_start(), Fraction::Loose)?;
    let rest = rest.trim_start().strip_prefix("-->")?;
    let (until, rest) = clock::read(rest.trim_start(), Fraction::Loose)?;
    Some((from, until, rest.trim()))
}

pub(super) fn read(lines: &[&str], sink: &mut Sink) {
    let mut at = 0;
    while let Some(line) = lines.get(at) {
        at += 1;
        let Some((from, until, _)) = timing(line) else {
            continue;
        };
        let begun = at;
        let mut text = String::new();
        while let Some(line) = lines.get(at) {
            let next_is_timing = lines.get(at + 1).is_some_and(|next| is_timing(next));
            let is_number = !line.is_empty() && line.trim().chars().all(|c| c.is_ascii_digit());
            if line.trim().is_empty() || is_timing(line) || (is_number && next_is_timing) {
                break;
            }
            text.push_str(line);
            text.push(' ');
            at += 1;
        }
        if until < from {
            sink.remark(begun, "a cue ends before it begins; swap its two times");
        }
        let plain = markup::plain(&markup::without_braces(&text));
        let cue = Cue {
            at_ms: Some(from),
            until_ms: Some(until),
            speaker: plain.voice,
            text: plain.text,
        };
        if !sink.add(begun, cue) {
            return;
        }
    }
}
