//! The starter library: build-ups that a finish phase usually needs.

use std::{collections::BTreeMap, sync::OnceLock};

use serde::Deserialize;

use crate::{
    build_up::BuildUp,
    checks,
    document::parse,
    faults::{Faults, Gathering},
    id::Id,
    schema::library_schema,
    walk::Walk,
};

/// The files of the library: name and text.
static FILES: &[(&str, &str)] = include!(concat!(env!("OUT_DIR"), "/library.rs"));

/// The build-ups that come with the program.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Library {
    /// The build-ups by key.
    pub build_ups: BTreeMap<Id, BuildUp>,
}

impl Library {
    /// The library, read once.
    #[must_use]
    pub fn starter() -> &'static Self {
        static LIBRARY: OnceLock<Library> = OnceLock::new();
        LIBRARY.get_or_init(|| Self {
            // The program's own tests keep every file free of faults; a faulty one gives nothing.
            build_ups: FILES
                .iter()
                .filter_map(|(name, text)| read_build_ups(name, text).ok())
                .flatten()
                .collect(),
        })
    }

    /// The build-up of that key.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&BuildUp> {
        self.build_ups.get(key)
    }

    /// The files of the library: name and text, for those who want to read or copy them.
    #[must_use]
    pub fn files() -> &'static [(&'static str, &'static str)] {
        FILES
    }
}

/// Reads a file of build-ups: one `[key]` table of [`BuildUp`] after the other.
///
/// # Errors
/// Everything that is wrong with the file; advice alone is no error.
pub fn read_build_ups(name: &str, text: &str) -> Result<BTreeMap<Id, BuildUp>, Faults> {
    let mut faults = Gathering::new(name, text);
    let Some(mut root) = parse(text, &mut faults) else {
        return Err(faults.finish());
    };
    let mut walk = Walk::new(library_schema(), &mut faults);
    walk.document(&mut root);
    let mended = std::mem::take(&mut walk.mended);
    match BTreeMap::<Id, BuildUp>::deserialize(toml::Deserializer::from(root.clone())) {
        Ok(build_ups) => {
            checks::build_up_file(&build_ups, &root, &mended, &mut faults);
            let faults = faults.finish();
            if faults.has_errors() {
                Err(faults)
            } else {
                Ok(build_ups)
            }
        }
        Err(error) => {
            crate::read::note_unread(&error, &mut faults);
            Err(faults.finish())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_library_file_reads_without_fault() {
        for (name, text) in FILES {
            if let Err(faults) = read_build_ups(name, text) {
                panic!("{faults}");
            }
        }
    }

    #[test]
    fn no_build_up_of_the_library_hides_another() {
        let count: usize = FILES
            .iter()
            .filter_map(|(name, text)| read_build_ups(name, text).ok())
            .map(|all| all.len())
            .sum();
        assert_eq!(count, Library::starter().build_ups.len());
    }

    #[test]
    fn the_library_holds_what_a_finish_phase_needs() {
        assert!(
            Library::starter().build_ups.len() >= 30,
            "{}",
            Library::starter().build_ups.len()
        );
    }

    #[test]
    fn every_default_of_the_library_is_traced_to_a_source() {
        for (key, build_up) in &Library::starter().build_ups {
            for layer in &build_up.layers {
                let source = layer.source.as_ref().or(build_up.source.as_ref());
                let text = source.map_or("", |source| source.text.trim());
                assert!(!text.is_empty(), "{key}/{} has no source", layer.id);
            }
        }
    }

    #[test]
    fn every_wet_layer_of_the_library_says_how_long_it_dries() {
        for (key, build_up) in &Library::starter().build_ups {
            for layer in build_up.layers.iter().filter(|layer| layer.wet) {
                let waits = [layer.recoat, layer.cover, layer.cure];
                assert!(
                    waits.iter().any(Option::is_some),
                    "{key}/{} never dries",
                    layer.id
                );
            }
        }
    }
}
