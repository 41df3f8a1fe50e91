//! Which characters may stand in words of others, and how those that may not are shown where they stand all the same.
//!
//! In: text that a person typed, a sheet holds, an adapter said, an old journal kept. Out: a refusal that names the
//! place, or the same text with every such character spelled out. A character that moves the cursor, ends the line,
//! hides or turns round what stands beside it could command a terminal or put words into a record that nobody said. Not
//! here: what is markup somewhere (`src/report`, `src/plan`).

use std::borrow::Cow;

/// Whether a character hides, moves or reorders what stands around it instead of being seen.
///
/// Source: Unicode 16, general categories Cc (controls, with line ends and tabs), Zl, Zp and Cf (formats: bidirectional
/// embeddings, overrides and isolates, zero width, tags), and the fillers that show as nothing. The two joiners are
/// among them: where a script needs them, [`is_joiner_of_its_script`] says so.
pub const fn is_hidden(c: char) -> bool {
    matches!(c,
        '\0'..='\u{1f}' | '\u{7f}'..='\u{9f}'
        | '\u{ad}' | '\u{34f}' | '\u{600}'..='\u{605}' | '\u{61c}' | '\u{6dd}' | '\u{70f}'
        | '\u{890}'..='\u{891}' | '\u{8e2}' | '\u{115f}'..='\u{1160}' | '\u{17b4}'..='\u{17b5}' | '\u{180b}'..='\u{180e}'
        | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}'
        | '\u{3164}' | '\u{feff}' | '\u{ffa0}' | '\u{fff0}'..='\u{fffb}'
        | '\u{110bd}' | '\u{110cd}' | '\u{13430}'..='\u{1343f}' | '\u{1bca0}'..='\u{1bca3}' | '\u{1d173}'..='\u{1d17a}'
        | '\u{e0000}'..='\u{e0fff}'
    )
}

/// Whether `c` is one of the two joiners (U+200C, U+200D) behind a letter or sign of a script that is spelled with them: they
/// form what is seen there, and keyboards type them by themselves.
///
/// Source: UAX #31, section 2.3, and the blocks of Arabic and of the scripts of India and Sri Lanka in Unicode 16. That the
/// character before decides, and not its virama, is ours.
pub const fn is_joiner_of_its_script(before: Option<char>, c: char) -> bool {
    matches!(c, '\u{200c}' | '\u{200d}')
        && matches!(
            before,
            Some(
                '\u{620}'..='\u{6d3}' | '\u{6fa}'..='\u{6ff}' | '\u{750}'..='\u{77f}' | '\u{900}'..='\u{dff}',
            )
        )
}

/// Each character that may not stand where it does, with its place from 0, in characters.
fn hidden(text: &str) -> impl Iterator<Item = (usize, char)> {
    let mut before = None;
    text.chars().enumerate().filter(move |&(_, c)| {
        let before = before.replace(c);
        is_hidden(c) && !is_joiner_of_its_script(before, c)
    })
}

/// A text holds a character that may not stand there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("character {place} is U+{:04X}, which is not seen but changes what is; leave it out", u32::from(*.character))]
pub struct Hidden {
    /// Its place, from 1, in characters.
    pub place: usize,
    /// Which it is.
    pub character: char,
}

/// Refuses a text with a hidden character; names the first.
///
/// # Errors
/// [`Hidden`].
pub fn check(text: &str) -> Result<(), Hidden> {
    match hidden(text).next() {
        Some((before, character)) => Err(Hidden { place: before + 1, character }),
        None => Ok(()),
    }
}

/// The text without its hidden characters.
pub fn seen(text: &str) -> String {
    let mut places = hidden(text).map(|(place, _)| place).peekable();
    text.chars().enumerate().filter(|(place, _)| places.next_if_eq(place).is_none()).map(|(_, c)| c).collect()
}

/// The text with each hidden character spelled out, like `\u{1b}`: for one line of a terminal or a page.
pub fn shown(text: &str) -> Cow<'_, str> {
    spell_out(text, |_| false, |c| format!("\\u{{{:x}}}", u32::from(c)))
}

/// The same for text of several lines, which keeps its line ends.
pub fn shown_lines(text: &str) -> Cow<'_, str> {
    spell_out(text, |c| c == '\n', |c| format!("\\u{{{:x}}}", u32::from(c)))
}

/// JSON that means the same and holds no raw hidden character but its own line ends.
pub fn shown_json(json: &str) -> Cow<'_, str> {
    let escape = |c: char| c.encode_utf16(&mut [0; 2]).iter().map(|unit| format!("\\u{unit:04x}")).collect();
    spell_out(json, |c| c == '\n', escape)
}

fn spell_out(text: &str, keep: impl Fn(char) -> bool, spell: impl Fn(char) -> String) -> Cow<'_, str> {
    let mut places = hidden(text).filter(|(_, c)| !keep(*c)).map(|(place, _)| place).peekable();
    if places.peek().is_none() {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 16);
    for (place, c) in text.chars().enumerate() {
        if places.next_if_eq(&place).is_some() { out += &spell(c) } else { out.push(c) }
    }
    Cow::Owned(out)
}

/// JSON as a front end reads it that shows words: in every string, hidden characters are spelled out.
///
/// # Errors
/// Where it is no JSON.
pub(crate) fn tame(json: &str) -> Result<Cow<'_, str>, serde_json::Error> {
    // Whatever is hidden stands there as itself or behind a backslash; most lines have neither.
    if !json.contains(|c| c == '\\' || is_hidden(c)) {
        return Ok(Cow::Borrowed(json));
    }
    let mut value: serde_json::Value = serde_json::from_str(json)?;
    tame_value(&mut value);
    Ok(Cow::Owned(value.to_string()))
}

