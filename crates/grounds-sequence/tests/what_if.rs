//! What if: what is shown is what would happen if it were noted, and nothing is noted by looking.
//!
//! Dates are derived in each test from the hours and waits that it states.

#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "a job of a test that does not plan is a fault of the test"
)]

mod house;

use grounds_model::{Id, Job};
use grounds_sequence::{
    Effort, HeldUp, Outlook,
    what_if::{Supposed, WhatIf, what_if},
};
use grounds_site::{Kind, Site, Value};
use house::{
    House, Planned, assert_says,
    small::{PLASTERED, face, house},
};

const MONDAY: &str = "2027-06-07 07:00";

/// Base and top coat and paint in the room, a glass panel after them, and a date for it.
fn room_with_panel() -> House {
    house(&[PLASTERED, &face("room", "walls", "wall", "plastered")])
        .and(
            r#"
            [pieces.panel]
            name = "Glass panel"
            trade = "glass"
            place = "room"
            takes = "2 h"
            after = ["room.walls/paint"]
            lead = "2 / 3 / 4 weeks"

            [milestones.ready]
            name = "Ready"
            after = ["panel"]

            [decisions.colour]
            name = "Wall colour"
            by = "Owner"
            expected = "2027-06-08"
            before = ["room.walls/paint"]
            "#,
        )
        .noted_for("2027-06-04 09:00", "panel", Kind::Ordered, "2027-06-15")
}

fn nothing_held(_: &Job, _: &Site) -> Vec<HeldUp> {
    Vec::new()
}

fn suppose(house: &House, now: &str, what: &WhatIf) -> (Planned, Supposed) {
    let plan = house.planned(now);
    let supposed = what_if(
        &plan.job,
        &house.notes,
        &plan.outlook,
        what,
        &nothing_held,
        Effort::default(),
    )
    .expect("a what if");
    (plan, supposed)
}

fn read(house: &House, text: &str) -> WhatIf {
    WhatIf::read(text, &house.job()).unwrap_or_else(|error| panic!("{error}"))
}

fn ready_days(supposed: &Supposed) -> i32 {
    supposed.effect.days(Some(&Id::from("ready")))
}

/// Fails unless the plan after something was really entered is the one that was shown.
fn assert_same(supposed: &Supposed, real: &Outlook) {
    assert_eq!(supposed.outlook.plan, real.plan);
    assert_eq!(supposed.outlook.cost, real.cost);
    assert_eq!(supposed.outlook.order(), real.order());
}

#[test]
fn a_panel_that_comes_late_is_shown_as_it_would_be_noted() {
    let house = room_with_panel();
    let what = read(&house, "panel arrives 2027-06-24");
    let (plan, supposed) = suppose(&house, MONDAY, &what);

    // Tuesday 15 June 10:00 becomes Thursday 24 June 10:00.
    assert_eq!(plan.start("ready"), "Tue 2027-06-15 10:00");
    assert_eq!(ready_days(&supposed), -9);
    let noted = house.noted_for(MONDAY, "panel", Kind::Promised, "2027-06-24");
    assert_same(&supposed, &noted.planned_after(MONDAY, &plan).outlook);

    let said = plan.words().what_if(&supposed);
    assert_says(&said.title, &["With glass panel on site Thu 24 June"]);
    assert_says(
        &said.reached.join(" "),
        &["“Ready” comes nine days later, Thu 24 June instead of Tue 15 June."],
    );
    // Nine days at 100.
    assert_says(&said.cost, &["£900"]);
    assert_eq!(said.enter, ["A note: panel promised 2027-06-24"]);
}

#[test]
fn days_later_are_counted_from_the_planned_day() {
    let house = room_with_panel();
    let later = read(&house, "panel later 3 days");
    let (_, supposed) = suppose(&house, MONDAY, &later);

    assert_eq!(ready_days(&supposed), -3);
    assert_eq!(
        supposed.notes[0].value,
        Some(Value::When("2027-06-18".parse().unwrap()))
    );
}

#[test]
fn an_answer_that_comes_before_it_is_needed_moves_nothing() {
    let house = room_with_panel();
    // Paint begins on Monday 14 June: an answer on Friday is early enough, one on the 21st is not.
    let (_, early) = suppose(&house, MONDAY, &read(&house, "colour decided 2027-06-11"));
    let (plan, late) = suppose(&house, MONDAY, &read(&house, "colour decided 2027-06-21"));

    assert_eq!(ready_days(&early), 0);
    assert!(early.effect.moves.is_empty());
    // Painted Monday 21 June until 12:00, and the panel after it until 14:00.
    assert_eq!(ready_days(&late), -6);
    assert_says(
        &plan.words().what_if(&late).moves.join(" "),
        &["Paint, room walls: Mon 21 June instead of Mon 14 June."],
    );
}

