//! From text to a sheet whose every value is plausible.
//!
//! In: TOML text. Out: a [`Sheet`], or the first fault with its line and column. Four passes, coarse to fine:
//! TOML's own grammar; hidden characters; unknown keys (with the nearest known one); types, then ranges. The ranges are
//! what cars can have, common practice without a source unless the row says otherwise.

use toml::de::{DeTable, DeValue};

use super::order::wrong_order;
use super::{Reported, Rim, Selector, Sheet};
use crate::text::{self, Hidden, shown};
use crate::{Signal, Step};

/// A sheet longer than this is refused unread.
/// Own choice: the longest sheet of fixtures has some 10 kB; a parser that holds the whole text must not be given a
/// film.
pub const PARSE_LIMIT: usize = 64 * 1024;

/// Why a text is not a sheet. `line` and `column` count from 1.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum SheetError {
    /// Not TOML, or a value of the wrong type.
    #[error("line {line}, column {column}: {what}")]
    Syntax {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// What the reader of the format says.
        what: String,
    },
    /// A key that no sheet has.
    #[error("line {line}, column {column}: unknown key `{key}`{}", .nearest.map_or(String::new(), |n| format!("; did you mean `{n}`?")))]
    UnknownKey {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// The key with its table: `check.bandc`.
        key: String,
        /// The known key nearest to it.
        nearest: Option<&'static str>,
    },
    /// A text, or a key, with a character that is not seen but changes what is.
    #[error("line {line}, column {column}: in `{key}` {hidden}")]
    Hidden {
        /// Line of the value, from 1.
        line: usize,
        /// Its column, from 1.
        column: usize,
        /// The key with its table.
        key: String,
        /// Which character, and its place in the text.
        hidden: Hidden,
    },
    /// A value that no vehicle has.
    #[error("line {line}, column {column}: `{key}` is {value}; it must be {range}")]
    OutOfRange {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// The key with its table.
        key: &'static str,
        /// What was written.
        value: String,
        /// The range, with its unit.
        range: String,
    },
    /// Longer than [`PARSE_LIMIT`].
    #[error("the sheet is longer than {PARSE_LIMIT} bytes")]
    TooLong,
}

/// Whether a sheet has it: `fluid.total_ml`, or a whole table.
pub(super) fn is_key(named: &str) -> bool {
    // One step's table stands for all.
    let of_step = named.strip_prefix("steps.").and_then(|rest| rest.split_once('.'));
    let one_step =
        of_step.filter(|(step, _)| step.parse::<Step>().is_ok()).map(|(_, key)| format!("steps.*.{key}"));
    let named = one_step.as_deref().unwrap_or(named);
    KEYS.iter().any(|(table, keys)| {
        let table = table.trim_end_matches("[]");
        named == table
            || keys.iter().any(|key| match named.strip_prefix(table) {
                Some(rest) if !table.is_empty() => rest.strip_prefix('.') == Some(*key),
                _ => table.is_empty() && named == *key,
            })
    })
}

