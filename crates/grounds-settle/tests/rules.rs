//! A rule that is not kept holds its order and its cover in the plan of the demo house, until
//! somebody lets it go on.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may fail loudly")]

use std::path::Path;

use grounds_lines::{answers::Answers, lines::Lines};
use grounds_model::{Job, Ref};
use grounds_rules::{
    Verdict,
    house::{Applied, Told},
};
use grounds_sequence::{Effort, HeldUp, Holds, Network, Outlook, Words};
use grounds_settle::{failing, held_up, rule_bites, rule_key, rules, unknown};
use grounds_site::{Kind, Note, Site, fold, read_notes};

/// The morning of 10 June, on site.
const NOW: &str = "2027-06-10T06:10:00Z";

struct Mill {
    job: Job,
    notes: Vec<Note>,
}

impl Mill {
    fn read() -> Self {
        Self::written(|text| text)
    }

    fn written(change: impl Fn(String) -> String) -> Self {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/alder-sluice");
        let read = |file: &str| std::fs::read_to_string(folder.join(file)).unwrap();
        let text = change(read("job.toml"));
        let job = Job::from_toml(&text).unwrap_or_else(|faults| panic!("{faults}"));
        let (notes, faults) = read_notes("notes.jsonl", &read("notes.jsonl"));
        assert!(faults.is_empty());
        Self { job, notes }
    }

    fn site(&self) -> Site {
        fold(&self.job, &self.notes, NOW.parse().unwrap())
    }

    fn held(&self) -> Vec<HeldUp> {
        held_up(&self.job, &self.site())
    }

    fn holds(&self, key: &str) -> Option<HeldUp> {
        self.held().into_iter().find(|held| held.key == key)
    }

    fn noted(mut self, about: &str, kind: Kind) -> Self {
        let id = uuid::Uuid::from_u128((0x01a7 << 112) + self.notes.len() as u128);
        let at = NOW.parse().unwrap();
        let note = Note::new(id, at, "Mr Abbot", about, kind).with_words("It will do.");
        self.notes.push(note);
        self
    }

    fn planned(&self) -> Outlook {
        let network = Network::build(&self.job, &self.site(), &self.held()).unwrap();
        Outlook::plan(network, Effort::default(), None).unwrap()
    }

    fn rules(&self, outlook: &Outlook) -> Vec<Applied> {
        let site = self.site();
        let fits = Answers::standing(&Lines::of(&self.job, &site)).unwrap();
        rules(&self.job, &site, outlook, &fits.answers)
    }
}

const TERRACE: &str = "terrace-fall/roof-terrace.floor";

#[test]
fn a_terrace_that_falls_too_little_is_not_covered_until_somebody_decides() {
    let mill = Mill::read();
    let terrace = mill.holds(TERRACE).unwrap();
    assert_eq!(terrace.about, Ref("roof-terrace.floor".into()));
    assert!(
        terrace
            .matter
            .contains("The slope is 0.7 %; at least 1.25 %"),
        "{}",
        terrace.matter
    );
    let drainage = Ref("roof-terrace.floor/drainage".into());
    assert_eq!(terrace.holds, [Holds::Work(drainage.clone())]);
    let mill = mill.noted("roof-terrace.floor/drainage", Kind::Decided);
    assert_eq!(mill.holds(TERRACE), None);
}

#[test]
fn what_is_held_says_the_sentence_of_the_rule() {
    let mill = Mill::read();
    let outlook = mill.planned();
    let words = Words::new(&outlook, &mill.job);
    let drainage = outlook.network.find("roof-terrace.floor/drainage").unwrap();
    // It would not begin before September in any case: until then there is time.
    assert!(outlook.startable[drainage.index()].is_none());
    assert_eq!(
        words.to_settle(drainage),
        [
            "Before it begins this must be settled: the floor of the roof terrace: The slope is 0.7 %; \
             at least 1.25 % is asked."
        ]
    );
}

#[test]
fn what_could_begin_today_waits_while_its_rule_is_not_kept() {
    // The strip of the landing is on site; its cable is too long for its wire.
    let mill = Mill::read();
    let (site, outlook) = (mill.site(), mill.planned());
    let lights = outlook.network.find("landing-lights").unwrap();
    assert!(site.states.len() > 10 && outlook.startable[lights.index()].is_none());
    let words = Words::new(&outlook, &mill.job);
    let said = [words.reasons(lights), words.to_settle(lights)]
        .concat()
        .join(" ");
    assert!(said.contains("at most 3 % is asked"), "{said}");
}

#[test]
fn a_hood_that_is_in_and_boarded_holds_nothing_any_more() {
    let mill = Mill::read();
    assert_eq!(mill.holds("make-up-air/kitchen-hood"), None);
    let outlook = mill.planned();
    let rules = mill.rules(&outlook);
    let hood = rules
        .iter()
        .find(|one| rule_key(one) == "make-up-air/kitchen-hood")
        .unwrap();
    assert_eq!(hood.answer.verdict, Verdict::Fails);
    assert_eq!(rule_bites(&mill.job, &mill.site(), &outlook, hood), None);
}

