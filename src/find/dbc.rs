//! Identifiers from a table in the open DBC form: what it names as a temperature is asked first.
//!
//! ```text
//!   BO_ 2025 (7E9, an answer)    SG_ service M  = 62 ─┐
//!                                SG_ id m98M    = 4D07 ┼─► the answer's first bytes ─► service 22, identifier 4D07, asked at 7E1
//!                                SG_ value m19719 : 39|8@0+ (1,-40)     byte 0 behind it
//! ```
//!
//! In: the text of a file. Out: places, and what could not be used. A table describes frames: the bits that its multiplexors fix in a single-frame
//! answer of ISO 15765-2 say which request it answers. Linear signals of whole bytes only. A table is no evidence: each place is still watched,
//! under every encoding. Not here: the form itself (`can-dbc`).

use std::path::Path;

use can_dbc::{ByteOrder, Dbc, Message, MessageId, MultiplexIndicator, Signal};
use find::{Header, Place, Service};

use crate::failure::{Exit, Failure};

/// A table is no larger.
/// Own choice: public tables stay below 2 MB (from memory); it is read whole.
const MOST_BYTES: u64 = 4 * 1024 * 1024;
/// And names no more temperatures.
/// Own choice: each is asked in turn, a thousand take some minutes; a vehicle has a few dozen temperatures.
const MOST_PLACES: usize = 1_000;
/// A chain of multiplexors is no longer.
/// Own choice: tables in use nest two or three deep; a circle must end.
const MOST_CHAIN: usize = 8;
/// Bytes of a single frame.
/// Source: ISO 11898-1, from memory.
const FRAME: usize = 8;

/// What a file named.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Named {
    /// Where temperatures are, in the order of the file, each once.
    pub places: Vec<Place>,
    /// So many signals are of no answer to a reading request, not linear over whole bytes, or no temperature.
    pub left_out: usize,
}

/// Reads a table.
///
/// # Errors
/// Where it cannot be read, or is none.
pub fn read(path: &Path) -> Result<Named, Failure> {
    let length = std::fs::metadata(path).map_err(|e| Failure::file("read", path, &e))?.len();
    if length > MOST_BYTES {
        return Err(Failure::new(
            Exit::Data,
            format!("{} is larger than any table: {length} bytes", path.display()),
        ));
    }
    let text = std::fs::read(path).map_err(|e| Failure::file("read", path, &e))?;
    named(&String::from_utf8_lossy(&text)).map_err(|why| {
        Failure::new(Exit::Data, format!("{} is no table in the DBC form: {why}", path.display()))
            .try_this("name a file with BO_ and SG_ lines")
    })
}

fn named(text: &str) -> Result<Named, String> {
    let dbc = Dbc::try_from(text).map_err(|e| e.to_string().lines().take(2).collect::<Vec<_>>().join(" "))?;
    let mut named = Named::default();
    for message in &dbc.messages {
        let header = asked_at(message.id);
        for signal in &message.signals {
            let place = header
                .filter(|_| is_temperature(signal))
                .and_then(|header| place(&dbc, message, signal, header));
            match place {
                Some(place) if named.places.contains(&place) => {}
                Some(place) if named.places.len() < MOST_PLACES => named.places.push(place),
                _ => named.left_out += 1,
            }
        }
    }
    Ok(named)
}

/// Where the unit is asked that answers by this message; `None` where it is none of a diagnostic answer.
fn asked_at(id: MessageId) -> Option<Header> {
    let text = match id {
        MessageId::Standard(id @ 0x608..=0x7FF) => format!("{:03X}", id - 8),
        MessageId::Extended(id) if id >> 8 == 0x0018_DAF1 => format!("18DA{:02X}F1", id & 0xFF),
        _ => return None,
    };
    text.parse().ok()
}

/// Whether its unit is one of temperature, or it has none and its name speaks of one.
fn is_temperature(signal: &Signal) -> bool {
    let unit: String = signal.unit.chars().filter(|c| c.is_alphanumeric()).collect::<String>().to_lowercase();
    match unit.as_str() {
        "c" | "degc" | "celsius" | "f" | "degf" | "fahrenheit" | "k" | "degk" | "kelvin" => true,
        "" => signal.name.to_lowercase().contains("temp"),
        _ => false,
    }
}

/// The request that the bits fixed by its multiplexors answer.
fn place(dbc: &Dbc, message: &Message, signal: &Signal, header: Header) -> Option<Place> {
    let mut frame = [None; FRAME * 8];
    let mut at = signal;
    for _ in 0..MOST_CHAIN {
        let Some((switch, value)) = switch_of(dbc, message, at)? else { break };
        set(&mut frame, switch, value)?;
        at = switch;
    }
    let byte = |at: usize| {
        let bits = frame.get(at * 8..at * 8 + 8)?;
        // The first bit is the highest.
        bits.iter().try_fold(0_u8, |byte, bit| bit.map(|bit: bool| byte << 1 | u8::from(bit)))
    };
    // Byte 0 of a single frame is its length.
    let (service, id, behind) = match byte(1)? {
        0x62 => (Service::Identifier, u16::from_be_bytes([byte(2)?, byte(3)?]), 4),
        0x61 => (Service::Local, u16::from(byte(2)?), 3),
        _ => return None,
    };
    let bits = positions(signal)?;
    let whole = matches!(signal.size, 8 | 16) && bits.iter().min()?.is_multiple_of(8);
    (whole && *bits.iter().min()? >= behind * 8).then_some(Place { header, service, id })
}

