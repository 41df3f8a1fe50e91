//! Parts to messages: ISO 15765-2 frames of several control units at once, and the numbered lines of the
//! older buses.
//!
//! In: parts with their sender, as they come. Out: complete messages in the order in which they began, and
//! the first thing that was wrong. A gap, a doubled or a swapped part ends its message: parts are never
//! guessed together.
//! Memory: only bytes that came are kept; an announced length reserves nothing.

use alloc::vec::Vec;

use crate::bus::Ecu;
use crate::error::WireError;
use crate::text::message::Message;

/// How many messages one reply may hold.
/// Own choice: a long reply of the older buses has some dozens; the limit is for what a broken line makes up.
pub(crate) const MAX_MESSAGES: usize = 256;

/// The shortest length that a first frame may announce.
/// Source: ISO 15765-2: seven bytes fit into a single frame.
const SHORTEST_LONG: usize = 8;

#[derive(Debug)]
pub(crate) struct Assembly {
    slots: Vec<Slot>,
    problem: Option<WireError>,
}

#[derive(Debug)]
struct Slot {
    ecu: Option<Ecu>,
    data: Vec<u8>,
    state: Progress,
    at: usize,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Progress {
    /// Complete.
    Done,
    /// A long message that has `want` bytes; part `next` is due.
    Open { want: usize, next: u8 },
    /// Numbered lines of an older bus; `next` is due, how many there will be is not announced.
    Numbered { next: u8 },
    /// Given up; what belongs to it is dropped.
    Broken,
}

impl Assembly {
    pub(crate) const fn new() -> Self {
        Self { slots: Vec::new(), problem: None }
    }

    /// Keeps the first problem: what follows from it is not news.
    pub(crate) fn note(&mut self, problem: WireError) {
        self.problem.get_or_insert(problem);
    }

    /// What the adapter says itself explains damaged lines before it, so it counts more than they do.
    pub(crate) fn note_status(&mut self, status: WireError) {
        if !matches!(self.problem, Some(WireError::Status { .. })) {
            self.problem = Some(status);
        }
    }

    /// A problem that makes all others beside the point.
    pub(crate) fn note_alone(&mut self, problem: WireError) {
        self.problem = Some(problem);
    }

    pub(crate) fn problem(&self) -> Option<WireError> {
        self.problem
    }

    /// Whether a long message of `ecu` waits for its next part.
    pub(crate) fn is_open(&self, ecu: Option<Ecu>) -> bool {
        self.slots.iter().any(|slot| slot.ecu == ecu && matches!(slot.state, Progress::Open { .. }))
    }

    /// A message that is complete as it stands.
    pub(crate) fn whole(&mut self, ecu: Option<Ecu>, data: &[u8], at: usize) {
        self.push(ecu, data, Progress::Done, at);
    }

    /// One CAN frame: `frame` begins with its length or part number (the PCI byte).
    pub(crate) fn frame(&mut self, ecu: Option<Ecu>, frame: &[u8], at: usize) {
        let Some((&pci, rest)) = frame.split_first() else {
            return self.note(WireError::Incomplete { ecu, want: 1, got: 0, at });
        };
        if frame.len() > 8 {
            return self.note(WireError::Malformed { want: "at most eight bytes in a CAN frame", at });
        }
        match (pci >> 4, pci & 0x0F) {
            (0, 0 | 8..) => {
                self.note(WireError::Malformed { want: "a single frame of one to seven bytes", at })
            }
            (0, length) => self.single(ecu, usize::from(length), rest, at),
            (1, high) => {
                let Some((&low, rest)) = rest.split_first() else {
                    return self.note(WireError::Incomplete { ecu, want: 2, got: 1, at });
                };
                self.first(ecu, usize::from(high) << 8 | usize::from(low), rest, at);
            }
            (2, number) => self.consecutive(ecu, number, rest, at),
            // Flow control: the tester's business, no answer.
            (3, _) => {}
            _ => self.note(WireError::Malformed { want: "a frame of type 0 to 3", at }),
        }
    }

