//! Figures that are stated in words beside the formulas: rounded, but found apart from this crate.
//!
//! The check tables hold the digits; these hold the sense. Each row says what is claimed and between which values
//! the claim counts as kept, which is the rounding of the statement.

// A claim has no caller to hand an error to.
#![allow(clippy::unwrap_used)]

use fluid::cooling::{self, Cooling};
use fluid::measurement::{Guard, acceptance, probability_in_band, quantisation_u};
use fluid::radiation::{Band, exitance};
use fluid::run_out::{Drain, RunOut, Standpipe, TRICKLE_ML_MIN};
use fluid::spot::{View, reading_c};
use fluid::thermal::{Nodes, TwoNode};
use fluid::volume::{self, SetAt};
use fluid::{normal, tilt};

fn keep(claims: &[(&str, f64, f64, f64)]) {
    for (what, got, low, high) in claims {
        assert!((low..=high).contains(&got), "{what}: {got}, should lie in {low} to {high}");
    }
}

#[test]
fn volume_and_temperature() {
    let set =
        |set_celsius, density_15| SetAt { total_ml: 8_000.0, set_celsius, check_celsius: 40.0, density_15 };
    let error = volume::set_error_ml(set(60.0, 850.0)).unwrap();
    let linear = volume::set_error_linear_ml(set(60.0, 850.0)).unwrap();
    let in_case = volume::set_error_in_case_ml(set(60.0, 850.0), volume::CASE_EXPANSION_ALUMINIUM).unwrap();
    let lighter = volume::set_error_ml(set(60.0, 835.0)).unwrap();
    let litre = 1_000.0 * volume::expansion_per_k(40.0, 850.0).unwrap();
    keep(&[
        ("expansion at 15 °C, 1/K", volume::expansion_15_per_k(850.0).unwrap(), 7.385_85e-4, 7.385_95e-4),
        ("factor at 40 °C", volume::vcf(40.0, 850.0).unwrap(), 0.981_436_5, 0.981_437_5),
        ("a litre at 40 °C changes by 0.761 mL a degree", litre, 0.760, 0.761_5),
        ("8 L set at 60 instead of 40 °C", error, -122.15, -122.05),
        ("the linear estimate is 3 % short", linear / error, 0.965, 0.970),
        ("in a case that grows it is 9 % smaller", in_case / error, 0.905, 0.915),
        ("15 kg/m³ change it by 2 %", lighter / error, 1.015, 1.025),
    ]);
}

#[test]
fn tilt_and_its_tolerance() {
    let tolerance = tilt::tolerance(50.0, 0.060, 120.0, 2_700.0).unwrap();
    keep(&[
        ("50 mL at 120 mm need 0.40°", tolerance.max_angle_deg, 0.395, 0.405),
        ("which is 19 mm over 2.7 m", tolerance.height_difference_mm, 18.5, 19.5),
    ]);
}

#[test]
fn half_a_quart_running_out() {
    // 473 mL on 0.060 m², bore 10 mm, rim 1.5 mm, tube 60 mm, 29.6 mm²/s.
    let pipe = Standpipe { area_m2: 0.060, bore_mm: 10.0, rim_mm: 1.5, length_mm: 60.0 };
    let drain = |nu| Drain::new(RunOut::new(pipe, nu).unwrap(), 473.176_473, 0.0).unwrap();
    let usual = drain(29.6);
    let trickle = |q: f64| usual.trickle(q).unwrap().unwrap();
    let thick = drain(55.0).trickle(TRICKLE_ML_MIN).unwrap().unwrap();
    let flow = |t| usual.at(t).unwrap().flow_ml_min;
    let power = (flow(1_000_000.0) / flow(100_000.0)).log10();
    keep(&[
        ("400 mL leave in 50 s", 473.2 - usual.at(50.0).unwrap().residual_ml, 395.0, 410.0),
        ("60 mL/min after 49 s", trickle(60.0).seconds, 48.5, 49.5),
        ("10 mL/min after 114 s", trickle(10.0).seconds, 113.5, 114.5),
        ("5 mL/min after 174 s", trickle(5.0).seconds, 173.5, 174.5),
        ("the trade says 1 to 3 minutes to a trickle", trickle(TRICKLE_ML_MIN).seconds, 60.0, 180.0),
        ("at 10 mL/min 44 mL still stand above the rim", trickle(10.0).residual_ml, 43.5, 44.5),
        ("at 2.5 mL/min 31 mL", trickle(2.5).residual_ml, 30.5, 31.5),
        ("thicker fluid adds 17 %", thick.residual_ml / trickle(10.0).residual_ml, 1.165, 1.175),
        ("the film's flow falls as the time to the power of -4/3", power, -1.335, -1.33),
    ]);
}

