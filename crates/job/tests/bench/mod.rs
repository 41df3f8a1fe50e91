//! A bay on paper: drives a [`Job`] as the daemon does, with a scripted vehicle and a scripted verdict.
//!
//! The verdict asked for with [`Bay::want`] becomes `go` only while no precondition is open, as the gate does it.

#![allow(dead_code, reason = "each test file uses its part of it")]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a bench that breaks must say so"
)]

pub(crate) mod stages;

use std::time::Duration;

use events::*;
use job::{Job, VerdictNow};
use units::*;

#[derive(Debug)]
pub(crate) struct Bay {
    pub(crate) job: Job,
    pub(crate) events: Vec<Event>,
    pub(crate) sheet: Sheet,
    pub(crate) now: Mono,
    pub(crate) verdict: VerdictNow,
    /// What the vehicle shows of its voltage, and how fast its fluid is said to warm.
    pub(crate) millivolts: Option<i32>,
    pub(crate) warms: Option<f64>,
    /// The position of the selector, where a control unit tells it.
    pub(crate) selector: Option<u8>,
    want: (Verdict, Vec<Reason>),
    rpm: Option<i32>,
    coolant: f64,
    air: Option<f64>,
    fluid: f64,
    asked: u64,
    /// Since when the engine runs, on a clock that no crash starts again.
    pub(crate) started: Option<u64>,
    pub(crate) elapsed: u64,
    /// Whether the vehicle tells how long its engine has run.
    pub(crate) shows_run_time: bool,
    /// Civil time at the start of this boot.
    booted: Utc,
}

pub(crate) fn sheet(name: &str) -> Sheet {
    let text = match name {
        "six-speed" => include_str!("../../../../fixtures/sheets/demo-six-speed.toml"),
        "bypass" => include_str!("../../../../fixtures/sheets/demo-eight-speed-bypass.toml"),
        "lamp" => include_str!("../../../../fixtures/sheets/demo-lamp.toml"),
        "display" => include_str!("../../../../fixtures/sheets/demo-display.toml"),
        "coolant" => include_str!("../../../../fixtures/sheets/demo-coolant-only.toml"),
        _ => return procedure(name),
    };
    Sheet::parse(text).unwrap()
}

/// The sheet of a procedure of the trade.
pub(crate) fn procedure(id: &str) -> Sheet {
    Sheet::parse(&std::fs::read_to_string(procedure_path(id)).unwrap()).unwrap()
}

/// Where it is.
pub(crate) fn procedure_path(id: &str) -> String {
    format!("{}/../../fixtures/sheets/procedures/{id}.toml", env!("CARGO_MANIFEST_DIR"))
}

pub(crate) fn c(celsius: f64) -> Celsius {
    Celsius::from_f64(celsius).unwrap()
}

pub(crate) fn ml(millilitres: i32) -> Millilitres {
    Millilitres::from_steps(millilitres).unwrap()
}

pub(crate) fn utc(now: Mono) -> Utc {
    Utc::from_millis(1_772_442_847_000 + now.as_millis() as i64)
}

