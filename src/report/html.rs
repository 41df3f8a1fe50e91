//! The report as one page: self-contained, black on white, on one sheet of A4 or Letter.
//!
//! The pipe stands small at the head: its walls, the band as a bracket, the heavy crossbar at the temperature
//! at which the port was closed. Below, temperature over time with the band as lines, the window hatched and
//! the time of the open port as a bar. Every drawing has its words beside it for people who do not see it.

use maud::{DOCTYPE, Markup, PreEscaped, html};
use units::text::{UnitSystem, show_celsius, show_millilitres};
use units::{Celsius, Millilitres};

use super::md::{by, clock, facts, said, short};
use super::record::{Point, Record};

const STYLE: &str = "
@page { size: auto; margin: 9mm 11mm }
* { box-sizing: border-box; margin: 0 }
body { font: 8.2pt/1.24 system-ui, 'DejaVu Sans', sans-serif; color: #000; background: #fff; max-width: 188mm; margin: 0 auto; padding: 0; font-variant-numeric: tabular-nums }
@media screen { body { padding: 6mm } }
header { display: grid; grid-template-columns: 18mm 1fr; gap: 5mm; align-items: center; border-bottom: 1.2mm solid #000; padding-bottom: 2mm }
h1 { font-size: 19pt; line-height: 1.05; letter-spacing: -.01em } h2 { font-size: 9.6pt; margin: 1.8mm 0 .6mm }
.where { font-weight: 600 } .next { font-size: 10pt; margin-top: 1mm }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .2mm 4mm; margin-top: 2mm } dt { font-weight: 600 }
.two { display: grid; grid-template-columns: 1fr 1fr; gap: 0 7mm; align-items: start }
table { border-collapse: collapse; width: 100% } td, th { text-align: left; padding: .35mm 2mm .35mm 0; vertical-align: top } th { font-weight: 600; border-bottom: .3mm solid #000 }
td.n, th.n { text-align: right; white-space: nowrap } svg { display: block; width: 100%; height: auto } ul { padding-left: 4mm }
.sign { display: grid; grid-template-columns: 1fr 1fr; gap: 12mm; margin-top: 9mm; break-inside: avoid } .sign p { border-top: .3mm solid #000; padding-top: 1mm }
footer { margin-top: 2mm; font-size: 7.6pt } .told, .steps { columns: 3; column-gap: 5mm; font-size: 7.3pt } .told p, .steps p { break-inside: avoid } .seal { overflow-wrap: anywhere }
";

/// The whole page.
pub fn page(record: &Record, units: UnitSystem) -> String {
    let name = record.sheet.as_ref().map_or("unknown vehicle", |s| s.name.as_str());
    let title = format!("Fluid level, job {}: {name}", record.job);
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width,initial-scale=1";
                title { (title) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                header {
                    (pipe(record))
                    div {
                        p.where { (title) }
                        h1 { (record.headline(units)) }
                        p.next { (record.next(units)) }
                        @for meaning in record.result.iter().flat_map(|r| r.means()) { p.next { (meaning.says()) } }
                        @if let Some(line) = record.untold() { p.next { (line) } }
                    }
                }
                dl { @for (what, value) in facts(record, units) { dt { (what) } dd { (value) } } }
                (wrong(record))
                (plot(record, units))
                div.two { (level(record)) (balance(record, units)) }
                (steps(record))
                (told(record, units))
                (troubles(record))
                div.sign { p { "technician, date" } p { "customer, date" } }
                footer {
                    (events::Caution::MakerFirst.says())
                    @if !record.cautions.is_empty() { " Cautions shown at the steps: " (words_of(&record.cautions)) "." }
                    " Events " (record.events.0) " to " (record.events.1) " of the journal; times in UTC."
                    @if let Some(seal) = &record.seal {
                        " Seal " span.seal { (seal) } "; standpipe jobs verify " (record.job) " --seal " (short(seal)) " shows whether the record was changed."
                    }
                }
            }
        }
    }
    .into_string()
}

fn words_of(cautions: &[events::Caution]) -> String {
    cautions.iter().map(|c| c.word()).collect::<Vec<_>>().join(", ")
}

/// The pipe, small: band as a bracket, crossbar where the port was closed.
fn pipe(record: &Record) -> Markup {
    let Some(sheet) = &record.sheet else { return html! { div {} } };
    let (low, high) = (sheet.check.low().to_f64(), sheet.check.high().to_f64());
    let y = |t: f64| 8.0 + (high + 10.0 - t) / (high - low + 20.0) * 84.0;
    let at = record.port_open.last().and_then(|(_, end)| nearest(&record.temperature, *end));
    let bracket = format!("M40 {:.1}h8V{:.1}h-8", y(low), y(high));
    let label = at.map_or_else(
        || "The pipe: the band as a bracket; no temperature at closing.".to_owned(),
        |p| format!("The pipe: the band {low} to {high} °C as a bracket; closed at {} °C.", p.celsius),
    );
    html! {
        svg viewBox="0 0 70 100" role="img" aria-label=(label) {
            path d="M14 2V98M36 2V98" stroke="#000" stroke-width="3" fill="none" {}
            path d=(bracket) stroke="#000" stroke-width="4" fill="none" {}
            text x="51" y=(format!("{:.1}", y(low) + 4.0)) font-size="12" font-weight="700" { (low) }
            text x="51" y=(format!("{:.1}", y(high) + 4.0)) font-size="12" font-weight="700" { (high) }
            @if let Some(p) = at {
                rect x="16" width="18" y=(format!("{:.1}", y(p.celsius.to_f64()))) height=(format!("{:.1}", 98.0 - y(p.celsius.to_f64()).min(97.0))) fill="#000" opacity=".25" {}
                rect x="9" width="32" y=(format!("{:.1}", y(p.celsius.to_f64()) - 2.5)) height="5" fill="#000" {}
            }
        }
    }
}

fn nearest(points: &[Point], seconds: f64) -> Option<Point> {
    points.iter().copied().min_by(|a, b| (a.seconds - seconds).abs().total_cmp(&(b.seconds - seconds).abs()))
}

fn wrong(record: &Record) -> Markup {
    let Some(result) = record.result.as_ref().filter(|r| !r.shortfalls.is_empty() || !r.closure.is_empty())
    else {
        return html! {};
    };
    html! {
        h2 { "What was wrong, and what to do" }
        ul {
            @for shortfall in &result.shortfalls { li { (shortfall.says()) } }
            @for cause in &result.closure { li { (cause.says()) } }
            @for open in &result.open { li { (open.says()) " " (open.remedy()) } }
        }
    }
}

/// Geometry of the plot, in the units of its view box.
struct Axes {
    seconds: f64,
    low: f64,
    high: f64,
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
    fn y(&self, celsius: f64) -> f64 {
        Self::BOTTOM
            - (celsius.clamp(self.low, self.high) - self.low) / (self.high - self.low)
                * (Self::BOTTOM - Self::TOP)
    }
}

fn plot(record: &Record, units: UnitSystem) -> Markup {
    let Some(sheet) = record.sheet.as_ref().filter(|_| record.temperature.len() > 1) else {
        return html! { p { "No temperature was recorded." } };
    };
    let (band_low, band_high) = (sheet.check.low(), sheet.check.high());
    let all = record.temperature.iter().map(|p| p.celsius.to_f64());
    let ten = |t: f64, up: f64| (t / 10.0 + up).floor() * 10.0;
    let low = ten(all.clone().fold(band_low.to_f64(), f64::min), 0.0);
    let high = ten(all.fold(band_high.to_f64(), f64::max), 1.0);
    let seconds = record.temperature.last().map_or(60.0, |p| p.seconds).max(60.0);
    let axes = Axes { seconds, low, high };
    let every = [60.0, 120.0, 300.0, 600.0, 900.0, 1_800.0]
        .into_iter()
        .find(|e| seconds / e <= 12.0)
        .unwrap_or(3_600.0);
    let minutes: Vec<f64> = (0..).map(|n| f64::from(n) * every).take_while(|s| *s <= seconds).collect();
    let degrees: Vec<f64> = (0..).map(|n| low + f64::from(n) * 10.0).take_while(|t| *t <= high).collect();
    html! {
        h2 { "Temperature over time" }
        svg viewBox="0 0 740 170" role="img" aria-label=(words(record, units)) {
            defs { pattern id="h" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)" {
                path d="M0 0V6" stroke="#000" stroke-width="1" opacity=".45" {}
            } }
            @for (start, end) in &record.go {
                rect x=(f(axes.x(*start))) y=(f(axes.y(band_high.to_f64()))) width=(f(axes.x(*end) - axes.x(*start)))
                    height=(f(axes.y(band_low.to_f64()) - axes.y(band_high.to_f64()))) fill="url(#h)" {}
            }
            @for t in &degrees {
                path d=(format!("M{} {:.1}H{}", Axes::LEFT - 5.0, axes.y(*t), Axes::LEFT)) stroke="#000" {}
                text x=(f(Axes::LEFT - 8.0)) y=(f(axes.y(*t) + 3.5)) font-size="10" text-anchor="end" { (*t) }
            }
            @for s in &minutes {
                path d=(format!("M{:.1} {}v5", axes.x(*s), Axes::BOTTOM)) stroke="#000" {}
                text x=(f(axes.x(*s))) y=(f(Axes::BOTTOM + 16.0)) font-size="10" text-anchor="middle" { (s / 60.0) }
            }
            text x=(f(Axes::RIGHT)) y="169" font-size="10" text-anchor="end" { "minutes from the start; °C" }
            @for edge in [band_low, band_high] {
                path d=(format!("M{} {:.1}H{}", Axes::LEFT, axes.y(edge.to_f64()), Axes::RIGHT)) stroke="#000" stroke-dasharray="5 4" {}
            }
            path d=(format!("M{} {:.1}h9V{:.1}h-9", Axes::RIGHT + 3.0, axes.y(band_low.to_f64()), axes.y(band_high.to_f64()))) stroke="#000" stroke-width="3.5" fill="none" {}
            @for edge in [band_low, band_high] {
                text x=(f(Axes::RIGHT + 16.0)) y=(f(axes.y(edge.to_f64()) + 4.0)) font-size="12" font-weight="700" { (format!("{edge:.0}")) }
            }
            path d=(format!("M{} {}V{}H{}", Axes::LEFT, Axes::TOP, Axes::BOTTOM, Axes::RIGHT)) stroke="#000" fill="none" {}
            polyline points=(line(record, &axes)) stroke="#000" stroke-width="2.2" fill="none" {}
            @for (start, end) in &record.port_open {
                rect x=(f(axes.x(*start))) y=(f(Axes::BOTTOM - 9.0)) width=(f((axes.x(*end) - axes.x(*start)).max(2.0))) height="8" fill="#000" {}
            }
            // One label for all openings: two side by side would lie on each other.
            @if let Some((start, _)) = record.port_open.first() {
                text x=(f(axes.x(*start) - 5.0)) y=(f(Axes::BOTTOM - 2.0)) font-size="10" text-anchor="end" { "port open" }
            }
        }
        p { (words(record, units)) }
    }
}

