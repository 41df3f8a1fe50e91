//! `car`: only the simulated vehicle and adapter. Hands are typed on its stdin.
//!
//! With `--playback` a recording answers in its place (`car/playback.rs`).

mod playback;

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Instant;

use clap::{Args, Subcommand};
use rehearsal::pty::{Bench, Cable, Port};
use rehearsal::{Bus, Car, Fault, FaultKind, Firmware, Identifiers, Plug, SerialLine, Vehicle, World};
use tokio::io::AsyncBufReadExt as _;
use units::{Clock, Mono, Sleep, text};

use crate::failure::{Exit, Failure};
use crate::screen::say;

/// Arguments of `car`.
#[derive(Debug, Args)]
#[command(args_conflicts_with_subcommands = true, after_help = AFTER)]
pub struct CarArgs {
    #[command(subcommand)]
    list: Option<List>,
    /// How it is reached: `pty`, or `tcp:ADDRESS:PORT`.
    #[arg(long, default_value = "pty", value_name = "LINK")]
    link: String,
    /// The sheet of the vehicle; the built-in demonstration where absent.
    #[arg(long, value_name = "FILE")]
    sheet: Option<PathBuf>,
    /// A recorded warm-up that drives the coolant.
    #[arg(long, value_name = "LOG")]
    warmup: Option<PathBuf>,
    /// The adapter's firmware; `car list` names them.
    #[arg(long, default_value = "original-2.1", value_parser = firmware, value_name = "NAME")]
    firmware: &'static Firmware,
    /// The bus that the vehicle speaks; `car list` names them.
    #[arg(long, default_value = "can-11-500", value_parser = bus, value_name = "NAME")]
    bus: &'static Bus,
    /// Something that is wrong, from second T on; may be given several times.
    #[arg(long, value_parser = fault, value_name = "NAME[@T]")]
    fault: Vec<Fault>,
    /// A recording (`serve --record FILE`) that answers in place of a vehicle, each reply once and in its time.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["sheet", "warmup", "firmware", "bus", "fault", "seed", "air", "unknown"])]
    playback: Option<PathBuf>,
    /// Simulated seconds in a real second.
    #[arg(long, default_value = "1", value_parser = crate::pace::pace, value_name = "N")]
    pace: f64,
    /// The seed of everything random.
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// Its units have other identifiers than the sheet's, drawn by this seed: nobody knows them.
    #[arg(long, value_name = "SEED")]
    unknown: Option<u64>,
    /// How warm vehicle and air are at the start.
    #[arg(long, value_parser = text::celsius, default_value = "20C", value_name = "TEMPERATURE", allow_hyphen_values = true)]
    air: units::Celsius,
}

#[derive(Debug, Subcommand)]
enum List {
    /// The firmwares, faults and buses there are.
    List,
}

const AFTER: &str = "\
The first line of stdout is the path or the address to name with `serve --device`.
Then type what hands do, one a line:
  engine on|off    drain    fill 2.9L [20C]    selector    open|close (the check port)
  level PITCH ROLL (degrees)    pin|unpin (the cooler bypass)    plug|unplug (the adapter)    look";

fn firmware(name: &str) -> Result<&'static Firmware, String> {
    Firmware::named(name).ok_or_else(|| {
        let known: Vec<&str> = rehearsal::firmware::ALL.iter().map(|f| f.name).collect();
        format!("known: {}", known.join(", "))
    })
}

fn bus(name: &str) -> Result<&'static Bus, String> {
    Bus::named(name).ok_or_else(|| {
        let known: Vec<&str> = rehearsal::bus::ALL.iter().map(|bus| bus.name).collect();
        format!("known: {}", known.join(", "))
    })
}

fn fault(text: &str) -> Result<Fault, String> {
    text.parse().map_err(|e: rehearsal::FaultError| e.to_string())
}

