//! Two things done together: what the one leaves in the way, the other may clear.

use super::{
    candidates::candidates,
    chain::Chain,
    means::Means,
    rank, reasons_of,
    trial::{Ground, Trial},
};

/// At most so many pairs are tried.
pub(crate) const MOST_TRIED: usize = 48;

/// So many of the best are paired with each other.
const BEST: usize = 8;

/// So many of those that win most are followed to what drives the aim once they are done.
const FOLLOWED: usize = 3;

/// Pairs that could win more than their parts: the best with each other, and those that win most
/// with whatever drives the aim then.
pub(crate) fn to_try(ground: &Ground<'_>, singles: &[Trial]) -> Vec<Vec<Means>> {
    let best = rank::best_trials(ground, singles, BEST);
    let mut pairs: Vec<Vec<Means>> = Vec::new();
    let mut most: Vec<&Trial> = best.clone();
    most.sort_by_key(|trial| std::cmp::Reverse(trial.won));
    for trial in most.iter().take(FOLLOWED) {
        for next in then_in_the_way(ground, trial) {
            add(&mut pairs, &trial.means[0], &next);
        }
    }
    for (at, first) in best.iter().enumerate() {
        for second in &best[at + 1..] {
            add(&mut pairs, &first.means[0], &second.means[0]);
        }
    }
    pairs.truncate(MOST_TRIED);
    pairs
}

/// What drives the aim once some means are taken.
fn then_in_the_way(ground: &Ground<'_>, trial: &Trial) -> Vec<Means> {
    if trial.means == [Means::Order] {
        return Vec::new();
    }
    let reasons = reasons_of(trial);
    let mut network = trial.network(ground).clone();
    network.problem = trial.problem.clone();
    let chain = Chain::of(&network, trial.plan(), &reasons, ground.aim);
    candidates(ground.job, ground.site, &chain)
}

fn add(pairs: &mut Vec<Vec<Means>>, first: &Means, second: &Means) {
    let known = pairs.iter().any(|pair| {
        let has = |means: &Means| pair.iter().any(|one| one.is_like(means));
        has(first) && has(second)
    });
    if go_together(first, second) && !known {
        pairs.push(vec![first.clone(), second.clone()]);
    }
}

/// One trade is not asked for two things at once, and nothing is asked for twice.
fn go_together(first: &Means, second: &Means) -> bool {
    match (first, second) {
        (Means::Sooner(a), Means::Sooner(b)) => a.what != b.what,
        (Means::Boards(a), Means::Boards(b)) => a.place != b.place,
        (Means::Split(a), Means::Split(b)) => a.place != b.place,
        (Means::Order, Means::Order) => false,
        _ => first.trade().is_none() || first.trade() != second.trade(),
    }
}

/// Pairs that win more than either part alone.
pub(crate) fn worth_both(pairs: Vec<Trial>, singles: &[Trial]) -> Vec<Trial> {
    let alone = |means: &Means| {
        singles
            .iter()
            .filter(|single| single.means[0] == *means)
            .map(|single| single.won)
            .max()
            .unwrap_or(0)
    };
    pairs
        .into_iter()
        .filter(|pair| pair.means.iter().all(|means| pair.won > alone(means)))
        .collect()
}
