//! `plan`: what the job will take, from the sheet alone.
//!
//! Volumes and sensitivities are physics (`fluid`); times come from a usual car at idle and may be wrong by a
//! factor of two, which is said beside them.

mod html;
mod md;
mod say;

use std::path::PathBuf;

use clap::{Args, ValueEnum};
use events::text::shown_lines;
use events::{Caution, Confirms, Sheet, Signal, Step};
use fluid::run_out::{Drain, RunOut, Standpipe as Pipe, TRICKLE_ML_MIN};
use fluid::thermal::{Nodes, TwoNode, Window};
use fluid::volume::SetAt;
use fluid::{FluidError, tilt, viscosity, volume};
use job::{Card, Plug, Worth};
use serde::Serialize;
use units::text::{UnitSystem, celsius};
use units::{Celsius, Millilitres, NewtonMetres};
use words::{Lang, Speech};

use crate::failure::{Exit, Failure};
use crate::screen::Screen;
use say::Teller;

/// In which form.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Form {
    /// Text for people.
    Md,
    /// One self-contained page that prints.
    Html,
    /// Data.
    Json,
}

/// Arguments of `plan`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  standpipe plan --sheet my-vehicle.toml\n  standpipe plan --sheet my-vehicle.toml --air 8C --units us\n  standpipe plan --sheet my-vehicle.toml --lang de --form html > plan.html"
)]
pub struct PlanArgs {
    /// The sheet of the vehicle; the built-in demonstration where absent.
    #[arg(long, value_name = "FILE")]
    sheet: Option<PathBuf>,
    /// Today's temperature in the workshop, which the vehicle has after a night.
    #[arg(long, value_parser = celsius, default_value = "20C", value_name = "TEMPERATURE", allow_hyphen_values = true)]
    air: Celsius,
    /// In which form; text on a terminal, data otherwise.
    #[arg(long, value_enum)]
    form: Option<Form>,
}

/// What the job will take. Positive millilitres of an error are too much fluid.
#[derive(Debug, Serialize)]
struct Plan {
    sheet: String,
    air_celsius: Celsius,
    band_celsius: [Celsius; 2],
    #[serde(skip_serializing_if = "Option::is_none")]
    hot: Option<Hot>,
    signal: Signal,
    fluid: String,
    /// How often it is drained and filled.
    exchanges: u32,
    /// What one drain brings out.
    drain_millilitres: Millilitres,
    /// What leaves with filter, cooler and pan beside the drain, as far as the sheet says.
    parts_millilitres: Millilitres,
    /// What goes in altogether: every drain again, the parts, and the margin once.
    fill_millilitres: Millilitres,
    /// What a container holds, and how many are needed.
    container_millilitres: Millilitres,
    containers: u32,
    buy_millilitres: Millilitres,
    /// What is to be handed in afterwards: all that comes out, the run-out too.
    waste_millilitres: Millilitres,
    /// How much of the fluid is fresh afterwards, at best, in percent.
    fresh_percent: u8,
    /// What must run out at mid-band if the level was right before and both were measured cold.
    run_out_millilitres: Millilitres,
    run_out_seconds: Option<f64>,
    opens_seconds: Span,
    window_seconds: Span,
    millilitres_per_kelvin: f64,
    /// What the law of the level over the temperature leaves out.
    leaves_out: &'static str,
    /// The name of the message that says so.
    #[serde(skip)]
    leaves_out_name: &'static str,
    /// A warm day: what that does to the window.
    #[serde(skip_serializing_if = "Option::is_none")]
    hot_day: Option<HotDay>,
    millilitres_per_degree_pitch: f64,
    millilitres_per_degree_roll: f64,
    tilt_allowed_degrees: f64,
    /// What a wrong temperature or a tilt leaves, row by row.
    sensitivity: Vec<Effect>,
    torques_newton_metres: Vec<(&'static str, NewtonMetres)>,
    #[serde(skip)]
    torques: Vec<(Plug, NewtonMetres)>,
    steps: Vec<StepPlan>,
    /// What nobody gave, and what it costs.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    guessed: Vec<Guessed>,
    /// The ± of the level at best, with what was guessed.
    #[serde(skip_serializing_if = "Option::is_none")]
    expanded_millilitres: Option<f64>,
    /// The one value that would help most.
    #[serde(skip_serializing_if = "Option::is_none")]
    most: Option<String>,
    #[serde(skip)]
    worth: Option<Worth>,
    /// What nobody has confirmed: no job begins before.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    unconfirmed: Vec<String>,
    #[serde(skip)]
    unconfirmed_keys: Vec<String>,
}

/// One value that was guessed.
#[derive(Debug, Serialize)]
struct Guessed {
    key: String,
    says: String,
}

/// One row of the sensitivity table.
#[derive(Debug, Serialize)]
struct Effect {
    /// What is off.
    what: &'static str,
    #[serde(skip)]
    of: Off,
    /// By how much, in its unit.
    by: f64,
    unit: &'static str,
    millilitres: f64,
    millimetres: f64,
    /// Whether the sheet still calls it set.
    within: bool,
}

/// What may be off.
#[derive(Debug, Clone, Copy)]
enum Off {
    Temperature,
    Nose,
    LeftSide,
}

impl Off {
    /// What data call it.
    const fn word(self) -> &'static str {
        match self {
            Self::Temperature => "temperature",
            Self::Nose => "nose up",
            Self::LeftSide => "left side up",
        }
    }
}

