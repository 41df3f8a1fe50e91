//! No formula panics, loops or gives something that is not a number, whatever comes in.
//!
//! Values are drawn from all of `f64`, among them not-a-number, both infinities, both zeros and the smallest and
//! largest there are, and from sizes that things under a vehicle have, so that many calls get past the ranges.

// A vector of a known length is made into an array.
#![allow(clippy::unwrap_used)]

use fluid::balance::{self, Amount, Closure, Trade};
use fluid::cooling::{self, Cooling};
use fluid::measurement::{self, Guard, OldReading};
use fluid::mixing::{self, Portion};
use fluid::pan::PanWall;
use fluid::radiation::{self, Band};
use fluid::run_out::{self, Drain, FirstOrderWarming, RunOut, Standpipe, WetWall};
use fluid::spot::{self, PartialSpot, SpotInputs, View};
use fluid::thermal::{Nodes, TwoNode};
use fluid::tilt::{self, Attitude, Corners, PipePlace};
use fluid::viscosity::{self, Walther};
use fluid::volume::{self, SetAt, VolumeMove};
use fluid::{FluidError, dilution, level, normal, viscosity_index};
use proptest::prelude::*;

/// A number of any kind.
fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![
        1 => any::<f64>(),
        1 => prop::sample::select(vec![
            f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -0.0, f64::MIN_POSITIVE, f64::MAX, f64::MIN, 5e-324,
        ]),
        4 => 0.0..1.0,
        6 => 0.0..100.0,
        4 => -50.0..1_200.0,
        2 => 0.0..100_000.0,
        1 => (-12.0..6.0).prop_map(|e| 10.0_f64.powf(e)),
    ]
}

fn numbers<const N: usize>() -> impl Strategy<Value = [f64; N]> {
    prop::collection::vec(any_number(), N).prop_map(|v| v.try_into().unwrap())
}

