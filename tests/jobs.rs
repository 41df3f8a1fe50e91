//! The journal from outside: jobs, due, verify, export and import, photos, rechecks; and a disk that is full or cannot
//! be written.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use std::path::Path;
use std::process::Stdio;

use common::{Home, Process, fixture, stderr, stdout};

fn json(text: &str) -> Vec<serde_json::Value> {
    text.lines().map(|l| serde_json::from_str(l).unwrap_or_else(|e| panic!("{e}: {l}"))).collect()
}

/// One whole job in a journal of its own, then every reader of it.
#[test]
fn a_job_is_listed_due_verified_exported_and_imported() {
    let home = Home::new();
    let kept = home.path().join("kept");
    let folder = kept.to_str().unwrap();
    let done = home.run(&["rehearse", "--pace", "max", "--json", "--keep", folder]);
    assert!(done.status.success(), "{}", stderr(&done));
    let at = ["--journal", folder, "--bay", "rehearsal"];
    let run = |words: &[&str]| home.run(&[words, &at].concat());

    let listed = json(&stdout(&run(&["jobs"])));
    assert_eq!((listed.len(), &listed[0]["outcome"]), (1, &"set".into()), "{listed:?}");
    let begun = listed[0]["started"].as_str().unwrap()[..10].to_owned();
    assert_eq!(json(&stdout(&run(&["jobs", "--vehicle", "TRANSVERSE", "--since", &begun]))).len(), 1);
    for none in [["--vehicle", "CVT"], ["--until", &begun], ["--result", "not-set"], ["--recheck-of", "1"]] {
        assert_eq!(stdout(&run(&[&["jobs"][..], &none].concat())), "", "{none:?}");
    }

    let due = json(&stdout(&run(&["due", "--from", &begun, "--within", "5d"])));
    assert_eq!((due.len(), due[0]["job"].as_u64()), (1, Some(1)), "three days, and not fourteen: {due:?}");
    assert_eq!(json(&stdout(&run(&["due", "--from", &begun, "--within", "4w"]))).len(), 2);
    let calendar = stdout(&run(&["due", "--from", &begun, "--within", "4w", "--form", "ics"]));
    assert_eq!(calendar.matches("BEGIN:VEVENT\r\n").count(), 2, "{calendar}");

    let verified = run(&["jobs", "verify"]);
    assert!(verified.status.success(), "{}", stderr(&verified));
    assert!(run(&["jobs", "check"]).status.success());
    let report = stdout(&run(&["report", "--form", "json"]));
    let seal =
        serde_json::from_str::<serde_json::Value>(&report).unwrap()["seal"].as_str().unwrap().to_owned();
    assert!(run(&["jobs", "verify", "1", "--seal", &seal[..16]]).status.success());
    let other = run(&["jobs", "verify", "1", "--seal", "0123456789abcdef"]);
    assert_eq!(other.status.code(), Some(65));
    assert!(stderr(&other).contains("is not that of the journal"), "{}", stderr(&other));

    let lines = home.path().join("export.jsonl");
    assert!(run(&["jobs", "export", "--into", lines.to_str().unwrap()]).status.success());
    let copy = home.path().join("copy");
    let copied = ["--journal", copy.to_str().unwrap(), "--bay", "rehearsal"];
    let imported = home.run(&[&["jobs", "import", lines.to_str().unwrap()][..], &copied].concat());
    assert!(imported.status.success(), "{}", stderr(&imported));
    assert_eq!(stdout(&home.run(&[&["report", "--form", "json"][..], &copied].concat())), report);
    assert_eq!(stdout(&home.run(&[&["jobs", "verify"][..], &copied].concat())), stdout(&verified));
    let twice = home.run(&[&["jobs", "import", lines.to_str().unwrap()][..], &copied].concat());
    assert!(stderr(&twice).contains("there is a journal already"), "{}", stderr(&twice));
    let backup = home.path().join("backup.journal");
    assert!(run(&["jobs", "backup", backup.to_str().unwrap()]).status.success());

    // A reader needs no right to write.
    for file in [kept.join("rehearsal.journal"), kept.clone()] {
        let mut may = std::fs::metadata(&file).unwrap().permissions();
        may.set_readonly(true);
        std::fs::set_permissions(&file, may).unwrap();
    }
    assert_eq!(json(&stdout(&run(&["jobs"]))).len(), 1);
    for file in [kept.clone(), kept.join("rehearsal.journal")] {
        let mut may = std::fs::metadata(&file).unwrap().permissions();
        #[expect(clippy::permissions_set_readonly_false, reason = "in a folder of our own, for its removal")]
        may.set_readonly(false);
        std::fs::set_permissions(&file, may).unwrap();
    }

    // Somebody makes a drain of 2.0 L into one of 3.0 L, with an editor.
    let journal = kept.join("rehearsal.journal");
    let bytes = std::fs::read(&journal).unwrap();
    let needle = b"\"tell\":\"drained\",\"millilitres\":2";
    let place = bytes.windows(needle.len()).position(|w| w == needle).unwrap() + needle.len() - 1;
    let mut edited = bytes.clone();
    edited[place] = b'3';
    std::fs::write(&journal, edited).unwrap();
    let found = run(&["jobs", "verify"]);
    assert_eq!(found.status.code(), Some(65), "{}", stdout(&found));
    assert!(stderr(&found).contains("was changed after it was written: events"), "{}", stderr(&found));
}

