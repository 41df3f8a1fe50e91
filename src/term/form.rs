//! What is being typed for an offer that needs more than a key.
//!
//! In: keys. Out: a [`TypedRequest`] with the fields as text; they are read where every front end's are
//! (`view::TypedRequest`).

use view::{Ask, Offer, TypedRequest};
use words::{Speech, args};

use super::Key;

/// An offer being filled in.
#[derive(Debug, Clone)]
pub struct Form {
    offer: Offer,
    text: String,
}

/// What a key came to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Typed {
    /// More may come.
    On,
    /// It was let be.
    Left,
    /// It was said.
    Said(TypedRequest),
}

impl Form {
    /// Begins.
    pub fn new(offer: Offer) -> Self {
        Self { offer, text: String::new() }
    }

    /// A key for it.
    pub fn key(&mut self, key: Key) -> Typed {
        match key {
            Key::Leave => return Typed::Left,
            Key::Enter => return Typed::Said(self.said()),
            Key::Back => drop(self.text.pop()),
            Key::Char(c) if self.text.chars().count() < 200 => self.text.push(c),
            _ => {}
        }
        Typed::On
    }

    /// The line at the bottom.
    pub fn line(&self, speech: Speech) -> String {
        let like = match &self.offer.ask {
            Ask::Amount => speech.text("term-like-amount").to_owned(),
            Ask::Depth => speech.text("term-like-depth").to_owned(),
            Ask::Level => speech.text("term-like-level").to_owned(),
            Ask::Spot(surfaces) => {
                let words: Vec<&str> = surfaces.iter().map(|(word, _)| *word).collect();
                speech.with("term-like-spot", &args!(surfaces = words.join(", ")))
            }
            Ask::Temperature => speech.text("term-like-temperature").to_owned(),
            Ask::Choice(names) => {
                let names: Vec<String> =
                    names.iter().enumerate().map(|(i, (_, called))| format!("{} {called}", i + 1)).collect();
                speech.with("term-like-number", &args!(names = names.join(", ")))
            }
            Ask::Text | Ask::Nothing => speech.text("term-then-enter").to_owned(),
        };
        format!("{} ({like}): {}▏", self.offer.label, self.text)
    }

    fn said(&self) -> TypedRequest {
        let mut words = self.text.split_whitespace().map(str::to_owned);
        let mut said = self.offer.said();
        match &self.offer.ask {
            Ask::Nothing => {}
            Ask::Amount => (said.amount, said.at) = (words.next(), words.next()),
            Ask::Depth => said.amount = words.next(),
            Ask::Level => (said.pitch, said.roll) = (words.next(), words.next()),
            Ask::Spot(_) => (said.at, said.surface) = (words.next(), words.next()),
            Ask::Temperature => said.at = words.next(),
            Ask::Text => said.text = Some(self.text.clone()),
            Ask::Choice(names) => {
                let number = self.text.trim().parse::<usize>().ok().and_then(|n| n.checked_sub(1));
                said.text =
                    number.and_then(|n| names.get(n)).map(|(word, _)| word).or(Some(&self.text)).cloned();
            }
        }
        said
    }
}
