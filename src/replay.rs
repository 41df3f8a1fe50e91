//! `replay`: the gate over a recorded log, one line per row. It sees rows only up to the present one.
//!
//! In: a CSV file with a header. Out: estimate, verdict, reasons and forecast at each row. Preconditions count as
//! confirmed.
//! `opens_in` is when the band's own lower edge will be shown, `closes_in` when the gate will have to close again.

use std::ops::RangeInclusive;
use std::path::PathBuf;

use clap::{Args, ValueEnum};
use csv::StringRecord;
use events::{Check, Interval, Measure, Reading, Reason, Signal, Verdict};
use gate::Gate;
use serde::Serialize;
use units::{Celsius, Kelvins, KilometresPerHour, Mono, Rpm};

use crate::calc;
use crate::failure::{Exit, Failure};
use crate::screen::Screen;

/// What the column is a temperature of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Of {
    /// Transmission fluid.
    Fluid,
    /// Engine coolant.
    Coolant,
}

/// Arguments of `replay`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  standpipe replay drive.csv --band 35..45\n  standpipe replay log.csv --signal atf_c --of fluid --time seconds --band 40..50 --json\n\nUsed where the log has them: rpm, speed_kmh, intake_c, ambient_c, maf_g_s."
)]
pub struct ReplayArgs {
    /// The log: CSV with a header line, one row a reading, oldest first.
    log: PathBuf,
    /// The column with the temperature in °C.
    #[arg(long, value_name = "COLUMN", default_value = "coolant_c")]
    signal: String,
    /// What that column is; by its name where absent: `fluid…` is fluid, all else coolant.
    #[arg(long, value_enum)]
    of: Option<Of>,
    /// The column with the time in seconds.
    #[arg(long, value_name = "COLUMN", default_value = "t_s")]
    time: String,
    /// The band of the check, °C.
    #[arg(long, value_name = "LOW..HIGH", value_parser = band, allow_hyphen_values = true)]
    band: (f64, f64),
    /// The guard factor.
    #[arg(long, default_value_t = 2.0, value_parser = guard_factor)]
    k: f64,
    /// The step in which the log shows the temperature, K.
    #[arg(long, value_name = "KELVINS", default_value_t = 1.0, value_parser = step)]
    step: f64,
}

// Own choice: what a log can be asked for; beyond it is a slip of the keyboard.
/// Edges of a band, °C.
const BAND_C: RangeInclusive<f64> = -60.0..=200.0;
/// Guard factors, as a sheet may have.
const GUARD: RangeInclusive<f64> = 0.0..=4.0;
/// Steps in which a log shows, K.
const STEP_K: RangeInclusive<f64> = 0.01..=5.0;
/// Times of a log, s: thirty years to both sides.
const TIME_S: RangeInclusive<f64> = -1e9..=1e9;

fn band(text: &str) -> Result<(f64, f64), String> {
    let (low, high) = calc::band(text)?;
    let can_be = BAND_C.contains(&low) && low < high && BAND_C.contains(&high);
    if can_be {
        Ok((low, high))
    } else {
        Err(format!("the band {text} is none: from the lower edge to the upper, °C"))
    }
}

fn guard_factor(text: &str) -> Result<f64, String> {
    number_within(text, GUARD)
}

fn step(text: &str) -> Result<f64, String> {
    number_within(text, STEP_K)
}

fn number_within(text: &str, within: RangeInclusive<f64>) -> Result<f64, String> {
    let number = text.parse::<f64>().ok().filter(|n| within.contains(n));
    number.ok_or_else(|| format!("`{text}` is no number from {} to {}", within.start(), within.end()))
}

/// One line of output.
#[derive(Serialize)]
struct OutputLine {
    t: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    celsius: Option<Celsius>,
    #[serde(skip_serializing_if = "Option::is_none")]
    u: Option<Kelvins>,
    verdict: Verdict,
    reasons: Vec<Reason>,
    #[serde(skip_serializing_if = "Option::is_none")]
    opens_in: Option<Interval>,
    #[serde(skip_serializing_if = "Option::is_none")]
    closes_in: Option<Interval>,
    #[serde(skip_serializing_if = "Option::is_none")]
    back_in: Option<Interval>,
}

