//! How the vehicle stands: from an inclination or from the heights of four corners.
//!
//! In: what was measured, and the sheet. Out: [`Stand`], pitch and roll with what is known of them, or why not. Not here:
//! what it costs at the standpipe (`level.rs`), the plane through four points (`fluid::tilt`).

use events::{Refusal, Request, Sheet};
use fluid::tilt::{Corners, Warp, from_corners};
use units::{Degrees, Millimetres};

/// How the vehicle stands, measured. Pitch: nose up is positive; roll: left side up is positive.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Stand {
    pub(crate) pitch: Degrees,
    pub(crate) roll: Degrees,
    pub(crate) u_pitch: Degrees,
    pub(crate) u_roll: Degrees,
    /// It leaves no more at the pipe than the sheet of the job allows; asked some hundred times at each reading, so judged once.
    pub(crate) is_level: bool,
}

impl Stand {
    /// By an inclinometer or a telephone on the frame.
    pub(crate) fn by_inclination(pitch: Degrees, roll: Degrees) -> Self {
        let u = Degrees::clamped(U_INCLINATION_DEG);
        Self { pitch, roll, u_pitch: u, u_roll: u, is_level: false }
    }

    /// By the corners that were told; `None` where something else was.
    pub(crate) fn of_corners(sheet: &Sheet, request: &Request) -> Option<Result<Self, Refusal>> {
        let Request::Corners {
            front_left_millimetres: fl,
            front_right_millimetres: fr,
            rear_left_millimetres: rl,
            rear_right_millimetres: rr,
            wheelbase_millimetres,
            track_millimetres,
        } = request
        else {
            return None;
        };
        Some(Self::by_corners(sheet, [*fl, *fr, *rl, *rr], *wheelbase_millimetres, *track_millimetres))
    }

    /// By the heights of four corners: front left, front right, rear left, rear right.
    ///
    /// # Errors
    /// Wheelbase or track known neither from the request nor from the sheet; one corner off the plane of the others; a
    /// height or a base that no vehicle has.
    pub(crate) fn by_corners(
        sheet: &Sheet,
        heights: [Millimetres; 4],
        wheelbase: Option<Millimetres>,
        track: Option<[Millimetres; 2]>,
    ) -> Result<Self, Refusal> {
        let own = sheet.vehicle.as_ref();
        let wheelbase_mm = wheelbase.map(Millimetres::to_f64).or(own.map(|v| v.wheelbase_mm));
        let track_mm = track.map(|t| t.map(Millimetres::to_f64)).or(own.map(|v| v.track_mm));
        let (Some(wheelbase_mm), Some([track_front_mm, track_rear_mm])) = (wheelbase_mm, track_mm) else {
            return Err(Refusal::BaseUnknown);
        };
        let [front_left_mm, front_right_mm, rear_left_mm, rear_right_mm] = heights.map(Millimetres::to_f64);
        let fit = from_corners(Corners {
            front_left_mm,
            front_right_mm,
            rear_left_mm,
            rear_right_mm,
            wheelbase_mm,
            track_front_mm,
            track_rear_mm,
            u_mm: U_HEIGHT_MM,
        })
        .map_err(|_| Refusal::ImpossibleValue)?;
        if fit.warp == Warp::Misread {
            return Err(Refusal::CornerMisread);
        }
        let up = |deg: f64| Degrees::clamped((deg * 100.0).ceil() / 100.0);
        // The sheet's own base, where it was guessed: the angle is wrong by as much.
        let base = |own: bool, key| if own && sheet.is_guessed(key) { U_GUESSED_BASE } else { 0.0 };
        let u_pitch_deg =
            fit.u_pitch_deg.hypot(base(wheelbase.is_none(), "vehicle.wheelbase_mm") * fit.attitude.pitch_deg);
        let u_roll_deg =
            fit.u_roll_deg.hypot(base(track.is_none(), "vehicle.track_mm") * fit.attitude.roll_deg);
        Ok(Self {
            pitch: Degrees::clamped(fit.attitude.pitch_deg),
            roll: Degrees::clamped(fit.attitude.roll_deg),
            u_pitch: up(u_pitch_deg),
            u_roll: up(u_roll_deg),
            is_level: false,
        })
    }
}

/// An inclinometer or a telephone on the frame, per axis.
/// Source: from memory: they read within 0.1 to 0.3°.
const U_INCLINATION_DEG: f64 = 0.2;
/// A rule held to a hub or a pad, per corner.
/// Source: fixtures/reference/physics/four_corner.csv takes the same; from memory.
const U_HEIGHT_MM: f64 = 2.0;
/// A guessed wheelbase or track is known to a tenth of itself.
/// Own choice: cars have 2.3 to 3.2 m (from memory).
const U_GUESSED_BASE: f64 = 0.1;

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "test code")]
    use super::*;

    fn mm(values: [f64; 4]) -> [Millimetres; 4] {
        values.map(|v| Millimetres::from_f64(v).unwrap())
    }

    #[test]
    fn four_corners_give_the_stand_or_say_what_is_wrong() {
        let mut sheet =
            Sheet::parse(include_str!("../../../../fixtures/sheets/demo-six-speed.toml")).unwrap();
        sheet.vehicle = None;
        let base = Some(Millimetres::from_f64(2_700.0).unwrap());
        let track = Some([1_500.0, 1_500.0].map(|v| Millimetres::from_f64(v).unwrap()));
        let level = mm([300.0, 300.0, 300.0, 300.0]);
        assert_eq!(Stand::by_corners(&sheet, level, base, None), Err(Refusal::BaseUnknown));
        let stand = Stand::by_corners(&sheet, level, base, track).unwrap();
        assert_eq!((stand.pitch, stand.roll), (Degrees::ZERO, Degrees::ZERO));
        // Physics of the four corners: ±2 mm over 2.7 m and 1.5 m are 0.042° and 0.076°; rounded up to hundredths.
        assert_eq!((stand.u_pitch.steps(), stand.u_roll.steps()), (5, 8));
        // 47 mm over 2.7 m: one degree, nose up.
        let nose_up = Stand::by_corners(&sheet, mm([347.0, 347.0, 300.0, 300.0]), base, track).unwrap();
        assert_eq!(nose_up.pitch.steps(), 100);
        let bent = mm([330.0, 300.0, 300.0, 300.0]);
        assert_eq!(Stand::by_corners(&sheet, bent, base, track), Err(Refusal::CornerMisread));
    }
}
