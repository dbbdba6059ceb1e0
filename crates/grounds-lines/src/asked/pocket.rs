//! A leaf, a pane or a top between two faces.

use grounds_fit::pocket::{Depth, Faces, Passage, Piece, narrowest, straight_clear};
use grounds_measure::Length;

use super::{
    Answer, Drawn, Field, Grade, Kind, Part, PartKind, Run, Table, counted,
    field::{Form, quoted, read},
    source,
};
use crate::said;

pub(super) const FIELDS: &[Field] = &[
    Field {
        key: "clear",
        label: "Clear width, as read from mouth to back",
        hint: [
            "A line each; three are better than one. Like 16.",
            "A line each; three are better than one. Like 5/8.",
        ],
        usual: ["", ""],
        kind: Kind::Lengths,
        is_needed: false,
    },
    Field {
        key: "faces",
        label: "Or both faces from a straight line, where the pocket may be bent",
        hint: [
            "A line each: depth, near face, far face. Like “400, 3, 19”.",
            "A line each: depth, near face, far face. Like “16, 1/8, 3/4”.",
        ],
        usual: ["", ""],
        kind: Kind::Lines,
        is_needed: false,
    },
    Field {
        key: "piece",
        label: "Thickness of what goes in",
        hint: ["Like 12.", "Like 1/2."],
        usual: ["", ""],
        kind: Kind::Above,
        is_needed: true,
    },
    Field {
        key: "thicker",
        label: "It may come thicker by",
        hint: ["Like 0.5.", "Like 1/32."],
        usual: ["0", "0"],
        kind: Kind::NotBelow,
        is_needed: true,
    },
    Field {
        key: "seals",
        label: "Seals, brushes and bumpers of both faces together",
        hint: ["Like 2.", "Like 1/8."],
        usual: ["0", "0"],
        kind: Kind::NotBelow,
        is_needed: true,
    },
    Field {
        key: "play",
        label: "Play wanted at each face",
        hint: ["Like 1.5.", "Like 1/16."],
        usual: ["1.5", "1/16"],
        kind: Kind::NotBelow,
        is_needed: true,
    },
    Field {
        key: "known",
        label: "The readings are good to, give or take",
        hint: ["Like 0.5.", "Like 1/64."],
        usual: ["0.5", "1/64"],
        kind: Kind::NotBelow,
        is_needed: true,
    },
    Field {
        key: "depth",
        label: "Depth of the pocket, mouth to back",
        hint: [
            "Left out, depth is not asked about. Like 920.",
            "Left out, depth is not asked about. Like 36.",
        ],
        usual: ["", ""],
        kind: Kind::Above,
        is_needed: false,
    },
    Field {
        key: "leaf",
        label: "Width of the leaf that goes into it",
        hint: ["Like 920.", "Like 36."],
        usual: ["", ""],
        kind: Kind::Above,
        is_needed: false,
    },
    Field {
        key: "stop",
        label: "What the stop at the back takes up",
        hint: ["Like 20.", "Like 3/4."],
        usual: ["0", "0"],
        kind: Kind::NotBelow,
        is_needed: true,
    },
    Field {
        key: "out",
        label: "How much of the open leaf is to stand out",
        hint: ["Like 35.", "Like 1 1/2."],
        usual: ["0", "0"],
        kind: Kind::NotBelow,
        is_needed: true,
    },
];

const CAUTIONS: &[&str] = &[
    "Glass: gloves, sleeves and eye protection; carry it on edge with enough hands or suckers, and \
     keep people out from under it.",
    "A heavy leaf or top can crush: block it before hands go in. Glass that holds people back, and \
     its channel, are for local code and licensed practice.",
];

pub(super) fn answer(form: &mut Form<'_>) -> Option<Answer> {
    let widths = form.lengths("clear");
    let faces = faces(form);
    let piece = form.length("piece");
    let thicker = form.length("thicker");
    let seals = form.length("seals");
    let play = form.length("play");
    let known = form.length("known");
    let depth = form.length("depth");
    let leaf = form.length("leaf");
    let stop = form.length("stop");
    let out = form.length("out");
    match (widths.is_empty(), faces.is_empty()) {
        (true, true) if form.wrong.is_empty() => {
            form.refuse(
                "clear",
                "nothing is given. Give the clear width, or both faces.",
            );
        }
        (false, false) => form.refuse("faces", "the clear width is given too. Keep one of them."),
        _ => {}
    }
    if depth.is_some() != leaf.is_some() && form.wrong.is_empty() {
        let (missing, why) = match depth {
            Some(_) => (
                "leaf",
                "the depth is given without it. Give both, or neither.",
            ),
            None => (
                "depth",
                "the leaf is given without it. Give both, or neither.",
            ),
        };
        form.refuse(missing, why);
    }
    if !form.wrong.is_empty() {
        return None;
    }
    let piece = Piece {
        thickness: piece?.mm(),
        thicker: thicker?.mm(),
        seals: seals?.mm(),
        play: play?.mm(),
    };
    let clear = if faces.is_empty() {
        let widths: Vec<f64> = widths.iter().map(|width| width.mm()).collect();
        narrowest(&widths)
    } else {
        straight_clear(&faces)
    };
    // What is said as give or take holds nineteen times of twenty: two spreads.
    let passage =
        clear.and_then(|clear| piece.between(clear, known.unwrap_or_default().mm() / 2.0));
    let passage = match passage {
        Ok(passage) => passage,
        Err(fault) => {
            form.refuse("clear", &format!("{fault}."));
            return None;
        }
    };
    let depth = depth.zip(leaf).map(|(pocket, leaf)| Depth {
        pocket: pocket.mm(),
        stop: stop.unwrap_or_default().mm(),
        leaf: leaf.mm(),
        stands_out: out.unwrap_or_default().mm(),
    });
    Some(told(
        form,
        &piece,
        &passage,
        depth,
        widths.len() + faces.len(),
    ))
}

