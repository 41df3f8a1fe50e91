//! The record of one job: what was told, what the vehicle showed, and what of it can be taken back.
//!
//! In: told things that were accepted. Out: facts about the job. Not here: whether a request is accepted
//! (`decide.rs`), steps (`steps.rs`), amounts at one temperature (`balance.rs`).

use core::time::Duration;
use std::sync::Arc;

use events::{
    Balance, Caution, Ends, JobResult, Judged, LampState, LookOpen, People, Precondition, Request, Selector,
    SelectorView, Sheet, Signal, Step, Surface, Task, Told, TopUp, Utc, Verdict,
};
use units::{Celsius, Millilitres, Mono};

use crate::asked::Asked;
use crate::hands::Hands;
use crate::held::{Held, Set};
use crate::ledger::{Entry, Flow, Kind, part_ml};
use crate::live::Live;
use crate::looks::{Height, Looks, Settled, wants_cold};
use crate::round::{Moment, Ran, Round, Stream};
use crate::run_out;
use crate::shift::{Seen, Shifts};
use crate::situation::Clear;
use crate::stand::Stand;
use crate::steps::Steps;
use crate::typed::Typed;
use crate::undo::{Act, step_of};
use crate::words::Words;

/// One job.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Record {
    pub(crate) number: u64,
    pub(crate) sheet: Arc<Sheet>,
    /// A wheel is among what the sheet has taken off to get there.
    pub(crate) wheel_off: bool,
    pub(crate) started: Utc,
    /// Confirmed by a person.
    pub(crate) confirmed: Held,
    /// A recheck: of which job. No fluid is changed then.
    pub(crate) recheck_of: Option<u64>,
    pub(crate) vehicle: Option<Arc<str>>,
    /// Its identification number as it told it first in this job.
    pub(crate) vin: Option<Arc<str>>,
    /// How it stands, measured.
    pub(crate) level: Option<Stand>,
    /// The selector's rounds, where they are told position by position.
    pub(crate) shifts: Shifts,
    /// The same by the readings of a control unit; whether these were seen to be complete, which is a fact.
    pub(crate) seen: Seen,
    pub(crate) seen_cycled: bool,
    /// Whether the engine ran since the last fill.
    pub(crate) mixed: bool,
    /// Whether the engine stopped at any time with the port open and fluid flowing.
    pub(crate) stopped_open: bool,
    pub(crate) ledger: Vec<Entry>,
    /// The last opening of the port, and how many there were.
    pub(crate) round: Option<Round>,
    pub(crate) rounds: u32,
    /// In an opening before this one, and since the last fill, more ran than a first gush.
    pub(crate) streamed: bool,
    /// The same since the last fill, whatever the engine did meanwhile; and ever since it was drained.
    pub(crate) ran_since_fill: bool,
    pub(crate) ran_ever: bool,
    /// The engine was started again, or may have been, after fluid had circulated and before the level was set.
    pub(crate) restarted: bool,
    /// The engine ran with fluid in and the selector was moved.
    pub(crate) circulated: bool,
    /// What the vehicle showed at the first engine start; absent while it has not shown it.
    pub(crate) cold: Option<bool>,
    pub(crate) torqued: bool,
    pub(crate) test_driven: bool,
    /// Since the last `go`: the fluid was above the band; the temperature could not be trusted.
    pub(crate) too_hot: bool,
    pub(crate) doubted: bool,
    /// Fluid was told flowing before the verdict was `go`: it is missing, whatever came later.
    pub(crate) opened_early: bool,
    /// Steps that were taken back and not done again.
    pub(crate) undone: Set<Step>,
    pub(crate) ending: Option<(Utc, Ending)>,
    pub(crate) result: Option<Arc<JobResult>>,
    pub(crate) said: Said,
    pub(crate) run: Run,
    /// Since when the engine is not seen running, on the clock of this boot.
    pub(crate) stopped: Option<Mono>,
    pub(crate) trail: Vec<Act>,
    /// The amount that was taken back by the request before this one, so that its correction takes its place.
    pub(crate) vacant: Option<(Kind, u32)>,
    /// Remarks, photos and names so far.
    pub(crate) words: Words,
    /// What people confirmed for the hands.
    pub(crate) hands: Hands,
    /// Readings that were typed in.
    pub(crate) typed: Typed,
    /// Which of the sheet's looks is in hand.
    pub(crate) looks: Looks,
    /// What was told of the vehicle's trouble.
    pub(crate) asked: Asked,
    /// The sheet with its first band, where the second one counts because somebody told the air.
    first_band: Option<Arc<Sheet>>,
}

