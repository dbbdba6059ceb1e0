//! Bundles the style sheet, the font and the scripts with npm, and embeds them.

use std::{
    env,
    error::Error,
    fmt::Write as _,
    fs::{self, File},
    path::{Path, PathBuf},
    process::Command,
};

/// What the bundle is made from, beside the build script itself.
const SOURCES: [&str; 9] = [
    "build.mjs",
    "icons",
    "package.json",
    "package-lock.json",
    ".npmrc",
    "tsconfig.json",
    "src",
    "style",
    "worker",
];

const INSTALL: &str = "Node.js 20 or newer and npm are needed to bundle the pages: install them \
     (on Debian and Ubuntu: apt install nodejs npm) and build again";

fn main() -> Result<(), Box<dyn Error>> {
    let web = Path::new(&env::var("CARGO_MANIFEST_DIR")?)
        .join("../../web")
        .canonicalize()?;
    for source in SOURCES
        .iter()
        .map(|name| web.join(name))
        .filter(|path| path.exists())
    {
        println!("cargo::rerun-if-changed={}", source.display());
    }
    println!("cargo::rerun-if-changed=build.rs");
    let out = PathBuf::from(env::var("OUT_DIR")?).join("assets");

    // Two builds of one checkout take turns in the web folder.
    let turn = File::open(web.join("package.json"))?;
    turn.lock()?;
    install(&web)?;
    npm(&web, &["run", "--silent", "build"])?;
    let files = copy_files(&web.join("dist"), &out)?;
    drop(turn);

    fs::write(out.with_extension("rs"), table(&out, &files)?)?;
    Ok(())
}

/// Installs the packages of the lock file, unless they are in place.
fn install(web: &Path) -> Result<(), Box<dyn Error>> {
    let lock = fs::read(web.join("package-lock.json"))?;
    let mark = web.join("node_modules/.installed-from");
    let wanted = format!("{:016x}", fingerprint(&lock, SEED));
    if fs::read_to_string(&mark).is_ok_and(|found| found == wanted) {
        return Ok(());
    }
    npm(web, &["ci", "--no-audit", "--no-fund"])?;
    fs::write(mark, wanted)?;
    Ok(())
}

fn npm(web: &Path, arguments: &[&str]) -> Result<(), Box<dyn Error>> {
    let program = if cfg!(windows) { "npm.cmd" } else { "npm" };
    let output = Command::new(program)
        .args(arguments)
        .current_dir(web)
        .output()
        .map_err(|error| format!("cannot run npm ({error}). {INSTALL}"))?;
    if output.status.success() {
        return Ok(());
    }
    let said = String::from_utf8_lossy(&output.stderr).into_owned()
        + &String::from_utf8_lossy(&output.stdout);
    Err(format!(
        "npm {} failed in {}:\n{said}\n{INSTALL}",
        arguments.join(" "),
        web.display()
    )
    .into())
}

/// Copies what was bundled, and names it: paths below the folder, with slashes, sorted.
fn copy_files(from: &Path, to: &Path) -> Result<Vec<String>, Box<dyn Error>> {
    if to.exists() {
        fs::remove_dir_all(to)?;
    }
    let mut names = Vec::new();
    let mut folders = vec![PathBuf::new()];
    while let Some(folder) = folders.pop() {
        fs::create_dir_all(to.join(&folder))?;
        for entry in fs::read_dir(from.join(&folder))? {
            let entry = entry?;
            let path = folder.join(entry.file_name());
            if entry.file_type()?.is_dir() {
                folders.push(path);
            } else {
                fs::copy(entry.path(), to.join(&path))?;
                names.push(path.to_string_lossy().replace('\\', "/"));
            }
        }
    }
    names.sort();
    Ok(names)
}

/// The Rust source of the table of files: their stamp, and each with its bytes.
fn table(out: &Path, files: &[String]) -> Result<String, Box<dyn Error>> {
    let mut stamp = SEED;
    let mut rows = String::new();
    for name in files {
        let path = out.join(name);
        stamp = fingerprint(name.as_bytes(), stamp);
        stamp = fingerprint(&fs::read(&path)?, stamp);
        let path = path.to_string_lossy().into_owned();
        writeln!(rows, "    ({name:?}, include_bytes!({path:?})),")?;
    }
    Ok(format!(
        "/// Changes whenever a file does.\npub(crate) const STAMP: &str = \"{stamp:016x}\";\n\n\
         /// Every file with its bytes.\nstatic FILES: &[(&str, &[u8])] = &[\n{rows}];\n"
    ))
}

const SEED: u64 = 0xcbf2_9ce4_8422_2325;

/// FNV-1a, 64 bits: enough to tell one version of our own files from another.
fn fingerprint(bytes: &[u8], seed: u64) -> u64 {
    bytes.iter().fold(seed, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}
