//! Which address is answered by what.

use std::{sync::Arc, time::Duration};

use axum::{
    Json, Router,
    extract::{DefaultBodyLimit, Path, State},
    http::{StatusCode, header},
    middleware,
    response::{IntoResponse, Redirect, Response},
    routing::{get, post, put},
};
use grounds_lines::asked::Question;
use maud::Markup;
use tower_http::{compression::CompressionLayer, timeout::TimeoutLayer};

use crate::{
    api, assets, covering,
    desks::Desks,
    fault::Fault,
    fit::reading,
    guard, joining,
    looking::{Looking, Lost},
    offline,
    pages::{self, Tab},
    phones::Phones,
    photos, supposing, surveying, taking, talk,
    visit::Visit,
    walking, winning, writing,
};

/// The longest form, in bytes.
const LONGEST_FORM: usize = 64 * 1024;

/// The longest list of notes, in bytes.
const LONGEST_NOTES: usize = 8 * 1024 * 1024;

/// How long an answer may take.
const PATIENCE: Duration = Duration::from_secs(30);

/// How long a photo may take to arrive, from the far end of the house.
const PATIENCE_FOR_PHOTOS: Duration = Duration::from_secs(180);

/// Everything that is answered through the desk's door.
pub(crate) fn desk_door(desks: Arc<Desks>) -> Router {
    pages_and_api(desks).layer(middleware::from_fn(guard::desk))
}

/// Everything that is answered through the phones' door.
pub(crate) fn phones_door(desks: Arc<Desks>, phones: Arc<Phones>) -> Router {
    let joining = Router::new()
        .route("/join", get(joining::ask).post(joining::join))
        .route("/join/certificate", get(joining::certificate))
        .route(
            "/join/certificate/grounds.crt",
            get(joining::certificate_file),
        )
        .layer(DefaultBodyLimit::max(LONGEST_FORM))
        .layer(patience(PATIENCE))
        .with_state(phones.clone());
    pages_and_api(desks)
        .merge(joining)
        .layer(middleware::from_fn_with_state(phones, guard::phones))
}

fn patience(how_long: Duration) -> TimeoutLayer {
    TimeoutLayer::with_status_code(StatusCode::REQUEST_TIMEOUT, how_long)
}

