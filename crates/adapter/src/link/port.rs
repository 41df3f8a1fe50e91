//! A device that is opened again and again: what was learnt of it helps the next time.
//!
//! In: a [`Device`]. Out: an [`Opener`] that remembers the rate it found, and that finds the device again when it comes back
//! under another name. Source: section 14 of the dialect reference.

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};

use super::{Device, LinkError, Opener, Opening, auto, serial, tcp};

/// A device with a memory.
#[derive(Debug)]
pub struct Port {
    device: Device,
    /// The rate that was found the last time; 0 for none.
    rate: AtomicU32,
    /// Where device nodes are.
    root: PathBuf,
}

impl Port {
    /// `device`, by the name that lasts, if it has one. `rate` is the one that it had the last time.
    pub fn new(device: Device, rate: Option<u32>) -> Self {
        Self::under(Path::new("/dev"), device, rate)
    }

    /// [`Port::new`], where device nodes are not under `/dev`.
    pub fn under(root: &Path, device: Device, rate: Option<u32>) -> Self {
        let device = device.lasting_under(root);
        Self { device, rate: AtomicU32::new(rate.unwrap_or(0)), root: root.to_owned() }
    }

    /// The device by its lasting name.
    pub const fn device(&self) -> &Device {
        &self.device
    }

    /// The rate that was found the last time.
    pub fn rate(&self) -> Option<u32> {
        Some(self.rate.load(Ordering::Relaxed)).filter(|rate| *rate != 0)
    }

    /// Where it is now: by its name, or, if nothing has that name any more, the one likely candidate of its kind.
    fn now(&self, path: &Path) -> PathBuf {
        if path.exists() {
            return path.to_owned();
        }
        let kind = |path: &Path| {
            let name = path.file_name()?.to_str()?.trim_end_matches(|c: char| c.is_ascii_digit());
            ["ttyUSB", "ttyACM", "rfcomm"].contains(&name).then(|| name.to_owned())
        };
        match (kind(path), auto::auto_in(&self.root)) {
            (Some(kind_then), Ok(Device::Serial { path: found, .. }))
                if kind(&std::fs::canonicalize(&found).unwrap_or_else(|_| found.clone())).as_ref()
                    == Some(&kind_then) =>
            {
                tracing::info!(was = %path.display(), is = %found.display(), "the adapter came back under another name");
                found
            }
            _ => path.to_owned(),
        }
    }

    async fn open_serial(&self, path: &Path, baud: Option<u32>) -> Result<Box<dyn super::Link>, LinkError> {
        let link = serial::open(&self.now(path), baud, self.rate()).await?;
        if let Some(rate) = link.rate() {
            self.rate.store(rate, Ordering::Relaxed);
        }
        Ok(link)
    }
}

impl Opener for Port {
    fn open(&self) -> Opening<'_> {
        Box::pin(async move {
            match &self.device {
                Device::Auto => match auto::auto_in(&self.root)? {
                    Device::Serial { path, baud } => self.open_serial(&path, baud).await,
                    other => Err(LinkError::NoSuchDevice { device: other.to_string() }),
                },
                Device::Serial { path, baud } => self.open_serial(path, *baud).await,
                Device::Tcp { host, port } => tcp::open(host, *port).await,
            }
        })
    }

    fn describe(&self) -> String {
        self.device.to_string()
    }
}

#[cfg(test)]
mod tests {
    use std::os::unix::fs::symlink;

    use super::*;

    fn port(root: &Path, name: &str) -> Port {
        Port::under(root, Device::Serial { path: root.join(name), baud: None }, None)
    }

    #[test]
    fn a_device_that_comes_back_under_another_name_is_found_again() {
        let root = tempfile::tempdir().unwrap();
        let at = |name: &str| root.path().join(name);
        std::fs::write(at("ttyUSB0"), "").unwrap();
        let plain = port(root.path(), "ttyUSB0");
        assert_eq!(plain.now(&at("ttyUSB0")), at("ttyUSB0"));
        std::fs::rename(at("ttyUSB0"), at("ttyUSB1")).unwrap();
        assert_eq!(plain.now(&at("ttyUSB0")), at("ttyUSB1"), "the only one of its kind");
        std::fs::write(at("ttyUSB2"), "").unwrap();
        assert_eq!(plain.now(&at("ttyUSB0")), at("ttyUSB0"), "two of them: none is taken");
        std::fs::remove_file(at("ttyUSB1")).unwrap();
        std::fs::rename(at("ttyUSB2"), at("ttyACM0")).unwrap();
        assert_eq!(plain.now(&at("ttyUSB0")), at("ttyUSB0"), "another kind of device is another device");
    }

    #[test]
    fn it_goes_by_the_name_that_lasts() {
        let root = tempfile::tempdir().unwrap();
        let at = |name: &str| root.path().join(name);
        for folder in ["serial/by-id", "serial/by-path"] {
            std::fs::create_dir_all(at(folder)).unwrap();
        }
        std::fs::write(at("ttyUSB0"), "").unwrap();
        symlink("../../ttyUSB0", at("serial/by-path/pci-0-usb-1")).unwrap();
        let by_path = port(root.path(), "ttyUSB0");
        assert_eq!(by_path.describe(), at("serial/by-path/pci-0-usb-1").display().to_string());
        symlink("../../ttyUSB0", at("serial/by-id/usb-demo")).unwrap();
        let by_id = port(root.path(), "ttyUSB0");
        assert_eq!(by_id.describe(), at("serial/by-id/usb-demo").display().to_string());
        std::fs::rename(at("ttyUSB0"), at("ttyUSB1")).unwrap();
        std::fs::remove_file(at("serial/by-id/usb-demo")).unwrap();
        symlink("../../ttyUSB1", at("serial/by-id/usb-demo")).unwrap();
        assert!(
            by_id.now(&at("serial/by-id/usb-demo")).exists(),
            "the name stays, the node has another number"
        );
    }
}
