//! Bytes to replies: where one reply ends, what of it is noise, and what is only our own request typed back.
//!
//! In: bytes as the link hands them over, in pieces of any size. Out: [`Reply`], cut at prompts and nowhere else.
//! Not here: what a reply means (`driver/text.rs`, `driver/judge.rs`), who was waiting for it (`driver`).
//! Method: sections 1, 2 and 15 of the dialect reference: a zero byte may be inserted anywhere (data sheet page 9),
//! bytes from 80 hex on are noise, and so are control characters that no text of an adapter holds, such as the XON and
//! XOFF of a serial bridge; a prompt is the only end mark that every firmware shares.

/// A complete reply: everything up to a prompt, without the prompt, without zero bytes and noise.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Reply {
    /// The text, line ends included.
    pub text: Vec<u8>,
    /// How many zero bytes were dropped from it.
    pub nuls: u32,
    /// How many bytes from 80 hex on, and control characters, were dropped from it.
    pub noise: u32,
    /// The limit that cut it short, if one did: then the end of the text is missing and nothing in it counts.
    pub cut: Option<Limit>,
}

/// A bound that a reply ran into.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Limit {
    /// More bytes without a prompt than [`Codec::REPLY_BYTES`].
    ReplyBytes,
}

/// Whether a reply began with the request typed back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Echo {
    /// It did.
    Seen,
    /// It did not.
    Absent,
}

/// Cuts a stream of bytes into replies. Holds at most [`Codec::REPLY_BYTES`] of text.
#[derive(Debug, Default)]
pub struct Codec {
    open: Reply,
}

impl Codec {
    /// The longest reply that is kept, in bytes. Two hundred frames of a multi-frame reply with spaces and headers
    /// fit; an original holds 512 (data sheet page 74).
    /// Own choice: smaller cuts the longest reply there is; larger lets a flood without prompts take memory for
    /// nothing.
    pub const REPLY_BYTES: usize = 4_096;

    /// Takes bytes from the front of `input` up to and including the next prompt; a [`Reply`] if there was one.
    /// Call until it gives `None`: then `input` is empty.
    pub fn take(&mut self, input: &mut &[u8]) -> Option<Reply> {
        let (piece, rest, ended) = match input.iter().position(|&byte| byte == PROMPT) {
            Some(at) => {
                let (piece, rest) = input.split_at(at);
                (piece, rest.get(1..).unwrap_or_default(), true)
            }
            None => (*input, &[][..], false),
        };
        *input = rest;
        self.keep(piece);
        ended.then(|| std::mem::take(&mut self.open))
    }

    /// `reply` is done with: its room serves the next one.
    pub(crate) fn done_with(&mut self, mut reply: Reply) {
        if self.open.text.capacity() == 0 {
            reply.text.clear();
            self.open.text = reply.text;
        }
    }

    /// All replies that end in `bytes`, in order.
    pub fn feed(&mut self, mut bytes: &[u8]) -> Vec<Reply> {
        std::iter::from_fn(|| self.take(&mut bytes)).collect()
    }

    /// What has come since the last prompt.
    pub fn pending(&self) -> &[u8] {
        &self.open.text
    }

    /// Whether noise has come since the last prompt.
    pub(crate) fn has_noise(&self) -> bool {
        self.open.noise > 0
    }

    /// Forgets what has come since the last prompt; how many bytes that were.
    pub fn forget(&mut self) -> usize {
        let Reply { mut text, .. } = std::mem::take(&mut self.open);
        let forgotten = text.len();
        text.clear();
        self.open.text = text;
        forgotten
    }

    fn keep(&mut self, piece: &[u8]) {
        let open = &mut self.open;
        // Nearly always there is nothing to drop, and room for all.
        if open.text.len() + piece.len() <= Self::REPLY_BYTES && all(piece, is_text) {
            return open.text.extend_from_slice(piece);
        }
        for &byte in piece {
            match byte {
                0 => open.nuls = open.nuls.saturating_add(1),
                _ if !is_text(byte) => open.noise = open.noise.saturating_add(1),
                _ if open.text.len() < Self::REPLY_BYTES => open.text.push(byte),
                _ => open.cut = Some(Limit::ReplyBytes),
            }
        }
    }
}

impl Reply {
    /// The lines that hold anything, ends of any kind removed, with surrounding blanks kept.
    pub fn lines(&self) -> impl Iterator<Item = &[u8]> {
        lines(&self.text)
    }

