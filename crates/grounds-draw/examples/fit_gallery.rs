//! Writes the drawings of fit to one HTML page, to be looked at:
//!
//! `cargo run -p grounds-draw --example fit_gallery -- out.html web/dist/app.css [phone|desk|1:1|1:2|1:5]`

#[path = "gallery/fit.rs"]
mod fit;

use grounds_draw::{Medium, Scale, hatch_defs};
use std::process::ExitCode;

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let [out, css, rest @ ..] = words.as_slice() else {
        eprintln!("usage: fit_gallery OUT.html APP.css [phone|desk|1:1|1:2|1:5]");
        return ExitCode::from(2);
    };
    let medium = match rest.first().map(String::as_str) {
        Some("phone") => Medium::Phone,
        Some("1:1") => Medium::Paper(Scale::Full),
        Some("1:2") => Medium::Paper(Scale::Half),
        Some("1:5") => Medium::Paper(Scale::Fifth),
        _ => Medium::Desk,
    };
    let drawings: String = fit::drawings(medium)
        .iter()
        .map(|(name, drawing)| {
            format!("<section class=\"part\"><h2>{name}</h2>{drawing}</section>")
        })
        .collect();
    let page = format!(
        "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width, \
         initial-scale=1\"><title>Fit</title><link rel=\"stylesheet\" href=\"{css}\"><body>{}<main class=\"page\">\
         {drawings}</main></body></html>",
        hatch_defs()
    );
    match std::fs::write(out, &page) {
        Ok(()) => ExitCode::SUCCESS,
        Err(fault) => {
            eprintln!("{out} cannot be written: {fault}");
            ExitCode::FAILURE
        }
    }
}
