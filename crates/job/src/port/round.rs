//! One opening of the check port, from open to closed, and whether it set the level.
//!
//! In: what was told and what each was judged by. Out: what was wrong with it. Not here: how far off the level is
//! (`level.rs`), what the whole job came to (`outcome.rs`).
//!
//! A round is good only if fluid was told flowing, told a trickle, and the port told closed, each while the verdict
//! was `go` and every precondition held, and the fluid was never too hot while it was open. There is no grace: the
//! record cannot tell a late hand from a late word.
//!
//! An engine that stops with the port open lets the converter drain back: litres run out, and the last drops after
//! the next start look like a trickle. So flowing must be told again at `go` after a stop. Where the engine was not
//! seen for a while, the vehicle's own run time proves that it ran on; without proof the round does not count.

use core::time::Duration;

use events::{Look, LookOpen, Precondition, Sheet, Shortfall, Verdict};
use units::{Celsius, Mono};

use crate::port::gauge::Gauge;
use crate::port::moment::Moment;
use crate::told::held::Held;

/// What came out of the opened port.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Stream {
    Flows,
    Nothing,
    /// Nothing yet, and drips are waited for.
    Dry,
    /// It stands at the edge as it should.
    Stands,
    /// Something was put in through the open port, and nobody has looked since.
    Poured,
    /// A gauge that was not read twice alike yet.
    Unread,
}

/// When the fluid became too hot with the port open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum TooHot {
    BeforeTrickle,
    AfterTrickle,
}

/// Whether the engine ran all the time that the port was open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Ran {
    On,
    /// Nobody saw it for a while, and no run time was read since.
    Unproven,
    Stopped,
}

/// One opening of the check port.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Round {
    pub(crate) stream: Stream,
    /// When the stream, or its absence, was told last.
    pub(crate) looked: Moment,
    pub(crate) trickle: Option<Moment>,
    pub(crate) closed: Option<Moment>,
    pub(crate) too_hot: Option<TooHot>,
    pub(crate) link_lost: bool,
    pub(crate) ran: Ran,
    /// When it was told to flow first, on the clock of this boot.
    pub(crate) since: Option<Mono>,
    /// How long it flowed until it was a trickle, in whole seconds.
    pub(crate) ran_s: Option<u32>,
    /// It was called a trickle before a first gush is over, where a stream was expected.
    pub(crate) gush: bool,
    /// It was what was left of a stream that was closed for a moment.
    pub(crate) rest: bool,
    /// How long what is too much by the amounts should run, in seconds, as it was opened.
    pub(crate) expected_s: Option<f64>,
    /// How far below the edge it stands, where that was told, in mm.
    pub(crate) below_edge_mm: Option<f64>,
    /// The readings of a gauge, where the look is one: nothing is opened then.
    pub(crate) gauge: Option<Gauge>,
    /// It was opened with the engine at rest.
    engine_off: bool,
    /// The look's own engine state is to idle.
    idles: bool,
    /// The port may be opened from this temperature on, and is watched until the sign.
    from_low_edge: Option<Celsius>,
    /// Of the band: what stays dry beyond it until it is closed is low.
    middle: Celsius,
}

impl Round {
    pub(crate) fn opened(stream: Stream, looked: Moment, now: Mono, sheet: &Sheet, look: &Look) -> Self {
        let engine_off = looked.open.contains(Precondition::EngineRunning);
        Self {
            stream,
            looked,
            trickle: None,
            closed: None,
            too_hot: None,
            link_lost: false,
            ran: Ran::On,
            since: Some(now),
            ran_s: None,
            gush: false,
            rest: false,
            expected_s: None,
            below_edge_mm: None,
            gauge: None,
            engine_off,
            idles: look.idles(),
            from_low_edge: (look.open == LookOpen::AtLowEdge).then(|| sheet.check.low()),
            middle: sheet.check.middle(),
        }
    }

    /// The stream, or its absence, is told again. Told again after a gush it has flowed all the time.
    pub(crate) fn look_again(&mut self, stream: Stream, looked: Moment, now: Mono) {
        if !self.gush || stream != Stream::Flows {
            self.since = Some(now);
        }
        (self.stream, self.looked, self.trickle) = (stream, looked, None);
        (self.link_lost, self.ran, self.gush, self.ran_s) = (false, Ran::On, false, None);
        self.rest = false;
    }

