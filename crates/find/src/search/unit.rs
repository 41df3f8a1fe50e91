//! One service of one control unit: what was asked of it, what is next, and when it is left alone.
//!
//! In: what came back. Out: the next sample or neighbour. Method: samples by page and offset, coarse to fine (`plan.rs`); what answers puts its
//! neighbours in front. Refusals: `nrc.csv` of the reference, by [`frames::NegativeReply::remedy`].

use std::collections::{BTreeSet, VecDeque};

use frames::{NegativeReply, Remedy};
use serde::{Deserialize, Serialize};

use super::{Ask, Depth, Purpose, plan};
use crate::place::{Header, Place, Service};

/// What an answer means for the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum AnswerKind {
    /// It can be read.
    Data,
    /// There is no such identifier.
    Absent,
    /// The service is not there, or not in the default session: this program opens no other.
    NoService,
    /// It exists and is locked; nothing is unlocked.
    Locked,
    /// Not at the moment.
    Busy,
    /// It may exist, but not in this state of the vehicle.
    NotNow,
    /// A refusal that says nothing.
    GivesUp,
    /// Nothing.
    Silence,
    /// Something else than what was asked.
    Unexpected,
}

/// What a refusal means.
pub(super) fn heed(service: Service, code: u8) -> AnswerKind {
    let negative = NegativeReply { service: service.into(), code };
    match (code, negative.remedy()) {
        (0x11 | 0x7F | 0x80, _) => AnswerKind::NoService,
        (0x33 | 0x34, _) => AnswerKind::Locked,
        (_, Remedy::DoNotAskAgain | Remedy::AskForLess) => AnswerKind::Absent,
        (_, Remedy::Wait | Remedy::Pending) => AnswerKind::Busy,
        (_, Remedy::TellTheUser) => AnswerKind::NotNow,
        (_, Remedy::GiveUp) => AnswerKind::GivesUp,
    }
}

/// Whether it is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Access {
    /// Nobody knows yet whether it takes the service.
    Unknown,
    /// It does.
    Open,
    /// It does not, or it is left alone.
    Closed,
}

/// One service of one control unit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(super) struct Unit {
    header: Header,
    service: Service,
    state: Access,
    known: bool,
    /// Which sample is next: its number in the page, then the page's.
    sample: usize,
    page: usize,
    around: VecDeque<u16>,
    asked: BTreeSet<u16>,
    answered: u16,
    hits: u16,
    silent: u16,
    odd: u16,
    gave_up: u16,
    /// How finely it is sampled at least.
    depth: Depth,
}

impl Unit {
    /// The two services of a unit; `known`: it gives standard identifiers.
    pub(super) fn of(header: Header, known: bool) -> [Self; 2] {
        [Service::Identifier, Service::Local].map(|service| Self {
            header,
            service,
            state: Access::Unknown,
            known,
            sample: 0,
            page: 0,
            around: VecDeque::new(),
            asked: BTreeSet::new(),
            answered: 0,
            hits: 0,
            silent: 0,
            odd: 0,
            gave_up: 0,
            depth: Depth::Usual,
        })
    }

    pub(super) fn is(&self, header: Header, service: Service) -> bool {
        self.header == header && self.service == service
    }

    pub(super) fn has(&self, header: Header) -> bool {
        self.header == header
    }

    /// Whether it never answered and is left alone for it.
    pub(super) fn is_nobody(&self, header: Header) -> bool {
        self.has(header) && self.is_closed() && self.answered == 0 && self.silent > 0 && !self.known
    }

    /// Leaves it alone.
    pub(super) fn close(&mut self) {
        self.state = Access::Closed;
    }

    pub(super) fn is_closed(&self) -> bool {
        self.state == Access::Closed
    }

    /// Whether it is known if it takes the service.
    pub(super) fn is_known(&self) -> bool {
        self.state != Access::Unknown
    }

    /// Whether it takes two-byte identifiers and is not the engine's.
    pub(super) fn is_likely(&self) -> bool {
        self.state == Access::Open
            && self.service == Service::Identifier
            && self.header.unit() != Some(Header::ENGINE)
    }

    /// From now on one in four.
    pub(super) fn sample_finely(&mut self) {
        self.depth = self.depth.max(Depth::Fine);
    }

