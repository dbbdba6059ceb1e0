//! The working of a rule, written down line by line while it is computed.

use grounds_measure::Units;

use crate::{
    answer::{Answer, Line, Missing, Relation, Verdict, capital},
    code::{Code, grade_words},
    doubt::Doubt,
    given::{Given, Value, code_limit, read_own},
    input::{Input, Origin, Spec, Word},
    quantity::{Quantity, Show},
    rule::Rule,
};

/// Why a rule stops before its end: a figure is missing.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stop(&'static Spec);

/// How the work of a rule ends.
pub(crate) type Worked = Result<(), Stop>;

/// Computed figures may miss their limit by so much (one part of a million) and still meet it.
const CLOSE: f64 = 1e-6;

/// The base of a quantity, the ends of a guess, and who says so.
type Found = (f64, Option<(f64, f64)>, String);

/// The working of one rule on one set of figures.
pub(crate) struct Working<'a> {
    rule: &'a Rule,
    given: &'a Given,
    code: &'a Code,
    units: Units,
    lines: Vec<Line>,
    fails: Vec<String>,
    met: Vec<String>,
    settled: Option<String>,
    missing: Vec<&'static Spec>,
    /// The guesses that went in: the input, its least and its most.
    guesses: Vec<(&'static Spec, f64, f64)>,
}

impl<'a> Working<'a> {
    pub(crate) fn run(rule: &'a Rule, given: &'a Given, code: &'a Code, units: Units) -> Self {
        let mut working = Self {
            rule,
            given,
            code,
            units,
            lines: Vec::new(),
            fails: Vec::new(),
            met: Vec::new(),
            settled: None,
            missing: Vec::new(),
            guesses: Vec::new(),
        };
        if let Err(Stop(spec)) = (rule.work)(&mut working) {
            working.missing.push(spec);
            // What else is surely wanted is told at once, not figure by figure.
            let also = rule.asked().filter(|other| other.name != spec.name);
            working
                .missing
                .extend(also.filter(|other| !given.has(other.name)));
        }
        working
    }

    pub(crate) fn verdict(&self) -> Verdict {
        if !self.fails.is_empty() {
            Verdict::Fails
        } else if !self.missing.is_empty() {
            Verdict::CannotTell
        } else {
            Verdict::Passes
        }
    }

    pub(crate) fn guesses(&self) -> &[(&'static Spec, f64, f64)] {
        &self.guesses
    }

    /// The input as the rule lists it.
    fn listed(&self, spec: &Spec) -> Option<&'static Spec> {
        self.rule.input(spec.name)
    }

    fn note_given(&mut self, spec: &'static Spec, value: String, from: String, guessed: bool) {
        let said = self
            .lines
            .iter()
            .any(|line| matches!(line, Line::Given { key, .. } if *key == spec.name));
        if !said {
            self.lines.push(Line::Given {
                key: spec.name,
                what: spec.what,
                value,
                from,
                guessed,
            });
        }
    }

    /// A quantity that was given, stands in the code, or is guessed.
    pub(crate) fn known<Q: Quantity>(&mut self, input: &Input<Q>) -> Option<Q> {
        let spec = self.listed(&input.spec)?;
        let (base, guess, from) = self.value_of(spec)?;
        if let Some((low, high)) = guess
            && !self
                .guesses
                .iter()
                .any(|(known, ..)| known.name == spec.name)
        {
            self.guesses.push((spec, low, high));
        }
        let quantity = Q::of_base(base);
        self.note_given(spec, quantity.show(self.units), from, guess.is_some());
        Some(quantity)
    }

