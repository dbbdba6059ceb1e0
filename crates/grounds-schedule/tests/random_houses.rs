//! Thousands of small random houses: every plan is checked, every breach is reported, every reason
//! holds.

use grounds_schedule::{
    ActivityId, Bound, Breach, ClashPart, Effort, Fact, Plan, Problem, Reason, bound, clash,
    clashes, construct, cost, explain_all, random, solve, verify,
};

fn effort(schedules: u32) -> Effort {
    Effort {
        schedules,
        ..Effort::default()
    }
}

#[test]
fn every_plan_of_ten_thousand_houses_obeys_or_says_where_it_does_not() {
    let mut clean = 0;
    for seed in 0..10_000 {
        let problem = random::small(seed);
        assert_eq!(problem.faults(), [], "house {seed}");
        let solved = solve(&problem, &effort(6)).unwrap();
        assert_eq!(
            solved.breaches,
            verify(&problem, &solved.plan),
            "house {seed}"
        );
        assert_eq!(solved.cost, cost(&problem, &solved.plan), "house {seed}");
        assert_eq!(
            construct(&problem, &solved.order).unwrap(),
            solved.plan,
            "house {seed}"
        );
        clean += usize::from(solved.breaches.is_empty());
    }
    assert!(
        clean > 6_500,
        "only {clean} of 10000 houses could be planned without a breach"
    );
}

#[test]
fn houses_that_can_be_built_are_nearly_always_planned_without_a_breach() {
    let first = |p: &Problem| {
        construct(p, &[])
            .ok()
            .filter(|plan| verify(p, plan).is_empty())
    };
    let (mut buildable, mut clean) = (0, 0);
    for seed in 0..3_000 {
        let Some((problem, witness)) = random::buildable(seed, first) else {
            continue;
        };
        assert_eq!(
            verify(&problem, &witness),
            [],
            "house {seed}: the witness is a plan"
        );
        buildable += 1;
        clean += usize::from(solve(&problem, &effort(40)).unwrap().breaches.is_empty());
    }
    println!("{clean} of {buildable} that can be built");
    assert!(buildable > 2_500);
    assert!(
        clean * 1_000 >= buildable * 995,
        "only {clean} of {buildable}"
    );
}

#[test]
fn a_clash_is_never_found_where_a_plan_obeys_everything() {
    let (mut found, mut broken) = (0, 0);
    for seed in 0..2_000 {
        let problem = random::small(seed);
        let solved = solve(&problem, &effort(6)).unwrap();
        let clash = clash(&problem).unwrap();
        if let Some(clash) = &clash {
            assert!(clash.proved && !clash.parts.is_empty());
            assert!(
                !solved.breaches.is_empty(),
                "house {seed}: {clash:?} is no clash"
            );
        }
        if !solved.breaches.is_empty() {
            broken += 1;
            found += usize::from(!clashes(&problem, &solved).unwrap().is_empty());
        }
    }
    println!("{found} of {broken} explained by a clash");
    assert!(found * 10 >= broken * 9, "{found} of {broken}");
}

#[test]
fn no_plan_ends_before_the_bound() {
    for seed in 0..2_000 {
        let problem = random::small(seed);
        let solved = solve(&problem, &effort(6)).unwrap();
        if solved.breaches.is_empty() {
            let last = open(&problem)
                .map(|i| solved.plan.finishes[i])
                .max()
                .unwrap_or(0);
            let facts_last = (0..problem.activities.len())
                .filter(|&i| matches!(problem.activities[i].fact, Fact::Begun { .. }))
                .map(|i| solved.plan.finishes[i]);
            let last = facts_last.max().unwrap_or(0).max(last).max(problem.now);
            assert!(bound(&problem).unwrap() <= last, "house {seed}");
        }
    }
}

fn open(problem: &Problem) -> impl Iterator<Item = usize> + '_ {
    (0..problem.activities.len()).filter(|&i| problem.activities[i].fact == Fact::Open)
}

/// The plan with one activity begun at the latest possible earlier moment.
fn one_tick_earlier(problem: &Problem, plan: &Plan, i: usize) -> Option<Plan> {
    let activity = &problem.activities[i];
    let calendar = activity.calendar.map(|id| &problem.calendars[id.index()]);
    let mut start = plan.starts[i];
    loop {
        let finish;
        match calendar {
            None => {
                start -= 1;
                finish = start + activity.work;
            }
            Some(calendar) => {
                start = calendar.previous_working(start)?;
                finish = calendar.add(start, activity.work)?;
                let fits = activity.work == 0 || calendar.fits_shift(start, activity.work);
                if activity.unbroken && !fits {
                    continue;
                }
            }
        }
        let mut earlier = plan.clone();
        (earlier.starts[i], earlier.finishes[i]) = (start, finish);
        return Some(earlier);
    }
}

