//! The campaign of `find`: drawn vehicles whose identifiers nobody knows, searched, and watched through one cold start.
//!
//! ```text
//!   seed, bus ─► World (six nodes) + Identifiers ─► Search, key on ─► Watch, idling ─► Finding ─► table, claims
//! ```
//!
//! In: seeds. Out: [`Finding`]s and [`Table`]. Shared by the bench (`cargo xtask campaign find`) and a test that is smaller.
//! The person: begins after a night, goes on where an odd answer stopped the search, lets it idle, measures after 15 and after 25 K, and again after each 9 K
//! more while the program asks for it, with a thermometer that is off by up to 2 K each time, no more than four times, and confirms what the program says may be confirmed.

mod table;

use core::time::Duration;

use events::Quantity;
use find::{Answer, Halt, Header, Hypothesis, Outcome, Place, Search, Service, Settles, Watch};
use rehearsal::identifiers::{Form, Identifiers, Truth, UnitReply};
use rehearsal::{Bus, Plug, Setup, World, dice::Dice};
use units::{Celsius, Kelvins, Mono, Rpm};

pub use table::Table;

/// The buses, in turn.
pub const BUSES: [&str; 3] = ["can-11-500", "can-29-500", "iso-14230-4-fast"];

/// Where the right one stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rank {
    /// First, and probable enough to be shown.
    First,
    /// Not first, but among those that are left.
    Left,
    /// Another one is first and it is not among those left.
    Wrong,
    /// Nothing is probable.
    Silent,
}

/// What one vehicle came to.
#[derive(Debug, Clone)]
pub struct Finding {
    pub seed: u64,
    pub bus: &'static str,
    pub form: Form,
    /// Whether there is anything to find.
    pub has: bool,
    /// Whether any unit takes two-byte identifiers.
    pub two_bytes: bool,
    pub coding: &'static str,
    pub readable: usize,
    pub asked: u32,
    /// How many requests it took until the right place answered.
    pub until: Option<u32>,
    pub brute: u32,
    pub search: Duration,
    /// Mean time of an exchange, to say how long brute force would take.
    pub each_ms: f64,
    pub halts: u32,
    pub after_15: Option<Rank>,
    pub measured_15: Option<Rank>,
    pub after_25: Option<Rank>,
    pub measured: Option<Rank>,
    /// Whether the one that was confirmed is right.
    pub confirmed: Option<bool>,
    /// How far the confirmed one was from the truth at worst in the warm-up, K.
    pub off_k: f64,
    pub outcome: Option<Outcome>,
    pub story: String,
    /// What led at the end, in figures.
    pub last: String,
}

impl Finding {
    /// Another sensor was confirmed, and all the time it said what the fluid had, as nearly as a sensor of the fluid may.
    pub fn is_near(&self) -> bool {
        self.confirmed == Some(false) && self.off_k <= SENSOR_K
    }

    /// Another one was confirmed, and it said something else.
    pub fn is_wrong(&self) -> bool {
        self.confirmed == Some(false) && self.off_k > SENSOR_K
    }
}

/// Where time goes on and everything is asked.
struct Bench {
    world: World,
    vehicle: Identifiers,
    bus: &'static Bus,
    now: f64,
}

impl Bench {
    /// Lets so many milliseconds pass.
    fn pass(&mut self, ms: f64) {
        self.now += ms;
        self.world.advance(Mono::from_millis(self.now as u64));
        self.vehicle.follow(&self.world);
    }

    fn now(&self) -> Mono {
        Mono::from_millis(self.now as u64)
    }

