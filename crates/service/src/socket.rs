//! The local socket: one JSON object a line, both ways; one task per client.
//!
//! In: lines from a client. Out: `hello`, `snapshot`, then events with growing numbers, and the answers to what
//! was told. A client that does not read is told so in a last line and dropped; it delays nobody meanwhile,
//! because each takes lines at its own pace (`hub.rs`).
//!
//! Not here: who comes in (`socket/door.rs`) and at whose cost (`socket/places.rs`), what a line means (`socket/hear.rs`).

mod door;
mod hear;
mod places;

use std::sync::Arc;
use std::time::Duration;

use events::{Refusal, Seq, Snapshot, Told, Word};
use tokio::io::AsyncWriteExt as _;
use tokio::net::UnixStream;
use tokio::net::unix::{OwnedReadHalf, OwnedWriteHalf};
use tokio::sync::{mpsc, oneshot, watch};
use tokio_stream::StreamExt as _;
use tokio_util::codec::{AnyDelimiterCodec, AnyDelimiterCodecError, FramedRead};
use units::{Clock, Mono};

pub(crate) use door::{Door, Held, listen};
pub use door::{check_default_folder, default_socket, is_default_folder};

use crate::clock::NEVER;
use crate::hub::{Fetch, Hub};
use crate::journal::{JournalReader, READ_LIMIT};
use crate::status::Looked;
use hear::{Follow, FromClient, understand};

/// The bounds of the socket. Zero never means unlimited.
#[derive(Debug, Clone, Copy)]
pub struct Limits {
    /// Clients at a time, the page among them.
    /// Own choice: a workshop has ten screens; each costs some kilobytes.
    pub clients: usize,
    /// Bytes in a line from a client.
    /// Own choice: a remark has 200 characters; a line without end must not fill memory.
    pub line_bytes: usize,
    /// How long a client may take nothing before it is dropped.
    /// Own choice: a laptop that was closed for a moment comes back; what it misses stands in the journal.
    pub stuck: Duration,
    /// How long its last line is then tried.
    /// Own choice: a reader that reads takes it in milliseconds.
    pub grace: Duration,
    /// Answers that may wait for a client.
    /// Own choice: a person tells one thing at a time, a page a few; beyond that it does not read.
    pub answers: usize,
}

impl Default for Limits {
    fn default() -> Self {
        Self {
            clients: 64,
            line_bytes: 64 * 1024,
            stuck: Duration::from_secs(10),
            grace: Duration::from_secs(5),
            answers: 64,
        }
    }
}

/// What a client wants of the daemon's loop.
#[derive(Debug)]
pub(crate) enum Want {
    /// The present state; answered when all that happened is visible.
    Snapshot(oneshot::Sender<Box<Snapshot>>),
    /// How the bay is; answered at once.
    Status(oneshot::Sender<Box<Looked>>),
    /// Something told; answered when it is durable or refused.
    Tell(Told, mpsc::Sender<Word>),
}

/// What every client task is given.
#[derive(Clone)]
pub(crate) struct Shared {
    pub(crate) hub: Arc<Hub>,
    pub(crate) wants: mpsc::Sender<Want>,
    pub(crate) journal: JournalReader,
    pub(crate) clock: Arc<dyn Clock>,
    pub(crate) limits: Limits,
    pub(crate) hello: Word,
}

/// Serves one client until it goes, is dropped, or loses its place to another, for this reason.
pub(crate) async fn serve(
    stream: UnixStream,
    shared: Shared,
    held: Held,
    mut displaced: oneshot::Receiver<&'static str>,
) {
    // From here on the end of the daemon waits for our last line.
    let mut parting = shared.hub.parting();
    let snapshot = tokio::select! {
        snapshot = snapshot(&shared) => snapshot.ok_or_else(|| STOPS.into()),
        why = &mut displaced => Err(why.unwrap_or(STOPS).into()),
        why = ended(&mut parting) => Err(why),
    };
    let snapshot = match snapshot {
        Ok(snapshot) => snapshot,
        // Nothing has been said yet; the last line is the first.
        Err(reason) => return say_at_once(&stream, &reason),
    };
    let (reading, writing) = stream.into_split();
    let place = snapshot.seq;
    let outgoing = line(&shared.hello) + &line(&Word::Snapshot(snapshot));
    let (answers, answered) = mpsc::channel(shared.limits.answers);
    let ends = b"\n".to_vec();
    let codec = AnyDelimiterCodec::new_with_max_length(ends.clone(), ends, shared.limits.line_bytes);
    let lines = FramedRead::new(reading, codec);
    let client = Client {
        place,
        behind: false,
        only: None,
        outgoing: outgoing.into_bytes(),
        stuck_since: None,
        answers: Some(answers),
        held,
        shared,
    };
    client.run(lines, writing, Asides { answered, parting, displaced }).await;
}

