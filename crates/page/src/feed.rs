//! The client of the daemon behind all pages: one connection, one fold, the newest view of each seat.
//!
//! In: lines of the socket; requests of the pages. Out: frames, ready to send; answers. When the daemon is gone the
//! frames say so, and it is looked for until it is back. A frame goes out whenever something was said, and at least
//! every
//! [`BEAT`]: silence tells a page that we are gone.

use std::collections::HashMap;
use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;

use client::{Daemon, Link, News};
use events::{Sheet, SocketLine, Told, Word};
use serde::Serialize;
use tokio::sync::{mpsc, oneshot, watch};
use units::text::UnitSystem;
use units::{Clock, Mono};
use view::{Fold, Look, Seat, View};
use words::{Lang, Speech};

/// A frame goes out at least this often.
/// Own choice: a page that has seen none for a second says so; two may be late.
pub(crate) const BEAT: Duration = Duration::from_millis(400);
/// Requests that may wait.
/// Own choice: as many as the daemon's socket lets wait for one client.
const ASKS: usize = 64;
/// Answers that are waited for; one more and the oldest is given up.
/// Own choice: four times what may wait to be sent; each is a few words.
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
    /// One channel for each language and seat; nobody else holds a receiver of those that are not looked at.
    frames: Arc<[watch::Receiver<Frame>]>,
    pub(crate) sheet: watch::Receiver<Option<Box<Sheet>>>,
    pub(crate) asks: mpsc::Sender<Asked>,
}

impl Feed {
    /// The frames of a seat in a language.
    pub(crate) fn of(&self, lang: Lang, seat: Seat) -> Option<watch::Receiver<Frame>> {
        let place = eyes().position(|eyes| eyes == (lang, seat))?;
        self.frames.get(place).cloned()
    }
}

/// Who may look: each language at each seat.
fn eyes() -> impl Iterator<Item = (Lang, Seat)> {
    Lang::ALL.iter().flat_map(|lang| [(*lang, Seat::Under), (*lang, Seat::Inside)])
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

struct Work {
    source: Source,
    started: tokio::time::Instant,
    fold: Fold,
    frames: Vec<watch::Sender<Frame>>,
    sheet: watch::Sender<Option<Box<Sheet>>>,
    /// Whose answer is waited for, numbered in the order of asking.
    waiting: HashMap<String, (u64, oneshot::Sender<Word>)>,
    asked: u64,
}

/// Starts the feed; it ends when nobody holds the other end any more.
pub(crate) fn start(source: Source) -> (Feed, impl Future<Output = ()>) {
    let empty: Frame = "".into();
    let (senders, frames): (Vec<_>, Vec<_>) = eyes().map(|_| watch::channel(Arc::clone(&empty))).unzip();
    let (sheet, sheets) = watch::channel(None);
    let (asks, asked) = mpsc::channel(ASKS);
    let feed = Feed { frames: frames.into(), sheet: sheets, asks };
    let started = tokio::time::Instant::now();
    let work = Work {
        source,
        started,
        fold: Fold::default(),
        frames: senders,
        sheet,
        waiting: HashMap::new(),
        asked: 0,
    };
    (feed, work.run(asked))
}

impl Work {
    async fn run(mut self, mut asked: mpsc::Receiver<Asked>) {
        let mut link = Link::new(Daemon::own(self.source.socket.clone()));
        let mut beat = tokio::time::interval(BEAT);
        beat.set_missed_tick_behavior(tokio::time::MissedTickBehavior::Delay);
        let (mut is_news, mut away) = (false, false);
        loop {
            tokio::select! {
                // What was said is taken in before it is shown, all that there is.
                biased;
                news = link.next() => {
                    away = matches!(news, News::Lost | News::Away(_));
                    is_news |= self.take(news, &mut link);
                    continue;
                },
                () = std::future::ready(()), if is_news => {}
                // Who tells while the first connection is being made waits for it. Without a daemon nobody can be told;
                // the page says so.
                ask = asked.recv(), if link.is_open() || away => {
                    let Some(ask) = ask else { return };
                    let told = self.wait_for(ask);
                    if !link.tell(&told).await {
                        self.waiting.remove(&told.id);
                    }
                    continue;
                },
                _ = beat.tick() => {}
            }
            is_news = false;
            self.publish();
        }
    }

    fn now(&self) -> Mono {
        self.source.clock.now()
    }

    /// Takes news in; whether there is something new to see.
    fn take(&mut self, news: News, link: &mut Link) -> bool {
        let now = self.now();
        match news {
            News::Connected(lines) => lines.iter().for_each(|line| self.fold.hear(line, now)),
            News::Line(heard) => {
                let is_news = heard.line.is_some_and(|line| self.hear(line));
                if self.fold.is_outdated() {
                    self.lost();
                    link.renew();
                }
                return is_news;
            }
            News::Lost => self.lost(),
            News::Away(why) => {
                if why.needs_a_hand() {
                    tracing::warn!(%why, "page: no daemon");
                }
                return false;
            }
        }
        true
    }

    fn lost(&mut self) {
        self.fold.lost(self.now());
        self.waiting.clear();
    }

    /// Takes a line in; whether there is something new to see.
    fn hear(&mut self, line: SocketLine) -> bool {
        match line {
            SocketLine::Word(word @ (Word::Accepted { .. } | Word::Refused { .. })) => {
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
        if let Some((_, waiting)) = self.waiting.remove(&id) {
            let _ = waiting.send(word);
        }
    }

    /// The answer is waited for; where too many are, the oldest is given up.
    fn wait_for(&mut self, ask: Asked) -> Told {
        self.waiting.retain(|_, (_, answer)| !answer.is_closed());
        if self.waiting.len() >= WAITING {
            let oldest = self.waiting.iter().min_by_key(|(_, (n, _))| *n).map(|(id, _)| id.clone());
            oldest.into_iter().for_each(|id| drop(self.waiting.remove(&id)));
        }
        self.asked += 1;
        self.waiting.insert(ask.told.id.clone(), (self.asked, ask.answer));
        ask.told
    }

    fn publish(&mut self) {
        let now = self.now();
        let t = u64::try_from(self.started.elapsed().as_millis()).unwrap_or(u64::MAX);
        for ((lang, seat), sender) in eyes().zip(&self.frames) {
            // A language that nobody looks at is not painted.
            if lang != Lang::En && sender.receiver_count() < 2 {
                continue;
            }
            let speech = Speech { lang, units: self.source.units };
            let view = self.fold.look(&Look { now, seat, speech });
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
