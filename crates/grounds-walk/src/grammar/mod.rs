//! The grammar of a walk: clauses in, facts out.
//!
//! A [`Reader`] goes through the sentences in order and keeps what talk leans on: the place in
//! play, the heading (`Steel windows.`), the last thing spoken of, the last state, an open
//! question, a figure that something should have. Each file reads one way of saying things; the
//! order in which they are tried stands in [`Reader::clause`].

mod active;
mod answers;
mod blocked;
mod certainty;
mod cleared;
mod copula;
mod corrections;
mod dated;
mod decisions;
mod existence;
mod figures;
mod fragments;
mod intended;
mod items;
mod judged;
mod orders;
mod parsed;
mod parts;
mod people;
mod readings;
mod scene;
mod settled;
mod short;
mod state;

use crate::{
    clauses::{Clause, Link, split},
    dates::{Tense, When},
    fact::{Dated, Fact, Figure},
    kinds::{Certainty, Kind},
    lexicon::Class,
    names::Names,
    noun::Noun,
    numbers::Role,
    place,
    sentences::Sentence,
    tokens::{Token, What},
    vocabulary::Vocabulary,
};

use answers::Asked;
use items::Item;

/// Reads sentences into facts.
pub(crate) struct Reader<'v> {
    vocabulary: &'v Vocabulary,
    names: &'v Names,
    /// What was read so far, dropped facts included.
    pub(crate) facts: Vec<Fact>,
    /// By sentence: the place it was said in.
    pub(crate) places: Vec<Option<usize>>,
    place: Option<usize>,
    /// Places that were last spoken of together.
    area: Vec<usize>,
    heading: Option<(Noun, usize)>,
    subject: Option<Noun>,
    last_state: Option<Kind>,
    asked: Option<Asked>,
    wanted: Vec<Figure>,
    /// A person that a sentence began with: who the next step is for.
    speaker_said: Option<String>,
    sentence: usize,
    cue: usize,
    sentence_certainty: Certainty,
    /// Facts of the sentence begin here.
    pub(crate) sentence_from: usize,
    /// Facts of the last clause that told something begin here.
    told_from: usize,
    /// The noun of fragments in this sentence, for a verb without a subject.
    pending: Option<Noun>,
    /// The first thing of the sentence: what *it* is in the next.
    topic: Option<Noun>,
    /// What was only mentioned in this sentence.
    aside: Option<Noun>,
    /// Sentence that last spoke of reading a meter, a tape or a test.
    gauging: Option<usize>,
    /// Whether that was a moisture meter or a test, not a tape.
    probe: bool,
    /// Somebody who wants something, and what: with another it is a choice.
    wish: Option<(String, Noun, usize)>,
    /// The first thing of the cue, and the cue.
    cue_topic: Option<(Noun, usize)>,
    /// Something said not to be dry or not to be so, which is no news by itself.
    denial: Option<(String, usize)>,
    /// Whether the sentence begins with *so*.
    so: bool,
    /// The item of a list in hand: its cue, the sentence that named it, and whether what it reports
    /// still holds.
    item: Option<Item>,
    /// The sentence that last said what something is or came as: `the brackets are brass`.
    came_as: Option<usize>,
    /// The sentence in which something is said to stay as it is till something else.
    held_clause: Option<usize>,
    /// A count that stood in this cue: of how many something was said.
    total: Option<(i64, usize)>,
    /// Whether the talk reads a numbered list out.
    pub(crate) lists: bool,
    /// Clauses of the sentence from which nothing was read.
    pub(crate) unread: usize,
    /// Whether several people speak in turn.
    pub(crate) speakers: bool,
    /// Whether the clause goes on with the subject of the one before it: `and does not close`.
    goes_on: bool,
    /// Whether the clause follows from the one before it: *so*.
    waits: bool,
    /// The fragment that the sentence began with: `Tile, the floor's down, two walls are up.`
    under_way: Option<Noun>,
    /// The person that was last spoken of: who *he* is.
    person: Option<(Noun, usize)>,
    /// A stretch of time that stood alone: `twenty four hours, dropped an eighth`.
    span: Option<(crate::numbers::Amount, usize)>,
    /// The sentence that last asked for a date.
    unsure_date: Option<usize>,
    /// Whether the sentence speaks of wet or damp.
    damp: bool,
    /// Whether the sentence has an *if*.
    conditional: bool,
    /// Whether the sentence ends with *please*.
    wished: bool,
    /// The place that the subject of this clause is in.
    clause_place: Option<usize>,
    /// How many clauses were read together with the last one.
    skip: usize,
    /// The sentence that last spoke of degrees.
    last_degrees: Option<usize>,
    /// The first sentence of the last words.
    closing_from: Option<usize>,
    /// Whether the talk is drawing to its end, and says again what was said.
    closing: bool,
}

