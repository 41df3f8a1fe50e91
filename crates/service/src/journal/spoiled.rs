//! Damage of every kind against a journal: nothing that is lost or changed stays untold, no number is used again, and little damage loses little.
//!
//! A journal is written, killed or ended in order, and damaged: bits, pages, the log, the length, the note, the file itself, a repair that is cut short. Then it is opened,
//! as a daemon does, until it opens without a word. What it holds is compared with what was written, event by event. The damages are drawn from a seed, which a failure
//! prints. `docs/journal.md` has the table that this prints.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use events::{Body, Event, Fault, Seq};

use super::durability::{Chance, event, made};
use super::{Journal, Restored, note, open};

/// A journal as it lies on the disk, and what is in it.
struct Written {
    files: BTreeMap<String, Vec<u8>>,
    lines: BTreeMap<u64, String>,
    /// Everything up to here was promised.
    promised: u64,
    /// Numbers up to here were shown.
    shown: u64,
    last_job: u64,
    /// A copy of all of it from the middle of its life.
    older: BTreeMap<String, Vec<u8>>,
}

const FILE: &str = "bay.journal";
const LOG: &str = "bay.journal-wal";
const NOTE: &str = "bay.journal.last";

/// How a journal was left.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Left {
    /// In order: all of it is in the file.
    InOrder,
    /// Killed: most of it is in the log.
    Killed,
}

/// Everything in a folder but SQLite's index of the log, which lives with the process.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let entries = std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()).filter(|p| p.is_file());
    let name = |p: &PathBuf| p.file_name().unwrap().to_string_lossy().into_owned();
    let wanted = entries.filter(|p| !name(p).ends_with("-shm") && !name(p).ends_with(".lock"));
    wanted.map(|p| (name(&p), std::fs::read(&p).unwrap())).collect()
}

fn lay(files: &BTreeMap<String, Vec<u8>>, folder: &Path) {
    let _ = std::fs::remove_dir_all(folder);
    std::fs::create_dir(folder).unwrap();
    for (name, bytes) in files {
        std::fs::write(folder.join(name), bytes).unwrap();
    }
}

/// Some hundred events in batches, over two starts. With `long`, some megabytes.
fn write(left: Left, long: bool, seed: u64) -> Written {
    let folder = tempfile::tempdir().unwrap();
    let runtime = tokio::runtime::Builder::new_current_thread().build().unwrap();
    let mut chance = Chance(seed);
    let mut lines = BTreeMap::new();
    let (mut older, mut files_now, mut last_job, mut seq) = (BTreeMap::new(), BTreeMap::new(), 0, 0);
    let batches = if long { 700 } else { 60 };
    for start in 0..2 {
        let (journal, restored) = Journal::open(folder.path(), "bay").unwrap();
        seq = restored.next.0;
        for n in 0..batches {
            let mut batch = Vec::new();
            for _ in 0..=chance.below(if long { 20 } else { 5 }) {
                let next = made(seq, &mut chance);
                if let Body::Job { job, .. } = next.body {
                    last_job = job;
                }
                lines.insert(seq, serde_json::to_string(&next).unwrap());
                batch.push(next);
                seq += 1;
            }
            runtime.block_on(journal.append(batch.into_iter().map(Into::into).collect())).unwrap().unwrap();
            if start == 0 && n == batches / 2 {
                older = files(folder.path());
            }
        }
        if start == 1 && left == Left::Killed {
            // One more fact, so that all of it is promised.
            let fact = event(seq, Body::Advice(events::Advice::StayClear.into()));
            lines.insert(seq, serde_json::to_string(&fact).unwrap());
            runtime.block_on(journal.append(vec![fact.into()])).unwrap().unwrap();
            files_now = files(folder.path());
        }
        drop(journal);
        if start == 1 && left == Left::InOrder {
            files_now = files(folder.path());
        }
    }
    let promised = note_of(&files_now);
    Written { files: files_now, lines, promised, shown: seq, last_job, older }
}

fn note_of(files: &BTreeMap<String, Vec<u8>>) -> u64 {
    let folder = tempfile::tempdir().unwrap();
    lay(files, &folder.path().join("x"));
    note::read(&folder.path().join("x").join(FILE)).unwrap().note().unwrap().last
}

