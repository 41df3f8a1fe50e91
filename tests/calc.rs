//! `calc` through the command line, held against rows of `fixtures/reference/physics/checks` (sources stand there).

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use common::{Home, last_line, stderr};

#[test]
fn the_anchors_of_the_physics_come_out_of_the_command() {
    // what, arguments, key, expected, tolerance; the table and row it comes from
    let cases: &[(&str, &str, &str, f64, f64)] = &[
        (
            "volume_error 1",
            "level --celsius 60 --check 40 --total-ml 8000 --density-15 850 --area-m2 0.06",
            "millilitres",
            -122.120_230_5,
            0.01,
        ),
        (
            "vcf 1",
            "volume --millilitres 1000 --from 40 --to 15 --density-15 850",
            "vcf_from",
            0.981_436_992_8,
            1e-8,
        ),
        (
            "tilt_volume 1",
            "tilt --pitch-deg 1 --roll-deg 0 --dx-mm 120 --dy-mm 0 --area-m2 0.06",
            "millilitres",
            125.676_467_5,
            1e-4,
        ),
        (
            "viscosity_walther 1",
            "viscosity --at-40 29.6 --at-100 5.9 --celsius 20",
            "mm2_s",
            70.312_507_86,
            1e-6,
        ),
        (
            "viscosity_index 1",
            "viscosity --at-40 73.3 --at-100 8.86 --celsius 40",
            "viscosity_index",
            92.429_647_25,
            0.01,
        ),
        (
            "standpipe_trickle 3",
            "run-out --excess-ml 473.176473 --area-m2 0.06 --bore-mm 10 --rim-mm 1.5 --length-mm 60 --mm2-s 29.6",
            "seconds_to_trickle",
            114.047_858_9,
            0.02,
        ),
        (
            "dilution, 10 L by 4 L six times",
            "dilution --total-ml 10000 --each-ml 4000 --times 6",
            "fresh_fraction",
            0.953_344,
            1e-9,
        ),
        (
            "JCGM 106, y 13.6, u 1.8",
            "guard --celsius 13.6 --u 1.8 --band 12.5..16.3",
            "probability_in_band",
            0.6626,
            5e-5,
        ),
    ];
    let home = Home::new();
    for (what, arguments, key, want, within) in cases {
        let arguments: Vec<&str> = ["calc", "--json"].into_iter().chain(arguments.split(' ')).collect();
        let output = home.run(&arguments);
        assert!(output.status.success(), "{what}: {}", stderr(&output));
        let got = last_line(&output)[key].as_f64().unwrap_or(f64::NAN);
        assert!((got - want).abs() <= *within, "{what}: {got}, not {want} ± {within}");
    }
}

#[test]
fn what_cannot_be_is_absent_or_refused_with_the_range() {
    let home = Home::new();
    let never =
        home.run(&["calc", "--json", "dilution", "--total-ml", "10000", "--each-ml", "0", "--target", "0.9"]);
    assert!(last_line(&never).get("times").is_none(), "no progress, no number of rounds");
    let thin =
        home.run(&["calc", "--json", "viscosity", "--at-40", "8", "--at-100", "1.9", "--celsius", "40"]);
    assert!(last_line(&thin).get("viscosity_index").is_none(), "no index below 2 mm²/s");
    let empty = home.run(&["calc", "--json", "guard", "--celsius", "37", "--u", "2", "--band", "35..39"]);
    assert!(last_line(&empty).get("accept_low").is_none() && last_line(&empty)["verdict"] == "wait");
    let hot = "calc level --celsius 600 --check 40 --total-ml 8000 --density-15 850 --area-m2 0.06";
    let hot = home.run(&hot.split(' ').collect::<Vec<_>>());
    assert_eq!(hot.status.code(), Some(65));
    assert!(stderr(&hot).contains("600 °C; it must lie from"), "{}", stderr(&hot));
    assert_eq!(home.run(&["calc", "tilt"]).status.code(), Some(64));
}
