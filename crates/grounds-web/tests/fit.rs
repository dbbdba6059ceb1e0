//! The pages of fit of a small house, asked for as a browser would.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "the test fails where something is not as it should be"
)]

mod served;

use axum::{
    body::Body,
    http::{Request, StatusCode, header},
};
use grounds_site::{Kind, Value};
use served::{HOSTILE, House, read};

/// A hall with a grille set in its wall, a pane of glass in an opening, and two rooms with floors.
const HALL: &str = r##"
format = 1

[job]
name = "NAME"
units = "UNITS"
zone = "Europe/London"
begins = "2027-05-24"
calendar = "week"

[calendars.week]
days = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
hours = ["00:00-24:00"]

[trades.plaster]
name = "NAME"

[trades.glass]
name = "Glass"

[levels.ground]
name = "NAME"
height = "0 mm"

[controls.hall-line]
name = "NAME"
within = "1 mm"

[places.hall]
name = "NAME"
level = "ground"
entrance = true
size = "4 m x 3 m x 2.5 m"

[places.hall.faces.walls]
name = "NAME"
kind = "wall"
build_up = "plastered"
structure = { from = "hall-line", at = "40 mm", within = "1 mm" }

[places.hall.faces.floor]
kind = "floor"
build_up = "boarded"
structure = { at = "-20 mm", within = "1 mm" }

[places.den]
name = "Den"
level = "ground"
size = "4 m x 3 m x 2.5 m"

[places.den.faces.floor]
kind = "floor"
build_up = "boarded"
structure = { at = "-32 mm", within = "1 mm" }

[passages.den-door]
kind = "door"
between = ["hall", "den"]
threshold = { within = "4 mm" }

[build_ups.plastered]
name = "Plastered"

[[build_ups.plastered.layers]]
id = "board"
name = "Board"
material = "board"
trade = "plaster"
thickness = "12.5 mm ±0.4"
takes = "4 h"

[[build_ups.plastered.layers]]
id = "skim"
name = "Skim"
material = "plaster"
trade = "plaster"
thickness = "3 mm ±0.5"
takes = "4 h"
cover = "24 h"

[build_ups.boarded]
name = "Boarded"

[[build_ups.boarded.layers]]
id = "boards"
name = "Boards"
material = "timber"
trade = "plaster"
thickness = "20 mm ±0.5"
takes = "4 h"

[pieces.grille]
name = "NAME"
material = "metal"
trade = "plaster"
place = "hall"
face = "walls"
after = ["hall.walls/board"]
before = ["hall.walls/skim"]
takes = "1 h"
thickness = "12 mm ±0.2"
set = [{ from = "hall.walls/board", at = "0 mm", within = "0.4 mm" }]
align = [{ how = "flush", with = "hall.walls", within = "1 mm" }, { how = "in-plane", with = "hall-line", by = "52.5 mm", within = "2 mm" }]

[pieces.rail]
name = "Rail"
trade = "plaster"
place = "hall"
face = "walls"
after = ["hall.walls/skim"]
takes = "1 h"
thickness = "12 mm ±0.2"
set = [{ from = "hall-line", at = "52.5 mm", within = "0.4 mm" }]
align = [{ how = "in-plane", with = "hall-line", by = "52.5 mm", within = "2 mm" }]

[pieces.pane]
name = "Pane"
material = "glass"
trade = "glass"
place = "hall"
takes = "2 h"
lead = "2 weeks"
size = "1000 x 2000 mm"
size_within = "1 mm"
thickness = "17.5 mm ±0.3"
heavy = true

[openings.gap]
name = "NAME"
place = "hall"
face = "walls"
rough = "1004 x 2020 mm"
within = "2 mm"
piece = "pane"
clearance = "6 mm"
"##;

async fn made(name: &str, units: &str) -> House {
    House::of(HALL, name, units).await
}

async fn hall() -> House {
    made("The hall", "metric").await
}

const ONCE: &str = "01974f0c-86a0-7000-8000-000000000001";

