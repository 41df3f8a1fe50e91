//! The client of the daemon behind all pages: one connection, one fold, the newest view of each seat.
//!
//! In: lines of the socket; requests of the pages. Out: frames, ready to send; answers. When the daemon is gone the frames
//! say so, and it is looked for until it is back. A frame goes out whenever something was said, and at least every
//! [`BEAT`]: silence tells a page that we are gone.

use std::collections::HashMap;
use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;

use events::{Line, Sheet, Told, Word};
use serde::Serialize;
use tokio::io::{AsyncBufReadExt as _, AsyncWriteExt as _, BufReader, Lines};
use tokio::net::UnixStream;
use tokio::net::unix::{OwnedReadHalf, OwnedWriteHalf};
use tokio::sync::{mpsc, oneshot, watch};
use units::text::UnitSystem;
use units::{Clock, Mono};
use view::{Fold, Look, Patience, Seat, View};

/// A frame goes out at least this often.
pub(crate) const BEAT: Duration = Duration::from_millis(400);
/// Requests that may wait.
const ASKS: usize = 64;
/// Answers that are waited for; one more and the oldest are given up.
const WAITING: usize = 256;

/// A frame as it is sent, the same for every page of a seat.
pub(crate) type Frame = Arc<str>;

/// A request of a page.
pub(crate) struct Asked {
    pub(crate) told: Told,
    pub(crate) answer: oneshot::Sender<Word>,
}

/// The pages' end.
#[derive(Clone)]
pub(crate) struct Feed {
    pub(crate) under: watch::Receiver<Frame>,
    pub(crate) inside: watch::Receiver<Frame>,
    pub(crate) sheet: watch::Receiver<Option<Box<Sheet>>>,
    pub(crate) asks: mpsc::Sender<Asked>,
}

impl Feed {
    /// The frames of a seat.
    pub(crate) fn of(&self, seat: Seat) -> watch::Receiver<Frame> {
        match seat {
            Seat::Under => self.under.clone(),
            Seat::Inside => self.inside.clone(),
        }
    }
}

#[derive(Serialize)]
struct Content<'a> {
    /// Our own clock in real milliseconds: a page notices frames that were held up on their way.
    t: u64,
    #[serde(flatten)]
    view: &'a View,
}

/// What the feed is given.
pub(crate) struct Source {
    pub(crate) socket: PathBuf,
    pub(crate) clock: Arc<dyn Clock>,
    pub(crate) units: UnitSystem,
}

/// How a connection to the daemon ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Ended {
    /// With a last line.
    Bye,
    /// Without a word.
    Lost,
}

type Connection = (Lines<BufReader<OwnedReadHalf>>, OwnedWriteHalf);

struct Work {
    source: Source,
    started: tokio::time::Instant,
    fold: Fold,
    under: watch::Sender<Frame>,
    inside: watch::Sender<Frame>,
    sheet: watch::Sender<Option<Box<Sheet>>>,
    waiting: HashMap<String, oneshot::Sender<Word>>,
}

/// Starts the feed; it ends when nobody holds the other end any more.
pub(crate) fn start(source: Source) -> (Feed, impl Future<Output = ()>) {
    let empty: Frame = "".into();
    let (under, under_frames) = watch::channel(Arc::clone(&empty));
    let (inside, inside_frames) = watch::channel(empty);
    let (sheet, sheets) = watch::channel(None);
    let (asks, asked) = mpsc::channel(ASKS);
    let feed = Feed { under: under_frames, inside: inside_frames, sheet: sheets, asks };
    let started = tokio::time::Instant::now();
    let work = Work { source, started, fold: Fold::default(), under, inside, sheet, waiting: HashMap::new() };
    (feed, work.run(asked))
}

