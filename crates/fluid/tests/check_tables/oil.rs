//! Dilution, mixing and viscosity (sections 4 and 5 of the tables), and units (section 10).

use fluid::dilution;
use fluid::mixing::{self, Portion};
use fluid::viscosity::{self, Walther};
use fluid::viscosity_index;
use units::text::{self, UnitSystem::Us};
use units::{Celsius, Kelvins};

use crate::table::{Row, Tolerance};

crate::tables! {
    // Rows 1 to 3: figures worked in public for 10 L, 4 L each (60 %, 36 %, about 5 % old).
    dilution => |row| {
        let times = row.text("cycles").parse().unwrap();
        let fresh = dilution::fresh_fraction(row.litres("total_l"), row.litres("drained_l"), times).unwrap();
        row.check("fresh_fraction", fresh);
        row.check("old_fraction", 1.0 - fresh);
    };
    dilution_cycles => |row| {
        let (total, each) = (row.litres("total_l"), row.litres("drained_l"));
        let rounds = dilution::rounds_for(total, each, row.f("target_fresh_fraction")).unwrap().unwrap();
        row.check("cycles_real", rounds.exact);
        row.check("cycles", f64::from(rounds.whole));
    };
    dilution_sequence => |row| {
        let rounds: Vec<f64> =
            row.text("drained_l_sequence").split(';').map(|l| l.parse::<f64>().unwrap() * 1_000.0).collect();
        row.check("fresh_fraction", dilution::fresh_after(row.litres("total_l"), &rounds).unwrap());
    };
    mixing => |row| {
        let portion = |v: &str, t: &str, density: &str| Portion {
            millilitres: row.litres(v),
            celsius: row.f(t),
            density_15: row.f(density),
        };
        let (one, two) = (portion("v1_l", "t1_c", "rho15_1"), portion("v2_l", "t2_c", "rho15_2"));
        let mixture = mixing::mix(&[one, two]).unwrap();
        row.check("m1_kg", one.mass_kg().unwrap());
        row.check("m2_kg", two.mass_kg().unwrap());
        row.check_scaled("v15_l", mixture.millilitres_15, 1e-3);
        row.check("rho15_mix", mixture.density_15);
        row.check_scaled("v_ref_l", mixture.millilitres_at(row.f("t_ref_c")).unwrap(), 1e-3);
        row.check("t_mix_c", mixture.celsius);
    };
    blend_viscosity => |row| {
        let share = row.f("volume_fraction_1");
        row.check("nu_mm2_s", viscosity::blend_mm2_s(row.f("nu1_mm2_s"), row.f("nu2_mm2_s"), share).unwrap());
    };
    viscosity_walther => |row| {
        let fluid = Walther::from_40_and_100(row.f("nu40_mm2_s"), row.f("nu100_mm2_s")).unwrap();
        row.check("a", fluid.a());
        row.check("b", fluid.b());
        row.check("nu_mm2_s", fluid.mm2_s(row.f("t_c")).unwrap());
    };
    // A worked case in a public calculation sheet, with 273 for 273.15; A and B are printed to four decimals.
    viscosity_walther_published => |row| {
        let point = |nu: &str, t: &str| (row.f(nu), row.f(t));
        let fluid = Walther::through(point("nu1_mm2_s", "t1_k"), point("nu2_mm2_s", "t2_k")).unwrap();
        row.within("a", fluid.a(), row.f("expected_a"), Tolerance::Absolute(1e-4));
        row.within("b", fluid.b(), row.f("expected_b"), Tolerance::Absolute(1e-4));
        row.check("nu_mm2_s", fluid.mm2_s_at_kelvin(row.f("t_k")).unwrap());
    };
    // Rows 1 to 3: worked examples of ASTM D2270 (92, 156, 111).
    viscosity_index => |row| {
        let (nu40, nu100) = (row.f("nu40_mm2_s"), row.f("nu100_mm2_s"));
        let references = viscosity_index::references(nu100).unwrap().unwrap();
        row.check("l", references.l);
        row.check("h", references.h);
        row.check("vi", viscosity_index::viscosity_index(nu40, nu100).unwrap().unwrap());
        let reported = viscosity_index::reported(nu40, nu100).unwrap().unwrap();
        assert_eq!(reported, row.f("expected_vi_rounded"), "{}", row.name());
    };
    viscosity_index_lh => |row| {
        let references = viscosity_index::references(row.f("nu100_mm2_s")).unwrap().unwrap();
        assert_eq!((references.l, references.h), (row.f("l"), row.f("h")), "{}", row.name());
    };
    units => unit;
}

