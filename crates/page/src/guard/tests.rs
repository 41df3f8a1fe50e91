//! Rows of requests, as browsers, proxies and people who mean no good send them.

use axum::http::Request;
use axum::http::header::HeaderName;

use super::*;
use crate::still::Still;

fn guard(names: &[&str], open: bool) -> Guard {
    let pairings = Arc::new(Pairings::at("/nonexistent/pairings".into(), Arc::new(Still)));
    let names = names.iter().map(|name| name.parse().unwrap()).collect();
    Guard { pairings, open, port: 8_600, names }
}

fn headers(lines: &[(&str, &str)]) -> HeaderMap {
    let pairs =
        lines.iter().map(|(name, value)| (name.parse::<HeaderName>().unwrap(), value.parse().unwrap()));
    let mut headers = HeaderMap::new();
    for (name, value) in pairs {
        headers.append(name, value);
    }
    headers
}

fn place(guard: &Guard, method: &Method, lines: &[(&str, &str)]) -> Result<(), Refused> {
    let mut parts = Request::builder().method(method.clone()).uri("/tell").body(()).unwrap().into_parts().0;
    parts.headers = headers(lines);
    guard.place(&parts)
}

/// Headers of a request.
type Lines<'a> = &'a [(&'a str, &'a str)];

const HERE: (&str, &str) = ("host", "localhost:8600");

#[test]
fn only_our_own_names_and_origins_pass() {
    let (get, post) = (Method::GET, Method::POST);
    type Case<'a> = (&'a str, &'a Method, Lines<'a>, Result<(), Refused>);
    #[rustfmt::skip]
    let cases: &[Case<'_>] = &[
        ("an address", &get, &[("host", "192.0.2.7:8600")], Ok(())),
        ("localhost", &get, &[HERE], Ok(())),
        ("LOCALHOST", &get, &[("host", "LocalHost:8600")], Ok(())),
        ("six", &get, &[("host", "[::1]:8600")], Ok(())),
        ("a name of ours", &get, &[("host", "bay-two.example")], Ok(())),
        ("a name of ours, by the proxy's port", &get, &[("host", "bay-two.example:8443")], Ok(())),
        ("no host", &get, &[], Err(Refused::Host)),
        ("an empty host", &get, &[("host", "")], Err(Refused::Host)),
        ("another's name", &get, &[("host", "evil.example:8600")], Err(Refused::Host)),
        ("a name that resembles", &get, &[("host", "localhost.evil.example:8600")], Err(Refused::Host)),
        ("another port", &get, &[("host", "127.0.0.1:9999")], Err(Refused::Host)),
        ("no port", &get, &[("host", "127.0.0.1")], Err(Refused::Host)),
        ("our own page tells", &post, &[HERE, ("origin", "http://localhost:8600")], Ok(())),
        ("our own page by a proxy tells", &post, &[("host", "bay-two.example"), ("origin", "https://bay-two.example")], Ok(())),
        ("our own page, by the other name", &post, &[HERE, ("origin", "http://127.0.0.1:8600")], Err(Refused::Origin)),
        ("our own page tells without an origin", &post, &[HERE, ("sec-fetch-site", "same-origin")], Ok(())),
        ("another page tells", &post, &[HERE, ("origin", "http://evil.example")], Err(Refused::Origin)),
        ("another page tells and lies", &post, &[HERE, ("origin", "http://evil.example"), ("sec-fetch-site", "same-origin")], Err(Refused::Origin)),
        ("a page of another port tells", &post, &[HERE, ("origin", "http://localhost:9")], Err(Refused::Origin)),
        ("a nameless page tells", &post, &[HERE, ("origin", "null")], Err(Refused::Origin)),
        ("nobody says from where", &post, &[HERE], Err(Refused::Origin)),
        ("from where: nowhere", &post, &[HERE, ("sec-fetch-site", "none")], Err(Refused::Origin)),
        ("another page deletes", &Method::DELETE, &[HERE], Err(Refused::Origin)),
        ("another asks for the head alone", &Method::HEAD, &[HERE], Ok(())),
        ("another page reads", &get, &[HERE, ("sec-fetch-site", "cross-site"), ("sec-fetch-mode", "no-cors")], Err(Refused::Origin)),
        ("a neighbour's page reads", &get, &[HERE, ("sec-fetch-site", "same-site"), ("sec-fetch-mode", "cors")], Err(Refused::Origin)),
        ("another page reads and says its origin", &get, &[HERE, ("origin", "http://evil.example")], Err(Refused::Origin)),
        ("typed by hand", &get, &[HERE, ("sec-fetch-site", "none"), ("sec-fetch-mode", "navigate")], Ok(())),
        ("a link from elsewhere", &get, &[HERE, ("sec-fetch-site", "cross-site"), ("sec-fetch-mode", "navigate")], Ok(())),
        ("a form from elsewhere", &post, &[HERE, ("sec-fetch-site", "cross-site"), ("sec-fetch-mode", "navigate")], Err(Refused::Origin)),
    ];
    let guard = guard(&["bay-two.example"], false);
    for (what, method, lines, want) in cases {
        assert_eq!(place(&guard, method, lines), *want, "{what}");
    }
}