/// The keys of each table.
const KEYS: &[(&str, &[&str])] = &[
    (
        "",
        &[
            "sheet",
            "name",
            "bus",
            "check",
            "identifier",
            "fluid",
            "standpipe",
            "torque_nm",
            "before",
            "level",
            "look",
            "stand",
            "access",
            "guessed",
            "unconfirmed",
            "recheck",
            "vehicle",
            "stop",
            "steps",
            "provenance",
        ],
    ),
    (
        "check",
        &[
            "signal",
            "from",
            "band_c",
            "single_u_c",
            "hot_band_c",
            "hot_from_air_c",
            "start_below_c",
            "idle_rpm",
            "k",
            "tolerance_ml",
            "lamp",
        ],
    ),
    ("check.lamp", &["too_cold", "right", "too_hot"]),
    (
        "identifier",
        &["service", "id", "header", "byte", "length", "bytes", "scale", "offset", "signed", "little_endian"],
    ),
    (
        "fluid",
        &[
            "type",
            "total_ml",
            "drain_ml",
            "margin_ml",
            "density_15",
            "exchanges",
            "portions",
            "portion_ml",
            "ml_per_k",
            "container_ml",
            "filter_ml",
            "cooler_ml",
            "pan_ml",
            "converter_ml",
            "mm2_s_40",
            "mm2_s_100",
        ],
    ),
    ("standpipe", &["surface_m2", "offset_mm", "bore_mm", "rim_mm", "length_mm"]),
    ("torque_nm", &["standpipe", "check_port", "fill_port"]),
    ("before", &["cooler_bypass", "started_cold", "selector", "mode"]),
    ("level", &["rim", "fill_from", "drive", "sump_opens", "gush_ml", "wave"]),
    ("level.wave", &["every_s"]),
    (
        "look[]",
        &[
            "engine",
            "position",
            "wait_s",
            "gate",
            "open",
            "right",
            "mm",
            "chart",
            "ml_per_mm",
            "then_add_ml",
            "after_drive",
        ],
    ),
    ("stand", &["on", "air_springs", "pitch_deg", "roll_deg"]),
    ("before.selector", &["positions", "dwell_s", "rounds", "reported"]),
    ("before.selector.reported", &["service", "id", "header", "byte", "codes"]),
    ("recheck", &["days"]),
    ("vehicle", &["wheelbase_mm", "track_mm"]),
    ("stop", &["coolant_c", "fluid_c", "volts", "idle_min"]),
    (
        "steps",
        &[
            "order",
            "prepare",
            "drain",
            "fill",
            "circulate",
            "window",
            "run-out",
            "trickle",
            "close",
            "torque",
            "test-drive",
            "recheck",
        ],
    ),
    ("steps.*", &["who", "tools", "cautions", "note"]),
    ("provenance.*", &["how", "at", "by", "note"]),
];

impl Sheet {
    /// Reads a sheet.
    ///
    /// # Errors
    /// [`SheetError`]: the first fault with its place, what is wrong, and what would be right.
    pub fn parse(text: &str) -> Result<Self, SheetError> {
        if text.len() > PARSE_LIMIT {
            return Err(SheetError::TooLong);
        }
        let document = DeTable::parse(text).map_err(|e| syntax(text, &e))?;
        for (key, value) in document.get_ref() {
            seen_text(text, key.get_ref(), key.get_ref(), key.span().start)?;
            seen_texts(text, key.get_ref(), value.get_ref(), value.span().start)?;
        }
        known_keys(text, "", document.get_ref())?;
        let mut sheet: Self = toml::from_str(text).map_err(|e| syntax(text, &e))?;
        let written = document.get_ref().keys().any(|key| key.get_ref().as_ref() == "standpipe");
        if let Some((value, range)) = sheet.fill_in(written) {
            return Err(out_of_range(text, document.get_ref(), "level.rim", value, range));
        }
        for (key, value, low, high, unit) in sheet.numbers() {
            if !(low..=high).contains(&value) {
                let range = format!("{low} to {high}{unit}");
                return Err(out_of_range(text, document.get_ref(), key, value.to_string(), range));
            }
        }
        for (key, holds, value, range) in sheet.relations() {
            if !holds {
                return Err(out_of_range(text, document.get_ref(), key, value, range));
            }
        }
        Ok(sheet)
    }

    /// What a sheet may leave out and is made up for: the band around a single temperature, the surface at a hole. Gives what is
    /// wrong where it may not be left out.
    fn fill_in(&mut self, standpipe: bool) -> Option<(String, String)> {
        let check = &mut self.check;
        if let [low, high] = check.band_c
            && low == high
        {
            let u = *check.single_u_c.get_or_insert(SINGLE_U_C);
            check.band_c = [low - u, high + u];
        }
        if standpipe {
            return None;
        }
        if matches!(self.level.rim, Rim::Pipe | Rim::JobPipe) {
            let rim = format!("\"{}\" without a table [standpipe]", self.level.rim);
            return Some((rim, "accompanied by a table [standpipe] where it is a pipe".to_owned()));
        }
        if self.level.rim != Rim::None {
            self.guessed.push("standpipe".to_owned());
        }
        None
    }