/// How long the engine is known to have run without a stop.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Run {
    /// Seen running since, on the clock of this boot.
    pub(crate) since: Option<Mono>,
    /// And before this boot, in milliseconds.
    pub(crate) before_ms: u64,
}

impl Run {
    /// By `now`, if it did not stop meanwhile.
    pub(crate) fn at_least_ms(&self, now: Mono) -> u64 {
        let here = self.since.map_or(0, |since| now.as_millis().saturating_sub(since.as_millis()));
        self.before_ms.saturating_add(here)
    }
}

/// What has been announced already.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Said {
    pub(crate) steps: Steps,
    pub(crate) holds: Held,
    pub(crate) balance: Option<Balance>,
    /// Stop rules, until the engine stops or the port is closed.
    pub(crate) stops: Set<Caution>,
    /// So many positions of the selector's rounds.
    pub(crate) shifts: u32,
    /// How much to fill, until it is filled or the next look begins; after which opening it was said last.
    pub(crate) top_up: Option<TopUp>,
    pub(crate) top_up_after: Option<u32>,
}

/// How a job ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Ending {
    Done,
    Aborted,
}

impl Record {
    pub(crate) fn new(number: u64, sheet: &Sheet, started: Utc, recheck_of: Option<u64>) -> Self {
        Self {
            number,
            sheet: Arc::new(sheet.clone()),
            wheel_off: sheet.access.iter().any(|part| part.to_lowercase().contains("wheel")),
            started,
            confirmed: Held::default(),
            recheck_of,
            vehicle: None,
            vin: None,
            level: None,
            shifts: Shifts::default(),
            seen: Seen::default(),
            seen_cycled: false,
            mixed: true,
            stopped_open: false,
            ledger: Vec::new(),
            round: None,
            rounds: 0,
            streamed: false,
            ran_since_fill: false,
            ran_ever: false,
            restarted: false,
            circulated: false,
            cold: None,
            torqued: false,
            test_driven: false,
            too_hot: false,
            opened_early: false,
            doubted: false,
            undone: Set::default(),
            ending: None,
            result: None,
            said: Said::default(),
            run: Run::default(),
            stopped: None,
            trail: Vec::new(),
            vacant: None,
            words: Words::default(),
            hands: Hands::new(Task::Change, People::Two),
            typed: Typed::default(),
            looks: Looks::new(sheet),
            asked: Asked::default(),
            first_band: None,
        }
    }

    /// Whether the sheet asks for `precondition`.
    pub(crate) fn needs(&self, precondition: Precondition) -> bool {
        match precondition {
            Precondition::Dry => self.hands.wet,
            Precondition::PipeIn => self.look_asks().contains(precondition) && self.pipe_was_out(),
            _ => self.look_asks().contains(precondition),
        }
    }

    /// All that it asks for.
    pub(crate) fn needed(&self) -> Held {
        let mut needed = self.look_asks();
        if self.hands.wet {
            needed.insert(Precondition::Dry);
        }
        if !self.pipe_was_out() {
            needed.remove(Precondition::PipeIn);
        }
        needed
    }

    /// Where the pipe opens the sump: it was taken out, or is to be.
    fn pipe_was_out(&self) -> bool {
        self.changes() || self.has(Kind::Drained)
    }

    /// The engine must be started cold, for this look or a later one.
    pub(crate) fn wants_cold(&self) -> bool {
        wants_cold(&self.sheet) && self.ever_needs_engine()
    }

    /// Whether a precondition that readings do not show live holds, as told or as judged at the engine's start.
    pub(crate) fn holds(&self, precondition: Precondition) -> bool {
        match precondition {
            Precondition::Filled => {
                self.filled() && !self.awaits_fill() && !self.needs_more() && self.looks.to_add_ml.is_none()
            }
            Precondition::SelectorCycled => self.cycled(),
            Precondition::StartedCold => self.cold.unwrap_or_else(|| self.confirmed.contains(precondition)),
            Precondition::VehicleLevel => match self.level {
                Some(stand) => stand.is_level,
                // A stand that was measured and refused is not mended by eye, and no eye sees a tilt that the sheet gives.
                None => {
                    let plain = self.hands.tilted.is_none() && !self.sheet.stand.is_tilted();
                    self.confirmed.contains(precondition) && plain
                }
            },
            Precondition::Parked => self.confirmed.contains(precondition) && !self.hands.moving,
            Precondition::Dry => !self.hands.wet,
            _ => self.confirmed.contains(precondition),
        }
    }

