//! Prints the needs of a job folder: `cargo run -p grounds-lines --example needs -- FOLDER`.

use grounds_lines::lines::Lines;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = std::env::args().nth(1).unwrap_or_default();
    let at = std::env::args().nth(2).unwrap_or_default().parse()?;
    let job =
        grounds_model::Job::from_toml(&std::fs::read_to_string(format!("{folder}/job.toml"))?)
            .map_err(|faults| faults.to_string())?;
    let notes = std::fs::read_to_string(format!("{folder}/notes.jsonl")).unwrap_or_default();
    let (notes, _) = grounds_site::read_notes("notes.jsonl", &notes);
    let site = grounds_site::fold(&job, &notes, at);
    let lines = Lines::of(&job, &site);
    let answers =
        grounds_lines::answers::Answers::of(&lines).map_err(|faults| faults.join("\n"))?;
    for answer in &answers.answers {
        println!("{:?} {}: {}", answer.verdict, answer.key, answer.said);
        for line in &answer.working {
            println!("      {line}");
        }
    }
    for doubt in &answers.doubts {
        println!("DOUBT {}", doubt.said);
    }
    for measure in &answers.measure {
        println!("MEASURE {} {:?}", measure.said, measure.changes);
    }
    for set_out in &answers.set_outs {
        println!("SET {}", set_out.said);
    }
    for clash in &answers.clashes {
        println!("CLASH {}", clash.said);
    }
    for holdup in grounds_lines::holdups::holdups(&lines, &answers) {
        println!(
            "HOLDS UP {:?} {:?} {}",
            holdup.order, holdup.cover, holdup.said
        );
    }
    println!(
        "{} points, {} links, {:?}",
        lines.net.points,
        lines.net.links.len(),
        answers.count()
    );
    Ok(())
}
