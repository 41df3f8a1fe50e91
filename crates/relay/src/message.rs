//! What is said to the broker: topics and payloads.
//!
//! In: a bay's name, lines of its socket. Out: topics, payloads without the person's data. Pure. Not here: when (`flow.rs`), how (`session.rs`).

use core::fmt;
use core::str::FromStr;
use std::borrow::Cow;

use events::{Body, Event, LinkChange, Request, Snapshot, Sort, Told};
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};

/// A bay's name as it stands in topics.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bay(String);

/// A name that cannot stand in a topic.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("`{name}` cannot be a bay's name at a broker: 1 to 64 letters, digits, `-`, `_` and `.`")]
pub struct BayError {
    name: String,
}

impl FromStr for Bay {
    type Err = BayError;

    /// Letters, digits, `-`, `_`, `.`: nothing that means something in a topic or a filter (MQTT 5.0, 4.7.1).
    fn from_str(name: &str) -> Result<Self, BayError> {
        let fits = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.');
        match (1..=LONGEST_NAME).contains(&name.len()) && name.chars().all(fits) {
            true => Ok(Self(name.to_owned())),
            false => Err(BayError { name: name.chars().take(LONGEST_NAME).collect() }),
        }
    }
}

impl fmt::Display for Bay {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl Bay {
    /// Facts, each once or oftener, in the order of their numbers.
    pub fn facts(&self) -> String {
        format!("{ROOT}/{}/fact", self.0)
    }

    /// Samples of one kind; some are left out.
    pub fn samples(&self, kind: &str) -> String {
        format!("{ROOT}/{}/sample/{kind}", self.0)
    }

    /// The state, retained.
    pub fn state(&self) -> String {
        format!("{ROOT}/{}/state", self.0)
    }

    /// Whether it is there, retained.
    pub fn presence(&self) -> String {
        format!("{ROOT}/{}/presence", self.0)
    }
}

/// Whether a bay is there: said by the relay, and by the broker where the relay is gone.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Presence {
    /// Its daemon is heard.
    pub present: bool,
    /// Why not: `relay-lost`, `relay-stopped`, `daemon-lost`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub why: Option<Cow<'static, str>>,
}

impl Presence {
    /// It is there.
    pub const HERE: Self = Self { present: true, why: None };

    /// It is not.
    pub const fn lost(why: &'static str) -> Self {
        Self { present: false, why: Some(Cow::Borrowed(why)) }
    }

    /// As it is published.
    pub fn payload(&self) -> String {
        serde_json::to_string(self).unwrap_or_default()
    }
}

/// An event as it goes to the broker.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Outgoing<'a> {
    pub(crate) text: Cow<'a, str>,
    /// Something of it stays in the bay.
    pub(crate) cut: bool,
}

/// The line as it came, byte for byte, unless it holds a person's data that stay in the bay.
pub(crate) fn event<'a>(text: &'a str, event: &Event, personal: bool) -> Outgoing<'a> {
    if personal {
        return Outgoing { text: Cow::Borrowed(text), cut: false };
    }
    let keys = names(&event.body);
    if keys.is_empty() {
        return Outgoing { text: Cow::Borrowed(text), cut: false };
    }
    let mut kept = serde_json::to_value(event).unwrap_or_default();
    for key in keys {
        if let Some(value) = kept.get_mut(key) {
            *value = Value::from(KEPT);
        }
    }
    Outgoing { text: Cow::Owned(kept.to_string()), cut: true }
}

/// What the broker takes no line of such a length for: its number, time and kind.
pub(crate) fn stub(event: &Event) -> String {
    let mut stub = Map::new();
    stub.insert("seq".to_owned(), Value::from(event.seq.0));
    stub.insert("at".to_owned(), serde_json::to_value(event.at).unwrap_or_default());
    stub.insert("mono_ms".to_owned(), Value::from(event.mono_ms.as_millis()));
    stub.insert("kind".to_owned(), Value::from(event.body.kind()));
    Value::Object(stub).to_string()
}

/// The state as a board reads it: a snapshot without the vehicle data, which stand in the bay.
pub(crate) fn state(snapshot: &Snapshot, personal: bool) -> String {
    let mut shown = Snapshot { sheet: None, sheets: Vec::new(), candidates: Vec::new(), ..snapshot.clone() };
    if let Some(job) = shown.job.as_mut().filter(|_| !personal) {
        job.vehicle = None;
    }
    serde_json::to_string(&shown).unwrap_or_default()
}

