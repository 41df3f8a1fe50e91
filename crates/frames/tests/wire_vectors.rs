//! Every row of `wire_vectors.csv`: adapter text to messages.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may panic")]

mod reference;

use frames::{Ask, Bus, Headers, Layout, WireError, decode, layouts, reply};
use reference::{hex, rows, unescape};

/// `[{"ecu":"7E8","data":"41 05 7B"}]` to pairs. The column has no other form.
fn expected(json: &str) -> Vec<(Option<String>, Vec<u8>)> {
    let inner = json.trim_start_matches('[').trim_end_matches(']');
    let messages = inner.split("},{").filter(|message| !message.is_empty());
    messages
        .map(|message| {
            let (ecu, data) = message.split_once(",\"data\":").unwrap();
            let ecu = ecu.trim_start_matches('{').trim_start_matches("\"ecu\":").trim_matches('"');
            ((ecu != "null").then(|| ecu.to_owned()), hex(data.trim_end_matches('}').trim_matches('"')))
        })
        .collect()
}

#[test]
fn every_row_gives_the_messages_or_the_error_it_names() {
    let all = rows("obd/wire_vectors.csv");
    assert_eq!(all.len(), 350);
    for row in &all {
        let headers = if row.at("headers") == "1" { Headers::Shown } else { Headers::Hidden };
        let buses = row.at("bus").parse().map_or(Bus::ALL.to_vec(), |bus| vec![bus]);
        for bus in buses {
            check(row, Layout { bus, headers });
        }
    }
}

#[test]
fn with_the_request_known_no_row_can_be_read_and_decoded_in_two_ways() {
    for row in rows("obd/wire_vectors.csv").iter().filter(|row| row.at("status") == "ok") {
        let name = format!("{} {}", row.at("id"), row.at("adapter_text"));
        let ask = Ask::parse(row.at("request")).ok();
        let want: Vec<_> = expected(row.at("expected_messages")).into_iter().map(|(_, data)| data).collect();
        let mut own = false;
        for (layout, messages) in layouts(&unescape(row.at("adapter_text")), ask) {
            let got: Vec<_> = messages.into_iter().map(|message| message.data).collect();
            // Numbered lines of service 09 could be short answers of a CAN bus, but then they decode to nothing.
            let nothing = || ask.is_some_and(|ask| got.iter().all(|data| decode(ask, data).is_err()));
            assert!(got == want || nothing(), "{name} {layout:?}");
            let headers = if row.at("headers") == "1" { Headers::Shown } else { Headers::Hidden };
            own |= row.at("bus").parse() == Ok(layout.bus) && headers == layout.headers;
        }
        assert!(own, "{name}");
    }
}

fn check(row: &reference::Row, layout: Layout) {
    let name = format!("{} {layout:?} {}", row.at("id"), row.at("adapter_text"));
    let got = reply(&unescape(row.at("adapter_text")), layout, Ask::parse(row.at("request")).ok());
    let messages: Vec<_> = got
        .messages
        .iter()
        .map(|message| (message.ecu.map(|ecu| ecu.to_string()), message.data.clone()))
        .collect();
    let want = expected(row.at("expected_messages"));
    let kind = got.problem.as_ref().map(WireError::kind);
    match row.at("status") {
        // Out of order: this parser rejects, which the row allows.
        "ok-or-reject" => assert_eq!((messages, kind), (vec![], Some("sequence-gap")), "{name}"),
        "ok" | "negative-response" => assert_eq!((messages, kind), (want, None), "{name}"),
        "incomplete" => {
            assert_eq!(messages, want, "{name}");
            assert!(
                matches!(kind, Some("incomplete" | "sequence-gap" | "no-first-frame")),
                "{name} {kind:?}"
            );
        }
        // Nothing but a frame that is no reply.
        "ignored" => assert_eq!((messages, kind), (want, Some("empty")), "{name}"),
        status => assert_eq!((messages, kind), (want, Some(status)), "{name}"),
    }
}
