//! Who may see and who may tell: pairings, one-time codes, links that only show.
//!
//! In: codes and tokens as they come. Out: what their bearer may. Kept in one file, mode 0600, which the daemon and the
//! `page` command share under a lock; codes and tokens lie in it only as SHA-256. A code is for once, lives ten minutes,
//! and dies after a few wrong guesses; an address that guesses is shut out. Not here: HTTP.

use std::collections::HashMap;
use std::fs::File;
use std::io::Write as _;
use std::net::IpAddr;
use std::os::unix::fs::OpenOptionsExt as _;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant, SystemTime, UNIX_EPOCH};

use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};

use crate::error::PageError;

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
    hash: String,
}

#[derive(Debug, Clone, Serialize, Deserialize)]
struct Code {
    hash: String,
    /// In seconds since 1970.
    until: u64,
    guesses_left: u32,
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
pub(crate) const CODE_LIVES: Duration = Duration::from_secs(600);
/// So many wrong guesses, from anywhere, and every open code is void.
const CODE_GUESSES: u32 = 10;
/// So many wrong guesses from one address, and it is shut out.
const ADDRESS_GUESSES: u32 = 5;
/// For so long.
const SHUT_OUT: Duration = Duration::from_secs(600);
/// Addresses that are remembered.
const ADDRESSES: usize = 1_024;
/// Codes open at a time; the oldest goes first.
const CODES: usize = 4;
/// Pairings that are kept; the oldest goes first.
const PAIRINGS: usize = 64;
/// Letters of a code: no two that are read for each other. 32 of them, five bits each, eight letters: 40 bits.
const LETTERS: &[u8; 32] = b"ABCDEFGHJKLMNPQRSTUVWXYZ23456789";
/// Letters in a code.
const CODE_LENGTH: usize = 8;

/// The pairings of one bay.
#[derive(Debug)]
pub struct Pairings {
    path: PathBuf,
    seen: Mutex<Seen>,
    guessers: Mutex<HashMap<IpAddr, (u32, Instant)>>,
}

/// The pairings as they were read last, and from which state of the file.
#[derive(Debug, Default)]
struct Seen {
    stamp: Option<(SystemTime, u64)>,
    pairings: Vec<Pairing>,
}

impl Pairings {
    /// Those in `path`; a file that is not there yet holds none.
    pub fn at(path: PathBuf) -> Self {
        Self { path, seen: Mutex::default(), guessers: Mutex::default() }
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
        let entry =
            Code { hash: hash(&code), until: now() + CODE_LIVES.as_secs(), guesses_left: CODE_GUESSES };
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
        self.change(|book| book.admit(name, May::See, &token))?;
        Ok(token)
    }

    /// Lets the bearer of a valid code in, once.
    ///
    /// # Errors
    /// [`PageError`] where the file cannot be written.
    pub fn redeem(&self, code: &str, name: &str, from: IpAddr) -> Result<Admission, PageError> {
        if self.is_shut_out(from) {
            return Ok(Admission::ShutOut);
        }
        let plain: String = code.chars().filter(char::is_ascii_alphanumeric).take(64).collect();
        let hash = hash(&plain.to_ascii_uppercase());
        let token = token()?;
        let admitted = self.change(|book| {
            let Some(place) = book.codes.iter().position(|c| c.hash == hash) else {
                for code in &mut book.codes {
                    code.guesses_left = code.guesses_left.saturating_sub(1);
                }
                book.codes.retain(|c| c.guesses_left > 0);
                return false;
            };
            book.codes.remove(place);
            book.admit(name, May::Tell, &token);
            true
        })?;
        if admitted {
            return Ok(Admission::Token(token));
        }
        self.guessed(from);
        Ok(Admission::Wrong)
    }

