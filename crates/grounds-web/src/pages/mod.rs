//! The pages.

mod cause;
mod cautions;
mod cover;
mod fit;
mod forecast;
mod frame;
mod house;
mod join;
mod live;
mod lost;
mod more;
mod now;
mod phones;
mod photos;
mod qr;
mod row;
mod rules;
mod survey;
mod talk;
mod walk;
mod weeks;
mod what_if;
mod win_back;
mod work;

pub(crate) use cover::{before, behind, cover, hold};
pub(crate) use fit::{
    Typed, fit, need, opening, paper, plane, read, scale as paper_scale, set_out, set_out_list,
    stair,
};
pub(crate) use forecast::forecast;
pub(crate) use frame::{Tab, frame, frame_with};
pub(crate) use house::{house, next_in};
pub(crate) use join::{Asked, join, shut_out, take_in_certificate};
pub(crate) use live::Live;
pub(crate) use lost::lost;
pub(crate) use more::{jobs, more};
pub(crate) use now::now;
pub(crate) use phones::phones;
pub(crate) use photos::STILL_ON_THE_PHONE;
pub(crate) use rules::{
    address as rule_address, index as rule_index, one as rule, rules, work_out,
};
pub(crate) use survey::{room as survey_room, survey};
pub(crate) use talk::{mend, walk as spoken_walk, walks};
pub(crate) use walk::walk;
pub(crate) use weeks::weeks;
pub(crate) use what_if::what_if;
pub(crate) use win_back::{address as win_back_address, win_back};
pub(crate) use work::work;
