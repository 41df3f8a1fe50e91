//! A recording of a link: what was said and when, so that a fault in the workshop can be played back at a desk.
//!
//! In: moments of the link. Out: lines of text, and back. One JSON object a line; the first says what the file is:
//!
//! ```text
//! {"recording":1,"program":"standpipe 0.1.0","device":"/dev/ttyUSB0","started":"2026-01-01T08:00:00Z"}
//! {"at_ms":104,"link":"opened"}
//! {"at_ms":205,"host":" ATI\\r"}
//! {"at_ms":231,"adapter":"ELM327 v2.1\\r\\r>"}
//! {"at_ms":9310,"link":"closed","why":"its port closed"}
//! ```
//!
//! Bytes are printable ASCII as they are; CR, LF, the backslash and all others are escaped as in Rust (`\r`, `\n`,
//! `\\`, `\xfc`). Times are milliseconds since the start, as every [`Mono`]; they never run backwards.
//! Not here: files, and who plays it back.

use serde::{Deserialize, Serialize};
use units::Mono;

/// The form of the file; a reader refuses others.
/// By definition: raised when a reader of the older form would read it wrongly.
pub const RECORDING: u32 = 1;

/// The first line.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Head {
    /// [`RECORDING`].
    pub recording: u32,
    /// Which program wrote it.
    pub program: String,
    /// The device by the name people know it.
    pub device: String,
    /// The civil time of the start, RFC 3339.
    pub started: String,
    /// What is known of it beside that.
    #[serde(flatten)]
    pub about: About,
}

/// What a recording that is kept says of itself, so that somebody may judge it years later; each absent where nobody knows it.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct About {
    /// The adapter's firmware.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub firmware: Option<String>,
    /// The vehicle's bus.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bus: Option<String>,
    /// The vehicle.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub vehicle: Option<String>,
    /// Which behaviour it guards.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub guards: Option<String>,
    /// Who recorded it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<String>,
    /// Under which licence it may be kept.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub licence: Option<String>,
}

/// One moment.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// When.
    pub at: Mono,
    /// What.
    pub what: Traffic,
}

/// What happened on the link.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Traffic {
    /// The link was opened.
    Opened,
    /// The link was closed, or was lost.
    Closed {
        /// How.
        why: String,
    },
    /// This program wrote these bytes, in one go.
    Host(Vec<u8>),
    /// These bytes came, in one read.
    Adapter(Vec<u8>),
}

/// A line that is none of a recording.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("line {line} of the recording: {what}")]
pub struct RecordingError {
    /// Counted from 1.
    pub line: usize,
    /// What is wrong with it.
    pub what: String,
}

/// As it stands in the file.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    at_ms: Mono,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    link: Option<Change>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    why: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    host: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    adapter: Option<String>,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Change {
    Opened,
    Closed,
}

impl Head {
    /// The line, without its end.
    pub fn line(&self) -> String {
        // Strings and a number: nothing in it can fail.
        serde_json::to_string(self).unwrap_or_default()
    }
}

impl Entry {
    /// The line, without its end.
    pub fn line(&self) -> String {
        let mut row = Row { at_ms: self.at, link: None, why: None, host: None, adapter: None };
        match &self.what {
            Traffic::Opened => row.link = Some(Change::Opened),
            Traffic::Closed { why } => (row.link, row.why) = (Some(Change::Closed), Some(why.clone())),
            Traffic::Host(bytes) => row.host = Some(escape(bytes)),
            Traffic::Adapter(bytes) => row.adapter = Some(escape(bytes)),
        }
        serde_json::to_string(&row).unwrap_or_default()
    }
}

/// Reads a whole recording.
///
/// # Errors
/// [`RecordingError`] with the number of the first line that is none. A last line without its end, as a cut of the
/// power leaves it, is left out.
pub fn read(text: &str) -> Result<(Head, Vec<Entry>), RecordingError> {
    let whole = text.rfind('\n').map_or("", |end| text.get(..end).unwrap_or_default());
    let mut lines = whole.lines().enumerate().map(|(at, line)| (at + 1, line));
    let bad = |line: usize, what: String| RecordingError { line, what };
    let (_, first) = lines.next().ok_or_else(|| bad(1, "the file is empty".to_owned()))?;
    let head: Head = serde_json::from_str(first).map_err(|e| bad(1, format!("it is no recording: {e}")))?;
    if head.recording != RECORDING {
        return Err(bad(1, format!("recordings of form {} are not known here", head.recording)));
    }
    let mut entries: Vec<Entry> = Vec::new();
    for (number, line) in lines.filter(|(_, line)| !line.trim().is_empty()) {
        let entry = entry(line).map_err(|what| bad(number, what))?;
        if entries.last().is_some_and(|before| before.at > entry.at) {
            return Err(bad(number, "its time lies before that of the line above".to_owned()));
        }
        entries.push(entry);
    }
    Ok((head, entries))
}

