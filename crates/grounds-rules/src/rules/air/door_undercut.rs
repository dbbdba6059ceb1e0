//! The gap under a door: for air to come back through, and to clear the floor.

use crate::{physics::duct, rules::prelude::*};

pub(crate) const WIDTH: Input<Length> =
    asked("door-width", "the width of the door", Who::Drawings).between("300 mm", "3 m");
pub(crate) const UNDERCUT: Input<Length> = asked(
    "undercut",
    "the gap under the door, over the finished floor",
    Who::Drawings,
)
.between("0 mm", "100 mm");
pub(crate) const RETURN: Input<Flow> = asked(
    "return-air",
    "the air that comes back under the door",
    Who::Services,
)
.between("0 L/s", "500 L/s")
.wanted();
const DROP: Input<Pressure> = limit(
    "door-pressure-most",
    "the pressure that may stand across a closed door",
)
.or(
    "3 Pa",
    "Balanced rooms: 3 Pa across a closed door",
    Practice,
);
const CLEAR: Input<Length> = limit(
    "door-clearance-least",
    "the least gap over the finished floor",
)
.or(
    "5 mm",
    "UK warranty practice: 5 to 22 mm under a door",
    Practice,
);
const CLEAR_MOST: Input<Length> = limit(
    "door-clearance-most",
    "the greatest gap over the finished floor",
)
.or(
    "22 mm",
    "UK warranty practice: 5 to 22 mm under a door",
    Practice,
);

pub(crate) static RULE: Rule = Rule {
    name: "door-undercut",
    title: "Gap under a door",
    family: Family::Air,
    question: "Does the door clear the floor, and does the room's air get back under it?",
    inputs: &[
        WIDTH.spec,
        UNDERCUT.spec,
        CLEAR.spec,
        CLEAR_MOST.spec,
        RETURN.spec,
        DROP.spec,
    ],
    formula: &["Q = 0.6 × width × gap × √(2 Δp / ρ)"],
    sources: &[
        published("UK warranty manual, tolerances: 5 to 22 mm under internal doors"),
        published("Flow through a sharp-edged opening, ASHRAE Fundamentals (2017) chapter 16"),
        practice("3 Pa at most across a closed door"),
    ],
    caution: "A door that must stop fire or smoke keeps the gap of its test: no undercut. Check with the authority \
              having jurisdiction.",
    way_out: "A larger gap, a transfer grille, or a return of its own.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let gap = w.take(&UNDERCUT)?;
    let (least, most) = (w.take(&CLEAR)?, w.take(&CLEAR_MOST)?);
    w.at_least("the gap under the door", gap, least);
    w.at_most("the gap under the door", gap, most);
    let width = w.take(&WIDTH)?;
    let area = w.step("Area of the gap", &[&width, &"×", &gap], width * gap);
    let drop = w.take(&DROP)?;
    let speed = duct::opening_speed(drop);
    let carries = w.step(
        "Air that it lets back",
        &[&area, &"× 0.6 √(2 ×", &drop, &"/ 1.204 kg/m³)"],
        area * speed,
    );
    if let Some(flow) = w.known(&RETURN) {
        w.at_least("the air let back", carries, flow);
    }
    Ok(())
}
