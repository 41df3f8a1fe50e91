//! The page's own words: what its script and its form say beside what the view says.
//!
//! In: a language. Out: the messages that `page.js` knows by name, what stands in them as `{name}`. Not here: the messages
//! themselves (`words`).

use std::collections::BTreeMap;

use words::{Lang, message_names, value};

/// How the names of the messages begin that the page knows.
const OF_THE_PAGE: [&str; 7] = ["page-", "say-", "hold-", "not-told", "let-be", "word-no-reading", "told"];

/// All of them, by name.
pub(crate) fn of(lang: Lang) -> BTreeMap<String, String> {
    let known = message_names(Lang::En).into_iter();
    let own = known.filter(|(name, _)| OF_THE_PAGE.iter().any(|begin| name.starts_with(begin)));
    own.map(|(name, variables)| {
        let stand_in = variables.iter().map(|of| (of.as_str(), value(format!("{{{of}}}"))));
        let text = lang.by_name(&name, stand_in);
        (name, text)
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_stands_in_a_message_is_left_for_the_page() {
        let words = of(Lang::En);
        assert_eq!(words.get("say-next").map(String::as_str), Some("Next: {what}"));
        assert_eq!(words.get("page-more").map(String::as_str), Some("More"));
        assert!(!words.contains_key("term-more") && words.len() > 40);
        for lang in Lang::ALL {
            assert_eq!(of(*lang).len(), words.len(), "{lang}");
        }
    }

    #[test]
    fn the_script_asks_for_no_word_that_is_not_there() {
        let words = of(Lang::En);
        let (page, script) = (include_str!("assets/page.html"), include_str!("assets/page.js"));
        let mut asked = 0;
        for (text, mark) in [(page, "data-says=\""), (page, "data-label=\""), (script, "own('")] {
            for after in text.split(mark).skip(1) {
                let name: String =
                    after.chars().take_while(|c| c.is_ascii_lowercase() || *c == '-').collect();
                assert!(words.contains_key(&name), "{name}");
                asked += 1;
            }
        }
        assert!(asked > 30, "{asked}");
    }
}
