//! Whether output is emboldened.
//!
//! In: the option, the environment. Out: yes or no. Not here: what is written (`screen.rs`, `log.rs`).

/// When to use colour. We use it only to embolden; nothing depends on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, clap::ValueEnum)]
pub enum Colour {
    /// On a terminal, unless NO_COLOR is set.
    #[default]
    Auto,
    /// Always.
    Always,
    /// Never.
    Never,
}

impl Colour {
    /// Whether it is wanted where a terminal looks, or where none does.
    pub fn wanted(self, terminal: bool) -> bool {
        match self {
            Self::Always => true,
            Self::Never => false,
            Self::Auto => terminal && std::env::var_os("NO_COLOR").is_none_or(|v| v.is_empty()),
        }
    }
}
