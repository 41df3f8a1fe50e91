//! `kill -9` against the journal, copies of it, and the stream of made-up events that these tests and others write.
//!
//! Not here: power cuts (`power.rs`), damage (`spoiled.rs`).

use std::io::{BufRead as _, Write as _};
use std::path::Path;
use std::process::{Command, Stdio};

use events::{Advice, Body, Estimate, Event, Request, Seq, Sheet, Told, Utc};
use units::{Celsius, Kelvins, Mono};

use super::open::open_and_restore;
use super::rows::Writer;
use super::{read, transfer};
use crate::row::Row;

/// Chance out of a seed.
pub(super) struct Chance(pub(super) u64);

impl Chance {
    pub(super) fn next(&mut self) -> u64 {
        // xorshift64*: Vigna, "An experimental exploration of Marsaglia's xorshift generators", 2016.
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        self.0.wrapping_mul(0x2545_F491_4F6C_DD1D)
    }

    pub(super) fn below(&mut self, n: u64) -> u64 {
        (self.next() >> 16) % n.max(1)
    }
}

pub(super) fn event(seq: u64, body: Body) -> Event {
    let millis = i64::try_from(seq).unwrap_or_default() * 100;
    Event { seq: Seq(seq), at: Utc::from_millis(millis), mono_ms: Mono::from_millis(seq * 100), body }
}

/// The `seq`-th event of a made-up stream of jobs: every 40th begins one, most are told, some are samples.
pub(super) fn made(seq: u64, chance: &mut Chance) -> Event {
    let told = |request| Body::Told(Told { id: format!("t{seq}"), by: None, request });
    let body = match seq % 40 {
        1 => {
            let sheet =
                Sheet::parse(include_str!("../../../../fixtures/sheets/demo-six-speed.toml")).unwrap();
            Body::Job {
                job: seq / 40 + 1,
                sheet: Box::new(sheet),
                recheck_of: None,
                task: events::Task::Change,
                people: events::People::Two,
                uptime: None,
            }
        }
        n if n % 3 == 0 => Body::Estimate(Estimate {
            celsius: Celsius::clamped(chance.below(80) as f64),
            u: Kelvins::clamped(0.6),
            kelvins_per_minute: None,
            fluid: None,
        }),
        n if n % 7 == 0 => Body::Advice(Advice::StayClear.into()),
        _ => told(Request::Note { text: "x".repeat(usize::try_from(chance.below(180)).unwrap_or(0)) }),
    };
    event(seq, body)
}

fn rows(events: &[Event]) -> Vec<Row> {
    events.iter().cloned().map(Row::from).collect()
}

/// The facts that a file holds, by number.
fn facts(path: &Path) -> Vec<Event> {
    let connection = super::open::reader(path).unwrap();
    let mut select = connection.prepare("SELECT line FROM event WHERE fact = 1 ORDER BY seq").unwrap();
    let lines = select.query_map([], |row| row.get::<_, String>(0)).unwrap();
    lines.map(|line| serde_json::from_str(&line.unwrap()).unwrap()).collect()
}

/// The other process: writes, and says after each batch how far it was accepted. It ends only by being killed.
#[test]
#[ignore = "it is the child of the test below"]
fn a_writer_that_is_killed() {
    let Some(folder) = std::env::var_os("STANDPIPE_TEST_JOURNAL") else { return };
    let path = Path::new(&folder).join("bay.journal");
    let (connection, restored) = open_and_restore(&path).unwrap();
    let mut writer = Writer::new(connection, restored.last_job).unwrap();
    let mut seq = restored.next.0;
    let mut chance = Chance(seq | 1);
    let mut out = std::io::stdout().lock();
    loop {
        let mut batch = Vec::new();
        for _ in 0..=chance.below(4) {
            batch.push(made(seq, &mut chance));
            seq += 1;
        }
        writer.append(&rows(&batch)).unwrap();
        let facts = batch.iter().filter(|e| e.body.durability() == events::Durability::Fact);
        for fact in facts {
            writeln!(out, "accepted {}", fact.seq).unwrap();
        }
    }
}