/// `car`.
pub fn run(args: &CarArgs) -> Result<(), Failure> {
    if matches!(args.list, Some(List::List)) {
        return list();
    }
    if let Some(path) = &args.playback {
        return play(args, path);
    }
    let sheet = crate::given::sheet(args.sheet.as_deref())?;
    let warmup = args.warmup.as_deref().map(crate::given::warmup).transpose()?;
    let vehicle = Vehicle::typical(&sheet, args.air.to_f64());
    let world = World::new(&sheet, vehicle, warmup, &args.fault, args.seed);
    let mut car = Car::on(args.bus, world, &sheet, args.firmware, SerialLine::USUAL, args.seed);
    if let Some(seed) = args.unknown {
        car.give(Identifiers::draw(seed, args.bus));
    }
    let car = Arc::new(Mutex::new(car));
    let clock: Arc<dyn Clock> = Arc::new(Scaled { start: Instant::now(), pace: args.pace });
    crate::runtime(None)?.block_on(async {
        let nudge = Arc::new(tokio::sync::Notify::new());
        tokio::select! {
            done = serve(args, Arc::clone(&car), Arc::clone(&clock), Arc::clone(&nudge)) => done,
            () = hands(&car, &*clock, &nudge) => Ok(()),
            _ = tokio::signal::ctrl_c() => Err(Failure::new(Exit::Interrupted, "")),
        }
    })
}

/// A recording in place of the vehicle, until Ctrl-C.
fn play(args: &CarArgs, path: &Path) -> Result<(), Failure> {
    let text = std::fs::read_to_string(path).map_err(|e| Failure::file("read", path, &e))?;
    let (_, entries) = adapter::recording::read(&text).map_err(|e| {
        Failure::new(Exit::Data, format!("{}: {e}", path.display()))
            .try_this("a recording is what `standpipe serve --record FILE` writes")
    })?;
    let bench = Arc::new(Mutex::new(playback::Playback::new(&entries)));
    let clock: Arc<dyn Clock> = Arc::new(Scaled { start: Instant::now(), pace: args.pace });
    crate::runtime(None)?.block_on(async {
        tokio::select! {
            done = serve(args, bench, clock, Arc::default()) => done,
            _ = tokio::signal::ctrl_c() => Err(Failure::new(Exit::Interrupted, "")),
        }
    })
}

async fn serve<B: Bench>(
    args: &CarArgs,
    car: Arc<Mutex<B>>,
    clock: Arc<dyn Clock>,
    nudge: Arc<tokio::sync::Notify>,
) -> Result<(), Failure> {
    if let Some(address) = args.link.strip_prefix("tcp:") {
        let listener = tokio::net::TcpListener::bind(address).await.map_err(|e| {
            Failure::new(Exit::CannotCreate, format!("cannot listen at {address}: {e}"))
                .try_this("name a free one, like tcp:127.0.0.1:35000")
        })?;
        let at = listener.local_addr().map_or(address.to_owned(), |a| a.to_string());
        first_line(&format!("tcp:{at}"))?;
        return rehearsal::tcp::serve(listener, car, clock, nudge).await.map_err(|e| broken(&e));
    }
    if args.link != "pty" {
        return Err(Failure::new(Exit::Usage, format!("`{}` is no link", args.link))
            .try_this("pty, or tcp:ADDRESS:PORT"));
    }
    let folder = Temporary(crate::given::own_folder("car")?);
    let name = folder.0.join("adapter");
    let port = Port::plug_in(&name, Arc::new(Cable::default())).map_err(|e| broken(&e))?;
    first_line(&name.display().to_string())?;
    port.serve(car, clock, nudge).await.map_err(|e| broken(&e))
}

/// A folder that goes with its owner.
struct Temporary(PathBuf);

