//! The languages, and how one is chosen.
//!
//! In: a tag (`de`, `de_AT.UTF-8`, `pt-BR`), a browser's list of them, or the environment. Out: a [`Lang`]. Not here: its words.

use core::fmt;
use core::str::FromStr;

/// A language that the whole catalogue is there in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Lang {
    /// English.
    #[default]
    En,
    /// German.
    De,
    /// Spanish.
    Es,
    /// French.
    Fr,
    /// Portuguese.
    Pt,
    /// Polish.
    Pl,
    /// Hindi.
    Hi,
}

/// Where the environment names the language of messages, in the order in which they count.
/// Source: POSIX.1-2017, base definitions, 8.2.
pub(crate) const VARIABLES: [&str; 3] = ["LC_ALL", "LC_MESSAGES", "LANG"];

impl Lang {
    /// Every one of them.
    pub const ALL: &'static [Self] = &[Self::En, Self::De, Self::Es, Self::Fr, Self::Pt, Self::Pl, Self::Hi];

    /// Its code.
    /// Source: ISO 639-1.
    pub const fn code(self) -> &'static str {
        match self {
            Self::En => "en",
            Self::De => "de",
            Self::Es => "es",
            Self::Fr => "fr",
            Self::Pt => "pt",
            Self::Pl => "pl",
            Self::Hi => "hi",
        }
    }

    /// Its name in itself.
    pub const fn name(self) -> &'static str {
        match self {
            Self::En => "English",
            Self::De => "Deutsch",
            Self::Es => "Español",
            Self::Fr => "Français",
            Self::Pt => "Português",
            Self::Pl => "Polski",
            Self::Hi => "हिन्दी",
        }
    }

    /// Whether a number's fraction stands behind a comma.
    /// Source: CLDR 45, symbols of the plain locale.
    pub const fn has_decimal_comma(self) -> bool {
        match self {
            Self::De | Self::Es | Self::Fr | Self::Pt | Self::Pl => true,
            Self::En | Self::Hi => false,
        }
    }

    /// By a tag, whatever stands behind the language: `de`, `pt-BR`, `pl_PL.UTF-8`.
    pub fn from_tag(tag: &str) -> Option<Self> {
        let code = tag.split(['-', '_', '.', '@']).next()?.trim();
        Self::ALL.iter().copied().find(|lang| lang.code().eq_ignore_ascii_case(code))
    }

    /// By what a browser accepts, best first: `de-CH, fr;q=0.8`. What is known with the greatest weight; of equals the first.
    /// Source: RFC 9110, 12.5.4.
    pub fn from_accepted(header: &str) -> Option<Self> {
        let weighed = header.split(',').filter_map(|part| {
            let mut pieces = part.split(';');
            let lang = Self::from_tag(pieces.next()?.trim())?;
            let weight = pieces.find_map(|p| p.trim().strip_prefix("q=").map(|q| q.trim().parse::<f64>()));
            let weight = weight.map_or(1.0, |q| q.unwrap_or(0.0));
            (weight > 0.0).then_some((lang, weight))
        });
        let best = |best: Option<(Self, f64)>, next: (Self, f64)| match best {
            Some(one) if one.1 >= next.1 => Some(one),
            _ => Some(next),
        };
        weighed.fold(None, best).map(|(lang, _)| lang)
    }

    /// By the environment; `None` where it names no language that is here. `read` looks a variable up.
    pub fn from_environment(read: impl Fn(&str) -> Option<String>) -> Option<Self> {
        let set = VARIABLES.iter().find_map(|name| read(name).filter(|value| !value.is_empty()))?;
        Self::from_tag(&set)
    }
}

impl fmt::Display for Lang {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.code())
    }
}

/// A tag of no language that is here.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnknownLang(String);

impl fmt::Display for UnknownLang {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let known: Vec<&str> = Lang::ALL.iter().map(|lang| lang.code()).collect();
        write!(f, "`{}` is no language known here; known: {}", self.0, known.join(", "))
    }
}

impl core::error::Error for UnknownLang {}

impl FromStr for Lang {
    type Err = UnknownLang;

    fn from_str(tag: &str) -> Result<Self, UnknownLang> {
        Self::from_tag(tag).ok_or_else(|| UnknownLang(tag.to_owned()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tag_is_read_whatever_stands_behind_the_language() {
        let cases = [
            ("de", Some(Lang::De)),
            ("DE-at", Some(Lang::De)),
            ("pt_BR.UTF-8", Some(Lang::Pt)),
            ("hi_IN@currency", Some(Lang::Hi)),
            ("C.UTF-8", None),
            ("den", None),
            ("", None),
        ];
        for (tag, lang) in cases {
            assert_eq!(Lang::from_tag(tag), lang, "{tag}");
        }
        assert_eq!(
            "xx".parse::<Lang>().map_err(|e| e.to_string()).unwrap_err(),
            "`xx` is no language known here; known: en, de, es, fr, pt, pl, hi"
        );
    }

    #[test]
    fn a_browser_gets_the_best_of_what_it_accepts() {
        let cases = [
            ("de-CH, fr;q=0.8", Some(Lang::De)),
            ("ja, fr;q=0.5, pl;q=0.9", Some(Lang::Pl)),
            ("es;q=0, en;q=0.1", Some(Lang::En)),
            ("es, pt", Some(Lang::Es)),
            ("ja", None),
            ("*", None),
        ];
        for (header, lang) in cases {
            assert_eq!(Lang::from_accepted(header), lang, "{header}");
        }
    }

    #[test]
    fn the_environment_counts_in_the_order_of_the_standard() {
        let env = |all: &'static str, messages: &'static str, lang: &'static str| {
            Lang::from_environment(move |name| {
                let value = match name {
                    "LC_ALL" => all,
                    "LC_MESSAGES" => messages,
                    _ => lang,
                };
                Some(value.to_owned())
            })
        };
        assert_eq!(env("", "", "fr_FR.UTF-8"), Some(Lang::Fr));
        assert_eq!(env("", "es_ES", "fr_FR"), Some(Lang::Es));
        assert_eq!(env("C", "es_ES", "fr_FR"), None, "who asks for no language gets none");
    }
}
