//! Lines that begin with a time, and lines without any.

use super::{
    Cue, Sink,
    clock::{self, Fraction},
    markup, srt,
};

/// The time or times at the head of a line, and the words after them.
pub(super) fn stamp(line: &str) -> Option<(u64, Option<u64>, &str)> {
    let line = line.trim_start();
    if let Some((from, until, words)) = srt::timing(line) {
        return Some((from, Some(until), words));
    }
    for (open, close) in [('[', ']'), ('(', ')')] {
        if let Some(inner) = line.strip_prefix(open) {
            let (from, rest) = clock::read(inner.trim_start(), Fraction::Loose)?;
            let words = rest.trim_start().strip_prefix(close)?;
            return Some((
                from,
                None,
                words.trim_start_matches([':', '-', '–', ' ', '\t']),
            ));
        }
    }
    let (from, rest) = clock::read(line, Fraction::Loose)?;
    let parted = rest.is_empty() || rest.starts_with([' ', '\t', ':', '-', '–']);
    parted.then(|| {
        let words = rest.trim_start_matches([':', '-', '–', ' ', '\t']);
        (from, None, words)
    })
}

pub(super) fn read(lines: &[&str], sink: &mut Sink) {
    let mut open: Option<(usize, Cue)> = None;
    let timed = lines.iter().take(2_000).any(|line| stamp(line).is_some());
    for (i, line) in lines.iter().enumerate() {
        let line_number = i + 1;
        if let Some((from, until, words)) = stamp(line) {
            if let Some((began, cue)) = open.take()
                && !sink.add(began, cue)
            {
                return;
            }
            open = Some((line_number, cue_of(Some(from), until, words)));
        } else if line.trim().is_empty() {
            continue;
        } else if timed {
            match &mut open {
                Some((_, cue)) => join(cue, line),
                None => open = Some((line_number, cue_of(None, None, line))),
            }
        } else if !sink.add(line_number, cue_of(None, None, line)) {
            return;
        }
    }
    if let Some((began, cue)) = open {
        sink.add(began, cue);
    }
}

fn cue_of(at_ms: Option<u64>, until_ms: Option<u64>, words: &str) -> Cue {
    let plain = markup::plain(words);
    Cue {
        at_ms,
        until_ms,
        speaker: plain.voice,
        text: plain.text,
    }
}

/// Adds a line without a time to the cue before it; no more than will be kept.
fn join(cue: &mut Cue, line: &str) {
    if cue.text.len() <= 4 * super::LONGEST_CUE {
        cue.text.push(' ');
        cue.text.push_str(&markup::plain(line).text);
    }
}
