//! What is asked by hand is answered with the values that print and trade know, and what cannot be
//! read is sent back with its mend.

#![allow(clippy::expect_used, reason = "a test stops at the first surprise")]

use grounds_lines::asked::{Answer, LONGEST_TEXT, Question, Typed, Wrong};
use grounds_measure::Units;
use proptest::prelude::*;

fn typed(pairs: &[(&str, &str)]) -> Typed {
    let pairs = pairs.iter();
    pairs
        .map(|(key, text)| ((*key).to_owned(), (*text).to_owned()))
        .collect()
}

#[track_caller]
fn inches(question: Question, pairs: &[(&str, &str)]) -> Answer {
    question
        .answer(&typed(pairs), Units::Imperial)
        .expect("a sound question")
}

#[track_caller]
fn metric(question: Question, pairs: &[(&str, &str)]) -> Answer {
    question
        .answer(&typed(pairs), Units::Metric)
        .expect("a sound question")
}

#[track_caller]
fn refused(question: Question, pairs: &[(&str, &str)]) -> Vec<Wrong> {
    question
        .answer(&typed(pairs), Units::Metric)
        .expect_err("nothing to be read")
}

#[test]
fn a_half_inch_leaf_in_a_five_eighths_pocket_has_a_sixteenth_at_each_face() {
    // Common practice.
    let answer = inches(Question::Pocket, &[("clear", "5/8"), ("piece", "1/2")]);
    assert!(answer.does);
    assert_eq!(
        answer.said,
        "1/16\" is left at each face beside 1/2\" in 5/8\" clear."
    );
}

#[test]
fn a_bent_pocket_lets_less_through_than_its_narrowest_place() {
    // 16 mm wide everywhere, the middle 3 mm aside: a straight slot of 13 mm [worked by hand].
    let faces = "0, 0, 16\n400, 3, 19\n800, 0, 16";
    let answer = metric(
        Question::Pocket,
        &[("faces", faces), ("piece", "12"), ("play", "1")],
    );
    assert!(!answer.does);
    assert!(
        answer.said.starts_with("0.5 mm is left at each face"),
        "{}",
        answer.said
    );
}

#[test]
fn a_leaf_needs_depth_behind_it() {
    let pairs = [
        ("clear", "60"),
        ("piece", "40"),
        ("depth", "900"),
        ("leaf", "920"),
        ("stop", "20"),
        ("out", "35"),
    ];
    let answer = metric(Question::Pocket, &pairs);
    // 900 − 20 − (920 − 35) = −5 [worked by hand].
    assert!(!answer.does);
    assert!(
        answer.then.contains("stands out 5 mm more"),
        "{}",
        answer.then
    );
}

#[test]
fn seven_inch_white_oak_moves_as_the_wood_handbook_says() {
    // USDA Wood Handbook, equation 13-2 and table 13-5 [published]: 177.8 × 0.00365 × (8 − 6.17) mm
    // with air of 30 % at 70 °F from equation 4-5 [published] = 3/64 in.
    let pairs = [
        ("species", "White Oak"),
        ("board", "7"),
        ("across", "17' 6\""),
    ];
    let answer = inches(Question::Wood, &pairs);
    assert!(
        answer.said.contains("a gap of 3/64\" opens"),
        "{}",
        answer.said
    );
    let working = answer.working.join("\n");
    assert!(working.contains("to 6.2 % of moisture"), "{working}");
    assert!(working.contains("to 10.1 %"), "{working}");
    assert!(working.contains("0.00365"), "{working}");
    // 30 boards × 7 in × 0.00365 × (10.07 − 8) = 1.59 in, half at each edge 0.79 in.
    assert!(
        answer.said.contains("leave 13/16\" at each"),
        "{}",
        answer.said
    );
}

#[test]
fn a_floor_with_too_little_room_at_its_edges_is_told_by_how_much() {
    let pairs = [("board", "178"), ("across", "5340"), ("edge", "15")];
    let answer = metric(Question::Wood, &pairs);
    assert!(!answer.does);
    assert!(answer.then.contains("shy"), "{}", answer.then);
}

