//! `serve`: the daemon.

use std::path::PathBuf;
use std::sync::Arc;

use adapter::recording::{About, Head, RECORDING};
use adapter::{Device, Held, Link, LinkError, Opener, Port};
use clap::Args;
use events::{Sheet, Signal, Utc};
use service::{Config, Daemon, Limits, Machine, Memory, Recorder, ServiceError, SystemClock};
use units::Clock as _;

use crate::client::Where;
use crate::config::{CLIENTS, Configuration};
use crate::failure::{Exit, Failure};
use crate::manager;
use crate::screen::{Screen, say};

/// Arguments of `serve`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  standpipe serve --sheet my-vehicle.toml\n  standpipe serve --device /dev/serial/by-id/usb-ADAPTER --sheet my-vehicle.toml\n  standpipe serve --device tcp:192.168.0.10:35000 --sheet my-vehicle.toml --bay left\n  standpipe serve --device none --sheet my-vehicle.toml   without an adapter: thermometer and engine are told\n  standpipe serve --sheet my-vehicle.toml --page 0.0.0.0:8600   a phone page on the network, with pairing\n  standpipe serve --bay left --config /etc/standpipe/left.toml   as the service does"
)]
pub struct ServeArgs {
    #[command(flatten)]
    at: Where,
    /// The configuration of a bay: a TOML file with the options of this command; what stands on the command line goes before it.
    #[arg(long, value_name = "FILE")]
    config: Option<PathBuf>,
    /// Print a configuration with every key explained, and end.
    #[arg(long)]
    config_example: bool,
    /// Where the adapter is: `auto` (where left out), a path (with `@RATE` for its baud rate), `tcp:HOST:PORT`, or `none`. A wireless
    /// adapter is whoever answers there, and its temperatures are believed: keep strangers off its network. With `none`
    /// everything is told by people: temperature (`tell spot`) and engine (`tell engine`); a sheet of the signal
    /// `coolant` needs an adapter.
    #[arg(long, value_name = "DEVICE")]
    device: Option<String>,
    /// Start without the adapter, too, and wait for it; else a start without it fails and says why.
    #[arg(long)]
    wait: bool,
    /// The sheet of the vehicle; the built-in demonstration where absent.
    #[arg(long, value_name = "FILE")]
    sheet: Option<PathBuf>,
    /// A folder of sheets that can be chosen from while no job runs (`tell sheet NAME`, or on the page).
    #[arg(long, value_name = "DIR")]
    sheets: Option<PathBuf>,
    #[command(flatten)]
    page: crate::page::Served,
    /// The folder of the journal.
    #[arg(long, value_name = "DIR")]
    journal: Option<PathBuf>,
    /// Write everything said on the link to this new file, to be played back by `car --playback`.
    #[arg(long, value_name = "FILE")]
    record: Option<PathBuf>,
    /// A group that may use the socket too (mode 0660).
    #[arg(long, value_name = "GROUP")]
    socket_group: Option<String>,
    /// Clients of the socket at a time, 2 to 4096, 64 where left out; the page is one, however many look at it.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(i64::from(*CLIENTS.start())..=i64::from(*CLIENTS.end())))]
    clients: Option<u16>,
}

impl ServeArgs {
    /// The same, with what its configuration says where the command line does not.
    fn configured(self, mut screen: Screen) -> Result<(Self, Screen), Failure> {
        let Some(path) = &self.config else { return Ok((self, screen)) };
        let file = Configuration::read(path)?;
        screen.units = screen.asked_units.or(file.units.map(Into::into)).unwrap_or(screen.units);
        screen.asked = screen.asked.or(file.lang);
        let whole = Self {
            device: self.device.or(file.device),
            wait: self.wait || file.wait.unwrap_or_default(),
            sheet: self.sheet.or(file.sheet),
            sheets: self.sheets.or(file.sheets),
            page: self.page.or(file.page, file.page_name, file.page_pair.unwrap_or_default()),
            journal: self.journal.or(file.journal),
            socket_group: self.socket_group.or(file.socket_group),
            clients: self.clients.or(file.clients),
            ..self
        };
        Ok((whole, screen))
    }
}

