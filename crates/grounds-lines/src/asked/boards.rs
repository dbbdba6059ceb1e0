//! Boards, tiles, pavers and panels in a row with joints, and what should sit on a joint.

use grounds_fit::spacing::{Course, Laid, SpacingFault, Start, Target};
use grounds_measure::Length;

use super::{
    Answer, Drawn, Field, Grade, Kind, MOST_PARTS, Part, PartKind, Run, Table, counted,
    field::Form, source,
};

pub(super) const FIELDS: &[Field] = &[
    Field {
        key: "row",
        label: "Length of the row",
        hint: ["Like 3020.", "Like 119 or 9' 11\"."],
        usual: ["", ""],
        kind: Kind::Above,
        is_needed: true,
    },
    Field {
        key: "far",
        label: "Its length at the far edge, if the ends are not parallel",
        hint: ["Like 3042.", "Like 119 7/8."],
        usual: ["", ""],
        kind: Kind::Above,
        is_needed: false,
    },
    Field {
        key: "piece",
        label: "Length of a piece along the row",
        hint: ["Like 600.", "Like 12 or 23 5/8."],
        usual: ["", ""],
        kind: Kind::Above,
        is_needed: true,
    },
    Field {
        key: "joint",
        label: "Joint between pieces",
        hint: [
            "Like 3; 0 for boards laid tight.",
            "Like 1/8; 0 for boards laid tight.",
        ],
        usual: ["0", "0"],
        kind: Kind::NotBelow,
        is_needed: true,
    },
    Field {
        key: "edge",
        label: "Gap at both ends, for movement",
        hint: ["Like 8.", "Like 3/8."],
        usual: ["0", "0"],
        kind: Kind::NotBelow,
        is_needed: true,
    },
    Field {
        key: "least",
        label: "No cut shorter than",
        hint: [
            "Left out, half a piece is aimed at.",
            "Left out, half a piece is aimed at.",
        ],
        usual: ["", ""],
        kind: Kind::NotBelow,
        is_needed: false,
    },
    Field {
        key: "centres",
        label: "Centres of outlets or registers, from the beginning",
        hint: ["A line each, like 1000.", "A line each, like 39 3/8."],
        usual: ["", ""],
        kind: Kind::Lengths,
        is_needed: false,
    },
    Field {
        key: "within",
        label: "A centre may miss a joint or the middle of a piece by",
        hint: ["Like 2.", "Like 1/16."],
        usual: ["2", "1/16"],
        kind: Kind::NotBelow,
        is_needed: true,
    },
    Field {
        key: "begin",
        label: "Begin",
        hint: ["", ""],
        usual: ["best", "best"],
        kind: Kind::Choice(&[
            ("best", "however comes out best"),
            ("whole", "with a whole piece"),
            ("equal", "with equal cuts at both ends"),
        ]),
        is_needed: true,
    },
];

const CAUTIONS: &[&str] = &[
    "Dust of stone, tile and concrete scars lungs: cut wet or extract at the tool, and wear a mask \
     that suits it. Eyes and ears covered at any saw.",
    "Outlets: switched off, locked and proved dead before hands go in; licensed people only where \
     the law says so.",
];

/// The most outlets and registers of a row.
const MOST_CENTRES: usize = 50;

pub(super) fn answer(form: &mut Form<'_>) -> Option<Answer> {
    let row = form.length("row");
    let far = form.length("far").or(row);
    let piece = form.length("piece");
    let joint = form.length("joint");
    let edge = form.length("edge");
    let least = form.length("least");
    let within = form.length("within");
    let begin = form.choice("begin");
    let centres = form.lengths("centres");
    if centres.len() > MOST_CENTRES {
        form.refuse(
            "centres",
            &format!("no more than {MOST_CENTRES} are set out at once. Give a part of them."),
        );
    }
    if !form.wrong.is_empty() {
        return None;
    }
    let course = Course {
        from: row?,
        to: far?,
        piece: piece?,
        joint: joint?,
        edge: edge?,
    };
    let half = Length::from_units(course.piece.units() / 2) - course.joint;
    let least = least.unwrap_or(half.max(Length::ZERO));
    let targets: Vec<Target> = centres
        .into_iter()
        .map(|at| Target {
            at,
            within: within.unwrap_or_default(),
        })
        .collect();
    if let Some(target) = targets.iter().find(|target| target.at > course.from) {
        let why = format!("{} lies beyond the end of the row.", form.exact(target.at));
        form.refuse("centres", &why);
        return None;
    }
    let laid = match begin? {
        "whole" => course.laid(Start::Whole, &targets),
        "equal" => course.laid(Start::Balanced, &targets),
        _ => course.best(least, &targets),
    };
    match laid {
        Ok(laid) => Some(told(form, &course, least, &targets, &laid)),
        Err(fault) => {
            form.refuse("row", &mend(fault));
            None
        }
    }
}

fn mend(fault: SpacingFault) -> String {
    match fault {
        SpacingFault::TooMany => {
            "more than 100,000 pieces would lie in it. Check the length of a piece and its unit."
                .to_owned()
        }
        _ => "nothing is left of it between the gaps at both ends. Check the gap and its unit."
            .to_owned(),
    }
}