fn f(value: f64) -> String {
    format!("{value:.1}")
}

fn line(record: &Record, axes: &Axes) -> String {
    let points = record
        .temperature
        .iter()
        .map(|p| format!("{:.1},{:.1}", axes.x(p.seconds), axes.y(p.celsius.to_f64())));
    points.collect::<Vec<_>>().join(" ")
}

/// The plot in words.
fn words(record: &Record, units: UnitSystem) -> String {
    let minutes = |s: f64| format!("{:.1}", s / 60.0);
    let show = |p: Option<&Point>| p.map_or("unknown".to_owned(), |p| show_celsius(p.celsius, units));
    let mut text =
        format!("From {} to {}.", show(record.temperature.first()), show(record.temperature.last()));
    match (record.go.first(), record.go.last()) {
        (Some((start, _)), Some((_, end))) => {
            text += &format!(
                " The verdict was go (hatched) between minute {} and minute {}.",
                minutes(*start),
                minutes(*end)
            );
        }
        _ => text += " The verdict was never go.",
    }
    for (start, end) in &record.port_open {
        let closed = nearest(&record.temperature, *end).map_or(Celsius::LOWEST, |p| p.celsius);
        text += &format!(
            " The check port was open from minute {} to minute {}, closed at {}.",
            minutes(*start),
            minutes(*end),
            show_celsius(closed, units)
        );
    }
    text
}