#[test]
fn boards_at_the_foot_shorten_the_first_riser_more_than_the_code_allows() {
    // IRC R311.7.5.1 [published]: at most 3/8 in between the greatest and the least.
    let answer = inches(
        Question::Risers,
        &[("built", "14 x 7 1/2"), ("foot", "3/4")],
    );
    assert!(!answer.does);
    assert!(
        answer.said.contains("3/8\" more than the 3/8\" allowed"),
        "{}",
        answer.said
    );
    assert!(answer.then.contains("3/4\", 3/8\""), "{}", answer.then);
    let just = inches(
        Question::Risers,
        &[("built", "14 x 7 1/2"), ("foot", "3/8")],
    );
    assert!(just.does, "{}", just.said);
    // 7 3/4 in is allowed, more is not.
    let high = [("built", "10 x 7 3/4"), ("count", "")];
    assert!(inches(Question::Risers, &high).does);
    assert!(!inches(Question::Risers, &[("built", "10 x 7 13/16")]).does);
}

#[test]
fn a_flight_is_framed_so_that_it_is_even_when_finished() {
    // 110 1/2 in, finishes of 3/8, 1 and 3/4 in: 15 risers, framed 6.77, 7.39 and 7.64 in
    // [worked by hand].
    let pairs = [
        ("rise", "110 1/2"),
        ("foot", "3/8"),
        ("tread", "1"),
        ("head", "3/4"),
    ];
    let answer = inches(Question::Risers, &pairs);
    assert!(answer.does);
    assert!(
        answer
            .said
            .starts_with("15 risers: frame the first 6 3/4\""),
        "{}",
        answer.said
    );
    assert_eq!(answer.table.rows.len(), 15);
}

#[test]
fn balusters_stand_so_close_that_no_ball_passes() {
    // IRC R312.1.3 [published]: a ball of 4 in.
    let pairs = [("clear", "72"), ("piece", "1 1/2"), ("under", "4")];
    let answer = inches(Question::Gaps, &pairs);
    assert!(
        answer.said.starts_with("13 pieces of 1 1/2\" and 14 gaps"),
        "{}",
        answer.said
    );
    assert_eq!(answer.table.rows.len(), 13);
}

#[test]
fn slats_with_half_inch_gaps_come_out_at_half_an_inch() {
    // 12 × 2 1/2 + 13 × 1/2 = 36 1/2 in [arithmetic].
    let pairs = [("clear", "36 1/2"), ("piece", "2 1/2"), ("gap", "1/2")];
    let answer = inches(Question::Gaps, &pairs);
    assert_eq!(answer.said, "12 pieces of 2 1/2\" and 13 gaps of 1/2\".");
}

#[test]
fn a_sliver_becomes_two_wide_cuts_and_a_register_sits_on_a_joint() {
    let wall = [
        ("row", "60 7/16"),
        ("far", "61 5/16"),
        ("piece", "12"),
        ("joint", "1/16"),
    ];
    let answer = inches(Question::Boards, &wall);
    assert!(answer.does);
    assert!(
        answer
            .said
            .starts_with("Begin with a cut of 6 1/16\", then 4 whole pieces"),
        "{}",
        answer.said
    );
    let row = [
        ("row", "3000"),
        ("piece", "600"),
        ("joint", "3"),
        ("edge", "5"),
        ("least", "150"),
        ("centres", "1000"),
        ("within", "1"),
    ];
    let answer = metric(Question::Boards, &row);
    assert!(answer.does, "{} {}", answer.said, answer.then);
    assert!(
        answer.table.rows[0][1].starts_with("on "),
        "{:?}",
        answer.table
    );
}

