use std::time::Duration;

use adapter::Quirk;
use units::Celsius;

use super::super::worth::Findings;
use super::*;

fn port() -> Port {
    Port::new("tcp:192.168.0.10:35000".parse().unwrap(), None)
}

fn found() -> Found {
    let fluid = |celsius| Measure::Fluid(Celsius::from_f64(celsius).unwrap());
    Found {
        findings: Findings {
            heard: true,
            named: true,
            readings: 92,
            still_reading: true,
            requests: 95,
            lost: Lost { spoilt: 2, unanswered: 1, by_the_adapter: 2, ..Lost::default() },
            per_second: 9.84,
            hole: Duration::from_millis(312),
            ..Findings::default()
        },
        claims: Some("ELM327 v1.5".to_owned()),
        vehicle: Some(Vehicle {
            protocol: "ISO 15765-4, 11 bit, 500 kbit/s".to_owned(),
            control_units: vec!["7E8".to_owned(), "7E9".to_owned()],
        }),
        millivolts: Some(12_600),
        latest: [("7E9".to_owned(), fluid(38.0))].into(),
        quirks: vec![Quirk::VersionLie, Quirk::NoWs],
        last: vec!["1.000 s sent 224D07".to_owned()],
        ..Found::default()
    }
}

fn told(found: &Found, depth: Depth) -> Vec<String> {
    let report = Report::new(&port(), None, "224D07".to_owned(), found);
    let mut all = lines(&report, depth, UnitSystem::Metric);
    all.push(report.closing());
    all.into_iter().map(|line| line.replace('\u{202f}', " ")).collect()
}

#[test]
fn it_begins_with_what_was_read_and_from_whom_and_ends_with_what_it_is_worth() {
    let want = [
        "Reads fluid temperature: 38 °C from 7E9; 9.8 readings a second, to the end.",
        "Loses 3 of 95 requests (3 %): 1 not answered, 2 spoilt or asked again.",
        "Calls itself \"ELM327 v1.5\", which it is not: it is judged by what it does.",
        "Hears 7E8, 7E9 on ISO 15765-4, 11 bit, 500 kbit/s.",
        "Shows 12.6 V at the connector.",
        "good with limits: 3 % of the requests bring nothing",
    ];
    assert_eq!(told(&found(), Depth::Short), want);
    let details = told(&found(), Depth::Details).join("\n");
    assert!(details.contains("no-ws: knows no warm start") && details.contains("last said"), "{details}");
}

#[test]
fn a_refused_identifier_is_told_with_its_code_and_what_to_try() {
    let mut found = found();
    found.latest.clear();
    found.detail = Some("222C41 to 7E1, code 31".to_owned());
    found.findings = Findings {
        readings: 0,
        still_reading: false,
        trouble: Some(Trouble::RefusedUnknown),
        requests: 9,
        lost: Lost { refused: 9, ..Lost::default() },
        per_second: 0.0,
        ..found.findings
    };
    let all = told(&found, Depth::Short);
    assert_eq!(
        all[0],
        "Reads nothing. The control unit refuses: it does not know this identifier (222C41 to 7E1, code 31)."
    );
    assert!(
        all.iter().any(|line| line.starts_with("Try: Check identifier and header of the sheet")),
        "{all:#?}"
    );
    assert_eq!(
        all.last().unwrap(),
        "cannot tell: the control unit refuses: it does not know this identifier, which says nothing of the adapter"
    );
    let report = Report::new(&port(), None, "222C41".to_owned(), &found);
    let json = serde_json::to_value(&report).unwrap();
    assert_eq!(json["worth"], "cannot-tell");
    assert_eq!(json["trouble"]["trouble"], "refused-unknown");
    assert_eq!((&json["still_reading"], &json["readings"]), (&false.into(), &0.into()));
    assert!(!report.reads());
}

#[test]
fn two_control_units_that_differ_are_both_shown() {
    let mut found = found();
    let coolant = |celsius| Measure::Coolant(Celsius::from_f64(celsius).unwrap());
    found.latest = [("7E8".to_owned(), coolant(98.0)), ("7EA".to_owned(), coolant(62.0))].into();
    let all = told(&found, Depth::Short);
    assert!(all[0].contains("98 °C from 7E8, 62 °C from 7EA"), "{}", all[0]);
    assert!(
        all[1].starts_with("Note: 2 control units answer this request with different values."),
        "{}",
        all[1]
    );
    found.latest.insert("7EA".to_owned(), coolant(98.0));
    assert!(!told(&found, Depth::Short)[1].starts_with("Note"), "the same value is no difference");
}

#[test]
fn what_was_read_and_then_stopped_is_told_as_such() {
    let mut found = found();
    found.findings.still_reading = false;
    found.findings.trouble = Some(Trouble::AdapterSilent);
    let all = told(&found, Depth::Short);
    assert_eq!(all[0], "Read fluid temperature: 38 °C from 7E9; then no more. The adapter does not answer.");
    assert!(all.last().unwrap().starts_with("send it back: it read for a while, then"), "{all:#?}");
}

#[test]
fn a_port_that_cannot_be_opened_says_nothing_of_the_adapter() {
    let busy = LinkError::Busy { device: "/dev/ttyUSB0".to_owned(), holder: None };
    let report = Report::unopened(&port(), "0105".to_owned(), &busy);
    let all = lines(&report, Depth::Short, UnitSystem::Metric);
    assert!(all[0].starts_with("Reads nothing. The adapter at /dev/ttyUSB0 is in use by"), "{all:?}");
    assert!(all.iter().any(|line| line.starts_with("Try: Close the other program")), "{all:?}");
    assert!(
        report.closing().starts_with("cannot tell: the port could not be opened"),
        "{}",
        report.closing()
    );
    let silent = LinkError::NoRate { device: "/dev/ttyUSB0".to_owned(), heard: WrongRate::Silence };
    let report = Report::unopened(&port(), "0105".to_owned(), &silent);
    assert!(report.closing().starts_with("cannot tell: nothing came back at all"), "{}", report.closing());
}

#[test]
fn nothing_that_an_adapter_says_of_itself_reaches_the_terminal_as_it_is() {
    let mut found = found();
    found.description = Some("\u{1b}[2Jcleared".to_owned());
    let all = told(&found, Depth::Details).join("\n");
    assert!(!all.contains('\u{1b}') && all.contains("cleared"), "{all:?}");
}
