//! Normal equations of one block: sparse LDLᵀ with a fill-reducing order.
//!
//! The matrix is the weighted Laplacian of the block with its top held fast, which is positive
//! definite because a block hangs together. Sources: the up-looking factorisation by the elimination
//! tree (Davis 2005 \[published\]); the approximate minimum degree order (Amestoy, Davis and Duff 1996
//! \[published\], library `amd`); the entries of the inverse on the pattern of the factor (Takahashi,
//! Fagan and Chin 1973 \[published\]).

/// An edge of the matrix: its ends (none for the top) and its weight.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Weighed {
    pub(crate) from: Option<usize>,
    pub(crate) to: Option<usize>,
    pub(crate) weight: f64,
}

/// The factor L·D·Lᵀ of the matrix in its order, by columns.
#[derive(Clone, Debug)]
pub(crate) struct Factor {
    /// Place of each unknown in the order.
    place: Vec<usize>,
    parent: Vec<Option<usize>>,
    starts: Vec<usize>,
    rows: Vec<usize>,
    values: Vec<f64>,
    diagonal: Vec<f64>,
}

/// Some entries of a vector in the order of a factor, by rising place.
pub(crate) type Sparse = Vec<(usize, f64)>;

impl Factor {
    pub(crate) fn new(unknowns: usize, edges: &[Weighed]) -> Self {
        let place = order(unknowns, edges);
        let upper = Upper::new(unknowns, edges, &place);
        let (parent, starts) = upper.tree();
        let mut factor = Self {
            place,
            parent,
            rows: vec![0; starts[unknowns]],
            values: vec![0.0; starts[unknowns]],
            starts,
            diagonal: vec![0.0; unknowns],
        };
        factor.eliminate(&upper);
        factor
    }

    /// Row by row: each row of L solves a triangle of the rows before.
    fn eliminate(&mut self, upper: &Upper) {
        let unknowns = self.diagonal.len();
        let mut filled = self.starts.clone();
        let mut work = vec![0.0; unknowns];
        let mut seen = vec![usize::MAX; unknowns];
        for row in 0..unknowns {
            let pattern = self.pattern(upper, row, &mut seen);
            for (column, value) in upper.column(row) {
                work[column] += value;
            }
            let mut pivot = upper.diagonal[row];
            for column in pattern {
                let value = std::mem::take(&mut work[column]);
                for at in self.starts[column]..filled[column] {
                    work[self.rows[at]] -= self.values[at] * value;
                }
                let entry = value / self.diagonal[column];
                pivot -= entry * value;
                self.rows[filled[column]] = row;
                self.values[filled[column]] = entry;
                filled[column] += 1;
            }
            work[row] = 0.0;
            self.diagonal[row] = pivot;
        }
    }

    /// The columns with an entry in a row of L, by rising place.
    fn pattern(&self, upper: &Upper, row: usize, seen: &mut [usize]) -> Vec<usize> {
        let mut pattern = Vec::new();
        seen[row] = row;
        for (column, _) in upper.column(row) {
            let mut at = Some(column);
            while let Some(column) = at.filter(|column| seen[*column] != row) {
                seen[column] = row;
                pattern.push(column);
                at = self.parent[column];
            }
        }
        pattern.sort_unstable();
        pattern
    }

