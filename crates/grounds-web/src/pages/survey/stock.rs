//! Pieces that are on site already, against today's openings.

use grounds_lines::answers::Verdict;
use grounds_survey::stock::{Stock, stock};
use maud::{Markup, html};

use super::site;
use crate::visit::{Visit, encode};

/// The part of the page; nothing where no piece is on site.
pub(super) fn part(visit: &Visit) -> Markup {
    let (job, site) = site(visit);
    let here = stock(job, site);
    html! {
        section class="part" aria-labelledby="stock" {
            h2 id="stock" { "On site already" }
            @if here.is_empty() { p class="nothing" { "No piece is marked as on site and not set." } }
            ul class="rows plain" { @for it in &here { (line(visit, it)) } }
        }
    }
}

fn line(visit: &Visit, it: &Stock) -> Markup {
    let job = &visit.picture.job;
    let kept = it.kept_in.as_ref().and_then(|place| job.places.get(place));
    html! {
        li class="row" {
            div class="row-words" {
                h3 class="row-name" { (it.name) ": " (verdict_words(it.verdict)) }
                @if let Some(place) = kept { p class="row-why" { "Kept in " (place.name) "." } }
                @for (key, _, said) in &it.needs {
                    p class="row-why" { a href={ (visit.to("fit/need/")) (encode(key, ".-")) } { (said) } }
                }
                @for (what, who) in &it.missing {
                    p class="row-why" { "To read: " (what) " (" (who) ")." }
                }
                @if it.verdict.is_none() {
                    p class="row-why" { "The job does not say which opening it goes into, or with what gaps." }
                }
            }
        }
    }
}

fn verdict_words(verdict: Option<Verdict>) -> &'static str {
    match verdict {
        Some(Verdict::Fails) => "does not fit as it is",
        Some(Verdict::Tight) => "tight",
        Some(Verdict::CannotTell) => "cannot tell yet",
        Some(Verdict::Holds) => "fits",
        None => "nothing to hold it against",
    }
}
