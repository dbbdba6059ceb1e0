//! What a note may hold, so that a log stays readable whoever wrote it.

use jiff::{Timestamp, tz::TimeZone};

use crate::note::{Note, Value};

/// The longest line of a log, in bytes.
pub const LONGEST_LINE: usize = 64 * 1024;

/// The most notes that one log may hold.
pub const MOST_NOTES: usize = 250_000;

/// The longest name of a person, reference or key of a photo, in characters.
const LONGEST_NAME: usize = 200;

/// The longest text of a note, in characters.
const LONGEST_WORDS: usize = 10_000;

/// The most photos of one note.
const MOST_PHOTOS: usize = 100;

/// The first and the last year that a note may be dated in.
const YEARS: std::ops::RangeInclusive<i16> = 1900..=2199;

/// Something about a note that cannot be kept, and how to mend it.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{what}; {mend}")]
pub struct Unfit {
    /// What is wrong: `by is empty`.
    pub what: String,
    /// How to mend it: `write who saw it, like "Ana"`.
    pub mend: &'static str,
}

impl Note {
    /// Checks that the note can be kept: that it names somebody and something, is dated in this or
    /// a neighbouring century, and that its texts are of a sensible length and print as text. What
    /// it is about need not exist.
    ///
    /// # Errors
    ///
    /// [`Unfit`] says what is wrong first, and how to mend it.
    pub fn check(&self) -> Result<(), Unfit> {
        name("by", &self.by, "write who saw it, like \"Ana\"")?;
        let about = "write what it is about, like \"stair-hall.walls/base\"";
        name("about", self.about.as_str(), about)?;
        text("words", self.words.as_deref().unwrap_or_default())?;
        if let Some(Value::Reading { what, figure }) = &self.value {
            let mend = "write what was read and its figure, like \"moisture\" and \"9 %\"";
            name("what of the reading", what, mend)?;
            name("figure of the reading", figure, mend)?;
        }
        if self.photos.len() > MOST_PHOTOS {
            let what = format!(
                "photos names {} photos, more than {MOST_PHOTOS}",
                self.photos.len()
            );
            return Err(Unfit {
                what,
                mend: "split the note",
            });
        }
        self.photos.iter().try_for_each(|key| photo(key))?;
        date(self.at)
    }
}

fn date(at: Timestamp) -> Result<(), Unfit> {
    let year = at.to_zoned_datetime(TimeZone::UTC).year();
    if YEARS.contains(&year) {
        return Ok(());
    }
    let what = format!("at is in the year {year}");
    Err(Unfit {
        what,
        mend: "write the moment it was seen, like \"2027-06-08T14:30:00Z\"",
    })
}

fn name(key: &str, text: &str, mend: &'static str) -> Result<(), Unfit> {
    let what = if text.trim().is_empty() {
        format!("{key} is empty")
    } else if text.chars().count() > LONGEST_NAME {
        format!("{key} is longer than {LONGEST_NAME} characters")
    } else if text.chars().any(char::is_control) {
        format!("{key} holds a control character")
    } else {
        return Ok(());
    };
    Err(Unfit { what, mend })
}

fn text(key: &str, text: &str) -> Result<(), Unfit> {
    if text.chars().count() > LONGEST_WORDS {
        let what = format!("{key} is longer than {LONGEST_WORDS} characters");
        return Err(Unfit {
            what,
            mend: "split the note",
        });
    }
    if text
        .chars()
        .any(|c| c.is_control() && !matches!(c, '\n' | '\r' | '\t'))
    {
        let what = format!("{key} holds a control character");
        return Err(Unfit {
            what,
            mend: "take it out; line breaks and tabs may stay",
        });
    }
    Ok(())
}

/// A photo's key is a plain file name: it can never lead out of the photo store.
fn photo(key: &str) -> Result<(), Unfit> {
    const MEND: &str = "write the key the photo store gave, like \"4f1c9a.jpg\"";
    name("photos", key, MEND)?;
    let is_plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.');
    if key.starts_with('.') || !key.chars().all(is_plain) {
        let what = format!(
            "photos holds “{}”, which is not a photo's key",
            crate::words::plain(key)
        );
        return Err(Unfit { what, mend: MEND });
    }
    Ok(())
}
