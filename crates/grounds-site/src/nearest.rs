//! What somebody may have meant by a name that is not known.

use strsim::damerau_levenshtein;

/// The longest name that is compared, in characters; longer ones are nobody's slip of the pen.
const LONGEST: usize = 120;

/// How many suggestions are given.
const MOST: usize = 3;

/// The known names nearest to what was written, the nearest first; none that are far off.
pub(crate) fn among<'a>(written: &str, known: impl Iterator<Item = &'a str>) -> Vec<String> {
    let length = written.chars().count();
    if length == 0 || length > LONGEST {
        return Vec::new();
    }
    let written = written.to_lowercase();
    let mut near: Vec<(usize, &str)> = known
        .map(|name| (damerau_levenshtein(&written, name), name))
        .filter(|(slips, _)| *slips <= 1 + length / 4)
        .collect();
    near.sort_unstable();
    let best = near.first().map_or(0, |(slips, _)| *slips);
    near.retain(|(slips, _)| *slips <= best + 1);
    near.into_iter()
        .take(MOST)
        .map(|(_, name)| name.to_owned())
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_of_the_pen_finds_the_name() {
        let known = [
            "stair-hall.walls/base",
            "stair-hall.walls/finish",
            "kitchen",
        ];
        assert_eq!(
            among("stair-hal.walls/bse", known.into_iter()),
            ["stair-hall.walls/base"]
        );
        assert!(among("boathouse", known.into_iter()).is_empty());
        assert!(among(&"x".repeat(5000), known.into_iter()).is_empty());
    }
}
