//! `plan`: what the job will take, from the sheet alone.
//!
//! Volumes and sensitivities are physics (`fluid`); times come from a usual car at idle and may be wrong by a
//! factor of two, which is said beside them.

use std::path::PathBuf;

use clap::{Args, ValueEnum};
use events::{Caution, Precondition, Sheet, Step};
use fluid::run_out::{Drain, RunOut, Standpipe as Pipe, TRICKLE_ML_MIN};
use fluid::thermal::{Nodes, TwoNode, Window};
use fluid::volume::SetAt;
use fluid::{FluidError, tilt, viscosity, volume};
use serde::Serialize;
use units::text::{UnitSystem, celsius, show_celsius, show_millilitres, show_newton_metres};
use units::{Celsius, Millilitres, NewtonMetres};

use crate::failure::{Exit, Failure};
use crate::screen::Screen;

/// In which form.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Form {
    /// Text for people.
    Md,
    /// Data.
    Json,
}

/// Arguments of `plan`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  standpipe plan --sheet my-vehicle.toml\n  standpipe plan --sheet my-vehicle.toml --air 8C --units us"
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
    drain_millilitres: Millilitres,
    fill_millilitres: Millilitres,
    buy_millilitres: Millilitres,
    /// What must run out at mid-band if the level was right before and both were measured cold.
    run_out_millilitres: Millilitres,
    run_out_seconds: Option<f64>,
    opens_seconds: Span,
    window_seconds: Span,
    millilitres_per_kelvin: f64,
    millilitres_per_degree_pitch: f64,
    millilitres_per_degree_roll: f64,
    tilt_allowed_degrees: f64,
    torques_newton_metres: Vec<(&'static str, NewtonMetres)>,
    checklist: Vec<(Step, Vec<String>)>,
    cautions: Vec<&'static str>,
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
    let plan = Plan::new(&sheet, args.air).map_err(|e| {
        Failure::new(Exit::Data, format!("the sheet {:?} cannot be planned with: {e}", sheet.name))
    })?;
    match args.form {
        Some(Form::Json) => screen.json(&plan),
        None if screen.is_json() => screen.json(&plan),
        _ => screen.line(plan.text(screen.units).trim_end()),
    }
}

impl Plan {
    fn new(sheet: &Sheet, air: Celsius) -> Result<Self, FluidError> {
        let (check, fluid, pipe) = (&sheet.check, &sheet.fluid, &sheet.standpipe);
        let middle = check.middle();
        let fill = fluid.drain_ml + fluid.margin_ml;
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
        let length = |w: Option<Window>| w.and_then(|w| Some(w.closes_s? - w.opens_s));
        let place =
            tilt::PipePlace { dx_mm: pipe.offset_mm[0], dy_mm: pipe.offset_mm[1], area_m2: pipe.surface_m2 };
        let degree = |pitch_deg, roll_deg| tilt::at_pipe(tilt::Attitude { pitch_deg, roll_deg }, place);
        let (pitch, roll) = (degree(1.0, 0.0)?.millilitres, degree(0.0, 1.0)?.millilitres);
        let warmer = SetAt {
            total_ml: fluid.total_ml,
            set_celsius: middle.to_f64() + 1.0,
            check_celsius: middle.to_f64(),
            density_15: fluid.density_15,
        };
        Ok(Self {
            sheet: sheet.name.clone(),
            air_celsius: air,
            band_celsius: [check.low(), check.high()],
            drain_millilitres: Millilitres::clamped(fluid.drain_ml),
            fill_millilitres: Millilitres::clamped(fill),
            buy_millilitres: Millilitres::clamped((fill / 1_000.0).ceil() * 1_000.0),
            run_out_millilitres: Millilitres::clamped(net.millilitres),
            run_out_seconds: run_out.map(|t| t.seconds.round()),
            opens_seconds: Span {
                low: fast.map(|w| w.opens_s.round()),
                high: slow.map(|w| w.opens_s.round()),
            },
            window_seconds: Span { low: length(fast).map(f64::round), high: length(slow).map(f64::round) },
            millilitres_per_kelvin: volume::set_error_ml(warmer)?,
            millilitres_per_degree_pitch: pitch,
            millilitres_per_degree_roll: roll,
            tilt_allowed_degrees: check.tolerance_ml / 2.0 / pitch.hypot(roll).max(1.0),
            torques_newton_metres: torques(sheet),
            checklist: checklist(sheet),
            cautions: Caution::ALL.iter().map(|c| c.says()).collect(),
        })
    }

    fn text(&self, units: UnitSystem) -> String {
        let ml = |v| show_millilitres(v, units);
        let minutes = |s: &Span| match (s.low, s.high) {
            (Some(low), Some(high)) => {
                format!("{:.0} to {:.0} min", low.min(high) / 60.0, low.max(high) / 60.0)
            }
            _ => "cannot be told".to_owned(),
        };
        let [low, high] = self.band_celsius.map(|t| show_celsius(t, units));
        let mut out = format!("# Plan: {}\n\n", self.sheet);
        let rows = [
            (
                "buy",
                format!(
                    "{} (a drain of {} and the margin, rounded up to whole litres)",
                    ml(self.buy_millilitres),
                    ml(self.drain_millilitres)
                ),
            ),
            ("fill", format!("what came out, and the margin: about {}", ml(self.fill_millilitres))),
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
            ("band", format!("{low} to {high}")),
            (
                "window opens",
                format!(
                    "{} after a cold start in {} (a usual car; wrong by up to a factor of two)",
                    minutes(&self.opens_seconds),
                    show_celsius(self.air_celsius, units)
                ),
            ),
            ("window lasts", format!("{} (the same doubt)", minutes(&self.window_seconds))),
            ("a degree", format!("{:+.1} mL for each °C too warm at closing", self.millilitres_per_kelvin)),
            (
                "a tilt",
                format!(
                    "{:+.0} mL for 1° nose up, {:+.0} mL for 1° left side up; keep within {:.1}°",
                    self.millilitres_per_degree_pitch,
                    self.millilitres_per_degree_roll,
                    self.tilt_allowed_degrees
                ),
            ),
        ];
        for (what, text) in rows {
            out += &format!("- {what}: {text}\n");
        }
        for (plug, torque) in &self.torques_newton_metres {
            out += &format!("- torque, {plug}: {}\n", show_newton_metres(*torque, units));
        }
        out += "\n## Checklist\n\n";
        for (step, lines) in &self.checklist {
            out += &format!("- [ ] {}\n", step.says());
            for line in lines {
                out += &format!("  - {line}\n");
            }
        }
        out += "\n## Cautions\n\n";
        for caution in &self.cautions {
            out += &format!("- {caution}\n");
        }
        out
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

fn checklist(sheet: &Sheet) -> Vec<(Step, Vec<String>)> {
    let lines = |step: Step| {
        let says = |p: Precondition| p.says().to_owned();
        match step {
            Step::Prepare => {
                let mut lines = vec![
                    says(Precondition::OnStands),
                    says(Precondition::VehicleLevel),
                    says(Precondition::Ventilated),
                ];
                lines.extend(sheet.before.started_cold.then(|| says(Precondition::StartedCold)));
                lines.extend(sheet.before.cooler_bypass.then(|| says(Precondition::CoolerBypass)));
                lines
            }
            Step::Circulate => sheet.before.selector.as_ref().map_or(Vec::new(), |s| {
                vec![format!("{}: {} s at each, {} rounds", s.positions.join(" → "), s.dwell_s, s.rounds)]
            }),
            _ => Vec::new(),
        }
    };
    Step::ALL.iter().map(|&step| (step, lines(step))).collect()
}
