//! The socket and the page against a crowd, a folder that is not ours, and signals. The built program, real processes;
//! every wait is for something that is said.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stderr,
    reason = "a test"
)]

mod common;

use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::TcpStream;
use std::os::unix::fs::PermissionsExt as _;
use std::os::unix::net::UnixStream;
use std::path::PathBuf;

use common::{Home, Process, behind, stderr, stdout};

fn socket(home: &Home) -> PathBuf {
    home.path().join("run/standpipe/bay.sock")
}

/// A simulated vehicle and a daemon on it that has said this.
fn said(home: &Home, more: &[&str], wanted: &str) -> (Process, Process, String) {
    let mut car = home.start(&["car"]);
    let device = car.line();
    let mut daemon = home.start(&[&["serve", "--device", &device], more].concat());
    let said = daemon.until_said(|l| l.contains(wanted));
    (car, daemon, said)
}

fn workshop(home: &Home, more: &[&str]) -> (Process, Process) {
    let (car, daemon, _) = said(home, more, "socket");
    (car, daemon)
}

#[test]
fn sixty_four_idle_connections_shut_out_neither_a_screen_nor_the_page() {
    let home = Home::new();
    let (_car, _daemon, page) = said(&home, &["--page", "127.0.0.1:0"], "page: ");
    let at = page.split('/').nth(2).unwrap();
    let mut live = TcpStream::connect(at).unwrap();
    write!(live, "GET /live HTTP/1.1\r\nHost: {at}\r\n\r\n").unwrap();
    let mut frames = BufReader::new(live).lines().map(Result::unwrap);
    let mut frame = |wanted: &str| frames.find(|l| l.contains(wanted)).unwrap();
    frame(r#""surface":"wait""#);
    let mut idle: Vec<BufReader<UnixStream>> = Vec::new();
    for _ in 0..70 {
        let mut stream = BufReader::new(UnixStream::connect(socket(&home)).unwrap());
        let mut hello = String::new();
        stream.read_line(&mut hello).unwrap();
        assert!(hello.contains(r#""kind":"hello""#), "{hello}");
        idle.push(stream);
    }
    // The page has its place still, a new screen gets one, and the oldest idle one was told.
    assert!(home.run(&["tell", "start"]).status.success());
    frame("job 1");
    let mut watch = home.start(&["watch"]);
    watch.until(|l| l.contains("job 1"));
    let mut rest = String::new();
    idle[0].read_to_string(&mut rest).unwrap();
    let last = rest.lines().last().unwrap();
    assert!(last.contains("bye") && last.contains("a newer connection has this place"), "{last}");
}

#[test]
fn a_storm_of_connections_starves_nobody_who_is_in() {
    let home = Home::new();
    let (mut car, daemon) = workshop(&home, &[]);
    let mut events = home.start(&["events", "--since", "0", "--only", "link,told"]);
    events.until(|l| l.contains(r#""state":"protocol""#));
    let path = socket(&home);
    let open = || std::fs::read_dir(format!("/proc/{}/fd", daemon.child.id())).map_or(0, Iterator::count);
    let mut most = 0;
    for n in 0..5_000 {
        // Where the system's own queue is full that is as good as any.
        drop(UnixStream::connect(&path));
        if n % 100 == 0 {
            most = most.max(open());
        }
    }
    car.type_line("unplug");
    events.until(|l| l.contains(r#""state":"lost""#));
    let told = home.run(&["tell", "start"]);
    assert!(told.status.success(), "{}", stderr(&told));
    events.until(|l| l.contains(r#""tell":"start""#));
    assert!(most < 200, "{most} descriptors");
}

#[test]
fn a_guessable_folder_that_is_open_to_others_is_refused_by_daemon_and_clients() {
    let home = Home::new();
    let mut car = home.start(&["car"]);
    let device = car.line();
    let user = rustix::process::geteuid().as_raw();
    let folder = home.path().join(format!("standpipe-{user}"));
    let run = |words: &[&str]| home.command(words).env_remove("XDG_RUNTIME_DIR").output().unwrap();
    std::fs::create_dir(&folder).unwrap();
    for mode in [0o755, 0o777] {
        std::fs::set_permissions(&folder, std::fs::Permissions::from_mode(mode)).unwrap();
        for words in [&["serve", "--device", &device][..], &["events"], &["tell", "start"]] {
            let output = run(words);
            assert_eq!(output.status.code(), Some(77), "{words:?}: {}", stderr(&output));
            let said = stderr(&output);
            assert!(said.contains("is not ours alone") && said.contains("XDG_RUNTIME_DIR"), "{said}");
        }
    }
    // A link to a folder of somebody's is no folder of ours.
    std::fs::remove_dir(&folder).unwrap();
    std::os::unix::fs::symlink(home.path(), &folder).unwrap();
    assert_eq!(run(&["events"]).status.code(), Some(77));
    std::fs::remove_file(&folder).unwrap();
    assert_eq!(run(&["events"]).status.code(), Some(69), "nobody is there");

    let mut command = home.command(&["serve", "--device", &device]);
    command
        .env_remove("XDG_RUNTIME_DIR")
        .stdout(std::process::Stdio::piped())
        .stderr(std::process::Stdio::piped());
    let mut daemon = Process::of(command.spawn().unwrap());
    daemon.until_said(|l| l.contains("socket"));
    assert_eq!(folder.metadata().unwrap().permissions().mode() & 0o777, 0o700, "made by us, for us");
    assert!(run(&["tell", "start"]).status.success());
}

/// Ends the daemon by a signal; gives the last line of a client that was connected.
fn ended_by(home: &Home, daemon: &mut Process, signal: &str) -> String {
    let mut stream = BufReader::new(UnixStream::connect(socket(home)).unwrap());
    let mut hello = String::new();
    stream.read_line(&mut hello).unwrap();
    let pid = daemon.child.id().to_string();
    assert!(std::process::Command::new("kill").args([signal, &pid]).status().unwrap().success());
    let mut rest = String::new();
    stream.read_to_string(&mut rest).unwrap();
    rest.lines().last().unwrap_or_default().to_owned()
}

#[test]
fn every_signal_that_ends_it_ends_it_in_order() {
    for signal in ["-TERM", "-INT", "-HUP"] {
        let home = Home::new();
        let (_car, mut daemon) = workshop(&home, &[]);
        let last = ended_by(&home, &mut daemon, signal);
        assert!(last.contains(r#""kind":"bye""#), "{signal}: {last}");
        assert_eq!(daemon.child.wait().unwrap().code(), Some(0), "{signal}");
        assert!(!socket(&home).exists(), "{signal}: the socket is gone");
    }
}

#[test]
fn a_signal_that_was_to_be_ignored_is_ignored() {
    let home = Home::new();
    let mut car = home.start(&["car"]);
    let device = car.line();
    let serve = home.command(&["serve", "--device", &device]);
    let mut shell = behind(&["sh", "-c", "trap '' HUP; exec \"$0\" \"$@\""], &serve);
    let piped = std::process::Stdio::piped;
    let mut daemon = Process::of(shell.stdout(piped()).stderr(piped()).spawn().unwrap());
    daemon.until_said(|l| l.contains("socket"));
    let pid = daemon.child.id().to_string();
    assert!(std::process::Command::new("kill").args(["-HUP", &pid]).status().unwrap().success());
    // Had it ended, nobody would answer.
    assert!(home.run(&["tell", "start"]).status.success());
    assert!(daemon.child.try_wait().unwrap().is_none());
}

#[test]
fn the_number_of_clients_is_a_persons_choice() {
    let home = Home::new();
    let (_car, _daemon) = workshop(&home, &["--clients", "2"]);
    let mut first = BufReader::new(UnixStream::connect(socket(&home)).unwrap());
    let _second = UnixStream::connect(socket(&home)).unwrap();
    let mut all = String::new();
    first.read_to_string(&mut all).unwrap();
    assert!(all.lines().last().unwrap().contains("bye"), "one place is the page's: {all}");
    let bad = home.run(&["serve", "--device", "none", "--clients", "0"]);
    assert_eq!(bad.status.code(), Some(64), "{}", stderr(&bad));
    assert_eq!(stdout(&bad), "");
}

#[test]
fn whoever_closes_his_side_still_gets_his_answer() {
    let home = Home::new();
    let (_car, _daemon) = workshop(&home, &[]);
    let mut stream = UnixStream::connect(socket(&home)).unwrap();
    stream.write_all(b"{\"id\":\"1\",\"tell\":\"start\"}\n").unwrap();
    stream.shutdown(std::net::Shutdown::Write).unwrap();
    let mut all = String::new();
    stream.read_to_string(&mut all).unwrap();
    assert!(all.contains(r#""kind":"accepted","id":"1""#), "{all}");
    assert!(all.lines().last().unwrap().contains("you closed your side"), "{all}");
}

#[test]
fn a_status_says_how_the_bay_is_to_people_and_by_its_exit_code() {
    let home = Home::new();
    let none = home.run(&["status"]);
    assert_eq!(none.status.code(), Some(69), "{}", stderr(&none));
    let (mut car, _daemon) = workshop(&home, &["--clients", "3"]);
    // Waited for: a reading comes when the adapter is set up.
    let mut events = home.start(&["events", "--only", "reading"]);
    events.until(|l| l.contains(r#""name":"fluid-temperature""#));
    let well = home.run(&["status", "--json"]);
    assert_eq!((well.status.code(), stderr(&well)), (Some(0), String::new()));
    let said = common::last_line(&well);
    let of = |at: &str| said.pointer(at).cloned().unwrap_or_default();
    assert_eq!(
        (of("/health"), of("/link/up"), of("/ailments")),
        ("healthy".into(), true.into(), serde_json::json!([]))
    );
    assert_eq!((of("/clients"), of("/clients_most")), (2.into(), 3.into()), "the events and this one");
    assert!(of("/reading/celsius").is_f64() && of("/journal/free_bytes").is_u64(), "{said}");
    car.kill();
    let mut lost = home.start(&["events", "--only", "link", "--since", "0"]);
    lost.until(|l| l.contains(r#""state":"lost""#));
    let waits = home.run(&["status", "--json"]);
    assert_eq!((waits.status.code(), stderr(&waits)), (Some(75), String::new()), "all is said on stdout");
    assert_eq!(common::last_line(&waits)["ailments"], serde_json::json!(["no-adapter"]));
    assert_eq!(home.run(&["status", "--idle"]).status.code(), Some(0), "nothing need be plugged in");
}

#[test]
fn a_configuration_is_what_the_command_line_does_not_say() {
    let home = Home::new();
    let path = home.path().join("bay.toml");
    std::fs::write(&path, "device = \"/dev/no-such-adapter\"\nwait = true\nclients = 5\n").unwrap();
    let config = path.to_str().unwrap();
    let mut daemon = home.start(&["serve", "--config", config, "--clients", "7"]);
    daemon.until_said(|l| l.contains("is waited for"));
    daemon.until_said(|l| l.contains("socket"));
    let said = common::last_line(&home.run(&["status", "--json"]));
    assert_eq!((&said["device"], &said["clients_most"]), (&"/dev/no-such-adapter".into(), &7.into()));
    std::fs::write(&path, "device = \"auto\"\nclient = 5\n").unwrap();
    let bad = home.run(&["serve", "--config", config]);
    assert_eq!(bad.status.code(), Some(78));
    for want in ["bay.toml", "line 2", "unknown field `client`", "--config-example"] {
        assert!(stderr(&bad).contains(want), "{want}: {}", stderr(&bad));
    }
}

#[test]
fn the_service_manager_hears_that_it_is_ready_that_its_loop_turns_and_that_it_ends() {
    let home = Home::new();
    let at = home.path().join("manager");
    let manager = std::os::unix::net::UnixDatagram::bind(&at).unwrap();
    // One that says nothing fails the test instead of hanging it.
    manager.set_read_timeout(Some(std::time::Duration::from_secs(600))).unwrap();
    let heard = || {
        let mut message = [0; 1_024];
        let n = manager.recv(&mut message).unwrap();
        String::from_utf8_lossy(&message[..n]).into_owned()
    };
    let mut command = home.command(&["serve", "--device", "none"]);
    // The pulse comes in half of the time that is named, and nothing here waits for less.
    command.env("NOTIFY_SOCKET", &at).env("WATCHDOG_USEC", "200000");
    let child =
        command.stdout(std::process::Stdio::piped()).stderr(std::process::Stdio::null()).spawn().unwrap();
    let mut daemon = Process::of(child);
    let ready = heard();
    assert!(ready.contains("READY=1") && ready.contains("STATUS=bay bay: adapter none"), "{ready}");
    for _ in 0..3 {
        assert_eq!(heard().trim(), "WATCHDOG=1");
    }
    let pid = rustix::process::Pid::from_child(&daemon.child);
    rustix::process::kill_process(pid, rustix::process::Signal::TERM).unwrap();
    while heard().trim() != "STOPPING=1" {}
    assert!(daemon.child.wait().unwrap().success());
}
