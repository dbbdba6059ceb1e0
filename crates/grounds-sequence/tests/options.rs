//! What could win time: only what helps, no more of it than helps, proved and priced.
//!
//! Dates and sums are derived in each test from the hours, waits and rates that it states. Time and
//! a half for extra hours is common practice.

#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "a job of a test that does not plan is a fault of the test"
)]

mod house;

use std::path::Path;

use grounds_schedule::{Tread, cost, verify};
use grounds_sequence::options::{
    Aim, Awaited, ExtraKind, Means, Offer, OptionsError, Terms, WinBack, network_with, win_back,
};
use grounds_site::{Kind, fold};
use house::{
    House, Planned, assert_says, cases,
    small::{COATED, FRAME, PLASTERED, face, house},
};

const MONDAY: &str = "2027-06-07 07:00";

/// Walls tiled in 16 h.
const TILED: &str = r#"
[build_ups.tiled]
name = "Tiled"

[[build_ups.tiled.layers]]
id = "tile"
name = "Wall tile"
material = "tile"
trade = "tile"
takes = "16 h"
"#;

/// A date for some work.
fn milestone(after: &str) -> String {
    format!("[milestones.ready]\nname = \"Ready\"\nafter = [{after}]\n")
}

fn ready() -> Aim {
    Aim::Milestone("ready".into())
}

fn look(house: &House, now: &str, aim: &Aim) -> (Planned, WinBack) {
    let plan = house.planned(now);
    let win = looked(house, &plan, aim).expect("options");
    (plan, win)
}

fn looked(house: &House, plan: &Planned, aim: &Aim) -> Result<WinBack, OptionsError> {
    let now = plan.outlook.network.now;
    let site = fold(&plan.job, &house.notes, now);
    let terms = Terms::default();
    win_back(&plan.job, &site, &plan.outlook, aim, &terms, &|_| {})
}

fn single(win: &WinBack, wanted: impl Fn(&Means) -> bool) -> Option<&Offer> {
    win.singles.iter().find(|offer| wanted(&offer.means[0]))
}

fn hours(kind: ExtraKind) -> impl Fn(&Means) -> bool {
    move |means| matches!(means, Means::Hours(extra) if extra.kind == kind)
}

fn is_crew(means: &Means) -> bool {
    matches!(means, Means::Crew(_))
}

fn is_sooner(means: &Means) -> bool {
    matches!(means, Means::Sooner(_))
}

#[test]
fn a_second_tiler_halves_two_bathrooms_and_not_one() {
    let one = house(&[TILED, &face("bath", "walls", "wall", "tiled")])
        .and(&milestone("\"bath.walls/tile\""));
    let two = house(&[
        TILED,
        &face("bath", "walls", "wall", "tiled"),
        &face("room", "walls", "wall", "tiled"),
    ])
    .and(&milestone("\"bath.walls/tile\", \"room.walls/tile\""));

    let (_, win) = look(&one, MONDAY, &ready());
    assert!(single(&win, is_crew).is_none(), "{:?}", win.singles);

    // Two days each: Monday to Thursday one after the other, Monday and Tuesday side by side.
    let (plan, win) = look(&two, MONDAY, &ready());
    assert_eq!(plan.start("ready"), "Thu 2027-06-10 16:00");
    let offer = single(&win, is_crew).expect("a second tiler");
    assert_eq!(offer.won, 2);
    let reached = &offer.effect.reached[1];
    assert_eq!(plan.wall(reached.after), "Tue 2027-06-08 16:00");
}

#[test]
fn a_saturday_does_nothing_while_the_screed_dries() {
    let screed = |dries: &str| {
        let build_up = format!(
            r#"
            [build_ups.screeded]
            name = "Screed and tile"

            [[build_ups.screeded.layers]]
            id = "screed"
            name = "Screed"
            material = "screed"
            trade = "plaster"
            takes = "8 h"
            cover = "{dries}"

            [[build_ups.screeded.layers]]
            id = "tile"
            name = "Floor tile"
            material = "tile"
            trade = "tile"
            takes = "4 h"
            "#
        );
        house(&[&build_up, &face("bath", "floor", "floor", "screeded")])
            .and(&milestone("\"bath.floor/tile\""))
    };
    let friday = "2027-06-11 07:00";

    // Laid Friday, dry Tuesday 16:00, so tiled on Wednesday: nobody's Saturday helps.
    let (plan, win) = look(&screed("96 h"), friday, &ready());
    assert_eq!(plan.start("ready"), "Wed 2027-06-16 12:00");
    assert!(single(&win, hours(ExtraKind::Saturdays)).is_none());

    // Dry by Saturday 04:00: four hours of that morning are enough, and Monday is saved.
    let (plan, win) = look(&screed("12 h"), friday, &ready());
    assert_eq!(plan.start("ready"), "Mon 2027-06-14 12:00");
    let offer = single(&win, hours(ExtraKind::Saturdays)).expect("a Saturday");
    assert_eq!(offer.won, 2);
    let Means::Hours(extra) = &offer.means[0] else {
        panic!("{:?}", offer.means)
    };
    let days: Vec<String> = extra.days.iter().map(|day| day.on.to_string()).collect();
    assert_eq!(days, ["2027-06-12"]);
}