    /// The preconditions that do not hold now, in their order.
    pub(crate) fn open(&self, live: &Live, now: Mono) -> Vec<Precondition> {
        self.open_by(|p| self.shows(p, live, now)).collect()
    }

    /// Whether one does not, but for a word on the engine that has only to be told again.
    pub(crate) fn is_open(&self, live: &Live, now: Mono) -> bool {
        let again =
            |p: Precondition| p == Precondition::EngineIdling && live.people && live.told_idling(&self.sheet);
        // What passes by itself, or by an act of its own, is no question to anybody.
        let own = [Precondition::EngineOff, Precondition::Settled, Precondition::InPosition];
        self.open_by(|p| self.shows(p, live, now)).any(|p| !again(p) && !own.contains(&p))
    }

    /// Whether a live precondition holds: as the vehicle or the time shows it, or without an adapter as it was told.
    pub(crate) fn shows(&self, precondition: Precondition, live: &Live, now: Mono) -> bool {
        match precondition {
            // In P, the parking brake on: until the next word from inside.
            Precondition::StandingStill if live.people => self.holds(Precondition::Parked),
            Precondition::Settled => self.settled(now) == Settled::Yes,
            _ => live.shows(precondition, now, &self.sheet),
        }
    }

    /// The same by what was announced: the live ones are facts then and survive a crash.
    pub(crate) fn open_as_said(&self) -> Held {
        self.open_by(|p| self.said.holds.contains(p)).collect()
    }

    fn open_by(&self, shown: impl Fn(Precondition) -> bool) -> impl Iterator<Item = Precondition> {
        let holds = move |p: Precondition| if is_live(p) { shown(p) } else { self.holds(p) };
        self.needed().iter().filter(move |p| self.gates(*p) && !holds(*p))
    }

    /// Whether `go` waits for it.
    pub(crate) fn gates(&self, precondition: Precondition) -> bool {
        precondition.gates_by(&self.sheet)
    }

    pub(crate) fn by_lamp(&self) -> bool {
        self.sheet.check.signal == Signal::Lamp
    }

    /// Whether it holds at this moment; the word of the one below grows old.
    pub(crate) fn holds_now(&self, precondition: Precondition, now: Mono) -> bool {
        match precondition {
            Precondition::Clear => self.hands.clear(now) == Clear::Yes,
            _ => self.holds(precondition),
        }
    }

    /// What was confirmed for the hands and holds.
    pub(crate) fn held(&self, now: Mono) -> Vec<Precondition> {
        self.needed().iter().filter(|p| !p.gates() && self.holds_now(*p, now)).collect()
    }

    /// The fluid is changed: this is no recheck and no check.
    pub(crate) fn changes(&self) -> bool {
        self.recheck_of.is_none() && self.hands.task == Task::Change
    }

    /// What came out and did not go in again, since a look was right the last time, in mL; negative: more went in. What runs
    /// out at idle down to a trickle is no shortage, but for what cannot have been the excess.
    pub(crate) fn short_ml(&self) -> f64 {
        -self.amounts().excess_ml - f64::from(self.hands.made_good_ml)
    }

    /// Far more is in it than came out and the margin: too much to start on.
    pub(crate) fn too_much_in(&self) -> bool {
        let fluid = &self.sheet.fluid;
        let over =
            if self.changes() { fluid.margin_ml + TOO_MUCH_IN_ML } else { HALF_IN_A_CHECK * fluid.total_ml };
        self.filled() && self.short_ml() < -over
    }

    /// A right look has made good whatever the amounts say is missing.
    pub(crate) fn level_was_right(&mut self) {
        self.hands.made_good_ml = Millilitres::clamped(-self.amounts().excess_ml).steps();
    }

    /// What should run out at the check port by the amounts, before anything of this opening was counted, in mL.
    pub(crate) fn expected_ml(&self) -> f64 {
        self.amounts().before_this_look_ml + f64::from(self.hands.made_good_ml)
    }

