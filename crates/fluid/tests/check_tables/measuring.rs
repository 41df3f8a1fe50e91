//! Measurement uncertainty and conformity (section 9 of the tables).

use fluid::measurement::{self, Guard, OldReading};
use fluid::normal;

use crate::table::Tolerance;

crate::tables! {
    quantisation => |row| row.check("u", measurement::quantisation_u(row.f("step")).unwrap());
    combined_uncertainty => |row| {
        let now = measurement::bring_forward(OldReading {
            step_c: row.f("step_c"),
            u_sensor_c: row.f("u_sensor_c"),
            slope_c_min: row.f("slope_c_min"),
            u_slope_c_min: row.f("u_slope_c_min"),
            age_s: row.f("age_s"),
            latency_s: row.f("latency_s"),
            u_other_c: row.f("u_other_c"),
        }).unwrap();
        row.check("shift_c", now.shift_c);
        row.check("u_c", now.u_c);
    };
    slope_uncertainty => |row| {
        let points = row.text("points").parse().unwrap();
        let line = measurement::line_u(row.f("u_point_c"), row.f("interval_s"), points).unwrap();
        row.check("u_slope_c_min", line.u_slope_c_min);
        row.check("u_end_c", line.u_end_c);
    };
    // Rows 1 to 3: the worked examples of JCGM 106:2012, clause 7, to the two digits that are printed.
    conformity => |row| {
        let (y, u) = (row.f("estimate"), row.f("u"));
        let p = measurement::probability_in_band(y, u, row.maybe("lower"), row.maybe("upper")).unwrap();
        row.check("probability", p);
        if let Some(printed) = row.maybe("published_probability") {
            row.within("printed probability", p, printed, Tolerance::Absolute(0.005));
        }
    };
    guard_band => |row| {
        let guard = Guard { low: row.f("lower"), high: row.f("upper"), u: row.f("u"), k: row.f("k") };
        let acceptance = measurement::acceptance(guard).unwrap();
        row.check("guard_band", acceptance.guard_band);
        match (acceptance.interval, row.text("expected_empty")) {
            (Some((low, high)), "no") => {
                row.check("accept_low", low);
                row.check("accept_high", high);
                row.check("probability_at_accept_limit", acceptance.probability_at_limit().unwrap());
            }
            (None, "yes") => assert_eq!(acceptance.probability_at_limit(), None, "{}", row.name()),
            (got, empty) => panic!("{}: {got:?}, but empty is `{empty}`", row.name()),
        }
    };
    // Two-decimal values as in the table of JCGM 106:2012 for one-sided intervals (from memory).
    normal_quantile => |row| {
        let z = normal::quantile(row.f("probability")).unwrap();
        row.check("z", z);
        row.within("printed z", z, row.f("published_z"), Tolerance::Absolute(0.005));
    };
}