fn reading(about: &str, what: &str, need: &str, rest: &str) -> String {
    format!("about={about}&what={what}&need={need}&once={ONCE}&{rest}")
}

#[tokio::test]
async fn every_page_of_fit_is_served() {
    let house = hall().await;
    for path in [
        "/j/hall/fit",
        "/j/hall/fit/need/grille.flush",
        "/j/hall/fit/need/grille.in-plane",
        "/j/hall/fit/need/pane.width",
        "/j/hall/fit/need/den-door.threshold",
        "/j/hall/fit/need/grille.flush/paper?at=1:2",
        "/j/hall/fit/need/grille.flush/paper?at=nonsense",
        "/j/hall/fit/opening/gap",
        "/j/hall/fit/plane/hall-line",
        "/j/hall/fit/read?about=gap&what=width",
        "/j/hall/fit/read?about=gap&what=diagonal%20rising&need=pane.width",
    ] {
        house.page(path).await;
    }
    for path in [
        "/j/hall/fit/need/nothing",
        "/j/hall/fit/need/grille.flush/paper?n=7",
        "/j/hall/fit/need/nothing/section.dxf",
        "/j/hall/fit/opening/nothing",
        "/j/hall/fit/stair/hall",
        "/j/hall/fit/plane/nothing",
        "/j/hall/fit/read?about=nothing&what=width",
        "/j/hall/fit/read?about=gap&what=%3Cb%3E",
    ] {
        let (status, page) = house.get(path).await;
        assert_eq!(status, StatusCode::NOT_FOUND, "{path}");
        assert!(!page.contains("<b>\""), "{path}");
    }
}

#[tokio::test]
async fn fit_opens_with_what_is_worst_and_what_to_do() {
    let house = hall().await;
    let page = house.page("/j/hall/fit").await;
    assert!(page.contains("fits will not come right."));
    assert!(page.contains("aria-current=\"page\">Fit</a>"));
    // 40 + 12.5 + 3 is the plaster, the grille is set flush with the board: 3 shy.
    assert!(page.contains("3 mm shy, wanted within 1 mm: it holds in no case."));
    // 1,004 less 1,000 leaves 4 where 12 are wanted.
    assert!(page.contains("4 mm of play, wanted at least 12 mm: it holds in no case."));
    let now = house.page("/j/hall/now").await;
    assert!(now.contains("are in trouble"));
    assert!(now.contains("/j/hall/fit#trouble"));
    let piece = house.page("/j/hall/work/grille").await;
    assert!(piece.contains("Will it fit"));
    let layer = house.page("/j/hall/work/hall.walls/skim").await;
    assert!(layer.contains("/j/hall/fit/need/grille.flush"));
}

#[tokio::test]
async fn a_need_shows_its_section_its_working_and_what_it_holds_up() {
    let house = hall().await;
    let page = house.page("/j/hall/fit/need/grille.flush").await;
    for part in [
        "What the spread is made of",
        "Working",
        "Nothing more can be read today",
        "What it holds up",
        "fit-section",
        "at-phone",
        "on-paper",
        "section.dxf?n=0",
        "paper?at=1:5",
    ] {
        assert!(page.contains(part), "{part}");
    }
    let floors = house.page("/j/hall/fit/need/den-door.threshold").await;
    assert!(floors.contains("sections two"));
    let (status, file) = house.get("/j/hall/fit/need/grille.flush/section.dxf").await;
    assert_eq!(status, StatusCode::OK);
    let mut lines = file.lines().map(str::trim);
    assert_eq!((lines.next(), lines.next()), (Some("0"), Some("SECTION")));
}