    /// Something was put in through the open port.
    pub(crate) fn poured(&mut self) {
        (self.stream, self.trickle, self.below_edge_mm) = (Stream::Poured, None, None);
        (self.gush, self.ran_s) = (false, None);
    }

    /// Opened as its look allows: at `go`, or from the low edge on and watched since.
    pub(crate) fn opened_well(&self) -> bool {
        let warm = self.from_low_edge.zip(self.looked.judged.celsius).is_some_and(|(low, t)| t >= low);
        self.looked.is_go()
            || (warm && self.looked.judged.verdict == Verdict::Wait && self.looked.open.is_empty())
    }

    /// It was told to be a trickle, or drips.
    pub(crate) fn thinned(&mut self, moment: Moment, now: Mono, expected: bool) {
        self.trickle = Some(moment);
        let ran = self.since.map(|since| now.since(since));
        self.ran_s = ran.and_then(|ran| u32::try_from(ran.as_secs()).ok());
        self.gush = expected && ran.is_some_and(|ran| ran < GUSH);
    }

    /// It has flowed for less than a first gush lasts.
    pub(crate) fn may_be_a_gush(&self, now: Mono) -> bool {
        self.stream == Stream::Flows && self.since.is_some_and(|since| now.since(since) < GUSH)
    }

    /// It has flowed at the right moment for longer than a first gush lasts.
    pub(crate) fn ran_on(&self, now: Mono) -> bool {
        self.flowed_at_go() && self.since.is_some_and(|since| now.since(since) >= GUSH)
    }

    /// It is known to have flowed for longer than a first gush lasts before it was a trickle.
    pub(crate) fn outlasted_a_gush(&self) -> bool {
        self.ran_s.is_some_and(|ran| u64::from(ran) >= GUSH.as_secs())
    }

    /// What runs out is more than the excess: the converter drains back.
    pub(crate) fn lost_fluid(&self) -> bool {
        self.engine_off || self.ran == Ran::Stopped
    }

    /// The clock starts again.
    pub(crate) fn boot(&mut self) {
        self.since = None;
        self.lose_link();
    }

    /// Adapter or daemon went away.
    pub(crate) fn lose_link(&mut self) {
        self.link_lost |= self.is_open();
        self.lose_sight();
    }

    /// The engine is not seen running any more; whether it stopped is another question.
    pub(crate) fn lose_sight(&mut self) {
        if let Some(gauge) = &mut self.gauge {
            gauge.lose_sight();
        }
        if self.idles && self.is_open() && self.ran == Ran::On {
            self.ran = Ran::Unproven;
        }
    }

    /// The engine came in a look that asks it to be off: what ran, or stood, says nothing any more.
    pub(crate) fn engine_came(&mut self) {
        if self.is_open() && !self.idles {
            self.ran = Ran::Stopped;
        }
    }

    pub(crate) const fn is_open(&self) -> bool {
        self.closed.is_none()
    }

    /// Whether fluid was told flowing while the verdict was `go`, and the engine did not stop since.
    pub(crate) fn flowed_at_go(&self) -> bool {
        let shows = matches!(self.stream, Stream::Flows | Stream::Stands);
        shows && self.opened_well() && self.ran != Ran::Stopped
    }

    /// Whether nothing was told to flow while the verdict was `go`: it is low.
    pub(crate) fn nothing_at_go(&self) -> bool {
        match self.stream {
            Stream::Nothing => self.looked.is_go(),
            // Dry up to the high edge, or so near to it that it had to be closed.
            Stream::Dry => self.opened_well() && (self.too_hot.is_some() || self.closed_high()),
            _ => false,
        }
    }

    fn closed_high(&self) -> bool {
        let high =
            |m: &Moment| m.judged.verdict != Verdict::Go && m.judged.celsius.is_some_and(|t| t > self.middle);
        self.closed.as_ref().is_some_and(high)
    }

    /// Whether it set the level.
    pub(crate) fn is_good(&self) -> bool {
        self.closed.is_some() && self.faults().is_empty()
    }

