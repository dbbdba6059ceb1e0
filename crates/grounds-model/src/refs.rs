//! How keys, references and selectors are written, and what they are taken apart into.

use crate::{
    id::{Id, Ref, Selector},
    material::Material,
    place::FaceKind,
    text::TextError,
};

/// The longest key.
const LONGEST_ID: usize = 60;

const ID_EXAMPLE: &str = "lower-case letters, digits and hyphens like stair-hall";
const REF_EXAMPLE: &str =
    "a key like stair-glass, a face like stair-hall.walls or a layer like stair-hall.walls/finish";
const SELECTOR_EXAMPLE: &str =
    "a face and a layer like wall:plaster, any:wet, ceiling:* or floor:boards";

impl Id {
    /// Whether the text is a key: letters `a`–`z`, digits and single hyphens, beginning with a
    /// letter or a digit, at most 60 characters.
    ///
    /// # Errors
    /// Names the first character that may not stand where it does.
    pub fn check(text: &str) -> Result<(), TextError> {
        let fault = |at, expected: &str| TextError::new("key", text, at, expected, ID_EXAMPLE);
        if text.is_empty() {
            return Err(fault(0, "a key"));
        }
        check_key(text).map_err(|(at, expected)| fault(at, expected))
    }
}

fn check_key(text: &str) -> Result<(), (usize, &'static str)> {
    if text.len() > LONGEST_ID {
        return Err((0, "at most 60 characters"));
    }
    let allowed = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-';
    if let Some(at) = text.bytes().position(|byte| !allowed(byte)) {
        return Err((at, "only lower-case letters, digits and hyphens"));
    }
    if text.starts_with('-') || text.ends_with('-') || text.contains("--") {
        return Err((0, "hyphens only between letters or digits"));
    }
    Ok(())
}

/// What a reference looks like, before anybody asks whether the thing exists.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum RefShape<'r> {
    /// One key.
    Key(&'r str),
    /// A face of a place.
    Face(&'r str, &'r str),
    /// A layer of a face of a place.
    Layer(&'r str, &'r str, &'r str),
}

impl Ref {
    /// Whether the text is a reference in one of its three forms.
    ///
    /// # Errors
    /// Names the part that is not a key.
    pub fn check(text: &str) -> Result<(), TextError> {
        let fault =
            |at, expected: &str| TextError::new("reference", text, at, expected, REF_EXAMPLE);
        if text.is_empty() {
            return Err(fault(0, "something to point at"));
        }
        let mut at = 0;
        let shape = shape_of(text);
        let parts: Vec<&str> = match shape {
            RefShape::Key(key) => vec![key],
            RefShape::Face(place, face) => vec![place, face],
            RefShape::Layer(place, face, layer) => vec![place, face, layer],
        };
        for part in parts {
            if part.is_empty() {
                return Err(fault(at, "a key"));
            }
            check_key(part).map_err(|(inside, expected)| fault(at + inside, expected))?;
            at += part.len() + 1;
        }
        Ok(())
    }

    pub(crate) fn shape(&self) -> RefShape<'_> {
        shape_of(self.as_str())
    }
}

fn shape_of(text: &str) -> RefShape<'_> {
    match text.split_once('.') {
        None => RefShape::Key(text),
        Some((place, rest)) => match rest.split_once('/') {
            None => RefShape::Face(place, rest),
            Some((face, layer)) => RefShape::Layer(place, face, layer),
        },
    }
}

/// The layer half of a [`Selector`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum LayerChoice<'s> {
    /// Every layer.
    All,
    /// Layers that bring water.
    Wet,
    /// Layers that raise dust.
    Dusty,
    /// Layers of that key or of that material.
    Named(&'s str, Option<Material>),
}

impl Selector {
    /// Whether the text is a selector: a face, a colon and a layer.
    ///
    /// # Errors
    /// Names the half that is missing or not known.
    pub fn check(text: &str) -> Result<(), TextError> {
        let fault = |at, expected: &str| {
            TextError::new("choice of layers", text, at, expected, SELECTOR_EXAMPLE)
        };
        let (face, layer) = text
            .split_once(':')
            .ok_or_else(|| fault(text.len(), "a colon and a layer"))?;
        if face_choice(face).is_none() {
            return Err(fault(
                0,
                "`floor`, `wall`, `ceiling`, `soffit` or `any` before the colon",
            ));
        }
        let at = face.len() + 1;
        if layer.is_empty() {
            return Err(fault(
                at,
                "a layer, a material, `wet`, `dusty` or `*` after the colon",
            ));
        }
        if layer == "*" {
            return Ok(());
        }
        check_key(layer).map_err(|(inside, expected)| fault(at + inside, expected))
    }

    /// The two halves; nothing if the text is not a selector.
    pub(crate) fn parts(&self) -> Option<(Option<FaceKind>, LayerChoice<'_>)> {
        let (face, layer) = self.as_str().split_once(':')?;
        let layer = match layer {
            "*" => LayerChoice::All,
            "wet" => LayerChoice::Wet,
            "dusty" => LayerChoice::Dusty,
            name => LayerChoice::Named(name, Material::named(name)),
        };
        Some((face_choice(face)?, layer))
    }
}

/// The kind of face that is chosen, with nothing inside for any; nothing if it is not a choice.
fn face_choice(text: &str) -> Option<Option<FaceKind>> {
    Some(match text {
        "any" => None,
        "floor" => Some(FaceKind::Floor),
        "wall" => Some(FaceKind::Wall),
        "ceiling" => Some(FaceKind::Ceiling),
        "soffit" => Some(FaceKind::Soffit),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reference_says_which_part_of_it_is_wrong() {
        for (text, at) in [
            ("", 0),
            ("Stair", 0),
            ("hall.Walls", 5),
            ("hall.walls/", 11),
            ("a.b/c.d", 5),
        ] {
            assert_eq!(Ref::check(text).unwrap_err().at(), at, "{text}");
        }
        for text in ["job", "stair-hall.walls", "stair-hall.walls/coat-2"] {
            assert_eq!(Ref::check(text), Ok(()));
        }
    }

    #[test]
    fn a_selector_names_a_face_and_a_layer() {
        for text in [
            "wall:plaster",
            "any:wet",
            "ceiling:*",
            "floor:boards",
            "soffit:dusty",
        ] {
            assert_eq!(Selector::check(text), Ok(()));
        }
        for (text, at) in [
            ("wall", 4),
            ("roof:tile", 0),
            ("wall:", 5),
            ("wall:Plaster", 5),
        ] {
            assert_eq!(Selector::check(text).unwrap_err().at(), at, "{text}");
        }
    }
}
