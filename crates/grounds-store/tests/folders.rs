//! Jobs taken in from folders and given out to them, without loss.

mod site;

use std::fs;

use grounds_site::write_notes;
use grounds_store::{
    Differing::{Refuse, Replace},
    StoreError,
};
use site::{DOCUMENT, mill, note, notes, store};

#[tokio::test]
async fn a_job_goes_out_to_a_folder_and_comes_back_the_same() {
    let (folder, store) = mill().await;
    store.add_notes("mill", &notes(0..4)).await.unwrap();
    let out = folder.path().join("out/mill");
    let exported = store.export_folder("mill", &out, Refuse).await.unwrap();
    assert!(exported.is_changed && exported.notes == 4);
    assert_eq!(fs::read(out.join("job.toml")).unwrap(), DOCUMENT.as_bytes());
    assert_eq!(
        fs::read_to_string(out.join("notes.jsonl")).unwrap(),
        write_notes(&notes(0..4)).unwrap()
    );

    let (_other, other) = site::store().await;
    let imported = other.import_folder(&out).await.unwrap();
    assert_eq!((imported.key.as_str(), imported.notes.new), ("mill", 4));
    let (here, there) = (
        store.job("mill").await.unwrap(),
        other.job("mill").await.unwrap(),
    );
    assert_eq!((here.document, here.notes), (there.document, there.notes));
}

#[tokio::test]
async fn a_folder_taken_in_and_given_out_again_is_byte_for_byte_the_same() {
    let (folder, store) = store().await;
    let source = folder.path().join("barn");
    fs::create_dir(&source).unwrap();
    fs::write(source.join("job.toml"), DOCUMENT).unwrap();
    fs::write(
        source.join("notes.jsonl"),
        write_notes(&[note(9), note(2), note(5)]).unwrap(),
    )
    .unwrap();
    store.import_folder(&source).await.unwrap();
    // Nothing differs, so nothing is written.
    let same = store.export_folder("barn", &source, Refuse).await.unwrap();
    assert!(!same.is_changed);
    let copy = folder.path().join("copy");
    store.export_folder("barn", &copy, Refuse).await.unwrap();
    for file in ["job.toml", "notes.jsonl"] {
        assert_eq!(
            fs::read(copy.join(file)).unwrap(),
            fs::read(source.join(file)).unwrap()
        );
    }
}

#[tokio::test]
async fn taking_in_a_folder_twice_changes_nothing() {
    let (folder, store) = mill().await;
    store.add_notes("mill", &notes(0..2)).await.unwrap();
    let out = folder.path().join("mill");
    store.export_folder("mill", &out, Refuse).await.unwrap();
    let saved = store.saved_at("mill").await.unwrap();
    let again = store.import_folder(&out).await.unwrap();
    assert_eq!((again.notes.new, again.notes.known), (0, 2));
    assert_eq!(store.saved_at("mill").await.unwrap(), saved);
}

#[tokio::test]
async fn notes_made_on_both_sides_are_put_together() {
    let (folder, store) = mill().await;
    store.add_notes("mill", &notes(0..2)).await.unwrap();
    let out = folder.path().join("mill");
    store.export_folder("mill", &out, Refuse).await.unwrap();
    fs::write(
        out.join("notes.jsonl"),
        write_notes(&[note(0), note(7)]).unwrap(),
    )
    .unwrap();
    store.import_folder(&out).await.unwrap();
    assert_eq!(
        store.job("mill").await.unwrap().notes,
        [note(0), note(1), note(7)]
    );
}

#[tokio::test]
async fn another_document_does_not_replace_the_one_here_unless_told() {
    let (folder, store) = mill().await;
    let source = folder.path().join("mill");
    fs::create_dir(&source).unwrap();
    fs::write(source.join("job.toml"), "another").unwrap();
    let error = store.import_folder(&source).await.unwrap_err();
    assert!(
        matches!(error, StoreError::DocumentDiffers { .. }),
        "{error}"
    );
    assert_eq!(store.job("mill").await.unwrap().document, DOCUMENT);
    store
        .import_folder_as("mill", &source, Replace)
        .await
        .unwrap();
    assert_eq!(store.job("mill").await.unwrap().document, "another");
}

#[tokio::test]
async fn a_folder_that_differs_is_not_written_over_unless_told() {
    let (folder, store) = mill().await;
    let out = folder.path().join("mill");
    fs::create_dir(&out).unwrap();
    fs::write(out.join("job.toml"), "somebody's work").unwrap();
    fs::write(out.join("sketch.txt"), "keep me").unwrap();
    let error = store.export_folder("mill", &out, Refuse).await.unwrap_err();
    assert!(matches!(error, StoreError::FolderDiffers { .. }), "{error}");
    assert_eq!(
        fs::read_to_string(out.join("job.toml")).unwrap(),
        "somebody's work"
    );

    store.export_folder("mill", &out, Replace).await.unwrap();
    assert_eq!(fs::read(out.join("job.toml")).unwrap(), DOCUMENT.as_bytes());
    let mut names: Vec<_> = fs::read_dir(&out)
        .unwrap()
        .map(|file| file.unwrap().file_name())
        .collect();
    names.sort();
    assert_eq!(names, ["job.toml", "sketch.txt"]);
}

