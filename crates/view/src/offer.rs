//! What can be told now, biggest first.
//!
//! In: the advice, what is open, the port, who looks. Out: [`Offer`]s. They are help, not rules: the daemon accepts or
//! refuses, and what *happened* at the port can always be told. At most one offer is primary.
//! Holding confirms where a slip could not be taken back.

use events::{
    Advice, Balance, EngineWord, FluidLook, Lamp, LampState, Leak, LeakPlace, Precondition, Question, Right,
    Signal, Step, Surface, Symptom, Verdict,
};
use serde::Serialize;
use units::Listed;
use words::{Speech, args};

use crate::find::Finding;
use crate::rounds::Rounds;
use crate::seat::Seat;

mod always;

use always::{always, danger};

/// What must be given with it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Ask {
    /// Nothing.
    Nothing,
    /// An amount and how warm it was.
    Amount,
    /// Pitch and roll.
    Level,
    /// Millimetres.
    Depth,
    /// A temperature and a surface, one of these: word and sentence.
    Spot(Vec<(&'static str, &'static str)>),
    /// A temperature.
    Temperature,
    /// A text.
    Text,
    /// One of these: what is said, and what it is called.
    Choice(Vec<(String, String)>),
}

/// One thing that can be told.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Offer {
    /// The word of the request.
    pub tell: &'static str,
    /// The precondition, for `confirm`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub what: Option<Precondition>,
    /// What is said with it, where that is known before: the position, for `shifted`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub text: Option<String>,
    /// What the button says.
    pub label: String,
    /// What must be given with it.
    pub ask: Ask,
    /// Whether it is confirmed by holding.
    pub hold: bool,
    /// The one that the thumb is meant to find.
    pub primary: bool,
    /// Seldom needed: behind the others.
    pub aside: bool,
}

impl Offer {
    /// What it says by itself, before anything is given with it.
    pub fn said(&self) -> crate::TypedRequest {
        let what = self.what.map(|what| what.word().to_owned());
        crate::TypedRequest { what, text: self.text.clone(), ..crate::TypedRequest::word(self.tell) }
    }
}

/// What offers rest on.
pub(crate) struct Ground<'a> {
    pub(crate) seat: Seat,
    pub(crate) speech: Speech,
    pub(crate) advice: Advice,
    pub(crate) right: Option<Right>,
    pub(crate) verdict: Verdict,
    pub(crate) open: &'a [Precondition],
    pub(crate) running: bool,
    pub(crate) port_open: bool,
    pub(crate) step: Option<Step>,
    pub(crate) balance: Option<Balance>,
    pub(crate) signal: Option<Signal>,
    /// How the vehicle's own lamp shows its states, where the sheet goes by it.
    pub(crate) lamp: Option<&'a Lamp>,
    /// There is no adapter: people tell what the engine does.
    pub(crate) people: bool,
    pub(crate) shows_air: bool,
    pub(crate) sheets: &'a [String],
    pub(crate) rounds: Option<&'a Rounds>,
    /// What is asked beside the advice.
    pub(crate) asks: Option<Question>,
    /// The air outside is asked for: there is a band for hot places.
    pub(crate) asks_air: bool,
    /// The search for the fluid's identifier, where there is one.
    pub(crate) finding: Option<Finding<'a>>,
    /// A sheet says what is set.
    pub(crate) has_sheet: bool,
}

impl Ground<'_> {
    /// An offer with nothing to give; `message` is what its button says.
    fn plain(&self, tell: &'static str, message: &'static str) -> Offer {
        self.labelled(tell, self.speech.text(message).to_owned())
    }

    fn labelled(&self, tell: &'static str, label: String) -> Offer {
        Offer {
            tell,
            what: None,
            text: None,
            label,
            ask: Ask::Nothing,
            hold: false,
            primary: false,
            aside: false,
        }
    }

    fn held(&self, tell: &'static str, message: &'static str) -> Offer {
        Offer { hold: true, ..self.plain(tell, message) }
    }

    fn amount(&self, tell: &'static str, message: &'static str) -> Offer {
        Offer { ask: Ask::Amount, ..self.plain(tell, message) }
    }

    fn drips(&self) -> bool {
        matches!(self.right, Some(Right::Drips | Right::FirstDrips))
    }

    fn reads_a_gauge(&self) -> bool {
        self.right == Some(Right::Chart)
    }

    fn stands_at_an_edge(&self) -> bool {
        matches!(self.right, Some(Right::LowerEdge | Right::BelowEdge))
    }
}

