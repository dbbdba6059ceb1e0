//! Light on a tread.

use crate::rules::prelude::*;

pub(crate) const READ: Input<Illuminance> = asked(
    "tread-reading",
    "the light read on the darkest tread",
    Who::Site,
)
.between("0 lx", "5000 lx")
.wanted();
pub(crate) const LAMP: Input<Intensity> = asked(
    "lamp-intensity",
    "what the lamp sends towards the tread",
    Who::Maker,
)
.between("0.1 cd", "5000 cd");
pub(crate) const OVER: Input<Length> = asked(
    "lamp-height",
    "the height of the lamp over the tread",
    Who::Drawings,
)
.between("50 mm", "6 m");
pub(crate) const ASIDE: Input<Length> = asked(
    "lamp-aside",
    "how far the middle of the tread is from under the lamp",
    Who::Drawings,
)
.between("0 mm", "6 m");
const LEAST: Input<Illuminance> = limit("stair-light-least", "the least light on a tread").or(
    "11 lx",
    "1 fc, IRC R303.7",
    Published,
);

pub(crate) static RULE: Rule = Rule {
    name: "tread-light",
    title: "Light on a tread",
    family: Family::Electric,
    question: "Is there light enough on every tread?",
    inputs: &[READ.spec, LAMP.spec, OVER.spec, ASIDE.spec, LEAST.spec],
    formula: &["E = I h / d³, d² = h² + a²"],
    sources: &[
        published("Inverse square and cosine laws, IES Lighting Handbook"),
        published("IRC 2021 R303.7: 1 fc at the centre of treads and landings"),
        memory("EN 12464-1: 100 lx on stairs of workplaces"),
    ],
    caution: "Light on stairs keeps people from falling: switched at both ends, no glare into the eyes of who comes \
              down, no shadow on the nosing. Check with the authority having jurisdiction.",
    way_out: "Another lamp, a brighter one, or one nearer to every second tread.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let light = if let Some(read) = w.known(&READ) {
        read
    } else {
        let (lamp, over, aside) = (w.take(&LAMP)?, w.take(&OVER)?, w.take(&ASIDE)?);
        let far = Length::of_base(over.base().hypot(aside.base()));
        let far = w.step(
            "Way of the light",
            &[&"√(", &over, &"² +", &aside, &"²)"],
            far,
        );
        let light = lamp * over / (far * far * far);
        w.step(
            "Light on the tread",
            &[&lamp, &"×", &over, &"/", &far, &"³"],
            light,
        )
    };
    let least = w.take(&LEAST)?;
    w.at_least("the light on the tread", light, least);
    Ok(())
}