#[tokio::test]
async fn a_reading_becomes_a_note_and_changes_the_figures() {
    let house = hall().await;
    let page = house
        .sent(
            "/j/hall/fit/read",
            &reading("gap", "width", "pane.width", "figure=1013"),
        )
        .await;
    assert!(page.contains("What that changed"));
    assert!(page.contains("It lands at 13 mm, not 4 mm"));
    assert!(page.contains("It was: will not come right."));
    let log = house.log().await;
    assert_eq!(log.len(), 1);
    assert_eq!(log[0].kind, Kind::Measured);
    assert_eq!(log[0].about.as_str(), "gap");
    let Some(Value::Reading { what, figure }) = &log[0].value else {
        panic!("{:?}", log[0].value);
    };
    assert_eq!((what.as_str(), figure.as_str()), ("width", "1013 mm"));

    // The same form again is the same note.
    let again = reading("gap", "width", "pane.width", "figure=1013");
    house.sent("/j/hall/fit/read", &again).await;
    assert_eq!(house.log().await.len(), 1);
}

#[tokio::test]
async fn a_reading_says_which_way_and_how_sure() {
    let house = hall().await;
    let floor = |rest: &str| reading("den.floor", "from%20ground", "den-door.threshold", rest);
    let response = house.post("/j/hall/fit/read", &floor("figure=30")).await;
    let (status, page) = read(response).await;
    assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(page.contains("Say which way."));
    assert!(page.contains("value=\"30\""), "what was typed stays");

    house
        .sent("/j/hall/fit/read", &floor("figure=20&side=below&within=1"))
        .await;
    let log = house.log().await;
    let Some(Value::Reading { what, figure }) = &log[0].value else {
        panic!("{:?}", log[0].value);
    };
    assert_eq!(
        (what.as_str(), figure.as_str()),
        ("from ground", "-20 mm ±1 mm")
    );
    let need = house.page("/j/hall/fit/need/den-door.threshold").await;
    assert!(need.contains("level with"));
}

#[tokio::test]
async fn what_is_no_length_is_asked_for_again() {
    let house = hall().await;
    for bad in ["", "twelve", "-5", "99999999", "%3Cscript%3E"] {
        let fields = reading("gap", "width", "pane.width", &format!("figure={bad}"));
        let (status, page) = read(house.post("/j/hall/fit/read", &fields).await).await;
        assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY, "{bad}");
        assert!(page.contains("class=\"fault\""), "{bad}");
        assert!(!page.contains("<script>alert"));
    }
    let foreign = reading("nothing", "width", "", "figure=5");
    let response = house.post("/j/hall/fit/read", &foreign).await;
    assert_eq!(response.status(), StatusCode::UNPROCESSABLE_ENTITY);
    assert!(house.log().await.is_empty());
}

#[tokio::test]
async fn inches_are_read_as_they_are_said() {
    let house = made("The hall", "imperial").await;
    let page = house.page("/j/hall/fit/read?about=gap&what=width").await;
    assert!(page.contains("data-fraction=\"15/16\""));
    house
        .sent(
            "/j/hall/fit/read",
            &reading("gap", "width", "pane.width", "figure=3%27%204%205%2F8%22"),
        )
        .await;
    let Some(Value::Reading { figure, .. }) = house.log().await[0].value.clone() else {
        panic!();
    };
    let read: grounds_measure::Length = figure.parse().unwrap();
    assert_eq!(read, "40 5/8 in".parse().unwrap());
}

#[tokio::test]
async fn somebody_by_name_lets_a_fit_go_on_as_it_is() {
    let house = hall().await;
    let fields =
        |by: &str, words: &str| format!("need=grille.flush&once={ONCE}&by={by}&words={words}");
    for (by, words) in [("", "It is behind a door"), ("Ana", "")] {
        let response = house.post("/j/hall/fit/decide", &fields(by, words)).await;
        assert_eq!(response.status(), StatusCode::UNPROCESSABLE_ENTITY);
    }
    let page = house
        .sent("/j/hall/fit/decide", &fields("Ana", "It+is+behind+a+door"))
        .await;
    assert!(page.contains("Goes on as it is: decided by Ana."));
    assert!(page.contains("It is behind a door"));
    let log = house.log().await;
    assert_eq!((log[0].kind, log[0].by.as_str()), (Kind::Decided, "Ana"));
    assert_eq!(log[0].about.as_str(), "grille");
}