    fn column(&self, column: usize) -> impl Iterator<Item = (usize, f64)> + '_ {
        let range = self.starts[column]..self.starts[column + 1];
        range.map(|at| (self.rows[at], self.values[at]))
    }

    /// L⁻¹ of the difference of two unit vectors. The product of two such vectors under D⁻¹ is the
    /// covariance of the two distances.
    pub(crate) fn pull(&self, from: Option<usize>, to: Option<usize>) -> Sparse {
        let mut reach = Vec::new();
        for end in [from, to].into_iter().flatten() {
            let mut at = Some(self.place[end]);
            while let Some(place) = at {
                reach.push(place);
                at = self.parent[place];
            }
        }
        reach.sort_unstable();
        reach.dedup();
        let mut work = vec![0.0; self.diagonal.len()];
        if let Some(end) = from {
            work[self.place[end]] -= 1.0;
        }
        if let Some(end) = to {
            work[self.place[end]] += 1.0;
        }
        let mut pulled = Vec::with_capacity(reach.len());
        for place in reach {
            let value = work[place];
            if value != 0.0 {
                for (row, entry) in self.column(place) {
                    work[row] -= entry * value;
                }
                pulled.push((place, value));
            }
        }
        pulled
    }

    /// The product of two pulls under D⁻¹.
    pub(crate) fn product(&self, a: &Sparse, b: &Sparse) -> f64 {
        let (mut i, mut j, mut sum) = (0, 0, 0.0);
        while let (Some((p, x)), Some((q, y))) = (a.get(i), b.get(j)) {
            if p == q {
                sum += x * y / self.diagonal[*p];
            }
            i += usize::from(p <= q);
            j += usize::from(q <= p);
        }
        sum
    }

    /// Completes a pull to the solution of the normal equations, by unknown.
    pub(crate) fn complete(&self, pull: &Sparse) -> Vec<f64> {
        let mut work = vec![0.0; self.diagonal.len()];
        for (place, value) in pull {
            work[*place] = value / self.diagonal[*place];
        }
        self.back(&mut work)
    }

    /// The solution of the normal equations for any right side, by unknown.
    pub(crate) fn solve(&self, right: &[f64]) -> Vec<f64> {
        let mut work = vec![0.0; right.len()];
        for (unknown, value) in right.iter().enumerate() {
            work[self.place[unknown]] = *value;
        }
        for place in 0..work.len() {
            for (row, entry) in self.column(place) {
                work[row] -= entry * work[place];
            }
        }
        for (value, pivot) in work.iter_mut().zip(&self.diagonal) {
            *value /= pivot;
        }
        self.back(&mut work)
    }

    fn back(&self, work: &mut [f64]) -> Vec<f64> {
        for place in (0..work.len()).rev() {
            let known: f64 = self
                .column(place)
                .map(|(row, entry)| entry * work[row])
                .sum();
            work[place] -= known;
        }
        self.place.iter().map(|place| work[*place]).collect()
    }

    /// The variance of each edge's distance: entries of the inverse where the factor has some, which
    /// includes every edge.
    pub(crate) fn variances(&self, edges: &[Weighed]) -> Vec<f64> {
        let inverse = Inverse::new(self);
        let variance = |edge: &Weighed| match (edge.from, edge.to) {
            (Some(from), Some(to)) => {
                let (p, q) = (self.place[from], self.place[to]);
                inverse.diagonal[p] + inverse.diagonal[q] - 2.0 * inverse.entry(self, p, q)
            }
            (Some(end), None) | (None, Some(end)) => inverse.diagonal[self.place[end]],
            (None, None) => 0.0,
        };
        edges.iter().map(variance).collect()
    }
}

/// The inverse on the pattern of L.
struct Inverse {
    diagonal: Vec<f64>,
    values: Vec<f64>,
}

impl Inverse {
    fn new(factor: &Factor) -> Self {
        let unknowns = factor.diagonal.len();
        let mut inverse = Self {
            diagonal: vec![0.0; unknowns],
            values: vec![0.0; factor.values.len()],
        };
        let mut work = Work {
            sums: vec![0.0; unknowns],
            entry: vec![0.0; unknowns],
            wanted: vec![usize::MAX; unknowns],
        };
        for column in (0..unknowns).rev() {
            inverse.fill(factor, column, &mut work);
        }
        inverse
    }

    /// Z·L = L⁻ᵀ·D⁻¹ for one column, the columns to its right being known.
    fn fill(&mut self, factor: &Factor, column: usize, work: &mut Work) {
        for (row, entry) in factor.column(column) {
            work.wanted[row] = column;
            work.entry[row] = entry;
        }
        for (row, entry) in factor.column(column) {
            work.sums[row] -= entry * self.diagonal[row];
            for at in factor.starts[row]..factor.starts[row + 1] {
                let below = factor.rows[at];
                if work.wanted[below] == column {
                    work.sums[below] -= entry * self.values[at];
                    work.sums[row] -= work.entry[below] * self.values[at];
                }
            }
        }
        let mut diagonal = 1.0 / factor.diagonal[column];
        for at in factor.starts[column]..factor.starts[column + 1] {
            self.values[at] = std::mem::take(&mut work.sums[factor.rows[at]]);
            diagonal -= factor.values[at] * self.values[at];
        }
        self.diagonal[column] = diagonal;
    }

    fn entry(&self, factor: &Factor, p: usize, q: usize) -> f64 {
        let (column, row) = (p.min(q), p.max(q));
        let range = factor.starts[column]..factor.starts[column + 1];
        factor.rows[range.clone()]
            .binary_search(&row)
            .map_or(0.0, |offset| self.values[range.start + offset])
    }
}

/// What one column of the inverse is worked out in: sums so far, the column of L by row, and for
/// which column a row was last wanted.
struct Work {
    sums: Vec<f64>,
    entry: Vec<f64>,
    wanted: Vec<usize>,
}

/// The matrix above its diagonal, by columns, in the order.
struct Upper {
    starts: Vec<usize>,
    rows: Vec<usize>,
    values: Vec<f64>,
    diagonal: Vec<f64>,
}

impl Upper {
    fn new(unknowns: usize, edges: &[Weighed], place: &[usize]) -> Self {
        let mut diagonal = vec![0.0; unknowns];
        let mut entries = Vec::with_capacity(edges.len());
        for edge in edges {
            for end in [edge.from, edge.to].into_iter().flatten() {
                diagonal[place[end]] += edge.weight;
            }
            if let (Some(from), Some(to)) = (edge.from, edge.to) {
                let (p, q) = (place[from], place[to]);
                entries.push((p.max(q), p.min(q), -edge.weight));
            }
        }
        let mut starts = vec![0; unknowns + 1];
        for (column, _, _) in &entries {
            starts[column + 1] += 1;
        }
        for column in 0..unknowns {
            starts[column + 1] += starts[column];
        }
        let mut next = starts.clone();
        let (mut rows, mut values) = (vec![0; entries.len()], vec![0.0; entries.len()]);
        for (column, row, value) in entries {
            rows[next[column]] = row;
            values[next[column]] = value;
            next[column] += 1;
        }
        Self {
            starts,
            rows,
            values,
            diagonal,
        }
    }

