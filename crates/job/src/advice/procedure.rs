//! The procedure of one vehicle as data: every step with who confirms it, tools, torques, cautions and what is special.
//!
//! In: the sheet. Out: one [`Card`] a step, in the sheet's order. A front end prints them; nothing here decides. Not here:
//! where a step stands (`steps.rs`), what must come before what in a sheet's own order (`events::sheet`).

use events::{
    Caution, Confirms, Drive, FillFrom, Look, LookEngine, Precondition, Right, Rim, Sheet, Stand, Step,
};
use units::NewtonMetres;

/// One step as a person needs it.
#[derive(Debug, Clone, PartialEq)]
pub struct Card {
    /// Which step.
    pub step: Step,
    /// What it is on this vehicle.
    pub says: String,
    /// Who confirms it.
    pub who: Confirms,
    /// What must lie ready.
    pub tools: Vec<String>,
    /// Plugs that are tightened at this step, each with its torque.
    pub torques: Vec<(Plug, NewtonMetres)>,
    /// The cautions, shown when the step begins.
    pub cautions: Vec<Caution>,
    /// What to do or confirm, one line each.
    pub lines: Vec<String>,
    /// What is special on this vehicle.
    pub note: Option<String>,
    /// When it may be told out of its order without harm; empty where it may not.
    pub out_of_order: &'static str,
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

impl Plug {
    /// Its name.
    pub const fn says(self) -> &'static str {
        match self {
            Self::Standpipe => "standpipe",
            Self::CheckPort => "check port",
            Self::FillPort => "fill port",
        }
    }
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

/// What the step is, in the words of the sheet's looks.
fn says(sheet: &Sheet, step: Step) -> String {
    let looks = sheet.looks();
    let last = looks.last().cloned().unwrap_or_default();
    match step {
        // The usual one: a pipe, looked at once, idling inside the band.
        _ if sheet.look.is_empty() && sheet.level.rim == Rim::Pipe => step.says().to_owned(),
        Step::Fill if last.right == Right::Amount => "Fill the stated amount, measured.".to_owned(),
        Step::Fill if sheet.level.fill_from != FillFrom::UpperPort => {
            "Fill through the opening that is looked at: what came out.".to_owned()
        }
        Step::RunOut => match looks.as_slice() {
            [one] => format!("Look: {}.", look_says(one)),
            many => format!("Look, {} times, one after the other.", many.len()),
        },
        Step::Trickle if last.right != Right::Trickle => "It only drips.".to_owned(),
        Step::Close if sheet.level.rim != Rim::Pipe => "Close it by hand.".to_owned(),
        step => step.says().to_owned(),
    }
}

/// One look, in words: `engine off, 60 to 180 s after the stop: the fluid stands at the lower edge`.
fn look_says(look: &Look) -> String {
    let engine = match look.engine {
        LookEngine::Idle => "idling",
        LookEngine::Off => "engine off",
        LookEngine::ReadyOff => "ready off",
    };
    let position = look.position.as_ref().map_or(String::new(), |p| format!(" in {p}"));
    let wait = match (look.wait_from_s(), look.wait_to_s()) {
        (0, None) => String::new(),
        (from, None) => format!(", after {from} s"),
        (from, Some(to)) => format!(", {from} to {to} s after the stop"),
    };
    let gate = if look.is_gated() { ", inside the band" } else { "" };
    let sign = match (look.right, look.mm) {
        (Right::Trickle, _) => "the excess runs out to a thin thread".to_owned(),
        (Right::FirstDrips, _) => "dry at first; drips begin before the high edge".to_owned(),
        (Right::Drips, _) => "it runs out until it only drips".to_owned(),
        (Right::BelowEdge, Some([low, high])) => {
            format!("the fluid stands {low} to {high} mm below the lower edge")
        }
        (Right::LowerEdge | Right::BelowEdge, _) => "the fluid stands at the lower edge".to_owned(),
        (Right::Chart, _) => "the gauge shows what the chart allows".to_owned(),
        (Right::Amount, _) => "the amounts are right".to_owned(),
    };
    let add = match look.then_add_ml {
        ml if ml > 0.0 => format!("; closed, then {ml} mL more"),
        _ => String::new(),
    };
    format!("{engine}{position}{wait}{gate}: {sign}{add}")
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
    let usual = if reads_a_gauge(sheet, step) { GAUGE_TOOLS } else { usual_tools(step) };
    let mut tools: Vec<String> = usual.iter().map(|t| (*t).to_owned()).collect();
    tools.extend(plan.tools);
    Card {
        step,
        says: says(sheet, step),
        who: plan.who.unwrap_or_else(|| who(step)),
        tools,
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

const fn usual_tools(step: Step) -> &'static [&'static str] {
    match step {
        Step::Prepare => {
            &["four stands or a lift made for it", "inclinometer, telephone or rule", "exhaust hose"]
        }
        Step::Drain => &["measuring jug", "thermometer", "tray", "gloves, eye protection"],
        Step::Fill => &["new fluid", "pump or funnel with hose"],
        Step::RunOut => &["empty measuring jug", "lamp"],
        Step::Torque => &["torque wrench", "new seals as the vehicle's maker says"],
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

fn lines(sheet: &Sheet, step: Step) -> Vec<String> {
    let word = |p: Precondition| p.says().to_owned();
    let mut lines: Vec<String> = Vec::new();
    match step {
        Step::Prepare => {
            lines.extend([word(Precondition::OnStands), word(Precondition::Parked)]);
            let looks = sheet.level.rim != Rim::None;
            lines.extend(looks.then(|| word(Precondition::VehicleLevel)));
            lines.extend((sheet.level.drive != Drive::None).then(|| word(Precondition::ExhaustOutside)));
            lines.extend(sheet.before.started_cold.then(|| word(Precondition::StartedCold)));
            lines.extend(sheet.before.cooler_bypass.then(|| word(Precondition::CoolerBypass)));
            lines.extend(sheet.stand.air_springs.then(|| AIR_SPRINGS.to_owned()));
            lines.extend(given_stand(sheet));
        }
        Step::Fill if sheet.fluid.exchanges > 1 => {
            let last = "before the last fill let the engine run through the positions each time";
            lines.push(format!("Drain and fill {} times; {last}.", sheet.fluid.exchanges));
        }
        Step::Circulate => {
            lines.extend(sheet.before.selector.as_ref().map(|s| {
                format!("{}: {} s at each, {} rounds", s.positions.join(" → "), s.dwell_s, s.rounds)
            }))
        }
        Step::RunOut if sheet.look.len() > 1 => {
            let looks = sheet.look.iter().enumerate();
            lines.extend(looks.map(|(n, look)| format!("Look {}: {}.", n + 1, look_says(look))));
        }
        _ => {}
    }
    if step == Step::RunOut
        && let Some(wave) = sheet.level.wave
    {
        lines.push(format!("A small wave every {} s is not the excess: look between two.", wave.every_s));
    }
    if step == Step::Drain && sheet.level.drive != Drive::Engine {
        lines.push(ORANGE.to_owned());
    }
    let beside = if reads_a_gauge(sheet, step) { GAUGE } else { beside(step) };
    lines.extend(beside.iter().map(|line| (*line).to_owned()));
    lines
}

/// The step at the port is reading a gauge.
fn reads_a_gauge(sheet: &Sheet, step: Step) -> bool {
    step == Step::RunOut && sheet.level.rim == Rim::Gauge
}

/// How it must stand where that is not level: measured, not by eye.
fn given_stand(sheet: &Sheet) -> Option<String> {
    let Stand { pitch_deg, roll_deg, .. } = sheet.stand;
    let side = |degrees: f64, up: &str, down: &str| match degrees {
        d if d > 0.0 => Some(format!("{d}° {up}")),
        d if d < 0.0 => Some(format!("{}° {down}", -d)),
        _ => None,
    };
    let parts: Vec<String> =
        [side(pitch_deg, "nose up", "nose down"), side(roll_deg, "left side up", "right side up")]
            .into_iter()
            .flatten()
            .collect();
    (!parts.is_empty())
        .then(|| format!("Not level: {}. Measure it, by eye does not count.", parts.join(", ")))
}

const GAUGE_TOOLS: &[&str] = &["the gauge that belongs to the vehicle", "cloth without lint", "lamp"];
const GAUGE: &[&str] = &[
    "No port is opened here: a gauge is read in its tube, in mm.",
    "Wipe it, push it to its stop, draw it, read it; then the same once more.",
    "Two that agree to 2 mm count. Not wiped, or not at its stop, it says nothing.",
    "Clean around the cap first; cap on again between two looks.",
];
const AIR_SPRINGS: &str = "Lifting mode on, the body held by stands or lift before anybody goes below.";
const ORANGE: &str = "Orange is high voltage: only for a person trained for it, and never cut or moved.";

/// Words beside a step that ask nothing: what hurts, and what is forgotten.
const fn beside(step: Step) -> &'static [&'static str] {
    match step {
        Step::Prepare => &[
            "On a lift: P, parking brake, get out. Raise it, lower it onto the locks; nobody below while it moves.",
            "Sit down before the other goes below; get out only when below is clear.",
        ],
        Step::Drain => &[
            "Gloves on, wash with soap, change soaked clothes.",
            "Black, burnt, metal in it: a photo, and the customer decides before you go on.",
        ],
        Step::Fill => &["New fluid only, never what ran out."],
        Step::Circulate => &["Out of a pit until it is time, the hose on."],
        Step::RunOut => &[
            "Wipe around the plug first, clean hose and pump.",
            "The new washer goes on the plug while it runs out.",
        ],
        Step::Torque => &["The fan may start by itself with the engine off: hands away."],
        Step::TestDrive => &["Wipe with a dry cloth while it is hot; spray only cold, engine off."],
        _ => &[],
    }
}

/// Where a step may be told out of its order: only where nothing rests on it yet. The rows of `decide.rs`.
const fn out_of_order(step: Step) -> &'static str {
    match step {
        Step::Prepare => "all but the stands, until the engine starts",
        Step::Circulate => "the brake at any time; positions only with the engine running",
        Step::TestDrive => "reading the jug may wait until after it",
        _ => "",
    }
}
