//! What a told thing changes in the record: one arm for each request.
//!
//! In: a request that was accepted. Out: nothing; the record is changed. Not here: whether it is accepted (`decide.rs`), what it changes for
//! the hands (`hands.rs`), how it is taken back (`undo.rs`).

use std::sync::Arc;

use events::{Judged, LampState, Precondition, Request, Sort, Surface, Told, Utc};
use units::{Celsius, Millilitres, Mono};

use super::{Ending, Plugs, Record};
use crate::port::moment::Moment;
use crate::port::round::{Round, Stream};
use crate::told::act::{Act, step_of};
use crate::told::ledger::{Entry, Flow, Kind, part_ml};
use crate::told::stand::Stand;

impl Record {
    /// Carries out a request that was accepted. `judged` is what the port's steps are judged by until their own
    /// event says so.
    pub(crate) fn told(&mut self, told: &Told, judged: Judged, (now, at): (Mono, Utc)) {
        let request = &told.request;
        self.hands_told(request, told.by, now);
        let vacant = self.trail.vacant.take();
        if leaves_the_amounts(request.sort()) {
            self.trail.vacant = vacant;
        }
        if request.sort() == Sort::Remarks {
            self.words.told(now);
        }
        if let Some(step) = step_of(request) {
            self.trail.undone.remove(step);
        }
        let moment = Moment { judged, open: self.open_as_said() };
        match request {
            Request::Start { .. }
            | Request::NoDrive
            | Request::FluidWrong
            | Request::Alarm { .. }
            | Request::Sheet { .. }
            | Request::Recheck { .. }
            | Request::Engine { .. }
            | Request::Candidate { .. }
            | Request::Particular { .. }
            | Request::Photo { .. }
            | Request::Note { .. } => {}
            Request::Leak { .. }
            | Request::LeakAt { .. }
            | Request::Symptom { .. }
            | Request::FluidLooks { .. } => self.answered(request),
            Request::Spot { surface: Surface::Air, .. } => {}
            Request::Spot { celsius, .. } | Request::Display { celsius } => {
                self.typed.read(self.in_band(*celsius), now);
            }
            Request::Lamp { shows } => self.typed.read(*shows == LampState::Right, now),
            Request::Air { celsius } => self.in_air(*celsius),
            Request::Vehicle { text } => self.which.vehicle = Some(text.as_str().into()),
            Request::Confirm { what } => self.confirms(*what),
            Request::Level { pitch_degrees, roll_degrees } => {
                self.stands(Stand::by_inclination(*pitch_degrees, *roll_degrees));
            }
            Request::Corners { .. } => {
                if let Some(Ok(stand)) = Stand::of_corners(&self.sheet, request) {
                    self.stands(stand);
                }
            }
            Request::Drained { millilitres, celsius } => self.drains(*millilitres, *celsius, vacant),
            Request::Filled { millilitres, celsius } => self.fills(*millilitres, *celsius, vacant),
            Request::RanOut { millilitres, celsius } => {
                self.measured(Kind::RanOut, *millilitres, *celsius, vacant);
            }
            Request::Spilled { millilitres, of } => {
                self.entered(Kind::Spilled(*of), *millilitres, None, vacant, false);
            }
            Request::TakenOut { part, millilitres, celsius } => {
                let amount = millilitres.or_else(|| part_ml(&self.sheet, *part).map(Millilitres::clamped));
                if let Some(amount) = amount {
                    let measured = millilitres.is_some();
                    self.entered(Kind::TakenOut(*part), amount, *celsius, vacant, measured);
                }
            }
            Request::Kept { millilitres } => self.measured(Kind::Kept, *millilitres, None, vacant),
            Request::Shifted { .. } => {
                self.take_back(Precondition::InPosition);
                self.selector.told.told(now);
                self.act(Act::Shifted);
            }
            Request::Flowing if self.is_a_wave() => {}
            Request::Flowing => self.looked(Stream::Flows, moment, now),
            Request::NothingFlows => self.looked(self.nothing_is(), moment, now),
            Request::Drips if self.drips_come_first() => self.first_drips(moment, now),
            Request::Trickle | Request::Drips => self.thinned(moment, now),
            Request::AtEdge | Request::BelowEdge { .. } => self.edge_seen(request, moment, now),
            Request::Gauge { millimetres } => self.gauge_read(*millimetres, moment, now),
            Request::Closed => self.closed(moment, now),
            Request::Torqued => {
                self.plugs = Plugs::Torqued;
                self.act(Act::Torqued);
            }
            Request::TestDriven => {
                self.drove();
                self.plugs = Plugs::Driven;
                self.act(Act::TestDriven);
            }
            Request::Undo => self.undo(),
            Request::Done => self.ending = Some((at, Ending::Done)),
            Request::Abort { .. } => self.ending = Some((at, Ending::Aborted)),
        }
    }

