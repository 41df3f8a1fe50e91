//! `rehearse`: the whole job on the simulated vehicle, with no shortcut in the path.
//!
//! ```text
//!  technician ──hands──► world ◄─ car (adapter) ═ pseudo-terminal ═ serial code ─ daemon ═ socket ═ technician
//! ```
//!
//! One thread, one virtual clock (`rehearsal::clock`): time passes only when nobody has work and nothing is in
//! flight, so the same seed gives the same events on any machine under any load.

mod ending;
pub mod metered;
mod show;
mod watch;

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use adapter::{Device, Opener};
use clap::Args;
use client::Client;
use events::{Body, Sheet, SocketLine, Task, Word};
use rehearsal::clock::{Conductor, Pace, Party};
use rehearsal::pty::{Cable, Port};
use rehearsal::setup::Unknown;
use rehearsal::{Car, Mistake, Setup, Technician, Warmup};
use service::{Config, Daemon, FindConfig, KeptSearch, Limits, Memory, Progress};
use tokio::sync::{Notify, oneshot};
use units::{Clock, Mono};

use crate::failure::{Exit, Failure};
use crate::report::{self, Form, Reader, Times};
use crate::screen::{Screen, say};

use ending::Ending;
use metered::Metered;
use show::Show;
use watch::Watch;

/// Arguments of `rehearse`.
#[derive(Debug, Args)]
#[command(after_help = after_help())]
pub struct RehearseArgs {
    /// The sheet of the vehicle; the built-in demonstration where absent.
    #[arg(long, value_name = "FILE")]
    sheet: Option<PathBuf>,
    /// `none`: without an adapter; technician and helper tell thermometer and engine, as with `serve --device none`.
    #[arg(long, value_name = "none", value_parser = ["none"])]
    device: Option<String>,
    /// A recorded warm-up that drives the coolant (columns `t_s`, `coolant_c`); the built-in one where absent.
    #[arg(long, value_name = "LOG")]
    warmup: Option<PathBuf>,
    /// Simulated seconds in a real one, or `max`; 60 on a terminal, `max` otherwise.
    #[arg(long, value_parser = crate::pace::pace_or_max, value_name = "N|max")]
    pace: Option<Pace>,
    /// The seed of everything random.
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// A mistake to make.
    #[arg(long, value_parser = mistake, value_name = "NAME", conflicts_with = "job")]
    mistake: Option<Mistake>,
    /// What the job is for: `change`, or `check` of a vehicle that nobody knows.
    #[arg(long, value_parser = task, value_name = "JOB", default_value = "change")]
    job: Task,
    /// What is missing in the vehicle before a check, mL; negative is too much. Drawn by the seed where absent.
    #[arg(long, value_name = "ML", value_parser = clap::value_parser!(i32).range(-1_500..=3_000), allow_hyphen_values = true)]
    missing: Option<i32>,
    /// And three days later the recheck of it, from cold: nothing is drained and filled.
    #[arg(long, conflicts_with_all = ["mistake", "job"])]
    recheck: bool,
    /// What has leaked out until the recheck, mL.
    #[arg(long, value_name = "ML", requires = "recheck", value_parser = clap::value_parser!(u16).range(..=3_000))]
    leaked: Option<u16>,
    /// One person alone at both seats, who does what he is told.
    #[arg(long, conflicts_with = "mistake")]
    alone: bool,
    /// The vehicle has other identifiers than the sheet's, drawn by this seed: nobody knows them.
    #[arg(long, value_name = "SEED")]
    unknown: Option<u64>,
    /// A cold vehicle whose identifier nobody knows: it is searched, found while it warms, and the job goes by it from then on.
    /// The sheet is written to `found.toml` with --keep.
    #[arg(long, conflicts_with_all = ["mistake", "job", "recheck", "alone", "device", "warmup"])]
    find: bool,
    /// Lines of text: instead of the screen on a terminal, instead of JSON elsewhere.
    #[arg(long, conflicts_with = "json")]
    plain: bool,
    /// Keep journal and report in this folder.
    #[arg(long, value_name = "DIR")]
    keep: Option<PathBuf>,
}

fn after_help() -> String {
    let mut text = String::from("Mistakes:\n");
    for mistake in Mistake::ALL {
        text += &format!("  {:<20} {}\n", mistake.word(), mistake.says());
    }
    text + "\nExit 0 only when the level was set right. The report is written to `report.html`."
}

fn mistake(name: &str) -> Result<Mistake, String> {
    name.parse().map_err(|e: units::UnknownWord| {
        format!("`{}` is no mistake that can be rehearsed; {}", e.text(), e.known())
    })
}