#[tokio::test]
async fn an_opening_says_what_to_order_and_how_it_is_carried() {
    let house = hall().await;
    let page = house.page("/j/hall/fit/opening/gap").await;
    assert!(page.contains("Nobody has put a tape to it."));
    for (what, figure) in [
        ("width at the foot", 1012),
        ("width in the middle", 1013),
        ("width at the head", 1014),
        ("height at the left", 2020),
        ("height at the right", 2020),
    ] {
        let what = what.replace(' ', "%20");
        let once = format!("01974f0c-86a0-7000-8000-{figure:012}");
        let fields = format!("about=gap&what={what}&once={once}&figure={figure}");
        house.sent("/j/hall/fit/read", &fields).await;
    }
    let page = house.page("/j/hall/fit/opening/gap").await;
    // At most 1,012 less 6 at each edge; 2,020 less 12.
    assert!(page.contains("Order 1000 × 2008 mm") || page.contains("Order 999 × 2008 mm"));
    // 2 m² of 17.5 mm glass at 2.5 kg for each millimetre.
    assert!(page.contains("87.5 kg"));
    assert!(page.contains("Four people"));
    assert!(page.contains("Glass: gloves"));
}

#[tokio::test]
async fn a_plane_shows_every_piece_that_stands_by_it() {
    let house = hall().await;
    let page = house.page("/j/hall/fit/plane/hall-line").await;
    assert!(page.contains("fit-plane-layout"));
    assert!(page.contains("/j/hall/fit/need/rail.in-plane"));
}

#[tokio::test]
async fn hostile_names_stay_words_on_the_pages_of_fit() {
    let house = made(HOSTILE, "metric").await;
    for path in [
        "/j/hall/fit",
        "/j/hall/fit/need/grille.flush",
        "/j/hall/fit/need/grille.flush/paper",
        "/j/hall/fit/opening/gap",
        "/j/hall/fit/plane/hall-line",
        "/j/hall/fit/read?about=gap&what=width",
    ] {
        let page = house.page(path).await;
        for bad in ["<script>alert", "<img src", "<IMG SRC"] {
            assert!(!page.contains(bad), "{path}: {bad}");
        }
        assert!(!page.contains(" style=\""), "{path}: a style of its own");
    }
}

#[tokio::test]
async fn the_longest_hostile_name_is_one_word_of_the_file_for_the_shop() {
    let name = format!("{HOSTILE}{}", "ü".repeat(200 - HOSTILE.len()));
    let house = made(&name, "imperial").await;
    let path = "/j/hall/fit/need/grille.flush/section.dxf";
    let request = Request::get(path).header(header::HOST, "localhost:4180");
    let response = house.ask(request.body(Body::empty()).unwrap()).await;
    assert_eq!(response.headers()[header::CONTENT_TYPE], "image/vnd.dxf");
    assert_eq!(
        response.headers()[header::X_CONTENT_TYPE_OPTIONS],
        "nosniff"
    );
    let (status, file) = read(response).await;
    assert_eq!(status, StatusCode::OK);
    // Pairs of a group code and a value (DXF reference, group codes): no name makes a line of its own.
    assert!(file.is_ascii());
    let lines: Vec<&str> = file.lines().collect();
    assert_eq!(lines.len() % 2, 0);
    for pair in lines.chunks_exact(2) {
        assert!(pair[0].trim().parse::<u16>().is_ok(), "{}", pair[0]);
    }
    assert_eq!(lines.last().map(|line| line.trim()), Some("EOF"));
}

#[tokio::test]
async fn looking_at_fit_writes_nothing() {
    let house = hall().await;
    for path in [
        "/j/hall/fit",
        "/j/hall/fit/need/grille.flush",
        "/j/hall/fit/opening/gap",
        "/j/hall/fit/read?about=gap&what=width",
    ] {
        house.page(path).await;
    }
    assert!(house.log().await.is_empty());
}
