//! `relay`: what this bay says, to a broker.
//!
//! Not here: how (`relay`), the topics (docs/many-bays.md).

use std::path::PathBuf;

use clap::Args;
use relay::{Bay, Broker, BrokerError, Login, News, Options, Place, RelayError};

use crate::client::Where;
use crate::failure::{Exit, Failure};
use crate::screen::Screen;

/// Arguments of `relay`.
#[derive(Debug, Args)]
#[command(
    after_help = "Nothing that comes from the broker can tell the bay anything: the relay subscribes to nothing.\nWhat names a vehicle or was written freely stays in the bay, unless --personal is given.\n\nExamples:\n  standpipe relay --broker mqtt://127.0.0.1\n  standpipe relay --bay left --broker mqtts://broker.example --login /etc/standpipe/left.login"
)]
pub struct RelayArgs {
    #[command(flatten)]
    at: Where,
    /// The broker: mqtt://HOST, or mqtts://HOST for a secured connection; with :PORT where it is not the usual one.
    #[arg(long, value_name = "URL")]
    broker: Broker,
    /// A file with the bay's name at the broker on its first line and the password on its second; mode 0600.
    #[arg(long, value_name = "FILE")]
    login: Option<PathBuf>,
    /// Certificates that the broker is known by (PEM), where it is not by those that this machine trusts.
    #[arg(long, value_name = "FILE")]
    authority: Option<PathBuf>,
    /// Plates, vehicle numbers and notes go out too.
    #[arg(long)]
    personal: bool,
    /// Where it is kept how far the broker was told.
    #[arg(long, value_name = "FILE")]
    place: Option<PathBuf>,
}

/// `relay`.
pub fn run(args: &RelayArgs, screen: Screen) -> Result<(), Failure> {
    let bay: Bay =
        args.at.bay.parse().map_err(|e: relay::BayError| Failure::new(Exit::Usage, e.to_string()))?;
    let login = args.login.as_deref().map(Login::read).transpose()?;
    let secured = args.broker.secured(args.authority.as_deref())?;
    let file = args
        .place
        .clone()
        .unwrap_or_else(|| crate::report::default_journal().join(format!("{bay}.relay.json")));
    let mut place = Place::open(file, &args.broker.to_string()).map_err(RelayError::from)?;
    let options = Options {
        daemon: args.at.daemon(),
        bay,
        broker: args.broker.clone(),
        login,
        secured,
        personal: args.personal,
    };
    let broker = args.broker.to_string();
    crate::runtime(None)?.block_on(async {
        let tell = |news: News| told(&broker, &news, screen);
        relay::run(options, &mut place, crate::serve::stop(), tell).await.map_err(Failure::from)
    })
}

/// News, one line each.
fn told(broker: &str, news: &News, screen: Screen) {
    let line = match news {
        News::Connected => format!("{broker} takes what this bay says"),
        News::BrokerLost(why) => format!("{broker} cannot be reached, and is tried again: {why}"),
        News::BayLost(why) => format!("the bay cannot be heard, and is tried again: {why}"),
        News::Hears(0) => "the bay is heard".to_owned(),
        News::Hears(behind) => format!("the bay is heard; {behind} events are caught up"),
        News::Unread => {
            format!("nobody at {broker} keeps facts: they stay here, and are sent as soon as somebody does")
        }
        News::TooLarge(seq) => {
            format!("event {} is too large for the broker; its number and kind went instead", seq.0)
        }
    };
    let _ = screen.line(&line);
}

impl From<BrokerError> for Failure {
    fn from(e: BrokerError) -> Self {
        let exit = match &e {
            BrokerError::Address { .. } | BrokerError::Secret => Exit::Usage,
            BrokerError::Unreadable { .. } => Exit::NoInput,
            BrokerError::Open { .. } => Exit::NoPermission,
            BrokerError::NoLogin { .. } | BrokerError::NoCertificate { .. } | BrokerError::Tls { .. } => {
                Exit::Config
            }
        };
        Self::new(exit, e.to_string())
    }
}

impl From<RelayError> for Failure {
    fn from(e: RelayError) -> Self {
        let exit = match &e {
            RelayError::Refused { .. } | RelayError::NotAllowed { .. } => Exit::NoPermission,
            RelayError::Unable { .. } => Exit::Unavailable,
            RelayError::Place(_) => Exit::InputOutput,
        };
        Self::new(exit, e.to_string()).try_this(e.remedy())
    }
}
