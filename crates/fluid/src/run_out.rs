//! What runs out through the standpipe at a given height over its rim.
//!
//! In: the pipe, the fluid's viscosity, the head. Out: the flow, and which of four laws holds it back.
//! Not here: how the head falls with time (`drain.rs`), drops and warming (`drip.rs`).
//! Source: the smallest of weir, film over the lip (lubrication theory, own derivation), orifice and laminar tube.
//! Uncertainty: weir and orifice 30 %, the film a factor of 2 (shape of the rim, surface tension; the capillary
//! length of 1.9 mm is larger than the head). Use the times as a guide, never as a decision.

mod drain;
mod drip;

pub use drain::{Drain, DrainState, Trickle};
pub use drip::{
    BETA_40_PER_K, FirstOrderWarming, Quiet, WallFilm, WetWall, drip_flow_ml_min, until_quiet, wall_film,
    warming_flow_ml_min,
};

use crate::{FluidError, range};

/// The flow at which people call it a trickle, mL/min: a thin thread that breaks into drops.
/// Source: common practice, no source; the fluid left above the rim is nearly the same for every sensible choice (44 mL
/// at 10, 31 mL at 2.5).
pub const TRICKLE_ML_MIN: f64 = 10.0;
/// Standard acceleration of gravity, m/s². Source: exact by definition (CGPM 1901).
pub const GRAVITY: f64 = 9.806_65;

/// The standpipe and the surface above it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standpipe {
    /// Free surface at the height of the rim, m².
    pub area_m2: f64,
    /// Inner diameter, mm.
    pub bore_mm: f64,
    /// Width of the rim the fluid flows over, mm.
    pub rim_mm: f64,
    /// Length of the tube, mm.
    pub length_mm: f64,
}

/// Which law holds the flow back.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Regime {
    /// Nothing stands above the rim.
    Dry,
    /// The fluid falls over the rim as over a weir.
    Weir,
    /// It creeps over the rim as a viscous film.
    Lip,
    /// The mouth of the bore is full.
    Orifice,
    /// The whole tube is full.
    Tube,
}

impl Regime {
    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Dry => "dry",
            Self::Weir => "weir",
            Self::Lip => "lip",
            Self::Orifice => "orifice",
            Self::Tube => "tube",
        }
    }
}

/// What runs out at one moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flow {
    /// In mL/min; never negative.
    pub ml_min: f64,
    /// Which law it follows.
    pub regime: Regime,
}

/// One standpipe with one fluid in it: everything checked, so that a flow can be asked for at any head without
/// errors. Building one is cheap; a simulation builds a new one whenever the viscosity has moved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunOut {
    area_m2: f64,
    length_m: f64,
    /// Coefficients of the four laws in m and m³/s; the head in m.
    weir: f64,
    lip: f64,
    orifice: f64,
    tube: f64,
}

impl RunOut {
    /// A standpipe with fluid of kinematic viscosity `mm2_s`.
    ///
    /// # Errors
    /// A measure of the pipe or the viscosity outside its range.
    pub fn new(pipe: Standpipe, mm2_s: f64) -> Result<Self, FluidError> {
        let area_m2 = range::AREA_M2.check(pipe.area_m2)?;
        let d = range::BORE_MM.check(pipe.bore_mm)? / 1_000.0;
        let rim = range::RIM_MM.check(pipe.rim_mm)? / 1_000.0;
        let length_m = range::LENGTH_MM.check(pipe.length_mm)? / 1_000.0;
        let nu = range::MM2_S.check(mm2_s)? / 1e6;
        let pi = core::f64::consts::PI;
        let root = (2.0 * GRAVITY).sqrt();
        Ok(Self {
            area_m2,
            length_m,
            weir: 2.0 / 3.0 * WEIR_COEFFICIENT * root * pi * d,
            lip: pi * d * GRAVITY / (12.0 * nu * rim),
            orifice: ORIFICE_COEFFICIENT * pi * d * d / 4.0 * root,
            tube: pi * d.powi(4) * GRAVITY / (128.0 * nu * length_m),
        })
    }

    /// What runs out with `head_mm` above the rim. Nothing at and below the rim, nor for not-a-number.
    ///
    /// Never falls with the head. Continuous: at the head where two laws cross, either gives the same. A head of more
    /// than a kilometre counts as one, so that the answer is always a number.
    pub fn flow(&self, head_mm: f64) -> Flow {
        let (m3_s, regime) = self.m3_s(if head_mm > MOST_HEAD_MM { 1_000.0 } else { head_mm / 1_000.0 });
        Flow { ml_min: m3_s * ML_MIN_PER_M3_S, regime }
    }

    /// The head at which `ml_min` runs out, mm: the inverse of [`RunOut::flow`].
    ///
    /// # Errors
    /// Outside [`range::TRICKLE_ML_MIN`]; no head below a metre that gives so much.
    pub fn head_for_flow_mm(&self, ml_min: f64) -> Result<f64, FluidError> {
        let wanted = range::TRICKLE_ML_MIN.named("flow").check(ml_min)? / ML_MIN_PER_M3_S;
        // The smallest law holds, so the head is the largest that any of them asks for.
        let head = [
            (wanted / self.weir).powf(2.0 / 3.0),
            (wanted / self.lip).sqrt().sqrt(),
            (wanted / self.orifice).powi(2),
            wanted / self.tube - self.length_m,
        ];
        let head_mm = head.iter().fold(0.0_f64, |most, h| most.max(*h)) * 1_000.0;
        range::HEIGHT_MM.named("head for that flow").check(head_mm)
    }

