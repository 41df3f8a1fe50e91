//! Who is let in, and what happens to those who are not: over plain TCP, without a browser.
//!
//! A real page on a port of this machine. Nothing waits for ever: a stream that should end is given up after a minute.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::expect_used,
    reason = "test code"
)]

mod bench;

use std::io::{ErrorKind, Read, Write as _};
use std::net::{SocketAddr, TcpStream};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};

use page::{Config, JobRow, Limits, Shelf};
use words::Lang;

use bench::{Moment, OneJob, Served, config, serve, serve_as};

/// Longer than anything here takes on a busy machine; a test that would hang fails after it.
const PATIENCE: Duration = Duration::from_secs(60);

/// Reads to the end, or fails: also where more and more comes and never an end.
fn rest(stream: &mut TcpStream) -> Vec<u8> {
    let until = Instant::now() + PATIENCE;
    stream.set_read_timeout(Some(PATIENCE)).unwrap();
    let (mut all, mut buffer) = (Vec::new(), [0; 64 * 1024]);
    loop {
        assert!(Instant::now() < until, "it does not end");
        match stream.read(&mut buffer) {
            Ok(0) => return all,
            Ok(n) => all.extend_from_slice(&buffer[..n]),
            Err(e) if e.kind() == ErrorKind::ConnectionReset => return all,
            Err(e) => panic!("it does not end: {e}"),
        }
    }
}

/// A page that wants pairings, with a daemon behind it.
fn paired() -> (tempfile::TempDir, Moment, Served) {
    let folder = tempfile::tempdir().unwrap();
    let said = Moment::say(&folder.path().join("socket"), "go");
    // Beside ten thousand connections of another test the answer may take longer than a thumb would wait.
    let limits = Limits { answer_within: PATIENCE, ..Limits::default() };
    let served = serve(folder.path(), true, None, limits);
    (folder, said, served)
}

/// Sends it and reads until the other side closes or has said what was announced; gives status and the whole answer.
fn ask(at: SocketAddr, request: &str) -> (u16, String) {
    let mut stream = TcpStream::connect(at).unwrap();
    let _ = stream.write_all(request.as_bytes());
    let bytes = rest(&mut stream);
    let text = String::from_utf8_lossy(&bytes).into_owned();
    let status = text.split(' ').nth(1).and_then(|s| s.parse().ok()).unwrap_or(0);
    (status, text)
}

fn get(served: &Served, path: &str, headers: &str) -> (u16, String) {
    let at = served.at;
    ask(at, &format!("GET {path} HTTP/1.1\r\nHost: {at}\r\nConnection: close\r\n{headers}\r\n"))
}

fn post(served: &Served, path: &str, headers: &str, body: &str) -> (u16, String) {
    let (at, length) = (served.at, body.len());
    ask(
        at,
        &format!(
            "POST {path} HTTP/1.1\r\nHost: {at}\r\nOrigin: http://{at}\r\nContent-Length: {length}\r\nConnection: close\r\n{headers}\r\n{body}"
        ),
    )
}

fn cookie(served: &Served, token: &str) -> String {
    format!("Cookie: standpipe-{}={token}\r\n", served.at.port())
}

