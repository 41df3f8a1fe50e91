//! What is checked of every request before anything is done: host, origin, who it is.
//!
//! In: the head of a request and where it comes from. Out: what it may, or the refusal. A page of another site cannot
//! reach us under a name of its own (host), cannot make a browser speak for its owner (origin), and whoever has no
//! pairing learns nothing. Not here: sizes and times (`doors.rs`).

use std::net::IpAddr;
use std::sync::Arc;

use axum::http::request::Parts;
use axum::http::{HeaderMap, Method, StatusCode, header};

use crate::access::{May, Pairings};

/// How requests are judged.
#[derive(Debug, Clone)]
pub(crate) struct Guard {
    pub(crate) pairings: Arc<Pairings>,
    /// Whether nobody needs a pairing: only while we listen on the machine itself.
    pub(crate) open: bool,
    pub(crate) port: u16,
    /// Names that we are also known under.
    pub(crate) names: Vec<String>,
}

/// Why a request is not answered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Refused {
    Host,
    Origin,
    NoPairing,
    OnlySees,
}

impl Refused {
    pub(crate) const fn status(self) -> StatusCode {
        match self {
            Self::Host => StatusCode::MISDIRECTED_REQUEST,
            Self::Origin | Self::OnlySees => StatusCode::FORBIDDEN,
            Self::NoPairing => StatusCode::UNAUTHORIZED,
        }
    }

    pub(crate) const fn says(self) -> &'static str {
        match self {
            Self::Host => {
                "This name is not ours. Use the address that the terminal shows, or start with --page-name NAME."
            }
            Self::Origin => "A page from elsewhere may not ask this.",
            Self::NoPairing => "This browser is not paired.",
            Self::OnlySees => "This link only shows.",
        }
    }
}

impl Guard {
    /// Host and origin: for every request, paired or not.
    pub(crate) fn place(&self, parts: &Parts) -> Result<(), Refused> {
        let host = text(&parts.headers, header::HOST.as_str()).ok_or(Refused::Host)?;
        if !self.is_ours(host) {
            return Err(Refused::Host);
        }
        let origin = text(&parts.headers, header::ORIGIN.as_str());
        let same =
            |origin: &str| origin.strip_prefix("http://").or(origin.strip_prefix("https://")) == Some(host);
        if origin.is_some_and(|o| !same(o)) {
            return Err(Refused::Origin);
        }
        let site = text(&parts.headers, "sec-fetch-site");
        let elsewhere = site.is_some_and(|s| !matches!(s, "same-origin" | "none"));
        let visit = parts.method == Method::GET && text(&parts.headers, "sec-fetch-mode") == Some("navigate");
        if elsewhere && !visit {
            return Err(Refused::Origin);
        }
        // What changes something must say where it comes from.
        let safe = matches!(parts.method, Method::GET | Method::HEAD);
        if !safe && origin.is_none() && site != Some("same-origin") {
            return Err(Refused::Origin);
        }
        Ok(())
    }

    /// A name that only a rebound domain could bring here is not ours; an address always is, whichever it is.
    fn is_ours(&self, host: &str) -> bool {
        let (name, port) = match host.rsplit_once(':') {
            Some((name, port)) if !port.is_empty() && port.chars().all(|c| c.is_ascii_digit()) => {
                (name, port)
            }
            _ => (host, "80"),
        };
        let named = self.names.iter().any(|n| n.eq_ignore_ascii_case(name));
        let bare = name.trim_start_matches('[').trim_end_matches(']');
        let ours = named || name.eq_ignore_ascii_case("localhost") || bare.parse::<IpAddr>().is_ok();
        // A name of our own may stand for a proxy with a port of its own.
        ours && (named || port == self.port.to_string())
    }

    /// What the bearer of these headers may.
    pub(crate) fn who(&self, headers: &HeaderMap) -> Option<May> {
        if self.open {
            return Some(May::Tell);
        }
        token(headers, self.port).and_then(|token| self.pairings.may(&token))
    }

