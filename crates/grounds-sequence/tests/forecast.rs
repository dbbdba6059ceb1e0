//! The forecast of the mill: what must hold of every run, and of their sum.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test stops at what is wrong"
)]

use std::{num::NonZeroUsize, path::Path, sync::OnceLock};

use grounds_model::Job;
use grounds_schedule::forecast::{Amount, Policy, Single};
use grounds_schedule::{Breach, DAY, verify};
use grounds_sequence::{
    Effort, Forecast, ForecastEffort, Network, Outlook, Words, forecast::uncertainty,
};
use grounds_site::{fold, read_notes};

struct Planned {
    job: Job,
    outlook: Outlook,
}

/// The mill as its notes leave it.
fn mill() -> &'static Planned {
    static MILL: OnceLock<Planned> = OnceLock::new();
    MILL.get_or_init(|| planned(&|text| text))
}

fn planned(change: &dyn Fn(String) -> String) -> Planned {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/alder-sluice");
    let read = |file: &str| std::fs::read_to_string(folder.join(file)).expect(file);
    let job = change(read("job.toml"));
    let job = Job::from_toml(&job).unwrap_or_else(|faults| panic!("{faults}"));
    let (notes, _) = read_notes("notes.jsonl", &read("notes.jsonl"));
    let now = notes.iter().map(|note| note.at).max().expect("a note");
    let network = Network::build(&job, &fold(&job, &notes, now), &[]).expect("a network");
    let outlook = Outlook::plan(network, Effort::default(), None).expect("a plan");
    Planned { job, outlook }
}

fn forecast(planned: &Planned, runs: u32) -> Forecast {
    let effort = ForecastEffort {
        runs,
        threads: NonZeroUsize::new(2).expect("two"),
        ..ForecastEffort::default()
    };
    Forecast::of(&planned.outlook, &planned.job, &effort).expect("a forecast")
}

/// The mill over ten thousand runs.
fn seen() -> &'static Forecast {
    static SEEN: OnceLock<Forecast> = OnceLock::new();
    SEEN.get_or_init(|| forecast(mill(), 10_000))
}

#[test]
fn when_all_goes_as_reckoned_the_mill_is_done_as_planned() {
    let outlook = &mill().outlook;
    let policy = Policy::of(&outlook.network.problem, &outlook.plan).expect("a policy");
    assert_eq!(policy.as_planned(), outlook.plan);
}

#[test]
fn every_run_of_the_mill_obeys_its_own_luck_but_for_windows_it_names() {
    let mill = mill();
    let outlook = &mill.outlook;
    let policy = Policy::of(&outlook.network.problem, &outlook.plan).expect("a policy");
    let chances = uncertainty(outlook, &mill.job, 0.3);
    for run in 0..30 {
        let single = Single::of(&policy, &chances, 1, run);
        let breaches = verify(&single.problem, &single.plan);
        let unnamed = breaches.iter().find(|breach| match breach {
            Breach::TooLate(lag) => !single.given_up.contains(lag),
            Breach::Date(_) => false,
            _ => true,
        });
        assert_eq!(unnamed, None, "run {run}");
    }
}

#[test]
fn the_four_in_five_date_moves_by_a_day_at_most_from_five_to_ten_thousand_runs() {
    let seen = seen();
    for prospect in std::iter::once(&seen.finish).chain(&seen.milestones) {
        assert!(prospect.settled <= DAY, "{prospect:?}");
    }
}

#[test]
fn dates_stand_in_the_order_of_their_chances() {
    let seen = seen();
    for p in std::iter::once(&seen.finish).chain(&seen.milestones) {
        assert!(p.one_in_ten <= p.even && p.even <= p.four_in_five);
        assert!(p.four_in_five <= p.nine_in_ten);
        assert!(
            p.curve
                .windows(2)
                .all(|w| w[0].0 < w[1].0 && w[0].1 <= w[1].1)
        );
        assert!((0.0..=1.0).contains(&p.on_plan));
        assert!(
            p.drivers
                .iter()
                .all(|(_, share)| (0.0..=1.0).contains(share))
        );
        assert!(p.causes.windows(2).all(|w| w[0].share >= w[1].share));
    }
}

