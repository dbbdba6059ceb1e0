//! Notes: added once, numbered as they came, never changed.

mod site;

use grounds_site::Kind;
use grounds_store::{Added, Store, StoreError};
use site::{mill, note, notes};

#[tokio::test]
async fn notes_come_back_in_the_order_in_which_they_were_received() {
    let (_folder, store) = mill().await;
    let sent = [note(3), note(1), note(2)];
    let added = store.add_notes("mill", &sent).await.unwrap();
    assert_eq!(
        added,
        Added {
            new: 3,
            known: 0,
            last_seq: 3
        }
    );
    assert_eq!(store.job("mill").await.unwrap().notes, sent);
}

#[tokio::test]
async fn a_note_sent_twice_is_here_once() {
    let (_folder, store) = mill().await;
    store.add_notes("mill", &notes(0..3)).await.unwrap();
    let saved = store.saved_at("mill").await.unwrap();
    let added = store.add_notes("mill", &notes(0..3)).await.unwrap();
    assert_eq!(
        added,
        Added {
            new: 0,
            known: 3,
            last_seq: 3
        }
    );
    assert_eq!(store.saved_at("mill").await.unwrap(), saved);
    let added = store
        .add_notes("mill", &[note(5), note(5), note(2)])
        .await
        .unwrap();
    assert_eq!(
        added,
        Added {
            new: 1,
            known: 2,
            last_seq: 4
        }
    );
}

#[tokio::test]
async fn a_page_asks_only_for_what_came_since() {
    let (_folder, store) = mill().await;
    store.add_notes("mill", &notes(0..5)).await.unwrap();
    let since = store.notes_since("mill", 3).await.unwrap();
    let seqs: Vec<u64> = since.iter().map(|received| received.seq).collect();
    assert_eq!(seqs, [4, 5]);
    assert_eq!(since[0].note, note(3));
    assert!(store.notes_since("mill", 5).await.unwrap().is_empty());
    assert!(
        store
            .notes_since("mill", u64::MAX)
            .await
            .unwrap()
            .is_empty()
    );
}

#[tokio::test]
async fn another_note_with_a_known_id_is_refused_with_everything_sent_beside_it() {
    let (_folder, store) = mill().await;
    store.add_notes("mill", &notes(0..3)).await.unwrap();
    let mut other = note(1);
    other.kind = Kind::Undone;
    let error = store
        .add_notes("mill", &[note(7), other.clone()])
        .await
        .unwrap_err();
    let StoreError::Conflicts(conflicts) = &error else {
        panic!("{error}")
    };
    assert_eq!(conflicts.len(), 1);
    assert_eq!(conflicts[0].id, other.id);
    assert!(conflicts[0].here.contains("\"done\"") && conflicts[0].given.contains("\"undone\""));
    assert!(error.to_string().contains(&other.id.to_string()), "{error}");
    assert_eq!(store.job("mill").await.unwrap().notes, notes(0..3));
}

#[tokio::test]
async fn two_notes_of_one_id_in_one_batch_are_refused() {
    let (_folder, store) = mill().await;
    let mut other = note(1);
    other.by = "Ben".to_owned();
    let error = store
        .add_notes("mill", &[note(1), other])
        .await
        .unwrap_err();
    assert!(matches!(error, StoreError::Conflicts(_)), "{error}");
    assert!(store.job("mill").await.unwrap().notes.is_empty());
}

#[tokio::test]
async fn a_note_that_cannot_be_kept_is_refused_before_anything_is_written() {
    let (_folder, store) = mill().await;
    let mut bad = note(1);
    bad.photos = vec!["../../secret".to_owned()];
    let error = store.add_notes("mill", &[note(0), bad]).await.unwrap_err();
    assert!(matches!(error, StoreError::UnfitNote { .. }), "{error}");
    assert!(store.job("mill").await.unwrap().notes.is_empty());
}

#[tokio::test]
async fn two_jobs_may_hold_the_same_note() {
    let (_folder, store) = mill().await;
    store.put_job("copy", "a copy").await.unwrap();
    store.add_notes("mill", &notes(0..2)).await.unwrap();
    let added = store.add_notes("copy", &notes(0..2)).await.unwrap();
    assert_eq!(
        added,
        Added {
            new: 2,
            known: 0,
            last_seq: 2
        }
    );
}

#[tokio::test]
async fn html_and_sql_in_words_are_only_words() {
    let (_folder, store) = mill().await;
    let words = "'; DROP TABLE notes; -- <script>alert(1)</script> \u{202e} 😀";
    store
        .add_notes("mill", &[note(1).with_words(words)])
        .await
        .unwrap();
    let job = store.job("mill").await.unwrap();
    assert_eq!(job.notes[0].words.as_deref(), Some(words));
}

/// Two programs on one data folder send overlapping notes at once.
#[tokio::test(flavor = "multi_thread")]
async fn two_writers_at_once_lose_nothing_and_double_nothing() {
    const EACH: u128 = 120;
    let (folder, first) = mill().await;
    let second = Store::open(&folder.path().join("data")).await.unwrap();
    let send = |store: Store, from: u128| {
        tokio::spawn(async move {
            for number in from..from + EACH {
                store.add_notes("mill", &[note(number)]).await.unwrap();
            }
        })
    };
    // The second half of the one is the first half of the other, and each has two at it.
    let senders = [
        send(first.clone(), 0),
        send(second.clone(), EACH / 2),
        send(first.clone(), EACH / 2),
        send(second, 0),
    ];
    for sender in senders {
        sender.await.unwrap();
    }
    let received = first.notes_since("mill", 0).await.unwrap();
    let all = u64::try_from(EACH + EACH / 2).unwrap();
    let seqs: Vec<u64> = received.iter().map(|received| received.seq).collect();
    assert_eq!(seqs, (1..=all).collect::<Vec<u64>>());
    let mut ids: Vec<_> = received.iter().map(|received| received.note.id).collect();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), received.len());
}

/// Several programs make one data folder at the same moment.
#[tokio::test(flavor = "multi_thread")]
async fn a_new_folder_can_be_opened_by_several_at_once() {
    for _ in 0..20 {
        let folder = tempfile::TempDir::new().unwrap();
        let open = || {
            let path = folder.path().join("data");
            tokio::spawn(async move { Store::open(&path).await.map(|_| ()) })
        };
        for opened in [open(), open(), open(), open()] {
            opened.await.unwrap().unwrap();
        }
    }
}
