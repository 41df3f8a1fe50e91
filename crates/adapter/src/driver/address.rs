//! Header and receive filter: what the adapter has, and the next step towards what a request needs.
//!
//! They change only together, in the order filter off, header, filter on, and only where they differ: a filter left
//! behind would turn later replies into `NO DATA`, or worse, keep the wrong unit's.
//! Method: section 6 of the dialect reference.

use frames::{Bus, Ecu, Status};
use units::Mono;

use super::recover::Recovery;
use super::{Driver, Exchange, Goal, Phase};
use crate::codec::Reply;
use crate::command::{Header, Setup};
use crate::quirk::Quirk;

/// What is known of the adapter's header and filter.
#[derive(Debug)]
pub(super) struct Address {
    bus: Bus,
    header: Option<Header>,
    filter: Filter,
    /// How the adapter can filter.
    means: Means,
    /// Whether it waits as long as it can, for a control unit that asks for more time.
    waits_long: bool,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Filter {
    Unknown,
    Off,
    Masked,
    On(Ecu),
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Means {
    /// `ATCRA`.
    Receive,
    /// `ATCM` and `ATCF`.
    Mask,
    /// Not at all; the sender is checked anyhow.
    None,
}

/// One change.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Step {
    FilterOff,
    Header(Header),
    FilterOn(Ecu),
    Mask,
    FilterBy(Ecu),
    WaitLong,
    Close,
}

impl Default for Address {
    fn default() -> Self {
        Self {
            bus: Bus::Can11,
            header: None,
            filter: Filter::Unknown,
            means: Means::Receive,
            waits_long: false,
        }
    }
}

impl Address {
    /// Just connected: the adapter asks everybody and listens to everybody.
    pub(super) fn functional(&mut self, bus: Bus) {
        (self.bus, self.header, self.filter) = (bus, Some(Header::functional(bus)), Filter::Off);
        self.waits_long = false;
    }

    /// Nothing is sure any more.
    pub(super) fn forget(&mut self) {
        (self.header, self.filter) = (None, Filter::Unknown);
    }

    pub(super) const fn bus(&self) -> Bus {
        self.bus
    }

    pub(super) const fn waits_long(&self) -> bool {
        self.waits_long
    }

    /// The next step towards asking `header`, or everybody; `None` when nothing is left to change.
    pub(super) fn next(&self, header: Option<Header>) -> Option<(Setup, Step)> {
        let want = header.unwrap_or(Header::functional(self.bus));
        let only =
            header.and_then(Header::answers_from).filter(|_| self.bus.is_can() && self.means != Means::None);
        if self.header.is_none_or(|has| !has.same_address(want)) {
            return Some(match self.filter {
                Filter::Off => (Setup::Header(want), Step::Header(want)),
                _ => (Setup::ReceiveAny, Step::FilterOff),
            });
        }
        match (self.filter, only) {
            (Filter::Off, None) => None,
            (Filter::On(has), Some(only)) if has == only => None,
            (Filter::Off, Some(only)) if self.means == Means::Receive => {
                Some((Setup::ReceiveOnly(only), Step::FilterOn(only)))
            }
            (Filter::Off, Some(only)) => Some((Setup::Mask(only), Step::Mask)),
            (Filter::Masked, Some(only)) => Some((Setup::Filter(only), Step::FilterBy(only))),
            _ => Some((Setup::ReceiveAny, Step::FilterOff)),
        }
    }

    /// A step was accepted.
    fn done(&mut self, step: Step) {
        match step {
            Step::FilterOff => self.filter = Filter::Off,
            Step::Header(header) => self.header = Some(header),
            Step::FilterOn(only) | Step::FilterBy(only) => self.filter = Filter::On(only),
            Step::Mask => self.filter = Filter::Masked,
            Step::WaitLong => self.waits_long = true,
            Step::Close => {}
        }
    }

