//! How the bay is, for whoever looks after it.
//!
//! In: what passes through the daemon's loop, the journal's disk. Out: [`Status`], with what ails the bay. The loop notes and answers
//! at once; the disk, which may hang, is asked by the task of the client that wants to know.
//!
//! Not here: what a sentence is in another language (`words`), who asks (`socket.rs`).

use std::path::{Path, PathBuf};
use std::time::Duration;

use events::{
    Ailment, Body, Event, Health, JournalStatus, LastReading, LinkView, Party, Quantity, Seq, Snapshot,
    Status, Utc, Word,
};
use units::{Celsius, Mono, Sleep};

use crate::bay::Moment;

/// With less room on the disk somebody must see to it.
/// Own choice: a job has some 4,000 events of 0.3 kB, so that fifty more jobs fit, or a dozen with photos.
const FREE_BYTES: u64 = 64 << 20;
/// A disk that is at work on one batch for longer is slow.
/// Own choice: a batch takes milliseconds, and a card that tidies itself a second or two.
const WRITES_WITHIN: Duration = Duration::from_secs(5);
/// A reading of what the check goes by is no longer one after so long.
/// Own choice: the slowest adapter that serves a job brings several in that time.
const READ_WITHIN: Duration = Duration::from_secs(30);
/// A clock that is behind by less is only being set right.
/// Own choice: a time service moves a clock by less at a time while the program runs.
const BEHIND: Duration = Duration::from_secs(60);
/// No clock that is set shows less: 2026-01-01T00:00:00Z. A machine without a battery for its clock begins at 1970, or at the day
/// on which its system was made.
/// Own choice: the year of the first version.
const OLDEST: Utc = Utc::from_seconds(1_767_225_600);

/// What the loop notes as events pass.
pub(crate) struct Notes {
    began: Mono,
    newest: Utc,
    last: Option<(Quantity, Celsius, Mono)>,
    writing_since: Option<Mono>,
}

impl Notes {
    /// With what the journal holds of the past.
    pub(crate) fn new<'a>(began: Mono, past: impl Iterator<Item = &'a Event>) -> Self {
        let newest = past.map(|event| event.at).max().unwrap_or(OLDEST).max(OLDEST);
        Self { began, newest, last: None, writing_since: None }
    }

    /// An event passes; `gated_on` is what the check goes by now.
    pub(crate) fn passes(&mut self, event: &Event, gated_on: Quantity) {
        self.newest = self.newest.max(event.at);
        if let Body::Reading(reading) = &event.body
            && let Some(celsius) = reading.measure.celsius()
            && reading.measure.quantity() == gated_on
        {
            let age = u64::from(reading.age_ms);
            self.last =
                Some((gated_on, celsius, Mono::from_millis(event.mono_ms.as_millis().saturating_sub(age))));
        }
    }

    /// Whether the disk is at work.
    pub(crate) fn writing(&mut self, writing: bool, now: Mono) {
        self.writing_since = writing.then(|| self.writing_since.unwrap_or(now));
    }

    /// By how much the clock is behind what the journal holds, where that matters.
    pub(crate) fn clock_behind(&self, now: Utc) -> Option<Duration> {
        let millis = u64::try_from(self.newest.as_millis().saturating_sub(now.as_millis())).ok()?;
        Some(Duration::from_millis(millis)).filter(|behind| *behind >= BEHIND)
    }

    /// The last reading of this, and how old it is.
    fn reading(&self, of: Quantity, now: Mono) -> Option<LastReading> {
        let (name, celsius, at) = self.last.filter(|(name, ..)| *name == of)?;
        Some(LastReading { name, celsius, age_seconds: now.since(at).as_secs_f64() })
    }

    /// How the bay is, as far as the loop knows: who it is, what a front end has of it, its port by name and whether that is open,
    /// its journal, and what the check goes by.
    pub(crate) fn look(
        &self,
        hello: &Word,
        snapshot: Snapshot,
        (device, port_open): (String, bool),
        disk: Disk<'_>,
        gated_on: Quantity,
        now: Moment,
    ) -> Looked {
        let (bay, version) = match hello {
            Word::Hello { bay, version, .. } => (bay.clone(), version.clone()),
            _ => Default::default(),
        };
        let millis = |d: Duration| u64::try_from(d.as_millis()).unwrap_or(u64::MAX);
        let read = matches!(gated_on, Quantity::FluidTemperature | Quantity::CoolantTemperature);
        let status = Status {
            at: now.utc,
            bay,
            version,
            up_seconds: now.mono.since(self.began).as_secs(),
            health: Health::Healthy,
            ailments: Vec::new(),
            device,
            port_open,
            link: snapshot.link,
            reading: self.reading(gated_on, now.mono),
            journal: JournalStatus {
                path: disk.path.display().to_string(),
                durable: disk.durable,
                waiting: disk.waiting,
                writing_ms: self.writing_since.map(|since| millis(now.mono.since(since))),
                free_bytes: None,
            },
            clock_behind_seconds: self.clock_behind(now.utc).map(|behind| behind.as_secs()),
            clients: 0,
            clients_most: 0,
            job: snapshot.job.filter(|job| job.result.is_none()).map(|job| job.job),
        };
        let folder = disk.path.parent().map_or_else(PathBuf::new, PathBuf::from);
        Looked { status, folder, read: read && snapshot.sheet.is_some() }
    }
}

