//! The reading that releases a slab or screed for its finish.

use crate::rules::prelude::*;

pub(crate) const READING: Input<Ratio> = asked(
    "slab-humidity",
    "the humidity read in or on the slab",
    Who::Site,
)
.between("10 %", "100 %");
const MOST: Input<Ratio> = limit("slab-humidity-most", "the most humidity for this finish").or(
    "75 %",
    "Usual where the maker says nothing else",
    Published,
);

pub(crate) static RULE: Rule = Rule {
    name: "slab-moisture",
    title: "Moisture of a slab or screed",
    family: Family::TileAndStone,
    question: "Is the slab dry enough for its finish?",
    inputs: &[READING.spec, MOST.spec],
    formula: &["reading ≤ 75 %, or what the maker of the finish asks"],
    sources: &[
        published("ASTM F2170 and F710: 75 % unless the maker says otherwise"),
        published("BS 8201 and BS 8203: 75 %; some makers of timber ask 65 %"),
    ],
    caution: cautions::MOISTURE,
    way_out: "Dry on with heat and moving air, or a moisture barrier that the maker of the finish accepts.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let reading = w.take(&READING)?;
    let most = w.take(&MOST)?;
    w.at_most("the humidity of the slab", reading, most);
    Ok(())
}
