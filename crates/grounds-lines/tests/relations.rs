//! What each word of alignment asks for, in a room of one wall. The figures are invented; the sums
//! stand beside each check.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at the first surprise"
)]

mod house;

use grounds_lines::{answers::Verdict, lines::NeedKind};
use grounds_model::Job;
use grounds_site::Kind;
use house::{House, assert_is, assert_says};

/// A room whose wall gets 12.5 mm of board and 12 mm of plaster, with one box on the board.
fn room(set: &str, align: &str) -> House {
    let text = format!(
        r#"
format = 1

[job]
name = "One room"
units = "metric"
zone = "Europe/London"
begins = "2027-05-03"
calendar = "week"

[calendars.week]
days = ["mon", "tue", "wed", "thu", "fri"]
hours = ["08:00-16:00"]

[trades.board]
name = "Boarding"

[trades.electric]
name = "Electrical"
contact = {{ name = "Priya" }}

[levels.ground]
name = "Ground floor"
height = "0 m"

[controls.line]
name = "Control line"
within = "1 mm"

[places.hall]
name = "Hall"
level = "ground"
entrance = true
faces.walls = {{ kind = "wall", build_up = "wall", area = "10 m2", structure = {{ from = "line", at = "-93 mm", within = "3 mm" }} }}
faces.ceiling = {{ kind = "ceiling", build_up = "wall", area = "10 m2" }}
faces.floor = {{ kind = "floor", build_up = "floor", area = "10 m2", structure = {{ at = "-20 mm", within = "2 mm" }} }}

[build_ups.wall]
name = "Board and plaster"

[[build_ups.wall.layers]]
id = "board"
name = "Board"
material = "board"
trade = "board"
thickness = "12.5 mm ±0.5"
takes = "4 h"

[[build_ups.wall.layers]]
id = "plaster"
name = "Plaster"
material = "plaster"
trade = "board"
thickness = "12 mm ±1"
takes = "4 h"

[build_ups.floor]
name = "Boards"

[[build_ups.floor.layers]]
id = "boards"
name = "Floor boards"
material = "timber"
trade = "board"
thickness = "20 mm ±0.5"
takes = "4 h"

[pieces.box]
name = "Light box"
trade = "electric"
place = "hall"
face = "walls"
after = ["hall.walls/board"]
before = ["hall.walls/plaster"]
takes = "1 h"
lead = "2 weeks"
{set}
align = [{align}]
"#
    );
    let job = Job::from_toml(&text).unwrap_or_else(|faults| panic!("{faults}"));
    House {
        job,
        notes: Vec::new(),
    }
}

const FLUSH: &str = r#"{ how = "flush", with = "hall.walls", within = "1.5 mm" }"#;
const SET: &str = r#"set = [{ at = "12 mm", least = "5 mm", most = "20 mm", within = "0.5 mm" }]"#;

#[test]
fn a_box_set_for_the_plaster_is_flush_with_it() {
    let box_ = room(SET, FLUSH).answer("box.flush");
    let figures = box_.figures.unwrap();
    assert_is(figures.mean, "0 mm");
    // Plaster ±1 and setting ±0.5; the board is behind both.
    assert_is(figures.worst.unwrap().high, "1.5 mm");
    assert_eq!(box_.parts.len(), 2);
    assert_eq!(box_.verdict, Verdict::Holds);
    assert_says(
        &box_.said,
        &["sits flush with the plaster in the hall", "every case"],
    );
}

#[test]
fn a_thinner_coat_leaves_it_proud_and_the_sentence_says_so() {
    let house = room(SET, FLUSH)
        .noted(
            "2027-05-10T12:00:00Z",
            "hall.walls/plaster",
            Kind::Done,
            None,
        )
        .read_off(
            "2027-05-10T12:10:00Z",
            "hall.walls/plaster",
            "thickness",
            "9 mm",
        );
    let box_ = house.answer("box.flush");
    assert_is(box_.figures.unwrap().mean, "3 mm");
    assert_eq!(box_.verdict, Verdict::Fails);
    assert_says(
        &box_.said,
        &[
            "sits 3 mm proud of the plaster",
            "It was set for 12 mm",
            "9 mm went on",
        ],
    );
}

#[test]
fn on_a_ceiling_proud_is_still_towards_the_room() {
    let house = room(
        &SET.replace("set =", "# below the ceiling\nset ="),
        r#"{ how = "flush", with = "hall.ceiling", within = "1.5 mm" }"#,
    );
    let mut house = house;
    let piece = house.job.pieces.get_mut("box").unwrap();
    piece.face = Some("ceiling".into());
    piece.after = vec!["hall.ceiling/board".into()];
    piece.before = vec!["hall.ceiling/plaster".into()];
    let house = house
        .noted(
            "2027-05-10T12:00:00Z",
            "hall.ceiling/plaster",
            Kind::Done,
            None,
        )
        .read_off(
            "2027-05-10T12:10:00Z",
            "hall.ceiling/plaster",
            "thickness",
            "9 mm",
        );
    assert_is(house.answer("box.flush").figures.unwrap().mean, "3 mm");
}

#[test]
fn without_a_thickness_or_a_setting_nobody_can_tell() {
    let box_ = room("", FLUSH).answer("box.flush");
    assert_eq!(box_.verdict, Verdict::CannotTell);
    assert_eq!(box_.missing.len(), 1);
    assert_says(
        &box_.said,
        &["the thickness of the light box", "Priya (electrical)"],
    );
}

