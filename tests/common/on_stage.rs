//! The daemon's own bay on the rehearsal's stage, for the tests of the program and for the campaign's bench.

use events::{Event, Seq, Sheet, Told, Utc, Word};
use rehearsal::Program;
use rehearsal::clock::WALL_START_MILLIS;
use service::{Bay, Moment};
use units::Mono;

/// The daemon's own bay, on the stage: the same object that the loop of `serve` drives.
pub struct OnStage(pub Bay);

impl OnStage {
    pub fn new(sheet: &Sheet) -> Self {
        Self::booted(Bay::new(sheet.clone(), Seq(1), 0))
    }

    /// Without an adapter.
    #[allow(dead_code, reason = "the campaign's bench has none")]
    pub fn by_people(sheet: &Sheet) -> Self {
        Self::booted(Bay::new(sheet.clone(), Seq(1), 0).without_adapter().expect("a sheet that needs none"))
    }

    /// As the rehearsal needs it.
    #[allow(dead_code, reason = "not every test draws")]
    pub fn of(setup: &rehearsal::Setup) -> Self {
        if setup.script.people { Self::by_people(&setup.sheet) } else { Self::new(&setup.sheet) }
    }

    fn booted(mut bay: Bay) -> Self {
        bay.boot("stage", "test", moment(Mono::ZERO));
        Self(bay)
    }
}

pub fn moment(mono: Mono) -> Moment {
    let millis = i64::try_from(mono.as_millis()).unwrap();
    Moment { mono, utc: Utc::from_millis(WALL_START_MILLIS + millis) }
}

impl Program for OnStage {
    fn link_opened(&mut self, now: Mono) {
        self.0.link_opened(None, moment(now));
    }
    fn link_closed(&mut self, now: Mono, why: &str) {
        self.0.link_closed(why, moment(now));
    }
    fn bytes(&mut self, bytes: &[u8], now: Mono) {
        self.0.bytes(bytes, moment(now));
    }
    fn tell(&mut self, told: &Told, now: Mono) -> Word {
        self.0.tell(told, moment(now))
    }
    fn wake(&mut self, now: Mono) {
        self.0.wake(moment(now));
    }
    fn poll_bytes(&mut self, now: Mono) -> Option<Vec<u8>> {
        self.0.poll_bytes(moment(now))
    }
    fn poll_event(&mut self) -> Option<Event> {
        self.0.poll_event()
    }
    fn deadline(&self) -> Option<Mono> {
        self.0.deadline()
    }
    fn wants_reopen(&mut self) -> bool {
        self.0.wants_reopen()
    }
}