    /// Head of `excess_ml` above the rim, mm.
    ///
    /// # Errors
    /// Outside [`range::EXCESS_ML`].
    pub fn head_of_mm(&self, excess_ml: f64) -> Result<f64, FluidError> {
        Ok(range::EXCESS_ML.check(excess_ml)? / 1_000.0 / self.area_m2)
    }

    /// Volume above the rim at `head_mm`, mL; negative below it.
    pub fn residual_ml(&self, head_mm: f64) -> f64 {
        head_mm * self.area_m2 * 1_000.0
    }

    fn m3_s(&self, h: f64) -> (f64, Regime) {
        if h.is_nan() || h <= 0.0 {
            return (0.0, Regime::Dry);
        }
        let laws = [Regime::Weir, Regime::Lip, Regime::Orifice, Regime::Tube];
        laws.into_iter()
            .map(|regime| (self.law(regime, h), regime))
            .fold((f64::INFINITY, Regime::Weir), |least, next| if next.0 < least.0 { next } else { least })
    }

    /// The flow that one law alone would allow, m³/s.
    fn law(&self, regime: Regime, h: f64) -> f64 {
        match regime {
            Regime::Dry => 0.0,
            Regime::Weir => self.weir * h * h.sqrt(),
            Regime::Lip => self.lip * h.powi(4),
            Regime::Orifice => self.orifice * h.sqrt(),
            Regime::Tube => self.tube * (self.length_m + h),
        }
    }
}

/// What runs out with `head_mm` above the rim of `pipe`, for a single question. Many questions: [`RunOut`].
///
/// # Errors
/// As [`RunOut::new`].
pub fn flow_ml_min(head_mm: f64, pipe: Standpipe, mm2_s: f64) -> Result<(f64, Regime), FluidError> {
    let flow = RunOut::new(pipe, mm2_s)?.flow(head_mm);
    Ok((flow.ml_min, flow.regime))
}

/// By definition.
const ML_MIN_PER_M3_S: f64 = 60.0e6;
/// Beyond this head the flow is that of a kilometre: the powers stay finite.
/// Own choice: no pipe stands under so much.
const MOST_HEAD_MM: f64 = 1.0e6;
/// Of a weir, within 30 %.
/// Source: textbook value, from memory.
const WEIR_COEFFICIENT: f64 = 0.6;
/// Of an orifice, within 30 %.
/// Source: textbook value, from memory.
const ORIFICE_COEFFICIENT: f64 = 0.6;

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use proptest::prelude::*;

    /// The pipe of the check tables.
    pub(crate) const PIPE: Standpipe =
        Standpipe { area_m2: 0.060, bore_mm: 10.0, rim_mm: 1.5, length_mm: 60.0 };

    #[test]
    fn nothing_runs_below_the_rim() {
        let run_out = RunOut::new(PIPE, 29.6).unwrap();
        for head in [0.0, -0.1, f64::NAN, f64::NEG_INFINITY] {
            assert_eq!(run_out.flow(head), Flow { ml_min: 0.0, regime: Regime::Dry }, "{head}");
        }
    }

    #[test]
    fn thick_cold_fluid_fills_the_tube() {
        assert_eq!(flow_ml_min(8.0, PIPE, 3_000.0).unwrap().1, Regime::Tube);
    }

    #[test]
    fn a_pipe_without_a_bore_is_refused() {
        let pipe = Standpipe { bore_mm: 0.0, ..PIPE };
        assert!(matches!(RunOut::new(pipe, 30.0), Err(FluidError::OutsideRange { quantity: "bore", .. })));
    }

    proptest! {
        #[test]
        fn the_flow_never_falls_with_the_head(h in 0.0..100.0, dh in 0.0..1.0, nu in 1.0..5_000.0) {
            let run_out = RunOut::new(PIPE, nu).unwrap();
            prop_assert!(run_out.flow(h + dh).ml_min >= run_out.flow(h).ml_min);
        }

        #[test]
        fn thicker_fluid_never_runs_faster(h in 0.01..100.0, nu in 1.0..5_000.0, more in 0.0..500.0) {
            prop_assert!(
                RunOut::new(PIPE, nu + more).unwrap().flow(h).ml_min <= RunOut::new(PIPE, nu).unwrap().flow(h).ml_min
            );
        }

        #[test]
        fn the_head_for_a_flow_gives_that_flow(h in 0.01..100.0, nu in 1.0..5_000.0) {
            let run_out = RunOut::new(PIPE, nu).unwrap();
            let flow = run_out.flow(h).ml_min;
            prop_assume!(flow > 0.001 && flow < 9_999.0);
            prop_assert!((run_out.head_for_flow_mm(flow).unwrap() / h - 1.0).abs() < 1e-9);
        }
    }
}
