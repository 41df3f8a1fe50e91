//! Where the socket lies, and who comes in.
//!
//! In: a path, connections. Out: a listener, one task for each client that has a place. Nobody is trusted for what he says
//! of himself: whose a connection is, the system tells. Not here: who gets a place (`places.rs`), what is said on it.

use std::collections::HashMap;
use std::os::unix::fs::{DirBuilderExt as _, FileTypeExt as _, MetadataExt as _, PermissionsExt as _};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use events::{Seq, Word};
use rustix::fs::Mode;
use tokio::net::{UnixListener, UnixStream};
use tokio::sync::oneshot;
use units::Mono;

use super::places::{Entry, Places, Whose};
use super::{Shared, say_at_once, serve};
use crate::error::ServiceError;

/// Where the socket of a bay lies by default: `$XDG_RUNTIME_DIR/standpipe/BAY.sock`.
pub fn default_socket(bay: &str) -> PathBuf {
    default_folder().0.join(format!("{bay}.sock"))
}

/// The folder of the sockets, and whether it lies where anybody may make folders.
fn default_folder() -> (PathBuf, bool) {
    folder_by(std::env::var_os("XDG_RUNTIME_DIR"))
}

/// The same by the folder that the system gives its user, if it gives one.
fn folder_by(runtime: Option<std::ffi::OsString>) -> (PathBuf, bool) {
    match runtime {
        Some(folder) if !folder.is_empty() => (PathBuf::from(folder).join("standpipe"), false),
        _ => (std::env::temp_dir().join(format!("standpipe-{}", own_user())), true),
    }
}

/// The user that we are.
fn own_user() -> u32 {
    rustix::process::geteuid().as_raw()
}

/// Whether this is the folder in which sockets lie by default.
pub fn is_default_folder(folder: Option<&Path>) -> bool {
    folder == Some(&default_folder().0)
}

/// Whether the default folder of the sockets is our own, so that nobody else can put a socket there. The folder in /tmp has
/// a name that anybody can guess, so it must be closed to everybody else too.
///
/// # Errors
/// [`ServiceError::Folder`]: whose it is, or who may write to it.
pub fn check_default_folder() -> Result<(), ServiceError> {
    let (folder, shared) = default_folder();
    is_own(&folder, own_user(), shared).map_err(|why| ServiceError::Folder { path: folder, why })
}

/// Why a folder is not this user's own; one that is not there yet is nobody's.
fn is_own(folder: &Path, user: u32, closed: bool) -> Result<(), String> {
    let found = match folder.symlink_metadata() {
        Ok(found) => found,
        Err(e) if e.kind() == std::io::ErrorKind::NotFound => return Ok(()),
        Err(e) => return Err(e.to_string()),
    };
    let mode = found.permissions().mode() & 0o777;
    if !found.is_dir() {
        return Err("it is no folder".to_owned());
    }
    if found.uid() != user {
        return Err(format!("it belongs to user {}, and we are user {user}", found.uid()));
    }
    if mode & 0o022 != 0 || (closed && mode != 0o700) {
        return Err(format!("its mode is {mode:03o}, so that others may use it"));
    }
    Ok(())
}

