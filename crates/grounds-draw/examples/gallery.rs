//! Writes every drawing of this crate to one HTML page, to be looked at:
//!
//! `cargo run -p grounds-draw --example gallery -- out.html web/dist/app.css [weeks|house|sheet] [two|six|all]`

#[path = "gallery/mill.rs"]
mod mill;

use grounds_draw::{Hatch, Zoom, hatch_defs, house, sheet_key, stack_mark, stack_section, weeks};
use std::process::ExitCode;

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let [out, css, rest @ ..] = words.as_slice() else {
        eprintln!("usage: gallery OUT.html APP.css [weeks|house|sheet] [two|six|all]");
        return ExitCode::from(2);
    };
    let page = match rest.first().map(String::as_str) {
        Some("house") => page("House", css, &house(&mill::house())),
        Some("sheet") => page("Now", css, &sheet()),
        _ => page("Weeks", css, &weeks_page(rest.get(1).map(String::as_str))),
    };
    match std::fs::write(out, &page) {
        Ok(()) => {
            println!("{out}: {} bytes", page.len());
            ExitCode::SUCCESS
        }
        Err(fault) => {
            eprintln!("{out} cannot be written: {fault}");
            ExitCode::FAILURE
        }
    }
}

fn weeks_page(zoom: Option<&str>) -> String {
    let (zoom, days) = match zoom {
        Some("all") => (Zoom::AllWeeks, 140),
        Some("six") => (Zoom::SixWeeks, 42),
        _ => (Zoom::TwoWeeks, 14),
    };
    format!(
        "<div class=\"tools\"><nav class=\"pick\" aria-label=\"How far ahead\"><a href=\"?weeks=2\" aria-current=\"true\">\
         2 weeks</a><a href=\"?weeks=6\">6 weeks</a><a href=\"?weeks=all\">All</a></nav></div>{}{}",
        weeks(&mill::weeks(zoom, days)),
        sheet_key(&Hatch::ALL)
    )
}

fn sheet() -> String {
    let walls = mill::faces();
    let rows: String = walls
        .iter()
        .map(|face| {
            format!(
                "<li class=\"row\">{}<div class=\"row-words\"><h4 class=\"row-name\"><a href=\"/why/1\">{name}</a></h4>\
                 <p class=\"row-why\">5 h, <b>must not stop</b>. Opens 4 things, glass measure first.</p></div>\
                 <form class=\"row-do\"><button class=\"can\">Start</button></form>\
                 <details class=\"row-more fold trouble\"><summary>Trouble</summary></details></li>",
                stack_mark(&face.name, &face.layers),
                name = face.name
            )
        })
        .collect();
    let sections: String = walls
        .iter()
        .map(|face| format!("<figure class=\"face\">{}</figure>", stack_section(face)))
        .collect();
    format!(
        "<header class=\"opening\"><h1>Eleven things can start today. Four causes hold up the rest.</h1>\
         <p class=\"lead\">Finish <b>14 August</b>. <span class=\"soft\">No order of work can beat 7 August.</span></p></header>\
         <div class=\"columns\"><section class=\"part\"><h2>In hand and can start</h2><h3 class=\"trade\">Plaster \
         <span>· 1 of 1 crew</span></h3><ul class=\"rows\">{rows}</ul></section><section class=\"part\"><h2>Held up by</h2>\
         <article class=\"cause\"><h3>Stair glass, not delivered</h3><p class=\"cause-how\">Ordered 4 May, promised 22 June, \
         3 days later than needed</p><p>Holds <b>23 activities</b> and <b>6 days</b> of the finish.</p></article>\
         <article class=\"cause breach\"><h3>Flood test failed</h3><p class=\"cause-how\">Level fell 6 mm in 24 h</p></article>\
         <p class=\"notice\">Measure the niche first.</p></section></div>\
         <section class=\"part\"><h2>Sections</h2>{sections}</section>"
    )
}

fn page(current: &str, css: &str, body: &str) -> String {
    let bar: String = ["Now", "Weeks", "House"]
        .iter()
        .map(|word| {
            let mark = if *word == current {
                " aria-current=\"page\""
            } else {
                ""
            };
            format!("<li><a href=\"/\"{mark}>{word}</a></li>")
        })
        .collect();
    let wide = if current == "Weeks" { " wide" } else { "" };
    format!(
        "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width, \
         initial-scale=1\"><title>{current}</title><link rel=\"stylesheet\" href=\"{css}\"><body>{}<header \
         class=\"masthead\"><a class=\"job-name\" href=\"/\">Alder Sluice</a><nav class=\"bar\"><ul>{bar}</ul></nav>\
         <p class=\"clock\">Thursday 11 June, 7:10</p></header><main class=\"page{wide}\">{body}</main>\
         <footer><dl class=\"title-block\"><div><dt>Job</dt><dd>Alder Sluice</dd></div><div><dt>Plan made</dt><dd>Thu 11 June, \
         7:09</dd></div><div><dt>Written down</dt><dd><span class=\"saved\" id=\"saved\">Saved 7:12</span></dd></div></dl>\
         </footer></body></html>",
        hatch_defs()
    )
}
