//! Whose turn it is: the schedule, and when each request of it is due.
//!
//! The gating request comes first whenever it is due, save that another one that is due gets its turn after it. The
//! others go in groups of one address, the ones that are nearly due with those that are, since every change of address
//! costs an exchange of its own. A request that somebody asks beside the schedule goes before the others, a few in a row. What is silent is asked seldom; failures of one kind in a row make all wait.
//! In: what became of each request, the time. Out: [`Choice`]. Pure. Not here: how it is asked (`phase/poll.rs`), with which
//! count of replies (`count.rs`). Method: rule 14 of section 16 of the dialect reference.

use std::time::Duration;

use units::Mono;

use super::confirm::Confirm;
use super::count::Count;
use crate::command::Header;
use crate::schedule::{Poll, Schedule, bus_floor};

#[derive(Debug)]
struct Task {
    poll: Poll,
    due: Mono,
    /// When it left last: of those that are due at the same time, as after a loss, the one that waited longest goes first.
    asked: Mono,
    /// How many answers more are awaited as long as the adapter can, because the control unit asked for more time.
    slow: u8,
    silent: u8,
    /// It cannot be addressed here.
    barred: bool,
    /// How many lines answer it.
    count: Count,
    /// What answered it the last time.
    confirm: Confirm,
}

/// Which request of the schedule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Slot {
    Gating,
    Once(usize),
    Other(usize),
    /// The one that somebody asks beside the schedule.
    Aside,
    /// Is the vehicle there at all?
    Presence,
}

/// Everything that is asked, and when each is due.
#[derive(Debug)]
pub(crate) struct Polls {
    gating: Option<Task>,
    others: Vec<Task>,
    once: Vec<Task>,
    once_next: usize,
    /// Asked once beside the schedule, and how many of them left since one of the others did.
    aside: Option<Task>,
    asides: u8,
    floor: Duration,
    bus_floor: Duration,
    last: Option<Mono>,
    last_was_gating: bool,
    /// Whom the last request was addressed to.
    here: Option<Option<Header>>,
    /// Nothing is asked before.
    pub(crate) not_before: Mono,
    voltage_due: Option<Mono>,
    poke: bool,
    /// How many requests lost their count digit to a short reply.
    short: u8,
    /// How often in a row `NO DATA` came with a count digit, and an answer without.
    undigited: u8,
    /// Requests in a row without any answer.
    pub(crate) quiet: u8,
    /// The kind of the last failure, and how often in a row.
    failed: (&'static str, u8),
}

/// Whose turn a request takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Turn {
    /// It is due.
    Own,
    /// To see an answer that came a second time.
    Extra,
}

/// What becomes of requests that stayed silent on an earlier connection.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Silent {
    /// They are asked like others.
    Forgiven,
    /// They are still asked seldom: an adapter that searches anew after each silence.
    Kept,
}

/// What to do next.
pub(crate) enum Choice {
    Ask(Slot),
    Voltage,
    Wait(Option<Mono>),
}

/// What comes into question of the others: its place, and what it is chosen by.
#[derive(Default)]
struct Others {
    /// The most overdue, and of those that are due at the same time the one that waited longest.
    first: Option<(usize, (Mono, Mono))>,
    /// The same of those that are due at the present address.
    here: Option<(usize, (Mono, Mono))>,
    /// The one at the present address that will be due before long.
    early: Option<(usize, Mono)>,
}

impl Others {
    /// Which is next, and when it is due: the most overdue, those of the present address first unless another has waited too
    /// long.
    fn most_overdue(&self, now: Mono) -> Option<(usize, Mono)> {
        let first = self.first?;
        let (at, (due, _)) = self.here.filter(|_| now.since(first.1.0) < TOO_LONG).unwrap_or(first);
        Some((at, due))
    }
}

/// Of equals the first stays.
fn take_if_sooner<T: PartialOrd>(best: &mut Option<(usize, T)>, at: usize, key: T) {
    if best.as_ref().is_none_or(|(_, before)| key < *before) {
        *best = Some((at, key));
    }
}

impl Task {
    fn new(poll: Poll) -> Self {
        Self {
            poll,
            due: Mono::ZERO,
            asked: Mono::ZERO,
            slow: 0,
            silent: 0,
            barred: false,
            count: Count::default(),
            confirm: Confirm::default(),
        }
    }
}

impl Polls {
    pub(crate) fn new(schedule: Schedule) -> Self {
        Self {
            gating: schedule.gating.map(Task::new),
            others: schedule.others.into_iter().map(Task::new).collect(),
            once: schedule.once.into_iter().map(Task::new).collect(),
            once_next: 0,
            aside: None,
            asides: 0,
            floor: schedule.floor,
            bus_floor: Duration::ZERO,
            last: None,
            last_was_gating: false,
            here: None,
            not_before: Mono::ZERO,
            voltage_due: None,
            poke: false,
            short: 0,
            undigited: 0,
            quiet: 0,
            failed: ("", 0),
        }
    }

