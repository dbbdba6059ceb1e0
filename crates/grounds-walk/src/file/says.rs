//! What a note would say, in words.

use grounds_measure::Units;
use grounds_model::{Job, LayerKey, Moment, Ref, Target};
use grounds_site::{Kind as NoteKind, Subject, Value, words};
use jiff::civil::Date;

/// What people call what a reference names: `the screed in the kitchen`.
#[must_use]
pub fn about(job: &Job, about: &Ref) -> String {
    match job.resolve(about) {
        Some(Target::Face { place, face }) => {
            let design = job.face(place.as_str(), face.as_str());
            let name = design.and_then(|face| face.name.clone());
            let name = name.unwrap_or_else(|| face.as_str().replace('-', " "));
            let place = grounds_site::name(job, &Subject::Place(place));
            format!("{} in {place}", words::with_article(&name))
        }
        Some(target) => Subject::of(target).map_or_else(
            || words::plain(about.as_str()),
            |subject| grounds_site::name(job, &subject),
        ),
        None => words::plain(about.as_str()),
    }
}

/// One layer on several faces: `the mist coat on the walls and the ceiling in the hall`.
pub(super) fn layers(job: &Job, keys: &[&LayerKey]) -> String {
    let Some(first) = keys.first() else {
        return String::new();
    };
    let name = job
        .layer(first)
        .map_or_else(|| first.layer.to_string(), |layer| layer.name.clone());
    let faces: Vec<String> = keys
        .iter()
        .map(|key| {
            let face = job.face(key.place.as_str(), key.face.as_str());
            let name = face.and_then(|face| face.name.clone());
            words::with_article(&name.unwrap_or_else(|| key.face.as_str().replace('-', " ")))
        })
        .collect();
    let place = grounds_site::name(job, &Subject::Place(first.place.clone()));
    format!(
        "{} on {} in {place}",
        words::with_article(&name),
        words::list(&faces)
    )
}

/// What a kind of note says of its thing: `done`, `on site`, `something is wrong`.
#[must_use]
pub fn kind_words(kind: NoteKind) -> &'static str {
    match kind {
        NoteKind::Started => "begun",
        NoteKind::Progress => "in hand",
        NoteKind::Done => "done",
        NoteKind::Undone => "to be done again",
        NoteKind::Passed => "passed",
        NoteKind::Failed => "failed",
        NoteKind::Measured => "measured",
        NoteKind::Ordered => "ordered",
        NoteKind::Promised => "promised",
        NoteKind::Shipped => "on its way",
        NoteKind::Arrived => "on site",
        NoteKind::Damaged => "damaged",
        NoteKind::Decided => "decided",
        NoteKind::Problem => "something is wrong or in the way",
        NoteKind::Cleared => "nothing in the way any more",
        NoteKind::Remark => "a remark",
    }
}

/// What a note would say: `on site`, `promised for Fri 18 June`, `reads 74 %`. `today` is the walk's
/// day; dates of its year go without the year.
#[must_use]
pub fn said(kind: NoteKind, value: Option<&Value>, units: Units, today: Date) -> String {
    match (kind, value) {
        (NoteKind::Promised, Some(Value::When(moment))) => {
            format!("promised for {}", on(*moment, today))
        }
        (NoteKind::Problem, Some(Value::When(moment))) => {
            format!("{}, until {}", kind_words(kind), on(*moment, today))
        }
        (_, Some(Value::When(moment))) => format!("{}, {}", kind_words(kind), on(*moment, today)),
        (NoteKind::Progress, Some(Value::Share(share))) => format!("{share} done"),
        (NoteKind::Measured, Some(value)) => format!("reads {}", value.in_words(units)),
        (_, Some(value)) => format!("{}, {}", kind_words(kind), value.in_words(units)),
        (_, None) => kind_words(kind).to_owned(),
    }
}

fn on(moment: Moment, today: Date) -> String {
    let day = day(moment.date, today);
    match moment.time {
        Some(time) => format!("{day}, {}:{:02}", time.hour(), time.minute()),
        None => day,
    }
}

/// `Fri 18 June`, `Fri 18 June 2028`
pub(super) fn day(date: Date, today: Date) -> String {
    let form = if date.year() == today.year() {
        "%a %-d %B"
    } else {
        "%a %-d %B %Y"
    };
    date.strftime(form).to_string()
}

/// A time in a walk: `1:05`, `1:02:03`.
#[must_use]
pub fn time_code(ms: u64) -> String {
    let (hours, minutes, seconds) = (ms / 3_600_000, ms / 60_000 % 60, ms / 1000 % 60);
    if hours > 0 {
        format!("{hours}:{minutes:02}:{seconds:02}")
    } else {
        format!("{minutes}:{seconds:02}")
    }
}