/// A kind of damage. It gives in words what it did.
type Harm = fn(&mut Written2, &mut Chance) -> String;

/// What a damage works on.
struct Written2 {
    files: BTreeMap<String, Vec<u8>>,
    older: BTreeMap<String, Vec<u8>>,
}

impl Written2 {
    fn of(&mut self, name: &str) -> &mut Vec<u8> {
        self.files.entry(name.to_owned()).or_default()
    }

    fn flip(&mut self, name: &str, from: usize, to: usize, chance: &mut Chance) -> String {
        let bytes = self.of(name);
        let at = from + pick(to - from, chance);
        let bit = chance.below(8);
        bytes[at] ^= 1 << bit;
        format!("bit {bit} of byte {at} of {name}")
    }
}

fn pick(n: usize, chance: &mut Chance) -> usize {
    usize::try_from(chance.below(n as u64)).unwrap()
}

/// One row a kind: its name, how the journal was left, how often, what is done.
const KINDS: &[(&str, Left, u32, Harm)] = &[
    ("a bit of the file", Left::InOrder, 250, |w, c| {
        let length = w.of(FILE).len();
        w.flip(FILE, 0, length, c)
    }),
    ("a bit of the head", Left::InOrder, 100, |w, c| w.flip(FILE, 0, 100, c)),
    ("a page of noise", Left::InOrder, 120, |w, c| {
        let page = pick(w.of(FILE).len() / 4_096, c);
        let noise: Vec<u8> = (0..4_096).map(|_| u8::try_from(c.below(256)).unwrap()).collect();
        w.of(FILE)[page * 4_096..][..4_096].copy_from_slice(&noise);
        format!("page {page} is noise")
    }),
    ("a page of zeros", Left::InOrder, 80, |w, c| {
        let page = pick(w.of(FILE).len() / 4_096, c);
        w.of(FILE)[page * 4_096..][..4_096].fill(0);
        format!("page {page} is zeros")
    }),
    ("a page in another's place", Left::InOrder, 60, |w, c| {
        let pages = w.of(FILE).len() / 4_096;
        let (from, to) = (pick(pages, c), pick(pages, c));
        w.of(FILE).copy_within(from * 4_096..(from + 1) * 4_096, to * 4_096);
        format!("page {from} over page {to}")
    }),
    ("a byte that is no text", Left::InOrder, 80, |w, c| {
        let length = w.of(FILE).len();
        let at = pick(length, c);
        w.of(FILE)[at] = 0xFF;
        format!("FF at byte {at}")
    }),
    ("cut within the last page", Left::InOrder, 60, |w, c| {
        let length = w.of(FILE).len() - 1 - pick(4_095, c);
        w.of(FILE).truncate(length);
        format!("the file is cut to {length}")
    }),
    ("cut anywhere", Left::InOrder, 60, |w, c| {
        let length = pick(w.of(FILE).len(), c);
        w.of(FILE).truncate(length);
        format!("the file is cut to {length}")
    }),
    ("a bit of the log", Left::Killed, 250, |w, c| {
        let length = w.of(LOG).len();
        w.flip(LOG, 0, length, c)
    }),
    ("the log's first page", Left::Killed, 60, |w, c| w.flip(LOG, 0, 4_152, c)),
    ("the log is cut", Left::Killed, 60, |w, c| {
        let length = pick(w.of(LOG).len(), c);
        w.of(LOG).truncate(length);
        format!("the log is cut to {length}")
    }),
    ("the log is gone", Left::Killed, 4, |w, _| {
        w.files.remove(LOG);
        "no log".to_owned()
    }),
    ("a bit of the file beside a log", Left::Killed, 60, |w, c| {
        let length = w.of(FILE).len();
        w.flip(FILE, 0, length, c)
    }),
    ("the file is gone", Left::InOrder, 2, |w, _| {
        w.files.remove(FILE);
        "no file".to_owned()
    }),
    ("the file is gone, not its log", Left::Killed, 2, |w, _| {
        w.files.remove(FILE);
        "no file".to_owned()
    }),
    ("the file is empty", Left::InOrder, 2, |w, _| {
        w.of(FILE).clear();
        "an empty file".to_owned()
    }),
    ("an older copy of the file", Left::InOrder, 2, |w, _| {
        for name in [FILE, LOG] {
            match w.older.get(name) {
                Some(bytes) => drop(w.files.insert(name.to_owned(), bytes.clone())),
                None => drop(w.files.remove(name)),
            }
        }
        "the file of before".to_owned()
    }),
    ("a bit of the note", Left::Killed, 60, |w, c| {
        let length = w.of(NOTE).len();
        w.flip(NOTE, 0, length, c)
    }),
    ("the note is gone", Left::Killed, 2, |w, _| {
        w.files.remove(NOTE);
        "no note".to_owned()
    }),
    ("an older note", Left::Killed, 2, |w, _| {
        let older = w.older[NOTE].clone();
        *w.of(NOTE) = older;
        "the note of before".to_owned()
    }),
];

