//! Balusters, slats and registers: equal gaps.

use grounds_fit::spacing::{Spaced, SpacingFault, space, spaced};
use grounds_measure::{Length, Step};

use super::{
    Answer, Drawn, Field, Grade, Kind, MOST_PARTS, Part, PartKind, Run, Table, counted,
    field::Form, source,
};

pub(super) const FIELDS: &[Field] = &[
    Field {
        key: "clear",
        label: "Clear length between the ends",
        hint: ["Like 1830.", "Like 72 or 6' 0\"."],
        usual: ["", ""],
        kind: Kind::Above,
        is_needed: true,
    },
    Field {
        key: "piece",
        label: "Width of one piece",
        hint: ["Like 38.", "Like 1 1/2."],
        usual: ["", ""],
        kind: Kind::Above,
        is_needed: true,
    },
    Field {
        key: "under",
        label: "Every gap under",
        hint: [
            "A ball this wide must not pass. Like 102, beside a stair 111.",
            "A ball this wide must not pass. Like 4, beside a stair 4 3/8.",
        ],
        usual: ["", ""],
        kind: Kind::Above,
        is_needed: false,
    },
    Field {
        key: "gap",
        label: "Or gaps as near as can be to",
        hint: ["Like 12.", "Like 1/2\"."],
        usual: ["", ""],
        kind: Kind::Above,
        is_needed: false,
    },
    Field {
        key: "count",
        label: "Or so many pieces",
        hint: ["Like 13.", "Like 13."],
        usual: ["", ""],
        kind: Kind::Count,
        is_needed: false,
    },
    Field {
        key: "step",
        label: "Marks to the nearest",
        hint: ["Like 1 or 0.5.", "Like 1/16\"."],
        usual: ["1", "1/16"],
        kind: Kind::Above,
        is_needed: true,
    },
];

const CAUTIONS: &[&str] = &[
    "A guard keeps people from falling: how wide its gaps, how high it stands and what load it \
     takes is for local code and for whoever is licensed to say.",
    "Glass or a register in place of balusters is a design of its own; ask before the row is cut.",
];

/// What the gaps are wanted to be.
enum Aim {
    Under(Length),
    Near(Length),
    Count(usize),
}

pub(super) fn answer(form: &mut Form<'_>) -> Option<Answer> {
    let clear = form.length("clear");
    let piece = form.length("piece");
    let step = form.step("step");
    let aim = aim(form);
    let (clear, piece, step, aim) = (clear?, piece?, step?, aim?);
    let row = match aim {
        Aim::Under(ball) => space(clear, piece, ball, step),
        Aim::Near(gap) => nearest(clear, piece, gap)
            .ok_or(SpacingFault::TooMany)
            .and_then(|count| spaced(clear, piece, count, step)),
        Aim::Count(count) => spaced(clear, piece, count, step),
    };
    match row {
        Ok(row) => Some(told(form, (clear, piece, step), &aim, &row)),
        Err(fault) => {
            form.refuse("piece", &mend(fault));
            None
        }
    }
}

fn mend(fault: SpacingFault) -> String {
    match fault {
        SpacingFault::Full => {
            "the pieces fill the row before the gaps are right. Take thinner or fewer pieces."
                .to_owned()
        }
        other => format!("{other}."),
    }
}

fn aim(form: &mut Form<'_>) -> Option<Aim> {
    let before = form.wrong.len();
    let under = form.length("under").map(Aim::Under);
    let near = form.length("gap").map(Aim::Near);
    let count = form.count("count", 10_000).map(Aim::Count);
    let mut given = [under, near, count].into_iter().flatten();
    match (given.next(), given.next()) {
        (Some(aim), None) => Some(aim),
        (Some(_), Some(_)) => {
            let why =
                "more than one of the three is given. Keep the gap, or the count, or this one.";
            form.refuse("under", why);
            None
        }
        (None, _) if form.wrong.len() == before => {
            let why = "nothing says how wide the gaps may be. Give this, the gap or the count.";
            form.refuse("under", why);
            None
        }
        (None, _) => None,
    }
}

/// The count whose gaps come nearest to what is wanted.
fn nearest(clear: Length, piece: Length, gap: Length) -> Option<usize> {
    let (fewer, _) = (clear - gap).divide_by(piece + gap)?;
    let fewer = fewer.clamp(0, 10_000);
    let off = |count: i64| {
        let free = clear - piece * count;
        // Compared without dividing: each is multiplied by the other's number of gaps.
        (free - gap * (count + 1)).abs()
    };
    let (few, many) = (off(fewer), off(fewer + 1));
    let more = piece * (fewer + 1) <= clear && many * (fewer + 1) < few * (fewer + 2);
    usize::try_from(fewer + i64::from(more)).ok()
}