    fn single(&mut self, ecu: Option<Ecu>, want: usize, rest: &[u8], at: usize) {
        self.break_open(ecu, at);
        match rest.get(..want) {
            Some(data) => self.push(ecu, data, Progress::Done, at),
            None => self.note(WireError::Incomplete { ecu, want, got: rest.len(), at }),
        }
    }

    /// A first frame with its six bytes.
    pub(crate) fn first(&mut self, ecu: Option<Ecu>, want: usize, rest: &[u8], at: usize) {
        self.break_open(ecu, at);
        let state = match rest.len() {
            _ if want < SHORTEST_LONG => {
                self.note(WireError::Malformed {
                    want: "a length of at least eight bytes in a first frame",
                    at,
                });
                Progress::Broken
            }
            6 => Progress::Open { want, next: 1 },
            got => {
                self.note(WireError::Incomplete { ecu, want: 6, got, at });
                Progress::Broken
            }
        };
        self.push(ecu, rest, state, at);
    }

    /// A consecutive frame with its number and up to seven bytes.
    pub(crate) fn consecutive(&mut self, ecu: Option<Ecu>, number: u8, rest: &[u8], at: usize) {
        // With headers hidden a short answer of another unit may stand between the parts, so the last is not
        // enough.
        let latest = self.slots.iter().rposition(|slot| slot.ecu == ecu && slot.is_long());
        let problem = match latest.and_then(|latest| self.slots.get_mut(latest)) {
            Some(slot) => match slot.state {
                Progress::Open { want, next } if next == number => slot.extend(want, next, rest, at),
                Progress::Open { next, .. } => {
                    slot.state = Progress::Broken;
                    Some(WireError::SequenceGap { ecu, want: next, got: number, at })
                }
                _ => None,
            },
            None => Some(WireError::NoFirstFrame { ecu, got: number, at }),
        };
        if let Some(problem) = problem {
            self.note(problem);
        }
    }

    /// A numbered line of service 09 on an older bus: `49`, the infotype, the number, four bytes.
    pub(crate) fn numbered(&mut self, ecu: Option<Ecu>, infotype: u8, number: u8, data: &[u8], at: usize) {
        if number == 1 {
            self.push(ecu, &[0x49, infotype], Progress::Numbered { next: 2 }, at);
            if let Some(slot) = self.slots.last_mut() {
                slot.data.extend_from_slice(data);
            }
            return;
        }
        let due = Progress::Numbered { next: number };
        let mut open =
            self.slots.iter_mut().filter(|slot| slot.ecu == ecu && slot.data.get(1) == Some(&infotype));
        let mut candidates = open.by_ref().filter(|slot| slot.state == due && slot.wants_more());
        match (candidates.next(), candidates.next()) {
            (Some(slot), None) => {
                slot.data.extend_from_slice(data);
                slot.state = Progress::Numbered { next: number.wrapping_add(1) };
            }
            (Some(_), Some(_)) => {
                self.note(WireError::Ambiguous { at });
                self.break_numbered();
            }
            (None, _) => {
                let last = self.slots.iter().rev().find_map(|slot| match slot.state {
                    Progress::Numbered { next } if slot.ecu == ecu => Some(next),
                    _ => None,
                });
                self.note(match last {
                    Some(want) => WireError::SequenceGap { ecu, want, got: number, at },
                    None => WireError::NoFirstFrame { ecu, got: number, at },
                });
                self.break_numbered();
            }
        }
    }

    /// Whether the last numbered line could have belonged to more than one message: then none of them is
    /// sure.
    fn break_numbered(&mut self) {
        for slot in self.slots.iter_mut().filter(|slot| matches!(slot.state, Progress::Numbered { .. })) {
            slot.state = Progress::Broken;
        }
    }

    /// A new message of `ecu` begins: one that still waits will not be completed.
    fn break_open(&mut self, ecu: Option<Ecu>, at: usize) {
        let open =
            self.slots.iter_mut().find(|slot| slot.ecu == ecu && matches!(slot.state, Progress::Open { .. }));
        if let Some(slot) = open {
            let problem = if ecu.is_some() { slot.incomplete() } else { Some(WireError::Ambiguous { at }) };
            slot.state = Progress::Broken;
            if let Some(problem) = problem {
                self.note(problem);
            }
        }
    }