/// The words of `tell`, as far as the tests need them.
pub(crate) fn request(words: &str) -> Request {
    let parts: Vec<&str> = words.split(' ').collect();
    let number = |n: usize| parts.get(n).map(|t| t.parse::<f64>().unwrap());
    let amount = || (ml(number(1).unwrap() as i32), number(2).map(c));
    match parts[0] {
        "start" => match parts[1..] {
            [] => Request::start(),
            _ => Request::Start { job: parts[1].parse().unwrap(), people: parts[2].parse().unwrap() },
        },
        "leak-at" => Request::LeakAt { place: parts[1].parse().unwrap() },
        "symptom" => Request::Symptom { what: parts[1].parse().unwrap() },
        "fluid-looks" => Request::FluidLooks { look: parts[1].parse().unwrap() },
        "leak" => Request::Leak { how: parts[1].parse().unwrap() },
        "no-drive" => Request::NoDrive,
        "fluid-wrong" => Request::FluidWrong,
        "alarm" => Request::Alarm { what: parts[1].parse().unwrap() },
        "drips" => Request::Drips,
        "at-edge" => Request::AtEdge,
        "below-edge" => {
            Request::BelowEdge { millimetres: Millimetres::from_f64(number(1).unwrap()).unwrap() }
        }
        "gauge" => Request::Gauge { millimetres: Millimetres::from_f64(number(1).unwrap()).unwrap() },
        "confirm" => Request::Confirm { what: parts[1].parse().unwrap() },
        "level" => Request::Level {
            pitch_degrees: Degrees::from_f64(number(1).unwrap()).unwrap(),
            roll_degrees: Degrees::from_f64(number(2).unwrap()).unwrap(),
        },
        "drained" => Request::Drained { millilitres: amount().0, celsius: amount().1 },
        "filled" => Request::Filled { millilitres: amount().0, celsius: amount().1 },
        "ran-out" => Request::RanOut { millilitres: amount().0, celsius: amount().1 },
        "display" => Request::Display { celsius: c(number(1).unwrap()) },
        "lamp" => Request::Lamp { shows: parts[1].parse().unwrap() },
        "engine" => Request::Engine {
            what: parts[1].parse().unwrap(),
            rpm: number(2).map(|n| Rpm::from_f64(n).unwrap()),
        },
        "spot" => Request::Spot { celsius: c(number(1).unwrap()), surface: parts[2].parse().unwrap() },
        "spilled" => {
            Request::Spilled { millilitres: ml(number(1).unwrap() as i32), of: parts[2].parse().unwrap() }
        }
        "taken-out" => Request::TakenOut {
            part: parts[1].parse().unwrap(),
            millilitres: number(2).map(|v| ml(v as i32)),
            celsius: number(3).map(c),
        },
        "kept" => Request::Kept { millilitres: amount().0 },
        "corners" => {
            let mm = |n| Millimetres::from_f64(number(n).unwrap()).unwrap();
            Request::Corners {
                front_left_millimetres: mm(1),
                front_right_millimetres: mm(2),
                rear_left_millimetres: mm(3),
                rear_right_millimetres: mm(4),
                wheelbase_millimetres: Some(Millimetres::from_f64(2_700.0).unwrap()),
                track_millimetres: Some([Millimetres::from_f64(1_500.0).unwrap(); 2]),
            }
        }
        "shifted" => Request::Shifted { position: parts[1].to_owned() },
        "vehicle" => Request::Vehicle { text: parts[1..].join(" ") },
        "photo" => Request::Photo { sha256: parts[1].to_owned(), name: parts[2].to_owned() },
        "recheck" => Request::Recheck { of: parts[1].parse().unwrap() },
        "flowing" => Request::Flowing,
        "nothing-flows" => Request::NothingFlows,
        "trickle" => Request::Trickle,
        "closed" => Request::Closed,
        "torqued" => Request::Torqued,
        "test-driven" => Request::TestDriven,
        "done" => Request::Done,
        "undo" => Request::Undo,
        "abort" => Request::Abort { why: parts[1..].join(" ") },
        "note" => Request::Note { text: parts[1..].join(" ") },
        other => panic!("no request {other}"),
    }
}

/// What the one inside tells.
const INSIDE: &[&str] = &[
    "confirm in-position",
    "confirm brake-held",
    "confirm selector-cycled",
    "confirm parked",
    "confirm mode-on",
    "shifted",
    "engine",
    "display",
    "lamp",
];

impl Bay {
    pub(crate) fn new(name: &str) -> Self {
        let mut bay = Self {
            job: Job::default(),
            events: Vec::new(),
            sheet: sheet(name),
            now: Mono::ZERO,
            verdict: VerdictNow { link_up: true, ..VerdictNow::default() },
            millivolts: None,
            warms: None,
            selector: None,
            want: (Verdict::Wait, vec![Reason::NoReading]),
            rpm: Some(0),
            coolant: 20.0,
            air: Some(19.0),
            fluid: 20.0,
            asked: 0,
            started: None,
            elapsed: 0,
            shows_run_time: true,
            booted: utc(Mono::ZERO),
        };
        bay.push(Body::Boot { boot: "a".to_owned(), version: "0".to_owned(), uptime: None });
        bay
    }

