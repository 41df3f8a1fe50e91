//! How results reach the person or the next program: lines for people, JSON Lines for programs.

use std::io::{self, IsTerminal as _, Write as _};

use serde::Serialize;
use units::text::UnitSystem;

use crate::failure::{Exit, Failure};

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

/// What the person asked for, resolved against the terminal.
#[derive(Debug, Clone, Copy)]
pub struct Screen {
    json: bool,
    bold: bool,
    /// In which units people read.
    pub units: UnitSystem,
}

impl Screen {
    /// JSON when asked for or when nobody looks; bold when somebody does and likes it.
    pub fn new(json: bool, colour: Colour, units: UnitSystem) -> Self {
        let terminal = io::stdout().is_terminal();
        Self { json: json || !terminal, bold: colour.wanted(terminal), units }
    }

    /// Whether a program reads.
    pub fn is_json(self) -> bool {
        self.json
    }

    /// One JSON line.
    ///
    /// # Errors
    /// Where stdout cannot be written; a closed pipe ends the program quietly.
    pub fn json(self, value: &impl Serialize) -> Result<(), Failure> {
        let text = serde_json::to_string(value).map_err(|e| Failure::new(Exit::Software, e.to_string()))?;
        self.line(&text)
    }

    /// One line as it is.
    ///
    /// # Errors
    /// As [`Self::json`].
    pub fn line(self, text: &str) -> Result<(), Failure> {
        let mut out = io::stdout().lock();
        writeln!(out, "{text}").and_then(|()| out.flush()).map_err(|e| closed(&e))
    }

    /// The text in bold, where that is wanted.
    pub fn strong(self, text: &str) -> String {
        if self.bold { format!("\x1b[1m{text}\x1b[0m") } else { text.to_owned() }
    }
}

/// A message to people, beside the results.
pub fn say(text: &str) {
    crate::log::say(text);
}

fn closed(e: &io::Error) -> Failure {
    if e.kind() == io::ErrorKind::BrokenPipe {
        // `standpipe events | head` is no failure.
        std::process::exit(0);
    }
    Failure::new(Exit::InputOutput, format!("cannot write the output: {e}"))
}
