//! What the air was and will be: in places that exist, from earlier to later.

use super::{Notes, places, promises, step};
use crate::job::Job;

pub(super) fn check(job: &Job, notes: &mut Notes<'_, '_>) {
    for (at, climate) in job.climate.iter().enumerate() {
        if notes.full() {
            return;
        }
        let at = at.to_string();
        let path = ["climate", at.as_str()];
        for (index, place) in climate.places.iter().enumerate() {
            places::known(
                job,
                place.as_str(),
                &step(&path, &["places", &index.to_string()]),
                notes,
            );
        }
        if let Some(until) = climate
            .until
            .filter(|until| promises::later(climate.from, *until))
        {
            let what = format!("it ends on {until}, before it begins on {}", climate.from);
            notes.error(
                &step(&path, &["until"]),
                what,
                "exchange `from` and `until`",
            );
        }
        if climate.temperature.is_none() && climate.humidity.is_none() {
            let what = "this entry says nothing about the air";
            notes.advice(
                &path,
                what,
                "add temperature = \"18 C\" or humidity = \"55 %\"",
            );
        }
    }
}