fn workshop(home: &Home) -> (Process, Process) {
    let mut car = home.start(&["car"]);
    let device = car.line();
    let sheet = fixture("sheets/demo-seven-speed-longitudinal.toml");
    let mut daemon = home.start(&["serve", "--device", &device, "--sheet", sheet.to_str().unwrap()]);
    daemon.until_said(|l| l.contains("socket"));
    (car, daemon)
}

fn refused(home: &Home, words: &[&str], code: i32, says: &str) {
    let output = home.run(&[&["tell"], words].concat());
    let said = stderr(&output);
    assert_eq!(output.status.code(), Some(code), "{words:?}: {said}");
    assert!(said.contains(says), "{words:?} must say {says:?}: {said}");
}

fn told(home: &Home, words: &[&str]) {
    let output = home.run(&[&["tell"], words].concat());
    assert!(output.status.success(), "{words:?}: {}", stderr(&output));
}

#[test]
fn what_cannot_be_is_refused_in_words_and_nothing_of_it_is_kept() {
    let home = Home::new();
    let (_car, _daemon) = workshop(&home);
    refused(&home, &["recheck", "1"], 65, "holds no job of that number");
    told(&home, &["start", "--vehicle", "QL 12"]);
    refused(&home, &["drained", "2.4"], 64, "has no unit");
    refused(&home, &["drained", "2.4 L"], 65, "a step before it is still open");
    told(&home, &["confirm", "on-stands"]);
    refused(&home, &["drained", "24L"], 65, "more than the transmission holds");
    refused(&home, &["drained", "-1L"], 64, "");
    refused(&home, &["drained", "0ml"], 65, "not more than nothing");
    refused(&home, &["drained", "2.4L", "--at", "900C"], 65, "No vehicle in a workshop");
    refused(&home, &["filled", "2.9L"], 65, "a step before it is still open");
    refused(&home, &["ran-out", "500ml"], 65, "has not been told open");
    refused(&home, &["taken-out", "cooler"], 65, "does not say how much that holds");
    refused(&home, &["photo", "no-such.png"], 65, "cannot keep the photo");
    let bent =
        ["--front-left", "330mm", "--front-right", "300mm", "--rear-left", "300mm", "--rear-right", "300mm"];
    refused(&home, &[&["corners"][..], &bent].concat(), 65, "one of them was misread");
    let level =
        ["--front-left", "301mm", "--front-right", "300mm", "--rear-left", "300mm", "--rear-right", "299mm"];
    told(&home, &[&["corners"][..], &level].concat());
    told(&home, &["drained", "4.8L", "--at", "30C"]);
    told(&home, &["taken-out", "filter"]);
    told(&home, &["filled", "5.8L", "--at", "20C"]);
    refused(&home, &["spilled", "9L", "--of", "filled"], 65, "more than");
    refused(&home, &["filled", "9.4L"], 65, "more than the transmission holds");
    told(&home, &["flowing"]);
    told(&home, &["closed"]);
    // More than was over-filled can run out; it is taken, and questioned. More than is in it cannot.
    told(&home, &["ran-out", "2L", "--at", "30C"]);
    refused(&home, &["ran-out", "9.4L"], 65, "More would have run out than was ever in it");

    let picture = home.path().join("plug.png");
    std::fs::write(&picture, b"\x89PNG made up").unwrap();
    told(&home, &["photo", picture.to_str().unwrap()]);
    told(&home, &["particular", "odometer", "84210 km"]);
    told(&home, &["particular", "odometer", "84211 km"]);
    refused(&home, &["particular", "batch", &"x".repeat(81)], 65, "too long");
    told(&home, &["done"]);
    let listed = json(&stdout(&home.run(&["jobs", "--vehicle", "ql 12"])));
    assert_eq!(
        (listed[0]["vehicle"].as_str(), listed[0]["outcome"].as_str()),
        (Some("QL 12"), Some("not-set"))
    );
    let report = stdout(&home.run(&["report", "--form", "md"]));
    for words in ["Vehicle: QL 12", "plug.png: SHA-256", "tube-not-seated", "jobs verify 1 --seal"] {
        let says =
            report.contains(words) || (words == "tube-not-seated" && report.contains("not screwed home"));
        assert!(says, "{words}: {report}");
    }
    assert!(report.contains("- Odometer: 84211 km") && !report.contains("- Odometer: 84210 km"), "{report}");
    let page = stdout(&home.run(&["report"]));
    assert!(page.contains(r#"<img src="data:image/png;base64,"#), "the photo stands on the page");
    let german = stdout(&home.run(&["report", "--form", "md", "--lang", "de", "--units", "kgf"]));
    assert!(german.contains("- Darf ich fahren? **Nein.") && german.contains("kgf·cm"), "{german}");
    assert!(home.run(&["jobs", "verify", "1"]).status.success());
    let photos = home.path().join("state/standpipe/photos");
    let copy = std::fs::read_dir(&photos).unwrap().next().unwrap().unwrap().path();
    std::fs::write(copy, b"\x89PNG another").unwrap();
    let changed = home.run(&["jobs", "verify", "1"]);
    assert_eq!(changed.status.code(), Some(65));
    assert!(stderr(&changed).contains("the photo plug.png was changed"), "{}", stderr(&changed));

    told(&home, &["recheck", "1"]);
    refused(&home, &["drained", "1L"], 65, "does not ask for this");
    let listed = json(&stdout(&home.run(&["jobs", "--recheck-of", "1"])));
    assert_eq!((listed[0]["job"].as_u64(), listed[0]["recheck_of"].as_u64()), (Some(2), Some(1)));
}

/// A file that may not grow is a disk that is full: the daemon says so and ends, and what it accepted is there.
#[test]
fn on_a_full_disk_the_daemon_says_so_and_loses_nothing_it_accepted() {
    let home = Home::new();
    let mut car = home.start(&["car"]);
    let device = car.line();
    let serve = home.command(&["serve", "--device", &device]);
    let mut limited = home.command(&[]);
    // Units of 512 or 1024 bytes, as the shell has it; the signal is ignored, so that writing fails instead.
    let script = "trap '' XFSZ; ulimit -f 300; exec \"$0\" \"$@\"";
    let mut shell = std::process::Command::new("sh");
    shell.arg("-c").arg(script).arg(serve.get_program()).args(serve.get_args());
    for (name, value) in limited.get_envs() {
        match value {
            Some(value) => shell.env(name, value),
            None => shell.env_remove(name),
        };
    }
    limited.stdin(Stdio::null());
    let child = shell.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    let mut daemon = Process::of(child);
    daemon.until_said(|l| l.contains("socket"));
    told(&home, &["start"]);
    let mut accepted = 1;
    let said = loop {
        let level = home.run(&["tell", "level", "--pitch", "0.1deg", "--roll", "0.1deg"]);
        if level.status.success() {
            accepted += 1;
            assert!(accepted < 5_000, "the limit was never met");
        } else {
            break stderr(&level);
        }
    };
    assert!(said.contains("The journal cannot be written, so nothing can be promised"), "{said}");
    let mut last = String::new();
    std::io::Read::read_to_string(daemon.child.stderr.as_mut().unwrap(), &mut last).unwrap();
    assert!(last.contains("cannot write the journal at") && last.contains("free some disk space"), "{last}");
    assert_eq!(daemon.child.wait().unwrap().code(), Some(74));

    let mut again = home.start(&["serve", "--device", &device]);
    again.until_said(|l| l.contains("socket"));
    let events = home.run(&["events", "--since", "0", "--no-follow", "--only", "told", "--json"]);
    let kept = stdout(&events).lines().filter(|l| l.contains(r#""kind":"told""#)).count();
    assert!(kept >= accepted, "{kept} of {accepted} accepted are there");
    told(&home, &["note", "it goes on"]);
}

/// One byte of a remark is no text, in a job that is over: every reader goes on, and says where it is.
#[test]
fn a_byte_that_is_no_text_is_told_by_every_reader_and_stops_none() {
    let home = Home::new();
    let mut car = home.start(&["car"]);
    let device = car.line();
    let serve = ["serve", "--device", &device];
    let mut daemon = home.start(&serve);
    daemon.until_said(|l| l.contains("socket"));
    told(&home, &["start"]);
    told(&home, &["note", "dark and warm"]);
    told(&home, &["abort", "no time"]);
    told(&home, &["start"]);
    daemon.kill();
    // A start brings the log into the file.
    let mut daemon = home.start(&serve);
    daemon.until_said(|l| l.contains("socket"));
    daemon.kill();
    let path = home.path().join("state/standpipe/bay.journal");
    let mut bytes = std::fs::read(&path).unwrap();
    let places: Vec<usize> =
        (0..bytes.len() - 13).filter(|at| bytes[*at..].starts_with(b"dark and warm")).collect();
    assert!(!places.is_empty());
    places.iter().for_each(|at| bytes[at + 2] = 0xFF);
    std::fs::write(&path, bytes).unwrap();

    let mut daemon = home.start(&serve);
    daemon.until_said(|l| l.contains("socket"));
    told(&home, &["note", "it goes on"]);
    let events = home.run(&["events", "--since", "0", "--no-follow", "--only", "fault,told", "--json"]);
    assert!(events.status.success(), "{}", stderr(&events));
    let events = stdout(&events);
    assert!(events.contains("journal-damaged") && events.contains("is no UTF-8"), "{events}");
    assert!(events.contains("it goes on"), "{events}");
    for (words, code, says) in [
        (&["jobs", "verify"][..], 65, "do not fit their seal"),
        (&["jobs", "check"], 65, "cannot be read: byte"),
        (&["jobs", "export"], 65, "all others were written"),
    ] {
        let output = home.run(words);
        assert_eq!(output.status.code(), Some(code), "{words:?}: {}", stderr(&output));
        assert!(stderr(&output).contains(says), "{words:?}: {}", stderr(&output));
    }
    assert_eq!(json(&stdout(&home.run(&["jobs"]))).len(), 2);
    assert!(home.run(&["jobs", "verify", "2"]).status.success(), "the other job is whole");
    let report = stdout(&home.run(&["report", "1", "--form", "md"]));
    for says in ["cannot be read: byte", "are not as they were written"] {
        assert!(report.contains(says), "{says}: {report}");
    }
}

#[test]
fn a_start_without_room_says_that_there_is_none() {
    let home = Home::new();
    let mut car = home.start(&["car"]);
    let device = car.line();
    let serve = home.command(&["serve", "--device", &device]);
    let mut shell = std::process::Command::new("sh");
    let script = "trap '' XFSZ; ulimit -f 8; exec \"$0\" \"$@\"";
    shell.arg("-c").arg(script).arg(serve.get_program()).args(serve.get_args());
    for (name, value) in serve.get_envs() {
        match value {
            Some(value) => shell.env(name, value),
            None => shell.env_remove(name),
        };
    }
    let output = shell.stdin(Stdio::null()).output().unwrap();
    let said = stderr(&output);
    assert_eq!(output.status.code(), Some(74), "{said}");
    assert!(said.contains("no room for the journal at") && said.contains("free some disk space"), "{said}");
}

#[test]
fn a_folder_that_cannot_be_written_is_named_with_what_to_try() {
    let home = Home::new();
    let mut car = home.start(&["car"]);
    let device = car.line();
    let output = home.run(&["serve", "--device", &device, "--journal", "/proc/standpipe"]);
    assert_eq!(output.status.code(), Some(73), "{}", stderr(&output));
    let said = stderr(&output);
    assert!(said.contains("cannot open the journal at /proc/standpipe/bay.journal"), "{said}");
    assert!(said.contains("--journal DIR"), "{said}");
    let none = home.run(&["jobs", "--journal", Path::new("/nowhere").to_str().unwrap()]);
    assert_eq!(none.status.code(), Some(73), "{}", stderr(&none));
    assert!(stderr(&none).contains("there is no such file"), "{}", stderr(&none));
}

/// A sheet is asked for value by value; a wrong answer is said so and asked again.
#[test]
fn a_new_sheet_is_made_from_answers_and_a_bad_one_is_never_written() {
    use std::io::Write as _;
    let home = Home::new();
    let file = home.path().join("new.toml");
    let name = file.to_str().unwrap();
    let answers = "\
        as the maker says\nfluids\n95-113F\n6500\n2.5qt\ngo name\nQuillan Lane trial\n\
        go torque_nm.check_port\n29.5 lb-ft\ngo standpipe.offset_mm\n120mm -30mm\ndone\n";
    let mut asking = home.start(&["sheet", "new", name]);
    asking.child.stdin.take().unwrap().write_all(answers.as_bytes()).unwrap();
    let said = asking.line();
    assert!(said.contains("written to"), "{said}");
    let checked = home.run(&["sheet", "check", name, "--json"]);
    assert!(checked.status.success(), "{}{}", stdout(&checked), stderr(&checked));
    let text = std::fs::read_to_string(&file).unwrap();
    for line in [
        "name = \"Quillan Lane trial\"",
        "band_c = [35.0, 45.0]",
        "check_port = 40.0",
        "offset_mm = [120.0, -30.0]",
    ] {
        assert!(text.contains(line), "{line}: {text}");
    }
    assert!(stderr(&home.run(&["sheet", "new", name])).contains("it exists already"));
    let mut short = home.start(&["sheet", "new", home.path().join("short.toml").to_str().unwrap()]);
    short.child.stdin.take().unwrap().write_all(b"only a name\n").unwrap();
    assert_eq!(short.child.wait().unwrap().code(), Some(65));
    assert!(!home.path().join("short.toml").exists());

    let template = stdout(&home.run(&["sheet", "template"]));
    let other = home.path().join("template.toml");
    std::fs::write(&other, template.replace("total_ml = 6500", "total_ml = 6.5")).unwrap();
    let bad = home.run(&["sheet", "check", other.to_str().unwrap(), name]);
    assert_eq!(bad.status.code(), Some(65));
    assert!(stdout(&bad).contains("it must be 200 to 25000 mL"), "{}", stdout(&bad));
    assert!(stderr(&bad).contains("1 of 2 sheets"), "{}", stderr(&bad));
}

/// The file named with `--sheet` is another one after a restart: the job that runs keeps its own, the next one takes
/// the new.
#[test]
fn a_sheet_that_changes_in_the_middle_of_a_job_does_not_touch_it() {
    let home = Home::new();
    let mut car = home.start(&["car"]);
    let device = car.line();
    let file = home.path().join("vehicle.toml");
    let with = |name: &str| {
        std::fs::copy(fixture(&format!("sheets/{name}.toml")), &file).unwrap();
        let mut daemon = home.start(&["serve", "--device", &device, "--sheet", file.to_str().unwrap()]);
        daemon.until_said(|l| l.contains("socket"));
        daemon
    };
    let mut daemon = with("demo-six-speed");
    told(&home, &["start"]);
    daemon.kill();
    let mut daemon = with("demo-eight-speed-bypass");
    refused(&home, &["confirm", "cooler-bypass"], 65, "does not ask for this");
    told(&home, &["confirm", "on-stands"]);
    told(&home, &["done"]);
    daemon.kill();
    let _daemon = with("demo-eight-speed-bypass");
    told(&home, &["start"]);
    told(&home, &["confirm", "cooler-bypass"]);
    let listed = json(&stdout(&home.run(&["jobs"])));
    let sheets: Vec<&str> = listed.iter().map(|j| j["sheet"].as_str().unwrap()).collect();
    assert_eq!(sheets, ["Demo eight-speed, bypass to pin", "Demo six-speed, transverse"]);
}
