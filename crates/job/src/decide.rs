//! May this be told now? One row per request; every refusal is written out.
//!
//! In: the state, a request, the time, the verdict. Out: the bodies that accepting makes happen, or why not.
//! Not here: what the bodies change (`fold.rs`), what else follows (`follow.rs`).
//!
//! Two rules stand over the rows. What happened in the world is recorded even at the wrong time: an opened port and
//! a closed one are never refused for being early or late; the result says what it cost. What is only claimed
//! (a trickle that sets the level, a precondition) is refused while it cannot be true.

use events::{
    Body, Judged, People, Precondition, Refusal, Request, Right, Sheet, Signal, Step, StepState, Surface,
    Task, Told, Utc, Verdict, Way,
};
use units::{Celsius, Millilitres, Mono};

use crate::follow::Scribe;
use crate::live::{Cold, Engine, Live};
use crate::port::gauge::Shows;
use crate::port::looks::Height;
use crate::port::round::{Ran, Round, Stream};
use crate::record::Record;
use crate::state::{Core, VerdictNow};
use crate::told::ledger::{Flow, Kind, part_ml};
use crate::told::stand::Stand;
use crate::told::tilt;

/// See [`crate::Job::decide`].
pub(crate) fn decide(
    core: &Core,
    told: &Told,
    now: Mono,
    at: Utc,
    sheet: &Sheet,
    verdict: &VerdictNow,
) -> Result<Vec<Body>, Refusal> {
    let mut scribe = Scribe::new(core, now, at, verdict);
    match (&core.record, &told.request) {
        (Some(record), Request::Start { .. } | Request::Recheck { .. }) if record.result.is_none() => {
            return Err(Refusal::JobRunning);
        }
        // A danger to a person is told from any seat at any time, and that it is over too.
        (_, Request::Alarm { .. }) => {
            scribe.put(Body::Told(told.clone()));
        }
        (_, Request::Confirm { what: Precondition::AllSafe }) => {
            refuse_if(core.alarm.is_none(), Refusal::NotNeeded)?;
            scribe.put(Body::Told(told.clone()));
        }
        // It is for the job to come.
        (record, Request::Air { celsius }) if record.as_ref().is_none_or(|r| r.result.is_some()) => {
            refuse_if(sheet.check.hot_band_c.is_none(), Refusal::NotNeeded)?;
            air(*celsius, &core.live)?;
            scribe.put(Body::Told(told.clone()));
        }
        // What another workshop sent, or what nobody knew, gates nothing before a person has confirmed it.
        (_, Request::Start { .. } | Request::Recheck { .. }) if !sheet.unconfirmed.is_empty() => {
            return Err(Refusal::SheetUnconfirmed);
        }
        (_, Request::Start { job, people }) => begin(&mut scribe, core, told, sheet, (None, *job, *people)),
        (_, Request::Recheck { of }) => {
            refuse_if(*of == 0 || *of > core.last_job, Refusal::NoSuchJob)?;
            begin(&mut scribe, core, told, sheet, (Some(*of), Task::Change, People::Two));
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
    if matches!(told.request, Request::Engine { .. }) {
        scribe.proof();
    }
    for (step, state) in core.record.as_ref().map_or_else(Vec::new, |record| at_port(record, &told.request)) {
        scribe.step(step, state, Some(judged(verdict)));
    }
    // A look that has counted is followed by another one, which asks for other things.
    scribe.preconditions();
    scribe.rest();
    Ok(scribe.out)
}

fn begin(
    scribe: &mut Scribe<'_>,
    core: &Core,
    told: &Told,
    sheet: &Sheet,
    (recheck_of, task, people): (Option<u64>, Task, People),
) {
    scribe.put(Body::Told(told.clone()));
    let job = core.last_job.saturating_add(1);
    scribe.put(Body::Job { job, sheet: Box::new(sheet.clone()), recheck_of, task, people, uptime: None });
}

/// The stand that a refused word tells.
pub(crate) fn tilted(core: &Core, request: &Request) -> Option<Body> {
    let record = core.record.as_ref()?;
    let stand = match request {
        Request::Level { pitch_degrees, roll_degrees } => {
            Stand::by_inclination(*pitch_degrees, *roll_degrees)
        }
        Request::Corners { .. } => Stand::of_corners(&record.sheet, request)?.ok()?,
        _ => return None,
    };
    Some(Body::Tilted { pitch_degrees: stand.pitch, roll_degrees: stand.roll })
}

/// The steps at the port that a request is, and their states.
fn at_port(record: &Record, request: &Request) -> Vec<(Step, StepState)> {
    if let Request::Gauge { .. } = request {
        let low = record.gauge_shows() == Shows::Low;
        return vec![(Step::RunOut, if low { StepState::Failed } else { StepState::Started })];
    }
    let opens = [(Step::RunOut, StepState::Started)];
    let sign = [(Step::Trickle, StepState::Done)];
    if let Some(height) = record.height(request) {
        return match height {
            Height::Right => [opens, sign].concat(),
            Height::Low => vec![(Step::RunOut, StepState::Failed)],
            Height::High => opens.to_vec(),
        };
    }
    match request {
        Request::Flowing if record.is_a_wave() => vec![],
        Request::Flowing => opens.to_vec(),
        Request::NothingFlows => vec![(Step::RunOut, StepState::Failed)],
        Request::Drips if record.drips_come_first() => [opens, sign].concat(),
        Request::Trickle | Request::Drips => sign.to_vec(),
        Request::Closed => vec![(Step::Close, StepState::Started)],
        _ => vec![],
    }
}

fn judged(verdict: &VerdictNow) -> Judged {
    Judged::by(verdict.verdict, verdict.estimate)
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
        Request::Start { .. } | Request::Sheet { .. } | Request::Recheck { .. } => Err(Refusal::JobRunning),
        Request::Confirm { what } => confirm(record, live, *what, now),
        Request::Level { pitch_degrees, roll_degrees } => {
            stands(record, Stand::by_inclination(*pitch_degrees, *roll_degrees))
        }
        Request::Corners { .. } => match Stand::of_corners(&record.sheet, request) {
            Some(stand) => stands(record, stand?),
            None => Ok(()),
        },
        Request::Drained { millilitres, celsius } => drained(record, *millilitres, *celsius),
        Request::Filled { millilitres, celsius } => filled(record, *millilitres, *celsius),
        Request::RanOut { millilitres, celsius } => ran_out(record, *millilitres, *celsius),
        Request::Spilled { millilitres, of } => spilled(record, *millilitres, *of),
        Request::TakenOut { part, millilitres, celsius } => {
            let amount = millilitres.or_else(|| part_ml(&record.sheet, *part).map(Millilitres::clamped));
            refuse_if(record.port_open(), Refusal::PortOpen)?;
            refuse_if(!record.changes(), Refusal::NotNeeded)?;
            goes_out(record, amount.ok_or(Refusal::AmountUnknown)?, *celsius)
        }
        Request::Kept { millilitres } => {
            possible(record, *millilitres, None)?;
            let out = record.flowed_ml(|f| matches!(f, Flow::Out | Flow::Over));
            let kept: f64 =
                record.ledger.iter().filter(|e| e.kind == Kind::Kept).map(|e| e.amount.to_f64()).sum();
            refuse_if(kept + millilitres.to_f64() > out, Refusal::ImpossibleAmount)
        }
        Request::Shifted { position } => shifted(record, live, position, now),
        Request::Vehicle { text } | Request::Particular { text, .. } => {
            refuse_if(text.chars().count() > NAME_LIMIT, Refusal::TooLong)?;
            record.words.more(now)
        }
        Request::Photo { sha256, name } => {
            let hex = |c: char| c.is_ascii_digit() || ('a'..='f').contains(&c);
            refuse_if(sha256.len() != 64 || !sha256.chars().all(hex), Refusal::NotAHash)?;
            refuse_if(name.chars().count() > NAME_LIMIT, Refusal::TooLong)?;
            record.words.more(now)
        }
        Request::Spot { celsius, surface } => thermometer(*celsius, *surface),
        // Whoever searches has weighed it before.
        Request::Candidate { .. } => Err(Refusal::NotSearching),
        Request::Display { celsius } => {
            refuse_if(record.sheet.check.signal != Signal::Display, Refusal::NotNeeded)?;
            refuse_if(!plausible(*celsius), Refusal::ImpossibleValue)
        }
        Request::Air { celsius } => {
            refuse_if(record.sheet.check.hot_band_c.is_none(), Refusal::NotNeeded)?;
            air(*celsius, live)?;
            let begun = record.motion.circulated
                || record.port.rounds > 0
                || record.said.holds.contains(Precondition::EngineRunning);
            refuse_if(begun || record.for_air(*celsius).is_none(), Refusal::BandDecided)
        }
        Request::Lamp { .. } => refuse_if(!record.by_lamp(), Refusal::NotNeeded),
        // With an adapter the vehicle's word wins.
        Request::Engine { .. } => refuse_if(!live.people, Refusal::ShownByVehicle),
        // There is no port: nothing is opened.
        Request::Flowing | Request::NothingFlows if record.reads_a_gauge() => Err(Refusal::NotTheSign),
        Request::Flowing => flowing(record, verdict.verdict),
        Request::NothingFlows => nothing_flows(record, verdict.verdict, now),
        Request::Trickle | Request::Drips => sign(record, request, verdict.verdict),
        Request::AtEdge | Request::BelowEdge { .. } => at_edge(record, request),
        // What is read is told at any time; the result says what it is worth.
        Request::Gauge { millimetres } => {
            refuse_if(!record.reads_a_gauge(), Refusal::NotTheSign)?;
            refuse_if(!GAUGE_MM.contains(&millimetres.to_f64()), Refusal::ImpossibleValue)
        }
        Request::LeakAt { .. } => refuse_if(!record.asked.leaks(), Refusal::NotYet),
        Request::Symptom { .. } | Request::FluidLooks { .. } => Ok(()),
        Request::Leak { .. } | Request::NoDrive | Request::FluidWrong | Request::Alarm { .. } => Ok(()),
        Request::Closed => refuse_if(!record.port_open(), Refusal::PortClosed),
        Request::Torqued => {
            refuse_if(record.port_open(), Refusal::PortOpen)?;
            refuse_if(record.port.round.is_none() && !record.amount_only(), Refusal::NotYet)?;
            refuse_if(record.plugs.are_torqued(), Refusal::AlreadyDone)
        }
        Request::TestDriven => {
            refuse_if(!record.plugs.are_torqued(), Refusal::NotYet)?;
            refuse_if(record.plugs.are_driven(), Refusal::AlreadyDone)
        }
        Request::Done => Ok(()),
        Request::Undo => refuse_if(!record.can_undo(), Refusal::NothingToUndo),
        Request::Note { text } => {
            refuse_if(text.chars().count() > TEXT_LIMIT, Refusal::TooLong)?;
            record.words.more(now)
        }
        // The end of a job is never refused for what was written before it.
        Request::Abort { why } => refuse_if(why.chars().count() > TEXT_LIMIT, Refusal::TooLong),
    }
}

fn confirm(record: &Record, live: &Live, what: Precondition, now: Mono) -> Result<(), Refusal> {
    // A cold start is asked for before the first look, though it counts at a later one.
    let ahead = what == Precondition::StartedCold && record.wants_cold();
    refuse_if(!record.needs(what) && !ahead, Refusal::NotNeeded)?;
    refuse_if(what.is_live(), Refusal::ShownByVehicle)?;
    match what {
        Precondition::StartedCold => {
            let shown = record.motion.cold.is_some()
                || live.shows_air()
                || live.cold(now, &record.sheet) != Cold::Unknown;
            refuse_if(shown, Refusal::ShownByVehicle)?;
        }
        Precondition::Filled => refuse_if(!record.holds(what), Refusal::NotYet)?,
        Precondition::SelectorCycled => {
            refuse_if(!may_shift(record, live, now) && !record.holds(what), Refusal::NotYet)?;
        }
        // Told once more it begins anew; from the wrong seat it is taken down and frees nothing.
        Precondition::Clear => return Ok(()),
        Precondition::InPosition => {
            refuse_if(!record.holds(Precondition::SelectorCycled), Refusal::NotYet)?;
        }
        Precondition::OnStands if record.hands.lowered => return Ok(()),
        Precondition::ExhaustOutside
            if record.hands.exhaust_due(record.idled_ms(now), record.sheet.stop.idle_min) =>
        {
            return Ok(());
        }
        _ => {}
    }
    refuse_if(record.holds(what), Refusal::AlreadyDone)
}

/// Engine seen running, fluid in, brake held: the selector may be moved.
fn may_shift(record: &Record, live: &Live, now: Mono) -> bool {
    let runs = live.engine(now, &record.sheet) == Engine::Running;
    runs && record.filled() && !record.awaits_fill() && record.holds(Precondition::BrakeHeld)
}

fn shifted(record: &Record, live: &Live, position: &str, now: Mono) -> Result<(), Refusal> {
    let selector = record.sheet.before.selector.as_ref().ok_or(Refusal::NotNeeded)?;
    refuse_if(!may_shift(record, live, now), Refusal::NotYet)?;
    record.selector.told.accepts(selector, position, now)
}

/// What contradicts an earlier word, or tells how it stood when the port was open, is evidence and never refused.
fn stands(record: &Record, stand: Stand) -> Result<(), Refusal> {
    let tilt = tilt::tilt(&record.sheet, Some(stand)).ok_or(Refusal::ImpossibleValue)?;
    let news = record.holds(Precondition::VehicleLevel) || record.port.round.is_some();
    refuse_if(!tilt::stands_level(&record.sheet, tilt) && !news, Refusal::NotLevel)
}

/// Once, and once more after each fill: several rounds of draining and filling. The rest that comes with a pipe that had stayed in is
/// told beside it.
fn drained(record: &Record, amount: Millilitres, celsius: Option<Celsius>) -> Result<(), Refusal> {
    refuse_if(record.port_open(), Refusal::PortOpen)?;
    // A check changes no fluid, but for the wrong one that got in, and for what was far too much.
    let lets_out = record.hands.wrong_in || record.too_much_in();
    refuse_if(!record.changes() && !lets_out, Refusal::NotNeeded)?;
    refuse_if(!record.holds(Precondition::OnStands), Refusal::NotYet)?;
    let the_rest =
        record.needs(Precondition::PipeIn) && !record.holds(Precondition::PipeIn) && record.little_out();
    refuse_if(record.awaits_fill() && !the_rest, Refusal::AlreadyDone)?;
    goes_out(record, amount, celsius)
}

fn filled(record: &Record, amount: Millilitres, celsius: Option<Celsius>) -> Result<(), Refusal> {
    refuse_if(record.port_open() && !record.fills_at_the_port(), Refusal::PortOpen)?;
    refuse_if(!record.drained(), Refusal::NotYet)?;
    possible(record, amount, celsius)?;
    // As much again as the whole of it does not go in, whatever was missing before.
    let after = record.inside_ml() + amount.to_f64();
    refuse_if(after > 2.0 * record.sheet.fluid.total_ml, Refusal::ImpossibleAmount)
}

fn ran_out(record: &Record, amount: Millilitres, celsius: Option<Celsius>) -> Result<(), Refusal> {
    refuse_if(record.port.rounds == 0, Refusal::PortClosed)?;
    refuse_if(record.port_open(), Refusal::PortOpen)?;
    goes_out(record, amount, celsius)
}

fn spilled(record: &Record, amount: Millilitres, of: Way) -> Result<(), Refusal> {
    possible(record, amount, None)?;
    match of {
        // Some of it is in: no more can have missed than was poured.
        Way::Filled => {
            let poured = record.flowed_ml(|f| f == Flow::In) - record.flowed_ml(|f| f == Flow::NotIn);
            refuse_if(amount.to_f64() > poured, Refusal::ImpossibleAmount)
        }
        Way::Drained => {
            refuse_if(!record.has(Kind::Drained), Refusal::NotYet)?;
            goes_out(record, amount, None)
        }
        Way::RanOut => {
            refuse_if(record.port.rounds == 0, Refusal::PortClosed)?;
            goes_out(record, amount, None)
        }
    }
}

/// Possible, and no more than is in it.
fn goes_out(record: &Record, amount: Millilitres, celsius: Option<Celsius>) -> Result<(), Refusal> {
    possible(record, amount, celsius)?;
    refuse_if(amount.to_f64() > record.inside_ml(), Refusal::MoreOutThanIn)
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

/// The air outside, where the vehicle shows none.
fn air(celsius: Celsius, live: &Live) -> Result<(), Refusal> {
    refuse_if(!(AIR_C.0..=AIR_C.1).contains(&celsius.to_f64()), Refusal::ImpossibleValue)?;
    refuse_if(live.shows_outside(), Refusal::ShownByVehicle)
}

/// Whether a thermometer's reading may be taken down.
///
/// # Errors
/// Where it says nothing of the fluid, or cannot be.
pub fn thermometer(celsius: Celsius, surface: Surface) -> Result<(), Refusal> {
    refuse_if(surface == Surface::BareMetal, Refusal::UselessSurface)?;
    refuse_if(!plausible(celsius), Refusal::ImpossibleValue)
}

/// An open port may be looked at again: fluid may come after all, and what was told too early may be told at `go`.
fn flowing(record: &Record, verdict: Verdict) -> Result<(), Refusal> {
    let Some(round) = record.port.round.as_ref().filter(|r| r.is_open()) else { return Ok(()) };
    let doubtful = !round.flowed_at_go() || round.ran != Ran::On;
    if record.is_a_wave() {
        // It says nothing, and is taken down.
        return Ok(());
    }
    // A stream that was called a trickle too soon may flow on, and one comes after what was put in.
    let nothing = matches!(round.stream, Stream::Nothing | Stream::Dry | Stream::Poured);
    let news = nothing || round.gush || (verdict == Verdict::Go && doubtful);
    refuse_if(!news, Refusal::AlreadyDone)
}

fn nothing_flows(record: &Record, verdict: Verdict, now: Mono) -> Result<(), Refusal> {
    let Some(round) = record.port.round.as_ref().filter(|r| r.is_open()) else { return Ok(()) };
    // What came was only what stood on the plug.
    let gush = (record.has_a_gush() || record.expects_a_stream())
        && round.trickle.is_none()
        && round.may_be_a_gush(now);
    let open_question =
        matches!(round.stream, Stream::Nothing | Stream::Poured) || round.ran == Ran::Stopped || gush;
    let news = open_question && verdict == Verdict::Go && !round.nothing_at_go();
    refuse_if(!news, Refusal::AlreadyDone)
}

/// A sign of a stream. Where drips are the sign they may be the first thing that is seen; a thin thread is more than drips.
fn sign(record: &Record, request: &Request, verdict: Verdict) -> Result<(), Refusal> {
    let wanted = record.look().right;
    let drips = matches!(wanted, Right::Drips | Right::FirstDrips);
    let known = match request {
        Request::Drips => drips || wanted == Right::Trickle,
        _ => wanted == Right::Trickle,
    };
    refuse_if(!known, Refusal::NotTheSign)?;
    let round = record.port.round.as_ref().filter(|r| r.is_open());
    refuse_if(round.is_none() && !drips, Refusal::PortClosed)?;
    refuse_if(round.is_some_and(|r| r.trickle.is_some()), Refusal::AlreadyDone)?;
    refuse_if(verdict != Verdict::Go, Refusal::NotGo)?;
    let flowed = round.is_some_and(Round::flowed_at_go);
    refuse_if(!flowed && !record.drips_come_first(), Refusal::NotYet)
}

/// Where the fluid stands in the open hole. What is seen is told at any time; the result says what it is worth.
fn at_edge(record: &Record, request: &Request) -> Result<(), Refusal> {
    let height = record.height(request).ok_or(Refusal::NotTheSign)?;
    let round = record.port.round.as_ref().filter(|r| r.is_open());
    let told = round.is_some_and(|r| r.trickle.is_some() && height == Height::Right);
    refuse_if(told, Refusal::AlreadyDone)
}

const fn refuse_if(condition: bool, refusal: Refusal) -> Result<(), Refusal> {
    if condition { Err(refusal) } else { Ok(()) }
}

/// As the interface says.
/// Source: docs/interface.md; own choice there: three rows of a report.
const TEXT_LIMIT: usize = 200;
/// A plate, a file's name.
/// Own choice: one row of a report; the longest plate has some ten characters.
const NAME_LIMIT: usize = 80;
/// Fluid that somebody holds a thermometer to.
/// Own choice: from an unheated yard to the end of the volume formula (150 °C, ASTM D1250-80, from memory); beyond it
/// is a slip of the finger.
const PLAUSIBLE_C: (f64, f64) = (-40.0, 150.0);
/// Air that people work in.
/// Own choice: the coldest yard to a closed workshop in the sun; beyond it is a slip of the finger.
const AIR_C: (f64, f64) = (-40.0, 60.0);
/// As long as the gauges of charts are.
/// By definition: as long as the gauges of charts are (`events::Sheet`, 0 to 500 mm).
const GAUGE_MM: core::ops::RangeInclusive<f64> = 0.0..=500.0;
