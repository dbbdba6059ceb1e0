//! Patterns by column generation, and whole numbers of them by diving.
//!
//! The linear program over the known patterns prices each kind; the most worthy pattern at those
//! prices is added until none is worth more than its stock. Prices π give a bound whether or not
//! they are the best: Σ demand · π, scaled so that no pattern is worth more than its stock costs.

use clarabel::algebra::CscMatrix;
use clarabel::solver::SupportedConeT::NonnegativeConeT;
use clarabel::solver::{DefaultSettings, DefaultSolver, IPSolver};

use super::knapsack::pack;
use super::list::{Pattern, Question};

/// Rounds of one generation, and smallest gain that counts.
const ROUNDS: usize = 400;
const GAIN: f64 = 1e-7;

/// All patterns known so far.
pub(super) struct Columns<'a> {
    question: &'a Question,
    known: Vec<Pattern>,
}

/// The linear program's answer over the known patterns.
struct Relaxed {
    /// How often each known pattern is cut.
    times: Vec<f64>,
    /// What each kind is worth, as a share of the dearest stock.
    prices: Vec<f64>,
}

impl<'a> Columns<'a> {
    pub(super) fn new(question: &'a Question) -> Self {
        Self {
            question,
            known: Vec::new(),
        }
    }

    /// A list that cuts all, and the least that any list costs.
    pub(super) fn solved(&mut self) -> (Vec<Pattern>, i64) {
        let wanted = self.question.counts.clone();
        let plain = first_fit(self.question, &wanted);
        let (mut times, bound) = self.generated(&wanted);
        let at_least = self.question.rounded_up(bound * self.dearest());
        if self.question.cost(&plain) <= at_least {
            return (plain, at_least);
        }
        let mut left = wanted;
        let mut cuts = Vec::new();
        while left.iter().any(|count| *count > 0) {
            let before = cuts.len();
            self.take(&times, &mut left, &mut cuts);
            if cuts.len() == before {
                cuts.extend(first_fit(self.question, &left));
                break;
            }
            times = self.generated(&left).0;
        }
        let diving = self.question.cost(&cuts) < self.question.cost(&plain);
        (if diving { cuts } else { plain }, at_least)
    }

    #[expect(clippy::cast_precision_loss, reason = "lengths lie below 2^53")]
    fn dearest(&self) -> f64 {
        self.question
            .stocks
            .last()
            .map_or(1.0, |(_, cost)| *cost as f64)
    }

    #[expect(clippy::cast_precision_loss, reason = "lengths lie below 2^53")]
    fn price(&self, stock: usize) -> f64 {
        self.question.stocks[stock].1 as f64 / self.dearest()
    }

    /// Cuts each pattern as often as the linear program does in whole; if that is never, the one
    /// nearest to a whole time once. None is cut beyond what is left.
    fn take(&self, times: &[f64], left: &mut [usize], cuts: &mut Vec<Pattern>) {
        let before = cuts.len();
        for (pattern, times) in self.known.iter().zip(times) {
            let mut whole = (times + GAIN).floor();
            while whole >= 1.0 && covers(left, &pattern.counts) {
                take_one(pattern, left, cuts);
                whole -= 1.0;
            }
        }
        if cuts.len() > before {
            return;
        }
        let most = (0..self.known.len())
            .filter(|index| times[*index] > GAIN && covers(left, &self.known[*index].counts))
            .max_by(|a, b| times[*a].total_cmp(&times[*b]));
        if let Some(index) = most {
            take_one(&self.known[index], left, cuts);
        }
    }

    /// Generates patterns for what is left; how often each known one is cut, and the bound.
    fn generated(&mut self, left: &[usize]) -> (Vec<f64>, f64) {
        for pattern in first_fit(self.question, left) {
            self.add(pattern);
        }
        let (mut times, mut bound) = (Vec::new(), 0.0_f64);
        for _ in 0..ROUNDS {
            let Some(relaxed) = self.relaxed(left) else {
                break;
            };
            times = relaxed.times;
            let (added, at_least) = self.priced(&relaxed.prices, left);
            bound = bound.max(at_least);
            if !added {
                break;
            }
        }
        times.resize(self.known.len(), 0.0);
        (times, bound)
    }

    fn add(&mut self, pattern: Pattern) -> bool {
        let new = !self.known.contains(&pattern);
        if new {
            self.known.push(pattern);
        }
        new
    }

