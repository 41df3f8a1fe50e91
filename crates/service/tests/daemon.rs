//! The daemon from its socket: what a client is told, and what it is told last.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

use std::path::Path;
use std::sync::Arc;
use std::time::Duration;

use events::Sheet;
use serde_json::Value;
use service::{Config, Daemon, Limits, Memory, ServiceError, SystemClock};
use tokio::io::{AsyncBufReadExt as _, AsyncWriteExt as _, BufReader, Lines};
use tokio::net::UnixStream;
use tokio::net::unix::{OwnedReadHalf, OwnedWriteHalf};
use tokio::sync::oneshot;
use tokio::task::JoinHandle;

/// A daemon without an adapter, in a folder of its own.
struct Served {
    stop: oneshot::Sender<()>,
    running: JoinHandle<Result<(), ServiceError>>,
}

impl Served {
    fn start(folder: &Path) -> Self {
        let sheet = Sheet::parse(include_str!("../../../fixtures/sheets/demo-six-speed.toml")).unwrap();
        let daemon = Daemon::start(Config {
            bay: "bay".to_owned(),
            sheet,
            sheets: vec![other_sheet()],
            socket: folder.join("socket"),
            socket_group: None,
            journal: folder.to_path_buf(),
            opener: Some(Arc::new(adapter::Device::Serial { path: folder.join("no-adapter"), baud: None })),
            clock: Arc::new(SystemClock::start()),
            version: "test".to_owned(),
            limits: Limits::default(),
            memory: Memory::open(folder, "bay"),
            recorder: None,
            machine: None,
            find: None,
        });
        let (stop, stopped) = oneshot::channel();
        let running = tokio::spawn(daemon.unwrap().run(async {
            let _ = stopped.await;
        }));
        Self { stop, running }
    }

    async fn stop(self) -> Result<(), ServiceError> {
        self.stop.send(()).unwrap();
        self.running.await.unwrap()
    }
}

fn other_sheet() -> Sheet {
    Sheet::parse(include_str!("../../../fixtures/sheets/demo-coolant-only.toml")).unwrap()
}

struct Client {
    lines: Lines<BufReader<OwnedReadHalf>>,
    out: OwnedWriteHalf,
}

impl Client {
    /// Behind `hello` and `snapshot`.
    async fn connect(folder: &Path) -> Self {
        let (reading, out) = UnixStream::connect(folder.join("socket")).await.unwrap().into_split();
        let mut client = Self { lines: BufReader::new(reading).lines(), out };
        assert_eq!(client.line().await.unwrap()["kind"], "hello");
        assert_eq!(client.line().await.unwrap()["kind"], "snapshot");
        client
    }

    async fn say(&mut self, line: &str) {
        self.out.write_all(format!("{line}\n").as_bytes()).await.unwrap();
    }

    /// The next line, or `None` at the end.
    async fn line(&mut self) -> Option<Value> {
        // Nobody measures here: a test that waits in vain ends, some time.
        let line = tokio::time::timeout(Duration::from_secs(120), self.lines.next_line()).await;
        line.expect("nothing comes").unwrap().map(|text| serde_json::from_str(&text).unwrap())
    }

    /// The next line of this kind.
    async fn until(&mut self, kind: &str) -> Value {
        loop {
            let line = self.line().await.unwrap_or_else(|| panic!("no `{kind}` before the end"));
            if line["kind"] == kind {
                return line;
            }
        }
    }

    /// The last line.
    async fn last(&mut self) -> Value {
        let mut last = Value::Null;
        while let Some(line) = self.line().await {
            last = line;
        }
        last
    }
}

