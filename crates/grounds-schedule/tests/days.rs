//! Drying by the clock, work by the crew's hours: field cases worked by hand.

mod common;

use common::*;
use grounds_schedule::*;

#[test]
fn a_floor_that_needs_two_days_moves_four_trades() {
    // A field case [maker's sheet in the case, arithmetic]: last coat Wednesday 10:00; foot traffic
    // after 48 h, heavy after 72 h. Stone crew on Thursdays, cooker fitter on Fridays.
    let mut problem = house();
    problem.calendars.push(crew_hours(&[3], 52));
    problem.calendars.push(crew_hours(&[4], 52));
    problem.now = at(2, 10);
    let kitchen = problem.access.add();
    problem.access.entrances.push(kitchen);
    let closes = vec![
        shut(kitchen, Tread::Boots, 48 * HOUR),
        shut(kitchen, Tread::Heavy, 72 * HOUR),
    ];
    let fact = Fact::Done {
        from: at(2, 9),
        until: at(2, 10),
    };
    add(
        &mut problem,
        Activity {
            at: Some(kitchen),
            closes,
            fact,
            ..work(4)
        },
    );
    let here = |calendar, work| Activity {
        at: Some(kitchen),
        calendar: Some(CalendarId(calendar)),
        ..units(work)
    };
    let stone = add(&mut problem, here(1, 8));
    let tiler = add(&mut problem, here(0, 14 * HOUR));
    let appliances = add(
        &mut problem,
        Activity {
            tread: Tread::Heavy,
            ..here(0, 0)
        },
    );
    let cooker = add(&mut problem, here(2, 8));
    after(&mut problem, appliances, cooker, 0);
    let plan = plan(&problem);
    assert_eq!(plan.starts[stone.index()], at(10, 8), "the next Thursday");
    assert_eq!(plan.starts[tiler.index()], at(4, 10), "Friday 10:00");
    assert_eq!(plan.finishes[tiler.index()], at(7, 16), "and Monday");
    assert_eq!(
        plan.starts[appliances.index()],
        at(7, 8),
        "heavy from Saturday, so Monday"
    );
    assert_eq!(
        plan.starts[cooker.index()],
        at(11, 8),
        "Friday of the week after"
    );
}

#[test]
fn a_shower_is_tiled_six_days_after_its_deck_is_done() {
    // A field case [maker's times in the case, 24 h flood by job rule, arithmetic]: deck done Monday
    // 15:00; 72 h; two coats of 1 h, 4 h apart; 48 h; 24 h flood read by the inspector; 4 h to dry.
    let mut problem = house();
    problem.now = at(0, 15);
    let fact = Fact::Done {
        from: at(0, 8),
        until: at(0, 15),
    };
    let deck = add(&mut problem, Activity { fact, ..work(28) });
    let unbroken = |ticks| Activity {
        unbroken: true,
        ..work(ticks)
    };
    let first = add(&mut problem, unbroken(4));
    let second = add(&mut problem, unbroken(4));
    let fill = add(&mut problem, work(0));
    let read = add(&mut problem, work(0));
    let tile = add(&mut problem, work(32));
    after(&mut problem, deck, first, 72 * HOUR);
    after(&mut problem, first, second, 4 * HOUR);
    after(&mut problem, second, fill, 48 * HOUR);
    after(&mut problem, fill, read, 24 * HOUR);
    after(&mut problem, read, tile, 4 * HOUR);
    let plan = plan(&problem);
    let start = |id: ActivityId| plan.starts[id.index()];
    assert_eq!(
        (start(first), plan.finishes[first.index()]),
        (at(3, 15), at(3, 16))
    );
    assert_eq!(
        (start(second), plan.finishes[second.index()]),
        (at(4, 8), at(4, 9))
    );
    assert_eq!(start(fill), at(7, 8), "cured Sunday 09:00");
    assert_eq!(start(read), at(8, 8));
    assert_eq!(start(tile), at(8, 12));
    assert_eq!(explain(&problem, &plan, tile), [Reason::Lag(LagId(4))]);
}