/// `replay`.
///
/// # Errors
/// A file that cannot be read, a column that is missing, a field that is no number: each with line and column.
pub fn run(args: &ReplayArgs, screen: Screen) -> Result<(), Failure> {
    let file = std::fs::File::open(&args.log).map_err(|e| Failure::file("read", &args.log, &e))?;
    let mut reader = csv::ReaderBuilder::new().flexible(true).from_reader(std::io::BufReader::new(file));
    let bad = |what: String| Failure::new(Exit::Data, format!("the log {}: {what}", args.log.display()));
    let header = reader.headers().map_err(|e| bad(e.to_string()))?.clone();
    let columns = Columns::find(&header, args).map_err(|what| {
        bad(what).try_this("name the columns with --signal and --time; see `standpipe replay --help`")
    })?;
    let mut replay = Replay::new(args);
    for (i, record) in reader.records().enumerate() {
        let record = record.map_err(|e| bad(e.to_string()))?;
        let line = record.position().map_or(i as u64 + 2, csv::Position::line);
        let row = columns.row(&record).map_err(|what| bad(format!("line {line}, {what}")))?;
        let Some(row) = row else { continue };
        say(&replay.row(&row), screen)?;
    }
    Ok(())
}

fn say(said: &OutputLine, screen: Screen) -> Result<(), Failure> {
    if screen.is_json() {
        return screen.json(said);
    }
    let known = said.celsius.zip(said.u).map_or("-".to_owned(), |(t, u)| format!("{t} ± {u} °C"));
    let span = |name: &str, i: Option<Interval>| {
        i.map_or(String::new(), |i| format!("  {name} {:.0} s ({:.0} to {:.0})", i.median, i.low, i.high))
    };
    let reasons: Vec<&str> = said.reasons.iter().map(|r| r.word()).collect();
    screen.line(&format!(
        "{:>8.1}  {known:<16}  {:<7}  {}{}{}{}",
        said.t,
        screen.strong(said.verdict.word()),
        reasons.join(" "),
        span("opens in", said.opens_in),
        span("closes in", said.closes_in),
        span("back in", said.back_in)
    ))
}

/// Where each column is.
struct Columns {
    time: (usize, String),
    signal: (usize, String),
    others: Vec<(usize, &'static str)>,
}

/// One row.
struct Row {
    t: f64,
    signal: Option<f64>,
    others: Vec<(&'static str, f64)>,
}

impl Columns {
    fn find(header: &StringRecord, args: &ReplayArgs) -> Result<Self, String> {
        let plain: Vec<&str> = header.iter().map(|h| h.trim().trim_start_matches('\u{feff}')).collect();
        let place = |name: &str| plain.iter().position(|h| *h == name);
        let needed = |name: &str| match place(name) {
            Some(_) if plain.iter().filter(|h| **h == name).count() > 1 => {
                Err(format!("line 1: two columns are named `{name}`; name each differently"))
            }
            Some(i) => Ok((i, name.to_owned())),
            None => Err(format!(
                "line 1: no column `{name}`; there are: {}",
                header.iter().collect::<Vec<_>>().join(", ")
            )),
        };
        let others = ["rpm", "speed_kmh", "intake_c", "ambient_c", "maf_g_s"];
        Ok(Self {
            time: needed(&args.time)?,
            signal: needed(&args.signal)?,
            others: others.into_iter().filter_map(|name| Some((place(name)?, name))).collect(),
        })
    }

