//! The parameters of the procedures in a sheet: what a silent sheet means, what is taken, what is refused and how.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "test code")]

use events::{LookEngine, LookGate, LookOpen, Right, Rim, Sheet};

const PIPE: &str = include_str!("../../../fixtures/sheets/demo-six-speed.toml");

/// The six-speed without its pipe, with other tables behind it.
fn without_pipe(rim: &str, more: &str) -> String {
    let (head, tail) = PIPE.split_once("[standpipe]").unwrap();
    let (_, tail) = tail.split_once("[torque_nm]").unwrap();
    format!("{head}[level]\nrim = \"{rim}\"\n\n{more}\n[torque_nm]{tail}")
}

fn with(more: &str) -> String {
    format!("{PIPE}\n{more}")
}

fn guessed(key: &str) -> String {
    PIPE.replacen("sheet = 1", &format!("sheet = 1\nguessed = [\"{key}\"]"), 1)
}

#[test]
fn keys_and_whole_tables_may_be_called_guessed() {
    for key in [
        "standpipe.surface_m2",
        "standpipe",
        "look.ml_per_mm",
        "level.gush_ml",
        "vehicle",
        "before.selector",
        "torque_nm.fill_port",
    ] {
        let sheet = Sheet::parse(&guessed(key)).unwrap_or_else(|e| panic!("{key}: {e}"));
        assert_eq!(sheet.guessed, [key]);
    }
}

fn said(text: &str) -> String {
    Sheet::parse(text).expect_err("no sheet").to_string()
}

#[test]
fn a_silent_sheet_has_one_look_with_the_engine_idling_inside_the_band() {
    let sheet = Sheet::parse(PIPE).unwrap();
    let [look] = sheet.looks().try_into().unwrap();
    let look: events::Look = look;
    assert_eq!((look.engine, look.gate, look.open), (LookEngine::Idle, LookGate::Band, LookOpen::InBand));
    assert_eq!((look.right, look.wait_from_s(), look.wait_to_s()), (Right::Trickle, 0, None));
    assert_eq!(sheet.fluid.portion_ml(), 470.0, "the margin");
    // 10 mm bore, 60 mm long: 4.7 mL, and the pocket behind the plug.
    assert!((40.0..60.0).contains(&sheet.gush_ml()), "{}", sheet.gush_ml());
    assert!(!toml::to_string(&sheet).unwrap().contains("look"), "what was not written is not written out");
}

#[test]
fn each_parameter_is_read_and_written_out_again() {
    let text = with(
        "[[look]]\nengine = \"off\"\ngate = \"none\"\nopen = \"any\"\nthen_add_ml = 1200\n[[look]]\nposition = \"N\"\nwait_s = [60, 180]\n[level]\ngush_ml = 30\nwave = { every_s = 30 }\n",
    );
    let text = text
        .replace("margin_ml = 470", "margin_ml = 0\nportion_ml = 400\nml_per_k = -3.5")
        .replace("k = 2.0", "k = 2.0\nhot_band_c = [40, 50]\nhot_from_air_c = 32\nstart_below_c = 30");
    let sheet = Sheet::parse(&text).unwrap();
    let looks = sheet.looks();
    assert_eq!(looks.len(), 2);
    assert_eq!((looks[0].engine, looks[0].then_add_ml), (LookEngine::Off, 1200.0));
    assert_eq!(looks[1].position.as_deref(), Some("N"));
    assert_eq!((looks[1].wait_from_s(), looks[1].wait_to_s()), (60, Some(180)));
    assert_eq!((sheet.fluid.portion_ml(), sheet.gush_ml()), (400.0, 30.0));
    assert_eq!(sheet.level.wave.map(|w| w.every_s), Some(30.0));
    let again = toml::to_string(&sheet).unwrap();
    assert_eq!(Sheet::parse(&again), Ok(sheet));
}

#[test]
fn one_temperature_becomes_a_band_that_says_how_wide_it_is() {
    let sheet = Sheet::parse(&PIPE.replace("[35.0, 45.0]", "[40.0, 40.0]")).unwrap();
    assert_eq!((sheet.check.band_c, sheet.check.single_u_c), ([38.0, 42.0], Some(2.0)));
    let wider = PIPE.replace("[35.0, 45.0]", "[40.0, 40.0]\nsingle_u_c = 3");
    let sheet = Sheet::parse(&wider).unwrap();
    assert_eq!(sheet.check.band_c, [37.0, 43.0]);
    let again = toml::to_string(&sheet).unwrap();
    assert_eq!(Sheet::parse(&again), Ok(sheet), "written out and read again");
}

