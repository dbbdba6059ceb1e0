//! Jobs in a data folder.

mod site;

use grounds_store::{Store, StoreError};
use site::{DOCUMENT, mill, notes, pragma, store};
use tempfile::TempDir;

#[tokio::test]
async fn a_document_comes_back_character_for_character() {
    let (_folder, store) = mill().await;
    let job = store.job("mill").await.unwrap();
    assert_eq!(job.document, DOCUMENT);
    assert_eq!(
        (job.name.as_str(), job.notes.len(), job.last_seq),
        ("mill", 0, 0)
    );
}

#[tokio::test]
async fn a_job_goes_by_the_name_in_its_document() {
    let (_folder, store) = store().await;
    store
        .put_job("mill", "[job]\nname = \"The mill\"\n")
        .await
        .unwrap();
    store
        .put_job("barn", "[job]\nname = \"The barn\"\n")
        .await
        .unwrap();
    let names: Vec<String> = store
        .jobs()
        .await
        .unwrap()
        .into_iter()
        .map(|job| job.name)
        .collect();
    assert_eq!(names, ["The barn", "The mill"]);
}

#[tokio::test]
async fn a_new_version_of_a_document_keeps_the_notes() {
    let (_folder, store) = mill().await;
    store.add_notes("mill", &notes(0..3)).await.unwrap();
    let before = store.job("mill").await.unwrap();
    let saved = store.put_job("mill", "another").await.unwrap();
    let after = store.job("mill").await.unwrap();
    assert_eq!((after.document.as_str(), after.notes.len()), ("another", 3));
    assert_eq!((after.created, after.changed), (before.created, saved));
    assert_eq!(store.saved_at("mill").await.unwrap(), saved);
}

#[tokio::test]
async fn everything_is_there_when_the_folder_is_opened_again() {
    let (folder, store) = mill().await;
    store.add_notes("mill", &notes(0..3)).await.unwrap();
    let before = store.job("mill").await.unwrap();
    store.close().await;
    let again = Store::open(&folder.path().join("data")).await.unwrap();
    assert_eq!(again.job("mill").await.unwrap(), before);
}

#[tokio::test]
async fn what_is_acknowledged_is_on_the_disk() {
    let (_folder, store) = mill().await;
    assert_eq!(pragma(store.folder(), "PRAGMA journal_mode").await, "wal");
    // The other two settings belong to a connection, so they are asked of the store's own way in.
    let settings = store.settings().await.unwrap();
    assert_eq!(
        settings,
        [
            ("synchronous", 2),
            ("foreign_keys", 1),
            ("busy_timeout", 10_000)
        ]
    );
}

#[tokio::test]
async fn a_job_that_is_not_here_is_named() {
    let (_folder, store) = store().await;
    for error in [
        store.job("mill").await.unwrap_err(),
        store.saved_at("mill").await.unwrap_err(),
        store.notes_since("mill", 0).await.unwrap_err(),
        store.add_notes("mill", &notes(0..1)).await.unwrap_err(),
    ] {
        assert!(
            matches!(&error, StoreError::NoJob { key } if key == "mill"),
            "{error}"
        );
    }
}

#[tokio::test]
async fn a_key_that_could_lead_elsewhere_is_refused() {
    let (_folder, store) = store().await;
    for key in ["../mill", "", "Mill", "a/b", "mill\0", "mi\u{1b}ll"] {
        let error = store.put_job(key, DOCUMENT).await.unwrap_err();
        assert!(matches!(error, StoreError::BadKey { .. }), "{error}");
        assert!(error.to_string().chars().all(|c| !c.is_control()));
    }
    assert!(store.jobs().await.unwrap().is_empty());
}

#[tokio::test]
async fn a_document_that_is_no_text_is_refused() {
    let (_folder, store) = store().await;
    let error = store.put_job("mill", "a\0b").await.unwrap_err();
    assert!(error.to_string().contains("null character"), "{error}");
    let long = "x".repeat(grounds_store::LONGEST_DOCUMENT + 1);
    assert!(store.put_job("mill", &long).await.is_err());
}

#[tokio::test]
async fn a_folder_of_a_later_version_is_left_alone() {
    let (folder, store) = mill().await;
    let data = folder.path().join("data");
    store.close().await;
    pragma(
        &data,
        "UPDATE schema_version SET version = 99 RETURNING version",
    )
    .await;
    let error = Store::open(&data).await.unwrap_err();
    assert!(
        matches!(
            error,
            StoreError::Newer {
                found: 99,
                known: 3,
                ..
            }
        ),
        "{error}"
    );
}

#[tokio::test]
async fn a_file_that_is_no_database_is_left_alone() {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("grounds.db");
    let text = "a shopping list ".repeat(100);
    std::fs::write(&file, &text).unwrap();
    assert!(Store::open(folder.path()).await.is_err());
    assert_eq!(std::fs::read_to_string(&file).unwrap(), text);
}

#[tokio::test]
async fn a_data_folder_where_a_file_stands_is_refused_in_words() {
    let folder = TempDir::new().unwrap();
    let file = folder.path().join("data");
    std::fs::write(&file, "x").unwrap();
    let error = Store::open(&file).await.unwrap_err();
    assert!(
        error
            .to_string()
            .starts_with("cannot make the data folder "),
        "{error}"
    );
}

#[cfg(unix)]
#[tokio::test]
async fn only_its_owner_may_look_into_a_new_data_folder() {
    use std::os::unix::fs::PermissionsExt;
    let (_folder, store) = store().await;
    let mode = std::fs::metadata(store.folder())
        .unwrap()
        .permissions()
        .mode();
    assert_eq!(mode & 0o777, 0o700);
}
