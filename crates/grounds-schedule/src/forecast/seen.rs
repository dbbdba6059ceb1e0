//! What was seen in the runs.

use std::ops::Range;

use super::draw::Draws;
use super::game::Game;
use super::in_threads;
use super::policy::{NONE, Policy};
use super::ranks::{Ranked, correlation};
use super::run::Run;
use super::uncertain::{Amount, Uncertainty};
use crate::problem::{ActivityId, DAY, DateId, End, LagId, Tick};
use crate::search::clock::NEVER;

/// Causes kept for each date, the heaviest first.
const MOST_CAUSES: usize = 8;
/// Shares of the variance below this are not told from chance.
const LEAST_SHARE: f64 = 0.002;

/// Everything that was seen.
#[derive(Clone, Debug, PartialEq)]
pub struct Forecast {
    /// How many runs were made.
    pub runs: u32,
    /// The last finish of all.
    pub finish: Seen,
    /// The watched activities, in the order they were asked for.
    pub watched: Vec<Seen>,
    /// Latest dates that were missed, with the number of runs.
    pub missed_dates: Vec<(DateId, u32)>,
    /// Longest waits that were missed for good, with the number of runs.
    pub missed_waits: Vec<(LagId, u32)>,
    /// Runs in which something found no working time before the calendars end.
    pub endless: u32,
}

/// One date over all runs.
#[derive(Clone, Debug, PartialEq)]
pub struct Seen {
    /// The date in each run, in rising order.
    pub sorted: Vec<Tick>,
    /// The date in each run, in the order of the runs.
    pub in_order: Vec<Tick>,
    /// For each activity, the share of the runs in which it is on the chain that sets the date.
    pub drives: Vec<f64>,
    /// The causes that explain the spread, the heaviest first.
    pub causes: Vec<Weight>,
}

/// Something that chance decides.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cause {
    /// A common factor, by number.
    Common(u32),
    /// A source's own chance, by position in [`Uncertainty::sources`].
    Source(usize),
    /// Fails, by position in [`Uncertainty::repeats`].
    Repeat(usize),
    /// Weather.
    Weather,
}

/// How much of the spread of a date a cause explains.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weight {
    /// The cause.
    pub cause: Cause,
    /// Squared rank correlation (Spearman) of the cause with the date: about the share of the
    /// variance that goes with it.
    pub share: f64,
    /// Ticks between the mean date in the fifth of the runs in which the cause went worst, and in
    /// the fifth in which it went best. For what seldom happens, between the runs with it and
    /// those without.
    pub swing: f64,
}

impl Seen {
    /// The date that is kept with chance `p`, 0 to 1: the smallest that so many runs keep.
    #[must_use]
    pub fn by(&self, p: f64) -> Tick {
        quantile(&self.sorted, p)
    }

    /// The same from the first half of the runs alone: how far it lies from [`Seen::by`] shows how
    /// far the runs have settled.
    #[must_use]
    pub fn by_first_half(&self, p: f64) -> Tick {
        let mut half = self.in_order[..self.in_order.len().div_ceil(2)].to_vec();
        half.sort_unstable();
        quantile(&half, p)
    }

    /// The chance of a date at or before `t`.
    #[must_use]
    #[allow(clippy::cast_precision_loss)]
    pub fn chance_by(&self, t: Tick) -> f64 {
        let kept = self.sorted.partition_point(|&date| date <= t);
        kept as f64 / self.sorted.len().max(1) as f64
    }

    /// The mean date.
    #[must_use]
    #[allow(clippy::cast_precision_loss)]
    pub fn mean(&self) -> f64 {
        let sum: f64 = self.sorted.iter().map(|&t| f64::from(t)).sum();
        sum / self.sorted.len().max(1) as f64
    }

    /// Points of the curve of chances: at most `most` dates, rising, each with the chance of it or
    /// earlier.
    #[must_use]
    #[allow(clippy::cast_precision_loss)]
    pub fn curve(&self, most: usize) -> Vec<(Tick, f64)> {
        let most = most.max(2);
        let points = (0..most).map(|i| self.by(i as f64 / (most - 1) as f64));
        let mut curve: Vec<(Tick, f64)> = points.map(|t| (t, self.chance_by(t))).collect();
        curve.dedup_by_key(|point| point.0);
        curve
    }
}

#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss
)]
fn quantile(sorted: &[Tick], p: f64) -> Tick {
    let Some(last) = sorted.len().checked_sub(1) else {
        return 0;
    };
    // A hair less than exact, so that half of ten thousand is not taken for a little more.
    let rank = (p * sorted.len() as f64 - 1e-9).ceil().max(1.0) as usize - 1;
    sorted[rank.min(last)]
}

/// What one thread saw in its runs.
pub(super) struct Tally {
    runs: u32,
    /// For each date, one after the other: the whole first, then what is watched.
    dates: Vec<Vec<Tick>>,
    drives: Vec<Vec<u32>>,
    missed_dates: Vec<u32>,
    missed_waits: Vec<u32>,
    endless: u32,
}

