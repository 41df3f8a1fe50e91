//! The tables that `cargo xtask score` prints, in Markdown, as they stand in docs/gate.md.

use std::collections::BTreeMap;

use super::figures::{DRAWINGS, interval_score, mean, quantile, redrawn};
use super::score::{ALPHA, Case, Window, point_interval_score, summary};

/// One group of targets: each forecaster a row, then coverage and windows.
pub fn group(cases: &[&Case], targets: &[f64]) {
    println!("\n{} climbs of 10 °C up to {targets:?} °C\n", cases.len());
    println!(
        "| forecaster | median error, s | 90th percentile, s | no forecast | interval score, s |\n| --- | --- | --- | --- | --- |"
    );
    for (which, name) in
        ["straight line, 60 s", "exponential approach, 300 s", "table of rates"].iter().enumerate()
    {
        let errors: Vec<_> =
            cases.iter().map(|c| c.baselines.get(which).copied().flatten().map(|p| p - c.truth)).collect();
        let s = summary(&errors);
        let score = point_interval_score(cases, which);
        println!("| {name} | {:.0} | {:.0} | {:.0} % | {score:.0} |", s.median, s.p90, 100.0 * s.none);
    }
    let s = summary(&cases.iter().map(|c| c.error()).collect::<Vec<_>>());
    let scores: Vec<f64> = cases
        .iter()
        .filter_map(|c| c.gate.map(|[low, _, high]| interval_score(low, high, c.truth, ALPHA)))
        .collect();
    println!(
        "| **the gate** | **{:.0}** | **{:.0}** | {:.0} % | **{:.0}** |",
        s.median,
        s.p90,
        100.0 * s.none,
        mean(&scores)
    );
    let covered: Vec<bool> = cases.iter().filter_map(|c| c.covered()).collect();
    let early: Vec<bool> = cases.iter().filter_map(|c| c.error()).map(|error| error > 0.0).collect();
    let along: Vec<f64> = cases.iter().filter(|c| !c.along.is_empty()).map(|c| share(&c.along)).collect();
    println!(
        "\nIn the 80 % interval: {:.0} % of {}; asked at every second of the climb: {:.0} %. Sooner than the median: {:.0} %.",
        share(&covered),
        covered.len(),
        mean(&along),
        share(&early)
    );
    against_the_table(cases);
    windows(cases);
}

/// How sure the comparison with the table is: days drawn anew with replacement.
fn against_the_table(cases: &[&Case]) {
    let mut days: BTreeMap<&str, Vec<[f64; 2]>> = BTreeMap::new();
    for case in cases {
        if let (Some(error), [.., Some(table)]) = (case.error(), case.baselines) {
            days.entry(case.day()).or_default().push([error.abs(), (table - case.truth).abs()]);
        }
    }
    let days: Vec<Vec<[f64; 2]>> = days.into_values().collect();
    let better = |q: f64| {
        let gain = |drawn: &[[f64; 2]]| {
            let of = |which: usize| {
                quantile(&drawn.iter().filter_map(|e| e.get(which).copied()).collect::<Vec<_>>(), q)
            };
            100.0 * (of(0) / of(1) - 1.0)
        };
        let gains = redrawn(&days, gain);
        format!(
            "{:+.0} ({:+.0} to {:+.0}) %",
            gain(&days.concat()),
            quantile(&gains, 0.1),
            quantile(&gains, 0.9)
        )
    };
    println!(
        "\nAgainst the table (in brackets eight in ten of {DRAWINGS} drawings of the days): median {}, 90th percentile {}.",
        better(0.5),
        better(0.9)
    );
}

/// How often a window was promised more than 20 % too long, by which end of the interval, held against what.
fn windows(cases: &[&Case]) {
    let windows: Vec<Window> = cases.iter().filter_map(|c| c.window).collect();
    println!(
        "\n| window, seen at its opening | promised over 20 % too long by the low end | by the median |\n| --- | --- | --- |"
    );
    let kinds = [
        ("until the gate closes, a degree below the edge", Window::closed as fn(&Window) -> Option<f64>),
        ("until the recorded value has left the band", Window::left),
    ];
    for (what, really) in kinds {
        let long = |which: usize| {
            let known = windows.iter().filter_map(|w| Some((w.promised.get(which)?, really(w)?)));
            let long: Vec<bool> = known.map(|(promised, really)| *promised > 1.2 * really).collect();
            (share(&long), long.len())
        };
        let ((low, of), (median, _)) = (long(0), long(1));
        println!("| {what} ({of}) | {low:.0} % | {median:.0} % |");
    }
}

/// The share that is true, in per cent.
fn share(flags: &[bool]) -> f64 {
    100.0 * flags.iter().filter(|flag| **flag).count() as f64 / flags.len().max(1) as f64
}

/// Each recording a row.
pub fn by_log(cases: &[Case]) {
    let mut logs: BTreeMap<&str, Vec<&Case>> = BTreeMap::new();
    for case in cases {
        logs.entry(&case.name).or_default().push(case);
    }
    println!(
        "\n| log | climbs | mean error, s | largest, s | in the interval |\n| --- | --- | --- | --- | --- |"
    );
    for (name, cases) in logs {
        let errors: Vec<f64> = cases.iter().filter_map(|c| c.error()).collect();
        let sizes: Vec<f64> = errors.iter().map(|e| e.abs()).collect();
        let inside = cases.iter().filter(|c| c.covered() == Some(true)).count();
        println!(
            "| {name} | {} | {:+.0} | {:.0} | {inside} of {} |",
            cases.len(),
            mean(&errors),
            sizes.iter().copied().fold(0.0, f64::max),
            errors.len()
        );
    }
}

/// The worst ten.
pub fn worst(cases: &[Case]) {
    let mut worst: Vec<&Case> = cases.iter().filter(|c| c.error().is_some()).collect();
    worst.sort_by(|a, b| b.error().unwrap_or(0.0).abs().total_cmp(&a.error().unwrap_or(0.0).abs()));
    println!("\n| worst | to, °C | took, s | forecast, s |\n| --- | --- | --- | --- |");
    for case in worst.iter().take(10) {
        if let Some([low, median, high]) = case.gate {
            println!(
                "| {} | {:.0} | {:.0} | {median:.0} ({low:.0} to {high:.0}) |",
                case.name, case.to, case.truth
            );
        }
    }
}
