//! May this be told now? One row per request; every refusal is written out.
//!
//! In: the state, a request, the time, the verdict. Out: the bodies that accepting makes happen, or why not.
//! Not here: what the bodies change (`fold.rs`), what else follows (`follow.rs`).
//!
//! Two rules stand over the rows. What happened in the world is recorded even at the wrong time: an opened port and
//! a closed one are never refused for being early or late; the result says what it cost. What is only claimed
//! (a trickle that sets the level, a precondition) is refused while it cannot be true.

use events::{
    Body, Judged, Precondition, Refusal, Request, Sheet, Step, StepState, Surface, Told, Utc, Verdict,
};
use units::{Celsius, Millilitres, Mono};

use crate::follow::Scribe;
use crate::job::{Core, VerdictNow};
use crate::level;
use crate::live::{Cold, Engine, Live};
use crate::record::{Kind, Record, is_live};
use crate::round::{Ran, Round, Stream};

/// See [`crate::Job::decide`].
pub(crate) fn decide(
    core: &Core,
    told: &Told,
    now: Mono,
    at: Utc,
    sheet: &Sheet,
    verdict: &VerdictNow,
) -> Result<Vec<Body>, Refusal> {
    let mut scribe = Scribe::new(core, now, at, verdict.verdict);
    match (&core.record, &told.request) {
        (Some(record), Request::Start) if record.result.is_none() => return Err(Refusal::JobRunning),
        (_, Request::Start) => {
            scribe.put(Body::Told(told.clone()));
            let job = core.last_job.saturating_add(1);
            scribe.put(Body::Job { job, sheet: Box::new(sheet.clone()) });
        }
        (None, _) => return Err(Refusal::NoJob),
        (Some(record), _) if record.result.is_some() => return Err(Refusal::Ended),
        (Some(record), request) => {
            acceptable(record, &core.live, request, now, verdict)?;
            scribe.put(Body::Told(told.clone()));
        }
    }
    // Before the step at the port: what it is judged by includes what is open at this moment.
    scribe.preconditions();
    if let Some((step, state)) = at_port(&told.request) {
        scribe.step(step, state, Some(judged(verdict)));
    }
    scribe.rest();
    Ok(scribe.out)
}

/// The step at the port that a request is, and its state.
const fn at_port(request: &Request) -> Option<(Step, StepState)> {
    match request {
        Request::Flowing => Some((Step::RunOut, StepState::Started)),
        Request::NothingFlows => Some((Step::RunOut, StepState::Failed)),
        Request::Trickle => Some((Step::Trickle, StepState::Done)),
        Request::Closed => Some((Step::Close, StepState::Started)),
        _ => None,
    }
}

fn judged(verdict: &VerdictNow) -> Judged {
    Judged {
        verdict: verdict.verdict,
        celsius: verdict.estimate.map(|e| e.celsius),
        u: verdict.estimate.map(|e| e.u),
    }
}

/// The rows. `Ok` is accepted.
fn acceptable(
    record: &Record,
    live: &Live,
    request: &Request,
    now: Mono,
    verdict: &VerdictNow,
) -> Result<(), Refusal> {
    match request {
        // A job keeps the sheet that it began with.
        Request::Start | Request::Sheet { .. } => Err(Refusal::JobRunning),
        Request::Confirm { what } => confirm(record, live, *what, now),
        Request::Level { pitch_degrees, roll_degrees } => {
            let tilt = level::tilt(&record.sheet, Some((*pitch_degrees, *roll_degrees)));
            let tilt = tilt.ok_or(Refusal::ImpossibleValue)?;
            // What contradicts an earlier word, or tells how it stood when the port was open, is evidence.
            let news = record.holds(Precondition::VehicleLevel) || record.round.is_some();
            refuse_if(!level::stands_level(&record.sheet, tilt) && !news, Refusal::NotLevel)
        }
        Request::Drained { millilitres, celsius } => drained(record, *millilitres, *celsius),
        Request::Filled { millilitres, celsius } => filled(record, *millilitres, *celsius),
        Request::RanOut { millilitres, celsius } => ran_out(record, *millilitres, *celsius),
        Request::Spot { celsius, surface } => spot(*celsius, *surface),
        Request::Flowing => flowing(record, verdict.verdict),
        Request::NothingFlows => nothing_flows(record, verdict.verdict),
        Request::Trickle => trickle(record, verdict.verdict),
        Request::Closed => refuse_if(!record.port_open(), Refusal::PortClosed),
        Request::Torqued => {
            refuse_if(record.port_open(), Refusal::PortOpen)?;
            refuse_if(record.round.is_none(), Refusal::NotYet)?;
            refuse_if(record.torqued, Refusal::AlreadyDone)
        }
        Request::TestDriven => {
            refuse_if(!record.torqued, Refusal::NotYet)?;
            refuse_if(record.test_driven, Refusal::AlreadyDone)
        }
        Request::Done => Ok(()),
        Request::Undo => refuse_if(!record.can_undo(), Refusal::NothingToUndo),
        Request::Abort { why: text } | Request::Note { text } => {
            refuse_if(text.chars().count() > TEXT_LIMIT, Refusal::TooLong)
        }
    }
}

