//! The looks: a procedure is a list of them. Each has an engine state, a wait, a gate and a sign that it is right.
//!
//! In: the tables `[[look]]` of a sheet. Out: [`Look`], and what is wrong between them. Not here: the ranges of the
//! other tables (`check.rs`), what a look asks of the hands (`job`).

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use units::words;

use super::{Drive, FillFrom, Rim, Sheet};

words! {
    /// What the engine does while it is looked.
    json LookEngine {
        Idle "idle" "It idles.",
        Off "off" "It is off.",
        ReadyOff "ready-off" "It is off and cannot start by itself.",
    }
}

words! {
    /// Whether a look waits for the temperature.
    json LookGate {
        Band "band" "Only inside the band.",
        None "none" "At any temperature.",
    }
}

words! {
    /// When the port may be opened.
    json LookOpen {
        InBand "in-band" "When the verdict is go.",
        AtLowEdge "at-low-edge" "At the low edge of the band: it is watched while the fluid warms.",
        Any "any" "At any temperature.",
    }
}

words! {
    /// The sign that the level is right.
    json Right {
        Trickle "trickle" "A stream that has become a thin thread.",
        FirstDrips "first-drips" "Dry when it is opened, drips before the high edge.",
        Drips "drips" "Drop by drip, or a stream that has become so.",
        LowerEdge "lower-edge" "The fluid stands at the lower edge of the hole.",
        BelowEdge "below-edge-mm" "The fluid stands so many millimetres below the lower edge.",
        Chart "chart" "Millimetres on a gauge, inside what a chart says for the temperature.",
        Amount "amount" "No look at all: the amounts are right.",
    }
}

/// One look at the level.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Look {
    /// What the engine does.
    pub engine: LookEngine,
    /// The selector's position; absent: the first one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub position: Option<String>,
    /// Seconds since the rounds ended, or since the engine stopped: from, and where it is given to.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub wait_s: Vec<u32>,
    /// Whether it waits for the temperature.
    pub gate: LookGate,
    /// When the port may be opened.
    pub open: LookOpen,
    /// The sign that the level is right.
    pub right: Right,
    /// Millimetres below the edge, low and high, where that is the sign.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mm: Option<[f64; 2]>,
    /// Rows of the gauge's chart: °C, and the lowest and the highest mm that are right there; the coldest first.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub chart: Vec<[f64; 3]>,
    /// So much fluid is one millimetre of the gauge, in mL.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ml_per_mm: Option<f64>,
    /// What is filled after this look, in mL.
    #[serde(skip_serializing_if = "is_nothing")]
    pub then_add_ml: f64,
    /// The same look comes once more after the drive.
    #[serde(skip_serializing_if = "core::ops::Not::not")]
    pub after_drive: bool,
}

/// What a chart says at one temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChartAt {
    /// The lowest that is right, in mm.
    pub low_mm: f64,
    /// The highest.
    pub high_mm: f64,
    /// How far the middle goes up with each kelvin, in mm.
    pub mm_per_k: f64,
}

impl ChartAt {
    /// The middle of what is right, in mm.
    pub fn middle_mm(&self) -> f64 {
        f64::midpoint(self.low_mm, self.high_mm)
    }
}

#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde asks for a reference")]
fn is_nothing(value: &f64) -> bool {
    *value == 0.0
}

impl Default for Look {
    fn default() -> Self {
        Self {
            engine: LookEngine::Idle,
            position: None,
            wait_s: Vec::new(),
            gate: LookGate::Band,
            open: LookOpen::InBand,
            right: Right::Trickle,
            mm: None,
            chart: Vec::new(),
            ml_per_mm: None,
            then_add_ml: 0.0,
            after_drive: false,
        }
    }
}

impl Look {
    /// The one look of a sheet that names none.
    pub(super) fn usual(rim: Rim) -> Self {
        match rim {
            Rim::None => Self {
                engine: LookEngine::Off,
                gate: LookGate::None,
                open: LookOpen::Any,
                right: Right::Amount,
                ..Self::default()
            },
            _ => Self::default(),
        }
    }

    /// Whether it waits for the temperature.
    pub fn is_gated(&self) -> bool {
        self.gate == LookGate::Band
    }

