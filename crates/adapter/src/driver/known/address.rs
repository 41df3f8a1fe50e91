//! Header and receive filter: what the adapter has, and the next step towards what a request needs.
//!
//! They change only together, in the order filter off, header, filter on, and only where they differ: a filter left
//! behind would turn later replies into `NO DATA`, or worse, keep the wrong unit's. A unit of the standard's own range
//! needs no filter: the adapter listens to it anyhow, and the sender is checked in every reply. One outside that range
//! needs a filter, and flow control of its own for long replies.
//! Method: sections 6 and 8 of the dialect reference.

use std::time::Duration;

use frames::{Bus, Ecu};

use crate::command::{Header, Setup};

/// What is known of the adapter's header and filter.
#[derive(Debug)]
pub(crate) struct Address {
    bus: Bus,
    header: Option<Header>,
    filter: Filter,
    /// How the adapter can filter.
    means: Means,
    /// Whether it waits as long as it can, for a control unit that asks for more time.
    waits_long: bool,
    /// Its wait cannot be set.
    no_wait: bool,
    /// To whom long replies are acknowledged.
    flow: Flow,
    /// Flow control of our own is refused.
    no_flow: bool,
}

/// Whom the adapter tells to go on after the first frame of a long reply.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Flow {
    /// As the standard's range of identifiers wants it.
    Automatic,
    /// The identifier is set, the data are not.
    Headed(Header),
    /// Both are set, but not in use.
    Ready(Header),
    /// This one.
    To(Header),
    /// It was changed, and what became of it is not sure.
    Unknown,
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
pub(crate) enum Change {
    FilterOff,
    Header(Header),
    FilterOn(Ecu),
    Mask,
    FilterBy(Ecu),
    WaitLong,
    WaitUsual,
    Close,
    FlowTo(Header),
    FlowData(Header),
    FlowOn(Header),
    FlowOff,
}

impl Default for Address {
    fn default() -> Self {
        Self {
            bus: Bus::Can11,
            header: None,
            filter: Filter::Unknown,
            means: Means::Receive,
            waits_long: false,
            no_wait: false,
            flow: Flow::Automatic,
            no_flow: false,
        }
    }
}

impl Address {
    /// Just connected: the adapter asks everybody and listens to everybody.
    pub(crate) fn functional(&mut self, bus: Bus) {
        (self.bus, self.header, self.filter) = (bus, Some(Header::functional(bus)), Filter::Off);
        (self.waits_long, self.no_wait, self.flow) = (false, false, Flow::Automatic);
    }

    /// Nothing is sure any more.
    pub(crate) fn forget(&mut self) {
        (self.header, self.filter) = (None, Filter::Unknown);
        if self.flow != Flow::Automatic {
            self.flow = Flow::Unknown;
        }
    }

    pub(crate) const fn bus(&self) -> Bus {
        self.bus
    }

    /// What it waits for an answer, and for a further one behind each.
    pub(crate) fn wait(&self) -> Duration {
        let steps = if self.waits_long { WAIT_LONG } else { WAIT };
        Duration::from_micros(u64::from(steps) * STEP_US)
    }

    /// The step towards waiting as long as it can, or as usual again.
    pub(crate) fn next_wait(&self, long: bool) -> Option<(Setup, Change)> {
        match (self.waits_long, long) {
            _ if self.no_wait => None,
            (false, true) => Some((Setup::Timeout(WAIT_LONG), Change::WaitLong)),
            (true, false) => Some((Setup::Timeout(WAIT), Change::WaitUsual)),
            _ => None,
        }
    }

