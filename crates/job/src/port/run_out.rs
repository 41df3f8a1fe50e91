//! Will the excess have run out before the window closes? Said before the port is opened.
//!
//! In: the record (what was filled above what was drained), how fast it warms, the forecast. Out: [`RunOutAhead`]. Not here: the laws
//! of the stream (`fluid::run_out`), the forecast (`gate`).
//! Source: physics of the run-out as in `fluid::run_out`, known to a factor of two; `docs/gate.md`, "Window planning".

use core::time::Duration;

use events::Sheet;
use fluid::run_out::{Drain, RunOut, Standpipe, TRICKLE_ML_MIN};
use fluid::viscosity::Walther;
use fluid::volume::expansion_per_k;
use units::Mono;

use crate::port::round::{Round, Stream};

/// When a stream has outlasted what was to be expected by so far that it is a wrong plug or a loose pipe.
pub(crate) fn endless_at(round: &Round) -> Option<Mono> {
    let since = round.since.filter(|_| round.stream == Stream::Flows)?;
    let seconds = (ENDLESS * round.expected_s?).max(ENDLESS_LEAST_S);
    Some(since.after(Duration::from_millis((seconds * 1_000.0) as u64)))
}

/// Until `excess_ml` has run out to a trickle in a fluid that warms by `k_min`, s. Warming adds to the stream for as long as
/// it lasts: below that the stream never falls, so that is the trickle then.
pub(crate) fn needs(sheet: &Sheet, excess_ml: f64, k_min: f64) -> Option<f64> {
    let (check, fluid, pipe) = (&sheet.check, &sheet.fluid, &sheet.standpipe);
    let middle = check.middle().to_f64();
    let nu = Walther::from_40_and_100(fluid.mm2_s_40, fluid.mm2_s_100).ok()?.mm2_s(middle).ok()?;
    let pipe = Standpipe {
        area_m2: pipe.surface_m2,
        bore_mm: pipe.bore_mm,
        rim_mm: pipe.rim_mm,
        length_mm: pipe.length_mm,
    };
    let warming_ml_min = fluid.total_ml * expansion_per_k(middle, fluid.density_15).ok()? * k_min.max(0.0);
    let drain = Drain::new(RunOut::new(pipe, nu).ok()?, excess_ml, 0.0).ok()?;
    Some(drain.trickle(TRICKLE_ML_MIN.max(warming_ml_min * ABOVE_WARMING)).ok()??.seconds)
}

/// A stream lasts no longer than so often its forecast, and than this.
/// Own choice: the forecast is known to a factor of two; half-way through a minute nobody has seen yet whether it
/// thins.
const ENDLESS: f64 = 2.0;
const ENDLESS_LEAST_S: f64 = 60.0;
/// A stream this much above what warming adds is told from it by eye.
/// Source: from memory: the eye tells a quarter more of a thin stream, not less.
const ABOVE_WARMING: f64 = 1.25;

#[cfg(test)]
mod tests {
    use super::*;

    fn sheet() -> Sheet {
        Sheet::parse(include_str!("../../../../fixtures/sheets/demo-six-speed.toml")).unwrap()
    }

    #[test]
    fn the_usual_excess_needs_the_one_to_three_minutes_of_the_trade() {
        // Physics reference, section 6: 473 mL on 0.060 m², 10 mm, 1.5 mm, 29.6 mm²/s: 10 mL/min after 114 s.
        let still = needs(&sheet(), 473.0, 0.0).unwrap();
        assert!((90.0..150.0).contains(&still), "{still}");
        let warming = needs(&sheet(), 473.0, 3.0).unwrap();
        assert!(warming < still, "a warming fluid never falls to the nominal trickle: {warming}");
    }
}
