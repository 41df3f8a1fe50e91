//! The rules of the house: imports run one way, the pure crates are pure, and no crate depends on what it does not name;
//! no circle of files where none is allowed, no number without its source, no type with a name that says nothing; work of
//! others under accepted licences, once, for a reason.
//!
//! In: `cargo metadata` and the sources. Out: every rule that is broken, by name. The rules are the two tables.

#![allow(clippy::indexing_slicing, reason = "a missing key of a serde_json::Value is null, not a panic")]

mod circles;
mod dependencies;
mod items;
mod map;
mod names;
mod sources;
mod supply;
mod words;

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::process::Command;

use crate::shell::{Done, root};

/// Which of our crates each may use outside its tests. `standpipe` is the command line.
const MAY_USE: &[(&str, &[&str])] = &[
    ("units", &[]),
    ("words", &["units"]),
    ("frames", &["units"]),
    ("adapter", &["units", "frames"]),
    ("fluid", &["units"]),
    ("events", &["units", "words"]),
    ("gate", &["units", "fluid", "events"]),
    ("job", &["units", "fluid", "events"]),
    ("find", &["units", "frames", "fluid", "events"]),
    ("service", &["units", "frames", "adapter", "fluid", "events", "gate", "job", "find"]),
    ("sheets", &["units", "events", "job"]),
    ("view", &["units", "words", "events"]),
    ("client", &["events"]),
    ("page", &["units", "words", "events", "client", "view"]),
    ("rehearsal", &["units", "frames", "fluid", "events"]),
    ("relay", &["events", "client"]),
    (
        "standpipe",
        &[
            "units",
            "words",
            "frames",
            "adapter",
            "fluid",
            "events",
            "gate",
            "job",
            "find",
            "service",
            "client",
            "sheets",
            "view",
            "page",
            "rehearsal",
            "relay",
        ],
    ),
    ("xtask", &[]),
];

/// The crates that do no I/O, read no clock and draw no random numbers.
const PURE: &[&str] =
    &["units", "words", "frames", "fluid", "events", "gate", "job", "sheets", "find", "view"];

/// Everything that the pure crates may depend on, however deep. All of it is computation only.
const PURE_MAY_PULL: &[&str] = &[
    // Pulled in where the terminal screen turns on a feature of `hashbrown`: a trait for allocators, computation only.
    "allocator-api2",
    "dyn-clone",
    "equivalent",
    "hashbrown",
    "indexmap",
    "itoa",
    "jiff",
    "jiff-core",
    "jiff-static",
    // Pulled in where the report turns on the machine's own zone of `jiff`: names to link on Windows, no code of its own.
    "windows-link",
    "log",
    "libm",
    "memchr",
    "nom",
    "ref-cast",
    "ref-cast-impl",
    "schemars",
    "schemars_derive",
    "serde",
    "serde_core",
    "serde_derive",
    "serde_derive_internals",
    "serde_json",
    "serde_spanned",
    "strsim",
    "thiserror",
    "thiserror-impl",
    "toml",
    "toml_datetime",
    "toml_parser",
    "toml_writer",
    "winnow",
    "zmij",
    "ryu",
    "proc-macro2",
    "quote",
    "syn",
    "unicode-ident",
    "portable-atomic",
    "portable-atomic-util",
    "foldhash",
    // Messages in the open Fluent format, and what they are read with.
    "fluent-bundle",
    "fluent-langneg",
    "fluent-syntax",
    "intl-memoizer",
    "intl_pluralrules",
    "rustc-hash",
    "self_cell",
    "smallvec",
    "tinystr",
    "type-map",
    "unic-langid",
    "unic-langid-impl",
    "zerovec",
    "zerovec-derive",
    "zerofrom",
    "zerofrom-derive",
    "yoke",
    "yoke-derive",
    "stable_deref_trait",
    "synstructure",
    "displaydoc",
    // Linear algebra of the gate, and what it is made of.
    "nalgebra",
    "glam",
    "approx",
    "autocfg",
    "matrixmultiply",
    "rawpointer",
    "num-bigint",
    "num-complex",
    "num-integer",
    "num-rational",
    "num-traits",
    "paste",
    "simba",
    "typenum",
    "wide",
    "bytemuck",
    "safe_arch",
];

/// What a pure crate's source must not name.
const IMPURE: &[&str] = &[
    "std::fs",
    "std::net",
    "std::io",
    "std::thread",
    "std::process",
    "std::env",
    "Instant::now",
    "SystemTime",
    "thread_rng",
    "rand::",
    "tokio::",
];

/// Checks both tables, and the words.
pub fn check() -> Done {
    let metadata = metadata()?;
    let mut broken = directions(&metadata);
    broken.extend(pure_trees(&metadata));
    for name in PURE {
        broken.extend(pure_sources(&root().join("crates").join(name).join("src"), name));
    }
    let ours: Vec<&str> = MAY_USE.iter().map(|(name, _)| *name).collect();
    broken.extend(dependencies::check(&root(), &ours));
    let files = map::files(&root());
    broken.extend(map::check(&root(), &files));
    broken.extend(items::check(&root(), &files));
    broken.extend(names::check(&root(), &files));
    broken.extend(circles::check(&root()));
    broken.extend(sources::check(&root()));
    broken.extend(words::check(&root()));
    broken.extend(supply::check(&root()));
    broken.extend(taken_out(&root()));
    if broken.is_empty() { Ok(()) } else { Err(broken.join("\n  ")) }
}