#[test]
fn a_hole_needs_no_pipe_and_what_was_made_up_for_it_is_named_as_guessed() {
    for rim in ["side-hole", "fill-hole"] {
        let sheet = Sheet::parse(&without_pipe(rim, "")).unwrap();
        assert_eq!(sheet.guessed, ["standpipe"], "{rim}");
        assert_eq!(sheet.gush_ml(), 0.0, "nothing stands above the plug of a hole");
        let again = toml::to_string(&sheet).unwrap();
        assert_eq!(Sheet::parse(&again), Ok(sheet));
    }
    let amount = Sheet::parse(&without_pipe("none", "")).unwrap();
    assert_eq!((amount.level.rim, amount.looks()[0].right), (Rim::None, Right::Amount));
    assert!(amount.guessed.is_empty(), "no surface is needed");
    let pipe = without_pipe("pipe", "");
    assert!(said(&pipe).contains("`level.rim` is \"pipe\" without a table [standpipe]"), "{}", said(&pipe));
}

const CHART: &str = "[[20, 26, 36], [40, 32, 42], [60, 40, 50]]";

fn chart(rows: &str) -> String {
    format!("[[look]]\nright = \"chart\"\nchart = {rows}\nml_per_mm = 20")
}

/// The six-speed with a gauge in a sealed tube.
fn gauge(more: &str) -> String {
    without_pipe("gauge\"\nfill_from = \"gauge-tube", more)
}

#[test]
fn a_chart_is_read_in_straight_lines_between_its_rows_and_nowhere_else() {
    let sheet = Sheet::parse(&gauge(&chart(CHART))).unwrap();
    let [look] = sheet.looks().try_into().unwrap();
    let look: events::Look = look;
    let cases: &[(&str, f64, Option<[f64; 3]>)] = &[
        // what                 °C     low   high  mm a kelvin
        ("the coldest row", 20.0, Some([26.0, 36.0, 0.3])),
        ("between two", 30.0, Some([29.0, 39.0, 0.3])),
        ("steeper above", 50.0, Some([36.0, 46.0, 0.4])),
        ("the hottest row", 60.0, Some([40.0, 50.0, 0.4])),
        ("colder than any", 19.9, None),
        ("hotter than any", 60.1, None),
        ("no temperature", f64::NAN, None),
    ];
    for (what, celsius, want) in cases {
        let got = look.chart_at(*celsius).map(|at| [at.low_mm, at.high_mm, at.mm_per_k]);
        let near = |[a, b]: [[f64; 3]; 2]| a.iter().zip(b).all(|(a, b)| (a - b).abs() < 1e-9);
        assert!(
            got.zip(*want).map_or(got.is_none() && want.is_none(), |(a, b)| near([a, b])),
            "{what}: {got:?}"
        );
    }
    assert_eq!(look.chart_at(30.0).unwrap().middle_mm(), 34.0);
    assert_eq!(sheet.guessed, ["standpipe"], "the surface in the sump was made up");
    assert_eq!(Sheet::parse(&toml::to_string(&sheet).unwrap()), Ok(sheet), "written out and read again");
}