/// Whether nothing is open that must hold before the selector is moved on new fluid.
pub(crate) fn may_shift(open: &[Precondition]) -> bool {
    let before = [Precondition::Filled, Precondition::EngineRunning, Precondition::BrakeHeld];
    !open.iter().any(|p| before.contains(p))
}

pub(crate) fn offers(ground: &Ground<'_>) -> Vec<Offer> {
    let mut offers = if ground.running { running(ground) } else { idle(ground) };
    if let Some(finding) = ground.finding {
        offers.extend(finding.confirmable().map(|leads| Offer {
            text: Some(leads.place()),
            hold: true,
            ..ground.labelled(
                "candidate",
                ground.speech.with("offer-it-is-the-fluids", &args!(place = leads.place())),
            )
        }));
        if finding.wants_a_thermometer() && offers.iter().all(|known| known.tell != "spot") {
            offers.push(spot(ground));
        }
    }
    if ground.seat == Seat::Inside {
        // Inside, only the helper's own things are in front; rounds that are told one by one need no word for the
        // whole.
        let counted = offers.iter().any(|o| o.tell == "shifted");
        for offer in &mut offers {
            let whole = counted && offer.what == Some(Precondition::SelectorCycled);
            offer.aside |= whole || !is_inside(offer);
        }
        offers.sort_by_key(|o| o.aside);
    }
    if let Some(first) = offers.iter_mut().find(|o| !o.aside) {
        first.primary = true;
    }
    if ground.running {
        offers.extend(always(ground));
    }
    // Of what stands aside nothing may stand before it, and no screen is too short for it.
    offers.sort_by_key(|o| (o.aside, o.tell != "alarm"));
    offers
}

fn is_inside(offer: &Offer) -> bool {
    matches!(offer.tell, "shifted" | "no-drive" | "engine" | "display" | "lamp" | "symptom")
        || offer.what.is_some_and(Precondition::is_told_inside)
}

fn idle(ground: &Ground<'_>) -> Vec<Offer> {
    // Nothing is set without a sheet: then the search alone goes on.
    if ground.finding.is_some() && !ground.has_sheet {
        return vec![danger(ground)];
    }
    let mut offers = vec![ground.plain("start", "offer-start-the-job")];
    let other = [("check", "choice-check"), ("alone", "choice-alone"), ("check alone", "choice-check-alone")];
    let other = other.map(|(word, name)| (word.to_owned(), ground.speech.text(name).to_owned())).to_vec();
    offers.push(Offer {
        ask: Ask::Choice(other),
        aside: true,
        ..ground.plain("start", "offer-another-kind-of-job")
    });
    if ground.sheets.len() > 1 {
        offers.push(Offer {
            ask: Ask::Choice(ground.sheets.iter().map(|name| (name.clone(), name.clone())).collect()),
            ..ground.plain("sheet", "offer-choose-another-sheet")
        });
    }
    offers.extend(ground.asks_air.then(|| air(ground)));
    let number = "offer-recheck-of-number";
    offers.push(danger(ground));
    offers.push(Offer { ask: Ask::Text, aside: true, ..ground.plain("recheck", number) });
    offers
}

fn air(ground: &Ground<'_>) -> Offer {
    Offer { ask: Ask::Temperature, ..ground.plain("air", "offer-hot-day-the-air-outside-in-the-shade") }
}

