//! `serve`: the daemon.

use std::path::PathBuf;
use std::sync::Arc;

use adapter::recording::{Head, RECORDING};
use adapter::{Device, Link, LinkError, Opener, Port};
use clap::Args;
use events::Utc;
use service::{Config, Daemon, Limits, Memory, Recorder, SystemClock};
use units::Clock as _;

use crate::client::Where;
use crate::failure::{Exit, Failure};
use crate::screen::{Screen, say};

/// Arguments of `serve`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  standpipe serve --sheet my-vehicle.toml\n  standpipe serve --device /dev/serial/by-id/usb-ADAPTER --sheet my-vehicle.toml\n  standpipe serve --device tcp:192.168.0.10:35000 --sheet my-vehicle.toml --bay left\n  standpipe serve --sheet my-vehicle.toml --page 0.0.0.0:8600   a phone page on the network, with pairing"
)]
pub struct ServeArgs {
    #[command(flatten)]
    at: Where,
    /// Where the adapter is: `auto`, a path (with `@RATE` for its baud rate), or `tcp:HOST:PORT`.
    #[arg(long, default_value = "auto", value_name = "DEVICE")]
    device: String,
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
}

/// `serve`.
pub fn run(args: ServeArgs, screen: Screen) -> Result<(), Failure> {
    let sheet = crate::given::sheet(args.sheet.as_deref())?;
    let sheets = crate::given::sheets(args.sheets.as_deref(), &sheet)?;
    if args.sheet.is_none() {
        say(
            "No --sheet was named: serving the built-in demonstration vehicle. Do not set a real level with it.",
        );
    }
    let device = device(&args.device)?;
    let socket = args.at.socket();
    let journal = args.journal.unwrap_or_else(crate::report::default_journal);
    let ground = crate::page::Ground {
        bay: args.at.bay.clone(),
        journal: journal.clone(),
        socket: socket.clone(),
        units: screen.units,
    };
    let page = args.page.bind(ground)?;
    crate::runtime(None)?.block_on(async move {
        let memory = Memory::open(&journal, &args.at.bay);
        let port = Port::new(device, None);
        let port = match memory.rate(&port.describe()) {
            Some(rate) => Port::new(port.device().clone(), Some(rate)),
            None => port,
        };
        // A wrong port is told at the start and not only in the events.
        drop(open(&port).await?);
        let recorder = args.record.as_deref().map(|path| recorder(path, &port.describe())).transpose()?;
        let device = port.describe();
        let daemon = Daemon::start(Config {
            bay: args.at.bay.clone(),
            sheet,
            sheets,
            socket: socket.clone(),
            socket_group: args.socket_group,
            journal: journal.clone(),
            opener: Arc::new(port),
            clock: Arc::new(SystemClock::start()),
            version: env!("CARGO_PKG_VERSION").to_owned(),
            limits: Limits::default(),
            memory,
            recorder,
        })?;
        say(&format!(
            "bay {}: adapter {}, socket {}, journal {}",
            args.at.bay,
            device,
            socket.display(),
            journal.display()
        ));
        page.map_or(Ok(()), crate::page::begin)?;
        daemon.run(stop()).await.map_err(Failure::from)
    })
}

pub fn recorder(path: &std::path::Path, device: &str) -> Result<Recorder, Failure> {
    let started = Utc::from_millis(SystemClock::start().wall_millis()).to_string();
    let program = format!("standpipe {}", env!("CARGO_PKG_VERSION"));
    let head = Head { recording: RECORDING, program, device: device.to_owned(), started };
    Recorder::create(path, &head).map_err(|e| {
        Failure::new(Exit::CannotCreate, format!("the recording {} cannot be begun: {e}", path.display()))
            .try_this("name a file that is not there yet, in a folder that you may write to")
    })
}

/// Ready when somebody wants us to stop.
async fn stop() {
    let mut term = tokio::signal::unix::signal(tokio::signal::unix::SignalKind::terminate()).ok();
    tokio::select! {
        _ = tokio::signal::ctrl_c() => {}
        _ = async { match &mut term { Some(term) => term.recv().await, None => std::future::pending().await } } => {}
    }
}

/// The device that was named, or the one there is.
pub fn device(text: &str) -> Result<Device, Failure> {
    if text != "auto" {
        return text.parse().map_err(|e: adapter::DeviceError| {
            Failure::new(Exit::Usage, format!("`{text}` is no device: {e}"))
                .try_this("name `auto`, a path like /dev/ttyUSB0 or /dev/ttyUSB0@115200, or tcp:HOST:PORT")
        });
    }
    adapter::auto().map_err(|e| {
        Failure::new(Exit::Unavailable, e.to_string())
            .try_this("name one with --device PATH, or `standpipe rehearse` without any")
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