    /// The same without an adapter: nothing but people says anything.
    pub(crate) fn people(name: &str) -> Self {
        let mut bay = Self::new(name);
        bay.sheet = bay.sheet.by_people().unwrap();
        (bay.rpm, bay.air) = (None, None);
        bay.push(Body::Link(LinkChange::People));
        bay
    }

    /// An event happens: numbered, folded, and whatever follows from it too.
    pub(crate) fn push(&mut self, body: Body) {
        self.put(body);
        let bodies = self.job.follow(self.now, &self.verdict);
        for body in bodies {
            self.put(body);
        }
        assert!(self.job.follow(self.now, &self.verdict).is_empty(), "what was announced is settled");
    }

    fn civil(&self) -> Utc {
        Utc::from_millis(self.booted.as_millis() + self.now.as_millis() as i64)
    }

    fn put(&mut self, body: Body) {
        let seq = Seq(self.events.len() as u64 + 1);
        let event = Event { seq, at: self.civil(), mono_ms: self.now, body };
        self.job.apply(&event);
        self.events.push(event);
    }

    pub(crate) fn told(&mut self, words: &str) -> Told {
        self.asked += 1;
        // What the one inside has at hand he tells; `as inside confirm clear` says so.
        let (words, by) = match words.strip_prefix("as inside ") {
            Some(words) => (words, Role::Inside),
            None if INSIDE.iter().any(|w| words.starts_with(w)) => (words, Role::Inside),
            None => (words, Role::Under),
        };
        Told { id: format!("{}", self.asked), by: Some(by), request: request(words) }
    }

    pub(crate) fn tell(&mut self, words: &str) -> Result<(), Refusal> {
        let told = self.told(words);
        self.send(&told)
    }

    pub(crate) fn send(&mut self, told: &Told) -> Result<(), Refusal> {
        let decided = self.job.decide(told, self.now, self.civil(), &self.sheet, &self.verdict);
        if let Err(refusal) = &decided
            && let Some(body) = self.job.refused(told, *refusal)
        {
            // A stand that was refused is kept all the same.
            self.push(body);
        }
        let bodies = decided?;
        for body in bodies {
            self.put(body);
        }
        assert!(self.job.follow(self.now, &self.verdict).is_empty(), "`{told:?}` announced all it caused");
        // The gate hears at once what is open now.
        self.judge();
        Ok(())
    }

    /// Requests that must be accepted, one a line.
    pub(crate) fn tells(&mut self, lines: &str) {
        for words in lines.lines().map(str::trim).filter(|l| !l.is_empty()) {
            if matches!(words, "trickle" | "drips") {
                // A stream takes its time; sooner it would be a gush.
                self.seconds(20);
            }
            assert_eq!(self.tell(words), Ok(()), "`{words}`");
            self.advise();
        }
    }

    /// What is said now, as an event, as the daemon does it.
    pub(crate) fn advise(&mut self) -> SeatAdvice {
        let said = self.job.said(self.now, &self.verdict);
        let last =
            self.events.iter().rev().find_map(|e| if let Body::Advice(s) = e.body { Some(s) } else { None });
        if last != Some(said) {
            self.push(Body::Advice(said));
        }
        said
    }

    /// What both seats are told.
    pub(crate) fn seats(&mut self) -> (Advice, Advice) {
        let said = self.advise();
        (said.at(Role::Under), said.at(Role::Inside))
    }

    fn read(&mut self, measure: Measure) {
        self.push(Body::Reading(Reading { measure, step: None, from: None, age_ms: 0 }));
    }