#[test]
fn the_reasons_of_a_start_are_what_breaks_one_tick_earlier() {
    let (mut chosen, mut all) = (0, 0);
    for seed in 0..1_500 {
        let problem = random::small(seed);
        let solved = solve(&problem, &effort(6)).unwrap();
        if !solved.breaches.is_empty() {
            continue;
        }
        let reasons = explain_all(&problem, &solved.plan);
        for i in open(&problem) {
            let Some(earlier) = one_tick_earlier(&problem, &solved.plan, i) else {
                let first = [Reason::Hours, Reason::Shift];
                assert!(first.contains(&reasons[i][0]), "house {seed}, activity {i}");
                continue;
            };
            let breaks = verify(&problem, &earlier);
            agree(
                &breaks,
                &reasons[i],
                i,
                &format!("house {seed}, activity {i}: {:?}", reasons[i]),
            );
            all += 1;
            chosen += usize::from(reasons[i] == [Reason::Choice]);
        }
    }
    println!("{chosen} of {all} starts are a choice");
    assert!(
        chosen * 100 <= all,
        "{chosen} of {all} starts have no reason"
    );
}

/// Each kind of breach goes with its kind of reason, and the other way round.
fn agree(breaks: &[Breach], reasons: &[Reason], i: usize, house: &str) {
    let me = ActivityId::from(i);
    let has = |test: &dyn Fn(&Breach) -> bool| breaks.iter().any(test);
    let gives = |test: &dyn Fn(&Reason) -> bool| reasons.iter().any(test);
    let pairs = [
        (
            has(&|b| matches!(b, Breach::Past(_))),
            gives(&|r| *r == Reason::Now),
        ),
        (
            has(&|b| matches!(b, Breach::TooSoon(_) | Breach::TooLate(_))),
            gives(&|r| matches!(r, Reason::Lag(_))),
        ),
        (
            has(&|b| matches!(b, Breach::Date(_))),
            gives(&|r| matches!(r, Reason::Date(_))),
        ),
        (
            has(&|b| matches!(b, Breach::Overused { .. })),
            gives(&|r| matches!(r, Reason::Crew { .. })),
        ),
        (
            has(&|b| matches!(b, Breach::CutOff { activity, .. } if *activity == me)),
            gives(&|r| matches!(r, Reason::ShutOff { .. })),
        ),
        (
            has(&|b| matches!(b, Breach::CutOff { activity, .. } if *activity != me)),
            gives(&|r| matches!(r, Reason::WouldShutOff { .. })),
        ),
        (
            has(&|b| matches!(b, Breach::Dust { .. })),
            gives(&|r| matches!(r, Reason::Dust { .. })),
        ),
    ];
    for (breach, reason) in pairs {
        assert_eq!(breach, reason, "{house}: {breaks:?}");
    }
    assert_eq!(
        breaks.is_empty(),
        reasons == [Reason::Choice],
        "{house}: {breaks:?}"
    );
}

/// The problem with nothing left of it but the parts of a clash, without one of them if so wished.
fn only(problem: &Problem, parts: &[ClashPart], without: Option<ClashPart>) -> Problem {
    let has = |part: ClashPart| parts.contains(&part) && without != Some(part);
    let mut rest = problem.clone();
    rest.access = grounds_schedule::Access::default();
    for (i, activity) in rest.activities.iter_mut().enumerate() {
        let id = ActivityId::from(i);
        let (work, calendar, fact) = (activity.work, activity.calendar, activity.fact);
        let known = has(ClashPart::Fact(id));
        *activity = grounds_schedule::Activity {
            unbroken: activity.unbroken,
            ..Default::default()
        };
        if known || has(ClashPart::Work(id)) {
            (activity.work, activity.calendar) = (work, calendar);
        }
        if known {
            activity.fact = fact;
        }
    }
    let is_void = |id: ActivityId| {
        let fact = problem.activities[id.index()].fact != Fact::Open;
        fact && !has(ClashPart::Fact(id))
    };
    for (i, lag) in rest.lags.iter_mut().enumerate() {
        let void = is_void(lag.from) || is_void(lag.to);
        lag.min = lag
            .min
            .filter(|_| has(ClashPart::Lag(i.into(), Bound::Min)) && !void);
        lag.max = lag
            .max
            .filter(|_| has(ClashPart::Lag(i.into(), Bound::Max)) && !void);
    }
    let mut number = 0;
    rest.dates.retain(|_| {
        number += 1;
        has(ClashPart::Date((number - 1).into()))
    });
    rest
}

#[test]
fn a_clash_needs_every_one_of_its_parts() {
    let mut clashing = 0;
    for seed in 0..2_000 {
        let problem = random::small(seed);
        let Some(found) = clash(&problem).unwrap() else {
            continue;
        };
        if matches!(found.parts[..], [ClashPart::NoWayIn(_)]) {
            continue;
        }
        clashing += 1;
        let alone = solve(&only(&problem, &found.parts, None), &effort(1)).unwrap();
        assert!(
            !alone.breaches.is_empty(),
            "house {seed}: {found:?} do not clash"
        );
        for &part in &found.parts {
            let rest = solve(&only(&problem, &found.parts, Some(part)), &effort(20)).unwrap();
            assert_eq!(
                rest.breaches,
                [],
                "house {seed}: {found:?} clash without {part:?}"
            );
        }
    }
    assert!(clashing > 200, "{clashing}");
}
