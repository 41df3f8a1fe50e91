//! One answer of one control unit, and where its data end.
//!
//! In: the bytes behind a length or header. Out: [`Message`], or the bytes without the padding of a clone.
//! Not here: how lines become one (`wire.rs`, `single.rs`, `isotp.rs`). Source: section 7 of the adapter reference.

use alloc::vec::Vec;

use crate::ask::Ask;
use crate::bus::Ecu;
use crate::table::current;

/// One answer of one control unit.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Message {
    /// Who sent it; `None` where headers are hidden.
    pub ecu: Option<Ecu>,
    /// From the service byte on; without length, checksum, padding and message numbers. Negative replies are
    /// kept.
    pub data: Vec<u8>,
}

/// Cuts the padding that some clones show behind a single frame: only where the length of the answer is known
/// from the request, the frame is full, and the rest is one byte repeated.
pub(crate) fn cut_padding(bytes: &[u8], ask: Option<Ask>) -> &[u8] {
    let known = match (ask, bytes) {
        (_, [0x7F, ..]) => Some(3),
        (Some(Ask::Current(pid)), [0x41, id, ..]) if *id == pid => current::find(pid)
            .filter(|row| row.shortest == row.longest)
            .map(|row| 2 + usize::from(row.longest)),
        (Some(Ask::StoredCodes | Ask::PendingCodes | Ask::PermanentCodes), [_, count, ..]) => {
            Some(2 + 2 * usize::from(*count))
        }
        _ => None,
    };
    match known.and_then(|length| bytes.split_at_checked(length)) {
        Some((data, padding))
            if bytes.len() == 7 && padding.windows(2).all(|two| matches!(two, [a, b] if a == b)) =>
        {
            data
        }
        _ => bytes,
    }
}
