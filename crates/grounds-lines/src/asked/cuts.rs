//! Pieces out of stock lengths.

use std::{collections::BTreeMap, num::NonZeroUsize};

use grounds_fit::cuts::{Bar, CutFault, CutList, Wanted, cut_list};
use grounds_measure::Length;

use super::{
    Answer, BarCut, Drawn, Field, Grade, Kind, Table, counted,
    field::{Form, quoted, read},
    source,
};

pub(super) const FIELDS: &[Field] = &[
    Field {
        key: "pieces",
        label: "Pieces wanted",
        hint: [
            "A line each: how many x length, with a name if you like. Like “jamb: 6 x 2100”.",
            "A line each: how many x length, with a name if you like. Like “jamb: 6 x 82 5/8”.",
        ],
        usual: ["", ""],
        kind: Kind::Lines,
        is_needed: true,
    },
    Field {
        key: "stock",
        label: "Stock lengths that can be bought",
        hint: ["A line each. Like 4800.", "A line each. Like 16'."],
        usual: ["", ""],
        kind: Kind::Lengths,
        is_needed: true,
    },
    Field {
        key: "kerf",
        label: "What the saw takes",
        hint: ["Like 3.", "Like 1/8."],
        usual: ["3", "1/8"],
        kind: Kind::NotBelow,
        is_needed: true,
    },
];

const CAUTIONS: &[&str] = &[
    "Saw: guard on, work held, eyes and ears covered, dust drawn off; the short piece last is the \
     one that kicks.",
    "Look at every length before it is cut: knots, twist and damaged ends are not in the list.",
];

/// The most kinds and pieces that are asked about.
const KINDS: usize = 60;
const PIECES: usize = 2_000;

/// Pieces of one length, and their name.
pub(super) struct Line {
    pub(super) name: String,
    pub(super) length: Length,
    pub(super) count: NonZeroUsize,
}

/// Lines of `name: count x length`, name and count left out where there is none and one.
pub(super) fn wanted(form: &mut Form<'_>, key: &str, most: usize) -> Vec<Line> {
    let mut found: Vec<Line> = Vec::new();
    for (number, text) in form.lines(key).into_iter().enumerate() {
        match line(text, form) {
            Ok(line) => found.push(line),
            Err(why) => {
                form.refuse(key, &format!("line {}, {why}", number + 1));
                return Vec::new();
            }
        }
    }
    let pieces = found
        .iter()
        .fold(0_usize, |sum, line| sum.saturating_add(line.count.get()));
    if pieces > most {
        let why =
            format!("{pieces} in all, and no more than {most} are taken. Give a part of them.");
        form.refuse(key, &why);
        return Vec::new();
    }
    found
}

fn line(text: &str, form: &Form<'_>) -> Result<Line, String> {
    const NAME: usize = 40;
    let (name, rest) = match text.rsplit_once(':') {
        Some((name, rest)) => (name.trim(), rest.trim()),
        None => ("", text),
    };
    let (count, length) = match rest.split_once(['x', '×', 'X']) {
        Some((count, length)) => (count.trim(), length),
        None => ("1", rest),
    };
    let count: NonZeroUsize = count.parse().map_err(|_| {
        format!(
            "{}: {} is no whole number from 1. Write how many x length, like 6 x 2100.",
            quoted(text),
            quoted(count)
        )
    })?;
    let length = read(length, form.units)?;
    if !length.is_positive() {
        return Err(format!(
            "{} is not above zero. Write how many x length.",
            quoted(text)
        ));
    }
    let plain = |c: char| if c.is_control() { ' ' } else { c };
    Ok(Line {
        name: name.chars().map(plain).take(NAME).collect(),
        length,
        count,
    })
}

pub(super) fn answer(form: &mut Form<'_>) -> Option<Answer> {
    let pieces = wanted(form, "pieces", PIECES);
    let mut stock = form.lengths("stock");
    let kerf = form.length("kerf");
    stock.sort_unstable();
    stock.dedup();
    if pieces.len() > KINDS {
        let why = format!(
            "{} lines, and no more than {KINDS} are cut at once. Give a part of them.",
            pieces.len()
        );
        form.refuse("pieces", &why);
    }
    if stock.len() > 20 {
        form.refuse(
            "stock",
            "more than 20 lengths. Give those that are at hand.",
        );
    }
    if !form.wrong.is_empty() {
        return None;
    }
    let kerf = kerf?;
    let asked: Vec<Wanted> = pieces
        .iter()
        .map(|line| Wanted {
            length: line.length,
            count: line.count,
        })
        .collect();
    match cut_list(&stock, &asked, kerf) {
        Ok(list) => Some(told(form, &pieces, &list, kerf)),
        Err(CutFault::TooLong(kind)) => {
            let long = pieces
                .get(kind)
                .map_or_else(String::new, |line| form.exact(line.length));
            form.refuse(
                "pieces",
                &format!("{long} is longer than every stock length. Buy longer, or join two."),
            );
            None
        }
        Err(fault) => {
            form.refuse("pieces", &format!("{fault}."));
            None
        }
    }
}

