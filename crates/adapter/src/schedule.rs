//! What is asked, and how often: one request gates the check, the others share what is left.
//!
//! In: [`Schedule`], from whoever knows what the readings are for. Out: which one is due (`driver/known/turns.rs`).
//! Not here: what the answers mean. Source: sections 9 and 16 of the dialect reference.

use std::time::Duration;

use frames::{Ask, Bus};

use crate::command::Header;

/// One request that is asked again and again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Poll {
    /// What is asked.
    pub ask: Ask,
    /// To which control unit; `None` asks all of them.
    pub header: Option<Header>,
    /// From one request to the next, if the line allows; zero is as often as it does.
    pub every: Duration,
}

/// Everything that is asked.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Schedule {
    /// The one that counts most: whenever it is due it comes first, save that another one that is due gets its turn
    /// after it.
    pub gating: Option<Poll>,
    /// The others: the most overdue first.
    pub others: Vec<Poll>,
    /// Asked once after connecting, between the others: who the vehicle is, which codes it has stored.
    pub once: Vec<Poll>,
    /// The shortest time from one request to the next, whatever is due. Buses that want more get it.
    pub floor: Duration,
}

impl Poll {
    /// To all control units.
    pub const fn new(ask: Ask, every: Duration) -> Self {
        Self { ask, header: None, every }
    }

    /// To one control unit.
    pub const fn to(self, header: Header) -> Self {
        Self { header: Some(header), ..self }
    }
}

/// Vehicles built before the 2002 edition of SAE J1979 must not be asked more often on J1850.
/// Source: data sheet page 32.
const FLOOR_J1850: Duration = Duration::from_millis(100);
/// The others may be asked as often as they answer.
/// Own choice: the step of our clock.
const FLOOR: Duration = Duration::from_millis(1);

/// The shortest time between requests that every vehicle on `bus` bears.
pub(crate) const fn bus_floor(bus: Bus) -> Duration {
    match bus {
        Bus::J1850Pwm | Bus::J1850Vpw => FLOOR_J1850,
        Bus::Can11 | Bus::Can29 | Bus::Iso9141 | Bus::Iso14230 => FLOOR,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_bus_has_its_floor() {
        let floors = Bus::ALL.map(|bus| (bus, bus_floor(bus).as_millis()));
        let want = [
            (Bus::Can11, 1),
            (Bus::Can29, 1),
            (Bus::J1850Pwm, 100),
            (Bus::J1850Vpw, 100),
            (Bus::Iso9141, 1),
            (Bus::Iso14230, 1),
        ];
        for row in want {
            assert!(floors.contains(&row), "{row:?} in {floors:?}");
        }
        assert_eq!(floors.len(), want.len());
    }

    #[test]
    fn a_request_goes_to_all_unless_it_is_told_to_whom() {
        let every = Duration::from_millis(700);
        let all = Poll::new(Ask::Current(0x05), every);
        assert_eq!(all, Poll { ask: Ask::Current(0x05), header: None, every });
        let header = Header::parse("7E1").unwrap();
        assert_eq!(all.to(header), Poll { header: Some(header), ..all });
    }
}
