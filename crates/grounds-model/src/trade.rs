//! Trades: who works, with how many crews, when and for how much.

use grounds_measure::{Money, Percent};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{id::Id, place::is_false};

/// A trade on the job.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Trade {
    /// What everyone calls it.
    pub name: String,
    /// Other names it goes by on site.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub aliases: Vec<String>,
    /// Crews that can work at the same time.
    #[serde(default = "one")]
    pub crews: u32,
    /// People in a crew.
    #[serde(default = "one")]
    pub people: u32,
    /// The calendar it works by, where it is not the job's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub calendar: Option<Id>,
    /// Cost of one person for an hour.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rate: Option<Money>,
    /// What an hour beyond the usual ones costs, as a share of a usual one: `150 %` is time and a
    /// half, which is taken where nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub overtime: Option<Percent>,
    /// Cost of one more return to site.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub return_cost: Option<Money>,
    /// Its work as low and high share of the likely time, in percent, where a layer says nothing:
    /// `[80, 150]`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spread: Option<[u32; 2]>,
    /// An inspector or other authority, not a crew that is hired.
    #[serde(default, skip_serializing_if = "is_false")]
    pub authority: bool,
    /// Who to ring, and how.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub contact: Option<Contact>,
}

/// Who to ring, and how.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Contact {
    /// A person's name.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// A telephone number.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub phone: Option<String>,
    /// An e-mail address.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub email: Option<String>,
}

fn one() -> u32 {
    1
}
