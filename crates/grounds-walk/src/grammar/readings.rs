//! Figures that were read: lengths, moistures, temperatures, and what they should be.

use grounds_measure::Units;

use super::{Class, Clause, Figure, Kind, Noun, Reader, Role, Token, What, blocked::text_of, figure, state};
use crate::{
    clauses::is_verb,
    noun::is_content,
    numbers::{Amount, Manner, Number, Unit, default_unit},
};

/// Words beside a figure that say which way a length was taken.
const DIMENSIONS: [&str; 14] = [
    "thick", "long", "wide", "high", "deep", "tall", "up", "across", "square", "apart", "centres", "centers", "down", "diameter",
];

impl Reader<'_> {
    /// Reads a clause with a figure that was read or is wanted; false if it has none.
    pub(super) fn reading(&mut self, clause: &Clause) -> bool {
        let tokens = clause.tokens.as_slice();
        let Some(first) = tokens.iter().position(|t| t.amount().is_some_and(|a| may_be_read(a))) else {
            return false;
        };
        if is_count(tokens, first) || tokens.get(first.saturating_sub(1)).is_some_and(|t| t.text == "within") {
            return false;
        }
        let by_the_side = tokens.get(first + 1).is_some_and(|t| t.text == "a") && tokens.get(first + 2).is_some_and(|t| t.text == "side");
        if by_the_side {
            return true;
        }
        let attributive = tokens.get(first).and_then(Token::amount).is_some_and(|a| a.said) && tokens.get(first + 1).is_some_and(|t| is_content(t) && !t.any(&[Class::Side, Class::TooWord, Class::Particle, Class::AbleNoun]) && !DIMENSIONS.contains(&t.text.as_str()));
        if attributive {
            return false;
        }
        let moved = tokens.iter().any(|t| matches!(t.text.as_str(), "came" | "come")) && tokens.iter().any(|t| matches!(t.text.as_str(), "up" | "down"));
        if moved {
            return true;
        }
        let zeros: Vec<&Amount> = tokens.iter().filter_map(|t| t.amount()).collect();
        if zeros.len() == 1 && zeros.iter().all(|a| a.number == Number::whole(0)) {
            return true;
        }
        let denied = first > 0 && tokens.get(first - 1).is_some_and(|t| t.is(Class::Not));
        let rate = tokens.get(first + 1).is_some_and(|t| t.text == "in") && tokens.get(first + 2).is_some_and(|t| t.amount().is_some_and(|a| a.unit.is_time()));
        let rises = tokens.iter().any(|t| t.is(Class::Read) || matches!(t.text.as_str(), "dropped" | "lost" | "fell" | "rose"));
        if denied || rate && !rises && self.last_was_measured() {
            return true;
        }
        if self.was_before(tokens) {
            return true;
        }
        let stated = state::find(tokens.get(..first).unwrap_or_default()).is_some_and(|found| matches!(found.state, state::State::Is(Kind::NotDone | Kind::Done)) && tokens.get(found.at + 1..first).is_some_and(|b| !b.is_empty() && b.iter().all(|t| t.text == "on" || t.is(Class::Det))));
        if stated {
            return false;
        }
        let before = tokens.get(..first).unwrap_or_default();
        let future = before.iter().any(|t| matches!(t.text.as_str(), "will" | "not") || t.is(Class::Will));
        if future {
            return false;
        }
        if self.wanted(clause, first) {
            return true;
        }
        let wrong = state::find(tokens).is_some_and(|found| {
            found.state == state::State::Is(Kind::Wrong) && found.at > 0
                && (tokens.get(found.at - 1).is_some_and(|t| t.text == "too" || t.amount().is_some()) || found.at < first && tokens.get(found.at).is_some_and(|t| !t.any(&[Class::Particle])))
        });
        if wrong {
            return false;
        }
        let telling = self.is_reading(tokens, first);
        if !telling {
            return false;
        }
        let subject_end = before
            .iter()
            .enumerate()
            .position(|(at, t)| is_verb(tokens, at) || t.is(Class::Read) && !t.is(Class::AbleNoun) || at > 0 && t.is(Class::Done))
            .unwrap_or(before.len());
        let mut noun = Noun::of(before.get(..subject_end).unwrap_or_default());
        let side_only = is_side(&noun);
        let speaker = before.iter().position(|t| t.is(Class::FirstPerson));
        let named = speaker.map(|at| Noun::of(before.get(..at).unwrap_or_default())).unwrap_or_default();
        let people = before.get(..subject_end).unwrap_or_default().iter().any(|t| t.any(&[Class::FirstPerson, Class::ThirdPerson]));
        if people {
            // "I've eight hundred and eighty eight to the stud": where it was read names it.
            let after: Vec<Token> = tokens.get(first + 1..).unwrap_or_default().iter().take_while(|t| t.amount().is_none()).cloned().collect();
            noun = if named.is_empty() { Noun::of(&after) } else { named };
            noun.refers = true;
        }
        let mut damp = false;
        if self.damp && tokens.iter().filter_map(|t| t.amount()).any(|a| a.unit != Unit::Percent) {
            damp = true;
        }
        if tokens.iter().any(|t| matches!(t.text.as_str(), "wet" | "damp")) && !noun.refers {
            noun = noun.with(&Noun { words: vec!["damp".to_owned(), "line".to_owned()], head: 0, refers: false });
        }
        let leading = before.first().is_some_and(|t| t.is(Class::Prep) && !t.is(Class::Thing));
        noun.refers |= leading || before.get(..subject_end).unwrap_or_default().iter().any(|t| t.text == "it");
        noun.refers |= noun.is_empty() || side_only;
        // "Level, floor to ceiling": the words between verb and figure name it when nothing else does.
        let mut thing = self.resolve(&noun);
        if thing.is_empty() {
            thing = Noun::of(tokens.get(first + 1..).unwrap_or_default());
        }
        let mut figures = self.figures(tokens, &thing);
        if figures.is_empty() {
            return false;
        }
        if side_only && let Some(only) = figures.first_mut() {
            only.of = text_of(before.get(..subject_end).unwrap_or_default());
        }
        let in_place = tokens.get(..first).unwrap_or_default();
        let placed = state::find(in_place).is_some_and(|found| {
            found.state == state::State::Is(Kind::Done) && in_place.get(found.at).is_some_and(|t| t.is(Class::Particle)) && found.at + 1 < first
        });
        if placed && !thing.is_empty() && !noun.refers {
            self.fact(Kind::Done, &thing, 86);
        }
        let detail = text_of(tokens);
        let same = self.continues(&thing);
        if let Some(at) = same
            && let Some(fact) = self.facts.get_mut(at)
        {
            fact.also.push(fact.cue);
            fact.also.push(self.cue);
            if restates(&fact.figures, &figures) {
                fact.figures = figures;
                fact.cue = self.cue;
            } else {
                fact.figures.extend(figures);
            }
            fact.thing = fact.thing.with(&thing);
            return true;
        }
        let mut thing = named_by_unit(&thing, &figures, tokens);
        if damp {
            thing = thing.with(&Noun { words: vec!["damp".to_owned(), "line".to_owned()], head: 0, refers: false });
        }
        let wanted = std::mem::take(&mut self.wanted);
        let span = self.span.take().filter(|(_, at)| at + 1 >= self.sentence).map(|(amount, _)| figure(amount, Role::Told, String::new()));
        let judged = !wanted.is_empty();
        let unit_said = figures.iter().any(|f| f.amount.said || f.amount.manner == Manner::Fraction);
        let confidence = if unit_said { 90 } else { 84 };
        if let Some(fact) = self.fact(Kind::Measured, &thing, confidence) {
            fact.figures = figures;
            fact.figures.extend(wanted);
            fact.figures.extend(span);
            fact.detail = detail;
        }
        if judged {
            let at = self.facts.iter().rposition(|f| !f.dropped && f.kind == Kind::Measured);
            self.judge(at);
        }
        true
    }

    /// The fact that a reading goes on with: the last one measured of the same thing, just before.
    fn continues(&self, thing: &Noun) -> Option<usize> {
        let at = self.facts.iter().rposition(|fact| !fact.dropped)?;
        let fact = self.facts.get(at)?;
        let near = fact.sentence + 1 >= self.sentence;
        let same = fact.thing.words.starts_with(&thing.words) || thing.words == fact.thing.words || is_part_of(thing, &fact.thing);
        let compared = fact.sentence == self.sentence || fact.cue == self.cue;
        (near && fact.kind == Kind::Measured && (same || compared && self.is_length(fact))).then_some(at)
    }

    /// `Wednesday it was seven ten`: what was read before, beside what is read now.
    fn was_before(&mut self, tokens: &[Token]) -> bool {
        let was = tokens.iter().any(|t| matches!(t.text.as_str(), "was" | "were"));
        let then = tokens.iter().any(|t| t.when().is_some() || matches!(t.text.as_str(), "ago" | "fortnight" | "last" | "before") || t.amount().is_some_and(|a| a.unit.is_time()));
        let today = tokens.iter().any(|t| t.when().is_some_and(|w| w.day == Some(crate::dates::Day::Ahead(0))));
        if !(was && then) || today {
            return false;
        }
        let thing = self.subject.clone().unwrap_or_default();
        let mut figures = self.figures(tokens, &thing);
        for figure in &mut figures {
            figure.role = Role::Told;
        }
        let sentence = self.sentence;
        match self.facts.iter_mut().rev().find(|f| !f.dropped).filter(|f| f.kind == Kind::Measured && f.sentence + 2 >= sentence) {
            Some(fact) => {
                fact.figures.extend(figures);
                true
            }
            None => false,
        }
    }

    fn is_length(&self, fact: &super::Fact) -> bool {
        fact.figures.iter().any(|f| f.role == Role::Found && f.amount.unit.is_length())
    }

    /// `needs six`, `I want fifty three`, `limit is seventy five`: what it should be.
    fn wanted(&mut self, clause: &Clause, first: usize) -> bool {
        let tokens = clause.tokens.as_slice();
        let before = tokens.get(..first).unwrap_or_default();
        let wants = before.iter().any(|t| t.what == What::Word && t.any(&[Class::Wanted, Class::Need]))
            || self.sentence_certainty == super::Certainty::Hearsay
            || tokens.iter().skip(first + 1).any(|t| t.what == What::Word && t.is(Class::Wanted) && !t.any(&[Class::Read, Class::Prep, Class::Need]))
            || tokens.iter().skip(first).any(|t| matches!(t.text.as_str(), "limit" | "limit is" | "max" | "maximum" | "spec" | "drawing" | "drawings" | "plan" | "the most" | "most"));
        if !wants {
            return false;
        }
        let after = tokens.get(first + 1..).unwrap_or_default();
        if after.iter().any(|t| matches!(t.text.as_str(), "off" | "more" | "coats" | "coat")) {
            return false;
        }
        let thing = self.subject.clone().unwrap_or_default();
        let mut figures = self.figures(tokens, &thing);
        let sense = sense_of(tokens, self.sentence_certainty == super::Certainty::Hearsay);
        for figure in &mut figures {
            figure.role = Role::Wanted;
            figure.of = sense.to_owned();
        }
        let sentence = self.sentence;
        if let Some(fact) = self.facts.iter_mut().rev().find(|f| !f.dropped).filter(|f| f.kind == Kind::Measured && f.sentence + 2 >= sentence) {
            fact.figures.extend(figures);
            let at = self.facts.iter().rposition(|f| !f.dropped && f.kind == Kind::Measured);
            self.judge(at);
            return true;
        }
        let noun = Noun::of(before.get(..before.iter().position(|t| t.any(&[Class::Wanted, Class::Need, Class::Be])).unwrap_or(0)).unwrap_or_default());
        if !noun.is_empty() && !noun.refers {
            self.resolve(&noun);
        }
        self.wanted = figures;
        true
    }

    /// What was read against what is wanted: out of it is wrong. Moisture and humidity are not
    /// judged; they say what must wait.
    fn judge(&mut self, at: Option<usize>) {
        let Some(fact) = at.and_then(|at| self.facts.get(at)) else {
            return;
        };
        let Some(wanted) = fact.figures.iter().find(|f| f.role == Role::Wanted).cloned() else {
            return;
        };
        let short: Vec<Figure> = fact
            .figures
            .iter()
            .filter(|f| f.role == Role::Found && f.amount.unit == wanted.amount.unit && !matches!(f.amount.unit, Unit::Percent | Unit::SquareMetre | Unit::SquareFoot))
            .filter(|f| match wanted.of.as_str() {
                "most" => f.amount.number > wanted.amount.number,
                "least" => f.amount.number < wanted.amount.number,
                "exact" => f.amount.number != wanted.amount.number,
                _ => false,
            })
            .filter_map(|f| {
                let by = if f.amount.number > wanted.amount.number {
                    f.amount.number.minus(wanted.amount.number)?
                } else {
                    wanted.amount.number.minus(f.amount.number)?
                };
                Some(figure(Amount { number: by, ..f.amount }, Role::Out, f.of.clone()))
            })
            .collect();
        if short.is_empty() {
            return;
        }
        let mut thing = fact.thing.clone();
        for figure in &short {
            thing = thing.with(&Noun { words: figure.of.split(' ').filter(|w| !w.is_empty()).map(str::to_owned).collect(), head: 0, refers: false });
        }
        if let Some(fact) = self.fact(Kind::Wrong, &thing, 80) {
            fact.figures = short;
            fact.detail = RECKONED.to_owned();
        }
    }

    /// Whether a figure in the clause was read off something.
    fn is_reading(&self, tokens: &[Token], first: usize) -> bool {
        let read_word = tokens.iter().any(|t| t.what == What::Word && t.any(&[Class::Read, Class::AbleNoun]));
        let amounts: Vec<&Amount> = tokens.iter().filter_map(|t| t.amount()).filter(|a| may_be_read(a)).collect();
        let half = Number::fraction(1, 2);
        let explicit = amounts.iter().any(|a| {
            a.said && !a.unit.is_time()
                || a.number.as_whole().is_none() && Some(a.number) != half
                || a.manner == Manner::Digits
        });
        let of_it = tokens.get(first + 1).is_some_and(|t| t.text == "of") && tokens.get(first + 2).is_some_and(|t| t.is(Class::Pron));
        if of_it {
            return false;
        }
        let listed = tokens.windows(2).any(|pair| pair.iter().all(|t| t.amount().is_some_and(|a| a.number >= Number::whole(5) && a.unit == Unit::None)));
        let gauged = listed || self.gauging.is_some_and(|at| at + 2 >= self.sentence) && tokens.iter().all(|t| t.amount().is_some() || !is_content(t) || t.is(Class::Side));
        let headed = self.heading.as_ref().is_some_and(|(_, cue)| cue + 1 >= self.cue)
            && amounts.iter().all(|a| a.number >= Number::whole(4))
            && tokens.iter().all(|t| t.amount().is_some() || t.any(&[Class::Side, Class::Det, Class::Be, Class::Prep, Class::Conj, Class::Adv]) || is_content(t) && t.is(Class::Thing) && !t.any(&[Class::Act, Class::Done, Class::Arrived]));
        let goes_on = self.last_was_measured() && first == 0 && tokens.get(1).is_some_and(|t| t.any(&[Class::Prep, Class::Side, Class::Adv]));
        if gauged || headed || goes_on {
            return true;
        }
        let dimension = tokens.get(first + 1).is_some_and(|t| DIMENSIONS.contains(&t.text.as_str()));
        let just_measured = self.last_was_measured();
        let copula = first > 0 && (0..first).any(|at| is_verb(tokens, at) && tokens.get(at).is_some_and(|t| t.any(&[Class::Be, Class::Have])));
        let by_itself = tokens.iter().all(|t| t.amount().is_some() || !is_content(t));
        let by = tokens.iter().any(|t| t.text == "by") && amounts.len() >= 2;
        let rising = first > 0 && tokens.get(first - 1).is_some_and(|t| matches!(t.text.as_str(), "dropped" | "holding" | "fell" | "rose" | "lost" | "at" | "holds" | "held"));
        let topic_reads = self.subject.iter().chain(self.heading.iter().map(|(h, _)| h)).any(|n| n.words.iter().any(|w| crate::lexicon::lexicon().word(w).has(Class::AbleNoun)));
        read_word || explicit || dimension || by || rising
            || just_measured && (by_itself || copula)
            || topic_reads && (copula || by_itself)
            || copula && amounts.len() >= 2
            || copula && !amounts.is_empty() && amounts.iter().all(|a| a.number >= Number::whole(20) || a.number.as_whole().is_none())
    }

    fn last_was_measured(&self) -> bool {
        !self.wanted.is_empty()
            || self.facts.iter().rev().find(|f| !f.dropped).is_some_and(|f| f.kind == Kind::Measured && f.sentence + 2 >= self.sentence)
    }

    /// The figures of a clause with their units, each with the words that say where it was read.
    pub(super) fn figures(&self, tokens: &[Token], thing: &Noun) -> Vec<Figure> {
        let wanted = self.wanted.first().map(|f| f.amount.unit).filter(|unit| !unit.is_length() && *unit != Unit::None);
        let kind = wanted.unwrap_or_else(|| self.unit_of(tokens, thing));
        let said = tokens
            .iter()
            .filter_map(|t| t.amount())
            .map(|a| a.unit)
            .rfind(|unit| *unit != Unit::None && *unit != Unit::Foot && *unit != Unit::Coat && !unit.is_time());
        let mut figures = Vec::new();
        for (at, token) in tokens.iter().enumerate() {
            let Some(amount) = token.amount().filter(|a| may_be_read(a)) else {
                continue;
            };
            if is_count(tokens, at) && figures.is_empty() {
                continue;
            }
            let mut amount = *amount;
            if amount.unit == Unit::None {
                let small = self.vocabulary.units == Units::Metric && said == Some(Unit::Metre) && amount.number > Number::whole(9);
                amount.unit = match said {
                    Some(unit) if !small => unit,
                    _ => kind,
                };
                if small && amount.manner == Manner::Joined && tokens.iter().any(|t| t.text == "by") {
                    // "six metres forty by four ten"
                    if let Some(number) = amount.number.times(1, 100) {
                        amount.number = number;
                        amount.unit = Unit::Metre;
                    }
                }
            }
            let gauge = |word: &str| matches!(word, "gauge" | "pressure" | "gas" | "held" | "holding");
            if amount.unit == Unit::Pound && (tokens.iter().any(|t| gauge(&t.text)) || thing.words.iter().any(|w| gauge(w))) {
                amount.unit = Unit::Psi;
            }
            if amount.unit == Unit::Degree {
                amount.unit = self.degree();
            }
            let where_read = tokens
                .get(at + 1..)
                .unwrap_or_default()
                .iter()
                .take_while(|t| t.amount().is_none() && !t.is(Class::Be));
            let words: Vec<Token> = where_read.filter(|t| is_content(t) || t.is(Class::Side)).take(5).cloned().collect();
            let wanted = tokens.get(..at).unwrap_or_default().iter().rev().take(2).any(|t| t.what == What::Word && t.any(&[Class::Wanted]) && !t.is(Class::Read));
            let ratio = tokens.first().is_some_and(|t| t.text == "that") && tokens.windows(3).any(|w| matches!(w, [a, b, c] if a.amount().is_some() && b.text == "in" && c.amount().is_some()));
            let role = if wanted {
                Role::Wanted
            } else if ratio {
                Role::Told
            } else {
                Role::Found
            };
            figures.push(figure(amount, role, text_of(&words)));
        }
        if !figures.is_empty() {
            // How long it was held or left belongs to the reading.
            let spans = tokens.iter().filter_map(|t| t.amount()).filter(|a| a.unit.is_time());
            figures.extend(spans.map(|a| figure(*a, Role::Told, String::new())));
        }
        figures
    }

    pub(super) fn degree(&self) -> Unit {
        match self.vocabulary.units {
            Units::Metric => Unit::Celsius,
            Units::Imperial => Unit::Fahrenheit,
        }
    }

    /// What a bare figure is in, from what it is a figure of.
    fn unit_of(&self, tokens: &[Token], thing: &Noun) -> Unit {
        let here: Vec<&str> = tokens.iter().flat_map(|t| t.text.split(' ')).collect();
        let heading: Vec<&str> = thing
            .words
            .iter()
            .map(String::as_str)
            .collect();
        let metric = self.vocabulary.units == Units::Metric;
        let any = |words: &[&str]| here.iter().any(|w| words.contains(w));
        let about = |words: &[&str]| any(words) || heading.iter().any(|w| words.contains(w));
        let length = |unit: Unit| unit;
        if any(&["weighs", "weigh", "weight", "heavy"]) {
            return if metric { Unit::Kilogram } else { Unit::Pound };
        }
        if any(&["flow"]) && any(&["return"]) {
            return self.degree();
        }
        if any(&["temperature", "temp", "degrees", "warm", "dew", "dewpoint"]) {
            return self.degree();
        }
        let alone = tokens.iter().all(|t| t.amount().is_some());
        if alone && self.last_degrees.is_some_and(|at| at + 2 >= self.sentence && at < self.sentence) {
            return self.degree();
        }
        if any(&["humidity", "moisture", "moistures", "rh"]) {
            return Unit::Percent;
        }
        let probed = self.gauging.is_some_and(|at| at + 3 >= self.sentence) && self.probe;
        if probed && heading.iter().any(|w| matches!(*w, "screed" | "boards" | "floorboards" | "slab" | "timber" | "gable" | "plaster" | "studs" | "joists" | "oak" | "wall")) {
            return Unit::Percent;
        }
        if about(&["pressure", "gauge", "psi", "bar"]) {
            return if metric { Unit::Bar } else { Unit::Psi };
        }
        if about(&["humidity", "moisture", "moistures", "rh"]) {
            return Unit::Percent;
        }
        if about(&["temperature", "temp"]) {
            return self.degree();
        }
        let reads = any(&["reading", "reads", "readings", "meter"]);
        let wet = about(&["screed", "boards", "board", "slab", "timber", "wood", "joists", "studs", "oak", "plaster", "floor", "subfloor", "beam", "beams", "reading", "concrete", "sleepers", "deck", "rafters", "ash", "pine"]);
        if reads && wet {
            return Unit::Percent;
        }
        length(default_unit(self.vocabulary.units))
    }
}

