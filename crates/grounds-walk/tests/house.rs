//! What is said on a walk through a mill, and what is proposed from it. The house is invented; the
//! ways of saying are common practice.

#![allow(clippy::expect_used, reason = "a test stops at the first surprise")]

use grounds_measure::{Length, Units};
use grounds_walk::{
    Certainty, Kind, Person, Place, Proposal, Role, Unit, Vocabulary, Walk, read, transcript,
};
use jiff::civil::{Date, date, time};

fn place(name: &str, also: &[&str]) -> Place {
    Place {
        id: name.to_lowercase().replace(' ', "-"),
        name: name.into(),
        also: also.iter().map(|name| (*name).into()).collect(),
    }
}

/// Tuesday 8 June 2027 at the mill.
fn mill(units: Units) -> Vocabulary {
    Vocabulary {
        day: date(2027, 6, 8),
        units,
        places: vec![
            place("Mill hall", &["the hall"]),
            place("Kitchen", &["galley"]),
            place("Bath", &[]),
            place("Bin floor", &[]),
        ],
        people: vec![
            Person {
                id: "tiler".into(),
                name: "Ana".into(),
                also: vec!["tiler".into()],
            },
            Person {
                id: "smith".into(),
                name: "Corin".into(),
                also: vec!["blacksmith".into()],
            },
        ],
        things: vec![],
    }
}

fn walk_in(talk: &str, units: Units) -> Walk {
    read(&transcript::read(talk).expect("it has talk"), &mill(units))
}

fn walk(talk: &str) -> Walk {
    walk_in(talk, Units::Metric)
}

/// Kind and thing of each proposal.
fn said(talk: &str) -> Vec<(Kind, String)> {
    walk(talk)
        .proposals
        .into_iter()
        .map(|p| (p.kind, p.thing))
        .collect()
}

fn only(talk: &str) -> Proposal {
    let mut proposals = walk(talk).proposals;
    assert_eq!(proposals.len(), 1, "{talk}: {proposals:#?}");
    proposals.remove(0)
}

fn day_of(proposal: &Proposal) -> Option<Date> {
    proposal.when.and_then(|when| when.day)
}

#[test]
fn the_place_is_carried_until_another_is_named() {
    let walk = walk(
        "[0:01] Kitchen. Sink's in.\n[0:05] Tap isn't.\n[0:09] Back in the hall. Newel is up.",
    );
    let places: Vec<Option<usize>> = walk.proposals.iter().map(|p| p.place).collect();
    assert_eq!(places, [Some(1), Some(1), Some(0)]);
}

#[test]
fn a_nickname_is_the_place_and_a_denied_one_is_not() {
    assert_eq!(only("[0:01] Galley. Oven is in.").place, Some(1));
    let walk = walk("[0:01] Bath. Not kitchen. Basin is fitted.");
    assert_eq!(walk.proposals[0].place, Some(2));
}

#[test]
fn done_and_not_done_stand_side_by_side() {
    assert_eq!(
        said("[0:01] Kitchen. Carcasses are fixed, plinths aren't."),
        [
            (Kind::Done, "carcasses".to_owned()),
            (Kind::NotDone, "plinths".to_owned()),
        ]
    );
    assert_eq!(
        said("[0:01] Bath. No mirror yet."),
        [(Kind::NotDone, "mirror".to_owned())]
    );
}

#[test]
fn what_was_to_be_done_to_it_is_part_of_the_name() {
    let not = only("[0:01] Bath. Wall tile isn't grouted.");
    assert_eq!(not.kind, Kind::NotDone);
    assert!(not.thing.contains("grouted"));
}

#[test]
fn goods_come_or_do_not() {
    assert_eq!(only("[0:01] Kitchen. Oven came.").kind, Kind::Delivered);
    assert_eq!(
        only("[0:01] Kitchen. Oven's not here.").kind,
        Kind::NotDelivered
    );
}

#[test]
fn a_share_of_the_work_is_begun() {
    let five = only("[0:01] Kitchen. Wall units fitted, four of seven.");
    assert_eq!(five.kind, Kind::Started);
    let numbers: Vec<i64> = five
        .readings
        .iter()
        .filter_map(|r| r.amount.number.as_whole())
        .collect();
    assert_eq!(numbers, [4, 7]);
}

#[test]
fn faults_are_told_with_their_size() {
    let fault = only("[0:01] Bath. Screen's three mil too wide.");
    assert_eq!(fault.kind, Kind::Wrong);
    assert_eq!(fault.readings[0].role, Role::Out);
    assert_eq!(fault.readings[0].amount.length(), Some(Length::from_mm(3)));
}

#[test]
fn a_list_of_readings_is_one_measurement() {
    let gap = only(
        "[0:01] Mill hall. Reveal gap. I've got twelve, twelve, thirteen and nine at the sill.",
    );
    assert_eq!(gap.kind, Kind::Measured);
    let lengths: Vec<Option<Length>> = gap.readings.iter().map(|r| r.amount.length()).collect();
    let mm = |n: i64| Some(Length::from_mm(n));
    assert_eq!(lengths, [mm(12), mm(12), mm(13), mm(9)]);
    assert_eq!(gap.readings[3].at, "sill");
}

#[test]
fn a_reading_below_what_is_needed_is_also_a_fault() {
    let talk = "[0:01] Kitchen. Gap at the oven is five ninety seven. Needs six hundred.";
    let kinds: Vec<Kind> = walk(talk).proposals.iter().map(|p| p.kind).collect();
    assert_eq!(kinds, [Kind::Measured, Kind::Wrong]);
}