#[test]
fn glass_first_then_the_carpet_that_leads_to_it() {
    // A field case [arithmetic]: day 0 is a Monday; new tracks on the third Friday; the carpet crew
    // comes Monday to Saturday 08:00-11:00; carpets dry 12 h.
    let mut problem = house();
    let mornings = (0..60).filter(|day| day % 7 != 6);
    let mornings = mornings
        .map(|day| Shift::plain(at(day, 8), at(day, 11)))
        .collect();
    problem.calendars.push(Calendar::new(mornings));
    problem.now = at(4, 8);
    let [hall, bath, bed] = [(); 3].map(|()| problem.access.add());
    problem.access.join(hall, bath);
    problem.access.join(hall, bed);
    problem.access.entrances.push(hall);
    let fit = add(
        &mut problem,
        Activity {
            at: Some(bath),
            ..work(16)
        },
    );
    date(&mut problem, fit, End::Start, Side::NotBefore, at(18, 8));
    let closes = vec![
        shut(hall, Tread::Light, 12 * HOUR),
        shut(bed, Tread::Light, 12 * HOUR),
    ];
    let clean = Activity {
        calendar: Some(CalendarId(1)),
        at: Some(hall),
        closes,
        ..units(12)
    };
    let clean = add(&mut problem, clean);
    after(&mut problem, fit, clean, 0);
    let lodger = Activity {
        at: Some(bed),
        tread: Tread::Light,
        ..units(0)
    };
    let lodger = add(&mut problem, lodger);
    after(&mut problem, clean, lodger, 0);
    let plan = plan(&problem);
    assert_eq!(plan.starts[fit.index()], at(18, 8));
    assert_eq!(plan.starts[clean.index()], at(19, 8), "Saturday");
    assert_eq!(
        plan.starts[lodger.index()],
        at(19, 23),
        "dry Saturday 23:00, so Sunday"
    );
}

#[test]
fn unbroken_work_waits_for_a_shift_that_holds_it() {
    let mut problem = house();
    problem.now = at(4, 10);
    let pour = add(
        &mut problem,
        Activity {
            unbroken: true,
            ..work(28)
        },
    );
    let plan = plan(&problem);
    assert_eq!(
        plan.starts[pour.index()],
        at(7, 8),
        "Friday has six hours left"
    );
    assert_eq!(explain(&problem, &plan, pour), [Reason::Now, Reason::Shift]);
}

#[test]
fn only_hours_within_limits_dry_a_counted_screed() {
    let mut problem = house();
    // Warm from 10:00 to 16:00 only: 24 counted hours are four days.
    let warm = (0..60)
        .map(|day| Shift::plain(at(day, 10), at(day, 16)))
        .collect();
    problem.calendars.push(Calendar::new(warm));
    let screed = add(&mut problem, work(32));
    let tile = add(&mut problem, work(32));
    let clock = Clock::On(CalendarId(1));
    let (from_end, to_end) = (End::Finish, End::Start);
    let min = Some(24 * HOUR);
    problem.lags.push(Lag {
        from: screed,
        from_end,
        to: tile,
        to_end,
        min,
        max: None,
        clock,
    });
    let plan = plan(&problem);
    assert_eq!(plan.finishes[screed.index()], at(0, 16));
    assert_eq!(plan.starts[tile.index()], at(7, 8), "dry on Friday 16:00");
}

#[test]
fn begun_work_goes_on_from_now_and_holds_its_crew() {
    let mut problem = house();
    let tiler = crew(&mut problem, 1);
    problem.now = at(1, 12);
    let begun = Activity {
        uses: one(tiler),
        fact: Fact::Begun {
            at: at(0, 8),
            left: 24,
        },
        ..work(64)
    };
    let begun = add(&mut problem, begun);
    let next = add(
        &mut problem,
        Activity {
            uses: one(tiler),
            ..work(8)
        },
    );
    let plan = plan(&problem);
    assert_eq!(plan.starts[begun.index()], at(0, 8));
    assert_eq!(plan.finishes[begun.index()], at(2, 10));
    assert_eq!(plan.starts[next.index()], at(2, 10));
    assert_eq!(explain(&problem, &plan, begun), [Reason::Fact]);
}

