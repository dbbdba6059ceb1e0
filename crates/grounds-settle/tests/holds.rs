//! A fit that fails holds its order and its cover in the plan, until it is settled.
//!
//! The house is made up. A grille is screwed to the board, its face 9 mm out; 5 mm of plaster go on
//! beside it, so it would stand 4 mm proud where 1 mm will do.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may fail loudly")]

use grounds_model::Job;
use grounds_sequence::{Effort, Holds, Network, Outlook, Words};
use grounds_settle::held_up;
use grounds_site::{Kind, Note, Value, fold};

/// Monday, before work begins.
const NOW: &str = "2027-06-07T06:00:00Z";

const HALL: &str = r#"
format = 1

[job]
name = "Hall"
units = "metric"
zone = "Europe/London"
begins = "2027-06-01"
calendar = "week"

[calendars.week]
days = ["mon", "tue", "wed", "thu", "fri"]
hours = ["08:00-16:00"]

[trades.plaster]
name = "Plaster"

[trades.joinery]
name = "Joinery"

[levels.ground]
name = "Ground floor"
height = "0 m"

[places.hall]
name = "Hall"
level = "ground"
entrance = true
faces.walls = { kind = "wall", build_up = "plastered", area = "20 m2" }

[build_ups.plastered]
name = "Plastered board"

[[build_ups.plastered.layers]]
id = "board"
name = "Board"
material = "board"
trade = "plaster"
thickness = "12.5 mm"
takes = "4 h"

[[build_ups.plastered.layers]]
id = "plaster"
name = "Plaster"
material = "plaster"
trade = "plaster"
thickness = "5 mm ±0.2"
takes = "4 h"

[pieces.grille]
name = "Grille"
trade = "joinery"
place = "hall"
face = "walls"
after = ["hall.walls/board"]
before = ["hall.walls/plaster"]
takes = "1 h"
lead = "2 weeks"
set = [{ from = "hall.walls/board", at = "9 mm", within = "0.2 mm" }]
align = [{ how = "flush", with = "hall.walls", within = "1 mm" }]
"#;

/// The hall boarded on Friday, and what was noted since.
struct Hall {
    job: Job,
    notes: Vec<Note>,
}

impl Hall {
    fn boarded() -> Self {
        let job = Job::from_toml(HALL).unwrap_or_else(|faults| panic!("{faults}"));
        let notes = Vec::new();
        Self { job, notes }.noted("hall.walls/board", Kind::Done, None)
    }

    fn noted(mut self, about: &str, kind: Kind, value: Option<Value>) -> Self {
        let count = i64::try_from(self.notes.len()).unwrap();
        let friday = "2027-06-04T12:00:00Z".parse::<jiff::Timestamp>().unwrap();
        let at = friday + jiff::SignedDuration::from_mins(count);
        let id = uuid::Uuid::from_u128(0x01a0_0000_0000_7000_8000_0000_0000_0001 + count as u128);
        let mut note = Note::new(id, at, "Ines", about, kind);
        note.value = value;
        self.notes.push(note);
        self
    }

    fn read(self, about: &str, what: &str, figure: &str) -> Self {
        let value = Value::Reading {
            what: what.to_owned(),
            figure: figure.to_owned(),
        };
        self.noted(about, Kind::Measured, Some(value))
    }

    fn planned(&self) -> Outlook {
        let site = fold(&self.job, &self.notes, NOW.parse().unwrap());
        let held = held_up(&self.job, &site);
        let network = Network::build(&self.job, &site, &held).unwrap();
        Outlook::plan(network, Effort::default(), None).unwrap()
    }

    /// The day on which the grille comes.
    fn arrival(&self) -> String {
        let outlook = self.planned();
        let id = outlook.network.find("grille:arrive").unwrap();
        Words::new(&outlook, &self.job).day(outlook.plan.starts[id.index()])
    }

    fn can_start(&self, key: &str) -> bool {
        let outlook = self.planned();
        let id = outlook.network.find(key).unwrap();
        outlook.startable[id.index()].is_some()
    }
}

/// A grille that is in, in front of its plaster.
fn grille_in() -> Hall {
    Hall::boarded()
        .noted("grille", Kind::Arrived, None)
        .noted("grille", Kind::Done, None)
        .read("grille", "depth", "9 mm")
}

#[test]
fn a_grille_that_would_not_be_flush_is_not_ordered_today() {
    // Two weeks from the next working day.
    assert_eq!(Hall::boarded().arrival(), "Tue 22 June");
}

#[test]
fn a_decision_that_it_goes_on_as_it_is_lets_the_order_go() {
    let decided = Hall::boarded().noted("grille", Kind::Decided, None);
    assert_eq!(decided.arrival(), "Mon 21 June");
}

#[test]
fn a_reading_that_makes_it_good_lets_the_order_go() {
    let deeper = Hall::boarded().read("grille", "depth", "5 mm");
    assert_eq!(deeper.arrival(), "Mon 21 June");
}

#[test]
fn plaster_does_not_go_on_around_a_grille_that_stands_proud() {
    assert!(!grille_in().can_start("hall.walls/plaster"));
    let decided = grille_in().noted("grille", Kind::Decided, None);
    assert!(decided.can_start("hall.walls/plaster"));
    let moved = grille_in()
        .noted("grille", Kind::Undone, None)
        .noted("grille", Kind::Done, None)
        .read("grille", "depth", "5 mm");
    assert!(moved.can_start("hall.walls/plaster"));
}

#[test]
fn plaster_that_is_on_or_being_laid_is_not_held() {
    for kind in [Kind::Started, Kind::Done] {
        let laid = grille_in().noted("hall.walls/plaster", kind, None);
        let site = fold(&laid.job, &laid.notes, NOW.parse().unwrap());
        assert_eq!(held_up(&laid.job, &site), [], "{kind:?}");
    }
}

#[test]
fn a_reading_after_the_decision_asks_for_another() {
    let decided = grille_in().noted("grille", Kind::Decided, None);
    let read = decided.read("grille", "depth", "9 mm");
    assert!(!read.can_start("hall.walls/plaster"));
}

#[test]
fn a_grille_that_is_ordered_is_not_held_until_it_is_damaged() {
    let ordered = Hall::boarded().noted("grille", Kind::Ordered, None);
    let orders = |hall: &Hall| {
        let site = fold(&hall.job, &hall.notes, NOW.parse().unwrap());
        let held = held_up(&hall.job, &site);
        let all = held.iter().flat_map(|held| &held.holds);
        all.filter(|holds| matches!(holds, Holds::Order(_))).count()
    };
    assert_eq!(orders(&ordered), 0);
    assert_eq!(orders(&ordered.noted("grille", Kind::Damaged, None)), 1);
}

#[test]
fn the_plan_says_what_the_fit_says() {
    let hall = grille_in();
    let outlook = hall.planned();
    let words = Words::new(&outlook, &hall.job);
    let root = outlook.roots.iter().map(|root| words.root(root));
    let root = root
        .max_by_key(|root| root.title.contains("grille"))
        .unwrap();
    assert!(
        root.title.starts_with("The grille sits 4 mm proud of "),
        "{}",
        root.title
    );
    assert!(
        root.detail.starts_with("Wanted within 1 mm: "),
        "{}",
        root.detail
    );
    assert!(root.detail.contains("goes on as it is"), "{}", root.detail);
}
