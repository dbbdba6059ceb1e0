//! What every measure shares: it is one short string in text, in documents and in schemas.

use super::Scanner;
use crate::error::{Fault, LONGEST, MeasureError};

/// A measure that is written as one short string.
pub(crate) trait Written: Sized {
    /// What it is called in errors.
    const WHAT: &'static str;
    /// Good examples, as the end of "write …".
    const EXAMPLE: &'static str;

    /// Reads the measure at the cursor and leaves the cursor after it.
    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault>;
}

/// Reads a whole text with `read`: nothing but blanks may stand before or after.
pub(crate) fn read_whole<T: Written>(
    text: &str,
    read: impl FnOnce(&mut Scanner<'_>) -> Result<T, Fault>,
) -> Result<T, MeasureError> {
    let mut scan = Scanner::new(text);
    let result = within_length(text, &scan).and_then(|()| {
        scan.skip_space();
        let value = read(&mut scan)?;
        scan.skip_space();
        if scan.at_end() {
            Ok(value)
        } else {
            Err(scan.fault("nothing more"))
        }
    });
    result.map_err(|fault| MeasureError::new(T::WHAT, T::EXAMPLE, text, fault))
}

/// Refuses overlong texts before anything else looks at them.
fn within_length(text: &str, scan: &Scanner<'_>) -> Result<(), Fault> {
    match text.char_indices().nth(LONGEST) {
        Some((at, _)) => Err(scan.fault_at(at, format!("at most {LONGEST} characters"))),
        None => Ok(()),
    }
}

/// Gives a [`Written`] type its `FromStr`, `Serialize`, `Deserialize` and `JsonSchema`: a string
/// with a format.
macro_rules! written_as_string {
    ($type:ty, $name:literal, $format:literal) => {
        impl std::str::FromStr for $type {
            type Err = crate::MeasureError;

            fn from_str(text: &str) -> Result<Self, Self::Err> {
                crate::reading::read_whole(text, <Self as crate::reading::Written>::read)
            }
        }

        impl serde::Serialize for $type {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.collect_str(self)
            }
        }

        impl<'de> serde::Deserialize<'de> for $type {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                struct Text;
                impl serde::de::Visitor<'_> for Text {
                    type Value = $type;

                    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                        write!(f, "text in quotes: {}", <$type as crate::reading::Written>::EXAMPLE)
                    }

                    fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<Self::Value, E> {
                        text.parse().map_err(E::custom)
                    }
                }
                deserializer.deserialize_str(Text)
            }
        }

        impl schemars::JsonSchema for $type {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                $name.into()
            }

            fn schema_id() -> std::borrow::Cow<'static, str> {
                concat!("grounds_measure::", $name).into()
            }

            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                schemars::json_schema!({
                    "type": "string",
                    "format": $format,
                    "description": format!("Write {}.", <$type as crate::reading::Written>::EXAMPLE),
                })
            }
        }
    };
}
pub(crate) use written_as_string;