impl<'v> Reader<'v> {
    pub(crate) fn new(vocabulary: &'v Vocabulary, names: &'v Names) -> Self {
        Self {
            vocabulary,
            names,
            facts: Vec::new(),
            places: Vec::new(),
            place: None,
            area: Vec::new(),
            heading: None,
            subject: None,
            last_state: None,
            asked: None,
            wanted: Vec::new(),
            speaker_said: None,
            sentence: 0,
            cue: 0,
            sentence_certainty: Certainty::Firm,
            sentence_from: 0,
            told_from: 0,
            pending: None,
            topic: None,
            aside: None,
            gauging: None,
            probe: false,
            wish: None,
            cue_topic: None,
            denial: None,
            so: false,
            waits: false,
            goes_on: false,
            speakers: false,
            unread: 0,
            lists: false,
            item: None,
            held_clause: None,
            came_as: None,
            total: None,
            under_way: None,
            person: None,
            span: None,
            unsure_date: None,
            damp: false,
            conditional: false,
            wished: false,
            skip: 0,
            clause_place: None,
            last_degrees: None,
            closing_from: None,
            closing: false,
        }
    }

    /// Reads one sentence.
    pub(crate) fn read(&mut self, sentence: &Sentence) {
        self.sentence_from = self.facts.len();
        self.unread = 0;
        self.sentence_certainty = Certainty::Firm;
        self.pending = None;
        self.under_way = None;
        self.topic = None;
        self.speaker_said = None;
        self.damp = sentence
            .tokens
            .iter()
            .any(|t| matches!(t.text.as_str(), "wet" | "damp"));
        self.conditional = sentence
            .tokens
            .iter()
            .any(|t| matches!(t.text.as_str(), "if" | "provided" | "as long as"));
        self.wished = sentence
            .tokens
            .last()
            .is_some_and(|token| token.text == "please");
        self.so = sentence
            .tokens
            .first()
            .is_some_and(|token| token.text == "so");
        self.skip = 0;
        self.cue = sentence.cue();
        let mut tokens = without_item(sentence.tokens.as_slice());
        if tokens.len() < sentence.tokens.len() {
            self.begin_item();
        }
        if self.lists && lone_number(tokens).is_some() {
            self.begin_item();
            self.finish();
            return;
        }
        self.count_all(tokens);
        if self.answer(sentence) {
            self.sign_sentence(sentence, tokens);
            self.finish();
            return;
        }
        if let Some((places, used)) = place::area(tokens, self.names)
            && self.change_of_place(tokens, sentence.asks).is_none()
            && !places.iter().all(|place| self.area.contains(place))
        {
            // "Flat one.": which room of it comes next.
            self.area = places;
            tokens = tokens.get(used..).unwrap_or_default();
        }
        while let Some(change) = self.change_of_place(tokens, sentence.asks) {
            self.move_to(change.place);
            tokens = tokens.get(change.used..).unwrap_or_default();
            if change.used == 0 {
                if sentence.bare {
                    tokens = after_place(tokens);
                }
                break;
            }
        }
        if self.place.is_none() && self.is_opening() {
            self.finish();
            return;
        }
        if tokens.iter().any(|t| {
            t.amount().is_some_and(|a| {
                matches!(
                    a.unit,
                    crate::numbers::Unit::Degree
                        | crate::numbers::Unit::Celsius
                        | crate::numbers::Unit::Fahrenheit
                )
            })
        }) {
            self.last_degrees = Some(self.sentence);
        }
        if tokens.iter().any(|t| {
            t.what == What::Word
                && (t.any(&[Class::Read, Class::AbleNoun]) && t.text != "got"
                    || matches!(
                        t.text.as_str(),
                        "tested" | "meter" | "tape" | "rule" | "gauge" | "probe" | "laser"
                    ))
        }) {
            self.gauging = Some(self.sentence);
            self.probe = tokens.iter().any(|t| {
                matches!(
                    t.text.as_str(),
                    "meter" | "probe" | "tested" | "moisture" | "reading" | "reads"
                )
            });
        }
        let clauses = split(tokens, sentence.bare);
        if sentence.asks || certainty::is_question(&clauses) {
            // "Slate, forty thick, it's sagging?": only the last clause asks.
            let (told, asked) = told_and_asked(&clauses);
            for at in 0..told.len() {
                self.clause_with_next(told, at);
            }
            self.question(asked);
        } else {
            for at in 0..clauses.len() {
                if self.skip > 0 {
                    self.skip -= 1;
                    continue;
                }
                self.clause_with_next(&clauses, at);
            }
            if self.facts.len() > self.sentence_from {
                self.asked = None;
            }
        }
        self.certain_if(&clauses);
        self.remember_person(tokens);
        self.weigh(tokens);
        self.sign_sentence(sentence, tokens);
        self.settle_parts();
        self.settle_item(tokens);
        self.sign_sentence(sentence, tokens);
        if self.closing {
            self.drop_repeats();
        }
        // What was only mentioned ("there's a sticker on it") is not what *it* is next.
        if let (Some(aside), Some(topic)) = (self.aside.take(), self.topic.take())
            && self
                .subject
                .as_ref()
                .is_some_and(|subject| subject.shares_word(&aside))
        {
            self.subject = Some(topic);
        }
        self.finish();
    }

