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
    /// One of these names.
    Choice(Vec<String>),
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
}

impl Ground<'_> {
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
            ..held("candidate", &format!("It is the fluid's: {}", leads.place()))
        }));
        if finding.wants_a_thermometer() && offers.iter().all(|known| known.tell != "spot") {
            offers.push(spot());
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
    let mut offers = vec![plain("start", "Start the job")];
    let other = ["check", "alone", "check alone"].map(str::to_owned).to_vec();
    offers.push(Offer { ask: Ask::Choice(other), aside: true, ..plain("start", "Another kind of job") });
    if ground.sheets.len() > 1 {
        offers.push(Offer {
            ask: Ask::Choice(ground.sheets.to_vec()),
            ..plain("sheet", "Choose another sheet")
        });
    }
    offers.extend(ground.asks_air.then(air));
    let number = "Recheck of an earlier job: its number";
    offers.push(danger());
    offers.push(Offer { ask: Ask::Text, aside: true, ..plain("recheck", number) });
    offers
}

fn air() -> Offer {
    Offer { ask: Ask::Temperature, ..plain("air", "Hot day? The air outside, in the shade") }
}

fn running(ground: &Ground<'_>) -> Vec<Offer> {
    let mut offers: Vec<Offer> = engine_due(ground).into_iter().map(engine).collect();
    if let Some(what) = ground.advice.awaits() {
        offers.extend(shifted(ground));
        offers.push(confirm(what));
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
        Advice::CycleSelector => offers.push(held("no-drive", "No drive is felt in gear")),
        Advice::ReadContainer => offers.push(held("fluid-wrong", "It differs: not this fluid")),
        Advice::LookForLeaks | Advice::LookForDrops | Advice::MendLeak => offers.push(leak()),
        Advice::Drain => offers.push(amount("drained", "Drained: how much")),
        Advice::Fill | Advice::FillFirst | Advice::FillToEdge | Advice::AddAmount | Advice::FillHere => {
            offers.push(amount("filled", "Filled: how much"))
        }
        Advice::WasPipeOut => offers.push(amount("drained", "It was in, and more came out: how much")),
        Advice::ReadJug => offers.push(amount("ran-out", "Ran out: how much")),
        Advice::DrainAgain | Advice::DrainWrong | Advice::LetOut => {
            offers.push(amount("drained", "Drained: how much"));
        }
        Advice::StillFlowing => offers.push(held("flowing", "It still flows")),
        Advice::FillMore if !ground.port_open => offers.push(amount("filled", "Filled more: how much")),
        Advice::OpenPort | Advice::HoseOut => {
            offers.push(held("flowing", "Fluid flows from the check port"));
            offers.push(held("nothing-flows", "Nothing runs out"));
            offers.extend(ground.drips().then(|| held("drips", "It only drips")));
        }
        Advice::WatchStream | Advice::WatchOff | Advice::WatchDrips if ground.drips() => {
            offers.push(held("drips", "It only drips"));
            offers.push(held("nothing-flows", "Nothing runs out"));
        }
        Advice::WatchStream | Advice::WatchOff | Advice::WatchDrips => {
            offers.push(held("trickle", "It is a thin thread now"));
            offers.push(held("nothing-flows", "Nothing runs out"));
        }
        Advice::OpenPortOff | Advice::LookAtEdge | Advice::LetSome if ground.stands_at_an_edge() => {
            offers.push(held("at-edge", "It stands at the lower edge"));
            offers
                .push(Offer { ask: Ask::Depth, ..plain("below-edge", "It stands below the edge: how far") });
            offers.push(held("flowing", "It runs out over the edge"));
        }
        Advice::OpenPortOff | Advice::LookAtEdge | Advice::LetSome => {
            offers.push(held("flowing", "Fluid runs out there"));
            offers.push(held("nothing-flows", "Nothing runs out"));
        }
        Advice::ReadGauge | Advice::ReadAgain => offers.push(gauge()),
        Advice::DrawOut => offers.push(amount("ran-out", "Drawn out: how much")),
        Advice::Tighten => {
            if !ground.reads_a_gauge() && ground.balance.is_none_or(|b| b.ran_out_millilitres.is_none()) {
                offers.push(amount("ran-out", "Ran out, from the jug: how much"));
            }
            offers.push(held("torqued", "Plugs tightened to the torques"));
        }
        Advice::TestDrive => {
            offers.push(held("test-driven", "Driven, no leak seen"));
            offers.push(leak());
        }
        Advice::Finish => offers.push(held("done", "Write the record")),
        _ => {}
    }
    if ground.port_open {
        offers.push(held("closed", "Check port closed, hand-tight"));
        if ground.verdict == Verdict::Go && ground.advice == Advice::ClosePortWait {
            offers.push(held("flowing", "Fluid flows now, at go"));
        }
    }
    if ground.signal.is_some_and(Signal::is_typed)
        && ground.step.is_some_and(|s| s >= Step::Circulate && s < Step::Torque)
    {
        offers.extend(typed(ground));
    }
    offers.extend(ground.asks_air.then(air));
    match ground.asks {
        // Asked first of all; later it is beside what the hands do.
        Some(question) if ground.open.contains(&Precondition::OnStands) => {
            offers.insert(0, asked(question));
        }
        Some(question) => offers.push(asked(question)),
        None => {}
    }
    offers
}

/// A question as an offer: one of its answers.
fn asked(question: Question) -> Offer {
    let (tell, words) = match question {
        Question::Symptoms => ("symptom", words(Symptom::ALL, |s| s.word())),
        Question::Leaks => ("leak", words(Leak::ALL, |l| l.word())),
        Question::LeakPlace => ("leak-at", words(LeakPlace::ALL, |p| p.word())),
        Question::Fluid => ("fluid-looks", words(FluidLook::ALL, |f| f.word())),
    };
    Offer { ask: Ask::Choice(words), ..plain(tell, question.says()) }
}