/// Both faces at each depth.
fn faces(form: &mut Form<'_>) -> Vec<Faces> {
    let mut found = Vec::new();
    for (number, line) in form.lines("faces").into_iter().enumerate() {
        let figures: Result<Vec<Length>, String> =
            line.split(',').map(|part| read(part, form.units)).collect();
        let why = match figures.as_deref() {
            Ok([depth, near, far]) => {
                found.push(Faces {
                    depth: depth.mm(),
                    near: near.mm(),
                    far: far.mm(),
                });
                continue;
            }
            Ok(_) => format!(
                "{} is not three figures. Write depth, near face, far face, with commas between.",
                quoted(line)
            ),
            Err(why) => why.clone(),
        };
        form.refuse("faces", &format!("line {}: {why}", number + 1));
        return Vec::new();
    }
    if found.len() > MOST_FACES {
        form.refuse(
            "faces",
            &format!("no more than {MOST_FACES} places are taken. Give those that are tight."),
        );
        return Vec::new();
    }
    found
}

/// Every pair of places is tried as a direction, against every place.
const MOST_FACES: usize = 60;

/// Less than this, in mm, is nothing.
const NOTHING: f64 = 1e-6;

fn told(
    form: &Form<'_>,
    piece: &Piece,
    passage: &Passage,
    depth: Option<Depth>,
    readings: usize,
) -> Answer {
    let passes = passage.spare >= -NOTHING;
    let deep = depth.is_none_or(|depth| depth.spare() >= -NOTHING);
    let beside = format!(
        "beside {} in {} clear",
        form.exact_mm(piece.thickness),
        form.exact_mm(passage.clear)
    );
    let said = if passage.each_side < -NOTHING {
        format!(
            "It jams: {} too thick {beside}.",
            form.say_mm(-2.0 * passage.each_side)
                .trim_start_matches('−')
        )
    } else if passes {
        format!(
            "{} is left at each face {beside}.",
            form.say_mm(passage.each_side)
        )
    } else {
        format!(
            "{} is left at each face {beside}: {} shy of the play wanted.",
            form.say_mm(passage.each_side),
            form.say_mm(-passage.spare / 2.0)
        )
    };
    let mut then = format!(
        "With the readings as good as that, the play is there in {}.",
        said::chance(passage.chance)
    );
    if passes && passage.spare_at_worst < -NOTHING {
        then.push_str(&format!(
            " As thick as it may come, it is {} short: measure the piece first.",
            form.say_mm(-passage.spare_at_worst)
        ));
    }
    if let Some(depth) = depth {
        let spare = depth.spare();
        then.push_str(&if deep {
            format!(" Behind the open leaf {} is left.", form.say_mm(spare))
        } else {
            format!(" The open leaf stands out {} more than meant: make the pocket deeper or the stop thinner.", form.say_mm(-spare))
        });
    }
    Answer {
        does: passes && deep,
        said,
        then,
        drawn: drawn(piece, passage),
        table: Table::default(),
        working: working(form, piece, passage, depth, readings),
        cautions: CAUTIONS,
        sources: vec![
            source(
                "Half-inch glass in a five-eighths pocket: 1/16 in at each side",
                Grade::CommonPractice,
            ),
            source(
                "The narrowest place decides; over bent faces, the widest straight slot",
                Grade::Arithmetic,
            ),
        ],
    }
}

/// Across the pocket: face, what is left, the piece, what is left, face.
fn drawn(piece: &Piece, passage: &Passage) -> Drawn {
    let length = |mm: f64| Length::from_mm_f64(mm).unwrap_or_default();
    let clear = length(passage.clear.max(piece.thickness));
    let thick = length(piece.thickness);
    let from = Length::from_units((clear - thick).units() / 2);
    let part = |kind, from, to| Part { kind, from, to };
    Drawn::Run(Run {
        length: clear,
        parts: vec![
            part(PartKind::Gap, Length::ZERO, from),
            part(PartKind::Whole, from, from + thick),
            part(PartKind::Gap, from + thick, clear),
        ],
    })
}

fn working(
    form: &Form<'_>,
    piece: &Piece,
    passage: &Passage,
    depth: Option<Depth>,
    readings: usize,
) -> Vec<String> {
    let mut lines = vec![
        format!(
            "Of {}, {} counts",
            counted(readings, "reading", "readings"),
            form.exact_mm(passage.clear)
        ),
        format!(
            "{} clear − {} thick − {} of seals = {} for both faces, {} at each",
            form.exact_mm(passage.clear),
            form.exact_mm(piece.thickness),
            form.exact_mm(piece.seals),
            form.say_mm(passage.each_side * 2.0),
            form.say_mm(passage.each_side)
        ),
        format!(
            "Less 2 × {} of play: {} to spare; as thick as it may come, {}",
            form.exact_mm(piece.play),
            form.say_mm(passage.spare),
            form.say_mm(passage.spare_at_worst)
        ),
    ];
    if let Some(depth) = depth {
        lines.push(format!(
            "Depth: {} − {} of stop − ({} of leaf − {} that stand out) = {}",
            form.exact_mm(depth.pocket),
            form.exact_mm(depth.stop),
            form.exact_mm(depth.leaf),
            form.exact_mm(depth.stands_out),
            form.say_mm(depth.spare())
        ));
    }
    lines
}
