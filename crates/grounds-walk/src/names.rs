//! Names of places and people in the talk, also when they were heard a little wrong.

use std::collections::BTreeMap;

use strsim::damerau_levenshtein;

use crate::{
    lexicon::{Class, lexicon, stem},
    tokens::{Token, What, split_words},
    vocabulary::Vocabulary,
};

/// The longest name that is looked for, in words.
const LONGEST: usize = 6;

/// Names by their words, for finding them in talk.
pub(crate) struct Names {
    /// By first stem: stems of the whole name and what it names.
    places: BTreeMap<String, Vec<(Vec<String>, usize)>>,
    people: BTreeMap<String, Vec<(Vec<String>, usize)>>,
    /// By place: the first two words of a name that has more than two.
    first_words: Vec<Option<String>>,
    /// By person: all words of their names, so that a first name also says the trade.
    roles: Vec<Vec<String>>,
    /// Words of place names, for parts of names: stem, place, how many words the name has.
    parts: Vec<(String, usize)>,
}

impl Names {
    /// The names of a vocabulary.
    pub(crate) fn of(vocabulary: &Vocabulary) -> Self {
        let mut places = BTreeMap::new();
        let mut parts = Vec::new();
        for (i, place) in vocabulary.places.iter().enumerate() {
            for name in std::iter::once(&place.name).chain(&place.also) {
                add(&mut places, name, i);
                parts.extend(stems(name).into_iter().map(|word| (word, i)));
            }
        }
        let mut people = BTreeMap::new();
        for (i, person) in vocabulary.people.iter().enumerate() {
            for name in std::iter::once(&person.name).chain(&person.also) {
                if !is_a_thing(name) {
                    add(&mut people, name, i);
                }
                if let Some(alone) = without_title(name) {
                    add(&mut people, alone, i);
                }
            }
        }
        for names in places.values_mut().chain(people.values_mut()) {
            names.sort_by_key(|(words, _)| std::cmp::Reverse(words.len()));
        }
        parts.sort();
        parts.dedup();
        let roles = vocabulary.people.iter().map(|person| {
            std::iter::once(&person.name)
                .chain(&person.also)
                .flat_map(|name| split_words(name))
                .collect()
        });
        let first_words = vocabulary.places.iter().map(|place| {
            let words = stems(&place.name);
            (words.len() > 2).then(|| words.iter().take(2).cloned().collect::<Vec<_>>().join(" "))
        });
        Self {
            places,
            people,
            first_words: first_words.collect(),
            roles: roles.collect(),
            parts,
        }
    }

    /// Replaces names of places and people by tokens that say which.
    pub(crate) fn mark(&self, tokens: Vec<Token>) -> Vec<Token> {
        let mut out = Vec::with_capacity(tokens.len());
        let mut at = 0;
        while let Some(token) = tokens.get(at) {
            let place = find(&self.places, &tokens, at).map(|(i, used)| (What::Place(i), used));
            let person = find(&self.people, &tokens, at).map(|(i, used)| (What::Person(i), used));
            let longer = match (place, person) {
                (Some(place), Some(person)) if person.1 > place.1 => Some(person),
                (Some(place), _) => Some(place),
                (None, person) => person,
            };
            match longer {
                Some((what, used)) => {
                    let words = tokens.get(at..at + used).unwrap_or_default();
                    let mut text: Vec<&str> = words.iter().map(|word| word.text.as_str()).collect();
                    if let What::Person(i) = what {
                        let role = self.roles.get(i).map(Vec::as_slice).unwrap_or_default();
                        let new: Vec<&str> = role
                            .iter()
                            .map(String::as_str)
                            .filter(|word| !text.contains(word))
                            .collect();
                        text.extend(new);
                    }
                    out.push(Token {
                        text: text.join(" "),
                        what,
                        ..token.clone()
                    });
                    at += used;
                }
                None => {
                    out.push(token.clone());
                    at += 1;
                }
            }
        }
        out
    }

    /// The places whose names begin as the name of a place does: the rooms of one flat.
    pub(crate) fn beside(&self, place: usize) -> Vec<usize> {
        let begin = self.first_words.get(place);
        let same =
            |other: &Option<String>| begin.is_some_and(|begin| begin.is_some() && begin == other);
        self.first_words
            .iter()
            .enumerate()
            .filter(|(_, other)| same(other))
            .map(|(i, _)| i)
            .collect()
    }

