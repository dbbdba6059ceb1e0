//! What is said in the demo house and in a bathroom, as notes in their logs.

#![allow(
    clippy::expect_used,
    clippy::unwrap_used,
    reason = "a test stops at the first surprise"
)]

use std::{fs, path::Path};

use grounds_measure::Units;
use grounds_model::Job;
use grounds_site::{Kind, Note, Site, Value, fold, read_notes};
use grounds_walk::{
    Walk,
    file::{Entry, Head, Standing, entries, said, walk_id},
    from_job, read, transcript,
};
use jiff::{Timestamp, civil::date};

/// A house as it stands on a morning.
struct House {
    job: Job,
    notes: Vec<Note>,
    morning: Timestamp,
}

fn house(name: &str) -> House {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../examples")
        .join(name);
    let text = |file: &str| fs::read_to_string(folder.join(file)).unwrap();
    let job = grounds_model::read("job.toml", &text("job.toml")).unwrap();
    let (notes, faults) = read_notes("notes.jsonl", &text("notes.jsonl"));
    assert!(faults.is_empty());
    // Thursday 10 June 2027, ten past seven, where both houses are (summer time, an hour ahead).
    let morning = "2027-06-10T06:10:00Z".parse().unwrap();
    House {
        job,
        notes,
        morning,
    }
}

impl House {
    fn site(&self) -> Site {
        fold(
            &self.job,
            &self.notes,
            "2027-06-10T12:00:00Z".parse().unwrap(),
        )
    }

    fn head(&self, talk: &str) -> Head {
        Head {
            id: walk_id(self.morning, "Ines", talk),
            begun: self.morning,
            by: "Ines".to_owned(),
        }
    }

    fn entries(&self, talk: &str) -> (Walk, Vec<Entry>) {
        let vocabulary = from_job(&self.job, date(2027, 6, 10));
        let walk = read(&transcript::read(talk).unwrap(), &vocabulary);
        let entries = entries(
            &self.job,
            &self.site(),
            &vocabulary,
            &walk,
            &self.head(talk),
        );
        (walk, entries)
    }

    fn only(&self, talk: &str) -> Entry {
        let (_, mut entries) = self.entries(talk);
        assert_eq!(entries.len(), 1, "{talk}: {entries:#?}");
        entries.remove(0)
    }

    /// The notes of everything that is accepted as proposed.
    fn accepted(&self, talk: &str) -> Vec<Note> {
        let head = self.head(talk);
        let (_, entries) = self.entries(talk);
        let notes = entries.iter().filter_map(|entry| {
            let says = entry.as_proposed()?;
            Some(entry.notes(&head, &says, 0, entry.means.as_ref()))
        });
        notes.flatten().collect()
    }
}

fn about(entry: &Entry) -> Vec<&str> {
    let chosen = entry.chosen.and_then(|at| entry.choices.get(at));
    chosen.map_or(Vec::new(), |choice| {
        choice.about.iter().map(|about| about.as_str()).collect()
    })
}

fn mill() -> House {
    house("alder-sluice")
}

#[test]
fn what_is_said_of_a_thing_is_a_note_about_that_thing() {
    let mill = mill();
    for (said, thing, kind) in [
        ("Kitchen. The island is in.", "kitchen-island", Kind::Done),
        (
            "Mill hall. Hopper pendant has come.",
            "hall-pendant",
            Kind::Arrived,
        ),
        (
            "Washing room. The flood test failed.",
            "wash-flood",
            Kind::Failed,
        ),
        ("Hearth room. The stove is in.", "hearth-stove", Kind::Done),
        ("Kitchen. The sink is fitted.", "kitchen-sink", Kind::Done),
    ] {
        let entry = mill.only(&format!("[0:01] {said}"));
        assert_eq!(
            (about(&entry), entry.kind),
            (vec![thing], kind),
            "{said}: {entry:#?}"
        );
    }
}

