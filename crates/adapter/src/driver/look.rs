//! What the first answer of a vehicle shows: the layout of its lines, who answered, on which bus.
//!
//! In: the reply to `0100`, a bus or none. Out: [`FirstReply`], or why it is no answer. Pure.
//! Not here: which protocol is tried (`phase/search.rs`). Method: section 5 of the dialect reference.

use frames::{Ask, Bus, Headers, Layout, NegativeReply};

use super::text::holds;
use crate::outcome::Silence;

/// What every vehicle answers.
/// Source: SAE J1979, identifier 00 of service 01, from memory.
pub(super) const FIRST: Ask = Ask::Current(0x00);

/// What the reply to `0100` shows, once its layout is known.
#[derive(Debug)]
pub(super) struct FirstReply {
    pub(super) layout: Layout,
    /// The bus, where the form is that of one only.
    pub(super) bus: Option<Bus>,
    pub(super) control_units: Vec<frames::Ecu>,
    pub(super) padded: bool,
}

/// What `text` shows if it came from `bus`.
pub(super) fn look(text: &[u8], bus: Bus) -> Result<FirstReply, Silence> {
    let shown = Layout { bus, headers: Headers::Shown };
    let reply = frames::reply(text, shown, Some(FIRST));
    let mut control_units: Vec<_> = reply
        .messages
        .iter()
        .filter(|message| FIRST.matches(&message.data))
        .filter_map(|message| message.ecu)
        .collect();
    control_units.dedup();
    if !control_units.is_empty() {
        return Ok(FirstReply { layout: shown, bus: Some(bus), control_units, padded: is_padded(text, bus) });
    }
    let hidden = Layout { bus, headers: Headers::Hidden };
    let bare = frames::reply(text, hidden, Some(FIRST)).messages;
    match bare.iter().filter(|message| FIRST.matches(&message.data)).count() {
        1 => Ok(FirstReply { layout: hidden, bus: Some(bus), control_units, padded: false }),
        0 if reply.messages.iter().any(|message| NegativeReply::parse(&message.data).is_some()) => {
            Err(Silence::OnlyRefusals)
        }
        0 => Err(Silence::Malformed),
        _ => Err(Silence::SendersUnknown),
    }
}

/// Where the adapter does not name its protocol: the only bus whose form fits. A single line without its sender is the same
/// on all of them.
pub(super) fn infer(text: &[u8]) -> Result<FirstReply, Silence> {
    let fits = |bus: &Bus| {
        frames::messages(text, Layout { bus: *bus, headers: Headers::Shown }, Some(FIRST))
            .is_ok_and(|messages| messages.iter().any(|message| FIRST.matches(&message.data)))
    };
    let mut buses = Bus::ALL.into_iter().filter(fits);
    match (buses.next(), buses.next()) {
        (Some(bus), None) => look(text, bus),
        (Some(_), Some(_)) => Err(Silence::Unnamed),
        (None, _) => {
            let seen = look(text, Bus::Can11).map_err(|silence| match silence {
                Silence::Malformed => Silence::Unnamed,
                other => other,
            })?;
            Ok(FirstReply { bus: None, ..seen })
        }
    }
}

