//! The versions of the command set, in the order in which they came. Source: data sheet p.90-91.

/// A version.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "each is a version number")]
pub enum Level {
    V10,
    V11,
    V12,
    V13,
    V13a,
    V14,
    V14b,
    V20,
    V21,
    V22,
}

impl Level {
    /// The number, as in `firmware_differences.csv`.
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::V10 => "1.0",
            Self::V11 => "1.1",
            Self::V12 => "1.2",
            Self::V13 => "1.3",
            Self::V13a => "1.3a",
            Self::V14 => "1.4",
            Self::V14b => "1.4b",
            Self::V20 => "2.0",
            Self::V21 => "2.1",
            Self::V22 => "2.2",
        }
    }
}
