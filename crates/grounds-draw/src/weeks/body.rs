//! The body of the chart: shading, rules, closures, bars, marks, today.

use super::layout::{LEVEL_HEIGHT, Layout, Placed, Row, What};
use super::{Bar, Closure, Mark, MarkKind, Weeks};
use crate::hatch::{Tone, fill};
use crate::ink::{Frame, Ink, number};
use crate::lettering::{fitted, whole_words, width};
use crate::link::Link;
use crate::stack::{State, Trouble};
use crate::strip::{finished_part, sign};

/// Narrower than this, in pixels, a hatch is only noise and is left out.
const HATCHED_FROM: f64 = 6.0;
/// Kept free between a tail and what stands next in its lane, in pixels.
const TAIL_AIR: f64 = 3.0;
/// A shorter tail, in pixels, says nothing.
const SHORTEST_TAIL: f64 = 4.0;

pub(crate) fn draw(ink: &mut Ink, chart: &Weeks, layout: &Layout<'_>) {
    ink.svg("weeks-body", layout.width, layout.height)
        .word("role", "group")
        .word("aria-label", &chart.title);
    let today = layout.x(chart.today).filter(|_| chart.today >= 0.0);
    if let Some(x) = today {
        ink.num("data-today", x);
    }
    ink.end();
    ground(ink, chart, layout);
    for row in layout.rows() {
        draw_row(ink, chart, layout, row);
    }
    if let Some(x) = today.filter(|x| *x < layout.width) {
        ink.path(
            "today-line",
            &format!("M{} 0V{}", number(x), number(layout.height)),
        );
    }
    ink.close("svg");
}

/// Days of rest shaded, weeks ruled fine, places by hairlines, levels by the one heavy rule.
fn ground(ink: &mut Ink, chart: &Weeks, layout: &Layout<'_>) {
    let (day, bottom) = (layout.measures.day, number(layout.height));
    let (mut rest, mut week) = (String::new(), String::new());
    for (index, each) in (0_u32..).zip(&chart.days) {
        let x = number(f64::from(index) * day);
        if each.rest {
            rest.push_str(&format!(
                "M{x} 0h{}V{bottom}h-{}z",
                number(day),
                number(day)
            ));
        }
        if each.begins_week {
            week.push_str(&format!("M{x} 0V{bottom}"));
        }
    }
    ink.path("rest", &rest);
    ink.path("week-line", &week);
    let right = number(layout.width);
    let hair: String = layout
        .rows()
        .map(|row| format!("M0 {}H{right}", number(row.y + row.height)))
        .collect();
    ink.path("hairline", &hair);
    for (rule, _) in &layout.levels {
        let top = Frame {
            x: 0.0,
            y: rule - LEVEL_HEIGHT,
            width: layout.width,
            height: LEVEL_HEIGHT,
        };
        ink.open("rect").class("level-band").frame(top).shut();
    }
    let rules: String = layout
        .levels
        .iter()
        .map(|(rule, _)| format!("M0 {}H{right}", number(*rule)))
        .collect();
    ink.path("level-line", &rules);
}

fn draw_row(ink: &mut Ink, chart: &Weeks, layout: &Layout<'_>, row: &Row<'_>) {
    let shut: Vec<&Closure> = chart
        .closures
        .iter()
        .filter(|shut| shut.places.contains(&row.place.key))
        .collect();
    if row.placed.is_empty() && shut.is_empty() {
        return;
    }
    ink.open("g")
        .word("data-row", "")
        .word("role", "group")
        .word("aria-label", &row.place.name)
        .end();
    for closure in shut {
        draw_closure(ink, layout, row, closure);
    }
    for placed in &row.placed {
        if let What::Bar(bar) = placed.what {
            tail(
                ink,
                layout,
                bar,
                placed,
                row.lane_middle(placed.lane, layout.measures),
            );
        }
    }
    for placed in &row.placed {
        let (y, height) = (
            row.lane_middle(placed.lane, layout.measures),
            layout.measures.lane,
        );
        match placed.what {
            What::Bar(bar) => draw_bar(ink, layout, bar, placed, y, height),
            What::Mark(mark) => draw_mark(ink, mark, placed, y, height),
        }
    }
    ink.close("g");
}

