//! Photos through the door: taken once, shown without tags, refused with a reason.

#![allow(
    clippy::unwrap_used,
    reason = "the test fails where something is not as it should be"
)]

mod served;

use std::io::Cursor;

use axum::{
    body::Body,
    http::{HeaderMap, Request, StatusCode, header},
};
use grounds_photo::LONGEST_BYTES;
use http_body_util::BodyExt;
use image::{ImageFormat, Rgb, RgbImage};
use served::{House, PAINTED_HALL, read};

/// A JPEG with a place in a comment.
fn photo() -> Vec<u8> {
    let drawn = RgbImage::from_fn(400, 300, |x, y| Rgb([(x / 2) as u8, (y / 2) as u8, 90]));
    let mut out = Cursor::new(Vec::new());
    drawn.write_to(&mut out, ImageFormat::Jpeg).unwrap();
    let plain = out.into_inner();
    let comment = b"\xff\xfe\x00\x0eGPS 52N 002W";
    [&plain[..2], comment, &plain[2..]].concat()
}

fn key(bytes: &[u8]) -> String {
    let hash = ring::digest::digest(&ring::digest::SHA256, bytes);
    hash.as_ref().iter().map(|b| format!("{b:02x}")).collect()
}

async fn hall() -> House {
    House::of(PAINTED_HALL, "The hall", "metric").await
}

async fn send(
    house: &House,
    key: &str,
    bytes: &[u8],
    said: &[(&str, &str)],
) -> (StatusCode, String) {
    let mut request = Request::put(format!("/api/jobs/hall/photos/{key}"))
        .header(header::HOST, "localhost:4180")
        .header(header::COOKIE, "who=Ana");
    for (name, value) in said {
        request = request.header(*name, *value);
    }
    let request = request.body(Body::from(bytes.to_vec())).unwrap();
    read(house.ask(request).await).await
}

async fn picture(house: &House, path: &str) -> (StatusCode, HeaderMap, Vec<u8>) {
    let request = Request::get(path).header(header::HOST, "localhost:4180");
    let response = house.ask(request.body(Body::empty()).unwrap()).await;
    let (parts, body) = response.into_parts();
    let bytes = body.collect().await.unwrap().to_bytes().to_vec();
    (parts.status, parts.headers, bytes)
}

#[tokio::test]
async fn a_photo_is_taken_once_and_shown_without_its_tags() {
    let house = hall().await;
    let (photo, key) = (photo(), key(&photo()));
    let said = [
        ("x-taken", "2027-06-10T07:10:00+01:00"),
        ("x-facing", "271.5"),
    ];
    let (status, answer) = send(&house, &key, &photo, &said).await;
    assert_eq!(status, StatusCode::CREATED, "{answer}");
    assert_eq!(answer, format!("{{\"key\":\"{key}\"}}"));
    let (status, again) = send(&house, &key, &photo, &[]).await;
    assert_eq!((status, again), (StatusCode::OK, answer));

    for (path, longest) in [("", 400), ("/small", 320)] {
        let (status, headers, bytes) =
            picture(&house, &format!("/j/hall/photos/{key}{path}")).await;
        assert_eq!(status, StatusCode::OK);
        assert_eq!(headers[header::CONTENT_TYPE], "image/jpeg");
        assert_eq!(headers[header::X_CONTENT_TYPE_OPTIONS], "nosniff");
        assert_eq!(
            headers[header::CACHE_CONTROL],
            "private, max-age=31536000, immutable"
        );
        let drawn = image::load_from_memory(&bytes).unwrap();
        assert_eq!(drawn.width(), longest);
        assert!(!bytes.windows(3).any(|part| part == b"GPS"));
    }
}

