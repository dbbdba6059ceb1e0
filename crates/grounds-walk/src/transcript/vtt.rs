//! WebVTT, after the parsing rules of the W3C (WebVTT: The Web Video Text Tracks Format, section
//! 6, "WebVTT file parsing").

use super::{
    Cue, Sink,
    clock::{self, Fraction},
    markup,
};

/// Whether a first line is the signature: `WEBVTT`, alone or followed by a space or a tab.
pub(super) fn is_signature(line: &str) -> bool {
    line.strip_prefix("WEBVTT")
        .is_some_and(|rest| rest.is_empty() || rest.starts_with([' ', '\t']))
}

/// Times and settings of a cue: `00:11.000 --> 00:13.000 line:0`. The settings are not ours to use.
fn timing(line: &str) -> Option<(u64, u64)> {
    let (from, rest) = clock::read(line.trim_start(), Fraction::Vtt)?;
    let rest = rest.trim_start().strip_prefix("-->")?;
    let (until, _settings) = clock::read(rest.trim_start(), Fraction::Vtt)?;
    Some((from, until))
}

pub(super) fn read(lines: &[&str], sink: &mut Sink) {
    let mut at = 1;
    // The header runs to the first blank line or to the first arrow.
    while lines
        .get(at)
        .is_some_and(|line| !line.is_empty() && !line.contains("-->"))
    {
        at += 1;
    }
    while at < lines.len() {
        match block(lines, at, sink) {
            Some(next) => at = next,
            None => return,
        }
    }
}

/// Reads one block (a cue, a note, a style or a region) and gives the line after it; nothing when
/// no more cues fit.
fn block(lines: &[&str], mut at: usize, sink: &mut Sink) -> Option<usize> {
    while lines.get(at).is_some_and(|line| line.is_empty()) {
        at += 1;
    }
    let has_arrow = |at: usize| lines.get(at).is_some_and(|line| line.contains("-->"));
    // An identifier may stand on one line before the times.
    let timing_at = if has_arrow(at) {
        at
    } else if has_arrow(at + 1) {
        at + 1
    } else {
        return Some(end_of_text(lines, at));
    };
    let Some(line) = lines.get(timing_at) else {
        return Some(timing_at);
    };
    let end = end_of_text(lines, timing_at + 1);
    let Some((from, until)) = timing(line) else {
        let what = "the times of a cue cannot be read and its text was left out; \
                    they look like: 00:11.000 --> 00:13.000";
        sink.remark(timing_at + 1, what);
        return Some(end);
    };
    let text = lines.get(timing_at + 1..end).unwrap_or_default().join("\n");
    // Several people may speak in one cue, each in a voice tag of their own.
    for plain in markup::voices(&text.replace('\0', "\u{fffd}")) {
        let cue = Cue {
            at_ms: Some(from),
            until_ms: Some(until),
            speaker: plain.voice,
            text: plain.text,
        };
        if !sink.add(timing_at + 1, cue) {
            return None;
        }
    }
    Some(end)
}

/// The line where a block's text ends: a blank line, or one with an arrow.
fn end_of_text(lines: &[&str], mut at: usize) -> usize {
    while lines
        .get(at)
        .is_some_and(|line| !line.is_empty() && !line.contains("-->"))
    {
        at += 1;
    }
    at
}
