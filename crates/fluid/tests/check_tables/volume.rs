//! Volume and temperature (section 1 of the tables), and the balance of a job (section 11).

use fluid::balance::{self, Amount, Closure, Trade};
use fluid::volume::{self, SetAt};

use crate::table::Row;

crate::tables! {
    vcf => |row| {
        let (t, density) = (row.f("t_c"), row.f("rho15_kg_m3"));
        row.check("alpha15_per_k", volume::expansion_15_per_k(density).unwrap());
        row.check("vcf", volume::vcf(t, density).unwrap());
        row.check("rho_t_kg_m3", volume::density_at(t, density).unwrap());
    };
    // Worked examples in print: API MPMS 11.1 (2004), 11.1.6.1.
    ctl_2004_form => |row| {
        row.check("ctl", volume::ctl_2004(row.f("alpha60_per_f"), row.f("t_ipts68_f")).unwrap());
    };
    density_to_15 => |row| {
        row.check("rho15_kg_m3", volume::density_to_15(row.f("rho_t_kg_m3"), row.f("t_c")).unwrap());
    };
    volume_error => |row| {
        row.check("error_ml", volume::set_error_ml(set_at(row)).unwrap());
        row.check("linear_ml", volume::set_error_linear_ml(set_at(row)).unwrap());
    };
    temperature_for_error => |row| {
        let check = row.f("t_ref_c");
        let t = volume::celsius_for_error(row.litres("volume_l"), check, row.f("rho15_kg_m3"), row.f("error_ml"));
        row.check("t_set_c", t.unwrap());
        row.check("dt_c", t.unwrap() - check);
    };
    apparent_expansion => |row| {
        let case = row.f("case_linear_expansion_1e6_per_k");
        row.check("apparent_error_ml", volume::set_error_in_case_ml(set_at(row), case).unwrap());
    };
    trade_balance => |row| {
        let amount = |volume: &str, t: &str| Amount { millilitres: row.litres(volume), celsius: row.f(t) };
        let right = balance::right_overflow(Trade {
            drained: amount("drained_l", "t_drained_c"),
            filled: amount("filled_l", "t_filled_c"),
            reference_celsius: row.f("t_ref_c"),
            density_15: row.f("rho15_kg_m3"),
            shortage_ml: row.f("initial_shortage_ml"),
        }).unwrap();
        row.check("overflow_ml", right.overflow_ml);
        row.check("overflow_uncorrected_ml", right.uncorrected_ml);
    };
    balance_closure => |row| {
        let closed = balance::close(Closure {
            before_ml: row.litres("before_l"),
            drained_ml: row.litres("drained_l"),
            filled_ml: row.litres("filled_l"),
            overflowed_ml: row.litres("overflowed_l"),
        }).unwrap();
        row.check_scaled("after_l", closed.after_ml, 1e-3);
        row.check_scaled("net_l", closed.net_ml, 1e-3);
    };
}

pub(crate) fn set_at(row: &Row) -> SetAt {
    SetAt {
        total_ml: row.litres("volume_l"),
        set_celsius: row.f("t_set_c"),
        check_celsius: row.f("t_ref_c"),
        density_15: row.f("rho15_kg_m3"),
    }
}
