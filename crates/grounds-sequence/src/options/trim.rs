//! Cutting means down to what wins as much: one Saturday fewer, a delivery a few days later.

use grounds_schedule::Tick;

use super::{
    Step,
    means::{ExtraHours, Means, Sooner},
    trial::{Ground, Trial},
};
use crate::hours;

/// The weakest form of every means that still wins the days that the strongest wins.
pub(crate) fn trim(ground: &Ground<'_>, mut trial: Trial) -> Trial {
    for index in 0..trial.means.len() {
        match trial.means[index].clone() {
            Means::Hours(extra) => trial = fewer_days(ground, trial, index, &extra),
            Means::Sooner(sooner) => trial = later(ground, trial, index, &sooner),
            Means::Crew(_) | Means::Boards(_) | Means::Split(_) | Means::Order => {}
        }
    }
    trial
}

/// Leaves out one day after another, the last first: the first days are in hand soonest.
fn fewer_days(ground: &Ground<'_>, mut trial: Trial, index: usize, extra: &ExtraHours) -> Trial {
    let mut kept = extra.clone();
    for at in (0..extra.days.len()).rev() {
        if kept.days.len() == 1 {
            break;
        }
        let mut fewer = kept.clone();
        fewer.days.remove(at);
        let other = with(ground, &trial, index, Means::Hours(fewer.clone()));
        if let Some(other) = other.filter(|other| other.won >= trial.won) {
            trial = other;
            kept = fewer;
        }
    }
    trial
}

/// At most so many days are tried for something that comes sooner.
const DAYS_TRIED: usize = 30;

/// The latest day on which it is still soon enough, and what later days win. Tried day by day from
/// the latest on, in strides where the days are many: what one day wins another need not (an
/// earlier start may push others later), so nothing is taken for granted between them.
fn later(ground: &Ground<'_>, trial: Trial, index: usize, sooner: &Sooner) -> Trial {
    let days = working_days(ground, sooner);
    let stride = days.len().div_ceil(DAYS_TRIED).max(1);
    let mut steps: Vec<Step> = Vec::new();
    for at in (1..days.len()).rev().step_by(stride) {
        let mut later = sooner.clone();
        later.by = days[at];
        later.lead = sooner.lead.map(|lead| lead + (later.by - sooner.by).max(0));
        let Some(other) = with(ground, &trial, index, Means::Sooner(later)) else {
            continue;
        };
        if other.won > steps.last().map_or(0, |step: &Step| step.won) {
            steps.push(Step {
                by: days[at],
                won: other.won,
            });
        }
        if other.won >= trial.won {
            return Trial { steps, ..other };
        }
    }
    steps.push(Step {
        by: sooner.by,
        won: trial.won,
    });
    Trial { steps, ..trial }
}

/// The days on which it could come that are sooner than as things stand, in order.
fn working_days(ground: &Ground<'_>, sooner: &Sooner) -> Vec<Tick> {
    let clock = &ground.outlook.network.clock;
    let Some(week) = ground.job.calendars.get(&ground.job.job.calendar) else {
        return vec![sooner.by];
    };
    let first = clock.day(sooner.by);
    let later = std::iter::successors(first.tomorrow().ok(), |day| day.tomorrow().ok())
        .filter(|day| !hours::hours_of(week, *day).is_empty())
        .map(|day| clock.midnight(day))
        .take_while(|at| *at < clock.midnight(clock.day(sooner.was)));
    std::iter::once(sooner.by).chain(later).collect()
}

fn with(ground: &Ground<'_>, trial: &Trial, index: usize, means: Means) -> Option<Trial> {
    let mut all = trial.means.clone();
    *all.get_mut(index)? = means;
    ground.again(trial, &all)
}
