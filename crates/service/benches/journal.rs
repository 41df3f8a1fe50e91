//! How the journal grows: lists, dues, one job's events, and the start of a daemon, with none to a hundred thousand jobs.
//!
//! `cargo bench -p service` (the largest journal takes a minute and a gigabyte to make). The floor of the same run is the journal without a
//! job: opening the file and asking. What is claimed, 100 ms for each reader and 300 ms for a start, must hold beyond that floor.

#![allow(clippy::unwrap_used, reason = "a bench")]

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, OnceLock};

use events::{Body, Estimate, Event, JobResult, Outcome, Request, Seq, Sheet, Told, Utc};
use service::{Config, Daemon, JobQuery, Limits, Memory, SystemClock};
use units::{Celsius, Kelvins, Mono};

/// Jobs in the journal.
const JOBS: &[u64] = &[0, 1_000, 10_000, 100_000];
/// Told things and samples of each job, and samples of the last one, which is as long as a rehearsal.
const TOLD: u64 = 24;
const SAMPLES: u64 = 12;
const LONG: u64 = 4_000;

fn main() {
    divan::main();
}

fn sheet() -> Sheet {
    Sheet::parse(include_str!("../../../fixtures/sheets/demo-six-speed.toml")).unwrap()
}

/// The folder of a journal with so many jobs, made once in a run.
fn folder(jobs: u64) -> PathBuf {
    static MADE: OnceLock<Mutex<BTreeMap<u64, tempfile::TempDir>>> = OnceLock::new();
    let mut made = MADE.get_or_init(Mutex::default).lock().unwrap();
    made.entry(jobs).or_insert_with(|| make(jobs)).path().to_path_buf()
}

fn make(jobs: u64) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let mut lines = Lines { seq: 0, text: String::new(), sheet: Box::new(sheet()) };
    writeln!(lines.text, "{{\"export\":1,\"bay\":\"bay\",\"sealed\":false}}").unwrap();
    let file = folder.path().join("lines");
    let mut out = std::io::BufWriter::new(std::fs::File::create(&file).unwrap());
    for job in 1..=jobs {
        lines.job(job, if job == jobs { LONG } else { SAMPLES });
        std::io::Write::write_all(&mut out, lines.text.as_bytes()).unwrap();
        lines.text.clear();
    }
    std::io::Write::write_all(&mut out, lines.text.as_bytes()).unwrap();
    drop(out);
    let mut read = std::io::BufReader::new(std::fs::File::open(&file).unwrap());
    service::import(&mut read, folder.path(), "bay").unwrap();
    std::fs::remove_file(file).unwrap();
    folder
}

struct Lines {
    seq: u64,
    text: String,
    sheet: Box<Sheet>,
}

impl Lines {
    fn put(&mut self, job: u64, body: Body) {
        self.seq += 1;
        // A job an hour from the spring of 2026 on.
        let millis = 1_772_442_847_000 + i64::try_from(job).unwrap() * 3_600_000;
        let event = Event {
            seq: Seq(self.seq),
            at: Utc::from_millis(millis),
            mono_ms: Mono::from_millis(self.seq),
            body,
        };
        writeln!(self.text, "{}", serde_json::to_string(&event).unwrap()).unwrap();
    }

