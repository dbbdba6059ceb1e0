//! A small bathroom, its notes and what the register says of it.

#![allow(
    dead_code,
    unreachable_pub,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "each test file uses its own part of this; a job that does not read is a fault of the test"
)]

use std::{fs, path::Path};

use grounds_cover::{CoverWords, Covering, HoldLook, Register, look_at};
use grounds_model::{Job, Moment};
use grounds_sequence::{Effort, Network, Outlook, Words};
use grounds_site::{Kind, Note, Site, Value, fold, read_notes};
use jiff::Timestamp;
use uuid::Uuid;

/// A wall with pipes and blocking behind its board, a floor with a membrane under its tile, an
/// inspection and a test.
pub const BATHROOM: &str = r#"
format = 1

[job]
name = "A bathroom"
units = "metric"
zone = "Europe/London"
begins = "2027-06-01"
calendar = "crews"

[calendars.crews]
days = ["mon", "tue", "wed", "thu", "fri"]
hours = ["08:00-16:00"]

[calendars.office]
days = ["mon", "wed", "thu", "fri"]
hours = ["09:00-15:00"]

[trades.plumb]
name = "Plumber"
contact = { name = "Ines", phone = "01632 960001" }

[trades.board]
name = "Boarder"

[trades.tile]
name = "Tiler"

[trades.inspect]
name = "Building control"
authority = true
calendar = "office"

[levels.ground]
name = "Ground floor"
height = "0 m"

[places.bath]
name = "Bathroom"
aliases = ["shower room"]
level = "ground"
entrance = true
crews = 4
faces.wall = { kind = "wall", build_up = "wall", area = "10 m2", name = "Shower wall" }
faces.floor = { kind = "floor", build_up = "floor", area = "4 m2" }

[build_ups.wall]
name = "Boarded wall"

[[build_ups.wall.layers]]
id = "blocking"
name = "Blocking for rails"
material = "timber"
trade = "board"
takes = "1 h"

[[build_ups.wall.layers]]
id = "pipes"
name = "Pipes to the shower"
material = "service"
trade = "plumb"
takes = "4 h"

[[build_ups.wall.layers]]
id = "board"
name = "Cement board"
material = "board"
trade = "board"
thickness = "12.5 mm"
takes = "4 h"

[[build_ups.wall.layers]]
id = "tile"
name = "Wall tile"
material = "tile"
trade = "tile"
thickness = "14 mm"
takes = "8 h"

[build_ups.floor]
name = "Tiled floor"

[[build_ups.floor.layers]]
id = "screed"
name = "Screed to falls"
material = "screed"
trade = "tile"
thickness = "45 mm"
takes = "4 h"

[[build_ups.floor.layers]]
id = "membrane"
name = "Membrane"
material = "membrane"
trade = "tile"
thickness = "1 mm"
takes = "2 h"

[[build_ups.floor.layers]]
id = "tile"
name = "Floor tile"
material = "tile"
trade = "tile"
thickness = "10 mm"
takes = "4 h"

[pieces.valve]
name = "Shower valve"
trade = "plumb"
place = "bath"
face = "wall"
after = ["bath.wall/pipes"]
before = ["bath.wall/board"]
takes = "1 h"
align = [{ how = "above-floor", with = "bath.floor", by = "1100 mm" }]

[holds.pressure]
name = "Pipes held at pressure"
kind = "test"
place = "bath"
by = "plumb"
after = ["bath.wall/pipes", "valve"]
before = ["bath.wall/board"]
takes = "1 h"
evidence = ["Gauge at start and end"]

[holds.rough-in]
name = "Rough-in inspection"
kind = "authority"
place = "bath"
by = "inspect"
after = ["bath.wall/pipes"]
before = ["bath.wall/board"]
takes = "1 h"
notice = "2 working days"
evidence = ["Photo of every fitting", "Pressure sheet"]
put_right = "4 h"
put_right_by = "plumb"
"#;

/// A job with its notes.
#[derive(Clone)]
pub struct House {
    pub text: String,
    pub notes: Vec<Note>,
}

impl House {
    pub fn new(text: &str) -> Self {
        Self {
            text: text.to_owned(),
            notes: Vec::new(),
        }
    }

