//! One macro for every list of words: the variant, its kebab-case word, and what is said about it.

/// Makes an enum whose variants carry a word (used in JSON, on the command line, in the journal) and one or
/// more sentences. The words come out of one table, so code, schema and screens cannot drift apart.
macro_rules! words {
    (
        $(#[$doc:meta])*
        $name:ident { $($(#[$vdoc:meta])* $variant:ident $word:literal $says:literal),+ $(,)? }
    ) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize, schemars::JsonSchema)]
        pub enum $name {
            $(#[doc = $says] $(#[$vdoc])* #[serde(rename = $word)] $variant,)+
        }

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

        impl core::fmt::Display for $name {
            fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                f.pad(self.word())
            }
        }

        impl core::str::FromStr for $name {
            type Err = String;
            fn from_str(word: &str) -> Result<Self, String> {
                // The JSON's reading also knows the older words for the same.
                let read: serde::de::value::StrDeserializer<'_, serde::de::value::Error> =
                    serde::de::IntoDeserializer::into_deserializer(word);
                <Self as serde::Deserialize>::deserialize(read).map_err(|_| {
                    let known: Vec<&str> = Self::ALL.iter().map(|w| w.word()).collect();
                    format!("`{word}` is not known here; known: {}", known.join(", "))
                })
            }
        }
    };
}

pub(crate) use words;
