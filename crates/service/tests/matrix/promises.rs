//! What is promised of each odd adapter and of each request that does harm, held one by one: the table "What is promised" of
//! `docs/adapters.md` names these tests.

use adapter::Quirk;
use rehearsal::{Bus, FaultKind, Firmware};

use crate::play::{Came, play};
use crate::{BUSES, seed};

/// Of an odd copy on CAN with no fault: the first temperature comes within so many s, at least so many in 2 min, and these
/// quirks are named and no others.
type Row = (&'static str, u64, usize, &'static [Quirk]);

use Quirk as Q;

#[rustfmt::skip]
const ODD_COPIES: &[Row] = &[
    // Well after 8 s; what the first refusals seemed to say is found out anew on the next link.
    ("copy-refuses-at-first", 12, 240, &[Q::EchoStuck, Q::NoWs, Q::LosesFirst]),
    ("copy-needs-gap",         5, 250, &[Q::NeedsGap]),
    ("copy-loses-first",       5, 250, &[Q::LosesFirst]),
    ("copy-digit-no-data",     4, 270, &[Q::NoDigit]),
    ("copy-no-search",         4, 280, &[]),
    ("copy-first-link-only",   4, 280, &[]),
    ("copy-slow-to-let-in",    4, 280, &[]),
    ("copy-fixed-wait",        4, 270, &[]),
    ("copy-searches-anew",     4, 280, &[]),
    ("copy-lower-case",        4, 280, &[]),
    ("copy-xon-xoff",          4, 280, &[Q::StrayByte]),
    ("copy-filter-stays",      5, 280, &[]),
    ("copy-ignores-spaced",    6, 270, &[]),
    ("copy-spaced-prompt",     4, 280, &[]),
    ("copy-lf-only",           4, 280, &[Q::LfStuck]),
    ("copy-lines-twice",       4, 280, &[]),
    ("copy-number-zero",       4, 280, &[]),
    ("copy-number-wrong",      4, 280, &[]),
    ("copy-telnet",            4, 280, &[Q::StrayByte]),
    // Two losses until it is found out, then without the voltage.
    ("copy-voltage-closes",   11, 215, &[]),
    ("copy-resets-on-st",      6, 270, &[]),
    ("copy-wakes-slowly",      4, 280, &[]),
    ("copy-stops-when-early",  4, 215, &[Q::NeedsGap]),
    ("copy-very-slow-reset",  17, 250, &[Q::NoWs]),
];

fn of(firmware: &str, fault: Option<FaultKind>) -> Came {
    let place = (Firmware::named(firmware).unwrap(), fault, Bus::named(BUSES[0]).unwrap());
    let came = play(place.0, place.1, place.2, seed(place));
    assert!(came.wrong.is_empty(), "{firmware}: {:?}", came.wrong);
    came
}

#[test]
fn every_odd_copy_is_read_as_promised() {
    let mut bad = Vec::new();
    for (name, within_s, readings, quirks) in ODD_COPIES {
        let came = of(name, None);
        let first = came.first.map(|at| at.as_millis());
        let in_time = first.is_some_and(|at| at <= within_s * 1_000);
        let named =
            quirks.iter().all(|quirk| came.quirks.contains(quirk)) && came.quirks.len() == quirks.len();
        if !in_time || came.readings < *readings || !named {
            bad.push(format!("{name}: first {first:?}, {} readings, {:?}", came.readings, came.quirks));
        }
    }
    assert!(bad.is_empty(), "{}", bad.join("\n"));
    // All but the one that this vehicle cannot be read through.
    let odd = rehearsal::firmware::ODD_ONES.iter().filter(|one| one.name != "copy-question-marks");
    let missing: Vec<_> =
        odd.filter(|one| ODD_COPIES.iter().all(|(name, ..)| *name != one.name)).map(|one| one.name).collect();
    assert!(missing.is_empty(), "{missing:?}");
}

#[test]
fn an_adapter_that_names_nobody_says_so_and_reads_nothing() {
    let came = of("copy-question-marks", None);
    assert_eq!(came.readings, 0);
    assert!(came.last.contains("several control units answer"), "{}", came.last);
}

#[test]
fn a_request_that_does_harm_is_named_and_starves_no_other() {
    // Which one, as it is written, and what the others bring all the same: of 290 temperatures of the fluid and 75 of the coolant.
    let rows = [
        // Asked once, before the fault begins: it does no harm then.
        (FaultKind::RequestKillsLink, None, 280, 70),
        (FaultKind::RequestResets, Some("010D"), 260, 60),
        // Each time costs the whole ladder of attempts, 17 s.
        (FaultKind::RequestHangs, Some("0146"), 170, 45),
    ];
    for (fault, harmful, readings, coolants) in rows {
        let came = of("original-2.1", Some(fault));
        let named = came.avoided.first().map(String::as_str);
        assert_eq!(named, harmful, "{}", fault.word());
        assert!(came.avoided.iter().all(|one| Some(one.as_str()) == harmful), "{:?}", came.avoided);
        assert!(came.readings >= readings && came.coolants >= coolants, "{}: {came:?}", fault.word());
    }
}
