//! What the rules of a job are changed to: with a reason.

use super::Notes;
use crate::job::Job;

pub(super) fn check(job: &Job, notes: &mut Notes<'_, '_>) {
    let changed = job.rules.iter().flat_map(|rules| &rules.changed);
    for (key, change) in changed {
        if change.why.trim().is_empty() {
            notes.error(
                &["rules", "changed", key.as_str(), "why"],
                "a limit is changed without a reason",
                "write who allowed it, and why",
            );
        }
    }
}
