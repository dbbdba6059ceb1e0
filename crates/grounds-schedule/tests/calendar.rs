//! Working time with breaks, closed days and an end, against a count tick by tick.

use grounds_schedule::{Calendar, DAY, Shift, Tick};
use proptest::prelude::*;

/// A house week in miniature: shifts of an odd length with a break, some days closed.
fn calendar(days: &[bool], from: Tick, until: Tick, lunch: Option<(Tick, Tick)>) -> Calendar {
    let shift = |day: usize| {
        let base = day as Tick * DAY;
        let stretches = match lunch {
            Some((a, b)) => vec![(base + from, base + a), (base + b, base + until)],
            None => vec![(base + from, base + until)],
        };
        Shift { stretches }
    };
    let open = |(day, open): (usize, &bool)| open.then(|| shift(day));
    Calendar::new(days.iter().enumerate().filter_map(open).collect())
}

fn worked(calendar: &Calendar, a: Tick, b: Tick) -> Tick {
    let within = |t: Tick| {
        calendar
            .shifts()
            .iter()
            .flat_map(|s| &s.stretches)
            .any(|&(from, until)| from <= t && t < until)
    };
    (a..b).filter(|&t| within(t)).count() as Tick
}

#[test]
fn a_day_with_lunch_ends_half_an_hour_later() {
    let week = calendar(&[true; 5], 32, 66, Some((48, 50)));
    assert_eq!(week.add(32, 32), Some(66));
    assert_eq!(week.back(66, 32), Some(32));
    assert_eq!(week.next_working(48), Some(50));
    assert_eq!(week.previous_working(50), Some(47));
    assert!(
        week.fits_shift(32, 32),
        "lunch does not break unbroken work"
    );
    assert!(!week.fits_shift(33, 32), "the end of the shift does");
}

#[test]
fn after_the_last_shift_nobody_works() {
    let week = calendar(&[true; 2], 32, 64, None);
    assert_eq!(week.next_working(DAY + 64), None);
    assert_eq!(week.add(DAY + 63, 2), None);
    assert_eq!(week.add(DAY + 63, 1), Some(DAY + 64));
    assert_eq!(week.previous_working(32), None);
    assert_eq!(Calendar::default().next_working(0), None);
    assert_eq!(Calendar::default().add(0, 1), None);
}

#[test]
fn untidy_shifts_are_put_in_order() {
    let tidy = Calendar::new(vec![
        Shift {
            stretches: vec![(60, 70), (50, 60), (3, 3)],
        },
        Shift {
            stretches: vec![(10, 20), (15, 30)],
        },
        Shift {
            stretches: vec![(25, 40)],
        },
        Shift { stretches: vec![] },
    ]);
    let stretches: Vec<_> = tidy.shifts().iter().map(|s| s.stretches.clone()).collect();
    assert_eq!(stretches, [vec![(10, 30)], vec![(30, 40)], vec![(50, 70)]]);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn every_answer_equals_a_count_tick_by_tick(
        days in prop::collection::vec(any::<bool>(), 1..9),
        from in 0..40, length in 1..40, lunch in prop::option::of((1..20, 1..8)),
        t in -50..900, work in 0..120,
    ) {
        let until = from + length;
        let lunch = lunch.map(|(a, b)| (from + a, from + a + b)).filter(|l| l.1 < until);
        let c = calendar(&days, from, until, lunch);
        prop_assert_eq!(c.is_working(t), worked(&c, t, t + 1) == 1);
        prop_assert_eq!(c.next_working(t), (t..1000).find(|&x| worked(&c, x, x + 1) == 1));
        prop_assert_eq!(c.previous_working(t), (-60..t).rev().find(|&x| worked(&c, x, x + 1) == 1));
        prop_assert_eq!(c.between(t, t + work), worked(&c, t, t + work));
        prop_assert_eq!(c.add(t, work), (t..1000).find(|&f| worked(&c, t, f) == work));
        prop_assert_eq!(c.back(t, work), (-60..=t).rev().find(|&s| worked(&c, s, t) == work));
        let cut: Tick = c.stretches_within(t, t + work).map(|(a, b)| b - a).sum();
        prop_assert_eq!(cut, worked(&c, t, t + work));
    }
}
