//! Transcripts as recognisers and people write them.
//!
//! WebVTT cases are written from the W3C text (WebVTT: The Web Video Text Tracks Format, W3C
//! Candidate Recommendation, sections 4 "Syntax" and 6 "Parsing"): published. SubRip has no
//! standard; its cases are what players accept: common practice.

#![allow(clippy::expect_used, reason = "a test stops at the first surprise")]

use grounds_walk::transcript::{Form, LONGEST_CUE, MOST_CUES, TranscriptError, read};

fn texts(file: &str) -> Vec<String> {
    let read = read(file).expect("it has talk");
    read.cues.into_iter().map(|cue| cue.text).collect()
}

fn times(file: &str) -> Vec<(Option<u64>, Option<u64>)> {
    let read = read(file).expect("it has talk");
    read.cues
        .iter()
        .map(|cue| (cue.at_ms, cue.until_ms))
        .collect()
}

#[test]
fn a_webvtt_file_may_leave_the_hours_out() {
    let file =
        "WEBVTT\n\n00:11.000 --> 00:13.500\nHall.\n\n01:02:03.004 --> 01:02:05.000\nStair.\n";
    assert_eq!(
        times(file),
        [
            (Some(11_000), Some(13_500)),
            (Some(3_723_004), Some(3_725_000))
        ]
    );
}

#[test]
fn hours_may_have_more_than_two_digits() {
    let file = "WEBVTT\n\n100:00:00.000 --> 100:00:01.000\nLate.\n";
    assert_eq!(times(file)[0].0, Some(360_000_000));
}

#[test]
fn minutes_and_seconds_have_two_digits_and_fractions_three() {
    for wrong in [
        "0:11.000 --> 0:13.000",
        "00:61.000 --> 00:62.000",
        "00:11 --> 00:13",
        "00:11,000 --> 00:13,000",
        "00:11.00 --> 00:13.00",
    ] {
        let file = format!("WEBVTT\n\n{wrong}\nLost.\n\n00:20.000 --> 00:21.000\nKept.\n");
        let got = read(&file).expect("it has talk");
        assert_eq!(got.cues.len(), 1, "{wrong}");
        assert_eq!(got.cues[0].text, "Kept.");
        assert_eq!(got.remarks[0].line, 3, "told where: {wrong}");
        assert!(got.remarks[0].what.contains("00:11.000 --> 00:13.000"));
    }
}

#[test]
fn a_byte_order_mark_and_any_line_ending_are_taken() {
    for end in ["\n", "\r\n", "\r"] {
        let file = ["\u{feff}WEBVTT", "", "00:01.000 --> 00:02.000", "Hall.", ""].join(end);
        assert_eq!(texts(&file), ["Hall."]);
    }
}

#[test]
fn the_signature_may_be_followed_by_words_and_header_lines() {
    let file = "WEBVTT - a walk\nKind: captions\n\n00:01.000 --> 00:02.000\nHall.\n";
    assert_eq!(texts(file), ["Hall."]);
    // Without a space it is no signature, and the lines are read as they stand.
    assert_ne!(read("WEBVTTX\nHall.").expect("talk").form, Form::Vtt);
}

#[test]
fn cue_settings_and_identifiers_are_no_talk() {
    let file = "WEBVTT\n\nfirst one\n00:01.000 --> 00:02.000 line:0 position:20% align:start\nHall.\n\n2\n00:03.000\t-->\t00:04.000 region:fred\nStair.\n";
    assert_eq!(texts(file), ["Hall.", "Stair."]);
}

#[test]
fn notes_styles_and_regions_are_no_talk() {
    let file = "WEBVTT\n\nSTYLE\n::cue { color: lime }\n\nREGION\nid:fred\nwidth:40%\n\nNOTE\nthis is\nof no use\n\nNOTE one line\n\n00:01.000 --> 00:02.000\nHall.\n";
    assert_eq!(texts(file), ["Hall."]);
}

