//! Talk as tokens: words in lower case with contractions opened and mis-hearings mended, and marks.

use crate::{
    dates::When,
    lexicon::{Class, Classes, lexicon},
    numbers::Amount,
};

/// What a token is.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum What {
    /// A word or a phrase of the lexicon.
    Word,
    /// A mark: full stop, comma, question mark, dash.
    Mark(char),
    /// A number with its unit.
    Amount(Amount),
    /// A date or a time of day.
    When(When),
    /// A name of a place; its number in the vocabulary.
    Place(usize),
    /// A name of a person or trade; its number in the vocabulary.
    Person(usize),
}

/// One token of the talk.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Token {
    /// The word, in lower case, spelled as it was meant.
    pub(crate) text: String,
    /// What it is.
    pub(crate) what: What,
    /// What it can be in a sentence.
    pub(crate) classes: Classes,
    /// The cue it was said in.
    pub(crate) cue: usize,
}

impl Token {
    /// Whether it is in the class.
    pub(crate) fn is(&self, class: Class) -> bool {
        self.classes.has(class)
    }

    /// Whether it is in any of the classes.
    pub(crate) fn any(&self, classes: &[Class]) -> bool {
        self.classes.any(classes)
    }

    /// The mark, if it is one.
    pub(crate) fn mark(&self) -> Option<char> {
        match self.what {
            What::Mark(mark) => Some(mark),
            _ => None,
        }
    }

    /// The number, if it is one.
    pub(crate) fn amount(&self) -> Option<&Amount> {
        match &self.what {
            What::Amount(amount) => Some(amount),
            _ => None,
        }
    }

    /// The date, if it is one.
    pub(crate) fn when(&self) -> Option<&When> {
        match &self.what {
            What::When(when) => Some(when),
            _ => None,
        }
    }

    fn word(text: &str, cue: usize) -> Self {
        Self {
            text: text.to_owned(),
            what: What::Word,
            classes: Classes::default(),
            cue,
        }
    }
}

/// The longest word that is kept, in bytes; longer ones are no words.
const LONGEST_WORD: usize = 40;

/// The tokens of a cue: words and marks, mis-hearings mended, without phrases and classes.
pub(crate) fn tokenise(text: &str, cue: usize) -> Vec<Token> {
    let mut tokens = Vec::new();
    for piece in pieces(text) {
        match piece {
            Piece::Word(word) => {
                for part in open_contraction(&word) {
                    tokens.push(Token::word(&part, cue));
                }
            }
            Piece::Mark(mark) => tokens.push(Token {
                what: What::Mark(mark),
                ..Token::word(&mark.to_string(), cue)
            }),
        }
    }
    mend_misheard(open_its(tokens))
}

/// `its catching on the frame`: without its apostrophe, *its* is *it is* where no noun can follow.
fn open_its(tokens: Vec<Token>) -> Vec<Token> {
    let mut out = Vec::with_capacity(tokens.len());
    for (at, token) in tokens.iter().enumerate() {
        let opens = token.text == "its"
            && plain_word(&tokens, at + 1).is_some_and(|next| {
                let classes = lexicon().word(next);
                next.len() > 5 && next.ends_with("ing") && !classes.has(Class::Thing)
                    || classes.any(&[
                        Class::Not,
                        Class::Det,
                        Class::Adv,
                        Class::Wrong,
                        Class::Particle,
                        Class::Ok,
                        Class::Modal,
                    ]) && !classes.any(&[Class::Side, Class::Pron, Class::Thing])
                    || classes.has(Class::Done)
                        && (next.ends_with("ed") || plain_word(&tokens, at + 2).is_none())
                        && !classes.has(Class::Thing)
            });
        if opens {
            out.push(Token::word("it", token.cue));
            out.push(Token::word("'s", token.cue));
        } else {
            out.push(token.clone());
        }
    }
    out
}

/// The words of a phrase as [`tokenise`] splits them, without marks.
pub(crate) fn split_words(text: &str) -> Vec<String> {
    let mut words = Vec::new();
    for piece in pieces(text) {
        if let Piece::Word(word) = piece {
            words.extend(open_contraction(&word));
        }
    }
    words
}

enum Piece {
    Word(String),
    Mark(char),
}

