//! `probe`: what is this adapter worth, and what can it not do for the job?
//!
//! Opens the port for itself, tries everything harmless once, reads for some seconds and says what it found. Not here:
//! the words of the report (`probe/report.rs`), the driver that does the talking (`adapter`).

mod report;

use std::path::PathBuf;
use std::time::Duration;

use adapter::recording::Said;
use adapter::{Counts, Driver, Identity, Link, Opener as _, Outcome, Port, Protocol};
use clap::Args;
use service::{Recorder, SystemClock};
use tokio::io::{AsyncReadExt as _, AsyncWriteExt as _};
use units::{Clock as _, Mono};

use crate::failure::{Exit, Failure};
use crate::screen::Screen;

/// Arguments of `probe`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  standpipe probe\n  standpipe probe --device /dev/ttyUSB0 --sheet my-vehicle.toml\n  standpipe probe --device tcp:192.168.0.10:35000 --record link.jsonl\n\nThe ignition has to be on. A daemon that holds the port has to be stopped first.\nExit code 0 where the vehicle was read, 69 where it was not."
)]
pub struct ProbeArgs {
    /// Where the adapter is: `auto`, a path (with `@RATE` for its baud rate), or `tcp:HOST:PORT`.
    #[arg(long, default_value = "auto", value_name = "DEVICE")]
    device: String,
    /// Also try whether this sheet's temperature can be read.
    #[arg(long, value_name = "FILE")]
    sheet: Option<PathBuf>,
    /// How long to read once the vehicle answers.
    #[arg(long, default_value_t = 8, value_name = "SECONDS", value_parser = clap::value_parser!(u64).range(2..=600))]
    seconds: u64,
    /// Write everything said on the link to this new file, to be played back by `car --playback`.
    #[arg(long, value_name = "FILE")]
    record: Option<PathBuf>,
}

/// A vehicle that has not answered by then is reported as silent.
const PATIENCE: Duration = Duration::from_secs(75);
/// So long after connecting the counts of replies are learnt; exchanges are counted from then on.
const WARM_UP: Duration = Duration::from_secs(2);

/// What was seen.
#[derive(Debug, Default)]
pub struct Seen {
    /// What it calls itself, and what trying has shown.
    pub identity: Option<Identity>,
    /// How the vehicle answers.
    pub vehicle: Option<(Option<Protocol>, String, Vec<String>)>,
    /// Why it does not, or why this is no adapter.
    pub trouble: Option<String>,
    /// Whether the trouble is that this is no adapter.
    pub stranger: bool,
    /// The last voltage, mV.
    pub millivolts: Option<u32>,
    /// Answers to the request that counts, and what else came of it.
    pub answers: u64,
    /// Requests without a usable answer, by word.
    pub failures: std::collections::BTreeMap<String, u64>,
    /// The first answer.
    first: Option<Mono>,
    /// When exchanges were counted from, and how many replies there had been.
    counted_from: Option<(Mono, u64)>,
    /// Exchanges per second.
    pub per_second: Option<f64>,
    /// The rate that the wire was raised to.
    pub raised: Option<u32>,
    /// The driver's counts at the end.
    pub counts: Counts,
    /// The quirks that were named.
    pub quirks: Vec<adapter::Quirk>,
    /// The last things said, where it ended badly.
    pub last: Vec<String>,
}

/// `probe`.
pub fn run(args: &ProbeArgs, screen: Screen) -> Result<(), Failure> {
    let sheet = args.sheet.as_deref().map(|path| crate::given::sheet(Some(path))).transpose()?;
    let port = Port::new(crate::serve::device(&args.device)?, None);
    let recorder =
        args.record.as_deref().map(|path| crate::serve::recorder(path, &port.describe())).transpose()?;
    let schedule = schedule(sheet.as_ref());
    let asked = schedule.gating.map(|poll| poll.ask.hex().to_string());
    let (seen, found_rate) = crate::runtime(None)?.block_on(async {
        let link = crate::serve::open(&port).await?;
        let rate = link.rate();
        let mut driver = Driver::new(schedule).thorough();
        Ok::<_, Failure>((look(link, &mut driver, recorder.as_ref(), args.seconds).await, rate))
    })?;
    let answered = seen.answers > 0;
    report::show(&report::Report::new(&port, found_rate, asked, sheet.is_some(), &seen), screen)?;
    if answered {
        return Ok(());
    }
    Err(Failure::new(Exit::Unavailable, "nothing was read through this adapter; the report says why"))
}

/// What is asked: the sheet's temperature or the coolant's, as often as the line allows, and once a long reply.
fn schedule(sheet: Option<&events::Sheet>) -> adapter::Schedule {
    let often = |poll| adapter::Poll { every: Duration::ZERO, ..poll };
    let coolant = adapter::Poll::new(frames::Ask::Current(0x05), Duration::ZERO);
    let gating = sheet.and_then(|sheet| service::schedule(sheet).gating).map_or(coolant, often);
    let vin = adapter::Poll::new(frames::Ask::VehicleInfo(0x02), Duration::ZERO);
    adapter::Schedule { gating: Some(gating), once: vec![vin], ..adapter::Schedule::default() }
}

