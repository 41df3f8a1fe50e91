//! `report`: the record of one job, from the journal, as a page, as text or as data.
//!
//! A reader of the same events as every other front end: it computes no verdict and no balance of its own.

mod figures;
mod html;
mod md;
mod photos;
mod plot;
mod record;
mod said;
mod say;
mod spans;
#[cfg(test)]
mod tests;
mod when;

use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};
use events::text::{shown_json, shown_lines};

use crate::failure::{Exit, Failure};
use crate::screen::{Screen, say};

pub use record::Record;
use record::Went;
pub use say::Reader;
pub use when::Times;

/// In which form.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Form {
    /// One self-contained page that prints: a sheet for the customer, then those of the next technician.
    Html,
    /// Text.
    Md,
    /// Data.
    Json,
}

/// Arguments of `report`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  standpipe report > job.html\n  standpipe report 12 --form md\n  standpipe report 12 --lang de --units kgf > bericht.html\n\nTimes are those of this machine's zone (TZ names another); in JSON they are UTC."
)]
pub struct ReportArgs {
    /// The job's number; the last one where absent.
    job: Option<u64>,
    /// In which form.
    #[arg(long, value_enum, default_value_t = Form::Html)]
    form: Form,
    /// The bay's name.
    #[arg(long, default_value = "bay", value_name = "NAME", env = "STANDPIPE_BAY")]
    bay: String,
    /// The folder of the journal.
    #[arg(long, value_name = "DIR")]
    journal: Option<PathBuf>,
    /// Write into this file instead of stdout.
    #[arg(long, value_name = "FILE")]
    into: Option<PathBuf>,
}

/// Where the journal lies by default: `$XDG_STATE_HOME/standpipe`.
pub fn default_journal() -> PathBuf {
    let set = |name: &str| std::env::var_os(name).filter(|v| !v.is_empty()).map(PathBuf::from);
    let state = set("XDG_STATE_HOME").or_else(|| set("HOME").map(|home| home.join(".local/state")));
    state.unwrap_or_else(|| PathBuf::from(".")).join("standpipe")
}

/// `report`.
pub fn run(args: &ReportArgs, screen: Screen) -> Result<(), Failure> {
    let folder = args.journal.clone().unwrap_or_else(default_journal);
    let path = folder.join(format!("{}.journal", args.bay));
    let record = read(&path, args.job)?;
    let text = record.write(args.form, &Reader { speech: screen.speech(), times: Times::here() })?;
    match &args.into {
        None => screen.line(text.trim_end()),
        Some(file) => {
            std::fs::write(file, text).map_err(|e| Failure::file("write", file, &e))?;
            say(&format!("report of job {} written to {}", record.job, file.display()));
            Ok(())
        }
    }
}

/// Reads the record of a job from a journal file.
pub fn read(journal: &Path, job: Option<u64>) -> Result<Record, Failure> {
    let service::JobEvents { job, events, unread } = service::read_job(journal, job).map_err(|e| {
        Failure::new(Exit::NoInput, e.to_string())
            .try_this("name the folder with --journal DIR and the bay with --bay NAME")
    })?;
    let mut record = Record::fold(job, &events);
    record.seal = service::job_seal(journal, job)?;
    for (seq, why) in unread {
        let says = format!("The event {seq} cannot be read: {why}.");
        record.doubt(Went::Unread(seq, why.to_string()), says);
    }
    let verified = service::verify(journal, Some(job))?;
    for (first, last) in verified.broken.into_iter().chain(verified.also_broken) {
        let says = format!("The events {first} to {last} are not as they were written: missing or changed.");
        record.doubt(Went::Changed(first, last), says);
    }
    photos::take_along(&mut record, journal.parent().unwrap_or(Path::new("")));
    if let Some(first) = record.recheck_of
        && let Ok(before) = service::read_job(journal, Some(first))
        && let Some(result) = Record::fold(first, &before.events).result
    {
        record.beside(&result);
    }
    Ok(record)
}

impl Record {
    /// The record in one of its forms.
    pub fn write(&self, form: Form, reader: &Reader) -> Result<String, Failure> {
        match form {
            // Its markup is escaped where it is made; what is not seen but changes what is, is spelled out.
            Form::Html => Ok(shown_lines(&html::page(self, reader)).into_owned()),
            Form::Md => Ok(md::text(self, reader)),
            Form::Json => serde_json::to_string_pretty(self)
                .map(|text| shown_json(&text).into_owned() + "\n")
                .map_err(|e| Failure::new(Exit::Software, e.to_string())),
        }
    }
}

/// The command that shows whether a record was changed.
fn verify(job: u64, seal: &str) -> String {
    format!("standpipe jobs verify {job} --seal {}", figures::short(seal))
}