    /// Every number with its plausible range: key, value, low, high, unit.
    /// Own choice: each from below what any vehicle has to above it, so that a slip of the keyboard or of the unit is found.
    #[rustfmt::skip]
    fn numbers(&self) -> Vec<(&'static str, f64, f64, f64, &'static str)> {
        let (c, f, s) = (&self.check, &self.fluid, &self.standpipe);
        let mut rows = vec![
            ("sheet",               f64::from(self.sheet),         1.0,     1.0,   ""),
            ("check.band_c",        c.band_c[0],                   0.0,   120.0,   " °C"),
            ("check.band_c",        c.band_c[1],                   0.0,   120.0,   " °C"),
            ("check.idle_rpm",      f64::from(c.idle_rpm[0]),    300.0,  1500.0,   " 1/min"),
            ("check.idle_rpm",      f64::from(c.idle_rpm[1]),    300.0,  2000.0,   " 1/min"),
            ("check.k",             c.k,                           1.0,     4.0,   ""),
            ("check.tolerance_ml",  c.tolerance_ml,               10.0,   500.0,   " mL"),
            ("fluid.total_ml",      f.total_ml,                  200.0, 25000.0,   " mL"),
            ("fluid.drain_ml",      f.drain_ml,                    0.0, 20000.0,   " mL"),
            ("fluid.margin_ml",     f.margin_ml,                   0.0,  3000.0,   " mL"),
            ("fluid.exchanges",     f64::from(f.exchanges),        1.0,     6.0,   " rounds"),
            ("fluid.portions",      f64::from(f.portions),         1.0,    10.0,   " times"),
            ("fluid.container_ml",  f.container_ml,              100.0, 210_000.0, " mL"),
            ("stand.pitch_deg",     self.stand.pitch_deg,         -5.0,     5.0,   "°"),
            ("stand.roll_deg",      self.stand.roll_deg,          -5.0,     5.0,   "°"),
            ("stop.coolant_c",      self.stop.coolant_c,          90.0,   135.0,   " °C"),
            ("stop.fluid_c",        self.stop.fluid_c,            60.0,   150.0,   " °C"),
            ("stop.volts",          self.stop.volts,               9.0,    28.0,   " V"),
            ("stop.idle_min",       self.stop.idle_min,            5.0,   240.0,   " min"),
            // the lubricating-oil group of API MPMS 11.1
            ("fluid.density_15",    f.density_15,                800.0,  1164.0,   " kg/m³"),
            ("fluid.mm2_s_40",      f.mm2_s_40,                    5.0,   200.0,   " mm²/s"),
            ("fluid.mm2_s_100",     f.mm2_s_100,                   2.0,    40.0,   " mm²/s"),
            ("standpipe.surface_m2", s.surface_m2,                 0.01,    0.3,   " m²"),
            ("standpipe.offset_mm", s.offset_mm[0],            -1000.0,  1000.0,   " mm"),
            ("standpipe.offset_mm", s.offset_mm[1],            -1000.0,  1000.0,   " mm"),
            ("standpipe.bore_mm",   s.bore_mm,                     2.0,    30.0,   " mm"),
            ("standpipe.rim_mm",    s.rim_mm,                      0.2,    10.0,   " mm"),
            ("standpipe.length_mm", s.length_mm,                   5.0,   300.0,   " mm"),
        ];
        if let Some(i) = &self.identifier {
            rows.extend([
                ("identifier.length", f64::from(i.length),         1.0,     4.0,   " bytes"),
                ("identifier.byte",   f64::from(i.byte),           0.0,    63.0,   ""),
                ("identifier.scale",  i.scale,                     0.000_1, 10.0,  " °C per count"),
                ("identifier.offset", i.offset,                 -300.0,   300.0,   " °C"),
            ]);
        }
        let may: [(_, Option<f64>, _, _, _); 9] = [
            ("fluid.portion_ml",     f.portion_ml,                20.0,  3000.0,   " mL"),
            ("fluid.ml_per_k",       f.ml_per_k,                 -60.0,    60.0,   " mL a kelvin"),
            ("level.gush_ml",        self.level.gush_ml,           0.0,   500.0,   " mL"),
            ("level.wave.every_s",   self.level.wave.map(|w| w.every_s), 5.0, 300.0, " s"),
            ("check.single_u_c",     c.single_u_c,                 1.0,    10.0,   " K"),
            ("check.hot_band_c",     c.hot_band_c.map(|b| b[0]),  15.0,   100.0,   " °C"),
            ("check.hot_band_c",     c.hot_band_c.map(|b| b[1]),  15.0,   100.0,   " °C"),
            ("check.hot_from_air_c", c.hot_from_air_c,            20.0,    55.0,   " °C"),
            ("check.start_below_c",  c.start_below_c,             10.0,    90.0,   " °C"),
        ];
        rows.extend(may.into_iter().filter_map(|(key, v, low, high, unit)| Some((key, v?, low, high, unit))));
        let parts = [("fluid.filter_ml", f.filter_ml), ("fluid.cooler_ml", f.cooler_ml), ("fluid.pan_ml", f.pan_ml), ("fluid.converter_ml", f.converter_ml)];
        rows.extend(parts.into_iter().filter_map(|(key, v)| Some((key, v?, 10.0, 8000.0, " mL"))));
        if let Some(v) = &self.vehicle {
            rows.extend([
                ("vehicle.wheelbase_mm", v.wheelbase_mm,        1000.0,  8000.0,   " mm"),
                ("vehicle.track_mm",     v.track_mm[0],          800.0,  3000.0,   " mm"),
                ("vehicle.track_mm",     v.track_mm[1],          800.0,  3000.0,   " mm"),
            ]);
        }
        if let Some(t) = &self.torque_nm {
            let plugs = [("torque_nm.standpipe", t.standpipe), ("torque_nm.check_port", t.check_port), ("torque_nm.fill_port", t.fill_port)];
            rows.extend(plugs.into_iter().filter_map(|(key, v)| Some((key, v?, 0.5, 150.0, " N·m"))));
        }
        if let Some(selector) = &self.before.selector {
            rows.extend([
                ("before.selector.dwell_s", f64::from(selector.dwell_s), 1.0, 60.0,   " s"),
                ("before.selector.rounds",  f64::from(selector.rounds),  1.0, 10.0,   ""),
            ]);
        }
        rows.extend(self.recheck.days.iter().map(|&d| ("recheck.days", f64::from(d), 1.0, 400.0, " days")));
        rows
    }

