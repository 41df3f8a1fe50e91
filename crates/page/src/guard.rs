//! What is checked of every request before anything is done: host, origin, who it is.
//!
//! In: the head of a request and where it comes from. Out: what it may, or the refusal. A page of another site cannot
//! reach us under a name of its own (host), cannot make a browser speak for its owner (origin), and whoever has no
//! pairing learns nothing. Only a browser on the machine itself needs none, and only while nobody stands in between.
//!
//! What a proxy says of the request it passes on is believed only where a name was given for one and the other end is
//! this machine, and only where whoever lies harms none but himself. Not here: sizes and times (`doors.rs`).

use std::net::IpAddr;
use std::sync::Arc;

use axum::http::request::Parts;
use axum::http::{HeaderMap, Method, StatusCode, header};

use crate::access::{May, Pairings};
use crate::name::{Name, split};

/// How requests are judged.
#[derive(Debug, Clone)]
pub(crate) struct Guard {
    pub(crate) pairings: Arc<Pairings>,
    /// Whether a browser on the machine itself needs no pairing.
    pub(crate) open: bool,
    pub(crate) port: u16,
    /// Names that we are also known under.
    pub(crate) names: Vec<Name>,
}

/// Who asks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Bearer {
    pub(crate) may: May,
    /// The pairing; nobody's, where none is needed.
    pub(crate) pairing: Option<u32>,
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

/// What a proxy adds to what it passes on (RFC 7239, RFC 9110 section 7.6.3, and what was there before them).
const FORWARDED: [&str; 7] = [
    "forwarded",
    "via",
    "x-forwarded-for",
    "x-forwarded-host",
    "x-forwarded-proto",
    "x-forwarded-server",
    "x-real-ip",
];

impl Guard {
    /// Host and origin: for every request, paired or not.
    pub(crate) fn place(&self, parts: &Parts) -> Result<(), Refused> {
        let host = text(&parts.headers, header::HOST.as_str()).ok_or(Refused::Host)?;
        if !self.is_ours(host) {
            return Err(Refused::Host);
        }
        let origin = text(&parts.headers, header::ORIGIN.as_str());
        if origin.is_some_and(|origin| !self.is_same(origin, host)) {
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
        let (name, port) = split(host);
        let bare = name.trim_start_matches('[').trim_end_matches(']');
        let address = name.eq_ignore_ascii_case("localhost") || bare.parse::<IpAddr>().is_ok();
        self.named(host).is_some() || (address && port.unwrap_or(80) == self.port)
    }

    fn named(&self, host: &str) -> Option<&Name> {
        self.names.iter().find(|name| name.is_host(host))
    }

    /// Whether a page that was fetched from `host` has this origin.
    fn is_same(&self, origin: &str, host: &str) -> bool {
        let stripped = origin.strip_prefix("http://").or(origin.strip_prefix("https://"));
        stripped == Some(host) && self.named(host).is_none_or(|name| name.is_origin(origin))
    }

    /// Whether nobody needs a pairing: the page is for this machine alone, and the browser on it asks for this machine.
    /// What came through a proxy comes from elsewhere, whatever the proxy calls us.
    fn is_open_to(&self, headers: &HeaderMap) -> bool {
        let host = text(headers, header::HOST.as_str()).map_or("", |host| split(host).0);
        let bare = host.trim_start_matches('[').trim_end_matches(']');
        let here =
            bare.eq_ignore_ascii_case("localhost") || bare.parse::<IpAddr>().is_ok_and(|ip| ip.is_loopback());
        self.open && here && !FORWARDED.iter().any(|name| headers.contains_key(*name))
    }

    /// What the bearer of these headers may.
    pub(crate) fn who(&self, headers: &HeaderMap) -> Option<Bearer> {
        if self.is_open_to(headers) {
            return Some(Bearer { may: May::Tell, pairing: None });
        }
        let (pairing, may) = token(headers, self.port).and_then(|token| self.pairings.bearer(&token))?;
        Some(Bearer { may, pairing: Some(pairing) })
    }

    /// Refuses whoever may not so much.
    pub(crate) fn admit(&self, headers: &HeaderMap, needed: May) -> Result<May, Refused> {
        match self.who(headers).map(|bearer| bearer.may) {
            None => Err(Refused::NoPairing),
            Some(may) if may < needed => Err(Refused::OnlySees),
            Some(may) => Ok(may),
        }
    }

    /// Whose guesses are counted: the other end's; where that is our proxy, of whom the proxy itself says that he asks
    /// (the last one: what stands before it anybody may write).
    pub(crate) fn guesser(&self, headers: &HeaderMap, from: IpAddr) -> IpAddr {
        let said = headers.get_all("x-forwarded-for").iter().next_back().and_then(|v| v.to_str().ok());
        let last = said.and_then(|said| said.rsplit(',').next()).and_then(|ip| ip.trim().parse().ok());
        last.filter(|_| self.is_proxy(from)).unwrap_or(from)
    }

    /// Whether the browser came by https, so that its cookie must never travel in clear. Its own origin says so;
    /// whoever says it falsely gets a cookie that his own browser keeps to itself.
    pub(crate) fn is_secure(&self, headers: &HeaderMap, from: IpAddr) -> bool {
        let host = text(headers, header::HOST.as_str()).unwrap_or_default();
        let said = text(headers, "x-forwarded-proto").filter(|_| self.is_proxy(from));
        self.named(host).is_some_and(Name::is_secure)
            || text(headers, header::ORIGIN.as_str()).is_some_and(|origin| origin.starts_with("https://"))
            || said.is_some_and(|said| said.split(',').next_back().is_some_and(|p| p.trim() == "https"))
    }

    /// A proxy was spoken of when the daemon was started, and this comes from the machine itself.
    fn is_proxy(&self, from: IpAddr) -> bool {
        !self.names.is_empty() && from.to_canonical().is_loopback()
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
mod tests;
