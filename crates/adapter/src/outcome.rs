//! What came of it: everything that the driver has to tell, each kind a type of its own.
//!
//! No data, a refusal, a fault of the adapter, a lost link and a time-out are different things (rule 10 of the
//! dialect reference), and none of them is ever a reading. Their lists are closed: whoever tells people what went wrong
//! names every one of them, and the compiler says where one is missing.

use std::time::Duration;

use frames::{Ask, Bus, Ecu, Message, NegativeReply, Status};
use units::{Mono, words};

use crate::command::{Command, Header, Protocol};
use crate::level::Tested;
use crate::quirk::Quirk;

/// Something that happened at the adapter.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Outcome {
    /// The adapter said who it is.
    Found {
        /// What it said.
        identity: Identity,
    },
    /// The wire runs faster now.
    Rate {
        /// The new rate in bit/s.
        baud: u32,
    },
    /// It differs from the rule in a way that was not known of it.
    Quirk(Quirk),
    /// The vehicle answers.
    Connected {
        /// The protocol, if the adapter could name it.
        protocol: Option<Protocol>,
        /// The form of the bus; none where replies have the same form on all, without their senders.
        bus: Option<Bus>,
        /// The control units that answered the first request; empty where replies do not name their sender.
        control_units: Vec<Ecu>,
    },
    /// The vehicle does not answer; the next attempt follows by itself.
    VehicleSilent {
        /// How it is silent.
        detail: Silence,
        /// How often in a row, from 1.
        attempt: u32,
        /// When the next attempt follows.
        retry_in: Duration,
        /// What has been tried since the vehicle answered last.
        tried: Tried,
    },
    /// An answer that was checked: it came in time, from the control unit that was asked (if one was), to this
    /// service and identifier, with the length that it announced.
    Answer {
        /// What was asked.
        ask: Ask,
        /// To whom.
        header: Option<Header>,
        /// When the request left.
        sent: Mono,
        /// When the reply was complete.
        at: Mono,
        /// One or more; several only where all control units were asked.
        messages: Vec<Message>,
    },
    /// The voltage at the connector.
    Voltage {
        /// In mV, to 0.1 V.
        millivolts: u32,
        /// When it was read.
        at: Mono,
    },
    /// The control unit refused.
    Declined {
        /// What was asked.
        ask: Ask,
        /// To whom.
        header: Option<Header>,
        /// Its refusal.
        code: NegativeReply,
    },
    /// No answer.
    NoAnswer {
        /// What was asked.
        ask: Ask,
        /// To whom.
        header: Option<Header>,
        /// How it was silent.
        why: Silence,
    },
    /// Something came that must not be used.
    Suspect {
        /// What was asked.
        ask: Ask,
        /// To whom.
        header: Option<Header>,
        /// What is wrong with it.
        why: Doubt,
    },
    /// What is plugged in is no adapter.
    NotAnAdapter {
        /// What speaks against it.
        why: Stranger,
    },
    /// The adapter has lost its settings; it is set up again. What was read before it is stale.
    Reset {
        /// By what it was noticed.
        sign: ResetSign,
    },
    /// The connection has ended again and again with this under way: it is asked last and seldom from now on.
    Avoided {
        /// What was asked, without its count digit.
        command: Command,
        /// To whom.
        header: Option<Header>,
    },
    /// Contact is lost. The caller closes the link, waits a moment and opens it again.
    Lost {
        /// How.
        why: Loss,
        /// What was being asked.
        asking: Option<Command>,
    },
}

/// What was tried to reach a vehicle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Tried {
    /// The adapter's own search.
    pub search: bool,
    /// One bit for each number of a protocol.
    named: u16,
}

impl Tried {
    /// One more.
    pub(crate) fn note(&mut self, protocol: Protocol) {
        self.named |= 1 << protocol.number();
    }

    /// The protocols that were tried by name, by their number.
    pub fn named(self) -> impl Iterator<Item = Protocol> {
        Protocol::ALL.into_iter().filter(move |protocol| self.named & 1 << protocol.number() != 0)
    }
}

/// What an adapter says about itself. None of it is believed.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Identity {
    /// The reply to `ATI`.
    pub version: String,
    /// The reply to `AT@1`, if it had one.
    pub description: Option<String>,
    /// The reply to `STI`, if it is of the other family.
    pub family: Option<String>,
    /// What trying its commands has shown.
    pub tested: Tested,
}