    /// What must hold between values: key, whether it does, what was written, what it must be.
    fn relations(&self) -> Vec<(&'static str, bool, String, String)> {
        let (c, f) = (&self.check, &self.fluid);
        let mut rows = vec![
            ("name", (1..=80).contains(&self.name.chars().count()), format!("{:?}", self.name), "1 to 80 characters".to_owned()),
            (
                "check.band_c",
                c.band_c[1] - c.band_c[0] >= 2.0,
                format!("{} to {} °C", c.band_c[0], c.band_c[1]),
                "at least 2 °C wide, the low edge first".to_owned(),
            ),
            (
                "check.band_c",
                c.band_c[0] >= 15.0 && c.band_c[1] <= 100.0 && c.band_c[1] - c.band_c[0] <= 30.0,
                format!("{} to {} °C ({} to {} °F)", c.band_c[0], c.band_c[1], fahrenheit(c.band_c[0]), fahrenheit(c.band_c[1])),
                "inside 15 to 100 °C and at most 30 °C wide".to_owned(),
            ),
            (
                "check.idle_rpm",
                c.idle_rpm[0] < c.idle_rpm[1],
                format!("{} to {} 1/min", c.idle_rpm[0], c.idle_rpm[1]),
                "a range, the low edge first".to_owned(),
            ),
            (
                "fluid.drain_ml",
                f.drain_ml < f.total_ml,
                format!("{} mL", f.drain_ml),
                format!("less than all of it ({} mL)", f.total_ml),
            ),
            (
                "fluid.mm2_s_100",
                f.mm2_s_100 < f.mm2_s_40,
                format!("{} mm²/s", f.mm2_s_100),
                format!("less than at 40 °C ({} mm²/s)", f.mm2_s_40),
            ),
            (
                "check.from",
                c.from.as_deref().is_none_or(|unit| c.signal == Signal::Coolant && answering(unit)),
                format!("{:?}", c.from.as_deref().unwrap_or_default()),
                "the control unit that answers, as 7E8, 18DAF110 or 10, and only with signal = \"coolant\"; a fluid identifier has its own header".to_owned(),
            ),
            (
                "check.signal",
                c.signal != Signal::Fluid || self.identifier.is_some(),
                "\"fluid\"".to_owned(),
                "accompanied by a table [identifier] that says where the fluid temperature is; without one use \"coolant\" or \"spot\"".to_owned(),
            ),
            (
                "check.signal",
                c.signal != Signal::Lamp || (c.lamp.is_some() && self.before.mode.is_some()),
                "\"lamp\"".to_owned(),
                "accompanied by a table [check.lamp] with too_cold, right and too_hot as the lamp shows them, and by before.mode: how the mode is switched on in which it means that".to_owned(),
            ),
            (
                "check.lamp",
                c.lamp.as_ref().is_none_or(|lamp| {
                    let words = [&lamp.too_cold, &lamp.right, &lamp.too_hot];
                    words.iter().all(|word| (1..=80).contains(&word.trim().chars().count()))
                        && words[0] != words[1] && words[1] != words[2] && words[0] != words[2]
                }),
                "words".to_owned(),
                "three words or phrases of 1 to 80 characters that differ from each other".to_owned(),
            ),
        ];
        rows.extend(super::provenance::relations(self));
        rows.extend(super::look::relations(self));
        rows.extend([
            (
                "check.single_u_c",
                c.single_u_c.is_none_or(|u| (c.band_c[1] - c.band_c[0] - 2.0 * u).abs() < 1e-6),
                format!("{} K", c.single_u_c.unwrap_or_default()),
                "left out where check.band_c has two temperatures; it belongs to one that is written twice"
                    .to_owned(),
            ),
            (
                "check.hot_band_c",
                c.hot_band_c.is_none_or(|[low, high]| high - low >= 2.0 && high - low <= 30.0),
                format!("{:?} °C", c.hot_band_c.unwrap_or_default()),
                "2 to 30 °C wide, the low edge first".to_owned(),
            ),
            (
                "check.hot_band_c",
                c.hot_band_c.is_some() == c.hot_from_air_c.is_some(),
                if c.hot_band_c.is_some() { "alone" } else { "missing" }.to_owned(),
                "together with check.hot_from_air_c, the air from which on it counts".to_owned(),
            ),
            (
                "check.start_below_c",
                c.start_below_c.is_none_or(|t| t <= c.band_c[1]),
                format!("{} °C", c.start_below_c.unwrap_or_default()),
                "no higher than the high edge of check.band_c".to_owned(),
            ),
        ]);
        if let Some(i) = &self.identifier {
            rows.extend([
                (
                    "identifier.service",
                    matches!(i.service, 0x21 | 0x22),
                    format!("{:#04x}", i.service),
                    "0x21 or 0x22: only reading services are ever sent".to_owned(),
                ),
                (
                    "identifier.id",
                    i.service == 0x22 || i.id <= 0xFF,
                    format!("{:#06x}", i.id),
                    "at most 0xFF with service 0x21".to_owned(),
                ),
                (
                    "identifier.bytes",
                    i.bytes.is_none_or(|bytes| {
                        u16::from(bytes) >= u16::from(i.byte) + u16::from(i.length) && bytes <= 64
                    }),
                    format!("{}", i.bytes.unwrap_or_default()),
                    format!("at least {} (byte and length together) and at most 64", u16::from(i.byte) + u16::from(i.length)),
                ),
                (
                    "identifier.header",
                    diagnostic(&i.header),
                    format!("{:?}", i.header),
                    "the address of a diagnostic request: 600 to 7FF, 18DAxxF1, or three bytes that end in F1".to_owned(),
                ),
            ]);
        }
        if let Some(selector) = &self.before.selector {
            let good = (1..=12).contains(&selector.positions.len())
                && selector.positions.iter().all(|p| (1..=4).contains(&p.chars().count()));
            rows.push((
                "before.selector.positions",
                good,
                format!("{:?}", selector.positions),
                "1 to 12 names of 1 to 4 characters".to_owned(),
            ));
            rows.extend(selector.reported.as_ref().map(|reported| self.reported(selector, reported)));
        }
        if let Some(order) = &self.steps.order {
            let wrong = wrong_order(order);
            rows.push((
                "steps.order",
                wrong.is_none(),
                wrong.unwrap_or_default(),
                "every step once, and before it what it rests on".to_owned(),
            ));
        }
        let long = Step::ALL.iter().filter_map(|s| self.steps.of(*s)).any(|plan| {
            plan.tools.len() > 12
                || plan.tools.iter().any(|t| t.chars().count() > 60)
                || plan.note.as_ref().is_some_and(|n| n.chars().count() > 300)
        });
        rows.push((
            "steps",
            !long,
            "a step with much text".to_owned(),
            "at most 12 tools of 60 characters and a note of 300 a step".to_owned(),
        ));
        rows.push((
            "recheck.days",
            self.recheck.days.len() <= 8,
            format!("{} days", self.recheck.days.len()),
            "at most 8 days".to_owned(),
        ));
        rows
    }
}