    /// So many seconds pass, with a reading of everything each second.
    pub(crate) fn seconds(&mut self, seconds: u64) {
        for _ in 0..seconds {
            self.now = self.now.after(Duration::from_secs(1));
            self.elapsed += 1;
            let runs = self.rpm.is_some_and(|rpm| rpm > 400);
            self.started = if runs { self.started.or(Some(self.elapsed)) } else { None };
            if self.verdict.link_up {
                self.readings();
            }
            self.judge();
        }
    }

    /// So many seconds pass and nothing is read, although the adapter is there.
    pub(crate) fn silence(&mut self, seconds: u64) {
        self.elapsed += seconds;
        self.now = self.now.after(Duration::from_secs(seconds));
        for body in self.job.follow(self.now, &self.verdict) {
            self.push(body);
        }
        self.judge();
    }

    fn readings(&mut self) {
        if let Some(rpm) = self.rpm {
            self.read(Measure::EngineSpeed(Rpm::from_steps(rpm).unwrap()));
            self.read(Measure::VehicleSpeed(KilometresPerHour::from_steps(0).unwrap()));
            self.read(Measure::Coolant(c(self.coolant)));
            let ran = self.started.map_or(0, |since| self.elapsed - since);
            if self.shows_run_time {
                self.read(Measure::RunTime(ran as u32));
            }
        }
        if let Some(place) = self.selector {
            self.read(Measure::Selector(place));
        }
        if let Some(millivolts) = self.millivolts {
            self.read(Measure::ModuleVoltage(Millivolts::from_steps(millivolts).unwrap()));
        }
        if let Some(air) = self.air {
            self.read(Measure::IntakeAir(c(air)));
        }
        let estimate = Estimate {
            celsius: c(self.fluid),
            u: Kelvins::from_steps(60).unwrap(),
            kelvins_per_minute: self.warms.map(|k| Kelvins::from_f64(k).unwrap()),
            fluid: None,
        };
        self.verdict.estimate = Some(estimate);
        self.push(Body::Estimate(estimate));
    }

    /// The gate as far as the job sees it.
    fn judge(&mut self) {
        let open = self.job.open(self.now);
        let (mut verdict, mut reasons) = self.want.clone();
        if !self.job.is_gated() {
            (verdict, reasons) = (Verdict::Go, vec![Reason::NoBand]);
        }
        if verdict == Verdict::Go && !(open.is_empty() && self.job.is_running() && self.verdict.link_up) {
            (verdict, reasons) = (Verdict::Wait, vec![Reason::PreconditionOpen]);
        }
        if !self.verdict.link_up && self.job.is_gated() {
            (verdict, reasons) = (Verdict::Wait, vec![Reason::LinkLost]);
        }
        if (verdict, &reasons) != (self.verdict.verdict, &self.verdict.reasons) {
            (self.verdict.verdict, self.verdict.reasons) = (verdict, reasons.clone());
            let (celsius, u) = (self.verdict.estimate.map(|e| e.celsius), self.verdict.estimate.map(|e| e.u));
            self.push(Body::Verdict {
                verdict,
                reasons,
                open,
                celsius,
                u,
                opens_in: None,
                closes_in: None,
                read_again_in: None,
            });
        }
    }

    /// What the temperature alone would give, from now on.
    pub(crate) fn want(&mut self, verdict: Verdict, reason: Reason, fluid: f64) {
        self.want = (verdict, vec![reason]);
        self.fluid = fluid;
        self.seconds(2);
    }

    pub(crate) fn go(&mut self) {
        self.want(Verdict::Go, Reason::InBand, 40.0);
        assert_eq!(self.verdict.verdict, Verdict::Go, "open: {:?}", self.job.open(self.now));
    }

    pub(crate) fn too_hot(&mut self) {
        self.want(Verdict::TooHot, Reason::AboveBand, 46.0);
    }

    pub(crate) fn below(&mut self) {
        self.want(Verdict::Wait, Reason::BelowBand, 30.0);
    }

    pub(crate) fn engine(&mut self, rpm: i32) {
        self.rpm = Some(rpm);
        self.seconds(2);
    }

