//! The search: everything that can be told, read and waited for, from every moment of a good job, and what is said then.
//!
//! A state is the job's own [`Situation`] beside what really happened ([`Truth`], kept from the inputs alone). From each moment of
//! the good job the states are explored breadth first, for every procedure, one person and two. In each one:
//!
//! - nothing is said that a row of the table of hazards forbids, by the guard and by the truth, which knows nothing of it;
//! - there is something to do, and whoever does what is said comes to a result.
//!
//! What breaks is printed with the way to it.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "test code"
)]

mod bench;
#[path = "search/mixed.rs"]
mod mixed;
#[path = "search/page.rs"]
mod page;

use std::borrow::Cow;
use std::hash::{Hash, Hasher};
use std::panic::resume_unwind;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Duration;

use bench::{c, ml, request, utc};
use events::*;
use job::{Ask, Job, Situation, VerdictNow, asks, harms};
use mixed::{Mixed, Seen};
use units::*;

/// Something that happens in the bay.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Input {
    Tell(Role, &'static str),
    Fill(i32),
    Engine(bool),
    Want(Verdict),
    /// It stood long enough with the engine off.
    Cooled,
    Coolant(bool),
    Battery(bool),
    Wait(u64),
}

/// What really happened, from the inputs alone: no code of the job has a part in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
struct Truth {
    began: bool,
    ended: bool,
    alarm: bool,
    stands: bool,
    parked: bool,
    exhaust: bool,
    fill_port: bool,
    fluid_right: bool,
    pipe_in: bool,
    closed_up: bool,
    pin_in: bool,
    refitted: bool,
    /// The one below said that he is out, and nothing came from him since.
    out: bool,
    /// The engine was started on that word.
    started: bool,
    brake: bool,
    cycled: bool,
    engine: bool,
    open: bool,
    wrong_in: bool,
    wet: bool,
    hot_engine: bool,
    /// In less out, mL.
    net: i32,
    /// A look at the right moment: a stream of 15 s, a trickle, closed, all at `go`.
    looked: u8,
    right: bool,
    /// What was in it then.
    right_at: i32,
    /// So many looks of the sheet have counted since the drain.
    look: usize,
    /// In and out since the drain.
    drained: i32,
    /// Filled at all since the drain.
    filled: bool,
    /// The last two readings of a gauge in mm; 0: not at the right moment.
    mm: [Option<i32>; 2],
    /// The engine stopped since.
    mm_old: bool,
    /// What was in it and drawn out at the last of them.
    mm_at: [i32; 2],
    /// What was drawn out of its tube.
    drawn: i32,
    /// It was driven, where the look comes once more after that; and nobody has looked since.
    drove: bool,
    again: bool,
}

#[derive(Clone)]
struct World {
    job: Job,
    verdict: VerdictNow,
    want: Verdict,
    now: Mono,
    flowed_at: Mono,
    seq: u64,
    volts: i32,
    truth: Truth,
    said: SeatAdvice,
    /// As it was when all had come to rest.
    situation: Situation,
    guard: Guard,
    people: bool,
}

/// Whether what the procedure wants to say passes through the guard: without it the search must find something.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Guard {
    On,
    Off,
}

/// A procedure to search.
struct Ground {
    name: &'static str,
    sheet: Sheet,
    start: &'static str,
    alone: bool,
    /// There is no adapter: the engine is told.
    people: bool,
}

fn grounds() -> Vec<Ground> {
    let six = || bench::sheet("six-speed");
    let ground = |name, sheet, start: &'static str| Ground {
        name,
        sheet,
        start,
        alone: start.ends_with("one"),
        people: false,
    };
    let by_people = |name, start| Ground {
        sheet: bench::sheet("six-speed").by_people().unwrap(),
        people: true,
        ..ground(name, six(), start)
    };
    let covers = |mut sheet: Sheet| {
        sheet.access = vec!["front wheel".to_owned()];
        sheet
    };
    let on_wheels = |mut sheet: Sheet| {
        sheet.stand.on = On::Wheels;
        sheet
    };
    let at_will = |mut sheet: Sheet| {
        sheet.level.drive = Drive::EngineAtWill;
        sheet
    };
    let from_below = |mut sheet: Sheet| {
        (sheet.level.rim, sheet.level.fill_from) = (Rim::JobPipe, FillFrom::CheckPort);
        sheet
    };
    let twice = |mut sheet: Sheet| {
        sheet.fluid.exchanges = 2;
        sheet
    };
    let still = |mut sheet: Sheet| {
        sheet.before.selector = None;
        sheet
    };
    vec![
        ground("pipe, two people", six(), "start"),
        ground("pipe, alone", six(), "start change one"),
        ground("pin, wheel off", covers(bench::sheet("bypass")), "start"),
        ground("check, two people", six(), "start check two"),
        ground("check, alone", six(), "start check one"),
        ground("on its wheels", on_wheels(six()), "start"),
        ground("engine at will", at_will(six()), "start"),
        ground("filled from below", from_below(six()), "start"),
        ground("two exchanges", twice(six()), "start"),
        ground("no selector", still(six()), "start"),
        by_people("no adapter, two people", "start"),
        by_people("no adapter, alone", "start change one"),
        Ground { sheet: bench::sheet("lamp"), ..by_people("lamp, no adapter", "start") },
    ]
}

