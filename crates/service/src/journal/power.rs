//! Power cuts, by what the program truly asked of the system: its calls are traced, and the disk is built anew from them.
//!
//! A child process writes a journal, or runs a whole daemon with a client, under `strace`. From the trace the disk is made as it would be at any moment: what was
//! synced is there; of what was written since, any sectors of 512 bytes in any order, or nothing. So it is SQLite's own `fsync` that decides, and not
//! what we believe of it: a sync that is left out anywhere, or an answer before it, loses an accepted fact here.
//!
//! The calls that wait for the disk are made slow by the tracer, so that an answer that does not wait for them comes first.

use std::collections::BTreeMap;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use events::{Body, Durability, Event, Seq};

use super::durability::{Chance, event, made};
use super::note::Found;
use super::{Journal, read};

/// Bytes that a disk writes whole or not.
const SECTOR: usize = 512;
/// The calls that matter. One that is not known on a machine is passed over where it begins with `?`.
const CALLS: &str = "openat,?open,?creat,close,lseek,write,pwrite64,writev,pwritev,fsync,fdatasync,ftruncate,fallocate,\
                     ?rename,renameat,renameat2,?unlink,unlinkat,?link,linkat,copy_file_range,sendfile,sendto";

/// Runs one of the children below under the tracer. Gives its calls.
fn trace(child: &str, folder: &Path) -> Vec<Call> {
    let out = folder.join("trace");
    let status = Command::new("strace")
        .args(["-f", "-qq", "-xx", "-s", "100000000", "-e", &format!("trace={CALLS}")])
        .args(["-e", "inject=fsync,fdatasync:delay_enter=3000", "-o"])
        .arg(&out)
        .arg(std::env::current_exe().unwrap())
        .args(["--exact", &format!("journal::power::{child}"), "--ignored", "--nocapture"])
        .env("STANDPIPE_TEST_JOURNAL", folder)
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .unwrap_or_else(|e| panic!("this test needs `strace` (apt-get install strace): {e}"));
    assert!(status.success(), "{child} failed under strace: {status}");
    let calls = Call::all(&std::fs::read_to_string(&out).unwrap());
    std::fs::remove_file(out).unwrap();
    calls
}

/// One call of the trace, after it has returned.
#[derive(Debug)]
struct Call {
    name: String,
    /// As they stand in the trace; text in quotes is still in hex.
    arguments: Vec<String>,
    result: i64,
    /// How many calls had returned when this one began: what it may take for granted.
    began: usize,
}

impl Call {
    fn all(text: &str) -> Vec<Self> {
        let mut calls: Vec<Self> = Vec::new();
        let mut unfinished: BTreeMap<&str, (String, usize)> = BTreeMap::new();
        for line in text.lines() {
            let Some((thread, rest)) = line.split_once(' ') else { continue };
            let rest = rest.trim_start();
            let (whole, began) = if let Some(head) = rest.strip_suffix(" <unfinished ...>") {
                unfinished.insert(thread, (head.to_owned(), calls.len()));
                continue;
            } else if rest.starts_with("<... ") {
                let Some((head, began)) = unfinished.remove(thread) else { continue };
                let Some((_, tail)) = rest.split_once("resumed>") else { continue };
                (head + tail, began)
            } else {
                (rest.to_owned(), calls.len())
            };
            let Some((call, result)) = whole.rsplit_once(" = ") else { continue };
            let Some((name, arguments)) = call.split_once('(') else { continue };
            let result = result.split(' ').next().and_then(|r| r.parse().ok()).unwrap_or(-1);
            let arguments =
                arguments.trim_end().trim_end_matches(')').split(", ").map(str::to_owned).collect();
            calls.push(Self { name: name.to_owned(), arguments, result, began });
        }
        calls
    }

    fn argument(&self, n: usize) -> &str {
        &self.arguments[n]
    }

    fn number(&self, n: usize) -> usize {
        self.argument(n).parse().unwrap_or_else(|_| panic!("{self:?}"))
    }