    /// Whether the engine idles meanwhile.
    pub fn idles(&self) -> bool {
        self.engine == LookEngine::Idle
    }

    /// Not sooner than this, in seconds.
    pub fn wait_from_s(&self) -> u32 {
        self.wait_s.first().copied().unwrap_or(0)
    }

    /// And not later.
    pub fn wait_to_s(&self) -> Option<u32> {
        self.wait_s.get(1).copied()
    }

    /// Whether the sign is where the fluid stands, and no stream.
    pub fn reads_a_height(&self) -> bool {
        matches!(self.right, Right::LowerEdge | Right::BelowEdge)
    }

    /// What the chart says at `celsius`, in a straight line between its rows; `None` outside its temperatures.
    pub fn chart_at(&self, celsius: f64) -> Option<ChartAt> {
        let mut pairs = self.chart.iter().zip(self.chart.iter().skip(1));
        let (below, above) = pairs.find(|(below, above)| (below[0]..=above[0]).contains(&celsius))?;
        let part = (celsius - below[0]) / (above[0] - below[0]);
        let at = |place: fn(&[f64; 3]) -> f64| place(below) + part * (place(above) - place(below));
        let middle = |row: &[f64; 3]| f64::midpoint(row[1], row[2]);
        let mm_per_k = (middle(above) - middle(below)) / (above[0] - below[0]);
        Some(ChartAt { low_mm: at(|r| r[1]), high_mm: at(|r| r[2]), mm_per_k })
    }

    /// The chart's lowest and highest temperature.
    fn chart_span(&self) -> Option<[f64; 2]> {
        Some([self.chart.first()?[0], self.chart.last()?[0]])
    }
}

/// The name of each key in each of the looks.
const KEYS: [[&str; 11]; MOST_LOOKS] = [
    [
        "look[1]",
        "look[1].position",
        "look[1].wait_s",
        "look[1].gate",
        "look[1].open",
        "look[1].right",
        "look[1].mm",
        "look[1].chart",
        "look[1].ml_per_mm",
        "look[1].then_add_ml",
        "look[1].after_drive",
    ],
    [
        "look[2]",
        "look[2].position",
        "look[2].wait_s",
        "look[2].gate",
        "look[2].open",
        "look[2].right",
        "look[2].mm",
        "look[2].chart",
        "look[2].ml_per_mm",
        "look[2].then_add_ml",
        "look[2].after_drive",
    ],
    [
        "look[3]",
        "look[3].position",
        "look[3].wait_s",
        "look[3].gate",
        "look[3].open",
        "look[3].right",
        "look[3].mm",
        "look[3].chart",
        "look[3].ml_per_mm",
        "look[3].then_add_ml",
        "look[3].after_drive",
    ],
];