#[test]
fn a_name_that_is_reached_by_tls_is_reached_by_nothing_else() {
    let guard = guard(&["https://bay.example"], false);
    let told = |origin: &str| place(&guard, &Method::POST, &[("host", "bay.example"), ("origin", origin)]);
    assert_eq!(told("https://bay.example"), Ok(()));
    assert_eq!(told("http://bay.example"), Err(Refused::Origin));
    assert_eq!(place(&guard, &Method::GET, &[("host", "bay.example:8600")]), Err(Refused::Host));
}

#[test]
fn without_a_pairing_nothing_is_shown_but_to_a_browser_on_the_machine_itself() {
    #[rustfmt::skip]
    let cases: &[(&str, Lines<'_>, bool)] = &[
        ("localhost", &[HERE], true),
        ("the address", &[("host", "127.0.0.1:8600")], true),
        ("six", &[("host", "[::1]:8600")], true),
        ("another of this machine's", &[("host", "127.0.0.2:8600")], true),
        ("no host", &[], false),
        ("the address on the network", &[("host", "192.0.2.7:8600")], false),
        ("a name", &[("host", "bay.example")], false),
        ("a proxy that calls us by our address", &[HERE, ("x-forwarded-for", "192.0.2.9")], false),
        ("as it is written nowadays", &[HERE, ("forwarded", "for=192.0.2.9")], false),
        ("by https", &[HERE, ("x-forwarded-proto", "https")], false),
        ("host", &[HERE, ("x-forwarded-host", "bay.example")], false),
        ("server", &[HERE, ("x-forwarded-server", "bay.example")], false),
        ("one more header of proxies", &[HERE, ("x-real-ip", "192.0.2.9")], false),
        ("via", &[HERE, ("via", "1.1 proxy")], false),
    ];
    for (what, lines, want) in cases {
        let told = guard(&[], true).admit(&headers(lines), May::Tell);
        assert_eq!(told, if *want { Ok(May::Tell) } else { Err(Refused::NoPairing) }, "{what}");
        let closed = guard(&[], false).admit(&headers(lines), May::See);
        assert_eq!(closed, Err(Refused::NoPairing), "{what}, where everybody is asked");
    }
}

#[test]
fn the_token_is_found_among_other_cookies() {
    #[rustfmt::skip]
    let cases: &[(Lines<'_>, Option<&str>)] = &[
        (&[("cookie", "standpipe-8600=abc")], Some("abc")),
        (&[("cookie", "a=b; standpipe-8600=abc; c=d")], Some("abc")),
        (&[("cookie", "standpipe-8601=abc")], None),
        (&[("cookie", "xstandpipe-8600=abc")], None),
        (&[("cookie", "standpipe-8600")], None),
        (&[], None),
    ];
    for (lines, want) in cases {
        assert_eq!(token(&headers(lines), 8_600).as_deref(), *want, "{lines:?}");
    }
}

#[test]
fn a_proxy_is_believed_where_one_was_spoken_of_and_only_from_this_machine() {
    let (here, there): (IpAddr, IpAddr) = ("127.0.0.1".parse().unwrap(), "192.0.2.66".parse().unwrap());
    let six: IpAddr = "::1".parse().unwrap();
    type Case<'a> = (&'a str, &'a [&'a str], IpAddr, Lines<'a>, &'a str);
    #[rustfmt::skip]
    let cases: &[Case<'_>] = &[
        ("the proxy says", &["bay.example"], here, &[("x-forwarded-for", "192.0.2.9")], "192.0.2.9"),
        ("by six", &["bay.example"], six, &[("x-forwarded-for", "192.0.2.9")], "192.0.2.9"),
        ("the asker lies, the proxy adds", &["bay.example"], here, &[("x-forwarded-for", "192.0.2.1, 192.0.2.9")], "192.0.2.9"),
        ("in two lines", &["bay.example"], here, &[("x-forwarded-for", "192.0.2.1"), ("x-forwarded-for", "192.0.2.9")], "192.0.2.9"),
        ("the proxy says nothing", &["bay.example"], here, &[], "127.0.0.1"),
        ("nonsense", &["bay.example"], here, &[("x-forwarded-for", "somebody")], "127.0.0.1"),
        ("from elsewhere", &["bay.example"], there, &[("x-forwarded-for", "192.0.2.9")], "192.0.2.66"),
        ("no proxy was spoken of", &[], here, &[("x-forwarded-for", "192.0.2.9")], "127.0.0.1"),
    ];
    for (what, names, from, lines, want) in cases {
        assert_eq!(guard(names, false).guesser(&headers(lines), *from).to_string(), *want, "{what}");
    }
}

