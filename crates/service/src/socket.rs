//! The local socket: one JSON object a line, both ways; one task per client.
//!
//! In: lines from a client. Out: `hello`, `snapshot`, then events with growing numbers, and the answers to what
//! was told. A client that does not read is told so in a last line and dropped; it delays nobody meanwhile,
//! because each takes lines at its own pace (`hub.rs`).

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

use events::{Refusal, Seq, Snapshot, Told, Word};
use serde::Deserialize;
use tokio::io::AsyncWriteExt as _;
use tokio::net::{UnixListener, UnixStream, unix::OwnedWriteHalf};
use tokio::sync::{mpsc, oneshot, watch};
use tokio_stream::StreamExt as _;
use tokio_util::codec::{FramedRead, LinesCodec, LinesCodecError};
use units::{Clock, Mono};

use crate::error::ServiceError;
use crate::hub::{Fetch, Hub};
use crate::journal::{JournalReader, READ_LIMIT};

/// The bounds of the socket. Zero never means unlimited.
#[derive(Debug, Clone, Copy)]
pub struct Limits {
    /// Clients at a time.
    pub clients: usize,
    /// Bytes in a line from a client.
    pub line_bytes: usize,
    /// How long a client may take nothing before it is dropped.
    pub stuck: Duration,
    /// How long its last line is then tried.
    pub grace: Duration,
    /// Answers that may wait for a client.
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

/// Where the socket of a bay lies by default: `$XDG_RUNTIME_DIR/standpipe/BAY.sock`.
pub fn default_socket(bay: &str) -> PathBuf {
    let folder = match std::env::var_os("XDG_RUNTIME_DIR") {
        Some(folder) if !folder.is_empty() => PathBuf::from(folder).join("standpipe"),
        _ => std::env::temp_dir().join(format!("standpipe-{}", rustix::process::getuid().as_raw())),
    };
    folder.join(format!("{bay}.sock"))
}

/// Listens at `path`, mode 0600, or 0660 for a group. A socket left by a daemon that died is removed; one that
/// answers is not ours to take.
pub(crate) fn listen(path: &Path, group: Option<&str>) -> Result<UnixListener, ServiceError> {
    use std::os::unix::fs::{DirBuilderExt as _, PermissionsExt as _};
    let failed = |why: String| ServiceError::Socket { path: path.to_path_buf(), why };
    if let Some(folder) = path.parent().filter(|f| !f.as_os_str().is_empty() && !f.exists()) {
        let mut builder = std::fs::DirBuilder::new();
        builder.recursive(true).mode(if group.is_some() { 0o750 } else { 0o700 });
        builder.create(folder).map_err(|e| failed(e.to_string()))?;
    }
    if path.exists() {
        if std::os::unix::net::UnixStream::connect(path).is_ok() {
            return Err(ServiceError::InUse { path: path.to_path_buf() });
        }
        let is_socket =
            path.metadata().is_ok_and(|m| std::os::unix::fs::FileTypeExt::is_socket(&m.file_type()));
        if !is_socket {
            return Err(failed("something that is no socket lies there".to_owned()));
        }
        std::fs::remove_file(path).map_err(|e| failed(e.to_string()))?;
    }
    let listener = UnixListener::bind(path).map_err(|e| failed(e.to_string()))?;
    let mode = if let Some(group) = group {
        let gid = group_id(group).ok_or_else(|| failed(format!("there is no group `{group}`")))?;
        std::os::unix::fs::chown(path, None, Some(gid)).map_err(|e| failed(e.to_string()))?;
        0o660
    } else {
        0o600
    };
    std::fs::set_permissions(path, std::fs::Permissions::from_mode(mode))
        .map_err(|e| failed(e.to_string()))?;
    Ok(listener)
}

fn group_id(name: &str) -> Option<u32> {
    let groups = std::fs::read_to_string("/etc/group").ok()?;
    groups.lines().find_map(|line| {
        let mut fields = line.split(':');
        (fields.next() == Some(name)).then(|| fields.nth(1)?.parse().ok()).flatten()
    })
}

/// Turns one away that cannot be served, with the reason.
pub(crate) async fn turn_away(mut stream: UnixStream, reason: &str) {
    let bye = Word::Bye { reason: reason.to_owned() };
    let _ = stream.write_all(line(&bye).as_bytes()).await;
}

/// Serves one client until it goes or is dropped.
pub(crate) async fn serve(stream: UnixStream, shared: Shared) {
    // From here on the end of the daemon waits for our last line.
    let parting = shared.hub.parting();
    let (snapshot, answer) = oneshot::channel();
    let asked = shared.wants.send(Want::Snapshot(snapshot)).await.is_ok();
    let Some(snapshot) = (if asked { answer.await.ok() } else { None }) else {
        return turn_away(stream, "the daemon stops").await;
    };
    let (reading, writing) = stream.into_split();
    let place = snapshot.seq;
    let outgoing = line(&shared.hello) + &line(&Word::Snapshot(snapshot));
    let (answers, answered) = mpsc::channel(shared.limits.answers);
    let lines = FramedRead::new(reading, LinesCodec::new_with_max_length(shared.limits.line_bytes));
    let client =
        Client { place, only: None, outgoing: outgoing.into_bytes(), stuck_since: None, answers, shared };
    client.run(lines, writing, answered, parting).await;
}

type Lines = FramedRead<tokio::net::unix::OwnedReadHalf, LinesCodec>;

struct Client {
    /// The last event that was put into `outgoing`.
    place: Seq,
    only: Option<Vec<String>>,
    outgoing: Vec<u8>,
    /// Since when nothing could be written.
    stuck_since: Option<Mono>,
    answers: mpsc::Sender<Word>,
    shared: Shared,
}

/// Bytes gathered for one write.
const CHUNK: usize = 32 * 1024;
/// Lines taken at a time.
const LINES: usize = 128;

impl Client {
    async fn run(
        mut self,
        mut lines: Lines,
        mut writing: OwnedWriteHalf,
        mut answered: mpsc::Receiver<Word>,
        mut parting: watch::Receiver<Option<Arc<str>>>,
    ) {
        let mut news = self.shared.hub.subscribe();
        let reason: Option<Arc<str>> = loop {
            if self.outgoing.len() < CHUNK {
                self.gather().await;
            }
            let now = self.shared.clock.now();
            let stuck = self.stuck_since.map(|since| since.after(self.shared.limits.stuck));
            if stuck.is_some_and(|at| now >= at) {
                break Some("you did not read for too long".into());
            }
            let timer = self.shared.clock.sleep_until(stuck.unwrap_or(Mono::from_millis(u64::MAX / 2)));
            tokio::select! {
                // In this order: what was before the answer is sent before it.
                biased;
                wrote = writing.write(&self.outgoing), if !self.outgoing.is_empty() => match wrote {
                    Ok(0) | Err(_) => break None,
                    Ok(n) => {
                        self.outgoing.drain(..n);
                        self.stuck_since = None;
                    }
                },
                changed = news.changed(), if self.outgoing.len() < CHUNK => if changed.is_err() {
                    break Some("the daemon stops".into());
                },
                word = answered.recv() => if let Some(word) = word {
                    self.outgoing.extend_from_slice(line(&word).as_bytes());
                },
                // Behind all that is visible and all that was answered.
                why = ended(&mut parting) => break Some(why),
                heard = lines.next() => match heard {
                    Some(Ok(text)) => self.hear(&text).await,
                    Some(Err(LinesCodecError::MaxLineLengthExceeded)) => break Some("that line was too long".into()),
                    Some(Err(LinesCodecError::Io(_))) | None => break None,
                },
                () = timer, if stuck.is_some() => {}
            }
            if !self.outgoing.is_empty() {
                self.stuck_since.get_or_insert(self.shared.clock.now());
            }
        };
        if let Some(reason) = reason {
            self.part(&reason, &mut writing).await;
        }
    }

