//! Hours in which the air of a place was, or is expected to be, within a layer's limits.

use grounds_measure::{Humidity, HumidityRange, Temperature, TemperatureRange};
use grounds_model::{Climate, Id, Job, Layer};
use grounds_schedule::{Calendar, Shift, Tick};
use grounds_site::Site;
use jiff::civil::Date;

use crate::{clock::Clock, hours};

/// The limits of a layer's work and drying.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Limits {
    pub(crate) temperature: Option<TemperatureRange>,
    pub(crate) humidity: Option<HumidityRange>,
}

impl Limits {
    /// Those of a layer.
    pub(crate) fn of(layer: &Layer) -> Self {
        Self {
            temperature: layer.temperature,
            humidity: layer.humidity,
        }
    }
}

/// What the air is like for a while.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
struct Air {
    temperature: Option<Temperature>,
    humidity: Option<Humidity>,
}

/// The stretches of `[0, end)` in which a place is within limits; `None` where nothing said about
/// its air is ever outside them, so that every hour counts.
pub(crate) fn counted_hours(
    job: &Job,
    site: &Site,
    clock: &Clock,
    place: &Id,
    limits: Limits,
    end: Tick,
) -> Option<Calendar> {
    let mut spans: Vec<(Tick, Tick, Air)> = Vec::new();
    for climate in job.climate.iter().filter(|c| speaks_of(c, place)) {
        lay_out(climate, clock, end, &mut spans);
    }
    for reading in site
        .climate
        .iter()
        .filter(|reading| reading.place == *place)
    {
        let from = clock.floor(reading.at).max(0);
        let air = Air {
            temperature: reading.temperature,
            humidity: reading.humidity,
        };
        // The air stays as it was last read until it is read again or something else is expected.
        let until = spans
            .iter()
            .map(|span| span.0)
            .filter(|&start| start > from)
            .min();
        spans.push((from, until.unwrap_or(end), air));
    }
    let outside = outside_limits(&spans, limits, end);
    (!outside.is_empty()).then(|| complement(&outside, end))
}

fn speaks_of(climate: &Climate, place: &Id) -> bool {
    climate.places.is_empty() || climate.places.contains(place)
}

fn lay_out(climate: &Climate, clock: &Clock, end: Tick, spans: &mut Vec<(Tick, Tick, Air)>) {
    let from = clock.beginning(climate.from).max(0);
    let until = climate
        .until
        .map_or(end, |until| clock.ending(until))
        .min(end);
    let air = Air {
        temperature: climate.temperature,
        humidity: climate.humidity,
    };
    if climate.daily.is_none() && climate.days.is_empty() {
        if from < until {
            spans.push((from, until, air));
        }
        return;
    }
    let mut day = clock.day(from);
    while clock.midnight(day) < until {
        if climate.days.is_empty() || climate.days.contains(&hours::weekday(day)) {
            let (start, stop) = day_stretch(climate, clock, day);
            let (start, stop) = (start.max(from), stop.min(until));
            if start < stop {
                spans.push((start, stop, air));
            }
        }
        match day.tomorrow() {
            Ok(next) => day = next,
            Err(_) => break,
        }
    }
}

fn day_stretch(climate: &Climate, clock: &Clock, day: Date) -> (Tick, Tick) {
    match &climate.daily {
        Some(daily) => hours::stretch(daily, day, clock),
        None => (
            clock.midnight(day),
            clock.midnight(day.tomorrow().unwrap_or(Date::MAX)),
        ),
    }
}

/// Sweeps the spans in order of time; at each moment a later span beats an earlier one, for
/// temperature and humidity separately.
fn outside_limits(spans: &[(Tick, Tick, Air)], limits: Limits, end: Tick) -> Vec<(Tick, Tick)> {
    let mut edges: Vec<Tick> = spans
        .iter()
        .flat_map(|&(from, until, _)| [from, until])
        .collect();
    edges.push(end);
    edges.sort_unstable();
    edges.dedup();
    let mut outside: Vec<(Tick, Tick)> = Vec::new();
    for pair in edges.windows(2) {
        let (from, until) = (pair[0], pair[1]);
        let mut air = Air::default();
        for (_, _, said) in spans.iter().filter(|(a, b, _)| *a <= from && from < *b) {
            air.temperature = said.temperature.or(air.temperature);
            air.humidity = said.humidity.or(air.humidity);
        }
        if within(air, limits) {
            continue;
        }
        match outside.last_mut() {
            Some(last) if last.1 == from => last.1 = until,
            _ => outside.push((from, until)),
        }
    }
    outside
}

/// Limits are inclusive; air that nobody read counts as within.
fn within(air: Air, limits: Limits) -> bool {
    let warm = match (air.temperature, limits.temperature) {
        (Some(is), Some(range)) => range.contains(is),
        _ => true,
    };
    let dry = match (air.humidity, limits.humidity) {
        (Some(is), Some(range)) => range.contains(is),
        _ => true,
    };
    warm && dry
}

fn complement(outside: &[(Tick, Tick)], end: Tick) -> Calendar {
    let mut shifts = Vec::new();
    let mut at = 0;
    for &(from, until) in outside {
        if at < from {
            shifts.push(Shift {
                stretches: vec![(at, from)],
            });
        }
        at = until;
    }
    if at < end {
        shifts.push(Shift {
            stretches: vec![(at, end)],
        });
    }
    Calendar::new(shifts)
}

/// The stretches of work of a calendar that fall in another one's stretches.
pub(crate) fn both(work: &[Shift], counted: &[Shift]) -> Calendar {
    let open: Vec<(Tick, Tick)> = counted
        .iter()
        .flat_map(|s| s.stretches.iter().copied())
        .collect();
    let mut first = 0;
    let mut shifts = Vec::new();
    for shift in work {
        let mut stretches = Vec::new();
        for &(from, until) in &shift.stretches {
            while first < open.len() && open[first].1 <= from {
                first += 1;
            }
            for &(a, b) in open[first..].iter().take_while(|(a, _)| *a < until) {
                let (start, stop) = (a.max(from), b.min(until));
                if start < stop {
                    stretches.push((start, stop));
                }
            }
        }
        if !stretches.is_empty() {
            shifts.push(Shift { stretches });
        }
    }
    Calendar::new(shifts)
}