#[test]
fn where_only_drying_is_left_the_page_says_so() {
    let house = house(&[PLASTERED, &face("room", "walls", "wall", "plastered")])
        .and("[milestones.ready]\nname = \"Ready\"\nafter = [\"room.walls/paint\"]\n")
        .noted("2027-06-07 10:00", "room.walls/top", Kind::Done);

    // Top coat done on Monday and 72 h: the painter begins on Thursday whatever anybody does.
    let (plan, win) = look(&house, "2027-06-07 16:00", &ready());
    assert_eq!(plan.start("room.walls/paint"), "Thu 2027-06-10 10:00");
    assert!(win.singles.is_empty() && win.pairs.is_empty());
    let said = plan.words().win_back(&win);
    let nothing = said.nothing.join(" ");
    assert_says(&nothing, &["No order of work", "is drying 3 days"]);
    assert_says(&said.left_out.join(" "), &["ask its maker"]);
}

/// Glass promised for Monday 5 July, a door for Monday 28 June, 4 h each, by two trades.
fn glass_and_door() -> House {
    let pieces = r#"
        [pieces.glass-side]
        name = "Glass side"
        trade = "glass"
        place = "room"
        takes = "4 h"
        lead = "2 / 4 / 6 weeks"

        [pieces.bath-leaf]
        name = "Bath door leaf"
        trade = "floor"
        place = "bath"
        takes = "4 h"
        lead = "2 / 3 / 4 weeks"
        "#;
    House::new(FRAME)
        .and(pieces)
        .and(&milestone("\"glass-side\", \"bath-leaf\""))
        .noted_for(MONDAY, "glass-side", Kind::Ordered, "2027-07-05")
        .noted_for(MONDAY, "bath-leaf", Kind::Ordered, "2027-06-28")
}

#[test]
fn hurried_glass_wins_exactly_the_days_until_the_next_cause_holds() {
    let (plan, win) = look(&glass_and_door(), MONDAY, &ready());

    assert_eq!(plan.start("ready"), "Mon 2027-07-05 12:00");
    let offer = single(&win, is_sooner).expect("the glass sooner");
    // The door holds Monday 28 June: glass any sooner than that wins nothing more.
    assert_eq!(offer.won, 7);
    let Means::Sooner(sooner) = &offer.means[0] else {
        panic!("{:?}", offer.means)
    };
    assert_eq!(sooner.what, Awaited::Delivery("glass-side".into()));
    assert_eq!(plan.wall(sooner.by), "Mon 2027-06-28 00:00");
    // Later days win what is left: Friday 2 July three days, Thursday four.
    let steps: Vec<(String, i32)> = offer
        .steps
        .iter()
        .map(|step| (plan.wall(step.by), step.won))
        .collect();
    assert_eq!(steps[0], ("Fri 2027-07-02 00:00".to_owned(), 3));
    assert_eq!(steps[1], ("Thu 2027-07-01 00:00".to_owned(), 4));
}

#[test]
fn a_price_that_is_not_known_is_asked_for_up_to_what_the_days_cost() {
    let (plan, win) = look(&glass_and_door(), MONDAY, &ready());

    let offer = single(&win, is_sooner).expect("the glass sooner");
    // Seven days at 100 each; nothing else of the plan costs money.
    assert!(offer.needs_price());
    assert_eq!(offer.own_cents(), 0);
    assert_eq!(offer.worth_cents(), 7 * 10_000);
    let said = plan.words().offer(&win, offer);
    assert_says(
        &said.cost,
        &["Ask for a price", "£700", "£100 for each day won"],
    );
    assert_says(
        &said.title,
        &["Glass side on site by Mon 28 June instead of Mon 5 July"],
    );
    assert_says(&said.enter[0], &["glass-side promised for 2027-06-28"]);
}