fn running(ground: &Ground<'_>) -> Vec<Offer> {
    let mut offers: Vec<Offer> = engine_due(ground).into_iter().map(|what| engine(ground, what)).collect();
    if let Some(what) = ground.advice.awaits() {
        offers.extend(shifted(ground));
        offers.push(confirm(ground, what));
    }
    match ground.advice {
        Advice::PrepareVehicle
        | Advice::ShimStands
        | Advice::ConfirmOpen
        | Advice::StartEngine
        | Advice::HoldBrake => {
            let own = ground.advice.awaits();
            offers.extend(confirmable(ground).into_iter().filter(|o| o.what.is_none() || o.what != own));
        }
        Advice::CycleSelector => offers.push(ground.held("no-drive", "offer-no-drive-is-felt-in-gear")),
        Advice::ReadContainer => offers.push(ground.held("fluid-wrong", "offer-it-differs-not-this-fluid")),
        Advice::LookForLeaks | Advice::LookForDrops | Advice::MendLeak => offers.push(leak(ground)),
        Advice::Drain => offers.push(ground.amount("drained", "offer-drained-how-much")),
        Advice::Fill | Advice::FillFirst | Advice::FillToEdge | Advice::AddAmount | Advice::FillHere => {
            offers.push(ground.amount("filled", "offer-filled-how-much"))
        }
        Advice::WasPipeOut => {
            offers.push(ground.amount("drained", "offer-it-was-in-and-more-came-out-how-much"))
        }
        Advice::ReadJug => offers.push(ground.amount("ran-out", "offer-ran-out-how-much")),
        Advice::DrainAgain | Advice::DrainWrong | Advice::LetOut => {
            offers.push(ground.amount("drained", "offer-drained-how-much"));
        }
        Advice::StillFlowing => offers.push(ground.held("flowing", "offer-it-still-flows")),
        Advice::FillMore if !ground.port_open => {
            offers.push(ground.amount("filled", "offer-filled-more-how-much"))
        }
        Advice::OpenPort | Advice::HoseOut => {
            offers.push(ground.held("flowing", "offer-fluid-flows-from-the-check-port"));
            offers.push(ground.held("nothing-flows", "offer-nothing-runs-out"));
            offers.extend(ground.drips().then(|| ground.held("drips", "offer-it-only-drips")));
        }
        Advice::WatchStream | Advice::WatchOff | Advice::WatchDrips if ground.drips() => {
            offers.push(ground.held("drips", "offer-it-only-drips"));
            offers.push(ground.held("nothing-flows", "offer-nothing-runs-out"));
        }
        Advice::WatchStream | Advice::WatchOff | Advice::WatchDrips => {
            offers.push(ground.held("trickle", "offer-it-is-a-thin-thread-now"));
            offers.push(ground.held("nothing-flows", "offer-nothing-runs-out"));
        }
        Advice::OpenPortOff | Advice::LookAtEdge | Advice::LetSome if ground.stands_at_an_edge() => {
            offers.push(ground.held("at-edge", "offer-it-stands-at-the-lower-edge"));
            offers.push(Offer {
                ask: Ask::Depth,
                ..ground.plain("below-edge", "offer-it-stands-below-the-edge-how-far")
            });
            offers.push(ground.held("flowing", "offer-it-runs-out-over-the-edge"));
        }
        Advice::OpenPortOff | Advice::LookAtEdge | Advice::LetSome => {
            offers.push(ground.held("flowing", "offer-fluid-runs-out-there"));
            offers.push(ground.held("nothing-flows", "offer-nothing-runs-out"));
        }
        Advice::ReadGauge | Advice::ReadAgain => offers.push(gauge(ground)),
        Advice::DrawOut => offers.push(ground.amount("ran-out", "offer-drawn-out-how-much")),
        Advice::Tighten => {
            if !ground.reads_a_gauge() && ground.balance.is_none_or(|b| b.ran_out_millilitres.is_none()) {
                offers.push(ground.amount("ran-out", "offer-ran-out-from-the-jug-how-much"));
            }
            offers.push(ground.held("torqued", "offer-plugs-tightened-to-the-torques"));
        }
        Advice::TestDrive => {
            offers.push(ground.held("test-driven", "offer-driven-no-leak-seen"));
            offers.push(leak(ground));
        }
        Advice::Finish => offers.push(ground.held("done", "offer-write-the-record")),
        _ => {}
    }
    if ground.port_open {
        offers.push(ground.held("closed", "offer-check-port-closed-hand-tight"));
        if ground.verdict == Verdict::Go && ground.advice == Advice::ClosePortWait {
            offers.push(ground.held("flowing", "offer-fluid-flows-now-at-go"));
        }
    }
    if ground.signal.is_some_and(Signal::is_typed)
        && ground.step.is_some_and(|s| s >= Step::Circulate && s < Step::Torque)
    {
        offers.extend(typed(ground));
    }
    offers.extend(ground.asks_air.then(|| air(ground)));
    match ground.asks {
        // Asked first of all; later it is beside what the hands do.
        Some(question) if ground.open.contains(&Precondition::OnStands) => {
            offers.insert(0, asked(ground, question));
        }
        Some(question) => offers.push(asked(ground, question)),
        None => {}
    }
    offers
}

