//! Practice: the same search on a simulated cold vehicle that nobody knows, in quick time, before a real cold start is spent on it.
//!
//! ```text
//!  typed hands ──► world ◄─ car (adapter) ═ pseudo-terminal ═ serial code ─ daemon ═ socket ═ the same front end
//! ```
//!
//! In: a seed, what a person types. Out: what `find` gives. Time stands while the person is asked for something, so that nobody is
//! hurried by quick time. Not here: the search, the front end (`find.rs`), a whole job (`rehearse`).

use std::path::PathBuf;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

use adapter::{Device, Opener};
use events::{Body, FindNext, FoundIdentifier, SocketLine, Word};
use rehearsal::clock::{Conductor, Pace, Party};
use rehearsal::pty::{Cable, Port};
use rehearsal::setup::Unknown;
use rehearsal::{Car, Plug, Setup};
use service::{Config, Daemon, FindConfig, KeptSearch, Limits, Memory};
use tokio::sync::{Notify, oneshot};
use units::text::{UnitSystem, show_celsius};
use units::{Celsius, Clock, Mono};

use super::FindArgs;
use crate::failure::{Exit, Failure};
use crate::rehearse::metered::Metered;
use crate::screen::{Screen, say};

/// Still asked for the same: time stands again after so long. Own choice: two minutes of warming are worth another look.
const ASKED_AGAIN: Duration = Duration::from_secs(120);
/// `key off` leaves it off for so long. Own choice: the ten minutes that are asked for, and some on the way.
const KEY_OFF: Duration = Duration::from_secs(660);
/// Said before anything else.
const HOW: &str = "Practice on a simulated vehicle: nothing real is asked. Type `key off`, `engine on`, `engine off`, `measure`.\n\
                   Time stands while you are asked for something; an empty line lets it pass.";

/// `find --rehearse`.
pub fn run(args: &FindArgs, seed: u64, screen: Screen) -> Result<(), Failure> {
    super::is_free(args.into.as_deref())?;
    let sheet = rehearsal::embedded::six_speed();
    let unknown = Unknown { seed, form: Some(rehearsal::identifiers::Form::Plain) };
    let setup = Setup::find(&sheet, unknown, seed).ok_or(service::ServiceError::NeedsAdapter)?;
    let folder = Temporary(crate::given::own_folder("practice")?);
    let pace = args.pace.unwrap_or(if screen.is_json() { Pace::Max } else { Pace::Times(60.0) });
    let conductor = Conductor::new(pace);
    let idle = conductor.clone();
    crate::runtime(Some(Box::new(move || idle.idle())))?.block_on(async {
        tokio::select! {
            ended = practise(args, &setup, &folder, &conductor, screen) => ended,
            () = conductor.clone().keep_pace() => Err(Failure::new(Exit::Software, "the clock stopped")),
            () = crate::serve::stop() => Err(Failure::new(Exit::Interrupted, "")),
        }
    })
}