#[test]
fn a_price_that_the_maker_gave_is_set_against_the_days() {
    let house = glass_and_door().with(
        "name = \"Glass side\"",
        "name = \"Glass side\"\nexpedite = \"450\"",
    );
    let (plan, win) = look(&house, MONDAY, &ready());

    let offer = single(&win, is_sooner).expect("the glass sooner");
    assert!(!offer.needs_price());
    // Seven days at 100 less 450.
    assert_eq!(offer.net_cents(), 45_000 - 7 * 10_000);
    let said = plan.words().offer(&win, offer);
    assert_says(&said.cost, &["£450 to its maker", "Saves £250 in all"]);
}

#[test]
fn longer_days_cost_the_half_that_is_paid_on_top() {
    let painted = r#"
        [build_ups.painted]
        name = "Painted"

        [[build_ups.painted.layers]]
        id = "paint"
        name = "Paint"
        material = "paint"
        trade = "paint"
        takes = "20 h"
        "#;
    let house = house(&[painted, &face("room", "walls", "wall", "painted")])
        .with(
            "name = \"Painter\"",
            "name = \"Painter\"\npeople = 2\nrate = \"40\"",
        )
        .and(&milestone("\"room.walls/paint\""));

    // 8 + 8 + 4 h end on Wednesday; 10 + 10 h on Tuesday at 18:00.
    let (plan, win) = look(&house, MONDAY, &ready());
    assert_eq!(plan.start("ready"), "Wed 2027-06-09 12:00");
    let offer = single(&win, hours(ExtraKind::LongerDays)).expect("longer days");
    assert_eq!(offer.won, 1);
    let reached = &offer.effect.reached[1];
    assert_eq!(plan.wall(reached.after), "Tue 2027-06-08 18:00");
    // 4 h beyond the usual ones, two people at 40 an hour, half of it on top.
    assert_eq!(offer.own_cents(), 4 * 2 * 4_000 / 2);
    // From Wednesday 12:00 to Tuesday 18:00 are 18 h of a day that costs 100.
    assert_eq!(offer.effect.cents(), -(10_000 * 18 / 24));
    let said = plan.words().offer(&win, offer);
    assert_says(&said.cost, &["About £160 in premium pay", "Costs £85 more"]);
    assert_says(&said.cautions.join(" "), &["tire people"]);
}

#[test]
fn double_time_is_reckoned_where_the_job_says_so_and_the_hours_can_be_written_into_it() {
    let painted = r#"
        [build_ups.painted]
        name = "Painted"

        [[build_ups.painted.layers]]
        id = "paint"
        name = "Paint"
        material = "paint"
        trade = "paint"
        takes = "20 h"
        "#;
    let house = house(&[painted, &face("room", "walls", "wall", "painted")])
        .with(
            "name = \"Painter\"",
            "name = \"Painter\"\nrate = \"40\"\novertime = \"200 %\"",
        )
        .and(&milestone("\"room.walls/paint\""));

    let (plan, win) = look(&house, MONDAY, &ready());
    let offer = single(&win, hours(ExtraKind::LongerDays)).expect("longer days");
    // 4 h beyond the usual ones at 40 an hour, all of it on top.
    assert_eq!(offer.own_cents(), 4 * 4_000);

    // Written into the job as it says, the same end comes of it.
    let Means::Hours(extra) = &offer.means[0] else {
        panic!("{:?}", offer.means)
    };
    let days: Vec<String> = extra
        .days
        .iter()
        .map(|day| format!("{{ on = \"{}\", hours = [\"{}\"] }}", day.on, day.hours[0]))
        .collect();
    let own = format!(
        "[calendars.own]\ndays = [\"mon\", \"tue\", \"wed\", \"thu\", \"fri\"]\n\
         hours = [\"08:00-16:00\"]\nextra = [{}]\n",
        days.join(", ")
    );
    let entered = house
        .with("rate = \"40\"", "rate = \"40\"\ncalendar = \"own\"")
        .and(&own);
    let real = entered.planned_after(MONDAY, &plan);
    assert_eq!(real.start("ready"), "Tue 2027-06-08 18:00");
    assert_eq!(real.finish_tick("ready"), offer.effect.reached[1].after);
}

