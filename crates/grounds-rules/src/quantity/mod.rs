//! Quantities with their units: typed in formulas, read and printed as the trade writes them.
//!
//! Formulas are written in the types of `uom`, so that a length divided by a time is a speed and
//! nothing else. Every type here is kept in the coherent unit of the SI (metres, seconds, kelvins,
//! pascals …), its *base*; texts carry the units of the trade, metric and American.

mod kinds;
mod read;
mod show;

pub use read::Misread;
pub(crate) use read::shown;
pub use show::Show;

use std::marker::PhantomData;

use grounds_measure::Units;
use uom::si::f64 as si;

/// A length.
pub type Length = si::Length;
/// An area.
pub type Area = si::Area;
/// A volume.
pub type Volume = si::Volume;
/// A mass, what the trade calls a weight.
pub type Mass = si::Mass;
/// Mass over an area.
pub type ArealMass = si::ArealMassDensity;
/// Mass in a volume: of glass, of dust in air.
pub type Density = si::MassDensity;
/// A time by the clock.
pub type Time = si::Time;
/// A temperature.
pub type Temperature = si::ThermodynamicTemperature;
/// A difference of temperatures.
pub type Difference = si::TemperatureInterval;
/// A share, a slope, a relative humidity, a moisture content.
pub type Ratio = si::Ratio;
/// Air or water moved.
pub type Flow = si::VolumeRate;
/// A speed.
pub type Speed = si::Velocity;
/// A pressure, or a load over an area.
pub type Pressure = si::Pressure;
/// Power.
pub type Power = si::Power;
/// Power over an area.
pub type HeatFlux = si::HeatFluxDensity;
/// Power along a length.
pub type LinearPower = si::LinearPowerDensity;
/// An electric current.
pub type Current = si::ElectricCurrent;
/// An electric potential.
pub type Voltage = si::ElectricPotential;
/// An electric resistance.
pub type Resistance = si::ElectricalResistance;
/// A force.
pub type Force = si::Force;
/// Force along a length. (`uom` has no name of its own for it: J/m² has the same dimension.)
pub type LineLoad = si::RadiantExposure;
/// The moment of a force. (Of the dimension of an energy, as force times length gives it.)
pub type Moment = si::Energy;
/// Light sent out in one direction.
pub type Intensity = si::LuminousIntensity;
/// Light that falls on a surface, 1 lx = 1 cd/m². (The solid angle is counted as a plain number.)
pub type Illuminance = si::Luminance;

/// A plain number: how many, or a factor.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Number(pub f64);

/// What a kind of quantity is called, and how it is read and printed.
#[derive(Debug)]
pub struct Kind {
    /// Its name: `flow of air or water`.
    pub name: &'static str,
    /// Well-formed examples, as the end of "write …".
    pub example: &'static str,
    /// The units that are read.
    units: &'static [Unit],
    /// The units it is printed in for metric jobs, the largest first, each with the least base it
    /// is used from.
    metric: &'static [(&'static str, f64)],
    /// The same for jobs in feet and inches.
    imperial: &'static [(&'static str, f64)],
    /// Reads what a number and a unit cannot say, such as feet and inches.
    reader: Option<fn(&str) -> Option<f64>>,
}

/// A unit of some kind: base = (number + before) × each.
#[derive(Debug)]
struct Unit {
    spellings: &'static [&'static str],
    each: f64,
    before: f64,
}

impl Kind {
    /// Reads a text such as `400 cfm`; gives its base.
    ///
    /// # Errors
    /// What is wrong with the text and how to write it.
    pub fn read(&self, text: &str) -> Result<f64, Misread> {
        read::read(self, text)
    }

    /// Prints a base in the units of a job, with the digits that mean something in its unit.
    #[must_use]
    pub fn show(&self, base: f64, units: Units) -> String {
        show::show(self, base, units)
    }

    /// Prints a base with more figures, to tell apart what would read alike.
    pub(crate) fn show_finely(&self, base: f64, units: Units) -> String {
        show::show_finely(self, base, units)
    }

    /// The names of the units that are read.
    pub fn unit_names(&self) -> impl Iterator<Item = &'static str> {
        self.units
            .iter()
            .filter_map(|unit| unit.spellings.first().copied())
    }
}

/// The kind of quantity of that name.
#[must_use]
pub fn kind_named(name: &str) -> Option<&'static Kind> {
    KINDS.iter().copied().find(|kind| kind.name == name)
}

/// A type of quantity: what it is called, and its number in the base unit.
pub trait Quantity: Copy + Show + 'static {
    /// What it is called, and how it is read and printed.
    const KIND: &'static Kind;
    /// The quantity of so many base units.
    fn of_base(base: f64) -> Self;
    /// The number of base units.
    fn base(self) -> f64;
}

macro_rules! quantities {
    ($($name:ident $kind:ident)*) => {
        static KINDS: &[&Kind] = &[&kinds::NUMBER, $(&kinds::$kind),*];
        $(
        impl Quantity for $name {
            const KIND: &'static Kind = &kinds::$kind;

            fn of_base(base: f64) -> Self {
                Self { dimension: PhantomData, units: PhantomData, value: base }
            }

            fn base(self) -> f64 {
                self.value
            }
        }
        )*
    };
}

quantities! {
    Length LENGTH
    Area AREA
    Volume VOLUME
    Mass MASS
    ArealMass AREAL_MASS
    Density DENSITY
    Time TIME
    Temperature TEMPERATURE
    Difference DIFFERENCE
    Ratio RATIO
    Flow FLOW
    Speed SPEED
    Pressure PRESSURE
    Power POWER
    HeatFlux HEAT_FLUX
    LinearPower LINEAR_POWER
    Current CURRENT
    Voltage VOLTAGE
    Resistance RESISTANCE
    Force FORCE
    LineLoad LINE_LOAD
    Moment MOMENT
    Intensity INTENSITY
    Illuminance ILLUMINANCE
}

impl Quantity for Number {
    const KIND: &'static Kind = &kinds::NUMBER;

    fn of_base(base: f64) -> Self {
        Self(base)
    }

    fn base(self) -> f64 {
        self.0
    }
}

/// The quantity that a text of our own states; nothing (zero) where it states none. Every such text
/// is read by a test.
pub(crate) fn fixed<Q: Quantity>(text: &str) -> Q {
    Q::of_base(Q::KIND.read(text).unwrap_or_default())
}

/// A difference of two temperatures.
#[must_use]
pub fn difference(warm: Temperature, cold: Temperature) -> Difference {
    Difference::of_base(warm.base() - cold.base())
}

/// A temperature in degrees Celsius.
#[must_use]
pub fn celsius(temperature: Temperature) -> f64 {
    temperature.base() - 273.15
}

/// The temperature of so many degrees Celsius.
#[must_use]
pub fn of_celsius(degrees: f64) -> Temperature {
    Temperature::of_base(degrees + 273.15)
}

/// The larger of two.
#[must_use]
pub fn larger<Q: Quantity>(one: Q, other: Q) -> Q {
    if one.base() >= other.base() {
        one
    } else {
        other
    }
}

/// The smaller of two.
#[must_use]
pub fn smaller<Q: Quantity>(one: Q, other: Q) -> Q {
    if one.base() <= other.base() {
        one
    } else {
        other
    }
}
