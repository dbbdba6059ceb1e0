//! A note that changes nothing reshuffles nothing, and a small one moves little.

mod house;

use grounds_site::Kind;
use house::{
    House, Planned,
    small::{COATED, PLASTERED, face, house},
};

/// Six trades' work in three places.
fn busy() -> House {
    let pieces: String = ["hall", "room", "bath"]
        .map(|place| {
            format!(
                "[pieces.{place}-mirror]\nname = \"Mirror\"\ntrade = \"glass\"\nplace = \"{place}\"\n\
                 takes = \"2 h\"\nafter = [\"{place}.walls/paint\"]\n"
            )
        })
        .concat();
    house(&[
        PLASTERED,
        COATED,
        &face("hall", "walls", "wall", "plastered"),
        &face("room", "walls", "wall", "plastered"),
        &face("bath", "walls", "wall", "plastered"),
        &face("room", "floor", "floor", "coated"),
        &face("bath", "floor", "floor", "coated"),
        &pieces,
    ])
}

fn starts(plan: &Planned) -> Vec<(String, String)> {
    let tasks = &plan.outlook.network.tasks;
    tasks
        .iter()
        .map(|task| (task.key.clone(), plan.start(&task.key)))
        .collect()
}

const MONDAY: &str = "2027-06-07 08:00";

#[test]
fn a_remark_moves_nothing() {
    let first = busy().planned(MONDAY);
    let noted = busy().noted_words("2027-06-07 08:00", "room", Kind::Remark, "radio too loud");
    let second = noted.planned_after(MONDAY, &first);

    assert_eq!(starts(&first), starts(&second));
}

#[test]
fn the_same_job_is_planned_the_same_way() {
    assert_eq!(
        starts(&busy().planned(MONDAY)),
        starts(&busy().planned(MONDAY))
    );
}

#[test]
fn work_that_goes_as_planned_keeps_the_plan() {
    let first = busy().planned(MONDAY);
    let base = ["hall", "room", "bath"]
        .map(|place| format!("{place}.walls/base"))
        .into_iter()
        .min_by_key(|key| first.start_tick(key))
        .expect("three coats");
    let noted = busy()
        .noted("2027-06-07 08:00", &base, Kind::Started)
        .noted("2027-06-07 12:00", &base, Kind::Done);
    let second = noted.planned_after("2027-06-07 12:00", &first);

    let now = second.outlook.network.now_tick();
    for (key, start) in starts(&first) {
        if first.start_tick(&key) >= now {
            assert_eq!(second.start(&key), start, "{key}");
        }
    }
}

#[test]
fn the_order_of_a_plan_survives_as_text() {
    let first = busy().planned(MONDAY);
    let mut known = first.outlook.known();
    known.order.push("no.such/thing".to_owned());
    let now = busy().timestamp(MONDAY);
    let second = busy().planned_at(now, Some(&known));

    assert_eq!(starts(&first), starts(&second));
}
