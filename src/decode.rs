//! `decode`: adapter text to values, without a daemon and without an adapter.
//!
//! In: lines on stdin. Out: one JSON line each. An error is data too, and the next line goes on.

use std::io::Read as _;

use clap::Args;
use frames::{Ask, Bus, Datum, Headers, Layout, Message, Value};
use serde::{Deserialize, Serialize};
use serde_json::json;

use crate::failure::{Exit, Failure};
use crate::screen::Screen;

/// The longest input that is taken.
/// Own choice: hours of a recorded line; it is held in memory.
const LIMIT: u64 = 16 * 1024 * 1024;

/// Arguments of `decode`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  printf '7E8 03 41 05 7B \\r\\r>' | standpipe decode\n  printf '010C\\t410C1AF8\\n' | standpipe decode --pairs\n  standpipe decode --list"
)]
pub struct DecodeArgs {
    /// Lines of request, tab, reply in hex digits.
    #[arg(long, conflicts_with_all = ["messages", "list"])]
    pairs: bool,
    /// Lines of JSON: bus, headers, request, text; reassembles without decoding.
    #[arg(long, conflicts_with = "list")]
    messages: bool,
    /// What can be decoded.
    #[arg(long)]
    list: bool,
}

/// `decode`.
pub fn run(args: &DecodeArgs, screen: Screen) -> Result<(), Failure> {
    if args.list {
        return frames::list().into_iter().try_for_each(|entry| list(&entry, screen));
    }
    let mut input = Vec::new();
    std::io::stdin()
        .lock()
        .take(LIMIT)
        .read_to_end(&mut input)
        .map_err(|e| Failure::new(Exit::InputOutput, format!("cannot read stdin: {e}")))?;
    if args.pairs || args.messages {
        let text = String::from_utf8_lossy(&input);
        let lines = text.lines().filter(|l| !l.trim().is_empty());
        return lines
            .map(|l| if args.pairs { pair(l) } else { message(l) })
            .try_for_each(|v| screen.json(&v));
    }
    let replies = input.split_inclusive(|b| *b == b'>').filter(|r| r.iter().any(u8::is_ascii_alphanumeric));
    replies.map(free_text).try_for_each(|v| screen.json(&v))
}

/// A value as it is printed.
#[derive(Serialize)]
struct Shown {
    name: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    value: Option<serde_json::Value>,
    #[serde(skip_serializing_if = "String::is_empty")]
    unit: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    supported: Option<bool>,
    raw: u64,
    bits: [u32; 2],
}

impl From<Value> for Shown {
    fn from(v: Value) -> Self {
        let value = match v.value {
            Datum::Number(n) => Some(json!(n)),
            Datum::Flag(flag) => Some(json!(flag)),
            Datum::Ids(ids) => Some(ids.iter().map(|id| format!("{id:02X}")).collect()),
            Datum::Absent => None,
            other => Some(json!(other.to_string())),
        };
        let supported = (!v.supported).then_some(false);
        let bits = [u32::from(v.bits.offset), u32::from(v.bits.length)];
        Self { name: v.name, value, unit: v.unit.to_string(), supported, raw: v.raw, bits }
    }
}

fn list(entry: &frames::Entry, screen: Screen) -> Result<(), Failure> {
    let unit = entry.unit.map(|u| u.to_string()).unwrap_or_default();
    if !screen.is_json() {
        return screen.line(&format!("{:<6} {:<48} {unit}", entry.ask.hex().to_string(), entry.name));
    }
    let mut line = json!({"request": entry.ask.hex().to_string(), "name": entry.name, "trust": format!("{:?}", entry.trust).to_lowercase()});
    if let (Some(line), false) = (line.as_object_mut(), unit.is_empty()) {
        line.insert("unit".to_owned(), json!(unit));
    }
    screen.json(&line)
}

/// `010C<TAB>410C1AF8`.
fn pair(line: &str) -> serde_json::Value {
    let (request, reply) = line.trim_end().split_once('\t').unwrap_or((line.trim_end(), ""));
    let failed = |error: &str, detail: String| json!({"request": request, "ok": false, "error": error, "detail": detail});
    let ask = match Ask::parse(request) {
        Ok(ask) => ask,
        Err(e) => return failed(e.kind(), e.to_string()),
    };
    let Some(data) = bytes(reply) else {
        return failed("not-hex", format!("`{reply}` is no even number of hexadecimal digits"));
    };
    match frames::decode(ask, &data) {
        Ok(values) => json!({"request": request, "ok": true, "values": shown(values)}),
        Err(e) => failed(e.kind(), e.to_string()),
    }
}