    fn job(&mut self, job: u64, samples: u64) {
        self.put(
            job,
            Body::Job {
                job,
                sheet: self.sheet.clone(),
                recheck_of: None,
                task: events::Task::Change,
                people: events::People::Two,
                uptime: None,
            },
        );
        let told = |n, request| Body::Told(Told { id: format!("{job}-{n}"), by: None, request });
        self.put(job, told(0, Request::Vehicle { text: format!("QL {}", job % 9_000) }));
        for n in 1..TOLD {
            self.put(
                job,
                told(n, Request::Note { text: "the plug was tight, the fluid dark and warm".to_owned() }),
            );
        }
        for n in 0..samples {
            let celsius = Celsius::clamped(20.0 + n as f64 / 200.0);
            self.put(
                job,
                Body::Estimate(Estimate {
                    celsius,
                    u: Kelvins::clamped(0.6),
                    kelvins_per_minute: None,
                    fluid: None,
                }),
            );
        }
        let at = Utc::from_millis(1_772_442_847_000 + i64::try_from(job).unwrap() * 3_600_000);
        let outcome = if job.is_multiple_of(17) { Outcome::NotSet } else { Outcome::Set };
        let recheck_due =
            if outcome == Outcome::Set { vec![at.plus_days(3), at.plus_days(14)] } else { vec![] };
        self.put(
            job,
            Body::Result(JobResult {
                outcome,
                level_error: None,
                shortfalls: vec![],
                closure: vec![],
                add_millilitres: None,
                recheck_of: None,
                low_by_more_than_millilitres: None,
                found_millilitres: None,
                found_expanded_millilitres: None,
                drivable: None,
                net_millilitres: None,
                expanded_millilitres: None,
                guessed: Box::default(),
                guess_cost: None,
                complaint: None,
                untold: Vec::new(),
                open: vec![],
                recheck_due,
            }),
        );
    }
}

fn path(folder: &Path) -> PathBuf {
    folder.join("bay.journal")
}

#[divan::bench(args = JOBS, sample_count = 20)]
fn jobs_latest(bencher: divan::Bencher<'_, '_>, jobs: u64) {
    let path = path(&folder(jobs));
    bencher.bench(|| service::list_jobs(&path, &JobQuery { limit: 50, ..JobQuery::default() }).unwrap());
}

#[divan::bench(args = JOBS, sample_count = 20)]
fn jobs_of_a_vehicle(bencher: divan::Bencher<'_, '_>, jobs: u64) {
    let path = path(&folder(jobs));
    let query = JobQuery { vehicle: Some("ql 17".to_owned()), limit: 50, ..JobQuery::default() };
    bencher.bench(|| service::list_jobs(&path, &query).unwrap());
}

/// The worst search: nothing fits, so every row is looked at.
#[divan::bench(args = JOBS, sample_count = 20)]
fn jobs_that_are_not_there(bencher: divan::Bencher<'_, '_>, jobs: u64) {
    let path = path(&folder(jobs));
    let query = JobQuery { vehicle: Some("no such".to_owned()), limit: 50, ..JobQuery::default() };
    bencher.bench(|| service::list_jobs(&path, &query).unwrap());
}

#[divan::bench(args = JOBS, sample_count = 20)]
fn due(bencher: divan::Bencher<'_, '_>, jobs: u64) {
    let path = path(&folder(jobs));
    bencher.bench(|| service::due(&path, Utc::from_millis(1_900_000_000_000), 500).unwrap());
}

/// The events of the last job, as many as a rehearsal has, and its seal: what a report reads.
#[divan::bench(args = JOBS, sample_count = 20)]
fn report(bencher: divan::Bencher<'_, '_>, jobs: u64) {
    let path = path(&folder(jobs));
    bencher.bench(|| (service::read_job(&path, None), service::job_seal(&path, jobs)));
}

/// A daemon's start: journal opened, last job folded, socket listening.
#[divan::bench(args = JOBS, sample_count = 10)]
fn start(bencher: divan::Bencher<'_, '_>, jobs: u64) {
    let folder = folder(jobs);
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
    bencher.bench_local(|| {
        runtime.block_on(async {
            let device = adapter::Device::Serial { path: folder.join("no-adapter"), baud: None };
            let socket = folder.join("socket");
            let daemon = Daemon::start(Config {
                bay: "bay".to_owned(),
                sheet: sheet(),
                sheets: Vec::new(),
                socket: socket.clone(),
                socket_group: None,
                journal: folder.clone(),
                opener: Some(Arc::new(device)),
                clock: Arc::new(SystemClock::start()),
                version: "bench".to_owned(),
                limits: Limits::default(),
                memory: Memory::open(&folder, "bay"),
                recorder: None,
                machine: None,
                find: None,
            });
            drop(daemon.unwrap());
            std::fs::remove_file(socket).unwrap();
        });
    });
}
