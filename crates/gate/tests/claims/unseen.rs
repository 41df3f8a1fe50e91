//! An engine that nobody saw for a while may have stood, and what its start mixes must not meet an open port. Only the vehicle's own
//! count of how long the engine has run proves that it ran on.

use events::{Check, Measure, Reading, Reason, Signal, Surface, Verdict};
use gate::{Gate, Judgement};
use units::{Celsius, Mono, Rpm};

/// The link is lost at this second; until then all is well, and the gate open.
const LOST: u64 = 540;
const IDLE: f64 = 720.0;

/// What the vehicle's count says after the loss.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Counts {
    /// It began anew with the engine.
    Anew,
    /// It was held while the engine stood, and goes on.
    Held,
    /// It ran on all the time, as the engine did.
    On,
    /// It is another engine's: far ahead.
    Elsewhere,
    /// The vehicle tells none.
    Untold,
}

/// A gate that hears all that comes over the link.
struct Bench {
    gate: Gate,
    counts: Counts,
    back: u64,
    /// How often the engine is asked for, and its count, s.
    every: (u64, u64),
    /// The engine is not read any more.
    engine_mute: bool,
    /// Nothing comes, and nobody says that the link is lost.
    untold: bool,
}

impl Bench {
    fn new(counts: Counts, back: u64) -> Self {
        let gate = Gate::new(&Check::of(Signal::Fluid, [35.0, 45.0]), None);
        Self { gate, counts, back, every: (1, 10), engine_mute: false, untold: false }
    }

    fn tell(&mut self, measure: Measure, at: Mono) {
        self.gate.observe(&Reading { measure, step: None, from: None, age_ms: 0 }, at);
    }

    /// One second: the link is away from [`LOST`] to `back`.
    fn second(&mut self, second: u64, fluid: f64, rpm: f64) -> Judgement {
        let at = Mono::from_secs(second);
        if second == LOST && self.back > LOST && !self.untold {
            self.gate.link_lost(at);
        }
        if !(LOST..self.back).contains(&second) {
            self.tell(Measure::Fluid(Celsius::from_f64(fluid.round()).unwrap()), at);
            let mute = self.engine_mute && second >= self.back;
            if second.is_multiple_of(self.every.0) && !mute {
                self.tell(Measure::EngineSpeed(Rpm::from_f64(rpm).unwrap()), at);
            }
            if let Some(count) = self.count(second).filter(|_| second.is_multiple_of(self.every.1) && !mute) {
                self.tell(Measure::RunTime(count), at);
            }
        }
        self.gate.judge(at, &[])
    }

    /// The engine has run for a minute when all begins.
    fn count(&self, second: u64) -> Option<u32> {
        let after = second - self.back.min(second);
        let seconds = match self.counts {
            Counts::Untold => return None,
            _ if second < LOST => second + 60,
            Counts::Anew => after + 1,
            Counts::Held => LOST + 60 + after,
            Counts::On => second + 60,
            Counts::Elsewhere => second + 3_600,
        };
        u32::try_from(seconds).ok()
    }
}

fn warming(second: u64) -> f64 {
    32.0 + second as f64 / 90.0
}

/// The seconds after the return of the first `go` within `limit`, with a fluid that goes on warming and an engine that idles.
fn opens_after(bench: &mut Bench, limit: u64) -> Option<u64> {
    for second in 0..bench.back + limit {
        let judged = bench.second(second, warming(second), IDLE);
        if second == LOST - 1 {
            assert_eq!(judged.verdict, Verdict::Go, "{judged:?}");
        }
        if second >= bench.back && judged.verdict == Verdict::Go {
            return Some(second - bench.back);
        }
    }
    None
}

#[test]
fn an_engine_that_was_stopped_and_started_unseen_is_waited_out_before_go() {
    for counts in [Counts::Anew, Counts::Held, Counts::Elsewhere, Counts::Untold] {
        for away in (20..=100).step_by(10) {
            let mut bench = Bench::new(counts, LOST + away);
            let mut went = false;
            for second in 0..bench.back + 600 {
                let since = second as f64 - bench.back as f64;
                // It cools a little, and the start gives it what converter, cooler and case have kept.
                let fluid = match since {
                    _ if second < LOST => warming(second),
                    ..0.0 => 37.0,
                    _ => 37.0 + 8.0 * (1.0 - (-since / 12.0).exp()) - since / 90.0,
                };
                let judged = bench.second(second, fluid, IDLE);
                let go = judged.verdict == Verdict::Go;
                let mixing = (0.0..90.0).contains(&since);
                assert!(!(mixing && go), "{counts:?}, away {away} s: `go` after {since} s: {judged:?}");
                went |= go && second < LOST;
            }
            assert!(went, "the window before was given");
        }
    }
}