#[test]
fn a_plasterer_who_is_away_from_today_is_shown_as_he_would_be_noted() {
    let house = room_with_panel();
    let what = read(&house, "plaster away 2027-06-07 to 2027-06-09");
    let (plan, supposed) = suppose(&house, MONDAY, &what);

    // Base on Thursday, top on Friday, dry on Monday, painted on Tuesday, the panel after that.
    let moved = &supposed.effect.moves[0];
    assert_eq!(moved.key, "room.walls/base");
    assert_eq!(plan.wall(moved.after.unwrap()), "Thu 2027-06-10 08:00");
    let until = Some(Value::When("2027-06-10".parse().unwrap()));
    let noted = house.put(MONDAY, "plaster", Kind::Problem, until, "Away");
    assert_same(&supposed, &noted.planned_after(MONDAY, &plan).outlook);
}

#[test]
fn a_painter_who_is_away_next_week_is_shown_as_the_job_would_close_those_days() {
    let house = room_with_panel();
    let what = read(&house, "paint away 2027-06-14 to 2027-06-18");
    let (plan, supposed) = suppose(&house, MONDAY, &what);

    assert!(supposed.notes.is_empty());
    assert_says(
        &supposed.lines.join(" "),
        &["paint", "2027-06-14", "2027-06-18"],
    );
    let closed = house
        .with(
            "name = \"Painter\"",
            "name = \"Painter\"\ncalendar = \"own\"",
        )
        .and(
            r#"
            [calendars.own]
            days = ["mon", "tue", "wed", "thu", "fri"]
            hours = ["08:00-16:00"]
            closed = [{ from = "2027-06-14", to = "2027-06-18", why = "Away" }]
            "#,
        );
    let real = closed.planned_after(MONDAY, &plan);
    assert_same(&supposed, &real.outlook);
    assert_eq!(real.start("room.walls/paint"), "Mon 2027-06-21 08:00");
}

/// The room with a test between its coats: an hour of it, a day's notice, 4 h to put right.
fn tested_room() -> House {
    room_with_panel().and(
        r#"
        [holds.pull]
        name = "Pull test"
        kind = "test"
        place = "room"
        after = ["room.walls/base"]
        before = ["room.walls/top"]
        takes = "1 h"
        put_right = "4 h"
        put_right_by = "plaster"
        "#,
    )
}

#[test]
fn a_test_that_can_be_tried_today_fails_as_it_would_be_noted() {
    let house = tested_room().noted("2027-06-04 12:00", "room.walls/base", Kind::Done);
    let now = "2027-06-07 08:00";
    let (plan, supposed) = suppose(&house, now, &read(&house, "pull fails"));

    let noted = house.noted(now, "pull", Kind::Failed);
    let real = noted.planned_after(now, &plan);
    assert_same(&supposed, &real.outlook);
    // Put right until 12:00, tried again until 13:00.
    assert_eq!(real.finish("pull"), "Mon 2027-06-07 13:00");
}

#[test]
fn a_test_still_to_come_is_put_right_and_tried_again() {
    let house = tested_room();
    let (plan, supposed) = suppose(&house, MONDAY, &read(&house, "pull fails"));

    // Base until Monday 12:00 and 24 h, tried until Tuesday 13:00, put right until Wednesday 09:00
    // (4 h), tried until 10:00. The top coat then dries over the weekend either way.
    assert!(supposed.notes.is_empty() && supposed.lines.is_empty());
    let network = &supposed.outlook.network;
    let again = network.find("pull:again").expect("tried again");
    let plan_then = &supposed.outlook.plan;
    assert_eq!(
        plan.wall(plan_then.finishes[again.index()]),
        "Wed 2027-06-09 10:00"
    );
    let top = network.find("room.walls/top").expect("the top coat");
    assert!(plan_then.finishes[again.index()] <= plan_then.starts[top.index()]);
    assert_eq!(ready_days(&supposed), 0);
    assert!(supposed.outlook.breaches.is_empty());
    assert_says(
        &plan.words().what_if(&supposed).enter.join(" "),
        &["note it when it is tried"],
    );
}

