//! Looking for ways to win time back: begun by a button, worked out beside the pages.

use std::sync::Arc;

use grounds_model::Id;
use grounds_sequence::options::{Aim, Progress, Terms, WinBack, win_back};
use tokio::task::spawn_blocking;

use crate::{desk::Desk, picture::Picture};

/// How far looking for ways has got, for one date.
#[derive(Clone, Debug)]
pub(crate) enum Ways {
    /// So many of so many were tried.
    Trying(Progress),
    /// What was found, and for which plan.
    Found(Arc<Found>),
    /// Why nothing can be found.
    None(String),
}

/// Ways to win time back, with the plan that they are for.
#[derive(Debug)]
pub(crate) struct Found {
    /// The plan that they are for.
    pub(crate) picture: Arc<Picture>,
    /// The ways.
    pub(crate) win: WinBack,
}

/// The date that an address or a form names; nothing for a milestone that the job does not have.
pub(crate) fn aim(picture: &Picture, named: &str) -> Option<Aim> {
    if named.is_empty() {
        return Some(Aim::LastFinish);
    }
    let milestones = &picture.job.milestones;
    let (id, _) = milestones.get_key_value(named)?;
    Some(Aim::Milestone(id.clone()))
}

/// How an address names a date.
pub(crate) fn name(aim: &Aim) -> &str {
    aim.milestone().map_or("", Id::as_str)
}

/// Begins to look for ways, unless that is under way.
pub(crate) fn begin(desk: &Arc<Desk>, aim: Aim) {
    let key = name(&aim).to_owned();
    if !desk.begin_ways(&key) {
        return;
    }
    let desk = desk.clone();
    spawn_blocking(move || {
        let picture = desk.picture();
        let told = |progress| desk.tell_ways(&key, Ways::Trying(progress));
        let terms = Terms::default();
        let (job, site, outlook) = (&picture.job, &picture.site, &picture.outlook);
        let ways = match win_back(job, site, outlook, &aim, &terms, &told) {
            Ok(win) => Ways::Found(Arc::new(Found {
                picture: picture.clone(),
                win,
            })),
            Err(error) => Ways::None(error.to_string()),
        };
        desk.tell_ways(&key, ways);
    });
}
