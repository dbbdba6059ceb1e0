//! Set-outs on the marks of a tape.

use super::program::Row;

/// Passes over all settings; each can only gain, and few are ever needed.
const PASSES: usize = 8;

/// Moves that put every setting on a mark within its range. Begun at the nearest mark; then each
/// setting goes to a neighbouring mark where that helps the tightest need it has a part in.
pub(super) fn round(rows: &[Row], ranges: &[(f64, f64)], moves: &[f64], tape: f64) -> Vec<f64> {
    let settings = ranges.iter().zip(moves);
    let marks: Vec<Option<Mark>> = settings
        .map(|(range, at)| Mark::nearest(*range, *at, tape))
        .collect();
    let mut rounded: Vec<f64> = marks
        .iter()
        .zip(moves)
        .map(|(mark, exact)| mark.map_or(*exact, |mark| mark.start))
        .collect();
    let mut touched = vec![Vec::new(); ranges.len()];
    for row in rows {
        for (at, _) in &row.gains {
            touched[*at].push(row);
        }
    }
    for _ in 0..PASSES {
        let mut gained = false;
        for (at, mark) in marks.iter().enumerate() {
            if let Some(mark) = mark {
                gained |= shift(&touched[at], &mut rounded, at, *mark, tape);
            }
        }
        if !gained {
            break;
        }
    }
    rounded
}

/// The mark nearest to a setting, and how far it can be moved, all from the middle of the range.
#[derive(Clone, Copy)]
struct Mark {
    start: f64,
    low: f64,
    high: f64,
}

impl Mark {
    fn nearest((low, high): (f64, f64), exact: f64, tape: f64) -> Option<Self> {
        let middle = f64::midpoint(low, high);
        // A range that ends on a mark must not lose it to rounding.
        let (first, last) = ((low / tape - 1e-9).ceil(), (high / tape + 1e-9).floor());
        (first <= last).then(|| {
            let mark = ((middle + exact) / tape).round().clamp(first, last);
            Self {
                start: mark * tape - middle,
                low: low - middle - 1e-9,
                high: high - middle + 1e-9,
            }
        })
    }
}

fn shift(rows: &[&Row], moves: &mut [f64], at: usize, mark: Mark, tape: f64) -> bool {
    let room = |moves: &[f64]| {
        let margins = rows.iter().map(|row| row.margin(moves));
        margins.fold(f64::INFINITY, f64::min)
    };
    let before = moves[at];
    let (mut best, mut most) = (before, room(moves));
    for next in [before - tape, before + tape] {
        if (mark.low..=mark.high).contains(&next) {
            moves[at] = next;
            let room = room(moves);
            if room > most + 1e-9 {
                (best, most) = (next, room);
            }
        }
    }
    moves[at] = best;
    best.to_bits() != before.to_bits()
}
