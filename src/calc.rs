//! `calc`: the physics on its own, one formula a call. Positive millilitres are too much fluid.
//!
//! A thin door to the crate `fluid`, where formulas, ranges and sources stand. JSON carries full precision.

use clap::{Args, Subcommand, ValueEnum};
use fluid::level;
use fluid::measurement::{Guard, acceptance, probability_in_band};
use fluid::radiation::Band;
use fluid::run_out::{BETA_40_PER_K, Drain, RunOut, Standpipe, TRICKLE_ML_MIN, warming_flow_ml_min};
use fluid::spot::{SpotInputs, View, correct};
use fluid::tilt::{Attitude, Corners, PipePlace, at_pipe, from_corners};
use fluid::viscosity::Walther;
use fluid::volume::{SetAt, VolumeMove, move_volume};
use fluid::{FluidError, dilution, viscosity_index};
use serde_json::{Map, Value, json};

use crate::failure::{Exit, Failure};
use crate::screen::Screen;

/// Arguments of `calc`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  standpipe calc level --celsius 60 --check 40 --total-ml 8000 --density-15 850 --area-m2 0.06\n  standpipe calc guard --celsius 38.6 --u 0.7 --band 35..45\n  standpipe calc tilt --pitch-deg 1 --roll-deg 0 --dx-mm 120 --dy-mm 0 --area-m2 0.06"
)]
pub struct CalcArgs {
    #[command(subcommand)]
    what: What,
}

#[derive(Debug, Subcommand)]
enum What {
    /// A volume taken from one temperature to another.
    Volume {
        #[arg(long)]
        millilitres: f64,
        #[arg(long, allow_hyphen_values = true)]
        from: f64,
        #[arg(long, allow_hyphen_values = true)]
        to: f64,
        #[arg(long)]
        density_15: f64,
    },
    /// How far off the level is when it was set at the wrong temperature.
    Level {
        #[arg(long, allow_hyphen_values = true)]
        celsius: f64,
        #[arg(long, allow_hyphen_values = true)]
        check: f64,
        #[arg(long)]
        total_ml: f64,
        #[arg(long)]
        density_15: f64,
        #[arg(long)]
        area_m2: f64,
    },
    /// What a tilt does at the standpipe; from angles, or from four corner heights.
    Tilt(TiltArgs),
    /// How much of the fluid is fresh after several rounds, or how many rounds are needed.
    Dilution {
        #[arg(long)]
        total_ml: f64,
        #[arg(long)]
        each_ml: f64,
        #[arg(long, required_unless_present = "target")]
        times: Option<u32>,
        #[arg(long, conflicts_with = "times")]
        target: Option<f64>,
    },
    /// Viscosity at a temperature from two points, and the viscosity index.
    Viscosity {
        #[arg(long)]
        at_40: f64,
        #[arg(long)]
        at_100: f64,
        #[arg(long, allow_hyphen_values = true)]
        celsius: f64,
    },
    /// How the excess runs out through the standpipe.
    RunOut(RunOutArgs),
    /// What an infrared thermometer's reading means.
    Spot(SpotArgs),
    /// Whether a temperature with its uncertainty lies safely in a band.
    Guard {
        #[arg(long, allow_hyphen_values = true)]
        celsius: f64,
        #[arg(long)]
        u: f64,
        /// As `35..45`.
        #[arg(long, value_parser = band)]
        band: (f64, f64),
        #[arg(long, default_value_t = 2.0)]
        k: f64,
    },
}

#[derive(Debug, Args)]
struct TiltArgs {
    #[arg(long, allow_hyphen_values = true, requires = "roll_deg", conflicts_with = "corners_mm")]
    pitch_deg: Option<f64>,
    #[arg(long, allow_hyphen_values = true)]
    roll_deg: Option<f64>,
    /// Heights: front left, front right, rear left, rear right.
    #[arg(long, value_delimiter = ',', num_args = 1, allow_hyphen_values = true, requires_all = ["wheelbase_mm", "track_mm", "u_mm"])]
    corners_mm: Option<Vec<f64>>,
    #[arg(long)]
    wheelbase_mm: Option<f64>,
    /// Front and rear.
    #[arg(long, value_delimiter = ',', num_args = 1)]
    track_mm: Option<Vec<f64>>,
    #[arg(long)]
    u_mm: Option<f64>,
    #[arg(long, allow_hyphen_values = true, requires_all = ["dy_mm", "area_m2"])]
    dx_mm: Option<f64>,
    #[arg(long, allow_hyphen_values = true)]
    dy_mm: Option<f64>,
    #[arg(long)]
    area_m2: Option<f64>,
}