/// The feature that takes protections out of the gate is one of the gate and of the daemon's crate, and of nothing that ships.
fn taken_out(root: &Path) -> Vec<String> {
    let manifest = |name: &str| {
        let inside = root.join("crates").join(name);
        let folder = if inside.is_dir() { inside } else { root.to_owned() };
        std::fs::read_to_string(folder.join("Cargo.toml")).unwrap_or_default()
    };
    let mut broken = Vec::new();
    for (name, _) in MAY_USE {
        let has_it = matches!(*name, "gate" | "service");
        let text = manifest(name);
        if !has_it && text.contains("taken-out") {
            broken.push(format!("`{name}` names the feature `taken-out`, which only the campaign may"));
        }
        if has_it && text.lines().any(|line| line.starts_with("default =")) {
            broken.push(format!("`{name}` has a default feature: `taken-out` must never be one"));
        }
    }
    broken
}

/// Package name to the names of what it depends on in normal builds.
type Tree = BTreeMap<String, BTreeSet<String>>;

fn metadata() -> Result<Tree, String> {
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let output = Command::new(cargo)
        .args(["metadata", "--format-version", "1", "--locked"])
        .current_dir(root())
        .output()
        .map_err(|e| format!("cannot run cargo metadata: {e}"))?;
    let json: serde_json::Value = serde_json::from_slice(&output.stdout)
        .map_err(|e| format!("cargo metadata: {e}; {}", String::from_utf8_lossy(&output.stderr)))?;
    let text = |v: &serde_json::Value| v.as_str().unwrap_or_default().to_owned();
    let list = |v: &serde_json::Value| v.as_array().cloned().unwrap_or_default();
    let names: BTreeMap<String, String> =
        list(&json["packages"]).iter().map(|p| (text(&p["id"]), text(&p["name"]))).collect();
    let mut tree = Tree::new();
    for node in list(&json["resolve"]["nodes"]) {
        let name = names.get(&text(&node["id"])).cloned().unwrap_or_default();
        let uses = tree.entry(name).or_default();
        for dependency in list(&node["deps"]) {
            let normal = list(&dependency["dep_kinds"]).iter().any(|k| k["kind"].is_null());
            if let Some(used) = names.get(&text(&dependency["pkg"])).filter(|_| normal) {
                uses.insert(used.clone());
            }
        }
    }
    Ok(tree)
}

fn directions(tree: &Tree) -> Vec<String> {
    let ours: Vec<&str> = MAY_USE.iter().map(|(name, _)| *name).collect();
    let mut broken = Vec::new();
    for (name, may) in MAY_USE {
        let Some(uses) = tree.get(*name) else {
            broken.push(format!("the crate `{name}` of the house is missing"));
            continue;
        };
        for used in uses.iter().filter(|u| ours.contains(&u.as_str()) && !may.contains(&u.as_str())) {
            broken.push(format!("`{name}` must not use `{used}`"));
        }
    }
    broken
}

fn pure_trees(tree: &Tree) -> Vec<String> {
    let mut broken = Vec::new();
    for name in PURE {
        let mut seen = BTreeSet::new();
        let mut next = vec![(*name).to_owned()];
        while let Some(crate_name) = next.pop() {
            if !seen.insert(crate_name.clone()) {
                continue;
            }
            if !PURE.contains(&crate_name.as_str()) && !PURE_MAY_PULL.contains(&crate_name.as_str()) {
                broken.push(format!("the pure crate `{name}` pulls in `{crate_name}`, which is not on the list of computation-only crates"));
                continue;
            }
            next.extend(tree.get(&crate_name).into_iter().flatten().cloned());
        }
    }
    broken
}

fn pure_sources(folder: &Path, name: &str) -> Vec<String> {
    let mut broken = Vec::new();
    let Ok(entries) = std::fs::read_dir(folder) else { return vec![format!("`{name}` has no sources")] };
    for path in entries.flatten().map(|e| e.path()) {
        if path.is_dir() {
            broken.extend(pure_sources(&path, name));
            continue;
        }
        let text = std::fs::read_to_string(&path).unwrap_or_default();
        // Tests may read their tables; what ships may not.
        let shipped = text.split("#[cfg(test)]").next().unwrap_or_default();
        for (number, line) in shipped.lines().enumerate() {
            let code = line.split("//").next().unwrap_or_default();
            for word in IMPURE.iter().filter(|w| code.contains(**w)) {
                broken.push(format!(
                    "{}:{}: the pure crate `{name}` names `{word}`",
                    path.display(),
                    number + 1
                ));
            }
        }
    }
    broken
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tree(pairs: &[(&str, &[&str])]) -> Tree {
        let mut tree: Tree = MAY_USE.iter().map(|(name, _)| ((*name).to_owned(), BTreeSet::new())).collect();
        for (name, uses) in pairs {
            tree.insert((*name).to_owned(), uses.iter().map(|u| (*u).to_owned()).collect());
        }
        tree
    }

    #[test]
    fn an_import_against_the_direction_is_named() {
        assert!(directions(&tree(&[("service", &["gate", "job"])])).is_empty());
        assert_eq!(directions(&tree(&[("gate", &["service"])])), ["`gate` must not use `service`"]);
        assert_eq!(directions(&tree(&[("job", &["gate"])])), ["`job` must not use `gate`"]);
    }

    #[test]
    fn an_impure_dependency_is_found_however_deep() {
        let broken = pure_trees(&tree(&[("fluid", &["units", "libm"]), ("libm", &["tokio"])]));
        assert!(broken.iter().any(|b| b.contains("`fluid` pulls in `tokio`")), "{broken:?}");
        assert!(pure_trees(&tree(&[("fluid", &["units", "libm"])])).is_empty());
    }
}
