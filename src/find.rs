//! `find`: which identifier carries the fluid temperature. The daemon as `serve` runs it, with a search beside the rest, and one front end.
//!
//! In: the device, a sheet or none, tables of identifiers, what a person types. Out: lines for people or events, and a sheet. Not here: the search
//! (`crates/find`), when something is asked (`crates/service`), how the sheet is written (`find/write.rs`).

mod dbc;
mod practice;
mod show;
mod write;

use std::path::{Path, PathBuf};
use std::sync::Arc;

use clap::Args;
use client::Client;
use events::{
    Body, Event, FindNext, FindStage, FoundIdentifier, Refusal, Request, Sheet, SocketLine, Told, Word,
};
use service::{Config, Daemon, FindConfig, KeptSearch, Limits, Machine, Memory, SystemClock};
use tokio::sync::{mpsc, oneshot};

use crate::client::Where;
use crate::failure::{Exit, Failure};
use crate::screen::{Screen, say};
use practice::Hands;
use rehearsal::clock::Pace;
use show::{Show, Typed};

/// Arguments of `find`.
#[derive(Debug, Args)]
#[command(
    after_help = "How: key on, engine off, vehicle cold. Identifiers are asked, politely and read-only. Then start the engine and let it warm up:\nwhat answers is watched. Measure the sump with a thermometer and type it (`38.5C tape`). When one is left that agrees, type `yes`.\nCtrl-C keeps everything; `find` goes on there. `watch`, `tell` and the page can join; with --sheet the same warm-up can be a job.\n\nExamples:\n  standpipe find --into my-vehicle.toml\n  standpipe find --sheet my-vehicle.toml --into my-vehicle-found.toml\n  standpipe find --dbc table.dbc --into my-vehicle.toml\n  standpipe find --rehearse   practise on a simulated vehicle\n\nExit 0 found and confirmed, 1 not found or not yet, 130 Ctrl-C."
)]
pub struct FindArgs {
    #[command(flatten)]
    at: Where,
    /// Where the adapter is: `auto`, a path (with `@RATE` for its baud rate), or `tcp:HOST:PORT`.
    #[arg(long, default_value = "auto", value_name = "DEVICE")]
    device: String,
    /// Write the sheet to this new file once the identifier is confirmed. Without --sheet the answers of `sheet new FILE` begin with it.
    #[arg(long, value_name = "FILE")]
    into: Option<PathBuf>,
    /// The sheet that the identifier is for. Gated by `spot`, a job can run meanwhile; it goes by the identifier once that is confirmed.
    #[arg(long, value_name = "FILE")]
    sheet: Option<PathBuf>,
    /// A table of identifiers in the open DBC form: what it names is asked first.
    #[arg(long, value_name = "FILE")]
    dbc: Vec<PathBuf>,
    /// Forget what an earlier search knew, and begin anew.
    #[arg(long)]
    anew: bool,
    /// Practise first: the same search on a simulated cold vehicle, drawn by this seed. Your hands are typed, too.
    #[arg(long, value_name = "SEED", num_args = 0..=1, default_missing_value = "1",
          conflicts_with_all = ["device", "sheet", "anew", "journal", "record"])]
    rehearse: Option<u64>,
    /// In practice: simulated seconds in a real one, or `max`; 60 on a terminal, `max` otherwise.
    #[arg(long, value_parser = crate::pace::pace_or_max, value_name = "N|max", requires = "rehearse")]
    pace: Option<Pace>,
    #[command(flatten)]
    page: crate::page::Served,
    /// The folder of the journal.
    #[arg(long, value_name = "DIR")]
    journal: Option<PathBuf>,
    /// Write everything said on the link to this new file, to be played back by `car --playback`.
    #[arg(long, value_name = "FILE")]
    record: Option<PathBuf>,
}

