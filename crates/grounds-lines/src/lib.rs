//! One description of a face's layers answers whether it will fit.
//!
//! [`lines::Lines`] turns a job and what was seen on site into points, links and needs, each of
//! which still knows what it stands for in the house. It knows nothing of dates and plans.
//! [`asked`] answers what is asked by hand, with figures that are in no job.

pub mod advice;
pub mod answers;
pub mod asked;
pub mod holdups;
pub mod lines;
pub mod readings;
pub mod said;
pub mod take;