/// The whole height of the row, so that rows next to each other read as one shut part of the house.
fn draw_closure(ink: &mut Ink, layout: &Layout<'_>, row: &Row<'_>, closure: &Closure) {
    let (Some(from), Some(to)) = (layout.x(closure.from), layout.x(closure.to)) else {
        return;
    };
    if to - from < 0.5 {
        return;
    }
    ink.open("rect").class("shut").frame(Frame {
        x: from,
        y: row.y,
        width: to - from,
        height: row.height,
    });
    ink.word("fill", "url(#h-shut)").end();
    ink.open("title")
        .end()
        .text(&format!("{}: {}", row.place.name, closure.reason))
        .close("title")
        .close("rect");
    ink.path(
        "shut-edge",
        &format!(
            "M{} {}v{}M{} {}v{}",
            number(from),
            number(row.y),
            number(row.height),
            number(to),
            number(row.y),
            number(row.height)
        ),
    );
    let free = row
        .placed
        .iter()
        .all(|placed| placed.span.to <= from || placed.span.from >= to);
    if let Some(words) =
        fitted(&closure.reason, to - from - 10.0).filter(|_| free && layout.measures.lettered)
    {
        ink.letter(
            "shut-word",
            from + 5.0,
            row.y + row.height / 2.0 + 5.0,
            &words,
        );
    }
}

/// Time to spare: a light line from the end of the bar, with the oblique tick of a dimension string where it runs out.
/// Where something else stands in the lane before that, the line stops short of it, without its tick.
fn tail(ink: &mut Ink, layout: &Layout<'_>, bar: &Bar, placed: &Placed<'_>, y: f64) {
    let Some(end) = bar.latest.and_then(|latest| layout.x(latest)) else {
        return;
    };
    let from = placed.span.to;
    let seen = end.min(placed.free.to - TAIL_AIR);
    if seen - from < SHORTEST_TAIL {
        return;
    }
    let low = y + layout.measures.bar / 2.0 - 2.0;
    let mut line = format!("M{} {}H{}", number(from), number(low), number(seen));
    if seen >= end && end < layout.width {
        line.push_str("m-3 4l6 -8");
    }
    ink.path("spare", &line);
}

fn draw_bar(ink: &mut Ink, layout: &Layout<'_>, bar: &Bar, placed: &Placed<'_>, y: f64, lane: f64) {
    let measures = layout.measures;
    let frame = Frame {
        x: placed.span.from,
        y: y - measures.bar / 2.0,
        width: placed.span.to - placed.span.from,
        height: measures.bar,
    };
    let class = if bar.drives {
        format!("{} drives", bar.state.class())
    } else {
        bar.state.class().to_owned()
    };
    let drives = if bar.drives {
        ", drives the finish or a milestone"
    } else {
        ""
    };
    let said = format!(
        "{}, {}{drives}{}",
        bar.said,
        bar.state.word(),
        bar.trouble.word()
    );
    let tag = begin(ink, bar.href.as_ref(), &class, &said);
    if measures.touch > 0.0 {
        ink.open("rect")
            .class("hit")
            .frame(hit_frame(placed, measures.touch, y, lane))
            .shut();
    }
    ink.open("rect").frame(frame);
    if frame.width >= HATCHED_FROM {
        ink.word("fill", &fill(bar.hatch, tone(bar)));
    }
    ink.shut();
    if let Some(share) = bar.state.share_in_hand() {
        let part = Frame {
            x: frame.x + 1.0,
            y: frame.y + 1.0,
            width: (frame.width - 2.0) * share,
            height: frame.height - 2.0,
        };
        finished_part(ink, bar.hatch, part);
    }
    if measures.lettered {
        letter(ink, bar, placed, y);
    }
    sign(ink, bar.trouble, frame.x + frame.width, y);
    ink.close(tag);
}

