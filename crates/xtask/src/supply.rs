//! What others wrote and ships with the program: from `cargo metadata`, for this machine's kind or another.
//!
//! In: the lock file, as cargo reads it. Out: one [`Part`] for each crate that the program is linked with. Not here: which licences
//! and duplicates are accepted (`house/supply.rs`), the texts (`notices.rs`).

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

use serde_json::Value;

use crate::shell::cargo_command;

/// A crate of others.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Part {
    /// Its name.
    pub name: String,
    /// Its version.
    pub version: String,
    /// Its licence, as it says itself (SPDX, or the older way with `/`).
    pub licence: String,
    /// Where its source is developed; empty where it does not say.
    pub repository: String,
    /// Where its source lies here.
    pub folder: PathBuf,
}

/// Everything that the program of the workspace is linked with on `target`, sorted by name and version.
pub fn linked(target: &str) -> Result<Vec<Part>, String> {
    let arguments = ["metadata", "--format-version", "1", "--locked", "--filter-platform", target];
    let output = cargo_command().args(arguments).output().map_err(|e| format!("cargo metadata: {e}"))?;
    if !output.status.success() {
        return Err(format!("cargo metadata: {}", String::from_utf8_lossy(&output.stderr)));
    }
    let metadata: Value = serde_json::from_slice(&output.stdout).map_err(|e| e.to_string())?;
    parts(&metadata)
}

fn parts(metadata: &Value) -> Result<Vec<Part>, String> {
    let packages: BTreeMap<&str, &Value> =
        list(metadata, "/packages").iter().map(|package| (text(package, "id"), package)).collect();
    let nodes: BTreeMap<&str, &Value> =
        list(metadata, "/resolve/nodes").iter().map(|node| (text(node, "id"), node)).collect();
    let ours: BTreeSet<&str> =
        list(metadata, "/workspace_members").iter().filter_map(Value::as_str).collect();
    let named = |(_, package): &(&&str, &&Value)| text(package, "name") == PROGRAM;
    let (program, _) = packages.iter().find(named).ok_or("cargo metadata names no program of ours")?;
    let (mut seen, mut next) = (BTreeSet::new(), vec![*program]);
    while let Some(id) = next.pop() {
        if !seen.insert(id) {
            continue;
        }
        let node = nodes.get(id).ok_or_else(|| format!("cargo metadata says nothing of {id}"))?;
        next.extend(list(node, "/deps").iter().filter(|dep| is_linked(dep)).map(|dep| text(dep, "pkg")));
    }
    let others = seen.into_iter().filter(|id| !ours.contains(id));
    let mut parts: Vec<Part> =
        others.filter_map(|id| packages.get(id)).map(|package| part(package)).collect();
    parts.sort();
    Ok(parts)
}

/// What the program is called.
pub const PROGRAM: &str = "standpipe";

/// Whether a dependency is one of the program, not only of its build or its tests.
fn is_linked(dep: &Value) -> bool {
    list(dep, "/dep_kinds").iter().any(|kind| kind.get("kind").is_none_or(Value::is_null))
}

fn part(package: &Value) -> Part {
    let manifest = PathBuf::from(text(package, "manifest_path"));
    Part {
        name: text(package, "name").to_owned(),
        version: text(package, "version").to_owned(),
        licence: text(package, "license").to_owned(),
        repository: text(package, "repository").to_owned(),
        folder: manifest.parent().map(PathBuf::from).unwrap_or_default(),
    }
}

fn list<'a>(value: &'a Value, at: &str) -> &'a [Value] {
    value.pointer(at).and_then(Value::as_array).map_or(&[], Vec::as_slice)
}

fn text<'a>(value: &'a Value, key: &str) -> &'a str {
    value.get(key).and_then(Value::as_str).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_only_builds_or_tests_is_not_linked_and_what_is_behind_ours_is() {
        let package = |id: &str, name: &str| {
            serde_json::json!({"id": id, "name": name, "version": "1.0.0", "license": "MIT",
                "repository": null, "manifest_path": format!("/r/{name}/Cargo.toml")})
        };
        let dep =
            |id: &str, kind: Option<&str>| serde_json::json!({"pkg": id, "dep_kinds": [{"kind": kind}]});
        let node = |id: &str, deps: Vec<Value>| serde_json::json!({"id": id, "deps": deps});
        let metadata = serde_json::json!({
            "packages": [package("p", PROGRAM), package("o", "ours"), package("a", "linked"), package("b", "builds"), package("t", "tests")],
            "workspace_members": ["p", "o"],
            "resolve": {"nodes": [
                node("p", vec![dep("o", None), dep("t", Some("dev")), dep("b", Some("build"))]),
                node("o", vec![dep("a", None)]), node("a", vec![]), node("b", vec![]), node("t", vec![]),
            ]},
        });
        let found = parts(&metadata).unwrap();
        assert_eq!(found.iter().map(|part| part.name.as_str()).collect::<Vec<_>>(), ["linked"]);
        assert_eq!(found[0].folder, PathBuf::from("/r/linked"));
    }
}
