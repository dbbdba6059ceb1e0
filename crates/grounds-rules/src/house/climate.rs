//! The air in a place at a moment, as it was last read or as it is expected to be.

use grounds_air::SHEET;
use grounds_measure::{Humidity, Temperature};
use grounds_model::{Climate, Dries, Id, Moment};
use grounds_site::ClimateReading;
use jiff::{SignedDuration, Timestamp, civil::DateTime, tz::TimeZone};

use super::House;
use crate::{
    given::Given,
    quantity::{Quantity, Ratio, of_celsius},
    rules::timber::heating_before_timber::{HUMIDITY, TEMPERATURE},
};

/// The longest drying that is added up hour by hour.
const LONGEST: SignedDuration = SignedDuration::from_hours(400 * 24);

/// The air of a place at a moment, each with who says so.
#[derive(Clone, Debug, Default)]
pub(super) struct AirAt {
    pub(super) temperature: Option<(Temperature, String)>,
    pub(super) humidity: Option<(Humidity, String)>,
}

/// Puts in the temperature and the humidity of the air of now in a place, each as far as it is known.
pub(super) fn put_air(house: &House<'_>, place: &Id, given: &mut Given) {
    put_air_at(house, place, house.site.at, given);
}

/// Puts in those of a moment to come: what is read counts for a while, then what is expected.
pub(super) fn put_air_at(house: &House<'_>, place: &Id, at: Timestamp, given: &mut Given) {
    let air = Airs::of(house, place).at(at);
    if let Some((temperature, from)) = air.temperature {
        given.set(&TEMPERATURE, of_celsius(temperature.celsius()), from);
    }
    if let Some((humidity, from)) = air.humidity {
        given.set(&HUMIDITY, Ratio::of_base(humidity.percent() / 100.0), from);
    }
}

/// All that is known of the air in a place.
pub(super) struct Airs<'a> {
    climates: Vec<&'a Climate>,
    readings: Vec<&'a ClimateReading>,
    zone: TimeZone,
    now: Timestamp,
}

impl<'a> Airs<'a> {
    pub(super) fn of(house: &House<'a>, place: &Id) -> Self {
        let climates = house.job.climate.iter();
        let readings = house.site.climate.iter();
        Self {
            climates: climates
                .filter(|climate| speaks_of(climate, place))
                .collect(),
            readings: readings.filter(|reading| reading.place == *place).collect(),
            zone: house.job.time_zone().unwrap_or(TimeZone::UTC),
            now: house.site.at,
        }
    }

    /// The air at a moment.
    pub(super) fn at(&self, at: Timestamp) -> AirAt {
        let there = self.zone.to_datetime(at);
        let mut air = AirAt::default();
        for climate in self
            .climates
            .iter()
            .filter(|climate| holds_at(climate, there))
        {
            let from = || self.expected(climate, at);
            air.temperature = climate.temperature.map(|t| (t, from())).or(air.temperature);
            air.humidity = climate.humidity.map(|h| (h, from())).or(air.humidity);
        }
        // Readings come by place and time: the last fresh one stands, until something else is expected.
        let counts = |reading: &&&ClimateReading| {
            let age = at.duration_since(reading.at);
            !age.is_negative() && age <= ClimateReading::COUNTS_FOR && !self.changes(reading.at, at)
        };
        for reading in self.readings.iter().filter(counts) {
            let from = || format!("read on {}", reading.at.strftime("%-d %B"));
            air.temperature = reading.temperature.map(|t| (t, from())).or(air.temperature);
            air.humidity = reading.humidity.map(|h| (h, from())).or(air.humidity);
        }
        air
    }

    fn expected(&self, climate: &Climate, at: Timestamp) -> String {
        match (climate.forecast, at > self.now) {
            (true, false) => "expected now".to_owned(),
            (_, true) => format!(
                "expected on {}",
                self.zone.to_datetime(at).strftime("%-d %B")
            ),
            (false, false) => "the air of the job's document".to_owned(),
        }
    }

    /// Whether the job's document has other air begin between two moments.
    fn changes(&self, from: Timestamp, until: Timestamp) -> bool {
        let (from, until) = (self.zone.to_datetime(from), self.zone.to_datetime(until));
        let begins = |climate: &&Climate| {
            let begin = climate
                .from
                .date
                .to_datetime(climate.from.time_or_midnight());
            from < begin && begin <= until
        };
        self.climates.iter().any(begins)
    }

    /// How much has dried between two moments, in seconds of the air that the wait is given for: hour by
    /// hour, never quicker than in that air. None where the air is not known all the time.
    pub(super) fn dried(&self, dries: Dries, from: Timestamp, until: Timestamp) -> Option<f64> {
        if until.duration_since(from) > LONGEST {
            return None;
        }
        let known = grounds_air::Air {
            celsius: dries.at.map_or(SHEET.celsius, Temperature::celsius),
            humidity: dries
                .humidity
                .map_or(SHEET.humidity, |humidity| humidity.percent() / 100.0),
        };
        let hour = SignedDuration::from_hours(1);
        let (mut at, mut dried) = (from, 0.0);
        while at < until {
            let end = at.checked_add(hour).unwrap_or(until).min(until);
            let air = self.at(at);
            let now = grounds_air::Air {
                celsius: air.temperature?.0.celsius(),
                humidity: air.humidity?.0.percent() / 100.0,
            };
            let longer = grounds_air::longer(known, now).clamp(1.0, grounds_air::MOST);
            dried += end.duration_since(at).as_secs_f64() / longer;
            at = end;
        }
        Some(dried)
    }
}

fn speaks_of(climate: &Climate, place: &Id) -> bool {
    climate.places.is_empty() || climate.places.contains(place)
}

fn holds_at(climate: &Climate, now: DateTime) -> bool {
    let past = |moment: &Moment| {
        let at = moment.date.to_datetime(moment.time_or_midnight());
        at <= now
    };
    let today = grounds_model::Weekday::ALL
        .get(usize::try_from(now.date().weekday().to_monday_zero_offset()).unwrap_or(0))
        .copied();
    let minute = u32::try_from(i32::from(now.hour()) * 60 + i32::from(now.minute())).unwrap_or(0);
    past(&climate.from)
        && climate.until.as_ref().is_none_or(|until| !past(until))
        && climate
            .daily
            .is_none_or(|hours| (hours.from_minutes()..hours.until_minutes()).contains(&minute))
        && (climate.days.is_empty() || today.is_some_and(|today| climate.days.contains(&today)))
}