fn confirm(record: &Record, live: &Live, what: Precondition, now: Mono) -> Result<(), Refusal> {
    refuse_if(!record.needs(what), Refusal::NotNeeded)?;
    refuse_if(is_live(what), Refusal::ShownByVehicle)?;
    match what {
        Precondition::StartedCold => {
            let shown = record.cold.is_some() || live.shows_air() || live.cold(now) != Cold::Unknown;
            refuse_if(shown, Refusal::ShownByVehicle)?;
        }
        Precondition::Filled => refuse_if(!record.holds(what), Refusal::NotYet)?,
        Precondition::SelectorCycled => {
            let runs = live.engine(now, &record.sheet) == Engine::Running;
            let ready = runs && record.filled() && record.holds(Precondition::BrakeHeld);
            refuse_if(!ready && !record.holds(what), Refusal::NotYet)?;
        }
        _ => {}
    }
    refuse_if(record.holds(what), Refusal::AlreadyDone)
}

fn drained(record: &Record, amount: Millilitres, celsius: Option<Celsius>) -> Result<(), Refusal> {
    refuse_if(record.port_open(), Refusal::PortOpen)?;
    refuse_if(!record.holds(Precondition::OnStands), Refusal::NotYet)?;
    refuse_if(record.has(Kind::Drained), Refusal::AlreadyDone)?;
    possible(record, amount, celsius)
}

fn filled(record: &Record, amount: Millilitres, celsius: Option<Celsius>) -> Result<(), Refusal> {
    refuse_if(record.port_open(), Refusal::PortOpen)?;
    refuse_if(!record.has(Kind::Drained), Refusal::NotYet)?;
    possible(record, amount, celsius)?;
    let held = record.sum(Kind::Filled) + i64::from(amount.steps()) - record.sum(Kind::Drained);
    refuse_if(held as f64 > record.sheet.fluid.total_ml, Refusal::ImpossibleAmount)
}

fn ran_out(record: &Record, amount: Millilitres, celsius: Option<Celsius>) -> Result<(), Refusal> {
    refuse_if(record.round.is_none(), Refusal::PortClosed)?;
    refuse_if(record.port_open(), Refusal::PortOpen)?;
    possible(record, amount, celsius)?;
    let left = record.sum(Kind::Filled) - record.sum(Kind::Drained) - record.sum(Kind::RanOut);
    let was_in = record.sheet.fluid.total_ml + left as f64;
    refuse_if(amount.to_f64() > was_in, Refusal::MoreOutThanIn)
}

/// More than nothing, no more than the transmission holds, and a temperature that fluid in a workshop has.
fn possible(record: &Record, amount: Millilitres, celsius: Option<Celsius>) -> Result<(), Refusal> {
    let amount = amount.to_f64();
    refuse_if(amount <= 0.0 || amount > record.sheet.fluid.total_ml, Refusal::ImpossibleAmount)?;
    refuse_if(celsius.is_some_and(|t| !plausible(t)), Refusal::ImpossibleValue)
}

fn plausible(t: Celsius) -> bool {
    (PLAUSIBLE_C.0..=PLAUSIBLE_C.1).contains(&t.to_f64())
}

fn spot(celsius: Celsius, surface: Surface) -> Result<(), Refusal> {
    refuse_if(surface == Surface::BareMetal, Refusal::UselessSurface)?;
    refuse_if(!plausible(celsius), Refusal::ImpossibleValue)
}

/// An open port may be looked at again: fluid may come after all, and what was told too early may be told at `go`.
fn flowing(record: &Record, verdict: Verdict) -> Result<(), Refusal> {
    let Some(round) = record.round.as_ref().filter(|r| r.is_open()) else { return Ok(()) };
    let doubtful = !round.flowed_at_go() || round.ran != Ran::On;
    let news = round.stream == Stream::Nothing || (verdict == Verdict::Go && doubtful);
    refuse_if(!news, Refusal::AlreadyDone)
}

fn nothing_flows(record: &Record, verdict: Verdict) -> Result<(), Refusal> {
    let Some(round) = record.round.as_ref().filter(|r| r.is_open()) else { return Ok(()) };
    let open_question = round.stream == Stream::Nothing || round.ran == Ran::Stopped;
    let news = open_question && verdict == Verdict::Go && !round.nothing_at_go();
    refuse_if(!news, Refusal::AlreadyDone)
}

fn trickle(record: &Record, verdict: Verdict) -> Result<(), Refusal> {
    let Some(round) = record.round.as_ref().filter(|r| r.is_open()) else { return Err(Refusal::PortClosed) };
    refuse_if(round.trickle.is_some(), Refusal::AlreadyDone)?;
    refuse_if(verdict != Verdict::Go, Refusal::NotGo)?;
    refuse_if(!Round::flowed_at_go(round), Refusal::NotYet)
}

const fn refuse_if(condition: bool, refusal: Refusal) -> Result<(), Refusal> {
    if condition { Err(refusal) } else { Ok(()) }
}

/// As the interface says.
const TEXT_LIMIT: usize = 200;
/// Fluid that somebody holds a thermometer to: from an unheated yard to the end of the volume formula.
const PLAUSIBLE_C: (f64, f64) = (-40.0, 150.0);
