//! Recorded warm-ups through the gate, as if they came from the adapter: engine coolant of one driven car.
//!
//! Source of the recordings: `fixtures/warmups` (attribution there). What they can show: whether reading, gating and
//! forecasting work on real, quantised, gappy traces. What they cannot: how a transmission that idles warms up.
//! Golden files: `fixtures/golden/*.verdicts`, each change of the verdict or its reasons. `BLESS=1` writes them again;
//! the commit that changes one says why the new sequence is right.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)] // a test program: its helpers too

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use events::{Check, Measure, Reading, Reason, Signal, Verdict};
use gate::{Gate, Judgement};
use units::{Celsius, Mono};

/// One row of a recording.
struct Row {
    at: Mono,
    coolant: Option<f64>,
    ambient: Option<f64>,
}

/// One judgement of a replay, and what the recording said last.
struct Said {
    at: Mono,
    shown: f64,
    judgement: Judgement,
}

#[test]
fn verdicts_on_recorded_warm_ups_are_the_reviewed_ones() {
    let cases = [
        ("2017-07-28-ka-ka-normal", [35.0, 45.0]),
        ("2017-07-14-ka-ka-frei", [35.0, 45.0]),
        ("2017-07-10-ka-ka-stau", [35.0, 45.0]),
        ("2018-02-23-s-s-stau", [60.0, 80.0]),
        ("2018-03-20-ka-ka-normal", [35.0, 50.0]),
    ];
    for (name, band) in cases {
        let got = sequence(name, band);
        let path = fixtures().join("golden").join(format!("{name}.verdicts"));
        if std::env::var_os("BLESS").is_some() {
            fs::write(&path, &got).unwrap();
        }
        let want = fs::read_to_string(&path).unwrap_or_default();
        assert_eq!(got, want, "{name}: run with BLESS=1 and review the difference");
    }
}

#[test]
fn no_recording_ever_gets_go_outside_the_band() {
    for name in names() {
        for band in [[35.0, 45.0], [45.0, 55.0], [60.0, 75.0], [78.0, 88.0]] {
            for said in replay(&name, band) {
                let inside = (band[0]..=band[1]).contains(&said.shown);
                assert!(inside || said.judgement.verdict != Verdict::Go, "{name} {band:?} at {}", said.at);
            }
        }
    }
}

#[test]
fn every_recording_that_passes_a_wide_band_gets_go_in_it() {
    for name in names().into_iter().filter(|name| !name.starts_with("2017-07-10")) {
        let said = replay(&name, [35.0, 55.0]);
        assert!(said.iter().any(|s| s.judgement.verdict == Verdict::Go), "{name}");
    }
}

#[test]
fn after_a_pause_the_gate_waits_until_fresh_readings_agree() {
    // This recording pauses for up to 62 s in the middle of the warm-up.
    let said = replay("2017-07-14-ka-ka-frei", [20.0, 75.0]);
    let mut pauses = 0;
    for (before, after) in said.iter().zip(said.iter().skip(1)) {
        if after.judgement.reasons.contains(&Reason::Stale)
            && !before.judgement.reasons.contains(&Reason::Stale)
        {
            pauses += 1;
            let fresh = said
                .iter()
                .find(|s| s.at > after.at && !s.judgement.reasons.contains(&Reason::Stale))
                .unwrap();
            assert_ne!(
                fresh.judgement.verdict,
                Verdict::Go,
                "at {}, the first reading after a pause",
                fresh.at
            );
        }
    }
    assert!(pauses >= 1, "the recording has pauses");
}

#[test]
fn a_hot_start_is_too_hot_from_the_first_reading_on() {
    let said = replay("2017-07-10-ka-ka-stau", [35.0, 45.0]);
    assert!(said.len() > 1_000);
    for s in &said {
        assert_eq!(s.judgement.verdict, Verdict::TooHot, "at {}", s.at);
        assert_eq!(s.judgement.reasons.first(), Some(&Reason::AboveBand), "at {}", s.at);
        let back = s.judgement.forecast.and_then(|f| f.back_in).unwrap();
        assert!(back.low > 1_800.0 && back.high < 5.0 * 3_600.0, "{back:?}");
    }
}