/// `serve`.
pub fn run(args: ServeArgs, screen: Screen) -> Result<(), Failure> {
    if args.config_example {
        return screen.line(crate::config::EXAMPLE.trim_end());
    }
    let (args, screen) = args.configured(screen)?;
    let sheet = crate::given::sheet(args.sheet.as_deref())?;
    let offered = crate::given::sheets(args.sheets.as_deref(), &sheet)?;
    offered.left_out.iter().for_each(|why| say(why));
    if args.sheet.is_none() {
        say(
            "No --sheet was named: serving the built-in demonstration vehicle. Do not set a real level with it.",
        );
    }
    let device = adapter_of(&args, &sheet)?;
    let socket = args.at.socket();
    let journal = args.journal.unwrap_or_else(crate::report::default_journal);
    let ground = crate::page::Ground {
        bay: args.at.bay.clone(),
        journal: journal.clone(),
        socket: socket.clone(),
        units: screen.units,
        lang: screen.asked,
        sheets: args.sheets.clone().unwrap_or_else(|| journal.join("sheets")),
        clock: None,
    };
    let folder = args.sheets.clone().or_else(|| args.page.is_served().then(|| ground.sheets.clone()));
    let sheets = offered.sheets.clone();
    let renewed = crate::renew::watch(args.sheet.clone(), folder, sheet.clone(), offered)?;
    let page = args.page.bind(ground)?;
    crate::runtime(None)?.block_on(async move {
        let memory = Memory::open(&journal, &args.at.bay);
        let (opener, device, recorder) = match device {
            Some(device) => {
                let (opener, name) = adapter_at(device, &memory, args.wait).await?;
                let recorder = args.record.as_deref().map(|path| recorder(path, &name)).transpose()?;
                (Some(opener), name, recorder)
            }
            None => (None, "none, everything is told by people".to_owned(), None),
        };
        let clock = SystemClock::reaching_back();
        let limits = Limits::default();
        let daemon = Daemon::start(Config {
            bay: args.at.bay.clone(),
            sheet,
            sheets,
            socket: socket.clone(),
            socket_group: args.socket_group,
            journal: journal.clone(),
            opener,
            machine: Machine::beside(&clock),
            clock: Arc::new(clock),
            version: env!("CARGO_PKG_VERSION").to_owned(),
            limits: Limits { clients: args.clients.map_or(limits.clients, usize::from), ..limits },
            memory,
            recorder,
            find: None,
        })?
        .with_sheets_from(renewed);
        let what = format!(
            "bay {}: adapter {}, socket {}, journal {}",
            args.at.bay,
            device,
            socket.display(),
            journal.display()
        );
        say(&what);
        page.map_or(Ok(()), crate::page::begin)?;
        managed(daemon, &what).await
    })
}

/// Runs to the end, and keeps the service manager informed, where there is one.
async fn managed(daemon: Daemon, what: &str) -> Result<(), Failure> {
    let daemon = match manager::wants_pulse() {
        Some(every) => daemon.with_pulse(every, manager::pulse),
        None => daemon,
    };
    manager::ready(what);
    let stopped = async {
        stop().await;
        manager::stopping();
    };
    daemon.run(stopped).await.map_err(Failure::from)
}

/// The adapter that is meant, if there is to be one.
fn adapter_of(args: &ServeArgs, sheet: &Sheet) -> Result<Option<Device>, Failure> {
    let named = args.device.as_deref().unwrap_or(AUTO);
    if named == NONE {
        without_adapter(sheet, args.record.is_some())?;
        return Ok(None);
    }
    match device(named) {
        // It is looked for at each try.
        Err(_) if args.wait => spelled(named).map(Some),
        found => found.map(Some),
    }
}

/// The word for the only adapter there is.
pub const AUTO: &str = "auto";
/// The word for no adapter at all.
const NONE: &str = "none";

/// Says what stands in for the adapter, or why nothing can.
fn without_adapter(sheet: &Sheet, records: bool) -> Result<(), Failure> {
    if records {
        return Err(Failure::new(
            Exit::Usage,
            "--record writes down a link, and there is none with `--device none`",
        )
        .try_this("leave --record away"));
    }
    if sheet.by_people().is_none() {
        return Err(Failure::from(ServiceError::NeedsAdapter));
    }
    if sheet.check.signal == Signal::Fluid {
        say(
            "Without an adapter nobody reads the identifier of this sheet: a thermometer on the sump, typed in, stands in for it. \
             It is known less well (about 1.2 K instead of 0.7 K on tape), so `go` comes later and ends earlier.",
        );
    }
    Ok(())
}

/// The port, opened, and its name. A wrong port is told at the start and not only in the events. The link is kept: some
/// adapters serve no second one.
/// Where it may be waited for, one that is not there is said and tried again and again.
pub async fn adapter_at(
    device: Device,
    memory: &Memory,
    wait: bool,
) -> Result<(Arc<dyn Opener>, String), Failure> {
    let port = Port::new(device, None);
    let port = match memory.rate(&port.describe()) {
        Some(rate) => Port::new(port.device().clone(), Some(rate)),
        None => port,
    };
    let first = open(&port).await;
    if let Some(caution) = who_answers(port.device()) {
        say(&caution);
    }
    let name = port.describe();
    match first {
        Ok(first) => Ok((Arc::new(Held::new(first, port)), name)),
        Err(why) if wait => {
            say(&format!("The adapter is not there yet and is waited for: {}", why.what));
            Ok((Arc::new(port), name))
        }
        Err(why) => Err(why),
    }
}

