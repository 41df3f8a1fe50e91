//! `probe`: what is this adapter worth, and what can it not do for the job?
//!
//! Opens the port for itself, tries everything harmless once, reads for some seconds and says what it found, with one
//! closing line: good, good with limits, send it back, or cannot tell. Here: the arguments, and the loop that moves
//! bytes. Not here: what is looked for (`probe/look.rs`), the decision (`probe/worth.rs`), the words
//! (`probe/report.rs`, `probe/advice.rs`), the driver that does the talking (`adapter`).

mod advice;
mod look;
#[cfg(test)]
mod matrix;
mod report;
mod wire;
mod worth;

use std::path::PathBuf;
use std::time::Duration;

use adapter::recording::Traffic;
use adapter::{Link, LinkError, Opener as _, Port};
use clap::Args;
use service::{Recorder, SystemClock};
use tokio::io::{AsyncReadExt as _, AsyncWriteExt as _};
use units::{Clock as _, Mono};

use crate::failure::{Exit, Failure};
use crate::screen::Screen;

use look::{Found, Look, Want};
use report::{Depth, Report};

/// Arguments of `probe`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  standpipe probe\n  standpipe probe --device /dev/ttyUSB0 --sheet my-vehicle.toml\n  standpipe probe --device tcp:192.168.0.10:35000 --record link.jsonl\n\nThe ignition has to be on. A daemon that holds the port has to be stopped first.\n\nThe last line says what it is worth: good, good with limits, send it back, or cannot tell where the trouble is\nnot the adapter's. Exit code 0 where the temperature was read and still was at the end, 69 where it was not;\n75 where another program holds the port, 77 where the port may not be opened."
)]
pub struct ProbeArgs {
    /// Where the adapter is: `auto`, a path (with `@RATE` for its baud rate), or `tcp:HOST:PORT`.
    #[arg(long, default_value = "auto", value_name = "DEVICE")]
    device: String,
    /// Read what this sheet is gated on; where absent, the coolant temperature.
    #[arg(long, value_name = "FILE")]
    sheet: Option<PathBuf>,
    /// How long to read once the vehicle answers.
    #[arg(long, default_value_t = 8, value_name = "SECONDS", value_parser = clap::value_parser!(u64).range(2..=600))]
    seconds: u64,
    /// Also show what a report of a fault has to quote: device, quirks, counts, the last things said.
    #[arg(long)]
    details: bool,
    /// Write everything said on the link to this new file, to be played back by `car --playback`.
    #[arg(long, value_name = "FILE")]
    record: Option<PathBuf>,
}

/// `probe`.
pub fn run(args: &ProbeArgs, screen: Screen) -> Result<(), Failure> {
    let sheet = args.sheet.as_deref().map(|path| crate::given::sheet(Some(path))).transpose()?;
    let port = Port::new(crate::serve::device(&args.device)?, None);
    let recorder =
        args.record.as_deref().map(|path| crate::serve::recorder(path, &port.describe())).transpose()?;
    let depth = if args.details { Depth::Details } else { Depth::Short };
    let clock = SystemClock::start();
    let look = Look::new(sheet.as_ref(), Duration::from_secs(args.seconds), clock.now());
    let asked = look.ask().hex().to_string();
    let looked: Result<_, LinkError> = crate::runtime(None)?.block_on(async {
        let link = port.open().await?;
        let rate = link.rate();
        let probe = Probe { port: &port, recorder: recorder.as_ref(), clock: &clock, look };
        Ok((probe.run(link).await, rate))
    });
    let (found, rate) = match looked {
        Ok(looked) => looked,
        Err(e) => {
            report::show(&Report::unopened(&port, asked, &e), depth, screen)?;
            return Err(crate::serve::not_opened(&e));
        }
    };
    let report = Report::new(&port, rate, asked, &found);
    report::show(&report, depth, screen)?;
    if report.reads() {
        return Ok(());
    }
    let what = if found.findings.readings > 0 {
        "the temperature was read, but not to the end; the report says why"
    } else {
        "nothing was read through this adapter; the report says why"
    };
    Err(Failure::new(Exit::Unavailable, what))
}

/// The loop around a [`Look`]: it moves bytes and decides nothing.
struct Probe<'a> {
    port: &'a Port,
    recorder: Option<&'a Recorder>,
    clock: &'a SystemClock,
    look: Look,
}

impl Probe<'_> {
    async fn run(mut self, link: Box<dyn Link>) -> Found {
        let mut link = Some(link);
        self.opened(link.as_deref());
        loop {
            let now = self.clock.now();
            self.look.handle_timeout(now);
            match self.look.want() {
                Want::Done => return self.look.finish(now),
                Want::Reopen(at) => {
                    if link.take().is_some() {
                        self.note(now, || Traffic::Closed { why: "it is opened again".to_owned() });
                    }
                    if now >= at {
                        link = self.reopen().await;
                        continue;
                    }
                }
                Want::Nothing => {}
            }
            if let Some(open) = &mut link {
                self.send(open.as_mut()).await;
            }
            let now = self.clock.now();
            let wake = self.look.poll_timeout().max(now.after(Duration::from_millis(1)));
            match &mut link {
                Some(open) => self.wait(open.as_mut(), wake).await,
                None => self.clock.sleep_until(wake).await,
            }
        }
    }

    fn opened(&mut self, link: Option<&dyn Link>) {
        let now = self.clock.now();
        self.note(now, || Traffic::Opened);
        self.look.handle_opened(link.and_then(|link| link.rate()), now);
    }

    async fn reopen(&mut self) -> Option<Box<dyn Link>> {
        match self.port.open().await {
            Ok(link) => {
                self.opened(Some(link.as_ref()));
                Some(link)
            }
            Err(e) => {
                tracing::debug!(error = %e, "the port stays closed");
                self.look.handle_not_opened(self.clock.now());
                None
            }
        }
    }

    async fn send(&mut self, link: &mut dyn Link) {
        let now = self.clock.now();
        while let Some(line) = self.look.poll_transmit(now) {
            self.note(now, || Traffic::Host(line.to_vec()));
            // A port that is gone is told by the read.
            let _ = link.write_all(&line).await;
        }
        if let Some(rate) = self.look.poll_rate()
            && let Err(e) = link.set_rate(rate)
        {
            tracing::debug!(error = %e, "the port keeps its rate");
        }
    }

    async fn wait(&mut self, link: &mut dyn Link, wake: Mono) {
        let mut piece = [0; 4_096];
        tokio::select! {
            read = link.read(&mut piece) => {
                let now = self.clock.now();
                match read {
                    Ok(0) | Err(_) => self.look.handle_closed(now),
                    Ok(count) => {
                        let bytes = piece.get(..count).unwrap_or_default();
                        self.note(now, || Traffic::Adapter(bytes.to_vec()));
                        self.look.handle_bytes(bytes, now);
                    }
                }
            }
            () = self.clock.sleep_until(wake) => {}
        }
    }

    fn note(&self, at: Mono, what: impl FnOnce() -> Traffic) {
        if let Some(recorder) = self.recorder {
            recorder.note(at, what());
        }
    }
}
