//! The key of a sheet: what its lines, signs and hatches mean.

use crate::hatch::{Hatch, Tone, fill};
use crate::ink::{Frame, Ink};
use crate::stack::{State, Trouble};
use crate::strip::{finished_part, sign};
use crate::weeks::{MarkKind, shape};

const WIDTH: f64 = 34.0;
const HEIGHT: f64 = 22.0;
const BAR: Frame = Frame {
    x: 2.0,
    y: 2.0,
    width: 30.0,
    height: 18.0,
};

/// The key as an HTML list: the states of work, closures, moments and trouble, then the hatches given.
#[must_use]
pub fn sheet_key(hatches: &[Hatch]) -> String {
    let mut ink = Ink::new();
    ink.open("ul").class("sheet-key").end();
    for (state, word) in [
        (State::Done, "done"),
        (State::InHand { percent: 50 }, "in hand"),
        (State::Next, "can start"),
        (State::ToCome, "to come"),
    ] {
        entry(&mut ink, word, |ink| bar(ink, state, false));
    }
    entry(
        &mut ink,
        "drives the finish or a milestone: nothing to spare",
        |ink| bar(ink, State::ToCome, true),
    );
    entry(
        &mut ink,
        "may end as late as the tick before the finish or a milestone moves",
        spare,
    );
    entry(&mut ink, "shut", |ink| {
        ink.open("rect")
            .class("shut")
            .frame(BAR)
            .word("fill", "url(#h-shut)")
            .shut();
    });
    for (kind, word) in [
        (MarkKind::Delivery, "delivery"),
        (MarkKind::Inspection, "test or inspection"),
        (MarkKind::Decision, "decision"),
        (MarkKind::Milestone, "milestone"),
    ] {
        entry(&mut ink, word, |ink| {
            ink.open("g").class(kind.class()).end();
            ink.open("path")
                .data(&shape(kind, WIDTH / 2.0, HEIGHT / 2.0))
                .shut()
                .close("g");
        });
    }
    entry(&mut ink, "trouble", |ink| {
        sign(ink, Trouble::Care, WIDTH / 2.0, HEIGHT / 2.0)
    });
    entry(&mut ink, "breach", |ink| {
        sign(ink, Trouble::Breach, WIDTH / 2.0, HEIGHT / 2.0)
    });
    for hatch in hatches {
        entry(&mut ink, hatch.word(), |ink| {
            ink.open("rect")
                .class("swatch")
                .frame(BAR)
                .word("fill", &fill(*hatch, Tone::Bare))
                .shut();
        });
    }
    ink.close("ul");
    ink.done()
}

fn entry(ink: &mut Ink, word: &str, drawing: impl FnOnce(&mut Ink)) {
    ink.open("li").end();
    ink.svg("key-drawing", WIDTH, HEIGHT)
        .word("aria-hidden", "true")
        .word("focusable", "false")
        .end();
    drawing(ink);
    ink.close("svg").text(word).close("li");
}

fn spare(ink: &mut Ink) {
    ink.path("spare", "M16 18H29m-3 4l6 -8");
    ink.open("g").class(State::ToCome.class()).end();
    let half = Frame {
        width: BAR.width / 2.0 - 1.0,
        ..BAR
    };
    ink.open("rect")
        .frame(half)
        .word("fill", &fill(Hatch::Plaster, State::ToCome.tone()))
        .shut()
        .close("g");
}

fn bar(ink: &mut Ink, state: State, drives: bool) {
    let tone = if drives { Tone::Bare } else { state.tone() };
    let class = if drives {
        "to-come drives"
    } else {
        state.class()
    };
    ink.open("g").class(class).end();
    ink.open("rect")
        .frame(BAR)
        .word("fill", &fill(Hatch::Plaster, tone))
        .shut();
    if state.share_in_hand().is_some() {
        finished_part(
            ink,
            Hatch::Plaster,
            Frame {
                width: BAR.width / 2.0,
                ..BAR
            },
        );
    }
    ink.close("g");
}
