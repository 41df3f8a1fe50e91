//! What can leave this program: one type, one list. A line that is not on it cannot be built.
//!
//! In: typed parts. Out: [`Line`], the whole line with its CR, written in one call.
//! Not here: when it is sent (`driver`). [`Command::Read`] carries a `frames::Ask`, which has no variant for a service
//! that clears, writes, actuates or changes a session; [`Setup`] has none for a setting that outlives power-off or that
//! the reference forbids (section 4, "never sent").
//! Source: sections 4, 5, 6, 8, 11 and 12 of the dialect reference.

mod guard;
mod header;

use std::fmt;

use frames::{Ask, Bus, Ecu};

pub(crate) use guard::harms_if_cut;
pub use header::{Header, HeaderError};

/// One line to the adapter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Command {
    /// A setting or a question for the adapter itself.
    Set(Setup),
    /// A reading request for the vehicle.
    Read(Ask),
    /// The same, with the number of lines after which the adapter need not wait for more.
    Counted(Ask, Awaited),
}

/// How many lines answer a request: 1 to 15, one hexadecimal digit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Awaited(u8);

impl Awaited {
    /// The most lines that can be named.
    /// Source: data sheet page 32: one hexadecimal digit.
    pub(crate) const MOST: u8 = 15;

    /// None for 0, which is refused by adapters, and above 15.
    pub const fn new(lines: u8) -> Option<Self> {
        if lines == 0 || lines > Self::MOST { None } else { Some(Self(lines)) }
    }
}

/// What the adapter itself is told or asked. None of them is stored beyond power-off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Setup {
    /// `ATI`: who are you?
    Identify,
    /// `AT@1`: the description its builder stored.
    Description,
    /// `AT@2`: the identifier its builder stored.
    Identifier,
    /// `STI`: the identification of the other chip family.
    FamilyIdentify,
    /// `ATRV`: the voltage at the connector.
    Voltage,
    /// `ATWS`: warm start; everything back to its default except the serial rate.
    WarmStart,
    /// `ATZ`: reset.
    Reset,
    /// `ATPC`: close the protocol.
    CloseProtocol,
    /// `ATFE`: forget the events that keep CAN out of a search.
    ForgetEvents,
    /// `ATE0`, `ATE1`: type requests back.
    Echo(Switch),
    /// `ATL0`, `ATL1`: line feeds.
    LineFeeds(Switch),
    /// `ATS0`, `ATS1`: spaces in data lines.
    Spaces(Switch),
    /// `ATH0`, `ATH1`: headers in data lines.
    Headers(Switch),
    /// `ATM0`: do not store the protocol found. There is no way to say `ATM1`: it would write to memory.
    MemoryOff,
    /// `ATAT0` to `ATAT2`: learn how fast the control units answer.
    AdaptiveTiming(Adaptive),
    /// `ATST hh`: how long to wait for an answer, in steps of 4.096 ms; 0 is the default, not zero.
    Timeout(u8),
    /// `ATCAF0`, `ATCAF1`: CAN formatting.
    CanFormatting(Switch),
    /// `ATCFC0`, `ATCFC1`: answer first frames with flow control.
    CanFlowControl(Switch),
    /// `ATSP0`: search at the next request. Stores nothing (data sheet page 26).
    Search,
    /// `ATTP h`: try this protocol, without storing it.
    Try(Protocol),
    /// `ATDPN`: the number of the protocol in use.
    ProtocolNumber,
    /// `ATDP`: the name of the protocol in use.
    ProtocolName,
    /// `ATSH`: the header of the requests that follow.
    Header(Header),
    /// `ATCRA hhh`: receive only this control unit.
    ReceiveOnly(Ecu),
    /// `ATAR`: receive automatically, filters off.
    ReceiveAny,
    /// `ATCF`: filter for this control unit, where `ATCRA` is refused.
    Filter(Ecu),
    /// `ATCM`: a mask that lets every bit of the filter count, for identifiers of this kind.
    Mask(Ecu),
    /// `ATFCSH hhh`: acknowledge long replies to this address.
    FlowHeader(Header),
    /// `ATFCSD300000`: acknowledge with "send all, without pauses", the answer of ISO 15765-2.
    FlowGoOn,
    /// `ATFCSM1`: acknowledge as these two say.
    FlowOwn,
    /// `ATFCSM0`: acknowledge by itself again, the default.
    FlowAutomatic,
    /// `ATBRD23`: may the wire run at 115200? Forgotten at power-off and by `ATZ`; the adapter goes back by itself if the
    /// answer at the new rate is not confirmed.
    OfferFastRate,
    /// `ATKW1`: a default value; answered from v1.2 on.
    ProbeKeyWords,
    /// `ATCSM1`: a default value; answered from v1.4b on.
    ProbeSilent,
    /// `ATAMC`: a question; answered from v2.0 on.
    ProbeActivity,
    /// `ATCTM1`: a default value; answered from v2.1 on.
    ProbeMultiplier,
    /// `ATQ9`: no list contains it; whoever says `OK` says so to everything.
    ProbeNonsense,
}

