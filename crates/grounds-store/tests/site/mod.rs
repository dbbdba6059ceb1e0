//! A data folder for a test, and notes to put in it.

#![allow(
    dead_code,
    unreachable_pub,
    clippy::unwrap_used,
    reason = "each test file uses its own part of a folder that is known to be sound"
)]

use std::path::Path;

use grounds_site::{Kind, Note};
use grounds_store::Store;
use tempfile::TempDir;
use uuid::Uuid;

/// A document with odd line ends, spaces and letters, all of which must be kept.
pub const DOCUMENT: &str =
    "# Mühle\r\n[job]\nname = \"The mill\"   \n\n\tabout = 'x'\u{2028}\r\n# no line end";

/// A data folder that goes away with the test.
pub async fn store() -> (TempDir, Store) {
    let folder = TempDir::new().unwrap();
    let store = Store::open(&folder.path().join("data")).await.unwrap();
    (folder, store)
}

/// The same with one job in it, `mill`.
pub async fn mill() -> (TempDir, Store) {
    let (folder, store) = store().await;
    store.put_job("mill", DOCUMENT).await.unwrap();
    (folder, store)
}

/// The note of that number.
pub fn note(number: u128) -> Note {
    let id = Uuid::from_u128(0x0193_0000_0000_7000_8000_0000_0000_0000 + number);
    let at = "2027-06-08T12:00:00Z".parse().unwrap();
    Note::new(id, at, "Ana", "stair-hall.walls/base", Kind::Done)
        .with_words(format!("note {number}"))
}

/// The notes of those numbers.
pub fn notes(numbers: std::ops::Range<u128>) -> Vec<Note> {
    numbers.map(note).collect()
}

/// What a pragma of the database says, over a connection of its own.
pub async fn pragma(folder: &Path, statement: &'static str) -> String {
    use sqlx::{ConnectOptions, Connection, Row, sqlite::SqliteConnectOptions};
    let options = SqliteConnectOptions::new().filename(folder.join("grounds.db"));
    let mut connection = options.connect().await.unwrap();
    let row = sqlx::query(statement)
        .fetch_one(&mut connection)
        .await
        .unwrap();
    let said = row
        .try_get::<String, _>(0)
        .unwrap_or_else(|_| row.get::<i64, _>(0).to_string());
    connection.close().await.unwrap();
    said
}
