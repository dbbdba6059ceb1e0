//! Folding the log of a large house: 110 faces of eight layers, 120 pieces, two notes on each.

#![allow(
    clippy::panic,
    reason = "a bench that cannot build its house has nothing to time"
)]

use criterion::{Criterion, criterion_group, criterion_main};
use grounds_model::Job;
use grounds_site::{Kind, Note, fold};
use jiff::{SignedDuration, Timestamp};
use uuid::Uuid;

fn house() -> Job {
    let mut text = String::from(
        r#"
format = 1
[job]
name = "Large"
units = "metric"
zone = "Europe/London"
begins = "2027-01-04"
calendar = "week"
[calendars.week]
days = ["mon"]
hours = ["08:00-12:00"]
[trades.t]
name = "T"
[levels.g]
name = "G"
height = "0 m"
"#,
    );
    text.push_str("[build_ups.b]\nname = \"B\"\nlayers = [\n");
    for layer in 0..8 {
        text.push_str(&format!(
            "{{ id = \"l{layer}\", name = \"L{layer}\", material = \"plaster\", trade = \"t\" }},\n"
        ));
    }
    text.push_str("]\n");
    for place in 0..30 {
        text.push_str(&format!(
            "[places.p{place}]\nname = \"P{place}\"\nlevel = \"g\"\n"
        ));
        for face in 0..if place < 20 { 4 } else { 3 } {
            text.push_str(&format!(
                "faces.f{face} = {{ kind = \"wall\", build_up = \"b\" }}\n"
            ));
        }
    }
    for piece in 0..120 {
        let place = piece % 30;
        text.push_str(&format!(
            "[pieces.g{piece}]\nname = \"G{piece}\"\ntrade = \"t\"\nplace = \"p{place}\"\ntakes = \"1 h\"\n\
             after = [\"p{place}.f0/l2\"]\nbefore = [\"p{place}.f0/l5\"]\n"
        ));
    }
    toml::from_str(&text).unwrap_or_else(|error| panic!("the house does not read: {error}"))
}

fn notes(job: &Job, begin: Timestamp) -> Vec<Note> {
    let layers = job.layer_keys().map(|key| key.to_string());
    let about = layers.chain(job.pieces.keys().map(ToString::to_string));
    let mut notes = Vec::new();
    for (index, about) in about.enumerate() {
        for kind in [Kind::Started, Kind::Done] {
            let number = notes.len() as u128;
            let at = begin + SignedDuration::from_mins(30 * index as i64 + number as i64 % 2);
            notes.push(Note::new(
                Uuid::from_u128(number),
                at,
                "Ana",
                about.clone(),
                kind,
            ));
        }
    }
    notes
}

fn folding(c: &mut Criterion) {
    let job = house();
    let begin: Timestamp = "2027-01-04T08:00:00Z".parse().unwrap_or_default();
    let notes = notes(&job, begin);
    let at = begin + SignedDuration::from_hours(24 * 60);
    c.bench_function(&format!("fold {} notes", notes.len()), |b| {
        b.iter(|| fold(&job, &notes, at));
    });
}

criterion_group!(benches, folding);
criterion_main!(benches);
