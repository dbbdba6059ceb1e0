//! The log as a file: one note a line, and a bad line does not cost the good ones.

use grounds_site::{Kind, LONGEST_LINE, Note, Value, read_notes, write_notes};

const GOOD: &str = r#"{"id":"01974f0c-86a0-7000-8000-000000000001","at":"2027-06-08T14:30:00Z","by":"Ana","about":"stair-hall.walls/base","kind":"done"}"#;

/// The only fault of a line, and what it says.
fn fault(line: &str) -> String {
    let (notes, faults) = read_notes("notes.jsonl", line);
    assert_eq!((notes.len(), faults.len()), (0, 1), "{faults:?}");
    faults[0].to_string()
}

fn with(old: &str, new: &str) -> String {
    let line = GOOD.replace(old, new);
    assert_ne!(line, GOOD);
    line
}

#[test]
fn a_good_line_is_a_note() {
    let (notes, faults) = read_notes("notes.jsonl", GOOD);
    assert!(faults.is_empty(), "{faults:?}");
    assert_eq!(notes[0].about.as_str(), "stair-hall.walls/base");
    assert_eq!(notes[0].kind, Kind::Done);
}

#[test]
fn a_bad_line_between_good_ones_costs_only_itself() {
    let second = with("0001\"", "0002\"");
    let text = format!("\u{feff}{GOOD}\r\n\r\nnot a note\n{second}");
    let (notes, faults) = read_notes("mill/notes.jsonl", &text);
    assert_eq!(notes.len(), 2);
    assert_eq!(faults.len(), 1);
    assert_eq!(
        (faults[0].file.as_str(), faults[0].line),
        ("mill/notes.jsonl", 3)
    );
}

#[test]
fn a_key_that_is_not_known_is_named_with_the_nearest() {
    let said = fault(&with("\"about\"", "\"abuot\""));
    assert_eq!(
        said,
        "notes.jsonl:1: there is no key “abuot”; write “about”"
    );
}

#[test]
fn a_kind_that_is_not_known_is_named_with_the_nearest() {
    let said = fault(&with("\"done\"", "\"dnoe\""));
    assert_eq!(said, "notes.jsonl:1: there is no kind “dnoe”; write “done”");
    let said = fault(&with("\"done\"", "\"finalised\""));
    assert!(
        said.contains("use one of started, progress, done"),
        "{said}"
    );
}

#[test]
fn a_key_that_is_missing_is_named() {
    let said = fault(&with("\"by\":\"Ana\",", ""));
    assert!(
        said.starts_with("notes.jsonl:1: the note has no “by”; "),
        "{said}"
    );
}

#[test]
fn a_date_without_its_offset_shows_a_good_one() {
    let said = fault(&with("2027-06-08T14:30:00Z", "8 June"));
    assert!(said.contains("“at” cannot be read"), "{said}");
    assert!(
        said.ends_with("write it as a moment with its offset, like \"2027-06-08T14:30:00Z\""),
        "{said}"
    );
}

#[test]
fn a_value_of_no_known_form_shows_the_good_ones() {
    let said = fault(&with(
        "\"done\"",
        "\"progress\",\"value\":{\"share\":\"lots\"}",
    ));
    assert!(said.contains("“value” cannot be read"), "{said}");
    assert!(said.contains("{\"share\":\"60 %\"}"), "{said}");
}

#[test]
fn each_example_of_a_value_reads() {
    let values = [
        r#"{"share":"60 %"}"#,
        r#"{"when":"2027-06-21"}"#,
        r#"{"when":"2027-06-21 14:00"}"#,
        r#"{"length":"1032 mm"}"#,
        r#"{"temperature":"18 C"}"#,
        r#"{"humidity":"55 %"}"#,
        r#"{"reading":{"what":"level fell","figure":"0 mm"}}"#,
    ];
    for value in values {
        let line = with("\"done\"", &format!("\"measured\",\"value\":{value}"));
        let (notes, faults) = read_notes("notes.jsonl", &line);
        assert!(faults.is_empty(), "{faults:?}");
        assert!(notes[0].value.is_some());
    }
}

#[test]
fn a_key_given_twice_is_a_fault() {
    let said = fault(&with("\"by\":\"Ana\"", "\"by\":\"Ana\",\"by\":\"Ben\""));
    assert!(said.contains("duplicate field"), "{said}");
}

#[test]
fn a_line_that_is_too_long_is_refused_before_it_is_read() {
    let said = fault(&with("Ana", &"a".repeat(LONGEST_LINE)));
    assert!(said.contains("longer than"), "{said}");
}

#[test]
fn hostile_texts_are_refused_one_by_one() {
    let cases = [
        with("Ana", ""),
        with("Ana", "A\\u0000na"),
        with("Ana", &"a".repeat(201)),
        with("stair-hall.walls/base", "\\u001b[31m"),
        with("2027-06-08", "0001-06-08"),
        with("\"done\"", "\"done\",\"photos\":[\"../../etc/passwd\"]"),
        with("\"done\"", "\"done\",\"photos\":[\".hidden\"]"),
        with("\"done\"", "\"done\",\"photos\":[\"a/b.jpg\"]"),
        with("\"done\"", "\"done\",\"words\":\"\\u0007\""),
        with("\"done\"", "\"done\",\"walk_ms\":-1"),
        with("\"done\"", "\"done\",\"walk\":\"../walk\""),
        "[".repeat(5_000),
        "null".to_owned(),
        "{}".to_owned(),
    ];
    for line in cases {
        let said = fault(&line);
        assert!(said.chars().all(|c| !c.is_control()), "{said:?}");
        assert!(said.chars().count() < 1_000, "{said:?}");
    }
}

#[test]
fn html_in_words_is_kept_as_it_was_said() {
    let line = with(
        "\"done\"",
        "\"remark\",\"words\":\"<b>gap</b> & 3 mm\\nno more\"",
    );
    let (notes, _) = read_notes("notes.jsonl", &line);
    assert_eq!(
        notes[0].words.as_deref(),
        Some("<b>gap</b> & 3 mm\nno more")
    );
}

#[test]
fn a_whole_note_reads_back_as_it_was_written() {
    let note = Note::new(
        "01974f0c-86a0-7000-8000-000000000001".parse().unwrap(),
        "2027-06-08T14:30:00.123456789Z".parse().unwrap(),
        "Ana",
        "flood-test",
        Kind::Measured,
    )
    .with_value(Value::Reading {
        what: "level fell".to_owned(),
        figure: "0 mm".to_owned(),
    })
    .with_words("line\nwith “quotes”, <tags> and \u{2028}")
    .with_photo("4f1c9a.jpg")
    .correcting("01974f0c-86a0-7000-8000-000000000000".parse().unwrap())
    .at_walk_time(61_500);
    let text = write_notes(std::slice::from_ref(&note)).unwrap();
    assert_eq!(text.lines().count(), 1);
    let (notes, faults) = read_notes("notes.jsonl", &text);
    assert_eq!(faults, []);
    assert_eq!(notes, [note]);
}
