//! One run by itself: for checking runs with the independent proof.

use super::draw::Draws;
use super::game::Game;
use super::policy::{EACH, Policy};
use super::run::Run;
use super::uncertain::{Amount, Uncertainty};
use crate::calendar::{Calendar, Shift};
use crate::plan::Plan;
use crate::problem::{ActivityId, CalendarId, Clock, End, Fact, Lag, LagId, Problem, Tick};

/// One run as a plan of its own problem: the problem with this run's work, waits, dates, fails and
/// weather, which [`verify`](crate::verify()) can judge.
#[derive(Clone, Debug)]
pub struct Single {
    /// The problem as this run's luck has it.
    pub problem: Problem,
    /// When everything happened.
    pub plan: Plan,
    /// Longest waits that could not be met in this run and were given up.
    pub given_up: Vec<LagId>,
}

impl Single {
    /// Run number `run` of a seed: the same that [`forecast`](super::forecast) counts.
    #[must_use]
    pub fn of(policy: &Policy, uncertainty: &Uncertainty, seed: u64, run: u32) -> Self {
        let game = Game::new(policy, uncertainty, seed);
        let mut memory = Run::new(policy, &game);
        memory.draw(&game, run);
        memory.play(policy, &game);
        let mut problem = policy.problem.clone();
        for &(amount, _) in uncertainty.sources.iter().flat_map(|s| &s.effects) {
            set(policy, &memory, &mut problem, amount);
        }
        for repeat in &uncertainty.repeats {
            wait_for_pass(policy, &memory, &mut problem, repeat.activity);
        }
        take_lost_shifts(policy, &game, memory.draws(), &mut problem);
        let given_up = memory.given_up(policy).map(LagId).collect();
        Self {
            plan: memory.plan(policy),
            problem,
            given_up,
        }
    }
}

/// Writes a drawn amount into the problem.
fn set(policy: &Policy, run: &Run, problem: &mut Problem, amount: Amount) {
    match amount {
        Amount::Work(id) => {
            let Some(activity) = problem.activities.get_mut(id.index()) else {
                return;
            };
            let work = run.work[policy.order.position[id.index()]];
            match &mut activity.fact {
                Fact::Open => activity.work = work,
                Fact::Begun { left, .. } => *left = work,
                Fact::Done { .. } => {}
            }
        }
        Amount::Wait(id) => {
            if let Some(lag) = problem.lags.get_mut(id.index()) {
                lag.min = lag.min.map(|_| run.amounts[id.index()]);
            }
        }
        Amount::Date(id) => {
            if let Some(date) = problem.dates.get_mut(id.index()) {
                date.at = run.moments[policy.first_date + id.index()];
            }
        }
    }
}

/// What waits for the finish of something that failed waits until it has passed.
fn wait_for_pass(policy: &Policy, run: &Run, problem: &mut Problem, id: ActivityId) {
    let Some(&p) = policy.order.position.get(id.index()) else {
        return;
    };
    let late = run.release(p) - run.moments[EACH * p + super::policy::FINISHES];
    if late <= 0 {
        return;
    }
    let mut more = Vec::new();
    for lag in &mut problem.lags {
        if lag.from != id || lag.from_end == End::Start {
            continue;
        }
        if lag.clock == Clock::Elapsed {
            lag.min = lag.min.map(|min| min + late);
        } else if lag.min.is_some() {
            more.push(Lag {
                min: Some(late),
                max: None,
                clock: Clock::Elapsed,
                ..*lag
            });
        }
        lag.max = None;
    }
    problem.lags.extend(more);
}

/// Gives outdoor work calendars without the shifts that weather took.
fn take_lost_shifts(policy: &Policy, game: &Game, draws: Draws, problem: &mut Problem) {
    if game.outdoors.is_empty() {
        return;
    }
    let lost: Vec<(Tick, Tick)> = game.lost(draws).map(|s| (s.from, s.until)).collect();
    let mut dry: Vec<Option<CalendarId>> = vec![None; problem.calendars.len()];
    for p in policy.order.begun..policy.order.played {
        let activity = &mut problem.activities[policy.order.ids[p]];
        let Some(id) = activity.calendar.filter(|_| game.outdoors[p]) else {
            continue;
        };
        let known = dry[id.index()];
        let made = known.unwrap_or_else(|| {
            let calendar = without(&problem.calendars[id.index()], &lost);
            problem.calendars.push(calendar);
            CalendarId::from(problem.calendars.len() - 1)
        });
        dry[id.index()] = Some(made);
        activity.calendar = Some(made);
    }
}

fn without(calendar: &Calendar, lost: &[(Tick, Tick)]) -> Calendar {
    let is_lost = |shift: &&Shift| {
        let begins = shift.stretches.first().map_or(0, |first| first.0);
        lost.iter().any(|l| l.0 <= begins && begins < l.1)
    };
    let kept = calendar.shifts().iter().filter(|s| !is_lost(s));
    Calendar::new(kept.cloned().collect())
}