    fn bytes(&self, n: usize) -> Vec<u8> {
        let hex = self.argument(n).trim_matches('"');
        hex.split("\\x").skip(1).map(|b| u8::from_str_radix(b, 16).unwrap()).collect()
    }

    fn path(&self, n: usize) -> PathBuf {
        PathBuf::from(String::from_utf8(self.bytes(n)).unwrap())
    }

    /// The file that a new name is given by, and the one it takes.
    fn names(&self) -> (PathBuf, PathBuf) {
        if self.name == "rename" { (self.path(0), self.path(1)) } else { (self.path(1), self.path(3)) }
    }
}

/// One write or cut, at its place in the trace.
#[derive(Clone)]
enum Change {
    Bytes(usize, Vec<u8>),
    Length(usize),
}

impl Change {
    fn on(&self, content: &mut Vec<u8>) {
        match self {
            Self::Length(length) => content.resize(*length, 0),
            Self::Bytes(at, bytes) => {
                if content.len() < at + bytes.len() {
                    content.resize(at + bytes.len(), 0);
                }
                content[*at..at + bytes.len()].copy_from_slice(bytes);
            }
        }
    }
}

/// A file, whatever it is called.
#[derive(Default)]
struct Inode {
    durable: Vec<u8>,
    /// What is not synced, with the number of the call.
    waiting: Vec<(usize, Change)>,
}

/// A name that was given or taken and is not synced.
#[derive(Clone)]
enum Naming {
    Given(PathBuf, usize),
    Taken(PathBuf),
}

/// The disk, played from a trace.
#[derive(Default)]
struct Disk {
    folder: PathBuf,
    inodes: Vec<Inode>,
    /// Names as the program sees them, and as they are on the disk.
    names: BTreeMap<PathBuf, usize>,
    durable_names: BTreeMap<PathBuf, usize>,
    naming: Vec<(usize, Naming)>,
    /// Open files: which, and where plain writes go on. A folder has none.
    open: BTreeMap<usize, (Option<usize>, PathBuf)>,
    calls: usize,
    /// Lines that the child wrote to its output.
    said: Vec<String>,
}

impl Disk {
    fn of(folder: &Path) -> Self {
        Self { folder: folder.to_path_buf(), ..Self::default() }
    }

