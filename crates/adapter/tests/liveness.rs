//! The driver never waits for nothing: while a link is open, a line leaves or the link is given up within a stated time, and
//! an adapter that is well again is read again, whatever went before. Nobody but the clock drives it here.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic, reason = "a test")]

mod bench;
mod noise;

use std::time::Duration;

use adapter::{Driver, Outcome};
use noise::{noise, right, schedule};
use proptest::collection::vec;
use proptest::prelude::*;
use units::Mono;

/// As the daemon does: a link that was given up is opened again after this.
const REOPEN: Duration = Duration::from_millis(250);
/// How long a well adapter takes for an answer here.
const ANSWERS: Duration = Duration::from_millis(20);

/// What happens to a driver.
#[derive(Debug, Clone)]
enum Op {
    /// Bytes come, or (empty) the right answer, so many ms later.
    Hear(Vec<u8>, u64),
    /// The same bytes come again and again, so many ms apart, for so many seconds.
    Drip(Vec<u8>, u64, u64),
    /// So many right answers.
    Calm(usize),
    /// The link is cut, and opened again.
    Cut,
}

fn op() -> impl Strategy<Value = Op> {
    let bytes = prop_oneof![noise().prop_map(|(bytes, _)| bytes), Just(b">".to_vec())];
    let drip = (bytes, 1_u64..2_000, 1_u64..150).prop_map(|(bytes, every, s)| Op::Drip(bytes, every, s));
    // Long enough for count digits to be learnt.
    let calm = (1_usize..40).prop_map(Op::Calm);
    prop_oneof![
        24 => noise().prop_map(|(bytes, after)| Op::Hear(bytes, after)),
        2 => drip,
        2 => calm,
        2 => Just(Op::Cut),
    ]
}

struct Play {
    driver: Driver,
    now: Mono,
    last: Vec<u8>,
    rate: u32,
    /// When a line left last, or the link was opened or given up.
    tried: Mono,
    open: bool,
    reopen: Mono,
    /// Answers to the gating request.
    gating: usize,
}

impl Play {
    fn new(found: Option<u32>) -> Self {
        let mut driver = Driver::new(schedule());
        driver.handle_opened_at(found, Mono::ZERO);
        Self {
            driver,
            now: Mono::ZERO,
            last: Vec::new(),
            rate: found.unwrap_or_default(),
            tried: Mono::ZERO,
            open: true,
            reopen: Mono::ZERO,
            gating: 0,
        }
    }

    /// Takes out what there is, and checks that something is ahead.
    fn settle(&mut self) -> Result<(), TestCaseError> {
        while let Some(line) = self.driver.poll_transmit(self.now) {
            self.last = line.to_vec();
            self.tried = self.now;
        }
        self.rate = self.driver.poll_rate().unwrap_or(self.rate);
        while let Some(outcome) = self.driver.poll_outcome() {
            if let Outcome::Answer { ask, .. } = outcome {
                self.gating += usize::from(ask == frames::Ask::Identifier(0x1940));
            }
        }
        if self.open && self.driver.has_given_up() {
            self.close();
        }
        if !self.open {
            return Ok(());
        }
        let waiting = self.driver.waiting_for();
        let Some(at) = self.driver.poll_timeout() else {
            let text = format!("{:?}", self.driver);
            let at = text.find("phase:").unwrap();
            return Err(TestCaseError::fail(format!(
                "it waits for nothing {}",
                &text[at..(at + 300).min(text.len())]
            )));
        };
        prop_assert!(at.since(self.now) <= Driver::SPEAKS_WITHIN, "until {at} at {}: {waiting:?}", self.now);
        let silent = self.now.since(self.tried);
        prop_assert!(silent <= Driver::SPEAKS_WITHIN, "nothing was sent for {silent:?}: {waiting:?}");
        Ok(())
    }

