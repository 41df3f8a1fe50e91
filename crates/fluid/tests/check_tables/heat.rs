//! Heating and cooling (section 7 of the tables).

use fluid::cooling::{self, Cooling};
use fluid::pan::PanWall;
use fluid::thermal::{Nodes, TwoNode};

use crate::table::Row;

crate::tables! {
    thermal_two_node => |row| {
        let course = model(row).from(start(row)).unwrap();
        let now = course.at(row.f("time_s"));
        row.check("t_engine_c", now.engine);
        row.check("t_trans_c", now.trans);
        row.check("inf_engine_c", course.end().engine);
        row.check("inf_trans_c", course.end().trans);
    };
    thermal_window => |row| {
        let course = model(row).from(start(row)).unwrap();
        let window = course.window(row.f("band_low_c"), row.f("band_high_c")).unwrap().unwrap();
        let closes_s = window.closes_s.unwrap();
        row.check("open_s", window.opens_s);
        row.check("close_s", closes_s);
        row.check("window_s", closes_s - window.opens_s);
        row.check("rate_at_open_c_min", window.rate_at_open_c_min);
    };
    newton_cooling => |row| {
        let cooling = Cooling {
            start_celsius: row.f("t0_c"),
            air_celsius: row.f("t_air_c"),
            tau_min: row.f("tau_min"),
        };
        let down = cooling.down_to(row.f("t_target_c")).unwrap().unwrap();
        row.check("time_min", down.minutes);
        row.check("rate_at_target_c_min", down.rate_c_min);
    };
    oil_specific_heat => |row| {
        row.check("cp_j_kgk", cooling::specific_heat_j_kgk(row.f("t_c"), row.f("rho15_kg_m3")).unwrap());
    };
}

#[test]
fn the_default_parameters_are_the_typical_ones_of_the_table() {
    let rows = crate::table::rows("thermal_parameters");
    let typical = |name: &str| rows.iter().find(|row| row.text("parameter") == name).unwrap().f("typical");
    let (past, through) = (TwoNode::PAST_THE_COOLER, TwoNode::THROUGH_THE_COOLER);
    let cases = [
        ("c_engine", past.engine_kj_k),
        ("c_trans", past.trans_kj_k),
        ("p_engine", past.engine_kw),
        ("p_trans", past.trans_kw),
        ("g_exchange, fluid not through the cooler", past.exchange_w_k),
        ("g_exchange, fluid through the cooler", through.exchange_w_k),
        ("g_engine_air", past.engine_air_w_k),
        ("g_trans_air", past.trans_air_w_k),
        ("h_outside", PanWall::METAL.outside_w_m2k),
        ("h_inside", PanWall::METAL.inside_w_m2k),
    ];
    for (name, got) in cases {
        assert_eq!(got, typical(name), "{name}");
    }
}

fn model(row: &Row) -> TwoNode {
    TwoNode {
        engine_kj_k: row.f("c_engine_kj_k"),
        trans_kj_k: row.f("c_trans_kj_k"),
        engine_kw: row.f("p_engine_kw"),
        trans_kw: row.f("p_trans_kw"),
        exchange_w_k: row.f("g_exchange_w_k"),
        engine_air_w_k: row.f("g_engine_air_w_k"),
        trans_air_w_k: row.f("g_trans_air_w_k"),
        air_c: row.f("t_air_c"),
    }
}

fn start(row: &Row) -> Nodes {
    Nodes { engine: row.f("t_engine0_c"), trans: row.f("t_trans0_c") }
}
