//! What the fuzz targets do with their bytes, one function each. `tests/corpus.rs` of the crate runs the same functions
//! over every committed corpus entry with a stable compiler.
//!
//! Each function asserts more than the absence of a panic: bounds on what comes out, and that two ways agree.

use frames::{
    Ask, Bus, ByteOrder, Cut, Ecu, Encoding, Headers, Layout, NegativeReply, Stream, decode, decode_one,
    encode, reply, single, spn_177, status, values,
};

/// A target: its name (the folder of its corpus) and its function.
pub type Target = (&'static str, fn(&[u8]));

/// All targets.
pub const TARGETS: &[Target] = &[
    ("text", text),
    ("isotp", isotp),
    ("current", current),
    ("codes", codes),
    ("tests", tests),
    ("info", info),
    ("sheet", sheet),
    ("stream", stream),
];

/// The layout and request that the first bytes select, and the rest.
fn setting(bytes: &[u8]) -> Option<(Layout, Option<Ask>, &[u8])> {
    let (&select, rest) = bytes.split_first()?;
    let bus = *Bus::ALL.get(usize::from(select & 7)).unwrap_or(&Bus::Can11);
    let headers = if select & 8 == 0 { Headers::Shown } else { Headers::Hidden };
    let (ask, rest) = match select >> 4 {
        0 => (None, rest),
        length => {
            let (request, rest) = rest.split_at_checked(usize::from(length))?;
            (core::str::from_utf8(request).ok().and_then(|text| Ask::parse(text).ok()), rest)
        }
    };
    Some((Layout { bus, headers }, ask, rest))
}

/// Any text in any layout: nothing comes out that did not come in, and the parsers of single lines agree with it.
pub fn text(bytes: &[u8]) {
    let Some((layout, ask, text)) = setting(bytes) else { return };
    let reply = reply(text, layout, ask);
    let kept: usize = reply.messages.iter().chain(&reply.others).map(|message| message.data.len()).sum();
    assert!(kept * 2 <= text.len());
    assert_eq!(reply.prompt, text.contains(&b'>'));
    for message in &reply.messages {
        assert_eq!(message.ecu.is_some(), layout.headers == Headers::Shown);
        if let Some(ecu) = message.ecu {
            assert_eq!(ecu.to_string().parse::<Ecu>(), Ok(ecu));
        }
        if let Some(ask) = ask {
            let negative =
                NegativeReply::parse(&message.data).is_some_and(|negative| negative.service == ask.service());
            assert!(ask.matches(&message.data) || negative);
            let _ = decode(ask, &message.data);
        }
    }
    assert!(reply.problem.is_some() || !reply.messages.is_empty());
    if let Some(problem) = reply.problem {
        assert!(!problem.kind().is_empty() && !problem.to_string().is_empty());
    }
    for line in text.split(|byte| *byte == b'\r') {
        let _ = status(line).map(|status| (status.class().as_str(), status.kind(), status.to_string()));
    }
}

/// Frames of up to four units, mixed: a message that comes out has the length that its first frame announced, and
/// consists of that unit's frames in their order.
pub fn isotp(bytes: &[u8]) {
    let mut text = Vec::new();
    let mut sent: [Vec<u8>; 4] = Default::default();
    for frame in bytes.chunks(9).take(200) {
        let Some((&select, frame)) = frame.split_first() else { continue };
        let unit = select & 3;
        text.extend_from_slice(format!("7E{:X}", 8 + unit).as_bytes());
        for byte in frame {
            text.extend_from_slice(format!("{byte:02X}").as_bytes());
        }
        text.push(b'\r');
        sent[usize::from(unit)].extend_from_slice(frame);
    }
    let layout = Layout { bus: Bus::Can11, headers: Headers::Shown };
    for message in reply(&text, layout, None).messages {
        let unit = message.ecu.map_or(0, |ecu| ecu.id() as usize & 3);
        assert!((1..=4095).contains(&message.data.len()));
        // In order: a subsequence of all that the unit sent.
        let mut all = sent[unit].iter();
        assert!(message.data.iter().all(|byte| all.any(|other| other == byte)));
    }
}

/// Services 01 and 02: what decodes is encoded to the same bits.
pub fn current(bytes: &[u8]) {
    let Some((&pid, payload)) = bytes.split_first() else { return };
    let ask = Ask::Current(pid);
    let data = [&[0x41, pid], payload].concat();
    if let Ok(all) = decode(ask, &data) {
        let number = |value: &frames::Value| value.number().unwrap_or(value.raw as f64);
        let given: Vec<_> =
            all.iter().filter(|value| value.supported).map(|value| (value.name, number(value))).collect();
        let again = encode(ask, &given).map(|again| decode(ask, &again).unwrap_or_default());
        for value in all.iter().filter(|value| value.supported) {
            let same = again.iter().flatten().find(|other| other.name == value.name);
            assert_eq!(same.map(|other| other.raw), Some(value.raw), "{}", value.name);
            assert_eq!(decode_one(ask, &data, value.name).ok(), Some(*value));
        }
    }
    let frozen = Ask::FreezeFrame { pid, frame: 0 };
    let stored = [&[0x42, pid, 0], payload].concat();
    assert_eq!(decode(frozen, &stored).is_ok(), decode(ask, &data).is_ok());
    if let Some(many) = bytes.get(..6).and_then(frames::Pids::new) {
        let _ = decode(Ask::CurrentMany(many), &[&[0x41], bytes].concat());
    }
}

/// Services 03, 07 and 0A: a code for every two bytes at most.
pub fn codes(bytes: &[u8]) {
    for (ask, first) in [(Ask::StoredCodes, 0x43), (Ask::PendingCodes, 0x47), (Ask::PermanentCodes, 0x4A)] {
        if let Ok(all) = values(ask, &[&[first], bytes].concat()) {
            let all: Vec<_> = all.collect();
            assert!(all.len() <= bytes.len() / 2 + 1);
        }
    }
    let _ = decode(Ask::StoredCodes, bytes);
}

/// Service 06.
pub fn tests(bytes: &[u8]) {
    let Some((&id, payload)) = bytes.split_first() else { return };
    if let Ok(all) = decode(Ask::TestResults(id), &[&[0x46, id], payload].concat()) {
        assert!(!all.is_empty() && all.len() <= payload.len());
        assert!(all.iter().filter_map(frames::Value::number).all(f64::is_finite));
    }
}

/// Service 09.
pub fn info(bytes: &[u8]) {
    let Some((&id, payload)) = bytes.split_first() else { return };
    if let Ok(all) = decode(Ask::VehicleInfo(id), &[&[0x49, id], payload].concat()) {
        assert!(all.len() <= payload.len().max(2));
        assert!(
            all.iter().all(|value| usize::from(value.bits.offset + value.bits.length) <= payload.len() * 8)
        );
    }
}

/// Services 21 and 22: any description of a value over any payload.
pub fn sheet(bytes: &[u8]) {
    let Some((&[byte, length, flags, offset, count, scale_a, scale_b, add], payload)) =
        bytes.split_first_chunk()
    else {
        return;
    };
    let encoding = Encoding {
        byte,
        length,
        signed: flags & 1 == 1,
        order: if flags & 2 == 0 { ByteOrder::BigEndian } else { ByteOrder::LittleEndian },
        scale: f64::from(scale_a.cast_signed()) / (1.0 + f64::from(scale_b)),
        offset: f64::from(add.cast_signed()),
        bits: (flags & 4 == 4).then_some((offset, count)),
    };
    if let Ok(read) = encoding.read(payload) {
        let (low, high) = encoding.range();
        assert!((low..=high).contains(&read.value));
        let again = encoding.write(read.value).map(|again| encoding.read(&again));
        assert_eq!(again.map(|again| again.map(|again| again.raw)), Ok(Ok(read.raw)));
    }
    let _ = spn_177(payload);
}

/// A stream in pieces: the same replies as in one, and never more than the limit kept.
pub fn stream(bytes: &[u8]) {
    let Some((&size, rest)) = bytes.split_first() else { return };
    let collect = |pieces: &mut dyn Iterator<Item = &[u8]>| {
        let (mut stream, mut out) = (Stream::new(64), Vec::new());
        for piece in pieces {
            stream.push(piece, |cut| {
                out.push(match cut {
                    Cut::Reply(text) => Ok(text.to_vec()),
                    Cut::TooLong(dropped) => Err(dropped),
                });
            });
            assert!(stream.rest().len() <= 64);
        }
        out
    };
    let whole = collect(&mut core::iter::once(rest));
    assert_eq!(whole, collect(&mut rest.chunks(usize::from(size).max(1))));
    let layout = Layout { bus: Bus::Can11, headers: Headers::Shown };
    for text in whole.iter().flatten() {
        assert!(reply(text, layout, None).prompt);
        let _ = single(text, layout, Ask::Current(0x05));
    }
}
