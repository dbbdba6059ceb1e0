//! A server with one house in it, asked as a browser would.

#![allow(
    dead_code,
    unreachable_pub,
    clippy::unwrap_used,
    reason = "each test file uses its own part of this; a test stops at the first surprise"
)]

use axum::{
    Router,
    body::Body,
    http::{Request, Response, StatusCode, header},
};
use grounds_site::Note;
use grounds_store::Store;
use grounds_web::{Config, pages};
use http_body_util::BodyExt;
use tempfile::TempDir;
use tower::ServiceExt;

/// A name that tries everything.
pub const HOSTILE: &str =
    "<script>alert(1)</script>\"'&amp;</title></svg><img src=x onerror=alert(1)>";

/// A house of one hall, in which one face is painted.
pub const PAINTED_HALL: &str = r#"
format = 1

[job]
name = "NAME"
units = "UNITS"
zone = "Europe/London"
begins = "2027-05-24"
calendar = "week"

[calendars.week]
days = ["mon", "tue", "wed", "thu", "fri"]
hours = ["08:00-16:00"]

[trades.paint]
name = "Paint"

[levels.ground]
name = "Ground"
height = "0 mm"

[places.hall]
name = "Hall"
level = "ground"
entrance = true
size = "4 m x 3 m x 2.5 m"

[places.hall.faces.walls]
name = "Walls"
kind = "wall"
build_up = "painted"

[build_ups.painted]
name = "Painted"

[[build_ups.painted.layers]]
id = "paint"
name = "Paint"
material = "paint"
trade = "paint"
takes = "2 h"
"#;

/// The document of a house in which `"NAME"` stands for a name and `UNITS` for the units.
pub fn document(house: &str, name: &str, units: &str) -> String {
    let quoted = toml::Value::String(name.to_owned()).to_string();
    house.replace("\"NAME\"", &quoted).replace("UNITS", units)
}

/// A server with one house in it, under the key `hall`.
pub struct House {
    pub router: Router,
    _data: TempDir,
}

impl House {
    /// Serves a document in which `"NAME"` stands for a name and `UNITS` for the units.
    pub async fn of(house: &str, name: &str, units: &str) -> Self {
        let data = tempfile::tempdir().unwrap();
        let store = Store::open(data.path()).await.unwrap();
        let document = document(house, name, units);
        let read = grounds_model::read("job.toml", &document);
        assert!(read.is_ok(), "{}", read.unwrap_err());
        store.put_job("hall", &document).await.unwrap();
        store.close().await;
        let config = Config {
            data: Some(data.path().to_owned()),
            ..Config::default()
        };
        Self {
            router: pages(&config).await.unwrap(),
            _data: data,
        }
    }

    pub async fn ask(&self, request: Request<Body>) -> Response<Body> {
        self.router.clone().oneshot(request).await.unwrap()
    }

    pub async fn get(&self, path: &str) -> (StatusCode, String) {
        let request = Request::get(path).header(header::HOST, "localhost:4180");
        read(self.ask(request.body(Body::empty()).unwrap()).await).await
    }

    pub async fn page(&self, path: &str) -> String {
        let (status, page) = self.get(path).await;
        assert_eq!(status, StatusCode::OK, "{path}: {page}");
        page
    }

    pub async fn post(&self, path: &str, fields: &str) -> Response<Body> {
        let request = Request::post(path)
            .header(header::HOST, "localhost:4180")
            .header(header::ORIGIN, "http://localhost:4180")
            .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded");
        self.ask(request.body(Body::from(fields.to_owned())).unwrap())
            .await
    }

    /// Presses a button, and gives the address that the answer leads to.
    pub async fn press(&self, fields: &str) -> (StatusCode, String) {
        let response = self.post("/j/hall/notes", fields).await;
        let to = response.headers().get(header::LOCATION);
        let to = to.map_or_else(String::new, |to| to.to_str().unwrap().to_owned());
        (response.status(), to)
    }

    /// Sends a form, and gives the page that the answer leads to.
    pub async fn sent(&self, path: &str, fields: &str) -> String {
        let response = self.post(path, fields).await;
        assert_eq!(response.status(), StatusCode::SEE_OTHER);
        let to = response.headers()[header::LOCATION].to_str().unwrap();
        self.page(to).await
    }

    pub async fn log(&self) -> Vec<Note> {
        let (notes, faults) =
            grounds_site::read_notes("log", &self.page("/j/hall/notes.jsonl").await);
        assert!(faults.is_empty(), "{faults:?}");
        notes
    }
}

/// The status of an answer, and what it says.
pub async fn read(response: Response<Body>) -> (StatusCode, String) {
    let status = response.status();
    let bytes = response.into_body().collect().await.unwrap().to_bytes();
    (status, String::from_utf8(bytes.to_vec()).unwrap())
}