/// `find`.
pub fn run(args: FindArgs, screen: Screen) -> Result<(), Failure> {
    if let Some(seed) = args.rehearse {
        return practice::run(&args, seed, screen);
    }
    let base = args.sheet.as_deref().map(|path| crate::given::sheet(Some(path))).transpose()?;
    is_free(args.into.as_deref())?;
    // What is asked beside the search is the same for every vehicle; nothing is set by this one.
    let sheet = base.clone().or_else(|| rehearsal::embedded::six_speed().by_people());
    let sheet = sheet.ok_or(service::ServiceError::NeedsAdapter)?;
    let imported = imported(&args.dbc)?;
    let device = crate::serve::device(&args.device)?;
    let socket = args.at.socket();
    let journal = args.journal.clone().unwrap_or_else(crate::report::default_journal);
    let kept = KeptSearch::of(&journal, &args.at.bay);
    if args.anew {
        kept.remove();
    }
    let sheets = beside_into(args.into.as_deref()).unwrap_or_else(|| journal.join("sheets"));
    let ground = crate::page::Ground {
        bay: args.at.bay.clone(),
        journal: journal.clone(),
        socket: socket.clone(),
        units: screen.units,
        lang: screen.asked,
        sheets,
        clock: None,
    };
    let page = args.page.bind(ground)?;
    let writes = write::Writes { into: args.into.clone(), base: args.sheet.clone() };
    crate::runtime(None)?.block_on(async move {
        let memory = Memory::open(&journal, &args.at.bay);
        let (opener, name) = crate::serve::adapter_at(device, &memory, false).await?;
        let recorder = args.record.as_deref().map(|path| crate::serve::recorder(path, &name)).transpose()?;
        let find = FindConfig { kept: kept.clone(), imported, without_sheet: base.is_none() };
        let clock = SystemClock::reaching_back();
        let daemon = Daemon::start(Config {
            bay: args.at.bay.clone(),
            sheet,
            sheets: Vec::new(),
            socket: socket.clone(),
            socket_group: None,
            journal: journal.clone(),
            opener: Some(opener),
            machine: Machine::beside(&clock),
            clock: Arc::new(clock),
            version: env!("CARGO_PKG_VERSION").to_owned(),
            limits: Limits::default(),
            memory,
            recorder,
            find: Some(find),
        })?;
        say(&format!("bay {}: adapter {name}, socket {}", args.at.bay, socket.display()));
        page.map_or(Ok(()), crate::page::begin)?;
        let (stop, stopped) = oneshot::channel::<()>();
        let mut running = tokio::spawn(daemon.run(async {
            let _ = stopped.await;
        }));
        let ended = tokio::select! {
            ended = accompany(&socket, screen, &writes, None) => ended,
            () = crate::serve::stop() => Err(Failure::new(Exit::Interrupted, "")),
            ended = &mut running => return Err(died(ended)),
        };
        drop(stop);
        match running.await {
            Ok(Ok(())) => {}
            other => return Err(died(other)),
        }
        let confirmed = ended?;
        if confirmed {
            // The next search is for another vehicle.
            kept.remove();
            return Ok(());
        }
        Err(Failure::new(Exit::NotSet, "not found yet")
            .try_this("run `standpipe find` again: it goes on where it was"))
    })
}

/// The folder of the new sheet: the page makes its sheets there, and goes on with what was found.
fn beside_into(into: Option<&Path>) -> Option<PathBuf> {
    let folder = into?.parent()?;
    Some(if folder.as_os_str().is_empty() { PathBuf::from(".") } else { folder.to_path_buf() })
}

/// The new sheet's file is not there yet.
fn is_free(into: Option<&Path>) -> Result<(), Failure> {
    let Some(into) = into.filter(|into| into.exists()) else { return Ok(()) };
    Err(Failure::new(Exit::CannotCreate, format!("{} is there already", into.display()))
        .try_this("name a new file with --into"))
}

/// What tables name.
fn imported(tables: &[PathBuf]) -> Result<Vec<find::Place>, Failure> {
    let mut imported = Vec::new();
    for path in tables {
        let named = dbc::read(path)?;
        say(&format!(
            "{}: {} identifiers are asked first; {} signals are left out. Each is still to be confirmed.",
            path.display(),
            named.places.len(),
            named.left_out
        ));
        imported.extend(named.places);
    }
    Ok(imported)
}

/// Writes the sheet of a rehearsal with what was found.
///
/// # Errors
/// Where the file cannot be made.
pub fn write_for(base: &Sheet, found: &FoundIdentifier, event: &Event, into: &Path) -> Result<(), Failure> {
    write::of_sheet(base, found, (event.at, event.seq), into)
}

