//! A daemon that says what a test wants, and the page behind it.

use std::io::{BufRead as _, BufReader, Write as _};
use std::net::SocketAddr;
use std::os::unix::net::{UnixListener, UnixStream};
use std::path::Path;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex};
use std::time::Duration;

use events::Sheet;
use page::{Config, JobRow, Limits, Page, Pairings, Shelf};
use service::SystemClock;
use units::Clock;
use units::text::UnitSystem;

/// Says one moment of `fixtures/screens`, again and again so that it does not grow old, and hears what is told.
pub struct Moment {
    pub told: Receiver<String>,
    _stop: Sender<()>,
}

impl Moment {
    pub fn say(socket: &Path, moment: &str) -> Self {
        let text =
            std::fs::read_to_string(crate::common::fixture(&format!("screens/{moment}.json"))).unwrap();
        let snapshot: serde_json::Value = serde_json::from_str(&text).unwrap();
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
    let hello = r#"{"kind":"hello","protocol":1,"version":"0","bay":"Bay 2","boot":"b","last_seq":1042}"#;
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
    fn jobs(&self) -> Result<Vec<JobRow>, String> {
        Ok(vec![JobRow {
            job: 1,
            started: "2026-03-02T08:00:00.000Z".to_owned(),
            sheet: "Demo six-speed, transverse".to_owned(),
            says: "The level is set.".to_owned(),
        }])
    }

    fn report(&self, job: u64) -> Result<String, String> {
        if job == 1 {
            Ok("<!doctype html><title>Job 1</title><p>A report.".to_owned())
        } else {
            Err("There is no such job.".to_owned())
        }
    }

    fn plan(&self, sheet: &Sheet) -> Result<String, String> {
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
    let page = Page::bind(Config {
        listen: ([127, 0, 0, 1], 0).into(),
        names: vec![],
        always_pair,
        socket: folder.join("socket"),
        pairings: folder.join("bay.pairings"),
        clock: clock.unwrap_or_else(|| Arc::new(SystemClock::start())),
        units: UnitSystem::Metric,
        shelf: Arc::new(OneJob),
        limits,
    })
    .unwrap();
    let served = Served { at: page.address(), pairings: page.pairings() };
    page.run_beside().unwrap();
    served
}

/// Something that two threads share and tests look at.
pub fn shared<T>(value: T) -> Arc<Mutex<T>> {
    Arc::new(Mutex::new(value))
}
