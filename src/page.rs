//! `page`: who may use the phone page; and what `serve --page` gives it.
//!
//! The page itself is `crates/page`. Here are its address, its codes on the terminal, and the reports and plans that it
//! shows.

use std::net::{IpAddr, SocketAddr};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use clap::{Args, Subcommand};
use events::text::shown;
use events::{Sheet, Utc};
use page::{Config, JobRow, May, Name, Page, PageError, Pairings, SheetAsk, SheetRow, Shelf};
use service::SystemClock;
use units::text::UnitSystem;
use units::{Clock, Millilitres};
use words::{Lang, Speech};

use crate::failure::{Exit, Failure};
use crate::report::{self, Form, Reader, Times};
use crate::screen::{Screen, say};
use crate::sheet::desk::Desk;

/// What `serve` knows of the page.
#[derive(Debug, Args)]
pub struct Served {
    /// Serve the phone page here, like 127.0.0.1:8600. On a network, like 0.0.0.0:8600, every browser needs a pairing.
    #[arg(long, value_name = "ADDRESS")]
    page: Option<SocketAddr>,
    /// A name under which browsers reach this machine; else only addresses and `localhost` are answered. With a proxy
    /// in front say what browsers type: `https://bay.example`. Every browser then needs a pairing, on this machine too.
    #[arg(long, value_name = "NAME", requires = "page")]
    page_name: Vec<Name>,
    /// Ask for a pairing on this machine too.
    #[arg(long, requires = "page")]
    page_pair: bool,
}

/// Arguments of `page`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  standpipe page                 who is paired\n  standpipe page pair            a code for one more browser, also as QR\n  standpipe page link \"wall\"     a link that only shows\n  standpipe page revoke 3\n  standpipe page revoke --all"
)]
pub struct PageArgs {
    /// The bay's name.
    #[arg(long, global = true, default_value = "bay", value_name = "NAME", env = "STANDPIPE_BAY")]
    bay: String,
    /// The folder of the journal, where the pairings are kept too.
    #[arg(long, global = true, value_name = "DIR")]
    journal: Option<PathBuf>,
    #[command(subcommand)]
    what: Option<What>,
}

#[derive(Debug, Subcommand)]
enum What {
    /// Who is paired (the default).
    List,
    /// A code for one browser: once, for ten minutes.
    Pair,
    /// A link that only shows, for a customer or a display on the wall.
    Link {
        /// What it is called in the list.
        name: String,
    },
    /// Shuts one out, or all.
    Revoke {
        /// Its number in the list.
        #[arg(required_unless_present = "all")]
        id: Option<u32>,
        /// All of them, and every open code.
        #[arg(long, conflicts_with = "id")]
        all: bool,
    },
}

/// `page`.
pub fn run(args: &PageArgs, screen: Screen) -> Result<(), Failure> {
    let folder = args.journal.clone().unwrap_or_else(report::default_journal);
    let pairings = Pairings::at(kept_at(&folder, &args.bay), Arc::new(SystemClock::start()));
    match &args.what {
        None | Some(What::List) => list(&pairings, screen),
        Some(What::Pair) => {
            let code = pairings.new_code()?;
            show(&pairings, &format!("pair={code}"), &format!("code {}", spaced(&code)), screen)
        }
        Some(What::Link { name }) => {
            let token = pairings.new_link(name)?;
            show(&pairings, &format!("see={token}"), &format!("link {name:?}, only shows"), screen)
        }
        Some(What::Revoke { id, .. }) => {
            let revoked = pairings.revoke(*id)?;
            if revoked == 0 {
                return Err(Failure::new(Exit::Data, "there is no such pairing")
                    .try_this("`standpipe page` lists them"));
            }
            screen.line(&format!("{revoked} revoked"))
        }
    }
}

fn kept_at(folder: &Path, bay: &str) -> PathBuf {
    folder.join(format!("{bay}.pairings"))
}

fn list(pairings: &Pairings, screen: Screen) -> Result<(), Failure> {
    let all = pairings.list()?;
    if all.is_empty() && !screen.is_json() {
        return screen.line("nobody is paired; `standpipe page pair` shows a code");
    }
    for p in all {
        let made = Utc::from_millis(i64::try_from(p.made.saturating_mul(1_000)).unwrap_or(0));
        if screen.is_json() {
            screen.json(&serde_json::json!({"id": p.id, "may": p.may, "made": made, "name": p.name}))?;
        } else {
            let may = if p.may == May::Tell { "tells" } else { "sees" };
            screen.line(&format!("{:>3}  {may:<5}  {made}  {}", p.id, shown(&p.name)))?;
        }
    }
    Ok(())
}

