//! Every rule over a job: `cargo run -p grounds-rules --example house -- FOLDER MOMENT`.

use std::{error::Error, fs, path::PathBuf};

use grounds_model::Job;
use grounds_rules::{Verdict, house};
use grounds_site::{fold, read_notes};

fn main() -> Result<(), Box<dyn Error>> {
    let mut arguments = std::env::args().skip(1);
    let folder = arguments
        .next()
        .unwrap_or("examples/alder-sluice".to_owned());
    let moment = arguments
        .next()
        .unwrap_or("2027-06-10T07:00:00Z".to_owned());
    let folder = PathBuf::from(folder);
    let text = fs::read_to_string(folder.join("job.toml"))?;
    let job: Job = text.parse()?;
    let faults = grounds_rules::figures::examine("job.toml", &text, &job);
    if !faults.is_empty() {
        println!("{faults}\n");
    }
    let (notes, _) = read_notes(
        "notes.jsonl",
        &fs::read_to_string(folder.join("notes.jsonl"))?,
    );
    let site = fold(&job, &notes, moment.parse()?);
    let applied = house::check(&job, &site, &house::Told::default());
    for verdict in [Verdict::Fails, Verdict::CannotTell, Verdict::Passes] {
        let some: Vec<_> = applied
            .iter()
            .filter(|one| one.answer.verdict == verdict)
            .collect();
        println!("{verdict:?}: {}", some.len());
        for one in some {
            println!("  {} [{}]: {}", one.called, one.rule.name, one.answer.said);
            if verdict == Verdict::Fails {
                for line in one.answer.working() {
                    println!("      {line}");
                }
                for doubt in &one.answer.doubts {
                    println!("      {}", doubt.said);
                }
                println!("      holds {:?}", one.holds);
            }
        }
    }
    Ok(())
}
