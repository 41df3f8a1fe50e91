//! Stored fault codes that concern the gate: of the sensor that the signal lives on, and of overheated fluid.
//!
//! In: codes as the vehicle tells them. Out: whether one of each kind is stored. Not here: which unit stores it, and when it is
//! gone (`service`).

use events::Signal;

use crate::limits::{CODES, CodeOf};

/// Which kinds are stored.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Codes {
    sensor: bool,
    overheat: bool,
}

impl Codes {
    /// This code is stored, as `P0712`. One that does not concern the signal changes nothing.
    pub(super) fn stored(&mut self, code: &str, signal: Signal) {
        let known = CODES.iter().find(|(name, _)| name.eq_ignore_ascii_case(code.trim()));
        match (known.map(|&(_, of)| of), signal) {
            (Some(CodeOf::Overheat), _) => self.overheat = true,
            (Some(CodeOf::FluidSensor), Signal::Fluid) | (Some(CodeOf::CoolantSensor), Signal::Coolant) => {
                self.sensor = true;
            }
            _ => {}
        }
    }

    pub(super) const fn sensor(&self) -> bool {
        self.sensor
    }

    pub(super) const fn overheat(&self) -> bool {
        self.overheat
    }
}
