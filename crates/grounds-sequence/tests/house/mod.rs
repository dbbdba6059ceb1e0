//! Jobs for the tests, and what a plan of them says, in the words of the wall clock.

#![allow(
    dead_code,
    unreachable_pub,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "each test file uses its own part of this; a job that does not read is a fault of the test"
)]

pub mod small;

use std::path::{Path, PathBuf};

use grounds_model::{Job, Moment};
use grounds_schedule::{ActivityId, Tick};
use grounds_sequence::{Effort, HeldUp, Holds, Known, Network, Outlook, PlanFile, Words};
use grounds_site::{Kind, Note, Value, fold, read_notes};
use jiff::{Timestamp, civil::Date, tz::TimeZone};
use uuid::Uuid;

/// A job as its document says, and the notes about it.
#[derive(Clone)]
pub struct House {
    pub text: String,
    pub notes: Vec<Note>,
    pub held: Vec<HeldUp>,
}

impl House {
    /// The job folder `tests/cases/<name>`.
    pub fn case(name: &str) -> Self {
        Self::folder(&cases().join(name))
    }

    /// A job folder: `job.toml` and `notes.jsonl`.
    pub fn folder(path: &Path) -> Self {
        let text = read(&path.join("job.toml"));
        let (notes, faults) = read_notes("notes.jsonl", &read(&path.join("notes.jsonl")));
        assert!(faults.is_empty(), "{}: {faults:?}", path.display());
        Self {
            text,
            notes,
            held: Vec::new(),
        }
    }

    /// A job document without notes.
    pub fn new(text: &str) -> Self {
        Self {
            text: text.to_owned(),
            notes: Vec::new(),
            held: Vec::new(),
        }
    }

    /// The same house where something must be settled first.
    pub fn held_up(mut self, about: &str, matter: &str, holds: &[Holds]) -> Self {
        self.held.push(HeldUp {
            key: format!("{about}.{}", self.held.len()),
            about: about.into(),
            matter: matter.to_owned(),
            said: "Wanted within 1 mm.".to_owned(),
            holds: holds.to_vec(),
        });
        self
    }

    /// The same house with some words of its document changed.
    pub fn with(mut self, from: &str, to: &str) -> Self {
        assert!(self.text.contains(from), "the job does not say {from:?}");
        self.text = self.text.replace(from, to);
        self
    }

    /// The same house with more in its document.
    pub fn and(mut self, more: &str) -> Self {
        self.text.push('\n');
        self.text.push_str(more);
        self
    }

    /// The same house with one more note, at a time of the house's clock.
    pub fn noted(self, at: &str, about: &str, kind: Kind) -> Self {
        self.put(at, about, kind, None, "")
    }

    /// The same house with a note that gives a date.
    pub fn noted_for(self, at: &str, about: &str, kind: Kind, when: &str) -> Self {
        let when = Value::When(when.parse().unwrap());
        self.put(at, about, kind, Some(when), "")
    }

    /// The same house with a note in words.
    pub fn noted_words(self, at: &str, about: &str, kind: Kind, words: &str) -> Self {
        self.put(at, about, kind, None, words)
    }

    /// The same house with a note that has everything.
    pub fn put(
        mut self,
        at: &str,
        about: &str,
        kind: Kind,
        value: Option<Value>,
        words: &str,
    ) -> Self {
        let number = self.notes.len() as u128 + 1;
        let id = Uuid::from_u128(0x01a0_0000_0000_7000_8000_0000_0000_0000 + number);
        let mut note = Note::new(id, self.timestamp(at), "Test", about, kind);
        note.value = value;
        note.words = (!words.is_empty()).then(|| words.to_owned());
        self.notes.push(note);
        self
    }

    pub fn job(&self) -> Job {
        Job::from_toml(&self.text).unwrap_or_else(|faults| panic!("{faults}"))
    }

    fn zone(&self) -> TimeZone {
        self.job().time_zone().unwrap()
    }

    pub fn timestamp(&self, at: &str) -> Timestamp {
        let moment: Moment = at.parse().unwrap();
        let civil = moment.date.to_datetime(moment.time_or_midnight());
        self.zone()
            .to_ambiguous_timestamp(civil)
            .compatible()
            .unwrap()
    }

    pub fn network(&self, now: &str) -> Network {
        self.network_at(self.timestamp(now))
    }

    pub fn network_at(&self, now: Timestamp) -> Network {
        let job = self.job();
        let site = fold(&job, &self.notes, now);
        Network::build(&job, &site, &self.held).unwrap()
    }

    /// The plan as it stands at a time of the house's clock.
    pub fn planned(&self, now: &str) -> Planned {
        self.planned_at(self.timestamp(now), None)
    }

