//! One look at a job: what is shown, who looks, and from which address.

use std::{collections::BTreeMap, sync::Arc};

use axum::http::{HeaderMap, header};
use grounds_schedule::{ActivityId, forecast::Latest};
use grounds_sequence::Words;
use grounds_store::Photo;
use jiff::Timestamp;
use uuid::Uuid;

use crate::{acts, desk::Desk, door::Door, picture::Picture, study::Study, ways::Ways};

/// Who writes, until somebody says otherwise.
pub const NOBODY_SAID: &str = "site lead";

/// The longest name of a writer, in characters.
pub(crate) const LONGEST_NAME: usize = 60;

/// One look at a job.
#[derive(Debug)]
pub(crate) struct Visit {
    /// The job's key.
    pub(crate) key: String,
    /// The job as it stands.
    pub(crate) picture: Arc<Picture>,
    /// What is known beside the picture.
    pub(crate) study: Study,
    /// Ways to win time back, by the date that they are for.
    pub(crate) ways: BTreeMap<String, Ways>,
    /// The photos that are here, by key; a note may name others, which are still on a phone.
    pub(crate) photos: Arc<BTreeMap<String, Photo>>,
    /// The time on site.
    pub(crate) now: Timestamp,
    /// Through which door.
    pub(crate) door: Door,
    /// Who writes.
    pub(crate) who: String,
    /// What marks the forms of this page.
    pub(crate) once: Uuid,
    /// The address of the page below the host, with its query.
    pub(crate) path: String,
    /// The host that the browser asked for.
    pub(crate) host: String,
    /// What the address asks for.
    pub(crate) query: BTreeMap<String, String>,
}

impl Visit {
    /// A look at a job, with what the request says.
    pub(crate) fn new(
        desk: &Desk,
        door: Door,
        headers: &HeaderMap,
        path: String,
        query: BTreeMap<String, String>,
    ) -> Self {
        let now = desk.now();
        let host = headers
            .get(header::HOST)
            .and_then(|host| host.to_str().ok());
        Self {
            key: desk.key().to_owned(),
            picture: desk.picture(),
            study: desk.study(),
            ways: desk.ways(),
            photos: desk.photos(),
            now,
            who: who(&door, headers),
            door,
            once: acts::new_once(now),
            path,
            host: host.unwrap_or_default().to_owned(),
            query,
        }
    }

    /// Whose name a note bears that was signed by hand: through a phone it is always that of its
    /// person; nothing if nobody signed.
    pub(crate) fn signed(&self, typed: &str) -> Option<String> {
        match self.door.name() {
            Some(name) => Some(name.to_owned()),
            None => a_name(typed),
        }
    }

    /// The plan in words.
    pub(crate) fn words(&self) -> Words<'_> {
        self.picture.words()
    }

    /// The latest that a piece of work may lie before a date moves, where that is known.
    pub(crate) fn latest(&self, id: ActivityId) -> Option<Latest> {
        self.study.latest(&self.picture, id)
    }

    /// Whether a piece of work drives a date: it is on a chain that does, and has no time to spare.
    pub(crate) fn drives(&self, id: ActivityId) -> bool {
        let spare = self.words().can_wait(id, self.latest(id));
        self.picture.drives.contains(&id) && spare.is_none()
    }

    /// What the address asks for under a name.
    pub(crate) fn asked(&self, name: &str) -> Option<&str> {
        self.query
            .get(name)
            .map(String::as_str)
            .filter(|text| !text.is_empty())
    }

    /// The address of a page of the job.
    pub(crate) fn to(&self, page: &str) -> String {
        format!("/j/{}/{page}", self.key)
    }

    /// The address of the page of a piece of work.
    pub(crate) fn to_work(&self, task_key: &str) -> String {
        format!("/j/{}/work/{}", self.key, encode(task_key, "/:."))
    }

    /// The note that was just written, if the address names one.
    pub(crate) fn just_written(&self) -> Option<Uuid> {
        self.asked("wrote")?.parse().ok()
    }
}

/// Who writes: whom the door knows, else by the cookie that remembers it.
pub(crate) fn who(door: &Door, headers: &HeaderMap) -> String {
    if let Some(name) = door.name() {
        return name.to_owned();
    }
    let cookies = headers
        .get_all(header::COOKIE)
        .iter()
        .filter_map(|value| value.to_str().ok());
    let name = cookies
        .flat_map(|line| line.split(';'))
        .find_map(|pair| pair.trim().strip_prefix("who=").map(decode))
        .and_then(|name| a_name(&name));
    name.unwrap_or_else(|| NOBODY_SAID.to_owned())
}

/// A writer's name as it was typed: one line, not too long; nothing if nothing is left.
pub(crate) fn a_name(typed: &str) -> Option<String> {
    one_line(typed, LONGEST_NAME)
}

/// What was typed as one line of at most so many characters; nothing if nothing is left.
pub(crate) fn one_line(typed: &str, longest: usize) -> Option<String> {
    let plain: String = typed
        .chars()
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect();
    let words: Vec<&str> = plain.split_whitespace().collect();
    let line: String = words.join(" ").chars().take(longest).collect();
    (!line.is_empty()).then_some(line)
}

/// Text as part of an address or a cookie; letters, digits, `-`, `_` and `plain` stay.
pub(crate) fn encode(text: &str, plain: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for byte in text.bytes() {
        let c = char::from(byte);
        if byte.is_ascii_alphanumeric() || matches!(c, '-' | '_') || plain.contains(c) {
            out.push(c);
        } else {
            out.push_str(&format!("%{byte:02X}"));
        }
    }
    out
}

fn decode(text: &str) -> String {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.as_bytes();
    while let Some((&first, after)) = rest.split_first() {
        let code = after.get(..2).and_then(|two| std::str::from_utf8(two).ok());
        match code
            .and_then(|two| u8::from_str_radix(two, 16).ok())
            .filter(|_| first == b'%')
        {
            Some(byte) => {
                bytes.push(byte);
                rest = &after[2..];
            }
            None => {
                bytes.push(first);
                rest = after;
            }
        }
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_comes_back_from_its_cookie_as_it_was_typed() {
        for name in ["Ana", "José Núñez", "a%3Bb; c=d", "\"<b>\""] {
            assert_eq!(decode(&encode(name, "")), name);
        }
        let mut headers = HeaderMap::new();
        assert_eq!(who(&Door::Desk, &headers), NOBODY_SAID);
        let cookie = format!("theme=dark; who={}", encode("José", ""));
        headers.insert(header::COOKIE, cookie.parse().unwrap());
        assert_eq!(who(&Door::Desk, &headers), "José");
    }

    #[test]
    fn a_name_is_one_short_line() {
        assert_eq!(
            a_name("  Ana\r\nSet-Cookie: x\t "),
            Some("Ana Set-Cookie: x".to_owned())
        );
        assert_eq!(a_name(" \u{0} \n"), None);
        assert_eq!(
            a_name(&"x".repeat(999)).map(|name| name.len()),
            Some(LONGEST_NAME)
        );
    }

    #[test]
    fn a_broken_escape_stays_as_it_is() {
        assert_eq!(decode("100%"), "100%");
        assert_eq!(decode("%zz%4"), "%zz%4");
        assert_eq!(decode("%é"), "%é");
    }
}
