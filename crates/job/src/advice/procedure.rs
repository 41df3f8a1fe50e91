//! The procedure of one vehicle as data: every step with who confirms it, tools, torques, cautions and what is special.
//!
//! In: the sheet. Out: one [`Card`] a step, in the sheet's order; no sentence, so that each reader has it in a language of theirs.
//! Nothing here decides. Not here: where a step stands (`steps.rs`), what must come before what in a sheet's own order
//! (`events::sheet`), how it is said (the front ends).

use events::{Caution, Confirms, Drive, FillFrom, Hint, Look, Precondition, Right, Rim, Sheet, Step};
use units::NewtonMetres;

/// One step as a person needs it.
#[derive(Debug, Clone, PartialEq)]
pub struct Card {
    /// Which step.
    pub step: Step,
    /// What it is on this vehicle.
    pub says: Says,
    /// Who confirms it.
    pub who: Confirms,
    /// What must lie ready.
    pub tools: Vec<Hint>,
    /// What the sheet wants beside them, in its own words.
    pub own_tools: Vec<String>,
    /// Plugs that are tightened at this step, each with its torque.
    pub torques: Vec<(Plug, NewtonMetres)>,
    /// The cautions, shown when the step begins.
    pub cautions: Vec<Caution>,
    /// What to do or confirm, one line each.
    pub lines: Vec<CheckPoint>,
    /// What is special on this vehicle, in the words of its sheet.
    pub note: Option<String>,
    /// When it may be told out of its order without harm; absent where it may not.
    pub out_of_order: Option<Hint>,
}

/// What a step is.
#[derive(Debug, Clone, PartialEq)]
pub enum Says {
    /// What it is on most vehicles.
    Step(Step),
    /// Something of its own.
    Hint(Hint),
    /// One look.
    Look(Box<Look>),
    /// So many looks, one after the other; each is a line.
    Looks(usize),
}

/// A line of a step.
#[derive(Debug, Clone, PartialEq)]
pub enum CheckPoint {
    /// What is confirmed.
    Confirm(Precondition),
    /// What hurts or is forgotten.
    Hint(Hint),
    /// Drained and filled so often.
    Exchanges(u32),
    /// The selector's rounds.
    Selector {
        /// Its positions.
        positions: Vec<String>,
        /// How long at each, in seconds.
        dwell_s: u32,
        /// How often.
        rounds: u32,
    },
    /// One of several looks.
    Look {
        /// Which, from one on.
        number: usize,
        /// What is looked at.
        look: Box<Look>,
    },
    /// A wave that comes so often, in seconds.
    Wave(f64),
    /// How it must stand where that is not level, in degrees: nose up, left side up.
    Stand {
        /// Nose up is positive.
        pitch_deg: f64,
        /// Left side up is positive.
        roll_deg: f64,
    },
}

/// A plug with a torque of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Plug {
    /// The standpipe, where it screws in.
    Standpipe,
    /// The plug of the check port.
    CheckPort,
    /// The plug of the fill port.
    FillPort,
}

/// The whole procedure of a vehicle, one card a step, in the order of its sheet. A step that its looks do not have is left out: what is
/// looked at with the engine off asks for no start.
pub fn procedure(sheet: &Sheet) -> Vec<Card> {
    order_of(sheet).iter().filter(|step| concerns(sheet, **step)).map(|step| card(sheet, *step)).collect()
}

/// Whether the looks of the sheet have this step.
fn concerns(sheet: &Sheet, step: Step) -> bool {
    let looks = sheet.looks();
    let last = looks.last().map(|look| look.right);
    match step {
        Step::Circulate => looks.iter().any(|look| look.idles() || look.is_gated()),
        Step::Window => looks.iter().any(Look::is_gated),
        Step::RunOut => last != Some(Right::Amount),
        Step::Trickle => matches!(last, Some(Right::Trickle | Right::Drips | Right::FirstDrips)),
        Step::Close => !matches!(last, Some(Right::Amount | Right::Chart)),
        _ => true,
    }
}