impl World {
    fn new(ground: &Ground, guard: Guard) -> Self {
        let mut world = Self {
            job: Job::default(),
            verdict: VerdictNow { link_up: true, ..VerdictNow::default() },
            want: Verdict::Wait,
            now: Mono::from_secs(1),
            flowed_at: Mono::ZERO,
            seq: 0,
            volts: 13_500,
            truth: Truth::default(),
            said: Advice::StartJob.into(),
            situation: Situation::default(),
            guard,
            people: false,
        };
        if ground.sheet.level.rim == Rim::Gauge {
            // Its chart is read at a temperature.
            let (celsius, u) = (c(40.0), Kelvins::from_f64(0.6).unwrap());
            let estimate = Estimate { celsius, u, kelvins_per_minute: None, fluid: None };
            world.verdict.estimate = Some(estimate);
            world.put(Body::Estimate(estimate));
        }
        if ground.people {
            world.people = true;
            world.put(Body::Link(LinkChange::People));
        }
        world.shows();
        world.settle();
        world
    }

    fn put(&mut self, body: Body) {
        self.seq += 1;
        self.job.apply(&Event { seq: Seq(self.seq), at: utc(self.now), mono_ms: self.now, body });
    }

    /// How warm the fluid is known to be.
    fn fluid(&mut self, celsius: f64) {
        let celsius = Celsius::from_f64(celsius).unwrap();
        let u = Kelvins::from_steps(60).unwrap();
        self.verdict.estimate = Some(Estimate { celsius, u, kelvins_per_minute: None, fluid: None });
    }

    fn read(&mut self, measure: Measure) {
        self.put(Body::Reading(Reading { measure, step: None, from: None, age_ms: 0 }));
    }

    /// The vehicle shows everything anew.
    fn shows(&mut self) {
        if self.people {
            return;
        }
        self.read(Measure::EngineSpeed(Rpm::from_steps(if self.truth.engine { 720 } else { 0 }).unwrap()));
        self.read(Measure::VehicleSpeed(KilometresPerHour::from_steps(0).unwrap()));
        self.read(Measure::Coolant(c(if self.truth.hot_engine { 120.0 } else { 20.0 })));
        self.read(Measure::IntakeAir(c(20.0)));
        self.read(Measure::ModuleVoltage(Millivolts::from_steps(self.volts).unwrap()));
    }

    /// What the gate makes of it, what follows, and what is said.
    fn settle(&mut self) {
        for _ in 0..20 {
            let gated = self.job.is_gated();
            let want = if gated { self.want } else { Verdict::Go };
            let go = want == Verdict::Go && self.job.is_running() && self.job.open(self.now).is_empty();
            let verdict = if want == Verdict::Go && !go { Verdict::Wait } else { want };
            let reasons = match verdict {
                _ if !gated => vec![Reason::NoBand],
                Verdict::Go => vec![Reason::InBand],
                Verdict::Wait if want == Verdict::Go => vec![Reason::PreconditionOpen],
                Verdict::Wait => vec![Reason::BelowBand],
                Verdict::TooHot => vec![Reason::AboveBand],
            };
            if verdict != self.verdict.verdict || self.verdict.reasons != reasons {
                let open = self.job.open(self.now);
                (self.verdict.verdict, self.verdict.reasons) = (verdict, reasons.clone());
                self.put(Body::Verdict {
                    verdict,
                    reasons,
                    open,
                    celsius: None,
                    u: None,
                    opens_in: None,
                    closes_in: None,
                    read_again_in: None,
                });
            }
            let bodies = self.job.follow(self.now, &self.verdict);
            let news = !bodies.is_empty();
            for body in bodies {
                self.put(body);
            }
            if news {
                continue;
            }
            let situation = self.job.situation(self.now, &self.verdict);
            let said = match self.guard {
                Guard::On => self.job.said_in(&situation),
                Guard::Off => job::wanted(&situation),
            };
            if said == self.said {
                self.situation = situation;
                return;
            }
            self.said = said;
            self.put(Body::Advice(said));
        }
        panic!("what is said does not come to rest");
    }

