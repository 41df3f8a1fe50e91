//! The stage: program, vehicle and technician in one thread, in lock-step, without a socket and without sleeping.
//!
//! ```text
//!            bytes             events, words
//!     car ◄────────► program ◄───────────────► technician ──► hands on the car's world
//!      └── all work of this instant is done before time jumps to the earliest deadline of the three ──┘
//! ```
//!
//! In: a [`Program`] and a [`Setup`]. Out: an [`Ending`] with the result beside the truth. At every instant it is
//! checked that the verdict is not `go` while the true temperature lies outside the band.
//! Not here: the real program behind sockets (the `service` crate); a virtual clock for it (`clock.rs`).

use std::time::Duration;

use events::{Body, Durability, Event, JobResult, Reason, Told, Verdict, Word};
use units::{Kelvins, Mono};

use crate::car::Car;
use crate::go_time::{GoTime, Ruling, Times};
use crate::harm::Harm;
use crate::liveness::Liveness;
use crate::observer::{Observer, Possible};
use crate::setup::{Keep, Setup};
use crate::technician::Technician;
use crate::world::true_signal;

/// What the stage needs of a program. All work is done inside these calls; nothing sleeps.
pub trait Program {
    /// The adapter's port could be opened.
    fn link_opened(&mut self, now: Mono);
    /// The adapter's port is gone.
    fn link_closed(&mut self, now: Mono, why: &str);
    /// Bytes from the adapter.
    fn bytes(&mut self, bytes: &[u8], now: Mono);
    /// A person tells something: accepted or refused.
    fn tell(&mut self, told: &Told, now: Mono) -> Word;
    /// The deadline has come.
    fn wake(&mut self, now: Mono);
    /// Bytes for the adapter, until none are left.
    fn poll_bytes(&mut self, now: Mono) -> Option<Vec<u8>>;
    /// What happened, until nothing is left.
    fn poll_event(&mut self) -> Option<Event>;
    /// When the program wants to be woken.
    fn deadline(&self) -> Option<Mono>;
    /// Whether the program wants its port closed and opened again; asked after each piece of work, answers once.
    fn wants_reopen(&mut self) -> bool {
        false
    }
}

/// How a rehearsal ended.
#[derive(Debug, Clone)]
pub struct Ending {
    /// The result that the program wrote; none where it wrote none.
    pub result: Option<JobResult>,
    /// What only the simulation knows.
    pub truth: Truth,
    /// The events, as far as they were kept.
    pub events: Vec<Event>,
    /// Each time the verdict was `go` while the true signal lay outside the band: the worst moment of each `go`.
    pub false_go: Vec<FalseGo>,
    /// What the technician did, with the second.
    pub doings: Vec<(Mono, String)>,
    /// The first `go`: when, and the standard uncertainty then.
    pub first_go: Option<(Mono, Kelvins)>,
    /// How long it was `go`, how much of that was false, how long it was withheld.
    pub times: Times,
    /// Whether `go` was possible, by the truth.
    pub possible: Option<Possible>,
    /// Since when the signal was not read in time though nothing was wrong; none: it always was.
    pub mute: Option<Mono>,
    /// The first advice that would have harmed whoever obeyed it, by the truth; none where somebody told what was not
    /// so.
    pub harm: Option<String>,
    /// When it ended.
    pub ended: Mono,
    /// Whether it ended by itself, not by the limit of time.
    pub by_itself: bool,
}

/// What only the simulation knows.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Truth {
    /// How far the level is off, mL; positive is too much.
    pub level_error_ml: f64,
    /// The fluid when the check port was closed for the last time, °C.
    pub fluid_celsius_at_close: Option<f64>,
    /// What ran out at the check port, mL as it was then.
    pub ran_out_ml: f64,
    /// What was missing before the job, mL.
    pub shortage_before_ml: f64,
    /// How far the level was off before anybody touched it, mL, told as the level at the end is.
    pub level_error_before_ml: f64,
    /// The attitude at the end: pitch and roll, degrees.
    pub attitude_degrees: (f64, f64),
    /// The fluid at the end, °C.
    pub fluid_celsius: f64,
}

/// A `go` while the true signal lay outside the band.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FalseGo {
    /// When it was worst.
    pub at: Mono,
    /// The true signal, °C.
    pub true_celsius: f64,
    /// How far outside the band, K.
    pub outside_k: f64,
    /// What the program stated then: k times its standard uncertainty, K.
    pub stated_k: f64,
}

impl FalseGo {
    /// Whether it lay outside by more than was stated: a wrong `go`.
    pub fn is_wrong(&self) -> bool {
        self.outside_k > self.stated_k
    }
}

/// Runs the rehearsal to its end.
pub fn run(program: &mut dyn Program, setup: &Setup) -> Ending {
    Stage::new(setup).run(program)
}

