//! Photos: kept once, given out and taken in without loss, and safe against a kill and a bad folder.

#![allow(
    clippy::unwrap_used,
    reason = "the test fails where something is not as it should be"
)]

mod site;

use std::{fs, io::Cursor, sync::Arc};

use grounds_photo::{Ready, ready};
use grounds_store::{Differing::Refuse, Facing, Size, StoreError, Taken};
use image::{ImageFormat, RgbImage};
use object_store::memory::InMemory;
use site::{mill, note, store};

/// A key; which bytes it stands for does not matter here.
fn key(digit: char) -> String {
    digit.to_string().repeat(64)
}

fn picture() -> Ready {
    let drawn = RgbImage::from_fn(40, 30, |x, y| image::Rgb([x as u8 * 6, y as u8 * 8, 90]));
    let mut out = Cursor::new(Vec::new());
    drawn.write_to(&mut out, ImageFormat::Png).unwrap();
    ready(&out.into_inner()).unwrap()
}

fn taken(by: &str) -> Taken {
    Taken {
        at: Some("2027-06-10T06:12:00Z".parse().unwrap()),
        facing: Facing::from_degrees(271.5),
        by: by.to_owned(),
    }
}

#[tokio::test]
async fn a_photo_is_kept_once_with_its_time_and_direction() {
    let (_folder, store) = mill().await;
    let key = key('a');
    assert!(!store.has_photo("mill", &key).await.unwrap());
    let kept = store
        .add_photo("mill", &key, &picture(), &taken("Ana"))
        .await
        .unwrap();
    assert_eq!((kept.width, kept.height, kept.by.as_str()), (40, 30, "Ana"));
    assert!((kept.facing.unwrap().degrees() - 271.5).abs() < 1e-9);
    assert!(store.has_photo("mill", &key).await.unwrap());
    // Sent again by somebody else: nothing changes.
    let again = store
        .add_photo("mill", &key, &picture(), &taken("Ben"))
        .await
        .unwrap();
    assert_eq!(again, kept);
    assert_eq!(store.photos("mill").await.unwrap().len(), 1);
    for (size, bytes) in [
        (Size::Whole, picture().whole),
        (Size::Small, picture().small),
    ] {
        let there = store.picture("mill", &key, size).await.unwrap();
        assert!(there.unwrap() == bytes, "{size:?}");
    }
}

#[tokio::test]
async fn a_photo_of_no_job_or_of_no_key_is_refused() {
    let (_folder, store) = mill().await;
    let add = |job: &'static str, key: String| {
        let store = store.clone();
        async move { store.add_photo(job, &key, &picture(), &taken("Ana")).await }
    };
    assert!(matches!(
        add("barn", key('a')).await,
        Err(StoreError::NoJob { .. })
    ));
    for bad in ["../../../etc/passwd".to_owned(), key('A'), String::new()] {
        assert!(matches!(
            add("mill", bad).await,
            Err(StoreError::BadPhotoKey { .. })
        ));
    }
    assert!(store.photo("mill", "..").await.is_err());
    assert_eq!(
        store.picture("mill", &key('b'), Size::Small).await.unwrap(),
        None
    );
}

#[tokio::test]
async fn a_picture_that_was_lost_can_be_sent_again() {
    let (folder, store) = mill().await;
    let key = key('c');
    let (photo, by) = (picture(), taken("Ana"));
    store.add_photo("mill", &key, &photo, &by).await.unwrap();
    let file = folder.path().join(format!("data/photos/mill/{key}.jpg"));
    fs::remove_file(&file).unwrap();
    assert!(!store.has_photo("mill", &key).await.unwrap());
    store.add_photo("mill", &key, &photo, &by).await.unwrap();
    assert!(store.has_photo("mill", &key).await.unwrap() && file.is_file());
}

#[tokio::test]
async fn photos_can_be_kept_in_any_object_store() {
    let (folder, store) = mill().await;
    let store = store.with_photos_in(Arc::new(InMemory::new()));
    store
        .add_photo("mill", &key('d'), &picture(), &taken("Ana"))
        .await
        .unwrap();
    assert!(store.has_photo("mill", &key('d')).await.unwrap());
    assert!(!folder.path().join("data/photos/mill").exists());
}

