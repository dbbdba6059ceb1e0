//! What the job says of a piece of work: who, how, and what is asked of it.

use grounds_model::PlaceKind;
use grounds_schedule::ActivityId;
use grounds_sequence::{Task, Work};
use maud::{Markup, html};

use crate::{say, visit::Visit};

/// What the job says of it.
pub(super) fn facts(visit: &Visit, id: ActivityId, task: &Task) -> Markup {
    let job = &visit.picture.job;
    let trade = task.trade.as_ref().and_then(|id| job.trades.get(id));
    let contact = trade.and_then(|trade| trade.contact.as_ref());
    let people = people(visit, task);
    let hold = match &task.work {
        Work::Pass(id) | Work::SetUp(id) | Work::PutRight(id) => job.holds.get(id),
        _ => None,
    };
    let place = task.place.as_ref().and_then(|id| job.places.get(id));
    html! {
        dl class="facts" {
            @if let Some(trade) = trade {
                div { dt { "Trade" } dd {
                    (trade.name)
                    @if let Some(people) = people { ", " (say::counted(people as usize, "person", "people")) }
                } }
            }
            @if let Some(contact) = contact {
                div { dt { "Call" } dd {
                    @if let Some(name) = &contact.name { (name) " " }
                    @if let Some(phone) = &contact.phone {
                        a href={ "tel:" (dialled(phone)) } { (phone) }
                    }
                } }
            }
            @if visit.picture.outlook.network.problem.activities[id.index()].unbroken {
                div { dt { "Once begun" } dd { "must not stop overnight" } }
            }
            @if let Some(hold) = hold {
                @if !hold.evidence.is_empty() {
                    div { dt { "Wants to see" } dd { (hold.evidence.join(", ")) } }
                }
                @if let Some(rule) = &hold.rule { div { dt { "Asked for by" } dd { (rule) } } }
            }
            @if place.is_some_and(|place| place.kind == PlaceKind::Stair) {
                div { dt { "On a stair" } dd { "see who must pass while it is worked on" } }
            }
            div { dt { "Key" } dd { code { (task.key) } } }
        }
    }
}

fn people(visit: &Visit, task: &Task) -> Option<u32> {
    let job = &visit.picture.job;
    let own = match &task.work {
        Work::Layer(keys) => keys
            .first()
            .and_then(|key| job.layer(key))
            .and_then(|l| l.people),
        Work::Set(id) => job.pieces.get(id).and_then(|piece| piece.people),
        _ => None,
    };
    let trade = task.trade.as_ref().and_then(|id| job.trades.get(id));
    own.or(trade.map(|trade| trade.people))
}

/// A telephone number as a link takes it.
fn dialled(phone: &str) -> String {
    phone
        .chars()
        .filter(|c| c.is_ascii_digit() || *c == '+')
        .collect()
}