    /// The input happens. `None` where the job refuses the word.
    fn after(&self, input: Input, ground: &Ground) -> Option<Self> {
        match input {
            // Without an adapter it comes or goes, and then somebody says so; nobody says what is not so.
            Input::Engine(runs) if self.people && runs != self.truth.engine => {
                let mut world = self.clone();
                world.engine(runs, ground);
                let told = world.after(Input::Tell(Role::Inside, engine_word(runs)), ground);
                if told.is_none() {
                    world.settle();
                }
                return told.or(Some(world));
            }
            Input::Tell(_, words)
                if words.starts_with("engine") && words != engine_word(self.truth.engine) =>
            {
                return None;
            }
            _ => {}
        }
        let told = match input {
            Input::Tell(by, words) => Some((by, request(words))),
            Input::Fill(amount) => {
                Some((Role::Under, Request::Filled { millilitres: ml(amount), celsius: None }))
            }
            _ => None,
        };
        if let Some((by, request)) = told {
            let told = Told { id: self.seq.to_string(), by: Some(by), request };
            let decided = self.job.decide(&told, self.now, utc(self.now), &ground.sheet, &self.verdict);
            let bodies = match decided {
                Ok(bodies) => bodies,
                Err(refusal) => {
                    // A stand that was refused is kept all the same.
                    let kept = self.job.refused(&told, refusal)?;
                    let mut world = self.clone();
                    world.put(kept);
                    world.settle();
                    return Some(world);
                }
            };
            let mut world = self.clone();
            for body in bodies {
                world.put(body);
            }
            world.told(by, &told.request, ground);
            world.settle();
            return Some(world);
        }
        let mut world = self.clone();
        match input {
            Input::Tell(..) | Input::Fill(_) => {}
            Input::Engine(runs) if runs == world.truth.engine => return None,
            Input::Engine(runs) => world.engine(runs, ground),
            Input::Want(verdict) if verdict == world.want => return None,
            Input::Cooled if world.truth.engine || world.want == Verdict::TooHot => return None,
            // By a thermometer it is left to cool to below the band, by an identifier into it.
            Input::Cooled if ground.sheet.check.signal.is_typed() => {
                let [low, high] = ground.sheet.check.band_c;
                world.fluid(low - 0.2 * (high - low));
            }
            Input::Cooled => world.fluid(ground.sheet.check.band_c[0] + 0.5),
            Input::Want(verdict) => {
                let [low, high] = ground.sheet.check.band_c;
                world.fluid(match (verdict, world.want) {
                    (Verdict::Go, _) => f64::midpoint(low, high),
                    (Verdict::TooHot, _) => high + 2.0,
                    (Verdict::Wait, Verdict::TooHot) => high - 1.0,
                    (Verdict::Wait, _) => low - 10.0,
                });
                world.want = verdict;
                let gated = world.truth.look_of(ground).gate == LookGate::Band;
                if verdict != Verdict::Go && world.truth.open && gated {
                    world.truth.looked = 0;
                }
            }
            Input::Coolant(hot) if hot == world.truth.hot_engine => return None,
            Input::Coolant(hot) => world.truth.hot_engine = hot,
            Input::Battery(low) => world.volts = if low { 10_500 } else { 13_500 },
            Input::Wait(seconds) => {
                world.now = world.now.after(Duration::from_secs(seconds));
                let holds = if world.said.at(Role::Inside) == Advice::StartEngine {
                    if ground.people { 45 } else { 15 }
                } else {
                    300
                };
                world.truth.out &= world.truth.started || seconds < holds;
            }
        }
        world.shows();
        world.settle();
        Some(world)
    }

    /// The engine comes, or goes.
    fn engine(&mut self, runs: bool, ground: &Ground) {
        self.truth.engine = runs;
        if runs {
            self.truth.started = self.truth.out;
        } else {
            self.truth.out &= !self.truth.started;
            (self.truth.hot_engine, self.volts) = (false, 13_500);
        }
        self.truth.mm_old |= !runs && ground.sheet.level.rim == Rim::Gauge;
        // Each look has its own engine state, and another one spoils it.
        if self.truth.open && runs == self.truth.look_off(ground) {
            self.truth.looked = 0;
        }
    }

    /// What a told thing really did.
    fn told(&mut self, by: Role, request: &Request, ground: &Ground) {
        let flowed = self.now.since(self.flowed_at);
        self.truth.told(by, request, self.verdict.verdict, flowed, ground);
        if *request == Request::Undo {
            // What stays is what the amounts say; everything else that was done is still done.
            let balance = self.job.balance().unwrap();
            let ml = |amount: Option<Millilitres>| amount.map_or(0, Millilitres::steps);
            let t = &mut self.truth;
            t.net = ml(balance.filled_millilitres) - ml(balance.drained_millilitres);
            let gauge = ground.sheet.level.rim == Rim::Gauge;
            t.drawn = if gauge { ml(balance.ran_out_millilitres) } else { 0 };
            let s = self.job.situation(self.now, &self.verdict);
            t.look = usize::from(s.look);
            if usize::from(s.reads) < t.mm.iter().flatten().count() {
                (t.mm, t.looked) = ([None, t.mm[0]], t.looked.min(1));
            }
            if t.again && !s.drove {
                (t.drove, t.again) = (false, false);
            }
            let read = !gauge || t.mm_at == [t.net, t.drawn];
            let looked = t.looked == 2 && !t.open && t.net == t.right_at && t.is_last(ground);
            t.right = looked && read && !t.again;
            if t.open && !matches!(s.port, job::Port::Trickle | job::Port::Gush) {
                t.looked = t.looked.min(1);
            }
            t.by_amount(ground);
        }
        if *request == Request::Flowing {
            self.flowed_at = self.now;
        }
    }

    fn key(&self) -> u64 {
        let mut hasher = Mixed::default();
        (self.situation, self.truth, self.said.under, self.said.inside, self.want).hash(&mut hasher);
        hasher.finish()
    }
}

impl Truth {
    fn look_of(&self, ground: &Ground) -> Look {
        let looks = ground.sheet.looks();
        looks[self.look.min(looks.len() - 1)].clone()
    }

    fn is_last(&self, ground: &Ground) -> bool {
        self.look + 1 >= ground.sheet.looks().len()
    }

    fn look_off(&self, ground: &Ground) -> bool {
        self.look_of(ground).engine != LookEngine::Idle
    }

    /// Where there is no level to be seen, the amounts are the result.
    fn by_amount(&mut self, ground: &Ground) {
        if ground.sheet.level.rim == Rim::None {
            self.right =
                self.filled && self.drained >= 2_160 && (self.net + self.drained - 2_400).abs() <= 100;
        }
    }

