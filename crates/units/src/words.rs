//! The one macro for every list of words: the variant, its word and what is said of it are one row.
//!
//! In: a table. Out: an enum, its words, its sentences, how it is read and shown; JSON and schema where they are asked
//! for. No variant can be without its row, so code, schema and screens cannot drift apart. Not here: any list.
//!
//! ```
//! units::words! {
//!     /// What a vessel may be.
//!     Vessel {
//!         Jug "jug" "A measuring jug.",
//!         Scale "scale" or "balance" "A bucket on a scale.",
//!     }
//! }
//! assert_eq!(Vessel::ALL.len(), 2);
//! assert_eq!((Vessel::Jug.word(), Vessel::Jug.says()), ("jug", "A measuring jug."));
//! assert_eq!("balance".parse(), Ok(Vessel::Scale), "an older word for the same");
//! let unknown = "scala".parse::<Vessel>().unwrap_err();
//! assert_eq!(unknown.to_string(), "`scala` is not known here; known: jug, scale; did you mean `scale`?");
//! ```

use core::fmt;

/// Makes an enum out of a table of words. A row: the variant, its word, older words for the same (`or "word"`), its
/// sentence.
///
/// | head | what follows from it |
/// | --- | --- |
/// | `Name { … }` | variants, `ALL`, `word()`, `says()`, `Display`, `FromStr`, [`Listed`] |
/// | `json Name { … }` | the same, and JSON and schema by the words; the crate must depend on `serde` and `schemars` |
/// | `Name, column: Type { … }`, also with `json` | the same; each row ends with `=> value`, and `column()` gives it |
/// | `carrying Name { … }` | variants that hold something: `Variant "word" (Type)`; only `word()` follows from it |
///
/// What a list needs beside its words (a sentence of another kind, what it decides) is a column, so that no row can be
/// without it.
#[macro_export]
macro_rules! words {
    ($(#[$doc:meta])* json $name:ident $(, $seen:vis $column:ident: $type:ty)? { $(
        $(#[$of:meta])* $variant:ident $word:literal $(or $older:literal)* $says:literal $(=> $value:expr)?
    ),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(serde::Serialize, serde::Deserialize, schemars::JsonSchema)]
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name {
            $(#[doc = $says] $(#[$of])* #[serde(rename = $word $(, alias = $older)*)] $variant,)+
        }
        $crate::words! { @follows $name { $($variant $word [$($older)*] $says,)+ } }
        $crate::words! { @column $name [$($seen $column $type)?] { $($variant [$($value)?],)+ } }
    };
    ($(#[$doc:meta])* carrying $name:ident { $(
        $(#[$of:meta])* $variant:ident $word:literal $(($($part:tt)*))? $({$($field:tt)*})?
    ),+ $(,)? }) => {
        $(#[$doc])*
        pub enum $name {
            $($(#[$of])* $variant $(($($part)*))? $({$($field)*})?,)+
        }
        impl $name {
            /// The word for machines: kebab-case.
            pub const fn word(&self) -> &'static str {
                match self { $(Self::$variant { .. } => $word,)+ }
            }
        }
    };
    ($(#[$doc:meta])* $name:ident $(, $seen:vis $column:ident: $type:ty)? { $(
        $(#[$of:meta])* $variant:ident $word:literal $(or $older:literal)* $says:literal $(=> $value:expr)?
    ),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name {
            $(#[doc = $says] $(#[$of])* $variant,)+
        }
        $crate::words! { @follows $name { $($variant $word [$($older)*] $says,)+ } }
        $crate::words! { @column $name [$($seen $column $type)?] { $($variant [$($value)?],)+ } }
    };
    (@follows $name:ident { $($variant:ident $word:literal [$($older:literal)*] $says:literal,)+ }) => {
        impl $name {
            /// Every one of them, in the order of the table.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// The word for machines: kebab-case, as in the JSON.
            pub const fn word(self) -> &'static str {
                match self { $(Self::$variant => $word,)+ }
            }

            /// The sentence for people.
            pub const fn says(self) -> &'static str {
                match self { $(Self::$variant => $says,)+ }
            }
        }

        impl $crate::Listed for $name {
            const NAME: &'static str = stringify!($name);
            const ALL: &'static [Self] = Self::ALL;

            fn as_word(self) -> &'static str {
                self.word()
            }

            fn as_sentence(self) -> &'static str {
                self.says()
            }

            fn place(self) -> u32 {
                self as u32
            }
        }

        impl core::fmt::Display for $name {
            fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                f.pad(self.word())
            }
        }

        impl core::str::FromStr for $name {
            type Err = $crate::UnknownWord;

            fn from_str(word: &str) -> Result<Self, $crate::UnknownWord> {
                match word {
                    $($word $(| $older)* => Ok(Self::$variant),)+
                    _ => Err($crate::UnknownWord::new(word, &[$($word),+])),
                }
            }
        }
    };
    (@column $name:ident [] { $($variant:ident [],)+ }) => {};
    (@column $name:ident [$seen:vis $column:ident $type:ty] { $($variant:ident [$value:expr],)+ }) => {
        impl $name {
            /// What its row ends with.
            $seen const fn $column(self) -> $type {
                match self { $(Self::$variant => $value,)+ }
            }
        }
    };
}