impl Sheet {
    /// A control unit that tells the selector's position: a reading service at a diagnostic address, one code a position,
    /// and not the identifier of the temperature.
    fn reported(&self, selector: &Selector, reported: &Reported) -> (&'static str, bool, String, String) {
        let taken =
            self.identifier.as_ref().is_some_and(|i| (i.service, i.id) == (reported.service, reported.id));
        let mut codes = reported.codes.clone();
        codes.sort_unstable();
        codes.dedup();
        let good = matches!(reported.service, 0x21 | 0x22)
            && (reported.service == 0x22 || reported.id <= 0xFF)
            && diagnostic(&reported.header)
            && reported.byte <= 63
            && reported.codes.len() == selector.positions.len()
            && codes.len() == reported.codes.len()
            && !taken;
        let written =
            format!("{:#04x} {:#06x} with {} codes", reported.service, reported.id, reported.codes.len());
        let range = "service 0x21 or 0x22 at a diagnostic address, another identifier than the temperature's, and a code of its own for each position";
        ("before.selector.reported", good, written, range.to_owned())
    }
}

/// Whether requests may go to this address: the 11-bit range of diagnostics, the 29-bit physical form of ISO
/// 15765-4, or a three-byte header whose sender is the tester (F1). Others are the vehicle's own messages.
fn diagnostic(header: &str) -> bool {
    let Ok(address) = u32::from_str_radix(header, 16) else { return false };
    match header.len() {
        3 => (0x600..=0x7FF).contains(&address),
        6 => address & 0xFF == 0xF1,
        8 => address & 0xFFFF_00FF == 0x18DA_00F1,
        _ => false,
    }
}