    /// Adds the most worthy pattern of every stock; whether one was new and worth it, and the bound.
    #[expect(clippy::cast_precision_loss, reason = "counts are small")]
    fn priced(&mut self, prices: &[f64], left: &[usize]) -> (bool, f64) {
        let mut scale = 1.0_f64;
        let mut added = false;
        for stock in 0..self.question.stocks.len() {
            let room = self.question.stocks[stock].0;
            let packed = pack(room, &self.question.lengths, prices, left);
            let price = self.price(stock);
            scale = scale.max(packed.at_most / price);
            if packed.worth > price + GAIN {
                added |= self.add(Pattern {
                    stock,
                    counts: packed.counts,
                });
            }
        }
        let worth = prices
            .iter()
            .zip(left)
            .map(|(price, count)| price * *count as f64);
        (added, worth.sum::<f64>() / scale)
    }

    /// The linear program: cut at least what is left, as cheaply as can be.
    #[expect(clippy::cast_precision_loss, reason = "counts are small")]
    fn relaxed(&self, left: &[usize]) -> Option<Relaxed> {
        let wanted: Vec<usize> = (0..left.len()).filter(|kind| left[*kind] > 0).collect();
        // Patterns with pieces that are no longer wanted would only waste.
        let usable: Vec<usize> = (0..self.known.len())
            .filter(|index| covers(left, &self.known[*index].counts))
            .collect();
        // The solver takes no program without unknowns: nothing is left to cut.
        if usable.is_empty() {
            return None;
        }
        let costs: Vec<f64> = usable
            .iter()
            .map(|index| self.price(self.known[*index].stock))
            .collect();
        let mut rows: Vec<Vec<f64>> = wanted
            .iter()
            .map(|kind| {
                usable
                    .iter()
                    .map(|index| -(self.known[*index].counts[*kind] as f64))
                    .collect()
            })
            .collect();
        let mut limits: Vec<f64> = wanted.iter().map(|kind| -(left[*kind] as f64)).collect();
        for place in 0..usable.len() {
            let mut row = vec![0.0; usable.len()];
            row[place] = -1.0;
            rows.push(row);
            limits.push(0.0);
        }
        let nothing = CscMatrix::zeros((usable.len(), usable.len()));
        let matrix = CscMatrix::from(&rows);
        let settings = DefaultSettings {
            verbose: false,
            ..DefaultSettings::default()
        };
        let cones = [NonnegativeConeT(limits.len())];
        let mut solver =
            DefaultSolver::new(&nothing, &costs, &matrix, &limits, &cones, settings).ok()?;
        solver.solve();
        let mut times = vec![0.0; self.known.len()];
        for (index, value) in usable.iter().zip(&solver.solution.x) {
            times[*index] = *value;
        }
        let mut prices = vec![0.0; left.len()];
        for (kind, price) in wanted.iter().zip(&solver.solution.z) {
            prices[*kind] = if price.is_finite() {
                price.max(0.0)
            } else {
                return None;
            };
        }
        Some(Relaxed { times, prices })
    }
}

fn covers(left: &[usize], counts: &[usize]) -> bool {
    left.iter().zip(counts).all(|(left, count)| count <= left)
}

fn take_one(pattern: &Pattern, left: &mut [usize], cuts: &mut Vec<Pattern>) {
    for (left, count) in left.iter_mut().zip(&pattern.counts) {
        *left -= count;
    }
    cuts.push(pattern.clone());
}

/// Every stock length filled with the longest pieces that still go in, then swapped for the
/// cheapest stock that holds them.
fn first_fit(question: &Question, wanted: &[usize]) -> Vec<Pattern> {
    let mut left = wanted.to_vec();
    let mut cuts = Vec::new();
    let longest = question.stocks.last().map_or(0, |(room, _)| *room);
    while left.iter().any(|count| *count > 0) {
        let mut room = longest;
        let mut counts = vec![0; left.len()];
        for (kind, length) in question.lengths.iter().enumerate() {
            let fit = usize::try_from(room / length).unwrap_or(0).min(left[kind]);
            counts[kind] = fit;
            left[kind] -= fit;
            room -= i64::try_from(fit).unwrap_or(i64::MAX) * length;
        }
        let Some(stock) = question.stock_for(question.taken(&counts)) else {
            break;
        };
        if counts.iter().all(|count| *count == 0) {
            break;
        }
        cuts.push(Pattern { stock, counts });
    }
    cuts
}
