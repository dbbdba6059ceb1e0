//! The weeks ahead: places by level down, days across.

mod chart;
mod range;

use grounds_model::Id;
use maud::{Markup, PreEscaped, html};

use crate::{
    pages::live,
    visit::{Visit, encode},
};
use range::Range;

/// What is shown of the plan.
pub(crate) struct Choice<'a> {
    /// How far ahead.
    pub(crate) range: Range,
    /// Only this trade.
    pub(crate) trade: Option<&'a Id>,
    /// Only this place.
    pub(crate) place: Option<&'a Id>,
}

/// The page.
pub(crate) fn weeks(visit: &Visit) -> Markup {
    let choice = choice(visit);
    let chart = chart::chart(visit, &choice);
    let drawn = chart.levels.iter().any(|level| !level.places.is_empty());
    html! {
        header class="opening" {
            h1 { (visit.words().forecast()) }
            (live::live(visit, live::Of::Weeks))
        }
        (tools(visit, &choice))
        div class="with-panel" {
            div {
                @if drawn {
                    (PreEscaped(grounds_draw::weeks(&chart)))
                    details class="fold" {
                        summary { "What the lines and hatches mean" }
                        (PreEscaped(grounds_draw::sheet_key(&grounds_draw::Hatch::ALL)))
                    }
                } @else {
                    p class="nothing" { "Nothing of that in these weeks." }
                }
            }
            aside class="panel" id="panel" hidden aria-label="Reasons" {}
        }
    }
}

fn choice(visit: &Visit) -> Choice<'_> {
    let job = &visit.picture.job;
    Choice {
        range: Range::named(visit.asked("weeks")),
        trade: visit
            .asked("trade")
            .and_then(|id| job.trades.get_key_value(id))
            .map(|(id, _)| id),
        place: visit
            .asked("place")
            .and_then(|id| job.places.get_key_value(id))
            .map(|(id, _)| id),
    }
}

fn tools(visit: &Visit, choice: &Choice<'_>) -> Markup {
    let job = &visit.picture.job;
    html! {
        div class="tools" {
            nav class="pick" aria-label="How far ahead" {
                @for range in Range::ALL {
                    a href=(address(range, choice))
                        aria-current=[(range == choice.range).then_some("true")] { (range.word()) }
                }
            }
            form method="get" data-auto {
                input type="hidden" name="weeks" value=(choice.range.value());
                label {
                    "Trade "
                    select name="trade" {
                        option value="" { "Every trade" }
                        @for (id, trade) in &job.trades {
                            option value=(id) selected[choice.trade == Some(id)] { (trade.name) }
                        }
                    }
                }
                label {
                    "Place "
                    select name="place" {
                        option value="" { "Every place" }
                        @for (id, place) in &job.places {
                            option value=(id) selected[choice.place == Some(id)] { (place.name) }
                        }
                    }
                }
                button class="can" { "Show" }
            }
        }
    }
}

/// The same choice, another stretch of weeks.
fn address(range: Range, choice: &Choice<'_>) -> String {
    let mut address = format!("?weeks={}", range.value());
    for (name, id) in [("trade", choice.trade), ("place", choice.place)] {
        if let Some(id) = id {
            address.push_str(&format!("&{name}={}", encode(id.as_str(), "")));
        }
    }
    address
}