/// A question as an offer: one of its answers.
fn asked(ground: &Ground<'_>, question: Question) -> Offer {
    let (tell, words) = match question {
        Question::Symptoms => ("symptom", choices(ground, Symptom::ALL)),
        Question::Leaks => ("leak", choices(ground, Leak::ALL)),
        Question::LeakPlace => ("leak-at", choices(ground, LeakPlace::ALL)),
        Question::Fluid => ("fluid-looks", choices(ground, FluidLook::ALL)),
    };
    Offer { ask: Ask::Choice(words), ..ground.labelled(tell, ground.speech.of(question).to_owned()) }
}

/// The rows of a list: the word of each, and its sentence without its stop.
fn choices<L: Listed>(ground: &Ground<'_>, rows: &[L]) -> Vec<(String, String)> {
    let called = |row: L| ground.speech.of(row).trim_end_matches(['.', '।']).to_owned();
    rows.iter().map(|row| (row.as_word().to_owned(), called(*row))).collect()
}

/// What is asked of the engine now, where nothing but people tells it.
fn engine_due(ground: &Ground<'_>) -> Vec<EngineWord> {
    match ground.advice {
        _ if !ground.people => Vec::new(),
        Advice::StartEngine => vec![EngineWord::Idling],
        Advice::AskEngine => vec![EngineWord::Idling, EngineWord::Stopped],
        Advice::SayEngine => vec![EngineWord::Stopped, EngineWord::Idling],
        Advice::StopEngine | Advice::StopNow | Advice::StopAndCool | Advice::ChargeBattery => {
            vec![EngineWord::Stopped]
        }
        _ => Vec::new(),
    }
}

fn engine(ground: &Ground<'_>, what: EngineWord) -> Offer {
    Offer {
        text: Some(what.word().to_owned()),
        ..ground.labelled("engine", ground.speech.of(what).to_owned())
    }
}

/// The next position of the rounds; only the seat inside, where the hand is on the selector, has them.
fn shifted(ground: &Ground<'_>) -> Option<Offer> {
    let (position, label) = ground.rounds.filter(|_| may_shift(ground.open))?.offer(ground.speech)?;
    Some(Offer { text: Some(position), ..ground.labelled("shifted", label) })
}

fn leak(ground: &Ground<'_>) -> Offer {
    let leaks: Vec<Leak> = Leak::ALL.iter().copied().filter(|leak| *leak != Leak::Dry).collect();
    Offer {
        ask: Ask::Choice(choices(ground, &leaks)),
        ..ground.plain("leak", "offer-it-leaks-damp-drops-runs")
    }
}

/// The word that an advice waits for.
fn confirm(ground: &Ground<'_>, what: Precondition) -> Offer {
    let label = match what {
        Precondition::OnStands => "offer-it-stands-on-four-stands",
        Precondition::VehicleLevel => "offer-the-lift-is-known-to-be-level",
        Precondition::ExhaustOutside => "offer-the-exhaust-goes-outside",
        Precondition::BrakeHeld => "offer-the-brake-is-held",
        Precondition::CoolerBypass => "offer-the-cooler-pin-is-in",
        Precondition::SelectorCycled => "offer-rounds-done-selector-back-in-p-parking-brake",
        Precondition::Parked => "offer-p-parking-brake-on-chocks",
        Precondition::FillPortOpen => "offer-the-fill-port-is-open",
        Precondition::FluidRight => "offer-container-read-the-same-words",
        Precondition::PipeIn => "offer-the-pipe-is-in",
        Precondition::ClosedUp => "offer-both-plugs-in-tray-and-hose-away",
        Precondition::Clear => "offer-i-am-out-and-clear",
        Precondition::BypassOut => "offer-the-cooler-pin-is-out",
        Precondition::NoLeak => "offer-no-leak-seen",
        Precondition::Refitted => "offer-covers-and-wheel-are-back-on",
        Precondition::ModeOn => "offer-the-service-mode-is-on",
        Precondition::ReadyOff => "offer-ready-is-off-key-below",
        Precondition::Dry => "offer-it-is-dry",
        Precondition::AllSafe => "offer-everybody-is-safe",
        Precondition::StartedCold => "offer-it-started-cold",
        Precondition::InPosition => "offer-selector-in-the-position-of-the-look",
        Precondition::Filled
        | Precondition::EngineRunning
        | Precondition::EngineIdling
        | Precondition::EngineOff
        | Precondition::Settled
        | Precondition::StandingStill => "offer-it-is-so",
    };
    let hold = matches!(what, Precondition::SelectorCycled | Precondition::Clear);
    Offer { what: Some(what), hold, ..ground.plain("confirm", label) }
}

