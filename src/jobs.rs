//! `jobs`: the jobs of a journal, searched; and what keeps a journal safe: verify, check, backup, export, import.
//!
//! A reader of the journal's file, with or without a daemon beside it. What it lists comes from the journal's own
//! tables.

use std::io::Write as _;
use std::path::{Path, PathBuf};

use clap::{Args, Subcommand};
use events::text::shown;
use events::{Body, Outcome, Request, Utc};
use service::{JobQuery, JobRow, PhotoState};

use crate::failure::{Exit, Failure};
use crate::screen::{Screen, say};

/// Where a journal is.
#[derive(Debug, Args)]
pub struct Journal {
    /// The bay's name.
    #[arg(long, default_value = "bay", value_name = "NAME", env = "STANDPIPE_BAY", global = true)]
    pub bay: String,
    /// The folder of the journal.
    #[arg(long, value_name = "DIR", global = true)]
    pub journal: Option<PathBuf>,
}

impl Journal {
    /// Its folder.
    pub fn folder(&self) -> PathBuf {
        self.journal.clone().unwrap_or_else(crate::report::default_journal)
    }

    /// Its file.
    pub fn path(&self) -> PathBuf {
        self.folder().join(format!("{}.journal", self.bay))
    }
}

/// Arguments of `jobs`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  standpipe jobs\n  standpipe jobs --vehicle \"QL 12\" --since 2026-03-01 --result not-set\n  standpipe jobs verify\n  standpipe jobs verify 12 --seal 5f0c…\n  standpipe jobs backup /media/stick/bay.journal\n  standpipe jobs export --into bay.jsonl\n  standpipe jobs import bay.jsonl --bay copy"
)]
pub struct JobsArgs {
    #[command(flatten)]
    journal: Journal,
    /// Part of the vehicle's name or of the sheet's.
    #[arg(long, value_name = "TEXT")]
    vehicle: Option<String>,
    /// Begun on this day or later: 2026-03-02.
    #[arg(long, value_parser = day, value_name = "DAY")]
    since: Option<Utc>,
    /// Begun before this day.
    #[arg(long, value_parser = day, value_name = "DAY")]
    until: Option<Utc>,
    /// With this result: set, set-low, set-high, not-set.
    #[arg(long, value_name = "RESULT")]
    result: Option<Outcome>,
    /// Only rechecks of this job.
    #[arg(long, value_name = "JOB")]
    recheck_of: Option<u64>,
    /// At most so many, the latest first.
    #[arg(long, default_value_t = 50, value_name = "N")]
    limit: u32,
    #[command(subcommand)]
    what: Option<What>,
}

#[derive(Debug, Subcommand)]
enum What {
    /// Computes the hash chain anew: has anything been edited since it was written? Photos too.
    Verify {
        /// One job; all of the journal where absent.
        job: Option<u64>,
        /// The seal that a printed report of that job carries, or its beginning.
        #[arg(long, value_name = "HEX", requires = "job")]
        seal: Option<String>,
    },
    /// Checks the file page by page.
    Check,
    /// Copies the journal into a new file, also beside a running daemon.
    Backup {
        /// The new file.
        into: PathBuf,
    },
    /// Writes the journal, or one job, as JSON Lines.
    Export {
        /// One job; all of the journal where absent.
        #[arg(long)]
        job: Option<u64>,
        /// Into this file instead of stdout.
        #[arg(long, value_name = "FILE")]
        into: Option<PathBuf>,
    },
    /// Makes a new journal from exported lines; every seal must fit.
    Import {
        /// The file that `export` wrote.
        file: PathBuf,
    },
}

/// A day, or an instant.
pub fn day(text: &str) -> Result<Utc, String> {
    let whole = if text.len() == 10 { format!("{text}T00:00:00Z") } else { text.to_owned() };
    whole
        .parse()
        .map_err(|_| format!("`{text}` is no day like 2026-03-02 and no time like 2026-03-02T09:14:07Z"))
}

