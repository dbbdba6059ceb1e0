//! A figure as it is typed, with its unit.

use grounds_measure::{Humidity, Length, Percent, Temperature};
use grounds_model::{Job, Material, Target};
use grounds_site::Value;

use crate::say;

/// How far work has got: `60 %` or `60`.
pub(super) fn share(typed: &str) -> Result<Value, String> {
    let figure = typed.trim_end_matches('%').trim();
    let share: Result<Percent, _> = format!("{figure} %").parse();
    let share = share.ok().filter(|share| *share <= Percent::WHOLE);
    let wrong = || {
        format!(
            "“{}” is no share of the work; write it like 60 %.",
            say::cut(typed, 40)
        )
    };
    share.map(Value::Share).ok_or_else(wrong)
}

/// A reading: `74 %`, `18 C`, `12 mm`. Moisture of timber goes by its name, as the log has it.
pub(super) fn read(job: &Job, target: Option<&Target>, typed: &str) -> Result<Value, String> {
    let wrong = || {
        format!(
            "“{}” could not be read; write it like 74 %, 18 C or 12 mm.",
            say::cut(typed, 40)
        )
    };
    if let Some(figure) = typed.strip_suffix('%') {
        if is_timber(job, target) {
            let figure: f64 = figure.trim().parse().map_err(|_| wrong())?;
            return Ok(Value::Reading {
                what: "moisture".to_owned(),
                figure: format!("{figure} %"),
            });
        }
        let humidity: Humidity = typed.parse().map_err(|_| wrong())?;
        return Ok(Value::Humidity(humidity));
    }
    let typed = typed.replace('°', " ");
    if let Ok(temperature) = typed.parse::<Temperature>() {
        return Ok(Value::Temperature(temperature));
    }
    let length = Length::parse_in(&typed, job.job.units).map_err(|_| wrong())?;
    Ok(Value::Length(length))
}

fn is_timber(job: &Job, target: Option<&Target>) -> bool {
    match target {
        Some(Target::Piece(_)) => true,
        Some(Target::Layer(key)) => job
            .layer(key)
            .is_some_and(|layer| matches!(layer.material, Material::Timber | Material::Sheet)),
        _ => false,
    }
}