    /// The vehicle answers, on a bus of this form if that is known: everything is due.
    pub(crate) fn start(&mut self, bus: Option<frames::Bus>, silent: Silent, now: Mono) {
        for task in self.gating.iter_mut().chain(&mut self.others).chain(&mut self.once) {
            let stays = silent == Silent::Kept && task.silent >= SILENT;
            (task.due, task.barred, task.slow) = (if stays { task.due.max(now) } else { now }, false, 0);
            task.silent = if stays { task.silent } else { 0 };
            let count = bus.map_or(Count::Never, |bus| Count::new(bus, task.poll.header));
            (task.count, task.confirm) = (count, Confirm::default());
        }
        if let Some(task) = &mut self.aside {
            (task.due, task.barred) = (now, false);
        }
        (self.once_next, self.quiet, self.not_before) = (0, 0, now);
        // Of buses that cannot be told apart the most patient one.
        let floor = bus
            .map_or_else(|| frames::Bus::ALL.into_iter().map(bus_floor).max().unwrap_or_default(), bus_floor);
        (self.bus_floor, self.last_was_gating, self.failed) = (floor, false, ("", 0));
        (self.short, self.undigited) = (0, 0);
        (self.voltage_due, self.here) = (Some(now.after(VOLTAGE_EVERY)), None);
    }

    /// Nothing is asked any more.
    pub(crate) fn pause(&mut self) {
        self.poke = false;
    }

    /// The adapter is about to fall asleep: say something.
    pub(crate) fn poke(&mut self) {
        self.poke = true;
    }

    pub(crate) fn take_poke(&mut self) -> bool {
        std::mem::take(&mut self.poke)
    }

    /// Asks `poll` once beside the schedule; refused while another one waits. How many lines will answer is not known, so it
    /// never leaves with a count digit.
    pub(crate) fn set_aside(&mut self, poll: Poll) -> bool {
        let free = self.aside.is_none();
        if free {
            self.aside = Some(Task { count: Count::Never, ..Task::new(poll) });
        }
        free
    }

    /// What came of it was told, and nobody asks it again by himself.
    pub(crate) fn told(&mut self, slot: Slot) {
        if slot == Slot::Aside {
            self.aside = None;
        }
    }

    /// Whether one waits that is asked beside the schedule.
    pub(crate) const fn has_aside(&self) -> bool {
        self.aside.is_some()
    }

    /// Not before `until`.
    pub(crate) fn put_off(&mut self, slot: Slot, until: Mono) {
        if let Some(task) = self.task(slot) {
            task.due = task.due.max(until);
        }
    }

    /// The requests there are.
    pub(crate) fn slots(&self) -> Vec<Slot> {
        let gating = self.gating.iter().map(|_| Slot::Gating);
        let once = (0..self.once.len()).map(Slot::Once);
        gating.chain(once).chain((0..self.others.len()).map(Slot::Other)).collect()
    }

    pub(crate) fn poll(&mut self, slot: Slot) -> Option<Poll> {
        self.task(slot).map(|task| task.poll)
    }

    /// The voltage is asked now.
    pub(crate) fn voltage_left(&mut self, now: Mono) {
        self.voltage_due = Some(now.after(VOLTAGE_EVERY));
        self.last_was_gating = false;
    }

    fn task(&mut self, slot: Slot) -> Option<&mut Task> {
        match slot {
            Slot::Gating => self.gating.as_mut(),
            Slot::Once(at) => self.once.get_mut(at),
            Slot::Other(at) => self.others.get_mut(at),
            Slot::Aside => self.aside.as_mut(),
            Slot::Presence => None,
        }
    }

    /// When the floor between two requests is over.
    pub(crate) fn ready_at(&self, now: Mono) -> Mono {
        self.last.map_or(now, |last| last.after(self.floor.max(self.bus_floor)))
    }

