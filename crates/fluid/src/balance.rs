//! The fluid balance: drained, filled, run out, brought to one temperature.
//!
//! In: amounts with the temperature each was measured at. Out: how much must run out, and what a job changed.
//! Not here: who measured what and when, and undoing it (the job), level errors from temperature (`volume.rs`).
//! Source: `O = (F*VCF(tF) - D*VCF(tD))/VCF(ref) - S`; the rest is addition.

use units::{Celsius, Millilitres};

use crate::{FluidError, range, volume};

/// Standard uncertainty of reading a measuring vessel, mL.
/// Source: from memory.
pub const U_VESSEL_ML: f64 = 25.0;
/// A closing error above this deserves a question, mL.
/// Own choice: about twice the uncertainty of three readings, 45 mL.
pub const CLOSING_ERROR_ML: f64 = 100.0;

/// An amount of fluid and the temperature it had when it was measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Amount {
    /// In mL at `celsius`.
    pub millilitres: f64,
    /// In °C.
    pub celsius: f64,
}

/// An amount at the reference temperature, with what its measurement leaves open.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Referred {
    /// At the reference temperature, mL.
    pub millilitres: f64,
    /// Standard uncertainty, mL.
    pub u_ml: f64,
}

/// Drained and filled, before anything ran out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trade {
    /// What came out of the drain.
    pub drained: Amount,
    /// What was filled in.
    pub filled: Amount,
    /// Temperature at which the level is set, °C.
    pub reference_celsius: f64,
    /// Density at 15 °C, kg/m³.
    pub density_15: f64,
    /// How much was missing before the job, mL at the reference temperature; positive when it was low.
    pub shortage_ml: f64,
}

/// What must run out for the level to be right.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RightOverflow {
    /// At the reference temperature, mL; negative when fluid is still missing.
    pub overflow_ml: f64,
    /// The same without regard to temperatures, as on a note pad, mL.
    pub uncorrected_ml: f64,
}

/// A whole job, every volume at one reference temperature, mL.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Closure {
    /// In the unit before the job.
    pub before_ml: f64,
    /// Drained.
    pub drained_ml: f64,
    /// Filled.
    pub filled_ml: f64,
    /// Run out.
    pub overflowed_ml: f64,
}

/// What a job changed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Closed {
    /// In the unit after the job, mL.
    pub after_ml: f64,
    /// More than before, mL; negative when less.
    pub net_ml: f64,
}

/// An amount brought to `reference_celsius`, mL.
///
/// # Errors
/// An amount, temperature or density outside its range.
pub fn refer_ml(amount: Amount, reference_celsius: f64, density_15: f64) -> Result<f64, FluidError> {
    let moved = volume::move_volume(volume::VolumeMove {
        millilitres: amount.millilitres,
        from_celsius: amount.celsius,
        to_celsius: reference_celsius,
        density_15,
    })?;
    Ok(moved.millilitres)
}

/// As [`refer_ml`], with the standard uncertainty from that of the vessel (`u_ml`) and of the temperature (`u_c`).
///
/// # Errors
/// As [`refer_ml`]; an uncertainty below zero.
///
/// Source: JCGM 100, first order.
pub fn refer(
    amount: Amount,
    reference_celsius: f64,
    density_15: f64,
    u_ml: f64,
    u_c: f64,
) -> Result<Referred, FluidError> {
    let millilitres = refer_ml(amount, reference_celsius, density_15)?;
    let u_ml = range::VOLUME_ML.named("uncertainty of an amount").check(u_ml)?;
    let u_c = range::U_CELSIUS.named("uncertainty of its temperature").check(u_c)?;
    let per_k = volume::expansion_per_k(amount.celsius, density_15)?;
    let ratio = volume::vcf(amount.celsius, density_15)? / volume::vcf(reference_celsius, density_15)?;
    Ok(Referred { millilitres, u_ml: (ratio * u_ml).hypot(millilitres * per_k * u_c) })
}

/// How much must run out at the reference temperature for the level to be right.
///
/// # Errors
/// An input outside its range.
///
/// Source: `(F*VCF(tF) - D*VCF(tD))/VCF(ref) - S`. Drained 2.37 L at 60 °C, filled 2.84 L at 20 °C: 552 mL at 40 °C,
/// not the 473 mL of the note pad.
pub fn right_overflow(trade: Trade) -> Result<RightOverflow, FluidError> {
    let shortage = range::CHANGE_ML.named("shortage before the job").check(trade.shortage_ml)?;
    let reference_celsius =
        range::FLUID_CELSIUS.named("reference temperature").check(trade.reference_celsius)?;
    range::VOLUME_ML.named("filled volume").check(trade.filled.millilitres)?;
    range::VOLUME_ML.named("drained volume").check(trade.drained.millilitres)?;
    let filled = refer_ml(trade.filled, reference_celsius, trade.density_15)?;
    let drained = refer_ml(trade.drained, reference_celsius, trade.density_15)?;
    Ok(RightOverflow {
        overflow_ml: filled - drained - shortage,
        uncorrected_ml: trade.filled.millilitres - trade.drained.millilitres - shortage,
    })
}