/// Words and marks of a text.
fn pieces(text: &str) -> Vec<Piece> {
    let mut pieces = Vec::new();
    let mut word = String::new();
    let chars: Vec<char> = with_plain_fractions(text);
    let at = |i: usize| chars.get(i).copied().unwrap_or(' ');
    for (i, &c) in chars.iter().enumerate() {
        let before = if i == 0 { ' ' } else { at(i - 1) };
        let next = at(i + 1);
        let in_figure = before.is_ascii_digit() && next.is_ascii_digit();
        match c {
            '\'' | '’' if before.is_ascii_digit() && !next.is_alphabetic() => {
                push_all(&mut pieces, &mut word, "ft")
            }
            '\'' | '’' | '‘' if !word.is_empty() && next.is_alphanumeric() => word.push('\''),
            '\'' if word.is_empty() && next == 'e' && at(i + 2) == 'm' => word.push('\''),
            '.' | ',' | '/' | ':' if in_figure => word.push(c),
            '"' | '”' | '″' if before.is_ascii_digit() => {
                push_all(&mut pieces, &mut word, "in")
            }
            '%' | '°' => {
                end(&mut pieces, &mut word);
                word.push(c);
                if c == '%' || !next.is_ascii_alphabetic() {
                    end(&mut pieces, &mut word);
                }
            }
            '-' if before == '\'' && next.is_ascii_digit() => {}
            '-' | '/' if before.is_alphanumeric() && next.is_alphanumeric() => {
                end(&mut pieces, &mut word);
            }
            '.' if matches!(word.as_str(), "mr" | "mrs" | "ms" | "dr" | "st") => {
                end(&mut pieces, &mut word);
            }
            '.' | ',' | '?' | '!' | ';' | ':' | '–' | '—' | '-' | '…' | '(' | ')' => {
                end(&mut pieces, &mut word);
                pieces.push(Piece::Mark(like(c)));
            }
            '&' => push_all(&mut pieces, &mut word, "and"),
            _ if c.is_alphanumeric() => {
                // "900mm" is a number and a unit, "15th" is one word.
                let turns = before.is_ascii_digit() && c.is_alphabetic();
                let ordinal = matches!(
                    (c.to_ascii_lowercase(), next.to_ascii_lowercase()),
                    ('s', 't') | ('n', 'd') | ('r', 'd') | ('t', 'h')
                );
                if turns && !ordinal && word.starts_with(|d: char| d.is_ascii_digit()) {
                    end(&mut pieces, &mut word);
                }
                if word.len() < LONGEST_WORD {
                    word.extend(c.to_lowercase());
                }
            }
            _ => end(&mut pieces, &mut word),
        }
    }
    end(&mut pieces, &mut word);
    pieces
}

/// Fractions that are one sign each, and how they are written out.
const FRACTIONS: [(char, &str); 9] = [
    ('½', " 1/2"),
    ('¼', " 1/4"),
    ('¾', " 3/4"),
    ('⅓', " 1/3"),
    ('⅔', " 2/3"),
    ('⅛', " 1/8"),
    ('⅜', " 3/8"),
    ('⅝', " 5/8"),
    ('⅞', " 7/8"),
];

/// The characters of a text, `30½` as `30 1/2`.
fn with_plain_fractions(text: &str) -> Vec<char> {
    let mut chars = Vec::with_capacity(text.len());
    for c in text.chars() {
        match FRACTIONS.iter().find(|(sign, _)| *sign == c) {
            Some((_, written)) => chars.extend(written.chars()),
            None => chars.push(c),
        }
    }
    chars
}

/// One sign for marks that do the same.
fn like(mark: char) -> char {
    match mark {
        '–' | '—' | '-' | '…' | '(' | ')' | ':' => '-',
        '!' => '.',
        other => other,
    }
}

fn end(pieces: &mut Vec<Piece>, word: &mut String) {
    if !word.is_empty() {
        pieces.push(Piece::Word(std::mem::take(word)));
    }
}

fn push_all(pieces: &mut Vec<Piece>, word: &mut String, then: &str) {
    end(pieces, word);
    pieces.push(Piece::Word(then.to_owned()));
}

/// Whole words that stand for several.
const OPENED: [(&str, &str); 56] = [
    ("can't", "can not"),
    ("cannot", "can not"),
    ("won't", "will not"),
    ("shan't", "shall not"),
    ("ain't", "is not"),
    ("let's", "let us"),
    ("'em", "them"),
    ("em", "them"),
    ("gonna", "going to"),
    ("gotta", "got to"),
    ("wanna", "want to"),
    ("dunno", "do not know"),
    ("lemme", "let me"),
    ("gimme", "give me"),
    ("didnt", "did not"),
    ("isnt", "is not"),
    ("arent", "are not"),
    ("doesnt", "does not"),
    ("dont", "do not"),
    ("wasnt", "was not"),
    ("hasnt", "has not"),
    ("cant", "can not"),
    ("wont", "will not"),
    ("werent", "were not"),
    ("havent", "have not"),
    ("hadnt", "had not"),
    ("couldnt", "could not"),
    ("shouldnt", "should not"),
    ("wouldnt", "would not"),
    ("mustnt", "must not"),
    ("aint", "is not"),
    ("im", "i am"),
    ("ive", "i have"),
    ("id", "i would"),
    ("weve", "we have"),
    ("theyve", "they have"),
    ("youve", "you have"),
    ("theyre", "they are"),
    ("youre", "you are"),
    ("hes", "he 's"),
    ("shes", "she 's"),
    ("thats", "that 's"),
    ("theres", "there 's"),
    ("heres", "here 's"),
    ("whats", "what 's"),
    ("wheres", "where 's"),
    ("whos", "who 's"),
    ("nothings", "nothing 's"),
    ("everythings", "everything 's"),
    ("itll", "it will"),
    ("theyll", "they will"),
    ("thatll", "that will"),
    ("youll", "you will"),
    ("lets", "let us"),
    ("dint", "did not"),
    ("neednt", "need not"),
];

