//! Every number of the gate's limits names its source beside it.
//!
//! In: the files of [`TABLES`]. Out: each field and each constant in them whose words have no line with [`SOURCE`]. Not here:
//! whether the source is right, and formulas.

use std::path::Path;

/// Files whose numbers decide what is believed.
const TABLES: &[&str] = &["crates/gate/src/limits.rs"];
/// How the line begins: an edition and a table, `from memory`, `common practice, no source`, `own choice`.
const SOURCE: &str = "/// Source: ";
/// A field of one of these types is a number; a constant is one in any case.
const NUMBERS: &[&str] = &["f64", "u32", "usize", "Duration"];

/// All tables.
pub(super) fn check(root: &Path) -> Vec<String> {
    TABLES
        .iter()
        .flat_map(|file| match std::fs::read_to_string(root.join(file)) {
            Ok(text) => without_source(file, &text),
            Err(e) => vec![format!("{file}: {e}")],
        })
        .collect()
}

fn without_source(file: &str, text: &str) -> Vec<String> {
    let mut broken = Vec::new();
    let mut sourced = false;
    for (number, line) in text.lines().enumerate() {
        let line = line.trim_start();
        if line.starts_with("///") {
            sourced |= line.strip_prefix(SOURCE).is_some_and(|source| !source.trim().is_empty());
        } else if !line.starts_with("#[") {
            if let Some(name) = number_in(line).filter(|_| !sourced) {
                broken.push(format!("{file}:{}: `{name}` names no source", number + 1));
            }
            sourced = false;
        }
    }
    broken
}

/// The name of the field or constant that a line declares.
fn number_in(line: &str) -> Option<&str> {
    let public = ["pub(crate) ", "pub(super) ", "pub "].iter().find_map(|head| line.strip_prefix(head));
    let declared = public.unwrap_or(line);
    let constant = declared.strip_prefix("const ").filter(|rest| !rest.starts_with("fn "));
    let (name, of) = constant.or(public)?.split_once(':')?;
    if constant.is_none() && !NUMBERS.iter().any(|number| of.contains(number)) {
        return None;
    }
    name.chars().all(|c| c.is_ascii_alphanumeric() || c == '_').then_some(name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_without_a_source_is_found_wherever_it_stands() {
        let text = "pub struct Limits {\n    /// Age.\n    /// Source: own choice.\n    pub age: f64,\n    /// Step.\n    pub step: f64,\n    pub of: Option<Surface>,\n}\n\
            /// Edge.\n/// Source: \n#[rustfmt::skip]\npub(crate) const EDGE: f64 = 2.0;\nconst BARE: f64 = 1.0;\n\
            /// Source: x.\nconst FINE: f64 = 1.0;\npub const fn of(signal: Signal) -> Self {\n";
        let names: Vec<String> = without_source("x.rs", text);
        assert_eq!(
            names,
            [
                "x.rs:6: `step` names no source",
                "x.rs:12: `EDGE` names no source",
                "x.rs:13: `BARE` names no source",
            ]
        );
    }

    #[test]
    fn every_number_of_the_gate_names_one() {
        let broken = check(&crate::shell::root());
        assert!(broken.is_empty(), "{}", broken.join("\n"));
    }
}
