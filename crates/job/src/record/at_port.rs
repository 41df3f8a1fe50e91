//! What was seen at the check port: the last opening, how many there were, what ran, and what spoils it.
//!
//! In: what was told of the port, with what it is judged by. Out: whether the level is set, low, or only a gush came. Not here: one
//! opening by itself (`round.rs`), the looks of the sheet (`looks.rs`).

use events::{Ends, LookOpen, Request, Verdict};
use units::Mono;

use super::Record;
use crate::port::looks::Height;
use crate::port::moment::Moment;
use crate::port::round::{Ran, Round, Stream};
use crate::port::run_out;
use crate::told::act::Act;
use crate::told::ledger::{Entry, Kind};

/// See the module's words.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct AtPort {
    /// The last opening of the port, and how many there were.
    pub(crate) round: Option<Round>,
    pub(crate) rounds: u32,
    pub(crate) ran: Streamed,
    /// Whether the engine stopped at any time with the port open and fluid flowing.
    pub(crate) stopped_open: bool,
    /// Fluid was told flowing before the verdict was `go`: it is missing, whatever came later.
    pub(crate) opened_early: bool,
    /// Since the last `go`: the fluid was above the band; the temperature could not be trusted.
    pub(crate) too_hot: bool,
    pub(crate) doubted: bool,
}

/// When more than a first gush ran last, in an opening before this one: each row holds for those above it too.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(crate) enum Streamed {
    #[default]
    Never,
    /// And it was filled since.
    BeforeTheFill,
    /// Since the last fill, and the engine stopped since: what drained back comes as a gush again.
    BeforeTheStop,
    Since,
}

impl Streamed {
    /// And neither a fill nor a stop came since.
    pub(crate) fn is_since(self) -> bool {
        self == Self::Since
    }

    /// Whatever the engine did meanwhile.
    pub(crate) fn is_since_the_fill(self) -> bool {
        self >= Self::BeforeTheStop
    }

    /// In this job.
    pub(crate) fn is_ever(self) -> bool {
        self > Self::Never
    }

    pub(crate) fn ends_with_the_engine(&mut self) {
        *self = (*self).min(Self::BeforeTheStop);
    }

    pub(crate) fn ends_with_the_fill(&mut self) {
        *self = (*self).min(Self::BeforeTheFill);
    }
}

/// What was done to the plugs since the last look.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) enum Plugs {
    #[default]
    Loose,
    Torqued,
    /// And the test drive is over.
    Driven,
}

impl Plugs {
    pub(crate) const fn are_torqued(self) -> bool {
        !matches!(self, Self::Loose)
    }

    pub(crate) const fn are_driven(self) -> bool {
        matches!(self, Self::Driven)
    }
}

impl Record {
    /// Only the first gush came out of the closed port where a stream was expected: it thinned too soon, or the jug holds less
    /// than half of what was expected and it ran for less than half of the time.
    pub(crate) fn only_a_gush(&self) -> bool {
        let thinned = |r: &&Round| !r.is_open() && r.trickle.is_some() && r.gauge.is_none();
        let Some(round) = self.port.round.as_ref().filter(thinned) else {
            return false;
        };
        if round.gush {
            return true;
        }
        if !self.has(Kind::RanOut) {
            return false;
        }
        let jug = self.ledger.iter().filter(|e| e.kind == Kind::RanOut && e.after_rounds == self.port.rounds);
        let (count, caught) = jug.fold((0, 0.0), |(n, sum), e| (n + 1, sum + e.amount.to_f64()));
        // No more than stands in the pipe and on the plug: however long it took.
        if count > 0 && self.expects_a_stream() && self.has_a_gush() && caught <= self.sheet.gush_ml() {
            return true;
        }
        let short_run =
            round.ran_s.zip(round.expected_s).is_some_and(|(ran, want)| f64::from(ran) < want / 2.0);
        count > 0 && self.expects_a_stream() && short_run && caught < self.expected_ml() / 2.0
    }

    /// Fluid ran out at the closed port, and nobody has said how much.
    pub(crate) fn jug_due(&self) -> bool {
        let told = |e: &Entry| {
            matches!(e.kind, Kind::RanOut | Kind::Spilled(events::Way::RanOut))
                && e.after_rounds == self.port.rounds
        };
        let ran = |r: &Round| matches!(r.stream, Stream::Flows | Stream::Poured);
        let closed = self.port.rounds > 0 && !self.port_open();
        closed && self.port.round.as_ref().is_none_or(ran) && !self.ledger.iter().any(told)
    }

    pub(crate) fn port_open(&self) -> bool {
        self.port.round.as_ref().is_some_and(Round::is_open)
    }

    /// Whether it is open if the engine ran on while adapter or daemon were away.
    pub(crate) fn unproven(&self) -> bool {
        self.port.round.as_ref().is_some_and(|r| r.ran == Ran::Unproven)
    }

    /// Nothing ran out at `go`, the port is closed again, and no more was filled yet.
    pub(crate) fn needs_more(&self) -> bool {
        (self.stays_dry() || self.only_a_gush()) && !self.refilled()
    }

    /// Nothing ran out at the last look, inside the band, and the port is closed again.
    pub(crate) fn stays_dry(&self) -> bool {
        self.port.round.as_ref().is_some_and(|r| !r.is_open() && r.nothing_at_go())
    }