fn told(
    form: &Form<'_>,
    (clear, piece, step): (Length, Length, Step),
    aim: &Aim,
    row: &Spaced,
) -> Answer {
    let count = row.pieces();
    let gaps = row.gaps.len();
    let widest = row.widest();
    let narrowest = row.gaps.iter().copied().min().unwrap_or_default();
    let between = if widest == narrowest {
        format!("{} of {}", counted(gaps, "gap", "gaps"), form.exact(widest))
    } else {
        format!(
            "{} of {} to {}",
            counted(gaps, "gap", "gaps"),
            form.exact(narrowest),
            form.exact(widest)
        )
    };
    let bound = match aim {
        Aim::Under(ball) => format!(", each under {}", form.exact(*ball)),
        Aim::Near(_) | Aim::Count(_) => String::new(),
    };
    Answer {
        does: true,
        said: format!(
            "{} of {} and {between}{bound}.",
            counted(count, "piece", "pieces"),
            form.exact(piece)
        ),
        then: "Mark every piece from the same end, never from the last one: then no error adds up."
            .to_owned(),
        drawn: Drawn::Run(Run {
            length: clear,
            parts: parts(row, piece, clear),
        }),
        table: Table {
            title: "Marks from the one end",
            heads: &["Piece", "Begins at", "Ends at"],
            rows: row
                .begins
                .iter()
                .enumerate()
                .map(|(index, begin)| {
                    vec![
                        (index + 1).to_string(),
                        form.exact(*begin),
                        form.exact(*begin + piece),
                    ]
                })
                .collect(),
        },
        working: working(form, (clear, piece, step), aim, row),
        cautions: CAUTIONS,
        sources: match aim {
            Aim::Under(_) => vec![
                source(
                    "Guards: 4 in (102 mm), and 4 3/8 in (111 mm) beside a stair: IRC R312.1.3; \
                     local codes differ",
                    Grade::Published,
                ),
                source("Equal shares of what is left", Grade::Arithmetic),
            ],
            Aim::Near(_) | Aim::Count(_) => {
                vec![source("Equal shares of what is left", Grade::Arithmetic)]
            }
        },
    }
}

fn working(
    form: &Form<'_>,
    (clear, piece, step): (Length, Length, Step),
    aim: &Aim,
    row: &Spaced,
) -> Vec<String> {
    let units = |count: usize| i64::try_from(count).unwrap_or(i64::MAX);
    let (count, gaps) = (row.pieces(), row.gaps.len());
    let taken = piece * units(count);
    let free = clear - taken;
    let each = |free: Length, gaps: usize| Length::from_units(free.units() / units(gaps).max(1));
    let mut lines = vec![
        format!(
            "{count} × {} = {} of wood or metal in {}",
            form.exact(piece),
            form.exact(taken),
            form.exact(clear)
        ),
        format!(
            "{} − {} = {} for {}",
            form.exact(clear),
            form.exact(taken),
            form.exact(free),
            counted(gaps, "gap", "gaps")
        ),
        format!(
            "{} ÷ {gaps} = {} a gap; marks to {} make it {} at most",
            form.exact(free),
            form.say(each(free, gaps)),
            form.exact(step.length()),
            form.exact(row.widest())
        ),
    ];
    if let (Aim::Under(ball), Some(fewer)) = (aim, count.checked_sub(1)) {
        let free = clear - piece * units(fewer);
        lines.push(format!(
            "One piece fewer: {} ÷ {count} = {} a gap, which is not safely under {}",
            form.exact(free),
            form.say(each(free, count)),
            form.exact(*ball)
        ));
    }
    lines
}

fn parts(row: &Spaced, piece: Length, clear: Length) -> Vec<Part> {
    let mut parts = Vec::new();
    let mut at = Length::ZERO;
    for begin in row.begins.iter().take(MOST_PARTS / 2) {
        parts.push(Part {
            kind: PartKind::Gap,
            from: at,
            to: *begin,
        });
        at = *begin + piece;
        parts.push(Part {
            kind: PartKind::Whole,
            from: *begin,
            to: at,
        });
    }
    parts.push(Part {
        kind: PartKind::Gap,
        from: at,
        to: clear,
    });
    parts
}
