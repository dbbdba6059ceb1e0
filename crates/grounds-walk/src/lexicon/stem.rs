//! The stem of a word: what is left when number, tense and the like are taken off.

/// Endings that are taken off, the longest first, each with how many letters must stay.
const ENDINGS: [(&str, usize); 9] = [
    ("'s", 1),
    ("ings", 3),
    ("ing", 3),
    ("ies", 2),
    ("ed", 3),
    ("es", 3),
    ("s", 3),
    ("y", 3),
    ("e", 3),
];

/// Words that would fall together with others of the trade: slate and slats.
const APART: [(&str, &str); 4] = [
    ("slate", "slate"),
    ("slates", "slate"),
    ("slated", "slate"),
    ("slating", "slate"),
];

/// The stem of a lower-case word. Stems are compared, never shown.
///
/// Light on purpose: it joins `tile, tiles, tiling, tiled` and `noggings, nogging`. A few that only
/// look alike fall together (`tile` and `till`), which a trade's talk bears.
pub(crate) fn stem(word: &str) -> String {
    if let Some((_, stem)) = APART.iter().find(|(known, _)| *known == word) {
        return (*stem).to_owned();
    }
    let mut left = word.strip_suffix("'s").unwrap_or(word).to_owned();
    for (ending, stays) in ENDINGS {
        if left.len() >= ending.len() + stays && left.ends_with(ending) && !left.ends_with("ss") {
            left.truncate(left.len() - ending.len());
            break;
        }
    }
    if left.len() > 3 && left.ends_with(['e', 'i', 'y']) {
        left.pop();
    }
    undouble(left)
}

/// One letter for a doubled consonant at the end: `trimm` from `trimmed`, `wall`.
fn undouble(mut word: String) -> String {
    let mut back = word.chars().rev();
    if let (Some(last), Some(before)) = (back.next(), back.next())
        && last == before
        && !"aeiou".contains(last)
        && word.len() > 3
    {
        word.pop();
    }
    word
}

#[cfg(test)]
mod tests {
    use super::stem;

    #[test]
    fn forms_of_one_word_have_one_stem() {
        for forms in [
            ["tile", "tiles", "tiled", "tiling"],
            ["trim", "trims", "trimmed", "trimming"],
            ["board", "boards", "boarded", "boarding"],
            ["grille", "grilles", "grille's", "grille"],
            ["box", "boxes", "boxed", "boxing"],
        ] {
            for form in forms {
                assert_eq!(stem(form), stem(forms[0]), "{form}");
            }
        }
        assert_ne!(stem("tile"), stem("title"));
        assert_ne!(stem("board"), stem("border"));
        assert_eq!(stem("glass"), "glas");
    }
}
