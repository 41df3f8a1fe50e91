//! `sheet`: checks sheets, makes new ones, prints the commented template.

mod ask;
mod questions;

use std::path::PathBuf;

use clap::{Args, Subcommand};
use events::{Sheet, Signal};
use serde::Serialize;

use crate::failure::{Exit, Failure};
use crate::screen::{Screen, say};

/// The commented template.
pub const TEMPLATE: &str = include_str!("../fixtures/sheets/template.toml");

/// Arguments of `sheet`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  standpipe sheet new my-vehicle.toml\n  standpipe sheet check my-vehicle.toml\n  standpipe sheet template > my-vehicle.toml"
)]
pub struct SheetArgs {
    #[command(subcommand)]
    what: What,
}

#[derive(Debug, Subcommand)]
enum What {
    /// Reads sheets and says what is wrong with them, or worth a second look.
    Check {
        /// The files.
        #[arg(required = true, value_name = "FILE")]
        files: Vec<PathBuf>,
    },
    /// Asks for each value, says what it means and where a technician finds it, and writes a sheet.
    New {
        /// The file to write; it must not exist.
        #[arg(value_name = "FILE")]
        into: PathBuf,
    },
    /// The commented template, on stdout.
    Template,
}

/// `sheet`.
pub fn run(args: &SheetArgs, screen: Screen) -> Result<(), Failure> {
    match &args.what {
        What::Check { files } => check(files, screen),
        What::New { into } => ask::new(into, &mut std::io::stdin().lock(), screen),
        What::Template => screen.line(TEMPLATE.trim_end()),
    }
}

#[derive(Serialize)]
struct Checked<'a> {
    file: String,
    ok: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    name: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    error: Option<String>,
    #[serde(skip_serializing_if = "<[_]>::is_empty")]
    remarks: &'a [String],
}

fn check(files: &[PathBuf], screen: Screen) -> Result<(), Failure> {
    let mut bad = 0_usize;
    for file in files {
        let read = crate::given::sheet(Some(file));
        let remarks = read.as_ref().map(remarks).unwrap_or_default();
        if screen.is_json() {
            screen.json(&Checked {
                file: file.display().to_string(),
                ok: read.is_ok(),
                name: read.as_ref().ok().map(|s| s.name.as_str()),
                error: read.as_ref().err().map(|e| e.what.clone()),
                remarks: &remarks,
            })?;
        } else {
            match &read {
                Ok(sheet) => screen.line(&format!("{}: good, {:?}", file.display(), sheet.name))?,
                Err(e) => screen.line(&format!("{}: {}", file.display(), e.what))?,
            }
            remarks.iter().try_for_each(|remark| screen.line(&format!("  look again: {remark}")))?;
        }
        bad += usize::from(read.is_err());
    }
    if bad == 0 {
        return Ok(());
    }
    Err(Failure::new(Exit::Data, format!("{bad} of {} sheets cannot be used", files.len()))
        .try_this("compare with `standpipe sheet template`, which explains every value"))
}

/// What can be so and is seldom right.
fn remarks(sheet: &Sheet) -> Vec<String> {
    let (check, fluid, pipe) = (&sheet.check, &sheet.fluid, &sheet.standpipe);
    let [low, high] = check.band_c;
    // What a fluid signal in whole degrees is known to at best, with its age; a thermometer and coolant are worse.
    let u = match check.signal {
        // A lamp is its own band.
        Signal::Lamp => 0.0,
        Signal::Fluid => 0.6,
        Signal::Display => 2.0,
        Signal::Coolant | Signal::Spot => 1.2,
    };
    let headers = sheet.identifier.iter().map(|i| &i.header);
    let reported = sheet.before.selector.iter().filter_map(|s| s.reported.as_ref()).map(|r| &r.header);
    let asked_at = headers.chain(reported).find_map(|header| odd_address(header)).unwrap_or_default();
    let rows = [
        (
            high - low < 2.0 * check.k * u + 1.0,
            format!(
                "the band is {:.1} °C wide; with k = {} and what the signal is known to ({u} °C) little or nothing of it is left for `go`",
                high - low,
                check.k
            ),
        ),
        (
            low > 60.0 && check.signal != Signal::Coolant,
            format!("the band begins at {low} °C: are the values in °F? 95 to 113 °F are 35 to 45 °C"),
        ),
        (
            check.signal == Signal::Coolant && high > 85.0,
            "the band reaches into the range of the thermostat, where coolant says little about the fluid"
                .to_owned(),
        ),
        (
            fluid.drain_ml < 0.2 * fluid.total_ml || fluid.drain_ml > 0.8 * fluid.total_ml,
            format!(
                "a drain of {} mL out of {} mL is unusual: 20 to 80 % come out",
                fluid.drain_ml, fluid.total_ml
            ),
        ),
        (
            fluid.margin_ml < 200.0,
            format!(
                "a margin of {} mL is soon used up by a vehicle that was low: nothing runs out then",
                fluid.margin_ml
            ),
        ),
        (
            pipe.offset_mm == [0.0, 0.0],
            "the pipe stands in the middle of the surface: then tilt does not matter, which is rare"
                .to_owned(),
        ),
        (
            sheet.torque_nm.as_ref().is_none_or(|t| t.check_port.is_none()),
            "the torque of the check port's plug is missing".to_owned(),
        ),
        (!asked_at.is_empty(), asked_at),
        (sheet.recheck.days.is_empty(), "no recheck is asked for".to_owned()),
        (
            check.signal == Signal::Fluid && sheet.before.cooler_bypass && fluid.cooler_ml.is_none(),
            "the bypass is pinned, so the cooler fills: `fluid.cooler_ml` would tell how much".to_owned(),
        ),
    ];
    rows.into_iter().filter(|(holds, _)| *holds).map(|(_, remark)| remark).collect()
}

