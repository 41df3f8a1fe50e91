//! A bay without an adapter: the whole of it on simulated time, everything told.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

use std::time::Duration;

use events::{
    Advice, Body, EngineWord, LampState, LinkChange, Outcome, People, Precondition, Reason, Refusal, Request,
    Role, Seq, Sheet, Signal, Surface, Task, Told, Utc, Verdict, Word,
};
use service::{Bay, Moment};
use units::{Celsius, Degrees, Millilitres, Mono};

fn moment(mono: Mono) -> Moment {
    Moment { mono, utc: Utc::from_millis(1_767_225_600_000 + i64::try_from(mono.as_millis()).unwrap()) }
}

fn sheet(name: &str) -> Sheet {
    let text = match name {
        "spot" => include_str!("../../../fixtures/sheets/demo-spot-only.toml"),
        "lamp" => include_str!("../../../fixtures/sheets/demo-lamp.toml"),
        "fluid" => include_str!("../../../fixtures/sheets/demo-six-speed.toml"),
        _ => include_str!("../../../fixtures/sheets/demo-coolant-only.toml"),
    };
    Sheet::parse(text).unwrap()
}

struct Bench {
    bay: Bay,
    now: Mono,
    told: u32,
    bodies: Vec<Body>,
    /// The fluid, °C, and how fast it warms, K/min.
    fluid: f64,
    rate: f64,
}

impl Bench {
    fn new(sheet: Sheet) -> Self {
        let sheets = vec![self::sheet("spot"), self::sheet("fluid"), self::sheet("coolant")];
        let mut bay = Bay::new(sheet, Seq(1), 0).with_sheets(sheets).without_adapter().unwrap();
        bay.boot("test", "0", moment(Mono::ZERO));
        let mut bench = Self { bay, now: Mono::ZERO, told: 0, bodies: Vec::new(), fluid: 18.0, rate: 0.0 };
        bench.wake();
        bench
    }

    fn say(&mut self, by: Role, request: Request) -> Word {
        self.told += 1;
        let told = Told { id: self.told.to_string(), by: Some(by), request };
        let word = self.bay.tell(&told, moment(self.now));
        self.wake();
        word
    }

    fn tell(&mut self, by: Role, request: Request) {
        let word = self.say(by, request.clone());
        assert!(matches!(word, Word::Accepted { .. }), "{request:?}: {word:?}");
    }

    fn confirm(&mut self, what: Precondition) {
        self.tell(Role::Under, Request::Confirm { what });
    }

    fn engine(&mut self, what: EngineWord) {
        self.tell(Role::Inside, Request::Engine { what, rpm: None });
    }

    fn spot(&mut self) {
        let celsius = Celsius::clamped(self.fluid);
        self.tell(Role::Under, Request::Spot { celsius, surface: Surface::Stream });
    }

    fn wake(&mut self) {
        self.bay.wake(moment(self.now));
        assert!(!self.bay.wants_reopen(), "there is no port");
        assert_eq!(self.bay.poll_bytes(moment(self.now)), None, "and nothing to say on it");
        self.bodies.extend(std::iter::from_fn(|| self.bay.poll_event()).map(|event| event.body));
    }

    /// Time passes as the bay's own deadlines ask for it.
    fn pass(&mut self, seconds: u64) {
        let until = self.now.after(Duration::from_secs(seconds));
        while self.now < until {
            let next = self.bay.deadline().unwrap_or(until).min(until);
            self.fluid += self.rate * next.since(self.now).as_secs_f64() / 60.0;
            self.now = next;
            self.wake();
        }
    }

    fn verdict(&self) -> (Verdict, Vec<Reason>) {
        let snapshot = self.bay.snapshot(moment(self.now));
        (snapshot.verdict, snapshot.reasons)
    }

    fn said(&self, seat: Role) -> Advice {
        let snapshot = self.bay.snapshot(moment(self.now));
        let said = if seat == Role::Under { snapshot.said.under } else { snapshot.said.inside };
        said.unwrap()
    }

    /// Up to the warm-up.
    fn circulated(&mut self) {
        let ml = Millilitres::clamped;
        self.tell(Role::Under, Request::Start { job: Task::Change, people: People::Two });
        for what in [Precondition::OnStands, Precondition::Parked, Precondition::ExhaustOutside] {
            self.confirm(what);
        }
        let degrees = Degrees::clamped(0.1);
        self.tell(Role::Under, Request::Level { pitch_degrees: degrees, roll_degrees: degrees });
        for what in [Precondition::StartedCold, Precondition::FluidRight, Precondition::FillPortOpen] {
            self.confirm(what);
        }
        let sheet = self.bay.snapshot(moment(self.now)).sheet.unwrap();
        let drained = sheet.fluid.drain_ml;
        let celsius = Some(Celsius::clamped(18.0));
        self.tell(Role::Under, Request::Drained { millilitres: ml(drained), celsius });
        if sheet.level.sump_opens() == events::SumpOpens::Pipe {
            self.confirm(Precondition::PipeIn);
        }
        let filled = ml(drained + sheet.fluid.margin_ml);
        self.tell(Role::Under, Request::Filled { millilitres: filled, celsius });
        self.confirm(Precondition::ClosedUp);
        self.confirm(Precondition::Clear);
        assert_eq!(self.said(Role::Inside), Advice::StartEngine);
        self.engine(EngineWord::Idling);
        if sheet.before.selector.is_some() {
            self.tell(Role::Inside, Request::Confirm { what: Precondition::BrakeHeld });
            self.tell(Role::Inside, Request::Confirm { what: Precondition::SelectorCycled });
        }
    }