fn level(record: &Record) -> Markup {
    let Some(level) = record.result.as_ref().and_then(|r| r.level_error.as_ref()) else {
        return html! { div {} };
    };
    html! {
        div {
            h2 { "Level error, with what it is made of" }
            table {
                tr { th { "cause" } th.n { "mL" } th.n { "u, mL" } }
                @for part in &level.causes {
                    tr { td { (part.cause.says()) } td.n { (format!("{:+}", part.millilitres)) } td.n { (part.u_millilitres) } }
                }
                tr { th { "together, ± with k = 2" } th.n { (format!("{:+}", level.millilitres)) } th.n { "±\u{202f}" (level.expanded_millilitres) } }
            }
        }
    }
}

/// The balance as one bar: what went in above, what came out below, to one scale.
fn balance(record: &Record, units: UnitSystem) -> Markup {
    let Some(balance) = &record.balance else { return html! { div {} } };
    let rows = [
        ("drained", balance.drained_millilitres),
        ("filled", balance.filled_millilitres),
        ("ran out", balance.ran_out_millilitres),
        ("with parts", balance.taken_out_millilitres),
        ("spilled", balance.spilled_millilitres),
    ];
    let rows: Vec<_> = rows.into_iter().filter(|(_, v)| v.is_some()).collect();
    let most = rows.iter().filter_map(|(_, v)| *v).map(Millilitres::to_f64).fold(1.0, f64::max);
    let words: Vec<String> = rows
        .iter()
        .filter_map(|(what, v)| v.map(|v| format!("{what} {}", show_millilitres(v, units))))
        .collect();
    html! {
        div {
            h2 { "Balance, as measured" }
            svg viewBox=(format!("0 0 340 {}", rows.len() * 22)) role="img" aria-label=(words.join(", ")) {
                @for (row, (what, value)) in rows.iter().enumerate() {
                    @if let Some(value) = value {
                        @let y = row as f64 * 22.0 + 3.0;
                        text x="0" y=(f(y + 12.0)) font-size="11" { (what) }
                        rect x="56" y=(f(y)) height="16" width=(f(value.to_f64() / most * 200.0))
                            fill=(if *what == "filled" { "#000" } else { "#fff" }) stroke="#000" stroke-width="1.5" {}
                        text x=(f(64.0 + value.to_f64() / most * 200.0)) y=(f(y + 12.0)) font-size="11" font-weight="600" { (show_millilitres(*value, units)) }
                    }
                }
            }
        }
    }
}