/// What a job changed, all volumes at one reference temperature.
///
/// # Errors
/// A volume below zero or too large; more taken out than was ever in.
pub fn close(closure: Closure) -> Result<Closed, FluidError> {
    let before = range::VOLUME_ML.named("volume before the job").check(closure.before_ml)?;
    let drained = range::VOLUME_ML.named("drained volume").check(closure.drained_ml)?;
    let filled = range::VOLUME_ML.named("filled volume").check(closure.filled_ml)?;
    let overflowed = range::VOLUME_ML.named("run-out volume").check(closure.overflowed_ml)?;
    if drained > before {
        return Err(FluidError::Contradiction {
            first: "drained volume",
            first_value: drained,
            second: "volume before the job",
            second_value: before,
            why: "more cannot come out than was in",
        });
    }
    let net_ml = filled - drained - overflowed;
    let after_ml = range::VOLUME_ML.named("volume after the job").check(before + net_ml)?;
    Ok(Closed { after_ml, net_ml })
}

/// [`right_overflow`] for stored quantities: `drained` and `filled` with their temperatures, rounded to whole mL.
///
/// # Errors
/// As [`right_overflow`].
pub fn must_run_out(
    drained: (Millilitres, Celsius),
    filled: (Millilitres, Celsius),
    reference: Celsius,
    density_15: f64,
) -> Result<Millilitres, FluidError> {
    let amount = |(v, t): (Millilitres, Celsius)| Amount { millilitres: v.to_f64(), celsius: t.to_f64() };
    let right = right_overflow(Trade {
        drained: amount(drained),
        filled: amount(filled),
        reference_celsius: reference.to_f64(),
        density_15,
        shortage_ml: 0.0,
    })?;
    Ok(Millilitres::clamped(right.overflow_ml))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn three_vessels_leave_about_45_millilitres_open() {
        // Stated with the formula: u(net) about 45 mL for three readings of 25 mL.
        let one =
            refer(Amount { millilitres: 2_400.0, celsius: 40.0 }, 40.0, 850.0, U_VESSEL_ML, 2.0).unwrap();
        let three = one.u_ml * 3.0_f64.sqrt();
        assert!((43.0..46.0).contains(&three), "{three}");
    }

    #[test]
    fn more_cannot_come_out_than_was_in() {
        let job = Closure { before_ml: 2_000.0, drained_ml: 2_400.0, filled_ml: 2_900.0, overflowed_ml: 0.0 };
        assert!(matches!(close(job), Err(FluidError::Contradiction { .. })));
        let job = Closure { before_ml: 8_000.0, drained_ml: 8_000.0, filled_ml: 100.0, overflowed_ml: 400.0 };
        assert!(matches!(close(job), Err(FluidError::OutsideRange { quantity: "volume after the job", .. })));
    }

    #[test]
    fn stored_quantities_give_the_corrected_overflow() {
        // Row 2 of the trade_balance table, in whole millilitres: 552 mL, not 473.
        let c = |degrees: i32| Celsius::from_steps(degrees * 100).unwrap();
        let ml = |v| Millilitres::from_steps(v).unwrap();
        let out = must_run_out((ml(2_366), c(60)), (ml(2_839), c(20)), c(40), 850.0);
        assert_eq!(out.map(Millilitres::steps), Ok(552));
    }

    proptest! {
        #[test]
        fn mass_in_is_mass_out(
            drained in 500.0..6_000.0, td in 10.0..90.0, surplus in 0.0..1_000.0, tf in 0.0..40.0, reference in 30.0..90.0,
        ) {
            // When the right amount has run out, the mass in the unit is what it was.
            let density_15 = 845.0;
            let filled = drained + surplus;
            let right = right_overflow(Trade {
                drained: Amount { millilitres: drained, celsius: td },
                filled: Amount { millilitres: filled, celsius: tf },
                reference_celsius: reference, density_15, shortage_ml: 0.0,
            }).unwrap();
            let mass = |ml: f64, t: f64| ml * volume::density_at(t, density_15).unwrap();
            let net = mass(filled, tf) - mass(drained, td) - mass(right.overflow_ml, reference);
            prop_assert!(net.abs() < 1e-3, "{net} mg");
        }
    }
}
