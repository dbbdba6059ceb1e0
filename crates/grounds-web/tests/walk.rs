//! The walk, as the server shows it and as a phone is told of it.

#![allow(
    clippy::unwrap_used,
    reason = "the test fails where something is not as it should be"
)]

mod served;

use axum::http::StatusCode;
use grounds_site::Kind;
use serde_json::Value;
use served::{HOSTILE, House};

const HALL: &str = r##"
format = 1

[job]
name = "NAME"
units = "UNITS"
zone = "Europe/London"
begins = "2026-01-05"
calendar = "week"

[calendars.week]
days = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
hours = ["00:00-24:00"]

[trades.plaster]
name = "Plaster"

[levels.ground]
name = "NAME"
height = "0 mm"

[places.hall]
name = "NAME"
level = "ground"
entrance = true
size = "4 m x 3 m x 2.5 m"
faces.walls = { kind = "wall", build_up = "plastered" }

[places.study]
name = "Study"
level = "ground"
size = "4 m x 3 m x 2.5 m"

[passages.study-door]
kind = "door"
between = ["hall", "study"]

[build_ups.plastered]
name = "Plastered"
layers = [
  { id = "base", name = "NAME", material = "plaster", trade = "plaster", takes = "4 h", thickness = "10 mm" },
  { id = "skim", name = "Skim", material = "plaster", trade = "plaster", takes = "4 h" },
]

[pieces.lamp]
name = "NAME"
trade = "plaster"
place = "hall"
takes = "1 h"
lead = "2 weeks"

[holds.look]
name = "Look at the boxes"
kind = "own-check"
place = "hall"
after = ["hall.walls/base"]
before = ["hall.walls/skim"]
evidence = ["Photo"]

[decisions.colour]
name = "Colour"
by = "Owner"
before = ["hall.walls/skim"]

[openings.niche]
name = "Niche"
place = "hall"
rough = "300 x 600 mm"
"##;

const ONCE: &str = "01974f0c-86a0-7000-8000-000000000001";

async fn hall() -> House {
    House::of(HALL, "The hall", "metric").await
}

async fn told(house: &House) -> Value {
    serde_json::from_str(&house.page("/j/hall/walk.json").await).unwrap()
}

fn said(about: &str, kind: &str) -> String {
    format!("about={about}&kind={kind}&once={ONCE}&back=/j/hall/walk?place=hall")
}

#[tokio::test]
async fn a_phone_is_told_everything_that_it_needs_to_write_by_itself() {
    let house = hall().await;
    let told = told(&house).await;
    let keys: Vec<&str> = told["places"]
        .as_array()
        .unwrap()
        .iter()
        .map(|p| p["key"].as_str().unwrap())
        .collect();
    assert_eq!(keys, ["hall", "study"]);
    let walls = &told["places"][0]["faces"][0];
    assert_eq!(walls["about"], "hall.walls");
    assert_eq!(
        told["stacks"][walls["of"].as_str().unwrap()][0]["id"],
        "base"
    );
    assert_eq!(told["stacks"]["plastered"][0]["mm"], 10);
    assert_eq!(walls["layers"][0]["is"], "next");
    let things = told["places"][0]["things"].as_array().unwrap();
    let abouts: Vec<&str> = things
        .iter()
        .map(|thing| thing["about"].as_str().unwrap())
        .collect();
    assert_eq!(abouts, ["lamp", "look", "niche"]);
    assert_eq!(told["decisions"][0]["about"], "colour");
    assert_eq!(told["says"]["layer"]["taps"]["to-come"][1][0], "done");
    assert_eq!(told["says"]["hold"]["taps"]["to-come"][0][0], "passed");
    assert_eq!(told["who"], Value::Null);
}

#[tokio::test]
async fn every_kind_that_a_phone_may_write_is_a_kind_of_note() {
    let told = told(&hall().await).await;
    for (sort, says) in told["says"].as_object().unwrap() {
        let taps = says["taps"]
            .as_object()
            .unwrap()
            .values()
            .flat_map(|taps| taps.as_array().unwrap());
        for tap in taps.chain(says["more"].as_array().unwrap()) {
            let kind = serde_json::from_value::<Kind>(tap[0].clone());
            assert!(kind.is_ok(), "{sort}: {tap}");
        }
    }
}