    fn told(&mut self, by: Role, request: &Request, verdict: Verdict, flowed: Duration, ground: &Ground) {
        use Precondition as P;
        let confirms_clear = *request == Request::Confirm { what: P::Clear };
        if by == Role::Under && !confirms_clear {
            self.out = false;
        }
        let go = verdict == Verdict::Go;
        match request {
            Request::Start { .. } => {
                let Self { engine, alarm, hot_engine, .. } = *self;
                *self = Self { began: true, engine, alarm, hot_engine, ..Self::default() };
            }
            Request::Alarm { .. } => self.alarm = true,
            Request::Confirm { what } => match what {
                P::AllSafe => self.alarm = false,
                P::OnStands => self.stands = true,
                P::Parked => self.parked = true,
                P::ExhaustOutside => self.exhaust = true,
                P::FillPortOpen => self.fill_port = true,
                P::FluidRight => self.fluid_right = true,
                P::PipeIn => self.pipe_in = true,
                P::ClosedUp => self.closed_up = true,
                P::CoolerBypass => self.pin_in = true,
                P::BypassOut => self.pin_in = false,
                P::Refitted => self.refitted = true,
                P::Dry => self.wet = false,
                P::Clear if by == Role::Under || ground.alone => (self.out, self.started) = (true, false),
                P::BrakeHeld => self.brake = true,
                P::SelectorCycled => (self.cycled, self.out) = (true, false),
                _ => {}
            },
            Request::Drained { millilitres, .. } => {
                self.net -= millilitres.steps();
                (self.pipe_in, self.closed_up, self.wrong_in, self.right) = (false, false, false, false);
                self.cycled = false;
                if self.net < self.right_at.min(0) {
                    self.look = 0;
                }
                self.drained += if self.filled { 0 } else { millilitres.steps() };
                self.by_amount(ground);
            }
            Request::Filled { millilitres, .. } => {
                self.net += millilitres.steps();
                (self.right, self.filled) = (false, true);
                if self.open {
                    self.looked = 0;
                }
                self.closed_up &= self.engine;
                self.by_amount(ground);
            }
            Request::RanOut { millilitres, .. } if ground.sheet.level.rim == Rim::Gauge => {
                self.drawn += millilitres.steps();
                self.right = false;
            }
            Request::Gauge { millimetres } => {
                let mm = millimetres.to_f64() as i32;
                let anew = self.mm_old || self.mm_at != [self.net, self.drawn];
                self.mm = [if anew { None } else { self.mm[1] }, Some(if go { mm } else { 0 })];
                (self.mm_old, self.mm_at) = (false, [self.net, self.drawn]);
                let alike = matches!(self.mm, [Some(a), Some(b)] if a > 0 && b > 0 && (a - b).abs() <= 2);
                // 32 to 42 mm at 40 °C, says the chart.
                self.right = alike && (32..=42).contains(&mm);
                (self.looked, self.right_at) = (1 + u8::from(self.right), self.net);
            }
            Request::Spilled { .. } => self.wet = true,
            Request::FluidWrong => {
                self.fluid_right = false;
                self.wrong_in |= self.net > -2_400 && self.began;
            }
            Request::Flowing => {
                self.again = false;
                (self.open, self.right, self.refitted) = (true, false, false);
                self.looked = u8::from(go);
            }
            Request::NothingFlows => {
                self.again = false;
                (self.open, self.right, self.refitted) = (true, false, false);
                self.looked = u8::from(go && self.look_of(ground).right == Right::FirstDrips);
            }
            Request::Trickle | Request::Drips => {
                let right = self.look_of(ground).right;
                // Where amounts promise a stream of a pipe, 15 s tell it from a gush.
                let pipe = matches!(ground.sheet.level.rim, Rim::Pipe | Rim::JobPipe);
                let long = flowed >= Duration::from_secs(15) || self.net < 100 || !pipe;
                let first = *request == Request::Drips && matches!(right, Right::Drips | Right::FirstDrips);
                let seen = self.looked == 1 || first;
                (self.open, self.refitted, self.right) = (true, false, false);
                self.looked = if seen && go && long { 2 } else { 0 };
            }
            Request::AtEdge => {
                self.again = false;
                (self.open, self.refitted, self.right) = (true, false, false);
                self.looked = if go { 2 } else { 0 };
            }
            Request::BelowEdge { .. } => {
                self.again = false;
                (self.open, self.refitted, self.right, self.looked) = (true, false, false, 0);
            }
            Request::Closed => {
                self.open = false;
                let good = self.looked == 2 && go;
                self.right = good && self.is_last(ground);
                self.look += usize::from(good && !self.is_last(ground));
                self.right_at = if good { self.net } else { self.right_at };
            }
            Request::TestDriven => {
                (self.stands, self.out) = (false, false);
                if self.look_of(ground).after_drive && !self.drove && self.right {
                    (self.drove, self.again, self.right, self.parked) = (true, true, false, false);
                }
            }
            Request::Done | Request::Abort { .. } => self.ended = true,
            _ => {}
        }
    }

