//! What a client's line means.
//!
//! In: bytes up to a line end. Out: a place, a filter, something told, a question how the bay is; or the refusal that says what is wrong with it.

use events::text::{self, Hidden};
use events::{Refusal, Seq, Told, Word};
use serde::Deserialize;

/// An id has at most so many characters, however many bytes they take.
/// Source: docs/interface.md; own choice there: a UUID has 36.
const ID_CHARACTERS: usize = 64;

/// Go on from here, with only these kinds.
#[derive(Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Follow {
    pub(crate) since: Option<Seq>,
    pub(crate) only: Option<Vec<String>>,
}

#[derive(Debug, PartialEq)]
pub(crate) enum FromClient {
    Nothing,
    Follow(Follow),
    Told(Told),
    /// How is the bay?
    Status,
}

/// Asks how the bay is.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Asked {
    status: bool,
}

/// Understands a line, or says what is wrong with it.
pub(crate) fn understand(line: &[u8]) -> Result<FromClient, Word> {
    let text = std::str::from_utf8(line).map_err(|e| {
        not_understood(None, &format!("It is no UTF-8 text: byte {} does not fit.", e.valid_up_to() + 1))
    })?;
    if text.trim().is_empty() {
        return Ok(FromClient::Nothing);
    }
    let value: serde_json::Value = serde_json::from_str(text)
        .map_err(|e| not_understood(None, &format!("It is no JSON object: {e}.")))?;
    // Echoed even where it is too long, as far as it may be, so that the asker knows his question.
    let id = value
        .get("id")
        .and_then(|id| id.as_str())
        .map(|id| id.chars().take(ID_CHARACTERS).collect::<String>());
    if value.get("status").is_some() {
        return match serde_json::from_value(value) {
            Ok(Asked { status: true }) => Ok(FromClient::Status),
            Ok(Asked { status: false }) => Ok(FromClient::Nothing),
            Err(e) => Err(not_understood(id, &format!("`status` stands alone, and is `true`: {e}."))),
        };
    }
    if value.get("tell").is_none() {
        return serde_json::from_value(value).map(FromClient::Follow).map_err(|e| {
            not_understood(
                id,
                &format!("A line carries `tell` with an `id`, or `since`, or `only`, or `status`: {e}."),
            )
        });
    }
    let told: Told =
        serde_json::from_value(value).map_err(|e| not_understood(id.clone(), &format!("{e}.")))?;
    if !(1..=ID_CHARACTERS).contains(&told.id.chars().count()) {
        return Err(not_understood(id, &format!("`id` must have 1 to {ID_CHARACTERS} characters.")));
    }
    let texts = told.request.texts();
    let seen = [("id", told.id.as_str())].into_iter().chain(texts);
    for (field, text) in seen {
        text::check(text).map_err(|hidden| not_seen(id.clone(), field, hidden))?;
    }
    Ok(FromClient::Told(told))
}

fn not_understood(id: Option<String>, why: &str) -> Word {
    let reason = Refusal::NotUnderstood;
    Word::Refused { id, reason, says: format!("{} {}", reason.says(), text::shown(why)) }
}