/// Whether a control unit can answer with this identifier: 11 bits, 29 bits, or the address of the older buses.
fn answering(unit: &str) -> bool {
    let Ok(id) = u32::from_str_radix(unit, 16) else { return false };
    match unit.len() {
        2 => true,
        3 => id <= 0x7FF,
        8 => id <= 0x1FFF_FFFF,
        _ => false,
    }
}

/// Looks for a text with a hidden character in a value, depth first.
fn seen_texts(text: &str, path: &str, value: &DeValue<'_>, at: usize) -> Result<(), SheetError> {
    match value {
        DeValue::String(found) => seen_text(text, path, found, at),
        DeValue::Array(values) => {
            values.iter().try_for_each(|v| seen_texts(text, path, v.get_ref(), v.span().start))
        }
        DeValue::Table(inner) => inner.iter().try_for_each(|(key, value)| {
            let path = format!("{path}.{}", key.get_ref());
            seen_text(text, &path, key.get_ref(), key.span().start)?;
            seen_texts(text, &path, value.get_ref(), value.span().start)
        }),
        _ => Ok(()),
    }
}

fn seen_text(text: &str, path: &str, found: &str, at: usize) -> Result<(), SheetError> {
    text::check(found).map_err(|hidden| {
        let (line, column) = place(text, at);
        SheetError::Hidden { line, column, key: shown(path).into_owned(), hidden }
    })
}

/// Looks for a key that no sheet has, depth first.
fn known_keys(text: &str, table: &str, found: &DeTable<'_>) -> Result<(), SheetError> {
    if table == "provenance" {
        // Its keys are those of the whole sheet: `provenance.rs`.
        return found.iter().try_for_each(|(_, value)| match value.get_ref() {
            DeValue::Table(inner) => known_keys(text, "provenance.*", inner),
            _ => Ok(()),
        });
    }
    let family = if table.starts_with("steps.") { "steps.*" } else { table };
    let Some(&(_, keys)) = KEYS.iter().find(|(name, _)| *name == family) else { return Ok(()) };
    for (key, value) in found {
        let name = key.get_ref().as_ref();
        let path = if table.is_empty() { name.to_owned() } else { format!("{table}.{name}") };
        if !keys.contains(&name) {
            let (line, column) = place(text, key.span().start);
            return Err(SheetError::UnknownKey { line, column, key: path, nearest: nearest(name, keys) });
        }
        match value.get_ref() {
            DeValue::Table(inner) => known_keys(text, &path, inner)?,
            DeValue::Array(rows) => {
                for row in rows {
                    if let DeValue::Table(inner) = row.get_ref() {
                        known_keys(text, &format!("{path}[]"), inner)?;
                    }
                }
            }
            _ => {}
        }
    }
    Ok(())
}

