//! How a command ends: exit codes and troubles.

use std::{fmt, io, path::Path, process::ExitCode};

/// How a command ended. The codes are part of what users rely on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Ending {
    /// All is well: 0.
    Fine,
    /// Something cannot be met or does not fit, or a plan breaks a rule of its job: 1.
    CannotBeMet,
    /// What was given cannot be used: 2.
    BadInput,
    /// Something else failed: 3.
    Failed,
}

impl From<Ending> for ExitCode {
    fn from(ending: Ending) -> Self {
        Self::from(match ending {
            Ending::Fine => 0,
            Ending::CannotBeMet => 1,
            Ending::BadInput => 2,
            Ending::Failed => 3,
        })
    }
}

/// Why a command could not do its work.
#[derive(Debug)]
pub(crate) enum Trouble {
    /// What was given cannot be used; the sentence says how to mend it.
    Input(String),
    /// Something else failed.
    Failure(String),
    /// A report was printed already; nothing is left to say.
    Reported(Ending),
}

impl Trouble {
    /// A file that could not be read or written.
    pub(crate) fn file(doing: &str, path: &Path, error: &io::Error) -> Self {
        let sentence = format!("cannot {doing} {}: {error}", path.display());
        match error.kind() {
            io::ErrorKind::NotFound | io::ErrorKind::InvalidInput => Self::Input(sentence),
            _ => Self::Failure(sentence),
        }
    }

    /// The exit code that goes with it.
    pub(crate) fn ending(&self) -> Ending {
        match self {
            Self::Input(_) => Ending::BadInput,
            Self::Failure(_) => Ending::Failed,
            Self::Reported(ending) => *ending,
        }
    }
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Input(sentence) | Self::Failure(sentence) => f.write_str(sentence),
            Self::Reported(_) => Ok(()),
        }
    }
}
