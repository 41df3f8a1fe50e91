//! `sheet`: makes, corrects, checks, shows, compares and shares sheets.
//!
//! In: arguments, files, answers. Out: files and text. Not here: the questions and what is said of a sheet (`sheets`), what a sheet
//! must be (`events`).

pub mod ask;
mod change;
pub mod desk;
pub mod hash;
mod keep;
mod share;

use std::path::{Path, PathBuf};

use clap::{Args, Subcommand};
use events::Sheet;
use serde::Serialize;
use sheets::{Finding, Looked};

use crate::failure::{Exit, Failure};
use crate::screen::{Screen, say};

/// Characters of a note in a sheet.
/// Own choice: as a remark (docs/interface.md).
pub(crate) const NOTE: usize = 200;

/// The commented template.
pub const TEMPLATE: &str = include_str!("../fixtures/sheets/template.toml");

/// Arguments of `sheet`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  standpipe sheet new my-vehicle.toml\n  standpipe sheet change my-vehicle.toml fluid.drain_ml \"2.4 L (measured)\"\n  standpipe sheet check my-vehicle.toml\n  standpipe sheet share my-vehicle.toml --into my-vehicle.share\n  standpipe sheet take my-vehicle.share --into theirs.toml"
)]
pub struct SheetArgs {
    #[command(subcommand)]
    what: What,
}

#[derive(Debug, Subcommand)]
enum What {
    /// Says what is guessed, odd or missing in sheets, and what each costs. A shared file is checked too.
    Check {
        /// The files.
        #[arg(required = true, value_name = "FILE")]
        files: Vec<PathBuf>,
    },
    /// Asks for a sheet; three answers make one. `?`, `back`, `skip` and `I don't know` are answers everywhere.
    New {
        /// The file to write; it must not exist. Answers are kept in FILE.draft and taken up again.
        #[arg(value_name = "FILE")]
        into: PathBuf,
        /// Who answers; written beside each value.
        #[arg(long, value_name = "NAME")]
        by: Option<String>,
        /// Begin anew, whatever was kept.
        #[arg(long)]
        afresh: bool,
    },
    /// Changes one value of a sheet; the rest stays.
    Change {
        /// The sheet.
        #[arg(value_name = "FILE")]
        file: PathBuf,
        /// The value's key, as `sheet show` lists it.
        #[arg(value_name = "KEY")]
        key: String,
        /// The answer, as `sheet new` takes it: `2.4 L (measured)`, `I don't know`.
        #[arg(value_name = "ANSWER")]
        answer: String,
        /// Who says so; written beside the value.
        #[arg(long, value_name = "NAME")]
        by: Option<String>,
    },
    /// Confirms values that nobody has confirmed here: no job begins before.
    Confirm {
        /// The sheet.
        #[arg(value_name = "FILE")]
        file: PathBuf,
        /// Which values; all of them where none is named.
        #[arg(value_name = "KEY")]
        keys: Vec<String>,
        /// Who has read them beside the maker's text.
        #[arg(long, value_name = "NAME")]
        by: String,
    },
    /// Prints a sheet as a page: each value, where it comes from, what is guessed and what that costs.
    Show {
        /// The sheet.
        #[arg(value_name = "FILE")]
        file: PathBuf,
    },
    /// Says what differs between two sheets; exit 1 where something does.
    Compare {
        /// One sheet.
        #[arg(value_name = "A")]
        a: PathBuf,
        /// The other.
        #[arg(value_name = "B")]
        b: PathBuf,
    },
    /// Writes one file with the sheet and what bears it out, for another workshop.
    Share {
        /// The sheet.
        #[arg(value_name = "FILE")]
        file: PathBuf,
        /// The file to write; it must not exist.
        #[arg(long, value_name = "FILE")]
        into: PathBuf,
        /// Text files that bear it out: logs, readings, notes.
        #[arg(long, value_name = "FILE")]
        evidence: Vec<PathBuf>,
        /// Who shares it.
        #[arg(long, value_name = "NAME")]
        by: Option<String>,
    },
    /// Takes a shared file: writes its sheet, in which nothing is confirmed yet.
    Take {
        /// The shared file.
        #[arg(value_name = "SHARED")]
        file: PathBuf,
        /// The sheet to write; it must not exist. What bears it out goes to FILE.evidence.
        #[arg(long, value_name = "FILE")]
        into: PathBuf,
    },
    /// The commented template, on stdout.
    Template,
}