    /// With what lies in the folder now, all of it on the disk.
    fn found(folder: &Path) -> Self {
        let mut disk = Self::of(folder);
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let durable = std::fs::read(&path).unwrap();
            disk.names.insert(path, disk.inodes.len());
            disk.inodes.push(Inode { durable, waiting: Vec::new() });
        }
        disk.durable_names = disk.names.clone();
        disk
    }

    fn ours(&self, path: &Path) -> bool {
        let name = path.to_string_lossy();
        path.starts_with(&self.folder) && !name.ends_with("-shm") && !name.ends_with("socket")
    }

    fn play(&mut self, call: &Call) {
        self.calls += 1;
        if call.result < 0 {
            return;
        }
        match call.name.as_str() {
            "openat" => self.opened(call),
            "close" => {
                self.open.remove(&call.number(0));
            }
            "write" if call.number(0) == 1 => self.heard(&call.bytes(1)),
            "pwrite64" | "write" => {
                let Some((Some(inode), _)) = self.open.get(&call.number(0)) else { return };
                let inode = *inode;
                let at = if call.name == "write" { self.now(inode).len() } else { call.number(3) };
                let mut bytes = call.bytes(1);
                bytes.truncate(usize::try_from(call.result).unwrap());
                self.inodes[inode].waiting.push((self.calls, Change::Bytes(at, bytes)));
            }
            "ftruncate" => {
                let Some((Some(inode), _)) = self.open.get(&call.number(0)) else { return };
                self.inodes[*inode].waiting.push((self.calls, Change::Length(call.number(1))));
            }
            "fsync" | "fdatasync" => self.synced(call),
            "unlink" => self.taken(call.path(0)),
            "unlinkat" => self.taken(call.path(1)),
            "rename" | "renameat" | "renameat2" => {
                let (from, to) = call.names();
                if let Some(inode) = self.names.remove(&from) {
                    self.names.insert(to.clone(), inode);
                    self.naming.push((self.calls, Naming::Given(to, inode)));
                    self.naming.push((self.calls, Naming::Taken(from)));
                }
            }
            // From one end to the other, as a file is copied.
            "copy_file_range" => {
                let of = |n: usize| self.open.get(&call.number(n)).and_then(|(inode, _)| *inode);
                let (Some(from), Some(to)) = (of(0), of(2)) else { return };
                let at = self.now(to).len();
                let bytes = self.now(from)[at..at + usize::try_from(call.result).unwrap()].to_vec();
                self.inodes[to].waiting.push((self.calls, Change::Bytes(at, bytes)));
            }
            "lseek" | "sendto" => {}
            other => {
                let of_ours = call
                    .arguments
                    .iter()
                    .filter_map(|a| a.parse::<usize>().ok())
                    .any(|n| self.open.contains_key(&n));
                assert!(!of_ours, "the disk does not know `{other}`: {call:?}");
            }
        }
    }

    fn heard(&mut self, bytes: &[u8]) {
        self.said.extend(String::from_utf8_lossy(bytes).lines().map(str::to_owned));
    }

    fn opened(&mut self, call: &Call) {
        let (path, number) = (call.path(1), usize::try_from(call.result).unwrap());
        self.open.remove(&number);
        if path == self.folder {
            self.open.insert(number, (None, path));
        } else if self.ours(&path) {
            let flags = call.argument(2);
            let known = self.names.get(&path).copied();
            let inode = known.unwrap_or_else(|| {
                self.inodes.push(Inode::default());
                let inode = self.inodes.len() - 1;
                self.names.insert(path.clone(), inode);
                self.naming.push((self.calls, Naming::Given(path.clone(), inode)));
                inode
            });
            if flags.contains("O_TRUNC") {
                self.inodes[inode].waiting.push((self.calls, Change::Length(0)));
            }
            self.open.insert(number, (Some(inode), path));
        }
    }

    fn taken(&mut self, path: PathBuf) {
        if self.names.remove(&path).is_some() {
            self.naming.push((self.calls, Naming::Taken(path)));
        }
    }

    /// What was written before the call began is on the disk now that it has returned.
    fn synced(&mut self, call: &Call) {
        match self.open.get(&call.number(0)) {
            Some((Some(inode), _)) => {
                let inode = &mut self.inodes[*inode];
                for (_, change) in inode.waiting.extract_if(.., |(at, _)| *at <= call.began) {
                    change.on(&mut inode.durable);
                }
            }
            Some((None, _)) => {
                for (_, naming) in self.naming.extract_if(.., |(at, _)| *at <= call.began) {
                    name(&mut self.durable_names, naming);
                }
            }
            None => {}
        }
    }

    fn now(&self, inode: usize) -> Vec<u8> {
        let mut content = self.inodes[inode].durable.clone();
        self.inodes[inode].waiting.iter().for_each(|(_, change)| change.on(&mut content));
        content
    }

    /// Lays the disk into a folder as it may be when the power goes now: `share` of a hundred of what was not synced.
    fn lay(&self, into: &Path, share: u64, chance: &mut Chance) {
        let _ = std::fs::remove_dir_all(into);
        std::fs::create_dir(into).unwrap();
        let mut names = self.durable_names.clone();
        // Names come to the disk in the order in which they were given.
        let through = if share == 0 { 0 } else { chance.below(self.naming.len() as u64 + 1) };
        for (_, naming) in self.naming.iter().take(usize::try_from(through).unwrap()) {
            name(&mut names, naming.clone());
        }
        for (path, inode) in names {
            let content = self.torn(inode, share, chance);
            std::fs::write(into.join(path.strip_prefix(&self.folder).unwrap()), content).unwrap();
        }
    }

    fn torn(&self, inode: usize, share: u64, chance: &mut Chance) -> Vec<u8> {
        let mut content = self.inodes[inode].durable.clone();
        for (_, change) in &self.inodes[inode].waiting {
            match change {
                Change::Length(_) if chance.below(100) < share => change.on(&mut content),
                Change::Length(_) => {}
                Change::Bytes(at, bytes) => {
                    let mut from = 0;
                    while from < bytes.len() {
                        let to = (SECTOR - (at + from) % SECTOR + from).min(bytes.len());
                        if chance.below(100) < share {
                            Change::Bytes(at + from, bytes[from..to].to_vec()).on(&mut content);
                        }
                        from = to;
                    }
                }
            }
        }
        content
    }
}