    /// The amounts, one after the other.
    fn amounts(&self) -> Amounts {
        let mut sum = Amounts::default();
        let limit = if self.changes() {
            self.sheet.fluid.margin_ml + TOO_MUCH_OUT_ML
        } else {
            TOO_MUCH_IN_A_CHECK_ML
        };
        for entry in &self.ledger {
            let ml = entry.amount.to_f64();
            let of_this_look = entry.after_rounds == self.rounds;
            match entry.kind.flow() {
                Flow::In => sum.moves(ml),
                Flow::Out | Flow::NotIn => sum.moves(-ml),
                Flow::Over if entry.lost => sum.excess_ml -= ml,
                Flow::Over => {
                    let above = ml - sum.excess_ml.max(0.0);
                    if above > limit {
                        // A wrong plug, or a loose pipe: all of it is missing.
                        sum.excess_ml -= ml;
                        sum.too_much |= of_this_look;
                    } else if sum.excess_ml > 0.0 {
                        sum.excess_ml = (sum.excess_ml - ml).max(0.0);
                    }
                }
                Flow::None => {}
            }
            if !(of_this_look && entry.kind.flow() == Flow::Over) {
                sum.before_this_look_ml = sum.excess_ml;
            }
        }
        sum
    }

    /// A stream is to be expected: the amounts say so.
    pub(crate) fn expects_a_stream(&self) -> bool {
        // Once a look has shown it low, the amounts promise nothing any more.
        self.changes()
            && !self.reads_a_gauge()
            && !self.hands.was_low
            && self.has(Kind::Drained)
            && self.has(Kind::Filled)
            && self.expected_ml() >= STREAM_ML.max(2.0 * self.sheet.gush_ml())
    }

    /// Far more was counted than can have been the excess: a wrong plug, a loose pipe.
    pub(crate) fn ran_out_too_much(&self) -> bool {
        self.amounts().too_much && !self.refilled()
    }

