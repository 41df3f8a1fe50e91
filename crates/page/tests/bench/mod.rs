//! A daemon that says what a test wants, and the page behind it. The browser tests of the program use it too.

#![allow(dead_code, unreachable_pub, reason = "each test file uses its own part of this")]
#![allow(missing_docs, reason = "test support")]

use std::io::{BufRead as _, BufReader, Write as _};
use std::net::SocketAddr;
use std::os::unix::net::{UnixListener, UnixStream};
use std::path::Path;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant, SystemTime, UNIX_EPOCH};

use events::Sheet;
use page::{Config, JobRow, Limits, Name, Page, Pairings, Shelf};
use units::text::UnitSystem;
use units::{Clock, Mono, Sleep};
use words::Lang;

/// Real time.
pub struct Real(pub Instant);

impl Clock for Real {
    fn now(&self) -> Mono {
        Mono::from_millis(self.0.elapsed().as_millis() as u64)
    }
    fn wall_millis(&self) -> i64 {
        SystemTime::now().duration_since(UNIX_EPOCH).unwrap().as_millis() as i64
    }
    fn sleep_until(&self, at: Mono) -> Sleep {
        Box::pin(tokio::time::sleep(at.since(self.now())))
    }
}

/// A moment of `fixtures/screens`, wherever in the workspace the test stands.
fn moment(name: &str) -> serde_json::Value {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    let file = here.ancestors().map(|at| at.join("fixtures/screens").join(format!("{name}.json")));
    let text = file.filter_map(|file| std::fs::read_to_string(file).ok()).next().unwrap();
    serde_json::from_str(&text).unwrap()
}

/// Says one moment of `fixtures/screens`, again and again so that it does not grow old, and hears what is told.
pub struct Moment {
    pub told: Receiver<String>,
    _stop: Sender<()>,
}

impl Moment {
    pub fn say(socket: &Path, moment: &str) -> Self {
        let snapshot = self::moment(moment);
        let listener = UnixListener::bind(socket).unwrap();
        let (telling, told) = channel();
        let (stop, stopped) = channel::<()>();
        std::thread::spawn(move || {
            let (stream, _) = listener.accept().unwrap();
            let hearing = stream.try_clone().unwrap();
            std::thread::spawn(move || hear(hearing, &telling));
            speak(stream, &snapshot, &stopped);
        });
        Self { told, _stop: stop }
    }
}

fn speak(mut stream: UnixStream, snapshot: &serde_json::Value, stopped: &Receiver<()>) {
    let protocol = events::PROTOCOL;
    let hello = serde_json::json!({
        "kind": "hello", "protocol": protocol, "version": "0", "bay": "Bay 2", "boot": "b", "last_seq": 1042,
    });
    let _ = writeln!(stream, "{hello}\n{snapshot}");
    // Ended by the test's end or by its word; the pause is the pace of a real adapter.
    while stopped.recv_timeout(Duration::from_millis(400)) == Err(std::sync::mpsc::RecvTimeoutError::Timeout)
    {
        for reading in snapshot["readings"].as_array().unwrap() {
            let mut event = reading.clone();
            let fields = event.as_object_mut().unwrap();
            fields.extend(
                serde_json::json!({"kind": "reading", "seq": 1043, "at": "2026-03-02T08:31:08Z", "mono_ms": 0})
                    .as_object()
                    .unwrap()
                    .clone(),
            );
            if writeln!(stream, "{event}").is_err() {
                return;
            }
        }
    }
}

fn hear(stream: UnixStream, telling: &Sender<String>) {
    let mut answering = stream.try_clone().unwrap();
    for line in BufReader::new(stream).lines().map_while(Result::ok) {
        let told: serde_json::Value = serde_json::from_str(&line).unwrap();
        let word =
            serde_json::json!({"kind": "accepted", "id": told["id"], "seq": 1050, "advice": "stay-clear"});
        let _ = writeln!(answering, "{word}");
        if telling.send(line).is_err() {
            return;
        }
    }
}

/// A shelf with one job on it.
pub struct OneJob;

impl Shelf for OneJob {
    fn jobs(&self, _: Lang) -> Result<Vec<JobRow>, String> {
        Ok(vec![JobRow {
            job: 1,
            started: "2026-03-02T08:00:00.000Z".to_owned(),
            day: "2 March 2026".to_owned(),
            sheet: "Demo six-speed, transverse".to_owned(),
            says: "The level is set.".to_owned(),
        }])
    }

    fn report(&self, job: u64, _: Lang) -> Result<String, String> {
        if job == 1 {
            Ok("<!doctype html><title>Job 1</title><p>A report.".to_owned())
        } else {
            Err("There is no such job.".to_owned())
        }
    }

    fn plan(&self, sheet: &Sheet, _: Lang) -> Result<String, String> {
        Ok(format!("# Plan: {}", sheet.name))
    }
}

pub struct Served {
    pub at: SocketAddr,
    pub pairings: Arc<Pairings>,
}

impl Served {
    pub fn url(&self) -> String {
        format!("http://{}", self.at)
    }
}

/// A page for the daemon at `socket`.
pub fn serve(folder: &Path, always_pair: bool, clock: Option<Arc<dyn Clock>>, limits: Limits) -> Served {
    let clock = clock.unwrap_or_else(|| Arc::new(Real(Instant::now())));
    serve_as(Config { clock, ..config(folder, always_pair, limits) })
}

/// What a page for the daemon at `folder/socket` is given.
pub fn config(folder: &Path, always_pair: bool, limits: Limits) -> Config {
    Config {
        listen: ([127, 0, 0, 1], 0).into(),
        names: Vec::<Name>::new(),
        always_pair,
        socket: folder.join("socket"),
        pairings: folder.join("bay.pairings"),
        clock: Arc::new(Real(Instant::now())),
        units: UnitSystem::Metric,
        lang: None,
        shelf: Arc::new(OneJob),
        limits,
    }
}

/// A page.
pub fn serve_as(config: Config) -> Served {
    let page = Page::bind(config).unwrap();
    let served = Served { at: page.address(), pairings: page.pairings() };
    page.run_beside().unwrap();
    served
}

/// Something that two threads share and tests look at.
pub fn shared<T>(value: T) -> Arc<Mutex<T>> {
    Arc::new(Mutex::new(value))
}
