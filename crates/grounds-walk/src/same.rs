//! Whether two names mean the same thing: by stems, and by the trade's other words for it.

use std::collections::BTreeSet;

use crate::{
    lexicon::{Class, lexicon, stem},
    tokens::{classify, tokenise},
};

/// The content words of a name as comparable keys: stems, or the number of their group where the
/// trade has several words for one thing.
#[must_use]
pub fn content_stems(name: &str) -> Vec<String> {
    grouped(&stems_of(name))
}

/// The stems of a name's content words.
fn stems_of(name: &str) -> Vec<String> {
    classify(tokenise(name, 0))
        .iter()
        .filter(|token| token.mark().is_none())
        .filter(|token| {
            !token.any(&[
                Class::Det,
                Class::Prep,
                Class::Conj,
                Class::Be,
                Class::Pron,
                Class::Not,
            ]) || token.any(&[Class::Side, Class::Particle]) && token.text.len() > 3
        })
        .flat_map(|token| {
            token
                .text
                .split(' ')
                .collect::<Vec<_>>()
                .into_iter()
                .map(str::to_owned)
                .collect::<Vec<_>>()
        })
        .filter(|word| {
            !matches!(
                word.as_str(),
                "of" | "out" | "the" | "in" | "to" | "on" | "and" | "or"
            )
        })
        .map(|word| stem(&word))
        .collect()
}

/// Replaces runs of stems that the trade has other words for by the number of their group.
fn grouped(words: &[String]) -> Vec<String> {
    let mut out = Vec::new();
    let mut at = 0;
    while let Some(word) = words.get(at) {
        let longest = (1..=3).rev().find_map(|count| {
            let run = words.get(at..at + count)?;
            let group = lexicon().group(&run.join(" "))?;
            Some((count, group))
        });
        match longest {
            Some((count, group)) => {
                out.push(format!("#{group}"));
                at += count;
            }
            None => {
                out.push(word.clone());
                at += 1;
            }
        }
    }
    out
}

/// Whether at least half of the wanted name's content words stand in the other name.
#[must_use]
pub fn same_thing(wanted: &str, other: &str) -> bool {
    let have: BTreeSet<String> = keys(other);
    let half = |want: &[String]| {
        let found = want.iter().filter(|word| have.contains(*word)).count();
        !want.is_empty() && found * 2 >= want.len()
    };
    half(&content_stems(wanted)) || half(&stems_of(wanted))
}

/// Stems and groups of a name, so that a word counts by itself and as part of its group.
fn keys(name: &str) -> BTreeSet<String> {
    let mut keys: BTreeSet<String> = content_stems(name).into_iter().collect();
    for word in name.split(' ') {
        let stem = stem(&word.to_lowercase());
        if let Some(group) = lexicon().group(&stem) {
            keys.insert(format!("#{group}"));
        }
        keys.insert(stem);
    }
    keys
}