/// The multiplexor that `signal` hangs on and the value that it has then. `Some(None)`: on none. `None`: not to be told for sure.
fn switch_of<'a>(
    dbc: &'a Dbc,
    message: &'a Message,
    signal: &'a Signal,
) -> Option<Option<(&'a Signal, u64)>> {
    let by_name = |name: &str| message.signals.iter().find(|s| s.name == name);
    let extended = dbc
        .extended_multiplex
        .iter()
        .find(|extended| extended.message_id == message.id && extended.signal_name == signal.name);
    if let Some(extended) = extended {
        let [one] = extended.mappings.as_slice() else { return None };
        let switch = by_name(&extended.multiplexor_signal_name)?;
        return (one.min_value == one.max_value).then_some(Some((switch, one.min_value)));
    }
    let value = match signal.multiplexer_indicator {
        MultiplexIndicator::Plain | MultiplexIndicator::Multiplexor => return Some(None),
        MultiplexIndicator::MultiplexedSignal(value)
        | MultiplexIndicator::MultiplexorAndMultiplexedSignal(value) => value,
    };
    let mut switches = message.signals.iter().filter(|s| {
        let nested =
            matches!(s.multiplexer_indicator, MultiplexIndicator::MultiplexorAndMultiplexedSignal(_));
        nested || s.multiplexer_indicator == MultiplexIndicator::Multiplexor
    });
    // With several nobody says which one it is.
    let switch = switches.next().filter(|switch| switches.next().is_none() && switch.name != signal.name)?;
    Some(Some((switch, value)))
}

/// The bits of a signal in the frame, highest first, counted from the highest bit of byte 0; `None` where it is not in it.
fn positions(signal: &Signal) -> Option<Vec<usize>> {
    let (start, size) = (usize::try_from(signal.start_bit).ok()?, usize::try_from(signal.size).ok()?);
    if size == 0 || size > 64 || start >= FRAME * 8 {
        return None;
    }
    // In the file bit 0 is the lowest of byte 0.
    let place = |bit: usize| (bit < FRAME * 8).then(|| bit / 8 * 8 + 7 - bit % 8);
    match signal.byte_order {
        ByteOrder::LittleEndian => (0..size).rev().map(|n| place(start + n)).collect(),
        ByteOrder::BigEndian => {
            let first = place(start)?;
            (first + size <= FRAME * 8).then(|| (first..first + size).collect())
        }
    }
}

/// Writes the value of a multiplexor into the frame; `None` where it does not fit, or contradicts another.
fn set(frame: &mut [Option<bool>], switch: &Signal, value: u64) -> Option<()> {
    let bits = positions(switch)?;
    if bits.len() < 64 && value >> bits.len() != 0 {
        return None;
    }
    for (n, at) in bits.iter().rev().enumerate() {
        let (slot, bit) = (frame.get_mut(*at)?, value >> n & 1 == 1);
        if slot.is_some_and(|before| before != bit) {
            return None;
        }
        *slot = Some(bit);
    }
    Some(())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// An invented table of the workshop "Quillan Lane".
    const TABLE: &str = include_str!("../../fixtures/dbc/demo.dbc");

    #[test]
    fn the_bits_that_multiplexors_fix_say_which_request_it_is() {
        let named = named(TABLE).unwrap();
        let places: Vec<String> = named.places.iter().map(ToString::to_string).collect();
        assert_eq!(places, ["7E1 22 4D07", "7E1 22 4D0A", "7E1 21 0A", "18DA18F1 22 4D07"]);
        assert_eq!(named.left_out, 8, "switches, speeds, a broadcast, half bytes, a range of values");
    }

    #[test]
    fn what_is_no_table_is_refused_and_nothing_in_one_ends_the_program() {
        for text in ["", "BO_", "BO_ 1 x", "SG_ a : 0|8@1+ (1,0) [0|0] \"\" X"] {
            let _ = named(text);
        }
        assert!(named("BO_ nine A: 8 X").is_err());
        // Each line of the table cut out, doubled, or cut short.
        let lines: Vec<&str> = TABLE.lines().collect();
        for at in 0..lines.len() {
            let without: Vec<&str> =
                lines.iter().enumerate().filter(|(n, _)| *n != at).map(|(_, line)| *line).collect();
            let _ = named(&without.join("\n"));
            let half = lines[at].split_at(lines[at].len() / 2).0;
            let _ = named(&[&lines[..at], &[half]].concat().join("\n"));
        }
    }
}
