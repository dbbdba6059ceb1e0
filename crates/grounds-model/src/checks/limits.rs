//! How large a job may be before checking and planning it would take unreasonably long.

use super::Notes;
use crate::job::Job;

/// The most layers on all faces of one place. A large hall has about a hundred.
const IN_A_PLACE: usize = 2_000;
/// The most layers on all faces of a job. A large house has a few thousand.
const IN_A_JOB: usize = 50_000;

/// Whether the job is of a size that can be checked further; notes it if not.
pub(super) fn check(job: &Job, notes: &mut Notes<'_, '_>) -> bool {
    let mut all = 0_usize;
    for (key, place) in &job.places {
        let build_ups = place.faces.values().filter_map(|face| job.build_up(face));
        let here: usize = build_ups.map(|build_up| build_up.layers.len()).sum();
        all = all.saturating_add(here);
        if here > IN_A_PLACE {
            let what = format!("this place has {here} layers; at most {IN_A_PLACE} are planned");
            let mend = "split the place, or put alike faces together";
            notes.error_at_key(&["places", key.as_str()], what, mend);
            return false;
        }
    }
    if all > IN_A_JOB {
        let what = format!("this job has {all} layers; at most {IN_A_JOB} are planned");
        notes.error_at_key(&["places"], what, "split the job by house or by wing");
        return false;
    }
    true
}
