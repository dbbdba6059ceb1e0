//! One key, one thing.

use std::collections::BTreeMap;

use super::Notes;
use crate::{
    id::Id,
    job::{FORMAT, Job},
    place::OUTSIDE,
    promise::WHOLE_JOB,
};

pub(super) fn check(job: &Job, notes: &mut Notes<'_, '_>) {
    if job.format != FORMAT {
        notes.error(
            &["format"],
            "there is no such format",
            format!("write format = {FORMAT}"),
        );
    }
    check_about(job, notes);
    let mut taken: BTreeMap<&Id, &str> = BTreeMap::new();
    for (kind, keys) in kinds(job) {
        for key in keys {
            if [OUTSIDE, WHOLE_JOB].contains(&key.as_str()) {
                let what = format!("the key `{key}` is kept for {}", kept_for(key.as_str()));
                notes.error_at_key(&[kind, key.as_str()], what, "choose another key");
            } else if let Some(other) = taken.get(key) {
                let what = format!("the key `{key}` is already used in `{other}`");
                let mend = format!(
                    "references need no prefix, so each key names one thing; rename one, for example `{key}-2`"
                );
                notes.error_at_key(&[kind, key.as_str()], what, mend);
            } else {
                taken.insert(key, kind);
            }
        }
    }
}

fn kept_for(key: &str) -> &'static str {
    if key == OUTSIDE {
        "the open air"
    } else {
        "the whole job"
    }
}

/// The keys of each kind of thing that shares the namespace.
pub(super) fn kinds(job: &Job) -> [(&'static str, Vec<&Id>); 10] {
    [
        ("places", job.places.keys().collect()),
        ("passages", job.passages.keys().collect()),
        ("pieces", job.pieces.keys().collect()),
        ("openings", job.openings.keys().collect()),
        ("holds", job.holds.keys().collect()),
        ("decisions", job.decisions.keys().collect()),
        ("milestones", job.milestones.keys().collect()),
        ("trades", job.trades.keys().collect()),
        ("controls", job.controls.keys().collect()),
        ("lines", job.lines.keys().collect()),
    ]
}

fn check_about(job: &Job, notes: &mut Notes<'_, '_>) {
    if let Some(currency) = &job.job.currency {
        let coded = currency.len() == 3 && currency.bytes().all(|byte| byte.is_ascii_uppercase());
        if !coded {
            let what = format!("`{}` is not a currency code", crate::text::shown(currency));
            notes.error(
                &["job", "currency"],
                what,
                "write three capitals of ISO 4217, like EUR or USD",
            );
        }
    }
    if !(1970..=2200).contains(&job.job.begins.year()) {
        let what = format!("no house was finished in {}", job.job.begins.year());
        notes.error(
            &["job", "begins"],
            what,
            "write a day from 1970 to 2200, like 2027-06-07",
        );
    }
}
