//! Setting out from figures typed.

use crate::running::grounds;

#[test]
fn a_half_inch_leaf_in_a_five_eighths_pocket_has_a_sixteenth_at_each_face() {
    // Common practice; the figures are in inches because one is.
    let ended = grounds(&["set-out", "pocket", "clear=5/8\"", "piece=1/2"]);
    assert_eq!(ended.code, Some(0), "{}", ended.err);
    let said = ended.sentences();
    assert!(said.contains("1/16\" is left at each face"), "{said}");
    assert!(
        said.contains("Working") && said.contains("common practice"),
        "{said}"
    );
}

#[test]
fn risers_that_differ_more_than_the_code_allows_end_with_one() {
    // IRC R311.7.5.1 [published]: at most 3/8 in.
    let ended = grounds(&["set-out", "risers", "built=14 x 7 1/2\"", "foot=3/4"]);
    assert_eq!(ended.code, Some(1), "{}", ended.err);
    assert!(
        ended.sentences().contains("more than the 3/8\" allowed"),
        "{}",
        ended.out
    );
}

#[test]
fn seven_inch_white_oak_moves_as_the_wood_handbook_says() {
    // USDA Wood Handbook, equations 4-5 and 13-2, table 13-5 [published].
    let asked = [
        "set-out",
        "wood",
        "species=white oak",
        "board=7",
        "across=210",
        "--units",
        "imperial",
    ];
    let ended = grounds(&asked);
    assert_eq!(ended.code, Some(0), "{}", ended.err);
    assert!(
        ended.sentences().contains("a gap of 3/64\" opens"),
        "{}",
        ended.out
    );
}

#[test]
fn the_textbook_cut_list_is_proved_and_stands_in_json() {
    // The thirteen-width example of textbooks on cutting stock: 73 rolls [memory].
    let pieces = "pieces=22x1380;25x1520;12x1560;14x1710;18x1820;18x1880;20x1930;10x2000;12x2050;\
                  14x2100;16x2140;18x2150;20x2200";
    let ended = grounds(&["set-out", "cuts", pieces, "stock=5600", "kerf=0", "--json"]);
    assert_eq!(ended.code, Some(0), "{}", ended.err);
    let file: serde_json::Value = serde_json::from_str(&ended.out).unwrap();
    assert_eq!(file["does"], true);
    assert!(
        file["said"].as_str().unwrap().starts_with("Buy 73 lengths"),
        "{file}"
    );
    let rows = file["rows"].as_array().unwrap();
    let bars = rows
        .iter()
        .map(|row| row[0].as_str().unwrap().parse::<usize>().unwrap());
    assert_eq!(bars.sum::<usize>(), 73);
}

#[test]
fn a_bare_figure_is_in_inches_where_another_is_in_feet_or_a_fraction() {
    for (clear, piece) in [("72in", "1.5"), ("6'", "1.5"), ("72", "1 1/2")] {
        let (clear, piece) = (format!("clear={clear}"), format!("piece={piece}"));
        let ended = grounds(&["set-out", "gaps", &clear, &piece, "under=4"]);
        assert!(
            ended.out.contains("13 pieces of 1 1/2\""),
            "{clear} {piece} {}",
            ended.out
        );
    }
    // The name of a piece says nothing of units.
    let ended = grounds(&["set-out", "cuts", "pieces=main in: 2 x 900", "stock=2400"]);
    assert!(ended.out.contains("2400 mm"), "{}", ended.out);
}

#[test]
fn without_figures_it_lists_what_can_be_given() {
    for what in [
        "gaps", "boards", "risers", "cuts", "pocket", "wood", "shims",
    ] {
        let ended = grounds(&["set-out", what]);
        assert_eq!(ended.code, Some(0), "{}", ended.err);
        assert!(ended.out.contains("What can be given"), "{}", ended.out);
    }
}

#[test]
fn what_cannot_be_used_ends_with_two_and_says_where_and_how_to_mend_it() {
    let long = format!("clear={}", "9".repeat(30_000));
    let many = format!("pieces={}", "2 x 10;".repeat(2_500));
    let hostile: [(&[&str], &str); 11] = [
        (&["frobnicate"], "write one of gaps"),
        (&["gaps", "clear"], "KEY=VALUE"),
        (&["gaps", "claer=3"], "did you mean clear?"),
        (&["gaps", "clear=1", "clear=2"], "given twice"),
        (&["gaps", "clear=NaN", "piece=3", "under=4"], "is no length"),
        (
            &["gaps", "clear=1e400", "piece=3", "under=4"],
            "is no length",
        ),
        (
            &["gaps", "clear=a\u{1b}[2Jb", "piece=3", "under=4"],
            "is no length",
        ),
        (&["gaps", &long], "characters"),
        (&["cuts", &many, "stock=10"], "Give a part of them"),
        (&["cuts", "pieces=0 x 10", "stock=10"], "whole number"),
        (&["gaps", "--json"], "nothing is given"),
    ];
    for (arguments, says) in hostile {
        let arguments: Vec<&str> = std::iter::once("set-out")
            .chain(arguments.iter().copied())
            .collect();
        let ended = grounds(&arguments);
        assert_eq!(ended.code, Some(2), "{arguments:?}");
        assert!(ended.sentences().contains(says), "{}", ended.err);
        assert!(!ended.err.contains('\u{1b}'), "{}", ended.err);
        assert!(ended.err.len() < 2_000, "{}", ended.err);
    }
}