/// The known key that is most like `name`, if one is like it at all.
fn nearest(name: &str, keys: &'static [&'static str]) -> Option<&'static str> {
    let scored = keys.iter().map(|key| (strsim::jaro_winkler(name, key), *key));
    scored.max_by(|a, b| a.0.total_cmp(&b.0)).filter(|(score, _)| *score > 0.75).map(|(_, key)| key)
}

/// Line and column, from 1, of a byte offset; columns count characters.
fn place(text: &str, offset: usize) -> (usize, usize) {
    let before = text.get(..offset).unwrap_or(text);
    let line = before.matches('\n').count() + 1;
    let column = before.rsplit('\n').next().map_or(0, |l| l.chars().count()) + 1;
    (line, column)
}

fn syntax(text: &str, error: &toml::de::Error) -> SheetError {
    let (line, column) = place(text, error.span().map_or(0, |s| s.start));
    SheetError::Syntax { line, column, what: shown(&error.message().replace('\n', "; ")).into_owned() }
}

fn out_of_range(
    text: &str,
    document: &DeTable<'_>,
    key: &'static str,
    value: String,
    range: String,
) -> SheetError {
    let mut table = document;
    let mut offset = 0;
    for part in key.split('.') {
        // `look[2]` is the second table of that name.
        let (part, row) = part.trim_end_matches(']').split_once('[').unwrap_or((part, ""));
        let Some((name, inner)) = table.iter().find(|(name, _)| name.get_ref().as_ref() == part) else {
            break;
        };
        offset = name.span().start;
        let found = match inner.get_ref() {
            DeValue::Array(rows) => {
                let place = row.parse::<usize>().ok().and_then(|n| n.checked_sub(1));
                let Some(row) = place.and_then(|place| rows.get(place)) else { break };
                offset = row.span().start;
                row.get_ref()
            }
            found => found,
        };
        let DeValue::Table(inner) = found else { break };
        table = inner;
    }
    let (line, column) = place(text, offset);
    SheetError::OutOfRange { line, column, key, value, range }
}

/// How far to both sides of a single temperature the level counts as right, in K.
/// Own choice: 2 K are some 15 mL of 10 L, less than any vessel is read to.
const SINGLE_U_C: f64 = 2.0;

/// For a band that was perhaps meant in °F.
fn fahrenheit(celsius: f64) -> i32 {
    (celsius * 1.8 + 32.0).round() as i32
}

#[cfg(test)]
mod tests {
    use super::*;

    const GOOD: &str = include_str!("../../../../fixtures/sheets/demo-six-speed.toml");

    #[test]
    fn the_example_of_the_interface_is_a_sheet() {
        let sheet = Sheet::parse(GOOD).unwrap();
        assert_eq!(sheet.name, "Demo six-speed, transverse");
        assert_eq!(sheet.check.middle().to_string(), "40.0");
        let again = toml::to_string(&sheet).unwrap();
        assert_eq!(Sheet::parse(&again), Ok(sheet), "written out and read again");
    }

