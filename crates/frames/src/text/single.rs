//! The short way: a reply that is one clean line, to its message, without allocating.
//!
//! In: the text of one complete reply and its request. Out: [`Short`], or `None` for everything else.
//! Not here: everything else (`wire.rs`). A law below says that both ways never disagree.

use crate::ask::Ask;
use crate::bus::{Bus, Ecu, Headers, Layout};
use crate::text::header::{open_older, split_header};
use crate::text::hex::is_quiet;
use crate::text::line;
use crate::text::message::cut_padding;

/// A short message in one line, held without heap memory.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Short {
    /// Who sent it; `None` where headers are hidden.
    pub ecu: Option<Ecu>,
    data: [u8; 8],
    length: u8,
}

impl Short {
    /// The message from its service byte on.
    #[inline]
    pub fn data(&self) -> &[u8] {
        self.data.get(..usize::from(self.length)).unwrap_or_default()
    }

    fn new(ecu: Option<Ecu>, bytes: &[u8]) -> Option<Self> {
        let mut data = [0; 8];
        data.get_mut(..bytes.len())?.copy_from_slice(bytes);
        Some(Self { ecu, data, length: bytes.len() as u8 })
    }
}

/// The path of a single reading: the one message of a reply that is one clean line, without allocating.
///
/// `None` is no verdict: the reply is anything else (several lines, texts, an echo, an error, another
/// request's answer), and [`crate::reply`] says what.
#[inline]
pub fn single(text: &[u8], layout: Layout, ask: Ask) -> Option<Short> {
    let mut digits = [0; 32];
    let scan = line::scan(text, 0, &mut digits);
    let tail = text.get(scan.end..)?;
    if scan.foreign.is_some() || !tail.iter().all(|byte| is_quiet(*byte)) {
        return None;
    }
    let digits = digits.get(..scan.digits)?;
    let mut bytes = [0; 16];
    let short = match (layout.headers, layout.bus) {
        (Headers::Shown, Bus::Can11 | Bus::Can29) => {
            let (ecu, frame) = split_header(layout.bus, &scan, digits, &mut bytes).ok()?;
            let (&pci, rest) = frame.split_first()?;
            let length = usize::from(pci);
            Short::new(
                Some(ecu),
                rest.get(..length).filter(|_| (1..8).contains(&length) && frame.len() <= 8)?,
            )?
        }
        (Headers::Shown, bus) => {
            let (_, line) = split_header(bus, &scan, digits, &mut bytes).ok()?;
            let (ecu, data) = open_older(bus, line).ok().flatten()?;
            Short::new(Some(ecu), data)?
        }
        (Headers::Hidden, _) => {
            if scan.is_spaced() && (scan.uneven != 0 || scan.first != 2) {
                return None;
            }
            let bytes = line::join(digits, &mut bytes).filter(|bytes| bytes.len() <= 7)?;
            Short::new(None, if layout.bus.is_can() { cut_padding(bytes, Some(ask)) } else { bytes })?
        }
    };
    // Numbered lines of service 09 are joined elsewhere.
    (ask.matches(short.data()) && !matches!(ask, Ask::VehicleInfo(_))).then_some(short)
}

#[cfg(test)]
mod tests {
    use proptest::collection::vec;
    use proptest::prelude::*;

    use super::*;
    use crate::text::wire::every_line;

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(20_000))]

        #[test]
        fn the_short_way_never_disagrees_with_the_long_one(
            bus in proptest::sample::select(&Bus::ALL[..]),
            shown in any::<bool>(),
            pid in 0_u8..0x20,
            head in proptest::sample::select(&["", "7E8", "7E8 ", "18DAF110", "48 6B 10 ", "83F110", "7E8 8 "][..]),
            length in proptest::option::of(0_u8..9),
            data in vec(any::<u8>(), 0..8),
            (spaced, end) in (any::<bool>(), proptest::sample::select(&["\r\r>", "", "\r", " \r>> ", "\r41", "\r>41", "<"][..])),
        ) {
            let mut text = std::string::String::from(head);
            let bytes = length.into_iter().chain([0x41, pid]).chain(data.iter().copied());
            for byte in bytes {
                text += &std::format!("{byte:02X}{}", if spaced { " " } else { "" });
            }
            text += end;
            let layout = Layout { bus, headers: if shown { Headers::Shown } else { Headers::Hidden } };
            let ask = Ask::Current(pid);
            if let Some(short) = single(text.as_bytes(), layout, ask) {
                let long = every_line(text.as_bytes(), layout, Some(ask));
                prop_assert_eq!(long.problem, None, "{}", text);
                prop_assert_eq!(long.messages.len(), 1);
                prop_assert_eq!((long.messages[0].ecu, long.messages[0].data.as_slice()), (short.ecu, short.data()));
            }
        }
    }
}