#[tokio::test]
async fn whoever_is_connected_hears_why_the_daemon_ends() {
    let folder = tempfile::tempdir().unwrap();
    let served = Served::start(folder.path());
    let mut client = Client::connect(folder.path()).await;
    client.say(r#"{"id":"1","tell":"start"}"#).await;
    assert_eq!(client.until("accepted").await["id"], "1");
    // One that never reads does not keep the daemon.
    let _silent = UnixStream::connect(folder.path().join("socket")).await.unwrap();
    served.stop().await.unwrap();
    let last = client.last().await;
    assert_eq!((&last["kind"], &last["reason"]), (&"bye".into(), &"the daemon stops".into()));
    assert!(!folder.path().join("socket").exists());
}

#[tokio::test]
async fn a_journal_that_is_moved_away_ends_the_daemon_and_accepts_nothing_more() {
    let folder = tempfile::tempdir().unwrap();
    let served = Served::start(folder.path());
    let mut client = Client::connect(folder.path()).await;
    client.say(r#"{"id":"1","tell":"start"}"#).await;
    client.until("accepted").await;
    let path = folder.path().join("bay.journal");
    std::fs::rename(&path, folder.path().join("moved")).unwrap();
    client.say(r#"{"id":"2","tell":"note","text":"into nothing"}"#).await;
    let refused = client.until("refused").await;
    assert_eq!((&refused["id"], &refused["reason"]), (&"2".into(), &"journal-full".into()));
    let last = client.last().await;
    assert!(
        last["kind"] == "bye" && last["reason"].as_str().unwrap().contains("cannot be written"),
        "{last}"
    );
    let Err(ServiceError::JournalGone { why, .. }) = served.running.await.unwrap() else {
        panic!("it must say so")
    };
    assert!(why.contains("was removed or moved away"), "{why}");
}

/// A job runs; the daemon is stopped, somebody changes one digit, and it is started again.
#[tokio::test]
async fn a_running_job_whose_record_was_changed_is_ended_and_told() {
    let folder = tempfile::tempdir().unwrap();
    let served = Served::start(folder.path());
    let mut client = Client::connect(folder.path()).await;
    for (id, tell) in [
        ("1", r#""tell":"start""#),
        ("2", r#""tell":"confirm","what":"on-stands""#),
        ("3", r#""tell":"drained","millilitres":2400"#),
    ] {
        client.say(&format!("{{\"id\":\"{id}\",{tell}}}")).await;
        assert_eq!(client.until("accepted").await["id"], id);
    }
    served.stop().await.unwrap();
    let path = folder.path().join("bay.journal");
    let bytes = std::fs::read(&path).unwrap();
    let mut changed = bytes.clone();
    // Pages that were split keep an old copy of some rows.
    for at in 0..bytes.len() - 18 {
        if bytes[at..].starts_with(b"\"millilitres\":2400") {
            changed[at + 14] = b'1';
        }
    }
    assert_ne!(changed, bytes);
    std::fs::write(&path, changed).unwrap();

    let served = Served::start(folder.path());
    let mut client = Client::connect(folder.path()).await;
    client.say(r#"{"since":0}"#).await;
    let fault = client.until("fault").await;
    let detail = fault["detail"].as_str().unwrap();
    assert!(
        fault["fault"] == "journal-damaged" && detail.contains("the record of job 1 is not what was written"),
        "{fault}"
    );
    let told = client.until("told").await;
    assert!(told["tell"] == "abort" && told["why"].as_str().unwrap().contains("not whole"), "{told}");
    assert_eq!(client.until("result").await["outcome"], "not-set");
    client.say(r#"{"id":"4","tell":"drained","millilitres":100}"#).await;
    assert_eq!(client.until("refused").await["reason"], "ended");
    // It is over, and a new one may begin.
    client.say(r#"{"id":"5","tell":"start"}"#).await;
    client.until("accepted").await;
    served.stop().await.unwrap();
    // The same start once more has nothing new to say of the new job.
    let served = Served::start(folder.path());
    let mut client = Client::connect(folder.path()).await;
    client.say(r#"{"id":"6","tell":"note","text":"goes on"}"#).await;
    client.until("accepted").await;
    served.stop().await.unwrap();
}

/// Everything that can be told is told, the daemon is stopped without warning, and it is told again under the same id.
#[tokio::test]
async fn what_was_accepted_is_accepted_again_under_its_id_after_a_restart() {
    let folder = tempfile::tempdir().unwrap();
    let requests = [
        r#""tell":"start""#,
        r#""tell":"vehicle","text":"QL 12""#,
        r#""tell":"confirm","what":"on-stands""#,
        r#""tell":"confirm","what":"ventilated""#,
        r#""tell":"level","pitch_degrees":0.1,"roll_degrees":0.0"#,
        r#""tell":"corners","front_left_millimetres":301,"front_right_millimetres":300,"rear_left_millimetres":300,"rear_right_millimetres":299,"wheelbase_millimetres":2700,"track_millimetres":[1550,1550]"#,
        r#""tell":"drained","millilitres":2400,"celsius":22"#,
        r#""tell":"undo""#,
        r#""tell":"drained","millilitres":2500,"celsius":22"#,
        r#""tell":"spilled","millilitres":50,"of":"drained""#,
        r#""tell":"kept","millilitres":100"#,
        r#""tell":"taken-out","part":"filter","millilitres":120"#,
        r#""tell":"filled","millilitres":2900,"celsius":20"#,
        r#""tell":"spot","celsius":38.5,"surface":"tape""#,
        r#""tell":"flowing""#,
        r#""tell":"closed""#,
        r#""tell":"nothing-flows""#,
        r#""tell":"closed""#,
        r#""tell":"ran-out","millilitres":200"#,
        r#""tell":"torqued""#,
        r#""tell":"test-driven""#,
        r#""tell":"photo","sha256":"0000000000000000000000000000000000000000000000000000000000000000","name":"plug.png""#,
        r#""tell":"note","text":"dark""#,
        r#""tell":"done""#,
        r#""tell":"recheck","of":1"#,
        r#""tell":"abort","why":"no time""#,
        r#""tell":"start""#,
    ];
    for (n, request) in requests.iter().enumerate() {
        let line = format!("{{\"id\":\"r{n}\",{request}}}");
        let mut seen = Vec::new();
        for _ in 0..2 {
            let served = Served::start(folder.path());
            let mut client = Client::connect(folder.path()).await;
            client.say(&line).await;
            let answer = loop {
                let heard = client.line().await.unwrap();
                if heard["kind"] == "accepted" || heard["kind"] == "refused" {
                    break heard;
                }
            };
            assert_eq!(answer["kind"], "accepted", "{line}: {answer}");
            seen.push(answer["seq"].clone());
            served.stop().await.unwrap();
        }
        assert_eq!(seen[0], seen[1], "{line}: the answer of then, and nothing done twice");
    }
}

/// A sheet is chosen for the next job and not kept over a restart: told again under its id it is chosen again, not only said to be.
#[tokio::test]
async fn a_sheet_that_is_told_again_after_a_restart_is_chosen_again() {
    let folder = tempfile::tempdir().unwrap();
    // A job before it, so that what was told after it is restored with it.
    for told in [r#"{"id":"1","tell":"start"}"#, r#"{"id":"2","tell":"done"}"#] {
        let served = Served::start(folder.path());
        let mut client = Client::connect(folder.path()).await;
        client.say(told).await;
        client.until("accepted").await;
        served.stop().await.unwrap();
    }
    let choose = format!(r#"{{"id":"3","tell":"sheet","name":"{}"}}"#, other_sheet().name);
    for _ in 0..2 {
        let served = Served::start(folder.path());
        let mut client = Client::connect(folder.path()).await;
        client.say(&choose).await;
        client.until("accepted").await;
        client.say(&choose).await;
        client.until("accepted").await;
        let stream = UnixStream::connect(folder.path().join("socket")).await.unwrap();
        let mut lines = BufReader::new(stream).lines();
        lines.next_line().await.unwrap();
        let snapshot: Value = serde_json::from_str(&lines.next_line().await.unwrap().unwrap()).unwrap();
        assert_eq!(snapshot["sheet"]["name"], other_sheet().name.as_str());
        served.stop().await.unwrap();
    }
}
