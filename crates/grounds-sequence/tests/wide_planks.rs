//! Wide planks cup near one bathroom; nothing is sanded until they are dry again.
//!
//! Rule: solid boards 3 in wide or more within 2 points of the moisture they were laid at (trade
//! guidance: common practice). They were laid at 10: 17, 14 and 13 are out, 10 and 10 are in.

mod house;

use grounds_site::Kind;
use house::{House, assert_says};

const NOW: &str = "2027-10-04 08:30";

#[test]
fn sanding_is_held_where_readings_are_out_and_only_there() {
    let laid_at = 10_i32;
    let readings = [
        ("bathroom", 17),
        ("hall", 14),
        ("closet", 13),
        ("living-room", 10),
        ("bedroom", 10),
    ];
    let plan = House::case("wide-planks").planned(NOW);

    for (room, reading) in readings {
        let out = (reading - laid_at).abs() > 2;
        let sand = format!("{room}.floor/sand");
        assert_eq!(plan.can_start(&sand), !out, "{room}");
        if out {
            let roots = plan.roots(&sand).join("; ");
            assert_says(&roots, &["Planks within 2 points of 10 %", "failed"]);
        }
    }
}

#[test]
fn the_leak_is_mended_before_the_planks_are_measured_again() {
    let plan = House::case("wide-planks").planned(NOW);

    assert!(plan.can_start("dry-again:put-right"));
    // A working day of the plumber from Monday 08:30.
    assert_eq!(plan.finish("dry-again:put-right"), "Tue 2027-10-05 08:30");
    assert!(plan.start_tick("dry-again") >= plan.finish_tick("dry-again:put-right"));
    assert_says(&plan.why("dry-again"), &["put right first"]);
    assert!(plan.start_tick("hall.floor/sand") >= plan.finish_tick("dry-again"));
}

#[test]
fn sanding_goes_on_once_the_readings_are_back() {
    let house = House::case("wide-planks")
        .noted_words(
            "2027-10-06 12:00",
            "dry-again",
            Kind::Cleared,
            "trap of the bath sealed",
        )
        .noted_words(
            "2027-12-06 08:00",
            "dry-again",
            Kind::Passed,
            "12, 11 and 11",
        );
    let plan = house.planned("2027-12-06 08:15");

    for room in ["bathroom", "hall", "closet"] {
        assert!(plan.can_start(&format!("{room}.floor/sand")), "{room}");
    }
}