    /// Removes `sent` (a request, with or without its line end) from the front if the adapter typed it back:
    /// blanks removed, letter case folded. Compares what came, whatever the echo flag is believed to be.
    pub fn strip_echo(&mut self, sent: &[u8]) -> Echo {
        let mut want = sent.iter().filter(|byte| !is_blank(**byte)).peekable();
        if want.peek().is_none() {
            return Echo::Absent;
        }
        let mut used = 0;
        for &byte in &self.text {
            if want.peek().is_none() {
                break;
            }
            used += 1;
            if is_blank(byte) {
                continue;
            }
            match want.next() {
                Some(next) if next.eq_ignore_ascii_case(&byte) => {}
                _ => return Echo::Absent,
            }
        }
        // Without a line end behind it, it could be the beginning of something longer.
        let next = self.text.get(used..).and_then(|rest| rest.iter().find(|byte| **byte != b' '));
        if want.peek().is_some() || !matches!(next, Some(b'\r' | b'\n')) {
            return Echo::Absent;
        }
        self.text.drain(..used);
        Echo::Seen
    }
}

/// Splits text at CR and LF; lines that hold only blanks are left out.
pub(crate) fn lines(text: &[u8]) -> impl Iterator<Item = &[u8]> {
    text.split(|byte| matches!(byte, b'\r' | b'\n')).filter(|line| line.iter().any(|byte| !is_blank(*byte)))
}

/// Whether `is` holds for every byte: all are looked at, without a way out in between, so that many are at a time.
pub(crate) fn all(text: &[u8], is: impl Fn(u8) -> bool) -> bool {
    text.iter().fold(true, |all, byte| all & is(*byte))
}

/// Whether a text of an adapter may hold `byte`.
const fn is_text(byte: u8) -> bool {
    matches!(byte, b'\t' | b'\n' | b'\r' | b' '..0x7F)
}

fn is_blank(byte: u8) -> bool {
    matches!(byte, b' ' | b'\t' | b'\r' | b'\n')
}

const PROMPT: u8 = b'>';

#[cfg(test)]
mod tests {
    use proptest::collection::vec;
    use proptest::prelude::*;

    use super::*;

    fn texts(bytes: &[u8]) -> Vec<Vec<u8>> {
        Codec::default().feed(bytes).into_iter().map(|reply| reply.text).collect()
    }

