//! No type has a name that says nothing of the trade.
//!
//! In: the sources of every crate and of the command line. Out: each type with one of the names of [`EMPTY`] that does not stand in
//! [`ALLOWED`] (docs/adr/0011). Not here: names of functions and variants; tests that lie beside the sources.

use std::path::Path;

/// Six types were called so at a time, and nobody knew which.
const EMPTY: &[&str] = &["Said", "Seen", "Heard", "State", "Line"];
/// Where one of them is the word of the trade: a line to the adapter, twice; a straight line; a state vector.
const ALLOWED: &[(&str, &str)] = &[
    ("crates/adapter/src/command.rs", "Line"),
    ("crates/service/src/line.rs", "Line"),
    ("crates/gate/src/signal/slope.rs", "Line"),
    ("crates/gate/src/nodes/filter.rs", "State"),
];
/// What stands in front of a type's name: Rust's own words, and those of `words!`.
const MAKERS: &[&str] = &["struct", "enum", "union", "type", "trait", "json", "carrying"];

/// Every source; `files`: all of the repository.
pub(super) fn check(root: &Path, files: &[String]) -> Vec<String> {
    let mut broken = Vec::new();
    for file in files.iter().filter(|file| is_source(file)) {
        let text = std::fs::read_to_string(root.join(file)).unwrap_or_default();
        broken.extend(empty(file, &text));
    }
    for (file, name) in ALLOWED {
        let text = std::fs::read_to_string(root.join(file)).unwrap_or_default();
        if !types(&text).any(|(_, found)| found == *name) {
            broken.push(format!("{file}: `{name}` is allowed and no longer there"));
        }
    }
    broken
}

fn is_source(file: &str) -> bool {
    let of_a_crate = file.strip_prefix("crates/").and_then(|rest| rest.split_once('/'));
    let inside = of_a_crate.map_or(file, |(_, inside)| inside);
    inside.starts_with("src/") && file.ends_with(".rs")
}

fn empty(file: &str, text: &str) -> Vec<String> {
    types(text)
        .filter(|(_, name)| EMPTY.contains(name) && !ALLOWED.contains(&(file, *name)))
        .map(|(line, name)| format!("{file}:{line}: a type called `{name}`: give it a noun of the trade"))
        .collect()
}

/// The types that are made in `text`, with their lines.
fn types(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let shipped = text.split("#[cfg(test)]\nmod ").next().unwrap_or_default();
    shipped.lines().enumerate().filter_map(|(at, line)| made(line).map(|name| (at + 1, name)))
}

/// The name of the type that a line makes.
fn made(line: &str) -> Option<&str> {
    let mut words =
        line.trim_start().split(|c: char| !c.is_alphanumeric() && c != '_').filter(|word| !word.is_empty());
    let first = words.next()?;
    let maker =
        if first == "pub" { words.find(|word| !["crate", "super", "in"].contains(word))? } else { first };
    let name = words.next()?;
    (MAKERS.contains(&maker) && !line.trim_start().starts_with("//")).then_some(name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_type_with_an_empty_name_is_found_however_it_is_made() {
        let cases: &[(&str, bool)] = &[
            ("struct Said;", true),
            ("pub(crate) enum Heard {", true),
            ("    pub struct Seen<'a> {", true),
            ("pub(super) type State = SVector<f64, N>;", true),
            ("json Line {", true),
            ("struct SaidOnce;", false),
            ("// struct Said;", false),
            ("let state = State::Open;", false),
            ("    Said(TypedRequest),", false),
        ];
        for (line, found) in cases {
            assert_eq!(!empty("src/x.rs", line).is_empty(), *found, "{line}");
        }
        assert!(
            empty("crates/service/src/line.rs", "pub(crate) struct Line {").is_empty(),
            "a word of the trade there"
        );
        assert_eq!(
            empty("src/x.rs", "\nstruct Line;"),
            ["src/x.rs:2: a type called `Line`: give it a noun of the trade"]
        );
    }

    #[test]
    fn sources_are_looked_at_and_tests_beside_them_are_not() {
        for (file, is) in [
            ("src/page.rs", true),
            ("crates/gate/src/a/b.rs", true),
            ("crates/gate/tests/idle.rs", false),
            ("tests/six.rs", false),
            ("docs/src/a.md", false),
        ] {
            assert_eq!(is_source(file), is, "{file}");
        }
    }
}
