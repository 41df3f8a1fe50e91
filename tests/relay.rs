//! What a bay says, at a broker that is not ours (mosquitto) and read by a client that is not ours (`mosquitto_sub`): every fact, byte for
//! byte, in order, through a broker and a relay that are killed; nothing under another's name; nobody's plate.
//!
//! Needs mosquitto, its clients and openssl: without them it fails under CI; elsewhere it says what was left out.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stderr,
    reason = "a test"
)]

mod common;

use std::path::Path;
use std::process::{Command, Stdio};

use common::{Home, Process, stderr, stdout};

/// Whether the broker and its clients are there.
fn missing() -> bool {
    let there = |program: &str, word: &str| {
        Command::new(program).arg(word).stdout(Stdio::null()).stderr(Stdio::null()).status().is_ok()
    };
    let all =
        ["mosquitto", "mosquitto_sub", "mosquitto_passwd"].iter().all(|program| there(program, "--help"));
    let all = all && there("openssl", "version");
    assert!(all || std::env::var_os("CI").is_none(), "CI needs mosquitto, mosquitto-clients and openssl");
    if !all {
        eprintln!("left out: no mosquitto or openssl here");
    }
    !all
}

/// A port that nobody listens at just now.
fn free_port() -> u16 {
    std::net::TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port()
}

/// A broker of our own, with nothing but these lines besides its port.
fn broker(home: &Home, port: u16, lines: &str) -> Process {
    let file = home.path().join("mosquitto.conf");
    // Started as root it would give that up, and could not read what is ours.
    let user = if rustix::process::geteuid().is_root() { "root" } else { "mosquitto" };
    std::fs::write(&file, format!("user {user}\nlistener {port} 127.0.0.1\n{lines}\n")).unwrap();
    let mut command = Command::new("mosquitto");
    command.arg("-v").arg("-c").arg(&file);
    let piped = command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut broker = Process::of(piped.spawn().unwrap());
    broker.until_said(|line| line.contains("running"));
    // What it says further is nobody's; it must not wait for a reader.
    let mut rest = broker.child.stderr.take().unwrap();
    std::thread::spawn(move || std::io::copy(&mut rest, &mut std::io::sink()));
    broker
}

/// Reads a topic, payload by payload, again after each loss.
fn reader(port: u16, topic: &str, words: &[&str]) -> Process {
    let port = port.to_string();
    let mut command = Command::new("mosquitto_sub");
    command
        .args(["-V", "mqttv5", "-h", "127.0.0.1", "-p", &port, "-q", "1", "-t", topic, "-F", "%p"])
        .args(words);
    let piped = command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::inherit());
    Process::of(piped.spawn().unwrap())
}

/// What a topic has retained.
fn retained(port: u16, topic: &str) -> serde_json::Value {
    let line = reader(port, topic, &["-C", "1"]).line();
    serde_json::from_str(&line).unwrap()
}

fn seq(line: &str) -> u64 {
    serde_json::from_str::<serde_json::Value>(line).unwrap()["seq"].as_u64().unwrap()
}

/// Everything that the bay holds as a fact, line by line, as its own socket gives it.
fn facts(home: &Home, bay: &str) -> Vec<String> {
    let all = home.run(&["events", "--bay", bay, "--since", "0", "--no-follow", "--json"]);
    assert!(all.status.success(), "{}", stderr(&all));
    let samples = ["reading", "estimate", "forecast", "find", "candidate", "sheets"];
    let is_fact = |line: &&str| {
        let event: serde_json::Value = serde_json::from_str(line).unwrap();
        !samples.contains(&event["kind"].as_str().unwrap())
    };
    stdout(&all).lines().filter(is_fact).map(str::to_owned).collect()
}

/// Reads on until this event was there.
fn read_to(reader: &mut Process, last: u64, into: &mut Vec<String>) {
    while into.last().is_none_or(|line| seq(line) < last) {
        into.push(reader.line());
    }
}