fn confirmable(ground: &Ground<'_>) -> Vec<Offer> {
    let mut offers = Vec::new();
    for &what in ground.open {
        match what {
            Precondition::VehicleLevel => {
                offers
                    .push(Offer { ask: Ask::Level, ..ground.plain("level", "offer-how-it-stands-measured") });
            }
            Precondition::Filled => {
                offers.push(ground.amount("filled", "offer-filled-how-much"));
                continue;
            }
            Precondition::StartedCold if ground.shows_air => continue,
            _ if what.shown_by_vehicle() && what != Precondition::StartedCold => continue,
            _ => {}
        }
        offers.push(confirm(ground, what));
    }
    offers
}

fn gauge(ground: &Ground<'_>) -> Offer {
    Offer { ask: Ask::Depth, ..ground.plain("gauge", "offer-the-gauge-shows") }
}

/// What the sheet goes by, as a person tells it.
fn typed(ground: &Ground<'_>) -> Vec<Offer> {
    match (ground.signal, ground.lamp) {
        (Some(Signal::Display), _) => {
            vec![Offer {
                ask: Ask::Temperature,
                ..ground.plain("display", "offer-the-number-on-the-display")
            }]
        }
        (Some(Signal::Lamp), Some(lamp)) => {
            let states = [
                (LampState::TooCold, "offer-lamp-too-cold", &lamp.too_cold),
                (LampState::Right, "offer-lamp-right", &lamp.right),
                (LampState::TooHot, "offer-lamp-too-hot", &lamp.too_hot),
            ];
            let offer = |(state, message, shows): (LampState, &'static str, &String)| Offer {
                text: Some(state.word().to_owned()),
                ..ground.labelled("lamp", ground.speech.with(message, &args!(shows = shows.as_str())))
            };
            states.into_iter().map(offer).collect()
        }
        _ => vec![spot(ground)],
    }
}