    /// So many samples of each page: all of them where there is only one.
    fn samples(&self, depth: Depth) -> usize {
        if self.service == Service::Identifier {
            plan::samples(depth.max(self.depth))
        } else {
            plan::samples(Depth::Whole)
        }
    }

    /// How many requests are planned.
    pub(super) fn left(&self, depth: Depth) -> u32 {
        let planned = match self.state {
            Access::Closed => return 0,
            Access::Unknown => return 1,
            Access::Open => self.samples(depth).saturating_sub(self.sample),
        };
        let samples = match self.service {
            Service::Identifier => (planned * plan::PAGES).saturating_sub(self.page),
            _ => planned,
        };
        (samples + self.around.len()) as u32
    }

    /// The next request of this stage: stage 0 asks whether the service is there, each other takes so many samples of each page.
    pub(super) fn next(&mut self, stage: usize, depth: Depth) -> Option<(Place, Purpose)> {
        let stage = stage.min(self.samples(depth));
        let (id, purpose) = match (self.state, stage) {
            (Access::Unknown, _) => plan::probe(self.service),
            (Access::Closed, _) => return None,
            (Access::Open, _) => match self.around.pop_front() {
                Some(id) => (id, Purpose::Around),
                None => (self.next_sample(stage)?, Purpose::Sample),
            },
        };
        if purpose != Purpose::Probe {
            self.asked.insert(id);
        }
        Some((Place { header: self.header, service: self.service, id }, purpose))
    }

    fn next_sample(&mut self, stage: usize) -> Option<u16> {
        while self.sample < stage {
            let (offset, page) = (plan::offset(self.sample), plan::page(self.page));
            let pages = if self.service == Service::Identifier { 256 } else { 1 };
            self.page += 1;
            if self.page >= pages {
                (self.page, self.sample) = (0, self.sample + 1);
            }
            let (Some(offset), Some(page)) = (offset, page) else { continue };
            let id = u16::from(page) << 8 | u16::from(offset);
            if !self.asked.contains(&id) {
                return Some(id);
            }
        }
        None
    }

    /// What came back to one of its requests.
    pub(super) fn note(&mut self, ask: Ask, heard: AnswerKind) {
        match heard {
            AnswerKind::NoService => self.state = Access::Closed,
            AnswerKind::Silence => {
                self.silent += 1;
                let answers = self.answered > 0 || self.known;
                let most = match (answers, self.service) {
                    (false, _) => plan::SILENCES,
                    (true, Service::Identifier) => plan::SILENCES_OF_ONE_THAT_ANSWERS,
                    (true, _) => plan::SILENCES_LOCAL,
                };
                if self.silent >= most {
                    self.state = Access::Closed;
                } else if answers {
                    self.state = Access::Open;
                }
                return;
            }
            AnswerKind::Unexpected => {
                self.odd += 1;
                if self.odd >= plan::ODD {
                    self.state = Access::Closed;
                }
                return;
            }
            AnswerKind::GivesUp => {
                self.gave_up += 1;
                if self.gave_up >= plan::GIVES_UP && self.answered == self.gave_up - 1 {
                    self.state = Access::Closed;
                }
            }
            AnswerKind::Data
            | AnswerKind::Absent
            | AnswerKind::Locked
            | AnswerKind::Busy
            | AnswerKind::NotNow => {}
        }
        self.silent = 0;
        self.answered = self.answered.saturating_add(1);
        if self.state == Access::Unknown {
            self.state = Access::Open;
        }
        if heard == AnswerKind::Data && ask.purpose != Purpose::Probe {
            self.hits = self.hits.saturating_add(1);
            self.look_around(ask.place.id);
        }
    }

    /// The neighbours of what answered come next, the nearest first.
    fn look_around(&mut self, id: u16) {
        let most = if self.service == Service::Identifier { u16::MAX } else { 0xFF };
        for distance in 1..=plan::AROUND {
            for near in [id.checked_add(distance), id.checked_sub(distance)].into_iter().flatten() {
                if near <= most && !self.asked.contains(&near) && !self.around.contains(&near) {
                    self.around.push_back(near);
                }
            }
        }
    }
}
