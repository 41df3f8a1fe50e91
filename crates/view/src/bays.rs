//! Many bays on one board: a row each, the most urgent first.
//!
//! In: what is known of each bay, and how old it is. Out: rows in their order. A board is for whoever looks after all of them: nobody
//! works by it. What is old or unheard is never `go`. Pure. Not here: how it is heard (`relay`), how it is drawn (the front ends).

use core::time::Duration;

use events::{Reason, Snapshot, Verdict};
use serde::Serialize;
use words::Speech;

use crate::seat::Seat;
use crate::view::{Clock, Surface};
use crate::why::{interval, later};

/// What is known of one bay.
#[derive(Debug, Clone, Copy)]
pub struct KnownBay<'a> {
    /// Its name.
    pub bay: &'a str,
    /// Its daemon is there.
    pub present: bool,
    /// Its state, where one was heard.
    pub state: Option<&'a Snapshot>,
    /// How long ago that came; absent where it lay there before anybody listened, and may be of any age.
    pub age: Option<Duration>,
}

/// How urgent a bay is, the most urgent first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Urgency {
    /// Its check port is open.
    PortOpen,
    /// It is at the right temperature, for so many seconds at the least.
    Closing,
    /// It will be.
    Opening,
    /// A job runs there, and nobody hears of it.
    Lost,
    /// A job runs and waits for hands.
    Hands,
    /// Nothing runs there.
    Quiet,
}

/// A bay on the board.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BayRow {
    /// Its name.
    pub bay: String,
    /// Where it stands among the others.
    pub urgency: Urgency,
    /// The state of its surface.
    pub surface: Surface,
    /// Its word.
    pub word: &'static str,
    /// What the hands below do there; or that nobody hears of it.
    pub now: String,
    /// The interval that matters.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub clock: Option<Clock>,
    /// The sheet and the vehicle, where a job has them: what is searched for.
    pub about: String,
    /// The seconds that it is ordered by among those as urgent.
    #[serde(skip)]
    left: u32,
}

/// A state that is older says nothing of now: while a job runs it changes each second.
/// Own choice: as `view` doubts a reading, with the way through a broker.
const OLD: Duration = Duration::from_secs(10);

