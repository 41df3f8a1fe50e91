//! The notices: whose work ships with the program, under which licences, and their texts as their authors wrote them.
//!
//! In: the parts, the licence files in their archives. Out: one text. Parts under the Mozilla Public License come with the place where
//! their source is offered (section 3.2 of its version 2.0). Not here: which licences are accepted (`house/supply.rs`).

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::Path;

use crate::supply::Part;

/// How the names of files with licences and notices begin, in capitals.
const FILES: &[&str] = &["LICENSE", "LICENCE", "COPYING", "NOTICE", "UNLICENSE", "COPYRIGHT"];
/// A licence whose source must be offered.
const OFFERED: &str = "MPL-2.0";
const LINE: &str = "--------------------------------------------------------------------------------";

/// All notices. `own`: the texts of our own licences, which stand in for an archive that has none and names one of them.
pub fn text(parts: &[Part], own: &[(&str, String)]) -> Result<String, String> {
    let mut out = String::from("Work of others that standpipe is made of, and its licences.\n\n");
    for part in parts {
        let _ = writeln!(out, "{} {}: {}", part.name, part.version, part.licence);
    }
    for part in parts.iter().filter(|part| part.licence.contains(OFFERED)) {
        if part.repository.is_empty() {
            return Err(format!("{} is under {OFFERED} and does not say where its source is", part.name));
        }
        let _ = write!(
            out,
            "\n{} {} is under the Mozilla Public License 2.0. It is used as it is; its source code form, this version, is \
             available from {}\nunder the terms of that licence.\n",
            part.name, part.version, part.repository
        );
    }
    for (text, of) in by_text(parts, own)? {
        let _ = write!(out, "\n{LINE}\n{}\n{LINE}\n\n{}\n", of.join(", "), text.trim_end());
    }
    Ok(out)
}

/// Each text once, with the parts that it belongs to.
fn by_text(parts: &[Part], own: &[(&str, String)]) -> Result<Vec<(String, Vec<String>)>, String> {
    let mut texts: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for part in parts {
        let mut found = files(&part.folder)?;
        if found.is_empty() {
            let named = own.iter().filter(|(licence, _)| part.licence.contains(licence));
            found.extend(named.map(|(_, text)| text.clone()).take(1));
        }
        if found.is_empty() {
            return Err(format!(
                "{} {} ({}) has no text of its licence",
                part.name, part.version, part.licence
            ));
        }
        for text in found {
            texts.entry(text).or_default().push(format!("{} {}", part.name, part.version));
        }
    }
    let mut texts: Vec<_> = texts.into_iter().collect();
    texts.sort_by(|(_, a), (_, b)| a.cmp(b));
    Ok(texts)
}

/// The licence files of an archive, line ends as ours.
fn files(folder: &Path) -> Result<Vec<String>, String> {
    let failed = |e: std::io::Error| format!("{}: {e}", folder.display());
    let mut paths: Vec<_> = std::fs::read_dir(folder).map_err(failed)?.flatten().map(|e| e.path()).collect();
    paths.sort();
    let is_one = |path: &Path| {
        let name = path.file_name().map(|name| name.to_string_lossy().to_uppercase()).unwrap_or_default();
        path.is_file() && FILES.iter().any(|begin| name.starts_with(begin))
    };
    let read = |path| std::fs::read(path).map(|bytes| String::from_utf8_lossy(&bytes).replace("\r\n", "\n"));
    paths.iter().filter(|path| is_one(path)).map(|path| read(path).map_err(failed)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn part(folder: &Path, name: &str, licence: &str, repository: &str) -> Part {
        Part {
            name: name.to_owned(),
            version: "1.0.0".to_owned(),
            licence: licence.to_owned(),
            repository: repository.to_owned(),
            folder: folder.to_owned(),
        }
    }

    #[test]
    fn each_text_stands_once_with_all_it_belongs_to_and_a_source_offer_where_it_must() {
        let base = std::env::temp_dir().join(format!("standpipe-notices-{}", std::process::id()));
        let made = |name: &str, file: Option<(&str, &str)>| {
            let folder = base.join(name);
            std::fs::create_dir_all(&folder).unwrap();
            if let Some((file, text)) = file {
                std::fs::write(folder.join(file), text).unwrap();
            }
            folder
        };
        let a = part(&made("a", Some(("LICENSE-MIT", "the same\r\n"))), "a", "MIT", "");
        let b = part(&made("b", Some(("licence.md", "the same\n"))), "b", "MIT", "");
        let c = part(&made("c", Some(("LICENSE", "weak copyleft"))), "c", "MPL-2.0", "https://c.example");
        let d = part(&made("d", None), "d", "MIT OR Apache-2.0", "");
        let own = [("Apache-2.0", "ours".to_owned())];
        let all = text(&[a, b, c.clone(), d.clone()], &own).unwrap();
        assert_eq!(all.matches("the same").count(), 1);
        assert!(all.contains("a 1.0.0, b 1.0.0\n") && all.contains("\nours\n"), "{all}");
        assert!(all.contains("available from https://c.example"), "{all}");
        let nowhere = Part { repository: String::new(), ..c };
        assert!(text(&[nowhere], &own).unwrap_err().contains("does not say where its source is"));
        assert!(text(&[d], &[]).unwrap_err().contains("has no text of its licence"));
        std::fs::remove_dir_all(&base).unwrap();
    }
}
