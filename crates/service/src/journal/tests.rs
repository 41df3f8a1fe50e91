//! The journal as the daemon has it: written, damaged, opened again.

use rusqlite::params;

use std::path::{Path, PathBuf};

use super::*;
use events::{Advice, Body, Event, Utc};
use units::Mono;

mod kept;

fn event(seq: Seq) -> Event {
    let body = Body::Advice(Advice::StayClear.into());
    Event { seq, at: Utc::from_millis(1_000), mono_ms: Mono::from_millis(seq.0), body }
}

async fn write(journal: &Journal, events: Vec<Event>) {
    journal.append(events.into_iter().map(Into::into).collect()).await.unwrap().unwrap();
}

#[tokio::test]
async fn numbers_are_never_used_again_even_when_their_event_was_lost() {
    let folder = tempfile::tempdir().unwrap();
    let (journal, restored) = Journal::open(folder.path(), "bay").unwrap();
    assert_eq!(restored.next, Seq(1));
    write(&journal, vec![event(Seq(1)), event(Seq(2))]).await;
    // Numbers 3 to 9 were shown as samples and never written; then the power went.
    drop(journal);
    let (_, restored) = Journal::open(folder.path(), "bay").unwrap();
    assert!(restored.next > Seq(9), "{:?}", restored.next);
}

#[tokio::test]
async fn a_second_daemon_is_kept_off() {
    let folder = tempfile::tempdir().unwrap();
    let _first = Journal::open(folder.path(), "bay").unwrap();
    assert!(matches!(Journal::open(folder.path(), "bay"), Err(ServiceError::InUse { .. })));
    assert!(Journal::open(folder.path(), "other").is_ok());
}

#[tokio::test]
async fn a_file_that_is_no_journal_is_kept_and_told() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bay.journal");
    std::fs::write(&path, vec![b'x'; 8_192]).unwrap();
    let (journal, restored) = Journal::open(folder.path(), "bay").unwrap();
    assert!(restored.repaired.unwrap().contains("bay.journal.damaged-1"));
    write(&journal, vec![event(Seq(1))]).await;
    assert_eq!(std::fs::read(folder.path().join("bay.journal.damaged-1")).unwrap().len(), 8_192);
}

fn with_body(seq: u64, body: Body) -> Event {
    Event { body, ..event(Seq(seq)) }
}

fn started(seq: u64, job: u64) -> Event {
    let sheet =
        events::Sheet::parse(include_str!("../../../../fixtures/sheets/demo-six-speed.toml")).unwrap();
    let body = events::Body::Job {
        job,
        sheet: Box::new(sheet),
        recheck_of: None,
        task: events::Task::Change,
        people: events::People::Two,
        uptime: None,
    };
    Event {
        seq: Seq(seq),
        at: Utc::from_millis(1_000 * i64::try_from(seq).unwrap()),
        mono_ms: Mono::ZERO,
        body,
    }
}

#[tokio::test]
async fn the_last_readings_of_the_job_are_given_back_in_order() {
    let folder = tempfile::tempdir().unwrap();
    let reading = |seq: u64| {
        let measure = events::Measure::Fluid(units::Celsius::clamped(seq as f64 / 1_000.0));
        with_body(seq, Body::Reading(events::Reading { measure, step: None, from: None, age_ms: 0 }))
    };
    {
        let (journal, _) = Journal::open(folder.path(), "bay").unwrap();
        write(&journal, vec![started(1, 1), reading(2), started(3, 2)]).await;
        write(&journal, (4..=9_000).map(reading).collect()).await;
    }
    let (_, restored) = Journal::open(folder.path(), "bay").unwrap();
    assert_eq!(restored.facts.len(), 1);
    let numbers: Vec<u64> = restored.readings.iter().map(|event| event.seq.0).collect();
    assert_eq!(numbers, (9_001 - 8_192..=9_000).collect::<Vec<_>>());
    assert_eq!(restored.readings.last(), Some(&reading(9_000)));
}

