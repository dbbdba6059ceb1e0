//! Uncertainty made ready for drawing.

use super::draw::Draws;
use super::pert::{Pert, Table};
use super::policy::{NONE, Policy};
use super::uncertain::{Amount, Repeat, Spell, ThreePoint, Uncertainty};
use crate::calendar::Calendar;
use crate::problem::{Fact, Tick};
use crate::search::clock::of_clock;

/// Fails of one hold in one run are no more than this.
const MOST_FAILS: f64 = 8.0;

/// Where a drawn amount goes.
#[derive(Clone, Copy, Debug)]
enum Slot {
    Work(usize),
    Amount(usize),
    Moment(usize),
}

#[derive(Clone, Copy, Debug)]
struct Effect {
    slot: Slot,
    table: u32,
    low: Tick,
    range: f64,
    least: Tick,
    most: Tick,
}

#[derive(Clone, Copy, Debug)]
struct Drawn {
    /// The common factor, or [`NONE`].
    common: u32,
    /// Weights of the common factor and of its own chance.
    weights: (f64, f64),
    effects: (u32, u32),
}

/// What may fail, and what a fail costs.
#[derive(Clone, Debug)]
struct Failing<'a> {
    chance: f64,
    steps: Vec<(Tick, Option<&'a Calendar>)>,
}

/// All that is drawn for a run of one policy.
#[derive(Clone, Debug)]
pub(super) struct Game<'a> {
    pub(super) seed: u64,
    factors: u32,
    drawn: Vec<Drawn>,
    effects: Vec<Effect>,
    tables: Vec<Table>,
    failing: Vec<Failing<'a>>,
    /// For each position, which of `failing` it is, or [`NONE`].
    pub(super) fails_as: Vec<u32>,
    /// Whether weather may stop the work at a position; empty where none does.
    pub(super) outdoors: Vec<bool>,
    spells: Vec<Spell>,
}