    /// The base of a quantity, the ends of a guess, and who says so.
    fn value_of(&self, spec: &'static Spec) -> Option<Found> {
        if let Some(entry) = self.given.entry(spec.name) {
            return match entry.value {
                Value::Base(base) => Some((base, entry.guess, entry.from.clone())),
                Value::Word(_) | Value::YesNo(_) => None,
            };
        }
        match spec.origin {
            Origin::Asked | Origin::Wanted => None,
            Origin::Guessed(guess) => {
                let read = |text| read_own(spec, text);
                let ends = read(guess.low).zip(read(guess.high));
                let from = format!("{}, {}", guess.source, grade_words(guess.grade));
                Some((read(guess.likely)?, ends, from))
            }
            Origin::Limit(allowance) => {
                if let Some((base, from)) = code_limit(spec, self.code) {
                    return Some((base, None, from));
                }
                let allowance = allowance?;
                let from = format!("{}, {}", allowance.source, grade_words(allowance.grade));
                Some((read_own(spec, allowance.is)?, None, from))
            }
        }
    }

    /// A quantity that the rule cannot do without.
    pub(crate) fn take<Q: Quantity>(&mut self, input: &Input<Q>) -> Result<Q, Stop> {
        match self.known(input) {
            Some(quantity) => Ok(quantity),
            None => Err(self.stop(&input.spec)),
        }
    }

    fn stop(&self, spec: &Spec) -> Stop {
        // Every input that a rule takes is in its list: a test runs them all.
        let first = self.rule.inputs.first();
        Stop(self.listed(spec).or(first).unwrap_or(&NO_INPUT))
    }

    /// A word that the rule cannot do without.
    pub(crate) fn word(&mut self, input: &Input<Word>) -> Result<Word, Stop> {
        let Some(word) = self.known_word(input) else {
            return Err(self.stop(&input.spec));
        };
        Ok(word)
    }

    /// A word, if it was given or is guessed.
    pub(crate) fn known_word(&mut self, input: &Input<Word>) -> Option<Word> {
        let spec = self.listed(&input.spec)?;
        let (word, from, guessed) = match (self.given.entry(spec.name), spec.origin) {
            (Some(entry), _) => match entry.value {
                Value::Word(word) => (word, entry.from.clone(), false),
                Value::Base(_) | Value::YesNo(_) => return None,
            },
            (None, Origin::Guessed(guess)) => (guess.likely, guess.source.to_owned(), true),
            (None, _) => return None,
        };
        self.note_given(spec, word.replace('-', " "), from, guessed);
        Some(word)
    }

    /// Yes or no, which the rule cannot do without.
    pub(crate) fn yes(&mut self, input: &Input<bool>) -> Result<bool, Stop> {
        match self.known_yes(input) {
            Some(yes) => Ok(yes),
            None => Err(self.stop(&input.spec)),
        }
    }

    /// Yes or no, if it was given.
    pub(crate) fn known_yes(&mut self, input: &Input<bool>) -> Option<bool> {
        let spec = self.listed(&input.spec)?;
        let entry = self.given.entry(spec.name)?;
        let Value::YesNo(yes) = entry.value else {
            return None;
        };
        let value = if yes { "yes" } else { "no" };
        self.note_given(spec, value.to_owned(), entry.from.clone(), false);
        Some(yes)
    }

    /// Writes down a step: what is computed, how in figures, and what it comes to.
    pub(crate) fn step<Q: Quantity>(&mut self, what: &str, how: &[&dyn Show], value: Q) -> Q {
        let how: Vec<String> = how.iter().map(|part| part.show(self.units)).collect();
        self.lines.push(Line::Step {
            what: what.to_owned(),
            how: how.join(" "),
            value: value.show(self.units),
            base: value.base(),
            kind: Q::KIND.name,
        });
        value
    }

    /// Writes down a remark.
    pub(crate) fn say(&mut self, text: impl Into<String>) {
        self.lines.push(Line::Said(text.into()));
    }

    /// Settles the rule with a sentence: why nothing more is asked.
    pub(crate) fn settle(&mut self, text: impl Into<String>) {
        let text = text.into();
        self.lines.push(Line::Said(text.clone()));
        self.settled = Some(text);
    }

    /// The figure must be no more than the limit.
    pub(crate) fn at_most<Q: Quantity>(&mut self, what: &str, value: Q, limit: Q) -> bool {
        let holds = value.base() <= limit.base() + CLOSE * limit.base().abs();
        self.compare(what, value, Relation::AtMost, limit, holds)
    }