    /// What must never be said then, in words. The table's hard stops, written once more from the truth.
    fn forbids(&self, advice: Advice, seat: Role, ground: &Ground) -> Option<&'static str> {
        if !self.began || self.ended {
            return None;
        }
        let ask = asks(advice);
        let out = self.out || ground.alone;
        let upper = ground.sheet.level.fill_from == FillFrom::UpperPort;
        let changes = !ground.start.contains("check");
        let short = self.net < -70 && !self.right && self.look == 0;
        let before_start = upper || ground.sheet.level.fill_from == FillFrom::GaugeTube;
        let rows: [(bool, &'static str); 16] = [
            (
                matches!(advice, Advice::ReadGauge | Advice::ReadAgain) && !(self.engine && self.parked),
                "a gauge to be read at a vehicle that may roll, or with the engine off",
            ),
            (ask.has(Ask::START) && ground.sheet.level.drive == Drive::None, "a start of what has no engine"),
            (
                self.alarm
                    && ask.has(Ask::BELOW.and(Ask::START).and(Ask::IDLE).and(Ask::DRIVE).and(Ask::SHIFT)),
                "somebody is in danger",
            ),
            (ask.has(Ask::START) && !out, "a start with somebody below"),
            (ask.has(Ask::START) && !(self.parked && self.exhaust && self.closed_up), "a start unprepared"),
            (ask.has(Ask::START) && self.open, "a start with the port open"),
            (
                ask.has(Ask::START) && changes && (short && before_start || self.wrong_in || self.wet),
                "a start on what would harm",
            ),
            (
                ask.has(Ask::SHIFT) && !(out && self.brake && self.engine),
                "the selector with somebody below, or no brake",
            ),
            (ask.has(Ask::DRIVE) && !(out && self.right), "a drive that is not set, or with somebody below"),
            (
                ask.has(Ask::DRIVE) && changes && self.pin_in && ground.sheet.before.cooler_bypass,
                "a drive with the pin in",
            ),
            (
                ask.has(Ask::DRIVE) && !self.refitted && !ground.sheet.access.is_empty(),
                "a drive with the wheel off",
            ),
            (
                ask.has(Ask::STOP) && self.open && self.engine && !self.hot_engine && !self.alarm,
                "a stop with the port open",
            ),
            (
                ask.has(Ask::OPEN) && !(self.engine != self.look_off(ground) && self.stands),
                "an opening with the engine as the look has it not, or without stands",
            ),
            (
                ask.has(Ask::BELOW) && seat == Role::Under && !self.open && !(self.stands && self.parked),
                "below without stands or brake",
            ),
            (
                matches!(advice, Advice::Drain | Advice::DrainAgain)
                    && !(self.fluid_right && (self.fill_port || !upper)),
                "a drain unprepared",
            ),
            (ask.has(Ask::FILL) && !self.fluid_right, "a fill of nobody knows what"),
        ];
        rows.into_iter().find(|(holds, _)| *holds).map(|(_, what)| what)
    }
}

const fn engine_word(runs: bool) -> &'static str {
    if runs { "engine idling" } else { "engine stopped" }
}

/// What may happen at any moment.
#[rustfmt::skip]
fn inputs() -> Vec<Input> {
    use Role::{Inside as I, Under as U};
    let told = [
        (U, "confirm on-stands"), (I, "confirm parked"), (U, "confirm exhaust-outside"), (U, "confirm vehicle-level"),
        (U, "level 0.1 -0.1"), (U, "level 1.2 0"), (U, "confirm fill-port-open"), (U, "confirm fluid-right"),
        (U, "confirm cooler-bypass"), (U, "confirm pipe-in"), (U, "confirm closed-up"), (U, "confirm clear"),
        (I, "confirm clear"), (I, "confirm brake-held"), (I, "confirm selector-cycled"), (U, "confirm bypass-out"),
        (U, "confirm no-leak"), (U, "confirm refitted"), (I, "confirm mode-on"), (I, "confirm ready-off"),
        (U, "confirm dry"), (U, "confirm all-safe"), (U, "drained 2400"), (U, "drained 500"), (U, "spilled 100 filled"),
        (U, "ran-out 500"), (U, "ran-out 20"), (U, "ran-out 3000"), (U, "flowing"), (U, "nothing-flows"), (U, "trickle"),
        (U, "closed"), (U, "torqued"), (U, "test-driven"), (U, "leak drops"), (I, "no-drive"), (U, "fluid-wrong"),
        (U, "gauge 37"), (U, "gauge 20"), (U, "gauge 60"),
        (U, "drips"), (U, "at-edge"), (U, "below-edge 20"), (I, "confirm in-position"), (I, "alarm air"), (U, "alarm fire"), (I, "alarm caught"), (U, "alarm burn"), (U, "undo"), (U, "note x"), (I, "note x"),
        (U, "done"), (U, "confirm started-cold"), (I, "engine idling"), (I, "engine stopped"),
    ];
    let mut all: Vec<Input> = told.into_iter().map(|(by, words)| Input::Tell(by, words)).collect();
    all.extend([Input::Fill(2_870), Input::Fill(500), Input::Fill(4_500)]);
    all.extend([Input::Engine(true), Input::Engine(false), Input::Want(Verdict::Go), Input::Want(Verdict::Wait)]);
    all.extend([Input::Want(Verdict::TooHot), Input::Cooled, Input::Coolant(true), Input::Battery(true), Input::Wait(20), Input::Wait(400)]);
    all
}