/// Endings that are words of their own.
const ENDINGS: [(&str, &str); 7] = [
    ("n't", "not"),
    ("'ll", "will"),
    ("'ve", "have"),
    ("'re", "are"),
    ("'m", "am"),
    ("'d", "would"),
    ("'s", "'s"),
];

fn open_contraction(word: &str) -> Vec<String> {
    if let Some((_, opened)) = OPENED.iter().find(|(known, _)| *known == word) {
        return opened.split(' ').map(str::to_owned).collect();
    }
    let word = word.strip_suffix('\'').unwrap_or(word);
    for (ending, opened) in ENDINGS {
        if let Some(stem) = word.strip_suffix(ending).filter(|stem| !stem.is_empty()) {
            return vec![stem.to_owned(), opened.to_owned()];
        }
    }
    if word == "o'clock" {
        return vec![word.to_owned()];
    }
    vec![word.replace('\'', "")]
}

/// Whether two words were heard where the trade has one: `floor boards`, `back splash`.
fn is_compound(first: &str, second: &str) -> Option<String> {
    if first.len() < 3 || second.len() < 3 || first.len() + second.len() < 8 {
        return None;
    }
    let joined = format!("{first}{second}");
    let one = joined.strip_suffix('s').unwrap_or(&joined);
    let known = lexicon().word(&joined).has(Class::Thing) || lexicon().word(one).has(Class::Thing);
    known.then_some(joined)
}

/// The words with mis-hearings replaced by what was meant.
fn mend_misheard(tokens: Vec<Token>) -> Vec<Token> {
    let mut mended = Vec::with_capacity(tokens.len());
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        let rest = |i: usize| plain_word(&tokens, at + 1 + i);
        match lexicon().meant(&token.text, rest) {
            Some((used, said)) if token.what == What::Word => {
                mended.extend(said.iter().map(|word| Token::word(word, token.cue)));
                at += used;
            }
            _ => {
                let joined = rest(0).and_then(|next| is_compound(&token.text, next));
                match joined.filter(|_| token.what == What::Word) {
                    Some(word) => {
                        mended.push(Token::word(&word, token.cue));
                        at += 2;
                    }
                    None => {
                        mended.push(token.clone());
                        at += 1;
                    }
                }
            }
        }
    }
    mended
}

/// The text of a token that is a plain word.
fn plain_word(tokens: &[Token], at: usize) -> Option<&str> {
    tokens
        .get(at)
        .filter(|token| token.what == What::Word)
        .map(|token| token.text.as_str())
}

/// Joins the words of phrases and gives every word its classes.
pub(crate) fn classify(tokens: Vec<Token>) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        if token.what != What::Word {
            out.push(token.clone());
            at += 1;
            continue;
        }
        let rest = |i: usize| plain_word(&tokens, at + 1 + i);
        let (used, classes) = lexicon()
            .phrase(&token.text, rest)
            .unwrap_or((1, Classes::default()));
        let words = tokens.get(at..at + used).unwrap_or_default();
        let text: Vec<&str> = words.iter().map(|word| word.text.as_str()).collect();
        out.push(Token {
            text: text.join(" "),
            what: What::Word,
            classes: with_form(&text.join(" "), classes),
            cue: words.last().map_or(token.cue, |word| word.cue),
        });
        at += used;
    }
    out
}

/// The classes of a word, with what its form tells when the lexicon does not know it.
fn with_form(text: &str, mut classes: Classes) -> Classes {
    if text == "'s" {
        classes.add(Class::Be);
        classes.add(Class::Have);
        return classes;
    }
    if !classes.is_empty() || text.contains(' ') {
        return classes;
    }
    let known_after = |prefix: &str| {
        text.strip_prefix(prefix)
            .is_some_and(|rest| lexicon().word(rest).has(Class::Done))
    };
    if known_after("un") {
        classes.add(Class::NotDone);
    } else if known_after("re") || known_after("pre") {
        classes.add(Class::Done);
    }
    classes
}
