//! Names that things in a job are referred to by.

use std::{borrow::Borrow, fmt};

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

macro_rules! text_key {
    ($(#[$doc:meta])* $name:ident, $format:literal) => {
        $(#[$doc])*
        #[derive(
            Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
        )]
        #[serde(transparent)]
        #[schemars(extend("format" = $format))]
        pub struct $name(pub String);

        impl $name {
            /// The text as written.
            #[must_use]
            pub fn as_str(&self) -> &str {
                &self.0
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&self.0)
            }
        }

        impl Borrow<str> for $name {
            fn borrow(&self) -> &str {
                &self.0
            }
        }

        impl From<&str> for $name {
            fn from(text: &str) -> Self {
                Self(text.to_owned())
            }
        }

        impl From<String> for $name {
            fn from(text: String) -> Self {
                Self(text)
            }
        }
    };
}

text_key!(
    /// The key of one thing: lower-case letters, digits and hyphens, `stair-hall`.
    ///
    /// Places, passages, pieces, openings, holds, milestones, decisions, trades, control lines and
    /// lines by hand share one namespace, so that a [`Ref`] needs no prefix.
    Id,
    "id"
);

text_key!(
    /// What a note, a wait or a piece points at.
    ///
    /// | form | points at |
    /// |---|---|
    /// | `stair-hall.walls/finish` | a layer of a face |
    /// | `stair-hall.walls` | all layers of a face |
    /// | `stair-glass` | the place, piece, opening, hold, milestone, decision, passage, trade, control line or line of that key |
    Ref,
    "ref"
);

text_key!(
    /// Layers in the same place, chosen by face and by layer: `wall:plaster`, `any:wet`,
    /// `ceiling:*`, `floor:boards`.
    ///
    /// Before the colon: `floor`, `wall`, `ceiling`, `soffit` or `any`. After it: a layer key, a
    /// material, `wet`, `dusty` or `*`.
    Selector,
    "selector"
);

/// A layer on a face: the finest thing that work is done on.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LayerKey {
    /// The place.
    pub place: Id,
    /// The face in that place.
    pub face: Id,
    /// The layer in the face's build-up.
    pub layer: Id,
}

impl fmt::Display for LayerKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}.{}/{}", self.place, self.face, self.layer)
    }
}