#[test]
fn who_is_called_in_for_a_saturday_is_paid_for_four_hours() {
    let painted = r#"
        [build_ups.painted]
        name = "Painted"

        [[build_ups.painted.layers]]
        id = "paint"
        name = "Paint"
        material = "paint"
        trade = "paint"
        takes = "11 h"
        "#;
    let house = house(&[painted, &face("room", "walls", "wall", "painted")])
        .with("name = \"Painter\"", "name = \"Painter\"\nrate = \"40\"")
        .and(&milestone("\"room.walls/paint\""));

    // 8 h on Friday, and 3 h on Saturday instead of Monday; two hours more on Friday save no day.
    let (_, win) = look(&house, "2027-06-11 07:00", &ready());
    let offer = single(&win, hours(ExtraKind::Saturdays)).expect("a Saturday");
    assert_eq!(offer.won, 2);
    // 3 h of work at half on top, and one hour more at time and a half.
    assert_eq!(offer.own_cents(), 3 * 4_000 / 2 + 4_000 * 3 / 2);
}

#[test]
fn a_trade_that_comes_on_thursdays_can_be_asked_for_another_day() {
    let rail = r#"
        [pieces.rail]
        name = "Rail"
        trade = "glass"
        place = "room"
        takes = "4 h"
        "#;
    let house = House::new(FRAME)
        .with(
            "name = \"Glazier\"",
            "name = \"Glazier\"\ncalendar = \"thursdays\"\nreturn_cost = \"150\"",
        )
        .and(rail)
        .and(&milestone("\"rail\""));

    let (plan, win) = look(&house, MONDAY, &ready());
    assert_eq!(plan.start("ready"), "Thu 2027-06-10 12:00");
    let offer = single(&win, hours(ExtraKind::Visits)).expect("another day");
    // On Monday, the same day that is planned.
    assert_eq!(offer.won, 3);
    assert_eq!(offer.own_cents(), 15_000);
    assert!(single(&win, hours(ExtraKind::Saturdays)).is_none());
}

#[test]
fn faces_in_turn_let_the_painter_follow_the_plasterer() {
    let two_walls = r#"
        [build_ups.finished]
        name = "Skimmed and painted"

        [[build_ups.finished.layers]]
        id = "skim"
        name = "Skim"
        material = "plaster"
        trade = "plaster"
        rate = "5 m2/h"

        [[build_ups.finished.layers]]
        id = "paint"
        name = "Paint"
        material = "paint"
        trade = "paint"
        rate = "5 m2/h"

        [places.room.faces.long]
        kind = "wall"
        build_up = "finished"
        area = "40 m2"

        [places.room.faces.short]
        kind = "wall"
        build_up = "finished"
        area = "40 m2"
        "#;
    let house = House::new(FRAME)
        .and(two_walls)
        .and(&milestone("\"room.long\", \"room.short\""));

    // 16 h each in one go: Monday to Thursday. In turn the painter begins on Tuesday.
    let (plan, win) = look(&house, MONDAY, &ready());
    assert_eq!(plan.start("ready"), "Thu 2027-06-10 16:00");
    let split = single(&win, |means| matches!(means, Means::Split(_))).expect("in turn");
    assert_eq!(split.won, 1);
    let said = plan.words().offer(&win, split);
    assert_says(&said.enter[0], &["split = true"]);
}

/// A hall floor coated on Monday until 15:00, and paint of 4 h in the room behind it.
fn coated_hall() -> House {
    let painted = r#"
        [build_ups.painted]
        name = "Painted"

        [[build_ups.painted.layers]]
        id = "paint"
        name = "Paint"
        material = "paint"
        trade = "paint"
        takes = "4 h"
        "#;
    house(&[
        COATED,
        painted,
        &face("hall", "floor", "floor", "coated"),
        &face("room", "walls", "wall", "painted"),
    ])
    .with("boots = \"24 h\"", "boots = \"72 h\"")
    .and(&milestone("\"room.walls/paint\""))
    .noted("2027-06-07 15:00", "hall.floor/coat", Kind::Done)
}

