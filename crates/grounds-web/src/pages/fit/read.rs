//! Entering a reading: one figure, large keys, one thumb.

use grounds_lines::take::Take;
use grounds_measure::Units;
use grounds_sequence::words::upper_first;
use maud::{Markup, html};

use super::row;
use crate::visit::Visit;

/// What was typed, when the form comes back with a fault.
#[derive(Clone, Debug, Default)]
pub(crate) struct Typed {
    pub(crate) figure: String,
    pub(crate) side: String,
    pub(crate) within: String,
    pub(crate) words: String,
    pub(crate) fault: Option<String>,
}

/// The page.
pub(crate) fn read(visit: &Visit, take: &Take, need: Option<&str>, typed: &Typed) -> Markup {
    let units = visit.picture.job.job.units;
    let found = need.and_then(|key| visit.picture.fit.need(key));
    html! {
        header class="opening" {
            p class="place-line" {
                @match found {
                    Some((answer, _)) => a href=(row::address(visit, &answer.key)) { (answer.name) },
                    None => a href=(visit.to("fit")) { "Fit" },
                }
            }
            h1 class="ask" { (upper_first(&take.asked)) }
            p class="soft" { (take.with) }
        }
        form class="form pad-form" method="post" action=(visit.to("fit/read")) data-act="go" {
            input type="hidden" name="about" value=(take.about);
            input type="hidden" name="what" value=(take.what);
            input type="hidden" name="need" value=(need.unwrap_or_default());
            input type="hidden" name="once" value=(visit.once);
            (sides(take, typed))
            (figure(units, typed))
            (pad(units))
            p class="form-do" { button class="do" { "Write it down" } }
            (more(units, typed))
        }
    }
}

/// Which side of nothing it lies on, where it can be either.
fn sides(take: &Take, typed: &Typed) -> Markup {
    html! {
        @if let Some((above, below)) = take.sides {
            fieldset class="field" {
                legend class="said" { "Which way" }
                div class="choices side-by-side" {
                    @for (value, word) in [("above", above), ("below", below)] {
                        label {
                            input type="radio" name="side" value=(value) checked[typed.side == value];
                            (upper_first(word))
                        }
                    }
                }
            }
        }
    }
}

fn figure(units: Units, typed: &Typed) -> Markup {
    let (label, hint, mode) = match units {
        Units::Metric => ("Millimetres", "Like 12 or 12.5.", "decimal"),
        Units::Imperial => (
            "Feet, inches and fractions",
            "Like 3' 4 5/8\" or 5/8\".",
            "text",
        ),
    };
    let fault = typed.fault.as_ref();
    html! {
        div class="field" {
            label for="figure" { (label) }
            input id="figure" class="pad-figure" name="figure" value=(typed.figure) required
                autocomplete="off" inputmode=(mode) maxlength="40" data-pad-figure
                aria-invalid=[fault.map(|_| "true")]
                aria-describedby=(if fault.is_some() { "figure-fault figure-hint" } else { "figure-hint" });
            @if let Some(fault) = fault { p class="fault" id="figure-fault" { (fault) } }
            p class="hint pad-hint" id="figure-hint" { (hint) }
        }
    }
}

/// The keys. Without script they are not shown: the field is typed into.
fn pad(units: Units) -> Markup {
    let last = match units {
        Units::Metric => [(".", "."), ("0", "0")],
        Units::Imperial => [("' ", "ft"), ("0", "0")],
    };
    html! {
        div class="pad" data-pad hidden role="group" aria-label="Keys" {
            div class="pad-digits" {
                @for digit in ["7", "8", "9", "4", "5", "6", "1", "2", "3"] {
                    button type="button" class="key" data-key=(digit) { (digit) }
                }
                @for (key, word) in last {
                    button type="button" class="key" data-key=(key) { (word) }
                }
                button type="button" class="key" data-key="back" aria-label="Rub out" { "⌫" }
            }
            @if units == Units::Imperial {
                div class="pad-fractions" role="group" aria-label="Fractions of an inch" {
                    @for fraction in FRACTIONS {
                        button type="button" class="key" data-fraction=(fraction) { (fraction) }
                    }
                    button type="button" class="key" data-fraction="" aria-label="No fraction" { "–" }
                }
            }
        }
    }
}

/// The sixteenths of an inch, as a tape has them.
const FRACTIONS: [&str; 15] = [
    "1/16", "1/8", "3/16", "1/4", "5/16", "3/8", "7/16", "1/2", "9/16", "5/8", "11/16", "3/4",
    "13/16", "7/8", "15/16",
];

/// How sure it is, and words.
fn more(units: Units, typed: &Typed) -> Markup {
    let usual = match units {
        Units::Metric => {
            "Left out, it counts as ±0.5 mm with a rule and ±1.6 mm in 3 m with a tape."
        }
        Units::Imperial => {
            "Left out, it counts as ±1/64\" with a rule and ±1/16\" in 10' with a tape."
        }
    };
    let open = !typed.within.is_empty() || !typed.words.is_empty();
    html! {
        details class="fold" open[open] {
            summary { "How sure, and in your words" }
            div class="field" {
                label for="within" { "Give or take" }
                input id="within" name="within" value=(typed.within) autocomplete="off" maxlength="40"
                    aria-describedby="within-hint";
                p class="hint" id="within-hint" { (usual) }
            }
            div class="field" {
                label for="words" { "In your words" }
                textarea id="words" name="words" rows="2" maxlength="2000" { (typed.words) }
            }
        }
    }
}