#[test]
fn cues_may_overlap_and_have_several_lines() {
    let file = "WEBVTT\n\n00:01.000 --> 00:09.000\nHall.\nThe long one.\n\n00:02.000 --> 00:03.000\nStair.\n";
    assert_eq!(texts(file), ["Hall. The long one.", "Stair."]);
}

#[test]
fn a_line_with_an_arrow_ends_the_text_before_it() {
    let file = "WEBVTT\n\n00:01.000 --> 00:02.000\nHall.\n00:03.000 --> 00:04.000\nStair.\n";
    assert_eq!(texts(file), ["Hall.", "Stair."]);
}

#[test]
fn tags_are_taken_out_and_voices_speak() {
    let file = "WEBVTT\n\n00:01.000 --> 00:02.000\n<v.loud Mara Lind>Units are <b>in</b>, <c.x>all</c> <00:01.500>of <i>them</i>.</v>\n\n00:03.000 --> 00:04.000\n<ruby>plan<rt>aside</rt></ruby> <lang en>here</lang>\n";
    let got = read(file).expect("it has talk");
    assert_eq!(got.cues[0].text, "Units are in, all of them.");
    assert_eq!(got.cues[0].speaker.as_deref(), Some("Mara Lind"));
    assert_eq!(got.cues[1].text, "plan here");
}

#[test]
fn character_references_are_read() {
    let file =
        "WEBVTT\n\n00:01.000 --> 00:02.000\nsand &amp; seal &lt;5&gt;&nbsp;&#37; &unknown; &";
    assert_eq!(texts(file), ["sand & seal <5> % &unknown; &"]);
}

#[test]
fn a_reference_may_lack_its_semicolon_and_fractions_may_be_signs() {
    let file =
        "WEBVTT\n\n00:01.000 --> 00:02.000\nsand &amp seal, gap&nbsp;is 30&frac12; in &ampere";
    assert_eq!(texts(file), ["sand & seal, gap is 30½ in &ampere"]);
}

#[test]
fn each_voice_of_a_cue_speaks_for_itself() {
    let file =
        "WEBVTT\n\n00:01.000 --> 00:04.000\n<v Mara>Is the sink in?</v>\n<v Col>It is not.</v>\n";
    let got = read(file).expect("it has talk");
    let said: Vec<(Option<&str>, &str)> = got
        .cues
        .iter()
        .map(|cue| (cue.speaker.as_deref(), cue.text.as_str()))
        .collect();
    assert_eq!(
        said,
        [
            (Some("Mara"), "Is the sink in?"),
            (Some("Col"), "It is not.")
        ]
    );
    assert_eq!(times(file), [(Some(1_000), Some(4_000)); 2]);
}

#[test]
fn a_note_right_above_the_times_is_their_identifier() {
    // Section 6.1: the second line of a block has the arrow, so the first one identifies the cue.
    let file = "WEBVTT\n\nNOTE\n00:01.000 --> 00:02.000\nHall.\n";
    assert_eq!(texts(file), ["Hall."]);
    // On its third line the arrow begins a block of its own.
    let file = "WEBVTT\n\nNOTE one\ntwo\n00:01.000 --> 00:02.000\nHall.\n";
    assert_eq!(texts(file), ["Hall."]);
}

#[test]
fn a_header_ends_at_the_first_arrow_and_blank_lines_may_be_many() {
    let file =
        "WEBVTT\n00:01.000 --> 00:02.000\nHall.\n\n\n\n\n00:03.000-->00:04.000\nStair.\n\n\n";
    assert_eq!(texts(file), ["Hall.", "Stair."]);
}

#[test]
fn hours_may_have_one_digit_and_minutes_without_hours_stay_below_sixty() {
    let file = "WEBVTT\n\n1:00:01.000 --> 1:00:02.000\nLate.\n\n60:00.000 --> 60:01.000\nLost.\n\n59:59.999 --> 60:00.000\nLost.\n\n00:60:00.000 --> 00:60:01.000\nLost.\n";
    assert_eq!(texts(file), ["Late."]);
}

