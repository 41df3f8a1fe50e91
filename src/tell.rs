//! `tell`: one request to the daemon.

use clap::{Args, Subcommand};
use events::{Line, Precondition, Request, Role, Surface, Told, Word};
use units::{Celsius, Degrees, Millilitres, text};

use crate::client::{Client, Where};
use crate::failure::{Exit, Failure};
use crate::screen::Screen;

/// Arguments of `tell`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  standpipe tell start\n  standpipe tell confirm on-stands\n  standpipe tell level --pitch 0.1deg --roll=-0.2deg\n  standpipe tell drained 2.4L --at 22C\n  standpipe tell filled 3.0qt --at 68F\n  standpipe tell spot 38.5C --surface tape"
)]
pub struct TellArgs {
    #[command(flatten)]
    at: Where,
    /// Who tells.
    #[arg(long, value_name = "ROLE", value_parser = role)]
    by: Option<Role>,
    #[command(subcommand)]
    what: What,
}

#[derive(Debug, Args)]
struct Amount {
    /// How much: 2.4L, 470ml, 2.5qt.
    #[arg(value_parser = text::millilitres, value_name = "AMOUNT")]
    amount: Millilitres,
    /// How warm it was when measured: 22C, 72F.
    #[arg(long, value_parser = text::celsius, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    at: Option<Celsius>,
}

#[derive(Debug, Subcommand)]
enum What {
    /// Choose the sheet for jobs that begin from now on.
    Sheet {
        /// The name on the sheet, one of those in `serve --sheets FOLDER`.
        name: String,
    },
    /// Begin a job.
    Start,
    /// Confirm what the vehicle cannot show: on-stands, vehicle-level, ventilated, brake-held, cooler-bypass, selector-cycled.
    Confirm {
        /// Which precondition.
        #[arg(value_parser = precondition)]
        what: Precondition,
    },
    /// How the vehicle stands, measured.
    Level {
        /// Nose up is positive.
        #[arg(long, value_parser = text::degrees, allow_hyphen_values = true, value_name = "ANGLE")]
        pitch: Degrees,
        /// Left side up is positive.
        #[arg(long, value_parser = text::degrees, allow_hyphen_values = true, value_name = "ANGLE")]
        roll: Degrees,
    },
    /// Old fluid came out.
    Drained(Amount),
    /// New fluid went in; may be told several times.
    Filled(Amount),
    /// What was caught at the check port.
    RanOut(Amount),
    /// A thermometer's reading.
    Spot {
        /// What it shows: 38.5C, 101F.
        #[arg(value_parser = text::celsius, value_name = "TEMPERATURE", allow_hyphen_values = true)]
        reads: Celsius,
        /// Where it was pointed or held: tape, matt-paint, plastic, contact, stream.
        #[arg(long, value_parser = surface)]
        surface: Surface,
    },
    /// The check port is open and fluid flows.
    Flowing,
    /// The check port is open and nothing comes.
    NothingFlows,
    /// The stream has become a trickle.
    Trickle,
    /// The check port is closed.
    Closed,
    /// The plugs are tightened.
    Torqued,
    /// The test drive is done, no leak seen.
    TestDriven,
    /// Write the result and end the job.
    Done,
    /// Take the last told thing back; the record keeps both.
    Undo,
    /// End the job without a level.
    Abort {
        /// Why.
        why: String,
    },
    /// A remark for the record.
    Note {
        /// What.
        text: String,
    },
}

fn role(word: &str) -> Result<Role, String> {
    word.parse()
}
fn precondition(word: &str) -> Result<Precondition, String> {
    word.parse()
}
fn surface(word: &str) -> Result<Surface, String> {
    word.parse()
}

impl From<What> for Request {
    fn from(what: What) -> Self {
        match what {
            What::Sheet { name } => Self::Sheet { name },
            What::Start => Self::Start,
            What::Confirm { what } => Self::Confirm { what },
            What::Level { pitch, roll } => Self::Level { pitch_degrees: pitch, roll_degrees: roll },
            What::Drained(a) => Self::Drained { millilitres: a.amount, celsius: a.at },
            What::Filled(a) => Self::Filled { millilitres: a.amount, celsius: a.at },
            What::RanOut(a) => Self::RanOut { millilitres: a.amount, celsius: a.at },
            What::Spot { reads, surface } => Self::Spot { celsius: reads, surface },
            What::Flowing => Self::Flowing,
            What::NothingFlows => Self::NothingFlows,
            What::Trickle => Self::Trickle,
            What::Closed => Self::Closed,
            What::Torqued => Self::Torqued,
            What::TestDriven => Self::TestDriven,
            What::Done => Self::Done,
            What::Undo => Self::Undo,
            What::Abort { why } => Self::Abort { why },
            What::Note { text } => Self::Note { text },
        }
    }
}

/// `tell`.
pub fn run(args: TellArgs, screen: Screen) -> Result<(), Failure> {
    crate::runtime(None)?.block_on(tell(args, screen))
}

async fn tell(args: TellArgs, screen: Screen) -> Result<(), Failure> {
    let socket = args.at.socket();
    let mut client = Client::connect(&socket).await?;
    let id = format!("tell-{}-{}", std::process::id(), client.snapshot.seq);
    client.tell(&Told { id: id.clone(), by: args.by, request: args.what.into() }).await?;
    while let Some(heard) = client.next().await? {
        match heard.line {
            Some(Line::Word(Word::Accepted { id: answered, seq, advice })) if answered == id => {
                if screen.is_json() {
                    return screen.line(&heard.text);
                }
                return screen.line(&format!("accepted as event {seq}\nnext: {}", advice.says()));
            }
            Some(Line::Word(Word::Refused { id: answered, says, .. })) if answered.as_ref() == Some(&id) => {
                if screen.is_json() {
                    screen.line(&heard.text)?;
                }
                return Err(Failure::new(Exit::Data, format!("refused: {says}")));
            }
            Some(Line::Word(Word::Bye { reason })) => {
                return Err(Failure::new(Exit::TryAgain, format!("the daemon says: {reason}")));
            }
            _ => {}
        }
    }
    Err(Failure::new(Exit::Unavailable, "the daemon stopped before it answered").try_this(
        "look with `standpipe events --since 0 --only told` whether it was taken, then tell it again",
    ))
}