/// Everything but joining, whoever asks.
fn pages_and_api(desks: Arc<Desks>) -> Router {
    Router::new()
        .route("/", get(front))
        .route("/jobs", get(jobs))
        .route("/j/{job}/now", get(now))
        .route("/j/{job}/walk", get(walk).post(walking::write))
        .route("/j/{job}/walk.json", get(walk_known))
        .route("/j/{job}/weeks", get(weeks))
        .route("/j/{job}/house", get(house))
        .route("/j/{job}/fit", get(fit))
        .route("/j/{job}/fit/need/{key}", get(need))
        .route("/j/{job}/fit/need/{key}/paper", get(paper))
        .route(
            "/j/{job}/fit/need/{key}/section.dxf",
            get(taking::section_file),
        )
        .route("/j/{job}/fit/opening/{key}", get(opening))
        .route("/j/{job}/fit/stair/{key}", get(stair))
        .route("/j/{job}/fit/plane/{key}", get(plane))
        .route("/j/{job}/fit/read", get(read).post(taking::read))
        .route("/j/{job}/fit/set-out", get(set_out_list))
        .route("/j/{job}/fit/set-out/{what}", get(set_out))
        .route("/j/{job}/fit/decide", post(taking::decide))
        .route("/j/{job}/behind", get(behind))
        .route("/j/{job}/cover", get(cover))
        .route("/j/{job}/cover/hold/{key}", get(hold))
        .route("/j/{job}/cover/let-go", post(covering::let_go))
        .route("/j/{job}/cover/seen", post(covering::seen))
        .route("/j/{job}/rules", get(rules))
        .route("/j/{job}/rules/decide", post(taking::decide_rule))
        .route("/j/{job}/rules/{rule}/{about}", get(rule))
        .route("/j/{job}/rules/work-out", get(rule_index))
        .route("/j/{job}/rules/work-out/{rule}", get(work_out))
        .route("/j/{job}/survey", get(survey))
        .route("/j/{job}/survey/in/{place}", get(survey_room))
        .route("/j/{job}/survey/mark", post(surveying::mark))
        .route("/j/{job}/survey/piece", post(surveying::piece))
        .route("/j/{job}/survey/back", post(surveying::take_back))
        .route("/j/{job}/survey/decide", post(surveying::decided))
        .route("/j/{job}/more", get(more))
        .route("/j/{job}/live", get(live))
        .route("/j/{job}/forecast", get(forecast))
        .route("/j/{job}/win-back", get(win_back).post(winning::look))
        .route("/j/{job}/what-if", get(what_if).post(supposing::suppose))
        .route("/j/{job}/what-if/enter", post(supposing::enter))
        .route("/j/{job}/win-back/order", post(winning::order))
        .route("/j/{job}/work/{*key}", get(work))
        .route("/j/{job}/notes", post(writing::press))
        .route("/j/{job}/back", post(writing::take_back))
        .route("/j/{job}/who", post(writing::name))
        .route("/j/{job}/phones", get(joining::phones))
        .route("/j/{job}/phones/code", post(joining::let_join))
        .route("/j/{job}/phones/revoke", post(joining::revoke))
        .route(
            "/j/{job}/phones/grounds.crt",
            get(joining::certificate_from_desk),
        )
        .route("/j/{job}/photos/{key}", get(photos::whole))
        .route("/j/{job}/photos/{key}/small", get(photos::small))
        .route(
            "/j/{job}/walks",
            get(talk::list)
                .post(talk::take_in)
                .layer(DefaultBodyLimit::max(talk::LONGEST_FORM)),
        )
        .route("/j/{job}/walks/{id}", get(talk::show))
        .route("/j/{job}/walks/{id}/accept", post(talk::accept_together))
        .route("/j/{job}/walks/{id}/answer", post(talk::answer))
        .route("/j/{job}/walks/{id}/mend", get(talk::mend))
        .route("/j/{job}/job.toml", get(document))
        .route("/j/{job}/notes.jsonl", get(log))
        .route("/api/jobs/{job}/plan", get(api::plan))
        .route(
            "/api/jobs/{job}/notes",
            post(api::notes).layer(DefaultBodyLimit::max(LONGEST_NOTES)),
        )
        .route("/assets/{*path}", get(assets::get))
        .route("/manifest.webmanifest", get(offline::manifest))
        .route("/sw.js", get(offline::worker))
        .route("/favicon.ico", get(|| async { StatusCode::NO_CONTENT }))
        .fallback(|| async { Lost::new(Fault::Missing("There is no such page.".to_owned())) })
        .layer(DefaultBodyLimit::max(LONGEST_FORM))
        .layer(patience(PATIENCE))
        .merge(photos_in())
        // A page of the mill is 290 kB as text and 26 kB packed: on a phone that is a second.
        .layer(CompressionLayer::new())
        .with_state(desks)
}

/// Photos in: they are long, and may take long.
fn photos_in() -> Router<Arc<Desks>> {
    Router::new()
        .route("/api/jobs/{job}/photos/{key}", put(photos::take))
        .layer(DefaultBodyLimit::max(grounds_photo::LONGEST_BYTES))
        .layer(patience(PATIENCE_FOR_PHOTOS))
}

async fn front(State(desks): State<Arc<Desks>>) -> Result<Response, Lost> {
    if let Some(key) = &desks.front {
        return Ok(Redirect::to(&format!("/j/{key}/now")).into_response());
    }
    let jobs = desks.list().await?;
    Ok(match jobs.as_slice() {
        [(key, ..)] => Redirect::to(&format!("/j/{key}/now")).into_response(),
        _ => pages::jobs(&jobs).into_response(),
    })
}

async fn jobs(State(desks): State<Arc<Desks>>) -> Result<Markup, Lost> {
    Ok(pages::jobs(&desks.list().await?))
}

async fn now(Looking { visit, .. }: Looking) -> Markup {
    pages::frame(&visit, "Now", Some(Tab::Now), &pages::now(&visit))
}

async fn walk(Looking { visit, .. }: Looking) -> Result<Markup, Lost> {
    let Some((title, page)) = pages::walk(&visit) else {
        let why = "There is no such place in this job.".to_owned();
        return Err(Lost::new(Fault::Missing(why)).back_to(&visit.to("walk")));
    };
    let scripts = [assets::url("walk.js")];
    let frame = pages::frame_with(&visit, &title, Some(Tab::Walk), &page, &scripts);
    Ok(frame)
}

async fn walk_known(Looking { visit, .. }: Looking) -> Json<walking::Known> {
    Json(walking::Known::of(&visit))
}

async fn weeks(Looking { visit, .. }: Looking) -> Markup {
    pages::frame(&visit, "Weeks", Some(Tab::Weeks), &pages::weeks(&visit))
}

