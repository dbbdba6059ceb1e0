//! The mill of the examples: a plan that people know stays when nothing important happens.

#![allow(
    clippy::unwrap_used,
    reason = "a job of a test that does not plan is a fault of the test"
)]

mod house;

use std::{collections::BTreeMap, path::Path};

use grounds_schedule::{DAY, Search, Start, Tick};
use grounds_sequence::{
    Effort, Outlook, TaskState, Work,
    what_if::{WhatIf, what_if},
};
use grounds_site::{Kind, Value};
use house::{House, Planned};

const MORNING: &str = "2027-06-10 07:10";
const A_LITTLE_LATER: &str = "2027-06-10 07:15";

fn mill() -> House {
    House::folder(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/alder-sluice"))
}

/// Notes that change nothing important: what was expected happens, or something is said again.
fn unimportant() -> Vec<(&'static str, Kind, Option<Value>)> {
    let day = |text: &str| Some(Value::When(text.parse().unwrap()));
    let share = |text: &str| Some(Value::Share(text.parse().unwrap()));
    vec![
        ("job", Kind::Remark, None),
        ("mill-hall", Kind::Remark, None),
        ("guest-room.walls/skim", Kind::Progress, share("77 %")),
        ("back-stair.wall/mist-coat", Kind::Progress, share("84 %")),
        ("stair-upper.soffit/scrim", Kind::Started, None),
        ("plant-room.floor/leveller", Kind::Started, None),
        ("laundry.walls/third", Kind::Started, None),
        ("kitchen-door", Kind::Promised, day("2027-06-14")),
        ("kitchen-door", Kind::Shipped, None),
        ("kitchen-door", Kind::Arrived, None),
        ("wash-room-door", Kind::Promised, day("2027-06-16")),
        ("wash-room-door", Kind::Shipped, None),
        ("bedroom-door", Kind::Promised, day("2027-06-17")),
        ("bedroom-door", Kind::Arrived, None),
        ("scullery-door", Kind::Promised, day("2027-06-18")),
        ("scullery-door", Kind::Shipped, None),
        ("stain-colour", Kind::Decided, None),
        ("counting-paper-choice", Kind::Decided, None),
        ("front-colour", Kind::Decided, None),
        ("dining-boxes-look", Kind::Passed, None),
        ("kitchen-screed-dry", Kind::Passed, None),
    ]
}

/// The plan as it is once a better one was looked for.
fn looked_for(house: &House) -> Planned {
    let network = house.network(MORNING);
    let mut search = Search::new(&network.problem, &Start::default()).unwrap();
    search.run(400);
    let found = search.best().clone();
    drop(search);
    Planned {
        job: house.job(),
        outlook: Outlook::of(network, found, None).unwrap(),
    }
}

/// Work to come that starts within ten working days: how much there is, and how much of it moved.
fn moved(before: &Planned, after: &Planned) -> (usize, usize) {
    let now = after.outlook.network.now_tick();
    let soon = |at: Tick| (now..now + 14 * DAY).contains(&at);
    let (mut seen, mut moved) = (0, 0);
    for task in &after.outlook.network.tasks {
        let to_come = task.state == TaskState::ToCome && task.trade.is_some();
        if !to_come || !before.has(&task.key) {
            continue;
        }
        let (was, is) = (before.start_tick(&task.key), after.start_tick(&task.key));
        if soon(was) || soon(is) {
            seen += 1;
            moved += usize::from(was != is);
        }
    }
    (seen, moved)
}

#[test]
fn what_happens_as_expected_moves_next_to_nothing_of_the_next_ten_working_days() {
    let house = mill();
    let known = looked_for(&house);
    let (mut seen, mut all) = (0, 0);
    for (about, kind, value) in unimportant() {
        let noted = house.clone().put(A_LITTLE_LATER, about, kind, value, "");
        let (near, changed) = moved(&known, &noted.planned_after(A_LITTLE_LATER, &known));
        println!("{about} {}: {changed} of {near}", kind.word());
        (seen, all) = (seen + near, all + changed);
    }
    assert!(seen > 2_000, "{seen}");
    assert!(all * 50 <= seen, "{all} of {seen} starts moved");
}

#[test]
fn a_week_without_the_tiler_moves_what_must_move() {
    let house = mill();
    let known = looked_for(&house);
    let job = house.job();
    let away = WhatIf::read("tile away 2027-06-14 to 2027-06-18", &job).unwrap();
    let effort = Effort::default();
    let supposed = what_if(
        &job,
        &house.notes,
        &known.outlook,
        &away,
        &|_, _| Vec::new(),
        effort,
    )
    .unwrap();
    let moves = &supposed.effect.moves;
    assert!((5..=40).contains(&moves.len()), "{moves:?}");
    let sooner = moves.iter().filter(|moved| moved.after < moved.before);
    assert!(sooner.count() * 10 <= moves.len(), "{moves:?}");
}

#[test]
fn promises_that_are_moved_are_named_with_their_reason() {
    let house = mill();
    let planned = house.planned(MORNING);
    let said = planned.words().moved_promises();
    assert!(!said.is_empty());
    for (id, sentence) in said {
        let task = planned.outlook.network.task(id).unwrap();
        assert!(sentence.contains(&task.name), "{sentence}");
        assert!(sentence.contains(" was promised for "), "{sentence}");
        println!("{sentence}");
    }
}

/// Two days go by as planned; every start and end is noted when it was planned.
#[test]
fn days_that_go_by_as_planned_move_next_to_nothing() {
    let mut house = mill();
    let mut known = looked_for(&house);
    let until = known.outlook.network.now_tick() + 2 * DAY;
    let (mut seen, mut all, mut notes, mut days) = (0, 0, 0, 0);
    let mut said = Vec::new();
    while let Some((at, events)) = next_as_planned(&known, until, &said) {
        let local = known.outlook.network.clock.zoned(at).strftime("%F %H:%M");
        let local = local.to_string();
        notes += events.len();
        for (about, kind) in &events {
            house = house.noted(&local, about, *kind);
        }
        let next = house.planned_after(&local, &known);
        let (near, changed) = moved(&known, &next);
        println!("{local} {events:?}: {changed} of {near}");
        days += moved_by_days(&known, &next);
        (seen, all) = (seen + near, all + changed);
        known = next;
        said.extend(events);
    }
    println!("{notes} notes, {all} of {seen} moved, {days} to another day");
    assert!(notes > 60, "{notes}");
    assert!(all * 50 <= seen, "{all} of {seen} starts moved");
}

/// Every start and end of the plan at the next moment that has any, as somebody would note it.
fn next_as_planned(
    plan: &Planned,
    until: Tick,
    said: &[(String, Kind)],
) -> Option<(Tick, Vec<(String, Kind)>)> {
    let outlook = &plan.outlook;
    let mut events: BTreeMap<Tick, Vec<(String, Kind)>> = BTreeMap::new();
    for (i, task) in outlook.network.tasks.iter().enumerate() {
        let (start, finish) = (outlook.plan.starts[i], outlook.plan.finishes[i]);
        let (at, about, kind) = match (&task.work, task.state) {
            (_, TaskState::Done) => continue,
            (Work::Layer(_) | Work::Set(_), TaskState::ToCome) => {
                (start, task.key.clone(), Kind::Started)
            }
            (Work::Layer(_) | Work::Set(_), TaskState::InHand) => {
                (finish, task.key.clone(), Kind::Done)
            }
            // These are noted when they are over; that they are not begun late is known no other way.
            (Work::Measure(piece), _) => (start, piece.to_string(), Kind::Measured),
            (Work::SetUp(hold), _) => (start, hold.to_string(), Kind::Started),
            (Work::PutRight(hold), _) => (start, hold.to_string(), Kind::Cleared),
            (Work::Pass(hold), _) => (start, hold.to_string(), Kind::Passed),
            _ => continue,
        };
        let event = (about, kind);
        if !said.contains(&event) {
            events.entry(at).or_default().push(event);
        }
    }
    let now = outlook.network.now_tick();
    let next = events.range(now..until).next();
    next.map(|(at, events)| (*at, events.clone()))
}

/// Starts of the next ten working days that moved to another day.
fn moved_by_days(before: &Planned, after: &Planned) -> usize {
    let network = &after.outlook.network;
    let now = network.now_tick();
    let to_come = network
        .tasks
        .iter()
        .filter(|t| t.state == TaskState::ToCome);
    to_come
        .filter(|task| task.trade.is_some() && before.has(&task.key))
        .map(|task| (before.start_tick(&task.key), after.start_tick(&task.key)))
        .filter(|(was, _)| (now..now + 14 * DAY).contains(was))
        .filter(|(was, is)| network.clock.day(*was) != network.clock.day(*is))
        .count()
}