/// What somebody does who does what is said; `None` where the job has ended.
fn obeys(world: &World, ground: &Ground) -> Option<Input> {
    use Role::{Inside as I, Under as U};
    let (said, s) = (world.said, world.situation);
    let confirm = |what: Precondition| {
        use Precondition::{BrakeHeld, InPosition, ModeOn, Parked, ReadyOff, SelectorCycled};
        let by = if matches!(what, InPosition | Parked | BrakeHeld | SelectorCycled | ModeOn | ReadyOff) {
            I
        } else {
            U
        };
        let words = inputs().into_iter().find_map(|input| match input {
            Input::Tell(who, words) if who == by && words == format!("confirm {what}") => Some(words),
            _ => None,
        });
        Input::Tell(by, words.unwrap_or_else(|| panic!("nobody can confirm {what}")))
    };
    let amount = said.millilitres.map_or(500, Millilitres::steps);
    let inside = said.at(I);
    // The engine first, where the one inside is told so.
    if matches!(inside, Advice::StopEngine | Advice::StopNow | Advice::StopAndCool | Advice::ChargeBattery)
        && world.truth.engine
    {
        return Some(Input::Engine(false));
    }
    if inside == Advice::StartEngine && !world.truth.engine {
        return Some(Input::Engine(true));
    }
    if inside == Advice::AskEngine
        && (s.ask_engine || s.engine_silent)
        && !matches!(said.advice, Advice::ClosePort | Advice::ClosePortEngine)
    {
        return Some(Input::Tell(I, engine_word(world.truth.engine)));
    }
    if inside == Advice::StartEngine && s.people {
        // It ran already.
        return Some(Input::Tell(I, engine_word(true)));
    }
    if said.advice == Advice::ConfirmOpen && s.cold_untold {
        return Some(Input::Tell(U, "confirm started-cold"));
    }
    Some(match said.advice {
        Advice::Recheck | Advice::SetAgain => return None,
        advice if advice.awaits().is_some() => confirm(advice.awaits().unwrap()),
        Advice::StartJob => Input::Tell(U, ground.start),
        Advice::PrepareVehicle if !s.stands => Input::Tell(U, "confirm on-stands"),
        Advice::PrepareVehicle if !s.exhaust => Input::Tell(U, "confirm exhaust-outside"),
        Advice::PrepareVehicle | Advice::ShimStands => Input::Tell(U, "level 0.1 -0.1"),
        Advice::Drain | Advice::DrainAgain => Input::Tell(U, "drained 2400"),
        // As much as there is.
        Advice::DrainWrong if world.after(Input::Tell(U, "drained 2400"), ground).is_none() => {
            Input::Tell(U, "drained 500")
        }
        Advice::DrainWrong => Input::Tell(U, "drained 2400"),
        Advice::LetOut => Input::Tell(U, "drained 500"),
        Advice::ReadJug => Input::Tell(U, "ran-out 100"),
        Advice::FillMore if s.port.is_open() => Input::Tell(U, "closed"),
        Advice::FillToEdge if s.port.is_open() => Input::Tell(U, "flowing"),
        Advice::FillToEdge => Input::Fill(900),
        Advice::Fill | Advice::FillFirst | Advice::FillMore | Advice::AddAmount | Advice::FillHere => {
            Input::Fill(amount)
        }
        Advice::Settle => Input::Wait(65),
        Advice::WatchDrips => Input::Tell(U, "drips"),
        Advice::OpenPortOff | Advice::LookAtEdge | Advice::LetSome if s.height => Input::Tell(U, "at-edge"),
        Advice::OpenPortOff | Advice::HoseOut => Input::Tell(U, "flowing"),
        Advice::ClosePort
        | Advice::ClosePortWait
        | Advice::ClosePortCool
        | Advice::CloseTooMuch
        | Advice::ClosePortEngine
        | Advice::StillFlowing => Input::Tell(U, "closed"),
        Advice::StopAndCool | Advice::StayAway if world.truth.hot_engine => Input::Coolant(false),
        Advice::StopAndCool | Advice::StayAway if s.cooling && world.want != Verdict::TooHot => Input::Cooled,
        Advice::StayClear | Advice::BeReady | Advice::StopAndCool | Advice::StayAway
            if world.want != Verdict::Go =>
        {
            Input::Want(if world.want == Verdict::TooHot { Verdict::Wait } else { Verdict::Go })
        }
        Advice::OpenPort => Input::Tell(U, "flowing"),
        Advice::ReadGauge | Advice::ReadAgain => Input::Tell(U, "gauge 37"),
        Advice::DrawOut => Input::Tell(U, "ran-out 20"),
        Advice::WatchStream | Advice::WatchOff
            if world.now.since(world.flowed_at) < Duration::from_secs(20) =>
        {
            Input::Wait(20)
        }
        Advice::WatchStream | Advice::WatchOff => {
            Input::Tell(U, if said.right.is_none() { "trickle" } else { "drips" })
        }
        Advice::Tighten => Input::Tell(U, "torqued"),
        Advice::TestDrive => Input::Tell(U, "test-driven"),
        Advice::Answer | Advice::CallBelow => Input::Tell(U, "note x"),
        Advice::LookWhyLow | Advice::Finish => Input::Tell(U, "done"),
        other => panic!("nobody knows what to do at `{other}`: {said:?}\n{s:?}"),
    })
}

/// One searched state: how it was reached.
struct Node {
    from: Option<(usize, Input)>,
}

struct Search<'a> {
    ground: &'a Ground,
    guard: Guard,
    seen: Seen,
    nodes: Vec<Node>,
    /// States from which whoever does what is said comes to a result.
    ends: Seen,
}

impl<'a> Search<'a> {
    fn new(ground: &'a Ground, guard: Guard) -> Self {
        Self { ground, guard, seen: Seen::default(), nodes: Vec::new(), ends: Seen::default() }
    }

