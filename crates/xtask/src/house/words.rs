//! No replacement of a word has eaten into another one.
//!
//! In: every text file of the repository that we wrote. Out: each place where one of the words of [`REPLACED`] is glued
//! to letters. Not here: spelling.

use std::path::Path;

/// Words that once replaced a shorter one (`ecu`), in all spellings: where they touch a letter, the shorter one was
/// part of another word.
const REPLACED: &[&str] = &["control unit", "control_unit", "control-unit"];
/// What may follow: the plural, and then no letter.
const PLURAL: char = 's';
/// Folders with files of ours.
const FOLDERS: &[&str] = &["crates", "docs", "fixtures", "src", "tests"];
/// What others wrote lies here.
const VENDOR: &str = "vendor";
/// Files that are text.
const TEXT: &[&str] = &["css", "csv", "html", "js", "json", "jsonl", "md", "py", "rs", "toml", "txt"];

/// Every place in the repository.
pub fn check(root: &Path) -> Vec<String> {
    FOLDERS.iter().flat_map(|folder| look(&root.join(folder))).collect()
}

fn look(folder: &Path) -> Vec<String> {
    let Ok(entries) = std::fs::read_dir(folder) else { return Vec::new() };
    let mut broken = Vec::new();
    for path in entries.flatten().map(|entry| entry.path()) {
        let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        if path.is_dir() {
            if name != VENDOR && name != "target" {
                broken.extend(look(&path));
            }
            continue;
        }
        let extension = path.extension().map(|e| e.to_string_lossy().into_owned()).unwrap_or_default();
        if !TEXT.contains(&extension.as_str()) {
            continue;
        }
        let text = std::fs::read_to_string(&path).unwrap_or_default();
        for (number, line) in text.lines().enumerate() {
            if let Some(word) = glued(line) {
                broken.push(format!("{}:{}: `{word}` is glued to letters", path.display(), number + 1));
            }
        }
    }
    broken
}

/// The first replaced word in `line` that touches a letter.
fn glued(line: &str) -> Option<&'static str> {
    let line = line.to_lowercase();
    REPLACED.iter().copied().find(|word| {
        line.match_indices(word).any(|(at, _)| {
            let before = line.get(..at).and_then(|text| text.chars().next_back());
            let rest = line.get(at + word.len()..).unwrap_or_default();
            let after = rest.strip_prefix(PLURAL).unwrap_or(rest).chars().next();
            [before, after].into_iter().flatten().any(char::is_alphabetic)
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_that_was_eaten_into_is_found_and_a_whole_one_is_not() {
        let whole =
            ["the control unit", "control units,", "control_units: [", "\"control-unit\"", "`ControlUnit`"];
        for line in whole {
            assert_eq!(glued(line), None, "{line}");
        }
        // The words are put together here, so that this file does not break its own rule.
        for (before, after) in
            [("s", "rity access"), ("ex", "te"), ("cons", "tive frames"), ("", "sx"), ("re", "")]
        {
            let line = format!("{before}control unit{after}");
            assert!(glued(&line).is_some(), "{line}");
        }
    }

    #[test]
    fn no_file_of_ours_holds_one() {
        let broken = check(&crate::shell::root());
        assert!(broken.is_empty(), "{}", broken.join("\n"));
    }
}