    /// From the warm-up to `go`, read every 40 s.
    fn warm_up(&mut self) {
        (self.fluid, self.rate) = (30.0, 1.0);
        for _ in 0..60 {
            self.pass(40);
            self.spot();
            if self.said(Role::Inside) == Advice::AskEngine {
                self.engine(EngineWord::Idling);
                self.pass(4);
            }
            if self.verdict().0 == Verdict::Go {
                return;
            }
        }
        panic!("no go: {:?}", self.verdict());
    }
}

#[test]
fn a_whole_job_is_told_and_ends_as_set() {
    let mut bench = Bench::new(sheet("spot"));
    let link = bench.bay.snapshot(moment(bench.now)).link;
    assert!(link.people && link.trouble.is_none() && !link.up, "{link:?}");
    bench.circulated();
    bench.warm_up();
    let forecast = bench.bay.snapshot(moment(bench.now)).forecast.unwrap();
    let again = forecast.read_again_in.unwrap();
    assert!((10.0..=600.0).contains(&again), "{forecast:?}");
    bench.engine(EngineWord::Idling);
    bench.tell(Role::Under, Request::Flowing);
    bench.pass(40);
    bench.spot();
    bench.pass(10);
    bench.engine(EngineWord::Idling);
    bench.pass(10);
    bench.tell(Role::Under, Request::Trickle);
    bench.tell(Role::Under, Request::Closed);
    bench.engine(EngineWord::Stopped);
    bench.pass(5);
    let celsius = Some(Celsius::clamped(bench.fluid));
    let margin = bench.bay.snapshot(moment(bench.now)).sheet.unwrap().fluid.margin_ml;
    bench.tell(Role::Under, Request::RanOut { millilitres: Millilitres::clamped(margin), celsius });
    bench.tell(Role::Under, Request::Torqued);
    bench.tell(Role::Under, Request::Done);
    let result = bench.bay.snapshot(moment(bench.now)).job.unwrap().result.unwrap();
    assert_eq!((result.outcome, result.shortfalls), (Outcome::Set, vec![]));
    let links: Vec<&Body> = bench.bodies.iter().filter(|b| matches!(b, Body::Link(_))).collect();
    let people = Body::Link(LinkChange::People);
    assert_eq!(links, [&people, &people], "at the start, and in the record of the job; no trouble, no loss");
}

#[test]
fn a_go_ends_when_it_said_that_it_would() {
    let mut bench = Bench::new(sheet("spot"));
    bench.circulated();
    bench.warm_up();
    bench.engine(EngineWord::Idling);
    let again = bench.bay.snapshot(moment(bench.now)).forecast.unwrap().read_again_in.unwrap();
    let before = (again as u64).saturating_sub(3);
    let mut left = before;
    while left > 0 {
        bench.pass(left.min(50));
        left -= left.min(50);
        bench.engine(EngineWord::Idling);
    }
    assert_eq!(bench.verdict().0, Verdict::Go, "{again} s were promised");
    bench.pass(8);
    assert_eq!(bench.verdict().0, Verdict::Wait);
}

#[test]
fn an_engine_nobody_speaks_of_again_opens_nothing_and_is_asked_for() {
    let mut bench = Bench::new(sheet("spot"));
    bench.circulated();
    bench.warm_up();
    bench.rate = 0.0;
    for _ in 0..4 {
        bench.pass(20);
        bench.spot();
    }
    assert_eq!(bench.verdict(), (Verdict::Wait, vec![Reason::PreconditionOpen]));
    assert_eq!(bench.said(Role::Inside), Advice::AskEngine);
    bench.engine(EngineWord::Idling);
    bench.pass(4);
    assert_eq!(bench.verdict().0, Verdict::Go);
}

#[test]
fn readings_from_before_the_told_start_do_not_count() {
    let mut bench = Bench::new(sheet("spot"));
    bench.circulated();
    bench.warm_up();
    bench.engine(EngineWord::Stopped);
    bench.engine(EngineWord::Idling);
    bench.pass(4);
    assert!(bench.verdict().1.contains(&Reason::Stale), "{:?}", bench.verdict());
    bench.rate = 0.0;
    for _ in 0..3 {
        bench.pass(20);
        bench.spot();
    }
    assert_eq!(bench.verdict().0, Verdict::Wait, "it mixes for 90 s");
}