/// One row of what must hold: key, whether it does, what was written, what it must be.
type Row = (&'static str, bool, String, String);

/// What must hold of the looks, and between them.
pub(super) fn relations(sheet: &Sheet) -> Vec<Row> {
    let looks = sheet.looks();
    let mut rows: Vec<Row> = vec![
        (
            "look",
            looks.len() <= MOST_LOOKS,
            format!("{} looks", looks.len()),
            format!("at most {MOST_LOOKS} looks"),
        ),
        (
            "look",
            looks.len() == 1 || sheet.level.rim != Rim::Gauge,
            format!("{} looks", looks.len()),
            "one look where level.rim is \"gauge\"".to_owned(),
        ),
        (
            "level.fill_from",
            match sheet.level.fill_from {
                FillFrom::GaugeTube => sheet.level.rim == Rim::Gauge,
                FillFrom::UpperPort => true,
                FillFrom::CheckPort | FillFrom::LevelHole => sheet.level.rim != Rim::Gauge,
            },
            format!("\"{}\"", sheet.level.fill_from),
            "\"gauge-tube\" or \"upper-port\" where level.rim is \"gauge\", and \"gauge-tube\" only there"
                .to_owned(),
        ),
    ];
    let last = looks.len().saturating_sub(1);
    for (place, (look, keys)) in looks.iter().zip(KEYS).enumerate() {
        rows.extend(of_one(sheet, look, keys, place == last));
    }
    rows
}

#[rustfmt::skip]
fn of_one(sheet: &Sheet, look: &Look, keys: [&'static str; 11], last: bool) -> Vec<Row> {
    let [whole, position, wait, gate, open, right, mm, chart, ml_per_mm, add, after_drive] = keys;
    let (rim, drive) = (sheet.level.rim, sheet.level.drive);
    let hole = matches!(rim, Rim::SideHole | Rim::FillHole);
    let named = |p: &String| match &sheet.before.selector {
        Some(selector) => selector.positions.contains(p),
        None => (1..=4).contains(&p.chars().count()),
    };
    let engine = format!("engine = \"{}\"", look.engine);
    let sign = format!("\"{}\"", look.right);
    let mut rows: Vec<Row> = vec![
        (position, look.position.as_ref().is_none_or(named), format!("{:?}", look.position.as_deref().unwrap_or_default()),
            "one of before.selector.positions".to_owned()),
        (wait, look.wait_s.len() <= 2 && look.wait_s.is_sorted() && look.wait_s.iter().all(|s| *s <= LONGEST_WAIT_S), format!("{:?}", look.wait_s),
            format!("[from] or [from, to] in seconds, 0 to {LONGEST_WAIT_S}, the smaller one first")),
        (mm, look.mm.is_some() == (look.right == Right::BelowEdge), format!("{:?}", look.mm.unwrap_or_default()),
            "there with right = \"below-edge-mm\", as [low, high], and only there".to_owned()),
        (mm, look.mm.is_none_or(|[low, high]| (0.0..=DEEPEST_MM).contains(&low) && low < high && high <= DEEPEST_MM), format!("{:?}", look.mm.unwrap_or_default()),
            format!("0 to {DEEPEST_MM} mm below the edge, the smaller one first")),
        (add, (0.0..=3_000.0).contains(&look.then_add_ml), look.then_add_ml.to_string(), "0 to 3000 mL".to_owned()),
        (add, look.then_add_ml == 0.0 || !last, look.then_add_ml.to_string(), "left out at the last look: nothing is filled after it".to_owned()),
        (whole, drive != Drive::None || !look.idles(), engine.clone(), "engine = \"ready-off\" or \"off\" where level.drive is \"none\"".to_owned()),
        (whole, look.engine != LookEngine::ReadyOff || drive != Drive::Engine, engine.clone(), "\"idle\" or \"off\" where level.drive is \"engine\"".to_owned()),
        (right, (look.right == Right::Amount) == (rim == Rim::None), sign.clone(), "\"amount\" where level.rim is \"none\", and only there".to_owned()),
        (right, !look.reads_a_height() || (hole && !look.idles()), sign.clone(),
            "\"trickle\" or \"drips\"; where the fluid stands is seen in a hole only, and with the engine off".to_owned()),
        (open, (look.open == LookOpen::AtLowEdge) == (look.right == Right::FirstDrips), format!("\"{}\"", look.open),
            "\"at-low-edge\" where right is \"first-drips\", and only there".to_owned()),
        (gate, look.open != LookOpen::AtLowEdge || (look.is_gated() && look.idles()), format!("\"{}\"", look.gate),
            "\"band\", and the engine idling, where open is \"at-low-edge\"".to_owned()),
        (open, look.open != LookOpen::Any || !look.is_gated(), "\"any\"".to_owned(), "\"in-band\" or \"at-low-edge\" where gate is \"band\"".to_owned()),
    ];
    rows.extend(of_chart(sheet, look, [whole, gate, right, chart, ml_per_mm]));
    rows.push((after_drive, !look.after_drive || (last && !look.idles() && !look.is_gated()), "true".to_owned(),
        "left out but at the last look, with the engine off and gate = \"none\"".to_owned()));
    if last {
        rows.extend([
            (gate, look.is_gated() || !look.idles(), "\"none\"".to_owned(), "\"band\" at the last look where the engine idles: it sets the level".to_owned()),
            (right, look.idles() || look.reads_a_height() || look.right == Right::Amount, sign,
                "\"lower-edge\" or \"below-edge-mm\" at the last look where the engine is off: a stream says nothing then".to_owned()),
        ]);
    }
    rows
}

/// What must hold of the chart of a gauge.
#[rustfmt::skip]
fn of_chart(sheet: &Sheet, look: &Look, keys: [&'static str; 5]) -> Vec<Row> {
    let [whole, gate, right, chart, ml_per_mm] = keys;
    let reads = look.right == Right::Chart;
    let sign = format!("\"{}\"", look.right);
    let mut rows: Vec<Row> = vec![
        (right, reads == (sheet.level.rim == Rim::Gauge), sign, "\"chart\" where level.rim is \"gauge\", and only there".to_owned()),
        (chart, reads != look.chart.is_empty(), format!("{} rows", look.chart.len()), "there with right = \"chart\", as rows of [°C, mm low, mm high], and only there".to_owned()),
        (ml_per_mm, reads == look.ml_per_mm.is_some(), look.ml_per_mm.map_or("missing".to_owned(), |ml| ml.to_string()),
            "there with right = \"chart\", and only there".to_owned()),
        (ml_per_mm, look.ml_per_mm.is_none_or(|ml| ML_PER_MM.contains(&ml)), look.ml_per_mm.unwrap_or_default().to_string(),
            format!("{} to {} mL a millimetre", ML_PER_MM.start(), ML_PER_MM.end())),
        (whole, !reads || look.idles(), format!("engine = \"{}\"", look.engine), "\"idle\" where right is \"chart\"".to_owned()),
        (gate, !reads || look.is_gated(), format!("\"{}\"", look.gate), "\"band\" where right is \"chart\"".to_owned()),
    ];
    if look.chart.is_empty() {
        return rows;
    }
    let ascends = look.chart.iter().zip(look.chart.iter().skip(1)).all(|(a, b)| a[0] < b[0]);
    let row = |[celsius, low, high]: &[f64; 3]| CHART_C.contains(celsius) && CHART_MM.contains(low) && CHART_MM.contains(high) && low < high;
    rows.extend([
        (chart, (2..=MOST_ROWS).contains(&look.chart.len()) && ascends, format!("{:?}", look.chart.iter().map(|r| r[0]).collect::<Vec<_>>()),
            format!("2 to {MOST_ROWS} rows, each warmer than the one before")),
        (chart, look.chart.iter().all(row), format!("{:?}", look.chart.iter().find(|r| !row(r)).unwrap_or(&[0.0; 3])),
            format!("rows of {} to {} °C, and {} to {} mm, the lower one first", CHART_C.start(), CHART_C.end(), CHART_MM.start(), CHART_MM.end())),
    ]);
    if let Some([coldest, hottest]) = look.chart_span() {
        let inside = |[low, high]: [f64; 2]| coldest <= low && high <= hottest;
        let must = format!("inside the temperatures of the chart, {coldest} to {hottest} °C");
        rows.push(("check.band_c", inside(sheet.check.band_c), format!("{:?} °C", sheet.check.band_c), must.clone()));
        rows.push(("check.hot_band_c", sheet.check.hot_band_c.is_none_or(inside), format!("{:?} °C", sheet.check.hot_band_c.unwrap_or_default()), must));
    }
    rows
}

/// So many looks at the most.
/// Own choice: makers ask for one or two (docs/procedures.md); each more is a window to wait for.
pub(super) const MOST_LOOKS: usize = 3;
/// Longer nobody waits for one look.
/// Own choice: an hour; beyond it the fluid is cold.
const LONGEST_WAIT_S: u32 = 3_600;
/// Deeper below the edge no maker lets it stand.
/// Own choice: seen were 0 to 5 mm, and 10 mm between wheels and raised.
const DEEPEST_MM: f64 = 50.0;
/// More rows no chart has.
/// Own choice: one each 8 K of all that a chart may hold.
const MOST_ROWS: usize = 24;
/// Temperatures that a chart has rows for.
/// Own choice: as far as the volume formula goes, save that no yard is colder.
const CHART_C: core::ops::RangeInclusive<f64> = -40.0..=150.0;
/// Millimetres that a gauge shows.
/// Own choice: gauges reach from the tube's edge into the sump, and no sump is deeper.
const CHART_MM: core::ops::RangeInclusive<f64> = 0.0..=500.0;
/// What one millimetre of the gauge may be.
/// Own choice: by the surface in the sump, as `standpipe.surface_m2` has it, and in a tube that narrows.
const ML_PER_MM: core::ops::RangeInclusive<f64> = 1.0..=300.0;
