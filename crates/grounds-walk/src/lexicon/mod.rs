//! The trade's words, read from the files of `lexicon/`.
//!
//! Each file holds lines `class: word, phrase, ...`; `misheard.txt` holds `heard = said`, and
//! `same.txt` holds one thing with its other names on each line. To teach a word, add it to a line.

mod class;
mod stem;

use std::{collections::BTreeMap, sync::LazyLock};

pub(crate) use class::{Class, Classes};
pub(crate) use stem::stem;

use crate::tokens::split_words;

const CLASS_FILES: [&str; 7] = [
    include_str!("../../lexicon/things.txt"),
    include_str!("../../lexicon/function_words.txt"),
    include_str!("../../lexicon/states.txt"),
    include_str!("../../lexicon/faults.txt"),
    include_str!("../../lexicon/actions.txt"),
    include_str!("../../lexicon/people.txt"),
    include_str!("../../lexicon/places.txt"),
];
const IDLE: &str = include_str!("../../lexicon/idle.txt");
const MISHEARD: &str = include_str!("../../lexicon/misheard.txt");
const SAME: &str = include_str!("../../lexicon/same.txt");

/// The words and phrases of the trade.
pub(crate) struct Lexicon {
    /// By first word: the other words of each phrase, and its classes; longest first.
    phrases: BTreeMap<String, Vec<(Vec<String>, Classes)>>,
    /// By first word heard: the other words heard, and what was said; longest first.
    misheard: BTreeMap<String, Vec<Misheard>>,
    /// By phrase: the number of its line of things that are the same.
    same: BTreeMap<String, usize>,
}

/// The other words heard, and the words that were said.
type Misheard = (Vec<String>, Vec<String>);

static LEXICON: LazyLock<Lexicon> = LazyLock::new(Lexicon::read);

/// The lexicon, read once.
pub(crate) fn lexicon() -> &'static Lexicon {
    &LEXICON
}

impl Lexicon {
    fn read() -> Self {
        let mut phrases: BTreeMap<Vec<String>, Classes> = BTreeMap::new();
        for (class, entry) in CLASS_FILES.iter().chain([&IDLE]).flat_map(|f| entries(f)) {
            let words = split_words(entry);
            if let Some(class) = Class::named(class)
                && !words.is_empty()
            {
                phrases.entry(words).or_default().add(class);
            }
        }
        let mut misheard: BTreeMap<String, Vec<Misheard>> = BTreeMap::new();
        for (heard, said) in lines(MISHEARD).filter_map(|line| line.split_once('=')) {
            let mut heard = split_words(heard).into_iter();
            if let Some(first) = heard.next() {
                let entry = (heard.collect(), split_words(said));
                misheard.entry(first).or_default().push(entry);
            }
        }
        for list in misheard.values_mut() {
            list.sort_by_key(|(heard, _)| std::cmp::Reverse(heard.len()));
        }
        Self {
            phrases: by_first(phrases),
            misheard,
            same: same_things(),
        }
    }

    /// The longest phrase that the words begin with: how many words it has, and its classes.
    pub(crate) fn phrase<'w>(
        &self,
        first: &str,
        rest: impl Fn(usize) -> Option<&'w str>,
    ) -> Option<(usize, Classes)> {
        let (more, classes) = self
            .phrases
            .get(first)?
            .iter()
            .find(|(more, _)| matches_words(more, &rest))?;
        Some((more.len() + 1, *classes))
    }

    /// What was said where the words were heard: how many words were heard, and the words meant.
    pub(crate) fn meant<'w>(
        &self,
        first: &str,
        rest: impl Fn(usize) -> Option<&'w str>,
    ) -> Option<(usize, &[String])> {
        let (more, said) = self
            .misheard
            .get(first)?
            .iter()
            .find(|(more, _)| matches_words(more, &rest))?;
        Some((more.len() + 1, said))
    }

    /// The classes of one word alone.
    pub(crate) fn word(&self, word: &str) -> Classes {
        self.phrase(word, |_| None)
            .map_or_else(Classes::default, |(_, classes)| classes)
    }

    /// The number of the group of names that a phrase belongs to, if it belongs to one.
    pub(crate) fn group(&self, phrase: &str) -> Option<usize> {
        self.same.get(phrase).copied()
    }
}

/// Whether each word of a phrase after the first is the word of the text there.
fn matches_words<'w>(more: &[String], rest: &impl Fn(usize) -> Option<&'w str>) -> bool {
    more.iter()
        .enumerate()
        .all(|(i, word)| rest(i) == Some(word.as_str()))
}

fn by_first(
    phrases: BTreeMap<Vec<String>, Classes>,
) -> BTreeMap<String, Vec<(Vec<String>, Classes)>> {
    let mut by_first: BTreeMap<String, Vec<(Vec<String>, Classes)>> = BTreeMap::new();
    for (words, classes) in phrases {
        let mut words = words.into_iter();
        if let Some(first) = words.next() {
            by_first
                .entry(first)
                .or_default()
                .push((words.collect(), classes));
        }
    }
    for list in by_first.values_mut() {
        list.sort_by_key(|(more, _)| std::cmp::Reverse(more.len()));
    }
    by_first
}

fn same_things() -> BTreeMap<String, usize> {
    let mut same = BTreeMap::new();
    for (i, line) in lines(SAME).enumerate() {
        for name in line.split(',') {
            let key = split_words(name)
                .iter()
                .map(|word| stem(word))
                .collect::<Vec<_>>()
                .join(" ");
            same.entry(key).or_insert(i);
        }
    }
    same
}

fn lines(file: &str) -> impl Iterator<Item = &str> {
    file.lines()
        .map(str::trim)
        .filter(|line| !line.is_empty() && !line.starts_with('#'))
}

/// Pairs of class and entry of a file of classes.
fn entries(file: &'static str) -> impl Iterator<Item = (&'static str, &'static str)> {
    lines(file)
        .filter_map(|line| line.split_once(':'))
        .flat_map(|(class, list)| list.split(',').map(move |entry| (class, entry.trim())))
        .filter(|(_, entry)| !entry.is_empty())
}