#[test]
fn what_happened_out_of_turn_stays_and_binds_nobody() {
    let mut problem = house();
    problem.now = at(2, 8);
    let skim = add(&mut problem, work(8));
    let fact = Fact::Done {
        from: at(0, 8),
        until: at(0, 10),
    };
    let paint = add(&mut problem, Activity { fact, ..work(8) });
    after(&mut problem, skim, paint, DAY);
    assert_eq!(
        plan(&problem).starts[skim.index()],
        at(2, 8),
        "the paint is on already"
    );
}

#[test]
fn a_recoat_window_that_has_closed_is_named_with_the_fact() {
    let mut problem = house();
    problem.now = at(4, 8);
    let fact = Fact::Done {
        from: at(0, 8),
        until: at(0, 16),
    };
    let first = add(&mut problem, Activity { fact, ..work(32) });
    let second = add(&mut problem, work(8));
    let window = lag(
        &mut problem,
        (first, End::Finish),
        (second, End::Start),
        Some(16),
        Some(DAY),
    );
    let solved = solve(&problem, &Effort::default()).unwrap();
    assert_eq!(solved.breaches, [Breach::TooLate(window)]);
    assert_eq!(
        solved.plan.starts[second.index()],
        at(4, 8),
        "as little too late as possible"
    );
    let clash = clash(&problem).unwrap().unwrap();
    assert_eq!(
        clash.parts,
        [ClashPart::Lag(window, Bound::Max), ClashPart::Fact(first)]
    );
}

#[test]
fn a_deadline_before_its_delivery_clashes_with_it_and_with_nothing_else() {
    let mut problem = house();
    let glass = add(&mut problem, work(0));
    let fit = add(&mut problem, work(16));
    let paint = add(&mut problem, work(16));
    after(&mut problem, paint, fit, 0);
    let arrives = after(&mut problem, glass, fit, 0);
    let delivery = date(&mut problem, glass, End::Start, Side::NotBefore, at(21, 8));
    let deadline = date(&mut problem, fit, End::Finish, Side::NotAfter, at(18, 16));
    let clash = clash(&problem).unwrap().unwrap();
    let parts = [
        ClashPart::Lag(arrives, Bound::Min),
        ClashPart::Date(delivery),
        ClashPart::Date(deadline),
    ];
    assert_eq!(clash.parts, parts);
    let solved = solve(&problem, &Effort::default()).unwrap();
    assert_eq!(solved.breaches, [Breach::Date(deadline)]);
    assert_eq!(solved.plan.starts[fit.index()], at(21, 8));
}

#[test]
fn a_crew_taken_elsewhere_can_close_a_recoat_window() {
    let mut problem = house();
    let painter = crew(&mut problem, 1);
    let first = add(
        &mut problem,
        Activity {
            uses: one(painter),
            ..work(8)
        },
    );
    let second = add(
        &mut problem,
        Activity {
            uses: one(painter),
            ..work(8)
        },
    );
    // The painter's only other job fills the window however late the first coat is.
    let (s, f) = (End::Start, End::Finish);
    lag(&mut problem, (first, f), (second, s), Some(8), Some(20));
    let long = add(
        &mut problem,
        Activity {
            uses: one(painter),
            ..work(24)
        },
    );
    lag(&mut problem, (first, f), (long, s), Some(0), Some(0));
    let solved = solve(&problem, &Effort::default()).unwrap();
    assert_eq!(solved.breaches.len(), 1, "{:?}", solved.breaches);
    assert_eq!(clash(&problem).unwrap(), None, "time alone allows it");
    let guess = clashes(&problem, &solved).unwrap();
    assert!(!guess[0].proved);
    assert!(
        guess[0].parts.contains(&ClashPart::Resource(painter)),
        "{guess:?}"
    );
}