#[test]
fn the_textbook_paper_mill_needs_seventy_three_rolls() {
    // The thirteen-width example of textbooks on cutting stock, rolls of 5600 mm: 73 [memory].
    let pieces = "22 x 1380; 25 x 1520; 12 x 1560; 14 x 1710; 18 x 1820; 18 x 1880; 20 x 1930; \
                  10 x 2000; 12 x 2050; 14 x 2100; 16 x 2140; 18 x 2150; 20 x 2200";
    let pairs = [("pieces", pieces), ("stock", "5600"), ("kerf", "0")];
    let answer = metric(Question::Cuts, &pairs);
    assert!(
        answer.said.starts_with("Buy 73 lengths of 5600 mm"),
        "{}",
        answer.said
    );
    assert_eq!(answer.then, "No cut list needs less.");
}

#[test]
fn the_saw_takes_its_part() {
    // Four pieces of 24 in come from 96 in on paper, three with a saw [arithmetic].
    let cut = |kerf| {
        let pairs = [("pieces", "shelf: 4 x 24"), ("stock", "8'"), ("kerf", kerf)];
        inches(Question::Cuts, &pairs).said
    };
    assert!(
        cut("0").starts_with("Buy 1 length of 8' 0\""),
        "{}",
        cut("0")
    );
    assert!(cut("1/8").starts_with("Buy 2 lengths"), "{}", cut("1/8"));
}

#[test]
fn shims_bring_three_boxes_on_a_plumb_line_into_one_plane() {
    // The middle one stands 2 mm out: shims of 2 and 1.5 mm [worked by hand].
    let marks = "cellar: 0, 0, 0\nhall: 0, 3000, 2\nloft: 0, 6000, 0.5";
    let answer = metric(Question::Shims, &[("marks", marks)]);
    assert!(answer.does);
    assert!(
        answer.said.contains("2 shims behind them, 3.5 mm in all"),
        "{}",
        answer.said
    );
    assert_eq!(answer.table.rows[0][2], "2 mm");
    assert_eq!(answer.table.rows[1][2], "none");
    // What is covered holds the others: shims of 1 mm cannot bring the last one out.
    let marks = "cellar: 0, 0, 3, stays\nhall: 0, 3000, 1\nloft: 0, 6000, 0";
    let pairs = [("marks", marks), ("thickest", "1"), ("seen", "0.5")];
    let answer = metric(Question::Shims, &pairs);
    assert!(!answer.does);
    // 0.75 mm, said to a tenth.
    assert!(
        answer.said.contains("miss it by 0.8 mm") || answer.said.contains("miss it by 0.7 mm"),
        "{}",
        answer.said
    );
}

#[test]
fn figures_that_cannot_be_read_are_named_with_their_mend() {
    for (pairs, field, says) in [
        (
            &[("piece", "38"), ("under", "100")][..],
            "clear",
            "nothing is given",
        ),
        (
            &[("clear", "abc"), ("piece", "38"), ("under", "100")],
            "clear",
            "is no length",
        ),
        (
            &[("clear", "NaN"), ("piece", "38"), ("under", "100")],
            "clear",
            "is no length",
        ),
        (
            &[("clear", "1e300"), ("piece", "38"), ("under", "100")],
            "clear",
            "is no length",
        ),
        (
            &[
                ("clear", "99999999999999999999"),
                ("piece", "38"),
                ("under", "100"),
            ],
            "clear",
            "is",
        ),
        (
            &[("clear", "-5"), ("piece", "38"), ("under", "100")],
            "clear",
            "below zero",
        ),
        (
            &[("clear", "1000"), ("piece", "0"), ("under", "100")],
            "piece",
            "not above zero",
        ),
        (
            &[("clear", "1000"), ("piece", "38")],
            "under",
            "nothing says",
        ),
        (
            &[
                ("clear", "1000"),
                ("piece", "38"),
                ("under", "9"),
                ("gap", "8"),
            ],
            "under",
            "Keep",
        ),
        (
            &[("clear", "1000"), ("piece", "38"), ("count", "0")],
            "count",
            "whole number",
        ),
        (
            &[("clear", "1000"), ("piece", "38"), ("count", "40")],
            "piece",
            "fill the row",
        ),
        (
            &[("clear", "900000"), ("piece", "0.01"), ("under", "0.01")],
            "piece",
            "10,000",
        ),
    ] {
        let wrong = refused(Question::Gaps, pairs);
        assert!(
            wrong
                .iter()
                .any(|wrong| wrong.field == field && wrong.said.contains(says)),
            "{pairs:?} {wrong:?}"
        );
    }
    let wrong = refused(
        Question::Cuts,
        &[("pieces", "six x 2100"), ("stock", "4800")],
    );
    assert!(wrong[0].said.contains("line 1"), "{wrong:?}");
    let wrong = refused(Question::Cuts, &[("pieces", "6 x 5100"), ("stock", "4800")]);
    assert!(
        wrong[0].said.contains("longer than every stock length"),
        "{wrong:?}"
    );
    let wrong = refused(Question::Shims, &[("marks", "0, 0, 1"), ("held", "free")]);
    assert!(wrong[0].said.contains("measure one more"), "{wrong:?}");
    let wrong = refused(
        Question::Wood,
        &[("board", "100"), ("across", "900"), ("species", "laminate")],
    );
    assert!(wrong[0].said.contains("white oak"), "{wrong:?}");
}