    /// Takes what comes next, from the ring or from the journal.
    async fn gather(&mut self) {
        match self.shared.hub.after(self.place, LINES) {
            Fetch::Next(sent) => {
                for s in sent {
                    self.place = s.seq;
                    self.take(s.kind, &s.line);
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
    }

    fn take(&mut self, kind: &str, text: &str) {
        if self.only.as_ref().is_none_or(|only| only.iter().any(|k| k == kind)) {
            self.outgoing.extend_from_slice(text.as_bytes());
            self.outgoing.push(b'\n');
        }
    }

    /// One line from the client: a place, a filter, or something told.
    async fn hear(&mut self, text: &str) {
        if text.trim().is_empty() {
            return;
        }
        match understand(text) {
            Ok(Heard::Follow(follow)) => {
                if let Some(since) = follow.since {
                    self.place = since;
                }
                if let Some(only) = follow.only {
                    self.only = (!only.is_empty()).then_some(only);
                }
            }
            Ok(Heard::Told(told)) => {
                let _ = self.shared.wants.send(Want::Tell(told, self.answers.clone())).await;
            }
            Err(word) => self.outgoing.extend_from_slice(line(&word).as_bytes()),
        }
    }

    /// The last line, behind the end of the line that is under way.
    async fn part(&mut self, reason: &str, writing: &mut OwnedWriteHalf) {
        let whole = self.outgoing.iter().position(|&b| b == b'\n').map_or(0, |end| end + 1);
        self.outgoing.truncate(whole);
        self.outgoing.extend_from_slice(line(&Word::Bye { reason: reason.to_owned() }).as_bytes());
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
        Ok(reason) => reason.clone().unwrap_or_else(|| "the daemon stops".into()),
        Err(_) => "the daemon stops".into(),
    }
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Follow {
    since: Option<Seq>,
    only: Option<Vec<String>>,
}

enum Heard {
    Follow(Follow),
    Told(Told),
}

/// Understands a line, or says what is wrong with it.
fn understand(text: &str) -> Result<Heard, Word> {
    let refused = |id: Option<String>, why: String| Word::Refused {
        id,
        reason: Refusal::NotUnderstood,
        says: format!("{} {why}", Refusal::NotUnderstood.says()),
    };
    let value: serde_json::Value =
        serde_json::from_str(text).map_err(|e| refused(None, format!("It is no JSON object: {e}.")))?;
    let id = value.get("id").and_then(|id| id.as_str()).map(|id| id.chars().take(64).collect::<String>());
    if value.get("tell").is_some() {
        let told: Told = serde_json::from_value(value).map_err(|e| refused(id.clone(), format!("{e}.")))?;
        if told.id.is_empty() || told.id.len() > 64 {
            return Err(refused(id, "`id` must have 1 to 64 characters.".to_owned()));
        }
        return Ok(Heard::Told(told));
    }
    serde_json::from_value(value)
        .map(Heard::Follow)
        .map_err(|e| refused(id, format!("A line carries `tell` with an `id`, or `since`, or `only`: {e}.")))
}

fn line(word: &Word) -> String {
    // A word of ours always serialises; an empty line is skipped by every client.
    serde_json::to_string(word).unwrap_or_default() + "\n"
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A client task over a socket pair, with a hub that has more to say than a socket's buffer holds.
    fn client(lines: u64) -> (UnixStream, Shared, mpsc::Receiver<Want>) {
        use events::{Advice, Body, Event, Utc};
        let hub = Arc::new(Hub::new(Seq(0)));
        let (wants, asked) = mpsc::channel(4);
        let folder = tempfile::tempdir().unwrap();
        let (journal, _) = crate::journal::Journal::open(folder.path(), "bay").unwrap();
        let shared = Shared {
            hub: Arc::clone(&hub),
            wants,
            journal: journal.reader(),
            clock: Arc::new(crate::SystemClock::start()),
            limits: Limits::default(),
            hello: Word::Bye { reason: "instead of hello".to_owned() },
        };
        for seq in 1..=lines {
            let body = Body::Fault {
                fault: events::Fault::NoAnswer,
                detail: Some("x".repeat(1_000)),
                from: Some(Advice::StayClear.word().to_owned()),
            };
            hub.publish(&Event { seq: Seq(seq), at: Utc::from_millis(0), mono_ms: Mono::ZERO, body });
        }
        let (ours, theirs) = UnixStream::pair().unwrap();
        tokio::spawn(serve(theirs, shared.clone()));
        (ours, shared, asked)
    }

    fn snapshot() -> Box<Snapshot> {
        let text = r#"{"seq":0,"at":"2026-03-02T08:00:00Z","verdict":"wait","reasons":[],"advice":"start-job","link":{"up":false},"readings":[]}"#;
        serde_json::from_str(text).unwrap()
    }

    #[tokio::test(start_paused = true)]
    async fn a_client_that_does_not_read_is_told_so_in_a_last_line_and_dropped() {
        use tokio::io::AsyncReadExt as _;
        let (mut ours, shared, mut asked) = client(2_000);
        let Some(Want::Snapshot(wanted)) = asked.recv().await else { panic!("a snapshot is asked for") };
        wanted.send(snapshot()).unwrap();
        // Simulated: nobody reads for longer than the limit, but the last line is still waited for.
        tokio::time::sleep(shared.limits.stuck + Duration::from_secs(1)).await;
        let mut text = String::new();
        ours.read_to_string(&mut text).await.unwrap();
        let last = text.lines().last().unwrap();
        assert!(last.contains("bye") && last.contains("did not read"), "{last}");
        assert!(text.lines().count() < 1_900, "it was dropped in the middle");
        assert!(
            text.lines().all(|l| serde_json::from_str::<serde_json::Value>(l).is_ok()),
            "every line is whole"
        );
    }

    #[tokio::test(start_paused = true)]
    async fn a_client_that_reads_slowly_but_reads_gets_every_line() {
        use tokio::io::AsyncBufReadExt as _;
        let (ours, _shared, mut asked) = client(1_500);
        let Some(Want::Snapshot(wanted)) = asked.recv().await else { panic!("a snapshot is asked for") };
        wanted.send(snapshot()).unwrap();
        let mut lines = tokio::io::BufReader::new(ours).lines();
        let mut events = 0;
        while events < 1_500 {
            let line = lines.next_line().await.unwrap().unwrap();
            events += u64::from(line.contains("\"seq\"") && line.contains("fault"));
            if events % 100 == 0 {
                tokio::time::sleep(Duration::from_secs(3)).await;
            }
        }
    }

    #[test]
    fn a_line_that_is_not_understood_is_answered_with_what_is_wrong() {
        let cases: &[(&str, &str)] = &[
            ("hello", "no JSON object"),
            (r#"{"tell":"fly","id":"1"}"#, "unknown variant `fly`"),
            (r#"{"tell":"drained","id":"1"}"#, "missing field `millilitres`"),
            (r#"{"tell":"start"}"#, "missing field `id`"),
            (r#"{"tell":"start","id":""}"#, "1 to 64 characters"),
            (r#"{"cince":3}"#, "unknown field `cince`"),
            ("[1]", "since"),
        ];
        for (text, want) in cases {
            match understand(text) {
                Err(Word::Refused { says, .. }) => assert!(says.contains(want), "{text}: {says}"),
                _ => panic!("{text} must be refused"),
            }
        }
        assert!(matches!(understand(r#"{"since":3,"only":["verdict"]}"#), Ok(Heard::Follow(_))));
        assert!(matches!(understand(r#"{"tell":"start","id":"1"}"#), Ok(Heard::Told(_))));
    }
}
