//! Whether a need is met.

/// Whether a need is met. Told by line and shape; colour only repeats it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Verdict {
    /// It holds, the worst case too.
    #[default]
    Holds,
    /// It will mostly hold.
    Tight,
    /// It does not hold.
    Fails,
}

impl Verdict {
    pub(crate) fn class(self) -> &'static str {
        match self {
            Self::Holds => "holds",
            Self::Tight => "tight",
            Self::Fails => "fails",
        }
    }
}