/// The factors live in `units`; here they meet the table, since this is where the tables are read.
fn unit(row: &Row) {
    let v = row.f("value");
    let quart_l = text::QUART_US_ML / 1_000.0;
    let typed = |unit: &str| format!("{v}{unit}");
    let (factor, stored) = match (row.text("from"), row.text("to")) {
        ("qt_us", "l") => (v * quart_l, EXACT),
        ("l", "qt_us") => (v / quart_l, EXACT),
        ("pt_us", "l") => (v * quart_l / 2.0, EXACT),
        ("gal_us", "l") => (v * quart_l * 4.0, EXACT),
        ("fl_oz_us", "ml") => (v * text::FLUID_OUNCE_US_ML, EXACT),
        ("ml", "fl_oz_us") => (v / text::FLUID_OUNCE_US_ML, EXACT),
        ("qt_imp", "l") => (v * text::QUART_IMPERIAL_ML / 1_000.0, EXACT),
        ("l", "qt_imp") => (v / text::QUART_IMPERIAL_ML * 1_000.0, EXACT),
        ("fl_oz_imp", "ml") => (v * text::QUART_IMPERIAL_ML / 40.0, EXACT),
        ("lbf_ft", "n_m") => (v * text::POUND_FOOT_NM, EXACT),
        ("n_m", "lbf_ft") => (v / text::POUND_FOOT_NM, EXACT),
        ("lbf_in", "n_m") => (v * text::POUND_INCH_NM, EXACT),
        ("n_m", "lbf_in") => (v / text::POUND_INCH_NM, EXACT),
        // Read and shown through the doors that people use, which round to the step of the type.
        ("in", "mm") => (text::millimetres(&typed("in")).unwrap().to_f64(), HALF_A_STEP),
        ("f", "c") => (text::celsius(&typed("F")).unwrap().to_f64(), HALF_A_STEP),
        ("f_diff", "c_diff") => (text::kelvins(&typed("F")).unwrap().to_f64(), HALF_A_STEP),
        ("c", "f") => (shown(&text::show_celsius(Celsius::from_f64(v).unwrap(), Us)), HALF_A_TENTH),
        ("c_diff", "f_diff") => (shown(&text::show_kelvins(Kelvins::from_f64(v).unwrap(), Us)), HALF_A_TENTH),
        ("c", "k") => return same_viscosity(v, row.f("expected")),
        // Nothing here is in psi or in pounds of mass.
        ("psi", "kpa") | ("lb", "kg") => return,
        (from, to) => panic!("{}: no unit {from} or {to}", row.name()),
    };
    row.within("factor", factor, row.f("expected"), stored);
}

/// A fluid is as thick at a temperature in °C as at the same one in K.
fn same_viscosity(celsius: f64, kelvin: f64) {
    let fluid = Walther::from_40_and_100(29.6, 5.9).unwrap();
    assert_eq!(fluid.mm2_s(celsius), fluid.mm2_s_at_kelvin(kelvin));
}

fn shown(text: &str) -> f64 {
    text.split('\u{202f}').next().unwrap().parse().unwrap()
}

const EXACT: Tolerance = Tolerance::Relative(1e-12);
const HALF_A_STEP: Tolerance = Tolerance::Absolute(0.005 + 1e-9);
const HALF_A_TENTH: Tolerance = Tolerance::Absolute(0.05 + 1e-9);