    /// The places whose names hold all the words: `mezzanine` for a mezzanine bedroom, `flat one`
    /// for each of its rooms.
    pub(crate) fn places_of_part(&self, words: &[String]) -> Vec<usize> {
        let mut found: Option<Vec<usize>> = None;
        for word in words {
            let stem = name_stem(word);
            let here: Vec<usize> = self
                .parts
                .iter()
                .filter(|(part, _)| *part == stem || sounds_alike(part, &stem))
                .map(|(_, place)| *place)
                .collect();
            found = Some(match found {
                None => here,
                Some(before) => before.into_iter().filter(|p| here.contains(p)).collect(),
            });
        }
        let mut found = found.unwrap_or_default();
        found.dedup();
        found
    }
}

/// A name without its title: `Fisk` for `Mr Fisk`.
fn without_title(name: &str) -> Option<&str> {
    let (title, rest) = name.split_once(' ')?;
    let title = title.trim_end_matches('.').to_lowercase();
    matches!(
        title.as_str(),
        "mr" | "mrs" | "ms" | "miss" | "dr" | "the" | "old" | "big" | "young"
    )
    .then_some(rest)
    .filter(|rest| rest.len() > 2 && rest.starts_with(char::is_uppercase))
}

/// Whether a name is a thing's in the trade: `tile` for a tiler would take every tile for one.
fn is_a_thing(name: &str) -> bool {
    let words = split_words(name);
    words.len() == 1
        && words.iter().all(|word| {
            let classes = lexicon().word(word);
            classes.any(&[Class::Thing, Class::Act, Class::Done, Class::AbleNoun])
                && !classes.has(Class::Person)
        })
}

fn stems(name: &str) -> Vec<String> {
    split_words(name)
        .iter()
        .filter(|word| !matches!(word.as_str(), "the" | "of"))
        .map(|word| name_stem(word))
        .collect()
}

/// The stem of a word of a name; figures are the same as words.
fn name_stem(word: &str) -> String {
    const DIGITS: [&str; 10] = [
        "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine",
    ];
    let digit = word.parse::<usize>().ok().and_then(|n| DIGITS.get(n));
    stem(digit.copied().unwrap_or(word))
}

fn add(names: &mut BTreeMap<String, Vec<(Vec<String>, usize)>>, name: &str, i: usize) {
    let words = stems(name);
    if let Some(first) = words.first().cloned()
        && words.len() <= LONGEST
    {
        names.entry(first).or_default().push((words, i));
    }
}

/// The name that the tokens begin with at a place, and how many tokens it takes.
fn find(
    names: &BTreeMap<String, Vec<(Vec<String>, usize)>>,
    tokens: &[Token],
    at: usize,
) -> Option<(usize, usize)> {
    let word = |i: usize| {
        tokens
            .get(at + i)
            .filter(|token| token.what == What::Word)
            .map(|token| name_stem(&token.text))
    };
    let first = word(0)?;
    let fits = |name: &Vec<String>, skip_s: usize| {
        name.iter().enumerate().all(|(i, part)| {
            word(i + if i > 0 { skip_s } else { 0 })
                .is_some_and(|said| said == *part || (name.len() > 1 && sounds_alike(part, &said)))
        })
    };
    let mut near: Vec<(usize, usize)> = Vec::new();
    let candidates = names.get(&first).into_iter().chain(
        names
            .iter()
            .filter(|(n, _)| **n != first && sounds_alike(n, &first))
            .map(|(_, l)| l),
    );
    for list in candidates {
        for (name, i) in list {
            let verbal = tokens
                .get(at)
                .is_some_and(|t| t.text.ends_with("ing") || t.text.ends_with("ed"));
            if name.len() == 1
                && (name.first() != Some(&first) || verbal && !first.ends_with("ing"))
            {
                continue;
            }
            if fits(name, 0) {
                near.push((name.len(), *i));
            } else if name.len() > 1 && word(1).as_deref() == Some("'s") && fits(name, 1) {
                near.push((name.len() + 1, *i));
            }
        }
    }
    near.into_iter()
        .max_by_key(|(used, _)| *used)
        .map(|(used, i)| (i, used))
}

/// Whether two stems are one slip apart, as recognisers slip: only for words long enough, and
/// only if the heard one is no word of the trade's own.
fn sounds_alike(name: &str, heard: &str) -> bool {
    let (long, short) = (name.len().max(heard.len()), name.len().min(heard.len()));
    let same_start = name.chars().next() == heard.chars().next();
    if !same_start || short < 5 || long > 20 || long - short > 2 {
        return false;
    }
    let allowed = if short >= 8 { 2 } else { 1 };
    let known = !lexicon().word(heard).is_empty() && !lexicon().word(heard).has(Class::Room);
    !known && damerau_levenshtein(name, heard) <= allowed
}
