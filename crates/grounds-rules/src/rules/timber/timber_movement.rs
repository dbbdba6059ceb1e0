//! A timber floor over a year: gaps between the boards, growth towards the walls.

use grounds_fit::wood::{Floor, Sawn, Species, Year, moisture_in_celsius};

use crate::rules::{
    prelude::*,
    timber::timber_moisture::{BOARD, WIDTH},
};

/// The woods of the Wood Handbook's table that are common in floors.
pub(crate) const WOODS: [(&str, &str); 14] = [
    ("american-beech", "american beech"),
    ("black-cherry", "black cherry"),
    ("black-walnut", "black walnut"),
    ("douglas-fir", "douglas-fir, coast"),
    ("hard-maple", "hard maple"),
    ("mahogany", "mahogany"),
    ("red-alder", "red alder"),
    ("red-oak", "red oak"),
    ("southern-pine", "southern pine, longleaf"),
    ("teak", "teak"),
    ("white-ash", "white ash"),
    ("white-fir", "white fir"),
    ("white-oak", "white oak"),
    ("yellow-birch", "yellow birch"),
];

pub(crate) const WOOD: Input<Word> = word(
    "wood",
    "the wood",
    &[
        "american-beech",
        "black-cherry",
        "black-walnut",
        "douglas-fir",
        "hard-maple",
        "mahogany",
        "red-alder",
        "red-oak",
        "southern-pine",
        "teak",
        "white-ash",
        "white-fir",
        "white-oak",
        "yellow-birch",
    ],
    Who::Designer,
);
pub(crate) const SAWN: Input<Word> = word(
    "sawn",
    "how the boards are sawn",
    &["flat", "quarter"],
    Who::Maker,
);
pub(crate) const MAKE: Input<Word> = word(
    "board-make",
    "how the boards are made",
    &["solid", "engineered"],
    Who::Maker,
);
const CROSSWISE: Input<Ratio> = asked(
    "engineered-share",
    "what boards glued crosswise move, as a share of solid wood",
    Who::Maker,
)
.between("0 %", "100 %")
.guessed("20 %", "10 %", "30 %", "10 to 30 % of solid wood");
pub(crate) const FIELD: Input<Length> = asked(
    "field-width",
    "the width of the floor across the boards",
    Who::Drawings,
)
.between("300 mm", "60 m");
pub(crate) const EDGE: Input<Length> =
    asked("edge-gap", "the gap at the walls", Who::Drawings).between("0 mm", "60 mm");
const WARM: Input<Temperature> = asked(
    "room-temperature",
    "the usual temperature of the room",
    Who::Designer,
)
.between("5 C", "35 C")
.guessed("20 C", "18 C", "22 C", "Living rooms");
const DRIEST: Input<Ratio> = asked(
    "humidity-driest",
    "the humidity of the driest weeks",
    Who::Designer,
)
.between("5 %", "80 %")
.guessed("30 %", "20 %", "35 %", "NWFA: hold 30 to 50 % all year");
const DAMPEST: Input<Ratio> = asked(
    "humidity-dampest",
    "the humidity of the dampest weeks",
    Who::Designer,
)
.between("20 %", "95 %")
.guessed(
    "55 %",
    "50 %",
    "65 %",
    "NWFA: hold 30 to 50 % all year; damp summers reach more",
);
const GAP_MOST: Input<Length> = limit(
    "board-gap-most",
    "the widest gap between boards that is put up with",
)
.or("1.5 mm", "About the thickness of a coin", Practice);

pub(crate) static RULE: Rule = Rule {
    name: "timber-movement",
    title: "A timber floor over the year",
    family: Family::Timber,
    question: "Is there room at the walls for the floor to grow, and how wide do gaps open in winter?",
    inputs: &[
        WOOD.spec,
        SAWN.spec,
        MAKE.spec,
        CROSSWISE.spec,
        WIDTH.spec,
        FIELD.spec,
        BOARD.spec,
        WARM.spec,
        DRIEST.spec,
        DAMPEST.spec,
        EDGE.spec,
        GAP_MOST.spec,
    ],
    formula: &[
        "M from temperature and humidity (Hailwood–Horrobin)",
        "ΔD = D C ΔM",
        "gap at each wall ≥ growth / 2",
    ],
    sources: &[
        published("USDA Wood Handbook (2010) equations 4-5 and 13-2, table 13-5"),
        practice("Boards glued crosswise move 10 to 30 % as much"),
    ],
    caution: cautions::TIMBER,
    way_out: "Narrower or quartersawn boards, boards glued crosswise, a wider gap under the skirting, or air held in range.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let wood = w.word(&WOOD)?;
    let sawn = if w.word(&SAWN)? == "quarter" {
        Sawn::Quarter
    } else {
        Sawn::Flat
    };
    let name = WOODS
        .iter()
        .find(|(key, _)| *key == wood)
        .map_or(wood, |(_, name)| name);
    let per_percent = Species::named(name).map_or(0.0, |species| species.coefficient(sawn));
    let share = match w.word(&MAKE)? {
        "engineered" => w.take(&CROSSWISE)?,
        _ => Ratio::of_base(1.0),
    };
    let coefficient = Ratio::of_base(per_percent * share.base());
    let coefficient = w.step(
        "Change of width per % of moisture",
        &[&Ratio::of_base(per_percent), &"×", &share],
        coefficient,
    );
    let warm = w.take(&WARM)?;
    let (driest, dampest) = (w.take(&DRIEST)?, w.take(&DAMPEST)?);
    let comes_to = |humidity: Ratio| moisture_in_celsius(celsius(warm), humidity.base() * 100.0);
    let dry = Ratio::of_base(comes_to(driest) / 100.0);
    let dry = w.step(
        "Moisture in the driest weeks",
        &[&"in air of", &warm, &"and", &driest],
        dry,
    );
    let damp = Ratio::of_base(comes_to(dampest) / 100.0);
    let damp = w.step(
        "Moisture in the dampest weeks",
        &[&"in air of", &warm, &"and", &dampest],
        damp,
    );
    let (width, field, laid) = (w.take(&WIDTH)?, w.take(&FIELD)?, w.take(&BOARD)?);
    let year = Year {
        driest: dry.base() * 100.0,
        dampest: damp.base() * 100.0,
    };
    let moved = |board: Length| {
        let floor = Floor {
            board: board.base() * 1000.0,
            boards: 1,
            coefficient: coefficient.base(),
            laid_at: laid.base() * 100.0,
        };
        floor.over(year)
    };
    let gap = Length::of_base(moved(width).gap / 1000.0);
    let gap = w.step(
        "Gap beside each board in the driest weeks",
        &[
            &width,
            &"×",
            &coefficient,
            &"× points from",
            &laid,
            &"to",
            &dry,
        ],
        gap,
    );
    let growth = Length::of_base(moved(field).growth / 1000.0);
    let growth = w.step(
        "Growth of the floor in the dampest weeks",
        &[
            &field,
            &"×",
            &coefficient,
            &"× points from",
            &laid,
            &"to",
            &damp,
        ],
        growth,
    );
    let edge = w.take(&EDGE)?;
    w.at_least("the gap at the walls", edge, growth / 2.0);
    let most = w.take(&GAP_MOST)?;
    w.at_most("the gap beside each board", gap, most);
    Ok(())
}
