//! What the vehicle's stand leaves at the level, and whether that is level enough.
//!
//! In: the sheet, how it stands. Out: millilitres with their uncertainty. Not here: how it was measured (`stand.rs`), the geometry
//! (`fluid::tilt`).

use events::Sheet;
use fluid::tilt::{Attitude, PipePlace, at_pipe, at_pipe_u_ml};

use crate::part::Part;
use crate::told::stand::Stand;

impl Stand {
    /// Judged by the sheet of the job.
    pub(crate) fn judged(self, sheet: &Sheet) -> Self {
        let is_level = tilt(sheet, Some(self)).is_some_and(|tilt| stands_level(sheet, tilt));
        Self { is_level, ..self }
    }
}

/// What the vehicle's stand leaves, measured or only confirmed.
pub(crate) fn tilt(sheet: &Sheet, stands: Option<Stand>) -> Option<Part> {
    let [dx_mm, dy_mm] = sheet.standpipe.offset_mm;
    let place = PipePlace { dx_mm, dy_mm, area_m2: sheet.standpipe.surface_m2 };
    // Measured against how the sheet asks it to stand; confirmed, it stands so.
    let should = sheet.stand;
    let attitude = stands.map_or_else(Attitude::default, |s| Attitude {
        pitch_deg: s.pitch.to_f64() - should.pitch_deg,
        roll_deg: s.roll.to_f64() - should.roll_deg,
    });
    let (u_pitch, u_roll) =
        stands.map_or((U_CONFIRMED_DEG, U_CONFIRMED_DEG), |s| (s.u_pitch.to_f64(), s.u_roll.to_f64()));
    Some(Part {
        ml: at_pipe(attitude, place).ok()?.millilitres,
        u_ml: at_pipe_u_ml(attitude, u_pitch, u_roll, place).ok()?,
    })
}

/// Whether a stand leaves no more than half of what the sheet allows; the other half is for the temperature.
pub(crate) fn stands_level(sheet: &Sheet, tilt: Part) -> bool {
    tilt.ml.abs() <= sheet.check.tolerance_ml / 2.0
}

/// A lift that somebody calls level, per axis.
/// Source: from memory: wide on purpose.
const U_CONFIRMED_DEG: f64 = 1.0;
