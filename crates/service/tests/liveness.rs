//! The daemon always has something ahead: while a device is there a line is sent or its port opened again within a stated
//! time, and what is well again is read again, whatever went before. No client is connected in any of these.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, missing_docs, reason = "a test")]

mod wired;

use std::sync::{Arc, Mutex};
use std::time::Duration;

use adapter::{Driver, Link, LinkError, OpenWith, Opener, Opening};
use events::Quantity;
use proptest::collection::vec;
use proptest::prelude::*;
use rehearsal::{Bus, Car, Fault, FaultKind, Firmware, SerialLine, Vehicle, World, embedded, firmware};
use service::{Config, Daemon, Limits, Memory, SystemClock, TRIES_WITHIN};
use tokio::io::{AsyncReadExt as _, AsyncWriteExt as _, DuplexStream};
use units::{Clock as _, Mono};
use wired::{Wired, moment};

/// Faults of the simulated vehicle begin and end here.
const FAULT_FROM_S: u64 = 10;
const FAULT_FOR: Duration = Duration::from_secs(40);

/// What happens to a bay beside the time that passes.
#[derive(Debug, Clone)]
enum Op {
    Pass(u64),
    Garbage(Vec<u8>),
    Cut,
}

const TEXTS: &[&str] =
    &["OK\r\r>", ">", "?\r\r>", "ELM327 v1.4b\r\r>", "LV RESET\r\r>", "ERR94\r\r>", "STOPPED\r\r>"];

fn op() -> impl Strategy<Value = Op> {
    let known = proptest::sample::select(TEXTS).prop_map(|text| text.as_bytes().to_vec());
    prop_oneof![
        6 => (1_u64..12_000).prop_map(Op::Pass),
        2 => prop_oneof![known, vec(any::<u8>(), 1..40)].prop_map(Op::Garbage),
        1 => Just(Op::Cut),
    ]
}

struct Play {
    wired: Wired,
}

impl Play {
    fn new(firmware: &'static Firmware, bus: &'static Bus, fault: FaultKind, seed: u64) -> Self {
        let sheet = embedded::six_speed();
        let lasts = Some(FAULT_FOR);
        let faults = [Fault { lasts, ..Fault::new(fault, FAULT_FROM_S) }];
        let world = World::new(&sheet, Vehicle::typical(&sheet, 18.0), None, &faults, seed);
        let car = Car::on(bus, world, &sheet, firmware, SerialLine::USUAL, seed);
        Self { wired: Wired::new(&sheet, car) }
    }

    /// All work of this instant; then something must be ahead.
    fn settle(&mut self) -> Result<(), TestCaseError> {
        self.wired.settle();
        let Some(at) = self.wired.bay.deadline() else { return Err(TestCaseError::fail("nothing is ahead")) };
        prop_assert!(
            at > self.wired.now && at.since(self.wired.now) <= TRIES_WITHIN,
            "{at} at {}",
            self.wired.now
        );
        let silent = self.wired.now.since(self.wired.tried);
        prop_assert!(!self.wired.open || silent <= TRIES_WITHIN, "nothing was tried for {silent:?}");
        Ok(())
    }

    fn pass(&mut self, until: Mono) -> Result<(), TestCaseError> {
        while self.wired.now < until {
            self.settle()?;
            let reopen =
                (!self.wired.open && self.wired.reopen > self.wired.now).then_some(self.wired.reopen);
            let next = [self.wired.bay.deadline(), self.wired.car.poll_timeout(), reopen, Some(until)];
            let next = next.into_iter().flatten().min().unwrap_or(until);
            self.wired.now = next.max(self.wired.now.after(Duration::from_millis(1)));
        }
        self.settle()
    }

