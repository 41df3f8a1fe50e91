//! Writes what is said on the link to a file, for a report of a fault that can be played back.
//!
//! In: moments of the link. Out: lines as `adapter::recording` has them. A thread of its own writes, so that the loop never
//! waits for the disk; a disk that is full or hangs ends the recording and nothing else.

use std::fs::File;
use std::io::{BufWriter, Write};
use std::os::unix::fs::OpenOptionsExt as _;
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{self, Receiver, SyncSender, TrySendError};
use std::thread::JoinHandle;

use adapter::recording::{Entry, Head, Traffic};
use units::Mono;

/// So many moments may wait for the disk.
/// Own choice: some minutes of a fast adapter, below 2 MB.
const WAITING: usize = 16_384;

/// The pen. Dropping it ends the file after the last line.
#[derive(Debug)]
pub struct Recorder {
    entries: Option<SyncSender<Entry>>,
    /// The disk took nothing for too long: what would follow is not what followed.
    ended: AtomicBool,
    thread: Option<JoinHandle<()>>,
}

impl Recorder {
    /// Begins a new file; one that is there already is not overwritten.
    ///
    /// # Errors
    /// What the system says.
    pub fn create(path: &Path, head: &Head) -> std::io::Result<Self> {
        // What a vehicle said may hold its number: for us alone.
        let made = File::options().write(true).create_new(true).mode(0o600).open(path)?;
        let mut file = BufWriter::new(made);
        writeln!(file, "{}", head.line())?;
        file.flush()?;
        let (entries, inbox) = mpsc::sync_channel(WAITING);
        let thread = std::thread::Builder::new().name("recorder".to_owned()).spawn(move || {
            if let Err(e) = write(&inbox, file) {
                tracing::warn!(error = %e, "the recording ends here");
            }
        })?;
        Ok(Self { entries: Some(entries), ended: AtomicBool::new(false), thread: Some(thread) })
    }

    /// One moment more.
    pub fn note(&self, at: Mono, what: Traffic) {
        let Some(entries) = self.entries.as_ref().filter(|_| !self.ended.load(Ordering::Relaxed)) else {
            return;
        };
        // A thread that is gone has said why.
        if let Err(TrySendError::Full(_)) = entries.try_send(Entry { at, what }) {
            self.ended.store(true, Ordering::Relaxed);
            tracing::warn!("the disk is too slow; the recording ends here");
        }
    }
}

impl Drop for Recorder {
    fn drop(&mut self) {
        self.entries = None;
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
    }
}

/// Writes until the other end is dropped; whenever nothing waits, everything is handed to the system.
fn write(inbox: &Receiver<Entry>, mut file: BufWriter<File>) -> std::io::Result<()> {
    while let Ok(first) = inbox.recv() {
        writeln!(file, "{}", first.line())?;
        while let Ok(entry) = inbox.try_recv() {
            writeln!(file, "{}", entry.line())?;
        }
        file.flush()?;
    }
    file.flush()
}

#[cfg(test)]
mod tests {
    use adapter::recording::{About, RECORDING, read};

    use super::*;

    #[test]
    fn what_was_noted_is_in_the_file_and_an_old_one_is_not_overwritten() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("link.jsonl");
        let head = Head {
            recording: RECORDING,
            program: "standpipe".into(),
            device: "memory".into(),
            started: "2026-01-01T00:00:00Z".into(),
            about: About::default(),
        };
        let recorder = Recorder::create(&path, &head).unwrap();
        recorder.note(Mono::from_millis(1), Traffic::Opened);
        recorder.note(Mono::from_millis(7), Traffic::Host(b" ATI\r".to_vec()));
        drop(recorder);
        let (found, entries) = read(&std::fs::read_to_string(&path).unwrap()).unwrap();
        assert_eq!((found, entries.len()), (head.clone(), 2));
        assert_eq!(Recorder::create(&path, &head).unwrap_err().kind(), std::io::ErrorKind::AlreadyExists);
    }

    #[test]
    fn a_disk_that_hangs_ends_the_recording_and_holds_nobody_up() {
        let (entries, inbox) = mpsc::sync_channel(2);
        let recorder = Recorder { entries: Some(entries), ended: AtomicBool::new(false), thread: None };
        for n in 0..5 {
            recorder.note(Mono::from_millis(n), Traffic::Opened);
        }
        assert_eq!(inbox.try_iter().count(), 2);
        recorder.note(Mono::from_millis(9), Traffic::Opened);
        assert_eq!(inbox.try_iter().count(), 0, "what comes later would look as if nothing were missing");
    }
}