    fn finish(&mut self) {
        self.places.push(self.place);
        self.sentence += 1;
    }

    fn change_of_place(&self, tokens: &[Token], asks: bool) -> Option<place::Move> {
        let denied = tokens.first().is_some_and(|token| token.is(Class::Not));
        if denied || asks && tokens.len() > 3 {
            return None;
        }
        place::change(tokens, self.names, &self.area).or_else(|| place::back_to(tokens))
    }

    fn move_to(&mut self, place: usize) {
        if self.place != Some(place) {
            self.heading = None;
            self.subject = None;
            self.last_state = None;
            self.wanted.clear();
        }
        self.place = Some(place);
        if !self.area.contains(&place) {
            self.area = self.names.beside(place);
        }
    }

    /// Whether a sentence before the first place only opens the walk: it stands in the first cue.
    fn is_opening(&self) -> bool {
        self.facts.is_empty() && self.cue == 0
    }

    /// Whether a sentence belongs to the walk's last words.
    pub(crate) fn is_closing(&self, sentence: usize) -> bool {
        self.closing_from.is_some_and(|from| sentence >= from)
    }

    /// The walk's last words begin: they repeat what is to be done.
    pub(crate) fn close(&mut self) {
        self.closing = true;
        self.closing_from.get_or_insert(self.sentence);
    }

    fn clause_with_next(&mut self, clauses: &[Clause], at: usize) {
        let Some(clause) = clauses.get(at) else {
            return;
        };
        let next = clauses.get(at + 1);
        if self.sentence_certainty == Certainty::Hedged {
            self.sentence_certainty = Certainty::Firm;
        }
        let either = clause.tokens.first().is_some_and(|t| t.text == "or");
        let mut stripped = self.strip(clause);
        if either {
            stripped.link = Link::Or;
        }
        if let Some(first) = stripped.tokens.first() {
            self.cue = first.cue;
        }
        self.waits = stripped.link == Link::So;
        self.goes_on = matches!(stripped.link, Link::And | Link::But | Link::Comma);
        let from = self.facts.len();
        self.clause(&stripped, next);
        let told = stripped.tokens.iter().any(|t| t.mark().is_none());
        if self.facts.len() == from && told {
            self.unread += 1;
        }
        if self.facts.len() > from {
            self.told_from = from;
            self.sign(&stripped.tokens, from);
        }
    }

    /// Reads one clause, trying each way of saying things in turn.
    fn clause(&mut self, clause: &Clause, next: Option<&Clause>) {
        if clause.tokens.is_empty() || matches!(clause.link, Link::When) {
            return;
        }
        let alternative = clause.link == Link::Or
            && clause
                .tokens
                .first()
                .is_some_and(|t| t.any(&[Class::FirstPerson, Class::ThirdPerson, Class::Pron]));
        if alternative {
            return;
        }
        if self.without(clause) {
            return;
        }
        self.under_way = self.pending.clone().or_else(|| self.under_way.take());
        self.clause_place = self.place_of_subject(&clause.tokens);
        if let [only] = clause.tokens.as_slice()
            && let Some(amount) = only.amount().filter(|a| a.unit.is_time())
        {
            self.span = Some((*amount, self.sentence));
        }
        let _ = self.correction(clause)
            || self.cause_of_last(clause)
            || self.until_of_last(clause)
            || self.decision(clause, next)
            || self.blocked(clause, next)
            || self.exception(clause)
            || self.fault_alone(&clause.tokens)
            || self.wishes(clause)
            || self.order(clause, next)
            || self.dated(clause, next)
            || self.share(&clause.tokens)
            || self.reading(clause)
            || self.copula(clause, next)
            || self.active(clause)
            || self.fragment(clause, next)
            || self.what_does(clause);
    }

