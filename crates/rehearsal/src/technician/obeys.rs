//! Does what each seat is told, and nothing else: the advice alone leads through any procedure.
//!
//! In: what was said last, the vehicle, the time. Out: deeds, tells, seconds. He knows no order of steps: where the
//! advice leads nowhere, the job leads nowhere, and that is what a rehearsal is to show. Not here: the scripted way
//! through the usual job, with its mistakes (`work.rs`).

use std::time::Duration;

use events::{Advice, Drive, FillFrom, Precondition, Request, Right, Rim, Role};
use units::{Millilitres, Millimetres, Mono};

use super::Technician;
use super::work::{GUSH_WITHIN, SEEN_ML_MIN, Task};
use crate::sump::Port;
use crate::thermal::Engine;
use crate::world::{Plug, World};

impl Technician {
    /// The seat with the more urgent word first; seconds until the next.
    pub(super) fn obey(&mut self, now: Mono, world: &mut World) -> f64 {
        if self.eyes.said().is_some_and(|said| said.advice != Advice::StartJob) {
            self.read_the_spot(now, world);
        }
        if self.eyes.result() {
            return self.then(Task::Leave, 1.0);
        }
        let said = self.eyes.said();
        // Opened, nothing seen yet, and now told something else: he shuts it again before he says a word.
        let under = said.map(|said| said.at(Role::Under));
        let looks = matches!(under, Some(Advice::OpenPort | Advice::OpenPortOff));
        if self.book.untold && world.check_port() == Port::Open && !looks {
            self.book.untold = false;
            world.close_check_port();
            self.note("shuts it again, nothing was seen");
            return 2.0;
        }
        let seats = match said {
            Some(said) if said.advice == said.at(Role::Inside) => [Role::Inside, Role::Under],
            _ => [Role::Under, Role::Inside],
        };
        for seat in seats {
            let advice = said.map_or(Advice::StartJob, |said| said.at(seat));
            if let Some(seconds) = self.does(advice, seat, now, world) {
                self.book.since_go_awaited = None;
                return seconds;
            }
        }
        let since = *self.book.since_go_awaited.get_or_insert(now);
        if now.since(since).as_secs_f64() > self.waits_at_most_s() {
            self.note("gives up waiting");
            return self.ends(now, world);
        }
        1.0
    }

