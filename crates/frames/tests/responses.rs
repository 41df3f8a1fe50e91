//! Every row of `responses.csv` that is a text of the adapter: told apart, and of the class that the table names.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may panic")]

mod reference;

use frames::{Status, StatusClass, status};
use reference::rows;

/// What the rows without a literal text stand for, as an adapter would say it.
#[rustfmt::skip]
const SAID: &[(&str, &[&str])] = &[
    ("BUSINIT: ...ERROR / BUSINIT:OK", &["BUSINIT: ...ERROR"]),
    ("VENDOR OPTION / VENDOR MODE",    &["VENDOR OPTION", "VENDOR MODE"]),
    ("<DATA ERROR",                    &["48 6B 10 41 05 7B <DATA ERROR"]),
    ("<RX ERROR",                      &["7E8 03 41 05 7B <RX ERROR"]),
    ("ERRxx",                          &["ERR93", "ERR71"]),
    ("FC: ",                           &["FC: 30 00 00"]),
    ("RTR",                            &["7E8 RTR"]),
    ("ELM327 v1.0 ... v2.3",           &["ELM327 v1.0", "ELM327 v2.3"]),
    ("ELM327 v1.4a / v1.5 / v1.5a",    &["ELM327 v1.5a"]),
    ("ELM327 v1.3a / v1.4b from STN11xx", &["ELM327 v1.4b"]),
    ("STNxxxx vX.Y.Z",                 &["STN1110 v4.0.4"]),
    ("dd.dV",                          &["12.6V"]),
    ("A6 / 6 / A0 / 0",                &["A6", "6", "A0", "0"]),
    ("? after an unfinished line",     &["?"]),
    ("OK (no CR, no prompt)",          &["OK"]),
    ("OK (CR, no prompt)",             &["OK"]),
];

/// Rows that are no text of the adapter's own: the prompt, data, and answers whose text is free or not used here.
const NO_STATUS: &[&str] = &[
    ">",
    "...",
    "0: / 1: ... F:",
    "0xx (3 hex digits alone)",
    "7F ss 78",
    "7F ss xx",
    "OBDII to RS232 Interpreter",
    "12 printable characters",
    "ON / OFF",
    "Tx / Rx counts",
];

fn class(name: &str, status: Status) -> StatusClass {
    match (name, status) {
        // ERR94 and the wrong port have a class of their own here: what must follow is different.
        ("error-adapter", Status::AdapterFault(0x94)) => StatusClass::Reset,
        ("refused", Status::Modem) => StatusClass::WrongPort,
        ("refused", Status::Vendor) => StatusClass::Unknown,
        ("ok", _) => StatusClass::Ok,
        ("refused", _) => StatusClass::Refused,
        ("status", _) => StatusClass::Progress,
        ("error-vehicle", _) => StatusClass::Vehicle,
        ("error-driver", _) => StatusClass::Driver,
        ("error-adapter", _) => StatusClass::Adapter,
        ("error-bus", _) => StatusClass::Bus,
        ("reset", _) => StatusClass::Reset,
        ("alert", _) => StatusClass::Alert,
        ("mark", _) => StatusClass::Mark,
        ("ident" | "voltage" | "protocol", _) => StatusClass::Answer,
        other => panic!("{other:?}"),
    }
}

#[test]
fn every_text_of_the_table_is_told_apart_and_has_its_class() {
    for row in rows("adapter/responses.csv") {
        let text = row.at("text");
        if NO_STATUS.contains(&text) {
            continue;
        }
        let said = SAID.iter().find(|(name, _)| *name == text).map_or(vec![text], |(_, said)| said.to_vec());
        for line in said {
            let status = status(line.as_bytes()).unwrap_or_else(|| panic!("{line} is not known"));
            assert_eq!(status.class(), class(row.at("class"), status), "{line}");
        }
    }
}