#[test]
fn a_zero_byte_and_a_cue_that_ends_early_do_no_harm() {
    let file = "WEBVTT\n\n00:05.000 --> 00:02.000\nHa\0ll.\n";
    let got = read(file).expect("it has talk");
    assert!(got.cues[0].text.starts_with("Ha"));
    assert_eq!(got.cues[0].at_ms, Some(5_000));
}

#[test]
fn an_unclosed_tag_swallows_no_later_cue() {
    let file = "WEBVTT\n\n00:01.000 --> 00:02.000\nHall <b\n\n00:03.000 --> 00:04.000\nStair.\n";
    assert_eq!(texts(file), ["Hall", "Stair."]);
}

#[test]
fn subrip_has_numbers_and_commas() {
    let file = "1\r\n00:00:01,500 --> 00:00:02,000\r\n<i>Hall.</i>\r\n\r\n2\r\n00:01:05,000 --> 00:01:07,000\r\n{\\an8}Stair,\r\nupper flight.\r\n";
    let got = read(file).expect("it has talk");
    assert_eq!(got.form, Form::Srt);
    assert_eq!(texts(file), ["Hall.", "Stair, upper flight."]);
    assert_eq!(times(file)[0], (Some(1_500), Some(2_000)));
}

#[test]
fn subrip_without_blank_lines_and_with_points_is_read() {
    let file =
        "1\n00:00:01.500 --> 00:00:02.000\nHall.\n2\n00:00:03.000 --> 00:00:04.000\nStair.\n";
    assert_eq!(texts(file), ["Hall.", "Stair."]);
}

#[test]
fn stamps_are_read_in_every_usual_way() {
    let file =
        "[0:02] Hall.\n1:05 Stair.\n(01:02:03) Loft.\n00:00:09.250 --> 00:00:11.000  Deck.\n";
    let got = read(file).expect("it has talk");
    assert_eq!(got.form, Form::Stamped);
    assert_eq!(
        times(file),
        [
            (Some(2_000), None),
            (Some(65_000), None),
            (Some(3_723_000), None),
            (Some(9_250), Some(11_000)),
        ]
    );
}

#[test]
fn a_line_without_a_stamp_goes_on_where_others_have_one() {
    assert_eq!(
        texts("[0:02] Hall, and\nthe cupboard.\n[0:05] Stair."),
        ["Hall, and the cupboard.", "Stair."]
    );
}

#[test]
fn plain_text_has_no_times() {
    let file = "Hall. Units are in.\n\nStair. No rail.";
    assert_eq!(read(file).expect("talk").form, Form::Plain);
    assert_eq!(times(file), [(None, None), (None, None)]);
}

#[test]
fn initials_and_frequent_names_are_speakers_and_rooms_are_not() {
    let got =
        read("[0:01] K: Hall.\n[0:02] Kitchen: units are in.\n[0:03] K: Right.").expect("talk");
    assert_eq!(got.cues[0].speaker.as_deref(), Some("K"));
    assert_eq!(got.cues[1].speaker, None);
    assert_eq!(got.cues[1].text, "Kitchen: units are in.");
}

#[test]
fn what_is_too_long_is_cut_and_told() {
    let file = format!("[0:01] {}", "word ".repeat(LONGEST_CUE));
    let got = read(&file).expect("talk");
    assert_eq!(got.cues[0].text.chars().count(), LONGEST_CUE);
    assert_eq!(got.remarks[0].line, 1);
    let many = "[0:01] Hall.\n".repeat(MOST_CUES + 5);
    let got = read(&many).expect("talk");
    assert_eq!(got.cues.len(), MOST_CUES);
    assert!(got.remarks[0].what.contains("split"));
}

#[test]
fn a_file_without_talk_is_refused_with_an_example() {
    for empty in ["", "\n\n", "WEBVTT\n\nNOTE nothing\n"] {
        assert_eq!(read(empty), Err(TranscriptError::Empty));
    }
    assert!(TranscriptError::Empty.to_string().contains("[1:05]"));
}
