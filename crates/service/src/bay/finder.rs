//! The search for the fluid's identifier, beside whatever else the bay does.
//!
//! ```text
//!   connected ─► Search ─ asked all ─► Watch ─ a person's word, and a thermometer that agrees ─► found
//!                  │ ▲                   │ ▲
//!             wish ▼ │ hear         wish ▼ │ hear, readings, thermometer
//!                 the driver's one request beside its schedule
//! ```
//!
//! In: what the driver has to say of the requests that were asked for it, readings, what is told, the time. Out: the next request, events,
//! and what is to be kept for the next start. Pure. Not here: what may be it and how probable that is (`find`), the driver (`adapter`),
//! what follows for the sheet in use (`bay.rs`).

use std::collections::BTreeSet;
use std::time::Duration;

use adapter::{Doubt, Header, Outcome, Silence};
use events::{
    Body, Candidate, FindNext, FindStage, FindView, FoundIdentifier, Measure, Quantity, Reading, Refusal,
    Surface,
};
use find::{Answer, Depth, Halt, Place, Search, Service, Settles, Standing, Watch};
use frames::{Ask, Bus, Ecu};
use serde::{Deserialize, Serialize};
use units::{Celsius, Mono};

use super::Moment;

/// What is kept for the next start: an answer that came is not asked for again.
#[derive(Debug, Default, Serialize, Deserialize)]
struct Kept {
    /// When it was written, ms since 1970.
    at: i64,
    /// Whose it is, where the vehicle told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    vin: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    search: Option<Search>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    watch: Option<Watch>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    found: Option<FoundIdentifier>,
}

/// See the module's words.
#[derive(Debug)]
pub struct Finder {
    kept: Kept,
    /// What a table names, to be asked first.
    imported: Vec<Place>,
    bus: Option<Bus>,
    /// What the driver was asked, for whom, and since when.
    awaited: Option<Awaited>,
    /// How often in a row nothing could be asked for this place.
    in_vain: Option<(Place, u8)>,
    /// The next place is not watched before.
    not_before: Mono,
    turns: Turns,
    running: bool,
    air: Option<Celsius>,
    /// Since when no control unit answers although the adapter is there.
    silent: Option<Mono>,
    /// The last reading of a thermometer, and what led then.
    spot: Option<(Celsius, Option<Standing>)>,
    standing: Vec<Standing>,
    shown: Shown,
}

#[derive(Debug, Clone, Copy)]
struct Awaited {
    place: Place,
    ask: Ask,
    header: Header,
}

/// When the slow things are done next.
#[derive(Debug)]
struct Turns {
    weigh: Mono,
    keep: Mono,
    /// Something happened since it was kept.
    news: bool,
}

#[derive(Debug, Default)]
struct Shown {
    view: Option<FindView>,
    at: Option<Mono>,
    candidates: Vec<Candidate>,
}

/// What the driver said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Mine {
    /// It answers a request of the search; nobody else is concerned.
    Yes,
    No,
}

/// Each place is watched so often at most, and all of them together as often as the line may be asked.
/// Own choice: a fluid at 1.5 K/min moves a whole degree in 40 s, so twenty readings show each; more would starve the
/// signals that are known.
const WATCH_EACH: Duration = Duration::from_millis(2_000);
const WATCH_PAUSE: Duration = Duration::from_millis(100);
/// All hypotheses are weighed so often: it costs tens of milliseconds.
/// Own choice: it costs tens of milliseconds; evidence grows over minutes, so that nothing is decided later for it.
const WEIGH_EVERY: Duration = Duration::from_secs(10);
/// How the asking goes is looked at so often.
/// Own choice: a person watches it; it costs next to nothing while nothing is weighed.
const LOOK_EVERY: Duration = Duration::from_millis(1_000);
/// How it stands is said so often, and at once when its stage or what to do next becomes another.
/// Own choice: as the forecast; oftener only fills the journal over an hour.
const SHOW_EVERY: Duration = Duration::from_secs(5);
/// It is kept so often.
/// Own choice: as each weighing; that much is asked anew after a loss of power, and an SD card is written six times a
/// minute.
const KEEP_EVERY: Duration = Duration::from_secs(10);
/// So often nothing can be asked for one place, and the next has its turn.
/// Own choice: one or two are lost replies; each costs some 0.2 s of thousands of places.
const IN_VAIN: u8 = 3;
/// A battery that was low is not any more.
/// Source: common practice, no source.
const CHARGED_MV: i32 = 12_200;
/// The request is out of range.
/// Source: ISO 14229-1, refusal 31, from memory.
const OUT_OF_RANGE: u8 = 0x31;
/// So many candidates are shown, from one score on, and above another one again. Own choice: what is not left (5 %) need not be read; what was once shown
/// does not come and go.
/// Own choice: more than five rows nobody compares; one in a hundred is no help to anybody.
const SHOWN: usize = 5;
const SHOWN_FROM: f64 = 0.05;
const SHOWN_ABOVE: f64 = 0.01;