#[tokio::test]
async fn a_damaged_page_costs_what_stood_on_it_and_no_more() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bay.journal");
    {
        let (journal, _) = Journal::open(folder.path(), "bay").unwrap();
        write(&journal, vec![started(1, 1)]).await;
        write(&journal, (2..=3_000).map(|n| event(Seq(n))).collect()).await;
    }
    let connection = rusqlite::Connection::open(&path).unwrap();
    connection.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(())).unwrap();
    drop(connection);
    let mut bytes = std::fs::read(&path).unwrap();
    let middle = bytes.len() / 2 / 4_096 * 4_096;
    bytes[middle..middle + 4_096].fill(0xAA);
    std::fs::write(&path, bytes).unwrap();

    let (journal, restored) = Journal::open(folder.path(), "bay").unwrap();
    let said = restored.repaired.unwrap();
    assert!(said.contains("damaged-1") && said.contains("were taken over"), "{said}");
    assert!(restored.next > Seq(3_000), "numbers are not used again: {:?}", restored.next);
    assert_eq!(restored.last_job, 1);
    let kept = journal.reader().read(Seq(2_900), Seq(9_999)).await.unwrap();
    assert!(!kept.is_empty(), "what lies behind the bad page is kept too");
}

#[tokio::test]
async fn a_file_of_the_first_format_is_brought_to_this_one() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bay.journal");
    let old = rusqlite::Connection::open(&path).unwrap();
    old.execute_batch(
        "CREATE TABLE event (seq INTEGER PRIMARY KEY, job INTEGER, kind TEXT NOT NULL, fact INTEGER NOT NULL, at_ms INTEGER NOT NULL, line TEXT NOT NULL) STRICT;
         CREATE INDEX event_by_job ON event (job, seq) WHERE fact = 1;
         CREATE INDEX event_jobs ON event (seq) WHERE kind = 'job';
         CREATE TABLE meta (name TEXT PRIMARY KEY, value INTEGER NOT NULL) STRICT;
         PRAGMA user_version = 1;",
    )
    .unwrap();
    for e in [started(1, 1), event(Seq(2)), started(3, 2), event(Seq(4))] {
        let job = if e.seq < Seq(3) { 1 } else { 2 };
        let line = serde_json::to_string(&e).unwrap();
        old.execute(
            "INSERT INTO event VALUES (?1, ?2, ?3, 1, ?4, ?5)",
            params![e.seq.0, job, e.body.kind(), e.at.as_millis(), line],
        )
        .unwrap();
    }
    drop(old);
    // A reader may come first.
    let listed = read::list_jobs(&path, &read::JobQuery { limit: 10, ..Default::default() }).unwrap();
    assert_eq!(listed.iter().map(|j| j.job).collect::<Vec<_>>(), [2, 1]);
    let (_, restored) = Journal::open(folder.path(), "bay").unwrap();
    assert_eq!((restored.last_job, restored.facts.len(), restored.repaired), (2, 2, None));
    assert_eq!(read::verify(&path, None).unwrap().broken, None);
    assert_eq!(read::read_job(&path, Some(1)).unwrap().events.len(), 2);
}

#[tokio::test]
async fn an_edit_breaks_the_chain_and_says_where() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bay.journal");
    {
        let (journal, _) = Journal::open(folder.path(), "bay").unwrap();
        write(&journal, vec![started(1, 1), event(Seq(2))]).await;
        write(&journal, vec![event(Seq(3)), event(Seq(4))]).await;
        write(&journal, vec![event(Seq(5))]).await;
    }
    let good = read::verify(&path, None).unwrap();
    assert_eq!((good.events, good.seals, good.broken), (5, 3, None));
    let edit = |sql: &str| rusqlite::Connection::open(&path).unwrap().execute(sql, []).unwrap();
    edit("UPDATE event SET line = replace(line, 'stay-clear', 'open-port') WHERE seq = 3");
    assert_eq!(read::verify(&path, None).unwrap().broken, Some((Seq(3), Seq(4))));
    edit("UPDATE event SET line = replace(line, 'open-port', 'stay-clear') WHERE seq = 3");
    assert_eq!(read::verify(&path, None).unwrap().broken, None);
    edit("DELETE FROM event WHERE seq = 5");
    assert_eq!(read::verify(&path, None).unwrap().broken, Some((Seq(5), Seq(5))));
}

