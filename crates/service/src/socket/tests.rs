//! One client against its task, over a socket pair, in paused time.

use std::time::Duration;

use events::{Advice, Body, Event, Refusal, Utc, Word};
use tokio::io::{AsyncBufReadExt as _, AsyncReadExt as _, AsyncWriteExt as _, BufReader, Lines};
use tokio::net::unix::{OwnedReadHalf, OwnedWriteHalf};

use super::*;
use crate::journal::Journal;

/// A daemon of which only the socket is real: the test answers what clients want.
pub(crate) struct Daemon {
    pub(crate) shared: Shared,
    asked: mpsc::Receiver<Want>,
    door: Door,
    pub(crate) journal: Journal,
    _folder: tempfile::TempDir,
}

impl Daemon {
    pub(crate) fn for_clients(clients: usize) -> Self {
        let (wants, asked) = mpsc::channel(64);
        let folder = tempfile::tempdir().unwrap();
        let (journal, _) = Journal::open(folder.path(), "bay").unwrap();
        let shared = Shared {
            hub: Arc::new(Hub::new(Seq(0))),
            wants,
            journal: journal.reader(),
            clock: Arc::new(crate::SystemClock::start()),
            limits: Limits::default(),
            hello: Word::Bye { reason: "instead of hello".to_owned() },
        };
        Self { shared, asked, door: Door::new(clients), journal, _folder: folder }
    }

    fn publish(&self, seq: u64, body: Body) {
        self.shared.hub.publish(event(seq, body).into());
    }

    /// Lets one in; it is sent nothing before [`Daemon::greet`].
    fn connect(&self) -> UnixStream {
        let (ours, theirs) = UnixStream::pair().unwrap();
        self.door.welcome(theirs, &self.shared, self.shared.hub.last());
        ours
    }

    /// Answers the next wish, which is for a snapshot, with one of after this event.
    async fn greet(&mut self, seq: u64) {
        let Some(Want::Snapshot(wanted)) = self.asked.recv().await else { panic!("a snapshot is asked for") };
        let _ = wanted.send(snapshot(seq));
    }

    pub(crate) async fn client(&mut self) -> Peer {
        let stream = self.connect();
        let last = self.shared.hub.last().0;
        self.greet(last).await;
        let mut peer = Peer::of(stream);
        peer.line().await;
        peer.line().await;
        peer
    }
}

/// The other end.
pub(crate) struct Peer {
    lines: Lines<BufReader<OwnedReadHalf>>,
    writing: OwnedWriteHalf,
}

impl Peer {
    fn of(stream: UnixStream) -> Self {
        let (reading, writing) = stream.into_split();
        Self { lines: BufReader::new(reading).lines(), writing }
    }

    async fn say(&mut self, line: impl AsRef<[u8]>) {
        self.writing.write_all(line.as_ref()).await.unwrap();
        self.writing.write_all(b"\n").await.unwrap();
    }

    /// The next line, within a simulated minute.
    pub(crate) async fn line(&mut self) -> String {
        let line = tokio::time::timeout(Duration::from_secs(60), self.lines.next_line()).await;
        line.expect("silence").unwrap().expect("closed")
    }

    async fn word(&mut self) -> Word {
        serde_json::from_str(&self.line().await).unwrap()
    }

    /// Whether nothing is said for a simulated minute.
    async fn hears_nothing(&mut self) -> bool {
        tokio::time::timeout(Duration::from_secs(60), self.lines.next_line()).await.is_err()
    }

    /// The last line, and that nothing follows it.
    async fn bye(&mut self) -> String {
        let Word::Bye { reason } = self.word().await else { panic!("bye") };
        let end = tokio::time::timeout(Duration::from_secs(60), self.lines.next_line()).await;
        assert_eq!(end.expect("silence").unwrap(), None, "nothing after the last line");
        reason
    }
}

fn event(seq: u64, body: Body) -> Event {
    Event { seq: Seq(seq), at: Utc::from_millis(0), mono_ms: Mono::ZERO, body }
}

