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
mod copula;
mod corrections;
mod dated;
mod decisions;
mod fragments;
mod orders;
mod readings;
mod state;

use crate::{
    clauses::{Clause, Link, split},
    fact::{Dated, Fact, Figure},
    dates::{Tense, When},
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

/// Reads sentences into facts.
pub(crate) struct Reader<'v> {
    vocabulary: &'v Vocabulary,
    names: &'v Names,
    /// What was read so far, dropped facts included.
    pub(crate) facts: Vec<Fact>,
    /// By sentence: the place it was said in.
    pub(crate) places: Vec<Option<usize>>,
    place: Option<usize>,
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
    sentence_from: usize,
    /// The noun of fragments in this sentence, for a verb without a subject.
    pending: Option<Noun>,
}

impl<'v> Reader<'v> {
    pub(crate) fn new(vocabulary: &'v Vocabulary, names: &'v Names) -> Self {
        Self {
            vocabulary,
            names,
            facts: Vec::new(),
            places: Vec::new(),
            place: None,
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
            pending: None,
        }
    }

    /// Reads one sentence.
    pub(crate) fn read(&mut self, sentence: &Sentence) {
        self.sentence_from = self.facts.len();
        self.sentence_certainty = Certainty::Firm;
        self.pending = None;
        self.speaker_said = None;
        self.cue = sentence.cue();
        let mut tokens = sentence.tokens.as_slice();
        if self.answer(sentence) {
            self.finish();
            return;
        }
        while let Some(change) = self.change_of_place(tokens, sentence.asks) {
            self.move_to(change.place);
            tokens = tokens.get(change.used..).unwrap_or_default();
            if change.used == 0 {
                break;
            }
        }
        if self.place.is_none() && self.is_opening(tokens) {
            self.finish();
            return;
        }
        let clauses = split(tokens);
        if sentence.asks || certainty::is_question(&clauses) {
            self.question(&clauses, tokens);
        } else {
            self.asked = None;
            for at in 0..clauses.len() {
                self.clause_with_next(&clauses, at);
            }
        }
        self.certain_if(&clauses);
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
        place::change(tokens, self.names)
    }

    fn move_to(&mut self, place: usize) {
        if self.place != Some(place) {
            self.heading = None;
            self.subject = None;
            self.last_state = None;
            self.wanted.clear();
        }
        self.place = Some(place);
    }

    /// Whether a sentence before the first place only opens the walk: it names its day.
    fn is_opening(&self, tokens: &[Token]) -> bool {
        self.facts.is_empty() && self.cue == 0 && tokens.iter().any(|token| token.when().is_some())
    }

    fn clause_with_next(&mut self, clauses: &[Clause], at: usize) {
        let Some(clause) = clauses.get(at) else {
            return;
        };
        let next = clauses.get(at + 1);
        let stripped = self.strip(clause);
        if let Some(first) = stripped.tokens.first() {
            self.cue = first.cue;
        }
        self.clause(&stripped, next);
    }

    /// Reads one clause, trying each way of saying things in turn.
    fn clause(&mut self, clause: &Clause, next: Option<&Clause>) {
        if clause.tokens.is_empty() || matches!(clause.link, Link::When) {
            return;
        }
        let _ = self.correction(clause)
            || self.cause_of_last(clause)
            || self.until_of_last(clause)
            || self.decision(clause, next)
            || self.blocked(clause, next)
            || self.order(clause, next)
            || self.dated(clause, next)
            || self.reading(clause)
            || self.copula(clause, next)
            || self.active(clause)
            || self.fragment(clause, next);
    }

    /// The thing that a noun means: itself, what it points back to, or both.
    fn resolve(&mut self, noun: &Noun) -> Noun {
        let back = self
            .pending
            .clone()
            .or_else(|| self.subject.clone())
            .or_else(|| self.heading.as_ref().map(|(heading, _)| heading.clone()));
        let thing = match back {
            Some(back) if noun.is_empty() => back,
            Some(back) if noun.refers => noun.with(&back),
            _ => noun.clone(),
        };
        if !thing.is_empty() {
            self.subject = Some(thing.clone());
        }
        thing
    }

    /// The heading that a thing stands under, if it is another than the thing itself.
    fn under(&self, thing: &Noun) -> Option<Noun> {
        let (heading, cue) = self.heading.as_ref()?;
        (self.cue <= cue + 1 && heading.words != thing.words).then(|| heading.clone())
    }

    /// A new fact of a kind about a thing; nothing when there is no thing.
    fn fact(&mut self, kind: Kind, thing: &Noun, confidence: u8) -> Option<&mut Fact> {
        if thing.is_empty() {
            return None;
        }
        let mut named = thing.clone();
        if let Some(heading) = self.under(thing) {
            named = named.with(&heading);
        }
        if matches!(kind, Kind::Done | Kind::Delivered | Kind::Started | Kind::NotDone) {
            self.last_state = Some(kind);
        }
        self.facts.push(Fact {
            kind,
            place: self.place,
            thing: named,
            figures: Vec::new(),
            dated: None,
            cause: None,
            who: self.speaker_said.clone(),
            detail: String::new(),
            certainty: self.sentence_certainty,
            confidence,
            cue: self.cue,
            sentence: self.sentence,
            dropped: false,
        });
        self.facts.last_mut()
    }

    fn date(&self, when: &When, tense: Tense) -> Dated {
        Dated {
            day: when
                .day
                .and_then(|day| day.date(self.vocabulary.day, tense)),
            time: when.time,
        }
    }

    /// The last fact that still stands, no further back than the last sentence or so.
    fn last_fact(&mut self) -> Option<&mut Fact> {
        let sentence = self.sentence;
        self.facts
            .iter_mut()
            .rev()
            .find(|fact| !fact.dropped)
            .filter(|fact| fact.sentence + 2 >= sentence)
    }

    fn person_name(&self, token: &Token) -> Option<String> {
        match token.what {
            What::Person(i) => self.vocabulary.people.get(i).map(|person| person.name.clone()),
            _ => token.is(Class::Person).then(|| token.text.clone()),
        }
    }
}

/// Figures of amounts in a role.
fn figure(amount: crate::numbers::Amount, role: Role, of: String) -> Figure {
    Figure { amount, role, of }
}
