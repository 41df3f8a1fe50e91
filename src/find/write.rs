//! The sheet with the identifier that was found.
//!
//! In: what was found, the base sheet's file or none. Out: a new file. The base's own text stays as it is but for the lines of the identifier
//! and the signal; what was written is read again and must say the same. Without a base: answers that `sheet new` goes on with.
//! Not here: what is asked for a sheet (`sheet new`).

use std::io::Write as _;
use std::path::{Path, PathBuf};

use events::{FoundIdentifier, Identifier, Provenance, Seq, Sheet, Source, Utc};

use crate::failure::{Exit, Failure};
use crate::sheet::NOTE;

/// Where to, and after which sheet.
pub struct Writes {
    /// The new file.
    pub into: Option<PathBuf>,
    /// The sheet that the identifier is for.
    pub base: Option<PathBuf>,
}

impl Writes {
    /// Writes the sheet where one was asked for; what a person is told of it.
    ///
    /// # Errors
    /// Where the file cannot be made.
    pub fn write(&self, found: &FoundIdentifier, at: Utc, seq: Seq) -> Result<Option<String>, Failure> {
        let table = table(&found.identifier, &found.evidence(at, seq));
        let by_hand = || format!("Put this into the vehicle's sheet:\n\n{table}");
        let Some(into) = &self.into else { return Ok(Some(by_hand())) };
        let Some(base) = &self.base else {
            let kept = crate::sheet::ask::begin_with(into, &known(&table, found, at, seq))?;
            return Ok(Some(format!(
                "Kept in {}; it is no sheet yet.\nNow give the rest, from the maker's procedure: standpipe sheet new {}",
                kept.display(),
                into.display()
            )));
        };
        let text = std::fs::read_to_string(base).map_err(|e| Failure::file("read", base, &e))?;
        match joined(&text, found, at, seq)? {
            Some(text) => create(into, &text)?,
            None => return Ok(Some(by_hand())),
        }
        Ok(Some(format!("Written to {}.", into.display())))
    }
}

/// Writes the whole of a sheet, from its values.
///
/// # Errors
/// Where the file cannot be made.
pub fn of_sheet(
    base: &Sheet,
    found: &FoundIdentifier,
    (at, seq): (Utc, Seq),
    into: &Path,
) -> Result<(), Failure> {
    let plain = Sheet { identifier: None, ..base.clone() }.to_toml();
    match joined(&plain, found, at, seq)? {
        Some(text) => create(into, &text),
        None => Err(Failure::new(Exit::Software, "the sheet cannot be written with its identifier")),
    }
}

/// Never over a file that is there.
fn create(path: &Path, text: &str) -> Result<(), Failure> {
    let made = std::fs::OpenOptions::new().write(true).create_new(true).open(path);
    made.and_then(|mut file| file.write_all(text.as_bytes())).map_err(|e| {
        Failure::new(Exit::CannotCreate, format!("cannot write {}: {e}", path.display()))
            .try_this("name a new file in a folder that you may write to")
    })
}

/// The identifier as a sheet has it.
fn table(identifier: &Identifier, evidence: &str) -> String {
    let Identifier { service, id, header, byte, length, bytes, scale, offset, signed, little_endian } =
        identifier;
    let digits = if *service == 0x22 { 4 } else { 2 };
    let mut text = format!(
        "[identifier]\n# {evidence}\nservice = 0x{service:02X}\nid = 0x{id:0digits$X}\nheader = \"{header}\"\nbyte = {byte}\nlength = {length}\n"
    );
    if let Some(bytes) = bytes {
        text += &format!("bytes = {bytes}\n");
    }
    text += &format!("scale = {scale:?}\noffset = {offset:?}\n");
    if *signed {
        text += "signed = true\n";
    }
    if *little_endian {
        text += "little_endian = true\n";
    }
    text
}