/// A list that [`words!`](crate::words) made: for what is built of such a list, whichever it is.
pub trait Listed: Copy + fmt::Debug + 'static {
    /// The list's own name, as in the code.
    const NAME: &'static str;

    /// Every one of them, each at its own place.
    const ALL: &'static [Self];

    /// Its place among them.
    fn place(self) -> u32;

    /// Its word for machines.
    fn as_word(self) -> &'static str;

    /// Its English sentence.
    fn as_sentence(self) -> &'static str;
}

/// A text that is none of the words of a list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnknownWord {
    text: String,
    known: &'static [&'static str],
}

impl UnknownWord {
    /// `text` is none of `known`.
    pub fn new(text: &str, known: &'static [&'static str]) -> Self {
        Self { text: text.to_owned(), known }
    }

    /// The text.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// What may have been meant: the word that fewest changes of a letter make of the text, where they are few.
    pub fn nearest(&self) -> Option<&'static str> {
        let most = self.text.len() / FEW;
        let changed = self.known.iter().map(|word| (changes(&self.text, word), *word));
        changed
            .min_by_key(|(changes, _)| *changes)
            .filter(|(changes, _)| *changes <= most)
            .map(|(_, word)| word)
    }

    /// What would have been known, and what may have been meant.
    pub fn known(&self) -> String {
        let known = self.known.join(", ");
        self.nearest().map_or_else(
            || format!("known: {known}"),
            |word| format!("known: {known}; did you mean `{word}`?"),
        )
    }
}

impl fmt::Display for UnknownWord {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`{}` is not known here; {}", self.text, self.known())
    }
}

impl core::error::Error for UnknownWord {}

/// One letter in so many may be wrong.
/// Own choice: with one in two, words that have nothing in common are offered for each other.
const FEW: usize = 3;

/// How many letters must be put in, taken out or changed to make one of the other.
fn changes(one: &str, other: &str) -> usize {
    let mut row: Vec<usize> = (0..=other.chars().count()).collect();
    for (at, a) in one.chars().enumerate() {
        let mut before = at;
        let mut last = at + 1;
        if let Some(first) = row.first_mut() {
            *first = last;
        }
        for (cell, b) in row.iter_mut().skip(1).zip(other.chars()) {
            let changed = before + usize::from(a != b);
            before = *cell;
            last = changed.min(before + 1).min(last + 1);
            *cell = last;
        }
    }
    row.last().copied().unwrap_or_default()
}

#[cfg(test)]
#[allow(unreachable_pub, reason = "the lists of the tests leave this module no more than the tests do")]
mod tests {
    use super::*;

    crate::words! {
        /// A list with an older word.
        Place {
            Under "under" "Below.",
            Inside "inside" or "within" or "in-seat" "In the seat.",
        }
    }

    crate::words! {
        /// A list with a column.
        Vessel, litres: u8 {
            Jug "jug" "A jug." => 2,
            Pail "pail" "A pail." => 10,
        }
    }

    crate::words! {
        /// A list whose rows hold something.
        #[derive(Debug, PartialEq)]
        carrying Trouble {
            /// Nothing.
            None "none",
            /// A number.
            Code "code" (u8),
            /// An amount and what of.
            Amount "amount" {
                /// How much.
                much: u8,
            },
        }
    }

    #[test]
    fn a_row_makes_the_variant_its_word_and_its_sentence() {
        assert_eq!(Place::ALL, [Place::Under, Place::Inside]);
        assert_eq!(Place::ALL.iter().map(|p| p.word()).collect::<Vec<_>>(), ["under", "inside"]);
        assert_eq!(Place::Inside.says(), "In the seat.");
        assert_eq!(format!("{:>8}", Place::Under), "   under");
        assert_eq!(Place::ALL.iter().map(|p| p.place()).collect::<Vec<_>>(), [0, 1]);
        assert_eq!(
            Vessel::ALL.iter().map(|v| (v.says(), v.litres())).collect::<Vec<_>>(),
            [("A jug.", 2), ("A pail.", 10)]
        );
        let held = [Trouble::None, Trouble::Code(7), Trouble::Amount { much: 1 }];
        assert_eq!(held.map(|t| t.word()), ["none", "code", "amount"]);
    }

    #[test]
    fn a_word_is_read_and_an_older_one_too() {
        for (word, want) in [("under", Place::Under), ("inside", Place::Inside), ("in-seat", Place::Inside)] {
            assert_eq!(word.parse(), Ok(want));
        }
        let unknown = "Under".parse::<Place>().unwrap_err();
        assert_eq!(unknown.text(), "Under");
        assert_eq!(
            unknown.to_string(),
            "`Under` is not known here; known: under, inside; did you mean `under`?"
        );
        assert_eq!(
            "roof".parse::<Place>().unwrap_err().to_string(),
            "`roof` is not known here; known: under, inside"
        );
    }

    #[test]
    fn the_changes_between_two_words_are_counted() {
        let rows = [
            ("", "", 0),
            ("", "abc", 3),
            ("abc", "", 3),
            ("drain", "drian", 2),
            ("fill", "filled", 2),
            ("öl", "ol", 1),
        ];
        for (one, other, want) in rows {
            assert_eq!((changes(one, other), changes(other, one)), (want, want), "{one} {other}");
        }
    }
}
