//! Cues as sentences: tokens up to a full stop or a question mark.

use grounds_measure::Units;

use crate::{
    dates,
    lexicon::Class,
    names::Names,
    numbers, roles,
    tokens::{Token, What, classify, tokenise},
    transcript::Cue,
};

/// The most tokens of a sentence; a longer one is cut into several.
const LONGEST: usize = 120;

/// A sentence of the walk.
#[derive(Clone, Debug)]
pub(crate) struct Sentence {
    /// Its tokens, marks inside it included, the last mark not.
    pub(crate) tokens: Vec<Token>,
    /// Whether it ends with a question mark.
    pub(crate) asks: bool,
    /// Whether its cue has no marks at all.
    pub(crate) bare: bool,
}

impl Sentence {
    /// The cue that it begins in.
    pub(crate) fn cue(&self) -> usize {
        self.tokens.first().map_or(0, |token| token.cue)
    }
}

/// The sentences of the cues. Where talk flows over the cues (they are cut by time, as recognisers
/// do), a cue without a mark at its end goes on in the next one if marks are set at all and the
/// same person speaks.
pub(crate) fn sentences(cues: &[Cue], flows: bool, names: &Names, units: Units) -> Vec<Sentence> {
    let marked = cues.iter().filter(|cue| ends(&cue.text)).count();
    let marks = flows && marked * 2 >= cues.len();
    let mut out = Vec::new();
    let mut open: Vec<Token> = Vec::new();
    let mut speaker: Option<String> = None;
    for (i, cue) in cues.iter().enumerate() {
        if cue.speaker != speaker {
            if !interrupted(&mut open) {
                close(&mut out, &mut open, false, names, units);
            }
            speaker.clone_from(&cue.speaker);
        }
        for token in without_restarts(without_hesitation(tokenise(&cue.text, i))) {
            match token.mark() {
                Some(mark @ ('.' | '?')) => {
                    close(&mut out, &mut open, mark == '?', names, units);
                }
                _ => open.push(token),
            }
            if open.len() >= LONGEST {
                close(&mut out, &mut open, false, names, units);
            }
        }
        let bare = is_bare(&cue.text);
        let hangs = open.last().is_some_and(hangs);
        let cut = cue.text.trim_end().ends_with(['—', '–', '-'])
            && cues
                .get(i + 1)
                .is_some_and(|next| next.speaker != cue.speaker);
        let over = !marks || ends(&cue.text);
        if over && !hangs && !cut {
            let before = out.len();
            close(&mut out, &mut open, false, names, units);
            if let Some(sentence) = out.get_mut(before) {
                sentence.bare = bare;
            }
        }
    }
    close(&mut out, &mut open, false, names, units);
    out
}

/// The tokens without `er`, `um` and the commas around them.
fn without_hesitation(tokens: Vec<Token>) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut hesitated = false;
    for token in tokens {
        if matches!(
            token.text.as_str(),
            "er" | "um" | "uh" | "erm" | "eh" | "hmm"
        ) {
            if out.last().is_some_and(|last| last.mark() == Some(',')) {
                out.pop();
            }
            hesitated = true;
        } else if !(hesitated && token.mark() == Some(',')) {
            hesitated = false;
            out.push(token);
        }
    }
    out
}

/// The tokens without false starts: `scree, screed's grand` begins with the screed.
fn without_restarts(tokens: Vec<Token>) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    for (at, token) in tokens.iter().enumerate() {
        let next = tokens.get(at + 1).filter(|_| token.mark() == Some(','));
        if let Some(next) = next {
            let start = out
                .iter()
                .rposition(|t| t.mark().is_some())
                .map_or(0, |at| at + 1);
            let said: String = out
                .get(start..)
                .unwrap_or_default()
                .iter()
                .map(|t| t.text.as_str())
                .collect();
            let restarts =
                out.len() - start <= 2 && said != next.text && sounds_like(&said, &next.text);
            if restarts {
                out.truncate(start);
                continue;
            }
            if let Some(again) = heard_twice(out.get(start..).unwrap_or_default(), &next.text) {
                out.truncate(out.len() - again);
                continue;
            }
        }
        out.push(token.clone());
    }
    out
}

