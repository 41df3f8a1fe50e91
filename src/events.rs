//! `events`: what happens, from the daemon's socket.

use clap::Args;
use client::Client;
use events::{Body, Event, Role, Seq, SocketLine, Word};

use crate::client::Where;
use crate::failure::{Exit, Failure};
use crate::screen::Screen;

use view::interval;

/// Arguments of `events`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  standpipe events --only verdict,advice,result\n  standpipe events --since 0 --no-follow > job.jsonl"
)]
pub struct EventsArgs {
    #[command(flatten)]
    at: Where,
    /// Begin after this event; 0 begins with the oldest one kept.
    #[arg(long, value_name = "SEQ")]
    since: Option<u64>,
    /// Only these kinds.
    #[arg(long, value_name = "KIND,KIND", value_delimiter = ',')]
    only: Vec<String>,
    /// Go on as new events come (the default).
    #[arg(long, overrides_with = "no_follow")]
    follow: bool,
    /// Stop at the last event there is.
    #[arg(long)]
    no_follow: bool,
}

/// `events`.
pub fn run(args: EventsArgs, screen: Screen) -> Result<(), Failure> {
    crate::runtime(None)?.block_on(async {
        tokio::select! {
            done = show(args, screen) => done,
            _ = tokio::signal::ctrl_c() => Err(Failure::new(Exit::Interrupted, "")),
        }
    })
}

async fn show(args: EventsArgs, screen: Screen) -> Result<(), Failure> {
    let mut client = Client::connect(&args.at.daemon()).await?;
    let last = client.snapshot.seq;
    let since = args.since.map(Seq);
    // The filter is ours here: an event that is filtered out still tells how far we have come.
    client.follow(since).await?;
    if args.no_follow && since.is_none_or(|s| s >= last) {
        return Ok(());
    }
    while let Some(heard) = client.next().await? {
        match heard.line {
            Some(SocketLine::Event(event)) => {
                if args.only.is_empty() || args.only.iter().any(|k| k == event.body.kind()) {
                    if screen.is_json() {
                        screen.json_line(&heard.text)?;
                    } else {
                        screen.line(&for_people(&event, screen))?;
                    }
                }
                if args.no_follow && event.seq >= last {
                    return Ok(());
                }
            }
            Some(SocketLine::Word(Word::Bye { reason })) => {
                return Err(Failure::new(Exit::TryAgain, format!("the daemon says: {reason}")));
            }
            _ => {}
        }
    }
    Err(Failure::new(Exit::Unavailable, "the daemon has stopped")
        .try_this("start it again; `--since` goes on where you were"))
}

/// An event as a line for people.
pub fn for_people(event: &Event, screen: Screen) -> String {
    let seconds = event.mono_ms.as_millis() / 1_000;
    let clock = format!("{:>3}:{:02}", seconds / 60, seconds % 60);
    format!("{clock}  {}", says(&event.body, screen))
}