#[test]
fn no_accepted_fact_is_lost_in_hundreds_of_kills() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bay.journal");
    let mut chance = Chance(0xC1D);
    let mut accepted: Vec<u64> = Vec::new();
    for kill in 0..210 {
        let mut child = Command::new(std::env::current_exe().unwrap())
            .args(["--exact", "journal::durability::a_writer_that_is_killed", "--ignored", "--nocapture"])
            .env("STANDPIPE_TEST_JOURNAL", folder.path())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let enough = 1 + chance.below(12);
        let lines = std::io::BufReader::new(child.stdout.take().unwrap()).lines();
        let said = lines
            .map_while(Result::ok)
            .filter_map(|l| l.strip_prefix("accepted ").and_then(|n| n.parse().ok()));
        let mut seen = 0;
        for seq in said {
            accepted.push(seq);
            seen += 1;
            if seen == enough {
                // What it says between now and its death is heard too.
                child.kill().unwrap();
            }
        }
        child.wait().unwrap();
        assert!(seen >= enough, "kill {kill}: it wrote {seen}");
    }
    let kept: std::collections::BTreeSet<u64> = facts(&path).iter().map(|e| e.seq.0).collect();
    let lost: Vec<&u64> = accepted.iter().filter(|seq| !kept.contains(seq)).collect();
    assert!(lost.is_empty(), "{} of {} accepted facts are lost: {lost:?}", lost.len(), accepted.len());
    assert!(accepted.is_sorted_by(|a, b| a < b), "numbers only grow");
    assert_eq!(read::verify(&path, None).unwrap().broken, None);
    assert_eq!(read::check(&path).unwrap(), None);
}

#[test]
fn what_is_exported_and_imported_is_the_same_journal() {
    use proptest::test_runner::{Config, TestRunner};
    let mut runner = TestRunner::new(Config { cases: 24, failure_persistence: None, ..Config::default() });
    let batches = proptest::collection::vec(1_u64..12, 0..20);
    runner
        .run(&(batches, 1_u64..u64::MAX), |(batches, seed)| {
            let folder = tempfile::tempdir().unwrap();
            let path = folder.path().join("bay.journal");
            let mut chance = Chance(seed);
            let (connection, _) = open_and_restore(&path).unwrap();
            let mut writer = Writer::new(connection, 0).unwrap();
            let mut seq = 0;
            for size in batches {
                seq += chance.below(50);
                let batch: Vec<Event> = (0..size).map(|n| made(seq + n + 1, &mut chance)).collect();
                seq += size;
                writer.append(&rows(&batch)).unwrap();
            }
            drop(writer);
            let export = |path: &Path| {
                let mut text = Vec::new();
                transfer::export(path, "bay", None, &mut text).unwrap();
                String::from_utf8(text).unwrap()
            };
            let text = export(&path);
            let other = folder.path().join("other");
            let copy = transfer::import(&mut text.as_bytes(), &other, "bay").unwrap().path;
            assert_eq!(export(&copy), text, "byte for byte");
            let everything = read::JobQuery { limit: 1_000, ..Default::default() };
            assert_eq!(
                read::list_jobs(&copy, &everything).unwrap(),
                read::list_jobs(&path, &everything).unwrap()
            );
            assert_eq!(read::verify(&copy, None).unwrap(), read::verify(&path, None).unwrap());
            // A backup is a journal too.
            let backed = folder.path().join("backup.journal");
            transfer::backup(&path, &backed).unwrap();
            assert_eq!(export(&backed), text);
            assert!(transfer::backup(&path, &backed).is_err(), "it is not written over");
            Ok(())
        })
        .unwrap();
}

#[test]
fn an_export_that_was_changed_is_refused_and_leaves_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bay.journal");
    let mut chance = Chance(7);
    let (connection, _) = open_and_restore(&path).unwrap();
    let mut writer = Writer::new(connection, 0).unwrap();
    writer.append(&rows(&(1..=9).map(|n| made(n, &mut chance)).collect::<Vec<_>>())).unwrap();
    drop(writer);
    let mut text = Vec::new();
    transfer::export(&path, "bay", None, &mut text).unwrap();
    let text = String::from_utf8(text).unwrap();
    let lines: Vec<&str> = text.lines().collect();
    let cases: &[(&str, String, &str)] = &[
        ("an edited event", text.replacen("\"t2\"", "\"t3\"", 1), "does not fit the events before it"),
        (
            "a missing event",
            text.replacen(&format!("{}\n", lines[3]), "", 1),
            "does not fit the events before it",
        ),
        ("two events swapped", text.replacen(lines[3], lines[4], 1), "has the number"),
        ("another file", "{\"a\":1}\n".to_owned(), "is not the head of an export"),
        ("nothing", String::new(), "there is nothing in it"),
        ("no event", text.replacen(lines[2], "{\"seq\":2}", 1), "is no event"),
        ("a line without end", format!("{}\n{}", lines[0], "x".repeat(2_000_000)), "is longer than"),
    ];
    for (what, text, want) in cases {
        let other = folder.path().join("other");
        let said = transfer::import(&mut text.as_bytes(), &other, "bay").expect_err(what).to_string();
        assert!(said.contains(want), "{what}: {said}");
        assert!(said.contains("line "), "{what}: says where: {said}");
        assert!(!other.join("bay.journal").exists() && !other.join("bay.journal.import").exists(), "{what}");
    }
}
