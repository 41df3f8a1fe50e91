//! How long from the byte on the serial line to the painted verdict, with the floor of a bare page beside it; and what
//! a hundred open pages do to the daemon.
//!
//! ```sh
//! cargo bench -p page --bench paint -- latency 150     # 150 verdicts, two seconds each, headless Chromium
//! cargo bench -p page --bench paint -- hundred 600     # no page for 600 seconds, then 100 pages for 600
//! ```
//!
//! Everything is real but the vehicle: pseudo-terminal, serial code, daemon, journal on disk, socket, page, browser.
//! The simulated vehicle begins to roll and stops again; each changes what is open, and so the verdict. A time is taken
//! when the prompt behind the telling reply has been written, and again in the browser when the frame after the change
//! is out.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    clippy::print_stderr,
    unreachable_pub,
    dead_code,
    missing_docs,
    reason = "a bench"
)]

#[path = "../../../tests/page/browser.rs"]
mod browser;

use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::{SocketAddr, TcpListener, TcpStream};
use std::os::unix::net::UnixStream;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant, SystemTime, UNIX_EPOCH};

use adapter::{Device, Opener};
use events::Sheet;
use page::{JobRow, Page, Shelf};
use rehearsal::pty::{Bench, Cable, Port};
use rehearsal::{Car, Setup, embedded};
use service::{Config, Daemon, Memory, SystemClock};
use units::Mono;
use words::Lang;

/// Milliseconds since 1970, with the fraction: the one clock that browser and bench share.
fn now_ms() -> f64 {
    SystemTime::now().duration_since(UNIX_EPOCH).unwrap().as_secs_f64() * 1_000.0
}

/// The simulated vehicle, and when it told a change of its speed.
struct Watched {
    car: Car,
    said: String,
    wanted: Option<&'static str>,
    found: bool,
    changes: Vec<Change>,
}

/// A change that the vehicle told.
#[derive(Clone)]
struct Change {
    told: f64,
    /// Told for good: asked for once more, because a change counts when it comes twice; or at once.
    decided: f64,
    reply: String,
}

impl Bench for Watched {
    fn take(&mut self, bytes: &[u8], now: Mono) {
        self.said.clear();
        self.car.handle_bytes(bytes, now);
    }
    fn give(&mut self, now: Mono) -> Option<Vec<u8>> {
        let bytes = self.car.poll_transmit(now)?;
        self.said.extend(bytes.iter().map(|b| char::from(*b)).filter(|c| !c.is_whitespace()));
        self.found |= self.wanted.is_some_and(|w| self.said.contains(w));
        if bytes.contains(&b'>') {
            let now = now_ms();
            if let Some(last) =
                self.changes.last_mut().filter(|c| c.reply == self.said && now - c.told < AGAIN_MS)
            {
                last.decided = now;
            }
            if self.found {
                self.changes.push(Change { told: now, decided: now, reply: self.said.clone() });
                (self.wanted, self.found) = (None, false);
            }
        }
        Some(bytes)
    }
    fn deadline(&self) -> Option<Mono> {
        self.car.poll_timeout()
    }
    fn wake(&mut self, now: Mono) {
        self.car.handle_timeout(now);
    }
    fn plugged(&self) -> bool {
        self.car.plugged()
    }
}

/// The same reply so soon after the first is the one that was asked for once more.
const AGAIN_MS: f64 = 200.0;

struct NoShelf;

impl Shelf for NoShelf {
    fn jobs(&self, _: Lang) -> Result<Vec<JobRow>, String> {
        Ok(vec![])
    }
    fn report(&self, _: u64, _: Lang) -> Result<String, String> {
        Err("none".to_owned())
    }
    fn plan(&self, _: &Sheet, _: Lang) -> Result<String, String> {
        Err("none".to_owned())
    }
}

struct Workshop {
    car: Arc<Mutex<Watched>>,
    socket: PathBuf,
    at: SocketAddr,
    folder: tempfile::TempDir,
}

