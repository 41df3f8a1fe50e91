//! `standpipe`: the command line and nothing else. One file per subcommand; what they do lives in the crates.

#![allow(unreachable_pub, reason = "a binary exports nothing; `pub` marks what other files of it use")]

mod board;
mod calc;
mod car;
mod cli;
mod client;
mod colour;
mod config;
mod decode;
mod due;
mod events;
mod failure;
mod find;
mod generated;
mod given;
mod jobs;
mod log;
mod manager;
mod markdown;
mod pace;
mod page;
mod plan;
mod probe;
mod rehearse;
mod relay;
mod renew;
mod replay;
mod report;
mod screen;
mod serve;
mod sheet;
mod status;
mod tell;
mod term;
mod watch;

use std::process::ExitCode;

use clap::{CommandFactory as _, Parser as _};

use crate::cli::{Cli, Command, Shared};
use crate::failure::{Exit, Failure};
use crate::screen::Screen;

fn main() -> ExitCode {
    let cli = match Cli::try_parse() {
        Ok(cli) => cli,
        Err(e) => {
            // Help and version are no failure; anything else is wrong usage (64 in sysexits, not clap's 2).
            let _ = e.print();
            return code(if e.use_stderr() { Exit::Usage as u8 } else { 0 });
        }
    };
    // A daemon's warnings are for the person who started it; a rehearsal tells everything as events.
    let (level, manner) = match cli.command {
        Command::Serve(_) => ("warn", log::Manner::Beside),
        _ => ("error", log::Manner::AtOnce),
    };
    log::begin(level, manner, cli.shared.color);
    let Shared { json, color, units, lang } = cli.shared;
    let screen = Screen::new(json, color, units.map(Into::into), lang);
    let done = match cli.command {
        Command::Rehearse(args) => rehearse::run(&args, screen),
        Command::Car(args) => car::run(&args),
        Command::Serve(args) => serve::run(args, screen),
        Command::Board(args) => board::run(&args, screen),
        Command::Relay(args) => relay::run(&args, screen),
        Command::Status(args) => status::run(&args, screen),
        Command::Events(args) => events::run(args, screen),
        Command::Page(args) => page::run(&args, screen),
        Command::Watch(args) => watch::run(&args, screen),
        Command::Tell(args) => tell::run(args, screen),
        Command::Probe(args) => probe::run(&args, screen),
        Command::Plan(args) => plan::run(&args, screen),
        Command::Calc(args) => calc::run(&args, screen),
        Command::Decode(args) => decode::run(&args, screen),
        Command::Jobs(args) => jobs::run(&args, screen),
        Command::Replay(args) => replay::run(&args, screen),
        Command::Report(args) => report::run(&args, screen),
        Command::Due(args) => due::run(&args, screen),
        Command::Find(args) => find::run(args, screen),
        Command::Sheet(args) => sheet::run(&args, screen),
        Command::Schema(args) => generated::schema(&args, screen),
        Command::Completions { shell } => generated::completions(shell, Cli::command()),
        Command::Man { folder } => generated::man(folder.as_deref(), Cli::command()),
    };
    let exit = match done {
        Ok(()) => ExitCode::SUCCESS,
        // Interrupted, or whoever failed has said all there is to say.
        Err(Failure { exit, what, .. }) if exit == Exit::Interrupted || what.is_empty() => code(exit as u8),
        Err(failure) => {
            screen::say(&failure.to_string());
            code(failure.exit as u8)
        }
    };
    log::finish();
    exit
}

fn code(exit: u8) -> ExitCode {
    ExitCode::from(exit)
}

/// A runtime with one thread: all there is to do fits, and the rehearsal's lock-step needs exactly that.
fn runtime(park: Option<Box<dyn Fn() + Send + Sync>>) -> Result<tokio::runtime::Runtime, Failure> {
    let mut builder = tokio::runtime::Builder::new_current_thread();
    builder.enable_all();
    if let Some(park) = park {
        builder.on_thread_park(park);
    }
    builder.build().map_err(|e| Failure::new(Exit::Software, format!("cannot start the runtime: {e}")))
}