#[test]
fn what_is_set_right_is_released() {
    let held = Mill::read().holds("glass-clearance/wheel-opening").unwrap();
    assert!(
        held.holds
            .contains(&Holds::Work(Ref("wheel-screen".into())))
    );
    let mended = Mill::written(|text| {
        let from = text.find("[openings.wheel-opening]").unwrap();
        let (before, after) = text.split_at(from);
        assert!(after.contains("clearance = \"8 mm\""));
        before.to_owned() + &after.replacen("clearance = \"8 mm\"", "clearance = \"12 mm\"", 1)
    });
    assert_eq!(mended.holds("glass-clearance/wheel-opening"), None);
}

#[test]
fn a_base_shoe_is_no_rebate() {
    // A guard is clamped in its shoe over its whole length; edge clearances are of panes in rebates.
    let mill = Mill::read();
    assert_eq!(mill.holds("glass-clearance/stair-slot"), None);
}

#[test]
fn coats_hold_nothing_beside_what_the_plan_waits_for_already() {
    let mill = Mill::read();
    let held = mill.held();
    assert!(
        held.iter()
            .all(|held| !held.key.starts_with("coat-air") && !held.key.starts_with("recoat")),
        "{held:#?}"
    );
}

#[test]
fn coats_are_judged_by_the_air_that_they_are_planned_for() {
    // On 10 June the wheel room is at 7 °C and 92 %; a heater is promised for the 28th.
    let mill = Mill::read();
    let (site, outlook) = (mill.site(), mill.planned());
    let coats = |all: &[Applied], verdict: Verdict| -> Vec<String> {
        all.iter()
            .filter(|one| matches!(one.rule.name, "coat-air" | "recoat"))
            .filter(|one| one.answer.verdict == verdict)
            .filter(|one| {
                one.place
                    .as_ref()
                    .is_some_and(|place| place.as_str() == "wheel-room")
            })
            .map(|one| one.answer.working().join("\n"))
            .collect()
    };
    let today = grounds_rules::house::check(&mill.job, &site, &Told::default());
    assert!(coats(&today, Verdict::Fails).len() >= 4);
    let planned = mill.rules(&outlook);
    assert_eq!(coats(&planned, Verdict::Fails), Vec::<String>::new());
    let all = coats(&planned, Verdict::Passes).join("\n");
    assert!(all.contains("16 °C (expected on"), "{all}");
    assert!(
        all.contains("the air of each hour, as it was and as it is expected"),
        "{all}"
    );
}

#[test]
fn what_bites_soonest_stands_first_and_what_is_alike_together() {
    let mill = Mill::read();
    let (site, outlook) = (mill.site(), mill.planned());
    let rules = mill.rules(&outlook);
    let places = failing(&mill.job, &site, &outlook, &rules);
    let first_of_each: Vec<_> = places
        .iter()
        .map(|place| place.rules[0].1.map_or(i32::MAX, |bites| bites.at))
        .collect();
    assert!(first_of_each.is_sorted(), "{first_of_each:?}");
    assert!(places.len() >= 4);
    let rows = unknown(&mill.job, &site, &outlook, &rules);
    let when: Vec<_> = rows
        .iter()
        .map(|row| row.bites.map_or(i32::MAX, |bites| bites.at))
        .collect();
    assert!(when.is_sorted(), "{when:?}");
    let boards = rows
        .iter()
        .find(|row| row.of[0].rule.name == "timber-moisture")
        .unwrap();
    assert!(boards.of.len() >= 3, "{:?}", boards.of.len());
    let words = Words::new(&outlook, &mill.job);
    let said = boards.bites.unwrap().words(&words);
    assert!(
        said.starts_with("By ") && said.contains("then comes"),
        "{said}"
    );
    let all: usize = rows.iter().map(|row| row.of.len()).sum();
    let untold = rules
        .iter()
        .filter(|one| one.answer.verdict == Verdict::CannotTell);
    assert_eq!(all, untold.count());
}

#[test]
fn risers_are_those_that_fit_finds() {
    let mill = Mill::read();
    let rules = mill.rules(&mill.planned());
    let flights: Vec<&Applied> = rules
        .iter()
        .filter(|one| one.rule.name == "even-risers")
        .collect();
    assert_eq!(flights.len(), 3);
    for flight in flights {
        let working = flight.answer.working().join("\n");
        assert!(working.contains("where Fit finds the rises"), "{working}");
        assert_ne!(flight.answer.verdict, Verdict::CannotTell, "{working}");
    }
}

#[test]
fn the_mill_still_ends_when_it_did_and_its_plan_obeys() {
    let outlook = Mill::read().planned();
    assert!(outlook.breaches.is_empty(), "{:?}", outlook.breaches);
    let finish = outlook.network.clock.zoned(outlook.finish());
    assert_eq!(finish.date().to_string(), "2027-09-24");
}
