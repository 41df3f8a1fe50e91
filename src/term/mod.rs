//! The terminal screen: the same for `watch` and for `rehearse`.
//!
//! In: a [`view::View`]. Out: cells. Order from top to bottom as on the page: the word, what the hands do, the interval
//! that matters, why, what can be told; the standpipe always at the left. Black and white only.
//! Not here: what is shown (`crates/view`), keys of `watch` (`watch.rs`).

mod bays;
mod form;
mod glyphs;
mod paint;
mod pipe;

use std::io;

use crossterm::event::{Event, KeyCode, KeyEvent, KeyEventKind, KeyModifiers};
use ratatui::DefaultTerminal;

use crate::failure::{Exit, Failure};

pub use bays::Bays;
pub use form::{Form, Typed};
pub use paint::{Face, keyed, pages};

/// The terminal in raw mode on its other page; given back when dropped.
pub struct Terminal(DefaultTerminal);

impl Terminal {
    /// Takes the terminal.
    ///
    /// # Errors
    /// Where there is none that can be taken.
    pub fn take() -> Result<Self, Failure> {
        ratatui::try_init().map(Self).map_err(|e| {
            Failure::new(Exit::InputOutput, format!("cannot take the terminal: {e}"))
                .try_this("use `--json`, or a terminal that can be addressed")
        })
    }

    /// Paints.
    ///
    /// # Errors
    /// Where the terminal is gone.
    pub fn draw(&mut self, face: &Face<'_>) -> Result<(), Failure> {
        let drawn = self.0.draw(|frame| face.paint(frame.area(), frame.buffer_mut()));
        drawn.map(|_| ()).map_err(|e| gone(&e))
    }

    /// Paints all bays.
    ///
    /// # Errors
    /// Where the terminal is gone.
    pub fn bays(&mut self, bays: &Bays<'_>) -> Result<(), Failure> {
        let drawn = self.0.draw(|frame| bays.paint(frame.area(), frame.buffer_mut()));
        drawn.map(|_| ()).map_err(|e| gone(&e))
    }
}

impl Drop for Terminal {
    fn drop(&mut self) {
        let _ = ratatui::try_restore();
    }
}

/// What a person did at the keyboard.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Key {
    /// A character.
    Char(char),
    /// Enter.
    Enter,
    /// Backspace.
    Back,
    /// Escape.
    Leave,
    /// Ctrl-C: the end, whatever is typed.
    Stop,
    /// The window has another size.
    Resized,
}

/// Waits for the next key.
///
/// # Errors
/// Where the terminal is gone.
pub fn next_key() -> io::Result<Key> {
    loop {
        if let Some(key) = understood(&crossterm::event::read()?) {
            return Ok(key);
        }
    }
}

/// The next key, where one has been pressed already.
pub fn pressed() -> Option<Key> {
    let waiting = crossterm::event::poll(std::time::Duration::ZERO).unwrap_or(false);
    if waiting { crossterm::event::read().ok().as_ref().and_then(understood) } else { None }
}

fn understood(event: &Event) -> Option<Key> {
    match event {
        Event::Resize(..) => Some(Key::Resized),
        Event::Key(KeyEvent { code, modifiers, kind, .. }) if *kind != KeyEventKind::Release => match code {
            KeyCode::Char('c') if modifiers.contains(KeyModifiers::CONTROL) => Some(Key::Stop),
            KeyCode::Char(c) if !modifiers.contains(KeyModifiers::CONTROL) => Some(Key::Char(*c)),
            KeyCode::Enter => Some(Key::Enter),
            KeyCode::Backspace => Some(Key::Back),
            KeyCode::Esc => Some(Key::Leave),
            _ => None,
        },
        _ => None,
    }
}

fn gone(e: &io::Error) -> Failure {
    Failure::new(Exit::InputOutput, format!("the terminal is gone: {e}"))
}

#[cfg(test)]
mod tests;