/// The journal as the loop knows it.
pub(crate) struct Disk<'a> {
    pub(crate) path: &'a Path,
    pub(crate) durable: Seq,
    pub(crate) waiting: usize,
}

/// What the loop knows at a moment; the rest is asked beside it.
#[derive(Debug)]
pub(crate) struct Looked {
    pub(crate) status: Status,
    /// The folder whose disk is asked.
    pub(crate) folder: PathBuf,
    /// Whether the adapter is to read what the check goes by.
    pub(crate) read: bool,
}

impl Looked {
    /// With what the disk says of itself, unless it is `late`, and with the clients; judged.
    pub(crate) async fn judged(self, clients: usize, most: usize, late: Sleep) -> Status {
        let Self { mut status, folder, read } = self;
        let asked = tokio::task::spawn_blocking(move || free_bytes(&folder));
        status.journal.free_bytes = tokio::select! {
            answer = asked => answer.ok().flatten(),
            () = late => None,
        };
        (status.clients, status.clients_most) = (clients, most);
        status.ailments = ailments(&status, read);
        status.health = gravest(&status.ailments);
        status
    }
}

/// How many bytes the disk of this folder has left for us.
fn free_bytes(folder: &Path) -> Option<u64> {
    let disk = rustix::fs::statvfs(folder).ok()?;
    Some(disk.f_bavail.saturating_mul(disk.f_frsize))
}

/// What ails the bay; `read`: the adapter is to read what the check goes by.
fn ailments(status: &Status, read: bool) -> Vec<Ailment> {
    let mut found = Vec::new();
    found.extend(link_ailment(status, read));
    let JournalStatus { writing_ms, free_bytes, .. } = &status.journal;
    let slow = writing_ms.is_some_and(|ms| Duration::from_millis(ms) >= WRITES_WITHIN);
    match free_bytes {
        Some(bytes) if *bytes < FREE_BYTES => found.push(Ailment::DiskFull),
        None => found.push(Ailment::DiskSlow),
        Some(_) if slow => found.push(Ailment::DiskSlow),
        Some(_) => {}
    }
    found.extend(status.clock_behind_seconds.map(|_| Ailment::ClockBehind));
    found
}

