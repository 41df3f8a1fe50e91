//! From the bytes of a vehicle or an adapter that is silent, or of a control unit that refuses, to the sentence on the
//! screen.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

mod common;

use std::time::Duration;

use common::moment;
use events::{Body, Event, LinkChange, Seq, Sheet, SocketLine, Trouble, Word};
use rehearsal::{Bus, Car, Fault, FaultKind, Firmware, Plug, SerialLine, Vehicle, World, embedded};
use service::Bay;
use units::Mono;
use view::{Fold, Look, Seat, Surface, View};

/// What the adapter says in place of what the simulated one says.
type Twist = fn(&str) -> String;

struct Scene {
    firmware: &'static str,
    fault: Option<FaultKind>,
    /// The sheet of the bay; the vehicle has the demonstration's.
    sheet: Sheet,
    twist: Twist,
    /// From then on the adapter is out of its connector.
    pulled: Option<Mono>,
}

impl Default for Scene {
    fn default() -> Self {
        Self {
            firmware: "original-2.1",
            fault: None,
            sheet: embedded::six_speed(),
            twist: str::to_owned,
            pulled: None,
        }
    }
}

/// Half a minute of a bay and a vehicle in memory: the events, and what the seat under the vehicle sees at the end,
/// folded from them and once more from the snapshot alone.
fn play(scene: Scene) -> (Vec<Event>, View, View) {
    let made_after = embedded::six_speed();
    let faults: Vec<Fault> = scene.fault.map(|kind| Fault::new(kind, 0)).into_iter().collect();
    let world = World::new(&made_after, Vehicle::typical(&made_after, 18.0), None, &faults, 1);
    let firmware = Firmware::named(scene.firmware).unwrap();
    let mut car = Car::on(Bus::usual(), world, &made_after, firmware, SerialLine::USUAL, 1);
    let mut bay = Bay::new(scene.sheet, Seq(1), 0);
    let mut fold = Fold::default();
    fold.hear(&SocketLine::Word(Word::Snapshot(Box::new(bay.snapshot(moment(Mono::ZERO))))), Mono::ZERO);
    let mut events = Vec::new();
    let (mut now, mut open, mut reopen, end) = (Mono::ZERO, false, Mono::ZERO, Mono::from_secs(30));
    while now < end {
        if scene.pulled.is_some_and(|at| at <= now) {
            car.world_mut().plug_adapter(Plug::Out);
        }
        bay.wake(moment(now));
        car.handle_timeout(now);
        loop {
            let mut worked = false;
            if open && !car.plugged() {
                open = false;
                bay.link_closed("it was pulled", moment(now));
            }
            if bay.wants_reopen() {
                (open, reopen) = (false, now.after(Duration::from_millis(250)));
                bay.link_closed("its port is opened again", moment(now));
            }
            if !open && car.plugged() && now >= reopen {
                open = true;
                bay.link_opened(None, moment(now));
            }
            while let Some(bytes) = bay.poll_bytes(moment(now)) {
                car.handle_bytes(&bytes, now);
                worked = true;
            }
            while let Some(bytes) = car.poll_transmit(now) {
                if open {
                    let said = String::from_utf8(bytes).unwrap();
                    bay.bytes((scene.twist)(&said).as_bytes(), moment(now));
                    worked = true;
                }
            }
            while let Some(event) = bay.poll_event() {
                fold.hear(&SocketLine::Event(event.clone()), now);
                events.push(event);
            }
            if !worked {
                break;
            }
        }
        let next = [bay.deadline(), car.poll_timeout(), (!open).then_some(reopen)];
        let soon = now.after(Duration::from_millis(100));
        now = next
            .into_iter()
            .flatten()
            .min()
            .unwrap_or(soon)
            .min(soon)
            .max(now.after(Duration::from_millis(1)));
    }
    let look = Look { now, seat: Seat::Under, speech: words::Speech::default() };
    let mut late = Fold::default();
    late.hear(&SocketLine::Word(Word::Snapshot(Box::new(bay.snapshot(moment(now))))), now);
    (events, fold.look(&look), late.look(&look))
}

fn troubles(events: &[Event]) -> Vec<Trouble> {
    let told = events.iter().filter_map(|event| match &event.body {
        Body::Link(LinkChange::Trouble { trouble, .. }) => Some(*trouble),
        _ => None,
    });
    told.collect()
}

fn wrong_identifier() -> Sheet {
    let mut sheet = embedded::six_speed();
    sheet.identifier.as_mut().unwrap().id = 0x2C41;
    sheet
}

#[test]
fn the_screen_says_who_is_silent_and_why_a_unit_refuses() {
    let plain = Scene::default;
    let refuses = |twist: Twist| Scene { sheet: wrong_identifier(), twist, ..Scene::default() };
    type Case = (&'static str, Scene, &'static [Trouble], &'static str, &'static str);
    let cases: Vec<Case> = vec![
        (
            "the ignition is off",
            Scene { fault: Some(FaultKind::IgnitionOff), ..plain() },
            &[Trouble::VehicleSilent],
            "The vehicle does not answer. Check the ignition, and that the adapter sits firmly in the connector.",
            "vehicle silent",
        ),
        (
            "nothing comes back",
            Scene { firmware: "dead", ..plain() },
            &[Trouble::AdapterSilent, Trouble::AdapterMute],
            "The adapter says nothing, though its port was opened anew. Pull the adapter and plug it in again; if that does not help, use another one.",
            "adapter silent",
        ),
        (
            "it is pulled",
            Scene { pulled: Some(Mono::from_secs(10)), ..plain() },
            &[Trouble::PortGone],
            "The connection to the adapter is cut. Check the adapter's plug and cable; it comes back by itself.",
            "adapter gone",
        ),
        (
            "31",
            refuses(str::to_owned),
            &[Trouble::RefusedUnknown],
            "The control unit refuses: it does not know this identifier (222C41 to 7E1, code 31). Check identifier and header in the sheet.",
            "fluid refused",
        ),
        (
            "33",
            refuses(|said| said.replace("7F2231", "7F2233")),
            &[Trouble::RefusedLocked],
            "The control unit refuses: it keeps this value locked (222C41 to 7E1, code 33). Use a sheet with coolant or thermometer.",
            "fluid refused",
        ),
        (
            "22",
            refuses(|said| said.replace("7F2231", "7F2222")),
            &[Trouble::RefusedNow],
            "The control unit refuses for now: conditions are not right (222C41 to 7E1, code 22). Go on; it may answer at the step where the engine runs.",
            "fluid refused",
        ),
        (
            "requests are not understood",
            Scene { firmware: "copy-2.1-deaf", ..plain() },
            &[Trouble::NotUnderstood],
            "The adapter does not understand what the vehicle is to be asked. Use another adapter.",
            "adapter in trouble",
        ),
    ];
    for (what, scene, trouble, why, corner) in cases {
        let (events, view, late) = play(scene);
        assert_eq!(troubles(&events), trouble, "{what}: each told once");
        assert_eq!((view.surface, view.why.as_str()), (Surface::NoReading, why), "{what}");
        assert_eq!(view.link, corner, "{what}");
        assert_eq!(
            (late.why.as_str(), late.link.as_str()),
            (why, corner),
            "{what}: who comes later sees the same"
        );
    }
}

#[test]
fn a_vehicle_that_answers_is_no_trouble() {
    let (events, view, _) = play(Scene::default());
    assert_eq!(troubles(&events), []);
    assert!(view.link.starts_with("fluid, "), "{}", view.link);
}
