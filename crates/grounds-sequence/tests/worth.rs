//! What a plan is worth, in words: why no order ends sooner, what is better by how much, what can wait.

#![allow(
    clippy::unwrap_used,
    reason = "the test fails where something is not as it should be"
)]

use grounds_model::Job;
use grounds_schedule::{ActivityId, DAY};
use grounds_sequence::{Effort, Network, Outlook, Words};
use grounds_site::{fold, read_notes};

fn bathroom() -> (Job, Outlook) {
    let folder = format!("{}/../../examples/one-bathroom", env!("CARGO_MANIFEST_DIR"));
    let read = |file: &str| std::fs::read_to_string(format!("{folder}/{file}")).unwrap();
    let job = grounds_model::read("job.toml", &read("job.toml")).unwrap();
    let (notes, _) = read_notes("notes.jsonl", &read("notes.jsonl"));
    let site = fold(&job, &notes, "2027-06-10T06:10:00Z".parse().unwrap());
    let network = Network::build(&job, &site, &[]).unwrap();
    let outlook = Outlook::plan(network, Effort::default(), None).unwrap();
    (job, outlook)
}

#[test]
fn a_plan_says_by_what_it_is_better() {
    let (job, outlook) = bathroom();
    let words = Words::new(&outlook, &job);
    let (finish, cents) = (outlook.finish(), outlook.cost.total());
    let better = |days: i32, more: i64| words.better_than(finish + days * DAY, cents + more, "it");
    let pounds = |sum: &str| words.money(210_000).replace("2,100", sum);
    assert_eq!(
        better(3, 210_000).unwrap(),
        format!("Three days sooner and {} cheaper than it.", pounds("2,100"))
    );
    assert_eq!(better(1, 0).unwrap(), "One day sooner than it.");
    assert_eq!(
        better(0, 2_550).unwrap(),
        format!("{} cheaper than it.", pounds("25.50"))
    );
    assert!(
        better(-1, 10_000)
            .unwrap()
            .contains("though it ends one day later")
    );
    assert_eq!(better(0, 0), None);
    assert_eq!(better(-2, -10), None);
}

#[test]
fn a_straight_list_that_is_as_good_is_not_spoken_of() {
    let (job, outlook) = bathroom();
    let words = Words::new(&outlook, &job);
    let (finish, cents) = (outlook.finish(), outlook.cost.total());
    assert_eq!(words.straight_list(finish, cents), None);
    let worse = words.straight_list(finish + 12 * DAY, cents).unwrap();
    assert_eq!(
        worse,
        "A straight list by drying and crews would end twelve days later."
    );
}

#[test]
fn the_bound_has_a_reason_that_names_the_crew_and_what_comes_first() {
    let (job, outlook) = bathroom();
    let why = Words::new(&outlook, &job).why_no_sooner().unwrap();
    assert!(why.ends_with('.') && !why.contains(".."), "{why}");
    assert!(why.chars().next().is_some_and(char::is_uppercase), "{why}");
}

#[test]
fn work_that_can_wait_says_until_when_and_work_that_cannot_says_nothing() {
    let (job, outlook) = bathroom();
    let words = Words::new(&outlook, &job);
    let open: Vec<ActivityId> = outlook.network.open().collect();
    let latest = outlook.latest(&open);
    let mut waiting = 0;
    for (id, latest) in open.iter().zip(latest) {
        let Some(said) = words.can_wait(*id, latest) else {
            continue;
        };
        waiting += 1;
        assert!(
            said.contains("before the finish or a milestone moves"),
            "{said}"
        );
        assert!(latest.unwrap().start > outlook.plan.starts[id.index()]);
    }
    assert!(waiting > 0 && waiting < open.len());
}