/// A wire shows what hangs on it; a wireless adapter is whoever answers.
fn who_answers(device: &Device) -> Option<String> {
    let at = match device {
        Device::Tcp { host, port } => format!("tcp:{host}:{port}"),
        Device::Serial { path, .. } if path.to_string_lossy().contains("rfcomm") => {
            path.display().to_string()
        }
        _ => return None,
    };
    Some(format!(
        "caution: the adapter at {at} is whoever answers there, and its temperatures are believed. Keep strangers off its \
         network (its own password, not the one it came with), or use a wired adapter."
    ))
}

pub fn recorder(path: &std::path::Path, device: &str) -> Result<Recorder, Failure> {
    let started = Utc::from_millis(SystemClock::start().wall_millis()).to_string();
    let program = format!("standpipe {}", env!("CARGO_PKG_VERSION"));
    let head =
        Head { recording: RECORDING, program, device: device.to_owned(), started, about: About::default() };
    Recorder::create(path, &head).map_err(|e| {
        Failure::new(Exit::CannotCreate, format!("the recording {} cannot be begun: {e}", path.display()))
            .try_this("name a file that is not there yet, in a folder that you may write to")
    })
}

/// Ready when somebody wants us to stop: a service manager, Ctrl-C, a terminal that is closed. A signal that whoever
/// started us had set to be ignored, as `nohup` does, stays ignored.
pub async fn stop() {
    use tokio::signal::unix::SignalKind;
    let ignored = ignored_signals();
    let heard = |kind: SignalKind| async move {
        let listening = ignored & (1 << (kind.as_raw_value() - 1)) == 0;
        match listening.then(|| tokio::signal::unix::signal(kind)) {
            Some(Ok(mut signal)) => drop(signal.recv().await),
            _ => std::future::pending().await,
        }
    };
    tokio::select! {
        () = heard(SignalKind::terminate()) => {}
        () = heard(SignalKind::interrupt()) => {}
        () = heard(SignalKind::hangup()) => {}
    }
}

/// The signals that were ignored when we started, as a mask; none where the system does not say (proc(5), `SigIgn`).
fn ignored_signals() -> u64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let mask = status.lines().find_map(|line| line.strip_prefix("SigIgn:"));
    mask.and_then(|mask| u64::from_str_radix(mask.trim(), 16).ok()).unwrap_or(0)
}

/// The device that was named, or the one there is.
pub fn device(text: &str) -> Result<Device, Failure> {
    if text != AUTO {
        return spelled(text);
    }
    adapter::auto().map_err(|e| {
        Failure::new(Exit::Unavailable, e.to_string())
            .try_this("name one with --device PATH, or `standpipe rehearse` without any")
    })
}

/// The device that was named, be it there or not.
fn spelled(text: &str) -> Result<Device, Failure> {
    text.parse().map_err(|e: adapter::DeviceError| {
        Failure::new(Exit::Usage, format!("`{text}` is no device: {e}"))
            .try_this("name `auto`, a path like /dev/ttyUSB0 or /dev/ttyUSB0@115200, or tcp:HOST:PORT")
    })
}

/// Opens the port, or says why not and what to try.
pub async fn open(port: &Port) -> Result<Box<dyn Link>, Failure> {
    port.open().await.map_err(|e| not_opened(&e))
}

/// A port that could not be opened.
pub fn not_opened(e: &LinkError) -> Failure {
    let exit = match e {
        LinkError::NoPermission { .. } => Exit::NoPermission,
        LinkError::Busy { .. } => Exit::TryAgain,
        _ => Exit::Unavailable,
    };
    Failure::new(exit, e.to_string()).try_this(e.remedy())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whoever_uses_a_wireless_adapter_is_told_that_it_is_whoever_answers() {
        for (text, want) in [
            ("tcp:192.0.2.7:35000", true),
            ("/dev/rfcomm0", true),
            ("/dev/ttyUSB0", false),
            ("/dev/serial/by-id/usb-ADAPTER@115200", false),
        ] {
            let said = who_answers(&text.parse().unwrap());
            assert_eq!(said.is_some_and(|said| said.contains(text)), want, "{text}");
        }
    }
}