#[derive(Debug, Args)]
struct RunOutArgs {
    #[arg(long)]
    excess_ml: f64,
    #[arg(long)]
    area_m2: f64,
    #[arg(long)]
    bore_mm: f64,
    #[arg(long)]
    rim_mm: f64,
    #[arg(long)]
    length_mm: f64,
    #[arg(long)]
    mm2_s: f64,
    /// °C per minute.
    #[arg(long, requires = "total_ml", allow_hyphen_values = true)]
    warming: Option<f64>,
    #[arg(long)]
    total_ml: Option<f64>,
    /// Seconds after opening at which to tell the flow.
    #[arg(long, value_delimiter = ',', default_value = "0,15,30,60,120,180")]
    at_s: Vec<f64>,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum Sees {
    /// 8 to 14 µm, as nearly all hand-held instruments.
    #[value(name = "8..14")]
    EightToFourteen,
    /// All wavelengths.
    #[value(name = "total")]
    Total,
}

#[derive(Debug, Args)]
struct SpotArgs {
    #[arg(long, allow_hyphen_values = true)]
    reads: f64,
    #[arg(long)]
    set_emissivity: f64,
    #[arg(long)]
    emissivity: f64,
    #[arg(long, allow_hyphen_values = true)]
    surroundings: f64,
    /// The surroundings that the instrument assumes; the real ones where absent.
    #[arg(long, allow_hyphen_values = true)]
    set_surroundings: Option<f64>,
    #[arg(long, value_enum, default_value = "8..14")]
    band: Sees,
}

/// `LOW..HIGH`, °C.
pub fn band(text: &str) -> Result<(f64, f64), String> {
    let wrong = || format!("`{text}` is no band; write it like 35..45");
    let (low, high) = text.split_once("..").ok_or_else(wrong)?;
    Ok((low.trim().parse().map_err(|_| wrong())?, high.trim().parse().map_err(|_| wrong())?))
}

/// `calc`.
pub fn run(args: &CalcArgs, screen: Screen) -> Result<(), Failure> {
    let out = calc(&args.what)?;
    if screen.is_json() {
        return screen.json(&out);
    }
    let lines = out.as_object().into_iter().flatten().map(|(key, value)| format!("{key:<24} {value}"));
    lines.into_iter().try_for_each(|line| screen.line(&line))
}

fn calc(what: &What) -> Result<Value, Failure> {
    match what {
        What::Tilt(args) => tilt(args),
        other => formula(other).map_err(|e| refused(&e)),
    }
}

fn refused(e: &FluidError) -> Failure {
    Failure::new(Exit::Data, e.to_string())
}

fn formula(what: &What) -> Result<Value, FluidError> {
    Ok(match *what {
        What::Volume { millilitres, from, to, density_15 } => {
            let moved =
                move_volume(VolumeMove { millilitres, from_celsius: from, to_celsius: to, density_15 })?;
            json!({"millilitres": moved.millilitres, "change_ml": moved.change_ml, "vcf_from": moved.vcf_from, "vcf_to": moved.vcf_to})
        }
        What::Level { celsius, check, total_ml, density_15, area_m2 } => {
            let set = SetAt { total_ml, set_celsius: celsius, check_celsius: check, density_15 };
            let error = level::from_temperature(set, area_m2)?;
            json!({"millilitres": error.millilitres, "millimetres": error.millimetres})
        }
        What::Dilution { total_ml, each_ml, times, target } => dilute(total_ml, each_ml, times, target)?,
        What::Viscosity { at_40, at_100, celsius } => {
            let nu = Walther::from_40_and_100(at_40, at_100)?.mm2_s(celsius)?;
            with(json!({"mm2_s": nu}), "viscosity_index", viscosity_index::viscosity_index(at_40, at_100)?)
        }
        What::RunOut(ref args) => run_out(args)?,
        What::Spot(ref args) => {
            let view = View {
                emissivity: args.emissivity,
                surroundings_c: args.surroundings,
                set_emissivity: args.set_emissivity,
                set_surroundings_c: args.set_surroundings.unwrap_or(args.surroundings),
                band: match args.band {
                    Sees::EightToFourteen => Band::EIGHT_TO_FOURTEEN,
                    Sees::Total => Band::Total,
                },
            };
            let corrected = correct(args.reads, view, SpotInputs::TAPE)?;
            json!({"celsius": corrected.celsius, "u": corrected.u_c})
        }
        What::Guard { celsius, u, band: (low, high), k } => guard(celsius, u, low, high, k)?,
        // Tilt has two forms and refusals of its own.
        What::Tilt(_) => Value::Null,
    })
}

fn dilute(total: f64, each: f64, times: Option<u32>, target: Option<f64>) -> Result<Value, FluidError> {
    let times = match (times, target) {
        (Some(times), _) => Some(times),
        (None, Some(target)) => dilution::rounds_for(total, each, target)?.map(|r| r.whole),
        (None, None) => None,
    };
    let fresh = times.map(|n| dilution::fresh_fraction(total, each, n)).transpose()?;
    Ok(with(with(json!({}), "fresh_fraction", fresh), "times", times))
}

fn run_out(args: &RunOutArgs) -> Result<Value, FluidError> {
    let pipe = Standpipe {
        area_m2: args.area_m2,
        bore_mm: args.bore_mm,
        rim_mm: args.rim_mm,
        length_mm: args.length_mm,
    };
    let inflow = match (args.warming, args.total_ml) {
        (Some(rate), Some(total)) => warming_flow_ml_min(total, BETA_40_PER_K, rate)?,
        _ => 0.0,
    };
    let drain = Drain::new(RunOut::new(pipe, args.mm2_s)?, args.excess_ml, inflow)?;
    let flows: Vec<Value> = args
        .at_s
        .iter()
        .map(|&s| Ok(json!({"seconds": s, "flow_ml_min": drain.at(s)?.flow_ml_min})))
        .collect::<Result<_, FluidError>>()?;
    let trickle = drain.trickle(TRICKLE_ML_MIN)?;
    let out = with(json!({"flow_ml_min": flows}), "seconds_to_trickle", trickle.map(|t| t.seconds));
    Ok(with(out, "residual_ml", trickle.map(|t| t.residual_ml)))
}

fn guard(celsius: f64, u: f64, low: f64, high: f64, k: f64) -> Result<Value, FluidError> {
    let accepted = acceptance(Guard { low, high, u, k })?;
    let probability = probability_in_band(celsius, u, Some(low), Some(high))?;
    let verdict = match () {
        () if accepted.accepts(celsius) => events::Verdict::Go,
        () if celsius > high => events::Verdict::TooHot,
        () => events::Verdict::Wait,
    };
    let out = json!({"probability_in_band": probability, "verdict": verdict.word()});
    let out = with(out, "accept_low", accepted.interval.map(|(low, _)| low));
    Ok(with(out, "accept_high", accepted.interval.map(|(_, high)| high)))
}

/// Angles told or fitted from corners, and what they do at the pipe where its place is named.
fn tilt(args: &TiltArgs) -> Result<Value, Failure> {
    let missing = || {
        Failure::new(
            Exit::Usage,
            "no angles: neither --pitch-deg and --roll-deg nor --corners-mm FL,FR,RL,RR",
        )
        .try_this("standpipe calc tilt --help")
    };
    let (attitude, mut out) = match (args.pitch_deg, args.roll_deg, &args.corners_mm) {
        (Some(pitch_deg), Some(roll_deg), _) => (Attitude { pitch_deg, roll_deg }, json!({})),
        (_, _, Some(heights)) => corners(args, heights)?,
        _ => return Err(missing()),
    };
    if let (Some(dx_mm), Some(dy_mm), Some(area_m2)) = (args.dx_mm, args.dy_mm, args.area_m2) {
        let at = at_pipe(attitude, PipePlace { dx_mm, dy_mm, area_m2 }).map_err(|e| refused(&e))?;
        out = with(
            with(out, "level_at_pipe_mm", Some(at.level_at_pipe_mm)),
            "millilitres",
            Some(at.millilitres),
        );
    } else if args.corners_mm.is_none() {
        return Err(Failure::new(Exit::Usage, "the place of the standpipe is missing")
            .try_this("add --dx-mm X --dy-mm Y --area-m2 A"));
    }
    Ok(out)
}

fn corners(args: &TiltArgs, heights: &[f64]) -> Result<(Attitude, Value), Failure> {
    let tracks = args.track_mm.as_deref().unwrap_or_default();
    let (&[front_left_mm, front_right_mm, rear_left_mm, rear_right_mm], &[track_front_mm, track_rear_mm]) =
        (heights, tracks)
    else {
        return Err(Failure::new(Exit::Usage, "four corner heights and two tracks are needed")
            .try_this("--corners-mm FL,FR,RL,RR --track-mm FRONT,REAR"));
    };
    let fit = from_corners(Corners {
        front_left_mm,
        front_right_mm,
        rear_left_mm,
        rear_right_mm,
        wheelbase_mm: args.wheelbase_mm.unwrap_or_default(),
        track_front_mm,
        track_rear_mm,
        u_mm: args.u_mm.unwrap_or_default(),
    })
    .map_err(|e| refused(&e))?;
    let out = json!({
        "pitch_deg": fit.attitude.pitch_deg, "roll_deg": fit.attitude.roll_deg,
        "u_pitch_deg": fit.u_pitch_deg, "u_roll_deg": fit.u_roll_deg, "max_residual_mm": fit.max_residual_mm,
    });
    Ok((fit.attitude, out))
}

/// Adds a key where there is a value; absent, never null.
fn with(out: Value, key: &str, value: Option<impl Into<Value>>) -> Value {
    let Value::Object(mut map): Value = out else { return Value::Object(Map::new()) };
    if let Some(value) = value {
        map.insert(key.to_owned(), value.into());
    }
    Value::Object(map)
}
