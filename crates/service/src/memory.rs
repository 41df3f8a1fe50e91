//! What a daemon remembers for the next time, because it saves a search: the protocol of each kind of vehicle, the rate of
//! each device; and how each kind of vehicle warmed, which the next forecast begins with.
//!
//! In: what was found. Out: the first guess of the next start. One small file beside the journal, written whole and put in
//! place by a rename. It is no record: where it is missing, damaged or wrong, everything is searched again.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use adapter::{Protocol, RATES_ALLOWED};
use gate::Warming;
use serde::{Deserialize, Serialize};

/// So many of each are kept; a workshop has fewer.
/// Own choice: a workshop has fewer; it is one small file that is written whole.
const MOST: usize = 200;

/// The file's content, and where it is. The default remembers nothing beyond its own life.
#[derive(Debug, Default)]
pub struct Memory {
    path: PathBuf,
    known: Known,
}

#[derive(Debug, Default, Clone, PartialEq, Serialize, Deserialize)]
#[serde(default)]
struct Known {
    /// By the sheet's name, the number of the protocol.
    protocols: BTreeMap<String, u8>,
    /// By the device's name, the rate in bit/s.
    rates: BTreeMap<String, u32>,
    /// By the sheet's name, how its vehicle warmed: seconds for each degree, as `gate::Warming` has them.
    warming: BTreeMap<String, Vec<f32>>,
}

impl Memory {
    /// What is remembered in the folder of the journal of `bay`.
    pub fn open(folder: &Path, bay: &str) -> Self {
        let path = folder.join(format!("{bay}.memory.json"));
        let known = std::fs::read_to_string(&path).ok().and_then(|text| serde_json::from_str(&text).ok());
        Self { path, known: known.unwrap_or_default() }
    }

    /// The protocol that a vehicle of this sheet had the last time.
    pub fn protocol(&self, sheet: &str) -> Option<Protocol> {
        self.known.protocols.get(sheet).copied().and_then(Protocol::from_number)
    }

    /// The rate that a device had the last time.
    pub fn rate(&self, device: &str) -> Option<u32> {
        self.known.rates.get(device).copied().filter(|rate| RATES_ALLOWED.contains(rate))
    }

    /// How the vehicles of each sheet warmed the last time. The gate itself leaves out what cannot be.
    pub fn warmings(&self) -> BTreeMap<String, Warming> {
        let known = self.known.warming.iter();
        known.map(|(sheet, seconds)| (sheet.clone(), Warming::of(seconds))).collect()
    }

    /// Remembers how a vehicle warmed, to a tenth of a second.
    pub fn note_warming(&mut self, sheet: &str, warming: &Warming) {
        let seconds = warming.seconds().iter().map(|s| (s * 10.0).round() / 10.0).collect();
        if note(&mut self.known.warming, sheet, seconds) {
            self.save();
        }
    }

    /// Remembers a protocol.
    pub fn note_protocol(&mut self, sheet: &str, protocol: Protocol) {
        if note(&mut self.known.protocols, sheet, protocol.number()) {
            self.save();
        }
    }

    /// Remembers a rate.
    pub fn note_rate(&mut self, device: &str, rate: u32) {
        if note(&mut self.known.rates, device, rate) {
            self.save();
        }
    }

    /// Nothing is lost where this fails but a few seconds of the next start.
    fn save(&self) {
        if self.path.as_os_str().is_empty() {
            return;
        }
        let Ok(text) = serde_json::to_string_pretty(&self.known) else { return };
        let new = self.path.with_extension("json.new");
        if let Err(e) = std::fs::write(&new, text).and_then(|()| std::fs::rename(&new, &self.path)) {
            tracing::debug!(path = %self.path.display(), error = %e, "not remembered");
        }
    }
}

/// Whether this is news.
fn note<T: PartialEq>(all: &mut BTreeMap<String, T>, name: &str, value: T) -> bool {
    if all.get(name) == Some(&value) {
        return false;
    }
    if all.len() >= MOST {
        all.clear();
    }
    all.insert(name.to_owned(), value);
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_found_is_there_the_next_time_and_a_damaged_file_is_none() {
        let folder = tempfile::tempdir().unwrap();
        let mut memory = Memory::open(folder.path(), "left");
        assert_eq!((memory.protocol("Demo"), memory.rate("/dev/ttyUSB0")), (None, None));
        memory.note_protocol("Demo", Protocol::Iso9141);
        memory.note_rate("/dev/ttyUSB0", 115_200);
        let warming = Warming::of(&[41.5; 70]);
        memory.note_warming("Demo", &warming);
        let again = Memory::open(folder.path(), "left");
        assert_eq!(again.warmings().get("Demo"), Some(&warming));
        assert_eq!(
            (again.protocol("Demo"), again.rate("/dev/ttyUSB0")),
            (Some(Protocol::Iso9141), Some(115_200))
        );
        assert_eq!(Memory::open(folder.path(), "right").protocol("Demo"), None, "each bay its own");
        for damaged in ["", "{", "[1]", r#"{"protocols":{"Demo":99},"rates":{"/dev/ttyUSB0":1}}"#] {
            std::fs::write(folder.path().join("left.memory.json"), damaged).unwrap();
            let memory = Memory::open(folder.path(), "left");
            assert_eq!((memory.protocol("Demo"), memory.rate("/dev/ttyUSB0")), (None, None), "{damaged}");
        }
    }

    #[test]
    fn it_does_not_grow_without_end() {
        let folder = tempfile::tempdir().unwrap();
        let mut memory = Memory::open(folder.path(), "left");
        for n in 0..3 * MOST {
            note(&mut memory.known.rates, &n.to_string(), 9_600);
        }
        assert!(memory.known.rates.len() <= MOST);
    }
}