    /// A clause that tells nothing still names what the next one is about: `the window opens`.
    fn what_does(&mut self, clause: &Clause) -> bool {
        let tokens = clause.tokens.as_slice();
        let Some(at) = tokens.iter().enumerate().position(|(at, t)| {
            at > 0
                && t.what == What::Word
                && t.text.ends_with('s')
                && crate::lexicon::lexicon()
                    .word(t.text.trim_end_matches('s'))
                    .any(&[Class::Act, Class::Verb])
        }) else {
            return false;
        };
        let noun = Noun::of(tokens.get(..at).unwrap_or_default());
        let thing = tokens
            .get(..at)
            .is_some_and(|before| before.iter().any(|t| t.is(Class::Thing)));
        if thing && !noun.is_empty() && !noun.refers {
            self.resolve(&noun);
        }
        true
    }
}

/// The number that a sentence is, where it is nothing else: `One.`, of a list that is read out.
pub(crate) fn lone_number(tokens: &[Token]) -> Option<i64> {
    let [only] = tokens else {
        return None;
    };
    if only.what == What::Word && only.text == "one" {
        return Some(1);
    }
    only.amount()
        .filter(|amount| amount.unit == crate::numbers::Unit::None)
        .and_then(|amount| amount.number.as_whole())
        .filter(|number| *number < 200)
}

/// Talk without marks after the name of the place that it begins with: `porch so the flags are down`.
fn after_place(tokens: &[Token]) -> &[Token] {
    let Some(at) = tokens
        .iter()
        .take(6)
        .position(|t| matches!(t.what, What::Place(_)))
    else {
        return tokens;
    };
    let idle = tokens
        .iter()
        .skip(at + 1)
        .take_while(|t| {
            t.what == What::Word
                && (t.any(&[Class::Filler, Class::Adv])
                    || matches!(
                        t.text.as_str(),
                        "so" | "now" | "like" | "then" | "and" | "first"
                    ))
        })
        .count();
    let rest = tokens.get(at + 1 + idle..).unwrap_or_default();
    if rest.len() < 2 { tokens } else { rest }
}

/// A sentence of a list that is read out, without the number of its item: `item nine, kitchen, ...`.
fn without_item(tokens: &[Token]) -> &[Token] {
    let item = tokens.first().is_some_and(|t| {
        t.what == What::Word && matches!(t.text.as_str(), "item" | "snag" | "point" | "entry")
    });
    let numbered = tokens.get(1).is_some_and(|t| {
        t.amount().is_some()
            || t.what == What::Word && (t.is(Class::Thing) || t.text == "one")
            || t.is(Class::Side)
    });
    if !(item && numbered) {
        return tokens;
    }
    let marks = tokens
        .iter()
        .skip(2)
        .take_while(|t| t.mark().is_some())
        .count();
    tokens.get(2 + marks..).unwrap_or_default()
}

/// The clauses of a question that tell, and those that ask.
fn told_and_asked(clauses: &[Clause]) -> (&[Clause], &[Clause]) {
    let chooses = clauses.iter().any(|clause| matches!(clause.link, Link::Or));
    let last = clauses.len().saturating_sub(1);
    let asking = certainty::is_question(clauses.get(last..).unwrap_or_default());
    let pronoun = clauses
        .get(last)
        .and_then(|clause| clause.tokens.first())
        .is_some_and(|t| t.is(Class::Pron));
    let at = if chooses || !(asking || pronoun) || certainty::is_question(clauses) {
        0
    } else {
        last
    };
    clauses.split_at(at)
}

/// Figures of amounts in a role.
fn figure(amount: crate::numbers::Amount, role: Role, of: String) -> Figure {
    Figure { amount, role, of }
}