    /// The figure must be no less than the limit.
    pub(crate) fn at_least<Q: Quantity>(&mut self, what: &str, value: Q, limit: Q) -> bool {
        let holds = value.base() >= limit.base() - CLOSE * limit.base().abs();
        self.compare(what, value, Relation::AtLeast, limit, holds)
    }

    fn compare<Q: Quantity>(
        &mut self,
        what: &str,
        value: Q,
        relation: Relation,
        limit: Q,
        holds: bool,
    ) -> bool {
        let (value, limit) = self.told_apart(value, limit, holds);
        let words = match relation {
            Relation::AtMost => "at most",
            Relation::AtLeast => "at least",
        };
        let what_said = capital(what);
        let verb = if what.starts_with("two ") {
            "are"
        } else {
            "is"
        };
        if holds {
            self.met.push(format!(
                "{what_said} {verb} {value}, {words} {limit} as asked."
            ));
        } else {
            self.fails.push(format!(
                "{what_said} {verb} {value}; {words} {limit} is asked."
            ));
        }
        self.lines.push(Line::Compared {
            what: what.to_owned(),
            value,
            relation,
            limit,
            holds,
        });
        holds
    }

    /// A figure and its limit as texts; one that does not hold never reads like its limit.
    fn told_apart<Q: Quantity>(&self, value: Q, limit: Q, holds: bool) -> (String, String) {
        let shown = (value.show(self.units), limit.show(self.units));
        if holds || shown.0 != shown.1 {
            return shown;
        }
        let finely = |quantity: Q| Q::KIND.show_finely(quantity.base(), self.units);
        (finely(value), finely(limit))
    }

    /// Something must be so. `what` says it as it should be, `otherwise` what is wrong if it is not.
    pub(crate) fn must(&mut self, what: &str, holds: bool, otherwise: &str) -> bool {
        if holds {
            self.met.push(format!("{}.", capital(what)));
        } else {
            self.fails.push(format!("{}.", capital(otherwise)));
        }
        self.lines.push(Line::Must {
            what: what.to_owned(),
            holds,
        });
        holds
    }

    /// The text of a quantity in the units of the job, for sentences.
    pub(crate) fn text(&self, quantity: &dyn Show) -> String {
        quantity.show(self.units)
    }

    fn said(&self) -> String {
        match self.verdict() {
            Verdict::Fails => self.fails.join(" "),
            Verdict::CannotTell => self.wanting(),
            Verdict::Passes => self
                .settled
                .clone()
                .or_else(|| self.met.first().cloned())
                .unwrap_or_else(|| "Nothing here stands against it.".to_owned()),
        }
    }

    /// What is missing, in a sentence, by who has it.
    fn wanting(&self) -> String {
        let mut asked: Vec<(&str, Vec<&str>)> = Vec::new();
        for spec in &self.missing {
            let who = spec.who.words();
            match asked.iter_mut().find(|(known, _)| *known == who) {
                Some((_, whats)) => whats.push(spec.what),
                None => asked.push((who, vec![spec.what])),
            }
        }
        let parts: Vec<String> = asked
            .iter()
            .map(|(who, whats)| format!("{}, from {who}", whats.join("; ")))
            .collect();
        format!("Cannot tell without {}.", parts.join("; and "))
    }

    pub(crate) fn answer(self, doubts: Vec<Doubt>) -> Answer {
        let missing = self.missing.iter().map(|spec| Missing {
            key: spec.name,
            what: spec.what,
            who: spec.who.words(),
            example: spec.kind.example(),
        });
        Answer {
            rule: self.rule.name,
            verdict: self.verdict(),
            said: self.said(),
            missing: missing.collect(),
            lines: self.lines,
            doubts,
        }
    }
}

/// Stands in where a rule without inputs misses one; a test holds that there is no such rule.
static NO_INPUT: Spec = Spec {
    name: "",
    what: "a figure",
    kind: crate::input::InputKind::YesNo,
    least: "",
    most: "",
    who: crate::input::Who::Site,
    origin: Origin::Asked,
};