    #[test]
    fn a_bad_sheet_says_where_what_and_what_to_try() {
        let cases: &[(&str, &str, &str, &str)] = &[
            ("a misspelt key", "band_c =", "bandc =", "unknown key `check.bandc`; did you mean `band_c`?"),
            ("a key from nowhere", "band_c =", "zzz = 1\nband_c =", "unknown key `check.zzz`"),
            (
                "a temperature in °F",
                "[35.0, 45.0]",
                "[95.0, 113.0]",
                "`check.band_c` is 95 to 113 °C (203 to 235 °F); it must be inside 15 to 100 °C",
            ),
            ("a band of another box", "[35.0, 45.0]", "[30.0, 70.0]", "at most 30 °C wide"),
            (
                "fewer bytes than the value needs",
                "length = 1",
                "length = 2\nbytes = 1",
                "`identifier.bytes` is 1; it must be at least 2 (byte and length together) and at most 64",
            ),
            (
                "more bytes than an answer has",
                "length = 1",
                "length = 1\nbytes = 65",
                "`identifier.bytes` is 65",
            ),
            (
                "a bus that there is not",
                "[check]",
                "bus = \"can\"\n[check]",
                "unknown variant `can`, expected one of `can-11-500`",
            ),
            (
                "edges swapped",
                "[35.0, 45.0]",
                "[45.0, 35.0]",
                "`check.band_c` is 45 to 35 °C; it must be at least 2 °C wide, the low edge first",
            ),
            (
                "litres for millilitres",
                "total_ml = 6500",
                "total_ml = 6.5",
                "`fluid.total_ml` is 6.5; it must be 200 to 25000 mL",
            ),
            ("text for a number", "total_ml = 6500", "total_ml = \"6.5 L\"", "invalid type"),
            (
                "a writing service",
                "service = 0x22",
                "service = 0x2E",
                "`identifier.service` is 0x2e; it must be 0x21 or 0x22",
            ),
            (
                "an address of the vehicle's own",
                "header = \"7E1\"",
                "header = \"123\"",
                "the address of a diagnostic request",
            ),
            ("no identifier", "signal = \"fluid\"", "signal = \"fluids\"", "unknown variant `fluids`"),
            ("not TOML", "[check]", "[check", "line"),
        ];
        for (what, old, new, want) in cases {
            let text = GOOD.replacen(old, new, 1);
            assert_ne!(&text, GOOD, "{what}: the case changes the sheet");
            let said = Sheet::parse(&text).expect_err(what).to_string();
            assert!(said.contains(want), "{what}: {said}");
            assert!(said.contains("line "), "{what}: says where: {said}");
        }
    }

    #[test]
    fn a_character_that_is_not_seen_is_refused_wherever_a_sheet_holds_text() {
        let cases: &[(&str, &str, &str, &str)] = &[
            ("the name", "name = \"Demo", "name = \"\\u001b[2JDemo", "in `name` character 1 is U+001B"),
            ("the fluid", "type = \"as", "type = \"as\\nset", "in `fluid.type` character 3 is U+000A"),
            ("raw", "type = \"as", "type = \"a\u{202e}s", "in `fluid.type` character 2 is U+202E"),
            ("in a list", "[\"P\"", "[\"P\\u200b\"", "in `before.selector.positions` character 2 is U+200B"),
            (
                "several lines",
                "type = \"as",
                "type = \"\"\"as\nset\"\"\"\nx = \"",
                "in `fluid.type` character 3 is U+000A",
            ),
            ("a key", "margin_ml", "\"margin\\u0007\"", "in `fluid.margin\\u{7}` character 7 is U+0007"),
        ];
        for (what, old, new, want) in cases {
            let text = GOOD.replacen(old, new, 1);
            assert_ne!(&text, GOOD, "{what}: the case changes the sheet");
            let said = Sheet::parse(&text).expect_err(what).to_string();
            assert!(said.contains(want) && said.starts_with("line "), "{what}: {said}");
            assert!(text::check(&said).is_ok(), "{what}: the error itself commands no terminal: {said:?}");
        }
    }

    #[test]
    fn every_key_of_the_type_is_known_to_the_spelling_check() {
        let schema = schemars::schema_for!(Sheet);
        let text = serde_json::to_string(&schema).unwrap();
        let count = KEYS.iter().map(|(_, keys)| keys.len()).sum::<usize>();
        let json: serde_json::Value = serde_json::from_str(&text).unwrap();
        let mut properties = json["properties"].as_object().unwrap().len();
        for (name, definition) in json["$defs"].as_object().unwrap() {
            let _ = name;
            properties += definition["properties"].as_object().map_or(0, serde_json::Map::len);
        }
        assert_eq!(properties, count);
    }

    #[test]
    fn the_place_counts_from_one() {
        assert_eq!(place("ab\ncd", 4), (2, 2));
        assert_eq!(place("", 0), (1, 1));
    }
}
