//! Trouble timed to the band: a sensor fault, a stop or a fill that strikes while it matters.
//!
//! In: dice and a band. Out: one [`Timed`] trouble, and what it does to the sensor at each instant. Faults that
//! strike at any time of an hour seldom strike while the fluid is near the band; these always do.
//! Not here: the rehearsal around it (`troubles.rs`), faults of adapter and line (`fault.rs`), what the sensor makes of it (`sensors.rs`).
//! The ranges are chosen: none of them is a measurement.

use events::Signal;
use units::{Mono, words};

use crate::dice::Dice;
use crate::fault::SensorFault;

words! {
    /// What goes wrong.
    Trouble {
        Frozen "frozen" "The sensor keeps its value from near the band on.",
        FrozenBefore "frozen-before" "It has stuck in the band since before the start.",
        StuckAndFree "stuck-and-free" "It sticks for one to six minutes and comes free.",
        MadeUp "made-up" "The unit makes up a value and stores no code.",
        Copy "copy" "The unit reports the coolant's whole degrees, plus 0, 5 or 10 K.",
        Shift "shift" "It jumps by 3 to 10 K near the band and stays shifted.",
        ShiftBefore "shift-before" "It has been 6 to 12 K off since before the start.",
        Stop "stop" "The engine is stopped for up to four minutes near the band's upper edge.",
        Fill "fill" "Too little was filled; cold fluid goes in at the band, engine running.",
        CopyFiner "copy-finer" "A copy of the coolant that is counted otherwise than the coolant is.",
        ShiftLittle "shift-little" "It has been 2 to 6 K off since before the start.",
        Drift "drift" "It drifts away by 0.2 to 2 K a minute.",
        Sluggish "sluggish" "Its lag grows by 10 to 60 s a minute.",
    }
}

impl Trouble {
    /// Whether the gate is made to see it, so that its claims must hold. The others look like a fluid that warms faster or
    /// slower than usual; docs/rehearsal.md says what they come to.
    pub const fn is_seen(self) -> bool {
        !matches!(self, Self::CopyFiner | Self::ShiftLittle | Self::Drift | Self::Sluggish)
    }
}

/// One trouble, and when it strikes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Timed {
    /// What it is.
    pub trouble: Trouble,
    /// When it strikes.
    pub strikes: Strikes,
    /// For how long, s; none: to the end.
    pub lasts_s: Option<f64>,
    /// How much: °C, K, K/min or s/min, as the trouble has it.
    pub size: f64,
    /// When it struck.
    since: Option<Mono>,
}

/// Which troubles are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Drawn {
    /// All.
    All,
    /// Those that the gate is made to see.
    Seen,
}

/// When a trouble strikes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Strikes {
    /// After so many seconds.
    After(f64),
    /// Once the fluid is warmer than this, °C.
    Above(f64),
}

impl Timed {
    /// What acts on the fluid sensor at `now`, the fluid being this warm.
    pub(crate) fn of_sensor(&mut self, now: Mono, fluid_celsius: f64) -> Option<SensorFault> {
        let strikes = match self.strikes {
            Strikes::After(seconds) => now.since(Mono::ZERO).as_secs_f64() >= seconds,
            Strikes::Above(celsius) => fluid_celsius >= celsius,
        };
        if self.since.is_none() && strikes {
            self.since = Some(now);
        }
        let passed_s = now.since(self.since?).as_secs_f64();
        if self.lasts_s.is_some_and(|lasts| passed_s >= lasts) {
            return None;
        }
        Some(match self.trouble {
            Trouble::Frozen | Trouble::StuckAndFree => SensorFault::Frozen,
            Trouble::FrozenBefore | Trouble::MadeUp => SensorFault::Default { celsius: self.size },
            Trouble::Copy => SensorFault::Copy { kelvins: self.size, whole: true },
            Trouble::CopyFiner => SensorFault::Copy { kelvins: self.size, whole: false },
            Trouble::Shift | Trouble::ShiftBefore | Trouble::ShiftLittle => {
                SensorFault::Step { kelvins: self.size }
            }
            Trouble::Drift => {
                let kelvins = (self.size * passed_s / 60.0).clamp(-MOST_DRIFT_K, MOST_DRIFT_K);
                SensorFault::Step { kelvins }
            }
            Trouble::Sluggish => SensorFault::Sluggish { seconds: self.size * passed_s / 60.0 },
            Trouble::Stop | Trouble::Fill => return None,
        })
    }

    /// One of a band, drawn.
    pub(crate) fn draw(dice: &mut Dice, [low, high]: [f64; 2], drawn: Drawn) -> Self {
        let all = Trouble::ALL.iter().filter(|trouble| drawn == Drawn::All || trouble.is_seen());
        let all: Vec<Trouble> = all.copied().collect();
        let trouble = dice.pick(&all).copied().unwrap_or(Trouble::Frozen);
        let near = dice.between(low - 6.0, high);
        let early = dice.between(low - 15.0, high);
        let sign = if dice.chance(0.5) { 1.0 } else { -1.0 };
        let now = Strikes::After(0.0);
        let (strikes, lasts_s, size) = match trouble {
            Trouble::Frozen => (Strikes::Above(near), None, 0.0),
            Trouble::FrozenBefore => (now, None, dice.between(low + 1.0, high - 1.0)),
            Trouble::StuckAndFree => (Strikes::Above(near), Some(dice.between(60.0, 360.0)), 0.0),
            Trouble::MadeUp => (Strikes::Above(early), None, dice.between(low, high)),
            Trouble::Copy | Trouble::CopyFiner => {
                let from = if dice.chance(0.7) { 0.0 } else { dice.between(0.0, 900.0) };
                let plus = dice.pick(&[0.0, 5.0, 10.0]).copied().unwrap_or_default();
                (Strikes::After(from), None, plus)
            }
            Trouble::Shift => (Strikes::Above(early), None, sign * dice.between(3.0, 10.0)),
            Trouble::ShiftBefore => (now, None, sign * dice.between(6.0, 12.0)),
            Trouble::ShiftLittle => (now, None, sign * dice.between(2.0, 6.0)),
            Trouble::Drift => (Strikes::Above(early), None, sign * dice.between(0.2, 2.0)),
            Trouble::Sluggish => (Strikes::Above(early), None, dice.between(10.0, 60.0)),
            Trouble::Stop => {
                let seconds =
                    if dice.chance(0.8) { dice.between(20.0, 115.0) } else { dice.between(115.0, 240.0) };
                (Strikes::Above(dice.between(high - 3.0, high + 1.0)), Some(seconds), 0.0)
            }
            Trouble::Fill => (now, None, 0.0),
        };
        Self { trouble, strikes, lasts_s, size, since: None }
    }
}

/// The one inside stops the engine once, and starts it again.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stop {
    /// Once the fluid is warmer than this, °C.
    pub above: f64,
    /// For how long, s.
    pub seconds: f64,
}

/// Whether a sheet is gated by what a trouble acts on.
pub(crate) fn can_strike(signal: Signal) -> bool {
    signal == Signal::Fluid
}

/// No sensor drifts farther, K.
/// Own choice: farther it is seen by anybody.
const MOST_DRIFT_K: f64 = 15.0;
