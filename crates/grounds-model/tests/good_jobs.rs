//! Jobs that are right: the starter and the examples read without fault, write back to the same
//! job, and fit the schema.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at the first surprise"
)]

use std::{fs, path::PathBuf};

use grounds_model::{Faults, Job, examine, read, schema, starter};

/// The job documents of the examples, where the repository has them.
fn examples() -> Vec<(String, String)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let Ok(entries) = fs::read_dir(folder) else {
        return Vec::new();
    };
    let mut jobs: Vec<(String, String)> = entries
        .filter_map(|entry| {
            let path = entry.ok()?.path().join("job.toml");
            let name = path.parent()?.file_name()?.to_str()?.to_owned();
            Some((name, fs::read_to_string(path).ok()?))
        })
        .collect();
    jobs.sort();
    jobs
}

fn all_jobs() -> Vec<(String, String)> {
    let mut jobs = examples();
    jobs.push(("starter".to_owned(), starter().job.to_owned()));
    jobs
}

fn good(name: &str, text: &str) -> Job {
    read(name, text).unwrap_or_else(|faults| panic!("{name}:\n{faults}"))
}

#[test]
fn the_starter_reads_without_fault_or_advice() {
    let (job, faults) = examine("job.toml", starter().job);
    assert_eq!(faults, Faults::default(), "{faults}");
    let job = job.unwrap();
    assert_eq!(job.places.len(), 3);
    assert!(job.layer_keys().count() > 30);
    assert!(job.pieces.values().any(|piece| piece.lead.is_some()));
}

#[test]
fn every_example_reads_without_fault() {
    for (name, text) in examples() {
        good(&name, &text);
    }
}

#[test]
fn a_job_that_is_written_reads_back_the_same() {
    for (name, text) in all_jobs() {
        let job = good(&name, &text);
        let written = job.to_toml().unwrap();
        assert_eq!(good(&name, &written), job, "{name}");
        assert_eq!(good(&name, &written).to_toml().unwrap(), written, "{name}");
    }
}

#[test]
fn every_job_fits_the_schema() {
    let schema = schema();
    jsonschema::meta::validate(&schema).unwrap();
    let validator = jsonschema::validator_for(&schema).unwrap();
    for (name, text) in all_jobs() {
        let value: toml::Table = text.parse().unwrap();
        let value = serde_json::to_value(value).unwrap();
        let faults: Vec<String> = validator
            .iter_errors(&value)
            .map(|fault| format!("{}: {fault}", fault.instance_path()))
            .collect();
        assert!(faults.is_empty(), "{name}:\n{}", faults.join("\n"));
    }
}

#[test]
fn the_committed_schema_is_the_one_that_the_types_make() {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../schema/job.schema.json");
    let made = serde_json::to_string_pretty(&schema()).unwrap() + "\n";
    if std::env::var_os("GROUNDS_WRITE_SCHEMA").is_some() {
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(&path, &made).unwrap();
    }
    let committed = fs::read_to_string(&path).unwrap_or_default();
    assert!(
        committed == made,
        "schema/job.schema.json is out of date; run GROUNDS_WRITE_SCHEMA=1 cargo test -p grounds-model"
    );
}
