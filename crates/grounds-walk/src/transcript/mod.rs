//! Timed transcripts: what a recogniser or a person wrote down of a walk.
//!
//! Read are WebVTT, SubRip (`.srt`), lines that begin with a time stamp (`[1:05]`, `1:05`,
//! `0:01:05.500`, or a range with an arrow), and plain text without times. Whatever comes in, the
//! work is bounded: what is too long is cut, and what was cut is told.

mod clock;
mod markup;
mod speaker;
mod srt;
mod stamped;
mod vtt;

use serde::Serialize;
use thiserror::Error;

/// The longest file that is read, in bytes.
pub const LARGEST_FILE: usize = 16 * 1024 * 1024;
/// The most cues that are kept.
pub const MOST_CUES: usize = 20_000;
/// The longest text of one cue that is kept, in characters.
pub const LONGEST_CUE: usize = 4_000;
/// The most remarks about a file that are kept.
pub const MOST_REMARKS: usize = 50;

/// How a transcript was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Form {
    /// WebVTT, as the W3C describes it.
    Vtt,
    /// SubRip: numbered cues with commas in their times.
    Srt,
    /// Lines that begin with a time.
    Stamped,
    /// Lines without times.
    Plain,
}

/// A stretch of talk with its time.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Cue {
    /// When it begins, in milliseconds from the start of the walk; none in plain text.
    pub at_ms: Option<u64>,
    /// When it ends, where the transcript says so.
    pub until_ms: Option<u64>,
    /// Who speaks, where the transcript says so.
    pub speaker: Option<String>,
    /// What was said, without markup, on one line.
    pub text: String,
}

/// What was left out of a transcript or mended in it, and where.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Remark {
    /// The line of the file, counted from 1.
    pub line: usize,
    /// What was done and how the file could be mended.
    pub what: String,
}

/// A transcript that was read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Transcript {
    /// How it was written.
    pub form: Form,
    /// The talk, in the order of the file.
    pub cues: Vec<Cue>,
    /// What was left out or mended.
    pub remarks: Vec<Remark>,
}

/// Why a transcript could not be read at all.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum TranscriptError {
    /// The file is too long to be a walk.
    #[error(
        "the transcript has {bytes} bytes and at most {LARGEST_FILE} are read; split it by hour"
    )]
    TooLong {
        /// How long it is.
        bytes: usize,
    },
    /// Nothing was said.
    #[error(
        "there is no talk in the transcript; a line of it looks like: [1:05] Kitchen. Units are in."
    )]
    Empty,
}

/// Reads a transcript in any of the forms, found out from the text itself.
///
/// # Errors
///
/// When the text is longer than [`LARGEST_FILE`] or holds no talk. Smaller faults are mended and
/// told in [`Transcript::remarks`].
///
/// ```
/// let walk = grounds_walk::transcript::read("[1:05] Hall. Boards are down.")?;
/// assert_eq!(walk.cues[0].at_ms, Some(65_000));
/// # Ok::<(), grounds_walk::transcript::TranscriptError>(())
/// ```
pub fn read(text: &str) -> Result<Transcript, TranscriptError> {
    if text.len() > LARGEST_FILE {
        return Err(TranscriptError::TooLong { bytes: text.len() });
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let lines = lines_of(text);
    let form = form_of(&lines);
    let mut sink = Sink::default();
    match form {
        Form::Vtt => vtt::read(&lines, &mut sink),
        Form::Srt => srt::read(&lines, &mut sink),
        Form::Stamped | Form::Plain => stamped::read(&lines, &mut sink),
    }
    let Sink { mut cues, remarks } = sink;
    cues.retain(|cue| !cue.text.is_empty());
    if cues.is_empty() {
        return Err(TranscriptError::Empty);
    }
    speaker::take_labels(&mut cues);
    Ok(Transcript {
        form,
        cues,
        remarks,
    })
}

/// Lines as WebVTT ends them: at CRLF, LF or CR.
fn lines_of(text: &str) -> Vec<&str> {
    let mut lines = Vec::new();
    for line in text.split('\n') {
        let line = line.strip_suffix('\r').unwrap_or(line);
        lines.extend(line.split('\r'));
    }
    lines
}

/// Which form the lines have; decided by the first lines that say something.
fn form_of(lines: &[&str]) -> Form {
    if lines.first().is_some_and(|line| vtt::is_signature(line)) {
        return Form::Vtt;
    }
    let mut said = lines.iter().filter(|line| !line.trim().is_empty()).take(40);
    if said.clone().any(|line| srt::is_timing(line)) {
        return Form::Srt;
    }
    if said.any(|line| stamped::stamp(line).is_some()) {
        return Form::Stamped;
    }
    Form::Plain
}

/// Where the readers put what they read, within bounds.
#[derive(Debug, Default)]
struct Sink {
    cues: Vec<Cue>,
    remarks: Vec<Remark>,
}

impl Sink {
    fn remark(&mut self, line: usize, what: impl Into<String>) {
        if self.remarks.len() < MOST_REMARKS {
            self.remarks.push(Remark {
                line,
                what: what.into(),
            });
        }
    }

    /// Adds a cue; false when no more fit.
    fn add(&mut self, line: usize, mut cue: Cue) -> bool {
        if self.cues.len() == MOST_CUES {
            let what = format!("more than {MOST_CUES} cues; the rest was left out, split the file");
            self.remark(line, what);
            return false;
        }
        cue.text = one_line(&cue.text);
        if let Some((end, _)) = cue.text.char_indices().nth(LONGEST_CUE) {
            cue.text.truncate(end);
            let what = format!("a cue longer than {LONGEST_CUE} characters was cut; split it");
            self.remark(line, what);
        }
        self.cues.push(cue);
        true
    }
}

/// The text with all white space and control characters made single spaces.
fn one_line(text: &str) -> String {
    let mut out = String::with_capacity(text.len().min(4 * LONGEST_CUE));
    let mut gap = false;
    for c in text.chars() {
        if c.is_whitespace() || c.is_control() {
            gap = !out.is_empty();
        } else {
            if gap {
                out.push(' ');
                gap = false;
            }
            out.push(c);
        }
    }
    out
}
