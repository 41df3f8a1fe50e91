//! What a reply to a reading request is worth: an answer only if everything about it fits.
//!
//! In: the text, how the bus lays it out, what was asked and who has to answer. Out: [`Finding`]. Pure.
//! Not here: what is done about it (`phase/poll.rs`). Source: rules 8 to 11 of section 16 of the dialect reference.

use frames::{Ask, Ecu, Headers, Layout, Message, NegativeReply, Status, WireError};

use crate::outcome::Doubt;

/// What a reply is.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Finding {
    /// Answers, all of them to the request and from the control unit that was asked.
    Answer(Vec<Message>),
    /// A refusal.
    Declined(NegativeReply),
    /// Only "response pending".
    Pending,
    /// The adapter says something itself.
    Says(Status),
    /// It must not be used. Repeating may help.
    Spoilt(Doubt),
    /// It must not be used.
    Doubtful(Doubt),
    /// An answer without the header that it should have: the settings are lost.
    HeadersLost,
}

/// Judges the reply `text` to `ask`.
pub(super) fn judge(text: &[u8], layout: Layout, ask: Ask, from: Option<Ecu>) -> Finding {
    let reply = frames::reply(text, layout, Some(ask));
    if let Some(problem) = reply.problem {
        return problem_of(problem, text, layout, ask);
    }
    let asked = |message: &Message| from.is_none() || message.ecu == from;
    let stranger = reply.messages.iter().find(|message| !asked(message)).map(|message| message.ecu);
    let mut refusal = None;
    let mut answers = reply.messages;
    answers.retain(|message| {
        if asked(message)
            && let Some(negative) = NegativeReply::parse(&message.data)
        {
            // Of several refusals the one that is none counts least.
            if refusal.is_none_or(|before: NegativeReply| before.is_pending()) {
                refusal = Some(negative);
            }
        }
        asked(message) && ask.matches(&message.data)
    });
    if layout.headers == Headers::Hidden && answers.len() > 1 {
        return Finding::Doubtful(Doubt::NoSender);
    }
    match (answers.is_empty(), refusal, stranger, from) {
        (false, ..) => Finding::Answer(answers),
        (true, Some(refusal), ..) if refusal.is_pending() => Finding::Pending,
        (true, Some(refusal), ..) => Finding::Declined(refusal),
        (true, None, Some(Some(got)), Some(want)) => Finding::Doubtful(Doubt::WrongSender { want, got }),
        (true, None, Some(None), _) => Finding::Doubtful(Doubt::NoSender),
        (true, None, ..) => Finding::Doubtful(Doubt::OtherRequest),
    }
}

fn problem_of(problem: WireError, text: &[u8], layout: Layout, ask: Ask) -> Finding {
    match problem {
        WireError::Status { status, .. } => Finding::Says(status),
        WireError::Mismatch { .. } => Finding::Doubtful(Doubt::OtherRequest),
        _ if layout.headers == Headers::Shown && is_bare(text, layout, ask) => Finding::HeadersLost,
        WireError::SequenceGap { .. }
        | WireError::NoFirstFrame { .. }
        | WireError::Incomplete { .. }
        | WireError::Checksum { .. } => Finding::Spoilt(Doubt::Malformed(problem.kind())),
        _ => Finding::Doubtful(Doubt::Malformed(problem.kind())),
    }
}

/// Whether the text would be an answer if headers were hidden.
fn is_bare(text: &[u8], layout: Layout, ask: Ask) -> bool {
    let hidden = Layout { headers: Headers::Hidden, ..layout };
    frames::messages(text, hidden, Some(ask))
        .is_ok_and(|all| all.iter().any(|message| ask.matches(&message.data)))
}

#[cfg(test)]
mod tests {
    use frames::Bus;

    use super::*;

    const CAN11: Layout = Layout { bus: Bus::Can11, headers: Headers::Shown };

    fn told(text: &[u8], layout: Layout, ask: &str, from: Option<&str>) -> String {
        let from = from.map(|ecu| ecu.parse().unwrap());
        match judge(text, layout, Ask::parse(ask).unwrap(), from) {
            Finding::Answer(messages) => {
                let each = messages.iter().map(|m| {
                    let ecu = m.ecu.map_or_else(|| "-".to_owned(), |ecu| ecu.to_string());
                    let data: String = m.data.iter().map(|byte| format!("{byte:02X}")).collect();
                    format!("{ecu} {data}")
                });
                each.collect::<Vec<_>>().join(", ")
            }
            Finding::Declined(code) => format!("declined {:02X}", code.code),
            Finding::Pending => "pending".to_owned(),
            Finding::Says(status) => format!("says {}", status.kind()),
            Finding::Spoilt(doubt) => format!("spoilt {}", doubt.word()),
            Finding::Doubtful(doubt) => format!("doubtful {}", doubt.word()),
            Finding::HeadersLost => "headers lost".to_owned(),
        }
    }

