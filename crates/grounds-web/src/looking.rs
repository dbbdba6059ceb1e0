//! From a request to a look at a job.

use std::{collections::BTreeMap, sync::Arc};

use axum::{
    extract::{FromRequestParts, Query, RawPathParams},
    http::request::Parts,
    response::{IntoResponse, Response},
};

use crate::{desk::Desk, desks::Desks, door::Door, fault::Fault, pages, visit::Visit};

/// The desk of the job that the address names, and the look at it.
#[derive(Debug)]
pub(crate) struct Looking {
    /// The job.
    pub(crate) desk: Arc<Desk>,
    /// The look.
    pub(crate) visit: Visit,
}

impl FromRequestParts<Arc<Desks>> for Looking {
    type Rejection = Lost;

    async fn from_request_parts(
        parts: &mut Parts,
        desks: &Arc<Desks>,
    ) -> Result<Self, Self::Rejection> {
        let params = RawPathParams::from_request_parts(parts, desks)
            .await
            .map_err(|error| Lost::new(Fault::Missing(error.to_string())))?;
        let key = params
            .iter()
            .find(|(name, _)| *name == "job")
            .map_or("", |(_, value)| value);
        let desk = desks.desk(key).await?;
        let query = Query::<BTreeMap<String, String>>::try_from_uri(&parts.uri)
            .map_or_else(|_| BTreeMap::new(), |query| query.0);
        let path = parts
            .uri
            .path_and_query()
            .map_or("/", |path| path.as_str())
            .to_owned();
        let visit = Visit::new(
            &desk,
            Door::of(&parts.extensions),
            &parts.headers,
            path,
            query,
        );
        Ok(Self { desk, visit })
    }
}

/// A page that says what went wrong.
#[derive(Debug)]
pub(crate) struct Lost {
    fault: Fault,
    back: String,
}

impl Lost {
    /// A page about a fault that leads to the start page.
    pub(crate) fn new(fault: Fault) -> Self {
        Self {
            fault,
            back: "/".to_owned(),
        }
    }

    /// The same, leading back to a page of ours.
    pub(crate) fn back_to(self, back: &str) -> Self {
        Self {
            back: own_page(back).to_owned(),
            ..self
        }
    }
}

impl From<Fault> for Lost {
    fn from(fault: Fault) -> Self {
        Self::new(fault)
    }
}

impl IntoResponse for Lost {
    fn into_response(self) -> Response {
        (self.fault.status(), pages::lost(&self.fault, &self.back)).into_response()
    }
}

/// A page of ours, or the start page where the address is none of ours.
pub(crate) fn own_page(address: &str) -> &str {
    let plain = address
        .bytes()
        .all(|byte| byte.is_ascii_graphic() && byte != b'\\');
    if plain && address.starts_with("/j/") && address.len() < 500 {
        address
    } else {
        "/"
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_way_back_stays_in_the_house() {
        assert_eq!(own_page("/j/mill/weeks?weeks=6"), "/j/mill/weeks?weeks=6");
        for foreign in [
            "//elsewhere",
            "https://elsewhere",
            "/j/\r\nx: y",
            "/\\elsewhere",
            "",
            "/j/é",
        ] {
            assert_eq!(own_page(foreign), "/", "{foreign}");
        }
    }
}