/// Shows what a browser needs to be let in: as text, and as a QR code where people look.
fn show(pairings: &Pairings, fragment: &str, what: &str, screen: Screen) -> Result<(), Failure> {
    let urls = pairings.urls()?;
    let Some(url) = urls.first() else {
        return Err(Failure::new(Exit::Unavailable, "no page has been served for this bay yet")
            .try_this("start one: `standpipe serve --page 0.0.0.0:8600 …`"));
    };
    let whole = format!("{url}/#{fragment}");
    let clear = in_clear(url);
    if screen.is_json() {
        let caution = clear.then_some(IN_CLEAR);
        let mut out = serde_json::json!({"url": whole, "says": what});
        if let (Some(caution), Some(fields)) = (caution, out.as_object_mut()) {
            fields.insert("caution".to_owned(), caution.into());
        }
        return screen.json(&out);
    }
    if let Some(qr) = page::qr(&whole) {
        screen.line(&qr)?;
    }
    screen.line(&format!("{what}\n{whole}"))?;
    if clear { screen.line(IN_CLEAR) } else { Ok(()) }
}

/// Said wherever a code or a link is shown that will travel so.
const IN_CLEAR: &str = "caution: this page is not encrypted. Whoever listens on the same network can read along, take the \
                        code or the pairing, and tell in your place. Use a network of the workshop's own, or a proxy with \
                        TLS in front (--page-name https://NAME).";

/// Whether what goes there leaves the machine unencrypted.
fn in_clear(url: &str) -> bool {
    let host = url.strip_prefix("http://").map(|rest| rest.rsplit_once(':').map_or(rest, |(host, _)| host));
    let bare = host.map(|host| host.trim_start_matches('[').trim_end_matches(']'));
    bare.is_some_and(|host| !host.parse::<IpAddr>().is_ok_and(|ip| ip.is_loopback()))
}

fn spaced(code: &str) -> String {
    code.split_at_checked(4).map_or(code.to_owned(), |(a, b)| format!("{a} {b}"))
}

/// What the page needs from the daemon's start.
pub struct Ground {
    /// The bay's name.
    pub bay: String,
    /// The folder of the journal.
    pub journal: PathBuf,
    /// The daemon's socket.
    pub socket: PathBuf,
    /// In which units people read.
    pub units: UnitSystem,
    /// In which language all pages are, where one was asked for.
    pub lang: Option<words::Lang>,
    /// Where the sheets are that are made on the page.
    pub sheets: PathBuf,
    /// By which time it tells what is old; the system's where absent.
    pub clock: Option<Arc<dyn Clock>>,
}

impl Served {
    /// The same, with what a configuration says where the command line does not.
    pub fn or(self, page: Option<SocketAddr>, names: Vec<Name>, pair: bool) -> Self {
        Self {
            page: self.page.or(page),
            page_name: if self.page_name.is_empty() { names } else { self.page_name },
            page_pair: self.page_pair || pair,
        }
    }

    /// Whether a page was asked for.
    pub const fn is_served(&self) -> bool {
        self.page.is_some()
    }

    /// Listens, where a page was asked for.
    pub fn bind(&self, ground: Ground) -> Result<Option<Page>, Failure> {
        let Some(listen) = self.page else { return Ok(None) };
        let journal = ground.journal.join(format!("{}.journal", ground.bay));
        let page = Page::bind(Config {
            listen,
            names: self.page_name.clone(),
            always_pair: self.page_pair,
            socket: ground.socket,
            pairings: kept_at(&ground.journal, &ground.bay),
            clock: ground.clock.unwrap_or_else(|| Arc::new(SystemClock::start())),
            units: ground.units,
            lang: ground.lang,
            shelf: Arc::new(Journal { path: journal, units: ground.units, sheets: Desk::at(ground.sheets) }),
            limits: page::Limits::default(),
        })?;
        Ok(Some(page))
    }
}