/// What became of a damaged journal.
struct Outcome {
    saved: f64,
    /// At the start.
    told: bool,
    /// Not at the start, but by `jobs verify`.
    verified: bool,
}

/// Opens it as a daemon does, and looks at what is there.
fn judge(written: &Written, folder: &Path, what: &str) -> Outcome {
    let (journal, restored) = Journal::open(folder, "bay").unwrap_or_else(|e| panic!("{what}: {e}"));
    drop(journal);
    let path = folder.join(FILE);
    let connection = open::reader(&path).unwrap();
    let mut select = connection.prepare("SELECT seq, line FROM event ORDER BY seq").unwrap();
    let held: BTreeMap<u64, Vec<u8>> = select
        .query_map([], |row| Ok((row.get(0)?, row.get_ref(1)?.as_bytes().unwrap().to_vec())))
        .unwrap()
        .map(Result::unwrap)
        .collect();
    let told = told(&restored, &held);
    let numbers = spans(&told);
    let (mut saved, mut verified) = (0_usize, false);
    for (seq, line) in &written.lines {
        if held.get(seq).is_some_and(|found| found == line.as_bytes()) {
            saved += 1;
        } else if *seq <= written.promised {
            let named = numbers.iter().any(|(first, last)| (first..=last).contains(&seq));
            verified |= !named;
            assert!(
                named || in_old_job(&connection, &restored, *seq),
                "{what}: the event {seq} is lost or changed, and not told: {told:?}"
            );
        }
    }
    // Whatever is there and was not written is the repair's own word.
    for (seq, line) in held.iter().filter(|(seq, _)| !written.lines.contains_key(seq)) {
        let event: Event = serde_json::from_slice(line).unwrap_or_else(|e| panic!("{what}: {seq}: {e}"));
        assert!(matches!(event.body, Body::Fault { fault: Fault::JournalRepaired, .. }), "{what}: {event:?}");
        assert!(event.seq > Seq(written.shown), "{what}: {} was used before", event.seq);
    }
    assert!(restored.next > Seq(written.shown - 1), "{what}: numbers begin again at {}", restored.next);
    assert!(
        restored.last_job >= written.last_job || numbers.iter().any(|(_, last)| *last >= written.promised),
        "{what}: job {}",
        restored.last_job
    );
    // A second start has nothing to repair.
    drop(select);
    drop(connection);
    let (journal, again) = Journal::open(folder, "bay").unwrap_or_else(|e| panic!("{what}: again: {e}"));
    drop(journal);
    assert_eq!(again.repaired, None, "{what}: it is repaired once");
    assert!(again.next > restored.next, "{what}");
    Outcome { saved: saved as f64 / written.lines.len() as f64, told: !told.is_empty(), verified }
}

/// What a seal of an older job shows only to `jobs verify`: a start walks the last job.
fn in_old_job(connection: &rusqlite::Connection, restored: &Restored, seq: u64) -> bool {
    let first: u64 = connection
        .query_row("SELECT first FROM job WHERE number = ?1", [restored.last_job], |row| row.get(0))
        .unwrap_or(0);
    if seq >= first {
        return false;
    }
    let path = PathBuf::from(connection.path().unwrap());
    let found = super::read::verify(&path, None).unwrap();
    found.broken.into_iter().chain(found.also_broken).any(|(a, b)| (a..=b).contains(&Seq(seq)))
}