    /// One exchange, with the time that it takes on the bus and in the adapter.
    fn exchange(&mut self, place: Place) -> Answer {
        let asked = match self.bus.form {
            frames::Bus::Can11 | frames::Bus::Can29 => place.header.value(),
            _ => place.header.value() >> 8 & 0xFF,
        };
        let service = u8::from(place.service);
        let said = if place.service == Service::Current {
            UnitReply::Silence
        } else {
            self.vehicle.answer(asked, service, place.id)
        };
        let (answer, bytes) = match said {
            UnitReply::Data(bytes) => (Answer::Data(bytes.clone()), Some(bytes.len() + 3)),
            UnitReply::Refused(code) => (Answer::Refused(code), Some(3)),
            UnitReply::Late(..) | UnitReply::Silence => (Answer::Silence, None),
            UnitReply::Other(bytes) => (Answer::Unexpected, Some(bytes.len())),
        };
        let lines = bytes.map_or(0.0, |bytes| {
            let count = if self.bus.form.is_can() { rehearsal::layout::frames(bytes) } else { 1 };
            self.bus.answers_ms
                + count as f64 * self.bus.line_ms(bytes.min(if self.bus.form.is_can() { 8 } else { 255 }))
        });
        let wait = if bytes.is_none() { SILENCE_MS } else { 0.0 };
        self.pass(ADAPTER_MS + self.bus.pause_ms() + self.bus.request_ms(3) + lines + wait);
        answer
    }

    fn references(&self) -> [(Quantity, f64); 4] {
        let shown = self.world.shown();
        [
            (Quantity::CoolantTemperature, shown.coolant_celsius.round()),
            (Quantity::IntakeAirTemperature, shown.intake_celsius.round()),
            (Quantity::AmbientAirTemperature, shown.ambient_celsius.round()),
            (Quantity::EngineSpeed, shown.rpm.round()),
        ]
    }
}

/// What is broken on purpose, to see that the claims notice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Broken {
    /// Nothing.
    Nothing,
    /// The score is told a coolant that stands still: it cannot tell what follows the engine.
    CoolantStands,
}

/// Whether the person turns the key off for ten minutes between search and start, as the program advises.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Key {
    /// Off for ten minutes, then on for three.
    Off,
    /// It stays on.
    Stays,
}

/// One vehicle, from key-on to the confirmation.
pub fn run(seed: u64, key: Key, broken: Broken) -> Finding {
    let name = BUSES[(seed % 3) as usize];
    let bus = Bus::named(name).unwrap();
    let mut dice = Dice::part(seed, 0xF19D);
    let mut setup = Setup::draw(seed, &[]);
    let soaked = setup.vehicle.air_celsius + dice.within(1.0);
    setup.vehicle.engine_celsius = soaked + dice.within(0.5);
    setup.vehicle.fluid_celsius = soaked + dice.within(0.5);
    let world = World::new(&setup.sheet, setup.vehicle, None, &[], seed);
    let vehicle = Identifiers::draw(seed, bus);
    let mut bench = Bench { world, vehicle, bus, now: 0.0 };
    bench.pass(1_000.0);
    let truths = bench.vehicle.truths().to_vec();
    let mut finding = Finding {
        seed,
        bus: name,
        form: bench.vehicle.form(),
        has: !truths.is_empty(),
        two_bytes: bench.vehicle.takes_two_bytes(),
        coding: truths.first().map_or("none", |truth| truth.coding.name),
        readable: bench.vehicle.readable(),
        asked: 0,
        until: None,
        brute: bench.vehicle.brute_force(),
        search: Duration::ZERO,
        each_ms: 0.0,
        halts: 0,
        after_15: None,
        measured_15: None,
        after_25: None,
        measured: None,
        confirmed: None,
        off_k: 0.0,
        outcome: None,
        story: String::new(),
        last: String::new(),
    };
    let search = search(&mut bench, &truths, &mut finding);
    watch(&mut bench, &search, &truths, (&mut dice, key, broken), &mut finding);
    finding
}

/// A thermometer on the sump, off by up to 2 K.
fn measure(bench: &Bench, watch: &mut Watch, dice: &mut Dice) {
    let reads = bench.world.fluid_celsius() + dice.within(2.0);
    watch.spot(Celsius::clamped(reads), Kelvins::clamped(1.2), bench.now());
}

fn header(bus: &Bus, asked: u32) -> Header {
    match bus.form {
        frames::Bus::Can11 => format!("{asked:03X}").parse().unwrap(),
        frames::Bus::Can29 => format!("{asked:08X}").parse().unwrap(),
        form => Header::of_unit(form, asked as u8),
    }
}

