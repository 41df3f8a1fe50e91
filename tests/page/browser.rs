//! A real Chromium, driven over WebDriver.

use std::io::{BufRead as _, BufReader, Read as _};
use std::process::{Child, Command, Stdio};
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

use fantoccini::elements::Element;
use fantoccini::wd::WebDriverCompatibleCommand;
use fantoccini::{Client, ClientBuilder, Locator};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Value, json};

/// As root in a closed network: nothing that phones home.
const FLAGS: &[&str] = &[
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
    "--hide-scrollbars",
];

/// Nothing in these tests takes longer, however slow the machine.
pub const PATIENCE: Duration = Duration::from_secs(60);

/// The driver is an outside program: one that ends at its start is started again so often, and what it said is told.
const STARTS: u32 = 3;

static ONE_AT_A_TIME: Mutex<()> = Mutex::new(());

/// The driver's process, and the right to use a browser.
pub struct Driver {
    child: Child,
    url: String,
    _turn: MutexGuard<'static, ()>,
}

impl Driver {
    /// `None` where there is no browser and it is no failure; says so then.
    pub fn start() -> Option<Self> {
        let turn = ONE_AT_A_TIME.lock().unwrap_or_else(PoisonError::into_inner);
        let mut said = String::new();
        for _ in 0..STARTS {
            let spawned = Command::new("chromedriver")
                .arg("--port=0")
                .stdout(Stdio::piped())
                .stderr(Stdio::piped())
                .spawn();
            let Ok(mut child) = spawned else {
                assert!(std::env::var_os("CI").is_none(), "CI needs chromium and chromium-driver");
                eprintln!("left out: there is no chromedriver; `cargo xtask test` installs it where it may");
                return None;
            };
            let mut lines = BufReader::new(child.stdout.take().unwrap()).lines().map_while(Result::ok);
            let port = lines.by_ref().find_map(|line| {
                said += &format!("{line}\n");
                let (_, rest) = line.split_once("successfully on port ")?;
                rest.trim_end_matches('.').parse::<u16>().ok()
            });
            let mut complaints = child.stderr.take().unwrap();
            if let Some(port) = port {
                // It goes on talking, and must never wait for somebody who listens.
                std::thread::spawn(move || lines.for_each(drop));
                std::thread::spawn(move || std::io::copy(&mut complaints, &mut std::io::sink()));
                let url = format!("http://127.0.0.1:{port}");
                return Some(Self { child, url, _turn: turn });
            }
            let _ = complaints.read_to_string(&mut said);
            said += &format!("{:?}\n", child.wait());
        }
        panic!("chromedriver ends without a port, {STARTS} times:\n{said}");
    }

    /// One more browser, with a profile and so with cookies of its own.
    pub async fn browser(&self, width: u32, height: u32) -> Browser {
        let profile = tempfile::tempdir().unwrap();
        let mut flags: Vec<String> = FLAGS.iter().map(|f| (*f).to_owned()).collect();
        flags.push(format!("--user-data-dir={}", profile.path().display()));
        let mut wanted = serde_json::Map::new();
        wanted.insert("goog:chromeOptions".to_owned(), json!({"args": flags}));
        let mut builder = ClientBuilder::new(HttpConnector::new());
        let client = builder.capabilities(wanted).connect(&self.url).await.expect("the browser starts");
        let browser = Browser { client, _profile: profile };
        browser.size(width, height, 1.0).await;
        browser
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        // Asked to end, it ends its browsers too, after a failed test as well.
        let _ = Command::new("kill").arg(self.child.id().to_string()).status();
        let _ = self.child.wait();
    }
}

pub struct Browser {
    pub client: Client,
    _profile: tempfile::TempDir,
}

