//! Phones, at the desk: who has joined, letting one join, shutting one out.

use grounds_store::Person;
use maud::{Markup, html};

use crate::{
    pages::qr,
    phones::{GOOD_FOR, Live, Phones},
    say,
    visit::Visit,
};

/// The page. Without a door, it says how to open one.
pub(crate) fn phones(visit: &Visit, door: Option<&Phones>, people: &[Person]) -> Markup {
    html! {
        header class="opening" {
            h1 { (sentence(people)) }
            p class="lead" {
                "A phone that joins can read every job on this machine and write notes and photos, under \
                 its person's name. Only here are phones let in and shut out."
            }
        }
        div class="columns" {
            div { @match door {
                Some(door) => (join_part(visit, door)),
                None => (no_door()),
            } }
            div {
                (people_part(visit, people))
                @if let Some(door) = door { (certificate(visit, door)) }
                (care())
            }
        }
    }
}

fn sentence(people: &[Person]) -> String {
    let here = people.iter().filter(|p| p.revoked.is_none()).count();
    match here {
        0 => "No phone has joined.".to_owned(),
        1 => "One phone has joined.".to_owned(),
        many => format!("{many} phones have joined."),
    }
}

fn people_part(visit: &Visit, people: &[Person]) -> Markup {
    let (out, here): (Vec<&Person>, Vec<&Person>) =
        people.iter().partition(|person| person.revoked.is_some());
    html! {
        section class="part" aria-labelledby="people" {
            h2 id="people" { "Who has joined" }
            @if here.is_empty() { p class="nothing" { "Nobody yet." } }
            ul class="rows plain" { @for person in here { (row(visit, person)) } }
        }
        @if !out.is_empty() {
            section class="part" aria-labelledby="out" {
                h2 id="out" { "Shut out" }
                ul class="rows plain" { @for person in out { (out_row(visit, person)) } }
            }
        }
    }
}

fn row(visit: &Visit, person: &Person) -> Markup {
    let when = |at| say::long(at, visit.picture.zone());
    html! {
        li class="row" {
            div class="row-words" {
                h3 class="row-name" { (person.name) }
                p class="row-why" {
                    "Joined " (when(person.joined)) ". Last heard of " (when(person.seen)) "."
                }
            }
            form class="row-do" method="post" action=(visit.to("phones/revoke")) {
                input type="hidden" name="phone" value=(person.id);
                button class="can" aria-label={ "Shut out the phone of " (person.name) } { "Shut out" }
            }
        }
    }
}

fn out_row(visit: &Visit, person: &Person) -> Markup {
    html! {
        li class="row" {
            div class="row-words" {
                p class="row-name" { (person.name) }
                @if let Some(at) = person.revoked {
                    p class="row-why" { "Since " (say::long(at, visit.picture.zone())) "." }
                }
            }
        }
    }
}

fn join_part(visit: &Visit, door: &Phones) -> Markup {
    let urls = door.urls();
    let codes = door.live_codes(&visit.key);
    let at = visit
        .asked("at")
        .and_then(|at| at.parse().ok())
        .unwrap_or(0);
    html! {
        section class="part" id="join" aria-labelledby="join-name" {
            h2 id="join-name" { "Let a phone join" }
            @if urls.is_empty() {
                p class="notice" {
                    "This machine has no address that phones in the same network can reach. Connect it to \
                     the network of the house, then look again."
                }
            }
            @if let (Some(url), Some(code)) = (urls.get(at).or(urls.first()), codes.first()) {
                (code_part(url, code))
            }
            form method="post" action=(visit.to("phones/code")) {
                p class="form-do" {
                    button class=(if codes.is_empty() { "do" } else { "can" }) {
                        @if codes.is_empty() { "Let a phone join" } @else { "Another code" }
                    }
                }
            }
            p { "A code is good for " (GOOD_FOR.as_secs() / 60) " minutes and for one phone." }
            (reach(visit, &urls))
        }
    }
}

fn code_part(url: &str, code: &Live) -> Markup {
    let address = format!("{url}/join?code={}", code.words);
    let minutes = code.left.as_secs().div_ceil(60);
    html! {
        div class="join-code" {
            (qr::drawn(&address))
            div {
                p { "Point the phone's camera here, or open" }
                p class="join-address" { (url) "/join" }
                p { "and enter" }
                p class="join-words" { (code.words) }
                p class="soft" {
                    "Good for " (say::counted(usize::try_from(minutes).unwrap_or(0), "more minute", "more minutes")) "."
                }
            }
        }
    }
}

/// Where phones reach the machine. The square leads to one of these; another can be chosen.
fn reach(visit: &Visit, urls: &[String]) -> Markup {
    html! {
        @if !urls.is_empty() {
            p { "Phones reach this machine at" }
            ul class="plain" {
                @for (at, url) in urls.iter().enumerate() {
                    li class="join-address" {
                        (url)
                        @if urls.len() > 1 {
                            " " a class="quiet" href=(visit.to(&format!("phones?at={at}#join")))
                                aria-label={ "Show the square for " (url) } { "Show" }
                        }
                    }
                }
            }
        }
    }
}

fn certificate(visit: &Visit, door: &Phones) -> Markup {
    html! {
        @if let Some((_, fingerprint)) = door.certificate.to_take_in() {
            section class="part" aria-labelledby="certificate" {
                h2 id="certificate" { "So that the phone knows this machine" }
                p {
                    "The first time, a phone warns that it does not know this machine. Once it has taken in \
                     the certificate of this data folder it does, the warning is gone, and Walk works \
                     without a signal. The phone shows the steps when it joins."
                }
                p {
                    a href=(visit.to("phones/grounds.crt")) download="grounds.crt" { "The certificate" }
                    ", to bring to a phone in another way. It is the right one if its SHA-256 is"
                }
                p class="fingerprint" { (fingerprint) }
                p class="soft" {
                    "It vouches for addresses of private networks only. Whoever holds its key, in the folder \
                     “phones” of the data folder, can pose as this machine there: keep it to yourself."
                }
            }
        }
    }
}

fn care() -> Markup {
    html! {
        section class="part" aria-labelledby="care" {
            h2 id="care" { "Take care" }
            p {
                "Open this door only in a network that you trust. Notes and photos go from the phone to this \
                 machine and nowhere else. Shut out a phone that is lost or sold; what it wrote stays."
            }
        }
    }
}

fn no_door() -> Markup {
    html! {
        section class="part" aria-labelledby="join-name" {
            h2 id="join-name" { "Let a phone join" }
            p { "There is no door for phones now. Start Grounds with one:" }
            p { code { "grounds serve --phones " (crate::LISTEN_TO_PHONES) } }
            p {
                "Phones in the same network can then join with a code from this page. Do so only in a network \
                 that you trust."
            }
        }
    }
}