    /// What the bearer of a token may; `None` where it is not known or was revoked.
    pub fn may(&self, token: &str) -> Option<May> {
        let hash = hash(token);
        let mut seen = lock(&self.seen);
        let stamp = std::fs::metadata(&self.path).ok().and_then(|m| Some((m.modified().ok()?, m.len())));
        if stamp.is_none() || stamp != seen.stamp {
            *seen = Seen { stamp, pairings: self.read().map(|b| b.pairings).unwrap_or_default() };
        }
        seen.pairings.iter().find(|p| p.hash == hash).map(|p| p.may)
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

    fn is_shut_out(&self, from: IpAddr) -> bool {
        let mut guessers = lock(&self.guessers);
        guessers.retain(|_, (_, since)| since.elapsed() < SHUT_OUT);
        guessers.get(&from).is_some_and(|(guesses, _)| *guesses >= ADDRESS_GUESSES)
    }

    fn guessed(&self, from: IpAddr) {
        let mut guessers = lock(&self.guessers);
        if guessers.len() < ADDRESSES || guessers.contains_key(&from) {
            let entry = guessers.entry(from).or_insert((0, Instant::now()));
            *entry = (entry.0.saturating_add(1), Instant::now());
        }
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
        let now = now();
        book.codes.retain(|c| c.until > now);
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

impl Book {
    fn admit(&mut self, name: &str, may: May, token: &str) {
        self.next = self.next.saturating_add(1);
        let name = name.chars().filter(|c| !c.is_control()).take(60).collect();
        self.pairings.push(Pairing { id: self.next, name, may, made: now(), hash: hash(token) });
        let old = self.pairings.len().saturating_sub(PAIRINGS);
        self.pairings.drain(..old);
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

fn now() -> u64 {
    SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default().as_secs()
}

fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    // What the lock holds is a cache and counts; a panic elsewhere leaves them whole.
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

#[cfg(test)]
mod tests {
    use super::*;

    const HERE: IpAddr = IpAddr::V4(std::net::Ipv4Addr::new(192, 0, 2, 1));

    fn there(n: u8) -> IpAddr {
        IpAddr::V4(std::net::Ipv4Addr::new(192, 0, 2, n))
    }

    fn pairings() -> (tempfile::TempDir, Pairings) {
        let folder = tempfile::tempdir().unwrap();
        let pairings = Pairings::at(folder.path().join("bay.pairings"));
        (folder, pairings)
    }

    #[test]
    fn a_code_lets_in_once_however_it_is_typed() {
        let (_folder, pairings) = pairings();
        let code = pairings.new_code().unwrap();
        let typed = format!(" {}-{} ", code[..4].to_lowercase(), &code[4..]);
        let Admission::Token(token) = pairings.redeem(&typed, "a phone", HERE).unwrap() else {
            panic!("{code}")
        };
        assert_eq!(pairings.may(&token), Some(May::Tell));
        assert_eq!(pairings.redeem(&code, "another", HERE).unwrap(), Admission::Wrong, "only once");
        assert_eq!(pairings.may("0000"), None);
    }

    #[test]
    fn a_guesser_is_shut_out_and_a_code_dies_of_guesses() {
        let (_folder, pairings) = pairings();
        let code = pairings.new_code().unwrap();
        for _ in 0..ADDRESS_GUESSES {
            assert_eq!(pairings.redeem("AAAAAAAA", "x", HERE).unwrap(), Admission::Wrong);
        }
        assert_eq!(pairings.redeem(&code, "x", HERE).unwrap(), Admission::ShutOut, "even with the right one");
        for n in 2..=6 {
            pairings.redeem("BBBBBBBB", "x", there(n)).unwrap();
        }
        assert_eq!(
            pairings.redeem(&code, "x", there(9)).unwrap(),
            Admission::Wrong,
            "the code is void by now"
        );
    }

    #[test]
    fn what_is_revoked_by_another_process_is_shut_out_at_once() {
        let (folder, pairings) = pairings();
        let token = pairings.new_link("wall").unwrap();
        assert_eq!(pairings.may(&token), Some(May::See));
        let other = Pairings::at(folder.path().join("bay.pairings"));
        let id = other.list().unwrap()[0].id;
        assert_eq!(other.revoke(Some(id)).unwrap(), 1);
        assert_eq!(pairings.may(&token), None);
    }

    #[test]
    fn neither_codes_nor_tokens_lie_in_the_file() {
        use std::os::unix::fs::PermissionsExt as _;
        let (folder, pairings) = pairings();
        let (code, token) = (pairings.new_code().unwrap(), pairings.new_link("wall").unwrap());
        let path = folder.path().join("bay.pairings");
        let text = std::fs::read_to_string(&path).unwrap();
        assert!(!text.contains(&code) && !text.contains(&token));
        assert_eq!(path.metadata().unwrap().permissions().mode() & 0o777, 0o600);
    }
}