/// Whether a CAN line is longer than the length in it says.
fn is_padded(text: &[u8], bus: Bus) -> bool {
    let identifier = match bus {
        Bus::Can11 => 3,
        Bus::Can29 => 8,
        _ => return false,
    };
    crate::codec::lines(text).any(|line| {
        let digits: Vec<u8> = line.iter().filter(|byte| byte.is_ascii_hexdigit()).copied().collect();
        let length =
            digits.get(identifier + 1).and_then(|digit| char::from(*digit).to_digit(16)).unwrap_or(7);
        holds(line, b"4100") && digits.len() > identifier + 2 + 2 * length as usize
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_padded_where_it_is_longer_than_its_length_says() {
        let cases: &[(&[u8], Bus, bool)] = &[
            (b"7E8064100BE3FA813\r", Bus::Can11, false),
            (b"7E8064100BE3FA81300\r", Bus::Can11, true),
            (b"7E8 06 41 00 BE 3F A8 13 AA\r", Bus::Can11, true),
            (b"18DAF110064100BE3FA813\r", Bus::Can29, false),
            (b"18DAF110064100BE3FA81355\r", Bus::Can29, true),
            // The first line of two, and a line of another answer.
            (b"7E8064100BE3FA813\r7E9064100981880015500\r", Bus::Can11, true),
            (b"7E803410575AAAAAAAA\r", Bus::Can11, false),
            // Without lengths of their own.
            (b"486B104100BE3EB811C900\r", Bus::Iso9141, false),
            (b"86F1104100BE3EB811C900\r", Bus::Iso14230, false),
        ];
        for (text, bus, want) in cases {
            assert_eq!(is_padded(text, *bus), *want, "{}", text.escape_ascii());
        }
    }

    #[test]
    fn a_look_says_who_answered_or_why_it_is_no_answer() {
        let units =
            |seen: &FirstReply| seen.control_units.iter().map(ToString::to_string).collect::<Vec<_>>();
        type Case<'a> = (&'a [u8], Bus, Result<(Headers, &'a [&'a str]), Silence>);
        let cases: &[Case] = &[
            (b"7E8064100BE3FA813\r", Bus::Can11, Ok((Headers::Shown, &["7E8"]))),
            (b"7E8064100BE3FA813\r7E906410098188001\r", Bus::Can11, Ok((Headers::Shown, &["7E8", "7E9"]))),
            (b"7E8064100BE3FA813\r7E8064100BE3FA813\r", Bus::Can11, Ok((Headers::Shown, &["7E8"]))),
            // Another answer beside it does not count.
            (b"7E80341057B\r7E906410098188001\r", Bus::Can11, Ok((Headers::Shown, &["7E9"]))),
            (b"4100BE3FA813\r", Bus::Can11, Ok((Headers::Hidden, &[]))),
            (b"4100BE3FA813\r410098188001\r", Bus::Can11, Err(Silence::SendersUnknown)),
            (b"7E8037F0112\r", Bus::Can11, Err(Silence::OnlyRefusals)),
            (b"7E80341057B\r", Bus::Can11, Err(Silence::Malformed)),
            (b"\r", Bus::Can11, Err(Silence::Malformed)),
        ];
        for (text, bus, want) in cases {
            let what = text.escape_ascii();
            match (look(text, *bus), want) {
                (Ok(seen), Ok((headers, all))) => {
                    assert_eq!(seen.layout, Layout { bus: *bus, headers: *headers }, "{what}");
                    assert_eq!(
                        (units(&seen), seen.bus),
                        (all.iter().map(ToString::to_string).collect(), Some(*bus)),
                        "{what}"
                    );
                }
                (Err(silence), Err(want)) => assert_eq!(silence, *want, "{what}"),
                (seen, want) => panic!("{what}: {:?} for {want:?}", seen.map(|seen| units(&seen))),
            }
        }
    }

    #[test]
    fn where_no_number_is_given_the_only_fitting_bus_is_taken() {
        let cases: &[(&[u8], Option<Bus>)] = &[
            (b"7E8064100BE3FA813\r\r", Some(Bus::Can11)),
            (b"18DAF110064100BE3FA813\r\r", Some(Bus::Can29)),
            (b"486B104100BE3EB811C9\r\r", Some(Bus::Iso9141)),
            (b"4100BE3EB811\r\r", None),
        ];
        for (text, want) in cases {
            assert_eq!(infer(text).ok().and_then(|seen| seen.bus), *want, "{}", text.escape_ascii());
        }
        let bare = infer(b"41 00 BE 3E B8 11\r\r").ok().unwrap();
        assert_eq!(bare.layout.headers, Headers::Hidden, "one line without its sender: any bus");
        assert_eq!(infer(b"4100BE3EB811\r410080080000\r\r").err(), Some(Silence::SendersUnknown));
        assert_eq!(infer(b"XX4100BE3EB811\r\r").err(), Some(Silence::Unnamed));
    }
}