    /// One advice; none where there is nothing to do for it now.
    fn does(&mut self, advice: Advice, seat: Role, now: Mono, world: &mut World) -> Option<f64> {
        use Advice as A;
        match advice {
            A::StartJob => self.once(advice, now).then(|| {
                self.begin();
                self.then(Task::Obey, 60.0)
            }),
            A::PrepareVehicle => self.prepares(world),
            A::ShimStands => self.once(advice, now).then(|| {
                world.stand(self.dice.within(0.15), self.dice.within(0.15));
                self.note("lays shims under the stands");
                self.measures_the_stand(world);
                self.takes(40.0)
            }),
            A::Drain => self.once(advice, now).then(|| self.drains(world)),
            A::ReadJug => {
                let before = self.book.jug_read;
                self.reads_the_jug(world);
                (self.book.jug_read > before).then(|| self.takes(20.0))
            }
            A::LetOut => self.once(advice, now).then(|| self.lets_out(world)),
            A::StopEngine | A::StopNow | A::StopAndCool | A::KeepOff | A::DrainAgain => self.stops(world),
            A::Fill | A::FillFirst | A::FillMore | A::AddAmount | A::FillHere => {
                self.fills_more(advice, now, world)
            }
            A::FillToEdge => self.once(advice, now).then(|| self.fills_to_the_edge(world)),
            A::StartEngine => self.starts(world),
            A::CycleSelector => {
                self.book.below = false;
                Some(self.then(Task::Shift { round: 0, place: 0 }, 5.0))
            }
            A::LookPosition => self.once(advice, now).then(|| self.takes_the_position(world)),
            A::OpenPort | A::OpenPortOff => self.opens_and_looks(now, world),
            A::WatchStream | A::WatchOff => self.watches(now, world),
            A::WatchDrips => (world.stream_ml_min() > SEEN_ML_MIN).then(|| {
                self.note("sees the first drips");
                self.tell(Request::Drips);
                2.0
            }),
            A::ReadGauge | A::ReadAgain => self.reads_the_gauge(now, world),
            A::DrawOut => self.once(advice, now).then(|| {
                let wanted = self.said_ml().unwrap_or(100.0);
                world.let_out(wanted);
                let out = self.jug(wanted);
                self.note(&format!("draws {out:.0} mL out of the tube"));
                self.tell(Request::RanOut { millilitres: Millilitres::clamped(out), celsius: None });
                self.takes(60.0)
            }),
            A::LookAtEdge => self.once(advice, now).then(|| self.tells_the_height(world)),
            A::LetSome => self.lets_some(now, world),
            A::StillFlowing => Some(self.says_whether_it_flows(now, world)),
            A::HoseOut => self.once(advice, now).then(|| self.takes_the_hose_out(now, world)),
            A::ClosePort
            | A::ClosePortWait
            | A::ClosePortCool
            | A::CloseTooMuch
            | A::ClosePortEngine
            | A::CheckAdapter => self.closes(world),
            A::Tighten if world.engine() == Engine::Off => self.once(advice, now).then(|| {
                self.reads_the_jug(world);
                self.note("tightens the plugs to the torques of the sheet");
                self.tell(Request::Torqued);
                self.takes(120.0)
            }),
            // "Engine off, then": the other seat is told so, and one person alone does both.
            A::Tighten if self.script.alone => self.stops(world),
            A::Tighten => None,
            A::LookForLeaks | A::LookForDrops => self.looks_for_drops(advice, now),
            A::TestDrive => Some(self.drives(world)),
            A::Finish | A::Recheck | A::SetAgain | A::NotDriven | A::LookWhyLow => {
                Some(self.ends(now, world))
            }
            A::AskEngine | A::SayEngine => {
                let due = self.script.people && self.once(advice, now);
                due.then(|| {
                    self.tell_engine(world);
                    2.0
                })
            }
            A::CheckSensor if !self.sheet.check.signal.is_typed() => self.once(advice, now).then(|| {
                self.reads_on_tape(world);
                20.0
            }),
            A::CheckSensor | A::ReadInside => {
                self.read_the_spot(now, world);
                None
            }
            _ => self.confirms(advice, seat, now, world),
        }
    }

    /// The same word again only when some time has brought no other.
    fn once(&mut self, advice: Advice, now: Mono) -> bool {
        let again = self.book.obeyed.is_some_and(|(last, at)| last == advice && now.since(at) < AGAIN_AFTER);
        if !again {
            self.book.obeyed = Some((advice, now));
        }
        !again
    }

    /// Whatever ends with a word that it is done.
    fn confirms(&mut self, advice: Advice, seat: Role, now: Mono, world: &mut World) -> Option<f64> {
        let what = advice.awaits()?;
        if !self.once(advice, now) {
            return None;
        }
        self.book.below = seat == Role::Under && what != Precondition::Clear && what != Precondition::Parked;
        match what {
            Precondition::CoolerBypass => world.pin_bypass(Plug::In),
            Precondition::BypassOut => world.pin_bypass(Plug::Out),
            _ => {}
        }
        self.note(&format!("confirms: {}", what.says()));
        self.confirm(what);
        // The helper waits for this word, with a hand on the key.
        Some(self.takes(if what == Precondition::Clear { 3.0 } else { 20.0 }))
    }

    fn prepares(&mut self, world: &mut World) -> Option<f64> {
        let did = |what| self.book.did.contains(&what);
        let open = self.eyes.open().to_vec();
        if !self.book.raised {
            self.book.raised = true;
            self.note("puts the vehicle on four stands");
            self.confirm(Precondition::OnStands);
            return Some(self.takes(60.0));
        }
        if open.contains(&Precondition::ExhaustOutside) && !did(Precondition::ExhaustOutside) {
            self.lead_the_exhaust();
            return Some(self.takes(40.0));
        }
        if open.contains(&Precondition::VehicleLevel) && self.book.levelled < 4 {
            self.book.levelled += 1;
            self.measures_the_stand(world);
            return Some(self.takes(40.0));
        }
        None
    }

