//! The sheet of an opening: tapes, the largest rectangle, what to order, and how it is carried.

use grounds_draw::{Scale, on_every_medium};
use grounds_fit::opening::Handling;
use grounds_lines::{said, take::Take};
use grounds_measure::{Length, Units};
use grounds_model::{Id, Ref};
use grounds_sequence::words::{count, upper_first};
use grounds_site::words;
use maud::{Markup, PreEscaped, html};

use super::row;
use crate::{
    fit::{Found, Ordered, Sheet, TapeKind, Weighed},
    pages::cautions,
    visit::Visit,
};

/// The page of an opening; nothing for one that there is not.
pub(crate) fn opening(visit: &Visit, id: &str) -> Option<Markup> {
    let fit = &visit.picture.fit;
    let (key, sheet) = fit.openings.iter().find(|(key, _)| key.as_str() == id)?;
    let found = sheet.found();
    let name = thing(visit, sheet);
    Some(html! {
        header class="opening" {
            p class="place-line" { (sheet.name) }
            h1 { (headline(sheet, found, &name, visit.picture.job.job.units)) }
            p class="lead" { (lead(visit, sheet, found)) }
        }
        (super::changed::changed(visit, None))
        @if let Some(fault) = &found.fault { p class="notice breach" { (upper_first(fault)) "." } }
        (PreEscaped(on_every_medium(Scale::Fifth, |medium| grounds_draw::opening_sheet(&found.drawn, medium))))
        div class="columns" {
            div { (tapes(visit, key, sheet, found)) }
            div { (sizes(visit, sheet, found)) (carried(sheet, &name, visit.picture.job.job.units)) (needs(visit, sheet)) }
        }
    })
}

/// The piece that goes in, for the middle of a sentence.
fn thing(visit: &Visit, sheet: &Sheet) -> String {
    let piece = sheet
        .piece
        .as_ref()
        .and_then(|id| visit.picture.job.pieces.get(id));
    piece.map_or_else(
        || "what goes in".to_owned(),
        |piece| words::with_article(&piece.name),
    )
}

fn headline(sheet: &Sheet, found: &Found, name: &str, units: Units) -> String {
    let order = found.order.map(|size| by(size, units));
    match (order, sheet.ordered, found.fits) {
        (None, ..) => "Nothing goes in with these readings: measure again.".to_owned(),
        (Some(order), _, _) if !sheet.is_read() => {
            format!("Nobody has put a tape to it. By the drawing {order} would go in.")
        }
        (Some(order), Ordered::ToCome, _) => format!("Order {order}."),
        (Some(_), state, Some((spare, chance))) => {
            let is = match state {
                Ordered::Here => "on site",
                _ => "on order",
            };
            if chance >= 0.95 {
                format!("{} {is} goes in.", upper_first(name))
            } else if spare < 0.0 {
                format!(
                    "{} {is} is too large: {} short at each edge.",
                    upper_first(name),
                    said::length(spare, units)
                )
            } else {
                format!("{} {is} is not sure to go in.", upper_first(name))
            }
        }
        (Some(order), ..) => format!("{order} goes in."),
    }
}

fn lead(visit: &Visit, sheet: &Sheet, found: &Found) -> Markup {
    let units = visit.picture.job.job.units;
    let open = sheet
        .tapes
        .iter()
        .filter(|tape| {
            tape.read.is_none() && matches!(tape.kind, TapeKind::Width | TapeKind::Height)
        })
        .count();
    html! {
        @if let Some((width, height)) = found.largest {
            "The largest upright rectangle is " b { (rounded(width, units)) " × " (rounded(height, units)) }
            @if sheet.clearance.is_positive() { ", and " (sheet.clearance.display(units)) " stays clear at each edge" }
            ". "
        }
        @if let Some(out) = found.out_of_square {
            @if out >= 1.0 { "The diagonals differ by " b { (said::length(out, units)) } ". " }
        }
        @if open > 0 {
            span class="soft" {
                (upper_first(&count(open))) " more " (if open == 1 { "reading" } else { "readings" })
                " of width and height would tell whether it is plumb, level and square."
            }
        }
    }
}

fn rounded(mm: f64, units: Units) -> String {
    said::length(mm, units)
}

fn by((width, height): (Length, Length), units: Units) -> String {
    match units {
        Units::Metric => format!(
            "{} × {}",
            width.display(units).to_string().trim_end_matches(" mm"),
            height.display(units)
        ),
        Units::Imperial => format!("{} × {}", width.display(units), height.display(units)),
    }
}

