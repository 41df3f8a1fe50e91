//! Sheets that are written while the daemon runs: read again where a file has changed.
//!
//! In: the named sheet's file, a folder. Out: all sheets that can be chosen, each time that they are others. A thread of its own reads
//! the disk, so that no reading and no verdict waits for it. Not here: what the daemon makes of them (`service`), what a sheet may
//! say (`events`).

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use events::Sheet;
use tokio::sync::watch::{Receiver, Sender, channel};

use crate::failure::{Exit, Failure};
use crate::given::{self, Offered};
use crate::screen::say;

/// Looked at so often. Own choice: a person who writes a sheet goes to the vehicle afterwards.
const EVERY: Duration = Duration::from_secs(2);

/// A thread that looks for changes until nobody wants them any more.
pub fn watch(
    file: Option<PathBuf>,
    folder: Option<PathBuf>,
    named: Sheet,
    offered: Offered,
) -> Result<Receiver<Vec<Sheet>>, Failure> {
    let (sender, receiver) = channel(offered.sheets.clone());
    let mut shelf =
        Shelf { seen: Stamps::of(file.as_deref(), folder.as_deref()), file, folder, named, offered };
    std::thread::Builder::new()
        .name("sheets".to_owned())
        .spawn(move || shelf.keep_looking(&sender))
        .map_err(|e| Failure::new(Exit::Software, format!("cannot look for changed sheets: {e}")))?;
    Ok(receiver)
}

/// When each file was written, and how long it is.
#[derive(Debug, Default, PartialEq, Eq)]
struct Stamps(BTreeMap<PathBuf, (Option<SystemTime>, u64)>);

impl Stamps {
    fn of(file: Option<&Path>, folder: Option<&Path>) -> Self {
        let listed = folder.and_then(|folder| std::fs::read_dir(folder).ok());
        let listed = listed.into_iter().flatten().flatten().map(|entry| entry.path());
        let sheets = listed.filter(|path| path.extension().is_some_and(|e| e == "toml"));
        let known = file.map(Path::to_path_buf).into_iter().chain(sheets).filter_map(|path| {
            let of = std::fs::metadata(&path).ok()?;
            Some((path, (of.modified().ok(), of.len())))
        });
        Self(known.collect())
    }
}

struct Shelf {
    file: Option<PathBuf>,
    folder: Option<PathBuf>,
    /// The named sheet as it was read last.
    named: Sheet,
    seen: Stamps,
    offered: Offered,
}

impl Shelf {
    fn keep_looking(&mut self, sender: &Sender<Vec<Sheet>>) {
        while !sender.is_closed() {
            std::thread::sleep(EVERY);
            if let Some(sheets) = self.look() {
                sender.send_replace(sheets);
            }
        }
    }

    /// What can be chosen, where that is something else than before.
    fn look(&mut self) -> Option<Vec<Sheet>> {
        let seen = Stamps::of(self.file.as_deref(), self.folder.as_deref());
        if seen == self.seen {
            return None;
        }
        self.seen = seen;
        if let Some(file) = &self.file {
            match given::sheet(Some(file)) {
                Ok(sheet) => self.named = sheet,
                // It may be half written: the one from before counts, and that is said.
                Err(why) => say(&format!("not taken: {}; the sheet stays as it was", why.what)),
            }
        }
        let folder = self.folder.as_deref().filter(|folder| folder.is_dir());
        let offered = given::sheets(folder, &self.named).ok()?;
        let new = offered.left_out.iter().filter(|why| !self.offered.left_out.contains(why));
        new.for_each(|why| say(why));
        let changed = offered.sheets != self.offered.sheets;
        self.offered = offered;
        changed.then(|| self.offered.sheets.clone())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_is_offered_and_what_is_half_written_changes_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let sheets = folder.path().join("sheets");
        let file = folder.path().join("named.toml");
        let named = rehearsal::embedded::six_speed();
        std::fs::write(&file, named.to_toml()).unwrap();
        let offered = given::sheets(None, &named).unwrap();
        let seen = Stamps::of(Some(&file), Some(&sheets));
        let mut shelf = Shelf {
            seen,
            file: Some(file.clone()),
            folder: Some(sheets.clone()),
            named: named.clone(),
            offered,
        };
        assert_eq!(shelf.look(), None, "nothing was written");
        std::fs::create_dir(&sheets).unwrap();
        let other = Sheet { name: "another".to_owned(), ..named.clone() };
        std::fs::write(sheets.join("another.toml"), other.to_toml()).unwrap();
        let names = |all: Vec<Sheet>| all.into_iter().map(|sheet| sheet.name).collect::<Vec<_>>();
        assert_eq!(shelf.look().map(names), Some(vec![named.name.clone(), "another".to_owned()]));
        std::fs::write(&file, "sheet = 1\n").unwrap();
        assert_eq!(shelf.look(), None, "the one from before counts");
        let mut changed = named;
        changed.fluid.drain_ml += 100.0;
        std::fs::write(&file, changed.to_toml()).unwrap();
        assert!(shelf.look().is_some_and(|all| all.contains(&changed)));
    }
}
