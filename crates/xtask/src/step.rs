//! One step of a task: a program that runs, is shown, and is counted.

use std::{
    ffi::OsStr,
    io::{BufRead, BufReader, Read},
    path::Path,
    process::{Command, Stdio},
    thread,
    time::Instant,
};

/// A program to run as a step, with the name that a failure is told by.
pub(crate) struct Step {
    name: &'static str,
    command: Command,
}

impl Step {
    /// A step that runs a program in the root of the checkout.
    pub(crate) fn new(name: &'static str, program: impl AsRef<OsStr>) -> Self {
        let mut command = Command::new(program);
        command.current_dir(crate::root());
        Self { name, command }
    }

    /// A step that runs cargo.
    pub(crate) fn cargo(name: &'static str) -> Self {
        Self::new(
            name,
            std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()),
        )
    }

    /// With arguments, separated by spaces.
    pub(crate) fn args(mut self, arguments: &str) -> Self {
        self.command.args(arguments.split_whitespace());
        self
    }

    /// With one more argument.
    pub(crate) fn arg(mut self, argument: impl AsRef<OsStr>) -> Self {
        self.command.arg(argument);
        self
    }

    /// With a variable of the environment.
    pub(crate) fn env(mut self, key: &str, value: impl AsRef<OsStr>) -> Self {
        self.command.env(key, value);
        self
    }

    /// In another folder.
    pub(crate) fn within(mut self, folder: &Path) -> Self {
        self.command.current_dir(folder);
        self
    }

    /// Runs it, shows what it prints, and gives what it said on standard output and standard error.
    pub(crate) fn run(mut self) -> Result<String, String> {
        let began = Instant::now();
        println!("\n== {}", self.name);
        self.command
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped());
        let mut child = self.command.spawn().map_err(|error| {
            let program = self.command.get_program().to_string_lossy();
            format!("{} failed: {program} cannot be run: {error}", self.name)
        })?;
        let out = child.stdout.take();
        let err = child.stderr.take();
        let err = thread::spawn(move || {
            err.map_or_else(String::new, |err| copy(err, |l| eprintln!("{l}")))
        });
        let mut said = out.map_or_else(String::new, |out| copy(out, |line| println!("{line}")));
        said.push_str(&err.join().unwrap_or_default());
        let status = child
            .wait()
            .map_err(|error| format!("{} failed: {error}", self.name))?;
        if !status.success() {
            return Err(format!("{} failed; what it said is above.", self.name));
        }
        println!(
            "   {} took {:.0} s",
            self.name,
            began.elapsed().as_secs_f64()
        );
        Ok(said)
    }

    /// Runs it without showing it, and gives its standard output.
    pub(crate) fn output(mut self) -> Result<String, String> {
        let output = self
            .command
            .output()
            .map_err(|error| format!("{} failed: {error}", self.name))?;
        // A command that answers no ends with 1 and complains of nothing.
        let is_an_answer = output.status.code() == Some(1) && output.stderr.is_empty();
        if !output.status.success() && !is_an_answer {
            let said = String::from_utf8_lossy(&output.stderr);
            return Err(format!("{} failed:\n{said}", self.name));
        }
        Ok(String::from_utf8_lossy(&output.stdout).into_owned())
    }
}

/// Passes lines on as they come, and keeps them.
fn copy(from: impl Read, show: impl Fn(&str)) -> String {
    let mut kept = String::new();
    for line in BufReader::new(from).lines().map_while(Result::ok) {
        show(&line);
        kept.push_str(&line);
        kept.push('\n');
    }
    kept
}

/// Sums up the numbers that stand before `word` in what test runners print: `12 passed`.
pub(crate) fn counted(said: &str, word: &str) -> usize {
    let plain = without_colours(said);
    let words: Vec<&str> = plain.split_whitespace().collect();
    words
        .windows(2)
        .filter(|pair| pair[1].trim_end_matches([',', ';', '.', ')']) == word)
        .filter_map(|pair| pair[0].trim_start_matches('(').parse::<usize>().ok())
        .sum()
}

fn without_colours(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    let mut chars = text.chars();
    while let Some(c) = chars.next() {
        if c == '\u{1b}' {
            for c in chars.by_ref() {
                if c.is_ascii_alphabetic() {
                    break;
                }
            }
        } else {
            plain.push(c);
        }
    }
    plain
}

#[cfg(test)]
mod tests {
    use super::counted;

    #[test]
    fn passed_tests_are_counted_in_the_words_of_every_runner() {
        let said = "test result: ok. 3 passed; 0 failed\n\
                    Summary [ 1.2s] 40 tests run: \u{1b}[1m40\u{1b}[0m passed, 2 skipped\n\
                    \u{1b}[32m  7 passed\u{1b}[39m (12s)\n";
        assert_eq!(counted(said, "passed"), 50);
    }
}
