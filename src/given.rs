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

/// The sheets that can be chosen, and what was left out.
#[derive(Debug, Default, PartialEq)]
pub struct Offered {
    /// By their names, which are all different.
    pub sheets: Vec<Sheet>,
    /// Why others are not among them, one sentence each.
    pub left_out: Vec<String>,
}

/// The sheets that can be chosen: every `.toml` file of the folder, by name of the sheet, and the one that was named. A file that is no
/// sheet is left out. So are two of one name that say different things: nobody could know which one he gates by. The one that was
/// named stays.
pub fn sheets(folder: Option<&Path>, named: &Sheet) -> Result<Offered, Failure> {
    let mut offered = Offered { sheets: vec![named.clone()], left_out: Vec::new() };
    let Some(folder) = folder else { return Ok(offered) };
    let entries = std::fs::read_dir(folder).map_err(|e| Failure::file("read", folder, &e))?;
    let mut files: Vec<PathBuf> = entries.flatten().map(|e| e.path()).collect();
    files.retain(|path| path.extension().is_some_and(|e| e == "toml"));
    files.sort();
    let mut read: Vec<(PathBuf, Sheet)> = Vec::new();
    for path in files {
        match sheet(Some(&path)) {
            Ok(one) => read.push((path, one)),
            Err(why) => offered.left_out.push(format!("left out: {}", why.what)),
        }
    }
    for (path, one) in &read {
        let others = || read.iter().filter(|(other, same)| other != path && same.name == one.name);
        if one.name == named.name {
            if one != named {
                let why =
                    format!("left out: {} has the name of the sheet in use, {:?}", path.display(), one.name);
                offered.left_out.push(why);
            }
        } else if let Some((other, _)) = others().find(|(_, same)| same != one) {
            let (a, b) = (path.display(), other.display());
            offered.left_out.push(format!(
                "left out: {a}, for {b} is named {:?}, too, and says something else",
                one.name
            ));
        } else if offered.sheets.iter().all(|known| known.name != one.name) {
            offered.sheets.push(one.clone());
        }
    }
    offered.sheets.sort_by(|a, b| a.name.cmp(&b.name));
    Ok(offered)
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
    fn two_sheets_of_one_name_are_both_left_out_and_said_but_for_the_one_in_use() {
        let folder = tempfile::tempdir().unwrap();
        let named = rehearsal::embedded::six_speed();
        let write =
            |file: &str, sheet: &Sheet| std::fs::write(folder.path().join(file), sheet.to_toml()).unwrap();
        let other = |name: &str, ml: f64| {
            let mut sheet = Sheet { name: name.to_owned(), ..named.clone() };
            sheet.fluid.drain_ml = ml;
            sheet
        };
        write("a.toml", &other("twice", 2_000.0));
        write("b.toml", &other("twice", 2_100.0));
        write("c.toml", &other("same", 2_200.0));
        write("d.toml", &other("same", 2_200.0));
        write("e.toml", &other(&named.name, 2_300.0));
        std::fs::write(folder.path().join("f.toml"), "sheet = 1").unwrap();
        let offered = sheets(Some(folder.path()), &named).unwrap();
        let names: Vec<&str> = offered.sheets.iter().map(|sheet| sheet.name.as_str()).collect();
        assert_eq!(names, [named.name.as_str(), "same"]);
        assert_eq!(offered.sheets[0], named);
        let said = offered.left_out.join("\n");
        assert!(["a.toml", "b.toml", "e.toml", "f.toml"].iter().all(|file| said.contains(file)), "{said}");
    }

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