fn name(names: &mut BTreeMap<PathBuf, usize>, naming: Naming) {
    match naming {
        Naming::Given(path, inode) => drop(names.insert(path, inode)),
        Naming::Taken(path) => drop(names.remove(&path)),
    }
}

/// The numbers behind a word in what the child said.
fn numbers<'a>(said: &'a [String], word: &'a str) -> impl Iterator<Item = u64> + 'a {
    said.iter().filter_map(move |line| line.strip_prefix(word)?.trim().parse().ok())
}

/// The facts that a file holds, by number.
fn facts(path: &Path) -> Vec<u64> {
    let connection = super::open::reader(path).unwrap();
    let mut select = connection.prepare("SELECT seq FROM event WHERE fact = 1 ORDER BY seq").unwrap();
    let rows = select.query_map([], |row| row.get(0)).unwrap();
    rows.map(Result::unwrap).collect()
}

/// Cuts the power now: everything that was accepted must be there, and nothing that was shown may be used again.
fn cut(disk: &Disk, into: &Path, share: u64, chance: &mut Chance) {
    disk.lay(into, share, chance);
    let what = format!("after call {} with {share} of 100", disk.calls);
    let (journal, restored) = Journal::open(into, "bay").unwrap_or_else(|e| panic!("{what}: {e}"));
    drop(journal);
    let kept = facts(&into.join("bay.journal"));
    let lost: Vec<u64> =
        numbers(&disk.said, "accepted ").filter(|seq| kept.binary_search(seq).is_err()).collect();
    assert!(lost.is_empty(), "{what}: accepted and lost: {lost:?}; {:?}", restored.repaired);
    let shown = numbers(&disk.said, "shown ").max().unwrap_or(0);
    assert!(
        restored.next > Seq(shown),
        "{what}: {shown} was shown, and new events begin at {}",
        restored.next
    );
    // A loss of power is no damage: what was promised is whole, and the job goes on.
    let repaired = &restored.repaired;
    assert_eq!(
        (&restored.damaged, restored.doubtful),
        (&None, false),
        "{what}; {repaired:?}; {:?}",
        restored.note
    );
    let harmless = |told: &String| told.contains("nothing that was accepted is missing");
    // Before the first batch there is no note, and nobody knows that nothing was promised.
    let first = restored.note == Found::Missing;
    assert!(first || restored.repaired.as_ref().is_none_or(harmless), "{what}: {:?}", restored.repaired);
    assert!(!matches!(restored.note, Found::Damaged), "{what}");
    assert_eq!(
        read::verify(&into.join("bay.journal"), None).unwrap().broken,
        None,
        "{what}: the chain holds"
    );
}

