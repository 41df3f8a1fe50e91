//! A vehicle that does not stand level: what that does to the level at the standpipe.
//!
//! In: pitch and roll, or the heights of four corners. Out: height at the pipe and the fluid that stays in too much.
//! Axes: x forward, y to the left, origin at the centroid of the free surface. Pitch is positive nose up, roll
//! positive left side up. Not here: whether the reference the heights were taken from is the right one; the body's
//! own rake is not the vehicle's attitude, and the sheet says what counts.
//! Source: plane geometry; the plane is exact in the slopes, valid while the surface crosses the same walls.

use units::{Degrees, Millilitres};

use crate::{FluidError, range};

/// How a vehicle stands.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Attitude {
    /// Nose up is positive, degrees.
    pub pitch_deg: f64,
    /// Left side up is positive, degrees.
    pub roll_deg: f64,
}

/// Where the standpipe is, and over which surface the error spreads.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PipePlace {
    /// Forward of the centroid of the free surface, mm.
    pub dx_mm: f64,
    /// To the left of it, mm.
    pub dy_mm: f64,
    /// Free surface at the height of the rim, m².
    pub area_m2: f64,
}

/// What the tilt does at the pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AtPipe {
    /// Level at the pipe against that in a level vehicle, mm.
    pub level_at_pipe_mm: f64,
    /// Fluid that stays in although the pipe has stopped running, mL; positive is too much.
    pub millilitres: f64,
}

/// Heights of the same reference at four corners, and the base they span.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Corners {
    /// Front left, mm.
    pub front_left_mm: f64,
    /// Front right, mm.
    pub front_right_mm: f64,
    /// Rear left, mm.
    pub rear_left_mm: f64,
    /// Rear right, mm.
    pub rear_right_mm: f64,
    /// From the front pair to the rear pair, mm.
    pub wheelbase_mm: f64,
    /// Across the front pair, mm.
    pub track_front_mm: f64,
    /// Across the rear pair, mm.
    pub track_rear_mm: f64,
    /// Standard uncertainty of one height, mm; the four are taken as independent.
    pub u_mm: f64,
}

/// The plane through four corners.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CornerFit {
    /// How the vehicle stands.
    pub attitude: Attitude,
    /// Standard uncertainty of the pitch, degrees.
    pub u_pitch_deg: f64,
    /// Standard uncertainty of the roll, degrees.
    pub u_roll_deg: f64,
    /// How far the worst corner lies off the plane, mm. A check of the readings, no part of the angle.
    pub max_residual_mm: f64,
    /// Whether the four readings agree with a plane.
    pub warp: Warp,
}

/// Whether four corner heights can belong to one plane.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Warp {
    /// They lie on a plane within what the heights are known to.
    Plane,
    /// One of them was misread, or the reference is bent: more than three uncertainties off. Ask again.
    Misread,
}

/// How much tilt an allowed error leaves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TiltTolerance {
    /// The largest angle, degrees.
    pub max_angle_deg: f64,
    /// The same as a difference of heights over the base, mm.
    pub height_difference_mm: f64,
}

/// What `attitude` does at the pipe. 1° at 120 mm on 0.060 m² leaves 125.7 mL too much when the pipe end is high.
///
/// # Errors
/// Angles outside [`range::TILT_DEG`], offsets outside [`range::OFFSET_MM`], surface outside [`range::AREA_M2`].
///
/// Source: `h = -(dx*tan(pitch) + dy*tan(roll))`, `dV = -A*h`.
pub fn at_pipe(attitude: Attitude, place: PipePlace) -> Result<AtPipe, FluidError> {
    let (pitch, roll) = slopes(attitude)?;
    let dx = range::OFFSET_MM.check(place.dx_mm)?;
    let dy = range::OFFSET_MM.check(place.dy_mm)?;
    // `0 -` and not a minus sign: a level vehicle is 0, not -0.
    let level_at_pipe_mm = 0.0 - (dx * pitch + dy * roll);
    let millilitres = 0.0 - 1_000.0 * range::AREA_M2.check(place.area_m2)? * level_at_pipe_mm;
    Ok(AtPipe { level_at_pipe_mm, millilitres })
}

/// Standard uncertainty of the millilitres of [`at_pipe`], from that of the angles.
///
/// # Errors
/// As [`at_pipe`]; uncertainties outside 0 to 15°.
///
/// Source: JCGM 100, first order; `d tan(p)/dp = 1 + tan(p)^2`.
pub fn at_pipe_u_ml(
    attitude: Attitude,
    u_pitch_deg: f64,
    u_roll_deg: f64,
    place: PipePlace,
) -> Result<f64, FluidError> {
    let (pitch, roll) = slopes(attitude)?;
    let uncertainty = range::TILT_DEG.named("uncertainty of the tilt");
    let u_b = uncertainty.within(u_pitch_deg, 0.0, 15.0)?.to_radians() * (1.0 + pitch * pitch);
    let u_c = uncertainty.within(u_roll_deg, 0.0, 15.0)?.to_radians() * (1.0 + roll * roll);
    let dx = range::OFFSET_MM.check(place.dx_mm)?;
    let dy = range::OFFSET_MM.check(place.dy_mm)?;
    Ok(1_000.0 * range::AREA_M2.check(place.area_m2)? * (dx * u_b).hypot(dy * u_c))
}