#[test]
fn boards_open_a_hall_as_soon_as_it_bears_socks() {
    let (plan, win) = look(&coated_hall(), "2027-06-07 15:30", &ready());

    // Boots after 72 h: Thursday 15:00, so paint ends on Friday. Socks after 12 h: Tuesday.
    assert_eq!(plan.day("ready").to_string(), "2027-06-11");
    let offer = single(&win, |means| matches!(means, Means::Boards(_))).expect("boards");
    assert_eq!(offer.won, 3);
    let said = plan.words().offer(&win, offer);
    assert_says(&said.title, &["Boards over the hall floor"]);
    assert_says(&said.cautions.join(" "), &["Only if the maker"]);
}

#[test]
fn boards_are_not_laid_on_a_coat_that_does_not_bear_socks() {
    let house = coated_hall().with("socks = \"12 h\", ", "");
    let (_, win) = look(&house, "2027-06-07 15:30", &ready());

    assert!(single(&win, |means| matches!(means, Means::Boards(_))).is_none());
}

/// Base coat, then an inspector who wants three working days, then the top coat.
fn inspected_room() -> House {
    house(&[PLASTERED, &face("room", "walls", "wall", "plastered")])
        .and(
            r#"
            [holds.behind]
            name = "What is behind seen"
            kind = "authority"
            place = "room"
            by = "inspect"
            after = ["room.walls/base"]
            before = ["room.walls/top"]
            takes = "1 h"
            notice = "8 working days"
            "#,
        )
        .and(&milestone("\"room.walls/paint\""))
}

#[test]
fn an_inspection_may_be_asked_for_sooner_and_is_never_passed_over() {
    let house = inspected_room();
    let (plan, win) = look(&house, MONDAY, &ready());

    let slot = single(&win, |means| {
        matches!(means, Means::Sooner(sooner) if sooner.what == Awaited::Slot("behind".into()))
    })
    .expect("an earlier slot");
    let said = plan.words().offer(&win, slot);
    assert_says(
        &said.cautions.join(" "),
        &["The inspector decides", "before it has passed"],
    );
    let site = fold(&plan.job, &house.notes, plan.outlook.network.now);
    for offer in win.singles.iter().chain(&win.pairs) {
        let network =
            network_with(&plan.job, &site, &plan.outlook.network, &offer.means).expect("a network");
        let pass = network.find("behind").expect("the inspection is there");
        let top = network.find("room.walls/top").expect("the top coat");
        let base = network.find("room.walls/base").expect("the base coat");
        assert!(network.problem.activities[pass.index()].work > 0);
        assert!(offer.plan.finishes[base.index()] <= offer.plan.starts[pass.index()]);
        assert!(offer.plan.finishes[pass.index()] <= offer.plan.starts[top.index()]);
    }
    assert!(
        !win.singles
            .iter()
            .any(|offer| offer.means[0].trade() == Some(&"inspect".into())),
        "an inspector is nobody's to send on a Saturday"
    );
}

#[test]
fn a_decision_that_holds_everything_is_asked_for() {
    let house = house(&[PLASTERED, &face("room", "walls", "wall", "plastered")])
        .and(
            r#"
            [decisions.colour]
            name = "Wall colour"
            by = "Owner"
            expected = "2027-07-05"
            before = ["room.walls/paint"]
            "#,
        )
        .and(&milestone("\"room.walls/paint\""));
    let (plan, win) = look(&house, MONDAY, &ready());

    let offer = single(&win, is_sooner).expect("an answer sooner");
    // Base Monday, top Tuesday 12:00 to 16:00, dry Friday 16:00, painted Monday the 14th.
    assert_eq!(plan.start("ready"), "Mon 2027-07-05 12:00");
    assert_eq!(offer.won, 21);
    assert!(!offer.needs_price());
    let said = plan.words().offer(&win, offer);
    assert_says(
        &said.title,
        &["Wall colour: an answer by Mon 14 June instead of Mon 5 July"],
    );
    assert_eq!(said.hear[0], "Owner");
}

#[test]
fn two_things_together_win_what_neither_wins_alone() {
    // The door is held by a promise too: sooner glass alone wins 7 days, both together more.
    let (_, win) = look(&glass_and_door(), MONDAY, &ready());

    let pair = win.pairs.first().expect("a pair");
    assert!(pair.means.iter().all(is_sooner), "{:?}", pair.means);
    assert!(pair.won > 7, "{}", pair.won);
}