/// Listens at `path`, mode 0600, or 0660 for a group. A socket left by a daemon that died is removed; one that
/// answers is not ours to take.
pub(crate) fn listen(path: &Path, group: Option<&str>) -> Result<UnixListener, ServiceError> {
    let failed = |why: String| ServiceError::Socket { path: path.to_path_buf(), why };
    let group = group
        .map(|name| group_id(name).ok_or_else(|| failed(format!("there is no group `{name}`"))))
        .transpose()?;
    if let Some(folder) = path.parent().filter(|f| !f.as_os_str().is_empty() && !f.exists()) {
        let mut builder = std::fs::DirBuilder::new();
        builder.recursive(true).mode(if group.is_some() { 0o750 } else { 0o700 });
        builder.create(folder).map_err(|e| failed(e.to_string()))?;
        if group.is_some() {
            // A folder that the group cannot enter would hide the socket from it.
            give(folder, group).map_err(|e| failed(e.to_string()))?;
        }
    }
    if is_default_folder(path.parent()) {
        // Looked at after it was made: whoever was faster is found out.
        check_default_folder()?;
    }
    if path.symlink_metadata().is_ok() {
        if std::os::unix::net::UnixStream::connect(path).is_ok() {
            return Err(ServiceError::InUse { path: path.to_path_buf() });
        }
        let is_socket = path.symlink_metadata().is_ok_and(|m| m.file_type().is_socket());
        if !is_socket {
            return Err(failed("something that is no socket lies there".to_owned()));
        }
        std::fs::remove_file(path).map_err(|e| failed(e.to_string()))?;
    }
    // Closed from the first moment, not only after its mode was set.
    let before = rustix::process::umask(Mode::from_raw_mode(0o177));
    let bound = UnixListener::bind(path);
    rustix::process::umask(before);
    let listener = bound.map_err(|e| failed(e.to_string()))?;
    if group.is_some() {
        give(path, group).map_err(|e| failed(e.to_string()))?;
        let mode = std::fs::Permissions::from_mode(0o660);
        std::fs::set_permissions(path, mode).map_err(|e| failed(e.to_string()))?;
    }
    Ok(listener)
}

/// Hands what we made to a group. Where it has it already, because it is our own, nothing is asked of the system: a service
/// manager may have forbidden that.
fn give(path: &Path, group: Option<u32>) -> std::io::Result<()> {
    match group {
        Some(group) if path.symlink_metadata()?.gid() != group => {
            std::os::unix::fs::chown(path, None, Some(group))
        }
        _ => Ok(()),
    }
}

fn group_id(name: &str) -> Option<u32> {
    let groups = std::fs::read_to_string("/etc/group").ok()?;
    groups.lines().find_map(|line| {
        let mut fields = line.split(':');
        (fields.next() == Some(name)).then(|| fields.nth(1)?.parse().ok()).flatten()
    })
}

/// The clients that are in.
pub(crate) struct Door {
    inside: Arc<Mutex<Inside>>,
}

struct Inside {
    places: Places,
    /// How each is told that another has its place.
    displaced: HashMap<u64, oneshot::Sender<&'static str>>,
}

/// The place of one client, given back when it is dropped.
pub(crate) struct Held {
    number: u64,
    inside: Arc<Mutex<Inside>>,
}

impl Held {
    /// Whoever told something keeps his place before one who never did.
    pub(crate) fn told(&self, now: Mono) {
        lock(&self.inside).places.told(self.number, now);
    }

    /// How many are in.
    pub(crate) fn inside(&self) -> usize {
        lock(&self.inside).places.taken()
    }
}

impl Drop for Held {
    fn drop(&mut self) {
        let mut inside = lock(&self.inside);
        inside.places.leave(self.number);
        inside.displaced.remove(&self.number);
    }
}

impl Door {
    /// For so many clients at a time.
    pub(crate) fn new(clients: usize) -> Self {
        let inside = Inside { places: Places::new(clients), displaced: HashMap::new() };
        Self { inside: Arc::new(Mutex::new(inside)) }
    }

    /// Lets a client in, at the cost of another's place where that is fair, or turns it away.
    pub(crate) fn welcome(&self, stream: UnixStream, shared: &Shared, last: Seq) {
        let (displace, displaced) = oneshot::channel();
        let entered = {
            let mut inside = lock(&self.inside);
            let place = match inside.places.enter(whose(&stream)) {
                Entry::Free(place) => Some(place),
                Entry::Instead { place, goes } => {
                    if let Some(other) = inside.displaced.remove(&goes) {
                        let _ = other.send(DISPLACED);
                    }
                    Some(place)
                }
                Entry::Full => None,
            };
            place.inspect(|place| drop(inside.displaced.insert(*place, displace)))
        };
        let Some(number) = entered else { return say_at_once(&stream, FULL) };
        let held = Held { number, inside: Arc::clone(&self.inside) };
        let mut shared = shared.clone();
        if let Word::Hello { last_seq, .. } = &mut shared.hello {
            *last_seq = last;
        }
        tokio::spawn(serve(stream, shared, held, displaced));
    }
}

