//! What the plan and the fits of a house tell its rules.

use std::collections::BTreeMap;

use grounds_lines::{answers::Answer, lines::NeedKind};
use grounds_model::{Job, Target};
use grounds_rules::house::{Figured, Told};
use grounds_sequence::{Outlook, TaskState, Work};

/// What a plan and the fits of a house tell.
pub(super) fn told(job: &Job, outlook: &Outlook, fits: &[Answer]) -> Told {
    let network = &outlook.network;
    let mut begins = BTreeMap::new();
    for (task, &start) in network.tasks.iter().zip(&outlook.plan.starts) {
        if let (Work::Layer(keys), TaskState::ToCome) = (&task.work, task.state) {
            let at = network.clock.timestamp(start);
            begins.extend(keys.iter().map(|key| (key.clone(), at)));
        }
    }
    Told {
        begins,
        figures: rises(job, fits),
    }
}

/// The greatest and the smallest rise of every flight, where its first and its last are known.
pub(crate) fn rises(job: &Job, fits: &[Answer]) -> Vec<Figured> {
    let flights = job
        .places
        .iter()
        .filter_map(|(id, place)| Some((id, place.flight.as_ref()?)));
    flights
        .flat_map(|(id, flight)| {
            let own = fits.iter().filter(|answer| {
                answer.kind == NeedKind::Rise && answer.about.as_str() == id.as_str()
            });
            let ends: Vec<f64> = own
                .filter_map(|answer| Some(answer.figures?.mean))
                .collect();
            let all = || ends.iter().copied().chain([flight.rise.mm()]);
            let greatest = all().fold(f64::MIN, f64::max);
            let smallest = all().fold(f64::MAX, f64::min);
            let figures = [("riser-greatest", greatest), ("riser-smallest", smallest)];
            // One end that nobody knows may be the odd one.
            let known = ends.len() == 2;
            figures
                .into_iter()
                .filter(move |_| known)
                .map(|(key, mm)| Figured {
                    about: Target::Place(id.clone()),
                    key,
                    base: mm / 1000.0,
                    from: "where Fit finds the rises, finishes and all".to_owned(),
                })
        })
        .collect()
}
