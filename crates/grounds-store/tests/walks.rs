//! Spoken walks, kept with what was answered to them.

#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]

mod site;

use std::fs;

use grounds_store::{
    Answer, Differing::Refuse, KeptWalk, LONGEST_TRANSCRIPT, StoreError, WalkAnswer, WalkHead,
    add_to_folder, read_walks,
};
use site::{mill, note, notes};
use uuid::Uuid;

const TALK: &str =
    "WEBVTT\r\n\r\n00:01.000 --> 00:02.000\r\nKitchen. <b>Glass</b> is in.\u{2028}\r\n";

fn head(number: u128) -> WalkHead {
    WalkHead {
        id: Uuid::from_u128(0x0193_0000_0000_7000_8000_0000_0000_0000 + number),
        begun: "2027-06-08T06:30:00Z".parse().unwrap(),
        by: "Ana".to_owned(),
        name: "From the cellar up".to_owned(),
    }
}

fn answer(tie: &str, answer: Answer, notes: &[Uuid]) -> WalkAnswer {
    WalkAnswer {
        tie: tie.to_owned(),
        answer,
        notes: notes.to_vec(),
        sentence: "Glass is in.".to_owned(),
        at_ms: Some(1000),
        at: "2027-06-08T07:30:00Z".parse().unwrap(),
        by: "Ana".to_owned(),
    }
}

#[tokio::test]
async fn a_walk_is_kept_as_it_was_given_and_once() {
    let (_folder, store) = mill().await;
    assert!(store.keep_walk("mill", &head(1), TALK).await.unwrap());
    assert!(!store.keep_walk("mill", &head(1), TALK).await.unwrap());
    let kept = store.walk("mill", head(1).id).await.unwrap().unwrap();
    assert_eq!((kept.head, kept.transcript.as_str()), (head(1), TALK));
    let error = store
        .keep_walk("mill", &head(1), "other talk")
        .await
        .unwrap_err();
    assert!(matches!(error, StoreError::WalkDiffers { .. }), "{error}");
    assert_eq!(store.walk("mill", head(2).id).await.unwrap(), None);
}

#[tokio::test]
async fn an_answer_and_its_notes_are_kept_together_and_once() {
    let (_folder, store) = mill().await;
    store.keep_walk("mill", &head(1), TALK).await.unwrap();
    let accepted = [answer("1000 done glass", Answer::Accepted, &[note(1).id])];
    for new in [1, 0] {
        let added = store
            .answer_walk("mill", head(1).id, &accepted, &notes(1..2))
            .await
            .unwrap();
        assert_eq!(added.new, new);
    }
    let kept = store.walk("mill", head(1).id).await.unwrap().unwrap();
    assert_eq!(kept.answers, accepted);
    assert_eq!(store.job("mill").await.unwrap().notes, [note(1)]);
    let line = store.walks("mill").await.unwrap();
    assert_eq!(
        (line.len(), line[0].answers, line[0].bytes),
        (1, 1, TALK.len())
    );
}

#[tokio::test]
async fn a_note_that_cannot_be_kept_leaves_no_answer_behind() {
    let (_folder, store) = mill().await;
    store.keep_walk("mill", &head(1), TALK).await.unwrap();
    let mut nobody = note(1);
    nobody.by = String::new();
    let answers = [answer("1000 done glass", Answer::Accepted, &[nobody.id])];
    let error = store
        .answer_walk("mill", head(1).id, &answers, &[nobody])
        .await
        .unwrap_err();
    assert!(matches!(error, StoreError::UnfitNote { .. }), "{error}");
    assert!(
        store
            .walk("mill", head(1).id)
            .await
            .unwrap()
            .unwrap()
            .answers
            .is_empty()
    );
    let error = store
        .answer_walk("mill", head(9).id, &[], &[])
        .await
        .unwrap_err();
    assert!(matches!(error, StoreError::NoWalk { .. }), "{error}");
}

#[tokio::test]
async fn the_last_answer_counts_and_none_is_lost() {
    let (_folder, store) = mill().await;
    store.keep_walk("mill", &head(1), TALK).await.unwrap();
    let changes = [
        Answer::Refused,
        Answer::Refused,
        Answer::Reopened,
        Answer::Refused,
    ];
    for change in changes {
        let answers = [answer("1000 done glass", change, &[])];
        store
            .answer_walk("mill", head(1).id, &answers, &[])
            .await
            .unwrap();
    }
    let kept = store.walk("mill", head(1).id).await.unwrap().unwrap();
    let given: Vec<Answer> = kept.answers.iter().map(|answer| answer.answer).collect();
    // The very same answer again, word for word and of the same moment, is the first one sent twice.
    assert_eq!(given, [Answer::Refused, Answer::Reopened]);
}