    #[test]
    fn a_reply_ends_at_the_prompt_and_nowhere_else() {
        // exchanges.csv X021, X040 with X041, X042, X009.
        type Case<'a> = (&'a str, &'a [u8], &'a [&'a [u8]]);
        let cases: &[Case] = &[
            ("plain", b"ELM327 v2.1\r\r>", &[b"ELM327 v2.1\r\r"]),
            ("OK is no end", b"ATE0\rOK", &[]),
            ("two replies in one read", b"\r>OK\r\r>", &[b"\r", b"OK\r\r"]),
            ("one CR before the prompt", b"ELM327 v1.5\r>", &[b"ELM327 v1.5\r"]),
            ("a doubled prompt", b"OK\r\r>>", &[b"OK\r\r", b""]),
            ("zero bytes and noise", b"\x00\xfc\r\rELM327\x00 v1.4b\r\r>", &[b"\r\rELM327 v1.4b\r\r"]),
            ("XON and XOFF", b"7E8\x11 03 41\x13 05 7B\r\r>", &[b"7E8 03 41 05 7B\r\r"]),
            ("tab, LF and CR are kept", b"41\t05\r\n>", &[b"41\t05\r\n"]),
        ];
        for (what, bytes, want) in cases {
            assert_eq!(&texts(bytes), want, "{what}");
        }
    }

    #[test]
    fn what_is_dropped_is_counted() {
        let replies = Codec::default().feed(b"\x00\x00\xfc41\xff05\x007B\r>\x00>");
        assert_eq!((replies[0].nuls, replies[0].noise), (3, 2));
        assert_eq!((replies[1].nuls, replies[1].noise), (1, 0));
        let all: Vec<u8> = (0..=0xFF).filter(|byte| *byte != b'>').chain([b'>']).collect();
        let reply = Codec::default().feed(&all).pop().unwrap();
        // 28 control characters without tab, LF, CR and zero, the one at 7F, and the upper half.
        assert_eq!((reply.nuls, reply.noise), (1, 28 + 1 + 128));
        assert_eq!(reply.text.len(), 256 - 1 - 1 - 157);
    }

    #[test]
    fn what_came_since_the_last_prompt_can_be_looked_at_and_forgotten() {
        let mut codec = Codec::default();
        assert!(codec.feed(b"OK\r>41 0").len() == 1 && !codec.has_noise());
        assert_eq!(codec.pending(), b"41 0");
        assert!(codec.feed(b"\xFF5").is_empty() && codec.has_noise());
        assert_eq!(codec.forget(), 5, "without what was dropped");
        assert!(codec.pending().is_empty() && !codec.has_noise());
        assert_eq!(codec.forget(), 0);
        let reply = codec.feed(b"\r>").pop().unwrap();
        assert_eq!((reply.text.as_slice(), reply.noise), (&b"\r"[..], 0), "the next one begins afresh");
    }

    #[test]
    fn a_reply_that_fills_the_limit_is_whole() {
        let full = [b'4'; Codec::REPLY_BYTES];
        let reply = Codec::default().feed(&[&full[..], b">"].concat()).pop().unwrap();
        assert_eq!((reply.text.len(), reply.cut), (Codec::REPLY_BYTES, None));
        let reply = Codec::default().feed(&[&full[..], b"4>"].concat()).pop().unwrap();
        assert_eq!((reply.text.len(), reply.cut), (Codec::REPLY_BYTES, Some(Limit::ReplyBytes)));
    }

    #[test]
    fn lines_hold_something() {
        let reply = Reply { text: b"\r\r A6 \r\n \t\n4100\r>".to_vec(), ..Reply::default() };
        assert_eq!(reply.lines().collect::<Vec<_>>(), [&b" A6 "[..], b"4100", b">"]);
    }

    #[test]
    fn a_stream_without_a_prompt_is_bounded_and_says_so() {
        let mut codec = Codec::default();
        for _ in 0..256 {
            assert!(codec.feed(&[b'4'; 4_096]).is_empty());
        }
        assert_eq!(codec.pending().len(), Codec::REPLY_BYTES);
        let reply = codec.feed(b"\r\r>").pop().unwrap();
        assert_eq!((reply.text.len(), reply.cut), (Codec::REPLY_BYTES, Some(Limit::ReplyBytes)));
        assert_eq!(codec.feed(b"OK\r\r>").pop().unwrap().cut, None, "the next reply starts afresh");
    }

    #[test]
    fn only_our_own_request_is_taken_for_an_echo() {
        type Case<'a> = (&'a str, &'a [u8], &'a [u8], Echo, &'a [u8]);
        let cases: &[Case] = &[
            ("as sent", b"ATE0\r", b"ATE0\rOK\r\r", Echo::Seen, b"\rOK\r\r"),
            ("with spaces", b"ATZ\r", b"AT Z\r\r\rELM327 v1.5\r\r", Echo::Seen, b"\r\r\rELM327 v1.5\r\r"),
            ("letter case", b"ATWS\r", b"atws\r?\r\r", Echo::Seen, b"\r?\r\r"),
            ("after an empty line", b"ATI\r", b"\rATI\rELM327 v2.1\r", Echo::Seen, b"\rELM327 v2.1\r"),
            ("none", b"ATE0\r", b"OK\r\r", Echo::Absent, b"OK\r\r"),
            ("cut short", b"ATE0\r", b"ATE", Echo::Absent, b"ATE"),
            ("the beginning of something longer", b"41\r", b"41057B\r", Echo::Absent, b"41057B\r"),
            ("nothing sent", b"", b"OK\r", Echo::Absent, b"OK\r"),
            ("only blanks sent", b" \r", b"OK\r", Echo::Absent, b"OK\r"),
            ("with a line feed", b"ATI\r", b"ATI\nELM327 v2.1\n", Echo::Seen, b"\nELM327 v2.1\n"),
            ("spaces behind it", b"0105\r", b"0105  \r7E80341057B\r", Echo::Seen, b"  \r7E80341057B\r"),
            ("no line end behind it", b"ATI\r", b"ATI", Echo::Absent, b"ATI"),
            ("a tab in it", b"ATI\r", b"AT\tI\rOK\r", Echo::Seen, b"\rOK\r"),
            ("one character is another", b"ATI\r", b"ATZ\rOK\r", Echo::Absent, b"ATZ\rOK\r"),
        ];
        for (what, sent, text, echo, left) in cases {
            let mut reply = Reply { text: text.to_vec(), ..Reply::default() };
            assert_eq!(reply.strip_echo(sent), *echo, "{what}");
            assert_eq!(reply.text, *left, "{what}");
        }
    }

    proptest! {
        #[test]
        fn any_cut_of_the_stream_gives_the_same_replies(
            bytes in vec(prop_oneof![any::<u8>(), Just(b'>'), Just(b'\r'), Just(0)], 0..400),
            cuts in vec(0_usize..400, 0..6),
        ) {
            let whole = Codec::default().feed(&bytes);
            let mut at: Vec<_> = cuts.into_iter().map(|cut| cut.min(bytes.len())).collect();
            at.sort_unstable();
            at.push(bytes.len());
            let (mut codec, mut replies, mut from) = (Codec::default(), Vec::new(), 0);
            for to in at {
                replies.extend(codec.feed(&bytes[from..to]));
                from = to;
            }
            prop_assert_eq!(replies, whole);
        }

        #[test]
        fn nothing_makes_it_hold_more_than_its_limit(pieces in vec(vec(any::<u8>(), 0..3_000), 0..8)) {
            let mut codec = Codec::default();
            for piece in pieces {
                for reply in codec.feed(&piece) {
                    prop_assert!(reply.text.len() <= Codec::REPLY_BYTES);
                }
                prop_assert!(codec.pending().len() <= Codec::REPLY_BYTES);
            }
        }
    }
}
