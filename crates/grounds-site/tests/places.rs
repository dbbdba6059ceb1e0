//! Places, passages, trades, decisions, milestones, openings and the job as a whole.

mod house;

use grounds_model::Moment;
use grounds_site::{Kind, Value};
use house::{asked, june, note, site, state};

#[test]
fn a_place_noted_done_is_too_broad_to_act_on() {
    let site = site(&[note(1, june(7), "shower-room", Kind::Done)]);
    assert_eq!(
        asked(&site),
        [
            "Ana noted “done” on Mon 7 June for all of the shower room. Which layer or piece is meant?"
        ]
    );
    assert!(state(&site, "shower-room.walls/tile").done.is_none());
    assert_eq!(state(&site, "shower-room").notes, [house::id(1)]);
}

#[test]
fn a_place_is_shut_until_what_stands_in_the_way_is_cleared() {
    let shut = note(1, june(7), "stair-hall", Kind::Problem).with_words("scaffold");
    let open = note(2, june(9), "stair-hall", Kind::Cleared);
    let hall = state(&site(std::slice::from_ref(&shut)), "stair-hall");
    assert_eq!(hall.problems[0].words, "scaffold");
    assert!(
        state(&site(&[shut, open]), "stair-hall")
            .problems
            .is_empty()
    );
}

#[test]
fn a_trade_that_cannot_come_is_away_until_it_says() {
    let until = Moment {
        date: "2027-06-21".parse().unwrap(),
        time: None,
    };
    let ill = note(1, june(7), "tiler", Kind::Problem).with_value(Value::When(until));
    assert_eq!(state(&site(&[ill]), "tiler").problems[0].until, Some(until));
}

#[test]
fn troubles_stand_with_the_oldest_first() {
    let site = site(&[
        note(1, june(9), "shower-door", Kind::Problem).with_words("jammed"),
        note(2, june(7), "shower-door", Kind::Problem).with_words("no handle"),
    ]);
    let words: Vec<String> = state(&site, "shower-door")
        .problems
        .into_iter()
        .map(|problem| problem.words)
        .collect();
    assert_eq!(words, ["no handle", "jammed"]);
}

#[test]
fn a_reading_of_the_air_is_kept_by_place_and_time() {
    let site = site(&[
        note(1, june(7), "shower-room", Kind::Measured)
            .with_value(Value::Humidity("70 %".parse().unwrap())),
        note(2, june(6), "shower-room", Kind::Measured)
            .with_value(Value::Temperature("16 C".parse().unwrap())),
    ]);
    let [first, second] = site.climate.as_slice() else {
        panic!("two readings")
    };
    assert_eq!((first.at, first.note), (june(6), house::id(2)));
    assert_eq!(first.temperature, Some("16 C".parse().unwrap()));
    assert_eq!(first.humidity, None);
    assert_eq!(second.humidity, Some("70 %".parse().unwrap()));
    assert_eq!(second.place.as_str(), "shower-room");
}

#[test]
fn a_reading_for_the_whole_house_stands_for_each_place() {
    let read = note(1, june(7), "job", Kind::Measured)
        .with_value(Value::Temperature("16 C".parse().unwrap()));
    let site = site(&[read]);
    let places: Vec<&str> = site
        .climate
        .iter()
        .map(|reading| reading.place.as_str())
        .collect();
    assert_eq!(places, ["shower-room", "stair-hall"]);
}

#[test]
fn a_decision_is_made_and_can_be_taken_back() {
    let made = note(1, june(7), "glass-tint", Kind::Decided);
    let back = note(2, june(8), "glass-tint", Kind::Undone);
    assert!(
        state(&site(std::slice::from_ref(&made)), "glass-tint")
            .done
            .is_some()
    );
    assert!(state(&site(&[made, back]), "glass-tint").done.is_none());
}

#[test]
fn an_opening_is_measured_and_a_milestone_reached() {
    let site = site(&[
        note(1, june(7), "niche", Kind::Measured),
        note(2, june(8), "keys", Kind::Done),
    ]);
    assert!(state(&site, "niche").measured.is_some());
    assert!(state(&site, "keys").done.is_some());
    assert_eq!(asked(&site), Vec::<&str>::new());
}

#[test]
fn a_note_about_nothing_in_the_job_is_kept_and_the_nearest_names_are_offered() {
    let site = site(&[note(1, june(7), "stair-hal.walls/bse", Kind::Done)]);
    assert_eq!(
        asked(&site),
        [
            "The job has nothing called “stair-hal.walls/bse”, which a note is about. Is “stair-hall.walls/base” meant?"
        ]
    );
    assert!(site.notes.contains_key(&house::id(1)));
}