    /// Refuses whoever may not so much.
    pub(crate) fn admit(&self, headers: &HeaderMap, needed: May) -> Result<May, Refused> {
        match self.who(headers) {
            None => Err(Refused::NoPairing),
            Some(may) if may < needed => Err(Refused::OnlySees),
            Some(may) => Ok(may),
        }
    }
}

/// The cookie's name; browsers share cookies between the ports of one machine.
pub(crate) fn cookie(port: u16) -> String {
    format!("standpipe-{port}")
}

/// The token in the cookie.
pub(crate) fn token(headers: &HeaderMap, port: u16) -> Option<String> {
    let name = cookie(port);
    let pairs = text(headers, header::COOKIE.as_str())?.split(';');
    pairs.filter_map(|p| p.trim().split_once('=')).find(|(n, _)| *n == name).map(|(_, v)| v.to_owned())
}

fn text<'a>(headers: &'a HeaderMap, name: &str) -> Option<&'a str> {
    headers.get(name).and_then(|v| v.to_str().ok())
}

#[cfg(test)]
mod tests {
    use super::*;
    use axum::http::Request;

    fn guard() -> Guard {
        let pairings = Arc::new(Pairings::at("/nonexistent/pairings".into()));
        Guard { pairings, open: false, port: 8_600, names: vec!["bay-two.example".to_owned()] }
    }

    fn place(method: Method, headers: &[(&str, &str)]) -> Result<(), Refused> {
        let mut request = Request::builder().method(method).uri("/tell");
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        guard().place(&request.body(()).unwrap().into_parts().0)
    }

    #[test]
    fn only_our_own_names_and_origins_pass() {
        let (get, post) = (Method::GET, Method::POST);
        #[rustfmt::skip]
        type Case<'a> = (&'a str, &'a Method, &'a [(&'a str, &'a str)], Result<(), Refused>);
        let cases: &[Case<'_>] = &[
            ("an address", &get, &[("host", "192.0.2.7:8600")], Ok(())),
            ("localhost", &get, &[("host", "localhost:8600")], Ok(())),
            ("six", &get, &[("host", "[::1]:8600")], Ok(())),
            ("a name of ours", &get, &[("host", "bay-two.example")], Ok(())),
            ("no host", &get, &[], Err(Refused::Host)),
            ("another's name", &get, &[("host", "evil.example:8600")], Err(Refused::Host)),
            ("a name that resembles", &get, &[("host", "localhost.evil.example:8600")], Err(Refused::Host)),
            ("another port", &get, &[("host", "127.0.0.1:9999")], Err(Refused::Host)),
            (
                "our own page tells",
                &post,
                &[("host", "localhost:8600"), ("origin", "http://localhost:8600")],
                Ok(()),
            ),
            (
                "another page tells",
                &post,
                &[("host", "localhost:8600"), ("origin", "http://evil.example")],
                Err(Refused::Origin),
            ),
            (
                "a nameless page tells",
                &post,
                &[("host", "localhost:8600"), ("origin", "null")],
                Err(Refused::Origin),
            ),
            ("nobody says from where", &post, &[("host", "localhost:8600")], Err(Refused::Origin)),
            (
                "another page reads",
                &get,
                &[
                    ("host", "localhost:8600"),
                    ("sec-fetch-site", "cross-site"),
                    ("sec-fetch-mode", "no-cors"),
                ],
                Err(Refused::Origin),
            ),
            (
                "a link from elsewhere",
                &get,
                &[
                    ("host", "localhost:8600"),
                    ("sec-fetch-site", "cross-site"),
                    ("sec-fetch-mode", "navigate"),
                ],
                Ok(()),
            ),
        ];
        for (what, method, headers, want) in cases {
            assert_eq!(place((*method).clone(), headers), *want, "{what}");
        }
    }

    #[test]
    fn without_a_pairing_nothing_is_shown_on_a_network_and_everything_on_the_machine_itself() {
        assert_eq!(guard().admit(&HeaderMap::new(), May::See), Err(Refused::NoPairing));
        let open = Guard { open: true, ..guard() };
        assert_eq!(open.admit(&HeaderMap::new(), May::Tell), Ok(May::Tell));
    }
}
