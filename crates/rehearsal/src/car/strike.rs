//! Faults that strike at an instant, and what faults remember between instants.
//!
//! In: the faults of the world and the time. Out: settings lost, texts unasked, the adapter asleep, the link cut.
//! Source: adapter reference, dialect sections 13 and 18; forms of alerts by exchanges X055 to X057.

use std::time::Duration;

use units::Mono;

use super::{Car, Listening, Reply};
use crate::bus::Header;
use crate::dialect::Switch;
use crate::ecu::Answer;
use crate::fault::{Fault, FaultKind};
use crate::firmware::Level;

/// What faults remember.
#[derive(Debug, Clone)]
pub(super) struct Trouble {
    /// For each fault when it struck last.
    struck: Vec<Option<Mono>>,
    /// A prompt that was held back.
    pub(super) held: Vec<u8>,
    /// How many requests more are answered `NO DATA`.
    pub(super) silent_requests: u32,
    /// How many starts more fail.
    pub(super) vain_starts: u32,
    /// The next start takes long and fails.
    pub(super) bad_start: bool,
    /// Searches take long.
    pub(super) slow_search: bool,
    /// The chip's fault that is said in place of the next reply.
    pub(super) chip_error: Option<&'static str>,
    chip_errors: usize,
    /// The next reply with data is cut.
    cut_next: Option<Cut>,
    /// Until when the link is closed.
    cut: Option<(Mono, Mono)>,
    cranks_until: Mono,
    /// Nothing comes from the adapter until then.
    stalls_until: Mono,
    /// When the adapter goes to sleep.
    sleeps_at: Option<Mono>,
    volts_turn: usize,
    pub(super) endless_said: bool,
    /// What was answered last, and first to each request.
    pub(super) last: Vec<Answer>,
    pub(super) first: Vec<(Vec<u8>, Vec<Answer>)>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Cut {
    Supply,
    Link,
}

impl Trouble {
    pub(super) fn new(faults: usize) -> Self {
        Self {
            struck: vec![None; faults],
            held: Vec::new(),
            silent_requests: 0,
            vain_starts: 0,
            bad_start: false,
            slow_search: false,
            chip_error: None,
            chip_errors: 0,
            cut_next: None,
            cut: None,
            cranks_until: Mono::ZERO,
            stalls_until: Mono::ZERO,
            sleeps_at: None,
            volts_turn: 0,
            endless_said: false,
            last: Vec::new(),
            first: Vec::new(),
        }
    }

    pub(super) fn is_cut(&self, now: Mono) -> bool {
        self.cut.is_some_and(|(from, until)| from <= now && now < until)
    }

    pub(super) fn cut_from(&mut self, from: Mono) {
        self.cut_for(from, LINK_CLOSED);
        self.cut_next = None;
    }

    pub(super) fn cut_for(&mut self, from: Mono, time: Duration) {
        self.cut = Some((from, from.after(time)));
    }

    pub(super) const fn stalls_until(&self) -> Mono {
        self.stalls_until
    }

    pub(super) fn is_stalled(&self, now: Mono) -> bool {
        now < self.stalls_until
    }

    /// Takes the end off a reply, where one is to be cut.
    pub(super) fn cuts(&self, reply: &mut Reply) -> bool {
        if self.cut_next.is_none() {
            return false;
        }
        let chars: usize = reply.pieces.iter().map(|(_, bytes)| bytes.len()).sum();
        let mut left = chars / 2;
        reply.pieces.retain_mut(|(_, bytes)| {
            bytes.truncate(left);
            left -= bytes.len();
            !bytes.is_empty()
        });
        reply.prompt = None;
        true
    }

    /// Whether the cut is one of the link; then it is told from where on. That of the supply is over.
    pub(super) fn closes_link(&mut self) -> bool {
        self.cut_next.take() == Some(Cut::Link)
    }

    pub(super) fn cranks(&self, now: Mono) -> bool {
        now < self.cranks_until
    }

    pub(super) fn next_volts(&mut self) -> usize {
        self.volts_turn += 1;
        self.volts_turn - 1
    }

    /// A word from the host keeps the adapter awake for a while, unless it said that nothing helps.
    pub(super) fn host_spoke(&mut self, now: Mono) {
        if self.sleeps_at.is_some_and(|at| at.since(now) > LAST_WARNING) {
            self.sleeps_at = None;
        }
    }
}

impl Car {
    /// What is due at instants, each once or again and again.
    pub(super) fn strike(&mut self, now: Mono) {
        while let Some(place) = (0..self.world.faults().len()).find(|place| self.is_due(*place, now)) {
            if let Some(struck) = self.trouble.struck.get_mut(place) {
                *struck = Some(now);
            }
            if let Some(kind) = self.world.faults().get(place).map(|fault| fault.kind) {
                self.happen(kind, now);
            }
        }
        if self.trouble.sleeps_at.is_some_and(|at| at <= now) {
            self.trouble.sleeps_at = None;
            self.out.clear();
            self.busy = None;
            self.state = Listening::Asleep;
        }
    }

    /// The next instant at which a fault begins, ends or strikes.
    pub(super) fn next_strike(&self) -> Option<Mono> {
        let now = self.now;
        let edges = |fault: &Fault| [Some(fault.from), fault.lasts.map(|lasts| fault.from.after(lasts))];
        let edge = self.world.faults().iter().flat_map(edges);
        let again = self
            .world
            .faults()
            .iter()
            .zip(&self.trouble.struck)
            .map(|(fault, struck)| Some((*struck)?.after(fault.kind.again()?)));
        let cut = self.trouble.cut.map(|(from, until)| if from > now { from } else { until });
        let all = edge.chain(again).chain([cut, self.trouble.sleeps_at, self.links.opens_at()]);
        all.flatten().filter(|at| *at > now).min()
    }

