//! The gate without one of its protections: for the campaign that proves that each of them is missed.
//!
//! In: a gate and a [`Protection`]. Out: the same gate without it. Only the feature `taken-out` builds this, no program has
//! that feature, and nothing but the campaign's bench turns it on (docs/adr/0014).
//! Not here: what each protection does (docs/gate.md).

use units::words;

use crate::Gate;
use crate::limits::Limits;

words! {
    /// What can be taken out.
    Protection {
        Guard "guard" "The guard band: the estimate alone is held against the band.",
        Sensor "sensor" "The sensor's own term in the uncertainty.",
        Frozen "frozen" "What a signal may be behind by, and that it may be stuck.",
        Witnesses "witnesses" "What coolant, air and start say of the fluid.",
        Copies "copies" "That the fluid's value may be made from the coolant's.",
        Proof "proof" "That a signal must be seen to follow first.",
        Mixing "mixing" "The wait after a start and after a fill.",
        Jumps "jumps" "That a jump is not believed.",
    }
}

impl Gate {
    /// The same gate without this protection.
    #[must_use]
    pub fn without(mut self, protection: Protection) -> Self {
        match protection {
            Protection::Guard => self.standing.take_out_guard(),
            Protection::Witnesses => self.witnesses.take_out(),
            Protection::Copies => self.evidence.take_out_copies(),
            Protection::Sensor
            | Protection::Frozen
            | Protection::Proof
            | Protection::Mixing
            | Protection::Jumps => {
                let limits = protection.out_of(*self.evidence.limits());
                self.evidence.take_out(limits);
            }
        }
        self
    }
}

impl Protection {
    /// The numbers of a gate that lacks it.
    fn out_of(self, limits: Limits) -> Limits {
        use core::time::Duration;
        match self {
            Self::Sensor => Limits { sensor_c: 0.0, ..limits },
            Self::Frozen => Limits { frozen_after_moves: f64::INFINITY, ..limits },
            Self::Proof => Limits { moves_to_prove: 0, ..limits },
            Self::Mixing => Limits { mixes_for: Duration::ZERO, fill_mixes_for: Duration::ZERO, ..limits },
            // Whatever is read can follow from what was read before.
            Self::Jumps => Limits { wander_c_min: ANYTHING, fastest_c_min: ANYTHING, ..limits },
            Self::Guard | Self::Witnesses | Self::Copies => limits,
        }
    }
}

/// More than any temperature within a tenth of a second, K/min.
/// By definition.
const ANYTHING: f64 = 1e6;