fn place(bus: &Bus, truth: &Truth) -> Place {
    Place {
        header: header(bus, truth.asked),
        service: Service::try_from(truth.service).unwrap(),
        id: truth.id,
    }
}

fn search(bench: &mut Bench, truths: &[Truth], finding: &mut Finding) -> Search {
    let answering: Vec<Header> = bench.vehicle.answering().map(|asked| header(bench.bus, asked)).collect();
    let mut search = Search::new(bench.bus.form, &answering);
    let right: Vec<Place> = truths.iter().map(|truth| place(bench.bus, truth)).collect();
    let from = bench.now;
    for (quantity, celsius) in bench.references().into_iter().take(3) {
        search.reference(quantity, Celsius::clamped(celsius));
    }
    search.volts((bench.world.shown().volts * 1_000.0) as u32);
    search.engine(Rpm::LOWEST);
    // A weak battery gets a charger; that is not what is tried here.
    if matches!(search.halted(), Some(Halt::LowBattery { .. })) {
        search.volts(12_500);
        search.go_on();
    }
    while !search.is_done() {
        if search.halted().is_some() {
            finding.halts += 1;
            search.go_on();
            continue;
        }
        let at = search.poll_timeout().unwrap();
        bench.pass((at.as_millis() as f64 - bench.now).max(0.0));
        let Some(ask) = search.ask(bench.now()) else { continue };
        let answer = bench.exchange(ask.place);
        let readable = matches!(answer, Answer::Data(_)) || answer == Answer::Refused(0x22);
        search.hear(answer, bench.now());
        if readable && right.contains(&ask.place) && finding.until.is_none() {
            finding.until = Some(search.progress().asked);
        }
    }
    finding.asked = search.progress().asked;
    finding.search = Duration::from_millis((bench.now - from) as u64);
    finding.each_ms = (bench.now - from) / f64::from(finding.asked.max(1));
    search
}