fn task(name: &str) -> Result<Task, String> {
    name.parse().map_err(|_| format!("`{name}` is no job; known: change, check"))
}

/// `rehearse`.
pub fn run(args: &RehearseArgs, screen: Screen) -> Result<(), Failure> {
    // On the simulated vehicle nothing need be confirmed.
    let sheet = Sheet { unconfirmed: Vec::new(), ..crate::given::sheet(args.sheet.as_deref())? };
    let log =
        args.warmup.as_deref().map_or_else(|| Ok(rehearsal::embedded::warmup()), crate::given::warmup)?;
    let setup = setup(args, &sheet, log)?;
    let setup = match args.device {
        None => setup,
        Some(_) => setup.by_people().ok_or(service::ServiceError::NeedsAdapter)?,
    };
    let folder = Folder::make(args.keep.as_deref())?;
    let pace = args.pace.unwrap_or(if screen.is_json() { Pace::Max } else { Pace::Times(60.0) });
    let screen = if args.plain { screen.in_words() } else { screen };
    let manner = Manner { screen, plain: args.plain };
    let mut ending = on_day(0, setup.clone(), &folder, pace, manner)?;
    if args.recheck {
        let leaked = f64::from(args.leaked.unwrap_or(0));
        let again = rechecked(&setup, leaked - ending.true_millilitres);
        if !screen.is_json() {
            screen.line(&format!("\nThree days later, cold again: the recheck of job {FIRST_JOB}."))?;
        }
        ending = on_day(RECHECK_DAY, again, &folder, pace, manner)?;
    }
    let record = report::read(&folder.path.join("rehearsal.journal"), None)?;
    let html = record.write(Form::Html, &Reader { speech: screen.speech(), times: Times::here() })?;
    std::fs::create_dir_all(&folder.reports).map_err(|e| Failure::file("make", &folder.reports, &e))?;
    let path = folder.reports.join("report.html");
    std::fs::write(&path, html).map_err(|e| Failure::file("write", &path, &e))?;
    ending.tell(screen, args.keep.is_some(), &path)
}

/// One job, so many days after the first one.
fn on_day(day: u32, setup: Setup, folder: &Folder, pace: Pace, manner: Manner) -> Result<Ending, Failure> {
    let conductor = Conductor::on_day(day, pace);
    let idle = conductor.clone();
    crate::runtime(Some(Box::new(move || idle.idle())))?.block_on(async {
        tokio::select! {
            ending = rehearse(setup, folder, &conductor, manner) => ending,
            () = conductor.clone().keep_pace() => Err(Failure::new(Exit::Software, "the clock stopped")),
            _ = tokio::signal::ctrl_c() => Err(Failure::new(Exit::Interrupted, "")),
        }
    })
}

/// The same vehicle some days later, with so much missing in it, and the same hands.
fn rechecked(first: &Setup, missing_ml: f64) -> Setup {
    let mut again = Setup::recheck(FIRST_JOB, missing_ml, &first.sheet, first.warmup.clone(), first.seed + 1);
    (again.script.alone, again.script.by_advice, again.script.people) =
        (first.script.alone, first.script.by_advice, first.script.people);
    again
}

/// The first job of a journal, and the first day on which the demonstration's sheets ask for a recheck.
/// By definition of the demonstration's sheets.
const FIRST_JOB: u64 = 1;
const RECHECK_DAY: u32 = 3;

fn setup(args: &RehearseArgs, sheet: &Sheet, log: Warmup) -> Result<Setup, Failure> {
    let mut setup = of_the_job(args, sheet, log)?;
    setup.script.alone = args.alone;
    // The script and its mistakes know the usual job with two people; anything else is led by the advice alone.
    setup.script.by_advice = args.alone || !rehearsal::setup::is_usual(sheet);
    if let (Some(mistake), true) = (args.mistake, setup.script.by_advice) {
        return Err(Failure::new(
            Exit::Usage,
            format!("`--mistake {mistake}` is made with a pipe and an upper fill port, and this sheet has another procedure"),
        )
        .try_this("leave out `--sheet` or `--mistake`"));
    }
    Ok(setup)
}

fn of_the_job(args: &RehearseArgs, sheet: &Sheet, log: Warmup) -> Result<Setup, Failure> {
    let unknown = |seed| Unknown { seed, form: Some(rehearsal::identifiers::Form::Plain) };
    if args.find {
        let setup = Setup::find(sheet, unknown(args.unknown.unwrap_or(args.seed)), args.seed);
        return setup.ok_or_else(|| service::ServiceError::NeedsAdapter.into());
    }
    let mut setup = of_the_task(args, sheet, log)?;
    setup.unknown = args.unknown.map(unknown);
    Ok(setup)
}

