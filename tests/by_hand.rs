//! The same job by hand: `car` in one terminal, `serve` in the second, `events` in the third, `tell` in the fourth.
//! Real processes, a real pseudo-terminal, real time; every wait is for an event, none for a span of time.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use common::{Home, Process, fixture, stderr, stdout};

fn workshop(home: &Home) -> (Process, Process) {
    let mut car = home.start(&["car"]);
    let device = car.line();
    (car, serve(home, &device))
}

fn serve(home: &Home, device: &str) -> Process {
    let sheet = fixture("sheets/demo-six-speed.toml");
    let mut daemon = home.start(&["serve", "--device", device, "--sheet", sheet.to_str().unwrap()]);
    daemon.until_said(|l| l.contains("socket"));
    daemon
}

fn tell(home: &Home, words: &[&str]) -> String {
    let output = home.run(&[&["tell", "--json"], words].concat());
    assert!(output.status.success(), "{words:?}: {}", stderr(&output));
    stdout(&output)
}

#[test]
fn car_serve_events_and_tell_work_together() {
    let home = Home::new();
    let (mut car, _daemon) = workshop(&home);
    let mut events = home.start(&["events", "--since", "0"]);
    let fluid = events.until(|l| l.contains(r#""name":"fluid-temperature""#));
    assert!(fluid.contains(r#""value":20.0"#) && fluid.contains(r#""from":"7E9""#), "{fluid}");

    assert!(tell(&home, &["start"]).contains(r#""advice":"prepare-vehicle""#));
    for what in ["on-stands", "ventilated"] {
        tell(&home, &["confirm", what]);
    }
    assert!(tell(&home, &["level", "--pitch", "0.1deg", "--roll", "-0.1deg"]).contains(r#""advice":"park""#));
    assert!(tell(&home, &["confirm", "parked"]).contains(r#""advice":"open-fill-port""#));
    assert!(tell(&home, &["confirm", "fill-port-open"]).contains(r#""advice":"read-container""#));
    assert!(tell(&home, &["confirm", "fluid-right"]).contains(r#""advice":"drain""#));
    assert!(tell(&home, &["drained", "2.4L", "--at", "68F"]).contains(r#""advice":"put-pipe-in""#));
    assert!(tell(&home, &["confirm", "pipe-in"]).contains(r#""advice":"fill""#));
    events.until(|l| l.contains(r#""kind":"balance","drained_millilitres":2400"#));
    tell(&home, &["filled", "2.9L", "--at", "20C"]);
    car.type_line("engine on");
    events.until(|l| l.contains(r#""precondition":"engine-idling","holds":true"#));

    let refused = home.run(&["tell", "trickle"]);
    assert_eq!(refused.status.code(), Some(65), "{}", stderr(&refused));
    assert!(stderr(&refused).contains("refused:"));
    let shown = home.run(&["tell", "confirm", "engine-running"]);
    assert!(stderr(&shown).contains("The vehicle itself shows this"), "{}", stderr(&shown));

    car.type_line("unplug");
    events.until(|l| l.contains(r#""kind":"link","state":"lost""#));
    events.until(|l| l.contains(r#""kind":"verdict","verdict":"wait","reasons":["link-lost""#));
    car.type_line("plug");
    events.until(|l| l.contains(r#""kind":"link","state":"protocol""#));
}

#[test]
fn a_second_daemon_for_the_same_bay_is_refused_and_a_dead_socket_is_taken_over() {
    let home = Home::new();
    let (_car, mut daemon) = workshop(&home);
    let mut other = home.start(&["car"]);
    let device = other.line();
    let sheet = fixture("sheets/demo-six-speed.toml");
    let second = home.run(&["serve", "--device", &device, "--sheet", sheet.to_str().unwrap()]);
    assert_eq!(second.status.code(), Some(75), "{}", stderr(&second));
    assert!(stderr(&second).contains("another daemon already serves"), "{}", stderr(&second));
    daemon.kill();
    let _again = serve(&home, &device);
    assert!(tell(&home, &["start"]).contains("accepted"));
}

/// Kill the daemon with -9 after every step that was accepted, start it again: the job goes on where it was.
#[test]
fn a_daemon_killed_at_any_step_goes_on_where_it_was() {
    let home = Home::new();
    let mut car = home.start(&["car"]);
    let device = car.line();
    let steps: &[&[&str]] = &[
        &["start"],
        &["confirm", "on-stands"],
        &["confirm", "ventilated"],
        &["confirm", "parked"],
        &["confirm", "vehicle-level"],
        &["confirm", "fill-port-open"],
        &["confirm", "fluid-right"],
        &["drained", "2.4L", "--at", "22C"],
        &["confirm", "pipe-in"],
        &["filled", "2.9L", "--at", "22C"],
        &["confirm", "closed-up"],
    ];
    for step in steps {
        let mut daemon = serve(&home, &device);
        tell(&home, step);
        daemon.kill();
    }
    car.type_line("engine on");
    let _daemon = serve(&home, &device);
    let mut events = home.start(&["events", "--since", "0"]);
    events.until(|l| l.contains(r#""precondition":"engine-idling","holds":true"#));
    let seen = home.run(&["events", "--since", "0", "--no-follow", "--json"]);
    let text = stdout(&seen);
    let told: Vec<&str> = text.lines().filter(|l| l.contains(r#""kind":"told""#)).collect();
    assert_eq!(told.len(), steps.len(), "every accepted request is there, once: {told:#?}");
    let seqs: Vec<u64> = text
        .lines()
        .map(|l| serde_json::from_str::<serde_json::Value>(l).unwrap()["seq"].as_u64().unwrap())
        .collect();
    assert!(seqs.is_sorted_by(|a, b| a < b), "numbers only grow, across {} crashes", steps.len());
    assert!(tell(&home, &["confirm", "brake-held"]).contains(r#""advice":"come-out""#), "nobody said clear");
    assert!(
        tell(&home, &["confirm", "clear", "--by", "under"]).contains(r#""advice":"cycle-selector""#),
        "the job goes on"
    );
}

/// A cellular modem on the port (as in public reports, fixtures/reference/adapter, X011 and X012) is told apart.
#[test]
fn what_is_no_adapter_is_said_so() {
    use std::io::{Read as _, Write as _};
    let modem = std::net::TcpListener::bind("127.0.0.1:0").unwrap();
    let device = format!("tcp:{}", modem.local_addr().unwrap());
    std::thread::spawn(move || {
        for mut stream in modem.incoming().flatten() {
            std::thread::spawn(move || {
                let mut buffer = [0; 256];
                while stream.read(&mut buffer).is_ok_and(|n| n > 0)
                    && stream.write_all(b"\r\nERROR\r\n").is_ok()
                {}
            });
        }
    });
    let home = Home::new();
    let mut daemon = serve(&home, &device);
    let said = daemon.until_said(|l| l.contains("not an adapter"));
    assert!(said.contains("WARN"), "{said}");
    let mut events = home.start(&["events", "--since", "0"]);
    let fault = events.until(|l| l.contains(r#""fault":"not-an-adapter""#));
    assert!(fault.contains("modem"), "{fault}");
}

#[test]
fn a_hostile_client_delays_nobody() {
    use std::io::{Read as _, Write as _};
    use std::os::unix::net::UnixStream;
    let home = Home::new();
    let (_car, _daemon) = workshop(&home);
    let socket = home.path().join("run/standpipe/bay.sock");
    let mut noise = UnixStream::connect(&socket).unwrap();
    let _ = noise.write_all(&vec![b'x'; 100_000]);
    let mut answer = String::new();
    let _ = noise.read_to_string(&mut answer);
    assert!(answer.contains("that line was too long"), "{answer}");
    let mut nonsense = UnixStream::connect(&socket).unwrap();
    nonsense.write_all(b"{\"tell\":\"fly\",\"id\":\"1\"}\n").unwrap();
    let mut lines = std::io::BufRead::lines(std::io::BufReader::new(nonsense));
    let refused = lines.find_map(|l| l.ok().filter(|l| l.contains("refused"))).unwrap();
    assert!(refused.contains("not-understood") && refused.contains("unknown variant"), "{refused}");
    let _silent: Vec<UnixStream> = (0..40).map(|_| UnixStream::connect(&socket).unwrap()).collect();
    assert!(tell(&home, &["start"]).contains("accepted"));
}
