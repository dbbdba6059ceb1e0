//! A coat that dries by giving off water dries as the air of its room lets it.
//!
//! How much longer it takes is Dalton's law: p_sat(T) · (1 − RH) of the air that its wait is given for,
//! 21.1 °C and 50 % where nothing is said, over that of the room. Saturation here is by hand from ASHRAE
//! Fundamentals (2017), chapter 1, table 3 (published), in kPa: 0.8726 at 5, 1.0730 at 8, 1.4028 at 12,
//! 2.5055 at 21.1 and 4.2467 at 30 °C. The room is made up; 7 June 2027 is a Monday.

mod house;

use grounds_site::{Kind, Value};
use house::{House, assert_says, small::plastered_room};

const MONDAY: &str = "2027-06-07 08:00";

/// What pulls water out at 21.1 °C and 50 %.
const SHEET: f64 = 2.5055 * 0.5;

fn room_at(celsius: &str, percent: &str) -> House {
    plastered_room().and(&format!(
        "[[climate]]\nfrom = \"2027-06-01\"\ntemperature = \"{celsius} C\"\nhumidity = \"{percent} %\"\n"
    ))
}

#[test]
fn plaster_in_cold_damp_air_takes_as_long_as_the_air_makes_it() {
    let plan = room_at("12", "75").planned(MONDAY);

    // 24 h by the sheet, from Monday 12:00.
    let hours = 24.0 * SHEET / (1.4028 * 0.25);
    assert!((hours - 85.7).abs() < 0.1, "{hours}");
    assert_eq!(plan.start("room.walls/top"), "Fri 2027-06-11 08:00");
    assert_says(
        &plan.why("room.walls/top"),
        &[
            "Base coat, room walls must dry 24 h; at 12 °C and 75 % that is 3 days 14 h, until Fri 11 June 2:00",
        ],
    );
    plan.assert_proved();
}

#[test]
fn warm_dry_air_is_never_quicker_than_the_sheet_unless_the_maker_says_by_how_much() {
    let usual = plastered_room().planned(MONDAY);
    let warm = room_at("30", "30").planned(MONDAY);
    for key in ["room.walls/top", "room.walls/paint"] {
        assert_eq!(warm.start(key), usual.start(key));
    }
    // The air alone would do with 0.42 of it; the maker wants half in any case: 12 h from Monday noon.
    let share = SHEET / (4.2467 * 0.7);
    assert!((share - 0.42).abs() < 0.01, "{share}");
    let half = room_at("30", "30").with(
        "recoat = \"24 h\"",
        "recoat = \"24 h\"\ndries = { least = \"50 %\" }",
    );
    let plan = half.planned(MONDAY);
    assert_eq!(plan.start("room.walls/top"), "Tue 2027-06-08 08:00");
    assert_says(
        &plan.why("room.walls/top"),
        &["must dry 24 h; at 30 °C and 30 % that is 12 h, until tomorrow"],
    );
}

#[test]
fn where_the_maker_gives_his_waits_for_damp_air_they_hold_in_damp_air() {
    let usual = plastered_room().planned(MONDAY);
    let known = room_at("12", "75").with(
        "recoat = \"24 h\"",
        "recoat = \"24 h\"\ndries = { at = \"12 C\", humidity = \"75 %\" }",
    );
    let plan = known.planned(MONDAY);
    assert_eq!(plan.start("room.walls/top"), usual.start("room.walls/top"));
}

#[test]
fn a_reading_counts_for_a_week_and_then_the_air_that_the_job_expects() {
    let damp = plastered_room()
        .put(
            "2027-06-07 06:00",
            "room",
            Kind::Measured,
            Some(Value::Temperature("8 C".parse().unwrap())),
            "",
        )
        .put(
            "2027-06-07 06:00",
            "room",
            Kind::Measured,
            Some(Value::Humidity("90 %".parse().unwrap())),
            "",
        );
    let plan = damp.planned(MONDAY);
    // From Monday 12:00 to the next Monday 6:00 it dries 162 h at one part in 11.7; the rest of the 24 h
    // by the clock, as nobody knows the air any more.
    let slower = SHEET / (1.0730 * 0.10);
    let rest = 24.0 - 162.0 / slower;
    assert!((10.0..10.3).contains(&rest), "{rest}");
    assert_eq!(plan.start("room.walls/top"), "Tue 2027-06-15 08:00");
    plan.assert_proved();

    let heated = damp.and(
        "[[climate]]\nfrom = \"2027-06-09\"\ntemperature = \"21 C\"\nhumidity = \"50 %\"\nforecast = true\n",
    );
    // The heater comes on Wednesday: 36 h at one part in 11.7, and 21 h more.
    assert!((24.0 - 36.0 / slower - 20.9).abs() < 0.1);
    let plan = heated.planned(MONDAY);
    assert_eq!(plan.start("room.walls/top"), "Thu 2027-06-10 08:00");
    assert_says(
        &plan.why("room.walls/top"),
        &["must dry 24 h; at 8 °C and 90 %, from Wed 9 June at 21 °C and 50 %, that is 2 days 9 h"],
    );
}

#[test]
fn lime_goes_by_its_limits_alone() {
    let lime = plastered_room().with(
        "name = \"Base coat\"\nmaterial = \"plaster\"",
        "name = \"Base coat\"\nmaterial = \"lime\"",
    );
    let damp = lime
        .and("[[climate]]\nfrom = \"2027-06-01\"\ntemperature = \"12 C\"\nhumidity = \"75 %\"\n");
    assert_eq!(
        damp.planned(MONDAY).start("room.walls/top"),
        "Tue 2027-06-08 12:00"
    );
}

#[test]
fn damper_air_never_dries_sooner() {
    let mut before = 0;
    for percent in ["20", "50", "60", "70", "80", "90", "98"] {
        let start = room_at("15", percent)
            .planned(MONDAY)
            .start_tick("room.walls/paint");
        assert!(start >= before, "{percent} %");
        before = start;
    }
}

#[test]
fn the_last_moment_for_the_next_coat_comes_later_where_it_dries_slowly() {
    let room = |climate: &str| {
        plastered_room()
            .with(
                "cover = \"72 h\"",
                "cover = \"72 h\"\nlatest_recoat = \"80 h\"",
            )
            .and(climate)
    };
    let plan =
        room("[[climate]]\nfrom = \"2027-06-01\"\ntemperature = \"12 C\"\nhumidity = \"75 %\"\n")
            .planned(MONDAY);
    plan.assert_proved();
}

#[test]
fn a_share_of_nothing_and_of_more_than_all_are_refused() {
    for least in ["0 %", "120 %"] {
        let text = plastered_room().text.replace(
            "recoat = \"24 h\"",
            &format!("recoat = \"24 h\"\ndries = {{ least = \"{least}\" }}"),
        );
        let faults = grounds_model::Job::from_toml(&text)
            .unwrap_err()
            .to_string();
        assert!(faults.contains("the least share of a wait"), "{faults}");
    }
}
