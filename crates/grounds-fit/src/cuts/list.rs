//! What is asked, and the cut list that answers it.

use std::num::NonZeroUsize;

use grounds_measure::Length;
use thiserror::Error;

use super::columns::Columns;
use super::exact;

/// The most kinds of pieces, and the most pieces.
const KINDS: usize = 200;
const PIECES: usize = 10_000;

/// Up to so many pieces every way of cutting is searched if need be.
const SMALL: usize = 40;

/// Pieces of one length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wanted {
    /// How long each is.
    pub length: Length,
    /// How many are wanted.
    pub count: NonZeroUsize,
}

/// A stock length and what is cut from it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bar {
    /// The stock length.
    pub stock: Length,
    /// The pieces, each as its number among those wanted, longest first.
    pub pieces: Vec<usize>,
    /// What is left over, kerfs taken off.
    pub left: Length,
}

/// A cut list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CutList {
    /// The stock to buy and how to cut it.
    pub bars: Vec<Bar>,
    /// All stock together.
    pub bought: Length,
    /// No cut list needs less than this.
    pub at_least: Length,
}

impl CutList {
    /// Whether none can be better.
    #[must_use]
    pub fn is_proven(&self) -> bool {
        self.bought <= self.at_least
    }
}

/// A cut list that cannot be made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum CutFault {
    /// There is no stock, or a length is not above zero, or the kerf is below zero.
    #[error("stock and pieces need lengths above zero, and the kerf must not be below zero")]
    NotAbove,
    /// A piece is longer than every stock length.
    #[error("piece number {} is longer than every stock length", .0 + 1)]
    TooLong(usize),
    /// More than 200 kinds or 10,000 pieces, or more than 20 stock lengths.
    #[error("a cut list takes up to 200 kinds and 10,000 pieces of up to 20 stock lengths")]
    TooMany,
}

/// The question in whole numbers, kerfs added, kinds from the longest down.
pub(super) struct Question {
    /// Stock lengths with room for one kerf, and what each costs; the cheapest first.
    pub(super) stocks: Vec<(i64, i64)>,
    /// Lengths with their kerf.
    pub(super) lengths: Vec<i64>,
    pub(super) counts: Vec<usize>,
}

/// One way to cut one stock length.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Pattern {
    /// Which stock.
    pub(super) stock: usize,
    /// How many of each kind.
    pub(super) counts: Vec<usize>,
}

/// The cut list of the least stock, or near it: patterns by column generation, rounded by diving,
/// and for up to forty pieces a full search if there is still room below. [`CutList::at_least`] holds
/// in any case (Gilmore and Gomory 1961; Farley's bound 1990 \[published\]).
///
/// # Errors
/// When a length makes no sense, a piece is too long for all stock, or there is too much.
///
/// ```
/// use std::num::NonZeroUsize;
/// use grounds_fit::cuts::{Wanted, cut_list};
/// use grounds_measure::Length;
/// let wanted = |mm, count| Wanted { length: Length::from_mm(mm), count: NonZeroUsize::new(count).unwrap() };
/// let list = cut_list(&[Length::from_mm(3000)], &[wanted(1000, 5), wanted(990, 1)], Length::from_mm(3))?;
/// // Three times 1000 mm and two kerfs are too long for 3000 mm.
/// assert_eq!(list.bars.len(), 3);
/// assert!(list.is_proven());
/// # Ok::<(), grounds_fit::cuts::CutFault>(())
/// ```
pub fn cut_list(stock: &[Length], wanted: &[Wanted], kerf: Length) -> Result<CutList, CutFault> {
    check(stock, wanted, kerf)?;
    let mut order: Vec<usize> = (0..wanted.len()).collect();
    order.sort_by_key(|kind| (-wanted[*kind].length, *kind));
    let question = question(stock, wanted, kerf, &order);
    let mut columns = Columns::new(&question);
    let (mut cuts, mut at_least) = columns.solved();
    let pieces: usize = question.counts.iter().sum();
    if pieces <= SMALL && question.cost(&cuts) > at_least {
        let searched = exact::search(&question, question.cost(&cuts));
        if let Some(better) = searched.better {
            cuts = better;
        }
        if searched.complete {
            at_least = question.cost(&cuts);
        }
    }
    Ok(answer(&question, &cuts, at_least, kerf, &order))
}