/// What the step is on a vehicle with the sheet's looks.
fn says(sheet: &Sheet, step: Step) -> Says {
    let looks = sheet.looks();
    let last = looks.last().cloned().unwrap_or_default();
    match step {
        // The usual one: a pipe, looked at once, idling inside the band.
        _ if sheet.look.is_empty() && sheet.level.rim == Rim::Pipe => Says::Step(step),
        Step::Fill if last.right == Right::Amount => Says::Hint(Hint::FillStated),
        Step::Fill if sheet.level.fill_from != FillFrom::UpperPort => Says::Hint(Hint::FillThere),
        Step::RunOut => match looks.as_slice() {
            [one] => Says::Look(Box::new(one.clone())),
            many => Says::Looks(many.len()),
        },
        Step::Trickle if last.right != Right::Trickle => Says::Hint(Hint::OnlyDrips),
        Step::Close if sheet.level.rim != Rim::Pipe => Says::Hint(Hint::CloseByHand),
        step => Says::Step(step),
    }
}

/// The steps in the sheet's order.
pub(crate) fn order_of(sheet: &Sheet) -> &[Step] {
    sheet.steps.order.as_deref().unwrap_or(Step::ALL)
}

/// The cautions of a step: the usual ones and the sheet's. The brake only where the selector is moved.
pub(crate) fn cautions(sheet: &Sheet, step: Step) -> Vec<Caution> {
    let own = sheet.steps.of(step).map_or(&[][..], |plan| &plan.cautions);
    let mut all = Caution::at(step).to_vec();
    all.extend(own.iter().copied().filter(|c| !Caution::at(step).contains(c)));
    all.retain(|c| sheet.before.selector.is_some() || *c != Caution::BrakeHeld);
    all
}

fn card(sheet: &Sheet, step: Step) -> Card {
    let plan = sheet.steps.of(step).cloned().unwrap_or_default();
    let tools = if reads_a_gauge(sheet, step) { GAUGE_TOOLS } else { usual_tools(step) };
    Card {
        step,
        says: says(sheet, step),
        who: plan.who.unwrap_or_else(|| who(step)),
        tools: tools.to_vec(),
        own_tools: plan.tools,
        torques: torques(sheet, step),
        cautions: cautions(sheet, step),
        lines: lines(sheet, step),
        note: plan.note,
        out_of_order: out_of_order(step),
    }
}

const fn who(step: Step) -> Confirms {
    match step {
        Step::Circulate => Confirms::Inside,
        Step::Window => Confirms::Vehicle,
        Step::TestDrive | Step::Recheck => Confirms::Either,
        _ => Confirms::Under,
    }
}

const fn usual_tools(step: Step) -> &'static [Hint] {
    match step {
        Step::Prepare => &[Hint::FourStands, Hint::Inclinometer, Hint::ExhaustHose],
        Step::Drain => &[Hint::MeasuringJug, Hint::Thermometer, Hint::Tray, Hint::GlovesAndGlasses],
        Step::Fill => &[Hint::NewFluid, Hint::Pump],
        Step::RunOut => &[Hint::EmptyJug, Hint::Lamp],
        Step::Torque => &[Hint::TorqueWrench, Hint::NewSeals],
        _ => &[],
    }
}

fn torques(sheet: &Sheet, step: Step) -> Vec<(Plug, NewtonMetres)> {
    let Some(torque) = &sheet.torque_nm else { return Vec::new() };
    // The pipe is tightened after the drain, before the fill: later its port would have to be opened for it.
    let plugs: &[(Plug, Option<f64>)] = match step {
        Step::Drain => &[(Plug::Standpipe, torque.standpipe)],
        Step::Torque => &[(Plug::CheckPort, torque.check_port), (Plug::FillPort, torque.fill_port)],
        _ => &[],
    };
    plugs.iter().filter_map(|(plug, nm)| Some((*plug, NewtonMetres::clamped((*nm)?)))).collect()
}

