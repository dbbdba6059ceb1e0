//! Boards side by side over a year.

use grounds_fit::wood::{
    Floor, Grade as Known, Moved, Sawn, Species, Year, moisture_in_celsius, moisture_in_fahrenheit,
};
use grounds_measure::{Length, Units};

use super::{Answer, Drawn, Field, Grade, Kind, Part, PartKind, Run, Table, field::Form, source};

pub(super) const FIELDS: &[Field] = &[
    Field {
        key: "species",
        label: "Wood",
        hint: ["Like white oak.", "Like white oak."],
        usual: ["white oak", "white oak"],
        kind: Kind::Choice(&WOODS),
        is_needed: true,
    },
    Field {
        key: "sawn",
        label: "How it was sawn",
        hint: ["", ""],
        usual: ["flat", "flat"],
        kind: Kind::Choice(&[
            ("flat", "flat: rings along the width, moves most"),
            (
                "quarter",
                "to quarter: rings across the width, moves about half",
            ),
        ]),
        is_needed: true,
    },
    Field {
        key: "board",
        label: "Width of a board as laid",
        hint: ["Like 178.", "Like 7."],
        usual: ["", ""],
        kind: Kind::Above,
        is_needed: true,
    },
    Field {
        key: "across",
        label: "Width of the field, across the boards",
        hint: ["Like 4200.", "Like 14'."],
        usual: ["", ""],
        kind: Kind::Above,
        is_needed: true,
    },
    Field {
        key: "laid",
        label: "Moisture of the boards when laid, in percent",
        hint: [
            "From a moisture meter. Like 8.",
            "From a moisture meter. Like 8.",
        ],
        usual: ["8", "8"],
        kind: Kind::Percent,
        is_needed: true,
    },
    Field {
        key: "warmth",
        label: "Temperature of the room",
        hint: ["In °C, like 21.", "In °F, like 70."],
        usual: ["21", "70"],
        kind: Kind::Degrees,
        is_needed: true,
    },
    Field {
        key: "dry",
        label: "Air in the driest weeks, percent of humidity",
        hint: [
            "Like 30, usually late winter.",
            "Like 30, usually late winter.",
        ],
        usual: ["30", "30"],
        kind: Kind::Percent,
        is_needed: true,
    },
    Field {
        key: "damp",
        label: "Air in the dampest weeks, percent of humidity",
        hint: [
            "Like 55, usually late summer.",
            "Like 55, usually late summer.",
        ],
        usual: ["55", "55"],
        kind: Kind::Percent,
        is_needed: true,
    },
    Field {
        key: "edge",
        label: "Gap left at each of both edges",
        hint: [
            "Left out, it is not judged. Like 15.",
            "Left out, it is not judged. Like 5/8.",
        ],
        usual: ["", ""],
        kind: Kind::NotBelow,
        is_needed: false,
    },
];

/// Every wood of the handbook's table as a choice.
const WOODS: [(&str, &str); Species::ALL.len()] = {
    let mut woods = [("", ""); Species::ALL.len()];
    let mut index = 0;
    while index < woods.len() {
        woods[index] = (Species::ALL[index].name, Species::ALL[index].name);
        index += 1;
    }
    woods
};

const CAUTIONS: &[&str] = &[
    "What the maker states for the floor comes first, above all for boards glued crosswise.",
    "Growth that has no room lifts floors and pushes walls. Dust of hard wood harms lungs: extract \
     at the tool.",
];

/// The moistures that the handbook's equation is meant for, in percent.
const MEANT: (f64, f64) = (6.0, 14.0);

pub(super) fn answer(form: &mut Form<'_>) -> Option<Answer> {
    let species = form.choice("species").and_then(Species::named);
    let sawn = form.choice("sawn");
    let board = form.length("board");
    let across = form.length("across");
    let laid_at = form.figure("laid", (1.0, 30.0));
    let range = match form.units {
        Units::Metric => (0.0, 55.0),
        Units::Imperial => (32.0, 131.0),
    };
    let warmth = form.figure("warmth", range);
    let dry = form.figure("dry", (0.0, 95.0));
    let damp = form.figure("damp", (0.0, 95.0));
    let edge = form.length("edge");
    if !form.wrong.is_empty() {
        return None;
    }
    let (species, board, across) = (species?, board?, across?);
    let (dry, damp) = (dry?, damp?);
    if dry > damp {
        form.refuse(
            "dry",
            "it is damper than in the dampest weeks. Swap the two.",
        );
    }
    let (boards, _) = across.divide_by(board)?;
    if !(1..=1_000).contains(&boards) {
        let why = "that is no row of 1 to 1,000 boards. Check both widths and their units.";
        form.refuse("across", why);
        return None;
    }
    let sawn = if sawn? == "quarter" {
        Sawn::Quarter
    } else {
        Sawn::Flat
    };
    let moisture = |air: f64| match form.units {
        Units::Metric => moisture_in_celsius(warmth.unwrap_or_default(), air),
        Units::Imperial => moisture_in_fahrenheit(warmth.unwrap_or_default(), air),
    };
    let year = Year {
        driest: moisture(dry),
        dampest: moisture(damp),
    };
    let floor = Floor {
        board: board.mm(),
        boards: usize::try_from(boards).ok()?,
        coefficient: species.coefficient(sawn),
        laid_at: laid_at?,
    };
    let asked = Asked {
        species,
        floor,
        year,
        air: (dry, damp),
        edge,
    };
    Some(told(form, &asked, floor.over(year)))
}

