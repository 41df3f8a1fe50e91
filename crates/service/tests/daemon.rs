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
            sheets: Vec::new(),
            socket: folder.join("socket"),
            socket_group: None,
            journal: folder.to_path_buf(),
            opener: Arc::new(adapter::Device::Serial { path: folder.join("no-adapter"), baud: None }),
            clock: Arc::new(SystemClock::start()),
            version: "test".to_owned(),
            limits: Limits::default(),
            memory: Memory::open(folder, "bay"),
            recorder: None,
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
        self.lines.next_line().await.unwrap().map(|text| serde_json::from_str(&text).unwrap())
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
