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

use common::{Home, Process, stderr, stdout};

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
    let mut shell = std::process::Command::new("sh");
    shell.args(["-c", "trap '' HUP; exec \"$0\" \"$@\""]).arg(serve.get_program()).args(serve.get_args());
    for (name, value) in serve.get_envs() {
        match value {
            Some(value) => shell.env(name, value),
            None => shell.env_remove(name),
        };
    }
    let piped = std::process::Stdio::piped;
    let mut daemon = Process::of(
        shell.stdin(std::process::Stdio::null()).stdout(piped()).stderr(piped()).spawn().unwrap(),
    );
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
