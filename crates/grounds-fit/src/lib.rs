//! Will it fit: lines of points and links, readings, set-outs, openings, planes, spacing and cuts.
//!
//! A **line** is an axis across or along the work. Points on it are planes, edges and centres;
//! links say how far one point is from another and how well that is known; a need bounds the
//! distance of two points. [`net::Net`] states all of it. From it follow
//!
//! 1. the **prior**: nominal, worst case and spread of each need, with each link's share;
//! 2. the **adjustment**: the same once readings are in, and the readings that disagree;
//! 3. the **set-outs**: what to set by, so that the tightest need has the most room;
//! 4. what to **measure first**.
//!
//! The crate knows nothing of houses, jobs or time. Lengths are millimetres as `f64`, because
//! spreads are not whole numbers; whatever is ordered or cut is rounded in the unit of the tape.

pub mod adjust;
pub mod check;
pub mod cuts;
mod luck;
pub mod measure_first;
pub mod net;
mod network;
pub mod opening;
pub mod plane;
pub mod pocket;
pub mod prior;
pub mod sample;
pub mod set_out;
pub mod spacing;
pub mod wood;