/// The plane through four corner heights, by least squares.
///
/// # Errors
/// A height, base or uncertainty outside its range; an attitude steeper than [`range::TILT_DEG`].
///
/// Source: least squares on `z = a + b*x + c*y` with x = ±L/2, y = ±Wf/2 or ±Wr/2. The three unknowns do not mix
/// (the sums over x, y and x*y vanish), so each has its own quotient; `u` from the diagonal of the normal matrix.
pub fn from_corners(corners: Corners) -> Result<CornerFit, FluidError> {
    let fl = range::CORNER_MM.named("front left height").check(corners.front_left_mm)?;
    let fr = range::CORNER_MM.named("front right height").check(corners.front_right_mm)?;
    let rl = range::CORNER_MM.named("rear left height").check(corners.rear_left_mm)?;
    let rr = range::CORNER_MM.named("rear right height").check(corners.rear_right_mm)?;
    let base = range::BASE_MM.named("wheelbase").check(corners.wheelbase_mm)?;
    let front = range::BASE_MM.named("front track").check(corners.track_front_mm)?;
    let rear = range::BASE_MM.named("rear track").check(corners.track_rear_mm)?;
    let u = range::CORNER_U_MM.check(corners.u_mm)?;

    let squares = front * front + rear * rear;
    let mean = (fl + fr + rl + rr) / 4.0;
    let b = (fl + fr - rl - rr) / (2.0 * base);
    let c = (front * (fl - fr) + rear * (rl - rr)) / squares;
    let plane = |x: f64, y: f64| mean + b * x + c * y;
    let (x, yf, yr) = (base / 2.0, front / 2.0, rear / 2.0);
    let residuals = [fl - plane(x, yf), fr - plane(x, -yf), rl - plane(-x, yr), rr - plane(-x, -yr)];
    let max_residual_mm = residuals.iter().fold(0.0_f64, |worst, r| worst.max(r.abs()));

    let attitude = Attitude { pitch_deg: b.atan().to_degrees(), roll_deg: c.atan().to_degrees() };
    slopes(attitude)?;
    Ok(CornerFit {
        attitude,
        u_pitch_deg: (u / base / (1.0 + b * b)).to_degrees(),
        u_roll_deg: (u * (2.0 / squares).sqrt() / (1.0 + c * c)).to_degrees(),
        max_residual_mm,
        warp: if max_residual_mm > 3.0 * u + ROUNDING_MM { Warp::Misread } else { Warp::Plane },
    })
}

/// The largest tilt that keeps the error within `allowed_ml` at a pipe `distance_mm` from the centroid, as an angle
/// and as a height difference over `base_mm`. 50 mL at 120 mm on 0.060 m²: 0.40°, 19 mm over 2.7 m.
///
/// # Errors
/// An input outside its range; `allowed_ml` below zero.
///
/// Source: [`at_pipe`] solved for the angle.
pub fn tolerance(
    allowed_ml: f64,
    area_m2: f64,
    distance_mm: f64,
    base_mm: f64,
) -> Result<TiltTolerance, FluidError> {
    let allowed = range::VOLUME_ML.named("allowed error").check(allowed_ml)?;
    let distance = range::DISTANCE_MM.check(distance_mm)?;
    let slope = allowed / (1_000.0 * range::AREA_M2.check(area_m2)? * distance);
    Ok(TiltTolerance {
        max_angle_deg: slope.atan().to_degrees(),
        height_difference_mm: slope * range::BASE_MM.check(base_mm)?,
    })
}

/// What to lay under each stand so that the vehicle stands as it should: front left, front right, rear left, rear right, in
/// mm above the highest one, which gets nothing. The stands are taken to be where the wheels are. 0.3° nose up over 2.7 m:
/// 14 mm under both rear ones.
///
/// # Errors
/// An attitude steeper than [`range::TILT_DEG`]; a base outside its range.
///
/// Source: plane geometry, `z = x*tan(pitch) + y*tan(roll)` at the four corners.
pub fn shims_mm(
    stands: Attitude,
    should: Attitude,
    wheelbase_mm: f64,
    [track_front_mm, track_rear_mm]: [f64; 2],
) -> Result<[f64; 4], FluidError> {
    let (pitch, roll) = slopes(stands)?;
    let (pitch_to, roll_to) = slopes(should)?;
    let x = range::BASE_MM.named("wheelbase").check(wheelbase_mm)? / 2.0;
    let front = range::BASE_MM.named("front track").check(track_front_mm)? / 2.0;
    let rear = range::BASE_MM.named("rear track").check(track_rear_mm)? / 2.0;
    let height = |x: f64, y: f64| x * (pitch - pitch_to) + y * (roll - roll_to);
    let heights = [height(x, front), height(x, -front), height(-x, rear), height(-x, -rear)];
    let highest = heights.iter().fold(f64::MIN, |most, h| most.max(*h));
    Ok(heights.map(|h| highest - h))
}