/// `jobs`.
pub fn run(args: &JobsArgs, screen: Screen) -> Result<(), Failure> {
    let path = args.journal.path();
    match &args.what {
        None => list(args, &path, screen),
        Some(What::Verify { job, seal }) => verify(&args.journal, *job, seal.as_deref(), screen),
        Some(What::Check) => check(&path, screen),
        Some(What::Backup { into }) => {
            service::backup(&path, into)?;
            say(&format!("copied {} to {}", path.display(), into.display()));
            Ok(())
        }
        Some(What::Export { job, into }) => export(&args.journal, *job, into.as_deref()),
        Some(What::Import { file }) => import(&args.journal, file),
    }
}

fn list(args: &JobsArgs, path: &Path, screen: Screen) -> Result<(), Failure> {
    let query = JobQuery {
        vehicle: args.vehicle.clone(),
        since: args.since,
        until: args.until,
        outcome: args.result,
        recheck_of: args.recheck_of,
        limit: args.limit,
    };
    let jobs = service::list_jobs(path, &query)?;
    if screen.is_json() {
        return jobs.iter().try_for_each(|job| screen.json(job));
    }
    if jobs.is_empty() {
        return screen.line("no job fits");
    }
    screen.line(&format!(
        "{:>6}  {:<16}  {:<9} {:>9}  vehicle, sheet",
        "job", "begun (UTC)", "result", "level"
    ))?;
    jobs.iter().try_for_each(|job| screen.line(&row(job)))
}

/// One job for people.
fn row(job: &JobRow) -> String {
    let begun: String = job.started.to_string().chars().take(16).collect::<String>().replace('T', " ");
    // A job that ended has a result; one that cannot be read is no job that runs.
    let none = if job.ended.is_some() { "unread" } else { "runs" };
    let result = job.outcome.map_or(none, Outcome::word);
    let level = job.level_error_millilitres.map_or(String::new(), |ml| format!("{ml:+} mL"));
    let vehicle = job.vehicle.as_ref().map_or(String::new(), |v| format!("{v}, "));
    let recheck = job.recheck_of.map_or(String::new(), |of| format!(" (recheck of {of})"));
    let what = shown(&format!("{vehicle}{}", job.sheet)).into_owned();
    format!("{:>6}  {begun}  {result:<9} {level:>9}  {what}{recheck}", job.job)
}

/// So many broken batches are named beside the first.
/// Own choice: a screen of a terminal; all are counted.
const NAMED: usize = 20;

#[derive(serde::Serialize)]
struct PhotoLine {
    sha256: String,
    name: String,
    state: PhotoState,
}

fn verify(journal: &Journal, job: Option<u64>, seal: Option<&str>, screen: Screen) -> Result<(), Failure> {
    let path = journal.path();
    let found = service::verify(&path, job)?;
    let photos = match job {
        Some(job) => photos(journal, job)?,
        None => Vec::new(),
    };
    if screen.is_json() {
        screen.json(&found)?;
        photos.iter().try_for_each(|photo| screen.json(photo))?;
    } else {
        screen.line(&format!("{} events in {} batches, seal {}", found.events, found.seals, found.seal))?;
        for photo in &photos {
            let state = match photo.state {
                PhotoState::Same => "unchanged",
                PhotoState::Changed => "CHANGED",
                PhotoState::Missing => "MISSING",
            };
            screen.line(&format!("photo {}: {state}", shown(&photo.name)))?;
        }
    }
    let changed = |what: String| {
        Err(Failure::new(Exit::Data, what)
            .try_this("compare with a backup: `standpipe jobs backup`, `standpipe jobs export`"))
    };
    if let Some((first, last)) = found.broken {
        let also: String =
            found.also_broken.iter().take(NAMED).map(|(a, b)| format!(", {a} to {b}")).collect();
        let more = match found.also_broken.len().saturating_sub(NAMED) {
            0 => String::new(),
            n => format!(" and {n} more batches"),
        };
        return changed(format!(
            "the journal {} was changed after it was written: events {first} to {last}{also}{more} do not fit their seal",
            path.display()
        ));
    }
    if let Some(stated) = seal.filter(|s| s.len() < 8 || !found.seal.starts_with(&s.to_lowercase())) {
        return changed(format!(
            "the seal {stated} of the printed report is not that of the journal, {}: one of the two was changed",
            found.seal
        ));
    }
    if let Some(photo) = photos.iter().find(|p| p.state != PhotoState::Same) {
        return changed(format!("the photo {} was changed or is missing", shown(&photo.name)));
    }
    if screen.is_json() { Ok(()) } else { screen.line("nothing was changed since it was written") }
}

