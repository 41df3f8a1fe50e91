//! `auto`: which device is the adapter?
//!
//! In: the names under `/dev`. Out: the one candidate, or all of them with the reason for each.
//! By-id names come first, since they stay the same after a re-plug; a plain name that a by-id name leads to is left
//! out. Not here: opening it. Source: section 14 of the dialect reference.

use std::fmt;
use std::fs;
use std::path::{Path, PathBuf};

use super::{Device, LinkError};

/// A device that could be the adapter.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Candidate {
    /// It, by its most lasting name.
    pub device: Device,
    /// Why it is on the list.
    pub why: Why,
    /// Whether that is a strong reason.
    pub likely: bool,
}

/// Why a device is on the list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Why {
    /// Its name says that it is a diagnostic adapter.
    Named,
    /// A USB chip that turns USB into a serial port, as most adapters have one.
    SerialChip,
    /// A Bluetooth serial port.
    Bluetooth,
    /// A USB device that calls itself a serial port; modems and boards do so, too.
    SerialClass,
    /// Its name says that it is something else.
    SomethingElse,
}

impl Why {
    const fn likely(self) -> bool {
        matches!(self, Self::Named | Self::SerialChip | Self::Bluetooth)
    }
}

impl fmt::Display for Why {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Named => "its name says that it is a diagnostic adapter",
            Self::SerialChip => "a USB serial chip, as most adapters have one",
            Self::Bluetooth => "a Bluetooth serial port",
            Self::SerialClass => "calls itself a USB serial port; modems and boards do so, too",
            Self::SomethingElse => "its name says that it is something else",
        })
    }
}

/// Words in names, lower case. Chips and classes as Linux spells them in by-id names (from memory).
const DIAGNOSTIC: &[&str] = &["obd", "elm327", "elm_327", "stn11", "stn21", "stn22"];
const OTHERS: &[&str] = &["modem", "gps", "gnss", "printer", "lte", "mbim"];

/// All candidates under `/dev`, likely ones first.
pub fn candidates() -> Vec<Candidate> {
    candidates_in(Path::new("/dev"))
}

/// The one candidate under `/dev`. The only likely one is taken even if there are unlikely ones.
///
/// Errors: [`LinkError::NoCandidate`], [`LinkError::SeveralCandidates`].
pub fn auto() -> Result<Device, LinkError> {
    auto_in(Path::new("/dev"))
}

/// [`auto`] under another root.
///
/// Errors: as there.
pub fn auto_in(root: &Path) -> Result<Device, LinkError> {
    let all = candidates_in(root);
    let likely: Vec<_> = all.iter().filter(|one| one.likely).collect();
    match (likely.as_slice(), all.as_slice()) {
        ([one], _) => Ok(one.device.clone()),
        ([], [one]) if one.why != Why::SomethingElse => Ok(one.device.clone()),
        ([], []) => Err(LinkError::NoCandidate { root: root.display().to_string() }),
        _ => Err(LinkError::SeveralCandidates { candidates: all }),
    }
}

/// The by-id name that leads to the same node as `path`, if there is exactly one; else the by-path name: two devices
/// without serial number share their by-id name, and the socket they are in tells them apart.
pub(crate) fn lasting_name(root: &Path, path: &Path) -> Option<PathBuf> {
    let real = fs::canonicalize(path).ok()?;
    let same = |name: &PathBuf| fs::canonicalize(name).is_ok_and(|to| to == real);
    ["serial/by-id", "serial/by-path"].into_iter().find_map(|folder| {
        let mut leads = names(&root.join(folder)).into_iter().map(|(name, _)| name).filter(same);
        let found = leads.next()?;
        leads.next().is_none().then_some(found)
    })
}

fn candidates_in(root: &Path) -> Vec<Candidate> {
    let mut all: Vec<(PathBuf, String)> = Vec::new();
    let mut led_to: Vec<PathBuf> = Vec::new();
    for (folder, plain) in [(root.join("serial/by-id"), false), (root.to_owned(), true)] {
        for (path, name) in names(&folder) {
            if plain && !["ttyUSB", "ttyACM", "rfcomm"].iter().any(|start| name.starts_with(start)) {
                continue;
            }
            let real = fs::canonicalize(&path).unwrap_or_else(|_| path.clone());
            if !led_to.contains(&real) {
                led_to.push(real);
                all.push((path, name));
            }
        }
    }
    let mut all: Vec<_> = all
        .into_iter()
        .map(|(path, name)| {
            let why = why(&path, &name);
            Candidate { device: Device::Serial { path, baud: None }, why, likely: why.likely() }
        })
        .collect();
    all.sort_by_key(|one| !one.likely);
    all
}

