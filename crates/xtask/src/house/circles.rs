//! No two files of a crate use each other, however far round.
//!
//! In: the sources of the crates in [`ROUND`]. Out: each circle, as the files on it. A head (`mod.rs`) stands for what it hands on, so
//! a file may use its folder's head only where the head does not hand on that very file. Not here: imports between crates (`house.rs`).

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// The crates whose inside is looked at, and whether a head may use its own rooms while they use it: its struct, their functions on it.
const ROUND: &[(&str, bool)] = &[
    ("adapter", true),
    ("client", true),
    ("events", true),
    ("fluid", true),
    ("frames", true),
    ("gate", false),
    ("job", true),
    ("page", true),
    ("rehearsal", true),
    ("relay", true),
    ("service", true),
    ("units", true),
    ("view", true),
    ("words", true),
];

/// A module's path inside its crate to the modules that it uses.
type Uses = BTreeMap<String, BTreeSet<String>>;

/// All of them.
pub(super) fn check(root: &Path) -> Vec<String> {
    let mut broken = Vec::new();
    for (name, heads) in ROUND {
        let src = root.join("crates").join(name).join("src");
        let mut texts = BTreeMap::new();
        gather(&src, "", &mut texts);
        if texts.is_empty() {
            broken.push(format!("the crate `{name}` has no sources"));
        }
        let mut uses = uses(&texts);
        if *heads {
            let inside =
                |head: &str, room: &str| room.strip_prefix(head).is_some_and(|rest| rest.starts_with("::"));
            uses.iter_mut().for_each(|(head, used)| used.retain(|room| !inside(head, room)));
        }
        broken.extend(circles(&uses).into_iter().map(|on_it| format!("`{name}`: a circle of {on_it}")));
    }
    broken
}

/// Every module with its text; tests aside.
fn gather(folder: &Path, inside: &str, texts: &mut BTreeMap<String, String>) {
    let Ok(entries) = std::fs::read_dir(folder) else { return };
    for path in entries.flatten().map(|entry| entry.path()) {
        let stem = path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
        let module = if inside.is_empty() { stem.clone() } else { format!("{inside}::{stem}") };
        if path.is_dir() {
            gather(&path, &module, texts);
        } else if stem != "tests" && stem != "lib" && path.extension().is_some_and(|e| e == "rs") {
            let name = if stem == "mod" { inside.to_owned() } else { module };
            let text = std::fs::read_to_string(&path).unwrap_or_default();
            let shipped = text.split("#[cfg(test)]\nmod ").next().unwrap_or_default();
            texts.insert(name, shipped.to_owned());
        }
    }
}

fn uses(texts: &BTreeMap<String, String>) -> Uses {
    let all: BTreeSet<&str> = texts.keys().map(String::as_str).collect();
    let mut uses: Uses = BTreeMap::new();
    for (module, text) in texts {
        let used = uses.entry(module.clone()).or_default();
        for path in imports(text) {
            let whole = match path.strip_prefix("super::") {
                Some(rest) => match module.rsplit_once("::") {
                    Some((parent, _)) => format!("{parent}::{rest}"),
                    None => rest.to_owned(),
                },
                None => {
                    path.strip_prefix("crate::").map_or_else(|| format!("{module}::{path}"), str::to_owned)
                }
            };
            // The longest beginning that is a module.
            let mut at = whole.as_str();
            while !all.contains(at) {
                let Some((before, _)) = at.rsplit_once("::") else { break };
                at = before;
            }
            if all.contains(at) && at != module {
                used.insert(at.to_owned());
            }
        }
    }
    uses
}

/// The paths of all `use` items, each list taken apart.
fn imports(text: &str) -> Vec<String> {
    let mut paths = Vec::new();
    for item in text.split(";") {
        let Some((_, item)) = item.rsplit_once("use ").filter(|(before, _)| {
            let head = before.rsplit('\n').next().unwrap_or_default().trim();
            head.is_empty() || head.starts_with("pub")
        }) else {
            continue;
        };
        let item: String = item.split_whitespace().collect();
        match item.split_once('{') {
            Some((head, list)) => {
                let names = list.trim_end_matches('}').split([',', '{', '}']).filter(|name| !name.is_empty());
                paths.extend(names.map(|name| format!("{head}{name}")));
            }
            None => paths.push(item),
        }
    }
    paths
}

/// Each set of modules that reach each other.
fn circles(uses: &Uses) -> Vec<String> {
    let reach: BTreeMap<&str, BTreeSet<&str>> =
        uses.keys().map(|from| (from.as_str(), reached(uses, from))).collect();
    let mut found = BTreeSet::new();
    for (from, to) in &reach {
        if to.contains(from) {
            let mates = to.iter().filter(|mate| reach.get(*mate).is_some_and(|back| back.contains(from)));
            found.insert(mates.copied().collect::<Vec<_>>().join(", "));
        }
    }
    found.into_iter().collect()
}

fn reached<'a>(uses: &'a Uses, from: &str) -> BTreeSet<&'a str> {
    let mut seen = BTreeSet::new();
    let mut next: Vec<&str> = uses.get(from).into_iter().flatten().map(String::as_str).collect();
    while let Some(at) = next.pop() {
        if seen.insert(at) {
            next.extend(uses.get(at).into_iter().flatten().map(String::as_str));
        }
    }
    seen
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(of: &[(&str, &str)]) -> BTreeMap<String, String> {
        of.iter().map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect()
    }

    #[test]
    fn two_files_that_use_each_other_are_a_circle_and_a_head_that_hands_on_is_none() {
        let round = texts(&[
            ("a", "//! x\n\nuse std::fmt;\n\nuse crate::b::c::{One, Two};\n"),
            ("b", "mod c;\npub(crate) use c::One;\n"),
            ("b::c", "use crate::d::Three;\n"),
            ("d", "use crate::{\n    a::Four,\n};\n"),
        ]);
        assert_eq!(circles(&uses(&round)), ["a, b::c, d"]);
        let open = texts(&[
            ("a", "use crate::b::One;\n"),
            ("b", "mod c;\npub use c::One;\n"),
            ("b::c", "use super::d::X;\n"),
            ("b::d", ""),
        ]);
        assert!(circles(&uses(&open)).is_empty());
        let through_the_head = texts(&[("b", "mod c;\npub use c::One;\n"), ("b::c", "use super::Two;\n")]);
        assert_eq!(circles(&uses(&through_the_head)), ["b, b::c"]);
    }

    #[test]
    fn there_is_none() {
        let broken = check(&crate::shell::root());
        assert!(broken.is_empty(), "{}", broken.join("\n"));
    }
}
