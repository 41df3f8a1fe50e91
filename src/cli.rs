//! The command line as a table: what can be typed, and the help that is generated from it.

use std::path::PathBuf;
use std::sync::LazyLock;

use clap::{Args, Parser, Subcommand, ValueEnum};
use units::text::UnitSystem;
use words::Lang;

use crate::colour::Colour;
use crate::{
    board, calc, car, decode, due, events, find, jobs, page, plan, probe, rehearse, relay, replay, report,
    serve, sheet, status, tell, watch,
};

/// Sets the fluid level of transmissions that have no dipstick: says go, wait or too hot from the temperature
/// that a cheap diagnostic adapter reads, keeps the fluid balance, and writes the record of the job.
#[derive(Debug, Parser)]
#[command(name = "standpipe", version, long_version = LONG_VERSION.as_str(), max_term_width = 100, after_help = AFTER)]
pub struct Cli {
    /// What every command knows.
    #[command(flatten)]
    pub shared: Shared,
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// The version, and which languages no native speaker has checked.
static LONG_VERSION: LazyLock<String> = LazyLock::new(|| {
    let unchecked = Lang::ALL.iter().filter(|lang| !lang.is_checked());
    let named: Vec<String> = unchecked.map(|lang| format!("{} ({lang})", lang.name())).collect();
    let rest = match named.is_empty() {
        true => String::new(),
        false => format!(
            "\nChecked by no native speaker yet: {}. English stands beside their cautions.",
            named.join(", ")
        ),
    };
    format!("{}{rest}", env!("CARGO_PKG_VERSION"))
});

const AFTER: &str = "\
Examples:
  standpipe rehearse                       the whole job on a simulated vehicle
  standpipe rehearse --mistake under-filled
  standpipe serve --sheet my-vehicle.toml  the daemon, with the adapter it finds
  standpipe events                         what happens, as it happens
  standpipe tell drained 2.4L --at 22C     tell the daemon what you did

The vehicle maker's procedure, local codes and licensed practice come before anything said here.
Exit codes: 0 done, 1 the level is not set, 64 usage, 65 bad data, 66 no such file, 69 unavailable,
73 cannot create, 74 I/O, 75 try again, 77 no permission, 78 configuration, 130 Ctrl-C.";

/// What every command knows.
#[derive(Debug, Args)]
pub struct Shared {
    /// JSON Lines even on a terminal (without a terminal it is the default).
    #[arg(long, global = true)]
    pub json: bool,
    /// Whether to embolden: auto, always or never.
    #[arg(long, global = true, value_enum, default_value_t = Colour::Auto, value_name = "WHEN")]
    pub color: Colour,
    /// The units people read, metric where left out; JSON is always SI.
    #[arg(long, global = true, value_enum, value_name = "SYSTEM", env = "STANDPIPE_UNITS")]
    pub units: Option<Units>,
    /// The language of the screens, of the page, of report and plan: en, de, es, fr, pt, pl or hi; else that of the environment,
    /// on the page that of the browser.
    #[arg(long, global = true, value_name = "LANG", env = "STANDPIPE_LANG")]
    pub lang: Option<Lang>,
}

/// The units people read.
#[derive(Debug, Clone, Copy, ValueEnum, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Units {
    /// °C, L, N·m.
    Metric,
    /// °F, qt, lb·ft.
    Us,
    /// °F, imperial qt, lb·ft.
    Imperial,
    /// °C, L, kgf·cm.
    Kgf,
}

impl From<Units> for UnitSystem {
    fn from(units: Units) -> Self {
        match units {
            Units::Metric => Self::Metric,
            Units::Us => Self::Us,
            Units::Imperial => Self::Imperial,
            Units::Kgf => Self::Kgf,
        }
    }
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// The whole job on the simulated vehicle, through the real serial code, daemon, journal and socket.
    Rehearse(rehearse::RehearseArgs),
    /// Only the simulated vehicle and adapter, behind a pseudo-terminal or a TCP port.
    Car(car::CarArgs),
    /// The daemon: reads the adapter, keeps the job, serves the local socket.
    Serve(serve::ServeArgs),
    /// How a bay is: adapter, vehicle, last reading, disk, clock, clients; the exit code says it to scripts.
    Status(status::StatusArgs),
    /// What this bay says, to an MQTT broker: for a board of many bays.
    Relay(relay::RelayArgs),
    /// All bays at a broker, the most urgent first.
    Board(board::BoardArgs),
    /// What happens, from the daemon's socket, one line an event.
    Events(events::EventsArgs),
    /// The live screen in a terminal, with keys to tell.
    Watch(watch::WatchArgs),
    /// Who may use the phone page: pairings, new codes, links that only show.
    Page(page::PageArgs),
    /// Tells the daemon one thing.
    Tell(tell::TellArgs),
    /// What the adapter is worth: identity, quirks, protocol, exchanges per second, and what it cannot do for the job.
    Probe(probe::ProbeArgs),
    /// What to buy, how much to fill, how long it will take, how much a degree and a tilt matter.
    Plan(plan::PlanArgs),
    /// The physics on its own: volume, level, tilt, dilution, viscosity, run-out, spot thermometer, guard band.
    Calc(calc::CalcArgs),
    /// Adapter text on stdin to decoded values.
    Decode(decode::DecodeArgs),
    /// The jobs of the journal, searched; verify, check, backup, export, import.
    Jobs(jobs::JobsArgs),
    /// The gate over a recorded log, one line per row.
    Replay(replay::ReplayArgs),
    /// The record of one job, from the journal.
    Report(report::ReportArgs),
    /// The rechecks that are due, as a list or as a calendar.
    Due(due::DueArgs),
    /// Which identifier carries the fluid temperature: searched read-only, watched while it warms, written to a sheet.
    Find(find::FindArgs),
    /// Sheets: check one, make a new one, print the commented template.
    Sheet(sheet::SheetArgs),
    /// The JSON Schema of events, requests and sheets.
    Schema(crate::generated::SchemaArgs),
    /// Completions for a shell, on stdout.
    Completions {
        /// Which shell.
        shell: clap_complete::Shell,
    },
    /// The manual pages: one on stdout, or all of them into a folder.
    Man {
        /// Where to put them all.
        folder: Option<PathBuf>,
    },
}
