//! What a proposal may be about.

use std::collections::{BTreeMap, BTreeSet};

use grounds_model::{Job, LayerKey, Ref, Target};
use grounds_site::{State, Subject};

use super::{Desk, kind, says};
use crate::{
    kinds::Kind,
    numbers::Unit,
    proposals::Proposal,
    same::content_stems,
    vocabulary::{Thing, Vocabulary},
};

/// Something that an entry may be about: one thing, or a layer on several faces at once.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// What a note would be about; one note each.
    pub about: Vec<Ref>,
    /// What people call it.
    pub name: String,
}

/// The names of things and places as comparable words, made once for a walk.
pub(super) struct NameWords {
    things: Vec<Vec<BTreeSet<String>>>,
    /// By word: the things with that word in a name.
    by_word: BTreeMap<String, Vec<usize>>,
    places: BTreeMap<String, BTreeSet<String>>,
}

impl NameWords {
    /// The names of a vocabulary.
    pub(super) fn of_all(vocabulary: &Vocabulary) -> Self {
        let words = |name: &String| content_stems(name).into_iter().collect();
        let things = vocabulary.things.iter();
        let things: Vec<Vec<BTreeSet<String>>> = things
            .map(|thing| thing.names.iter().map(words).collect())
            .collect();
        let mut by_word: BTreeMap<String, Vec<usize>> = BTreeMap::new();
        for (i, names) in things.iter().enumerate() {
            for word in names.iter().flatten().collect::<BTreeSet<_>>() {
                by_word.entry(word.clone()).or_default().push(i);
            }
        }
        let places = vocabulary.places.iter().map(|place| {
            let names = std::iter::once(&place.name).chain(&place.also);
            let around = names.flat_map(|name| content_stems(name)).collect();
            (place.id.clone(), around)
        });
        Self {
            things,
            by_word,
            places: places.collect(),
        }
    }

    /// The things with any of the words in a name, in their order.
    fn with_any(&self, words: &BTreeSet<String>) -> BTreeSet<usize> {
        let lists = words.iter().filter_map(|word| self.by_word.get(word));
        lists.flatten().copied().collect()
    }

    /// The names of a thing.
    fn of(&self, thing: usize) -> &[BTreeSet<String>] {
        self.things.get(thing).map_or(&[], Vec::as_slice)
    }

    /// The words of the place that a thing is in.
    fn around(&self, thing: &Thing) -> Option<&BTreeSet<String>> {
        self.places.get(thing.place.as_ref()?)
    }
}

/// What was found.
#[derive(Debug, Default)]
pub(super) struct Found {
    pub(super) choices: Vec<Choice>,
    pub(super) chosen: Option<usize>,
}

/// From this score on, of 100, a name is that of what was said.
const LEAST: usize = 55;

/// Below this score a name is offered but not taken for the one that was meant.
const SURE: usize = 66;

/// What a name is worth more that holds all that was said.
const WHOLE: usize = 8;

/// How much better the name of goods of another place has to fit than that of anything here.
const AHEAD: usize = 10;

/// Names that score this near to each other are told apart by nothing but what is true of them.
const NEAR: usize = 8;

/// The most that are offered.
const MOST: usize = 8;

/// A thing of the job with how well its name fits.
struct Scored {
    /// Its number in the vocabulary.
    thing: usize,
    about: Ref,
    target: Target,
    score: usize,
}