struct Stage<'a> {
    setup: &'a Setup,
    car: Car,
    technician: Technician,
    now: Mono,
    link: Link,
    verdict: Verdict,
    reasons: Vec<Reason>,
    /// A job runs, and the program lists nothing as open.
    clear: bool,
    u: Kelvins,
    observer: Observer,
    go_time: GoTime,
    liveness: Liveness,
    harm: Harm,
    worst: Option<FalseGo>,
    port_was_open: bool,
    ending: Ending,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Link {
    Open,
    /// Tried again then.
    Closed {
        retry: Mono,
    },
}

impl<'a> Stage<'a> {
    fn new(setup: &'a Setup) -> Self {
        Self {
            car: setup.car(),
            technician: setup.technician(),
            setup,
            now: Mono::ZERO,
            link: Link::Closed { retry: Mono::ZERO },
            verdict: Verdict::Wait,
            reasons: Vec::new(),
            clear: false,
            observer: Observer::new(&setup.sheet, setup.firmware, setup.bus, setup.script.people),
            go_time: GoTime::new(&setup.sheet),
            liveness: Liveness::new(&setup.sheet, setup.firmware, setup.bus),
            u: Kelvins::ZERO,
            harm: Harm::new(&setup.sheet),
            worst: None,
            port_was_open: false,
            ending: Ending {
                result: None,
                truth: Truth::default(),
                events: Vec::new(),
                false_go: Vec::new(),
                doings: Vec::new(),
                first_go: None,
                times: Times::default(),
                possible: None,
                mute: None,
                harm: None,
                ended: Mono::ZERO,
                by_itself: false,
            },
        }
    }

    fn run(mut self, program: &mut dyn Program) -> Ending {
        while self.now < LIMIT {
            self.settle(program);
            self.judge();
            if self.technician.finished() {
                self.ending.by_itself = true;
                break;
            }
            self.now = self.next(program);
        }
        self.end()
    }

    /// Does all work of this instant, in a fixed order, until nobody has any.
    fn settle(&mut self, program: &mut dyn Program) {
        if program.deadline().is_some_and(|at| at <= self.now) {
            program.wake(self.now);
        }
        self.car.handle_timeout(self.now);
        self.harm.look(self.car.world(), self.now);
        for _ in 0..MOST_ROUNDS {
            let moved = self.follow_the_plug(program);
            let spoke = self.carry_bytes(program);
            while let Some(event) = program.poll_event() {
                self.see(event);
            }
            let acted = self.let_the_technician_work(program);
            // Asked while the port is closed too: then the wish is granted already.
            let reopens = program.wants_reopen() && self.link == Link::Open;
            if reopens {
                self.link = Link::Closed { retry: self.now.after(RETRY) };
                self.car.host_closed(self.now);
                program.link_closed(self.now, "closed to be opened again");
            }
            // The program may have bytes and events after it was told something; what was only heard is done with.
            if !(moved || spoke || acted || reopens) {
                return;
            }
        }
    }

    /// Bytes in both directions until neither side has any; whether the car said any, after which there may be more to
    /// do.
    fn carry_bytes(&mut self, program: &mut dyn Program) -> bool {
        if self.link != Link::Open {
            // Nobody holds the other end: what either side says is lost.
            while program.poll_bytes(self.now).is_some() || self.car.poll_transmit(self.now).is_some() {}
            return false;
        }
        let mut spoke = false;
        for _ in 0..MOST_ROUNDS {
            while let Some(bytes) = program.poll_bytes(self.now) {
                self.car.handle_bytes(&bytes, self.now);
            }
            let Some(bytes) = self.car.poll_transmit(self.now) else { return spoke };
            program.bytes(&bytes, self.now);
            spoke = true;
        }
        spoke
    }

    /// His hands and his words; whether he told anything or moved anything.
    fn let_the_technician_work(&mut self, program: &mut dyn Program) -> bool {
        let acts = self.technician.poll_timeout().is_some_and(|at| at <= self.now);
        if acts {
            self.technician.handle_timeout(self.now, self.car.world_mut());
        }
        let mut told_any = false;
        while let Some(told) = self.technician.poll_tell() {
            let word = program.tell(&told, self.now);
            self.technician.handle_word(&word);
            told_any = true;
        }
        while let Some(deed) = self.technician.poll_doing() {
            self.ending.doings.push((self.now, deed));
        }
        acts || told_any
    }

    /// Opens the link while the adapter is plugged in, closes it when it is pulled.
    fn follow_the_plug(&mut self, program: &mut dyn Program) -> bool {
        if self.setup.script.people {
            // There is no adapter, and no port to be opened.
            return false;
        }
        match (self.link, self.car.plugged()) {
            (Link::Open, false) => {
                self.link = Link::Closed { retry: self.now.after(RETRY) };
                self.car.host_closed(self.now);
                program.link_closed(self.now, "the adapter was pulled");
                true
            }
            (Link::Closed { retry }, true) if retry <= self.now => {
                self.link = Link::Open;
                self.car.host_opened(self.now);
                program.link_opened(self.now);
                true
            }
            (Link::Closed { retry }, false) if retry <= self.now => {
                self.link = Link::Closed { retry: self.now.after(RETRY) };
                false
            }
            _ => false,
        }
    }

