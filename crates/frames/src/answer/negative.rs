//! Negative replies: `7F`, the service refused, and why. Kept apart from silence and from faults of the
//! adapter.
//!
//! Source: `nrc.csv` of the reference (ISO 14229-1 and ISO 14230-3 codes as up to three libraries give them).

use core::fmt;

use Remedy::{AskForLess, DoNotAskAgain, GiveUp, Pending, TellTheUser, Wait};

/// A control unit's refusal of a request.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct NegativeReply {
    /// The service that was asked.
    pub service: u8,
    /// The code of the reason.
    pub code: u8,
}

/// What a reader should do about a refusal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Remedy {
    /// It is none: the answer comes later, up to 5 s (P2*).
    Pending,
    /// Ask again after a while.
    Wait,
    /// Something at the vehicle must change first: a person has to know.
    TellTheUser,
    /// Ask for fewer identifiers at once.
    AskForLess,
    /// The unit does not have it (in this session): leave it out from now on.
    DoNotAskAgain,
    /// Nothing that this program could do.
    GiveUp,
}

impl Remedy {
    /// The kebab-case word.
    pub const fn as_str(self) -> &'static str {
        match self {
            Pending => "pending",
            Wait => "wait",
            TellTheUser => "tell-the-user",
            AskForLess => "ask-for-less",
            DoNotAskAgain => "do-not-ask-again",
            GiveUp => "give-up",
        }
    }
}

impl NegativeReply {
    /// From the bytes of a message; `None` if it is no negative reply. Bytes beyond the third are ignored
    /// (padding).
    pub fn parse(data: &[u8]) -> Option<Self> {
        match *data {
            [0x7F, service, code, ..] => Some(Self { service, code }),
            _ => None,
        }
    }

    /// The three bytes, for a simulated vehicle.
    pub const fn bytes(self) -> [u8; 3] {
        [0x7F, self.service, self.code]
    }

    /// What the code means; `None` where no source names it.
    pub fn meaning(self) -> Option<&'static str> {
        self.row().map(|(_, _, meaning)| *meaning)
    }

    /// What to do about it; codes without a name are given up.
    pub fn remedy(self) -> Remedy {
        self.row().map_or(GiveUp, |(_, remedy, _)| *remedy)
    }

    /// Whether it says that the answer will come later.
    pub const fn is_pending(self) -> bool {
        self.code == 0x78
    }

    fn row(self) -> Option<&'static (u8, Remedy, &'static str)> {
        CODES.binary_search_by_key(&self.code, |(code, _, _)| *code).ok().and_then(|at| CODES.get(at))
    }
}

impl fmt::Display for NegativeReply {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let meaning = self.meaning().unwrap_or("no source names this code");
        write!(f, "service {:02X} refused with {:02X}: {meaning}", self.service, self.code)
    }
}