    /// A step was refused; what follows from it.
    fn refused(&mut self, step: Step) -> Refused {
        match step {
            Step::Header(_) => return Refused::NotAddressable,
            Step::FilterOn(_) => {
                self.means = Means::Mask;
                return Refused::NoReceiveAddress;
            }
            Step::Mask => self.means = Means::None,
            Step::FilterBy(_) => (self.means, self.filter) = (Means::None, Filter::Unknown),
            // A filter that cannot be taken off again is never set again; only a restart is sure to clear it.
            Step::FilterOff => {
                let was_set = matches!(self.filter, Filter::On(_) | Filter::Masked);
                (self.means, self.filter) = (Means::None, Filter::Off);
                if was_set {
                    return Refused::Stuck;
                }
            }
            Step::WaitLong => self.waits_long = true,
            Step::Close => {}
        }
        Refused::GoOn
    }
}

enum Refused {
    GoOn,
    NoReceiveAddress,
    NotAddressable,
    Stuck,
}

impl Driver {
    pub(super) fn address_reply(&mut self, step: Step, _exchange: &Exchange, reply: &Reply, now: Mono) {
        match reply.lines().find_map(frames::status) {
            Some(Status::Ok) => self.address.done(step),
            Some(Status::NotUnderstood) => match self.address.refused(step) {
                Refused::GoOn => {}
                Refused::NoReceiveAddress => self.note(Quirk::NoCra),
                Refused::NotAddressable => self.poll_header_refused(now),
                Refused::Stuck => {
                    self.polls.pause();
                    self.phase = Phase::SettingUp { step: 0 };
                }
            },
            // Neither: whatever this belongs to, it is not ours.
            _ => self.recover(Recovery::in_step(Goal::Poll), now),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The lines that are sent until nothing is left to change; `refuses` are answered by `?`.
    fn lines(address: &mut Address, header: Option<&str>, refuses: &[&str]) -> Vec<String> {
        let header = header.map(|text| Header::parse(text).unwrap());
        let mut sent = Vec::new();
        while let Some((setup, step)) = address.next(header) {
            let line = setup.to_string();
            if refuses.contains(&line.as_str()) {
                if let Refused::NotAddressable | Refused::Stuck = address.refused(step) {
                    sent.push(line);
                    break;
                }
            } else {
                address.done(step);
            }
            sent.push(line);
            assert!(sent.len() < 20, "{sent:?}");
        }
        sent
    }

    fn connected(bus: Bus) -> Address {
        let mut address = Address::default();
        address.functional(bus);
        address
    }

    #[test]
    fn header_and_filter_change_together_and_only_where_they_differ() {
        let mut address = connected(Bus::Can11);
        assert_eq!(lines(&mut address, None, &[]), [""; 0], "everybody is asked from the start");
        assert_eq!(lines(&mut address, Some("7E1"), &[]), ["ATSH7E1", "ATCRA7E9"]);
        assert_eq!(lines(&mut address, Some("7E1"), &[]), [""; 0]);
        assert_eq!(lines(&mut address, Some("7E0"), &[]), ["ATAR", "ATSH7E0", "ATCRA7E8"]);
        assert_eq!(lines(&mut address, None, &[]), ["ATAR", "ATSH7DF"]);
        address.forget();
        assert_eq!(lines(&mut address, None, &[]), ["ATAR", "ATSH7DF"], "nothing is sure after a resync");
        let mut address = connected(Bus::Can29);
        assert_eq!(lines(&mut address, Some("18DA18F1"), &[]), ["ATSHDA18F1", "ATCRA18DAF118"]);
        let mut address = connected(Bus::Iso14230);
        assert_eq!(lines(&mut address, Some("8118F1"), &[]), ["ATSH8118F1"], "filters are for CAN");
        assert_eq!(lines(&mut address, None, &[]), ["ATSHC233F1"]);
    }

    #[test]
    fn what_is_refused_has_another_way_or_is_given_up() {
        let mut address = connected(Bus::Can11);
        assert_eq!(
            lines(&mut address, Some("7E1"), &["ATCRA7E9"]),
            ["ATSH7E1", "ATCRA7E9", "ATCM7FF", "ATCF7E9"]
        );
        assert_eq!(
            lines(&mut address, Some("7E0"), &[]),
            ["ATAR", "ATSH7E0", "ATCM7FF", "ATCF7E8"],
            "it is remembered"
        );
        let mut address = connected(Bus::Can11);
        assert_eq!(
            lines(&mut address, Some("7E1"), &["ATCRA7E9", "ATCM7FF"]),
            ["ATSH7E1", "ATCRA7E9", "ATCM7FF"]
        );
        let mut address = connected(Bus::Can11);
        assert_eq!(lines(&mut address, Some("7E1"), &["ATSH7E1"]), ["ATSH7E1"], "not addressable");
    }
}
