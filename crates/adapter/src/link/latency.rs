//! The waiting of a USB serial chip: how long it holds short reads back.
//!
//! In: a device node. Out: [`Latency`], and where the system lets us, a shorter one. The chips of one maker hold what
//! they have received for 16 ms unless a full packet has come; that is half of an exchange.
//! Written through the driver's own file, which belongs to the superuser unless a udev rule gives it away. (The other way,
//! `TIOCSSERIAL`, needs an `ioctl` that no library offers without a C toolchain at build time.)
//! Source: section 14 of the dialect reference.

use std::fs;
use std::path::{Path, PathBuf};

/// What can be said about the waiting of a port's chip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Latency {
    /// It waits so many ms, and we may not change it.
    Fixed(u32),
    /// It waits 1 ms.
    Short,
}

/// What the chip behind `path` is set to; `None` where it has no such setting.
pub fn latency(path: &Path) -> Option<Latency> {
    read(&file(Path::new("/sys"), path)?)
}

/// Sets the chip behind `path` to 1 ms if that is allowed.
pub(super) fn shorten(path: &Path) {
    shorten_in(Path::new("/sys"), path);
}

fn shorten_in(sys: &Path, path: &Path) -> Option<Latency> {
    let file = file(sys, path)?;
    if read(&file) != Some(Latency::Short) {
        match fs::write(&file, "1") {
            Ok(()) => tracing::debug!(file = %file.display(), "the chip waits 1 ms from now on"),
            Err(e) => {
                tracing::debug!(file = %file.display(), error = %e, "the chip's waiting stays as it is")
            }
        }
    }
    read(&file)
}

fn file(sys: &Path, path: &Path) -> Option<PathBuf> {
    let real = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let file = sys.join("bus/usb-serial/devices").join(real.file_name()?).join("latency_timer");
    file.exists().then_some(file)
}

fn read(file: &Path) -> Option<Latency> {
    let millis: u32 = fs::read_to_string(file).ok()?.trim().parse().ok()?;
    Some(if millis <= 1 { Latency::Short } else { Latency::Fixed(millis) })
}

#[cfg(test)]
mod tests {
    use std::os::unix::fs::PermissionsExt;

    use super::*;

    #[test]
    fn it_is_shortened_where_that_is_allowed_and_told_where_not() {
        let sys = tempfile::tempdir().unwrap();
        let chip = sys.path().join("bus/usb-serial/devices/ttyUSB7");
        fs::create_dir_all(&chip).unwrap();
        let timer = chip.join("latency_timer");
        fs::write(&timer, "16\n").unwrap();
        let node = Path::new("/dev/ttyUSB7");
        assert_eq!(shorten_in(sys.path(), node), Some(Latency::Short));
        assert_eq!(fs::read_to_string(&timer).unwrap(), "1");
        assert_eq!(shorten_in(sys.path(), Path::new("/dev/ttyACM7")), None, "no such chip");
        fs::write(&timer, "16\n").unwrap();
        fs::set_permissions(&timer, fs::Permissions::from_mode(0o444)).unwrap();
        // The superuser may write it all the same.
        let may = fs::OpenOptions::new().write(true).open(&timer).is_ok();
        let want = if may { Latency::Short } else { Latency::Fixed(16) };
        assert_eq!(shorten_in(sys.path(), node), Some(want));
    }
}
