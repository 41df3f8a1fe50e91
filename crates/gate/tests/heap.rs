//! In steady state a step of the gate takes nothing from the heap, whatever the signal.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test")]

use events::{Check, Measure, Reading, Signal, Surface, Verdict};
use gate::Gate;
use units::{Celsius, Mono, Rpm};

/// Feeds one second of everything and judges; gives the verdict.
fn second(gate: &mut Gate, s: u64) -> Verdict {
    let at = Mono::from_secs(s);
    let t = 20.0 + s as f64 / 60.0;
    let celsius = |t: f64| Celsius::from_f64(t).unwrap();
    let measures = [
        Measure::EngineSpeed(Rpm::from_f64(700.0).unwrap()),
        Measure::Coolant(celsius((t * 1.7).round())),
        Measure::AmbientAir(celsius(18.0)),
        Measure::IntakeAir(celsius(18.0)),
        Measure::Fluid(celsius(t.round())),
        Measure::Spot(celsius(t), Surface::Tape),
    ];
    for measure in measures {
        gate.observe(&Reading { measure, step: None, from: None, age_ms: 0 }, at);
    }
    gate.judge(at, &[]).verdict
}

#[test]
fn a_step_takes_nothing_from_the_heap() {
    for signal in [Signal::Fluid, Signal::Coolant, Signal::Spot] {
        let check = Check::of(signal, [35.0, 45.0]);
        let mut gate = Gate::new(&check, None);
        let mut went = false;
        let mut s = 0;
        let counted = allocation_counter::measure(|| {
            while s < 1_800 {
                went |= second(&mut gate, s) == Verdict::Go;
                s += 1;
            }
        });
        assert!(went, "{signal:?}: it never came to go, so this proves little");
        assert_eq!(counted.count_total, 0, "{signal:?}");
    }
}
