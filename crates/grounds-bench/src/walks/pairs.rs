//! The most pairs of rows and proposals, each used once.

/// For each row the proposal it is paired with, given for each row the proposals it may have, the
/// best first. The number of pairs is the greatest possible (augmenting paths).
pub(super) fn most_pairs(options: &[Vec<usize>], proposals: usize) -> Vec<Option<usize>> {
    let mut holder: Vec<Option<usize>> = vec![None; proposals];
    for row in 0..options.len() {
        let mut seen = vec![false; proposals];
        augment(row, options, &mut holder, &mut seen);
    }
    let mut paired = vec![None; options.len()];
    for (proposal, row) in holder.iter().enumerate() {
        if let Some(slot) = row.and_then(|row| paired.get_mut(row)) {
            *slot = Some(proposal);
        }
    }
    paired
}

fn augment(
    row: usize,
    options: &[Vec<usize>],
    holder: &mut [Option<usize>],
    seen: &mut [bool],
) -> bool {
    for &proposal in options.get(row).map(Vec::as_slice).unwrap_or_default() {
        let Some(visited) = seen.get_mut(proposal).filter(|visited| !**visited) else {
            continue;
        };
        *visited = true;
        let held = holder.get(proposal).copied().flatten();
        if held.is_none_or(|other| augment(other, options, holder, seen)) {
            if let Some(slot) = holder.get_mut(proposal) {
                *slot = Some(row);
            }
            return true;
        }
    }
    false
}
