//! What the bytes on the wire show by themselves, whatever the driver makes of them.
//!
//! In: lines as they are sent, bytes as they come. Out: who the adapter says it is, whether the vehicle ever answered,
//! whether the first characters of lines are lost. Pure, and bounded. Not here: what a reply is worth (`adapter`).

/// See the module's words.
#[derive(Debug, Default)]
pub struct Wire {
    sent: Vec<u8>,
    came: Vec<u8>,
    /// Who it said it is, the last time it did.
    pub named: Option<String>,
    /// Bytes that came at all.
    pub bytes: u64,
    /// Lines that came back without their first character.
    pub first_lost: u64,
    /// Replies, and those that said nothing but that the line was not understood.
    pub replies: u64,
    pub refused: u64,
    answered: bool,
}

/// More of a reply is not kept.
/// Own choice: as the driver's longest reply (`adapter::Codec::REPLY_BYTES`).
const LIMIT: usize = 4_096;
/// A line that came back shorter than this could be anything.
/// Own choice: one character may be noise.
const SHORTEST: usize = 2;
/// What every vehicle answers to the first request, and the request.
const FIRST: (&[u8], &[u8]) = (b"0100", b"4100");

impl Wire {
    /// A line leaves.
    pub fn sent(&mut self, line: &[u8]) {
        self.reply();
        self.sent = line.trim_ascii().to_vec();
    }

    /// Bytes came.
    pub fn came(&mut self, bytes: &[u8]) {
        self.bytes += bytes.len() as u64;
        for &byte in bytes {
            match byte {
                b'>' => self.reply(),
                0 | 0x80.. => {}
                _ if self.came.len() < LIMIT => self.came.push(byte),
                _ => {}
            }
        }
    }

    /// Whether the vehicle answered the first request since this was asked the last time.
    pub fn take_answered(&mut self) -> bool {
        std::mem::take(&mut self.answered)
    }

    /// What came up to a prompt, or to the next line that was sent.
    fn reply(&mut self) {
        let text = std::mem::take(&mut self.came);
        let mut said = text
            .split(|byte| matches!(byte, b'\r' | b'\n'))
            .map(<[u8]>::trim_ascii)
            .filter(|line| !line.is_empty())
            .peekable();
        if said.peek().is_none() {
            return;
        }
        self.replies += 1;
        let mut understood = false;
        for line in said {
            if self.is_cut(line) {
                self.first_lost += 1;
                continue;
            }
            match frames::status(line) {
                Some(frames::Status::NotUnderstood) => continue,
                Some(frames::Status::Identity) => {
                    self.named = Some(String::from_utf8_lossy(line).escape_debug().to_string());
                }
                _ => {}
            }
            understood |= !self.sent.eq_ignore_ascii_case(line);
            let digits: Vec<u8> = line.iter().copied().filter(u8::is_ascii_hexdigit).collect();
            let data = line.iter().all(|byte| byte.is_ascii_hexdigit() || matches!(byte, b' ' | b'.'));
            if self.sent.starts_with(FIRST.0) && data && digits.windows(4).any(|four| four == FIRST.1) {
                self.answered = true;
            }
        }
        self.refused += u64::from(!understood);
    }

    /// Whether `line` is what was sent without its first character.
    fn is_cut(&self, line: &[u8]) -> bool {
        let rest = self.sent.get(1..).unwrap_or_default();
        line.len() >= SHORTEST && rest.eq_ignore_ascii_case(line)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn wire(said: &[(&[u8], &[u8])]) -> Wire {
        let mut wire = Wire::default();
        for (sent, came) in said {
            wire.sent(sent);
            wire.came(came);
        }
        wire
    }

    #[test]
    fn lines_that_come_back_without_their_first_character_are_counted() {
        type Case<'a> = (&'a str, &'a [(&'a [u8], &'a [u8])], u64);
        let cases: &[Case] = &[
            ("whole", &[(b"ATZ\r", b"ATZ\r\r\rELM327 v1.5\r\r>")], 0),
            ("cut", &[(b"ATZ\r", b"TZ\r?\r\r>"), (b"ATE0\r", b"TE0\r?\r\r>")], 2),
            ("a space in front", &[(b" ATI\r", b"TI\r?\r\r>")], 1),
            ("an answer is no echo", &[(b"0105\r", b"7E8 03 41 05 7B\r\r>")], 0),
            ("no echo", &[(b"ATI\r", b"ELM327 v1.5\r\r>")], 0),
        ];
        for (what, said, want) in cases {
            assert_eq!(wire(said).first_lost, *want, "{what}");
        }
    }

    #[test]
    fn who_it_says_it_is_is_kept_wherever_it_says_so() {
        assert_eq!(wire(&[(b"ATZ\r", b"TZ\r\r\rELM327 v1.5\r\r>")]).named.as_deref(), Some("ELM327 v1.5"));
        assert_eq!(wire(&[(b"ATWS\r", b"?\r\r>")]).named, None);
        assert_eq!(wire(&[(b"ATI\r", b"\x00\xfcELM327\x00 v2.1\r>")]).named.as_deref(), Some("ELM327 v2.1"));
    }

    #[test]
    fn the_vehicle_answered_where_the_first_request_was_answered() {
        type Case<'a> = (&'a str, &'a [u8], &'a [u8], bool);
        let cases: &[Case] = &[
            ("with headers", b"0100\r", b"7E8 06 41 00 BE 3F A8 13\r\r>", true),
            ("bare", b"0100\r", b"SEARCHING...\r41 00 BE 3F A8 13\r\r>", true),
            ("dots in front", b"01001\r", b"...4100BE3FA813\r\r>", true),
            ("refused", b"0100\r", b"7F 01 12\r\r>", false),
            ("nobody", b"0100\r", b"UNABLE TO CONNECT\r\r>", false),
            ("another request", b"0105\r", b"7E8 04 41 00 41 00\r\r>", false),
        ];
        for (what, sent, came, want) in cases {
            let mut wire = wire(&[(sent, came)]);
            assert_eq!(wire.take_answered(), *want, "{what}");
            assert!(!wire.take_answered(), "{what}: asked once");
        }
    }

    #[test]
    fn what_only_refuses_is_told_from_what_does_something() {
        let wire =
            wire(&[(b"ATE0\r", b"ATE0\r?\r\r>"), (b"ATZ\r", b"ELM327 v1.5\r\r>"), (b"ATL0\r", b"?\r>")]);
        assert_eq!((wire.replies, wire.refused), (3, 2));
    }

    #[test]
    fn an_endless_line_does_not_fill_the_memory() {
        let mut wire = Wire::default();
        for _ in 0..1_024 {
            wire.came(&[b'4'; 1_024]);
        }
        assert_eq!((wire.came.len(), wire.bytes), (LIMIT, 1_024 * 1_024));
    }
}