async fn practise(
    args: &FindArgs,
    setup: &Setup,
    folder: &Temporary,
    conductor: &Conductor,
    screen: Screen,
) -> Result<(), Failure> {
    let broken = |e: std::io::Error| Failure::new(Exit::InputOutput, format!("the simulated adapter: {e}"));
    let (device, socket) = (folder.0.join("adapter"), folder.0.join("socket"));
    let cable = Arc::new(Cable::default());
    let car = Arc::new(Mutex::new(setup.car()));
    let nudge = Arc::new(Notify::new());
    let port = Port::plug_in(&device, Arc::clone(&cable)).map_err(broken)?;
    tokio::spawn(port.serve(Arc::clone(&car), conductor.clock(Party::Car), Arc::clone(&nudge)));
    let serial: Arc<dyn Opener> = Arc::new(Device::Serial { path: device, baud: None });
    let daemon = Daemon::start(Config {
        bay: "practice".to_owned(),
        sheet: setup.sheet.clone(),
        sheets: Vec::new(),
        socket: socket.clone(),
        socket_group: None,
        journal: folder.0.clone(),
        opener: Some(Arc::new(Metered { inner: serial, cable: Arc::clone(&cable) })),
        clock: conductor.clock(Party::Program),
        version: env!("CARGO_PKG_VERSION").to_owned(),
        limits: Limits::default(),
        memory: Memory::default(),
        recorder: None,
        machine: None,
        find: Some(FindConfig {
            kept: KeptSearch::of(&folder.0, "practice"),
            imported: super::imported(&args.dbc)?,
            without_sheet: true,
        }),
    })?;
    let stands =
        Arc::new(Stands { seq: AtomicU64::new(0), open: AtomicU64::new(1), asked: AtomicBool::new(false) });
    let ground = crate::page::Ground {
        bay: "practice".to_owned(),
        journal: folder.0.clone(),
        socket: socket.clone(),
        units: screen.units,
        lang: screen.asked,
        sheets: super::beside_into(args.into.as_deref()).unwrap_or_else(|| folder.0.join("sheets")),
        // While simulated time stands, nothing grows old.
        clock: Some(Arc::new(Watched(conductor.clock(Party::Technician)))),
    };
    args.page.bind(ground)?.map_or(Ok(()), crate::page::begin)?;
    let (held, progress) = (Arc::clone(&stands), daemon.progress());
    conductor.hold_while_not(move || {
        cable.is_quiet()
            && progress.settled()
            && held.seq.load(Ordering::Acquire) >= progress.visible().0
            && held.open.load(Ordering::Acquire) == 0
            && !held.asked.load(Ordering::Acquire)
    });
    if !screen.is_json() {
        screen.line(HOW)?;
    }
    let (stop, stopped) = oneshot::channel::<()>();
    let running = tokio::spawn(daemon.run(async {
        let _ = stopped.await;
    }));
    let mut hands = Hands {
        car,
        nudge,
        clock: conductor.clock(Party::Technician),
        conductor: conductor.clone(),
        stands,
        next: FindNext::KeyOn,
        again: None,
        since: Instant::now(),
        units: screen.units,
    };
    let writes = super::write::Writes { into: args.into.clone(), base: None };
    let ended = super::accompany(&socket, screen, &writes, Some(&mut hands)).await;
    drop(stop);
    hands.go_on();
    running.await.map_err(|e| Failure::new(Exit::Software, format!("the daemon ended badly: {e}")))??;
    if ended? {
        return Ok(());
    }
    Err(Failure::new(Exit::NotSet, "not found")
        .try_this("`standpipe find --rehearse SEED` draws another vehicle"))
}

/// Simulated time for the page: it looks at it and sleeps by its own, so that nothing waits for who only looks.
struct Watched(Arc<dyn Clock>);

impl Clock for Watched {
    fn now(&self) -> Mono {
        self.0.now()
    }

    fn wall_millis(&self) -> i64 {
        self.0.wall_millis()
    }

    fn sleep_until(&self, at: Mono) -> units::Sleep {
        Box::pin(tokio::time::sleep(at.since(self.now())))
    }
}

/// Why simulated time stands.
struct Stands {
    /// What the front end has seen.
    seq: AtomicU64,
    /// What it told and has not heard of yet; one at the start, until it has connected.
    open: AtomicU64,
    /// The person is asked for something.
    asked: AtomicBool,
}

/// The person's hands on the simulated vehicle, and his time.
pub struct Hands {
    car: Arc<Mutex<Car>>,
    nudge: Arc<Notify>,
    clock: Arc<dyn Clock>,
    conductor: Conductor,
    stands: Arc<Stands>,
    /// What he was asked for last.
    next: FindNext,
    /// He is asked for it again then.
    again: Option<Mono>,
    /// Since when time stands, by his own watch.
    since: Instant,
    units: UnitSystem,
}

impl Hands {
    /// The front end has connected, and seen so much.
    pub fn connected(&self, seq: events::Seq) {
        self.stands.seq.store(seq.0, Ordering::Release);
        self.stands.open.store(0, Ordering::Release);
    }

    /// Something was told; time stands until the daemon has answered.
    pub fn told(&self) {
        self.stands.open.fetch_add(1, Ordering::AcqRel);
    }