    /// The last round set the level and nothing was filled or drained since.
    pub(crate) fn is_set(&self) -> bool {
        if self.amount_only() {
            return self.amounts_right();
        }
        self.is_last_look()
            && !self.looks.again
            && self.port.round.as_ref().is_some_and(Round::is_good)
            && !self.refilled()
            && !self.contradicted()
    }

    /// What was counted, or how long it ran, contradicts the trickle.
    pub(crate) fn contradicted(&self) -> bool {
        self.only_a_gush() || self.ran_out_too_much()
    }

    /// A stream was told to be a trickle, or drips, or the fluid to stand as it should.
    pub(super) fn thinned(&mut self, moment: Moment, now: Mono) {
        let expected =
            (self.expects_a_stream() || self.hands.was_low) && !self.port.ran.is_since() && self.has_a_gush();
        if let Some(round) = self.port.round.as_mut().filter(|r| r.is_open() && r.trickle.is_none()) {
            round.thinned(moment, now, expected && round.stream == Stream::Flows);
            round.rest = self.port.ran.is_since() && !round.outlasted_a_gush();
            self.act(Act::Trickled);
        }
    }

    /// Dry, and the first drips: what was looked for. Else they are the first that is seen of this opening.
    pub(super) fn first_drips(&mut self, moment: Moment, now: Mono) {
        let dry = self.port.round.as_ref().is_some_and(|r| r.is_open() && r.stream == Stream::Dry);
        match &mut self.port.round {
            Some(round) if dry => round.stream = Stream::Flows,
            _ => self.looked(Stream::Flows, moment, now),
        }
        self.thinned(moment, now);
    }

    /// Where the fluid stands in the open hole was told.
    pub(super) fn edge_seen(&mut self, request: &Request, moment: Moment, now: Mono) {
        match self.height(request) {
            Some(Height::Right) => {
                self.looked(Stream::Stands, moment, now);
                if let Some(round) = &mut self.port.round {
                    round.below_edge_mm = match request {
                        Request::BelowEdge { millimetres } => Some(millimetres.to_f64()),
                        _ => Some(0.0),
                    };
                }
                self.thinned(moment, now);
            }
            Some(Height::Low) => self.looked(Stream::Nothing, moment, now),
            Some(Height::High) => self.looked(Stream::Flows, moment, now),
            None => {}
        }
    }

    /// How long what is too much by the amounts should run, s; `None` where nothing is expected to.
    fn expected_s(&self) -> Option<f64> {
        run_out::needs(&self.sheet, self.expects_a_stream().then(|| self.expected_ml())?, 0.0)
    }

    /// When the stream of the open port will have outlasted what was to be expected, while that may come to be.
    pub(crate) fn endless_due(&self) -> Option<Mono> {
        let round = self.port.round.as_ref().filter(|r| r.is_open() && r.trickle.is_none())?;
        run_out::endless_at(round)
    }

    /// What the look before this one has shown, before it is forgotten.
    pub(crate) fn looks_anew(&mut self) {
        self.hands.was_low |=
            self.port.round.as_ref().is_some_and(|r| !r.is_open() && (r.nothing_at_go() || r.gush));
        self.hands.dry_after_ml = self.dry_after().map(|ml| ml.steps()).max(self.hands.dry_after_ml);
    }

    pub(super) fn looked(&mut self, stream: Stream, moment: Moment, now: Mono) {
        self.looks_anew();
        self.looks.again = false;
        let look = self.look().clone();
        let may = look.open == LookOpen::AtLowEdge;
        self.port.opened_early |= stream == Stream::Flows && moment.judged.verdict == Verdict::Wait && !may;
        match &mut self.port.round {
            Some(round) if round.is_open() => {
                round.look_again(stream, moment, now);
                self.trail.acts.retain(|a| *a != Act::Trickled);
            }
            round => {
                *round = Some(Round::opened(stream, moment, now, &self.sheet, &look));
                self.port.rounds = self.port.rounds.saturating_add(1);
            }
        }
        let expected_s = self.expected_s();
        if let Some(round) = &mut self.port.round {
            round.expected_s = expected_s;
        }
        self.judge_heat();
        self.plugs = Plugs::Loose;
        self.trail.acts.retain(|a| !matches!(a, Act::Torqued | Act::TestDriven));
    }

    pub(super) fn closed(&mut self, moment: Moment, now: Mono) {
        // What ran at rest was no excess at idle.
        if self.look().idles() && self.port.round.as_ref().is_some_and(|r| r.ran_on(now)) {
            self.port.ran = Streamed::Since;
        }
        if let Some(round) = self.port.round.as_mut().filter(|r| r.is_open()) {
            round.closed = Some(moment);
            self.typed.closed(now);
        }
        self.said.stops.retain(|stop| stop.outlasts(Ends::PortClosed));
        self.judge_heat();
        self.trail.acts.retain(|a| *a != Act::Trickled);
    }

    /// A port that was opened or closed too hot spoils the round, whatever is told later.
    pub(crate) fn judge_heat(&mut self) {
        if let Some(round) = &mut self.port.round {
            round.judge_heat();
        }
    }
}
