//! The daemon dies in the middle of a job and starts again: the job goes on where it was.
//!
//! In memory, in simulated time: at chosen moments the bay is thrown away and a new one is folded from the facts
//! alone, as the journal keeps them, as after a loss of power; or from facts and readings, as where the daemon alone ends and the
//! machine goes on.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use common::{OnStage, moment};
use events::{Body, Durability, Event, Request, Seq, Sheet, Told, Word};
use rehearsal::{Keep, Program, Setup, embedded, stage};
use service::{Bay, Machine};
use units::Mono;

/// A program that crashes: after the `crash_after`-th told thing, and every so often.
struct Crashing {
    sheet: Sheet,
    inner: OnStage,
    facts: Vec<Event>,
    readings: Vec<Event>,
    accepted: Vec<String>,
    crash_after: usize,
    /// Whether it crashes after every so many, or once.
    again: bool,
    crashes: u32,
    due: bool,
    link: bool,
    /// The machine goes on: readings before a crash have a time after it.
    machine: Option<Machine>,
}

impl Crashing {
    fn new(sheet: &Sheet, crash_after: usize) -> Self {
        let inner = OnStage::new(sheet);
        let sheet = sheet.clone();
        Self {
            sheet,
            inner,
            facts: Vec::new(),
            readings: Vec::new(),
            accepted: Vec::new(),
            crash_after,
            again: false,
            crashes: 0,
            due: false,
            link: false,
            machine: None,
        }
    }

    /// The same where only the daemon ends.
    fn on_a_machine(mut self) -> Self {
        self.machine = Some(Machine::at("one".to_owned(), 1_000_000, Mono::ZERO));
        self.inner.0.on_machine(self.machine.clone());
        self
    }

    fn crash(&mut self, now: Mono) {
        let last = self.facts.last().map_or(Seq(0), |e| e.seq);
        let jobs = self.facts.iter().filter(|e| matches!(e.body, Body::Job { .. })).count();
        // Numbers that were shown are never used again, so the new ones begin far behind.
        let mut bay = Bay::new(self.sheet.clone(), Seq(last.0 + 100_000), jobs as u64);
        bay.on_machine(self.machine.clone());
        bay.restore(&self.facts, &self.readings, moment(now));
        bay.boot("again", "test", moment(now));
        self.inner = OnStage(bay);
        if self.link {
            self.inner.link_opened(now);
        }
        self.crashes += 1;
        self.due = false;
    }
}

impl Program for Crashing {
    fn link_opened(&mut self, now: Mono) {
        self.link = true;
        self.inner.link_opened(now);
    }
    fn link_closed(&mut self, now: Mono, why: &str) {
        self.link = false;
        self.inner.link_closed(now, why);
    }
    fn bytes(&mut self, bytes: &[u8], now: Mono) {
        self.inner.bytes(bytes, now);
    }
    fn tell(&mut self, told: &Told, now: Mono) -> Word {
        let word = self.inner.tell(told, now);
        if matches!(word, Word::Accepted { .. }) {
            self.accepted.push(told.id.clone());
            self.due |= if self.again {
                self.accepted.len().is_multiple_of(self.crash_after)
            } else {
                self.accepted.len() == self.crash_after
            };
        }
        word
    }
    fn wake(&mut self, now: Mono) {
        // Everything that happened has been taken out and is durable; now the power goes.
        if self.due {
            self.crash(now);
        }
        self.inner.wake(now);
    }
    fn poll_bytes(&mut self, now: Mono) -> Option<Vec<u8>> {
        self.inner.poll_bytes(now)
    }
    fn poll_event(&mut self) -> Option<Event> {
        let event = self.inner.poll_event()?;
        if event.body.durability() == Durability::Fact {
            self.facts.push(event.clone());
        } else if self.machine.is_some() && event.body.kind() == "reading" {
            self.readings.push(event.clone());
        }
        Some(event)
    }
    fn deadline(&self) -> Option<Mono> {
        self.inner.deadline()
    }
    fn wants_reopen(&mut self) -> bool {
        self.inner.wants_reopen()
    }
}

#[test]
fn a_job_survives_a_crash_after_any_accepted_request() {
    let sheet = embedded::six_speed();
    let mut set = 0;
    let mut crashed = 0;
    for crash_after in 1..=15 {
        let mut setup = Setup::named(None, &sheet, Some(embedded::warmup()), 3);
        setup.keep = Keep::Facts;
        let mut program = Crashing::new(&sheet, crash_after);
        let ending = stage::run(&mut program, &setup);
        crashed += program.crashes;
        let told: Vec<&Told> = program
            .facts
            .iter()
            .filter_map(|e| if let Body::Told(told) = &e.body { Some(told) } else { None })
            .collect();
        let kept: Vec<&String> = told.iter().map(|t| &t.id).collect();
        assert_eq!(
            kept,
            program.accepted.iter().collect::<Vec<_>>(),
            "after {crash_after}: no accepted request is lost"
        );
        assert!(
            told.iter().any(|t| t.request == Request::Done),
            "after {crash_after}: the job went on to its end"
        );
        assert!(
            !ending.false_go.iter().any(rehearsal::FalseGo::is_wrong),
            "after {crash_after}: no wrong go"
        );
        let result = ending.result.unwrap_or_else(|| panic!("after {crash_after}: there is a result"));
        if result.outcome.is_right() {
            set += 1;
            let level = result.level_error.unwrap();
            let off = (level.millilitres.to_f64() - ending.truth.level_error_ml).abs();
            assert!(
                off <= level.expanded_millilitres.to_f64(),
                "after {crash_after}: {level:?}, truly {:?}",
                ending.truth
            );
        }
    }
    assert!(crashed >= 13, "only {crashed} of 15 runs crashed");
    // Where the port was open over a crash, nobody saw the verdict, and the honest result is `not-set`.
    assert!(set >= 11, "only {set} of 15 jobs ended as set");
}

/// Two hundred crashes in the middle of jobs: the power goes after every accepted request, or every second or third, on
/// every kind of vehicle. Nothing accepted is lost, the job comes to its end, and no verdict is wrong.
#[test]
fn jobs_come_to_their_end_through_hundreds_of_crashes() {
    let mut crashes = 0;
    for (ended, seed) in (1..).enumerate() {
        if crashes >= 210 && ended >= 8 {
            break;
        }
        let sheets = common::sheets();
        let sheet = &sheets[usize::try_from(seed).unwrap() % sheets.len()];
        let mut setup = Setup::named(None, sheet, None, seed);
        setup.keep = Keep::Nothing;
        let mut program = Crashing::new(&setup.sheet, 1 + usize::try_from(seed).unwrap() % 3);
        if seed % 2 == 1 {
            program = program.on_a_machine();
        }
        program.again = true;
        let ending = stage::run(&mut program, &setup);
        crashes += program.crashes;
        let kept: Vec<&String> = program
            .facts
            .iter()
            .filter_map(|e| if let Body::Told(told) = &e.body { Some(&told.id) } else { None })
            .collect();
        assert_eq!(
            kept,
            program.accepted.iter().collect::<Vec<_>>(),
            "seed {seed}: no accepted request is lost"
        );
        assert!(!ending.false_go.iter().any(rehearsal::FalseGo::is_wrong), "seed {seed}: no wrong go");
        assert!(ending.result.is_some(), "seed {seed}: the job came to its end");
    }
}