#[tokio::test]
async fn what_cannot_be_a_walk_is_told_with_its_mend() {
    let (_folder, store) = mill().await;
    let nobody = WalkHead {
        by: " ".to_owned(),
        ..head(1)
    };
    let long = "x".repeat(LONGEST_TRANSCRIPT + 1);
    for (head, talk) in [(&nobody, TALK), (&head(1), "a\0b"), (&head(1), &long)] {
        let error = store.keep_walk("mill", head, talk).await.unwrap_err();
        assert!(matches!(error, StoreError::UnfitWalk { .. }), "{error}");
    }
    let error = store.keep_walk("barn", &head(1), TALK).await.unwrap_err();
    assert!(matches!(error, StoreError::NoJob { .. }), "{error}");
}

#[tokio::test]
async fn walks_go_out_to_a_folder_and_come_back_the_same() {
    let (folder, store) = mill().await;
    let plain = WalkHead {
        name: "A word\u{202e} more".to_owned(),
        ..head(2)
    };
    store.keep_walk("mill", &head(1), TALK).await.unwrap();
    store
        .keep_walk("mill", &plain, "kitchen glass is in")
        .await
        .unwrap();
    let answers = [answer("1000 done glass", Answer::Mended, &[note(1).id])];
    store
        .answer_walk("mill", head(1).id, &answers, &notes(1..2))
        .await
        .unwrap();
    let out = folder.path().join("mill");
    store.export_folder("mill", &out, Refuse).await.unwrap();
    assert!(
        !store
            .export_folder("mill", &out, Refuse)
            .await
            .unwrap()
            .is_changed
    );

    let (_other, other) = site::store().await;
    other.import_folder(&out).await.unwrap();
    other.import_folder(&out).await.unwrap();
    for id in [head(1).id, plain.id] {
        let there = other.walk("mill", id).await.unwrap();
        assert!(there.is_some());
        assert_eq!(there, store.walk("mill", id).await.unwrap());
    }
}

#[test]
fn a_folder_keeps_a_walk_once_with_all_its_answers() {
    let folder = tempfile::TempDir::new().unwrap();
    let walk = |answers: &[WalkAnswer]| KeptWalk {
        head: head(1),
        transcript: TALK.to_owned(),
        answers: answers.to_vec(),
    };
    let first = answer("1000 done glass", Answer::Accepted, &[note(1).id]);
    let second = answer("1000 started tile", Answer::Accepted, &[note(2).id]);
    assert_eq!(
        add_to_folder(
            folder.path(),
            &walk(std::slice::from_ref(&first)),
            &notes(1..2)
        )
        .unwrap(),
        1
    );
    assert_eq!(
        add_to_folder(
            folder.path(),
            &walk(std::slice::from_ref(&first)),
            &notes(1..2)
        )
        .unwrap(),
        0
    );
    let both = [first, second];
    assert_eq!(
        add_to_folder(folder.path(), &walk(&both), &notes(1..3)).unwrap(),
        1
    );
    assert_eq!(read_walks(folder.path()).unwrap(), [walk(&both)]);
    let log = fs::read_to_string(folder.path().join("notes.jsonl")).unwrap();
    assert_eq!(log.lines().count(), 2);
}

#[test]
fn a_list_of_walks_leads_nowhere_else() {
    let folder = tempfile::TempDir::new().unwrap();
    for (file, why) in [
        ("../job.toml", "plain name"),
        ("/etc/passwd", "plain name"),
        (".hidden", "plain name"),
        ("gone.vtt", "is not there"),
    ] {
        let line = serde_json::json!({ "walk": {
            "id": head(1).id, "begun": "2027-06-08T06:30:00Z", "by": "Ana", "name": "Up", "file": file,
        }});
        fs::write(folder.path().join("walks.jsonl"), format!("{line}\n")).unwrap();
        let error = read_walks(folder.path()).unwrap_err().to_string();
        assert!(error.contains(why), "{file}: {error}");
    }
    fs::write(folder.path().join("walks.jsonl"), "\n{\"walk\":7}\n").unwrap();
    let error = read_walks(folder.path()).unwrap_err().to_string();
    assert!(error.contains("line 2"), "{error}");
}