/// The last word where nobody gave another reason.
const STOPS: &str = "the daemon stops";

/// What the daemon says to a client beside the events.
struct Asides {
    answered: mpsc::Receiver<Word>,
    parting: watch::Receiver<Option<Arc<str>>>,
    displaced: oneshot::Receiver<&'static str>,
}

async fn snapshot(shared: &Shared) -> Option<Box<Snapshot>> {
    let (wanted, answer) = oneshot::channel();
    shared.wants.send(Want::Snapshot(wanted)).await.ok()?;
    answer.await.ok()
}

fn say_at_once(stream: &UnixStream, reason: &str) {
    let _ = stream.try_write(line(&Word::Bye { reason: reason.to_owned() }).as_bytes());
}

type Lines = FramedRead<OwnedReadHalf, AnyDelimiterCodec>;

struct Client {
    /// The last event that was put into `outgoing`.
    place: Seq,
    /// Whether more may be had at once, without waiting for news.
    behind: bool,
    only: Option<Vec<String>>,
    outgoing: Vec<u8>,
    /// Since when nothing could be written.
    stuck_since: Option<Mono>,
    /// Where answers are sent; `None` once the client has closed its side and tells no more.
    answers: Option<mpsc::Sender<Word>>,
    held: Held,
    shared: Shared,
}

/// Bytes gathered for one write.
/// Own choice: some hundred lines in one call of the system; a slow client holds no more than this.
const CHUNK: usize = 32 * 1024;
/// Lines taken at a time.
/// Own choice: what fills one write; the ring is locked meanwhile.
const LINES: usize = 128;

/// How a client goes.
enum End {
    /// It is gone: there is nobody to tell.
    Gone,
    /// With a last line.
    Said(Arc<str>),
    /// With a last line if it can be said at once.
    AtOnce(&'static str),
}

impl Client {
    async fn run(mut self, lines: Lines, mut writing: OwnedWriteHalf, mut asides: Asides) {
        // These are kept to the last line: the daemon's end waits for whoever holds them.
        match self.converse(lines, &mut writing, &mut asides).await {
            End::Gone => {}
            End::Said(reason) => self.part(&reason, &mut writing).await,
            End::AtOnce(reason) => {
                self.last_line(reason);
                let _ = writing.try_write(&self.outgoing);
            }
        }
    }

    async fn converse(&mut self, mut lines: Lines, writing: &mut OwnedWriteHalf, asides: &mut Asides) -> End {
        let mut news = self.shared.hub.subscribe();
        let (mut listening, mut owed) = (true, true);
        loop {
            if self.outgoing.len() < CHUNK {
                self.gather().await;
            }
            if !listening && !owed && !self.behind && self.outgoing.is_empty() {
                return End::Said("you closed your side, and that was all there is".into());
            }
            let now = self.shared.clock.now();
            let stuck = self.stuck_since.map(|since| since.after(self.shared.limits.stuck));
            if stuck.is_some_and(|at| now >= at) {
                return End::Said("you did not read for too long".into());
            }
            let timer = self.shared.clock.sleep_until(stuck.unwrap_or(NEVER));
            tokio::select! {
                // In this order: what was before the answer is sent before it.
                biased;
                why = &mut asides.displaced => return why.map_or(End::Gone, End::AtOnce),
                wrote = writing.write(&self.outgoing), if !self.outgoing.is_empty() => match wrote {
                    Ok(0) | Err(_) => return End::Gone,
                    Ok(n) => {
                        self.outgoing.drain(..n);
                        self.stuck_since = None;
                    }
                },
                // What left the ring meanwhile is behind, not new.
                () = tokio::task::yield_now(), if self.behind && self.outgoing.len() < CHUNK => {}
                changed = news.changed(), if self.outgoing.len() < CHUNK => if changed.is_err() {
                    return End::Gone;
                },
                word = asides.answered.recv(), if owed => match word {
                    Some(word) => self.outgoing.extend_from_slice(line(&word).as_bytes()),
                    None => owed = false,
                },
                // Behind all that is visible and all that was answered.
                why = ended(&mut asides.parting) => return End::Said(why),
                heard = lines.next(), if listening => match heard {
                    Some(Ok(text)) => self.hear(&text).await,
                    Some(Err(AnyDelimiterCodecError::MaxChunkLengthExceeded)) => {
                        return End::Said("that line was too long".into());
                    }
                    Some(Err(AnyDelimiterCodecError::Io(_))) => return End::Gone,
                    None => {
                        // It tells no more, but may wait for the answer to what it told.
                        listening = false;
                        self.answers = None;
                    }
                },
                () = timer, if stuck.is_some() => {}
            }
            if !self.outgoing.is_empty() {
                self.stuck_since.get_or_insert(self.shared.clock.now());
            }
        }
    }

