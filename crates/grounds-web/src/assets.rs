//! The style sheet, the font and the scripts, embedded.

use axum::{
    extract::Path,
    http::{HeaderValue, StatusCode, header},
    response::{IntoResponse, Response},
};

include!(concat!(env!("OUT_DIR"), "/assets.rs"));

/// An address with the stamp changes with the files, so a browser may keep them for ever.
const FOR_EVER: HeaderValue = HeaderValue::from_static("public, max-age=31536000, immutable");

/// An address without it (the font, named in the style sheet) is looked up again each day.
const FOR_A_DAY: HeaderValue = HeaderValue::from_static("public, max-age=86400");

/// The address of a file, with the stamp of all of them.
pub(crate) fn url(name: &str) -> String {
    format!("/assets/{STAMP}/{name}")
}

/// The bytes of a file, if there is one of that name.
pub(crate) fn bytes(name: &str) -> Option<&'static [u8]> {
    FILES
        .iter()
        .find(|(known, _)| *known == name)
        .map(|(_, bytes)| *bytes)
}

/// The names of all files.
pub(crate) fn names() -> impl Iterator<Item = &'static str> {
    FILES.iter().map(|(name, _)| *name)
}

/// Answers `GET /assets/{path}`.
pub(crate) async fn get(Path(path): Path<String>) -> Response {
    let stamped = path
        .strip_prefix(STAMP)
        .and_then(|rest| rest.strip_prefix('/'));
    let (name, keep) = match stamped {
        Some(name) => (name, FOR_EVER),
        None => (path.as_str(), FOR_A_DAY),
    };
    let Some(bytes) = bytes(name) else {
        return StatusCode::NOT_FOUND.into_response();
    };
    let kind = HeaderValue::from_static(kind(name));
    (
        [(header::CONTENT_TYPE, kind), (header::CACHE_CONTROL, keep)],
        bytes,
    )
        .into_response()
}

fn kind(name: &str) -> &'static str {
    match name.rsplit_once('.').map_or("", |(_, ending)| ending) {
        "css" => "text/css; charset=utf-8",
        "js" => "text/javascript; charset=utf-8",
        "woff2" => "font/woff2",
        "png" => "image/png",
        "svg" => "image/svg+xml",
        "txt" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}
