//! Why text did not become messages, and why a message did not become values.
//!
//! Each variant carries what was expected, what came and where; `kind()` is the kebab-case word that `decode`
//! prints.

use crate::answer::negative::NegativeReply;
use crate::answer::vin::VinError;
use crate::bus::Ecu;
use crate::text::status::Status;

/// Why the text of a reply (or a part of it) did not become messages. `at` counts bytes of the text from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum WireError {
    /// Nothing but line ends and prompts, or nothing that could be an answer.
    #[error("the reply holds no answer")]
    Empty,
    /// The adapter said something itself.
    #[error("the adapter says {status} (byte {at})")]
    Status {
        /// What.
        status: Status,
        /// Where its line begins.
        at: usize,
    },
    /// A line is not what this bus and these headers look like.
    #[error("byte {at}: expected {want}")]
    Malformed {
        /// What should have been there.
        want: &'static str,
        /// Where.
        at: usize,
    },
    /// A line or a message is shorter than it says it is.
    #[error("byte {at}: {want} bytes announced, {got} came")]
    Incomplete {
        /// Who was sending, where known.
        ecu: Option<Ecu>,
        /// Bytes announced.
        want: usize,
        /// Bytes that came.
        got: usize,
        /// Where the line begins that announced them.
        at: usize,
    },
    /// A part of a long message is missing, doubled or out of order.
    #[error("byte {at}: part {want:X} was due, part {got:X} came")]
    SequenceGap {
        /// Who was sending, where known.
        ecu: Option<Ecu>,
        /// The number that was due.
        want: u8,
        /// The number that came.
        got: u8,
        /// Where its line begins.
        at: usize,
    },
    /// A later part of a long message without its beginning.
    #[error("byte {at}: part {got:X} of a message whose beginning did not come")]
    NoFirstFrame {
        /// Who was sending, where known.
        ecu: Option<Ecu>,
        /// The number that came.
        got: u8,
        /// Where its line begins.
        at: usize,
    },
    /// Parts that may belong to one of several control units.
    #[error("byte {at}: parts of several messages cannot be told apart; headers must be shown")]
    Ambiguous {
        /// Where the line begins that could be either's.
        at: usize,
    },
    /// A checksum does not fit its line.
    #[error("byte {at}: checksum {want:02X} computed, {got:02X} received")]
    Checksum {
        /// What the bytes give.
        want: u8,
        /// What the line says.
        got: u8,
        /// Where the line begins.
        at: usize,
    },
    /// A complete answer, but to something else.
    #[error(
        "an answer to service {want:02X} was due, what came begins with {got:02X}, or names another identifier"
    )]
    Mismatch {
        /// The first byte due.
        want: u8,
        /// The first byte that came.
        got: u8,
    },
    /// Something behind the prompt: the text is more than one reply.
    #[error("byte {at}: text behind the prompt")]
    AfterPrompt {
        /// Where.
        at: usize,
    },
    /// A limit of this crate was reached.
    #[error("byte {at}: more than {limit} {what}")]
    TooMuch {
        /// Of what.
        what: &'static str,
        /// The limit.
        limit: usize,
        /// Where.
        at: usize,
    },
}

impl WireError {
    /// The kebab-case word for this kind of error.
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Empty => "empty",
            Self::Status { status, .. } => status.kind(),
            Self::Malformed { .. } => "malformed",
            Self::Incomplete { .. } => "incomplete",
            Self::SequenceGap { .. } => "sequence-gap",
            Self::NoFirstFrame { .. } => "no-first-frame",
            Self::Ambiguous { .. } => "ambiguous",
            Self::Checksum { .. } => "checksum-error",
            Self::Mismatch { .. } => "mismatch",
            Self::AfterPrompt { .. } => "text-after-prompt",
            Self::TooMuch { .. } => "too-much",
        }
    }
}