    fn close(&mut self) {
        self.driver.handle_closed(self.now);
        (self.open, self.reopen, self.tried) = (false, self.now.after(REOPEN), self.now);
    }

    /// Lets the time pass up to `until`, with every time-out and reopening on the way.
    fn pass(&mut self, until: Mono) -> Result<(), TestCaseError> {
        for step in 0.. {
            prop_assert!(step < 100_000, "time stands still: {:?}", self.driver.waiting_for());
            let next = if self.open { self.driver.poll_timeout() } else { Some(self.reopen) };
            let Some(at) = next.filter(|at| *at <= until) else { break };
            self.now = self.now.max(at);
            if self.open {
                self.driver.handle_timeout(self.now);
            } else {
                self.driver.handle_opened(self.now);
                (self.open, self.rate, self.tried) = (true, 0, self.now);
            }
            self.settle()?;
            if self.open && self.driver.poll_timeout().is_some_and(|next| next <= self.now) {
                self.now = self.now.after(Duration::from_millis(1));
            }
        }
        self.now = self.now.max(until);
        Ok(())
    }

    fn hear(&mut self, bytes: &[u8]) -> Result<(), TestCaseError> {
        self.driver.handle_bytes(bytes, self.now);
        self.settle()
    }

    fn play(&mut self, ops: &[Op]) -> Result<(), TestCaseError> {
        for op in ops {
            match op {
                Op::Hear(bytes, after) => {
                    self.pass(self.now.after(Duration::from_millis(*after)))?;
                    let right = right(&self.driver, &self.last, self.rate);
                    self.hear(if bytes.is_empty() { &right } else { bytes })?;
                }
                Op::Calm(times) => {
                    for _ in 0..*times {
                        self.answer()?;
                    }
                }
                Op::Drip(bytes, every, seconds) => {
                    let end = self.now.after(Duration::from_secs(*seconds));
                    while self.now < end {
                        self.pass(self.now.after(Duration::from_millis(*every)))?;
                        self.hear(bytes)?;
                    }
                }
                Op::Cut if self.open => self.close(),
                Op::Cut => {}
            }
        }
        Ok(())
    }

    /// From now on the adapter is well: how long until the gating request is answered.
    fn is_well(&mut self) -> Result<Duration, TestCaseError> {
        let (from, before) = (self.now, self.gating);
        while self.gating == before {
            let waited = self.now.since(from);
            prop_assert!(waited <= Driver::READS_WITHIN, "not read: {:?}", self.driver.waiting_for());
            self.answer()?;
        }
        Ok(self.now.since(from))
    }

    /// One step of a well adapter: the right answer, or the time until something is asked.
    fn answer(&mut self) -> Result<(), TestCaseError> {
        if self.driver.asking().is_none() {
            let next = if self.open { self.driver.poll_timeout() } else { Some(self.reopen) };
            return self.pass(next.unwrap_or(self.now).max(self.now.after(Duration::from_millis(1))));
        }
        self.pass(self.now.after(ANSWERS))?;
        let right = right(&self.driver, &self.last, self.rate);
        self.hear(&right)
    }
}

proptest! {
    #[test]
    fn whatever_came_a_line_leaves_or_the_link_is_given_up_in_time(
        ops in vec(op(), 0..80),
        found in prop_oneof![Just(None), Just(Some(9_600)), Just(Some(38_400))],
    ) {
        let mut play = Play::new(found);
        play.settle()?;
        play.play(&ops)?;
        // And then nothing comes any more.
        play.pass(play.now.after(4 * Driver::SPEAKS_WITHIN))?;
    }

    #[test]
    fn whatever_came_an_adapter_that_is_well_is_read_in_time(
        ops in vec(op(), 0..80),
        found in prop_oneof![Just(None), Just(Some(9_600)), Just(Some(38_400))],
    ) {
        let mut play = Play::new(found);
        play.settle()?;
        play.play(&ops)?;
        play.is_well()?;
    }
}
