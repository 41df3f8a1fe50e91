//! What firmwares do against the rules. Source: adapter reference, dialect sections 1, 2, 9, 15, 17.

/// What a firmware does against the rules.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Habit {
    /// `ATE0` says `OK`, the echo stays.
    EchoStays,
    /// `ATS0` says `OK`, the spaces stay.
    SpacesStay,
    /// `ATL0` says `OK`; line feeds stay behind all but the echo.
    LineFeedsStay,
    /// `ATH1` says `OK`, headers do not come.
    HeadersStay,
    /// One CR before the prompt in place of two.
    SingleCr,
    /// The bytes that fill a CAN frame are shown too.
    PaddingShown,
    /// A count digit is refused with `?`.
    NoDigit,
    /// The count digit counts whole messages, not lines.
    CountsMessages,
    /// `OK` to whatever begins with `AT` or `ST`.
    SaysYes,
    /// NULs before the banner, and now and then between bytes.
    Nuls,
    /// A byte above 7F before the banner.
    StrayByte,
    /// Texts of its own for what others say with `?` and `BUS INIT`.
    OddTexts,
    /// Dots in front of data.
    Dots,
    /// Answers to `ATDPN` with other lines in front.
    LinesBeforeProtocol,
    /// The prompt comes a moment after what it belongs to.
    LatePrompt,
    /// Never answers again after `ATTPA0`.
    HangsOnTpA0,
    /// Bytes that come before the prompt are lost, commands too.
    LosesBatches,
    /// `ATRV` without its letter.
    OddVoltage,
    /// Bytes come in pieces, some milliseconds apart.
    Pieces,
    /// `?` to whatever the vehicle is asked.
    Deaf,
    /// Nothing but the echo, never a prompt.
    Loop,
    /// `ERROR` to all but `AT`, without a prompt.
    Modem,
    /// Nothing at all.
    Silent,
    /// `?` to every line for some seconds after power-up.
    RefusesAtFirst,
    /// The first character of a line that comes right behind the prompt is lost.
    NeedsGap,
    /// The first character of every line is lost.
    LosesFirst,
    /// A count digit is answered `NO DATA`.
    DigitMeansNoData,
    /// A search finds nothing.
    NoSearch,
    /// Mute in all links of the host but the first.
    FirstLinkOnly,
    /// For a while after a link has ended there is no other.
    SlowToLetIn,
    /// The wait is as long as `ATST` says, and response pending extends none.
    FixedWait,
    /// The request after a `NO DATA` begins with a search.
    SearchesAnew,
    /// Data in lower case.
    LowerCase,
    /// XON and XOFF between other bytes.
    XonXoff,
    /// A receive filter is there from the start, until `ATZ` or power-off.
    FilterStays,
    /// A line that begins with a space is not answered.
    IgnoresSpaced,
    /// A space behind each prompt.
    SpacedPrompt,
    /// LF in place of CR.
    LfOnly,
    /// Each data line twice.
    LinesTwice,
    /// `ATDPN` says `A0`.
    NumberZero,
    /// `ATDPN` names another protocol.
    NumberWrong,
    /// Telnet's words at the beginning of each link.
    Telnet,
    /// `ATRV` ends the link.
    VoltageCloses,
    /// Lines that begin with `ST` reset it.
    ResetsOnSt,
    /// After a pause the next reply comes late.
    WakesSlowly,
    /// A request that comes soon behind the prompt is answered `STOPPED`.
    StopsWhenEarly,
}

impl Habit {
    /// Whether no vehicle can be read with it.
    pub const fn is_hopeless(self) -> bool {
        matches!(self, Self::Deaf | Self::Loop | Self::Modem | Self::Silent)
    }
}
