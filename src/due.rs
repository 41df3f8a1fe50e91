//! `due`: the rechecks that are due, as a list or as a calendar.

mod calendar;

use clap::{Args, ValueEnum};
use events::Utc;
use events::text::shown;
use service::Due;

use crate::failure::Failure;
use crate::jobs::Journal;
use crate::report::Times;
use crate::screen::Screen;

/// In which form.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Form {
    /// Text for people.
    Text,
    /// JSON Lines.
    Json,
    /// A calendar (iCalendar, RFC 5545), to be read by any calendar program.
    Ics,
}

/// Arguments of `due`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  standpipe due\n  standpipe due --within 30d\n  standpipe due --within 365d --form ics > rechecks.ics\n\nA recheck is done when `standpipe tell recheck JOB` was begun and ended with a level."
)]
pub struct DueArgs {
    #[command(flatten)]
    journal: Journal,
    /// Due from long ago up to so many days from now: 14d, 4w.
    #[arg(long, default_value = "14d", value_parser = days, value_name = "DAYS")]
    within: u32,
    /// Count from this day instead of today.
    #[arg(long, value_parser = crate::jobs::day, value_name = "DAY")]
    from: Option<Utc>,
    /// In which form; text on a terminal, JSON otherwise.
    #[arg(long, value_enum)]
    form: Option<Form>,
    /// At most so many, the oldest first.
    #[arg(long, default_value_t = 500, value_name = "N")]
    limit: u32,
}

/// Milliseconds in a day.
/// By definition.
const DAY_MS: i64 = 86_400_000;
/// No look ahead is longer, in days.
/// Own choice: a hundred years; beyond it is a slip of the keyboard.
const FURTHEST_DAYS: u32 = 36_500;

fn days(text: &str) -> Result<u32, String> {
    let like = || format!("`{text}` is no number of days or weeks like 14d or 4w");
    let (number, each) =
        match text.strip_suffix('d').map(|n| (n, 1)).or(text.strip_suffix('w').map(|n| (n, 7))) {
            Some(split) => split,
            None => return Err(like()),
        };
    let number: u32 = number.parse().map_err(|_| like())?;
    number.checked_mul(each).filter(|n| *n <= FURTHEST_DAYS).ok_or_else(like)
}

/// `due`.
pub fn run(args: &DueArgs, screen: Screen) -> Result<(), Failure> {
    let from = args.from.unwrap_or_else(today);
    let until = from.plus_days(args.within.saturating_add(1));
    let due = service::due(&args.journal.path(), until, args.limit)?;
    let form = args.form.unwrap_or(if screen.is_json() { Form::Json } else { Form::Text });
    // The days are those that stand on the report.
    let times = Times::here();
    match form {
        Form::Json => due.iter().try_for_each(|one| screen.json(one)),
        // Its line ends are its own; what stands in it is spelled out where it is made.
        Form::Ics => {
            screen.whole(calendar::calendar(&args.journal.bay, &due, &times).trim_end_matches("\r\n"))
        }
        Form::Text if due.is_empty() => screen.line("nothing is due"),
        Form::Text => due.iter().try_for_each(|one| screen.line(&row(one, from, &times))),
    }
}

/// Today by the clock of this machine: days are for people.
fn today() -> Utc {
    let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap_or_default();
    let millis = i64::try_from(since.as_millis()).unwrap_or_default();
    Utc::from_millis(millis.div_euclid(DAY_MS) * DAY_MS)
}

fn row(due: &Due, today: Utc, times: &Times) -> String {
    let day = |at: Utc| times.date(at);
    let late = (today.as_millis() - due.due.as_millis()).div_euclid(DAY_MS);
    let when = match late {
        1.. => format!("{late} days late"),
        0 => "today".to_owned(),
        _ => format!("in {} days", -late),
    };
    let vehicle = due.vehicle.as_ref().map_or(String::new(), |v| format!("{v}, "));
    let what = shown(&format!("{vehicle}{}", due.sheet)).into_owned();
    format!("{}  {when:<14} job {:>6} of {}  {what}", day(due.due), due.job, day(due.ended))
}
