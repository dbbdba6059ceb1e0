//! When things happen, and in what ways that can break the problem.

use crate::problem::{ActivityId, DateId, LagId, NodeId, ResourceId, Tick, ZoneId};

/// A start and a finish for every activity, in the order of `Problem::activities`.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Plan {
    /// When each activity begins.
    pub starts: Vec<Tick>,
    /// When each activity ends: the end of its last worked tick.
    pub finishes: Vec<Tick>,
}

/// One way in which a plan breaks its problem.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Breach {
    /// The plan has no start or finish for an activity, or one too many.
    Shape,
    /// Less than the least waiting time has passed.
    TooSoon(LagId),
    /// More than the longest waiting time has passed.
    TooLate(LagId),
    /// More of a resource is in use than there is, from `at` on; `users` are all that use it then.
    Overused {
        /// What is overused.
        resource: ResourceId,
        /// The first moment.
        at: Tick,
        /// Everything that uses it at that moment.
        users: Vec<ActivityId>,
    },
    /// A place cannot be reached while somebody works there.
    CutOff {
        /// Whose work.
        activity: ActivityId,
        /// Where.
        node: NodeId,
        /// The first working moment without a way in.
        at: Tick,
        /// The activities whose closures bar the ways at that moment.
        by: Vec<ActivityId>,
    },
    /// Dust is made while a finish needs still air.
    Dust {
        /// What makes the dust.
        dusty: ActivityId,
        /// What needs still air.
        still: ActivityId,
        /// The air.
        zone: ZoneId,
        /// The first moment.
        at: Tick,
    },
    /// A date is not respected.
    Date(DateId),
    /// A start is not a working moment, or the finish does not follow from the start and the work.
    Hours(ActivityId),
    /// Work that must not stop overnight does.
    Broken(ActivityId),
    /// A known start or finish was changed.
    Fact(ActivityId),
    /// Something that is still open starts in the past.
    Past(ActivityId),
    /// A finish lies beyond the horizon.
    Horizon(ActivityId),
}