/// One step of the checklist.
#[derive(Debug, Serialize)]
struct StepPlan {
    step: Step,
    says: String,
    who: Confirms,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    tools: Vec<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    lines: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    note: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    cautions: Vec<Caution>,
    #[serde(skip)]
    card: Card,
}

/// A time as a span: a usual car with and without exchange with the coolant.
#[derive(Debug, Serialize)]
struct Span {
    #[serde(skip_serializing_if = "Option::is_none")]
    low: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    high: Option<f64>,
}

/// `plan`.
pub fn run(args: &PlanArgs, screen: Screen) -> Result<(), Failure> {
    let sheet = crate::given::sheet(args.sheet.as_deref())?;
    let plan = made(&sheet, args.air)?;
    match args.form {
        Some(Form::Json) => screen.json(&plan),
        None if screen.is_json() => screen.json(&plan),
        Some(Form::Html) => {
            screen.line(shown_lines(html::page(&plan, &Teller(screen.speech())).trim_end()).as_ref())
        }
        _ => screen.line(md::text(&plan, &Teller(screen.speech())).trim_end()),
    }
}

/// The plan as text, for a start at the usual temperature of a workshop.
pub fn text(sheet: &Sheet, speech: Speech) -> Result<String, Failure> {
    Ok(md::text(&made(sheet, Celsius::clamped(WORKSHOP_C))?, &Teller(speech)))
}

/// The second band, for hot places.
#[derive(Debug, Serialize)]
struct Hot {
    from_air_celsius: Celsius,
    band_celsius: [Celsius; 2],
}

/// What a warm day does to the window.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
enum HotDay {
    /// The second band counts.
    SecondBand,
    /// The first band counts, and there is a second one from a warmer air on.
    BelowTheSecond,
    /// There is no second band.
    NoSecond,
}

impl HotDay {
    /// So near to the band, or in it, the window opens soon after the start, and is short.
    /// Own choice: ten minutes of warming at the least.
    const NEAR_K: f64 = 10.0;

    fn of(sheet: &Sheet, air: Celsius, hot: bool) -> Option<Self> {
        if sheet.is_in_the_heat() {
            return Some(Self::SecondBand);
        }
        let near = air.to_f64() >= sheet.check.low().to_f64() - Self::NEAR_K;
        near.then_some(if hot { Self::BelowTheSecond } else { Self::NoSecond })
    }
}

/// What `--air` is where it is not said, °C.
/// Own choice: a heated workshop.
const WORKSHOP_C: f64 = 20.0;

fn made(sheet: &Sheet, air: Celsius) -> Result<Plan, Failure> {
    Plan::new(sheet, air).map_err(|e| {
        Failure::new(Exit::Data, format!("the sheet {:?} cannot be planned with: {e}", sheet.name))
    })
}

