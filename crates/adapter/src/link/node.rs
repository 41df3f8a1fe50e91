//! What can be found out about a device node: its group, and who holds it.
//!
//! In: a path. Out: [`Node`]. Every fact is optional: what cannot be read is left out, never guessed.
//! Not here: the message made of it (`error.rs`).

use std::fs;
use std::os::unix::fs::{FileTypeExt, MetadataExt};
use std::path::Path;

/// What is known about a device node.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Node {
    /// The name of the group that it belongs to.
    pub group: Option<String>,
    /// Another process that has it open.
    pub holder: Option<Holder>,
    /// Whether it is a terminal of some kind.
    pub(crate) terminal: bool,
}

/// A process that has a device open.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Holder {
    /// Its number.
    pub pid: u32,
    /// Its name.
    pub name: String,
}

impl Node {
    /// Looks at `path` on this system.
    pub fn look(path: &Path) -> Self {
        let Ok(meta) = fs::metadata(path) else { return Self::default() };
        let groups = fs::read_to_string("/etc/group").unwrap_or_default();
        Self {
            group: group_name(&groups, meta.gid()),
            holder: holder(Path::new("/proc"), path, std::process::id()),
            terminal: meta.file_type().is_char_device() && is_terminal(path),
        }
    }

    /// Whether it is a terminal of some kind; everything else is no serial port.
    pub const fn is_terminal(&self) -> bool {
        self.terminal
    }
}

/// Whether the node can be asked like a terminal. What cannot be opened to ask gets the benefit of the doubt.
fn is_terminal(path: &Path) -> bool {
    use rustix::fs::{Mode, OFlags};
    let flags = OFlags::RDWR | OFlags::NOCTTY | OFlags::NONBLOCK | OFlags::CLOEXEC;
    rustix::fs::open(path, flags, Mode::empty()).map_or(true, rustix::termios::isatty)
}

/// The name of group `gid` in the text of `/etc/group`.
fn group_name(groups: &str, gid: u32) -> Option<String> {
    groups.lines().find_map(|line| {
        let mut fields = line.split(':');
        let name = fields.next()?;
        let number = fields.nth(1)?;
        (number.parse() == Ok(gid)).then(|| name.to_owned())
    })
}

/// A process under `proc`, other than `us`, one of whose open files is `device`.
fn holder(proc: &Path, device: &Path, us: u32) -> Option<Holder> {
    let device = fs::canonicalize(device).ok()?;
    let processes = fs::read_dir(proc).ok()?.flatten();
    processes
        .filter_map(|entry| Some((entry.file_name().to_str()?.parse::<u32>().ok()?, entry.path())))
        .filter(|(pid, _)| *pid != us)
        .find(|(_, path)| {
            let Ok(open) = fs::read_dir(path.join("fd")) else { return false };
            open.flatten().any(|entry| fs::read_link(entry.path()).is_ok_and(|to| to == device))
        })
        .map(|(pid, path)| {
            let name = fs::read_to_string(path.join("comm")).unwrap_or_default();
            Holder { pid, name: name.trim().to_owned() }
        })
}

#[cfg(test)]
mod tests {
    use std::os::unix::fs::symlink;

    use super::*;

    #[test]
    fn a_group_is_found_by_its_number() {
        let groups = "root:x:0:\ndialout:x:20:ann,bob\nbroken line\nuucp:x:14:\n";
        assert_eq!(group_name(groups, 20).as_deref(), Some("dialout"));
        assert_eq!(group_name(groups, 14).as_deref(), Some("uucp"));
        assert_eq!(group_name(groups, 99), None);
    }

    #[test]
    fn the_process_that_holds_a_device_is_named() {
        let dir = tempfile::tempdir().unwrap();
        let (proc, device) = (dir.path().join("proc"), dir.path().join("ttyUSB0"));
        fs::write(&device, "").unwrap();
        let device = fs::canonicalize(&device).unwrap();
        for (pid, name, target) in [(7, "shell", "/dev/null"), (812, "othertool", device.to_str().unwrap())] {
            let fd = proc.join(pid.to_string()).join("fd");
            fs::create_dir_all(&fd).unwrap();
            fs::write(proc.join(pid.to_string()).join("comm"), format!("{name}\n")).unwrap();
            symlink(target, fd.join("3")).unwrap();
        }
        fs::create_dir_all(proc.join("sys")).unwrap();
        let found = holder(&proc, &device, 1);
        assert_eq!(found, Some(Holder { pid: 812, name: "othertool".to_owned() }));
        assert_eq!(holder(&proc, &device, 812), None, "we do not name ourselves");
        assert_eq!(holder(&proc, &dir.path().join("gone"), 1), None);
    }
}
