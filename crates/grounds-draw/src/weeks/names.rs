//! The names at the left. They are HTML, so that a name too long for the phone is cut by the style sheet; each line is
//! held to the height of its row by an SVG that does nothing else (or draws the level mark).

use super::Weeks;
use super::layout::{LEVEL_HEIGHT, Layout};
use crate::ink::Ink;

pub(crate) fn draw(ink: &mut Ink, chart: &Weeks, layout: &Layout<'_>) {
    ink.open("div")
        .class("weeks-names")
        .word("aria-hidden", "true")
        .end();
    for (level, (_, rows)) in chart.levels.iter().zip(&layout.levels) {
        ink.open("div").class("weeks-level").end();
        ink.svg("level-mark", 15.0, LEVEL_HEIGHT)
            .word("focusable", "false")
            .end();
        ink.path("level-triangle", "M1.5 21H13.5L7.5 31.5z")
            .close("svg");
        ink.open("span").end().text(&level.name);
        if !level.height.is_empty() {
            ink.text(" ").open("b").end().text(&level.height).close("b");
        }
        ink.close("span").close("div");
        for row in rows {
            ink.open("div").class("weeks-place").end();
            ink.svg("strut", 1.0, row.height)
                .word("focusable", "false")
                .end()
                .close("svg");
            ink.open("span")
                .end()
                .text(&row.place.name)
                .close("span")
                .close("div");
        }
    }
    ink.close("div");
}
