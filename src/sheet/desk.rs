//! Sheets that are made and corrected on the phone page: the same questions, read and checked by the same machine.
//!
//! In: a file's name, a value's key, what was typed. Out: the next question as JSON; the draft and the sheet are files of one folder.
//! Not here: who may ask (`page`), the questions (`sheets`).

use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use page::{SheetAct, SheetAsk, SheetRow};
use serde::Serialize;
use sheets::{AnswerOutcome, Asked, Draft, Interview, Row};
use units::text::UnitSystem;

use super::{beside, change, create, keep, replace, share, text, today};
use crate::failure::Failure;

/// So many sheets and drafts are kept for the page.
/// Own choice: a list that a telephone shows; each is read when it is opened.
const MOST: usize = 100;
/// A draft is no longer than this.
/// Own choice: twenty times the longest sheet; it is read whole.
const DRAFT_LIMIT: u64 = 256 * 1024;
/// So many characters of a value that no question asks for are shown. Own choice: a chart of a gauge has 300.
const SHOWN: usize = 400;

/// The folder of the page's sheets.
pub struct Desk {
    folder: PathBuf,
    /// One answer at a time: each reads what the one before it wrote.
    turn: Mutex<()>,
}

/// A draft as the page shows it: what is asked, what came of the last answer, all rows.
#[derive(Serialize)]
struct DraftView {
    #[serde(skip_serializing_if = "Option::is_none")]
    asked: Option<Asked>,
    #[serde(skip_serializing_if = "Option::is_none")]
    heard: Option<AnswerOutcome>,
    written: bool,
    can_write: bool,
    rows: Vec<Row>,
    #[serde(skip_serializing_if = "Option::is_none")]
    most: Option<String>,
    /// Values of the sheet that nobody has confirmed.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    to_confirm: Vec<ToConfirm>,
    /// The file for another workshop.
    #[serde(skip_serializing_if = "Option::is_none")]
    shared: Option<String>,
    /// The sheet can be shared.
    can_share: bool,
    /// What was done.
    #[serde(skip_serializing_if = "Option::is_none")]
    done: Option<String>,
}

/// A value that nobody has confirmed.
#[derive(Serialize)]
struct ToConfirm {
    key: String,
    label: String,
    shown: String,
    /// Nobody can confirm a guess: it must be given.
    guessed: bool,
}

impl Desk {
    pub fn at(folder: PathBuf) -> Self {
        Self { folder, turn: Mutex::new(()) }
    }

    /// The sheets and drafts there are.
    pub fn list(&self) -> Result<Vec<SheetRow>, String> {
        if !self.folder.exists() {
            return Ok(Vec::new());
        }
        let entries =
            std::fs::read_dir(&self.folder).map_err(|e| format!("The sheets cannot be read: {e}."))?;
        let mut out: Vec<SheetRow> = Vec::new();
        for path in entries.flatten().map(|entry| entry.path()) {
            let name = path.file_name().map_or(String::new(), |name| name.to_string_lossy().into_owned());
            let (file, is_draft) = match (name.strip_suffix(".toml"), name.strip_suffix(".toml.draft")) {
                (Some(file), _) => (file, false),
                (None, Some(file)) => (file, true),
                (None, None) => continue,
            };
            if !share::is_name(file) || (!is_draft && beside(&path, "draft").exists()) {
                continue;
            }
            let says = if is_draft { "begun".to_owned() } else { says(&path) };
            out.push(SheetRow { file: file.to_owned(), says });
        }
        out.sort_by(|a, b| a.file.cmp(&b.file));
        out.truncate(MOST);
        Ok(out)
    }