impl Drop for Temporary {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

fn broken(e: &std::io::Error) -> Failure {
    Failure::new(Exit::InputOutput, format!("the simulated adapter's port failed: {e}"))
}

fn first_line(text: &str) -> Result<(), Failure> {
    use std::io::Write as _;
    let mut out = std::io::stdout().lock();
    writeln!(out, "{text}").and_then(|()| out.flush()).map_err(|e| broken(&e))
}

fn list() -> Result<(), Failure> {
    use std::io::Write as _;
    let mut text = String::from("firmwares:\n");
    for firmware in rehearsal::firmware::ALL {
        text += &format!("  {:<22} {}\n", firmware.name, firmware.says);
    }
    text += "faults (NAME or NAME@SECONDS):\n";
    for fault in FaultKind::ALL {
        text += &format!("  {:<22} {}\n", fault.word(), fault.says());
    }
    text += "buses:\n";
    for bus in rehearsal::bus::ALL {
        text += &format!("  {:<22} {}\n", bus.name, bus.says);
    }
    std::io::stdout().write_all(text.as_bytes()).map_err(|e| broken(&e))
}

/// Does what is typed, until stdin ends; then the car stays until Ctrl-C.
async fn hands(car: &Arc<Mutex<Car>>, clock: &dyn Clock, nudge: &tokio::sync::Notify) {
    let mut lines = tokio::io::BufReader::new(tokio::io::stdin()).lines();
    while let Ok(Some(line)) = lines.next_line().await {
        let answer = hand(&mut lock(car), line.trim(), clock.now());
        nudge.notify_one();
        say(&answer.unwrap_or_else(|why| format!("not done: {why}")));
    }
    std::future::pending::<()>().await;
}

fn lock(car: &Mutex<Car>) -> MutexGuard<'_, Car> {
    car.lock().unwrap_or_else(PoisonError::into_inner)
}

/// One line of hands; gives what can be seen afterwards.
fn hand(car: &mut Car, line: &str, now: Mono) -> Result<String, String> {
    car.handle_timeout(now);
    let world = car.world_mut();
    world.advance(now);
    let words: Vec<&str> = line.split_whitespace().collect();
    match words.as_slice() {
        [] => return Ok(String::new()),
        ["engine", "on"] => world.start_engine(),
        ["engine", "off"] => world.stop_engine(),
        ["drain"] => {
            let out = world.drain(1.0);
            return Ok(format!("{out:.0} mL came out"));
        }
        ["fill", amount, rest @ ..] => {
            let amount = text::millilitres(amount).map_err(|e| e.to_string())?;
            let celsius = match rest {
                [] => world.vehicle().air_celsius,
                [at, ..] => text::celsius(at).map_err(|e| e.to_string())?.to_f64(),
            };
            world.fill(amount.to_f64(), celsius);
        }
        // Twice through all positions, and back to the first.
        ["selector"] => (0..4).cycle().take(9).for_each(|position| world.move_selector(position, 4)),
        ["open"] => world.open_check_port(),
        ["close"] => world.close_check_port(),
        ["level", pitch, roll] => {
            let number =
                |t: &str| t.trim_end_matches("deg").parse::<f64>().map_err(|_| format!("`{t}` is no angle"));
            world.stand(number(pitch)?, number(roll)?);
        }
        ["pin"] => world.pin_bypass(Plug::In),
        ["unpin"] => world.pin_bypass(Plug::Out),
        ["plug"] => world.plug_adapter(Plug::In),
        ["unplug"] => world.plug_adapter(Plug::Out),
        ["look"] => {}
        _ => {
            return Err(format!(
                "`{line}` is nothing hands do here; `standpipe car --help` lists what they do"
            ));
        }
    }
    Ok(format!(
        "engine {:?}, check port {:?}, stream {:.0} mL/min, fluid really {:.1} °C, coolant {:.1} °C, above the rim {:+.0} mL",
        world.engine(),
        world.check_port(),
        world.stream_ml_min(),
        world.fluid_celsius(),
        world.coolant_celsius(),
        world.excess_ml()
    ))
}

/// The real clock, faster or slower.
struct Scaled {
    start: Instant,
    pace: f64,
}

impl Clock for Scaled {
    fn now(&self) -> Mono {
        Mono::from_millis((self.start.elapsed().as_secs_f64() * self.pace * 1_000.0) as u64)
    }

    fn wall_millis(&self) -> i64 {
        rehearsal::clock::WALL_START_MILLIS
    }

    fn sleep_until(&self, at: Mono) -> Sleep {
        let due = self.start + std::time::Duration::from_secs_f64((at.as_secs_f64() / self.pace).min(1e9));
        Box::pin(tokio::time::sleep_until(due.into()))
    }
}
