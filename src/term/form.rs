//! What is being typed for an offer that needs more than a key.
//!
//! In: keys. Out: a [`TypedRequest`] with the fields as text; they are read where every front end's are
//! (`view::TypedRequest`).

use view::{Ask, Offer, TypedRequest};

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
    pub fn line(&self) -> String {
        let like = match &self.offer.ask {
            Ask::Amount => "like 2.4L 22C".to_owned(),
            Ask::Depth => "like 3mm".to_owned(),
            Ask::Level => "pitch and roll, like 0.1deg -0.2deg".to_owned(),
            Ask::Spot(surfaces) => {
                let words: Vec<&str> = surfaces.iter().map(|(word, _)| *word).collect();
                format!("like 38.5C tape; {}", words.join(", "))
            }
            Ask::Temperature => "like 41C".to_owned(),
            Ask::Choice(names) => {
                let names: Vec<String> =
                    names.iter().enumerate().map(|(i, n)| format!("{} {n}", i + 1)).collect();
                format!("its number: {}", names.join(", "))
            }
            Ask::Text | Ask::Nothing => "then Enter".to_owned(),
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
                said.text = number.and_then(|n| names.get(n)).or(Some(&self.text)).cloned();
            }
        }
        said
    }
}