    /// Takes an answer, or asks for a value; gives what is asked now.
    pub fn ask(&self, ask: &SheetAsk, units: UnitSystem) -> Result<String, String> {
        if !share::is_name(&ask.file) {
            return Err("A name has letters, digits, - and _, 1 to 80 of them.".to_owned());
        }
        let _turn = self.turn.lock().unwrap_or_else(PoisonError::into_inner);
        let sheet = self.folder.join(format!("{}.toml", ask.file));
        let draft = beside(&sheet, "draft");
        let said = |e: Failure| format!("{}.", e.what);
        if !sheet.exists() && !draft.exists() && self.list()?.len() >= MOST {
            return Err(format!("There are {MOST} sheets already."));
        }
        let (mut done, mut shared) = (None, None);
        match &ask.act {
            Some(SheetAct::Take { text }) => {
                self.make_folder()?;
                if sheet.exists() || draft.exists() {
                    return Err("There is one of that name. Choose another name.".to_owned());
                }
                share::taken(Path::new(&ask.file), text, &sheet).map_err(said)?;
                done = Some("Taken. Nothing of it gates yet.".to_owned());
            }
            Some(SheetAct::Confirm { key, by }) => {
                if draft.exists() {
                    return Err("It is being corrected. Write it first, then confirm.".to_owned());
                }
                let old = text(&sheet).map_err(said)?;
                let (new, _) = change::confirmed(&old, std::slice::from_ref(key), by)
                    .map_err(|why| format!("Not confirmed: {why}."))?;
                replace(&sheet, &new).map_err(said)?;
                done = Some(format!("{key}: confirmed by {by}."));
            }
            Some(SheetAct::Share) => shared = Some(share::alone(&sheet).map_err(said)?),
            None => {}
        }
        let mut interview = begun(&ask.file, &sheet, &draft)?;
        if let Some(key) = ask.key.as_deref()
            && interview.asks().is_none_or(|asked| asked.key != key)
            && interview.turn_to(key).is_err()
        {
            return Err("That is not asked for with the other answers as they are.".to_owned());
        }
        let heard = ask.said.as_deref().map(|words| interview.hear(words, &today()));
        let written = heard == Some(AnswerOutcome::Written);
        let (whole, parsed) = interview.sheet().map_err(|e| e.to_string())?;
        if heard.is_some() {
            self.make_folder()?;
        }
        if written {
            match text(&sheet) {
                Ok(old) => replace(&sheet, &keep::joined(&old, &whole)),
                Err(_) => create(&sheet, &whole),
            }
            .map_err(said)?;
            std::fs::remove_file(&draft).ok();
        } else if heard.is_some() {
            replace(&draft, &serde_json::to_string(interview.draft()).unwrap_or_default()).map_err(said)?;
        }
        let rows = interview.rows(units);
        // What was begun is confirmed once it is written.
        let is_whole = sheet.exists() && !draft.exists();
        let to_confirm = if is_whole { to_confirm(&sheet, &rows)? } else { Vec::new() };
        let state = DraftView {
            asked: interview.asks(),
            heard,
            written,
            can_write: interview.can_write(),
            rows,
            most: sheets::look(&parsed).most(),
            to_confirm,
            shared,
            can_share: is_whole,
            done,
        };
        serde_json::to_string(&state).map_err(|e| e.to_string())
    }

    fn make_folder(&self) -> Result<(), String> {
        std::fs::create_dir_all(&self.folder)
            .map_err(|e| format!("The folder of the sheets cannot be made: {e}."))
    }
}

/// The values of a written sheet that nobody has confirmed, as people read them.
fn to_confirm(path: &Path, rows: &[Row]) -> Result<Vec<ToConfirm>, String> {
    let text = text(path).map_err(|e| format!("{}.", e.what))?;
    let sheet = events::Sheet::parse(&text).map_err(|e| e.to_string())?;
    let table: toml::Table = text.parse().map_err(|e: toml::de::Error| e.message().to_owned())?;
    let shown = |key: &str| {
        let row = rows.iter().find(|row| row.key == key);
        row.map(|row| (row.label.to_owned(), row.shown.clone())).unwrap_or_else(|| {
            let mut path = key.split('.');
            let first = path.next().and_then(|key| table.get(key));
            let value = path.fold(first, |value, key| value?.get(key));
            let value = value.map_or(String::new(), ToString::to_string);
            (key.to_owned(), value.chars().take(SHOWN).collect())
        })
    };
    let keys = change::one_by_one(&sheet, &table).into_iter();
    Ok(keys
        .map(|key| {
            let (label, shown) = shown(&key);
            ToConfirm { label, shown, guessed: key.contains('.') && sheet.is_guessed(&key), key }
        })
        .collect())
}

fn says(path: &Path) -> String {
    match crate::given::sheet(Some(path)) {
        Ok(sheet) if !sheet.unconfirmed.is_empty() => format!("{}, not confirmed", sheet.name),
        Ok(sheet) => sheet.name,
        Err(_) => "cannot be used".to_owned(),
    }
}