#[tokio::test]
async fn a_photo_is_kept_under_its_hash_and_a_change_is_seen() {
    use super::photo::{PhotoState, check_photo, photo_path, store_photo};
    let folder = tempfile::tempdir().unwrap();
    let picture = folder.path().join("Plug.PNG");
    std::fs::write(&picture, b"\x89PNG and so on").unwrap();
    let photo = store_photo(folder.path(), &picture).unwrap();
    assert_eq!((photo.sha256.len(), photo.name.as_str()), (64, "Plug.PNG"));
    assert_eq!(store_photo(folder.path(), &picture).unwrap(), photo, "twice is once");
    assert_eq!(check_photo(folder.path(), &photo.sha256, &photo.name), PhotoState::Same);
    std::fs::write(photo_path(folder.path(), &photo.sha256, &photo.name), b"other").unwrap();
    assert_eq!(check_photo(folder.path(), &photo.sha256, &photo.name), PhotoState::Changed);
    std::fs::remove_file(photo_path(folder.path(), &photo.sha256, &photo.name)).unwrap();
    assert_eq!(check_photo(folder.path(), &photo.sha256, &photo.name), PhotoState::Missing);
    let text = folder.path().join("notes.png");
    std::fs::write(&text, b"no picture").unwrap();
    assert!(store_photo(folder.path(), &text).is_err());
}

#[tokio::test]
async fn old_events_can_be_read_back_in_order() {
    let folder = tempfile::tempdir().unwrap();
    let (journal, _) = Journal::open(folder.path(), "bay").unwrap();
    write(&journal, (1..=600).map(|n| event(Seq(n))).collect()).await;
    let lines = journal.reader().read(Seq(10), Seq(601)).await.unwrap();
    assert_eq!(lines.len(), READ_LIMIT);
    let first: Event = serde_json::from_str(&lines[0].line).unwrap();
    assert_eq!(first, event(Seq(10)));
}

/// The file's own modes.
fn mode(path: &Path) -> u32 {
    std::os::unix::fs::PermissionsExt::mode(&std::fs::metadata(path).unwrap().permissions()) & 0o777
}

#[tokio::test]
async fn what_is_kept_of_customers_is_for_us_alone() {
    let folder = tempfile::tempdir().unwrap();
    let state = folder.path().join("state/standpipe");
    let (journal, _) = Journal::open(&state, "bay").unwrap();
    write(&journal, vec![started(1, 1), event(Seq(2))]).await;
    for name in ["bay.journal", "bay.journal-wal", "bay.journal.last", "bay.lock"] {
        assert_eq!(mode(&state.join(name)), 0o600, "{name}");
    }
    assert_eq!((mode(&state), mode(&folder.path().join("state"))), (0o700, 0o700));
    let copy = folder.path().join("backup.journal");
    transfer::backup(&state.join("bay.journal"), &copy).unwrap();
    assert_eq!(mode(&copy), 0o600);
    let picture = folder.path().join("plug.png");
    std::fs::write(&picture, b"\x89PNG and so on").unwrap();
    let photo = photo::store_photo(&state, &picture).unwrap();
    assert_eq!(mode(&photo::photo_path(&state, &photo.sha256, &photo.name)), 0o600);
}

