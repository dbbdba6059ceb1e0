//! A program that is killed while it writes has lost nothing that it acknowledged.
//!
//! The test starts itself again as a second program, which adds notes one batch after another and
//! prints each id once it is acknowledged. The first kills it (SIGKILL) at some moment, opens the
//! data folder, and looks for every note that was printed. A kill takes the program away, not the
//! machine: that acknowledged notes outlive a power cut rests on full synchronisation, which
//! `what_is_acknowledged_is_on_the_disk` checks is on.

#![allow(
    clippy::unwrap_used,
    reason = "the test fails where something is not as it should be"
)]

mod site;

use std::{
    collections::{BTreeMap, BTreeSet},
    io::{BufRead, BufReader},
    path::Path,
    process::{Child, Command, Stdio},
    sync::mpsc,
    time::{Duration, SystemTime},
};

use grounds_photo::Ready;
use grounds_site::Note;
use grounds_store::{Received, Size, Store, Taken};
use site::{DOCUMENT, note, pragma};
use tempfile::TempDir;

/// Names the data folder for the program that is to be killed.
const FOLDER: &str = "GROUNDS_TEST_FOLDER";

/// Names the number of its first note.
const FIRST: &str = "GROUNDS_TEST_FIRST";

/// What the second program prints before an id.
const ACKNOWLEDGED: &str = "acknowledged ";

/// How often the program is killed.
const ROUNDS: u32 = 14;

#[tokio::test]
#[ignore = "runs in a process of its own, started by the test below"]
async fn writes_until_it_is_killed() {
    let (Ok(folder), Ok(first)) = (std::env::var(FOLDER), std::env::var(FIRST)) else {
        return;
    };
    let store = Store::open(Path::new(&folder)).await.unwrap();
    let mut next: u128 = first.parse().unwrap();
    loop {
        // Batches of one to four notes, each saying how many there are in its batch.
        let many = 1 + next % 4;
        let batch = format!("batch {next} of {many}");
        let notes: Vec<Note> = (next..next + many)
            .map(|number| note(number).with_words(&batch))
            .collect();
        next += many;
        store.add_notes("mill", &notes).await.unwrap();
        for note in notes {
            println!("{ACKNOWLEDGED}{}", note.id);
        }
    }
}

#[tokio::test]
async fn a_killed_program_has_lost_nothing_that_it_acknowledged() {
    let folder = TempDir::new().unwrap();
    let data = folder.path().join("data");
    let store = Store::open(&data).await.unwrap();
    store.put_job("mill", DOCUMENT).await.unwrap();
    store.close().await;

    let mut acknowledged = BTreeSet::new();
    for round in 0..ROUNDS {
        acknowledged.extend(run_and_kill(
            &data,
            "writes_until_it_is_killed",
            u128::from(round) * 1_000_000,
            moment(),
        ));
        assert_eq!(pragma(&data, "PRAGMA integrity_check").await, "ok");
        let store = Store::open(&data).await.unwrap();
        let received = store.notes_since("mill", 0).await.unwrap();
        store.close().await;
        everything_is_here_once(&received, &acknowledged);
        batches_are_whole(&received);
    }
    println!(
        "{} notes acknowledged in {ROUNDS} rounds, none lost",
        acknowledged.len()
    );
}

#[tokio::test]
#[ignore = "runs in a process of its own, started by the test below"]
async fn keeps_photos_until_it_is_killed() {
    let (Ok(folder), Ok(first)) = (std::env::var(FOLDER), std::env::var(FIRST)) else {
        return;
    };
    let store = Store::open(Path::new(&folder)).await.unwrap();
    let first: u128 = first.parse().unwrap();
    for number in first.. {
        let key = format!("{number:064x}");
        store
            .add_photo("mill", &key, &photo(number), &taken())
            .await
            .unwrap();
        println!("{ACKNOWLEDGED}{key}");
    }
}