fn watch(
    bench: &mut Bench,
    search: &Search,
    truths: &[Truth],
    (dice, key, broken): (&mut Dice, Key, Broken),
    finding: &mut Finding,
) {
    let mut watch = Watch::of(search);
    // The same without a thermometer.
    let mut bare = Watch::of(search);
    let mut worst = Vec::new();
    let start = bench.world.fluid_celsius();
    // A minute with the key on: everything that may be it is read once before the start.
    if key == Key::Off {
        bench.world.turn_key(Plug::Out);
        (0..620).for_each(|_| bench.pass(1_000.0));
        bench.world.turn_key(Plug::In);
        // The adapter looks again every ten seconds, and a start takes some.
        let noticed = bench.now + dice.between(2_000.0, 16_000.0);
        while bench.now < noticed {
            bench.pass(500.0);
        }
        watch.woke(Watch::KEY_OFF, bench.now());
        bare.woke(Watch::KEY_OFF, bench.now());
    }
    let key_on = bench.now;
    let stands = if key == Key::Off { 180_000.0 } else { 60_000.0 };
    let mut engine_from = None;
    let mut tidied = bench.now;
    let mut told = f64::MIN;
    let mut measure_at = 25.0;
    let mut readings = 0;
    loop {
        let risen = bench.world.fluid_celsius() - start;
        if engine_from.is_none() && bench.now > key_on + stands {
            bench.world.start_engine();
            engine_from = Some(bench.now);
        }
        if bench.now >= told + 2_000.0 {
            told = bench.now;
            for (quantity, value) in bench.references() {
                let stands = broken == Broken::CoolantStands && quantity == Quantity::CoolantTemperature;
                let value = if stands {
                    search.soak().celsius().unwrap_or(value) + 0.01 * (bench.now / 1_000.0)
                } else {
                    value
                };
                watch.reference(quantity, value, bench.now());
                bare.reference(quantity, value, bench.now());
            }
            bench.pass(3.0 * ADAPTER_MS);
        }
        if bench.now >= tidied + 30_000.0 {
            tidied = bench.now;
            watch.tidy();
        }
        match watch.ask() {
            Some(asked) => {
                if let Answer::Data(bytes) = bench.exchange(asked) {
                    watch.raw(asked, &bytes, bench.now());
                    bare.raw(asked, &bytes, bench.now());
                    worst.push((asked, bench.world.fluid_celsius(), bytes));
                }
                // No faster than the search.
                bench.pass(40.0);
            }
            None => bench.pass(1_000.0),
        }
        if risen >= 15.0 && finding.after_15.is_none() {
            finding.after_15 = Some(rank(bench, &bare, truths));
            measure(bench, &mut watch, dice);
            finding.measured_15 = Some(rank(bench, &watch, truths));
        }
        let late = engine_from.is_some_and(|from| bench.now > from + MOST_MS);
        if risen < measure_at && !late {
            continue;
        }
        if readings == 0 {
            finding.after_25 = (risen >= 25.0).then(|| rank(bench, &bare, truths));
            finding.story = story(bench, &bare, search, truths, start);
        }
        measure(bench, &mut watch, dice);
        readings += 1;
        if readings == 1 {
            finding.measured = Some(rank(bench, &watch, truths));
        }
        // The person does what is asked: lets it warm, measures again, but no more than four times.
        if late || readings == 3 || matches!(watch.settles(), Settles::Confirm | Settles::Nothing) {
            break;
        }
        measure_at += 9.0;
    }
    let standing = watch.standing();
    if let Some(first) = standing.first() {
        let evidence = watch.evidence(first.hypothesis).unwrap();
        let right = is_right(bench, &first.hypothesis, truths);
        let of = |(_, truth, bytes): &(Place, f64, Vec<u8>)| {
            first.hypothesis.encoding.celsius(bytes, first.hypothesis.byte).map(|c| (c - truth).abs())
        };
        let all = worst.iter().filter(|(place, ..)| *place == first.hypothesis.place);
        let off = all.filter_map(of).fold(0.0, f64::max);
        let rival = evidence.rivals.iter().max_by(|a, b| a.1.total_cmp(&b.1)).unwrap();
        finding.last = format!(
            "LAST {} {} {:?} {:.5} {right} {off:.1} {} {} {:.1} {} {} {:.2} {:.2} {:.2} {} {:.1} {:.1} {}",
            finding.seed,
            finding.form,
            finding.until.is_some(),
            first.score,
            first.spots_agree,
            readings + 1,
            first.risen.to_f64(),
            evidence.straight,
            evidence.woke,
            evidence.shifted,
            evidence.from_soak.unwrap_or(99.0),
            evidence.rest,
            rival.0,
            rival.1,
            evidence.fluid,
            one_step(first),
        );
        let h = first.hypothesis;
        let value = h.place.header.value();
        let asked = if bench.bus.form.is_can() { value } else { value >> 8 & 0xFF };
        let tells = bench.vehicle.tells(asked, h.place.service.into(), h.place.id, h.byte);
        finding.last.push_str(&format!(" {}", tells.split(' ').next().unwrap_or("")));
    }
    if let Some(first) = standing.first().filter(|_| watch.settles() == Settles::Confirm) {
        watch.confirm(Some(first.hypothesis));
        if watch.outcome() == Outcome::Confirmed(first.hypothesis) {
            finding.confirmed = Some(is_right(bench, &first.hypothesis, truths));
            let of = |(_, truth, bytes): &(Place, f64, Vec<u8>)| {
                first.hypothesis.encoding.celsius(bytes, first.hypothesis.byte).map(|c| (c - truth).abs())
            };
            let all = worst.iter().filter(|(place, ..)| *place == first.hypothesis.place);
            finding.off_k = all.filter_map(of).fold(0.0, f64::max);
        }
    }
    finding.outcome = Some(watch.outcome());
    finding.story.push_str(&story(bench, &watch, search, truths, start));
}