impl Tally {
    pub(super) fn of(
        policy: &Policy,
        game: &Game,
        watched: &[ActivityId],
        runs: Range<u32>,
    ) -> Self {
        let count = policy.order.ids.len();
        let places = watched
            .iter()
            .map(|id| policy.order.position.get(id.index()).copied());
        let places: Vec<Option<usize>> = places.collect();
        let mut tally = Self {
            runs: runs.end - runs.start,
            dates: vec![Vec::with_capacity(runs.len()); places.len() + 1],
            drives: vec![vec![0; count]; places.len() + 1],
            missed_dates: vec![0; policy.problem.dates.len()],
            missed_waits: vec![0; policy.problem.lags.len()],
            endless: 0,
        };
        let mut run = Run::new(policy, game);
        let mut marks = vec![(0, 0); count];
        for number in runs {
            run.draw(game, number);
            run.play(policy, game);
            tally.take(policy, &run, &places, &mut marks);
        }
        tally
    }

    fn take(
        &mut self,
        policy: &Policy,
        run: &Run,
        places: &[Option<usize>],
        marks: &mut [(u32, u32)],
    ) {
        let last = (0..policy.order.played).max_by_key(|&p| (run.release(p), std::cmp::Reverse(p)));
        let number = self.dates[0].len() as u32;
        let all = std::iter::once(last).chain(places.iter().copied());
        for (date, place) in all.enumerate() {
            let at = place.map_or(policy.problem.now, |p| run.release(p));
            self.dates[date].push(at);
            if date == 0 && at >= NEVER {
                self.endless += 1;
            }
            let mut next = place.filter(|&p| p < policy.order.played);
            while let Some(p) = next {
                let mark = (number + 1, date as u32);
                if std::mem::replace(&mut marks[p], mark) == mark {
                    break;
                }
                self.drives[date][p] += 1;
                let driver = run.drivers[p];
                next = (driver != NONE && (driver as usize) < policy.order.played)
                    .then_some(driver as usize);
            }
        }
        self.count_misses(policy, run);
    }

    fn count_misses(&mut self, policy: &Policy, run: &Run) {
        for p in policy.order.begun..policy.order.played {
            for &(end, at, date) in policy.latest.of(p) {
                let is = match end {
                    End::Start => run.start(p),
                    End::Finish => run.finish(p),
                };
                self.missed_dates[date as usize] += u32::from(is > at);
            }
        }
        for lag in run.given_up(policy) {
            self.missed_waits[lag as usize] += 1;
        }
    }
}

fn add(to: &mut [u32], from: &[u32]) {
    to.iter_mut().zip(from).for_each(|(to, from)| *to += from);
}

fn seldom<T: From<usize>>(counts: &[u32]) -> Vec<(T, u32)> {
    let all = counts.iter().enumerate().filter(|(_, count)| **count > 0);
    all.map(|(i, &count)| (T::from(i), count)).collect()
}

impl Forecast {
    /// Puts the threads' tallies together, in the order of the runs.
    pub(super) fn of(
        policy: &Policy,
        game: &Game,
        uncertainty: &Uncertainty,
        watched: &[ActivityId],
        tallies: Vec<Tally>,
        threads: usize,
    ) -> Self {
        let mut tallies = tallies.into_iter();
        let mut all = tallies.next().unwrap_or(Tally {
            runs: 0,
            dates: vec![Vec::new(); watched.len() + 1],
            drives: vec![Vec::new(); watched.len() + 1],
            missed_dates: Vec::new(),
            missed_waits: Vec::new(),
            endless: 0,
        });
        for other in tallies {
            all.runs += other.runs;
            all.endless += other.endless;
            for (to, from) in all.dates.iter_mut().zip(&other.dates) {
                to.extend_from_slice(from);
            }
            for (to, from) in all.drives.iter_mut().zip(&other.drives) {
                add(to, from);
            }
            add(&mut all.missed_dates, &other.missed_dates);
            add(&mut all.missed_waits, &other.missed_waits);
        }
        let looker = Looker {
            policy,
            game,
            uncertainty,
            runs: all.runs,
        };
        let mut seen = looker.look(all.dates, &all.drives, threads);
        let watched = seen.split_off(1.min(seen.len()));
        Self {
            runs: all.runs,
            finish: seen.pop().unwrap_or(Seen {
                sorted: Vec::new(),
                in_order: Vec::new(),
                drives: Vec::new(),
                causes: Vec::new(),
            }),
            watched,
            missed_dates: seldom(&all.missed_dates),
            missed_waits: seldom(&all.missed_waits),
            endless: all.endless,
        }
    }
}

/// Looks for the causes of one date's spread.
struct Looker<'l, 'a> {
    policy: &'l Policy<'a>,
    game: &'l Game<'a>,
    uncertainty: &'l Uncertainty,
    runs: u32,
}

