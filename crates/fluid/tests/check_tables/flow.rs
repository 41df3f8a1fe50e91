//! Run-out, film and drops (section 6 of the tables).

use fluid::run_out::{self, Drain, FirstOrderWarming, RunOut, Standpipe, WetWall};

use crate::table::Row;

crate::tables! {
    standpipe_drain => |row| {
        let now = drain(row).at(row.f("time_s")).unwrap();
        row.check("head_mm", now.head_mm);
        row.check("residual_ml", now.residual_ml);
        row.check("flow_ml_min", now.flow_ml_min);
        assert_eq!(now.regime.word(), row.text("expected_regime"), "{}", row.name());
    };
    standpipe_trickle => |row| {
        let trickle = drain(row).trickle(row.f("trickle_ml_min")).unwrap().unwrap();
        row.check("head_mm", trickle.head_mm);
        row.check("residual_ml", trickle.residual_ml);
        row.check("time_s", trickle.seconds);
    };
    wall_film => |row| {
        let film = run_out::wall_film(WetWall {
            mm2_s: row.f("nu_mm2_s"),
            height_mm: row.f("height_m") * 1_000.0,
            perimeter_mm: row.f("perimeter_m") * 1_000.0,
            seconds: row.f("time_s"),
        }).unwrap();
        row.check("mean_film_mm", film.mean_mm);
        row.check("volume_ml", film.millilitres);
    };
    drip_count => |row| {
        row.check("flow_ml_min", run_out::drip_flow_ml_min(row.f("drop_ml"), row.f("drops_per_s")).unwrap());
    };
    warming_drip => |row| {
        let (total, beta) = (row.litres("volume_l"), row.f("beta_per_k"));
        row.check("flow_ml_min", run_out::warming_flow_ml_min(total, beta, row.f("rate_c_per_min")).unwrap());
    };
    drip_until_quiet => |row| {
        let warming = FirstOrderWarming {
            total_ml: row.litres("volume_l"),
            beta_per_k: row.f("beta_per_k"),
            final_celsius: row.f("t_inf_c"),
            start_celsius: row.f("t0_c"),
            tau_min: row.f("tau_min"),
        };
        let quiet = run_out::until_quiet(warming, row.f("trickle_ml_min")).unwrap();
        row.check("time_min", quiet.minutes);
        row.check("t_c", quiet.celsius);
    };
}

fn drain(row: &Row) -> Drain {
    let pipe = Standpipe {
        area_m2: row.f("area_m2"),
        bore_mm: row.f("bore_mm"),
        rim_mm: row.f("lip_mm"),
        length_mm: row.f("tube_length_mm"),
    };
    Drain::new(RunOut::new(pipe, row.f("nu_mm2_s")).unwrap(), row.f("excess_ml"), 0.0).unwrap()
}