impl Default for Finder {
    fn default() -> Self {
        Self {
            kept: Kept::default(),
            imported: Vec::new(),
            bus: None,
            awaited: None,
            in_vain: None,
            not_before: Mono::ZERO,
            turns: Turns { weigh: Mono::ZERO, keep: Mono::ZERO, news: false },
            running: false,
            air: None,
            silent: None,
            spot: None,
            standing: Vec::new(),
            shown: Shown::default(),
        }
    }
}

impl Finder {
    /// From the beginning, with places that a table names.
    pub fn new(imported: Vec<Place>) -> Self {
        Self { imported, ..Self::default() }
    }

    /// From what an earlier one kept; `None` where that cannot be read.
    pub fn resume(kept: &str, imported: &[Place], now: Moment) -> Option<Self> {
        let mut kept: Kept = serde_json::from_str(kept).ok()?;
        let away = u64::try_from(now.utc.as_millis().saturating_sub(kept.at)).unwrap_or(0);
        if let Some(search) = &mut kept.search {
            search.resumed();
            search.go_on();
            search.import(imported);
        }
        if let Some(watch) = &mut kept.watch {
            watch.resumed(Duration::from_millis(away), now.mono);
        }
        Some(Self { kept, imported: imported.to_vec(), ..Self::default() })
    }

    /// What is to be kept for the next start, where it is time for it.
    pub fn poll_keep(&mut self, now: Moment) -> Option<String> {
        if !self.turns.news || now.mono < self.turns.keep {
            return None;
        }
        self.keep(now)
    }

    /// What is to be kept, at an end.
    pub fn keep(&mut self, now: Moment) -> Option<String> {
        self.turns.keep = now.mono.after(KEEP_EVERY);
        self.turns.news = false;
        self.kept.at = now.utc.as_millis();
        serde_json::to_string(&self.kept).ok()
    }

    /// What was found and confirmed.
    pub const fn found(&self) -> Option<&FoundIdentifier> {
        self.kept.found.as_ref()
    }

    /// The vehicle answers, on this bus, with these units.
    pub(super) fn connected(&mut self, bus: Option<Bus>, units: &[Ecu], now: Mono) {
        self.bus = bus;
        self.awaited = None;
        if let (Some(since), Some(watch)) = (self.silent.take(), &mut self.kept.watch) {
            watch.woke(now.since(since), now);
            (self.turns.weigh, self.turns.news) = (now, true);
        }
        if self.kept.search.is_some() {
            return;
        }
        let Some(bus) = bus else { return };
        let headers: Vec<find::Header> = units.iter().filter_map(|ecu| asked_at(bus, *ecu)).collect();
        let mut search = Search::new(bus, &headers);
        search.import(&self.imported);
        self.kept.search = Some(search);
        self.turns.news = true;
    }

    /// The adapter is there and nothing in the vehicle answers: the key is off.
    pub(super) fn silent(&mut self, now: Mono) {
        self.silent.get_or_insert(now);
        if let Some(watch) = &mut self.kept.watch {
            watch.silent();
        }
    }

    /// Nobody knows what the key does meanwhile.
    pub(super) const fn link_lost(&mut self) {
        self.silent = None;
    }