#[test]
fn what_no_procedure_has_is_refused_with_its_place_and_what_is_right() {
    let hole = |more: &str| without_pipe("fill-hole", more);
    let cases: &[(&str, String, &str)] = &[
        (
            "a misspelt key",
            with("[[look]]\nengin = \"off\""),
            "unknown key `look[].engin`; did you mean `engine`?",
        ),
        ("a sign that there is not", with("[[look]]\nright = \"dry\""), "unknown variant `dry`"),
        ("too many", with(&"[[look]]\n".repeat(4)), "`look` is 4 looks; it must be at most 3 looks"),
        ("a gauge without its chart", without_pipe("gauge", ""), "\"chart\" where level.rim is \"gauge\""),
        (
            "a chart without a gauge",
            with(&chart(CHART)),
            "`look[1].right` is \"chart\"; it must be \"chart\" where",
        ),
        (
            "no rows",
            gauge("[[look]]\nright = \"chart\"\nml_per_mm = 20"),
            "`look[1].chart` is 0 rows; it must be there",
        ),
        ("rows without a gauge", with(&format!("[[look]]\nchart = {CHART}")), "and only there"),
        ("one row", gauge(&chart("[[40, 32, 42]]")), "2 to 24 rows, each warmer than the one before"),
        ("rows that cool", gauge(&chart("[[60, 38, 48], [20, 26, 36]]")), "each warmer than the one before"),
        ("rows alike", gauge(&chart("[[20, 26, 36], [20, 26, 36]]")), "each warmer than the one before"),
        ("high first", gauge(&chart("[[20, 36, 26], [60, 38, 48]]")), "the lower one first"),
        (
            "millilitres left out",
            gauge(&format!("[[look]]\nright = \"chart\"\nchart = {CHART}")),
            "`look[1].ml_per_mm` is missing",
        ),
        ("no millilitres", gauge(&chart(CHART).replace("= 20", "= 0")), "1 to 300 mL a millimetre"),
        (
            "a band beyond the chart",
            gauge(&chart("[[38, 26, 36], [60, 38, 48]]")),
            "`check.band_c` is [35.0, 45.0] °C; it must be inside the temperatures of the chart, 38 to 60 °C",
        ),
        (
            "a hot band beyond the chart",
            gauge(&chart("[[20, 26, 36], [45, 38, 48]]"))
                .replace("k = 2.0", "hot_band_c = [40, 50]\nhot_from_air_c = 32"),
            "`check.hot_band_c` is [40.0, 50.0] °C; it must be inside the temperatures of the chart",
        ),
        (
            "a chart at rest",
            gauge(&(chart(CHART) + "\nengine = \"off\"")),
            "\"idle\" where right is \"chart\"",
        ),
        (
            "a chart without a band",
            gauge(&(chart(CHART) + "\ngate = \"none\"")),
            "\"band\" where right is \"chart\"",
        ),
        (
            "two gauges",
            gauge(&(chart(CHART) + "\n" + &chart(CHART))),
            "one look where level.rim is \"gauge\"",
        ),
        (
            "a gauge filled from below",
            gauge(&chart(CHART)).replace("gauge-tube", "check-port"),
            "\"gauge-tube\" or \"upper-port\"",
        ),
        (
            "a tube without a gauge",
            with("[level]\nfill_from = \"gauge-tube\""),
            "and \"gauge-tube\" only there",
        ),
        (
            "idling after a drive",
            with("[[look]]\nafter_drive = true"),
            "with the engine off and gate = \"none\"",
        ),
        (
            "a stream with the engine off",
            with("[[look]]\nengine = \"off\""),
            "`look[1].right` is \"trickle\"; it must be \"lower-edge\"",
        ),
        (
            "no band at the last",
            with("[[look]]\n[[look]]\ngate = \"none\""),
            "`look[2].gate` is \"none\"; it must be \"band\" at the last look",
        ),
        (
            "an edge of a pipe",
            with("[[look]]\nengine = \"off\"\nright = \"lower-edge\""),
            "seen in a hole only",
        ),
        ("an edge with the engine on", hole("[[look]]\nright = \"lower-edge\""), "and with the engine off"),
        ("no millimetres", hole("[[look]]\nengine = \"off\"\nright = \"below-edge-mm\""), "`look[1].mm` is"),
        (
            "upside down",
            hole("[[look]]\nengine = \"off\"\nright = \"below-edge-mm\"\nmm = [5, 0]"),
            "0 to 50 mm below the edge",
        ),
        (
            "an amount with a rim",
            hole("[[look]]\nengine = \"off\"\nright = \"amount\""),
            "where level.rim is \"none\", and only there",
        ),
        ("drips at once", with("[[look]]\nopen = \"at-low-edge\""), "where right is \"first-drips\""),
        (
            "ready off with an engine",
            hole("[[look]]\nengine = \"ready-off\"\nright = \"lower-edge\""),
            "where level.drive is \"engine\"",
        ),
        ("idling without an engine", with("[level]\ndrive = \"none\""), "where level.drive is \"none\""),
        ("filled after the last", with("[[look]]\nthen_add_ml = 300"), "nothing is filled after it"),
        ("a wait that ends first", with("[[look]]\nwait_s = [90, 60]"), "the smaller one first"),
        ("a position of another box", with("[[look]]\nposition = \"M\""), "one of before.selector.positions"),
        (
            "a hot band alone",
            PIPE.replace("k = 2.0", "hot_band_c = [40, 50]"),
            "together with check.hot_from_air_c",
        ),
        (
            "half a width of a band",
            PIPE.replace("k = 2.0", "single_u_c = 2"),
            "left out where check.band_c has two temperatures",
        ),
        (
            "a start above the band",
            PIPE.replace("k = 2.0", "start_below_c = 60"),
            "no higher than the high edge",
        ),
        ("litres", PIPE.replace("margin_ml = 470", "margin_ml = 470\nportion_ml = 0.5"), "20 to 3000 mL"),
        ("a wave each second", with("[level]\nwave = { every_s = 1 }"), "5 to 300 s"),
        ("a guess of what no sheet has", guessed("standpipe.surface"), "`guessed` is \"standpipe.surface\""),
        ("a guess of a lone word", guessed("surface_m2"), "it must be keys of the sheet"),
    ];
    for (what, text, want) in cases {
        let said = said(text);
        assert!(said.contains(want), "{what}: {said}");
        assert!(said.starts_with("line "), "{what}: says where: {said}");
    }
}

#[test]
fn the_fault_of_the_second_look_is_found_at_the_second_look() {
    let text =
        with("[[look]]\nengine = \"off\"\ngate = \"none\"\nopen = \"any\"\n\n[[look]]\nwait_s = [90, 60]");
    let line = text.lines().position(|l| l.starts_with("wait_s")).unwrap() + 1;
    assert!(said(&text).starts_with(&format!("line {line}, ")), "{}", said(&text));
}
