//! All parts of the gate at one instant, to look at and not to change.
//!
//! In: the parts as they stand, the time. Out: the estimate, whether it is stale, how long it lasts, when time alone changes
//! something. Not here: what changes the parts (`gate.rs`), forecasts (`forecast`).

use core::time::Duration;

use events::{Signal, Verdict};
use units::Mono;

use crate::estimate::{Known, budget};
use crate::evidence::Evidence;
use crate::nodes::Witnesses;
use crate::vehicle::air::Air;
use crate::vehicle::drive::Drive;
use crate::vehicle::mixing::Mixing;
use crate::verdict::{Place, Standing};

/// The parts, and the instant they are looked at.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Picture<'a> {
    pub(crate) evidence: &'a Evidence,
    pub(crate) mixing: &'a Mixing,
    pub(crate) drive: &'a Drive,
    pub(crate) air: &'a Air,
    pub(crate) standing: &'a Standing,
    pub(crate) witnesses: &'a Witnesses,
    pub(crate) now: Mono,
}

impl Picture<'_> {
    /// The same parts at another instant.
    fn at(self, now: Mono) -> Self {
        Self { now, ..self }
    }

    /// The temperature now; `None` where there is no evidence worth one.
    pub(crate) fn estimate(&self) -> Option<Known> {
        let (evidence, now) = (self.evidence, self.now);
        let forget_after = evidence.forget_after();
        evidence.newest_at().filter(|&at| now.since(at) <= forget_after)?;
        match evidence.signal() {
            Signal::Spot | Signal::Display => return evidence.spots().estimate(now, self.air.celsius()),
            Signal::Lamp => return evidence.lamp_seen().estimate(self.standing.band().edges()),
            Signal::Fluid | Signal::Coolant => {}
        }
        let track = evidence.track();
        let plain = budget::from_track(track, now, 0.0)?;
        // Above the band, standing still is what hot fluid does, and the verdict is the same.
        if self.standing.place_of(plain) == Place::Above {
            return Some(plain);
        }
        budget::from_track(track, now, track.behind(now))
    }

    /// The estimate, where nothing makes it worthless.
    pub(crate) fn sound(&self) -> Option<Known> {
        if !self.evidence.void(self.now).is_empty() || self.stale() {
            return None;
        }
        self.estimate()
    }

    /// Whether the newest reading is too old to be evidence.
    pub(crate) fn stale(&self) -> bool {
        let too_old = |at: Mono| self.now.since(at) > self.stale_after();
        self.evidence.is_from_before_the_mixing() || self.evidence.newest_at().is_some_and(too_old)
    }

    fn stale_after(&self) -> Duration {
        match self.evidence.signal() {
            Signal::Fluid | Signal::Coolant => self.evidence.limits().stale_after,
            // Where nothing but people tells anything, readings come as seldom as they must.
            Signal::Spot | Signal::Display if self.mixing.by_people() => {
                let (low, high) = self.standing.band().edges();
                self.evidence.spots().holds_for(self.now, high - low)
            }
            Signal::Spot | Signal::Display | Signal::Lamp => self.evidence.typed_limits().stale_after,
        }
    }

    /// Where the lamp puts the fluid; `None` for any other signal's word.
    pub(crate) fn by_lamp(&self) -> Option<Place> {
        self.evidence.lamp_seen().shows().map(Place::by_lamp)
    }

    /// The lamp says right, and a thermometer that was read lately says clearly otherwise: it is lit for another reason.
    pub(crate) fn other_lamp(&self) -> bool {
        let (spots, now) = (self.evidence.spots(), self.now);
        let stale_after = self.evidence.typed_limits().stale_after;
        let fresh = spots.newest_at().is_some_and(|at| now.since(at) <= stale_after);
        let counts = self.evidence.signal() == Signal::Lamp && fresh && !spots.all_from_before_the_mixing();
        let (low, high) = self.standing.band().edges();
        let clear_of_it = spots.estimate(now, self.air.celsius()).filter(|_| counts).map(|known| {
            let clear = known.u.to_f64() * 2.0;
            (known.celsius.to_f64() + clear < low) || (known.celsius.to_f64() - clear > high)
        });
        clear_of_it == Some(true) && self.by_lamp() == Some(Place::In)
    }

    /// How long `go` goes on without another typed reading: until the last one is too old, or what is not known of the fluid
    /// since then reaches an edge of the band. In seconds; `None` for a signal that the vehicle sends.
    pub(crate) fn read_again_in(&self) -> Option<f64> {
        let signal = self.evidence.signal();
        if !signal.is_typed() {
            return None;
        }
        let still = |then: Self| {
            let inside = |known| signal == Signal::Lamp || self.standing.place_of(known) == Place::In;
            then.estimate().is_some_and(|known| !then.stale() && inside(known))
        };
        let longest = self.evidence.typed_limits().forget_after;
        let mut span = Duration::ZERO;
        while span < longest && still(self.at(self.now.after(span + TYPED_STEP))) {
            span += TYPED_STEP;
        }
        Some(span.as_secs_f64())
    }

    /// When the verdict may change by time alone.
    pub(crate) fn changes_at(&self, verdict: Verdict) -> Option<Mono> {
        let now = self.now;
        let stale = self.evidence.newest_at().map(|at| at.after(self.stale_after() + MOMENT));
        // An open gate is looked at again soon: its uncertainty grows while it stays open.
        let open = (verdict == Verdict::Go).then(|| now.after(LOOK_AGAIN));
        let settled = self.evidence.track().settled_at();
        let candidates = [stale, open, self.standing.opens_at(), self.mixing.mixed_at(), settled];
        candidates.into_iter().flatten().filter(|&at| at > now).min()
    }
}

/// Just past an instant.
/// By definition: the step of our clock.
const MOMENT: Duration = Duration::from_millis(1);
/// The end of a typed reading is looked for in such steps.
/// Own choice: people read a countdown in seconds; finer only costs time.
const TYPED_STEP: Duration = Duration::from_secs(1);
/// An open gate is judged again at least this often.
/// Own choice: an edge is passed by 0.03 K in that time, next to nothing of the guard.
const LOOK_AGAIN: Duration = Duration::from_secs(1);
