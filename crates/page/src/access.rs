//! Who may see and who may tell: pairings, one-time codes, links that only show.
//!
//! In: codes and tokens as they come. Out: what their bearer may. Kept in one file, mode 0600, which the daemon and the
//! `page` command share under a lock; codes and tokens lie in it only as SHA-256. A code is for once and lives ten
//! minutes; an address that guesses is shut out (`guess.rs`), and what others guess never voids a code. Not here: HTTP.

use std::fs::File;
use std::io::Write as _;
use std::net::IpAddr;
use std::os::unix::fs::{MetadataExt as _, OpenOptionsExt as _};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};
use units::Clock;

use crate::error::PageError;
use crate::guess::Guessers;

/// What the bearer of a token may.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum May {
    /// Only look: a customer, a display on the wall.
    See,
    /// Look and tell.
    Tell,
}

/// One browser that was let in, or one link that shows.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Pairing {
    /// To revoke it by.
    pub id: u32,
    /// What it is called: the browser's own name for itself, or the link's.
    pub name: String,
    /// What it may.
    pub may: May,
    /// When it was made, in seconds since 1970.
    pub made: u64,
    pub(crate) hash: String,
}

#[derive(Debug, Clone, Serialize, Deserialize)]
struct Code {
    hash: String,
    /// In seconds since 1970.
    until: u64,
}

#[derive(Debug, Default, Serialize, Deserialize)]
struct Book {
    /// Where the page can be reached, as the daemon said when it began to listen.
    #[serde(default)]
    urls: Vec<String>,
    #[serde(default)]
    next: u32,
    #[serde(default)]
    codes: Vec<Code>,
    #[serde(default)]
    pairings: Vec<Pairing>,
}

/// What an attempt to be let in came to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Admission {
    /// Let in, with this token.
    Token(String),
    /// That was no valid code.
    Wrong,
    /// Too many wrong ones from this address; try again later.
    ShutOut,
}

/// A code lives so long.
/// Own choice: from the terminal to a telephone takes a minute or two; what it lets a guesser try is reckoned in
/// docs/security.md.
pub(crate) const CODE_LIVES: Duration = Duration::from_secs(600);
/// Codes open at a time; the oldest goes first.
/// Own choice: two people pair at a time at the most; each more makes a guess as much more likely (docs/security.md).
const CODES: usize = 4;
/// Pairings that are kept; the oldest goes first, links that only show before all others.
/// Own choice: a workshop's telephones of years; one small file that is read whole with each request.
const PAIRINGS: usize = 64;
/// Letters of a code: no two that are read for each other. 32 of them, five bits each, eight letters: 40 bits.
const LETTERS: &[u8; 32] = b"ABCDEFGHJKLMNPQRSTUVWXYZ23456789";
/// Letters in a code.
/// Own choice: 40 bits, typed once; docs/security.md reckons one chance in 840,000 for a guesser with a network of his
/// own.
const CODE_LENGTH: usize = 8;

/// The pairings of one bay.
pub struct Pairings {
    path: PathBuf,
    clock: Arc<dyn Clock>,
    seen: Mutex<PairingsRead>,
    guessers: Mutex<Guessing>,
}

/// The pairings as they were read last, and from which state of the file.
#[derive(Debug, Default)]
struct PairingsRead {
    /// Which file, from when, how long: another one is laid there for every change.
    stamp: Option<(u64, i64, i64, u64)>,
    pairings: Vec<Pairing>,
}

/// Who guessed wrong, while which code was the newest.
#[derive(Debug, Default)]
struct Guessing {
    newest: Option<String>,
    guessers: Guessers,
}

impl std::fmt::Debug for Pairings {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Pairings").field("path", &self.path).finish_non_exhaustive()
    }
}

impl Pairings {
    /// Those in `path`; a file that is not there yet holds none. Codes age by the clock's civil time, which the daemon
    /// and the command that makes them share.
    pub fn at(path: PathBuf, clock: Arc<dyn Clock>) -> Self {
        Self { path, clock, seen: Mutex::default(), guessers: Mutex::default() }
    }

