//! The page as a whole: what it is given, where it listens, what it is bounded by.

use std::net::{IpAddr, SocketAddr};
use std::path::PathBuf;
use std::sync::Arc;

use tokio::net::TcpListener;
use units::Clock;
use units::text::UnitSystem;

use crate::access::Pairings;
use crate::error::PageError;
use crate::feed::{self, Source};
use crate::guard::Guard;
use crate::limits::Limits;
use crate::name::Name;
use crate::queue::Queue;
use crate::shelf::Shelf;
use crate::{doors, routes};

/// Everything the page is given.
pub struct Config {
    /// Where to listen.
    pub listen: SocketAddr,
    /// Names that this machine is also known under. A name means that others reach it, so everybody needs a pairing.
    pub names: Vec<Name>,
    /// Whether a pairing is needed even on the machine itself.
    pub always_pair: bool,
    /// The daemon's socket.
    pub socket: PathBuf,
    /// The file of the pairings.
    pub pairings: PathBuf,
    /// The clock that ages are counted by.
    pub clock: Arc<dyn Clock>,
    /// In which units people read.
    pub units: UnitSystem,
    /// In which language all pages are; absent: each in that of its browser.
    pub lang: Option<words::Lang>,
    /// Reports and plans.
    pub shelf: Arc<dyn Shelf>,
    /// The bounds.
    pub limits: Limits,
}

/// A page that listens but does not answer yet.
pub struct Page {
    listener: std::net::TcpListener,
    at: SocketAddr,
    config: Config,
    pairings: Arc<Pairings>,
    open: bool,
}

impl Page {
    /// Listens.
    ///
    /// # Errors
    /// [`PageError::Listen`] where the address cannot be had.
    pub fn bind(config: Config) -> Result<Self, PageError> {
        let failed = |why| PageError::Listen { at: config.listen, why };
        let listener = std::net::TcpListener::bind(config.listen).map_err(failed)?;
        listener.set_nonblocking(true).map_err(failed)?;
        let at = listener.local_addr().map_err(failed)?;
        let pairings = Arc::new(Pairings::at(config.pairings.clone(), Arc::clone(&config.clock)));
        let open = at.ip().is_loopback() && config.names.is_empty() && !config.always_pair;
        Ok(Self { listener, at, config, pairings, open })
    }

    /// Where it listens.
    pub fn address(&self) -> SocketAddr {
        self.at
    }

    /// Whether a browser needs a pairing.
    pub fn needs_pairing(&self) -> bool {
        !self.open
    }

    /// The pairings.
    pub fn pairings(&self) -> Arc<Pairings> {
        Arc::clone(&self.pairings)
    }

    /// Answers for ever, on the runtime that it is called on.
    ///
    /// # Errors
    /// [`PageError::Listen`] where the runtime cannot take the listener.
    pub async fn run(self) -> Result<(), PageError> {
        let at = self.at;
        let listener = TcpListener::from_std(self.listener).map_err(|why| PageError::Listen { at, why })?;
        let Config { socket, clock, units, lang, names, shelf, limits, .. } = self.config;
        let (feed, feeding) = feed::start(Source { socket, clock, units });
        let guard = Guard { pairings: self.pairings, open: self.open, port: at.port(), names };
        let router =
            routes::router(routes::Desk { guard, feed, shelf, queue: Queue::default(), units, lang, limits });
        tokio::select! {
            () = feeding => {}
            () = doors::serve(listener, router, limits) => {}
        }
        Ok(())
    }

    /// Answers for ever, on a thread of its own: whatever browsers do, the daemon does not wait.
    ///
    /// # Errors
    /// Where the thread cannot be started.
    pub fn run_beside(self) -> std::io::Result<()> {
        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build()?;
        std::thread::Builder::new().name("page".to_owned()).spawn(move || {
            if let Err(e) = runtime.block_on(self.run()) {
                tracing::error!(error = %e, "the page has ended");
            }
        })?;
        Ok(())
    }

    /// The addresses that a browser may use, the best first.
    pub fn urls(&self) -> Vec<String> {
        let port = self.at.port();
        let mut hosts = Vec::new();
        if self.at.ip().is_unspecified() {
            hosts.extend(own_address().map(|ip| ip.to_string()));
        } else {
            hosts.push(match self.at.ip() {
                IpAddr::V6(ip) => format!("[{ip}]"),
                IpAddr::V4(ip) => ip.to_string(),
            });
        }
        let names = self.config.names.iter().map(|name| name.url(port));
        names.chain(hosts.into_iter().map(|host| format!("http://{host}:{port}"))).collect()
    }
}

/// The address that this machine would send from; nothing is sent to find it. (192.0.2.0/24 is for documents, RFC
/// 5737.)
fn own_address() -> Option<IpAddr> {
    let socket = std::net::UdpSocket::bind("0.0.0.0:0").ok()?;
    socket.connect("192.0.2.1:9").ok()?;
    socket.local_addr().ok().map(|at| at.ip()).filter(|ip| !ip.is_unspecified())
}

/// A text as a QR code of half blocks, dark on light as cameras want it; `None` where it is too long for one.
pub fn qr(text: &str) -> Option<String> {
    use qrcode::{Color, EcLevel, QrCode};
    let code = QrCode::with_error_correction_level(text, EcLevel::L).ok()?;
    let width = i64::try_from(code.width()).ok()?;
    let colours = code.to_colors();
    let dark = |x: i64, y: i64| {
        let inside = (0..width).contains(&x) && (0..width).contains(&y);
        let place = usize::try_from(y * width + x).ok();
        inside && place.and_then(|p| colours.get(p)) == Some(&Color::Dark)
    };
    let mut out = String::new();
    for y in (-2..width + 2).step_by(2) {
        for x in -2..width + 2 {
            // The terminal's own ground is dark: what is light is ink.
            out += match (dark(x, y), dark(x, y + 1)) {
                (true, true) => " ",
                (true, false) => "▄",
                (false, true) => "▀",
                (false, false) => "█",
            };
        }
        out.push('\n');
    }
    Some(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_qr_code_is_square_with_a_quiet_zone() {
        let text = qr("http://192.0.2.7:8600/#pair=ABCDEFGH").unwrap();
        let lines: Vec<&str> = text.lines().collect();
        let width = lines[0].chars().count();
        assert!(lines.iter().all(|l| l.chars().count() == width));
        assert_eq!(width.div_ceil(2), lines.len());
        assert!(lines[0].chars().all(|c| c == '█'));
    }
}
