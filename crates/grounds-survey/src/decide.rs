//! What somebody decides about what nobody saw: to look, or to let it go.

use grounds_model::{HoldKind, Job, LayerKey, Ref, Target};
use grounds_sequence::Sought;
use grounds_site::{Kind, Look, Site, Subject};

use crate::{mark::Said, unknowns::Unknown};

/// Why something cannot be decided so.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cannot {
    /// An authority asks for it.
    Authority,
    /// No reason was given.
    NoReason,
}

impl std::fmt::Display for Cannot {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Authority => {
                "An authority asks for this one, so nobody on site can let it go: ask the inspector what will do instead."
            }
            Self::NoReason => "Say why it can be let go, in a few words.",
        })
    }
}

/// The decision to look, and how. A test that a hold of the job is, is asked of the hold.
#[must_use]
pub fn look(unknown: &Unknown, how: Look) -> Vec<Said> {
    let hold = unknown.tests.first().filter(|_| how == Look::Test);
    let about = hold.map_or_else(
        || unknown.about.clone(),
        |hold| vec![Ref::from(hold.as_str())],
    );
    let say = |about: Ref| Said {
        value: Some(how.value()),
        ..Said::new(about, Kind::Decided).unseen()
    };
    about.into_iter().map(say).collect()
}

/// What somebody says who looked and did not find it: it is not there, and what lies over it on that
/// face comes off, so that it can be put in.
#[must_use]
pub fn not_there(job: &Job, site: &Site, sought: &Sought) -> Vec<Said> {
    let mut about: Vec<String> = Vec::new();
    let mut over: Vec<LayerKey> = Vec::new();
    match sought {
        Sought::Piece(id) => {
            about.push(id.to_string());
            let covers = job.pieces.get(id).into_iter().flat_map(|it| &it.before);
            over.extend(covers.filter_map(|cover| match job.resolve(cover)? {
                Target::Layer(key) => Some(key),
                _ => None,
            }));
        }
        Sought::Layer(keys) | Sought::Face(keys) => over.extend(keys.iter().cloned()),
    }
    for key in over {
        let keys = job.layers_of(&key.place, &key.face);
        let from = keys.iter().position(|other| *other == key).unwrap_or(0);
        let is_on = |key: &&LayerKey| {
            let state = site.state(&Subject::Layer((*key).clone()));
            state.done.or(state.started).or(state.presumed).is_some()
        };
        let off = keys.iter().skip(from).filter(is_on);
        about.extend(off.map(ToString::to_string));
    }
    let say = |about: String| Said::new(about, Kind::Undone).words("Looked: not there.");
    about.into_iter().map(say).collect()
}

/// The decision to go on without having seen it, with its reason. What only hangs on it (a test of
/// ours that was never passed) is let go with it.
///
/// # Errors
/// Without a reason, and where an authority asks for it.
pub fn let_go(job: &Job, unknown: &Unknown, reason: &str) -> Result<Vec<Said>, Cannot> {
    let reason = reason.trim();
    if reason.is_empty() {
        return Err(Cannot::NoReason);
    }
    let is_authority = |about: &Ref| match job.resolve(about) {
        Some(Target::Hold(id)) => job
            .holds
            .get(&id)
            .is_some_and(|hold| hold.kind == HoldKind::Authority),
        _ => false,
    };
    if unknown.about.iter().any(is_authority) {
        return Err(Cannot::Authority);
    }
    let tests = unknown.tests.iter().map(|id| Ref::from(id.as_str()));
    let about = unknown.about.iter().cloned().chain(tests);
    let say = |about: Ref| Said::new(about, Kind::Decided).unseen().words(reason);
    Ok(about
        .filter(|about| !is_authority(about))
        .map(say)
        .collect())
}
