//! Units as they are said.

use std::fmt;

use serde::Serialize;

/// A unit of a reading. Serialised as it is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Unit {
    /// No unit was said and none is understood.
    None,
    /// Millimetres.
    Millimetre,
    /// Centimetres.
    Centimetre,
    /// Metres.
    Metre,
    /// Inches.
    Inch,
    /// Feet.
    Foot,
    /// Parts of a hundred: moisture, humidity, share of work.
    Percent,
    /// Degrees Celsius.
    Celsius,
    /// Degrees Fahrenheit.
    Fahrenheit,
    /// Degrees of which nobody said which, or of an angle.
    Degree,
    /// Kilograms.
    Kilogram,
    /// Pounds.
    Pound,
    /// Tonnes.
    Tonne,
    /// Square metres.
    SquareMetre,
    /// Square feet.
    SquareFoot,
    /// Litres.
    Litre,
    /// US gallons.
    Gallon,
    /// Bar.
    Bar,
    /// Pounds per square inch.
    Psi,
    /// Pascals.
    Pascal,
    /// Cubic feet a minute.
    CubicFootPerMinute,
    /// Litres a second.
    LitrePerSecond,
    /// Cubic metres an hour.
    CubicMetrePerHour,
    /// British thermal units an hour.
    BtuPerHour,
    /// Watts.
    Watt,
    /// Kilowatts.
    Kilowatt,
    /// Volts.
    Volt,
    /// Amperes.
    Ampere,
    /// Megohms, of an insulation test.
    Megohm,
    /// Newtons, of a closing force.
    Newton,
    /// Decibels.
    Decibel,
    /// Millibar.
    Millibar,
    /// Lux.
    Lux,
    /// Litres a minute.
    LitrePerMinute,
    /// US gallons a minute.
    GallonPerMinute,
    /// Kilopascals.
    Kilopascal,
    /// Ohms.
    Ohm,
    /// Milliamperes.
    Milliampere,
    /// Parts per million.
    PartsPerMillion,
    /// Air changes an hour.
    AirChangesPerHour,
    /// Seconds of time.
    Second,
    /// Minutes of time.
    Minute,
    /// Hours.
    Hour,
    /// Days.
    Day,
    /// Weeks.
    Week,
    /// Months.
    Month,
    /// Coats of paint and the like.
    Coat,
}

use Unit::{
    AirChangesPerHour, Ampere, Bar, BtuPerHour, Celsius, Centimetre, Coat, CubicFootPerMinute,
    CubicMetrePerHour, Day, Decibel, Degree, Fahrenheit, Foot, Gallon, GallonPerMinute, Hour, Inch,
    Kilogram, Kilopascal, Kilowatt, Litre, LitrePerMinute, LitrePerSecond, Lux, Megohm, Metre,
    Milliampere, Millibar, Millimetre, Minute, Month, Newton, Ohm, PartsPerMillion, Pascal,
    Percent, Pound, Psi, Second, SquareFoot, SquareMetre, Tonne, Volt, Watt, Week,
};