async fn look(
    mut link: Box<dyn Link>,
    driver: &mut Driver,
    recorder: Option<&Recorder>,
    seconds: u64,
) -> Seen {
    let clock = SystemClock::start();
    let note = |at, what: &dyn Fn() -> Said| {
        if let Some(recorder) = recorder {
            recorder.note(at, what());
        }
    };
    let (mut seen, mut piece) = (Seen::default(), [0; 4_096]);
    note(clock.now(), &|| Said::Opened);
    driver.handle_opened_at(link.rate(), clock.now());
    let mut end = clock.now().after(PATIENCE);
    loop {
        let now = clock.now();
        driver.handle_timeout(now);
        while let Some(line) = driver.poll_transmit(now) {
            note(now, &|| Said::Host(line.to_vec()));
            // A port that is gone is told by the read.
            let _ = link.write_all(&line).await;
        }
        if let Some(rate) = driver.poll_rate()
            && let Err(e) = link.set_rate(rate)
        {
            tracing::debug!(error = %e, "the port keeps its rate");
        }
        while let Some(outcome) = driver.poll_outcome() {
            if let Some(until) = seen.hear(outcome, now, driver, seconds) {
                end = end.min(until);
            }
        }
        if now >= end {
            break;
        }
        let wake =
            driver.poll_timeout().map_or(end, |at| at.min(end)).max(now.after(Duration::from_millis(1)));
        tokio::select! {
            read = link.read(&mut piece) => match read {
                Ok(0) | Err(_) => driver.handle_closed(clock.now()),
                Ok(count) => {
                    let bytes = piece.get(..count).unwrap_or_default();
                    note(clock.now(), &|| Said::Adapter(bytes.to_vec()));
                    driver.handle_bytes(bytes, clock.now());
                }
            },
            () = clock.sleep_until(wake) => {}
        }
    }
    seen.finish(driver);
    seen
}

impl Seen {
    /// Takes an outcome in; when it decides how long to look, until when.
    fn hear(&mut self, outcome: Outcome, now: Mono, driver: &Driver, seconds: u64) -> Option<Mono> {
        match outcome {
            Outcome::Found { identity } => self.identity = Some(identity),
            Outcome::Rate { baud } => self.raised = Some(baud),
            Outcome::Voltage { millivolts, .. } => self.millivolts = Some(millivolts),
            Outcome::Connected { protocol, bus, control_units } => {
                let name = protocol.map_or_else(|| bus.to_string(), |protocol| protocol.name().to_owned());
                let units = control_units.iter().map(ToString::to_string).collect();
                (self.vehicle, self.trouble) = (Some((protocol, name, units)), None);
                return Some(now.after(WARM_UP + Duration::from_secs(seconds)));
            }
            Outcome::Answer { .. } => {
                self.answers += 1;
                self.count(now, driver.counts().replies);
            }
            Outcome::NoAnswer { why, .. } => self.fail(why.word()),
            Outcome::Suspect { why, .. } => self.fail(why.word()),
            Outcome::Declined { code, .. } => self.fail(&format!("refused: {code}")),
            Outcome::VehicleSilent { detail, attempt, .. } => {
                self.trouble = Some(detail.to_string());
                if attempt >= 2 {
                    return Some(now);
                }
            }
            Outcome::NotAnAdapter { why } => {
                (self.trouble, self.stranger) = (Some(why.to_string()), true);
                return Some(now);
            }
            Outcome::Lost { why, .. } => {
                self.trouble = Some(why.to_string());
                return Some(now);
            }
            _ => {}
        }
        None
    }

    /// Exchanges are counted from the first answer after what can be learnt is learnt.
    fn count(&mut self, now: Mono, replies: u64) {
        let first = *self.first.get_or_insert(now);
        if now.since(first) < WARM_UP {
            return;
        }
        let (from, before) = *self.counted_from.get_or_insert((now, replies));
        let span = now.since(from).as_secs_f64();
        if span > 0.5 {
            self.per_second = Some((replies - before) as f64 / span);
        }
    }

    fn fail(&mut self, word: &str) {
        *self.failures.entry(word.to_owned()).or_default() += 1;
    }

    fn finish(&mut self, driver: &Driver) {
        self.counts = driver.counts();
        self.quirks = driver.quirks().iter().collect();
        if self.answers == 0 {
            let history = driver.history();
            let skip = history.iter().count().saturating_sub(8);
            self.last = history.iter().skip(skip).map(ToString::to_string).collect();
        }
        if self.answers == 0 && self.trouble.is_none() {
            self.trouble = Some(match &self.vehicle {
                Some(_) => "the vehicle answers, but not to this request".to_owned(),
                None => "the vehicle has not answered in time".to_owned(),
            });
        }
    }
}