    fn push(&mut self, ecu: Option<Ecu>, data: &[u8], state: Progress, at: usize) {
        if self.slots.len() >= MAX_MESSAGES {
            return self.note(WireError::TooMuch { what: "messages in one reply", limit: MAX_MESSAGES, at });
        }
        self.slots.push(Slot { ecu, data: data.to_vec(), state, at });
    }

    /// The complete messages in the order of their beginnings, and the first problem.
    pub(crate) fn finish(mut self) -> (Vec<Message>, Option<WireError>) {
        let unfinished = self.slots.iter().find_map(Slot::incomplete);
        if let Some(problem) = unfinished {
            self.note(problem);
        }
        let done = self.slots.into_iter().filter(Slot::is_complete);
        (done.map(|slot| Message { ecu: slot.ecu, data: slot.data }).collect(), self.problem)
    }
}

impl Slot {
    /// Whether it still takes parts, or would have if it had not been given up.
    fn is_long(&self) -> bool {
        matches!(self.state, Progress::Open { .. } | Progress::Broken)
    }

    fn extend(&mut self, want: usize, next: u8, rest: &[u8], at: usize) -> Option<WireError> {
        let due = (want - self.data.len()).min(7);
        let Some(part) = rest.get(..due) else {
            self.state = Progress::Broken;
            return Some(WireError::Incomplete { ecu: self.ecu, want: due, got: rest.len(), at });
        };
        self.data.extend_from_slice(part);
        self.state = if self.data.len() == want {
            Progress::Done
        } else {
            Progress::Open { want, next: (next + 1) & 0x0F }
        };
        None
    }

    /// How many four-byte parts a numbered message has: exactly, at least, or a multiple of.
    fn parts(&self) -> Parts {
        match self.data.get(1) {
            Some(0x00) => Parts::Exactly(1),
            Some(0x02 | 0x0A) => Parts::Exactly(5),
            Some(0x04) => Parts::MultipleOf(4),
            Some(0x08 | 0x0B) => Parts::AtLeast(8),
            _ => Parts::AtLeast(1),
        }
    }

    fn wants_more(&self) -> bool {
        let have = (self.data.len() - 2) / 4;
        !matches!(self.parts(), Parts::Exactly(all) if all <= have)
    }

    fn is_complete(&self) -> bool {
        let have = self.data.len().saturating_sub(2) / 4;
        match (self.state, self.parts()) {
            (Progress::Done, _) => true,
            (Progress::Numbered { .. }, Parts::Exactly(all)) => have == all,
            (Progress::Numbered { .. }, Parts::AtLeast(least)) => have >= least,
            (Progress::Numbered { .. }, Parts::MultipleOf(by)) => have.is_multiple_of(by),
            (Progress::Open { .. } | Progress::Broken, _) => false,
        }
    }

    fn incomplete(&self) -> Option<WireError> {
        let (want, got) = match (self.state, self.parts()) {
            (Progress::Open { want, .. }, _) => (want, self.data.len()),
            (Progress::Numbered { .. }, _) if self.is_complete() => return None,
            (Progress::Numbered { .. }, Parts::Exactly(all) | Parts::AtLeast(all)) => {
                (all * 4, self.data.len() - 2)
            }
            (Progress::Numbered { .. }, Parts::MultipleOf(by)) => {
                ((self.data.len() - 2).next_multiple_of(by * 4), self.data.len() - 2)
            }
            (Progress::Done | Progress::Broken, _) => return None,
        };
        Some(WireError::Incomplete { ecu: self.ecu, want, got, at: self.at })
    }
}

/// From SAE J1979: 17 characters and 3 fillers in 5 lines, 16 in 4, 16 counters in 8; from memory.
#[derive(Debug, Clone, Copy)]
enum Parts {
    Exactly(usize),
    AtLeast(usize),
    MultipleOf(usize),
}
