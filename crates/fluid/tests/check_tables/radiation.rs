//! Radiation and the infrared spot thermometer (section 8 of the tables).

use fluid::pan::PanWall;
use fluid::radiation::{self, Band};
use fluid::spot::{self, PartialSpot, SpotInputs, View};
use fluid::surface::SURFACES;

use crate::table::{Row, Tolerance};

crate::tables! {
    // The printed handbook table has four digits and cuts some of them off; the computed column has all.
    planck_fraction => |row| {
        let fraction = radiation::planck_fraction(row.f("lambda_t_um_k")).unwrap();
        row.within("fraction", fraction, row.f("expected_fraction"), Tolerance::Relative(1e-9));
        row.near("printed fraction", fraction, row.f("published_fraction"));
    };
    band_exitance => |row| {
        let t = row.f("t_c");
        let band = radiation::exitance(t, Band::EIGHT_TO_FOURTEEN).unwrap();
        row.check("band_8_14_w_m2", band.w_m2);
        row.check("fraction", band.fraction);
        row.check("log_slope_dlnb_dlnt", band.log_slope);
        row.check("total_w_m2", radiation::total_w_m2(t).unwrap());
        row.check("total_w_m2", radiation::exitance(t, Band::Total).unwrap().w_m2);
    };
    ir_reading => |row| {
        let (object, view) = (row.f("t_object_c"), view(row));
        let reading = spot::reading_c(object, view).unwrap();
        row.check("reading_c", reading);
        row.check("error_c", reading - object);
        row.near("the way back", spot::object_c(reading, view).unwrap(), object);
    };
    ir_correct => |row| row.check("object_c", spot::object_c(row.f("reading_c"), view(row)).unwrap());
    ir_partial_spot => |row| {
        let surroundings_c = row.f("t_reflected_c");
        let spot = PartialSpot {
            fraction: row.f("target_fraction"),
            target_c: row.f("t_target_c"),
            target_emissivity: row.f("emissivity_target"),
            background_c: row.f("t_background_c"),
            background_emissivity: row.f("emissivity_background"),
        };
        let view = View {
            emissivity: spot.target_emissivity,
            surroundings_c,
            set_emissivity: 0.95, // as the table's source column says
            set_surroundings_c: surroundings_c,
            band: Band::EIGHT_TO_FOURTEEN,
        };
        row.check("reading_c", spot::partial_reading_c(spot, view).unwrap());
    };
    ir_spot => |row| {
        let (ratio, distance) = (row.f("distance_to_spot"), row.f("distance_mm"));
        row.check("spot_mm", spot::spot_mm(ratio, distance, row.f("exit_diameter_mm")).unwrap());
    };
    ir_uncertainty => |row| {
        let view = View {
            emissivity: row.f("emissivity"),
            surroundings_c: row.f("t_reflected_c"),
            set_emissivity: row.f("emissivity"),
            set_surroundings_c: row.f("t_reflected_c"),
            band: Band::EIGHT_TO_FOURTEEN,
        };
        let inputs = SpotInputs {
            u_emissivity: row.f("u_emissivity"),
            u_surroundings_c: row.f("u_reflected_c"),
            u_instrument_c: row.f("u_instrument_c"),
            u_offset_c: row.f("u_offset_c"),
        };
        let known = spot::uncertainty(row.f("t_object_c"), view, inputs).unwrap();
        row.check("dt_de", known.per_emissivity_c);
        row.check("dt_dtr", known.per_surroundings);
        row.check("u_c", known.u_c);
    };
    pan_offset => |row| {
        let wall = PanWall {
            inside_w_m2k: row.f("h_inside_w_m2k"),
            wall_mm: row.f("wall_mm"),
            wall_w_mk: row.f("k_wall_w_mk"),
            outside_w_m2k: row.f("h_outside_w_m2k"),
        };
        let surface = wall.surface(row.f("t_fluid_c"), row.f("t_air_c")).unwrap();
        row.check("surface_c", surface.surface_c);
        row.check("offset_c", surface.offset_c);
    };
}

#[test]
fn every_surface_quotes_rows_of_the_published_table() {
    let rows = crate::table::rows("emissivity");
    for surface in SURFACES {
        // The lowest and the highest value may stand in two rows that describe the same kind of surface.
        let printed = |value: f64| rows.iter().any(|row| row.f("low") == value || row.f("high") == value);
        assert!(printed(surface.low) && printed(surface.high), "{}", surface.word);
    }
}

fn view(row: &Row) -> View {
    let band = match row.text("model") {
        "band_8_14" => Band::EIGHT_TO_FOURTEEN,
        "total_t4" => Band::Total,
        other => panic!("{}: no model {other}", row.name()),
    };
    View {
        emissivity: row.f("emissivity"),
        surroundings_c: row.f("t_reflected_c"),
        set_emissivity: row.f("emissivity_set"),
        set_surroundings_c: row.f("t_reflected_set_c"),
        band,
    }
}
