//! Whatever comes in, the reader ends soon and does not fall over.

#![allow(clippy::expect_used, reason = "a test stops at the first surprise")]

use grounds_measure::Units;
use grounds_walk::{Person, Place, Vocabulary, read, transcript};
use jiff::civil::date;
use proptest::prelude::*;

fn vocabulary() -> Vocabulary {
    Vocabulary {
        day: date(2027, 6, 8),
        units: Units::Metric,
        places: vec![
            Place {
                id: "stair-hall".into(),
                name: "Stair hall".into(),
                also: vec!["the tower".into()],
            },
            Place {
                id: "kitchen".into(),
                name: "Kitchen".into(),
                also: vec![],
            },
        ],
        people: vec![Person {
            id: "tiler".into(),
            name: "Tiler".into(),
            also: vec!["Ana".into()],
        }],
        things: vec![],
    }
}

/// Words that the grammar turns on, and some that it does not know.
const WORDS: [&str; 72] = [
    "the", "a", "no", "not", "is", "isn't", "'s", "are", "has", "been", "till", "because", "so",
    "or", "and", "but", "if", "with", "of", "to", "in", "on", "at", "off", "kitchen", "tower",
    "Ana", "he", "I", "it", "they", "says", "maybe", "about", "five", "eighths", "two", "metres",
    "oh", "four", "hundred", "half", "inch", "percent", "friday", "week", "next", "tomorrow",
    "tile", "grout", "door", "sink", "wants", "needs", "will", "can't", "waiting", "for", "wrong",
    "cracked", "done", "fitted", "here", "came", "tell", "plane", "which", "colour", ".", ",", "?",
    "-",
];

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn any_bytes_are_read_or_refused(file in "\\PC{0,400}") {
        if let Ok(talk) = transcript::read(&file) {
            let _ = read(&talk, &vocabulary());
        }
    }

    #[test]
    fn any_bytes_at_all_are_read_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..600)) {
        let text = String::from_utf8_lossy(&bytes);
        for file in [text.to_string(), format!("WEBVTT\n\n{text}"), format!("1\n00:00:01,000 --> 00:00:02,000\n{text}")] {
            if let Ok(talk) = transcript::read(&file) {
                let _ = read(&talk, &vocabulary());
            }
        }
    }

    #[test]
    fn what_is_said_in_cues_survives_any_way_of_writing_them(
        said in prop::collection::vec(("[a-z]{1,9}( [a-z&<>']{1,9}){0,6}\\.", any::<bool>(), any::<bool>(), 0..4_u8), 1..12),
        end in prop::sample::select(vec!["\n", "\r\n", "\r"]),
        mark in any::<bool>(),
    ) {
        let mut lines = vec![format!("{}WEBVTT", if mark { "\u{feff}" } else { "" }), String::new()];
        for (at, (text, hours, identifier, extra)) in said.iter().enumerate() {
            match extra {
                1 => lines.extend(["NOTE of no use".to_owned(), String::new()]),
                2 => lines.extend(["NOTE".to_owned(), "two lines".to_owned(), "of it".to_owned(), String::new()]),
                3 => lines.push(String::new()),
                _ => {}
            }
            if *identifier {
                lines.push(format!("cue {at}"));
            }
            let hour = if *hours { "00:" } else { "" };
            let settings = if *identifier { " line:0 align:start" } else { "" };
            lines.push(format!("{hour}00:{at:02}.000 --> {hour}00:{at:02}.900{settings}"));
            lines.push(text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;"));
            lines.push(String::new());
        }
        let talk = transcript::read(&lines.join(end)).expect("it has talk");
        let read: Vec<(Option<u64>, String)> =
            talk.cues.iter().map(|cue| (cue.at_ms, cue.text.clone())).collect();
        let meant: Vec<(Option<u64>, String)> = said
            .iter()
            .enumerate()
            .map(|(at, (text, ..))| (Some(at as u64 * 1000), text.clone()))
            .collect();
        prop_assert_eq!(read, meant);
    }

    #[test]
    fn any_mix_of_the_trades_words_is_read(picks in prop::collection::vec(0..WORDS.len(), 1..60)) {
        let words: Vec<&str> = picks.iter().filter_map(|i| WORDS.get(*i)).copied().collect();
        let talk = transcript::read(&format!("[0:01] Kitchen.\n[0:02] {}", words.join(" ")));
        let walk = read(&talk.expect("it has talk"), &vocabulary());
        for proposal in walk.proposals {
            prop_assert!(!proposal.thing.is_empty());
            prop_assert!(proposal.confidence <= 100);
        }
    }

    #[test]
    fn the_same_talk_gives_the_same_proposals(picks in prop::collection::vec(0..WORDS.len(), 1..40)) {
        let words: Vec<&str> = picks.iter().filter_map(|i| WORDS.get(*i)).copied().collect();
        let talk = transcript::read(&format!("[0:01] Kitchen. {}", words.join(" ")));
        let talk = talk.expect("it has talk");
        prop_assert_eq!(read(&talk, &vocabulary()), read(&talk, &vocabulary()));
    }

    #[test]
    fn a_cue_file_with_anything_in_it_is_read(middle in "[\\PC\n]{0,300}") {
        let file = format!("WEBVTT\n\n{middle}\n\n00:01.000 --> 00:02.000\nHall.\n");
        let talk = transcript::read(&file).expect("the last cue stands");
        prop_assert!(talk.cues.iter().any(|cue| cue.text.ends_with("Hall.")));
    }
}