fn tame_value(value: &mut serde_json::Value) {
    use serde_json::Value;
    match value {
        Value::String(text) => {
            if let Cow::Owned(tamed) = shown(text) {
                *text = tamed;
            }
        }
        Value::Array(values) => values.iter_mut().for_each(tame_value),
        Value::Object(fields) => fields.values_mut().for_each(tame_value),
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_is_hidden_is_refused_with_its_place() {
        type Case<'a> = (&'a str, &'a str, Option<(usize, char)>);
        #[rustfmt::skip]
        let cases: &[Case<'_>] = &[
            ("plain",                  "QL 12, links: 2 Schläuche – ±0.5 °C", None),
            ("other scripts, emoji",   "漏れ 油 🔧 é",                         None),
            ("an escape sequence",     "a\u{1b}[31mb",                        Some((2, '\u{1b}'))),
            ("a line end",             "one\ntwo",                            Some((4, '\n'))),
            ("a carriage return",      "\rone",                               Some((1, '\r'))),
            ("a tab",                  "a\tb",                                Some((2, '\t'))),
            ("a zero byte",            "a\0",                                 Some((2, '\0'))),
            ("delete",                 "ab\u{7f}",                            Some((3, '\u{7f}'))),
            ("a C1 control",           "ü\u{9b}31m",                          Some((2, '\u{9b}'))),
            ("an override",            "a\u{202e}b",                          Some((2, '\u{202e}'))),
            ("an isolate",             "a\u{2067}b",                          Some((2, '\u{2067}'))),
            ("an Arabic letter mark",  "\u{61c}",                             Some((1, '\u{61c}'))),
            ("zero width",             "set\u{200b}",                         Some((4, '\u{200b}'))),
            ("a byte order mark",      "\u{feff}x",                           Some((1, '\u{feff}'))),
            ("a line separator",       "a\u{2028}b",                          Some((2, '\u{2028}'))),
            ("a paragraph separator",  "a\u{2029}b",                          Some((2, '\u{2029}'))),
            ("a soft hyphen",          "a\u{ad}b",                            Some((2, '\u{ad}'))),
            ("a tag",                  "a\u{e0041}",                          Some((2, '\u{e0041}'))),
            ("joiners of Hindi, Farsi", "क्\u{200d}ष र्\u{200d} می\u{200c}شود", None),
            ("a joiner of nothing",    "QL\u{200d}12",                        Some((3, '\u{200d}'))),
            ("two joiners",            "क\u{200d}\u{200d}",                   Some((3, '\u{200d}'))),
            ("a joiner at the start",  "\u{200c}क",                           Some((1, '\u{200c}'))),
        ];
        for (what, text, want) in cases {
            let found = check(text).err().map(|h| (h.place, h.character));
            assert_eq!(found, *want, "{what}");
            assert_eq!(shown(text) == *text, want.is_none(), "{what}");
            assert_eq!(seen(text) == *text, want.is_none(), "{what}");
        }
        let said = check("a\u{1b}").unwrap_err().to_string();
        assert!(said.contains("character 2 is U+001B"), "{said}");
    }

    #[test]
    fn every_control_character_is_hidden_and_no_letter_sign_or_digit_of_ascii() {
        // The standard library knows Cc; of the others the table above has one of each kind.
        for c in (0..=u32::from(char::MAX)).filter_map(char::from_u32) {
            assert!(!c.is_control() || is_hidden(c), "U+{:04X}", u32::from(c));
            assert!(!c.is_ascii_graphic() || !is_hidden(c), "U+{:04X}", u32::from(c));
        }
    }

    #[test]
    fn json_keeps_its_meaning_and_a_front_end_reads_it_spelled_out() {
        let text = "a\u{1b}\u{9b}\n\u{202e}\u{e0041}\"\\z";
        let json = serde_json::json!({"detail": [text], "n": 1.25}).to_string();
        let safe = shown_json(&json);
        assert!(!safe.contains(is_hidden), "{safe}");
        assert_eq!(
            serde_json::from_str::<serde_json::Value>(&safe).unwrap()["detail"][0],
            text,
            "the same text"
        );
        let tamed: serde_json::Value = serde_json::from_str(&tame(&json).unwrap()).unwrap();
        assert_eq!(tamed["detail"][0], "a\\u{1b}\\u{9b}\\u{a}\\u{202e}\\u{e0041}\"\\z");
        assert_eq!(tamed["n"], 1.25);
        assert!(matches!(tame(r#"{"a":"plain ü"}"#), Ok(Cow::Borrowed(_))), "most lines are not touched");
        assert!(tame("\u{1b}").is_err());
    }

    proptest! {
        #[test]
        fn nothing_hidden_is_left_whatever_the_text(text in any::<String>(), more in "[\\x00-\\x20\u{7f}-\u{a0}\u{2000}-\u{2070}a-c\\\\\"]*") {
            let text = text + &more;
            prop_assert!(check(&shown(&text)).is_ok());
            prop_assert!(hidden(&shown_lines(&text)).all(|(_, c)| c == '\n'));
            let json = serde_json::to_string(&text).unwrap();
            prop_assert!(check(&shown_json(&json)).is_ok());
            prop_assert_eq!(serde_json::from_str::<String>(&shown_json(&json)).unwrap(), text.clone());
            let tamed: String = serde_json::from_str(&tame(&json).unwrap()).unwrap();
            prop_assert_eq!(tamed, shown(&text));
        }
    }
}