const DISPLACED: &str = "too many clients: a newer connection has this place now";
const FULL: &str = "too many clients; close one and try again";

/// Whose it is; where the system does not say, nobody's in particular.
fn whose(stream: &UnixStream) -> Whose {
    match stream.peer_cred() {
        Ok(peer) if peer.pid().is_some_and(|pid| u32::try_from(pid) == Ok(std::process::id())) => Whose::Ours,
        Ok(peer) => Whose::User(peer.uid()),
        Err(_) => Whose::User(u32::MAX),
    }
}

fn lock(inside: &Mutex<Inside>) -> MutexGuard<'_, Inside> {
    // Places are whole whatever happened to the one that held the lock.
    inside.lock().unwrap_or_else(PoisonError::into_inner)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs::Permissions;

    #[test]
    fn a_folder_that_another_could_use_is_refused() {
        let base = tempfile::tempdir().unwrap();
        let folder = base.path().join("standpipe");
        let (me, other) = (own_user(), own_user() + 1);
        assert_eq!(is_own(&folder, me, true), Ok(()), "not there yet");
        std::fs::create_dir(&folder).unwrap();
        #[rustfmt::skip]
        let cases = [
            // mode  closed  refused for
            (0o700, true,  None),
            (0o700, false, None),
            (0o750, true,  Some("its mode is 750")),
            (0o755, true,  Some("its mode is 755")),
            (0o750, false, None),
            (0o755, false, None),
            (0o770, false, Some("its mode is 770")),
            (0o707, false, Some("its mode is 707")),
            (0o777, true,  Some("its mode is 777")),
        ];
        for (mode, closed, want) in cases {
            std::fs::set_permissions(&folder, Permissions::from_mode(mode)).unwrap();
            let found = is_own(&folder, me, closed).err();
            assert_eq!(found.is_some(), want.is_some(), "{mode:o}");
            assert!(found.zip(want).is_none_or(|(found, want)| found.contains(want)), "{mode:o}");
        }
        std::fs::set_permissions(&folder, Permissions::from_mode(0o700)).unwrap();
        let found = is_own(&folder, other, false).unwrap_err();
        assert!(found.contains(&format!("it belongs to user {me}, and we are user {other}")), "{found}");
        let link = base.path().join("link");
        std::os::unix::fs::symlink(&folder, &link).unwrap();
        assert_eq!(
            is_own(&link, me, true),
            Err("it is no folder".to_owned()),
            "whoever laid it may lay it anew"
        );
    }

    #[test]
    fn the_users_own_folder_comes_before_the_one_that_anybody_may_make() {
        let own = |folder: &str| folder_by(Some(folder.into()));
        assert_eq!(own("/run/user/7"), (PathBuf::from("/run/user/7/standpipe"), false));
        for none in [folder_by(None), own("")] {
            assert!(none.1 && none.0.starts_with(std::env::temp_dir()), "{none:?}");
        }
        // Whichever it is on this machine, the bay's socket lies in it.
        let here = std::env::var_os("XDG_RUNTIME_DIR");
        let socket = default_socket("left");
        assert_eq!(socket, folder_by(here).0.join("left.sock"));
        assert!(is_default_folder(socket.parent()), "{socket:?}");
    }

    #[tokio::test]
    async fn a_socket_is_closed_to_others_from_the_first_moment() {
        let base = tempfile::tempdir().unwrap();
        let path = base.path().join("new").join("bay.sock");
        let listener = listen(&path, None).unwrap();
        let mode = |path: &Path| path.metadata().unwrap().permissions().mode() & 0o777;
        assert_eq!((mode(&path), mode(path.parent().unwrap())), (0o600, 0o700));
        assert!(matches!(listen(&path, None), Err(ServiceError::InUse { .. })));
        drop(listener);
        listen(&path, None).expect("one that nobody answers at is taken over");
        let file = base.path().join("file");
        std::fs::write(&file, "").unwrap();
        let said = listen(&file, None).unwrap_err().to_string();
        assert!(said.contains("something that is no socket lies there"), "{said}");
        let said = listen(&path, Some("no such group")).unwrap_err().to_string();
        assert!(said.contains("there is no group `no such group`"), "{said}");
    }
}
