//! Every dependency is named by a source of its crate.
//!
//! In: each `Cargo.toml` of the house and the sources beside it. Out: each dependency that no source names, and each
//! that only tests name and that is not one of the tests'. Not here: who may use whom (`house.rs`).

use std::collections::BTreeSet;
use std::path::Path;

/// Dependencies that are there for another reason than their names: crate, dependency, why.
const UNNAMED: &[(&str, &str, &str)] =
    &[("page", "fantoccini", BROWSER), ("page", "http", BROWSER), ("page", "url", BROWSER)];
const BROWSER: &str = "its bench includes the browser of the program's tests";
/// Where what ships lies.
const SHIPPED: &[&str] = &["src"];
/// Where a dependency of the tests may be named.
const ALL: &[&str] = &["src", "tests", "benches", "examples"];

/// Which dependencies a line of a manifest belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Section {
    Shipped,
    Tests,
    /// What crates may want, with its version.
    Workspace,
    Other,
}

/// Every dependency of every crate.
pub(super) fn check(root: &Path, crates: &[&str]) -> Vec<String> {
    let mut broken = Vec::new();
    let mut wanted = BTreeSet::new();
    for name in crates {
        let inside = root.join("crates").join(name);
        let folder = if inside.is_dir() { inside } else { root.to_owned() };
        let manifest = std::fs::read_to_string(folder.join("Cargo.toml")).unwrap_or_default();
        let (shipped, all) = (code(&folder, SHIPPED), code(&folder, ALL));
        let own = dependencies(&manifest).into_iter().filter(|(section, _)| *section != Section::Workspace);
        for (section, dependency) in own {
            let sources = if section == Section::Shipped { &shipped } else { &all };
            wanted.insert(dependency.clone());
            let excused = UNNAMED.iter().any(|(of, what, _)| of == name && *what == dependency);
            if !excused && !names(sources, &dependency) {
                let where_else = if names(&all, &dependency) { ": only its tests do" } else { "" };
                broken.push(format!("no source of `{name}` names its dependency `{dependency}`{where_else}"));
            }
        }
    }
    let workspace = std::fs::read_to_string(root.join("Cargo.toml")).unwrap_or_default();
    let listed = dependencies(&workspace).into_iter().filter(|(section, _)| *section == Section::Workspace);
    for (_, unwanted) in listed.filter(|(_, name)| !wanted.contains(name)) {
        broken.push(format!("no crate wants `{unwanted}` of the workspace's dependencies"));
    }
    broken
}

/// What a manifest depends on.
fn dependencies(manifest: &str) -> Vec<(Section, String)> {
    let mut section = Section::Other;
    let mut found = Vec::new();
    for line in manifest.lines().map(str::trim) {
        if line.starts_with('[') {
            section = match line {
                "[dependencies]" => Section::Shipped,
                "[workspace.dependencies]" => Section::Workspace,
                "[dev-dependencies]" => Section::Tests,
                _ => Section::Other,
            };
        } else if section != Section::Other && !line.starts_with('#') {
            let name = line.split(['.', ' ', '=']).next().unwrap_or_default();
            if !name.is_empty() {
                found.push((section, name.to_owned()));
            }
        }
    }
    found
}

/// All code of these folders, without comments.
fn code(folder: &Path, parts: &[&str]) -> String {
    let mut text = String::new();
    parts.iter().for_each(|part| gather(&folder.join(part), &mut text));
    text
}

fn gather(folder: &Path, text: &mut String) {
    let Ok(entries) = std::fs::read_dir(folder) else { return };
    for path in entries.flatten().map(|entry| entry.path()) {
        if path.is_dir() {
            gather(&path, text);
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            let source = std::fs::read_to_string(&path).unwrap_or_default();
            for line in source.lines() {
                text.push_str(line.split("//").next().unwrap_or_default());
                text.push('\n');
            }
        }
    }
}

/// Whether code names a crate: a path that begins with it, or an import of it.
fn names(code: &str, dependency: &str) -> bool {
    let name = dependency.replace('-', "_");
    let part_of_word = |c: char| c.is_alphanumeric() || c == '_';
    code.match_indices(&name).any(|(at, _)| {
        let (before, after) =
            (code.get(..at).unwrap_or_default(), code.get(at + name.len()..).unwrap_or_default());
        let path = after.starts_with("::") && !before.ends_with("::");
        let imported = before.ends_with("use ") && after.starts_with([';', ' ']);
        !before.ends_with(part_of_word) && (path || imported)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_crate_is_named_by_a_path_or_an_import() {
        let rows = [
            ("use jiff::Timestamp;", true),
            ("let t = jiff::Timestamp::now();", true),
            ("use jiff as time;", true),
            ("let jiff = 1;", false),
            ("use events::jiff::Timestamp;", false),
            ("my_jiff::now()", false),
            ("#[derive(jiff::Error)]", true),
        ];
        for (code, want) in rows {
            assert_eq!(names(code, "jiff"), want, "{code}");
        }
        assert!(names("tokio_util::codec", "tokio-util"));
    }

    #[test]
    fn a_manifest_is_read_by_its_sections() {
        let manifest = "[package]\nname = \"x\"\n[dependencies]\n# why\na.workspace = true\nb-c = { workspace = true }\n\
            [dev-dependencies]\nd = \"1\"\n[features]\ne = []\n";
        let found = dependencies(manifest);
        let want = [(Section::Shipped, "a"), (Section::Shipped, "b-c"), (Section::Tests, "d")];
        assert_eq!(found, want.map(|(section, name)| (section, name.to_owned())));
    }
}
