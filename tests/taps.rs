//! A whole job on the screens' own words: whatever has to be told is offered to the seat that tells it, one
//! confirmation is one tap, there are few of them, and nothing but amounts and the stand is typed.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use common::{OnStage, procedures};
use events::{Event, Outcome, People, Request, Role, SocketLine, Told, Word};
use rehearsal::{Program, Setup, stage};
use units::Mono;
use view::{Ask, Fold, Look, Offer, Seat};

/// The daemon, and a screen beside each seat that hears what it says.
struct Screens {
    daemon: OnStage,
    fold: Fold,
    alone: bool,
    /// What was told, and what had to be typed with it.
    taps: Vec<(&'static str, Ask)>,
    /// Taps that only brought out what lies behind the others, or a choice.
    more: usize,
    unoffered: Vec<String>,
}

impl Screens {
    fn new(setup: &Setup) -> Self {
        let daemon = OnStage::of(setup);
        let mut fold = Fold::default();
        let snapshot = daemon.0.snapshot(common::moment(Mono::ZERO));
        fold.hear(&SocketLine::Word(Word::Snapshot(Box::new(snapshot))), Mono::ZERO);
        Self { daemon, fold, alone: setup.script.alone, taps: Vec::new(), more: 0, unoffered: Vec::new() }
    }

    fn offers(&self, seat: Seat, now: Mono) -> Vec<Offer> {
        self.fold.look(&Look { now, seat, speech: words::Speech::default() }).offers
    }

    /// The offer that says it, on the screen of the seat; alone on either.
    fn counts(&mut self, told: &Told, now: Mono) {
        let own = if told.by == Some(Role::Inside) { Seat::Inside } else { Seat::Under };
        let seats = if self.alone { vec![Seat::Under, Seat::Inside] } else { vec![own] };
        let offers: Vec<Offer> = seats.into_iter().flat_map(|seat| self.offers(seat, now)).collect();
        let word = told.request.word();
        let says = |offer: &&Offer| match &told.request {
            Request::Confirm { what } => offer.what == Some(*what),
            // Another kind of job than the usual one is chosen.
            Request::Start { people: People::One, .. } => {
                offer.tell == word && matches!(offer.ask, Ask::Choice(_))
            }
            _ => offer.tell == word,
        };
        match offers.iter().filter(says).min_by_key(|offer| offer.aside) {
            Some(offer) => {
                // What lies behind the others costs one more, and so does a choice.
                self.more += usize::from(offer.aside) + usize::from(matches!(offer.ask, Ask::Choice(_)));
                self.taps.push((word, offer.ask.clone()));
            }
            None => self.unoffered.push(format!("{:?} is not offered", told.request)),
        }
    }
}

impl Program for Screens {
    fn link_opened(&mut self, now: Mono) {
        self.daemon.link_opened(now);
    }
    fn link_closed(&mut self, now: Mono, why: &str) {
        self.daemon.link_closed(now, why);
    }
    fn bytes(&mut self, bytes: &[u8], now: Mono) {
        self.daemon.bytes(bytes, now);
    }
    fn tell(&mut self, told: &Told, now: Mono) -> Word {
        self.counts(told, now);
        self.daemon.tell(told, now)
    }
    fn wake(&mut self, now: Mono) {
        self.daemon.wake(now);
    }
    fn poll_bytes(&mut self, now: Mono) -> Option<Vec<u8>> {
        self.daemon.poll_bytes(now)
    }
    fn poll_event(&mut self) -> Option<Event> {
        let event = self.daemon.poll_event()?;
        self.fold.hear(&SocketLine::Event(event.clone()), event.mono_ms);
        Some(event)
    }
    fn deadline(&self) -> Option<Mono> {
        self.daemon.deadline()
    }
    fn wants_reopen(&mut self) -> bool {
        self.daemon.wants_reopen()
    }
}

#[test]
fn a_whole_job_takes_few_taps_and_no_keyboard_but_for_amounts_and_the_stand() {
    let sheet = procedures().into_iter().find(|(id, _)| id == "pipe-margin").unwrap().1;
    for (alone, most) in [(false, 26), (true, 30)] {
        let mut setup = Setup::by_advice(0.0, &sheet, None, 7);
        setup.script.alone = alone;
        let mut screens = Screens::new(&setup);
        let ending = stage::run(&mut screens, &setup);
        let words: Vec<&str> = screens.taps.iter().map(|(word, _)| *word).collect();
        let taps = words.len() + screens.more;
        println!("alone {alone}: {taps} taps, {} of them on the way: {words:?}", screens.more);
        assert_eq!(ending.result.map(|r| r.outcome), Some(Outcome::Set), "alone {alone}");
        assert_eq!(screens.unoffered, Vec::<String>::new(), "alone {alone}");
        assert!(taps <= most, "alone {alone}: {taps} taps: {words:?}");
        for (word, ask) in &screens.taps {
            let typed = match ask {
                Ask::Nothing => continue,
                Ask::Choice(_) => ["start"].contains(word),
                Ask::Amount => ["drained", "filled", "ran-out"].contains(word),
                Ask::Level => *word == "level",
                Ask::Depth | Ask::Spot(_) | Ask::Temperature | Ask::Text => false,
            };
            assert!(typed, "alone {alone}: `{word}` asks for a keyboard: {ask:?}");
        }
    }
}