/// What is odd about the address of a request, if anything is. Source: ISO 15765-4, the identifiers of requests and
/// replies.
fn odd_address(header: &str) -> Option<String> {
    let address = u32::from_str_radix(header, 16).ok()?;
    match (header.len(), address) {
        (3, 0x7E0..=0x7E7) => None,
        (3, 0x7DF) => {
            Some("header 7DF asks every control unit: name the one that knows the value".to_owned())
        }
        (3, 0x7E8..=0x7EF) => Some(format!(
            "header {header}: control units answer with 7E8 to 7EF; the request's address is {:03X}, 8 below",
            address - 8
        )),
        (3, _) => Some(format!(
            "header {header}: outside 7E0 to 7E7 the addresses are the maker's own, and one may belong to a message of the vehicle: \
             use it only as the maker's description has it"
        )),
        _ => None,
    }
}

/// A message while asking, on stderr, so that stdout stays clean.
fn tell(text: &str) {
    say(text);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_address_that_is_not_one_of_requests_is_remarked() {
        let cases: &[(&str, Option<&str>)] = &[
            ("7E0", None),
            ("7E1", None),
            ("7E7", None),
            ("7E9", Some("address is 7E1, 8 below")),
            ("7EF", Some("address is 7E7")),
            ("7DF", Some("asks every control unit")),
            ("6F1", Some("maker's own")),
            ("7F0", Some("maker's own")),
            ("18DA18F1", None),
            ("8218F1", None),
        ];
        let mut sheet = Sheet::parse(TEMPLATE).unwrap();
        for (header, want) in cases {
            sheet.identifier.as_mut().unwrap().header = (*header).to_owned();
            let all = remarks(&sheet).join("\n");
            assert_eq!(all.contains("header"), want.is_some(), "{header}: {all}");
            assert!(want.is_none_or(|want| all.contains(want)), "{header}: {all}");
        }
    }

    #[test]
    fn the_template_is_a_sheet_and_every_remarked_key_of_it_can_be_used() {
        Sheet::parse(TEMPLATE).unwrap();
        // Keys that go with another value than the template's; each is taken in by a case of its own.
        const ALONE: [&str; 7] =
            ["from", "mm", "chart", "ml_per_mm", "after_drive", "then_add_ml", "single_u_c"];
        // Every line `# key = …` and `# [table]` taken in, but for these; `with` them.
        let whole = |with: &str| -> String {
            let taken_in = |line: &str| {
                let inner = line.strip_prefix("# ").unwrap_or(line);
                let key = inner.split(" = ").next().unwrap_or_default();
                let alone = ALONE.contains(&key) && !with.split(' ').any(|w| w == key);
                let is_key = inner.contains(" = ") && !key.contains([' ', '`', '.']) && !alone;
                let is_table = inner.starts_with('[');
                let taken = line.starts_with("# ") && (is_key || is_table);
                format!("{}\n", if taken { inner } else { line })
            };
            TEMPLATE.lines().map(taken_in).collect()
        };
        let read = |text: &str| Sheet::parse(text).unwrap_or_else(|e| panic!("{e}\n{text}"));
        let coolant = whole("from").replace("signal = \"fluid\"", "signal = \"coolant\"");
        assert_eq!(read(&coolant).check.from.as_deref(), Some("7E8"));
        let height = whole("mm after_drive")
            .replace("right = \"trickle\"", "right = \"below-edge-mm\"")
            .replace("rim = \"pipe\"", "rim = \"fill-hole\"")
            .replace("sump_opens = \"pipe\"", "sump_opens = \"plug\"")
            .replace("fill_from = \"upper-port\"", "fill_from = \"level-hole\"")
            .replace("engine = \"idle\"", "engine = \"off\"")
            .replace("gate = \"band\"", "gate = \"none\"");
        let height = read(&height).look;
        assert_eq!(height.first().map(|look| (look.mm, look.after_drive)), Some((Some([0.0, 5.0]), true)));
        let gauge = whole("chart ml_per_mm")
            .replace("right = \"trickle\"", "right = \"chart\"")
            .replace("rim = \"pipe\"", "rim = \"gauge\"")
            .replace("sump_opens = \"pipe\"", "sump_opens = \"plug\"")
            .replace("fill_from = \"upper-port\"", "fill_from = \"gauge-tube\"");
        assert_eq!(read(&gauge).look.first().map(|look| look.chart.len()), Some(2));
        // What is filled after a look is looked at once more.
        let two = whole("then_add_ml") + "\n[[look]]\nright = \"trickle\"\n";
        assert_eq!(read(&two).look.iter().map(|look| look.then_add_ml).collect::<Vec<_>>(), [400.0, 0.0]);
        let single = whole("single_u_c").replace("band_c = [35.0, 45.0]", "band_c = [40.0, 40.0]");
        assert!(read(&single).check.single_u_c.is_some());
        let sheet = read(&whole(""));
        assert!(sheet.bus.is_some() && sheet.identifier.as_ref().unwrap().bytes.is_some());
        assert!(sheet.vehicle.is_some() && sheet.steps.drain.is_some() && sheet.steps.order.is_some());
        assert_eq!(sheet.fluid.filter_ml, Some(300.0));
    }
}