    /// The vehicle told who it is: what was found of another one is nothing here.
    pub(super) fn vehicle(&mut self, vin: &str) {
        let other = self.kept.vin.as_deref().is_some_and(|known| known != vin);
        if other {
            self.kept = Kept::default();
            (self.standing, self.spot, self.awaited) = (Vec::new(), None, None);
        }
        self.kept.vin = Some(vin.to_owned());
        self.turns.news = true;
    }

    /// A reading of the vehicle, or of a thermometer.
    pub(super) fn reading(&mut self, reading: &Reading, now: Mono) {
        match reading.measure {
            Measure::AdapterVoltage(volts) => self.volts(volts.to_f64() * 1_000.0),
            Measure::ModuleVoltage(volts) => self.volts(volts.to_f64() * 1_000.0),
            Measure::Spot(celsius, surface) => self.thermometer(celsius, surface, now),
            Measure::EngineSpeed(speed) => self.engine(speed, now),
            measure => {
                if let Measure::AmbientAir(celsius) = measure {
                    self.air = Some(celsius);
                }
                let (value, _) = measure.plain();
                if let (Some(search), Some(celsius)) = (&mut self.kept.search, measure.celsius()) {
                    search.reference(measure.quantity(), celsius);
                }
                if let Some(watch) = &mut self.kept.watch {
                    watch.reference(measure.quantity(), value, now);
                }
            }
        }
    }

    fn volts(&mut self, millivolts: f64) {
        let millivolts = millivolts.round() as i32;
        let Some(search) = &mut self.kept.search else { return };
        search.volts(u32::try_from(millivolts).unwrap_or(0));
        if matches!(search.halted(), Some(Halt::LowBattery { .. })) && millivolts >= CHARGED_MV {
            search.go_on();
        }
    }

    fn engine(&mut self, speed: units::Rpm, now: Mono) {
        self.running = speed > units::Rpm::LOWEST;
        if let Some(search) = &mut self.kept.search {
            let before = search.halted();
            search.engine(speed);
            if search.halted() != before {
                self.turns.weigh = now;
            }
            if search.halted() == Some(Halt::EngineRuns) && !self.running {
                search.go_on();
            }
        }
        if let Some(watch) = &mut self.kept.watch {
            watch.reference(Quantity::EngineSpeed, speed.to_f64(), now);
        }
    }

    fn thermometer(&mut self, celsius: Celsius, surface: Surface, now: Mono) {
        let Some((fluid, u)) = gate::by_thermometer(celsius, surface, self.air) else { return };
        let Some(watch) = &mut self.kept.watch else { return };
        watch.spot(fluid, u, now);
        self.standing = watch.standing();
        self.spot = Some((fluid, self.standing.first().copied()));
        (self.turns.weigh, self.turns.news) = (now, true);
    }

    /// The next request, if there is one and its time has come.
    pub(super) fn wish(&mut self, now: Mono) -> Option<(Ask, Header)> {
        if self.awaited.is_some() || self.kept.found.is_some() || self.bus.is_none() {
            return None;
        }
        let search = self.kept.search.as_mut()?;
        let place = match &mut self.kept.watch {
            None => search.ask(now)?.place,
            Some(_) if now < self.not_before => return None,
            Some(watch) => watch.ask()?,
        };
        let header = Header::parse(&place.header.to_string()).ok();
        let (Some(ask), Some(header)) = (place.ask(), header) else {
            // It cannot be asked here.
            self.heard(place, Answer::Refused(OUT_OF_RANGE), now);
            return None;
        };
        self.awaited = Some(Awaited { place, ask, header });
        Some((ask, header))
    }

    /// The driver did not take the request after all.
    pub(super) const fn not_taken(&mut self) {
        self.awaited = None;
    }