/// Words for units, the longest first where one begins another.
const SAID: &[(&str, Unit)] = &[
    ("square metres", SquareMetre),
    ("square metre", SquareMetre),
    ("square meters", SquareMetre),
    ("square meter", SquareMetre),
    ("metres square", SquareMetre),
    ("metres squared", SquareMetre),
    ("meters squared", SquareMetre),
    ("sq m", SquareMetre),
    ("m2", SquareMetre),
    ("m²", SquareMetre),
    ("square feet", SquareFoot),
    ("square foot", SquareFoot),
    ("sq ft", SquareFoot),
    ("ft2", SquareFoot),
    ("ft²", SquareFoot),
    ("cubic feet a minute", CubicFootPerMinute),
    ("cfm", CubicFootPerMinute),
    ("litres a second", LitrePerSecond),
    ("litres per second", LitrePerSecond),
    ("cubic metres an hour", CubicMetrePerHour),
    ("cubic metres per hour", CubicMetrePerHour),
    ("cubic metres", CubicMetrePerHour),
    ("cubic meters an hour", CubicMetrePerHour),
    ("m3 h", CubicMetrePerHour),
    ("litres a minute", LitrePerMinute),
    ("litres per minute", LitrePerMinute),
    ("liters a minute", LitrePerMinute),
    ("liters per minute", LitrePerMinute),
    ("litre a minute", LitrePerMinute),
    ("l min", LitrePerMinute),
    ("gallons a minute", GallonPerMinute),
    ("gallons per minute", GallonPerMinute),
    ("gpm", GallonPerMinute),
    ("cubic feet per minute", CubicFootPerMinute),
    ("c f m", CubicFootPerMinute),
    ("liters a second", LitrePerSecond),
    ("liters per second", LitrePerSecond),
    ("l s", LitrePerSecond),
    ("kilopascals", Kilopascal),
    ("kilopascal", Kilopascal),
    ("kpa", Kilopascal),
    ("k p a", Kilopascal),
    ("ohms", Ohm),
    ("ohm", Ohm),
    ("milliamps", Milliampere),
    ("milliamp", Milliampere),
    ("parts per million", PartsPerMillion),
    ("ppm", PartsPerMillion),
    ("air changes an hour", AirChangesPerHour),
    ("air changes per hour", AirChangesPerHour),
    ("air changes", AirChangesPerHour),
    ("seconds", Second),
    ("pounds of pressure", Psi),
    ("percent rh", Percent),
    ("percent humidity", Percent),
    ("tons", Tonne),
    ("kgs", Kilogram),
    ("newtons", Newton),
    ("newton", Newton),
    ("decibels", Decibel),
    ("db", Decibel),
    ("millibar", Millibar),
    ("millibars", Millibar),
    ("m³ h", CubicMetrePerHour),
    ("btu", BtuPerHour),
    ("btus", BtuPerHour),
    ("degrees celsius", Celsius),
    ("degrees centigrade", Celsius),
    ("degrees c", Celsius),
    ("°c", Celsius),
    ("celsius", Celsius),
    ("degrees fahrenheit", Fahrenheit),
    ("degrees f", Fahrenheit),
    ("°f", Fahrenheit),
    ("fahrenheit", Fahrenheit),
    ("degrees", Degree),
    ("degree", Degree),
    ("per cent", Percent),
    ("percent", Percent),
    ("%", Percent),
    ("millimetres", Millimetre),
    ("millimetre", Millimetre),
    ("millimeters", Millimetre),
    ("millimeter", Millimetre),
    ("mil", Millimetre),
    ("mils", Millimetre),
    ("mill", Millimetre),
    ("mills", Millimetre),
    ("mm", Millimetre),
    ("centimetres", Centimetre),
    ("centimetre", Centimetre),
    ("centimeters", Centimetre),
    ("centimeter", Centimetre),
    ("cm", Centimetre),
    ("metres", Metre),
    ("metre", Metre),
    ("meters", Metre),
    ("meter", Metre),
    ("m", Metre),
    ("inches", Inch),
    ("inch", Inch),
    ("in", Inch),
    ("\"", Inch),
    ("feet", Foot),
    ("foot", Foot),
    ("ft", Foot),
    ("kilograms", Kilogram),
    ("kilos", Kilogram),
    ("kilo", Kilogram),
    ("kg", Kilogram),
    ("pounds per square inch", Psi),
    ("psi", Psi),
    ("p s i", Psi),
    ("pounds", Pound),
    ("pound", Pound),
    ("lbs", Pound),
    ("lb", Pound),
    ("tonnes", Tonne),
    ("tonne", Tonne),
    ("litres", Litre),
    ("litre", Litre),
    ("liters", Litre),
    ("gallons", Gallon),
    ("gallon", Gallon),
    ("bar", Bar),
    ("pascals", Pascal),
    ("pascal", Pascal),
    ("watts", Watt),
    ("watt", Watt),
    ("kilowatts", Kilowatt),
    ("kilowatt", Kilowatt),
    ("kw", Kilowatt),
    ("volts", Volt),
    ("volt", Volt),
    ("amps", Ampere),
    ("amp", Ampere),
    ("megohms", Megohm),
    ("megohm", Megohm),
    ("megs", Megohm),
    ("meg", Megohm),
    ("lux", Lux),
    ("minutes", Minute),
    ("minute", Minute),
    ("hours", Hour),
    ("hour", Hour),
    ("days", Day),
    ("day", Day),
    ("weeks", Week),
    ("week", Week),
    ("months", Month),
    ("month", Month),
    ("coats", Coat),
    ("coat", Coat),
];

impl Unit {
    /// The unit that the words begin with, and how many words it takes.
    pub(crate) fn said<'w>(word: impl Fn(usize) -> Option<&'w str>) -> Option<(Self, usize)> {
        SAID.iter()
            .filter_map(|(said, unit)| {
                let words = said.split(' ');
                let count = words.clone().count();
                let all = words.enumerate().all(|(i, said)| word(i) == Some(said));
                all.then_some((*unit, count))
            })
            .max_by_key(|(_, count)| *count)
    }

    /// Whether it measures a length.
    #[must_use]
    pub fn is_length(self) -> bool {
        matches!(self, Millimetre | Centimetre | Metre | Inch | Foot)
    }

    /// Whether it measures time.
    #[must_use]
    pub fn is_time(self) -> bool {
        matches!(self, Second | Minute | Hour | Day | Week | Month)
    }

    /// How it is printed: `mm`, `sq m`, `% `.
    #[must_use]
    pub fn sign(self) -> &'static str {
        match self {
            Self::None => "",
            Millimetre => "mm",
            Centimetre => "cm",
            Metre => "m",
            Inch => "in",
            Foot => "ft",
            Percent => "%",
            Celsius => "C",
            Fahrenheit => "F",
            Degree => "degrees",
            Kilogram => "kg",
            Pound => "lb",
            Tonne => "t",
            SquareMetre => "sq m",
            SquareFoot => "sq ft",
            Litre => "l",
            Gallon => "gal",
            Bar => "bar",
            Psi => "psi",
            Pascal => "Pa",
            CubicFootPerMinute => "cfm",
            LitrePerSecond => "l/s",
            CubicMetrePerHour => "m3/h",
            BtuPerHour => "Btu/h",
            Watt => "W",
            Kilowatt => "kW",
            Volt => "V",
            Ampere => "A",
            Megohm => "megohm",
            Newton => "N",
            Decibel => "dB",
            Millibar => "mbar",
            Lux => "lux",
            LitrePerMinute => "l/min",
            GallonPerMinute => "gpm",
            Kilopascal => "kPa",
            Ohm => "ohm",
            Milliampere => "mA",
            PartsPerMillion => "ppm",
            AirChangesPerHour => "air changes/h",
            Second => "s",
            Minute => "min",
            Hour => "h",
            Day => "days",
            Week => "weeks",
            Month => "months",
            Coat => "coats",
        }
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.sign())
    }
}