    fn see(&mut self, event: Event) {
        match &event.body {
            Body::Verdict { verdict, u, reasons, open, .. } => {
                self.verdict = *verdict;
                self.clear = open.is_empty() && !reasons.contains(&Reason::NoJob);
                self.reasons.clone_from(reasons);
                self.u = u.unwrap_or(self.u);
            }
            Body::Estimate(estimate) => self.u = estimate.u,
            Body::Reading(reading)
                if reading.measure.quantity() == self.setup.sheet.check.signal.quantity() =>
            {
                self.liveness.read(self.now);
            }
            Body::Advice(said) => self.harm.hear(said, self.technician.place(), self.car.world(), self.now),
            Body::Result(result) => self.ending.result = Some(result.clone()),
            _ => {}
        }
        self.technician.handle_event(&event, self.now);
        let kept = match self.setup.keep {
            Keep::Nothing => false,
            Keep::Facts => event.body.durability() == Durability::Fact,
            Keep::All => true,
        };
        if kept {
            self.ending.events.push(event);
        }
    }

    /// Is the verdict `go` while the truth lies outside the band?
    fn judge(&mut self) {
        let world = self.car.world();
        let open = world.check_port() == crate::sump::Port::Open;
        if self.port_was_open && !open {
            self.ending.truth.fluid_celsius_at_close = Some(world.fluid_celsius());
        }
        self.port_was_open = open;
        self.observer.see(self.now, &self.car, self.clear, &self.reasons);
        let healthy = self.clear && self.observer.is_healthy(self.now, &self.car);
        let said = Ruling { verdict: self.verdict, reasons: &self.reasons, healthy };
        self.go_time.see(self.now, world, said);
        self.liveness.see(self.now, &self.car);
        if self.verdict == Verdict::Go {
            self.ending.first_go.get_or_insert((self.now, self.u));
        }
        // A look that asks for no temperature has no band to be outside of.
        if self.verdict != Verdict::Go || self.reasons.contains(&Reason::NoBand) {
            self.ending.false_go.extend(self.worst.take());
            return;
        }
        let true_celsius = true_signal(world, self.setup.sheet.check.signal);
        let [low, high] = self.setup.sheet.check.band_c;
        let outside_k = (low - true_celsius).max(true_celsius - high);
        if outside_k > 0.0 && self.worst.is_none_or(|worst| outside_k > worst.outside_k) {
            let stated_k = self.setup.sheet.check.k * self.u.to_f64();
            self.worst = Some(FalseGo { at: self.now, true_celsius, outside_k, stated_k });
        }
    }

    /// The earliest deadline, at least a millisecond ahead.
    fn next(&self, program: &dyn Program) -> Mono {
        let retry = match self.link {
            Link::Closed { retry } => Some(retry).filter(|_| !self.setup.script.people),
            Link::Open => None,
        };
        let deadlines = [
            program.deadline(),
            self.car.poll_timeout(),
            self.technician.poll_timeout(),
            retry,
            Some(self.now.after(AT_MOST)),
        ];
        let soonest = deadlines.into_iter().flatten().min().unwrap_or(LIMIT);
        soonest.max(self.now.after(Duration::from_millis(1)))
    }

    fn end(mut self) -> Ending {
        self.ending.false_go.extend(self.worst.take());
        let world = self.car.world();
        self.ending.truth = Truth {
            level_error_ml: world.level_error_ml(),
            ran_out_ml: world.out().caught_ml,
            shortage_before_ml: world.vehicle().shape.shortage_ml,
            level_error_before_ml: world.level_error_before_ml(),
            attitude_degrees: world.attitude(),
            fluid_celsius: world.fluid_celsius(),
            ..self.ending.truth
        };
        self.ending.times = self.go_time.into_times();
        self.ending.possible = self.observer.into_possible();
        self.ending.mute = self.liveness.mute();
        let misreports = self.setup.script.mistake.is_some_and(crate::Mistake::misreports);
        self.ending.harm = self.harm.into_first().filter(|_| !misreports);
        self.ending.ended = self.now;
        self.ending
    }
}

/// How often an unplugged adapter's port is tried again.
/// Own choice: a person plugs it in within seconds; one look a second misses none.
const RETRY: Duration = Duration::from_secs(1);
/// The truth is compared with the verdict at least so often.
/// Own choice: at 12 K/min a tenth of a kelvin.
const AT_MOST: Duration = Duration::from_millis(500);
/// No rehearsal is longer.
/// Own choice: longer than the technician stays; one that hangs must end.
const LIMIT: Mono = Mono::from_secs(100 * 60);
/// Work of one instant ends; where it does not, time goes on all the same.
/// Own choice: far above what an instant needs.
const MOST_ROUNDS: usize = 1_000;