fn photos(journal: &Journal, job: u64) -> Result<Vec<PhotoLine>, Failure> {
    let events = service::read_job(&journal.path(), Some(job))?.events;
    let folder = journal.folder();
    let photo = |body: Body| match body {
        Body::Told(told) => match told.request {
            Request::Photo { sha256, name } => {
                let state = service::check_photo(&folder, &sha256, &name);
                Some(PhotoLine { sha256, name, state })
            }
            _ => None,
        },
        _ => None,
    };
    Ok(events.into_iter().filter_map(|e| photo(e.body)).collect())
}

fn check(path: &Path, screen: Screen) -> Result<(), Failure> {
    match service::check(path)? {
        None => screen.line(if screen.is_json() { r#"{"healthy":true}"# } else { "the file is healthy" }),
        Some(what) => Err(Failure::new(
            Exit::Data,
            format!("the journal {} is damaged: {what}", path.display()),
        )
        .try_this(
            "stop the daemon and start it again: it takes over what can be read and keeps the damaged file",
        )),
    }
}

fn export(journal: &Journal, job: Option<u64>, into: Option<&Path>) -> Result<(), Failure> {
    let path = journal.path();
    let Some(file) = into else {
        let mut out = std::io::BufWriter::new(std::io::stdout().lock());
        let exported = service::export(&path, &journal.bay, job, &mut out)?;
        out.flush().map_err(|e| Failure::new(Exit::InputOutput, format!("cannot write the output: {e}")))?;
        return unread(&exported);
    };
    // Plates of customers stand in it.
    let mut private = std::fs::File::options();
    std::os::unix::fs::OpenOptionsExt::mode(private.write(true).create_new(true), 0o600);
    let made = private.open(file).map_err(|e| Failure::file("make", file, &e))?;
    let mut out = std::io::BufWriter::new(made);
    let exported = service::export(&path, &journal.bay, job, &mut out)?;
    let made = out.into_inner().map_err(|e| Failure::file("write", file, e.error()))?;
    made.sync_all().map_err(|e| Failure::file("write", file, &e))?;
    say(&format!("{} events written to {}", exported.events, file.display()));
    unread(&exported)
}

/// Everything that can be read is written by now; what cannot is said.
fn unread(exported: &service::Exported) -> Result<(), Failure> {
    let Some((seq, why)) = exported.unread.first() else { return Ok(()) };
    let more = match exported.unread.len() {
        1 => String::new(),
        n => format!(", and {} more", n - 1),
    };
    Err(Failure::new(
        Exit::Data,
        format!("the event {seq} cannot be read: {why}{more}; all others were written"),
    )
    .try_this("`standpipe jobs verify` names all that is not as it was written; a backup may have it whole"))
}

fn import(journal: &Journal, file: &Path) -> Result<(), Failure> {
    let opened = std::fs::File::open(file).map_err(|e| Failure::file("read", file, &e))?;
    let mut lines = std::io::BufReader::new(opened);
    let service::Imported { path, events, sealed } =
        service::import(&mut lines, &journal.folder(), &journal.bay)?;
    let unsealed =
        if sealed { "" } else { "; the file has no seals, so nothing shows whether it was changed" };
    say(&format!("{events} events read into {}{unsealed}", path.display()));
    Ok(())
}
