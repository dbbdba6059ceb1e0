//! `grounds cover --hold`: everything that is asked for one test or inspection.

use grounds_cover::{AUTHORITY_DECIDES, CoverWords, Hidden, HoldLook, Register, look_at};
use grounds_model::{Contact, Hold, Id};
use grounds_sequence::words::upper_first;
use serde::Serialize;

use super::{
    file::{AskFile, SaidFile},
    show, show_json,
};
use crate::{
    ending::{Ending, Trouble},
    opened::Planned,
    page::{HEAD, PLAIN, Page, QUIET, harmless},
};

pub(super) fn run(
    planned: &Planned,
    words: &CoverWords<'_>,
    register: &Register,
    key: &str,
    json: bool,
) -> Result<Ending, Trouble> {
    let id = Id::from(key);
    let found =
        planned
            .job
            .holds
            .get(&id)
            .zip(look_at(&planned.job, &planned.site, &planned.outlook, &id));
    let Some((hold, look)) = found else {
        return Err(Trouble::Input(unknown(planned, key)));
    };
    let here = register.of_hold(&id);
    if json {
        show_json(&HoldFile::of(words, &id, hold, &look, here))?;
    } else {
        show(page(planned, words, hold, &look, here))?;
    }
    Ok(Ending::Fine)
}

fn unknown(planned: &Planned, key: &str) -> String {
    let shown: String = harmless(key).chars().take(80).collect();
    let keys = planned.job.holds.keys().map(Id::as_str);
    let near = keys
        .clone()
        .max_by(|a, b| strsim::jaro_winkler(a, key).total_cmp(&strsim::jaro_winkler(b, key)));
    match near {
        Some(near) => format!("the job has no hold {shown:?}; did you mean {near}?"),
        None => "the job has no holds: add one as [holds.flood-test]".to_owned(),
    }
}

fn page(
    planned: &Planned,
    words: &CoverWords<'_>,
    hold: &Hold,
    look: &HoldLook,
    here: Option<&Hidden>,
) -> Page {
    let mut page = Page::default();
    let place = planned.job.places.get(&hold.place);
    let place = place.map_or_else(String::new, |place| format!(", {}", place.name));
    page.heading(HEAD, &format!("{}{place}", hold.name));
    for sentence in words.hold(hold, look) {
        page.paragraph(PLAIN, 2, &sentence);
    }
    if let Some(rule) = &hold.rule {
        page.paragraph(PLAIN, 2, &format!("Asked for by: {rule}"));
    }
    if let Some(contact) = contact(planned, hold) {
        page.paragraph(PLAIN, 2, &contact);
    }
    if let Some(here) = here {
        page.heading(HEAD, "What it wants");
        for ask in &here.asks {
            let stands = match &ask.met {
                Some(met) => format!("{}: there, {}.", ask.what, words.on_by(&met.said)),
                None => words.ask(here, ask),
            };
            page.item(2, &upper_first(&stands));
        }
    } else if !hold.evidence.is_empty() {
        page.heading(HEAD, "What it wants");
        hold.evidence.iter().for_each(|text| page.item(2, text));
    }
    page.paragraph(QUIET, 0, AUTHORITY_DECIDES);
    page
}

/// `Call: Mr Abbot, 01632 960120 (Building control)`
fn contact(planned: &Planned, hold: &Hold) -> Option<String> {
    let trade = planned.job.trades.get(hold.by.as_ref()?)?;
    let Contact { name, phone, email } = trade.contact.clone().unwrap_or_default();
    let parts: Vec<String> = [name, phone, email].into_iter().flatten().collect();
    Some(match parts.as_slice() {
        [] => format!("By: {}", trade.name),
        parts => format!("Call: {} ({})", parts.join(", "), trade.name),
    })
}

/// One hold as JSON.
#[derive(Debug, Serialize)]
struct HoldFile<'a> {
    key: &'a str,
    name: &'a str,
    place: &'a str,
    /// How it stands, in sentences.
    stands: Vec<String>,
    fails: usize,
    rule: Option<&'a str>,
    asks: Vec<AskFile>,
    passed: Option<SaidFile>,
    caution: &'static str,
}

impl<'a> HoldFile<'a> {
    fn of(
        words: &CoverWords<'_>,
        id: &'a Id,
        hold: &'a Hold,
        look: &HoldLook,
        here: Option<&'a Hidden>,
    ) -> Self {
        let asks = here.into_iter().flat_map(|here| &here.asks);
        Self {
            key: id.as_str(),
            name: &hold.name,
            place: hold.place.as_str(),
            stands: words.hold(hold, look),
            fails: look.fails,
            rule: hold.rule.as_deref(),
            asks: asks.map(|ask| AskFile::of(words, ask)).collect(),
            passed: here
                .and_then(|here| here.evidence.done.as_ref())
                .map(SaidFile::of),
            caution: AUTHORITY_DECIDES,
        }
    }
}