    fn is_due(&self, place: usize, now: Mono) -> bool {
        let (Some(fault), Some(struck)) = (self.world.faults().get(place), self.trouble.struck.get(place))
        else {
            return false;
        };
        let again = match (struck, fault.kind.again()) {
            (None, _) => true,
            (Some(last), Some(again)) => last.after(again) <= now,
            (Some(_), None) => false,
        };
        again && fault.holds(now)
    }

    /// One strike; kinds that act on replies or bytes do nothing here.
    fn happen(&mut self, kind: FaultKind, now: Mono) {
        match kind {
            FaultKind::LvReset => {
                self.restart();
                self.settings.can_blocked = Switch::On;
                self.say_supply_reset(now);
            }
            FaultKind::SilentReset => {
                self.restart();
                self.push(now, 0.0, b"\r>".to_vec());
            }
            FaultKind::Brownout => {
                self.restart();
                self.settings.can_blocked = Switch::On;
                self.say_supply_reset(now);
            }
            FaultKind::FlakyLink => self.trouble.cut_for(now, BRIEFLY_CLOSED),
            FaultKind::Stalls => self.trouble.stalls_until = now.after(STALL),
            FaultKind::BannerUnasked => {
                self.restart();
                self.say_banner(now, 0.0);
            }
            FaultKind::EchoReturns => self.settings.echo = Switch::On,
            FaultKind::FormReturns => {
                (self.settings.line_feeds, self.settings.spaces) = (Switch::On, Switch::On);
            }
            FaultKind::NoDataSpell => self.trouble.silent_requests = 3,
            FaultKind::SlowSearch => {
                self.trouble.slow_search = true;
                self.lose_protocol();
            }
            FaultKind::BusInitError => {
                self.trouble.bad_start = true;
                self.lose_protocol();
            }
            FaultKind::UnableToConnect => {
                self.trouble.vain_starts = 2;
                self.lose_protocol();
            }
            FaultKind::ResetInReply => self.trouble.cut_next = Some(Cut::Supply),
            FaultKind::CutInReply => self.trouble.cut_next = Some(Cut::Link),
            FaultKind::ChipError => {
                let turn = self.trouble.chip_errors;
                self.trouble.chip_error = CHIP_ERRORS.get(turn % CHIP_ERRORS.len()).copied();
                self.trouble.chip_errors += 1;
            }
            FaultKind::Cranking => {
                self.trouble.cranks_until = now.after(CRANKING);
                self.restart();
                self.settings.can_blocked = Switch::On;
                self.say_supply_reset(now);
            }
            FaultKind::ActAlert => {
                if self.firmware.level >= Level::V20 {
                    self.push(now, 0.0, b"\rACT ALERT\r\r>".to_vec());
                }
                self.trouble.sleeps_at = Some(now.after(AFTER_ACT_ALERT));
            }
            FaultKind::LpAlert => {
                self.push(now, 0.0, b"\rLP ALERT\r".to_vec());
                self.trouble.sleeps_at = Some(now.after(LAST_WARNING));
            }
            FaultKind::ForeignLines => {
                self.settings.echo = Switch::On;
                self.settings.to = Some(Header { value: 0x7E0, digits: 3 });
                self.push(now, 0.0, b"ATE1\rOK\r\r>ATSH7E0\rOK\r\r>".to_vec());
            }
            _ => {}
        }
    }

    /// Requests that do harm; whether this was one.
    pub(super) fn goes_wrong(&mut self, request: &[u8], now: Mono) -> bool {
        match request {
            [0x09, 0x02] if self.holds(FaultKind::RequestKillsLink, now) => {
                self.trouble.cut_for(now.after(Duration::from_millis(1)), BRIEFLY_CLOSED);
            }
            [0x01, 0x0D] if self.holds(FaultKind::RequestResets, now) => {
                self.restart();
                self.say_banner(now, self.firmware.reset_ms as f64);
            }
            [0x01, 0x46] if self.holds(FaultKind::RequestHangs, now) => self.state = Listening::Stuck,
            _ => return false,
        }
        true
    }

    fn lose_protocol(&mut self) {
        self.settings.active = Switch::Off;
        if self.settings.auto.is_on() {
            self.settings.protocol = 0;
        }
    }
}

/// How long a device is away whose name comes back, and a plug that is pulled for a moment.
/// Own choice: what a hub takes to see it.
const BRIEFLY_CLOSED: Duration = Duration::from_secs(1);
/// How long nothing comes of an adapter that stalls.
/// Own choice: longer than the limit of any request, shorter than a reading is fresh.
const STALL: Duration = Duration::from_secs(4);
const CHIP_ERRORS: &[&str] = &["ERR94", "ERR93"];
/// From its first warning to sleep, and from its last.
/// Source: data sheet pages 64, 65 and 88.
const AFTER_ACT_ALERT: Duration = Duration::from_secs(60);
const LAST_WARNING: Duration = Duration::from_secs(2);
/// How long a starter turns.
/// Source: common practice, no source.
const CRANKING: Duration = Duration::from_secs(3);
/// How long a link stays closed that was cut.
/// Own choice: longer than one try to open it, shorter than a reading is fresh.
const LINK_CLOSED: Duration = Duration::from_secs(3);
