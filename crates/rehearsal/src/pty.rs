//! The pseudo-terminal behind which the simulated adapter sits, and the loop that runs it there.
//!
//! In: a [`Bench`] (something that takes bytes and gives bytes, with the time passed in). Out: a path that a
//! serial port library opens like any other port. When the adapter is unplugged the terminal is torn down, and
//! when it is plugged in again a new one appears behind the same name, as a real device does.

use std::os::fd::OwnedFd;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use rustix::fs::{Mode, OFlags};
use rustix::io::Errno;
use rustix::pty::OpenptFlags;
use rustix::termios::{OptionalActions, QueueSelector};
use tokio::io::unix::AsyncFd;
use units::{Clock, Mono};

use crate::clock::Flight;

/// What sits at the far end of the line.
pub trait Bench: Send {
    /// Bytes from the program.
    fn take(&mut self, bytes: &[u8], now: Mono);
    /// Bytes for the program that are due.
    fn give(&mut self, now: Mono) -> Option<Vec<u8>>;
    /// When it wants to be woken.
    fn deadline(&self) -> Option<Mono>;
    /// The deadline has come.
    fn wake(&mut self, now: Mono);
    /// Whether the adapter is in its connector and on its cable.
    fn plugged(&self) -> bool;
    /// The program has connected, where that can be seen.
    fn opened(&mut self, _now: Mono) {}
    /// Its connection has ended, where that can be seen.
    fn closed(&mut self, _now: Mono) {}
}

impl Bench for crate::Car {
    fn take(&mut self, bytes: &[u8], now: Mono) {
        self.handle_bytes(bytes, now);
    }
    fn give(&mut self, now: Mono) -> Option<Vec<u8>> {
        self.poll_transmit(now)
    }
    fn deadline(&self) -> Option<Mono> {
        self.poll_timeout()
    }
    fn wake(&mut self, now: Mono) {
        self.handle_timeout(now);
    }
    fn plugged(&self) -> bool {
        crate::Car::plugged(self)
    }
    fn opened(&mut self, now: Mono) {
        self.host_opened(now);
    }
    fn closed(&mut self, now: Mono) {
        self.host_closed(now);
    }
}

/// Both directions of the line, and whether the program holds the port open.
#[derive(Debug, Default)]
pub struct Cable {
    /// From the program to the adapter.
    pub up: Flight,
    /// From the adapter to the program.
    pub down: Flight,
    open: AtomicBool,
    hang_up: AtomicBool,
}

impl Cable {
    /// The program has opened the port.
    pub fn opened(&self) {
        self.open.store(true, Ordering::Release);
    }

    /// The program has closed the port: what was on its way to it is lost.
    pub fn closed(&self) {
        self.open.store(false, Ordering::Release);
        self.hang_up.store(true, Ordering::Release);
        self.down.lost();
    }

    /// Whether nothing is on its way.
    pub fn is_quiet(&self) -> bool {
        self.up.is_quiet() && (self.down.is_quiet() || !self.open.load(Ordering::Acquire))
    }
}

/// One pseudo-terminal pair; the program's end is raw, so every byte goes through as it is.
struct Pair {
    ours: AsyncFd<OwnedFd>,
    theirs: OwnedFd,
    path: PathBuf,
}

impl Pair {
    fn open() -> std::io::Result<Self> {
        let ours = rustix::pty::openpt(OpenptFlags::RDWR | OpenptFlags::NOCTTY | OpenptFlags::CLOEXEC)?;
        rustix::pty::grantpt(&ours)?;
        rustix::pty::unlockpt(&ours)?;
        let name = rustix::pty::ptsname(&ours, Vec::new())?;
        let path = PathBuf::from(name.to_string_lossy().into_owned());
        let theirs = rustix::fs::open(&path, OFlags::RDWR | OFlags::NOCTTY | OFlags::CLOEXEC, Mode::empty())?;
        let mut settings = rustix::termios::tcgetattr(&theirs)?;
        settings.make_raw();
        rustix::termios::tcsetattr(&theirs, OptionalActions::Now, &settings)?;
        rustix::io::ioctl_fionbio(&ours, true)?;
        #[expect(
            deprecated,
            reason = "deprecated for types that may close their descriptor early; an OwnedFd cannot"
        )]
        let ours = AsyncFd::new(ours)?;
        Ok(Self { ours, theirs, path })
    }

    async fn read(&self, buffer: &mut [u8]) -> std::io::Result<usize> {
        loop {
            let mut ready = self.ours.readable().await?;
            match ready.try_io(|fd| Ok(rustix::io::read(fd, &mut *buffer)?)) {
                Ok(result) => return result,
                Err(_would_block) => {}
            }
        }
    }

    /// Replies are short and the terminal's buffer is not: a full one means that nobody reads.
    fn write(&self, bytes: &[u8]) -> std::io::Result<usize> {
        match rustix::io::write(self.ours.get_ref(), bytes) {
            Ok(n) => Ok(n),
            Err(Errno::AGAIN) => Ok(0),
            Err(e) => Err(e.into()),
        }
    }
}

/// A named place where the pseudo-terminal is found: a symbolic link that is moved when the device comes back.
pub struct Port {
    name: PathBuf,
    pair: Option<Pair>,
    /// Where it lay before it was pulled: a real device comes back as another one behind its name.
    before: Option<PathBuf>,
    cable: Arc<Cable>,
}

impl Port {
    /// Plugs in behind `name`.
    ///
    /// # Errors
    /// Where the system gives no pseudo-terminal, or the name cannot be made.
    pub fn plug_in(name: &Path, cable: Arc<Cable>) -> std::io::Result<Self> {
        let mut port = Self { name: name.to_path_buf(), pair: None, before: None, cable };
        port.replug()?;
        Ok(port)
    }

