//! The links of a net as a graph, taken apart where one point separates it.
//!
//! Points that hold a graph together cut it into **blocks**: single links (of which most of a house
//! consists), and groups of links that close loops. What one block says of a distance is independent
//! of all others, so that means and variances of the pieces of a route add up, worst cases add up,
//! and only loops need any linear algebra.

pub(crate) mod blocks;
pub(crate) mod estimate;
pub(crate) mod factor;
pub(crate) mod graph;
pub(crate) mod joined;
pub(crate) mod select;
