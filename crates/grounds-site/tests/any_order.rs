//! Whatever the order in which notes arrive, and however often, the site is the same.

mod house;

use grounds_measure::Percent;
use grounds_model::Moment;
use grounds_site::{Kind, Look, Note, Value, fold};
use house::{job, june};
use proptest::{prelude::*, sample::Index};
use uuid::Uuid;

/// What notes may be about, some of it unknown to the job.
const ABOUT: [&str; 15] = [
    "stair-hall.walls/board",
    "stair-hall.walls/base",
    "stair-hall.walls/finish",
    "stair-hall.walls",
    "shower-room.floor",
    "shower-room.floor/membrane",
    "shower-room.floor/tile",
    "shower-room",
    "stair-glass",
    "mixer",
    "flood-test",
    "glass-tint",
    "tiler",
    "job",
    "boat-house",
];

fn value() -> impl Strategy<Value = Option<Value>> {
    let date = (1..28_i8).prop_map(|day| Moment {
        date: jiff::civil::date(2027, 6, day),
        time: None,
    });
    prop_oneof![
        Just(None),
        (0..12_000_u32).prop_map(|share| Percent::from_hundredths(share).map(Value::Share)),
        date.prop_map(|moment| Some(Value::When(moment))),
        (-10..40_i32)
            .prop_map(|degrees| format!("{degrees} C").parse().ok().map(Value::Temperature)),
        prop::sample::select(&Look::ALL[..]).prop_map(|look| Some(look.value())),
        (0..100_u32).prop_map(|percent| format!("{percent} %").parse().ok().map(Value::Humidity)),
    ]
}

/// Odd ids tell that the note was written on 5 June, even ones do not tell.
fn id(number: u128) -> Uuid {
    let written = u128::try_from(june(5).as_millisecond()).unwrap_or_default();
    let version = if number % 2 == 1 { 0x7000 } else { 0x4000 };
    Uuid::from_u128((written << 80) | (version << 64) | (0x8000 << 48) | number)
}

/// A note with one of twenty numbers, so that clashes, rivals and rings come up often.
fn note() -> impl Strategy<Value = Note> {
    let about = prop::sample::select(&ABOUT[..]);
    let kind = prop::sample::select(&Kind::ALL[..]);
    let replaces = prop::option::weighted(0.3, 0..20_u128);
    let seen = (value(), replaces, any::<bool>());
    (0..20_u128, -40..20_i64, about, kind, seen).prop_map(
        |(number, day, about, kind, (value, replaces, presumed))| Note {
            value,
            replaces: replaces.map(id),
            presumed,
            ..Note::new(id(number), june(day), "Ana", about, kind)
        },
    )
}

fn notes() -> impl Strategy<Value = Vec<Note>> {
    prop::collection::vec(note(), 0..40)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    #[test]
    fn the_order_of_arrival_and_repeats_do_not_matter(
        (notes, shuffled) in notes().prop_flat_map(|notes| (Just(notes.clone()), Just(notes).prop_shuffle())),
        again in prop::collection::vec(any::<Index>(), 0..20),
        day in -30..20_i64,
    ) {
        let mut arrived = shuffled;
        for index in again {
            if !arrived.is_empty() {
                let repeat = index.get(&arrived).clone();
                arrived.insert(index.index(arrived.len()), repeat);
            }
        }
        prop_assert_eq!(fold(job(), &notes, june(day)), fold(job(), &arrived, june(day)));
    }

    #[test]
    fn nothing_is_dropped(notes in notes()) {
        let site = fold(job(), &notes, june(20));
        for note in &notes {
            prop_assert!(site.notes.contains_key(&note.id));
        }
    }

    #[test]
    fn later_notes_do_not_change_a_past_day(notes in notes(), day in -30..20_i64) {
        // Numbers are told apart, so that no later note can share one with an earlier.
        let notes: Vec<Note> = (100..).zip(notes).map(|(n, note)| Note { id: id(n), ..note }).collect();
        let earlier: Vec<Note> = notes.iter().filter(|note| note.at <= june(day)).cloned().collect();
        let all = fold(job(), &notes, june(day));
        let then = fold(job(), &earlier, june(day));
        prop_assert_eq!(all.states, then.states);
        prop_assert_eq!(all.climate, then.climate);
    }

    #[test]
    fn every_question_is_a_sentence_and_names_notes_that_are_kept(notes in notes()) {
        let site = fold(job(), &notes, june(20));
        for question in &site.questions {
            prop_assert!(question.words.ends_with('?'), "{}", question.words);
            prop_assert!(!question.words.starts_with(char::is_lowercase), "{}", question.words);
            prop_assert!(!question.notes.is_empty());
            prop_assert!(question.notes.iter().all(|id| site.notes.contains_key(id)));
        }
    }

    #[test]
    fn what_nobody_saw_is_never_both_known_and_unknown(notes in notes()) {
        for state in fold(job(), &notes, june(20)).states.values() {
            prop_assert!(state.unseen.is_none() || !state.is_told());
            prop_assert!(state.look.is_none() || state.let_go.is_none());
            prop_assert!(state.undone.is_none() || (state.done.is_none() && state.presumed.is_none()));
        }
    }

    #[test]
    fn what_is_damaged_or_failed_is_not_done(notes in notes()) {
        for state in fold(job(), &notes, june(20)).states.values() {
            prop_assert!(state.damaged.is_none() || (state.done.is_none() && state.arrived.is_none()));
            prop_assert!(state.failed.is_none() || state.done.is_none());
            prop_assert!(state.mended.is_none() || state.failed.is_some());
        }
    }

    #[test]
    fn a_log_reads_back_as_it_was_written(notes in notes()) {
        let text = grounds_site::write_notes(&notes).unwrap();
        let (read, faults) = grounds_site::read_notes("notes.jsonl", &text);
        prop_assert_eq!(faults, vec![]);
        prop_assert_eq!(read, notes);
    }

    #[test]
    fn no_line_however_odd_stops_the_reading(text in "\\PC{0,200}(\n\\PC{0,80}){0,5}") {
        let (notes, faults) = grounds_site::read_notes("notes.jsonl", &text);
        let lines = text.lines().filter(|line| !line.trim().is_empty()).count();
        prop_assert_eq!(notes.len() + faults.len(), lines);
    }
}