/// Off or on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Switch {
    /// 0.
    Off,
    /// 1.
    On,
}

/// How boldly the adapter shortens its waits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Adaptive {
    /// `ATAT0`: not at all.
    Off,
    /// `ATAT1`: about half as long again as the slowest answer (data sheet page 52).
    Careful,
    /// `ATAT2`: the rule is not published.
    Bold,
}

/// A protocol that can be asked for by number. Numbers A to C are not used; neither is `A0`, which hangs one clone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Protocol {
    /// 1.
    J1850Pwm,
    /// 2.
    J1850Vpw,
    /// 3.
    Iso9141,
    /// 4: slow start.
    Iso14230Slow,
    /// 5: fast start.
    Iso14230Fast,
    /// 6: 500 kbit/s.
    Can11Fast,
    /// 7: 500 kbit/s.
    Can29Fast,
    /// 8: 250 kbit/s.
    Can11Slow,
    /// 9: 250 kbit/s.
    Can29Slow,
}

impl Command {
    /// What the vehicle is asked; `None` for a word to the adapter.
    pub const fn ask(self) -> Option<Ask> {
        match self {
            Self::Set(_) => None,
            Self::Read(ask) | Self::Counted(ask, _) => Some(ask),
        }
    }

    /// The whole line with its CR.
    pub fn line(self) -> Line {
        Line::behind(b"", self)
    }
}

impl fmt::Display for Command {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Set(setup) => setup.fmt(f),
            Self::Read(ask) => ask.hex().fmt(f),
            Self::Counted(ask, Awaited(lines)) => write!(f, "{}{lines:X}", ask.hex()),
        }
    }
}

impl fmt::Display for Setup {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let fixed = match *self {
            Self::Identify => "ATI",
            Self::Description => "AT@1",
            Self::Identifier => "AT@2",
            Self::FamilyIdentify => "STI",
            Self::Voltage => "ATRV",
            Self::WarmStart => "ATWS",
            Self::Reset => "ATZ",
            Self::CloseProtocol => "ATPC",
            Self::ForgetEvents => "ATFE",
            Self::Echo(to) => return write!(f, "ATE{}", to.digit()),
            Self::LineFeeds(to) => return write!(f, "ATL{}", to.digit()),
            Self::Spaces(to) => return write!(f, "ATS{}", to.digit()),
            Self::Headers(to) => return write!(f, "ATH{}", to.digit()),
            Self::MemoryOff => "ATM0",
            Self::AdaptiveTiming(Adaptive::Off) => "ATAT0",
            Self::AdaptiveTiming(Adaptive::Careful) => "ATAT1",
            Self::AdaptiveTiming(Adaptive::Bold) => "ATAT2",
            Self::Timeout(steps) => return write!(f, "ATST{steps:02X}"),
            Self::CanFormatting(to) => return write!(f, "ATCAF{}", to.digit()),
            Self::CanFlowControl(to) => return write!(f, "ATCFC{}", to.digit()),
            Self::Search => "ATSP0",
            Self::Try(protocol) => return write!(f, "ATTP{}", protocol.number()),
            Self::ProtocolNumber => "ATDPN",
            Self::ProtocolName => "ATDP",
            Self::Header(header) => return write!(f, "ATSH{header}"),
            Self::ReceiveOnly(ecu) => return write!(f, "ATCRA{ecu}"),
            Self::ReceiveAny => "ATAR",
            Self::Filter(ecu) => return write!(f, "ATCF{ecu}"),
            Self::Mask(ecu) if ecu.id() > 0x7FF => "ATCM1FFFFFFF",
            Self::Mask(_) => "ATCM7FF",
            Self::FlowHeader(header) => return write!(f, "ATFCSH{header}"),
            Self::FlowGoOn => "ATFCSD300000",
            Self::FlowOwn => "ATFCSM1",
            Self::FlowAutomatic => "ATFCSM0",
            Self::OfferFastRate => "ATBRD23",
            Self::ProbeKeyWords => "ATKW1",
            Self::ProbeSilent => "ATCSM1",
            Self::ProbeActivity => "ATAMC",
            Self::ProbeMultiplier => "ATCTM1",
            Self::ProbeNonsense => "ATQ9",
        };
        f.write_str(fixed)
    }
}

impl Switch {
    const fn digit(self) -> u8 {
        match self {
            Self::Off => 0,
            Self::On => 1,
        }
    }
}

impl Protocol {
    /// All of them, by number.
    pub const ALL: [Self; 9] = [
        Self::J1850Pwm,
        Self::J1850Vpw,
        Self::Iso9141,
        Self::Iso14230Slow,
        Self::Iso14230Fast,
        Self::Can11Fast,
        Self::Can29Fast,
        Self::Can11Slow,
        Self::Can29Slow,
    ];

