//! What listens at a socket, and what a client makes of it: each row a daemon that is none, or one that comes and goes.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test")]

use std::time::Duration;

use client::{Client, ClientError, Daemon, LONGEST_LINE, Link, News};
use events::{PROTOCOL, Seq, Snapshot, SocketLine, Word};
use tokio::io::AsyncWriteExt as _;
use tokio::net::UnixListener;

fn hello(protocol: u32) -> String {
    let word = Word::Hello {
        protocol,
        version: "0".to_owned(),
        bay: "bay".to_owned(),
        boot: "a".to_owned(),
        last_seq: Seq(0),
    };
    line(&SocketLine::Word(word))
}

fn snapshot() -> String {
    line(&SocketLine::Word(Word::Snapshot(Box::default())))
}

fn line(line: &SocketLine) -> String {
    serde_json::to_string(line).unwrap() + "\n"
}

/// A daemon that says this to whoever connects, and closes.
fn says(folder: &tempfile::TempDir, text: String) -> Daemon {
    let path = folder.path().join("bay.sock");
    let listener = UnixListener::bind(&path).unwrap();
    tokio::spawn(async move {
        while let Ok((mut stream, _)) = listener.accept().await {
            let _ = stream.write_all(text.as_bytes()).await;
        }
    });
    Daemon::own(path)
}

/// Connects, and hears all that is said: how it ends.
async fn heard(text: String) -> Result<usize, ClientError> {
    let folder = tempfile::tempdir().unwrap();
    let mut client = Client::connect(&says(&folder, text)).await?;
    let mut lines = 0;
    while client.next().await?.is_some() {
        lines += 1;
    }
    Ok(lines)
}

#[tokio::test]
async fn what_is_no_daemon_of_ours_is_told_apart() {
    let greeting = || hello(PROTOCOL) + &snapshot();
    let bye = line(&SocketLine::Word(Word::Bye { reason: "64 clients are here".to_owned() }));
    let long = "x".repeat(LONGEST_LINE + 1) + "\n";
    let longest = "x".repeat(LONGEST_LINE) + "\n";
    assert_eq!(heard(greeting()).await.unwrap(), 0);
    assert_eq!(heard(greeting() + &longest + &bye).await.unwrap(), 2, "as long as may be");
    type Is = fn(&ClientError) -> bool;
    let cases: [(&str, String, Is); 7] = [
        ("nothing", String::new(), |e| matches!(e, ClientError::NoDaemon { .. })),
        ("another program", "220 mail ready\n".to_owned(), |e| matches!(e, ClientError::NoDaemon { .. })),
        ("the snapshot first", snapshot() + &hello(PROTOCOL), |e| matches!(e, ClientError::NoDaemon { .. })),
        (
            "a newer daemon",
            hello(PROTOCOL + 1) + &snapshot(),
            |e| matches!(e, ClientError::Protocol { theirs, .. } if *theirs == PROTOCOL + 1),
        ),
        (
            "a daemon that is full",
            bye.clone(),
            |e| matches!(e, ClientError::Bye { reason } if reason.contains("64")),
        ),
        ("an endless line", greeting() + &long, |e| matches!(e, ClientError::TooLong { .. })),
        ("an endless greeting", long.clone(), |e| matches!(e, ClientError::TooLong { .. })),
    ];
    for (what, text, is) in cases {
        let error = heard(text).await.err().unwrap_or_else(|| panic!("{what} was taken for a daemon"));
        assert!(is(&error), "{what}: {error:?}");
    }
}

#[tokio::test]
async fn who_is_not_there_is_said_with_what_to_try() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bay.sock");
    let no_socket = Client::connect(&Daemon::own(path.clone())).await.err().unwrap();
    assert!(matches!(no_socket, ClientError::NoSocket { .. }) && no_socket.remedy().contains("serve"));
    drop(UnixListener::bind(&path).unwrap());
    let died = Client::connect(&Daemon::own(path)).await.err().unwrap();
    assert!(matches!(died, ClientError::Died { .. }) && died.remedy().contains("goes on"), "{died:?}");
    assert!(!no_socket.needs_a_hand() && !died.needs_a_hand(), "it may come at any moment");
}

/// The first two lines of the next connection.
async fn greeted(link: &mut Link) -> Box<[SocketLine; 2]> {
    loop {
        match link.next().await {
            News::Away(_) | News::Lost => {}
            News::Connected(lines) => return lines,
            News::Line(heard) => panic!("a line before the greeting: {}", heard.text),
        }
    }
}

#[tokio::test(start_paused = true)]
async fn what_listens_and_says_nothing_is_not_waited_for_for_ever() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bay.sock");
    let _mute = UnixListener::bind(&path).unwrap();
    let mut link = Link::new(Daemon::own(path));
    assert!(matches!(link.next().await, News::Away(ClientError::Silent { .. })));
}

#[tokio::test]
async fn a_daemon_that_goes_and_comes_is_found_again_and_waiting_may_be_given_up() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bay.sock");
    // However slow this machine is, no greeting is late.
    let mut link = Link::new(Daemon::own(path.clone())).greeted_within(Duration::from_secs(86_400));
    assert!(matches!(link.next().await, News::Away(ClientError::NoSocket { .. })));
    for _ in 0..2 {
        let listener = UnixListener::bind(&path).unwrap();
        // The greeting comes in two halves, and whoever waits gives up between them.
        let mut stream = tokio::select! {
            _ = greeted(&mut link) => panic!("connected to nobody"),
            accepted = listener.accept() => accepted.unwrap().0,
        };
        stream.write_all(hello(PROTOCOL).as_bytes()).await.unwrap();
        let early = tokio::time::timeout(Duration::from_millis(50), greeted(&mut link)).await;
        assert!(early.is_err(), "half a greeting is none");
        stream.write_all(snapshot().as_bytes()).await.unwrap();
        let lines = greeted(&mut link).await;
        assert!(matches!(&lines[1], SocketLine::Word(Word::Snapshot(s)) if **s == Snapshot::default()));
        assert!(link.is_open());
        drop((stream, listener));
        std::fs::remove_file(&path).unwrap();
        assert!(matches!(link.next().await, News::Lost));
        assert!(!link.is_open());
    }
}

#[tokio::test]
async fn a_status_is_waited_for_and_a_daemon_that_knows_the_question_not_yet_is_told_apart() {
    let greeting = || hello(PROTOCOL) + &snapshot();
    let asked = async |text: String| {
        let folder = tempfile::tempdir().unwrap();
        let mut client = Client::connect(&says(&folder, text)).await.unwrap();
        client.status().await
    };
    let refused = Word::Refused { id: None, reason: events::Refusal::NotUnderstood, says: String::new() };
    let older = asked(greeting() + &line(&SocketLine::Word(refused))).await.unwrap_err();
    assert!(
        matches!(older, ClientError::NoStatus { .. }) && older.remedy().contains("start it again"),
        "{older}"
    );
    let ends =
        asked(greeting() + &line(&SocketLine::Word(Word::Bye { reason: "the daemon stops".to_owned() })))
            .await;
    assert!(matches!(ends, Err(ClientError::Bye { .. })));
    assert!(matches!(
        asked(greeting() + "{}\n").await,
        Err(ClientError::Silent { .. } | ClientError::Broken { .. })
    ));
}
