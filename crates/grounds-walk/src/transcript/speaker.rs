//! Speakers named at the head of a cue: `J: Bench is in.`

use std::collections::BTreeMap;

use super::Cue;

/// The longest label that is taken for a speaker, in characters.
const LONGEST_LABEL: usize = 24;

/// Moves labels such as `J:` or `Mara:` from the text of cues to their speaker.
///
/// One or two capitals are always a label; a name is one if it heads at least three cues and a
/// fifth of them all, so that `Kitchen: units are in` keeps its kitchen.
pub(super) fn take_labels(cues: &mut [Cue]) {
    let mut heads: BTreeMap<String, usize> = BTreeMap::new();
    for cue in cues.iter() {
        if let Some((label, _)) = label(&cue.text) {
            *heads.entry(label.to_owned()).or_default() += 1;
        }
    }
    let many = (cues.len() / 5).max(3);
    for cue in cues.iter_mut().filter(|cue| cue.speaker.is_none()) {
        let Some((label, text)) = label(&cue.text) else {
            continue;
        };
        let often = heads.get(label).is_some_and(|count| *count >= many);
        if is_initials(label) || often {
            let (label, text) = (label.to_owned(), text.to_owned());
            cue.speaker = Some(label);
            cue.text = text;
        }
    }
}

fn label(text: &str) -> Option<(&str, &str)> {
    let (label, rest) = text.split_once(": ")?;
    let short = label.chars().count() <= LONGEST_LABEL && label.split(' ').count() <= 3;
    let named = label.chars().next().is_some_and(char::is_uppercase)
        && label
            .chars()
            .all(|c| c.is_alphanumeric() || matches!(c, ' ' | '.' | '-' | '\''));
    (short && named).then(|| (label, rest.trim_start()))
}

fn is_initials(label: &str) -> bool {
    label.chars().count() <= 2 && label.chars().all(char::is_uppercase)
}
