//! How long a page of the mill takes when its plan is warm, and a press of a button with the plan
//! that follows.

#![expect(
    clippy::expect_used,
    reason = "a benchmark that cannot start has nothing to measure"
)]

use axum::{
    Router,
    body::Body,
    http::{Request, header},
};
use criterion::{Criterion, criterion_group, criterion_main};
use grounds_web::{Config, pages};
use http_body_util::BodyExt;
use tower::ServiceExt;

async fn get(router: &Router, path: &str) -> usize {
    let request = Request::get(path).header(header::HOST, "localhost");
    let response = router
        .clone()
        .oneshot(request.body(Body::empty()).expect("a request"));
    let body = response.await.expect("an answer").into_body();
    body.collect().await.expect("a page").to_bytes().len()
}

/// A remark: a note that changes nothing but has to be planned for all the same.
async fn press(router: &Router, count: u64) {
    let id = format!("01974f0c-86a0-7000-8000-{count:012x}");
    let note = format!(
        r#"[{{"id":"{id}","at":"2027-06-10T05:00:00Z","by":"Ana","about":"job","kind":"remark"}}]"#
    );
    let request = Request::post("/api/jobs/alder-sluice/notes")
        .header(header::HOST, "localhost")
        .header(header::CONTENT_TYPE, "application/json");
    let response = router
        .clone()
        .oneshot(request.body(Body::from(note)).expect("a request"));
    assert!(response.await.expect("an answer").status().is_success());
}

fn mill(criterion: &mut Criterion) {
    let data = tempfile::tempdir().expect("a folder");
    let runtime = tokio::runtime::Runtime::new().expect("a runtime");
    let config = Config {
        data: Some(data.path().to_owned()),
        demo: true,
        ..Config::default()
    };
    let router = runtime.block_on(pages(&config)).expect("the demo");
    for page in [
        "now",
        "weeks",
        "weeks?weeks=all",
        "house",
        "fit",
        "fit/need/kitchen-slot-grille.flush",
        "fit/opening/wheel-opening",
        "work/stair-glass",
        "more",
    ] {
        let path = format!("/j/alder-sluice/{page}");
        runtime.block_on(get(&router, &path));
        criterion.bench_function(&format!("{page}, plan warm"), |bench| {
            bench.iter(|| runtime.block_on(get(&router, &path)));
        });
    }
    let mut count = 0;
    criterion.bench_function("a note written and planned for", |bench| {
        bench.iter(|| {
            count += 1;
            runtime.block_on(press(&router, count));
        });
    });
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(20);
    targets = mill
}
criterion_main!(benches);