    /// Where the terminal itself lies now, while it is plugged in.
    pub fn terminal(&self) -> Option<&Path> {
        self.pair.as_ref().map(|p| p.path.as_path())
    }

    fn replug(&mut self) -> std::io::Result<()> {
        let mut pair = Pair::open()?;
        if self.before.as_deref() == Some(pair.path.as_path()) {
            // The lowest free number is given out; while this one is held, another.
            pair = Pair::open()?;
        }
        let _ = std::fs::remove_file(&self.name);
        std::os::unix::fs::symlink(&pair.path, &self.name)?;
        self.pair = Some(pair);
        Ok(())
    }

    fn unplug(&mut self) {
        self.before = self.pair.take().map(|pair| pair.path);
        let _ = std::fs::remove_file(&self.name);
        self.cable.up.lost();
        self.cable.down.lost();
    }

    /// Runs the bench behind this port on `clock`. `share` is locked for each step and never across a wait.
    ///
    /// # Errors
    /// Where the pseudo-terminal fails in a way that unplugging does not explain.
    pub async fn serve<B: Bench>(
        mut self,
        share: Arc<std::sync::Mutex<B>>,
        clock: Arc<dyn Clock>,
        nudge: Arc<tokio::sync::Notify>,
    ) -> std::io::Result<()> {
        let mut buffer = [0_u8; 1_024];
        loop {
            let now = clock.now();
            if self.cable.hang_up.swap(false, Ordering::AcqRel)
                && let Some(pair) = &self.pair
            {
                rustix::termios::tcflush(&pair.theirs, QueueSelector::IFlush)?;
            }
            let (plugged, deadline) = {
                let mut bench = share.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
                if bench.deadline().is_some_and(|at| now >= at) {
                    bench.wake(now);
                }
                while let Some(bytes) = bench.give(now) {
                    if let Some(pair) = &self.pair {
                        self.cable.down.sent(bytes.len());
                        let wrote = pair.write(&bytes)?;
                        self.cable.down.arrived(bytes.len() - wrote);
                    }
                }
                (bench.plugged(), bench.deadline())
            };
            match (plugged, self.pair.is_some()) {
                (true, false) => self.replug()?,
                (false, true) => self.unplug(),
                _ => {}
            }
            let read = async {
                match &self.pair {
                    Some(pair) => pair.read(&mut buffer).await,
                    None => std::future::pending().await,
                }
            };
            tokio::select! {
                biased;
                result = read => match result {
                    Ok(n) => {
                        let mut bench = share.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
                        bench.take(buffer.get(..n).unwrap_or_default(), clock.now());
                        drop(bench);
                        self.cable.up.arrived(n);
                    }
                    Err(e) => return Err(e),
                },
                () = nudge.notified() => {}
                () = clock.sleep_until(deadline.unwrap_or(Mono::from_millis(u64::MAX / 2))), if deadline.is_some() => {}
            }
        }
    }
}

impl Drop for Port {
    fn drop(&mut self) {
        self.unplug();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::{Read as _, Write as _};

    #[derive(Default)]
    struct Parrot {
        heard: Vec<u8>,
    }

    impl Bench for Parrot {
        fn take(&mut self, bytes: &[u8], _: Mono) {
            self.heard.extend_from_slice(bytes);
        }
        fn give(&mut self, _: Mono) -> Option<Vec<u8>> {
            (!self.heard.is_empty()).then(|| std::mem::take(&mut self.heard))
        }
        fn deadline(&self) -> Option<Mono> {
            None
        }
        fn wake(&mut self, _: Mono) {}
        fn plugged(&self) -> bool {
            true
        }
    }

    #[test]
    fn pulled_and_plugged_in_it_is_another_device_behind_the_same_name() {
        let folder = tempfile::tempdir().unwrap();
        let name = folder.path().join("adapter");
        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
        runtime.block_on(async {
            let mut port = Port::plug_in(&name, Arc::new(Cable::default())).unwrap();
            let first = port.terminal().unwrap().to_path_buf();
            port.unplug();
            assert!(!name.exists());
            port.replug().unwrap();
            let second = port.terminal().unwrap();
            assert_ne!(first, second);
            assert_eq!(std::fs::read_link(&name).unwrap(), second);
        });
    }

    #[test]
    fn every_byte_goes_through_as_it_is() {
        let folder = tempfile::tempdir().unwrap();
        let name = folder.path().join("adapter");
        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
        runtime.block_on(async {
            let port = Port::plug_in(&name, Arc::new(Cable::default())).unwrap();
            let conductor = crate::clock::Conductor::new(crate::clock::Pace::Max);
            let clock = conductor.clock(crate::clock::Party::Car);
            let bench = Arc::new(std::sync::Mutex::new(Parrot::default()));
            let task = tokio::spawn(port.serve(bench, clock, Arc::default()));
            let all: Vec<u8> = (0..=255).collect();
            let sent = all.clone();
            let heard = tokio::task::spawn_blocking(move || {
                let mut file = std::fs::File::options().read(true).write(true).open(&name).unwrap();
                file.write_all(&sent).unwrap();
                let mut back = vec![0_u8; 256];
                file.read_exact(&mut back).unwrap();
                back
            });
            assert_eq!(heard.await.unwrap(), all);
            task.abort();
            // The port goes when the task is gone, which is when it says so and not before.
            assert!(task.await.is_err_and(|e| e.is_cancelled()));
        });
        assert!(!folder.path().join("adapter").exists(), "the name goes with the port");
    }
}