    fn play(&mut self, ops: &[Op]) -> Result<(), TestCaseError> {
        for op in ops {
            match op {
                Op::Pass(millis) => self.pass(self.wired.now.after(Duration::from_millis(*millis)))?,
                Op::Garbage(bytes) if self.wired.open => {
                    self.wired.bay.bytes(bytes, moment(self.wired.now));
                    self.settle()?;
                }
                Op::Cut if self.wired.open => {
                    self.wired.close("pulled");
                    self.settle()?;
                }
                Op::Garbage(_) | Op::Cut => {}
            }
        }
        Ok(())
    }

    /// From now on nothing is wrong any more: a reading comes in time.
    fn is_read(&mut self) -> Result<(), TestCaseError> {
        let from = self.wired.now;
        while self.wired.read(Quantity::FluidTemperature).is_none_or(|at| at <= from) {
            prop_assert!(self.wired.now.since(from) <= Driver::READS_WITHIN, "not read since {from}");
            self.pass(self.wired.now.after(Duration::from_millis(100)))?;
        }
        Ok(())
    }
}

/// Those through which this vehicle can be read, after any opening.
fn readable() -> Vec<&'static Firmware> {
    firmware::ALL.iter().copied().filter(|firmware| rehearsal::can_be_read(firmware)).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]
    #[test]
    fn whatever_happens_something_is_tried_in_time_and_what_is_well_is_read(
        ops in vec(op(), 0..24),
        firmware in 0..readable().len(),
        fault in 0..FaultKind::ALL.len(),
        seed in any::<u64>(),
    ) {
        let mut play = Play::new(readable()[firmware], Bus::usual(), FaultKind::ALL[fault], seed);
        play.play(&ops)?;
        // The fault is over by then.
        play.pass(Mono::from_secs(FAULT_FROM_S).after(FAULT_FOR).max(play.wired.now))?;
        play.is_read()?;
    }

    #[test]
    fn where_nobody_answers_it_is_tried_for_ever(ops in vec(op(), 0..24), dead in 0_usize..3, seed in any::<u64>()) {
        let strangers = [&firmware::DEAD, &firmware::WIRED_LOOP, &firmware::MODEM];
        let mut play = Play::new(strangers[dead], Bus::usual(), FaultKind::NoData, seed);
        play.play(&ops)?;
        play.pass(play.wired.now.after(Duration::from_secs(300)))?;
    }
}

/// A simulated adapter at the far end of links in memory; each opening is a new one.
struct Far {
    car: Mutex<Car>,
    clock: SystemClock,
    /// Requests for the fluid's temperature, with their times, and how often the port was opened.
    asked: Mutex<Vec<Mono>>,
    opened: Mutex<u32>,
}

impl Far {
    fn new(firmware: &'static Firmware, clock: SystemClock) -> Arc<Self> {
        let sheet = embedded::six_speed();
        let world = World::new(&sheet, Vehicle::typical(&sheet, 18.0), None, &[], 1);
        let car = Car::on(Bus::usual(), world, &sheet, firmware, SerialLine::USUAL, 1);
        Arc::new(Self { car: Mutex::new(car), clock, asked: Mutex::default(), opened: Mutex::default() })
    }

    fn open(self: &Arc<Self>) -> Result<Box<dyn Link>, LinkError> {
        let (ours, theirs) = tokio::io::duplex(4_096);
        *self.opened.lock().unwrap() += 1;
        self.car.lock().unwrap().host_opened(self.clock.now());
        tokio::spawn(Arc::clone(self).serve(theirs));
        Ok(Box::new(ours))
    }

