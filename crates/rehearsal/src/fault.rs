//! Faults by name: what can be wrong with the sensor, the adapter, the line.
//!
//! In: a name with an optional start, `sensor-frozen@600`. Out: [`Fault`], or [`FaultError`] that lists the names.
//! To add a fault: one row of [`FaultKind`], and the place that acts on it; the compiler names it.
//! Not here: what a technician does wrong (`mistake.rs`).
//! Source of the list: adapter reference, dialect, section 18.

use core::str::FromStr;
use core::time::Duration;

use units::{Mono, UnknownWord, words};

words! {
    /// What is wrong.
    FaultKind {
        SensorFrozen "sensor-frozen" "The fluid temperature stays what it is.",
        SensorDefault "sensor-default" "The control unit reports a made-up fluid temperature and stores code P0711.",
        SensorStep "sensor-step" "The fluid temperature jumps by 8 °C and stays shifted.",
        AdapterUnplugged "adapter-unplugged" "The adapter is pulled for 30 seconds.",
        DropBytes "drop-bytes" "One byte in 300 from the adapter is lost.",
        FlipBytes "flip-bytes" "One byte in 300 from the adapter is changed.",
        DuplicateBytes "duplicate-bytes" "One byte in 300 from the adapter comes twice.",
        NulBytes "nul-bytes" "A NUL is put in before one byte in 50.",
        LatePrompt "late-prompt" "One prompt in 20 comes 1.2 seconds late.",
        NoData "no-data" "One request in 10 is answered NO DATA.",
        LvReset "lv-reset" "The adapter resets itself once: settings lost, LV RESET.",
        SilentReset "silent-reset" "The adapter falls back to its defaults once and says nothing.",
        WrongEcu "wrong-ecu" "Another control unit answers for the fluid temperature, 10 °C too high.",
        TwoUnitsAnswer "two-units-answer" "A second control unit answers for the coolant temperature too, with another circuit's, 36 °C lower.",
        Stopped "stopped" "One request in 30 is answered STOPPED.",
        BusError "bus-error" "One request in 30 is answered CAN ERROR.",
        IgnitionOff "ignition-off" "The ignition is off for two minutes: UNABLE TO CONNECT, or NO DATA.",
        Pending "pending" "One request in 15 is first answered with response pending.",

        SingleBytes "single-bytes" "Every byte comes on its own, up to 40 ms after the one before.",
        JoinedReplies "joined-replies" "One prompt in 10 is held back and comes with the next reply, in one piece.",
        StrayBytes "stray-bytes" "Bytes FC, FF or others above 7F come before one reply in 5.",
        EchoReturns "echo-returns" "Every two minutes the echo is on again, without a reset.",
        FormReturns "form-returns" "Every two minutes line feeds and spaces are on again, without a reset.",
        PromptMissing "prompt-missing" "One prompt in 20 never comes.",
        PromptDoubled "prompt-doubled" "One prompt in 10 comes twice.",
        LateReply "late-reply" "One reply in 20 comes 2.5 seconds late.",
        NoDataSpell "no-data-spell" "Once a minute three requests in a row are answered NO DATA.",
        SlowSearch "slow-search" "The protocol is lost once; searches take 25 seconds, the data glued to their word.",
        BusInitError "bus-init-error" "The protocol is lost once; the next start takes 6 seconds and fails: BUS INIT: ...ERROR.",
        UnableToConnect "unable-to-connect" "The protocol is lost once; the next two requests find nobody: UNABLE TO CONNECT.",
        ResetInReply "reset-in-reply" "Once in five minutes the supply dips in the middle of a reply: LV RESET, settings lost.",
        BannerUnasked "banner-unasked" "Once in five minutes the adapter resets itself and says its banner.",
        ChipError "chip-error" "Once in five minutes the chip fails and resets itself: ERR94, or ERR93.",
        BufferFull "buffer-full" "One reply in 15 ends with BUFFER FULL; of a long one two frames come.",
        LineMarked "line-marked" "One data line in 10 is marked <RX ERROR or <DATA ERROR.",
        BusTrouble "bus-trouble" "One request in 20 is answered BUS BUSY, BUS ERROR, FB ERROR or DATA ERROR.",
        CommandRefused "command-refused" "One command to the adapter in 6 is answered with a question mark.",
        RateSwitchDies "rate-switch-dies" "A change of the rate is promised, and nothing is said at the new one.",
        RateSwitchNoise "rate-switch-noise" "A change of the rate ends in noise.",
        UnitsMixed "units-mixed" "The lines of several control units are mixed.",
        FramesSwapped "frames-swapped" "Two following frames of a long reply change places.",
        FrameMissing "frame-missing" "A following frame of a long reply is missing.",
        FrameDoubled "frame-doubled" "A following frame of a long reply comes twice.",
        WrongLength "wrong-length" "One data line in 10 announces another length than it has.",
        OddDigits "odd-digits" "One data line in 10 has lost its last digit.",
        LettersInHex "letters-in-hex" "One data line in 10 holds a letter that is no digit.",
        LongLine "long-line" "One reply in 30 holds a line of 4096 characters.",
        EndlessLine "endless-line" "Once the adapter says a mebibyte of digits without an end.",
        WrongIdentifier "wrong-identifier" "One reply in 10 answers another identifier or service than was asked.",
        StaleReply "stale-reply" "One request in 10 is answered with the reply to the one before.",
        RepeatedReply "repeated-reply" "Every request is answered with what was said to it the first time.",
        PendingLong "pending-long" "One request in 15 is answered with response pending five times, then with its value.",
        PendingForever "pending-forever" "One request in 15 is answered with response pending and nothing else.",
        DigitShort "digit-short" "With a count digit one reply in 5 has a line too few.",
        Cranking "cranking" "Every five minutes the voltage dips for 3 seconds: nobody answers, the adapter resets.",
        BusAsleep "bus-asleep" "For a minute the vehicle's bus sleeps: CAN ERROR, BUS INIT: ERROR or NO DATA.",
        ActAlert "act-alert" "Every five minutes the adapter says ACT ALERT; a minute without a word puts it to sleep.",
        LpAlert "lp-alert" "Once in ten minutes the adapter says LP ALERT and goes to sleep until a byte wakes it.",
        ForeignLines "foreign-lines" "Every two minutes another program on the port says AT lines and changes the header.",
        OddVolts "odd-volts" "The voltage is 0.0V, 12.3, OK, a question mark or 99.9V in turn.",
        ReEnumerated "re-enumerated" "The adapter vanishes for 3 seconds and comes back as another device behind its name.",
        CutInReply "cut-in-reply" "The link is cut in the middle of a reply and closed for 3 seconds.",
        PendingAlways "pending-always" "The transmission's unit first asks for more time, each time, and answers 0.9 s later.",
        RequestKillsLink "request-kills-link" "The request for the identification number (0902) closes the link for a second.",
        RequestResets "request-resets" "The request for the vehicle's speed (010D) resets the adapter.",
        RequestHangs "request-hangs" "The request for the outside air (0146) makes the adapter mute until its port is opened again.",
        LengthChanges "length-changes" "For 5 seconds in 15 the transmission's answer is a byte longer, 00 in front of the value.",
        FlakyLink "flaky-link" "Every 8 seconds the link is closed for a second.",
        Brownout "brownout" "For half a minute the supply dips every 4 seconds: LV RESET, settings lost.",
        Stalls "stalls" "Every 20 seconds nothing comes from the adapter for 4 seconds, then all of it.",
        HalfOpen "half-open" "For 20 seconds the link is open and nothing goes through, either way.",
    }
}