/// Rising by code.
/// Source: ISO 14229-1 and ISO 14230-3, as fixtures/reference/obd/nrc.csv names them row by row; the remedies are own
/// choices.
const CODES: &[(u8, Remedy, &str)] = &[
    (0x10, GiveUp, "general reject"),
    (0x11, DoNotAskAgain, "service not supported"),
    (0x12, DoNotAskAgain, "sub-function not supported"),
    (0x13, GiveUp, "wrong message length or format"),
    (0x14, AskForLess, "response too long for the transport"),
    (0x21, Wait, "busy, repeat the request"),
    (0x22, TellTheUser, "conditions not correct"),
    (0x23, Wait, "routine not complete"),
    (0x24, GiveUp, "request sequence error"),
    (0x25, Wait, "no response from a sub-network component"),
    (0x26, GiveUp, "a failure prevents the action"),
    (0x31, DoNotAskAgain, "request out of range (identifier unknown)"),
    (0x33, DoNotAskAgain, "security access denied"),
    (0x34, DoNotAskAgain, "authentication required"),
    (0x35, GiveUp, "invalid key"),
    (0x36, GiveUp, "too many attempts"),
    (0x37, Wait, "required delay not expired"),
    (0x38, GiveUp, "secure data transmission required"),
    (0x39, GiveUp, "secured mode requested"),
    (0x3A, GiveUp, "secure data verification failed"),
    (0x3B, GiveUp, "termination with signature requested"),
    (0x3C, GiveUp, "access denied"),
    (0x3D, GiveUp, "version not supported"),
    (0x3E, GiveUp, "secured link not supported"),
    (0x3F, GiveUp, "certificate not available"),
    (0x40, GiveUp, "audit trail information not available"),
    (0x50, GiveUp, "certificate verification failed: invalid time period"),
    (0x51, GiveUp, "certificate verification failed: invalid signature"),
    (0x52, GiveUp, "certificate verification failed: invalid chain of trust"),
    (0x53, GiveUp, "certificate verification failed: invalid type"),
    (0x54, GiveUp, "certificate verification failed: invalid format"),
    (0x55, GiveUp, "certificate verification failed: invalid content"),
    (0x56, GiveUp, "certificate verification failed: invalid scope"),
    (0x57, GiveUp, "certificate verification failed: invalid certificate"),
    (0x58, GiveUp, "ownership verification failed"),
    (0x59, GiveUp, "challenge calculation failed"),
    (0x5A, GiveUp, "setting access rights failed"),
    (0x5B, GiveUp, "session key creation derivation failed"),
    (0x5C, GiveUp, "configuration data usage failed"),
    (0x5D, GiveUp, "de-authentication failed"),
    (0x70, GiveUp, "upload or download not accepted"),
    (0x71, GiveUp, "transfer suspended"),
    (0x72, GiveUp, "general programming failure"),
    (0x73, GiveUp, "wrong block sequence counter"),
    (0x78, Pending, "request received, response pending"),
    (0x7E, DoNotAskAgain, "sub-function not supported in this session"),
    (0x7F, DoNotAskAgain, "service not supported in this session"),
    (0x80, DoNotAskAgain, "service not supported in this session"),
    (0x81, Wait, "engine speed too high"),
    (0x82, Wait, "engine speed too low"),
    (0x83, TellTheUser, "engine is running"),
    (0x84, TellTheUser, "engine is not running"),
    (0x85, Wait, "engine run time too low"),
    (0x86, Wait, "temperature too high"),
    (0x87, Wait, "temperature too low"),
    (0x88, Wait, "vehicle speed too high"),
    (0x89, Wait, "vehicle speed too low"),
    (0x8A, TellTheUser, "throttle or pedal too high"),
    (0x8B, TellTheUser, "throttle or pedal too low"),
    (0x8C, TellTheUser, "selector not in neutral"),
    (0x8D, TellTheUser, "selector not in gear"),
    (0x8F, TellTheUser, "brake switch not closed"),
    (0x90, TellTheUser, "selector not in park"),
    (0x91, Wait, "torque converter clutch locked"),
    (0x92, TellTheUser, "voltage too high"),
    (0x93, TellTheUser, "voltage too low"),
    (0x94, GiveUp, "resource temporarily not available"),
    (0x9A, GiveUp, "data decompression failed"),
    (0x9B, GiveUp, "data decryption failed"),
    (0xA0, GiveUp, "control unit not responding"),
    (0xA1, GiveUp, "control unit address unknown"),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_codes_rise_so_that_the_search_finds_them() {
        for pair in CODES.windows(2) {
            assert!(pair[0].0 < pair[1].0, "{pair:X?}");
        }
    }

    #[test]
    fn pending_is_told_from_a_refusal() {
        let pending = NegativeReply::parse(&[0x7F, 0x22, 0x78]).unwrap();
        assert!(pending.is_pending());
        assert_eq!(pending.remedy(), Pending);
        assert_eq!(NegativeReply::parse(&[0x7F, 0x22, 0x31]).unwrap().remedy(), DoNotAskAgain);
        assert_eq!(NegativeReply { service: 0x22, code: 0x01 }.remedy(), GiveUp);
        assert_eq!(NegativeReply::parse(&[0x7F, 0x22]), None);
        assert_eq!(NegativeReply::parse(&[0x62, 0x19, 0x40]), None);
    }
}
