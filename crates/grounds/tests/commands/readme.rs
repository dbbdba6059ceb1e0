//! The README tells the truth about the program.

use std::fs;

use crate::running::{grounds, root};

fn readme() -> String {
    fs::read_to_string(root().join("README.md")).unwrap()
}

/// Every command with a prompt, and what the README shows under it.
fn tour() -> Vec<(String, String)> {
    let text = readme();
    let mut steps = Vec::new();
    for block in text.split("```").skip(1).step_by(2) {
        let Some((command, shown)) = block
            .split_once("\n$ ")
            .and_then(|(_, rest)| rest.split_once('\n'))
        else {
            continue;
        };
        steps.push((command.to_owned(), shown.to_owned()));
    }
    steps
}

#[test]
fn every_command_of_the_tour_prints_what_the_readme_shows() {
    let steps = tour();
    assert!(steps.len() >= 4, "{steps:?}");
    for (command, shown) in steps {
        let arguments: Vec<String> = command
            .strip_prefix("grounds ")
            .unwrap_or_else(|| panic!("{command} is no command of grounds"))
            .split_whitespace()
            .map(|word| match word.strip_prefix("examples/") {
                Some(name) => crate::running::example(name),
                None => word.to_owned(),
            })
            .collect();
        let ended = grounds(&arguments);
        let mend = "show it anew with: cargo xtask readme";
        assert_eq!(ended.out.trim(), shown.trim(), "{command}; {mend}");
    }
}

#[test]
fn the_pictures_of_the_readme_are_there() {
    let text = readme();
    let pictures: Vec<&str> = text
        .split("docs/pictures/")
        .skip(1)
        .filter_map(|rest| rest.split(['"', ')']).next())
        .collect();
    assert!(!pictures.is_empty());
    for picture in pictures {
        let size = fs::metadata(root().join("docs/pictures").join(picture)).map(|file| file.len());
        assert!(
            size.is_ok_and(|size| size > 10_000),
            "{picture} is missing: cargo xtask pictures"
        );
    }
}