#[test]
fn warming_and_the_window() {
    let cold = Nodes { engine: 20.0, trans: 20.0 };
    let window = |model: TwoNode| model.from(cold).unwrap().window(35.0, 45.0).unwrap().unwrap();
    let (past, through) = (window(TwoNode::PAST_THE_COOLER), window(TwoNode::THROUGH_THE_COOLER));
    let long = |w: fluid::thermal::Window| (w.closes_s.unwrap() - w.opens_s) / 60.0;
    let eight_litres = 8.0 * volume::density_at(40.0, 850.0).unwrap() / 1_000.0;
    let held = eight_litres * cooling::specific_heat_j_kgk(40.0, 850.0).unwrap() / 1_000.0;
    keep(&[
        ("35 °C after 15 min without exchange", past.opens_s / 60.0, 14.5, 15.5),
        ("a window of 12 min", long(past), 11.5, 12.5),
        ("10 min with exchange", through.opens_s / 60.0, 9.5, 10.5),
        ("a window of 6 min", long(through), 5.5, 6.5),
        ("at 0.9 °C/min", past.rate_at_open_c_min, 0.85, 0.95),
        ("or 1.7", through.rate_at_open_c_min, 1.65, 1.75),
        ("8 L weigh 6.67 kg", eight_litres, 6.665, 6.675),
        ("and hold 13 kJ/K", held, 12.5, 13.5),
    ]);
}

#[test]
fn waiting_for_it_to_cool() {
    let minutes = |start_celsius, air_celsius| {
        let cooling = Cooling { start_celsius, air_celsius, tau_min: 80.0 };
        cooling.down_to(45.0).unwrap().unwrap().minutes
    };
    let half_an_hour =
        60.0 - Cooling { start_celsius: 60.0, air_celsius: 25.0, tau_min: 80.0 }.after(30.0).unwrap();
    keep(&[
        ("60 to 45 °C in air of 25 °C", minutes(60.0, 25.0), 44.5, 45.5),
        ("90 to 45 °C", minutes(90.0, 25.0), 93.5, 94.5),
        ("60 to 45 °C in air of 35 °C", minutes(60.0, 35.0), 72.5, 73.5),
        ("a public workshop article prints about 10 °C in 30 to 60 min", half_an_hour, 8.0, 12.0),
    ]);
}

#[test]
fn the_infrared_thermometer() {
    let reads = |emissivity, surroundings_c| {
        let band = Band::EIGHT_TO_FOURTEEN;
        reading_c(
            40.0,
            View { emissivity, surroundings_c, set_emissivity: 0.95, set_surroundings_c: 20.0, band },
        )
        .unwrap()
    };
    let power = |t| exitance(t, Band::EIGHT_TO_FOURTEEN).unwrap().log_slope;
    keep(&[
        ("bare metal of 40 °C in 20 °C", reads(0.05, 20.0), 21.1, 21.2),
        ("under an exhaust of 60 °C", reads(0.05, 60.0), 60.8, 60.9),
        ("tape reads within 0.6 °C", reads(0.96, 20.0) - 40.0, -0.6, 0.6),
        ("and so does paint", reads(0.92, 20.0) - 40.0, -0.6, 0.6),
        ("power at 20 °C", power(20.0), 4.65, 4.75),
        ("power at 40 °C", power(40.0), 4.35, 4.45),
        ("power at 80 °C", power(80.0), 3.95, 4.05),
    ]);
}

#[test]
fn uncertainty_and_acceptance() {
    let guard = |low, high, u, k| acceptance(Guard { low, high, u, k }).unwrap();
    let (low, high) = guard(35.0, 43.0, 1.0, 2.0).interval.unwrap();
    let narrow = guard(35.0, 39.0, 1.0, 2.0).probability_at_limit().unwrap();
    keep(&[
        ("a step of 1 °C", quantisation_u(1.0).unwrap(), 0.288_674_5, 0.288_675_5),
        ("a step of 1 °F", quantisation_u(5.0 / 9.0).unwrap(), 0.160_374_5, 0.160_375_5),
        // ILAC-G8:09/2019: a guard band of k = 2 keeps false acceptance below 2.5 %.
        ("false acceptance at the limit", normal::phi(-2.0), 0.0, 0.025),
        (
            "at the limit with the other one far",
            guard(35.0, 45.0, 1.0, 2.0).probability_at_limit().unwrap(),
            0.977_245,
            0.977_255,
        ),
        ("one point left of a band four u wide", narrow, 0.954_45, 0.954_55),
        ("a band of 8 °C with u of 1 °C leaves 4 °C", high - low, 4.0, 4.0),
        // JCGM 106:2012, 7.4, the two-sided example.
        (
            "y 13.6, u 1.8 in 12.5 to 16.3",
            probability_in_band(13.6, 1.8, Some(12.5), Some(16.3)).unwrap(),
            0.655,
            0.665,
        ),
    ]);
}