fn words<T: Copy>(all: &[T], word: impl Fn(T) -> &'static str) -> Vec<String> {
    all.iter().map(|one| word(*one).to_owned()).collect()
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

fn engine(what: EngineWord) -> Offer {
    Offer { text: Some(what.word().to_owned()), ..plain("engine", what.says()) }
}

/// The next position of the rounds; only the seat inside, where the hand is on the selector, has them.
fn shifted(ground: &Ground<'_>) -> Option<Offer> {
    let (position, label) = ground.rounds.filter(|_| may_shift(ground.open))?.offer()?;
    Some(Offer { text: Some(position), ..plain("shifted", &label) })
}

fn leak() -> Offer {
    let leaks = Leak::ALL.iter().filter(|l| **l != Leak::Dry);
    let words = leaks.map(|l| l.word().to_owned()).collect();
    Offer { ask: Ask::Choice(words), ..plain("leak", "It leaks: damp, drops, runs") }
}

/// The word that an advice waits for.
fn confirm(what: Precondition) -> Offer {
    let label = match what {
        Precondition::OnStands => "It stands on four stands",
        Precondition::VehicleLevel => "The lift is known to be level",
        Precondition::ExhaustOutside => "The exhaust goes outside",
        Precondition::BrakeHeld => "The brake is held",
        Precondition::CoolerBypass => "The cooler pin is in",
        Precondition::SelectorCycled => "Rounds done, selector back in P, parking brake on",
        Precondition::Parked => "P, parking brake on, chocks",
        Precondition::FillPortOpen => "The fill port is open",
        Precondition::FluidRight => "Container read: the same words",
        Precondition::PipeIn => "The pipe is in",
        Precondition::ClosedUp => "Both plugs in, tray and hose away",
        Precondition::Clear => "I am out and clear",
        Precondition::BypassOut => "The cooler pin is out",
        Precondition::NoLeak => "No leak seen",
        Precondition::Refitted => "Covers and wheel are back on",
        Precondition::ModeOn => "The service mode is on",
        Precondition::ReadyOff => "Ready is off, key below",
        Precondition::Dry => "It is dry",
        Precondition::AllSafe => "Everybody is safe",
        Precondition::StartedCold => "It started cold",
        Precondition::InPosition => "Selector in the position of the look",
        Precondition::Filled
        | Precondition::EngineRunning
        | Precondition::EngineIdling
        | Precondition::EngineOff
        | Precondition::Settled
        | Precondition::StandingStill => "It is so",
    };
    let hold = matches!(what, Precondition::SelectorCycled | Precondition::Clear);
    Offer { what: Some(what), hold, ..plain("confirm", label) }
}

fn confirmable(ground: &Ground<'_>) -> Vec<Offer> {
    let mut offers = Vec::new();
    for &what in ground.open {
        match what {
            Precondition::VehicleLevel => {
                offers.push(Offer { ask: Ask::Level, ..plain("level", "How it stands, measured") });
            }
            Precondition::Filled => {
                offers.push(amount("filled", "Filled: how much"));
                continue;
            }
            Precondition::StartedCold if ground.shows_air => continue,
            _ if what.shown_by_vehicle() && what != Precondition::StartedCold => continue,
            _ => {}
        }
        offers.push(confirm(what));
    }
    offers
}

fn plain(tell: &'static str, label: &str) -> Offer {
    Offer {
        tell,
        what: None,
        text: None,
        label: label.to_owned(),
        ask: Ask::Nothing,
        hold: false,
        primary: false,
        aside: false,
    }
}

fn held(tell: &'static str, label: &str) -> Offer {
    Offer { hold: true, ..plain(tell, label) }
}

fn amount(tell: &'static str, label: &str) -> Offer {
    Offer { ask: Ask::Amount, ..plain(tell, label) }
}

fn gauge() -> Offer {
    Offer { ask: Ask::Depth, ..plain("gauge", "The gauge shows") }
}

/// What the sheet goes by, as a person tells it.
fn typed(ground: &Ground<'_>) -> Vec<Offer> {
    match (ground.signal, ground.lamp) {
        (Some(Signal::Display), _) => {
            vec![Offer { ask: Ask::Temperature, ..plain("display", "The number on the display") }]
        }
        (Some(Signal::Lamp), Some(lamp)) => {
            let states = [
                (LampState::TooCold, "too cold", &lamp.too_cold),
                (LampState::Right, "right", &lamp.right),
                (LampState::TooHot, "too hot", &lamp.too_hot),
            ];
            let offer = |(state, word, shows): (LampState, &str, &String)| Offer {
                text: Some(state.word().to_owned()),
                ..plain("lamp", &format!("Lamp {word}: {shows}"))
            };
            states.into_iter().map(offer).collect()
        }
        _ => vec![spot()],
    }
}

fn spot() -> Offer {
    // Bare metal is left out: the daemon would refuse it.
    let surfaces = Surface::ALL.iter().filter(|s| **s != Surface::BareMetal);
    let surfaces = surfaces.map(|s| (s.word(), s.says())).collect();
    Offer { ask: Ask::Spot(surfaces), ..plain("spot", "A thermometer's reading") }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ground(advice: Advice) -> Ground<'static> {
        Ground {
            seat: Seat::Under,
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
            assert_eq!(
                (first.tell, &first.ask),
                ("symptom", &Ask::Choice(words(Symptom::ALL, |s| s.word())))
            );
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
            let Offer { tell, ask: Ask::Choice(words), .. } = asked(question) else { panic!("{question}") };
            for word in words {
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
