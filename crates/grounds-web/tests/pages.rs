//! The pages of a small house, asked for as a browser would.

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
use served::{HOSTILE, House, read};

const HALL: &str = r##"
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

[trades.plaster]
name = "NAME"

[trades.paint]
name = "Paint"

[levels.ground]
name = "NAME"
height = "0 mm"

[places.hall]
name = "NAME"
level = "ground"
entrance = true
size = "4 m x 3 m x 2.5 m"

[places.hall.faces.walls]
name = "NAME"
kind = "wall"
build_up = "painted"

[build_ups.painted]
name = "NAME"

[[build_ups.painted.layers]]
id = "skim"
name = "NAME"
material = "plaster"
trade = "plaster"
takes = "4 h"
cover = "24 h"

[[build_ups.painted.layers]]
id = "paint"
name = "Paint"
material = "paint"
trade = "paint"
takes = "2 h"

[decisions.colour]
name = "NAME"
by = "NAME"
before = ["hall.walls/paint"]

[pieces.lamp]
name = "NAME"
trade = "paint"
place = "hall"
after = ["hall.walls/paint"]
takes = "1 h"
lead = "2 weeks"
"##;

/// The hall under a name.
async fn named(name: &str) -> House {
    House::of(HALL, name, "metric").await
}

async fn hall() -> House {
    named("The hall").await
}

const ONCE: &str = "01974f0c-86a0-7000-8000-000000000001";

fn fields(about: &str, act: &str) -> String {
    format!("about={about}&act={act}&once={ONCE}&back=/j/hall/now")
}

#[tokio::test]
async fn every_page_of_a_small_house_is_served() {
    let house = hall().await;
    for path in [
        "/j/hall/now",
        "/j/hall/weeks",
        "/j/hall/weeks?weeks=2&trade=paint&place=hall",
        "/j/hall/weeks?weeks=all",
        "/j/hall/weeks?weeks=soon&trade=nobody&place=nowhere",
        "/j/hall/house",
        "/j/hall/more",
        "/j/hall/work/hall.walls/skim",
        "/j/hall/work/lamp:arrive",
        "/j/hall/work/colour",
        "/j/hall/live",
        "/j/hall/live?of=weeks",
        "/j/hall/live?of=ways&for=nothing",
        "/j/hall/forecast",
        "/j/hall/win-back",
        "/j/hall/win-back?for=nothing",
        "/j/hall/what-if",
        "/jobs",
        "/j/hall/job.toml",
        "/api/jobs/hall/plan",
    ] {
        house.page(path).await;
    }
    let (status, _) = house.get("/").await;
    assert_eq!(status, StatusCode::SEE_OTHER);
}

#[tokio::test]
async fn a_press_on_start_is_a_note_and_the_plan_follows() {
    let house = hall().await;
    let before = house.page("/j/hall/now").await;
    assert!(
        before.contains("One thing can start.") || before.contains("things can start."),
        "{before}"
    );
    let (status, to) = house.press(&fields("hall.walls/skim", "start")).await;
    assert_eq!(status, StatusCode::SEE_OTHER);
    let after = house.page(&to).await;
    assert!(after.contains("In hand since"));
    assert!(after.contains("Take it back"));

    house.press(&fields("hall.walls/skim", "finish")).await;
    let work = house.page("/j/hall/work/hall.walls/skim").await;
    assert!(work.contains("Done "));
    let kinds: Vec<&str> = house
        .log()
        .await
        .iter()
        .map(|note| note.kind.word())
        .collect();
    assert_eq!(kinds, ["started", "done"]);
}

#[tokio::test]
async fn the_same_form_sent_twice_is_one_note() {
    let house = hall().await;
    house.press(&fields("hall.walls/skim", "start")).await;
    house.press(&fields("hall.walls/skim", "start")).await;
    assert_eq!(house.log().await.len(), 1);
    // Another button of the same page is another note.
    house.press(&fields("colour", "finish")).await;
    assert_eq!(house.log().await.len(), 2);
}

#[tokio::test]
async fn what_was_written_can_be_taken_back_and_is_not_lost() {
    let house = hall().await;
    house.press(&fields("hall.walls/skim", "start")).await;
    let note = house.log().await[0].id;
    let back = house
        .post(
            "/j/hall/back",
            &format!("note={note}&once={ONCE}&back=/j/hall/now"),
        )
        .await;
    assert_eq!(back.status(), StatusCode::SEE_OTHER);
    let page = house.page("/j/hall/now").await;
    assert!(!page.contains("In hand since"));
    let log = house.log().await;
    assert_eq!(log.len(), 2);
    assert_eq!(log[1].replaces, Some(note));
}