    /// Only the first gush came out of the closed port where a stream was expected: it thinned too soon, or the jug holds less
    /// than half of what was expected and it ran for less than half of the time.
    pub(crate) fn only_a_gush(&self) -> bool {
        let thinned = |r: &&Round| !r.is_open() && r.trickle.is_some() && r.gauge.is_none();
        let Some(round) = self.round.as_ref().filter(thinned) else {
            return false;
        };
        if round.gush {
            return true;
        }
        if !self.has(Kind::RanOut) {
            return false;
        }
        let jug = self.ledger.iter().filter(|e| e.kind == Kind::RanOut && e.after_rounds == self.rounds);
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
                && e.after_rounds == self.rounds
        };
        let ran = |r: &Round| matches!(r.stream, Stream::Flows | Stream::Poured);
        let closed = self.rounds > 0 && !self.port_open();
        closed && self.round.as_ref().is_none_or(ran) && !self.ledger.iter().any(told)
    }

    pub(crate) fn port_open(&self) -> bool {
        self.round.as_ref().is_some_and(Round::is_open)
    }

    pub(crate) fn has(&self, kind: Kind) -> bool {
        self.ledger.iter().any(|e| e.kind == kind)
    }

    /// Old fluid is out, or this is a recheck, where none is changed.
    pub(crate) fn drained(&self) -> bool {
        !self.changes() || self.has(Kind::Drained)
    }

    /// New fluid is in, or this is a recheck.
    pub(crate) fn filled(&self) -> bool {
        // A right look outranks amounts: what was told of a fill may be taken back after it, and the fluid is in all the same.
        !self.changes() || self.has(Kind::Filled) || self.is_set()
    }

    /// Drained and not filled since.
    pub(crate) fn awaits_fill(&self) -> bool {
        let turns = |e: &&Entry| matches!(e.kind, Kind::Drained | Kind::Filled);
        let drained = self.ledger.iter().rev().find(turns).is_some_and(|e| e.kind == Kind::Drained);
        // What was too much and was let out again is no drain.
        drained && self.short_ml() > 0.0 && !self.is_set()
    }

    /// The sheet asks for another drain and fill, and the last fill has circulated.
    pub(crate) fn drains_again(&self) -> bool {
        let drains = self.ledger.iter().filter(|e| e.kind == Kind::Drained).count();
        let wanted = usize::try_from(self.sheet.fluid.exchanges).unwrap_or(usize::MAX);
        let more = self.changes() && drains > 0 && drains < wanted;
        more && self.round.is_none() && self.circulated && !self.awaits_fill()
    }

    /// The selector was moved as the sheet asks: confirmed as a whole, or counted position by position.
    fn cycled(&self) -> bool {
        let done = |s: &Selector| self.shifts.done(s) || (s.reported.is_some() && self.seen.done(s));
        let counted = self.sheet.before.selector.as_ref().is_some_and(done);
        counted || self.seen_cycled || self.confirmed.contains(Precondition::SelectorCycled)
    }

    /// What the rounds filled has drained back, or was drained.
    pub(crate) fn cycle_anew(&mut self) {
        self.shifts = Shifts::default();
        (self.seen, self.seen_cycled) = (Seen::default(), false);
        self.confirmed.remove(Precondition::SelectorCycled);
        self.trail.retain(|a| *a != Act::Confirmed(Precondition::SelectorCycled) && *a != Act::Shifted);
    }

    /// How long the engine is known to have run by now; 0 while it does not.
    pub(crate) fn idled_ms(&self, now: Mono) -> u64 {
        self.run.since.map_or(0, |_| self.run.at_least_ms(now))
    }

    /// When a time begins and ends in which the engine may stop by itself, if it runs on until then.
    pub(crate) fn may_stop_at(&self) -> [Option<Mono>; 2] {
        let (Some(since), Some(after)) = (self.run.since, self.hands.may_stop_ms()) else { return [None; 2] };
        let at = |ms: u64| since.after(Duration::from_millis(ms.saturating_sub(self.run.before_ms)));
        after.map(|ms| Some(at(ms)))
    }

    /// Whether it is open if the engine ran on while adapter or daemon were away.
    pub(crate) fn unproven(&self) -> bool {
        self.round.as_ref().is_some_and(|r| r.ran == Ran::Unproven)
    }

    /// Drained or filled after the last round: what it set holds no longer.
    pub(crate) fn refilled(&self) -> bool {
        // Out of the tube of a gauge it is drawn, and does not run out by itself down to the level.
        let drawn = self.reads_a_gauge();
        let changes = |kind: Kind| kind.changes_the_level() || (drawn && kind == Kind::RanOut);
        let after = |e: &Entry| changes(e.kind) && e.after_rounds == self.rounds && !e.in_look;
        self.rounds > 0 && self.ledger.iter().any(after)
    }

    /// Nothing ran out at `go`, the port is closed again, and no more was filled yet.
    pub(crate) fn needs_more(&self) -> bool {
        (self.stays_dry() || self.only_a_gush()) && !self.refilled()
    }

    /// Nothing ran out at the last look, inside the band, and the port is closed again.
    pub(crate) fn stays_dry(&self) -> bool {
        self.round.as_ref().is_some_and(|r| !r.is_open() && r.nothing_at_go())
    }

    /// Nothing ran out though as much was filled as the sheet allows, or far more than can be missing: it runs somewhere else,
    /// or it is another plug.
    pub(crate) fn stays_low(&self) -> bool {
        self.needs_more() && (self.portions_done() || self.too_much_in())
    }

    /// It was topped up as often as the sheet allows.
    pub(crate) fn portions_done(&self) -> bool {
        self.hands.top_ups >= self.sheet.fluid.portions
    }

    /// How much had been filled before the last look, where that look was dry; before an earlier one otherwise.
    pub(crate) fn dry_after(&self) -> Option<Millilitres> {
        let filled = self.ledger.iter().filter(|e| e.kind == Kind::Filled && e.after_rounds < self.rounds);
        // Once a stream has come, a dry look says no more than that it has gone.
        let dry = self.stays_dry() && !self.ran_ever;
        let now = dry.then(|| Millilitres::clamped(filled.map(|e| e.amount.to_f64()).sum()));
        now.or(self.hands.dry_after_ml.and_then(Millilitres::from_steps))
    }

    /// The last round set the level and nothing was filled or drained since.
    pub(crate) fn is_set(&self) -> bool {
        if self.amount_only() {
            return self.amounts_right();
        }
        self.is_last_look()
            && !self.looks.again
            && self.round.as_ref().is_some_and(Round::is_good)
            && !self.refilled()
            && !self.contradicted()
    }

    /// What was counted, or how long it ran, contradicts the trickle.
    pub(crate) fn contradicted(&self) -> bool {
        self.only_a_gush() || self.ran_out_too_much()
    }

    /// The rounds as they stand, while they are to be done.
    pub(crate) fn rounds_due(&self, now: Mono) -> Option<SelectorView> {
        let selector = self.sheet.before.selector.as_ref()?;
        if self.result.is_some() || self.holds(Precondition::SelectorCycled) {
            return None;
        }
        let told = if self.shifts.is_empty() { self.seen.as_shifts() } else { self.shifts };
        told.view(selector, now)
    }

    /// The engine ran with fluid in it and the selector was moved where the sheet asks for it.
    pub(crate) fn has_circulated(&self, engine_runs: bool) -> bool {
        let cycled = !self.needs(Precondition::SelectorCycled) || self.holds(Precondition::SelectorCycled);
        self.filled() && !self.awaits_fill() && cycled && (self.circulated || engine_runs)
    }

    /// What is in it now if the level was right before, as measured, in mL.
    pub(crate) fn inside_ml(&self) -> f64 {
        let moved = |e: &Entry| match e.kind.flow() {
            Flow::In => e.amount.to_f64(),
            Flow::Out | Flow::NotIn | Flow::Over => -e.amount.to_f64(),
            Flow::None => 0.0,
        };
        self.sheet.fluid.total_ml + self.ledger.iter().map(moved).sum::<f64>()
    }

    /// The sum of all that goes one way, as measured, in mL.
    pub(crate) fn flowed_ml(&self, of: impl Fn(Flow) -> bool) -> f64 {
        self.ledger.iter().filter(|e| of(e.kind.flow())).map(|e| e.amount.to_f64()).sum()
    }

    /// Carries out a request that was accepted. `judged` is what the port's steps are judged by until their own
    /// event says so.
    pub(crate) fn told(&mut self, told: &Told, judged: Judged, (now, at): (Mono, Utc)) {
        let request = &told.request;
        self.hands_told(request, told.by, now);
        let vacant = self.vacant.take();
        if matches!(request, Request::Note { .. } | Request::Photo { .. } | Request::Vehicle { .. }) {
            self.words.told(now);
        }
        if let Some(step) = step_of(request) {
            self.undone.remove(step);
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
            | Request::Photo { .. }
            | Request::Note { .. } => self.vacant = vacant,
            Request::Leak { .. }
            | Request::LeakAt { .. }
            | Request::Symptom { .. }
            | Request::FluidLooks { .. } => {
                self.vacant = vacant;
                self.answered(request);
            }
            Request::Spot { celsius, surface } => {
                self.vacant = vacant;
                if *surface != Surface::Air {
                    self.typed.read(self.in_band(*celsius), now);
                }
            }
            Request::Air { celsius } => {
                self.vacant = vacant;
                if let Some(sheet) = self.for_air(*celsius) {
                    let before = std::mem::replace(&mut self.sheet, Arc::new(sheet));
                    self.first_band.get_or_insert(before);
                }
            }
            Request::Display { celsius } => {
                self.vacant = vacant;
                self.typed.read(self.in_band(*celsius), now);
            }
            Request::Lamp { shows } => {
                self.vacant = vacant;
                self.typed.read(*shows == LampState::Right, now);
            }
            Request::Vehicle { text } => self.vehicle = Some(text.as_str().into()),
            Request::Confirm { what } => {
                if self.confirmed.insert(*what) {
                    self.act(Act::Confirmed(*what));
                }
            }
            Request::Level { pitch_degrees, roll_degrees } => {
                self.stands(Stand::by_inclination(*pitch_degrees, *roll_degrees));
            }
            Request::Corners {
                front_left_millimetres: fl,
                front_right_millimetres: fr,
                rear_left_millimetres: rl,
                rear_right_millimetres: rr,
                wheelbase_millimetres,
                track_millimetres,
            } => {
                let heights = [*fl, *fr, *rl, *rr];
                let stand =
                    Stand::by_corners(&self.sheet, heights, *wheelbase_millimetres, *track_millimetres);
                if let Ok(stand) = stand {
                    self.stands(stand);
                }
            }
            Request::Drained { millilitres, celsius } => {
                self.take_back(Precondition::InPosition);
                if self.filled() && self.round.is_none() {
                    // Another round: what circulated has gone, and the next fill must circulate too.
                    self.circulated = false;
                    self.cycle_anew();
                }
                self.measured(Kind::Drained, *millilitres, *celsius, vacant);
                // What was too much and was let out again is no drain.
                if self.awaits_fill() {
                    self.looks.drained();
                }
            }
            Request::Filled { millilitres, celsius } => {
                self.looks.filled(millilitres.to_f64());
                self.measured(Kind::Filled, *millilitres, *celsius, vacant);
                (self.streamed, self.ran_since_fill) = (false, false);
                self.typed.forget();
                self.mixed = self.said.holds.contains(Precondition::EngineRunning);
                let short = self.look().idles() || self.is_last_look();
                if let Some(round) = self.round.as_mut().filter(|r| r.is_open()) {
                    round.poured();
                    // To the edge it is filled because it was drained.
                    self.hands.was_low |= short;
                    self.trail.retain(|a| *a != Act::Trickled);
                }
            }
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
                self.shifts.told(now);
                self.act(Act::Shifted);
            }
            Request::Flowing if self.is_a_wave() => {}
            Request::Flowing => self.looked(Stream::Flows, moment, now),
            Request::NothingFlows => self.looked(self.nothing_is(), moment, now),
            Request::Drips if self.drips_come_first() => {
                // Dry, and the first drips: what was looked for. Else they are the first that is seen of this opening.
                let dry = self.round.as_ref().is_some_and(|r| r.is_open() && r.stream == Stream::Dry);
                match &mut self.round {
                    Some(round) if dry => round.stream = Stream::Flows,
                    _ => self.looked(Stream::Flows, moment, now),
                }
                self.thinned(moment, now);
            }
            Request::Trickle | Request::Drips => self.thinned(moment, now),
            Request::AtEdge | Request::BelowEdge { .. } => match self.height(request) {
                Some(Height::Right) => {
                    self.looked(Stream::Stands, moment, now);
                    if let Some(round) = &mut self.round {
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
            },
            Request::Gauge { millimetres } => self.gauge_read(*millimetres, moment, now),
            Request::Closed => {
                // What ran at rest was no excess at idle.
                let ran_on = self.look().idles() && self.round.as_ref().is_some_and(|r| r.ran_on(now));
                self.streamed |= ran_on;
                self.ran_since_fill |= ran_on;
                self.ran_ever |= ran_on;
                self.closed(moment, now);
            }
            Request::Torqued => {
                self.torqued = true;
                self.act(Act::Torqued);
            }
            Request::TestDriven => {
                self.drove();
                self.test_driven = true;
                self.act(Act::TestDriven);
            }
            Request::Undo => self.undo(),
            Request::Done => self.ending = Some((at, Ending::Done)),
            Request::Abort { .. } => self.ending = Some((at, Ending::Aborted)),
        }
    }

    fn measured(
        &mut self,
        kind: Kind,
        amount: Millilitres,
        celsius: Option<Celsius>,
        vacant: Option<(Kind, u32)>,
    ) {
        self.entered(kind, amount, celsius, vacant, true);
    }

    fn entered(
        &mut self,
        kind: Kind,
        amount: Millilitres,
        celsius: Option<Celsius>,
        vacant: Option<(Kind, u32)>,
        measured: bool,
    ) {
        let after_rounds = vacant.filter(|(of, _)| *of == kind).map_or(self.rounds, |(_, after)| after);
        if kind.changes_the_level() && self.is_set() {
            self.level_was_right();
        }
        // With the engine off, or stopped meanwhile, more runs out than the excess.
        let lost = kind.flow() == Flow::Over && self.round.as_ref().is_some_and(Round::lost_fluid);
        let in_look = kind == Kind::Filled && self.port_open();
        let mixed = self.mixed;
        self.ledger.push(Entry { kind, amount, celsius, measured, after_rounds, mixed, lost, in_look });
        self.act(Act::Measured);
    }

    fn stands(&mut self, stand: Stand) {
        self.act(Act::Levelled(self.level));
        // Another band or another signal leaves it as level as it is.
        self.level = Some(stand.judged(&self.sheet));
    }

    /// A stream was told to be a trickle, or drips, or the fluid to stand as it should.
    fn thinned(&mut self, moment: Moment, now: Mono) {
        let expected = (self.expects_a_stream() || self.hands.was_low) && !self.streamed && self.has_a_gush();
        if let Some(round) = self.round.as_mut().filter(|r| r.is_open() && r.trickle.is_none()) {
            round.thinned(moment, now, expected && round.stream == Stream::Flows);
            round.rest = self.streamed && !round.outlasted_a_gush();
            self.act(Act::Trickled);
        }
    }

    /// What the look before this one has shown, before it is forgotten.
    pub(crate) fn looks_anew(&mut self) {
        self.hands.was_low |=
            self.round.as_ref().is_some_and(|r| !r.is_open() && (r.nothing_at_go() || r.gush));
        self.hands.dry_after_ml = self.dry_after().map(|ml| ml.steps()).max(self.hands.dry_after_ml);
    }

    fn looked(&mut self, stream: Stream, moment: Moment, now: Mono) {
        self.looks_anew();
        self.looks.again = false;
        let look = self.look().clone();
        let may = look.open == LookOpen::AtLowEdge;
        self.opened_early |= stream == Stream::Flows && moment.judged.verdict == Verdict::Wait && !may;
        match &mut self.round {
            Some(round) if round.is_open() => {
                round.look_again(stream, moment, now);
                self.trail.retain(|a| *a != Act::Trickled);
            }
            round => {
                *round = Some(Round::opened(stream, moment, now, &self.sheet, &look));
                self.rounds = self.rounds.saturating_add(1);
            }
        }
        let expected_s = run_out::expected_s(self);
        if let Some(round) = &mut self.round {
            round.expected_s = expected_s;
        }
        self.judge_heat();
        (self.torqued, self.test_driven) = (false, false);
        self.trail.retain(|a| !matches!(a, Act::Torqued | Act::TestDriven));
    }

    /// From here on there is no adapter: a thermometer stands in for what it read.
    pub(crate) fn without_adapter(&mut self) {
        self.hands.people = true;
        if let Some(sheet) = self.sheet.by_people() {
            self.sheet = Arc::new(sheet);
        }
    }

    /// The sheet with the band that counts in air of so many °C. `None` where the first band would count again and is not known any
    /// more: the job began with the second one.
    pub(crate) fn for_air(&self, air: Celsius) -> Option<Sheet> {
        let first = self.first_band.as_ref().unwrap_or(&self.sheet);
        let sheet = first.for_air(Some(air));
        let cold = self.sheet.check.hot_from_air_c.is_some_and(|from| air.to_f64() < from);
        (!cold || !sheet.is_in_the_heat()).then_some(sheet)
    }

    fn in_band(&self, celsius: Celsius) -> bool {
        let [low, high] = self.sheet.check.band_c;
        (low..=high).contains(&celsius.to_f64())
    }

    fn closed(&mut self, moment: Moment, now: Mono) {
        if let Some(round) = self.round.as_mut().filter(|r| r.is_open()) {
            round.closed = Some(moment);
            self.typed.closed(now);
        }
        self.said.stops.retain(|stop| stop.outlasts(Ends::PortClosed));
        self.judge_heat();
        self.trail.retain(|a| *a != Act::Trickled);
    }

    /// A port that was opened or closed too hot spoils the round, whatever is told later.
    pub(crate) fn judge_heat(&mut self) {
        if let Some(round) = &mut self.round {
            round.judge_heat();
        }
    }
}

