//! One recorded warm-up as the gate saw it: temperature, guard and verdicts, and when it said the band would open.

use events::Verdict;
use plotters::prelude::*;

use super::paper::{Axis, GREY, PALE, Paper, WRITING, chart, filled, line, on_paper, said, text, whole};
use crate::forecast::{Recording, climbs, fit, read};

/// One row of the recording and what the gate said there.
struct Said {
    t: f64,
    shown: f64,
    /// °C and its standard uncertainty, K.
    estimate: Option<(f64, f64)>,
    verdict: Verdict,
    /// Low, median and high end of `opens_in`, s.
    opens: Option<[f64; 3]>,
}

/// Above: display, estimate, band, guard and verdicts. Below: `opens_in` against how long it really took.
pub fn draw() -> Result<String, String> {
    let all = read(&climbs())?;
    let recording = all.iter().find(|r| r.name == RECORDING).ok_or("the recording is gone")?;
    let rows = said_of(recording, &all);
    on_paper((760, 560), |paper| {
        let (above, below) = paper.split_vertically(350);
        temperature(&above, &rows)?;
        ahead(&below, &rows)
    })
}

/// The gate's words, row by row, with rates that this day had no part in.
fn said_of(recording: &Recording, all: &[Recording]) -> Vec<Said> {
    let learned = fit(&all.iter().filter(|r| r.day != recording.day).collect::<Vec<_>>());
    let mut rows = Vec::new();
    recording.replay(BAND, &learned, |_, row, gate| {
        let judged = gate.judge(row.at(), &[]);
        let opens = gate.band_ahead(row.at()).opens_in.map(|i| [i.low, i.median, i.high]);
        let estimate = judged.estimate.map(|e| (e.celsius.to_f64(), e.u.to_f64()));
        rows.push(Said { t: row.t, shown: row.coolant, estimate, verdict: judged.verdict, opens });
    });
    rows.retain(|row| row.t <= LAST);
    rows
}

fn temperature(paper: &Paper<'_>, rows: &[Said]) -> Result<(), String> {
    let x = Axis { range: 0.0..LAST, shows: "", room: 22, labels: None, label: whole };
    let y = Axis { range: 18.0..64.0, shows: "coolant, °C", room: 52, labels: None, label: whole };
    let mut chart = chart(paper, 10, x, y)?;
    chart.draw_series([Rectangle::new([(0.0, BAND[0]), (LAST, BAND[1])], filled(PALE))]).map_err(said)?;
    for (edge, k) in [(BAND[0], 2.0), (BAND[1], -2.0)] {
        let guard = rows.iter().filter_map(|row| Some((row.t, edge + k * row.estimate?.1)));
        chart.draw_series(LineSeries::new(every_other(guard), line(BLACK, 1))).map_err(said)?;
    }
    chart.draw_series(LineSeries::new(steps(rows), line(GREY, 4))).map_err(said)?;
    let estimate = rows.iter().filter_map(|row| Some((row.t, row.estimate?.0)));
    chart.draw_series(LineSeries::new(every_other(estimate), line(BLACK, 1))).map_err(said)?;
    let words = [
        (8.0, 43.5, "band, and within it the guard of 2 u"),
        (LAST * 0.72, 32.5, "grey: as shown"),
        (LAST * 0.72, 30.0, "black: estimate"),
    ];
    chart.draw_series(words.map(|(t, c, word)| Text::new(word, (t, c), text(WRITING)))).map_err(said)?;
    for (from, to, verdict) in spans(rows) {
        let (surface, ink) = match verdict {
            Verdict::Go => (BLACK, WHITE),
            Verdict::Wait => (WHITE, BLACK),
            Verdict::TooHot => (GREY, WHITE),
        };
        let corners = [(from, 59.0), (to, 63.0)];
        chart
            .draw_series([Rectangle::new(corners, filled(surface)), Rectangle::new(corners, line(BLACK, 1))])
            .map_err(said)?;
        if to - from >= SHORTEST_WORD {
            let style = text(WRITING).color(&ink);
            chart.draw_series([Text::new(verdict.word(), (from + 3.0, 62.4), style)]).map_err(said)?;
        }
    }
    Ok(())
}

fn ahead(paper: &Paper<'_>, rows: &[Said]) -> Result<(), String> {
    let x = Axis {
        range: 0.0..LAST,
        shows: "s from the start of the recording",
        room: 38,
        labels: None,
        label: whole,
    };
    let y = Axis { range: 0.0..MOST_AHEAD, shows: "opens in, s", room: 52, labels: Some(5), label: whole };
    let mut chart = chart(paper, 10, x, y)?;
    let promised: Vec<(f64, [f64; 3])> =
        every_other(rows.iter().filter_map(|row| Some((row.t, row.opens?)))).collect();
    let low = promised.iter().map(|(t, [low, ..])| (*t, *low));
    let high = promised.iter().rev().map(|(t, [.., high])| (*t, high.min(MOST_AHEAD)));
    chart.draw_series([Polygon::new(low.chain(high).collect::<Vec<_>>(), filled(PALE))]).map_err(said)?;
    let median = promised.iter().map(|(t, [_, median, _])| (*t, *median));
    chart.draw_series(LineSeries::new(median, line(BLACK, 2))).map_err(said)?;
    let opened = rows.iter().find(|row| row.shown >= BAND[0]).map_or(LAST, |row| row.t);
    let truth = [(0.0_f64.max(opened - MOST_AHEAD), MOST_AHEAD.min(opened)), (opened, 0.0)];
    chart.draw_series(LineSeries::new(truth, line(GREY, 1))).map_err(said)?;
    let words = [
        (LAST * 0.5, MOST_AHEAD * 0.92, "surface: the interval of 80 %"),
        (LAST * 0.5, MOST_AHEAD * 0.80, "black: its median"),
        (LAST * 0.5, MOST_AHEAD * 0.68, "grey: how long it really took"),
    ];
    chart.draw_series(words.map(|(t, s, word)| Text::new(word, (t, s), text(WRITING)))).map_err(said)?;
    Ok(())
}

/// What the display did, as steps.
fn steps(rows: &[Said]) -> Vec<(f64, f64)> {
    let mut corners = Vec::new();
    let mut before = None;
    for row in rows {
        if before != Some(row.shown) {
            corners.extend(before.map(|before| (row.t, before)));
            corners.push((row.t, row.shown));
            before = Some(row.shown);
        }
    }
    corners.extend(before.zip(rows.last()).map(|(shown, last)| (last.t, shown)));
    corners
}

/// From when to when each verdict stood.
fn spans(rows: &[Said]) -> Vec<(f64, f64, Verdict)> {
    let mut spans: Vec<(f64, f64, Verdict)> = Vec::new();
    for row in rows {
        match spans.last_mut() {
            Some((_, to, verdict)) if *verdict == row.verdict => *to = row.t,
            last => {
                let from = last.map_or(0.0, |(_, to, _)| {
                    *to = row.t;
                    row.t
                });
                spans.push((from, row.t, row.verdict));
            }
        }
    }
    spans
}

fn every_other<T>(points: impl Iterator<Item = T>) -> impl Iterator<Item = T> {
    points.step_by(2)
}

const RECORDING: &str = "2018-03-08-rt-s-normal";
const BAND: [f64; 2] = [35.0, 50.0];
/// To here, s.
const LAST: f64 = 480.0;
const MOST_AHEAD: f64 = 400.0;
/// A verdict that stood for less has no room for its word, s.
const SHORTEST_WORD: f64 = 40.0;
