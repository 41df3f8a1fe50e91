//! Adapter firmwares as data: what each calls itself, what it refuses, what it does against the rules.
//!
//! In: a name. Out: [`Firmware`]. To add one: one file in `firmware/`, one line in [`ALL`]; it appears in `car list`.
//! Not here: the commands themselves (`dialect.rs`). Source: adapter reference, dialect sections 1, 12, 15.

mod copy_15;
mod original_21;
mod other_family;

pub use copy_15::COPY_15;
pub use original_21::ORIGINAL_21;
pub use other_family::OTHER_FAMILY;

/// One firmware.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Firmware {
    /// Its name here.
    pub name: &'static str,
    /// What is special about it, in a sentence.
    pub says: &'static str,
    /// What it calls itself.
    pub identity: &'static str,
    /// What it says to `AT@1`.
    pub device: &'static str,
    /// What it says to `STI`; none: `?`.
    pub family: Option<&'static str>,
    /// Commands after `AT` that it does not know: each refuses everything that begins with it.
    pub refuses: &'static [&'static str],
    /// What it does against the rules.
    pub habits: &'static [Habit],
    /// How long it is silent after `ATZ`, ms.
    pub reset_ms: u64,
}

/// What a firmware does against the rules.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Habit {
    /// `ATE0` says `OK`, the echo stays.
    EchoStays,
    /// `ATS0` says `OK`, the spaces stay.
    SpacesStay,
    /// One CR before the prompt in place of two.
    SingleCr,
    /// The bytes that fill a CAN frame are shown too.
    PaddingShown,
    /// A count digit is refused with `?`.
    NoDigit,
    /// `7F .. 78` ends the waiting as any other answer does.
    PendingEnds,
}

impl Firmware {
    /// The firmware of that name.
    pub fn named(name: &str) -> Option<&'static Self> {
        ALL.iter().find(|firmware| firmware.name == name).copied()
    }

    /// Whether it has that habit.
    pub fn has(&self, habit: Habit) -> bool {
        self.habits.contains(&habit)
    }
}

/// All of them, the plain one first.
pub const ALL: &[&Firmware] = &[&ORIGINAL_21, &COPY_15, &OTHER_FAMILY];
