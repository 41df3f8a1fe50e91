//! What was read of the signal, and what speaks against believing it.
//!
//! In: readings, fault codes, losses of the link, what the engine does. Out: the newest reading's time, what makes the evidence
//! worthless, what else speaks against `go`. Whatever is unknown speaks against it.
//! Not here: the parts it joins (`signal`, `estimate`), the estimate at one instant (`picture.rs`), the verdict (`verdict`).

mod codes;

use core::time::Duration;

use events::{LampState, Reason, Signal, Surface};
use units::{Kelvins, Mono};

use crate::estimate::Known;
use crate::estimate::lamp::LampSeen;
use crate::estimate::thermometer::Spots;
use crate::limits::{Limits, SpotLimits};
use crate::signal::copies::Copying;
use crate::signal::track::{Proof, Track};
use crate::vehicle::mixing::Change;
use crate::verdict::ReasonSet;
use codes::Codes;

/// All that was read of the signal.
#[derive(Debug, Clone)]
pub(crate) struct Evidence {
    signal: Signal,
    track: Track,
    copying: Copying,
    spots: Spots,
    lamp: LampSeen,
    codes: Codes,
    /// When the link was lost, until a reading of the signal comes that is younger.
    lost: Option<Mono>,
    /// The newest reading of the signal was no temperature that can be.
    implausible: bool,
    /// Control units contradict each other about the signal.
    disputed: bool,
}

/// What came of a reading of the signal.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum News {
    /// Nothing: it is of something else, or older than what is known.
    Nothing,
    /// One more reading.
    Reading,
    /// The display turned with it.
    Turn,
}

impl Evidence {
    /// `step`: the smallest step of the signal, K, where the sheet names one.
    pub(crate) fn new(signal: Signal, step: Option<Kelvins>) -> Self {
        let (limits, typed) = (Limits::of(signal), SpotLimits::TYPED);
        let step = step.and_then(usable_step);
        Self {
            signal,
            track: Track::new(limits, step.unwrap_or(limits.step_c)),
            copying: Copying::new(limits.step_c),
            spots: Spots::new(typed, step.unwrap_or(typed.step_c)),
            lamp: LampSeen::default(),
            codes: Codes::default(),
            lost: None,
            implausible: false,
            disputed: false,
        }
    }

    #[cfg(feature = "taken-out")]
    pub(crate) fn take_out(&mut self, limits: Limits) {
        self.track = Track::new(limits, self.track.step());
    }

    #[cfg(feature = "taken-out")]
    pub(crate) const fn take_out_copies(&mut self) {
        self.copying.take_out();
    }

    /// The fluid's identifier.
    pub(crate) fn fluid(&mut self, value: f64, step: Option<f64>, at: Mono) -> News {
        self.copying.fluid(at, value, step);
        if self.signal != Signal::Fluid {
            return News::Nothing;
        }
        let proof = if self.copying.in_step() { Proof::CountsNothing } else { Proof::Counts };
        self.take(value, step, at, proof)
    }

    /// The coolant's.
    pub(crate) fn coolant(&mut self, value: f64, step: Option<f64>, at: Mono) -> News {
        self.copying.coolant(at, value, step);
        if self.signal != Signal::Coolant {
            return News::Nothing;
        }
        self.take(value, step, at, Proof::Counts)
    }

    /// A typed reading. Gives what is known of the fluid by it; `air`: the air under the vehicle, °C.
    pub(crate) fn spot(
        &mut self,
        value: f64,
        surface: Surface,
        step: Option<f64>,
        at: Mono,
        air: Option<f64>,
    ) -> Option<Known> {
        self.implausible = self.signal.is_typed() && !self.plausible(value);
        if self.implausible {
            return None;
        }
        self.spots.take(at, value, surface, step);
        self.spots.estimate(at, air).filter(|_| surface != Surface::BareMetal)
    }

    /// A number on the vehicle's display.
    pub(crate) fn display(&mut self, value: f64, step: Option<f64>, at: Mono) {
        self.implausible = self.signal == Signal::Display && !self.plausible(value);
        if !self.implausible {
            self.spots.take_display(at, value, step);
        }
    }

    /// The vehicle's own lamp.
    pub(crate) fn lamp(&mut self, state: LampState, at: Mono) {
        self.lamp.take(at, state);
    }

    /// A reading of the signal. One from before the newest, or from before the link was lost, is no news.
    fn take(&mut self, value: f64, step: Option<f64>, at: Mono, proof: Proof) -> News {
        if self.newest_at().is_some_and(|newest| at < newest) || self.lost.is_some_and(|lost| at < lost) {
            return News::Nothing;
        }
        self.lost = None;
        if let Some(step) = step {
            self.track.set_step(step);
        }
        self.implausible = !self.plausible(value);
        if self.implausible {
            self.track.take_stray(at, None);
            return News::Reading;
        }
        let before = self.track.newest_turn();
        self.track.take(at, value, proof);
        if self.track.newest_turn() == before { News::Reading } else { News::Turn }
    }

    /// What the engine does, as far as it changes what was read before.
    pub(crate) fn engine(&mut self, change: Change, at: Mono) {
        if let Some(engine) = change.turned {
            self.track.turn(at, engine);
        }
        if change.mixes {
            self.mixes_anew(at);
        }
    }