struct Asked {
    species: &'static Species,
    floor: Floor,
    year: Year,
    air: (f64, f64),
    edge: Option<Length>,
}

fn told(form: &Form<'_>, asked: &Asked, moved: Moved) -> Answer {
    let enough = asked.edge.is_none_or(|edge| edge.mm() >= moved.edge);
    let shrinks = if moved.gap > 0.0 {
        format!(
            "In the driest weeks a gap of {} opens beside each board",
            form.say_mm(moved.gap)
        )
    } else {
        "No gap opens in the driest weeks".to_owned()
    };
    let grows = if moved.growth > 0.0 {
        format!(
            "in the dampest the field wants to be {} wider: leave {} at each of both edges",
            form.say_mm(moved.growth),
            form.say_mm(moved.edge)
        )
    } else {
        "in the dampest the field grows no wider than it was laid".to_owned()
    };
    let then = match asked.edge {
        Some(edge) if !enough => format!(
            "The {} left is {} shy of that: leave more, break the field, or wait until the boards \
             have taken up the air of the room.",
            form.exact(edge),
            form.say_mm(moved.edge - edge.mm())
        ),
        Some(edge) => format!("The {} left will do.", form.exact(edge)),
        None if moved.growth > 0.0 => {
            "A field that is fixed at one edge needs all of it at the other.".to_owned()
        }
        None => String::new(),
    };
    Answer {
        does: enough,
        said: format!("{shrinks}; {grows}."),
        then,
        drawn: drawn(asked, moved),
        table: Table::default(),
        working: working(form, asked, moved),
        cautions: CAUTIONS,
        sources: vec![
            source(
                "Moisture from air: USDA Wood Handbook, equation 4-5; change of width: equation 13-2",
                Grade::Published,
            ),
            source(
                "How much this wood moves: USDA Wood Handbook, table 13-5",
                match asked.species.grade {
                    Known::Published => Grade::Published,
                    Known::Memory => Grade::Memory,
                },
            ),
        ],
    }
}

fn working(form: &Form<'_>, asked: &Asked, moved: Moved) -> Vec<String> {
    let (floor, year) = (&asked.floor, asked.year);
    let board = form.exact_mm(floor.board);
    let mut lines = vec![
        format!(
            "Air of {} % brings the boards to {:.1} % of moisture, air of {} % to {:.1} %; laid at {} %",
            asked.air.0, year.driest, asked.air.1, year.dampest, floor.laid_at
        ),
        format!(
            "{} moves {:.5} of its width for each percent of moisture",
            asked.species.name, floor.coefficient
        ),
        format!(
            "Driest: {board} × {:.5} × ({:.1} − {}) = {} a board",
            floor.coefficient,
            year.driest,
            floor.laid_at,
            form.say_mm(floor.board * floor.coefficient * (year.driest - floor.laid_at))
        ),
        format!(
            "Dampest: {board} × {:.5} × ({:.1} − {}) × {} boards = {}, half at each edge {}",
            floor.coefficient,
            year.dampest,
            floor.laid_at,
            floor.boards,
            form.say_mm(moved.growth),
            form.say_mm(moved.edge)
        ),
        "What nails, glue and crushed edges hold back is not taken off: it is the most that can come"
            .to_owned(),
    ];
    let outside = |moisture: f64| moisture < MEANT.0 || moisture > MEANT.1;
    if [floor.laid_at, year.driest, year.dampest]
        .into_iter()
        .any(outside)
    {
        lines.push(
            "The equation is meant for 6 to 14 % of moisture; beyond that it is a guess".to_owned(),
        );
    }
    lines
}

/// Boards in the driest weeks, the gaps between them.
fn drawn(asked: &Asked, moved: Moved) -> Drawn {
    const SHOWN: usize = 40;
    let length = |mm: f64| Length::from_mm_f64(mm).unwrap_or_default();
    let gap = length(moved.gap);
    let mut parts = Vec::new();
    let mut at = Length::ZERO;
    for index in 0..asked.floor.boards.min(SHOWN) {
        if index > 0 && gap.is_positive() {
            parts.push(Part {
                kind: PartKind::Gap,
                from: at,
                to: at + gap,
            });
            at += gap;
        }
        let to = at + length(asked.floor.board - moved.gap);
        parts.push(Part {
            kind: PartKind::Whole,
            from: at,
            to,
        });
        at = to;
    }
    Drawn::Run(Run { length: at, parts })
}