/// Writes a journal and says what was accepted and what was shown. It ends orderly and goes on, as a daemon that is started anew.
#[tokio::test]
#[ignore = "it is the child of the test below"]
async fn a_writer_that_is_traced() {
    let Some(folder) = std::env::var_os("STANDPIPE_TEST_JOURNAL") else { return };
    let mut chance = Chance(0x5EED);
    let say = |word: &str, events: &[Event]| {
        let lines: String = events.iter().map(|e| format!("{word} {}\n", e.seq)).collect();
        std::io::stdout().write_all(lines.as_bytes()).unwrap();
        std::io::stdout().flush().unwrap();
    };
    for _ in 0..2 {
        let (journal, restored) = Journal::open(folder.as_ref(), "bay").unwrap();
        let mut seq = restored.next.0;
        for n in 0..70 {
            // Now and then numbers come to the end of those reserved, among samples alone, and go on.
            if n % 25 == 20 {
                seq += 95_000;
            }
            let only_samples = n % 25 >= 19 || chance.below(3) == 0;
            let mut batch = Vec::new();
            for _ in 0..=chance.below(5) {
                seq += if n % 25 == 22 { 3_000 } else { 1 };
                let mut next = made(seq, &mut chance);
                if only_samples {
                    next = made(seq - seq % 40 + 3, &mut chance);
                    next.seq = Seq(seq);
                }
                if n % 9 == 8 && !only_samples {
                    next = ended(seq);
                }
                batch.push(next);
            }
            let (samples, facts): (Vec<Event>, Vec<Event>) =
                batch.iter().cloned().partition(|e| e.body.durability() == Durability::Sample);
            // A daemon's numbers grow by one; here they leap, and are shown when those before them were reserved.
            let leaps = n % 25 == 20;
            if !leaps {
                say("shown", &samples);
            }
            journal.append(batch.into_iter().map(Into::into).collect()).await.unwrap().unwrap();
            say("accepted", &facts);
            say("shown", if leaps { &samples } else { &facts });
        }
    }
}

fn ended(seq: u64) -> Event {
    let result = events::JobResult {
        outcome: events::Outcome::NotSet,
        level_error: None,
        shortfalls: Vec::new(),
        closure: Vec::new(),
        add_millilitres: None,
        recheck_of: None,
        low_by_more_than_millilitres: None,
        found_millilitres: None,
        found_expanded_millilitres: None,
        drivable: None,
        net_millilitres: None,
        expanded_millilitres: None,
        guessed: Box::default(),
        guess_cost: None,
        complaint: None,
        untold: Vec::new(),
        open: Vec::new(),
        recheck_due: Vec::new(),
    };
    event(seq, Body::Result(result))
}

#[test]
fn no_accepted_fact_is_lost_in_hundreds_of_power_cuts() {
    let folder = tempfile::tempdir().unwrap();
    let (live, into) = (folder.path().join("live"), folder.path().join("cut"));
    std::fs::create_dir(&live).unwrap();
    let calls = trace("a_writer_that_is_traced", &live);
    let mut disk = Disk::of(&live);
    let mut chance = Chance(0xC0DE);
    let (mut cuts, mut said) = (0, 0);
    for call in &calls {
        disk.play(call);
        // Where something was just accepted or shown with nothing but what is synced, and at one in so many moments with anything else.
        if disk.said.len() > said {
            said = disk.said.len();
            cut(&disk, &into, 0, &mut chance);
            cuts += 1;
        } else if disk.naming.len() + disk.durable_names.len() > 0 && chance.below(6) == 0 {
            let share = chance.below(101);
            cut(&disk, &into, share, &mut chance);
            cuts += 1;
        }
    }
    let accepted = numbers(&disk.said, "accepted ").count();
    assert!(accepted > 100, "{accepted} facts");
    assert!(cuts > 300, "{cuts} cuts");
    let shown = numbers(&disk.said, "shown ").max().unwrap();
    assert!(shown > 2 * super::RESERVE, "numbers were reserved anew: {shown}");
}