    /// What to do next, if the line is free at `now`.
    pub(crate) fn choose(&self, now: Mono) -> Choice {
        let ready = self.ready_at(now).max(self.not_before);
        if now < ready {
            return Choice::Wait(Some(ready));
        }
        if self.quiet >= QUIET {
            return Choice::Ask(Slot::Presence);
        }
        let gating = self.gating.as_ref().filter(|task| !task.barred);
        let gating_due = gating.is_some_and(|task| task.due <= now);
        let others = self.look(now);
        let most_overdue = others.most_overdue(now);
        let voltage_due = self.voltage_due.is_some_and(|due| due <= now);
        let once_due = self.once.get(self.once_next).is_some_and(|task| task.due <= now);
        let aside = self.aside.as_ref().filter(|task| !task.barred);
        let overdue = most_overdue.filter(|(_, due)| *due <= now);
        let aside_due = aside.is_some_and(|task| task.due <= now);
        let other = if once_due {
            Some(Choice::Ask(Slot::Once(self.once_next)))
        } else if voltage_due {
            Some(Choice::Voltage)
        } else if aside_due && (overdue.is_none() || self.asides < ASIDES) {
            Some(Choice::Ask(Slot::Aside))
        } else {
            overdue.map(|(at, _)| Choice::Ask(Slot::Other(at)))
        };
        // While it is asked anyhow, who listens at this address is asked a little early.
        let early = || others.early.map(|(at, _)| Choice::Ask(Slot::Other(at)));

        match other {
            Some(other) if !gating_due || self.last_was_gating => other,
            _ if gating_due => Choice::Ask(Slot::Gating),
            _ => early().unwrap_or_else(|| {
                let once = self.once.get(self.once_next).map(|task| task.due);
                let own = [gating, aside].map(|task| task.map(|task| task.due));
                let dues = own.into_iter().chain([most_overdue.map(|(_, due)| due), self.voltage_due, once]);
                Choice::Wait(dues.flatten().min())
            }),
        }
    }

    /// Which of the others come into question: one look at each, since it is taken before every request.
    fn look(&self, now: Mono) -> Others {
        let gating_here = self.gating.as_ref().is_some_and(|task| self.here == Some(task.poll.header));
        let mut others = Others::default();
        for (at, task) in self.others.iter().enumerate().filter(|(_, task)| !task.barred) {
            let key = (task.due, task.asked);
            take_if_sooner(&mut others.first, at, key);
            if self.here != Some(task.poll.header) {
                continue;
            }
            if task.due <= now {
                take_if_sooner(&mut others.here, at, key);
            }
            let soon = now.after((task.poll.every / 2).min(EARLY));
            if !gating_here && task.silent < SILENT && task.due <= soon {
                take_if_sooner(&mut others.early, at, task.due);
            }
        }
        others
    }

    /// What is known of the answers to the request in `slot`; one that is asked once is never known.
    pub(crate) fn confirm(&mut self, slot: Slot) -> Option<&mut Confirm> {
        match slot {
            Slot::Once(_) | Slot::Aside | Slot::Presence => None,
            Slot::Gating | Slot::Other(_) => self.task(slot).map(|task| &mut task.confirm),
        }
    }

    /// A request with a count digit went wrong: not again; after the second, none at all on this connection.
    pub(crate) fn withdraw_count(&mut self, slot: Slot) {
        self.short = self.short.saturating_add(1);
        if let Some(count) = self.count(slot) {
            count.withdraw();
        }
    }

    /// Whether count digits have proved safe here.
    pub(crate) const fn counts_are_safe(&self) -> bool {
        self.short < 2
    }

    /// How many lines answer the request in `slot`.
    pub(crate) fn count(&mut self, slot: Slot) -> Option<&mut Count> {
        self.task(slot).map(|task| &mut task.count)
    }

    /// The request in `slot` leaves now, to `header`; its time begins anew unless it only confirms an answer that came.
    pub(crate) fn left(&mut self, slot: Slot, header: Option<Header>, turn: Turn, now: Mono) {
        self.last = Some(now);
        self.last_was_gating = slot == Slot::Gating;
        self.here = Some(header);
        match slot {
            Slot::Aside => self.asides = self.asides.saturating_add(1),
            Slot::Other(_) => self.asides = 0,
            Slot::Gating | Slot::Once(_) | Slot::Presence => {}
        }
        if turn == Turn::Extra {
            return;
        }
        if let Some(task) = self.task(slot) {
            let seldom = if slot == Slot::Gating { SELDOM_GATING } else { SELDOM };
            let every = if task.silent >= SILENT { task.poll.every.max(seldom) } else { task.poll.every };
            (task.due, task.asked) = (now.after(every), now);
        }
    }

    /// The request in `slot` is done with, answered or not.
    pub(crate) fn over(&mut self, slot: Slot) {
        match slot {
            Slot::Once(at) if at == self.once_next => self.once_next += 1,
            Slot::Aside => self.aside = None,
            _ => {}
        }
    }

    /// The control unit asked for more time: its next answers are awaited as long as the adapter can.
    pub(crate) fn was_pending(&mut self, slot: Slot) {
        if let Some(task) = self.task(slot) {
            task.slow = SLOW;
        }
    }

    /// An answer came, after the control unit had asked for more time or without.
    pub(crate) fn was_quick(&mut self, slot: Slot) {
        if let Some(task) = self.task(slot) {
            task.slow = task.slow.saturating_sub(1);
        }
    }

    /// Whether its answers are awaited as long as the adapter can.
    pub(crate) fn is_slow(&mut self, slot: Slot) -> bool {
        self.task(slot).is_some_and(|task| task.slow > 0)
    }

