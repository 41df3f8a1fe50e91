//! Level height and tilt (sections 2 and 3 of the tables).

use fluid::level;
use fluid::tilt::{self, Attitude, Corners, PipePlace};

use crate::volume::set_at;

crate::tables! {
    level_height => |row| {
        let (ml, area) = (row.f("error_ml"), row.f("area_m2"));
        row.check("height_mm", level::height_mm(ml, area).unwrap());
        row.near("the way back", level::volume_ml(row.f("expected_height_mm"), area).unwrap(), ml);
    };
    level_from_temperature => |row| {
        let error = level::from_temperature(set_at(row), row.f("area_m2")).unwrap();
        row.check("error_ml", error.millilitres);
        row.check("height_mm", error.millimetres);
    };
    tilt_volume => |row| {
        let attitude = Attitude { pitch_deg: row.f("pitch_deg"), roll_deg: row.f("roll_deg") };
        let place = PipePlace {
            dx_mm: row.f("dx_m") * 1_000.0,
            dy_mm: row.f("dy_m") * 1_000.0,
            area_m2: row.f("area_m2"),
        };
        let at = tilt::at_pipe(attitude, place).unwrap();
        row.check("level_at_pipe_mm", at.level_at_pipe_mm);
        row.check("extra_volume_ml", at.millilitres);
    };
    four_corner => |row| {
        let fit = tilt::from_corners(Corners {
            front_left_mm: row.f("fl_mm"),
            front_right_mm: row.f("fr_mm"),
            rear_left_mm: row.f("rl_mm"),
            rear_right_mm: row.f("rr_mm"),
            wheelbase_mm: row.f("wheelbase_m") * 1_000.0,
            track_front_mm: row.f("track_front_m") * 1_000.0,
            track_rear_mm: row.f("track_rear_m") * 1_000.0,
            u_mm: row.f("u_height_mm"),
        }).unwrap();
        row.check("pitch_deg", fit.attitude.pitch_deg);
        row.check("roll_deg", fit.attitude.roll_deg);
        row.check("u_pitch_deg", fit.u_pitch_deg);
        row.check("u_roll_deg", fit.u_roll_deg);
        row.check("max_residual_mm", fit.max_residual_mm);
    };
    tilt_tolerance => |row| {
        let (d, base) = (row.f("distance_m") * 1_000.0, row.f("base_m") * 1_000.0);
        let tolerance = tilt::tolerance(row.f("allowed_ml"), row.f("area_m2"), d, base).unwrap();
        row.check("max_angle_deg", tolerance.max_angle_deg);
        row.check("height_difference_mm", tolerance.height_difference_mm);
    };
}