    fn drains(&mut self, world: &mut World) -> f64 {
        self.book.below = true;
        let celsius = self.thermometer(world.fluid_celsius());
        let out = self.jug(world.drain(1.0));
        self.book.drained = out;
        self.book.drains += 1;
        self.note(&format!("drains {out:.0} mL"));
        self.tell(Request::Drained { millilitres: Millilitres::clamped(out), celsius: Some(celsius) });
        self.takes(200.0)
    }

    fn lets_out(&mut self, world: &mut World) -> f64 {
        self.book.below = true;
        self.reads_the_jug(world);
        let wanted = self.said_ml().unwrap_or(200.0);
        world.let_out(wanted);
        let celsius = self.thermometer(world.fluid_celsius());
        let out = self.jug(wanted);
        self.note(&format!("lets {out:.0} mL out"));
        self.tell(Request::Drained { millilitres: Millilitres::clamped(out), celsius: Some(celsius) });
        self.takes(60.0)
    }

    fn said_ml(&self) -> Option<f64> {
        self.eyes.said().and_then(|said| said.millilitres).map(Millilitres::to_f64)
    }

    /// Fluid goes in: through the open port, or above with the port shut.
    fn fills_more(&mut self, advice: Advice, now: Mono, world: &mut World) -> Option<f64> {
        let above = matches!(self.sheet.level.fill_from, FillFrom::UpperPort);
        if above && world.check_port() == Port::Open {
            return self.closes(world);
        }
        if !self.once(advice, now) {
            return None;
        }
        self.reads_the_jug(world);
        let usual = self.book.drained + self.sheet.fluid.margin_ml;
        let wanted = (self.said_ml().unwrap_or(usual) / 10.0).round() * 10.0;
        self.pours(wanted, world);
        Some(self.takes(120.0))
    }

    fn pours(&mut self, wanted: f64, world: &mut World) {
        self.book.ran_on = false;
        let celsius = world.vehicle().air_celsius;
        world.fill((wanted - self.dice.within(self.script.jug_ml)).max(0.0), celsius);
        let shown = self.thermometer(celsius);
        self.note(&format!("fills {wanted:.0} mL"));
        self.tell(Request::Filled { millilitres: Millilitres::clamped(wanted), celsius: Some(shown) });
    }

    /// The plug is out, and it is filled until it runs.
    fn fills_to_the_edge(&mut self, world: &mut World) -> f64 {
        self.book.below = true;
        self.opens(world);
        let missing = (-world.excess_ml()).max(0.0) + RUNS_OVER_ML;
        let wanted = (missing / 10.0).round() * 10.0;
        self.pours(wanted, world);
        self.note("sees it run out there");
        self.tell(Request::Flowing);
        self.takes(60.0)
    }

    fn stops(&mut self, world: &mut World) -> Option<f64> {
        if world.engine() == Engine::Off {
            return None;
        }
        world.stop_engine();
        self.note("stops the engine");
        self.tell_engine(world);
        Some(self.takes(5.0))
    }

    fn starts(&mut self, world: &mut World) -> Option<f64> {
        if world.engine() == Engine::Running {
            return None;
        }
        self.book.below = false;
        world.start_engine();
        self.note("starts the engine and lets it idle");
        self.tell_engine(world);
        Some(self.takes(10.0))
    }

    fn takes_the_position(&mut self, world: &mut World) -> f64 {
        let look = self.sheet.looks().into_iter().rev().find_map(|look| look.position);
        if let (Some(position), Some(selector)) = (look, self.sheet.before.selector.clone())
            && let Some(place) = selector.positions.iter().position(|p| *p == position)
        {
            world.move_selector(place, selector.positions.len());
            self.note(&format!("moves the selector to {position}"));
        }
        self.confirm(Precondition::InPosition);
        self.takes(5.0)
    }

    fn opens(&mut self, world: &mut World) {
        if world.check_port() == Port::Closed {
            world.open_check_port();
            self.book.opened += 1;
            self.book.stream_before.clear();
            self.note("opens the check port");
        }
    }