    /// The engine idles at `rpm`; `None` while the vehicle is driven.
    pub(crate) fn idles(&mut self, at: Mono, rpm: Option<f64>) {
        match rpm {
            Some(rpm) => self.track.idles(at, rpm),
            None => self.track.idles_no_more(),
        }
    }

    /// The fluid mixes anew: what a person read before says nothing of it since.
    pub(crate) const fn mixes_anew(&mut self, at: Mono) {
        self.spots.mixed_anew(at);
    }

    /// Fluid was filled in and has mixed at `mixed`.
    pub(crate) const fn filled(&mut self, now: Mono, mixed: Mono) {
        self.track.poured(mixed);
        self.mixes_anew(now);
    }

    pub(crate) fn code_stored(&mut self, code: &str) {
        self.codes.stored(code, self.signal);
    }

    pub(crate) fn codes_cleared(&mut self) {
        self.codes = Codes::default();
    }

    /// The link is lost. False where the signal does not come over it.
    pub(crate) const fn link_lost(&mut self, now: Mono) -> bool {
        let comes_over_it = !self.signal.is_typed();
        if comes_over_it {
            self.lost = Some(now);
        }
        comes_over_it
    }

    pub(crate) const fn disputed(&mut self, disputed: bool) {
        self.disputed = disputed;
    }

    /// From now on the signal comes from another source.
    pub(crate) const fn source_changed(&mut self) {
        self.track = Track::new(*self.track.limits(), self.track.step());
        self.implausible = false;
    }

    /// What makes the evidence worthless: with any of these there is no estimate.
    pub(crate) fn void(&self, now: Mono) -> ReasonSet {
        let mut reasons = ReasonSet::default();
        reasons.add_if(self.newest_at().is_none() && !self.implausible, Reason::NoReading);
        reasons.add_if(self.disputed, Reason::UnitsDisagree);
        reasons.add_if(self.lost.is_some(), Reason::LinkLost);
        reasons.add_if(self.implausible, Reason::Implausible);
        reasons.add_if(self.codes.sensor(), Reason::SensorCode);
        if !self.signal.is_typed() {
            reasons.add_if(self.track.unsettled(now), Reason::SteppedAway);
        }
        reasons.add_if(self.signal == Signal::Fluid && self.copying.copies(), Reason::CopiesCoolant);
        reasons
    }

    /// What speaks against `go` although there may be an estimate.
    pub(crate) fn doubts(&self, now: Mono, reasons: &mut ReasonSet) {
        reasons.add_if(self.codes.overheat(), Reason::OverheatCode);
        match self.signal {
            Signal::Fluid => {
                reasons.add_if(!self.track.proven() || self.copying.suspect(), Reason::NotAlive);
            }
            Signal::Coolant => reasons.add_if(!self.track.proven(), Reason::NotAlive),
            Signal::Lamp => {
                reasons.add_if(self.lamp.newest_at().is_some() && !self.lamp.proven(), Reason::NotAlive);
            }
            Signal::Spot | Signal::Display => {
                let few =
                    self.spots.newest_at().is_some() && self.spots.count(now) < self.typed_limits().readings;
                reasons.add_if(few, Reason::TooUncertain);
            }
        }
    }

    pub(crate) const fn signal(&self) -> Signal {
        self.signal
    }

    pub(crate) const fn limits(&self) -> &Limits {
        self.track.limits()
    }

    pub(crate) const fn typed_limits(&self) -> &SpotLimits {
        self.spots.limits()
    }

    pub(crate) fn plausible(&self, celsius: f64) -> bool {
        self.limits().plausible(celsius)
    }

    pub(crate) const fn track(&self) -> &Track {
        &self.track
    }

    pub(crate) const fn spots(&self) -> &Spots {
        &self.spots
    }

    pub(crate) const fn lamp_seen(&self) -> &LampSeen {
        &self.lamp
    }

    /// When the newest reading of the signal was taken.
    pub(crate) fn newest_at(&self) -> Option<Mono> {
        match self.signal {
            Signal::Fluid | Signal::Coolant => self.track.last().map(|last| last.at),
            Signal::Spot | Signal::Display => self.spots.newest_at(),
            Signal::Lamp => self.lamp.newest_at(),
        }
    }

    /// How long all must be well before `go`.
    pub(crate) fn hold_for(&self) -> Duration {
        if self.signal.is_typed() { self.typed_limits().hold_for } else { self.track.hold_for() }
    }

    /// Older than this, a reading is not even the base of an estimate.
    pub(crate) const fn forget_after(&self) -> Duration {
        match self.signal {
            Signal::Fluid | Signal::Coolant => self.limits().forget_after,
            Signal::Spot | Signal::Display | Signal::Lamp => self.typed_limits().forget_after,
        }
    }

    /// Whether all that a person read is from before the fluid was last set mixing.
    pub(crate) fn is_from_before_the_mixing(&self) -> bool {
        match self.signal {
            Signal::Spot | Signal::Display => self.spots.all_from_before_the_mixing(),
            Signal::Lamp => self.spots.is_before_the_mixing(self.lamp.newest_at()),
            Signal::Fluid | Signal::Coolant => false,
        }
    }

    /// Whether the signal stands still although the world must have gone on.
    pub(crate) fn frozen(&self, now: Mono) -> bool {
        !self.signal.is_typed() && self.track.frozen(now)
    }
}

/// The step of a reading or a sheet, K, where it is one.
pub(crate) fn usable_step(step: Kelvins) -> Option<f64> {
    (step > Kelvins::ZERO).then(|| step.to_f64())
}
