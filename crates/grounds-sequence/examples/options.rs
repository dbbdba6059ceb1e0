//! Prints what would win back time in a job folder: `options FOLDER [MILESTONE]`, for one milestone
//! or for the last finish and every milestone.

use std::time::Instant;

use grounds_model::{Job, read};
use grounds_sequence::{
    Effort, Network, Outlook, Words,
    options::{Aim, Offer, Terms, WinBack, win_back},
};
use grounds_site::{Site, fold, read_notes};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut args = std::env::args().skip(1);
    let folder = args.next().ok_or("name a job folder")?;
    let document = std::fs::read_to_string(format!("{folder}/job.toml"))?;
    let log = std::fs::read_to_string(format!("{folder}/notes.jsonl")).unwrap_or_default();
    let job = read("job.toml", &document).map_err(|faults| format!("{faults}"))?;
    let (notes, _) = read_notes("notes.jsonl", &log);
    let at = notes.iter().map(|note| note.at).max().unwrap_or_default();
    let site = fold(&job, &notes, at);
    let clock = Instant::now();
    let network = Network::build(&job, &site, &[])?;
    println!("network {:?}", clock.elapsed());
    let clock = Instant::now();
    let outlook = Outlook::plan(network, Effort::default(), None)?;
    println!("plan {:?}", clock.elapsed());
    let aims: Vec<Aim> = match args.next() {
        Some(milestone) => vec![Aim::Milestone(milestone.as_str().into())],
        None => std::iter::once(Aim::LastFinish)
            .chain(job.milestones.keys().cloned().map(Aim::Milestone))
            .collect(),
    };
    for aim in aims {
        show(&job, &site, &outlook, &aim);
    }
    Ok(())
}

fn show(job: &Job, site: &Site, outlook: &Outlook, aim: &Aim) {
    let clock = Instant::now();
    let win = match win_back(job, site, outlook, aim, &Terms::default(), &|_| {}) {
        Ok(win) => win,
        Err(error) => return println!("\n{error}"),
    };
    let words = Words::new(outlook, job);
    let said = words.win_back(&win);
    println!(
        "\n=== {} [{:?}, {} tried]",
        said.title,
        clock.elapsed(),
        win.tried
    );
    for line in said
        .hangs_on
        .iter()
        .chain(&said.nothing)
        .chain(&said.left_out)
    {
        println!("  . {line}");
    }
    println!("  -- singles");
    for offer in &win.singles {
        print_offer(&words, &win, offer);
    }
    println!("  -- pairs");
    for offer in &win.pairs {
        print_offer(&words, &win, offer);
    }
}

fn print_offer(words: &Words<'_>, win: &WinBack, offer: &Offer) {
    let said = words.offer(win, offer);
    println!("  * {}", said.title);
    println!("      {} [{} days]", said.gain, offer.won);
    println!(
        "      {} [net {}, a day {}]",
        said.cost,
        offer.net_cents(),
        offer.cents_per_day()
    );
    for line in &said.others {
        println!("      > {line}");
    }
    println!("      hear: {}", said.hear.join("; "));
    for line in words.moves(&offer.effect) {
        println!("        - {line}");
    }
    for line in said.cautions.iter().chain(&said.enter) {
        println!("      ! {line}");
    }
}