#[test]
fn a_hygrometer_reading_is_the_screeds_and_passes_the_test_that_asks_for_it() {
    let mill = mill();
    let dry = mill.only("[0:01] Scullery. Screed's reading seventy four percent.");
    assert_eq!(about(&dry), ["scullery.floor/screed"]);
    assert_eq!(dry.kind, Kind::Measured);
    assert_eq!(dry.value, Some(Value::Humidity("74 %".parse().unwrap())));
    assert_eq!(dry.means, None, "no test of the scullery asks for it");
    let kitchen = mill.only("[0:01] Kitchen. Screed's reading seventy four percent.");
    let means = kitchen
        .means
        .as_ref()
        .expect("it passes the kitchen's test");
    assert_eq!(means.hold.as_str(), "kitchen-screed-dry");
    let notes = mill.accepted("[0:01] Kitchen. Screed's reading seventy four percent.");
    let kinds: Vec<(&str, Kind)> = notes
        .iter()
        .map(|note| (note.about.as_str(), note.kind))
        .collect();
    assert_eq!(
        kinds,
        [
            ("kitchen.floor/screed", Kind::Measured),
            ("kitchen-screed-dry", Kind::Passed)
        ]
    );
    // The limit in the job is 75 %: BS 8203 as the job's own rule has it.
    let wet = mill.only("[0:01] Kitchen. Screed's reading seventy six percent.");
    assert_eq!(wet.means, None);
}

#[test]
fn goods_that_come_later_are_promised_and_goods_that_cracked_are_damaged() {
    let mill = mill();
    let late =
        mill.only("[0:01] Mill hall. The hopper pendant isn't coming till the twenty fourth.");
    assert_eq!(
        (about(&late), late.kind),
        (vec!["hall-pendant"], Kind::Promised)
    );
    assert_eq!(late.value, Some(Value::When("2027-06-24".parse().unwrap())));
    let cracked = mill.only("[0:01] Hearth room. The hearth slab is cracked.");
    assert_eq!(
        (about(&cracked), cracked.kind),
        (vec!["hearth-slab"], Kind::Damaged)
    );
}

#[test]
fn goods_are_found_where_they_belong_and_not_only_where_they_stand() {
    let mill = mill();
    let door = mill.only("[0:01] Washing room. The wash room door is coming Wednesday.");
    assert_eq!(
        (about(&door), door.kind),
        (vec!["wash-room-door"], Kind::Promised),
        "{door:#?}"
    );
}

#[test]
fn the_air_is_read_of_the_place() {
    let mill = mill();
    let damp = mill.only("[0:01] Wheel room. The air's at ninety one percent.");
    assert_eq!(
        (about(&damp), damp.kind),
        (vec!["wheel-room"], Kind::Measured),
        "{damp:#?}"
    );
    assert_eq!(damp.value, Some(Value::Humidity("91 %".parse().unwrap())));
}

#[test]
fn a_bare_date_is_when_goods_come_and_never_when_they_are_set() {
    let mill = mill();
    let range = mill.only("[0:01] Kitchen. Range cooker is the second of July.");
    assert_eq!(
        (about(&range), range.kind),
        (vec!["range-cooker"], Kind::Promised),
        "{range:#?}"
    );
    let set = mill.only("[0:01] Kitchen. Range cooker goes in on the second of July.");
    assert_eq!(set.kind, Kind::Remark, "{set:#?}");
}

#[test]
fn a_trade_that_is_here_on_friday_is_promised() {
    let mill = mill();
    let entry = mill.only("[0:01] Mill hall. The glaziers are here Friday.");
    assert_eq!((about(&entry), entry.kind), (vec!["glass"], Kind::Promised));
    let glass =
        house("one-bathroom").only("[0:01] Bathroom. The shower glass comes on the twenty first.");
    assert_eq!(
        about(&glass),
        ["shower-glass"],
        "the goods come, not the trade of that name"
    );
    assert_eq!(
        entry.value,
        Some(Value::When("2027-06-11".parse().unwrap()))
    );
}

