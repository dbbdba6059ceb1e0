//! Cover, asked for as a browser without script would: the register, the stop before something is
//! hidden unseen, the sheet of a test, behind a wall.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "the test fails where something is not as it should be"
)]

mod served;

use axum::http::StatusCode;
use grounds_site::Kind;
use served::{HOSTILE, House, read};

const WALL: &str = r##"
format = 1

[job]
name = "NAME"
units = "metric"
zone = "Europe/London"
begins = "2027-05-24"
calendar = "week"

[calendars.week]
days = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
hours = ["00:00-24:00"]

[trades.plumb]
name = "NAME"

[trades.board]
name = "NAME"

[levels.ground]
name = "NAME"
height = "0 mm"

[places.hall]
name = "NAME"
level = "ground"
entrance = true
size = "4 m x 3 m x 2.5 m"

[places.hall.faces.wall]
name = "NAME"
kind = "wall"
build_up = "boarded"

[build_ups.boarded]
name = "NAME"

[[build_ups.boarded.layers]]
id = "pipes"
name = "NAME"
material = "service"
trade = "plumb"
takes = "15 min"

[[build_ups.boarded.layers]]
id = "board"
name = "NAME"
material = "board"
trade = "board"
thickness = "12.5 mm"
takes = "4 h"

[holds.test]
name = "NAME"
kind = "test"
place = "hall"
by = "plumb"
after = ["hall.wall/pipes"]
before = ["hall.wall/board"]
evidence = ["NAME"]
"##;

const ONCE: &str = "01974f0c-86a0-7000-8000-0000000000a1";

async fn house() -> House {
    House::of(WALL, HOSTILE, "metric").await
}

/// The address that an answer leads to.
fn leads_to(response: &axum::http::Response<axum::body::Body>) -> String {
    let to = &response.headers()["location"];
    to.to_str().unwrap().to_owned()
}

#[tokio::test]
async fn a_start_that_hides_something_unseen_stops_and_then_goes_on_with_a_name_and_a_reason() {
    let house = house().await;
    let start = format!("about=hall.wall%2Fboard&act=start&once={ONCE}&back=%2Fj%2Fhall%2Fcover");
    let (status, page) = read(house.post("/j/hall/notes", &start).await).await;
    assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(
        page.contains("two things are missing") || page.contains("things are missing"),
        "{page}"
    );
    assert!(!page.contains("<script>alert"), "a name became markup");
    assert!(
        house.log().await.is_empty(),
        "nothing is written before somebody says why"
    );

    let go = |by: &str, words: &str| {
        format!(
            "about=hall.wall%2Fboard&start=yes&once={ONCE}&back=%2Fj%2Fhall%2Fcover&by={by}&words={words}"
        )
    };
    for nobody in [go("", "seen"), go("site+lead", "seen"), go("Rosa", "")] {
        let response = house.post("/j/hall/cover/let-go", &nobody).await;
        assert_eq!(
            response.status(),
            StatusCode::UNPROCESSABLE_ENTITY,
            "{nobody}"
        );
    }
    let response = house
        .post("/j/hall/cover/let-go", &go("Rosa", "seen+by+video"))
        .await;
    assert_eq!(response.status(), StatusCode::SEE_OTHER);
    assert!(leads_to(&response).starts_with("/j/hall/cover?wrote="));
    // The same form again says the same thing once.
    house
        .post("/j/hall/cover/let-go", &go("Rosa", "seen+by+video"))
        .await;
    let log = house.log().await;
    let kinds: Vec<Kind> = log.iter().map(|note| note.kind).collect();
    assert_eq!(kinds, [Kind::Decided, Kind::Started]);
    assert_eq!(log[0].by, "Rosa");
    assert_eq!(log[0].words.as_deref(), Some("seen by video"));

    let page = house.page("/j/hall/cover").await;
    assert!(page.contains("Let go by Rosa"), "{page}");
    assert!(page.contains("“seen by video”"), "{page}");
}

#[tokio::test]
async fn what_was_seen_is_written_down_for_what_is_asked_and_for_nothing_else() {
    let house = house().await;
    let unknown =
        format!("ask=hall.wall%2Fboard%7CPhoto&words=x&once={ONCE}&back=%2Fj%2Fhall%2Fcover");
    let response = house.post("/j/hall/cover/seen", &unknown).await;
    assert_eq!(response.status(), StatusCode::UNPROCESSABLE_ENTITY);
    let photo = format!(
        "ask=hall.wall%2Fpipes%7CPhoto&words=on+Ines%27s+phone&once={ONCE}&back=%2Fj%2Fhall%2Fcover"
    );
    let page = house.sent("/j/hall/cover/seen", &photo).await;
    assert!(page.contains("photo kept elsewhere: on Ines"), "{page}");
}

#[tokio::test]
async fn every_page_of_cover_stands_hostile_names_and_questions() {
    let house = house().await;
    for path in [
        "/j/hall/cover",
        "/j/hall/cover?weeks=all",
        "/j/hall/cover?weeks=-1",
        "/j/hall/cover/hold/test",
        "/j/hall/behind",
        "/j/hall/behind?place=hall",
        "/j/hall/behind?place=nowhere&ask=pipe",
        "/j/hall/behind?ask=%3Cscript%3Ealert(1)%3C%2Fscript%3E%00",
        "/j/hall/now",
        "/j/hall/work/hall.wall/board",
    ] {
        let page = house.page(path).await;
        assert!(
            !page.contains("<script>alert"),
            "{path}: a name became markup"
        );
        assert!(!page.contains("<img src=x"), "{path}: a name became markup");
    }
    let (status, _) = house.get("/j/hall/cover/hold/none").await;
    assert_eq!(status, StatusCode::NOT_FOUND);
}