#[tokio::test]
async fn photos_go_out_to_a_folder_and_come_back_the_same() {
    let (folder, store) = mill().await;
    let (first, second) = (key('1'), key('2'));
    let without = Taken {
        at: None,
        facing: None,
        by: "Ben".to_owned(),
    };
    for (key, taken) in [(&first, &taken("Ana")), (&second, &without)] {
        store
            .add_photo("mill", key, &picture(), taken)
            .await
            .unwrap();
    }
    let noted = note(1).with_photo(&*first).with_photo(key('3'));
    store.add_notes("mill", &[noted]).await.unwrap();
    let out = folder.path().join("mill");
    let exported = store.export_folder("mill", &out, Refuse).await.unwrap();
    assert!(exported.is_changed && exported.photos == 2);
    let again = store.export_folder("mill", &out, Refuse).await.unwrap();
    assert!(!again.is_changed && again.photos == 2);

    let (_other, other) = site::store().await;
    let imported = other.import_folder(&out).await.unwrap();
    assert_eq!((imported.notes.new, imported.photos), (1, 2));
    assert_eq!(
        store.photos("mill").await.unwrap(),
        other.photos("mill").await.unwrap()
    );
    for key in [&first, &second] {
        let (here, there) = (
            store.picture("mill", key, Size::Whole).await.unwrap(),
            other.picture("mill", key, Size::Whole).await.unwrap(),
        );
        assert!(here.is_some() && here == there);
    }
    // A second time there is nothing new, and the folder that comes out is the same.
    assert_eq!(other.import_folder(&out).await.unwrap().photos, 0);
    assert!(
        !other
            .export_folder("mill", &out, Refuse)
            .await
            .unwrap()
            .is_changed
    );
}

#[tokio::test]
async fn a_folder_with_a_bad_photo_is_not_taken_in() {
    let (folder, store) = store().await;
    let source = folder.path().join("barn");
    fs::create_dir_all(source.join("photos")).unwrap();
    fs::write(source.join("job.toml"), site::DOCUMENT).unwrap();
    let photo = source.join(format!("photos/{}.jpg", key('e')));
    fs::write(&photo, "<script>alert(1)</script>").unwrap();
    let refused = store.import_folder(&source).await.unwrap_err();
    assert!(
        matches!(refused, StoreError::UnfitPhoto { .. }),
        "{refused}"
    );
    assert!(store.jobs().await.unwrap().is_empty());

    // Files of other names are none of ours.
    fs::rename(&photo, source.join("photos/notes.txt")).unwrap();
    assert_eq!(store.import_folder(&source).await.unwrap().photos, 0);
}

#[cfg(unix)]
#[tokio::test]
async fn a_link_among_the_photos_is_not_followed() {
    let (folder, store) = store().await;
    let source = folder.path().join("barn");
    let outside = folder.path().join("outside");
    fs::create_dir_all(&source).unwrap();
    fs::create_dir_all(&outside).unwrap();
    fs::write(source.join("job.toml"), site::DOCUMENT).unwrap();
    fs::write(outside.join(format!("{}.jpg", key('f'))), picture().whole).unwrap();
    std::os::unix::fs::symlink(&outside, source.join("photos")).unwrap();
    assert!(matches!(
        store.import_folder(&source).await,
        Err(StoreError::Path {
            why: "is a link",
            ..
        })
    ));
}

#[tokio::test]
async fn a_photo_without_an_index_is_of_whoever_noted_it() {
    let (folder, store) = store().await;
    let source = folder.path().join("barn");
    fs::create_dir_all(source.join("photos")).unwrap();
    fs::write(source.join("job.toml"), site::DOCUMENT).unwrap();
    let noted = note(4).with_photo(key('9'));
    fs::write(
        source.join("notes.jsonl"),
        grounds_site::write_notes(&[noted]).unwrap(),
    )
    .unwrap();
    fs::write(
        source.join(format!("photos/{}.jpg", key('9'))),
        picture().whole,
    )
    .unwrap();
    store.import_folder(&source).await.unwrap();
    let photo = store.photo("barn", &key('9')).await.unwrap().unwrap();
    assert_eq!((photo.by.as_str(), photo.taken), ("Ana", None));
}