    /// A request with a count digit was answered.
    pub(crate) fn digit_helped(&mut self) {
        self.undigited = 0;
    }

    /// A request was answered only without its count digit; whether the digit is not understood here.
    pub(crate) fn digit_hurt(&mut self) -> bool {
        self.undigited = self.undigited.saturating_add(1);
        self.undigited >= UNDIGITED
    }

    pub(crate) fn answered(&mut self, slot: Slot) {
        (self.quiet, self.failed) = (0, ("", 0));
        if let Some(task) = self.task(slot) {
            task.silent = 0;
        }
        self.over(slot);
    }

    /// Nothing came; whether the request has just become one that is asked seldom.
    pub(crate) fn silent(&mut self, slot: Slot, now: Mono) -> bool {
        let mut just = false;
        if let Some(task) = self.task(slot) {
            task.silent = task.silent.saturating_add(1);
            just = task.silent == SILENT;
        }
        self.seldom(slot, now);
        just
    }

    /// A request that cannot be sent now is asked seldom.
    pub(crate) fn refused(&mut self, slot: Slot, now: Mono) {
        if let Some(task) = self.task(slot) {
            task.silent = SILENT;
        }
        self.seldom(slot, now);
    }

    /// A request that cannot be sent to this vehicle is not asked again before the next connection.
    pub(crate) fn bar(&mut self, slot: Slot) {
        if let Some(task) = self.task(slot) {
            task.barred = true;
        }
        self.over(slot);
    }

    /// Puts off a request that was silent too often.
    fn seldom(&mut self, slot: Slot, now: Mono) {
        let seldom = if slot == Slot::Gating { SELDOM_GATING } else { SELDOM };
        if let Some(task) = self.task(slot).filter(|task| task.silent >= SILENT) {
            task.due = task.due.max(now.after(seldom));
        }
        self.over(slot);
    }

    /// Counts a failure of `kind`; the third in a row and those after it make all requests wait.
    pub(crate) fn back_off(&mut self, kind: &'static str, now: Mono) {
        self.failed = if self.failed.0 == kind { (kind, self.failed.1.saturating_add(1)) } else { (kind, 1) };
        if let Some(step) = usize::from(self.failed.1).checked_sub(BORNE) {
            let pause = BACK_OFF.get(step).or(BACK_OFF.last()).copied().unwrap_or_default();
            self.not_before = now.after(pause);
        }
    }
}

/// So many that are asked beside the schedule go in a row before one of the others that is due.
/// Own choice: a change of address costs two exchanges; eight take some half a second, so that engine speed stays
/// fresh.
const ASIDES: u8 = 8;
/// An identifier that is silent so often is asked seldom; the gating one more often, since all wait for it.
/// Own choice: each silence costs some 0.2 s (a public log shows 218 ms); one or two are lost replies.
const SILENT: u8 = 3;
const SELDOM: Duration = Duration::from_secs(10);
const SELDOM_GATING: Duration = Duration::from_secs(2);
/// After so many requests in a row without any answer the vehicle is asked whether it is there at all.
/// Own choice: two rounds of three silences; the question costs an exchange, and an ignition that was switched off is
/// told within some 2 s.
const QUIET: u8 = 6;
/// The failure of one kind in a row after which all requests wait.
/// Own choice: one or two are a disturbed line, and are made up for at once.
const BORNE: usize = 3;
/// Pauses after that one, and after each further one.
/// Own choice: vehicles dislike hammering (report ELMduino #286); the longest is short beside the minute of
/// `Driver::READS_WITHIN`.
const BACK_OFF: &[Duration] =
    &[Duration::from_secs(1), Duration::from_secs(2), Duration::from_secs(5), Duration::from_secs(10)];
/// So many answers without "response pending", and the long wait is given up again.
/// Own choice: one quick answer between slow ones is common; each long wait too many costs up to 1 s.
const SLOW: u8 = 5;
/// So often `NO DATA` with a count digit and an answer without, and it was the digit.
/// Own choice: a vehicle that misses one request in ten does that once in a thousand.
const UNDIGITED: u8 = 3;
/// So much before its time a request may go with others to the same address.
/// Own choice: half of the shortest usual interval of the others (1 s); a change of address saved is worth two
/// exchanges.
const EARLY: Duration = Duration::from_millis(500);
/// A request that waited so long goes before those of the present address.
/// Own choice: less and the addresses change with each request; more and engine speed, asked each second, would be old.
const TOO_LONG: Duration = Duration::from_secs(1);
/// The voltage, now and then.
/// Own choice: a battery falls over minutes; asked oftener it takes readings away.
const VOLTAGE_EVERY: Duration = Duration::from_secs(15);

#[cfg(test)]
mod tests;
