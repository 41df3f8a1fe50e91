//! One temperature, from the bytes of the adapter to the line of the socket: the six hops of `DEVELOPERS.md`, one after the
//! other, through the very functions that it names.
//!
//! A test and a guide: whoever wants to know what becomes of a reading reads it from top to bottom. Not here: the daemon's
//! loop, which calls the same functions when their turn comes (`bay.rs`, `daemon.rs`).

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test")]

use adapter::Codec;
use events::{Advice, Body, Event, Measure, Reading, Reason, Seq, Sheet, Told, Utc, Verdict};
use frames::{Ask, Bus, Headers, Layout};
use job::{Job, VerdictNow};
use units::{Celsius, Mono};

use crate::outbox::Outbox;
use crate::socket::tests::Daemon;
use crate::translate::{self, Meaning, Value};

const BYTES: &[u8] = b"7E9 04 62 4D 07 4E \r\r>";

#[tokio::test(start_paused = true)]
async fn a_temperature_goes_from_the_adapters_bytes_to_the_line_of_the_socket() {
    let sheet = Sheet::parse(include_str!("../../../fixtures/sheets/demo-six-speed.toml")).unwrap();
    let (ask, now, utc) = (Ask::Identifier(0x4D07), Mono::from_secs(60), Utc::from_millis(1_767_225_600_000));

    // 1: bytes -> reply, wherever the stream is cut.
    let mut codec = Codec::default();
    let (mut first, mut second) = BYTES.split_at(7);
    assert!(codec.take(&mut first).is_none());
    let reply = codec.take(&mut second).unwrap();

    // 2: reply -> value, with its unit and its sender.
    let layout = Layout { bus: Bus::Can11, headers: Headers::Shown };
    let message = frames::reply(&reply.text, layout, Some(ask)).messages.remove(0);
    let mut values = Vec::new();
    Meaning::of(&sheet).read(ask, &message, &mut values).unwrap();
    let Value { from, measure, step } = values.remove(0);
    assert_eq!(measure, Measure::Fluid(Celsius::clamped(38.0)));
    let reading = Reading { measure, step, from: from.map(|ecu| ecu.to_string()), age_ms: 0 };

    // 3: value + now -> verdict. One reading proves nothing, and it says so.
    let mut gate = translate::gate(&sheet);
    gate.observe(&reading, now);
    let judged = gate.judge(now, &[]);
    assert_eq!(judged.verdict, Verdict::Wait);
    assert!(judged.reasons.to_vec().contains(&Reason::NotAlive), "{:?}", judged.reasons);

    // 4: verdict or request -> event. Numbered, then folded.
    let verdict = VerdictNow {
        verdict: judged.verdict,
        estimate: judged.estimate,
        forecast: judged.forecast,
        reasons: judged.reasons.to_vec(),
        link_up: true,
    };
    let mut job = Job::default();
    let told = Told { id: "1".to_owned(), by: None, request: events::Request::start() };
    let mut bodies = job.decide(&told, now, utc, &sheet, &verdict).unwrap();
    bodies.extend([Body::Reading(reading)]);
    let number = |(before, body): (u64, Body)| Event { seq: Seq(before + 1), at: utc, mono_ms: now, body };
    let events: Vec<Event> = (0..).zip(bodies).map(number).collect();
    events.iter().for_each(|event| job.apply(event));
    assert!(job.is_running());
    assert_eq!(job.said(now, &verdict).advice, Advice::PrepareVehicle);

    // 5: event -> disk. The reading stands behind facts, and is seen when they are durable.
    let mut daemon = Daemon::for_clients(1);
    let mut client = daemon.client().await;
    let mut outbox = Outbox::default();
    events.into_iter().for_each(|event| outbox.push(event));
    assert!(outbox.poll_visible().is_none(), "nobody sees what is not kept");
    let batch = outbox.poll_write(now).unwrap();
    daemon.journal.append(batch).await.unwrap().unwrap();
    outbox.written();

    // 6: event -> client.
    while let Some(row) = outbox.poll_visible() {
        daemon.shared.hub.publish(row);
    }
    let mut line = String::new();
    while !line.contains("fluid-temperature") {
        line = client.line().await;
    }
    let event: Event = serde_json::from_str(&line).unwrap();
    let Body::Reading(read) = event.body else { panic!("{line}") };
    assert_eq!((read.measure, read.from.as_deref()), (measure, Some("7E9")), "{line}");
}