fn entry(line: &str) -> Result<Entry, String> {
    let row: Row = serde_json::from_str(line).map_err(|e| e.to_string())?;
    let what = match (row.link, row.host, row.adapter) {
        (Some(Change::Opened), None, None) => Traffic::Opened,
        (Some(Change::Closed), None, None) => Traffic::Closed { why: row.why.unwrap_or_default() },
        (None, Some(host), None) => Traffic::Host(unescape(&host)?),
        (None, None, Some(adapter)) => Traffic::Adapter(unescape(&adapter)?),
        _ => return Err("it needs one of link, host and adapter".to_owned()),
    };
    Ok(Entry { at: row.at_ms, what })
}

fn escape(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len() + 4);
    for byte in bytes {
        match byte {
            b'\r' => text.push_str("\\r"),
            b'\n' => text.push_str("\\n"),
            b'\\' => text.push_str("\\\\"),
            b' '..=b'~' => text.push(char::from(*byte)),
            _ => text.push_str(&format!("\\x{byte:02x}")),
        }
    }
    text
}

fn unescape(text: &str) -> Result<Vec<u8>, String> {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.chars();
    while let Some(c) = rest.next() {
        let byte = match c {
            '\\' => match rest.next() {
                Some('r') => b'\r',
                Some('n') => b'\n',
                Some('\\') => b'\\',
                Some('x') => {
                    let digits: String = rest.by_ref().take(2).collect();
                    u8::from_str_radix(&digits, 16).map_err(|_| format!("`\\x{digits}` is no byte"))?
                }
                _ => return Err("a backslash begins \\r, \\n, \\\\ or \\x and two digits".to_owned()),
            },
            ' '..='~' => c as u8,
            other => return Err(format!("`{}` is not escaped", other.escape_default())),
        };
        bytes.push(byte);
    }
    Ok(bytes)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn head() -> Head {
        Head {
            recording: RECORDING,
            program: "standpipe 0".into(),
            device: "tcp:bench:1".into(),
            started: "2026-01-01T08:00:00Z".into(),
            about: About { guards: Some("a test".into()), ..About::default() },
        }
    }

    #[test]
    fn a_line_looks_as_the_module_says() {
        let line = |what| Entry { at: Mono::from_millis(205), what }.line();
        assert_eq!(line(Traffic::Host(b" ATI\r".to_vec())), r#"{"at_ms":205,"host":" ATI\\r"}"#);
        assert_eq!(
            line(Traffic::Adapter(b"\x00\xfc\\\"\r\n>".to_vec())),
            r#"{"at_ms":205,"adapter":"\\x00\\xfc\\\\\"\\r\\n>"}"#
        );
        assert_eq!(line(Traffic::Opened), r#"{"at_ms":205,"link":"opened"}"#);
        assert_eq!(
            line(Traffic::Closed { why: "cut".into() }),
            r#"{"at_ms":205,"link":"closed","why":"cut"}"#
        );
    }

    #[test]
    fn what_is_no_recording_is_refused_by_line() {
        let cases: &[(&str, usize, &str)] = &[
            ("", 1, "empty"),
            ("t_s,signal\n", 1, "no recording"),
            (&format!("{}\n", head().line().replace(":1,", ":7,")), 1, "form 7"),
            (&format!("{}\n{{\"at_ms\":1}}\n", head().line()), 2, "one of link"),
            (&format!("{}\n{{\"at_ms\":1,\"host\":\"\\\\q\"}}\n", head().line()), 2, "backslash"),
            (
                &format!(
                    "{}\n{{\"at_ms\":2,\"link\":\"opened\"}}\n{{\"at_ms\":1,\"link\":\"opened\"}}\n",
                    head().line()
                ),
                3,
                "before",
            ),
        ];
        for (text, line, what) in cases {
            let error = read(text).unwrap_err();
            assert!(error.line == *line && error.what.contains(what), "{text}: {error}");
        }
    }

    fn said() -> impl Strategy<Value = Traffic> {
        let bytes = || proptest::collection::vec(any::<u8>(), 0..40);
        prop_oneof![
            Just(Traffic::Opened),
            "\\PC{0,20}".prop_map(|why| Traffic::Closed { why }),
            bytes().prop_map(Traffic::Host),
            bytes().prop_map(Traffic::Adapter),
        ]
    }

    proptest! {
        #[test]
        fn what_is_written_is_read_back_and_a_cut_file_loses_its_last_line_at_most(
            parts in proptest::collection::vec((0_u64..5_000, said()), 0..20),
            cut in any::<proptest::sample::Index>(),
        ) {
            let mut at = 0;
            let entries: Vec<Entry> = parts
                .into_iter()
                .map(|(step, what)| { at += step; Entry { at: Mono::from_millis(at), what } })
                .collect();
            let mut text = head().line() + "\n";
            for entry in &entries {
                text += &(entry.line() + "\n");
            }
            prop_assert_eq!(read(&text), Ok((head(), entries.clone())));
            let end = (head().line().len() + 1..=text.len()).filter(|end| text.is_char_boundary(*end)).collect::<Vec<_>>();
            let end = *cut.get(&end);
            let whole = text[..end].matches('\n').count() - 1;
            prop_assert_eq!(read(&text[..end]), Ok((head(), entries[..whole].to_vec())));
        }
    }
}