/// Every place for the tape, read or still to be read.
fn tapes(visit: &Visit, id: &Id, sheet: &Sheet, found: &Found) -> Markup {
    html! {
        section class="part" aria-labelledby="tapes" {
            h2 id="tapes" { "Where to put the tape" }
            ul class="tapes" {
                @for (index, tape) in sheet.tapes.iter().enumerate() {
                    @let what = if tape.read.is_some() && matches!(tape.what.as_str(), "width" | "height") {
                        format!("{}, place not said", tape.what)
                    } else {
                        said_of(&tape.what)
                    };
                    li {
                        span { (upper_first(&what)) @if found.doubtful == Some(index) { ", " b { "read it again" } } }
                        span class="tape-read" {
                            @if tape.read.is_some() { b { (sheet.words(tape)) } } @else { span class="soft" { "to read" } }
                        }
                        a class="can" href=(row::to_read(visit, &take(id, &tape.what), "")) {
                            "Enter" span class="said" { ": " (what) }
                        }
                    }
                }
            }
        }
    }
}

fn take(id: &Id, what: &str) -> Take {
    Take {
        about: Ref(id.0.clone()),
        what: what.to_owned(),
        asked: String::new(),
        with: "",
        sides: None,
    }
}

/// A place for the tape as it is said.
fn said_of(what: &str) -> String {
    match what {
        "diagonal rising" => "diagonal, left foot to right head".to_owned(),
        "diagonal falling" => "diagonal, left head to right foot".to_owned(),
        "plumb left" => "left side, off plumb".to_owned(),
        "plumb right" => "right side, off plumb".to_owned(),
        "level sill" => "sill, off level".to_owned(),
        "level head" => "head, off level".to_owned(),
        other => words::plain(other),
    }
}

/// The size to order, the size on order, and whether that goes in.
fn sizes(visit: &Visit, sheet: &Sheet, found: &Found) -> Markup {
    let units = visit.picture.job.job.units;
    let label = match sheet.ordered {
        Ordered::ToCome => "Drawn",
        Ordered::OnOrder => "On order",
        Ordered::Here => "On site",
    };
    html! {
        section class="part" aria-labelledby="sizes" {
            h2 id="sizes" { "Sizes" }
            dl class="facts" {
                @if let Some(order) = found.order { div { dt { "Goes in" } dd { (by(order, units)) } } }
                @if let Some(made) = sheet.made {
                    div { dt { (label) } dd {
                        (by((made.first(), made.second()), units))
                        @if sheet.made_within.is_positive() { ", ±" (sheet.made_within.display(units)) }
                    } }
                }
                @if let Some((spare, chance)) = found.fits {
                    div { dt { "Does it go in?" } dd {
                        @if spare.is_finite() {
                            (said::length(spare, units)) " " (if spare < 0.0 { "short" } else { "to spare" })
                            " at each edge; "
                        }
                        "in " b { (said::chance(chance)) }
                    } }
                }
            }
            p class="soft" {
                "Rounded down to what makers cut in. What cannot be cut again is measured by its maker before it is made."
            }
        }
    }
}

/// How heavy it is, and how it is carried.
fn carried(sheet: &Sheet, name: &str, units: Units) -> Markup {
    let Some((weight, handling, weighed)) = sheet.weight else {
        return html! {};
    };
    html! {
        section class="part" aria-labelledby="carried" {
            h2 id="carried" { "Carrying it" }
            p {
                (upper_first(name)) " weighs "
                @if weighed == Weighed::Reckoned { "about " }
                b { (weight.display(units)) } ". " (hands(handling))
                @if let Some(people) = sheet.people { " The job has " b { (count(people as usize)) " people" } " for it." }
            }
            @if sheet.glass { p { (cautions::GLASS) } }
            p class="soft" { (cautions::LOCAL_CODE) }
        }
    }
}

fn hands(handling: Handling) -> &'static str {
    match handling {
        Handling::One => "One person can carry it, if there is a grip.",
        Handling::Two => "Two people, gloved, with suckers if it is glass.",
        Handling::Four => "Four people with suckers or straps, or a lifter.",
        Handling::Lifter => {
            "No lifting by hand: a lifter or hoist, with a plan for the way in and a floor that bears it."
        }
    }
}

fn needs(visit: &Visit, sheet: &Sheet) -> Markup {
    let fit = &visit.picture.fit;
    let about = |answer: &&grounds_lines::answers::Answer| {
        sheet
            .piece
            .as_ref()
            .is_some_and(|piece| answer.about.as_str() == piece.as_str())
    };
    html! {
        section class="part" aria-labelledby="needs" {
            h2 id="needs" { "What is wanted of it" }
            ul class="rows plain fits" {
                @for answer in fit.answers.iter().filter(about).take(12) { (row::plain(visit, answer)) }
            }
        }
    }
}
