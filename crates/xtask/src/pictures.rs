//! `cargo xtask pictures`: the pictures of the README, drawn by the program itself.

use std::{
    fs,
    io::{BufRead, BufReader},
    path::Path,
    process::{Child, Command, Stdio},
};

use crate::{release, root, step::Step, target, tools};

/// Pages to draw: file, path, width and height in CSS pixels.
const PICTURES: [(&str, &str, u32, u32); 3] = [
    ("now-phone.png", "/j/alder-sluice/now", 500, 1000),
    ("weeks-desk.png", "/j/alder-sluice/weeks", 1280, 900),
    ("house-desk.png", "/j/alder-sluice/house", 1280, 900),
];

pub(crate) fn run() -> Result<(), String> {
    let chromium = tools::chromium()?;
    Step::cargo("Release build")
        .args("build --release --quiet --package grounds")
        .run()?;
    let folder = root().join("docs/pictures");
    fs::create_dir_all(&folder)
        .map_err(|error| format!("{} cannot be made: {error}", folder.display()))?;
    let (mut server, address) = serve()?;
    let drawn = PICTURES
        .iter()
        .try_for_each(|picture| draw(&chromium, &address, &folder, picture));
    // It is stopped whether or not the pictures could be drawn.
    let _ = server.kill();
    let _ = server.wait();
    drawn?;
    println!("\nThe pictures are in {}.", folder.display());
    Ok(())
}

/// Starts the demo on a free port and reads the address that it prints.
fn serve() -> Result<(Child, String), String> {
    let mut server = Command::new(release("grounds"))
        .args(["serve", "--demo", "--listen", "127.0.0.1:0"])
        .stdout(Stdio::piped())
        .spawn()
        .map_err(|error| format!("The demo cannot be served: {error}"))?;
    let lines = server.stdout.take().map(|out| BufReader::new(out).lines());
    let address = lines
        .into_iter()
        .flatten()
        .map_while(Result::ok)
        .find_map(|line| {
            line.split_whitespace()
                .find(|word| word.starts_with("http://"))
                .map(str::to_owned)
        });
    match address {
        Some(address) => Ok((server, address.trim_end_matches('/').to_owned())),
        None => {
            let _ = server.kill();
            Err("The demo was served, but printed no address.".to_owned())
        }
    }
}

fn draw(
    chromium: &Path,
    address: &str,
    folder: &Path,
    &(file, path, width, height): &(&str, &str, u32, u32),
) -> Result<(), String> {
    Step::new("Drawing a page", chromium)
        .args("--headless=new --no-sandbox --disable-gpu --hide-scrollbars --force-device-scale-factor=2")
        .args("--force-color-profile=srgb --virtual-time-budget=3000")
        .arg(format!("--user-data-dir={}", target().join("chromium").display()))
        .arg(format!("--window-size={width},{height}"))
        .arg(format!("--screenshot={}", folder.join(file).display()))
        .arg(format!("{address}{path}"))
        .output()
        .map(|_| ())
}