/// What came out, when something did, must be a number.
fn finite(what: &str, got: Result<impl IntoIterator<Item = f64>, FluidError>) -> Result<(), TestCaseError> {
    match got {
        Ok(values) => {
            for value in values {
                prop_assert!(value.is_finite(), "{what} gave {value}");
            }
        }
        // A refusal must be readable: one line, no longer than a few lines of a terminal.
        Err(error) => prop_assert!(error.to_string().len() < 300, "{error}"),
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    #[test]
    fn volume_and_level([a, b, c, d, e] in numbers::<5>()) {
        finite("vcf", volume::vcf(a, b).map(Some))?;
        finite("density", volume::density_at(a, b).map(Some))?;
        finite("density to 15", volume::density_to_15(a, b).map(Some))?;
        finite("expansion", volume::expansion_per_k(a, b).map(Some))?;
        finite("2004 form", volume::ctl_2004(a, b).map(Some))?;
        let moved = VolumeMove { millilitres: a, from_celsius: b, to_celsius: c, density_15: d };
        finite("move", volume::move_volume(moved).map(|m| [m.millilitres, m.change_ml, m.vcf_from, m.vcf_to]))?;
        let set = SetAt { total_ml: a, set_celsius: b, check_celsius: c, density_15: d };
        finite("set", volume::set_error_ml(set).map(Some))?;
        finite("linear", volume::set_error_linear_ml(set).map(Some))?;
        finite("case", volume::set_error_in_case_ml(set, e).map(Some))?;
        finite("u", volume::set_error_u_ml(set, e).map(Some))?;
        finite("inverse", volume::celsius_for_error(a, b, c, d).map(Some))?;
        finite("height", level::height_mm(a, b).map(Some))?;
        finite("volume", level::volume_ml(a, b).map(Some))?;
        finite("level", level::from_temperature(set, e).map(|l| [l.millilitres, l.millimetres]))?;
    }

    #[test]
    fn tilt([a, b, c, d, e, f, g, h] in numbers::<8>()) {
        let (attitude, place) = (Attitude { pitch_deg: a, roll_deg: b }, PipePlace { dx_mm: c, dy_mm: d, area_m2: e });
        finite("pipe", tilt::at_pipe(attitude, place).map(|p| [p.level_at_pipe_mm, p.millilitres]))?;
        finite("pipe u", tilt::at_pipe_u_ml(attitude, f, g, place).map(Some))?;
        let corners = Corners {
            front_left_mm: a, front_right_mm: b, rear_left_mm: c, rear_right_mm: d,
            wheelbase_mm: e, track_front_mm: f, track_rear_mm: g, u_mm: h,
        };
        finite("corners", tilt::from_corners(corners).map(|f| {
            [f.attitude.pitch_deg, f.attitude.roll_deg, f.u_pitch_deg, f.u_roll_deg, f.max_residual_mm]
        }))?;
        finite("tolerance", tilt::tolerance(a, b, c, d).map(|t| [t.max_angle_deg, t.height_difference_mm]))?;
    }

    #[test]
    fn fluids([a, b, c, d, e, f] in numbers::<6>(), times in any::<u32>()) {
        finite("fresh", dilution::fresh_fraction(a, b, times).map(Some))?;
        finite("sequence", dilution::fresh_after(a, &[b, c, d]).map(Some))?;
        finite("rounds", dilution::rounds_for(a, b, c).map(|r| r.map(|r| r.exact)))?;
        let one = Portion { millilitres: a, celsius: b, density_15: c };
        let two = Portion { millilitres: d, celsius: e, density_15: f };
        finite("mix", mixing::mix(&[one, two]).map(|m| [m.mass_kg, m.millilitres_15, m.density_15, m.celsius]))?;
        finite("blend", viscosity::blend_mm2_s(a, b, c).map(Some))?;
        let line = Walther::through((a, b), (c, d));
        finite("line", line.map(|w| [w.a(), w.b()]))?;
        finite("thick", line.and_then(|w| w.mm2_s(e)).map(Some))?;
        finite("thick", Walther::from_40_and_100(a, b).and_then(|w| w.mm2_s(c)).map(Some))?;
        finite("thin at", line.and_then(|w| w.celsius_for(e)).map(Some))?;
        finite("index", viscosity_index::viscosity_index(a, b))?;
    }

    #[test]
    fn heat([a, b, c, d, e, f, g, h] in numbers::<8>(), [i, j, k, l, m] in numbers::<5>()) {
        let model = TwoNode {
            engine_kj_k: a, trans_kj_k: b, engine_kw: c, trans_kw: d,
            exchange_w_k: e, engine_air_w_k: f, trans_air_w_k: g, air_c: h,
        };
        let course = model.from(Nodes { engine: i, trans: j });
        finite("end", model.end().map(|n| [n.engine, n.trans]))?;
        finite("course", course.map(|course| course.at(k)).map(|n| [n.engine, n.trans]))?;
        let held = course.and_then(|course| course.held_at(l));
        finite("held", held.map(|held| held.at(k)).map(|n| [n.engine, n.trans]))?;
        let window = held.and_then(|held| held.window(k, l));
        finite("held window", window.map(|w| w.map_or(0.0, |w| w.opens_s + w.closes_s.unwrap_or(0.0))).map(Some))?;
        let window = course.and_then(|course| course.window(l, m));
        finite("window", window.map(|w| w.map_or(0.0, |w| w.opens_s + w.closes_s.unwrap_or(0.0))).map(Some))?;
        let cooling = Cooling { start_celsius: a, air_celsius: b, tau_min: c };
        finite("down", cooling.down_to(d).map(|d| d.map(|d| d.minutes + d.rate_c_min)))?;
        finite("after", cooling.after(d).map(Some))?;
        finite("tau", cooling::time_constant_min(a, b).map(Some))?;
        finite("cp", cooling::specific_heat_j_kgk(a, b).map(Some))?;
    }

    #[test]
    fn radiation([a, b, c, d, e, f, g] in numbers::<7>(), total in any::<bool>()) {
        let band = if total { Band::Total } else { Band::EIGHT_TO_FOURTEEN };
        finite("fraction", radiation::planck_fraction(a).map(Some))?;
        finite("any band", radiation::exitance(a, Band::Micrometres(b, c)).map(|e| Some(e.w_m2)))?;
        finite("temperature", radiation::celsius_of(a, band).map(Some))?;
        let view = View { emissivity: a, surroundings_c: b, set_emissivity: c, set_surroundings_c: d, band };
        finite("reading", spot::reading_c(e, view).map(Some))?;
        finite("object", spot::object_c(e, view).map(Some))?;
        let inputs = SpotInputs { u_emissivity: a, u_surroundings_c: d, u_instrument_c: f, u_offset_c: g };
        finite("u", spot::uncertainty(e, view, inputs).map(|u| [u.per_emissivity_c, u.per_surroundings, u.u_c]))?;
        let part = PartialSpot {
            fraction: f, target_c: e, target_emissivity: a, background_c: g, background_emissivity: c,
        };
        finite("part", spot::partial_reading_c(part, view).map(Some))?;
        finite("spot", spot::spot_mm(a, b, c).map(Some))?;
        let wall = PanWall { inside_w_m2k: a, wall_mm: b, wall_w_mk: c, outside_w_m2k: d };
        finite("pan", wall.surface(e, f).map(|s| [s.surface_c, s.offset_c]))?;
        finite("behind", wall.fluid_c(e, f).map(Some))?;
    }

    #[test]
    fn measurement([a, b, c, d, e, f, g] in numbers::<7>(), points in any::<usize>()) {
        let reading = OldReading {
            step_c: a, u_sensor_c: b, slope_c_min: c, u_slope_c_min: d, age_s: e, latency_s: f, u_other_c: g,
        };
        finite("old", measurement::bring_forward(reading).map(|n| [n.shift_c, n.u_c]))?;
        finite("line", measurement::line_u(a, b, points % 1_000).map(|l| [l.u_slope_c_min, l.u_end_c]))?;
        finite("p", measurement::probability_in_band(a, b, Some(c), Some(d)).map(Some))?;
        finite("one side", measurement::probability_in_band(a, b, None, Some(d)).map(Some))?;
        finite("guard", measurement::acceptance(Guard { low: a, high: b, u: c, k: d }).map(|g| Some(g.guard_band)))?;
        finite("quantile", normal::quantile(a).map(Some))?;
        prop_assert!(a.is_nan() || (0.0..=1.0).contains(&normal::phi(a)));
        prop_assert!((0.0..=1.0).contains(&normal::between(a, b)));
    }

    #[test]
    fn balance([a, b, c, d, e, f, g] in numbers::<7>()) {
        let (one, two) = (Amount { millilitres: a, celsius: b }, Amount { millilitres: c, celsius: d });
        finite("refer", balance::refer(one, c, d, e, f).map(|r| [r.millilitres, r.u_ml]))?;
        let trade = Trade { drained: one, filled: two, reference_celsius: e, density_15: f, shortage_ml: g };
        finite("trade", balance::right_overflow(trade).map(|r| [r.overflow_ml, r.uncorrected_ml]))?;
        let closure = Closure { before_ml: a, drained_ml: b, filled_ml: c, overflowed_ml: d };
        finite("close", balance::close(closure).map(|c| [c.after_ml, c.net_ml]))?;
    }

    #[test]
    fn drops([a, b, c, d, e, f] in numbers::<6>()) {
        finite("film", run_out::wall_film(WetWall { mm2_s: a, height_mm: b, perimeter_mm: c, seconds: d })
            .map(|f| [f.mean_mm, f.millilitres]))?;
        finite("drip", run_out::drip_flow_ml_min(a, b).map(Some))?;
        finite("warming", run_out::warming_flow_ml_min(a, b, c).map(Some))?;
        let warming = FirstOrderWarming {
            total_ml: a, beta_per_k: b, final_celsius: c, start_celsius: d, tau_min: e,
        };
        finite("quiet", run_out::until_quiet(warming, f).map(|q| [q.minutes, q.celsius]))?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]

    #[test]
    fn run_out([a, b, c, d, e] in numbers::<5>(), [f, g, h, i] in numbers::<4>()) {
        let run_out = RunOut::new(Standpipe { area_m2: a, bore_mm: b, rim_mm: c, length_mm: d }, e);
        finite("flow", run_out.map(|r| Some(r.flow(f).ml_min)).or(Ok(None)))?;
        finite("head", run_out.and_then(|r| r.head_for_flow_mm(f)).map(Some))?;
        let drain = run_out.and_then(|r| Drain::new(r, f, g));
        finite("at", drain.clone().and_then(|d| d.at(h)).map(|s| [s.head_mm, s.residual_ml, s.flow_ml_min]))?;
        finite("trickle", drain.and_then(|d| d.trickle(i)).map(|t| t.map(|t| t.seconds + t.residual_ml)))?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn any_possible_standpipe_drains(
        area_m2 in 0.001..1.0, bore_mm in 0.5..100.0, rim_mm in 0.05..50.0, length_mm in 0.5..1_000.0,
        log_nu in -0.5..5.9, excess in 0.0..5_000.0, inflow in prop_oneof![Just(0.0), -20.0..20.0],
        seconds in prop_oneof![0.0..1_000.0, 0.0..1.0e6],
    ) {
        let pipe = Standpipe { area_m2, bore_mm, rim_mm, length_mm };
        let drain = Drain::new(RunOut::new(pipe, 10.0_f64.powf(log_nu)).unwrap(), excess, inflow).unwrap();
        let (now, later) = (drain.at(seconds).unwrap(), drain.at(seconds + 10.0).unwrap());
        prop_assert!(now.flow_ml_min.is_finite() && now.residual_ml <= excess + 1e-9 + inflow.max(0.0) * seconds / 60.0);
        prop_assert!(inflow > 0.0 || later.residual_ml <= now.residual_ml + 1e-9);
        if let Ok(Some(trickle)) = drain.trickle(10.0) {
            prop_assert!(trickle.seconds >= 0.0 && trickle.seconds.is_finite());
        }
    }
}
