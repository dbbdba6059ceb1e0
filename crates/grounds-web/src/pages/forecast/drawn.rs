//! What the curve of a date is drawn from.

use grounds_draw::{Curve, CurveMark, CurveMarkKind, CurveRead};
use grounds_schedule::{DAY, Tick};
use grounds_sequence::Prospect;
use jiff::civil::Weekday;

use crate::picture::Picture;

/// The most days that are looked through for dates to letter.
const MOST_DAYS: i32 = 2_000;

/// The curve of a date.
pub(super) fn curve(picture: &Picture, prospect: &Prospect, title: &str) -> Curve {
    let words = picture.words();
    let (first, last) = ends(picture, prospect);
    let at = |tick: Tick| f64::from(tick.saturating_sub(first)) / f64::from(DAY);
    let read = |tick: Tick, chance: f64, name: &str| CurveRead {
        at: at(tick),
        chance,
        name: name.to_owned(),
        date: words.short_end(tick),
    };
    let mark = |tick: Tick, kind: CurveMarkKind, name: &str| CurveMark {
        at: at(tick),
        kind,
        words: format!("{name} {}", words.short_end(tick)),
    };
    let mut marks = vec![mark(prospect.planned, CurveMarkKind::Plan, "plan")];
    marks.extend(prospect.due.map(|due| mark(due, CurveMarkKind::Due, "due")));
    let bound = picture.outlook.bound;
    if prospect.milestone.is_none() && words.day(bound) != words.day(prospect.planned) {
        marks.push(mark(bound, CurveMarkKind::Bound, "no sooner than"));
    }
    let points = prospect.curve.iter();
    Curve {
        title: format!("{title}: the chance of each day or an earlier one"),
        said: format!(
            "{} {}",
            words.chances(prospect),
            words.against_plan(prospect)
        ),
        points: points.map(|(tick, chance)| (at(*tick), *chance)).collect(),
        reads: vec![
            read(prospect.even, 0.5, "even chance"),
            read(prospect.four_in_five, 0.8, "four in five"),
        ],
        marks,
        dates: mondays(picture, first, last)
            .map(|tick| (at(tick), words.short_end(tick + 1)))
            .collect(),
    }
}

/// The first day and the end of all that is drawn.
fn ends(picture: &Picture, prospect: &Prospect) -> (Tick, Tick) {
    let clock = &picture.outlook.network.clock;
    let ticks = prospect.curve.iter().map(|(tick, _)| *tick);
    let ticks = ticks.chain([prospect.planned]).chain(prospect.due);
    let (first, last) = ticks.fold((Tick::MAX, Tick::MIN), |(low, high), tick| {
        (low.min(tick), high.max(tick))
    });
    (clock.midnight(clock.day(first)), last)
}

fn mondays(picture: &Picture, first: Tick, last: Tick) -> impl Iterator<Item = Tick> {
    let clock = &picture.outlook.network.clock;
    let days = (0..MOST_DAYS).map(move |day| first.saturating_add(day.saturating_mul(DAY)));
    days.take_while(move |tick| *tick <= last)
        .filter(|tick| clock.day(*tick).weekday() == Weekday::Monday)
}
