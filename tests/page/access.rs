//! Who is let in, and what happens to those who are not: over plain TCP, without a browser.

use std::io::{Read as _, Write as _};
use std::net::{SocketAddr, TcpStream};
use std::time::Duration;

use page::Limits;

use crate::daemon::{Moment, Served, serve};

/// A page that wants pairings, with a daemon behind it.
fn paired() -> (tempfile::TempDir, Moment, Served) {
    let folder = tempfile::tempdir().unwrap();
    let said = Moment::say(&folder.path().join("socket"), "go");
    // Beside ten thousand connections of another test the answer may take longer than a thumb would wait.
    let limits = Limits { answer_within: Duration::from_secs(60), ..Limits::default() };
    let served = serve(folder.path(), true, None, limits);
    (folder, said, served)
}

/// Sends it and reads until the other side closes or has said what was announced; gives status and the whole answer.
fn ask(at: SocketAddr, request: &str) -> (u16, String) {
    let mut stream = TcpStream::connect(at).unwrap();
    stream.set_read_timeout(Some(Duration::from_secs(30))).unwrap();
    let _ = stream.write_all(request.as_bytes());
    let mut bytes = Vec::new();
    let _ = stream.read_to_end(&mut bytes);
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
    assert!(status == 200 && answer.contains("Taken down."), "{answer}");
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
    let mut rest = Vec::new();
    live.read_to_end(&mut rest).expect("the stream ends");
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
