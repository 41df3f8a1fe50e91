//! What the adapter's driver has to complain of, as a word of the vocabulary: one row each, and the compiler names what
//! is missing.
//!
//! In: a complaint of the driver. Out: [`Trouble`]. Pure. Not here: when it is told (`bay/heard.rs`), what people are told
//! about it (`events`).

use adapter::{Doubt, Loss, ResetSign, Silence, Stranger};
use events::Trouble;
use frames::{NegativeReply, Remedy, Status};

/// Contact with the adapter is lost.
pub const fn lost(why: Loss) -> Trouble {
    match why {
        Loss::LinkClosed => Trouble::PortGone,
        Loss::Silent => Trouble::AdapterSilent,
        Loss::OutOfStep => Trouble::OutOfStep,
        // Its own driver stage, or the wiring: another vehicle shows which.
        Loss::Fault(Status::FeedbackError) => Trouble::BusTrouble,
        Loss::Fault(_) => Trouble::AdapterFault,
    }
}

/// What is plugged in is no adapter.
pub const fn stranger(why: Stranger) -> Trouble {
    match why {
        Stranger::Modem => Trouble::Modem,
        Stranger::Loop => Trouble::Loop,
        Stranger::Noise => Trouble::Noise,
        Stranger::Talk => Trouble::Talk,
    }
}

/// The first request to a vehicle brought nothing.
pub const fn searching(why: Silence) -> Trouble {
    match why {
        Silence::NoData => Trouble::VehicleSilent,
        Silence::Malformed => Trouble::Unreadable,
        // The adapter is in step again, or it would be lost: only the search took too long.
        Silence::TimedOut => Trouble::SearchEndless,
        other => silence(other),
    }
}

/// A request to a vehicle that does answer brought nothing.
pub const fn unanswered(why: Silence) -> Trouble {
    match why {
        Silence::NoData => Trouble::UnitSilent,
        Silence::Malformed => Trouble::Spoilt,
        other => silence(other),
    }
}

const fn silence(why: Silence) -> Trouble {
    match why {
        Silence::NoProtocol | Silence::NoData => Trouble::VehicleSilent,
        Silence::BusInit => Trouble::BusStart,
        Silence::Bus(_) => Trouble::BusTrouble,
        Silence::OnlyRefusals => Trouble::OnlyRefusals,
        Silence::NotUnderstood => Trouble::NotUnderstood,
        Silence::Interrupted => Trouble::Interrupted,
        // Lines that did not fit into its memory are lost; the next reply may be whole.
        Silence::Adapter(Status::BufferFull) => Trouble::Spoilt,
        Silence::Adapter(Status::FeedbackError) => Trouble::BusTrouble,
        Silence::Adapter(_) => Trouble::AdapterFault,
        Silence::Pending => Trouble::UnitBusy,
        Silence::TimedOut => Trouble::LateReply,
        Silence::SendersUnknown => Trouble::SendersUnknown,
        Silence::Unnamed => Trouble::ProtocolUnknown,
        Silence::Malformed => Trouble::Unreadable,
    }
}

/// What came must not be used.
pub const fn doubt(why: Doubt) -> Trouble {
    match why {
        Doubt::WrongSender { .. } => Trouble::WrongSender,
        Doubt::NoSender => Trouble::SenderUnknown,
        Doubt::OtherRequest => Trouble::OtherRequest,
        Doubt::Malformed(_) | Doubt::TooLong => Trouble::Spoilt,
        Doubt::NotAddressable(_) => Trouble::NotAddressable,
        Doubt::Unsteady => Trouble::Unsteady,
        Doubt::AfterReset => Trouble::Restarting,
    }
}

/// The adapter has lost its settings.
pub const fn reset(sign: ResetSign) -> Trouble {
    match sign {
        ResetSign::Fault(Status::FeedbackError) => Trouble::BusTrouble,
        _ => Trouble::Restarting,
    }
}

/// The control unit refused. Source of the codes: `nrc.csv` of the reference (ISO 14229-1, ISO 14230-3); which of them a
/// technician would call unknown, locked or not now is ours.
pub fn refused(code: NegativeReply) -> Trouble {
    match (code.code, code.remedy()) {
        // Service, sub-function, identifier.
        (0x11 | 0x12 | 0x31, _) => Trouble::RefusedUnknown,
        // Access denied, a key, a certificate; or not in the session in which everybody may read.
        (0x33..=0x36 | 0x38..=0x3F | 0x50..=0x5D | 0x7E..=0x80, _) => Trouble::RefusedLocked,
        (_, Remedy::Wait | Remedy::TellTheUser | Remedy::Pending) => Trouble::RefusedNow,
        _ => Trouble::Refused,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_refusal_is_unknown_locked_not_now_or_plain() {
        let cases: &[(&[u8], Trouble)] = &[
            (&[0x11, 0x12, 0x31], Trouble::RefusedUnknown),
            (&[0x33, 0x34, 0x35, 0x36, 0x38, 0x3A, 0x50, 0x5D, 0x7E, 0x7F, 0x80], Trouble::RefusedLocked),
            (&[0x21, 0x22, 0x23, 0x25, 0x37, 0x83, 0x84, 0x8C, 0x92], Trouble::RefusedNow),
            (&[0x10, 0x13, 0x14, 0x24, 0x70, 0x9A, 0xA0, 0x01, 0xFF], Trouble::Refused),
        ];
        for (codes, want) in cases {
            for &code in *codes {
                assert_eq!(refused(NegativeReply { service: 0x22, code }), *want, "{code:02X}");
            }
        }
    }

    #[test]
    fn nobody_answers_means_the_vehicle_before_it_answered_and_the_unit_after() {
        assert_eq!(searching(Silence::NoData), Trouble::VehicleSilent);
        assert_eq!(unanswered(Silence::NoData), Trouble::UnitSilent);
        assert_eq!(searching(Silence::Malformed), Trouble::Unreadable);
        assert_eq!(unanswered(Silence::Malformed), Trouble::Spoilt);
        assert_eq!(searching(Silence::TimedOut), Trouble::SearchEndless);
        assert_eq!(unanswered(Silence::TimedOut), Trouble::LateReply);
        for why in [Silence::NoProtocol, Silence::BusInit, Silence::NotUnderstood] {
            assert_eq!(searching(why), unanswered(why), "{why}");
        }
    }
}
