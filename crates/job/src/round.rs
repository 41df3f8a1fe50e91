//! One opening of the check port, from open to closed, and whether it set the level.
//!
//! In: what was told and what each was judged by. Out: what was wrong with it. Not here: how far off the level is
//! (`level.rs`), what the whole job came to (`outcome.rs`).
//!
//! A round is good only if fluid was told flowing, told a trickle, and the port told closed, each while the verdict
//! was `go` and every precondition held, and the fluid was never too hot while it was open. There is no grace: the
//! record cannot tell a late hand from a late word. An adapter lost in between spoils the round only where the
//! verdict was not `go` again at the trickle and at closing, because the last of the stream is what sets the level.

use events::{Judged, Precondition, Shortfall, Verdict};

/// What was known at one moment.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Moment {
    pub(crate) judged: Judged,
    pub(crate) open: Vec<Precondition>,
}

impl Moment {
    /// `go`, and nothing open.
    pub(crate) fn is_go(&self) -> bool {
        self.judged.verdict == Verdict::Go && self.open.is_empty()
    }
}

/// What came out of the opened port.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Stream {
    Flows,
    Nothing,
}

/// When the fluid became too hot with the port open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum TooHot {
    BeforeTrickle,
    AfterTrickle,
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
}

impl Round {
    pub(crate) const fn opened(stream: Stream, looked: Moment) -> Self {
        Self { stream, looked, trickle: None, closed: None, too_hot: None, link_lost: false }
    }

    pub(crate) const fn is_open(&self) -> bool {
        self.closed.is_none()
    }

    /// Whether fluid was told flowing while the verdict was `go`.
    pub(crate) fn flowed_at_go(&self) -> bool {
        self.stream == Stream::Flows && self.looked.is_go()
    }

    /// Whether nothing was told to flow while the verdict was `go`: it is low.
    pub(crate) fn nothing_at_go(&self) -> bool {
        self.stream == Stream::Nothing && self.looked.is_go()
    }

    /// Whether it set the level.
    pub(crate) fn is_good(&self) -> bool {
        self.closed.is_some() && self.faults().is_empty()
    }

    /// The fluid is too hot while the port is open.
    pub(crate) fn heat(&mut self) {
        if self.is_open() && self.too_hot.is_none() {
            self.too_hot =
                Some(if self.trickle.is_none() { TooHot::BeforeTrickle } else { TooHot::AfterTrickle });
        }
    }

    /// What was wrong, most telling first; empty for a good round.
    pub(crate) fn faults(&self) -> Vec<Shortfall> {
        let mut faults = Vec::new();
        let hot_from_the_start = self.looked.judged.verdict == Verdict::TooHot;
        if self.nothing_at_go() {
            faults.push(Shortfall::NothingRanOut);
        } else if self.looked.judged.verdict == Verdict::Wait {
            faults.push(Shortfall::OpenedBeforeGo);
        }
        match (self.too_hot, &self.trickle) {
            (Some(TooHot::AfterTrickle), _) => faults.push(Shortfall::ClosedLate),
            (Some(TooHot::BeforeTrickle), _) => faults.push(Shortfall::TooHotBeforeTrickle),
            (None, _) if hot_from_the_start => faults.push(Shortfall::TooHotBeforeTrickle),
            (None, None) if self.stream == Stream::Flows => faults.push(Shortfall::NoTrickle),
            (None, _) => {}
        }
        let spoilt = |m: &Option<Moment>| m.as_ref().is_some_and(|m| m.judged.verdict != Verdict::Go);
        let closed_late = self.too_hot == Some(TooHot::AfterTrickle);
        let never_closed = self.closed.is_none() && self.trickle.is_some();
        if self.stream == Stream::Flows && !closed_late && (spoilt(&self.closed) || never_closed) {
            let too_hot = self.closed.as_ref().is_some_and(|m| m.judged.verdict == Verdict::TooHot);
            match (too_hot, &self.trickle) {
                (true, Some(_)) => faults.push(Shortfall::ClosedLate),
                (true, None) => {}
                (false, _) => faults.push(Shortfall::ClosedOutsideGo),
            }
        }
        if spoilt(&self.trickle) && !faults.contains(&Shortfall::NoTrickle) {
            faults.push(Shortfall::NoTrickle);
        }
        if self.link_lost && (spoilt(&self.trickle) || spoilt(&self.closed) || self.trickle.is_none()) {
            faults.push(Shortfall::LinkLostWhileOpen);
        }
        if !self.open().is_empty() {
            faults.push(Shortfall::PreconditionOpen);
        }
        faults
    }

    /// The preconditions that did not hold at one of its moments, in their order.
    pub(crate) fn open(&self) -> Vec<Precondition> {
        let moments = [Some(&self.looked), self.trickle.as_ref(), self.closed.as_ref()];
        let mut open: Vec<Precondition> =
            moments.into_iter().flatten().flat_map(|m| m.open.iter().copied()).collect();
        open.sort_unstable();
        open.dedup();
        open
    }
}
