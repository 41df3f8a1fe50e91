//! Warming at idle and cooling after: two nodes, engine and transmission, and the times when the band is crossed.
//!
//! In: heat capacities, heats, conductances. Out: rates, final temperatures, and the [`Course`] from a start
//! (`course.rs`), which knows the window. Not here: parameters fitted to a recording (the gate), cooling of one body alone (`cooling.rs`).
//! Source: linear heat balance of two bodies, solved in closed form by the two eigenvalues, which are real and
//! negative. Valid below the thermostat's opening (82 to 105 °C); from there on [`Course::held_at`]. Heats are taken
//! as constant. Uncertainty: from default parameters a factor of 2 in time; keep the form, fit the numbers.

mod course;

pub use course::{Course, Window};

use crate::{FluidError, range};

/// Two bodies that exchange heat with each other and with the air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoNode {
    /// Heat capacity of the engine with its coolant, kJ/K.
    pub engine_kj_k: f64,
    /// Heat capacity of the fluid with the metal that follows it, kJ/K.
    pub trans_kj_k: f64,
    /// Heat into the engine, kW.
    pub engine_kw: f64,
    /// Heat into the transmission, kW.
    pub trans_kw: f64,
    /// Conductance between the two, W/K: small past the cooler, large through it.
    pub exchange_w_k: f64,
    /// From the engine to the air, W/K.
    pub engine_air_w_k: f64,
    /// From the transmission to the air, W/K.
    pub trans_air_w_k: f64,
    /// Air under the vehicle, °C.
    pub air_c: f64,
}

impl TwoNode {
    /// A usual car at idle, fluid not through the cooler, air of 20 °C; to be fitted to a recording.
    /// Source: from memory: fixtures/reference/physics/thermal_parameters.csv.
    pub const PAST_THE_COOLER: Self = Self {
        engine_kj_k: 90.0,
        trans_kj_k: 45.0,
        engine_kw: 4.0,
        trans_kw: 0.8,
        exchange_w_k: 5.0,
        engine_air_w_k: 30.0,
        trans_air_w_k: 15.0,
        air_c: 20.0,
    };
    /// The same with the fluid through the cooler; to be fitted to a recording.
    /// Source: from memory: fixtures/reference/physics/thermal_parameters.csv.
    pub const THROUGH_THE_COOLER: Self = Self { exchange_w_k: 120.0, ..Self::PAST_THE_COOLER };
}

/// One value for each of the two bodies: temperatures in °C, or rates in °C/s where a function says so.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nodes {
    /// Of the engine.
    pub engine: f64,
    /// Of the transmission.
    pub trans: f64,
}

impl TwoNode {
    /// Rates of both temperatures, °C/s, at the temperatures `at`: the right-hand side for a simulation. Plain
    /// arithmetic on the fields as they are; [`TwoNode::check`] says whether they make sense.
    pub fn rates(&self, at: Nodes) -> Nodes {
        let across = self.exchange_w_k * (at.engine - at.trans);
        let engine_w = self.engine_kw * 1_000.0 - across - self.engine_air_w_k * (at.engine - self.air_c);
        let trans_w = self.trans_kw * 1_000.0 + across - self.trans_air_w_k * (at.trans - self.air_c);
        Nodes {
            engine: engine_w / (self.engine_kj_k * 1_000.0),
            trans: trans_w / (self.trans_kj_k * 1_000.0),
        }
    }

    /// The model itself when every parameter is possible.
    ///
    /// # Errors
    /// A parameter outside its range; the message names it.
    pub fn check(self) -> Result<Self, FluidError> {
        range::KJ_K.named("heat capacity of the engine").check(self.engine_kj_k)?;
        range::KJ_K.named("heat capacity of the transmission").check(self.trans_kj_k)?;
        range::KW.named("heat into the engine").check(self.engine_kw)?;
        range::KW.named("heat into the transmission").check(self.trans_kw)?;
        range::EXCHANGE_W_K.check(self.exchange_w_k)?;
        range::TO_AIR_W_K.named("conductance from engine to air").check(self.engine_air_w_k)?;
        range::TO_AIR_W_K.named("conductance from transmission to air").check(self.trans_air_w_k)?;
        range::CELSIUS.named("air temperature").check(self.air_c)?;
        Ok(self)
    }

    /// Where both temperatures end, °C.
    ///
    /// # Errors
    /// As [`TwoNode::check`].
    pub fn end(self) -> Result<Nodes, FluidError> {
        let m = self.check()?;
        let (gx, ge, gt) = (m.exchange_w_k, m.engine_air_w_k, m.trans_air_w_k);
        let (pe, pt) = (m.engine_kw * 1_000.0, m.trans_kw * 1_000.0);
        let determinant = m.losses();
        Ok(Nodes {
            engine: m.air_c + (pe * (gx + gt) + pt * gx) / determinant,
            trans: m.air_c + (pt * (gx + ge) + pe * gx) / determinant,
        })
    }

    /// The course of both temperatures from `start` (°C).
    ///
    /// # Errors
    /// As [`TwoNode::check`], and for start temperatures outside [`range::CELSIUS`].
    pub fn from(self, start: Nodes) -> Result<Course, FluidError> {
        let end = self.end()?;
        range::CELSIUS.named("engine temperature").check(start.engine)?;
        range::CELSIUS.named("transmission temperature").check(start.trans)?;
        Ok(Course::new(self, start, end))
    }

    /// The determinant of the conductances, W²/K².
    fn losses(&self) -> f64 {
        let (gx, ge, gt) = (self.exchange_w_k, self.engine_air_w_k, self.trans_air_w_k);
        ge * gt + gx * (ge + gt)
    }

    /// The matrix of the linear system, 1/s, row by row.
    fn matrix(&self) -> (f64, f64, f64, f64) {
        let (ce, ct, gx) = (self.engine_kj_k * 1_000.0, self.trans_kj_k * 1_000.0, self.exchange_w_k);
        (-(gx + self.engine_air_w_k) / ce, gx / ce, gx / ct, -(gx + self.trans_air_w_k) / ct)
    }
}

/// A forecast from default parameters may be off by this factor either way.
/// Source: from memory.
pub const DEFAULT_TIME_FACTOR: f64 = 2.0;
/// A forecast from a slope fitted over 3 to 5 min is off by this share of the remaining time.
/// Source: from memory.
pub const U_FITTED_TIME_RELATIVE: f64 = 0.2;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn without_a_way_to_the_air_the_model_is_refused() {
        let sealed = TwoNode { trans_air_w_k: 0.0, ..TwoNode::PAST_THE_COOLER };
        assert!(matches!(
            sealed.from(Nodes { engine: 20.0, trans: 20.0 }),
            Err(FluidError::OutsideRange { quantity: "conductance from transmission to air", .. })
        ));
    }
}