    /// The verdict became `too-hot`: it counts while the port is open.
    pub(crate) fn heat(&mut self) {
        if self.is_open() {
            self.spoil();
        }
    }

    /// Was it too hot by what the opening and the closing themselves were judged by?
    pub(crate) fn judge_heat(&mut self) {
        if self.gauge.is_some() {
            // Nothing ran out meanwhile.
            return;
        }
        let moments = [Some(&self.looked), self.closed.as_ref()];
        if moments.into_iter().flatten().any(|m| m.judged.verdict == Verdict::TooHot) {
            self.spoil();
        }
    }

    fn spoil(&mut self) {
        let when = if self.trickle.is_none() { TooHot::BeforeTrickle } else { TooHot::AfterTrickle };
        self.too_hot.get_or_insert(when);
    }

    /// What was wrong, most telling first; empty for a good round.
    pub(crate) fn faults(&self) -> Vec<Shortfall> {
        if self.gauge.is_some() {
            return match self.stream {
                Stream::Stands => Vec::new(),
                Stream::Nothing => vec![Shortfall::GaugeLow],
                Stream::Flows => vec![Shortfall::GaugeHigh],
                _ if self.open().is_empty() => vec![Shortfall::NotReadTwice],
                _ => vec![Shortfall::NotReadTwice, Shortfall::PreconditionOpen],
            };
        }
        let mut faults = match (self.looked.judged.verdict, self.stream) {
            (_, Stream::Dry) if self.nothing_at_go() => vec![Shortfall::NothingRanOut],
            (Verdict::Wait, Stream::Flows | Stream::Dry) if self.opened_well() => self.faults_after_opening(),
            (Verdict::Wait, _) => vec![Shortfall::OpenedBeforeGo],
            // Heat was noted when it was opened; it is named below.
            (Verdict::TooHot, _) => Vec::new(),
            (Verdict::Go, Stream::Nothing) => vec![Shortfall::NothingRanOut],
            (Verdict::Go, _) => self.faults_after_opening(),
        };
        faults.extend(self.too_hot.map(|when| match when {
            TooHot::BeforeTrickle => Shortfall::TooHotBeforeTrickle,
            TooHot::AfterTrickle => Shortfall::ClosedLate,
        }));
        let unseen = self.ran == Ran::Unproven && self.stream == Stream::Flows;
        if unseen || (self.idles && self.link_lost && faults.iter().any(|f| UNSEEN.contains(f))) {
            faults.push(Shortfall::LinkLostWhileOpen);
        }
        if !self.open().is_empty() {
            faults.push(Shortfall::PreconditionOpen);
        }
        faults
    }

    /// It flowed at `go`: what was wrong with trickle and closing. Heat is named on its own.
    fn faults_after_opening(&self) -> Vec<Shortfall> {
        let at_go = |m: &Option<Moment>| m.as_ref().map(|m| m.judged.verdict == Verdict::Go);
        let mut faults = Vec::new();
        if self.too_hot.is_none() {
            if at_go(&self.trickle) != Some(true) {
                faults.push(Shortfall::NoTrickle);
            }
            let left_open = self.closed.is_none() && self.trickle.is_some();
            if left_open || at_go(&self.closed) == Some(false) {
                faults.push(Shortfall::ClosedOutsideGo);
            }
        }
        faults
    }

    /// The preconditions that did not hold at one of its moments, in their order.
    pub(crate) fn open(&self) -> Held {
        let moments = [Some(&self.looked), self.trickle.as_ref(), self.closed.as_ref()];
        let mut open = moments.into_iter().flatten().fold(Held::default(), |all, m| all.and(m.open));
        if self.ran == Ran::Stopped && matches!(self.stream, Stream::Flows | Stream::Stands) {
            open.insert(if self.idles { Precondition::EngineRunning } else { Precondition::EngineOff });
        }
        open
    }
}

/// The faults that a lost adapter explains.
const UNSEEN: [Shortfall; 2] = [Shortfall::NoTrickle, Shortfall::ClosedOutsideGo];
/// What flows after this is a stream, no first gush any more.
/// Own choice: a gush of 5 to 60 mL (by geometry) is over in some seconds; longer takes a short stream for one.
const GUSH: Duration = Duration::from_secs(15);