    /// The number that the adapter knows it by, 1 to 9.
    pub const fn number(self) -> u8 {
        match self {
            Self::J1850Pwm => 1,
            Self::J1850Vpw => 2,
            Self::Iso9141 => 3,
            Self::Iso14230Slow => 4,
            Self::Iso14230Fast => 5,
            Self::Can11Fast => 6,
            Self::Can29Fast => 7,
            Self::Can11Slow => 8,
            Self::Can29Slow => 9,
        }
    }

    /// By its number; `None` for 0 (none found yet) and for those that are not used.
    pub fn from_number(number: u8) -> Option<Self> {
        Self::ALL.into_iter().find(|protocol| protocol.number() == number)
    }

    /// The name by which people know it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::J1850Pwm => "SAE J1850 PWM, 41.6 kbit/s",
            Self::J1850Vpw => "SAE J1850 VPW, 10.4 kbit/s",
            Self::Iso9141 => "ISO 9141-2, 10.4 kbit/s",
            Self::Iso14230Slow => "ISO 14230-4, slow start",
            Self::Iso14230Fast => "ISO 14230-4, fast start",
            Self::Can11Fast => "ISO 15765-4, 11 bit, 500 kbit/s",
            Self::Can29Fast => "ISO 15765-4, 29 bit, 500 kbit/s",
            Self::Can11Slow => "ISO 15765-4, 11 bit, 250 kbit/s",
            Self::Can29Slow => "ISO 15765-4, 29 bit, 250 kbit/s",
        }
    }

    /// The form of its data lines.
    pub const fn bus(self) -> Bus {
        match self {
            Self::J1850Pwm => Bus::J1850Pwm,
            Self::J1850Vpw => Bus::J1850Vpw,
            Self::Iso9141 => Bus::Iso9141,
            Self::Iso14230Slow | Self::Iso14230Fast => Bus::Iso14230,
            Self::Can11Fast | Self::Can11Slow => Bus::Can11,
            Self::Can29Fast | Self::Can29Slow => Bus::Can29,
        }
    }
}

/// A line on its way out: a whole command with its CR, or the one character that interrupts.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct Line {
    bytes: [u8; Self::CAPACITY],
    length: u8,
}

impl Line {
    /// Bytes of the longest line.
    /// Own choice: two spaces, the longest command of 15 characters, its CR, and five to spare; a test finds one that
    /// is longer.
    const CAPACITY: usize = 23;

    /// The one space that interrupts what the adapter is doing. Never a CR: alone it would repeat the last command.
    pub(crate) fn interrupt() -> Self {
        let mut line = Self::default();
        let _ = line.put(b" ");
        line
    }

    /// The one CR that agrees to a rate that was just offered; see `driver/phase/raise.rs`.
    pub(crate) fn agreement() -> Self {
        let mut line = Self::default();
        let _ = line.put(b"\r");
        line
    }

    /// A command behind a space: a character swallowed by an interruption is then none of its own.
    pub(crate) fn spaced(command: Command) -> Self {
        Self::behind(b" ", command)
    }

    /// A command with its CR behind `lead`. Everything fits: the longest command has 15 characters; see the test below.
    fn behind(lead: &[u8], command: Command) -> Self {
        let mut line = Self::default();
        let _ = line.put(lead);
        let _ = match command {
            Command::Set(setup) => fmt::write(&mut line, format_args!("{setup}")),
            Command::Read(ask) => ask.hex().with(|digits| line.put(digits)),
            Command::Counted(ask, Awaited(lines)) => {
                ask.hex().with(|digits| line.put(digits)).and_then(|()| {
                    let digit =
                        char::from_digit(u32::from(lines), 16).map_or(b'F', |d| d.to_ascii_uppercase() as u8);
                    line.put(&[digit])
                })
            }
        };
        let _ = line.put(b"\r");
        line
    }

    fn put(&mut self, bytes: &[u8]) -> fmt::Result {
        let start = usize::from(self.length);
        let end = start + bytes.len();
        self.bytes.get_mut(start..end).ok_or(fmt::Error)?.copy_from_slice(bytes);
        self.length = end as u8;
        Ok(())
    }

    /// The bytes to write, in one call.
    pub fn as_bytes(&self) -> &[u8] {
        self.bytes.get(..usize::from(self.length)).unwrap_or_default()
    }
}

impl Default for Line {
    fn default() -> Self {
        Self { bytes: [0; Self::CAPACITY], length: 0 }
    }
}

impl fmt::Write for Line {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        self.put(text.as_bytes())
    }
}

impl std::ops::Deref for Line {
    type Target = [u8];

    fn deref(&self) -> &[u8] {
        self.as_bytes()
    }
}

impl AsRef<[u8]> for Line {
    fn as_ref(&self) -> &[u8] {
        self.as_bytes()
    }
}

impl fmt::Debug for Line {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "\"{}\"", self.as_bytes().escape_ascii())
    }
}

#[cfg(test)]
mod allowed;
#[cfg(test)]
mod tests;