/// Whether new figures say the old ones again, in other units or digits: `two oh four. Two metres
/// oh four.`
fn restates(old: &[Figure], new: &[Figure]) -> bool {
    let found = |figures: &[Figure]| -> Vec<Amount> { figures.iter().filter(|f| f.role == Role::Found).map(|f| f.amount).collect() };
    let (old, new) = (found(old), found(new));
    old.len() == new.len()
        && old.iter().zip(&new).all(|(a, b)| {
            a == b || match (a.length(), b.length()) {
                (Some(a), Some(b)) => a == b,
                _ => a.number == b.number,
            }
        })
}

/// Whether an amount can be a reading: not a stretch of time and not a count of coats.
fn may_be_read(amount: &Amount) -> bool {
    !amount.unit.is_time() && amount.unit != Unit::Coat
}

/// Whether a number counts things: `three walls`, `five of six`, `two coats`.
fn is_count(tokens: &[Token], at: usize) -> bool {
    let Some(amount) = tokens.get(at).and_then(Token::amount) else {
        return false;
    };
    let whole = amount.number.as_whole().is_some_and(|n| n < 60) && amount.unit == Unit::None && amount.manner == Manner::Full;
    let next = tokens.get(at + 1);
    let next_counts = next.is_some_and(|next| {
        (is_content(next) && !DIMENSIONS.contains(&next.text.as_str()) && !next.any(&[Class::Side, Class::TooWord]) && next.text != "even" && !next.any(&[Class::Particle]))
            || next.text == "of"
            || next.is(Class::Pron)
    });
    let able_before = at.checked_sub(1).and_then(|b| tokens.get(b)).is_some_and(|t| t.is(Class::AbleNoun));
    if able_before {
        return false;
    }
    let before_is_of = at.checked_sub(1).and_then(|b| tokens.get(b)).is_some_and(|t| t.text == "of" || t.text == "out of");
    whole && (next_counts || before_is_of && at >= 2 && tokens.get(at - 2).is_some_and(|t| t.amount().is_some()))
}