#[test]
fn a_thermometer_stands_in_for_an_identifier_and_nothing_for_coolant() {
    let mut bench = Bench::new(sheet("fluid"));
    let signal = |bench: &Bench| bench.bay.snapshot(moment(bench.now)).sheet.unwrap().check.signal;
    assert_eq!(signal(&bench), Signal::Spot);
    let coolant = sheet("coolant").name;
    let word = bench.say(Role::Under, Request::Sheet { name: coolant });
    assert!(matches!(word, Word::Refused { reason: Refusal::NeedsAdapter, .. }), "{word:?}");
    bench.tell(Role::Under, Request::Sheet { name: sheet("spot").name });
    bench.tell(Role::Under, Request::Sheet { name: sheet("fluid").name });
    assert_eq!(signal(&bench), Signal::Spot);
    assert!(Bay::new(sheet("coolant"), Seq(1), 0).without_adapter().is_none());
    bench.circulated();
    bench.warm_up();
}

#[test]
fn a_sheet_that_is_written_meanwhile_is_used_by_the_next_job_and_by_none_that_runs() {
    let mut bench = Bench::new(sheet("spot"));
    let in_use = |bench: &Bench| bench.bay.snapshot(moment(bench.now)).sheet.unwrap().fluid.drain_ml;
    let was = in_use(&bench);
    let mut changed = sheet("spot");
    changed.fluid.drain_ml = was + 100.0;
    let offers =
        |changed: &Sheet| vec![changed.clone(), Sheet { name: "another".to_owned(), ..sheet("spot") }];
    bench.tell(Role::Under, Request::Start { job: Task::Change, people: People::Two });
    bench.bay.offer(offers(&changed), moment(bench.now));
    bench.wake();
    assert_eq!(in_use(&bench), was, "a job keeps the sheet that it began with");
    let names = |bench: &Bench| bench.bay.snapshot(moment(bench.now)).sheets;
    assert_eq!(names(&bench), [changed.name.clone(), "another".to_owned()]);
    assert!(
        bench.bodies.iter().any(|b| matches!(b, Body::Sheets { changed: None, names } if names.len() == 2))
    );
    bench.tell(Role::Under, Request::Abort { why: "called away".to_owned() });
    bench.pass(1);
    assert_eq!(in_use(&bench), was + 100.0, "the next one begins with what stands there now");
    assert!(bench.bodies.iter().any(|b| matches!(b, Body::Sheets { changed: Some(_), .. })));
    // One that cannot be used here, or is gone, changes nothing.
    let coolant = Sheet { name: changed.name.clone(), ..sheet("coolant") };
    for offered in [vec![coolant], Vec::new()] {
        bench.bay.offer(offered, moment(bench.now));
        bench.wake();
        assert_eq!(in_use(&bench), was + 100.0);
    }
}

#[test]
fn nothing_wakes_a_bay_in_which_nothing_is_due() {
    let bench = Bench::new(sheet("spot"));
    assert_eq!(bench.bay.deadline(), None, "no adapter is looked for");
}

#[test]
fn a_lamp_opens_the_gate_once_it_was_seen_too_cold_and_no_longer_than_its_word_holds() {
    let mut bench = Bench::new(sheet("lamp"));
    bench.circulated();
    bench.tell(Role::Inside, Request::Confirm { what: Precondition::ModeOn });
    let lamp = |bench: &mut Bench, shows| bench.tell(Role::Inside, Request::Lamp { shows });
    bench.pass(100);
    bench.engine(EngineWord::Idling);
    lamp(&mut bench, LampState::Right);
    bench.pass(5);
    assert_eq!(bench.verdict(), (Verdict::Wait, vec![Reason::NotAlive]), "lit, and never seen otherwise");
    lamp(&mut bench, LampState::TooCold);
    bench.pass(5);
    assert_eq!(bench.verdict(), (Verdict::Wait, vec![Reason::BelowBand]));
    bench.engine(EngineWord::Idling);
    lamp(&mut bench, LampState::Right);
    bench.pass(5);
    assert_eq!(bench.verdict().0, Verdict::Go);
    assert_eq!(bench.said(Role::Inside), Advice::KeepIdling);
    bench.pass(60);
    assert_eq!(bench.verdict().0, Verdict::Go);
    bench.engine(EngineWord::Idling);
    assert_eq!(bench.said(Role::Inside), Advice::ReadInside, "asked again in time");
    bench.pass(30);
    assert_eq!(bench.verdict(), (Verdict::Wait, vec![Reason::Stale]));
    bench.engine(EngineWord::Idling);
    lamp(&mut bench, LampState::TooHot);
    bench.pass(5);
    assert_eq!(bench.verdict(), (Verdict::TooHot, vec![Reason::AboveBand]));
    lamp(&mut bench, LampState::Right);
    bench.pass(5);
    assert_eq!(bench.verdict().0, Verdict::Go);
    let celsius = Celsius::clamped(25.0);
    bench.tell(Role::Under, Request::Spot { celsius, surface: Surface::Tape });
    assert_eq!(bench.verdict(), (Verdict::Wait, vec![Reason::Disagrees]), "lit for another reason");
}