#[tokio::test]
async fn a_killed_program_has_lost_no_photo_that_it_acknowledged() {
    let folder = TempDir::new().unwrap();
    let data = folder.path().join("data");
    let store = Store::open(&data).await.unwrap();
    store.put_job("mill", DOCUMENT).await.unwrap();
    store.close().await;
    let mut acknowledged = BTreeSet::new();
    for round in 0..ROUNDS / 2 {
        let first = u128::from(round) * 1_000_000;
        acknowledged.extend(run_and_kill(
            &data,
            "keeps_photos_until_it_is_killed",
            first,
            moment(),
        ));
        let store = Store::open(&data).await.unwrap();
        let here = store.photos("mill").await.unwrap();
        assert!(acknowledged.iter().all(|key| here.contains_key(key)));
        // A photo that is here is whole, whether it was acknowledged or not.
        for key in here.keys() {
            let number = u128::from_str_radix(key, 16).unwrap();
            let picture = store.picture("mill", key, Size::Whole).await.unwrap();
            assert!(picture.unwrap() == photo(number).whole);
            assert!(store.has_photo("mill", key).await.unwrap());
        }
        store.close().await;
    }
}

/// Bytes of that number, as long as a photo is.
fn photo(number: u128) -> Ready {
    Ready {
        whole: number.to_le_bytes().repeat(20_000),
        small: number.to_le_bytes().repeat(500),
        width: 2_048,
        height: 1_536,
    }
}

fn taken() -> Taken {
    Taken {
        at: None,
        facing: None,
        by: "Ana".to_owned(),
    }
}

fn everything_is_here_once(received: &[Received], acknowledged: &BTreeSet<String>) {
    let here: BTreeSet<String> = received
        .iter()
        .map(|received| received.note.id.to_string())
        .collect();
    assert_eq!(here.len(), received.len(), "a note is here twice");
    let lost: Vec<&String> = acknowledged.difference(&here).collect();
    assert!(lost.is_empty(), "lost {lost:?}");
    let seqs: Vec<u64> = received.iter().map(|received| received.seq).collect();
    assert_eq!(seqs, (1..=received.len() as u64).collect::<Vec<u64>>());
}

/// Notes added together are here together or not at all.
fn batches_are_whole(received: &[Received]) {
    let mut batches: BTreeMap<&str, usize> = BTreeMap::new();
    for received in received {
        *batches
            .entry(received.note.words.as_deref().unwrap())
            .or_default() += 1;
    }
    for (batch, here) in batches {
        assert!(
            batch.ends_with(&format!(" of {here}")),
            "{here} here of {batch}"
        );
    }
}

/// Starts the second program, lets it write for a while after its first acknowledgement, kills it,
/// and gives every id that it printed as a whole line.
fn run_and_kill(data: &Path, program: &str, first: u128, after: Duration) -> Vec<String> {
    let mut child = start(data, program, first);
    let output = BufReader::new(child.stdout.take().unwrap());
    let (send, printed) = mpsc::channel();
    let reader = std::thread::spawn(move || send_printed(output, &send));
    let first = printed.recv_timeout(Duration::from_secs(60)).unwrap();
    std::thread::sleep(after);
    // On Unix this is SIGKILL: the program has no say in it.
    child.kill().unwrap();
    child.wait().unwrap();
    reader.join().unwrap();
    std::iter::once(first).chain(printed).collect()
}

fn start(data: &Path, program: &str, first: u128) -> Child {
    Command::new(std::env::current_exe().unwrap())
        .args(["--ignored", "--exact", "--nocapture", program])
        .env(FOLDER, data)
        .env(FIRST, first.to_string())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap()
}

/// Passes on the acknowledged ids in what a program prints. A line cut short by the kill does not
/// count.
fn send_printed(mut output: impl BufRead, send: &mpsc::Sender<String>) {
    let mut line = String::new();
    while output.read_line(&mut line).unwrap_or(0) > 0 {
        let whole = line.strip_suffix('\n');
        if let Some((_, id)) = whole.and_then(|line| line.split_once(ACKNOWLEDGED)) {
            send.send(id.to_owned()).unwrap();
        }
        line.clear();
    }
}

/// How long a round lasts after the first acknowledgement: up to 130 ms, another in each run.
fn moment() -> Duration {
    let now = SystemTime::now()
        .duration_since(SystemTime::UNIX_EPOCH)
        .unwrap();
    let odd = u64::from(now.subsec_nanos()).wrapping_mul(6_364_136_223_846_793_005) >> 40;
    Duration::from_micros(odd % 130_000)
}