#[tokio::test]
async fn the_walk_goes_from_place_to_place_without_script() {
    let house = hall().await;
    let list = house.page("/j/hall/walk").await;
    assert!(list.contains("href=\"/j/hall/walk?place=hall\""), "{list}");
    let place = house.page("/j/hall/walk?place=hall").await;
    assert!(
        place.contains("href=\"/j/hall/walk?place=study\" rel=\"next\""),
        "{place}"
    );
    let (status, _) = house.get("/j/hall/walk?place=nowhere").await;
    assert_eq!(status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn one_press_writes_one_note_and_the_state_follows() {
    let house = hall().await;
    let page = house
        .sent("/j/hall/walk", &said("hall.walls/base", "done"))
        .await;
    assert!(page.contains("class=\"notice good taken\""), "{page}");
    let log = house.log().await;
    assert_eq!(log.len(), 1);
    assert_eq!(
        (log[0].about.as_str(), log[0].kind),
        ("hall.walls/base", Kind::Done)
    );
    house
        .sent("/j/hall/walk", &said("hall.walls/base", "done"))
        .await;
    assert_eq!(house.log().await.len(), 1, "the same press again");
    assert_eq!(
        told(&house).await["places"][0]["faces"][0]["layers"][0]["is"],
        "done"
    );
}

#[tokio::test]
async fn trouble_in_one_press_says_what_it_says() {
    let house = hall().await;
    house.sent("/j/hall/walk", &said("lamp", "problem")).await;
    assert_eq!(house.log().await[0].words.as_deref(), Some("Not right."));
    assert_eq!(
        told(&house).await["places"][0]["things"][0]["trouble"],
        "Not right."
    );
}

#[tokio::test]
async fn what_cannot_be_said_of_a_thing_is_refused() {
    let house = hall().await;
    for fields in [
        said("hall.walls/base", "passed"),
        said("look", "done"),
        said("nothing", "done"),
        said("hall.walls", "done"),
        said("plaster", "arrived"),
        said("hall", "remark"),
        said("hall.walls/base", "painted"),
        "about=hall".to_owned(),
    ] {
        let response = house.post("/j/hall/walk", &fields).await;
        assert!(response.status().is_client_error(), "{fields}");
    }
    assert!(house.log().await.is_empty());
}

#[tokio::test]
async fn a_hostile_name_stays_a_name() {
    let house = House::of(HALL, HOSTILE, "imperial").await;
    for path in ["/j/hall/walk", "/j/hall/walk?place=hall"] {
        let page = house.page(path).await;
        assert!(!page.contains("<script>alert"), "{path}");
    }
    let known = told(&house).await;
    assert_eq!(known["places"][0]["name"], HOSTILE);
    assert_eq!(known["units"], "imperial");
}

#[tokio::test]
async fn the_worker_names_the_files_of_its_version_and_the_manifest_its_icons() {
    let house = hall().await;
    let worker = house.page("/sw.js").await;
    let (told, _) = worker.split_once(";\n").unwrap();
    let told: Value = serde_json::from_str(told.trim_start_matches("self.grounds=")).unwrap();
    let stamp = told["stamp"].as_str().unwrap();
    let files: Vec<&str> = told["files"]
        .as_array()
        .unwrap()
        .iter()
        .map(|f| f.as_str().unwrap())
        .collect();
    assert!(
        files.contains(&format!("/assets/{stamp}/walk.js").as_str()),
        "{files:?}"
    );
    assert!(
        files.iter().any(|file| file.ends_with(".woff2")),
        "{files:?}"
    );
    let manifest: Value = serde_json::from_str(&house.page("/manifest.webmanifest").await).unwrap();
    let icons: Vec<&str> = manifest["icons"]
        .as_array()
        .unwrap()
        .iter()
        .map(|icon| icon["src"].as_str().unwrap())
        .collect();
    for path in files.into_iter().chain(icons) {
        let request = axum::http::Request::get(path).header("host", "localhost:4180");
        let answer = house
            .ask(request.body(axum::body::Body::empty()).unwrap())
            .await;
        assert_eq!(answer.status(), StatusCode::OK, "{path}");
    }
}

#[tokio::test]
async fn the_walk_of_the_mill_is_small_enough_for_a_weak_signal() {
    let mill = include_str!("../../../examples/alder-sluice/job.toml");
    let house = House::of(mill, "", "metric").await;
    let told = house.page("/j/hall/walk.json").await;
    assert!(told.len() < 120_000, "{} bytes", told.len());
}
