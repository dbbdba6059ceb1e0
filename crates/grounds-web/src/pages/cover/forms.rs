//! What can be written down about what is hidden: seen, read, a photo kept elsewhere, a hold booked,
//! passed or failed, and that it goes on without.

use grounds_cover::{Ask, Covering, Giver, Hidden, Wanted};
use grounds_model::Id;
use grounds_sequence::words::lower_first;
use grounds_site::Subject;
use maud::{Markup, html};

use crate::{
    acts::Act,
    pages::{frame::without_wrote, row},
    visit::{NOBODY_SAID, Visit},
};

/// Reasons that come up on site, to be chosen from or written otherwise.
const REASONS: [&str; 3] = [
    "Seen by me, nothing to show for it",
    "Photos are still on a phone",
    "The inspector let us go on",
];

/// The folds under a covering that is to come.
pub(super) fn of_covering(visit: &Visit, covering: &Covering, name: &str) -> Markup {
    html! {
        div class="row-more cover-do" {
            (evidence(visit, covering, name))
            @for hidden in &covering.hides {
                @if let (Some(Subject::Hold(id)), None) = (hidden.subjects.first(), &hidden.evidence.done) {
                    (of_hold(visit, id, &hidden.name))
                }
            }
            @if covering.wants_reason() {
                details class="fold" {
                    summary { "Cover it without" span class="said" { ": " (name) } }
                    (let_go(visit, covering))
                }
            }
        }
    }
}

/// What can be written down of what is covered already.
pub(super) fn afterwards(visit: &Visit, covering: &Covering, name: &str) -> Markup {
    html! {
        div class="row-more cover-do" {
            (evidence(visit, covering, name))
            @if covering.let_go.is_none() {
                details class="fold" {
                    summary { "Write down why" span class="said" { ": " (name) } }
                    (let_go(visit, covering))
                }
            }
        }
    }
}

/// A photo, a reading, a paper, a look.
fn evidence(visit: &Visit, covering: &Covering, name: &str) -> Markup {
    let asks: Vec<(&Hidden, &Ask)> = covering
        .missing()
        .filter(|(_, ask)| ask.wanted != Wanted::Pass)
        .collect();
    let id = crate::pages::row::row_id_of(&covering.key);
    html! {
        @if !asks.is_empty() {
            details class="fold" {
                summary { "Write down what was seen" span class="said" { ": " (name) } }
                form class="form" method="post" action=(visit.to("cover/seen")) data-act {
                    input type="hidden" name="once" value=(visit.once);
                    input type="hidden" name="back" value=(without_wrote(&visit.path));
                    div class="field" {
                        label for={ "s-" (id) } { "What" }
                        select id={ "s-" (id) } name="ask" {
                            @for (hidden, ask) in &asks {
                                option value=(value_of(hidden, ask)) { (option(hidden, ask)) }
                            }
                        }
                    }
                    div class="field" {
                        label for={ "e-" (id) } { "What was seen or read; for a photo, where it is kept" }
                        input id={ "e-" (id) } name="words" maxlength="300" required;
                    }
                    p class="form-do" {
                        button class="do" { "Write it down" }
                        a class="can" href=(visit.to("walk")) { "Take photos on the walk" }
                    }
                }
            }
        }
    }
}

/// The thing and the ask, as a form sends it.
fn value_of(hidden: &Hidden, ask: &Ask) -> String {
    let about = hidden.subjects.first().map(ToString::to_string);
    format!("{}|{}", about.unwrap_or_default(), ask.what)
}

fn option(hidden: &Hidden, ask: &Ask) -> String {
    let name = lower_first(&hidden.name);
    let text = format!("{}: {name}", ask.what);
    crate::say::cut(&text, 90)
}

/// Booked, passed, failed.
pub(super) fn of_hold(visit: &Visit, id: &Id, name: &str) -> Markup {
    let key = format!("h-{}", crate::pages::row::row_id_of(id.as_str()));
    html! {
        details class="fold" {
            summary { "Book, pass or fail" span class="said" { ": " (name) } }
            p class="soft" { (name) }
            form class="row-do" method="post" action=(visit.to("notes")) data-act {
                (row::hidden(visit, id.as_str()))
                button class="can" name="act" value=(row::value(Act::Passed)) {
                    "Passed" span class="said" { ": " (name) }
                }
            }
            form class="form" method="post" action=(visit.to("notes")) data-act {
                (row::hidden(visit, id.as_str()))
                input type="hidden" name="act" value=(row::value(Act::Failed));
                div class="field" {
                    label for={ "f-" (key) } { "Why it failed" }
                    input id={ "f-" (key) } name="words" maxlength="300" required;
                }
                p class="form-do" { button class="can" { "Failed" span class="said" { ": " (name) } } }
            }
            form class="form" method="post" action=(visit.to("notes")) data-act {
                (row::hidden(visit, id.as_str()))
                input type="hidden" name="act" value=(row::value(Act::Promised));
                div class="field" {
                    label for={ "b-" (key) } { "Booked for" }
                    input id={ "b-" (key) } type="date" name="when" required;
                }
                p class="form-do" { button class="can" { "Booked" span class="said" { ": " (name) } } }
            }
        }
    }
}

/// The form in which somebody lets a covering go on without what is asked; it starts with the same
/// press.
pub(super) fn start_without(visit: &Visit, covering: &Covering, back: &str) -> Markup {
    let start = html! { input type="hidden" name="start" value="yes"; };
    form(visit, covering, back, &start, "Cover it without")
}

/// The form in which somebody writes down why something goes on, or went on, without what is asked.
fn let_go(visit: &Visit, covering: &Covering) -> Markup {
    let back = without_wrote(&visit.path);
    form(visit, covering, &back, &html! {}, "Write it down")
}

/// Whether an inspector's pass is missing.
fn lacks_an_inspection(covering: &Covering) -> bool {
    covering
        .missing()
        .any(|(_, ask)| ask.wanted == Wanted::Pass && matches!(ask.from, Giver::Inspector(_)))
}

fn form(visit: &Visit, covering: &Covering, back: &str, more: &Markup, button: &str) -> Markup {
    let id = crate::pages::row::row_id_of(&covering.key);
    let named = match visit.who.as_str() {
        NOBODY_SAID => "",
        who => who,
    };
    html! {
        form class="form" method="post" action=(visit.to("cover/let-go")) data-act="go" {
            input type="hidden" name="about" value=(covering.key);
            input type="hidden" name="once" value=(visit.once);
            input type="hidden" name="back" value=(back);
            (more)
            @if lacks_an_inspection(covering) {
                p class="notice" {
                    "An inspection has not passed. Nobody here can let that go: the authority may have \
                     it opened up again."
                }
            }
            div class="field" {
                label for={ "r-" (id) } { "Why it may be covered without" }
                input id={ "r-" (id) } name="words" maxlength="300" required list={ "l-" (id) }
                    aria-describedby={ "rh-" (id) };
                p class="hint" id={ "rh-" (id) } { "It stays in the register, with your name." }
                datalist id={ "l-" (id) } {
                    @for reason in REASONS { option value=(reason) {} }
                }
            }
            div class="field" {
                label for={ "n-" (id) } { "Your name" }
                input id={ "n-" (id) } name="by" value=(named) maxlength="60" required autocomplete="name";
            }
            p class="form-do" { button class="do" { (button) } }
        }
    }
}