    fn column(&self, column: usize) -> impl Iterator<Item = (usize, f64)> + '_ {
        let range = self.starts[column]..self.starts[column + 1];
        range.map(|at| (self.rows[at], self.values[at]))
    }

    /// The elimination tree, and where each column of L starts.
    fn tree(&self) -> (Vec<Option<usize>>, Vec<usize>) {
        let unknowns = self.diagonal.len();
        let mut parent = vec![None; unknowns];
        let mut count = vec![0; unknowns];
        let mut seen = vec![usize::MAX; unknowns];
        for row in 0..unknowns {
            seen[row] = row;
            for (column, _) in self.column(row) {
                let mut at = column;
                while seen[at] != row {
                    seen[at] = row;
                    count[at] += 1;
                    at = *parent[at].get_or_insert(row);
                }
            }
        }
        let mut starts = vec![0; unknowns + 1];
        for column in 0..unknowns {
            starts[column + 1] = starts[column] + count[column];
        }
        (parent, starts)
    }
}

/// The place of each unknown in an order that keeps the factor sparse; as they come where the order
/// cannot be had.
fn order(unknowns: usize, edges: &[Weighed]) -> Vec<usize> {
    let mut pairs: Vec<(usize, usize)> = edges
        .iter()
        .filter_map(|edge| edge.from.zip(edge.to))
        .flat_map(|(from, to)| [(from, to), (to, from)])
        // The library wants the diagonal as well.
        .chain((0..unknowns).map(|at| (at, at)))
        .collect();
    pairs.sort_unstable();
    pairs.dedup();
    let mut starts = vec![0; unknowns + 1];
    for (column, _) in &pairs {
        starts[column + 1] += 1;
    }
    for column in 0..unknowns {
        starts[column + 1] += starts[column];
    }
    let rows: Vec<usize> = pairs.into_iter().map(|(_, row)| row).collect();
    amd::order(unknowns, &starts, &rows, &amd::Control::default())
        .map_or_else(|_| (0..unknowns).collect(), |(_, place, _)| place)
}

#[cfg(test)]
mod tests {
    use super::{Factor, Weighed};
    use crate::luck::Luck;
    use nalgebra::{DMatrix, DVector};

    fn drawn(luck: &mut Luck, unknowns: usize, extra: usize) -> Vec<Weighed> {
        let pick = |luck: &mut Luck| (luck.normal().abs() * 1e3) as usize % (unknowns + 1);
        let mut edges: Vec<Weighed> = (0..unknowns)
            .map(|point| (point, point + 1))
            .chain((0..extra).map(|_| (pick(luck), pick(luck))))
            .filter(|(from, to)| from != to)
            .map(|(from, to)| Weighed {
                from: from.checked_sub(1),
                to: to.checked_sub(1),
                weight: 0.0,
            })
            .collect();
        for edge in &mut edges {
            edge.weight = luck.normal().exp();
        }
        edges
    }

    fn dense(unknowns: usize, edges: &[Weighed]) -> DMatrix<f64> {
        let mut matrix = DMatrix::zeros(unknowns, unknowns);
        for edge in edges {
            let mut row = DVector::zeros(unknowns);
            if let Some(end) = edge.from {
                row[end] -= 1.0;
            }
            if let Some(end) = edge.to {
                row[end] += 1.0;
            }
            matrix += edge.weight * &row * row.transpose();
        }
        matrix
    }

    /// Reference library: nalgebra's dense inverse.
    #[test]
    fn solutions_and_variances_are_those_of_the_dense_inverse() {
        let mut luck = Luck::new(11);
        for size in [1, 2, 3, 7, 20, 60] {
            let edges = drawn(&mut luck, size, size);
            let factor = Factor::new(size, &edges);
            let inverse = dense(size, &edges).try_inverse().unwrap();
            let right: Vec<f64> = (0..size).map(|_| luck.normal()).collect();
            let should = &inverse * DVector::from_vec(right.clone());
            for (is, should) in factor.solve(&right).iter().zip(should.iter()) {
                assert!((is - should).abs() < 1e-9 * (1.0 + should.abs()));
            }
            for (edge, is) in edges.iter().zip(factor.variances(&edges)) {
                let pull = factor.pull(edge.from, edge.to);
                let entry = |a: Option<usize>, b: Option<usize>| {
                    a.zip(b).map_or(0.0, |(a, b)| inverse[(a, b)])
                };
                let (from, to) = (edge.from, edge.to);
                let should = entry(from, from) + entry(to, to) - 2.0 * entry(from, to);
                assert!((is - should).abs() < 1e-9 * (1.0 + should));
                assert!((factor.product(&pull, &pull) - should).abs() < 1e-9 * (1.0 + should));
            }
        }
    }
}