    /// Opens it, and says what comes.
    fn opens_and_looks(&mut self, now: Mono, world: &mut World) -> Option<f64> {
        if world.check_port() == Port::Closed {
            self.book.below = true;
            self.opens(world);
            (self.book.looks_since, self.book.untold) = (Some(now), true);
            return Some(1.5);
        }
        let since = *self.book.looks_since.get_or_insert(now);
        if world.stream_ml_min() > SEEN_ML_MIN {
            self.sees_it_flow(now);
            return Some(1.0);
        }
        if self.reads_a_height() {
            return Some(self.tells_the_height(world));
        }
        if now.since(since) < NOTHING_AFTER {
            return Some(1.0);
        }
        (self.book.looks_since, self.book.untold) = (None, false);
        self.note("sees nothing come");
        self.tell(Request::NothingFlows);
        Some(5.0)
    }

    fn sees_it_flow(&mut self, now: Mono) {
        self.note("sees the stream");
        self.book.flows_since = Some(now);
        self.book.stream_before.clear();
        (self.book.looks_since, self.book.untold) = (None, false);
        self.tell(Request::Flowing);
    }

    fn reads_a_height(&self) -> bool {
        self.sheet.looks().last().is_some_and(events::Look::reads_a_height)
    }

    fn wants_drips(&self) -> bool {
        let right = self.sheet.looks().last().map(|look| look.right);
        matches!(right, Some(Right::Drips | Right::FirstDrips))
    }

    /// Until it is as thin as it gets.
    fn watches(&mut self, now: Mono, world: &mut World) -> Option<f64> {
        let off = world.engine() == Engine::Off;
        let drips = self.wants_drips() && !off;
        let thin = if drips { DRIPS_OF_TRICKLE } else { 1.0 } * self.script.trickle_ml_min;
        let seen = world.stream_ml_min() * (1.0 + self.dice.within(0.1));
        let pipe = matches!(self.sheet.level.rim, Rim::Pipe | Rim::JobPipe);
        let just = self.book.flows_since.is_some_and(|at| now.since(at) < GUSH_WITHIN);
        // What runs out after a stream that was only closed for a while is the rest of it.
        self.book.ran_on |= !just && !off && self.book.flows_since.is_some();
        if pipe && just && seen < SEEN_ML_MIN && !off && !self.book.ran_on {
            self.note("sees that it was only a gush");
            self.book.flows_since = None;
            self.tell(Request::NothingFlows);
            return Some(5.0);
        }
        if pipe && just && !self.book.ran_on {
            // What thins at once may still be the gush.
            return Some(1.0);
        }
        if !self.has_thinned(seen, thin) {
            return Some(1.0);
        }
        self.note(if drips { "sees that it only drips" } else { "sees that it is a trickle" });
        self.book.stream_before.clear();
        self.tell(if drips { Request::Drips } else { Request::Trickle });
        Some(3.0)
    }

    /// After the hose from below is out, or when asked once more.
    fn takes_the_hose_out(&mut self, now: Mono, world: &mut World) -> f64 {
        self.note("takes the hose out");
        if world.stream_ml_min() > SEEN_ML_MIN {
            self.sees_it_flow(now);
        } else {
            self.note("sees nothing come");
            self.tell(Request::NothingFlows);
        }
        self.takes(10.0)
    }

    fn says_whether_it_flows(&mut self, now: Mono, world: &mut World) -> f64 {
        if world.stream_ml_min() > self.script.trickle_ml_min {
            self.sees_it_flow(now);
            return 15.0;
        }
        self.closes(world).unwrap_or(1.0)
    }

    /// Where the fluid stands in the hole, by a rule.
    fn tells_the_height(&mut self, world: &World) -> f64 {
        self.book.untold = false;
        let below = world.below_edge_mm() + self.dice.within(0.5);
        if below < 0.5 {
            self.note("sees it stand at the edge");
            self.tell(Request::AtEdge);
        } else {
            self.note(&format!("sees it stand {below:.0} mm below the edge"));
            self.tell(Request::BelowEdge { millimetres: Millimetres::clamped(below.round()) });
        }
        self.takes(20.0)
    }

    fn reads_the_gauge(&mut self, now: Mono, world: &World) -> Option<f64> {
        if self.book.looks_since.is_some_and(|last| now.since(last) < GAUGE_EVERY) {
            return None;
        }
        self.book.looks_since = Some(now);
        let mm = (world.gauge_mm(&self.sheet)? + self.dice.within(0.7)).round().max(0.0);
        self.note(&format!("wipes the gauge, reads {mm:.0} mm"));
        self.tell(Request::Gauge { millimetres: Millimetres::clamped(mm) });
        Some(2.0)
    }

