//! A flood test: deep enough, long enough, and not too heavy.

use crate::rules::prelude::*;

pub(crate) const DEPTH: Input<Length> =
    asked("flood-depth", "the depth of the water", Who::Site).between("5 mm", "400 mm");
pub(crate) const STOOD: Input<Time> =
    asked("flood-stood", "how long it stands", Who::Site).between("1 min", "2 weeks");
pub(crate) const CARRIES: Input<Pressure> = asked(
    "floor-carries",
    "the load that the floor carries beside its own",
    Who::Engineer,
)
.between("0.1 kPa", "50 kPa")
.wanted();
const SHALLOW: Input<Length> =
    limit("flood-depth-least", "the least depth of the water").or("25 mm", "ASTM D5957", Memory);
const DEEP: Input<Length> = limit("flood-depth-most", "the greatest depth of the water").or(
    "102 mm",
    "ASTM D5957: 4 in",
    Memory,
);
const LEAST: Input<Time> =
    limit("flood-time-least", "the least time that it stands").or("24 h", "ASTM D5957", Published);

pub(crate) static RULE: Rule = Rule {
    name: "flood-test",
    title: "Flood test",
    family: Family::WetRooms,
    question: "Is the flood test deep and long enough, and does the floor carry the water?",
    inputs: &[
        DEPTH.spec,
        SHALLOW.spec,
        DEEP.spec,
        STOOD.spec,
        LEAST.spec,
        CARRIES.spec,
    ],
    formula: &["load = 1000 kg/m³ × g × depth"],
    sources: &[
        published("ASTM D5957: 24 to 72 h"),
        published("ASTM D5957: at most 100 mm (4 in) without the engineer"),
        memory("ASTM D5957: 1 in at least"),
        published(
            "IRC P2503.6: 2 in at the threshold for 15 min at least; the trade stands it 24 h",
        ),
    ],
    caution: cautions::WET,
    way_out: "Stand it again with the outlet plugged, the level marked, and somebody looking from below.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let depth = w.take(&DEPTH)?;
    let (shallow, deep) = (w.take(&SHALLOW)?, w.take(&DEEP)?);
    w.at_least("the depth of the water", depth, shallow);
    w.at_most("the depth of the water", depth, deep);
    let load = Pressure::of_base(1000.0 * 9.806_65 * depth.base());
    let load = w.step(
        "Load of the water",
        &[&"1000 kg/m³ × 9.81 m/s² ×", &depth],
        load,
    );
    let stood = w.take(&STOOD)?;
    let least = w.take(&LEAST)?;
    w.at_least("the time it stands", stood, least);
    if let Some(carries) = w.known(&CARRIES) {
        w.at_most("the load of the water", load, carries);
    }
    Ok(())
}