/// Every step: how it ended, when, and who brought it about.
fn steps(record: &Record) -> Markup {
    html! {
        h2 { "Steps" }
        div.steps {
            @for step in record.steps.iter().filter(|s| s.state != events::StepState::Open) { p { (clock(step.at)) " " b { (step.step) } " " (step.state) ", " (by(step)) } }
        }
    }
}

fn told(record: &Record, units: UnitSystem) -> Markup {
    let shown = record.told.iter().filter(|t| !matches!(t.request, events::Request::Spot { .. }));
    let all = shown.clone().count();
    let spots = record.told.len() - all;
    let first = all.saturating_sub(TOLD_SHOWN);
    html! {
        h2 { "What was told, and when" }
        div.told {
            @if first > 0 { p { "the first " (first) " are in the journal" } }
            @for told in shown.skip(first) {
                p { (clock(told.at)) " " (said(&told.request, units)) @if let Some(by) = told.by { " (" (by) ")" } }
            }
            @if spots > 0 { p { (spots) " thermometer readings are in the plot" } }
        }
        @if !record.photos.is_empty() {
            p { "Photos: " @for (n, photo) in record.photos.iter().enumerate() { @if n > 0 { ", " } (photo.name) " (" (short(&photo.sha256)) ")" } }
        }
    }
}

/// More would not fit on the sheet.
/// Own choice: more would not fit on the sheet.
const TOLD_SHOWN: usize = 24;

fn troubles(record: &Record) -> Markup {
    if record.troubles.is_empty() && record.stops.is_empty() {
        return html! {};
    }
    let cut = |text: &str| {
        if text.chars().count() > 150 {
            format!("{}…", text.chars().take(150).collect::<String>())
        } else {
            text.to_owned()
        }
    };
    html! {
        h2 { "On the way" }
        ul {
            @for stop in record.stops.iter().take(3) { li { (clock(stop.at)) " " (stop.caution.says()) } }
            @for trouble in record.troubles.iter().take(4) { li { (clock(trouble.at)) " " (cut(&trouble.what)) } }
            @if record.troubles.len() > 4 { li { "and " (record.troubles.len() - 4) " more in the journal" } }
        }
    }
}