fn of_the_task(args: &RehearseArgs, sheet: &Sheet, log: Warmup) -> Result<Setup, Failure> {
    match args.job {
        Task::Check => {
            let drawn = || Setup::missing_in_a_check(args.seed);
            let missing = args.missing.map_or_else(drawn, f64::from);
            Ok(Setup::check(missing, sheet, Some(log), args.seed))
        }
        Task::Change if args.missing.is_some() => {
            Err(Failure::new(Exit::Usage, "`--missing` says what a check has to find, and this is no check")
                .try_this("`rehearse --job check --missing 600`"))
        }
        Task::Change => Ok(Setup::named(args.mistake, sheet, Some(log), args.seed)),
    }
}

/// How it is shown.
#[derive(Clone, Copy)]
struct Manner {
    screen: Screen,
    plain: bool,
}

/// Where journal, socket and port lie: kept, or gone with the rehearsal.
struct Folder {
    path: PathBuf,
    reports: PathBuf,
    keep: bool,
}

impl Folder {
    fn make(keep: Option<&Path>) -> Result<Self, Failure> {
        let path = match keep {
            Some(folder) => {
                std::fs::create_dir_all(folder).map_err(|e| Failure::file("make", folder, &e))?;
                folder.to_path_buf()
            }
            None => crate::given::own_folder("rehearse")?,
        };
        let reports = keep.map_or_else(|| report::default_journal().join("rehearsal"), Path::to_path_buf);
        let journal = ["rehearsal.journal", "rehearsal.journal-wal", "rehearsal.journal-shm"];
        for old in journal.into_iter().chain(["rehearsal.find.json", "found.toml"]) {
            // A rehearsal begins with an empty journal, so that the same seed gives the same numbers.
            let _ = std::fs::remove_file(path.join(old));
        }
        Ok(Self { path, reports, keep: keep.is_some() })
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        if !self.keep {
            let _ = std::fs::remove_dir_all(&self.path);
        }
    }
}

async fn rehearse(
    setup: Setup,
    folder: &Folder,
    conductor: &Conductor,
    manner: Manner,
) -> Result<Ending, Failure> {
    let software = |e: std::io::Error| Failure::new(Exit::InputOutput, format!("the simulated adapter: {e}"));
    let device = folder.path.join("adapter");
    let socket = folder.path.join("socket");
    let cable = Arc::new(Cable::default());
    let car = Arc::new(Mutex::new(setup.car()));
    let nudge = Arc::new(Notify::new());
    let port = Port::plug_in(&device, Arc::clone(&cable)).map_err(software)?;
    tokio::spawn(port.serve(Arc::clone(&car), conductor.clock(Party::Car), Arc::clone(&nudge)));

    let daemon = Daemon::start(Config {
        bay: "rehearsal".to_owned(),
        sheet: setup.sheet.clone(),
        sheets: Vec::new(),
        socket: socket.clone(),
        socket_group: None,
        journal: folder.path.clone(),
        opener: (!setup.script.people).then(|| opener(&device, Arc::clone(&cable))),
        clock: conductor.clock(Party::Program),
        version: env!("CARGO_PKG_VERSION").to_owned(),
        limits: Limits::default(),
        memory: Memory::default(),
        recorder: None,
        machine: None,
        find: setup.script.finds.then(|| FindConfig {
            kept: KeptSearch::of(&folder.path, "rehearsal"),
            imported: Vec::new(),
            without_sheet: false,
        }),
    })?;
    let seen = OnItsWay::hold(conductor, daemon.progress(), &cable);
    let (stop, stopped) = oneshot::channel::<()>();
    let running = tokio::spawn(daemon.run(async {
        let _ = stopped.await;
    }));

    let client = Client::connect(&client::Daemon::own(socket)).await?;
    let watch = Watch::new(&setup);
    let technician = setup.technician();
    let found = setup.script.finds.then(|| folder.path.join("found.toml"));
    let sheet = setup.sheet.clone();
    let floor = Floor {
        found: found.map(|path| (path, sheet)),
        car,
        nudge,
        clock: conductor.clock(Party::Technician),
        seen,
        client,
        technician,
        watch,
    };
    let show = if manner.screen.is_json() || manner.plain {
        Show::lines(manner.screen)
    } else {
        Show::on_screen(manner.screen, &floor.client)?
    };
    let ending = floor.work(show).await;
    drop(stop);
    running.await.map_err(|e| Failure::new(Exit::Software, format!("the daemon ended badly: {e}")))??;
    ending
}

