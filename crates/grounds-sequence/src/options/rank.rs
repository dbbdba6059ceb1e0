//! Which options come first, and which are not worth showing.

use std::cmp::Ordering;

use super::{
    Offer,
    means::Means,
    offer,
    trial::{Ground, Trial},
};

/// At most so many options are shown of one thing done.
const MOST_SINGLES: usize = 12;

/// At most so many pairs are shown.
const MOST_PAIRS: usize = 5;

/// The cheapest day first, then the most days, then by what is done.
fn by_cost_per_day(a: &Offer, b: &Offer) -> Ordering {
    let share =
        |offer: &Offer, of: &Offer| i128::from(offer.net_cents()) * i128::from(of.won.max(1));
    share(a, b)
        .cmp(&share(b, a))
        .then(b.won.cmp(&a.won))
        .then_with(|| a.means.len().cmp(&b.means.len()))
}

/// The best trials, by cost of a day, in their strongest form.
pub(crate) fn best_trials<'t>(
    ground: &Ground<'_>,
    trials: &'t [Trial],
    most: usize,
) -> Vec<&'t Trial> {
    let mut priced: Vec<(Offer, &Trial)> = trials
        .iter()
        .map(|trial| (offer(ground, trial), trial))
        .collect();
    priced.sort_by(|a, b| by_cost_per_day(&a.0, &b.0));
    priced
        .into_iter()
        .take(most)
        .map(|(_, trial)| trial)
        .collect()
}

/// The options of one thing done, in order, without those that another one beats.
pub(crate) fn singles(mut offers: Vec<Offer>) -> Vec<Offer> {
    offers.sort_by(by_cost_per_day);
    let mut kept: Vec<Offer> = Vec::new();
    for offer in offers {
        if !kept.iter().any(|better| is_beaten(&offer, better)) {
            kept.push(offer);
        }
    }
    kept.truncate(MOST_SINGLES);
    kept
}

/// Asks the same trade for less gain at no less money.
fn is_beaten(offer: &Offer, better: &Offer) -> bool {
    let trade = |offer: &Offer| offer.means.first().and_then(Means::trade).cloned();
    let same = trade(offer).is_some() && trade(offer) == trade(better);
    same && better.won >= offer.won && better.net_cents() <= offer.net_cents()
}

/// Pairs in order, without those that one thing done, or another pair, beats in days and money.
pub(crate) fn pairs(mut offers: Vec<Offer>, singles: &[Offer]) -> Vec<Offer> {
    offers.sort_by(by_cost_per_day);
    let beats = |better: &Offer, offer: &Offer| {
        better.won >= offer.won && better.net_cents() <= offer.net_cents()
    };
    let mut kept: Vec<Offer> = Vec::new();
    for offer in offers {
        let beaten = singles.iter().chain(&kept).any(|one| beats(one, &offer));
        if !beaten {
            kept.retain(|one| !beats(&offer, one));
            kept.push(offer);
        }
    }
    kept.truncate(MOST_PAIRS);
    kept
}