/// What keeps readings away: of adapter, vehicle and reading the first that is missing.
fn link_ailment(status: &Status, read: bool) -> Option<Ailment> {
    let LinkView { up, people, identity, trouble, .. } = &status.link;
    if *people {
        return None;
    }
    let by_adapter = trouble.is_some_and(|t| matches!(t.party(), Party::Link | Party::Adapter));
    if !up {
        let no_adapter = !status.port_open || identity.is_none() || by_adapter;
        return Some(if no_adapter { Ailment::NoAdapter } else { Ailment::NoVehicle });
    }
    let fresh = status.reading.is_some_and(|last| last.age_seconds < READ_WITHIN.as_secs_f64());
    (read && (!fresh || trouble.is_some())).then_some(Ailment::NoReading)
}

/// What needs a hand goes before what may come by itself.
fn gravest(ailments: &[Ailment]) -> Health {
    ailments.iter().map(|ailment| ailment.health()).max().unwrap_or(Health::Healthy)
}

#[cfg(test)]
mod tests {
    use super::*;
    use events::{Fault, Measure, Reading, Trouble};

    const FLUID: Quantity = Quantity::FluidTemperature;

    /// A bay in the best of health, an hour after its start.
    fn healthy() -> Status {
        let celsius = Celsius::from_f64(38.4).unwrap();
        Status {
            at: Utc::from_millis(1_780_000_000_000),
            bay: "bay".to_owned(),
            version: "0".to_owned(),
            up_seconds: 3_600,
            health: Health::Healthy,
            ailments: Vec::new(),
            device: "/dev/ttyUSB0".to_owned(),
            port_open: true,
            link: LinkView { up: true, identity: Some("adapter".to_owned()), ..LinkView::default() },
            reading: Some(LastReading { name: FLUID, celsius, age_seconds: 0.4 }),
            journal: JournalStatus {
                path: "/j".to_owned(),
                durable: Seq(9),
                waiting: 0,
                writing_ms: None,
                free_bytes: Some(1 << 30),
            },
            clock_behind_seconds: None,
            clients: 1,
            clients_most: 64,
            job: None,
        }
    }

    fn sick(change: impl FnOnce(&mut Status)) -> (Vec<Ailment>, Health) {
        let mut status = healthy();
        change(&mut status);
        let found = ailments(&status, true);
        let health = gravest(&found);
        (found, health)
    }

    #[test]
    fn each_ailment_is_found_and_the_gravest_says_how_the_bay_is() {
        use Ailment as A;
        use Health::{Healthy, NeedsAHand, Waiting};
        type Case = (&'static str, fn(&mut Status), &'static [Ailment], Health);
        #[rustfmt::skip]
        let cases: &[Case] = &[
            ("nothing",            |_| {},                                                  &[],                 Healthy),
            ("port shut",          |s| { s.link.up = false; s.port_open = false; },         &[A::NoAdapter],     Waiting),
            ("not set up",         |s| { s.link.up = false; s.link.identity = None; },      &[A::NoAdapter],     Waiting),
            ("adapter mute",       |s| { s.link.up = false; s.link.trouble = Some(Trouble::AdapterMute); }, &[A::NoAdapter], Waiting),
            ("ignition off",       |s| { s.link.up = false; s.link.trouble = Some(Trouble::VehicleSilent); }, &[A::NoVehicle], Waiting),
            ("none read yet",      |s| s.reading = None,                                    &[A::NoReading],     Waiting),
            ("old",                |s| if let Some(r) = &mut s.reading { r.age_seconds = 30.0 }, &[A::NoReading], Waiting),
            ("just not old",       |s| if let Some(r) = &mut s.reading { r.age_seconds = 29.9 }, &[],            Healthy),
            ("refused",            |s| s.link.trouble = Some(Trouble::RefusedUnknown),      &[A::NoReading],     Waiting),
            ("by people",          |s| { s.link = LinkView { people: true, ..LinkView::default() }; s.port_open = false; s.reading = None; }, &[], Healthy),
            ("disk nearly full",   |s| s.journal.free_bytes = Some(FREE_BYTES - 1),         &[A::DiskFull],      NeedsAHand),
            ("disk just large",    |s| s.journal.free_bytes = Some(FREE_BYTES),             &[],                 Healthy),
            ("disk silent",        |s| s.journal.free_bytes = None,                         &[A::DiskSlow],      NeedsAHand),
            ("disk slow",          |s| s.journal.writing_ms = Some(5_000),                  &[A::DiskSlow],      NeedsAHand),
            ("disk at work",       |s| s.journal.writing_ms = Some(4_999),                  &[],                 Healthy),
            ("clock",              |s| s.clock_behind_seconds = Some(60),                   &[A::ClockBehind],   NeedsAHand),
            ("both",               |s| { s.reading = None; s.clock_behind_seconds = Some(60); }, &[A::NoReading, A::ClockBehind], NeedsAHand),
        ];
        for (name, change, want, health) in cases {
            assert_eq!(sick(change), (want.to_vec(), *health), "{name}");
        }
        let mut typed = healthy();
        typed.reading = None;
        assert_eq!(ailments(&typed, false), [], "a check by thermometer waits for no adapter's reading");
    }

