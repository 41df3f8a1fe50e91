//! The procedure as one table: what each seat's hands do, and when it is their turn.
//!
//! In: the [`Situation`]. Out: what the procedure wants said to both seats. Read it top-down: the first row whose turn it is
//! counts. Not here: whether it would harm (`guard.rs`), what a word changes (`record.rs`, `hands.rs`).
//!
//! One row is one act or look: its name, when it is due (what must hold before stands in the rows above it and in the
//! guard), what the one below is told, what the one inside is told. What counts as done is the word that the advice awaits
//! ([`Advice::awaits`]) or the word of its step; what undoes it stands in `hands.rs` and `record.rs`.

use events::{Advice, SeatAdvice, Verdict};

use crate::advice::situation::{Motor, OffLook, Port, Short, Situation, Stage};

/// One row.
pub struct Act {
    /// Its name, for tests and the page of all procedures.
    pub name: &'static str,
    /// Whether it is its turn.
    pub due: fn(&Situation) -> bool,
    /// What the one below is told.
    pub under: Advice,
    /// What the one inside is told.
    pub inside: fn(&Situation) -> Advice,
}

const fn act(
    name: &'static str,
    due: fn(&Situation) -> bool,
    under: Advice,
    inside: fn(&Situation) -> Advice,
) -> Act {
    Act { name, due, under, inside }
}

/// What the procedure wants to say.
pub fn wanted(s: &Situation) -> SeatAdvice {
    let row = ACTS.iter().find(|act| (act.due)(s));
    row.map_or(SeatAdvice::to(Advice::ConfirmOpen, Advice::KeepIdling), |act| {
        SeatAdvice::to(act.under, (act.inside)(s))
    })
}

/// While the port is open: it goes on idling until he says closed.
fn until_closed(s: &Situation) -> Advice {
    if s.motor == Motor::Stopped || (s.look_off && s.motor != Motor::Running) {
        Advice::KeepOff
    } else {
        Advice::KeepIdlingUntilClosed
    }
}
/// The engine is to be off.
fn off(s: &Situation) -> Advice {
    match s.motor {
        Motor::Running => Advice::StopEngine,
        // Without an adapter nobody has said yet that it is off.
        Motor::Unknown if s.people => Advice::SayEngine,
        _ => Advice::Wait,
    }
}
fn idling(s: &Situation) -> Advice {
    if s.look_off && s.motor != Motor::Running {
        return if s.motor == Motor::Unknown && s.people { Advice::SayEngine } else { Advice::KeepOff };
    }
    match s.motor {
        Motor::Stopped => Advice::Wait,
        _ if s.ask_engine => Advice::AskEngine,
        _ if s.ask_inside => Advice::ReadInside,
        _ if s.may_stop => Advice::MayStop,
        _ => Advice::KeepIdling,
    }
}
/// A signal that is gone matters where the look waits for it.
fn blind(s: &Situation) -> bool {
    s.no_signal && s.was_at_go() && !s.no_band
}
fn opened(s: &Situation) -> bool {
    s.port.is_open()
}
fn leak_look_due(s: &Situation) -> bool {
    s.set && !s.no_leak && !s.leak && !s.driven
}
fn prepared(s: &Situation) -> bool {
    s.level && s.exhaust
}
fn fill_due(s: &Situation) -> bool {
    // To the edge it is filled by the look, and what belongs in besides comes after it.
    !s.filled || s.awaits_fill || (s.changes && s.short > Short::Vessels && !s.rim_seen && !s.to_the_edge)
}
/// The pipe is to be in before new fluid.
fn pipe_due(s: &Situation) -> bool {
    s.changes && s.pipe && !s.pipe_in && new_fluid(s)
}
/// New fluid is to go in after a drain.
fn new_fluid(s: &Situation) -> bool {
    !s.filled || s.awaits_fill
}

