//! `tell`: one request to the daemon.

use clap::{Args, Subcommand};
use client::Client;
use events::{
    Alarm, EngineWord, FluidLook, LampState, Leak, LeakPlace, Part, Particular, People, Precondition,
    Request, Role, SocketLine, Surface, Symptom, Task, Told, Way, Word,
};
use units::{Celsius, Degrees, Millilitres, Millimetres, Rpm, text};

use crate::client::Where;
use crate::failure::{Exit, Failure};
use crate::screen::Screen;

/// Arguments of `tell`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  standpipe tell start\n  standpipe tell confirm on-stands\n  standpipe tell level --pitch 0.1deg --roll=-0.2deg\n  standpipe tell corners --front-left 312mm --front-right 311mm --rear-left 310mm --rear-right 311mm\n  standpipe tell drained 2.4L --at 22C\n  standpipe tell taken-out filter\n  standpipe tell filled 3.0qt --at 68F\n  standpipe tell spilled 100ml --of filled\n  standpipe tell shifted R --by inside\n  standpipe tell spot 38.5C --surface tape\n  standpipe tell spot 18C --surface air\n  standpipe tell engine idling --by inside   without an adapter"
)]
pub struct TellArgs {
    #[command(flatten)]
    at: Where,
    /// Who tells.
    #[arg(long, global = true, value_name = "ROLE")]
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

/// The heights of four like points above one plane, and the base where the sheet does not say it.
#[derive(Debug, Args)]
struct Corners {
    /// Front left: 312mm, 12.3in.
    #[arg(long, value_parser = text::millimetres, value_name = "HEIGHT")]
    front_left: Millimetres,
    /// Front right.
    #[arg(long, value_parser = text::millimetres, value_name = "HEIGHT")]
    front_right: Millimetres,
    /// Rear left.
    #[arg(long, value_parser = text::millimetres, value_name = "HEIGHT")]
    rear_left: Millimetres,
    /// Rear right.
    #[arg(long, value_parser = text::millimetres, value_name = "HEIGHT")]
    rear_right: Millimetres,
    /// From front to rear, where the sheet does not say it: 2.7m.
    #[arg(long, value_parser = text::millimetres, value_name = "LENGTH")]
    wheelbase: Option<Millimetres>,
    /// From left to right, front and rear alike, where the sheet does not say it: 1.5m.
    #[arg(long, value_parser = text::millimetres, value_name = "LENGTH")]
    track: Option<Millimetres>,
    /// At the rear, where it differs.
    #[arg(long, value_parser = text::millimetres, value_name = "LENGTH", requires = "track")]
    track_rear: Option<Millimetres>,
}

#[derive(Debug, Subcommand)]
enum What {
    /// Choose the sheet for jobs that begin from now on.
    Sheet {
        /// The name on the sheet, one of those in `serve --sheets FOLDER`.
        name: String,
    },
    /// Begin a job.
    Start {
        /// Which vehicle, in the workshop's words: a plate, an order number.
        #[arg(long, value_name = "TEXT")]
        vehicle: Option<String>,
        /// What for: change, or check, where nothing is drained and the level is found.
        #[arg(long, value_name = "JOB", default_value = "change")]
        job: Task,
        /// How many people do it: two, or one alone.
        #[arg(long, value_name = "PEOPLE", default_value = "two")]
        people: People,
    },
    /// Begin a recheck of an earlier job: from cold, without changing the fluid.
    Recheck {
        /// The number of that job; `standpipe due` lists what is due.
        job: u64,
    },
    /// Which vehicle this is, in the workshop's words; told again, it replaces what was told before.
    Vehicle {
        /// What to find it by.
        text: String,
    },
    /// A particular of the job for its report; told again, it replaces what was told before.
    ///
    /// odometer ("84210 km"), technician, workshop, fluid (as the container says), batch, cost ("180 EUR").
    Particular {
        /// Which.
        what: Particular,
        /// As it shall stand there.
        text: String,
    },
    /// Confirm what the vehicle cannot show.
    ///
    /// on-stands, parked, exhaust-outside, vehicle-level, fill-port-open, fluid-right, pipe-in, closed-up,
    /// cooler-bypass, clear (from below: --by under), brake-held, selector-cycled, bypass-out, no-leak, refitted,
    /// mode-on, ready-off, dry, all-safe, in-position, and where no air temperature is read: started-cold.
    Confirm {
        /// Which precondition.
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
    /// How the vehicle stands, by the heights of four like points (hubs, lift pads) above one plane.
    Corners(Corners),
    /// The selector stands at this position now.
    Shifted {
        /// As the sheet writes it: P, R, N, D …
        position: String,
    },
    /// Fluid that no vessel caught, by eye.
    Spilled {
        /// How much, by eye.
        #[arg(value_parser = text::millilitres, value_name = "AMOUNT")]
        amount: Millilitres,
        /// Which amount it is missing from: drained, filled, ran-out.
        #[arg(long, value_name = "WAY")]
        of: Way,
    },
    /// Old fluid left with a part, beside the drain: filter, cooler, pan, converter.
    TakenOut {
        /// Which part.
        part: Part,
        /// How much; absent: as the sheet says.
        #[arg(value_parser = text::millilitres, value_name = "AMOUNT")]
        amount: Option<Millilitres>,
        /// How warm it was when measured.
        #[arg(long, value_parser = text::celsius, value_name = "TEMPERATURE", allow_hyphen_values = true)]
        at: Option<Celsius>,
    },
    /// Of what came out: kept back as a sample.
    Kept {
        /// How much.
        #[arg(value_parser = text::millilitres, value_name = "AMOUNT")]
        amount: Millilitres,
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
        #[arg(long)]
        surface: Surface,
    },
    /// A number on the vehicle's display, where the sheet goes by it (`check.signal = "display"`).
    Display {
        /// What it shows: 41C, 106F.
        #[arg(value_parser = text::celsius, value_name = "TEMPERATURE", allow_hyphen_values = true)]
        shows: Celsius,
    },
    /// How warm the air outside is, where the sheet has a band for hot places and the vehicle does not show it.
    ///
    /// Before a job (it counts for an hour) or at its start, until the engine runs; told again, it is put right.
    Air {
        /// In the shade: 36C, 97F.
        #[arg(value_parser = text::celsius, value_name = "TEMPERATURE", allow_hyphen_values = true)]
        outside: Celsius,
    },
    /// What the vehicle's own lamp says, where the sheet goes by it (`check.signal = "lamp"`).
    Lamp {
        /// too-cold, right or too-hot; the sheet has how each looks on this vehicle.
        shows: LampState,
    },
    /// What the engine does, where there is no adapter to tell it (`serve --device none`).
    ///
    /// It holds until told otherwise. Before the check port is opened, and each minute while it is open, it is asked
    /// again; without an answer the port is to be closed.
    Engine {
        /// idling or stopped.
        what: EngineWord,
        /// What the rev counter shows, in 1/min.
        #[arg(long, value_name = "RPM", value_parser = rpm)]
        rpm: Option<Rpm>,
    },
    /// The identifier that is searched for is this one; the screen of `find` shows it.
    Candidate {
        /// Its place as it is shown: 7E1 22 4D07.
        #[arg(num_args = 3, value_names = ["HEADER", "SERVICE", "IDENTIFIER"], required = true)]
        place: Vec<String>,
    },
    /// The check port is open and fluid flows.
    Flowing,
    /// The check port is open and nothing comes.
    NothingFlows,
    /// The stream has become a trickle.
    Trickle,
    /// Only drops come: told in place of a trickle.
    Drips,
    /// The hole is open and the fluid stands at its lower edge.
    AtEdge,
    /// The hole is open and the fluid stands below its lower edge.
    BelowEdge {
        /// How far: 3mm.
        #[arg(value_parser = text::millimetres, value_name = "DEPTH")]
        depth: Millimetres,
    },
    /// The gauge was wiped, pushed to its stop and read.
    Gauge {
        /// What it shows: 43mm.
        #[arg(value_parser = text::millimetres, value_name = "READS")]
        reads: Millimetres,
    },
    /// The check port is closed.
    Closed,
    /// Whether it leaks.
    Leak {
        /// How bad: dry, damp, drops, runs.
        how: Leak,
        /// Where: pan, pipe-or-plug, cooler-line, axle-seal, converter-housing, not-seen.
        #[arg(long, value_name = "PLACE")]
        at: Option<LeakPlace>,
    },
    /// Where it leaks, after `leak`: pan, pipe-or-plug, cooler-line, axle-seal, converter-housing, not-seen.
    LeakAt {
        /// The place.
        place: LeakPlace,
    },
    /// Why the vehicle is here; with the level set, what is left of it. Told once for each.
    Symptom {
        /// slips, flares, late, hard, whine, shudder, lamp, leak, worked-on or none.
        what: Symptom,
    },
    /// How the fluid looks on the first drops. Told once for each.
    FluidLooks {
        /// red, brown, black, burnt, milky or metal.
        look: FluidLook,
    },
    /// No drive is felt in gear within some seconds.
    NoDrive,
    /// The container's words differ from the sheet's, or the wrong fluid is in.
    FluidWrong,
    /// Somebody is in danger: told at any time, without a job too.
    Alarm {
        /// What: air, burn, caught, fire.
        what: Alarm,
    },
    /// The plugs are tightened.
    Torqued,
    /// The test drive is done, no leak seen.
    TestDriven,
    /// Keep a photo beside the journal, under its hash, and name it in the record: jpg, png or webp.
    Photo {
        /// The picture file.
        file: std::path::PathBuf,
        /// The folder of the daemon's journal.
        #[arg(long, value_name = "DIR")]
        journal: Option<std::path::PathBuf>,
    },
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

fn rpm(text: &str) -> Result<Rpm, String> {
    let n = text.trim().parse().map_err(|_| "a whole number of revolutions a minute, like 720".to_owned())?;
    Rpm::from_f64(n).ok_or_else(|| "no engine turns so fast, or backwards".to_owned())
}

impl What {
    /// The request; a photo is copied first.
    fn request(self) -> Result<Request, Failure> {
        if let Self::Photo { file, journal } = self {
            let folder = journal.unwrap_or_else(crate::report::default_journal);
            let photo = service::store_photo(&folder, &file)?;
            return Ok(Request::Photo { sha256: photo.sha256, name: photo.name });
        }
        if let Self::Candidate { place } = &self {
            let text = place.join(" ");
            let (header, service, identifier) = events::parse_place(&text).ok_or_else(|| {
                Failure::new(Exit::Usage, format!("`{text}` is no place of an identifier"))
                    .try_this("write it as the screen shows it: `tell candidate 7E1 22 4D07`")
            })?;
            return Ok(Request::Candidate { service, identifier, header });
        }
        Ok(self.into())
    }
}

impl From<What> for Request {
    fn from(what: What) -> Self {
        match what {
            What::Sheet { name } => Self::Sheet { name },
            // Stored before; without its hash it is refused.
            What::Photo { file, .. } => {
                Self::Photo { sha256: String::new(), name: file.display().to_string() }
            }
            What::Start { job, people, .. } => Self::Start { job, people },
            What::Recheck { job } => Self::Recheck { of: job },
            What::Vehicle { text } => Self::Vehicle { text },
            What::Particular { what, text } => Self::Particular { what, text },
            What::Corners(c) => Self::Corners {
                front_left_millimetres: c.front_left,
                front_right_millimetres: c.front_right,
                rear_left_millimetres: c.rear_left,
                rear_right_millimetres: c.rear_right,
                wheelbase_millimetres: c.wheelbase,
                track_millimetres: c.track.map(|front| [front, c.track_rear.unwrap_or(front)]),
            },
            What::Shifted { position } => Self::Shifted { position },
            What::Spilled { amount, of } => Self::Spilled { millilitres: amount, of },
            What::TakenOut { part, amount, at } => Self::TakenOut { part, millilitres: amount, celsius: at },
            What::Kept { amount } => Self::Kept { millilitres: amount },
            What::Confirm { what } => Self::Confirm { what },
            What::Level { pitch, roll } => Self::Level { pitch_degrees: pitch, roll_degrees: roll },
            What::Drained(a) => Self::Drained { millilitres: a.amount, celsius: a.at },
            What::Filled(a) => Self::Filled { millilitres: a.amount, celsius: a.at },
            What::RanOut(a) => Self::RanOut { millilitres: a.amount, celsius: a.at },
            What::Spot { reads, surface } => Self::Spot { celsius: reads, surface },
            What::Display { shows } => Self::Display { celsius: shows },
            What::Air { outside } => Self::Air { celsius: outside },
            What::Lamp { shows } => Self::Lamp { shows },
            What::Engine { what, rpm } => Self::Engine { what, rpm },
            // Read before; without its place it is refused.
            What::Candidate { place } => {
                Self::Candidate { service: 0, identifier: 0, header: place.join(" ") }
            }
            What::Flowing => Self::Flowing,
            What::NothingFlows => Self::NothingFlows,
            What::Trickle => Self::Trickle,
            What::Drips => Self::Drips,
            What::AtEdge => Self::AtEdge,
            What::BelowEdge { depth } => Self::BelowEdge { millimetres: depth },
            What::Gauge { reads } => Self::Gauge { millimetres: reads },
            What::Leak { how, .. } => Self::Leak { how },
            What::LeakAt { place } => Self::LeakAt { place },
            What::Symptom { what } => Self::Symptom { what },
            What::FluidLooks { look } => Self::FluidLooks { look },
            What::NoDrive => Self::NoDrive,
            What::FluidWrong => Self::FluidWrong,
            What::Alarm { what } => Self::Alarm { what },
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
    let mut client = Client::connect(&args.at.daemon()).await?;
    let beside = match &args.what {
        What::Start { vehicle: Some(text), .. } => Some(Request::Vehicle { text: text.clone() }),
        What::Leak { at: Some(place), .. } => Some(Request::LeakAt { place: *place }),
        _ => None,
    };
    let requests = std::iter::once(args.what.request()?).chain(beside);
    for (n, request) in requests.enumerate() {
        let id = format!("tell-{}-{}-{n}", std::process::id(), client.snapshot.seq);
        one(&mut client, Told { id, by: args.by, request }, screen).await?;
    }
    Ok(())
}

async fn one(client: &mut Client, told: Told, screen: Screen) -> Result<(), Failure> {
    let id = told.id.clone();
    client.tell(&told).await?;
    while let Some(heard) = client.next().await? {
        match heard.line {
            Some(SocketLine::Word(Word::Accepted { id: answered, seq, advice })) if answered == id => {
                if screen.is_json() {
                    return screen.json_line(&heard.text);
                }
                return screen.line(&format!("accepted as event {seq}\nnext: {}", advice.says()));
            }
            Some(SocketLine::Word(Word::Refused { id: answered, says, .. }))
                if answered.as_ref() == Some(&id) =>
            {
                if screen.is_json() {
                    screen.json_line(&heard.text)?;
                }
                return Err(Failure::new(Exit::Data, format!("refused: {says}")));
            }
            Some(SocketLine::Word(Word::Bye { reason })) => {
                return Err(Failure::new(Exit::TryAgain, format!("the daemon says: {reason}")));
            }
            _ => {}
        }
    }
    Err(Failure::new(Exit::Unavailable, "the daemon stopped before it answered").try_this(
        "look with `standpipe events --since 0 --only told` whether it was taken, then tell it again",
    ))
}
