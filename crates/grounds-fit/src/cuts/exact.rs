//! A full search over all ways of cutting a small list.
//!
//! The longest piece that is left is cut from some stock length, together with every choice of
//! others that leaves no room for one more; taking more from a length that is bought anyway never
//! costs. Branches that cannot beat the best known are given up.

use super::list::{Pattern, Question};

/// The most ways that are tried.
const MOST: usize = 300_000;

/// What the search came to.
pub(super) struct Searched {
    /// A cheaper list than was known.
    pub(super) better: Option<Vec<Pattern>>,
    /// Whether all ways were tried.
    pub(super) complete: bool,
}

struct Search<'a> {
    question: &'a Question,
    cheapest_per_length: f64,
    best_cost: i64,
    best: Option<Vec<Pattern>>,
    cuts: Vec<Pattern>,
    tried: usize,
}

/// Seeks a list that costs less than `known`.
#[expect(clippy::cast_precision_loss, reason = "lengths lie below 2^53")]
pub(super) fn search(question: &Question, known: i64) -> Searched {
    let rates = question
        .stocks
        .iter()
        .map(|(room, cost)| *cost as f64 / *room as f64);
    let mut search = Search {
        question,
        cheapest_per_length: rates.fold(f64::INFINITY, f64::min),
        best_cost: known,
        best: None,
        cuts: Vec::new(),
        tried: 0,
    };
    search.from(&mut question.counts.clone(), 0);
    Searched {
        complete: search.tried <= MOST,
        better: search.best,
    }
}

impl Search<'_> {
    #[expect(clippy::cast_precision_loss, reason = "lengths lie below 2^53")]
    fn from(&mut self, left: &mut Vec<usize>, cost: i64) {
        self.tried += 1;
        let still = self.question.taken(left) as f64 * self.cheapest_per_length;
        let at_least = cost + self.question.rounded_up(still);
        if at_least >= self.best_cost || self.tried > MOST {
            return;
        }
        let Some(longest) = left.iter().position(|count| *count > 0) else {
            self.best_cost = cost;
            self.best = Some(self.cuts.clone());
            return;
        };
        for stock in 0..self.question.stocks.len() {
            let (room, price) = self.question.stocks[stock];
            let mut counts = vec![0; left.len()];
            let mut fillings = Vec::new();
            self.fill(longest, longest, room, left, &mut counts, &mut fillings);
            for counts in fillings {
                for (left, count) in left.iter_mut().zip(&counts) {
                    *left -= count;
                }
                self.cuts.push(Pattern {
                    stock,
                    counts: counts.clone(),
                });
                self.from(left, cost + price);
                self.cuts.pop();
                for (left, count) in left.iter_mut().zip(&counts) {
                    *left += count;
                }
            }
        }
    }

    /// All choices from a kind on, with at least one of the first, that leave no room for one more
    /// piece; the fullest first.
    fn fill(
        &self,
        first: usize,
        kind: usize,
        room: i64,
        left: &[usize],
        counts: &mut Vec<usize>,
        fillings: &mut Vec<Vec<usize>>,
    ) {
        /// More than this are never tried anyway.
        const MANY: usize = 50_000;
        if fillings.len() > MANY {
            return;
        }
        let Some(length) = self.question.lengths.get(kind) else {
            let mut kinds = left.iter().zip(counts.iter()).zip(&self.question.lengths);
            if !kinds.any(|((left, count), length)| count < left && *length <= room) {
                fillings.push(counts.clone());
            }
            return;
        };
        let least = usize::from(kind == first);
        let most = usize::try_from(room / length).unwrap_or(0).min(left[kind]);
        for count in (least..=most).rev() {
            counts[kind] = count;
            let taken = i64::try_from(count).unwrap_or(i64::MAX) * length;
            self.fill(first, kind + 1, room - taken, left, counts, fillings);
        }
        counts[kind] = 0;
    }
}
