//! The dates along the top.

use super::layout::Layout;
use super::{Weeks, Zoom};
use crate::ink::{Frame, Ink, number};
use crate::lettering::width;

const HEIGHT: f64 = 50.0;
/// Base lines of the two lines of lettering.
const UPPER: f64 = 20.0;
const LOWER: f64 = 42.0;

pub(crate) fn draw(ink: &mut Ink, chart: &Weeks, layout: &Layout<'_>) {
    ink.open("div").class("weeks-dates").end();
    ink.svg("weeks-dates-drawing", layout.width, HEIGHT)
        .word("aria-hidden", "true")
        .word("focusable", "false")
        .end();
    match chart.zoom {
        Zoom::TwoWeeks => every_day(ink, chart, layout),
        Zoom::SixWeeks | Zoom::AllWeeks => every_week(ink, chart, layout),
    }
    today(ink, chart, layout);
    ink.close("svg").close("div");
}

/// Day of the week above, date below. Today's date moves up, so that the flag stands right on the body of the chart.
fn every_day(ink: &mut Ink, chart: &Weeks, layout: &Layout<'_>) {
    for (index, day) in (0_u32..).zip(&chart.days) {
        let x = f64::from(index) * layout.measures.day;
        let class = match (day.rest, day.begins_week) {
            (true, _) => "date rest",
            (false, true) => "date week",
            (false, false) => "date",
        };
        let is_today = (f64::from(index)..f64::from(index) + 1.0).contains(&chart.today);
        if is_today {
            ink.letter("date week", x + 5.0, UPPER, &day.date);
        } else {
            ink.letter(class, x + 5.0, UPPER, &day.weekday);
            ink.letter(class, x + 5.0, LOWER, &day.date);
        }
        let line = if day.begins_week {
            "week-line"
        } else {
            "day-line"
        };
        ink.path(line, &format!("M{} 8V{}", number(x), number(HEIGHT)));
    }
}

/// The date of each week's first day, as many as have room.
fn every_week(ink: &mut Ink, chart: &Weeks, layout: &Layout<'_>) {
    let mut free_from = 0.0;
    for (x, day) in (0_u32..)
        .zip(&chart.days)
        .filter(|(_, day)| day.begins_week)
    {
        let x = f64::from(x) * layout.measures.day;
        let end = x + 5.0 + width(&day.date);
        if x >= free_from && end <= layout.width {
            ink.letter("date week", x + 5.0, UPPER, &day.date);
            ink.path("week-line", &format!("M{} 8V{}", number(x), number(HEIGHT)));
            free_from = end + 6.0;
        }
    }
}

fn today(ink: &mut Ink, chart: &Weeks, layout: &Layout<'_>) {
    let seen = chart.today >= 0.0 && chart.today * layout.measures.day <= layout.width;
    let Some(x) = layout.x(chart.today).filter(|_| seen) else {
        return;
    };
    let flag = width("today") + 10.0;
    let (from, to) = flag_room(chart, layout);
    let left = (x - flag / 2.0).clamp(from, (to - flag).max(from));
    ink.open("rect")
        .class("today-flag")
        .frame(Frame {
            x: left,
            y: HEIGHT - 22.0,
            width: flag,
            height: 22.0,
        })
        .shut();
    ink.letter("today-word", left + flag / 2.0, HEIGHT - 6.0, "today");
}

/// Where the flag may stand: over its own day where days are lettered, else anywhere.
fn flag_room(chart: &Weeks, layout: &Layout<'_>) -> (f64, f64) {
    match chart.zoom {
        Zoom::TwoWeeks => {
            let from = chart.today.floor() * layout.measures.day;
            (from, from + layout.measures.day)
        }
        Zoom::SixWeeks | Zoom::AllWeeks => (0.0, layout.width),
    }
}