impl FaultKind {
    /// After how long it happens again, of those that happen at instants; none: once.
    pub(crate) const fn again(self) -> Option<Duration> {
        Some(Duration::from_secs(match self {
            Self::Brownout => 4,
            Self::FlakyLink => 8,
            Self::Stalls => 20,
            Self::NoDataSpell => 60,
            Self::EchoReturns | Self::FormReturns | Self::ForeignLines => 120,
            Self::ResetInReply | Self::BannerUnasked | Self::ChipError | Self::Cranking | Self::ActAlert => {
                300
            }
            Self::LpAlert => 600,
            _ => return None,
        }))
    }

    /// Whether it changes what the fluid sensor shows.
    pub const fn is_of_sensor(self) -> bool {
        matches!(self, Self::SensorFrozen | Self::SensorDefault | Self::SensorStep)
    }
}

/// A fault and from when on it is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fault {
    /// What is wrong.
    pub kind: FaultKind,
    /// From when on.
    pub from: Mono,
    /// For how long; none: to the end.
    pub lasts: Option<Duration>,
    /// Only once the fluid is warmer than this, tenths of °C; none: whatever it is.
    pub above_tenths: Option<i32>,
}

/// Why a text names no fault.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum FaultError {
    /// The name is not known.
    #[error("`{}` is no fault; {}", .0.text(), .0.known())]
    Unknown(UnknownWord),
    /// The part after `@` is no number of seconds.
    #[error("`{text}` after @ is no number of seconds from the start, 0 to 100000")]
    Time {
        /// What stands there.
        text: String,
    },
}