async fn fit(Looking { visit, .. }: Looking) -> Markup {
    pages::frame(&visit, "Fit", Some(Tab::Fit), &pages::fit(&visit))
}

/// A page below Fit, or that there is none of that key.
fn below_fit(visit: &Visit, key: &str, inside: Option<Markup>) -> Result<Markup, Lost> {
    match inside {
        Some(inside) => {
            let named = visit.picture.fit.need(key);
            let title = named.map_or("Fit", |(answer, _)| answer.name.as_str());
            Ok(pages::frame(visit, title, Some(Tab::Fit), &inside))
        }
        None => {
            let shown = crate::say::cut(key, 120);
            let why = format!("There is nothing called “{shown}” on the pages of fit.");
            Err(Lost::new(Fault::Missing(why)).back_to(&visit.to("fit")))
        }
    }
}

type Keyed = Path<(String, String)>;

async fn need(Looking { visit, .. }: Looking, Path((_, key)): Keyed) -> Result<Markup, Lost> {
    below_fit(&visit, &key, pages::need(&visit, &key))
}

async fn paper(Looking { visit, .. }: Looking, Path((_, key)): Keyed) -> Result<Markup, Lost> {
    let index = visit.asked("n").and_then(|n| n.parse().ok()).unwrap_or(0);
    let at = pages::paper_scale(visit.asked("at"));
    below_fit(&visit, &key, pages::paper(&visit, &key, at, index))
}

async fn opening(Looking { visit, .. }: Looking, Path((_, key)): Keyed) -> Result<Markup, Lost> {
    below_fit(&visit, &key, pages::opening(&visit, &key))
}

async fn stair(Looking { visit, .. }: Looking, Path((_, key)): Keyed) -> Result<Markup, Lost> {
    below_fit(&visit, &key, pages::stair(&visit, &key))
}

async fn plane(Looking { visit, .. }: Looking, Path((_, key)): Keyed) -> Result<Markup, Lost> {
    below_fit(&visit, &key, pages::plane(&visit, &key))
}

async fn read(Looking { visit, .. }: Looking) -> Result<Markup, Lost> {
    let about = visit.asked("about").unwrap_or_default();
    let what = visit.asked("what").unwrap_or_default();
    let (job, site) = (&visit.picture.job, &visit.picture.site);
    let page = reading(job, site, about, what)
        .map(|take| pages::read(&visit, &take, visit.asked("need"), &pages::Typed::default()));
    below_fit(&visit, about, page)
}

async fn cover(Looking { visit, .. }: Looking) -> Markup {
    pages::frame(&visit, "Cover", Some(Tab::Cover), &pages::cover(&visit))
}

async fn behind(Looking { visit, .. }: Looking) -> Markup {
    let inside = pages::behind(&visit);
    pages::frame(&visit, "Behind the wall", Some(Tab::Cover), &inside)
}

async fn hold(Looking { visit, .. }: Looking, Path((_, key)): Keyed) -> Result<Markup, Lost> {
    let Some(inside) = pages::hold(&visit, &key) else {
        let shown = crate::say::cut(&key, 120);
        let why = format!("There is no test or inspection called “{shown}” in this job.");
        return Err(Lost::new(Fault::Missing(why)).back_to(&visit.to("cover")));
    };
    let named = visit.picture.job.holds.get(key.as_str());
    let title = named.map_or("Cover", |hold| hold.name.as_str());
    Ok(pages::frame(&visit, title, Some(Tab::Cover), &inside))
}

async fn rules(Looking { visit, .. }: Looking) -> Markup {
    pages::frame(&visit, "Rules", None, &pages::rules(&visit))
}

async fn rule(
    Looking { visit, .. }: Looking,
    Path((_, rule, about)): Path<(String, String, String)>,
) -> Result<Markup, Lost> {
    let key = format!("{rule}/{about}");
    let page = pages::rule(&visit, &key).ok_or_else(|| no_rule(&visit, &key))?;
    Ok(pages::frame(&visit, "Rules", None, &page))
}

async fn rule_index(Looking { visit, .. }: Looking) -> Markup {
    pages::frame(&visit, "Work one out", None, &pages::rule_index(&visit))
}

async fn work_out(
    Looking { visit, .. }: Looking,
    Path((_, rule)): Keyed,
) -> Result<Response, Lost> {
    let (page, read) = pages::work_out(&visit, &rule).ok_or_else(|| no_rule(&visit, &rule))?;
    let status = if read {
        StatusCode::OK
    } else {
        StatusCode::UNPROCESSABLE_ENTITY
    };
    Ok((status, pages::frame(&visit, "Work one out", None, &page)).into_response())
}

