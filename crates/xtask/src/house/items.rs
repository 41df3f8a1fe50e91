//! What the comments name with `::` is in the code.
//!
//! In: the sources. Out: each path in backticks (`events::Snapshot::apply`) of which a part is nowhere in the code of
//! the crate that it belongs to, and each that begins with a name that the code does not know at all. Not here: files
//! (`map.rs`); whether the parts belong together, which the compiler sees where it is a link.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use super::map::{commented, ticked};

/// What begins so belongs to the crate of the file.
const OWN: &[&str] = &["crate", "self", "super", "Self"];
/// What the language brings along.
const LANGUAGE: &[&str] = &["std", "core", "alloc"];
/// The words of the code of one crate.
#[derive(Debug, Default)]
struct Code(BTreeSet<String>);

/// Every comment of every source; `files` from the root on.
pub(super) fn check(root: &Path, files: &[String]) -> Vec<String> {
    let sources: Vec<(&String, String)> = files
        .iter()
        .filter(|file| file.ends_with(".rs"))
        .map(|file| (file, std::fs::read_to_string(root.join(file)).unwrap_or_default()))
        .collect();
    let mut crates: BTreeMap<&str, Code> = BTreeMap::new();
    for (file, text) in &sources {
        crates.entry(home(file)).or_default().take(text);
    }
    sources.iter().flat_map(|(file, text)| broken(file, text, &crates)).collect()
}

/// The crate of a file, as code names it; the program and what stands beside it is `standpipe`.
fn home(file: &str) -> &str {
    file.strip_prefix("crates/").and_then(|inside| inside.split('/').next()).unwrap_or("standpipe")
}

impl Code {
    /// One more source of it.
    fn take(&mut self, text: &str) {
        for line in text.lines() {
            let code = line.split("//").next().unwrap_or_default();
            let words =
                code.split(|c: char| !(c.is_alphanumeric() || c == '_')).filter(|word| !word.is_empty());
            self.0.extend(words.map(str::to_owned));
        }
    }

    fn has_all(&self, parts: &[&str]) -> bool {
        parts.iter().all(|part| self.0.contains(*part))
    }
}

fn broken(file: &str, text: &str, crates: &BTreeMap<&str, Code>) -> Vec<String> {
    let mut broken = Vec::new();
    for (number, comment) in commented(text) {
        for token in ticked(comment).into_iter().filter(|token| is_path(token)) {
            if !is_there(home(file), token, crates) {
                broken.push(format!("{file}:{number}: `{token}` is not in the code"));
            }
        }
    }
    broken
}

/// Names with `::` between them and nothing else.
fn is_path(token: &str) -> bool {
    let name = bare(token);
    name.contains("::")
        && name.split("::").all(|part| {
            part.starts_with(|c: char| c.is_alphabetic() || c == '_')
                && part.chars().all(|c| c.is_alphanumeric() || c == '_')
        })
}

/// Without the brackets of a call and the mark of a macro.
fn bare(token: &str) -> &str {
    token.trim_end_matches("()").trim_end_matches('!')
}

fn is_there(home: &str, token: &str, crates: &BTreeMap<&str, Code>) -> bool {
    let parts: Vec<&str> = bare(token).split("::").collect();
    let Some((first, rest)) = parts.split_first() else { return true };
    if OWN.contains(first) {
        return crates.get(home).is_some_and(|code| code.has_all(rest));
    }
    if let Some(code) = crates.get(first) {
        return code.has_all(rest);
    }
    LANGUAGE.contains(first) || crates.values().any(|code| code.has_all(&parts))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_of_ours_has_all_its_parts_in_the_code() {
        let mut crates: BTreeMap<&str, Code> = BTreeMap::new();
        crates
            .entry("events")
            .or_default()
            .take("pub struct Reading;\nimpl Reading { fn plain() {} } // gone");
        crates.entry("gate").or_default().take("use nalgebra::SVector;\nmod judge;");
        let rows = [
            ("events::Reading::plain", true),
            ("events::Reading::gone", false),
            ("Reading::plain()", true),
            ("Reading::spelt", false),
            ("crate::judge", true),
            ("crate::decide", false),
            ("nalgebra::SVector", true),
            ("std::time", true),
            ("Utterance::plain", false),
        ];
        for (token, want) in rows {
            assert!(is_path(token), "{token}");
            assert_eq!(is_there("gate", token, &crates), want, "{token}");
        }
        assert!(!is_path("a::<T>") && !is_path("1::2") && !is_path("word"));
        let found = broken(
            "crates/gate/src/x.rs",
            "//! See `crate::judge` and `crate::decide`.\nlet x = 1;\n",
            &crates,
        );
        assert_eq!(found, ["crates/gate/src/x.rs:1: `crate::decide` is not in the code"]);
    }
}