    fn event(at_ms: i64, mono: Mono, body: Body) -> Event {
        Event { seq: Seq(1), at: Utc::from_millis(at_ms), mono_ms: mono, body }
    }

    fn fault() -> Body {
        Body::Fault { fault: Fault::NoAnswer, detail: None, from: None }
    }

    #[test]
    fn a_clock_behind_the_journal_or_before_the_first_version_is_found() {
        let day = 86_400_000;
        let (now, past) = (OLDEST.as_millis() + 100 * day, OLDEST.as_millis() + 90 * day);
        let notes = Notes::new(Mono::ZERO, [event(past, Mono::ZERO, fault())].iter());
        let behind = |millis| notes.clock_behind(Utc::from_millis(millis)).map(|d| d.as_secs());
        assert_eq!(behind(now), None);
        assert_eq!(behind(past - 59_999), None, "being set right");
        assert_eq!(behind(past - 60_000), Some(60));
        let empty = Notes::new(Mono::ZERO, [].iter());
        assert!(empty.clock_behind(Utc::from_millis(0)).is_some(), "no battery, and no job before");
        assert_eq!(empty.clock_behind(Utc::from_millis(now)), None);
    }

    #[test]
    fn a_clock_that_is_set_back_while_it_runs_is_found() {
        let mut notes = Notes::new(Mono::ZERO, [].iter());
        let today = OLDEST.as_millis() + 500_000_000;
        notes.passes(&event(today, Mono::ZERO, fault()), FLUID);
        assert_eq!(notes.clock_behind(Utc::from_millis(today - 3_600_000)).map(|d| d.as_secs()), Some(3_600));
    }

    #[test]
    fn the_last_reading_is_of_what_the_check_goes_by_and_ages() {
        let read = |measure, age_ms| {
            let reading = Reading { measure, step: None, from: None, age_ms };
            event(0, Mono::from_secs(10), Body::Reading(reading))
        };
        let celsius = |of| Celsius::from_f64(of).unwrap();
        let mut notes = Notes::new(Mono::from_secs(4), [].iter());
        notes.passes(&read(Measure::Fluid(celsius(38.4)), 500), FLUID);
        notes.passes(&read(Measure::Coolant(celsius(80.0)), 0), FLUID);
        let last = notes.reading(FLUID, Mono::from_secs(12)).unwrap();
        assert_eq!((last.celsius.to_f64(), last.age_seconds), (38.4, 2.5));
        assert!(notes.reading(Quantity::CoolantTemperature, Mono::from_secs(12)).is_none());
    }

    #[test]
    fn how_long_the_disk_is_at_work_is_counted_from_the_batch_it_is_at() {
        let mut notes = Notes::new(Mono::ZERO, [].iter());
        notes.writing(true, Mono::from_secs(1));
        notes.writing(true, Mono::from_secs(3));
        assert_eq!(notes.writing_since, Some(Mono::from_secs(1)));
        notes.writing(false, Mono::from_secs(5));
        assert_eq!(notes.writing_since, None);
    }
}