fn long_fault() -> Body {
    Body::Fault { fault: events::Fault::NoAnswer, detail: Some("x".repeat(1_000)), from: None }
}

fn advice() -> Body {
    Body::Advice(Advice::StayClear.into())
}

fn snapshot(seq: u64) -> Box<Snapshot> {
    let text = format!(
        r#"{{"seq":{seq},"at":"2026-03-02T08:00:00Z","verdict":"wait","reasons":[],"advice":"start-job","link":{{"up":false}},"readings":[]}}"#
    );
    serde_json::from_str(&text).unwrap()
}

/// A daemon whose hub has more to say than a socket's buffer holds, and one client.
async fn talkative(lines: u64) -> (Daemon, UnixStream) {
    let mut daemon = Daemon::for_clients(8);
    for seq in 1..=lines {
        daemon.publish(seq, long_fault());
    }
    let stream = daemon.connect();
    daemon.greet(0).await;
    (daemon, stream)
}

#[tokio::test(start_paused = true)]
async fn a_client_that_does_not_read_is_told_so_in_a_last_line_and_dropped() {
    let (daemon, mut ours) = talkative(2_000).await;
    // Simulated: nobody reads for longer than the limit, but the last line is still waited for.
    tokio::time::sleep(daemon.shared.limits.stuck + Duration::from_secs(1)).await;
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
    let (_daemon, ours) = talkative(1_500).await;
    let mut lines = BufReader::new(ours).lines();
    let mut events = 0;
    while events < 1_500 {
        let line = lines.next_line().await.unwrap().unwrap();
        events += u64::from(line.contains("\"seq\"") && line.contains("fault"));
        if events % 100 == 0 {
            tokio::time::sleep(Duration::from_secs(3)).await;
        }
    }
}

#[tokio::test(start_paused = true)]
async fn a_line_that_is_not_understood_is_answered_and_the_next_one_too() {
    let mut daemon = Daemon::for_clients(8);
    let mut peer = daemon.client().await;
    for line in [&b"\xff\xfe"[..], b"hello", b"{\"tell\":\"start\"}"] {
        peer.say(line).await;
        let Word::Refused { reason, .. } = peer.word().await else { panic!("{line:?}") };
        assert_eq!(reason, Refusal::NotUnderstood, "{line:?}");
    }
    peer.say("x".repeat(daemon.shared.limits.line_bytes + 1)).await;
    assert_eq!(peer.bye().await, "that line was too long");
}

#[tokio::test(start_paused = true)]
async fn a_line_of_just_the_limit_is_heard() {
    let mut daemon = Daemon::for_clients(8);
    let mut peer = daemon.client().await;
    let mut line = r#"{"tell":"start","id":"1"}"#.to_owned();
    line += &" ".repeat(daemon.shared.limits.line_bytes - line.len());
    peer.say(line).await;
    assert!(matches!(daemon.asked.recv().await, Some(Want::Tell(..))));
}

/// The next thing told, with where its answer goes.
async fn told(daemon: &mut Daemon) -> (String, mpsc::Sender<Word>) {
    match daemon.asked.recv().await {
        Some(Want::Tell(told, answer)) => (told.id, answer),
        other => panic!("{other:?}"),
    }
}

