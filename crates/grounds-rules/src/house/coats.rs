//! Coats that are next, and coats that dry.

use grounds_model::{Layer, Target, Work};
use grounds_site::Subject;

use super::{House, Stack, climate};
use crate::{
    given::Given,
    quantity::{Quantity, Ratio, Time, of_celsius},
    rules::coats::{coat_air, recoat},
};

pub(super) fn apply(house: &mut House<'_>) {
    for stack in house.faces() {
        // The layer that is next: the first that is not done after the last that is.
        let done = |layer: &&Layer| house.done(&Work::Layer(stack.key(layer)));
        let Some(last) = stack.layers.iter().rposition(|layer| done(&layer)) else {
            continue;
        };
        let Some(next) = stack.layers.get(last + 1) else {
            continue;
        };
        coat(house, stack, next);
        if let Some(last) = stack.layers.get(last) {
            drying(house, stack, last, next);
        }
    }
}

/// Whether the air is right for the layer that is next: as it is expected when the plan begins it, or
/// now where there is no plan.
fn coat<'a>(house: &mut House<'a>, stack: Stack<'a>, next: &Layer) {
    if next.temperature.is_none() && next.humidity.is_none() {
        return;
    }
    let key = stack.key(next);
    let at = house.told.begins(&key).unwrap_or(house.site.at);
    let mut given = Given::new();
    climate::put_air_at(house, stack.place_key, at, &mut given);
    if !given.has("air-temperature") && !given.has("air-humidity") {
        // Air that nobody has spoken of is taken to be right, as in the plan.
        return;
    }
    let from = "the layer's own limits";
    if let Some(limits) = next.temperature {
        if let Some(low) = limits.low() {
            given.set(&coat_air::COLD, of_celsius(low.celsius()), from);
        }
        if let Some(high) = limits.high() {
            given.set(&coat_air::HOT, of_celsius(high.celsius()), from);
        }
    }
    if let Some(limits) = next.humidity {
        if let Some(low) = limits.low() {
            given.set(&coat_air::DRY, Ratio::of_base(low.percent() / 100.0), from);
        }
        if let Some(high) = limits.high() {
            given.set(
                &coat_air::DAMP,
                Ratio::of_base(high.percent() / 100.0),
                from,
            );
        }
    }
    let holds = vec![Work::Layer(key.clone())];
    house.apply(
        &coat_air::RULE,
        Target::Layer(key),
        Some(stack.place_key),
        given,
        holds,
    );
}

/// Whether the last coat has dried long enough in this air for the next one.
fn drying<'a>(house: &mut House<'a>, stack: Stack<'a>, last: &Layer, next: &Layer) {
    // Coats that set by reaction go by the temperature alone, which the rule before this looks at.
    let Some(dries) = last.dries() else {
        return;
    };
    let wait = if last.material == next.material {
        last.recoat.or(last.cover)
    } else {
        last.cover
    };
    let (Some(wait), true) = (
        wait.and_then(|wait| wait.minutes()),
        last.wet || last.recoat.is_some(),
    ) else {
        return;
    };
    let key = stack.key(next);
    let begins = house.told.begins(&key).unwrap_or(house.site.at);
    let mut given = Given::new();
    climate::put_air_at(house, stack.place_key, begins, &mut given);
    if !(given.has("air-temperature") && given.has("air-humidity")) {
        return;
    }
    given.set(
        &recoat::SHEET,
        Time::of_base(f64::from(wait) * 60.0),
        "the wait of the layer",
    );
    if let Some(latest) = last.latest_recoat.and_then(|latest| latest.minutes()) {
        given.set(
            &recoat::LATEST,
            Time::of_base(f64::from(latest) * 60.0),
            "the latest recoat of the layer",
        );
    }
    let state = house.site.state(&Subject::Layer(stack.key(last)));
    if let Some(done) = state.done {
        let until = begins.max(house.site.at);
        let planned = begins > house.site.at;
        let waited = until.duration_since(done.at).as_secs_f64();
        let from = if planned {
            "from its finish to when the plan begins the next"
        } else {
            "since it was finished, by the log"
        };
        given.set(&recoat::WAITED, Time::of_base(waited), from);
        let airs = climate::Airs::of(house, stack.place_key);
        if let Some(dried) = airs.dried(dries, done.at, until) {
            let from = "the air of each hour, as it was and as it is expected";
            given.set(&recoat::DRIED, Time::of_base(dried), from);
        }
    }
    let holds = vec![Work::Layer(key.clone())];
    house.apply(
        &recoat::RULE,
        Target::Layer(stack.key(last)),
        Some(stack.place_key),
        given,
        holds,
    );
}