impl Work {
    async fn run(mut self, mut asked: mpsc::Receiver<Asked>) {
        let mut patience = Patience::default();
        loop {
            self.publish();
            if let Some(connection) = self.connect().await {
                let since = tokio::time::Instant::now();
                let Some(ended) = self.follow(connection, &mut asked).await else { return };
                patience.ended(since.elapsed(), ended == Ended::Bye);
                self.fold.lost(self.now());
                self.waiting.clear();
                self.publish();
            }
            let again = tokio::time::sleep(patience.pause());
            tokio::pin!(again);
            loop {
                tokio::select! {
                    () = &mut again => break,
                    // Nobody can be told; the page says so.
                    ask = asked.recv() => if ask.is_none() { return },
                    () = tokio::time::sleep(BEAT) => self.publish(),
                }
            }
        }
    }

    fn now(&self) -> Mono {
        self.source.clock.now()
    }

    async fn connect(&mut self) -> Option<Connection> {
        let stream = UnixStream::connect(&self.source.socket).await.ok()?;
        // Whoever could put a socket of his own in its place shows nobody his verdict.
        let (peer, own) = (stream.peer_cred().ok()?.uid(), rustix::process::geteuid().as_raw());
        if peer != own && peer != 0 {
            tracing::warn!(peer, "page: what listens at the socket is not our daemon");
            return None;
        }
        let (reading, writing) = stream.into_split();
        Some((BufReader::new(reading).lines(), writing))
    }

    /// Follows one connection to its end; `None` where nobody wants it any more.
    async fn follow(&mut self, connection: Connection, asked: &mut mpsc::Receiver<Asked>) -> Option<Ended> {
        let (mut lines, mut writing) = connection;
        let mut beat = tokio::time::interval(BEAT);
        beat.set_missed_tick_behavior(tokio::time::MissedTickBehavior::Delay);
        let mut news = false;
        loop {
            tokio::select! {
                // What was said is taken in before it is shown, all that there is.
                biased;
                line = lines.next_line() => match line {
                    Ok(Some(text)) => {
                        let line = Line::read(&text).ok();
                        if matches!(line, Some(Line::Word(Word::Bye { .. }))) {
                            return Some(Ended::Bye);
                        }
                        news |= line.is_some_and(|line| self.hear(line));
                        if self.fold.is_outdated() {
                            return Some(Ended::Lost);
                        }
                        continue;
                    }
                    _ => return Some(Ended::Lost),
                },
                () = std::future::ready(()), if news => {}
                ask = asked.recv() => {
                    let line = self.line(ask?);
                    if writing.write_all(line.as_bytes()).await.is_err() {
                        return Some(Ended::Lost);
                    }
                    continue;
                },
                _ = beat.tick() => {}
            }
            news = false;
            self.publish();
        }
    }

    /// Takes a line in; whether there is something new to see.
    fn hear(&mut self, line: Line) -> bool {
        match line {
            Line::Word(word @ (Word::Accepted { .. } | Word::Refused { .. })) => {
                self.answer(word);
                false
            }
            line => {
                self.fold.hear(&line, self.now());
                true
            }
        }
    }

    fn answer(&mut self, word: Word) {
        let id = match &word {
            Word::Accepted { id, .. } | Word::Refused { id: Some(id), .. } => id.clone(),
            _ => return,
        };
        if let Some(waiting) = self.waiting.remove(&id) {
            let _ = waiting.send(word);
        }
    }

    fn line(&mut self, ask: Asked) -> String {
        self.waiting.retain(|_, w| !w.is_closed());
        if self.waiting.len() >= WAITING {
            self.waiting.clear();
        }
        self.waiting.insert(ask.told.id.clone(), ask.answer);
        serde_json::to_string(&ask.told).unwrap_or_default() + "\n"
    }

    fn publish(&mut self) {
        let now = self.now();
        let t = u64::try_from(self.started.elapsed().as_millis()).unwrap_or(u64::MAX);
        for (seat, sender) in [(Seat::Under, &self.under), (Seat::Inside, &self.inside)] {
            let view = self.fold.look(&Look { now, seat, units: self.source.units });
            let json = serde_json::to_string(&Content { t, view: &view }).unwrap_or_default();
            sender.send_replace(format!("data: {json}\n\n").into());
        }
        let sheet = self.fold.sheet();
        self.sheet.send_if_modified(|known| {
            let new = known.as_deref() != sheet;
            if new {
                *known = sheet.cloned().map(Box::new);
            }
            new
        });
    }
}