#[tokio::test]
async fn a_note_shows_its_photo_or_that_it_is_still_on_the_phone() {
    let house = hall().await;
    let key = key(&photo());
    let note = format!(
        r#"[{{"id":"01974f0c-86a0-7000-8000-000000000001","at":"2026-06-10T06:12:00Z","by":"Ana",
            "about":"hall.walls/paint","kind":"started","photos":["{key}"]}}]"#
    );
    let request = Request::post("/api/jobs/hall/notes")
        .header(header::HOST, "localhost:4180")
        .header(header::CONTENT_TYPE, "application/json");
    let (status, said) = read(house.ask(request.body(Body::from(note)).unwrap()).await).await;
    assert_eq!(status, StatusCode::OK, "{said}");
    let page = house.page("/j/hall/work/hall.walls/paint").await;
    assert!(page.contains("still on the phone that took it") && !page.contains("<img"));
    let (status, ..) = picture(&house, &format!("/j/hall/photos/{key}")).await;
    assert_eq!(status, StatusCode::NOT_FOUND);

    let said = [
        ("x-taken", "2027-06-10T07:10:00+01:00"),
        ("x-facing", "271.5"),
    ];
    send(&house, &key, &photo(), &said).await;
    let page = house.page("/j/hall/work/hall.walls/paint").await;
    assert!(
        page.contains(&format!("/j/hall/photos/{key}/small")),
        "{page}"
    );
    assert!(
        page.contains("Photo by Ana, Thu 10 June, 7:10, looking west"),
        "{page}"
    );
    assert!(!page.contains("still on the phone"));
}

#[tokio::test]
async fn what_is_no_photo_is_refused_with_a_reason() {
    let house = hall().await;
    let photo = photo();
    let cases: [(&[u8], StatusCode, &str); 5] = [
        (b"", StatusCode::UNPROCESSABLE_ENTITY, "empty"),
        (
            b"<!doctype html><script>",
            StatusCode::UNSUPPORTED_MEDIA_TYPE,
            "a text",
        ),
        (b"GIF89a...", StatusCode::UNSUPPORTED_MEDIA_TYPE, "a GIF"),
        (
            &photo[..photo.len() / 2],
            StatusCode::UNPROCESSABLE_ENTITY,
            "ends in the middle",
        ),
        (
            &vec![0xff; LONGEST_BYTES + 1],
            StatusCode::PAYLOAD_TOO_LARGE,
            "longer than the 12 MB",
        ),
    ];
    for (bytes, expected, said) in cases {
        let (status, answer) = send(&house, &key(bytes), bytes, &[]).await;
        assert_eq!(status, expected, "{answer}");
        assert!(
            answer.starts_with("{\"error\":\"") && answer.contains(said),
            "{answer}"
        );
    }
}

#[tokio::test]
async fn a_photo_under_a_wrong_key_is_refused() {
    let house = hall().await;
    let other = "0".repeat(64);
    let (status, answer) = send(&house, &other, &photo(), &[]).await;
    assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(answer.contains("not those that the key names"), "{answer}");
    for bad in ["short", "..%2f..%2fetc", "%3Cscript%3E"] {
        let (status, answer) = send(&house, bad, &photo(), &[]).await;
        assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY, "{bad}");
        assert!(answer.contains("is no key of a photo"), "{answer}");
    }
    let request = Request::put(format!("/api/jobs/barn/photos/{}", key(&photo())))
        .header(header::HOST, "localhost:4180")
        .body(Body::from(photo()));
    let (status, _) = read(house.ask(request.unwrap()).await).await;
    assert_eq!(status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn what_is_said_of_a_photo_is_read_with_care() {
    let house = hall().await;
    let photo = photo();
    for (name, bad) in [
        ("x-taken", "yesterday"),
        ("x-taken", "2027-06-10"),
        ("x-facing", "north"),
        ("x-facing", "360"),
        ("x-facing", "-1"),
        ("x-facing", "NaN"),
    ] {
        let (status, answer) = send(&house, &key(&photo), &photo, &[(name, bad)]).await;
        assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY, "{name} {bad}");
        assert!(answer.contains(name), "{answer}");
    }
}