#[test]
fn moisture_is_in_percent_and_is_not_judged() {
    let boards = only("[0:01] Bin floor. Boards are reading thirteen and a half. Want twelve.");
    assert_eq!(boards.kind, Kind::Measured);
    assert_eq!(boards.readings[0].amount.unit, Unit::Percent);
    assert_eq!(boards.readings[1].role, Role::Wanted);
}

#[test]
fn inches_and_fractions_are_exact() {
    let walk = walk_in(
        "[0:01] Mill hall. Door opening measures thirty two and five eighths.",
        Units::Imperial,
    );
    let length = walk.proposals[0].readings[0].amount.length();
    assert_eq!(length, Some(Length::from_64ths(32 * 64 + 40)));
}

#[test]
fn what_waits_says_for_what() {
    let waits = only("[0:01] Bath. Shower glass is waiting for the sill stone.");
    assert_eq!(waits.kind, Kind::Blocked);
    assert_eq!(waits.cause.as_deref(), Some("the sill stone"));
    let hold = only("[0:01] Mill hall. Don't bring the settle in till the floor is oiled.");
    assert_eq!(hold.kind, Kind::Blocked);
    assert_eq!(hold.cause.as_deref(), Some("the floor is oiled"));
}

#[test]
fn dates_are_reckoned_from_the_walks_day() {
    // 8 June 2027 is a Tuesday: arithmetic of the calendar.
    for (said, day) in [
        ("Oven's tomorrow.", date(2027, 6, 9)),
        ("Oven's Friday.", date(2027, 6, 11)),
        ("Oven is next Tuesday.", date(2027, 6, 15)),
        ("Oven's the fifteenth.", date(2027, 6, 15)),
        ("Oven's due Friday week.", date(2027, 6, 18)),
        ("Oven is the second of July.", date(2027, 7, 2)),
        ("Oven's coming in two weeks.", date(2027, 6, 22)),
    ] {
        let step = only(&format!("[0:01] Kitchen. {said}"));
        assert_eq!(step.kind, Kind::Next, "{said}");
        assert_eq!(day_of(&step), Some(day), "{said}");
    }
    let done = only("[0:01] Kitchen. Template was Friday.");
    assert_eq!(
        (done.kind, day_of(&done)),
        (Kind::Done, Some(date(2027, 6, 4)))
    );
}

#[test]
fn an_hour_in_the_afternoon_is_said_without_saying_so() {
    let step = only("[0:01] Kitchen. Oven's tomorrow at four.");
    assert_eq!(
        step.when.and_then(|when| when.time),
        Some(time(16, 0, 0, 0))
    );
}

#[test]
fn a_date_put_right_replaces_the_first() {
    let step = only("[0:01] Kitchen. Oven's Thursday. I said Thursday, it's Friday.");
    assert_eq!(day_of(&step), Some(date(2027, 6, 11)));
}

#[test]
fn orders_and_intents_are_next_steps() {
    assert_eq!(only("[0:01] Bath. Plane the door.").kind, Kind::Next);
    assert_eq!(
        only("[0:01] Bath. I'll ring the stone people.").kind,
        Kind::Next
    );
    let step = only("[0:01] Bath. Corin has to move the rail.");
    assert_eq!(step.who.as_deref(), Some("Corin"));
}

#[test]
fn an_open_choice_is_a_decision() {
    assert_eq!(
        only("[0:01] Bath. She hasn't picked the wall colour.").kind,
        Kind::Decision
    );
}

#[test]
fn what_somebody_says_is_hearsay_and_a_doubt_is_a_doubt() {
    let told = only("[0:01] Kitchen. Corin says the rail is fixed.");
    assert_eq!(told.certainty, Certainty::Hearsay);
    let doubt = only("[0:01] Kitchen. The rail is fixed, I think.");
    assert_eq!(doubt.certainty, Certainty::Hedged);
    let firm = only("[0:01] Kitchen. The rail is fixed.");
    assert_eq!(firm.certainty, Certainty::Firm);
}

#[test]
fn an_answer_settles_a_question() {
    let sink = only("[0:01] Kitchen. Is the sink on site?\n[0:03] No.");
    assert_eq!(sink.kind, Kind::NotDelivered);
    assert_eq!(sink.cue, 1);
}

#[test]
fn misheard_words_are_mended() {
    assert_eq!(only("[0:01] Kitchen. Base bored is on.").thing, "baseboard");
    assert!(
        only("[0:01] Kitchen. Jewel post is loose.")
            .thing
            .contains("newel")
    );
}

#[test]
fn talk_of_other_things_is_left_alone() {
    let walk = walk(
        "[0:01] Kitchen.\n[0:03] Is that your dog?\n[0:05] What a price for parking.\n[0:09] Mind the step.",
    );
    assert!(walk.proposals.is_empty(), "{:#?}", walk.proposals);
    assert!(walk.questions.is_empty(), "{:#?}", walk.questions);
}

#[test]
fn what_matters_and_is_not_understood_is_asked() {
    let walk = walk(
        "[0:01] Kitchen.\n[0:03] Pressure on the cold side was not what the plumber had it at.",
    );
    assert_eq!(walk.proposals, []);
    assert_eq!(walk.questions[0].cue, 1);
}

#[test]
fn the_last_words_repeat_and_propose_nothing_twice() {
    let talk = "[0:01] Bath. Plane the door.\n[0:05] Tile is grouted.\n[0:07] Basin is in.\n[0:09] Tap is in.\n[0:11] Waste is in.\n[0:13] Screen is in.\n[0:15] Right, that's it. Plane the door.";
    let planed = said(talk)
        .into_iter()
        .filter(|(kind, _)| *kind == Kind::Next)
        .count();
    assert_eq!(planed, 1);
}
