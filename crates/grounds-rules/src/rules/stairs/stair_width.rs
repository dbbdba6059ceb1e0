//! Clear width of a stair, over and between its rails.

use crate::rules::prelude::*;

pub(crate) const WIDTH: Input<Length> = asked(
    "stair-width",
    "the clear width of the stair over the rails",
    Who::Site,
)
.between("400 mm", "4 m");
pub(crate) const AT_RAILS: Input<Length> = asked(
    "width-at-rails",
    "the clear width between the rails, or from rail to wall",
    Who::Site,
)
.between("300 mm", "4 m")
.wanted();
pub(crate) const RAILS: Input<Number> = asked("rails", "how many sides have a rail", Who::Drawings)
    .between("0", "2")
    .wanted();
const LEAST: Input<Length> = limit("stair-width-least", "the least clear width").or(
    "800 mm",
    "As furniture asks for it",
    Practice,
);
const ONE: Input<Length> = limit("width-one-rail-least", "the least width beside one rail");
const TWO: Input<Length> = limit("width-two-rails-least", "the least width between two rails");

pub(crate) static RULE: Rule = Rule {
    name: "stair-width",
    title: "Width of a stair",
    family: Family::Stairs,
    question: "Is the stair wide enough, and is it still between its rails?",
    inputs: &[
        WIDTH.spec,
        LEAST.spec,
        AT_RAILS.spec,
        RAILS.spec,
        ONE.spec,
        TWO.spec,
    ],
    formula: &["width ≥ least, over the rails and between them"],
    sources: &[
        published("IRC 2021 R311.7.1: 36 in; 31-1/2 in at one rail, 27 in between two"),
        published("IBC 2021 1011.2: 44 in, 36 in for fewer than 50 people"),
        memory("DIN 18065: 800 mm in dwellings"),
    ],
    caution: cautions::STAIRS,
    way_out: "A rail nearer the wall, a thinner wall finish, or one rail for two.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let width = w.take(&WIDTH)?;
    let least = w.take(&LEAST)?;
    w.at_least("the clear width", width, least);
    if let Some((at_rails, rails)) = w.known(&AT_RAILS).zip(w.known(&RAILS)) {
        let least = if rails.0 > 1.5 {
            w.known(&TWO)
        } else {
            w.known(&ONE)
        };
        if let Some(least) = least {
            w.at_least("the width at the rails", at_rails, least);
        }
    }
    Ok(())
}