impl Plan {
    fn new(sheet: &Sheet, air: Celsius) -> Result<Self, FluidError> {
        let hot = sheet.check.hot_band_c.zip(sheet.check.hot_from_air_c);
        let sheet = &sheet.for_air(Some(air));
        let (check, fluid, pipe) = (&sheet.check, &sheet.fluid, &sheet.standpipe);
        let middle = check.middle();
        let rounds = f64::from(fluid.exchanges);
        let parts: f64 = [fluid.filter_ml, fluid.cooler_ml, fluid.pan_ml].into_iter().flatten().sum();
        let fill = rounds * fluid.drain_ml + parts + fluid.margin_ml;
        let containers = (fill / fluid.container_ml).ceil().clamp(1.0, 10_000.0);
        let each = ((fluid.drain_ml + parts / rounds) / fluid.total_ml).min(1.0);
        let net = volume::move_volume(volume::VolumeMove {
            millilitres: fluid.margin_ml,
            from_celsius: air.to_f64(),
            to_celsius: middle.to_f64(),
            density_15: fluid.density_15,
        })?;
        let nu =
            viscosity::Walther::from_40_and_100(fluid.mm2_s_40, fluid.mm2_s_100)?.mm2_s(middle.to_f64())?;
        let geometry = Pipe {
            area_m2: pipe.surface_m2,
            bore_mm: pipe.bore_mm,
            rim_mm: pipe.rim_mm,
            length_mm: pipe.length_mm,
        };
        let run_out =
            Drain::new(RunOut::new(geometry, nu)?, net.millilitres, 0.0)?.trickle(TRICKLE_ML_MIN)?;
        let windows =
            [TwoNode::THROUGH_THE_COOLER, TwoNode::PAST_THE_COOLER].map(|car| window(car, air, sheet));
        let [fast, slow] = windows;
        let (fast, slow) = (fast?, slow?);
        let looked = sheets::look(sheet);
        let length = |w: Option<Window>| w.and_then(|w| Some(w.closes_s? - w.opens_s));
        let place =
            tilt::PipePlace { dx_mm: pipe.offset_mm[0], dy_mm: pipe.offset_mm[1], area_m2: pipe.surface_m2 };
        let degree = |pitch_deg, roll_deg| tilt::at_pipe(tilt::Attitude { pitch_deg, roll_deg }, place);
        let (pitch, roll) = (degree(1.0, 0.0)?.millilitres, degree(0.0, 1.0)?.millilitres);
        Ok(Self {
            sheet: sheet.name.clone(),
            air_celsius: air,
            band_celsius: [check.low(), check.high()],
            signal: check.signal,
            hot: hot.map(|(band, from)| Hot {
                from_air_celsius: Celsius::clamped(from),
                band_celsius: band.map(Celsius::clamped),
            }),
            fluid: fluid.kind.clone(),
            exchanges: fluid.exchanges,
            drain_millilitres: Millilitres::clamped(fluid.drain_ml),
            parts_millilitres: Millilitres::clamped(parts),
            fill_millilitres: Millilitres::clamped(fill),
            container_millilitres: Millilitres::clamped(fluid.container_ml),
            containers: containers as u32,
            buy_millilitres: Millilitres::clamped(containers * fluid.container_ml),
            waste_millilitres: Millilitres::clamped(fill),
            fresh_percent: ((1.0 - (1.0 - each).powf(rounds)) * 100.0) as u8,
            run_out_millilitres: Millilitres::clamped(net.millilitres),
            run_out_seconds: run_out.map(|t| t.seconds.round()),
            opens_seconds: Span {
                low: fast.map(|w| w.opens_s.round()),
                high: slow.map(|w| w.opens_s.round()),
            },
            window_seconds: Span { low: length(fast).map(f64::round), high: length(slow).map(f64::round) },
            millilitres_per_kelvin: off_by_ml(sheet, 1.0)?,
            leaves_out: Lang::En.text(leaves_out(sheet)),
            leaves_out_name: leaves_out(sheet),
            hot_day: HotDay::of(sheet, air, hot.is_some()),
            millilitres_per_degree_pitch: pitch,
            millilitres_per_degree_roll: roll,
            tilt_allowed_degrees: check.tolerance_ml / 2.0 / pitch.hypot(roll).max(1.0),
            sensitivity: sensitivity(sheet)?,
            torques_newton_metres: torques(sheet).into_iter().map(|(plug, nm)| (word(plug), nm)).collect(),
            torques: torques(sheet),
            steps: job::procedure(sheet).into_iter().map(StepPlan::from).collect(),
            expanded_millilitres: looked
                .worth
                .as_ref()
                .filter(|w| !w.guesses.is_empty())
                .map(|w| w.expanded_ml),
            most: looked.most(),
            guessed: looked.guessed.into_iter().map(|f| Guessed { key: f.key, says: f.says }).collect(),
            worth: looked.worth,
            unconfirmed_keys: looked.unconfirmed.iter().map(|f| f.key.clone()).collect(),
            unconfirmed: looked.unconfirmed.into_iter().map(|f| f.says).collect(),
        })
    }

