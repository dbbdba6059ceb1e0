//! Shims that bring measured pieces into one plane.

use grounds_fit::plane::{Can, Held, Mark, Plane, PlaneFault, Seat, best_plane, shim};

use super::{
    Answer, Drawn, Faced, Field, Grade, Kind, Table, counted,
    field::{Form, quoted, read},
    source,
};

pub(super) const FIELDS: &[Field] = &[
    Field {
        key: "marks",
        label: "Marks: along, up, off the line",
        hint: [
            "A line each, with a name if you like. Like “hall grille: 0, 2600, -3.5”; add “stays” \
             where it is covered.",
            "A line each, with a name if you like. Like “hall grille: 0, 8' 6\", -1/8”; add “stays” \
             where it is covered.",
        ],
        usual: ["", ""],
        kind: Kind::Lines,
        is_needed: true,
    },
    Field {
        key: "held",
        label: "The plane",
        hint: ["", ""],
        usual: ["parallel", "parallel"],
        kind: Kind::Choice(&[
            (
                "parallel",
                "parallel to the line: plumb and square, or level",
            ),
            ("plumb", "plumb, but may turn in plan"),
            ("free", "may lean and turn"),
        ]),
        is_needed: true,
    },
    Field {
        key: "thickest",
        label: "Thickest shim",
        hint: ["Like 12.", "Like 1/2."],
        usual: ["12", "1/2"],
        kind: Kind::Above,
        is_needed: true,
    },
    Field {
        key: "seen",
        label: "The eye is let off with",
        hint: [
            "Light along a wall shows 0.5, plain light hides 3. Like 2.",
            "Light along a wall shows 1/64, plain light hides 1/8. Like 1/16.",
        ],
        usual: ["2", "1/16"],
        kind: Kind::NotBelow,
        is_needed: true,
    },
];

const CAUTIONS: &[&str] = &[
    "A shim under load must bear it and stay: fixings that go through thicker shims, and glass on \
     blocks, are for the maker and licensed practice to say.",
    "Height: work from a platform or scaffold that was checked today, with edges guarded.",
];

/// The most marks that are shimmed at once.
const MOST: usize = 200;

/// A shim thinner than this is none, in mm.
const NO_SHIM: f64 = 0.05;

struct Named {
    name: String,
    mark: Mark,
    stays: bool,
}

pub(super) fn answer(form: &mut Form<'_>) -> Option<Answer> {
    let marks = marks(form);
    let held = form.choice("held");
    let thickest = form.length("thickest");
    let seen = form.length("seen");
    if !form.wrong.is_empty() {
        return None;
    }
    let (thickest, limit) = (thickest?.mm(), seen?.mm());
    let held = match held? {
        "plumb" => Held::Plumb,
        "free" => Held::Free,
        _ => Held::Parallel,
    };
    let seats: Vec<Seat> = marks
        .iter()
        .enumerate()
        .map(|(piece, named)| Seat {
            piece,
            mark: named.mark,
            can: if named.stays {
                Can::Stay(limit)
            } else {
                Can::Shim(thickest)
            },
        })
        .collect();
    let only: Vec<Mark> = marks.iter().map(|named| named.mark).collect();
    let fitted = match best_plane(&only, held) {
        Ok(fitted) => fitted,
        Err(fault) => {
            form.refuse("marks", &mend(fault));
            return None;
        }
    };
    let out = fitted.seen(limit).len();
    match shim(&seats, held) {
        Ok(shimmed) => {
            let total = shimmed.total;
            let pieces = faced(&marks, &shimmed.plane, &shimmed.shims, limit);
            Some(told(form, pieces, (total, fitted.spread, out), limit))
        }
        Err(PlaneFault::NoneFits { by }) => {
            let shims = vec![0.0; marks.len()];
            let pieces = faced(&marks, &fitted.plane, &shims, limit);
            Some(refused(
                form,
                pieces,
                (by, fitted.spread, out),
                (thickest, limit),
            ))
        }
        Err(fault) => {
            form.refuse("marks", &mend(fault));
            None
        }
    }
}

fn mend(fault: PlaneFault) -> String {
    match fault {
        PlaneFault::Loose => {
            "they do not settle the plane: measure one more, away from the line of the others, or \
             hold it parallel."
                .to_owned()
        }
        other => format!("{other}."),
    }
}

/// Lines of `name: along, up, off, stays`.
fn marks(form: &mut Form<'_>) -> Vec<Named> {
    let mut found = Vec::new();
    for (number, text) in form.lines("marks").into_iter().enumerate() {
        match named(text, number + 1, form) {
            Ok(named) => found.push(named),
            Err(why) => {
                form.refuse("marks", &format!("line {}: {why}", number + 1));
                return Vec::new();
            }
        }
    }
    if found.len() > MOST {
        form.refuse(
            "marks",
            &format!("no more than {MOST} are taken at once. Give a part of them."),
        );
        return Vec::new();
    }
    found
}

