//! Two witnesses of the fluid's temperature: one that never hears the signal itself, one that hears all.
//!
//! In: every reading. Out: what coolant, air, start and thermometer say of the fluid without the signal (to find a
//! signal that cannot be right), and what all together say of the time ahead. A witness may take a `go` away; it never gives one.
//! Not here: the filter (`filter.rs`), the signal's own budget (`estimate/budget.rs`), the verdict (`gate.rs`).

use events::{FluidEstimate, Narrowing, Narrows, Signal};
use units::{Celsius, Kelvins, Mono};

use crate::estimate::Known;
use crate::nodes::ahead::Ahead;
use crate::nodes::filter::{Cooler, Look, Running};
use crate::nodes::readings::Witness;

/// Both witnesses of one gate.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Witnesses {
    signal: Signal,
    /// Hears all but the signal.
    apart: Witness,
    /// Hears all.
    all: Witness,
    /// The signal was contradicted while the others knew the fluid well, and nobody has measured since: that they know it less and
    /// less as the vehicle warms settles nothing.
    contradicted: bool,
    /// They are not asked.
    #[cfg(feature = "taken-out")]
    out: bool,
}

impl Witnesses {
    pub(crate) fn new(signal: Signal, cooler: Cooler) -> Self {
        Self {
            signal,
            apart: Witness::new(cooler),
            all: Witness::new(cooler),
            contradicted: false,
            #[cfg(feature = "taken-out")]
            out: false,
        }
    }

    #[cfg(feature = "taken-out")]
    pub(crate) const fn take_out(&mut self) {
        self.out = true;
    }

    /// Something that both hear.
    pub(crate) fn both(&mut self, mut tell: impl FnMut(&mut Witness)) {
        tell(&mut self.apart);
        tell(&mut self.all);
    }

    /// What the engine does.
    pub(crate) fn engine(&mut self, at: Mono, running: Running) {
        self.both(|witness| witness.engine(at, running));
    }

    /// A typed reading of the fluid.
    pub(crate) fn spot(&mut self, at: Mono, known: Known) {
        let (t, u) = (known.celsius.to_f64(), known.u.to_f64());
        self.all.spot(at, t, u);
        if !self.signal.is_typed() {
            self.apart.spot(at, t, u);
            self.contradicted = false;
        }
    }

    /// The identifier turned to `value`, known to `u`.
    pub(crate) fn identifier(&mut self, at: Mono, value: f64, u: f64) {
        self.all.identifier(at, value, u);
    }

    /// Brings both up to `at`, in steps worth the arithmetic.
    pub(crate) fn keep_up(&mut self, at: Mono) {
        self.both(|witness| witness.keep_up(at));
    }

    /// Whether the signal lies so far from what the others say that one of them must be wrong.
    pub(crate) fn contradict(&mut self, known: Known) -> bool {
        #[cfg(feature = "taken-out")]
        if self.out {
            return false;
        }
        if self.signal == Signal::Coolant || !self.apart.speaks() {
            return false;
        }
        let fluid = self.apart.fluid();
        let apart = (known.celsius.to_f64() - fluid.mean).abs();
        let joint = fluid.u.hypot(known.u.to_f64());
        let far = apart > CONTRADICTS * joint + SLACK_K;
        self.contradicted |= fluid.u < KNOWS_WELL_K && apart > SURELY * joint;
        far || self.contradicted
    }

    /// How long until the identifier turns to `target`.
    pub(crate) fn until(&self, target: f64) -> Option<Ahead> {
        self.all.until(target)
    }

    /// What is known of the fluid where the check is gated on coolant, and which one reading would narrow it most.
    pub(crate) fn fluid(&self) -> Option<FluidEstimate> {
        let said = (self.signal == Signal::Coolant && self.all.speaks()).then(|| self.all.fluid())?;
        let narrows = CANDIDATES
            .iter()
            .map(|&(reading, u)| (reading, self.all.u_after(looks_at(reading), u)))
            .min_by(|one, other| one.1.total_cmp(&other.1))
            .filter(|(_, u)| *u < WORTHWHILE * said.u)
            .and_then(|(reading, u)| Some(Narrows { reading, u: up(u)? }));
        Some(FluidEstimate { celsius: Celsius::from_f64(said.mean)?, u: up(said.u)?, narrows })
    }
}

fn looks_at(reading: Narrowing) -> Look {
    match reading {
        Narrowing::SpotOnTape => Look::fluid(),
        Narrowing::AirUnderVehicle => Look::air(),
    }
}

/// Rounded up to the stored step.
fn up(u: f64) -> Option<Kelvins> {
    Kelvins::from_f64((u * f64::from(Kelvins::PER_UNIT)).ceil() / f64::from(Kelvins::PER_UNIT))
}

/// Readings that a person can still take, with how well they are known, K.
/// Source: a spot reading on tape: docs/gate.md, "Typed readings"; the air under the vehicle by a common thermometer:
/// from memory.
const CANDIDATES: [(Narrowing, f64); 2] = [(Narrowing::SpotOnTape, 1.2), (Narrowing::AirUnderVehicle, 1.0)];
/// A reading is worth naming when it leaves no more than this share.
/// Own choice: who crawls below for less than a tenth is told too often.
const WORTHWHILE: f64 = 0.9;
/// So many standard uncertainties apart, and a little, is no chance any more.
/// Own choice: once in two thousand by a normal error; the model's own tails are longer, which the kelvin takes up.
const CONTRADICTS: f64 = 3.5;
const SLACK_K: f64 = 1.0;
/// The others know the fluid well when it is to this, K; then so many standard uncertainties are enough.
/// Own choice: before a cold start, or by a reading on the sump, no model stands between.
const KNOWS_WELL_K: f64 = 1.9;
const SURELY: f64 = 3.0;
