//! Virtual time in lock-step: it advances only when neither side has work.
//!
//! In: who sleeps until when, and what must be quiet before time may pass. Out: a [`Clock`] for each party.
//!
//! The runtime's one thread tells us when it is about to park, which means that no task can go on
//! ([`Conductor::idle`], hung on `on_thread_park`). Then, and only when nothing is in flight outside the
//! runtime (bytes inside a pseudo-terminal, a write under way in the journal, a line a client has not read),
//! the earliest sleeper is woken and the clock is set to its deadline. One sleeper at a time, and ties go by
//! rank, so the same seed gives the same events on any machine under any load.
//!
//! With a pace the same holds, but a deadline is not passed before its real time has come.

use std::collections::BTreeMap;
use std::future::Future;
use std::pin::Pin;
use std::sync::atomic::{AtomicI64, AtomicU64, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::task::{Context, Poll, Waker};
use std::time::{Duration, Instant};

use tokio::sync::Notify;
use units::{Clock, Mono, Sleep};

/// Civil time when a rehearsal begins: 2026-03-02T08:00:00Z.
/// Own choice: a Monday morning, so that records are the same on every day.
pub const WALL_START_MILLIS: i64 = 1_772_438_400_000;

/// Milliseconds in a day.
/// By definition.
const DAY_MILLIS: i64 = 86_400_000;

/// How fast simulated time passes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Pace {
    /// As fast as the work is done.
    Max,
    /// So many simulated seconds in one real second.
    Times(f64),
}

/// Who sleeps; where two wake at the same instant, the earlier in this list goes first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Party {
    /// The simulated vehicle and adapter.
    Car,
    /// The program under rehearsal.
    Program,
    /// The scripted technician.
    Technician,
}

/// Bytes on their way through something that the runtime cannot see into.
#[derive(Debug, Default)]
pub struct Flight {
    in_flight: AtomicI64,
}

impl Flight {
    /// So many bytes were sent.
    pub fn sent(&self, bytes: usize) {
        self.in_flight.fetch_add(i64::try_from(bytes).unwrap_or(0), Ordering::AcqRel);
    }

    /// So many bytes have arrived.
    pub fn arrived(&self, bytes: usize) {
        self.in_flight.fetch_sub(i64::try_from(bytes).unwrap_or(0), Ordering::AcqRel);
    }

    /// What was on its way is gone for good.
    pub fn lost(&self) {
        self.in_flight.store(0, Ordering::Release);
    }

    /// Whether nothing is on its way.
    pub fn is_quiet(&self) -> bool {
        self.in_flight.load(Ordering::Acquire) <= 0
    }
}

type Key = (Mono, Party, u64);
type Check = Box<dyn Fn() -> bool + Send>;

struct Inner {
    now: AtomicU64,
    sleepers: Mutex<BTreeMap<Key, Waker>>,
    checks: Mutex<Vec<Check>>,
    ids: AtomicU64,
    pace: Pace,
    /// So many days after the first one.
    day: u32,
    started: Instant,
    /// So long time stood, ms: it is not caught up.
    stood: AtomicU64,
    target: AtomicU64,
    pacer: Notify,
}

/// Keeps the time of a rehearsal.
#[derive(Clone)]
pub struct Conductor(Arc<Inner>);

impl Conductor {
    /// Time stands at zero.
    pub fn new(pace: Pace) -> Self {
        Self::on_day(0, pace)
    }

    /// The same, so many days after the first one by civil time.
    pub fn on_day(day: u32, pace: Pace) -> Self {
        Self(Arc::new(Inner {
            now: AtomicU64::new(0),
            sleepers: Mutex::default(),
            checks: Mutex::default(),
            ids: AtomicU64::new(0),
            pace,
            day,
            started: Instant::now(),
            stood: AtomicU64::new(0),
            target: AtomicU64::new(u64::MAX),
            pacer: Notify::new(),
        }))
    }

    /// Time may pass only while `check` says that nothing is in flight.
    pub fn hold_while_not(&self, check: impl Fn() -> bool + Send + 'static) {
        lock(&self.0.checks).push(Box::new(check));
    }

    /// Time stood for so long because somebody was waited for: a pace goes on from there.
    pub fn stood(&self, so_long: Duration) {
        let millis = u64::try_from(so_long.as_millis()).unwrap_or(u64::MAX);
        self.0.stood.fetch_add(millis, Ordering::AcqRel);
    }

    /// The clock of one party.
    pub fn clock(&self, party: Party) -> Arc<dyn Clock> {
        Arc::new(Virtual { conductor: self.clone(), party })
    }

    /// The instant now.
    pub fn now(&self) -> Mono {
        Mono::from_millis(self.0.now.load(Ordering::Acquire))
    }

    /// The runtime has nothing to do: lets time pass if it may. To be called from `on_thread_park`.
    pub fn idle(&self) {
        if !lock(&self.0.checks).iter().all(|quiet| quiet()) {
            return;
        }
        let Some(at) = lock(&self.0.sleepers).first_key_value().map(|(key, _)| key.0) else { return };
        if self.0.pace == Pace::Max || at <= self.now() {
            self.advance();
        } else if self.0.target.swap(at.as_millis(), Ordering::AcqRel) != at.as_millis() {
            self.0.pacer.notify_one();
        }
    }