words! {
    /// How somebody is silent.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
    carrying Silence {
        /// Every protocol was tried.
        #[error("no protocol was answered: is the ignition on?")]
        NoProtocol "no-protocol",
        /// No answer within the adapter's wait.
        #[error("no data")]
        NoData "no-data",
        /// A bus that has to be woken did not wake.
        #[error("the bus did not start: is the ignition on?")]
        BusInit "bus-init",
        /// The bus, or its wiring.
        #[error("{0}")]
        Bus "bus-error" (Status),
        /// Only refusals came.
        #[error("the control units only refuse")]
        OnlyRefusals "only-refusals",
        /// The adapter does not understand the request.
        #[error("the adapter does not understand the request")]
        NotUnderstood "not-understood",
        /// The adapter was broken off.
        #[error("the adapter was interrupted")]
        Interrupted "interrupted",
        /// The adapter lost lines, or has a fault.
        #[error("the adapter reports {0}")]
        Adapter "adapter-fault" (Status),
        /// The control unit asked for more time again and again.
        #[error("the control unit asked for more time and did not answer")]
        Pending "pending",
        /// No complete reply in time.
        #[error("no reply from the adapter in time")]
        TimedOut "timed-out",
        /// Several control units answered, and the adapter does not say who sent what.
        #[error("several control units answer and the adapter does not name them: another adapter is needed")]
        SendersUnknown "senders-unknown",
        /// An answer came, but it may be one of several buses, and the adapter does not say which.
        #[error("the vehicle answers, but the adapter does not name its protocol: another adapter is needed")]
        Unnamed "protocol-unnamed",
        /// Something came that is no answer.
        #[error("what came is no answer")]
        Malformed "malformed",
    }
}

words! {
    /// What is wrong with something that came.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
    carrying Doubt {
        /// Another control unit than the one that was asked.
        #[error("{got} answered, {want} was asked")]
        WrongSender "wrong-sender" {
            /// Who was asked.
            want: Ecu,
            /// Who answered.
            got: Ecu,
        },
        /// The reply does not name its sender, and one was asked.
        #[error("the reply does not name its sender")]
        NoSender "no-sender",
        /// An answer to another request.
        #[error("the answer belongs to another request")]
        OtherRequest "other-request",
        /// Spoilt, cut, or incomplete; the word of the parser.
        #[error("the reply is not whole ({0})")]
        Malformed "malformed" (&'static str),
        /// Longer than any reply may be.
        #[error("the reply is longer than any may be")]
        TooLong "too-long",
        /// The request cannot be addressed on this bus or with this adapter.
        #[error("the request cannot be addressed to {0} here")]
        NotAddressable "not-addressable" (Header),
        /// Three answers in a row to the same request differ.
        #[error("the answers differ from one to the next")]
        Unsteady "unsteady",
        /// The form of the reply says that the settings are lost.
        #[error("the adapter has lost its settings")]
        AfterReset "after-reset",
    }
}

words! {
    /// What speaks against an adapter.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
    carrying Stranger {
        /// The text of a modem.
        #[error("it answers like a modem")]
        Modem "modem",
        /// Only what was sent comes back.
        #[error("it only sends back what it is sent: a bare cable, or an adapter without supply")]
        Loop "loop",
        /// Bytes without sense.
        #[error("it sends noise: perhaps the rate is wrong")]
        Noise "noise",
        /// Text, and never a prompt.
        #[error("it talks, but not like an adapter")]
        Talk "talk",
    }
}

words! {
    /// By what a reset was noticed.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
    carrying ResetSign {
        /// Its banner, unasked.
        #[error("the adapter has started anew")]
        Banner "banner",
        /// `LV RESET`.
        #[error("the adapter's supply dipped, as when the engine is cranked")]
        LowVoltage "low-voltage",
        /// `ERR94`, or another fault of its own.
        #[error("the adapter has a fault of its own ({0})")]
        Fault "fault" (Status),
        /// It goes to sleep.
        #[error("the adapter goes to sleep")]
        Sleep "sleep",
        /// Echo, spaces or headers are as after a start.
        #[error("the adapter answers as after a start: {0}")]
        Form "form" (&'static str),
        /// Three exchanges in a row without a reply in time.
        #[error("the adapter misses replies")]
        Misses "misses",
    }
}

words! {
    /// How contact was lost.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
    carrying Loss {
        /// The link itself: unplugged, or cut.
        #[error("the link is gone")]
        LinkClosed "link-closed",
        /// Nothing came, after every attempt to get back in step.
        #[error("the adapter does not answer")]
        Silent "silent",
        /// Something came, but nothing got it back in step.
        #[error("the adapter cannot be brought back in step")]
        OutOfStep "out-of-step",
        /// It reports the same fault again after a new start.
        #[error("the adapter reports a fault of its own again ({0})")]
        Fault "fault" (Status),
    }
}