/// Why a message did not become values. Lengths count the bytes after the service and the echoed identifier.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum DecodeError {
    /// The message is an answer to something else.
    #[error("expected the answer {want:02X}.. to service {service:02X}, byte {at} is {got:02X}")]
    Mismatch {
        /// The service asked.
        service: u8,
        /// The byte that was due.
        want: u8,
        /// The byte that came.
        got: u8,
        /// Its place in the message, from 0.
        at: usize,
    },
    /// The control unit refused.
    #[error("{0}")]
    Negative(NegativeReply),
    /// The table has no row for the identifier.
    #[error("no row for identifier {id:02X} in service {service:02X}")]
    UnknownId {
        /// The service.
        service: u8,
        /// The identifier.
        id: u16,
    },
    /// The identifier is known by name, its layout is not.
    #[error("identifier {id:02X} of service {service:02X} ({name}) has no layout that could be checked")]
    NoLayout {
        /// The service.
        service: u8,
        /// The identifier.
        id: u16,
        /// Its name.
        name: &'static str,
    },
    /// Fewer bytes than the table says.
    #[error("the answer to {service:02X} {id:02X} has {got} data bytes, the table says {want}: byte {} is missing", end(*service, *got))]
    ShortReply {
        /// The service.
        service: u8,
        /// The identifier.
        id: u16,
        /// Bytes due.
        want: usize,
        /// Bytes that came.
        got: usize,
    },
    /// More bytes than the table says.
    #[error("the answer to {service:02X} {id:02X} has {got} data bytes, the table says {want}: byte {} is too many", end(*service, *want))]
    LongReply {
        /// The service.
        service: u8,
        /// The identifier.
        id: u16,
        /// Bytes due.
        want: usize,
        /// Bytes that came.
        got: usize,
    },
    /// A count in the answer does not fit its length.
    #[error("the answer counts {want} entries, {got} bytes follow")]
    Count {
        /// Entries counted.
        want: usize,
        /// Bytes that follow.
        got: usize,
    },
    /// A character that a text must not have.
    #[error("byte {at} of the text is {byte:02X}, which is no character of it")]
    Text {
        /// Its place in the payload, from 0.
        at: usize,
        /// What stood there.
        byte: u8,
    },
    /// A vehicle identification number with a wrong length or character.
    #[error(transparent)]
    Vin(#[from] VinError),
    /// A unit-and-scaling identifier that no row of the table names.
    #[error("no row for unit-and-scaling identifier {id:02X}")]
    UnknownScaling {
        /// The identifier.
        id: u8,
    },
    /// The request has no field of that name.
    #[error("the answer has no field of that name")]
    UnknownName,
    /// A payload that does not reach the place a sheet names.
    #[error("the value needs {want} bytes, the payload has {got}")]
    ShortPayload {
        /// Bytes needed.
        want: usize,
        /// Bytes that came.
        got: usize,
    },
    /// A number that stands for "error" or "not available".
    #[error("raw {raw:X} means error or not available")]
    NotAvailable {
        /// The number.
        raw: u64,
    },
    /// The identifier is the maker's: a sheet has to say where the value stands.
    #[error("service {service:02X} carries the maker's own identifiers: a sheet has to describe them")]
    NeedsSheet {
        /// The service.
        service: u8,
    },
    /// The sheet's own description makes no sense.
    #[error(transparent)]
    Encoding(EncodingError),
}

/// The place in the message, from 0, that `data` bytes after the echo reach.
const fn end(service: u8, data: usize) -> usize {
    data + match service {
        0x03 | 0x07 | 0x0A => 1,
        0x02 | 0x22 => 3,
        _ => 2,
    }
}

impl DecodeError {
    /// The kebab-case word for this kind of error.
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Mismatch { .. } => "mismatch",
            Self::Negative(_) => "negative-reply",
            Self::UnknownId { .. } => "unknown-identifier",
            Self::NoLayout { .. } => "no-layout",
            Self::ShortReply { .. } | Self::ShortPayload { .. } => "short-reply",
            Self::LongReply { .. } => "long-reply",
            Self::Count { .. } => "wrong-count",
            Self::Text { .. } => "wrong-character",
            Self::Vin(_) => "wrong-vin",
            Self::UnknownScaling { .. } => "unknown-scaling",
            Self::UnknownName => "unknown-name",
            Self::NotAvailable { .. } => "not-available",
            Self::NeedsSheet { .. } => "needs-sheet",
            Self::Encoding(_) => "wrong-encoding",
        }
    }
}

/// Why an [`crate::Encoding`] makes no sense or cannot carry a value.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum EncodingError {
    /// The length is not 1 to 4 bytes.
    #[error("a value takes 1 to 4 bytes, not {length}")]
    Length {
        /// The length given.
        length: u8,
    },
    /// The bit field leaves the bytes.
    #[error("a field of {length} bits after {offset} does not fit into {within}")]
    Bits {
        /// Bits before it.
        offset: u8,
        /// Bits in it.
        length: u8,
        /// Bits there are.
        within: u8,
    },
    /// Scale 0, or a scale or an offset that is no finite number.
    #[error("the scale must be a finite number other than 0, and the offset finite")]
    Scale,
    /// The value is outside what the field can carry.
    #[error("{value} is outside {low} to {high}")]
    OutOfRange {
        /// The value.
        value: f64,
        /// The smallest that can be carried.
        low: f64,
        /// The largest.
        high: f64,
    },
}
