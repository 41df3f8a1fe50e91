//! The files that are given to us, sheets and recorded warm-ups, with errors that name the file.

use std::path::{Path, PathBuf};

use events::Sheet;
use rehearsal::Warmup;

use crate::failure::{Exit, Failure};

/// Reads the sheet at `path`, or the built-in demonstration where none is named.
pub fn sheet(path: Option<&Path>) -> Result<Sheet, Failure> {
    let Some(path) = path else { return Ok(rehearsal::embedded::six_speed()) };
    let text = text(path)?;
    Sheet::parse(&text).map_err(|e| {
        Failure::new(Exit::Data, format!("the sheet {}: {e}", path.display()))
            .try_this("compare with the commented example, fixtures/sheets/demo-six-speed.toml")
    })
}

/// The sheets that can be chosen: every `.toml` file of the folder, by name of the sheet, and the one that was named.
pub fn sheets(folder: Option<&Path>, named: &Sheet) -> Result<Vec<Sheet>, Failure> {
    let mut sheets = vec![named.clone()];
    let Some(folder) = folder else { return Ok(sheets) };
    let entries = std::fs::read_dir(folder).map_err(|e| Failure::file("read", folder, &e))?;
    for path in entries.flatten().map(|e| e.path()).filter(|p| p.extension().is_some_and(|e| e == "toml")) {
        let read = sheet(Some(&path))?;
        match sheets.iter().find(|s| s.name == read.name) {
            None => sheets.push(read),
            Some(same) if *same == read => {}
            Some(_) => {
                let what = format!("two sheets are named {:?}; one is {}", read.name, path.display());
                return Err(Failure::new(Exit::Data, what).try_this("give each sheet a name of its own"));
            }
        }
    }
    sheets.sort_by(|a, b| a.name.cmp(&b.name));
    Ok(sheets)
}

/// Reads a recorded warm-up.
pub fn warmup(path: &Path) -> Result<Warmup, Failure> {
    let text = text(path)?;
    Warmup::parse(&text).map_err(|e| {
        Failure::new(Exit::Data, format!("the recorded warm-up {}: {e}", path.display()))
            .try_this("it needs a header line with `t_s` and `coolant_c`; see fixtures/warmups/README.md")
    })
}

/// Reads a text file.
fn text(path: &Path) -> Result<String, Failure> {
    std::fs::read_to_string(path).map_err(|e| Failure::file("read", path, &e))
}

/// Names that are tried for a folder of our own before that is given up.
/// Own choice: one is free unless somebody lays folders there on purpose; then it says so.
const FOLDER_NAMES: u32 = 64;

/// A new folder for this process among the temporary files, mode 0700. One that is there already is somebody's.
pub fn own_folder(what: &str) -> Result<PathBuf, Failure> {
    own_folder_in(&std::env::temp_dir(), what)
}

fn own_folder_in(parent: &Path, what: &str) -> Result<PathBuf, Failure> {
    use std::os::unix::fs::DirBuilderExt as _;
    let mut tried = 0;
    loop {
        let path = parent.join(format!("standpipe-{what}-{}-{tried}", std::process::id()));
        match std::fs::DirBuilder::new().mode(0o700).create(&path) {
            Ok(()) => return Ok(path),
            Err(e) if e.kind() == std::io::ErrorKind::AlreadyExists && tried < FOLDER_NAMES => tried += 1,
            Err(e) => return Err(Failure::file("make", &path, &e)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::os::unix::fs::PermissionsExt as _;

    #[test]
    fn a_folder_that_is_there_already_is_not_taken_for_our_own() {
        let parent = tempfile::tempdir().unwrap();
        let first = own_folder_in(parent.path(), "car").unwrap();
        let second = own_folder_in(parent.path(), "car").unwrap();
        assert_ne!(first, second);
        assert_eq!(first.metadata().unwrap().permissions().mode() & 0o777, 0o700);
        std::os::unix::fs::symlink(
            parent.path(),
            parent.path().join(format!("standpipe-car-{}-2", std::process::id())),
        )
        .unwrap();
        assert!(
            own_folder_in(parent.path(), "car")
                .unwrap()
                .ends_with(format!("standpipe-car-{}-3", std::process::id()))
        );
    }
}