    /// What stands above the edge runs out by itself; what must stand below it is drawn out.
    fn lets_some(&mut self, now: Mono, world: &mut World) -> Option<f64> {
        if world.stream_ml_min() > SEEN_ML_MIN {
            return Some(2.0);
        }
        if !self.once(Advice::LetSome, now) {
            return None;
        }
        let [low, high] = self.sheet.looks().last().and_then(|look| look.mm).unwrap_or([0.0, 0.0]);
        let over_mm = f64::midpoint(low, high) - world.below_edge_mm();
        let ml = over_mm * world.vehicle().shape.area_m2 * 1_000.0;
        if over_mm > 0.5 {
            world.let_out(ml);
            self.note(&format!("draws {ml:.0} mL out"));
        }
        Some(self.tells_the_height(world))
    }

    fn closes(&mut self, world: &mut World) -> Option<f64> {
        world.plug_adapter(Plug::In);
        if world.check_port() == Port::Closed {
            return None;
        }
        world.close_check_port();
        self.note("closes the check port");
        self.tell(Request::Closed);
        Some(5.0)
    }

    /// What was caught since it was read last, once the port is shut.
    fn reads_the_jug(&mut self, world: &World) {
        let caught = world.out().caught_ml - self.book.jug_read;
        if world.check_port() == Port::Open || caught < 5.0 {
            return;
        }
        self.book.jug_read = world.out().caught_ml;
        let read = self.jug(caught).max(5.0);
        let celsius = self.thermometer(world.fluid_celsius());
        self.note(&format!("reads the jug: {read:.0} mL ran out"));
        self.tell(Request::RanOut { millilitres: Millilitres::clamped(read), celsius: Some(celsius) });
    }

    fn looks_for_drops(&mut self, advice: Advice, now: Mono) -> Option<f64> {
        let since = *self.book.idles_since.get_or_insert(now);
        let idles = if advice == Advice::LookForLeaks { LEAK_LOOK_AFTER } else { Duration::ZERO };
        if now.since(since) < idles {
            return Some(10.0);
        }
        self.once(advice, now).then(|| {
            self.book.below = true;
            self.note("looks for leaks: none");
            self.confirm(Precondition::NoLeak);
            self.takes(20.0)
        })
    }

    fn drives(&mut self, world: &mut World) -> f64 {
        self.book.below = false;
        self.book.raised = false;
        if self.sheet.level.drive == Drive::None {
            self.note("lowers the vehicle and drives a short distance");
        } else {
            world.start_engine();
            self.tell_engine(world);
            world.drive(30.0);
            self.note("lowers the vehicle and drives a short distance");
        }
        self.then(Task::Return, 180.0)
    }

    fn ends(&mut self, now: Mono, world: &mut World) -> f64 {
        if let Some(seconds) = self.stops_with_the_port_shut(world) {
            return seconds;
        }
        if self.once(Advice::Finish, now) {
            self.reads_the_jug(world);
        }
        self.then(Task::Finish, 30.0)
    }

    fn stops_with_the_port_shut(&mut self, world: &mut World) -> Option<f64> {
        self.closes(world).or_else(|| self.stops(world))
    }
}

/// The same word is told once more after so long.
/// Own choice: who is not answered calls again.
const AGAIN_AFTER: Duration = Duration::from_secs(60);
/// Nothing came for so long: nothing comes.
/// Own choice: more than a gush and its drips.
const NOTHING_AFTER: Duration = Duration::from_secs(20);
/// A gauge is wiped and pushed in again in so long.
/// Own choice: with gloves on.
const GAUGE_EVERY: Duration = Duration::from_secs(20);
/// Drips are so much less than a trickle.
/// Source: computed: fixtures/reference/physics/drip_count.csv: 2.4 of 10 mL/min.
const DRIPS_OF_TRICKLE: f64 = 0.24;
/// Idles so long before anybody looks for drops.
/// Own choice: a drop each ten seconds is thirty by then.
const LEAK_LOOK_AFTER: Duration = Duration::from_secs(300);
/// Filled until it runs: so much more than to the edge.
/// Own choice: what still comes when the pump stops.
const RUNS_OVER_ML: f64 = 40.0;