#[tokio::test]
async fn trouble_is_a_cause_until_it_is_cleared() {
    let house = hall().await;
    let until = jiff::Timestamp::now() + jiff::SignedDuration::from_hours(24 * 20);
    let until = until.strftime("%Y-%m-%d");
    let trouble = format!(
        "{}&words=No+water&when={until}",
        fields("hall.walls/skim", "trouble")
    );
    let (status, to) = house.press(&trouble).await;
    assert_eq!(status, StatusCode::SEE_OTHER);
    assert!(house.page(&to).await.contains("No water"));
    house.press(&fields("hall.walls/skim", "cleared")).await;
    let page = house.page("/j/hall/now").await;
    assert!(!page.contains("No water"), "{page}");
}

#[tokio::test]
async fn a_date_that_is_given_moves_the_delivery() {
    let house = hall().await;
    let given = format!("{}&when=2099-06-21", fields("lamp:arrive", "promised"));
    assert_eq!(house.press(&given).await.0, StatusCode::SEE_OTHER);
    assert!(
        house
            .page("/j/hall/work/lamp:arrive")
            .await
            .contains("21 June 2099")
    );
}

#[tokio::test]
async fn what_cannot_be_written_down_is_said_and_nothing_is_kept() {
    let house = hall().await;
    let long = "x".repeat(2001);
    for bad in [
        fields("nothing", "start"),
        fields("hall.walls/skim", "passed"),
        fields("hall.walls/skim", "trouble"),
        fields("lamp:arrive", "promised"),
        format!("{}&when=soon", fields("lamp:arrive", "promised")),
        format!("{}&words={long}", fields("hall.walls/skim", "trouble")),
        fields("hall.walls/skim", "explode"),
        "about=hall".to_owned(),
        String::new(),
    ] {
        let (status, _) = house.press(&bad).await;
        assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY, "{bad}");
    }
    assert!(house.log().await.is_empty());
}

/// Waits until the page at an address says something.
async fn until(house: &House, path: &str, says: &str) -> String {
    for _ in 0..600 {
        let page = house.page(path).await;
        if page.contains(says) {
            return page;
        }
        tokio::time::sleep(std::time::Duration::from_millis(50)).await;
    }
    panic!("{path} never says {says}");
}

#[tokio::test]
async fn a_plan_is_studied_behind_the_pages_and_again_after_a_note() {
    let house = hall().await;
    let at_first = until(&house, "/j/hall/live", "\"busy\":false").await;
    house.press(&fields("hall.walls/skim", "start")).await;
    let after = until(&house, "/j/hall/live", "\"busy\":false").await;
    assert!(at_first.contains("\"edition\":\"0\""), "{at_first}");
    assert!(!after.contains("\"edition\":\"0\""), "{after}");
}

#[tokio::test]
async fn ways_to_win_time_back_are_looked_for_when_asked_and_nothing_is_written() {
    let house = hall().await;
    let asked = house.post("/j/hall/win-back", "for=").await;
    assert_eq!(asked.status(), StatusCode::SEE_OTHER);
    let page = until(&house, "/j/hall/win-back", "Look again").await;
    assert!(
        page.contains("things tried") || page.contains("Nothing that was tried"),
        "{page}"
    );
    assert!(house.log().await.is_empty());
    let unknown = house.post("/j/hall/win-back", "for=nothing").await;
    assert_eq!(unknown.status(), StatusCode::UNPROCESSABLE_ENTITY);
    let order = house.post("/j/hall/win-back/order", "for=nothing").await;
    assert_eq!(order.status(), StatusCode::UNPROCESSABLE_ENTITY);
}

#[tokio::test]
async fn what_is_supposed_becomes_a_note_only_when_it_is_entered() {
    let house = hall().await;
    let late = "kind=arrives&about=lamp&on=2099-06-21";
    let (status, page) = read(house.post("/j/hall/what-if", late).await).await;
    assert_eq!(status, StatusCode::OK, "{page}");
    assert!(
        page.contains("21 June 2099") && page.contains("later"),
        "{page}"
    );
    assert!(house.log().await.is_empty());

    let enter = format!("{late}&once={ONCE}");
    for _ in 0..2 {
        let entered = house.post("/j/hall/what-if/enter", &enter).await;
        assert_eq!(entered.status(), StatusCode::SEE_OTHER);
    }
    let log = house.log().await;
    assert_eq!(log.len(), 1);
    assert_eq!(log[0].kind.word(), "promised");
}

