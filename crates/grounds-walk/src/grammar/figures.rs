//! Figures with their units and where they were read.

use super::{
    Class, Figure, Noun, Reader, Role, Token, What, blocked::text_of, figure, readings::DIMENSIONS,
};
use crate::{
    noun::is_content,
    numbers::{Amount, Manner, Number, Unit, default_unit},
};
use grounds_measure::Units;

impl Reader<'_> {
    /// By how much something is out: the figures of what is wrong.
    pub(super) fn how_far_out(&self, tokens: &[Token], thing: &Noun) -> Vec<Figure> {
        let figures = self.figures(tokens, thing).into_iter();
        figures.map(|f| figure(f.amount, Role::Out, f.of)).collect()
    }

    /// The figures of a clause with their units, each with the words that say where it was read.
    pub(super) fn figures(&self, tokens: &[Token], thing: &Noun) -> Vec<Figure> {
        let wanted = self
            .wanted
            .first()
            .map(|f| f.amount.unit)
            .filter(|unit| !unit.is_length() && *unit != Unit::None);
        let kind = wanted.unwrap_or_else(|| self.unit_of(tokens, thing));
        let said = tokens
            .iter()
            .filter_map(|t| t.amount())
            .map(|a| a.unit)
            .rfind(|unit| {
                *unit != Unit::None && *unit != Unit::Foot && *unit != Unit::Coat && !unit.is_time()
            });
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
                let small = self.vocabulary.units == Units::Metric
                    && said == Some(Unit::Metre)
                    && amount.number > Number::whole(9);
                amount.unit = match said {
                    Some(unit) if !small => unit,
                    _ => kind,
                };
                if small && amount.manner == Manner::Joined && tokens.iter().any(|t| t.text == "by")
                {
                    // "six metres forty by four ten"
                    if let Some(number) = amount.number.times(1, 100) {
                        amount.number = number;
                        amount.unit = Unit::Metre;
                    }
                }
            }
            let gauge =
                |word: &str| matches!(word, "gauge" | "pressure" | "gas" | "held" | "holding");
            if amount.unit == Unit::Pound
                && (tokens.iter().any(|t| gauge(&t.text)) || thing.words.iter().any(|w| gauge(w)))
            {
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
            let words: Vec<Token> = where_read
                .filter(|t| is_content(t) || t.is(Class::Side))
                .take(5)
                .cloned()
                .collect();
            let wanted = tokens
                .get(..at)
                .unwrap_or_default()
                .iter()
                .rev()
                .take(2)
                .any(|t| t.what == What::Word && t.any(&[Class::Wanted]) && !t.is(Class::Read));
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
            let spans = tokens
                .iter()
                .filter_map(|t| t.amount())
                .filter(|a| a.unit.is_time());
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
    pub(super) fn unit_of(&self, tokens: &[Token], thing: &Noun) -> Unit {
        let here: Vec<&str> = tokens.iter().flat_map(|t| t.text.split(' ')).collect();
        let heading: Vec<&str> = thing.words.iter().map(String::as_str).collect();
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
        if alone
            && self
                .last_degrees
                .is_some_and(|at| at + 2 >= self.sentence && at < self.sentence)
        {
            return self.degree();
        }
        if any(&["humidity", "moisture", "moistures", "rh"]) {
            return Unit::Percent;
        }
        let probed = self.gauging.is_some_and(|at| at + 3 >= self.sentence) && self.probe;
        if probed
            && heading.iter().any(|w| {
                matches!(
                    *w,
                    "screed"
                        | "boards"
                        | "floorboards"
                        | "slab"
                        | "timber"
                        | "gable"
                        | "plaster"
                        | "studs"
                        | "joists"
                        | "oak"
                        | "wall"
                )
            })
        {
            return Unit::Percent;
        }
        if about(&[
            "fan",
            "fans",
            "extract",
            "extractor",
            "exhaust",
            "airflow",
            "flow hood",
        ]) && (self.gauging.is_some_and(|at| at + 2 >= self.sentence)
            || about(&["flow", "airflow"]))
            && !any(&["high", "wide", "long", "off", "from", "gap"])
        {
            return if metric {
                Unit::LitrePerSecond
            } else {
                Unit::CubicFootPerMinute
            };
        }
        let damp = tokens.iter().filter_map(|t| t.amount()).any(|a| {
            a.unit == Unit::None && a.number > Number::whole(54) && a.number < Number::whole(100)
        });
        if damp
            && about(&["screed", "slab"])
            && !any(&[
                "thick", "deep", "high", "wide", "long", "down", "up", "off", "from",
            ])
        {
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
        let wet = about(&[
            "screed", "boards", "board", "slab", "timber", "wood", "joists", "studs", "oak",
            "plaster", "floor", "subfloor", "beam", "beams", "reading", "concrete", "sleepers",
            "deck", "rafters", "ash", "pine",
        ]);
        if reads && wet {
            return Unit::Percent;
        }
        length(default_unit(self.vocabulary.units))
    }
}

/// Whether a number counts things: `three walls`, `five of six`, `two coats`.
pub(super) fn is_count(tokens: &[Token], at: usize) -> bool {
    let Some(amount) = tokens.get(at).and_then(Token::amount) else {
        return false;
    };
    let whole = amount.number.as_whole().is_some_and(|n| n < 60)
        && amount.unit == Unit::None
        && amount.manner == Manner::Full;
    let next = tokens.get(at + 1);
    let next_counts = next.is_some_and(|next| {
        (is_content(next)
            && !DIMENSIONS.contains(&next.text.as_str())
            && !next.any(&[Class::Side, Class::TooWord])
            && next.text != "even"
            && !next.any(&[Class::Particle]))
            || next.text == "of"
            || next.is(Class::Pron)
    });
    let able_before = at
        .checked_sub(1)
        .and_then(|b| tokens.get(b))
        .is_some_and(|t| t.is(Class::AbleNoun));
    if able_before {
        return false;
    }
    let before_is_of = at
        .checked_sub(1)
        .and_then(|b| tokens.get(b))
        .is_some_and(|t| t.text == "of" || t.text == "out of");
    whole
        && (next_counts
            || before_is_of && at >= 2 && tokens.get(at - 2).is_some_and(|t| t.amount().is_some()))
}

/// Whether an amount can be a reading: not a stretch of time and not a count of coats.
pub(super) fn may_be_read(amount: &Amount) -> bool {
    !amount.unit.is_time() && amount.unit != Unit::Coat
}

/// Whether a wanted figure is the most, the least or exactly what is wanted.
pub(super) fn sense_of(tokens: &[Token], told: bool) -> &'static str {
    let any = |words: &[&str]| tokens.iter().any(|t| words.contains(&t.text.as_str()));
    if told {
        "told"
    } else if any(&[
        "limit",
        "limit is",
        "max",
        "max is",
        "maximum",
        "maximum is",
        "not more than",
        "no more than",
        "the most",
        "most",
        "the limit is",
        "or under",
        "allowed",
        "under",
        "threshold is",
    ]) || tokens
        .windows(2)
        .any(|p| matches!(p, [a, b] if a.text == "no" && b.text == "more"))
    {
        "most"
    } else if any(&[
        "need",
        "needs",
        "needed",
        "minimum",
        "asks",
        "asks for",
        "schedule asks",
        "schedule asks for",
        "calls for",
        "call for",
        "requirement is",
        "wants",
    ]) {
        "least"
    } else {
        "exact"
    }
}