fn told(form: &Form<'_>, pieces: &[Line], list: &CutList, kerf: Length) -> Answer {
    let bars = grouped(pieces, &list.bars);
    let mut bought: BTreeMap<Length, usize> = BTreeMap::new();
    for bar in &list.bars {
        *bought.entry(bar.stock).or_default() += 1;
    }
    let buy: Vec<String> = bought
        .iter()
        .map(|(length, count)| {
            format!(
                "{} of {}",
                counted(*count, "length", "lengths"),
                form.exact(*length)
            )
        })
        .collect();
    let proof = if list.is_proven() {
        "No cut list needs less.".to_owned()
    } else {
        format!(
            "None can need less than {}; whether {} can be saved is not known.",
            form.exact(list.at_least),
            form.exact(list.bought - list.at_least)
        )
    };
    let net: Length = pieces
        .iter()
        .map(|line| line.length * whole(line.count.get()))
        .sum();
    let left: Length = list.bars.iter().map(|bar| bar.left).sum();
    let count: usize = pieces.iter().map(|line| line.count.get()).sum();
    Answer {
        does: true,
        said: format!(
            "Buy {}: {} in all.",
            crate::said::all(&buy),
            form.exact(list.bought)
        ),
        then: proof,
        table: Table {
            title: "How to cut",
            heads: &["How many", "Stock", "Pieces", "Left over"],
            rows: bars.iter().map(|bar| row(form, bar)).collect(),
        },
        working: vec![
            format!(
                "{} come to {}",
                counted(count, "piece", "pieces"),
                form.exact(net)
            ),
            format!(
                "{} bought − {} of pieces − {} left over = {} for the saw, {} a cut",
                form.exact(list.bought),
                form.exact(net),
                form.exact(left),
                form.exact(list.bought - net - left),
                form.exact(kerf)
            ),
            format!(
                "Least that can do: {}, from a bound that holds for any cut list",
                form.exact(list.at_least)
            ),
        ],
        drawn: Drawn::Cuts { kerf, bars },
        cautions: CAUTIONS,
        sources: vec![
            source(
                "Patterns by column generation, with a bound that proves them: Gilmore and Gomory \
                 1961, Farley 1990",
                Grade::Published,
            ),
            source("Lengths and saw cuts add up", Grade::Arithmetic),
        ],
    }
}

fn row(form: &Form<'_>, bar: &BarCut) -> Vec<String> {
    let mut kinds: Vec<(&(Length, String), usize)> = Vec::new();
    for piece in &bar.pieces {
        match kinds.last_mut() {
            Some((last, count)) if *last == piece => *count += 1,
            _ => kinds.push((piece, 1)),
        }
    }
    let each = kinds.into_iter().map(|((length, name), count)| {
        let name = if name.is_empty() {
            String::new()
        } else {
            format!(" {name}")
        };
        format!("{count} × {}{name}", form.exact(*length))
    });
    vec![
        bar.count.to_string(),
        form.exact(bar.stock),
        each.collect::<Vec<_>>().join(", "),
        form.exact(bar.left),
    ]
}

fn whole(count: usize) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

/// Stock cut alike is listed once.
fn grouped(pieces: &[Line], bars: &[Bar]) -> Vec<BarCut> {
    let mut groups: Vec<(&Bar, usize)> = Vec::new();
    for bar in bars {
        match groups.iter_mut().find(|(same, _)| *same == bar) {
            Some((_, count)) => *count += 1,
            None => groups.push((bar, 1)),
        }
    }
    groups
        .into_iter()
        .map(|(bar, count)| BarCut {
            count,
            stock: bar.stock,
            pieces: bar
                .pieces
                .iter()
                .filter_map(|kind| pieces.get(*kind))
                .map(|line| (line.length, line.name.clone()))
                .collect(),
            left: bar.left,
        })
        .collect()
}