/// What drives the finish is drawn in full ink even while it is to come.
fn tone(bar: &Bar) -> Tone {
    match bar.state {
        State::ToCome if bar.drives => Tone::Bare,
        state => state.tone(),
    }
}

/// A link where there is one, else a group that can at least be heard.
fn begin(ink: &mut Ink, href: Option<&Link>, class: &str, said: &str) -> &'static str {
    let tag = if href.is_some() { "a" } else { "g" };
    ink.open(tag).class(class);
    match href {
        Some(link) => ink.word("href", link.as_str()),
        None => ink.word("role", "img"),
    };
    ink.word("aria-label", said).end();
    tag
}

/// The part that answers to a press: the lane's full height, at least `touch` wide, never past the middle of the gap to a
/// neighbour.
fn hit_frame(placed: &Placed<'_>, touch: f64, y: f64, lane: f64) -> Frame {
    let (span, free) = (placed.span, placed.free);
    let more = ((touch - (span.to - span.from)) / 2.0).max(0.0);
    let from = span.from - more.min((span.from - free.from).max(0.0) / 2.0);
    let to = span.to + more.min((free.to - span.to).max(0.0) / 2.0);
    Frame {
        x: from,
        y: y - lane / 2.0,
        width: to - from,
        height: lane,
    }
}

/// The label on the bar if it fits, after the bar if there is room before the next, else as many of its words as fit on it.
fn letter(ink: &mut Ink, bar: &Bar, placed: &Placed<'_>, y: f64) {
    let trouble = if bar.trouble == Trouble::None {
        0.0
    } else {
        8.0
    };
    let inside = placed.span.to - placed.span.from - 10.0 - trouble;
    let after = placed.free.to - placed.span.to - 10.0 - trouble;
    let full = width(&bar.label);
    if full > inside && full <= after {
        let x = placed.span.to + 5.0 + trouble;
        ink.letter("beside", x, y + 5.0, &bar.label);
    } else if let Some(words) = whole_words(&bar.label, inside) {
        ink.letter("on", placed.span.from + 5.0, y + 5.0, words);
    }
}

fn draw_mark(ink: &mut Ink, mark: &Mark, placed: &Placed<'_>, y: f64, lane: f64) {
    let x = f64::midpoint(placed.span.from, placed.span.to);
    let trouble = match mark.trouble {
        Trouble::None => "",
        Trouble::Care => " care",
        Trouble::Breach => " breach",
    };
    let said = format!("{}{}", mark.said, mark.trouble.word());
    let tag = begin(
        ink,
        mark.href.as_ref(),
        &format!("{}{trouble}", mark.kind.class()),
        &said,
    );
    ink.open("rect")
        .class("hit")
        .frame(hit_frame(placed, lane.min(44.0), y, lane))
        .shut();
    ink.open("path").data(&shape(mark.kind, x, y)).shut();
    if mark.trouble == Trouble::Breach {
        sign(ink, Trouble::Breach, x, y);
    }
    ink.close(tag);
}

/// The shape of a kind of moment, about 15 px across.
pub(crate) fn shape(kind: MarkKind, x: f64, y: f64) -> String {
    let (x, y) = (number(x), |by: f64| number(y + by));
    match kind {
        MarkKind::Delivery => format!("M{x} {}l-7.5 -12h15z", y(6.0)),
        MarkKind::Inspection => format!("M{x} {}a6.5 6.5 0 1 0 .01 0z", y(-6.5)),
        MarkKind::Milestone => format!("M{x} {}l7.5 7.5l-7.5 7.5l-7.5 -7.5z", y(-7.5)),
        MarkKind::Decision => format!("M{x} {}V{}l-6 -7M{x} {}l6 -7", y(8.0), y(0.0), y(0.0)),
    }
}
