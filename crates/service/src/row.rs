//! One event as it is kept and sent: its text is made once, for the disk and for every client.
//!
//! In: an event. Out: the event with its text, shared by whoever holds it. Not here: when it is written or shown (`outbox.rs`).

use std::sync::Arc;

use events::{Event, Fault};

/// See the module's words; a copy of it copies neither the event nor its text.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Row {
    pub(crate) event: Arc<Event>,
    /// The text as it is stored and sent, byte for byte.
    pub(crate) line: Arc<str>,
    /// The event has no text of its own, and why: it can be told to nobody and kept by nobody.
    pub(crate) unsaid: Option<Arc<str>>,
}

impl Row {
    /// One that was written before, with the text that it was written as.
    pub(crate) fn written(event: Event, line: String) -> Self {
        Self { event: Arc::new(event), line: line.into(), unsaid: None }
    }

    /// Clients see a fault under its number: nobody waits for it in vain. The journal takes none.
    fn unsaid(event: Event, why: &str) -> Self {
        let kind = event.body.kind();
        tracing::error!(seq = event.seq.0, kind, error = why, "an event cannot be written as text");
        let line = serde_json::json!({
            "seq": event.seq, "at": event.at, "mono_ms": event.mono_ms,
            "kind": "fault", "fault": Fault::JournalDamaged,
            "detail": format!("the event {} of kind {kind} cannot be written as text: {why}", event.seq),
        });
        Self { unsaid: Some(why.into()), ..Self::written(event, line.to_string()) }
    }

    /// The kind that clients may ask for.
    pub(crate) fn kind(&self) -> &'static str {
        if self.unsaid.is_some() { "fault" } else { self.event.body.kind() }
    }
}

impl From<Event> for Row {
    fn from(event: Event) -> Self {
        match serde_json::to_string(&event) {
            Ok(line) => Self::written(event, line),
            Err(e) => Self::unsaid(event, &e.to_string()),
        }
    }
}

#[cfg(test)]
mod tests {
    use events::{Advice, Body, Seq, Utc};
    use units::Mono;

    use super::*;

    #[test]
    fn an_event_without_a_text_becomes_a_fault_under_its_number() {
        let body = Body::Advice(Advice::StayClear.into());
        let event = Event { seq: Seq(1), at: Utc::from_millis(0), mono_ms: Mono::ZERO, body };
        assert_eq!(Row::from(event.clone()).kind(), "advice");
        let row = Row::unsaid(event, "no number");
        let told: Event = serde_json::from_str(&row.line).unwrap();
        assert!(matches!(told.body, Body::Fault { fault: Fault::JournalDamaged, .. }), "{told:?}");
        assert_eq!((told.seq, row.kind(), row.unsaid.as_deref()), (Seq(1), "fault", Some("no number")));
    }
}