fn check(stock: &[Length], wanted: &[Wanted], kerf: Length) -> Result<(), CutFault> {
    let pieces = wanted
        .iter()
        .fold(0_usize, |sum, kind| sum.saturating_add(kind.count.get()));
    if wanted.len() > KINDS || pieces > PIECES || stock.len() > 20 {
        return Err(CutFault::TooMany);
    }
    let lengths = stock.iter().chain(wanted.iter().map(|kind| &kind.length));
    let sound = lengths
        .copied()
        .all(|l| l.is_positive() && l <= Length::LONGEST);
    let longest = stock
        .iter()
        .max()
        .filter(|_| sound && !kerf.is_negative() && kerf <= Length::LONGEST);
    let longest = longest.ok_or(CutFault::NotAbove)?;
    match wanted.iter().position(|kind| kind.length > *longest) {
        Some(kind) => Err(CutFault::TooLong(kind)),
        None => Ok(()),
    }
}

fn question(stock: &[Length], wanted: &[Wanted], kerf: Length, order: &[usize]) -> Question {
    let mut costs: Vec<i64> = stock.iter().map(|length| length.units()).collect();
    costs.sort_unstable();
    costs.dedup();
    Question {
        stocks: costs
            .iter()
            .map(|cost| (cost + kerf.units(), *cost))
            .collect(),
        lengths: order
            .iter()
            .map(|kind| (wanted[*kind].length + kerf).units())
            .collect(),
        counts: order.iter().map(|kind| wanted[*kind].count.get()).collect(),
    }
}

fn answer(
    question: &Question,
    cuts: &[Pattern],
    at_least: i64,
    kerf: Length,
    order: &[usize],
) -> CutList {
    let bars: Vec<Bar> = cuts
        .iter()
        .map(|pattern| {
            let (room, cost) = question.stocks[pattern.stock];
            let left = Length::from_units(room - question.taken(&pattern.counts)) - kerf;
            let kinds = pattern.counts.iter().zip(order);
            Bar {
                stock: Length::from_units(cost),
                pieces: kinds
                    .flat_map(|(count, kind)| vec![*kind; *count])
                    .collect(),
                left: left.max(Length::ZERO),
            }
        })
        .collect();
    CutList {
        bought: bars.iter().map(|bar| bar.stock).sum(),
        at_least: Length::from_units(at_least),
        bars,
    }
}

impl Question {
    pub(super) fn cost(&self, cuts: &[Pattern]) -> i64 {
        cuts.iter()
            .map(|pattern| self.stocks[pattern.stock].1)
            .sum()
    }

    /// What pieces take of a stock length, kerfs included.
    pub(super) fn taken(&self, counts: &[usize]) -> i64 {
        let each = counts.iter().zip(&self.lengths);
        each.map(|(count, length)| i64::try_from(*count).unwrap_or(i64::MAX) * length)
            .sum()
    }

    /// The cheapest stock that pieces go into.
    pub(super) fn stock_for(&self, taken: i64) -> Option<usize> {
        self.stocks.iter().position(|(room, _)| *room >= taken)
    }

    /// Whole stock lengths sum to multiples of their greatest common part: a cost up to there.
    pub(super) fn rounded_up(&self, cost: f64) -> i64 {
        let part = self
            .stocks
            .iter()
            .fold(0, |part, (_, cost)| common(part, *cost))
            .max(1);
        #[expect(
            clippy::cast_precision_loss,
            clippy::cast_possible_truncation,
            reason = "a bound may be a little low"
        )]
        let parts = (cost / part as f64 - 1e-6).ceil().max(0.0) as i64;
        parts.saturating_mul(part)
    }
}

fn common(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { common(b, a % b) }
}
