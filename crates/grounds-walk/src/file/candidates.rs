//! What a proposal may be about.

use std::collections::BTreeSet;

use grounds_model::{Job, LayerKey, Ref, Target};
use grounds_site::{State, Subject};

use super::{Desk, kind, says};
use crate::{kinds::Kind, proposals::Proposal, same::content_stems, vocabulary::Thing};

/// Something that an entry may be about: one thing, or a layer on several faces at once.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// What a note would be about; one note each.
    pub about: Vec<Ref>,
    /// What people call it.
    pub name: String,
}

/// What was found.
#[derive(Debug, Default)]
pub(super) struct Found {
    pub(super) choices: Vec<Choice>,
    pub(super) chosen: Option<usize>,
}

/// From this score on, of 100, a name is that of what was said.
const LEAST: usize = 55;

/// Names that score this near to each other are told apart by nothing but what is true of them.
const NEAR: usize = 8;

/// The most that are offered.
const MOST: usize = 8;

/// A thing of the job with how well its name fits.
struct Scored {
    about: Ref,
    target: Target,
    score: usize,
}

impl Desk<'_> {
    /// What a proposal may be about, the best first.
    pub(super) fn candidates(&self, proposal: &Proposal) -> Found {
        if let Some(trade) = self.who_comes(proposal) {
            return only(self.job, trade);
        }
        let said: BTreeSet<String> = content_stems(&proposal.thing).into_iter().collect();
        if said.is_empty() {
            return Found::default();
        }
        let place = proposal.place.and_then(|at| self.vocabulary.places.get(at));
        let here = place.map(|place| place.id.as_str());
        let mut scored = self.scored(proposal, &said, here);
        if scored.is_empty() && here.is_some() {
            // Goods are spoken of where they stand: the place that they belong to is in their name.
            scored = self.scored(proposal, &said, None);
            scored.retain(|it| it.score >= 90);
        }
        scored.sort_by(|a, b| b.score.cmp(&a.score).then_with(|| a.about.cmp(&b.about)));
        let Some(best) = scored.first().map(|it| it.score) else {
            return Found::default();
        };
        let tied: Vec<&Scored> = scored.iter().filter(|it| it.score + NEAR >= best).collect();
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
        let fitting = self.vocabulary.things.iter().filter_map(|thing| {
            if here.is_some() && thing.place.is_some() && thing.place.as_deref() != here {
                return None;
            }
            let about = Ref::from(thing.id.as_str());
            let target = self.job.resolve(&about)?;
            let liking = kind::liking(proposal, &target)?;
            let score = self.score(thing, said)?;
            let score = score.checked_add_signed(liking)?;
            (score >= LEAST).then_some(Scored {
                about,
                target,
                score,
            })
        });
        fitting.collect()
    }

    /// How well a thing's names fit what was said, of 100: how much of what was said they hold, and
    /// how little else. Words of its own place count for little on either side.
    fn score(&self, thing: &Thing, said: &BTreeSet<String>) -> Option<usize> {
        let places = self.vocabulary.places.iter();
        let place = places.filter(|place| Some(&place.id) == thing.place.as_ref());
        let around: BTreeSet<String> = place
            .flat_map(|place| std::iter::once(&place.name).chain(&place.also))
            .flat_map(|name| content_stems(name))
            .collect();
        let weight = |word: &String| if around.contains(word) { 1 } else { 3 };
        let score = |name: &String| {
            let name: BTreeSet<String> = content_stems(name).into_iter().collect();
            let shared: usize = name.intersection(said).map(weight).sum();
            let (own, all) = (
                name.iter().map(weight).sum::<usize>(),
                said.iter().map(weight).sum::<usize>(),
            );
            65 * shared / all.max(1) + 35 * shared / own.max(1)
        };
        thing.names.iter().map(score).max()
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

    /// The trade that is to come, where that is all that was said: *the tiler is here Friday*.
    fn who_comes(&self, proposal: &Proposal) -> Option<Ref> {
        if proposal.kind != Kind::Next || self.to_come(proposal.when).is_none() {
            return None;
        }
        let named = |text: &str| {
            let text = text.to_lowercase();
            let people = self.vocabulary.people.iter();
            let mut met = people.filter(|person| {
                let mut names = std::iter::once(&person.name).chain(&person.also);
                names.any(|name| !name.is_empty() && has_words(&text, &name.to_lowercase()))
            });
            met.next().map(|person| Ref::from(person.id.as_str()))
        };
        let trade = named(&proposal.thing).or_else(|| proposal.who.as_deref().and_then(named))?;
        let comes = kind::comes(&proposal.sentence);
        comes.then_some(trade)
    }

    /// What is true of what a reference names.
    pub(super) fn state(&self, about: &Ref) -> Option<State> {
        let target = self.job.resolve(about)?;
        Some(self.site.state(&Subject::of(target)?))
    }
}

/// Whether all words of a name stand in a text, one after another.
fn has_words(text: &str, name: &str) -> bool {
    let plain = |text: &str| -> String {
        let words = text
            .split(|c: char| !c.is_alphanumeric())
            .filter(|word| !word.is_empty());
        words.map(|word| format!(" {word} ")).collect()
    };
    plain(text).contains(&plain(name))
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
