//! The max-min fair choice: the least margin first, then the next.

use super::SLACK;
use super::program::{Ask, Program};

/// A row whose dual is above this is tight in every best answer.
const TIGHT: f64 = 1e-5;

/// The moves that leave the least margin the largest, then the least of the rest, and so on.
pub(super) fn fair(program: &Program) -> Vec<f64> {
    let mut asks = vec![Ask::Most; program.rows.len()];
    let mut moves = vec![0.0; program.reach.len()];
    while asks.contains(&Ask::Most) {
        let Some(best) = program.most(&asks) else {
            break;
        };
        moves = best.moves;
        let mut tight: Vec<usize> = (0..asks.len())
            .filter(|row| asks[*row] == Ask::Most && best.weight[*row] > TIGHT)
            .collect();
        if tight.is_empty() {
            tight.extend((0..asks.len()).filter(|row| asks[*row] == Ask::Most));
        }
        for row in tight {
            hold(program, &mut asks, row, best.margin - SLACK / 2.0);
        }
    }
    program.nearest(&asks).unwrap_or(moves)
}

/// A need has no more room than at its tighter limit, so that both limits keep to that.
fn hold(program: &Program, asks: &mut [Ask], row: usize, margin: f64) {
    let need = program.rows[row].need;
    for (other, ask) in program.rows.iter().zip(asks) {
        if other.need == need && *ask == Ask::Most {
            *ask = Ask::AtLeast(margin);
        }
    }
}
