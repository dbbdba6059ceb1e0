//! Clauses without a verb: `units in`, `doors not on`, `no rail`, `Joists.`, `wrong colour`.

use super::{Class, Clause, Kind, Link, Noun, Reader, Role, Tense, Token, What, answers::opposite, blocked::text_of, figure, state::{self, State}};
use crate::{noun::is_content, numbers::Unit};

impl Reader<'_> {
    /// Reads a clause without a verb.
    pub(super) fn fragment(&mut self, clause: &Clause, next: Option<&Clause>) -> bool {
        let tokens = clause.tokens.as_slice();
        self.coats_alone(tokens) || self.remedy(tokens) || self.none_of(clause, next)
            || self.part_without(tokens)
            || self.state_alone(clause)
            || self.heading(clause, next)
    }

    /// `all bar the third step`, `except over the fridge`: a part is left out.
    pub(super) fn exception(&mut self, clause: &Clause) -> bool {
        let tokens = clause.tokens.as_slice();
        let Some(at) = tokens.iter().position(|t| t.what == What::Word && matches!(t.text.as_str(), "bar" | "but for" | "save for" | "other than" | "except" | "except for" | "apart from" | "barring" | "excepting")) else {
            return false;
        };
        let rest = tokens.get(at + 1..).unwrap_or_default();
        if rest.iter().any(|t| t.amount().is_some()) && !rest.iter().any(is_content) {
            return false;
        }
        let part = Noun::of(rest);
        if part.is_empty() {
            return false;
        }
        let before = Clause { link: clause.link, tokens: tokens.get(..at).unwrap_or_default().to_vec() };
        let count = self.facts.len();
        if at > 0 {
            self.clause(&before, None);
        }
        let whole = self.subject.clone().unwrap_or_default();
        let fact = self.facts.get(count..).and_then(|new| new.last()).or_else(|| self.facts.iter().rev().find(|f| !f.dropped && f.sentence + 2 >= self.sentence));
        let kind = fact.map(|f| f.kind);
        let lacking = match kind {
            Some(Kind::Done | Kind::Started) => Kind::NotDone,
            Some(Kind::Passed) => Kind::Failed,
            Some(Kind::Delivered) => Kind::NotDelivered,
            _ => return at > 0,
        };
        let thing = part.with(&whole);
        self.fact(lacking, &thing, 84);
        true
    }

    /// What was read or denied one sentence further back.
    fn held_before(&self) -> Option<super::Fact> {
        let back = self.facts.iter().rev().find(|f| !f.dropped)?;
        let near = back.sentence + 3 >= self.sentence && self.so;
        (near && matches!(back.kind, Kind::Measured | Kind::NotDone | Kind::Wrong | Kind::Failed)).then(|| back.clone())
    }

    /// `stubbed out with no valve on it`: the part that lacks, beside what the rest says.
    pub(super) fn without(&mut self, clause: &Clause) -> bool {
        let tokens = clause.tokens.as_slice();
        let Some(at) = tokens.windows(2).position(|pair| matches!(pair, [a, b] if a.text == "with" && b.text == "no")) else {
            return false;
        };
        let part = Noun::of(tokens.get(at + 2..).unwrap_or_default());
        let faulty = tokens.get(at + 2..).unwrap_or_default().iter().any(|t| t.any(&[Class::FaultNoun, Class::Ok]));
        if part.is_empty() || faulty || at == 0 {
            return false;
        }
        let rest = Clause { link: clause.link, tokens: tokens.get(..at).unwrap_or_default().to_vec() };
        self.clause(&rest, None);
        let whole = self.subject.clone().unwrap_or_default();
        let thing = part.with(&whole);
        self.fact(Kind::NotDone, &thing, 82);
        true
    }

    /// `owner wants it black, architect wants it bare`: two wishes are a choice.
    pub(super) fn wishes(&mut self, clause: &Clause) -> bool {
        let tokens = clause.tokens.as_slice();
        let Some(at) = tokens.iter().position(|t| matches!(t.text.as_str(), "wants" | "want" | "prefers" | "would like")) else {
            return false;
        };
        let before = tokens.get(..at).unwrap_or_default();
        let who = before.iter().find_map(|t| self.person_name(t)).or_else(|| before.iter().find(|t| matches!(t.text.as_str(), "she")).map(|_| "owner".to_owned()));
        let rest = tokens.get(at + 1..).unwrap_or_default();
        let Some(who) = who.filter(|_| !rest.iter().any(|t| t.amount().is_some() || t.text == "to")) else {
            return false;
        };
        let object = Noun::of(rest);
        let thing = self.resolve(&object);
        let sentence = self.sentence;
        if let Some((first, what, at)) = self.wish.take()
            && at + 2 >= sentence
            && first != who
        {
            let detail = text_of(tokens);
            let both = what.with(&thing);
            if let Some(fact) = self.fact(Kind::Decision, &both, 84) {
                fact.who = Some(format!("{first}, {who}"));
                fact.detail = detail;
            }
            return true;
        }
        self.wish = Some((who, thing, sentence));
        true
    }

    /// `five of six fitted`, `about sixty percent`, `on one side only`.
    pub(super) fn share(&mut self, tokens: &[Token]) -> bool {
        let reads = tokens.iter().any(|t| t.what == What::Word && t.any(&[Class::Read, Class::AbleNoun]));
        if reads || tokens.iter().any(|t| matches!(t.text.as_str(), "humidity" | "moisture")) {
            return false;
        }
        let of_at = tokens.iter().position(|t| matches!(t.text.as_str(), "of" | "out of"));
        let count = of_at.filter(|at| {
            let number = |i: Option<usize>| i.and_then(|i| tokens.get(i)).is_some_and(|t| t.amount().is_some_and(|a| a.unit == Unit::None));
            number(at.checked_sub(1)) && number(Some(at + 1))
        });
        let percent = tokens.iter().position(|t| t.amount().is_some_and(|a| a.unit == Unit::Percent));
        let fraction = tokens.iter().position(|t| t.amount().is_some_and(|a| a.manner == crate::numbers::Manner::Fraction && a.unit == Unit::None))
            .filter(|at| tokens.get(at + 1).is_some_and(|t| t.text == "of") && tokens.iter().any(|t| state::is_done_word(t) || t.is(Class::Particle)));
        let Some(at) = count.map(|at| at - 1).or(percent).or(fraction) else {
            return false;
        };
        let other: Vec<Token> = tokens
            .iter()
            .filter(|t| t.amount().is_none() && !state::is_done_word(t) && !t.any(&[Class::Particle, Class::Prep]))
            .cloned()
            .collect();
        let noun = Noun::of(&other);
        let thing = self.resolve(&noun);
        let figures: Vec<_> = tokens.get(at..).unwrap_or_default().iter().filter_map(|t| t.amount()).map(|a| figure(*a, Role::Told, String::new())).collect();
        // "fitted, five of six": the state before it is only begun.
        let sentence = self.sentence;
        if let Some(fact) = self.facts.iter_mut().rev().find(|f| !f.dropped)
            && fact.sentence + 1 >= sentence
            && fact.kind == Kind::Done
            && (fact.thing.words == thing.words || fact.thing.shares_word(&thing))
        {
            fact.kind = Kind::Started;
            fact.figures = figures;
            return true;
        }
        let detail = text_of(tokens);
        if let Some(fact) = self.fact(Kind::Started, &thing, 84) {
            fact.figures = figures;
            fact.detail = detail;
        }
        true
    }

    /// `no rail`, `no colour yet`, `no oil till twelve`, `no tile in here`.
    fn none_of(&mut self, clause: &Clause, next: Option<&Clause>) -> bool {
        let tokens = clause.tokens.as_slice();
        let not_a = tokens.first().is_some_and(|t| t.is(Class::Not)) && tokens.get(1).is_some_and(|t| matches!(t.text.as_str(), "a" | "an" | "one"));
        let at = if not_a { Some(0) } else { tokens.iter().position(|t| matches!(t.text.as_str(), "no" | "zero")) };
        let Some(at) = at.filter(|at| *at == 0 || tokens.get(..*at).is_some_and(|b| b.iter().all(|t| t.any(&[Class::Conj, Class::Adv, Class::Filler, Class::Not]) || t.when().is_some()))) else {
            return self.noun_no(tokens);
        };
        let rest = tokens.get(at + 1..).unwrap_or_default();
        let noun = Noun::of(rest);
        let more = rest.first().is_some_and(|t| matches!(t.text.as_str(), "more" | "problem" | "need" | "rush" | "change" | "issue" | "idea" | "way" | "harm"));
        if more || noun.is_empty() || rest.iter().any(|t| t.any(&[Class::FaultNoun, Class::Idle])) {
            return false;
        }
        let found = state::find(rest);
        let thing = self.resolve(&noun);
        let until = next.is_some_and(|n| n.link == Link::Until);
        let dated = rest.iter().find_map(|t| t.when()).copied().map(|w| self.date(&w, Tense::Coming));
        let denial = self.denial.clone().filter(|(_, at)| at + 2 >= self.sentence).map(|(text, _)| text);
        let here = rest.iter().any(|t| matches!(t.text.as_str(), "in here" | "this week" | "week" | "today")) || until;
        let cause = self.denial_in_sentence().or_else(|| self.held_before());
        let cause = denial.or_else(|| cause.map(|fact| format!("{} {}", fact.thing.text(), fact.kind.words())));
        let kind = if (here || self.so) && (until || cause.is_some()) {
            Kind::Blocked
        } else if rest.iter().any(|t| matches!(t.text.as_str(), "on site" | "here")) {
            Kind::NotDelivered
        } else {
            Kind::NotDone
        };
        let _ = found;
        let detail = text_of(tokens);
        if let Some(fact) = self.fact(kind, &thing, 84) {
            fact.dated = dated.filter(|_| kind == Kind::Blocked);
            fact.detail = detail;
            if kind == Kind::Blocked && !until {
                fact.cause = cause;
            }
        }
        true
    }

    /// `a draught in under it`, `big scratch on the door`: a fault without a verb.
    pub(super) fn fault_alone(&mut self, tokens: &[Token]) -> bool {
        let Some(at) = tokens.iter().take(4).position(|t| t.what == What::Word && t.is(Class::FaultNoun)) else {
            return false;
        };
        let before = tokens.get(..at).unwrap_or_default();
        let after = tokens.get(at + 1..).unwrap_or_default();
        let end = after.iter().position(|t| t.text == "that" || t.text == "which").unwrap_or(after.len());
        let after = after.get(..end).unwrap_or_default();
        if (0..after.len()).any(|i| crate::clauses::is_verb(after, i)) {
            return false;
        }
        let article = before.first().is_some_and(|t| matches!(t.text.as_str(), "a" | "an" | "another" | "some" | "big" | "small" | "bit of a"));
        let placed = after.iter().any(|t| t.is(Class::Prep));
        if !article || !placed {
            return false;
        }
        let mut noun = Noun::of(after);
        noun.refers |= noun.is_empty();
        let thing = self.resolve(&noun);
        let detail = text_of(tokens);
        if let Some(fact) = self.fact(Kind::Wrong, &thing, 86) {
            fact.detail = detail;
        }
        true
    }

    /// `limewash, two coats`: so many coats are on.
    fn coats_alone(&mut self, tokens: &[Token]) -> bool {
        let coats = tokens.iter().any(|t| t.amount().is_some_and(|a| a.unit == Unit::Coat) || t.text == "coats");
        let bare = tokens.iter().all(|t| t.amount().is_some() || t.any(&[Class::Det, Class::Adv, Class::Pron]) || matches!(t.text.as_str(), "coats" | "coat"));
        if !coats || !bare {
            return false;
        }
        let figures: Vec<_> = tokens.iter().filter_map(|t| t.amount()).map(|a| figure(*a, Role::Told, String::new())).collect();
        let sentence = self.sentence;
        if let Some(fact) = self.last_fact()
            && fact.sentence + 1 >= sentence
            && fact.kind == Kind::Done
        {
            fact.figures.extend(figures);
            return true;
        }
        let thing = self.resolve(&Noun::default());
        let words = tokens.iter().flat_map(|t| t.text.split(' ')).filter(|w| !matches!(*w, "the" | "its")).map(str::to_owned).collect();
        let thing = thing.with(&Noun { words, head: 0, refers: false });
        if let Some(fact) = self.fact(Kind::Done, &thing, 80) {
            fact.figures = figures;
        }
        true
    }

    /// `so a two mil packer at this end`: what is to be put in.
    fn remedy(&mut self, tokens: &[Token]) -> bool {
        let at = tokens.iter().position(|t| matches!(t.text.as_str(), "packer" | "packers" | "shim" | "shims" | "spacer" | "spacers" | "packing"));
        let article = tokens.first().is_some_and(|t| t.is(Class::Det) || t.amount().is_some());
        if at.is_none() || !article || (0..tokens.len()).any(|i| crate::clauses::is_verb(tokens, i)) {
            return false;
        }
        let back = self.resolve(&Noun::default());
        let thing = Noun::of(tokens).with(&back);
        let figures: Vec<_> = tokens.iter().filter_map(|t| t.amount()).map(|a| figure(*a, Role::Told, String::new())).collect();
        let detail = text_of(tokens);
        if let Some(fact) = self.fact(Kind::Next, &thing, 82) {
            fact.figures = figures;
            fact.detail = detail;
        }
        true
    }

    /// `party wall no, chimney breast no`: the last state denied for another part.
    fn noun_no(&mut self, tokens: &[Token]) -> bool {
        let ends = tokens.last().is_some_and(|t| matches!(t.text.as_str(), "no" | "not" | "nope" | "not yet" | "yet"))
            && tokens.iter().any(|t| t.any(&[Class::No]) || t.is(Class::Not) || t.text == "no");
        let before: Vec<Token> = tokens.iter().filter(|t| !t.any(&[Class::No, Class::Not]) && t.text != "no" && t.text != "yet").cloned().collect();
        let noun = Noun::of(&before);
        let told = self.sentence_certainty == super::Certainty::Hearsay;
        let Some(last) = self.last_state.filter(|_| ends && !noun.is_empty() && !told) else {
            return false;
        };
        let of = self.subject.clone();
        let positive = if matches!(last, Kind::NotDone | Kind::NotDelivered) { opposite(last).unwrap_or(last) } else { last };
        let Some(kind) = opposite(positive) else {
            return false;
        };
        let surface = noun.words.iter().any(|w| matches!(w.as_str(), "wall" | "side" | "end" | "ceiling" | "breast"));
        let thing = match of {
            Some(of) if surface => of.with(&noun),
            _ => noun.clone(),
        };
        let keep = self.subject.clone();
        self.fact(kind, &thing, 86);
        self.last_state = Some(last);
        if !surface {
            self.subject = Some(noun);
        } else {
            self.subject = keep;
        }
        true
    }

    /// `minus a knob`, `missing a leg`: something of it lacks.
    fn part_without(&mut self, tokens: &[Token]) -> bool {
        let Some(at) = tokens.iter().position(|t| matches!(t.text.as_str(), "minus" | "missing" | "less" | "short")) else {
            return false;
        };
        let after = tokens.get(at + 1..).unwrap_or_default();
        let before = Noun::of(tokens.get(..at).unwrap_or_default());
        let lacks = after.first().is_some_and(|t| t.is(Class::Det) || t.amount().is_some());
        let noun = Noun::of(after);
        if !lacks || noun.is_empty() || self.subject.is_none() && before.is_empty() {
            return false;
        }
        let back = self.resolve(&before);
        let thing = back.with(&noun);
        let detail = text_of(tokens);
        if let Some(fact) = self.fact(Kind::Wrong, &thing, 86) {
            fact.detail = detail;
        }
        true
    }

    /// `units in`, `doors not on`, `refinished`, `wrong colour`, `two coats on`.
    fn state_alone(&mut self, clause: &Clause) -> bool {
        let tokens = clause.tokens.as_slice();
        let Some(found) = state::find(tokens) else {
            return false;
        };
        let before = tokens.get(..found.at).unwrap_or_default();
        let denied = before.iter().any(|t| t.is(Class::Not));
        let State::Is(kind) = found.state else {
            let well = matches!(found.state, State::Well) && before.is_empty();
            if well {
                self.waive();
            }
            return well;
        };
        let kind = if denied { opposite(kind) } else { Some(kind) };
        let Some(kind) = kind else {
            return true;
        };
        let subject = Noun::of(before);
        let after = Noun::of(tokens.get(found.at + 1..).unwrap_or_default());
        let wrong = kind == Kind::Wrong;
        // "wrong colour", "cracked tile": the fault's noun comes after.
        let named = if subject.is_empty() && wrong && !after.is_empty() {
            let back = self.subject.clone().unwrap_or_default();
            after.with(&back)
        } else {
            subject
        };
        // A participle that follows a state says how it was done, not that something else was.
        let same = self.facts.iter().rev().find(|f| !f.dropped).is_some_and(|f| f.kind == Kind::Done && f.sentence == self.sentence && kind == Kind::Done);
        let lone_particle = named.is_empty() && tokens.len() <= 2 && tokens.get(found.at).is_some_and(|t| t.is(Class::Particle));
        if lone_particle && self.pending.is_none() && tokens.first().is_none_or(|t| !t.text.starts_with("back")) && self.last_fact().is_none_or(|f| f.kind != Kind::Done) {
            return true;
        }
        let tried = tokens.get(found.at).is_some_and(|t| matches!(t.text.as_str(), "tested" | "tapped" | "sounded" | "run"));
        if tried && tokens.get(found.at + 1).is_some_and(|t| t.is(Class::Pron)) {
            return true;
        }
        if tokens.iter().any(|t| t.text == "since") && named.is_empty() {
            let dated = tokens.iter().find_map(|t| t.when()).copied().map(|w| self.date(&w, Tense::Past));
            if let Some(fact) = self.last_fact() {
                fact.dated = fact.dated.or(dated);
            }
            return true;
        }
        if tokens.get(found.at).is_some_and(|t| t.text.starts_with("back")) {
            self.clear_fault();
        }
        if denied && tokens.get(found.at).is_some_and(|t| matches!(t.text.as_str(), "dry" | "cured" | "dried" | "ready")) {
            let thing = self.resolve(&named);
            self.denial = Some((format!("{} not dry", thing.text()), self.sentence));
            return true;
        }
        if named.is_empty() && same && !denied {
            let detail = text_of(tokens);
            if let Some(fact) = self.last_fact() {
                fact.detail = format!("{}, {detail}", fact.detail);
            }
            return true;
        }
        let lone_noun = kind != Kind::Passed && before.is_empty() && tokens.get(found.at).is_some_and(|t| t.any(&[Class::FaultNoun, Class::Act]) && tokens.len() == 1 && !t.any(&[Class::Done]));
        if lone_noun {
            return false;
        }
        let begun = self.facts.iter().rev().find(|f| !f.dropped).is_some_and(|f| f.kind == Kind::Started && f.cue == self.cue);
        if begun && kind == Kind::Done && before.first().is_some_and(|t| t.amount().is_some()) {
            // "Started. Three courses up": how far it has got.
            return true;
        }
        let thing = self.resolve(&named);
        if thing.is_empty() {
            return false;
        }
        let kind = if self.wished && kind == Kind::Done { Kind::Next } else { kind };
        let past = !matches!(kind, Kind::NotDone | Kind::NotDelivered | Kind::Next);
        let thing = if matches!(kind, Kind::Done | Kind::NotDone) { self.with_work(&thing, tokens.get(found.at)) } else { thing };
        let thing = if tokens.get(found.at).is_some_and(|t| t.text == "on") && !after.is_empty() && matches!(kind, Kind::Done) { thing.with(&after) } else { thing };
        let dated = tokens.iter().find_map(|t| t.when()).copied().map(|w| self.date(&w, if past { Tense::Past } else { Tense::Coming }));
        let figures = if wrong { self.figures(tokens, &thing) } else { Vec::new() };
        let detail = text_of(tokens);
        let confidence = if before.is_empty() { found.confidence.saturating_sub(6) } else { found.confidence };
        if let Some(fact) = self.fact(kind, &thing, confidence) {
            fact.dated = dated;
            fact.detail = detail;
            fact.figures = figures.into_iter().map(|f| figure(f.amount, Role::Out, f.of)).collect();
        }
        true
    }

    /// `Joists.`, `Steel windows.`: what the next sentences are about.
    fn heading(&mut self, clause: &Clause, next: Option<&Clause>) -> bool {
        let tokens = clause.tokens.as_slice();
        let short = tokens.len() <= 7;
        let noun = Noun::of(tokens);
        let things = tokens.iter().all(|t| is_content(t) || t.any(&[Class::Det, Class::Adv, Class::Prep, Class::Pron, Class::Conj]) || t.amount().is_some());
        if noun.is_empty() || !short || !things || tokens.iter().any(|t| t.what == What::Word && t.is(Class::Idle)) {
            return false;
        }
        let alone = clause.link == Link::Start && next.is_none();
        let restated = match (&self.pending, &self.heading) {
            (Some(pending), _) => pending.clone(),
            (None, Some((heading, cue))) if alone && *cue + 1 >= self.cue && heading.shares_word(&noun) => heading.clone(),
            _ => Noun::default(),
        };
        let surface = is_surface(&noun);
        let from = self.sentence_from;
        if surface
            && let Some(fact) = self.facts.iter_mut().skip(from).rev().find(|f| !f.dropped)
            && matches!(fact.kind, Kind::Done | Kind::NotDone)
        {
            // "skim's on the front wall, back wall": the list goes on.
            fact.thing = fact.thing.with(&noun);
            return true;
        }
        if tokens.first().is_some_and(|t| t.amount().is_some()) {
            return false;
        }
        if clause.link != Link::Start
            && let Some(fact) = self.facts.iter_mut().skip(from).rev().find(|f| !f.dropped)
            && fact.kind == Kind::Wrong
        {
            // "a run in the paint, top rail": where the fault is.
            fact.thing = fact.thing.with(&noun);
            return true;
        }
        let prepositional = tokens.first().is_some_and(|t| t.is(Class::Prep) && !t.is(Class::Thing));
        if prepositional {
            return false;
        }
        let whole = noun.with(&restated);
        self.pending = Some(whole.clone());
        self.subject = Some(whole.clone());
        if alone {
            self.heading = Some((whole, self.cue));
        }
        false
    }
}

/// Whether a noun names a face of a room and nothing else.
fn is_surface(noun: &Noun) -> bool {
    noun.words.iter().any(|w| matches!(w.as_str(), "wall" | "walls" | "ceiling" | "side" | "end" | "breast"))
        && noun.words.len() <= 3
}
