//! `grounds cover --json`.

use grounds_cover::{Ask, AskedBy, CoverWords, Covering, Hidden, Register, Said, Standing, Wanted};
use serde::Serialize;

use crate::opened::Planned;

/// The register of a house.
#[derive(Debug, Serialize)]
pub(super) struct CoverFile<'a> {
    job: &'a str,
    at: String,
    /// What is to come, the first to start first.
    to_come: Vec<CoveringFile<'a>>,
    /// What was covered without something, the latest first.
    covered_without: Vec<CoveringFile<'a>>,
}

#[derive(Debug, Serialize)]
struct CoveringFile<'a> {
    key: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    place: Option<&'a str>,
    standing: &'static str,
    /// When it starts by the plan, or when it began.
    start: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    begun: Option<SaidFile>,
    #[serde(skip_serializing_if = "Option::is_none")]
    let_go: Option<SaidFile>,
    /// What is asked for and not there, in sentences.
    missing: Vec<String>,
    hides: Vec<HiddenFile<'a>>,
}

#[derive(Debug, Serialize)]
struct HiddenFile<'a> {
    about: Vec<String>,
    name: &'a str,
    kind: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    done: Option<SaidFile>,
    photos: Vec<&'a str>,
    asks: Vec<AskFile>,
}

/// One thing that is asked for.
#[derive(Debug, Serialize)]
pub(super) struct AskFile {
    wanted: &'static str,
    what: String,
    /// `job` or `practice`.
    asked_by: &'static str,
    from: String,
    by: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    met: Option<SaidFile>,
    late: bool,
}

/// One thing that somebody said.
#[derive(Debug, Serialize)]
pub(super) struct SaidFile {
    at: String,
    by: String,
    note: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    words: Option<String>,
    /// Nobody saw it: it is taken to be so.
    presumed: bool,
}

impl SaidFile {
    pub(super) fn of(said: &Said) -> Self {
        Self {
            at: said.at.to_string(),
            by: said.by.clone(),
            note: said.note.to_string(),
            words: said.words.clone(),
            presumed: said.presumed,
        }
    }
}

impl AskFile {
    pub(super) fn of(words: &CoverWords<'_>, ask: &Ask) -> Self {
        Self {
            wanted: match ask.wanted {
                Wanted::Pass => "pass",
                Wanted::Photo => "photo",
                Wanted::Reading => "reading",
                Wanted::Paper => "paper",
                Wanted::Look => "look",
            },
            what: ask.what.clone(),
            asked_by: match ask.asked_by {
                AskedBy::Practice => "practice",
                _ => "job",
            },
            from: words.giver(&ask.from),
            by: words.when(ask.by),
            met: ask.met.as_ref().map(|met| SaidFile::of(&met.said)),
            late: ask.met.as_ref().is_some_and(|met| met.late),
        }
    }
}

impl<'a> CoverFile<'a> {
    pub(super) fn of(
        planned: &'a Planned,
        words: &CoverWords<'_>,
        register: &'a Register,
        weeks: Option<u16>,
    ) -> Self {
        let network = &planned.outlook.network;
        let one = |covering: &'a Covering| CoveringFile {
            key: &covering.key,
            place: covering.place.as_ref().map(|place| place.as_str()),
            standing: match covering.standing {
                Standing::ToCome => "to-come",
                Standing::InHand => "in-hand",
                Standing::Done => "done",
            },
            start: crate::commands::written(&network.clock.zoned(covering.start)),
            begun: covering.begun.as_ref().map(SaidFile::of),
            let_go: covering
                .let_go
                .as_ref()
                .map(|let_go| SaidFile::of(&let_go.said)),
            missing: words.missing(covering),
            hides: covering
                .hides
                .iter()
                .map(|hidden| hidden_file(words, hidden))
                .collect(),
        };
        Self {
            job: &planned.job.job.name,
            at: crate::commands::written(
                &network.now.to_zoned_datetime(network.clock.zone().clone()),
            ),
            to_come: register.to_come(weeks).map(one).collect(),
            covered_without: register.unseen().into_iter().map(one).collect(),
        }
    }
}

fn hidden_file<'a>(words: &CoverWords<'_>, hidden: &'a Hidden) -> HiddenFile<'a> {
    HiddenFile {
        about: hidden.subjects.iter().map(ToString::to_string).collect(),
        name: &hidden.name,
        kind: format!("{:?}", hidden.kind).to_lowercase(),
        done: hidden.evidence.done.as_ref().map(SaidFile::of),
        photos: hidden
            .evidence
            .photos
            .iter()
            .map(|(key, _)| key.as_str())
            .collect(),
        asks: hidden
            .asks
            .iter()
            .map(|ask| AskFile::of(words, ask))
            .collect(),
    }
}
