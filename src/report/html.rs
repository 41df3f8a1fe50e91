//! The report as a page: self-contained, black on white, on A4 or Letter.
//!
//! The first sheet is the customer's: the questions, the answers, which vehicle and who. From the second on it is the next
//! technician's: curve, budget, amounts, codes, what was told, the seal. Not here: what is said (`say.rs`), the drawings
//! (`plot.rs`).

use events::{Caution, Request, StepState};
use maud::{DOCTYPE, Markup, PreEscaped, html};
use words::args;

use super::figures::short;
use super::record::Record;
use super::say::{Reader, Row};
use super::verify;

const STYLE: &str = "
@page { size: auto; margin: 13mm 14mm }
* { box-sizing: border-box; margin: 0 }
body { font: 10.5pt/1.36 system-ui, 'Noto Sans', 'DejaVu Sans', sans-serif; color: #000; background: #fff; max-width: 182mm; margin: 0 auto; padding: 0; font-variant-numeric: tabular-nums }
@media screen { body { padding: 6mm } .technician { border-top: 1.2mm solid #000; margin-top: 12mm; padding-top: 6mm } }
@media print { .technician { break-before: page } }
header { display: grid; grid-template-columns: 1fr auto; gap: 0 8mm; align-items: end; border-bottom: 1.2mm solid #000; padding-bottom: 2.5mm }
h1 { font-size: 20pt; line-height: 1.1; letter-spacing: -.01em } h2 { font-size: 9.6pt; margin: 2.6mm 0 .8mm; break-after: avoid }
header .of { text-align: right; font-weight: 600 }
.answers { margin-top: 5mm } .answers > div { display: grid; grid-template-columns: 44mm 1fr; gap: 0 6mm; padding: 3mm 0; border-bottom: .3mm solid #000; break-inside: avoid }
.answers dt { font-weight: 600 } .answers dd { font-size: 14pt; line-height: 1.25 } .answers b { display: block; font-size: 21pt; line-height: 1.15 }
.know { margin-top: 5mm; break-inside: avoid } .know h2 { font-size: 11pt } ul { padding-left: 5mm }
.who { display: grid; grid-template-columns: max-content 1fr; gap: 1.4mm 6mm; margin-top: 6mm; break-inside: avoid } .who dt { font-weight: 600 } .who dd:empty { border-bottom: .3mm solid #000; min-height: 1.36em }
.sign { display: grid; grid-template-columns: 1fr 1fr; gap: 12mm; margin-top: 16mm; break-inside: avoid } .sign p { border-top: .3mm solid #000; padding-top: 1mm }
footer { margin-top: 5mm; font-size: 8.6pt }
.technician { font-size: 8pt; line-height: 1.24 } .technician h2 { font-size: 9pt; margin: 2mm 0 .6mm } .technician h1 { font-size: 15pt } .technician header { grid-template-columns: 14mm 1fr; gap: 5mm; align-items: center }
.facts { display: grid; grid-template-columns: max-content 1fr; gap: .3mm 4mm; margin-top: 2mm } .facts dt { font-weight: 600 } .facts dd { overflow-wrap: anywhere }
.two { display: grid; grid-template-columns: 4fr 3fr; gap: 0 7mm; align-items: start } .two > :only-child { grid-column: 1 / -1; display: grid; grid-template-columns: 3fr 4fr; gap: 0 7mm } .two > :only-child h2 { grid-column: 1 / -1 }
table { border-collapse: collapse; width: 100% } td, th { text-align: left; padding: .35mm 2mm .35mm 0; vertical-align: top } th { font-weight: 600; border-bottom: .3mm solid #000 }
td.n, th.n { text-align: right } td.n { white-space: nowrap } tr, li { break-inside: avoid } svg { display: block; width: 100%; height: auto; break-inside: avoid }
.told, .steps { columns: 3; column-gap: 5mm; font-size: 7.4pt } .told p, .steps p { break-inside: avoid } .photos { display: grid; grid-template-columns: repeat(3, 1fr); gap: 3mm } figure { break-inside: avoid } img { display: block; max-width: 100%; max-height: 60mm } .technician footer { font-size: 7.4pt; margin-top: 2.4mm } .seal { overflow-wrap: anywhere }
";

/// The whole page.
pub fn page(record: &Record, reader: &Reader) -> String {
    html! {
        (DOCTYPE)
        html lang=(reader.speech.lang.code()) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width,initial-scale=1";
                title { (reader.title(record)) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                (customer(record, reader))
                section.technician { (technician(record, reader)) }
            }
        }
    }
    .into_string()
}

/// The first sheet.
fn customer(record: &Record, reader: &Reader) -> Markup {
    let know = reader.to_know(record);
    html! {
        header {
            h1 { (reader.text("report-title")) }
            p.of { (reader.title(record)) }
        }
        dl.answers {
            @for answer in reader.answers(record) {
                div {
                    dt { (answer.question) }
                    dd { @if let Some(short) = answer.short { b { (short) } } (answer.says) }
                }
            }
        }
        @if !know.is_empty() {
            div.know { h2 { (reader.text("what-you-should-know")) } ul { @for says in &know { li { (says) } } } }
        }
        dl.who {
            @for (label, value) in reader.identity(record) { dt { (label) } dd { @if let Some(value) = &value { (value) } } }
        }
        div.sign { p { (reader.text("sign-technician")) } p { (reader.text("sign-customer")) } }
        footer { (reader.speech.caution(Caution::MakerFirst)) }
    }
}

/// The sheets for whoever works on it next.
fn technician(record: &Record, reader: &Reader) -> Markup {
    html! {
        header {
            (reader.pipe(record))
            div {
                h1 { (reader.text("for-the-next-technician")) }
                p { b { (reader.headline(record)) } " " (reader.next(record)) }
                @for means in reader.means(record) { p { (means) } }
                @for says in reader.untold(record) { p { (says) } }
            }
        }
        (rows(&reader.facts(record)))
        (list(reader, "section-wrong", &reader.wrong(record)))
        h2 { (reader.text("section-temperature")) }
        (reader.plot(record))
        div.two { (budget(record, reader)) (balance(record, reader)) }
        h2 { (reader.text("section-codes-and-fluid")) }
        (rows(&reader.codes(record)))
        (rows(&[(reader.text("section-old-fluid"), reader.old_fluid(record))]))
        (steps(record, reader))
        (told(record, reader))
        (list(reader, "section-on-the-way", &on_the_way(record, reader)))
        (seal(record, reader))
    }
}

fn rows(rows: &[Row]) -> Markup {
    html! { dl.facts { @for (label, value) in rows { dt { (label) } dd { (value) } } } }
}

fn list(reader: &Reader, heading: &'static str, lines: &[String]) -> Markup {
    html! {
        @if !lines.is_empty() { h2 { (reader.text(heading)) } ul { @for line in lines { li { (line) } } } }
    }
}

fn budget(record: &Record, reader: &Reader) -> Markup {
    let Some(level) = record.result.as_ref().and_then(|r| r.level_error.as_ref()) else {
        return html! {};
    };
    html! {
        div {
            h2 { (reader.text("section-budget")) }
            table {
                tr { th { (reader.text("budget-cause")) } th.n { (reader.text("budget-amount")) } th.n { (reader.text("budget-u")) } }
                @for part in &level.causes {
                    tr { td { (reader.speech.of(part.cause)) } td.n { (reader.signed(part.millilitres)) } td.n { (reader.ml(part.u_millilitres)) } }
                }
                tr { th { (reader.text("budget-together")) } th.n { (reader.signed(level.millilitres)) } th.n { "±\u{202f}" (reader.ml(level.expanded_millilitres)) } }
            }
        }
    }
}

fn balance(record: &Record, reader: &Reader) -> Markup {
    let Some(balance) = &record.balance else { return html! {} };
    html! {
        div {
            h2 { (reader.text("section-balance")) }
            (reader.bars(record))
            (rows(&reader.sums(balance)))
        }
    }
}

/// Every step: how it ended, when, and who brought it about.
fn steps(record: &Record, reader: &Reader) -> Markup {
    html! {
        h2 { (reader.text("section-steps")) }
        div.steps {
            @for step in record.steps.iter().filter(|s| s.state != StepState::Open) {
                p { (reader.clock(record, step.at)) " " b { (reader.step(step.step)) } " " (reader.state(step.state)) ", " (reader.by(step)) }
            }
        }
    }
}

fn told(record: &Record, reader: &Reader) -> Markup {
    let shown = record.told.iter().filter(|t| !matches!(t.request, Request::Spot { .. }));
    let all = shown.clone().count();
    let first = all.saturating_sub(TOLD_SHOWN);
    let spots = record.told.len() - all;
    html! {
        h2 { (reader.text("section-told")) }
        div.told {
            @if first > 0 { p { (reader.speech.with("entries-before", &args!(count = first))) } }
            @for told in shown.skip(first) {
                p { (reader.clock(record, told.at)) " " (reader.said(&told.request)) @if let Some(by) = told.by { " (" (reader.role(by)) ")" } }
            }
            @if spots > 0 { p { (reader.speech.with("entries-of-thermometers", &args!(count = spots))) } }
        }
        @if !record.photos.is_empty() {
            h2 { (reader.text("section-photos")) }
            div.photos {
                @for photo in &record.photos {
                    figure {
                        @if let Some(picture) = &photo.picture { img src=(picture) alt=(photo.name); }
                        figcaption { (photo.name) " (" (short(&photo.sha256)) ")" }
                    }
                }
            }
        }
    }
}

/// More would not fit on the sheet.
/// Own choice: more would not fit on the sheet.
const TOLD_SHOWN: usize = 36;
/// So many stop rules and troubles stand on the sheet.
/// Own choice: more would push the seal from it; the text form has all.
const STOPS_SHOWN: usize = 3;
const TROUBLES_SHOWN: usize = 4;
/// So many letters of one trouble.
/// Own choice: two lines of the sheet.
const LETTERS_SHOWN: usize = 150;

fn on_the_way(record: &Record, reader: &Reader) -> Vec<String> {
    let cut = |text: String| match text.char_indices().nth(LETTERS_SHOWN) {
        Some((at, _)) => format!("{}…", text.get(..at).unwrap_or_default()),
        None => text,
    };
    let stops = record
        .stops
        .iter()
        .take(STOPS_SHOWN)
        .map(|stop| format!("{} {}", reader.clock(record, stop.at), reader.speech.caution(stop.caution)));
    let mut all: Vec<String> = stops.collect();
    let troubles = || record.troubles.iter().filter(|t| !t.is_a_code());
    all.extend(
        troubles()
            .take(TROUBLES_SHOWN)
            .map(|t| cut(format!("{} {}", reader.clock(record, t.at), reader.trouble(t)))),
    );
    let more = troubles().count().saturating_sub(TROUBLES_SHOWN);
    all.extend((more > 0).then(|| reader.speech.with("more-in-the-journal", &args!(count = more))));
    all
}

fn seal(record: &Record, reader: &Reader) -> Markup {
    html! {
        footer {
            p { (reader.range(record)) }
            @if let Some(seal) = &record.seal {
                p.seal { (reader.pair(reader.text("label-seal"), seal)) }
                p { (reader.speech.with("seal-is-checked-by", &args!(command = verify(record.job, seal)))) }
            }
        }
    }
}
