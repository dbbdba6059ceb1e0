//! What may be a job's key, and what may be its document.

use crate::error::StoreError;

/// The longest key of a job, in characters.
pub const LONGEST_KEY: usize = 64;

/// The longest job document, in bytes.
pub const LONGEST_DOCUMENT: usize = 16 * 1024 * 1024;

/// Checks a job's key: lower-case letters, digits and single hyphens between them. Such a key is
/// safe as the name of a folder and in the address of a page.
pub(crate) fn check_key(key: &str) -> Result<(), StoreError> {
    let is_plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    let is_key = (1..=LONGEST_KEY).contains(&key.len())
        && key.chars().all(is_plain)
        && !key.starts_with('-')
        && !key.ends_with('-')
        && !key.contains("--");
    if is_key {
        Ok(())
    } else {
        Err(StoreError::BadKey { shown: shown(key) })
    }
}

/// Checks a photo's key: a SHA-256 in lower-case hexadecimal. Such a key is safe as the name of a
/// file.
pub(crate) fn check_photo(key: &str) -> Result<(), StoreError> {
    let is_plain = |c: u8| c.is_ascii_digit() || (b'a'..=b'f').contains(&c);
    if key.len() == 64 && key.bytes().all(is_plain) {
        Ok(())
    } else {
        Err(StoreError::BadPhotoKey { shown: shown(key) })
    }
}

/// Checks that a document can be kept as text, whatever it says.
pub(crate) fn check_document(document: &str) -> Result<(), StoreError> {
    if document.len() > LONGEST_DOCUMENT {
        let (why, mend) = (
            "is longer than 16 MiB",
            "keep drawings and photos out of it",
        );
        return Err(StoreError::BadDocument { why, mend });
    }
    if document.contains('\0') {
        let (why, mend) = ("holds a null character", "save it as plain text in UTF-8");
        return Err(StoreError::BadDocument { why, mend });
    }
    Ok(())
}

/// What a document calls its job; the key where it does not say, or cannot be read.
pub(crate) fn name_in(document: &str, key: &str) -> String {
    let table: Option<toml::Table> = document.parse().ok();
    let name = table
        .as_ref()
        .and_then(|table| table.get("job")?.get("name")?.as_str());
    match name.map(shown).filter(|name| !name.trim().is_empty()) {
        Some(name) => name,
        None => key.to_owned(),
    }
}

/// Text of unknown origin, fit to print: short, and without control characters.
pub(crate) fn shown(text: &str) -> String {
    text.chars()
        .map(|c| if c.is_control() { '\u{fffd}' } else { c })
        .take(120)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_key_cannot_lead_anywhere_else() {
        for key in ["alder-sluice", "a", "house-2"] {
            assert!(check_key(key).is_ok(), "{key}");
        }
        let long = "a".repeat(LONGEST_KEY + 1);
        let bad = [
            "", "..", "a/b", "a\\b", ".hidden", "-a", "a-", "a--b", "A", "é", "a\0", "a b", &long,
        ];
        for key in bad {
            assert!(check_key(key).is_err(), "{key}");
        }
    }

    #[test]
    fn a_key_of_a_photo_is_a_hash_and_nothing_else() {
        let good = "0123456789abcdef".repeat(4);
        assert!(check_photo(&good).is_ok());
        let long = format!("{good}0");
        let upper = good.to_uppercase();
        let up = format!("../{}", &good[3..]);
        for bad in ["", "4f1c9a.jpg", &good[1..], &long, &upper, &up] {
            assert!(check_photo(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn a_job_is_called_what_its_document_calls_it() {
        assert_eq!(name_in("[job]\nname = \"The mill\"\n", "mill"), "The mill");
        assert_eq!(name_in("[job]\nname = \" \"\n", "mill"), "mill");
        assert_eq!(name_in("not a document", "mill"), "mill");
        assert_eq!(name_in("[job]\nname = 7\n", "mill"), "mill");
    }
}