    /// Something that the driver has to say; whether it was for us alone.
    pub(super) fn hear(&mut self, outcome: &Outcome, now: Mono) -> Mine {
        let Some(Awaited { place, ask, header }) = self.awaited else { return Mine::No };
        let answer = match outcome {
            Outcome::Answer { ask: a, header: Some(h), messages, .. } if (*a, *h) == (ask, header) => {
                let echoed = if place.service == Service::Identifier { 3 } else { 2 };
                match messages.first().and_then(|message| message.data.get(echoed..)) {
                    Some(bytes) => Answer::Data(bytes.to_vec()),
                    None => Answer::NotAsked,
                }
            }
            Outcome::Declined { ask: a, header: Some(h), code } if (*a, *h) == (ask, header) => {
                Answer::Refused(code.code)
            }
            Outcome::NoAnswer { ask: a, header: Some(h), why } if (*a, *h) == (ask, header) => match why {
                Silence::NoData | Silence::Pending | Silence::NotUnderstood => Answer::Silence,
                _ => Answer::NotAsked,
            },
            Outcome::Suspect { ask: a, header: Some(h), why } if (*a, *h) == (ask, header) => match why {
                Doubt::WrongSender { .. } | Doubt::OtherRequest => Answer::Unexpected,
                Doubt::NotAddressable(_) | Doubt::NoSender => Answer::Refused(OUT_OF_RANGE),
                Doubt::Malformed(_) | Doubt::TooLong | Doubt::Unsteady | Doubt::AfterReset => {
                    Answer::NotAsked
                }
            },
            // The link ends each time it is asked: it is left alone.
            Outcome::Avoided { command, header: Some(h) } if command.ask() == Some(ask) && *h == header => {
                Answer::Refused(OUT_OF_RANGE)
            }
            Outcome::Reset { .. } | Outcome::Lost { .. } | Outcome::VehicleSilent { .. } => {
                // It is asked again by itself once the vehicle answers; what comes then is taken.
                return Mine::No;
            }
            _ => return Mine::No,
        };
        self.awaited = None;
        self.heard(place, answer, now);
        Mine::Yes
    }

    fn heard(&mut self, place: Place, answer: Answer, now: Mono) {
        let answer = self.patient(place, answer);
        self.turns.news = true;
        match (&mut self.kept.watch, &mut self.kept.search) {
            (Some(watch), _) => {
                if let Answer::Data(bytes) = &answer {
                    watch.raw(place, bytes, now);
                }
                let count = self.kept.search.as_ref().map_or(1, |s| s.places().len()).max(1);
                let pause = (WATCH_EACH / u32::try_from(count).unwrap_or(u32::MAX)).max(WATCH_PAUSE);
                self.not_before = now.after(pause);
            }
            (None, Some(search)) => search.hear(answer, now),
            (None, None) => {}
        }
    }

    /// What could not be asked again and again is left out, so that it does not hold up the others.
    fn patient(&mut self, place: Place, answer: Answer) -> Answer {
        if answer != Answer::NotAsked {
            self.in_vain = None;
            return answer;
        }
        let times = self.in_vain.filter(|(before, _)| *before == place).map_or(0, |(_, times)| times) + 1;
        self.in_vain = Some((place, times));
        if times < IN_VAIN { answer } else { Answer::Silence }
    }

    /// A person says that this is the one.
    ///
    /// # Errors
    /// Where it does not lead, is not the only one left, or no thermometer agrees with it.
    pub(super) fn confirm(
        &mut self,
        (service, id, header): (u8, u16, &str),
        takes_over: bool,
        now: Mono,
    ) -> Result<FoundIdentifier, Refusal> {
        if self.kept.found.is_some() {
            return Err(Refusal::AlreadyDone);
        }
        let watch = self.kept.watch.as_mut().ok_or(Refusal::NotSearching)?;
        let standing = watch.standing();
        let leads = standing.first().filter(|first| {
            let place = first.hypothesis.place;
            (u8::from(place.service), place.id, place.header.to_string().as_str()) == (service, id, header)
        });
        let leads = *leads.ok_or(Refusal::NoSuchCandidate)?;
        watch.confirm(Some(leads.hypothesis));
        let find::Outcome::Confirmed(hypothesis) = watch.outcome() else {
            watch.confirm(None);
            let spots = leads.spots_agree > 0;
            return Err(if spots { Refusal::NotSettled } else { Refusal::NotAgreed });
        };
        let (spot, then) = self.spot.ok_or(Refusal::NotAgreed)?;
        let then = then.filter(|then| then.hypothesis == hypothesis).unwrap_or(leads);
        let identifier = hypothesis
            .encoding
            .identifier(hypothesis.place, hypothesis.byte, 0)
            .ok_or(Refusal::NoSuchCandidate)?;
        let found = FoundIdentifier {
            identifier,
            encoding: hypothesis.encoding.word().to_owned(),
            score: leads.score,
            span_kelvins: leads.risen,
            spot_celsius: spot,
            shown_celsius: then.celsius,
            takes_over,
        };
        self.kept.found = Some(found.clone());
        (self.turns.weigh, self.turns.news) = (now, true);
        Ok(found)
    }

