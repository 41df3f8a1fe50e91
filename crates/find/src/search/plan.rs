//! The order of asking, and the numbers of the search, each with its source.
//!
//! In: the bus, the units that answer. Out: whom to ask first, which identifiers of a page of 256 are samples, which standard ones are worth
//! asking. Not here: what becomes of an answer (`unit.rs`).

use frames::Bus;

use super::{Depth, Purpose};
use crate::place::{Header, Place, Service};

/// The units in the order of asking: of those that are known to answer, the transmission's usual address, the engine's, then as they came; then the
/// other usual addresses, because a unit that gives no standard identifiers may still give its own.
/// Source: 7E0 to 7E7 (ISO 15765-4), 7E1 and 7E0 for transmission and engine from memory; 18 to 1F and 10 to 12 (SAE J2178), from memory.
pub(super) fn order(bus: Bus, answering: &[Header]) -> Vec<Header> {
    let numbers: &[u8] = if bus == Bus::Can11 {
        &[1, 0, 2, 3, 4, 5, 6, 7]
    } else {
        &[0x18, 0x10, 0x19, 0x1A, 0x1B, 0x1C, 0x1D, 0x1E, 0x1F, 0x11, 0x12]
    };
    let usual = || numbers.iter().map(|unit| Header::of_unit(bus, *unit));
    let mut order: Vec<Header> = usual().filter(|header| answering.contains(header)).collect();
    for header in answering.iter().copied().chain(usual()) {
        if !order.contains(&header) {
            order.push(header);
        }
    }
    order
}

/// Bitmaps of service 01 that say which identifiers above A0 a unit has.
/// Source: SAE J1979: each names the next 32.
const BITMAPS: [u8; 3] = [0xA0, 0xC0, 0xE0];

/// Identifiers of service 01 that the five sources of the reference name between A1 and FF; what a unit has beside them may be anything.
/// Source: `mode01.csv` of the reference.
const NAMED: &[core::ops::RangeInclusive<u8>] = &[0xA0..=0xC8, 0xD2..=0xD3, 0xE0..=0xE0];

/// What is asked of each unit by service 01.
pub(super) fn standard(header: Header) -> impl Iterator<Item = Place> {
    BITMAPS.into_iter().map(move |id| Place { header, service: Service::Current, id: u16::from(id) })
}

/// Whether an identifier of service 01 is a bitmap.
pub(super) fn is_bitmap(id: u16) -> bool {
    BITMAPS.iter().any(|bitmap| u16::from(*bitmap) == id)
}

/// The identifiers that a bitmap claims and no table names.
pub(super) fn unnamed(bitmap: Place, bytes: &[u8]) -> impl Iterator<Item = Place> {
    let bits = bytes.iter().take(4).fold(0_u32, |all, byte| all << 8 | u32::from(*byte));
    (1..=32_u16).filter(move |bit| bits >> (32 - bit) & 1 == 1).filter_map(move |bit| {
        let id = bitmap.id + bit;
        let short = u8::try_from(id).ok()?;
        let named = NAMED.iter().any(|range| range.contains(&short));
        (!named).then_some(Place { id, ..bitmap })
    })
}

/// The stages: so many samples of each page were taken.
pub(super) fn stages() -> impl Iterator<Item = usize> {
    STAGES.iter().copied()
}

/// Samples of each page, coarse to fine; between two stages the next unit has its turn.
/// Own choice: each stage halves the gaps, so that the largest blocks are met first; the last is every one.
const STAGES: &[usize] = &[0, 2, 4, 8, USUAL, 32, FINE, 128, 257];
/// One in sixteen and the second of each page. Own choice: a block of 16 cannot be missed.
const USUAL: usize = 17;
const FINE: usize = 65;

/// So many samples of each page are planned.
pub(super) const fn samples(depth: Depth) -> usize {
    match depth {
        Depth::Usual => USUAL,
        Depth::Fine => FINE,
        Depth::Whole => 257,
    }
}

/// Where in its page the `n`-th sample lies: the first and the second of a page, the middle, the quarters, and so on, so that each
/// stage halves the gaps. That blocks begin at a page's start is common practice, no source.
pub(super) const fn offset(n: usize) -> Option<u8> {
    match n {
        0 => Some(0x00),
        1 => Some(0x01),
        2..=256 => {
            let place = (n as u32 - 1).reverse_bits() >> 24;
            // The second was taken out of its turn; where it would come, there is nothing.
            if place == 1 { None } else { Some(place as u8) }
        }
        _ => None,
    }
}

/// The pages in the order of asking, for the two-byte service: halves, quarters and so on, so that no corner is late. F0 to F3 are left out: what a
/// unit is, periodic and composed identifiers (ISO 14229-1, from memory).
pub(super) const fn page(n: usize) -> Option<u8> {
    let place = ((n as u32) << 24).reverse_bits() as u8;
    if n > 255 || matches!(place, 0xF0..=0xF3) { None } else { Some(place) }
}