    /// The plan at a time, after an earlier plan.
    pub fn planned_after(&self, now: &str, earlier: &Planned) -> Planned {
        let known = earlier.outlook.known();
        let network = self.network_at(self.timestamp(now));
        let outlook = Outlook::plan(network, Effort::AFTER_A_CHANGE, Some(&known)).unwrap();
        Planned {
            job: self.job(),
            outlook,
        }
    }

    pub fn planned_at(&self, now: Timestamp, known: Option<&Known>) -> Planned {
        let outlook = Outlook::plan(self.network_at(now), Effort::default(), known).unwrap();
        Planned {
            job: self.job(),
            outlook,
        }
    }

    /// The moment of the last note; without notes, the morning that the job begins.
    pub fn last_word(&self) -> Timestamp {
        let last = self.notes.iter().map(|note| note.at).max();
        last.unwrap_or_else(|| self.timestamp(&format!("{} 07:00", self.job().job.begins)))
    }
}

/// A plan with its reasons.
pub struct Planned {
    pub job: Job,
    pub outlook: Outlook,
}

impl Planned {
    pub fn id(&self, key: &str) -> ActivityId {
        self.outlook.network.find(key).unwrap_or_else(|| {
            let keys: Vec<&str> = self
                .outlook
                .network
                .tasks
                .iter()
                .map(|task| task.key.as_str())
                .collect();
            panic!("there is no work {key:?} among {keys:?}")
        })
    }

    pub fn has(&self, key: &str) -> bool {
        self.outlook.network.find(key).is_some()
    }

    pub fn start_tick(&self, key: &str) -> Tick {
        self.outlook.plan.starts[self.id(key).index()]
    }

    pub fn finish_tick(&self, key: &str) -> Tick {
        self.outlook.plan.finishes[self.id(key).index()]
    }

    /// When work starts, by the house's clock: `Thu 2027-10-07 15:00`.
    pub fn start(&self, key: &str) -> String {
        self.wall(self.start_tick(key))
    }

    /// When work ends, by the house's clock.
    pub fn finish(&self, key: &str) -> String {
        self.wall(self.finish_tick(key))
    }

    pub fn wall(&self, tick: Tick) -> String {
        self.outlook
            .network
            .clock
            .zoned(tick)
            .strftime("%a %Y-%m-%d %H:%M")
            .to_string()
    }

    /// The tick of a time of the house's clock.
    pub fn tick(&self, at: &str) -> Tick {
        self.outlook.network.clock.beginning(at.parse().unwrap())
    }

    pub fn day(&self, key: &str) -> Date {
        self.outlook.network.clock.day(self.start_tick(key))
    }

    pub fn words(&self) -> Words<'_> {
        Words::new(&self.outlook, &self.job)
    }

    /// Why work does not start sooner.
    pub fn why(&self, key: &str) -> String {
        self.words().reasons(self.id(key)).join(" ")
    }

    /// The causes at the root of why work cannot start today.
    pub fn roots(&self, key: &str) -> Vec<String> {
        let words = self.words();
        let roots = self.outlook.roots_of(self.id(key));
        roots
            .into_iter()
            .map(|root| words.root(&self.outlook.roots[root]).title)
            .collect()
    }

    /// Whether facts allow work to start today.
    pub fn can_start(&self, key: &str) -> bool {
        self.outlook.startable[self.id(key).index()].is_some()
    }

    /// What cannot be met, in words.
    pub fn troubles(&self) -> Vec<String> {
        self.words().breaches()
    }

    /// Fails unless the plan, written as a file, is proved to break nothing.
    pub fn assert_proved(&self) {
        let file = PlanFile::of(&self.outlook, &self.job);
        let breaches = file.verify(&self.outlook.network).unwrap();
        assert!(breaches.is_empty(), "{breaches:?}: {:?}", self.troubles());
        assert!(self.troubles().is_empty(), "{:?}", self.troubles());
    }
}

/// Working days of a Monday-to-Friday week after `from`, up to and with `to`.
pub fn working_days(from: &str, to: Date) -> usize {
    use jiff::civil::Weekday::{Saturday, Sunday};
    let from: Date = from.parse().unwrap();
    let days = std::iter::successors(from.tomorrow().ok(), |day| day.tomorrow().ok());
    days.take_while(|day| *day <= to)
        .filter(|day| !matches!(day.weekday(), Saturday | Sunday))
        .count()
}

/// Fails unless `text` has every one of the words.
pub fn assert_says(text: &str, words: &[&str]) {
    for word in words {
        assert!(text.contains(word), "{text:?} does not say {word:?}");
    }
}

/// The folder of cases.
pub fn cases() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases")
}

fn read(path: &Path) -> String {
    std::fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}