/// Prints address and code, and lets the page answer on a thread of its own.
pub fn begin(page: Page) -> Result<(), Failure> {
    let (urls, pairings) = (page.urls(), page.pairings());
    pairings.reached_at(urls.clone())?;
    for url in &urls {
        say(&format!("page: {url}/ under the vehicle, {url}/inside in it"));
    }
    if let (true, Some(url)) = (page.needs_pairing(), urls.first()) {
        let code = pairings.new_code()?;
        if let Some(qr) = page::qr(&format!("{url}/#pair={code}")) {
            say(&qr);
        }
        say(&format!("code {} (once, for ten minutes; `standpipe page pair` shows another)", spaced(&code)));
        if in_clear(url) {
            say(IN_CLEAR);
        }
    }
    page.run_beside().map_err(|e| Failure::new(Exit::Software, format!("cannot start the page: {e}")))
}

/// Reports and plans for the page: the same as on the command line.
struct Journal {
    path: PathBuf,
    units: UnitSystem,
    sheets: Desk,
}

/// So many jobs are listed.
/// Own choice: a week of a bay; older ones stand in `jobs`.
const LISTED: u32 = 20;

impl Shelf for Journal {
    fn jobs(&self, lang: Lang) -> Result<Vec<JobRow>, String> {
        if !self.path.exists() {
            return Ok(Vec::new());
        }
        let query = service::JobQuery { limit: LISTED, ..service::JobQuery::default() };
        let jobs = service::list_jobs(&self.path, &query).map_err(|e| e.to_string())?;
        let speech = Speech { lang, units: self.units };
        let times = Times::here();
        Ok(jobs.into_iter().map(|job| row(job, speech, &times)).collect())
    }

    fn report(&self, job: u64, lang: Lang) -> Result<String, String> {
        let record = report::read(&self.path, Some(job)).map_err(|e| e.what)?;
        let speech = Speech { lang, units: self.units };
        record.write(Form::Html, &Reader { speech, times: Times::here() }).map_err(|e| e.what)
    }

    fn plan(&self, sheet: &Sheet, lang: Lang) -> Result<String, String> {
        crate::plan::text(sheet, Speech { lang, units: self.units }).map_err(|e| e.what)
    }

    fn sheets(&self) -> Result<Vec<SheetRow>, String> {
        self.sheets.list()
    }

    fn sheet(&self, ask: &SheetAsk) -> Result<String, String> {
        self.sheets.ask(ask, self.units)
    }
}

fn row(job: service::JobRow, speech: Speech, times: &Times) -> JobRow {
    let error = job.level_error_millilitres.map(|ml| Millilitres::clamped(ml as f64));
    let says = job.outcome.map_or_else(
        || speech.text("job-not-ended").to_owned(),
        |outcome| outcome.headline(error, speech.lang, |amount| speech.millilitres(amount)),
    );
    let sheet = job.vehicle.map_or(job.sheet.clone(), |vehicle| format!("{vehicle}, {}", job.sheet));
    let day = times.day(job.started, speech.lang);
    JobRow { job: job.job, started: job.started.to_string(), day, sheet: shown(&sheet).into_owned(), says }
}

/// What the system says where the unit lets nobody reach the network.
/// Source: errno(3), EAFNOSUPPORT on Linux.
const NO_NETWORK: i32 = 97;

impl From<PageError> for Failure {
    fn from(e: PageError) -> Self {
        let (exit, remedy) = match &e {
            PageError::Listen { why, .. } if why.kind() == std::io::ErrorKind::PermissionDenied => {
                (Exit::NoPermission, "choose a port above 1023")
            }
            PageError::Listen { why, .. } if why.raw_os_error() == Some(NO_NETWORK) => (
                Exit::CannotCreate,
                "the service has no network; /usr/share/doc/standpipe/README.Debian says how to give it one",
            ),
            PageError::Listen { .. } => {
                (Exit::CannotCreate, "choose another port, or stop what listens there")
            }
            PageError::Pairings { .. } => {
                (Exit::InputOutput, "check whose the folder is; --journal names another")
            }
            _ => (Exit::Software, ""),
        };
        Self::new(exit, e.to_string()).try_this(remedy)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_leaves_the_machine_unencrypted_is_known_by_its_address() {
        let cases = [
            ("http://192.0.2.7:8600", true),
            ("http://bay.example:8600", true),
            ("http://bay.example", true),
            ("http://[2001:db8::1]:8600", true),
            ("https://bay.example", false),
            ("http://127.0.0.1:8600", false),
            ("http://[::1]:8600", false),
        ];
        for (url, want) in cases {
            assert_eq!(in_clear(url), want, "{url}");
        }
    }
}
