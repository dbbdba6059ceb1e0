//! Whatever happens to a good job on its way, reading it never panics.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at the first surprise"
)]

use grounds_model::{examine, starter};
use proptest::prelude::*;

/// One thing that may go wrong with a file.
#[derive(Clone, Debug)]
enum Mishap {
    FlipByte(usize, u8),
    CutOff(usize),
    LoseLine(usize),
    DoubleLine(usize),
    SwapLines(usize, usize),
    SwapValues(usize, usize),
    SwapWords(usize, usize),
    Insert(usize, String),
}

fn mishap() -> impl Strategy<Value = Mishap> {
    let at = any::<usize>();
    prop_oneof![
        (at, any::<u8>()).prop_map(|(at, byte)| Mishap::FlipByte(at, byte)),
        at.prop_map(Mishap::CutOff),
        at.prop_map(Mishap::LoseLine),
        at.prop_map(Mishap::DoubleLine),
        (at, at).prop_map(|(a, b)| Mishap::SwapLines(a, b)),
        (at, at).prop_map(|(a, b)| Mishap::SwapValues(a, b)),
        (at, at).prop_map(|(a, b)| Mishap::SwapWords(a, b)),
        (at, "\\PC{0,12}").prop_map(|(at, text)| Mishap::Insert(at, text)),
    ]
}

fn mangled(text: &str, mishap: &Mishap) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    let count = lines.len().max(1);
    match mishap {
        Mishap::FlipByte(at, byte) => {
            let mut bytes = text.as_bytes().to_vec();
            let at = at % bytes.len().max(1);
            if let Some(slot) = bytes.get_mut(at) {
                *slot = *byte;
            }
            return String::from_utf8_lossy(&bytes).into_owned();
        }
        Mishap::CutOff(at) => {
            let end = text
                .char_indices()
                .map(|(at, _)| at)
                .nth(at % text.len().max(1));
            return text[..end.unwrap_or(text.len())].to_owned();
        }
        Mishap::Insert(at, more) => {
            let at = text
                .char_indices()
                .map(|(at, _)| at)
                .nth(at % text.len().max(1));
            let (before, after) = text.split_at(at.unwrap_or(text.len()));
            return format!("{before}{more}{after}");
        }
        Mishap::LoseLine(at) if !lines.is_empty() => {
            lines.remove(at % count);
        }
        Mishap::DoubleLine(at) if !lines.is_empty() => {
            let line = lines[at % count].clone();
            lines.insert(at % count, line);
        }
        Mishap::SwapLines(a, b) if !lines.is_empty() => lines.swap(a % count, b % count),
        Mishap::SwapValues(a, b) if !lines.is_empty() => {
            let (a, b) = (a % count, b % count);
            let halves = |line: &str| {
                line.split_once(" = ")
                    .map(|(key, value)| (key.to_owned(), value.to_owned()))
            };
            if let (Some((key_a, value_a)), Some((key_b, value_b))) =
                (halves(&lines[a]), halves(&lines[b]))
            {
                lines[a] = format!("{key_a} = {value_b}");
                lines[b] = format!("{key_b} = {value_a}");
            }
        }
        Mishap::SwapWords(a, b) => {
            let mut words: Vec<&str> = text.split('"').collect();
            let count = words.len();
            words.swap(a % count, b % count);
            return words.join("\"");
        }
        _ => {}
    }
    lines.join("\n")
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, ..ProptestConfig::default() })]

    #[test]
    fn a_mangled_job_is_read_or_refused_but_never_breaks_the_reader(
        mishaps in prop::collection::vec(mishap(), 1..6),
    ) {
        let mut text = starter().job.to_owned();
        for mishap in &mishaps {
            text = mangled(&text, mishap);
        }
        let (job, faults) = examine("job.toml", &text);
        prop_assert_eq!(job.is_none(), faults.has_errors());
        for fault in &faults.list {
            prop_assert!(text.get(fault.span.clone()).is_some(), "span off the text: {}", fault);
            prop_assert!(fault.line >= 1 && fault.column >= 1);
            prop_assert!(!fault.what.is_empty());
        }
        if let Some(job) = job {
            let written = job.to_toml().unwrap();
            prop_assert_eq!(examine("job.toml", &written).0, Some(job));
        }
    }
}
