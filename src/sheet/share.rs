//! One file with a sheet and what bears it out, for another workshop.
//!
//! In: a sheet, text files. Out: one JSON file with their hashes; and from such a file a sheet in which nothing is confirmed yet.
//! Nothing of it gates before a person confirms it there: `unconfirmed` names every table that a job goes by.

use std::path::Path;

use events::Sheet;
use serde::{Deserialize, Serialize};

use super::{beside, create, exists, hash, text, today};
use crate::failure::{Exit, Failure};
use crate::screen::Screen;

/// What is shared.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Shared {
    /// The version of this form: 1.
    share: u32,
    /// Who shares it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    by: Option<String>,
    /// On which day.
    at: String,
    /// The hash of the sheet's values.
    sha256: String,
    /// The sheet, as TOML.
    sheet: String,
    /// What bears it out.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    evidence: Vec<Evidence>,
}

/// A text file.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Evidence {
    name: String,
    sha256: String,
    text: String,
}

/// Characters of who shared it, of when, and of a file's name.
/// Own choice: what a row shows; a moment of RFC 3339 has some thirty.
const WHO: usize = 60;
const WHEN: usize = 40;
const NAME: usize = 80;
/// A shared file is no longer than this.
/// Own choice: a sheet and the evidence of its makers are text of some kilobytes each; it is read whole.
const SHARE_LIMIT: u64 = 4 * 1024 * 1024;
/// No more files bear a sheet out.
/// Own choice: nobody reads more.
const MOST_EVIDENCE: usize = 32;
/// What a job goes by: confirmed by a person before anything gates.
const GATES: [&str; 8] = ["check", "identifier", "fluid", "standpipe", "level", "look", "stand", "before"];

/// `sheet share`.
pub fn share(
    file: &Path,
    into: &Path,
    evidence: &[std::path::PathBuf],
    by: Option<&str>,
    screen: Screen,
) -> Result<(), Failure> {
    let read = |path: &std::path::PathBuf| -> Result<Evidence, Failure> {
        let text = std::fs::read_to_string(path).map_err(|e| {
            Failure::file("read", path, &e).try_this("evidence is text: a log, readings, notes")
        })?;
        let name = path.file_name().map_or(String::new(), |n| n.to_string_lossy().into_owned());
        if !is_name(&name) {
            let why = format!(
                "cannot share {}: its name must be of letters, digits, `-`, `_` and `.`",
                path.display()
            );
            return Err(Failure::new(Exit::Data, why));
        }
        Ok(Evidence { name, sha256: hash::text(&text), text })
    };
    let json = shared(file, evidence.iter().map(read).collect::<Result<_, _>>()?, by)?;
    create(into, &json)?;
    screen.line(&format!(
        "written to {}; the other workshop runs: standpipe sheet take {} --into FILE",
        into.display(),
        into.display()
    ))
}

/// The text of a shared file: the sheet alone.
///
/// # Errors
/// Where the sheet cannot be read or shared.
pub fn alone(file: &Path) -> Result<String, Failure> {
    shared(file, Vec::new(), None)
}

fn shared(file: &Path, evidence: Vec<Evidence>, by: Option<&str>) -> Result<String, Failure> {
    let sheet = crate::given::sheet(Some(file))?;
    let by = by.map(str::to_owned);
    let shared = Shared { share: 1, by, at: today(), sha256: hash::of(&sheet), sheet: text(file)?, evidence };
    let json = serde_json::to_string_pretty(&shared).unwrap_or_default() + "\n";
    // What is written can be read: the same rules for both.
    parse(file, &json)?;
    Ok(json)
}

/// `sheet take`.
pub fn take(file: &Path, into: &Path, screen: Screen) -> Result<(), Failure> {
    let says = taken(file, &bounded(file)?, into)?;
    screen.line(&says)?;
    let path = into.display();
    screen.line(&format!(
        "Nothing of it gates yet. Read it beside the maker's text: standpipe sheet show {path}\nThen: standpipe sheet confirm {path} --by NAME"
    ))
}

/// Writes the sheet of a shared file, and what bears it out; nothing of it is confirmed. `file` names it in what is wrong.
///
/// # Errors
/// Where it was changed on the way, or cannot be written.
pub fn taken(file: &Path, json: &str, into: &Path) -> Result<String, Failure> {
    if into.exists() {
        return Err(exists(into));
    }
    let shared = parse(file, json)?;
    let mut table: toml::Table = shared.sheet.parse().map_err(|e: toml::de::Error| bad(file, e.message()))?;
    // What its own workshop had not confirmed is not, either.
    let was = table.get("unconfirmed").and_then(toml::Value::as_array).cloned().unwrap_or_default();
    let gates = GATES
        .iter()
        .filter(|key| table.contains_key(**key))
        .map(|key| toml::Value::String((*key).to_owned()));
    let all: Vec<toml::Value> = gates.chain(was).collect();
    table.insert("unconfirmed".to_owned(), toml::Value::Array(all));
    let interview = sheets::Interview::correct(&table.to_string()).map_err(|e| bad(file, &e.to_string()))?;
    let (text, sheet) = interview.sheet().map_err(|e| bad(file, &e.to_string()))?;
    let folder = beside(into, "evidence");
    if !shared.evidence.is_empty() {
        std::fs::create_dir(&folder).map_err(|e| Failure::file("make", &folder, &e))?;
        for one in &shared.evidence {
            create(&folder.join(&one.name), &one.text)?;
        }
    }
    create(into, &text)?;
    let from =
        shared.by.as_deref().map_or("a workshop that gives no name".to_owned(), |by| format!("{by:?}"));
    Ok(format!("{:?}, shared by {from} on {}: written to {}", sheet.name, shared.at, into.display()))
}