fn why(path: &Path, name: &str) -> Why {
    let words = name.to_lowercase();
    if DIAGNOSTIC.iter().any(|word| words.contains(word)) {
        return Why::Named;
    }
    if OTHERS.iter().any(|word| words.contains(word)) {
        return Why::SomethingElse;
    }
    let real = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    match real.file_name().and_then(|name| name.to_str()) {
        Some(name) if name.starts_with("ttyUSB") => Why::SerialChip,
        Some(name) if name.starts_with("rfcomm") => Why::Bluetooth,
        _ => Why::SerialClass,
    }
}

/// The entries of a folder, sorted by name; none if it cannot be read.
fn names(folder: &Path) -> Vec<(PathBuf, String)> {
    let Ok(entries) = fs::read_dir(folder) else { return Vec::new() };
    let mut names: Vec<_> = entries
        .flatten()
        .filter_map(|entry| Some((folder.join(entry.file_name()), entry.file_name().into_string().ok()?)))
        .collect();
    names.sort();
    names
}

#[cfg(test)]
mod tests {
    use std::os::unix::fs::symlink;

    use super::*;

    /// A folder like `/dev`: plain nodes, and by-id names that lead to some of them.
    fn dev(plain: &[&str], by_id: &[(&str, &str)]) -> tempfile::TempDir {
        let root = tempfile::tempdir().unwrap();
        for name in plain {
            fs::write(root.path().join(name), "").unwrap();
        }
        if !by_id.is_empty() {
            fs::create_dir_all(root.path().join("serial/by-id")).unwrap();
        }
        for (name, to) in by_id {
            symlink(Path::new("../..").join(to), root.path().join("serial/by-id").join(name)).unwrap();
        }
        root
    }

    fn taken(root: &tempfile::TempDir) -> Result<String, &'static str> {
        auto_in(root.path())
            .map(|device| device.to_string().replace(root.path().to_str().unwrap(), ""))
            .map_err(|error| error.kind())
    }

    #[test]
    fn the_one_candidate_is_taken_by_its_lasting_name() {
        let chip = "usb-1a86_USB_Serial-if00-port0";
        type Case<'a> = (&'a str, &'a [&'a str], &'a [(&'a str, &'a str)], Result<&'a str, &'a str>);
        let cases: &[Case] = &[
            ("nothing", &["tty0", "null"], &[], Err("no-candidate")),
            ("one plain", &["tty0", "ttyUSB0"], &[], Ok("/ttyUSB0")),
            (
                "one by id",
                &["ttyUSB0"],
                &[(chip, "ttyUSB0")],
                Ok("/serial/by-id/usb-1a86_USB_Serial-if00-port0"),
            ),
            ("bluetooth", &["rfcomm0"], &[], Ok("/rfcomm0")),
            ("two chips", &["ttyUSB0", "ttyUSB1"], &[], Err("several-candidates")),
            ("one likely beside an unlikely one", &["ttyUSB0", "ttyACM0"], &[], Ok("/ttyUSB0")),
            ("only a modem", &["ttyACM0"], &[("usb-LTE_Modem-if00", "ttyACM0")], Err("several-candidates")),
            ("two boards", &["ttyACM0", "ttyACM1"], &[], Err("several-candidates")),
        ];
        for (what, plain, by_id, want) in cases {
            assert_eq!(taken(&dev(plain, by_id)), want.map(str::to_owned), "{what}");
        }
    }

    #[test]
    fn a_plain_name_has_a_lasting_one_if_just_one_leads_to_it() {
        let root =
            dev(&["ttyUSB0", "ttyUSB1"], &[("usb-a", "ttyUSB0"), ("usb-b", "ttyUSB1"), ("usb-c", "ttyUSB1")]);
        let lasting = |name: &str| lasting_name(root.path(), &root.path().join(name));
        assert_eq!(lasting("ttyUSB0"), Some(root.path().join("serial/by-id/usb-a")));
        assert_eq!(lasting("ttyUSB1"), None, "two lead to it");
        assert_eq!(lasting("ttyUSB2"), None, "not there");
    }

    #[test]
    fn several_candidates_are_listed_with_reasons_likely_ones_first() {
        let root = dev(&["ttyACM0", "ttyUSB0", "ttyUSB1"], &[("usb-Demo_OBD_Adapter-if00", "ttyUSB1")]);
        let error = auto_in(root.path()).unwrap_err();
        let text = error.to_string().replace(root.path().to_str().unwrap(), "");
        assert_eq!(
            text,
            "more than one device could be the adapter: /serial/by-id/usb-Demo_OBD_Adapter-if00 (its name says that it is \
             a diagnostic adapter), /ttyUSB0 (a USB serial chip, as most adapters have one), /ttyACM0 (calls itself a USB \
             serial port; modems and boards do so, too)"
        );
        assert!(error.remedy().contains("--device "));
    }
}