/// What was kept is taken up again; else the sheet is corrected; else a new one begins.
fn begun(name: &str, sheet: &Path, draft: &Path) -> Result<Interview, String> {
    let said = |e: Failure| format!("{}.", e.what);
    if draft.exists() {
        if std::fs::metadata(draft).is_ok_and(|of| of.len() > DRAFT_LIMIT) {
            return Err("What was kept is too long to be read.".to_owned());
        }
        let kept: Draft = serde_json::from_str(&text(draft).map_err(said)?)
            .map_err(|e| format!("What was kept cannot be read: {e}."))?;
        return Ok(Interview::resume(kept));
    }
    if sheet.exists() {
        return Interview::correct(&text(sheet).map_err(said)?).map_err(|e| e.to_string());
    }
    Ok(Interview::new(name))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "test code")]
    use super::*;
    use serde_json::Value;

    fn ask(desk: &Desk, key: Option<&str>, said: Option<&str>) -> Result<Value, String> {
        let ask = SheetAsk {
            file: "old-six".to_owned(),
            key: key.map(str::to_owned),
            said: said.map(str::to_owned),
            act: None,
        };
        desk.ask(&ask, UnitSystem::Metric).map(|json| serde_json::from_str(&json).unwrap())
    }

    #[test]
    fn a_sheet_is_made_written_and_corrected_one_answer_at_a_time() {
        let folder = tempfile::tempdir().unwrap();
        let desk = Desk::at(folder.path().join("sheets"));
        assert_eq!(ask(&desk, None, None).unwrap()["asked"]["key"], "fluid.type");
        assert!(!folder.path().join("sheets").exists(), "a look writes nothing");
        ask(&desk, Some("fluid.type"), Some("as specified")).unwrap();
        let bad = ask(&desk, Some("check.band_c"), Some("warm")).unwrap();
        assert_eq!(
            (bad["heard"]["heard"].as_str(), bad["asked"]["key"].as_str()),
            (Some("again"), Some("check.band_c"))
        );
        ask(&desk, Some("check.band_c"), Some("95-113 F")).unwrap();
        assert_eq!(desk.list().unwrap()[0].says, "begun");
        // The same answer told twice, as a phone does that lost contact, changes nothing.
        ask(&desk, Some("check.band_c"), Some("95-113 F")).unwrap();
        let third = ask(&desk, Some("fluid.drain_ml"), Some("2,4 L")).unwrap();
        assert_eq!(third["can_write"], true);
        assert_eq!(ask(&desk, None, Some("done")).unwrap()["written"], true);
        let path = folder.path().join("sheets/old-six.toml");
        let sheet = crate::given::sheet(Some(&path)).unwrap();
        assert_eq!((sheet.check.band_c, sheet.fluid.drain_ml), ([35.0, 45.0], 2_400.0));
        // Corrected: one value, and written again.
        assert!(ask(&desk, None, None).unwrap()["asked"].is_null());
        ask(&desk, Some("fluid.drain_ml"), Some("2.5 L (measured)")).unwrap();
        assert_eq!(
            crate::given::sheet(Some(&path)).unwrap().fluid.drain_ml,
            2_400.0,
            "not before it is written"
        );
        ask(&desk, None, Some("done")).unwrap();
        assert_eq!(crate::given::sheet(Some(&path)).unwrap().fluid.drain_ml, 2_500.0);
    }

    #[test]
    fn what_is_shared_is_taken_and_confirmed_value_by_value() {
        let folder = tempfile::tempdir().unwrap();
        let desk = Desk::at(folder.path().to_owned());
        let act = |file: &str, act: SheetAct| {
            let ask = SheetAsk { file: file.to_owned(), act: Some(act), ..SheetAsk::default() };
            desk.ask(&ask, UnitSystem::Metric).map(|json| serde_json::from_str::<Value>(&json).unwrap())
        };
        std::fs::write(folder.path().join("ours.toml"), rehearsal::embedded::six_speed().to_toml()).unwrap();
        let text = act("ours", SheetAct::Share).unwrap()["shared"].as_str().unwrap().to_owned();
        let taken = act("theirs", SheetAct::Take { text: text.clone() }).unwrap();
        let path = folder.path().join("theirs.toml");
        let unconfirmed = || crate::given::sheet(Some(&path)).unwrap().unconfirmed;
        assert!(taken["done"].as_str().unwrap().contains("Nothing of it gates"), "{taken}");
        assert!(!unconfirmed().is_empty());
        assert!(act("theirs", SheetAct::Take { text }).unwrap_err().contains("of that name"));
        assert!(act("other", SheetAct::Take { text: "{}".to_owned() }).is_err());
        let all: Vec<String> = taken["to_confirm"]
            .as_array()
            .unwrap()
            .iter()
            .map(|one| one["key"].as_str().unwrap().to_owned())
            .collect();
        assert!(all.len() > 10 && all.contains(&"check.band_c".to_owned()), "{all:?}");
        let confirm =
            |key: &str, by: &str| act("theirs", SheetAct::Confirm { key: key.to_owned(), by: by.to_owned() });
        assert!(confirm("check.band_c", " ").is_err(), "somebody says so, or nobody");
        for key in &all {
            assert!(!unconfirmed().is_empty(), "not before the last one");
            confirm(key, "K").unwrap_or_else(|why| panic!("{key}: {why}"));
        }
        assert!(unconfirmed().is_empty(), "{:?}", unconfirmed());
        assert!(confirm("check.band_c", "K").is_err(), "once");
    }

    #[test]
    fn a_name_that_climbs_is_none() {
        let folder = tempfile::tempdir().unwrap();
        let desk = Desk::at(folder.path().to_owned());
        for file in ["../x", "", ".x", "a/b", "a b"] {
            let ask = SheetAsk { file: file.to_owned(), said: Some("x".to_owned()), ..SheetAsk::default() };
            assert!(desk.ask(&ask, UnitSystem::Metric).is_err(), "{file}");
        }
    }
}