    async fn serve(self: Arc<Self>, mut stream: DuplexStream) {
        let mut buffer = [0; 1_024];
        loop {
            let (bytes, next) = {
                let (mut car, now) = (self.car.lock().unwrap(), self.clock.now());
                car.handle_timeout(now);
                (car.poll_transmit(now).unwrap_or_default(), car.poll_timeout())
            };
            if stream.write_all(&bytes).await.is_err() {
                break;
            }
            // Never far ahead: while the journal's thread works, the paused clock runs on to the next of these.
            let now = self.clock.now();
            let latest = now.after(Duration::from_secs(1));
            let next = next.unwrap_or(latest).clamp(now.after(Duration::from_millis(1)), latest);
            tokio::select! {
                read = stream.read(&mut buffer) => match read {
                    Ok(count) if count > 0 => {
                        let now = self.clock.now();
                        if buffer[..count].trim_ascii_start().starts_with(b"224D07") {
                            self.asked.lock().unwrap().push(now);
                        }
                        self.car.lock().unwrap().handle_bytes(&buffer[..count], now);
                    }
                    _ => break,
                },
                () = self.clock.sleep_until(next) => {}
            }
        }
        self.car.lock().unwrap().host_closed(self.clock.now());
    }
}

/// Runs a daemon for so long, without a client.
async fn daemon(opener: Arc<dyn Opener>, clock: SystemClock, span: Duration) {
    let folder = tempfile::tempdir().unwrap();
    let daemon = Daemon::start(Config {
        bay: "left".to_owned(),
        sheet: embedded::six_speed(),
        sheets: Vec::new(),
        socket: folder.path().join("bay.sock"),
        socket_group: None,
        journal: folder.path().to_owned(),
        opener: Some(opener),
        clock: Arc::new(clock),
        version: "test".to_owned(),
        limits: Limits::default(),
        memory: Memory::default(),
        recorder: None,
        machine: None,
        find: None,
    });
    daemon.unwrap().run(tokio::time::sleep(span)).await.unwrap();
}

#[tokio::test(start_paused = true)]
async fn an_adapter_that_refuses_all_at_first_is_read_once_it_is_well_without_any_client() {
    let clock = SystemClock::start();
    let far = Far::new(&firmware::COPY_REFUSES_AT_FIRST, clock);
    let opener = Arc::clone(&far);
    daemon(Arc::new(OpenWith::new("memory", move || opener.open())), clock, Duration::from_secs(30)).await;
    // It is well after 8 s.
    let asked = far.asked.lock().unwrap();
    assert!(asked.first().is_some_and(|at| *at < Mono::from_secs(14)), "{:?}", asked.first());
    assert!(asked.last().is_some_and(|at| *at > Mono::from_secs(28)), "{:?}", asked.last());
}

#[tokio::test(start_paused = true)]
async fn a_port_that_answers_nothing_is_opened_again_and_again_without_any_client() {
    for stranger in [&firmware::DEAD, &firmware::MODEM, &firmware::WIRED_LOOP] {
        let clock = SystemClock::start();
        let far = Far::new(stranger, clock);
        let opener = Arc::clone(&far);
        let span = Duration::from_secs(600);
        daemon(Arc::new(OpenWith::new("memory", move || opener.open())), clock, span).await;
        let opened = *far.opened.lock().unwrap();
        assert!(u64::from(opened) > span.as_secs() / TRIES_WITHIN.as_secs(), "{}: {opened}", stranger.name);
    }
}

/// A port whose opening neither succeeds nor fails, the first time.
struct Stuck(Mutex<u32>, Arc<Far>);

impl Opener for Stuck {
    fn open(&self) -> Opening<'_> {
        *self.0.lock().unwrap() += 1;
        let first = *self.0.lock().unwrap() == 1;
        Box::pin(async move { if first { std::future::pending().await } else { self.1.open() } })
    }

    fn describe(&self) -> String {
        "stuck".to_owned()
    }
}

#[tokio::test(start_paused = true)]
async fn an_opening_that_never_ends_is_given_up_and_tried_anew() {
    let clock = SystemClock::start();
    let far = Far::new(&firmware::ORIGINAL_21, clock);
    daemon(Arc::new(Stuck(Mutex::new(0), Arc::clone(&far))), clock, Duration::from_secs(60)).await;
    let asked = far.asked.lock().unwrap();
    assert!(asked.first().is_some_and(|at| *at < Mono::from_secs(30 + 5)), "{:?}", asked.first());
}
