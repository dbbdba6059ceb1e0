//! Build-ups: what a stack of layers must say about itself.

use std::collections::BTreeSet;

use grounds_measure::{QuantityKind, Span};

use super::{Notes, chances, hours, step, trades};
use crate::{
    build_up::{BuildUp, Layer},
    id::Selector,
    job::Job,
    material::Material,
    nearest::mend_by_name,
    place::FaceKind,
    refs::LayerChoice,
};

/// Checks the job's own build-ups.
pub(super) fn check_own(job: &Job, notes: &mut Notes<'_, '_>) {
    let used: BTreeSet<&str> = job
        .places
        .values()
        .flat_map(|place| place.faces.values())
        .map(|face| face.build_up.as_str())
        .collect();
    let choosable = Choosable::of(job);
    for (key, build_up) in &job.build_ups {
        if notes.full() {
            return;
        }
        let path = ["build_ups", key.as_str()];
        check(build_up, &path, notes);
        if !used.contains(key.as_str()) {
            let mend = "give it to a face with build_up, or take it out";
            notes.advice(&path, "no face gets this build-up", mend);
        }
        for (at, layer) in build_up.layers.iter().enumerate() {
            let at = at.to_string();
            let layer_path = step(&path, &["layers", &at]);
            trades::known(
                job,
                layer.trade.as_str(),
                &step(&layer_path, &["trade"]),
                notes,
            );
            for (index, selector) in layer.after.iter().enumerate() {
                let path = step(&layer_path, &["after"]);
                let index = index.to_string();
                if !choosable.has(selector) {
                    no_choice(job, selector, &step(&path, &[&index]), notes);
                }
            }
        }
    }
}

/// Every choice of layers that chooses something in the house.
struct Choosable<'j>(BTreeSet<(Option<FaceKind>, &'j str)>);

impl<'j> Choosable<'j> {
    fn of(job: &'j Job) -> Self {
        let faces: BTreeSet<(FaceKind, &str)> = job
            .places
            .values()
            .flat_map(|place| place.faces.values())
            .map(|face| (face.kind, face.build_up.as_str()))
            .collect();
        let mut choosable = BTreeSet::new();
        for (kind, build_up) in faces {
            let build_up = job.build_up_named(build_up);
            for layer in build_up.map_or(&[][..], |build_up| build_up.layers.as_slice()) {
                let names = [
                    Some(layer.id.as_str()),
                    Some(layer.material.name()),
                    Some("*"),
                ];
                let wet = layer.wet.then_some("wet");
                let dusty = layer.dusty.then_some("dusty");
                for name in names.into_iter().chain([wet, dusty]).flatten() {
                    choosable.extend([(Some(kind), name), (None, name)]);
                }
            }
        }
        Self(choosable)
    }

    fn has(&self, selector: &Selector) -> bool {
        let Some((face, choice)) = selector.parts() else {
            return false;
        };
        let name = match choice {
            LayerChoice::All => "*",
            LayerChoice::Wet => "wet",
            LayerChoice::Dusty => "dusty",
            LayerChoice::Named(name, _) => name,
        };
        self.0.contains(&(face, name))
    }
}

/// Advises on a choice of layers that chooses nothing in the whole house.
fn no_choice(job: &Job, selector: &Selector, path: &[&str], notes: &mut Notes<'_, '_>) {
    let mend = match selector.parts() {
        Some((_, LayerChoice::Named(name, None))) => {
            let layers = job.build_ups.values().flat_map(|build_up| &build_up.layers);
            let mut known: Vec<&str> = layers.map(|layer| layer.id.as_str()).collect();
            known.extend(Material::ALL.map(Material::name));
            mend_by_name(
                name,
                known,
                "write the key of a layer or a material after the colon",
            )
        }
        _ => "take it out, or write the face and layer that are meant".to_owned(),
    };
    let what = format!("`{selector}` chooses no layer in any place, so nothing waits for it");
    notes.advice(path, what, mend);
}

/// Checks one build-up by itself.
pub(super) fn check(build_up: &BuildUp, path: &[&str], notes: &mut Notes<'_, '_>) {
    if build_up.layers.is_empty() {
        let mend = "write at least one layer, under a [[….layers]] heading";
        notes.error(
            &step(path, &["layers"]),
            "this build-up has no layers",
            mend,
        );
    }
    let mut seen: BTreeSet<&str> = BTreeSet::new();
    let last = build_up.layers.len().saturating_sub(1);
    for (index, layer) in build_up.layers.iter().enumerate() {
        let at = index.to_string();
        let path = step(path, &["layers", &at]);
        if !seen.insert(layer.id.as_str()) {
            let what = format!("two layers of this build-up have the key `{}`", layer.id);
            let mend = format!("give each its own key, like `{}-2`", layer.id);
            notes.error(&step(&path, &["id"]), what, mend);
        }
        check_layer(layer, &path, notes);
        if index == last && layer.latest_recoat.is_some() {
            let what = "a latest recoat is set, but no layer follows";
            notes.advice(
                &step(&path, &["latest_recoat"]),
                what,
                "add the coat that must follow, or take it out",
            );
        }
    }
}