    pub fn bathroom() -> Self {
        Self::new(BATHROOM)
    }

    /// The demo house.
    pub fn mill() -> Self {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/alder-sluice");
        let text = fs::read_to_string(folder.join("job.toml")).unwrap();
        let log = fs::read_to_string(folder.join("notes.jsonl")).unwrap();
        let (notes, faults) = read_notes("notes.jsonl", &log);
        assert!(faults.is_empty());
        Self { text, notes }
    }

    pub fn with(mut self, from: &str, to: &str) -> Self {
        assert!(self.text.contains(from), "the job does not say {from:?}");
        self.text = self.text.replace(from, to);
        self
    }

    pub fn and(mut self, more: &str) -> Self {
        self.text.push('\n');
        self.text.push_str(more);
        self
    }

    pub fn noted(self, at: &str, about: &str, kind: Kind) -> Self {
        self.note(at, about, kind, |note| note)
    }

    pub fn said(self, at: &str, about: &str, kind: Kind, words: &str) -> Self {
        self.note(at, about, kind, |note| note.with_words(words))
    }

    pub fn booked(self, at: &str, about: &str, on: &str) -> Self {
        let on = Value::When(on.parse().unwrap());
        self.note(at, about, Kind::Ordered, |note| note.with_value(on))
    }

    pub fn photo(self, at: &str, about: &str) -> Self {
        let key = format!("{:064x}", self.notes.len());
        self.note(at, about, Kind::Remark, |note| note.with_photo(key))
    }

    pub fn note(
        mut self,
        at: &str,
        about: &str,
        kind: Kind,
        more: impl FnOnce(Note) -> Note,
    ) -> Self {
        let number = self.notes.len() as u128 + 1;
        let id = Uuid::from_u128(0x01a0_0000_0000_7000_8000_0000_0000_0000 + number);
        let note = Note::new(id, self.timestamp(at), "Ana", about, kind);
        self.notes.push(more(note));
        self
    }

    pub fn job(&self) -> Job {
        Job::from_toml(&self.text).unwrap_or_else(|faults| panic!("{faults}"))
    }

    pub fn timestamp(&self, at: &str) -> Timestamp {
        let moment: Moment = at.parse().unwrap();
        let civil = moment.date.to_datetime(moment.time_or_midnight());
        let zone = self.job().time_zone().unwrap();
        zone.to_ambiguous_timestamp(civil).compatible().unwrap()
    }

    pub fn at(&self, now: &str) -> Look {
        let job = self.job();
        let site = fold(&job, &self.notes, self.timestamp(now));
        let network = Network::build(&job, &site, &[]).unwrap();
        let outlook = Outlook::plan(network, Effort::AFTER_A_CHANGE, None).unwrap();
        let register = Register::of(&job, &site, &outlook);
        Look {
            job,
            site,
            outlook,
            register,
        }
    }
}

/// A house as it stands, with its register.
pub struct Look {
    pub job: Job,
    pub site: Site,
    pub outlook: Outlook,
    pub register: Register,
}

impl Look {
    pub fn words(&self) -> CoverWords<'_> {
        CoverWords::new(Words::new(&self.outlook, &self.job), &self.site)
    }

    pub fn covering(&self, key: &str) -> &Covering {
        let found = self.register.coverings.iter().find(|c| c.key == key);
        found.unwrap_or_else(|| {
            let keys: Vec<&str> = self
                .register
                .coverings
                .iter()
                .map(|c| c.key.as_str())
                .collect();
            panic!("{key:?} covers nothing; these do: {keys:?}")
        })
    }

    /// What is missing behind a covering, as sentences.
    pub fn missing(&self, key: &str) -> Vec<String> {
        self.words().missing(self.covering(key))
    }

    pub fn hold(&self, id: &str) -> (HoldLook, String) {
        let look = look_at(&self.job, &self.site, &self.outlook, &id.into()).unwrap();
        let said = self.words().hold(&self.job.holds[id], &look).join(" ");
        (look, said)
    }
}

#[track_caller]
pub fn assert_says(text: &str, parts: &[&str]) {
    for part in parts {
        assert!(text.contains(part), "{part:?} is not said in:\n{text}");
    }
}
