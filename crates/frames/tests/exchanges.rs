//! The data and search rows of `exchanges.csv`: what adapters were seen or said to answer.
//!
//! The table has no expected messages; the ones below were worked out by hand from its `quirk` column and the
//! sections of the adapter reference that it follows. Rows that are disputed say why.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test may panic")]

mod reference;

use std::collections::BTreeMap;

use frames::{Ask, Bus, Headers, Layout, WireError, reply};
use reference::{rows, unescape};

/// What a row must give: messages as `ecu data` (or `data`), then the kind of problem, if there is one.
#[rustfmt::skip]
const WANT: &[(&str, &[&str], Option<&str>)] = &[
    ("X067", &["4100BE3EB811"], None),
    ("X068", &["18DAF111 4100BC3FA803", "18DAF11D 4100983A8001"], None),
    ("X069", &["7EC 7F017F"], None),
    ("X070", &[], Some("no-connection")),
    ("X071", &[], Some("no-data")),
    ("X072", &["1A 410088180010"], None),
    ("X073", &[], Some("no-connection")),
    ("X074", &[], Some("no-connection")),
    ("X075", &[], Some("interrupted")),
    // Disputed: the row is marked `rule` and fixed to ISO 9141-2, but its last byte FA is the J1850 code of
    // the line (the data sheet's own example); the sum that ISO 9141-2 wants is C9.
    ("X076", &[], Some("checksum-error")),
    // Disputed: the row is marked `made`; its format byte 83 announces three data bytes, six follow and no
    // checksum.
    ("X077", &[], Some("incomplete")),
    ("X078", &[], Some("interrupted")),
    // Two replies in one text: nothing tells which is ours.
    ("X079", &[], Some("text-after-prompt")),
    ("X081", &["7E8 41057D"], None),
    ("X082", &["7E8 41423183"], None),
    ("X083", &["7E8 4100BE1DA813"], None),
    ("X084", &["41057B"], None),
    ("X085", &["7E8 41057B"], None),
    ("X086", &["18DAF111 41057B"], None),
    ("X087", &["410C0BEC"], None),
    ("X088", &["410C0BB1"], None),
    ("X089", &["4100BE3EB811", "410080108000"], None),
    // The checksums are those of J1850 VPW, one of the three protocols that the row names.
    ("X090", &["10 4100BE3EB811", "18 410080108000"], None),
    ("X091", &["4902013144344750303052353542313233343536"], None),
    ("X092", &["7E8 4902013144344750303052353542313233343536"], None),
    ("X093", &["49020000003144344750303052353542313233343536"], None),
    ("X094", &[], Some("ambiguous")),
    ("X095", &["7E8 49040135363032383934394143000000000000", "7E9 49040135363032383935344143000000000000"], None),
    ("X096", &["41043F05440B210C17B8"], None),
    ("X097", &["7F2212", "7F2212", "7F2212", concat!(
        "620101FFF7E7FF98000000008000000F2B1F1D1D1D1F1D00001BC603C52800007A000009FF00000888",
        "000003D00000031D000615A30900030000000003E8")], None),
    ("X098", &["417A0101B800000000"], None),
    ("X100", &["18DAF111 410C1710", "18DAF128 4700", "18DAF118 4700", "18DAF140 4700", "18DAF111 4702226D226E",
        "18DAF111 410D00", "18DAF111 411148"], None),
    ("X101", &[], Some("not-understood")),
    ("X102", &["7E8 41057B"], None),
    ("X103", &[], Some("no-data")),
    ("X104", &[], Some("interrupted")),
    ("X105", &[], Some("adapter-fault")),
    ("X106", &[], Some("bus-error")),
    ("X107", &[], Some("adapter-reset")),
    ("X108", &[], Some("data-error")),
    ("X109", &[], Some("data-error")),
    ("X110", &[], Some("overrun")),
    ("X111", &["7E9 7F2278", "7E9 6219405500"], None),
    ("X112", &["7E9 7F2278"], None),
    ("X113", &["7E9 7F2231"], None),
    ("X114", &[], Some("not-understood")),
];

#[test]
fn every_data_and_search_row_gives_what_its_note_says() {
    let mut want: BTreeMap<&str, _> =
        WANT.iter().map(|(id, messages, kind)| (*id, (*messages, *kind))).collect();
    for row in rows("adapter/exchanges.csv") {
        // Without a reply there is nothing to parse: a time limit or a lost link.
        if !matches!(row.at("phase"), "data" | "search") || row.at("reply").is_empty() {
            continue;
        }
        let (messages, kind) =
            want.remove(row.at("id")).unwrap_or_else(|| panic!("{} is not listed", row.at("id")));
        let messages: Vec<String> = messages.iter().map(|message| message.to_string()).collect();
        assert_eq!(parsed(&row), (messages, kind), "{} {}", row.at("id"), row.at("reply"));
    }
    assert!(want.is_empty(), "listed, but not in the table: {want:?}");
}

/// Messages as `ecu data` and the kind of problem. The bus is that of the column `protocol`, or, for a range,
/// the one whose checksum fits.
fn parsed(row: &reference::Row) -> (Vec<String>, Option<&'static str>) {
    let bus = match row.at("protocol") {
        "1-3" => Bus::J1850Vpw,
        "3" | "1-5" | "3-5" => Bus::Iso9141,
        "5" => Bus::Iso14230,
        "7" => Bus::Can29,
        _ => Bus::Can11,
    };
    // Two logs with echo on name no header state; their lines have none.
    let hidden = ["H0", "E1 S1"].iter().any(|state| row.at("state_before").contains(state));
    let headers = if hidden { Headers::Hidden } else { Headers::Shown };
    let request = row.at("request").trim_end_matches("\\r");
    let without_count = &request[..request.len().saturating_sub(1)];
    let ask = Ask::parse(request).or_else(|_| Ask::parse(without_count)).ok();
    let got = reply(&unescape(row.at("reply")), Layout { bus, headers }, ask);
    let shown = got.messages.iter().map(|message| {
        let data: String = message.data.iter().map(|byte| format!("{byte:02X}")).collect();
        message.ecu.map_or(data.clone(), |ecu| format!("{ecu} {data}"))
    });
    (shown.collect(), got.problem.as_ref().map(WireError::kind))
}