fn not_seen(id: Option<String>, field: &str, hidden: Hidden) -> Word {
    let reason = Refusal::HiddenCharacter;
    Word::Refused { id, reason, says: format!("{} In `{field}` {hidden}.", reason.says()) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refused(line: impl AsRef<[u8]>) -> (Option<String>, Refusal, String) {
        match understand(line.as_ref()) {
            Err(Word::Refused { id, reason, says }) => (id, reason, says),
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn a_line_that_is_not_understood_is_answered_with_what_is_wrong() {
        let cases: &[(&[u8], Option<&str>, &str)] = &[
            (b"hello", None, "no JSON object"),
            (
                b"{\"id\":\"1\",\"tell\":\"note\",\"text\":\"\xff\"}",
                None,
                "no UTF-8 text: byte 33 does not fit",
            ),
            (br#"{"tell":"fly","id":"1"}"#, Some("1"), "unknown variant `fly`"),
            (br#"{"tell":"drained","id":"1"}"#, Some("1"), "missing field `millilitres`"),
            (br#"{"tell":"start"}"#, None, "missing field `id`"),
            (br#"{"tell":"start","id":""}"#, Some(""), "1 to 64 characters"),
            (br#"{"cince":3}"#, None, "unknown field `cince`"),
            (br#"{"since":-3,"id":"7"}"#, Some("7"), "`since`"),
            (b"[1]", None, "since"),
            (br#"{"status":1}"#, None, "`status` stands alone"),
            (br#"{"status":true,"since":3}"#, None, "unknown field `since`"),
        ];
        for (line, want_id, want) in cases {
            let (id, reason, says) = refused(line);
            assert!(says.contains(want), "{want}: {says}");
            assert_eq!((id.as_deref(), reason), (*want_id, Refusal::NotUnderstood), "{want}");
            assert!(says.starts_with(Refusal::NotUnderstood.says()));
        }
    }

    #[test]
    fn an_id_has_64_characters_however_many_bytes_they_are() {
        let line = |id: &str| format!(r#"{{"tell":"start","id":"{id}"}}"#);
        for letter in ["a", "ü", "漏"] {
            let most = letter.repeat(64);
            assert!(
                matches!(understand(line(&most).as_bytes()), Ok(FromClient::Told(told)) if told.id == most)
            );
            let (id, _, says) = refused(line(&letter.repeat(65)));
            assert_eq!(id, Some(most), "cut");
            assert!(says.contains("1 to 64 characters"), "{says}");
        }
    }

    #[test]
    fn a_character_that_is_not_seen_is_refused_with_its_field_and_place() {
        let cases = [
            (r#"{"tell":"start","id":"a\u001b"}"#, "In `id` character 2 is U+001B"),
            (r#"{"tell":"note","id":"1","text":"a\nb"}"#, "In `text` character 2 is U+000A"),
            (r#"{"tell":"abort","id":"1","why":"\u202e"}"#, "In `why` character 1 is U+202E"),
            (r#"{"tell":"vehicle","id":"1","text":"QL\u200b12"}"#, "In `text` character 3 is U+200B"),
            (r#"{"tell":"photo","id":"1","sha256":"","name":"\u009b"}"#, "In `name` character 1 is U+009B"),
            (r#"{"tell":"photo","id":"1","sha256":"\u007f","name":""}"#, "In `sha256` character 1 is U+007F"),
            (r#"{"tell":"sheet","id":"1","name":"\u2028"}"#, "In `name` character 1 is U+2028"),
            (r#"{"tell":"shifted","id":"1","position":"P\t"}"#, "In `position` character 2 is U+0009"),
        ];
        for (line, want) in cases {
            let (id, reason, says) = refused(line);
            assert!(id.is_some(), "{line}");
            assert_eq!(reason, Refusal::HiddenCharacter, "{line}");
            assert!(says.contains(want), "{line}: {says}");
        }
    }

    #[test]
    fn a_refusal_itself_commands_no_terminal() {
        for line in ["{\"tell\":\"\\u001b[2J\",\"id\":\"1\"}", "{\"\\u001b[2J\":1}", "\u{1b}[2J"] {
            let (_, _, says) = refused(line);
            assert!(text::check(&says).is_ok(), "{says:?}");
        }
    }

    #[test]
    fn what_is_meant_is_understood() {
        let follow = |since: Option<u64>, only: Option<&[&str]>| {
            let only = only.map(|kinds| kinds.iter().map(|k| (*k).to_owned()).collect());
            Ok(FromClient::Follow(Follow { since: since.map(Seq), only }))
        };
        assert_eq!(understand(b"  \r"), Ok(FromClient::Nothing));
        assert_eq!(understand(b"{}"), follow(None, None));
        assert_eq!(understand(br#"{"since":3}"#), follow(Some(3), None));
        assert_eq!(understand(br#"{"since":3,"only":["verdict"]}"#), follow(Some(3), Some(&["verdict"])));
        assert!(matches!(understand(br#"{"tell":"start","id":"1"}"#), Ok(FromClient::Told(_))));
        assert_eq!(understand(br#"{"status":true}"#), Ok(FromClient::Status));
        assert_eq!(understand(br#"{"status":false}"#), Ok(FromClient::Nothing), "nobody asked");
    }
}