fn shown(values: Vec<Value>) -> Vec<Shown> {
    values.into_iter().map(Shown::from).collect()
}

fn bytes(hex: &str) -> Option<Vec<u8>> {
    let digits: Vec<u8> = hex.bytes().filter(|b| !b.is_ascii_whitespace()).collect();
    let (pairs, rest) = digits.as_chunks::<2>();
    let byte = |pair: &[u8; 2]| u8::from_str_radix(std::str::from_utf8(pair).ok()?, 16).ok();
    if rest.is_empty() { pairs.iter().map(byte).collect() } else { None }
}

/// One line of `--messages`.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Asked {
    bus: String,
    headers: bool,
    #[serde(default)]
    request: Option<String>,
    text: String,
}

fn message(line: &str) -> serde_json::Value {
    let failed =
        |error: &str, detail: String| json!({"ok": false, "error": error, "detail": detail, "messages": []});
    let asked: Asked = match serde_json::from_str(line) {
        Ok(asked) => asked,
        Err(e) => return failed("not-a-request", e.to_string()),
    };
    let bus: Bus = match asked.bus.parse() {
        Ok(bus) => bus,
        Err(_) => return failed("unknown-bus", format!("`{}` is no bus", asked.bus)),
    };
    let layout = Layout { bus, headers: if asked.headers { Headers::Shown } else { Headers::Hidden } };
    // A request that is none of ours still has replies that can be put together.
    let ask = asked.request.as_deref().and_then(|r| Ask::parse(r).ok());
    let reply = frames::reply(asked.text.as_bytes(), layout, ask);
    let messages: Vec<_> = reply.messages.iter().map(plain).collect();
    match reply.problem {
        None => json!({"ok": true, "messages": messages}),
        Some(e) => json!({"ok": false, "error": e.kind(), "detail": e.to_string(), "messages": messages}),
    }
}

fn plain(message: &Message) -> serde_json::Value {
    let data: String = message.data.iter().map(|b| format!("{b:02X}")).collect();
    match message.ecu {
        Some(ecu) => json!({"ecu": ecu.to_string(), "data": data}),
        None => json!({"data": data}),
    }
}

/// A reply of unknown origin: read in every layout there is; it is told only where one reading is left.
fn free_text(text: &[u8]) -> serde_json::Value {
    let shown_text = String::from_utf8_lossy(text).trim().to_owned();
    let mut readings: Vec<serde_json::Value> = Vec::new();
    for (_, messages) in frames::layouts(text, None) {
        let decoded: Option<Vec<_>> = messages.iter().map(understood).collect();
        if let Some(decoded) = decoded.filter(|d| !d.is_empty()).map(|d| json!({"ok": true, "messages": d}))
            && !readings.contains(&decoded)
        {
            readings.push(decoded);
        }
    }
    match (readings.len(), readings.pop()) {
        (1, Some(reading)) => reading,
        (0, _) => {
            json!({"ok": false, "error": "not-understood", "detail": "no form of reply fits this text", "text": shown_text})
        }
        (n, _) => {
            json!({"ok": false, "error": "ambiguous", "detail": format!("{n} forms fit; use --messages with the bus"), "text": shown_text})
        }
    }
}

/// A message with its values, where the message itself says what was asked.
fn understood(message: &Message) -> Option<serde_json::Value> {
    let ask = asked_for(&message.data)?;
    let values = frames::decode(ask, &message.data).ok()?;
    let mut line = plain(message);
    line.as_object_mut()?.insert("values".to_owned(), json!(shown(values)));
    Some(line)
}

/// The request that a positive reply answers.
fn asked_for(data: &[u8]) -> Option<Ask> {
    match data {
        [0x41, pid, ..] => Some(Ask::Current(*pid)),
        [0x42, pid, frame, ..] => Some(Ask::FreezeFrame { pid: *pid, frame: *frame }),
        [0x43, ..] => Some(Ask::StoredCodes),
        [0x46, id, ..] => Some(Ask::TestResults(*id)),
        [0x47, ..] => Some(Ask::PendingCodes),
        [0x49, id, ..] => Some(Ask::VehicleInfo(*id)),
        [0x4A, ..] => Some(Ask::PermanentCodes),
        _ => None,
    }
}
