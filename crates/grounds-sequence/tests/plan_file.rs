//! A plan as a file: what it names, and what is refused when it is read back.

mod house;

use grounds_sequence::{PlanFile, PlanFileError};
use house::small::plastered_room;

const MONDAY: &str = "2027-06-07 08:00";

#[test]
fn a_plan_file_names_the_layer_of_each_coat() {
    let house = plastered_room();
    let file = PlanFile::of(&house.planned(MONDAY).outlook, &house.job());

    let base = file.work.iter().find(|work| work.id == "room.walls/base");
    let named = base.map(|work| (work.layer.as_deref(), work.face.as_deref()));
    assert_eq!(named, Some((Some("base"), Some("walls"))));
}

#[test]
fn work_that_stands_twice_in_a_plan_file_is_refused() {
    let house = plastered_room();
    let mut file = PlanFile::of(&house.planned(MONDAY).outlook, &house.job());
    let first = file.work[0].clone();
    file.work.push(first.clone());

    let refused = file.verify(&house.network(MONDAY));
    assert_eq!(refused, Err(PlanFileError::Twice(first.id)));
}

#[test]
fn a_time_off_the_quarter_hour_is_refused() {
    let house = plastered_room();
    let mut file = PlanFile::of(&house.planned(MONDAY).outlook, &house.job());
    file.work[0].start = "2027-06-07T08:07:00+01:00".to_owned();

    let refused = file.verify(&house.network(MONDAY));
    assert!(
        matches!(refused, Err(PlanFileError::Time { .. })),
        "{refused:?}"
    );
}
