//! The linear programs behind the set-outs.

use clarabel::algebra::CscMatrix;
use clarabel::solver::{
    DefaultSettings, DefaultSolver, IPSolver, SolverStatus, SupportedConeT::NonnegativeConeT,
};

/// One limit of one need, as room that is left and what each setting adds to it, per millimetre away
/// from the middle of its range.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Row {
    pub(super) need: usize,
    pub(super) left: f64,
    pub(super) gains: Vec<(usize, f64)>,
}

impl Row {
    pub(super) fn margin(&self, moves: &[f64]) -> f64 {
        let gained: f64 = self.gains.iter().map(|(at, gain)| gain * moves[*at]).sum();
        self.left + gained
    }
}

/// Settings that share needs, and the needs' limits.
#[derive(Clone, Debug, Default)]
pub(super) struct Program {
    /// The settings by the caller's count.
    pub(super) settings: Vec<usize>,
    /// How far each can be moved from the middle of its range, either way.
    pub(super) reach: Vec<f64>,
    pub(super) rows: Vec<Row>,
}

/// What a row asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Ask {
    /// As much room as all others that ask so.
    Most,
    /// At least so much.
    AtLeast(f64),
    /// Nothing.
    Nothing,
}

/// The best answer of a program.
pub(super) struct Best {
    /// The least margin of the rows that asked for the most.
    pub(super) margin: f64,
    pub(super) moves: Vec<f64>,
    /// How much each row stands in the way; adds up to one over the rows that asked for the most.
    pub(super) weight: Vec<f64>,
    /// How much the range of each setting stands in the way.
    pub(super) stops: Vec<f64>,
}

impl Program {
    /// The largest least margin; none where the solver gives up or nothing asks for it.
    pub(super) fn most(&self, asks: &[Ask]) -> Option<Best> {
        let count = self.reach.len();
        let mut system = self.system(asks, count + 1);
        let mut objective = vec![0.0; count + 1];
        objective[count] = -1.0;
        let answer = system.solve(&CscMatrix::zeros((count + 1, count + 1)), &objective)?;
        let mut weight = vec![0.0; self.rows.len()];
        for (at, row) in system.of.iter().enumerate() {
            weight[*row] = answer.duals[at];
        }
        let ranges = &answer.duals[system.of.len()..];
        Some(Best {
            margin: answer.values[count],
            moves: self.within(&answer.values[..count]),
            weight,
            stops: (0..count)
                .map(|at| ranges[2 * at] + ranges[2 * at + 1])
                .collect(),
        })
    }

    /// The moves nearest to the middle of all ranges that give each row at least what it asks for.
    pub(super) fn nearest(&self, asks: &[Ask]) -> Option<Vec<f64>> {
        let count = self.reach.len();
        let mut system = self.system(asks, count);
        let answer = system.solve(&CscMatrix::identity(count), &vec![0.0; count])?;
        Some(self.within(&answer.values))
    }

    fn within(&self, moves: &[f64]) -> Vec<f64> {
        let moves = moves.iter().zip(&self.reach);
        moves.map(|(at, reach)| at.clamp(-reach, *reach)).collect()
    }

    /// Rows as `entries · values ≤ limits`; after the settings one value more, the least margin, where
    /// there is room for it.
    fn system(&self, asks: &[Ask], columns: usize) -> System {
        let mut system = System {
            columns,
            ..System::default()
        };
        for (number, (row, ask)) in self.rows.iter().zip(asks).enumerate() {
            let limit = match ask {
                Ask::Most => row.left,
                Ask::AtLeast(margin) => row.left - margin,
                Ask::Nothing => continue,
            };
            let at = system.limits.len();
            system.entries.extend(
                row.gains
                    .iter()
                    .map(|(setting, gain)| (at, *setting, -gain)),
            );
            if *ask == Ask::Most {
                system.entries.push((at, self.reach.len(), 1.0));
            }
            system.limits.push(limit);
            system.of.push(number);
        }
        for (setting, reach) in self.reach.iter().enumerate() {
            for sign in [1.0, -1.0] {
                system.entries.push((system.limits.len(), setting, sign));
                system.limits.push(*reach);
            }
        }
        system
    }
}

#[derive(Default)]
struct System {
    columns: usize,
    entries: Vec<(usize, usize, f64)>,
    limits: Vec<f64>,
    /// The program's row of each of the first rows.
    of: Vec<usize>,
}

struct Answer {
    values: Vec<f64>,
    duals: Vec<f64>,
}

impl System {
    fn solve(&mut self, curved: &CscMatrix<f64>, objective: &[f64]) -> Option<Answer> {
        let rows = self.limits.len();
        let (mut is, mut js, mut values) = (Vec::new(), Vec::new(), Vec::new());
        for (row, column, value) in self.entries.drain(..) {
            is.push(row);
            js.push(column);
            values.push(value);
        }
        let matrix = CscMatrix::new_from_triplets(rows, self.columns, is, js, values);
        let settings = DefaultSettings {
            verbose: false,
            ..DefaultSettings::default()
        };
        let cones = [NonnegativeConeT(rows)];
        let mut solver =
            DefaultSolver::new(curved, objective, &matrix, &self.limits, &cones, settings).ok()?;
        solver.solve();
        let solution = &solver.solution;
        matches!(
            solution.status,
            SolverStatus::Solved | SolverStatus::AlmostSolved
        )
        .then(|| Answer {
            values: solution.x.clone(),
            duals: solution.z.clone(),
        })
    }
}