#[tokio::test(start_paused = true)]
async fn whoever_closes_his_side_still_gets_his_answers_and_what_there_is_and_then_the_end() {
    let mut daemon = Daemon::for_clients(8);
    let mut peer = daemon.client().await;
    for id in ["a", "b"] {
        peer.say(format!(r#"{{"tell":"start","id":"{id}"}}"#)).await;
    }
    peer.writing.shutdown().await.unwrap();
    let accepted = |id: String, seq| Word::Accepted { id, seq: Seq(seq), advice: Advice::StayClear };
    let (first, answer) = told(&mut daemon).await;
    let (second, later) = told(&mut daemon).await;
    answer.send(accepted(first, 1)).await.unwrap();
    drop(answer);
    assert!(matches!(peer.word().await, Word::Accepted { id, .. } if id == "a"));
    assert!(peer.hears_nothing().await, "the second answer waits for the disk");
    daemon.publish(1, advice());
    later.send(accepted(second, 2)).await.unwrap();
    drop(later);
    assert!(peer.line().await.contains("stay-clear"), "what happens is still told");
    assert!(matches!(peer.word().await, Word::Accepted { id, .. } if id == "b"));
    assert_eq!(peer.bye().await, "you closed your side, and that was all there is");
}

#[tokio::test(start_paused = true)]
async fn whoever_closes_his_side_after_asking_for_the_past_gets_all_of_it() {
    let mut daemon = Daemon::for_clients(8);
    for seq in 1..=300 {
        daemon.publish(seq, advice());
    }
    let mut peer = daemon.client().await;
    peer.say(r#"{"since":0}"#).await;
    peer.writing.shutdown().await.unwrap();
    for seq in 1..=300 {
        assert!(peer.line().await.starts_with(&format!(r#"{{"seq":{seq},"#)));
    }
    assert!(peer.bye().await.contains("you closed your side"));
}

#[tokio::test(start_paused = true)]
async fn a_place_in_the_future_is_answered_and_what_comes_next_is_sent() {
    let mut daemon = Daemon::for_clients(8);
    daemon.publish(1, advice());
    let mut peer = daemon.client().await;
    peer.say(r#"{"since":99}"#).await;
    let Word::Refused { id: None, reason, says } = peer.word().await else { panic!("refused") };
    assert_eq!(reason, Refusal::NoSuchEvent);
    assert!(says.contains("The last one is 1, not 99."), "{says}");
    daemon.publish(2, advice());
    assert!(peer.line().await.starts_with(r#"{"seq":2,"#));
    // The last one itself is no future.
    peer.say(r#"{"since":2}"#).await;
    assert!(peer.hears_nothing().await);
    daemon.publish(3, advice());
    assert!(peer.line().await.starts_with(r#"{"seq":3,"#));
}

/// A daemon with so many events, kept in the journal too, of which only these are advice.
async fn quiet(last: u64, advices: &[u64]) -> Daemon {
    let daemon = Daemon::for_clients(8);
    let body = |seq: u64| if advices.contains(&seq) { advice() } else { long_fault() };
    let events: Vec<Event> = (1..=last).map(|seq| event(seq, body(seq))).collect();
    for batch in events.chunks(500) {
        daemon.journal.append(batch.iter().cloned().map(Into::into).collect()).await.unwrap().unwrap();
    }
    for event in events {
        daemon.shared.hub.publish(event.into());
    }
    daemon
}

#[tokio::test]
async fn a_filter_finds_what_lies_far_behind_without_waiting_for_news() {
    // In the journal, in the journal just before the ring, in the ring, at its end. Real time: the journal is a thread.
    let mut daemon = quiet(5_000, &[1, 2_500, 4_000, 5_000]).await;
    let mut peer = daemon.client().await;
    peer.say(r#"{"since":0,"only":["advice"]}"#).await;
    for seq in [1, 2_500, 4_000, 5_000] {
        assert!(peer.line().await.starts_with(&format!(r#"{{"seq":{seq},"#)));
    }
    daemon.publish(5_001, long_fault());
    daemon.publish(5_002, advice());
    assert!(peer.line().await.starts_with(r#"{"seq":5002,"#));
    // An empty filter is none.
    peer.say(r#"{"since":5000,"only":[]}"#).await;
    assert!(peer.line().await.starts_with(r#"{"seq":5001,"#));
    assert!(peer.line().await.starts_with(r#"{"seq":5002,"#));
}

#[tokio::test(start_paused = true)]
async fn a_newer_connection_takes_the_place_of_an_idle_one_which_is_told_so() {
    // The test's own process counts as the daemon's: the first has the kept place, the second the other.
    let mut daemon = Daemon::for_clients(2);
    let mut first = daemon.client().await;
    let mut second = daemon.client().await;
    let mut third = daemon.client().await;
    assert_eq!(first.bye().await, "too many clients: a newer connection has this place now");
    for peer in [&mut second, &mut third] {
        peer.say(r#"{"tell":"start","id":"1"}"#).await;
        told(&mut daemon).await;
    }
    // Both tell: the next one is turned away, without any greeting.
    let mut fourth = Peer::of(daemon.connect());
    assert_eq!(fourth.bye().await, "too many clients; close one and try again");
    drop(second);
    // Its place is free as soon as its task has seen the end.
    daemon.publish(1, advice());
    assert!(third.line().await.contains("stay-clear"));
    daemon.client().await;
}

#[tokio::test(start_paused = true)]
async fn one_that_is_displaced_before_it_was_greeted_is_told_so_too() {
    let mut daemon = Daemon::for_clients(2);
    let mut first = Peer::of(daemon.connect());
    let second = daemon.connect();
    let _third = daemon.connect();
    assert!(first.bye().await.contains("a newer connection"));
    // Its own wish may have been heard or not; the others are greeted.
    let mut second = Peer::of(second);
    for _ in 0..3 {
        let _ = tokio::time::timeout(Duration::from_secs(1), daemon.greet(0)).await;
    }
    second.line().await;
}

#[tokio::test(start_paused = true)]
async fn everybody_is_told_why_the_daemon_stops_and_nobody_can_hold_it_up() {
    let mut daemon = Daemon::for_clients(8);
    for seq in 1..=2_000 {
        daemon.publish(seq, long_fault());
    }
    let mut reads = daemon.client().await;
    let _never_reads = daemon.connect();
    daemon.greet(0).await;
    let mut not_greeted = Peer::of(daemon.connect());
    // Simulated: long enough to fill the buffer of the one that does not read.
    tokio::time::sleep(Duration::from_secs(1)).await;
    let before = tokio::time::Instant::now();
    let hub = Arc::clone(&daemon.shared.hub);
    hub.part("the disk is full");
    let gone = tokio::time::timeout(Duration::from_secs(1), hub.all_gone());
    let (reads, not_greeted, gone) = tokio::join!(reads.bye(), not_greeted.bye(), gone);
    assert_eq!((reads.as_str(), not_greeted.as_str()), ("the disk is full", "the disk is full"));
    assert!(gone.is_err(), "one of them does not read, and is not waited for");
    assert!(before.elapsed() <= Duration::from_secs(2), "{:?}", before.elapsed());
}

/// What the loop knows of a bay in good health, whose journal lies in this folder.
fn looked(folder: &std::path::Path) -> Box<crate::status::Looked> {
    let status = serde_json::json!({
        "at": "2026-03-02T08:00:00Z", "bay": "bay", "version": "0", "up_seconds": 1, "health": "healthy", "ailments": [],
        "device": "none", "port_open": false, "link": {"up": false, "people": true},
        "journal": {"path": "", "durable": 0, "waiting": 0}, "clients": 0, "clients_most": 0,
    });
    let status = serde_json::from_value(status).unwrap();
    Box::new(crate::status::Looked { status, folder: folder.to_path_buf(), read: false })
}

#[tokio::test]
async fn who_asks_how_the_bay_is_hears_of_the_disk_and_of_the_clients() {
    let mut daemon = Daemon::for_clients(8);
    let _other = daemon.client().await;
    let mut peer = daemon.client().await;
    for (folder, free, ailments) in [
        (std::env::temp_dir(), true, vec![]),
        (std::env::temp_dir().join("no such folder"), false, vec![events::Ailment::DiskSlow]),
    ] {
        peer.say(r#"{"status":true}"#).await;
        let Some(Want::Status(asked)) = daemon.asked.recv().await else { panic!("the loop is asked") };
        asked.send(looked(&folder)).unwrap();
        let Word::Status(status) = peer.word().await else { panic!("an answer") };
        assert_eq!((status.clients, status.clients_most), (2, Limits::default().clients));
        assert_eq!((status.journal.free_bytes.is_some(), status.ailments), (free, ailments));
    }
}
