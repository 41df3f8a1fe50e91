//! `plan`: what the job will take, from the sheet alone.
//!
//! Volumes and sensitivities are physics (`fluid`); times come from a usual car at idle and may be wrong by a
//! factor of two, which is said beside them.

mod html;

use std::path::PathBuf;

use clap::{Args, ValueEnum};
use events::text::shown_lines;
use events::{Caution, Confirms, Sheet, Signal, Step};
use fluid::run_out::{Drain, RunOut, Standpipe as Pipe, TRICKLE_ML_MIN};
use fluid::thermal::{Nodes, TwoNode, Window};
use fluid::volume::SetAt;
use fluid::{FluidError, tilt, viscosity, volume};
use serde::Serialize;
use units::text::{UnitSystem, celsius, show_celsius, show_millilitres, show_newton_metres};
use units::{Celsius, Millilitres, NewtonMetres};

use crate::failure::{Exit, Failure};
use crate::markdown::md;
use crate::screen::Screen;

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
    after_help = "Examples:\n  standpipe plan --sheet my-vehicle.toml\n  standpipe plan --sheet my-vehicle.toml --air 8C --units us\n  standpipe plan --sheet my-vehicle.toml --form html > plan.html"
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
    /// A warm day: what that does to the window.
    #[serde(skip_serializing_if = "Option::is_none")]
    hot_day: Option<HotDay>,
    millilitres_per_degree_pitch: f64,
    millilitres_per_degree_roll: f64,
    tilt_allowed_degrees: f64,
    /// What a wrong temperature or a tilt leaves, row by row.
    sensitivity: Vec<Effect>,
    torques_newton_metres: Vec<(&'static str, NewtonMetres)>,
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
    /// What nobody has confirmed: no job begins before.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    unconfirmed: Vec<String>,
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
    /// By how much, in its unit.
    by: f64,
    unit: &'static str,
    millilitres: f64,
    millimetres: f64,
    /// Whether the sheet still calls it set.
    within: bool,
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
        Some(Form::Html) => screen.line(shown_lines(html::page(&plan, screen.units).trim_end()).as_ref()),
        _ => screen.line(plan.text(screen.units).trim_end()),
    }
}