/// `sheet`.
pub fn run(args: &SheetArgs, screen: Screen) -> Result<(), Failure> {
    match &args.what {
        What::Check { files } => check(files, screen),
        What::New { into, by, afresh } => {
            ask::new(into, by.as_deref(), *afresh, &mut std::io::stdin().lock(), screen)
        }
        What::Change { file, key, answer, by } => change::change(file, key, answer, by.as_deref(), screen),
        What::Confirm { file, keys, by } => change::confirm(file, keys, by, screen),
        What::Show { file } => show(file, screen),
        What::Compare { a, b } => compare(a, b, screen),
        What::Share { file, into, evidence, by } => share::share(file, into, evidence, by.as_deref(), screen),
        What::Take { file, into } => share::take(file, into, screen),
        What::Template => screen.line(TEMPLATE.trim_end()),
    }
}

#[derive(Serialize)]
struct Checked {
    file: String,
    ok: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    name: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    sha256: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    error: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    unconfirmed: Vec<FindingLine>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    remarks: Vec<FindingLine>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    missing: Vec<FindingLine>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    guessed: Vec<FindingLine>,
    /// The ± of the level at best.
    #[serde(skip_serializing_if = "Option::is_none")]
    expanded_millilitres: Option<f64>,
    /// If nothing were guessed.
    #[serde(skip_serializing_if = "Option::is_none")]
    known_millilitres: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    most: Option<String>,
}

#[derive(Serialize)]
struct FindingLine {
    key: String,
    says: String,
}

impl Checked {
    fn of(file: &Path, read: &Result<Sheet, Failure>) -> Self {
        let looked = read.as_ref().ok().map(sheets::look);
        let said = |of: fn(&Looked) -> &Vec<Finding>| -> Vec<FindingLine> {
            let all = looked.as_ref().map_or(&[] as &[Finding], |looked| of(looked));
            all.iter().map(|f| FindingLine { key: f.key.clone(), says: f.says.clone() }).collect()
        };
        let worth = looked.as_ref().and_then(|looked| looked.worth.as_ref());
        Self {
            file: file.display().to_string(),
            ok: read.is_ok(),
            name: read.as_ref().ok().map(|sheet| sheet.name.clone()),
            sha256: read.as_ref().ok().map(hash::of),
            error: read.as_ref().err().map(|e| e.what.clone()),
            unconfirmed: said(|looked| &looked.unconfirmed),
            remarks: said(|looked| &looked.odd),
            missing: said(|looked| &looked.missing),
            guessed: said(|looked| &looked.guessed),
            expanded_millilitres: worth.map(|worth| worth.expanded_ml),
            known_millilitres: worth.map(|worth| worth.known_ml),
            most: looked.as_ref().and_then(Looked::most),
        }
    }

    fn lines(&self) -> Vec<String> {
        let mut out = match (&self.name, &self.error) {
            (Some(name), _) => vec![format!("{}: good, {name:?}", self.file)],
            (None, error) => vec![format!("{}: {}", self.file, error.as_deref().unwrap_or_default())],
        };
        let parts = [
            ("not confirmed", &self.unconfirmed),
            ("look again", &self.remarks),
            ("missing", &self.missing),
            ("guessed", &self.guessed),
        ];
        for (what, all) in parts {
            out.extend(all.iter().map(|said| format!("  {what}: {}", said.says)));
        }
        if let (Some(expanded), Some(known)) = (self.expanded_millilitres, self.known_millilitres)
            && !self.guessed.is_empty()
        {
            out.push(format!(
                "  the level ±{expanded:.0} mL at best, ±{known:.0} mL if nothing were guessed"
            ));
        }
        out.extend(self.most.iter().map(|most| format!("  {most}")));
        out
    }
}

fn check(files: &[PathBuf], screen: Screen) -> Result<(), Failure> {
    let mut bad = 0_usize;
    for file in files {
        let read = share::sheet_in(file);
        let checked = Checked::of(file, &read);
        if screen.is_json() {
            screen.json(&checked)?;
        } else {
            checked.lines().iter().try_for_each(|line| screen.line(line))?;
        }
        bad += usize::from(read.is_err());
    }
    if bad == 0 {
        return Ok(());
    }
    Err(Failure::new(Exit::Data, format!("{bad} of {} sheets cannot be used", files.len()))
        .try_this("compare with `standpipe sheet template`, which explains every value"))
}