    /// The next step towards asking `header`, or everybody; `None` when nothing is left to change.
    pub(crate) fn next(&self, header: Option<Header>) -> Option<(Setup, Change)> {
        let want = header.unwrap_or(Header::functional(self.bus));
        let only = header
            .and_then(Header::answers_from)
            .filter(|only| self.bus.is_can() && self.means != Means::None && !is_heard_anyhow(*only));
        if self.header.is_none_or(|has| !has.same_address(want)) {
            return Some(match self.filter {
                Filter::Off => (Setup::Header(want), Change::Header(want)),
                _ => (Setup::ReceiveAny, Change::FilterOff),
            });
        }
        match (self.filter, only) {
            (Filter::Off, None) => self.next_flow(want),
            (Filter::On(has), Some(only)) if has == only => self.next_flow(want),
            (Filter::Off, Some(only)) if self.means == Means::Receive => {
                Some((Setup::ReceiveOnly(only), Change::FilterOn(only)))
            }
            (Filter::Off, Some(only)) => Some((Setup::Mask(only), Change::Mask)),
            (Filter::Masked, Some(only)) => Some((Setup::Filter(only), Change::FilterBy(only))),
            _ => Some((Setup::ReceiveAny, Change::FilterOff)),
        }
    }

    /// The next step towards acknowledging long replies of whoever `want` addresses.
    fn next_flow(&self, want: Header) -> Option<(Setup, Change)> {
        if !want.needs_own_flow_control() || self.no_flow {
            let on = matches!(self.flow, Flow::To(_) | Flow::Unknown);
            let off = on.then_some((Setup::FlowAutomatic, Change::FlowOff));
            return off.filter(|_| !self.no_flow);
        }
        match self.flow {
            Flow::To(has) if has.same_address(want) => None,
            Flow::Headed(has) if has.same_address(want) => Some((Setup::FlowGoOn, Change::FlowData(want))),
            Flow::Ready(has) if has.same_address(want) => Some((Setup::FlowOwn, Change::FlowOn(want))),
            _ => Some((Setup::FlowHeader(want), Change::FlowTo(want))),
        }
    }

    /// A step was accepted.
    pub(crate) fn done(&mut self, change: Change) {
        match change {
            Change::FilterOff => self.filter = Filter::Off,
            Change::Header(header) => self.header = Some(header),
            Change::FilterOn(only) | Change::FilterBy(only) => self.filter = Filter::On(only),
            Change::Mask => self.filter = Filter::Masked,
            Change::WaitLong => self.waits_long = true,
            Change::WaitUsual => self.waits_long = false,
            Change::Close => {}
            Change::FlowTo(header) => self.flow = Flow::Headed(header),
            Change::FlowData(header) => self.flow = Flow::Ready(header),
            Change::FlowOn(header) => self.flow = Flow::To(header),
            Change::FlowOff => self.flow = Flow::Automatic,
        }
    }

    /// A step was refused; what follows from it.
    pub(crate) fn refused(&mut self, change: Change) -> Refused {
        match change {
            Change::Header(_) => return Refused::NotAddressable,
            Change::FilterOn(_) => {
                self.means = Means::Mask;
                return Refused::NoReceiveAddress;
            }
            Change::Mask => self.means = Means::None,
            Change::FilterBy(_) => (self.means, self.filter) = (Means::None, Filter::Unknown),
            // A filter that cannot be taken off again is never set again; only a restart is sure to clear it.
            Change::FilterOff => {
                let was_set = matches!(self.filter, Filter::On(_) | Filter::Masked);
                (self.means, self.filter) = (Means::None, Filter::Off);
                if was_set {
                    return Refused::Stuck;
                }
            }
            Change::WaitLong | Change::WaitUsual => self.no_wait = true,
            Change::Close => {}
            // Short replies come without it.
            Change::FlowTo(_) | Change::FlowData(_) | Change::FlowOn(_) | Change::FlowOff => {
                self.no_flow = true;
                return Refused::NoFlowControl;
            }
        }
        Refused::GoOn
    }
}

/// What the adapter waits for an answer, in steps: 205 ms, its default, and 1.04 s, as long as it can.
/// Source: data sheet page 27.
pub(crate) const WAIT: u8 = 0x32;
const WAIT_LONG: u8 = 0xFF;
/// One step of `ATST`, in microseconds.
/// Source: data sheet page 27.
const STEP_US: u64 = 4_096;

/// Whether the adapter listens to this unit without being told: 7E8 to 7EF, and 29-bit answers to the tester F1.
fn is_heard_anyhow(unit: Ecu) -> bool {
    matches!(unit.id(), 0x7E8..=0x7EF | 0x18DA_F100..=0x18DA_F1FF)
}