    /// Takes what comes next, from the ring or from the journal. A filter may pass nothing of it: then there may be more.
    async fn gather(&mut self) {
        let before = self.place;
        self.behind = false;
        match self.shared.hub.after(self.place, LINES) {
            Fetch::Next(rows) => {
                for row in rows {
                    self.place = row.event.seq;
                    self.take(row.kind(), &row.line);
                }
            }
            Fetch::Older(first) => {
                let Some(lines) = self.shared.journal.read(self.place.next(), first).await else { return };
                let all = lines.len() < READ_LIMIT;
                for old in lines {
                    self.place = old.seq;
                    self.take(&old.kind, &old.line);
                }
                if all {
                    // Whatever the journal holds in between, it goes on with what is in memory.
                    self.place = self.place.max(Seq(first.0.saturating_sub(1)));
                }
            }
        }
        self.behind = self.place > before;
    }

    fn take(&mut self, kind: &str, text: &str) {
        if self.only.as_ref().is_none_or(|only| only.iter().any(|k| k == kind)) {
            self.outgoing.extend_from_slice(text.as_bytes());
            self.outgoing.push(b'\n');
        }
    }

    /// One line from the client: a place, a filter, or something told.
    async fn hear(&mut self, text: &[u8]) {
        match understand(text) {
            Ok(FromClient::Nothing) => {}
            Ok(FromClient::Follow(follow)) => self.follow(follow),
            Ok(FromClient::Told(told)) => {
                self.held.told(self.shared.clock.now());
                if let Some(answers) = self.answers.clone() {
                    let _ = self.shared.wants.send(Want::Tell(told, answers)).await;
                }
            }
            Ok(FromClient::Status) => {
                if let Some(word) = self.status().await {
                    self.outgoing.extend_from_slice(line(&word).as_bytes());
                }
            }
            Err(word) => self.outgoing.extend_from_slice(line(&word).as_bytes()),
        }
    }

    /// How the bay is: what the loop knows, and what the journal's disk says of itself, which only who asks waits for.
    async fn status(&self) -> Option<Word> {
        let (asked, answer) = oneshot::channel();
        self.shared.wants.send(Want::Status(asked)).await.ok()?;
        let looked = answer.await.ok()?;
        let clock = &self.shared.clock;
        let late = clock.sleep_until(clock.now().after(self.shared.limits.grace));
        let status = looked.judged(self.held.inside(), self.shared.limits.clients, late).await;
        Some(Word::Status(Box::new(status)))
    }

    fn follow(&mut self, follow: Follow) {
        if let Some(only) = follow.only {
            self.only = (!only.is_empty()).then_some(only);
        }
        let Some(since) = follow.since else { return };
        let last = self.shared.hub.last();
        self.place = since.min(last);
        if since > last {
            let reason = Refusal::NoSuchEvent;
            let says = format!("{} The last one is {last}, not {since}.", reason.says());
            self.outgoing.extend_from_slice(line(&Word::Refused { id: None, reason, says }).as_bytes());
        }
    }

    /// Puts the last line behind the end of the line that is under way.
    fn last_line(&mut self, reason: &str) {
        let whole = self.outgoing.iter().position(|&b| b == b'\n').map_or(0, |end| end + 1);
        self.outgoing.truncate(whole);
        self.outgoing.extend_from_slice(line(&Word::Bye { reason: reason.to_owned() }).as_bytes());
    }

    async fn part(&mut self, reason: &str, writing: &mut OwnedWriteHalf) {
        self.last_line(reason);
        let limit = self.shared.clock.sleep_until(self.shared.clock.now().after(self.shared.limits.grace));
        tokio::select! {
            _ = writing.write_all(&self.outgoing) => {}
            () = limit => {}
        }
        let _ = writing.shutdown().await;
    }
}

/// Ready when the daemon ends, with its reason.
async fn ended(parting: &mut watch::Receiver<Option<Arc<str>>>) -> Arc<str> {
    match parting.wait_for(Option::is_some).await {
        Ok(reason) => reason.clone().unwrap_or_else(|| STOPS.into()),
        Err(_) => STOPS.into(),
    }
}

fn line(word: &Word) -> String {
    // A word of ours always serialises; an empty line is skipped by every client.
    serde_json::to_string(word).unwrap_or_default() + "\n"
}

#[cfg(test)]
pub(crate) mod tests;
