//! Tests and inspections that nobody saw pass, though work has gone over what they guard.

use grounds_model::{Id, Job, Ref};

use crate::{
    house,
    state::{Site, Subject},
};

/// A hold without a pass whose time has gone by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unproven {
    /// The hold.
    pub hold: Id,
    /// What it looks at, as far as that is there.
    pub guards: Vec<Subject>,
    /// What has gone over it already; empty where all that it looks at was presumed.
    pub covered_by: Vec<Subject>,
}

/// The holds of a job that are unproven: never noted as passed, and either work that waits for them
/// has begun, or something that they look at is there only because it is presumed. By key.
///
/// What somebody decided to let go stands among them: it is as little proved as before.
#[must_use]
pub fn unproven(job: &Job, site: &Site) -> Vec<Unproven> {
    let mut found = Vec::new();
    for (id, hold) in &job.holds {
        if site.state(&Subject::Hold(id.clone())).done.is_some() {
            continue;
        }
        let guards = there(job, site, &hold.after);
        let covered_by = there(job, site, &hold.before);
        let is_presumed = |subject: &Subject| site.state(subject).presumed.is_some();
        if covered_by.is_empty() && !guards.iter().any(is_presumed) {
            continue;
        }
        found.push(Unproven {
            hold: id.clone(),
            guards,
            covered_by,
        });
    }
    found
}

/// The work that references point at, as far as it is begun or presumed.
fn there(job: &Job, site: &Site, about: &[Ref]) -> Vec<Subject> {
    let works = about.iter().flat_map(|about| house::works(job, about));
    let mut there: Vec<Subject> = works
        .filter(|subject| {
            let state = site.state(subject);
            let begun = state.done.or(state.started).or(state.presumed);
            begun.is_some() && !matches!(subject, Subject::Hold(_) | Subject::Decision(_))
        })
        .collect();
    there.sort();
    there.dedup();
    there
}