#[test]
fn what_the_log_says_already_is_known_and_not_sure_to_be_taken() {
    let mill = mill();
    let (walk, entries) = mill.entries("[0:01] Mill hall. Front door is in.");
    let [entry] = entries.as_slice() else {
        unreachable!("{entries:#?}")
    };
    assert!(
        matches!(&entry.standing, Standing::Known(how) if how.contains("done on")),
        "{entry:#?}"
    );
    assert!(!entry.is_sure(&walk));
}

#[test]
fn what_the_job_does_not_have_is_kept_as_a_remark_about_its_place() {
    let mill = mill();
    let entry = mill.only("[0:01] Pantry. The dumb waiter is in.");
    assert_eq!(entry.standing, Standing::NotInJob, "{entry:#?}");
    assert_eq!((about(&entry), entry.kind), (vec!["pantry"], Kind::Remark));
    let notes = mill.accepted("[0:01] Pantry. The dumb waiter is in.");
    assert_eq!(notes.len(), 1);
    assert!(
        notes[0]
            .words
            .as_deref()
            .is_some_and(|words| words.contains("dumb waiter"))
    );
}

#[test]
fn what_may_be_two_things_waits_for_a_choice() {
    let mill = mill();
    let (_, entries) = mill.entries("[0:01] Dressing room. The sliding door is in.");
    let entry = &entries[0];
    assert_eq!(entry.standing, Standing::Choose, "{entry:#?}");
    assert_eq!(entry.as_proposed(), None);
    let offered: Vec<&str> = entry
        .choices
        .iter()
        .map(|choice| choice.about[0].as_str())
        .collect();
    assert!(
        offered.starts_with(&["dressing-bath-door", "dressing-door"]),
        "{offered:?}"
    );
}

#[test]
fn accepting_twice_writes_nothing_new() {
    let mut mill = mill();
    let talk =
        "[0:01] Kitchen. The sink is fitted.\n[0:09] Hearth room. The hearth slab is cracked.";
    let once = mill.accepted(talk);
    assert_eq!(once.len(), 2);
    assert_eq!(once, mill.accepted(talk));
    assert!(
        once.iter()
            .all(|note| note.id.get_version_num() == 7 && note.check().is_ok())
    );
    assert!(
        once.iter()
            .all(|note| note.walk == Some(mill.head(talk).id))
    );
    assert_eq!(once[1].at.duration_since(mill.morning).as_secs(), 9);
    // Once they are in the log, they are what the log says.
    mill.notes.extend(once);
    let (_, entries) = mill.entries(talk);
    assert!(
        entries
            .iter()
            .all(|entry| matches!(entry.standing, Standing::Known(_))),
        "{entries:#?}"
    );
}

#[test]
fn every_note_that_a_long_talk_comes_to_can_be_kept_and_is_understood() {
    let house = house("one-bathroom");
    let talk = "[0:01] Bathroom. Wall tile's about half done.\n[0:05] Shower glass comes on the twentieth.\n\
                [0:09] Vanity's here.\n[0:20] Tiler's back Monday.\n[0:24] Ceiling's painted.";
    let mut all = house.notes.clone();
    let before = house.site().questions.len();
    let notes = house.accepted(talk);
    assert!(notes.len() >= 4, "{notes:#?}");
    assert!(notes.iter().all(|note| note.check().is_ok()));
    all.extend(notes);
    let after = fold(&house.job, &all, "2027-06-10T12:00:00Z".parse().unwrap());
    assert_eq!(after.questions.len(), before, "{:#?}", after.questions);
}

#[test]
fn a_note_is_told_as_people_say_it() {
    let day = date(2027, 6, 10);
    let when = Value::When("2027-06-18".parse().unwrap());
    assert_eq!(
        said(Kind::Promised, Some(&when), Units::Metric, day),
        "promised for Fri 18 June"
    );
    let read = Value::Humidity("74 %".parse().unwrap());
    assert_eq!(
        said(Kind::Measured, Some(&read), Units::Metric, day),
        "reads 74 %"
    );
    let air = Value::Temperature("8 C".parse().unwrap());
    assert_eq!(
        said(Kind::Measured, Some(&air), Units::Metric, day),
        "reads 8 °C"
    );
}