/// Pairs as a browser would; gives the cookie line.
fn pair(served: &Served) -> String {
    let code = served.pairings.new_code().unwrap();
    let (status, answer) = post(served, "/pair", "", &format!(r#"{{"code":"{code}"}}"#));
    assert_eq!(status, 200, "{answer}");
    assert!(answer.contains("HttpOnly; SameSite=Strict"), "{answer}");
    let token = answer.split(&format!("standpipe-{}=", served.at.port())).nth(1).unwrap();
    cookie(served, token.split(';').next().unwrap())
}

const ASKING: &str = r#"{"file":"old-six","said":"as specified"}"#;
const TELLING: &str = r#"{"id":"a","seat":"under","said":{"tell":"flowing"}}"#;

#[test]
fn without_a_pairing_nothing_is_told_and_nothing_is_heard() {
    let (_folder, said, served) = paired();
    for path in ["/who", "/live", "/jobs", "/job/1", "/plan"] {
        assert_eq!(get(&served, path, "").0, 401, "{path}");
        assert_eq!(
            get(&served, path, &cookie(&served, &"0".repeat(64))).0,
            401,
            "{path}, a token of nobody's"
        );
    }
    assert_eq!(post(&served, "/tell", "", TELLING).0, 401);
    assert_eq!(post(&served, "/sheet", "", ASKING).0, 401);
    assert_eq!(get(&served, "/sheets", "").0, 401);
    assert!(said.told.try_recv().is_err());
    let (status, page) = get(&served, "/", "");
    assert!(
        status == 200 && page.contains("script-src 'self'") && page.contains("frame-ancestors 'none'"),
        "{page}"
    );
}

#[test]
fn a_paired_browser_tells_and_a_revoked_one_does_not() {
    let (_folder, said, served) = paired();
    let cookie = pair(&served);
    let (status, answer) = post(&served, "/tell", &cookie, TELLING);
    assert!(status == 200 && answer.contains("Entered."), "{answer}");
    assert!(said.told.recv_timeout(Duration::from_secs(30)).unwrap().contains("flowing"));
    // A stream that is open when it is revoked ends.
    let at = served.at;
    let mut live = TcpStream::connect(at).unwrap();
    live.set_read_timeout(Some(Duration::from_secs(30))).unwrap();
    write!(live, "GET /live HTTP/1.1\r\nHost: {at}\r\nConnection: close\r\n{cookie}\r\n").unwrap();
    let mut first = [0; 16];
    live.read_exact(&mut first).unwrap();
    let id = served.pairings.list().unwrap()[0].id;
    assert_eq!(served.pairings.revoke(Some(id)).unwrap(), 1);
    rest(&mut live);
    assert_eq!(get(&served, "/who", &cookie).0, 401, "an old token");
    assert_eq!(post(&served, "/tell", &cookie, TELLING).0, 401);
}

#[test]
fn a_link_that_shows_does_not_tell() {
    let (_folder, said, served) = paired();
    let link = served.pairings.new_link("the wall").unwrap();
    assert_eq!(post(&served, "/pair", "", &format!(r#"{{"link":"{link}"}}"#)).0, 200);
    let cookie = cookie(&served, &link);
    let (status, who) = get(&served, "/who", &cookie);
    assert!(status == 200 && who.contains(r#""may":"see""#), "{who}");
    assert_eq!(post(&served, "/tell", &cookie, TELLING).0, 403);
    assert_eq!(post(&served, "/sheet", &cookie, ASKING).0, 403, "a link that shows corrects no sheet");
    assert!(said.told.try_recv().is_err());
}

#[test]
fn a_guesser_is_locked_out_after_few_tries() {
    let (_folder, _said, served) = paired();
    let code = served.pairings.new_code().unwrap();
    for _ in 0..5 {
        assert_eq!(post(&served, "/pair", "", r#"{"code":"AAAAAAAA"}"#).0, 403);
    }
    assert_eq!(
        post(&served, "/pair", "", &format!(r#"{{"code":"{code}"}}"#)).0,
        429,
        "even with the right one"
    );
}

#[test]
fn other_names_other_origins_and_other_paths_are_refused() {
    let (_folder, said, served) = paired();
    let (at, cookie) = (served.at, pair(&served));
    let port = at.port();
    let raw = |request: String| ask(at, &request).0;
    let close = "Connection: close\r\n";
    let head = |host: &str| format!("GET /who HTTP/1.1\r\nHost: {host}\r\n{close}{cookie}\r\n");
    assert_eq!(raw(head(&format!("evil.example:{port}"))), 421, "a rebound name");
    assert_eq!(raw(head(&format!("127.0.0.1.evil.example:{port}"))), 421);
    assert_eq!(raw(format!("GET /who HTTP/1.1\r\n{close}{cookie}\r\n")), 421, "no host");
    for origin in ["http://evil.example", "null", "https://127.0.0.1"] {
        let length = TELLING.len();
        let request = format!(
            "POST /tell HTTP/1.1\r\nHost: {at}\r\nOrigin: {origin}\r\n{close}{cookie}Content-Length: {length}\r\n\r\n{TELLING}"
        );
        assert_eq!(raw(request), 403, "{origin}");
    }
    assert_eq!(get(&served, "/live", &format!("{cookie}Sec-Fetch-Site: cross-site\r\n")).0, 403);
    for path in [
        "/../../etc/passwd",
        "/page.css/../../secret",
        "/%2e%2e/%2e%2e/etc/passwd",
        "/job/..%2f..%2fetc",
        "//etc/passwd",
    ] {
        let (status, answer) = get(&served, path, &cookie);
        assert!(matches!(status, 400 | 404), "{path}: {answer}");
        assert!(!answer.contains("root:"), "{path}");
    }
    assert!(said.told.try_recv().is_err());
}

#[test]
fn what_is_too_large_or_malformed_is_refused() {
    let (_folder, said, served) = paired();
    let cookie = pair(&served);
    let long = "x".repeat(100_000);
    assert!(matches!(get(&served, &format!("/{long}"), &cookie).0, 0 | 400 | 414 | 431));
    assert!(matches!(get(&served, "/who", &format!("X-Long: {long}\r\n{cookie}")).0, 0 | 400 | 431));
    let note = format!(r#"{{"id":"a","said":{{"tell":"note","text":"{long}"}}}}"#);
    assert!(matches!(post(&served, "/tell", &cookie, &note).0, 0 | 413));
    // A shared sheet may be longer, up to its own limit, from those who may tell and from nobody else.
    let taken = |text: &str| format!(r#"{{"file":"a","act":{{"take":{{"text":"{text}"}}}}}}"#);
    let (sheet, most) = (taken(&long), page::Limits::default().sheet_bytes);
    assert_eq!(post(&served, "/sheet", &cookie, &sheet).0, 422, "no sheets are made here, but it was read");
    assert!(matches!(post(&served, "/sheet", "", &sheet).0, 0 | 413), "a stranger");
    let link = served.pairings.new_link("wall").unwrap();
    let sees = self::cookie(&served, &link);
    assert!(matches!(post(&served, "/sheet", &sees, &sheet).0, 0 | 413), "one who only sees");
    assert!(matches!(post(&served, "/sheet", &cookie, &taken(&"x".repeat(most))).0, 0 | 413), "too long");
    let cases = [
        ("", 400),
        ("[]", 400),
        (r#"{"id":"","said":{"tell":"start"}}"#, 400),
        (r#"{"id":"a","said":{"tell":"fly"}}"#, 422),
        (r#"{"id":"a","said":{"tell":"start","more":1}}"#, 400),
        (r#"{"id":"a","said":{"tell":"drained","amount":"2.4"}}"#, 422),
    ];
    for (body, want) in cases {
        let (status, answer) = post(&served, "/tell", &cookie, body);
        assert_eq!(status, want, "{body}: {answer}");
    }
    assert!(said.told.try_recv().is_err());
    assert_eq!(get(&served, "/who", &cookie).0, 200, "and it goes on");
}

/// Each begins a request and never ends it; as many are kept open as this process may.
#[test]
fn ten_thousand_slow_connections_shut_nobody_out() {
    let (_folder, _said, served) = paired();
    let (at, cookie) = (served.at, pair(&served));
    let mut live = TcpStream::connect(at).unwrap();
    live.set_read_timeout(Some(Duration::from_secs(30))).unwrap();
    write!(live, "GET /live HTTP/1.1\r\nHost: {at}\r\n{cookie}\r\n").unwrap();
    let mut buffer = [0; 64 * 1024];
    assert!(live.read(&mut buffer).unwrap() > 0);
    let mut open = std::collections::VecDeque::new();
    for n in 0..10_000 {
        if let Ok(mut slow) = TcpStream::connect(at) {
            let _ = slow.write_all(b"GET /who HTTP/1.1\r\nHost: ");
            open.push_back(slow);
        }
        if open.len() > 800 {
            open.pop_front();
        }
        if n % 1_000 == 0 {
            assert!(live.read(&mut buffer).unwrap() > 0, "the page that was there goes on, at {n}");
            assert_eq!(get(&served, "/who", &cookie).0, 200, "and a new one is let in, at {n}");
        }
    }
    let beats = (0..5).map(|_| live.read(&mut buffer).unwrap()).filter(|n| *n > 0).count();
    assert_eq!(beats, 5);
    assert_eq!(get(&served, "/who", &cookie).0, 200);
}

/// As a proxy on this machine passes a request on.
fn by_proxy(served: &Served, method: &str, path: &str, headers: &str, body: &str) -> (u16, String) {
    let request = format!(
        "{method} {path} HTTP/1.1\r\nHost: bay.example\r\nOrigin: https://bay.example\r\nX-Forwarded-For: 192.0.2.9\r\n\
         X-Forwarded-Proto: https\r\nConnection: close\r\nContent-Length: {}\r\n{headers}\r\n{body}",
        body.len()
    );
    ask(served.at, &request)
}

#[test]
fn behind_a_proxy_everybody_is_asked_and_the_cookie_never_travels_in_clear() {
    for name in ["bay.example", "https://bay.example"] {
        let folder = tempfile::tempdir().unwrap();
        let said = Moment::say(&folder.path().join("socket"), "go");
        let names = vec![name.parse().unwrap()];
        let limits = Limits { answer_within: PATIENCE, ..Limits::default() };
        let served = serve_as(Config { names, ..config(folder.path(), false, limits) });
        assert_eq!(by_proxy(&served, "GET", "/who", "", "").0, 401, "{name}");
        assert_eq!(by_proxy(&served, "GET", "/live", "", "").0, 401, "{name}");
        assert_eq!(by_proxy(&served, "POST", "/tell", "", TELLING).0, 401, "{name}");
        assert_eq!(get(&served, "/who", "").0, 401, "{name}, on the machine itself too");
        let code = served.pairings.new_code().unwrap();
        let (status, answer) = by_proxy(&served, "POST", "/pair", "", &format!(r#"{{"code":"{code}"}}"#));
        assert!(
            status == 200 && answer.contains("; HttpOnly; SameSite=Strict; Max-Age=31536000; Secure"),
            "{answer}"
        );
        let token = answer.split(&format!("standpipe-{}=", served.at.port())).nth(1).unwrap();
        let cookie = cookie(&served, token.split(';').next().unwrap());
        assert_eq!(by_proxy(&served, "POST", "/tell", &cookie, TELLING).0, 200, "{name}");
        assert!(said.told.recv_timeout(PATIENCE).unwrap().contains("flowing"));
    }
}

#[test]
fn what_a_proxy_passes_on_is_not_taken_for_this_machines_own() {
    let folder = tempfile::tempdir().unwrap();
    let said = Moment::say(&folder.path().join("socket"), "go");
    let served = serve(folder.path(), false, None, Limits { answer_within: PATIENCE, ..Limits::default() });
    assert_eq!(get(&served, "/who", "").0, 200, "nobody is asked on the machine itself");
    for header in
        ["X-Forwarded-For: 192.0.2.9", "Forwarded: for=192.0.2.9", "Via: 1.1 proxy", "X-Real-IP: 192.0.2.9"]
    {
        let header = format!("{header}\r\n");
        assert_eq!(get(&served, "/who", &header).0, 401, "{header}");
        assert_eq!(get(&served, "/live", &header).0, 401, "{header}");
        assert_eq!(post(&served, "/tell", &header, TELLING).0, 401, "{header}");
    }
    assert!(said.told.try_recv().is_err());
}

#[test]
fn without_tls_the_cookie_says_nothing_of_it() {
    let (_folder, _said, served) = paired();
    let code = served.pairings.new_code().unwrap();
    let (_, answer) =
        post(&served, "/pair", "X-Forwarded-Proto: https\r\n", &format!(r#"{{"code":"{code}"}}"#));
    assert!(answer.contains("HttpOnly") && !answer.contains("Secure"), "{answer}");
}

#[test]
fn a_guesser_behind_the_proxy_shuts_out_himself_alone() {
    let folder = tempfile::tempdir().unwrap();
    let _said = Moment::say(&folder.path().join("socket"), "go");
    let names = vec!["bay.example".parse().unwrap()];
    let served = serve_as(Config { names, ..config(folder.path(), false, Limits::default()) });
    let code = served.pairings.new_code().unwrap();
    let from = |ip: &str, code: &str| {
        let body = format!(r#"{{"code":"{code}"}}"#);
        let request = format!(
            "POST /pair HTTP/1.1\r\nHost: bay.example\r\nOrigin: https://bay.example\r\nX-Forwarded-For: 198.51.100.1, {ip}\r\n\
             Connection: close\r\nContent-Length: {}\r\n\r\n{body}",
            body.len()
        );
        ask(served.at, &request).0
    };
    for _ in 0..5 {
        assert_eq!(from("192.0.2.9", "AAAAAAAA"), 403);
    }
    assert_eq!(from("192.0.2.9", &code), 429);
    assert_eq!(from("192.0.2.10", &code), 200, "the technician pairs");
}

/// An open stream of this bearer, of which something was read.
fn stream(served: &Served, cookie: &str) -> TcpStream {
    let mut live = TcpStream::connect(served.at).unwrap();
    live.set_read_timeout(Some(PATIENCE)).unwrap();
    write!(live, "GET /live HTTP/1.1\r\nHost: {}\r\n{cookie}\r\n", served.at).unwrap();
    assert!(live.read(&mut [0; 1_024]).unwrap() > 0);
    live
}

#[test]
fn streams_of_a_link_that_only_shows_end_for_a_browser_that_tells_and_never_the_other_way() {
    let folder = tempfile::tempdir().unwrap();
    let _said = Moment::say(&folder.path().join("socket"), "go");
    let limits = Limits { connections: 8, per_pairing: 6, ..Limits::default() };
    let served = serve(folder.path(), true, None, limits);
    let tells = pair(&served);
    let mut own = stream(&served, &tells);
    let links: Vec<String> =
        (0..2).map(|_| cookie(&served, &served.pairings.new_link("the wall").unwrap())).collect();
    // One link has no more than its share, whoever waits for a place or not.
    let mut first = stream(&served, &links[0]);
    let more: Vec<TcpStream> = (0..6).map(|_| stream(&served, &links[0])).collect();
    rest(&mut first);
    // Many links fill all places, and more.
    let others: Vec<TcpStream> = (0..20).map(|_| stream(&served, &links[1])).collect();
    assert_eq!(get(&served, "/who", &tells).0, 200, "a browser that tells is let in");
    let second = stream(&served, &tells);
    let mut buffer = [0; 64 * 1024];
    for _ in 0..5 {
        assert!(own.read(&mut buffer).unwrap() > 0, "and what it had goes on");
    }
    drop((more, others, second));
}

#[test]
fn a_body_that_does_not_come_is_not_waited_for() {
    let folder = tempfile::tempdir().unwrap();
    let _said = Moment::say(&folder.path().join("socket"), "go");
    let limits = Limits { body_within: Duration::from_millis(50), ..Limits::default() };
    let served = serve(folder.path(), false, None, limits);
    let at = served.at;
    for path in ["/tell", "/pair", "/nothing"] {
        let head = format!(
            "POST {path} HTTP/1.1\r\nHost: {at}\r\nOrigin: http://{at}\r\nContent-Length: 50\r\n\r\n{{\""
        );
        let (status, answer) = ask(at, &head);
        assert_eq!(status, 408, "{path}: {answer}");
        let head = format!(
            "POST {path} HTTP/1.1\r\nHost: {at}\r\nOrigin: http://{at}\r\nTransfer-Encoding: chunked\r\n\r\n2\r\n{{\"\r\n"
        );
        assert_eq!(ask(at, &head).0, 408, "{path}, in chunks");
    }
    assert_eq!(Limits::default().body_within, Duration::from_secs(5));
    assert_eq!(get(&served, "/who", "").0, 200, "and it goes on");
}

/// A shelf with one report that is larger than what the system takes for a reader that does not read.
#[derive(Default)]
struct Large(AtomicUsize);

impl Shelf for Large {
    fn jobs(&self, lang: Lang) -> Result<Vec<JobRow>, String> {
        OneJob.jobs(lang)
    }
    fn report(&self, _: u64, _: Lang) -> Result<String, String> {
        self.0.fetch_add(1, Ordering::Relaxed);
        Ok("x".repeat(32 * 1024 * 1024))
    }
    fn plan(&self, sheet: &events::Sheet, lang: Lang) -> Result<String, String> {
        OneJob.plan(sheet, lang)
    }
}

#[test]
fn readers_of_reports_who_do_not_read_are_few_at_a_time_and_lose_their_place() {
    let folder = tempfile::tempdir().unwrap();
    let _said = Moment::say(&folder.path().join("socket"), "go");
    let shelf = Arc::new(Large::default());
    let limits = Limits {
        turn_within: Duration::from_millis(50),
        report_within: PATIENCE * 10,
        connections: 64,
        ..Limits::default()
    };
    let pairs = |limits| Config { shelf: shelf.clone(), ..config(folder.path(), true, limits) };
    let served = serve_as(pairs(limits));
    let see = cookie(&served, &served.pairings.new_link("the wall").unwrap());
    let ask_for = |served: &Served, cookie: &str| {
        let mut stream = TcpStream::connect(served.at).unwrap();
        write!(stream, "GET /job/1 HTTP/1.1\r\nHost: {}\r\nConnection: close\r\n{cookie}\r\n", served.at)
            .unwrap();
        stream
    };
    let begun = |mut stream: TcpStream| {
        stream.set_read_timeout(Some(PATIENCE)).unwrap();
        let mut head = [0; 12];
        stream.read_exact(&mut head).unwrap();
        (String::from_utf8_lossy(&head[9..]).parse::<u16>().unwrap(), stream)
    };
    // Twenty ask at once and take only the first bytes.
    let asked: Vec<TcpStream> = (0..20).map(|_| ask_for(&served, &see)).collect();
    let held: Vec<(u16, TcpStream)> = asked.into_iter().map(begun).collect();
    let got = held.iter().filter(|(status, _)| *status == 200).count();
    assert!((1..=2).contains(&got), "{got}");
    assert!(held.iter().all(|(status, _)| matches!(status, 200 | 503)));
    assert_eq!(shelf.0.load(Ordering::Relaxed), got, "no more were made");
    // A browser that tells does not wait for them.
    let tells = pair(&served);
    let (status, answer) = get(&served, "/job/1", &tells);
    assert!(status == 200 && answer.len() > 32 * 1024 * 1024, "{status}");
    drop(held);

    let served = serve_as(pairs(Limits { report_within: Duration::from_millis(1), ..limits }));
    let see = cookie(&served, &served.pairings.new_link("another wall").unwrap());
    let (status, mut stream) = begun(ask_for(&served, &see));
    assert_eq!(status, 200);
    // Nobody reads, until the other side is seen to have gone.
    let until = Instant::now() + PATIENCE;
    while stream.write_all(b" ").is_ok() {
        assert!(Instant::now() < until, "it is cut off");
        std::thread::yield_now();
    }
    assert!(rest(&mut stream).len() < 32 * 1024 * 1024);
}
