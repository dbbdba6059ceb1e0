//! Build-ups: the layers that a face gets, in order.

use grounds_measure::{
    Coverage, Humidity, HumidityRange, Money, Percent, Rate, Span, Temperature, TemperatureRange,
    Thickness,
};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{
    id::{Id, Selector},
    material::Material,
    place::is_false,
};

/// A stack of layers, from the structure outwards.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BuildUp {
    /// What everyone calls it.
    pub name: String,
    /// The layers, structure side first.
    pub layers: Vec<Layer>,
    /// Where its defaults come from, if they are not stated layer by layer.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source: Option<Source>,
}

/// Where a default comes from, and how far it can be trusted.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Source {
    /// How far it can be trusted.
    pub grade: Grade,
    /// The document, table or page; for common practice, what it is usual in.
    pub text: String,
}

/// How far a default can be trusted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Grade {
    /// Stands in the named publication.
    Published,
    /// Recalled from the named publication, not looked up.
    Memory,
    /// Common practice; nobody in particular says so.
    Practice,
    /// The maker's data sheet for this job.
    Maker,
}

/// How long a layer keeps people off, from the closing moment on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Traffic {
    /// Until socks may cross, after the finish.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub socks: Option<Span>,
    /// Until boots and tools may cross, after the finish.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub boots: Option<Span>,
    /// Until trolleys, appliances and stone may cross, after the finish.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub heavy: Option<Span>,
    /// Open while it is worked on; otherwise it is shut from the start of the work.
    #[serde(default, skip_serializing_if = "is_false")]
    pub open_while_working: bool,
}

/// The air that the waits of a layer are given for, by its maker.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Dries {
    /// Its temperature; 21 °C (70 °F) where nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<Temperature>,
    /// Its humidity; 50 % where nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub humidity: Option<Humidity>,
    /// The share of a wait that is the least whatever the air, as the maker says; all of it where nothing
    /// is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub least: Option<Percent>,
}

impl Layer {
    /// The air that its waits are given for, if it dries by giving off water to the air: plaster and
    /// paint, and whatever says so. Lime takes up gas, oils harden, mortars set: their waits go by their
    /// limits alone.
    #[must_use]
    pub fn dries(&self) -> Option<Dries> {
        let by_water = matches!(self.material, Material::Plaster | Material::Paint);
        self.dries.or(by_water.then(Dries::default))
    }
}

/// One layer of a build-up: what one trade does in one go.
///
/// Work is `set_up` plus area (or length, or count) over `rate`; or `takes`, a fixed time.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Layer {
    /// Its key within the build-up.
    pub id: Id,
    /// What everyone calls it.
    pub name: String,
    /// What it is made of.
    pub material: Material,
    /// Who does it.
    pub trade: Id,
    /// How thick it ends up, with tolerance; nothing for work that adds no thickness.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thickness: Option<Thickness>,
    /// Lies between the framing or beside another layer: its thickness does not move the face.
    #[serde(default, skip_serializing_if = "is_false")]
    pub between: bool,
    /// Work of one crew in an hour.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rate: Option<Rate>,
    /// Time to set up, on top of the rate.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub set_up: Option<Span>,
    /// A fixed time instead of a rate.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub takes: Option<Span>,
    /// People in the crew for it, where it differs from the trade's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub people: Option<u32>,
    /// Must not stop overnight.
    #[serde(default, skip_serializing_if = "is_false")]
    pub unbroken: bool,
    /// Wait before the next coat of the same material.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub recoat: Option<Span>,
    /// Wait before anything else goes on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cover: Option<Span>,
    /// Until it is fully cured.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cure: Option<Span>,
    /// The air that its waits are given for, where it dries by giving off water: in colder or damper air
    /// they take longer. Plasters and paints dry so without this.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dries: Option<Dries>,
    /// The next layer must have begun within this time of the finish.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub latest_recoat: Option<Span>,
    /// How long it keeps people off the floor.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub traffic: Option<Traffic>,
    /// Brings water into the house.
    #[serde(default, skip_serializing_if = "is_false")]
    pub wet: bool,
    /// Fills the air with dust.
    #[serde(default, skip_serializing_if = "is_false")]
    pub dusty: bool,
    /// Needs still, dust-free air from its start until this long after its finish.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub still: Option<Span>,
    /// Temperature limits for its work and its drying; hours outside do not count.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature: Option<TemperatureRange>,
    /// Humidity limits for its work and its drying; hours outside do not count.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub humidity: Option<HumidityRange>,
    /// What must be done in the same place before it starts, beside the layers under it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub after: Vec<Selector>,
    /// Done last: after everybody who must cross its place.
    #[serde(default, skip_serializing_if = "is_false")]
    pub last: bool,
    /// Easily spoiled by other crews once it is done.
    #[serde(default, skip_serializing_if = "is_false")]
    pub fragile: bool,
    /// Protects what is under it (hard board, felt); taken up again before the next layer.
    #[serde(default, skip_serializing_if = "is_false")]
    pub protective: bool,
    /// What must be seen of it before it is covered: photos, readings, papers; `[]` for nothing. Left
    /// out: what is usual, which is a photo of services, waterproofing and fixings.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub evidence: Option<Vec<String>>,
    /// Area or length that one unit of material covers.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub coverage: Option<Coverage>,
    /// What is lost in cutting and mixing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub waste: Option<Percent>,
    /// How it is sold: `20 L`, `50 lb bag`, `2.88 m2 box`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pack: Option<String>,
    /// Price of one pack.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price: Option<Money>,
    /// Its work as low and high share of the likely time, in percent: `[80, 150]`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spread: Option<[u32; 2]>,
    /// Where its figures come from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source: Option<Source>,
}
