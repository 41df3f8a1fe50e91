//! How results reach the person or the next program: lines for people, JSON Lines for programs.

use std::borrow::Cow;
use std::io::{self, IsTerminal as _, Write as _};

use events::text::{shown_json, shown_lines};
use serde::Serialize;
use units::text::UnitSystem;
use words::{Lang, Speech};

use crate::colour::Colour;
use crate::failure::{Exit, Failure};

/// What the person asked for, resolved against the terminal.
#[derive(Debug, Clone, Copy)]
pub struct Screen {
    json: bool,
    bold: bool,
    /// In which units people read.
    pub units: UnitSystem,
    /// In which language the screens are.
    pub lang: Lang,
    /// The language, where it was asked for and not only found in the environment.
    pub asked: Option<Lang>,
    /// The units, where they were asked for.
    pub asked_units: Option<UnitSystem>,
}

impl Screen {
    /// JSON when asked for or when nobody looks; bold when somebody does and likes it.
    pub fn new(json: bool, colour: Colour, asked_units: Option<UnitSystem>, asked: Option<Lang>) -> Self {
        let terminal = io::stdout().is_terminal();
        let lang =
            asked.or_else(|| Lang::from_environment(|name| std::env::var(name).ok())).unwrap_or_default();
        let units = asked_units.unwrap_or(UnitSystem::Metric);
        Self { json: json || !terminal, bold: colour.wanted(terminal), units, lang, asked, asked_units }
    }

    /// The same for somebody who has asked for lines of text, wherever they go.
    pub fn in_words(self) -> Self {
        Self { json: false, ..self }
    }

    /// How the person at a screen is spoken to.
    pub const fn speech(self) -> Speech {
        Speech { lang: self.lang, units: self.units }
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
        self.json_line(&text)
    }

    /// One line of JSON as it came: the same meaning, and no character that could command a terminal.
    ///
    /// # Errors
    /// As [`Self::json`].
    pub fn json_line(self, text: &str) -> Result<(), Failure> {
        self.whole(&shown_json(text))
    }

    /// Lines for people. Whatever words of others stand in it, no character of theirs commands the terminal; what is
    /// one line must have been made one ([`events::text::shown`]) by whoever put them there.
    ///
    /// # Errors
    /// As [`Self::json`].
    pub fn line(self, text: &str) -> Result<(), Failure> {
        self.whole(&self.safe(text))
    }

    /// Spelled out, but for our own line ends and our own bold.
    fn safe(self, text: &str) -> Cow<'_, str> {
        if !self.bold || !text.contains(BOLD) {
            return shown_lines(text);
        }
        let parts =
            text.split(BOLD).map(|part| part.split(PLAIN).map(shown_lines).collect::<Vec<_>>().join(PLAIN));
        Cow::Owned(parts.collect::<Vec<_>>().join(BOLD))
    }

    /// As it is: a format with characters of its own, made of what was spelled out before.
    ///
    /// # Errors
    /// As [`Self::json`].
    pub fn whole(self, text: &str) -> Result<(), Failure> {
        let mut out = io::stdout().lock();
        writeln!(out, "{text}").and_then(|()| out.flush()).map_err(|e| closed(&e))
    }

    /// The text in bold, where that is wanted.
    pub fn strong(self, text: &str) -> String {
        if self.bold { format!("{BOLD}{text}{PLAIN}") } else { text.to_owned() }
    }
}

/// ECMA-48, SGR 1 and 0.
const BOLD: &str = "\x1b[1m";
const PLAIN: &str = "\x1b[0m";

/// A message to people, beside the results.
pub fn say(text: &str) {
    crate::log::say(&shown_lines(text));
}

fn closed(e: &io::Error) -> Failure {
    if e.kind() == io::ErrorKind::BrokenPipe {
        // `standpipe events | head` is no failure.
        std::process::exit(0);
    }
    Failure::new(Exit::InputOutput, format!("cannot write the output: {e}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn screen(bold: bool) -> Screen {
        Screen {
            json: false,
            bold,
            units: UnitSystem::Metric,
            lang: Lang::En,
            asked: None,
            asked_units: None,
        }
    }

    #[test]
    fn a_terminal_gets_no_command_but_our_own_bold() {
        let evil = "a\u{1b}[2J\u{9b}31m\r\u{202e}b\nc";
        let safe = "a\\u{1b}[2J\\u{9b}31m\\u{d}\\u{202e}b\nc";
        for bold in [false, true] {
            assert_eq!(screen(bold).safe(evil), safe);
        }
        let strong = screen(true).strong("go");
        let line = format!("{evil} {strong} {evil}");
        assert_eq!(screen(true).safe(&line), format!("{safe} \x1b[1mgo\x1b[0m {safe}"));
        assert_eq!(screen(false).safe(&strong), "\\u{1b}[1mgo\\u{1b}[0m", "nobody asked for bold");
    }
}