/// The daemon's own way to open a serial port, with the bytes counted on the way.
fn opener(device: &Path, cable: Arc<Cable>) -> Arc<dyn Opener> {
    let serial: Arc<dyn Opener> = Arc::new(Device::Serial { path: device.to_path_buf(), baud: None });
    Arc::new(Metered { inner: serial, cable })
}

/// What the technician has seen, told and not heard of yet: time stands while any of it is on its way.
struct OnItsWay {
    seq: AtomicU64,
    asked: AtomicU64,
}

impl OnItsWay {
    fn hold(conductor: &Conductor, progress: Progress, cable: &Arc<Cable>) -> Arc<Self> {
        // Nothing passes before the technician has connected and seen the first snapshot.
        let seen = Arc::new(Self { seq: AtomicU64::new(0), asked: AtomicU64::new(1) });
        let (held, cable) = (Arc::clone(&seen), Arc::clone(cable));
        conductor.hold_while_not(move || {
            cable.is_quiet()
                && progress.settled()
                && held.seq.load(Ordering::Acquire) >= progress.visible().0
                && held.asked.load(Ordering::Acquire) == 0
        });
        seen
    }
}

/// The workshop floor: the technician between the socket and the vehicle.
struct Floor {
    /// Where the sheet goes once the identifier is found, and the sheet that it is for.
    found: Option<(PathBuf, Sheet)>,
    car: Arc<Mutex<Car>>,
    nudge: Arc<Notify>,
    clock: Arc<dyn Clock>,
    seen: Arc<OnItsWay>,
    client: Client,
    technician: Technician,
    watch: Watch,
}

impl Floor {
    async fn work(mut self, mut show: Show) -> Result<Ending, Failure> {
        self.seen.seq.store(self.client.snapshot.seq.0, Ordering::Release);
        self.seen.asked.store(0, Ordering::Release);
        loop {
            let now = self.clock.now();
            self.hands(now, &mut show)?;
            while let Some(told) = self.technician.poll_tell() {
                self.seen.asked.fetch_add(1, Ordering::AcqRel);
                self.client.tell(&told).await?;
            }
            if self.technician.finished() {
                let car = lock(&self.car);
                return Ok(self.watch.end(car.world(), now));
            }
            let deadline = self.technician.poll_timeout();
            tokio::select! {
                biased;
                heard = self.client.next() => match heard? {
                    None => return Err(Failure::new(Exit::Software, "the daemon has stopped in the middle of the job")),
                    Some(heard) => self.hear(&heard.text, heard.line, &mut show)?,
                },
                () = self.clock.sleep_until(deadline.unwrap_or(Mono::from_millis(u64::MAX / 2))), if deadline.is_some() => {}
            }
        }
    }

    /// Lets the technician go on where his time has come.
    fn hands(&mut self, now: Mono, show: &mut Show) -> Result<(), Failure> {
        if self.technician.poll_timeout().is_some_and(|at| now >= at) {
            let mut car = lock(&self.car);
            car.handle_timeout(now);
            self.technician.handle_timeout(now, car.world_mut());
            drop(car);
            self.nudge.notify_one();
        }
        while let Some(deed) = self.technician.poll_doing() {
            show.deed(now, &deed)?;
        }
        Ok(())
    }

    fn hear(&mut self, text: &str, line: Option<SocketLine>, show: &mut Show) -> Result<(), Failure> {
        match line {
            Some(SocketLine::Event(event)) => {
                if let (Body::Found(found), Some((path, sheet))) = (&event.body, &self.found) {
                    crate::find::write_for(sheet, found, &event, path)?;
                }
                self.technician.handle_event(&event, self.clock.now());
                self.watch.see(&event, lock(&self.car).world());
                show.event(text, &event)?;
                self.seen.seq.store(event.seq.0, Ordering::Release);
            }
            Some(SocketLine::Word(word)) => {
                self.technician.handle_word(&word);
                show.word(text, &word)?;
                if matches!(word, Word::Accepted { .. } | Word::Refused { .. }) {
                    self.seen.asked.fetch_sub(1, Ordering::AcqRel);
                }
            }
            None => say(&format!("not understood: {text}")),
        }
        Ok(())
    }
}

fn lock(car: &Mutex<Car>) -> MutexGuard<'_, Car> {
    car.lock().unwrap_or_else(PoisonError::into_inner)
}