fn told(
    form: &Form<'_>,
    course: &Course,
    least: Length,
    targets: &[Target],
    laid: &Laid,
) -> Answer {
    let cuts = laid.cuts;
    let wide = cuts.shortest() >= least;
    let missed = laid.hits.iter().filter(|hit| !**hit).count();
    let parts = parts(course, cuts.first);
    let then = match (wide, missed) {
        (false, _) => format!(
            "The shortest cut is {}, below the {} wanted: take another joint, another size, or share \
             it out over the row beside.",
            form.say(cuts.shortest()),
            form.say(least)
        ),
        (true, 0) => String::new(),
        (true, n) => format!(
            "{} on neither a joint nor the middle of a piece: move it, or begin by it.",
            if n == 1 {
                "One centre sits".to_owned()
            } else {
                format!("{n} centres sit")
            }
        ),
    };
    Answer {
        does: wide && missed == 0,
        said: sentence(form, course, laid),
        then,
        table: table(form, targets, laid, &parts),
        drawn: Drawn::Run(Run {
            length: course.from,
            parts,
        }),
        working: working(form, course, least, laid),
        cautions: CAUTIONS,
        sources: vec![
            source(
                "No sliver: a cut of half a piece or more at both ends",
                Grade::CommonPractice,
            ),
            source("The row adds up", Grade::Arithmetic),
        ],
    }
}

fn sentence(form: &Form<'_>, course: &Course, laid: &Laid) -> String {
    let cuts = laid.cuts;
    let end = |length: Length| {
        if length == course.piece {
            "a whole piece".to_owned()
        } else {
            format!("a cut of {}", form.say(length))
        }
    };
    let last = if cuts.last_near == cuts.last_far {
        end(cuts.last_near)
    } else {
        format!(
            "{} that becomes {} at the far edge",
            end(cuts.last_near),
            form.say(cuts.last_far)
        )
    };
    let by = match laid.start {
        Start::JointAt(at) => format!(", so that a joint sits at {}", form.exact(at)),
        Start::PieceAt(at) => format!(", so that a piece is centred at {}", form.exact(at)),
        Start::Whole | Start::Balanced => String::new(),
    };
    let ends = [cuts.first, cuts.last_near];
    let whole_ends = ends.iter().filter(|cut| **cut == course.piece).count();
    let between = laid.whole.saturating_sub(whole_ends);
    format!(
        "Begin with {}, then {}, and end with {last}{by}.",
        end(cuts.first),
        counted(between, "whole piece", "whole pieces")
    )
}

/// The pieces and joints of the near edge, as far as they are drawn.
fn parts(course: &Course, first: Length) -> Vec<Part> {
    let end = course.from - course.edge;
    let mut parts = Vec::new();
    let mut at = course.edge;
    let mut next = first;
    while at < end && parts.len() < MOST_PARTS {
        let to = (at + next).min(end);
        let kind = if to - at == course.piece {
            PartKind::Whole
        } else {
            PartKind::Cut
        };
        parts.push(Part { kind, from: at, to });
        at = to + course.joint;
        next = course.piece;
        if course.joint.is_positive() && at < end {
            parts.push(Part {
                kind: PartKind::Gap,
                from: to,
                to: at,
            });
        }
    }
    parts
}

/// Where each centre comes to sit.
fn table(form: &Form<'_>, targets: &[Target], laid: &Laid, parts: &[Part]) -> Table {
    Table {
        title: "Outlets and registers",
        heads: &["Centre at", "Sits"],
        rows: targets
            .iter()
            .zip(&laid.hits)
            .map(|(target, hit)| vec![form.exact(target.at), sits(form, target, *hit, parts)])
            .collect(),
    }
}

fn sits(form: &Form<'_>, target: &Target, hit: bool, parts: &[Part]) -> String {
    let middle =
        |part: &Part| Length::from_units(part.from.units() + (part.to - part.from).units() / 2);
    let pieces = parts.iter().filter(|part| part.kind != PartKind::Gap);
    let nearest = pieces
        .flat_map(|part| {
            [
                (part.to, "a joint"),
                (middle(part), "the middle of a piece"),
            ]
        })
        .min_by_key(|(at, _)| (*at - target.at).abs());
    match nearest {
        Some((_, what)) if hit => format!("on {what}"),
        Some((at, what)) => format!("{} from {what}", form.say((at - target.at).abs())),
        None => "beyond what is drawn".to_owned(),
    }
}

fn working(form: &Form<'_>, course: &Course, least: Length, laid: &Laid) -> Vec<String> {
    let row = course.from - course.edge * 2;
    let pitch = course.piece + course.joint;
    let cuts = laid.cuts;
    let ends = [cuts.first, cuts.last_near];
    let whole_ends = ends.iter().filter(|cut| **cut == course.piece).count();
    let between = i64::try_from(laid.whole.saturating_sub(whole_ends)).unwrap_or(i64::MAX);
    let mut lines = Vec::new();
    if course.edge.is_positive() {
        lines.push(format!(
            "{} − 2 × {} = {} to fill",
            form.exact(course.from),
            form.exact(course.edge),
            form.exact(row)
        ));
    }
    lines.push(format!(
        "A piece and its joint take {} + {} = {}",
        form.exact(course.piece),
        form.exact(course.joint),
        form.exact(pitch)
    ));
    lines.push(format!(
        "{} + {between} × {} + {} + {} = {}",
        form.say(cuts.first),
        form.exact(pitch),
        form.exact(course.joint),
        form.say(cuts.last_near),
        form.say(cuts.first + pitch * between + course.joint + cuts.last_near)
    ));
    if let Ok(whole) = course.laid(Start::Whole, &[]) {
        let last = whole.cuts.last_near.min(whole.cuts.last_far);
        if laid.start != Start::Whole && last < least {
            lines.push(format!(
                "Begun with a whole piece, the last would be {}, under the {} wanted",
                form.say(last),
                form.say(least)
            ));
        }
    }
    lines
}