#[test]
fn thousands_of_entries_are_sent_back_rather_than_reckoned() {
    let many = "10\n".repeat(5_000);
    let long = "9".repeat(LONGEST_TEXT + 1);
    for text in [&many, &long] {
        for (question, key) in [
            (Question::Boards, "centres"),
            (Question::Cuts, "pieces"),
            (Question::Cuts, "stock"),
            (Question::Pocket, "clear"),
            (Question::Pocket, "faces"),
            (Question::Shims, "marks"),
            (Question::Risers, "built"),
        ] {
            let wrong = refused(question, &[(key, text)]);
            let wrong = wrong.iter().find(|wrong| wrong.field == key).expect(key);
            assert!(wrong.said.contains("Give a part"), "{key} {wrong:?}");
            assert!(wrong.said.len() < 500);
        }
    }
}

proptest! {
    #[test]
    fn whatever_is_typed_is_answered_or_sent_back(
        texts in prop::collection::vec("[-0-9a-z x:,;./'\"½\n<>&%]{0,24}", 11),
        imperial in any::<bool>(),
    ) {
        let units = if imperial { Units::Imperial } else { Units::Metric };
        for question in Question::ALL {
            let fields = question.fields().iter().zip(&texts);
            let typed: Typed = fields.map(|(field, text)| (field.key.to_owned(), text.clone())).collect();
            match question.answer(&typed, units) {
                Ok(answer) => prop_assert!(!answer.said.is_empty() && !answer.working.is_empty()),
                Err(wrong) => {
                    prop_assert!(!wrong.is_empty());
                    for wrong in wrong {
                        prop_assert!(question.fields().iter().any(|field| field.key == wrong.field));
                    }
                }
            }
        }
    }

    #[test]
    fn sound_rows_and_flights_always_have_an_answer(
        clear in 500..6_000_u32, piece in 10..200_u32, under in 20..150_u32, rise in 1_000..4_000_u32,
    ) {
        let (clear, piece, under, rise) = (clear.to_string(), piece.to_string(), under.to_string(), rise.to_string());
        let gaps = typed(&[("clear", &clear), ("piece", &piece), ("under", &under)]);
        match Question::Gaps.answer(&gaps, Units::Metric) {
            Ok(answer) => prop_assert!(answer.does),
            // Pieces so thick that the next one does not go in.
            Err(wrong) => prop_assert!(wrong[0].said.contains("fill the row"), "{wrong:?}"),
        }
        let boards = typed(&[("row", &clear), ("piece", &piece), ("joint", "2")]);
        prop_assert!(Question::Boards.answer(&boards, Units::Metric).is_ok());
        let risers = typed(&[("rise", &rise), ("foot", "20"), ("tread", "25"), ("head", "20")]);
        let answer = Question::Risers.answer(&risers, Units::Metric);
        prop_assert!(answer.is_ok_and(|answer| answer.does));
    }
}
