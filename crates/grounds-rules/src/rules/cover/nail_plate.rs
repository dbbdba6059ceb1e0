//! Pipes and cables near the face of a stud.

use crate::rules::prelude::*;

pub(crate) const BEHIND: Input<Length> = asked(
    "bore-behind",
    "how far the edge of the hole is behind the face of the stud",
    Who::Site,
)
.between("0 mm", "300 mm");
pub(crate) const PLATE: Input<bool> = yes_no("plate", "whether a steel plate covers it", Who::Site);
const LEAST: Input<Length> = limit(
    "bore-behind-least",
    "how far behind a hole is safe without a plate",
)
.or("32 mm", "1-1/4 in, NEC 300.4", Memory);

pub(crate) static RULE: Rule = Rule {
    name: "nail-plate",
    title: "Plates over pipes and cables",
    family: Family::Cover,
    question: "Are pipes and cables out of reach of screws, or behind a plate?",
    inputs: &[BEHIND.spec, LEAST.spec, PLATE.spec],
    formula: &["hole ≥ 1-1/4 in behind the face, else a plate of 1/16 in steel"],
    sources: &[memory(
        "NEC 300.4(A), IRC 2021 P2603.2.1: 1-1/4 in, plates of 1/16 in steel",
    )],
    caution: "A screw in a cable kills and a screw in a pipe floods. Plate it before the board, and photograph it; a \
              licensed electrician or plumber mends what was hit.",
    way_out: "A plate, now.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let (behind, least) = (w.take(&BEHIND)?, w.take(&LEAST)?);
    if behind >= least {
        let behind = w.text(&behind);
        w.settle(format!(
            "The hole is {behind} behind the face: no plate is asked for."
        ));
        return Ok(());
    }
    let plate = w.yes(&PLATE)?;
    w.must(
        "a steel plate covers it",
        plate,
        "the hole is too near the face and no plate covers it",
    );
    Ok(())
}
