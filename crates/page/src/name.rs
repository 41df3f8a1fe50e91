//! A name under which browsers reach this machine, and how: by a proxy that speaks TLS, or in clear.

use std::str::FromStr;

/// One such name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Name {
    host: String,
    /// Where it is not the page's own.
    port: Option<u16>,
    /// Whether browsers come by https.
    secure: bool,
}

/// Why a text is no name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("name a host like bay.example, or what browsers type, like https://bay.example")]
pub struct NotAName;

impl FromStr for Name {
    type Err = NotAName;

    fn from_str(text: &str) -> Result<Self, NotAName> {
        let (secure, plain) = (text.strip_prefix("https://"), text.strip_prefix("http://"));
        let rest = secure.or(plain).unwrap_or(text);
        let rest = rest.strip_suffix('/').unwrap_or(rest);
        let (host, port) = match rest.split_once(':') {
            Some((host, port)) => (host, Some(port.parse().map_err(|_| NotAName)?)),
            // What a browser takes for granted where no port is typed.
            None if secure.is_some() => (rest, Some(443)),
            None if plain.is_some() => (rest, Some(80)),
            None => (rest, None),
        };
        let fits = |c: char| c.is_ascii_alphanumeric() || matches!(c, '.' | '-' | '_');
        if host.is_empty() || host.len() > 253 || !host.chars().all(fits) {
            return Err(NotAName);
        }
        Ok(Self { host: host.to_ascii_lowercase(), port, secure: secure.is_some() })
    }
}

impl Name {
    /// Whether a request's host means this name. A name alone may stand for a proxy with a port of its own.
    pub(crate) fn is_host(&self, host: &str) -> bool {
        let (name, port) = split(host);
        let meant = self.host.eq_ignore_ascii_case(name);
        let default = if self.secure { 443 } else { 80 };
        meant && self.port.is_none_or(|own| own == port.unwrap_or(default))
    }

    /// Whether a request's origin may be this name's: what comes by TLS only by TLS.
    pub(crate) fn is_origin(&self, origin: &str) -> bool {
        let (secure, plain) = (origin.strip_prefix("https://"), origin.strip_prefix("http://"));
        let allowed = if self.secure { secure } else { secure.or(plain) };
        allowed.is_some_and(|host| self.is_host(host))
    }

    /// Whether browsers come by https.
    pub(crate) fn is_secure(&self) -> bool {
        self.secure
    }

    /// What a browser types, where the page itself listens at `port`.
    pub(crate) fn url(&self, port: u16) -> String {
        let scheme = if self.secure { "https" } else { "http" };
        match (self.port.unwrap_or(port), self.secure) {
            (443, true) | (80, false) => format!("{scheme}://{}", self.host),
            (port, _) => format!("{scheme}://{}:{port}", self.host),
        }
    }
}

/// Host and port of what stands in a request; an address of IPv6 stands in brackets.
pub(crate) fn split(host: &str) -> (&str, Option<u16>) {
    match host.rsplit_once(':') {
        Some((name, port)) if !port.is_empty() && port.chars().all(|c| c.is_ascii_digit()) => {
            (name, port.parse().ok())
        }
        _ => (host, None),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_says_where_browsers_go_and_which_hosts_and_origins_are_its_own() {
        type Texts<'a> = &'a [&'a str];
        type Case<'a> = (&'a str, &'a str, Texts<'a>, Texts<'a>, Texts<'a>, Texts<'a>);
        #[rustfmt::skip]
        let cases: &[Case<'_>] = &[
            // typed               url                         hosts                      not           origins         
            //              not
            ("bay.example",        "http://bay.example:8600",  &["bay.example", "BAY.example:8600", "bay.example:9"], &["bay.example.evil", "ay.example"],
                                                               &["http://bay.example:8600", "https://bay.example"], &["ftp://bay.example", "null", "bay.example"]),
            ("https://Bay.example/", "https://bay.example",    &["bay.example", "bay.example:443"], &["bay.example:8600", "bay.example:80"],
                                                               &["https://bay.example"], &["http://bay.example", "https://bay.example:8443"]),
            ("https://bay.example:8443", "https://bay.example:8443", &["bay.example:8443"], &["bay.example"],
                                                               &["https://bay.example:8443"], &["https://bay.example", "http://bay.example:8443"]),
            ("http://bay.example", "http://bay.example",       &["bay.example", "bay.example:80"], &["bay.example:8600"],
                                                               &["http://bay.example", "https://bay.example:80"], &["http://bay.example:8600"]),
        ];
        for (typed, url, hosts, not_hosts, origins, not_origins) in cases {
            let name: Name = typed.parse().unwrap();
            assert_eq!(name.url(8_600), *url, "{typed}");
            assert_eq!(name.is_secure(), url.starts_with("https"), "{typed}");
            for (list, want) in [(hosts, true), (not_hosts, false)] {
                list.iter().for_each(|host| assert_eq!(name.is_host(host), want, "{typed}: {host}"));
            }
            for (list, want) in [(origins, true), (not_origins, false)] {
                list.iter().for_each(|origin| assert_eq!(name.is_origin(origin), want, "{typed}: {origin}"));
            }
        }
    }

    #[test]
    fn what_is_no_name_is_refused() {
        let long = "a".repeat(254);
        for text in [
            "",
            "https://",
            "bay example",
            "bay.example/page",
            "bay.example:",
            "bay.example:99999",
            "[::1]",
            "a\u{1b}",
            &long,
        ] {
            assert_eq!(text.parse::<Name>(), Err(NotAName), "{text}");
        }
        assert!("a".repeat(253).parse::<Name>().is_ok());
    }

    #[test]
    fn a_host_is_split_from_its_port() {
        let cases = [
            ("a", ("a", None)),
            ("a:80", ("a", Some(80))),
            ("[::1]:8600", ("[::1]", Some(8_600))),
            ("a:", ("a:", None)),
            ("a:b", ("a:b", None)),
            ("a:99999", ("a", None)),
        ];
        for (host, want) in cases {
            assert_eq!(split(host), want, "{host}");
        }
    }
}
