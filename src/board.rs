//! `board`: all bays at a broker, the most urgent first.
//!
//! Not here: how they are heard (`relay`), which is urgent (`view`), how it is painted (`term/bays.rs`).

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::time::{Duration, Instant};

use clap::Args;
use events::Snapshot;
use relay::{BayNews, Broker, Listener, Login, Presence};
use tokio::sync::mpsc;
use view::BayRow;
use words::args;

use crate::failure::{Exit, Failure};
use crate::screen::{Screen, say};
use crate::term::{Bays, Key, Terminal};

/// Arguments of `board`.
#[derive(Debug, Args)]
#[command(
    after_help = "Letters search bay, sheet and vehicle; Esc shows all again, Ctrl-C leaves. Without a terminal, or with --json: one line\nfor each bay whenever its row changes.\n\nA board is for whoever looks after all bays. Nobody works under a vehicle by it: it is a second late.\n\nExamples:\n  standpipe board --broker mqtt://127.0.0.1\n  standpipe board --broker mqtts://broker.example --login board.login"
)]
pub struct BoardArgs {
    /// The broker: mqtt://HOST, or mqtts://HOST for a secured connection; with :PORT where it is not the usual one.
    #[arg(long, value_name = "URL")]
    broker: Broker,
    /// A file with a name at the broker on its first line and the password on its second; mode 0600.
    #[arg(long, value_name = "FILE")]
    login: Option<PathBuf>,
    /// Certificates that the broker is known by (PEM), where it is not by those that this machine trusts.
    #[arg(long, value_name = "FILE")]
    authority: Option<PathBuf>,
    /// Only bays whose name, sheet or vehicle has this in it.
    #[arg(long, value_name = "TEXT", default_value = "")]
    find: String,
}

/// `board`.
pub fn run(args: &BoardArgs, screen: Screen) -> Result<(), Failure> {
    let login = args.login.as_deref().map(Login::read).transpose()?;
    let secured = args.broker.secured(args.authority.as_deref())?;
    let listener = Listener { broker: args.broker.clone(), login, secured };
    let mut board = Board::new(args, screen);
    crate::runtime(None)?.block_on(async {
        let (tell, heard) = mpsc::unbounded_channel();
        let listen = relay::listen(listener, |news| drop(tell.send(news)));
        let ended = tokio::select! {
            error = listen => Err(Failure::from(error)),
            done = board.show(heard) => done,
            _ = tokio::signal::ctrl_c() => Err(Failure::new(Exit::Interrupted, "")),
        };
        drop(board.terminal.take());
        ended
    })
}

/// What is known of a bay, and since when.
#[derive(Default)]
struct Known {
    present: Option<Presence>,
    state: Option<Snapshot>,
    at: Option<Instant>,
}

struct Board {
    screen: Screen,
    broker: String,
    sought: String,
    bays: BTreeMap<String, Known>,
    /// Why the broker is not heard; none while it is.
    lost: Option<String>,
    terminal: Option<Terminal>,
    shown: BTreeMap<String, BayRow>,
}

impl Board {
    fn new(args: &BoardArgs, screen: Screen) -> Self {
        let (broker, sought) = (args.broker.to_string(), args.find.clone());
        let (bays, shown) = (BTreeMap::new(), BTreeMap::new());
        Self { screen, broker, sought, bays, lost: Some(String::new()), terminal: None, shown }
    }

    /// Until somebody leaves.
    async fn show(&mut self, mut heard: mpsc::UnboundedReceiver<BayNews>) -> Result<(), Failure> {
        let mut keys = None;
        if !self.screen.is_json() {
            self.terminal = Some(Terminal::take()?);
            keys = Some(crate::watch::keyboard());
        }
        let mut tick = tokio::time::interval(TICK);
        loop {
            let key = async {
                match &mut keys {
                    Some(keys) => keys.recv().await,
                    None => std::future::pending().await,
                }
            };
            tokio::select! {
                news = heard.recv() => news.into_iter().for_each(|news| self.hear(news)),
                key = key => match key {
                    Some(Key::Stop) | None => return Err(Failure::new(Exit::Interrupted, "")),
                    Some(key) => self.typed(key),
                },
                _ = tick.tick() => self.paint()?,
            }
        }
    }

    fn hear(&mut self, news: BayNews) {
        match news {
            BayNews::Connected => self.lost = None,
            BayNews::BrokerLost(why) => {
                // Whatever was heard before is of any age from now on.
                self.bays.values_mut().for_each(|known| known.at = None);
                if self.screen.is_json() && self.lost.as_ref() != Some(&why) {
                    say(&format!("standpipe: {} cannot be reached: {why}", self.broker));
                }
                self.lost = Some(why);
            }
            BayNews::Presence(bay, presence) => {
                if let Some(known) = self.known(bay.to_string()) {
                    known.present = Some(presence);
                }
            }
            BayNews::State { bay, state, retained } => {
                if let Some(known) = self.known(bay.to_string()) {
                    known.state = Some(*state);
                    known.at = (!retained).then(Instant::now);
                }
            }
        }
    }

    /// A bay, where there is room for one more.
    fn known(&mut self, bay: String) -> Option<&mut Known> {
        if self.bays.len() >= MOST && !self.bays.contains_key(&bay) {
            return None;
        }
        Some(self.bays.entry(bay).or_default())
    }

    fn typed(&mut self, key: Key) {
        match key {
            Key::Char(c) => self.sought.push(c),
            Key::Back => drop(self.sought.pop()),
            Key::Leave => self.sought.clear(),
            Key::Enter | Key::Stop | Key::Resized => {}
        }
    }

    fn rows(&self) -> Vec<BayRow> {
        let heard: Vec<view::KnownBay<'_>> = self
            .bays
            .iter()
            .map(|(bay, known)| view::KnownBay {
                bay,
                present: self.lost.is_none() && known.present.as_ref().is_some_and(|there| there.present),
                state: known.state.as_ref(),
                age: known.at.map(|at| at.elapsed()),
            })
            .collect();
        let mut rows = view::rows(&heard, self.screen.speech());
        rows.retain(|row| view::is_sought(row, &self.sought));
        rows
    }

    fn paint(&mut self) -> Result<(), Failure> {
        let rows = self.rows();
        let Some(terminal) = &mut self.terminal else { return self.lines(rows) };
        let lang = self.screen.lang;
        let mut message = match &self.lost {
            Some(_) => lang.with("board-broker-lost", &args!(broker = self.broker.clone())),
            None if self.bays.is_empty() => lang.with("board-empty", &args!(broker = self.broker.clone())),
            None => lang.text("board-keys").to_owned(),
        };
        if !self.sought.is_empty() {
            message = lang.with("board-sought", &args!(text = self.sought.clone()));
        }
        terminal.bays(&Bays { rows: &rows, message: &message })
    }

    /// For programs: a row whenever it is another than before.
    fn lines(&mut self, rows: Vec<BayRow>) -> Result<(), Failure> {
        for row in rows {
            if self.shown.get(&row.bay) != Some(&row) {
                self.screen.json(&row)?;
                self.shown.insert(row.bay.clone(), row);
            }
        }
        Ok(())
    }
}

/// Own choice: what changes is seen within half a second, the broker's own way aside.
const TICK: Duration = Duration::from_millis(500);
/// So many bays are kept.
/// Own choice: ten times a large chain's hall; whoever may publish under any name must not take all memory.
const MOST: usize = 5_000;
