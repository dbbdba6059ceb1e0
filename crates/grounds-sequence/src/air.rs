//! Hours in which the air of a place was, or is expected to be, within a layer's limits, and how much of
//! each counts for what dries in it.
//!
//! A coat that dries in the air of its data sheet, or in better, dries by the clock. In colder or damper
//! air only a share of every hour counts, so that a wait measured on these hours is as long as the air of
//! each day makes it. Ticks stay whole: of each block of time the last quarters count, never one too many in
//! all; a block is an hour in the weeks around today, so that no wait is out by more.

use grounds_air::{MOST, SHEET};
use grounds_measure::{Humidity, HumidityRange, Temperature, TemperatureRange};
use grounds_model::{Climate, Dries, Id, Job, Layer};
use grounds_schedule::{Calendar, DAY, HOUR, Shift, Tick};
use grounds_site::{ClimateReading, Site};
use jiff::civil::Date;

use crate::{clock::Clock, hours};

/// Air that makes drying longer by less than this is taken for that of the data sheet, which is not given
/// more finely: in hundredths.
const SAME: Tick = 102;

/// So far from today drying is counted hour by hour.
const FINE: Tick = 30 * DAY;

/// So far from today in blocks of four hours, and beyond that, where nobody plans by the hour, by days.
const COARSE: Tick = 365 * DAY;

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

/// How the waits of a layer hang on the air.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Waiting {
    /// Hours outside do not count.
    pub(crate) limits: Limits,
    /// The air that they are given for, if it dries in air.
    pub(crate) dries: Option<Dries>,
}

impl Waiting {
    /// Those of a layer.
    pub(crate) fn of(layer: &Layer) -> Self {
        Self {
            limits: Limits::of(layer),
            dries: layer.dries(),
        }
    }

    /// The last moment for the next coat comes later where the coat dries slowly, but no limits stop it.
    pub(crate) fn window_of(layer: &Layer) -> Option<Self> {
        let dries = layer.dries()?;
        Some(Self {
            limits: Limits {
                temperature: None,
                humidity: None,
            },
            dries: Some(Dries {
                least: None,
                ..dries
            }),
        })
    }
}

/// What the air is like for a while.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub(crate) struct Air {
    pub(crate) temperature: Option<Temperature>,
    pub(crate) humidity: Option<Humidity>,
}

/// The air of a place from `[0, end)`, as it was read and as it is expected: stretches in order that leave
/// no time out.
pub(crate) fn of_place(
    job: &Job,
    site: &Site,
    clock: &Clock,
    place: &Id,
    end: Tick,
) -> Vec<(Tick, Tick, Air)> {
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
        // The air stays as it was last read until it is read again or something else is expected, but no
        // longer than a reading counts.
        let changes = spans
            .iter()
            .map(|span| span.0)
            .filter(|&start| start > from)
            .min();
        let old = clock.floor(reading.at + ClimateReading::COUNTS_FOR);
        let until = changes.unwrap_or(end).min(old).min(end);
        if from < until {
            spans.push((from, until, air));
        }
    }
    swept(&spans, end)
}

/// Sweeps the spans in order of time; at each moment a later span beats an earlier one, for
/// temperature and humidity separately.
fn swept(spans: &[(Tick, Tick, Air)], end: Tick) -> Vec<(Tick, Tick, Air)> {
    let mut edges: Vec<Tick> = spans
        .iter()
        .flat_map(|&(from, until, _)| [from, until])
        .chain([0, end])
        .collect();
    edges.sort_unstable();
    edges.dedup();
    let mut airs: Vec<(Tick, Tick, Air)> = Vec::new();
    for pair in edges.windows(2) {
        let (from, until) = (pair[0], pair[1]);
        let mut air = Air::default();
        for (_, _, said) in spans.iter().filter(|(a, b, _)| *a <= from && from < *b) {
            air.temperature = said.temperature.or(air.temperature);
            air.humidity = said.humidity.or(air.humidity);
        }
        match airs.last_mut() {
            Some(last) if last.2 == air => last.1 = until,
            _ => airs.push((from, until, air)),
        }
    }
    airs
}

/// The hours in a place that count for some wait; `None` where every hour counts.
pub(crate) fn counted_hours(
    airs: &[(Tick, Tick, Air)],
    waiting: Waiting,
    now: Tick,
) -> Option<Calendar> {
    let mut counted = Counted::default();
    let mut all = true;
    for &(from, until, air) in airs {
        if !within(air, waiting.limits) {
            all = false;
            continue;
        }
        match waiting.dries.map_or(100, |dries| slowness(air, dries)) {
            100 => counted.whole(from, until),
            slowness => {
                all = false;
                counted.share(from, until, slowness, now);
            }
        }
    }
    (!all).then(|| Calendar::new(counted.shifts))
}

/// How much longer a coat dries in some air than its wait says, in hundredths, rounded up: 100 where it
/// dries as said or where the air is not known. Where the maker says by how much a wait may be shorter,
/// by the least of it.
pub(crate) fn slowness(air: Air, dries: Dries) -> Tick {
    let known = grounds_air::Air {
        celsius: dries.at.map_or(SHEET.celsius, Temperature::celsius),
        humidity: dries
            .humidity
            .map_or(SHEET.humidity, |humidity| humidity.percent() / 100.0),
    };
    let longer = match (air.temperature, air.humidity) {
        (Some(warm), Some(damp)) => {
            let now = grounds_air::Air {
                celsius: warm.celsius(),
                humidity: damp.percent() / 100.0,
            };
            grounds_air::longer(known, now).min(MOST)
        }
        _ => 1.0,
    };
    let longer = longer * f64::from(DRIES_WHOLLY) / f64::from(least_share(dries));
    #[expect(
        clippy::cast_possible_truncation,
        reason = "bounded by the most and by a share of one in ten thousand"
    )]
    let hundredths = (longer * 100.0 - 1e-6).ceil() as Tick;
    if hundredths < SAME { 100 } else { hundredths }
}

/// All of a wait, as a share in hundredths of a percent.
const DRIES_WHOLLY: u32 = 10_000;

/// The least share of a wait whatever the air, in hundredths of a percent.
pub(crate) fn least_share(dries: Dries) -> u32 {
    let least = dries.least.map_or(DRIES_WHOLLY, |least| least.hundredths());
    least.clamp(1, DRIES_WHOLLY)
}

/// Stretches that count, in order.
#[derive(Default)]
struct Counted {
    shifts: Vec<Shift>,
}

impl Counted {
    fn whole(&mut self, from: Tick, until: Tick) {
        if let Some(last) = self
            .shifts
            .last_mut()
            .and_then(|last| last.stretches.last_mut())
            && last.1 == from
        {
            last.1 = until;
            return;
        }
        if from < until {
            self.shifts.push(Shift::plain(from, until));
        }
    }

    /// Of every block the last ticks count, so many that never more has dried than the air allows.
    fn share(&mut self, from: Tick, until: Tick, slowness: Tick, now: Tick) {
        let (mut at, mut owed) = (from, 0);
        while at < until {
            let block = match at.saturating_sub(now).abs() {
                near if near < FINE => HOUR,
                later if later < COARSE => 4 * HOUR,
                _ => DAY,
            };
            let end = at.saturating_add(block).min(until);
            owed += (end - at) * 100;
            let counts = owed / slowness;
            owed -= counts * slowness;
            self.whole(end - counts, end);
            at = end;
        }
    }
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