/// How many words before a comma were heard wrong and are said again after it: `second coat to the
/// day doe, dado`.
fn heard_twice(before: &[Token], meant: &str) -> Option<usize> {
    let known = crate::lexicon::lexicon().word(meant).has(Class::Thing);
    let last: Vec<&str> = before
        .iter()
        .rev()
        .take(2)
        .map(|t| t.text.as_str())
        .collect();
    let [second, first] = last.as_slice() else {
        return None;
    };
    let joined = format!("{first}{second}");
    (known && before.len() > 2 && sounds_like(&joined, meant) && joined != meant).then_some(2)
}

/// Whether two words sound nearly alike: the same first letter and nearly the same consonants.
fn sounds_like(said: &str, meant: &str) -> bool {
    let key =
        |word: &str| -> String { word.chars().filter(|c| !"aeiouyw'".contains(*c)).collect() };
    let near = said.len() >= 4 && meant.len() >= 4 && said.len() <= 20 && meant.len() <= 20;
    near && said.chars().next() == meant.chars().next()
        && strsim::damerau_levenshtein(said, meant) <= 2
        && strsim::damerau_levenshtein(&key(said), &key(meant)) <= 1
}

/// Whether somebody was cut short in the middle, `the stove glass is —`, so that the next one ends
/// what they began; the dash is taken off.
fn interrupted(open: &mut Vec<Token>) -> bool {
    let dashed = open.last().is_some_and(|last| last.mark() == Some('-'));
    let hangs = open.len() > 2
        && open.iter().rev().nth(1).is_some_and(|token| {
            matches!(
                token.text.as_str(),
                "is" | "are" | "'s" | "was" | "has" | "have" | "the" | "a" | "not"
            )
        });
    if dashed && hangs {
        open.pop();
    }
    dashed && hangs
}

/// Whether a cue is words and nothing else.
fn is_bare(text: &str) -> bool {
    !text.contains(['.', ',', '?', '!', ';', ':', '–', '—'])
}

fn ends(text: &str) -> bool {
    text.trim_end().ends_with(['.', '?', '!', '…', '"'])
}

/// Whether a sentence cannot end with the token.
fn hangs(token: &Token) -> bool {
    token.mark() == Some(',')
        || matches!(
            token.text.as_str(),
            "the" | "a" | "an" | "and" | "of" | "to" | "with" | "for" | "or"
        )
}

fn close(out: &mut Vec<Sentence>, open: &mut Vec<Token>, asks: bool, names: &Names, units: Units) {
    let words = names.mark(std::mem::take(open));
    let numbered = numbers::mark(classify(words), units);
    let mut tokens = dates::mark(numbered);
    give_missing_classes(&mut tokens);
    roles::settle(&mut tokens);
    if !tokens.iter().all(|token| token.mark().is_some()) {
        out.push(Sentence {
            tokens,
            asks,
            bare: false,
        });
    }
}

/// `that` and the like are pronouns only where no noun follows; `one` likewise.
fn give_missing_classes(tokens: &mut [Token]) {
    for at in 0..tokens.len() {
        let next_is_noun = tokens.get(at + 1).is_some_and(|next| {
            matches!(next.what, What::Word | What::Place(_) | What::Person(_))
                && (next.classes.is_empty()
                    || next.any(&[Class::AbleNoun, Class::Side])
                    || next.is(Class::Thing)
                        && !next.any(&[Class::Be, Class::Have, Class::Wrong, Class::Done]))
        });
        if let Some(token) = tokens.get_mut(at)
            && token.is(Class::Det)
            && token.is(Class::Pron)
            && next_is_noun
        {
            token.classes = crate::lexicon::Classes::default();
            token.classes.add(Class::Det);
        }
    }
}