impl Workshop {
    fn open() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let setup = Setup::named(None, &embedded::six_speed(), Some(embedded::warmup()), 1);
        let watched =
            Watched { car: setup.car(), said: String::new(), wanted: None, found: false, changes: vec![] };
        let car = Arc::new(Mutex::new(watched));
        let (device, socket) = (folder.path().join("adapter"), folder.path().join("socket"));
        let opener: Arc<dyn Opener> = Arc::new(Device::Serial { path: device.clone(), baud: None });
        let config = Config {
            bay: "bay".to_owned(),
            sheet: setup.sheet.clone(),
            sheets: vec![],
            socket: socket.clone(),
            socket_group: None,
            journal: folder.path().to_path_buf(),
            opener: Some(opener),
            clock: Arc::new(SystemClock::start()),
            version: "bench".to_owned(),
            limits: service::Limits::default(),
            memory: Memory::default(),
            recorder: None,
            machine: None,
            find: None,
        };
        let hands = Arc::clone(&car);
        std::thread::spawn(move || {
            runtime().block_on(async move {
                let port = Port::plug_in(&device, Arc::new(Cable::default())).unwrap();
                let _ = port.serve(hands, Arc::new(SystemClock::start()), Arc::default()).await;
            });
        });
        let (ready, is_ready) = std::sync::mpsc::channel();
        std::thread::spawn(move || {
            runtime().block_on(async move {
                let daemon = Daemon::start(config).unwrap();
                ready.send(()).unwrap();
                daemon.run(std::future::pending()).await.unwrap();
            });
        });
        is_ready.recv().unwrap();
        let page = Page::bind(page::Config {
            listen: ([127, 0, 0, 1], 0).into(),
            names: vec![],
            always_pair: false,
            socket: socket.clone(),
            pairings: folder.path().join("bay.pairings"),
            clock: Arc::new(SystemClock::start()),
            units: units::text::UnitSystem::Metric,
            lang: None,
            shelf: Arc::new(NoShelf),
            limits: page::Limits::default(),
        })
        .unwrap();
        let at = page.address();
        page.run_beside().unwrap();
        car.lock().unwrap().car.world_mut().start_engine();
        let shop = Self { car, socket, at, folder };
        shop.tell_start();
        shop
    }

    /// Starts the job and waits until the vehicle is seen standing.
    fn tell_start(&self) {
        let mut stream = UnixStream::connect(&self.socket).unwrap();
        writeln!(stream, r#"{{"id":"1","tell":"start"}}"#).unwrap();
        writeln!(stream, r#"{{"since":0}}"#).unwrap();
        let still = r#""precondition":"standing-still","holds":true"#;
        BufReader::new(stream).lines().map_while(Result::ok).find(|l| l.contains(still)).unwrap();
    }

    /// Rolls, or stands: the next telling reply is timed.
    fn roll(&self, rolls: bool) {
        let mut watched = self.car.lock().unwrap();
        watched.car.world_mut().drive(if rolls { 91.0 } else { 0.0 });
        watched.wanted = Some(if rolls { "0D5B" } else { "0D00" });
    }

    /// Rolls and stands in turn for so long; gives when each change stood on the line.
    fn rolls(&self, times: usize) -> Vec<Change> {
        self.car.lock().unwrap().changes.clear();
        for n in 0..times {
            self.roll(n % 2 == 0);
            std::thread::sleep(Duration::from_millis(2_600));
        }
        self.car.lock().unwrap().changes.clone()
    }
}

fn runtime() -> tokio::runtime::Runtime {
    tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap()
}

/// The instants of `after` that follow those of `before`, as differences.
fn latencies(before: &[f64], after: &[f64]) -> Vec<f64> {
    let following = |b: &f64| after.iter().find(|a| *a >= b).map(|a| a - b).filter(|d| *d < 2_000.0);
    before.iter().filter_map(following).collect()
}

fn says(what: &str, mut times: Vec<f64>) {
    times.sort_by(f64::total_cmp);
    let at = |share: f64| times[((times.len() - 1) as f64 * share).round() as usize];
    println!(
        "{what:<44} n {:>4}   median {:>6.1} ms   p99 {:>6.1} ms   worst {:>6.1} ms",
        times.len(),
        at(0.5),
        at(0.99),
        at(1.0)
    );
}

/// Notes the time of each frame that follows a change below `watched`.
fn painting(watched: &str) -> String {
    format!(
        "window.paintedAt = []; \
         const channel = new MessageChannel(); \
         channel.port1.onmessage = () => paintedAt.push(performance.timeOrigin + performance.now()); \
         new MutationObserver(() => requestAnimationFrame(() => channel.port2.postMessage(0))) \
         .observe({watched}, {{childList: true, characterData: true, subtree: true}})"
    )
}

async fn painted(browser: &browser::Browser) -> Vec<f64> {
    browser
        .run("return paintedAt")
        .await
        .as_array()
        .unwrap()
        .iter()
        .filter_map(serde_json::Value::as_f64)
        .collect()
}

fn latency(times: usize) {
    let Some(driver) = browser::Driver::start() else { return };
    runtime().block_on(async {
        let browser = driver.browser(360, 640).await;
        let (url, sent) = bare_page(times);
        browser.open(&url).await;
        browser.run(&painting("document.getElementById('word')")).await;
        // Asking disturbs; the stream is as long as it is.
        std::thread::sleep(Duration::from_millis(2_500 + 400 * times as u64));
        browser.until(&format!("paintedAt.length >= {times}")).await;
        let shown = painted(&browser).await;
        says("floor: bare page, event sent to painted", latencies(&sent.lock().unwrap(), &shown));

        let shop = Workshop::open();
        browser.open(&format!("http://{}", shop.at)).await;
        browser.until("document.body.dataset.contact === 'yes'").await;
        browser.run(&painting("document.getElementById('open')")).await;
        let changes = shop.rolls(times);
        let shown = painted(&browser).await;
        let since = |at: fn(&Change) -> f64| latencies(&changes.iter().map(at).collect::<Vec<_>>(), &shown);
        says("serial byte that tells it first to painted", since(|change| change.told));
        says("serial byte that decides to painted verdict", since(|change| change.decided));
        browser.close().await;
    });
}

/// A page with one word and an event stream: the least that a browser can be asked to do.
fn bare_page(times: usize) -> (String, Arc<Mutex<Vec<f64>>>) {
    const HTML: &str = "<!doctype html><p id=word>0<p id=answer><script>new EventSource('/live').onmessage = \
                        m => document.getElementById('word').textContent = m.data</script>";
    let listener = TcpListener::bind("127.0.0.1:0").unwrap();
    let url = format!("http://{}", listener.local_addr().unwrap());
    let sent = Arc::new(Mutex::new(Vec::new()));
    let sending = Arc::clone(&sent);
    std::thread::spawn(move || {
        for mut stream in listener.incoming().flatten() {
            let sending = Arc::clone(&sending);
            std::thread::spawn(move || {
                let _ = stream.set_nodelay(true);
                let mut head = [0; 4_096];
                let n = stream.read(&mut head).unwrap_or(0);
                if !head[..n].starts_with(b"GET /live") {
                    let length = HTML.len();
                    let _ = write!(
                        stream,
                        "HTTP/1.1 200 OK\r\nContent-Type: text/html\r\nContent-Length: {length}\r\nConnection: close\r\n\r\n{HTML}"
                    );
                    return;
                }
                let _ = write!(stream, "HTTP/1.1 200 OK\r\nContent-Type: text/event-stream\r\n\r\n");
                std::thread::sleep(Duration::from_secs(2));
                for n in 1..=times + 5 {
                    std::thread::sleep(Duration::from_millis(400));
                    sending.lock().unwrap().push(now_ms());
                    if write!(stream, "data: {n}\n\n").is_err() {
                        return;
                    }
                }
            });
        }
    });
    (url, sent)
}

/// What a client of the socket sees: when verdicts came, how many readings.
#[derive(Default)]
struct SocketTally {
    verdicts: Vec<f64>,
    readings: usize,
}

fn listen(socket: &PathBuf) -> Arc<Mutex<SocketTally>> {
    let heard = Arc::new(Mutex::new(SocketTally::default()));
    let (stream, hearing) = (UnixStream::connect(socket).unwrap(), Arc::clone(&heard));
    std::thread::spawn(move || {
        for line in BufReader::new(stream).lines().map_while(Result::ok) {
            let mut heard = hearing.lock().unwrap();
            if line.contains(r#""kind":"verdict""#) {
                heard.verdicts.push(now_ms());
            }
            heard.readings += usize::from(line.contains(r#""kind":"reading""#));
        }
    });
    heard
}

/// How long the disk takes for what a verdict waits for, milliseconds each: a fact is on disk before anyone sees it.
fn synced(path: &Path) -> Vec<f64> {
    let mut file = std::fs::File::create(path).unwrap();
    let times = (0..10 * MINUTE_ROLLS).map(|_| {
        std::thread::sleep(Duration::from_millis(100));
        let began = Instant::now();
        file.write_all(&[0; 4_096]).unwrap();
        file.sync_data().unwrap();
        began.elapsed().as_secs_f64() * 1_000.0
    });
    times.collect()
}

/// Resident memory of this process, KiB: daemon, page and the hundred readers together.
fn resident() -> u64 {
    let text = std::fs::read_to_string("/proc/self/statm").unwrap();
    text.split(' ').nth(1).unwrap().parse::<u64>().unwrap() * 4
}

/// About a minute of rolling and standing. It ends standing: to roll when it rolls already changes no verdict.
const MINUTE_ROLLS: usize = 22;
/// A verdict later than this is told with the reply that it followed.
const LATE_MS: f64 = 200.0;

fn hundred(seconds: u64) {
    let shop = Workshop::open();
    let heard = listen(&shop.socket);
    let measure = |what: &str| {
        *heard.lock().unwrap() = SocketTally::default();
        let (began, mut memory, mut changes) = (Instant::now(), vec![resident()], Vec::new());
        for _ in 0..seconds.div_ceil(60) {
            changes.append(&mut shop.rolls(MINUTE_ROLLS));
            memory.push(resident());
        }
        let heard = heard.lock().unwrap();
        let minutes = began.elapsed().as_secs_f64() / 60.0;
        let at: Vec<f64> = changes.iter().map(|change| change.told).collect();
        says(&format!("{what}: serial byte to verdict on the socket"), latencies(&at, &heard.verdicts));
        for Change { told, reply, .. } in &changes {
            let after = heard.verdicts.iter().find(|verdict| *verdict >= told).map(|verdict| verdict - told);
            if after.is_none_or(|ms| ms > LATE_MS) {
                println!("{what}: {after:?} ms after {reply:?}");
            }
        }
        println!("{what}: {:.1} readings a minute", heard.readings as f64 / minutes);
        println!("{what}: memory minute by minute, KiB: {memory:?}");
    };
    says("floor: 4 KiB written and synced beside the journal", synced(&shop.folder.path().join("floor")));
    measure("no page");
    let stop = Arc::new(AtomicBool::new(false));
    let pages: Vec<_> = (0..100).map(|n| a_page(shop.at, n % 2 == 0, Arc::clone(&stop))).collect();
    measure("100 pages");
    stop.store(true, Ordering::Relaxed);
    let frames: Vec<usize> = pages.into_iter().map(|p| p.join().unwrap()).collect();
    println!("frames to each page: {} to {}", frames.iter().min().unwrap(), frames.iter().max().unwrap());
}

/// Reads a page's stream to the end; gives how many frames came.
fn a_page(at: SocketAddr, under: bool, stop: Arc<AtomicBool>) -> std::thread::JoinHandle<usize> {
    std::thread::spawn(move || {
        let mut stream = TcpStream::connect(at).unwrap();
        let seat = if under { "under" } else { "inside" };
        write!(stream, "GET /live?seat={seat} HTTP/1.1\r\nHost: {at}\r\n\r\n").unwrap();
        let lines = BufReader::new(stream).lines().map_while(Result::ok);
        let mut frames = 0;
        for line in lines {
            frames += usize::from(line.starts_with("data: "));
            if stop.load(Ordering::Relaxed) {
                break;
            }
        }
        frames
    })
}

fn main() {
    let words: Vec<String> = std::env::args().skip(1).filter(|a| !a.starts_with("--")).collect();
    let number = |or: usize| words.get(1).and_then(|n| n.parse().ok()).unwrap_or(or);
    match words.first().map(String::as_str) {
        Some("hundred") => hundred(number(600) as u64),
        _ => latency(number(150)),
    }
}
