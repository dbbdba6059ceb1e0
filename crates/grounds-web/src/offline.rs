//! What makes the pages an app that opens without a signal: the worker that keeps them on the
//! phone, and the manifest that puts them on its home screen.

use axum::{
    http::header,
    response::{IntoResponse, Response},
};
use serde_json::json;

use crate::assets;

/// Answers `GET /sw.js`: the worker, told which files belong to this version. A browser takes it
/// for a new one as soon as any of them changes.
pub(crate) async fn worker() -> Response {
    let kept = assets::names().filter(|name| is_kept(name));
    let kept: Vec<String> = kept
        .map(|name| match name.starts_with("fonts/") {
            // The style sheet names the fonts without a stamp.
            true => format!("/assets/{name}"),
            false => assets::url(name),
        })
        .collect();
    let told = json!({ "stamp": assets::STAMP, "files": kept });
    let script = String::from_utf8_lossy(assets::bytes("sw.js").unwrap_or_default());
    let kind = [
        (header::CONTENT_TYPE, "text/javascript; charset=utf-8"),
        (header::CACHE_CONTROL, "no-cache"),
    ];
    (kind, format!("self.grounds={told};\n{script}")).into_response()
}

/// Whether a file is needed without a signal.
fn is_kept(name: &str) -> bool {
    matches!(name, "app.css" | "app.js" | "walk.js" | "icon.svg") || name.ends_with(".woff2")
}

/// Answers `GET /manifest.webmanifest`.
pub(crate) async fn manifest() -> Response {
    let icon = |name: &str, sizes: &str, kind: &str, purpose: &str| json!({ "src": assets::url(name), "sizes": sizes, "type": kind, "purpose": purpose });
    let told = json!({
        "name": "Grounds",
        "short_name": "Grounds",
        "description": "What can start, what holds the rest, and the walk through the house.",
        "start_url": "/",
        "scope": "/",
        "display": "standalone",
        "background_color": "#f6f2e9",
        "theme_color": "#f6f2e9",
        "icons": [
            icon("icon.svg", "any", "image/svg+xml", "any"),
            icon("icon-192.png", "192x192", "image/png", "any"),
            icon("icon-512.png", "512x512", "image/png", "any"),
            icon("icon-512.png", "512x512", "image/png", "maskable"),
        ],
    });
    let kind = [(header::CONTENT_TYPE, "application/manifest+json")];
    (kind, told.to_string()).into_response()
}