    fn way(&self, mut at: usize) -> String {
        let mut way = Vec::new();
        while let Some((from, input)) = self.nodes[at].from {
            way.push(format!("  {input:?}"));
            at = from;
        }
        way.reverse();
        format!("{}:\n{}", self.ground.name, way.join("\n"))
    }

    /// Everything that must hold in a state.
    fn judge(&mut self, world: &World, at: usize) {
        let s = world.situation;
        for seat in [Role::Under, Role::Inside] {
            let advice = world.said.at(seat);
            if let Some(rule) = harms(&s, advice, seat) {
                panic!("`{advice}` to {seat} breaks `{}` after {}\n{s:?}", rule.id, self.way(at));
            }
            if let Some(what) = world.truth.forbids(advice, seat, self.ground) {
                panic!("`{advice}` to {seat}: {what}, after {}\n{:?}", self.way(at), world.truth);
            }
        }
        self.comes_to_an_end(world, at);
    }

    fn comes_to_an_end(&mut self, world: &World, at: usize) {
        let (mut next, mut done, mut passed) = (Cow::Borrowed(world), Vec::new(), Vec::new());
        let told = |done: &[(Advice, Input)]| {
            let lines = done.iter().take(12).map(|(advice, input)| format!("  {advice} -> {input:?}"));
            lines.collect::<Vec<_>>().join("\n")
        };
        for _ in 0..120 {
            let key = next.key();
            if self.ends.contains(&key) {
                self.ends.extend(passed);
                return;
            }
            passed.push(key);
            let Some(input) = obeys(&next, self.ground) else {
                self.ends.extend(passed);
                return;
            };
            done.push((next.said.advice, input));
            let Some(after) = next.after(input, self.ground) else {
                panic!("what is said is refused, after {}\nthen\n{}", self.way(at), told(&done));
            };
            next = Cow::Owned(after);
        }
        panic!("no end, after {}\nthen\n{}\n{:?}", self.way(at), told(&done), next.situation);
    }

    /// The state of a node: the moment of the good job that its way began at, and the way from there. States are not kept:
    /// a hundred thousand of them would be a gigabyte.
    fn world(&self, moments: &[(World, usize)], mut at: usize) -> World {
        let mut inputs = Vec::new();
        loop {
            if let Ok(found) = moments.binary_search_by_key(&at, |(_, moment)| *moment) {
                let mut world = moments[found].0.clone();
                for input in inputs.into_iter().rev() {
                    world = world.after(input, self.ground).expect("it was reached so");
                }
                return world;
            }
            let (from, input) = self.nodes[at].from.expect("every way begins at a moment of the good job");
            inputs.push(input);
            at = from;
        }
    }

    /// Every moment of the good job, each judged.
    fn moments(&mut self) -> Vec<(World, usize)> {
        let mut moments = Vec::new();
        let mut world = World::new(self.ground, self.guard);
        loop {
            let from = self.nodes.len().checked_sub(1);
            let input = obeys(&world, self.ground);
            if self.seen.insert(world.key()) {
                if self.nodes.is_empty() {
                    self.nodes.push(Node { from: None });
                }
                let at = self.nodes.len() - 1;
                self.judge(&world, at);
                moments.push((world.clone(), at));
            }
            let Some(input) = input else { break };
            world = world.after(input, self.ground).unwrap_or_else(|| panic!("the good job: {input:?}"));
            self.nodes.push(Node { from: from.or(Some(0)).map(|from| (from, input)) });
        }
        assert!(world.truth.right, "{}: the good job sets the level", self.ground.name);
        moments
    }

    /// Breadth first from every moment of the good job, until so many states were seen; gives the depth that was reached.
    fn run(&mut self, states: usize) -> usize {
        let moments = self.moments();
        let mut inputs = inputs();
        if self.ground.sheet.level.rim != Rim::Gauge {
            inputs.retain(|input| !matches!(input, Input::Tell(_, words) if words.starts_with("gauge")));
        }
        let mut layer: Vec<usize> = moments.iter().map(|(_, at)| *at).collect();
        let mut depth = 0;
        while !layer.is_empty() {
            depth += 1;
            let mut next = Vec::new();
            for from in layer {
                let world = self.world(&moments, from);
                for input in &inputs {
                    let Some(after) = world.after(*input, self.ground) else { continue };
                    if !self.seen.insert(after.key()) {
                        continue;
                    }
                    self.nodes.push(Node { from: Some((from, *input)) });
                    let at = self.nodes.len() - 1;
                    self.judge(&after, at);
                    if self.seen.len() >= states {
                        return depth;
                    }
                    next.push(at);
                }
            }
            layer = next;
        }
        depth
    }
}

/// So many states in all, at least.
const STATES: usize = 1_000_000;
/// So many of each further procedure of the trade.
const STATES_OF_THE_TRADE: usize = 4_000;

/// The procedures of the trade, one a sheet, with the amounts that the inputs tell.
fn trade() -> Vec<Ground> {
    let ids = [
        "pipe-margin",
        "pipe-first-drips",
        "pipe-rim-then-amount",
        "pipe-below-two-looks",
        "pipe-below-portions",
        "pipe-below-steady",
        "pipe-lamp",
        "pipe-display",
        "pipe-wave",
        "side-hole-drip",
        "fill-hole-idle",
        "fill-hole-two-looks",
        "fill-hole-at-rest",
        "after-stop-span",
        "gauge-chart",
        "amount-only",
        "motor-drive",
        "small-unit",
    ];
    let ground = |name: &'static str| {
        let mut sheet = bench::procedure(name);
        (sheet.fluid.total_ml, sheet.fluid.drain_ml) = (6_500.0, 2_400.0);
        Ground { name, sheet, start: "start", alone: false, people: false }
    };
    ids.map(ground).into()
}

