//! What is kept and what is not: events of newer programs, files that are no damage, the end of a job with its seal and days.

use events::{Outcome, Utc};
use rusqlite::params;

use super::*;
use crate::journal::schema::FORMAT;
use crate::journal::unopened::Unopened;
use crate::{due, job_seal, verify};

fn result_of(outcome: Outcome, recheck_of: Option<u64>) -> events::JobResult {
    let line = serde_json::json!({ "outcome": outcome.word(), "recheck_of": recheck_of });
    serde_json::from_value(line).unwrap()
}

/// A batch of one line, sealed as the last one, by a program of another version.
fn write_elsewhere(path: &Path, seq: u64, line: &str) {
    let connection = rusqlite::Connection::open(path).unwrap();
    let (_, head) = seal::before(&connection, seq).unwrap();
    let mut sealer = seal::Sealer::after(&head);
    sealer.event(seq, line.as_bytes());
    let sql = "INSERT INTO event (seq, job, kind, fact, at_ms, line) VALUES (?1, 1, 'aura', 1, 0, ?2)";
    connection.execute(sql, params![seq, line]).unwrap();
    let sql = "INSERT INTO seal (last, hash, first) VALUES (?1, ?2, ?1)";
    connection.execute(sql, params![seq, sealer.seal().as_slice()]).unwrap();
    connection.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(())).unwrap();
}

#[tokio::test]
async fn an_event_of_a_newer_kind_is_taken_over_by_a_repair() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bay.journal");
    {
        let (journal, _) = Journal::open(folder.path(), "bay").unwrap();
        write(&journal, vec![started(1, 1)]).await;
        write(&journal, (2..=3_000).map(|n| event(Seq(n))).collect()).await;
    }
    let newer = r#"{"seq":3001,"at":"2030-01-01T00:00:00Z","mono_ms":1,"kind":"aura","colour":"amber"}"#;
    write_elsewhere(&path, 3_001, newer);
    let mut bytes = std::fs::read(&path).unwrap();
    let middle = bytes.len() / 2 / 4_096 * 4_096;
    bytes[middle..middle + 4_096].fill(0xAA);
    std::fs::write(&path, bytes).unwrap();

    let (_journal, restored) = Journal::open(folder.path(), "bay").unwrap();
    assert!(restored.repaired.is_some());
    let kept = rusqlite::Connection::open(&path).unwrap();
    let row = kept
        .query_row("SELECT kind, line FROM event WHERE seq = 3001", [], |row| {
            Ok((row.get::<_, String>(0)?, row.get::<_, String>(1)?))
        })
        .unwrap();
    assert_eq!(row, ("aura".to_owned(), newer.to_owned()));
}

#[test]
fn what_is_no_damage_starts_no_repair() {
    use rusqlite::{Error, ffi};
    let database = |code| Unopened::Database(Error::SqliteFailure(ffi::Error::new(code), None));
    let other_things = [
        ffi::SQLITE_CANTOPEN,
        ffi::SQLITE_PERM,
        ffi::SQLITE_READONLY,
        ffi::SQLITE_FULL,
        ffi::SQLITE_BUSY,
        ffi::SQLITE_LOCKED,
        ffi::SQLITE_IOERR,
        ffi::SQLITE_NOMEM,
        ffi::SQLITE_PROTOCOL,
        ffi::SQLITE_NOLFS,
        ffi::SQLITE_INTERRUPT,
    ];
    for code in other_things {
        assert!(!database(code).is_damage(), "{code}");
    }
    assert!(!Unopened::Newer(FORMAT + 1).is_damage());
    assert!(!Unopened::File(std::io::ErrorKind::PermissionDenied.into()).is_damage());
    for code in [ffi::SQLITE_CORRUPT, ffi::SQLITE_NOTADB, ffi::SQLITE_ERROR, ffi::SQLITE_MISMATCH] {
        assert!(database(code).is_damage(), "{code}");
    }
    assert!(Unopened::Damaged(String::new()).is_damage());
}

#[tokio::test]
async fn a_journal_of_a_newer_program_is_left_as_it_is() {
    let folder = tempfile::tempdir().unwrap();
    drop(Journal::open(folder.path(), "bay").unwrap());
    let path = folder.path().join("bay.journal");
    let newer = rusqlite::Connection::open(&path).unwrap();
    newer.pragma_update(None, "user_version", FORMAT + 1).unwrap();
    drop(newer);
    assert!(matches!(Journal::open(folder.path(), "bay"), Err(ServiceError::JournalNewer { .. })));
    assert!(!folder.path().join("bay.journal.damaged-1").exists(), "nothing was repaired");
}

#[tokio::test]
async fn an_empty_file_is_new_by_itself_and_damage_beside_a_log() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bay.journal");
    std::fs::write(&path, b"").unwrap();
    let (_, restored) = Journal::open(folder.path(), "bay").unwrap();
    assert_eq!(restored.repaired, None);
    // In another folder, so that no note of this one speaks of it.
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("bay.journal"), b"").unwrap();
    std::fs::write(folder.path().join("bay.journal-wal"), vec![0; 4_096]).unwrap();
    let (_, restored) = Journal::open(folder.path(), "bay").unwrap();
    assert!(restored.repaired.unwrap().contains("it is empty"));
}

#[tokio::test]
async fn a_job_that_ended_has_its_seal_and_its_days_and_a_running_one_has_neither() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bay.journal");
    let (journal, _) = Journal::open(folder.path(), "bay").unwrap();
    write(&journal, vec![started(1, 1), event(Seq(2))]).await;
    assert_eq!(job_seal(&path, 1).unwrap(), None, "it runs");
    assert!(due(&path, Utc::from_millis(i64::MAX), 9).unwrap().is_empty());
    let days = [Utc::from_millis(300_000), Utc::from_millis(1_400_000)];
    let result = events::JobResult { recheck_due: days.to_vec(), ..result_of(Outcome::Set, None) };
    write(&journal, vec![with_body(3, Body::Result(result))]).await;
    let seal = job_seal(&path, 1).unwrap().expect("it ended");
    assert_eq!(seal, verify(&path, Some(1)).unwrap().seal);
    let asked = due(&path, Utc::from_millis(1_000_000), 9).unwrap();
    assert_eq!(asked.iter().map(|due| (due.job, due.due)).collect::<Vec<_>>(), [(1, days[0])]);
    // A recheck that could not tell answers nothing; one that could answers all of them.
    let again = |seq, outcome| with_body(seq, Body::Result(result_of(outcome, Some(1))));
    write(&journal, vec![started(4, 2), again(5, Outcome::NotSet)]).await;
    assert_eq!(due(&path, Utc::from_millis(i64::MAX), 9).unwrap().len(), 2);
    write(&journal, vec![started(6, 3), again(7, Outcome::Set)]).await;
    assert!(due(&path, Utc::from_millis(i64::MAX), 9).unwrap().is_empty());
}
