//! What the forecast draws from: spreads that lie around the likely time, chances that leave hope.

use grounds_measure::Percent;

use super::{Notes, step};
use crate::{document::Path, job::Job};

/// The largest chance of a fail or of a lost day, in hundredths of a percent.
const MOST: u32 = 9_000;

pub(super) fn check(job: &Job, notes: &mut Notes<'_, '_>) {
    for (at, weather) in job.weather.iter().enumerate() {
        if notes.full() {
            return;
        }
        let at = at.to_string();
        let path = ["weather", at.as_str(), "lost"];
        check_share(weather.lost, "is lost", &step(&path, &[]), notes);
    }
}

/// A spread of work in percent of the likely time.
pub(super) fn check_spread(spread: Option<[u32; 2]>, path: &Path<'_>, notes: &mut Notes<'_, '_>) {
    if let Some([low, high]) = spread
        && !(1..=100).contains(&low) | !(100..=1000).contains(&high)
    {
        let what = format!("the spread [{low}, {high}] does not lie around the likely time");
        let mend = "write low and high in percent of it, low 1 to 100 and high 100 to 1000, like [80, 150]";
        notes.error(path, what, mend);
    }
}

/// A chance that leaves some hope.
pub(super) fn check_share(share: Percent, does: &str, path: &Path<'_>, notes: &mut Notes<'_, '_>) {
    if share.hundredths() > MOST {
        let what = format!("what {does} {share} of the time never gets done");
        notes.error(path, what, "write a share of at most 90 %, like \"10 %\"");
    }
}
