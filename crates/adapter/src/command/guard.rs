//! Lines that would mean something else if their beginning were lost, and what stands in front of those.
//!
//! An adapter that is not ready right behind its prompt loses the first characters of a line. `22 2E 12` without its first
//! two digits is `2E 12`, the beginning of a write; `010C1` without its first is `10C1`, which asks for a session. Such a
//! line leaves behind spaces, which adapters ignore: then those are lost. In: a command. Out: whether it needs them, and the
//! line with them. Where an adapter takes no spaces, the driver pauses behind the prompt instead.
//! Source: data sheet page 9 (spaces are ignored); reports of lost first characters, ELMduino #100 and #179; the services by
//! ISO 14229-1, ISO 14230-3 and SAE J1979, from memory.

use super::{Command, Line};

/// So many characters may be lost without harm.
/// Own choice: one was seen, two are feared; each more costs every line a third of a millisecond at 38400 bit/s.
pub(super) const SPACES: usize = 2;

/// The one service that does more than read with nothing behind its number: 04 clears codes.
/// Source: SAE J1979, service 04, from memory.
const DOES_ALONE: u8 = 0x04;

/// Whether a service clears, actuates, writes, resets, unlocks or changes the session, with one byte more than its number.
const fn does_with_more(service: u8) -> bool {
    matches!(
        service,
        DOES_ALONE
            | 0x08
            | 0x10
            | 0x11
            | 0x14
            | 0x27..=0x2A
            | 0x2C
            | 0x2E..=0x38
            | 0x3B
            | 0x3D
            | 0x83..=0x87
    )
}

/// Whether some end of `line`, as it is written, is a request that does more than read.
pub(crate) fn harms_if_cut(line: &[u8]) -> bool {
    let text = line.strip_suffix(b"\r").unwrap_or(line);
    (1..text.len()).filter_map(|lost| text.get(lost..)).any(does_more)
}

/// Whether `text`, as an adapter would read it, is a request that does more than read: pairs of digits, and perhaps one
/// more for the count.
fn does_more(text: &[u8]) -> bool {
    let digit = |at: usize| text.get(at).and_then(|byte| char::from(*byte).to_digit(16));
    let (Some(high), Some(low)) = (digit(0), digit(1)) else { return false };
    let service = (high * 16 + low) as u8;
    let does = match text.len() / 2 {
        1 => service == DOES_ALONE,
        _ => does_with_more(service),
    };
    does && text.iter().all(u8::is_ascii_hexdigit)
}

impl Line {
    /// A command behind [`SPACES`] spaces.
    pub(crate) fn guarded(command: Command) -> Self {
        Self::behind(&[b' '; SPACES], command)
    }
}

#[cfg(test)]
mod tests {
    use frames::Ask;

    use super::*;
    use crate::command::{Awaited, Header, Setup};

    #[test]
    fn a_line_that_means_more_without_its_beginning_is_found() {
        let cases: &[(&str, bool)] = &[
            ("222E12", true),       // 2E 12: a write begins
            ("2204FF", true),       // 04 FF: clears codes
            ("221101", true),       // 11 01: resets
            ("221003", true),       // 10 03: changes the session
            ("2214FF", true),       // 14 FF: clears
            ("2231AA", true),       // 31 AA: a routine
            ("0104", true),         // 04
            ("010C1", true),        // 10 C1
            ("01101", true),        // 11 01
            ("020400", true),       // 04 00
            ("ATSHDA11F1", true),   // 11 F1
            ("ATFCSD300000", true), // 30 00 00
            ("224D07", false),
            ("224D071", false),
            ("221940", false), // 19 40 reads
            ("223E12", false), // 3E 12 does nothing
            ("0105", false),   // 10, and five answers awaited: not a whole request
            ("0902", false),
            ("03", false),
            ("ATE0", false),
            ("ATZ", false),
        ];
        for (text, want) in cases {
            assert_eq!(harms_if_cut(format!("{text}\r").as_bytes()), *want, "{text}");
        }
    }

    #[test]
    fn behind_spaces_no_end_of_the_line_does_more_until_they_are_lost() {
        let id = (0..=u16::MAX).step_by(7).map(Ask::Identifier);
        let all = id.chain((0..=u8::MAX).flat_map(|id| [Ask::Current(id), Ask::LocalIdentifier(id)]));
        let mut guarded = 0;
        for ask in all {
            let counted = Command::Counted(ask, Awaited::new(1).unwrap());
            for command in [Command::Read(ask), counted] {
                if !harms_if_cut(&command.line()) {
                    continue;
                }
                guarded += 1;
                let line = Line::guarded(command);
                let text = line.strip_suffix(b"\r").unwrap();
                for lost in 0..=SPACES {
                    let left = text.get(lost..).unwrap();
                    assert_eq!(
                        left.trim_ascii_start(),
                        command.to_string().as_bytes(),
                        "{line:?} without {lost}"
                    );
                }
            }
        }
        assert!(guarded > 1_000, "{guarded}");
        let longest =
            [Command::Set(Setup::FlowGoOn), Command::Set(Setup::Header(Header::parse("18DA11F1").unwrap()))];
        for command in longest {
            assert!(Line::guarded(command).ends_with(b"\r"), "it fits");
        }
    }
}