    #[test]
    fn an_answer_counts_only_if_everything_about_it_fits() {
        let kline = Layout { bus: Bus::Iso9141, headers: Headers::Shown };
        let can29 = Layout { bus: Bus::Can29, headers: Headers::Shown };
        let bare = Layout { bus: Bus::Can11, headers: Headers::Hidden };
        // exchanges.csv by number; rows without one follow section 18.
        type Case<'a> = (&'a str, &'a [u8], Layout, &'a str, Option<&'a str>, &'a str);
        let cases: &[Case] = &[
            ("X081", b"7E8 03 41 05 7D \r\r", CAN11, "0105", None, "7E8 41057D"),
            ("X085", b"7E80341057B\r\r", CAN11, "0105", Some("7E8"), "7E8 41057B"),
            (
                "X095 of two units one was asked",
                b"7E8 03 41 05 7D \r7E9 03 41 05 60 \r\r",
                CAN11,
                "0105",
                Some("7E9"),
                "7E9 410560",
            ),
            (
                "X100 several requests in one reply",
                b"18 DA F1 11 04 41 0C 17 10 \r18 DA F1 28 02 47 00 \r18 DA F1 11 03 41 0D 00 \r\r",
                can29,
                "010D",
                None,
                "18DAF111 410D00",
            ),
            ("X103", b"NO DATA\r\r", CAN11, "0101", None, "says no-data"),
            ("X104", b"STOPPED\r\r", CAN11, "0101", None, "says interrupted"),
            ("X106", b"CAN ERROR\r\r", CAN11, "0105", None, "says bus-error"),
            ("X108", b"7E8 03 41 05 7B <RX ERROR\r\r", CAN11, "0105", None, "says data-error"),
            ("X109", b"48 6B 10 41 05 7B <DATA ERROR\r\r", kline, "0105", None, "says data-error"),
            ("X110", b"7E8 10 13 49 04 01 35 36 30 \rBUFFER FULL\r\r", CAN11, "0904", None, "says overrun"),
            (
                "X111",
                b"7E9 03 7F 22 78 \r7E9 05 62 19 40 55 00 \r\r",
                CAN11,
                "221940",
                Some("7E9"),
                "7E9 6219405500",
            ),
            ("X112", b"7E9 03 7F 22 78 \r\r", CAN11, "221940", Some("7E9"), "pending"),
            ("X113", b"7E9 03 7F 22 31 \r\r", CAN11, "221941", Some("7E9"), "declined 31"),
            (
                "wrong sender",
                b"7E8 05 62 19 40 55 00 \r\r",
                CAN11,
                "221940",
                Some("7E9"),
                "doubtful wrong-sender",
            ),
            (
                "refusal of another unit",
                b"7E8 03 7F 22 31 \r\r",
                CAN11,
                "221940",
                Some("7E9"),
                "doubtful wrong-sender",
            ),
            ("another identifier", b"7E8 04 41 0C 1A F8 \r\r", CAN11, "0105", None, "doubtful other-request"),
            ("another service", b"7E8 03 61 05 7B \r\r", CAN11, "0105", None, "doubtful other-request"),
            ("length lies", b"7E8 05 41 05 7B \r\r", CAN11, "0105", None, "spoilt malformed"),
            ("letters in it", b"7E8 03 41 05 XY \r\r", CAN11, "0105", None, "doubtful malformed"),
            ("headers gone", b"41 05 7B \r\r", CAN11, "0105", None, "headers lost"),
            (
                "no sender where one was asked",
                b"41 05 7B \r\r",
                bare,
                "0105",
                Some("7E8"),
                "doubtful no-sender",
            ),
            ("no sender, none asked", b"41 05 7B \r\r", bare, "0105", None, "- 41057B"),
        ];
        for (what, text, layout, ask, from, want) in cases {
            assert_eq!(told(text, *layout, ask, *from), *want, "{what}");
        }
    }
}
