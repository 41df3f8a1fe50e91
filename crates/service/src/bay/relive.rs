//! What an earlier daemon read in the job that still runs, given to the gate as it was read then: proof, slope and witnesses are
//! there again in seconds.
//!
//! In: facts and readings of the journal. Out: a gate that knows them. How long ago they were is known by the machine's own clock
//! alone: civil time may have been set meanwhile, and after another start of the machine nothing of them is used. From the last
//! of them to now nobody saw the vehicle, which the gate holds against it as it does after any loss of the link
//! (docs/gate.md, "After a pause"). Not here: which events those are (`journal/restore.rs`).

use std::collections::BTreeSet;

use events::{Body, EngineWord, Event, LinkChange, Precondition, Reading, Request, Uptime};
use units::Mono;

use super::{Bay, Moment};
use crate::clock::Machine;

/// In what is relived the gate never opens: this stands against it.
const OPEN: [Precondition; 1] = [Precondition::EngineRunning];

impl Bay {
    /// Gives the gate what was read before `now`, or tells it that nothing is known of it.
    pub(super) fn relive(&mut self, facts: &[Event], readings: &[Event], now: Moment) {
        if self.relived(facts, readings, now).is_none() {
            self.gate.begins_amid(now.mono);
        }
    }

    fn relived(&mut self, facts: &[Event], readings: &[Event], now: Moment) -> Option<()> {
        let machine = self.machine.clone()?;
        let anchors: Vec<(&Event, Option<&Uptime>)> = facts.iter().filter_map(anchor).collect();
        // An event was on the clock that was told last before it; where that daemon told none, nobody knows when.
        let when = |event: &Event| {
            let (fact, then) = anchors.iter().rev().find(|(fact, _)| fact.seq <= event.seq)?;
            Some(place(&machine, fact.mono_ms, (*then)?, event.mono_ms)?.min(now.mono))
        };
        let mut past: Vec<(&Event, Mono)> =
            readings.iter().filter_map(|event| Some((event, when(event)?))).collect();
        past.retain(|(_, at)| *at > Mono::ZERO);
        if past.is_empty() {
            return None;
        }
        // What is older than the clock reaches was before everything else.
        past.extend(facts.iter().filter_map(|fact| Some((fact, when(fact)?))));
        past.sort_by_key(|(event, _)| event.seq);
        let mut vehicles = BTreeSet::new();
        let mut last = None;
        for (event, at) in past {
            match &event.body {
                Body::Reading(reading) => {
                    self.gate.observe(reading, at);
                    if reading.measure.quantity() == self.plan.signal() {
                        self.gave = Some(reading.from.clone());
                        let _ = self.gate.judge(at, &OPEN);
                    }
                }
                Body::Told(told) => match told.request {
                    Request::Filled { .. } => self.gate.fluid_added(at),
                    Request::Engine { what, .. } => self.gate.engine_told(what == EngineWord::Idling, at),
                    _ => {}
                },
                Body::Link(LinkChange::Lost { .. } | LinkChange::VehicleSilent { .. })
                | Body::Boot { .. } => {
                    self.gate.link_lost(at);
                }
                Body::Link(LinkChange::Source { name, .. }) if *name == self.plan.signal() => {
                    self.gate.source_changed();
                }
                Body::Link(LinkChange::Vehicle { vin }) => {
                    vehicles.insert(vin.clone());
                    if vehicles.len() > 1 {
                        self.gate.source_changed();
                        self.gate.link_lost(at);
                    }
                }
                _ => {}
            }
            last = Some(at);
        }
        // Nobody has seen the vehicle since.
        self.gate.link_lost(last?);
        Some(())
    }

    /// A reading of the signal after a restart: where another unit gives it than before, nothing of before proves it.
    pub(super) fn read_again(&mut self, reading: &Reading) {
        if reading.measure.quantity() != self.plan.signal() {
            return;
        }
        if self.gave.take().is_some_and(|gave| gave != reading.from) {
            self.gate.source_changed();
        }
    }
}

/// An event that tells the machine's clock, or could.
const fn anchor(event: &Event) -> Option<(&Event, Option<&Uptime>)> {
    match &event.body {
        Body::Boot { uptime, .. } | Body::Job { uptime, .. } => Some((event, uptime.as_ref())),
        _ => None,
    }
}

/// When an event at `mono` of an earlier daemon was, on this daemon's clock, if that daemon's clock read `known` when the machine's
/// read `then`. Zero: before this one reaches back.
fn place(machine: &Machine, known: Mono, then: &Uptime, mono: Mono) -> Option<Mono> {
    let after_ms = mono.as_millis().checked_sub(known.as_millis())?;
    let at = machine.when(then)?.checked_add_unsigned(after_ms)?;
    Some(Mono::from_millis(u64::try_from(at).unwrap_or(0)))
}
