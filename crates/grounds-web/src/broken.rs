//! The work that breaches are about.

use std::collections::BTreeSet;

use grounds_schedule::{ActivityId, Breach};
use grounds_sequence::Outlook;

/// The work that a plan could not place without breaking a rule.
pub(crate) fn broken(outlook: &Outlook) -> BTreeSet<ActivityId> {
    let problem = &outlook.network.problem;
    let mut met = BTreeSet::new();
    for breach in &outlook.breaches {
        match breach {
            Breach::Shape => {}
            Breach::TooSoon(lag) | Breach::TooLate(lag) => {
                met.extend(problem.lags.get(lag.index()).map(|lag| lag.to));
            }
            Breach::Overused { users, .. } => met.extend(users),
            Breach::CutOff { activity, .. } => {
                met.insert(*activity);
            }
            Breach::Dust { dusty, .. } => {
                met.insert(*dusty);
            }
            Breach::Date(date) => {
                met.extend(problem.dates.get(date.index()).map(|date| date.activity));
            }
            Breach::Hours(id)
            | Breach::Broken(id)
            | Breach::Fact(id)
            | Breach::Past(id)
            | Breach::Horizon(id) => {
                met.insert(*id);
            }
        }
    }
    met
}