/// The base's text with the identifier and its signal.
fn joined(text: &str, found: &FoundIdentifier, at: Utc, seq: Seq) -> Result<Option<String>, Failure> {
    let identifier = &found.identifier;
    let table = table(identifier, &found.evidence(at, seq));
    let (source, line) = provenance(found, at, seq);
    let base = Sheet::parse(text).map_err(|e| Failure::new(Exit::Data, format!("the sheet: {e}")))?;
    let mut out = String::with_capacity(text.len() + table.len());
    let mut section = "";
    let (mut placed, mut told) = (false, false);
    for text in text.lines() {
        let bare = text.trim();
        if bare.starts_with('[') {
            section = bare.split(']').next().unwrap_or_default();
            told |= section == "[provenance";
            if section != "[check" && !section.starts_with("[check.") && !placed {
                placed = true;
                out += &format!("{table}\n");
            }
        }
        if section == "[identifier" {
            continue;
        }
        let is = |key: &str| bare.strip_prefix(key).is_some_and(|rest| rest.trim_start().starts_with('='));
        if section == "[check" && is("k") {
            continue;
        }
        if section == "[check" && is("signal") {
            out += &gated();
        } else {
            out += &format!("{text}\n");
        }
        if bare.starts_with("[provenance]") {
            out += &line;
        }
    }
    if !placed {
        out += &format!("\n{table}");
    }
    if !told {
        out += &format!("\n[provenance]\n{line}");
    }
    // A text that is laid out in another way is left to its owner.
    let mut want = base.with_identifier(identifier);
    want.provenance.insert(KEY.to_owned(), source);
    Ok(Some(out).filter(|out| Sheet::parse(out).is_ok_and(|read| read == want)))
}

/// What the check goes by from now on.
fn gated() -> String {
    format!(
        "signal = \"fluid\"\nk = {:?}                   # found, not the maker's: a wider guard; lower it where the maker's table names it\n",
        Sheet::FOUND_K
    )
}

/// Whose provenance it is.
const KEY: &str = "identifier";

/// Where the identifier comes from, as a sheet says it.
fn provenance(found: &FoundIdentifier, at: Utc, seq: Seq) -> (Provenance, String) {
    let note: String = found.evidence(at, seq).chars().take(NOTE).collect();
    let (day, how) = (at.to_string(), Source::Found);
    let line = format!("\"{KEY}\" = {{ how = \"{}\", at = \"{day}\", note = \"{note}\" }}\n", how.word());
    (Provenance { how, at: Some(day), by: None, note: Some(note) }, line)
}

/// What is known where there is no sheet yet.
fn known(table: &str, found: &FoundIdentifier, at: Utc, seq: Seq) -> String {
    let (_, line) = provenance(found, at, seq);
    format!("[check]\n{}\n{table}\n[provenance]\n{line}", gated())
}

#[cfg(test)]
mod tests {
    use super::*;
    use units::{Celsius, Kelvins};

    fn found() -> FoundIdentifier {
        FoundIdentifier {
            identifier: Identifier {
                service: 0x22,
                id: 0x1234,
                header: "7E1".to_owned(),
                byte: 2,
                length: 2,
                bytes: None,
                scale: 0.1,
                offset: -40.0,
                signed: true,
                little_endian: false,
            },
            encoding: "ab-tenth-40".to_owned(),
            score: 0.998,
            span_kelvins: Kelvins::clamped(31.0),
            spot_celsius: Celsius::clamped(38.5),
            shown_celsius: Celsius::clamped(38.2),
            takes_over: true,
        }
    }

    #[test]
    fn every_sheet_of_the_fixtures_takes_an_identifier_and_keeps_all_else() {
        let (found, at, seq) = (found(), Utc::from_millis(0), Seq(7));
        let mut tried = 0;
        for entry in std::fs::read_dir("fixtures/sheets").unwrap().flatten() {
            let text = std::fs::read_to_string(entry.path()).unwrap_or_default();
            let Ok(base) = Sheet::parse(&text) else { continue };
            let written = joined(&text, &found, at, seq).unwrap().unwrap();
            let read = Sheet::parse(&written).unwrap();
            assert_eq!(read.source(KEY), Some(Source::Found));
            let want = base.with_identifier(&found.identifier);
            let same = Sheet { provenance: want.provenance.clone(), ..read };
            assert_eq!(same, want, "{:?}", entry.path());
            tried += 1;
        }
        assert!(tried >= 5, "{tried}");
    }