/// A whole daemon with a client that tells and says what it sees, and when.
#[tokio::test]
#[ignore = "it is the child of the test below"]
async fn a_daemon_that_is_traced() {
    use tokio::io::{AsyncBufReadExt as _, AsyncWriteExt as _};
    let Some(folder) = std::env::var_os("STANDPIPE_TEST_JOURNAL").map(PathBuf::from) else { return };
    let daemon = crate::Daemon::start(crate::Config {
        bay: "bay".to_owned(),
        sheet: events::Sheet::parse(include_str!("../../../../fixtures/sheets/demo-six-speed.toml")).unwrap(),
        sheets: Vec::new(),
        socket: folder.join("socket"),
        socket_group: None,
        journal: folder.clone(),
        opener: Some(std::sync::Arc::new(adapter::Device::Serial {
            path: folder.join("no-adapter"),
            baud: None,
        })),
        clock: std::sync::Arc::new(crate::SystemClock::start()),
        version: "test".to_owned(),
        limits: crate::Limits::default(),
        memory: crate::Memory::default(),
        recorder: None,
        machine: None,
        find: None,
    });
    let running = tokio::spawn(daemon.unwrap().run(std::future::pending()));
    let stream = tokio::net::UnixStream::connect(folder.join("socket")).await.unwrap();
    let (reading, mut out) = stream.into_split();
    let mut lines = tokio::io::BufReader::new(reading).lines();
    for n in 0..40 {
        // Measurements, since remarks have a pace.
        let level = format!(r#""tell":"level","pitch_degrees":0.{n:02},"roll_degrees":0.1"#);
        let tell = if n == 0 { r#""tell":"start""#.to_owned() } else { level };
        out.write_all(format!("{{\"id\":\"{n}\",{tell}}}\n").as_bytes()).await.unwrap();
        loop {
            let line: serde_json::Value =
                serde_json::from_str(&lines.next_line().await.unwrap().unwrap()).unwrap();
            let kind = line["kind"].as_str().unwrap_or_default();
            if kind == "snapshot" || kind == "hello" {
                continue;
            }
            assert_ne!(kind, "refused", "{line}");
            std::io::stdout().write_all(format!("accepted {}\n", line["seq"]).as_bytes()).unwrap();
            std::io::stdout().flush().unwrap();
            if kind == "accepted" {
                break;
            }
        }
    }
    running.abort();
}

#[test]
fn nobody_sees_a_fact_or_an_answer_before_it_is_on_the_disk() {
    let folder = tempfile::tempdir().unwrap();
    let (live, into) = (folder.path().join("live"), folder.path().join("cut"));
    std::fs::create_dir(&live).unwrap();
    let calls = trace("a_daemon_that_is_traced", &live);
    let mut disk = Disk::of(&live);
    let mut chance = Chance(1);
    let mut accepted = 0;
    for call in &calls {
        disk.play(call);
        let heard = numbers(&disk.said, "accepted ").count();
        if heard > accepted {
            accepted = heard;
            cut(&disk, &into, 0, &mut chance);
        }
    }
    assert!(accepted > 60, "{accepted} were heard");
}

/// Opens a damaged journal, as a daemon does at its start.
#[test]
#[ignore = "it is the child of the test below"]
fn a_repair_that_is_traced() {
    let Some(folder) = std::env::var_os("STANDPIPE_TEST_JOURNAL") else { return };
    drop(Journal::open(folder.as_ref(), "bay").unwrap());
}

/// The power goes at each call of a repair: what can be saved is saved all the same, by the next start.
#[tokio::test]
async fn a_repair_loses_nothing_more_wherever_the_power_goes() {
    for (what, file, at) in [("the file", "bay.journal", 13 * 4_096), ("its log", "bay.journal-wal", 30_000)]
    {
        let folder = tempfile::tempdir().unwrap();
        let (live, into) = (folder.path().join("live"), folder.path().join("cut"));
        let mut chance = Chance(0xAB);
        let (journal, restored) = Journal::open(&live, "bay").unwrap();
        for n in 0..40 {
            let seq = restored.next.0 + 4 * n;
            let batch = (seq..seq + 4).map(|seq| made(seq, &mut chance).into()).collect();
            journal.append(batch).await.unwrap().unwrap();
        }
        // The file as an orderly end leaves it, the log as a kill does; and damaged.
        let names = ["bay.journal", "bay.journal-wal", "bay.journal.last", "bay.lock"];
        let killed = names.map(|name| (name, std::fs::read(live.join(name)).unwrap()));
        drop(journal);
        if file != "bay.journal" {
            killed.iter().for_each(|(name, bytes)| std::fs::write(live.join(name), bytes).unwrap());
        }
        let mut bytes = std::fs::read(live.join(file)).unwrap();
        bytes[at..at + 4_000].fill(0x5A);
        std::fs::write(live.join(file), bytes).unwrap();
        let mut disk = Disk::found(&live);
        let calls = trace("a_repair_that_is_traced", &live);
        let path = live.join("bay.journal");
        let want: Vec<String> = told_events(&path);
        assert!(want.len() > 100, "{what}: {} are saved", want.len());
        let mut cuts = 0;
        // While the word of the repair itself is on its way to the disk, some of what belongs to it may come there alone.
        let word: String = "journal-repaired".bytes().map(|byte| format!("\\x{byte:02x}")).collect();
        let mut left = 0_u32;
        for call in &calls {
            disk.play(call);
            if call.name == "pwrite64" && call.arguments.iter().any(|text| text.contains(&word)) {
                left = 6;
            }
            let closely = left > 0;
            left = left.saturating_sub(1);
            if !closely && (call.name == "close" || (call.name == "pwrite64" && chance.below(3) > 0)) {
                continue;
            }
            let share = [0, 100, chance.below(101)][usize::try_from(chance.below(3)).unwrap()];
            let shares: &[u64] =
                if closely { &[0, 50, 60, 65, 70, 75, 80, 85, 90, 95, 100] } else { &[share] };
            for share in shares {
                disk.lay(&into, *share, &mut chance);
                let (again, _) = Journal::open(&into, "bay")
                    .unwrap_or_else(|e| panic!("{what}, call {}: {e}", disk.calls));
                drop(again);
                assert_eq!(
                    told_events(&into.join("bay.journal")),
                    want,
                    "{what}: after call {} with {share} of 100",
                    disk.calls
                );
            }
            cuts += 1;
        }
        assert!(cuts > 30, "{what}: {cuts}");
    }
}

/// What was written, without the word of the repair; and that there is one.
fn told_events(path: &Path) -> Vec<String> {
    let connection = super::open::reader(path).unwrap();
    let mut select = connection.prepare("SELECT line FROM event ORDER BY seq").unwrap();
    let lines: Vec<String> = select.query_map([], |row| row.get(0)).unwrap().map(Result::unwrap).collect();
    let (said, written): (Vec<String>, Vec<String>) =
        lines.into_iter().partition(|line| line.contains("journal-repaired"));
    assert_eq!(said.len(), 1, "it is told once");
    written
}

#[test]
fn the_disk_forgets_what_was_not_synced() {
    let text = "\
1 openat(AT_FDCWD, \"\\x2f\\x66\\x2f\\x61\", O_RDWR|O_CREAT, 0600) = 7\n\
1 pwrite64(7, \"\\x41\\x42\", 2, 0) = 2\n\
2 openat(AT_FDCWD, \"\\x2f\\x66\", O_RDONLY) = 8\n\
1 fsync(7 <unfinished ...>\n\
2 pwrite64(7, \"\\x43\", 1, 2) = 1\n\
1 <... fsync resumed>) = 0 (DELAYED)\n\
2 fsync(8) = 0\n\
2 write(1, \"\\x61\\x63\\x63\\x65\\x70\\x74\\x65\\x64\\x20\\x35\\x0a\", 11) = 11\n";
    let calls = Call::all(text);
    assert_eq!(calls.len(), 7);
    let mut disk = Disk::of(Path::new("/f"));
    let mut chance = Chance(1);
    calls.iter().take(5).for_each(|call| disk.play(call));
    assert!(disk.durable_names.is_empty(), "its name is not on the disk yet");
    assert_eq!(disk.torn(0, 0, &mut chance), b"AB", "what was written while the sync went on is not synced");
    assert_eq!(disk.torn(0, 100, &mut chance), b"ABC");
    calls.iter().skip(5).for_each(|call| disk.play(call));
    assert_eq!(disk.durable_names.len(), 1);
    assert_eq!(numbers(&disk.said, "accepted ").collect::<Vec<_>>(), [5]);
}
