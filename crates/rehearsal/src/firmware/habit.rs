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
}

impl Habit {
    /// Whether no vehicle can be read with it.
    pub const fn is_hopeless(self) -> bool {
        matches!(self, Self::Deaf | Self::Loop | Self::Modem | Self::Silent)
    }
}
