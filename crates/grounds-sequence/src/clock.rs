//! Between wall-clock time in the job's zone and the ticks of a plan.

use grounds_model::Moment;
use grounds_schedule::Tick;
use jiff::{Timestamp, ZonedDateTime, civil::Date, civil::DateTime, civil::Time, tz::TimeZone};

/// Seconds in a tick: a quarter of an hour.
const TICK_SECONDS: i64 = 900;

/// Maps ticks to moments. Tick 0 is a midnight in the job's zone; a tick is a quarter-hour of
/// elapsed time, so a day with a clock change has 92 or 100 of them.
#[derive(Clone, Debug)]
pub struct Clock {
    origin: i64,
    zone: TimeZone,
}

impl Clock {
    /// A clock whose tick 0 is the midnight that begins `day` in `zone`.
    #[must_use]
    pub fn new(day: Date, zone: TimeZone) -> Self {
        let origin = instant(day.at(0, 0, 0, 0), &zone).as_second();
        Self {
            origin: origin.div_euclid(TICK_SECONDS) * TICK_SECONDS,
            zone,
        }
    }

    /// The job's time zone.
    #[must_use]
    pub fn zone(&self) -> &TimeZone {
        &self.zone
    }

    /// The last tick that begins at or before a moment.
    #[must_use]
    pub fn floor(&self, at: Timestamp) -> Tick {
        to_tick((at.as_second() - self.origin).div_euclid(TICK_SECONDS))
    }

    /// The first tick that begins at or after a moment.
    #[must_use]
    pub fn ceil(&self, at: Timestamp) -> Tick {
        let seconds = at.as_second() - self.origin + i64::from(at.subsec_nanosecond() > 0);
        to_tick(-(-seconds).div_euclid(TICK_SECONDS))
    }

    /// The moment at which a tick begins.
    #[must_use]
    pub fn timestamp(&self, tick: Tick) -> Timestamp {
        let second = self.origin + i64::from(tick) * TICK_SECONDS;
        Timestamp::from_second(second).unwrap_or(Timestamp::MAX)
    }

    /// The moment at which a tick begins, on the job's wall clock.
    #[must_use]
    pub fn zoned(&self, tick: Tick) -> ZonedDateTime {
        self.timestamp(tick).to_zoned_datetime(self.zone.clone())
    }

    /// The tick of a time on a day; a time that a clock change skips is taken as the moment after.
    #[must_use]
    pub fn at(&self, day: Date, time: Time) -> Tick {
        self.ceil(instant(day.to_datetime(time), &self.zone))
    }

    /// The tick at which a day begins.
    #[must_use]
    pub fn midnight(&self, day: Date) -> Tick {
        self.at(day, Time::midnight())
    }

    /// The tick of a date or a date and time; a date alone means its beginning.
    #[must_use]
    pub fn beginning(&self, moment: Moment) -> Tick {
        self.at(moment.date, moment.time.unwrap_or(Time::midnight()))
    }

    /// The tick of a date or a date and time; a date alone means the end of that day.
    #[must_use]
    pub fn ending(&self, moment: Moment) -> Tick {
        match moment.time {
            Some(time) => self.at(moment.date, time),
            None => self.midnight(moment.date.tomorrow().unwrap_or(Date::MAX)),
        }
    }

    /// The day that a tick falls on.
    #[must_use]
    pub fn day(&self, tick: Tick) -> Date {
        self.zoned(tick).date()
    }
}

fn instant(at: DateTime, zone: &TimeZone) -> Timestamp {
    zone.to_ambiguous_timestamp(at)
        .compatible()
        .unwrap_or(Timestamp::MAX)
}

fn to_tick(ticks: i64) -> Tick {
    Tick::try_from(ticks).unwrap_or(if ticks < 0 { Tick::MIN } else { Tick::MAX })
}
