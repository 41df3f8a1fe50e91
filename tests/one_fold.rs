//! A client that folds the events knows what one learns that connects anew: at every moment of drawn rehearsals the
//! snapshot of the bay and the fold of all its events since the start are the same.
//!
//! Left out is what grows old between two events: the estimate and the forecast, and of the selector's rounds the
//! seconds that are left.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use std::collections::BTreeMap;
use std::fmt::Debug;

use common::{OnStage, moment};
use events::{Event, Sheet, Snapshot, Told, Word};
use rehearsal::campaign::Form;
use rehearsal::{Keep, Program, stage};
use units::Mono;

/// The bay, a client since its start, and where the two were not the same, by field.
struct Watched {
    bay: OnStage,
    client: Snapshot,
    now: Mono,
    apart: BTreeMap<&'static str, String>,
}

impl Watched {
    fn new(mut bay: OnStage) -> Self {
        while bay.poll_event().is_some() {}
        let client = bay.0.snapshot(moment(Mono::ZERO));
        Self { bay, client, now: Mono::ZERO, apart: BTreeMap::new() }
    }

    fn compare(&mut self) {
        let bay = timeless(self.bay.0.snapshot(moment(self.now)));
        let client = timeless(self.client.clone());
        self.differ("verdict", &bay.verdict, &client.verdict);
        self.differ("reasons", &bay.reasons, &client.reasons);
        self.differ("said", &bay.said, &client.said);
        self.differ("link", &bay.link, &client.link);
        self.differ("readings", &bay.readings, &client.readings);
        self.differ("sheet", &bay.sheet, &client.sheet);
        let (Some(bay), Some(client)) = (&bay.job, &client.job) else {
            return self.differ("job", &bay.job, &client.job);
        };
        self.differ("step", &bay.step, &client.step);
        self.differ("steps", &bay.steps, &client.steps);
        self.differ("open", &bay.open, &client.open);
        self.differ("balance", &bay.balance, &client.balance);
        self.differ("top-up", &bay.top_up, &client.top_up);
        self.differ("stops", &bay.stops, &client.stops);
        self.differ("selector", &bay.selector, &client.selector);
        self.differ("port", &bay.port_open, &client.port_open);
        self.differ("held", &bay.held, &client.held);
        if self.apart.is_empty() {
            self.differ("all else", bay, client);
        }
    }

    fn differ<T: PartialEq + Debug>(&mut self, field: &'static str, bay: &T, client: &T) {
        if bay != client && !self.apart.contains_key(field) {
            let at = self.now.as_millis() / 1_000;
            self.apart.insert(field, format!("second {at}: the bay has {bay:?}, the client {client:?}"));
        }
    }
}

/// Without what grows old by itself.
fn timeless(mut snapshot: Snapshot) -> Snapshot {
    if let Some(job) = &mut snapshot.job {
        job.closure.clear();
        job.selector.iter_mut().for_each(|rounds| rounds.left_seconds = 0);
    }
    snapshot
}

impl Program for Watched {
    fn link_opened(&mut self, now: Mono) {
        self.now = now;
        self.bay.link_opened(now);
    }
    fn link_closed(&mut self, now: Mono, why: &str) {
        self.now = now;
        self.bay.link_closed(now, why);
    }
    fn bytes(&mut self, bytes: &[u8], now: Mono) {
        self.now = now;
        self.bay.bytes(bytes, now);
    }
    fn tell(&mut self, told: &Told, now: Mono) -> Word {
        self.now = now;
        self.bay.tell(told, now)
    }
    fn wake(&mut self, now: Mono) {
        self.now = now;
        self.bay.wake(now);
    }
    fn poll_bytes(&mut self, now: Mono) -> Option<Vec<u8>> {
        self.now = now;
        self.bay.poll_bytes(now)
    }
    fn poll_event(&mut self) -> Option<Event> {
        let event = self.bay.poll_event();
        match &event {
            Some(event) => {
                self.client.apply(event);
                self.now = event.mono_ms;
            }
            None => self.compare(),
        }
        event
    }
    fn deadline(&self) -> Option<Mono> {
        self.bay.deadline()
    }
    fn wants_reopen(&mut self) -> bool {
        self.bay.wants_reopen()
    }
}

fn held(form: Form, sheets: &[Sheet], seeds: std::ops::RangeInclusive<u64>) {
    let mut apart = Vec::new();
    for seed in seeds {
        let mut setup = form.draw(seed, sheets);
        setup.keep = Keep::Nothing;
        let mut watched = Watched::new(OnStage::of(&setup));
        stage::run(&mut watched, &setup);
        apart.extend(watched.apart.iter().map(|(field, how)| format!("{form:?} {seed} {field}: {how}")));
    }
    assert!(apart.is_empty(), "{} apart:\n{}", apart.len(), apart.join("\n"));
}

#[test]
fn who_connects_anew_and_who_folds_the_events_know_the_same() {
    let sheets = common::sheets();
    held(Form::AsDrawn, &sheets, 1..=20);
    held(Form::FaultsEnd, &sheets, 1..=10);
    held(Form::ByPeople, &sheets, 1..=10);
}

#[test]
fn in_every_procedure_too() {
    let sheets: Vec<Sheet> = common::procedures().into_iter().map(|(_, sheet)| sheet).collect();
    held(Form::ByAdvice, &sheets, 1..=36);
}