#[test]
fn a_count_that_ran_on_proves_that_the_engine_did_and_go_comes_as_after_any_loss() {
    for away in (20..=100).step_by(10) {
        let mut bench = Bench::new(Counts::On, LOST + away);
        assert_eq!(opens_after(&mut bench, 60), Some(3), "away {away} s");
    }
    // Read some seconds later it opens with it.
    let mut bench = Bench::new(Counts::On, LOST + 24);
    assert_eq!(opens_after(&mut bench, 60), Some(6));
}

#[test]
fn without_a_count_the_mixing_is_waited_out_and_then_go_is_given() {
    let mut bench = Bench::new(Counts::Untold, LOST + 30);
    assert_eq!(opens_after(&mut bench, 200), Some(90));
    let mut bench = Bench::new(Counts::Untold, LOST + 30);
    for second in 0..LOST + 120 {
        let judged = bench.second(second, warming(second), IDLE);
        if second >= LOST + 30 {
            assert_eq!(judged.reasons, [Reason::Hysteresis], "at {second} s");
        }
    }
}

#[test]
fn a_loss_no_longer_than_a_stand_that_counts_is_not_held_against_the_engine() {
    assert_eq!(opens_after(&mut Bench::new(Counts::Untold, LOST + 4), 60), Some(3));
}

#[test]
fn a_silence_that_nobody_calls_a_loss_hides_a_stop_as_well() {
    for (counts, away, opens) in
        [(Counts::Untold, 9, 90), (Counts::On, 9, 3), (Counts::On, 11, 9), (Counts::Untold, 4, 0)]
    {
        let mut bench = Bench::new(counts, LOST + away);
        bench.untold = true;
        assert_eq!(opens_after(&mut bench, 200), Some(opens), "{counts:?}, away {away} s");
    }
}

#[test]
fn readings_of_the_engine_that_are_only_late_hold_nothing() {
    for every in [(12, 60), (30, 30), (45, 90)] {
        let mut bench = Bench::new(Counts::On, 0);
        bench.every = every;
        for second in 0..900 {
            let judged = bench.second(second, warming(second), IDLE);
            if (500..900).contains(&second) {
                assert_eq!(judged.verdict, Verdict::Go, "{every:?} at {second} s: {judged:?}");
            }
        }
    }
}

#[test]
fn while_the_signal_is_back_and_the_engine_is_not_nothing_is_known() {
    let mut bench = Bench::new(Counts::On, LOST + 20);
    bench.engine_mute = true;
    assert_eq!(opens_after(&mut bench, 200), None);
}

#[test]
fn an_engine_that_is_found_standing_mixes_when_it_starts_however_short_it_was_seen_to_stand() {
    let back = LOST + 30;
    let mut bench = Bench::new(Counts::Anew, back);
    let mut opened = None;
    for second in 0..back + 300 {
        let stands = (LOST..back + 3).contains(&second);
        let judged = bench.second(second, warming(second), if stands { 0.0 } else { IDLE });
        if second >= back + 3 && judged.verdict == Verdict::Go {
            opened.get_or_insert(second - back);
        }
    }
    assert_eq!(opened, Some(93));
}

#[test]
fn two_losses_in_a_row_are_proved_by_the_count_from_before_the_first() {
    let mut gate = Bench::new(Counts::On, LOST + 20);
    for second in 0..LOST + 300 {
        // The count is asked for only once both are over.
        gate.every.1 = if (LOST..LOST + 45).contains(&second) { 1_000_000 } else { 10 };
        let at = Mono::from_secs(second);
        if second == LOST + 30 {
            gate.gate.link_lost(at);
        }
        if (LOST + 30..LOST + 40).contains(&second) {
            continue;
        }
        let judged = gate.second(second, warming(second), IDLE);
        if (LOST..LOST + 50).contains(&second) {
            assert_ne!(judged.verdict, Verdict::Go, "at {second} s: {judged:?}");
        }
        if second > LOST + 50 && second < LOST + 200 {
            assert_eq!(judged.verdict, Verdict::Go, "at {second} s: {judged:?}");
        }
    }
}

#[test]
fn typed_readings_from_before_a_stop_that_may_have_been_do_not_outlive_it() {
    for (counts, held) in [(Counts::On, false), (Counts::Anew, true)] {
        let mut bench = Bench::new(counts, LOST + 20);
        bench.gate = Gate::new(&Check::of(Signal::Spot, [35.0, 45.0]), None);
        let mut opened = None;
        for second in 0..LOST + 300 {
            let at = Mono::from_secs(second);
            if second.is_multiple_of(20) {
                bench.tell(Measure::Spot(Celsius::from_f64(40.0).unwrap(), Surface::Tape), at);
            }
            let judged = bench.second(second, 40.0, IDLE);
            if second > LOST + 20 && judged.verdict == Verdict::Go {
                opened.get_or_insert(second - LOST - 20);
            }
        }
        let held_for = opened.unwrap();
        assert!(if held { held_for >= 90 } else { held_for <= 10 }, "{counts:?}: after {held_for} s");
    }
}