/// Every judgement of a replay: at each row, and at each deadline between rows.
fn replay(name: &str, band_c: [f64; 2]) -> Vec<Said> {
    let check = Check::of(Signal::Coolant, band_c);
    let mut gate = Gate::new(&check, None);
    let mut all: Vec<Said> = Vec::new();
    for row in rows(name) {
        while let Some((deadline, last)) = gate.next_deadline().zip(all.last()).filter(|(d, _)| *d < row.at) {
            let shown = last.shown;
            all.push(Said { at: deadline, shown, judgement: gate.judge(deadline, &[]) });
        }
        let mut observe =
            |measure| gate.observe(&Reading { measure, step: None, from: None, age_ms: 0 }, row.at);
        if let Some(t) = row.ambient {
            observe(Measure::AmbientAir(Celsius::from_f64(t).unwrap()));
        }
        let Some(shown) = row.coolant.or(all.last().map(|s| s.shown)) else { continue };
        if let Some(t) = row.coolant {
            observe(Measure::Coolant(Celsius::from_f64(t).unwrap()));
        }
        all.push(Said { at: row.at, shown, judgement: gate.judge(row.at, &[]) });
    }
    all
}

/// The golden text: one line for each change of the verdict or its reasons.
fn sequence(name: &str, band: [f64; 2]) -> String {
    let mut text =
        format!("# {name}.csv, signal coolant, band {} to {} degrees C, k = 2\n", band[0], band[1]);
    text.push_str("#    t_s  shown  estimate    u  verdict  reasons\n");
    let mut before = None;
    for Said { at, shown, judgement } in replay(name, band) {
        let now = (judgement.verdict, judgement.reasons);
        if before.as_ref() == Some(&now) {
            continue;
        }
        let (t, u) =
            judgement.estimate.map_or(("-".into(), "-".into()), |e| (e.celsius.to_string(), e.u.to_string()));
        let reasons: Vec<&str> = judgement.reasons.iter().map(|r| r.word()).collect();
        let seconds = at.as_secs_f64();
        let verdict = judgement.verdict.word();
        writeln!(text, "{seconds:8.1}  {shown:5.1}  {t:>8}  {u:>3}  {verdict:<7}  {}", reasons.join(" "))
            .unwrap();
        before = Some(now);
    }
    text
}

fn rows(name: &str) -> Vec<Row> {
    let path = fixtures().join("warmups").join(format!("{name}.csv"));
    let mut reader = csv::Reader::from_path(path).unwrap();
    let header = reader.headers().unwrap().clone();
    let column = |name: &str| header.iter().position(|h| h == name).unwrap();
    let (t, coolant, ambient) = (column("t_s"), column("coolant_c"), column("ambient_c"));
    reader
        .records()
        .map(Result::unwrap)
        .map(|record| {
            let number = |i: usize| record.get(i).and_then(|field| field.parse::<f64>().ok());
            Row {
                at: Mono::from_millis((number(t).unwrap() * 1_000.0) as u64),
                coolant: number(coolant),
                ambient: number(ambient),
            }
        })
        .collect()
}

fn names() -> Vec<String> {
    let files = fs::read_dir(fixtures().join("warmups")).unwrap().map(|entry| entry.unwrap().path());
    let mut names: Vec<String> = files
        .filter(|path| path.extension().is_some_and(|e| e == "csv") && !path.ends_with("index.csv"))
        .map(|path| path.file_stem().unwrap().to_string_lossy().into_owned())
        .collect();
    names.sort();
    assert!(names.len() >= 5, "{names:?}");
    names
}

fn fixtures() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fixtures")
}