/// The mill with every `key` that its document sets, and with more in some of its tables.
fn with_keys(text: &str, change: impl Fn(&str) -> Option<String>) -> String {
    let lines = text
        .lines()
        .map(|line| change(line).unwrap_or_else(|| line.to_owned()));
    lines.collect::<Vec<_>>().join("\n")
}

#[test]
fn what_the_job_is_sure_of_is_not_drawn() {
    let sure = planned(&|text| {
        with_keys(&text, |line| {
            if line.starts_with("[holds.") {
                return Some(format!("{line}\nfails = \"0 %\""));
            }
            // The likely one of three lead times stands for all.
            let value = line.strip_prefix("lead = \"")?.trim_end_matches('"');
            let (unit, likely) = (value.rsplit(' ').next()?, value.split('/').nth(1)?.trim());
            Some(format!("lead = \"{likely} {unit}\""))
        })
    });
    let chances = uncertainty(&sure.outlook, &sure.job, 0.3);
    assert!(chances.repeats.is_empty());
    let effects = || chances.sources.iter().flat_map(|source| &source.effects);
    assert!(!effects().any(|(amount, _)| matches!(amount, Amount::Wait(_))));
    let unsure = uncertainty(&mill().outlook, &mill().job, 0.3);
    assert!(!unsure.repeats.is_empty());
    let effects = || unsure.sources.iter().flat_map(|source| &source.effects);
    assert!(effects().any(|(amount, _)| matches!(amount, Amount::Wait(_))));
}

#[test]
fn pieces_of_one_supplier_are_late_together() {
    let one = planned(&|text| {
        with_keys(&text, |line| {
            let lead = line.starts_with("lead = ");
            lead.then(|| format!("{line}\nsupplier = \"Wend Joinery\""))
        })
    });
    let chances = uncertainty(&one.outlook, &one.job, 0.3);
    let deliveries = chances.sources.iter().filter(|source| {
        let (amount, _) = source.effects[0];
        !matches!(amount, Amount::Work(_))
    });
    let common: Vec<Option<u32>> = deliveries.map(|source| source.common).collect();
    let named = common.iter().flatten().next().copied();
    assert!(named.is_some());
    assert!(common.iter().filter(|c| c.is_some()).all(|c| *c == named));
    let (apart, together) = (forecast(mill(), 2_000), forecast(&one, 2_000));
    assert_ne!(apart.finish, together.finish);
}

#[test]
fn weather_on_the_terrace_is_drawn_only_where_the_job_speaks_of_it() {
    let wet = planned(&|text| {
        text.replacen(
            "format = 1\n",
            "format = 1\nweather = [{ lost = \"60 %\" }]\n",
            1,
        )
    });
    let (wet, dry) = (forecast(&wet, 1_000), forecast(mill(), 1_000));
    assert!(wet.finish.mean >= dry.finish.mean);
    let later = wet.milestones.iter().zip(&dry.milestones);
    assert!(later.clone().any(|(wet, dry)| wet.mean > dry.mean));
}

#[test]
fn the_forecast_is_said_in_sentences() {
    let mill = mill();
    let words = Words::new(&mill.outlook, &mill.job);
    let seen = seen();
    let said = words.chances(&seen.finish);
    assert!(
        said.starts_with("Even chance by ") && said.ends_with('.'),
        "{said}"
    );
    assert!(said.contains("; four in five by "), "{said}");
    let mut sentences = vec![
        words.against_plan(&seen.finish),
        words.forecast_caution(seen),
    ];
    sentences.extend(seen.finish.causes.iter().map(|c| words.cause_of_spread(c)));
    sentences.extend(
        seen.finish
            .drivers
            .iter()
            .map(|&(id, s)| words.driver(id, s)),
    );
    sentences.extend(words.closing_windows(seen));
    for sentence in &sentences {
        assert!(sentence.ends_with('.'), "{sentence}");
    }
    assert!(!seen.finish.causes.is_empty() && !seen.finish.drivers.is_empty());
}
