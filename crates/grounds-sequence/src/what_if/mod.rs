//! What if: what a thing would do to the plan, before it is a note.
//!
//! Where a note can say it, the note is folded in and everything is planned as it would be if the
//! note were entered: what is shown is what would happen. A trade that is away later on is shown by
//! the days that the job would close for it, and a test that is still to come by what follows its
//! failing. Nothing is stored or changed.

mod fails;
mod notes;
mod text;

use std::fmt;

use grounds_model::{Id, Job, Moment, Ref};
use grounds_schedule::Faulty;
use grounds_site::{Note, Site, fold};
use jiff::civil::Date;

use crate::{
    effect::{Effect, Side},
    held::HeldUp,
    network::{Network, NetworkError},
    outlook::{Effort, Outlook},
};

/// Something that might happen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WhatIf {
    /// A piece comes on another day.
    Arrives {
        /// The piece.
        piece: Id,
        /// When.
        on: Moment,
    },
    /// A decision is made on another day.
    Decided {
        /// The decision.
        decision: Id,
        /// When.
        on: Moment,
    },
    /// A piece, a decision or a booked test comes so many calendar days later than planned.
    Later {
        /// The piece, the decision or the hold.
        about: Id,
        /// How many days.
        days: u32,
    },
    /// A trade does not come.
    Away {
        /// The trade.
        trade: Id,
        /// Its first day away.
        from: Date,
        /// Its last day away.
        to: Date,
    },
    /// A test or an inspection fails: now where it can be tried now, else when it is tried.
    Fails {
        /// The hold.
        hold: Id,
    },
    /// A piece or a finished layer is damaged now, and must come or be done again.
    Damaged {
        /// The piece or the layer.
        about: Ref,
    },
}

/// Something supposed, with all that it would do.
#[derive(Clone, Debug)]
pub struct Supposed {
    /// What is supposed.
    pub what: WhatIf,
    /// The note that would say so, where a note can. Its id is a stand-in: give it a new one when it
    /// is entered.
    pub notes: Vec<Note>,
    /// What would be written in the job, where no note can say it.
    pub lines: Vec<String>,
    /// What it does to the milestones, the money and the next ten working days.
    pub effect: Effect,
    /// Everything as it would stand then.
    pub outlook: Outlook,
}

/// Why something cannot be supposed: what is wrong, and what to write instead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WhatIfError {
    /// The byte of the text at which the fault begins, where it was read from a text.
    pub at: Option<usize>,
    /// What is wrong.
    pub what: String,
    /// How to mend it.
    pub mend: String,
}

impl WhatIfError {
    fn new(what: impl Into<String>, mend: impl Into<String>) -> Self {
        Self {
            at: None,
            what: what.into(),
            mend: mend.into(),
        }
    }
}

impl fmt::Display for WhatIfError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}; {}", self.what, self.mend)
    }
}

impl std::error::Error for WhatIfError {}

impl From<Faulty> for WhatIfError {
    fn from(faulty: Faulty) -> Self {
        Self::new(faulty.to_string(), "check the job")
    }
}

impl From<NetworkError> for WhatIfError {
    fn from(error: NetworkError) -> Self {
        Self::new(error.to_string(), "check the job")
    }
}

/// What would be different: notes, a job, or a network that no note can bring about.
enum Different {
    Notes(Vec<Note>),
    Job(Box<Job>, Vec<String>),
    Network(Box<Network>),
}

/// What must be settled before work goes on, of a job as it would stand.
pub type Judge<'a> = &'a dyn Fn(&Job, &Site) -> Vec<HeldUp>;

/// Plans as if something had happened. `notes` are those that the outlook was made from; its order
/// of work is kept where it can be. `judge` says anew what is held up.
///
/// # Errors
/// Where it makes no sense: an unknown key, a day that is past, a test that has passed.
pub fn what_if(
    job: &Job,
    notes: &[Note],
    outlook: &Outlook,
    what: &WhatIf,
    judge: Judge<'_>,
    effort: Effort,
) -> Result<Supposed, WhatIfError> {
    let now = outlook.network.now;
    let mut new_notes = Vec::new();
    let mut lines = Vec::new();
    let network = match notes::different(job, notes, outlook, what)? {
        Different::Notes(new) => {
            let all: Vec<Note> = notes.iter().chain(&new).cloned().collect();
            new_notes = new;
            let site = fold(job, &all, now);
            Network::build(job, &site, &judge(job, &site))?
        }
        Different::Job(other, said) => {
            lines = said;
            let site = fold(&other, notes, now);
            Network::build(&other, &site, &judge(&other, &site))?
        }
        Different::Network(network) => *network,
    };
    let after = planned(network, outlook, effort)?;
    Ok(Supposed {
        what: what.clone(),
        notes: new_notes,
        lines,
        effect: Effect::between(job, Side::of(outlook), Side::of(&after)),
        outlook: after,
    })
}

/// So many times as many plans are tried where the known order breaks something.
const BROKEN_HARDER: u32 = 4;

/// The plan in the known order of work; another only where that one breaks more than the plan as it
/// stands or ends later. What a search happens to find besides is no effect of what is supposed.
fn planned(network: Network, before: &Outlook, effort: Effort) -> Result<Outlook, Faulty> {
    let known = before.known();
    let as_known = Effort {
        schedules: 1,
        ..effort
    };
    let kept = Outlook::plan(network.clone(), as_known, Some(&known))?;
    let key = |outlook: &Outlook| (outlook.breaches.len(), outlook.finish());
    let stands = kept.breaches.len() <= before.breaches.len() && kept.finish() <= before.finish();
    if stands {
        return Ok(kept);
    }
    let harder = match kept.breaches.len() > before.breaches.len() {
        true => effort.schedules.saturating_mul(BROKEN_HARDER),
        false => effort.schedules,
    };
    let effort = Effort {
        schedules: harder,
        ..effort
    };
    let other = Outlook::plan(network, effort, Some(&known))?;
    Ok(if key(&other) < key(&kept) {
        other
    } else {
        kept
    })
}