#[test]
fn a_long_mend_holds_up_what_waits_for_the_test() {
    let house = tested_room().with("put_right = \"4 h\"", "put_right = \"3 days\"");
    let (plan, supposed) = suppose(&house, MONDAY, &read(&house, "pull fails"));

    // Tried until Tuesday 13:00, three days by the clock to Friday 13:00, tried until 14:00.
    let network = &supposed.outlook.network;
    let top = network.find("room.walls/top").expect("the top coat");
    assert_eq!(
        plan.wall(supposed.outlook.plan.starts[top.index()]),
        "Fri 2027-06-11 14:00"
    );
}

#[test]
fn a_panel_damaged_on_site_is_ordered_anew_and_shown_as_it_would_be_noted() {
    let house = room_with_panel().noted("2027-06-07 06:00", "panel", Kind::Arrived);
    let (plan, supposed) = suppose(&house, MONDAY, &read(&house, "panel damaged"));

    // Three weeks from Monday 07:00.
    let arrive = supposed.outlook.network.find("panel:arrive").unwrap();
    let comes = supposed.outlook.plan.starts[arrive.index()];
    assert_eq!(plan.wall(comes), "Mon 2027-06-28 08:00");
    assert_says(
        &plan.words().what_if(&supposed).enter.join(" "),
        &["come Mon 28 June by its usual time to make"],
    );
    let noted = house.noted(MONDAY, "panel", Kind::Damaged);
    assert_same(&supposed, &noted.planned_after(MONDAY, &plan).outlook);
}

#[test]
fn looking_changes_neither_notes_nor_plan() {
    let house = room_with_panel();
    let plan = house.planned(MONDAY);
    let before = (plan.outlook.plan.clone(), house.notes.clone());
    let what = read(&house, "panel arrives 2027-06-24");
    let first = what_if(
        &plan.job,
        &house.notes,
        &plan.outlook,
        &what,
        &nothing_held,
        Effort::default(),
    )
    .unwrap();
    let second = what_if(
        &plan.job,
        &house.notes,
        &plan.outlook,
        &what,
        &nothing_held,
        Effort::default(),
    )
    .unwrap();

    assert_eq!(first.effect, second.effect);
    assert_eq!((plan.outlook.plan, house.notes), before);
}

#[test]
fn what_makes_no_sense_is_refused_with_its_mend() {
    let house = room_with_panel().noted("2027-06-04 10:00", "room.walls/base", Kind::Started);
    let plan = house.planned(MONDAY);
    for (text, said) in [
        ("panel arrives 2027-05-01", "2027-05-01 is past"),
        ("plaster away 2027-06-18 to 2027-06-14", "before"),
        ("room.walls/paint damaged", "not begun yet"),
    ] {
        let what = read(&house, text);
        let error = what_if(
            &plan.job,
            &house.notes,
            &plan.outlook,
            &what,
            &nothing_held,
            Effort::default(),
        )
        .expect_err(text);
        assert_says(&error.to_string(), &[said]);
    }
}

#[test]
fn a_text_that_is_not_read_says_where_it_goes_wrong_and_how_to_mend_it() {
    let job = room_with_panel().job();
    for (text, at, said) in [
        ("", 0, "a key of the job is missing"),
        ("panel", 5, "what happens to it is missing"),
        ("panle arrives 2027-06-24", 0, "is panel meant?"),
        ("panel arrives", 13, "a date like 2027-09-24 is missing"),
        ("panel arrives tomorrow", 14, "`tomorrow` is no date"),
        ("panel arrives 2027-02-30", 14, "is no date"),
        ("panel melts", 6, "`melts` is not known"),
        ("panel later soon", 12, "write a whole number like 5"),
        ("panel later 99999 days", 12, "no number of days"),
        (
            "plaster away 2027-06-14 until 2027-06-18",
            24,
            "2027-06-14 to 2027-06-18",
        ),
        ("panel damaged twice", 14, "leave it out"),
        ("glass fails", 0, "the job has no hold `glass`"),
        ("\u{1b}[31m arrives 2027-06-24", 0, "\\u{1b}"),
    ] {
        let error = WhatIf::read(text, &job).expect_err(text);
        assert_eq!(error.at, Some(at), "{text}: {error}");
        assert_says(&error.to_string(), &[said]);
    }
    let long = "x".repeat(5_000);
    assert!(WhatIf::read(&long, &job).is_err());
}
