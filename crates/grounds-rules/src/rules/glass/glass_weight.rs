//! What a pane weighs, and who lifts it.

use crate::rules::prelude::*;

pub(crate) const WIDTH: Input<Length> =
    asked("pane-width", "the width of the pane", Who::Drawings).between("50 mm", "10 m");
pub(crate) const HEIGHT: Input<Length> =
    asked("pane-height", "the height of the pane", Who::Drawings).between("50 mm", "10 m");
pub(crate) const THICKNESS: Input<Length> = asked(
    "pane-thickness",
    "the thickness of the pane, interlayers and all",
    Who::Maker,
)
.between("2 mm", "100 mm");
const INTERLAYER: Input<Length> = asked("interlayer", "the interlayers together", Who::Maker)
    .between("0 mm", "20 mm")
    .wanted();
pub(crate) const STATED: Input<Mass> = asked(
    "stated-weight",
    "the weight that the lift is planned with",
    Who::Drawings,
)
.between("0 kg", "5 t")
.wanted();
pub(crate) const PEOPLE: Input<Number> =
    asked("lifters", "how many lift", Who::Site).between("1", "20");
pub(crate) const GEAR: Input<bool> = yes_no(
    "lifting-gear",
    "whether a lifter or hoist takes the weight all the way",
    Who::Site,
)
.wanted();
pub(crate) const EACH: Input<Mass> = limit("lift-most", "what one person lifts").or(
    "25 kg",
    "British and European guidance on lifting by hand, good conditions",
    Published,
);

/// The density of soda-lime glass.
const GLASS: &str = "2500 kg/m3";
/// The density of PVB interlayer.
const FOIL: &str = "1070 kg/m3";
/// The share by which a stated weight may fall short.
const SHORT: f64 = 0.95;

pub(crate) static RULE: Rule = Rule {
    name: "glass-weight",
    title: "Weight of a pane",
    family: Family::Glass,
    question: "What does the pane weigh, and are there enough hands or a lifter for it?",
    inputs: &[
        WIDTH.spec,
        HEIGHT.spec,
        THICKNESS.spec,
        INTERLAYER.spec,
        STATED.spec,
        GEAR.spec,
        PEOPLE.spec,
        EACH.spec,
    ],
    formula: &[
        "m = width × height × (glass × 2500 kg/m³ + interlayer × 1070 kg/m³)",
        "m / people ≤ 25 kg, or a lifter",
    ],
    sources: &[
        published("EN 572-1: soda-lime glass 2500 kg/m³, 2.5 kg/m² per mm"),
        memory("PVB about 1.07 kg/m² per mm"),
        published(
            "HSE guidance on manual handling, L23 (UK): 25 kg for one man in good conditions",
        ),
    ],
    caution: cautions::GLASS,
    way_out: "More hands, a suction lifter on a hoist, or a pane in two parts.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (width, height) = (w.take(&WIDTH)?, w.take(&HEIGHT)?);
    let area = w.step("Area", &[&width, &"×", &height], width * height);
    let thickness = w.take(&THICKNESS)?;
    let (glass, foil): (Density, Density) = (fixed(GLASS), fixed(FOIL));
    let interlayer = smaller(
        w.known(&INTERLAYER).unwrap_or(Length::of_base(0.0)),
        thickness,
    );
    let weight = area * ((thickness - interlayer) * glass + interlayer * foil);
    let how = [&area as &dyn Show, &"×", &thickness, &"×", &glass];
    let weight = w.step("Weight", &how, weight);
    if let Some(stated) = w.known(&STATED) {
        w.at_least(
            "the weight that the lift is planned with",
            stated,
            weight * SHORT,
        );
    }
    if w.known_yes(&GEAR) == Some(true) {
        w.settle("A lifter or hoist takes the weight; hands only steer.");
        return Ok(());
    }
    let people = w.take(&PEOPLE)?;
    let each = w.step(
        "Weight for each",
        &[&weight, &"/", &people],
        weight / people.0,
    );
    let most = w.take(&EACH)?;
    w.at_most("the weight for each", each, most);
    Ok(())
}