    /// A row; none where the line is empty. Of a quantity that is only of help, what is no number is as good as absent.
    fn row(&self, record: &StringRecord) -> Result<Option<Row>, String> {
        if record.iter().all(|field| field.trim().is_empty()) {
            return Ok(None);
        }
        let number = |(place, name): &(usize, String)| match record.get(*place).unwrap_or("").trim() {
            "" => Ok(None),
            text => match text.parse::<f64>() {
                Ok(value) if value.is_finite() => Ok(Some(value)),
                _ => Err(format!(
                    "column `{name}`: `{}` is no number",
                    text.chars().take(40).collect::<String>()
                )),
            },
        };
        let t =
            number(&self.time)?.ok_or_else(|| format!("column `{}`: the time is missing", self.time.1))?;
        if !TIME_S.contains(&t) {
            return Err(format!("column `{}`: {t} s is further off than any log", self.time.1));
        }
        let others = self.others.iter().filter_map(|(place, name)| {
            let value = record.get(*place)?.trim().parse::<f64>().ok().filter(|v| v.is_finite())?;
            Some((*name, value))
        });
        Ok(Some(Row { t, signal: number(&self.signal)?, others: others.collect() }))
    }
}

/// The gate and its clock.
struct Replay {
    gate: Gate,
    of: Of,
    step: Option<Kelvins>,
    start: Option<f64>,
    now: Mono,
}

impl Replay {
    fn new(args: &ReplayArgs) -> Self {
        let by_name = if args.signal.starts_with("fluid") { Of::Fluid } else { Of::Coolant };
        let of = args.of.unwrap_or(by_name);
        let signal = match of {
            Of::Fluid => Signal::Fluid,
            Of::Coolant => Signal::Coolant,
        };
        let (low, high) = args.band;
        let check = Check { k: args.k, ..Check::of(signal, [low, high]) };
        let step = Kelvins::from_f64(args.step);
        Self { gate: Gate::new(&check, step), of, step, start: None, now: Mono::ZERO }
    }

    fn row(&mut self, row: &Row) -> OutputLine {
        let start = *self.start.get_or_insert(row.t);
        // A clock that steps back is no time travel: the row counts as read now.
        let at = Mono::from_millis(((row.t - start) * 1_000.0).round().max(0.0) as u64).max(self.now);
        self.pass_time(at);
        for (name, value) in &row.others {
            self.other(name, *value, at);
        }
        if let Some(celsius) = row.signal.map(Celsius::clamped) {
            let measure =
                if self.of == Of::Fluid { Measure::Fluid(celsius) } else { Measure::Coolant(celsius) };
            self.observe(measure, at);
        }
        self.now = at;
        let judged = self.gate.judge(at, &[]);
        let ahead = self.gate.band_ahead(at);
        OutputLine {
            t: row.t,
            celsius: judged.estimate.map(|e| e.celsius),
            u: judged.estimate.map(|e| e.u),
            verdict: judged.verdict,
            reasons: judged.reasons.to_vec(),
            opens_in: ahead.opens_in,
            closes_in: ahead.closes_in,
            back_in: judged.forecast.and_then(|f| f.back_in),
        }
    }

    /// What the gate would have said between the rows; after a pause it is not what it was before.
    fn pass_time(&mut self, until: Mono) {
        for _ in 0..MOST_DEADLINES {
            let Some(at) = self.gate.next_deadline().filter(|at| *at < until) else { return };
            let _ = self.gate.judge(at, &[]);
        }
    }

    fn other(&mut self, name: &str, value: f64, at: Mono) {
        let measure = match name {
            "rpm" => Rpm::from_f64(value).map(Measure::EngineSpeed),
            "speed_kmh" => KilometresPerHour::from_f64(value).map(Measure::VehicleSpeed),
            "intake_c" => Celsius::from_f64(value).map(Measure::IntakeAir),
            "ambient_c" => Celsius::from_f64(value).map(Measure::AmbientAir),
            "maf_g_s" => return self.gate.air_flow(value, at),
            _ => None,
        };
        if let Some(measure) = measure {
            self.observe(measure, at);
        }
    }

    fn observe(&mut self, measure: Measure, at: Mono) {
        self.gate.observe(&Reading { measure, step: self.step, from: None, age_ms: 0 }, at);
    }
}

/// The gate asks to be woken a few times after the last reading and then no more; this is a limit all the same.
/// Own choice: the gate asks to be woken a few times after the last reading and then no more; a fault must not run for
/// ever.
const MOST_DEADLINES: usize = 10_000;
