//! Photos in and out.

use std::sync::Arc;

use axum::{
    Extension, Json,
    body::Bytes,
    extract::{Path, State, rejection::BytesRejection},
    http::{HeaderMap, HeaderValue, StatusCode, header},
    response::{IntoResponse, Response},
};
use grounds_photo::{Ready, Refused, look, ready};
use grounds_store::{Facing, Size, Taken};
use jiff::Timestamp;
use serde_json::json;
use tokio::task::spawn_blocking;

use crate::{
    api,
    desks::{DRAWN_AT_ONCE, Desks},
    door::Door,
    fault::Fault,
    looking::Lost,
    pages::STILL_ON_THE_PHONE,
    say, visit,
};

/// A photo never changes: its address is made from what it shows.
const FOR_EVER: HeaderValue = HeaderValue::from_static("private, max-age=31536000, immutable");

type Keyed = Path<(String, String)>;

/// Answers `PUT /api/jobs/{job}/photos/{key}`: the photo is looked at with care, drawn anew without
/// its tags, and kept. Sending it again does nothing. Once answered, it is on the disk.
pub(crate) async fn take(
    State(desks): State<Arc<Desks>>,
    Path((job, key)): Keyed,
    Extension(door): Extension<Door>,
    headers: HeaderMap,
    body: Result<Bytes, BytesRejection>,
) -> Result<Response, api::Refused> {
    let desk = desks.desk(&job).await?;
    let taken = Taken {
        at: taken_at(&headers)?,
        facing: facing(&headers)?,
        by: visit::who(&door, &headers),
    };
    let body = body.map_err(|error| not_arrived(&error))?;
    check_key(&key, &body)?;
    let known = desks
        .store()
        .has_photo(&job, &key)
        .await
        .map_err(Fault::from)?;
    if known {
        return Ok(Json(json!({ "key": key })).into_response());
    }
    let picture = drawn(&desks, body).await?;
    let kept = desks.store().add_photo(&job, &key, &picture, &taken).await;
    desk.show_photo(kept.map_err(Fault::from)?);
    Ok((StatusCode::CREATED, Json(json!({ "key": key }))).into_response())
}

/// Draws a photo anew, beside the threads that answer others; few at a time, a large one alone.
async fn drawn(desks: &Desks, body: Bytes) -> Result<Ready, Fault> {
    let looked = look(&body)?;
    let share = if looked.is_large() { DRAWN_AT_ONCE } else { 1 };
    let turn = desks.drawing.acquire_many(share).await;
    let _turn = turn.map_err(|error| Fault::Broke(error.to_string()))?;
    let drawn = spawn_blocking(move || ready(&body));
    Ok(drawn.await.map_err(Fault::broke_off)??)
}

/// Whether the bytes are those that the key names.
fn check_key(key: &str, body: &[u8]) -> Result<(), Fault> {
    let hash = ring::digest::digest(&ring::digest::SHA256, body);
    let hex: String = hash.as_ref().iter().map(|b| format!("{b:02x}")).collect();
    if hex == key {
        return Ok(());
    }
    let is_key = key.len() == 64 && key.bytes().all(|c| c.is_ascii_hexdigit());
    Err(Fault::Input(if is_key {
        "The bytes that arrived are not those that the key names; send the photo again.".to_owned()
    } else {
        format!(
            "“{}” is no key of a photo; it is the SHA-256 of its bytes in 64 lower-case hexadecimal \
             digits.",
            say::cut(key, 80)
        )
    }))
}

fn not_arrived(error: &BytesRejection) -> Fault {
    if error.status() == StatusCode::PAYLOAD_TOO_LARGE {
        return Fault::Photo(Refused::TooLong);
    }
    Fault::Input("The photo did not arrive whole; send it again.".to_owned())
}

fn text<'a>(headers: &'a HeaderMap, name: &str) -> Option<&'a str> {
    let value = headers.get(name)?;
    Some(value.to_str().unwrap_or("?").trim()).filter(|text| !text.is_empty())
}

fn taken_at(headers: &HeaderMap) -> Result<Option<Timestamp>, Fault> {
    let read = |text: &str| {
        text.parse().map_err(|_| {
            Fault::Input(format!(
                "x-taken “{}” is no moment; write one like 2027-06-10T07:10:00+01:00.",
                say::cut(text, 60)
            ))
        })
    };
    text(headers, "x-taken").map(read).transpose()
}

fn facing(headers: &HeaderMap) -> Result<Option<Facing>, Fault> {
    let read = |text: &str| {
        let degrees = text.parse().ok().and_then(Facing::from_degrees);
        degrees.ok_or_else(|| {
            Fault::Input(format!(
                "x-facing “{}” is no direction; write degrees from north, 0 to 359.9.",
                say::cut(text, 60)
            ))
        })
    };
    text(headers, "x-facing").map(read).transpose()
}

/// Answers `GET /j/{job}/photos/{key}`.
pub(crate) async fn whole(
    State(desks): State<Arc<Desks>>,
    Path((job, key)): Keyed,
) -> Result<Response, Lost> {
    picture(&desks, &job, &key, Size::Whole).await
}

/// Answers `GET /j/{job}/photos/{key}/small`.
pub(crate) async fn small(
    State(desks): State<Arc<Desks>>,
    Path((job, key)): Keyed,
) -> Result<Response, Lost> {
    picture(&desks, &job, &key, Size::Small).await
}

async fn picture(desks: &Desks, job: &str, key: &str, size: Size) -> Result<Response, Lost> {
    let missing = || Lost::new(Fault::Missing(STILL_ON_THE_PHONE.to_owned()));
    let found = desks.store().picture(job, key, size).await;
    let bytes = match found {
        Err(grounds_store::StoreError::Photos(error)) => {
            return Err(Lost::new(Fault::Broke(error.to_string())));
        }
        found => found.ok().flatten().ok_or_else(missing)?,
    };
    let headers = [
        (header::CONTENT_TYPE, HeaderValue::from_static("image/jpeg")),
        (header::CACHE_CONTROL, FOR_EVER),
        (
            header::CONTENT_DISPOSITION,
            HeaderValue::from_static("inline; filename=\"photo.jpg\""),
        ),
    ];
    Ok((headers, bytes).into_response())
}