#[test]
fn every_option_of_every_case_is_proved_and_priced_as_it_is_said() {
    let mut offers = 0;
    for entry in std::fs::read_dir(cases()).expect("cases") {
        let house = House::folder(&entry.expect("a case").path());
        let job = house.job();
        let milestones = job.milestones.keys().cloned().map(Aim::Milestone);
        for aim in milestones.chain([Aim::LastFinish]) {
            offers += proved(&house, &aim);
        }
    }
    for house in [glass_and_door(), coated_hall(), inspected_room()] {
        offers += proved(&house, &Aim::LastFinish);
    }
    assert!(offers > 10, "only {offers} options in all cases");
}

#[test]
fn every_option_of_the_demo_house_is_proved_and_priced_as_it_is_said() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/alder-sluice");
    let house = House::folder(&folder);
    let offers = proved(&house, &Aim::LastFinish);
    assert!(offers > 0);
}

/// Checks every option there is for an aim; how many there are.
fn proved(house: &House, aim: &Aim) -> usize {
    let plan = house.planned_at(house.last_word(), None);
    let Ok(win) = looked(house, &plan, aim) else {
        return 0;
    };
    let site = fold(&plan.job, &house.notes, plan.outlook.network.now);
    let offers: Vec<&Offer> = win.singles.iter().chain(&win.pairs).collect();
    for offer in &offers {
        let network =
            network_with(&plan.job, &site, &plan.outlook.network, &offer.means).expect("a network");
        let breaches = verify(&network.problem, &offer.plan);
        assert!(
            breaches.len() <= plan.outlook.breaches.len(),
            "{:?}: {breaches:?}",
            offer.means
        );
        assert_eq!(cost(&network.problem, &offer.plan), offer.effect.cost_after);
        assert_eq!(offer.effect.days(aim.milestone()), offer.won);
        assert!(offer.won > 0);
        let said = plan.words().offer(&win, offer);
        assert!(!said.title.is_empty() && !said.gain.is_empty());
        assert_eq!(said.enter.len(), offer.means.len());
    }
    offers.len()
}

#[test]
fn no_option_makes_anything_dry_sooner() {
    let (plan, win) = look(&coated_hall(), "2027-06-07 15:30", &ready());
    let house = coated_hall();
    let site = fold(&plan.job, &house.notes, plan.outlook.network.now);
    for offer in win.singles.iter().chain(&win.pairs) {
        let network =
            network_with(&plan.job, &site, &plan.outlook.network, &offer.means).expect("a network");
        let coat = network.find("hall.floor/coat").expect("the coat");
        let socks = network.problem.activities[coat.index()]
            .closes
            .iter()
            .find(|closure| closure.bars == Tread::Light)
            .expect("a closure");
        assert_eq!(socks.until.after, 12 * 4);
    }
}

#[test]
fn looking_changes_nothing_and_looking_again_finds_the_same() {
    let house = glass_and_door();
    let plan = house.planned(MONDAY);
    let (before, order) = (plan.outlook.plan.clone(), plan.outlook.order());

    let first = looked(&house, &plan, &ready()).expect("options");
    let second = looked(&house, &plan, &ready()).expect("options");

    assert_eq!(first, second);
    assert_eq!(plan.outlook.plan, before);
    assert_eq!(plan.outlook.order(), order);
}

#[test]
fn progress_ends_where_it_says() {
    let house = glass_and_door();
    let plan = house.planned(MONDAY);
    let site = fold(&plan.job, &house.notes, plan.outlook.network.now);
    let heard = std::sync::Mutex::new(Vec::new());
    let progress = |progress: grounds_sequence::options::Progress| {
        heard.lock().expect("a lock").push(progress);
    };
    win_back(
        &plan.job,
        &site,
        &plan.outlook,
        &ready(),
        &Terms::default(),
        &progress,
    )
    .expect("options");

    let heard = heard.into_inner().expect("a lock");
    let most = heard.iter().map(|progress| progress.done).max();
    assert_eq!(most, heard.first().map(|progress| progress.of));
}

#[test]
fn what_is_reached_or_unknown_is_said() {
    let house = glass_and_door();
    let plan = house.planned(MONDAY);
    let unknown = looked(&house, &plan, &Aim::Milestone("redy".into()));
    assert_eq!(
        unknown.expect_err("unknown").to_string(),
        "the job has no milestone \"redy\"; its milestones are ready"
    );

    let house = house.noted("2027-06-07 06:00", "ready", Kind::Done);
    let plan = house.planned(MONDAY);
    let reached = looked(&house, &plan, &ready());
    assert_says(
        &reached.expect_err("reached").to_string(),
        &["Ready is reached already"],
    );
}