/// What follows from a refusal.
pub(crate) enum Refused {
    GoOn,
    NoFlowControl,
    NoReceiveAddress,
    NotAddressable,
    Stuck,
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The lines that are sent until nothing is left to change; `refuses` are answered by `?`.
    fn lines(address: &mut Address, header: Option<&str>, refuses: &[&str]) -> Vec<String> {
        let header = header.map(|text| Header::parse(text).unwrap());
        let mut sent = Vec::new();
        while let Some((setup, change)) = address.next(header) {
            let line = setup.to_string();
            if refuses.contains(&line.as_str()) {
                if let Refused::NotAddressable | Refused::Stuck = address.refused(change) {
                    sent.push(line);
                    break;
                }
            } else {
                address.done(change);
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
        assert_eq!(lines(&mut address, Some("7E1"), &[]), ["ATSH7E1"], "7E9 is heard anyhow");
        assert_eq!(lines(&mut address, Some("7E1"), &[]), [""; 0]);
        assert_eq!(lines(&mut address, Some("7E0"), &[]), ["ATSH7E0"]);
        assert_eq!(lines(&mut address, None, &[]), ["ATSH7DF"]);
        address.forget();
        assert_eq!(lines(&mut address, None, &[]), ["ATAR", "ATSH7DF"], "nothing is sure after a resync");
        let mut address = connected(Bus::Can29);
        assert_eq!(lines(&mut address, Some("18DA18F1"), &[]), ["ATSHDA18F1"]);
        let mut address = connected(Bus::Iso14230);
        assert_eq!(lines(&mut address, Some("8118F1"), &[]), ["ATSH8118F1"], "filters are for CAN");
        assert_eq!(lines(&mut address, None, &[]), ["ATSHC233F1"]);
    }

    #[test]
    fn a_unit_outside_the_standard_range_is_filtered_and_acknowledged_by_name() {
        let flow = |id: &str| [&format!("ATFCSH{id}"), "ATFCSD300000", "ATFCSM1"].map(str::to_owned);
        let mut address = connected(Bus::Can11);
        let all = lines(&mut address, Some("750"), &[]);
        assert_eq!(all[..2], ["ATSH750", "ATCRA758"]);
        assert_eq!(all[2..], flow("750"));
        assert_eq!(lines(&mut address, Some("750"), &[]), [""; 0]);
        let all = lines(&mut address, Some("740"), &[]);
        assert_eq!(all[..3], ["ATAR", "ATSH740", "ATCRA748"]);
        assert_eq!(all[3..], flow("740"));
        assert_eq!(lines(&mut address, Some("7E1"), &[]), ["ATAR", "ATSH7E1", "ATFCSM0"]);
        let mut address = connected(Bus::Can11);
        assert_eq!(
            lines(&mut address, Some("750"), &["ATFCSD300000"]),
            ["ATSH750", "ATCRA758", "ATFCSH750", "ATFCSD300000"],
            "refused: long replies do not come, short ones do"
        );
        assert_eq!(lines(&mut address, None, &[]), ["ATAR", "ATSH7DF"]);
    }

    #[test]
    fn what_is_refused_has_another_way_or_is_given_up() {
        let flow = ["ATFCSH750"];
        let with = |refused| [&flow[..], refused].concat();
        let mut address = connected(Bus::Can11);
        assert_eq!(
            lines(&mut address, Some("750"), &with(&["ATCRA758"])),
            ["ATSH750", "ATCRA758", "ATCM7FF", "ATCF758", "ATFCSH750"]
        );
        assert_eq!(
            lines(&mut address, Some("740"), &[]),
            ["ATAR", "ATSH740", "ATCM7FF", "ATCF748"],
            "it is remembered"
        );
        let mut address = connected(Bus::Can11);
        assert_eq!(
            lines(&mut address, Some("750"), &with(&["ATCRA758", "ATCM7FF"])),
            ["ATSH750", "ATCRA758", "ATCM7FF", "ATFCSH750"]
        );
        let mut address = connected(Bus::Can11);
        assert_eq!(lines(&mut address, Some("7E1"), &["ATSH7E1"]), ["ATSH7E1"], "not addressable");
    }
}