fn lines(sheet: &Sheet, step: Step) -> Vec<CheckPoint> {
    let mut lines: Vec<CheckPoint> = Vec::new();
    match step {
        Step::Prepare => lines.extend(prepared(sheet)),
        Step::Fill if sheet.fluid.exchanges > 1 => lines.push(CheckPoint::Exchanges(sheet.fluid.exchanges)),
        Step::Circulate => lines.extend(sheet.before.selector.as_ref().map(|s| CheckPoint::Selector {
            positions: s.positions.clone(),
            dwell_s: s.dwell_s,
            rounds: s.rounds,
        })),
        Step::RunOut if sheet.look.len() > 1 => {
            let looks = sheet.look.iter().enumerate();
            lines.extend(
                looks.map(|(n, look)| CheckPoint::Look { number: n + 1, look: Box::new(look.clone()) }),
            );
        }
        _ => {}
    }
    if step == Step::RunOut {
        lines.extend(sheet.level.wave.map(|wave| CheckPoint::Wave(wave.every_s)));
    }
    if step == Step::Drain && sheet.level.drive != Drive::Engine {
        lines.push(CheckPoint::Hint(Hint::Orange));
    }
    let beside = if reads_a_gauge(sheet, step) { GAUGE } else { beside(step) };
    lines.extend(beside.iter().map(|hint| CheckPoint::Hint(*hint)));
    lines
}

/// What is confirmed before anything is opened, and how it must stand.
fn prepared(sheet: &Sheet) -> Vec<CheckPoint> {
    let wanted = [
        (Precondition::OnStands, true),
        (Precondition::Parked, true),
        (Precondition::VehicleLevel, sheet.level.rim != Rim::None),
        (Precondition::ExhaustOutside, sheet.level.drive != Drive::None),
        (Precondition::StartedCold, sheet.before.started_cold),
        (Precondition::CoolerBypass, sheet.before.cooler_bypass),
    ];
    let mut lines: Vec<CheckPoint> =
        wanted.into_iter().filter(|(_, asked)| *asked).map(|(what, _)| CheckPoint::Confirm(what)).collect();
    lines.extend(sheet.stand.air_springs.then_some(CheckPoint::Hint(Hint::AirSprings)));
    let (pitch_deg, roll_deg) = (sheet.stand.pitch_deg, sheet.stand.roll_deg);
    // Measured, not by eye.
    lines.extend((pitch_deg != 0.0 || roll_deg != 0.0).then_some(CheckPoint::Stand { pitch_deg, roll_deg }));
    lines
}

/// The step at the port is reading a gauge.
fn reads_a_gauge(sheet: &Sheet, step: Step) -> bool {
    step == Step::RunOut && sheet.level.rim == Rim::Gauge
}

const GAUGE_TOOLS: &[Hint] = &[Hint::ItsOwnGauge, Hint::Cloth, Hint::Lamp];
const GAUGE: &[Hint] = &[Hint::NoPortHere, Hint::ReadTwice, Hint::TwoMustAgree, Hint::CleanTheCap];

/// Lines beside a step that ask nothing: what hurts, and what is forgotten.
const fn beside(step: Step) -> &'static [Hint] {
    match step {
        Step::Prepare => &[Hint::OnALift, Hint::SitDownFirst],
        Step::Drain => &[Hint::WashHands, Hint::PhotoIfBlack],
        Step::Fill => &[Hint::NeverWhatRanOut],
        Step::Circulate => &[Hint::OutOfAPit],
        Step::RunOut => &[Hint::WipeAround, Hint::NewWasher],
        Step::Torque => &[Hint::FanMayStart],
        Step::TestDrive => &[Hint::WipeWhileHot],
        _ => &[],
    }
}

/// Where a step may be told out of its order: only where nothing rests on it yet. The rows of `decide.rs`.
const fn out_of_order(step: Step) -> Option<Hint> {
    match step {
        Step::Prepare => Some(Hint::AllButTheStands),
        Step::Circulate => Some(Hint::BrakeAnyTime),
        Step::TestDrive => Some(Hint::JugMayWait),
        _ => None,
    }
}
