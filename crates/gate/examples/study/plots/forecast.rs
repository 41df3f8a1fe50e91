//! Every climb of the score: the seconds it took against those that were forecast at its foot.

use plotters::prelude::*;

use super::paper::{FAINT, GREY, Paper, WRITING, filled, line, on_paper, said, text, whole};
use crate::forecast::{Case, Fitted, TARGETS, cases, climbs, read};

/// Both groups side by side: a dot at the median, a bar from the low to the high end of the interval.
pub fn draw() -> Result<String, String> {
    let cases = cases(&read(&climbs())?, Fitted::OnOtherDays)?;
    on_paper((760, 400), |paper| {
        let (left, right) = paper.split_horizontally(380);
        for ((half, targets), title) in [left, right].iter().zip(TARGETS).zip(TITLES) {
            let group: Vec<&Case> = cases.iter().filter(|case| targets.contains(&case.to)).collect();
            climbs_on(half, title, &group)?;
        }
        Ok(())
    })
}

fn climbs_on(paper: &Paper<'_>, title: &str, cases: &[&Case]) -> Result<(), String> {
    let mut chart = ChartBuilder::on(paper)
        .margin(10)
        .caption(title, text(WRITING + 2))
        .x_label_area_size(38)
        .y_label_area_size(48)
        .build_cartesian_2d(
            (LEAST..MOST).log_scale().with_key_points(SECONDS.to_vec()),
            (LEAST..MOST).log_scale().with_key_points(SECONDS.to_vec()),
        )
        .map_err(said)?;
    chart
        .configure_mesh()
        .max_light_lines(0)
        .x_label_formatter(&whole)
        .y_label_formatter(&whole)
        .bold_line_style(FAINT)
        .label_style(text(WRITING))
        .x_desc("took, s")
        .y_desc("forecast, s")
        .draw()
        .map_err(said)?;
    chart.draw_series(LineSeries::new([(LEAST, LEAST), (MOST, MOST)], line(BLACK, 1))).map_err(said)?;
    let promised = cases.iter().filter_map(|case| Some((case.truth, case.gate?)));
    let bars = promised.clone().map(|(truth, [low, _, high])| {
        PathElement::new([(truth, low.max(LEAST)), (truth, high.min(MOST))], line(GREY, 1))
    });
    chart.draw_series(bars).map_err(said)?;
    let dots = promised.map(|(truth, [_, median, _])| Circle::new((truth, median), 2, filled(BLACK)));
    chart.draw_series(dots).map_err(said)?;
    Ok(())
}

const TITLES: [&str; 2] = ["to 35, 40, 45 °C", "to 60, 70, 80 °C"];
const SECONDS: [f64; 6] = [20.0, 50.0, 100.0, 200.0, 500.0, 1_000.0];
/// Both axes, s.
const LEAST: f64 = 20.0;
const MOST: f64 = 1_000.0;
