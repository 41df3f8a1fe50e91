//! Files and folders around the database: made for us alone, synced with the folder that names them, known again by their identity.
//!
//! In: paths. Out: what the system says. Not here: the database's own writing, which is SQLite's.

use std::fs::File;
use std::io;
use std::os::unix::fs::{DirBuilderExt as _, MetadataExt as _, OpenOptionsExt as _};
use std::path::{Path, PathBuf};

/// Makes a folder with its parents, for us alone; one that is there stays as it is.
pub(crate) fn make_folder(folder: &Path) -> io::Result<()> {
    std::fs::DirBuilder::new().recursive(true).mode(0o700).create(folder)
}

/// Makes an empty file for us alone; one that is there stays as it is.
///
/// It opens and closes the file. Closing any descriptor of a file lets go of the locks that this process holds on it, those of
/// SQLite too: never where a connection may be open.
pub(crate) fn make_private(path: &Path) -> io::Result<()> {
    match private().open(path) {
        Err(e) if e.kind() == io::ErrorKind::AlreadyExists => Ok(()),
        made => made.map(drop),
    }
}

/// To make a new file for us alone.
pub(crate) fn private() -> std::fs::OpenOptions {
    let mut options = File::options();
    options.create_new(true).write(true).mode(0o600);
    options
}

/// Waits until a file is on the disk.
pub(crate) fn sync(file: &File) -> io::Result<()> {
    file.sync_all()
}

/// Waits until the names in a folder are on the disk.
pub(crate) fn sync_folder_of(path: &Path) -> io::Result<()> {
    let folder = path.parent().filter(|f| !f.as_os_str().is_empty()).unwrap_or_else(|| Path::new("."));
    sync(&File::open(folder)?)
}

/// The file that SQLite keeps beside `path`.
pub(crate) fn joined(path: &Path, tail: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(tail);
    PathBuf::from(name)
}

/// Removes a file; that it is not there is as good.
pub(crate) fn remove(path: &Path) -> io::Result<()> {
    match std::fs::remove_file(path) {
        Err(e) if e.kind() == io::ErrorKind::NotFound => Ok(()),
        done => done,
    }
}

/// How long a file is; 0 where there is none.
pub(crate) fn length(path: &Path) -> io::Result<u64> {
    match std::fs::metadata(path) {
        Ok(file) => Ok(file.len()),
        Err(e) if e.kind() == io::ErrorKind::NotFound => Ok(0),
        Err(e) => Err(e),
    }
}

/// Which file it is, whatever it is called.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Identity {
    device: u64,
    inode: u64,
}

impl Identity {
    pub(crate) fn of(path: &Path) -> io::Result<Self> {
        let file = std::fs::metadata(path)?;
        Ok(Self { device: file.dev(), inode: file.ino() })
    }

    /// Whether the name still leads to this file.
    pub(crate) fn is_at(self, path: &Path) -> bool {
        Self::of(path).is_ok_and(|found| found == self)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::os::unix::fs::PermissionsExt as _;

    fn mode(path: &Path) -> u32 {
        std::fs::metadata(path).unwrap().permissions().mode() & 0o777
    }

    #[test]
    fn what_we_make_is_ours_alone_and_what_is_there_stays() {
        let folder = tempfile::tempdir().unwrap();
        let made = folder.path().join("state/standpipe");
        make_folder(&made).unwrap();
        assert_eq!((mode(&made), mode(made.parent().unwrap())), (0o700, 0o700));
        let file = made.join("file");
        make_private(&file).unwrap();
        assert_eq!(mode(&file), 0o600);
        std::fs::write(&file, "kept").unwrap();
        std::fs::set_permissions(&file, std::fs::Permissions::from_mode(0o640)).unwrap();
        std::fs::set_permissions(&made, std::fs::Permissions::from_mode(0o750)).unwrap();
        make_private(&file).unwrap();
        make_folder(&made).unwrap();
        assert_eq!((mode(&file), mode(&made)), (0o640, 0o750));
        assert_eq!(std::fs::read_to_string(&file).unwrap(), "kept");
        assert_eq!((length(&file).unwrap(), length(&made.join("none")).unwrap()), (4, 0));
        assert!(make_private(&made.join("no/such")).is_err());
    }

    #[test]
    fn a_file_is_known_again_by_what_it_is_and_not_by_its_name() {
        let folder = tempfile::tempdir().unwrap();
        let (a, b) = (folder.path().join("a"), folder.path().join("b"));
        make_private(&a).unwrap();
        let identity = Identity::of(&a).unwrap();
        assert!(identity.is_at(&a));
        std::fs::rename(&a, &b).unwrap();
        make_private(&a).unwrap();
        assert!(!identity.is_at(&a) && identity.is_at(&b));
        remove(&b).unwrap();
        remove(&b).unwrap();
        assert!(!identity.is_at(&b));
    }
}
