//! Ferry Cottage, taken over half-done, and what somebody marks in it.

#![allow(
    dead_code,
    unreachable_pub,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "each test file uses its own part of a house that is known to be sound"
)]

use std::sync::LazyLock;

use grounds_model::{Id, Job, LayerKey};
use grounds_sequence::{Effort, Network, Outlook, PlanFile, Words};
use grounds_site::{Note, Site, State, Subject, fold};
use grounds_survey::{Mark, Reach, Said, Unknown, mark, unknowns};
use jiff::{SignedDuration, Timestamp};
use uuid::Uuid;

pub fn job() -> &'static Job {
    static JOB: LazyLock<Job> = LazyLock::new(|| {
        let read = grounds_model::read("job.toml", include_str!("job.toml"));
        read.unwrap_or_else(|faults| panic!("{faults}"))
    });
    &JOB
}

/// Monday 6 September 2027, 8:00, and some minutes.
pub fn at(minutes: i64) -> Timestamp {
    let begins: Timestamp = "2027-09-06T07:00:00Z".parse().unwrap();
    begins + SignedDuration::from_mins(minutes)
}

pub fn mark(place: &str, face: &str, reach: Reach) -> Mark {
    Mark {
        place: place.into(),
        face: face.into(),
        reach,
    }
}

pub fn up_to(layer: &str) -> Reach {
    Reach::UpTo(Id::from(layer))
}

/// What is said, written down at a minute.
pub fn written(said: &[Said], minute: i64) -> Vec<Note> {
    let note = |(index, said): (usize, &Said)| {
        let number = (minute as u128 + 1) << 32 | index as u128;
        let id = Uuid::from_u128(0x0193_0000_0000_4000_8000_0000_0000_0000 + number);
        said.note(id, at(minute), "Ines")
    };
    said.iter().enumerate().map(note).collect()
}

/// A survey: marks a minute apart.
#[derive(Clone, Default)]
pub struct Survey {
    pub notes: Vec<Note>,
    minute: i64,
}

impl Survey {
    pub fn said(mut self, said: &[Said]) -> Self {
        self.minute += 1;
        self.notes.extend(written(said, self.minute));
        self
    }

    pub fn marked(self, place: &str, face: &str, reach: Reach) -> Self {
        let said = mark::said(job(), &mark(place, face, reach));
        self.said(&said)
    }

    pub fn all(self, marks: &[Mark]) -> Self {
        marks
            .iter()
            .fold(self, |survey, mark| survey.said(&mark::said(job(), mark)))
    }

    pub fn site(&self) -> Site {
        fold(job(), &self.notes, at(600))
    }

    pub fn planned(&self) -> Planned {
        let site = self.site();
        let network = Network::build(job(), &site, &[]).unwrap();
        let outlook = Outlook::plan(network, Effort::default(), None).unwrap();
        Planned { site, outlook }
    }

    pub fn unknown(&self, key: &str) -> Unknown {
        let planned = self.planned();
        let found = planned.unknowns().into_iter().find(|it| it.key == key);
        found.unwrap_or_else(|| panic!("nobody asks about {key}"))
    }
}

pub struct Planned {
    pub site: Site,
    pub outlook: Outlook,
}

impl Planned {
    pub fn unknowns(&self) -> Vec<Unknown> {
        unknowns(job(), &self.site, &self.outlook)
    }

    pub fn words(&self) -> Words<'_> {
        Words::new(&self.outlook, job())
    }

    pub fn start(&self, key: &str) -> grounds_schedule::Tick {
        self.outlook.plan.starts[self.outlook.network.find(key).unwrap().index()]
    }

    pub fn finish(&self, key: &str) -> grounds_schedule::Tick {
        self.outlook.plan.finishes[self.outlook.network.find(key).unwrap().index()]
    }

    pub fn assert_proved(&self) {
        let file = PlanFile::of(&self.outlook, job());
        let breaches = file.verify(&self.outlook.network).unwrap();
        assert!(breaches.is_empty(), "{breaches:?}");
    }
}

pub fn state(site: &Site, place: &str, face: &str, layer: &str) -> State {
    site.state(&Subject::Layer(LayerKey {
        place: place.into(),
        face: face.into(),
        layer: layer.into(),
    }))
}

/// The house as it was taken over: the shower tiled, the hall boarded, the east room skimmed, the west
/// room's ceiling hidden by a scaffold.
pub fn taken_over() -> Survey {
    Survey::default()
        .marked("hall", "north-wall", up_to("board"))
        .marked("hall", "south-wall", up_to("board"))
        .marked("hall", "stove-wall", Reach::Nothing)
        .marked("west-room", "walls", up_to("cables"))
        .marked("west-room", "ceiling", Reach::Unknown)
        .marked("east-room", "walls", up_to("skim"))
        .marked("east-room", "ceiling", up_to("board"))
        .marked("bathroom", "shower-wall", up_to("tile"))
        .marked("bathroom", "ceiling", up_to("paint"))
}