    /// Makes a code for one browser.
    ///
    /// # Errors
    /// [`PageError`] where the file cannot be written.
    pub fn new_code(&self) -> Result<String, PageError> {
        let mut bytes = [0; CODE_LENGTH];
        random(&mut bytes)?;
        let letter = |b: &u8| LETTERS.get(usize::from(b % 32)).map_or('A', |l| char::from(*l));
        let code: String = bytes.iter().map(letter).collect();
        let entry = Code { hash: hash(&code), until: self.now() + CODE_LIVES.as_secs() };
        self.change(|book| {
            book.codes.push(entry);
            let old = book.codes.len().saturating_sub(CODES);
            book.codes.drain(..old);
        })?;
        Ok(code)
    }

    /// Makes a link that only shows; gives its token.
    ///
    /// # Errors
    /// [`PageError`] where the file cannot be written.
    pub fn new_link(&self, name: &str) -> Result<String, PageError> {
        let token = token()?;
        let now = self.now();
        self.change(|book| book.admit(name, May::See, &token, now))?;
        Ok(token)
    }

    /// Lets the bearer of a valid code in, once. A wrong one costs nobody but its bearer anything, and no write.
    ///
    /// # Errors
    /// [`PageError`] where the file cannot be read or written.
    pub fn redeem(&self, code: &str, name: &str, from: IpAddr) -> Result<Admission, PageError> {
        let book = self.read()?;
        let now = self.now();
        {
            let mut guessing = lock(&self.guessers);
            let newest = book.codes.last().map(|c| c.hash.clone());
            if newest.is_some() && newest != guessing.newest {
                guessing.newest = newest;
                guessing.guessers.forget();
            }
            if guessing.guessers.is_shut_out(from, self.clock.now()) {
                return Ok(Admission::ShutOut);
            }
        }
        let plain: String = code.chars().filter(char::is_ascii_alphanumeric).take(64).collect();
        let hash = hash(&plain.to_ascii_uppercase());
        let valid = |c: &Code| c.hash == hash && c.is_alive(now);
        if book.codes.iter().any(valid) {
            let token = token()?;
            // Looked for again under the lock: two who bring it at once are not both let in.
            let admitted = self.change(|book| {
                let Some(place) = book.codes.iter().position(valid) else { return false };
                book.codes.remove(place);
                book.admit(name, May::Tell, &token, now);
                true
            })?;
            if admitted {
                return Ok(Admission::Token(token));
            }
        }
        lock(&self.guessers).guessers.guessed(from, self.clock.now());
        Ok(Admission::Wrong)
    }

    /// What the bearer of a token may; `None` where it is not known or was revoked.
    pub fn may(&self, token: &str) -> Option<May> {
        self.bearer(token).map(|(_, may)| may)
    }

    /// Which pairing a token is of, and what it may.
    pub(crate) fn bearer(&self, token: &str) -> Option<(u32, May)> {
        let hash = hash(token);
        let mut seen = lock(&self.seen);
        let found = std::fs::metadata(&self.path).ok();
        let stamp = found.map(|m| (m.ino(), m.mtime(), m.mtime_nsec(), m.len()));
        if stamp.is_none() || stamp != seen.stamp {
            *seen = PairingsRead { stamp, pairings: self.read().map(|b| b.pairings).unwrap_or_default() };
        }
        seen.pairings.iter().find(|p| p.hash == hash).map(|p| (p.id, p.may))
    }

    /// Every pairing there is.
    ///
    /// # Errors
    /// [`PageError`] where the file cannot be read.
    pub fn list(&self) -> Result<Vec<Pairing>, PageError> {
        Ok(self.read()?.pairings)
    }

    /// Notes where the page can be reached, for the command that shows codes.
    ///
    /// # Errors
    /// [`PageError`] where the file cannot be written.
    pub fn reached_at(&self, urls: Vec<String>) -> Result<(), PageError> {
        self.change(|book| book.urls = urls)
    }

