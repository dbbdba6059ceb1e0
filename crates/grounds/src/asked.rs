//! What somebody typed for the name of a thing, and what may be meant by it.

/// Longer names are not compared: nobody typed them.
const LONGEST: usize = 200;

/// Names this much alike may be a slip of the hand.
const ALIKE: f64 = 0.8;

/// Whether every word that was typed is a part of a name, whatever the case.
pub(crate) fn is_meant(asked: &str, name: &str) -> bool {
    let (asked, name) = (asked.to_lowercase(), name.to_lowercase());
    let mut words = asked.split_whitespace().peekable();
    words.peek().is_some() && words.all(|word| name.contains(word))
}

/// The keys most like what was typed, the likest first.
pub(crate) fn nearest<'a>(
    asked: &str,
    keys: impl Iterator<Item = &'a str>,
    most: usize,
) -> Vec<&'a str> {
    if asked.len() > LONGEST {
        return Vec::new();
    }
    let typed = asked.to_lowercase();
    let mut near: Vec<(f64, &str)> = keys
        .filter(|key| key.len().abs_diff(asked.len()) <= 20)
        .map(|key| (strsim::jaro_winkler(&typed, key), key))
        .filter(|(alike, _)| *alike > ALIKE)
        .collect();
    near.sort_by(|a, b| b.0.total_cmp(&a.0).then_with(|| a.1.cmp(b.1)));
    near.into_iter().map(|(_, key)| key).take(most).collect()
}

/// What was typed, in quotes and cut to a sane length.
pub(crate) fn quoted(text: &str) -> String {
    const SHOWN: usize = 80;
    let mut shown: String = text.chars().take(SHOWN).collect();
    if text.chars().count() > SHOWN {
        shown.push('…');
    }
    format!("“{shown}”")
}
