//! Cut lists: pieces out of stock lengths, with what the saw takes, from as little stock as can be.
//!
//! Lengths are exact. A piece takes its length and one kerf, and a stock length has room for its
//! own length and one kerf, since the last cut may fall on its end. What is least is the total
//! length bought; with stock of one length that is the fewest.

mod columns;
mod exact;
mod knapsack;
mod list;

pub use list::{Bar, CutFault, CutList, Wanted, cut_list};
