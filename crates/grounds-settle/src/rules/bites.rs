//! By when a rule must be settled: the plan says when what it would hold begins.

use grounds_measure::Span;
use grounds_model::{Id, Job};
use grounds_rules::house::Applied;
use grounds_schedule::{ActivityId, Tick};
use grounds_sequence::{Holds, Outlook, TaskState, Words};
use grounds_site::{Site, Subject};

use super::hold::holds_back;
use crate::work_of;

/// When a rule bites: until then there is time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bites {
    /// The work that it would hold, or the arrival of the piece whose order it would hold.
    pub id: ActivityId,
    /// When the plan has that work begin, or that order go out.
    pub at: Tick,
    /// It is an order.
    pub is_order: bool,
}

impl Bites {
    /// `By Thu 17 June: then comes skim, wheel room walls.` Of what is due today, and of what should have
    /// been settled before: `Now: then comes …`.
    #[must_use]
    pub fn words(&self, words: &Words<'_>) -> String {
        let now = words.outlook.network.now_tick();
        let what = match words.outlook.network.task(self.id) {
            Some(task) if self.is_order => {
                let piece = grounds_site::words::with_article(&task.name);
                format!("then the order of {piece} goes out")
            }
            _ => format!("then comes {}", words.mid(self.id)),
        };
        if self.at <= now {
            format!("Now: {what}.")
        } else {
            format!("By {}: {what}.", words.when(self.at))
        }
    }
}

/// When a rule that is not kept, or cannot be told, bites: the first of what it would hold. None where
/// nothing is left that it could hold.
#[must_use]
pub fn rule_bites(job: &Job, site: &Site, outlook: &Outlook, applied: &Applied) -> Option<Bites> {
    let all = applied.holds.iter();
    let held = all.flat_map(|work| holds_back(site, work));
    let bites = held.filter_map(|holds| match holds {
        Holds::Order(piece) => ordered(job, site, outlook, &piece),
        Holds::Work(work) => begins(outlook, work_of(&outlook.network, &work)?),
    });
    bites.min_by_key(|bites| (bites.at, bites.id))
}

fn begins(outlook: &Outlook, id: ActivityId) -> Option<Bites> {
    let task = outlook.network.task(id)?;
    let at = *outlook.plan.starts.get(id.index())?;
    (task.state == TaskState::ToCome).then_some(Bites {
        id,
        at,
        is_order: false,
    })
}

/// When a piece that is not ordered yet has to be, to come when the plan has it.
fn ordered(job: &Job, site: &Site, outlook: &Outlook, piece: &Id) -> Option<Bites> {
    let state = site.state(&Subject::Piece(piece.clone()));
    let lead = job.pieces.get(piece)?.lead?.likely();
    if state.ordered.is_some() && state.damaged.is_none() {
        return None;
    }
    let arrives = outlook.network.find(&format!("{piece}:arrive"))?;
    let arrival = begins(outlook, arrives)?;
    Some(Bites {
        at: arrival.at.saturating_sub(elapsed(lead)),
        is_order: true,
        ..arrival
    })
}

/// About how long a lead time takes by the clock: five working days make a week.
fn elapsed(lead: Span) -> Tick {
    let minutes = match lead {
        Span::Elapsed(minutes) | Span::Counted(minutes) | Span::Working(minutes) => minutes,
        Span::WorkingDays(days) => days.saturating_mul(7 * 24 * 60) / 5,
    };
    Tick::try_from(minutes / 15).unwrap_or(Tick::MAX / 8)
}
