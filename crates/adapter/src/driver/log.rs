//! Each exchange as one line for who looks into the program (`STANDPIPE_LOG=debug`).
//!
//! In: the exchange, and what had come when it ended. Out: a `tracing` event at debug; while nobody listens nothing is put
//! together. Not here: what a fault report quotes (`history.rs`), a recording that can be played back (`recording.rs`).

use units::Mono;

use super::exchange::Exchange;

/// So many bytes of a reply are shown.
/// Own choice: a reply of several frames begins within it, and a line of the log stays one line of a terminal.
const SHOWN: usize = 64;

/// How an exchange ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Ended {
    /// With a prompt.
    Replied,
    /// At its limit.
    TimedOut,
}

/// Tells it.
pub(super) fn exchange(exchange: &Exchange, text: &[u8], ended: Ended, now: Mono) {
    tracing::debug!(
        request = %exchange.command,
        bytes = text.len(),
        elapsed_ms = now.since(exchange.sent).as_millis() as u64,
        outcome = outcome(text, ended),
        said = %shown(text),
        "exchange"
    );
}

/// What its last line is: data, or a text of the adapter by its word.
fn outcome(text: &[u8], ended: Ended) -> &'static str {
    let last = crate::codec::lines(text).last();
    match (ended, last) {
        (Ended::TimedOut, _) => "timed-out",
        (Ended::Replied, None) => "empty",
        (Ended::Replied, Some(line)) => frames::status(line).map_or("data", frames::Status::kind),
    }
}

/// The beginning of what came, with everything that is no plain character escaped.
fn shown(text: &[u8]) -> std::slice::EscapeAscii<'_> {
    let text = text.trim_ascii();
    text.get(..SHOWN).unwrap_or(text).escape_ascii()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_exchange_is_named_by_its_last_line() {
        let cases: &[(&str, &[u8], Ended, &str)] = &[
            ("data", b"7E8 03 41 05 7B \r\r", Ended::Replied, "data"),
            ("data behind a search", b"SEARCHING...\r4100BE3EB811\r\r", Ended::Replied, "data"),
            ("a text", b"NO DATA\r\r", Ended::Replied, "no-data"),
            ("nothing", b"\r\r", Ended::Replied, "empty"),
            ("no prompt", b"41057B\r", Ended::TimedOut, "timed-out"),
        ];
        for (what, text, ended, want) in cases {
            assert_eq!(outcome(text, *ended), *want, "{what}");
        }
    }

    #[test]
    fn what_is_shown_is_short_and_holds_no_control_character() {
        assert_eq!(shown(b"\r\nA\x1b[2J\r\r").to_string(), "A\\x1b[2J");
        assert_eq!(shown(&[b'4'; 4_096]).to_string().len(), SHOWN);
    }
}