    /// A line of the socket that has been shown.
    pub fn heard(&mut self, line: Option<&SocketLine>) {
        match line {
            Some(SocketLine::Event(event)) => {
                if let Body::Find(find) = &event.body
                    && find.next != self.next
                {
                    self.next = find.next;
                    self.again = None;
                    if is_done_by_hand(self.next) {
                        self.stand();
                    }
                }
                // Told by whom ever: here, or on the page.
                if matches!(event.body, Body::Told(_)) {
                    self.go_on();
                }
                self.stands.seq.store(event.seq.0, Ordering::Release);
            }
            // Where it is refused he tries again, and time stands.
            Some(SocketLine::Word(Word::Accepted { .. } | Word::Refused { .. })) => {
                self.stands.open.fetch_sub(1, Ordering::AcqRel);
            }
            _ => {}
        }
    }

    fn stand(&mut self) {
        if !self.stands.asked.swap(true, Ordering::AcqRel) {
            self.since = Instant::now();
        }
    }

    /// Time passes again.
    fn go_on(&mut self) {
        if self.stands.asked.swap(false, Ordering::AcqRel) {
            self.conductor.stood(self.since.elapsed());
            self.again = Some(self.clock.now().after(ASKED_AGAIN));
        }
    }

    /// Ready when he has long been asked for the same.
    pub async fn asked_long(&self) {
        match self.again.filter(|_| is_done_by_hand(self.next)) {
            Some(at) => self.clock.sleep_until(at).await,
            None => std::future::pending().await,
        }
    }

    /// He is asked for it once more: what to do.
    pub fn asked_again(&mut self) -> &'static str {
        self.again = None;
        let now = self.clock.now();
        let mut car = lock(&self.car);
        if car.world().key() == Plug::Out {
            car.handle_timeout(now);
            car.world_mut().turn_key(Plug::In);
            drop(car);
            self.nudge.notify_one();
            return "The key is on again.";
        }
        drop(car);
        self.stand();
        self.next.says()
    }

    /// What was typed, where it is done by hand; what he sees then.
    pub fn typed(&mut self, line: &str) -> Option<String> {
        let now = self.clock.now();
        let mut car = lock(&self.car);
        car.handle_timeout(now);
        let world = car.world_mut();
        world.advance(now);
        let says = match line.split_whitespace().collect::<Vec<_>>().as_slice() {
            [] => String::new(),
            ["key", "off"] => {
                world.turn_key(Plug::Out);
                "The key is off for eleven minutes.".to_owned()
            }
            ["engine", "on"] => {
                world.start_engine();
                "The engine runs.".to_owned()
            }
            ["engine", "off"] => {
                world.stop_engine();
                "The engine is off.".to_owned()
            }
            ["measure"] => {
                let shows = show_celsius(Celsius::clamped(world.tape_celsius()), self.units);
                return Some(format!("The thermometer shows {shows}, on tape."));
            }
            _ => return None,
        };
        let is_off = world.key() == Plug::Out;
        drop(car);
        self.nudge.notify_one();
        self.go_on();
        if is_off {
            self.again = Some(now.after(KEY_OFF));
        }
        Some(says)
    }

    /// What only the simulation knows of what was found.
    pub fn truly(&self, found: &FoundIdentifier) -> &'static str {
        let of = &found.identifier;
        let address = u32::from_str_radix(&of.header, 16).unwrap_or_default();
        let is_it = lock(&self.car).identifiers().is_some_and(|all| {
            let place = |t: &rehearsal::identifiers::Truth| (t.asked, t.service, t.id, t.byte);
            all.truths().iter().any(|t| place(t) == (address, of.service, of.id, of.byte))
        });
        if is_it {
            "Only the simulation knows: that is it."
        } else {
            "Only the simulation knows: that is another one."
        }
    }
}

/// A person does it, not time.
const fn is_done_by_hand(next: FindNext) -> bool {
    matches!(
        next,
        FindNext::KeyOff
            | FindNext::StartEngine
            | FindNext::StopEngine
            | FindNext::Spot
            | FindNext::Confirm
            | FindNext::ColdSoak
    )
}

fn lock(car: &Mutex<Car>) -> MutexGuard<'_, Car> {
    car.lock().unwrap_or_else(PoisonError::into_inner)
}

/// A folder that goes with its owner.
struct Temporary(PathBuf);

impl Drop for Temporary {
    fn drop(&mut self) {
        if let Err(e) = std::fs::remove_dir_all(&self.0) {
            say(&format!("{} is left over: {e}", self.0.display()));
        }
    }
}