/// Each once, in the order of their numbers.
fn once(lines: &[String]) -> Vec<String> {
    let mut all = lines.to_vec();
    all.sort_by_key(|line| seq(line));
    all.dedup();
    all
}

#[test]
fn every_fact_reaches_the_broker_through_kills_of_broker_and_relay() {
    if missing() {
        return;
    }
    let home = Home::new();
    let kept = home.path().join("kept");
    let folder = kept.to_str().unwrap();
    let done = home.run(&["rehearse", "--pace", "max", "--json", "--keep", folder]);
    assert!(done.status.success(), "{}", stderr(&done));
    let bay = "rehearsal";
    let mut daemon = home.start(&["serve", "--device", "none", "--journal", folder, "--bay", bay]);
    daemon.until_said(|line| line.contains("socket"));
    let tell = |words: &[&str]| {
        let told = home.run(&[&["tell", "--bay", bay], words].concat());
        assert!(told.status.success(), "{}", stderr(&told));
    };
    let port = free_port();
    let anybody = "allow_anonymous true\npersistence false";
    let mut first = broker(&home, port, anybody);
    let url = format!("mqtt://127.0.0.1:{port}");
    let words = ["relay", "--bay", bay, "--broker", &url];
    let mut relay = home.start(&words);
    // Nobody keeps facts there yet: none is thrown away.
    relay.until(|line| line.contains("nobody at"));
    let mut read = Vec::new();
    let mut store = reader(port, "standpipe/+/fact", &[]);
    let all = facts(&home, bay);
    assert!(all.len() > 100, "a whole job: {}", all.len());
    read_to(&mut store, seq(all.last().unwrap()), &mut read);

    first.kill();
    relay.until(|line| line.contains("cannot be reached"));
    tell(&["start"]);
    tell(&["vehicle", "QL 42 ZZ"]);
    let _second = broker(&home, port, anybody);
    let all = facts(&home, bay);
    read_to(&mut store, seq(all.last().unwrap()), &mut read);

    relay.kill();
    let presence = format!("standpipe/{bay}/presence");
    assert_eq!(retained(port, &presence), serde_json::json!({"present": false, "why": "relay-lost"}));
    tell(&["confirm", "on-stands"]);
    let mut relay = home.start(&words);
    let all = facts(&home, bay);
    read_to(&mut store, seq(all.last().unwrap()), &mut read);
    let state = retained(port, &format!("standpipe/{bay}/state"));
    assert_eq!(state["verdict"], "wait");
    assert_eq!(state["job"]["job"], 2);
    assert_eq!(retained(port, &presence), serde_json::json!({"present": true}));

    let read = once(&read);
    assert_eq!(read.len(), all.len(), "none is missing, and none stands there in two ways");
    for (read, fact) in read.iter().zip(&all) {
        let personal = [r#""tell":"vehicle""#, r#""state":"vehicle""#].iter().any(|what| fact.contains(what));
        assert!(personal || read == fact, "{read}\n{fact}");
        assert!(!read.contains("QL 42") && !read.contains("ZZ9DEM"), "{read}");
        assert!(!personal || read.contains("(kept in the bay)"), "{read}");
    }
    assert!(!state.to_string().contains("QL 42"));

    // A job runs, nothing is read: a board shows that it waits for hands, and later that nobody hears of it.
    let mut board = home.start(&["board", "--broker", &url, "--json"]);
    let shows = |urgency: &str, line: &str| {
        let row: serde_json::Value = serde_json::from_str(line).unwrap();
        (&row["bay"], &row["urgency"]) == (&bay.into(), &urgency.into())
    };
    tell(&["note", "seen on the board"]);
    board.until(|line| shows("hands", line));

    // Ended in order it says so itself.
    let pid = rustix::process::Pid::from_child(&relay.child);
    rustix::process::kill_process(pid, rustix::process::Signal::TERM).unwrap();
    assert_eq!(relay.child.wait().unwrap().code(), Some(0));
    assert_eq!(retained(port, &presence), serde_json::json!({"present": false, "why": "relay-stopped"}));
    board.until(|line| shows("lost", line));
}

/// A file with a login that others cannot read.
fn login(folder: &Path, name: &str, password: &str) -> String {
    use std::os::unix::fs::PermissionsExt as _;
    let file = folder.join(format!("{name}-{password}.login"));
    std::fs::write(&file, format!("{name}\n{password}\n")).unwrap();
    std::fs::set_permissions(&file, std::fs::Permissions::from_mode(0o600)).unwrap();
    file.to_str().unwrap().to_owned()
}

fn done(command: &mut Command) {
    let output = command.stdin(Stdio::null()).output().unwrap();
    assert!(output.status.success(), "{command:?}: {}", stderr(&output));
}

#[test]
fn a_bay_publishes_under_its_own_name_to_a_broker_that_is_known() {
    if missing() {
        return;
    }
    let home = Home::new();
    let folder = home.path();
    let (key, certificate) = (folder.join("key.pem"), folder.join("broker.pem"));
    done(
        Command::new("openssl")
            .args(["req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "2", "-subj", "/CN=localhost"])
            .args([
                "-addext",
                "subjectAltName=DNS:localhost",
                "-addext",
                "basicConstraints=critical,CA:FALSE",
            ])
            .arg("-keyout")
            .arg(&key)
            .arg("-out")
            .arg(&certificate),
    );
    let passwords = folder.join("passwords");
    done(Command::new("mosquitto_passwd").arg("-b").arg("-c").arg(&passwords).args(["left", "secret"]));
    done(Command::new("mosquitto_passwd").arg("-b").arg(&passwords).args(["board", "looks"]));
    // The access list of docs/many-bays.md.
    let access = common::fixture("broker/access.list");
    let lines = format!(
        "certfile {}\nkeyfile {}\nallow_anonymous false\npassword_file {}\nacl_file {}",
        certificate.display(),
        key.display(),
        passwords.display(),
        access.display()
    );
    let port = free_port();
    let _broker = broker(&home, port, &lines);
    let url = format!("mqtts://localhost:{port}");
    let authority = certificate.to_str().unwrap();
    let mut daemons = Vec::new();
    for bay in ["left", "right"] {
        let mut daemon = home.start(&["serve", "--device", "none", "--bay", bay]);
        daemon.until_said(|line| line.contains("socket"));
        daemons.push(daemon);
    }
    let (right, wrong) = (login(folder, "left", "secret"), login(folder, "left", "guessed"));
    let relay = |bay: &str, login: &str| {
        home.run(&["relay", "--bay", bay, "--broker", &url, "--authority", authority, "--login", login])
    };
    for (bay, login) in [("left", &wrong), ("right", &right)] {
        let refused = relay(bay, login);
        assert_eq!(refused.status.code(), Some(77), "{bay}: {}", stderr(&refused));
        assert!(!stderr(&refused).contains("guessed"), "{}", stderr(&refused));
    }
    let plain = ["relay", "--bay", "left", "--broker", &url, "--login", &right];
    let mut unknown = home.start(&plain);
    let said = unknown.until(|line| line.contains("cannot be reached"));
    assert!(said.contains("TLS"), "a broker that nobody vouches for is told nothing: {said}");
    let mut known = home.start(&[
        "relay",
        "--bay",
        "left",
        "--broker",
        &url,
        "--authority",
        authority,
        "--login",
        &right,
    ]);
    known.until(|line| line.contains("the bay is heard"));

    // A board reads, with a login of its own, and may not publish.
    let board_login = login(folder, "board", "looks");
    let mut board =
        home.start(&["board", "--broker", &url, "--authority", authority, "--login", &board_login, "--json"]);
    board.until(|line| line.contains(r#""bay":"left""#));
    let published = Command::new("mosquitto_pub")
        .args(["-V", "mqttv5", "-h", "localhost", "-p", &port.to_string(), "--cafile", authority])
        .args(["-u", "board", "-P", "looks", "-q", "1", "-t", "standpipe/left/fact", "-m", "{}"])
        .output()
        .unwrap();
    assert!(stderr(&published).contains("Not authorized"), "{}", stderr(&published));
}