fn show(file: &Path, screen: Screen) -> Result<(), Failure> {
    let text = text(file)?;
    let sheet = crate::given::sheet(Some(file))?;
    let page = sheets::page(&text, &hash::of(&sheet), screen.units).map_err(|e| unreadable(file, &e))?;
    screen.line(page.trim_end())
}

#[derive(Serialize)]
struct Differs<'a> {
    key: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    a: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    b: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    a_source: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    b_source: Option<&'static str>,
}

fn compare(a: &Path, b: &Path, screen: Screen) -> Result<(), Failure> {
    let (one, other) = (crate::given::sheet(Some(a))?, crate::given::sheet(Some(b))?);
    let differences = sheets::compare(&one, &other);
    if screen.is_json() {
        for d in &differences {
            let [a_source, b_source] = d.sources.map(|source| source.map(events::Source::word));
            screen.json(&Differs {
                key: &d.key,
                a: d.a.as_deref(),
                b: d.b.as_deref(),
                a_source,
                b_source,
            })?;
        }
    } else {
        for d in &differences {
            let side = |value: &Option<String>, source: Option<events::Source>| {
                let value = value.as_deref().unwrap_or("left out");
                source.map_or(value.to_owned(), |source| format!("{value} ({source})"))
            };
            let [of_a, of_b] = d.sources;
            screen.line(&format!("{} ({}): {} | {}", d.label, d.key, side(&d.a, of_a), side(&d.b, of_b)))?;
        }
        let pluses = [&one, &other]
            .map(|sheet| job::worth(sheet).map_or("?".to_owned(), |w| format!("{:.0}", w.expanded_ml)));
        screen.line(&format!("the level at best: ±{} mL | ±{} mL", pluses[0], pluses[1]))?;
    }
    if differences.is_empty() {
        return Ok(());
    }
    Err(Failure::new(Exit::NotSet, format!("{} values differ", differences.len())))
}

/// Reads a text file.
fn text(path: &Path) -> Result<String, Failure> {
    std::fs::read_to_string(path).map_err(|e| Failure::file("read", path, &e))
}

/// Writes a file that must not exist.
fn create(path: &Path, text: &str) -> Result<(), Failure> {
    use std::io::Write as _;
    let mut file = std::fs::File::create_new(path).map_err(|e| {
        if e.kind() == std::io::ErrorKind::AlreadyExists {
            exists(path)
        } else {
            Failure::file("write", path, &e)
        }
    })?;
    file.write_all(text.as_bytes())
        .and_then(|()| file.sync_all())
        .map_err(|e| Failure::file("write", path, &e))
}

/// Writes a file in place of the one that is there: all of it or nothing.
fn replace(path: &Path, text: &str) -> Result<(), Failure> {
    let beside = beside(path, "new");
    std::fs::write(&beside, text).map_err(|e| Failure::file("write", &beside, &e))?;
    std::fs::rename(&beside, path).map_err(|e| Failure::file("write", path, &e))
}

/// `my-vehicle.toml` and `draft` make `my-vehicle.toml.draft`.
fn beside(path: &Path, what: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(format!(".{what}"));
    PathBuf::from(name)
}

fn exists(path: &Path) -> Failure {
    Failure::new(Exit::CannotCreate, format!("cannot make {}: it exists already", path.display()))
        .try_this("name another file, check this one with `standpipe sheet check`, or correct it with `standpipe sheet change`")
}

fn unreadable(path: &Path, error: &dyn std::fmt::Display) -> Failure {
    Failure::new(Exit::Data, format!("the sheet {}: {error}", path.display()))
        .try_this("compare with `standpipe sheet template`, which explains every value")
}

/// Today, as the sheet writes days.
fn today() -> String {
    let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap_or_default();
    let now = events::Utc::from_millis(i64::try_from(since.as_millis()).unwrap_or_default());
    now.to_string().chars().take(10).collect()
}

/// A message while asking, on stderr, so that stdout stays clean.
fn tell(text: &str) {
    say(text);
}

#[cfg(test)]
mod tests {
    use super::*;

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