/// What the amounts come to, one after the other, in mL.
#[derive(Debug, Clone, Copy, Default)]
struct Amounts {
    /// Above what was in it before the job.
    excess_ml: f64,
    /// The same before anything that ran out in this opening.
    before_this_look_ml: f64,
    /// Far more was counted in this opening than can have been the excess.
    too_much: bool,
}

impl Amounts {
    fn moves(&mut self, ml: f64) {
        self.excess_ml += ml;
    }
}

/// Whether the vehicle shows it moment by moment. A cold start is shown too, but judged once.
pub(crate) const fn is_live(precondition: Precondition) -> bool {
    matches!(
        precondition,
        Precondition::EngineRunning
            | Precondition::EngineIdling
            | Precondition::EngineOff
            | Precondition::Settled
            | Precondition::StandingStill
    )
}

/// The least that amounts must promise before a stream is expected: above a first gush (5 to 60 mL, by geometry) and what
/// vessels are wrong by (own choice).
const STREAM_ML: f64 = 100.0;
/// So much above the excess and the margin cannot have been the excess (own choice).
const TOO_MUCH_OUT_ML: f64 = 500.0;
/// The same where nothing is known of the excess (own choice).
const TOO_MUCH_IN_A_CHECK_ML: f64 = 2_000.0;
/// So much above what came out and the margin is too much to start on (own choice).
const TOO_MUCH_IN_ML: f64 = 1_000.0;
/// A check: so much of all that it holds is too much, for one that lacked as much would not have come here (own choice).
const HALF_IN_A_CHECK: f64 = 0.5;