/// The plan as text, for a start at the usual temperature of a workshop.
pub fn text(sheet: &Sheet, units: UnitSystem) -> Result<String, Failure> {
    Ok(made(sheet, Celsius::clamped(WORKSHOP_C))?.text(units))
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

    const fn says(self) -> &'static str {
        match self {
            Self::SecondBand => {
                "The band for hot places counts today. Where the vehicle does not show the outside air, tell it as the job begins."
            }
            Self::BelowTheSecond => {
                "The fluid starts near the band: the window opens soon and is short. Begin in the cool of the morning; the band for hot places does not count yet."
            }
            Self::NoSecond => {
                "The fluid starts near the band: the window opens soon and is short. Begin in the cool of the morning. The vehicle data has no band for hot places; its maker may."
            }
        }
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
            leaves_out: leaves_out(sheet),
            hot_day: HotDay::of(sheet, air, hot.is_some()),
            millilitres_per_degree_pitch: pitch,
            millilitres_per_degree_roll: roll,
            tilt_allowed_degrees: check.tolerance_ml / 2.0 / pitch.hypot(roll).max(1.0),
            sensitivity: sensitivity(sheet)?,
            torques_newton_metres: torques(sheet),
            steps: job::procedure(sheet).into_iter().map(StepPlan::from).collect(),
            expanded_millilitres: looked
                .worth
                .as_ref()
                .filter(|w| !w.guesses.is_empty())
                .map(|w| w.expanded_ml),
            most: looked.most(),
            guessed: looked.guessed.into_iter().map(|f| Guessed { key: f.key, says: f.says }).collect(),
            unconfirmed: looked.unconfirmed.into_iter().map(|f| f.says).collect(),
        })
    }

    /// The figures, in words: what, and how much.
    fn figures(&self, units: UnitSystem) -> Vec<(&'static str, String)> {
        let ml = |v| show_millilitres(v, units);
        let minutes = |s: &Span| match (s.low, s.high) {
            (Some(low), Some(high)) => {
                format!("{:.0} to {:.0} min", low.min(high) / 60.0, low.max(high) / 60.0)
            }
            _ => "cannot be told".to_owned(),
        };
        let [low, high] = self.band_celsius.map(|t| show_celsius(t, units));
        let rounds = if self.exchanges > 1 { format!(" {} times", self.exchanges) } else { String::new() };
        let parts = if self.parts_millilitres > Millilitres::ZERO {
            format!(", {} for filter, cooler and pan", ml(self.parts_millilitres))
        } else {
            String::new()
        };
        vec![
            (
                "buy",
                format!(
                    "{} × {} ({} of {})",
                    self.containers,
                    ml(self.container_millilitres),
                    ml(self.buy_millilitres),
                    self.fluid
                ),
            ),
            (
                "fill",
                format!(
                    "about {}: a drain of {}{rounds}{parts}{}",
                    ml(self.fill_millilitres),
                    ml(self.drain_millilitres),
                    if self.run_out_millilitres > Millilitres::ZERO { ", and the margin" } else { "" }
                ),
            ),
            ("waste oil", format!("about {} to be handed in", ml(self.waste_millilitres))),
            ("fresh afterwards", format!("{} % at best", self.fresh_percent)),
            (
                "will run out",
                format!("about {} at mid-band, if the level was right before", ml(self.run_out_millilitres)),
            ),
            (
                "to a trickle",
                self.run_out_seconds.map_or("cannot be told".to_owned(), |s| {
                    format!("about {s:.0} s after opening (a guide, never a decision)")
                }),
            ),
            (
                "band",
                format!("{low} to {high}, by {}", self.signal.says().to_lowercase().trim_end_matches('.')),
            ),
            (
                "hot place",
                self.hot.as_ref().map_or(String::new(), |hot| {
                    let [low, high] = hot.band_celsius.map(|t| show_celsius(t, units));
                    let from = show_celsius(hot.from_air_celsius, units);
                    format!(
                        "{low} to {high} from {from} outside on, shown by the vehicle or told as the job begins"
                    )
                }),
            ),
            (
                "window opens",
                format!(
                    "{} after a cold start in {} (a usual car; wrong by up to a factor of two)",
                    minutes(&self.opens_seconds),
                    show_celsius(self.air_celsius, units)
                ),
            ),
            ("window lasts", format!("{} (the same doubt)", minutes(&self.window_seconds))),
            ("hot day", self.hot_day.map_or(String::new(), |day| day.says().to_owned())),
            ("a degree", self.degree()),
            ("left out", self.leaves_out.to_owned()),
            (
                "a tilt",
                format!(
                    "{:+.0} mL for 1° nose up, {:+.0} mL for 1° left side up; keep within {:.1}°",
                    self.millilitres_per_degree_pitch,
                    self.millilitres_per_degree_roll,
                    self.tilt_allowed_degrees
                ),
            ),
        ]
    }

    /// What a degree costs, and which way it goes.
    fn degree(&self) -> String {
        let (cold, warm) =
            if self.millilitres_per_kelvin < 0.0 { ("too full", "low") } else { ("low", "too full") };
        format!(
            "{:+.1} mL for each °C too warm at closing: closed too cold it ends {cold}, too warm {warm}",
            self.millilitres_per_kelvin
        )
    }

    /// Those that this vehicle's looks have: no window where none waits for the temperature, no run-out where none is
    /// watched.
    fn figures_of_the_looks(&self, units: UnitSystem) -> Vec<(&'static str, String)> {
        let has = |step: Step| self.steps.iter().any(|one| one.step == step);
        let shown = |what: &str| match what {
            "hot place" => self.hot.is_some() && has(Step::Window),
            "hot day" => self.hot_day.is_some() && has(Step::Window),
            "band" | "window opens" | "window lasts" | "a degree" | "left out" => has(Step::Window),
            "will run out" | "to a trickle" => has(Step::Trickle),
            "a tilt" => has(Step::RunOut),
            _ => true,
        };
        self.figures(units).into_iter().filter(|(what, _)| shown(what)).collect()
    }

    fn text(&self, units: UnitSystem) -> String {
        let mut out = format!("# Plan: {}\n\n", md(&self.sheet));
        for (what, text) in self.figures_of_the_looks(units) {
            out += &format!("- {what}: {}\n", md(&text));
        }
        for (plug, torque) in &self.torques_newton_metres {
            out += &format!("- torque, {plug}: {}\n", show_newton_metres(*torque, units));
        }
        if !self.unconfirmed.is_empty() {
            out += "\n## Nobody has confirmed\n\n";
            self.unconfirmed.iter().for_each(|says| out += &format!("- {}\n", md(says)));
        }
        if !self.guessed.is_empty() {
            out += "\n## Guessed\n\n";
            self.guessed.iter().for_each(|guess| out += &format!("- {}\n", md(&guess.says)));
            self.most.iter().for_each(|most| out += &format!("\n{}\n", md(most)));
        }
        out += "\n## What it costs to be off\n\n| off by | level error | at the pipe | |\n| --- | ---: | ---: | --- |\n";
        for effect in &self.sensitivity {
            out += &format!(
                "| {} | {:+.0} mL | {:+.1} mm | {} |\n",
                effect.off(units),
                effect.millilitres,
                effect.millimetres,
                effect.verdict()
            );
        }
        out += "\n## Checklist\n\n";
        for step in &self.steps {
            out += &format!("- [ ] **{}** ({}): {}\n", step.step, step.who, step.says);
            for line in step.lines.iter().chain(&step.note) {
                out += &format!("  - {}\n", md(line));
            }
            if !step.tools.is_empty() {
                out += &format!("  - at hand: {}\n", md(&step.tools.join(", ")));
            }
            for caution in &step.cautions {
                out += &format!("  - beware: {}\n", caution.says());
            }
        }
        out += "\n## When to stop, whatever the step\n\n";
        for caution in stop_rules() {
            out += &format!("- {}\n", caution.says());
        }
        out
    }
}

