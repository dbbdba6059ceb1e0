//! What no page answers without: the right host, the right origin, and headers that let nothing
//! else in.

use std::sync::Arc;

use axum::{
    extract::{Request, State},
    http::{HeaderMap, HeaderValue, Method, StatusCode, header},
    middleware::Next,
    response::{IntoResponse, Response},
};

use crate::{
    door::Door,
    joining,
    looking::Lost,
    phones::{Phones, Proven},
};

/// Only our own files: no script or style in a page, nothing from elsewhere, in nobody's frame.
const POLICY: &str = "default-src 'self'; script-src 'self'; style-src 'self'; img-src 'self'; \
     object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'";

/// What is answered through the phones' door before a phone has joined: joining itself, and files
/// that are part of this program and the same for everybody.
const BEFORE_JOINING: [&str; 5] = [
    "/join",
    "/join/certificate",
    "/sw.js",
    "/manifest.webmanifest",
    "/favicon.ico",
];

/// The same, for everything below.
const BELOW_BEFORE_JOINING: [&str; 2] = ["/assets/", "/join/certificate/"];

/// Watches the desk's door: refuses requests that came in under another host's name, and writes
/// that came from another page, and closes every answer to anything foreign.
pub(crate) async fn desk(mut request: Request, next: Next) -> Response {
    let headers = request.headers();
    let mut response = if !is_this_machine(headers) {
        refuse("This address is not ours. Open http://localhost/ with the port that was printed.")
    } else if is_write(&request) && !is_own_page(headers, "http://") {
        refuse(ANOTHER_PAGE)
    } else {
        request.extensions_mut().insert(Door::Desk);
        next.run(request).await
    };
    close(response.headers_mut());
    response
}

/// Watches the phones' door: the same, for the hosts that its certificate is for, and of the rest
/// answers only phones that have joined.
pub(crate) async fn phones(
    State(phones): State<Arc<Phones>>,
    mut request: Request,
    next: Next,
) -> Response {
    let headers = request.headers();
    let host = host(headers);
    let mut response = if !phones.certificate.is_for(host) {
        refuse("This address is not ours. Open the one that the desk shows.")
    } else if is_write(&request) && !is_own_page(headers, "https://") {
        refuse(ANOTHER_PAGE)
    } else if is_before_joining(request.uri().path()) {
        request.extensions_mut().insert(Door::Stranger);
        next.run(request).await
    } else {
        match phones.proven(headers).await {
            Ok(Proven::Joined(person)) => {
                request.extensions_mut().insert(Door::Phone(person));
                next.run(request).await
            }
            Ok(Proven::ShutOut) => joining::shut_out(request.uri().path()),
            Ok(Proven::Nothing) => joining::not_joined(&request),
            Err(fault) => Lost::new(fault).into_response(),
        }
    };
    close(response.headers_mut());
    response
}

const ANOTHER_PAGE: &str =
    "That was sent from another page. Open Grounds itself and press the button there.";

fn is_write(request: &Request) -> bool {
    !matches!(*request.method(), Method::GET | Method::HEAD)
}

fn is_before_joining(path: &str) -> bool {
    BEFORE_JOINING.contains(&path) || BELOW_BEFORE_JOINING.iter().any(|at| path.starts_with(at))
}

/// The host that the browser asked for.
fn host(headers: &HeaderMap) -> &str {
    headers
        .get(header::HOST)
        .and_then(|host| host.to_str().ok())
        .unwrap_or_default()
}

fn refuse(why: &'static str) -> Response {
    (StatusCode::FORBIDDEN, why).into_response()
}

/// Whether the host that the browser asked for is this machine: a name on the net that was made to
/// point here is not.
fn is_this_machine(headers: &HeaderMap) -> bool {
    let host = host(headers);
    let name = match host.rsplit_once(':') {
        Some((name, port)) if port.bytes().all(|byte| byte.is_ascii_digit()) => name,
        _ => host,
    };
    matches!(
        name.to_ascii_lowercase().as_str(),
        "localhost" | "127.0.0.1" | "[::1]"
    )
}

/// Whether a write was sent by one of our own pages, or by no page at all (a program that is not a
/// browser says neither where from nor what for).
fn is_own_page(headers: &HeaderMap, scheme: &str) -> bool {
    let text = |name: &str| headers.get(name).and_then(|value| value.to_str().ok());
    let site = match text("sec-fetch-site") {
        Some(site) => matches!(site, "same-origin" | "none"),
        None => true,
    };
    let origin = match text("origin") {
        Some(origin) => origin
            .strip_prefix(scheme)
            .zip(text("host"))
            .is_some_and(|(from, here)| from.eq_ignore_ascii_case(here)),
        None => !headers.contains_key("origin"),
    };
    site && origin
}

fn close(headers: &mut HeaderMap) {
    let fixed = [
        (header::CONTENT_SECURITY_POLICY, POLICY),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (header::X_FRAME_OPTIONS, "DENY"),
        (header::REFERRER_POLICY, "same-origin"),
    ];
    for (name, value) in fixed {
        headers.insert(name, HeaderValue::from_static(value));
    }
    headers.insert(
        "cross-origin-opener-policy",
        HeaderValue::from_static("same-origin"),
    );
    headers.insert(
        "cross-origin-resource-policy",
        HeaderValue::from_static("same-origin"),
    );
    headers
        .entry(header::CACHE_CONTROL)
        .or_insert(HeaderValue::from_static("no-store"));
}

#[cfg(test)]
mod tests {
    use super::*;

    fn headers(pairs: &[(&'static str, &'static str)]) -> HeaderMap {
        pairs
            .iter()
            .map(|(name, value)| (name.parse().unwrap(), HeaderValue::from_static(value)))
            .collect()
    }

    #[test]
    fn a_name_that_was_made_to_point_here_is_refused() {
        for good in ["localhost:4180", "127.0.0.1", "[::1]:4180", "LOCALHOST"] {
            assert!(is_this_machine(&headers(&[("host", good)])), "{good}");
        }
        for bad in [
            "",
            "rebind.example:4180",
            "localhost.example",
            "127.0.0.1.example:80",
            "::1",
        ] {
            assert!(!is_this_machine(&headers(&[("host", bad)])), "{bad}");
        }
        assert!(!is_this_machine(&HeaderMap::new()));
    }

    #[test]
    fn a_write_from_another_page_is_refused() {
        let host = ("host", "localhost:4180");
        assert!(is_own_page(&headers(&[host]), "http://"));
        assert!(is_own_page(
            &headers(&[host, ("origin", "http://localhost:4180")]),
            "http://"
        ));
        for origin in [
            "http://localhost:9",
            "https://localhost:4180",
            "null",
            "http://elsewhere",
        ] {
            assert!(
                !is_own_page(&headers(&[host, ("origin", origin)]), "http://"),
                "{origin}"
            );
        }
        assert!(!is_own_page(
            &headers(&[host, ("sec-fetch-site", "cross-site")]),
            "http://"
        ));
        assert!(!is_own_page(
            &headers(&[host, ("sec-fetch-site", "same-site")]),
            "http://"
        ));
        assert!(is_own_page(
            &headers(&[host, ("sec-fetch-site", "same-origin")]),
            "http://"
        ));
    }
}