#[test]
fn a_cookie_is_kept_from_plain_http_where_the_browser_came_by_https() {
    let (here, there): (IpAddr, IpAddr) = ("127.0.0.1".parse().unwrap(), "192.0.2.66".parse().unwrap());
    type Case<'a> = (&'a str, &'a [&'a str], IpAddr, Lines<'a>, bool);
    #[rustfmt::skip]
    let cases: &[Case<'_>] = &[
        ("its origin says so", &["bay.example"], there, &[("host", "bay.example"), ("origin", "https://bay.example")], true),
        ("plain", &["bay.example"], there, &[("host", "bay.example"), ("origin", "http://bay.example")], false),
        ("the name says so", &["https://bay.example"], there, &[("host", "bay.example")], true),
        ("by an address beside such a name", &["https://bay.example"], there, &[("host", "192.0.2.7:8600")], false),
        ("the proxy says so", &["bay.example"], here, &[("host", "bay.example"), ("x-forwarded-proto", "https")], true),
        ("the last proxy says otherwise", &["bay.example"], here, &[("x-forwarded-proto", "https, http")], false),
        ("somebody else says so", &["bay.example"], there, &[("x-forwarded-proto", "https")], false),
        ("no proxy was spoken of", &[], here, &[("x-forwarded-proto", "https")], false),
    ];
    for (what, names, from, lines, want) in cases {
        assert_eq!(guard(names, false).is_secure(&headers(lines), *from), *want, "{what}");
    }
}

#[test]
fn each_refusal_has_its_status_and_its_sentence() {
    for (refused, status, says) in [
        (Refused::Host, 421, "--page-name"),
        (Refused::Origin, 403, "from elsewhere"),
        (Refused::NoPairing, 401, "not paired"),
        (Refused::OnlySees, 403, "only shows"),
    ] {
        assert_eq!(refused.status().as_u16(), status);
        assert!(refused.says().contains(says));
    }
}
