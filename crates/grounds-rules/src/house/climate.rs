//! The air in a place, as it was last read or as it is expected to be.

use grounds_model::{Climate, Id, Moment};
use grounds_site::ClimateReading;
use jiff::{SignedDuration, civil::DateTime, tz::TimeZone};

use super::House;
use crate::{
    given::Given,
    quantity::{Quantity, Ratio, of_celsius},
    rules::timber::heating_before_timber::{HUMIDITY, TEMPERATURE},
};

/// A reading counts for the air of now for so long.
const FRESH: SignedDuration = SignedDuration::from_hours(7 * 24);

/// Puts in the temperature and the humidity of the air in a place, each as far as it is known.
pub(super) fn put_air(house: &House<'_>, place: &Id, given: &mut Given) {
    let zone = house.job.time_zone().unwrap_or(TimeZone::UTC);
    let now = zone.to_datetime(house.site.at);
    for climate in &house.job.climate {
        if !(speaks_of(climate, place) && holds_at(climate, now)) {
            continue;
        }
        let from = if climate.forecast {
            "expected now"
        } else {
            "the air of the job's document"
        };
        if let Some(temperature) = climate.temperature {
            given.set(&TEMPERATURE, of_celsius(temperature.celsius()), from);
        }
        if let Some(humidity) = climate.humidity {
            given.set(&HUMIDITY, Ratio::of_base(humidity.percent() / 100.0), from);
        }
    }
    // Readings come by place and time: the last fresh one stands.
    let fresh = |reading: &&ClimateReading| {
        reading.place == *place && house.site.at.duration_since(reading.at) <= FRESH
    };
    for reading in house.site.climate.iter().filter(fresh) {
        let from = format!("read on {}", reading.at.strftime("%-d %B"));
        if let Some(temperature) = reading.temperature {
            given.set(
                &TEMPERATURE,
                of_celsius(temperature.celsius()),
                from.clone(),
            );
        }
        if let Some(humidity) = reading.humidity {
            given.set(&HUMIDITY, Ratio::of_base(humidity.percent() / 100.0), from);
        }
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