/// The sheet in a file: one of ours, or a shared one.
pub fn sheet_in(file: &Path) -> Result<Sheet, Failure> {
    let is_shared = std::fs::File::open(file).ok().is_some_and(|mut opened| {
        let mut first = [0_u8; 1];
        std::io::Read::read_exact(&mut opened, &mut first).is_ok() && first == *b"{"
    });
    if !is_shared {
        return crate::given::sheet(Some(file));
    }
    let shared = parse(file, &bounded(file)?)?;
    Sheet::parse(&shared.sheet).map_err(|e| bad(file, &e.to_string()))
}

fn bounded(file: &Path) -> Result<String, Failure> {
    let length = std::fs::metadata(file).map_err(|e| Failure::file("read", file, &e))?.len();
    if length > SHARE_LIMIT {
        return Err(bad(file, &format!("it is longer than {SHARE_LIMIT} bytes")));
    }
    text(file)
}

/// What is shared, whole and as it was written.
fn parse(file: &Path, json: &str) -> Result<Shared, Failure> {
    if json.len() as u64 > SHARE_LIMIT {
        return Err(bad(file, &format!("it is longer than {SHARE_LIMIT} bytes")));
    }
    let shared: Shared = serde_json::from_str(json).map_err(|e| bad(file, &e.to_string()))?;
    if shared.share != 1 {
        return Err(bad(file, "a newer program wrote it"));
    }
    let sheet = Sheet::parse(&shared.sheet).map_err(|e| bad(file, &e.to_string()))?;
    if hash::of(&sheet) != shared.sha256 {
        return Err(bad(file, "its sheet is not the one that was shared: the hash differs"));
    }
    let mut names = std::collections::BTreeSet::new();
    for one in &shared.evidence {
        if !is_name(&one.name) || !names.insert(one.name.to_lowercase()) {
            return Err(bad(
                file,
                "it names evidence that cannot be written: each needs a name of letters, digits, `-`, `_` and `.`, and its own",
            ));
        }
        if hash::text(&one.text) != one.sha256 {
            return Err(bad(file, &format!("{} is not what was shared: the hash differs", one.name)));
        }
    }
    if shared.evidence.len() > MOST_EVIDENCE {
        return Err(bad(file, &format!("it has more than {MOST_EVIDENCE} pieces of evidence")));
    }
    let named =
        shared.by.as_deref().is_none_or(|by| by.chars().count() <= WHO && events::text::check(by).is_ok());
    if !named || shared.at.chars().count() > WHEN || events::text::check(&shared.at).is_err() {
        return Err(bad(file, "who shared it, or when, cannot be shown"));
    }
    Ok(shared)
}

/// A name that climbs nowhere.
pub fn is_name(name: &str) -> bool {
    let good = |c: char| c.is_ascii_alphanumeric() || "-_.".contains(c);
    (1..=NAME).contains(&name.len()) && !name.starts_with('.') && name.chars().all(good)
}

fn bad(file: &Path, why: &str) -> Failure {
    Failure::new(Exit::Data, format!("the shared file {}: {why}", file.display()))
        .try_this("ask the other workshop to share it again with `standpipe sheet share`")
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic, reason = "test code")]
    use super::*;

    fn shared(name: &str) -> String {
        let sheet = super::super::TEMPLATE;
        let evidence =
            vec![Evidence { name: name.to_owned(), sha256: hash::text("t,c\n"), text: "t,c\n".to_owned() }];
        let sha256 = hash::of(&Sheet::parse(sheet).unwrap());
        let all = Shared {
            share: 1,
            by: Some("Quillan Lane".to_owned()),
            at: "2026-03-02".to_owned(),
            sha256,
            sheet: sheet.to_owned(),
            evidence,
        };
        serde_json::to_string(&all).unwrap()
    }

    #[test]
    fn what_was_changed_on_the_way_or_climbs_is_refused() {
        let file = Path::new("x.share");
        assert!(parse(file, &shared("warm-up.csv")).is_ok());
        let cases = [
            ("the sheet", shared("a.csv").replace("2400", "2500"), "the hash differs"),
            ("the evidence", shared("a.csv").replace("t,c\\n", "t,d\\n"), "the hash differs"),
            ("a name that climbs", shared("../a.csv"), "cannot be written"),
            ("a hidden file", shared(".profile"), "cannot be written"),
            ("a newer form", shared("a.csv").replace("\"share\":1", "\"share\":2"), "newer program"),
            ("no form of ours", "{}".to_owned(), "missing field"),
            (
                "an escape",
                shared("a.csv").replacen("\"by\":\"Quillan Lane\"", "\"by\":\"\\u001b[2J\"", 1),
                "cannot be shown",
            ),
        ];
        for (what, json, want) in cases {
            let failure = parse(file, &json).unwrap_err();
            assert!(failure.what.contains(want), "{what}: {}", failure.what);
        }
    }
}
