//! The chain from now to a start: its steps lie end to end, so that they add up to the wait.

#![allow(
    clippy::unwrap_used,
    reason = "the test fails where something is not as it should be"
)]

use grounds_model::Job;
use grounds_schedule::ActivityId;
use grounds_sequence::{Effort, Network, Outlook, TaskState, Words};
use grounds_site::{fold, read_notes};

fn planned(name: &str, at: &str) -> (Job, Outlook) {
    let folder = format!("{}/../../examples/{name}", env!("CARGO_MANIFEST_DIR"));
    let read = |file: &str| std::fs::read_to_string(format!("{folder}/{file}")).unwrap();
    let job = grounds_model::read("job.toml", &read("job.toml")).unwrap();
    let (notes, faults) = read_notes("notes.jsonl", &read("notes.jsonl"));
    assert!(faults.is_empty());
    let site = fold(&job, &notes, at.parse().unwrap());
    let network = Network::build(&job, &site, &[]).unwrap();
    let outlook = Outlook::plan(network, Effort::default(), None).unwrap();
    (job, outlook)
}

#[test]
fn every_chain_leads_from_now_to_the_start_without_a_gap() {
    for (name, at) in [
        ("one-bathroom", "2027-06-10T06:10:00Z"),
        ("alder-sluice", "2027-06-10T06:10:00Z"),
    ] {
        let (job, outlook) = planned(name, at);
        let words = Words::new(&outlook, &job);
        let mut chains = 0;
        for index in 0..outlook.network.tasks.len() {
            let id = ActivityId::from(index);
            let chain = words.chain(id);
            let (Some(first), Some(last)) = (chain.first(), chain.last()) else {
                continue;
            };
            chains += 1;
            let name = words.task(id);
            assert_eq!(first.from, outlook.network.now_tick(), "{name}: {chain:#?}");
            assert_eq!(last.until, outlook.plan.starts[index], "{name}: {chain:#?}");
            for pair in chain.windows(2) {
                assert_eq!(pair[0].until, pair[1].from, "{name}: {chain:#?}");
            }
        }
        assert!(chains > 3, "{chains} chains in {name}");
    }
}

#[test]
fn a_painter_waits_for_the_tiler_the_floor_and_the_grout() {
    let (job, outlook) = planned("one-bathroom", "2027-06-10T06:10:00Z");
    let words = Words::new(&outlook, &job);
    let coat = outlook.network.find("bathroom.walls/first-coat").unwrap();
    let said: Vec<String> = words
        .chain(coat)
        .iter()
        .map(|step| format!("{}: {}", step.span(), step.what))
        .collect();
    // Wall tile ends today at 11:45 and dries 24 h; the floor tile goes in on Friday and the grout
    // on Monday at 8:00; grout dries three days.
    assert!(
        said[0].contains("Wall tile") && said[0].contains("in hand"),
        "{said:#?}"
    );
    assert!(
        said[1].starts_with("1 day: ") && said[1].contains("drying"),
        "{said:#?}"
    );
    assert!(said[2].contains("Shower floor tile"), "{said:#?}");
    assert!(said[3].contains("keeps it shut"), "{said:#?}");
    assert!(said[4].contains("Grout"), "{said:#?}");
    assert!(said[5].starts_with("3 days: "), "{said:#?}");
    assert_eq!(said.len(), 6, "{said:#?}");
}

#[test]
fn what_has_begun_waits_for_nothing() {
    let (job, outlook) = planned("one-bathroom", "2027-06-10T06:10:00Z");
    let words = Words::new(&outlook, &job);
    let begun = (0..outlook.network.tasks.len())
        .map(ActivityId::from)
        .filter(|id| outlook.network.tasks[id.index()].state != TaskState::ToCome);
    for id in begun {
        assert_eq!(words.chain(id), []);
    }
}