fn story(bench: &Bench, watch: &Watch, search: &Search, truths: &[Truth], start: f64) -> String {
    use std::fmt::Write as _;
    let mut text = String::new();
    for one in watch.standing().iter().take(4) {
        let h = one.hypothesis;
        let value = h.place.header.value();
        let asked = if bench.bus.form.is_can() { value } else { value >> 8 & 0xFF };
        let tells = bench.vehicle.tells(asked, h.place.service.into(), h.place.id, h.byte);
        let _ = writeln!(
            text,
            "    {:.3} {} byte {} {} {} risen {} spots {} or {}: {tells}",
            one.score, h.place, h.byte, h.encoding, one.celsius, one.risen, one.spots_agree, one.or_else
        );
        if let Some(evidence) = watch.evidence(h) {
            let rivals: String =
                evidence.rivals.iter().map(|(kind, log)| format!(" {kind} {log:.1}")).collect();
            let (soak, rest, coolant) =
                (evidence.from_soak.unwrap_or(99.0), evidence.rest, evidence.from_coolant);
            let _ = writeln!(
                text,
                "          {:.1};{rivals}; soak {soak:.1} rest {rest:.2} coolant {coolant:.1}",
                evidence.fluid
            );
        }
    }
    for truth in truths {
        let found = find::Encoding::ALL.iter().find(|encoding| encoding.row().reference == truth.coding.name);
        let h = Hypothesis { place: place(bench.bus, truth), byte: truth.byte, encoding: *found.unwrap() };
        if let Some(evidence) = watch.evidence(h) {
            let _ = writeln!(text, "    TRUE {evidence:?}");
        }
    }
    let _ = writeln!(
        text,
        "    soak {:?}, fluid {:.1} from {start:.1}, coolant {:.1}, {:?}, truth {}",
        search.soak().celsius(),
        bench.world.fluid_celsius(),
        bench.world.coolant_celsius(),
        watch.settles(),
        truths
            .iter()
            .map(|t| format!(
                "{:X} {:X} {:04X} byte {} {}; ",
                t.asked, t.service, t.id, t.byte, t.coding.name
            ))
            .collect::<String>()
    );
    text
}

fn rank(bench: &mut Bench, watch: &Watch, truths: &[Truth]) -> Rank {
    let standing = watch.standing();
    let shown: Vec<Hypothesis> =
        standing.iter().filter(|one| one.score >= 0.05).map(|one| one.hypothesis).collect();
    match shown.iter().position(|one| is_right(bench, one, truths)) {
        Some(0) => Rank::First,
        Some(_) => Rank::Left,
        None if shown.is_empty() => Rank::Silent,
        None => Rank::Wrong,
    }
}

/// Whether it is a sensor in the fluid, and reads the same from 5 to 120 °C.
fn is_right(bench: &mut Bench, one: &Hypothesis, truths: &[Truth]) -> bool {
    truths.iter().any(|truth| {
        if place(bench.bus, truth) != one.place {
            return false;
        }
        let now = loop {
            match bench.vehicle.answer(truth.asked, truth.service, truth.id) {
                UnitReply::Data(bytes) => break bytes,
                UnitReply::Refused(_) | UnitReply::Silence => return false,
                UnitReply::Late(..) | UnitReply::Other(_) => {}
            }
        };
        let reads_the_same = |celsius: f64| {
            let mut bytes = now.clone();
            let field = truth.coding.bytes_of(celsius);
            let at = usize::from(truth.byte);
            bytes[at..at + field.len()].copy_from_slice(&field);
            let said = truth.coding.read(&field).unwrap();
            one.encoding.celsius(&bytes, one.byte).is_some_and(|read| (read - said).abs() <= 1.05)
        };
        [5.0, 20.0, 35.0, 50.0, 65.0, 80.0].into_iter().all(reads_the_same)
    })
}

fn one_step(one: &find::Standing) -> f64 {
    one.hypothesis.encoding.row().scale.abs()
}

/// A production sensor of the fluid keeps within ±1 to ±3 °C (thermal_parameters.csv, row "sensor_limits").
const SENSOR_K: f64 = 3.0;
/// Serial line and adapter for one exchange: 38,400 baud, a latency of 16 ms; the rows of poll_rate.csv are between 20 and 50 ms.
const ADAPTER_MS: f64 = 25.0;
/// What an adapter waits for where nothing comes: 32 hex of 4.096 ms.
const SILENCE_MS: f64 = 204.8;
/// No longer than this.
const MOST_MS: f64 = 60.0 * 60_000.0;
