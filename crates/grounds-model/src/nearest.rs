//! The known word that a mistyped one was probably meant to be.

/// The most known words that are compared.
const MOST_COMPARED: usize = 5000;

/// How far apart two words may be, in single typing slips, to be thought the same.
fn slips_allowed(word: &str) -> usize {
    match word.chars().count() {
        0..=4 => 1,
        5..=7 => 2,
        _ => 3,
    }
}

/// The nearest of the known words, if one is near enough; the first of equally near ones.
pub(crate) fn nearest<'w>(word: &str, known: impl IntoIterator<Item = &'w str>) -> Option<&'w str> {
    // A word of hostile length is like no other, and comparing it would be slow.
    if word.len() > 200 {
        return None;
    }
    let lower = word.to_lowercase().replace(['_', ' '], "-");
    known
        .into_iter()
        .take(MOST_COMPARED)
        .filter(|candidate| candidate.len() <= 200)
        .map(|candidate| (slips(&lower, candidate), candidate))
        .filter(|(slips, _)| *slips <= slips_allowed(word))
        .min_by_key(|(slips, _)| *slips)
        .map(|(_, candidate)| candidate)
}

fn slips(lower: &str, candidate: &str) -> usize {
    let candidate = candidate.to_lowercase().replace('_', "-");
    if candidate.len().abs_diff(lower.len()) > 12 {
        return usize::MAX;
    }
    // A plural or a longer form of the same word counts as one slip.
    if lower.len() >= 3 && candidate.len() >= 3 {
        let start = candidate.starts_with(lower) || lower.starts_with(&candidate);
        if start && candidate.len().abs_diff(lower.len()) <= 4 {
            return usize::from(candidate != lower);
        }
    }
    strsim::damerau_levenshtein(lower, &candidate)
}

/// `did you mean …?`, or else the known words themselves.
pub(crate) fn mend_by_name<'w>(
    word: &str,
    known: impl IntoIterator<Item = &'w str>,
    otherwise: &str,
) -> String {
    let known: Vec<&str> = known.into_iter().collect();
    match nearest(word, known.iter().copied()) {
        Some(near) => format!("did you mean `{near}`? or {otherwise}"),
        None => otherwise.to_owned(),
    }
}

/// Names in backticks with commas, at most twelve of them.
pub(crate) fn listed<'w>(names: impl IntoIterator<Item = &'w str>) -> String {
    const SHOWN: usize = 12;
    let mut names = names.into_iter();
    let mut out: Vec<String> = names
        .by_ref()
        .take(SHOWN)
        .map(|name| format!("`{name}`"))
        .collect();
    if names.next().is_some() {
        out.push("…".to_owned());
    }
    out.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_of_the_hand_finds_the_word_meant() {
        let known = ["level", "aliases", "build_up", "entrance"];
        assert_eq!(nearest("levle", known), Some("level"));
        assert_eq!(nearest("build-up", known), Some("build_up"));
        assert_eq!(nearest("alias", known), Some("aliases"));
        assert_eq!(nearest("friday", ["mon", "fri"]), Some("fri"));
        assert_eq!(nearest("colour", known), None);
    }
}
