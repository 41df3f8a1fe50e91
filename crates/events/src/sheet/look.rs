//! The looks: a procedure is a list of them. Each has an engine state, a wait, a gate and a sign that it is right.
//!
//! In: the tables `[[look]]` of a sheet. Out: [`Look`], and what is wrong between them. Not here: the ranges of the other tables
//! (`check.rs`), what a look asks of the hands (`job`).

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Drive, Rim, Sheet};
use crate::words::words;

words! {
    /// What the engine does while it is looked.
    LookEngine {
        Idle "idle" "It idles.",
        Off "off" "It is off.",
        ReadyOff "ready-off" "It is off and cannot start by itself.",
    }
}

words! {
    /// Whether a look waits for the temperature.
    LookGate {
        Band "band" "Only inside the band.",
        None "none" "At any temperature.",
    }
}

words! {
    /// When the port may be opened.
    LookOpen {
        InBand "in-band" "When the verdict is go.",
        AtLowEdge "at-low-edge" "At the low edge of the band: it is watched while the fluid warms.",
        Any "any" "At any temperature.",
    }
}

words! {
    /// The sign that the level is right.
    Right {
        Trickle "trickle" "A stream that has become a thin thread.",
        FirstDrips "first-drips" "Dry when it is opened, drips before the high edge.",
        Drips "drips" "Drop by drip, or a stream that has become so.",
        LowerEdge "lower-edge" "The fluid stands at the lower edge of the hole.",
        BelowEdge "below-edge-mm" "The fluid stands so many millimetres below the lower edge.",
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
    /// What is filled after this look, in mL.
    #[serde(skip_serializing_if = "is_nothing")]
    pub then_add_ml: f64,
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
            then_add_ml: 0.0,
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
}

/// The name of each key in each of the looks.
const KEYS: [[&str; 8]; MOST_LOOKS] = [
    [
        "look[1]",
        "look[1].position",
        "look[1].wait_s",
        "look[1].gate",
        "look[1].open",
        "look[1].right",
        "look[1].mm",
        "look[1].then_add_ml",
    ],
    [
        "look[2]",
        "look[2].position",
        "look[2].wait_s",
        "look[2].gate",
        "look[2].open",
        "look[2].right",
        "look[2].mm",
        "look[2].then_add_ml",
    ],
    [
        "look[3]",
        "look[3].position",
        "look[3].wait_s",
        "look[3].gate",
        "look[3].open",
        "look[3].right",
        "look[3].mm",
        "look[3].then_add_ml",
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
            "level.rim",
            sheet.level.rim != Rim::Gauge,
            "\"gauge\"".to_owned(),
            "one that this version can look at; a gauge and its chart it cannot read yet: go by the maker's text".to_owned(),
        ),
    ];
    let last = looks.len().saturating_sub(1);
    for (place, (look, keys)) in looks.iter().zip(KEYS).enumerate() {
        rows.extend(of_one(sheet, look, keys, place == last));
    }
    rows
}

#[rustfmt::skip]
fn of_one(sheet: &Sheet, look: &Look, keys: [&'static str; 8], last: bool) -> Vec<Row> {
    let [whole, position, wait, gate, open, right, mm, add] = keys;
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
    if last {
        rows.extend([
            (gate, look.is_gated() || !look.idles(), "\"none\"".to_owned(), "\"band\" at the last look where the engine idles: it sets the level".to_owned()),
            (right, look.idles() || look.reads_a_height() || look.right == Right::Amount, sign,
                "\"lower-edge\" or \"below-edge-mm\" at the last look where the engine is off: a stream says nothing then".to_owned()),
        ]);
    }
    rows
}

/// So many looks at the most.
pub(super) const MOST_LOOKS: usize = 3;
/// Longer nobody waits for one look (own choice).
const LONGEST_WAIT_S: u32 = 3_600;
/// Deeper below the edge no maker lets it stand (own choice; seen: 0 to 5 mm, and 10 mm between wheels and raised).
const DEEPEST_MM: f64 = 50.0;
