//! Which things of the job what was said may mean.

use std::collections::BTreeMap;

use strsim::damerau_levenshtein;

use crate::{
    kinds::Kind,
    lexicon::{Class, lexicon},
    same::content_stems,
    vocabulary::{Sort, Vocabulary},
};

/// How many things of the vocabulary are offered.
const MOST: usize = 5;

/// From this score on, of 100, a thing is offered.
const LEAST: i32 = 45;

/// Things that score this near to the best are as good as it.
const NEAR: i32 = 6;

/// What a name is worth more whose last word was said.
const HEAD: i32 = 8;

/// What a thing of another place is worth less.
const ELSEWHERE: i32 = 30;

/// Things that may be meant, the best first, and whether the best has equals.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Meant {
    pub(crate) things: Vec<usize>,
    pub(crate) ambiguous: bool,
}

/// The things of a vocabulary by the words of their names, made once for a walk.
pub(crate) struct Things<'v> {
    vocabulary: &'v Vocabulary,
    /// For each thing the words of each of its names.
    names: Vec<Vec<Vec<String>>>,
    /// For each thing the words of its place's names.
    around: Vec<Vec<String>>,
    /// By word: in how many things' names it stands.
    common: BTreeMap<String, usize>,
}

impl<'v> Things<'v> {
    /// The things of a vocabulary.
    pub(crate) fn of(vocabulary: &'v Vocabulary) -> Self {
        let names: Vec<Vec<Vec<String>>> = vocabulary
            .things
            .iter()
            .map(|thing| thing.names.iter().map(|name| content_stems(name)).collect())
            .collect();
        let mut common: BTreeMap<String, usize> = BTreeMap::new();
        for of_one in &names {
            let mut words: Vec<&String> = of_one.iter().flatten().collect();
            words.sort_unstable();
            words.dedup();
            for word in words {
                *common.entry(word.clone()).or_default() += 1;
            }
        }
        let places: BTreeMap<&str, Vec<String>> = vocabulary
            .places
            .iter()
            .map(|place| {
                let names = std::iter::once(&place.name).chain(&place.also);
                let words = names.flat_map(|name| content_stems(name)).collect();
                (place.id.as_str(), words)
            })
            .collect();
        let around = vocabulary.things.iter().map(|thing| {
            thing
                .place
                .as_deref()
                .and_then(|place| places.get(place))
                .cloned()
                .unwrap_or_default()
        });
        Self {
            vocabulary,
            around: around.collect(),
            names,
            common,
        }
    }

    /// The things that what was said may mean, by its name, its kind and its place.
    pub(crate) fn meant(&self, said: &str, kind: Kind, place: Option<usize>) -> Meant {
        let words = content_stems(said);
        if words.is_empty() || self.names.is_empty() {
            return Meant::default();
        }
        let here = place
            .and_then(|place| self.vocabulary.places.get(place))
            .map(|place| place.id.as_str());
        let tests = said
            .split(' ')
            .any(|word| lexicon().word(word).has(Class::TestNoun));
        let mut scored: Vec<(i32, usize)> = (0..self.names.len())
            .filter_map(|at| {
                let thing = self.vocabulary.things.get(at)?;
                let name = self.name_score(at, &words)?;
                let away = match (&thing.place, here) {
                    (Some(of), Some(here)) if of != here => ELSEWHERE,
                    _ => 0,
                };
                let score = name + liking(thing.sort, kind, tests) - away;
                (score >= LEAST).then_some((score, at))
            })
            .collect();
        scored.sort_by_key(|(score, at)| (std::cmp::Reverse(*score), *at));
        let best = scored.first().map_or(0, |(score, _)| *score);
        let ambiguous = scored
            .get(1)
            .is_some_and(|(second, _)| second + NEAR > best);
        Meant {
            things: scored.into_iter().take(MOST).map(|(_, at)| at).collect(),
            ambiguous,
        }
    }

    /// How well a thing's names fit what was said, of 100: how much of what was said they hold and
    /// how little else. Rare words tell more; words of the thing's own place tell little.
    fn name_score(&self, at: usize, said: &[String]) -> Option<i32> {
        let around = self.around.get(at)?;
        let weight = |word: &String| -> i32 {
            if around.contains(word) {
                return 1;
            }
            match self.common.get(word).copied().unwrap_or(0) {
                0 => 4,
                1..=3 => 8,
                4..=12 => 6,
                13..=40 => 5,
                _ => 4,
            }
        };
        let whole: i32 = said.iter().map(weight).sum();
        let score = |name: &Vec<String>| {
            let shared: i32 = said
                .iter()
                .filter(|word| name.iter().any(|known| same_word(known, word)))
                .map(weight)
                .sum();
            let own: i32 = name.iter().map(weight).sum();
            // "Desk" is rather the built-in desk than the desk pendant: the last word is the thing.
            let head = name
                .last()
                .is_some_and(|last| said.iter().any(|word| same_word(last, word)));
            62 * shared / whole.max(1)
                + 38 * shared.min(own) / own.max(1)
                + if head { HEAD } else { 0 }
        };
        let best = self.names.get(at)?.iter().map(score).max()?;
        (best > 0).then_some(best)
    }
}

/// Whether two stems are one word, perhaps misheard by a letter.
fn same_word(known: &str, said: &str) -> bool {
    known == said
        || known.len() >= 6
            && said.len() >= 6
            && !known.starts_with('#')
            && known.chars().next() == said.chars().next()
            && lexicon().word(said).is_empty()
            && damerau_levenshtein(known, said) <= 1
}

/// What the kind of what was said speaks for or against a sort of thing: goods come, tests pass,
/// choices are open, work gets done.
fn liking(sort: Sort, kind: Kind, tests: bool) -> i32 {
    match (sort, kind) {
        (Sort::Piece, Kind::Delivered | Kind::NotDelivered) => 12,
        (Sort::Hold, Kind::Passed | Kind::Failed) => 20,
        (Sort::Hold, _) if tests => 12,
        (Sort::Decision, Kind::Decision) => 25,
        (Sort::Opening, Kind::Measured) => 4,
        (Sort::Layer | Sort::Opening, Kind::Delivered | Kind::NotDelivered) => -25,
        (Sort::Hold, Kind::Measured | Kind::Next | Kind::Blocked) => -4,
        (Sort::Hold, _) => -12,
        (Sort::Opening, _) => -14,
        (Sort::Decision, Kind::Next | Kind::Blocked) => -8,
        (Sort::Decision, _) => -30,
        _ => 0,
    }
}
