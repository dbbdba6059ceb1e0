//! Boards and the deck under them: how far their moisture may differ.

use crate::rules::prelude::*;

pub(crate) const BOARD: Input<Ratio> = asked(
    "board-moisture",
    "the moisture of the boards, mean of many readings",
    Who::Site,
)
.between("2 %", "30 %");
pub(crate) const DECK: Input<Ratio> = asked(
    "subfloor-moisture",
    "the moisture of the subfloor, mean of many readings",
    Who::Site,
)
.between("2 %", "40 %");
pub(crate) const WIDTH: Input<Length> =
    asked("board-width", "the width of a board", Who::Drawings).between("20 mm", "600 mm");
const NARROW: Input<Ratio> = limit(
    "moisture-apart-strip",
    "what strip under 3 in may differ by",
)
.or("4 %", "NWFA installation guidelines", Published);
const WIDE: Input<Ratio> = limit(
    "moisture-apart-plank",
    "what plank of 3 in and wider may differ by",
)
.or("2 %", "NWFA installation guidelines", Published);
const DRY: Input<Ratio> = limit(
    "subfloor-moisture-most",
    "the most moisture of a dry wooden subfloor",
)
.or(
    "12 %",
    "NWFA installation guidelines, most regions",
    Published,
);

pub(crate) static RULE: Rule = Rule {
    name: "timber-moisture",
    title: "Moisture of boards and subfloor",
    family: Family::Timber,
    question: "Are the boards and the subfloor near enough in moisture to be joined?",
    inputs: &[
        BOARD.spec,
        DECK.spec,
        WIDTH.spec,
        NARROW.spec,
        WIDE.spec,
        DRY.spec,
    ],
    formula: &[
        "subfloor ≤ 12 %",
        "|subfloor − boards| ≤ 4 % under 3 in, 2 % from 3 in on",
    ],
    sources: &[published(
        "NWFA installation guidelines, moisture: 4 % and 2 %; subfloor 12 %; 20 and 40 readings per 1000 ft²",
    )],
    caution: cautions::TIMBER,
    way_out: "Heat and ventilate, wait, and read again; never force it with hot air.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let deck = w.take(&DECK)?;
    let dry = w.take(&DRY)?;
    w.at_most("the moisture of the subfloor", deck, dry);
    let board = w.take(&BOARD)?;
    let apart = Ratio::of_base((deck - board).base().abs());
    let apart = w.step("Difference", &[&deck, &"and", &board], apart);
    let width = w.take(&WIDTH)?;
    let most = if width < fixed("76 mm") {
        w.take(&NARROW)?
    } else {
        w.take(&WIDE)?
    };
    w.at_most("the difference of moisture", apart, most);
    Ok(())
}