    /// When it has something to do although nothing comes.
    pub(super) fn due(&self) -> Option<Mono> {
        if self.kept.found.is_some() {
            return None;
        }
        let asks = match (&self.kept.watch, &self.kept.search) {
            _ if self.awaited.is_some() || self.bus.is_none() => None,
            (Some(_), _) => Some(self.not_before),
            (None, Some(search)) => search.poll_timeout(),
            (None, None) => None,
        };
        let weighs = Some(self.turns.weigh);
        let keeps = self.turns.news.then_some(self.turns.keep);
        [asks, weighs, keeps].into_iter().flatten().min()
    }

    /// What is news of it; looked at now and then, since it costs something.
    pub(super) fn poll(&mut self, now: Mono) -> Vec<Body> {
        if now < self.turns.weigh
            || self.shown.view.as_ref().is_some_and(|view| view.stage == FindStage::Found)
        {
            return Vec::new();
        }
        self.go_on();
        if let Some(watch) = self.kept.watch.as_mut().filter(|_| self.kept.found.is_none()) {
            watch.tidy();
            self.standing = watch.standing();
        }
        self.turns.weigh = now.after(if self.kept.watch.is_some() { WEIGH_EVERY } else { LOOK_EVERY });
        let view = self.view();
        let same = |before: &FindView| {
            (before.stage, before.next, before.left) == (view.stage, view.next, view.left)
        };
        let news = !self.shown.view.as_ref().is_some_and(same);
        let due = self.shown.at.is_none_or(|at| now >= at.after(SHOW_EVERY));
        if !news && (!due || self.shown.view.as_ref() == Some(&view)) {
            return Vec::new();
        }
        (self.shown.at, self.shown.view) = (Some(now), Some(view.clone()));
        let none_left = view.left == 0;
        let candidates = self.candidates(view.next);
        let told = candidates.iter().filter(|candidate| !self.shown.candidates.contains(candidate)).cloned();
        let among = |one: &Candidate| candidates.iter().any(|other| other.place() == one.place());
        let gone = self.shown.candidates.iter().filter(|before| !none_left && !among(before));
        let gone = gone.map(|before| Candidate { score: 0.0, ..before.clone() });
        let bodies = [Body::Find(view)].into_iter().chain(told.chain(gone).map(Body::Candidate)).collect();
        self.shown.candidates = if none_left { Vec::new() } else { candidates };
        bodies
    }

    /// From asking to watching.
    fn go_on(&mut self) {
        let Some(search) = &mut self.kept.search else { return };
        if self.kept.watch.is_some() || !search.is_done() || search.halted().is_some() {
            return;
        }
        let places = search.places();
        if places.is_empty() {
            search.deeper(Depth::Fine);
            if !search.is_done() {
                return;
            }
        }
        self.kept.watch = Some(Watch::of(search));
        self.turns.news = true;
    }