/// What an event says, in one line.
fn says(body: &Body, screen: Screen) -> String {
    use units::text::{show_celsius, show_kelvins, show_millilitres};
    let units = screen.units;
    match body {
        Body::Boot { version, .. } => format!("daemon {version} started"),
        Body::Link(change) => link(change),
        Body::Reading(reading) => match reading.measure.celsius() {
            Some(celsius) => format!("{} {}", reading.measure.quantity(), show_celsius(celsius, units)),
            None => reading.measure.to_string(),
        },
        Body::Estimate(e) => {
            let rate = e.kelvins_per_minute.map_or(String::new(), |r| format!(", {r:+} °C a minute"));
            format!("estimate {} ± {}{rate}", show_celsius(e.celsius, units), show_kelvins(e.u, units))
        }
        Body::Forecast(f) => {
            let part = |what: &str, i: Option<events::Interval>| i.map(|i| format!("{what} {}", interval(i)));
            let parts =
                [part("opens in", f.opens_in), part("closes in", f.closes_in), part("back in", f.back_in)];
            let text: Vec<String> = parts.into_iter().flatten().collect();
            if text.is_empty() { "no forecast".to_owned() } else { text.join(", ") }
        }
        Body::Verdict { verdict, reasons, open, celsius, u, .. } => {
            let why: Vec<&str> = reasons.iter().map(|r| r.word()).collect();
            let open: Vec<&str> = open.iter().map(|p| p.word()).collect();
            let at = match (celsius, u) {
                (Some(t), Some(u)) => format!("  {} ± {}", show_celsius(*t, units), show_kelvins(*u, units)),
                _ => String::new(),
            };
            let open = if open.is_empty() { String::new() } else { format!("  open: {}", open.join(", ")) };
            format!("{:<8}{at}  ({}){open}", screen.strong(verdict.word()), why.join(", "))
        }
        Body::Job { job, sheet, recheck_of: Some(of), .. } => {
            format!("job {job} begins, a recheck of job {of}: {}", sheet.name)
        }
        Body::Job { job, sheet, .. } => format!("job {job} begins: {}", sheet.name),
        Body::Step { step, state, .. } => format!("step {step}: {state}"),
        Body::Told(told) => format!("told: {}", told.request.word()),
        Body::Precondition { precondition, holds } => {
            format!("{precondition}: {}", if *holds { "holds" } else { "does not hold" })
        }
        Body::Selector(s) => {
            let at = s.stands_in.as_ref().map_or(String::new(), |at| format!("in {at}, "));
            format!("selector: {at}next {}, round {} of {}", s.next, s.round, s.rounds)
        }
        Body::Balance(b) => {
            let part = |what: &str, v: Option<units::Millilitres>| {
                v.map(|v| format!("{what} {}", show_millilitres(v, units)))
            };
            let parts = [
                part("drained", b.drained_millilitres),
                part("filled", b.filled_millilitres),
                part("ran out", b.ran_out_millilitres),
                part("to run out", b.expected_run_out_millilitres),
            ];
            format!("balance: {}", parts.into_iter().flatten().collect::<Vec<_>>().join(", "))
        }
        Body::TopUp(t) => {
            let seconds =
                t.seconds.map_or(String::new(), |s| format!("; warm again in about {} min", s.div_ceil(60)));
            format!("fill {} and look again{seconds}", show_millilitres(t.millilitres, units))
        }
        Body::Caution { caution } => format!("caution: {}", caution.says()),
        Body::Advice(said) => {
            let says = |seat| said.sentence(seat, words::Lang::En, |v| show_millilitres(v, units));
            let (under, inside) = (says(Role::Under), says(Role::Inside));
            format!("below: {}  inside: {}", screen.strong(&under), screen.strong(&inside))
        }
        Body::Tilted { pitch_degrees, roll_degrees } => {
            format!("not level enough, and kept: pitch {pitch_degrees}°, roll {roll_degrees}°")
        }
        Body::Fault { fault, detail, from } => {
            let from = from.as_ref().map_or(String::new(), |f| format!(" ({f})"));
            format!("fault: {} {}{from}", fault.says(), detail.as_deref().unwrap_or(""))
        }
        Body::Find(find) => {
            let time = find.left_seconds.map_or(String::new(), |s| format!(", {}", minutes(s)));
            let why = find.why.as_ref().map_or(String::new(), |why| format!(" ({why})"));
            format!("find: {} left, {} asked{time}: {}{why}", find.left, find.asked, find.next.says())
        }
        Body::Candidate(c) => {
            let shows = c.celsius.map_or(String::new(), |t| format!(", shows {}", show_celsius(t, units)));
            format!("candidate {} by {}: {:.0} %{shows}", c.place(), c.encoding, 100.0 * c.score)
        }
        Body::Found(found) => {
            let place =
                events::place(&found.identifier.header, found.identifier.service, found.identifier.id);
            let takes = if found.takes_over { "; the check goes by it from now on" } else { "" };
            format!("found: {} by {}{takes}", screen.strong(&place), found.encoding)
        }
        Body::Sheets { names, changed } => {
            let changed = changed.as_ref().map_or(String::new(), |s| format!("; {} was changed", s.name));
            format!("sheets: {}{changed}", names.join(", "))
        }
        Body::Result(result) => {
            let level = result
                .level_error
                .as_ref()
                .map_or(String::new(), |l| format!("  {:+} ± {} mL", l.millilitres, l.expanded_millilitres));
            let show = |v| show_millilitres(v, units);
            let guesses = result.guesses(show).map_or(String::new(), |says| format!("  {says}"));
            format!("result: {}{level}{guesses}", screen.strong(&result.headline(words::Lang::En, show)))
        }
    }
}

/// A time to come, as people say it.
pub fn minutes(seconds: f64) -> String {
    if seconds < 90.0 { format!("about {seconds:.0} s") } else { format!("about {:.0} min", seconds / 60.0) }
}

fn link(change: &events::LinkChange) -> String {
    use events::LinkChange as L;
    match change {
        L::Opening { device } => format!("opening {device}"),
        L::Found { identity, tested: None } => format!("adapter: {identity}"),
        L::Found { identity, tested: Some(tested) } => {
            format!("adapter: calls itself {identity}, its commands are those of {tested}")
        }
        L::Rate { baud } => format!("the wire runs at {baud} bit/s now"),
        L::Said { lines } => format!("last on the link: {}", lines.join("; ")),
        L::Protocol { protocol, control_units } => {
            format!("vehicle: {protocol}, control units {}", control_units.join(", "))
        }
        L::Source { name, from, others } if others.is_empty() => format!("{name} is read from {from}"),
        L::Source { name, from, others } => {
            format!("{name} is read from {from}; {} also answer", others.join(", "))
        }
        L::People => "no adapter: everything is told by people".to_owned(),
        L::Vehicle { vin } => format!("vehicle identification number {vin}"),
        L::Quirk { quirk, says } => format!("adapter quirk {quirk}: {says}"),
        L::VehicleSilent { detail, tried } if tried.is_empty() => {
            format!("the vehicle does not answer: {detail}")
        }
        L::VehicleSilent { detail, tried } => {
            format!("the vehicle does not answer: {detail}; tried: {}", tried.join("; "))
        }
        L::Lost { detail } => format!("adapter lost: {detail}"),
        L::Trouble { trouble, detail: None } => format!("{} {}", trouble.says(), trouble.remedy()),
        L::Trouble { trouble, detail: Some(detail) } => {
            format!("{} ({detail}) {}", trouble.says(), trouble.remedy())
        }
    }
}
