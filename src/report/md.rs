//! The report as text: all that the page has, and every line of it.
//!
//! In: the record and its reader. Out: Markdown. Not here: what is said (`say.rs`).

use std::fmt::{Result, Write as _};

use events::StepState;
use words::args;

use super::record::Record;
use super::say::Reader;
use super::verify;
use crate::markdown::{inline, md};

/// The whole report.
pub fn text(record: &Record, reader: &Reader) -> String {
    let mut out = String::new();
    // Writing into a String cannot fail.
    let _ = customer(&mut out, record, reader)
        .and_then(|()| technician(&mut out, record, reader))
        .and_then(|()| trail(&mut out, record, reader))
        .and_then(|()| foot(&mut out, record, reader));
    out
}

fn customer(out: &mut String, record: &Record, reader: &Reader) -> Result {
    writeln!(out, "# {}\n\n{}\n", reader.text("report-title"), md(&reader.title(record)))?;
    for answer in reader.answers(record) {
        let short = answer.short.map_or(String::new(), |short| format!("{short} "));
        writeln!(out, "- {} **{short}{}**", answer.question, inline(&answer.says))?;
    }
    list(out, reader, "what-you-should-know", &reader.to_know(record))?;
    writeln!(out)?;
    for (label, value) in reader.identity(record) {
        if let Some(value) = value {
            writeln!(out, "- {label}: {}", inline(&value))?;
        }
    }
    Ok(())
}

fn technician(out: &mut String, record: &Record, reader: &Reader) -> Result {
    writeln!(out, "\n# {}\n", reader.text("for-the-next-technician"))?;
    writeln!(out, "**{}** {}\n", reader.headline(record), reader.next(record))?;
    let means = reader.means(record).into_iter().map(str::to_owned);
    for line in means.chain(reader.untold(record)) {
        writeln!(out, "- {}", md(&line))?;
    }
    for (label, value) in reader.facts(record) {
        writeln!(out, "- {label}: {}", inline(&value))?;
    }
    list(out, reader, "section-wrong", &reader.wrong(record))?;
    list(out, reader, "section-temperature", &[reader.plot_in_words(record)])?;
    if let Some(level) = record.result.as_ref().and_then(|r| r.level_error.as_ref()) {
        heading(out, reader, "section-budget")?;
        let columns = ["budget-cause", "budget-amount", "budget-u"].map(|name| reader.text(name));
        writeln!(out, "| {} |\n| --- | ---: | ---: |", columns.join(" | "))?;
        for part in &level.causes {
            let (amount, u) = (reader.signed(part.millilitres), reader.ml(part.u_millilitres));
            writeln!(out, "| {} | {amount} | {u} |", reader.speech.of(part.cause))?;
        }
        let (amount, within) = (reader.signed(level.millilitres), reader.ml(level.expanded_millilitres));
        writeln!(out, "| {} | {amount} | ±\u{202f}{within} |", reader.text("budget-together"))?;
    }
    if let Some(balance) = &record.balance {
        heading(out, reader, "section-balance")?;
        for (label, value) in reader.amounts(balance) {
            writeln!(out, "- {label}: {}", reader.ml(value))?;
        }
        for (label, value) in reader.sums(balance) {
            writeln!(out, "- {label}: {value}")?;
        }
    }
    heading(out, reader, "section-codes-and-fluid")?;
    for (label, value) in reader.codes(record) {
        writeln!(out, "- {label}: {}", inline(&value))?;
    }
    writeln!(out, "- {}: {}", reader.text("section-old-fluid"), reader.old_fluid(record))
}

/// What happened, line by line.
fn trail(out: &mut String, record: &Record, reader: &Reader) -> Result {
    let columns = |names: [&'static str; 4]| names.map(|name| reader.text(name)).join(" | ");
    heading(out, reader, "section-steps")?;
    let head = columns(["column-time", "column-step", "column-state", "column-by"]);
    writeln!(out, "| {head} |\n| --- | --- | --- | --- |")?;
    for step in record.steps.iter().filter(|s| s.state != StepState::Open) {
        let (at, by) = (reader.clock(record, step.at), reader.by(step));
        writeln!(out, "| {at} | {} | {} | {by} |", reader.step(step.step), reader.state(step.state))?;
    }
    heading(out, reader, "section-told")?;
    let head = ["column-time", "column-by", "column-what"].map(|name| reader.text(name)).join(" | ");
    writeln!(out, "| {head} |\n| --- | --- | --- |")?;
    for told in &record.told {
        let by = told.by.map_or("", |by| reader.role(by));
        writeln!(out, "| {} | {by} | {} |", reader.clock(record, told.at), md(&reader.said(&told.request)))?;
    }
    let troubles = record.troubles.iter().filter(|t| !t.is_a_code());
    let troubles: Vec<String> =
        troubles.map(|t| format!("{} {}", reader.clock(record, t.at), reader.trouble(t))).collect();
    list(out, reader, "section-on-the-way", &troubles)?;
    let stops = record
        .stops
        .iter()
        .map(|stop| format!("{} {}", reader.clock(record, stop.at), reader.speech.caution(stop.caution)));
    list(out, reader, "section-stops", &stops.collect::<Vec<_>>())?;
    let photos = record.photos.iter().map(|photo| format!("{}: SHA-256 {}", photo.name, photo.sha256));
    list(out, reader, "section-photos", &photos.collect::<Vec<_>>())
}

fn foot(out: &mut String, record: &Record, reader: &Reader) -> Result {
    writeln!(out, "\n{}", md(&reader.range(record)))?;
    if let Some(seal) = &record.seal {
        writeln!(out, "\n{}", reader.pair(reader.text("label-seal"), &md(seal)))?;
        let command = format!("`{}`", verify(record.job, seal));
        writeln!(out, "\n{}", reader.speech.with("seal-is-checked-by", &args!(command = command)))?;
    }
    let cautions = record.cautions.iter().map(|caution| reader.speech.caution(*caution).into_owned());
    list(out, reader, "section-cautions", &cautions.collect::<Vec<_>>())?;
    writeln!(out, "\n{}", reader.speech.caution(events::Caution::MakerFirst))
}

fn heading(out: &mut String, reader: &Reader, name: &'static str) -> Result {
    writeln!(out, "\n## {}\n", reader.text(name))
}

fn list(out: &mut String, reader: &Reader, name: &'static str, lines: &[String]) -> Result {
    if lines.is_empty() {
        return Ok(());
    }
    heading(out, reader, name)?;
    lines.iter().try_for_each(|line| writeln!(out, "- {}", md(line)))
}