    /// The air outside was told: the sheet's other band may count from here on.
    fn in_air(&mut self, air: Celsius) {
        if let Some(sheet) = self.for_air(air) {
            let before = std::mem::replace(&mut self.sheet, Arc::new(sheet));
            self.first_band.get_or_insert(before);
        }
    }

    fn confirms(&mut self, what: Precondition) {
        if self.confirmed.insert(what) {
            self.act(Act::Confirmed(what));
        }
    }

    fn drains(&mut self, amount: Millilitres, celsius: Option<Celsius>, vacant: Option<(Kind, u32)>) {
        self.take_back(Precondition::InPosition);
        if self.filled() && self.port.round.is_none() {
            // Another round: what circulated has gone, and the next fill must circulate too.
            self.motion.circulated = false;
            self.cycle_anew();
        }
        self.measured(Kind::Drained, amount, celsius, vacant);
        // What was too much and was let out again is no drain.
        if self.awaits_fill() {
            self.looks.drained();
        }
    }

    fn fills(&mut self, amount: Millilitres, celsius: Option<Celsius>, vacant: Option<(Kind, u32)>) {
        self.looks.filled(amount.to_f64());
        self.measured(Kind::Filled, amount, celsius, vacant);
        self.port.ran.ends_with_the_fill();
        self.typed.forget();
        self.motion.mixed = self.said.holds.contains(Precondition::EngineRunning);
        let short = self.look().idles() || self.is_last_look();
        if let Some(round) = self.port.round.as_mut().filter(|r| r.is_open()) {
            round.poured();
            // To the edge it is filled because it was drained.
            self.hands.was_low |= short;
            self.trail.acts.retain(|a| *a != Act::Trickled);
        }
    }

    pub(super) fn measured(
        &mut self,
        kind: Kind,
        amount: Millilitres,
        celsius: Option<Celsius>,
        vacant: Option<(Kind, u32)>,
    ) {
        self.entered(kind, amount, celsius, vacant, true);
    }

    pub(super) fn entered(
        &mut self,
        kind: Kind,
        amount: Millilitres,
        celsius: Option<Celsius>,
        vacant: Option<(Kind, u32)>,
        measured: bool,
    ) {
        let after_rounds = vacant.filter(|(of, _)| *of == kind).map_or(self.port.rounds, |(_, after)| after);
        if kind.changes_the_level() && self.is_set() {
            self.level_was_right();
        }
        // With the engine off, or stopped meanwhile, more runs out than the excess.
        let lost = kind.flow() == Flow::Over && self.port.round.as_ref().is_some_and(Round::lost_fluid);
        let in_look = kind == Kind::Filled && self.port_open();
        let mixed = self.motion.mixed;
        self.ledger.push(Entry { kind, amount, celsius, measured, after_rounds, mixed, lost, in_look });
        self.act(Act::Measured);
    }

    pub(super) fn stands(&mut self, stand: Stand) {
        self.act(Act::Levelled(self.level));
        // Another band or another signal leaves it as level as it is.
        self.level = Some(stand.judged(&self.sheet));
    }

    pub(super) fn in_band(&self, celsius: Celsius) -> bool {
        let [low, high] = self.sheet.check.band_c;
        (low..=high).contains(&celsius.to_f64())
    }
}

/// Neither an amount nor an act of the hands: an amount that was taken back just before it can be told anew after it.
const fn leaves_the_amounts(sort: Sort) -> bool {
    match sort {
        Sort::Sets | Sort::Begins | Sort::Remarks | Sort::Reads | Sort::Warns => true,
        Sort::Works | Sort::Ends | Sort::TakesBack => false,
    }
}
