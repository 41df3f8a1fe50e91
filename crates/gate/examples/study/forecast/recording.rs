//! One recording: rows, and what the gate sees of them.

use std::path::Path;

use events::{Check, Measure, Reading, Signal};
use gate::{Gate, learned::Learned};
use units::{Celsius, Kelvins, KilometresPerHour, Mono, Rpm};

/// A recorded warm-up.
#[derive(Debug, Clone)]
pub struct Recording {
    /// The file's name without its end.
    pub name: String,
    /// Its first ten letters: the day.
    pub day: String,
    /// Rows that have a coolant temperature, with what else was read by then.
    pub rows: Vec<Row>,
}

/// One second.
#[derive(Debug, Clone, Copy)]
pub struct Row {
    /// Seconds.
    pub t: f64,
    /// °C.
    pub coolant: f64,
    rpm: Option<f64>,
    kmh: Option<f64>,
    ambient: Option<f64>,
    air_flow: Option<f64>,
}

impl Recording {
    /// The first row at which `celsius` or more is shown, where the recording began below it.
    pub fn reaches(&self, celsius: f64) -> Option<usize> {
        let at = self.rows.iter().position(|row| row.coolant >= celsius)?;
        (at > 0).then_some(at)
    }

    /// Seconds from row `from` to the first row that shows `celsius` or more.
    pub fn takes(&self, from: usize, celsius: f64) -> Option<f64> {
        let start = self.rows.get(from)?.t;
        self.rows.iter().skip(from).find(|row| row.coolant >= celsius).map(|row| row.t - start)
    }

    /// The air outside at this row, °C.
    pub fn air(&self, row: usize) -> Option<f64> {
        self.rows.get(row)?.ambient
    }

    /// Feeds a gate row by row; `look` sees it after each.
    pub fn replay(&self, band_c: [f64; 2], learned: &Learned, mut look: impl FnMut(usize, &Row, &mut Gate)) {
        let check = Check::of(Signal::Coolant, band_c);
        let mut gate = Gate::new(&check, Some(Kelvins::clamped(1.0))).with_learned(learned.clone());
        for (i, row) in self.rows.iter().enumerate() {
            row.feed(&mut gate);
            look(i, row, &mut gate);
        }
    }
}

impl Row {
    /// The instant on the gate's clock.
    pub fn at(&self) -> Mono {
        Mono::from_millis((self.t * 1_000.0).max(0.0) as u64)
    }

    fn feed(&self, gate: &mut Gate) {
        let at = self.at();
        if let Some(flow) = self.air_flow {
            gate.air_flow(flow, at);
        }
        let measures = [
            self.rpm.and_then(Rpm::from_f64).map(Measure::EngineSpeed),
            self.kmh.and_then(KilometresPerHour::from_f64).map(Measure::VehicleSpeed),
            self.ambient.and_then(Celsius::from_f64).map(Measure::AmbientAir),
            Celsius::from_f64(self.coolant).map(Measure::Coolant),
        ];
        for measure in measures.into_iter().flatten() {
            gate.observe(&Reading { measure, step: None, from: None, age_ms: 0 }, at);
        }
    }
}

/// Every recording of a folder, by name; those without a climb of 10 °C are left out.
pub fn read(folder: &Path) -> Result<Vec<Recording>, String> {
    let entries = std::fs::read_dir(folder).map_err(|e| format!("{}: {e}", folder.display()))?;
    let mut paths: Vec<_> = entries.filter_map(Result::ok).map(|entry| entry.path()).collect();
    paths.retain(|path| path.extension().is_some_and(|e| e == "csv") && !path.ends_with("index.csv"));
    paths.sort();
    let mut all = Vec::new();
    for path in paths {
        let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        let rows = rows(&path).map_err(|e| format!("{}: {e}", path.display()))?;
        let first = rows.first().map_or(f64::MAX, |row| row.coolant);
        let day = name.chars().take(10).collect();
        if rows.iter().any(|row| row.coolant >= first + 10.0) {
            all.push(Recording { name, day, rows });
        }
    }
    if all.is_empty() { Err(format!("{}: no recording with a climb", folder.display())) } else { Ok(all) }
}

fn rows(path: &Path) -> Result<Vec<Row>, String> {
    let mut reader = csv::Reader::from_path(path).map_err(|e| e.to_string())?;
    let header = reader.headers().map_err(|e| e.to_string())?.clone();
    let column = |name: &str| header.iter().position(|h| h == name);
    let needed = |name: &str| column(name).ok_or_else(|| format!("no column `{name}`"));
    let (t, coolant) = (needed("t_s")?, needed("coolant_c")?);
    let [rpm, kmh, ambient, flow] = ["rpm", "speed_kmh", "ambient_c", "maf_g_s"].map(column);
    let mut rows = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|e| e.to_string())?;
        let number = |i: usize| record.get(i).and_then(|field| field.parse::<f64>().ok());
        let optional = |i: Option<usize>| i.and_then(number);
        if let (Some(t), Some(coolant)) = (number(t), number(coolant)) {
            let [rpm, kmh, ambient, air_flow] = [rpm, kmh, ambient, flow].map(optional);
            rows.push(Row { t, coolant, rpm, kmh, ambient, air_flow });
        }
    }
    Ok(rows)
}