/// Everything that is told: what the journal itself says, and what the daemon will.
fn told(restored: &Restored, held: &BTreeMap<u64, Vec<u8>>) -> Vec<String> {
    let faults = held.values().filter_map(|line| match serde_json::from_slice::<Event>(line).ok()?.body {
        Body::Fault { fault: Fault::JournalRepaired, detail, .. } => detail,
        _ => None,
    });
    faults.chain(restored.damaged.clone()).collect()
}

/// The numbers that a sentence names: "41 to 48 (…", "7 (missing)".
fn spans(told: &[String]) -> Vec<(u64, u64)> {
    let mut found = Vec::new();
    for said in told {
        let Some((_, named)) = said.split_once("as they were written: ") else { continue };
        for part in named.split(", ").flat_map(|part| part.split("; ")) {
            let words: Vec<&str> = part.split(' ').collect();
            let number = |n: usize| words.get(n).and_then(|w| w.parse::<u64>().ok());
            match (number(0), words.get(1).copied(), number(2)) {
                (Some(first), Some("to"), Some(last)) => found.push((first, last)),
                (Some(first), Some(w), _) if w.starts_with('(') => found.push((first, first)),
                _ => {}
            }
            if let Some(at) = part.find("more between ") {
                let ends: Vec<u64> = part[at..].split(' ').filter_map(|w| w.parse().ok()).collect();
                found.push((ends[0], ends[1]));
            }
        }
    }
    found
}

fn median(values: &mut [f64]) -> f64 {
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}

/// A folder that is in memory where there is one: the test writes thousands of small files.
fn scratch() -> tempfile::TempDir {
    tempfile::tempdir_in("/dev/shm").or_else(|_| tempfile::tempdir()).unwrap()
}

#[test]
fn no_damage_is_silent_no_number_begins_again_and_little_loses_little() {
    let folder = scratch();
    let (in_order, killed) = (write(Left::InOrder, false, 3), write(Left::Killed, false, 5));
    let mut chance = Chance(0xDA_4A6E);
    let mut all = Vec::new();
    let mut table = String::from(
        "| damage | tried | events saved, median | least | told at the start | by `jobs verify` alone |\n| --- | --- | --- | --- | --- | --- |\n",
    );
    for (kind, left, times, harm) in KINDS {
        let written = if *left == Left::InOrder { &in_order } else { &killed };
        let (mut saved, mut told, mut verified) = (Vec::new(), 0, 0);
        for n in 0..*times {
            let seed = chance.next();
            let mut harmed = Written2 { files: written.files.clone(), older: written.older.clone() };
            let did = harm(&mut harmed, &mut Chance(seed | 1));
            let here = folder.path().join("here");
            lay(&harmed.files, &here);
            let outcome = judge(written, &here, &format!("{kind} {n}, seed {seed:#x}: {did}"));
            saved.push(outcome.saved);
            told += u32::from(outcome.told);
            verified += u32::from(outcome.verified);
        }
        all.extend_from_slice(&saved);
        let least = saved.iter().copied().fold(1.0, f64::min);
        let row = format!(
            "| {kind} | {times} | {:.1} % | {:.1} % | {told} | {verified} |\n",
            100.0 * median(&mut saved),
            100.0 * least
        );
        table.push_str(&row);
    }
    let tried = all.len();
    let middle = median(&mut all);
    println!("{table}\n{tried} damages; half of them save {:.1} % at least", 100.0 * middle);
    assert!(tried >= 1_000, "{tried}");
    assert!(middle >= 0.95, "half of the damages save less than {middle}");
}

/// A journal of some megabytes, in which a page is a small part.
#[test]
fn a_large_journal_loses_a_page_and_no_more() {
    let folder = scratch();
    let written = write(Left::InOrder, true, 11);
    assert!(written.files[FILE].len() > 3_000_000, "{}", written.files[FILE].len());
    let mut chance = Chance(0xB16);
    for n in 0..12 {
        let mut files = written.files.clone();
        let bytes = files.get_mut(FILE).unwrap();
        let page = pick(bytes.len() / 4_096, &mut chance);
        bytes[page * 4_096..][..4_096].fill(0xAA);
        let here = folder.path().join("here");
        lay(&files, &here);
        let outcome = judge(&written, &here, &format!("{n}: page {page}"));
        assert!(outcome.saved > 0.99, "page {page}: {}", outcome.saved);
    }
}

