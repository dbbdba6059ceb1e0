//! A problem made ready once, for building many plans of it.

use crate::cost::{Cost, Costing};
use crate::plan::Plan;
use crate::problem::{ActivityId, Due, Fact, Problem, Tick};
use crate::search::compiled::Compiled;
use crate::search::construct::{Broken, Builder};
use crate::search::lists::{Rule, by_rule};
use crate::search::passes::{Forward, backward, forward};
use crate::solve::{Faulty, Solved, check};
use crate::verify::verify;

/// Builds plans of one problem from lists, again and again in the same memory.
///
/// What [`construct`](crate::construct()) does anew for every plan (looking for faults, working out
/// which waits hang together and which ways matter) is done here only once.
pub struct Planner<'a> {
    pub(crate) c: Compiled<'a>,
    pub(crate) early: Forward,
    builder: Builder,
    costing: Costing<'a>,
}

impl<'a> Planner<'a> {
    /// Makes a problem ready.
    ///
    /// # Errors
    ///
    /// [`Faulty`] with everything that is wrong with the statement of the problem.
    pub fn new(problem: &'a Problem) -> Result<Self, Faulty> {
        check(problem)?;
        let (c, ways) = Compiled::new(problem);
        let early = forward(&c);
        Ok(Self {
            builder: Builder::new(&c, ways, &early),
            costing: Costing::new(problem),
            c,
            early,
        })
    }

    /// The problem.
    #[must_use]
    pub fn problem(&self) -> &'a Problem {
        self.c.problem
    }

    /// The plan that a list makes, as [`construct`](crate::construct()) has it.
    pub fn construct(&mut self, order: &[ActivityId]) -> Plan {
        self.build(order);
        self.plan()
    }

    /// The list of open work by urgency: the latest start first that still lets everything finish as
    /// early as time alone allows, scarcer crews' work first among equals.
    #[must_use]
    pub fn urgent_list(&self) -> Vec<ActivityId> {
        by_rule(
            &self.c,
            Rule::LatestStart,
            &self.early.starts,
            &self.latest(),
        )
    }

    /// See [`careful_list`](crate::careful_list()).
    pub(crate) fn careful_list(&self) -> Vec<ActivityId> {
        let late = self.latest_for(&[]);
        let early = &self.early.starts;
        let mut open: Vec<usize> = (0..self.c.count()).filter(|&i| self.c.open[i]).collect();
        open.sort_by_key(|&i| (late[i], early[i], i));
        open.into_iter().map(ActivityId::from).collect()
    }

    /// Latest starts that still let everything finish as early as time alone allows, and by the dues.
    pub(crate) fn latest(&self) -> Vec<Tick> {
        self.latest_for(&self.c.problem.dues)
    }

    fn latest_for(&self, dues: &[Due]) -> Vec<Tick> {
        let finishes = self.early.starts.iter().zip(&self.c.work);
        let end = finishes
            .map(|(&start, work)| work.finish(start))
            .filter(|&finish| finish <= self.c.problem.horizon)
            .max()
            .unwrap_or(self.c.problem.now);
        backward(&self.c, end, dues, &self.early.hopeless)
    }

    /// The last finish of what is not done, in the plan that a list makes; *now* when all is done.
    pub fn finish(&mut self, order: &[ActivityId]) -> Tick {
        self.build(order);
        self.last_finish()
    }

    /// The plan that a list makes, proved and priced.
    pub fn solved(&mut self, order: Vec<ActivityId>) -> Solved {
        self.build(&order);
        let plan = self.plan();
        Solved {
            breaches: verify(self.c.problem, &plan),
            cost: self.price(),
            plan,
            order,
        }
    }

    /// Builds the plan of a list; what it breaks.
    pub(crate) fn build(&mut self, order: &[ActivityId]) -> Broken {
        self.builder.build(&self.c, order)
    }

    /// Builds the plan of a list in which nothing starts before a moment of its own; what it breaks.
    pub(crate) fn build_not_before(&mut self, order: &[ActivityId], not_before: &[Tick]) -> Broken {
        self.builder.build_not_before(&self.c, order, not_before)
    }

    /// What the plan that was built last costs.
    pub(crate) fn price(&mut self) -> Cost {
        let state = &self.builder.state;
        self.costing.of(&state.starts, &state.finishes)
    }

    /// Starts and finishes of the plan that was built last.
    pub(crate) fn ends(&self) -> (&[Tick], &[Tick]) {
        (&self.builder.state.starts, &self.builder.state.finishes)
    }

    /// The plan that was built last.
    pub(crate) fn plan(&self) -> Plan {
        self.builder.state.plan()
    }

    /// Earliest starts by what is placed before, in the plan that was built last.
    pub(crate) fn low(&self) -> &[Tick] {
        &self.builder.low
    }

    pub(crate) fn last_finish(&self) -> Tick {
        let finishes = self.builder.state.finishes.iter();
        let facts = self.c.problem.activities.iter().map(|a| a.fact);
        let going_on = finishes
            .zip(facts)
            .filter(|(_, fact)| !matches!(fact, Fact::Done { .. }));
        going_on
            .map(|(&finish, _)| finish)
            .max()
            .unwrap_or(self.c.problem.now)
    }
}

/// What puts work elsewhere in the plan that was built last.
impl Planner<'_> {
    /// The latest start of an activity that lets everything else stay where it is, with a margin before
    /// what follows, and not later than a date or `end` allows.
    pub(crate) fn latest_beside(&self, i: usize, end: Tick, margin: Tick) -> Tick {
        let (c, state) = (&self.c, &self.builder.state);
        let work = c.work[i];
        let mut latest = work.last_start_to_finish(end).min(c.latest[i]);
        for arc in c.out.of(i).map(|arc| &c.arcs[arc]) {
            let target = (state.starts[arc.to], state.finishes[arc.to]);
            latest = latest.min(work.last_start(arc.upper(work, target.0, target.1) - margin));
        }
        latest
    }

    /// The earliest start of an activity that leaves all its waits as they should be, everything else
    /// staying where it is.
    pub(crate) fn earliest_beside(&self, i: usize) -> Tick {
        let (c, state) = (&self.c, &self.builder.state);
        let waits = c.into.of(i).map(|arc| &c.arcs[arc]).map(|arc| {
            let (start, finish) = (state.starts[arc.from], state.finishes[arc.from]);
            arc.lower(c.work[i], start, finish)
        });
        waits.fold(c.earliest[i], Tick::max)
    }

    /// Takes an activity out and puts it where it fits from a moment on; its start. Where it fits
    /// nowhere it stays out until it is [`put`](Self::put) somewhere.
    pub(crate) fn moved(&mut self, i: usize, from: Tick) -> Option<Tick> {
        self.builder.moved(&self.c, i, from)
    }

    /// Puts an activity at its ends, wherever it was.
    pub(crate) fn put(&mut self, i: usize, ends: (Tick, Tick)) {
        let state = &mut self.builder.state;
        if state.placed[i] {
            state.unplace(&self.c, i);
        }
        state.place(&self.c, i, ends.0, ends.1);
    }
}
