//! Prints what something would do to a job folder: `what_if FOLDER "stair-glass arrives 2027-09-24"`.

use std::time::Instant;

use grounds_model::read;
use grounds_sequence::{
    Effort, Network, Outlook, Words,
    what_if::{WhatIf, what_if},
};
use grounds_site::{fold, read_notes};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut args = std::env::args().skip(1);
    let folder = args.next().ok_or("name a job folder")?;
    let document = std::fs::read_to_string(format!("{folder}/job.toml"))?;
    let log = std::fs::read_to_string(format!("{folder}/notes.jsonl")).unwrap_or_default();
    let job = read("job.toml", &document).map_err(|faults| format!("{faults}"))?;
    let (notes, _) = read_notes("notes.jsonl", &log);
    let at = notes.iter().map(|note| note.at).max().unwrap_or_default();
    let network = Network::build(&job, &fold(&job, &notes, at), &[])?;
    let outlook = Outlook::plan(network, Effort::default(), None)?;
    let words = Words::new(&outlook, &job);
    for text in args {
        let clock = Instant::now();
        let supposed = WhatIf::read(&text, &job).and_then(|what| {
            what_if(
                &job,
                &notes,
                &outlook,
                &what,
                &|_, _| Vec::new(),
                Effort::default(),
            )
        });
        let supposed = match supposed {
            Ok(supposed) => supposed,
            Err(error) => {
                println!("\n{text}\n  {error}");
                continue;
            }
        };
        let said = words.what_if(&supposed);
        println!("\n=== {} [{:?}]", said.title, clock.elapsed());
        println!("  {}", said.cost);
        for line in said.reached.iter().chain(&said.breaches) {
            println!("  > {line}");
        }
        println!("  {} moves", supposed.effect.moves.len());
        for line in &said.moves {
            println!("    - {line}");
        }
        for line in &said.enter {
            println!("  ! {line}");
        }
    }
    Ok(())
}