    /// Whether the vehicle's looks have this step.
    fn has(&self, step: Step) -> bool {
        self.steps.iter().any(|one| one.step == step)
    }
}

impl From<Card> for StepPlan {
    /// In data it is English, and metric.
    fn from(card: Card) -> Self {
        let teller = Teller(Speech::english(UnitSystem::Metric));
        let note = teller.note(&card);
        Self {
            step: card.step,
            says: teller.says(&card),
            who: card.who,
            tools: teller.tools(&card),
            lines: teller.lines(&card),
            note: (!note.is_empty()).then(|| note.join("; ")),
            cautions: card.cautions.clone(),
            card,
        }
    }
}

/// The cautions that hold whatever the step.
fn stop_rules() -> impl Iterator<Item = Caution> {
    Caution::ALL.iter().copied().filter(|c| c.is_stop_rule())
}

/// What being off costs: temperature at closing, nose up, left side up.
fn sensitivity(sheet: &Sheet) -> Result<Vec<Effect>, FluidError> {
    let (check, pipe) = (&sheet.check, &sheet.standpipe);
    let place =
        tilt::PipePlace { dx_mm: pipe.offset_mm[0], dy_mm: pipe.offset_mm[1], area_m2: pipe.surface_m2 };
    let effect = |of: Off, by, unit, millilitres: f64| -> Result<Effect, FluidError> {
        let millimetres = fluid::level::height_mm(millilitres, pipe.surface_m2)?;
        Ok(Effect {
            what: of.word(),
            of,
            by,
            unit,
            millilitres,
            millimetres,
            within: millilitres.abs() <= check.tolerance_ml,
        })
    };
    let mut rows = Vec::new();
    for by in [-10.0, -5.0, -2.0, 2.0, 5.0, 10.0] {
        rows.push(effect(Off::Temperature, by, "celsius", off_by_ml(sheet, by)?)?);
    }
    for (of, pitch, roll) in [(Off::Nose, 1.0, 0.0), (Off::LeftSide, 0.0, 1.0)] {
        for by in [-1.0, -0.5, 0.5, 1.0] {
            let attitude = tilt::Attitude { pitch_deg: by * pitch, roll_deg: by * roll };
            rows.push(effect(of, by, "degrees", tilt::at_pipe(attitude, place)?.millilitres)?);
        }
    }
    Ok(rows)
}

/// What closing so many kelvins above mid-band leaves: the law of the daemon's own result.
fn off_by_ml(sheet: &Sheet, kelvins: f64) -> Result<f64, FluidError> {
    if let Some(ml) = job::off_by_temperature_ml(sheet, kelvins) {
        return Ok(ml);
    }
    let middle = sheet.check.middle().to_f64();
    // Why the law gives nothing.
    volume::set_error_ml(SetAt {
        total_ml: sheet.fluid.total_ml,
        set_celsius: middle + kelvins,
        check_celsius: middle,
        density_15: sheet.fluid.density_15,
    })
}

/// What the law of the level over the temperature leaves out: the name of its message.
const fn leaves_out(sheet: &Sheet) -> &'static str {
    match sheet.fluid.ml_per_k {
        Some(_) => "plan-leaves-out-slope",
        None => "plan-leaves-out-thermostat",
    }
}

/// When the band opens and closes for a usual car; `None` where it never gets there.
fn window(car: TwoNode, air: Celsius, sheet: &Sheet) -> Result<Option<Window>, FluidError> {
    let start = Nodes { engine: air.to_f64(), trans: air.to_f64() };
    let course = TwoNode { air_c: air.to_f64(), ..car }.from(start)?;
    course.window(sheet.check.low().to_f64(), sheet.check.high().to_f64())
}

fn torques(sheet: &Sheet) -> Vec<(Plug, NewtonMetres)> {
    let Some(torque) = &sheet.torque_nm else { return Vec::new() };
    let plugs = [
        (Plug::Standpipe, torque.standpipe),
        (Plug::CheckPort, torque.check_port),
        (Plug::FillPort, torque.fill_port),
    ];
    plugs.into_iter().filter_map(|(plug, nm)| Some((plug, NewtonMetres::clamped(nm?)))).collect()
}

/// What data call a plug.
const fn word(plug: Plug) -> &'static str {
    match plug {
        Plug::Standpipe => "standpipe",
        Plug::CheckPort => "check port",
        Plug::FillPort => "fill port",
    }
}

#[cfg(test)]
mod tests;
