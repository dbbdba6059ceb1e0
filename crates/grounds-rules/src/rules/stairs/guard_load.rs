//! The moment that a guard brings into its fixings.

use crate::rules::{prelude::*, stairs::guard_height::HEIGHT};

pub(crate) const SPACING: Input<Length> = asked(
    "post-spacing",
    "the distance between the posts, or the length of a pane",
    Who::Drawings,
)
.between("50 mm", "6 m");
pub(crate) const CARRIES: Input<Moment> = asked(
    "fixing-moment",
    "the moment that one post's fixing may carry, safety factor included",
    Who::Engineer,
)
.between("1 Nm", "100 kNm");
const LINE: Input<LineLoad> = limit("guard-line-load", "the load along the top of the guard");
const POINT: Input<Force> = limit("guard-point-load", "the load at one point of the top");

pub(crate) static RULE: Rule = Rule {
    name: "guard-load",
    title: "Load on a guard",
    family: Family::Stairs,
    question: "Can the fixing of a post carry what people bring to the top of the guard?",
    inputs: &[
        HEIGHT.spec,
        SPACING.spec,
        LINE.spec,
        POINT.spec,
        CARRIES.spec,
    ],
    formula: &[
        "M = line load × spacing × height",
        "M = point load × height",
        "fixing ≥ the larger",
    ],
    sources: &[
        published("IRC 2021 table R301.5: 200 lb at any point of the top"),
        published("IBC 2021 1607.9: 50 plf or 200 lb, not together"),
        published(
            "EN 1991-1-1 table 6.12; UK: 0.36 kN/m inside one dwelling, 0.74 kN/m on balconies",
        ),
    ],
    caution: cautions::GUARDS,
    way_out: "Closer posts, a stiffer fixing, blocking behind it: all by the engineer's figures.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let height = w.take(&HEIGHT)?;
    let mut moment = Moment::of_base(0.0);
    if let Some(line) = w.known(&LINE) {
        let spacing = w.take(&SPACING)?;
        let along = line * spacing * height;
        let along = w.step(
            "Moment of the load along the top",
            &[&line, &"×", &spacing, &"×", &height],
            along,
        );
        moment = larger(moment, along);
    }
    if let Some(point) = w.known(&POINT) {
        let at_once = w.step(
            "Moment of the load at one point",
            &[&point, &"×", &height],
            point * height,
        );
        moment = larger(moment, at_once);
    }
    let carries = w.take(&CARRIES)?;
    w.at_most("the moment at the foot", moment, carries);
    Ok(())
}
