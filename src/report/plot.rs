//! The drawings of a report: the pipe at the head, temperature over time, the balance as bars.
//!
//! In: the record. Out: SVG, black on white, each with its words beside it for people who do not see it. Not here: the page
//! around them (`html.rs`).

use maud::{Markup, html};
use units::Celsius;
use units::text::UnitSystem;
use words::args;

use super::record::{Point, Record};
use super::say::Reader;

impl Reader {
    /// A temperature as a bare whole number on the scale that is read.
    fn degree(&self, value: f64) -> String {
        format!("{:.0}", self.speech.units.degrees(Celsius::clamped(value)))
    }

    /// The pipe, small: band as a bracket, crossbar where the port was closed.
    pub fn pipe(&self, record: &Record) -> Markup {
        let Some(sheet) = &record.sheet else { return html! { div {} } };
        let (low, high) = (sheet.check.low().to_f64(), sheet.check.high().to_f64());
        let y = |t: f64| 8.0 + (high + 10.0 - t) / (high - low + 20.0) * 84.0;
        let at = record.port_open.last().and_then(|(_, end)| nearest(&record.temperature, *end));
        let bracket = format!("M40 {:.1}h8V{:.1}h-8", y(low), y(high));
        let shown = |t: f64| self.speech.celsius(Celsius::clamped(t));
        let label = match at {
            None => self.speech.with("pipe-drawn", &args!(low = shown(low), high = shown(high))),
            Some(p) => {
                let closed = self.speech.celsius(p.celsius);
                self.speech
                    .with("pipe-drawn-closed", &args!(low = shown(low), high = shown(high), celsius = closed))
            }
        };
        html! {
            svg viewBox="0 0 70 100" role="img" aria-label=(label) {
                path d="M14 2V98M36 2V98" stroke="#000" stroke-width="3" fill="none" {}
                path d=(bracket) stroke="#000" stroke-width="4" fill="none" {}
                text x="51" y=(format!("{:.1}", y(low) + 4.0)) font-size="12" font-weight="700" { (self.degree(low)) }
                text x="51" y=(format!("{:.1}", y(high) + 4.0)) font-size="12" font-weight="700" { (self.degree(high)) }
                @if let Some(p) = at {
                    @let t = p.celsius.to_f64();
                    rect x="16" width="18" y=(f(y(t))) height=(f(98.0 - y(t).min(97.0))) fill="#000" opacity=".25" {}
                    rect x="9" width="32" y=(f(y(t) - 2.5)) height="5" fill="#000" {}
                }
            }
        }
    }

