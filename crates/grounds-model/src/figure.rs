//! Figures that rules ask for and nothing else in the document states.

use std::{collections::BTreeMap, fmt};

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{id::Id, text::TextError};

/// The longest figure, in characters.
const LONGEST: usize = 80;

/// A figure as it is written: a number with its unit, one of a few words, yes or no. `190 mm`,
/// `600 cfm`, `island`, `yes`; `500..700 cfm` and `~600 cfm` are guesses.
///
/// What a key stands for, and whether the figure suits it, is known to the rules alone.
#[derive(
    Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(transparent)]
#[schemars(extend("format" = "figure"))]
pub struct Figure(pub String);

/// Figures by the key that rules know them by: `duct-diameter = "200 mm"`.
pub type Figures = BTreeMap<Id, Figure>;

impl Figure {
    /// The text as written.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Whether a text may be a figure.
    ///
    /// # Errors
    /// If it is empty, longer than 80 characters, or has an invisible character.
    pub fn check(text: &str) -> Result<(), TextError> {
        let wrong = |at, expected: &str| {
            TextError::new(
                "figure",
                text,
                at,
                expected,
                "a figure like 190 mm, 600 cfm, island or yes",
            )
        };
        if text.trim().is_empty() {
            return Err(wrong(0, "a number with its unit, a word, yes or no"));
        }
        if let Some((at, _)) = text.char_indices().nth(LONGEST) {
            return Err(wrong(at, "at most 80 characters"));
        }
        match text
            .char_indices()
            .find(|(_, c)| crate::text::is_hidden(*c))
        {
            Some((at, _)) => Err(wrong(at, "visible characters only")),
            None => Ok(()),
        }
    }
}

impl fmt::Display for Figure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// Which building code the rules of a job go by, and figures for the whole house.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RulesOfJob {
    /// The building code, a set that comes with the program: `irc-2021`, `ibc-2021`,
    /// `metric-europe`. Left out: by the units of the job.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub code: Option<Id>,
    /// Figures that hold for the whole house, where nothing nearer says otherwise.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub figures: Figures,
    /// Limits of the code that are others for this job, by key.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub changed: BTreeMap<Id, ChangedLimit>,
}

/// A limit of the building code that is another for this job.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ChangedLimit {
    /// The figure that is gone by instead.
    pub is: Figure,
    /// Who allowed it, and why.
    pub why: String,
}

/// What a piece is to the rules that speak of such pieces.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum PieceKind {
    /// A box for switches or outlets in a wall.
    Box,
    /// A door, of timber or of glass.
    Door,
    /// A tumble dryer.
    Dryer,
    /// A fan that draws air from a bathroom.
    Fan,
    /// A grille, register or slot that air goes through.
    Grille,
    /// A guard at an edge: balustrade, rail or pane.
    Guard,
    /// A handrail.
    Handrail,
    /// A hood over a hob.
    Hood,
    /// Something that hangs on a wall or from a ceiling.
    Hung,
    /// A lamp or fan that hangs from a ceiling, or lights a stair.
    Light,
    /// A run of light strip.
    LightStrip,
    /// A mirror fixed flat on its wall.
    Mirror,
    /// Heating that melts snow.
    SnowMelt,
}
