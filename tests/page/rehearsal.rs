//! The whole job through the page, by two browsers: the technician's under the vehicle, the helper's inside.
//!
//! The real daemon behind a pseudo-terminal on a virtual clock. Time stands while a browser is asked or tells, and goes
//! on in steps; the test is the hands on the vehicle and does what the pages say.

use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex};
use std::time::Duration;

use adapter::{Device, Opener};
use rehearsal::clock::{Conductor, Pace, Party};
use rehearsal::pty::{Cable, Port};
use rehearsal::{Car, Setup, embedded};
use service::{Config, Daemon, Memory, Progress};
use tokio::sync::Notify;

use crate::browser::{Browser, Driver, with_driver};
use crate::daemon::{Served, serve, shared};
use crate::metered::Metered;

/// The workshop on its own thread and clock.
struct Workshop {
    car: Arc<Mutex<Car>>,
    conductor: Conductor,
    /// Time may pass up to here, ms.
    until: Arc<AtomicU64>,
    nudge: Arc<Notify>,
    progress: Progress,
    served: Served,
    _folder: tempfile::TempDir,
}

impl Workshop {
    fn open(setup: &Setup) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let conductor = Conductor::new(Pace::Max);
        let car = shared(setup.car());
        let (until, nudge) = (Arc::new(AtomicU64::new(0)), Arc::new(Notify::new()));
        let cable = Arc::new(Cable::default());
        let device = folder.path().join("adapter");
        let serial: Arc<dyn Opener> = Arc::new(Device::Serial { path: device.clone(), baud: None });
        let config = Config {
            bay: "bay".to_owned(),
            sheet: setup.sheet.clone(),
            sheets: vec![setup.sheet.clone()],
            socket: folder.path().join("socket"),
            socket_group: None,
            journal: folder.path().to_path_buf(),
            opener: Some(Arc::new(Metered { inner: serial, cable: Arc::clone(&cable) })),
            clock: conductor.clock(Party::Program),
            version: "test".to_owned(),
            limits: service::Limits::default(),
            memory: Memory::default(),
            recorder: None,
            machine: None,
            find: None,
        };
        let (said, progress) = std::sync::mpsc::channel();
        let (running, hands, wakes, limit) =
            (conductor.clone(), Arc::clone(&car), Arc::clone(&nudge), Arc::clone(&until));
        std::thread::spawn(move || {
            let idle = running.clone();
            let runtime = tokio::runtime::Builder::new_current_thread()
                .enable_all()
                .on_thread_park(move || idle.idle())
                .build()
                .unwrap();
            runtime.block_on(async move {
                let port = Port::plug_in(&device, Arc::clone(&cable)).unwrap();
                tokio::spawn(port.serve(hands, running.clock(Party::Car), wakes));
                let daemon = Daemon::start(config).unwrap();
                let progress = daemon.progress();
                let (quiet, clock) = (progress.clone(), running.clone());
                running.hold_while_not(move || {
                    let more = clock.now().as_millis() < limit.load(Ordering::Acquire);
                    more && cable.is_quiet() && quiet.settled()
                });
                said.send(progress).unwrap();
                daemon.run(std::future::pending()).await.unwrap();
            });
        });
        let progress = progress.recv().unwrap();
        let clock = conductor.clock(Party::Technician);
        let served = serve(folder.path(), false, Some(clock), page::Limits::default());
        Self { car, conductor, until, nudge, progress, served, _folder: folder }
    }

    /// Lets so much time pass, and waits until both pages have painted what happened.
    async fn pass(&self, seconds: u64, pages: &[&Browser]) {
        let until = self.conductor.now().as_millis() + seconds * 1_000;
        self.until.store(until, Ordering::Release);
        self.nudge.notify_one();
        while self.conductor.now().as_millis() < until || !self.progress.settled() {
            tokio::time::sleep(Duration::from_millis(2)).await;
        }
        let seq = self.progress.visible().0;
        for page in pages {
            page.until(&format!("Number(document.body.dataset.seq) >= {seq}")).await;
        }
    }

    fn hands<T>(&self, act: impl FnOnce(&mut rehearsal::World) -> T) -> T {
        let mut car = self.car.lock().unwrap();
        let now = self.conductor.now();
        car.handle_timeout(now);
        let world = car.world_mut();
        world.advance(now);
        let out = act(world);
        drop(car);
        self.nudge.notify_one();
        out
    }
}

async fn answered(page: &Browser) {
    page.hears("Entered.").await;
}

async fn press(page: &Browser, css: &str) {
    page.click(css).await;
    answered(page).await;
}

async fn hold(page: &Browser, css: &str) {
    page.until(&format!("document.querySelector('{css}')")).await;
    page.hold(css).await;
    answered(page).await;
}

async fn fill_in(page: &Browser, css: &str, fields: &[(&str, &str)]) {
    page.until(&format!("document.querySelector('{css}')")).await;
    page.click(css).await;
    for (field, text) in fields {
        page.type_into(field, text).await;
    }
    page.click("#yes").await;
    answered(page).await;
}

async fn says(page: &Browser, what: &str) {
    page.until(&format!("document.getElementById('now').textContent.includes('{what}')")).await;
}