    /// Temperature over time with the band as lines, the time of `go` hatched and the open port as a bar.
    pub fn plot(&self, record: &Record) -> Markup {
        let Some(sheet) = record.sheet.as_ref().filter(|_| record.temperature.len() > 1) else {
            return html! { p { (self.text("plot-no-temperature")) } };
        };
        let band = [sheet.check.low(), sheet.check.high()];
        let axes = self.axes(record, band);
        html! {
            svg viewBox="0 0 740 170" role="img" aria-label=(self.plot_in_words(record)) {
                defs { pattern id="h" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)" {
                    path d="M0 0V6" stroke="#000" stroke-width="1" opacity=".45" {}
                } }
                @for (start, end) in &record.go {
                    rect x=(f(axes.x(*start))) y=(f(axes.at(band[1]))) width=(f(axes.x(*end) - axes.x(*start)))
                        height=(f(axes.at(band[0]) - axes.at(band[1]))) fill="url(#h)" {}
                }
                (self.scales(&axes, band))
                polyline points=(line(record, &axes)) stroke="#000" stroke-width="2.2" fill="none" {}
                @for (start, end) in &record.port_open {
                    rect x=(f(axes.x(*start))) y=(f(Axes::BOTTOM - 9.0)) width=(f((axes.x(*end) - axes.x(*start)).max(2.0))) height="8" fill="#000" {}
                }
                // One label for all openings: two side by side would lie on each other.
                @if let Some((start, _)) = record.port_open.first() {
                    text x=(f(axes.x(*start) - 5.0)) y=(f(Axes::BOTTOM - 2.0)) font-size="10" text-anchor="end" { (self.text("plot-port-open")) }
                }
            }
            p { (self.plot_in_words(record)) }
        }
    }

    /// From the lowest to the highest ten of the scale that is read.
    fn axes(&self, record: &Record, band: [Celsius; 2]) -> Axes {
        let units = self.speech.units;
        let all = record.temperature.iter().map(|p| p.celsius).chain(band).map(|t| units.degrees(t));
        let (low, high) = all.fold((f64::MAX, f64::MIN), |(low, high), t| (low.min(t), high.max(t)));
        // Twice as many degrees make the same picture in °F.
        let step = if units.is_in_fahrenheit() { 20.0 } else { 10.0 };
        let seconds = record.temperature.last().map_or(60.0, |p| p.seconds).max(60.0);
        Axes {
            seconds,
            step,
            low: (low / step).floor() * step,
            high: (high / step + 1.0).floor() * step,
            units,
        }
    }

    fn scales(&self, axes: &Axes, band: [Celsius; 2]) -> Markup {
        let every = [60.0, 120.0, 300.0, 600.0, 900.0, 1_800.0]
            .into_iter()
            .find(|e| axes.seconds / e <= 12.0)
            .unwrap_or(3_600.0);
        let minutes: Vec<f64> =
            (0..).map(|n| f64::from(n) * every).take_while(|s| *s <= axes.seconds).collect();
        let degrees: Vec<f64> =
            (0..).map(|n| axes.low + f64::from(n) * axes.step).take_while(|t| *t <= axes.high).collect();
        let unit = self.speech.with("plot-axis", &args!(unit = self.speech.units.degree_sign()));
        html! {
            @for t in &degrees {
                path d=(format!("M{} {:.1}H{}", Axes::LEFT - 5.0, axes.y(*t), Axes::LEFT)) stroke="#000" {}
                text x=(f(Axes::LEFT - 8.0)) y=(f(axes.y(*t) + 3.5)) font-size="10" text-anchor="end" { (*t) }
            }
            @for s in &minutes {
                path d=(format!("M{:.1} {}v5", axes.x(*s), Axes::BOTTOM)) stroke="#000" {}
                text x=(f(axes.x(*s))) y=(f(Axes::BOTTOM + 16.0)) font-size="10" text-anchor="middle" { (s / 60.0) }
            }
            text x=(f(Axes::RIGHT)) y="169" font-size="10" text-anchor="end" { (unit) }
            @for edge in band {
                path d=(format!("M{} {:.1}H{}", Axes::LEFT, axes.at(edge), Axes::RIGHT)) stroke="#000" stroke-dasharray="5 4" {}
            }
            path d=(format!("M{} {:.1}h9V{:.1}h-9", Axes::RIGHT + 3.0, axes.at(band[0]), axes.at(band[1]))) stroke="#000" stroke-width="3.5" fill="none" {}
            @for edge in band {
                text x=(f(Axes::RIGHT + 16.0)) y=(f(axes.at(edge) + 4.0)) font-size="12" font-weight="700" { (self.degree(edge.to_f64())) }
            }
            path d=(format!("M{} {}V{}H{}", Axes::LEFT, Axes::TOP, Axes::BOTTOM, Axes::RIGHT)) stroke="#000" fill="none" {}
        }
    }

    /// The plot in words.
    pub fn plot_in_words(&self, record: &Record) -> String {
        let minutes = |s: f64| self.speech.lang.number(&format!("{:.1}", s / 60.0)).into_owned();
        let points = record.temperature.first().zip(record.temperature.last());
        let Some((first, last)) = points else { return self.text("plot-no-temperature").to_owned() };
        let shown = |p: &Point| self.speech.celsius(p.celsius);
        let mut text = vec![self.speech.with("plot-from-to", &args!(from = shown(first), to = shown(last)))];
        text.push(match (record.go.first(), record.go.last()) {
            (Some((start, _)), Some((_, end))) => {
                self.speech.with("plot-was-right", &args!(from = minutes(*start), to = minutes(*end)))
            }
            _ => self.text("plot-never-right").to_owned(),
        });
        text.extend(record.port_open.iter().map(|(start, end)| {
            let closed = nearest(&record.temperature, *end).map_or(Celsius::LOWEST, |p| p.celsius);
            let closed = self.speech.celsius(closed);
            self.speech.with(
                "plot-port-was-open",
                &args!(from = minutes(*start), to = minutes(*end), celsius = closed),
            )
        }));
        text.join(" ")
    }

    /// The amounts as bars to one scale: what went in black, what came out white.
    pub fn bars(&self, record: &Record) -> Markup {
        let Some(balance) = &record.balance else { return html! {} };
        let rows = self.amounts(balance);
        let most = rows.iter().map(|(_, v)| v.to_f64()).fold(1.0, f64::max);
        let words: Vec<String> = rows.iter().map(|(what, v)| format!("{what} {}", self.ml(*v))).collect();
        let filled = self.text("balance-filled");
        html! {
            svg viewBox=(format!("0 0 380 {}", rows.len() * 22)) role="img" aria-label=(words.join(", ")) {
                @for (row, (what, value)) in rows.iter().enumerate() {
                    @let y = row as f64 * 22.0 + 3.0;
                    @let width = value.to_f64() / most * 170.0;
                    text x="0" y=(f(y + 12.0)) font-size="11" { (what) }
                    rect x="112" y=(f(y)) height="16" width=(f(width))
                        fill=(if *what == filled { "#000" } else { "#fff" }) stroke="#000" stroke-width="1.5" {}
                    text x=(f(120.0 + width)) y=(f(y + 12.0)) font-size="11" font-weight="600" { (self.ml(*value)) }
                }
            }
        }
    }
}

/// Geometry of the plot, in the units of its view box; temperatures on the scale that is read.
struct Axes {
    seconds: f64,
    step: f64,
    low: f64,
    high: f64,
    units: UnitSystem,
}

impl Axes {
    /// Where the plot stands in its picture.
    /// By definition: layout.
    const LEFT: f64 = 34.0;
    const RIGHT: f64 = 694.0;
    const TOP: f64 = 10.0;
    const BOTTOM: f64 = 142.0;

    fn x(&self, seconds: f64) -> f64 {
        Self::LEFT + seconds.clamp(0.0, self.seconds) / self.seconds * (Self::RIGHT - Self::LEFT)
    }
    fn y(&self, degrees: f64) -> f64 {
        Self::BOTTOM
            - (degrees.clamp(self.low, self.high) - self.low) / (self.high - self.low)
                * (Self::BOTTOM - Self::TOP)
    }
    fn at(&self, value: Celsius) -> f64 {
        self.y(self.units.degrees(value))
    }
}

/// The point that was taken nearest to a time.
pub fn nearest(points: &[Point], seconds: f64) -> Option<Point> {
    points.iter().copied().min_by(|a, b| (a.seconds - seconds).abs().total_cmp(&(b.seconds - seconds).abs()))
}

fn f(value: f64) -> String {
    format!("{value:.1}")
}

fn line(record: &Record, axes: &Axes) -> String {
    let points =
        record.temperature.iter().map(|p| format!("{:.1},{:.1}", axes.x(p.seconds), axes.at(p.celsius)));
    points.collect::<Vec<_>>().join(" ")
}