/// Each moment of a repair may be the last: the next start does it again and has all of it.
#[test]
fn a_repair_that_is_cut_short_at_any_step_is_done_again() {
    let folder = scratch();
    let written = write(Left::Killed, false, 9);
    let mut spoiled = written.files.clone();
    let at = spoiled[FILE].len() / 2 / 4_096 * 4_096;
    spoiled.get_mut(FILE).unwrap()[at..at + 4_096].fill(0x55);
    spoiled.get_mut(LOG).unwrap()[60_000] ^= 4;
    let here = folder.path().join("here");
    lay(&spoiled, &here);
    let whole = judge(&written, &here, "in one go");
    let (marker, aside, aside_log) =
        ("bay.journal.repairing", "bay.journal.damaged-1", "bay.journal.damaged-1-wal");
    let half = std::fs::read(here.join(FILE)).unwrap();
    let moved = |names: &[(&str, &str)]| {
        let mut files = spoiled.clone();
        files.insert(marker.to_owned(), Vec::new());
        for (from, to) in names {
            let bytes = files.remove(*from).unwrap();
            files.insert((*to).to_owned(), bytes);
        }
        files
    };
    let mut steps = vec![
        ("the sign is there", moved(&[])),
        ("the file is moved", moved(&[(FILE, aside)])),
        ("its log too", moved(&[(FILE, aside), (LOG, aside_log)])),
    ];
    for share in [1, 4_096, half.len() / 2, half.len() - 1, half.len()] {
        let mut files = moved(&[(FILE, aside), (LOG, aside_log)]);
        files.insert(marker.to_owned(), half[..share].to_vec());
        files.insert(format!("{marker}-journal"), vec![1; 600]);
        steps.push(("the new file is filled", files));
    }
    for (step, files) in steps {
        lay(&files, &here);
        let outcome = judge(&written, &here, step);
        assert!(
            (outcome.saved - whole.saved).abs() < 1e-9,
            "{step}: {} and not {}",
            outcome.saved,
            whole.saved
        );
        assert!(outcome.told, "{step}: it is told");
        let names: Vec<String> = files_in(&here);
        assert!(
            names.contains(&aside.to_owned()) && !names.iter().any(|n| n.contains("repairing")),
            "{step}: {names:?}"
        );
    }
}

/// The same for a log that is brought in: the copy is there before SQLite touches it.
#[test]
fn a_log_that_is_brought_in_and_cut_short_is_brought_in_again() {
    let folder = scratch();
    let written = write(Left::Killed, false, 21);
    let mut spoiled = written.files.clone();
    spoiled.get_mut(LOG).unwrap()[30_000] ^= 4;
    let here = folder.path().join("here");
    lay(&spoiled, &here);
    let whole = judge(&written, &here, "in one go");
    let copy = spoiled[LOG].clone();
    let with = |log: Option<Vec<u8>>| {
        let mut files = spoiled.clone();
        files.insert("bay.journal.repairing".to_owned(), Vec::new());
        files.insert("bay.journal.damaged-1-wal".to_owned(), copy.clone());
        match log {
            Some(log) => drop(files.insert(LOG.to_owned(), log)),
            None => drop(files.remove(LOG)),
        }
        files
    };
    for (step, files) in [
        ("copied", with(Some(copy.clone()))),
        ("the log is emptied", with(Some(Vec::new()))),
        ("the log is gone", with(None)),
        ("the log is written over", with(Some(copy[..20_000].to_vec()))),
    ] {
        lay(&files, &here);
        let outcome = judge(&written, &here, step);
        assert!(
            (outcome.saved - whole.saved).abs() < 1e-9,
            "{step}: {} and not {}",
            outcome.saved,
            whole.saved
        );
        assert!(!files_in(&here).iter().any(|n| n.contains("repairing")), "{step}");
    }
}

fn files_in(folder: &Path) -> Vec<String> {
    std::fs::read_dir(folder)
        .unwrap()
        .map(|e| e.unwrap().file_name().to_string_lossy().into_owned())
        .collect()
}
