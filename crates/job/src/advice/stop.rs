//! The stop rules: what asks for the hands at once, whatever the step.
//!
//! In: live readings, the record, the time. Out: cautions that hold now. Not here: that each is told once until the
//! engine stops or the port is closed (`follow.rs`), what the verdict is (`gate`).
//!
//! | caution | when |
//! | --- | --- |
//! | overheating | coolant or fluid above the sheet's limit, engine running |
//! | low-voltage | below the sheet's limit with the engine running for a while |
//! | long-idling | the engine has run in this job for longer than the sheet says |
//! | lost-while-open | the adapter or the vehicle's answer is gone and the check port is open |

use events::{Caution, Reason};
use units::Mono;

use crate::live::Engine;
use crate::record::Record;
use crate::state::{Core, VerdictNow};

/// The stop rules that hold now, in the order of their table.
pub(crate) fn holding(core: &Core, record: &Record, now: Mono, link_up: bool) -> Vec<Caution> {
    let (live, stop) = (&core.live, &record.sheet.stop);
    let runs = live.engine(now, &record.sheet) == Engine::Running;
    let hot = live.coolant_now(now).is_some_and(|t| t.to_f64() > stop.coolant_c)
        || live.fluid_now(now).is_some_and(|t| t.to_f64() > stop.fluid_c);
    let idled_ms = record.idled_ms(now);
    let low = live.volts_now(now).is_some_and(|v| v < stop.volts);
    let rules = [
        (Caution::Overheating, hot && runs),
        (Caution::LowVoltage, low && runs && idled_ms > CHARGES_AFTER_MS),
        (Caution::LongIdling, runs && idled_ms as f64 > stop.idle_min * 60_000.0),
        (Caution::LostWhileOpen, record.port_open() && !link_up),
    ];
    rules.into_iter().filter(|(_, holds)| *holds).map(|(caution, _)| caution).collect()
}

/// Whether the adapter or the vehicle is gone, by the verdict of this moment.
pub(crate) fn link_gone(verdict: &VerdictNow) -> bool {
    !verdict.link_up || verdict.reasons.contains(&Reason::LinkLost)
}

/// A starter pulls the voltage down, and the generator needs a moment after it.
/// Own choice: shorter takes each start for a flat battery; a battery that is not charged lasts longer than this.
const CHARGES_AFTER_MS: u64 = 30_000;
