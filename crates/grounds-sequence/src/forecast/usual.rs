//! What is taken where the job says nothing. All of it is common practice, not published: round
//! figures that a site lead would not be surprised by, to be replaced by the job's own.

use grounds_model::HoldKind;
use grounds_schedule::{DAY, Tick};

/// Work, as low and high share of the likely time in percent. A little more than the reckoned time
/// on average: work is late more often than early.
pub(super) const WORK: [u32; 2] = [80, 150];

/// How much of the luck of one piece of work is its trade's, 0 to 1: the correlation of any two of
/// its works. A crew that is slow in one room is slower in others, but rooms differ too.
pub const ALIKE: f64 = 0.3;

/// A date that a supplier promised slips by this share of what is left until then, where the lead
/// time of the piece says no more. It is never early.
pub(super) const PROMISE_SLIP: f64 = 0.25;
/// A promised date may slip by this at least.
pub(super) const LEAST_SLIP: Tick = 2 * DAY;

/// A delivery that is overdue may take this much longer than the next working day.
pub(super) const OVERDUE: Tick = 14 * DAY;

/// A decision that is expected on a day may take this much longer.
pub(super) const DECISION: Tick = 7 * DAY;
/// A decision that takes its usual time may take this many times as long.
pub(super) const DECISION_TIMES: f64 = 2.0;

/// Working days to put right what failed.
pub(super) const PUT_RIGHT_DAYS: Tick = 1;

/// The chance that a hold fails when it is tried.
pub(super) fn fails(kind: HoldKind) -> f64 {
    match kind {
        HoldKind::OwnCheck => 0.05,
        HoldKind::Test | HoldKind::Authority => 0.10,
    }
}
