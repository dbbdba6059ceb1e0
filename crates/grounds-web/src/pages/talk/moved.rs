//! What the plan did after notes of a walk were accepted.

use grounds_model::Id;
use grounds_schedule::Tick;
use grounds_sequence::words::upper_first;
use maud::{Markup, html};
use uuid::Uuid;

use crate::{say, talk::Talk, visit::Visit};

/// A date before and after.
struct Moved {
    name: String,
    before: Tick,
    after: Tick,
    days: i32,
}

/// The dates that moved with the notes just written, in words.
pub(super) fn moved(visit: &Visit, talk: &Talk) -> Markup {
    let wrote: Option<Uuid> = visit.asked("moved").and_then(|id| id.parse().ok());
    let since = visit.picture.since.as_ref();
    let Some(since) = since.filter(|since| wrote.is_some_and(|id| since.notes.contains(&id)))
    else {
        return html! {};
    };
    let written = since.notes.len();
    let words = visit.words();
    let day = |tick: Tick| words.day(tick);
    let (moved, same): (Vec<Moved>, Vec<Moved>) = dates(visit, &since.dates)
        .into_iter()
        .partition(|moved| moved.days != 0);
    let lead = match moved.first() {
        None => "No date moves.".to_owned(),
        Some(_) => format!("{} moved:", say::counted(moved.len(), "date", "dates")),
    };
    let n = say::counted(written, "note", "notes");
    let say = format!("{n} written. {lead}");
    html! {
        section class="part moved" aria-labelledby="moved" data-moved=(say) {
            h2 id="moved" { "What moved" }
            p { b { (n) } " of “" (talk.kept.head.name) "” written down. " (lead) }
            @if !moved.is_empty() {
                div class="scrolls" tabindex="0" role="region" aria-label="The dates, before and after" {
                    table class="table" {
                        thead { tr { th scope="col" { "Date" } th scope="col" { "Before" } th scope="col" { "Now" } th scope="col" { "That is" } } }
                        tbody {
                            @for each in &moved {
                                tr {
                                    th scope="row" { (upper_first(&each.name)) }
                                    td { (day(each.before)) }
                                    td { b { (day(each.after)) } }
                                    td { (by_how_much(each.days)) }
                                }
                            }
                        }
                    }
                }
                @if !same.is_empty() { p class="nothing" { (say::counted(same.len(), "other date stays", "other dates stay")) " as planned." } }
            }
        }
    }
}

fn by_how_much(days: i32) -> String {
    let n = usize::try_from(days.unsigned_abs()).unwrap_or(usize::MAX);
    let days_said = say::counted(n, "day", "days");
    if days > 0 {
        format!("{days_said} later")
    } else {
        format!("{days_said} sooner")
    }
}

/// Every date of before that there still is.
fn dates(visit: &Visit, before: &std::collections::BTreeMap<Option<Id>, Tick>) -> Vec<Moved> {
    let picture = &visit.picture;
    let clock = &picture.outlook.network.clock;
    let now = picture.dates();
    let one = |(key, was): (&Option<Id>, &Tick)| {
        let is = now.get(key)?;
        let (from, to) = (clock.day(*was), clock.day(*is));
        let milestone = key.as_ref().and_then(|key| picture.job.milestones.get(key));
        Some(Moved {
            name: milestone.map_or_else(
                || "the last finish".to_owned(),
                |milestone| format!("“{}”", milestone.name),
            ),
            before: *was,
            after: *is,
            days: from.until(to).map_or(0, |span| span.get_days()),
        })
    };
    before.iter().filter_map(one).collect()
}