/// Whether a thing is a part of another, or the other said again: all its words are among them.
fn is_part_of(thing: &Noun, whole: &Noun) -> bool {
    !thing.is_empty() && thing.words.iter().all(|word| whole.words.contains(word))
}

/// The thing with the name of what was read, where the unit tells: `area`, `weight`.
fn named_by_unit(thing: &Noun, figures: &[Figure], tokens: &[Token]) -> Noun {
    let unit = figures.first().map(|f| f.amount.unit);
    let out = tokens.iter().any(|t| t.text == "out");
    let word = match unit {
        Some(Unit::SquareMetre | Unit::SquareFoot) => "area",
        Some(Unit::Kilogram | Unit::Pound | Unit::Tonne) => "weight",
        Some(Unit::Celsius | Unit::Fahrenheit) => "temperature",
        Some(Unit::Bar | Unit::Psi) => "pressure",
        Some(unit) if unit.is_length() && out => "level",
        _ => return thing.clone(),
    };
    thing.with(&Noun { words: vec![word.to_owned()], head: 0, refers: false })
}

/// Whether a noun names only a side: `left`, `top`.
fn is_side(noun: &Noun) -> bool {
    !noun.is_empty() && noun.words.iter().all(|word| crate::lexicon::lexicon().word(word).has(Class::Side))
}

/// The detail of a fault that was reckoned from a reading and what it should be.
pub(super) const RECKONED: &str = "out of what is wanted";

/// Whether a wanted figure is the most, the least or exactly what is wanted.
fn sense_of(tokens: &[Token], told: bool) -> &'static str {
    let any = |words: &[&str]| tokens.iter().any(|t| words.contains(&t.text.as_str()));
    if told {
        "told"
    } else if any(&["limit", "limit is", "max", "max is", "maximum", "maximum is", "not more than", "no more than", "the most", "most", "the limit is", "or under", "allowed", "under", "threshold is"]) || tokens.windows(2).any(|p| matches!(p, [a, b] if a.text == "no" && b.text == "more")) {
        "most"
    } else if any(&["need", "needs", "needed", "minimum", "asks", "asks for", "schedule asks", "schedule asks for", "calls for", "call for", "requirement is", "wants"]) {
        "least"
    } else {
        "exact"
    }
}
