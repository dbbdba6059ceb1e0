//! Prints the outlook of a job folder at a moment: `outlook FOLDER [TIMESTAMP]`.

use std::time::Instant;

use grounds_model::read;
use grounds_sequence::{Effort, Network, Outlook, Words};
use grounds_site::{fold, read_notes};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut args = std::env::args().skip(1);
    let folder = args.next().ok_or("name a job folder")?;
    let document = std::fs::read_to_string(format!("{folder}/job.toml"))?;
    let log = std::fs::read_to_string(format!("{folder}/notes.jsonl")).unwrap_or_default();
    let job = read("job.toml", &document).map_err(|faults| format!("{faults}"))?;
    let (notes, faults) = read_notes("notes.jsonl", &log);
    println!("{} notes, {} faults", notes.len(), faults.len());
    let at = match args.next() {
        Some(text) => text.parse()?,
        None => notes
            .iter()
            .map(|note| note.at)
            .max()
            .unwrap_or(jiff::Timestamp::UNIX_EPOCH),
    };
    let clock = Instant::now();
    let site = fold(&job, &notes, at);
    println!(
        "fold {:?}, {} questions",
        clock.elapsed(),
        site.questions.len()
    );
    let clock = Instant::now();
    let network = Network::build(&job, &site, &[])?;
    println!(
        "network {:?}: {} activities, {} lags, {} dates",
        clock.elapsed(),
        network.tasks.len(),
        network.problem.lags.len(),
        network.problem.dates.len()
    );
    let clock = Instant::now();
    let outlook = Outlook::plan(network, Effort::default(), None)?;
    println!("plan {:?}", clock.elapsed());
    let words = Words::new(&outlook, &job);
    println!("{}\n{}", words.today(), words.forecast());
    for breach in words.breaches() {
        println!("! {breach}");
    }
    for row in outlook.starts() {
        println!(
            "- {}{} ({}; planned {}) opens {}",
            if row.in_hand { "in hand: " } else { "" },
            words.task(row.id),
            words.takes(row.id),
            words.when(row.planned),
            row.opens.len()
        );
    }
    for root in outlook.roots.iter().take(20) {
        let said = words.root(root);
        println!("* {}\n    {}\n    {}", said.title, said.detail, said.holds);
    }
    println!("What ends last:");
    let mut last = outlook
        .network
        .open()
        .max_by_key(|id| outlook.plan.finishes[id.index()]);
    for _ in 0..30 {
        let Some(id) = last else { break };
        let start = words.when(outlook.plan.starts[id.index()]);
        println!(
            "  {start}: {} [{:?}]",
            words.task(id),
            outlook.roots_of(id).len()
        );
        for reason in words.reasons(id).iter().take(3) {
            println!("      {reason}");
        }
        last = outlook.reasons[id.index()]
            .iter()
            .find_map(|reason| match reason {
                grounds_schedule::Reason::Lag(lag) => {
                    let lag = &outlook.network.problem.lags[lag.index()];
                    Some(if lag.to == id { lag.from } else { lag.to })
                }
                grounds_schedule::Reason::Crew { held_by, .. } => held_by.first().copied(),
                grounds_schedule::Reason::ShutOff { by } => by.first().copied(),
                _ => None,
            });
    }
    for waiting in outlook.waiting().iter().take(25) {
        let start = words.when(outlook.plan.starts[waiting.id.index()]);
        println!("  {start}: {}", words.task(waiting.id));
        for reason in words.reasons(waiting.id) {
            println!("      {reason}");
        }
    }
    Ok(())
}