/// What has words of its own in a check, for one person, or with an engine that stops by itself.
fn variants() -> Vec<Ground> {
    let of = |name, start: &'static str| {
        let sheet = trade().into_iter().find(|ground| ground.name == name).unwrap().sheet;
        Ground { name, sheet, start, alone: start.ends_with("one"), people: false }
    };
    let mut at_will = of("gauge-chart", "start");
    at_will.sheet.level.drive = Drive::EngineAtWill;
    let mut rest = of("fill-hole-at-rest", "start");
    rest.sheet.look[0].after_drive = true;
    vec![
        of("gauge-chart", "start change one"),
        of("gauge-chart", "start check two"),
        of("motor-drive", "start check one"),
        at_will,
        rest,
    ]
}

#[test]
fn every_procedure_of_the_trade_is_searched_and_comes_to_a_level_that_is_set() {
    let mut grounds = trade();
    grounds.extend(variants());
    let grounds = grounds;
    std::thread::scope(|scope| {
        for half in grounds.chunks(grounds.len().div_ceil(2)) {
            scope.spawn(move || {
                for ground in half {
                    Search::new(ground, Guard::On).run(STATES_OF_THE_TRADE);
                }
            });
        }
    });
}

#[test]
fn nothing_that_harms_is_said_in_any_state_and_every_state_has_a_way_to_a_result() {
    let began = std::time::Instant::now();
    let grounds = grounds();
    let of_each = STATES.div_ceil(grounds.len());
    let next = AtomicUsize::new(0);
    let work = || {
        let mut counts = Vec::new();
        while let Some(ground) = grounds.get(next.fetch_add(1, Ordering::Relaxed)) {
            let mut search = Search::new(ground, Guard::On);
            let depth = search.run(of_each);
            counts.push((ground.name, search.seen.len(), depth));
        }
        counts
    };
    let counts: Vec<(&str, usize, usize)> = std::thread::scope(|scope| {
        let threads = std::thread::available_parallelism().map_or(1, usize::from);
        let threads: Vec<_> = (0..threads).map(|_| scope.spawn(work)).collect();
        threads.into_iter().flat_map(|thread| thread.join().unwrap_or_else(|e| resume_unwind(e))).collect()
    });
    let all: usize = counts.iter().map(|(_, states, _)| states).sum();
    println!("{all} states in {:?}; of each procedure states and depth: {counts:?}", began.elapsed());
    // A procedure whose states are all seen before its share is used up counts with what it has.
    assert!(all >= STATES, "{counts:?}");
}

#[test]
fn without_the_guard_the_search_finds_what_harms_and_prints_the_way() {
    let grounds = grounds();
    let found = std::panic::catch_unwind(|| Search::new(&grounds[0], Guard::Off).run(5_000)).unwrap_err();
    let found = found.downcast_ref::<String>().unwrap();
    assert!(found.contains("breaks `") || found.contains("with somebody below"), "{found}");
    assert!(found.contains("pipe, two people:\n  Tell(Under, \"start\")"), "the way to it: {found}");
}

/// What a check asks beside the work, answered where it is asked: one tap each.
fn answers(world: &World) -> Option<Input> {
    let words = match world.said.asks? {
        Question::Symptoms => "symptom none",
        Question::Leaks => "leak dry",
        Question::LeakPlace => "leak-at pan",
        Question::Fluid => "fluid-looks red",
    };
    Some(Input::Tell(Role::Under, words))
}

/// Everything that is told in the good job, in its order; amounts need a number, all else is one tap.
fn told_in_the_good_job(ground: &Ground) -> Vec<&'static str> {
    let (mut world, mut told) = (World::new(ground, Guard::On), Vec::new());
    while let Some(input) = answers(&world).or_else(|| obeys(&world, ground)) {
        match input {
            Input::Tell(_, words) => told.push(words),
            Input::Fill(_) => told.push("filled"),
            _ => {}
        }
        world = world.after(input, ground).expect("the good job");
    }
    assert!(world.truth.right && world.truth.ended, "{told:?}");
    told
}

/// Common practice, no source: what the trade's page counts for a job in which nothing goes wrong.
#[test]
fn a_good_job_takes_few_taps_and_asks_nothing_that_the_vehicle_shows() {
    let grounds = grounds();
    for (name, most) in
        [("pipe, two people", 26), ("pipe, alone", 30), ("pin, wheel off", 28), ("check, two people", 26)]
    {
        let ground = grounds.iter().find(|ground| ground.name == name).unwrap();
        let told = told_in_the_good_job(ground);
        println!("{name}: {} taps: {told:?}", told.len());
        assert!(told.len() <= most, "{name}: {} taps: {told:?}", told.len());
        let shown = ["engine-running", "engine-idling", "standing-still", "started-cold", "filled"];
        for what in shown {
            assert!(
                !told.contains(&format!("confirm {what}").as_str()),
                "{name}: {what} is shown by the vehicle"
            );
        }
        let typed = told
            .iter()
            .filter(|words| ["drained", "filled", "ran-out", "level"].iter().any(|w| words.starts_with(w)));
        assert!(typed.count() <= 4, "{name}: only amounts and the stand are typed: {told:?}");
    }
}
