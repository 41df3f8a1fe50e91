//! What the words say of the code is so: files and functions that they name are there.
//!
//! In: `DEVELOPERS.md` and the comments of the sources. Out: each file in backticks that the repository has not, and
//! each function of the table of hops that its file has not. Not here: items (`items.rs`); whether a sentence is true.

use std::path::{Path, PathBuf};

/// The heads of the two tables of `DEVELOPERS.md`, and the column that names places.
/// By definition of that page.
const HOPS: (&str, usize) = ("| hop |", 3);
const TO_ADD: (&str, usize) = ("| to add |", 2);
/// What ends so is the name of a file.
const FILES: &[&str] = &[".rs", ".md", ".toml", ".js", ".csv"];
/// Folders that are not ours, or are made.
const NOT_OURS: &[&str] = &["target", "vendor", ".git"];

/// Every file of the repository.
pub(super) fn files(root: &Path) -> Vec<String> {
    let mut files = Vec::new();
    gather(root, root, &mut files);
    files
}

/// Both tables and all comments.
pub(super) fn check(root: &Path, files: &[String]) -> Vec<String> {
    let words = std::fs::read_to_string(root.join("DEVELOPERS.md")).unwrap_or_default();
    let function = |file: &str, name: &str| {
        let text = std::fs::read_to_string(root.join(file)).unwrap_or_default();
        has_function(&text, name)
    };
    let mut broken = table(&words, HOPS, files, &function);
    broken.extend(table(&words, TO_ADD, files, &|_, _| true));
    for file in files.iter().filter(|file| file.ends_with(".rs")) {
        let text = std::fs::read_to_string(root.join(file)).unwrap_or_default();
        broken.extend(comments(file, &text, files));
    }
    broken
}

/// Every file of the repository, from its root on, with `/`.
fn gather(root: &Path, folder: &Path, files: &mut Vec<String>) {
    let Ok(entries) = std::fs::read_dir(folder) else { return };
    let mut paths: Vec<PathBuf> = entries.flatten().map(|entry| entry.path()).collect();
    paths.sort();
    for path in paths {
        let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        if path.is_dir() && !NOT_OURS.contains(&name.as_str()) {
            gather(root, &path, files);
        } else if let Ok(inside) = path.strip_prefix(root) {
            files.push(inside.to_string_lossy().replace('\\', "/"));
        }
    }
}

/// The rows of the table that begins with `head`: what its column names that is not there.
fn table(
    words: &str,
    (head, column): (&str, usize),
    files: &[String],
    function: &dyn Fn(&str, &str) -> bool,
) -> Vec<String> {
    let rows: Vec<&str> = words
        .lines()
        .skip_while(|line| !line.starts_with(head))
        .skip(2)
        .take_while(|line| line.starts_with('|'))
        .collect();
    if rows.is_empty() {
        return vec![format!("DEVELOPERS.md has no table that begins `{head}`")];
    }
    let mut broken = Vec::new();
    for row in rows {
        let mut inside = None;
        let (mut named, mut functions) = (0, 0);
        for token in ticked(row.split('|').nth(column).unwrap_or_default()) {
            if is_place(token) {
                named += 1;
                inside = find(files, token);
                if inside.is_none() {
                    broken.push(format!("DEVELOPERS.md names `{token}`, which is not there: {row}"));
                }
            } else if let (HOPS, Some(file)) = ((head, column), inside) {
                functions += 1;
                if !function(file, token) {
                    broken
                        .push(format!("DEVELOPERS.md names the function `{token}`, which `{file}` has not"));
                }
            }
        }
        if (head, column) == HOPS && (named == 0 || functions == 0) {
            broken.push(format!("a hop without a file and a function: {row}"));
        }
    }
    broken
}

/// What the comments name that is not there.
fn comments(file: &str, text: &str, files: &[String]) -> Vec<String> {
    let mut broken = Vec::new();
    for (number, comment) in commented(text) {
        for token in ticked(comment).into_iter().filter(|token| is_file(token)) {
            if find(files, token).is_none() {
                broken.push(format!("{file}:{number}: `{token}` is not there"));
            }
        }
    }
    broken
}

