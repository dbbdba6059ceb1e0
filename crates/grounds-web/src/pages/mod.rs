//! The pages.

mod cause;
mod cautions;
mod cover;
mod frame;
mod house;
mod lost;
mod more;
mod now;
mod row;
mod weeks;
mod work;

pub(crate) use frame::{Tab, frame};
pub(crate) use house::house;
pub(crate) use lost::lost;
pub(crate) use more::{jobs, more};
pub(crate) use now::now;
pub(crate) use weeks::weeks;
pub(crate) use work::work;