impl Looker<'_, '_> {
    /// Looks at every date: each cause is drawn again and ranked once, for all dates.
    fn look(&self, dates: Vec<Vec<Tick>>, drives: &[Vec<u32>], threads: usize) -> Vec<Seen> {
        let causes = self.worth_a_look(drives);
        let ranks: Vec<Vec<f64>> = dates
            .iter()
            .map(|dates| Ranked::of(dates.iter().map(|&t| f64::from(t))).ranks())
            .collect();
        let weigh = |some: &[Cause]| -> Vec<Vec<Weight>> {
            let mut weights = vec![Vec::new(); dates.len()];
            for &cause in some {
                self.weigh(cause, &dates, &ranks, &mut weights);
            }
            weights
        };
        let parts: Vec<&[Cause]> = causes
            .chunks(causes.len().div_ceil(threads.max(1)).max(1))
            .collect();
        let weights = in_threads(&parts, |some| weigh(some));
        let mut all: Vec<Vec<Weight>> = vec![Vec::new(); dates.len()];
        for weights in weights {
            all.iter_mut()
                .zip(weights)
                .for_each(|(all, more)| all.extend(more));
        }
        let both = all.into_iter().zip(drives);
        dates
            .into_iter()
            .zip(both)
            .map(|(dates, (weights, drives))| self.seen(dates, drives, weights))
            .collect()
    }

    fn seen(&self, in_order: Vec<Tick>, by_position: &[u32], mut causes: Vec<Weight>) -> Seen {
        let mut sorted = in_order.clone();
        sorted.sort_unstable();
        causes.sort_by(|a, b| b.share.total_cmp(&a.share).then(a.cause.cmp(&b.cause)));
        causes.truncate(MOST_CAUSES);
        let mut drives = vec![0.0; by_position.len()];
        for (p, &count) in by_position.iter().enumerate() {
            drives[self.policy.order.ids[p]] = f64::from(count) / f64::from(self.runs.max(1));
        }
        Seen {
            sorted,
            in_order,
            drives,
            causes,
        }
    }

    /// How much of each date's spread goes with a cause.
    fn weigh(
        &self,
        cause: Cause,
        dates: &[Vec<Tick>],
        date_ranks: &[Vec<f64>],
        weights: &mut [Vec<Weight>],
    ) {
        let last = dates.first().and_then(|dates| dates.iter().max());
        let last = last.map_or(0, |&last| last);
        let draws = |run| Draws::new(self.game.seed, run);
        let ranked = Ranked::of((0..self.runs).map(|run| self.score(cause, draws(run), last)));
        let ranks = ranked.ranks();
        for ((dates, date_ranks), weights) in dates.iter().zip(date_ranks).zip(weights) {
            let r = correlation(&ranks, date_ranks);
            if r > 0.0 && r * r >= LEAST_SHARE {
                weights.push(Weight {
                    cause,
                    share: r * r,
                    swing: ranked.swing(dates),
                });
            }
        }
    }

    /// Causes that are on the chain of some date often enough to matter: one run in fifty.
    fn worth_a_look(&self, drives: &[Vec<u32>]) -> Vec<Cause> {
        let often = |p: usize| {
            let mut counts = drives.iter().map(|drives| u64::from(drives[p]));
            counts.any(|count| count * 50 >= u64::from(self.runs))
        };
        let at = |id: ActivityId| self.policy.order.position.get(id.index()).copied();
        let problem = self.policy.problem;
        let mut causes: Vec<Cause> = (0..self.game.factors()).map(Cause::Common).collect();
        for (i, source) in self.uncertainty.sources.iter().enumerate() {
            let matters = source.effects.iter().any(|(amount, _)| {
                let id = match *amount {
                    Amount::Work(id) => Some(id),
                    Amount::Wait(lag) => problem.lags.get(lag.index()).map(|lag| lag.to),
                    Amount::Date(date) => problem.dates.get(date.index()).map(|d| d.activity),
                };
                id.and_then(at).is_some_and(often)
            });
            if matters {
                causes.push(Cause::Source(i));
            }
        }
        for (i, repeat) in self.uncertainty.repeats.iter().enumerate() {
            if at(repeat.activity).is_some_and(often) {
                causes.push(Cause::Repeat(i));
            }
        }
        if !self.game.outdoors.is_empty() {
            causes.push(Cause::Weather);
        }
        causes
    }

    fn score(&self, cause: Cause, draws: Draws, last: Tick) -> f64 {
        match cause {
            Cause::Common(factor) => self.game.factor_score(draws, factor),
            Cause::Source(source) => self.game.source_score(draws, source),
            Cause::Repeat(repeat) => self.game.fail_score(draws, repeat),
            Cause::Weather => {
                let until = last.min(self.policy.problem.now.saturating_add(400 * DAY));
                self.game
                    .weather_score(draws, self.policy.problem.now, until)
            }
        }
    }
}