    /// How it stands.
    fn view(&self) -> FindView {
        let mut view = FindView {
            stage: FindStage::Search,
            next: FindNext::KeyOn,
            left: 0,
            asked: 0,
            planned: 0,
            answered: 0,
            left_seconds: None,
            why: None,
        };
        let Some(search) = &self.kept.search else { return view };
        let progress = search.progress();
        (view.asked, view.answered, view.left) = (progress.asked, progress.readable, progress.near);
        if let Some(watch) = &self.kept.watch {
            if self.kept.found.is_some() {
                (view.stage, view.next, view.left) = (FindStage::Found, FindNext::Nothing, 1);
                return view;
            }
            view.left = u32::try_from(watch.left()).unwrap_or(u32::MAX);
            // While it warms further another one may come forward.
            (view.stage, view.next) = match (watch.outcome(), next_of(watch.settles())) {
                (find::Outcome::NotFound, FindNext::ByThermometer) => {
                    (FindStage::NotFound, FindNext::ByThermometer)
                }
                (_, next) => (FindStage::Watch, next),
            };
            return view;
        }
        if self.bus.is_none() {
            return view;
        }
        (view.next, view.planned) = (FindNext::Wait, progress.left);
        // Before every unit was asked for its services nobody knows how much there is to do.
        view.left_seconds = search.is_planned().then(|| progress.time_left.as_secs_f64().round());
        if let Some(halt) = search.halted() {
            view.stage = FindStage::Stopped;
            let (next, why) = match halt {
                Halt::LowBattery { millivolts } => {
                    (FindNext::ChargeBattery, format!("{:.1} V", f64::from(millivolts) / 1_000.0))
                }
                Halt::EngineRuns => (FindNext::StopEngine, "the engine runs".to_owned()),
                Halt::Unexpected { place } => {
                    (FindNext::LookAtLink, format!("{place} was answered by something else"))
                }
            };
            (view.next, view.why) = (next, Some(why));
        }
        view
    }

    /// The likeliest reading of each place, once it has warmed enough to say anything. What is shown stays until it is much less likely than what is not.
    fn candidates(&self, settles: FindNext) -> Vec<Candidate> {
        if self.kept.watch.as_ref().is_none_or(|watch| watch.outcome() == find::Outcome::NotYet) {
            return Vec::new();
        }
        let mut places = BTreeSet::new();
        let was_shown = |place: Place| {
            let place = (place.header.to_string(), u8::from(place.service), place.id);
            self.shown
                .candidates
                .iter()
                .any(|c| (c.header.as_str(), c.service, c.id) == (&place.0, place.1, place.2))
        };
        let shown = self.standing.iter().filter(|standing| {
            let place = standing.hypothesis.place;
            let least = if was_shown(place) { SHOWN_ABOVE } else { SHOWN_FROM };
            standing.score >= least && places.insert(place)
        });
        let shown = shown.take(SHOWN);
        let candidate = |standing: &Standing| {
            let place = standing.hypothesis.place;
            Candidate {
                service: place.service.into(),
                id: place.id,
                header: place.header.to_string(),
                byte: standing.hypothesis.byte,
                encoding: standing.hypothesis.encoding.word().to_owned(),
                score: (standing.score * 1_000.0).round() / 1_000.0,
                celsius: Some(standing.celsius),
                settles: Some(settles),
            }
        };
        shown.map(candidate).collect()
    }
}

/// The words for people, of what would settle most.
const fn next_of(settles: Settles) -> FindNext {
    match settles {
        Settles::ColdSoak => FindNext::ColdSoak,
        Settles::KeyOff => FindNext::KeyOff,
        Settles::Wait => FindNext::Wait,
        Settles::Start => FindNext::StartEngine,
        Settles::Warm => FindNext::Warm,
        Settles::Spot => FindNext::Spot,
        Settles::Confirm => FindNext::Confirm,
        Settles::Nothing => FindNext::ByThermometer,
    }
}

/// Where the unit that answers from `ecu` is asked.
fn asked_at(bus: Bus, ecu: Ecu) -> Option<find::Header> {
    let id = ecu.id();
    let text = match bus {
        Bus::Can11 => format!("{:03X}", id.checked_sub(8)?),
        Bus::Can29 => format!("18DA{:02X}F1", id & 0xFF),
        _ => return Some(find::Header::of_unit(bus, (id & 0xFF) as u8)),
    };
    text.parse().ok()
}
