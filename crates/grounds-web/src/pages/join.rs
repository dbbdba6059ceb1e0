//! Joining, on the phone: the code, the name, and the certificate.

use maud::{DOCTYPE, Markup, html};

use super::frame::head;
use crate::{phones::Phones, visit::LONGEST_NAME};

/// What was typed, and what is wrong with it.
#[derive(Debug, Default)]
pub(crate) struct Asked {
    /// The code.
    pub(crate) code: String,
    /// The name.
    pub(crate) name: String,
    /// What is wrong with the code.
    pub(crate) bad_code: Option<&'static str>,
    /// What is wrong with the name.
    pub(crate) bad_name: Option<&'static str>,
}

fn page(title: &str, inside: &Markup) -> Markup {
    html! {
        (DOCTYPE)
        html lang="en" {
            (head(&format!("{title} · Grounds")))
            body { main id="main" class="page" tabindex="-1" { (inside) } }
        }
    }
}

/// The page that asks for a code and a name.
pub(crate) fn join(phones: &Phones, asked: &Asked) -> Markup {
    let inside = html! {
        header class="opening" {
            h1 { "Join with this phone." }
            p class="lead" {
                "Then you can walk the house with it. Notes and photos go to the machine in the office, under \
                 your name."
            }
        }
        form class="form" method="post" action="/join" {
            (field("code", "Code from the desk", &asked.code, asked.bad_code, "off", 100))
            (field("name", "Your name", &asked.name, asked.bad_name, "name", LONGEST_NAME))
            p class="form-do" { button class="do" { "Join" } }
        }
        @if phones.certificate.to_take_in().is_some() {
            section class="part" aria-labelledby="first" {
                h2 id="first" { "Before you join" }
                p {
                    "Did the phone warn you of this page? It does not know the machine in the office yet. Take \
                     in its certificate first, so that it is known and Walk works without a signal."
                }
                p class="onward" { a class="can" href="/join/certificate" { "How to take it in" } }
            }
        }
    };
    page("Join", &inside)
}

fn field(
    name: &str,
    label: &str,
    typed: &str,
    bad: Option<&str>,
    complete: &str,
    longest: usize,
) -> Markup {
    let hint = format!("{name}-bad");
    html! {
        div class="field" {
            label for=(name) { (label) }
            input id=(name) name=(name) value=(typed) maxlength=(longest) required
                autocomplete=(complete) autocapitalize=[(name == "code").then_some("none")]
                spellcheck="false" aria-invalid=[bad.map(|_| "true")]
                aria-describedby=[bad.map(|_| hint.as_str())];
            @if let Some(bad) = bad { p class="fault" id=(hint) { (bad) } }
        }
    }
}

/// The page that says how a phone takes in the certificate.
pub(crate) fn take_in_certificate(phones: &Phones) -> Markup {
    let Some((_, fingerprint)) = phones.certificate.to_take_in() else {
        let inside = html! {
            header class="opening" { h1 { "Nothing to take in." } }
            p { "This machine has a certificate of its owner's own. If the phone warns of it, ask them." }
            p { a class="do" href="/join" { "Join" } }
        };
        return page("Certificate", &inside);
    };
    let inside = html! {
        header class="opening" {
            h1 { "Let the phone know the machine in the office." }
            p class="lead" {
                "Once it has taken in this certificate, it trusts that machine, in private networks only."
            }
        }
        p { a class="do" href="/join/certificate/grounds.crt" { "Get the certificate" } }
        section class="part" aria-labelledby="iphone" {
            h2 id="iphone" { "On an iPhone or iPad" }
            ol class="steps" {
                li { "Open this page in Safari, get the certificate, and allow the download." }
                li { "In Settings, open the profile that was downloaded, and install it." }
                li { "In Settings, under General, About, Certificate Trust Settings, turn on full trust for it." }
                li { "Come back and join." }
            }
        }
        section class="part" aria-labelledby="android" {
            h2 id="android" { "On an Android phone" }
            ol class="steps" {
                li { "Get the certificate; it lies among the downloads as grounds.crt." }
                li { "In Settings, search for “CA certificate”, and install that file." }
                li { "The phone says that others could watch its traffic. It says so of every certificate \
                      that is installed by hand; this one can vouch for addresses of private networks only." }
                li { "Come back and join." }
            }
            p class="soft" { "Words and places in the settings differ from phone to phone." }
        }
        section class="part" aria-labelledby="right" {
            h2 id="right" { "Is it the right one?" }
            p { "Its SHA-256, in its details, must be the one that the desk shows:" }
            p class="fingerprint" { (fingerprint) }
        }
        p class="onward" { a class="can" href="/join" { "Join" } }
    };
    page("Certificate", &inside)
}

/// The page for a phone that was shut out.
pub(crate) fn shut_out(why: &str) -> Markup {
    let inside = html! {
        header class="opening" { h1 { "This phone was shut out." } }
        p class="notice breach" { (why) }
        p class="onward" { a class="can" href="/join" { "Join again with a code" } }
    };
    page("Shut out", &inside)
}