impl Fault {
    /// The fault `kind` from second `from_s` on, for as long as its kind lasts by itself.
    pub const fn new(kind: FaultKind, from_s: u64) -> Self {
        let lasts = match kind {
            FaultKind::AdapterUnplugged | FaultKind::Brownout => Some(Duration::from_secs(30)),
            FaultKind::IgnitionOff => Some(Duration::from_secs(120)),
            FaultKind::BusAsleep => Some(Duration::from_secs(60)),
            FaultKind::HalfOpen => Some(Duration::from_secs(20)),
            FaultKind::ReEnumerated => Some(Duration::from_secs(3)),
            _ => None,
        };
        Self { kind, from: Mono::from_secs(from_s), lasts, above_tenths: None }
    }

    /// The same, but only once the fluid is warmer than `celsius`.
    #[must_use]
    pub const fn above(mut self, celsius: f64) -> Self {
        self.above_tenths = Some((celsius * 10.0) as i32);
        self
    }

    /// Whether it is there at `now`; of a fault that waits for a temperature: whether it may be.
    pub fn holds(&self, now: Mono) -> bool {
        now >= self.from && self.lasts.is_none_or(|lasts| now < self.from.after(lasts))
    }

    /// What it does to the fluid sensor, where it is one of those.
    pub const fn of_sensor(&self) -> Option<SensorFault> {
        match self.kind {
            FaultKind::SensorFrozen => Some(SensorFault::Frozen),
            FaultKind::SensorDefault => Some(SensorFault::Default { celsius: MADE_UP_CELSIUS }),
            FaultKind::SensorStep => Some(SensorFault::Step { kelvins: STEP_K }),
            _ => None,
        }
    }
}

/// `NAME` or `NAME@SECONDS`.
impl FromStr for Fault {
    type Err = FaultError;

    fn from_str(text: &str) -> Result<Self, FaultError> {
        let (name, from) = text.split_once('@').map_or((text, None), |(name, from)| (name, Some(from)));
        let from_s = match from.map(str::parse::<u64>) {
            None => DEFAULT_START_S,
            Some(Ok(seconds)) if seconds <= 100_000 => seconds,
            Some(_) => return Err(FaultError::Time { text: from.unwrap_or("").to_owned() }),
        };
        let kind = name.parse::<FaultKind>().map_err(FaultError::Unknown)?;
        Ok(Self::new(kind, from_s))
    }
}

/// What a fault does to the fluid sensor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SensorFault {
    /// It keeps its value.
    Frozen,
    /// The control unit reports a made-up value.
    Default {
        /// Which, °C.
        celsius: f64,
    },
    /// It is shifted.
    Step {
        /// By how much, K.
        kelvins: f64,
    },
    /// The control unit reports the coolant in its place.
    Copy {
        /// Plus so much, K.
        kelvins: f64,
        /// Its whole degrees, as the coolant itself is told.
        whole: bool,
    },
    /// It follows more slowly.
    Sluggish {
        /// By so much more lag, s.
        seconds: f64,
    },
}

/// A made-up value seen in print, and the step of one that jumps, K.
/// Source: fixtures/reference/physics/substitute_temperatures.csv, row 4; the step is an own choice: more than one
/// band's half.
const MADE_UP_CELSIUS: f64 = 60.0;
const STEP_K: f64 = 8.0;
/// When a fault begins where no start is given.
/// Own choice: set-up and search are over by then.
const DEFAULT_START_S: u64 = 60;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fault_is_read_by_name_and_start() {
        assert_eq!("sensor-frozen@600".parse(), Ok(Fault::new(FaultKind::SensorFrozen, 600)));
        assert_eq!("no-data".parse(), Ok(Fault::new(FaultKind::NoData, DEFAULT_START_S)));
        let unknown = "sensor-frosted".parse::<Fault>().unwrap_err().to_string();
        assert!(unknown.starts_with("`sensor-frosted` is no fault; known: sensor-frozen, "), "{unknown}");
        assert_eq!("no-data@soon".parse::<Fault>(), Err(FaultError::Time { text: "soon".to_owned() }));
    }

    #[test]
    fn an_unplugged_adapter_comes_back_by_itself() {
        let fault = Fault::new(FaultKind::AdapterUnplugged, 100);
        let held: Vec<bool> = [99, 100, 129, 130].iter().map(|s| fault.holds(Mono::from_secs(*s))).collect();
        assert_eq!(held, [false, true, true, false]);
    }
}
