//! The list of lines that may leave the program, written down a second time, independently of the types: for tests.
//!
//! In: a line as it was written. Out: whether it is on the list. Source: sections 4 to 6, 11, 12 and 16 of the dialect
//! reference, and `services.csv` for the reading services.

/// Section 4 of the dialect reference, "never sent", as the beginnings of lines. `SP 00` is not `SP0`, and `M1`, `R0`
/// and stored protocols (`SP` with anything but 0) come from rule 13 of section 16.
const NEVER: &[&str] = &[
    "ATPP", "AT@3", "ATSD", "ATCV", "ATSP00", "ATWM", "ATBI", "ATMA", "ATMR", "ATMT", "ATMP", "ATRTR",
    "ATIIA", "ATKW0", "ATR0", "ATPB", "ATCSM0", "STWBR", "STS@1", "STSATI", "ATTPA", "ATTP0", "ATM1",
    "ATD\r", "ATLP",
];

/// What may be said to the adapter, as beginnings followed by how many hexadecimal digits.
const ALLOWED: &[(&str, &[usize])] = &[
    ("ATI", &[0]),
    ("AT@1", &[0]),
    ("AT@2", &[0]),
    ("STI", &[0]),
    ("ATRV", &[0]),
    ("ATWS", &[0]),
    ("ATZ", &[0]),
    ("ATPC", &[0]),
    ("ATFE", &[0]),
    ("ATE0", &[0]),
    ("ATE1", &[0]),
    ("ATL0", &[0]),
    ("ATL1", &[0]),
    ("ATS0", &[0]),
    ("ATS1", &[0]),
    ("ATH0", &[0]),
    ("ATH1", &[0]),
    ("ATM0", &[0]),
    ("ATAT0", &[0]),
    ("ATAT1", &[0]),
    ("ATAT2", &[0]),
    ("ATST", &[2]),
    ("ATCAF0", &[0]),
    ("ATCAF1", &[0]),
    ("ATCFC0", &[0]),
    ("ATCFC1", &[0]),
    ("ATSP0", &[0]),
    ("ATTP", &[1]),
    ("ATDPN", &[0]),
    ("ATDP", &[0]),
    ("ATSH", &[3, 6]),
    ("ATCRA", &[2, 3, 8]),
    ("ATAR", &[0]),
    ("ATCF", &[2, 3, 8]),
    ("ATCM", &[3, 8]),
    ("ATFCSH", &[3]),
    ("ATFCSD300000", &[0]),
    ("ATFCSM0", &[0]),
    ("ATFCSM1", &[0]),
    ("ATBRD23", &[0]),
    ("ATKW1", &[0]),
    ("ATCSM1", &[0]),
    ("ATAMC", &[0]),
    ("ATCTM1", &[0]),
    ("ATQ9", &[0]),
];

/// Services 01, 02, 03, 06, 07, 09, 0A, 21 and 22: reading, by `services.csv` of the reference.
const READING: &[&str] = &["01", "02", "03", "06", "07", "09", "0A", "21", "22"];

/// Whether a line may leave after `previous`: a CR on its own only where it agrees to a rate that was just offered.
#[cfg_attr(test, allow(dead_code, reason = "the tests of the whole driver use it"))]
pub(crate) fn is_allowed_after(previous: Option<&[u8]>, line: &[u8]) -> bool {
    is_allowed(line) || (line == b"\r" && previous == Some(b"ATBRD23\r"))
}

/// Whether a line that left the program is on the list. Also used by the driver's own proof.
pub(crate) fn is_allowed(line: &[u8]) -> bool {
    let Some(text) = std::str::from_utf8(line).ok() else { return false };
    if text == " " {
        return true;
    }
    let Some(text) = text.strip_suffix('\r') else { return false };
    // Spaces in front are ignored by adapters; see `command/guard.rs`.
    let text = match text.strip_prefix("  ").or_else(|| text.strip_prefix(' ')) {
        Some(rest) if !rest.starts_with(' ') => rest,
        _ => text,
    };
    let hex =
        |digits: &str| digits.bytes().all(|byte| byte.is_ascii_digit() || (b'A'..=b'F').contains(&byte));
    if NEVER.iter().any(|never| format!("{text}\r").starts_with(never)) {
        return false;
    }
    let set = ALLOWED.iter().any(|(start, digits)| {
        text.strip_prefix(start).is_some_and(|rest| digits.contains(&rest.len()) && hex(rest))
    });
    let read = READING.iter().any(|service| text.starts_with(service)) && hex(text) && text.len() <= 15;
    set || read
}