/// All of them, the most urgent first; those as urgent by what is left, then by name.
pub fn rows(bays: &[KnownBay<'_>], speech: Speech) -> Vec<BayRow> {
    let mut rows: Vec<BayRow> = bays.iter().map(|heard| row(heard, speech)).collect();
    rows.sort_by(|one, other| {
        (one.urgency, one.left, &one.bay).cmp(&(other.urgency, other.left, &other.bay))
    });
    rows
}

/// Whether a row is what somebody looks for: its bay, sheet or vehicle has the text in it, in any case of letters.
pub fn is_sought(row: &BayRow, text: &str) -> bool {
    let text = text.to_lowercase();
    row.bay.to_lowercase().contains(&text) || row.about.to_lowercase().contains(&text)
}

fn row(heard: &KnownBay<'_>, speech: Speech) -> BayRow {
    let job = heard.state.and_then(Snapshot::running);
    let about = job.map_or_else(String::new, |job| {
        let vehicle = job.vehicle.as_ref().map_or_else(String::new, |vehicle| format!(" · {vehicle}"));
        format!("{}{vehicle}", job.sheet)
    });
    let is_open = job.is_some_and(|job| job.port_open);
    let live = heard.state.filter(|_| heard.present && heard.age.is_some_and(|age| age <= OLD));
    let bay = heard.bay.to_owned();
    let Some(state) = live else {
        let says = match (is_open, heard.present, job.is_some()) {
            (true, ..) => "close-port-nothing-known",
            // It is there, nothing runs, and so nothing is said.
            (false, true, false) => "bay-is-quiet",
            (false, ..) => "bay-is-not-heard",
        };
        let urgency = match (is_open, job.is_some()) {
            (true, _) => Urgency::PortOpen,
            (false, true) => Urgency::Lost,
            (false, false) => Urgency::Quiet,
        };
        let (surface, now) = (Surface::NoReading, speech.text(says).to_owned());
        let word = surface.word(speech.lang);
        return BayRow { bay, urgency, surface, word, now, clock: None, about, left: 0 };
    };
    let surface = surface(state);
    let age = heard.age.unwrap_or_default().as_secs_f64();
    let ahead = state.forecast.unwrap_or_default();
    let (span, what) = match surface {
        Surface::Wait => (ahead.opens_in, "until-window-opens"),
        Surface::Go => (ahead.closes_in, "until-window-closes"),
        Surface::TooHot => (ahead.back_in, "until-back-in-band"),
        Surface::NoReading => (None, "until-window-opens"),
    };
    let span = span.and_then(|span| later(span, age)).filter(|_| job.is_some());
    let urgency = match (is_open, job.is_some(), surface, span.is_some()) {
        (true, ..) => Urgency::PortOpen,
        (_, true, Surface::Go, _) => Urgency::Closing,
        (_, true, Surface::Wait | Surface::TooHot, true) => Urgency::Opening,
        (_, true, Surface::NoReading, _) if state.reasons.contains(&Reason::LinkLost) => Urgency::Lost,
        (_, true, ..) => Urgency::Hands,
        (_, false, ..) => Urgency::Quiet,
    };
    let left = span.map_or(u32::MAX, |span| span.low.max(0.0) as u32);
    let clock = span.map(|span| Clock { text: interval(span), what: speech.text(what) });
    let now = Seat::Under.sentence(&state.said, speech);
    BayRow { bay, urgency, surface, word: surface.word(speech.lang), now, clock, about, left }
}

/// The verdict as a surface; none where nothing is read.
fn surface(state: &Snapshot) -> Surface {
    if state.reasons.iter().any(|reason| reason.is_blind()) {
        return Surface::NoReading;
    }
    match state.verdict {
        Verdict::Go => Surface::Go,
        Verdict::Wait => Surface::Wait,
        Verdict::TooHot => Surface::TooHot,
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test")]
mod tests {
    use events::{Forecast, Interval, JobView, People, Sheet};

    use super::*;

    fn running(verdict: Verdict, reason: Reason) -> Snapshot {
        let sheet = Sheet::parse(include_str!("../../../fixtures/sheets/demo-six-speed.toml")).unwrap();
        let empty = Snapshot::default();
        let job = JobView::new(1, &sheet, empty.at, None, People::default());
        Snapshot { verdict, reasons: vec![reason], job: Some(job), ..empty }
    }

    fn in_seconds(seconds: f64) -> Option<Interval> {
        Some(Interval { low: seconds, median: seconds * 1.5, high: seconds * 2.0, coverage: 0.8 })
    }

    fn heard<'a>(bay: &'a str, state: &'a Snapshot) -> KnownBay<'a> {
        KnownBay { bay, present: true, state: Some(state), age: Some(Duration::from_secs(1)) }
    }

    #[test]
    fn the_most_urgent_comes_first() {
        let mut open = running(Verdict::Wait, Reason::BelowBand);
        open.job.as_mut().unwrap().port_open = true;
        let go = Snapshot {
            forecast: Some(Forecast { closes_in: in_seconds(60.0), ..Forecast::default() }),
            ..running(Verdict::Go, Reason::InBand)
        };
        let warms = |seconds| Snapshot {
            forecast: Some(Forecast { opens_in: in_seconds(seconds), ..Forecast::default() }),
            ..running(Verdict::Wait, Reason::BelowBand)
        };
        let (soon, later) = (warms(120.0), warms(900.0));
        let unplugged = running(Verdict::Wait, Reason::LinkLost);
        let (hands, quiet) = (running(Verdict::Wait, Reason::PreconditionOpen), Snapshot::default());
        let bays = [
            heard("a-quiet", &quiet),
            heard("b-hands", &hands),
            heard("c-unplugged", &unplugged),
            heard("d-later", &later),
            heard("e-soon", &soon),
            heard("f-go", &go),
            heard("g-open", &open),
        ];
        let rows = rows(&bays, Speech::default());
        let order: Vec<&str> = rows.iter().map(|row| row.bay.as_str()).collect();
        assert_eq!(order, ["g-open", "f-go", "e-soon", "d-later", "c-unplugged", "b-hands", "a-quiet"]);
        assert_eq!(rows[1].surface, Surface::Go);
        assert!(rows[2].clock.as_ref().is_some_and(|clock| clock.text.contains("min")), "{:?}", rows[2]);
    }

    #[test]
    fn what_is_old_unheard_or_of_unknown_age_is_never_go() {
        let go = running(Verdict::Go, Reason::InBand);
        let now = heard("left", &go);
        assert_eq!(row(&now, Speech::default()).surface, Surface::Go);
        for doubt in [
            KnownBay { age: Some(Duration::from_secs(11)), ..now },
            KnownBay { age: None, ..now },
            KnownBay { present: false, ..now },
            KnownBay { state: None, ..now },
        ] {
            let row = row(&doubt, Speech::default());
            assert_eq!((row.surface, row.clock), (Surface::NoReading, None), "{doubt:?}");
        }
    }

    #[test]
    fn a_port_that_was_open_when_it_was_last_heard_of_comes_first_and_is_to_be_closed() {
        let mut open = running(Verdict::Go, Reason::InBand);
        open.job.as_mut().unwrap().port_open = true;
        let lost = KnownBay { present: false, ..heard("left", &open) };
        let row = row(&lost, Speech::default());
        assert_eq!(row.urgency, Urgency::PortOpen);
        assert_eq!(row.now, Speech::default().text("close-port-nothing-known"));
    }

    #[test]
    fn it_is_found_by_bay_sheet_and_vehicle() {
        let mut state = running(Verdict::Wait, Reason::BelowBand);
        state.job.as_mut().unwrap().vehicle = Some("QL 42 ZZ".to_owned());
        let row = row(&heard("Left", &state), Speech::default());
        for text in ["left", "six-speed", "ql 42"] {
            assert!(is_sought(&row, text), "{text}");
        }
        assert!(!is_sought(&row, "right"));
    }
}
