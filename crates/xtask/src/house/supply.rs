//! What others wrote and ships: under licences that are accepted, each crate once, each for a reason that is written down.
//!
//! In: the parts of the program (`supply.rs`), the workspace's manifest. Out: each licence, duplicate and crate that stands on no list
//! here, each entry of a list that is no longer needed, each dependency without its reason, each part
//! without a text of its licence. Not here: known weaknesses, which need a
//! list that changes every day.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use crate::package;
use crate::supply::{self, Part};

/// Licences that ask for no more than their notice. A part may be used under any that it offers, and needs all that it joins by AND.
const ACCEPTED: &[&str] = &[
    "MIT",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-3-Clause",
    "BSL-1.0",
    "ISC",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
];
/// Parts under another licence: name, licence, why.
const EXCEPTIONS: &[(&str, &str, &str)] = &[(
    "serialport",
    "MPL-2.0",
    "used as it is; its source is offered in the notices; every kept serial port library stands on it",
)];
/// What is there in several versions: name, why.
const TWICE: &[(&str, &str)] = &[
    ("bitflags", "serialport's own nix wants the older one"),
    ("glam", "nalgebra's conversions to every version of it; no code of it is used"),
    ("getrandom", "ring, which secures the way to a broker, has not moved on yet"),
    ("nix", "serialport and mio-serial want different ones"),
    ("rustls-webpki", "rumqttc wants the older one for a configuration that the relay makes itself"),
    ("syn", "for macros at build time; some have not moved on yet"),
];
/// What must not come in: name, why.
const BANNED: &[(&str, &str)] = &[
    ("openssl-sys", "no second TLS beside what a proxy does"),
    ("libudev-sys", "the program is to run where there is no udev"),
];

/// All of it, for the kind of machine that most run on.
pub(super) fn check(root: &Path) -> Vec<String> {
    let manifest = std::fs::read_to_string(root.join("Cargo.toml")).unwrap_or_default();
    let mut broken = without_reason(&manifest);
    match supply::linked("x86_64-unknown-linux-gnu") {
        Ok(parts) => {
            broken.extend(parts_broken(&parts));
            broken.extend(package::papers(&parts).err());
        }
        Err(why) => broken.push(why),
    }
    broken
}

fn parts_broken(parts: &[Part]) -> Vec<String> {
    let mut broken = Vec::new();
    for part in parts {
        let Part { name, version, licence, .. } = part;
        let excused = EXCEPTIONS.iter().any(|(of, under, _)| of == name && under == licence);
        if !excused && !is_accepted(licence) {
            broken.push(format!("{name} {version} is under `{licence}`: not accepted in house/supply.rs"));
        }
        if let Some((_, why)) = BANNED.iter().find(|(of, _)| of == name) {
            broken.push(format!("{name} {version} is banned: {why}"));
        }
    }
    let mut versions: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for part in parts {
        versions.entry(&part.name).or_default().insert(&part.version);
    }
    for (name, of) in versions.iter().filter(|(_, of)| of.len() > 1) {
        if TWICE.iter().all(|(known, _)| known != name) {
            let of: Vec<&str> = of.iter().copied().collect();
            broken.push(format!(
                "{name} is there {} times ({}): name why in house/supply.rs",
                of.len(),
                of.join(", ")
            ));
        }
    }
    let unneeded = TWICE.iter().filter(|(name, _)| versions.get(name).is_none_or(|of| of.len() < 2));
    broken.extend(
        unneeded.map(|(name, _)| format!("{name} is there once: take it from the list of house/supply.rs")),
    );
    let gone = EXCEPTIONS.iter().filter(|(name, ..)| !versions.contains_key(name));
    broken.extend(gone.map(|(name, ..)| format!("{name} is gone: take its exception from house/supply.rs")));
    broken
}

/// Whether a licence, as an archive writes it, can be taken on these terms. AND binds tighter than OR, brackets before both.
fn is_accepted(licence: &str) -> bool {
    let written = licence.replace(" / ", " OR ").replace('/', " OR ");
    let joined = |text: &str| {
        text.split(" AND ").all(|one| {
            let one = one.trim().trim_start_matches('(').trim_end_matches(')');
            one.split(" OR ").any(|one| ACCEPTED.contains(&one.trim()))
        })
    };
    // A bracket is one side of an AND in all that there are.
    if written.contains('(') { joined(&written) } else { written.split(" OR ").any(joined) }
}

/// Dependencies of the workspace that say no reason behind them.
fn without_reason(manifest: &str) -> Vec<String> {
    let inside = manifest.split("[workspace.dependencies]").nth(1).unwrap_or_default();
    let lines = inside.lines().take_while(|line| !line.starts_with('['));
    let theirs =
        lines.filter(|line| line.contains('=') && !line.starts_with('#') && !line.contains("path ="));
    theirs
        .filter(|line| line.rsplit_once("# ").is_none_or(|(_, why)| why.trim().is_empty()))
        .map(|line| {
            format!("no reason stands behind the dependency `{}`", line.split(' ').next().unwrap_or_default())
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_licence_is_accepted_where_one_of_its_choices_is_and_all_that_it_joins() {
        for (licence, want) in [
            ("MIT", true),
            ("MIT/Apache-2.0", true),
            ("Apache-2.0 / MIT", true),
            ("MIT OR GPL-3.0-only", true),
            ("GPL-3.0-only", false),
            ("(MIT OR Apache-2.0) AND Unicode-3.0", true),
            ("(MIT OR Apache-2.0) AND GPL-3.0-only", false),
            ("MIT AND BSD-3-Clause", true),
            ("MIT AND SSPL-1.0", false),
            ("MIT AND SSPL-1.0 OR Zlib", true),
            ("Apache-2.0 WITH LLVM-exception OR Apache-2.0 OR MIT", true),
            ("MPL-2.0", false),
            ("", false),
        ] {
            assert_eq!(is_accepted(licence), want, "{licence}");
        }
    }

    #[test]
    fn duplicates_licences_and_bans_are_found_and_what_no_list_needs_any_more() {
        let part = |name: &str, version: &str, licence: &str| Part {
            name: name.to_owned(),
            version: version.to_owned(),
            licence: licence.to_owned(),
            repository: String::new(),
            folder: std::path::PathBuf::new(),
        };
        let parts = [
            part("a", "1.0.0", "MIT"),
            part("a", "2.0.0", "MIT"),
            part("b", "1.0.0", "GPL-3.0-only"),
            part("openssl-sys", "0.9.0", "MIT"),
            part("serialport", "5.0.0", "GPL-3.0-only"),
        ];
        let broken = parts_broken(&parts).join("\n");
        for want in [
            "a is there 2 times (1.0.0, 2.0.0)",
            "b 1.0.0 is under `GPL-3.0-only`",
            "openssl-sys 0.9.0 is banned",
            "serialport 5.0.0 is under `GPL-3.0-only`",
            "nix is there once",
        ] {
            assert!(broken.contains(want), "{want}: {broken}");
        }
    }

    #[test]
    fn a_dependency_without_a_reason_is_found() {
        let manifest = "[workspace.dependencies]\nours = { path = \"x\" }\na = \"1\" # why\nb = \"1\"\nc = \"1\" #\n[x]\nd = \"1\"\n";
        let broken = without_reason(manifest);
        assert_eq!(broken.len(), 2, "{broken:?}");
        assert!(broken[0].contains("`b`") && broken[1].contains("`c`"));
    }
}