#[tokio::test]
async fn a_journal_that_is_not_where_it_was_takes_nothing_more() {
    type Harm = fn(&Path);
    let cases: &[(&str, Harm)] = &[
        ("was removed or moved away", |path| std::fs::remove_file(path).unwrap()),
        ("was removed or moved away", |path| std::fs::rename(path, path.with_extension("old")).unwrap()),
        ("was replaced by another file", |path| {
            std::fs::copy(path, path.with_extension("copy")).unwrap();
            std::fs::rename(path.with_extension("copy"), path).unwrap();
        }),
        ("was emptied or cut", |path| {
            std::fs::File::options().write(true).open(path).unwrap().set_len(0).unwrap()
        }),
    ];
    for log in [false, true] {
        for (says, harm) in cases {
            let folder = tempfile::tempdir().unwrap();
            let path = folder.path().join("bay.journal");
            let (journal, _) = Journal::open(folder.path(), "bay").unwrap();
            // The log is long, so that what is written next does not fill what is cut.
            write(&journal, (1..=900).map(|n| event(Seq(n))).collect()).await;
            harm(&if log { disk::joined(&path, "-wal") } else { path.clone() });
            let answer = journal.append(vec![event(Seq(901)).into()]).await.unwrap();
            let Err(Unwritten::Gone(said)) = answer else { panic!("{says}, log {log}: {answer:?}") };
            assert!(said.contains(says) && said.contains("bay.journal"), "{says}, log {log}: {said}");
        }
    }
}

#[tokio::test]
async fn a_folder_that_is_removed_under_the_daemon_is_noticed() {
    let folder = tempfile::tempdir().unwrap();
    let state = folder.path().join("state");
    let (journal, _) = Journal::open(&state, "bay").unwrap();
    write(&journal, vec![event(Seq(1))]).await;
    std::fs::remove_dir_all(&state).unwrap();
    assert!(matches!(journal.append(vec![event(Seq(2)).into()]).await.unwrap(), Err(Unwritten::Gone(_))));
}

#[tokio::test]
async fn the_log_is_brought_into_the_file_at_a_start_at_the_end_of_a_job_and_at_an_orderly_end() {
    let folder = tempfile::tempdir().unwrap();
    let log = folder.path().join("bay.journal-wal");
    let (journal, _) = Journal::open(folder.path(), "bay").unwrap();
    write(&journal, vec![started(1, 1)]).await;
    assert!(disk::length(&log).unwrap() > 0);
    let result = r#"{"seq":2,"at":"2026-03-02T08:00:00Z","mono_ms":0,"kind":"result","outcome":"not-set","shortfalls":[],"closure":[],"open":[],"recheck_due":[]}"#;
    write(&journal, vec![serde_json::from_str(result).unwrap()]).await;
    // The answer comes before it; the next one is behind it.
    journal.reader().read(Seq(1), Seq(2)).await.unwrap();
    assert_eq!(disk::length(&log).unwrap(), 0);
    write(&journal, vec![event(Seq(3))]).await;
    let image = std::fs::read(&log).unwrap();
    assert!(!image.is_empty());
    let file = std::fs::read(folder.path().join("bay.journal")).unwrap();
    drop(journal);
    assert!(!log.exists(), "nothing but the file is left");
    // As a kill leaves it: a start brings it in.
    std::fs::write(folder.path().join("bay.journal"), file).unwrap();
    std::fs::write(&log, image).unwrap();
    let (journal, restored) = Journal::open(folder.path(), "bay").unwrap();
    assert_eq!((restored.repaired, restored.damaged), (None, None));
    let bytes = std::fs::read(folder.path().join("bay.journal")).unwrap();
    let reserved_alone = 3 * 4_200;
    assert!(disk::length(&log).unwrap() < reserved_alone && bytes.windows(8).any(|w| w == b"{\"seq\":3"));
    drop(journal);
}

