//! What clashes when a problem cannot be obeyed: the smallest set of facts that do not go together.
//!
//! Two kinds of answers, marked by [`Clash::proved`]:
//!
//! - *Time.* Earliest starts are raised along the lags, on everybody's working hours, until a start
//!   passes what a date, a fact or the horizon allows, or until a circle of lags has driven it there.
//!   The chain that drove it is cut down: each part that can go while the rest still clashes
//!   goes. What is left is proved to clash and irreducible: without any one part it would not. (It
//!   need not be the set with the fewest parts.) Now, the horizon and the calendars are taken for
//!   granted.
//! - *Crews, rooms, ways and air.* When the plan breaks something that time alone would allow, the
//!   parts are read off the reasons of the plan, and a crew or room is kept if the break goes
//!   away in a plan with plenty of it. That is a good guess and no proof.

mod crowd;
mod time;

use crate::problem::{ActivityId, DateId, LagId, Problem, ResourceId};
use crate::search::compiled::Compiled;
use crate::search::fit::Fitter;
use crate::solve::{Faulty, Solved, check};

/// Which side of a lag.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Bound {
    /// The least wait.
    Min,
    /// The longest wait.
    Max,
}

/// One of the facts that do not go together.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ClashPart {
    /// A waiting time.
    Lag(LagId, Bound),
    /// A date.
    Date(DateId),
    /// How long the work takes, or the hours it is done in.
    Work(ActivityId),
    /// What is done or begun already.
    Fact(ActivityId),
    /// The place of this activity has no way in at all.
    NoWayIn(ActivityId),
    /// There is not enough of this.
    Resource(ResourceId),
    /// The closures of this activity.
    Closes(ActivityId),
    /// The dust or the still air of this activity.
    Air(ActivityId),
}

/// Facts that do not go together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Clash {
    /// The facts, in order.
    pub parts: Vec<ClashPart>,
    /// Whether it is certain that they clash, and that they would not if any one were gone.
    pub proved: bool,
}

/// The most clashes that are looked for.
const MOST_CLASHES: usize = 50;

/// The first clash that is proved by time or by the lack of any way in; `None` when there is none, or
/// when crews, rooms, shut floors or dust are what stands in the way.
///
/// # Errors
///
/// [`Faulty`] with everything that is wrong with the statement of the problem.
pub fn clash(problem: &Problem) -> Result<Option<Clash>, Faulty> {
    check(problem)?;
    Ok(no_ways_in(problem)
        .into_iter()
        .next()
        .or_else(|| time::first_clash(problem, &[])))
}

/// All clashes behind the breaches of a plan: places without a way in, clashes of time one after
/// the other (each time one of its longest waits, dates or waits is set aside, up to 50), then, for
/// breaches that none of those has a part in, what the plan's reasons name.
///
/// # Errors
///
/// [`Faulty`] with everything that is wrong with the statement of the problem.
pub fn clashes(problem: &Problem, solved: &Solved) -> Result<Vec<Clash>, Faulty> {
    check(problem)?;
    let mut found = no_ways_in(problem);
    let mut set_aside = Vec::new();
    while found.len() < MOST_CLASHES {
        let Some(clash) = time::first_clash(problem, &set_aside) else {
            crowd::add_guesses(problem, solved, &mut found);
            break;
        };
        let Some(part) = clash.parts.iter().copied().max_by_key(|part| yields(*part)) else {
            break;
        };
        set_aside.push(part);
        found.push(clash);
    }
    Ok(found)
}

/// How readily a part is set aside to look for further clashes.
fn yields(part: ClashPart) -> (u8, ClashPart) {
    let rank = match part {
        ClashPart::Lag(_, Bound::Max) => 4,
        ClashPart::Date(_) => 3,
        ClashPart::Lag(_, Bound::Min) => 2,
        _ => 1,
    };
    (rank, part)
}

fn no_ways_in(problem: &Problem) -> Vec<Clash> {
    let (compiled, ways) = Compiled::new(problem);
    let mut fitter = Fitter::new(ways);
    let open = (0..compiled.count())
        .filter(|&i| compiled.open[i])
        .filter(|&i| !fitter.can_reach(&compiled, i));
    let clash = |i| Clash {
        parts: vec![ClashPart::NoWayIn(ActivityId::from(i))],
        proved: true,
    };
    open.take(MOST_CLASHES).map(clash).collect()
}
