//! The small notations inside a document's texts: each `format` of the schema and who reads it.

use std::str::FromStr;

use grounds_measure::{
    Area, Coverage, Estimate, Humidity, HumidityRange, Length, MeasureError, Money, Percent, Rate,
    Size, Span, Temperature, TemperatureRange, Thickness, Weight,
};

use crate::{
    figure::Figure,
    hours::Hours,
    id::{Id, Ref, Selector},
    moment::{Moment, read_day},
    text::TextError,
};

/// Why a text does not fit its format.
pub(crate) struct Misread {
    /// The byte of the text where the fault begins.
    pub(crate) at: usize,
    /// What is wrong.
    pub(crate) what: String,
    /// How to mend it.
    pub(crate) mend: String,
}

impl From<MeasureError> for Misread {
    fn from(error: MeasureError) -> Self {
        Self {
            at: error.at(),
            what: format!(
                "cannot read the {} `{}`: found {}, expected {}",
                error.what(),
                error.text(),
                error.found(),
                error.expected()
            ),
            mend: format!("write {}", error.example()),
        }
    }
}

impl From<TextError> for Misread {
    fn from(error: TextError) -> Self {
        Self {
            at: error.at(),
            what: format!(
                "cannot read the {} `{}`: expected {}",
                error.what(),
                error.text(),
                error.expected()
            ),
            mend: format!("write {}", error.example()),
        }
    }
}

fn parsed<T>(text: &str) -> Result<(), Misread>
where
    T: FromStr,
    Misread: From<T::Err>,
{
    text.parse::<T>().map(|_| ()).map_err(Misread::from)
}

/// One notation: its name in the schema, its reader, and a good text of it.
pub(crate) struct Format {
    /// Its name in the schema.
    pub(crate) name: &'static str,
    /// Reads it.
    pub(crate) read: fn(&str) -> Result<(), Misread>,
    /// A text that can be read, used to go on reading past a faulty one.
    pub(crate) good: &'static str,
}

const fn format(
    name: &'static str,
    read: fn(&str) -> Result<(), Misread>,
    good: &'static str,
) -> Format {
    Format { name, read, good }
}

static FORMATS: &[Format] = &[
    format("area", parsed::<Area>, "1 m2"),
    format("coverage", parsed::<Coverage>, "1 m2/L"),
    format(
        "date",
        |text| read_day(text).map(|_| ()).map_err(Misread::from),
        "2027-06-07",
    ),
    format("estimate", parsed::<Estimate>, "1 week"),
    format(
        "figure",
        |text| Figure::check(text).map_err(Misread::from),
        "1 m",
    ),
    format("hours", parsed::<Hours>, "08:00-12:00"),
    format("humidity", parsed::<Humidity>, "50 %"),
    format("humidity-range", parsed::<HumidityRange>, "30..70 %"),
    format(
        "id",
        |text| Id::check(text).map_err(Misread::from),
        "unnamed",
    ),
    format("length", parsed::<Length>, "1 m"),
    format("moment", parsed::<Moment>, "2027-06-07"),
    format("money", parsed::<Money>, "1.00"),
    format("percent", parsed::<Percent>, "10 %"),
    format("rate", parsed::<Rate>, "1 m2/h"),
    format(
        "ref",
        |text| Ref::check(text).map_err(Misread::from),
        "unnamed",
    ),
    format(
        "selector",
        |text| Selector::check(text).map_err(Misread::from),
        "any:unnamed",
    ),
    format("size", parsed::<Size>, "1 m x 1 m x 1 m"),
    format("span", parsed::<Span>, "1 h"),
    format("temperature", parsed::<Temperature>, "20 C"),
    format("temperature-range", parsed::<TemperatureRange>, "10..30 C"),
    format("thickness", parsed::<Thickness>, "1 mm"),
    format("weight", parsed::<Weight>, "1 kg"),
];

/// The notation of that name, if the program reads one.
pub(crate) fn format_named(name: &str) -> Option<&'static Format> {
    FORMATS.iter().find(|format| format.name == name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_format_reads_its_own_good_text() {
        for format in FORMATS {
            if let Err(misread) = (format.read)(format.good) {
                panic!("{}: {}; {}", format.name, misread.what, misread.mend);
            }
        }
    }
}