/// A journal with a job that runs: its start was asked for, and four things were told.
async fn running(folder: &Path) -> PathBuf {
    let told = |seq: u64, what: &str| {
        let line = format!(
            r#"{{"seq":{seq},"at":"2026-03-02T08:00:00Z","mono_ms":{seq},"kind":"told","id":"t{seq}",{what}}}"#
        );
        serde_json::from_str::<Event>(&line).unwrap()
    };
    let (journal, _) = Journal::open(folder, "bay").unwrap();
    write(&journal, vec![event(Seq(1)), event(Seq(2))]).await;
    write(&journal, vec![told(3, r#""tell":"start""#), started(4, 1), event(Seq(5))]).await;
    write(&journal, vec![told(6, r#""tell":"drained","millilitres":2400"#)]).await;
    write(
        &journal,
        vec![told(7, r#""tell":"note","text":"dark""#), told(8, r#""tell":"note","text":"warm""#)],
    )
    .await;
    write(&journal, vec![event(Seq(9))]).await;
    folder.join("bay.journal")
}

#[tokio::test]
async fn a_record_that_is_not_what_was_written_is_told_with_its_numbers_and_not_gone_on_with() {
    let whole = tempfile::tempdir().unwrap();
    running(whole.path()).await;
    let (_, restored) = Journal::open(whole.path(), "bay").unwrap();
    assert_eq!((restored.damaged, restored.doubtful, restored.facts.len()), (None, false, 7));
    assert_eq!(restored.facts[0].seq, Seq(3), "with the request that began it");

    let cases: &[(&str, &str, &str)] = &[
        (
            "a digit",
            "UPDATE event SET line = replace(line, '2400', '1400') WHERE seq = 6",
            "6 (there, but not as it was written)",
        ),
        (
            "a letter of a key",
            "UPDATE event SET line = replace(line, 'millilitres', 'millilitras') WHERE seq = 6",
            "6 (there",
        ),
        ("an event is missing", "DELETE FROM event WHERE seq = 7", "7 to 8 (1 of 2 there)"),
        ("a batch is missing", "DELETE FROM event WHERE seq IN (7, 8)", "7 to 8 (2 missing)"),
        (
            "one that is no text",
            "PRAGMA ignore_check_constraints = 1; UPDATE event SET line = CAST(replace(CAST(line AS BLOB), CAST('dark' AS BLOB), x'64FF726B') AS TEXT) WHERE seq = 7",
            "7 to 8",
        ),
        (
            "one too many",
            "INSERT INTO event SELECT 10, job, kind, fact, at_ms, replace(line, '\"seq\":9', '\"seq\":10') FROM event WHERE seq = 9",
            "10 (there",
        ),
        ("the job's beginning", "DELETE FROM event WHERE seq = 4", "3 to 5 (2 of 3 there)"),
        ("a sample made of a fact", "UPDATE event SET fact = 0 WHERE seq = 6", "6 (there"),
        ("in another job", "UPDATE event SET job = 0 WHERE seq = 6", "6 (there"),
        (
            "the end and its seal",
            "DELETE FROM event WHERE seq = 9; DELETE FROM seal WHERE last = 9",
            "9 (missing)",
        ),
        ("seals", "DELETE FROM seal WHERE last > 2", "3 to 9"),
        ("the job's row", "DELETE FROM job", "job 1 is not in the journal"),
    ];
    for (what, sql, says) in cases {
        let folder = tempfile::tempdir().unwrap();
        let path = running(folder.path()).await;
        rusqlite::Connection::open(&path).unwrap().execute_batch(sql).unwrap();
        let (journal, restored) = Journal::open(folder.path(), "bay").unwrap();
        let said = restored.damaged.unwrap_or_else(|| panic!("{what}: nothing is told"));
        assert!(said.contains(says), "{what}: {said}");
        assert!(restored.doubtful, "{what}");
        assert_eq!((restored.repaired, restored.last_job), (None, 1), "{what}");
        assert!(restored.next > Seq(100_000), "{what}");
        drop(journal);
    }
}

#[tokio::test]
async fn what_was_changed_before_the_job_is_told_by_verify_and_does_not_touch_it() {
    let folder = tempfile::tempdir().unwrap();
    let path = running(folder.path()).await;
    let sql = "UPDATE event SET line = replace(line, 'stay-clear', 'open-port') WHERE seq = 1";
    rusqlite::Connection::open(&path).unwrap().execute(sql, []).unwrap();
    let (_, restored) = Journal::open(folder.path(), "bay").unwrap();
    assert_eq!((restored.damaged, restored.doubtful), (None, false));
    assert_eq!(read::verify(&path, None).unwrap().broken, Some((Seq(1), Seq(2))));
}

#[tokio::test]
async fn a_note_that_is_gone_or_of_another_story_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let path = running(folder.path()).await;
    let file = note::beside(&path);
    std::fs::remove_file(&file).unwrap();
    let (journal, restored) = Journal::open(folder.path(), "bay").unwrap();
    assert_eq!(restored.damaged.as_deref(), Some("the note beside the journal is gone"));
    assert!(!restored.doubtful, "nothing of the job is missing");
    drop(journal);
    // Everything behind event 6 is written anew, with seals that fit.
    let folder = tempfile::tempdir().unwrap();
    let path = running(folder.path()).await;
    let connection = rusqlite::Connection::open(&path).unwrap();
    connection.execute_batch("DELETE FROM event WHERE seq > 6; DELETE FROM seal WHERE last > 6").unwrap();
    let mut writer = rows::Writer::new(connection, 1).unwrap();
    writer.append(&[event(Seq(7)).into(), event(Seq(9)).into()]).unwrap();
    drop(writer);
    assert_eq!(read::verify(&path, None).unwrap().broken, None);
    let (_, restored) = Journal::open(folder.path(), "bay").unwrap();
    let said = restored.damaged.unwrap();
    assert!(said.contains("is another one") && said.contains("7 to 9 (2 of at most 3 there)"), "{said}");
    assert!(restored.doubtful);
}

#[tokio::test]
async fn an_event_of_the_past_that_cannot_be_read_is_a_fault_under_its_number() {
    let folder = tempfile::tempdir().unwrap();
    let path = running(folder.path()).await;
    let sql = "UPDATE event SET line = CAST(x'7BFF' AS TEXT) WHERE seq = 7; UPDATE event SET line = '{}' WHERE seq = 8;
               UPDATE event SET line = replace(line, '\"seq\":5', '\"seq\":4') WHERE seq = 5";
    rusqlite::Connection::open(&path).unwrap().execute_batch(sql).unwrap();
    let (journal, _) = Journal::open(folder.path(), "bay").unwrap();
    let lines = journal.reader().read(Seq(1), Seq(100)).await.unwrap();
    assert_eq!(lines.iter().map(|old| old.seq.0).collect::<Vec<_>>(), (1..=9).collect::<Vec<_>>());
    for (at, says) in [(4, "has the number 4"), (6, "byte 2 of its line is no UTF-8"), (7, "it is no event")]
    {
        let told: Event = serde_json::from_str(&lines[at].line).unwrap();
        let Body::Fault { fault: events::Fault::JournalDamaged, detail: Some(detail), .. } = told.body else {
            panic!("{:?}", lines[at]);
        };
        assert!(detail.contains(says) && detail.contains(&format!("the event {}", at + 1)), "{detail}");
        assert_eq!((lines[at].kind.as_str(), told.seq), ("fault", Seq(at as u64 + 1)));
    }
}

#[tokio::test]
async fn a_part_of_the_file_that_cannot_be_read_is_one_fault_and_what_lies_behind_it_comes() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bay.journal");
    let (journal, _) = Journal::open(folder.path(), "bay").unwrap();
    write(&journal, (1..=2_000).map(|n| event(Seq(n))).collect()).await;
    drop(journal);
    let mut bytes = std::fs::read(&path).unwrap();
    let middle = bytes.len() / 2 / 4_096 * 4_096;
    bytes[middle..middle + 4_096].fill(0xAA);
    std::fs::write(&path, bytes).unwrap();
    let connection = open::reader(&path).unwrap();
    let (mut next, mut seen, mut faults) = (1, 0, 0);
    while next < 2_001 {
        let lines = old::read(&connection, Seq(next), Seq(2_001));
        assert!(!lines.is_empty(), "an empty answer is an endless wait");
        for old in &lines {
            assert!(old.seq.0 >= next, "{old:?}");
            next = old.seq.0 + 1;
            if old.kind == "fault" { faults += 1 } else { seen += 1 }
        }
    }
    assert!(seen > 1_900 && (1..=3).contains(&faults), "{seen} events, {faults} faults");
    // The end of the file.
    let mut bytes = std::fs::read(&path).unwrap();
    let length = bytes.len();
    bytes[4_096 * 12..length].fill(0xAA);
    std::fs::write(&path, bytes).unwrap();
    let lines = old::read(&open::reader(&path).unwrap(), Seq(1), Seq(2_001));
    let last = lines.last().unwrap();
    assert!(last.kind == "fault" || lines.len() == READ_LIMIT, "{last:?}");
}

#[test]
fn an_export_without_its_seals_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let runtime = tokio::runtime::Builder::new_current_thread().build().unwrap();
    let path = runtime.block_on(running(folder.path()));
    let mut text = Vec::new();
    transfer::export(&path, "bay", None, &mut text).unwrap();
    let text = String::from_utf8(text).unwrap();
    let without: String =
        text.lines().filter(|l| !l.starts_with("{\"seal\"")).map(|l| format!("{l}\n")).collect();
    let last = text.trim_end().rsplit_once('\n').unwrap().0.to_owned() + "\n";
    for (what, text) in [
        ("no seals", without.clone()),
        ("the last is missing", last),
        ("edited", without.replace("2400", "1400")),
    ] {
        let other = folder.path().join("other");
        let said = transfer::import(&mut text.as_bytes(), &other, "bay").expect_err(what).to_string();
        assert!(said.contains("has no seal behind it") && said.contains("line "), "{what}: {said}");
        assert!(!other.join("bay.journal").exists(), "{what}");
    }
    let unsealed = without.replace("\"sealed\":true", "\"sealed\":false");
    let imported = transfer::import(&mut unsealed.as_bytes(), &folder.path().join("other"), "bay").unwrap();
    assert_eq!((imported.events, imported.sealed), (9, false), "it says that nothing proves it");
}

#[tokio::test]
async fn one_byte_that_is_no_text_stops_no_reader_and_each_says_where_it_is() {
    let folder = tempfile::tempdir().unwrap();
    let path = running(folder.path()).await;
    let bad = |sql: &str| rusqlite::Connection::open(&path).unwrap().execute_batch(sql).unwrap();
    bad("UPDATE event SET line = CAST(replace(CAST(line AS BLOB), CAST('dark' AS BLOB), x'64FF726B') AS TEXT) WHERE seq = 7;
         UPDATE job SET sheet = CAST(x'4465FF6D6F' AS TEXT), vehicle = CAST(x'FF' AS TEXT);
         INSERT INTO due (job, at_ms) VALUES (1, 5)");
    let verified = read::verify(&path, None).unwrap();
    assert_eq!((verified.events, verified.broken, verified.also_broken), (9, Some((Seq(7), Seq(8))), vec![]));
    let checked = read::check(&path).unwrap().unwrap();
    assert!(checked.contains("the event 7") && checked.contains("is no UTF-8"), "{checked}");
    let query = read::JobQuery { limit: 9, ..Default::default() };
    let listed = read::list_jobs(&path, &query).unwrap();
    assert_eq!((listed[0].sheet.as_str(), listed[0].vehicle.as_deref()), ("De\u{FFFD}mo", Some("\u{FFFD}")));
    assert_eq!(read::due(&path, Utc::from_millis(9), 9).unwrap()[0].sheet, "De\u{FFFD}mo");
    let job = read::read_job(&path, None).unwrap();
    assert_eq!((job.events.len(), job.unread[0].0), (5, Seq(7)), "{:?}", job.unread);
    let mut text = Vec::new();
    let exported = transfer::export(&path, "bay", None, &mut text).unwrap();
    assert_eq!((exported.events, exported.unread[0].0), (8, Seq(7)));
    let text = String::from_utf8(text).unwrap();
    assert!(text.contains(r#"{"unread":7,"why":"byte "#), "{text}");
    let said =
        transfer::import(&mut text.as_bytes(), &folder.path().join("other"), "bay").unwrap_err().to_string();
    assert!(said.contains("stands for event 7"), "{said}");
    // Two batches that do not fit are both named.
    bad("UPDATE event SET line = replace(line, '2400', '1400') WHERE seq = 6");
    let verified = read::verify(&path, None).unwrap();
    assert_eq!((verified.broken, verified.also_broken), (Some((Seq(6), Seq(6))), vec![(Seq(7), Seq(8))]));
}

#[test]
fn no_room_is_told_as_such_and_nothing_else_is() {
    use std::io::{Error, ErrorKind};
    let told = |e: unopened::Unopened| e.told(Path::new("/s/bay.journal"));
    for kind in [ErrorKind::StorageFull, ErrorKind::QuotaExceeded, ErrorKind::FileTooLarge] {
        let error = told(unopened::Unopened::File(Error::from(kind)));
        assert!(matches!(error, ServiceError::JournalNoRoom { .. }), "{error}");
        assert!(error.remedy().contains("free some disk space"), "{}", error.remedy());
    }
    let sqlite = |code| {
        unopened::Unopened::Database(rusqlite::Error::SqliteFailure(rusqlite::ffi::Error::new(code), None))
    };
    for (code, full) in [
        (rusqlite::ffi::SQLITE_FULL, true),
        (rusqlite::ffi::SQLITE_IOERR_WRITE, true),
        (rusqlite::ffi::SQLITE_IOERR_READ, false),
        (rusqlite::ffi::SQLITE_CANTOPEN, false),
    ] {
        let error = told(sqlite(code));
        assert_eq!(matches!(error, ServiceError::JournalNoRoom { .. }), full, "{code}: {error}");
    }
    let error = told(unopened::Unopened::File(Error::from(ErrorKind::PermissionDenied)));
    assert!(error.remedy().contains("is yours"), "{}", error.remedy());
}

#[tokio::test]
async fn seals_say_where_a_batch_begins_and_an_older_file_gets_the_column() {
    let folder = tempfile::tempdir().unwrap();
    let path = running(folder.path()).await;
    let connection = rusqlite::Connection::open(&path).unwrap();
    let firsts: Vec<(u64, Option<u64>)> = {
        let mut select = connection.prepare("SELECT last, first FROM seal ORDER BY last").unwrap();
        let rows = select.query_map([], |row| Ok((row.get(0)?, row.get(1)?))).unwrap();
        rows.map(Result::unwrap).collect()
    };
    assert_eq!(firsts, [(2, Some(1)), (5, Some(3)), (6, Some(6)), (8, Some(7)), (9, Some(9))]);
    connection.execute_batch("ALTER TABLE seal DROP COLUMN first").unwrap();
    drop(connection);
    let (journal, restored) = Journal::open(folder.path(), "bay").unwrap();
    assert_eq!((restored.repaired, restored.damaged, restored.facts.len()), (None, None, 7));
    write(&journal, vec![event(restored.next)]).await;
    drop(journal);
    assert_eq!(read::verify(&path, None).unwrap().broken, None);
}