impl Effect {
    /// By how much, for people.
    fn off(&self, units: UnitSystem) -> String {
        match (self.unit, units) {
            ("celsius", UnitSystem::Us) => format!("{} {:+.0} °F", self.what, self.by * 1.8),
            ("celsius", UnitSystem::Metric) => format!("{} {:+.0} °C", self.what, self.by),
            _ => format!("{} {:+.1}°", self.what, self.by),
        }
    }

    const fn verdict(&self) -> &'static str {
        if self.within { "still set" } else { "too much" }
    }
}

impl From<job::Card> for StepPlan {
    fn from(card: job::Card) -> Self {
        let note = [
            card.note,
            Some(card.out_of_order)
                .filter(|o| !o.is_empty())
                .map(|o| format!("may be told out of order: {o}")),
        ];
        let note: Vec<String> = note.into_iter().flatten().collect();
        Self {
            step: card.step,
            says: card.says,
            who: card.who,
            tools: card.tools,
            lines: card.lines,
            note: (!note.is_empty()).then(|| note.join("; ")),
            cautions: card.cautions,
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
    let effect = |what, by, unit, millilitres: f64| -> Result<Effect, FluidError> {
        let millimetres = fluid::level::height_mm(millilitres, pipe.surface_m2)?;
        Ok(Effect {
            what,
            by,
            unit,
            millilitres,
            millimetres,
            within: millilitres.abs() <= check.tolerance_ml,
        })
    };
    let mut rows = Vec::new();
    for by in [-10.0, -5.0, -2.0, 2.0, 5.0, 10.0] {
        rows.push(effect("temperature", by, "celsius", off_by_ml(sheet, by)?)?);
    }
    for (what, pitch, roll) in [("nose up", 1.0, 0.0), ("left side up", 0.0, 1.0)] {
        for by in [-1.0, -0.5, 0.5, 1.0] {
            let attitude = tilt::Attitude { pitch_deg: by * pitch, roll_deg: by * roll };
            rows.push(effect(what, by, "degrees", tilt::at_pipe(attitude, place)?.millilitres)?);
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

/// What the law of the level over the temperature leaves out.
const fn leaves_out(sheet: &Sheet) -> &'static str {
    match sheet.fluid.ml_per_k {
        Some(_) => {
            "how the slope of the vehicle data bends outside the band, and where fluid is held back or let go; the expansion is in that slope"
        }
        None => "fluid that a thermostat holds back or lets go as it warms: the law is expansion alone",
    }
}

/// When the band opens and closes for a usual car; `None` where it never gets there.
fn window(car: TwoNode, air: Celsius, sheet: &Sheet) -> Result<Option<Window>, FluidError> {
    let start = Nodes { engine: air.to_f64(), trans: air.to_f64() };
    let course = TwoNode { air_c: air.to_f64(), ..car }.from(start)?;
    course.window(sheet.check.low().to_f64(), sheet.check.high().to_f64())
}

fn torques(sheet: &Sheet) -> Vec<(&'static str, NewtonMetres)> {
    let Some(torque) = &sheet.torque_nm else { return Vec::new() };
    let plugs =
        [("standpipe", torque.standpipe), ("check port", torque.check_port), ("fill port", torque.fill_port)];
    plugs.into_iter().filter_map(|(plug, nm)| Some((plug, NewtonMetres::clamped(nm?)))).collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "test code")]
    use super::*;

    fn sheet(ml_per_k: Option<f64>) -> Sheet {
        let mut sheet = Sheet::parse(include_str!("../fixtures/sheets/demo-six-speed.toml")).unwrap();
        sheet.fluid.ml_per_k = ml_per_k;
        sheet
    }

    fn plan(sheet: &Sheet, air: f64) -> (Plan, String) {
        let plan = made(sheet, Celsius::clamped(air)).unwrap();
        let text = plan.text(UnitSystem::Metric);
        (plan, text)
    }

    #[test]
    fn a_level_that_falls_as_it_warms_turns_every_sign_of_the_plan() {
        for (per_k, cold, warm) in
            [(None, "too full", "low"), (Some(4.0), "too full", "low"), (Some(-4.0), "low", "too full")]
        {
            let sheet = sheet(per_k);
            let (plan, text) = plan(&sheet, 20.0);
            let way = format!("closed too cold it ends {cold}, too warm {warm}");
            assert!(text.contains(&way), "{per_k:?}: {text}");
            // The rows of the table and the line above it are one law, and the daemon's.
            for row in plan.sensitivity.iter().filter(|row| row.unit == "celsius") {
                assert_eq!(Some(row.millilitres), job::off_by_temperature_ml(&sheet, row.by), "{per_k:?}");
                assert_eq!(
                    row.millilitres > 0.0,
                    (row.by > 0.0) == (warm == "too full"),
                    "{per_k:?}: {row:?}"
                );
            }
            assert_eq!(plan.millilitres_per_kelvin > 0.0, warm == "too full", "{per_k:?}");
            assert_eq!(text.contains("expansion alone"), per_k.is_none(), "{per_k:?}: {text}");
            assert!(text.contains("- left out: "), "{per_k:?}: {text}");
        }
    }

    #[test]
    fn a_hot_day_is_said_and_the_second_band_offered_where_there_is_one() {
        let plain = sheet(None);
        let mut two = plain.clone();
        (two.check.hot_band_c, two.check.hot_from_air_c) = (Some([40.0, 50.0]), Some(32.0));
        let cases = [
            (&plain, 20.0, None, 35.0),
            (&plain, 27.0, Some(HotDay::NoSecond), 35.0),
            (&plain, 38.0, Some(HotDay::NoSecond), 35.0),
            (&two, 20.0, None, 35.0),
            (&two, 27.0, Some(HotDay::BelowTheSecond), 35.0),
            (&two, 32.0, Some(HotDay::SecondBand), 40.0),
            (&two, 41.0, Some(HotDay::SecondBand), 40.0),
        ];
        for (sheet, air, want, low) in cases {
            let (plan, text) = plan(sheet, air);
            assert_eq!((plan.hot_day, plan.band_celsius[0].to_f64()), (want, low), "{air}");
            assert_eq!(text.contains("- hot day: "), want.is_some(), "{air}: {text}");
            assert_eq!(text.contains("- hot place: "), sheet.check.hot_band_c.is_some(), "{air}: {text}");
        }
    }
}
