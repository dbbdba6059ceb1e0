//! Room in a box for its wires.

use crate::rules::prelude::*;

pub(crate) const HOLDS: Input<Volume> =
    asked("box-volume", "the volume of the box", Who::Maker).between("2 in3", "500 in3");
pub(crate) const WIRES: Input<Number> = asked(
    "box-wires",
    "the wires that end or are joined in it, without grounds",
    Who::Electrician,
)
.between("0", "100");
pub(crate) const SIZE: Input<Word> = word(
    "box-wire-size",
    "the size of the wires",
    &["awg-14", "awg-12", "awg-10", "awg-8"],
    Who::Electrician,
);
pub(crate) const DEVICES: Input<Number> = asked(
    "box-devices",
    "the switches and outlets in it, by their straps",
    Who::Electrician,
)
.between("0", "20");
const CLAMPS: Input<Number> = asked(
    "box-clamps",
    "whether clamps are inside the box: 1 or 0",
    Who::Electrician,
)
.between("0", "1")
.guessed("1", "0", "1", "Boxes with their clamps inside");

pub(crate) static RULE: Rule = Rule {
    name: "box-fill",
    title: "Fill of a box",
    family: Family::Electric,
    question: "Is there room in the box for its wires?",
    inputs: &[HOLDS.spec, WIRES.spec, SIZE.spec, DEVICES.spec, CLAMPS.spec],
    formula: &["(wires + 2 × devices + clamps + 1 for all grounds) × volume for one"],
    sources: &[published(
        "NEC (NFPA 70) 314.16(B): 2.00, 2.25, 2.50, 3.00 in³ for 14, 12, 10, 8 AWG; to four grounds count as one",
    )],
    caution: cautions::ELECTRIC,
    way_out: "A deeper box, an extension, or splices moved elsewhere.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (wires, devices, clamps) = (w.take(&WIRES)?, w.take(&DEVICES)?, w.take(&CLAMPS)?);
    let counted = Number(wires.0 + 2.0 * devices.0 + clamps.0 + 1.0);
    let counted = w.step(
        "Counted wires",
        &[&wires, &"+ 2 ×", &devices, &"+", &clamps, &"+ 1"],
        counted,
    );
    let each: Volume = fixed(match w.word(&SIZE)? {
        "awg-14" => "2 in3",
        "awg-12" => "2.25 in3",
        "awg-10" => "2.5 in3",
        _ => "3 in3",
    });
    let wanted = w.step("Room wanted", &[&counted, &"×", &each], each * counted.0);
    let holds = w.take(&HOLDS)?;
    w.at_least("the volume of the box", holds, wanted);
    Ok(())
}
