//! `status`: how the bay is, for people and for scripts; asked of the daemon like any client asks.
//!
//! Not here: what ails a bay (`service`), the sentences (`words`).

use clap::Args;
use client::Client;
use events::text::shown;
use events::{Health, Status, Trouble};
use units::text::show_celsius;
use words::args;

use crate::client::Where;
use crate::failure::{Exit, Failure};
use crate::screen::Screen;

/// Arguments of `status`.
#[derive(Debug, Args)]
#[command(
    after_help = "Exit codes:\n  0   everything that a job needs is there\n  75  it runs and waits: no adapter, no vehicle or no reading yet\n  74  it runs, but somebody must do something: its disk is nearly full or slow, its clock is behind\n  69  no daemon answers\n\nExamples:\n  standpipe status\n  standpipe status --bay left --json\n  standpipe status --idle || mail -s \"the bay wants a hand\" workshop   no vehicle at night is no trouble"
)]
pub struct StatusArgs {
    #[command(flatten)]
    at: Where,
    /// Nothing need be plugged in: what the bay only waits for is told, and the exit code is 0 all the same.
    #[arg(long)]
    idle: bool,
}

/// `status`.
pub fn run(args: &StatusArgs, screen: Screen) -> Result<(), Failure> {
    let status = crate::runtime(None)?.block_on(async {
        let mut client = Client::connect(&args.at.daemon()).await?;
        tokio::select! {
            status = client.status() => status.map_err(Failure::from),
            () = tokio::time::sleep(ANSWERS_WITHIN) => Err(Failure::new(Exit::Unavailable, "the daemon does not answer")),
            _ = tokio::signal::ctrl_c() => Err(Failure::new(Exit::Interrupted, "")),
        }
    })?;
    if screen.is_json() {
        screen.json(&status)?;
    } else {
        screen.line(&text(&status, screen).join("\n"))?;
    }
    match status.health {
        Health::Healthy => Ok(()),
        Health::Waiting if args.idle => Ok(()),
        // All is said; the exit code alone is left.
        Health::Waiting => Err(Failure::new(Exit::TryAgain, "")),
        Health::NeedsAHand => Err(Failure::new(Exit::InputOutput, "")),
    }
}

/// A daemon that has said nothing of itself by then hangs.
/// Own choice: twice what it waits for its own disk (`Limits::grace`).
const ANSWERS_WITHIN: std::time::Duration = std::time::Duration::from_secs(10);

/// The lines for people.
fn text(status: &Status, screen: Screen) -> Vec<String> {
    let lang = screen.lang;
    let mut lines = vec![format!("{}: {}", shown(&status.bay), screen.strong(lang.of(status.health)))];
    for ailment in &status.ailments {
        let (says, remedy) = (lang.of(*ailment), lang.also(*ailment, "remedy", ailment.remedy()));
        lines.push(format!("  {says} {remedy}"));
    }
    // What exactly keeps readings away, where it is known and not the same once more.
    if let Some(trouble) = status.link.trouble.filter(|trouble| says_more(*trouble)) {
        let remedy = lang.also(trouble, "remedy", trouble.remedy());
        lines.push(format!("  {} {remedy}", lang.of(trouble)));
    }
    lines.extend(link(status, screen));
    lines.push(match &status.reading {
        Some(last) => {
            let celsius = show_celsius(last.celsius, screen.units);
            lang.with("status-reading", &args!(celsius = celsius, age = span(last.age_seconds)))
        }
        None => lang.text("status-no-reading").to_owned(),
    });
    lines.push(match status.journal.free_bytes {
        Some(bytes) => lang.with("status-disk", &args!(free = size(bytes))),
        None => lang.text("status-disk-silent").to_owned(),
    });
    let time = status.at.to_string();
    lines.push(match status.clock_behind_seconds {
        Some(behind) => lang.with("status-clock-behind", &args!(time = time, behind = span(behind as f64))),
        None => lang.with("status-clock", &args!(time = time)),
    });
    lines.push(lang.with(
        "status-clients",
        &args!(here = status.clients.to_string(), most = status.clients_most.to_string()),
    ));
    let (version, time) = (shown(&status.version).into_owned(), span(status.up_seconds as f64));
    lines.push(lang.with("status-running", &args!(version = version, time = time)));
    lines.extend(status.job.map(|job| lang.with("status-job", &args!(job = job.to_string()))));
    lines
}

/// Whether a trouble says more than that something is not there.
const fn says_more(trouble: Trouble) -> bool {
    !matches!(trouble, Trouble::PortGone | Trouble::AdapterSilent | Trouble::VehicleSilent)
}

/// Adapter and vehicle, where there are such.
fn link(status: &Status, screen: Screen) -> Vec<String> {
    let lang = screen.lang;
    if status.link.people {
        return vec![lang.text("status-by-people").to_owned()];
    }
    let identity = status.link.identity.as_ref().map(|identity| format!(", {}", shown(identity)));
    let what = format!("{}{}", shown(&status.device), identity.unwrap_or_default());
    let adapter = if status.port_open { "status-adapter" } else { "status-port-shut" };
    let vehicle = match &status.link.protocol {
        Some(protocol) if status.link.up => {
            lang.with("status-vehicle", &args!(what = shown(protocol).into_owned()))
        }
        _ => lang.text("status-vehicle-silent").to_owned(),
    };
    vec![lang.with(adapter, &args!(what = what)), vehicle]
}

/// A span of time in its two largest units, by their symbols, which all languages share.
fn span(seconds: f64) -> String {
    let whole = seconds.max(0.0) as u64;
    let (minutes, hours, days) = (whole / 60, whole / 3_600, whole / 86_400);
    match (days, hours, minutes) {
        (0, 0, 0) => format!("{whole}\u{202f}s"),
        (0, 0, minutes) => format!("{minutes}\u{202f}min {}\u{202f}s", whole % 60),
        (0, hours, minutes) => format!("{hours}\u{202f}h {}\u{202f}min", minutes % 60),
        (days, hours, _) => format!("{days}\u{202f}d {}\u{202f}h", hours % 24),
    }
}

/// Bytes as disks are sold.
fn size(bytes: u64) -> String {
    let mega = bytes / 1_000_000;
    if mega < 1_000 {
        format!("{mega}\u{202f}MB")
    } else {
        format!("{}.{}\u{202f}GB", mega / 1_000, mega % 1_000 / 100)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spans_and_sizes_are_as_long_as_they_deserve() {
        for (seconds, want) in [
            (0.4, "0 s"),
            (59.9, "59 s"),
            (60.0, "1 min 0 s"),
            (3_599.0, "59 min 59 s"),
            (3_600.0, "1 h 0 min"),
            (86_399.0, "23 h 59 min"),
            (90_000.0, "1 d 1 h"),
            (-1.0, "0 s"),
        ] {
            assert_eq!(span(seconds).replace('\u{202f}', " "), want);
        }
        for (bytes, want) in [(67_108_863, "67 MB"), (999_999_999, "999 MB"), (12_340_000_000, "12.3 GB")] {
            assert_eq!(size(bytes).replace('\u{202f}', " "), want);
        }
    }
}
