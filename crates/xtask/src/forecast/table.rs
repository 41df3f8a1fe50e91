//! The tables that `cargo xtask score` prints, in Markdown, as they stand in docs/gate.md.

use std::collections::BTreeMap;

use super::figures::{interval_score, mean};
use super::score::{ALPHA, Case, point_interval_score, summary};

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
    let share = |n: usize, of: usize| 100.0 * n as f64 / of.max(1) as f64;
    println!(
        "\nIn the 80 % interval: {:.0} % of {}.",
        share(covered.iter().filter(|c| **c).count(), covered.len()),
        covered.len()
    );
    let windows: Vec<_> = cases.iter().filter_map(|c| c.window).collect();
    let long = |which: usize| {
        windows
            .iter()
            .filter(|(promised, really)| promised.get(which).is_some_and(|p| *p > 1.2 * really))
            .count()
    };
    println!(
        "Of {} windows, seen at their opening, promised over 20 % too long: {:.0} % by the interval's low end, {:.0} % by its median.",
        windows.len(),
        share(long(0), windows.len()),
        share(long(1), windows.len())
    );
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
