//! Lists the files of the starter library, so that a new file in `library/` is found by itself.

use std::{env, fs, io, path::Path};

fn main() -> io::Result<()> {
    println!("cargo::rerun-if-changed=library");
    let root = env::var("CARGO_MANIFEST_DIR").map_err(io::Error::other)?;
    let out = env::var("OUT_DIR").map_err(io::Error::other)?;
    let mut files = Vec::new();
    if let Ok(folder) = fs::read_dir(Path::new(&root).join("library")) {
        for entry in folder {
            let path = entry?.path();
            if path
                .extension()
                .is_some_and(|extension| extension == "toml")
            {
                files.push(path);
            }
        }
    }
    files.sort();
    let rows: Vec<String> = files
        .iter()
        .filter_map(|path| {
            let name = path.file_name()?.to_str()?;
            Some(format!("({name:?}, include_str!({:?}))", path.to_str()?))
        })
        .collect();
    fs::write(
        Path::new(&out).join("library.rs"),
        format!("&[{}]", rows.join(",\n")),
    )
}