/// How many identifiers one page sample costs.
/// By definition: 256 less F0 to F3, which are no data of a maker.
pub(super) const PAGES: usize = 252;

/// Whether the service is there is asked by an identifier that every unit has: which session is active. Any answer but
/// a refusal of the whole service means yes.
/// Source: ISO 14229-1, from memory.
pub(super) const PROBE: u16 = 0xF186;
/// The same for service 21, where no identifier is common: the first.
/// Own choice: any would do.
pub(super) const PROBE_LOCAL: u16 = 0x01;

/// From one request to the next. Own choice: on CAN at 500 kbit/s twenty requests and answers a second are one hundredth of what the bus
/// carries; on the older buses the pause of 55 ms that ISO 14230-2 asks for (P3) is kept with room.
pub(super) const fn pace_ms(bus: Bus) -> u64 {
    if bus.is_can() { 50 } else { 80 }
}

/// So long nothing is asked after something odd, or a lost link.
/// Own choice: a late answer is in by then.
pub(super) const AFTER_ODD_MS: u64 = 2_000;
/// Below this the battery is low: the vehicle must start afterwards.
/// Source: common practice, no source.
pub(super) const LOW_MV: u32 = 11_600;
/// How near a value must be to the soaked vehicle. Own choice: four standard deviations of `score.rs`.
pub(super) const NEAR_K: f64 = 8.0;
/// So often a busy unit is asked for the same.
/// Own choice: each costs 50 ms; one that is busy longer is asked again while the engine runs.
pub(super) const BUSY_TRIES: u8 = 3;
/// After so many others it is asked again.
/// Own choice: half a second at the pace of CAN, what a unit may be busy for.
pub(super) const AGAIN_EVERY: u32 = 8;
/// So many places are kept that refused for the state of the vehicle.
/// Own choice: a unit with more refuses everything so, and all would be asked twice for nothing.
pub(super) const MOST_LATER: usize = 64;
/// Fewer places than this are few.
/// Own choice: the smallest vehicle of the campaign has 20; those with few lie in small blocks, which finer samples
/// meet.
pub(super) const FEW: usize = 40;
/// So many neighbours on either side of what answered. Own choice: a block with a hole of five is still one block.
pub(super) const AROUND: u16 = 6;
/// A unit that has never answered is left after so many silences; one that gives standard identifiers, or has answered, after so many in a row, because
/// some refuse by saying nothing. Own choice: a silence takes four times as long as a refusal, 256 of them a minute.
pub(super) const SILENCES: u16 = 2;
pub(super) const SILENCES_OF_ONE_THAT_ANSWERS: u16 = 512;
pub(super) const SILENCES_LOCAL: u16 = 32;
/// A unit that answered something else so often, even when asked again, is left alone.
/// Own choice: nothing it says can be told apart then; a person has let it go on twice by that time.
pub(super) const ODD: u16 = 3;
/// A unit that gives up on each of its first so many is left alone.
/// Own choice: one that answers some has shown it within a page's samples.
pub(super) const GIVES_UP: u16 = 16;

/// What a probe is asked by.
pub(super) const fn probe(service: Service) -> (u16, Purpose) {
    (if matches!(service, Service::Local) { PROBE_LOCAL } else { PROBE }, Purpose::Probe)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_s_samples_are_all_of_it_once_and_halve_the_gaps() {
        let all: Vec<u8> = (0..=256).filter_map(offset).collect();
        let mut sorted = all.clone();
        sorted.sort_unstable();
        assert_eq!(sorted, (0..=255).collect::<Vec<u8>>());
        for (samples, gap) in [(3, 128), (5, 64), (9, 32), (17, 16)] {
            let mut taken: Vec<u16> = (0..samples).filter_map(offset).map(u16::from).collect();
            taken.push(256);
            taken.sort_unstable();
            assert!(taken.windows(2).all(|two| two[1] - two[0] <= gap), "{samples}: {taken:?}");
        }
    }

    #[test]
    fn every_page_but_four_comes_once() {
        let mut pages: Vec<u8> = (0..256).filter_map(page).collect();
        assert_eq!(pages.len(), PAGES);
        pages.sort_unstable();
        pages.dedup();
        assert_eq!(pages.len(), PAGES);
    }

    #[test]
    fn only_what_no_table_names_is_asked_for_by_service_01() {
        let bitmap = Place { header: Header::of_unit(Bus::Can11, 0), service: Service::Current, id: 0xC0 };
        // C1 (named), C9 and D2 (named), E0 (the next bitmap).
        let claimed: Vec<u16> = unnamed(bitmap, &[0x80, 0x80, 0x40, 0x01]).map(|place| place.id).collect();
        assert_eq!(claimed, [0xC9]);
    }

    #[test]
    fn the_transmission_s_usual_address_comes_first() {
        let at = |unit| Header::of_unit(Bus::Can11, unit);
        let order = order(Bus::Can11, &[at(3), at(0), at(1)]);
        assert_eq!(order.get(..4).unwrap(), [at(1), at(0), at(3), at(2)]);
        assert_eq!(order.len(), 8);
    }
}
