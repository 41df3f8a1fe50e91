//! What all pictures have in common: white paper, black, greys, one typeface.

use std::ops::Range;

use plotters::coord::Shift;
use plotters::coord::types::RangedCoordf64;
use plotters::prelude::*;

/// Where a picture is drawn.
pub type Paper<'a> = DrawingArea<SVGBackend<'a>, Shift>;

/// Draws on white paper of this size in pixels.
pub fn on_paper(
    size: (u32, u32),
    draw: impl FnOnce(&Paper<'_>) -> Result<(), String>,
) -> Result<String, String> {
    let mut picture = String::new();
    {
        let paper = SVGBackend::with_string(&mut picture, size).into_drawing_area();
        paper.fill(&WHITE).map_err(said)?;
        draw(&paper)?;
        paper.present().map_err(said)?;
    }
    Ok(short(&picture))
}

/// A chart of two plain axes.
pub type Chart<'a> = ChartContext<'a, SVGBackend<'a>, Cartesian2d<RangedCoordf64, RangedCoordf64>>;

/// One axis of a chart.
pub struct Axis {
    /// From where to where.
    pub range: Range<f64>,
    /// What it shows, in which unit; empty below x where the chart underneath says so.
    pub shows: &'static str,
    /// Pixels kept for its labels.
    pub room: u32,
    /// About so many labels; the library's choice where absent.
    pub labels: Option<usize>,
    /// How a label is written.
    pub label: fn(&f64) -> String,
}

/// Axes, grid and labels on `paper`, `margin` pixels from its edges.
pub fn chart<'a>(paper: &Paper<'a>, margin: u32, x: Axis, y: Axis) -> Result<Chart<'a>, String> {
    let mut chart = ChartBuilder::on(paper)
        .margin(margin)
        .x_label_area_size(x.room)
        .y_label_area_size(y.room)
        .build_cartesian_2d(x.range, y.range)
        .map_err(said)?;
    let mut mesh = chart.configure_mesh();
    mesh.max_light_lines(0)
        .x_label_formatter(&x.label)
        .y_label_formatter(&y.label)
        .bold_line_style(FAINT)
        .label_style(text(WRITING))
        .y_desc(y.shows);
    if !x.shows.is_empty() {
        mesh.x_desc(x.shows);
    }
    if let Some(labels) = x.labels {
        mesh.x_labels(labels);
    }
    if let Some(labels) = y.labels {
        mesh.y_labels(labels);
    }
    mesh.draw().map_err(said)?;
    drop(mesh);
    Ok(chart)
}

/// Numbers of full opacity need not be said: it is what a reader of SVG assumes.
fn short(picture: &str) -> String {
    let mut picture = picture.replace(" opacity=\"1\"", "").replace(" stroke=\"none\"", "");
    picture.push('\n');
    picture
}

/// What a failure of drawing says.
pub fn said(error: impl std::fmt::Display) -> String {
    error.to_string()
}

/// A line of this width.
pub fn line(color: RGBColor, width: u32) -> ShapeStyle {
    ShapeStyle { color: color.to_rgba(), filled: false, stroke_width: width }
}

/// A filled surface.
pub fn filled(color: RGBColor) -> ShapeStyle {
    ShapeStyle { color: color.to_rgba(), filled: true, stroke_width: 0 }
}

/// The typeface at this size.
pub fn text<'a>(pixels: u32) -> TextStyle<'a> {
    ("sans-serif", pixels).into_font().color(&BLACK)
}

/// A label without decimals.
pub fn whole(value: &f64) -> String {
    format!("{value:.0}")
}

/// A label with one decimal.
pub fn tenths(value: &f64) -> String {
    format!("{value:.1}")
}

/// Lines that stand back.
pub const GREY: RGBColor = RGBColor(120, 120, 120);
/// Surfaces.
pub const PALE: RGBColor = RGBColor(215, 215, 215);
/// The grid.
pub const FAINT: RGBColor = RGBColor(238, 238, 238);
/// Size of all writing, pixels.
pub const WRITING: u32 = 13;