/// The error from a tilt for stored quantities, rounded to whole millilitres.
///
/// # Errors
/// As [`at_pipe`].
pub fn error_at_pipe(pitch: Degrees, roll: Degrees, place: PipePlace) -> Result<Millilitres, FluidError> {
    let attitude = Attitude { pitch_deg: pitch.to_f64(), roll_deg: roll.to_f64() };
    Ok(Millilitres::clamped(at_pipe(attitude, place)?.millilitres))
}

fn slopes(attitude: Attitude) -> Result<(f64, f64), FluidError> {
    let pitch = range::TILT_DEG.named("pitch").check(attitude.pitch_deg)?;
    let roll = range::TILT_DEG.named("roll").check(attitude.roll_deg)?;
    Ok((pitch.to_radians().tan(), roll.to_radians().tan()))
}

/// Below this a residual is the rounding of the arithmetic, mm.
/// Own choice: a million times the rounding of a metre, a millionth of what anybody measures.
const ROUNDING_MM: f64 = 1e-9;

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const PLACE: PipePlace = PipePlace { dx_mm: 120.0, dy_mm: 0.0, area_m2: 0.060 };

    #[test]
    fn shims_bring_the_plane_of_the_stands_where_it_should_be() {
        let stands = |pitch_deg, roll_deg| Attitude { pitch_deg, roll_deg };
        let level = Attitude::default();
        let shims = |from, to| shims_mm(from, to, 2_700.0, [1_500.0, 1_600.0]).map(|s| s.map(f64::round));
        // 2700 mm * tan 0.3° = 14.1 mm, by hand.
        assert_eq!(shims(stands(0.3, 0.0), level), Ok([0.0, 0.0, 14.0, 14.0]));
        assert_eq!(shims(stands(-0.3, 0.0), level), Ok([14.0, 14.0, 0.0, 0.0]));
        // Left side up by 0.5°: 1500 mm * tan 0.5° = 13.1 mm and 14.0 mm, below the highest, the rear left by 0.4 mm.
        assert_eq!(shims(stands(0.0, 0.5), level), Ok([0.0, 14.0, 0.0, 14.0]));
        assert_eq!(shims(stands(1.0, 0.0), stands(1.0, 0.0)), Ok([0.0; 4]), "as the sheet asks");
        assert!(shims_mm(stands(80.0, 0.0), level, 2_700.0, [1_500.0; 2]).is_err());
    }

    proptest! {
        /// Heights raised by the shims are a plane of the attitude that was asked for.
        #[test]
        fn what_is_laid_under_levels_it(pitch in -3.0_f64..3.0, roll in -3.0_f64..3.0, to in -2.0_f64..2.0) {
            let (stands, should) = (Attitude { pitch_deg: pitch, roll_deg: roll }, Attitude { pitch_deg: to, roll_deg: 0.0 });
            let [fl, fr, rl, rr] = shims_mm(stands, should, 2_700.0, [1_500.0, 1_500.0]).unwrap();
            let at = |x: f64, y: f64| 500.0 + x * pitch.to_radians().tan() + y * roll.to_radians().tan();
            let fit = from_corners(Corners {
                front_left_mm: at(1_350.0, 750.0) + fl,
                front_right_mm: at(1_350.0, -750.0) + fr,
                rear_left_mm: at(-1_350.0, 750.0) + rl,
                rear_right_mm: at(-1_350.0, -750.0) + rr,
                wheelbase_mm: 2_700.0,
                track_front_mm: 1_500.0,
                track_rear_mm: 1_500.0,
                u_mm: 1.0,
            }).unwrap();
            prop_assert!((fit.attitude.pitch_deg - to).abs() < 1e-6 && fit.attitude.roll_deg.abs() < 1e-6, "{fit:?}");
            prop_assert!([fl, fr, rl, rr].iter().all(|mm| *mm >= 0.0));
        }
    }

    fn corners(heights: [f64; 4]) -> Corners {
        let [front_left_mm, front_right_mm, rear_left_mm, rear_right_mm] = heights;
        Corners {
            front_left_mm,
            front_right_mm,
            rear_left_mm,
            rear_right_mm,
            wheelbase_mm: 2_700.0,
            track_front_mm: 1_500.0,
            track_rear_mm: 1_500.0,
            u_mm: 2.0,
        }
    }

    #[test]
    fn a_level_vehicle_has_no_error_and_no_negative_zero() {
        let level = at_pipe(Attitude::default(), PLACE).unwrap();
        assert_eq!((level.millilitres.to_bits(), level.level_at_pipe_mm.to_bits()), (0, 0));
    }

    #[test]
    fn nose_up_leaves_too_much_at_a_pipe_ahead_of_the_centroid() {
        let up = |pitch_deg| at_pipe(Attitude { pitch_deg, roll_deg: 0.0 }, PLACE).unwrap().millilitres;
        assert!(up(1.0) > 0.0 && up(-1.0) < 0.0);
        assert_eq!(
            error_at_pipe(Degrees::from_steps(100).unwrap(), Degrees::ZERO, PLACE).map(Millilitres::steps),
            Ok(126)
        );
    }

    #[test]
    fn one_corner_far_off_the_plane_was_misread() {
        assert_eq!(from_corners(corners([310.0, 300.0, 300.0, 300.0])).unwrap().warp, Warp::Plane);
        assert_eq!(from_corners(corners([330.0, 300.0, 300.0, 300.0])).unwrap().warp, Warp::Misread);
    }

    #[test]
    fn the_uncertainty_of_two_millimetres_a_corner_is_a_few_millilitres() {
        // Stated with the formula: about 5 mL in pitch and 10 mL in roll at 120 mm on 0.060 m².
        let fit = from_corners(corners([300.0; 4])).unwrap();
        let along = at_pipe_u_ml(fit.attitude, fit.u_pitch_deg, fit.u_roll_deg, PLACE).unwrap();
        let across = PipePlace { dx_mm: 0.0, dy_mm: 120.0, area_m2: 0.060 };
        let across = at_pipe_u_ml(fit.attitude, fit.u_pitch_deg, fit.u_roll_deg, across).unwrap();
        assert!((5.0..5.5).contains(&along) && (9.4..9.8).contains(&across), "{along} {across}");
    }

    #[test]
    fn a_vehicle_on_a_ramp_is_refused() {
        assert!(matches!(
            from_corners(corners([2_000.0, 2_000.0, 0.0, 0.0])),
            Err(FluidError::OutsideRange { quantity: "pitch", .. })
        ));
    }

    proptest! {
        #[test]
        fn corners_of_a_tilted_plane_give_the_tilt_back(
            pitch_deg in -5.0..5.0, roll_deg in -5.0..5.0, high in -100.0..1_500.0,
            base in 1_500.0..5_000.0, front in 1_000.0..2_000.0, rear in 1_000.0..2_000.0,
        ) {
            let (b, c) = (f64::to_radians(pitch_deg).tan(), f64::to_radians(roll_deg).tan());
            let fit = from_corners(Corners {
                front_left_mm: high + b * base / 2.0 + c * front / 2.0,
                front_right_mm: high + b * base / 2.0 - c * front / 2.0,
                rear_left_mm: high - b * base / 2.0 + c * rear / 2.0,
                rear_right_mm: high - b * base / 2.0 - c * rear / 2.0,
                wheelbase_mm: base, track_front_mm: front, track_rear_mm: rear, u_mm: 1.0,
            }).unwrap();
            prop_assert!((fit.attitude.pitch_deg - pitch_deg).abs() < 1e-9);
            prop_assert!((fit.attitude.roll_deg - roll_deg).abs() < 1e-9);
            prop_assert!(fit.max_residual_mm < 1e-9);
        }

        #[test]
        fn the_allowed_angle_gives_just_the_allowed_error(ml in 1.0..300.0, area in 0.03..0.1, d in 20.0..300.0) {
            let angle = tolerance(ml, area, d, 2_700.0).unwrap().max_angle_deg;
            prop_assume!(angle < 15.0);
            let place = PipePlace { dx_mm: d, dy_mm: 0.0, area_m2: area };
            let error = at_pipe(Attitude { pitch_deg: angle, roll_deg: 0.0 }, place).unwrap();
            prop_assert!((error.millilitres - ml).abs() < 1e-9);
        }

        #[test]
        fn swapping_left_and_right_turns_the_sign(pitch_deg in -5.0..5.0, roll_deg in -5.0..5.0) {
            let place = PipePlace { dx_mm: 0.0, dy_mm: 80.0, area_m2: 0.06 };
            let one = at_pipe(Attitude { pitch_deg, roll_deg }, place).unwrap().millilitres;
            let other = at_pipe(Attitude { pitch_deg, roll_deg: -roll_deg }, place).unwrap().millilitres;
            prop_assert_eq!(one, -other);
        }
    }
}