/// A command of the browser's own protocol.
#[derive(Debug)]
struct Devtools(&'static str, Value);

impl WebDriverCompatibleCommand for Devtools {
    fn endpoint(&self, base: &url::Url, session: Option<&str>) -> Result<url::Url, url::ParseError> {
        base.join(&format!("session/{}/goog/cdp/execute", session.unwrap_or_default()))
    }

    fn method_and_body(&self, _: &url::Url) -> (http::Method, Option<String>) {
        (http::Method::POST, Some(json!({"cmd": self.0, "params": self.1}).to_string()))
    }
}

impl Browser {
    pub async fn open(&self, url: &str) {
        self.client.goto(url).await.unwrap();
        let note = "window.said = []; new MutationObserver(() => said.push(document.getElementById('answer').textContent)) \
                    .observe(document.getElementById('answer'), {childList: true, characterData: true, subtree: true}); \
                    for (const kind of ['pointerdown', 'pointerup', 'pointercancel']) \
                    document.addEventListener(kind, e => said.push(kind + ' ' + (e.target.dataset?.tell ?? e.target.id)), true)";
        self.run(note).await;
    }

    /// The size in CSS pixels, and how many device pixels one is: zoomed to 200 % is half the size at 2.
    pub async fn size(&self, width: u32, height: u32, scale: f64) {
        let params = json!({"width": width, "height": height, "deviceScaleFactor": scale, "mobile": false});
        self.devtools("Emulation.setDeviceMetricsOverride", params).await;
    }

    pub async fn devtools(&self, command: &'static str, params: Value) -> Value {
        self.client.issue_cmd(Devtools(command, params)).await.unwrap()
    }

    pub async fn run(&self, script: &str) -> Value {
        self.client.execute(script, vec![]).await.unwrap()
    }

    pub async fn text(&self, id: &str) -> String {
        let script = format!("return document.getElementById('{id}').textContent");
        self.run(&script).await.as_str().unwrap_or_default().to_owned()
    }

    pub async fn surface(&self) -> String {
        self.run("return document.body.dataset.surface").await.as_str().unwrap_or_default().to_owned()
    }

    /// Looks until `condition` (an expression) is true.
    pub async fn until(&self, condition: &str) {
        let began = Instant::now();
        while self.run(&format!("return Boolean({condition})")).await != Value::Bool(true) {
            if began.elapsed() > PATIENCE {
                let text = self.run("return document.body.innerText").await;
                let picture = std::env::temp_dir().join("page-that-failed.png");
                let _ = std::fs::write(&picture, self.client.screenshot().await.unwrap_or_default());
                let said = self.run("return window.said ?? []").await;
                panic!("never came: {condition}\nsaid: {said}\n{}", text.as_str().unwrap_or_default());
            }
            tokio::time::sleep(Duration::from_millis(15)).await;
        }
    }

    /// Waits until the page has answered with these words: it takes an answer away by itself, and a busy machine may
    /// look too late.
    pub async fn hears(&self, words: &str) {
        self.until(&format!("window.said.some(text => text.includes('{words}'))")).await;
        self.run("window.said.length = 0").await;
    }

    pub async fn find(&self, css: &str) -> Element {
        self.client.find(Locator::Css(css)).await.unwrap_or_else(|e| panic!("{css}: {e}"))
    }

    /// A button that has just appeared is not taken for meant.
    async fn seen(&self, css: &str) {
        // It may be gone for a moment, where a busy machine lets the page wait for a frame for too long.
        let born = "b && performance.now() - (b.born ?? 0) > 400";
        self.until(&format!("(b => {born})(document.querySelector('{css}'))")).await;
    }

    pub async fn click(&self, css: &str) {
        let began = Instant::now();
        loop {
            self.seen(css).await;
            self.run(&format!("document.querySelector('{css}')?.scrollIntoView({{block: 'center'}})")).await;
            let clicked = match self.client.find(Locator::Css(css)).await {
                Ok(button) => button.click().await.map(drop),
                Err(e) => Err(e),
            };
            match clicked {
                Ok(()) => return,
                Err(e) if began.elapsed() > PATIENCE => panic!("{css}: {e}"),
                Err(_) => {}
            }
        }
    }

    /// Presses a finger on it until the page has taken it for meant, however long a busy machine needs for that.
    pub async fn hold(&self, css: &str) {
        let middle = "const b = document.querySelector(arguments[0]); if (!b) return null; \
                      b.scrollIntoView({block: 'center'}); const r = b.getBoundingClientRect(); \
                      return {x: r.x + r.width / 2, y: r.y + r.height / 2}";
        let at = loop {
            self.seen(css).await;
            let at = self.client.execute(middle, vec![json!(css)]).await.unwrap();
            if !at.is_null() {
                break at;
            }
        };
        self.devtools("Input.dispatchTouchEvent", json!({"type": "touchStart", "touchPoints": [at]})).await;
        self.until(&format!("!document.querySelector('{css}')?.classList.contains('holding')")).await;
        self.devtools("Input.dispatchTouchEvent", json!({"type": "touchEnd", "touchPoints": []})).await;
    }

    /// Presses and lifts at once, in one turn of the page: however busy the machine is, it is no hold.
    pub async fn slip(&self, css: &str) {
        self.seen(css).await;
        self.run(&Self::pointer(css, "send('pointerdown'); send('pointerup')")).await;
    }

    /// Presses; the page stands still for a second; the lifting waits to be heard behind a timer that is due.
    pub async fn slip_while_it_stands(&self, css: &str) {
        self.seen(css).await;
        let stands = "document.getElementById('answer').textContent = ''; send('pointerdown'); \
                      setTimeout(() => { const until = performance.now() + 1000; while (performance.now() < until); \
                      setTimeout(() => send('pointerup'), 0) }, 0)";
        self.run(&Self::pointer(css, stands)).await;
    }

    /// Presses, and does not lift.
    pub async fn press(&self, css: &str) {
        self.seen(css).await;
        self.run(&Self::pointer(css, "send('pointerdown')")).await;
    }

    /// Lifts what was pressed, with the click that comes of it; whether a dialog is open then.
    pub async fn lift(&self, css: &str) -> Value {
        let lifts = "send('pointerup'); b.dispatchEvent(new MouseEvent('click', {bubbles: true, cancelable: true, detail: 1})); \
                     return document.getElementById('ask').open";
        self.run(&Self::pointer(css, lifts)).await
    }

    fn pointer(css: &str, does: &str) -> String {
        format!(
            "const b = document.querySelector('{css}'); b.scrollIntoView({{block: 'center'}}); \
             const send = kind => b.dispatchEvent(new PointerEvent(kind, {{bubbles: true, cancelable: true, button: 0, isPrimary: true}})); {does}"
        )
    }

    pub async fn type_into(&self, css: &str, text: &str) {
        self.find(css).await.send_keys(text).await.unwrap();
    }

    /// What axe-core finds wrong, as `rule: elements`.
    pub async fn violations(&self) -> Vec<String> {
        // Not as a script element: the page's policy would, rightly, not run it.
        self.run(include_str!("../vendor/axe/axe.min.js")).await;
        let script = "const done = arguments[arguments.length - 1]; axe.run(document, {resultTypes: ['violations'], \
                      runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'wcag2aaa', 'best-practice'], rules: {'color-contrast-enhanced': {enabled: true}}}) \
                      .then(r => done(r.violations.map(v => v.id + ': ' + v.nodes.map(n => n.html + ' ' + (n.any[0]?.message ?? '')).join(' | '))))";
        let found = self.client.execute_async(script, vec![]).await.unwrap();
        found.as_array().unwrap().iter().map(|v| v.as_str().unwrap().to_owned()).collect()
    }

    pub async fn close(self) {
        self.client.close().await.unwrap();
    }
}

/// Runs a browser test: nothing happens where there is no browser.
pub fn with_driver<F: Future<Output = ()>>(test: impl FnOnce(Driver) -> F) {
    let Some(driver) = Driver::start() else { return };
    tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap().block_on(test(driver));
}