fn named(text: &str, number: usize, form: &Form<'_>) -> Result<Named, String> {
    const NAME: usize = 40;
    let (name, rest) = match text.rsplit_once(':') {
        Some((name, rest)) => (name.trim(), rest),
        None => ("", text),
    };
    let mut parts: Vec<&str> = rest.split(',').map(str::trim).collect();
    let stays = parts
        .last()
        .is_some_and(|last| last.eq_ignore_ascii_case("stays"));
    if stays {
        parts.pop();
    }
    let [along, up, off] = parts.as_slice() else {
        return Err(format!(
            "{} is not three figures. Write along, up, off, with commas between.",
            quoted(text)
        ));
    };
    let minus = off.replace('−', "-");
    let figure = |text: &str| read(text, form.units).map(|length| length.mm());
    let plain = |c: char| if c.is_control() { ' ' } else { c };
    Ok(Named {
        name: if name.is_empty() {
            format!("mark {number}")
        } else {
            name.chars().map(plain).take(NAME).collect()
        },
        mark: Mark {
            along: figure(along)?,
            up: figure(up)?,
            off: figure(&minus)?,
        },
        stays,
    })
}

fn faced(marks: &[Named], plane: &Plane, shims: &[f64], limit: f64) -> Vec<Faced> {
    let pairs = marks.iter().zip(shims);
    pairs
        .map(|(named, shim)| {
            let off = plane.residual(&named.mark);
            let shim = if *shim < NO_SHIM { 0.0 } else { *shim };
            Faced {
                name: named.name.clone(),
                off,
                shim,
                seen: (off + shim).abs() > limit + 1e-6,
            }
        })
        .collect()
}

fn told(
    form: &Form<'_>,
    pieces: Vec<Faced>,
    (total, spread, out): (f64, f64, usize),
    limit: f64,
) -> Answer {
    let shimmed = pieces.iter().filter(|piece| piece.shim > 0.0).count();
    let thickest = pieces.iter().max_by(|a, b| a.shim.total_cmp(&b.shim));
    let said = match thickest {
        Some(piece) if shimmed > 0 => format!(
            "{} into one plane with {} behind {}, {} in all; the thickest, {}, is behind {}.",
            if pieces.len() == 1 {
                "One piece comes".to_owned()
            } else {
                format!("{} pieces come", pieces.len())
            },
            counted(shimmed, "shim", "shims"),
            if shimmed == 1 { "one of them" } else { "them" },
            form.say_mm(total),
            form.say_mm(piece.shim),
            piece.name
        ),
        _ => "They are in one plane as they stand.".to_owned(),
    };
    answer_of(
        form,
        Words {
            does: true,
            said,
            then: eye(form, out, limit),
            total: Some(total),
        },
        pieces,
        spread,
        limit,
    )
}

/// What the eye sees before anything is shimmed.
fn eye(form: &Form<'_>, out: usize, limit: f64) -> String {
    match out {
        0 => format!(
            "Without shims, none is more than {} off the plane that fits them best.",
            form.say_mm(limit)
        ),
        1 => format!(
            "Without shims, one would stand more than {} off the plane that fits them best.",
            form.say_mm(limit)
        ),
        n => format!(
            "Without shims, {n} would stand more than {} off the plane that fits them best.",
            form.say_mm(limit)
        ),
    }
}

fn refused(
    form: &Form<'_>,
    pieces: Vec<Faced>,
    (by, spread, out): (f64, f64, usize),
    (thickest, limit): (f64, f64),
) -> Answer {
    let said = format!(
        "No one plane: with shims up to {} the pieces miss it by {}.",
        form.say_mm(thickest),
        form.say_mm(by)
    );
    let then = format!(
        "Take thicker packing, open up what is covered, or let the plane turn. {}",
        eye(form, out, limit)
    );
    answer_of(
        form,
        Words {
            does: false,
            said,
            then,
            total: None,
        },
        pieces,
        spread,
        limit,
    )
}

struct Words {
    does: bool,
    said: String,
    then: String,
    total: Option<f64>,
}

fn answer_of(form: &Form<'_>, words: Words, pieces: Vec<Faced>, spread: f64, limit: f64) -> Answer {
    let side = |off: f64| if off < 0.0 { "behind" } else { "proud" };
    let rows = pieces.iter().map(|piece| {
        let off = if piece.off.abs() < NO_SHIM {
            "in plane".to_owned()
        } else {
            format!("{} {}", form.say_mm(piece.off.abs()), side(piece.off))
        };
        let shim = if piece.shim > 0.0 {
            form.say_mm(piece.shim)
        } else {
            "none".to_owned()
        };
        vec![piece.name.clone(), off, shim]
    });
    let mut working = vec![format!(
        "Through all marks the best plane leaves them {} off it, as the root of the mean square",
        form.say_mm(spread)
    )];
    if let Some(total) = words.total {
        working.push(
            "Pieces are only brought out: the plane of the faces lies at or before every one"
                .to_owned(),
        );
        let each: Vec<String> = pieces
            .iter()
            .filter(|piece| piece.shim > 0.0)
            .take(20)
            .map(|piece| form.say_mm(piece.shim))
            .collect();
        if !each.is_empty() {
            let more = if pieces.iter().filter(|piece| piece.shim > 0.0).count() > each.len() {
                " + …"
            } else {
                ""
            };
            working.push(format!(
                "{}{more} = {} of shims, the least that will do",
                each.join(" + "),
                form.say_mm(total)
            ));
        }
    }
    Answer {
        does: words.does,
        said: words.said,
        then: words.then,
        table: Table {
            title: "Piece by piece",
            heads: &["Piece", "As measured", "Shim"],
            rows: rows.collect(),
        },
        drawn: Drawn::Plane { pieces, limit },
        working,
        cautions: CAUTIONS,
        sources: vec![
            source(
                "The least sum of shims is a linear program, the best plane least squares",
                Grade::Arithmetic,
            ),
            source(
                "What light along a wall shows and plain light hides",
                Grade::CommonPractice,
            ),
        ],
    }
}