#[test]
fn a_piece_that_is_not_set_stands_on_its_layer() {
    let house = room("thickness = \"12 mm ±0.5\"", FLUSH);
    assert_is(house.answer("box.flush").figures.unwrap().mean, "0 mm");
}

#[test]
fn in_plane_with_a_control_line_counts_what_carrying_it_costs() {
    let house = room(
        r#"set = [{ from = "hall.walls/board", at = "80 mm", within = "1 mm" }]"#,
        r#"{ how = "in-plane", with = "line", within = "3 mm" }"#,
    );
    let box_ = house.answer("box.in-plane");
    // −93 + 12.5 + 80 = −0.5; studs 3, board 0.5, setting 1, within the hall the line counts once.
    assert_is(box_.figures.unwrap().mean, "-0.5 mm");
    assert_is(box_.figures.unwrap().worst.unwrap().low, "-5 mm");
    assert_eq!(box_.kind, NeedKind::InPlane);
}

#[test]
fn a_reveal_sets_it_back_and_clear_counts_from_its_back() {
    let set = "thickness = \"4 mm\"\nset = [{ at = \"6 mm\" }]";
    let reveal = room(
        set,
        r#"{ how = "reveal", with = "hall.walls", by = "6 mm", within = "2 mm" }"#,
    );
    // 6 from the board, 6 behind the plaster.
    assert_is(reveal.answer("box.reveal").figures.unwrap().mean, "-6 mm");
    let clear = room(
        set,
        r#"{ how = "clear", with = "hall.walls/board", by = "1 mm" }"#,
    );
    assert_is(clear.answer("box.clear").figures.unwrap().mean, "2 mm");
}

#[test]
fn its_bottom_stands_over_the_finished_floor() {
    let house = room(
        r#"set = [{ along = "up", from = "hall.floor/boards", at = "300 mm", within = "2 mm" }]"#,
        r#"{ how = "above-floor", with = "hall.floor", by = "300 mm", within = "3 mm" }"#,
    );
    let box_ = house.answer("box.above-floor");
    assert_is(box_.figures.unwrap().mean, "300 mm");
    assert_eq!(box_.verdict, Verdict::Holds);
}

#[test]
fn two_gaps_differ_by_twice_what_the_centre_is_off() {
    let align = r#"{ how = "equal-gaps", with = "hall.walls", within = "2 mm" }"#;
    let set = r#"set = [{ along = "across", at = "0.9 mm" }]"#;
    assert_eq!(
        room(set, align).answer("box.equal-gaps").verdict,
        Verdict::Holds
    );
    let off = r#"set = [{ along = "across", at = "1.1 mm" }]"#;
    assert_eq!(
        room(off, align).answer("box.equal-gaps").verdict,
        Verdict::Fails
    );
}

#[test]
fn a_reading_that_disagrees_with_three_others_is_named() {
    let house = room(SET, FLUSH)
        .noted(
            "2027-05-10T12:00:00Z",
            "hall.walls/plaster",
            Kind::Done,
            None,
        )
        .read_off(
            "2027-05-10T12:10:00Z",
            "hall.walls/plaster",
            "thickness",
            "12 mm",
        )
        .read_off(
            "2027-05-10T12:11:00Z",
            "hall.walls/plaster",
            "thickness",
            "12.2 mm",
        )
        .read_off(
            "2027-05-10T12:12:00Z",
            "hall.walls/plaster",
            "thickness",
            "11.9 mm",
        )
        .read_off(
            "2027-05-10T12:13:00Z",
            "hall.walls/plaster",
            "thickness",
            "23 mm",
        );
    let doubts = house.answers().doubts;
    assert_eq!(doubts.len(), 1);
    assert_says(
        &doubts[0].said,
        &["The 23 mm reading", "by Nora", "11 mm", "measure again"],
    );
}

#[test]
fn where_a_box_was_read_to_stand_counts_not_what_it_was_to_be_set_to() {
    let house = room(SET, FLUSH)
        .noted("2027-05-10T12:00:00Z", "box", Kind::Done, None)
        .read_off("2027-05-10T12:10:00Z", "box", "depth", "9 mm");
    let box_ = house.answer("box.flush");
    // 9 mm out where 12 mm of plaster are to go on.
    assert_is(box_.figures.unwrap().mean, "-3 mm");
    assert_says(&box_.said, &["was to be 12 mm, and 9 mm was read"]);
    assert!(house.answers().doubts.is_empty());
}

#[test]
fn what_was_taken_off_again_was_not_read() {
    let house = room(SET, FLUSH)
        .noted(
            "2027-05-10T12:00:00Z",
            "hall.walls/plaster",
            Kind::Done,
            None,
        )
        .read_off(
            "2027-05-10T12:10:00Z",
            "hall.walls/plaster",
            "thickness",
            "9 mm",
        )
        .noted(
            "2027-05-11T12:00:00Z",
            "hall.walls/plaster",
            Kind::Undone,
            None,
        );
    assert_is(house.answer("box.flush").figures.unwrap().mean, "0 mm");
}

#[test]
fn a_reading_that_is_no_length_is_asked_about() {
    let house = room(SET, FLUSH).read_off(
        "2027-05-10T12:10:00Z",
        "hall.walls/plaster",
        "thickness",
        "about a thumb",
    );
    let site = house.site();
    let lines = grounds_lines::lines::Lines::of(&house.job, &site);
    assert_eq!(lines.unused.len(), 1);
    assert_says(&lines.unused[0].1, &["about a thumb", "12.5 mm ±0.5"]);
}