    /// Lets real time pass at the pace that was asked for. To be spawned beside the rehearsal; never ends.
    pub async fn keep_pace(self) {
        let Pace::Times(pace) = self.0.pace else { return std::future::pending().await };
        loop {
            let target = Mono::from_millis(self.0.target.load(Ordering::Acquire));
            let stood = self.0.stood.load(Ordering::Acquire) as f64 / 1_000.0;
            let passed = target.as_secs_f64() / pace.max(0.001) + stood;
            let due = self.0.started + Duration::from_secs_f64(passed.min(1e9));
            tokio::select! {
                () = self.0.pacer.notified() => {}
                () = tokio::time::sleep_until(due.into()) => {
                    self.0.target.store(u64::MAX, Ordering::Release);
                    if lock(&self.0.checks).iter().all(|quiet| quiet()) {
                        self.advance();
                    }
                }
            }
        }
    }

    /// Wakes the earliest sleeper, at its deadline.
    fn advance(&self) {
        let Some((key, waker)) = lock(&self.0.sleepers).pop_first() else { return };
        self.0.now.fetch_max(key.0.as_millis(), Ordering::AcqRel);
        waker.wake();
    }
}

/// A thread that panicked has already ended the rehearsal; what the lock holds is still whole.
fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

struct Virtual {
    conductor: Conductor,
    party: Party,
}

impl Clock for Virtual {
    fn now(&self) -> Mono {
        self.conductor.now()
    }

    fn wall_millis(&self) -> i64 {
        let day = WALL_START_MILLIS.saturating_add(i64::from(self.conductor.0.day) * DAY_MILLIS);
        day.saturating_add(i64::try_from(self.now().as_millis()).unwrap_or(i64::MAX))
    }

    fn sleep_until(&self, at: Mono) -> Sleep {
        let id = self.conductor.0.ids.fetch_add(1, Ordering::Relaxed);
        Box::pin(Sleeper { conductor: self.conductor.clone(), key: (at, self.party, id) })
    }
}

struct Sleeper {
    conductor: Conductor,
    key: Key,
}

impl Future for Sleeper {
    type Output = ();

    fn poll(self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<()> {
        if self.conductor.now() >= self.key.0 {
            return Poll::Ready(());
        }
        lock(&self.conductor.0.sleepers).insert(self.key, cx.waker().clone());
        Poll::Pending
    }
}

impl Drop for Sleeper {
    fn drop(&mut self) {
        lock(&self.conductor.0.sleepers).remove(&self.key);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn runtime(conductor: &Conductor) -> tokio::runtime::Runtime {
        let idle = conductor.clone();
        tokio::runtime::Builder::new_current_thread()
            .enable_all()
            .on_thread_park(move || idle.idle())
            .build()
            .unwrap()
    }

    #[test]
    fn time_passes_only_when_nobody_has_work_and_ties_go_by_rank() {
        let conductor = Conductor::new(Pace::Max);
        let order = Arc::new(Mutex::new(Vec::new()));
        runtime(&conductor).block_on(async {
            let mut tasks = Vec::new();
            for (party, at) in [(Party::Technician, 5_000), (Party::Car, 5_000), (Party::Program, 3_000)] {
                let (clock, order) = (conductor.clock(party), Arc::clone(&order));
                tasks.push(tokio::spawn(async move {
                    clock.sleep_until(Mono::from_millis(at)).await;
                    order.lock().unwrap().push((party, clock.now().as_millis()));
                }));
            }
            for task in tasks {
                task.await.unwrap();
            }
        });
        let want = [(Party::Program, 3_000), (Party::Car, 5_000), (Party::Technician, 5_000)];
        assert_eq!(*order.lock().unwrap(), want);
    }

    #[test]
    fn time_stands_while_something_is_in_flight() {
        let conductor = Conductor::new(Pace::Max);
        let flight = Arc::new(Flight::default());
        let seen = Arc::clone(&flight);
        conductor.hold_while_not(move || seen.is_quiet());
        flight.sent(3);
        let landing = Arc::clone(&flight);
        let clock = conductor.clock(Party::Program);
        runtime(&conductor).block_on(async {
            // Another thread lands the bytes at some real moment that the virtual clock must not see.
            let (sender, receiver) = tokio::sync::oneshot::channel();
            let thread = std::thread::spawn(move || {
                landing.arrived(3);
                sender.send(()).unwrap();
            });
            assert_eq!(clock.now(), Mono::ZERO);
            receiver.await.unwrap();
            assert_eq!(clock.now(), Mono::ZERO, "no time has passed while the bytes were on their way");
            clock.sleep_until(Mono::from_secs(60)).await;
            assert_eq!(clock.now(), Mono::from_secs(60));
            thread.join().unwrap();
        });
    }
}