fn number(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

impl<'a> Game<'a> {
    /// Nothing is drawn.
    pub(super) fn certain(policy: &Policy<'a>) -> Self {
        Self::new(policy, &Uncertainty::default(), 0)
    }

    pub(super) fn new(policy: &Policy<'a>, uncertainty: &Uncertainty, seed: u64) -> Self {
        let count = policy.order.ids.len();
        let factors = uncertainty.sources.iter().filter_map(|s| s.common).max();
        let mut game = Self {
            seed,
            factors: factors.map_or(0, |most| most.saturating_add(1)),
            drawn: Vec::new(),
            effects: Vec::new(),
            tables: Vec::new(),
            failing: Vec::new(),
            fails_as: vec![NONE; count],
            outdoors: Vec::new(),
            spells: uncertainty.weather.spells.clone(),
        };
        let mut leans: Vec<f64> = Vec::new();
        for source in &uncertainty.sources {
            let first = number(game.effects.len());
            for &(amount, spread) in &source.effects {
                if let Some(effect) = game.effect(policy, amount, spread.ordered(), &mut leans) {
                    game.effects.push(effect);
                }
            }
            let share = match source.common {
                Some(_) if source.share.is_finite() => source.share.clamp(0.0, 1.0),
                _ => 0.0,
            };
            game.drawn.push(Drawn {
                common: source.common.unwrap_or(NONE),
                weights: (share.sqrt(), (1.0 - share).sqrt()),
                effects: (first, number(game.effects.len())),
            });
        }
        game.tables = leans.into_iter().map(Table::new).collect();
        uncertainty
            .repeats
            .iter()
            .for_each(|r| game.may_fail(policy, r));
        if !uncertainty.weather.activities.is_empty() && !game.spells.is_empty() {
            game.outdoors = vec![false; count];
            for id in &uncertainty.weather.activities {
                if let Some(&position) = policy.order.position.get(id.index()) {
                    game.outdoors[position] = true;
                }
            }
        }
        game
    }

    /// Where an effect goes and what it draws from; `None` for what nothing hangs on.
    fn effect(
        &self,
        policy: &Policy<'a>,
        amount: Amount,
        spread: ThreePoint,
        leans: &mut Vec<f64>,
    ) -> Option<Effect> {
        let (low, likely, high) = (
            f64::from(spread.low),
            f64::from(spread.likely),
            f64::from(spread.high),
        );
        let pert = Pert::new(low, likely, high).filter(|pert| !pert.is_certain())?;
        let (slot, least, most) = bounds(policy, amount)?;
        let lean = pert.lean();
        let table = leans
            .iter()
            .position(|known| (known - lean).abs() < 1e-3)
            .unwrap_or_else(|| {
                leans.push(lean);
                leans.len() - 1
            });
        Some(Effect {
            slot,
            table: number(table),
            low: spread.low,
            range: high - low,
            least,
            most,
        })
    }

    fn may_fail(&mut self, policy: &Policy<'a>, repeat: &Repeat) {
        let Some(&position) = policy.order.position.get(repeat.activity.index()) else {
            return;
        };
        let steps = repeat
            .steps
            .iter()
            .map(|&(ticks, clock)| (ticks.max(0), of_clock(policy.problem, clock)));
        if position < policy.order.played {
            self.fails_as[position] = number(self.failing.len());
        }
        self.failing.push(Failing {
            chance: if repeat.chance.is_finite() {
                repeat.chance.clamp(0.0, 0.95)
            } else {
                0.0
            },
            steps: steps.collect(),
        });
    }

    /// Draws everything but fails and weather.
    pub(super) fn draw(
        &self,
        draws: Draws,
        work: &mut [Tick],
        amounts: &mut [Tick],
        moments: &mut [Tick],
    ) {
        for (index, drawn) in (self.factors..).zip(&self.drawn) {
            if drawn.effects.0 == drawn.effects.1 {
                continue;
            }
            let mut score = drawn.weights.1 * draws.normal(index);
            if drawn.common != NONE {
                score += drawn.weights.0 * draws.normal(drawn.common);
            }
            for effect in &self.effects[drawn.effects.0 as usize..drawn.effects.1 as usize] {
                let share = self.tables[effect.table as usize].at(score);
                // Truncated, not rounded by a call: the range is never below zero.
                #[allow(clippy::cast_possible_truncation)]
                let ticks = effect.low + (effect.range * share + 0.5) as Tick;
                let ticks = ticks.clamp(effect.least, effect.most);
                match effect.slot {
                    Slot::Work(at) => work[at] = ticks,
                    Slot::Amount(at) => amounts[at] = ticks,
                    Slot::Moment(at) => moments[at] = ticks,
                }
            }
        }
    }

    /// The moment at which what may fail has passed, when it is over for the first time at
    /// `finish`.
    pub(super) fn passed(&self, draws: Draws, position: usize, finish: Tick) -> Tick {
        let index = self.fails_as[position];
        if index == NONE {
            return finish;
        }
        let failing = &self.failing[index as usize];
        let mut at = finish;
        for _ in 0..self.fails(draws, index as usize) {
            for (ticks, calendar) in &failing.steps {
                at = crate::search::clock::at_least_after(*calendar, at, *ticks);
            }
        }
        at
    }

    /// How often something fails in a run: the chance of one more is always the same.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    fn fails(&self, draws: Draws, index: usize) -> u32 {
        let failing = &self.failing[index];
        let unit = draws.unit(self.factors + number(self.drawn.len()) + number(index));
        if unit > failing.chance {
            return 0;
        }
        (unit.ln() / failing.chance.ln())
            .floor()
            .clamp(1.0, MOST_FAILS) as u32
    }

    /// Whether the shift that begins at `t` is lost to weather.
    pub(super) fn is_lost(&self, draws: Draws, t: Tick) -> bool {
        let index = self.spells.partition_point(|spell| spell.until <= t);
        self.spells
            .get(index)
            .is_some_and(|spell| spell.from <= t && self.is_stormy(draws, index))
    }

    fn is_stormy(&self, draws: Draws, index: usize) -> bool {
        let before = self.drawn.len() + self.failing.len() + index;
        draws.unit(self.factors + number(before)) < self.spells[index].chance
    }

    /// The luck of a common factor: the higher, the later.
    pub(super) fn factor_score(&self, draws: Draws, factor: u32) -> f64 {
        draws.unit(factor)
    }

    /// The luck that is a source's own.
    pub(super) fn source_score(&self, draws: Draws, source: usize) -> f64 {
        draws.unit(self.factors + number(source))
    }

    /// How often a repeat failed, as a score.
    pub(super) fn fail_score(&self, draws: Draws, repeat: usize) -> f64 {
        f64::from(self.fails(draws, repeat))
    }

    /// How many spells before `until` were lost, as a score.
    pub(super) fn weather_score(&self, draws: Draws, from: Tick, until: Tick) -> f64 {
        let near = (0..self.spells.len())
            .filter(|&i| self.spells[i].from >= from && self.spells[i].from < until);
        near.map(|i| f64::from(u8::from(self.is_stormy(draws, i))))
            .sum()
    }

    pub(super) fn factors(&self) -> u32 {
        self.factors
    }

    /// The lost spells of a run.
    pub(super) fn lost(&self, draws: Draws) -> impl Iterator<Item = &Spell> + '_ {
        let all = self.spells.iter().enumerate();
        all.filter(move |(i, _)| self.is_stormy(draws, *i))
            .map(|(_, spell)| spell)
    }
}

/// The slot of an amount with its least and its most.
fn bounds(policy: &Policy, amount: Amount) -> Option<(Slot, Tick, Tick)> {
    let far = crate::search::clock::NEVER;
    match amount {
        Amount::Work(id) => {
            let &position = policy.order.position.get(id.index())?;
            let activity = &policy.problem.activities[id.index()];
            let (work, open) = match activity.fact {
                Fact::Open => (activity.work, true),
                Fact::Begun { left, .. } => (left, false),
                Fact::Done { .. } => return None,
            };
            let calendar = policy.works[position].calendar;
            // Work that must not stop overnight is brought to an end within the shift.
            let most = match calendar.filter(|_| open && activity.unbroken) {
                Some(calendar) => calendar.longest_shift(),
                None => far,
            };
            Some((Slot::Work(position), work.min(1), most.max(work)))
        }
        Amount::Wait(id) => {
            let lag = policy.problem.lags.get(id.index())?;
            let min = lag.min?;
            Some((Slot::Amount(id.index()), min.min(0), far))
        }
        Amount::Date(id) => {
            policy.problem.dates.get(id.index())?;
            Some((Slot::Moment(policy.first_date + id.index()), -far, far))
        }
    }
}
