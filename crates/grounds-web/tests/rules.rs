//! The pages of rules of a small house, asked for as a browser would.

#![allow(
    clippy::unwrap_used,
    reason = "the test fails where something is not as it should be"
)]

mod served;

use axum::http::StatusCode;
use served::{HOSTILE, House};

/// A house in which one rule speaks of one thing: a ladder.
const HALL: &str = r##"
format = 1

[job]
name = "NAME"
units = "imperial"
zone = "Europe/London"
begins = "2027-05-24"
calendar = "week"

[calendars.week]
days = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
hours = ["00:00-24:00"]

[trades.joiner]
name = "NAME"

[levels.ground]
name = "NAME"
height = "0'"

[places.hall]
name = "NAME"
level = "ground"
entrance = true
size = "12' x 10' x 8'"

[pieces.ladder]
name = "NAME"
trade = "joiner"
place = "hall"
takes = "1 h"

[pieces.ladder.figures]
ladder-rests = "12 ft"
"##;

async fn named(name: &str) -> House {
    House::of(HALL, name, "imperial").await
}

#[tokio::test]
async fn every_rule_has_a_form_that_can_be_filled_in() {
    let house = named("The hall").await;
    let index = house.page("/j/hall/rules/work-out").await;
    for rule in grounds_rules::all() {
        let path = format!("/j/hall/rules/work-out/{}", rule.name);
        assert!(index.contains(&path), "{path}");
        let form = house.page(&path).await;
        for spec in rule.inputs {
            let field = format!("name=\"{}\"", spec.name);
            assert!(form.contains(&field), "{path} lacks {field}");
        }
        let caution = rule.caution.split(['\'', '&']).next().unwrap();
        assert!(form.contains(caution), "{path} lacks its caution");
    }
}

#[tokio::test]
async fn a_stair_too_steep_is_answered_with_its_working() {
    let house = named("The hall").await;
    let page = house
        .page("/j/hall/rules/work-out/riser-and-going?riser=8+in&going=10+in")
        .await;
    // IRC 2021 R311.7.5.1: the riser is at most 7-3/4 in (published).
    assert!(
        page.contains("The riser is 8 in; at most 7.75 in"),
        "{page}"
    );
    assert!(page.contains("not as asked"), "{page}");
    assert!(page.contains("value=\"8 in\""), "{page}");
    // Approved Document K (England, 2013): a private stair may rise 220 mm.
    let page = house
        .page("/j/hall/rules/work-out/riser-and-going?riser=200+mm&going=250+mm&by-code=metric-europe")
        .await;
    assert!(!page.contains("not as asked"), "{page}");
}

#[tokio::test]
async fn what_cannot_be_read_is_asked_for_again_and_nothing_typed_is_lost() {
    let house = named("The hall").await;
    let (status, page) = house
        .get("/j/hall/rules/work-out/riser-and-going?riser=soon&going=10+in")
        .await;
    assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY);
    for part in [
        "value=\"soon\"",
        "value=\"10 in\"",
        "aria-invalid=\"true\"",
        "write a length like",
    ] {
        assert!(page.contains(part), "{part} is missing: {page}");
    }
    let (status, page) = house
        .get("/j/hall/rules/work-out/make-up-air?opens-with-fan=perhaps")
        .await;
    assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(page.contains("neither yes nor no"), "{page}");
}

/// A hood that is still to be ordered and brings in a third of the air that it draws.
const HOOD: &str = r#"
[pieces.hood]
name = "Hood"
kind = "hood"
trade = "joiner"
place = "hall"
takes = "2 h"
lead = "2 weeks"
figures = { airflow = "600 cfm", supply-air = "200 cfm", opens-with-fan = "yes" }
"#;

#[tokio::test]
async fn a_rule_that_is_not_kept_holds_the_order_until_somebody_by_name_lets_it_go_on() {
    let house = House::of(&format!("{HALL}{HOOD}"), "The hall", "imperial").await;
    let rules = house.page("/j/hall/rules").await;
    assert!(
        rules.contains("then the order of the hood goes out"),
        "{rules}"
    );
    let page = house.page("/j/hall/rules/make-up-air/hood").await;
    for part in [
        "Do not order",
        "Do not begin",
        "/j/hall/rules/decide",
        "Let it go on as it is",
    ] {
        assert!(page.contains(part), "{part} is missing: {page}");
    }
    let now = house.page("/j/hall/now").await;
    assert!(now.contains("The air brought in is 200 cfm"), "{now}");
    assert!(now.contains("/j/hall/rules/make-up-air/hood"), "{now}");

    let fields = |by: &str, words: &str| {
        format!(
            "rule=make-up-air/hood&once=01974f0c-86a0-7000-8000-000000000001&by={by}&words={words}"
        )
    };
    for (by, words) in [("", "A+window+is+opened"), ("Ana", "")] {
        let response = house.post("/j/hall/rules/decide", &fields(by, words)).await;
        assert_eq!(response.status(), StatusCode::UNPROCESSABLE_ENTITY);
    }
    let page = house
        .sent("/j/hall/rules/decide", &fields("Ana", "A+window+is+opened"))
        .await;
    assert!(page.contains("Goes on as it is: decided by Ana."), "{page}");
    assert!(page.contains("A window is opened"), "{page}");
    let now = house.page("/j/hall/now").await;
    assert!(!now.contains("The air brought in is 200 cfm"), "{now}");
    let log = house.log().await;
    assert_eq!((log[0].by.as_str(), log[0].about.as_str()), ("Ana", "hood"));
}

#[tokio::test]
async fn a_rule_that_is_not_there_is_said_in_a_sentence() {
    let house = named("The hall").await;
    for path in ["rules/work-out/nothing", "rules/nothing/at-all"] {
        let (status, page) = house.get(&format!("/j/hall/{path}")).await;
        assert_eq!(status, StatusCode::NOT_FOUND, "{path}");
        assert!(page.contains("There is no rule called"), "{page}");
    }
}

#[tokio::test]
async fn hostile_names_and_figures_stay_text() {
    let house = named(HOSTILE).await;
    let typed: String = HOSTILE.bytes().map(|byte| format!("%{byte:02X}")).collect();
    let list = house.page("/j/hall/rules").await;
    let one = list
        .split("href=\"")
        .filter_map(|rest| rest.split('"').next())
        .find(|to| to.starts_with("/j/hall/rules/") && !to.contains("work-out"));
    let one = one.map(str::to_owned);
    assert!(one.is_some(), "no rule speaks of the house: {list}");
    let form = format!("/j/hall/rules/work-out/riser-and-going?riser={typed}&by-code={typed}");
    for path in ["/j/hall/rules".to_owned(), one.unwrap(), form] {
        let (_, page) = house.get(&path).await;
        assert!(page.contains("&lt;script&gt;"), "{path} shows no name");
        for tag in ["<script>", "<img", "</title></svg>"] {
            assert!(!page.contains(tag), "{path} holds {tag}");
        }
    }
}