fn no_rule(visit: &Visit, key: &str) -> Lost {
    let shown = crate::say::cut(key, 120);
    let why = format!("There is no rule called “{shown}” here.");
    Lost::new(Fault::Missing(why)).back_to(&visit.to("rules"))
}

async fn set_out_list(Looking { visit, .. }: Looking) -> Markup {
    pages::frame(
        &visit,
        "Set out",
        Some(Tab::Fit),
        &pages::set_out_list(&visit),
    )
}

async fn set_out(Looking { visit, .. }: Looking, Path((_, what)): Keyed) -> Result<Response, Lost> {
    let Some(question) = Question::named(&what) else {
        let shown = crate::say::cut(&what, 120);
        let why = format!("Nothing called “{shown}” can be set out.");
        return Err(Lost::new(Fault::Missing(why)).back_to(&visit.to("fit/set-out")));
    };
    // A long cut list is reckoned beside the threads that answer others.
    let asked = tokio::task::spawn_blocking(move || {
        let (inside, is_sound) = pages::set_out(&visit, question);
        let page = pages::frame(&visit, question.title(), Some(Tab::Fit), &inside);
        (page, is_sound)
    });
    let (page, is_sound) = asked.await.map_err(Fault::broke_off)?;
    let status = if is_sound {
        StatusCode::OK
    } else {
        StatusCode::UNPROCESSABLE_ENTITY
    };
    Ok((status, page).into_response())
}

async fn house(Looking { visit, .. }: Looking) -> Markup {
    pages::frame(&visit, "House", Some(Tab::House), &pages::house(&visit))
}

async fn survey(Looking { visit, .. }: Looking) -> Markup {
    pages::frame(&visit, "Survey", None, &pages::survey(&visit))
}

async fn survey_room(
    Looking { visit, .. }: Looking,
    Path((_, place)): Keyed,
) -> Result<Markup, Lost> {
    let Some(inside) = pages::survey_room(&visit, &place) else {
        let shown = crate::say::cut(&place, 120);
        let why = format!("There is no place called “{shown}” in this job.");
        return Err(Lost::new(Fault::Missing(why)).back_to(&visit.to("survey")));
    };
    Ok(pages::frame(&visit, "Survey", None, &inside))
}

async fn more(Looking { visit, .. }: Looking) -> Markup {
    pages::frame(&visit, "More", Some(Tab::More), &pages::more(&visit))
}

async fn forecast(Looking { visit, .. }: Looking) -> Markup {
    pages::frame(
        &visit,
        "How sure the dates are",
        None,
        &pages::forecast(&visit),
    )
}

async fn win_back(Looking { visit, .. }: Looking) -> Markup {
    pages::frame(&visit, "Win time back", None, &pages::win_back(&visit))
}

async fn what_if(Looking { visit, .. }: Looking) -> Markup {
    pages::frame(&visit, "What if", None, &pages::what_if(&visit, None))
}

async fn live(Looking { visit, .. }: Looking) -> Json<pages::Live> {
    Json(pages::Live::asked(&visit))
}

async fn work(
    Looking { visit, .. }: Looking,
    Path((_, key)): Path<(String, String)>,
) -> Result<Response, Lost> {
    let network = &visit.picture.outlook.network;
    let Some(id) = network.find(&key) else {
        // What was just noted may have ended it: a look that finds nothing leaves no work behind.
        if let Some(wrote) = visit.just_written() {
            let to = format!("{}?wrote={wrote}", visit.to("now"));
            return Ok(Redirect::to(&to).into_response());
        }
        let shown = crate::say::cut(&key, 120);
        let why = format!("There is no work called “{shown}” in this job.");
        return Err(Lost::new(Fault::Missing(why)).back_to(&visit.to("now")));
    };
    let title = visit.words().task(id);
    Ok(pages::frame(&visit, &title, None, &pages::work(&visit, id)).into_response())
}

async fn document(
    State(desks): State<Arc<Desks>>,
    Path(key): Path<String>,
) -> Result<Response, Lost> {
    let text = desks.document(&key).await?;
    Ok(([(header::CONTENT_TYPE, "text/plain; charset=utf-8")], text).into_response())
}

async fn log(Looking { visit, .. }: Looking) -> Result<Response, Lost> {
    let text = grounds_site::write_notes(&visit.picture.notes)
        .map_err(|error| Fault::Broke(error.to_string()))?;
    Ok(([(header::CONTENT_TYPE, "text/plain; charset=utf-8")], text).into_response())
}