/// The table.
#[rustfmt::skip]
pub const ACTS: &[Act] = {
    use Advice as A;
    &[
    act("start",         |s| s.stage == Stage::None,                                A::StartJob,       |_| A::StartJob),
    act("recheck",       |s| s.stage == Stage::Right,                               A::Recheck,        |_| A::Recheck),
    act("set-again",     |s| s.stage == Stage::Ended,                               A::SetAgain,       |_| A::SetAgain),
    // the check port is open
    act("overheating",   |s| s.port.is_open() && s.overheating,                     A::ClosePortCool,  |_| A::StopNow),
    act("engine-silent", |s| opened(s) && s.engine_silent && !s.look_off,                   A::ClosePortEngine, |_| A::AskEngine),
    act("typed-old",     |s| blind(s) && s.typed,                                   A::ClosePortWait,  until_closed),
    act("blind",         blind,                                                     A::CheckAdapter,   until_closed),
    act("hot",           |s| s.port.is_open() && (s.verdict == Verdict::TooHot || s.port_hot), A::ClosePortCool, until_closed),
    act("gush",          |s| s.port == Port::Gush && s.verdict == Verdict::Go,      A::StillFlowing,   until_closed),
    act("close",         |s| matches!(s.port, Port::Trickle | Port::Gush),          A::ClosePort,      until_closed),
    act("no-level",      |s| opened(s) && s.amount_only,                            A::ClosePort,      until_closed),
    act("not-now",       |s| opened(s) && s.verdict == Verdict::Wait && !s.early_well, A::ClosePortWait, until_closed),
    act("low-enough",    |s| s.port == Port::Nothing && s.fills_there && s.stays_low(), A::ClosePort,      until_closed),
    act("to-the-edge",   |s| s.port == Port::Nothing && s.to_the_edge,              A::FillToEdge,     off),
    act("low-here",      |s| s.port == Port::Nothing && s.fills_there,              A::FillHere,       until_closed),
    act("low",           |s| s.port == Port::Nothing,                               A::FillMore,       until_closed),
    act("too-high",      |s| s.port == Port::High,                                  A::LetSome,        until_closed),
    act("look-edge",     |s| opened(s) && s.height,                                 A::LookAtEdge,     until_closed),
    act("hose-out",      |s| s.port == Port::Poured,                                A::HoseOut,        until_closed),
    act("watch-drips",   |s| s.port == Port::Dry,                                   A::WatchDrips,     idling),
    act("watch-off",     |s| s.port == Port::Stream && s.look_off,                  A::WatchOff,       until_closed),
    act("ask-alone",     |s| s.port == Port::Stream && s.ask_engine && s.alone,     A::AskEngine,      |_| A::AskEngine),
    act("watch",         |s| s.port == Port::Stream,                                A::WatchStream,    idling),
    act("look-off-again", |s| opened(s) && s.look_off,                              A::OpenPortOff,    until_closed),
    act("look-again",    opened,                                                    A::OpenPort,       idling),
    // a right look has counted
    act("tighten",       |s| s.set && !s.torqued,                                   A::Tighten,        off),
    act("pin-out",       |s| s.set && s.pin && s.pin_in && !s.pin_out,              A::TakePinOut,     off),
    act("mend-leak",     |s| s.set && s.leak && !s.no_leak,                         A::MendLeak,       off),
    act("stands-again",  |s| leak_look_due(s) && !s.stands,                         A::PrepareVehicle, off),
    act("drops-look",    |s| leak_look_due(s) && s.no_engine,                       A::LookForDrops,   off),
    act("leak-look",     |s| leak_look_due(s) && s.motor == Motor::Running,         A::LookForLeaks,   idling),
    act("plugs-again",   |s| leak_look_due(s) && !s.closed_up,                      A::CloseUp,        off),
    act("leak-start",    leak_look_due,                                             A::StayOut,        |_| A::StartEngine),
    act("refit",         |s| s.set && s.access && !s.refitted,                      A::Refit,          off),
    act("drive",         |s| s.set && !s.driven && !s.drove,                         A::TestDrive,      |_| A::TestDrive),
    act("finish",        |s| s.set,                                                 A::Finish,         |_| A::Finish),
    // with the engine off
    act("stands",        |s| !s.stands,                                             A::PrepareVehicle, off),
    act("shims",         |s| s.level_refused && !s.drains_first,                    A::ShimStands,     off),
    act("prepare",       |s| !prepared(s) && !s.drains_first,                       A::PrepareVehicle, off),
    act("park",          |s| !s.parked && !s.moving && s.motor != Motor::Running,  A::Park,           |_| A::Park),
    act("cold",          |s| s.cold_untold && (!s.drained || !s.changes) && !s.circulated && s.motor != Motor::Running, A::FeelPan, off),
    act("fill-port",     |s| s.upper_port && !s.fill_port && (!s.drained || (s.check && !s.circulated)),
                                                                                    A::OpenFillPort,   off),
    act("container",     |s| !s.drained && !s.fluid_right,                          A::ReadContainer,  off),
    act("drain",         |s| !s.drained,                                            A::Drain,          off),
    act("shims-late",    |s| s.level_refused && s.drained,                          A::ShimStands,     off),
    act("prepare-late",  |s| !prepared(s) && s.drained,                             A::PrepareVehicle, off),
    act("pipe-asked",    |s| pipe_due(s) && s.little_out,                           A::WasPipeOut,     off),
    act("pipe-in",       pipe_due,                                                  A::PutPipeIn,      off),
    act("fill-to-edge",  |s| new_fluid(s) && s.to_the_edge,                         A::FillToEdge,     off),
    act("fill",          new_fluid,                                                 A::Fill,           off),
    act("amount-low",    |s| s.amount_low,                                          A::FillFirst,      off),
    act("read-jug",      |s| s.jug_due && (s.amount_high || (s.too_much && (s.look_off || s.to_add))), A::ReadJug, off),
    act("amount-high",   |s| s.amount_high,                                         A::LetOut,         off),
    act("amount-unknown", |s| s.amount_only,                                        A::Finish,         |_| A::Finish),
    act("drain-again",   |s| s.drains_again,                                        A::DrainAgain,     off),
    act("too-much",      |s| s.too_much && (s.look_off || s.to_add),                A::LetOut,         off),
    act("add",           |s| s.to_add,                                              A::AddAmount,      off),
    act("look-why-low",  |s| s.stays_low(),                       A::LookWhyLow,     off),
    act("draw-out",      |s| s.reads_high,                                          A::DrawOut,        idling),
    act("fill-here",     |s| s.needs_more && s.fills_there && s.short <= Short::Vessels, A::FillHere,  idling),
    act("fill-more",     |s| s.needs_more && s.short <= Short::Vessels,               A::FillMore,       idling),
    act("fill-short",    |s| s.needs_more || fill_due(s),                           A::FillFirst,      |_| A::KeepOff),
    // a look with the engine off
    act("stop-for-look", |s| s.off_look == OffLook::Stop,                           A::Settle,         off),
    act("open-for-look", |s| matches!(s.off_look, OffLook::Settle | OffLook::Ready) && s.open, A::ConfirmOpen, idling),
    act("settle-off",    |s| s.off_look == OffLook::Settle,                         A::Settle,         idling),
    act("open-off",      |s| s.off_look == OffLook::Ready && s.verdict == Verdict::Go, A::OpenPortOff, idling),
    act("wait-off",      |s| s.off_look == OffLook::Ready,                          A::Settle,         idling),
    act("pin-in",        |s| s.pin && !s.pin_in,                                    A::PutPinIn,       off),
    act("close-up",      |s| !s.closed_up && s.motor != Motor::Running && !s.warm && !s.cooling && s.verdict != Verdict::TooHot, A::CloseUp, off),
    // with the engine running
    act("ignition",      |s| s.ignition_off && !s.warm,                             A::StayOut,        |_| A::StartEngine),
    act("read-inside",   |s| s.no_signal && s.reads_inside,                         A::StayClear,      |_| A::ReadInside),
    act("measure",       |s| s.no_signal && s.typed,                                A::CheckSensor,    idling),
    act("adapter",       |s| s.no_signal,                                           A::CheckAdapter,   |_| A::PushAdapter),
    act("cool",          |s| s.verdict == Verdict::TooHot || s.warm || s.cooling || (s.overheating && s.motor == Motor::Running),
                                                                                    A::StayAway,       |_| A::StopAndCool),
    act("engine",        |s| s.motor != Motor::Running,                             A::StayOut,        |_| A::StartEngine),
    act("brake",         |s| !s.brake && !s.cycled,                                 A::StayOut,        |_| A::HoldBrake),
    act("rounds",        |s| !s.cycled,                                             A::StayOut,        |_| A::CycleSelector),
    act("position",      |s| s.position && !s.look_off,                             A::StayOut,        |_| A::LookPosition),
    act("mode",          |s| s.lamp && !s.mode_on && !s.look_off, A::StayOut,        |_| A::SwitchModeOn),
    act("park-running",  |s| s.people && !s.parked && !s.moving,                    A::StayClear,      |_| A::Park),
    act("still-open",    |s| s.open,                                                A::ConfirmOpen,    idling),
    act("ask-alone",     |s| s.ask_engine && s.alone,                               A::AskEngine,      |_| A::AskEngine),
    act("ask",           |s| s.ask_engine && s.verdict == Verdict::Wait,            A::BeReady,        |_| A::AskEngine),
    act("read-again",    |s| s.gauge && s.again && s.verdict == Verdict::Go,        A::ReadAgain,      idling),
    act("read-gauge",    |s| s.gauge && s.verdict == Verdict::Go,                   A::ReadGauge,      idling),
    act("open",          |s| s.verdict == Verdict::Go,                              A::OpenPort,       idling),
    act("settle",        |s| s.settling && !s.look_off,                             A::Settle,         idling),
    act("compare",       |s| s.doubt,                                               A::CheckSensor,    idling),
    act("ready",         |s| s.soon,                                                A::BeReady,        idling),
    act("warm-up",       |_| true,                                                  A::StayClear,      idling),
    ]
};