fn died(ended: Result<Result<(), service::ServiceError>, tokio::task::JoinError>) -> Failure {
    match ended {
        Ok(Ok(())) => Failure::new(Exit::Software, "the daemon has stopped in the middle of the search"),
        Ok(Err(e)) => e.into(),
        Err(e) => Failure::new(Exit::Software, format!("the daemon ended badly: {e}")),
    }
}

/// The front end: shows how the search stands, and tells what is typed. Whether the identifier was found and confirmed.
async fn accompany(
    socket: &Path,
    screen: Screen,
    writes: &write::Writes,
    mut hands: Option<&mut Hands>,
) -> Result<bool, Failure> {
    let mut client = Client::connect(&client::Daemon::own(socket.to_path_buf())).await?;
    let mut show = Show::new(screen, &client.snapshot)?;
    let mut keys = keyboard();
    if let Some(hands) = &hands {
        hands.connected(client.snapshot.seq);
    }
    let (mut told, mut found) = (0_u32, false);
    loop {
        tokio::select! {
            heard = client.next() => {
                let Some(heard) = heard? else {
                    return Err(Failure::new(Exit::Unavailable, "the daemon has stopped"));
                };
                show.line(&heard.text, heard.line.as_ref())?;
                if let Some(hands) = hands.as_deref_mut() {
                    hands.heard(heard.line.as_ref());
                }
                match heard.line {
                    Some(SocketLine::Event(event)) => match event.body {
                        Body::Found(fact) => {
                            found = true;
                            let written = writes.write(&fact, event.at, event.seq)?;
                            show.found(&fact, written.as_deref())?;
                            if let Some(hands) = &hands {
                                show.answer(hands.truly(&fact))?;
                            }
                            if !show.job_runs() {
                                return Ok(true);
                            }
                        }
                        Body::Result(_) if found => return Ok(true),
                        Body::Find(find) if find.next == FindNext::LookAtLink && !show.job_runs() => return Ok(false),
                        Body::Find(find) if find.stage == FindStage::NotFound && !show.job_runs() => {
                            return Ok(false);
                        }
                        _ => {}
                    },
                    Some(SocketLine::Word(Word::Refused { reason, .. })) if reason == Refusal::JournalFull => {
                        return Err(Failure::new(Exit::InputOutput, reason.says()));
                    }
                    _ => {}
                }
            }
            () = asked_long(hands.as_deref()) => {
                if let Some(hands) = hands.as_deref_mut() {
                    show.answer(hands.asked_again())?;
                }
            }
            Some(line) = keys.recv() => match by_hand(hands.as_deref_mut(), &line, &show)? {
                Typed::Tell(request) => {
                    told += 1;
                    if let Some(hands) = &hands {
                        hands.told();
                    }
                    tell(&mut client, request, told).await?;
                }
                Typed::Leave => return Ok(found),
                Typed::Nothing => {}
            }
        }
    }
}

/// Ready when somebody who practises has long been asked for the same; never on a real vehicle.
async fn asked_long(hands: Option<&Hands>) {
    match hands {
        Some(hands) => hands.asked_long().await,
        None => std::future::pending().await,
    }
}

/// What was typed: done by hand where somebody practises, else told.
fn by_hand(hands: Option<&mut Hands>, line: &str, show: &Show) -> Result<Typed, Failure> {
    match hands.and_then(|hands| hands.typed(line)) {
        Some(says) if says.is_empty() => Ok(Typed::Nothing),
        Some(says) => show.answer(&says).map(|()| Typed::Nothing),
        None => show.typed(line),
    }
}

async fn tell(client: &mut Client, request: Request, n: u32) -> Result<(), Failure> {
    let id = format!("find-{}-{}-{n}", std::process::id(), client.snapshot.seq);
    client.tell(&Told { id, by: None, request }).await?;
    Ok(())
}

/// Lines that are typed: a thread of its own, which ends with the program.
fn keyboard() -> mpsc::Receiver<String> {
    let (sender, lines) = mpsc::channel(16);
    std::thread::spawn(move || {
        for line in std::io::stdin().lines() {
            let Ok(line) = line else { break };
            if sender.blocking_send(line).is_err() {
                return;
            }
        }
        // An end of the input is no wish to leave: the search goes on without anybody who types.
    });
    lines
}