#[tokio::test]
async fn what_makes_no_sense_cannot_be_supposed() {
    let house = hall().await;
    for bad in [
        "",
        "kind=explodes&about=lamp",
        "kind=arrives&about=nothing&on=2099-06-21",
        "kind=arrives&about=lamp&on=soon",
        "kind=arrives&about=lamp",
        "kind=away&about=paint&on=2099-06-21&to=2099-06-01",
        "kind=fails&about=lamp",
    ] {
        for path in ["/j/hall/what-if", "/j/hall/what-if/enter"] {
            let (status, page) = read(house.post(path, bad).await).await;
            assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY, "{bad}: {page}");
        }
    }
    assert!(house.log().await.is_empty());
}

#[tokio::test]
async fn a_refused_supposition_keeps_what_was_typed() {
    let house = hall().await;
    let past = "kind=away&about=paint&on=2099-06-21&to=2099-06-01";
    for path in ["/j/hall/what-if", "/j/hall/what-if/enter"] {
        let (_, page) = read(house.post(path, past).await).await;
        assert!(
            page.contains("The last day away comes before the first."),
            "{page}"
        );
        assert!(page.contains(r#"value="paint" selected"#), "{page}");
        assert!(page.contains(r#"value="2099-06-21""#), "{page}");
        let wrong =
            r#"value="2099-06-01" required aria-invalid="true" aria-describedby="why-away""#;
        assert!(page.contains(wrong), "{page}");
    }
}

#[tokio::test]
async fn hostile_names_stay_text_on_every_page() {
    let house = named(HOSTILE).await;
    let words: String = HOSTILE.bytes().map(|byte| format!("%{byte:02X}")).collect();
    house
        .press(&format!(
            "{}&words={words}",
            fields("hall.walls/skim", "trouble")
        ))
        .await;
    for path in [
        "/j/hall/now",
        "/j/hall/weeks?weeks=all",
        "/j/hall/house",
        "/j/hall/more",
        "/j/hall/work/hall.walls/skim",
        "/j/hall/work/lamp",
        "/j/hall/work/colour",
        "/j/hall/what-if",
        "/j/hall/win-back",
        "/j/hall/forecast",
        "/jobs",
    ] {
        let page = house.page(path).await;
        assert!(page.contains("&lt;script&gt;"), "{path} shows no name");
        for tag in ["<script>", "<img", "onerror=alert(1)>\"", "</title></svg>"] {
            assert!(!page.contains(tag), "{path} holds {tag}");
        }
    }
}

#[tokio::test]
async fn nothing_is_answered_under_another_name_or_to_another_page() {
    let house = hall().await;
    let rebound = Request::get("/j/hall/now").header(header::HOST, "rebind.example:4180");
    let (status, page) = read(house.ask(rebound.body(Body::empty()).unwrap()).await).await;
    assert_eq!(status, StatusCode::FORBIDDEN);
    assert!(!page.contains("The hall"));

    let foreign = Request::post("/j/hall/notes")
        .header(header::HOST, "localhost:4180")
        .header(header::ORIGIN, "http://elsewhere.example")
        .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded")
        .body(Body::from(fields("hall.walls/skim", "start")));
    assert_eq!(
        house.ask(foreign.unwrap()).await.status(),
        StatusCode::FORBIDDEN
    );
    assert!(house.log().await.is_empty());
}

#[tokio::test]
async fn every_answer_shuts_out_what_is_foreign() {
    let house = hall().await;
    for path in [
        "/j/hall/now",
        "/nowhere",
        "/assets/none",
        "/api/jobs/none/plan",
    ] {
        let request = Request::get(path).header(header::HOST, "127.0.0.1:4180");
        let response = house.ask(request.body(Body::empty()).unwrap()).await;
        let policy = response.headers()[header::CONTENT_SECURITY_POLICY]
            .to_str()
            .unwrap()
            .to_owned();
        assert!(policy.contains("default-src 'self'"), "{path}");
        assert!(policy.contains("frame-ancestors 'none'"), "{path}");
        assert!(!policy.contains("unsafe"), "{path}");
        assert_eq!(
            response.headers()[header::X_CONTENT_TYPE_OPTIONS],
            "nosniff",
            "{path}"
        );
        assert_eq!(
            response.headers()[header::REFERRER_POLICY],
            "same-origin",
            "{path}"
        );
    }
    let page = house.page("/j/hall/now").await;
    assert!(!page.contains(" style=") && !page.contains(" onclick="));
    assert!(!page.contains("<style") && page.matches("<script").count() == 1);
}

#[tokio::test]
async fn what_is_not_there_is_said_in_a_sentence() {
    let house = hall().await;
    for path in [
        "/j/none/now",
        "/j/hall/work/none",
        "/nowhere",
        "/j/%2e%2e/now",
        "/j/hall/../x",
    ] {
        let (status, page) = house.get(path).await;
        assert_eq!(status, StatusCode::NOT_FOUND, "{path}");
        assert!(page.contains("That is not here."), "{path}: {page}");
    }
    let (status, answer) = house.get("/api/jobs/none/plan").await;
    assert_eq!(status, StatusCode::NOT_FOUND);
    assert!(answer.contains("There is no job called"), "{answer}");
}

#[tokio::test]
async fn a_program_sends_notes_as_often_as_it_likes() {
    let house = hall().await;
    let send = async |body: &str| {
        let request = Request::post("/api/jobs/hall/notes")
            .header(header::HOST, "localhost:4180")
            .header(header::CONTENT_TYPE, "application/json");
        read(
            house
                .ask(request.body(Body::from(body.to_owned())).unwrap())
                .await,
        )
        .await
    };
    let note = format!(
        r#"[{{"id":"{ONCE}","at":"2026-06-08T14:30:00Z","by":"Ana","about":"hall.walls/skim","kind":"done"}}]"#
    );
    assert_eq!(
        send(&note).await,
        (StatusCode::OK, r#"{"known":0,"new":1}"#.to_owned())
    );
    assert_eq!(
        send(&note).await,
        (StatusCode::OK, r#"{"known":1,"new":0}"#.to_owned())
    );
    assert!(
        house
            .page("/j/hall/work/hall.walls/skim")
            .await
            .contains("Done ")
    );
    let (status, answer) = send(&note.replace("Ana", "Ben")).await;
    assert_eq!(status, StatusCode::CONFLICT);
    assert!(answer.contains("a note is never changed"), "{answer}");
    for bad in ["", "{}", "[{}]", r#"[{"id":1}]"#] {
        let (status, answer) = send(bad).await;
        assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY, "{bad}");
        assert!(answer.contains("The notes could not be read"), "{answer}");
    }
    let empty_by = note.replace("Ana", " ").replace("0001\"", "0002\"");
    let (status, answer) = send(&empty_by).await;
    assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(answer.contains("by is empty"), "{answer}");
}

#[tokio::test]
async fn the_plan_that_is_given_out_passes_the_check() {
    let house = hall().await;
    let plan: grounds_sequence::PlanFile =
        serde_json::from_str(&house.page("/api/jobs/hall/plan").await).unwrap();
    let job = grounds_model::read("job.toml", &house.page("/j/hall/job.toml").await).unwrap();
    let site = grounds_site::fold(&job, &[], plan.at);
    let network = grounds_sequence::Network::build(&job, &site, &[]).unwrap();
    assert_eq!(plan.verify(&network).unwrap(), []);
}

#[tokio::test]
async fn assets_may_be_kept_for_ever_and_are_all_there() {
    let house = hall().await;
    let page = house.page("/j/hall/now").await;
    let urls: Vec<&str> = page
        .split('"')
        .filter(|text| text.starts_with("/assets/"))
        .collect();
    // Style, script and two icons.
    assert_eq!(urls.len(), 4, "{urls:?}");
    for url in urls {
        let request = Request::get(url).header(header::HOST, "localhost");
        let response = house.ask(request.body(Body::empty()).unwrap()).await;
        assert_eq!(response.status(), StatusCode::OK, "{url}");
        let keep = response.headers()[header::CACHE_CONTROL].to_str().unwrap();
        assert!(keep.contains("immutable"), "{url}: {keep}");
    }
}

#[tokio::test]
async fn a_long_body_is_refused() {
    let house = hall().await;
    let response = house.post("/j/hall/notes", &"x".repeat(70_000)).await;
    assert!(response.status().is_client_error());
    assert!(house.log().await.is_empty());
}