#[tokio::test]
async fn a_log_of_other_notes_is_not_written_over_unless_told() {
    let (folder, store) = mill().await;
    let out = folder.path().join("mill");
    store.export_folder("mill", &out, Refuse).await.unwrap();
    fs::write(out.join("notes.jsonl"), write_notes(&notes(0..1)).unwrap()).unwrap();
    let error = store.export_folder("mill", &out, Refuse).await.unwrap_err();
    assert!(matches!(error, StoreError::FolderDiffers { .. }), "{error}");
    store.export_folder("mill", &out, Replace).await.unwrap();
    assert_eq!(fs::read_to_string(out.join("notes.jsonl")).unwrap(), "");
}

#[tokio::test]
async fn a_bad_line_keeps_the_whole_folder_out_and_every_bad_line_is_named() {
    let (folder, store) = store().await;
    let source = folder.path().join("barn");
    fs::create_dir(&source).unwrap();
    fs::write(source.join("job.toml"), DOCUMENT).unwrap();
    let log = format!("{}oops\n{{}}\n", write_notes(&notes(0..1)).unwrap());
    fs::write(source.join("notes.jsonl"), log).unwrap();
    let error = store.import_folder(&source).await.unwrap_err();
    let StoreError::BadLog(faults) = &error else {
        panic!("{error}")
    };
    assert_eq!(
        faults.iter().map(|fault| fault.line).collect::<Vec<_>>(),
        [2, 3]
    );
    assert!(store.jobs().await.unwrap().is_empty());
}

#[tokio::test]
async fn a_folder_without_a_document_is_no_job() {
    let (folder, store) = store().await;
    let source = folder.path().join("barn");
    fs::create_dir(&source).unwrap();
    let error = store.import_folder(&source).await.unwrap_err();
    assert!(
        error
            .to_string()
            .ends_with("name a folder that holds a job.toml"),
        "{error}"
    );
    let error = store
        .import_folder(&folder.path().join("none"))
        .await
        .unwrap_err();
    assert!(matches!(error, StoreError::File { .. }), "{error}");
}

#[tokio::test]
async fn a_folder_whose_name_is_no_key_is_taken_in_under_one_that_is() {
    let (folder, store) = store().await;
    let source = folder.path().join("The Barn");
    fs::create_dir(&source).unwrap();
    fs::write(source.join("job.toml"), DOCUMENT).unwrap();
    let error = store.import_folder(&source).await.unwrap_err();
    assert!(matches!(error, StoreError::BadKey { .. }), "{error}");
    store
        .import_folder_as("barn", &source, Refuse)
        .await
        .unwrap();
    assert_eq!(store.job("barn").await.unwrap().document, DOCUMENT);
}

#[tokio::test]
async fn a_document_that_is_no_text_is_not_taken_in() {
    let (folder, store) = store().await;
    let source = folder.path().join("barn");
    fs::create_dir(&source).unwrap();
    fs::write(source.join("job.toml"), [0xff, 0xfe, 0x00]).unwrap();
    let error = store.import_folder(&source).await.unwrap_err();
    assert!(
        error.to_string().contains("is not text in UTF-8"),
        "{error}"
    );
}

#[cfg(unix)]
#[tokio::test]
async fn a_link_leads_neither_out_of_a_folder_nor_into_another() {
    use std::os::unix::fs::symlink;
    let (folder, store) = mill().await;
    let secret = folder.path().join("secret");
    fs::write(&secret, "secret").unwrap();
    let source = folder.path().join("barn");
    fs::create_dir(&source).unwrap();
    symlink(&secret, source.join("job.toml")).unwrap();
    let error = store.import_folder(&source).await.unwrap_err();
    assert!(error.to_string().contains("is a link"), "{error}");
    let error = store
        .export_folder("mill", &source, Replace)
        .await
        .unwrap_err();
    assert!(error.to_string().contains("is a link"), "{error}");
    assert_eq!(fs::read_to_string(&secret).unwrap(), "secret");

    let other = folder.path().join("other");
    fs::create_dir_all(other.join("job.toml")).unwrap();
    let error = store.import_folder(&other).await.unwrap_err();
    assert!(error.to_string().contains("is not a file"), "{error}");
}

/// The demo house, as it lies in the repository.
#[tokio::test]
async fn the_mill_goes_in_and_comes_out_without_loss() {
    let mill = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/alder-sluice");
    let (folder, store) = store().await;
    let taken = store.import_folder(&mill).await.unwrap();
    assert_eq!(taken.key, "alder-sluice");
    assert!(taken.notes.new > 0);
    let out = folder.path().join("out");
    store
        .export_folder("alder-sluice", &out, Refuse)
        .await
        .unwrap();
    let file = |at: &std::path::Path, name: &str| fs::read_to_string(at.join(name)).unwrap();
    assert_eq!(file(&out, "job.toml"), file(&mill, "job.toml"));
    let notes = |at| grounds_site::read_notes("notes.jsonl", &file(at, "notes.jsonl"));
    assert_eq!(notes(&out), notes(&mill));
}