    #[test]
    fn what_was_found_without_a_sheet_is_taken_up_by_the_questions() {
        let folder = tempfile::tempdir().unwrap();
        let into = folder.path().join("new.toml");
        let writes = Writes { into: Some(into.clone()), base: None };
        let says = writes.write(&found(), Utc::from_millis(0), Seq(7)).unwrap().unwrap();
        assert!(says.contains("sheet new") && !into.exists(), "{says}");
        let draft = std::fs::read_to_string(folder.path().join("new.toml.draft")).unwrap();
        let mut interview = sheets::Interview::resume(serde_json::from_str(&draft).unwrap());
        let mut asked = Vec::new();
        for said in
            ["as the maker specifies", "35-45 C (maker)", "2,4 L", "skip", "skip", "skip", "skip", "skip"]
        {
            asked.extend(interview.asks().map(|asked| asked.key));
            interview.hear(said, "2026-03-02");
        }
        assert!(
            asked.iter().all(|key| !key.starts_with("identifier") && *key != "check.signal"),
            "what was found is not asked for: {asked:?}"
        );
        let (text, sheet) = interview.sheet().unwrap();
        assert_eq!(sheet.identifier.as_ref(), Some(&found().identifier), "{text}");
        assert_eq!((sheet.check.k, sheet.source(KEY)), (Sheet::FOUND_K, Some(Source::Found)));
        assert!(sheet.unconfirmed.is_empty() && !sheet.guessed.iter().any(|g| g.starts_with("identifier")));
        assert!(text.contains("event 7"), "{text}");
        // By a thermometer after all: its guard and its evidence go with it.
        interview.turn_to("check.signal").unwrap();
        interview.hear("spot", "2026-03-02");
        let (_, spot) = interview.sheet().unwrap();
        assert!(spot.identifier.is_none() && spot.check.k < 3.0 && !spot.provenance.contains_key(KEY));
    }

    #[test]
    fn answers_that_were_kept_stay_but_for_the_identifier() {
        let folder = tempfile::tempdir().unwrap();
        let into = folder.path().join("new.toml");
        let draft = folder.path().join("new.toml.draft");
        let mut interview = sheets::Interview::new("new");
        for said in ["as the maker specifies", "35-45 C (maker)", "2,4 L", "spot"] {
            interview.hear(said, "2026-03-02");
        }
        std::fs::write(&draft, serde_json::to_string(interview.draft()).unwrap()).unwrap();
        let writes = Writes { into: Some(into), base: None };
        writes.write(&found(), Utc::from_millis(0), Seq(7)).unwrap();
        let kept = std::fs::read_to_string(&draft).unwrap();
        let (_, sheet) = sheets::Interview::resume(serde_json::from_str(&kept).unwrap()).sheet().unwrap();
        assert_eq!(
            (sheet.check.signal, sheet.check.band_c, sheet.fluid.drain_ml),
            (events::Signal::Fluid, [35.0, 45.0], 2_400.0)
        );
    }

    #[test]
    fn a_file_that_is_there_is_left_alone() {
        let folder = tempfile::tempdir().unwrap();
        let into = folder.path().join("there.toml");
        std::fs::write(&into, "mine").unwrap();
        let base = Some(PathBuf::from("fixtures/sheets/demo-six-speed.toml"));
        let writes = Writes { into: Some(into.clone()), base };
        assert!(writes.write(&found(), Utc::from_millis(0), Seq(1)).is_err());
        assert_eq!(std::fs::read_to_string(into).unwrap(), "mine");
    }
}
