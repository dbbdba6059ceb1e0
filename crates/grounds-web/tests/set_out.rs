//! Setting out from figures typed, asked for as a browser would.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "the test fails where something is not as it should be"
)]

mod served;

use axum::http::StatusCode;
use served::{HOSTILE, House};

/// Two floors and a stair between them.
const STAIR: &str = r##"
format = 1

[job]
name = "Stair"
units = "UNITS"
zone = "Europe/London"
begins = "2027-05-24"
calendar = "week"

[calendars.week]
days = ["mon", "tue", "wed", "thu", "fri"]
hours = ["08:00-16:00"]

[trades.joiner]
name = "Joinery"

[levels.ground]
name = "Ground"
height = "0 mm"

[levels.upper]
name = "Upper"
height = "2700 mm"

[places.hall]
name = "Hall"
level = "ground"
entrance = true
size = "4 m x 3 m x 2.5 m"

[places.hall.faces.floor]
kind = "floor"
build_up = "boarded"

[places.landing]
name = "Landing"
level = "upper"
size = "4 m x 3 m x 2.5 m"

[places.stair]
name = "NAME"
kind = "stair"
level = "ground"
size = "4 m x 1 m x 2.5 m"
flight = { foot = "hall", head = "landing", risers = 14, rise = "190 mm", most_difference = "9.5 mm" }

[passages.up]
kind = "stair"
between = ["hall", "stair"]

[passages.on]
kind = "stair"
between = ["stair", "landing"]

[build_ups.boarded]
name = "Boarded"

[[build_ups.boarded.layers]]
id = "boards"
name = "White oak boards"
material = "timber"
trade = "joiner"
thickness = "20 mm ±0.5"
takes = "4 h"
"##;

async fn made(name: &str, units: &str) -> House {
    House::of(STAIR, name, units).await
}

/// The text of an address.
fn typed(text: &str) -> String {
    text.bytes().map(|byte| format!("%{byte:02X}")).collect()
}

const ALL: [&str; 7] = [
    "gaps", "boards", "risers", "cuts", "pocket", "wood", "shims",
];

#[tokio::test]
async fn fit_leads_to_a_list_and_the_list_to_every_form() {
    let house = made("Stair", "metric").await;
    assert!(
        house
            .page("/j/hall/fit")
            .await
            .contains("/j/hall/fit/set-out\"")
    );
    let list = house.page("/j/hall/fit/set-out").await;
    for what in ALL {
        assert!(
            list.contains(&format!("/j/hall/fit/set-out/{what}\"")),
            "{what}"
        );
        let form = house.page(&format!("/j/hall/fit/set-out/{what}")).await;
        assert!(form.contains("method=\"get\""), "{what}");
        assert!(!form.contains("role=\"alert\""), "{what}");
    }
    let (status, _) = house.get("/j/hall/fit/set-out/%3Cb%3E").await;
    assert_eq!(status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn a_link_keeps_its_answer_with_drawing_working_caution_and_source() {
    let house = made("Stair", "imperial").await;
    // Half-inch glass in a five-eighths pocket: 1/16 in at each face [common practice].
    let page = house
        .page(&format!(
            "/j/hall/fit/set-out/pocket?clear={}&piece={}",
            typed("5/8"),
            typed("1/2")
        ))
        .await;
    assert!(
        page.contains("<h1>1/16&quot; is left at each face"),
        "{page}"
    );
    for part in [
        "fit-spacing",
        "Working",
        "Caution",
        "Where it comes from",
        "common practice",
        "Local code",
    ] {
        assert!(page.contains(part), "{part}");
    }
    // Seven-inch white oak [USDA Wood Handbook, published].
    let page = house
        .page(&format!(
            "/j/hall/fit/set-out/wood?species=white+oak&board=7&across={}",
            typed("17' 6\"")
        ))
        .await;
    assert!(page.contains("a gap of 3/64&quot; opens"), "{page}");
    // The textbook cut list [memory].
    let pieces = "22x1380mm;25x1520mm;12x1560mm;14x1710mm;18x1820mm;18x1880mm;20x1930mm;10x2000mm;\
                  12x2050mm;14x2100mm;16x2140mm;18x2150mm;20x2200mm";
    let page = house
        .page(&format!(
            "/j/hall/fit/set-out/cuts?pieces={}&stock=5600+mm&kerf=0",
            typed(pieces)
        ))
        .await;
    assert!(page.contains("Buy 73 lengths"), "{page}");
    assert!(page.contains("fit-cuts"));
}

#[tokio::test]
async fn risers_are_filled_in_from_the_flight_of_the_job() {
    let house = made("Stair", "metric").await;
    let page = house.page("/j/hall/fit/set-out/risers").await;
    assert!(page.contains("Filled in from the job: Stair"), "{page}");
    // 20 mm of boards at the foot make the first riser 170 of 190 mm; at most 9.5 mm may differ.
    assert!(page.contains("more than the 9.5\u{a0}mm allowed"), "{page}");
    assert!(page.contains("fit-stair"));
    assert!(
        house
            .page("/j/hall/fit/set-out/wood")
            .await
            .contains("Filled in from the job: Hall")
    );
}

#[tokio::test]
async fn what_cannot_be_read_keeps_what_was_typed_and_says_how_to_mend_it() {
    let house = made(HOSTILE, "metric").await;
    let hostile = typed(HOSTILE);
    let long = "9".repeat(30_000);
    let many = typed(&"2 x 10\n".repeat(1_500));
    for query in [
        format!("gaps?clear={hostile}&piece=38&under=100"),
        format!("gaps?clear={long}&piece=38&under=100"),
        "gaps?clear=NaN&piece=inf&under=-1".to_owned(),
        "gaps?clear=1e308&piece=38&count=1e9".to_owned(),
        format!("cuts?pieces={many}&stock=4800"),
        format!("cuts?pieces={hostile}&stock={hostile}&kerf={hostile}"),
        format!("wood?species={hostile}&board=100&across=4000"),
        format!("shims?marks={hostile}&held={hostile}"),
        format!("risers?built={hostile}"),
        format!("boards?row=3000&piece=600&begin={hostile}"),
        format!("pocket?faces={hostile}&piece=12"),
    ] {
        let (status, page) = house.get(&format!("/j/hall/fit/set-out/{query}")).await;
        let name = &query[..query.len().min(60)];
        assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY, "{name}");
        assert!(page.contains("role=\"alert\""), "{name}");
        assert!(page.contains("aria-invalid=\"true\""), "{name}");
        assert!(!page.contains("<script>alert"), "{name}");
        assert!(!page.contains("<img src=x"), "{name}");
        // What was typed still stands in its field.
        if query.contains("clear=NaN") {
            assert!(page.contains("value=\"NaN\"") && page.contains("value=\"inf\""));
        }
        if query.starts_with("gaps?clear=%3C") {
            assert!(page.contains("value=\"&lt;script&gt;alert(1)"), "{page}");
        }
    }
    // A name that is drawn is escaped too.
    let marks = typed("<b>\"&'</svg>: 0, 0, 1\nhall: 0, 3000, 3");
    let page = house
        .page(&format!("/j/hall/fit/set-out/shims?marks={marks}"))
        .await;
    assert!(page.contains("&lt;b&gt;") && !page.contains("<b>\""));
    for what in ALL {
        let page = house.page(&format!("/j/hall/fit/set-out/{what}")).await;
        assert!(
            !page.contains("<script>alert") && !page.contains("<img src=x"),
            "{what}"
        );
    }
}