fn spot(ground: &Ground<'_>) -> Offer {
    // Bare metal is left out: the daemon would refuse it.
    let surfaces = Surface::ALL.iter().filter(|s| **s != Surface::BareMetal);
    let surfaces = surfaces.map(|s| (s.word(), ground.speech.of(*s))).collect();
    Offer { ask: Ask::Spot(surfaces), ..ground.plain("spot", "offer-a-thermometer-s-reading") }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ground(advice: Advice) -> Ground<'static> {
        Ground {
            seat: Seat::Under,
            speech: Speech::default(),
            advice,
            right: None,
            verdict: Verdict::Go,
            open: &[],
            running: true,
            port_open: false,
            step: Some(Step::Window),
            balance: None,
            signal: Some(Signal::Fluid),
            lamp: None,
            people: false,
            shows_air: true,
            sheets: &[],
            rounds: None,
            asks: None,
            asks_air: false,
            finding: None,
            has_sheet: true,
        }
    }

    #[test]
    fn there_is_never_more_than_one_primary_offer() {
        for &advice in Advice::ALL {
            for port_open in [false, true] {
                for seat in [Seat::Under, Seat::Inside] {
                    let open = Precondition::ALL;
                    let offers = offers(&Ground { seat, port_open, open, ..ground(advice) });
                    let primary = offers.iter().filter(|o| o.primary).count();
                    assert!(primary <= 1, "{advice}, port open {port_open}, {seat:?}: {offers:#?}");
                }
            }
        }
    }

    #[test]
    fn whatever_cannot_be_taken_back_is_confirmed_by_holding() {
        for &advice in Advice::ALL {
            for port_open in [false, true] {
                for offer in offers(&Ground { port_open, ..ground(advice) }) {
                    let lasting =
                        ["flowing", "nothing-flows", "closed", "done", "abort"].contains(&offer.tell);
                    assert!(offer.hold || !lasting, "{advice}: {offer:?}");
                }
            }
        }
    }

    #[test]
    fn where_a_gauge_is_read_no_port_is_offered_and_the_reading_always_is() {
        use Advice as A;
        let heard =
            [A::StayClear, A::Settle, A::BeReady, A::ReadGauge, A::ReadAgain, A::DrawOut, A::FillMore];
        for advice in heard {
            let ground = Ground { right: Some(Right::Chart), ..ground(advice) };
            let told: Vec<_> = offers(&ground).into_iter().map(|o| o.tell).collect();
            assert_eq!(told.iter().filter(|tell| **tell == "gauge").count(), 1, "{advice}: {told:?}");
            assert!(!told.contains(&"flowing") && !told.contains(&"nothing-flows"), "{advice}: {told:?}");
        }
        let reads = offers(&Ground { right: Some(Right::Chart), ..ground(Advice::ReadGauge) });
        let first = reads.iter().find(|o| o.primary).unwrap();
        assert_eq!((first.tell, &first.ask), ("gauge", &Ask::Depth));
        let draws = offers(&Ground { right: Some(Right::Chart), ..ground(Advice::DrawOut) });
        assert_eq!(draws.iter().find(|o| o.primary).unwrap().tell, "ran-out");
    }

    #[test]
    fn a_question_is_an_offer_first_on_a_job_just_begun_and_beside_the_work_after() {
        let open = [Precondition::OnStands];
        let asks = Some(Question::Symptoms);
        for seat in [Seat::Under, Seat::Inside] {
            let ground = Ground { seat, asks, open: &open, ..ground(Advice::PrepareVehicle) };
            let offers = offers(&ground);
            let first = offers.iter().find(|o| o.primary).unwrap();
            assert_eq!((first.tell, &first.ask), ("symptom", &Ask::Choice(choices(&ground, Symptom::ALL))));
            assert_eq!(offers.iter().filter(|o| o.tell == "symptom").count(), 1, "{seat:?}");
        }
        for &question in Question::ALL {
            for &advice in Advice::ALL {
                let asked = offers(&Ground { asks: Some(question), ..ground(advice) });
                let plain = offers(&ground(advice));
                let primary = |all: &[Offer]| all.iter().find(|o| o.primary).cloned();
                let own = primary(&plain);
                assert!(
                    own.is_none() || primary(&asked) == own,
                    "{advice}: {question} takes the thumb's place"
                );
                assert!(asked.iter().any(|o| o.label == question.says() && !o.aside), "{advice}: {question}");
            }
        }
    }

    #[test]
    fn the_air_is_offered_where_a_second_band_waits_for_it_and_nowhere_else() {
        for (running, asks_air) in [(false, false), (false, true), (true, false), (true, true)] {
            let open = [Precondition::OnStands];
            let all = offers(&Ground { running, asks_air, open: &open, ..ground(Advice::PrepareVehicle) });
            let air = all.iter().filter(|o| o.tell == "air").count();
            assert_eq!(air, usize::from(asks_air), "running {running}");
            assert!(all.iter().all(|o| o.tell != "air" || !o.primary), "running {running}");
        }
        let said = crate::TypedRequest { at: Some("36C".into()), ..crate::TypedRequest::word("air") };
        assert!(matches!(said.request(), Ok(events::Request::Air { .. })));
    }

    #[test]
    fn each_answer_that_is_offered_is_a_request() {
        for &question in Question::ALL {
            let Offer { tell, ask: Ask::Choice(words), .. } = asked(&ground(Advice::Wait), question) else {
                panic!("{question}")
            };
            for (word, _) in words {
                let said =
                    crate::TypedRequest { text: Some(word.clone()), ..crate::TypedRequest::word(tell) };
                assert!(said.request().is_ok(), "{tell} {word}");
            }
        }
    }

    #[test]
    fn an_open_port_can_always_be_told_closed() {
        for &advice in Advice::ALL {
            let told: Vec<_> = offers(&Ground { port_open: true, ..ground(advice) });
            assert!(told.iter().any(|o| o.tell == "closed" && !o.aside), "{advice}");
        }
    }
}
