//! The cold idle of the rehearsal's vehicles against the only real one at hand: one small petrol engine, coolant, no speed.
//!
//! Figures: `fixtures/reference/physics/idle_warmup.csv`. A vehicle made like that car has to warm as it does; the drawn ones lie about it,
//! since it is one car of many. `cargo test -p rehearsal --test idle -- --nocapture` prints both.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "a test"
)]

use events::Sheet;
use rehearsal::idle::Idle;
use rehearsal::thermal::Thermal;
use rehearsal::{Setup, Vehicle, World, embedded};
use units::Mono;

/// Five kelvins of the table.
struct Row {
    from: f64,
    to: f64,
    /// Seconds for one kelvin: tenth, median, ninetieth of a hundred.
    seconds: [f64; 3],
    rpm: f64,
}

fn table() -> Vec<Row> {
    let path = format!("{}/../../fixtures/reference/physics/idle_warmup.csv", env!("CARGO_MANIFEST_DIR"));
    let row = |line: &str| {
        let cells: Vec<f64> = line.split(',').filter_map(|cell| cell.parse().ok()).collect();
        Row { from: cells[0], to: cells[1], seconds: [cells[3], cells[4], cells[5]], rpm: cells[6] }
    };
    std::fs::read_to_string(path).unwrap().lines().skip(1).map(row).collect()
}

/// Of each row the seconds for one kelvin and the idle speed halfway; none where it is not passed.
fn warm_up(sheet: &Sheet, vehicle: Vehicle, seed: u64, rows: &[Row]) -> Vec<Option<(f64, f64)>> {
    let mut world = World::new(sheet, vehicle, None, &[], seed);
    world.start_engine();
    let mut crossed: Vec<Option<f64>> = vec![None; rows.len() + 1];
    let mut speeds: Vec<Vec<f64>> = rows.iter().map(|_| Vec::new()).collect();
    for tick in 0..90 * 600_u64 {
        world.advance(Mono::from_millis(tick * 100));
        let coolant = world.coolant_celsius();
        for (mark, crossed) in rows.iter().map(|r| r.from).chain(rows.last().map(|r| r.to)).zip(&mut crossed)
        {
            if coolant >= mark && crossed.is_none() {
                *crossed = Some(tick as f64 / 10.0);
            }
        }
        if let Some(at) = rows.iter().position(|r| (r.from..r.to).contains(&coolant)) {
            speeds[at].push(world.shown().rpm);
        }
        if crossed.last().is_some_and(Option::is_some) {
            break;
        }
    }
    rows.iter()
        .enumerate()
        .map(|(at, row)| {
            let seconds = (crossed[at + 1]? - crossed[at]?) / (row.to - row.from);
            (vehicle.engine_celsius < row.from).then(|| (seconds, quantile(speeds[at].clone(), 0.5)))
        })
        .collect()
}

fn quantile(mut values: Vec<f64>, q: f64) -> f64 {
    values.sort_by(f64::total_cmp);
    values[((values.len() - 1) as f64 * q).round() as usize]
}

/// A small engine in a warm place, as `draw` could give it, `by` off in heat and losses.
fn like_the_measured(sheet: &Sheet, by: f64) -> Vehicle {
    let mut vehicle = Vehicle::typical(sheet, 28.0);
    vehicle.thermal = Thermal {
        metal_kj_k: 40.0,
        coolant_kj_k: 20.0,
        engine_kw: 7.0 * (1.0 - by),
        cold_idle_share: 0.4,
        metal_coolant_w_k: 800.0,
        metal_air_w_k: 42.0 * (1.0 + by),
        coolant_air_w_k: 18.0 * (1.0 + by),
        thermostat_celsius: 86.0,
        ..vehicle.thermal
    };
    vehicle.traits.idle = Idle::MEASURED;
    (vehicle.engine_celsius, vehicle.fluid_celsius) = (24.0, 24.0);
    vehicle
}

#[test]
fn a_vehicle_made_like_the_measured_one_warms_as_that_did() {
    let (sheet, rows) = (embedded::six_speed(), table());
    let rows = &rows[..rows.len() - 1]; // the last one is its thermostat's
    let runs: Vec<_> = (0..9)
        .map(|i| warm_up(&sheet, like_the_measured(&sheet, 0.02 * (f64::from(i) - 4.0)), i as u64, rows))
        .collect();
    for (at, row) in rows.iter().enumerate() {
        let seconds = quantile(runs.iter().map(|run| run[at].unwrap().0).collect(), 0.5);
        let rpm = quantile(runs.iter().map(|run| run[at].unwrap().1).collect(), 0.5);
        println!(
            "{} to {}: {seconds:.1} s/K of {:?}; {rpm:.0}/min of {}",
            row.from, row.to, row.seconds, row.rpm
        );
        let [low, _, high] = row.seconds;
        assert!((low..=high).contains(&seconds), "{} to {} °C: {seconds:.2} s/K", row.from, row.to);
        assert!((rpm / row.rpm - 1.0).abs() < 0.12, "{} to {} °C: {rpm:.0}/min", row.from, row.to);
    }
}

#[test]
fn drawn_vehicles_lie_about_the_measured_one_and_some_hardly_slow_down() {
    let (sheet, rows) = (embedded::six_speed(), table());
    let rows = &rows[..rows.len() - 2];
    let runs: Vec<_> = (1..=200)
        .filter_map(|seed| {
            let setup = Setup::draw(seed, std::slice::from_ref(&sheet));
            // All on a day as warm as that of the table.
            let vehicle =
                Vehicle { air_celsius: 28.0, engine_celsius: 24.0, fluid_celsius: 24.0, ..setup.vehicle };
            setup.warmup.is_none().then(|| warm_up(&sheet, vehicle, seed, rows))
        })
        .collect();
    for (at, row) in rows.iter().enumerate() {
        let seconds: Vec<f64> = runs.iter().filter_map(|run| Some(run[at]?.0)).collect();
        let [least, half, most] = [0.01, 0.5, 0.99].map(|q| quantile(seconds.clone(), q));
        println!(
            "{} to {}: {least:.1} {half:.1} {most:.1} s/K, measured {:?}",
            row.from, row.to, row.seconds
        );
        assert!(
            (least..=most).contains(&row.seconds[1]),
            "{} to {} °C: {least:.1} to {most:.1}",
            row.from,
            row.to
        );
    }
    let last = rows.len() - 1;
    let slower: Vec<f64> = runs.iter().filter_map(|run| Some(run[last]?.0 / run[0]?.0)).collect();
    let [p5, p50, p95] = [0.05, 0.5, 0.95].map(|q| quantile(slower.clone(), q));
    println!("slower from 30 to 80 °C: {p5:.1} {p50:.1} {p95:.1} times, {} of {}", slower.len(), runs.len());
    assert!(p5 < 2.0 && (2.0..4.0).contains(&p50) && p95 > 4.5, "{p5:.2} {p50:.2} {p95:.2}");
}
