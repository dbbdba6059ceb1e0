//! Every case folder reads without fault, and its plan is proved.

#![allow(
    clippy::unwrap_used,
    reason = "a test folder that cannot be read is a fault of the test"
)]

mod house;

use house::{House, cases};

/// Cases about something that cannot be met, and what is said of it.
const CANNOT_BE_MET: [(&str, &str); 0] = [];

#[test]
fn every_case_is_planned_and_proved() {
    let mut seen = 0;
    for entry in std::fs::read_dir(cases()).unwrap() {
        let folder = entry.unwrap().path();
        let name = folder.file_name().unwrap().to_string_lossy().into_owned();
        let house = House::folder(&folder);
        let planned = house.planned_at(house.last_word(), None);
        match CANNOT_BE_MET.iter().find(|(case, _)| *case == name) {
            Some((_, said)) => house::assert_says(&planned.troubles().join(" "), &[said]),
            None => planned.assert_proved(),
        }
        assert!(
            planned.outlook.network.open().count() > 0,
            "{name} has nothing left to do"
        );
        seen += 1;
    }
    assert!(seen >= 12, "only {seen} cases are there");
}