    pub(crate) fn temperatures(&mut self, coolant: f64, air: Option<f64>) {
        (self.coolant, self.air) = (coolant, air);
    }

    pub(crate) fn link(&mut self, up: bool) {
        self.verdict.link_up = up;
        let change = if up {
            LinkChange::Protocol { protocol: "CAN 11-bit".to_owned(), control_units: vec![] }
        } else {
            LinkChange::Lost { detail: "unplugged".to_owned() }
        };
        self.push(Body::Link(change));
        self.judge();
    }

    /// Killed and started again: everything comes from the journal. `with_samples` is false where the last batch of
    /// readings and estimates was lost.
    pub(crate) fn crash(&mut self, with_samples: bool) {
        self.crash_for(0, with_samples);
    }

    /// As [`Bay::crash`], and it takes so many seconds until it is started again.
    pub(crate) fn crash_for(&mut self, seconds: u64, with_samples: bool) {
        self.elapsed += seconds;
        self.booted = Utc::from_millis(self.civil().as_millis() + 1_000 * seconds as i64);
        let kept = |e: &&Event| with_samples || e.body.durability() == events::Durability::Fact;
        let journal: Vec<Event> = self.events.iter().filter(kept).cloned().collect();
        self.job = fold(&journal);
        self.now = Mono::ZERO;
        self.verdict = VerdictNow { link_up: self.verdict.link_up, ..VerdictNow::default() };
        self.push(Body::Boot { boot: "b".to_owned(), version: "0".to_owned(), uptime: None });
    }

    pub(crate) fn advice(&self) -> Advice {
        self.job.advice(self.now, &self.verdict)
    }

    pub(crate) fn view(&self) -> JobView {
        self.job.view(self.now).unwrap()
    }

    pub(crate) fn state(&self, step: Step) -> StepState {
        self.view().steps.into_iter().find(|(s, _)| *s == step).unwrap().1
    }

    pub(crate) fn result(&self) -> JobResult {
        self.view().result.expect("the job has ended")
    }

    /// Prepared, drained and filled, engine off.
    pub(crate) fn filled(&mut self) {
        self.tells("start\nconfirm on-stands\nconfirm ventilated\nlevel 0.1 -0.1");
        self.seconds(2);
        if self.sheet.before.cooler_bypass {
            self.tells("confirm cooler-bypass");
        }
        self.hands();
        self.tells("drained 2400 40\nconfirm pipe-in\nfilled 2870 20\nconfirm closed-up\nconfirm clear");
    }

    /// What the hands confirm before the drain.
    pub(crate) fn hands(&mut self) {
        self.tells("confirm parked\nconfirm fluid-right");
        if self.sheet.level.fill_from == FillFrom::UpperPort {
            self.tells("confirm fill-port-open");
        }
    }

    /// Filled, engine idling, selector moved.
    pub(crate) fn circulated(&mut self) {
        self.filled();
        self.engine(720);
        self.tells("confirm brake-held\nconfirm selector-cycled");
        self.below();
    }

    /// All the way to the closed port.
    pub(crate) fn set(&mut self) {
        self.circulated();
        self.go();
        self.tells("flowing");
        self.seconds(60);
        self.tells("trickle");
        self.seconds(2);
        self.tells("closed\nran-out 500 38");
    }
}

pub(crate) fn fold(events: &[Event]) -> Job {
    let mut job = Job::default();
    for event in events {
        job.apply(event);
    }
    job
}

/// Ends the job and checks outcome and shortfalls.
pub(crate) fn ends(bay: &mut Bay, outcome: Outcome, shortfalls: &[Shortfall]) {
    bay.tells("done");
    let result = bay.result();
    assert_eq!((result.outcome, result.shortfalls.as_slice()), (outcome, shortfalls));
    let right = matches!(outcome, Outcome::Set | Outcome::SetUnsure | Outcome::Checked);
    assert_eq!(bay.advice(), if right { Advice::Recheck } else { Advice::SetAgain });
    assert!(outcome != Outcome::NotSet || result.recheck_due.is_empty(), "nothing to recheck");
}