/// The lines that are comments, with their numbers.
pub(super) fn commented(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let lines = text.lines().map(str::trim_start).enumerate();
    lines.filter(|(_, line)| line.starts_with("//")).map(|(number, line)| (number + 1, line))
}

/// A file that a comment may point to. What a person names in an example (`demo.toml`) is none.
fn is_file(token: &str) -> bool {
    is_place(token)
        && (token.ends_with(".rs") || token.contains('/') && FILES.iter().any(|end| token.ends_with(end)))
}

/// What stands in backticks.
pub(super) fn ticked(text: &str) -> Vec<&str> {
    text.split('`').skip(1).step_by(2).collect()
}

/// A file or a folder.
fn is_place(token: &str) -> bool {
    let name = token.chars().all(|c| c.is_ascii_alphanumeric() || "_-./".contains(c));
    name && token.chars().any(|c| c.is_ascii_alphabetic())
        && (token.ends_with('/')
            || token.starts_with("crates/")
            || FILES.iter().any(|end| token.ends_with(end)))
}

/// The file that is meant: the one, or the first, whose path ends so; for a folder any file in it.
fn find<'a>(files: &'a [String], token: &str) -> Option<&'a str> {
    let folder = token.trim_end_matches('/');
    let mut all = files.iter().map(String::as_str);
    if folder == token && FILES.iter().any(|end| token.ends_with(end)) {
        return all.find(|file| {
            file.strip_suffix(token).is_some_and(|before| before.is_empty() || before.ends_with('/'))
        });
    }
    all.find(|file| file.starts_with(&format!("{folder}/")) || file.contains(&format!("/{folder}/")))
}

/// Whether a source has a function of this name.
fn has_function(text: &str, name: &str) -> bool {
    let head = format!("fn {name}");
    text.match_indices(&head)
        .any(|(at, _)| text.get(at + head.len()..).is_some_and(|after| after.starts_with(['(', '<'])))
}

#[cfg(test)]
mod tests {
    use super::*;

    const TABLE: &str = "| hop | from -> to | lives in | must hold |\n| --- | --- | --- | --- |\n\
        | 1 | a -> b | `crates/a/src/one.rs` `take`, `two.rs` `give` | x |\n\n| other |\n";

    fn files() -> Vec<String> {
        ["crates/a/src/one.rs", "crates/a/src/two.rs"].map(str::to_owned).to_vec()
    }

    #[test]
    fn a_hop_names_a_file_and_a_function_that_are_there() {
        let there = |file: &str, name: &str| {
            has_function(if file.ends_with("one.rs") { "fn take<T>(" } else { "fn give(" }, name)
        };
        assert!(table(TABLE, HOPS, &files(), &there).is_empty());
        let renamed = |_: &str, name: &str| has_function("fn take(x) fn given(", name);
        let broken = table(TABLE, HOPS, &files(), &renamed);
        assert_eq!(broken, ["DEVELOPERS.md names the function `give`, which `crates/a/src/two.rs` has not"]);
        assert_eq!(table(TABLE, HOPS, &files()[..1], &there).len(), 1, "a file that is gone");
        assert_eq!(
            table(&TABLE.replace("`take`", "").replace("`give`", ""), HOPS, &files(), &there).len(),
            1
        );
        assert_eq!(table("nothing", HOPS, &files(), &there).len(), 1, "no table");
    }

    #[test]
    fn a_comment_names_files_that_are_there() {
        let text = "//! See `one.rs` and `src/two.rs`.\n/// Not `three.rs`.\nlet x = 1; // `four.rs`\n    // why: `docs/five.md`\n";
        let found = comments("x.rs", text, &files());
        assert_eq!(found, ["x.rs:2: `three.rs` is not there", "x.rs:4: `docs/five.md` is not there"]);
    }
}