/// Which texts of an event may name a person or a vehicle. Whatever is a remark may, also what is not known here yet.
fn names(body: &Body) -> &'static [&'static str] {
    match body {
        Body::Told(Told { request: Request::Abort { .. }, .. }) => &["why"],
        Body::Told(Told { request, .. }) if request.sort() == Sort::Remarks => &["text", "name"],
        Body::Link(LinkChange::Vehicle { .. }) => &["vin"],
        _ => &[],
    }
}

/// In the place of what stays in the bay.
const KEPT: &str = "(kept in the bay)";
/// All topics begin with it.
const ROOT: &str = "standpipe";
/// Own choice: as long as a request's id; a topic has room for a thousand times that (MQTT 5.0, 1.5.4).
const LONGEST_NAME: usize = 64;

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test")]
mod tests {
    use super::*;

    fn read(text: &str) -> Event {
        serde_json::from_str(text).unwrap()
    }

    #[test]
    fn a_name_that_means_something_in_a_topic_is_refused() {
        for name in ["", "a/b", "+", "#", "left\u{0}", "$SYS", "zwei buchten", &"x".repeat(65)] {
            assert!(name.parse::<Bay>().is_err(), "{name}");
        }
        let bay: Bay = "left-2".parse().unwrap();
        assert_eq!(bay.facts(), "standpipe/left-2/fact");
        assert_eq!(bay.samples("reading"), "standpipe/left-2/sample/reading");
    }

    #[test]
    fn a_fact_goes_out_byte_for_byte() {
        // A space that our own writer would not put there.
        let text = r#"{"seq":7, "at":"2026-03-02T08:14:07.120Z","mono_ms":5,"kind":"told","id":"a","tell":"flowing"}"#;
        let out = event(text, &read(text), false);
        assert_eq!((out.text.as_ref(), out.cut), (text, false));
    }

    #[test]
    fn what_names_a_person_or_a_vehicle_stays_in_the_bay_unless_asked_for() {
        let rows = [
            r#""kind":"told","id":"a","tell":"vehicle","text":"QL 42 ZZ""#,
            r#""kind":"told","id":"a","tell":"note","text":"QL 42 ZZ""#,
            r#""kind":"told","id":"a","tell":"abort","why":"QL 42 ZZ""#,
            r#""kind":"told","id":"a","tell":"particular","what":"technician","text":"QL 42 ZZ""#,
            r#""kind":"link","state":"vehicle","vin":"QL 42 ZZ""#,
        ];
        for row in rows {
            let text = format!(r#"{{"seq":7,"at":"2026-03-02T08:14:07.120Z","mono_ms":5,{row}}}"#);
            let out = event(&text, &read(&text), false);
            assert!(out.cut && !out.text.contains("QL 42"), "{}", out.text);
            assert_eq!(read(&out.text).seq, read(&text).seq, "it is still an event");
            assert_eq!(event(&text, &read(&text), true).text, text);
        }
    }

    #[test]
    fn the_state_is_a_snapshot_without_vehicle_data_and_plate() {
        let mut snapshot = Snapshot { sheets: vec!["Demo".to_owned()], ..Snapshot::default() };
        let sheet =
            events::Sheet::parse(include_str!("../../../fixtures/sheets/demo-six-speed.toml")).unwrap();
        let mut job = events::JobView::new(1, &sheet, snapshot.at, None, events::People::default());
        job.vehicle = Some("QL 42 ZZ".to_owned());
        (snapshot.job, snapshot.sheet) = (Some(job), Some(Box::new(sheet)));
        let text = state(&snapshot, false);
        let back: Snapshot = serde_json::from_str(&text).unwrap();
        assert!(back.sheet.is_none() && back.sheets.is_empty() && !text.contains("QL 42"));
        assert_eq!(back.verdict, events::Verdict::Wait);
        assert!(state(&snapshot, true).contains("QL 42"));
    }

    #[test]
    fn a_stub_says_which_event_it_stands_for() {
        let text = r#"{"seq":7,"at":"2026-03-02T08:14:07.120Z","mono_ms":5,"kind":"told","id":"a","tell":"flowing"}"#;
        let stub: Value = serde_json::from_str(&stub(&read(text))).unwrap();
        assert_eq!(
            stub,
            serde_json::json!({"seq":7,"at":"2026-03-02T08:14:07.120Z","mono_ms":5,"kind":"told"})
        );
    }
}