    /// Where the page can be reached, the best first.
    ///
    /// # Errors
    /// [`PageError`] where the file cannot be read.
    pub fn urls(&self) -> Result<Vec<String>, PageError> {
        Ok(self.read()?.urls)
    }

    /// Revokes one, or all where none is named; gives how many.
    ///
    /// # Errors
    /// [`PageError`] where the file cannot be written.
    pub fn revoke(&self, id: Option<u32>) -> Result<usize, PageError> {
        self.change(|book| {
            let before = book.pairings.len();
            book.pairings.retain(|p| id.is_some_and(|id| p.id != id));
            if id.is_none() {
                book.codes.clear();
            }
            before - book.pairings.len()
        })
    }

    /// Civil time, in seconds since 1970.
    fn now(&self) -> u64 {
        u64::try_from(self.clock.wall_millis()).unwrap_or(0) / 1_000
    }

    fn failed(&self, why: impl ToString) -> PageError {
        PageError::Pairings { path: self.path.clone(), why: why.to_string() }
    }

    fn read(&self) -> Result<Book, PageError> {
        match std::fs::read(&self.path) {
            Ok(bytes) => serde_json::from_slice(&bytes).map_err(|e| self.failed(e)),
            Err(e) if e.kind() == std::io::ErrorKind::NotFound => Ok(Book::default()),
            Err(e) => Err(self.failed(e)),
        }
    }

    /// Reads, changes and writes, while nobody else does.
    fn change<T>(&self, change: impl FnOnce(&mut Book) -> T) -> Result<T, PageError> {
        let _held = self.hold().map_err(|e| self.failed(e))?;
        let mut book = self.read()?;
        let now = self.now();
        book.codes.retain(|c| c.is_alive(now));
        let out = change(&mut book);
        self.write(&book).map_err(|e| self.failed(e))?;
        Ok(out)
    }

    fn hold(&self) -> std::io::Result<File> {
        if let Some(folder) = self.path.parent() {
            std::fs::create_dir_all(folder)?;
        }
        let file = private(&self.path.with_extension("pairings.lock"))?;
        rustix::fs::flock(&file, rustix::fs::FlockOperation::LockExclusive)?;
        Ok(file)
    }

    fn write(&self, book: &Book) -> std::io::Result<()> {
        let fresh = self.path.with_extension("pairings.new");
        let mut file = private(&fresh)?;
        file.set_len(0)?;
        file.write_all(&serde_json::to_vec_pretty(book).map_err(std::io::Error::other)?)?;
        file.sync_all()?;
        std::fs::rename(&fresh, &self.path)
    }
}

impl Code {
    /// Not used up by time; nor one from the future, as after a clock was set back.
    fn is_alive(&self, now: u64) -> bool {
        now < self.until && self.until - now <= CODE_LIVES.as_secs()
    }
}

impl Book {
    fn admit(&mut self, name: &str, may: May, token: &str, made: u64) {
        self.next = self.next.saturating_add(1);
        let name = events::text::seen(name).chars().take(60).collect();
        self.pairings.push(Pairing { id: self.next, name, may, made, hash: hash(token) });
        // The newest one itself stays: it was asked for just now.
        while self.pairings.len() > PAIRINGS {
            let before = self.pairings.len() - 1;
            let shows = self.pairings.iter().take(before).position(|p| p.may == May::See);
            self.pairings.remove(shows.unwrap_or(0));
        }
    }
}

fn private(path: &Path) -> std::io::Result<File> {
    File::options().read(true).write(true).create(true).truncate(false).mode(0o600).open(path)
}

fn token() -> Result<String, PageError> {
    let mut bytes = [0; 32];
    random(&mut bytes)?;
    Ok(hex(&bytes))
}

fn random(bytes: &mut [u8]) -> Result<(), PageError> {
    getrandom::fill(bytes).map_err(|e| PageError::Random(e.to_string()))
}

fn hash(text: &str) -> String {
    hex(&Sha256::digest(text.as_bytes()))
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|b| format!("{b:02x}")).collect()
}

fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    // What the lock holds is a cache and counts; a panic elsewhere leaves them whole.
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

#[cfg(test)]
mod tests;