impl Desk<'_> {
    /// What a proposal may be about, the best first.
    pub(super) fn candidates(&self, proposal: &Proposal) -> Found {
        if let Some(trade) = self.trade_comes(proposal) {
            return only(self.job, trade);
        }
        let said: BTreeSet<String> = content_stems(&proposal.thing).into_iter().collect();
        if said.is_empty() {
            return Found::default();
        }
        let place = proposal.place.and_then(|at| self.vocabulary.places.get(at));
        let here = place.map(|place| place.id.as_str());
        if self.is_of_the_air(proposal, &said) {
            return here.map_or_else(Found::default, |place| only(self.job, Ref::from(place)));
        }
        let mut scored = self.scored(proposal, &said, here);
        if here.is_some() {
            let best = scored.iter().map(|it| it.score).max().unwrap_or(0);
            let elsewhere = self.elsewhere(proposal, &said);
            scored.extend(elsewhere.into_iter().filter(|it| it.score >= best + AHEAD));
        }
        scored.sort_by(|a, b| b.score.cmp(&a.score).then_with(|| a.about.cmp(&b.about)));
        let Some(best) = scored.first().map(|it| it.score) else {
            return match self.somebody_comes(proposal) {
                Some(trade) => only(self.job, trade),
                None => Found::default(),
            };
        };
        let tied: Vec<&Scored> = scored.iter().filter(|it| it.score + NEAR >= best).collect();
        if best < SURE {
            return self.found(&scored, None);
        }
        if let [one] = tied.as_slice() {
            return self.found(&scored, Some(&one.about));
        }
        if let Some(together) = self.one_activity(&tied) {
            let mut found = self.found(&scored, None);
            found.choices.insert(0, together);
            found.choices.truncate(MOST);
            found.chosen = Some(0);
            return found;
        }
        let mut may: Vec<&&Scored> = tied.iter().filter(|it| self.may_be(proposal, it)).collect();
        let work = self.next_in_stack(proposal.kind, &may);
        if let Some(next) = work {
            return self.found(&scored, Some(&next));
        }
        match (may.pop(), may.is_empty()) {
            (Some(one), true) => self.found(&scored, Some(&one.about)),
            _ => self.found(&scored, None),
        }
    }

    /// The choices, with the chosen one first.
    fn found(&self, scored: &[Scored], chosen: Option<&Ref>) -> Found {
        let first = scored.iter().filter(|it| Some(&it.about) == chosen);
        let rest = scored.iter().filter(|it| Some(&it.about) != chosen);
        let choice = |it: &Scored| Choice {
            about: vec![it.about.clone()],
            name: says::about(self.job, &it.about),
        };
        Found {
            choices: first.chain(rest).take(MOST).map(choice).collect(),
            chosen: chosen.map(|_| 0),
        }
    }

    fn scored(
        &self,
        proposal: &Proposal,
        said: &BTreeSet<String>,
        here: Option<&str>,
    ) -> Vec<Scored> {
        let things = self.names.with_any(said).into_iter();
        let fitting = things.filter_map(|i| {
            let thing = self.vocabulary.things.get(i)?;
            let is_here = here.is_none() || thing.place.is_none() || thing.place.as_deref() == here;
            let about = Ref::from(thing.id.as_str());
            let target = self.job.resolve(&about)?;
            let liking = kind::liking(proposal, &target)?;
            let score = self.score(i, said)?.checked_add_signed(liking)?;
            (is_here && score >= LEAST).then_some(Scored {
                thing: i,
                about,
                target,
                score,
            })
        });
        fitting.collect()
    }

    /// Goods anywhere whose name holds all that was said, if that is more than a word:
    /// a door is spoken of by the room that it leads to.
    fn elsewhere(&self, proposal: &Proposal, said: &BTreeSet<String>) -> Vec<Scored> {
        let mut all = self.scored(proposal, said, None);
        all.retain(|it| {
            let mut names = self.names.of(it.thing).iter();
            let whole = said.len() > 1 && names.any(|name| said.is_subset(name));
            whole && matches!(it.target, Target::Piece(_))
        });
        all
    }

    /// Whether a reading is of the air of a place.
    fn is_of_the_air(&self, proposal: &Proposal, said: &BTreeSet<String>) -> bool {
        const AIR: [&str; 6] = ["air", "temperature", "humidity", "room", "heat", "warm"];
        let air: Vec<String> = AIR.iter().flat_map(|word| content_stems(word)).collect();
        let unit = proposal.readings.first().map(|reading| reading.amount.unit);
        let of_air = matches!(
            unit,
            Some(Unit::Percent | Unit::Celsius | Unit::Fahrenheit | Unit::Degree)
        );
        proposal.kind == Kind::Measured && of_air && said.iter().all(|word| air.contains(word))
    }

    /// How well a thing's names fit what was said, of 100: how much of what was said they hold, and
    /// how little else. Words of its own place count for little on either side.
    fn score(&self, thing: usize, said: &BTreeSet<String>) -> Option<usize> {
        let around = self.names.around(self.vocabulary.things.get(thing)?);
        let weight = |word: &String| match around {
            Some(around) if around.contains(word) => 1,
            _ => 5,
        };
        let all: usize = said.iter().map(weight).sum();
        let score = |name: &BTreeSet<String>| {
            let shared: usize = name.intersection(said).map(weight).sum();
            let own: usize = name.iter().map(weight).sum();
            let whole = if said.is_subset(name) { WHOLE } else { 0 };
            65 * shared / all.max(1) + 35 * shared / own.max(1) + whole
        };
        self.names.of(thing).iter().map(score).max()
    }

    /// Whether it can be so by what the log says: what is done is not done once more.
    fn may_be(&self, proposal: &Proposal, it: &Scored) -> bool {
        let Some(state) = self.state(&it.about) else {
            return true;
        };
        match proposal.kind {
            Kind::Done | Kind::NotDone | Kind::Passed | Kind::Failed => state.done.is_none(),
            Kind::Started => state.started.is_none() && state.done.is_none(),
            Kind::Delivered | Kind::NotDelivered => state.arrived.is_none() && state.done.is_none(),
            Kind::Next | Kind::Blocked => state.done.is_none(),
            Kind::Wrong | Kind::Measured | Kind::Decision => true,
        }
    }

    /// Of layers of one stack, the first that is open: what was done is done from the structure out.
    fn next_in_stack(&self, kind: Kind, may: &[&&Scored]) -> Option<Ref> {
        if !matches!(kind, Kind::Done | Kind::Started) {
            return None;
        }
        let keys: Option<Vec<&LayerKey>> = may.iter().map(|it| layer(&it.target)).collect();
        let keys = keys?;
        let (first, rest) = keys.split_first()?;
        let one_stack = rest
            .iter()
            .all(|key| key.place == first.place && key.face == first.face);
        if !one_stack {
            return None;
        }
        let order = self.job.layers_of(&first.place, &first.face);
        let next = order.iter().find(|key| keys.contains(key))?;
        Some(Ref::from(next.to_string()))
    }

    /// One layer on several faces that are worked in one go.
    fn one_activity(&self, tied: &[&Scored]) -> Option<Choice> {
        let keys: Option<Vec<&LayerKey>> = tied.iter().map(|it| layer(&it.target)).collect();
        let keys = keys?;
        let first = keys.first()?;
        let together = self.job.worked_together(&first.place, &first.face);
        let same = keys.iter().all(|key| {
            key.place == first.place && key.layer == first.layer && together.contains(&key.face)
        });
        if !same || together.len() != keys.len() {
            return None;
        }
        let name = says::layers(self.job, &keys);
        let about = keys.iter().map(|key| Ref::from(key.to_string())).collect();
        Some(Choice { about, name })
    }

    /// The trade that is to come, where nothing else was named: *the tiler is here Friday*. A trade
    /// whose own name is that of goods is not meant by it: glass comes, and so do glaziers.
    fn trade_comes(&self, proposal: &Proposal) -> Option<Ref> {
        self.is_coming(proposal).then_some(())?;
        let said = words_of(&proposal.thing);
        let mut people = self.vocabulary.people.iter();
        let person = people.find(|person| {
            let names: BTreeSet<String> =
                person.also.iter().flat_map(|name| words_of(name)).collect();
            !said.is_empty() && said.is_subset(&names)
        })?;
        Some(Ref::from(person.id.as_str()))
    }

    /// The trade that is to come, where the job has nothing of what was said but somebody was named.
    fn somebody_comes(&self, proposal: &Proposal) -> Option<Ref> {
        self.is_coming(proposal).then_some(())?;
        let texts = [Some(proposal.thing.as_str()), proposal.who.as_deref()];
        let said: BTreeSet<String> = texts.into_iter().flatten().flat_map(words_of).collect();
        let mut people = self.vocabulary.people.iter();
        let person = people.find(|person| {
            let mut names = std::iter::once(&person.name).chain(&person.also);
            names.any(|name| {
                let name = words_of(name);
                !name.is_empty() && name.is_subset(&said)
            })
        })?;
        Some(Ref::from(person.id.as_str()))
    }

    fn is_coming(&self, proposal: &Proposal) -> bool {
        let dated = self.to_come(proposal.when).is_some();
        proposal.kind == Kind::Next && dated && kind::comes(&proposal.sentence)
    }

    /// What is true of what a reference names.
    pub(super) fn state(&self, about: &Ref) -> Option<State> {
        let target = self.job.resolve(about)?;
        Some(self.site.state(&Subject::of(target)?))
    }
}

/// The words of a name, without articles.
fn words_of(name: &str) -> BTreeSet<String> {
    let words = name.to_lowercase();
    let words = words.split(|c: char| !c.is_alphanumeric());
    words
        .filter(|word| !word.is_empty() && !matches!(*word, "the" | "a" | "our"))
        .map(str::to_owned)
        .collect()
}

fn layer(target: &Target) -> Option<&LayerKey> {
    match target {
        Target::Layer(key) => Some(key),
        _ => None,
    }
}

fn only(job: &Job, about: Ref) -> Found {
    let name = says::about(job, &about);
    Found {
        choices: vec![Choice {
            about: vec![about],
            name,
        }],
        chosen: Some(0),
    }
}
