//! The daemon dies or hangs in the middle of `go`: within two seconds no page shows `go`. The built program, real time.

use std::time::{SystemTime, UNIX_EPOCH};

use crate::browser::with_driver;
use crate::common::{Home, Process, fixture, stderr};

/// A vehicle whose signal is a thermometer's reading, so that `go` need not be waited for.
fn sheet(home: &Home) -> std::path::PathBuf {
    let text = std::fs::read_to_string(fixture("sheets/demo-spot-only.toml")).unwrap();
    let mut sheet: toml::Table = text.parse().unwrap();
    let mut before = toml::Table::new();
    before.insert("started_cold".to_owned(), false.into());
    sheet.insert("before".to_owned(), before.into());
    let path = home.path().join("sheet.toml");
    std::fs::write(&path, sheet.to_string()).unwrap();
    path
}

fn tell(home: &Home, words: &[&str]) {
    let output = home.run(&[&["tell"], words].concat());
    assert!(output.status.success(), "{words:?}: {}", stderr(&output));
}

/// The daemon with a page; and the page's address.
fn served(home: &Home) -> (Process, Process, String) {
    // Warm through: a thermometer that says 40 °C of a cold vehicle is not believed.
    let mut car = home.start(&["car", "--air", "40C"]);
    let device = car.line();
    let sheet = sheet(home);
    let mut daemon = home.start(&[
        "serve",
        "--device",
        &device,
        "--sheet",
        sheet.to_str().unwrap(),
        "--page",
        "127.0.0.1:0",
    ]);
    let said = daemon.until_said(|l| l.starts_with("page: "));
    let url = said.split_whitespace().nth(1).unwrap().to_owned();
    (car, daemon, url)
}

/// The same at `go`.
fn at_go(home: &Home) -> (Process, Process, String) {
    let (mut car, daemon, url) = served(home);
    for step in [
        &["start"][..],
        &["confirm", "on-stands"],
        &["confirm", "ventilated"],
        &["level", "--pitch", "0deg", "--roll", "0deg"],
        &["drained", "2.4L", "--at", "22C"],
        &["filled", "2.9L", "--at", "22C"],
    ] {
        tell(home, step);
    }
    car.type_line("engine on");
    let mut events = home.start(&["events", "--since", "0"]);
    events.until(|l| l.contains(r#""precondition":"engine-idling","holds":true"#));
    let open = home.run(&["tell", "confirm", "brake-held"]);
    assert!(open.status.success() || stderr(&open).contains("does not ask"), "{}", stderr(&open));
    // One reading is an anecdote; the gate wants two.
    tell(home, &["spot", "40.0C", "--surface", "stream"]);
    tell(home, &["spot", "40.1C", "--surface", "stream"]);
    events.until(|l| l.contains(r#""kind":"verdict","verdict":"go""#));
    (car, daemon, url)
}

fn now_ms() -> f64 {
    SystemTime::now().duration_since(UNIX_EPOCH).unwrap().as_secs_f64() * 1_000.0
}

#[test]
fn the_list_of_jobs_is_the_journals() {
    with_driver(|driver| async move {
        let home = Home::new();
        let (_car, _daemon, url) = served(&home);
        tell(&home, &["start"]);
        tell(&home, &["vehicle", "QL 12"]);
        let browser = driver.browser(360, 640).await;
        browser.open(&url).await;
        browser.until("document.body.dataset.contact === 'yes'").await;
        browser.click("#more summary").await;
        for (done, says) in [(false, "The job is not finished."), (true, events::Outcome::NotSet.says())] {
            if done {
                tell(&home, &["abort", "a hose leaks"]);
            }
            browser.click("#jobs").await;
            let shown = format!("document.getElementById('sheet-text').textContent.includes('{says}')");
            browser.until(&shown).await;
            let list = browser.text("sheet-text").await;
            assert!(list.contains("QL 12, Demo"), "{list}");
            browser.click("#close").await;
        }
        browser.close().await;
    });
}

/// A page that notes when `go` leaves it, and how long its own clock stood still meanwhile: on a machine that has too
/// much to do a page is late by that, whatever it does.
const NOTES: &str = "window.left = undefined; window.gap = 0; let before = Date.now();
    clearInterval(window.ticks);
    window.ticks = setInterval(() => { const now = Date.now(); window.gap = Math.max(window.gap, now - before - 50); before = now }, 50);
    window.watcher?.disconnect();
    window.watcher = new MutationObserver(() => { if (document.body.dataset.surface !== 'go') window.left ??= Date.now() });
    window.watcher.observe(document.body, {attributes: true})";

#[test]
fn two_seconds_after_the_daemon_died_or_hung_no_page_shows_go() {
    with_driver(|driver| async move {
        let home = Home::new();
        let (_car, daemon, url) = at_go(&home);
        let pid = daemon.child.id().to_string();
        let signal = |signal: &str| {
            let done = std::process::Command::new("kill").args([signal, &pid]).status();
            assert!(done.unwrap().success(), "{signal}");
        };
        let browser = driver.browser(360, 640).await;
        browser.open(&url).await;
        for ends in ["-STOP", "-KILL"] {
            browser.until("document.body.dataset.surface === 'go'").await;
            browser.run(NOTES).await;
            let died = now_ms();
            signal(ends);
            browser.until("window.left").await;
            let left = browser.run("return window.left").await.as_f64().unwrap();
            let gap = browser.run("return window.gap").await.as_f64().unwrap();
            assert_eq!(browser.surface().await, "no-reading", "{ends}");
            assert_eq!(browser.text("now").await, "Close the check port if it is open. Nothing is known.");
            eprintln!("{ends}: go was gone after {:.0} ms, its clock stood for {gap:.0} ms", left - died);
            assert!(left - died <= 2_000.0 + gap, "{ends}: after {} ms, {gap} of them stood", left - died);
            if ends == "-STOP" {
                // It hung; now it goes on, and is told anew what it cannot have seen.
                signal("-CONT");
                tell(&home, &["spot", "40.2C", "--surface", "stream"]);
                tell(&home, &["spot", "40.3C", "--surface", "stream"]);
            }
        }
        browser.close().await;
    });
}