#[test]
fn the_whole_job_is_done_through_the_page_by_two_browsers() {
    with_driver(|driver| async move {
        let mut sheet = embedded::six_speed();
        if let Some(selector) = &mut sheet.before.selector {
            selector.rounds = 1;
        }
        let setup = Setup::named(None, &sheet, Some(embedded::warmup()), 1);
        whole_job(&driver, &setup).await;
    });
}

/// The job from `start` to `set`, by two browsers.
pub async fn whole_job(driver: &Driver, setup: &Setup) {
    let shop = Workshop::open(setup);
    let (under, inside) = (driver.browser(360, 640).await, driver.browser(768, 1024).await);
    under.open(&shop.served.url()).await;
    inside.open(&format!("{}/inside", shop.served.url())).await;
    let both = [&under, &inside];
    shop.pass(20, &both).await;

    says(&under, "Then start").await;
    press(&under, "[data-tell=start]").await;
    says(&under, "four stands").await;
    says(&inside, "Nothing to do inside yet").await;
    press(&under, "[data-what=on-stands]").await;
    press(&under, "[data-what=exhaust-outside]").await;
    // A slip, taken back.
    under.until("!document.getElementById('undo').hidden").await;
    press(&under, "#undo").await;
    press(&under, "[data-what=exhaust-outside]").await;
    fill_in(&under, "[data-tell=level]", &[("#pitch", "0.1"), ("#roll", "-0.1")]).await;
    for what in ["parked", "fill-port-open", "fluid-right"] {
        press(&under, &format!("[data-what={what}]")).await;
    }
    says(&under, "Drain it").await;
    let drained = shop.hands(|w| w.drain(1.0));
    shop.pass(120, &both).await;
    fill_in(
        &under,
        "[data-tell=drained]",
        &[("#amount", &format!("{:.2}", drained / 1_000.0)), ("#at", "12")],
    )
    .await;
    press(&under, "[data-what=pipe-in]").await;
    let fill = (drained + 470.0).round();
    shop.hands(|w| w.fill(fill, 11.0));
    fill_in(&under, "[data-tell=filled]", &[("#amount", &format!("{:.2}", fill / 1_000.0)), ("#at", "11")])
        .await;
    press(&under, "[data-what=closed-up]").await;
    says(&inside, "Wait.").await;
    hold(&under, "[data-what=clear]").await;
    says(&inside, "Start now").await;
    shop.hands(rehearsal::World::start_engine);
    shop.pass(15, &both).await;

    says(&inside, "Foot on the brake").await;
    press(&inside, "[data-what=brake-held]").await;
    // Position by position, as the daemon counts: a word too early is refused, one that was a slip is taken back.
    for (place, name) in [(0, "P"), (1, "R"), (2, "N"), (3, "D"), (0, "P")] {
        says(&inside, &format!(" {name}.")).await;
        shop.hands(|w| w.move_selector(place, 4));
        press(&inside, "[data-tell=shifted]").await;
        if name == "R" {
            says(&inside, "Stay in R.").await;
            inside.until("document.querySelector('#positions [aria-current]')?.textContent === 'R'").await;
            inside.click("[data-tell=shifted]").await;
            inside.hears("not stood long enough").await;
            press(&inside, "#undo").await;
            says(&inside, "Move to R.").await;
            press(&inside, "[data-tell=shifted]").await;
        }
        shop.pass(4, &both).await;
    }
    inside.until("document.getElementById('rounds').hidden").await;

    let mut seen = std::collections::BTreeSet::new();
    for _ in 0..240 {
        shop.pass(10, &both).await;
        let surface = under.surface().await;
        assert_eq!(surface, inside.surface().await, "both seats show the same verdict");
        seen.insert(surface.clone());
        if surface == "go" {
            break;
        }
    }
    assert!(seen.contains("wait") && seen.contains("go"), "{seen:?}");
    says(&under, "Open the check port").await;
    shop.hands(rehearsal::World::open_check_port);
    shop.pass(2, &both).await;
    hold(&under, "[data-tell=flowing]").await;
    says(&inside, "touch nothing").await;
    for _ in 0..120 {
        shop.pass(3, &both).await;
        if shop.hands(|w| w.stream_ml_min()) < 10.0 {
            break;
        }
    }
    hold(&under, "[data-tell=trickle]").await;
    shop.hands(rehearsal::World::close_check_port);
    hold(&under, "[data-tell=closed]").await;
    says(&inside, "Stop the engine").await;
    shop.hands(rehearsal::World::stop_engine);
    shop.pass(20, &both).await;
    let caught = shop.hands(|w| w.out().caught_ml);
    fill_in(
        &under,
        "[data-tell=ran-out]",
        &[("#amount", &format!("{:.2}", caught / 1_000.0)), ("#at", "38")],
    )
    .await;
    hold(&under, "[data-tell=torqued]").await;
    hold(&under, "[data-what=clear]").await;
    shop.hands(rehearsal::World::start_engine);
    shop.pass(15, &both).await;
    press(&under, "[data-what=no-leak]").await;
    hold(&under, "[data-what=clear]").await;
    hold(&under, "[data-tell=test-driven]").await;
    hold(&under, "[data-tell=done]").await;
    says(&under, "The level is set.").await;
    says(&inside, "The level is set.").await;
    let truly = shop.hands(|w| w.level_error_ml());
    assert!(truly.abs() < 100.0, "and it truly is: {truly:+.0} mL");
    under.close().await;
    inside.close().await;
}
