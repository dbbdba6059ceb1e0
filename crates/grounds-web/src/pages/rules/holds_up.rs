//! What a rule that is not kept holds up, and going on with it as it is.

use grounds_rules::{Family, Verdict, house::Applied};
use grounds_schedule::ActivityId;
use grounds_settle::{Bites, rule_goes_on, rule_key};
use maud::{Markup, html};
use uuid::Uuid;

use super::address;
use crate::{pages::fit::go_on, say, visit::Visit};

/// The part of a rule's page: what must wait, and the way to let it go on.
pub(super) fn part(visit: &Visit, applied: &Applied) -> Markup {
    let picture = &visit.picture;
    if applied.answer.verdict == Verdict::Passes {
        return html! {};
    }
    let key = rule_key(applied);
    let bites = grounds_settle::rule_bites(&picture.job, &picture.site, &picture.outlook, applied);
    let decided = rule_goes_on(&picture.site, applied);
    let fails = applied.answer.verdict == Verdict::Fails;
    html! {
        section class="part" aria-labelledby="holds" {
            h2 id="holds" { (if fails { "What it holds up" } else { "Until when there is time" }) }
            @match (decided, bites) {
                (Some(decided), _) if fails => (goes_on(visit, &key, decided.note)),
                (_, None) => p class="nothing" { (nothing(applied)) },
                (_, Some(bites)) if fails => {
                    @if applied.rule.family == Family::Coats {
                        p { "The plan waits for the air and for what dries by itself. " (bites.words(&visit.words())) }
                    } @else {
                        (waits(visit, &key, bites))
                        @if grounds_settle::rule_decided_about(applied).is_some() {
                            (go_on(visit, "rules/decide", ("rule", &key)))
                        }
                    }
                }
                (_, Some(bites)) => {
                    p { (bites.words(&visit.words())) " Nothing waits for it until then." }
                }
            }
        }
    }
}

fn nothing(applied: &Applied) -> &'static str {
    if applied.holds.is_empty() {
        "Nothing that it speaks of is still to be ordered, set or covered: it has to be put right where it is."
    } else {
        "What it would hold has begun: stop and settle it."
    }
}

/// Everything that the plan keeps back for it.
fn waits(visit: &Visit, key: &str, bites: Bites) -> Markup {
    let network = &visit.picture.outlook.network;
    let words = visit.words();
    let held = network.held.iter().find(|held| held.key == key);
    let kept = held.map_or_else(
        || vec![(bites.id, bites.is_order)],
        |held| kept_back(visit, held),
    );
    html! {
        ul class="checks" {
            @for (id, is_order) in kept {
                @if let (Some(task), Some(start)) = (network.task(id), visit.picture.outlook.plan.starts.get(id.index())) {
                    li {
                        @if is_order {
                            "Do not order " a href=(visit.to_work(&task.key)) { (grounds_site::words::with_article(&task.name)) }
                            ", due " b { (words.when(*start)) } ", before it is settled."
                        } @else {
                            "Do not begin " a href=(visit.to_work(&task.key)) { (words.mid(id)) }
                            ", planned for " b { (words.when(*start)) } "."
                        }
                    }
                }
            }
        }
        p class="soft" { (bites.words(&words)) }
    }
}

fn kept_back(visit: &Visit, held: &grounds_sequence::HeldUp) -> Vec<(ActivityId, bool)> {
    use grounds_sequence::{Holds, TaskState};
    let network = &visit.picture.outlook.network;
    let open = |id: &ActivityId| {
        network
            .task(*id)
            .is_some_and(|task| task.state == TaskState::ToCome)
    };
    let of = |holds: &Holds| match holds {
        Holds::Order(piece) => {
            let site = &visit.picture.site;
            let state = site.state(&grounds_site::Subject::Piece(piece.clone()));
            let ordered = state.ordered.is_some() && state.damaged.is_none();
            let arrives = network
                .find(&format!("{piece}:arrive"))
                .filter(|_| !ordered);
            arrives.filter(open).map(|id| (id, true))
        }
        Holds::Work(work) => grounds_settle::work_of(network, work)
            .filter(open)
            .map(|id| (id, false)),
    };
    held.holds.iter().filter_map(of).collect()
}

/// Who decided that it goes on as it is.
pub(super) fn let_go(visit: &Visit, note: Uuid) -> String {
    let by = visit.picture.site.notes.get(&note);
    let by = by.map_or_else(String::new, |note| {
        format!(" by {}", say::cut(&note.by, 60))
    });
    format!("Goes on as it is: decided{by}.")
}

/// Somebody let it go on: who, why, and the way back.
fn goes_on(visit: &Visit, key: &str, note: Uuid) -> Markup {
    html! {
        p { (let_go(visit, note)) }
        @if let Some(note) = visit.picture.site.notes.get(&note) {
            @if let Some(words) = &note.words { p class="enter" { (say::cut(words, 600)) } }
            p class="soft" { (say::short(note.at, visit.picture.zone())) ". A new reading opens it again." }
            form method="post" action=(visit.to("back")) data-act {
                input type="hidden" name="note" value=(note.id);
                input type="hidden" name="once" value=(visit.once);
                input type="hidden" name="back" value=(address(visit, key));
                button class="quiet" { "Hold it up again" }
            }
        }
    }
}