fn check_layer(layer: &Layer, path: &[&str], notes: &mut Notes<'_, '_>) {
    check_work(layer, path, notes);
    hours::check_layer(layer, path, notes);
    check_waits(layer, path, notes);
    if layer.people == Some(0) {
        notes.error(
            &step(path, &["people"]),
            "nobody would do this layer",
            "write people = 1 or more, or leave it out",
        );
    }
    chances::check_spread(layer.spread, &step(path, &["spread"]), notes);
    if layer.unbroken
        && layer
            .takes
            .is_some_and(|takes| matches!(takes, Span::WorkingDays(days) if days > 1))
    {
        let what = "this layer must not stop overnight, yet takes more than one working day";
        notes.error(
            &step(path, &["takes"]),
            what,
            "shorten it, or leave `unbroken` out",
        );
    }
}

fn check_work(layer: &Layer, path: &[&str], notes: &mut Notes<'_, '_>) {
    match (&layer.rate, &layer.takes) {
        (Some(_), Some(_)) => {
            let what = "this layer has both a rate and a fixed time";
            notes.error(
                &step(path, &["takes"]),
                what,
                "keep `rate` or `takes`, not both",
            );
        }
        (None, None) => {
            let what = format!("nothing says how long the layer `{}` takes", layer.id);
            let mend = "add rate = \"6 m2/h\" (of one crew) or takes = \"4 h\"";
            notes.error(path, what, mend);
        }
        (Some(rate), None) if rate.kind() == QuantityKind::Count => {
            let what = "this rate counts pieces, but a face has an area and a length";
            notes.error(
                &step(path, &["rate"]),
                what,
                "write a rate like 6 m2/h or 12 m/h, or takes = \"4 h\"",
            );
        }
        (None, Some(takes)) if takes.is_zero() => {
            notes.error(
                &step(path, &["takes"]),
                "this layer takes no time",
                "write the time it takes, like 15 min",
            );
        }
        _ => {}
    }
}

fn check_waits(layer: &Layer, path: &[&str], notes: &mut Notes<'_, '_>) {
    if let Some(least) = layer.dries.and_then(|dries| dries.least)
        && !(1..=10_000).contains(&least.hundredths())
    {
        notes.error(
            &step(path, &["dries", "least"]),
            format!("the least share of a wait cannot be {least}"),
            "write a share above 0 % and up to 100 %, like 70 %",
        );
    }
    if layer.dries.is_some() && layer.recoat.or(layer.cover).or(layer.cure).is_none() {
        notes.advice(
            &step(path, &["dries"]),
            "it says what air it dries in, but nothing waits for it",
            "write recoat, cover or cure, like cover = \"24 h\"",
        );
    }
    if let Some(latest) = layer.latest_recoat {
        let waits = [("recoat", layer.recoat), ("cover", layer.cover)];
        for (name, wait) in waits {
            // Spans of different kinds of time cannot be compared without a calendar.
            if let Some(wait) = wait.filter(|wait| latest < *wait) {
                let what = format!(
                    "the next coat must follow within {latest}, but `{name}` lets it begin only after {wait}"
                );
                let mend = format!("write a latest_recoat of {wait} or more, or a shorter {name}");
                notes.error(&step(path, &["latest_recoat"]), what, mend);
                break;
            }
        }
    }
    if let (Some(cover), Some(cure)) = (layer.cover, layer.cure)
        && cure < cover
    {
        let what = format!("full cure in {cure} is sooner than covering after {cover}");
        notes.advice(&step(path, &["cure"]), what, "check the two times");
    }
    let Some(traffic) = layer.traffic else { return };
    let steps = [
        ("socks", traffic.socks),
        ("boots", traffic.boots),
        ("heavy", traffic.heavy),
    ];
    let stated: Vec<(&str, Span)> = steps
        .into_iter()
        .filter_map(|(name, span)| Some((name, span?)))
        .collect();
    for pair in stated.windows(2) {
        let [(lighter, first), (heavier, second)] = pair else {
            continue;
        };
        if second < first {
            let what =
                format!("{heavier} may cross after {second}, sooner than {lighter} after {first}");
            notes.advice(
                &step(path, &["traffic", heavier]),
                what,
                "check the two times",
            );
        }
    }
}
