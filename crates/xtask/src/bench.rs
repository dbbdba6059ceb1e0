//! `cargo xtask bench`: the benchmarks.

use crate::step::Step;

pub(crate) fn run() -> Result<(), String> {
    Step::cargo("Benchmarks")
        .args("bench --workspace --benches")
        .run()
        .map(|_| ())
}
